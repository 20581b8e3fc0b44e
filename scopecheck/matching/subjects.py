"""What stands left of a colon, and the tokens right of it with the units they leave out."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, SetDecl
from scopecheck.core.formula import Formula
from scopecheck.foundations.quantity import PLAIN_KIND, POINTS, Unit, find_unit
from scopecheck.foundations.record import field, record, replace
from scopecheck.foundations.spans import Span
from scopecheck.language.scan import Token
from scopecheck.vocabulary.names import Bound, Typed

LISTS = (SetDecl, ChoiceDecl, Composition, Assembly)
"""What has members that words may list."""


@record
class Subject:
    """What stands left of the colon."""

    bound: Bound
    text: str
    span: Span
    parts: OfParts | None = None
    asked: Mapping[str, Bound] = field(default_factory=dict)
    """What a reading may ask of the number of like parts besides the number, and how that is shown."""
    asked_shown: Mapping[str, str] = field(default_factory=dict)
    mixture: Composition | Assembly | None = None
    """A composition, an assembly, or a class of ingredients as a list; the amount of the class is `bound`."""
    moments: Mapping[str, tuple[str, Typed]] = field(default_factory=dict)
    """Of a quantity of a step, by moment: its name there and its value."""

    @property
    def of_parts(self) -> bool:
        """Has each of several parts a value of it? A class of ingredients has one, what they are together."""
        return self.parts is not None and self.parts.sort == "parts"

    @property
    def listing(self) -> Bound:
        """What it is as a list, where it is a class of ingredients; else what it is."""
        return self.mixture or self.bound


def at_its_end(subject: Subject, moment: str = "end") -> Subject:
    """A quantity of a step where the step ends, or at another moment of it; any other thing as it is."""
    if not subject.moments:
        return subject
    name, value = subject.moments[moment]
    return replace(subject, bound=value, text=name, moments={})


@record
class OfParts:
    """A field of like parts, or the members of a class: of each, with what says it is there, and together.

    `sort` is "parts" or "classes", as phrases call what they are for.
    """

    count: Typed
    called: str
    there: tuple[Formula, ...]
    each: tuple[Bound, ...]
    together: Mapping[str, Typed]
    facts: Mapping[str, Formula]
    gaps: Mapping[str, Typed]
    """The shortest and the longest step from one part to the next, with no value where there is one part
    only, and the spread of all of them, with no value where there is none."""
    sort: str = "parts"


def without_unit(tokens: tuple[Token, ...]) -> frozenset[int]:
    """Where the numbers stand that have no unit of their own."""
    return frozenset(t.start for t in tokens if t.number and t.number.unit is None)


def is_bare_share(token: Token) -> bool:
    """Is it a number in percent, on no basis? Percentage points are a difference, and a share of nothing."""
    unit = token.number.unit if token.number else None
    share = unit is not None and unit.kind == PLAIN_KIND and unit.factor == Fraction(1, 100)
    return share and not is_in_points(token)


def is_in_points(token: Token) -> bool:
    unit = token.number.unit if token.number else None
    return unit is not None and unit.symbol == POINTS


def is_fraction(token: Token) -> bool:
    """Is it a fraction, '1/3' or 'one third' or 0.3?"""
    number = token.number
    part = number is not None and "." in number.text and 0 < number.value < 1
    return number is not None and number.unit is None and ("/" in number.text or part)


def without_basis(tokens: tuple[Token, ...], basis: str = "") -> tuple[Token, ...]:
    """Shares on that basis, or on any, as shares of something else on the same: '5 % by weight' as '5 %'."""
    percent = find_unit("%")
    found: list[Token] = []
    for token in tokens:
        unit = token.number.unit if token.number else None
        share = unit is not None and not unit.kind.dimension and bool(unit.kind.basis)
        alike = unit is not None and share and (not basis or unit.kind.split[0] == basis)
        if token.number and unit and alike and unit.factor == Fraction(1, 100):
            token = replace(token, number=replace(token.number, unit=percent))
        found.append(token)
    return tuple(found)


_SPREAD = ("±", "minus", "within")


def with_units(tokens: tuple[Token, ...], unitless: bool = False) -> tuple[Token, ...]:
    """A number without a unit takes the unit of the next number that has one, and '%' takes its basis.

    Numbers before 'times' have none, nor those before what is measured at, or of what they are: `1.5 times
    the rim plus 2 mm`, `below 0.005 at 10 GHz`, `within 5 % of 10 wt%`; nor, of what has no unit itself,
    those that so many per cent are off: `7 ± 5 %`. In `a third to 50 %` a third is one of the whole.
    """
    unit: Unit | None = None
    last: Token | None = None
    found: list[Token] = []
    for token in reversed(tokens):
        before_number = bool(found) and found[-1].number is not None
        if unitless and before_number and is_bare_share(found[-1]) and token.text.lower() in _SPREAD:
            unit = None
        if token.text.lower() == "times" or (token.text.lower() in ("at", "of") and before_number):
            unit = None
        if token.number and ":" not in token.number.text:
            based = unit is not None and not unit.kind.dimension and bool(unit.kind.basis)
            if token.number.unit and not (based and is_bare_share(token)):
                unit = token.number.unit
            elif unit:
                value = token.number.value * (100 if _is_part_in_words(token, last) else 1)
                token = replace(token, number=replace(token.number, value=value, unit=unit))
            last = token
        found.append(token)
    return tuple(reversed(found))


def _is_part_in_words(token: Token, last: Token | None) -> bool:
    """Is it a fraction in words before more hundredths than it has? `One half to 1 %` has half of one."""
    if token.number is None or last is None or last.number is None or not is_bare_share(last):
        return False
    spelled = "/" in token.number.text and not token.text[:1].isdigit()
    return spelled and token.number.value * 100 < last.number.value
