"""Readings in words: what a phrase is taken for, how that stands, and from which stretch on."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from scopecheck.answers.about import Reread
from scopecheck.answers.findings import Finding
from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.construction import Construction, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Formula, Read
from scopecheck.core.model import Definition, FreeParameter, Group, Place, Sheet, set_apart
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.occurrences.groups import whole_words
from scopecheck.report.amounts import percentage, quantity_text
from scopecheck.report.grouping import departures
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.wording import GLUE, flat, listed, number_word, quoted, sentence

_UNIT = regex(r"(\d) (?=[^\W\d]|[%°])(?!(?:and|or|is|if|then|to|mod)\b)")
NO_LAST_PLACE = "no last written place"
NOT_WRITTEN = "is no written number"
"""What is said of a worked-out value, which nothing rounds to."""
_MICRO = regex(r"(?<=\d)([ \u00a0]?)[uµμ](?=(?:m|g|s|L|l|A|V|F|W|S|H|N|mol|Pa)\b)")
_BARS = regex(r"\|([\w' -]+)\|")
_ALLOWANCES = ("ordinary impurities apart", "up to a number of the description")
"""What readings are called that leave open how much there may be beside what they name."""
MOST_MEANINGS = 2
"""Meanings of one reading, at different places, that one line tells."""


def standing_text(group: Group, reading: int) -> str:
    """The standing of a reading; that no presumption is known where all that may win count alike."""
    presumed = sum(r.standing == "presumed" for r in group.readings)
    standing = group.readings[reading].standing
    if standing == "presumed" and presumed > 1:
        key = "presumed_too" if group.presumed else "no_presumption"
        told = sentence("reading", key, count=number_word(presumed))
    else:
        told = sentence("standing", standing)
        if group.definition and group.definition.reading == reading and group.definition.breadth:
            breadth = breadth_text(group.definition)
            return sentence("standing", "by_definition", standing=told, breadth=breadth)
    if group.own and group.own.file:
        return sentence("standing", "of_practice", standing=told, file=flat(group.own.file))
    return told


def never_rounded(group: Group) -> bool:
    """Is a reading of the phrase that rounds not tried, as it compares with no written number?"""
    return any("round" in label and NO_LAST_PLACE in why for label, why in group.not_tried)


def has_no_place(group: Group) -> bool:
    """Is it because the number itself, as 1/2, has no last written place?"""
    return any(why.endswith(f" has {NO_LAST_PLACE}") and NOT_WRITTEN not in why for _, why in group.not_tried)


def breadth_text(definition: Definition) -> str:
    """How wide a definition is beside the ordinary reading, over all its places."""
    widths = {width for _, width in definition.breadth}
    differing = widths - {"same"} or widths
    return sentence("breadth", next(iter(differing)) if len(differing) == 1 else "mixed")


def group_words(group: Group, labels: Iterable[str] = ()) -> str:
    """A phrase in quotation marks: its words at the first place among `labels`, else its common wording."""
    wanted = set(labels)
    place = next((p for p in group.places if p.where in wanted), None)
    if place is None and len({p.words for p in group.places}) == 1:
        place = group.places[0]
    return quoted(whole_words(place.words)) if place else common_words(group)


def words_at(group: Group, labels: Iterable[str]) -> tuple[str, ...]:
    """The words of a phrase at each of its places among `labels`, which are re-read together.

    Of a phrase that is a limit alone, and stands in none of them, at each of its places.
    """
    wanted = set(labels)
    words = dict.fromkeys(whole_words(p.words) for p in group.places if p.where in wanted)
    if not words and not any(c.isalnum() for c in group.wording):
        words = dict.fromkeys(whole_words(p.words) for p in group.places)
    if len(words) > MOST_MEANINGS:
        return (sentence("reading", "alike", words=quoted(next(iter(words)))),)
    return tuple(map(quoted, words)) or (group_words(group, labels),)


def common_words(group: Group) -> str:
    """The wording that all places of a phrase share; of a phrase that is a limit alone, its first words."""
    return quoted(group.called)


def meaning_text(sheet: Sheet, reread: Reread, labels: Iterable[str] = ()) -> str:
    """What a reading comes to at the places among `labels`, in words and signs; '' where nothing is known.

    A number that the reading leaves open is called the stretch, an unknown one the threshold.
    """
    group = sheet.groups[reread.group]
    wanted = set(labels)
    places = [p for p in group.places if p.where in wanted] or _in_claims_of(group, wanted)
    shown: dict[str, list[str]] = {}
    for place in places:
        if plain := meaning_at(sheet, group, place, reread.reading):
            shown.setdefault(plain, []).append(place.where)
    if len(shown) < 2:
        return "".join(shown)
    if len({where for own in shown.values() for where in own}) == 1:  # of two limits in one line
        return "; ".join(list(shown)[:MOST_MEANINGS])
    parts = [f"{', '.join(where)}: {plain}" for plain, where in shown.items()]
    return "; ".join(parts[:MOST_MEANINGS])


def meaning_at(sheet: Sheet, group: Group, place: Place, reading: int) -> str:
    """What a reading of a phrase comes to at one of its places."""
    own = [p for p in sheet.parameters if (p.group, p.reading) == (group.index, reading)]
    plain = _plain_at(group, place, reading)
    return _one_micro_sign(sheet, _without_bars(sheet, _shown(sheet, plain, own))) if plain else ""


def _one_micro_sign(sheet: Sheet, text: str) -> str:
    """The sign for a millionth as the sheet declares it, however the claims write it."""
    if not _MICRO.search(text):
        return text
    units = (d.unit.symbol for d in sheet.declarations if isinstance(d, NumberDecl))
    signs = [symbol[0] for symbol in units if _MICRO.match(f"1 {symbol}", 1)]
    return _MICRO.sub(rf"\1{signs[0]}", text) if signs else text


def _without_bars(sheet: Sheet, text: str) -> str:
    """The magnitude of what is never below zero is that itself."""
    if "|" not in text:
        return text
    numbers = (d for d in sheet.declarations if isinstance(d, NumberDecl))
    never = {flat(d.name) for d in numbers if d.lower and d.lower.value >= 0}
    return _BARS.sub(lambda m: m[1] if m[1] in never else m[0], text)


def _in_claims_of(group: Group, labels: Iterable[str]) -> list[Place]:
    """The first place of a phrase in the claims of these lines; in none of them, the first of all."""
    claims = {label.rstrip("abcdefghijklmnopqrstuvwxyz") for label in labels}
    beside = [p for p in group.places if p.where.rstrip("abcdefghijklmnopqrstuvwxyz") in claims]
    return beside[:1] or list(group.places[:1])


def _plain_at(group: Group, place: Place, reading: int) -> str:
    return place.meanings[reading] if place.meanings else group.readings[reading].plain


def _shown(sheet: Sheet, plain: str, parameters: Iterable[FreeParameter]) -> str:
    """The meaning in plain maths; of one that asks nothing, or that nothing meets, that in words."""
    fixed = {"TRUE": "always", "FALSE": "never"}
    if plain in fixed:
        return sentence("reading", fixed[plain])
    shown = _UNIT.sub(rf"\1{GLUE}", plain_formula(flat(plain)))
    for p in parameters:
        called = sentence(_table(sheet, p), "parameter")
        apart = set_apart(p.name)
        letter = re.escape(apart if apart in shown else p.name)
        # 'g' behind a number or within a unit is that of grams, and no stretch.
        shown = re.sub(rf"(?<![\w./])(?<!\d[ {GLUE}]){letter}(?![\w/])", called, shown)
    return shown


def reading_text(
    sheet: Sheet, reread: Reread, labels: Iterable[str] = (), k: Construction | None = None
) -> str:
    """A re-reading: the words, the reading's label, its standing, its plain meaning, its break-points.

    Without these it is stretched as in the construction, if one is given, else as presumed.
    """
    labels = tuple(labels)
    group = sheet.groups[reread.group]
    words = group_words(group, labels)
    meaning = meaning_text(sheet, reread, labels)
    text = sentence(
        "reading",
        "departs" if meaning else "bare",
        words=words,
        label=flat(group.readings[reread.reading].label),
        standing=standing_text(group, reread.reading),
        plain=meaning,
    )
    points = [break_text(sheet, point, words) for point in reread.breaks]
    if not points and reread.reading == group.base and _has_stretch(sheet, reread):
        points = [sentence("reading", "stretched_enough")]  # how far was not found
    elif not points:
        own = (p for p in sheet.parameters if (p.group, p.reading) == (reread.group, reread.reading))
        stretched = (replace(p, presumed=k.parameter(p.key)) if k else p for p in own if not p.unknown)
        points = [presumed_stretch(sheet, p) for p in stretched]
    return "; ".join(dict.fromkeys([text, *points]))


def _has_stretch(sheet: Sheet, reread: Reread) -> bool:
    return any(
        (p.group, p.reading) == (reread.group, reread.reading) and not p.unknown for p in sheet.parameters
    )


def reading_label(sheet: Sheet, reread: Reread, with_words: bool = False, labels: Iterable[str] = ()) -> str:
    """A reading in brief: its label and standing, after its words if asked for, and its break-points."""
    group = sheet.groups[reread.group]
    words = group_words(group, labels)
    label = flat(group.readings[reread.reading].label)
    key = "bare" if with_words else "label"
    text = sentence("reading", key, words=words, label=label, standing=standing_text(group, reread.reading))
    return "; ".join([text, *(break_text(sheet, point, words) for point in reread.breaks)])


def kept_text(sheet: Sheet, reread: Reread, labels: Iterable[str] = (), others: Iterable[Reread] = ()) -> str:
    """On what a lost case is kept after all: `if "..." is read as "..."`, or from which stretch on.

    `others` are further readings of the same phrase that keep it.
    """
    others = tuple(others)
    group, labels = sheet.groups[reread.group], tuple(labels)
    phrases = words_at(group, labels)
    words = listed(phrases)
    told = sentence("reading", "it") if others else words
    points = [break_text(sheet, point, told) for point in reread.breaks]
    if not points and reread.reading == group.base and _has_stretch(sheet, reread):
        points = [sentence("reading", "kept_far_enough", words=words)]
    if points and reread.reading == group.base:
        return "; ".join(points)
    key = "kept" if len(phrases) == 1 else "kept_many"
    if len({p.words for p in group.places if p.where in set(labels)}) > MOST_MEANINGS:
        key, words = "kept_each", common_words(group)
    if not others:
        read_as = reading_label(sheet, replace(reread, breaks=()))
        return "; ".join([sentence("reading", key, words=words, labels=read_as), *points])
    # Of several readings each has its stretch with it, those without one first.
    ordered = sorted((reread, *others), key=lambda r: bool(r.breaks))
    read_as = listed((_with_stretch(sheet, r) for r in ordered), "or")
    return sentence("reading", key, words=words, labels=read_as)


def _with_stretch(sheet: Sheet, reread: Reread) -> str:
    """`"context tolerance" (arguable) once it stretches by 6 % or more`."""
    label = reading_label(sheet, replace(reread, breaks=()))
    points = (break_text(sheet, point, sentence("reading", "it")) for point in reread.breaks)
    return " ".join([label, *points])


def only_passes_on(sheet: Sheet, group: int, formula: Formula) -> bool:
    """Has a phrase one reading, which is what another phrase in it is read as: `a porosity of` some limit?"""
    if len(sheet.groups[group].readings) > 1:
        return False
    read = (n.options[0] for n in nodes(formula) if isinstance(n, Read) and n.group == group)
    return any(isinstance(option, Read) for option in read)


def usual_text(sheet: Sheet, group: int, labels: Iterable[str] = (), brief: bool = False) -> str:
    """The reading a phrase has in the base, said to be the usual one, with its meaning and stretch.

    With `brief` its label alone.
    """
    labels = tuple(labels)
    usual = sheet.groups[group]
    reread = Reread(group, usual.base)
    presumed = sum(r.standing == "presumed" for r in usual.readings)
    key = "usual" if presumed == 1 else "usual_as_another" if usual.presumed else "usual_first"
    if not presumed and any(standing == "presumed" for _, standing in usual.untried):
        key = "usual_computed"
    text = sentence(
        "reading",
        key + "_label" * brief,
        words=group_words(usual, labels),
        label=flat(usual.readings[usual.base].label),
        plain=meaning_text(sheet, reread, labels),
        count=number_word(presumed),
    )
    own = [p for p in sheet.parameters if (p.group, p.reading) == (group, usual.base) and not brief]
    return "; ".join(dict.fromkeys([text, *(presumed_stretch(sheet, p) for p in own)]))


def presumed_stretch(sheet: Sheet, p: FreeParameter) -> str:
    """How far a reading stretches as presumed: `not stretched at all`, `stretched by 10 %`."""
    if p.unknown:
        return sentence("threshold", "unstated")
    table = "allowance" if is_allowance(sheet, p) else "reading"
    key = "unstretched" if p.presumed == 0 else "stretched"
    return sentence(table, key, value=stretch_text(p, p.presumed))


def break_text(sheet: Sheet, point: BreakPoint, words: str) -> str:
    """`once "about" stretches by more than 2 %`: where a parameter changes the outcome, open or closed."""
    parameter = next(p for p in sheet.parameters if p.key == point.parameter)
    if point.only:
        return sentence(
            _table(sheet, parameter),
            "stretched_by",
            words=words,
            value=stretch_text(parameter, point.end.value),
        )
    if at_all(parameter, point):
        table = "allowance" if is_allowance(sheet, parameter) else "reading"
        return sentence(table, "widens_at_all", words=words)
    way = ("widens_" if point.upward else "narrows_") + ("closed" if point.end.closed else "open")
    return sentence(
        _table(sheet, parameter), way, words=words, value=stretch_text(parameter, point.end.value)
    )


def at_all(p: FreeParameter, point: BreakPoint) -> bool:
    """Does any stretch do, however small?"""
    return not p.unknown and point.upward and not point.end.closed and point.end.value == p.presumed == 0


def _table(sheet: Sheet, p: FreeParameter) -> str:
    """Where the sentences on this number stand: of a stretch, of how much is allowed beside what is listed,
    or of a threshold that nothing states."""
    if is_allowance(sheet, p):
        return "allowance"
    return "threshold" if p.unknown else "reading"


def is_allowance(sheet: Sheet, p: FreeParameter) -> bool:
    """Is the number how much there may be beside what a closed list names?"""
    return not p.unknown and any(w in sheet.groups[p.group].readings[p.reading].label for w in _ALLOWANCES)


def stretch_text(parameter: FreeParameter, value: Fraction) -> str:
    """A parameter's value for people: a bare share as a percentage, anything else in its unit."""
    if parameter.unit.symbol or not parameter.shared:
        return quantity_text(value, parameter.unit)
    return percentage(parameter.unit.from_base(value))


def together_text(finding: Finding) -> str:
    """Of two or more phrases re-read: that all of them are needed. '' for one, or where that is not known."""
    moved = dict.fromkeys(r.group for r in (*finding.rereads, *finding.read_as))
    if len(moved) < 2 or not finding.best:
        return ""
    return sentence("reading", "both" if len(moved) == 2 else "all_of_them", count=len(moved))


def bearer_text(sheet: Sheet, finding: Finding, brief: bool = False) -> str:
    """Who would bring it: whom the sheet names for own readings, else by profile; empty for nobody.

    With `brief` without how they read.
    """
    if not finding.bearer:
        return ""
    groups = {d.group: sheet.groups[d.group].readings[d.reading] for d in departures(finding)}
    named = [r.taken_by for g, r in groups.items() if sheet.groups[g].of_ones_own and r.taken_by]
    if named and len(named) == len(groups):
        return sentence("bearer", "named", readers=listed(dict.fromkeys(map(flat, named))))
    profile = f"US_{sheet.purpose}" if sheet.profile == "US" else "EPO"
    usual = "" if departures(finding) and not brief else "_usual"
    return sentence("bearer", profile, finding.bearer + usual)
