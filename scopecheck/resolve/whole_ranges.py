"""Ranges and amounts within a sum, or behind 'over': each is taken whole, or not at all."""

from __future__ import annotations

from typing import TypeAlias

from scopecheck.core.declared import Step
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import COMBINATIONS, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed

Tokens: TypeAlias = tuple[Token, ...]
Why: TypeAlias = tuple[str, str] | None

_ADDED = ("plus", "minus")
_TO = ("to", "-", "–")


def with_range_added(tokens: Tokens) -> Tokens:
    """`the rim plus 1 to 2 mm` as the rim plus from 1 to 2 mm: no range ends at the first number."""
    for at in range(len(tokens) - 3):
        if word_of(tokens[at]) not in _ADDED:
            continue
        again = word_of(tokens[at + 3]) == word_of(tokens[at])  # 'plus 1 mm to plus 2 mm'
        said = (*tokens[: at + 3], *tokens[at + 4 :]) if again else tokens
        if _is_range(said, at + 1):
            return (*said[: at + 1], *words_at(said[at + 1], "from", understood=True), *said[at + 1 :])
    return tokens


def over_so_long(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`over 20 to 40 minutes`, `over at least 20 minutes`, of a step, as for so long: no limit 'over 20'."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, Step):
        return tokens
    said = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(said) if w == "over"):
        ends = [i for i in range(at + 2, len(said)) if tokens[i].number]
        limited = len(ends) == 1 and listed("limits", "inside").issuperset(said[at + 1 : ends[0]])
        if (_is_range(tokens, at + 1) and at + 4 == len(tokens)) or (limited and ends[0] + 1 == len(tokens)):
            return (*tokens[:at], replace(tokens[at], text="for"), *tokens[at + 1 :])
    return tokens


def ends_apart(tokens: Tokens, said: list[str]) -> Why:
    """`the rim minus 1 mm to plus 2 mm`, `1 to 2 mm plus the rim`, `the sum of the rim and 1 to 2 mm`."""
    for at in range(len(said)):
        if said[at] in _ADDED and (end := _second_end(tokens, said, at)):
            return _why(said, at, end)
        if _is_range(tokens, at, ("to", "-", "–", "or", "and")) and said[at + 3 : at + 4] in (
            ["plus"],
            ["minus"],
        ):
            return _why(said, at, at + 4)
        if said[at] in COMBINATIONS and (end := _range_among(tokens, said, at)):
            return _why(said, at, end)
    return None


def _second_end(tokens: Tokens, said: list[str], at: int) -> int:
    """Where a second end begins behind what is added or taken away, and whether it is one: 0 if not."""
    if at + 3 > len(tokens) or not tokens[at + 1].number:
        return 0
    signed = said[at + 3 : at + 4] in (["plus"], ["minus"]) and at + 4 < len(tokens)
    if said[at + 2] in (*_TO, "or") and signed and tokens[at + 4].number:
        return at + 5
    other = said[at + 2] == "or" and at + 3 < len(tokens) and tokens[at + 3].number is not None
    return at + 4 if other else 0


def _range_among(tokens: Tokens, said: list[str], at: int) -> int:
    """Where a range or a limit ends that stands among what is worked out of several: 0 if none does."""
    joined = next((i for i in range(at + 2, len(said)) if said[i] == "and"), 0)
    if said[at] == "total" or said[at + 1 : at + 2] not in (["of"], ["between"]) or not joined:
        return 0
    first = any(t.number for t in tokens[at + 2 : joined])
    if first and (said[at] != "sum" or said[at - 1] != "the" or tokens[joined + 1 :][:1] == ()):
        return 0
    other = tokens[joined + 1 : joined + 3]
    if first and (any(t.number for t in other) or run_at(said, joined + 1, "limits", "openings")):
        return 0  # 'the sum of at least 5 wt% and at most 9 wt%' is what is limited
    begin = at + 2 if first else joined + 1
    width = run_at(said, begin, "limits", "openings")
    if width and begin + width < len(tokens) and tokens[begin + width].number:
        return begin + width + 1
    return begin + 3 if _is_range(tokens, begin, (*_TO, "or")) else 0


def _is_range(tokens: Tokens, at: int, joined: tuple[str, ...] = _TO) -> bool:
    return (
        at + 2 < len(tokens)
        and tokens[at].number is not None
        and word_of(tokens[at + 1]) in joined
        and tokens[at + 2].number is not None
    )


def _why(said: list[str], start: int, end: int) -> Why:
    return (
        f"'{' '.join(said[start:end])}' has a range or a limit within a sum",
        "It does not say which end goes with which sum: say each end in full, 'from the rim plus 1 mm to the"
        " rim plus 2 mm'.",
    )


def within_of_a_sum(said: list[str]) -> Why:
    """`within 10 % of the sum of the rim and the lip`, `within 10 % of the rim plus 1 mm`."""
    for at in (i for i, w in enumerate(said) if w == "within"):
        of = next((i for i in range(at + 1, min(at + 4, len(said))) if said[i] == "of"), 0)
        behind = said[of + 1 :] if of else []
        behind = behind[behind[:1] in (["the"], ["a"]) :]
        if behind[:2] in (["sum", "of"], ["total", "of"]) or not set(_ADDED).isdisjoint(behind):
            return (
                "'within' of a sum does not tell what lies within what",
                "Say: differs from the sum of ... by at most ...",
            )
    return None


def only_with_another(said: list[str], subjects: tuple[Subject, ...]) -> Why:
    """`copper, but zinc only in combination with tin`; `free of copper and of zinc together with tin`.

    `not copper together with zinc` is plain: the one thing and the other are not both there.
    """
    if any(isinstance(s.bound, Typed) for s in subjects):
        return None
    joined = next((i for i in range(len(said)) if any(said[i : i + len(r)] == r for r in _WITH)), 0)
    if not joined:
        return None
    if said[joined - 1] == "only":
        return (
            "'only' of what is there with another asks for neither",
            "Say when the one may be there: where zinc is there, tin is.",
        )
    not_both = said[0] == "not" and joined == 2
    if not not_both and not _SHUT_OUT.isdisjoint(said[:joined]):
        return (
            "'together with' of what is shut out does not tell whether each is, or both together",
            "Write: not both copper and zinc; or each by itself, in a line of its own.",
        )
    return None


_SHUT_OUT = frozenset("free no not without neither excludes excluding".split())
_WITH = [r.split() for r in ("in combination with", "together with", "combined with", "along with")]
