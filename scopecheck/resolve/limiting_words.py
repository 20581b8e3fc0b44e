"""Words that limit a claim without a number of their own: comparisons, fractions, conditions, choices."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from scopecheck.core.model import UnrestatedSort
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText

Place: TypeAlias = tuple[int, int, UnrestatedSort]
"""From which token to which, and what stands there."""

_BREAKS = frozenset(",;:.()")
_MOST_BETWEEN = 6
"""How many words before 'than' its comparative stands at most: 'fewer pulses than'."""
_IN_QUARTERS = listed("measures", "in_quarters")
_FINITE = frozenset("is are be being was has have which that wherein".split())
_ARTICLES = frozenset("the a an its their said this that".split())


def places(text: ClaimText) -> list[Place]:
    """Every such place of a claim, in the order of the text. None of them says that no line has it."""
    found: list[Place] = []
    for word, rule in _RULES.items():
        found += (place for at in text.where.get(word, ()) if (place := rule(text.texts, at)))
    for word in _fraction_words().intersection(text.where):
        found += (place for at in text.where[word] if (place := _fraction(text.texts, at)))
    found += (p for p in _conditions_behind(text) if p not in found)
    return sorted(found)


def _conditions_behind(text: ClaimText) -> list[Place]:
    """`above 4 mm | until heated`: elsewhere such words tell in which order things are done."""
    ends = (i + 1 for i in text.by if text.by.get(i + 1) is not text.by[i])
    ends = (at + (text.texts[at : at + 2] == [",", "until"]) for at in ends)
    widths = ((at, run_at(text.texts, at, "account", "conditions_behind")) for at in ends)
    return [(at, at + width, "condition word") for at, width in widths if width]


def _compared(texts: list[str], at: int) -> Place | None:
    """`shorter than`, `fewer pulses than`; `rather than` leaves something out."""
    before = texts[at - 1] if at else ""
    if before == "other":
        return None  # 'other than' is an end word
    if before == "rather":
        return at - 1, at + 1, "connective"
    for start in range(at - 1, max(-1, at - 2 - _MOST_BETWEEN), -1):
        if texts[start] in _BREAKS | _FINITE or texts[start][0].isdigit():
            break
        if texts[start] in listed("account", "comparatives"):
            return start, at + 1, "end word"
    return at - before.endswith("er"), at + 1, "end word"  # 'blunter than'


def _fraction(texts: list[str], at: int) -> Place | None:
    """`half as long as`, `one third of its volume`, `two-thirds`; no half of a mould, no third valve."""
    word = texts[at]
    before = at - 2 if texts[max(0, at - 1)] == "-" else at - 1
    counted = before >= 0 and (texts[before] == "one" or NUMBER_WORDS.get(texts[before], 0) > 1)
    then = texts[at + 1] if at + 1 < len(texts) else ""
    start = before if counted else at
    if word == "halves":
        return None  # two of them are the whole thing
    if word == "half":
        return _half(texts, start, at, then)
    if counted and (
        word.endswith("s") or (texts[before] == "one" and (not _noun(then) or then in _IN_QUARTERS))
    ):
        return start, at + 1, "number"
    article = before >= 0 and texts[before] in ("a", "an", "each")
    by_itself = then in ("of", "as") or (word == "quarter" and then in _IN_QUARTERS)
    return (at, at + 1, "number") if article and by_itself else None


def _noun(word: str) -> bool:
    """Whether a word behind 'one third' makes of it a thing that is counted: `at least one third sensor`."""
    return (
        word[:1].isalpha()
        and word not in listed("nouns", "stops")
        and not word.endswith("ed")
        and word not in ("full", "empty", "open", "closed", "that", "as")
    )


def _half(texts: list[str], start: int, at: int, then: str) -> Place | None:
    begins = texts[start - 1] if start else ""
    limit = begins in listed("limits", "inside") - {"in", "the", "a", "an", "of", "and", "from", "or", "on"}
    if then == "-" or begins in listed("account", "halved") or (start < at and _noun(then)):
        return None
    if then in {"as", "that"} | _ARTICLES or texts[at - 2 : at] == ["and", "a"]:
        return start, at + 1, "number"
    if then == "of":
        noun = texts[at + 2 :][texts[at + 2 : at + 3] != [] and texts[at + 2] in _ARTICLES :][:3]
        measured = not _named_limit(noun).isdisjoint(listed("measures", "nouns"))
        return (start, at + 1, "number") if limit or measured or start == at else None
    return (start, at + 1, "number") if limit or begins == "by" else None


def _condition(texts: list[str], at: int) -> Place | None:
    """`if`, `when`, `otherwise`; no `if desired`, which leaves open, no `even if`, which asks nothing."""
    if any(
        run_at(texts, i, *of) > at - i
        for of in (("account", "no_conditions"), ("clauses", "examples"))
        for i in range(max(0, at - 2), at + 1)
    ):
        return None
    return at, at + 1, "condition word"


def _runs_of_condition(texts: list[str], at: int) -> Place | None:
    width = run_at(texts, at, "account", "conditions")
    return (at, at + width, "condition word") if width else None


def _once(texts: list[str], at: int) -> Place | None:
    """`once the pressure is reached`: when, and not how often."""
    then = texts[at + 1] if at + 1 < len(texts) else ""
    how_often = {then, *texts[at + 2 : at + 3]} & listed("measures", "periods")
    return (
        (at, at + 1, "condition word") if then in listed("limits", "once_before") and not how_often else None
    )


def _chosen(texts: list[str], at: int) -> Place | None:
    """`selected from`, with `among`; what of it comes right before words of a line is that line's."""
    width = run_at(texts, at, "account", "choosing")
    return (at, at + width, "limiting word") if width else None


