"""Claims and their limitations: from margin lines to formulas, held against the claim's own text."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import accumulate, pairwise
from string import ascii_lowercase

from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, NumberDecl, Part, SetDecl, Step
from scopecheck.core.formula import Add, Branch, Formula, Greatest, Least, Negate, Term, all_of
from scopecheck.core.model import WRITTEN_THERE, Claim, Limitation
from scopecheck.exact.formulas import context, facts
from scopecheck.exact.terms import term
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, difference_kind
from scopecheck.foundations.record import field, holder, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import words as listed_words
from scopecheck.language.scan import Number
from scopecheck.language.syntax import ClaimStatement, Mark, NameNode, Node, NumberNode, Restatement
from scopecheck.matching.said_once import basis_said, numbers_in_percent, per_said, says_impurities
from scopecheck.matching.subjects import OfParts, Subject
from scopecheck.occurrences.groups import CLAIMS, Groups, groups_in
from scopecheck.occurrences.occurrence import Occurrence
from scopecheck.occurrences.readings import read
from scopecheck.resolve.amounts import inside_amounts
from scopecheck.resolve.beyond_bounds import beyond_bounds
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.declared import readings_entry
from scopecheck.resolve.dependencies import Reference, category, is_thing, names_another, parents, references
from scopecheck.resolve.form_rules import form_warnings, told_by_its_making, told_by_its_purpose
from scopecheck.resolve.given_up import given_up, told_once
from scopecheck.resolve.left_unsaid import (
    against_itself,
    another_average,
    another_basis,
    another_measure,
    another_total,
    between_two_names,
    of_another_member,
    preferred_beyond,
    without_a_part,
)
from scopecheck.resolve.other_measures import average_of_one
from scopecheck.resolve.phrases import Reader
from scopecheck.resolve.recited import most_recited, recited_counts
from scopecheck.rewording.item_letters import with_items_named
from scopecheck.rewording.lettered import in_symbols, nodes_in, with_term_first, with_units_behind
from scopecheck.vocabulary.assemblies import closed_counts
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.classes import ListBound, has, members_below
from scopecheck.vocabulary.names import Bound, Names, NotYetRecited, Typed, nothing_recited, number_of
from scopecheck.vocabulary.part_kinds import kinds_of
from scopecheck.vocabulary.parts import (
    FACTS,
    NO_VALUE,
    TOGETHER,
    WEIGHED,
    WHOLES,
    Present,
    Values,
    gaps,
    gathered,
    how_many,
    how_many_of,
    ordered,
    said_of_one,
    weighed,
)
from scopecheck.vocabulary.steps import mean_of_ends


@holder
class ClaimsDesk:
    """What is at hand while claims are resolved, and what the account needs afterwards."""

    names: Names
    groups: Groups
    phrases: Phrasebook
    wrong: list[Diagnostic] = field(default_factory=list)
    texts: dict[int, ClaimText] = field(default_factory=dict)
    numbers: dict[int, list[Number]] = field(default_factory=dict)
    symbols: dict[int, list[tuple[NumberNode, bool]]] = field(default_factory=dict)
    """The numbers of lines in symbols, and whether the line has no words."""
    closed: dict[int, frozenset[str]] = field(default_factory=dict)
    """By claim, the counts of parts of which its lines say that a thing consists of them."""
    recited: dict[int, Mapping[str, int]] = field(default_factory=dict)
    """By claim, how many like parts its own lines ask for at least, by what several are called."""
    references: dict[int, tuple[tuple[int, int], ...]] = field(default_factory=dict)


def letters(index: int) -> str:
    """a, b, ... z, aa, ab, ..."""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("a") + rest) + text
    return text


def claims(desk: ClaimsDesk, statements: tuple[ClaimStatement, ...]) -> tuple[Claim, ...]:
    """The claims in the order written. Two claims with one number: error at the second."""
    first: dict[int, ClaimStatement] = {}
    for statement in statements:
        if statement.number in first:
            also = ((first[statement.number].span, "the first"),)
            desk.wrong.append(
                Diagnostic(
                    "error", statement.span, f"two claims have the number {statement.number}", also=also
                )
            )
        else:
            first[statement.number] = statement
            made_text = desk.texts[statement.number] = ClaimText.of(statement.pieces)
            made_text.inside = inside_amounts(made_text, desk.names.own)
            desk.closed[statement.number] = _closed(desk.names, statement)
            desk.recited[statement.number] = recited_counts(desk.names, statement)
    above = _parents(desk, first)
    on_each_way: dict[int, Mapping[str, int]] = {}
    made = []
    for number, statement in first.items():
        _bars_forgotten(desk, statement)
        if desk.recited[number]:
            _not_more_below(desk, number, above)
        desk.names.recited = on_each_way[number] = _recited(desk, number, above[number], on_each_way)
        text = desk.texts[number].text
        limitations = tuple(_limitations(desk, statement, _all_above(number, above)))
        other = _of_another_category(desk, statement, above[number])
        made.append(Claim(number, text, category(text), above[number], limitations, statement.span, other))
    independent = {c.number for c in made if c.other_category}
    desk.wrong += form_warnings(desk.groups.profile, above, _first_references(desk, first, independent))
    named = _first_references(desk, first, set())
    desk.wrong += told_by_its_making(desk.groups.profile, above, named)
    others = {n: reference for n, reference in named.items() if n in independent}
    desk.wrong += told_by_its_purpose(desk.groups.profile, above, others)
    return tuple(made)


def _closed(names: Names, statement: ClaimStatement) -> frozenset[str]:
    """The counts of parts that the claim's lines close: of what it says that it consists of them."""
    lines = (x for x in statement.lines if isinstance(x, Restatement) and x.words and x.subject)
    found = (closed_counts(names, x.subject[0], x.words.text) for x in lines if x.words)
    return frozenset().union(*found)


