"""Terms of the exact language: from nodes to core terms with their kinds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from scopecheck.core.model import (
    Add,
    Assembly,
    Branch,
    Composition,
    Const,
    CountOf,
    Divide,
    Formula,
    Greatest,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    NumberDecl,
    Part,
    Ranked,
    Remainder,
    Rounded,
    SetDecl,
    Step,
    Term,
    Truth,
    Written,
)
from scopecheck.foundations.diagnostics import Diagnostic, KindTrouble, Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    Kind,
    KindError,
    Unit,
    as_level,
    comparable,
    difference_kind,
    find_unit,
    number_text,
    power_kind,
    product_kind,
    quotient_kind,
    sum_kind,
)
from scopecheck.foundations.record import field, record, replace
from scopecheck.foundations.spans import Span
from scopecheck.language.scan import Number
from scopecheck.language.syntax import (
    AndNode,
    BracedNode,
    CallNode,
    IfNode,
    NameNode,
    NegativeNode,
    Node,
    NumberNode,
    PowerNode,
    ProductNode,
    RecitedNode,
    RoundNode,
    SumNode,
    WithoutNode,
)
from scopecheck.resolve.classes import ListBound, members_below
from scopecheck.resolve.compositions import total_of
from scopecheck.resolve.constants import constant
from scopecheck.resolve.entry import OF_HOW_MANY, OF_PAUSES
from scopecheck.resolve.names import (
    ONLY_OF_PARTS,
    ONLY_WITH_PAUSES,
    Bound,
    Listed,
    Mode,
    Names,
    NotHere,
    Steps,
    Typed,
    member_of,
    no_member,
    number_of,
)
from scopecheck.resolve.parts import Present, Values, gathered, how_many, over, value_of_one, values
from scopecheck.resolve.steps import duration, end, start

HIGHEST_POWER = 12


@record
class Context:
    """What a formula is resolved against. `slots` are a reading's own names; they hide declared ones.

    `strict`: a reading written in a sheet, where numbers carry their units as everywhere in a sheet.
    """

    names: Names
    mode: Mode
    formula: Callable[[Context, Node], Formula]
    slots: Mapping[str, Bound] = field(default_factory=dict)
    strict: bool = False
    inner: tuple[Part, ...] = ()
    """The parts of the one part that the formula is about."""


def written(number: Number, unit: Unit) -> Written:
    """A number of the sheet in the core's form."""
    return Written(number.text, number.value, number.decimals, unit)


def literal(number: Number, unit: Unit | None = None) -> Typed:
    """A written number as a term, in its own unit or the one given."""
    used = unit or number.unit or PLAIN
    made = written(number, used)
    return Typed(
        Const(made.base, made), used.kind, number, used, bare=unit is None and number.unit is None,
        whole=used.kind == PLAIN_KIND and made.base.denominator == 1,
    )  # fmt: skip


def term(context: Context, node: Node) -> Typed:
    """The term a node stands for. Raises Trouble at the node, or KindError turned into Trouble."""
    try:
        return _term(context, node)
    except KindError as error:
        raise KindTrouble(Diagnostic("error", node.span, str(error))) from None


def _term(context: Context, node: Node) -> Typed:
    match node:
        case NumberNode(number=number):
            zero = context.mode == "reading" and number.unit is None and number.value == 0
            made = literal(number)
            return Typed(made.term, None, number, made.unit, True, True) if zero else made
        case NameNode():
            return _name(context, node)
        case NegativeNode(item=item):
            inner = term(context, item)
            if inner.kind and inner.kind.point:
                raise KindError(f"a {inner.kind.name} has no negative", inner.kind, inner.kind)
            return replace(inner, term=Negate(inner.term), number=None)
        case SumNode():
            return _sum(context, node)
        case ProductNode():
            return _product(context, node)
        case PowerNode():
            return _power(context, node)
        case WithoutNode():
            return _without(context, node)
        case RoundNode():
            return _round(context, node)
        case CallNode():
            return _call(context, node)
        case IfNode(condition=condition, then=then, otherwise=otherwise) if otherwise is not None:
            a, b, kind = _alike(context, [then, otherwise])
            return Typed(Branch(context.formula(context, condition), a.term, b.term), kind, unit=a.unit)
        case _:
            raise trouble(
                node.span, "a condition stands where a value is expected",
                "A condition is true or false; it has no value to calculate with.",
            )  # fmt: skip


