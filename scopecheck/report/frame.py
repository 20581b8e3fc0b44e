"""What stands around the findings: the head of a report, and its foot with all that an answer rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.findings import Answers
from scopecheck.core.construction import admissible_readings, nodes
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import OTHERS, Compare, Const
from scopecheck.core.model import FreeParameter, Group, OwnPhrase, Settled, Sheet, Unrestated
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.report.blocks import Banner, Block, Heading, Listing, Paragraph
from scopecheck.report.describe import bounds_text
from scopecheck.report.looked import Beside, looked_lines, wholly_looked
from scopecheck.report.percent_of_what import pressures_over_nothing_said, shares_of_nothing_said
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.rereadings import breadth_text, group_words, has_no_place, never_rounded, words_at
from scopecheck.report.wholes import whole_lines
from scopecheck.report.wording import (
    about_lines,
    claims_text,
    counted,
    flat,
    listed,
    quoted,
    sentence,
    upper_first,
)

# ---- head


def head(sheet: Sheet) -> Iterator[Block]:
    """The title, the confidentiality heading, the profile, and what was looked at."""
    if sheet.confidential:
        yield Banner(flat(sheet.confidential))
    yield Heading(flat(sheet.title) or sentence("head", "no_title"), 1)
    purpose = f"US_{sheet.purpose}" if sheet.profile == "US" else "EPO"
    yield Paragraph(
        sentence(
            "head",
            "profile",
            profile=sheet.profile,
            purpose=sentence("head", f"purpose_{purpose}"),
            filed=sentence("head", "filed" if sheet.filed else "not_filed"),
            usual=sentence("head", "usual") if groups_with_choice(sheet) else "",
        )
    )
    yield Paragraph(looked_at(sheet))


def looked_at(sheet: Sheet) -> str:
    """`Looked at: 2 claims with 5 limitations; ...`."""
    roles = [case.role for case in sheet.cases]
    cases = [counted(roles.count(r), r) for r in ("inside", "outside", "document", "class") if r in roles]
    open_groups = groups_with_choice(sheet)
    phrases = counted(len(open_groups), "phrase")
    readings = counted(sum(len(admissible_readings(g)) for g in open_groups), "reading")
    told = sentence("head", "with_readings", phrases=phrases, readings=readings)
    return sentence(
        "head",
        "looked_at",
        claims=counted(len(sheet.claims), "claim"),
        limitations=counted(sum(len(claim.limitations) for claim in sheet.claims), "limitation"),
        cases=listed(cases) or sentence("head", "no_cases"),
        phrases=told if open_groups else sentence("head", "no_readings"),
        unrestated=_unrestated(len(sheet.unrestated)),
        parts=sentence("head", "for_parts", parts=how_many_parts(sheet)) if sheet.parts else "",
    )


def _unrestated(count: int) -> str:
    if not count:
        return ""
    key = "unrestated_one" if count == 1 else "unrestated_many"
    return sentence("head", key, words=counted(count, "limiting"))


def groups_with_choice(sheet: Sheet, strained: bool = False) -> tuple[Group, ...]:
    """The phrases and nouns that are left with more than one reading, or with a stretch."""
    stretched = {p.group for p in _stretched(sheet, strained)}
    return tuple(g for g in sheet.groups if len(admissible_readings(g, strained)) > 1 or g.index in stretched)


def _stretched(sheet: Sheet, strained: bool) -> Iterator[FreeParameter]:
    """The numbers that readings which are tried leave open: none that a pin has given."""
    for p in sheet.parameters:
        given = p.upper is not None and p.lower.value == p.upper.value
        if not given and p.reading in admissible_readings(sheet.groups[p.group], strained):
            yield p


def _stretched_words(sheet: Sheet, strained: bool) -> Iterator[str]:
    """The words with such a number; those that stretch only as otherwise read, with that reading."""
    numbers = list(_stretched(sheet, strained))
    usual = {p.group for p in numbers if p.reading == sheet.groups[p.group].base}
    for p in numbers:
        group = sheet.groups[p.group]
        for words in words_at(group, ()):
            if p.group in usual:
                yield words
            else:
                yield sentence("basis", "read_so", words=words, label=flat(group.readings[p.reading].label))


def _how_to_fix(sheet: Sheet, p: FreeParameter) -> str:
    """The line of a sheet that says how far a reading stretches."""
    group = sheet.groups[p.group]
    label = flat(group.readings[p.reading].label)
    return sentence("basis", "how_to_fix", words=group_words(group), label=label, name=p.name)


def _rounds(group: Group) -> bool:
    """Is the phrase read, as presumed, as met by what rounds to its number?"""
    usual = group.readings[group.base]
    ways = [value for axis, value in usual.axes if axis in ("rounding", "approximation")]
    return usual.standing == "presumed" and any(
        way.startswith("half") or way == "rounding only" for way in ways
    )


# ---- foot


MOST_UNRESTATED = 12
"""So many lines of the account stand on the first page; what the others tell is counted there."""
CLOSE = 40
"""Characters between two words of the account that one line tells."""
AROUND = 3
"""Words before the first of them, and behind the last."""
NOTHING_BESIDE = Beside({})


def foot(
    sheet: Sheet, answers: Answers, strained: bool, everything: bool, beside: Beside = NOTHING_BESIDE
) -> Iterator[Block]:
    """What was looked for and not found, what all this rests on, what was left out, and how to read it.

    Unless `everything` is asked for, what was left out is only counted.
    """
    yield Heading(sentence("section", "foot"))
    looked = tuple(looked_lines(sheet, wholly_looked(sheet, answers), beside))
    if looked:
        yield Heading(sentence("section", "looked"), 3)
        yield Listing(looked)
    yield from ground(sheet, answers, strained, everything, beside.harmless)


def ground(
    sheet: Sheet, answers: Answers, strained: bool, everything: bool, harmless: int = 0
) -> Iterator[Block]:
    """What the answers rest on, what was left out, in full or counted, and how to read it."""
    yield Heading(sentence("section", "basis"), 3)
    basis = (*basis_lines(sheet, strained), *_other_category_lines(sheet), *definition_lines(sheet))
    basis += tuple(own_phrase_lines(sheet))
    yield Listing((*basis, *settled_briefly(sheet, answers, everything)))
    if everything:
        for section, lines in (
            ("settled", settled_lines(sheet, answers)),
            ("unrestated", unrestated_lines(sheet)),
            ("uncomputed", left_out_lines(sheet)),
        ):
            found = tuple(dict.fromkeys(lines))
            if found:
                yield Heading(sentence("section", section), 3)
                yield Listing(found)
    else:
        account = tuple(unrestated_lines(sheet))
        if account:
            yield Heading(sentence("section", "unrestated"), 3)
            yield Listing(account[:MOST_UNRESTATED])
        counts = tuple(_counts(sheet, harmless))
        if counts:
            yield Paragraph(sentence("basis", "counts", counts="; ".join(counts)))
    yield Paragraph(" ".join(about_lines()), quiet=True)


def _counts(sheet: Sheet, harmless: int) -> Iterator[str]:
    """How much of each sort the first page leaves out."""
    left_out = sum(len(g.not_computed) + len(g.not_tried) for g in sheet.groups)
    for key, count, noun in (
        ("count_harmless", harmless, "reading"),
        ("count_left_out", left_out, "reading"),
        ("count_unrestated", sum(map(len, unrestated_runs(sheet)[MOST_UNRESTATED:])), "limiting"),
    ):
        if count:
            yield sentence("basis", key, count=counted(count, noun))


# ---- what it rests on


def basis_lines(sheet: Sheet, strained: bool) -> Iterator[str]:
    """The readings that took part, the stretches left open, the bounds, closed lists and given facts."""
    groups = groups_with_choice(sheet, strained)
    if groups:
        yield sentence(
            "basis",
            "constructions",
            readings=counted(sum(len(admissible_readings(g, strained)) for g in groups), "reading"),
            phrases=counted(len(groups), "phrase"),
            strained=sentence("basis", "strained_in" if strained else "strained_out"),
        )
    elif strained_only := [g for g in sheet.groups if len(admissible_readings(g, True)) > 1]:
        words = listed(dict.fromkeys(group_words(g) for g in strained_only))
        yield sentence("basis", "strained_only", words=words)
    else:
        yield sentence("basis", "no_phrases")
    if stretched := dict.fromkeys(_stretched_words(sheet, strained)):
        yield sentence("basis", "parameters", words=listed(stretched))
        yield _how_to_fix(sheet, next(_stretched(sheet, strained)))
    if rounding := dict.fromkeys(w for g in sheet.groups if _rounds(g) for w in words_at(g, ())):
        yield sentence("basis", "rounding", words=listed(rounding))
    compared = {g.index: g for g in _unrounded(sheet)}.values()
    for key in ("unrounded", "unplaced"):
        named = [group_words(g) for g in compared if has_no_place(g) == (key == "unplaced")]
        if named:
            yield sentence("basis", key, words=listed(dict.fromkeys(named)))
    if sheet.parts:
        yield sentence("basis", "parts", parts=how_many_parts(sheet))
    yield from _domain_lines(sheet)
    if shares := shares_of_nothing_said(sheet):
        yield sentence("basis", "bare_shares", names=listed(shares))
    if pressures := pressures_over_nothing_said(sheet):
        yield sentence("basis", "bare_pressures", names=listed(pressures))
    yield from map(upper_first, whole_lines(sheet))
    facts = [
        quoted(g.text) + (f" ({quoted(g.note)})" if g.note else "") for g in sheet.givens if not g.declared
    ]
    told = "; ".join(dict.fromkeys(facts))
    yield sentence("basis", "givens", givens=told) if told else sentence("basis", "no_givens")


def _unrounded(sheet: Sheet) -> Iterator[Group]:
    """The phrases that compare with what no reading rounds: worked out of written numbers, or 1/2."""
    for limitation in (x for claim in sheet.claims for x in claim.limitations):
        compared = (n for n in nodes(limitation.formula) if isinstance(n, Compare))
        sides = (side for n in compared for side in (n.left, n.right) if not isinstance(side, Const))
        if any(isinstance(n, Const) and n.written for side in sides for n in nodes(side)):
            yield from (g for i in limitation.groups if never_rounded(g := sheet.groups[i]))


def how_many_parts(sheet: Sheet) -> str:
    """`up to 12 holes`, `1 to 3 trays and up to 4 slots in each tray`."""
    told = []
    for part in sheet.parts:
        if part.within is not None and part.within.index > 1:
            continue
        count = sheet.declaration(part.count)
        least = int(count.lower.value) if isinstance(count, NumberDecl) and count.lower else 0
        key = "parts_exactly" if least == part.most else "parts_from" if least else "parts_up_to"
        text = sentence("basis", key, least=least, most=part.most, plural=flat(part.plural))
        if part.within is not None:
            outer = part.within.name.rpartition(" ")[0]
            text = sentence("basis", "parts_in_each", parts=text, outer=flat(outer))
        told.append(text)
    return listed(told)


def _domain_lines(sheet: Sheet) -> Iterator[str]:
    declared = tuple(_told_once(sheet))
    if sheet.steps:
        yield _steps_line(sheet)
    timed = {n for step in sheet.steps for n in (step.start, step.duration)}
    numbers = [d for d in declared if isinstance(d, NumberDecl) and d.name not in timed]
    stated = [f"{flat(d.name)} {bounds_text(d)}" for d in numbers if d.stated_bounds and bounds_text(d)]
    bounds = [sentence("basis", "bounds_stated", bounds="; ".join(stated))] if stated else []
    natural: dict[str, list[str]] = {}
    for d in numbers:
        if not d.stated_bounds and bounds_text(d):
            natural.setdefault(bounds_text(d), []).append(flat(d.name))
    if natural:
        told = (f"{listed(names)} {bounds}" for bounds, names in natural.items())
        bounds.append(sentence("basis", "bounds_natural", bounds="; ".join(told)))
    if bounds:
        yield " ".join(bounds)
    done = {step.done for step in sheet.steps}
    lists = [d for d in declared if isinstance(d, ChoiceDecl | SetDecl) and OTHERS not in d.members]
    lists = [d for d in lists if d.name not in done]
    if lists:
        told = (f"{flat(d.name)} ({listed(map(flat, d.members))})" for d in lists)
        yield sentence("basis", "closed_lists", lists="; ".join(told))


def _steps_line(sheet: Sheet) -> str:
    """The steps and events, and which of them may be left out."""
    lasting = listed(flat(step.name) for step in sheet.steps if step.duration)
    events = listed(flat(step.name) for step in sheet.steps if not step.duration)
    left_out = listed(flat(step.name) for step in sheet.steps if step.done)
    parts = [
        sentence("basis", "steps", steps=lasting) if lasting else "",
        sentence("basis", "events", events=events) if events else "",
        sentence("basis", "left_out", steps=left_out) if left_out else "",
    ]
    return sentence("basis", "timed", parts="; ".join(part for part in parts if part))


def _told_once(sheet: Sheet) -> Iterator[Declaration]:
    """The declared things, like ones once: fields of parts, moments of a step, shares of a composition.

    How many parts there are is told apart.
    """
    counts = {part.count for part in sheet.parts}
    first: dict[str, str] = {}
    others: set[str] = set()
    for part in sheet.parts:
        for i, own, name in part.slots():
            if i == 1 and (part.within is None or part.within.index == 1):
                each = f"of the {part.name}" if part.plural == part.name else part.name
                first[name] = f"{own} of each {each}"
            else:
                others.add(name)
    for step in sheet.steps:
        for own in step.fields:
            told, *rest = step.moments(own).values()
            first[told] = f"{own} of {step.name}"
            others |= set(rest)
    for made in sheet.compositions:
        shares = (*(name for name, _ in made.classes), *made.members)
        first[made.members[0]] = sentence("basis", "each_share", composition=made.name)
        others |= {*shares} - {made.members[0]}
    for d in sheet.declarations:
        if d.name not in others and d.name not in counts:
            yield replace(d, name=first.get(d.name, d.name))


def settled_briefly(sheet: Sheet, answers: Answers, everything: bool) -> Iterator[str]:
    """On the first page, the policies and pins by name with their reasons, on one line."""
    texts = [
        _with_reason(s.text, s.reason)
        for s in (*answers.silenced, *(x for group in sheet.groups for x in group.settled))
        if s.removed
    ]
    if texts and not everything:
        yield sentence("basis", "settled", settled=listed(dict.fromkeys(texts)))


def definition_lines(sheet: Sheet) -> Iterator[str]:
    """What the definitions of the description do to the words of the claims, and on what authority."""
    defined = [(g, g.definition) for g in sheet.groups if g.definition]
    if sheet.profile == "US":
        if words := _defined_words([g for g, _ in defined]):
            source = sentence("basis", "source_US")
            yield sentence("basis", "defined_alone", words=words, source=source)
        return
    source = sentence("basis", "source_EPO")
    for group, definition in defined:
        words = _defined_words([group])
        if not definition.breadth:
            yield sentence("basis", "defined_only", words=words)
            continue
        key = "defined_governs" if group.base == definition.reading else "defined_beside"
        yield sentence("basis", key, words=words, breadth=breadth_text(definition), source=source)


def own_phrase_lines(sheet: Sheet) -> Iterator[str]:
    """The phrases used of the practice's file, and any that take the place of one of the catalogue."""
    by_phrase: dict[OwnPhrase, list[str]] = {}
    for group in sheet.groups:
        if group.own and (group.own.file or group.own.instead_of):
            by_phrase.setdefault(group.own, []).append(group_words(group))
    for own, words in by_phrase.items():
        where = "own_in_file" if own.file else "own_in_sheet"
        yield sentence(
            "basis", "own_phrase",
            words=listed(dict.fromkeys(words)), title=quoted(own.title),
            place=sentence("basis", where, file=flat(own.file), line=own.line),
            instead=own.instead_of and sentence("basis", "own_instead", built_in=quoted(own.instead_of)),
        )  # fmt: skip