def _all_above(number: int, above: Mapping[int, tuple[int, ...]]) -> tuple[int, ...]:
    """Every claim that a claim takes over, through others too."""
    found: list[int] = []
    queue = list(above[number])
    while queue:
        parent = queue.pop()
        if parent not in found:
            found.append(parent)
            queue += above.get(parent, ())
    return tuple(found)


def _first_references(
    desk: ClaimsDesk, first: dict[int, ClaimStatement], leave_out: set[int]
) -> dict[int, tuple[str, Span]]:
    """For each claim the text up to its first reference to claims, and the place of that reference."""
    found = {}
    for number, statement in first.items():
        if desk.references[number] and number not in leave_out:
            start, end = desk.references[number][0]
            source = statement.span.source
            before = source.text[statement.pieces[0].start : start]
            found[number] = (" ".join(before.split()) + " ", Span(source, start, end))
    return found


def _of_another_category(desk: ClaimsDesk, statement: ClaimStatement, above: tuple[int, ...]) -> bool:
    """Does the claim name others in a claim to something else, and does no line call it dependent?"""
    marks = [line for line in statement.lines if isinstance(line, Mark) and line.dependent]
    for mark in marks if not above else []:
        what = f"claim {statement.number} refers to no other claim"
        desk.wrong.append(Diagnostic("error", mark.span, what))
    if not above or marks:
        return False
    start = statement.pieces[0].start
    before = desk.texts[statement.number].source.text[start : desk.references[statement.number][0][0]]
    return names_another(before, [category(desk.texts[n].text) for n in above])


_LABELLED = regex(r"([^\W\d_][^:\n]{0,60}?)\s*:\s*\S")


def _bars_forgotten(desk: ClaimsDesk, statement: ClaimStatement) -> None:
    """A line of the text that begins like a margin line: a declared name and a colon.

    Behind a comma the text goes on: `Al: 0.01 to 0.08 %,`, and on the next line `N: not exceeding 0.006 %`.
    """
    for above, piece in pairwise(statement.pieces):
        goes_on = above.text.rstrip().endswith((",", ";", ":", " and", " or"))
        match = None if goes_on else _LABELLED.match(piece.text)
        named = [" ".join(n.split()) for n in match.group(1).split(",")] if match else [""]
        if all(n and (desk.names.declared(n) or desk.names.noun(n)) for n in named):
            what = f"text of claim {statement.number}, or a line that restates it?"
            cause = f"The line begins with '{named[0]}', which is declared, and a colon, and has no bar."
            help = "put | before it, or, if it is the claim's text, join it to the line above"
            desk.wrong.append(Diagnostic("error", piece, what, cause, help))


