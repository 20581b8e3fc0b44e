"""A kind: on which readings of a phrase does this thing fall out?"""

from __future__ import annotations

from scopecheck.core.construction import weakest_standing
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.replies import is_none, picks
from scopecheck.drill.sayings import lettered, reading_said, told, words_of
from scopecheck.report.wording import listed, sentence


def set_falls_out(bench: Bench, aim: Aim) -> Problem | None:
    """A thing that falls out on one reading of the phrase and not on another."""
    limitation = bench.limitation(aim.label)
    sample = bench.sample(bench.limitations(aim.claim))
    falls, stays = bench.labelled(limitation, aim.reading), bench.labelled(limitation, aim.other)
    if sample is None or falls is None or stays is None:
        return None
    out, other = bench.taken(limitation, falls), bench.taken(limitation, stays)
    search = bench.session.search(())
    search.require(~bench.session.met(out), bench.session.met(other))
    found = bench.found(aim.claim, search, (out, other), ((out, "not met"), (other, "met")), sample)
    if found is None or found.witness is None:
        return None
    article = found.witness.article
    met = bench.on_readings(limitation, article)
    letters = lettered(bench, limitation)
    at = words_of(limitation)
    names = [d.name for d in bench.sheet.declarations if d.name in bench.session.names_in(limitation.formula)]
    group = bench.group(limitation)
    assert group is not None
    return Problem(
        aim,
        tuple(
            sentence("drill", "told", "letter", letter=letter, reading=reading_said(bench, limitation, r))
            for letter, r in letters
        ),
        sentence(
            "drill", "falls_out", "asked", limitation=at, facts=told(facts_text(bench.sheet, article, names))
        ),
        sentence("drill", "how", "letters"),
        ", ".join(letter for letter, r in letters if r not in met),
        sample=tuple(sample.items()),
        case=tuple(article.items()),
        labels=tuple(letter for letter, r in letters if r not in met),
        standing=weakest_standing(bench.sheet, bench.base.with_reading(group, falls), (group,)),
        finding=found,
    )


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right where exactly the readings on which the thing falls out are named. Raises Unreadable."""
    limitation = bench.limitation(problem.aim.label)
    letters = dict(lettered(bench, limitation))
    given = () if is_none(text) else picks(text, tuple(letters))
    met = bench.on_readings(limitation, problem.thing)
    right = tuple(letter for letter, r in letters.items() if r not in met)
    if given == right:
        return Verdict("right", (sentence("drill", "grade", "letters_right", letters=listed(right)),))
    lines = []
    for letter, r in letters.items():
        if (letter in given) != (r not in met):
            key = "letter_met" if r in met else "letter_missed"
            said = reading_said(bench, limitation, r)
            lines.append(sentence("drill", "grade", key, letter=letter, reading=said))
    return Verdict("wrong", tuple(lines))
