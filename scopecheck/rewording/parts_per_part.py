"""So many parts of one thing to a part of another, `2 to 4 parts of A per part of B`; 'any of' several."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import GOVERNING, has_number, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed
from scopecheck.vocabulary.parts import plural_of

Tokens = tuple[Token, ...]
_PER = (["per"], ["to"], ["for", "each"], ["for", "every"], ["for"])
_BY = {"by weight": "by mass", "by mass": "by mass", "by volume": "by volume"}


def with_parts_per_part(
    tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...] = ("", "")
) -> Tokens:
    """The words as so many times the second thing, of two shares or amounts of one kind.

    So many per hundred parts are as many per cent of it. Only where all of the words are so many parts of
    the first to one part, or to so many, of the second; by weight or by volume only of what is counted so.
    """
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return tokens
    one, other = (s.bound.kind for s in subjects if isinstance(s.bound, Typed))
    if one is None or one != other or one.basis == "level":
        return tokens
    said = [word_of(t) for t in tokens]
    first = next((i for i, w in enumerate(said) if w in ("part", "parts")), 0)
    numbers = [t.number for t in tokens[:first] if t.number is not None]
    if not first or not has_number(tokens[first - 1]) or any(n.unit is not None for n in numbers):
        return tokens
    rest, counted = said[first + 1 :], [""]
    first_name, second_name = (s.text for s in subjects)
    behind = of_it(rest, first_name, counted, second_name, notes[0], one=True)
    per = next((run for run in _PER if behind is not None and behind[: len(run)] == run), None)
    if behind is None or per is None:
        return tokens
    behind = behind[len(per) :]
    divisor = Fraction(1)
    if behind and (behind[0] in NUMBER_WORDS or behind[0].isdecimal()):
        divisor = Fraction(behind[0]) if behind[0].isdecimal() else Fraction(NUMBER_WORDS[behind[0]])
        behind = behind[1:]
    elif per in (["to"], ["for"]) and behind[:1] not in (["a"], ["each"]):
        return tokens
    else:
        behind = behind[1:] if behind[:1] == ["a"] else behind
    if (
        behind[:1] not in (["part"], ["parts"])
        or not divisor
        or of_it(behind[1:], second_name, counted, first_name, notes[1]) != []
    ):
        return tokens
    by = one.split[0] if not one.dimension else ("by volume" if _is_volume(subjects[0]) else "by mass")
    if any(c and by and _BY[c] != by for c in counted) or (
        not any(counted) and by not in ("by mass", "by volume", "")
    ):
        return tokens
    named = f"{'of' if divisor == _HUNDRED else 'times'} the {subjects[1].text}".split()
    limit = tuple(_in_percent(t) if divisor == _HUNDRED else _divided(t, divisor) for t in tokens[:first])
    last = tokens[-1]
    return (*limit, *(replace(last, sort="word", text=w, start=last.end) for w in named))


_HUNDRED = 100


def with_parts_in_total(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`A and B in a total amount of 1 to 5 parts per 100 parts of C`: the sum of A and B, so much of C.

    Only where every one but the last is named, joined by 'and', and nothing else is said beside the parts.
    """
    said = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects[:-1]]
    if len(names) < 2 or "per" not in said or listed("asides", "together").isdisjoint(said):
        return tokens
    starts = [_place(said, name) for name in names]
    order = [*starts, said.index("per")]
    if -1 in starts or sorted(order) != order:
        return tokens
    first, end = starts[0], starts[-1] + len(names[-1])
    between = {*said[first:end]} - {w for name in names for w in name}
    if not between <= {"and", ",", "the"} or "and" not in between:
        return tokens
    beside = (*tokens[:first], *tokens[end:])
    rest = tuple(t for t in beside if word_of(t) not in _IN_TOTAL)
    if not rest or not (has_number(rest[0]) or word_of(rest[0]) in _LIMITS):
        return tokens
    parts = with_parts_per_part(rest, (subjects[0], subjects[-1]), (notes[0], notes[-1]))
    if parts == rest:
        return tokens
    summed = " and ".join(s.text for s in subjects[:-1])
    return (*words_at(tokens[0], f"the sum of {summed} is", understood=True), *parts)


def _place(said: list[str], name: list[str]) -> int:
    return next((i for i in range(len(said)) if said[i : i + len(name)] == name), -1)


_LIMITS = frozenset("at not no more less from between about up".split())
_IN_TOTAL = frozenset(
    "contains comprises containing comprising includes including a an the in total totalling combined"
    " amount amounts content sum of together are is".split()
) | {","}