def _name(context: Context, node: NameNode) -> Typed:
    bound = context.slots.get(node.name)
    if bound is None:
        if context.mode == "reading" and node.name in OF_HOW_MANY:
            raise NotHere(ONLY_OF_PARTS)
        if context.mode == "reading" and node.name in OF_PAUSES:
            raise NotHere(ONLY_WITH_PAUSES)
        declared = context.names.declared(node.name)
        if isinstance(declared, NumberDecl):
            context.names.speak(declared.name)
            return context.names.value(declared)
        if timed := context.names.terms.get(node.name.lower()):
            return timed
        if declared is not None and context.names.step(declared.name) is None:
            raise trouble(
                node.span,
                f"'{node.name}' is no number",
                f"It is declared as a list: {', '.join(declared.members)}.",
                f"write {node.name} IN {{...}}, or COUNT({node.name}) for how many"
                if isinstance(declared, SetDecl)
                else f"write {node.name} = {declared.members[0]}",
            )
        if opened := context.names.noun(node.name):
            return opened(node.span)
        if content := context.names.content(node.name):
            return content
        raise context.names.unknown(node.name, node.span)
    if isinstance(bound, Typed):
        return bound
    raise NotHere(f"'{node.name}' stands for a list here, not for a number")


def _without(context: Context, node: WithoutNode) -> Typed:
    """The total of a composition's ingredients or of an assembly's parts, some left out."""
    bound = context.slots.get(node.whole.name)
    made = bound if isinstance(bound, Composition | Assembly) else context.names.mixture(node.whole.name)
    if made is None:
        raise trouble(
            node.whole.span, f"'{node.whole.name}' is no composition and no assembly",
            "WITHOUT leaves ingredients out of a composition, or parts out of an assembly.",
            "write for example: paint WITHOUT water",
        )  # fmt: skip
    named = [name for item in node.out for name in named_members(context, made, item)]
    out = {m for name in named for m in members_below(made, name)}
    left = tuple(m for m in made.members if m not in out)
    total = total_of(left) if left else Const(Fraction(0))
    if isinstance(made, Assembly):
        return Typed(total, PLAIN_KIND, unit=PLAIN, whole=True)
    unit = replace(made.unit, kind=made.unit.kind.of(made.name))
    return Typed(total, unit.kind, unit=unit)


def named_members(context: Context, listed: ListBound, node: Node) -> tuple[str, ...]:
    """The members and classes that a name, braces or RECITED stand for, each known to the list."""
    if isinstance(node, BracedNode) or (isinstance(node, AndNode) and node.comma):
        return tuple(dict.fromkeys(m for item in node.items for m in named_members(context, listed, item)))
    if isinstance(node, RecitedNode):
        bound = context.slots.get("RECITED")
        return bound.members if isinstance(bound, Listed) else context.names.recital(listed, node.span)
    if not isinstance(node, NameNode):
        raise trouble(node.span, f"a member of {listed.name} was expected here", f"{listed.name} is a list.")
    bound = context.slots.get(node.name)
    if isinstance(bound, Listed):
        if not bound.members:
            raise NotHere(f"'{bound.text}' is no list of members")
        return bound.members
    member = member_of(listed, node.name)
    if member is None and context.mode == "reading" and node.name in ("others", "impurities", "unrelated"):
        return ()
    if member is None:
        raise no_member(listed, node.name, node.span)
    context.names.speak(member)
    return (member,)


# ---- fitting two values together


def fit(context: Context, a: Typed, b: Typed, spans: bool = False) -> tuple[Typed, Typed]:
    """Both values on one scale: a bare 0 takes the other's kind, K beside a level is read as a level.

    `spans`: in a sum, where K beside a level stays a distance on the scale.
    """
    a, b = _toward(context, a, b, spans), _toward(context, b, a, spans)
    return a, b


