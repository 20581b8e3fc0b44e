"""From a sheet's text to its statements as written; each is read alone, so errors do not spread."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from scopecheck.foundations.diagnostics import (
    Diagnostic,
    Trouble,
    did_you_mean,
    nearest,
    quoted_list,
    trouble,
)
from scopecheck.foundations.quantity import UnitError, define_unit, find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import CASES, HEADINGS, Block, Page, blocks
from scopecheck.language.parse import parse_facts
from scopecheck.language.pieces import Desk, after_word, one_line, without_note
from scopecheck.language.scan import MOST_DIGITS
from scopecheck.language.statements_cases import cases_statement
from scopecheck.language.statements_claims import claim_statement
from scopecheck.language.statements_declare import NOT_UNDERSTOOD, TAKE_OUT, declaration
from scopecheck.language.statements_text import answered, nouns
from scopecheck.language.statements_words import apart, define, phrase, policy, read, term
from scopecheck.language.syntax import (
    Declare,
    GivenStatement,
    ListKind,
    MixtureKind,
    PartKind,
    PhraseStatement,
    Setting,
    Sheet,
    Statement,
    StepKind,
    UnitStatement,
)

LARGEST_FILE = 4_000_000


def read_file(path: str | Path, what: str = "sheet") -> tuple[Source | None, tuple[Diagnostic, ...]]:
    """The text of a file, or what is wrong with it: missing, a directory, too large, not text."""
    name = str(path)
    nothing = Source(name, "")

    def wrong(message: str, cause: str = "", help: str = "") -> tuple[None, tuple[Diagnostic, ...]]:
        return None, (Diagnostic("error", Span(nothing, 0, 0), message, cause, help),)

    try:
        with Path(path).open("rb") as file:  # a device tells no size
            data = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        return wrong("there is no such file", "", _near_file(Path(path)))
    except IsADirectoryError:
        return wrong(f"this is a directory, not a {what}", "", f"name the file of the {what}")
    except (OSError, ValueError) as error:
        return wrong("the file cannot be read", getattr(error, "strerror", None) or "")
    if len(data) > LARGEST_FILE:
        return wrong("the file is too large", f"A {what} has at most {LARGEST_FILE} bytes.")
    try:
        text = _decoded(data)
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        return wrong(
            "the file is not text in UTF-8",
            f"Line {line} has the byte {data[error.start]:02X}, which stands for no sign there.",
            f"save the {what} as plain text, UTF-8",
        )
    if "\0" in text:
        return wrong("the file is not text", "It holds zero bytes.", "save it as plain text, UTF-8")
    source = Source(name, text.replace("\r\n", "\n").replace("\r", "\n"))
    endless = endless_numbers(source)
    return (None, endless) if endless else (source, ())


def endless_numbers(source: Source) -> tuple[Diagnostic, ...]:
    """An error at each number that is too long to be worked out, wherever it stands."""
    cause = f"A number has at most {MOST_DIGITS} digits."
    return tuple(
        Diagnostic(
            "error", Span(source, m.start(), m.end()), f"a number of {len(m.group())} digits", cause, ""
        )
        for m in _ENDLESS.finditer(source.text)
    )  # fmt: skip


_ENDLESS = regex(r"\d(?:[,.]?\d){600,}")
"""More than any number that is read, and less than what the language turns into one."""


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16")
    return data.removeprefix(b"\xef\xbb\xbf").decode("utf-8")


def _near_file(path: Path) -> str:
    try:
        return did_you_mean(path.name, (p.name for p in path.parent.iterdir()))
    except OSError:
        return ""


def parse_sheet(source: Source) -> tuple[Sheet, tuple[Diagnostic, ...]]:
    """The statements of a sheet as written, with every diagnostic of spelling found on the way."""
    desk = Desk(Page(source))
    if endless := endless_numbers(source):
        return Sheet(desk.page, (), (), frozenset()), endless
    found, layout_diagnostics = blocks(desk.page)
    desk.diagnostics += layout_diagnostics
    if not found and not desk.diagnostics:
        desk.diagnostics.append(
            Diagnostic(
                "error",
                desk.span(0, len(source.text)),
                "the sheet is empty",
                "It has no statements.",
                "paste the claims, numbered, and restate each limitation on a line with a bar",
            )
        )
    early = {
        id(b): _read(desk, b) for heading in ("unit", "declaration") for b in found if b.heading == heading
    }
    spelled = tuple(sorted(desk.spelled, key=lambda name: (-len(name), name)))
    noted = {s.note.partition(",")[0].strip().lower() for s in early.values() if isinstance(s, Declare)}
    letters = {sign for sign in noted if len(sign) == 1}  # '2D', of a diameter noted "D"
    desk.page = replace(desk.page, spelled=spelled, names=frozenset(desk.failed) | letters)
    statements = tuple(early[id(b)] if id(b) in early else _read(desk, b) for b in found)
    sheet = Sheet(
        desk.page,
        tuple(s for s in statements if s is not None),
        tuple(desk.own.items()),
        frozenset(desk.failed),
    )
    return sheet, tuple(sorted(desk.diagnostics, key=lambda d: d.span.start))


def parse_phrases(source: Source) -> tuple[tuple[PhraseStatement, ...], tuple[Diagnostic, ...]]:
    """The phrases of a phrase file as written, with every diagnostic of spelling found on the way."""
    desk = Desk(Page(source))
    found, layout_diagnostics = blocks(desk.page)
    desk.diagnostics += layout_diagnostics
    for block in found:
        if block.heading != "phrase":
            span = desk.span(block.head.start, block.head.end)
            message = "a phrase file holds phrases and nothing else"
            help = 'write phrase "..." with its lines indented below it, or put this line into the sheet'
            desk.diagnostics.append(Diagnostic("error", span, message, "", help))
    if not found and not desk.diagnostics:
        span = desk.span(0, len(source.text))
        help = 'write phrase "..." with its lines indented below it'
        desk.diagnostics.append(Diagnostic("error", span, "the phrase file is empty", "", help))
    made = [_read(desk, block) for block in found if block.heading == "phrase"]
    phrases = tuple(s for s in made if isinstance(s, PhraseStatement))
    return phrases, tuple(sorted(desk.diagnostics, key=lambda d: d.span.start))


def _read(desk: Desk, block: Block) -> Statement | None:
    try:
        return _READERS[block.heading](desk, block)
    except Trouble as error:
        desk.diagnostics.append(error.diagnostic)
        return None


_PROFILES = ("US", "US examination", "US court", "EPO")


def _setting(desk: Desk, block: Block) -> Setting:
    _no_body(desk, block)
    start = after_word(desk.text, block.heading, block.head)
    value = one_line(desk.page.source.text[start : block.head.end])
    span = desk.span(start, max(block.head.end, start + 1))
    whole = desk.span(block.head.start, block.head.end)
    if not value:
        raise trouble(whole, f"nothing stands after '{block.heading}'")
    known = {"profile": _PROFILES, "filed": ("yes", "no")}.get(block.heading, ())
    value = next((word for word in known if word.lower() == value.lower()), value)
    if block.heading == "profile" and value not in _PROFILES:
        raise trouble(
            span,
            f"'{value}' is no profile",
            "The profiles are US, US court and EPO.",
            did_you_mean(value, _PROFILES),
        )
    if block.heading == "filed" and value not in ("yes", "no"):
        raise trouble(span, f"'{value}' is neither yes nor no", "", "write filed yes or filed no")
    return Setting(block.heading, _unquoted(value), span)


def _unquoted(value: str) -> str:
    """A value without the quotes around the whole of it; quotes around some of its words stay."""
    inner = value[1:-1]
    whole = len(value) > 1 and value[0] in '"“' and value[-1] in '"”' and not set('"“”') & set(inner)
    return inner if whole else value


def _no_body(desk: Desk, block: Block) -> None:
    what = "a declaration" if block.heading == "declaration" else f"'{block.heading}'"
    for line in block.body:
        raise trouble(
            desk.span(line.start, line.end), f"an indented line below {what}",
            "Indented lines belong to the statement above, and this one takes none.",
            "begin the line at the left margin",
        )  # fmt: skip


def _unit(desk: Desk, block: Block) -> UnitStatement | None:
    """A unit of the sheet's own; None, with a warning, for a scale of the trade that is known already."""
    _no_body(desk, block)
    start = after_word(desk.text, "unit", block.head)
    end, note = without_note(desk, start, block.head.end)
    span = desk.span(start, max(end, start + 1))
    try:
        unit = define_unit(desk.text[start:end])
    except UnitError as error:
        known = find_unit(desk.text[start:end])
        help = "take the line out: the unit can be used as it is" if known else ""
        if known and known.kind.dimension == ((known.symbol, 1),):
            desk.diagnostics.append(Diagnostic("warning", span, str(error), "", help))
            return None
        raise trouble(span, str(error), "", help) from None
    if unit.symbol in desk.own:
        raise trouble(span, f"the unit '{unit.symbol}' is declared twice")
    desk.own[unit.symbol] = unit
    return UnitStatement(unit, note, span)


