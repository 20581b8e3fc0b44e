"""Ways of saying what share there is of something, said more plainly."""

from __future__ import annotations

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.names import Typed
from scopecheck.resolve.said_once import BY_WHAT
from scopecheck.resolve.shared_limits import says_limit
from scopecheck.resolve.subjects import Subject
from scopecheck.resolve.usual import words_at

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_ARTICLES = ("the", "a", "an", "said")
_PER = (
    ["with", "respect", "to"], ["relative", "to"], ["based", "on"], ["per"], ["for"], ["to"], ["in"],
)  # fmt: skip
_VERBS = ("is", "are", "being", "has", "have", "having", "exceeds", "exceed", "and", "or", "to")
_WHOLES = ("composition", "mixture", "formulation", "total composition", "whole composition")


def shares_plainly(tokens: Tokens, subjects: Things) -> Tokens:
    """What is said of shares of a whole in plainer words; else as it is."""
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    kinds = {b.kind.split[0] for b in bounds if b.kind is not None and not b.kind.dimension}
    if len(bounds) < len(subjects) or len(kinds) != 1 or not kinds <= set(BY_WHAT.values()):
        return tokens
    return _per_hundred_parts(_without_semicolon(tokens), subjects, min(kinds))


def _without_semicolon(tokens: Tokens) -> Tokens:
    """`5 wt% of oil; and 1 wt% of wax` with a comma."""
    return tuple(replace(t, text=",") if t.text == ";" else t for t in tokens)


def with_amount_elided(tokens: Tokens, subjects: Things) -> Tokens:
    """`at least one of oil and wax ... at most 5 wt%` with `in an amount of` for what is left out.

    What is left out there joins an amount to things; the words alone say that one has a value.
    """
    gap = next((i for i, t in enumerate(tokens) if t.sort == "gap"), 0)
    words = [word_of(t) for t in tokens]
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    shares = len(kinds) == len(subjects) > 1 and not any(kind.dimension for kind in kinds)
    last = {s.text.lower().split()[-1] for s in subjects}
    chosen = words[:3] in ONE_OR_MORE or "or" in words[:gap]
    behind = tokens[gap + 1] if gap + 1 < len(tokens) else None
    if not (shares and gap and chosen and words[gap - 1] in last) or behind is None:
        return tokens
    if words[gap + 1] in _VERBS or not (behind.number or says_limit((behind,))):
        return tokens
    return (*tokens[:gap], *words_at(behind, "in an amount of", understood=True), *tokens[gap + 1 :])


def _per_hundred_parts(tokens: Tokens, subjects: Things, basis: str) -> Tokens:
    """`20 to 30 parts by mass with respect to 100 parts by mass of oil` as 20 to 30 % of the oil.

    Of 100 parts of the composition it is a share of the whole.
    """
    words = [word_of(t) for t in tokens]
    hundred = next((i for i, t in enumerate(tokens) if _is_hundred_parts(tokens, words, i)), None)
    run = next((r for r in _PER if hundred and words[hundred - len(r) : hundred] == r), []) if hundred else []
    if hundred is None or not run:
        return tokens
    behind, by = _behind_parts(words, hundred)
    whole = [w for w in words[behind + 1 :] if w not in _ARTICLES]
    parts = [i for i, t in enumerate(tokens[:hundred]) if t.number and words[i + 1 : i + 2] == ["parts"]]
    told = {by, *(_behind_parts(words, i)[1] for i in parts)} - {""}
    if words[behind : behind + 1] != ["of"] or not parts or not whole or told - {basis}:
        return tokens
    of_all = " ".join(whole) in _WHOLES
    limited = subjects[0] if len(subjects) == 1 else _other_than(whole, subjects)
    if limited is None:
        return tokens
    said = _without_parts(tokens[: hundred - len(run)], "wt%" if of_all and basis == "by mass" else "%")
    said = _without_own(said, limited)
    if of_all:
        return said if basis == "by mass" and len(subjects) == 1 else tokens
    is_so = words_at(tokens[0], f"the {limited.text} is", understood=True) if len(subjects) == 2 else ()
    return (*is_so, *said, *words_at(tokens[-1], f"of the {' '.join(whole)}", understood=True))


def _is_hundred_parts(tokens: Tokens, words: list[str], at: int) -> bool:
    number = tokens[at].number
    hundred = number is not None and number.value == 100 and number.unit is None
    return hundred and words[at + 1 : at + 2] == ["parts"]


def _behind_parts(words: list[str], at: int) -> tuple[int, str]:
    """Where the words behind `100 parts by mass` begin, and by what the parts are; '' if that is not said."""
    by = words[at + 2 : at + 3] == ["by"] and words[at + 3 : at + 4] != []
    return (at + 4, BY_WHAT.get(words[at + 3], "?")) if by else (at + 2, "")


def _other_than(whole: list[str], subjects: Things) -> Subject | None:
    others = [s for s in subjects if s.text.lower().split() != whole]
    return others[0] if len(subjects) == 2 and len(others) == 1 else None


def _without_parts(tokens: Tokens, symbol: str) -> Tokens:
    words, unit = [word_of(t) for t in tokens], find_unit(symbol)
    found, at = list[Token](), 0
    while at < len(tokens):
        number = tokens[at].number
        found.append(replace(tokens[at], number=replace(number, unit=unit)) if number else tokens[at])
        at = _behind_parts(words, at)[0] if number and words[at + 1 : at + 2] == ["parts"] else at + 1
    return tuple(found)


def _without_own(tokens: Tokens, subject: Subject) -> Tokens:
    """Without `of the wax` behind, or `wax in an amount of` before."""
    words, own = [word_of(t) for t in tokens], subject.text.lower().split()
    for article in ([], ["the"], ["a"]):
        behind = ["of", *article, *own]
        if words[-len(behind) :] == behind:
            return tokens[: -len(behind)]
    return tokens