def _parents(desk: ClaimsDesk, first: dict[int, ClaimStatement]) -> dict[int, tuple[int, ...]]:
    named: dict[int, tuple[Reference, ...]] = {}
    spans: dict[int, list[Span]] = {}
    for number, statement in first.items():
        start, end = statement.pieces[0].start, statement.pieces[-1].end
        source = statement.span.source
        found_here = references(_without_margin(statement, start, end), number, tuple(first))
        named[number] = _followed(desk, statement, start, found_here, tuple(first))
        spans[number] = [Span(source, start + r.start, start + r.end) for r in named[number]]
        desk.references[number] = tuple((s.start, s.end) for s in spans[number])
        desk.texts[number].refer(desk.references[number])
    found, wrong = parents(named, {n: s.span for n, s in first.items()}, spans)
    desk.wrong += wrong
    return found


def _followed(
    desk: ClaimsDesk,
    statement: ClaimStatement,
    start: int,
    found: tuple[Reference, ...],
    known: tuple[int, ...],
) -> tuple[Reference, ...]:
    """Without references that go nowhere or later and that a line marks: these are told, and not followed."""
    number, source = statement.number, statement.span.source
    marked = [" ".join(x.words.text.lower().split()) for x in statement.lines if isinstance(x, Mark)]
    followed: list[Reference] = []
    for reference in found:
        span = Span(source, start + reference.start, start + reference.end)
        words = " ".join(span.text.lower().split())
        astray = any(n >= number or n not in known for n in reference.numbers)
        twice = len(set(reference.numbers)) < len(reference.numbers)
        if (astray or twice) and words in marked:
            what = f"claim {number} refers to claims in a way that is marked, and is not followed: '{words}'"
            desk.wrong.append(Diagnostic("warning", span, what))
        else:
            followed.append(reference)
    return tuple(followed)


def _without_margin(statement: ClaimStatement, start: int, end: int) -> str:
    """The claim's text with everything between its lines blanked out, so that offsets stay."""
    text = [" "] * (end - start)
    for piece in statement.pieces:
        text[piece.start - start : piece.end - start] = piece.text
    return "".join(text)


def _not_more_below(desk: ClaimsDesk, number: int, above: Mapping[int, tuple[int, ...]]) -> None:
    """Leaves out how many parts a claim recites where one that depends on it recites more of them.

    What the claim's lines say of the recited ones would be said there of more.
    """
    below = most_recited(desk.recited[n] for n in desk.recited if number in _all_above(n, above))
    desk.recited[number] = {k: n for k, n in desk.recited[number].items() if below.get(k, 0) <= n}


def _recited(
    desk: ClaimsDesk, number: int, parents: tuple[int, ...], known: Mapping[int, Mapping[str, int]]
) -> Mapping[str, int]:
    """How many parts a claim asks for at least, by whichever of its parents it is taken."""
    ways = [known.get(parent, {}) for parent in parents]
    shared = set.intersection(*map(set, ways)) if ways else set[str]()
    return most_recited((desk.recited[number], {k: min(way[k] for way in ways) for k in shared}))


