"""The readings of a phrase at one place: which make sense there, and what each then means."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType

from scopecheck.core.construction import names_in
from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, SetDecl
from scopecheck.core.formula import (
    OTHERS,
    All,
    Any,
    Const,
    ExactlyOne,
    Formula,
    Not,
    Parameter,
    Read,
    lies_within,
)
from scopecheck.core.formula import Bound as End
from scopecheck.core.model import FreeParameter, Place, Reading, Standing
from scopecheck.exact.bare_shares import BareShareTrouble
from scopecheck.exact.fitting import bare_number
from scopecheck.exact.formulas import context, formula
from scopecheck.foundations.diagnostics import KindTrouble, Trouble, trouble
from scopecheck.foundations.quantity import PLAIN_KIND, POINTS, KindError
from scopecheck.foundations.record import field, holder, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.syntax import (
    NumberNode,
    Raw,
    ReadStatement,
)
from scopecheck.occurrences.alike import by_place
from scopecheck.occurrences.free_numbers import kind_of_free, open_numbers, taken_as
from scopecheck.occurrences.groups import CLAIMS, Draft, Groups, Pin
from scopecheck.occurrences.occurrence import Occurrence, names_used, parsed
from scopecheck.occurrences.plain_readings import plain, plain_text
from scopecheck.vocabulary.constants import truth
from scopecheck.vocabulary.definitions import Applied, as_defined, defining
from scopecheck.vocabulary.entry import PROFILES, Entry, EntryReading
from scopecheck.vocabulary.names import Bound, Listed, Names, NotHere, Typed


def read(
    entry: Entry, at: Occurrence, names: Names, groups: Groups, title: str, defined: tuple[Applied, ...] = ()
) -> Formula:
    """The phrase as one formula for each reading left, in the group's order. Raises Trouble at the words.

    `defined` are the definitions of these words, which may be the entry itself.
    """
    by_definition = any(d.definition.entry is entry for d in defined)
    meant, not_computed, not_tried = ([], (), ()) if by_definition else sort_out(entry, at, names)
    meant += _named_by_figures(entry, meant, groups)
    tried = tuple(reading for reading, _ in meant)
    labels = tuple(r.label for r in tried)
    readings = tuple(
        Reading(r.label, entry.standing(r.label, groups.profile, labels), plain(r, at), r.taken_by, r.axes)
        for r in tried
    )
    own = (
        as_defined(defined[0].plain, alone=not readings or groups.claim_profile == "US") if defined else None
    )
    known = (*labels, own.label) if own else labels
    pins = groups.pins_at(at.wording, title, at.where, at.words, known)
    for name in (at.wording, title):
        groups.seen[name] = tuple(dict.fromkeys((*groups.seen.get(name, ()), *known)))
    settling = (defined[0].definition, own) if own else None
    left, settled, holding = groups.settle((*readings, own) if own else readings, pins, at.where, settling)
    apart = at.where if groups.is_apart(at.wording, title) else ""
    by = tuple(id(d.definition) for d in defined)
    alike = (at.document, title, entry.nearness, at.wording, tuple(p.text for p in holding), apart, by)
    draft = groups.draft(
        (alike, labels),
        Draft(
            len(groups.drafts), at.document, at.wording, title, left, settled, not_computed, not_tried, False,
            defining(defined[0].definition, left, own) if defined else None, at.own,
            tuple(x for x in labels if x in entry.presumed.get(groups.profile, ())),
            () if settled and len(left) == 1 else _untried(entry, groups.profile, labels, not_computed),
            alike,
        ),
        Place(at.where, at.words, at.span, tuple(r.plain for r in left)),
    )  # fmt: skip
    ordinary = [r for r in left if r is not own]
    _note_numbers(pins, tried, groups)
    by_label = {reading.label: (reading, meaning) for reading, meaning in meant}
    options = []
    for index, kept in enumerate(ordinary):
        reading, meaning = by_label[kept.label]
        numbers = open_numbers(reading, at, names, draft.index, index)
        keys = _kept_numbers(numbers, reading, holding, groups)
        options.append(meaning_of(reading, at, names, keys, entry.own) if keys else meaning)
    if own and own in left:
        options.append(defined[0].meaning)
    return Read(draft.index, tuple(options))


def _named_by_figures(
    entry: Entry, meant: list[tuple[EntryReading, Formula]], groups: Groups
) -> list[tuple[EntryReading, Formula]]:
    """Readings by figures that a pin names and this place lacks: they are what rounds to its last digit."""
    if not groups.pins:
        return []
    named = {pin.reading.lower() for pin in groups.pins}
    by_axes = {r.axes: meaning for r, meaning in reversed(meant)}
    have = {r.label for r, _ in meant}
    missing = (r for r in entry.readings if r.label.lower() in named and r.label not in have)
    return [(r, by_axes[axes]) for r in missing if (axes := by_place(r.axes)) != r.axes and axes in by_axes]


def _untried(
    entry: Entry, profile: str, labels: tuple[str, ...], not_computed: tuple[str, ...]
) -> tuple[tuple[str, Standing], ...]:
    known = (*labels, *not_computed)
    told = ((label, entry.standing(label, profile, known)) for label in not_computed)
    return tuple((label, standing) for label, standing in told if standing != "strained")


def _note_numbers(pins: tuple[Pin, ...], tried: tuple[EntryReading, ...], groups: Groups) -> None:
    """Keeps in mind which numbers the readings of pins leave open, and which of them the pins give."""
    for _, pin in pins:
        for reading in tried:
            if pin.values and reading.label.lower() == pin.reading.lower():
                free = {f.name for f in reading.written.free}
                groups.open_numbers.setdefault(id(pin.span), set()).update(free)
                groups.numbers |= {(id(pin.span), name) for name, _ in pin.values if name in free}


def _kept_numbers(
    numbers: Sequence[FreeParameter], reading: EntryReading, pins: tuple[ReadStatement, ...], groups: Groups
) -> dict[str, str]:
    """The keys of a reading's free numbers, which are kept in mind, those that pins give at one value."""
    values = {name: number for pin in pins for name, number in pin.values}
    for parameter in numbers:
        if parameter.name in values:
            parameter = _pinned(parameter, values[parameter.name], reading)
        groups.parameters.setdefault(parameter.key, parameter)
    return {p.name: p.key for p in numbers}


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
    try:
        return taken_as(number.unit, own).to_base(number.value)
    except KindError as error:
        cause = f"{error.sentence} '{parameter.name}' is given in {own.symbol or own.kind.name}."
        raise trouble(node.span, f"{node.span.text} is no value for '{parameter.name}'", cause) from None


