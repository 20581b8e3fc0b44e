"""For each line of words that is refused: what to write instead, tried before it is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scopecheck.core.declared import ChoiceDecl, NumberDecl, Step
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.diagnostics import Diagnostic, may_have_an_edit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import CasesStatement, ClaimStatement, Restatement
from scopecheck.language.syntax import Sheet as Written
from scopecheck.matching.lifting import ends_said
from scopecheck.matching.phrase_advice import NOT_READ
from scopecheck.resolve.sheet import resolved
from scopecheck.vocabulary.names import Names

MOST_TRIED = 40
"""So many refused lines of a sheet get an edit that was tried; further ones have the same causes."""

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
        line = f"{self.line.subject_text} : {self.words}  exactly  "
        if not self.reads(Edit(f"{line}...")):
            return d  # its words are not the claim's, or what stands left of the colon is no thing
        form = next(
            (f" such as {shown(f, self.words)}," for f in self.facts() if self.reads(Edit(line + f))), ""
        )
        what = f"put the meaning in symbols for the dots,{form} in this line: {line}..."
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

    def facts(self) -> Iterator[str]:
        """Facts in symbols of the things left of the colon, of which the first that reads shows the form."""
        names, _ = self.resolved(Edit(f"not restated : {self.words}"))
        made: dict[str, object] = {}
        part = ""
        for node in self.line.subject:
            thing = " ".join(node.span.text.split())
            if field := names.field_of(thing):
                (first, *_), own = field
                part = first.name
                made[own] = names.declarations[first.slot(1, own)]
            elif moment := names.moment_of(thing):
                thing = f"highest {moment[1]} of {moment[0].name}"
                made[thing] = names.declared(thing)
            else:
                made[thing] = names.step(thing) or names.declared(thing) or names.mixture(thing)
        for one in self._of_things(made):
            yield f"EVERY {part} ({one})" if part else one

    def _of_things(self, made: Mapping[str, object]) -> Iterator[str]:
        steps = [thing for thing, what in made.items() if isinstance(what, Step)]
        others = {thing: what for thing, what in made.items() if thing not in steps}
        listed = next((t for t, what in others.items() if getattr(what, "members", ())), "")
        members = tuple(getattr(made.get(listed), "members", ()))
        switched = set(members) - {OTHERS} == {"yes", "no"}
        if len(steps) > 1:
            yield from self._apart_in_time(*steps) if len(steps) == 2 else ()
            yield f"ORDER({', '.join(steps)})"
        elif steps and others:
            yield from self._under_conditions(f"DONE({steps[0]})", others)
        elif steps:
            yield f"DONE({steps[0]}), START({steps[0]}) >= {FILLED_IN} min"
            yield f"DONE({steps[0]})"
            yield f"DURATION({steps[0]}) <= {FILLED_IN} min"
        elif switched:
            rest = {thing: what for thing, what in others.items() if thing != listed}
            yield from self._under_conditions(f"{listed} = yes", rest) if rest else ()
            yield f"{listed} = yes"
        elif listed:
            member = next((m for m in members if m.lower() in self.words.lower()), members[0])
            yield f"{listed} = {member}" if isinstance(made[listed], ChoiceDecl) else f"{member} IN {listed}"
        elif others:
            yield from self._of_numbers(others)

    def _apart_in_time(self, one: str, other: str) -> Iterator[str]:
        """How long it is from a step to another, where the words state a number."""
        texts = self.words.lower().split()
        if any(c.isdigit() for c in self.words):
            own = f"START({one})" if _ENDING.isdisjoint(texts) else f"END({one})"
            before = "before" in texts
            ended = {"start", "beginning"}.isdisjoint(texts) if not before else "end" in texts
            its = f"END({other})" if ended else f"START({other})"
            span = f"{its} - {own}" if before else f"{own} - {its}"
            yield _limited(self.words, span, f"{FILLED_IN} min")

    def _under_conditions(self, so: str, rest: Mapping[str, object]) -> Iterator[str]:
        """What is so where a condition holds; which is under which the words may leave open."""
        for one in self._of_things(rest):
            yield f"IF {one.replace(', ', ' AND ')} THEN {so}"

    def _of_numbers(self, made: Mapping[str, object]) -> Iterator[str]:
        things = list(made)
        texts = self.words.lower().split()
        limits = [_limited(self.words, thing, f"{FILLED_IN}{_unit(what)}") for thing, what in made.items()]
        said = set(self.words.lower().replace("%", " % ").split())
        quotient = bool(said & _AS_A_QUOTIENT or _RATIO.search(self.words.lower()))
        if len(things) == 2 and (quotient or said & _BESIDE):
            first = min(
                things, key=lambda t: (f" {self.words} ".lower().find(f" {t.lower()} "), t != things[0])
            )
            over, under = (
                (first, *(t for t in things if t != first)) if _names_both(texts, things) else things
            )
            behind = " ".join(texts[texts.index("by") + 1 :]) if "by" in texts else "turned not round"
            limit = f"{FILLED_IN}{_unit(made[over])}"
            difference = _limited(behind, f"{over} - {under}", limit)
            # 'at most three times' and 'less than a tenth of' are on one side of a quotient.
            of_both = behind if "by" in texts else _TIMES.sub(" ", self.words)
            ways = [_limited(of_both, f"{over} / {under}", FILLED_IN), difference]
            yield from ways if quotient else ways[::-1]
            yield f"{things[0]} <= {FILLED_IN} * {things[1]}"
        yield from (", ".join(limits), *limits)


def _names_both(texts: list[str], things: list[str]) -> bool:
    return all(f" {thing.lower()} " in f" {' '.join(texts)} " for thing in things)


def _limited(words: str, thing: str, limit: str) -> str:
    """The thing within a limit on the side that the words tell; within two, where they tell none or both."""
    texts = words.lower().split()
    said = set[str]()
    for end, run in ends_said(texts):
        if end:
            strictly = "" if _STRICT.isdisjoint(run) or not _MILD.isdisjoint(run) else "strictly "
            said.add(strictly + end)
        elif run[0] in _TURNING:
            said.add("turned round")
    if not _OUTSIDE.isdisjoint(texts) and _DENYING.isdisjoint(texts):
        return f"({thing} < {limit} OR {thing} > {limit})"
    sign = _SIGNS.get(said.pop()) if len(said) == 1 else None
    return f"{thing} {sign} {limit}" if sign else f"{limit} <= {thing} <= {limit}"


def _unit(what: object) -> str:
    """The unit of a number that is not counted, with a blank before it."""
    return f" {what.unit.symbol}".rstrip() if isinstance(what, NumberDecl) and not what.whole else ""


_AS_A_QUOTIENT = frozenset("ratio proportion times twice half % percent per".split())
_RATIO = regex(
    r"\d ?: ?\d|\b(?:half|thirds?|quarters?|fifths?|sixths?|sevenths?|eighths?|ninths?|tenths?|hundredths?"
    r"|thousandths?|millionths?) (?:of|that|the|this|its)\b"
)
_TIMES = regex(r"\b(?:once|twice|times)\b")
_BESIDE = _AS_A_QUOTIENT | frozenset(
    "by than difference differ differs from exceeds exceed exceeding".split()
)
_SIGNS = {"most": "<=", "least": ">=", "strictly most": "<", "strictly least": ">"}
_STRICT = frozenset("than below under above over exceeding exceeds excess".split())
_MILD = frozenset("or not no".split())
_TURNING = frozenset(
    "not no never nor neither hardly scarcely barely without unless except excepting other different by"
    " once twice times every".split()
)
"""With these the side is another, or nothing tells it: at least once an hour is within an hour."""
_OUTSIDE = frozenset("outside beyond neither".split())
_DENYING = frozenset("not no never".split())
_ENDING = frozenset("ends ending ended stops stopped finished finishes completed".split())
FILLED_IN = "7919"
"""A number that no claim has, in place of which dots are shown."""


def shown(facts: str, words: str) -> str:
    """Facts with dots for what is to be filled in: a whole formula may say the opposite of the words.

    What stands under which condition is shown where the words have one and nothing turns it round.
    """
    form = facts.replace(FILLED_IN, "...")
    condition, under, _ = form.partition(" THEN ")
    if under:
        said = set(words.lower().split())
        plain = not said.isdisjoint(_CONDITIONS) and said.isdisjoint(_TURNING | _LIFTING)
        so = (
            f"{form[len(condition + under) :].partition(' = ')[0]} = ..."
            if form.endswith(" = yes")
            else "..."
        )
        return f"{condition} THEN {so}" if plain else "IF ... THEN ..."
    if form.startswith("ORDER("):
        return f"ORDER({', '.join('...' for _ in form.split(', '))})"
    if " IN " in form and "..." not in form:
        return f"... IN {form.rpartition(' IN ')[2]}"
    return form if "..." in form else f"{form.partition(' = ')[0]} = ..."


_CONDITIONS = frozenset("if when whenever where while once upon".split())
_LIFTING = frozenset(
    "only until till may can could might need needs partly prevents prevent prevented preventing inhibits"
    " avoids otherwise either whether stops allowed permitted".split()
)
_IN_SYMBOLS = regex(
    r"(?:; or |; then |; else )?(?:(?:write|give) (?:the meaning|it|the states that are meant) )?"
    r"(?:in symbols|behind the words)(?: after the words)?: two blanks, exactly.*$"
    r"|(?:; or |, or )?write the meaning in symbols(?: after the words)?[^;]*$"
)
_IN_SYMBOLS_TOO = regex(r"; or write the meaning in symbols after the words: two blanks, exactly, facts.*$")
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
    elif (m := _EXACTLY.search(help)) and "..." not in m["facts"]:
        yield Edit(f"{left} : {words}  exactly  {m['facts']}")


def _end_of(text: str, end: int) -> int:
    """Where the line ends, with what stands behind its words."""
    found = text.find("\n", end)
    return len(text) if found < 0 else found
