"""A claimed range beside what the description states, in words: relations, and no conclusion from them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopecheck.answers.findings import Finding
from scopecheck.answers.held import Combined, EndHeld, Held, Piece
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Sheet
from scopecheck.report.amounts import quantity_text
from scopecheck.report.chart import range_text
from scopecheck.report.describe import labelled
from scopecheck.report.ties import tie_text
from scopecheck.report.wording import claims_text, flat, listed, quoted, sentence, upper_first


def held_text(sheet: Sheet, finding: Finding) -> str:
    """`open 35 % to 60 %: its low end, 35 %, is no end stated; ...`; '' for any other finding."""
    match finding.about:
        case Combined():
            return _combined_text(sheet, finding.label, finding.about)
        case Held():
            return _held_text(sheet, finding.claim, finding.about)
        case _:
            return ""


def _held_text(sheet: Sheet, claim: int, held: Held) -> str:
    name = flat(held.name)
    own = sentence("lies", "range_of", name=name, range=range_text(sheet, held.name, held.claimed))
    if not held.spoken:
        return f"{own}: {sentence('held', 'unspoken', name=name)}"
    others = _others(sheet, claim, held)
    joint = range_text(sheet, held.name, held.joint)
    if held.as_such:
        key = "as_such_with" if others else "as_such"
        where = _where(sheet, held.as_such)
        as_such = sentence("held", key, range=own, others=others, joint=joint, where=where)
        return "; ".join([as_such, *_preferences(sheet, held)])
    own = sentence("held", "joint", range=own, others=others, joint=joint) if others else own
    around = "; ".join(_around(sheet, held))
    around = sentence("held", "with", others=others, said=around) if others else around
    return f"{_marked(sheet, held)}{own}: {'; '.join([*_of_ends(sheet, held), around])}"


def unstated_first(findings: Iterable[Finding]) -> list[Finding]:
    """First what claims a number that no statement has, then what no statement speaks of by itself."""

    def place(finding: Finding) -> int:
        held = finding.about
        return 2 if not isinstance(held, Held) else 0 if held.nowhere else 2 if held.spoken else 1

    return sorted(findings, key=place)


def _marked(sheet: Sheet, held: Held) -> str:
    """`in no statement of force: 14 kN; `, of the numbers claimed that the description does not state."""
    numbers = _unstated(sheet, held)
    return sentence("held", "nowhere", name=flat(held.name), numbers=numbers) if numbers else ""


def unstated_text(sheet: Sheet, finding: Finding) -> str:
    """`14 kN`, the numbers claimed that the description does not state; '' for any other finding."""
    return _unstated(sheet, finding.about) if isinstance(finding.about, Held) else ""


def _unstated(sheet: Sheet, held: Held) -> str:
    d = sheet.declaration(held.name)
    assert isinstance(d, NumberDecl)
    return listed(dict.fromkeys(quantity_text(end.end.value, d.unit) for end in held.nowhere))


def _others(sheet: Sheet, own: int, held: Held) -> str:
    """The claims whose limitations narrow the range, and the lines of the same claim that do; '' if none."""
    claims = {x.label: claim.number for claim in sheet.claims for x in claim.limitations}
    above = sorted({claims[label] for label in held.beside} - {own})
    lines = [label for label in held.beside if claims[label] == own]
    return listed([*([claims_text(above)] if above else []), *lines])


def _combined_text(sheet: Sheet, label: str, combined: Combined) -> str:
    """`1a "..." and 1b "..." taken together: within blend ("page 3"); ...`."""
    lines = listed(labelled(sheet, label) for label in combined.labels)
    key = "of_lines" if len(combined.labels) > 1 else "of_line"
    parts = "; ".join(_combined_parts(sheet, combined))
    return upper_first(sentence("combined", key, label=flat(label), lines=lines, parts=parts))


def _combined_parts(sheet: Sheet, combined: Combined) -> Iterator[str]:
    places = {c.name: c.place for c in sheet.described}
    for own in combined.statements:
        further = sentence("combined", "further", names=listed(map(flat, own.further))) if own.further else ""
        place = f"{quoted(places[own.statement])}{further}"
        where = sentence("held", "at", name=flat(own.statement), place=place)
        text = sentence("combined", own.relation, where=where)
        if own.labels != combined.labels:
            text = sentence("combined", "some", lines=listed(own.labels), relation=text)
        yield text
    if combined.as_such:
        return
    yield _from_where(sheet, combined)
    if combined.examples:
        yield sentence("combined", "examples", where=_where(sheet, combined.examples))


def _from_where(sheet: Sheet, combined: Combined) -> str:
    """That no statement has the combination, and where its ranges or at least its ends are stated."""
    pieces = combined.pieces
    as_such = [_piece(sheet, p) for p in pieces if p.as_such]
    if combined.whole and len(as_such) == len(pieces):
        return sentence("combined", "pieces", pieces=listed(as_such))
    if combined.whole and all(p.has_ends for p in pieces):
        told = [text for p in pieces for text in ([_piece(sheet, p)] if p.as_such else _ends(sheet, p))]
        return sentence("combined", "ends", pieces=listed(told))
    parts = sentence("combined", "parts", pieces=listed(as_such)) if as_such else ""
    return sentence("combined", "nowhere", parts=parts)


def _piece(sheet: Sheet, piece: Piece) -> str:
    return sentence("combined", "piece", name=tie_text(piece.tie), where=_where(sheet, piece.as_such))


def _ends(sheet: Sheet, piece: Piece) -> Iterator[str]:
    name = tie_text(piece.tie)
    for side, cases in (("low", piece.low), ("high", piece.high)):
        if cases:
            side_text, where = sentence("side", side), _where(sheet, cases)
            yield sentence("combined", "piece_end", name=name, side=side_text, where=where)


def _of_ends(sheet: Sheet, held: Held) -> Iterator[str]:
    for end in held.ends:
        yield _end_text(sheet, held, end)
    if len(held.ends) == 2:
        stated = [e.stated + e.preferred for e in held.ends]
        if all(stated) and not set(stated[0]) & set(stated[1]):
            yield sentence("held", "not_together")
        sides = [_only_side(e) for e in held.ends]
        if sides[0] and sides[0] == sides[1]:
            yield sentence("held", "one_side", side=sentence("side", sides[0]))


def _around(sheet: Sheet, held: Held) -> Iterator[str]:
    """How the whole range lies, with what else limits the number in the claim."""
    for side in held.open_sides:
        yield sentence("held", "open_low" if side == "low" else "open_high")
    yield (
        sentence("held", "within", where=_where(sheet, held.within))
        if held.within
        else sentence("held", "beyond")
    )
    yield from _preferences(sheet, held)


def _preferences(sheet: Sheet, held: Held) -> Iterator[str]:
    takes_in = [n for n in held.takes_in if n not in held.as_such]
    if takes_in:
        yield sentence("held", "takes_in", where=_where(sheet, takes_in))
    if held.cuts:
        yield sentence("held", "cuts", where=_where(sheet, held.cuts))


def _only_side(end: EndHeld) -> str:
    """The side on which the number of an end stands in the description, if on one side only."""
    same, other = bool(end.stated or end.preferred), bool(end.other_end)
    opposite = "high" if end.side == "low" else "low"
    return "" if same == other else end.side if same else opposite


def _end_text(sheet: Sheet, held: Held, end: EndHeld) -> str:
    d = sheet.declaration(held.name)
    assert isinstance(d, NumberDecl)
    examples = {c.name for c in sheet.described if c.form == "example"}
    crossed = [n for n in (*end.stated, *end.preferred) if n in end.crossed]
    keys = (
        ("end_stated", [n for n in end.stated if n not in crossed]),
        ("end_preferred", [n for n in end.preferred if n not in crossed]),
        ("end_left_out" if end.end.closed else "end_included", crossed),
        ("end_other", end.other_end),
        ("end_example", [n for n in end.examples if n in examples]),
        ("end_value", [n for n in end.examples if n not in examples]),
    )
    told = [sentence("held", key, where=_where(sheet, names)) for key, names in keys if names]
    if end.nowhere:
        told = [sentence("held", "end_nowhere")]
    elif not (end.stated or end.preferred or end.other_end):
        told.append(sentence("held", "end_of_no_range"))
    text = quantity_text(end.end.value, d.unit)
    return sentence("held", "end", side=sentence("side", end.side), end=text, where=listed(told))


def _where(sheet: Sheet, names: Iterable[str]) -> str:
    """The statements by name, each with its place."""
    places = {c.name: c.place for c in sheet.described}
    return listed(sentence("held", "at", name=flat(n), place=quoted(places[n])) for n in names)
