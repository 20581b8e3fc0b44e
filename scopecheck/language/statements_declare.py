"""Declarations: `NAME  KIND [, bounds] ["note"]`."""

from __future__ import annotations

import re

from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.quantity import (
    Unit,
    as_turns,
    explain_unit,
    find_unit,
    kind_word,
    kind_words,
    known_symbols,
)
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import word_lists
from scopecheck.language.layout import Block, Line
from scopecheck.language.pieces import Desk, name_node, number_node, split_commas, trimmed, without_note
from scopecheck.language.statements_groups import class_lines, composition_head, no_basis
from scopecheck.language.syntax import (
    AssemblyKind,
    Declare,
    ListKind,
    MixtureKind,
    NameNode,
    NumberKind,
    NumberNode,
    PartKind,
    StepKind,
)

NOT_UNDERSTOOD = "this line is not understood"
MOST_PARTS = 60
TAKE_OUT = "take the line out"
_LIST = regex(r"(any|one|assembly) of\b\s*:?\s*(only\b\s*:?\s*)?")
_IN_UNIT = regex(r"(?:(?P<word>[a-z]+(?: [a-z]+){0,4}) )?in (?P<unit>[^\s<>=≤≥,\"][^<>=≤≥,\"]*)")
_GAP = regex(r" *\t\s*| {2,}| *: *")
_BOUND = regex(r"(<=|>=|<|>|≤|≥|=)\s*")


def declaration(desk: Desk, block: Block) -> Declare:
    """Names and what they stand for; below a part or step, what is measured of it; below a list, classes."""
    made = _declared(desk, block)
    if isinstance(made.kind, ListKind | MixtureKind):
        ingredients = isinstance(made.kind, MixtureKind)
        classes = class_lines(desk, block.body, ingredients)
        if ingredients:
            desk.failed |= {n.name.lower() for line in classes for n in (line.name, *(line.members or ()))}
        return replace(made, classes=classes)
    if not isinstance(made.kind, PartKind | StepKind):
        return made
    if isinstance(made.kind, PartKind) and made.kind.plural:
        desk.failed.add(made.kind.plural.lower())
    return replace(made, fields=_fields(desk, made, block.body))


def _fields(desk: Desk, made: Declare, lines: tuple[Line, ...]) -> tuple[Declare, ...]:
    """What each part or step has; deeper lines below a part of a part are what each of those has."""
    found: list[Declare] = []
    depth = 0
    for line in lines:
        field = _declared(desk, Block("declaration", line, (), None))
        if depth and line.indent > depth:
            if isinstance(field.kind, PartKind):
                raise trouble(
                    field.span, "parts of parts of parts", "Parts of parts go one level down.",
                    "declare them at the left margin, or take them out",
                )  # fmt: skip
            found[-1] = replace(found[-1], fields=(*found[-1].fields, field))
            continue
        if isinstance(field.kind, StepKind | MixtureKind | AssemblyKind) or isinstance(made.kind, StepKind):
            _refuse_below(made, field)
        depth = line.indent if isinstance(field.kind, PartKind) else 0
        found.append(field)
    return tuple(found)


def _refuse_below(made: Declare, field: Declare) -> None:
    """Raises Trouble at a step, a composition, an assembly below anything, and at a part below a step."""
    if not isinstance(field.kind, PartKind | StepKind | MixtureKind | AssemblyKind):
        return
    what = "a part" if isinstance(made.kind, PartKind) else "a step"
    known = {PartKind: "a part", StepKind: "a step", MixtureKind: "a composition"}
    one = known.get(type(field.kind), "an assembly")
    raise trouble(
        field.span, f"{one} below {what}", f"What stands below {what} is what is measured of it.",
        f"declare the {one.partition(' ')[2]} at the left margin",
    )  # fmt: skip


