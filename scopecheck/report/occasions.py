"""Small sheets on which a phrase stands once, read as any sheet is: kinds of things, numbers and words."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping

from scopecheck.core.formula import Formula, Read
from scopecheck.core.model import Group, Sheet
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Source
from scopecheck.language.parse import parse_facts
from scopecheck.occurrences.occurrence import numbers_of
from scopecheck.resolve.sheet import read_sheet
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import RECITED, Entry
from scopecheck.vocabulary.patterns import Pattern, Slot

NAMES = ("bore", "width", "depth", "rise", "slack", "reach")
MEMBERS = "copper, zinc, tin, lead"
USUAL = dict(zip("LUPQNMTDEkrsRS", "10 20 12 18 10 12 10 2 5 5 1:4 1:2 1 25".split(), strict=True))
LOW = {**dict(zip("LUPQNMTk", "-9 -4 -8 -6 -10 -9 -8 3".split(), strict=True)), "r": "3:1", "s": "1:2"}
ZERO = {**dict(zip("LUPQNMTDEk", "0 100 20 50 0 1 0 2 5 5".split(), strict=True)), "r": "2:1", "s": "5:1"}
TENS = {
    **dict(zip("LUPQNMTk", "100 200 120 150 100 99 100 2".split(), strict=True)),
    "D": "10 %",
    "E": "20 %",
    "r": "1:5",
}


@record
class Kind:
    """What is declared, in order (the last one again for what is left), and the unit of numbers in words."""

    declared: tuple[str, ...]
    unit: str
    numbers: tuple[Mapping[str, str], ...] = (USUAL,)
    only_for: str = ""
    like_parts: bool = False
    """Whether each of some like parts has the quantity."""
    beside: tuple[str, ...] = ()
    """Further lines of the claim, which name something of what is declared."""
    steps: str = ""
    """What stands left of the colon where steps are declared."""


LENGTH = Kind(("length in mm",), "mm", (USUAL, TENS), "measured amounts")
FORCE = Kind(("force in N",), "N", (LOW, ZERO), "measured amounts")
PLAIN = Kind(("number",), "", (USUAL, LOW), "measured amounts")
ACIDITY = Kind(("number",), "", ({**USUAL, "L": "4", "U": "8"},), "measured amounts")
SHARE = Kind(("share in %",), "%", (USUAL, {**USUAL, "L": "60", "U": "90"}), "measured amounts shares")
COUNT = Kind(("count",), "", (USUAL, ZERO), "counts amounts")
LEVEL = Kind(("temperature in degC",), "degC", (USUAL, {"N": "1.5", "T": "10"}), "measured levels")
GAUGE = Kind(("pressure in bar(g)",), "bar", (USUAL,), "measured levels gauge")
ABSOLUTE = Kind(("pressure in bar(a)",), "bar", (USUAL,), "measured amounts absolute")
THREE = {**USUAL, "list": "copper, zinc {} tin"}
SETS = Kind((f"any of {MEMBERS}",), "", (USUAL, THREE), "sets")
CHOICES = Kind((f"one of {MEMBERS}",), "", (USUAL,), "choices")
COMPOSITIONS = Kind(
    (f"composition in wt%\n  {MEMBERS}",), "wt%", (USUAL,), "compositions",
    beside=("copper >= 10 wt%", "zinc >= 10 wt%"),
)  # fmt: skip
CLASSED = {**USUAL, "list": "copper {} a salt"}
OF_CLASSES = (
    Kind(("any of copper, salt, tin\n  salt : only zinc, lead",), "", (CLASSED,), "sets"),
    Kind(
        ("composition in wt%\n  copper\n  salt : only zinc, lead\n  tin",), "wt%", (CLASSED,), "compositions",
        beside=("copper >= 10 wt%", "zinc >= 10 wt%"),
    ),
)  # fmt: skip
"""Lists with a class, one of which is named with 'a'."""
_COUNTED = "".join(f"{name}  count\n" for name in MEMBERS.split(", "))
ASSEMBLIES = Kind(
    (f"assembly of {MEMBERS}",), "", (USUAL,), "assemblies", beside=("copper >= 1", "zinc >= 1")
)
CLOSED = Kind(
    ("length in mm",), "", ({**USUAL, "N": "2"},), "closed counts", like_parts=True,
    beside=("wall : consisting of",),
)  # fmt: skip
"""How many like parts there are of what consists of them."""
DEVIATIONS = Kind(("length in mm, >= -50 mm",), "mm", (USUAL,), "deviations")
DAYS = Kind(("time in day",), "day", ({"N": "3", "L": "2", "U": "5"},), "measured amounts")
GENERAL = (LENGTH, FORCE, PLAIN, SHARE, COUNT, LEVEL, GAUGE, ABSOLUTE, SETS, CHOICES, COMPOSITIONS)
SPAN = {**USUAL, "N": "2 day", "L": "2 day", "U": "5 day"}
MINUTES = {**USUAL, "N": "20 min", "L": "10 min", "U": "30 min"}
STEPS = (Kind((), "min", (SPAN, MINUTES), "steps", steps="{}"),)
BESIDE_STEPS = (Kind((), "mm", (USUAL,), "steps", steps="{}"),)
SEQUENCES = (Kind((), "min", (USUAL,), "sequences", steps="stirring, rinsing, drying"),)
MOMENTS = (Kind((), "degC", (USUAL,), "moments", steps="heat of stirring"),)
SWITCHES = (Kind(("one of only yes, no", "length in mm", "count"), "mm", (USUAL,), "switches"),)
_LIMITS = {"r": "at least 12 mm without rounding", "q": "at least 30 mm without rounding"}
CONDITIONS = (
    Kind(("length in mm", "temperature in degC"), "mm", (_LIMITS,), "conditions"),
    Kind(("one of only open, shut", "temperature in degC"), "mm", ({"r": "open"},), "conditions"),
)
"""What is limited, or is in some state, and what the condition is about; the limits of the one, by slot."""
_BOTH_ENDS = {"r": "at least 12 mm without rounding", "q": "at most 30 mm without rounding"}
TWO_LIMITS = (Kind(("length in mm", "temperature in degC"), "mm", (_BOTH_ENDS,), "conditions"),)
"""Two limits of one thing: on one side the second would hold only where the first one does."""
BESIDE = {
    "thing": ("level", "length in mm"), "means": ("motors", "count"), "pause": ("pause", "time in min"),
}  # fmt: skip
LIKE_PARTS = (
    Kind(("length in mm",), "mm", (USUAL,), "parts", like_parts=True),
    Kind(("temperature in degC",), "degC", (USUAL,), "parts", like_parts=True),
)
APART_BY_A_SHARE = Kind(("length in mm",), "mm", ({**USUAL, "D": "10 %"},), "parts", like_parts=True)
"""Like parts that lie so many per cent apart."""
RECITED_PARTS = Kind(
    ("length in mm",), "mm", (USUAL,), "parts", like_parts=True, beside=("tiles : at least two tiles",)
)
"""Like parts of which another line of the claim says how many there are."""
ADDING_UP = Kind(("force in N",), "N", (USUAL,), "parts", like_parts=True)
_CLASS = "composition in wt%\n  bore : only copper, zinc, tin\n  water"
CLASSES = (Kind((_CLASS,), "wt%", (USUAL,), "classes"),)
TIMED_PARTS = (Kind(('time in day  "moment"',), "day", ({**USUAL, "N": "3"},), "parts", like_parts=True),)
TILES = Kind(("length in mm",), "", ({**USUAL, "N": "2"},), "counts amounts", like_parts=True)
"""How many like parts there are, each with a value of its own."""
COMPOSED = {**USUAL, "L": "20", "U": "80", "P": "20", "Q": "80"}
FROM_SOME = {**USUAL, "c": "at least 2 {} and at most 5 {}, without rounding"}
"""A limit that nothing does not meet."""
BESIDE_NAMED = Kind(
    ("length in mm\nwidth  length in mm",), "mm", ({**TENS, "T": "the width", "P": "10 %", "Q": "20 %"},)
)
"""What is compared with a thing that is measured itself, and no stated value."""
POWERS = Kind(("number",), "", ({**USUAL, "L": "10^2", "U": "10^4", "N": "10^3"},), "measured amounts")
"""What an end that is a bare power of ten limits."""
TWICE_MORE = Kind(("length in mm",), "mm", ({**TENS, "D": "200 %"},), "measured amounts")
SPECIAL: dict[str, tuple[Kind, ...]] = {
    "B8": (Kind(("length in mm",), "%", ({"L": "58", "U": "75"},)),),
    "C1": (ACIDITY,),
    "C4": (Kind(("length in m",), "", ({"N": "36 ft", "M": "10.97 m"}, {"N": "36 ft", "M": "11.2 m"})),),
    "D1": (Kind(("share in wt%", "share in vol%", "share in mol%", "in w/v%"), "%"),),
    "D2": (Kind(("share in wt%",), "wt%"),),
    "D3": (Kind(("share in wt%", "share in mol%"), ""), Kind(("number",), "")),
    "D8": (Kind(("share in %",), "%", (COMPOSED,)),),
    "D9": (Kind(("data in byte",), ""),),
    "E1": (Kind(("molar mass in kg/mol",), "kg/mol"),),
    **dict.fromkeys(("F3", "F6", "F13"), (*GENERAL, TILES)),
    "G3": (
        Kind(("share in wt%",), "wt%", (FROM_SOME,)),
        Kind(("count",), "", (FROM_SOME,), "counts"),
        SETS,
        CHOICES,
        COMPOSITIONS,
    ),
    "H4": (Kind(("number",), ""),),
    "H5": (Kind(("number",), ""),),
    "H9": (*GENERAL, BESIDE_NAMED),
    "I1": (Kind(("angle in deg",), "deg"),),
    "I2": (LENGTH, COUNT),
    "I4": (Kind(("angle in deg", "length in mm"), ""),),
    "J1": (DAYS,),
    "J2": (DAYS, COUNT),
    "J3": (Kind(("in h",), "day", ({"N": "2", "L": "2", "U": "5"},)),),
    "J10": (Kind(("count",), "h", ({"N": "10", "P": "100"},)),),
    "J11": (COUNT,),
    "J12": (Kind(("length in mm",), "", ({"D": "10 %", "T": "2 h"}, {"D": "2 mm", "T": "2 h"})),),
    "K1": (Kind(("temperature in degC",), "degC"),),
}
JOINERS = {"and": "and", "or": "or", "nor": "nor", "and/or": "and/or", "comma": ",", "": "and"}


@record
class Occasion:
    """A phrase in a sheet: what is declared, what stands left of the colon, the words, and the numbers."""

    declarations: str
    subjects: str
    words: str
    slots: Mapping[str, str]
    beside: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        said = ", with " + ", ".join(self.beside) if self.beside else ""
        lines = (f"{self.subjects} : {self.words}", *self.beside)
        margin = "".join(f"   | {line}\n" for line in lines)
        return f"{self.declarations}\n1. A thing {self.words}{said}.\n{margin}"


def kinds_of(entry: Entry) -> tuple[Kind, ...]:
    """The kinds of things to say a phrase of, those that suit most phrases first."""
    if "parts" in entry.only_for:
        adding_up = any("totals" in r.written.only_for for r in entry.readings)
        if entry.spaced_in_time:
            return TIMED_PARTS
        recited = any(r.formula_text and RECITED in r.formula_text for r in entry.readings)
        alike = (*LIKE_PARTS, ADDING_UP) if adding_up else LIKE_PARTS
        relative = any(axis == "differences" for r in entry.readings for axis, _ in r.axes)
        alike = (*alike, APART_BY_A_SHARE) if relative else alike
        return (*alike, RECITED_PARTS) if recited else alike
    if "thing" in entry.subjects and "steps" in entry.only_for:
        return BESIDE_STEPS
    if "conditions" in entry.only_for and any("r AND q" in r.formula_text for r in entry.readings):
        return TWO_LIMITS
    own = (
        ("steps", STEPS), ("sequences", SEQUENCES), ("moments", MOMENTS), ("classes", CLASSES),
        ("assemblies", (ASSEMBLIES,)), ("switches", SWITCHES), ("conditions", CONDITIONS),
        ("closed counts", (CLOSED,)), ("deviations", (DEVIATIONS,)),
    )  # fmt: skip
    for sort, kinds in own:
        if sort in entry.only_for and not (sort == "assemblies" and len(entry.only_for) > 1):
            return kinds
    if entry.settled:
        proposed = [k for e in _proposers(entry) for k in kinds_of(e)]
        return tuple(k for i, k in enumerate(proposed) if k not in proposed[:i]) or GENERAL
    lists = any(s.kind == "list" for p in entry.patterns for s in p.slots)
    listed = ("sets", "choices", "compositions")
    found = (*_kinds_of_units(entry), *GENERAL) if entry.own else SPECIAL.get(entry.id, GENERAL)
    if any(r.formula_text and "single_" in r.formula_text for r in entry.readings):
        found = (*found, *OF_CLASSES)
    axes = {axis for r in entry.readings for axis in r.axes}
    found = (*found, POWERS) if ("rounding", "order of magnitude") in axes else found
    found = (
        (*found, TWICE_MORE) if {("times more", "as much"), ("differences", "relative")} <= axes else found
    )
    found = (*found, ASSEMBLIES) if "assemblies" in entry.only_for else found
    wanted = {kind.removeprefix("open ") for kind in entry.only_for}
    return tuple(
        k
        for k in found
        if (k in (SETS, CHOICES, COMPOSITIONS, ASSEMBLIES, *OF_CLASSES))
        == (lists or bool(wanted & set(listed)))
        and (not wanted or not k.only_for or wanted & set(k.only_for.split()))
    )


def _kinds_of_units(own: Entry) -> Iterator[Kind]:
    """Quantities in the units that the formulas of an own phrase are written with."""
    formulas = [raw for r in own.readings for raw in (r.formula, *r.written.only_when) if raw]
    nodes = (parse_facts(raw.page, raw.start, raw.end, {}) for raw in formulas)
    units = (n.number.unit for node in nodes for n in numbers_of(node))
    for symbol in dict.fromkeys(unit.symbol for unit in units if unit and unit.symbol != "%"):
        yield Kind((f"in {symbol}",), symbol)


def _proposers(settled: Entry) -> list[Entry]:
    skeletons = {_skeleton(p.text) for p in settled.patterns}
    return [
        e
        for e in entries()
        if not e.settled and {"parts", "classes"}.isdisjoint(e.only_for) and takes(e) == takes(settled)
        if _skeleton(e.exact_wording) in skeletons
    ]


def _skeleton(text: str) -> str:
    text = re.sub(r"\{\w+\}|\([^()]*\)", "#", text)
    return re.sub(r"^\[?(?:an?|the)\]? ", "", text)


def takes(entry: Entry) -> int:
    return entry.takes(entry.patterns[0])


def filled(slot: Slot, kind: Kind, numbers: Mapping[str, str]) -> str:
    """What stands in a slot. Raises KeyError if the numbers have none for it."""
    if slot.kind == "list":
        return numbers.get("list", "copper {} zinc").format(JOINERS[slot.joiner]).replace(" ,", ",")
    if slot.kind == "noun" and kind.like_parts:
        return "tile"
    if slot.kind == "noun" and kind.steps:
        return "level"
    if slot.kind == "noun":
        return NAMES["abcdef".index(slot.name)]
    if slot.kind in ("step", "moment"):
        return "rinsing" if slot.kind == "step" else "the end of drying"
    if slot.kind == "whole":
        return "1" if slot.name == "j" else "2"
    if slot.kind == "outcome":
        return f"the {NAMES[0]} is {numbers[slot.name]}"
    if slot.kind == "condition":
        value = "50 degC" if kind.only_for == "conditions" else "15 mm"
        value = {"50 degC": "60 degC", "15 mm": "20 mm"}[value] if slot.name == "e" else value
        name = "level" if kind.steps else NAMES[1]
        return f"the {name} is {'more than' if slot.name in 'de' else 'at most'} {value} without rounding"
    if slot.kind == "state":
        return "starts" if slot.name == "done" else "stops"
    if slot.kind == "limit" and kind.only_for == "moments":
        return f"at least 5 {kind.unit} and at most 15 {kind.unit}, without rounding"
    if slot.kind == "limit" and slot.name in numbers:
        return numbers[slot.name].format(kind.unit, kind.unit)
    if slot.kind == "limit" and slot.name == "d":
        return f"at least 5 {kind.unit}, without rounding"
    if slot.kind == "limit" and kind.only_for == "sets":
        return "one or more of lead, with or without others"
    if slot.kind == "limit":
        return f"at most 15 {kind.unit}, without rounding"
    number = numbers[slot.name]
    alone = slot.kind in ("plain", "ratio") or " " in number
    return number if alone else f"{number} {kind.unit}".strip()


def occasions(entry: Entry, pattern: Pattern | None = None) -> Iterator[Occasion]:
    """The entry's first wording, or the one given, for each kind of thing and each set of numbers."""
    pattern = pattern or entry.patterns[0]
    for kind in kinds_of(entry):
        for numbers in kind.numbers:
            numbers = _with_own_letters(pattern, numbers) if entry.own else numbers
            if occasion := _occasion(entry, pattern, kind, numbers):
                yield occasion


