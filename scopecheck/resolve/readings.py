"""The readings of a phrase at one place: which make sense there, and what each then means."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType

from scopecheck.core.model import (
    Assembly,
    ChoiceDecl,
    Composition,
    Const,
    Formula,
    FreeParameter,
    OwnPhrase,
    Parameter,
    Place,
    Read,
    Reading,
    SetDecl,
    Step,
)
from scopecheck.core.model import Bound as End
from scopecheck.foundations.diagnostics import KindTrouble, Trouble, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Kind, KindError, Unit, as_difference, find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Own
from scopecheck.language.syntax import (
    CallNode,
    ChainNode,
    Free,
    NameNode,
    Node,
    NumberNode,
    Raw,
    ReadStatement,
    RoundNode,
)
from scopecheck.resolve.bare_shares import BareShareTrouble
from scopecheck.resolve.constants import constant, truth
from scopecheck.resolve.definitions import Applied, as_defined, defining
from scopecheck.resolve.entry import Entry, EntryReading
from scopecheck.resolve.exact_fitting import bare_number
from scopecheck.resolve.exact_formulas import context, formula
from scopecheck.resolve.exact_terms import term
from scopecheck.resolve.groups import CLAIMS, Draft, Groups
from scopecheck.resolve.names import Bound, Listed, Names, NotHere, Typed


@record
class Occurrence:
    """Where a phrase stands and what fills its slots. `shown` are the slots' texts, for people."""

    document: str
    where: str
    words: str
    wording: str
    slots: Mapping[str, Bound]
    shown: Mapping[str, str]
    span: Span
    own: OwnPhrase | None = None


def read(
    entry: Entry, at: Occurrence, names: Names, groups: Groups, title: str, defined: tuple[Applied, ...] = ()
) -> Formula:
    """The phrase as one formula for each reading left, in the group's order. Raises Trouble at the words.

    `defined` are the definitions of these words, which may be the entry itself.
    """
    by_definition = any(d.definition.entry is entry for d in defined)
    meant, not_computed, not_tried = ([], (), ()) if by_definition else sort_out(entry, at, names)
    tried = tuple(reading for reading, _ in meant)
    labels = tuple(r.label for r in tried)
    readings = tuple(
        Reading(r.label, entry.standing(r.label, groups.profile, labels), plain(r, at), r.taken_by, r.axes)
        for r in tried
    )
    own = (
        as_defined(defined[0].plain, alone=not readings or groups.claim_profile == "US") if defined else None
    )
    pins = groups.pins_at(at.wording, title, at.where)
    for name in (at.wording, title):
        known = (*labels, own.label) if own else labels
        groups.seen[name] = tuple(dict.fromkeys((*groups.seen.get(name, ()), *known)))
    settling = (defined[0].definition, own) if own else None
    left, settled = groups.settle((*readings, own) if own else readings, pins, at.where, settling)
    apart = at.where if groups.is_apart(at.wording, title) else ""
    by = tuple(id(d.definition) for d in defined)
    key = (at.document, title, entry.nearness, at.wording, labels, tuple(p.text for p in pins), apart, by)
    draft = groups.draft(
        key,
        Draft(
            len(groups.drafts), at.document, at.wording, title, left, settled, not_computed, not_tried, False,
            defining(defined[0].definition, left, own) if defined else None, at.own,
        ),
        Place(at.where, at.words, at.span, tuple(r.plain for r in left)),
    )  # fmt: skip
    ordinary = [r for r in left if r is not own]
    options = _options(ordinary, meant, at, names, groups, pins, draft.index, entry.own)
    if own and own in left:
        options.append(defined[0].meaning)
    return Read(draft.index, tuple(options))


def _options(
    left: list[Reading],
    meant: list[tuple[EntryReading, Formula]],
    at: Occurrence,
    names: Names,
    groups: Groups,
    pins: tuple[ReadStatement, ...],
    group: int,
    own: bool,
) -> list[Formula]:
    """What each reading left means, its free numbers kept in mind, those that pins give at one value."""
    by_label = {reading.label: (reading, meaning) for reading, meaning in meant}
    values = {name: (number, id(pin.span)) for pin in pins for name, number in pin.values}
    for _, place in values.values():
        free = {f.name for r in left for f in by_label[r.label][0].written.free}
        groups.open_numbers.setdefault(place, set()).update(free)
    options = []
    for index, kept in enumerate(left):
        reading, meaning = by_label[kept.label]
        own_numbers = open_numbers(reading, at, names, groups, group, index)
        for parameter in own_numbers:
            if parameter.name in values:
                written, place = values[parameter.name]
                groups.numbers.add((place, parameter.name))
                parameter = _pinned(parameter, pin_value(written, parameter, reading))
            groups.parameters.setdefault(parameter.key, parameter)
        keys = {p.name: p.key for p in own_numbers}
        options.append(meaning_of(reading, at, names, keys, own) if keys else meaning)
    return options