def _declared(desk: Desk, block: Block) -> Declare:
    """One line. Two blanks, a tab or a colon part NAME and KIND, else the words do."""
    start = block.head.start
    end, note = without_note(desk, start, block.head.end)
    text = desk.text
    gaps = list(_GAP.finditer(text, start, end))
    gap = next((m for m in gaps if _looks_like_kind(text[m.end() : end])), None)
    if gap is not None:
        name_end, kind_start = gap.start(), gap.end()
    else:
        singles = () if gaps else re.finditer(" ", text[start:end])
        places = [m for m in singles if _looks_like_kind(text[start + m.end() : end])]
        if not places:
            raise _no_kind(desk, block, gaps[0] if gaps else None, end)
        name_end, kind_start = start + places[0].start(), start + places[0].end()
        if len(places) > 1:
            _check_one_blank(desk, start, end, places)
    desk.failed |= {text[a:b].lower() for a, b in split_commas(text, start, name_end)}
    names = tuple(name_node(desk, a, b, "a declaration") for a, b in split_commas(text, start, name_end))
    return Declare(names, _kind(desk, kind_start, end), note, desk.span(start, block.head.end))


def _check_one_blank(desk: Desk, start: int, end: int, places: list[re.Match[str]]) -> None:
    """Raises Trouble for `transmit power in dBm` with one blank: dBm is no unit of power."""
    text = desk.text[start:end]
    (first, second), match = places[:2], _IN_UNIT.match(text[places[0].end() :])
    word = kind_word(match["word"]) if match and match["word"] else None
    unit = find_unit(match["unit"].strip()) if match else None
    if word is None or unit is None or word.accepts(unit.kind):
        return
    short, name, kind = text[: first.start()], text[: second.start()], text[second.end() :]
    desk.failed |= {short.lower(), name.lower()}
    if word.name in ("absolute pressure", "gauge pressure") and (
        fitting := find_unit(f"{unit.symbol}({word.name[0]})")
    ):
        raise trouble(
            desk.span(start + first.end(), end), f"{unit.symbol} is no unit of {word.name}", "",
            f"write {short}  {word.name} in {fitting.symbol}",
        )  # fmt: skip
    raise trouble(
        desk.span(start, end), f"where the name ends is not told: '{short}', or '{name}'?",
        f"After '{short}' stands '{word.name}' for what is measured, and {unit.symbol} is no unit of that.",
        f"leave two blanks behind the name: {name}  {kind}",
    )  # fmt: skip


def _looks_like_kind(text: str) -> bool:
    if re.match(r"(count|number|whole number|parts?)\s*([,<>=≤≥]|$)", text) or _LIST.match(text):
        return True
    if _NUMBERED_PARTS.fullmatch(text) or _UNPARTED.fullmatch(text):
        return True
    if composition_head(text, 0, len(text)):
        return True
    if match := _IN_UNIT.match(text):
        return match["word"] is None or match["word"] in _TIMED or kind_word(match["word"]) is not None
    return kind_word(text.partition(",")[0].strip()) is not None


_PREAMBLE = regex(r"(?:what is claimed|(?:we|i) claim|what we claim|claims?\b)[\w ]*:?$", re.IGNORECASE)


def _no_kind(desk: Desk, block: Block, gap: re.Match[str] | None, end: int) -> Exception:
    start = block.head.start
    text = desk.text[start:end]
    if gap is not None:
        # Whatever the kind should be: the names are not missing elsewhere.
        desk.failed |= {desk.text[a:b].lower() for a, b in split_commas(desk.text, start, gap.start())}
        if advice := kind_advice(desk, gap.end(), end):
            return advice
    if _PREAMBLE.match(text):
        help = f"{TAKE_OUT}, or put # before it; each claim begins with its number"
        return trouble(desk.span(start, end), NOT_UNDERSTOOD, "It is no heading, claim or declaration.", help)
    after = block.after_claim
    kinds = "count | length in mm | share in % | any of a, b"
    help = f"a declaration is a name, two blanks, and a kind, such as: {kinds}"
    wrong = _IN_UNIT.search(text)
    if wrong and wrong["word"]:
        near = did_you_mean(wrong["word"].split()[-1], kind_words())
        help = f"{near} {help}".strip()
    if after is not None:
        help += (
            f"; text of claim {after} that goes on after a blank line is indented, and a line that restates"
            " it begins with |"
        )
    elif gap is not None:
        help += "; rows of cases are indented below their heading"
    return trouble(desk.span(start, end), NOT_UNDERSTOOD, "It is no heading, claim or declaration.", help)