def _defined_words(groups: Iterable[Group]) -> str:
    """The words of defined groups, each with the place of its definition."""
    told = [
        sentence("basis", "defined_at", words=group_words(g), place=quoted(g.definition.place))
        for g in groups
        if g.definition
    ]
    return listed(dict.fromkeys(told))


def _with_reason(text: str, reason: str) -> str:
    return quoted(text) + (f" ({quoted(reason)})" if reason else "")


def settled_lines(sheet: Sheet, answers: Answers) -> Iterator[str]:
    """Every policy, definition or pin that took readings away, with its reason and what it set aside."""
    by_group = [settled for group in sheet.groups for settled in group.settled]
    removed: dict[tuple[str, str], list[str]] = {}
    for settled in (*answers.silenced, *by_group):
        removed.setdefault((settled.text, settled.reason), []).extend(_silenced(settled))
    for (text, reason), labels in removed.items():
        if labels:
            removed_labels = listed(dict.fromkeys(labels))
            yield sentence("basis", "policy", text=_with_reason(text, reason), removed=removed_labels)


def _silenced(settled: Settled) -> list[str]:
    return [quoted(label) for label in settled.removed]


def unrestated_lines(sheet: Sheet) -> Iterator[str]:
    """What of the claims no line restates: what stands close together, in one line with what surrounds it.

    Numbers, units, connectives, end words and hedges count.
    """
    return (_unrestated_line(run) for run in unrestated_runs(sheet))


