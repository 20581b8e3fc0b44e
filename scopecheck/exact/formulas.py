"""Conditions of the exact language: from nodes to core formulas."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from typing import cast

from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, NumberDecl, Part, SetDecl
from scopecheck.core.formula import (
    All,
    Any,
    Const,
    Divide,
    ExactlyOne,
    Formula,
    Implies,
    IsWhole,
    Measured,
    Not,
    Op,
    Truth,
    all_of,
    any_of,
)  # fmt: skip
from scopecheck.exact.bare_shares import bare_share
from scopecheck.exact.fitting import Context, check_bare, fit
from scopecheck.exact.functions import same_kind, steps_of
from scopecheck.exact.greater_figure import rounded_to
from scopecheck.exact.parts import at_part, part_terms, parts_of
from scopecheck.exact.terms import named_members, term
from scopecheck.foundations.diagnostics import Diagnostic, KindTrouble, Trouble, trouble
from scopecheck.foundations.kinds import WHOLE_OF
from scopecheck.foundations.quantity import PLAIN_KIND, KindError, comparable
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import (
    AndNode,
    BracedNode,
    CallNode,
    ChainNode,
    IfNode,
    NameNode,
    Node,
    NotNode,
    NumberNode,
    OrNode,
    ProductNode,
    TruthNode,
    WholeNode,
)
from scopecheck.vocabulary import steps
from scopecheck.vocabulary.classes import ListBound, has, members_below
from scopecheck.vocabulary.entry import OF_HOW_MANY
from scopecheck.vocabulary.names import (
    ONLY_OF_PARTS,
    Bound,
    Listed,
    Mode,
    Names,
    NotHere,
    Typed,
    member_of,
)
from scopecheck.vocabulary.parts import (
    ORDERS,
    Present,
    Values,
    compared,
    ordered,
    over,
    quantified,
    said_of_one,
)


def context(
    names: Names, mode: Mode = "sheet", slots: Mapping[str, Bound] | None = None, strict: bool = False
) -> Context:
    """A context for formulas of the sheet, of a reading, or for a condition over written numbers."""
    return Context(names, mode, formula, term, slots or {}, strict)


def formula(c: Context, node: Node) -> Formula:
    """The condition a node stands for. Raises Trouble at the node."""
    try:
        return _formula(c, node)
    except KindError as error:
        raise KindTrouble(Diagnostic("error", node.span, str(error))) from None


def facts(c: Context, node: Node) -> tuple[Formula, ...]:
    """The facts of a list with commas, one by one."""
    items = node.items if isinstance(node, AndNode) and node.comma else (node,)
    return tuple(formula(c, item) for item in items)


def _formula(c: Context, node: Node) -> Formula:
    match node:
        case AndNode(items=items):
            return All(tuple(formula(c, item) for item in items))
        case OrNode(items=items):
            return Any(tuple(formula(c, item) for item in items))
        case NotNode(item=item):
            return Not(formula(c, item))
        case IfNode(condition=condition, then=then, otherwise=otherwise):
            a, b = formula(c, condition), formula(c, then)
            if otherwise is None:
                return Implies(a, b)
            return All((Implies(a, b), Implies(Not(a), formula(c, otherwise))))
        case TruthNode(value=value):
            return Truth(value)
        case WholeNode(item=item):
            measured = term(c, item)
            if measured.kind is not None and measured.kind != PLAIN_KIND:
                raise KindTrouble(
                    Diagnostic(
                        "error",
                        node.span,
                        f"a {measured.kind.name} is neither whole nor not",
                        "Only a plain number or a count can be whole.",
                        "divide by a unit, such as x / 1 mm IS WHOLE",
                    )
                )
            return IsWhole(measured.term)
        case ChainNode(operands=operands, signs=signs):
            links = tuple(
                _link(c, node, a, sign, b) for a, sign, b in zip(operands, signs, operands[1:], strict=False)
            )
            return all_of(links)
        case CallNode(over=NameNode()):
            return _over_parts(c, node)
        case CallNode(function="ONE" | "EVERY" | "SOME" | "NO"):
            return _quantified(c, node)
        case CallNode(function="EQUAL" | "DIFFERENT" | "RISING" | "FALLING"):
            terms = tuple(t.term for t in same_kind(c, node))
            there = tuple(Truth(True) for _ in terms)
            return ordered(node.function, Values(Const(Fraction(len(terms))), there, terms))
        case CallNode(function="DONE" | "ORDER" | "NEXT" | "BEGUN" | "TOGETHER" | "SAME" | "CHAIN" | "LAST"):
            return _of_steps(c, node)
        case NameNode(name=name):
            bound = c.slots.get(name)
            if isinstance(bound, Listed) and len(bound.conditions) == 1:
                return bound.conditions[0]
            if bound is None and c.mode == "reading" and name in OF_HOW_MANY:
                raise NotHere(ONLY_OF_PARTS)
            if isinstance(bound, Listed) and not (bound.conditions or bound.members):
                raise NotHere(bound.text)
            if bound is None and c.names.declared(name) is None and c.names.noun(name) is None:
                raise c.names.unknown(name, node.span)
            raise trouble(node.span, f"'{name}' alone is not a condition", "", "compare it with something")
        case _:
            raise trouble(
                node.span, "a value stands where a condition is expected",
                "A condition compares something, such as x <= 5 mm.",
            )  # fmt: skip


def _of_steps(c: Context, node: CallNode) -> Formula:
    """`DONE(soaking)`, `ORDER(soaking, rinsing, drying)`, `NEXT(soaking, rinsing)`."""
    named = steps_of(c, node)
    if node.function == "DONE":
        return all_of(tuple(steps.done(step) for step in named))
    if len(named) < 2:
        example = f"write for example {node.function}(soaking, rinsing)"
        raise trouble(node.span, f"{node.function} of {len(named)} steps", "", example)
    if node.function in steps.SEVERAL:
        return steps.SEVERAL[node.function](named)
    every = tuple(c.names.steps.values())
    return all_of(tuple(steps.next_after(a, b, every) for a, b in pairwise(named)))


def _over_parts(c: Context, node: CallNode) -> Formula:
    """`EVERY hole (diameter >= 2 mm)`, `RISING hole (depth)`."""
    if node.function in ORDERS:
        return ordered(node.function, part_terms(c, node)[0])
    if node.function not in ("EVERY", "SOME", "NO", "ONE"):
        raise trouble(
            node.span, "a value stands where a condition is expected",
            f"{node.function} gives a value, to be compared with something.",
        )  # fmt: skip

    def said(part: Part, index: int) -> Formula:
        return All(tuple(formula(at_part(c, part, index), item) for item in node.items))

    return quantified(node.function, over(parts_of(c, node), said))


def _quantified(c: Context, node: CallNode) -> Formula:
    bound_to = [c.slots.get(item.name) if isinstance(item, NameNode) else None for item in node.items]
    over_parts = [b for b in bound_to if isinstance(b, Listed) and b.there]
    if len(over_parts) == len(node.items):
        # Several limits on the same parts: all of them on each one.
        said = tuple(map(all_of, zip(*(b.conditions for b in over_parts), strict=True)))
        of_none = tuple(b.of_none for b in over_parts if b.of_none is not None)
        return _or_none(node.function, Present(over_parts[0].there, said), of_none)
    conditions: list[Formula] = []
    for item in node.items:
        bound = c.slots.get(item.name) if isinstance(item, NameNode) else None
        if isinstance(bound, Listed):
            conditions += (node.function == "ONE" and bound.once) or bound.conditions
        else:
            conditions.append(formula(c, item))
    made = tuple(conditions)
    if node.function == "ONE":
        return ExactlyOne(made)
    if node.function == "NO":
        return All(tuple(Not(item) for item in made))
    return All(made) if node.function == "EVERY" else Any(made)


def _or_none(word: str, present: Present, of_none: tuple[Formula, ...]) -> Formula:
    """EVERY or SOME of a class: where no member is there, what the limit says of the amount 0 decides."""
    found = quantified(word, present)
    if not of_none:
        return found
    if word == "EVERY":
        return All((found, Any((*present.there, all_of(of_none)))))
    nothing = All((*(Not(there) for there in present.there), all_of(of_none)))
    return Any((found, nothing)) if word == "SOME" else found


# ---- comparisons


def _link(c: Context, chain: Node, left: Node, sign: str, right: Node) -> Formula:
    sides = ((left, right, False), (right, left, True))
    for one, other, turned in reversed(sides) if _names_a_class(c, left, right) else sides:
        listed = _listed(c, one, sign)
        if listed is not None:
            return _of_one(c, one, listed, _membership(c, chain, listed, sign, other, turned))
    if sign == "IN":
        raise _in_no_list(chain, left, right)
    a, b = term(c, left), term(c, right)
    a, b = _as_multiple(c, left, a, b), _as_multiple(c, right, b, a)
    check_bare(c, left if a.bare else right, a, b)
    a, b = fit(c, a, b)
    if not (_is_so_much_per(c, a, b) or _is_so_much_per(c, b, a)):
        _check_kinds(chain, a, b)
    op = cast(Op, sign)
    in_greater = rounded_to(b.number, a.term, op, b.term) if c.mode == "reading" else None
    return in_greater or compared(op, a.term, b.term)


def _as_multiple(c: Context, node: Node, made: Typed, other: Typed) -> Typed:
    """`2M` beside a plain number as 2 times M, where M is declared and 2 mol/L would be of another kind."""
    if not isinstance(node, NumberNode) or node.number.unit is None or other.kind is None:
        return made
    glued = node.span.text.lstrip("0123456789.")
    named = c.names.declared(glued) if glued and glued[0].isalpha() else None
    if not isinstance(named, NumberDecl) or named.kind != other.kind or glued == node.span.text:
        return made
    value = node.span.text.removesuffix(glued)
    if made.kind == other.kind:
        raise trouble(
            node.span, f"'{node.span.text}' may be {value} of the unit {glued}, or {value} times {glued}",
            f"'{glued}' is a unit, and a declared name.",
            f"write {value} * {glued}; or, of the unit, {value} {glued}",
        )  # fmt: skip
    factor = NumberNode(replace(node.number, unit=None), node.span)
    return term(c, ProductNode(factor, (("*", NameNode(named.name, node.span)),), node.span))


def _in_no_list(chain: Node, left: Node, right: Node) -> Trouble:
    """The error for IN beside what is no list: `ports IN {8, 16}`, of a number, is one of two values."""
    listed = right.items if isinstance(right, BracedNode) else ()
    help = "write metal IN {copper, zinc}, or copper IN metal"
    if listed and isinstance(left, NameNode) and all(isinstance(i, NumberNode) for i in listed):
        values = (" ".join(i.span.text.split()) for i in listed)
        help = f"write each value by itself: {' OR '.join(f'{left.name} = {value}' for value in values)}"
    cause = "IN asks whether something is among the members of a list."
    return trouble(chain.span, "IN without a declared list", cause, help)


def _is_so_much_per(c: Context, quotient: Typed, number: Typed) -> bool:
    """`dose / body weight <= 0.5 mg/kg`: is it a quotient of two masses beside a number in mass per mass?"""
    if not isinstance(quotient.term, Divide) or quotient.kind != PLAIN_KIND or number.number is None:
        return False
    sides = (quotient.term.left, quotient.term.right)
    declared = [c.names.declared(side.name) for side in sides if isinstance(side, Measured)]
    wholes = [d.kind.dimension for d in declared if isinstance(d, NumberDecl)]
    of = WHOLE_OF.get(number.kind.basis) if number.kind is not None else None
    return of is not None and wholes == [of, of]


def _check_kinds(chain: Node, a: Typed, b: Typed) -> None:
    if a.kind is None or b.kind is None or (a.kinds and a.kinds == b.kinds):
        return
    try:
        for kind in a.kinds or (a.kind,):
            for other in b.kinds or (b.kind,):
                comparable(kind, other)
    except KindError as error:
        told = bare_share(chain.span, a, b) or KindTrouble(Diagnostic("error", chain.span, str(error)))
        raise told from None


def _of_one(c: Context, node: Node, declaration: ListBound, said: Formula) -> Formula:
    """What is said of a list; of that of one of the parts, by its own name, only where the part is there."""
    one = c.names.one_of(declaration.name)
    if one is None or (isinstance(node, NameNode) and node.name in c.slots):
        return said
    return said_of_one(one[0].present(one[1]), said)


def _listed(c: Context, node: Node, sign: str = "=") -> ListBound | None:
    """What a name lists. A class of ingredients is a number, but a list beside IN."""
    if not isinstance(node, NameNode):
        return None
    bound = c.slots.get(node.name) or c.names.declared(node.name)
    if bound is None or (sign == "IN" and isinstance(bound, NumberDecl)):
        bound = c.names.mixture(node.name)
    return bound if isinstance(bound, (SetDecl, ChoiceDecl, Composition, Assembly)) else None


def _names_a_class(c: Context, left: Node, right: Node) -> bool:
    """Is the left side a class of the list on the right, as in `filler IN paint`?"""
    listed = _listed(c, right, "IN")
    return listed is not None and isinstance(left, NameNode) and member_of(listed, left.name) is not None


def _membership(
    c: Context, chain: Node, declaration: ListBound, sign: str, other: Node, turned: bool
) -> Formula:
    if sign not in ("=", "!=", "IN"):
        raise trouble(
            chain.span, f"'{sign}' does not compare lists", f"{declaration.name} is a list.", "write = or IN"
        )
    if _listed(c, other) is not None:
        raise trouble(
            chain.span, "two lists are compared", "Each side is a declared list.", "name the members"
        )
    none = isinstance(other, NameNode) and other.name == "none" and member_of(declaration, "none") is None
    members = () if none else named_members(c, declaration, other)
    if isinstance(declaration, ChoiceDecl):
        if sign != "IN" and len(members) != 1:
            name = declaration.name
            raise trouble(chain.span, f"{name} has exactly one member", "", f"write {name} IN {{...}}")
        found = any_of([has(declaration, m) for m in members])
        return Not(found) if sign == "!=" else found
    if sign == "IN" and turned:
        return all_of(tuple(has(declaration, m) for m in members))
    covered = {below for m in members for below in members_below(declaration, m)}
    absent = tuple(Not(has(declaration, m)) for m in declaration.members if m not in covered)
    if sign == "IN":
        return all_of(absent)
    exactly = all_of((*(has(declaration, m) for m in members), *absent))
    return Not(exactly) if sign == "!=" else exactly