_HOW_MANY = regex(r"(?:(\d{1,60}) to|up to|(exactly)) (\d{1,60})(?: of them)?")
_NUMBERED_PARTS = regex(r"(?:(\d{1,60})\s+parts?|parts?[\s,]\s*(\d{1,60}))")
"""How a part is not declared: whether so many or up to so many are meant is not told."""
_UNPARTED = regex(r"parts?\s+((?:\d{1,60} to|up to|exactly) \d{1,60})")
_PLURAL = regex(r"plural\s+(\S.*)")


def _part(said: list[str], span: Span) -> PartKind:
    """`part, 1 to 12`, `part, up to 12`, `part, exactly 4, plural feet`."""
    how_many = next((m for text in said if (m := _HOW_MANY.fullmatch(" ".join(text.split())))), None)
    plural = next((m for text in said if (m := _PLURAL.fullmatch(text.strip()))), None)
    if how_many is None or len(said) != (1 if plural is None else 2):
        raise trouble(
            span, "a part without how many there may be",
            "Answers are worked out for a bounded number of like parts.",
            "write part, 1 to 12, or part, up to 12; an unusual plural goes last: part, 1 to 4, plural feet",
        )  # fmt: skip
    most = int(how_many[3])
    least = most if how_many[2] else int(how_many[1] or 0)
    if not least <= most or not 1 <= most <= MOST_PARTS:
        raise trouble(span, f"from {least} to {most} parts", f"There may be up to {MOST_PARTS}.")
    return PartKind(least, most, " ".join(plural[1].split()) if plural else "", span)


def _mixture(desk: Desk, match: re.Match[str], start: int, end: int) -> MixtureKind:
    """`composition in wt%`, closed by a further `only`."""
    (_, first_end), *rest = split_commas(desk.text, start, end)
    said = [desk.text[a:b] for a, b in rest]
    span = desk.span(start, end)
    if match["unit"] is None or said not in ([], ["only"]):
        help = "give bounds of ingredients as facts that always hold: given talc <= 5 wt%"
        if not any(sign in text for text in said for sign in "<>="):
            help = "write the ingredients below it, each on a line of its own, indented"
        what = f"'{', '.join(said)}' after a composition"
        raise no_basis(span) if match["unit"] is None else trouble(span, what, "", help)
    unit = _unit(desk, match.start("unit"), first_end, "share")
    if unit.kind.dimension or not unit.symbol:
        raise trouble(span, f"{unit.symbol} is no unit of a share", "", "write composition in wt%")
    return MixtureKind(unit, bool(said), span)


_TIMED = ("step", "event")
_LEFT_OUT, _PAUSE = "may be left out", "may pause"


def _step(desk: Desk, match: re.Match[str], end: int, rest: list[tuple[int, int]], span: Span) -> StepKind:
    """`step in min, may pause`, `event in h, may be left out`."""
    unit = _unit(desk, match.start("unit"), end, "duration")
    minutes = find_unit("min")
    assert minutes
    if unit.kind != minutes.kind:
        raise trouble(
            desk.span(match.start("unit"), end), f"{unit.symbol} is no unit of time",
            f"A step or an event has a place in time; {unit.symbol} measures a {unit.kind.name}.",
            f"write {match['word']} in s, in min, in h, in day or in week",
        )  # fmt: skip
    moment = match["word"] == "event"
    said = [" ".join(desk.text[a:b].split()) for a, b in rest]
    for (a, b), words in zip(rest, said, strict=True):
        if words == _PAUSE and moment:
            what = "an event takes no time, so it has no pauses"
            raise trouble(desk.span(a, b), what, "", f"declare it as a step: step in {unit.symbol}, {_PAUSE}")
        if words not in (_LEFT_OUT, _PAUSE):
            raise trouble(
                desk.span(a, max(b, a + 1)), f"'{words}' is not understood of a step",
                "After the unit may stand: may be left out, may pause. How long it takes is a fact apart.",
                f"write {match['word']} in {unit.symbol}, {_LEFT_OUT}; or given DURATION(...) < 60 min",
            )  # fmt: skip
    return StepKind(unit, moment, _LEFT_OUT in said, _PAUSE in said, span)