def _given(desk: Desk, block: Block) -> GivenStatement:
    start = after_word(desk.text, "given", block.head)
    last = block.body[-1].end if block.body else block.head.end
    end, note = without_note(desk, start, last)
    facts = parse_facts(desk.page, start, end, desk.own)
    text = one_line(desk.page.source.text[start:end])
    return GivenStatement(facts, note, text, desk.span(start, end))


_LIKE_CASES = {
    **dict.fromkeys(("outside", "out", "exclude", "excluded", "without", "avoid"), "must stay out"),
    **dict.fromkeys(("in", "include", "included", "covered", "embodiments", "examples"), "inside"),
    **dict.fromkeys(("reference", "references", "documents", "doc", "publication"), "document"),
    **dict.fromkeys(("classes", "category", "kind"), "class"),
}
"""What people write for the headings of cases."""


def _declaration(desk: Desk, block: Block) -> Statement:
    try:
        made = declaration(desk, block)
    except Trouble as error:
        d = error.diagnostic
        if d.message != NOT_UNDERSTOOD:
            raise
        first = re.split(r"[\s:]", desk.text[block.head.start : block.head.end])[0].lower()
        if first in _LIKE_CASES or (block.body and first not in HEADINGS):
            known = quoted_list(CASES)
            meant = _LIKE_CASES.get(first) or next(iter(nearest(first, CASES)), "")
            one_each = " Each document has its own: document D1" if meant == "document" else ""
            help = f"did you mean '{meant}'?{one_each}" if meant else f"the headings for cases are {known}"
            raise trouble(d.span, f"'{first}' is no heading", d.cause, help) from None
        near = nearest(first, [h.split()[0] for h in HEADINGS], 1)
        if near and near[0][0] == first[:1] and not d.help.startswith(TAKE_OUT):
            full = next(h for h in HEADINGS if h.split()[0] == near[0])
            raise trouble(d.span, d.message, d.cause, f"did you mean the heading '{full}'?") from None
        raise
    if not isinstance(made.kind, PartKind | StepKind | ListKind | MixtureKind):
        _no_body(desk, block)
    return made


_READERS: dict[str, Callable[[Desk, Block], Statement | None]] = {
    **dict.fromkeys(("title", "profile", "filed", "confidential", "phrases"), _setting),
    "unit": _unit,
    "given": _given,
    "declaration": _declaration,
    "claim": claim_statement,
    **dict.fromkeys(("inside", "must stay out", "document", "class", "description"), cases_statement),
    "policy": policy,
    "define": define,
    "read": read,
    "apart": apart,
    "phrase": phrase,
    "term": term,
    "answered": answered,
    "alike": nouns,
    "inherent": nouns,
}