def _limitations(desk: ClaimsDesk, statement: ClaimStatement, above: tuple[int, ...]) -> list[Limitation]:
    """The limitations in the order written; lines that rest on what is recited are read last."""
    found: dict[str, Limitation | None] = {}
    later: list[tuple[str, Restatement]] = []
    desk.numbers[statement.number] = []
    desk.names.recital = _not_yet
    desk.names.closed = frozenset().union(*(desk.closed[n] for n in (statement.number, *above)))
    texts = [desk.texts[n].text for n in (statement.number, *above)]
    desk.names.basis, desk.names.in_percent = basis_said(texts), numbers_in_percent(texts)
    desk.names.per = per_said(texts)
    desk.names.impure = any(
        says_impurities(x.words.text) for x in statement.lines if not isinstance(x, Mark) and x.words
    )
    for line in statement.lines:
        label = f"{statement.number}{letters(len(found))}"
        if not isinstance(line, Mark):
            found[label] = None
        try:
            if line.words is not None:
                _take(desk, statement.number, line)
            if not isinstance(line, Mark):
                found[label] = _limitation(desk, statement.number, label, line)
        except NotYetRecited:
            assert isinstance(line, Restatement)
            later.append((label, line))
        except Trouble as error:
            desk.wrong.append(error.diagnostic)
    if later:
        desk.names.recital = _recital(desk, (statement.number, *above))
    for label, line in later:
        try:
            found[label] = _limitation(desk, statement.number, label, line)
        except Trouble as error:
            desk.wrong.append(error.diagnostic)
    desk.names.recital = nothing_recited
    desk.names.closed = frozenset()
    desk.names.basis, desk.names.per = "", ""
    desk.names.in_percent, desk.names.impure = False, False
    desk.names.recited = {}
    return [made for made in found.values() if made is not None]


def _not_yet(_listed: ListBound, _span: Span) -> tuple[str, ...]:
    raise NotYetRecited


def _recital(desk: ClaimsDesk, numbers: tuple[int, ...]) -> Callable[[ListBound, Span], tuple[str, ...]]:
    """What the lines of these claims name of a list, in the list's order."""
    wanted = {str(number) for number in numbers}
    said = desk.names.spoken.items()
    spoken = {n for at, names in said if at.rstrip(ascii_lowercase) in wanted for n in names}

    def recited(listed: ListBound, span: Span) -> tuple[str, ...]:
        place = {name: i for i, name in enumerate(listed.members)}
        known = sorted(
            (*(name for name, _ in listed.classes), *listed.members),
            key=lambda name: min(place[m] for m in members_below(listed, name)),
        )
        named = [name for name in known if name in spoken]
        above = {m for name in named for m in members_below(listed, name) if m != name}
        told = _in_no_line(desk, numbers, listed, {*named, *above}, span)
        desk.wrong += tuple(t for t in told if t not in desk.wrong)
        return tuple(name for name in named if name not in above)

    return recited


def _in_no_line(
    desk: ClaimsDesk, numbers: tuple[int, ...], listed: ListBound, named: set[str], span: Span
) -> Iterator[Diagnostic]:
    """A warning for each ingredient that the claims' text names and no line: it is shut out with the rest."""
    if not listed_words("transitions", "closing") & set(span.text.lower().split()):
        return
    said = {piece.text.lower() for n in numbers for piece in desk.texts[n].tokens}
    for name in listed.members:
        if (
            name not in named
            and {w.lower() for w in name.split()} <= said
            and name in _written(desk, numbers)
        ):
            yield Diagnostic(
                "warning", span, f"{name} stands in the claim and in no line, and is shut out here",
                "What is closed has what its lines name, and nothing else.",
                f"if the claim lists it, say so in a line: {name} IN {listed.name}",
            )  # fmt: skip


def _written(desk: ClaimsDesk, numbers: tuple[int, ...]) -> str:
    """The text of these claims, as it is written."""
    texts = (desk.texts[n] for n in numbers if desk.texts[n].tokens)
    return " ".join(" ".join(t.source.text[t.tokens[0].start : t.tokens[-1].end].split()) for t in texts)


