"""Terms of the exact language: from nodes to core terms with their kinds."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import Assembly, Composition, NumberDecl, SetDecl
from scopecheck.core.formula import Branch, Const, Negate
from scopecheck.exact.arithmetic import power, product, rounded, sum_of
from scopecheck.exact.fitting import Context, check_bare, fit, literal
from scopecheck.exact.functions import call
from scopecheck.foundations.diagnostics import Diagnostic, KindTrouble, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Kind, KindError, comparable
from scopecheck.foundations.record import replace
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
from scopecheck.vocabulary.classes import ListBound, members_below
from scopecheck.vocabulary.compositions import total_of
from scopecheck.vocabulary.entry import OF_HOW_MANY, OF_PAUSES, RECITED
from scopecheck.vocabulary.names import (
    ONLY_OF_PARTS,
    ONLY_OF_RECITED,
    ONLY_WITH_PAUSES,
    Listed,
    NotHere,
    Typed,
    member_of,
    no_member,
)


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
            return sum_of(context, node)
        case ProductNode():
            return product(context, node)
        case PowerNode():
            return power(context, node)
        case WithoutNode():
            return _without(context, node)
        case RoundNode():
            return rounded(context, node)
        case CallNode():
            return call(context, node)
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
        if context.mode == "reading" and node.name == RECITED:
            raise NotHere(ONLY_OF_RECITED)
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
    if not isinstance(node, NameNode) and (step := context.names.step(listed.name)):
        raise trouble(
            node.span, f"'{step.name}' is a step; alone it has no time",
            "A step has a start, an end and a duration.",
            f"for how long it takes, write: {step.duration or step.start} = {node.span.text}",
        )  # fmt: skip
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
