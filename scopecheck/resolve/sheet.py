"""From a sheet's text to the typed core: names, units, kinds, phrases. Mistakes are reported in one go."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal, TypeVar

from scopecheck.core.model import Case, Claim, Given, Limitation, Settled, Sheet
from scopecheck.exact.formulas import context, facts
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.parse import parse_facts
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import (
    ApartStatement,
    CasesStatement,
    ClaimStatement,
    Declare,
    DefineStatement,
    GivenStatement,
    Node,
    PhraseStatement,
    PolicyStatement,
    ReadStatement,
    Setting,
    TermStatement,
    UnitStatement,
)
from scopecheck.language.syntax import Sheet as Written
from scopecheck.matching.practice import beside, loaded
from scopecheck.occurrences.alike import with_words_alike
from scopecheck.occurrences.groups import CLAIMS, Groups, groups_in
from scopecheck.occurrences.occurrence import names_of
from scopecheck.occurrences.settling import wrong_settlings
from scopecheck.resolve.account import turned_round, unrestated
from scopecheck.resolve.beside_lines import beside_lines
from scopecheck.resolve.case_desk import CasesDesk
from scopecheck.resolve.cases import cases
from scopecheck.resolve.claims import ClaimsDesk, claims
from scopecheck.resolve.declared import declare_all, noun
from scopecheck.resolve.initials import noted
from scopecheck.resolve.not_compared import not_compared
from scopecheck.resolve.stated import foreign_numbers
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.compositions import tied
from scopecheck.vocabulary.definitions import definition
from scopecheck.vocabulary.entry import Entry, entry
from scopecheck.vocabulary.names import Names
from scopecheck.vocabulary.parts import plural_of
from scopecheck.vocabulary.steps import given_of

S = TypeVar("S")


def read_sheet(
    source: Source, phrases: tuple[Source, ...] = ()
) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    """The sheet's meaning, or None where something is wrong; every diagnostic, in the order of the text.

    `phrases` are phrase files for the sheet beside the one that it names.
    """
    written, found = parse_sheet(source)
    wrong = list(found)
    sheet = _Resolving(written, wrong, phrases).sheet()
    wrong = _without_consequences(written, wrong)
    ordered = tuple(sorted(wrong, key=lambda d: (d.span.source.name != source.name, d.span.start)))
    ordered = tuple(dict.fromkeys(ordered))
    return (None if any(d.severity == "error" for d in wrong) else sheet), ordered


def resolved(written: Written, phrases: tuple[Source, ...] = ()) -> tuple[Names, list[Diagnostic]]:
    """The names of a sheet as written, and what is wrong with its statements."""
    wrong = list[Diagnostic]()
    resolving = _Resolving(written, wrong, phrases)
    resolving.sheet()
    return resolving.names, wrong


def _without_consequences(written: Written, wrong: list[Diagnostic]) -> list[Diagnostic]:
    """Without names that are unknown only because their declaration has a mistake of its own."""
    called = {form for name in written.failed_names for form in (name, plural_of(name))}

    def follows(d: Diagnostic) -> bool:
        """Like parts are called by their plural too, and in 'the length of the pins'."""
        unknown = _NOT_DECLARED.fullmatch(d.message.lower())
        return unknown is not None and unknown[1] in called

    declared = any(d.severity == "error" and not follows(d) for d in wrong)
    return [d for d in wrong if not declared or not follows(d)]


_NOT_DECLARED = regex(r"'(?:[^']* of (?:the|each) )?([^']*)' is not declared")


class _Resolving:
    def __init__(self, written: Written, wrong: list[Diagnostic], phrases: tuple[Source, ...]) -> None:
        self.written, self.wrong, self.phrase_files = written, wrong, phrases
        self.names = Names(own=dict(written.own_units), failed=written.failed_names)
        settings = {s.key: s for s in self.all(Setting)}
        self.settings = {key: s.value for key, s in settings.items()}
        profile = self.settings.get("profile", "US")
        self.groups = Groups(
            "US examination" if profile == "US" else profile,
            tuple(self.all(PolicyStatement)),
            tuple(self.all(ReadStatement)),
            tuple(self.all(ApartStatement)),
        )

    def all(self, kind: type[S]) -> list[S]:
        return [s for s in self.written.statements if isinstance(s, kind)]

    def sheet(self) -> Sheet:
        self.once()
        declare_all(tuple(noted(self.all(Declare), self.recited())), self.names, self.wrong)
        made_up = tuple(self.names.compositions.values())
        self.definitions()
        self.nouns()
        self.defined_nouns()
        own = [*self.own_phrases(), *self.practice()]
        givens = (*self.givens(), *(g for made in made_up for g in tied(made)))
        desk = ClaimsDesk(self.names, self.groups, Phrasebook(tuple(own)), self.wrong)
        made = claims(desk, tuple(self.all(ClaimStatement)))
        if not made and not self.wrong:
            self.error(
                Span(self.written.page.source, 0, 1), "the sheet has no claim", "number the claims: 1. ..."
            )
        cases_desk = CasesDesk(self.names, self.groups, desk.phrases, made, self.wrong)
        found = cases(cases_desk, tuple(self.all(CasesStatement)))
        self.contradictions(found, made, cases_desk)
        whole = not any(d.severity == "error" for d in self.wrong)
        self.wrong += wrong_settlings(self.groups, whole)
        finished = self.finished(made, found, givens, desk)
        if whole:
            self.wrong += not_compared(finished)
        return finished

    def recited(self) -> str:
        """The text of all the claims."""
        return "\n".join(p.text for claim in self.all(ClaimStatement) for p in claim.pieces)

    def error(self, span: Span, message: str, help: str = "", cause: str = "") -> None:
        self.wrong.append(Diagnostic("error", span, message, cause, help))

    def once(self) -> None:
        """Settings and units stand once."""
        seen: dict[str, Span] = {}
        for setting in self.all(Setting):
            if setting.key in seen:
                also = ((seen[setting.key], "the first"),)
                self.wrong.append(
                    Diagnostic("error", setting.span, f"'{setting.key}' is given twice", also=also)
                )
            seen.setdefault(setting.key, setting.span)
        assert all(u.unit.symbol in self.names.own for u in self.all(UnitStatement))

    def definitions(self) -> None:
        """Definitions, each checked by itself; a defined noun that no term declares becomes one."""
        made = []
        terms = {statement.noun.lower() for statement in self.all(TermStatement)}
        terms |= {d.wording.lower() for d in self.all(DefineStatement) if d.amount}
        for statement in self.all(DefineStatement):
            try:
                made.append(definition(statement))
                raw = statement.reading.formula
                assert raw
                node = parse_facts(raw.page, raw.start, raw.end, self.names.own)
                self.known_names(node, made[-1].entry, set(), terms)
            except Trouble as error:
                self.wrong.append(error.diagnostic)
        self.groups.definitions = tuple(made)

    def defined_nouns(self) -> None:
        """Nouns that are defined and that no term declares."""
        for d in self.groups.definitions:
            name = d.statement.wording
            if not d.noun or d.name in self.names.nouns:
                continue
            if self.names.declared(name) is not None:
                self.error(
                    d.statement.span, f"'{name}' is declared as something measured",
                    "declare it as a term with its readings, or give the claim's noun another name",
                    "A definition says which declared thing a noun stands for.",
                )  # fmt: skip
                continue
            bare = TermStatement(name, "", (), d.statement.span)
            self.names.nouns[d.name] = noun(bare, self.names, self.groups)

    def nouns(self) -> None:
        for statement in self.all(TermStatement):
            if self.names.declared(statement.noun) is not None or statement.noun.lower() in self.names.nouns:
                self.error(statement.span, f"'{statement.noun}' is declared twice")
                continue
            try:
                for reading in statement.readings:
                    if reading.formula:
                        raw = reading.formula
                        parse_facts(raw.page, raw.start, raw.end, self.names.own)
                self.names.nouns[statement.noun.lower()] = noun(statement, self.names, self.groups)
            except Trouble as error:
                self.wrong.append(error.diagnostic)

    def own_phrases(self) -> list[Entry]:
        made: list[Entry] = []
        for statement in self.all(PhraseStatement):
            try:
                made.append(entry(statement))
                for reading in statement.readings:
                    for raw in (reading.formula, *reading.only_when):
                        if raw is not None:
                            node = parse_facts(raw.page, raw.start, raw.end, self.names.own)
                            self.known_names(node, made[-1], {f.name for f in reading.free})
            except Trouble as error:
                self.wrong.append(error.diagnostic)
        return made

    def practice(self) -> list[Entry]:
        """The phrases of the practice's files: those given, and the one that the sheet names."""
        for setting in self.all(Setting):
            if setting.key == "phrases":
                try:
                    self.phrase_files += (beside(self.written.page.source, setting),)
                except Trouble as error:
                    self.wrong.append(error.diagnostic)
        files = [loaded(source) for source in dict.fromkeys(self.phrase_files)]
        self.wrong += [d for file in files for d in file.wrong]
        return [e for file in files for e in file.entries]

    def known_names(self, node: Node, phrase: Entry, free: set[str], terms: Iterable[str] = ()) -> None:
        """Raises Trouble at a name in a reading that is neither a slot, a free number nor declared."""
        members = {m for d in self.names.declarations.values() for m in getattr(d, "members", ())}
        members |= {name for d in self.names.declarations.values() for name, _ in getattr(d, "classes", ())}
        known = {"others", "none"} | phrase.bound_names | free | members
        for named in names_of(node):
            declared = self.names.declared(named.name) or self.names.noun(named.name)
            if declared or named.name in known or named.name.lower() in terms:
                continue
            words = next((p.text for p in phrase.patterns if named.name in p.text.split()), "")
            if not words and len(named.name) == 1 and phrase.bound_names - {"x"}:
                letters = ", ".join(sorted((phrase.bound_names - {"x"}) | free))
                help = f"the letters here are: {letters}, and x for what is measured"
                raise trouble(named.span, f"'{named.name}' is not declared", "", help)
            if not words:
                raise self.names.unknown(named.name, named.span, phrase.bound_names | free)
            bracketed = " ".join(f"({w})" if w == named.name else w for w in words.split())
            raise trouble(
                named.span, f"'{named.name}' is not declared",
                f"In the phrase '{words}' it is a word like others; a number's letter stands in brackets.",
                f'write the phrase as "{bracketed}"',
            )  # fmt: skip

    def givens(self) -> tuple[Given, ...]:
        made: list[Given] = [g for step in self.names.steps.values() for g in given_of(step)]
        for statement in self.all(GivenStatement):
            self.names.here = (CLAIMS, "given")
            try:
                for formula in facts(context(self.names), statement.facts):
                    if groups_in(formula):
                        self.error(
                            statement.span,
                            "a given fact names a noun with several referents",
                            "name one of them",
                        )
                    made.append(Given(statement.text, formula, statement.note, statement.span))
            except Trouble as error:
                self.wrong.append(error.diagnostic)
        return tuple(made)

    # ---- what contradicts itself

    def contradictions(self, found: tuple[Case, ...], made: tuple[Claim, ...], desk: CasesDesk) -> None:
        """An inside case that is also an outside case on the same stated quantities."""
        for inside in (c for c in found if c.role == "inside"):
            for outside in (c for c in found if c.role == "outside"):
                a, b = desk.points.get(id(inside)), desk.points.get(id(outside))
                if a is not None and a == b and _both_asked(inside, outside, made):
                    also = ((inside.span, "inside"),)
                    self.wrong.append(
                        Diagnostic(
                            "error",
                            outside.span,
                            f"'{outside.name}' must stay out and is the same as '{inside.name}' inside",
                            "Both state the same values.",
                            "say what sets them apart, or take one out",
                            also,
                        )
                    )

    # ---- the sheet

    def finished(
        self, made: tuple[Claim, ...], found: tuple[Case, ...], givens: tuple[Given, ...], desk: ClaimsDesk
    ) -> Sheet:
        profile: Literal["US", "EPO"] = "EPO" if self.groups.profile == "EPO" else "US"
        policies = tuple(
            Settled(p.text, p.reason, tuple(dict.fromkeys(self.groups.used.get(id(p.span), ()))), p.span)
            for p in self.groups.policies
        )
        open_items = tuple(
            item
            for claim in made
            for item in unrestated(
                claim.number, desk.texts[claim.number], desk.numbers.get(claim.number, []),
                (*desk.references.get(claim.number, ()), *desk.texts[claim.number].named(self.written.page)),
                self.names.own, bool(self.names.steps),
            )
        )  # fmt: skip
        for claim in made:
            said = foreign_numbers(
                claim.number, desk.texts[claim.number], desk.symbols.get(claim.number, []), self.names.own
            )
            self.wrong += said
            self.wrong += turned_round(desk.texts[claim.number])
            self.wrong += beside_lines(desk.texts[claim.number], self.names)
        self.wrong += _told_once(_of_lines_read(self.groups.passed, self.wrong))
        made_up = Sheet(
            title=self.settings.get("title", ""),
            profile=profile,
            purpose="court" if self.groups.profile == "US court" else "examination",
            filed=self.settings.get("filed", "no") == "yes",
            confidential=self.settings.get("confidential", ""),
            declarations=tuple(self.names.declarations.values()),
            givens=givens,
            claims=_with_words_read_past(made, self.wrong),
            groups=self.groups.finished(),
            parameters=tuple(self.groups.parameters.values()),
            cases=tuple(c for c in found if c.role != "description"),
            policies=policies,
            unrestated=open_items,
            source_name=self.written.page.source.name,
            rivals=tuple(self.groups.rivals),
            parts=self.names.parts,
            compositions=tuple(self.names.compositions.values()),
            assemblies=tuple(self.names.assemblies.values()),
            described=tuple(c for c in found if c.role == "description"),
            phrase_files=self.phrase_files,
            steps=tuple(self.names.steps.values()),
        )
        return with_words_alike(made_up, tuple(self.groups.drafts.values()))


