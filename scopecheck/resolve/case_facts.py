"""Facts of cases: what each says, in symbols or in words, and which value it fixes."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import Declaration, NumberDecl
from scopecheck.core.formula import (
    All,
    Branch,
    Chosen,
    Compare,
    Const,
    Formula,
    Implies,
    Includes,
    Measured,
    Not,
    Value,
    items_of,
)
from scopecheck.exact.formulas import context, facts
from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.scan import CAPITALS, Token
from scopecheck.language.syntax import AndNode, CallNode, ChainNode, NameNode, Node, NotNode, Words
from scopecheck.resolve.case_desk import CasesDesk, Made, put_said_of_step
from scopecheck.resolve.case_parts import Spoken, as_fact
from scopecheck.resolve.claims import subject as subject_of
from scopecheck.resolve.number_cells import check_domain
from scopecheck.resolve.phrases import Reader
from scopecheck.resolve.step_cells import Cell, ends_of, not_optional
from scopecheck.vocabulary.constants import constant
from scopecheck.vocabulary.names import Names, member_of


def put_fact(desk: CasesDesk, fact: Node | Words, made: Made, document: str, name: str) -> None:
    """Puts a fact with the rest of its case. Raises Trouble where it says nothing that can be."""
    if isinstance(fact, Words):
        if unknown := _unknown_fact(desk, fact):
            made.unknown.append(unknown)
            return
        if _step_fact(desk, fact, made):
            return
        made.facts.append(_words_fact(desk, fact, document, name))
        made.single = False
        return
    fact = _at_every_moment(desk.names, fact)
    nodes = fact.items if isinstance(fact, AndNode) and fact.comma else (fact,)
    for formula, node in zip(facts(context(desk.names), fact), nodes, strict=True):
        formula = as_fact(formula)
        made.facts.append(formula)
        made.spoken += _spoken(desk.names, node)
        if isinstance(formula, Compare) and isinstance(formula.left, Branch):
            formula, done = _where_done(formula)
            made.point |= done
        _must_be_done(desk, node)
        if ends_of(formula):
            made.ends.append((formula, node.span))
            continue
        known = _point(formula, desk.names)
        if known is None and (each := _of_each(formula, node, desk.names)):
            for declared, value in each:
                if isinstance(declared, NumberDecl) and isinstance(value, Fraction):
                    check_domain(declared, value, node.span)
            assert isinstance(node, CallNode)
            assert node.over is not None
            made.each += [part.count for part in desk.names.kind(node.over.name)]
            continue
        if known is None:
            # What has a member is not said to have no other: a document's example may say no more.
            parts = items_of(formula)
            made.single &= all(isinstance(part, Includes) for part in parts)
            continue
        declared, value = known
        if isinstance(declared, NumberDecl) and isinstance(value, Fraction):
            check_domain(declared, value, node.span)
        made.point[declared.name] = value


def _at_every_moment(names: Names, fact: Node) -> Node:
    """`temperature throughout soaking = 90 degC` as a fact of each moment, here or among others."""
    found, before = list[Node](), fact.items if isinstance(fact, AndNode) and fact.comma else (fact,)
    for node in before:
        named = [n for n in getattr(node, "operands", ()) if isinstance(n, NameNode)]
        over = next((n for n in named if names.throughout(n.name)), None)
        if not isinstance(node, ChainNode) or over is None:
            found.append(node)
            continue
        for moment in names.throughout(over.name):
            at = tuple(replace(n, name=moment) if n is over else n for n in node.operands)
            found.append(replace(node, operands=at))
    return fact if len(found) == len(before) else AndNode(tuple(found), True, fact.span)


def _spoken(names: Names, node: Node) -> list[Spoken]:
    """The one of the parts that a fact says something of."""
    if not isinstance(node, ChainNode):
        return []
    named = (names.declared(n.name) for n in node.operands if isinstance(n, NameNode))
    ones = ((names.one_of(d.name)) for d in named if d is not None)
    return [Spoken(*one, node.span) for one in ones if one]


def _step_fact(desk: CasesDesk, fact: Words, made: Made) -> bool:
    """Whether the words are a step and what a cell says of it: `soaking not done`, `soaking for 20 min`."""
    tokens = fact.tokens
    for size in range(len(tokens) - 1, 0, -1):
        if all(t.sort == "word" for t in tokens[:size]):
            step = desk.names.step(" ".join(t.text for t in tokens[:size]))
            if step is not None:
                cell = Cell(Page(fact.span.source), tokens[size].start, tokens[-1].end, None, desk.names.own)
                return put_said_of_step(desk, step, cell, made)
    return False


def _must_be_done(desk: CasesDesk, node: Node) -> None:
    """Raises Trouble at `NOT DONE(...)` of a step that is always done."""
    inner = node.item if isinstance(node, NotNode) else None
    if isinstance(inner, CallNode) and inner.function == "DONE":
        for item in inner.items:
            step = desk.names.step(item.span.text)
            if step is not None and not step.done:
                raise not_optional(step, node.span)


def _where_done(fact: Compare) -> tuple[Formula, dict[str, Value]]:
    """What a fact says of a step that may be left out, and that the step was done, if it says so."""
    left = fact.left
    if isinstance(left, Branch) and isinstance(left.condition, Chosen):
        return Compare(fact.op, left.then, fact.right), {left.condition.name: left.condition.member}
    return fact, {}


_SAYS_NOTHING = regex(r"(.*?\S)\s+(?:is |are )?(unknown|not known|silent|any|free)")


def _unknown_fact(desk: CasesDesk, fact: Words) -> str:
    """The name that a fact such as `gap unknown` speaks of, else ''. Silence is not written among facts."""
    match = _SAYS_NOTHING.fullmatch(fact.text)
    declared = desk.names.declared(match.group(1)) if match else None
    if (
        match is None
        or declared is None
        or (not isinstance(declared, NumberDecl) and member_of(declared, match.group(2)) is not None)
    ):
        return ""
    if match.group(2) in ("silent", "any", "free"):
        raise trouble(
            fact.span, f"'{match.group(2)}' is no fact",
            "What a row of facts does not speak of is left open in a thing, and not said in a document.",
            "take it out",
        )  # fmt: skip
    return declared.name


def _words_fact(desk: CasesDesk, fact: Words, document: str, name: str) -> Formula:
    tokens = fact.tokens
    for size in range(len(tokens), 0, -1):
        head = tokens[:size]
        if any(t.sort != "word" for t in head):
            continue
        written = " ".join(t.text for t in head)
        steps = desk.names.step(written) or desk.names.moment_of(written) or desk.names.field_of(written)
        if desk.names.declared(written) is None and desk.names.noun(written) is None and not steps:
            continue
        span = Span(fact.span.source, head[0].start, head[-1].end)
        if size == len(tokens):
            raise trouble(span, f"'{written}' alone is not a fact", "", "compare it with something")
        by = (subject_of(desk.names, NameNode(written, span)),)
        rest = _rest(fact, tokens[size:])
        return Reader(desk.names, desk.phrases, desk.groups, document, name).condition(rest, by)
    example = "diameter = 4.2 mm, or: diameter about 4 mm"
    if len(tokens) > 1 and tokens[0].number:
        named = desk.names.declared(" ".join(t.text for t in tokens[1:]))
        example = f"{named.name} = {tokens[0].text}" if isinstance(named, NumberDecl) else example
    first = tokens[0].text if tokens else ""
    near = did_you_mean(first, (*sorted(CAPITALS), *desk.names.all())) if first[:1].isalpha() else ""
    if step := next((s for t in tokens if (s := desk.names.step(t.text))), None):
        example = f"DONE({step.name}), NOT DONE({step.name}), or START({step.name}) >= 10 min"
    raise trouble(
        fact.span, "no declared name begins this fact", "A fact begins with what it speaks of.",
        near or f"write for example: {example}",
    )  # fmt: skip


def _rest(fact: Words, tokens: tuple[Token, ...]) -> Words:
    span = Span(fact.span.source, tokens[0].start, tokens[-1].end)
    return Words(span.text, tokens, span)


def _point(formula: Formula, names: Names) -> tuple[Declaration, Value] | None:
    """The one name and value that a fact fixes, if it does."""
    match formula:
        case (
            Compare(op="=", left=Measured(name=name), right=other)
            | Compare(op="=", left=other, right=Measured(name=name))
        ):
            value = constant(other)
            return None if value is None else (names.declarations[name], value)
        case Chosen(name=name, member=member):
            return names.declarations[name], member
        case Not(Chosen(name=name, member=member)):
            declared = names.declarations[name]
            left = [] if isinstance(declared, NumberDecl) else [m for m in declared.members if m != member]
            return (declared, left[0]) if len(left) == 1 else None
        case All((Compare(">=", Measured(), Const()), said)):
            found = _point(said, names)
            return found if found and names.one_of(found[0].name) else None
        case All() | Includes() | Not():
            parts = items_of(formula)
            return _set_point(parts, names)
        case _:
            return None


def _of_each(formula: Formula, node: Node, names: Names) -> list[tuple[Declaration, Value]]:
    """The values that `EVERY hole (bore = 2 mm, shape = round)` fixes; none if it says more than that."""
    if not isinstance(node, CallNode) or node.over is None or not isinstance(formula, All):
        return []
    found = []
    for item in formula.items:
        if not isinstance(item, Implies) or node.function != "EVERY":
            return []
        said = item.right
        parts = [said] if _point(said, names) or not isinstance(said, All) else said.items
        points = [_point(part, names) for part in parts]
        found += [point for point in points if point is not None]
        if not all(points):
            return []
    return found


def _set_point(parts: tuple[Formula, ...], names: Names) -> tuple[Declaration, Value] | None:
    inside = [p for p in parts if isinstance(p, Includes)]
    outside = [p.item for p in parts if isinstance(p, Not) and isinstance(p.item, Includes)]
    about = {p.name for p in (*inside, *outside)}
    if len(about) != 1 or len(inside) + len(outside) != len(parts):
        return None
    declared = names.declarations[about.pop()]
    if isinstance(declared, NumberDecl) or len(parts) != len(declared.members):
        return None
    return declared, frozenset(p.member for p in inside)
