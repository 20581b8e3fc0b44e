"""Declarations and nouns: from what the sheet declares to the vocabulary of the core."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import OTHERS, Bound, Compare, ReadTerm, Truth
from scopecheck.core.model import Place, Reading, Rivals
from scopecheck.exact.formulas import context
from scopecheck.exact.terms import term
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, did_you_mean, trouble
from scopecheck.foundations.kinds import LEVEL
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    KindError,
    KindWord,
    Unit,
    as_level,
    comparable,
    find_unit,
    kind_word,
    kind_words,
    number_text,
)
from scopecheck.foundations.quantity import Kind as UnitKind
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import HEADINGS
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import CAPITALS
from scopecheck.language.statements_declare import MOST_PARTS
from scopecheck.language.syntax import (
    AssemblyKind,
    Declare,
    ListKind,
    MixtureKind,
    NameNode,
    NumberKind,
    NumberNode,
    PartKind,
    PhraseStatement,
    Raw,
    ReadingText,
    ReadStatement,
    StepKind,
    TermStatement,
)
from scopecheck.occurrences.groups import CLAIMS, Draft, Groups
from scopecheck.occurrences.rivals import Meant, Pair, note_rivals
from scopecheck.vocabulary.assemblies import declare_assemblies
from scopecheck.vocabulary.classes import OTHER_WORDS, classed
from scopecheck.vocabulary.compositions import composition
from scopecheck.vocabulary.compositions import declared_for as declared_shares
from scopecheck.vocabulary.definitions import Definition, as_defined, defining
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.names import Names, Typed
from scopecheck.vocabulary.parts import Inside, Kind, made_of, plural_of_part
from scopecheck.vocabulary.steps import declared_for as declared_for_step
from scopecheck.vocabulary.steps import step_named, terms_of

NEVER_IN_NAMES = frozenset(
    "and or not no about approximately around substantially essentially least most more less than between"
    " each all only optionally together at up".split()
)


def _without(words: list[str], bad: str) -> str:
    """What to declare instead of a name with a word of limits in it."""
    rest = [word for word in words if word.lower() != bad]
    if not rest or not rest[0][0].isalpha() or NEVER_IN_NAMES & {word.lower() for word in rest}:
        return "choose a name without it, such as one noun"
    return f"declare {' '.join(rest)}, and keep '{bad}' in the claim's words right of the colon"


def declarations(declare: Declare) -> list[Declaration]:
    """The declared things of one line. Raises Trouble for wrong bounds, units, names, empty domains."""
    for name in declare.names:
        words = name.name.lower().split()
        bad = next((w for w in words if w in NEVER_IN_NAMES), None)
        if bad:
            raise trouble(
                name.span,
                f"'{bad}' cannot be part of a name",
                "The words of limits and hedges are read as phrases.",
                _without(name.name.split(), bad),
            )
        if name.name in HEADINGS or name.name in CAPITALS:
            raise trouble(name.span, f"'{name.name}' is a word of the language", "", "choose another name")
    kind = declare.kind
    if isinstance(kind, AssemblyKind):
        return []
    if isinstance(kind, MixtureKind):
        return declared_shares(composition(declare, kind), declare.note)
    if isinstance(kind, PartKind | StepKind):
        own = (field for field in declare.fields if not isinstance(field.kind, PartKind))
        return [d for field in own for d in declarations(field)]
    if isinstance(kind, ListKind):
        return [_list(name.name, kind, declare) for name in declare.names]
    return [_number(name.name, kind, declare) for name in declare.names]


def _list(name: str, kind: ListKind, declare: Declare) -> Declaration:
    listed: list[NameNode] = []
    for member in kind.members:
        if member.name.lower() in (m.name.lower() for m in listed):
            raise trouble(member.span, f"'{member.name}' is listed twice")
        if member.name in OTHER_WORDS:
            if kind.only:
                raise trouble(
                    member.span, "'others' in a list that is closed with only", "", "take out one of the two"
                )
            continue
        listed.append(member)
    if not listed:
        raise trouble(kind.span, "a list without members")
    made = classed(listed, declare.classes, () if kind.only else (OTHERS,))
    make = SetDecl if kind.several else ChoiceDecl
    return make(name, made.members, declare.note, declare.span, made.classes)


def _number(name: str, kind: NumberKind, declare: Declare) -> NumberDecl:
    unit = kind.unit or PLAIN
    word = None if kind.unit is None else kind_word(kind.word) if kind.word else None
    if kind.unit is not None and kind.word:
        _check_word(kind, word, kind.unit.kind)
    lower = upper = None
    if kind.whole:
        lower = Bound(Fraction(0), True)
    elif word is not None and not (unit.kind.point and unit.kind.basis == "gauge"):
        lower = Bound(word.lower, True) if word.lower is not None else None
        upper = Bound(word.upper, True) if word.upper is not None else None
    for sign, node in kind.bounds:
        end = Bound(_in_unit_of(node, unit), "=" in sign)
        if sign in (">", ">="):
            lower = end
        else:
            upper = end
    _check_domain(kind, unit, lower, upper)
    stated = bool(kind.bounds)
    return NumberDecl(
        name, unit.kind, unit, kind.whole, lower, upper, stated, declare.note, declare.span, kind.varies
    )


def _in_unit_of(node: NumberNode, own: Unit) -> Fraction:
    """The number of a bound in base units; a bare one, and a bare per cent, is of the declared kind."""
    number = node.number
    used = number.unit or own
    if used.symbol == "K" and own.kind.basis == LEVEL:
        used = as_level(used)
    bare = number.unit is not None and used.kind == PLAIN_KIND and not own.kind.dimension
    try:
        comparable(own.kind if bare else used.kind, own.kind)
    except KindError as error:
        raise trouble(
            node.span, f"a bound in {used.symbol} for a quantity in {own.symbol or 'plain numbers'}",
            error.sentence,
            f"write the bound in {own.symbol}" if own.symbol else "write it without a unit",
        ) from None  # fmt: skip
    return used.to_base(number.value)


def _check_word(kind: NumberKind, word: KindWord | None, own: UnitKind) -> None:
    if word is None:
        raise trouble(kind.span, f"'{kind.word}' is no kind", "", did_you_mean(kind.word, kind_words()))
    if not word.accepts(own):
        assert kind.unit
        raise trouble(
            kind.span, f"{kind.unit.symbol} is no unit of {word.name}",
            f"{kind.unit.symbol} measures a {own.name}.", _unit_of(word, kind.unit.symbol),
        )  # fmt: skip


def _unit_of(word: KindWord, symbol: str) -> str:
    """A help sentence: the unit like this one that goes with the word, or the word for the unit."""
    near = {"degC": ("K",), "°C": ("K",)}.get(symbol, (f"{symbol}(g)", f"{symbol}(a)"))
    known = [s for s in near if (unit := find_unit(s)) and word.accepts(unit.kind)]
    if known:
        return f"write {word.name} in {known[0]}"
    unit = find_unit(symbol)
    words = (f"{w} " for w in kind_words() if unit and (kind := kind_word(w)) and kind.accepts(unit.kind))
    return f"write {next(words, '')}in {symbol}"


def _check_domain(kind: NumberKind, unit: Unit, lower: Bound | None, upper: Bound | None) -> None:
    if lower is None or upper is None:
        return
    if lower.value > upper.value:
        raise trouble(
            kind.span,
            "the lower bound is above the upper bound",
            "No value lies between them.",
            "check their order",
        )
    empty = lower.value == upper.value and not (lower.closed and upper.closed)
    if kind.whole:
        first = -(-lower.value // 1)
        if first == lower.value and not lower.closed:
            first += 1
        empty = first > upper.value or (first == upper.value and not upper.closed)
    if empty:
        raise trouble(
            kind.span, "no value lies within these bounds",
            f"The domain from {_shown(lower, unit)} to {_shown(upper, unit)} is empty.",
            "write <= or >= where an end belongs to it",
        )  # fmt: skip


def _shown(end: Bound, unit: Unit) -> str:
    return f"{number_text(unit.from_base(end.value))} {unit.symbol}".strip()


# ---- nouns


def readings_entry(title: str, readings: tuple[ReadingText, ...], span: Span) -> Entry:
    """An entry without wordings: readings written in the sheet for one noun or one limitation."""
    statement = PhraseStatement((), None, readings, (), (), (), (), "", (), "", "", "", title, span)
    return Entry((), (), (), True, lambda: statement)


def noun(statement: TermStatement, names: Names, groups: Groups) -> Callable[[Span], Typed]:
    """A function that opens the noun at a place: a term for each referent, a group of the document there."""
    entry = readings_entry(statement.noun, statement.readings, statement.span)
    opening: list[Span] = []

    def opened(span: Span) -> Typed:
        if opening:
            raise trouble(span, f"what '{statement.noun}' stands for leads back to '{statement.noun}'")
        opening.append(span)
        try:
            return referents(span)
        finally:
            opening.clear()

    def referents(span: Span) -> Typed:
        document, where = names.here
        typed = {
            reading.label: _referent(reading.formula, names) for reading in entry.readings if reading.formula
        }
        labels = tuple(typed)
        readings = tuple(
            Reading(
                r.label, entry.standing(r.label, groups.profile, labels), r.formula_text, r.taken_by, r.axes
            )
            for r in entry.readings
            if r.label in typed
        )
        defined = _noun_definitions(statement.noun, names, groups) if document == CLAIMS else ()
        own = (
            as_defined(defined[0][0].reading.formula_text, alone=not readings or groups.claim_profile == "US")
            if defined
            else None
        )
        if not labels and own is None:
            raise _no_referent(statement, span, document)
        groups.seen[statement.noun] = (*labels, own.label) if own else labels
        pins = groups.pins_at(statement.noun, statement.noun, where)
        settling = (defined[0][0], own) if own else None
        left, settled, holding = groups.settle((*readings, own) if own else readings, pins, where, settling)
        apart = where if groups.is_apart(statement.noun, statement.noun) else ""
        by = tuple(id(d) for d, _ in defined)
        key = (document, "term", statement.noun, labels, tuple(p.text for p in holding), apart, by)
        skipped = tuple(r.label for r in entry.readings if r.formula is None)
        draft = groups.draft(
            key,
            Draft(
                len(groups.drafts), document, statement.noun, statement.noun, left, settled, skipped, (),
                True, defining(defined[0][0], left, own) if defined else None,
            ),
            Place(where, statement.noun, span),
        )  # fmt: skip
        _note_rivals(statement, readings, typed, defined, groups, holding, where)
        options = [defined[0][1] if r is own else typed[r.label] for r in left]
        return _together(statement, draft.index, options, list(typed.values()))

    return opened


def _referent(raw: Raw, names: Names) -> Typed:
    return term(context(names), parse_facts(raw.page, raw.start, raw.end, names.own))


def _noun_definitions(noun: str, names: Names, groups: Groups) -> tuple[tuple[Definition, Typed], ...]:
    """The definitions of a noun, each with what it stands for."""
    found = []
    for d in groups.definitions:
        if d.noun and d.name == noun.lower() and d.reading.formula:
            found.append((d, _referent(d.reading.formula, names)))
            groups.reached.setdefault(id(d), []).append(names.here[1])
    return tuple(found)


def _no_referent(statement: TermStatement, span: Span, document: str) -> Trouble:
    if statement.readings or document == CLAIMS:
        return trouble(statement.span, f"no referent of '{statement.noun}' has a meaning")
    return trouble(
        span, f"'{statement.noun}' is defined for the claims only",
        "A definition of the description says nothing of what others mean.", "name the thing itself",
    )  # fmt: skip


def _note_rivals(
    statement: TermStatement,
    readings: tuple[Reading, ...],
    typed: dict[str, Typed],
    defined: tuple[tuple[Definition, Typed], ...],
    groups: Groups,
    pins: tuple[ReadStatement, ...],
    where: str,
) -> None:
    """Keeps in mind what else settles a defined noun: further definitions, policies and pins."""
    noun = statement.noun
    for (first, one), (second, other) in pairwise(defined):
        pair = (_same(one, other),)
        groups.rivals.append(Rivals(noun, where, first.settled(), second.settled(), pair))
    for d, own in defined:
        ordinary = tuple(Meant(r.label, r.axes, _same(own, typed[r.label])) for r in readings)
        note_rivals(groups, d, (noun, where), pins, ordinary)


def _same(one: Typed, other: Typed) -> Pair:
    """Two referents as two facts that agree where the referents do."""
    alike = one.kind is None or other.kind is None or one.kind.dimension == other.kind.dimension
    return Truth(True), Compare("=", one.term, other.term) if alike else Truth(False)


def _together(statement: TermStatement, index: int, options: list[Typed], every: list[Typed]) -> Typed:
    """The referents left, as one value: a bare share goes with it if any differed in kind."""
    first = options[0]
    kinds = tuple(dict.fromkeys(o.kind for o in options if o.kind is not None))
    if len({k.dimension for k in kinds}) > 1:
        listed = " and ".join(k.name for k in kinds)
        raise trouble(
            statement.span, f"the referents of '{statement.noun}' are of different kinds", f"{listed}."
        )
    made = ReadTerm(index, tuple(o.term for o in options))
    several = kinds if len({o.kind for o in every} | set(kinds)) > 1 else ()
    return Typed(made, first.kind, unit=first.unit, whole=all(o.whole for o in options), kinds=several)


def declare_all(statements: tuple[Declare, ...], names: Names, wrong: list[Diagnostic]) -> None:
    """Puts every declared thing into the names; a name declared twice is an error at the second place."""
    for statement in statements:
        try:
            made = declarations(statement)
        except Trouble as error:
            wrong.append(error.diagnostic)
            continue
        if isinstance(statement.kind, PartKind):
            try:
                _declare_part(statement, made, names)
            except Trouble as error:
                wrong.append(error.diagnostic)
            continue
        if isinstance(statement.kind, MixtureKind):
            _declare_composition(statement, statement.kind, made, names, wrong)
            continue
        if isinstance(statement.kind, AssemblyKind):
            continue
        if isinstance(statement.kind, StepKind):
            _declare_steps(statement, statement.kind, made, names, wrong)
            continue
        for node, declaration in zip(statement.names, made, strict=True):
            first = names.declarations.get(declaration.name) or names.steps.get(declaration.name.lower())
            if first is not None:
                also = ((first.span, "declared first here"),)
                wrong.append(Diagnostic("error", node.span, f"'{node.name}' is declared twice", also=also))
            else:
                names.declarations[declaration.name] = declaration
    declare_assemblies(statements, names, wrong)


def _declare_part(statement: Declare, fields: list[Declaration], names: Names) -> None:
    """Puts the count of the parts and the fields of each into the names."""
    kind = _kind_of(statement)
    inside = Inside(
        tuple(fields),
        tuple(
            (_kind_of(inner), tuple(d for field in inner.fields for d in declarations(field)))
            for inner in statement.fields
            if isinstance(inner.kind, PartKind)
        ),
    )
    called = [(d.name, d.span) for d in fields]
    for inner, own in inside.kinds:
        called += [(inner.plural, inner.span), (inner.name, inner.span)]
        inner_names = [d.name for d in own]
        doubled = next((d for d in own if inner_names.count(d.name) > 1), None)
        if doubled is not None:
            raise trouble(doubled.span, f"'{doubled.name}' is declared twice")
        if kind.most * inner.most > MOST_PARTS:
            raise trouble(
                inner.span, f"up to {inner.most} {inner.plural} in each of up to {kind.most} {kind.plural}",
                f"There may be up to {MOST_PARTS} of them together.",
            )  # fmt: skip
    for index, (name, span) in enumerate(called):
        if name in [n for n, _ in called[:index]]:
            raise trouble(span, f"'{name}' is declared twice")
    parts, declared = made_of(kind, inside)
    for part in (parts[0], *(p for p in parts if p.within and p.within.index == 1)):
        for name in (part.name, part.plural):
            if names.declared(name) is not None or names.kind(name):
                raise trouble(part.span, f"'{name}' is declared twice")
    names.kinds[kind.name.lower()] = (parts[0],)
    for inner, _ in inside.kinds:
        names.kinds[inner.name.lower()] = tuple(p for p in parts if p.within and p.name == inner.name)
    names.of_one |= {name: (part, i) for part in parts for i, _, name in part.slots()}
    for declaration in declared:
        names.declarations[declaration.name] = declaration


def _kind_of(statement: Declare) -> Kind:
    kind = statement.kind
    assert isinstance(kind, PartKind)
    if len(statement.names) != 1:
        raise trouble(statement.span, "several parts in one line", "", "declare each on its own line")
    name = statement.names[0].name
    return Kind(
        name, kind.plural or plural_of_part(name), kind.least, kind.most, statement.note, statement.span
    )


def _declare_composition(
    statement: Declare, kind: MixtureKind, shares: list[Declaration], names: Names, wrong: list[Diagnostic]
) -> None:
    """Puts a composition and the shares of its ingredients and classes into the names."""
    made = composition(statement, kind)
    called = (made.name, *(d.name for d in shares))
    taken = next((n for n in called if _taken(n, names)), None)
    if taken is not None:
        spelled = (x for line in statement.classes for x in (line.name, *(line.members or ())))
        span = next((x.span for x in spelled if x.name == taken), statement.names[0].span)
        help = f"give it a name of its own, such as {taken} in {made.name}"
        wrong.append(Diagnostic("error", span, f"'{taken}' is declared twice", "", help))
        return
    names.compositions[made.name.lower()] = made
    for declaration in shares:
        names.declarations[declaration.name] = declaration


def _declare_steps(
    statement: Declare, kind: StepKind, fields: list[Declaration], names: Names, wrong: list[Diagnostic]
) -> None:
    """Puts what is declared for steps into the names: when each starts, how long it takes, its fields."""
    numbers = [field for field in fields if isinstance(field, NumberDecl)]
    for field in fields:
        if not isinstance(field, NumberDecl) or field.whole:
            help = "declare it at the left margin"
            what = f"'{field.name}' below a step is no measured quantity"
            wrong.append(Diagnostic("error", field.span, what, "What is measured may change in time.", help))
            return
    for node in statement.names:
        called = tuple(field.name for field in numbers)
        step = step_named(node.name, kind, called, statement.span)
        made = tuple(declared_for_step(step, kind.unit, numbers, statement.note))
        taken = [n for n in (step.name, *(d.name for d in made)) if _taken(n, names)]
        if taken or len(set(called)) < len(called):
            twice = next((n for n in called if called.count(n) > 1), step.name)
            wrong.append(Diagnostic("error", node.span, f"'{twice}' is declared twice"))
            return
        names.steps[step.name.lower()] = step
        names.declarations |= {d.name: d for d in made}
        for name, typed in terms_of(step, names):
            names.terms[name] = typed


def _taken(name: str, names: Names) -> bool:
    known = (names.steps, names.compositions)
    taken = names.declared(name) is not None or bool(names.kind(name))
    return taken or any(name.lower() in place for place in known)
