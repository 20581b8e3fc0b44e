"""Words of degree: the two most different things that meet the word, and what is to be stated instead."""

from __future__ import annotations

import itertools
import json
from fractions import Fraction

import pytest
from typer.testing import CliRunner

from scopecheck.answers.about import Unmeasured
from scopecheck.answers.findings import Answers, Finding
from scopecheck.answers.questions import ask_all
from scopecheck.cli import app
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.report.page import build_report
from scopecheck.report.render import render
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.constraints import Budget
from scopecheck.solving.evaluate import evaluate

WALL = "wall  length in mm, > 0.1 mm, <= 30 mm"


def sheet(declared: str, words: str, rest: str = "") -> Sheet:
    left = declared.split()[0].rstrip(",")
    text = f"{declared}\n\n1. A thing with a {left} that is {words}.\n   | {left} : {words}\n\n{rest}\n"
    made, wrong = read_sheet(Source("leaf.sheet", text))
    assert made is not None, [d.message for d in wrong]
    return made


def found(answers: Answers) -> list[Finding]:
    return [f for f in answers.findings if f.question == "without measure"]


def ends(made: Sheet) -> tuple[str, str, str]:
    """The least and the greatest value shown, in the unit of the sheet, and where there is no end."""
    (finding,) = found(ask_all(made))
    d = made.declarations[0]
    assert finding.witness
    assert isinstance(finding.about, Unmeasured)
    values = []
    for witness in (finding.witness, finding.about.other):
        value = witness.article[d.name]
        assert isinstance(value, Fraction)
        values.append(str(d.unit.from_base(value)))  # type: ignore[union-attr]
    return values[0], values[1], finding.about.no_end


@pytest.mark.parametrize(
    ("declared", "words", "least", "greatest", "detail"),
    [
        (WALL, "thin", "1/5", "30", "neither"),
        ("wall  length in mm, >= 2 mm, <= 3 mm", "thick", "2", "3", "neither"),
        ("wall  length in mm", "wide", "0", "1000000", "above"),
        ("heat  temperature in degC, <= 90 degC", "hot", "-5463/20", "90", "neither"),
        ("feel  number, >= 1, <= 10", "highly flexible", "1", "10", "neither"),
        ("feel  number", "stiff", "-1000000", "1000000", "both"),
        ("feel  number, <= 4", "stiff", "-1000000", "4", "below"),
        ("teeth  count, >= 1, <= 40", "few", "1", "40", "neither"),
        ("teeth  count, > 1, < 40", "many", "2", "39", "neither"),
    ],
)
def test_the_least_and_the_greatest_thing_are_shown(
    declared: str, words: str, least: str, greatest: str, detail: str
) -> None:
    assert ends(sheet(declared, words)) == (least, greatest, detail)


def test_given_facts_bound_the_things() -> None:
    made = sheet("wall, rib  length in mm, >= 1 mm", "thin", "given  wall <= 2 * rib, rib <= 40 mm")
    assert ends(made) == ("1", "80", "neither")


@pytest.mark.parametrize(("words", "greatest"), [("thin", 30), ("thick", 30), ("flexible", 30)])
def test_no_thing_of_a_grid_is_farther_off(words: str, greatest: int) -> None:
    """By trying: thresholds and walls in tenths of a millimetre, judged by the exact meaning alone."""
    made = sheet("wall  length in mm, > 0 mm, <= 30 mm", words)
    formula = made.claims[0].limitations[0].formula
    unknown = {p.reading: p for p in made.parameters}
    met: set[Fraction] = set()
    for reading, tenths, at in itertools.product(unknown, range(0, 301, 10), (1, 100, 300)):
        base = base_construction(made)
        values = {**dict(base.parameters), unknown[reading].key: Fraction(tenths, 10_000)}
        k = Construction((reading,), tuple(values.items()))
        wall = Fraction(at, 10_000)
        if evaluate(formula, {"wall": wall}, k) is True:
            met.add(wall)
    assert max(met) == Fraction(greatest, 1000)
    assert ends(made)[1] == str(greatest)


