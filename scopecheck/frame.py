"""What stands around the findings: the head of a report, and its foot with all that an answer rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopecheck.blocks import Banner, Block, Heading, Listing, Paragraph
from scopecheck.construction import admissible_readings
from scopecheck.core import OTHERS, ChoiceDecl, Group, NumberDecl, SetDecl, Settled, Sheet
from scopecheck.describe import bounds_text, case_text, group_words
from scopecheck.findings import QUESTIONS, Answers, Looked
from scopecheck.wording import about_lines, claims_text, counted, flat, listed, quoted, sentence, upper_first

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
        )
    )
    yield Paragraph(looked_at(sheet))


def looked_at(sheet: Sheet) -> str:
    """`Looked at: 2 claims with 5 limitations; ...`."""
    roles = [case.role for case in sheet.cases]
    cases = [counted(roles.count(r), r) for r in ("inside", "outside", "document", "class") if r in roles]
    open_groups = groups_with_choice(sheet)
    return sentence(
        "head",
        "looked_at",
        claims=counted(len(sheet.claims), "claim"),
        limitations=counted(sum(len(claim.limitations) for claim in sheet.claims), "limitation"),
        cases=listed(cases) or sentence("head", "no_cases"),
        phrases=counted(len(open_groups), "phrase"),
        readings=counted(sum(len(admissible_readings(g)) for g in open_groups), "reading"),
    )


def groups_with_choice(sheet: Sheet, strained: bool = False) -> tuple[Group, ...]:
    """The phrases and nouns that are left with more than one reading, or with a stretch."""
    stretched = {p.group for p in sheet.parameters}
    return tuple(g for g in sheet.groups if len(admissible_readings(g, strained)) > 1 or g.index in stretched)


# ---- foot


def foot(sheet: Sheet, answers: Answers, strained: bool) -> Iterator[Block]:
    """What was looked for and not found, what all this rests on, what was left out, and how to read it."""
    yield Heading(sentence("section", "looked"))
    yield Listing(tuple(looked_lines(sheet, answers.looked)) or (sentence("basis", "none_looked"),))
    yield Heading(sentence("section", "basis"))
    yield Listing(tuple(basis_lines(sheet, strained)))
    for section, lines in (
        ("settled", settled_lines(sheet, answers)),
        ("unrestated", unrestated_lines(sheet)),
        ("uncomputed", left_out_lines(sheet)),
    ):
        found = tuple(dict.fromkeys(lines))
        if found:
            yield Heading(sentence("section", section))
            yield Listing(found)
    yield Heading(sentence("section", "about"))
    for text in about_lines():
        yield Paragraph(text, quiet=True)


def looked_lines(sheet: Sheet, looked: Iterable[Looked]) -> Iterator[str]:
    """One line a question: what was looked for, at which claims, with which cases."""
    by_question: dict[str, list[Looked]] = {}
    for entry in looked:
        by_question.setdefault(entry.question, []).append(entry)
    for question in sorted(by_question, key=QUESTIONS.index):
        entries = by_question[question]
        by_case: dict[str, set[int]] = {}
        for entry in entries:
            by_case.setdefault(entry.case, set()).add(entry.claim)
        by_claims: dict[str, list[str]] = {}
        for case, numbers in by_case.items():
            by_claims.setdefault(claims_text(numbers), []).append(case)
        places = []
        for claims, cases in by_claims.items():
            named = listed(case_text(sheet, c) for c in cases if c)
            places.append(f"{claims} ({named})" if named else claims)
        what = upper_first(sentence("question", question, "looked"))
        yield sentence("basis", "looked", looked=what, claims="; ".join(places), cases="")


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
    else:
        yield sentence("basis", "no_phrases")
    stretched = dict.fromkeys(group_words(sheet.groups[p.group]) for p in sheet.parameters)
    if stretched:
        yield sentence("basis", "parameters", words=listed(stretched))
    yield from _domain_lines(sheet)
    facts = [quoted(g.text) + (f" ({quoted(g.note)})" if g.note else "") for g in sheet.givens]
    yield sentence("basis", "givens", givens="; ".join(facts)) if facts else sentence("basis", "no_givens")


def _domain_lines(sheet: Sheet) -> Iterator[str]:
    numbers = [d for d in sheet.declarations if isinstance(d, NumberDecl)]
    stated = [f"{flat(d.name)} {bounds_text(d)}" for d in numbers if d.stated_bounds and bounds_text(d)]
    if stated:
        yield sentence("basis", "bounds_stated", bounds="; ".join(stated))
    natural: dict[str, list[str]] = {}
    for d in numbers:
        if not d.stated_bounds and bounds_text(d):
            natural.setdefault(bounds_text(d), []).append(flat(d.name))
    if natural:
        told = (f"{listed(names)} {bounds}" for bounds, names in natural.items())
        yield sentence("basis", "bounds_natural", bounds="; ".join(told))
    lists = [d for d in sheet.declarations if isinstance(d, ChoiceDecl | SetDecl) and OTHERS not in d.members]
    if lists:
        told = (f"{flat(d.name)} ({listed(map(flat, d.members))})" for d in lists)
        yield sentence("basis", "closed_lists", lists="; ".join(told))


def settled_lines(sheet: Sheet, answers: Answers) -> Iterator[str]:
    """Every policy, definition or pin that took readings away, with its reason and what it set aside."""
    by_group = [settled for group in sheet.groups for settled in group.settled]
    removed: dict[tuple[str, str], list[str]] = {}
    for settled in (*answers.silenced, *by_group):
        removed.setdefault((settled.text, settled.reason), []).extend(_silenced(settled))
    for (text, reason), labels in removed.items():
        if labels:
            yield sentence(
                "basis",
                "policy",
                text=quoted(text),
                reason=f" ({quoted(reason)})" if reason else "",
                removed=listed(dict.fromkeys(labels)),
            )


def _silenced(settled: Settled) -> list[str]:
    return [quoted(label) for label in settled.removed]


def unrestated_lines(sheet: Sheet) -> Iterator[str]:
    """The numbers, units, connectives, end words and hedges of the claims that no line restates."""
    for left in sheet.unrestated:
        words, context = quoted(left.words), quoted(left.context)
        yield sentence("basis", "unrestated", claim=left.claim, sort=left.sort, words=words, context=context)


def left_out_lines(sheet: Sheet) -> Iterator[str]:
    """The readings that have no formula, and those that do not apply where their words stand, and why."""
    for group in sheet.groups:
        words = group_words(group)
        for label in group.not_computed:
            yield sentence("basis", "not_computed", words=words, label=flat(label))
        for label, why in group.not_tried:
            yield sentence("basis", "not_tried", words=words, label=flat(label), why=flat(why))
