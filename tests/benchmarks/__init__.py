"""Speed and memory, measured on demand and never asserted in a test."""