def _toward(context: Context, a: Typed, b: Typed, spans: bool = False) -> Typed:
    if b.kind is None:
        return a
    if a.kind is None:
        if b.kind.point and context.mode == "reading":
            raise NotHere(f"0 is no limit on a {b.kind.name}")
        return Typed(a.term, b.kind, a.number, b.unit, True, a.whole)
    if context.mode == "condition" and a.bare and a.number and b.unit:
        return Typed(Const(b.unit.to_base(a.number.value)), b.kind, a.number, b.unit)
    bare_share = a.kind == PLAIN_KIND and not b.kind.dimension and constant(a.term) is not None
    if bare_share and (b.kinds or (context.mode == "reading" and not a.lifted)):
        return Typed(a.term, b.kind, a.number, a.unit, a.bare, a.whole, b.kinds, a.lifted)
    unit = a.number.unit if a.number and not spans else None
    if (
        a.number
        and unit
        and unit.symbol == "K"
        and b.kind.basis == "level"
        and a.kind == Kind(b.kind.dimension)
    ):
        return literal(a.number, as_level(unit))
    return a


def check_bare(context: Context, node: Node, a: Typed, b: Typed) -> None:
    """In a sheet a bare number beside a quantity with a unit is an error that offers the unit."""
    if context.mode != "sheet" and not context.strict:
        return
    for one, other in ((a, b), (b, a)):
        if context.strict and one.kind is None:
            continue
        if one.bare and one.number and other.unit and other.unit.symbol and not other.bare:
            raise bare_number(node.span, one.number, other.unit)


def bare_number(span: Span, number: Number, unit: Unit) -> Trouble:
    """The error for a number without a unit beside something measured in `unit`."""
    symbol = unit.symbol
    also = f" or {number_text(number.value * 100)} %" if symbol == "%" and number.value < 1 else ""
    write = also.removeprefix(" or ") if also and "/" in number.text else f"{number.text} {symbol}{also}"
    return trouble(
        span, f"{number.text} stands beside a quantity in {symbol or 'a unit'} and has no unit",
        "A number beside a quantity carries its unit, zero too.", f"write {write}",
    )  # fmt: skip


def _alike(context: Context, nodes: list[Node]) -> tuple[Typed, Typed, Kind | None]:
    first, *rest = (term(context, n) for n in nodes)
    kind = first.kind
    second = first
    for node, other in zip(nodes[1:], rest, strict=True):
        check_bare(context, node, first, other)
        first, second = fit(context, first, other)
        if first.kind and second.kind:
            comparable(first.kind, second.kind)
        kind = first.kind
    return first, second, kind


# ---- arithmetic


def _sum(context: Context, node: SumNode) -> Typed:
    total = term(context, node.first)
    items = [total.term]
    for sign, item in node.rest:
        other = term(context, item)
        check_bare(context, item, total, other)
        a, b = fit(context, total, other, spans=True)
        if a.term is not total.term and len(items) == 1:
            items = [a.term]
        kind: Kind | None = a.kind
        if a.kind and b.kind:
            if sign == "+" and a.kind.point and b.kind.point:
                _refuse_levels(node, node.first, item, a.kind)
            kind = sum_kind(a.kind, b.kind) if sign == "+" else difference_kind(a.kind, b.kind)
        items.append(b.term if sign == "+" else Negate(b.term))
        whole = a.whole and b.whole
        unit = (a if not a.bare else b).unit
        if unit and kind != unit.kind:
            unit = None
        several = (a.kinds or b.kinds) if sign == "+" or kind == a.kind else ()
        total = Typed(total.term, kind, unit=unit, whole=whole, bare=a.bare and b.bare, kinds=several)
    return replace(total, term=Add(tuple(items)))


def _refuse_levels(node: SumNode, first: Node, second: Node, kind: Kind) -> None:
    """Raises KindTrouble at the sum of two levels, with what their mean is."""
    try:
        sum_kind(kind, kind)
    except KindError as error:
        one, other = first.span.text, second.span.text
        help = f"for the mean of the two write {one} + ({other} - {one}) / 2" if len(node.rest) == 1 else ""
        raise KindTrouble(Diagnostic("error", node.span, str(error), "", help)) from None


def _product(context: Context, node: ProductNode) -> Typed:
    total = term(context, node.first)
    for sign, item in node.rest:
        other = term(context, item)
        if sign == "MOD":
            total = _remainder(context, item, total, other)
            continue
        a, b = total.kind or PLAIN_KIND, other.kind or PLAIN_KIND
        bare = total.bare and other.bare
        several = total.kinds if b == PLAIN_KIND else other.kinds if a == PLAIN_KIND and sign == "*" else ()
        if sign == "*":
            unit = total.unit if b == PLAIN_KIND and other.bare else other.unit if total.bare else None
            made: Term = Multiply(total.term, other.term)
            whole = total.whole and other.whole
            total = Typed(made, product_kind(a, b), unit=unit, whole=whole, bare=bare, kinds=several)
        else:
            if constant(other.term) == 0:
                raise trouble(item.span, "a division by zero has no value")
            made = Divide(total.term, other.term, _shown(other, item))
            unit = total.unit if other.bare else None
            total = Typed(made, quotient_kind(a, b), unit=unit, bare=bare, kinds=several)
    return total


