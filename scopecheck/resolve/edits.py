"""For each line of words that is refused: what to write instead, tried before it is told."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Diagnostic, may_have_an_edit
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source
from scopecheck.foundations.word_lists import words as word_list
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import CasesStatement, ClaimStatement, Restatement
from scopecheck.language.syntax import Sheet as Written
from scopecheck.matching.lifting import only_names
from scopecheck.matching.phrase_advice import NOT_READ
from scopecheck.resolve.offered import forms
from scopecheck.resolve.sheet import resolved
from scopecheck.vocabulary.names import Names

MOST_TRIED = 40
"""So many refused lines of a sheet get an edit that was tried; further ones have the same causes."""

MOST_CUT = 4
"""So many places are tried at which words end behind a limit."""

MOST_THINGS = 3
"""So many more things that the words name are tried left of the colon."""


@record
class Edit:
    """A line instead of the refused one, a mark below it, and a declaration before the claims."""

    line: str
    mark: str = ""
    declared: str = ""


def with_edits_tried(
    source: Source, diagnostics: tuple[Diagnostic, ...], phrases: tuple[Source, ...] = ()
) -> tuple[Diagnostic, ...]:
    """The diagnostics, each of a line of words with an edit that reads; others as they are."""
    written, _ = parse_sheet(source)
    lines = tuple(
        x
        for claim in written.statements
        if isinstance(claim, ClaimStatement)
        for x in claim.lines
        if isinstance(x, Restatement) and x.words is not None and x.subject
    )
    found, tried = list[Diagnostic](), 0
    for d in diagnostics:
        at = next((x for x in lines if d.span.source is source and _holds(x, d)), None)
        if at is None or not may_have_an_edit(d) or at.readings or at.exact or tried >= MOST_TRIED:
            found.append(d)
            continue
        tried += 1
        found.append(_Trial(source, written, phrases, at).told(d))
    return tuple(found)


def _holds(line: Restatement, d: Diagnostic) -> bool:
    assert line.words is not None
    return line.words.span.start <= d.span.start and d.span.end <= line.span.end


class _Trial:
    """One refused line, and what is tried in its place."""

    def __init__(
        self, source: Source, written: Written, phrases: tuple[Source, ...], line: Restatement
    ) -> None:
        self.source, self.written, self.phrases, self.line = source, written, phrases, line
        assert line.words is not None
        self.words = line.words.text

    def told(self, d: Diagnostic) -> Diagnostic:
        """The diagnostic with a help that reads."""
        edits = tuple(_written_in(d, self.line))
        if cure := next((e for e in edits if self.reads(e)), None):
            in_symbols = "  exactly  " in cure.line and not cure.declared
            return replace(d, help=f"write: {cure.line}" if in_symbols else _IN_SYMBOLS_TOO.sub("", d.help))
        if d.severity != "error":
            return replace(d, help="") if edits else d
        others = () if d.message.startswith(NOT_READ) else tuple(self.with_another_thing())[:MOST_THINGS]
        if other := next((e for e in others if self.reads(e)), None):
            return replace(d, help=f"write: {other.line}")
        prose = "" if edits else _IN_SYMBOLS.sub("", d.help).strip("; ")
        prose = "" if prose.endswith(", write") else prose
        if shorter := next(((e, lost) for e, lost in self.shorter() if self.reads(e)), None):
            edit, lost = shorter
            prose = f"if '{lost}' does not change what is limited, lift only: {edit.line.partition(' : ')[2]}"
            prose += f"; and mark the rest: not restated : {edit.mark}" if edit.mark else ""
        line = f"{self.line.subject_text} : {self.words}  exactly  "
        if not self.reads(Edit(f"{line}...")):
            return d  # its words are not the claim's, or what stands left of the colon is no thing
        names, _ = self.resolved(Edit(f"not restated : {self.words}"))
        offered = forms(names, tuple(" ".join(n.span.text.split()) for n in self.line.subject), self.words)
        form = next((f" such as {f.shown}," for f in offered if self.reads(Edit(line + f.tried))), "")
        if "between" in self.words.lower() and _TWO_ENDED.search(form):
            form += " with < for an end that is left out,"
        dots = f"the dots,{form} in" if form else "the dots behind 'exactly' in"
        what = f"put the meaning in symbols for {dots} this line: {line}..."
        return replace(d, help="; or ".join(filter(None, (prose, what))))

    def reads(self, edit: Edit) -> bool:
        """Is nothing wrong with the edited line, in the claim as it stands?"""
        _, wrong = self.resolved(edit)
        return not wrong

    def resolved(self, edit: Edit) -> tuple[Names, list[Diagnostic]]:
        """The names of the sheet with this edit, and what is wrong with the edited line."""
        text, span = self.source.text, self.line.span
        first = next(s.span.start for s in self.written.statements if isinstance(s, ClaimStatement))
        first = text.rfind("\n", 0, first) + 1
        before = f"{edit.declared}\n\n" if edit.declared else ""
        new = edit.line + (f"\n   | not restated : {edit.mark}" if edit.mark else "")
        behind = text[_end_of(text, span.end) :]
        changed = text[:first] + before + text[first : span.start] + new + behind
        start = span.start + len(before)
        end = start + len(new)

        def is_here(at: int) -> bool:
            return start <= at <= end or first <= at < first + len(before)

        written, wrong = parse_sheet(Source(self.source.name, changed))
        kept = tuple(
            replace(s, lines=tuple(x for x in s.lines if is_here(x.span.start)))
            if isinstance(s, ClaimStatement)
            else s
            for s in written.statements
            if not isinstance(s, CasesStatement)
        )
        names, more = resolved(replace(written, statements=kept), self.phrases)
        return names, [d for d in (*wrong, *more) if d.severity == "error" and is_here(d.span.start)]

    def shorter(self) -> Iterator[tuple[Edit, str]]:
        """Shorter stretches of the words that keep each word of the limit, and what each leaves out.

        What is measured stands before the limit, of what or at which value of another thing behind it.
        """
        words, left = self.words.split(), self.line.subject_text
        first = next((i for i, w in enumerate(words) if w[:1].isdigit()), 0)
        if "," in left or not any(w[:1].isdigit() for w in words):
            return
        names, _ = self.resolved(Edit(f"not restated : {self.words}"))
        own = frozenset(f"{left} {names.note_of(left)}".lower().split())
        named = {w for name in names.all() for w in name.lower().split()}
        others = frozenset(named - own)
        said = [w.strip(",;").lower() for w in words]
        fits = (i for i in range(first, -1, -1) if only_names(said[:i], own, others))
        starts = sorted({0, max(fits, default=0)})
        ends = [len(words)]
        for end in range(len(words) - 1, first, -1):
            of_a_share = said[end] == "of" and _BARE_SHARE.search(said[end - 1])
            if (
                said[end] in _OF_ANOTHER
                and not of_a_share
                and _is_aside(said[end:], names.declared(left), own, others)
            ):
                ends.append(end)
        for end in ends[:MOST_CUT]:
            for start in starts:
                if (start, end) != (0, len(words)):
                    mark = " ".join(words[end:])
                    lost = " ".join((words[:start] + ["..."] * bool(start and mark)) + words[end:])
                    yield Edit(f"{left} : {' '.join(words[start:end]).rstrip(',')}", mark), lost

    def with_another_thing(self) -> Iterator[Edit]:
        """The line with one more thing left of its colon, which its words name."""
        names, _ = self.resolved(Edit(f"not restated : {self.words}"))
        said, left = set(self.words.lower().split()), self.line.subject_text
        things = [d.name for d in names.declarations.values() if not names.one_of(d.name)]
        things += [f"{own} of {s.name}" for s in names.steps.values() for own in s.fields]
        taken = {part.strip() for part in left.split(",")}
        for thing in things:
            named = set(thing.lower().partition(" of ")[0].split())
            if named <= said and thing not in taken:
                yield Edit(f"{left}, {thing} : {self.words}")


def _is_aside(said: list[str], made: object, own: frozenset[str], others: frozenset[str]) -> bool:
    """`of the acid`, `at about 45 minutes`: no limit of the thing; numbers are of another kind than it is."""
    kind, leads = made.kind if isinstance(made, NumberDecl) else None, said[0]
    idle, plain = word_list("degree", "nearness") | _OF_ANOTHER, list[str]()
    for word, behind in pairwise((*said[1:], "")):
        leads = word if word in _OF_ANOTHER else leads
        if word[:1].isdigit():
            unit = find_unit(behind) or find_unit(word.lstrip("0123456789.,"))
            if leads == "of" or kind is None or unit is None or unit.kind.dimension in ((), kind.dimension):
                return False
        elif word not in idle and not find_unit(word):
            plain.append(word)
    return only_names(plain, own, others)


_BARE_SHARE = regex(r"(?:^|\d)%$|^percent$|^cent$|^half$|^thirds?$|^quarters?$")
"""Of what a bare share is one tells how much it is."""
_OF_ANOTHER = frozenset("of at by in after within during under".split())
"""Behind a limit these begin what it is of, and when or how it is measured."""

_IN_SYMBOLS = regex(
    r"(?:; or |; then |; else )?(?:(?:write|give) (?:the meaning|it|the states that are meant) )?"
    r"(?:in symbols|behind the words)(?: after the words)?: two blanks, exactly.*$"
    r"|(?:; or |, or )?write the meaning in symbols(?: after the words)?[^;]*$"
)
_IN_SYMBOLS_TOO = regex(r"; or write the meaning in symbols after the words: two blanks, exactly, facts.*$")
_TWO_ENDED = regex(r"<= [^,]+ <=")
_LIFT = regex(
    r"lift only: (?P<words>.+?)(?:; and mark the rest: not restated : (?P<mark>.+?))?(?:; (?:or|else) .*)?$"
)
_LIFT_MORE = regex(r"lift these as well: (?P<words>.+)$")
_WRITE = regex(
    r"(?:declare (?:it, as in|that share): (?P<declared>.+?); and )?"
    r"(?:write|left of the colon):? (?P<line>[^:]+ : .+?)(?:, or leave out .*|; or .*)?$"
)
_DECLARE = regex(r"declare it under this name: (?P<declared>.+?)(?:; .*)?$")
_MEANT = regex(r"did you mean '(?P<word>[^']+)'")
_EXACTLY = regex(r"two blanks, exactly,? (?P<facts>(?!facts)[^.;]+?)(?:; .*)?$")


def _written_in(d: Diagnostic, line: Restatement) -> Iterator[Edit]:
    """The edits that a help has in full."""
    left, help = line.subject_text, d.help
    assert line.words is not None
    words = line.words.text
    if m := _LIFT.search(help):
        yield Edit(f"{left} : {m['words']}", m["mark"] or "")
    elif m := _LIFT_MORE.search(help):
        yield Edit(f"{left} : {m['words']}")
    elif (m := _WRITE.search(help)) and "..." not in left:
        yield Edit(m["line"], declared=m["declared"] or "")
    elif m := _DECLARE.search(help):
        yield Edit(line.text, declared=m["declared"])
    elif m := _MEANT.search(help):
        text, start = line.span.text, d.span.start - line.span.start
        yield Edit(text[:start] + m["word"] + text[start + len(d.span.text) :])
    elif (m := _EXACTLY.search(help)) and "..." not in m["facts"] and _names_all(m["facts"], left):
        yield Edit(f"{left} : {words}  exactly  {m['facts']}")


def _names_all(facts: str, left: str) -> bool:
    """Do the facts name all that stands left of the colon? A condition on another thing is lost otherwise."""
    said = f" {' '.join(facts.replace('(', ' ').replace(')', ' ').split())} "
    return all(f" {' '.join(thing.split())} " in said for thing in left.split(","))


def _end_of(text: str, end: int) -> int:
    """Where the line ends, with what stands behind its words."""
    found = text.find("\n", end)
    return len(text) if found < 0 else found
