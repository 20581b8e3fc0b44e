"""Values that a claim's words work out: 'the sum of the rim and the gap', 'half the bore plus 2 mm'.

Such words stand for a value where a number could stand, or before a limit of their own. Words for one
quantity, or for a multiple of one, are no such values: their limits are read otherwise.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from functools import reduce

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Const, Divide, Greatest, Least, Magnitude, Multiply, Negate, Term
from scopecheck.exact.fitting import literal
from scopecheck.foundations.kinds import (
    Kind,
    KindError,
    difference_kind,
    product_kind,
    quotient_kind,
    sum_kind,
)
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import MOST_WORDS_OF_A_VALUE, split_list, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.subjects import is_bare_share
from scopecheck.vocabulary.names import Names, Typed

ARTICLES = ("the", "a", "an")


@record
class WorkedOut:
    """A value, the quantities it is made of in the order of the words, and how it is written in symbols."""

    value: Typed
    made_of: tuple[NumberDecl, ...]
    symbols: str
    combined: bool
    """Whether it is made of several values; else of one, or a multiple of it."""


Declared = Callable[[tuple[Token, ...]], NumberDecl | None]


def worked_out(
    tokens: tuple[Token, ...], declared: Declared, names: Names, multiples: bool = False
) -> WorkedOut | None:
    """The value of words that work one out of several, or, with `multiples`, of one; None for all others."""
    if not 2 - multiples < len(tokens) <= MOST_WORDS_OF_A_VALUE or not (multiples or _may_work_out(tokens)):
        return None
    with suppress(KindError):
        made = _Words(declared, names).value(with_fractions(tokens))
        return made if made is not None and (made.combined or multiples) and made.made_of else None
    return None


_NEVER_FIRST = frozenset(
    "at is are being not no more less fewer than or and but , to from between up of by in".split()
)
_NEVER_LAST = _NEVER_FIRST | frozenset(("plus", "minus", "the", "a", "an", "at", "least", "most"))
_NEVER_WITHIN = frozenset(("is", "are", "than", "but"))


def _may_work_out(tokens: tuple[Token, ...]) -> bool:
    """Cheap to ask: may the words be a value at all?"""
    if word_of(tokens[0]) in _NEVER_FIRST or word_of(tokens[-1]) in _NEVER_LAST:
        return False
    said = {word_of(t) for t in tokens}
    return _NEVER_WITHIN.isdisjoint(said) and any(
        not listed("asides", of).isdisjoint(said) for of in ("worked_out", "least", "greatest")
    )


@record
class _Words:
    """Words as values; what declared quantities are called is asked of `declared`."""

    declared: Declared
    names: Names

    def value(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """The value of all of the words. KindError where what they join does not go together."""
        if not tokens:
            return None
        if word_of(tokens[0]) in ARTICLES and len(tokens) > 1:
            return self.value(tokens[1:]) if word_of(tokens[1]) not in ARTICLES else None
        return self.sum(tokens) or self.of_several(tokens) or self.multiple(tokens) or self.single(tokens)

    def single(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """An amount with its unit, or a declared quantity."""
        number = tokens[0].number if len(tokens) == 1 else None
        if number is not None:
            amount = number.unit is not None and not is_bare_share(tokens[0])
            return WorkedOut(literal(number), (), tokens[0].text, False) if amount else None
        found = self.declared(tokens)
        return WorkedOut(self.names.value(found), (found,), found.name, False) if found else None

    def sum(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """`A plus B`, `A minus B`, from left to right; `A divided by B`, `A times B`, which bind closer."""
        said = [word_of(t) for t in tokens]
        for at in (i for i in range(len(said) - 2, 0, -1) if said[i] in ("plus", "minus")):
            first, second = self.value(tokens[:at]), self.value(tokens[at + 1 :])
            if first and second and not (_of_a_share(tokens[:at]) and second.made_of):
                second = _as_difference(tokens[at + 1 :]) or second if _is_level(first) else second
                return _sum((first, second), said[at] == "plus")
        for at in (i for i in range(len(said) - 3, 0, -1) if said[i : i + 2] == ["divided", "by"]):
            first, second = self.value(tokens[:at]), self.value(tokens[at + 2 :])
            if first and second:
                return _quotient(first, second)
        for run in (["multiplied", "by"], ["times"]):
            for at in (i for i in range(len(said) - 1 - len(run), 0, -1) if said[i : i + len(run)] == run):
                first, second = self.value(tokens[:at]), self.value(tokens[at + len(run) :])
                if first and second:
                    return _product(first, second)
        return None

    def of_several(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """`sum of A, B and C`, `product of A and B`, `smaller of A and B`, `difference between A and B`."""
        said = [word_of(t) for t in tokens]
        if said == ["arithmetic"]:
            return None
        if said[0] == "arithmetic":
            return self.of_several(tokens[1:]) if said[1:2] != ["arithmetic"] else None
        if said[:3] == ["absolute", "value", "of"]:
            one = self.ratio(tokens[3:]) or self.value(tokens[3:])
            return one and _magnitude(one)
        if said[:2] == ["absolute", "difference"]:
            return self.of_several(tokens[1:])
        if said[1:2] not in (["of"], ["between"], ["among"]):
            return None
        if said[:2] in (["square", "of"], ["magnitude", "of"]):
            one = self.ratio(tokens[2:]) or self.value(tokens[2:])
            return one and (_product(one, one) if said[0] == "square" else _magnitude(one))
        joiner = "or" if "and" not in said else "and"
        for members in (split_list(tokens[2:], joiner), *self._halves(tokens[2:], joiner)):
            parts = [self.value(m) for m in members]
            several = tuple(p for p in parts if p is not None)
            limit = said[0] in ("minimum", "maximum") and not all(p.made_of for p in several)
            if len(several) == len(parts) > 1 and not limit:
                return _of_several(said[0], several)
        return None

    def ratio(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """`A/B`, `the ratio of A to B`, of which something else is taken; alone phrases have it."""
        said = [word_of(t) for t in tokens]
        start = int(said[:1] == ["the"])
        start += 2 * (said[start : start + 2] == ["ratio", "of"]) or said[start : start + 1] == ["ratio"]
        at = next((i for i, w in enumerate(said) if w in ("/", ":", "to") and i > start), 0)
        if not at or (said[at] == "to" and "ratio" not in said[:start]):
            return None
        first, second = self.value(tokens[start:at]), self.value(tokens[at + 1 :])
        return _quotient(first, second) if first and second and second.made_of else None

    @staticmethod
    def _halves(tokens: tuple[Token, ...], joiner: str) -> list[tuple[tuple[Token, ...], ...]]:
        """Both sides of each joining word, where a side may have such words of its own."""
        places = [i for i, t in enumerate(tokens) if word_of(t) == joiner]
        return [(tokens[:i], tokens[i + 1 :]) for i in places] if len(places) > 1 else []

    def multiple(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """`twice A`, `3 times A`, `5 % of A`, `1/3 of A`: a number times another value."""
        said = [word_of(t) for t in tokens]
        number = tokens[0].number
        times: Fraction | None = None
        rest = 1
        if said[0] in ("twice", "thrice", "double"):
            times = Fraction({"double": 2}.get(said[0]) or NUMBER_WORDS[said[0]])
            rest = 2 if said[1:2] == ["of"] else 1
        elif said[1:2] == ["times"] and (number is None or number.unit is None):
            value = number.value if number else NUMBER_WORDS.get(said[0])
            times, rest = (Fraction(value) if value is not None else None), 2
        elif number is not None and said[1:2] == ["of"]:
            share = is_bare_share(tokens[0])
            if share or (number.unit is None and "/" in number.text):
                times, rest = number.value * (Fraction(1, 100) if share else 1), 2
        of_all = len(tokens) > rest and not is_open_sum(tokens[rest:])
        other = self.value(tokens[rest:]) if times is not None and of_all else None
        if other is None or times is None or other.value.kind is None or other.value.kind.basis == "level":
            return None
        made = Typed(Multiply(Const(times), other.value.term), other.value.kind)
        written = number is not None and tokens[0].text[0].isdigit()
        so_much = tokens[0].text if written else str(times)
        return WorkedOut(made, other.made_of, f"{so_much} * {bracketed(other)}", other.combined)


def _is_level(value: WorkedOut) -> bool:
    return value.value.kind is not None and value.value.kind.basis == "level"


def _as_difference(tokens: tuple[Token, ...]) -> WorkedOut | None:
    """`10 °C` beside a temperature as how far it lies from that; None for all other words."""
    number = tokens[0].number if len(tokens) == 1 else None
    if number is None or number.unit is None or number.unit.symbol != "degC":
        return None
    return WorkedOut(literal(replace(number, unit=find_unit("K"))), (), tokens[0].text, False)


def _of_a_share(tokens: tuple[Token, ...]) -> bool:
    """`5 % of A`: with `plus B` behind it, it could be 5 % of both."""
    return is_bare_share(tokens[0]) and len(tokens) > 1


def is_open_sum(tokens: tuple[Token, ...]) -> bool:
    """`A plus B`, where nothing before it says that all of it is meant."""
    said = [word_of(t) for t in tokens[:3] if word_of(t) not in ARTICLES]
    return any(word_of(t) in ("plus", "minus") for t in tokens) and said[1:2] != ["of"]


def _kinds(parts: tuple[WorkedOut, ...], join: Callable[[Kind, Kind], Kind]) -> Kind:
    return reduce(join, (p.value.kind or PLAIN_KIND for p in parts))


def _alike(parts: tuple[WorkedOut, ...]) -> Kind | None:
    """The one kind of all the values; None where they differ."""
    kinds = {p.value.kind for p in parts}
    return kinds.pop() if len(kinds) == 1 else None


def _joined(value: Typed, parts: tuple[WorkedOut, ...], symbols: str) -> WorkedOut:
    made_of = tuple(dict.fromkeys(d for p in parts for d in p.made_of))
    return WorkedOut(value, made_of, symbols, True)


def _sum(parts: tuple[WorkedOut, ...], plus: bool = True) -> WorkedOut:
    """A sum, or the first value less the others."""
    kind = _kinds(parts, sum_kind if plus else difference_kind)
    terms = [p.value.term for p in parts]
    items = terms if plus else [terms[0], *(Negate(t) for t in terms[1:])]
    symbols = (" + " if plus else " - ").join(p.symbols if plus else bracketed(p) for p in parts)
    whole = all(p.value.whole for p in parts)
    return _joined(Typed(Add(tuple(items)), kind, whole=whole), parts, symbols)


def _product(first: WorkedOut, second: WorkedOut) -> WorkedOut:
    kind = _kinds((first, second), product_kind)
    term = Multiply(first.value.term, second.value.term)
    return _joined(Typed(term, kind), (first, second), f"{bracketed(first)} * {bracketed(second)}")


def _quotient(first: WorkedOut, second: WorkedOut) -> WorkedOut:
    kind = _kinds((first, second), quotient_kind)
    term = Divide(first.value.term, second.value.term, second.symbols)
    return _joined(Typed(term, kind), (first, second), f"{bracketed(first)} / {bracketed(second)}")


def _magnitude(one: WorkedOut) -> WorkedOut | None:
    """How far the value is from zero; None for a temperature, whose zero is a matter of its scale."""
    kind = one.value.kind
    if kind is None or kind.point or not one.made_of:
        return None
    return _joined(Typed(Magnitude(one.value.term), kind), (one,), f"ABS({one.symbols})")


def _of_several(word: str, parts: tuple[WorkedOut, ...]) -> WorkedOut | None:
    """What the word before 'of' makes of several values."""
    terms: tuple[Term, ...] = tuple(p.value.term for p in parts)
    names = ", ".join(p.symbols for p in parts)
    if word in ("sum", "total"):
        return _sum(parts)
    if word == "product":
        return reduce(_product, parts)
    if word == "quotient":
        return _quotient(*parts) if len(parts) == 2 else None
    if word == "difference" and len(parts) == 2:
        apart = _sum(parts, plus=False)
        return _joined(Typed(Magnitude(apart.value.term), apart.value.kind), parts, f"ABS({apart.symbols})")
    kind = _alike(parts)
    if kind is None:
        return None
    if word in ("average", "mean") and kind.basis != "level":
        mean = Multiply(Const(Fraction(1, len(parts))), Add(terms))
        return _joined(Typed(mean, kind), parts, f"({' + '.join(p.symbols for p in parts)}) / {len(parts)}")
    if word == "median" and len(parts) == 3:
        least, most = Least(terms[:2]), Greatest(terms[:2])
        middle = Greatest((least, Least((most, terms[2]))))
        two = ", ".join(p.symbols for p in parts[:2])
        shown = f"GREATEST(LEAST({two}), LEAST(GREATEST({two}), {parts[2].symbols}))"
        return _joined(Typed(middle, kind), parts, shown)
    if word in listed("asides", "least"):
        return _joined(Typed(Least(terms), kind), parts, f"LEAST({names})")
    if word in listed("asides", "greatest"):
        return _joined(Typed(Greatest(terms), kind), parts, f"GREATEST({names})")
    return None


def bracketed(part: WorkedOut) -> str:
    return f"({part.symbols})" if " + " in part.symbols or " - " in part.symbols else part.symbols