_PLAIN_NUMBER = regex(r"(?<![\w.])(?!0+(?:\.0+)?(?![\d.]))\d")


def pin_value(node: NumberNode, parameter: FreeParameter, reading: EntryReading) -> Fraction:
    """The value of `with e = 5 %` in base units. Raises Trouble at the number if its unit does not fit."""
    number, own = node.number, parameter.unit
    if number.unit is None:
        (free,) = (f for f in reading.written.free if f.name == parameter.name)
        bounds = [raw.text for raw in (*free.bounds, free.presumed) if raw]
        plain = not own.kind.dimension and any(_PLAIN_NUMBER.search(t) and "%" not in t for t in bounds)
        if number.value and not plain:
            raise bare_number(node.span, number, own)
        return number.value
    unit = number.unit
    if own.kind.dimension == unit.kind.dimension and not own.kind.point and unit.kind.point:
        unit = as_difference(unit)
    if own.kind.dimension != unit.kind.dimension:
        raise trouble(
            node.span, f"{node.span.text} is no value for '{parameter.name}'",
            f"It is a {unit.kind.name}; '{parameter.name}' is given in {own.symbol or own.kind.name}.",
        )  # fmt: skip
    return unit.to_base(number.value)


def _pinned(parameter: FreeParameter, value: Fraction) -> FreeParameter:
    end = End(value, True)
    return replace(parameter, lower=end, upper=end, presumed=value, unknown=False)


# ---- which readings can be tried


def sort_out(
    entry: Entry, at: Occurrence, names: Names
) -> tuple[list[tuple[EntryReading, Formula]], tuple[str, ...], tuple[tuple[str, str], ...]]:
    """The readings that can be tried, with their formulas, in which free numbers are not told apart yet;
    the labels of those not computed; the labels of those not tried, with the reason."""
    tried: list[tuple[EntryReading, Formula]] = []
    not_computed: list[str] = []
    not_tried: list[tuple[str, str]] = []
    clash: Trouble | None = None
    fits = False
    for reading in entry.readings:
        why = _condition_fails(reading, at, names)
        if why:
            not_tried.append((reading.label, why))
        elif reading.formula is None:
            not_computed.append(reading.label)
        else:
            speaks = bool(_names_in(_parsed(reading.formula, names.own)) & (set(at.slots) - {"x"}))
            try:
                meant = meaning_of(reading, at, names, {f.name: "?" for f in reading.written.free}, entry.own)
            except NotHere as error:
                not_tried.append((reading.label, str(error)))
            except KindTrouble as error:
                if not entry.patterns:
                    raise
                if entry.own:
                    raise _own_reading(reading, at, error) from error
                clash = clash or (error if speaks or len(at.slots) == 1 else None)
                not_tried.append((reading.label, error.diagnostic.message))
            else:
                tried.append((reading, meant))
                fits = fits or speaks
    if clash and not fits:
        help = ""
        if isinstance(clash, BareShareTrouble):
            first, x = entry.readings[0].formula_text or "...", at.shown.get("x", "")
            raise clash.beside_words(at.span, first, at.slots, x, at.document == CLAIMS)
        if "the bases differ" in clash.diagnostic.message:
            help = "declare a term with a reading for each basis, or write: two blanks, exactly, the meaning"
        if "say (g) or (a)" in clash.diagnostic.message:
            help = (
                "write (g) or (a) after the unit where the claim has it; else declare the thing in the"
                " claim's own unit, or give the meaning: two blanks, exactly ..."
            )
        help = help or "give the meaning in symbols: two blanks, exactly ...; or mark them: not restated :"
        cause = f"No reading of '{at.wording}' goes with these values."
        raise trouble(at.span, clash.diagnostic.message, cause, help)
    if not tried:
        reasons = "; ".join(f"{label}: {why}" for label, why in not_tried) or "none has a formula"
        raise trouble(at.span, f"no reading of '{at.wording}' can be tried here", f"{reasons}.")
    return tried, tuple(not_computed), tuple(not_tried)


