"""Words for numbers from zero to ninety-nine, and for how often."""

from __future__ import annotations

_UNITS = "zero one two three four five six seven eight nine".split()
_TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
NUMBER_WORDS = {
    **{word: n for n, word in enumerate(_UNITS + _TEENS)},
    "once": 1,
    "twice": 2,
    "thrice": 3,
    "dozen": 12,
    **{word: 10 * n for n, word in enumerate(_TENS, 2)},
    **{f"{ten}-{one}": 10 * n + k for n, ten in enumerate(_TENS, 2) for k, one in enumerate(_UNITS[1:], 1)},
}
WORDS_OF_NUMBERS = {n: w for w, n in reversed(NUMBER_WORDS.items())}
"""The first word for each number."""
ONE_OR_MORE = (["at", "least", "one"], ["one", "or", "more"])