Kind = NumberKind | ListKind | PartKind | StepKind | MixtureKind | AssemblyKind


def _kind(desk: Desk, start: int, end: int) -> Kind:
    text = desk.text
    start, end = trimmed(text, start, end)
    if match := composition_head(text, start, end):
        return _mixture(desk, match, start, end)
    if match := _LIST.match(text, start, end):
        return _list(desk, match, start, end)
    (first_start, first_end), *rest = split_commas(text, start, end)
    first = " ".join(text[first_start:first_end].split())
    if bound := re.search(r"(?:<=|>=|[<>=≤≥]).*", first):
        raise trouble(
            desk.span(first_start, first_end), "a bound without a comma before it",
            "After the kind come bounds, with a comma before each.",
            f"write {first[: bound.start()].strip()}, {bound.group()}",
        )  # fmt: skip
    span = desk.span(start, end)
    if so_many := _NUMBERED_PARTS.fullmatch(text, start, end):
        number = so_many[1] or so_many[2]
        raise trouble(
            span, f"exactly {number} parts, or up to {number}?", "",
            f"write part, exactly {number}, or part, up to {number}",
        )  # fmt: skip
    if unparted := _UNPARTED.fullmatch(text, start, end):
        raise trouble(span, "a part without a comma behind the word", "", f"write part, {unparted[1]}")
    if first in ("part", "parts"):
        return _part([text[a:b] for a, b in rest], span)
    timed = _IN_UNIT.fullmatch(text, first_start, first_end)
    if timed and timed["word"] in _TIMED:
        return _step(desk, timed, first_end, rest, span)
    varies, rest = _varies(desk, rest)
    bounds = tuple(_bound(desk, a, b, first) for a, b in rest)
    if first in ("count", "whole number"):
        return NumberKind("count", None, True, bounds, span, varies)
    if first in ("number", "ratio"):
        return NumberKind("number", None, False, bounds, span, varies)
    match = _IN_UNIT.fullmatch(text, first_start, first_end)
    if not match:
        raise _which_unit(desk, first, first_start, first_end)
    word = match["word"] or ""
    unit = _unit(desk, match.start("unit"), first_end, word)
    if word == "share" and unit.kind.basis == _PER_VOLUME.removeprefix("share "):
        word = _PER_VOLUME
    return NumberKind(word, unit, False, bounds, span, varies)


_PER_VOLUME = "share by mass per volume"
"""What a share in % w/v is: no part of a whole, so that it may lie above 100 %."""


_VARIES = regex(r"varies(?:\s+(?:with|from)\s+(?:the\s+|each\s+)?(\S.*))?")


def _varies(desk: Desk, said: list[tuple[int, int]]) -> tuple[str, list[tuple[int, int]]]:
    """What a quantity belongs to, of `varies with the user` ('' if it is the thing's own), and the bounds."""
    found = next((m for a, b in said if (m := _VARIES.fullmatch(desk.text, a, b))), None)
    if found is None:
        return "", said
    rest = [(a, b) for a, b in said if a != found.start()]
    return " ".join((found[1] or "occasion of use").split()), rest


def _which_unit(desk: Desk, word: str, start: int, end: int) -> Exception:
    known = kind_word(word)
    if advice := _bare_ppm(word, desk.span(start, end)):
        return advice
    examples = {"share": "share in %", "temperature": "temperature in degC", "length": "length in mm"}
    return trouble(
        desk.span(start, end),
        f"in which unit is this {word} given?" if known else f"'{word}' is no kind",
        "Every quantity is declared with a unit.",
        f"write for example {examples.get(word, word + ' in ' + '...')}",
    )