def _pinned(parameter: FreeParameter, node: NumberNode, reading: EntryReading) -> FreeParameter:
    """The parameter at the one value that a pin gives. Raises Trouble at the number if it cannot have it."""
    value = pin_value(node, parameter, reading)
    if not lies_within(value, parameter.lower, parameter.upper):
        (free,) = (f for f in reading.written.free if f.name == parameter.name)
        bounds = ", ".join(raw.text for raw in free.bounds)
        raise trouble(
            node.span, f"{node.span.text} is no value for '{parameter.name}'",
            f"The reading '{reading.label}' leaves it open within {bounds} only.", "give a value within them",
        )  # fmt: skip
    end = End(value, True)
    return replace(parameter, lower=end, upper=end, presumed=value, unknown=False)


# ---- which readings can be tried


@holder
class _Sorted:
    """What has been found of an entry's readings at one place so far."""

    tried: list[tuple[EntryReading, Formula]] = field(default_factory=list)
    not_computed: list[str] = field(default_factory=list)
    not_tried: list[tuple[str, str]] = field(default_factory=list)
    clash: Trouble | None = None
    """Why a reading does not go with the values, if that speaks against the whole phrase."""
    bare: bool = False
    """Whether it is of a limit that the words have as it stands."""
    fits: bool = False
    """Whether a reading that speaks of the values goes with them."""