def unrestated_runs(sheet: Sheet) -> tuple[tuple[Unrestated, ...], ...]:
    """The places of the account in the order of the text, drawn together where few words part them."""
    runs: list[list[Unrestated]] = []
    for left in sheet.unrestated:
        last = runs[-1][-1] if runs else None
        close = last is not None and 0 <= left.span.start - last.span.end <= CLOSE
        if last is not None and close and last.claim == left.claim:
            runs[-1].append(left)
        else:
            runs.append([left])
    return tuple(map(tuple, runs))


def _unrestated_line(run: Sequence[Unrestated]) -> str:
    first, last = run[0], run[-1]
    if len(run) == 1:
        told = sentence(
            "basis", "unrestated", claim=first.claim, line=first.span.line, sort=first.sort,
            words=quoted(first.words), context=quoted(first.context),
        )  # fmt: skip
    else:
        text = first.span.source.text
        told = sentence(
            "basis", "unrestated_many", claim=first.claim, line=first.span.line, count=len(run),
            words=listed(quoted(left.words) for left in run),
            context=quoted(_around(text, first.span.start, last.span.end)),
        )  # fmt: skip
    lines = {left.beside.line: left.beside.text for left in run if left.beside is not None}
    if lines:
        beside = (sentence("basis", "beside_line", line=n, words=quoted(text)) for n, text in lines.items())
        told = f"{told}; {sentence('basis', 'beside', lines=listed(beside))}"
    return told


