"""Words laid over the patterns of phrases: which phrase they are, of what, and what fills its slots."""
