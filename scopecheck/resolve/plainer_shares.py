"""Ways of saying what share there is of something, said more plainly."""

from __future__ import annotations

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.resolve.bare_shares import PERCENT
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.names import Typed
from scopecheck.resolve.plainer_amounts import OPEN_WORDS
from scopecheck.resolve.said_once import BY_WHAT
from scopecheck.resolve.subjects import Subject, is_bare_share
from scopecheck.resolve.usual import words_at

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_ARTICLES = ("the", "a", "an", "said")
_PER = (
    ["with", "respect", "to"], ["relative", "to"], ["based", "on"], ["per"], ["for"], ["to"], ["in"],
)  # fmt: skip
_WHOLES = ("composition", "mixture", "formulation", "total composition", "whole composition")


def shares_plainly(tokens: Tokens, subjects: Things) -> Tokens:
    """What is said of shares of a whole in plainer words; else as it is."""
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    kinds = {b.kind.split[0] for b in bounds if b.kind is not None and not b.kind.dimension}
    if len(bounds) < len(subjects) or len(kinds) != 1 or not kinds <= set(BY_WHAT.values()):
        return tokens
    tokens = _with_basis_of_noun(_without_whole_before(_without_semicolon(tokens)))
    return _per_hundred_parts(tokens, subjects, min(kinds))


def _without_whole_before(tokens: Tokens) -> Tokens:
    """`the composition comprises 5 wt% of oil and 1 wt% of wax` without what holds all of it."""
    words = [word_of(t) for t in tokens]
    start = int(words[0] in _ARTICLES)
    holds = len(words) > start + 2 and words[start] in _WHOLES and words[start + 1] in OPEN_WORDS
    return tokens[start + 1 :] if holds else tokens


def _with_basis_of_noun(tokens: Tokens) -> Tokens:
    """`a proportion by weight of 1 to 5 %`, `a weight fraction of`, as a proportion of 1 to 5 % by weight."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 2):
        behind = words[at] == "by" and words[at - 1] in _OF_SHARES and BY_WHAT.get(words[at + 1])
        basis = behind or (BY_WHAT.get(words[at]) if words[at + 1] in _OF_SHARES else None)
        if not basis:
            continue
        unit = find_unit(PERCENT[basis])
        rest = (*tokens[:at], *tokens[at + (2 if behind else 1) :])
        return tuple(
            replace(t, number=replace(t.number, unit=unit)) if t.number and is_bare_share(t) else t for t in rest
        )
    return tokens


_OF_SHARES = ("proportion", "share", "percentage", "amount", "content", "concentration", "quantity")


def _without_semicolon(tokens: Tokens) -> Tokens:
    """`5 wt% of oil; and 1 wt% of wax` with a comma."""
    return tuple(replace(t, text=",") if t.text == ";" else t for t in tokens)


def with_amount_first(tokens: Tokens, subjects: Things) -> Tokens:
    """`oil and/or wax in an amount of 5 wt%`, `oil, wax or a mixture thereof in`, as 5 wt% of oil and/or wax.

    How much there is may be said of both in total then, and not of each alone.
    """
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(3, len(words) - 4) if words[i : i + 4] == _AMOUNT), 0)
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    if not at or len(kinds) != 2 or any(kind.dimension for kind in kinds):
        return tokens
    before = words[:at]
    mixed = before[-1:] == ["thereof"] and before[-2] in ("mixture", "combination", "blend")
    joined = before[: -4 if before[-3] in _ARTICLES else -3] if mixed else before
    either = mixed or any(before[i : i + 3] == ["and", "/", "or"] for i in range(len(before)))
    named = [w for w in joined if w not in (*_ARTICLES, ",", "or", "and", "/")]
    own = [w for s in subjects for w in s.text.lower().split()]
    if len(subjects) != 2 or not either or sorted(named) != sorted(own):
        return tokens
    first, second = (s.text for s in subjects)
    return (*tokens[at + 4 :], *words_at(tokens[-1], f"of {first} and / or {second}", understood=True))


_AMOUNT = ["in", "an", "amount", "of"]


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