def _bare_ppm(written: str, span: Span) -> Exception | None:
    """The error for parts per million of nobody says what."""
    if written.lower() != "ppm":
        return None
    return trouble(
        span, "a bare ppm leaves open whether the parts are by mass, by volume or by mole", "",
        "write share in ppm by mass, share in ppm by volume, or share in ppm by mole",
    )  # fmt: skip


def _unit(desk: Desk, start: int, end: int, word: str) -> Unit:
    start, end = trimmed(desk.text, start, end)
    written = " ".join(desk.text[start:end].split())
    level = word == "temperature"
    unit = find_unit(written, desk.own, level=level)
    symbol, of, whole = written.partition(" of ")
    if unit is None and of:
        share = find_unit(symbol, desk.own)
        if share and not share.kind.dimension:
            return Unit(share.symbol, share.kind.of(whole.strip()), share.factor, share.offset)
    if unit is None and written == "1":
        raise trouble(
            desk.span(start, end), "'1' is no unit", "A plain number is declared without one.", "write number"
        )
    if unit is None and (advice := _bare_ppm(written, desk.span(start, end))):
        raise advice
    if unit is None and word == "angle" and written in ("degree", "degrees"):
        unit = find_unit("deg")
    if unit is None:
        help = _units_like(written, word) or explain_unit(written, desk.own) or ""
        note = re.fullmatch(r"(\S+) \((.+)\)", written)
        either = re.fullmatch(r"(\S+) (?:or|and) (\S+)", written)
        if either and all(find_unit(piece, desk.own) for piece in either.groups()):
            help = (
                f"choose one, such as {either[1]}: beside words and in cases units of one kind are converted"
            )
        if note and find_unit(note.group(1), desk.own, level=level):
            help = f'put a note in quotes after the kind: {word} in {note.group(1)}   "{note.group(2)}"'
        elif re.fullmatch(r"[^\W\d_]+(?:-[^\W\d_]+)*", written) and not explain_unit(written, desk.own):
            help += (
                f"{'; or, ' if help else ''}if it is a unit of your trade, write in the head: unit {written}"
            )
        raise trouble(desk.span(start, end), f"'{written}' is no known unit", "", help)
    if word == "rotational speed":
        unit = as_turns(unit)
    return unit


def _units_like(written: str, word: str) -> str:
    """A help sentence with units of the kind that the word names."""
    known = kind_word(word) if word else None
    units = [s for s in known_symbols() if known and (unit := find_unit(s)) and known.accepts(unit.kind)]
    near = [
        u
        for u in units
        if len(u) == len(written) and sum(a != b for a, b in zip(u, written, strict=True)) == 1
    ]
    return f"did you mean {' or '.join(near[:3])}?" if near else ""


_RANGE = regex(r"(?:from |between )?(\d[\d.]*)( ?[^\s\d-]*) ?(?:to|and|-) ?(\d[\d.]*)( ?\S*)")


def _bound(desk: Desk, start: int, end: int, first: str) -> tuple[str, NumberNode]:
    match = _BOUND.match(desk.text, start, end)
    if not match or match.group(1) == "=":
        unit = first.partition(" in ")[2]
        example = f"> 0 {unit}, <= 50 {unit}" if unit else ">= 1, <= 50"
        if both := _RANGE.fullmatch(desk.text, start, end):
            low, low_unit, high, high_unit = both.groups()
            example = f">= {low}{low_unit.rstrip() or high_unit}, <= {high}{high_unit}"
        raise trouble(
            desk.span(start, max(end, start + 1)),
            "a bound was expected here",
            "After the kind come bounds, each a comparison with a number.",
            f"write for example: {example}" if not both else f"write {example}",
        )
    sign = {"≤": "<=", "≥": ">="}.get(match.group(1), match.group(1))
    return sign, number_node(desk, match.end(), end)


def _list(desk: Desk, match: re.Match[str], start: int, end: int) -> ListKind | AssemblyKind:
    members: list[NameNode] = []
    if match.group(1) != "assembly":
        _refuse_amounts(desk, match.end(), end)
    for a, b in split_commas(desk.text, match.end(), end):
        if a == b:
            raise trouble(
                desk.span(max(start, a - 1), a + 1), "a member is missing here", "", "take out the comma"
            )
        members.append(_member(desk, a, b))
    only, span = bool(match.group(2)), desk.span(start, end)
    if match.group(1) == "assembly":
        return AssemblyKind(only, tuple(members), span)
    return ListKind(match.group(1) == "any", only, tuple(members), span)