def can_be_tried(entry: Entry, at: Occurrence, names: Names) -> bool:
    """Whether `read` has a formula for the words: whether some reading of them can be tried.

    Ends at the first that can be and speaks of what stands in the words; else as `sort_out` decides.
    """
    for reading in () if entry.own else entry.readings:
        if reading.formula is None or _condition_fails(reading, at, names):
            continue
        if _names_in(_parsed(reading.formula, names.own)) & (set(at.slots) - {"x"}):
            try:
                meaning_of(reading, at, names, {f.name: "?" for f in reading.written.free}, entry.own)
            except (NotHere, KindTrouble):
                continue
            return True
    return bool(sort_out(entry, at, names)[0])


def _own_reading(reading: EntryReading, at: Occurrence, error: KindTrouble) -> Trouble:
    """A reading of the author's own is never left out in silence: another one would be presumed instead."""
    return trouble(
        at.span, f"the reading '{reading.label}' of '{at.wording}' does not go with these values",
        f"In it {error.diagnostic.message}.",
        "give its free number a unit (free m : 0 mm <= m <= 1 mm), or say below the reading what it is for:"
        " only for amounts",
    )  # fmt: skip


def _condition_fails(reading: EntryReading, at: Occurrence, names: Names) -> str:
    subject = at.slots.get("x")
    kinds = reading.written.only_for
    if kinds and subject is not None and not any(is_kind(subject, kind) for kind in kinds):
        return f"only for {' or '.join(kinds)}"
    for raw in reading.written.only_when:
        if condition_holds(raw, at.slots, names) is not True:
            return f"only when {plain_text(' '.join(raw.text.split()), at)}"
    return ""


def condition_holds(raw: Raw, slots: Mapping[str, Bound], names: Names) -> bool | None:
    """Whether a condition over the written numbers of an occurrence holds; None if it cannot be told."""
    try:
        return truth(formula(context(names, "condition", slots), _parsed(raw, names.own)))
    except (NotHere, KindTrouble):
        return None


def is_kind(subject: Bound, kind: str) -> bool:
    """Whether a subject is measured, counted, a level, a share, a set and so on."""
    if not isinstance(subject, Typed):
        lists = {
            SetDecl: "sets", ChoiceDecl: "choices", Composition: "compositions", Assembly: "assemblies",
        }  # fmt: skip
        return lists.get(type(subject)) == kind
    own = subject.kind or PLAIN_KIND
    match kind:
        case "measured" | "counts":
            return subject.whole == (kind == "counts")
        case "open counts" | "closed counts":
            return subject.whole and subject.closed == (kind == "closed counts")
        case "amounts" | "levels":
            return own.point == (kind == "levels")
        case "totals":
            return own.adds_up
        case "gauge" | "absolute":
            return own.basis == kind
        case "shares":
            symbol = subject.unit is not None and bool(subject.unit.symbol)
            return not own.dimension and (bool(own.basis) or symbol)
    return False


# ---- formulas


_PARSED: dict[tuple[int, int, int], tuple[Raw, Node]] = {}


def _parsed(raw: Raw, own: Own) -> Node:
    """A formula's node; catalogue formulas are parsed once a run."""
    key = (id(raw.page), raw.start, raw.end)
    found = _PARSED.get(key)
    if found is None or found[0].page is not raw.page:
        found = (raw, parse_facts(raw.page, raw.start, raw.end, own))
        if len(_PARSED) > 4000:
            _PARSED.clear()
        _PARSED[key] = found
    return found[1]


def meaning_of(
    reading: EntryReading, at: Occurrence, names: Names, keys: Mapping[str, str], own: bool,
    fixed: Mapping[str, Fraction] = MappingProxyType({}),
) -> Formula:  # fmt: skip
    assert reading.formula is not None
    slots = dict(at.slots)
    for free in reading.written.free:
        number = Const(fixed[free.name]) if free.name in fixed else Parameter(keys[free.name])
        slots[free.name] = Typed(number, _kind(free, at, names)[0])
    return formula(context(names, "reading", slots, own), _parsed(reading.formula, names.own))


def _kind(free: Free, at: Occurrence, names: Names) -> tuple[Kind, Unit]:
    """The kind of a free number and the unit people read it in."""
    if free.like is None:
        return _kind_written(free, at, names) or (PLAIN_KIND, find_unit("%") or PLAIN)
    model = term(context(names, "reading", at.slots), _parsed(free.like, names.own))
    kind = model.kind or PLAIN_KIND
    unit = model.unit
    subject = at.slots.get("x")
    if unit is None and isinstance(subject, Typed) and subject.unit:
        try:
            unit = as_difference(subject.unit)
        except KindError:
            unit = subject.unit
    if unit is None or unit.kind.dimension != kind.dimension:
        unit = Unit("", kind, Fraction(1))
    return kind, unit