_LINES = regex(r"\n[ \t]*(?:\n|\|[^\n]*\n?)")
"""What no words of a claim reach across: an empty line, and lines that restate it."""


def _around(text: str, start: int, end: int) -> str:
    """The words from one place to another, with some of the claim's own on either side."""
    before, after = _LINES.split(text[:start])[-1].split(), _LINES.split(text[end:])[0].split()
    told = flat(text[start:end])
    told = f"{' '.join(before[-AROUND:])}{' ' * text[start - 1 : start].isspace()}{told}"
    return f"{told}{' ' * text[end : end + 1].isspace()}{' '.join(after[:AROUND])}".strip()


def _why(why: str) -> str:
    """Why a reading does not apply, a condition in plain maths."""
    only, _, condition = why.partition("only when ")
    return flat(why if only or not condition else f"only when {plain_formula(condition)}")


def left_out_lines(sheet: Sheet) -> Iterator[str]:
    """The readings that have no formula, and those that do not apply where their words stand, and why."""
    for group in sheet.groups:
        parts = []
        if group.not_computed:
            parts.append(sentence("basis", "not_computed", labels=listed(map(quoted, group.not_computed))))
        if group.not_tried:
            labels = (f"{quoted(label)} ({_why(why)})" for label, why in group.not_tried)
            parts.append(sentence("basis", "not_tried", labels=listed(labels)))
        if parts:
            yield f"{group_words(group)}: {'; '.join(parts)}."


def _other_category_lines(sheet: Sheet) -> tuple[str, ...]:
    """For the claims that name the same ones so, that they were handled as independent, and what they take
    over."""
    by_named: dict[tuple[int, ...], list[int]] = {}
    for claim in sheet.claims:
        if claim.other_category:
            by_named.setdefault(tuple(claim.parents), []).append(claim.number)
    return tuple(
        sentence(
            "basis",
            ("other_category" if len(named) == 1 else "other_category_many") + "_each" * (len(numbers) > 1),
            claim=upper_first(claims_text(numbers)),
            named=claims_text(named),
        )
        for named, numbers in by_named.items()
    )