def _limitation(desk: ClaimsDesk, number: int, label: str, line: Restatement) -> Limitation:
    desk.names.here = (CLAIMS, f"meant for {label}")
    meant = None
    if line.meant is not None:
        meant = _without_groups(all_of(facts(context(desk.names), line.meant)), line.meant.span)
    desk.names.here = (CLAIMS, label)
    words = line.words.text if line.words else ""
    texts = (text for n, text in desk.texts.items() if n <= number and text.tokens)
    said = " ".join(t.source.text[t.tokens[0].start : t.tokens[-1].end] for t in texts)
    in_words = line.exact is None
    for named in (with_items_named, in_symbols):
        line, told = named(desk.names, said, line)
        desk.wrong += (told,) if told else ()
    line = with_term_first(line)
    try:
        formula = _formula(desk, label, line, category(desk.texts[number].text))
    except Trouble as error:
        if in_words and line.exact is not None and line.words is not None:
            raise with_units_behind(error, line.words) from error
        raise
    desk.wrong += beyond_bounds(desk.names, formula, (line.words or line).span)
    if not in_words and (told := given_up(line)):
        told_once(told, desk.wrong)
    if line.exact is not None:
        nodes = numbers_in(line.exact)
        desk.numbers[number] += [node.number for node in nodes]
        desk.symbols.setdefault(number, []).extend((node, line.words is None) for node in nodes)
    exact = line.exact is not None
    return Limitation(
        label,
        number,
        line.subject_text,
        words,
        line.text,
        formula,
        meant,
        line.meant_text,
        groups_in(formula),
        exact,
        line.span,
        _narrowed(desk, label, line),
    )


def _narrowed(desk: ClaimsDesk, label: str, line: Restatement) -> tuple[str, tuple[str, ...]] | None:
    """The class of ingredients left of the colon, and the members of it that the line names."""
    first = line.subject[0] if line.subject else None
    seen = desk.names.mixture(first.name) if isinstance(first, NameNode) else None
    if seen is None or desk.names.declared(seen.name) is None:
        return None
    named = [m for name in desk.names.spoken.get(label, ()) for m in members_below(seen, name)]
    kept = tuple(m for m in seen.members if m in named)
    return (seen.name, kept) if kept and kept != seen.members else None


def _take(desk: ClaimsDesk, number: int, line: Restatement | Mark) -> None:
    assert line.words
    try:
        found = desk.texts[number].take(line.words.text, line.words.span, number, mark=isinstance(line, Mark))
    except Trouble as error:
        desk.wrong.append(error.diagnostic)
        return
    if isinstance(line, Restatement):
        desk.texts[number].left[line.words.span] = line.subject_text
        if told := _of_another_whole(desk, number, line, found[0]):
            desk.wrong.append(told)


def _of_another_whole(desk: ClaimsDesk, number: int, line: Restatement, at: int) -> Diagnostic | None:
    """`glycerol : up to 10 wt%`, lifted behind 'the water phase contains': a share of which?"""
    first = line.subject[0] if len(line.subject) == 1 else None
    if not isinstance(first, NameNode) or line.exact is not None or line.words is None:
        return None
    texts, name = desk.texts[number].texts, first.name.lower()
    made = next((c for c in desk.names.compositions.values() if name in map(str.lower, c.members)), None)
    verbs = listed_words("transitions", "open") | listed_words("asides", "holding")
    if made is None or not _SHARES.search(line.words.text) or not at or texts[at - 1] not in verbs:
        return None
    before = f" {' '.join(texts[: at - 1]).lower()}"
    whole = next((n for n, _ in made.classes if before.endswith(f" {n.lower()}")), "")
    if not whole or whole.lower() in line.words.text.lower():
        return None
    return Diagnostic(
        "warning", line.words.span,
        f"'{whole} {texts[at - 1]}' stands right before these words, and they are read of {made.name}",
        f"A share of {whole} is another one than a share of {made.name}.",
        f"if it is one of {whole}, write: {first.name} of the {whole} : {line.words.text}",
    )  # fmt: skip


_SHARES = regex(r"%|\bper ?cent\b|\bparts\b")


def _without_groups(formula: Formula, span: Span) -> Formula:
    if groups_in(formula):
        raise trouble(
            span, "a noun with several referents where symbols must be exact", "", "name one referent"
        )
    return formula