def _kind_written(free: Free, at: Occurrence, names: Names) -> tuple[Kind, Unit] | None:
    """The kind of the numbers in which a free number is bounded, where they have a unit."""
    for raw in (free.presumed, *free.bounds) if free.presumed else free.bounds:
        node = _parsed(raw, names.own)
        for operand in node.operands if isinstance(node, ChainNode) else (node,):
            if not (isinstance(operand, NameNode) and operand.name == free.name):
                written = term(context(names, "reading", at.slots), operand)
                if written.kind and written.unit and written.kind != PLAIN_KIND:
                    return written.kind, written.unit
    return None


def open_numbers(
    reading: EntryReading, at: Occurrence, names: Names, groups: Groups, group: int, index: int
) -> list[FreeParameter]:
    """The free numbers of a reading: shared ones by the kind measured, own ones by the numbers written."""
    found = []
    for free in reading.written.free:
        kind, unit = _kind(free, at, names)
        shared = free.like is None and kind == PLAIN_KIND
        subject = next((s for s in at.slots.values() if isinstance(s, Typed)), None)
        measured = subject.kind.name if subject and subject.kind else "plain number"
        numbers = ", ".join(text for name, text in at.shown.items() if name in _number_slots(at))
        scope = measured if shared else numbers or at.words
        lower, upper = _ends(free, kind, at, names)
        presumed = lower.value
        if free.presumed:
            presumed = _number(free.presumed, kind, at, names)
        key = f"{free.name} of group {group}, reading {index}, {scope}"
        unknown = not (shared or free.presumed or upper or _number_slots(at))
        found.append(
            FreeParameter(key, free.name, group, index, lower, upper, presumed, unit, shared, unknown)
        )
    return found


def _number_slots(at: Occurrence) -> set[str]:
    return {name for name, slot in at.slots.items() if isinstance(slot, Typed) and slot.number is not None}


def _number(raw: Raw, kind: Kind, at: Occurrence, names: Names) -> Fraction:
    value = constant(term(context(names, "reading", at.slots), _parsed(raw, names.own)).term)
    if value is None:
        raise trouble(raw.span, "a written number was expected here")
    return value


def _ends(free: Free, kind: Kind, at: Occurrence, names: Names) -> tuple[End, End | None]:
    lower, upper = End(Fraction(0), True), None
    slots = {**at.slots, free.name: Typed(Parameter(free.name), kind)}
    for raw in free.bounds:
        node = _parsed(raw, names.own)
        if not isinstance(node, ChainNode):
            raise trouble(raw.span, "a bound was expected here", "", f"write {free.name} >= 0")
        for left, sign, right in zip(node.operands, node.signs, node.operands[1:], strict=False):
            named_left = isinstance(left, NameNode) and left.name == free.name
            other = term(context(names, "reading", slots), right if named_left else left)
            value = constant(other.term)
            if value is None or sign not in ("<", "<=", ">", ">="):
                raise trouble(raw.span, "a bound with a written number was expected here")
            end = End(value, "=" in sign)
            if (sign in (">", ">=")) == named_left:
                lower = end
            else:
                upper = end
    if upper is not None and upper.value < lower.value:
        raise trouble(free.span, f"the lower end of {free.name} is above its upper end")
    return lower, upper


def names_of(node: Node) -> list[NameNode]:
    """The names of a formula, where they stand."""
    return [part for part in _parts_of(node) if isinstance(part, NameNode)]


def numbers_of(node: Node) -> list[NumberNode]:
    """The numbers of a formula, where they stand."""
    return [part for part in _parts_of(node) if isinstance(part, NumberNode)]


def _parts_of(node: Node) -> Iterator[object]:
    stack: list[object] = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, tuple):
            stack += item
        elif isinstance(item, NameNode):
            yield item
        elif hasattr(item, "__match_args__") and not isinstance(item, Span):
            yield item
            stack += [getattr(item, name) for name in item.__match_args__ if name not in ("span", "number")]


