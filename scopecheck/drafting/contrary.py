"""Limits of one quantity that nothing can meet together, or that hold in different states.

They are of two things. 'A belt moving at 5 m/s and then at 9 m/s', 'at most 5 % after 10 days and at most
20 % after 60 days': both are marked, with the state in which each is to hold, not one taken for the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from scopecheck.drafting.limits import Figure, Stretch
from scopecheck.drafting.marks import with_of
from scopecheck.drafting.naming import kind_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import run_at, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.account import digits_at
from scopecheck.resolve.claim_text import ClaimText

Ends = tuple[Fraction | None, Fraction | None]
MOST_OF_STATE = 10
"""How many words 'at a temperature of 20 °C' may have behind a limit."""


def without_contrary(works: Sequence[Work]) -> None:
    """Marks whole what claims say of one quantity in different states, or of which no one thing has both."""
    states: dict[int, set[str]] = {}
    ends: dict[tuple[int, int], int] = {}
    for work in works:
        for i, (stretch, _) in enumerate(work.limits):
            ends[id(work), i] = end = _state_end(work.text, stretch)
            said = " ".join(work.text.texts[_state_start(work.text, stretch) : end])
            states.setdefault(id(work.of[i]), set()).update([said] if said else [])
    for work in works:
        gone = {i for i, of in enumerate(work.of) if ends[id(work), i] and len(states[id(of)]) > 1}
        for i, j in combinations(range(len(work.limits)), 2):
            a, b = work.limits[i][0], work.limits[j][0]
            if work.of[i] is work.of[j] and _apart(_ends(work.text, a), _ends(work.text, b)):
                gone |= {i, j}
        work.unread += [
            (work.limits[i][0].starts[0], ends[id(work), i] or work.limits[i][0].end) for i in sorted(gone)
        ]
        kept = [i for i in range(len(work.limits)) if i not in gone]
        work.limits, work.of = [work.limits[i] for i in kept], [work.of[i] for i in kept]


def _state_start(text: ClaimText, stretch: Stretch) -> int:
    """Where the words for a state would begin behind a limit and what it is of: 'of the charge'."""
    return (
        with_of(text, stretch.end - 1) if text.texts[stretch.end : stretch.end + 1] == ["of"] else stretch.end
    )


def _state_end(text: ClaimText, stretch: Stretch) -> int:
    """Where 'after 10 days', 'at 20 °C', 'in the dry state' ends behind a limit; 0 where none stands."""
    texts = text.texts
    at = _state_start(text, stretch)
    word = texts[at] if at < len(texts) else ""
    if word not in _IN_STATES or kind_of(stretch.unit) == "time" or stretch.under[1] or stretch.condition:
        return 0
    end = at + 1
    while end < min(len(texts), at + MOST_OF_STATE) and texts[end] not in _PARTING:
        end += 1
    said = texts[at + 1 : end]
    moment = word in ("after", "before", "during", "upon") and bool(said)
    numbered = any(t[0].isdecimal() or NUMBER_WORDS.get(t, 0) > 1 for t in said)
    state = bool(said) and said[-1] in words("limits", "states_of")
    return end if moment or numbered or state else 0


_IN_STATES = frozenset("after before during upon at under within in".split())
_PARTING = frozenset(", ; : . and or but wherein while when if which".split())


def _apart(a: Ends, b: Ends) -> bool:
    """Whether no number lies between both pairs of ends."""
    return any(x[1] is not None and y[0] is not None and x[1] < y[0] for x, y in ((a, b), (b, a)))


def _ends(text: ClaimText, stretch: Stretch) -> Ends:
    """The least and the greatest value that a limit lets by, as far as its words tell; else None."""
    numbers = [n for f in stretch.figures if (n := _number(text, f, stretch)) is not None]
    tied = stretch.other[1] or stretch.sign or stretch.condition
    if len(numbers) != len(stretch.figures) or tied:
        return None, None
    if len(numbers) > 1:
        return min(numbers), max(numbers)
    texts = text.texts
    for i in range(
        stretch.starts[0], stretch.end
    ):  # the first that is met: 'not less than' holds 'less than'
        if run_at(texts, i, "limits", "saying_at_least"):
            return numbers[0], None
        if run_at(texts, i, "limits", "saying_at_most"):
            return None, numbers[0]
    figure = stretch.figures[0]
    alone = (stretch.starts[0], stretch.end) == (figure.start, figure.end)
    return (numbers[0], numbers[0]) if alone else (None, None)


def _number(text: ClaimText, figure: Figure, stretch: Stretch) -> Fraction | None:
    """A number in base units, so that '2 h' is beside '5 min'; without a unit it has that of the next."""
    digits = digits_at(text.tokens, figure.digits)
    try:
        number = Fraction(NUMBER_WORDS[digits]) if digits in NUMBER_WORDS else Fraction(digits)
    except ValueError:
        return None
    unit = figure.unit or stretch.unit
    return unit.to_base(number) if unit is not None else number