def _formula(desk: ClaimsDesk, label: str, line: Restatement, claimed: str) -> Formula:
    """What a line says; `claimed` is what the claim is for."""
    if line.exact is not None:
        for node in line.subject:
            subject(desk.names, node)
        return all_of(facts(context(desk.names), line.exact))
    assert line.words
    if bars := next((t for t in line.words.tokens if t.sort == "capital" and t.text == "ABS"), None):
        raise trouble(
            Span(line.words.span.source, bars.start, bars.end + 1), "bars around a value in words", "",
            "write the meaning in symbols after the words: two blanks, exactly, facts such as |a - b| <= 2",
        )  # fmt: skip
    subjects = tuple(subject(desk.names, node) for node in line.subject)
    if line.readings:
        title = f"{WRITTEN_THERE}{line.words.text}'"
        entry = readings_entry(title, line.readings, line.span)
        slots = {"x": subjects[0].bound} if subjects else {}
        shown = {"x": subjects[0].text} if subjects else {}
        at = Occurrence(
            CLAIMS, label, line.words.text, line.words.text.lower(), slots, shown, line.words.span
        )
        return read(entry, at, desk.names, desk.groups, title)
    reader = Reader(desk.names, desk.phrases, desk.groups, CLAIMS, label, not is_thing(claimed))
    formula = of_listed(desk.names, subjects, reader.condition(line.words, subjects))
    told = [*without_a_part(line.words, formula, subjects, desk.names)]
    measured = another_measure(line.words, subjects, desk.names) if not told else None
    measured = measured or another_average(line.words, subjects, desk.names)
    measured = measured or average_of_one(line.words, subjects, desk.names)
    measured = measured or another_total(line.words, subjects, desk.names)
    if subjects:
        measured = measured or another_basis(line.words, subjects, desk.names, claimed)
    measured = measured or between_two_names(line.words, desk.names)
    measured = against_itself(line.words, formula, subjects) or measured
    measured = measured or of_another_member(line.words, formula, subjects, desk.names)
    told += preferred_beyond(line.words)
    desk.wrong += (*told, measured) if measured else tuple(told)
    return formula


def of_listed(names: Names, subjects: tuple[Subject, ...], said: Formula) -> Formula:
    """Words on a list of one of the parts are met only where the part is there."""
    for subject in subjects:
        if isinstance(subject.bound, ChoiceDecl | SetDecl) and (one := names.one_of(subject.bound.name)):
            said = said_of_one(one[0].present(one[1]), said)
    return said


def _unbracketed(text: str) -> str:
    """The text without a bracket around all of it; of `(a - b) / (c - d)` there is none."""
    inner = text[1:-1]
    depths = list(accumulate({"(": 1, ")": -1}.get(sign, 0) for sign in inner))
    return inner if text[:1] == "(" and text[-1:] == ")" and min(depths, default=0) >= 0 else text


def subject(names: Names, node: Node) -> Subject:
    """What a node left of a colon stands for: a list by its name, else a term."""
    text = _unbracketed(" ".join(node.span.text.split()))
    if isinstance(node, NameNode):
        if step := names.step(node.name):
            return Subject(step, step.name, node.span)
        if moment := names.moment_of(node.name):
            return of_moments(names, *moment, node.span)
        declared = names.declared(node.name)
        if declared is None and (found := names.field_of(node.name)):
            return of_parts(names, *found, node.span)
        if declared is not None and hasattr(declared, "members"):
            return Subject(declared, declared.name, node.span)  # type: ignore[arg-type]
        mixture = names.mixture(node.name) if declared is None or isinstance(declared, NumberDecl) else None
        if isinstance(mixture, Assembly):
            names.speak(mixture.name)
            return Subject(mixture, mixture.name, node.span, mixture=mixture)
        if mixture is not None:
            if isinstance(declared, NumberDecl):
                names.speak(declared.name)
            amount = number_of(declared) if isinstance(declared, NumberDecl) else mixture
            several = _members_of(names, mixture, amount) if isinstance(amount, Typed) else None
            return Subject(amount, mixture.name, node.span, several, mixture=mixture)
    value = term(context(names), node)
    if isinstance(value, Typed) and value.number is not None:
        raise trouble(
            node.span, "a number stands left of the colon", "Left of the colon stands what is measured."
        )
    counted = names.kind(node.name) if isinstance(node, NameNode) else ()
    asked, shown = kinds_of(names, counted, text) if counted else ({}, {})
    return Subject(value, text, node.span, None, asked, shown)