def _names_in(node: Node) -> set[str]:
    """The names a formula uses, those inside PLACE and DECADE left out."""
    found: set[str] = set()
    stack: list[object] = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, NameNode):
            found.add(item.name)
        elif isinstance(item, RoundNode):
            stack.append(item.item)
        elif isinstance(item, CallNode) and item.function in ("PLACE", "DECADE"):
            continue
        elif isinstance(item, tuple):
            stack += item
        elif hasattr(item, "__match_args__") and not isinstance(item, Span):
            stack += [getattr(item, name) for name in item.__match_args__ if name not in ("span", "number")]
    return found


# ---- in plain words


def plain(reading: EntryReading, at: Occurrence) -> str:
    """The meaning of a reading with the slots filled in."""
    return plain_text(reading.formula_text, at)


_NAME = regex(r"(?<![\w.])[^\W\d_][\w']*(?:-[\w']+)*")
"""A name of a formula, which is one word of letters as in scan.py."""
_EACH = regex(r"\b(EVERY|SOME|ONE)\((\w+)\)")
_ALL_BESIDE = regex(r"\b(\w+) WITHOUT (\{[^}]*\}|\w+)")
_NOTHING_BESIDE = regex(r"\b(\w+) WITHOUT (\{[^}]*\}|\w+) = 0\b")
_PUT_ASIDE = regex(r"\0(\d+)\0")
_PLACE = regex(r"\bPLACE\((\w+)\)")
_PLACE_IN_OTHER = regex(r"\bPLACE\((\w+), (\w+)\)")
_QUANTIFIERS = {"EVERY": "every one of", "SOME": "at least one of", "ONE": "exactly one of"}


def plain_text(text: str, at: Occurrence) -> str:
    """A formula's text with the slots' own texts in place of their names."""

    def listed(match: re.Match[str]) -> str:
        slot = at.slots.get(match.group(2))
        return f"{_QUANTIFIERS[match.group(1)]} {slot.text}" if isinstance(slot, Listed) else match.group()

    places: list[str] = []

    def place(match: re.Match[str]) -> str:
        slot = at.slots.get(match.group(1))
        if isinstance(slot, Typed) and slot.number and slot.unit and slot.number.has_places:
            places.append(_step_text(slot.number.decimals, slot.unit.symbol))
        else:
            places.append(f"the last written place of {at.shown.get(match.group(1), match.group(1))}")
        return f"\0{len(places) - 1}\0"

    def beside(names: str) -> str:
        named = names.strip("{}").replace("RECITED", at.shown.get("RECITED", "RECITED"))
        said = [name.strip() for name in named.split(",")]
        if len(said) == 1:
            return said[0]
        first = ", ".join(at.shown.get(name, name) for name in said[:-1])
        return f"({first.replace(', and ', ', ').replace(' and ', ', ')} and {said[-1]})"

    text = _without_certain(_EACH.sub(listed, text), at)
    text = _PLACE_IN_OTHER.sub(r"the place of \2 that \1 allows", _PLACE.sub(place, text))
    text = _NOTHING_BESIDE.sub(lambda m: f"nothing in {m[1]} beside {beside(m[2])}", text)
    text = _ALL_BESIDE.sub(lambda m: f"all that is in {m[1]} beside {beside(m[2])}", text)

    def value(match: re.Match[str]) -> str:
        shown = at.shown.get(match.group())
        if shown is None:
            return match.group()
        beside = text[: match.start()].rstrip()[-1:] in ("*", "/", "-") or text[match.end() :].lstrip()[
            :1
        ] in ("*", "/")
        return f"({shown})" if beside and re.search(r" [-+*/] ", shown) else shown

    # What a unit is called may be the name of a slot: a place is filled in after the names.
    filled = _NAME.sub(value, text) if at.shown else text
    return _PUT_ASIDE.sub(lambda m: places[int(m[1])], filled)


_OF_STEP = regex(r"\b(DONE|START|END)\((\w+)\)(, (?=\S))?")


def _without_certain(text: str, at: Occurrence) -> str:
    """Without saying that a step is done which always is; an event's start and end are the event itself."""

    def said(match: re.Match[str]) -> str:
        step = at.slots.get(match[2])
        if match[1] == "DONE":
            certain = isinstance(step, Step) and not step.done and match[3]
            return "" if certain else match[0]
        return f"{match[2]}{match[3] or ''}" if isinstance(step, Step) and not step.duration else match[0]

    return _OF_STEP.sub(said, text)


def _step_text(decimals: int, symbol: str) -> str:
    digits = f"0.{'0' * (decimals - 1)}1" if decimals > 0 else "1" + "0" * -decimals
    return f"{digits} {symbol}".strip()
