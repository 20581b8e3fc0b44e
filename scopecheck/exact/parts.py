"""Values over like parts in the exact language: which parts, and the value of each."""

from __future__ import annotations

from scopecheck.core.declared import NumberDecl, Part
from scopecheck.exact.fitting import Context
from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.quantity import PLAIN_KIND, sum_kind
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import CallNode, Node
from scopecheck.vocabulary.names import Bound, Typed, number_of
from scopecheck.vocabulary.parts import Values, gathered, how_many, over, values


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
    item = single(node)
    terms = {(p, i): context.term(at_part(context, p, i), item) for p in parts for i in range(1, p.most + 1)}
    return values(parts, lambda p, i: terms[p, i].term), terms[parts[0], 1]


def of_each_part(context: Context, node: CallNode) -> Typed:
    """`MEAN hole (diameter)`, `COUNT hole (diameter > 3 mm)`."""
    if node.function == "COUNT":
        item = single(node)
        said = over(parts_of(context, node), lambda p, i: context.formula(at_part(context, p, i), item))
        return Typed(how_many(said), PLAIN_KIND, whole=True)
    if node.function not in ("SUM", "MEAN", "MEDIAN", "LEAST", "GREATEST"):
        raise trouble(node.span, f"{node.function} ... (...) is a condition, not a value")
    given, first = part_terms(context, node)
    if node.function == "SUM" and first.kind and first.kind.point:
        sum_kind(first.kind, first.kind)
    whole = node.function not in ("MEAN", "MEDIAN") and first.whole
    return Typed(gathered(node.function, given), first.kind, unit=first.unit, whole=whole)


def single(node: CallNode) -> Node:
    """The one thing in the brackets. Raises Trouble where several stand there."""
    if len(node.items) != 1:
        raise trouble(node.span, f"{node.function} takes one thing, not {len(node.items)}")
    return node.items[0]