def sort_out(
    entry: Entry, at: Occurrence, names: Names
) -> tuple[list[tuple[EntryReading, Formula]], tuple[str, ...], tuple[tuple[str, str], ...]]:
    """The readings that can be tried, with their formulas, in which free numbers are not told apart yet;
    the labels of those not computed; the labels of those not tried, with the reason."""
    made = _Sorted()
    for reading in entry.readings:
        why = _condition_fails(reading, at, names) or _points_of(entry, reading, at)
        if why:
            made.not_tried.append((reading.label, why))
        elif reading.formula is None:
            made.not_computed.append(reading.label)
        else:
            speaks = bool(names_used(parsed(reading.formula, names.own)) & (set(at.slots) - {"x"}))
            _try_out(made, entry, reading, at, names, speaks)
    tried, not_tried = made.tried, made.not_tried
    strained_alone = bool(tried) and _only_strained_left(entry, [r.label for r, _ in tried], not_tried)
    if made.clash and (made.bare or not made.fits or strained_alone):
        raise _none_goes(entry, at, made.clash)
    if not tried or strained_alone:
        reasons = "; ".join(f"{label}: {why}" for label, why in not_tried) or "none has a formula"
        raise trouble(at.span, f"no reading of '{at.called}' can be tried here", f"{reasons}.")
    return tried, tuple(made.not_computed), tuple(not_tried)


def _try_out(
    made: _Sorted, entry: Entry, reading: EntryReading, at: Occurrence, names: Names, speaks: bool
) -> None:
    """Puts a reading with those tried or with those not tried; `speaks`: it speaks of what fills a slot."""
    try:
        meant = _meaning_in_points(entry, reading, at, names)
    except NotHere as error:
        made.not_tried.append((reading.label, str(error)))
    except Trouble as error:
        if not entry.patterns or not _does_not_fit(error, at):
            raise
        if entry.own:
            raise _own_reading(reading, at, error) from error
        if _is_of_a_limit(error, entry, at):
            made.bare, made.clash = True, error
        made.clash = made.clash or (error if speaks or len(at.slots) == 1 else None)
        made.not_tried.append((reading.label, error.diagnostic.message))
    else:
        made.fits = made.fits or speaks
        same = next((r.label for r, m in made.tried if _alone(m) == _alone(meant)), "")
        if same and not (entry.own or reading.written.free or entry.presumes(reading.label)):
            made.not_tried.append((reading.label, f"the same as '{same}' here"))
        else:
            made.tried.append((reading, meant))


def _none_goes(entry: Entry, at: Occurrence, clash: Trouble) -> Trouble:
    """The error for values that go with no reading of the phrase."""
    if isinstance(clash, BareShareTrouble):
        first, x = entry.readings[0].formula_text or "...", at.shown.get("x", "")
        return clash.beside_words(at.span, first, at.slots, x, at.document == CLAIMS)
    help = ""
    if "the bases differ" in clash.diagnostic.message:
        help = (
            "declare it on the claim's own basis (wt%, vol%, mol%, w/v%), or a term with a reading for"
            " each basis, or write: two blanks, exactly, the meaning"
        )
    if "say (g) or (a)" in clash.diagnostic.message:
        help = (
            "write (g) or (a) after the unit where the claim has it; else declare the thing in the"
            " claim's own unit, or give the meaning: two blanks, exactly ..."
        )
    help = help or _in_the_unit_of_the_words(at)
    help = help or "give the meaning in symbols: two blanks, exactly ...; or mark them: not restated :"
    cause = f"No reading of '{at.called}' goes with these values."
    return trouble(at.span, clash.diagnostic.message, cause, help)


def _only_strained_left(entry: Entry, tried: list[str], not_tried: list[tuple[str, str]]) -> bool:
    """Do only strained readings fit where others do not? No words are read as what contradicts them alone."""
    computed = [r.label for r in entry.readings if r.formula is not None]
    lost = [label for label, why in not_tried if not why.startswith("the same as")]
    return any(
        all(entry.standing(x, profile, tuple(computed)) == "strained" for x in tried)
        and any(entry.standing(x, profile, tuple(computed)) != "strained" for x in lost)
        for profile in PROFILES
    )