def test_things_are_met_each_on_its_own_threshold() -> None:
    made = sheet(WALL, "thin")
    (finding,) = found(ask_all(made))
    assert isinstance(finding.about, Unmeasured)
    for witness in (finding.witness, finding.about.other):
        assert witness
        (obligation,) = witness.obligations
        assert obligation.expected == "met"
        assert evaluate(obligation.formula, witness.article, obligation.construction) is True
        assert made.groups[0].readings[obligation.construction.readings[0]].label == "standard of the field"


# ---- what is not said of a threshold that nobody knows


def test_an_unknown_threshold_empties_no_claim_and_makes_none_idle() -> None:
    text = (
        f"{WALL}\n\n1. A thing with a thin wall.\n   | wall : thin\n\n"
        "2. The thing of claim 1, wherein the wall is at most 3 mm.\n   | wall : at most 3 mm\n"
    )
    made, _ = read_sheet(Source("leaf.sheet", text))
    assert made is not None
    grave = [f for f in ask_all(made).findings if f.stakes <= 4]
    assert grave == []


def test_that_holds_where_only_the_threshold_is_left() -> None:
    made = sheet(WALL, "thin", 'policy  relative words are standard of the field  "paragraph 3"')
    answers = ask_all(made)
    assert [f.question for f in answers.findings if f.stakes <= 4] == []
    assert ends(made)[:2] == ("1/5", "30")


def test_a_threshold_that_a_pin_gives_is_known() -> None:
    made = sheet(WALL, "thin", 'read "thin" as "standard of the field" with c = 6 mm  "paragraph 3"')
    assert not found(ask_all(made))


def test_a_hedge_of_a_number_is_no_word_of_degree() -> None:
    assert not found(ask_all(sheet(WALL, "about 3 mm")))


def test_what_is_not_decided_is_told() -> None:
    answers = ask_all(sheet(WALL, "thin"), Budget(work=1, wall=10))
    (finding,) = found(answers)
    assert finding.outcome == "undecided"
    assert finding.reason


# ---- the page


def page(declared: str, words: str) -> str:
    made = sheet(declared, words)
    return " ".join(render(build_report(made, ask_all(made), False), "text", 200, False).split())


def test_the_first_page_asks_for_a_measure_a_test_and_limits() -> None:
    assert "Words without a measure ─" in page(WALL, "thin")
    assert (
        '- 1a "thin" states no measure: wall 0.2 mm and wall 30 mm both meet it, each on some threshold, '
        "within the bounds and facts that the sheet gives. To be stated: by which measure and test method "
        "it is told, and within which limits."
    ) in page(WALL, "thin")
    assert "and what meets it goes on above the second without end" in page("wall  length in mm", "thin")


def test_a_threshold_is_told_as_one() -> None:
    policy = 'policy  relative words are standard of the field  "paragraph 3"'
    made = sheet(WALL, "thin", f"{policy}\n\nmust stay out\n  brick : wall = 25 mm")
    text = " ".join(render(build_report(made, ask_all(made), False), "text", 200, False).split())
    assert 'wall <= threshold; once the threshold of "thin" is 25 mm or more' in text


def run(*arguments: str) -> str:
    result = CliRunner().invoke(app, list(arguments))
    assert result.exit_code in (0, 1), result.output
    return result.stdout


def test_probe_shows_the_things_and_draws_no_threshold_that_nobody_knows() -> None:
    text = run("probe", "thin", "-d", WALL)
    assert '1a "thin" states no measure: wall 0.2 mm and wall 30 mm both meet it' in " ".join(text.split())
    assert '"standard of the field" (no presumption known). Meaning: wall <= threshold.' in " ".join(
        text.split()
    )
    assert sum(line.startswith("standard of the field") for line in text.splitlines()) == 0
    data = json.loads(run("probe", "thin", "-d", WALL, "--outside", "20 mm", "-f", "json"))
    (told,) = [f for f in data["findings"] if f["question"] == "without measure"]
    assert [told[side][0]["written"] for side in ("article", "twin")] == ["0.2 mm", "30 mm"]
