"""Exercises with counterexamples: made from a seed, solved before they are set, graded exactly."""
