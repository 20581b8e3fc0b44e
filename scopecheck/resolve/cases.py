"""Cases: from rows of cells or facts to the set of articles they describe."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from scopecheck.core.model import (
    All,
    Assembly,
    Branch,
    Case,
    ChoiceDecl,
    Chosen,
    Claim,
    Compare,
    Const,
    Declaration,
    Formula,
    Includes,
    Measured,
    Not,
    NumberDecl,
    Part,
    Rounded,
    SetDecl,
    Step,
    Truth,
    Value,
    Written,
)
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import PLAIN, KindError, Unit, as_level, comparable, number_text
from scopecheck.foundations.record import field, holder, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import CAPITALS, Number, Token, scan
from scopecheck.language.syntax import (
    AndNode,
    CallNode,
    CasesStatement,
    ChainNode,
    Column,
    NameNode,
    Node,
    NotNode,
    NumberNode,
    Raw,
    Row,
    Words,
)
from scopecheck.resolve.assembly_cells import said_of_assembly
from scopecheck.resolve.case_parts import Counted, Spoken, as_fact, clashes, list_cell, of_no_parts, says_each
from scopecheck.resolve.catalogue import Phrasebook
from scopecheck.resolve.claims import subject as subject_of
from scopecheck.resolve.constants import constant
from scopecheck.resolve.exact_fitting import bare_number, literal
from scopecheck.resolve.exact_formulas import context, facts
from scopecheck.resolve.groups import Groups, groups_in, names_in
from scopecheck.resolve.names import Names, member_of, no_member, no_moment
from scopecheck.resolve.phrases import Reader
from scopecheck.resolve.step_cells import Cell, ends_of, no_such_word, not_optional, put_end, said_of
from scopecheck.resolve.subjects import Subject

_SILENT, _UNKNOWN, _FREE = ("silent",), ("unknown",), ("any", "free", "")
_DASHES = ("-", "--", "---", "n/a", "na", "n.a.", "n.d.", "?", "/", "x", "tbd")
_TO = regex(r"(\d[\d.]*)\s*([^\d\s]*)\s*(?:to|\.\.\.?|…|-)\s*(\d[\d.]*\s*\S*)")
_SIGN = regex(r"(<=|>=|<|>|≤|≥|!=|≠|=)\s*")
_MEASURED = regex(r"measured\s+")


@holder
class CasesDesk:
    """What is at hand while cases are resolved. `points` are the values of cases that are single things."""

    names: Names
    groups: Groups
    phrases: Phrasebook
    claims: tuple[Claim, ...]
    wrong: list[Diagnostic] = field(default_factory=list)
    points: dict[int, dict[str, Value]] = field(default_factory=dict)
    other_units: dict[tuple[int, str], Trouble] = field(default_factory=dict)
    """What was said of a unit that does not go with its column, by where the column stands."""


STATING = ("document", "description")
"""Roles of what states something, and is silent on the rest."""


@holder
class _Made:
    facts: list[Formula] = field(default_factory=list)
    counted: list[Counted] = field(default_factory=list)
    spoken: list[Spoken] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)
    free: list[str] = field(default_factory=list)
    point: dict[str, Value] = field(default_factory=dict)
    single: bool = True
    ends: list[tuple[Formula, Span]] = field(default_factory=list)
    """Facts that say when a step ends."""


def cases(desk: CasesDesk, statements: tuple[CasesStatement, ...]) -> tuple[Case, ...]:
    """Every case in sheet order. A case with a wrong cell is left out and reported."""
    found: list[Case] = []
    used: dict[str, Span] = {}
    for statement in statements:
        targets = _targets(desk, statement)
        for row in statement.rows:
            name = row.name
            if statement.document and statement.document != row.name:
                name = f"{statement.document}, {row.name}"
            if name in used:
                also = ((used[name], "the first"),)
                desk.wrong.append(Diagnostic("error", row.span, f"two cases are called '{name}'", also=also))
            used.setdefault(name, row.span)
            try:
                case = _case(desk, statement, row, name, targets)
            except Trouble as error:
                desk.wrong.append(error.diagnostic)
            else:
                if case is not None:
                    found.append(case)
    return tuple(found)


def _targets(desk: CasesDesk, statement: CasesStatement) -> tuple[str, ...]:
    known = [str(c.number) for c in desk.claims]
    labels = [x.label for c in desk.claims for x in c.limitations]
    kept = []
    for text, span in statement.targets:
        if text in known or text in labels:
            kept.append(text)
        else:
            what = f"there is no claim {text}" if text.isdigit() else f"there is no limitation {text}"
            listed = known if text.isdigit() else labels
            desk.wrong.append(Diagnostic("error", span, what, f"Known here: {', '.join(listed)}."))
    return tuple(kept)


def _case(
    desk: CasesDesk, statement: CasesStatement, row: Row, name: str, targets: tuple[str, ...]
) -> Case | None:
    stating = statement.role in STATING
    document = statement.document or (statement.role if stating else f"case {name}")
    desk.names.here = (document, name)
    before = len(desk.wrong)
    made = _Made()
    if row.facts is None:
        pairs = list(zip(row.columns, row.cells, strict=True))
        # What a cell says of each part depends on how many the others say there are.
        for column, cell in sorted(pairs, key=lambda pair: says_each(pair[1])):
            try:
                _cell(desk, column, cell, made, stating, document, name)
            except Trouble as error:
                desk.wrong.append(error.diagnostic)
    else:
        for fact in row.facts:
            _fact(desk, fact, made, document, name)
        for fact in row.facts:
            desk.wrong += [t.diagnostic for t in of_no_parts(desk.names, fact, made.facts)]
        for ends, span in made.ends:
            made.single &= put_end(ends, desk.names.steps.values(), made.point, span)
    desk.wrong += clashes(desk.names, made.facts, made.counted, made.spoken)
    if len(desk.wrong) > before:
        return None
    whole: Formula = made.facts[0] if len(made.facts) == 1 else All(tuple(made.facts))
    spoken = names_in(whole)
    stated = tuple(n for n in desk.names.declarations if n in spoken)
    silent = tuple(dict.fromkeys(made.silent))
    if stating:
        said = {*stated, *made.unknown, *made.free}
        silent = tuple(n for n in desk.names.declarations if n not in said)
    form: Literal["thing", "example", "range"] = "thing"
    if stating:
        form = "example" if made.single else "range"
    case = Case(
        name,
        statement.role,
        form,
        targets,
        whole,
        row.text,
        stated,
        silent,
        tuple(made.unknown),
        groups_in(whole),
        row.place,
        row.span,
        statement.document,
    )
    if made.single and set(made.point) == set(stated):
        desk.points[id(case)] = made.point
    return case


# ---- cells


def _declared(desk: CasesDesk, column: Column) -> Declaration:
    found = desk.names.declared(column.name)
    if moment := desk.names.moment_of(column.name):
        raise no_moment(*moment, column.name, column.span)
    if found is None:
        raise desk.names.unknown(column.name, column.span)
    return found


def _cell(
    desk: CasesDesk, column: Column, cell: Raw, made: _Made, document: bool, where: str, name: str
) -> None:
    if desk.names.declared(column.name) is None and (found := desk.names.field_of(column.name)):
        _list_cell(desk, column, cell, made, document, where, name, found)
        return
    if moments := desk.names.throughout(column.name):
        for moment in moments:
            _cell(desk, replace(column, name=moment), cell, made, document, where, name)
        return
    if step := desk.names.step(column.name):
        _step_cell(desk, step, column, cell, made, document, where, name)
        return
    if (whole := desk.names.assemblies.get(column.name.lower())) is not None:
        _assembly_cell(desk, whole, cell, made, document)
        return
    declared = _declared(desk, column)
    before = len(made.facts)
    _value_cell(desk, declared, column, cell, made, document, where, name)
    if len(made.facts) > before and (one := desk.names.one_of(declared.name)):
        made.facts.append(one[0].present(one[1]))
        made.spoken.append(Spoken(*one, cell.span))


def _assembly_cell(desk: CasesDesk, whole: Assembly, cell: Raw, made: _Made, document: bool) -> None:
    """All the parts of an assembly in one cell."""
    text = " ".join(cell.page.plain[cell.start : cell.end].split())
    lower = text.lower()
    if lower in _SILENT or (lower == "" and document):
        made.silent += whole.members
    elif lower in _UNKNOWN:
        made.unknown += whole.members
    elif lower in _FREE:
        made.free += whole.members
    elif lower in _DASHES:
        raise _no_value(cell, text, "none, or silent" if document else "none, or any")
    else:
        said = said_of_assembly(whole, text, cell.span, document)
        for name, value in said.point.items():
            declared = desk.names.declarations[name]
            assert isinstance(declared, NumberDecl)
            assert isinstance(value, Fraction)
            check_domain(declared, value, cell.span)
        made.facts += said.facts or (Truth(True),)
        made.point |= said.point
        made.single = made.single and said.all_fixed


def _list_cell(
    desk: CasesDesk, column: Column, cell: Raw, made: _Made, document: bool, where: str, name: str,
    found: tuple[tuple[Part, ...], str],
) -> None:  # fmt: skip
    """The values of like parts, one by one."""
    (part, *more), own = found
    if more:
        assert part.within
        raise trouble(
            column.span, f"'{column.name}': of which {part.within.name.rpartition(' ')[0]}?",
            "A cell lists the values of one after the other.",
            f"a column for each: {own} of {part.plural} of {part.within.name}",
        )  # fmt: skip
    text = cell.text.strip().lower()
    slots = [part.slot(i, own) for i in range(1, part.most + 1)]
    if text in _SILENT or (text == "" and document):
        made.silent += slots
    elif text in _UNKNOWN:
        made.unknown += slots
    elif text in _FREE:
        made.free += slots
    else:

        def take(declared: Declaration, entry: Raw) -> tuple[Formula, ...]:
            inner = _Made()
            _value_cell(desk, declared, column, entry, inner, document, where, name)
            made.silent += inner.silent
            made.unknown += inner.unknown
            made.free += inner.free
            made.point |= inner.point
            made.single = made.single and inner.single
            return tuple(inner.facts)

        known = made.point.get(part.count)
        count = known if isinstance(known, Fraction) else None
        listed = list_cell(desk.names, part, own, cell, take, count)
        made.facts += listed.facts
        if listed.counted is None:
            made.single = made.single and count is not None
        else:
            made.counted.append(listed.counted)
            declared = desk.names.declarations[part.count]
            assert isinstance(declared, NumberDecl)
            check_domain(declared, Fraction(listed.counted.count), cell.span)
            made.point[part.count] = Fraction(listed.counted.count)


def _value_cell(
    desk: CasesDesk, declared: Declaration, column: Column, cell: Raw, made: _Made, document: bool,
    where: str, name: str,
) -> None:  # fmt: skip
    """What a cell says of one declared thing."""
    page = cell.page
    text = " ".join(page.plain[cell.start : cell.end].split())
    lower = text.lower()
    if lower in _SILENT or (lower == "" and document):
        made.silent.append(declared.name)
    elif lower in _UNKNOWN:
        made.unknown.append(declared.name)
    elif lower in _FREE:
        made.free.append(declared.name)
    elif lower in _DASHES and (isinstance(declared, NumberDecl) or member_of(declared, text) is None):
        raise _no_value(cell, text, "silent (the document says nothing of it)" if document else "any")
    elif isinstance(declared, NumberDecl):
        _number_cell(desk, declared, column, cell, made, where, name)
    elif isinstance(declared, ChoiceDecl):
        member = member_of(declared, text)
        if member is None:
            raise no_member(declared, text, cell.span)
        made.facts.append(Chosen(declared.name, member))
        made.point[declared.name] = member
    else:
        _set_cell(declared, text, cell.span, made, document)


def _step_cell(
    desk: CasesDesk, step: Step, column: Column, cell: Raw, made: _Made, document: bool, where: str, name: str
) -> None:
    lower = " ".join(cell.page.plain[cell.start : cell.end].split()).lower()
    whole = ((step.done,) if step.done else ()) + step.numbers
    if lower in _SILENT or (lower == "" and document):
        made.silent += whole
    elif lower in _UNKNOWN:
        made.unknown += whole
    elif lower in _FREE:
        made.free += whole
    elif lower in _DASHES:
        raise _no_value(cell, lower, "not done, or silent" if document else "not done, or any")
    elif not _said_of_step(
        desk, step, Cell(cell.page, cell.start, cell.end, column.unit, desk.names.own), made
    ):
        tokens = scan(cell.page, cell.start, cell.end, desk.names.own, words=True)
        words = Words(cell.page.plain[cell.start : cell.end], tokens, cell.span)
        by = (Subject(step, step.name, column.span),)
        reader = Reader(desk.names, desk.phrases, desk.groups, where, name)
        if lower.removeprefix("not ").isalpha() and not reader.reads(words, by):
            raise no_such_word(step, cell.span)
        made.facts.append(reader.condition(words, by))
        made.single = False


def _said_of_step(desk: CasesDesk, step: Step, cell: Cell, made: _Made) -> bool:
    """Whether the cell says in its own form when the step is done; what it says is put with the rest."""
    declared = desk.names.declarations[step.start]
    assert isinstance(declared, NumberDecl)
    said = said_of(step, cell, declared.unit)
    if said is not None:
        made.facts += said.facts
        made.point |= said.point
    return said is not None


def _no_value(cell: Raw, text: str, instead: str) -> Trouble:
    return trouble(
        cell.span, f"'{text}' is no value", "It may mean nothing said, nothing there, or not known.",
        f"write {instead}, unknown, or the value",
    )  # fmt: skip


def _set_cell(declared: SetDecl, text: str, span: Span, made: _Made, document: bool) -> None:
    exact = not document or text.startswith("{") or text == "none"
    inner = "" if text == "none" else text.strip("{}")
    members: list[str] = []
    for words in (w.strip() for w in re.split(r"\+|,|\band\b", inner)):
        if words:
            member = member_of(declared, words)
            if member is None:
                raise no_member(declared, words, span)
            members.append(member)
    facts_: list[Formula] = [Includes(declared.name, m) for m in members]
    if exact:
        facts_ += [Not(Includes(declared.name, m)) for m in declared.members if m not in members]
        made.point[declared.name] = frozenset(members)
    made.facts += facts_ or [Truth(True)]


def _number_cell(
    desk: CasesDesk, declared: NumberDecl, column: Column, cell: Raw, made: _Made, where: str, name: str
) -> None:
    page, start, end = cell.page, cell.start, cell.end
    measured = _MEASURED.match(page.plain, start, end)
    sign = _SIGN.match(page.plain, start, end)
    if measured:
        start = measured.end()
    elif sign:
        start = sign.end()
    elif page.plain[start].isalpha():
        tokens = scan(page, start, end, desk.names.own, words=True)
        words = Words(page.plain[start:end], tokens, cell.span)
        by = (Subject(desk.names.value(declared), declared.name, column.span),)
        made.facts.append(Reader(desk.names, desk.phrases, desk.groups, where, name).condition(words, by))
        made.single = False
        return
    if both := _TO.fullmatch(page.plain, start, end):
        high = " ".join(both.group(3).split())
        unit = both.group(2) or high.lstrip("0123456789. ")
        low = f"{both.group(1)} {unit}".strip()
        raise trouble(
            cell.span, f"'{cell.text}' is no single value for {declared.name}",
            "A range in a cell is in words.",
            f"write from {low} to {high}, or the case in facts: {name} : {low} <= {declared.name} <= {high}",
        )  # fmt: skip
    node = parse_facts(page, start, end, desk.names.own)
    if not isinstance(node, NumberNode):
        raise trouble(
            cell.span, f"'{cell.text}' is no value for {declared.name}", "A cell holds one value.",
            f"write a number, silent, unknown, any; or the case in facts: {name} : {declared.name} <= ...",
        )  # fmt: skip
    value = _in_unit(desk, declared, column, node)
    if sign:
        op = {"≤": "<=", "≥": ">=", "≠": "!="}.get(sign.group(1), sign.group(1))
        made.facts.append(Compare(op, Measured(declared.name), Const(value.base, value)))  # type: ignore[arg-type]
        made.single = made.single and op == "="
        return
    check_domain(declared, value.base, cell.span)
    if measured:
        rounded = Rounded(Measured(declared.name), value.step, "away", value.unit.offset)
        made.facts.append(Compare("=", rounded, Const(value.base, value)))
        return
    made.facts.append(Compare("=", Measured(declared.name), Const(value.base, value)))
    made.point[declared.name] = value.base


def _in_unit(desk: CasesDesk, declared: NumberDecl, column: Column, node: NumberNode) -> Written:
    number: Number = node.number
    unit: Unit | None = number.unit or column.unit
    if unit is None:
        if declared.unit.symbol:
            raise bare_number(node.span, number, declared.unit)
        unit = PLAIN
    if declared.kind.basis == "level" and unit.symbol == "K":
        unit = as_level(unit)
    try:
        comparable(declared.kind, unit.kind)
    except KindError as error:
        at = (column.span.start, unit.symbol)
        raise desk.other_units.setdefault(at, _other_unit(declared, node, unit, error)) from None
    written = literal(number, unit).term
    assert isinstance(written, Const)
    assert written.written
    return written.written


def _other_unit(declared: NumberDecl, node: NumberNode, unit: Unit, error: KindError) -> Trouble:
    """Said once for a column: a unit of another kind than the column is declared in."""
    own, number = declared.unit.symbol or "plain numbers", node.number.text
    cause = f"{declared.name} is declared in {own}; the same goes for each such cell of this column."
    if declared.kind.dimension or unit.kind.dimension or not unit.symbol or not declared.unit.symbol:
        return trouble(node.span, str(error), cause)
    what = f"{number} {unit.symbol} stands in a column of {own}, and nothing here converts one into the other"
    help = f"write {number} {own} if that is meant, or declare {declared.name}  share in {unit.symbol}"
    return trouble(node.span, what, cause, help)


def check_domain(declared: NumberDecl, value: Fraction, span: Span) -> None:
    """Raises Trouble if a value cannot be: not whole for a count, or beyond a bound."""
    shown = number_text(declared.unit.from_base(value))
    unit = f" {declared.unit.symbol}" if declared.unit.symbol else ""
    if declared.whole and value.denominator != 1:
        raise trouble(span, f"{declared.name} is a count; {shown} is not whole")
    for end, below in ((declared.lower, True), (declared.upper, False)):
        if end is None or (end.closed and value == end.value):
            continue
        if value == end.value or (value < end.value) == below:
            edge = number_text(declared.unit.from_base(end.value))
            side = "below the lower end" if below else "above the upper end"
            open_end = "" if end.closed else ", which does not belong to it"
            raise trouble(
                span,
                f"{shown}{unit} is outside the domain of {declared.name}",
                f"It is {side if value != end.value else side.split(' ', 2)[2]}, {edge}{unit}{open_end}.",
                also=((declared.span, "declared here"),),
            )


# ---- facts


def _fact(desk: CasesDesk, fact: Node | Words, made: _Made, document: str, name: str) -> None:
    if isinstance(fact, Words):
        if unknown := _unknown_fact(desk, fact):
            made.unknown.append(unknown)
            return
        if _step_fact(desk, fact, made):
            return
        made.facts.append(_words_fact(desk, fact, document, name))
        made.single = False
        return
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
        if known is None:
            made.single = False
            continue
        declared, value = known
        if isinstance(declared, NumberDecl) and isinstance(value, Fraction):
            check_domain(declared, value, node.span)
        made.point[declared.name] = value


def _spoken(names: Names, node: Node) -> list[Spoken]:
    """The one of the parts that a fact says something of."""
    if not isinstance(node, ChainNode):
        return []
    named = (names.declared(n.name) for n in node.operands if isinstance(n, NameNode))
    ones = ((names.one_of(d.name)) for d in named if d is not None)
    return [Spoken(*one, node.span) for one in ones if one]


def _step_fact(desk: CasesDesk, fact: Words, made: _Made) -> bool:
    """Whether the words are a step and what a cell says of it: `soaking not done`, `soaking for 20 min`."""
    tokens = fact.tokens
    for size in range(len(tokens) - 1, 0, -1):
        if all(t.sort == "word" for t in tokens[:size]):
            step = desk.names.step(" ".join(t.text for t in tokens[:size]))
            if step is not None:
                cell = Cell(Page(fact.span.source), tokens[size].start, tokens[-1].end, None, desk.names.own)
                return _said_of_step(desk, step, cell, made)
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
        case All((Compare(">=", Measured(), Const()), said)):
            found = _point(said, names)
            return found if found and names.one_of(found[0].name) else None
        case All() | Includes() | Not():
            parts = formula.items if isinstance(formula, All) else (formula,)
            return _set_point(parts, names)
        case _:
            return None


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