_AMOUNT = regex(r"-?\d+(?:\.\d+)? ?((?:[^\W\d]|[%°µ]).*)?")


def _refuse_amounts(desk: Desk, start: int, end: int) -> None:
    """Raises Trouble for `one of 15 kHz, 30 kHz`: amounts are no names, and a claim may list them."""
    said = [" ".join(desk.text[a:b].split()) for a, b in split_commas(desk.text, start, end)]
    found = [_AMOUNT.fullmatch(text) for text in said]
    units = [find_unit(m[1], desk.own) if m and m[1] else None for m in found]
    if not all(found) or any(m and m[1] and unit is None for m, unit in zip(found, units, strict=True)):
        return
    last = units[-1]
    kind = f"{_word_for(last)} in {last.symbol}".strip() if last else "count"
    kind = "number" if last is None and any("." in text or "-" in text for text in said) else kind
    listed = " and ".join((", ".join(said[:-1]), said[-1])) if len(said) > 1 else said[0]
    words = f"one of {listed}" if len(said) > 1 else listed
    raise trouble(
        desk.span(*trimmed(desk.text, start, end)),
        "amounts in a list of names",
        "A list holds names; what is so much of something is measured or counted.",
        f"write {kind}, and in the claim: {words}; or, where they are names of kinds, put a word before each,"
        f" such as: grade {said[0]}",
    )  # fmt: skip


_JOINING = regex(r"(?:^|\s)(and|or|and/or|not|only)(?=\s|$)", re.IGNORECASE)


_CLOSING = regex(r"^\s*only\b|\bonly\s*$", re.IGNORECASE)


def _member(desk: Desk, start: int, end: int) -> NameNode:
    """One member's name. 'and', 'or', 'not' and 'only' are never part of one: it might be several."""
    text = desk.text[start:end]
    word = _JOINING.search(text)
    if word is None:
        return name_node(desk, start, end, "a member")
    if _CLOSING.search(text):
        raise trouble(
            desk.span(start, end), "'only' is no name of a member, nor part of one",
            "A list is closed by only before its members.", "write any of only and its members",
        )  # fmt: skip
    parts = [p.strip() for p in re.split(r"\s*\b(?:and/or|and|or|not|only)\b\s*", text, flags=re.IGNORECASE)]
    apart = ", ".join(p.strip("-") for p in parts if p)
    plain, joined = " ".join(text.split()), re.sub("-+", "-", "-".join(text.split()))
    raise trouble(
        desk.span(start, end), f"'{plain}' holds the word '{word.group(1)}'",
        "Members stand apart by commas only; words between them may be read in several ways.",
        f"write {apart}, or {joined} if it is the name of one member" if len(apart.split(", ")) > 1
        else f"write {apart}" if word.start() == 0 and word.group(1).lower() in ("and", "or")
        else f"choose another name, such as {joined}",
    )  # fmt: skip


# ---- what was perhaps meant by a kind that is none


def kind_advice(desk: Desk, start: int, end: int) -> Exception | None:
    """The error for a kind that is none, with what to write; None where nothing is known to offer."""
    (a, b), *_ = split_commas(desk.text, start, end)
    first = " ".join(desk.text[a:b].split())
    span = desk.span(start, max(end, start + 1))
    if meant := _meant_kind(desk.text[start:end], first):
        return trouble(span, f"'{first}' is no kind", "", f"write {meant}")
    match = _IN_UNIT.fullmatch(first)
    if match and match["word"]:
        return _no_word(desk, match["word"], match["unit"], span)
    words = first.split()
    if advice := _with_a_unit(desk, first, span):
        return advice
    if advice := _bare_ppm(words[-1] if words else "", span):
        return advice
    for size in range(len(words)):
        unit = find_unit(" ".join(words[size:]), desk.own)
        if unit and (not size or kind_word(" ".join(words[:size]))):
            written = f"in {' '.join(words[size:])}"
            known = " ".join(words[:size]) or _word_for(unit)
            return trouble(
                span, "a unit without 'in' before it",
                "A kind is a word for what is measured, 'in', and a unit.",
                f"write {known} {written}".replace("  ", " "),
            )  # fmt: skip
    return _no_list(" ".join(desk.text[start:end].split()), span)


