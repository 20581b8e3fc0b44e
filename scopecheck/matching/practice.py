"""The phrases of a practice: a file beside the sheet, in the catalogue's language and held to its rules."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import product
from pathlib import Path, PurePosixPath, PureWindowsPath

from scopecheck.foundations.diagnostics import Diagnostic, Trouble, did_you_mean, quoted_list, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.parse import parse_facts
from scopecheck.language.statements import parse_phrases, read_file
from scopecheck.language.syntax import PhraseStatement, Raw, Setting
from scopecheck.occurrences.occurrence import names_of
from scopecheck.vocabulary.entry import OWN_TAG, TAGS, Entry, EntryReading, entry
from scopecheck.vocabulary.patterns import Literals, Pattern

FILE = "phrase file"
FEWEST_READINGS = 2


@record
class Loaded:
    """A phrase file: its phrases, and what is wrong with them."""

    entries: tuple[Entry, ...]
    wrong: tuple[Diagnostic, ...]


def beside(sheet: Source, setting: Setting) -> Source:
    """The text of the phrase file that a sheet names. Raises Trouble at that line of the sheet."""
    name = setting.value
    paths = PurePosixPath(name), PureWindowsPath(name)
    if any(p.anchor for p in paths) or any(".." in p.parts for p in paths):
        raise trouble(
            setting.span, f"'{name}' is not in the folder of the sheet",
            "A sheet uses a phrase file of its own folder, or of a folder in it.",
            "put the file beside the sheet and write its name, such as: phrases house.phrases",
        )  # fmt: skip
    source, wrong = read_file(Path(sheet.name).parent / name, FILE)
    for diagnostic in wrong:
        raise trouble(setting.span, f"{diagnostic.message}: '{name}'", diagnostic.cause, diagnostic.help)
    assert source is not None
    return source


@cache
def loaded(source: Source) -> Loaded:
    """The phrases of a file, each held to what the phrases of the catalogue are held to."""
    statements, told = parse_phrases(source)
    wrong = list(told)
    made: list[Entry] = []
    for statement in statements:
        try:
            made.append(entry(statement, source.name))
        except Trouble as error:
            wrong.append(error.diagnostic)
            continue
        for check in (_fields, _readings, _formulas, _placeholders):
            wrong += check(made[-1])
    wrong += _twice(made)
    return Loaded(tuple(made), tuple(wrong))


def _error(span: Span, message: str, help: str, cause: str = "") -> Diagnostic:
    return Diagnostic("error", span, message, cause, help)


# ---- every field is there


def _fields(e: Entry) -> Iterator[Diagnostic]:
    statement = e.statement
    if not e.sources:
        help = f'write source "house glossary" : {OWN_TAG}'
        yield _error(e.span, "a phrase without a source", help, "Each phrase tells what it rests on.")
    for source in e.sources:
        if source.tag not in (*TAGS, OWN_TAG):
            known = (*TAGS, OWN_TAG)
            help = did_you_mean(source.tag, known) or f"write : {OWN_TAG}"
            cause = f"The tags are {quoted_list(known)}."
            yield _error(_place(statement, source.tag), f"'{source.tag}' is no tag of a source", help, cause)
    if not e.exact_wording:
        help = 'write exact wording "at least {L}", with the letters of the phrase in braces'
        yield _error(e.span, "a phrase without a more exact wording", help)
    if not statement.presumed and not any(r.written.standings for r in e.readings):
        help = 'write presumed US : "label", or presumed US : none, and the same for EPO'
        yield _error(e.span, "nothing says which reading is presumed", help)


def _place(statement: PhraseStatement, text: str) -> Span:
    """Where a text of a field below the phrase stands; the phrase itself where it is broken over lines."""
    source = statement.span.source
    at = source.text.find(text, statement.readings[0].span.start)
    return Span(source, at, at + len(text)) if text and at >= 0 else statement.span


def _readings(e: Entry) -> Iterator[Diagnostic]:
    if len(e.readings) < FEWEST_READINGS:
        help = "add the other reading, or write the meaning in symbols where the words stand, after exactly"
        yield _error(e.span, "a phrase with one reading", help, "A phrase has two readings or more.")
    for reading in e.readings:
        if not reading.taken_by:
            help = 'write below it: taken by "a competitor"'
            yield _error(reading.written.span, f"nothing says who takes the reading '{reading.label}'", help)


def _placeholders(e: Entry) -> Iterator[Diagnostic]:
    slots = set.intersection(*({s.name for s in p.slots} for p in e.patterns))
    for text in (e.exact_wording, e.ask, *(r.exact_wording for r in e.readings)):
        for name in dict.fromkeys(re.findall(r"{(\w+)}", text)):
            if name not in slots:
                help = f"the letters of every wording are: {', '.join(sorted(slots)) or 'none'}"
                span = _place(e.statement, f"{{{name}}}")
                yield _error(span, f"'{{{name}}}' stands for nothing in the phrase", help)


# ---- every formula means something


def _formulas(e: Entry) -> Iterator[Diagnostic]:
    for reading in e.readings:
        free = (raw for f in reading.written.free for raw in (f.like, *f.bounds, f.presumed))
        for raw in (reading.formula, *reading.written.only_when, *free):
            if raw is not None:
                yield from _formula(e, raw, reading)
    if e.where is not None:
        yield from _formula(e, e.where)


def _formula(e: Entry, raw: Raw, reading: EntryReading | None = None) -> Iterator[Diagnostic]:
    """What is wrong with a formula: it cannot be read, or a letter in it is none of a wording."""
    free = {f.name for f in reading.written.free} if reading else set()
    known = {"others", "none"} | e.bound_names | free
    bound = {f"({name})" for name in e.bound_names - {"x"}}
    try:
        named = {n.name: n for n in names_of(parse_facts(raw.page, raw.start, raw.end, {}))}
    except Trouble as error:
        yield error.diagnostic
        return
    for name, node in named.items():
        if name not in known:
            letters = ", ".join(sorted((e.bound_names | free) - {"x"}))
            help = f"the letters here are: {letters}, and x for what is measured" if letters or bound else (
                "x is what is measured; a number of the words has its letter in brackets, as in (L)"
            )  # fmt: skip
            cause = "A phrase file serves many sheets and knows none of their names."
            yield _error(node.span, f"'{name}' is none of the phrase's letters", help, cause)
            continue
        for p in e.patterns:
            if _is_missing(e, p, name):
                help = f"give that wording the letter too: ({name})"
                yield _error(node.span, f"the wording '{p.plain}' has no ({name})", help)


def _is_missing(e: Entry, p: Pattern, name: str) -> bool:
    slots = {s.name for q in e.patterns for s in q.slots} - set(e.subjects)
    return name in slots and name not in {s.name for s in p.slots}


# ---- no wording belongs to two phrases


def _twice(made: list[Entry]) -> Iterator[Diagnostic]:
    owners: dict[tuple[str, ...], list[Entry]] = {}
    told: set[Entry] = set()
    for e in made:
        for words in dict.fromkeys(w for p in e.patterns for w in _wordings(p)):
            others = owners.setdefault(words, [])
            rival = next((o for o in others if o is not e and _meet(o, e)), None)
            if rival and e not in told:
                told.add(e)
                message = f"two phrases have the wording '{' '.join(words)}'"
                also = ((rival.span, "the first"),)
                yield Diagnostic("error", e.span, message, "", "take the wording out of one of them", also)
            others.append(e)


def _meet(one: Entry, other: Entry) -> bool:
    """Whether both phrases are for some of the same things."""
    kinds = not one.only_for or not other.only_for or set(one.only_for) & set(other.only_for)
    return bool(kinds) and one.takes(one.patterns[0]) == other.takes(other.patterns[0])


def _wordings(p: Pattern) -> Iterator[tuple[str, ...]]:
    """Every way to write a pattern, what fills a slot told by its kind."""
    choices: list[list[tuple[str, ...]]] = []
    for element in p.elements:
        if isinstance(element, Literals):
            choices.append([*element.options, ()] if element.optional else list(element.options))
        else:
            choices.append([(f"({element.kind} {element.joiner})".replace(" )", ")"),)])
    for parts in product(*choices):
        yield tuple(word.lower() for part in parts for word in part if word != ",")