def _with_own_letters(pattern: Pattern, numbers: Mapping[str, str]) -> Mapping[str, str]:
    """The numbers, and one for each letter that stands in no phrase of the catalogue."""
    letters = [s.name for s in pattern.slots if s.name not in numbers]
    return {**{name: str(10 * n) for n, name in enumerate(letters, 1)}, **numbers}


def _occasion(entry: Entry, pattern: Pattern, kind: Kind, numbers: Mapping[str, str]) -> Occasion | None:
    try:
        slots = {s.name: filled(s, kind, numbers) for s in pattern.slots}
    except KeyError:
        return None
    nouns = list(dict.fromkeys(s.name for s in pattern.slots if s.kind == "noun"))
    if len(nouns) > 1:  # in the order of the words, as they stand left of the colon
        slots |= dict(zip(nouns, NAMES, strict=False))
    words = next(written_ways(pattern, slots))
    if kind.steps:
        asked = entry.subjects[1:] or ("thing",) * any(s.kind == "condition" for s in pattern.slots)
        beside = [BESIDE[subject] for subject in asked]
        subjects = ", ".join(("stirring", *(name for name, _ in beside)))
        declared = _steps_declared(kind, pattern) + "".join(f"{name}  {what}\n" for name, what in beside)
        return Occasion(declared, kind.steps.format(subjects), words, slots)
    if kind in CLASSES:
        return Occasion(f"melt  {kind.declared[0]}\n", "bore", words, slots)
    count = (
        max(2, entry.takes(pattern))
        if kind.only_for == "conditions" or kind in SWITCHES
        else entry.takes(pattern)
    )
    if kind in (TILES, CLOSED):
        wall = "wall  assembly of tiles\n" if kind == CLOSED else ""
        declared = f"tile  part, up to 3\n  width  {kind.declared[0]}\n{wall}"
        return Occasion(declared, "tiles", words, slots, kind.beside)
    if kind == ASSEMBLIES:
        return Occasion(f"{_COUNTED}x  {kind.declared[0]}\n", "x", words, slots, kind.beside)
    if kind.like_parts:
        fields = "".join(f"  {name}  {kind.declared[0]}\n" for name in NAMES[:count])
        subjects = ", ".join(f"{name} of the tiles" for name in NAMES[:count])
        return Occasion(f"tile  part, up to 3\n{fields}", subjects, words, slots, kind.beside)
    names = NAMES[:count] if nouns or count > 1 else ("x",)
    pairs = itertools.zip_longest(names, kind.declared[:count], fillvalue=kind.declared[-1])
    declared = "".join(f"{name}  {what}\n" for name, what in pairs)
    return Occasion(declared, ", ".join(names), words, slots, kind.beside)