def _does_not_fit(error: Trouble, at: Occurrence) -> bool:
    """Does the formula of a reading only not go with what stands here?

    So it is of kinds, and wherever the trouble would be told of a file other than the sheet itself.
    """
    return isinstance(error, KindTrouble) or error.diagnostic.span.source is not at.span.source


def _in_the_unit_of_the_words(at: Occurrence) -> str:
    """How to declare a plain number that the words give a unit, or what is so much per something; else ''."""
    x, others = at.slots.get("x"), [b for name, b in at.slots.items() if name != "x"]
    units = [b.number.unit if isinstance(b, Typed) and b.number else None for b in others]
    first = next(iter(units), None)
    if not isinstance(x, Typed) or first is None or None in units:
        return ""
    if x.kind != PLAIN_KIND and "/" not in first.symbol:
        return ""
    return f"declare it in the unit of the words: {at.shown.get('x', '...')}  in {first.symbol}"


def _alone(f: Formula) -> Formula:
    """Without an 'and', 'or' or 'exactly one' of a single condition."""
    match f:
        case Not(item=item):
            return Not(_alone(item))
        case All(items=(single,)) | Any(items=(single,)) | ExactlyOne(items=(single,)):
            return _alone(single)
    return f


def can_be_tried(entry: Entry, at: Occurrence, names: Names) -> bool:
    """Whether `read` has a formula for the words: whether some reading of them can be tried.

    Ends at the first that can be and speaks of what stands in the words; else as `sort_out` decides.
    """
    for reading in () if entry.own else entry.readings:
        if reading.formula is None or _condition_fails(reading, at, names):
            continue
        if reading.label in entry.strained:
            continue
        if names_used(parsed(reading.formula, names.own)) & (set(at.slots) - {"x"}):
            try:
                meaning_of(reading, at, names, {f.name: "?" for f in reading.written.free}, entry.own)
            except NotHere:
                continue
            except Trouble as error:
                if not _does_not_fit(error, at):
                    raise
                continue
            return True
    return bool(sort_out(entry, at, names)[0])


def _meaning_in_points(entry: Entry, reading: EntryReading, at: Occurrence, names: Names) -> Formula:
    """What a reading means; of two shares on a basis that differ by a bare per cent, by so many points.

    What is so many per cent more than another is so by a share of that.
    """
    free = {f.name: "?" for f in reading.written.free}
    try:
        return meaning_of(reading, at, names, free, entry.own)
    except KindTrouble:
        differences = {s.name for p in entry.patterns for s in p.slots if s.kind == "difference"}
        slots = {
            name: _on_their_basis(name, at) if name in differences else b for name, b in at.slots.items()
        }
        more = {"more", "than"} <= set(at.span.text.lower().split())
        if more or slots == dict(at.slots):
            raise
        return meaning_of(reading, replace(at, slots=slots), names, free, entry.own)


def _on_their_basis(name: str, at: Occurrence) -> Bound:
    """A number in a bare per cent as one on the basis of the shares beside it."""
    bound = at.slots[name]
    kinds = {
        b.kind
        for n, b in at.slots.items()
        if n != name and isinstance(b, Typed) and b.kind and b.number is None and not b.whole
    }
    bare = isinstance(bound, Typed) and bound.number is not None and bound.kind == PLAIN_KIND and bound.unit
    if (
        not bare
        or len(kinds) != 1
        or (kind := next(iter(kinds))).dimension
        or not isinstance(bound, Typed)
        or not bound.unit
    ):
        return bound
    return replace(bound, kind=kind) if bound.unit.symbol == "%" and kind != PLAIN_KIND else bound


_POINT = regex(r"(?i)\bpercentage[ -]points?\b")


