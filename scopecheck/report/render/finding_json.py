"""One finding as JSON."""

from __future__ import annotations

from typing import assert_never

from scopecheck.answers.about import (
    AddsNothing,
    Alike,
    Amended,
    ByLines,
    Cases,
    Choices,
    CloseBy,
    Empty,
    EndNotReached,
    Fall,
    ForAllClaims,
    Freed,
    Idle,
    IdleEnd,
    KeptOut,
    LeftOpen,
    Lost,
    Met,
    Moves,
    Narrows,
    Needed,
    NotThere,
    NoValue,
    OneReading,
    OneValue,
    Plain,
    RangeLies,
    Reread,
    Unmeant,
    Unmeasured,
    WayOut,
)
from scopecheck.answers.findings import (
    Finding,
    also_claims_of,
    also_open_of,
    because,
    cases_of,
    in_part_of,
    lines_of,
    partly_of,
    sets_of,
    silent_lines,
    twin_of,
    unmet_by,
    ways_out_of,
)
from scopecheck.answers.held import Combined, Held
from scopecheck.core.grounds import ground_text
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.conditions import conditions_not_met
from scopecheck.report.describe import concerned
from scopecheck.report.items import statement
from scopecheck.report.margins import readings_told
from scopecheck.report.render.lying_json import combined_data, held_data
from scopecheck.report.render.values_json import (
    Data,
    break_data,
    construction_data,
    place_data,
    reread_data,
    taken_data,
    witness_data,
)
from scopecheck.report.rereadings import bearer_text
from scopecheck.report.ways_out import keeping_points, stretched_by


def _keeping(sheet: Sheet, f: Finding, reread: Reread) -> Data:
    return reread_data(sheet, replace(reread, breaks=keeping_points(sheet, f, reread)))


def finding_data(sheet: Sheet, f: Finding, held_back: bool) -> Data:
    """All of one finding; `held_back` says that it does not stand on the first page."""
    return {
        **_said(sheet, f, held_back),
        **_read(sheet, f),
        **_thing(sheet, f),
        **_how_far(sheet, f),
        **_otherwise(sheet, f),
        **_by_lines(sheet, f),
        **_wherever(sheet, f),
        **_particulars(sheet, f),
    }


def _said(sheet: Sheet, f: Finding, held_back: bool) -> Data:
    """What was asked of which place, and what is told of it."""
    decided = f.outcome != "undecided"
    return {
        "question": f.question,
        "stakes": f.stakes,
        "held_back": held_back,
        "place": {**place_data(f.span), "words": f.words, "label": f.label, "claim": f.claim},
        "limitations": [{"label": x.label, "words": x.words or x.text} for x in concerned(sheet, f)],
        "outcome": f.outcome,
        "reason": f.reason,
        "quantifier": f.quantifier,
        "statement": statement(sheet, f) if decided else "",
        "readings": list(readings_told(sheet, f)) if decided else [],
        "bearer": f.bearer,
        "raised_by": bearer_text(sheet, f),
        "case": f.case,
        "cases": list(cases_of(f)),
    }


def _read(sheet: Sheet, f: Finding) -> Data:
    return {
        "construction": construction_data(sheet, f.construction),
        "rereads": [reread_data(sheet, r) for r in f.rereads],
        "read_as": [reread_data(sheet, r) for r in f.read_as],
    }


def _thing(sheet: Sheet, f: Finding) -> Data:
    """The thing shown, and those told beside it."""
    thing, about = f.thing, f.about
    return {
        "article": witness_data(sheet, f.witness),
        "article_on_every_construction": thing.on_each if f.quantifier == "every" and f.witness else None,
        "twin": witness_data(sheet, twin_of(f)),
        "twin_name": "meant" if isinstance(about, Unmeant) and about.meant else "",
        "against": witness_data(sheet, about.against if isinstance(about, AddsNothing) else None),
        "shown": list(about.names if isinstance(about, Choices) else thing.names),
        "departures": list(thing.departs),
        "reference": thing.reference,
        "grade": thing.grade if f.witness else None,
        "simplest": thing.simplest,
    }


def _how_far(sheet: Sheet, f: Finding) -> Data:
    """On how small a departure from the base, of how much of a case, and at which lines."""
    status = f.status
    return {
        "least_rereading": f.best,
        "status": {"lowest": status.lowest, "as_presumed": status.at_base, "highest": status.highest},
        "break_points": [break_data(sheet, b) for r in f.rereads for b in r.breaks],
        "failing": list(f.failing),
        "condition_not_met": [x.label for x, _ in conditions_not_met(sheet, f)],
    }


def _otherwise(sheet: Sheet, f: Finding) -> Data:
    """What lets a thing by that is kept out, and the re-readings on which it is not so."""
    unmet, in_part = unmet_by(f), in_part_of(f)
    least = () if isinstance(f.about, Met) else f.otherwise.least
    further = () if isinstance(f.about, Met) else f.otherwise.rereads[len(least) :]
    return {
        "kept_out_by": [_kept_out_by(sheet, f, w) for w in ways_out_of(f)],
        "kept_by": [reread_data(sheet, r) for r in least],
        "kept_too": [reread_data(sheet, r) for r in further],
        "kept_out_if": [_keeping(sheet, f, r) for r in unmet if r not in in_part],
        "kept_out_if_together": f.otherwise.together and len(unmet) > 1,
        "in_part_if": [_keeping(sheet, f, r) for r in in_part],
    }


