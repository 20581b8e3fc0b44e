"""Limits of one quantity that one claim states and nothing can meet together: they are of two things.

'A belt moving at 5 m/s and then at 9 m/s': both are marked, not one taken for the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import run_at
from scopecheck.resolve.account import digits_at
from scopecheck.resolve.claim_text import ClaimText

Ends = tuple[Fraction | None, Fraction | None]


def without_contrary(works: Sequence[Work]) -> None:
    """Marks whole what a claim says of one quantity and can hold of no one thing."""
    for work in works:
        gone: set[int] = set()
        for i, j in combinations(range(len(work.limits)), 2):
            a, b = work.limits[i][0], work.limits[j][0]
            if (
                work.of[i] is work.of[j]
                and a.unit == b.unit
                and _apart(_ends(work.text, a), _ends(work.text, b))
            ):
                gone |= {i, j}
        work.unread += [(work.limits[i][0].starts[0], work.limits[i][0].end) for i in sorted(gone)]
        kept = [i for i in range(len(work.limits)) if i not in gone]
        work.limits, work.of = [work.limits[i] for i in kept], [work.of[i] for i in kept]


def _apart(a: Ends, b: Ends) -> bool:
    """Whether no number lies between both pairs of ends."""
    return any(x[1] is not None and y[0] is not None and x[1] < y[0] for x, y in ((a, b), (b, a)))


def _ends(text: ClaimText, stretch: Stretch) -> Ends:
    """The least and the greatest number that a limit lets by, as far as its words tell; else None."""
    numbers = [n for f in stretch.figures if (n := _number(digits_at(text.tokens, f.digits))) is not None]
    if len(numbers) != len(stretch.figures) or stretch.other[1] or stretch.sign:
        return None, None
    if len(numbers) > 1:
        return min(numbers), max(numbers)
    texts = text.texts
    said = range(stretch.starts[0], stretch.end)
    if any(run_at(texts, i, "limits", "saying_at_most") for i in said):
        return None, numbers[0]
    if any(run_at(texts, i, "limits", "saying_at_least") for i in said):
        return numbers[0], None
    return (numbers[0], numbers[0]) if len(said) == 1 + len(stretch.figures) else (None, None)


def _number(digits: str) -> Fraction | None:
    try:
        return Fraction(digits)
    except ValueError:
        return None