def _steps_declared(kind: Kind, pattern: Pattern) -> str:
    """A step that may be left out, with those that the words speak of beside it."""
    kinds = {slot.kind for slot in pattern.slots}
    lines = ["stirring  step in min, may be left out, may pause"]
    if kind.only_for == "moments":
        lines.append("  heat  temperature in degC")
    if "step" in kinds or kind.only_for == "sequences":
        lines.append("rinsing  step in min, may be left out")
    if kinds & {"step", "moment"} or kind.only_for == "sequences":
        lines.append("drying  step in min")
    return "".join(f"{line}\n" for line in lines)


def written_ways(pattern: Pattern, slots: Mapping[str, str]) -> Iterator[str]:
    """The wording with its first alternatives, its second ones and so on, until each stood in one."""
    choices: list[list[str]] = []
    for element in pattern.elements:
        if isinstance(element, Slot):
            choices.append([slots[element.name]])
        elif element.optional:
            words = [" ".join(o) for o in element.options]
            choices.append([*words, ""] if element.options == ((",",),) else ["", *words])
        else:
            choices.append([" ".join(o) for o in element.options])
    sizes = [len(c) for c in choices]
    longest = max(sizes, default=1)
    for at in range(longest):
        chosen = (c[min(at, len(c) - 1)] for c in choices)
        yield " ".join(w for w in chosen if w).replace(" ,", ",").replace("( ", "(").replace(" )", ")")


def read(text: str, entry: Entry | None = None) -> Sheet | None:
    """The sheet, or None where the phrase is not for things of this kind.

    `entry`: a phrase that may come from a phrase file, which is then read beside the catalogue.
    """
    return read_sheet(Source("test", text), (entry.span.source,) if entry and entry.file else ())[0]


def phrase_in(sheet: Sheet, entry: Entry) -> tuple[Group, tuple[Formula, ...]] | None:
    """The entry's group in the first limitation of a sheet, and what each of its readings comes to."""
    limitation = sheet.claims[0].limitations[0]
    formula = limitation.formula
    if not isinstance(formula, Read):
        return None
    group = sheet.groups[formula.group]
    return (group, formula.options) if group.entry == entry.title else None