def _by_lines(sheet: Sheet, f: Finding) -> Data:
    """The limitations that bring it about."""
    kept = f.about if isinstance(f.about, KeptOut) else None
    return {
        "conflict": list(lines_of(f)),
        "minimal_sets": [list(one) for one in sets_of(f)],
        "minimal_sets_complete": kept.every_set if kept else because(f).every,
        "on_other_readings": [_fall(sheet, one) for one in (kept.falls if kept else ())],
        "on_other_readings_only": [_way_out(sheet, w) for w in (kept.besides if kept else ())],
        "silent": list(silent_lines(f)),
        "twins": list(f.about.twins if isinstance(f.about, Idle) else ()),
    }


def _wherever(sheet: Sheet, f: Finding) -> Data:
    """By way of which parents, on which further readings, of which further claims and how much of a case."""
    others = (f.about.step,) if isinstance(f.about, OneReading) else f.others
    return {
        "by_way_of": [list(chain) for chain in f.ways],
        "other_readings": [taken_data(sheet, g, r) for g, r in others],
        "further_together": f.more,
        "also_claims": list(also_claims_of(f)),
        "also_on_some": list(f.about.also_on_some if isinstance(f.about, Met) else ()),
        "also_as_far_as_stated": [{"claim": n, "left_open": list(names)} for n, names in also_open_of(f)],
        "partly": list(partly_of(f)),
    }


def _particulars(sheet: Sheet, f: Finding) -> Data:
    """What only some questions tell, and what the answer leans on."""
    about = f.about
    farthest = about.farthest if isinstance(about, EndNotReached) else ()
    return {
        "detail": _detail(f),
        "apart_on_every_reading": list(about.firm) if isinstance(about, RangeLies) else [],
        "goes_farthest_with": [reread_data(sheet, r) for r in farthest],
        "rests_on": [ground_text(x) for x in f.rests_on],
        "beside_description": held_data(sheet, about if isinstance(about, Held) else None),
        "together_beside_description": combined_data(about if isinstance(about, Combined) else None),
    }


def _detail(f: Finding) -> str:
    """A code of what a question found beside all that has a key of its own; '' for most."""
    if isinstance(f.about, ByLines):
        return _detail_of_lines(f.about)
    match f.about:
        case RangeLies(relation):
            return relation
        case Alike(other):
            return f"claim {other}"
        case OneReading(_, change):
            return change if change != "nothing" else ""
        case NoValue(expression):
            return expression
        case Unmeasured(_, no_end):
            return no_end
        case Choices(met, every):
            return f"{met}|{every}"
        case Moves(of):
            return of
        case CloseBy(how):
            return how
        case Held(name):
            return name
        case Combined():
            return "together"
        case KeptOut(at_end=at_end) | Met(at_end):
            return "stated end" if at_end else ""
        case Lost():
            return "line alone" if f.about.line_alone else ""
        case Narrows(one_value):
            return "one value" if one_value else ""
        case Amended(relation):
            return relation
        case Plain() | ForAllClaims() | Cases() | LeftOpen() | Unmeant():
            return ""
        case _:
            assert_never(f.about)


def _detail_of_lines(about: ByLines) -> str:
    match about:
        case Empty(_, names) | NotThere(_, names):
            return "|".join(names)
        case AddsNothing(never_both=never_both):
            return "never both" if never_both else ""
        case IdleEnd(_, side, written):
            return f"{side}|{written}"
        case EndNotReached():
            return _end(about)
        case Needed(_, member):
            return member
        case Idle() | OneValue() | Freed():
            return ""
        case _:
            assert_never(about)


def _end(end: EndNotReached) -> str:
    """`20 min|no more than|25/2 min|out`, and where it is another as presumed `|12 min|in`."""
    goes = [end.far, *([end.usual] if end.usual else [])]
    far = (f"{own.value} {end.unit}".rstrip() + ("|in" if own.closed else "|out") for own in goes)
    return "|".join([end.stated, "no more than" if end.upper else "no less than", *far])


def _fall(sheet: Sheet, fall: Fall) -> Data:
    """What becomes of a set on other readings: each phrase by itself, or else the least of them together."""
    return {
        "set": list(fall.labels),
        "holds_on_every_reading": fall.always if fall.decided else None,
        "falls_alone": [reread_data(sheet, r) for r in fall.single],
        "falls_together": [reread_data(sheet, r) for r in fall.together],
    }


def _kept_out_by(sheet: Sheet, finding: Finding, way: WayOut) -> Data:
    """With the stretches that let the thing shown by, where it is known from which value on."""
    points = [point for _, point in stretched_by(sheet, finding, way) if point is not None]
    return {**_way_out(sheet, way), "unless_stretched": [break_data(sheet, point) for point in points]}


def _way_out(sheet: Sheet, way: WayOut) -> Data:
    return {
        "label": way.label,
        "words": way.words,
        "unless_read": [taken_data(sheet, g, r) for g, r in way.readings],
    }
