"""A sheet whose text was edited: what is proposed for words that no line restates yet."""

from __future__ import annotations

from scopecheck.drafting.abbreviated import without_points, words_without_points
from scopecheck.drafting.choices import choices
from scopecheck.drafting.claim_limits import by_its_basis, named_by_kind
from scopecheck.drafting.conditional import held_spans, without_held
from scopecheck.drafting.draft import INDENT, DraftClaim, Quantity
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.limits import Stretch, stretches, with_closing
from scopecheck.drafting.lines import propose_lines
from scopecheck.drafting.naming import Called, called
from scopecheck.drafting.no_limits import limits_nothing
from scopecheck.drafting.pasted import is_text
from scopecheck.drafting.quantities import declare, undeclared
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.reference_values import reference_values
from scopecheck.drafting.some_of import of_some, some_of
from scopecheck.drafting.turned import turned_spans
from scopecheck.drafting.whole import kept_whole
from scopecheck.drafting.work import Work
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import HEADINGS, Page, blocks
from scopecheck.language.scan import Own
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import ClaimStatement, Declare, Mark, Restatement
from scopecheck.report.wording import quoted, sentence
from scopecheck.resolve.account import digits_at
from scopecheck.resolve.amounts import inside_amounts
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.claims import numbers_in
from scopecheck.resolve.dependencies import references
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Names

_BAR = regex(r"^\s*\|", 8)
_SETTING = regex(r"^(?:profile|filed)(?:\s+|\s*:\s*)\w", 8)
"""A line that stands in a sheet and in no claim (8: at the start of any line)."""


def is_sheet(text: str) -> bool:
    """Whether a text is a sheet already: it has a line with a bar, a profile, or says whether it is filed.

    Claims under nothing but such a profile, a title and the like are pasted ones.
    """
    if _BAR.search(text) or not _SETTING.search(text):
        return bool(_BAR.search(text))
    return not is_text(text) or any(b.heading in _STATED for b in blocks(Page(Source("", text)))[0])


_STATED = frozenset(HEADINGS) - {"title", "profile", "filed"}
"""What begins a statement that no text of claims has."""


def proposed_anew(source: Source) -> str:
    """Declarations and lines for limits that no line restates, and the lines whose words are gone."""
    written, _ = parse_sheet(source)
    declared = tuple(s for s in written.statements if isinstance(s, Declare))
    claims = [s for s in written.statements if isinstance(s, ClaimStatement)]
    names, quantities = declare(declared), list[Quantity]()
    gone: list[str] = []
    works = [_work(s, [c.number for c in claims], dict(written.own_units), gone) for s in claims]
    for work in works:
        work.of = [_quantity(what, stretch, names, quantities) for stretch, what in work.limits]
    without_held(works)
    for work in works:
        work.unread += [(one.start, one.end) for one in work.conditioned]
    quantities += undeclared(works, names, quantities)
    names = declare((*declared, *_declarations(quantities)))
    readable = Readable(names, Phrasebook(()))
    for work in works:
        propose_lines(work, readable, dict(written.own_units), timed=bool(names.steps))
    return _text(source, works, quantities, gone)


def _declarations(quantities: list[Quantity]) -> tuple[Declare, ...]:
    lines = "".join(f"{q.name}  {q.kind}\n" for q in quantities)
    written, _ = parse_sheet(Source("proposed", lines))
    return tuple(s for s in written.statements if isinstance(s, Declare))


def _work(statement: ClaimStatement, known: list[int], own: Own, gone: list[str]) -> Work:
    """The claim with what its lines take of its text; lines whose words it no longer has are noted."""
    text = without_points(ClaimText.of(statement.pieces))
    text.inside = inside_amounts(text, own)
    start, end = statement.pieces[0].start, statement.pieces[-1].end
    found = references(text.source.text[start:end], statement.number, known)
    places = tuple((start + r.start, start + r.end) for r in found)
    text.refer(places)
    exact = [x.exact for x in statement.lines if isinstance(x, Restatement) and x.exact is not None]
    numbers = [node.number for facts in exact for node in numbers_in(facts)]
    stated = {number.text for number in numbers}
    for line in statement.lines:
        words = line.words
        if words is None:
            continue
        try:
            text.take(
                words_without_points(words.text), words.span, statement.number, mark=isinstance(line, Mark)
            )
        except Trouble:
            gone.append(sentence(
                "start", "anew_gone", claim=statement.number, words=quoted(words.text), line=words.span.line
            ))  # fmt: skip
    limits = [(s, named_by_kind(called(text, s), s)) for s in stretches(text, {}) if not s.condition]
    open_ = [
        (s, c)
        for s, c in limits
        if c.noun
        and not text.taken.issuperset(range(s.starts[-1], s.end))
        and not stated.issuperset(digits_at(text.tokens, f.digits) for f in s.figures)
    ]
    said = [c for c in choices(text) if not text.taken.issuperset(range(c.start, c.end))]
    open_, begins, many = of_some(text, some_of(text), open_)
    nothing = {
        s.start: of for s, c in open_ if s.start not in begins and (of := limits_nothing(text, s, c))[1]
    }
    nothing |= reference_values(text, [s for s, _ in open_])
    whole = [*kept_whole(text, open_), *many]
    nothing |= {s.start: (a, b) for s, _ in open_ for a, b in whole if a <= s.starts[0] < b}
    kept = [by_its_basis(text, with_closing(text, s), c) for s, c in open_ if s.start not in nothing]
    work = Work(DraftClaim(statement.number, text.text), text, places, kept, said, numbers=numbers)
    firsts = {*begins.values(), *(begin for begin, _ in many)}
    turned = turned_spans(text, [s for s, _ in open_])
    work.held = [*held_spans(text), *(h for h in turned if h.first not in firsts)]
    work.some, work.whole = begins, whole
    work.unread = list(dict.fromkeys(nothing.values()))
    return work


def _quantity(what: Called, stretch: Stretch, names: Names, made: list[Quantity]) -> Quantity:
    """The declared quantity that the words name; else a proposal for one."""
    for name in (f"{what.ordinal} {what.noun}".strip(), f"{what.owner} {what.noun}".strip(), what.noun):
        if names.declared(name) is not None:
            return Quantity(name, "", what.noun, what.owner)
    for quantity in made:
        if quantity.noun == what.noun and quantity.kind == kind_text(what, stretch.unit):
            return quantity
    made.append(Quantity(what.noun, kind_text(what, stretch.unit), what.noun, what.owner))
    return made[-1]


def _text(source: Source, works: list[Work], quantities: list[Quantity], gone: list[str]) -> str:
    lines = [f"# {line}" for line in gone]
    used = {line.name for work in works for line in work.claim.lines}
    declared = [q.line() for q in quantities if q.name in used]
    if declared:
        lines += ["", f"# {sentence('start', 'anew_declare')}", *declared]
    for work in works:
        if work.claim.lines:
            lines += ["", f"# {sentence('start', 'anew_claim', claim=work.claim.number)}"]
            lines += [f"{INDENT}| {line.line}" for line in work.claim.lines]
    if not lines:
        return sentence("start", "anew_nothing") + "\n"
    return "\n".join([f"# {sentence('start', 'anew_begun', source=source.name)}", *lines]) + "\n"