def _shown(value: Typed, node: Node) -> str:
    """A divisor for people: what fills a slot rather than the slot's name."""
    if isinstance(value.term, Measured):
        return value.term.name
    if isinstance(value.term, Const) and value.term.written:
        return f"{value.term.written.text} {value.term.written.unit.symbol}".strip()
    return node.span.text


def _remainder(context: Context, node: Node, item: Typed, divisor: Typed) -> Typed:
    check_bare(context, node, item, divisor)
    a, b = fit(context, item, divisor)
    if a.kind and b.kind:
        comparable(a.kind, b.kind)
        if a.kind.point:
            raise KindError(f"a {a.kind.name} has no remainder", a.kind, a.kind)
    value = constant(b.term)
    if value is None or value <= 0:
        if context.mode == "reading":
            raise NotHere("the divisor is no positive written number")
        raise trouble(
            node.span,
            "a remainder by something that is no positive written number",
            "",
            "write a number above 0",
        )
    return Typed(Remainder(a.term, value), a.kind, unit=a.unit, whole=a.whole and b.whole)


def _power(context: Context, node: PowerNode) -> Typed:
    base, exponent = term(context, node.base), node.exponent.value
    if exponent.denominator != 1 or not 1 <= exponent <= HIGHEST_POWER or node.exponent.unit:
        raise trouble(
            node.span, f"the power {node.exponent.text} is not a whole number from 1 to {HIGHEST_POWER}", "",
            "write a product or a quotient",
        )  # fmt: skip
    made = base.term
    for _ in range(int(exponent) - 1):
        made = Multiply(made, base.term)
    return Typed(made, power_kind(base.kind or PLAIN_KIND, int(exponent)), whole=base.whole, bare=base.bare)


# ---- functions


def _round(context: Context, node: RoundNode) -> Typed:
    item, step = term(context, node.item), term(context, node.step)
    width = constant(step.term)
    if step.number is not None and step.unit is not None:
        width = step.number.value * step.unit.factor
    if width is None or width <= 0:
        raise trouble(node.step.span, "rounding to something that is no positive written number")
    kind = item.kind or PLAIN_KIND
    unit = step.unit
    step_kind = difference_kind(step.kind, step.kind) if step.kind else kind
    plain = difference_kind(kind, kind)
    if not (step_kind == PLAIN_KIND and not plain.dimension):
        comparable(plain, step_kind)
    origin = unit.offset if unit and kind.point else Fraction(0)
    return Typed(Rounded(item.term, width, node.rule, origin), item.kind, unit=item.unit, kinds=item.kinds)


def parts_of(context: Context, node: CallNode) -> tuple[Part, ...]:
    """The parts that a formula goes over. Raises Trouble where none are declared so."""
    assert node.over is not None
    named = node.over.name.lower()
    for part in context.inner:
        if named in (part.name.lower(), part.plural.lower()):
            return (part,)
    if found := context.names.kind(named):
        context.names.speak_of(found)
        return found
    known = tuple(kind[0].name for kind in context.names.kinds.values())
    raise trouble(
        node.over.span, f"no part is declared as '{node.over.name}'", "",
        did_you_mean(node.over.name, known) or f"declare it, for example: {named}  part, up to 12",
    )  # fmt: skip


def at_part(context: Context, part: Part, index: int) -> Context:
    """The context in which the fields of a part, and they with its name, are those of one of them."""
    slots = dict(context.slots)
    for own in part.fields:
        declared = context.names.declarations[part.slot(index, own)]
        bound: Bound = number_of(declared) if isinstance(declared, NumberDecl) else declared
        slots |= {own: bound, f"{own} of {part.name}": bound}
    inner = tuple(p for p in context.names.parts if p.within and p.within.name == part.called(index))
    return replace(context, slots=slots, inner=(*inner, *context.inner))