def _members_of(names: Names, made: Composition, total: Typed) -> OfParts:
    """The members of a class of ingredients, each with its amount, and the class together."""
    declared = (names.declarations[m] for m in made.members)
    each = tuple(number_of(d) for d in declared if isinstance(d, NumberDecl))
    there = tuple(has(made, m) for m in made.members)
    how_many_there = Typed(how_many(Present(there, there)), PLAIN_KIND, whole=True)
    return OfParts(how_many_there, made.name, there, each, {"total": total}, {}, {}, "classes")


def of_parts(names: Names, parts: tuple[Part, ...], own: str, span: Span) -> Subject:
    """A field of like parts, of which the words say which."""
    names.speak_of(parts)
    declared = [names.declarations[part.slot(i, own)] for part in parts for i in range(1, part.most + 1)]
    there = tuple(part.present(i) for part in parts for i in range(1, part.most + 1))
    how_many = how_many_of(parts)
    count = Typed(how_many, PLAIN_KIND, unit=PLAIN, whole=True)
    numbers = [number_of(d) for d in declared if isinstance(d, NumberDecl)]
    together: dict[str, Typed] = {}
    said: dict[str, Formula] = {}
    between: dict[str, Typed] = {}
    if numbers:
        given = Values(how_many, there, tuple(n.term for n in numbers))
        for name, word in TOGETHER.items():
            whole = numbers[0].whole and word in WHOLES
            together[name] = replace(numbers[0], term=gathered(word, given), whole=whole)
        for name, power in WEIGHED.items():
            together[name] = replace(numbers[0], term=weighed(power, given), whole=False)
        said = {name: ordered(word, given) for name, word in FACTS.items()}
        between = _gaps(numbers[0], given) | _spread(numbers[0], given)
    lists = [d for d in declared if not isinstance(d, NumberDecl)]
    each: tuple[Bound, ...] = (*numbers, *lists)
    called = f"{own} of the {parts[0].plural}"
    if parts[0].within and len(parts) == 1:
        called += f" of {parts[0].within.name}"
    of = OfParts(count, parts[0].plural, there, each, together, said, between)
    return Subject(each[0], called, span, of)


def _spread(of: Typed, given: Values) -> dict[str, Typed]:
    """The least and the greatest of the values, and how far the one lies above the other; no value where no
    part is there."""
    if of.kind is None:
        return {}
    kind = difference_kind(of.kind, of.kind)
    unit = of.unit if of.unit and of.unit.kind == kind else None
    high, low = gathered("GREATEST", given), gathered("LEAST", given)
    ends = {"highest": replace(of, term=high), "lowest": replace(of, term=low)}
    return {"spread": Typed(Add((high, Negate(low))), kind, unit=unit), **ends}


def _gaps(of: Typed, given: Values) -> dict[str, Typed]:
    """The shortest and the longest step from one part to the next; the parts must be two at least."""
    found = gaps(given)
    if not found or of.kind is None:
        return {}
    kind = difference_kind(of.kind, of.kind)
    unit = of.unit if of.unit and of.unit.kind == kind else None
    there = given.there[1]
    ends: dict[str, Term] = {"shortest": Least(found), "longest": Greatest(found)}
    return {n: Typed(Branch(there, t, NO_VALUE), kind, unit=unit) for n, t in ends.items()}


def of_moments(names: Names, step: Step, own: str, span: Span) -> Subject:
    """A quantity of a step, of which the words say at which moment."""
    at = {moment: (name, names.terms[name.lower()]) for moment, name in step.moments(own).items()}
    called = f"mean of {own} at the start and at the end of {step.name}"
    at["ends"] = (called, replace(at["start"][1], term=mean_of_ends(step, own)))
    return Subject(at["start"][1], f"{own} of {step.name}", span, moments=at)


def numbers_in(node: Node) -> list[NumberNode]:
    """The numbers of a formula as written, in no order that matters."""
    return [item for item in nodes_in(node) if isinstance(item, NumberNode)]