def _both_asked(inside: Case, outside: Case, made: tuple[Claim, ...]) -> bool:
    """Whether meeting what the inside case must meet would meet what the outside case must not."""
    by_number = {c.number: c for c in made}

    def targets(case: Case) -> set[str]:
        return set(case.targets) or {str(c.number) for c in made if not c.parents}

    met: set[str] = set()
    for target in targets(inside):
        if not target.isdigit():
            met.add(target)
            continue
        queue = [int(target)]
        while queue:
            claim = by_number[queue.pop()]
            met |= {str(claim.number), *(x.label for x in claim.limitations)}
            queue += claim.parents if len(claim.parents) == 1 else ()
    return bool(met & targets(outside))


def _of_lines_read(passed: Sequence[Diagnostic], wrong: Sequence[Diagnostic]) -> list[Diagnostic]:
    """Warnings on words that are read, without those on words that an error says are not."""
    unread = [d.span for d in wrong if d.severity == "error"]
    return [
        d
        for d in passed
        if not any(
            s.source is d.span.source and s.start <= d.span.start and d.span.end <= s.end for s in unread
        )
    ]


def _told_once(passed: Sequence[Diagnostic]) -> list[Diagnostic]:
    """What was read past, without that of which more words are told as read for something, or read past."""

    def told_by(wider: Diagnostic, d: Diagnostic) -> bool:
        one, other = wider.span, d.span
        inside = one.source is other.source and one.start <= other.start and other.end <= one.end
        return inside and one != other and bool(wider.read_past or d.read_past)

    return [d for d in passed if not any(told_by(wider, d) for wider in passed)]


def _with_words_read_past(made: Iterable[Claim], told: Iterable[Diagnostic]) -> tuple[Claim, ...]:
    """The claims, each line with the words of it that a warning says are read past."""
    past = [(d.span, d.read_past) for d in told if d.read_past]
    if not past:
        return tuple(made)

    def line(x: Limitation) -> Limitation:
        own = (ws for s, ws in past if s.source is x.span.source and x.span.start <= s.start < x.span.end)
        return replace(x, unread=tuple(dict.fromkeys(w for ws in own for w in ws)))

    return tuple(replace(c, limitations=tuple(map(line, c.limitations))) for c in made)