def part_terms(context: Context, node: CallNode) -> tuple[Values, Typed]:
    """The value in the brackets for each part that may be there, and of what kind it is."""
    parts = parts_of(context, node)
    item = _single(node)
    terms = {(p, i): term(at_part(context, p, i), item) for p in parts for i in range(1, p.most + 1)}
    return values(parts, lambda p, i: terms[p, i].term), terms[parts[0], 1]


def _gathered(context: Context, node: CallNode) -> Typed:
    """`MEAN hole (diameter)`, `COUNT hole (diameter > 3 mm)`."""
    if node.function == "COUNT":
        item = _single(node)
        said = over(parts_of(context, node), lambda p, i: context.formula(at_part(context, p, i), item))
        return Typed(how_many(said), PLAIN_KIND, whole=True)
    if node.function not in ("SUM", "MEAN", "MEDIAN", "LEAST", "GREATEST"):
        raise trouble(node.span, f"{node.function} ... (...) is a condition, not a value")
    given, first = part_terms(context, node)
    if node.function == "SUM" and first.kind and first.kind.point:
        sum_kind(first.kind, first.kind)
    whole = node.function not in ("MEAN", "MEDIAN") and first.whole
    return Typed(gathered(node.function, given), first.kind, unit=first.unit, whole=whole)


def _call(context: Context, node: CallNode) -> Typed:
    if node.over is not None:
        return _gathered(context, node)
    match node.function:
        case "PLACE" | "DECADE":
            return _of_digits(context, node)
        case "ABS":
            inner = term(context, _single(node))
            if inner.kind and inner.kind.point:
                raise KindError(f"a {inner.kind.name} has no magnitude of its own", inner.kind, inner.kind)
            return replace(inner, term=Magnitude(inner.term), number=None)
        case "LEAST" | "GREATEST":
            typed = same_kind(context, node)
            made = tuple(t.term for t in typed)
            result: Term = Least(made) if node.function == "LEAST" else Greatest(made)
            whole = all(t.whole for t in typed)
            return Typed(
                result, typed[0].kind, unit=typed[0].unit, whole=whole, bare=all(t.bare for t in typed)
            )
        case "SUM":
            if len(node.items) == 1:
                return term(context, node.items[0])
            first, *rest = node.items
            return _sum(context, SumNode(first, tuple(("+", n) for n in rest), node.span))
        case "MEAN" | "MEDIAN":
            typed = same_kind(context, node)
            made = tuple(t.term for t in typed)
            size = Const(Fraction(len(made)))
            there = tuple(Truth(True) for _ in made)
            middle = Ranked("middle", made, there) if node.function == "MEDIAN" else Divide(Add(made), size)
            return Typed(middle, typed[0].kind, unit=typed[0].unit, bare=all(t.bare for t in typed))
        case "COUNT":
            return _count(context, node)
        case "DAY":
            return _day(context, node)
        case "START" | "END" | "DURATION":
            return _of_step(context, node)
        case _:
            raise trouble(node.span, f"{node.function}(...) is a condition, not a value")


def _of_step(context: Context, node: CallNode) -> Typed:
    """`START(soaking)`: a time counted from a moment before all steps; `DURATION(soaking)`."""
    step = step_of(context, _single(node))
    declared = context.names.declarations[step.start]
    assert isinstance(declared, NumberDecl)
    made = {"START": start, "END": end, "DURATION": duration}[node.function](step)
    return replace(number_of(declared), term=made)


def _day(context: Context, node: CallNode) -> Typed:
    """`DAY(START(soaking))`: the midnight with which the day of a moment begins."""
    item = term(context, _single(node))
    day = find_unit("day")
    assert day
    if item.kind is None or item.kind != day.kind:
        raise trouble(node.span, "the day of what is no time", "", "write for example DAY(START(...))")
    made = Add((item.term, Negate(Remainder(item.term, day.factor))))
    return Typed(made, item.kind, unit=day)


def step_of(context: Context, node: Node) -> Step:
    """The step that a name in brackets stands for. Raises Trouble where none is declared so."""
    text = node.span.text
    if isinstance(node, NameNode):
        bound = context.slots.get(node.name)
        if isinstance(bound, Step):
            return bound
        if (bound is None) and (found := context.names.step(node.name)):
            return found
    known = tuple(step.name for step in context.names.steps.values())
    example = text if isinstance(node, NameNode) and context.names.declared(text) is None else "soaking"
    raise trouble(
        node.span, f"no step is declared as '{text}'", "",
        did_you_mean(text, known) or f"declare it, for example: {example}  step in min",
    )  # fmt: skip