def _beside(texts: list[str], at: int) -> Place | None:
    """`below the ambient pressure`, `above a threshold`; no rib above the rim."""
    start = at + 1
    start += start < len(texts) and texts[start] in _ARTICLES
    found = _named_limit(texts[start : start + 5])
    if texts[at] in ("over", "under"):
        found &= listed("account", "thresholds")
    return (at, at + 1, "end word") if found else None


def _named_limit(words: list[str]) -> frozenset[str]:
    """What of a noun's words names a value that others lie above or below: `pressure`, `threshold`.

    Behind another noun it makes a thing of it: a pressure sensor.
    """
    found: set[str] = set()
    for i, word in enumerate(words):
        if not word[0].isalpha() or word in listed("nouns", "stops"):
            break
        then = words[i + 1] if i + 1 < len(words) else ""
        ends = not _noun(then) or then in listed("mention", "verbs")
        point = word == "point" and i > 0 and words[i - 1] in listed("account", "points")
        if ends and (point or word in listed("account", "named_limits")):
            found.add(word)
    return frozenset(found)


def led_to_a_line(text: ClaimText, end: int) -> bool:
    """Whether only 'the group consisting of' or the like stands between here and the words of a line."""
    while end < len(text.texts) and end not in text.taken and text.texts[end] in _LEADING:
        end += 1
    return end < len(text.texts) and end in text.taken


_LEADING = frozenset(
    "the a group list set consisting comprising containing including of from among :".split()
)


def _fraction_words() -> frozenset[str]:
    return frozenset(word_lists()["fractions"])


_RULES: dict[str, Callable[[list[str], int], Place | None]] = {
    "than": _compared,
    **dict.fromkeys(("if", "when", "whenever", "otherwise"), _condition),
    **dict.fromkeys(("selected", "chosen", "picked"), _chosen),
    **dict.fromkeys(("above", "below", "beneath", "over", "under"), _beside),
    "once": _once,
    **dict.fromkeys(("provided", "as", "in", "on", "so"), _runs_of_condition),
}
