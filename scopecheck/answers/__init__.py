"""Witnesses, the order of preference, refinement, and the questions."""