def _points_of(entry: Entry, reading: EntryReading, at: Occurrence) -> str:
    """Why a reading is not tried that takes percentage points for a share of what something differs from, or
    a fraction for points."""
    numbers = [b.number for b in at.slots.values() if isinstance(b, Typed)]
    parts = any(n and n.unit and n.unit.symbol == "%" and "/" in n.text for n in numbers)
    of_share = parts and "x" in at.slots and is_kind(at.slots["x"], "shares")
    if of_share and _SHARED.isdisjoint(reading.axes) and any(RELATIVE in r.axes for r in entry.readings):
        return "a fraction is one of what it differs from"
    # Beside shares on a basis the number has their unit already.
    points = any(n and n.unit and n.unit.symbol == POINTS for n in numbers) or _POINT.search(at.span.text)
    return "percentage points are no share" if points and not _SHARED.isdisjoint(reading.axes) else ""


def _is_of_a_limit(error: Trouble, entry: Entry, at: Occurrence) -> bool:
    """Whether a limit in a bare % is the trouble: it is on no basis whatever a reading computes with it.

    A difference in a bare % may be a share of what it differs from.
    """
    if not isinstance(error, BareShareTrouble):
        return False
    limits = {s.name for p in entry.patterns for s in p.slots if s.kind == "number"}
    slots = (at.slots[name] for name in limits & set(at.slots))
    return any(isinstance(b, Typed) and b.number and b.number.text == error.number for b in slots)


def _own_reading(reading: EntryReading, at: Occurrence, error: Trouble) -> Trouble:
    """A reading of the author's own is never left out in silence: another one would be presumed instead."""
    return trouble(
        at.span, f"the reading '{reading.label}' of '{at.called}' does not go with these values",
        f"In it {error.diagnostic.message}.",
        "give its free number a unit (free m : 0 mm <= m <= 1 mm), or say below the reading what it is for:"
        " only for amounts",
    )  # fmt: skip


def _condition_fails(reading: EntryReading, at: Occurrence, names: Names) -> str:
    subject = at.slots.get("x")
    kinds = reading.written.only_for
    if kinds and subject is not None and not any(is_kind(subject, kind) for kind in kinds):
        return f"only for {' or '.join(kinds)}"
    if names.of_several and _OF_THE_TOTAL in reading.axes:
        return "only of two things, of which the total is one of both"
    if _OF_THE_TOTAL in reading.axes and _STROKE.search(at.span.text):
        return "only where no stroke says what is divided by what"
    if _OF_THE_TOTAL in reading.axes and _one_holds_another(at, names):
        return "only of two things, none of which holds the other"
    if reading.formula_text in ("x < N", "x <= N") and _is_better_greater(at, names):
        return "more of it is better"
    if reading.label == _ONE_BY_ONE and MOMENTS not in at.slots:
        return "only of two things that vary in the course of a step"
    if reading.label in _SO_ALONE and "r" in at.slots and STATES not in at.slots:
        return "only of a state"
    lists = [b for b in at.slots.values() if isinstance(b, Listed)]
    denied = [b for b in lists if b.members or b.there] or lists
    if _NOT_TOGETHER in reading.axes and any(len(b.conditions) == 1 for b in denied):
        return "only of two or more"
    if _EXCLUSIVE in reading.axes and isinstance(subject, Typed) and _of_one_quantity(lists):
        return "limits of one quantity do not exclude each other"
    if reading.formula_text.startswith("0 < x,") and (why := _may_be_nothing(at, names)):
        return why
    if not _IN_VALUES.isdisjoint(reading.axes) and _is_share_of_a_number(at):
        return "so many per cent of a number without a unit are a share of it"
    other = at.slots.get("T")
    if _TO_ITSELF in reading.axes and isinstance(other, Typed) and other.number:
        return "only of two things"
    if why := _written_otherwise(reading, at):
        return why
    if not _SHARED.isdisjoint(reading.axes) and not any(
        _is_share(b) for name, b in at.slots.items() if name != "x"
    ):
        return "only where a share in per cent is written"
    for raw in reading.written.only_when:
        held = condition_holds(raw, at.slots, names)
        # That a measured number is not nothing cannot be told, and is nearly always so.
        if held is False or (held is None and "!=" not in raw.text):
            return f"only when {plain_text(' '.join(raw.text.split()), at)}"
    return ""