def steps_of(context: Context, node: CallNode) -> tuple[Step, ...]:
    """The steps listed in brackets, in the order written."""
    first = context.slots.get(node.items[0].name) if isinstance(node.items[0], NameNode) else None
    if isinstance(first, Steps) and len(node.items) == 1:
        return first.items
    return tuple(step_of(context, item) for item in node.items)


def _single(node: CallNode) -> Node:
    if len(node.items) != 1:
        raise trouble(node.span, f"{node.function} takes one thing, not {len(node.items)}")
    return node.items[0]


def same_kind(context: Context, node: CallNode) -> list[Typed]:
    """The values of a list, all of one kind."""
    typed = [term(context, n) for n in node.items]
    first = next((t for t in typed if t.kind is not None and not t.bare), typed[0])
    fitted = []
    for item, one in zip(node.items, typed, strict=True):
        check_bare(context, item, first, one)
        one = _toward(context, one, first)
        if one.kind and first.kind:
            comparable(one.kind, first.kind)
        fitted.append(one)
    return fitted


def _of_digits(context: Context, node: CallNode) -> Typed:
    if node.function == "PLACE" and len(node.items) == 2:
        return _place_in_the_other_unit(context, node)
    item = _single(node)
    value = term(context, item)
    number, unit = value.number, value.unit or PLAIN
    if number is None or value.kind is None:
        raise NotHere(f"{item.span.text} is no written number here, so it has no last written place")
    kind = difference_kind(value.kind, value.kind)
    if node.function == "DECADE":
        if number.value <= 0:
            raise NotHere("only a number above 0 has a greatest power of ten below it")
        return Typed(Const(unit.to_base(_decade(number.value))), value.kind, unit=unit)
    if ":" in number.text:
        above, _, below = number.text.partition(":")
        step = Fraction(10) ** -len(above.partition(".")[2]) / Fraction(below)
        return Typed(Const(step), kind, unit=unit)
    if not number.has_places:
        raise NotHere(f"{number.text} has no last written place")
    return Typed(Const(written(number, unit).step), kind, unit=unit)


def _place_in_the_other_unit(context: Context, node: CallNode) -> Typed:
    """PLACE(N, M): the greatest power of ten in the unit of M not above one unit of N's last place."""
    place = _of_digits(context, replace(node, items=node.items[:1]))
    other = term(context, node.items[1])
    if other.number is None or other.kind is None or other.unit is None:
        raise NotHere(f"{node.items[1].span.text} is no written number here, so it has no unit of its own")
    comparable(difference_kind(other.kind, other.kind), place.kind or PLAIN_KIND)
    assert isinstance(place.term, Const)
    step = _decade(place.term.value / other.unit.factor) * other.unit.factor
    return Typed(Const(step), place.kind, unit=other.unit)


def _decade(value: Fraction) -> Fraction:
    power = Fraction(1)
    while power > value:
        power /= 10
    while power * 10 <= value:
        power *= 10
    return power


def _count(context: Context, node: CallNode) -> Typed:
    if len(node.items) == 1 and isinstance(node.items[0], NameNode):
        name = node.items[0].name
        bound = context.slots.get(name) or context.names.declared(name)
        if isinstance(bound, SetDecl):
            counted: Term = CountOf(bound.name)
            if name not in context.slots and (one := context.names.one_of(bound.name)):
                counted = value_of_one(one[0].present(one[1]), counted)
            return Typed(counted, PLAIN_KIND, whole=True)
        if isinstance(bound, Listed) and bound.there:
            return Typed(how_many(Present(bound.there, bound.conditions)), PLAIN_KIND, whole=True)
        if isinstance(bound, Listed):
            return _how_many(bound.conditions)
    return _how_many(tuple(context.formula(context, item) for item in node.items))


def _how_many(conditions: tuple[Formula, ...]) -> Typed:
    one, none = Const(Fraction(1)), Const(Fraction(0))
    counted = tuple(Branch(condition, one, none) for condition in conditions)
    return Typed(counted[0] if len(counted) == 1 else Add(counted), PLAIN_KIND, whole=True)