_LISTING = regex(r"(?:an? )?(?:set|list|choice|group|selection|enumeration) of:? (.+,.+)")


def _meant_kind(written: str, first: str) -> str:
    """What to write for a kind in capitals, in another trade's word, or for a list called so; else ''."""
    bare = re.split(r"\s*(?:[<>=≤≥]|$)", first)[0]
    if kind := word_lists()["meant_kinds"].get(bare.lower()):
        return str(kind)
    if listing := _LISTING.fullmatch(" ".join(written.split())):
        return f"any of {listing[1]} (several at once), or one of {listing[1]} (exactly one)"
    if noted := re.fullmatch(r"(.+?) ?\((\S+)\)", first):
        first = f"{noted[1]} in {noted[2]}"
        return first if _looks_like_kind(first) and find_unit(noted[2]) else ""
    if of := re.fullmatch(r"share of (.+) in (\S+)", first):
        return f"share in {of[2]} of {of[1]}"
    small = first[:1].lower() + first[1:]
    article = re.sub(r"^an? ", "", small)
    return next((kind for kind in (small, article) if kind != first and _looks_like_kind(kind)), "")


_SHARE_BY = regex(r"(?:share|fraction|percentage|per ?cent|%) (by (?:mass|volume|mole|weight|number))")
_PER = regex(r"(?:count|number) (per .+)")


def _with_a_unit(desk: Desk, first: str, span: Span) -> Exception | None:
    """The error for 'share by mass' and 'count per cm2', which say the unit in other words."""
    if by := _SHARE_BY.fullmatch(first):
        unit = find_unit(f"% {by[1]}")
        help = f"write share in {unit.symbol if unit else '%'}"
    elif per := _PER.fullmatch(first):
        unit = find_unit(per[1], desk.own)
        if unit is None:
            return None
        help = f"write in {unit.symbol}"
    else:
        return None
    return trouble(span, f"'{first}' is no kind", "Every quantity is declared with a unit.", help)


def _word_for(unit: Unit) -> str:
    """The word of the table that a unit goes with, or ''."""
    return next((w for w in kind_words() if (k := kind_word(w)) and k.accepts(unit.kind)), "")


def _no_word(desk: Desk, word: str, written: str, span: Span) -> Exception:
    if word in ("count", "number"):
        return trouble(span, f"a {word} has no unit", "", f"write {word}")
    unit = find_unit(written.strip(), desk.own)
    known = [w for w in kind_words() if unit is None or ((k := kind_word(w)) and k.accepts(unit.kind))]
    help = did_you_mean(word, known) or did_you_mean(word.split()[-1], known)
    if not help and unit is not None:
        named = _word_for(unit)
        help = f"write {named} in {unit.symbol}, or in {unit.symbol}" if named else f"write in {unit.symbol}"
    cause = "Before 'in' stands a word for what is measured, such as length, mass, time, share."
    return trouble(span, f"'{word}' is no kind", cause, help)


def _no_list(text: str, span: Span) -> Exception | None:
    parts = [p for p in re.split(r"\s*,\s*(?:and |or )?|\s+(?:or|and)\s+|\s*/\s*", text) if p]
    if len(parts) < 2 or not all(re.fullmatch(r"[^\W\d_][\w' -]*", p) for p in parts):
        return None
    listed = ", ".join(parts)
    several = f"any of {listed} (several at once), or one of {listed} (exactly one)"
    return trouble(
        span, "a list without any of or one of",
        "It is not said whether several of them may be there at once.",
        f"write {f'one of only {listed}' if len(parts) == 2 and ' or ' in text else several}",
    )  # fmt: skip