def _of_one_quantity(lists: list[Listed]) -> bool:
    """`about 5 mm or less than 8 mm`: is each member a limit, and of the same number as the others?"""
    named = [names_in(condition) for b in lists if not b.members for condition in b.conditions]
    return len(named) > 1 and len(set(map(frozenset, named))) == 1 == len(named[0])


def _written_otherwise(reading: EntryReading, at: Occurrence) -> str:
    """Why a reading is not tried that rests on how the numbers of the words are written."""
    numbers = [b for n, b in at.slots.items() if n != "x" and isinstance(b, Typed) and b.number]
    texts = [b.number.text for b in numbers if b.number]
    if _MAGNITUDE in reading.axes and not (texts and all(map(_BARE_POWER.fullmatch, texts))):
        return "only where each end is a bare power of ten"
    if _PARTS_OF_THE_SECOND in reading.axes and not any(":" in text for text in texts):
        return "only of a ratio of two numbers"
    if _AS_MUCH in reading.axes and RELATIVE in reading.axes and _BY_HOW_MUCH.search(at.span.text):
        return "the words say by how much"
    if _SIGNED in reading.axes and _EACH_OTHER.search(at.span.text):
        return "the words say that either may be the greater"
    on_a_basis = numbers and all(b.kind and b.kind.basis and not b.kind.dimension for b in numbers)
    if not _SHARED.isdisjoint(reading.axes) and on_a_basis and _ON_A_BASIS.search(at.span.text):
        return "how far it differs is written in the unit of the value itself"
    return ""


_EXCLUSIVE = ("alternatives", "exclusive")
_MAGNITUDE = ("rounding", "order of magnitude")
_PARTS_OF_THE_SECOND = ("ratios", "parts of the second")
_ON_A_BASIS = regex(r"(?i)wt|vol|mol|mass|weight|volume|[wvm]\s*/\s*[wvm]")
_SIGNED = ("differences", "signed")
_EACH_OTHER = regex(r"(?i)\b(?:each other|one another)\b")
_AS_MUCH = ("times more", "as much")
_BY_HOW_MUCH = regex(r"(?i)\b(?:by|exceed\w*|above)\b")
_BARE_POWER = regex(r"10\s*(?:(?:\^|\*\*)\s*\(?[+\-−–]?\s*\d+\)?|[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)")


def _one_holds_another(at: Occurrence, names: Names) -> bool:
    """`the ratio of MgO to the RO`, of a class of which MgO is one: the one is part of the other already."""
    named = [names_in(b.term) for b in at.slots.values() if isinstance(b, Typed)]
    made = names.compositions.values()
    return any(
        above in whole and not part.isdisjoint(below)
        for composition in made
        for above, below in composition.classes
        for whole in named
        for part in named
    )


_STROKE = regex(r"[^\W\d_][\w)\]]*\s*/\s*[(\[]?[^\W\d_]")
_OF_THE_TOTAL = ("ratios", "shares of the total")
RELATIVE = ("differences", "relative")
_TO_ITSELF = ("differences", "relative to the first")
_BETTER = frozenset(("better", "good"))


def _is_better_greater(at: Occurrence, names: Names) -> bool:
    """Is it said how good something is of which more is better, by its name or its note: a yield?"""
    if _BETTER.isdisjoint(at.span.text.lower().split()):
        return False
    name = at.shown.get("x", "")
    called = f"{name} {names.note_of(name)}".lower().replace(",", " ").replace("-", " ").split()
    for i in range(len(called)):
        if width := run_at(called, i, "measures", "better_greater"):
            return listed("measures", "finer").isdisjoint((*called[:i], *called[i + width :]))
    return False


