"""What lets something slip: a member that a name sets free, a thing that changes sides with its user."""

from __future__ import annotations

from scopecheck.answers.about import Moves, Needed
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article
from scopecheck.core.model import Sheet
from scopecheck.report.describe import limitation_labelled, setting_text
from scopecheck.report.things import spoken_of
from scopecheck.report.wording import flat, listed, sentence

QUESTIONS = ("member freed", "moves with something else")


def slip_texts(sheet: Sheet, finding: Finding) -> dict[str, str]:
    """What the sentences of these findings, and of no others, are filled with."""
    if isinstance(finding.about, Needed) and finding.witness is not None:
        return _needed(sheet, finding.about.member, finding.witness.article)
    limitation = limitation_labelled(sheet, finding.label)
    if finding.question not in QUESTIONS or finding.witness is None or limitation is None:
        return {}
    return {**_freed(sheet, finding), **_moving(sheet, finding)}


def _freed(sheet: Sheet, finding: Finding) -> dict[str, str]:
    """The class, the members named, the other members that are there, and how much of each."""
    limitation = limitation_labelled(sheet, finding.label)
    assert limitation is not None
    assert finding.witness is not None
    if limitation.narrows is None:
        return {}
    article = finding.witness.article
    name, members = limitation.narrows
    classes = {above: below for made in sheet.compositions for above, below in made.classes}
    there = [m for m in classes[name] if article[m]]
    others = [m for m in there if m not in members] or [m for m in classes[name] if m not in members]
    amounts = listed(setting_text(sheet, m, article[m]) for m in there)
    total = setting_text(sheet, name, article[name])
    return {
        "narrowed": flat(name),
        "keep": sentence("keep", "one" if len(lines_of(finding)) == 1 else "many"),
        "members": listed(map(flat, members)),
        "freed": listed(map(flat, others)),
        "together": sentence("slip", "together", amounts=amounts, total=total),
    }


def _needed(sheet: Sheet, name: str, article: Article) -> dict[str, str]:
    """The class, its written members, the further one, and how much of each there is."""
    below = next(below for made in sheet.compositions for above, below in made.classes if above == name)
    further = f"other {name}"
    written = [m for m in below if m != further]
    amounts = listed(setting_text(sheet, m, article[m]) for m in below if article[m])
    return {
        "narrowed": flat(name),
        "members": listed(map(flat, written)),
        "alone": ", ".join(map(flat, written)),
        "freed": flat(further),
        "together": sentence(
            "slip", "together", amounts=amounts, total=setting_text(sheet, name, article[name])
        ),
    }


def _moving(sheet: Sheet, finding: Finding) -> dict[str, str]:
    """What stays, and what the user or the like has the first and the second time."""
    limitation = limitation_labelled(sheet, finding.label)
    moves = finding.about
    if not isinstance(moves, Moves) or finding.witness is None or limitation is None:
        return {}
    one, other = finding.witness.article, moves.other.article
    spoken = spoken_of((limitation,))
    own = [d.name for d in sheet.declarations if isinstance(d, NumberDecl) and d.varies == moves.of]
    moving = [n for n in own if one[n] != other[n]]
    fixed = [d.name for d in sheet.declarations if d.name in spoken and d.name not in own]
    return {
        "fixed": sentence("slip", "fixed", values=listed(setting_text(sheet, n, one[n]) for n in fixed))
        if fixed
        else sentence("thing", "any"),
        "first": listed(setting_text(sheet, n, one[n]) for n in moving),
        "second": listed(setting_text(sheet, n, other[n]) for n in moving),
        "of": flat(moves.of),
    }