def of_it(
    said: list[str], name: str, counted: list[str], other: str, note: str = "", one: bool = False
) -> list[str] | None:
    """What stands behind `[by weight] of NAME`; None where that does not stand there.

    For its name what its note says may stand, or what shares a word with the name that the other's does not
    have, and has none of the other's own. The first of two need not be named: `2 parts by
    weight per part by weight of the resin`.
    """
    if " ".join(said[:2]) in _BY:
        counted.append(" ".join(said[:2]))
        said = said[2:]
    if one and any(said[: len(run)] == run for run in _PER):
        return said
    said = said[1:] if said[:1] == ["of"] else said
    said = said[1:] if said[:1] in (["the"], ["said"], ["a"], ["an"]) else said
    own = name.lower().split()
    if said[: len(own)] == own:
        return said[len(own) :]
    others = {*other.lower().split()}
    known = {w.strip(",;()") for w in f"{name} {note}".lower().split()} - _UNTOLD - others
    end = next((i for i, w in enumerate(said) if w in _ENDS), len(said))
    called = (
        0 < end <= _MOST and not known.isdisjoint(said[:end]) and (others - {*own}).isdisjoint(said[:end])
    )
    return said[end:] if called else None


_ENDS = frozenset("per to for".split())
_MOST = 3
_UNTOLD = frozenset("part parts by weight mass volume of the a an number share amount".split())


def _is_volume(subject: Subject) -> bool:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    return kind is not None and kind.dimension == (("length", 3),)


def _in_percent(token: Token) -> Token:
    number = token.number
    if number is None and word_of(token) in NUMBER_WORDS:
        number = Number(str(NUMBER_WORDS[word_of(token)]), Fraction(NUMBER_WORDS[word_of(token)]), 0, None)
    if number is None:
        return token
    return replace(token, sort="number", number=replace(number, unit=find_unit("%")))


def _divided(token: Token, divisor: Fraction) -> Token:
    if divisor == 1:
        return token
    value = token.number.value if token.number else None
    if value is None and word_of(token) in NUMBER_WORDS:
        value = Fraction(NUMBER_WORDS[word_of(token)])
    if value is None:
        return token
    made = Number(f"{token.text}/{divisor}", value / divisor, 0, None)
    return replace(token, sort="number", number=made)


def with_any_of_them(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`thicker than any of the top and the core`, `than any of the layers`, as than each of them.

    Layers called by one word and a number are all that are so called left of the colon.
    """
    said = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(said) - 2) if said[i : i + 3] in (["than", "any", "of"], _EITHER)), 0)
    others = subjects[1:]
    if not at or len(others) < 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in others):
        return tokens
    behind = [w for w in said[at + 3 :] if w not in ("the", "said", "these", "them")]
    each = (*tokens[: at + 1], replace(tokens[at + 1], text="each"), tokens[at + 2])
    names = [s.text.lower() for s in others]
    listed = f" {' '.join(behind)} "
    if all(f" {name} " in listed for name in names) and "and" in behind:
        return (*each, *tokens[at + 3 :])
    called = {" ".join(name.split()[:-1]) for name in names if name.split()[-1].isdecimal()}
    if len(called) != 1 or " ".join(behind) != f"{called.pop()}s" or len(names) != len(set(names)):
        return tokens
    last = tokens[-1]
    run: list[str] = []
    for i, s in enumerate(others):
        run += ([","] if 0 < i < len(others) - 1 else ["and"] if i else []) + s.text.split()
    return (*each, *(replace(last, sort="word", text=w, start=last.end) for w in run))


_EITHER = ["than", "either", "of"]


def with_any_in_a_condition(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`if any of the ribs is taller than 5 mm`, `if any rib is`, of like parts, as if at least one is."""
    said = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(said) - 2) if said[i] == "any" and _in_a_condition(said, i)), 0)
    if not at or len(subjects) < 2 or not any(s.parts for s in subjects):
        return tokens
    end = at + 1 + (said[at + 1] == "one")
    several = [s.text.lower().rpartition(" of the ")[2].split() for s in subjects if s.parts]
    words, behind = ["at", "least", "one"], end
    for name in several if said[end] != "of" else ():
        run = said[end : end + len(name)]
        if len(run) == len(name) and [*run[:-1], plural_of(run[-1])] == name:
            words, behind = [*words, "of", "the", *name], end + len(name)
    if said[end] != "of" and behind == end:
        return tokens
    one = (replace(tokens[at], text=w, end=tokens[at].start) for w in words)
    return (*tokens[:at], *one, *tokens[behind:])


def _in_a_condition(said: list[str], at: int) -> bool:
    """Does a condition begin right before this word, or before the name of what `any` part has?"""
    before = next((i for i in range(at - 1, max(at - 6, -1), -1) if said[i] in _CONDITIONS), None)
    return before is not None and {*said[before + 1 : at]}.isdisjoint((",", "is", "are", "not"))


_CONDITIONS = GOVERNING | {"until", "that"}