MOMENTS = "moments"
"""What fills this slot where both sides of a condition are of something that varies within a step."""
_ONE_BY_ONE = "at each moment by itself"
STATES = "states"
"""And this one where what is so under a condition is a state: a limit may well hold elsewhere too."""
_SO_ALONE = frozenset(("then and only then", "nowhere else"))
_NOT_TOGETHER = ("negation", "not together")
_FAR = frozenset("further farther later earlier".split())


def _may_be_nothing(at: Occurrence, names: Names) -> str:
    """Why a reading is not tried on which something must be there: `if the level is not above 80 mm`."""
    if names.under_condition:
        return "a condition asks for nothing to be there"
    far = not _FAR.isdisjoint(at.span.text.lower().split())
    return "what lies no further may lie right there" if far else ""


_IN_VALUES = frozenset((("differences", "absolute"), ("differences", "signed")))
_SHARED = frozenset((RELATIVE, _TO_ITSELF))
"""What sets a reading on which a difference is a share of the number: a bare number, `7.4 ± 0.3`, is none."""


def _is_share(bound: Bound) -> bool:
    unit = bound.number.unit if isinstance(bound, Typed) and bound.number is not None else None
    return unit is not None and not unit.kind.dimension


def is_unitless(bound: Bound | None) -> bool:
    """Is it a number or a count of nothing, not even of per cents?"""
    return isinstance(bound, Typed) and bound.kind == PLAIN_KIND and not (bound.unit and bound.unit.symbol)


def _is_share_of_a_number(at: Occurrence) -> bool:
    """`within 5 % of the nominal`, `7 ± 5 %`, of numbers without a unit: points are of shares alone."""
    others = [b for b in at.slots.values() if isinstance(b, Typed)]
    apart = [b for b in others if b.number and b.number.unit and b.number.unit.symbol == "%"]
    return len(others) > 2 and len(apart) == 1 and all(b in apart or is_unitless(b) for b in others)


def condition_holds(raw: Raw, slots: Mapping[str, Bound], names: Names) -> bool | None:
    """Whether a condition over the written numbers of an occurrence holds; None if it cannot be told."""
    try:
        return truth(formula(context(names, "condition", slots), parsed(raw, names.own)))
    except (NotHere, KindTrouble):
        return None


def is_switch(bound: Bound) -> bool:
    """Whether it is what is done or not: a choice of yes and no, with or without something else."""
    return isinstance(bound, ChoiceDecl) and {m.lower() for m in bound.members} - {OTHERS} == {"yes", "no"}


def is_kind(subject: Bound, kind: str) -> bool:
    """Whether a subject is measured, counted, a level, a share, a set and so on."""
    if not isinstance(subject, Typed):
        lists = {
            SetDecl: "sets", ChoiceDecl: "choices", Composition: "compositions", Assembly: "assemblies",
        }  # fmt: skip
        return is_switch(subject) if kind == "switches" else lists.get(type(subject)) == kind
    own = subject.kind or PLAIN_KIND
    match kind:
        case "measured" | "counts":
            return subject.whole == (kind == "counts")
        case "open counts" | "closed counts":
            return subject.whole and subject.closed == (kind == "closed counts")
        case "amounts" | "levels":
            return own.point == (kind == "levels")
        case "totals":
            return own.adds_up or subject.whole
        case "gauge" | "absolute":
            return own.basis == kind
        case "shares":
            symbol = subject.unit is not None and bool(subject.unit.symbol)
            return not own.dimension and (bool(own.basis) or symbol)
    return False


# ---- formulas


def meaning_of(
    reading: EntryReading, at: Occurrence, names: Names, keys: Mapping[str, str], own: bool,
    fixed: Mapping[str, Fraction] = MappingProxyType({}),
) -> Formula:  # fmt: skip
    assert reading.formula is not None
    slots = dict(at.slots)
    for free in reading.written.free:
        number = Const(fixed[free.name]) if free.name in fixed else Parameter(keys[free.name])
        slots[free.name] = Typed(number, kind_of_free(free, at, names)[0])
    return formula(context(names, "reading", slots, own), parsed(reading.formula, names.own))
