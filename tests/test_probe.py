"""One limitation by itself: what each reading lets in, the picture, and the things on which readings part."""

from __future__ import annotations

import json
import re
from fractions import Fraction as F

import pytest
from typer.testing import CliRunner, Result

from scopecheck.cli import app
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.probe import Parting, Probe, probe
from scopecheck.report.probe_sheet import Wish, sheet_source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import meets
from tests.forbidden_words import forbidden_in

COUNTS = "holes count, >= 1, <= 24"
SIX = [str(n) for n in (6, 12, 18, 24)]


def sheet_of(limitation: str, *declare: str, **more: object) -> Sheet:
    sheet, diagnostics = read_sheet(sheet_source(Wish(limitation, declare, **more)))  # type: ignore[arg-type]
    assert sheet is not None, diagnostics
    return sheet


def probed(limitation: str, *declare: str, **more: object) -> Probe:
    return probe(sheet_of(limitation, *declare, **more))


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["probe", *arguments])


def met(found: Probe) -> dict[str, str]:
    return {row.label: row.met for row in found.rows}


def label_of(found: Probe, parting: Parting) -> str:
    return found.sheet.groups[parting.group].readings[parting.reading].label


def things(found: Probe, label: str, wider: bool) -> list[dict[str, object]]:
    """The things on which the reading and the base part, this way."""
    return [
        dict(p.finding.witness.values)
        for p in found.partings
        if label_of(found, p) == label and p.wider is wider and p.finding and p.finding.witness
    ]


# ---- divisible by 6, over counts 1 to 24


def test_divisible_by_6_value_by_value() -> None:
    found = probed("divisible by 6", COUNTS)
    table = found.drawn.picture
    assert isinstance(table, ValueTable)
    assert table.values == tuple(range(1, 25))
    rows = dict(table.rows)
    assert rows["can be divided"] == (True,) * 24
    assert rows["leaves an integer quotient"] == tuple(n % 6 == 0 for n in range(1, 25))


def test_divisible_by_6_in_words() -> None:
    told = met(probed("divisible by 6", COUNTS))
    assert told["can be divided"] == "every value (1 to 24)"
    assert told["leaves an integer quotient"] == ", ".join(SIX)


def test_divisible_by_6_names_what_an_opponent_would_bring() -> None:
    found = probed("divisible by 6", COUNTS)
    assert things(found, "can be divided", True) == [{"holes": F(1)}]
    assert things(found, "can be divided", False) == []
    text = " ".join(run("divisible by 6", "-d", COUNTS).stdout.split())
    assert '"can be divided" lets in holes 1; "leaves an integer quotient" does not.' in text
    assert "Raised by the examiner or a challenger" in text


def test_a_known_case_gives_the_witness_nearest_to_it() -> None:
    found = probed("divisible by 6", COUNTS, inside=("12",))
    (thing,) = things(found, "can be divided", True)
    assert thing["holes"] in (F(11), F(13))


# ---- number lines


def test_between_as_a_number_line() -> None:
    found = probed("between 2 and 4 mm", "gap length in mm")
    line = found.drawn.picture
    assert isinstance(line, NumberLine)
    assert (line.name, line.unit, line.whole) == ("gap", "mm", False)
    rows = dict(line.rows)
    assert rows["both ends in"] == (Stretch(F(2), True, F(4), True),)
    assert rows["both ends out"] == (Stretch(F(2), False, F(4), False),)
    assert rows["rounds to the ends"] == (Stretch(F(3, 2), True, F(9, 2), False),)


def test_an_end_is_kept_out_by_the_narrower_reading() -> None:
    found = probed("between 2 and 4 mm", "gap length in mm", profile="EPO")
    (thing,) = things(found, "both ends out", False)
    assert thing["gap"] in (F(2, 1000), F(4, 1000))
    assert things(found, "both ends out", True) == []


def test_listed_cases_are_marked_on_the_line() -> None:
    found = probed("between 2 and 4 mm", "gap length in mm", inside=("3 mm",), outside=("old : gap = 4 mm",))
    assert isinstance(found.drawn.picture, NumberLine)
    assert found.drawn.picture.marks == (("inside 1", F(3)), ("old", F(4)))


def test_bounds_and_given_facts_limit_the_line() -> None:
    found = probed("at least 2 mm", "gap length in mm, <= 9 mm", given=("gap < 5 mm",))
    assert isinstance(found.drawn.picture, NumberLine)
    assert all(s.high in (F(5), None) and not s.high_closed for _, ss in found.drawn.picture.rows for s in ss)


def test_a_stretch_nobody_fixed_is_drawn_as_presumed_and_said_so() -> None:
    found = probed("about 35 %", "open share in %")
    assert met(found)["context tolerance"] == "open = 35 %"
    text = " ".join(run("about 35 %", "-d", "open share in %").stdout.split())
    assert 'How far "context tolerance" stretches is fixed nowhere; it is drawn at 0 %' in text
    assert '"context tolerance" lets in open 34.9 %, once "about 35 %" stretches by' in text
    assert "stretches by about 0.286 % or more" in text
    assert F("0.1") / 35 == F(2, 7) / 100


def test_the_stretch_told_is_that_of_the_thing_told() -> None:
    text = " ".join(run("less than 5 mm", "-d", "gap length in mm", "--profile", "EPO").stdout.split())
    assert 'keeps out gap 4 mm, once "less than 5 mm" stretches by 1 mm or more' in text
    text = " ".join(run("not more than 50 g", "-d", "dose mass in g", "--strained").stdout.split())
    assert 'keeps out dose 50 g, once "not more than 50 g" stretches at all' in text


@pytest.mark.parametrize("unit", ["g", "g/l", "mg/g"])
def test_the_g_of_a_stretch_is_not_that_of_a_unit(unit: str) -> None:
    text = " ".join(run(f"not more than 50 {unit}", "-d", f"dose in {unit}", "--strained").stdout.split())
    assert f"Meaning: dose <= 50 {unit} - stretch." in text.replace("\u00a0", " ")


def test_symbols_have_one_reading() -> None:
    found = probed("2 mm <= gap < 4 mm", "gap length in mm")
    assert met(found) == {"as written": "2 <= gap < 4 mm"}
    assert found.partings == ()


def test_endless_whole_numbers_are_shown_in_part_and_said_so() -> None:
    found = probed("divisible by 6", "holes count")
    assert isinstance(found.drawn.picture, ValueTable)
    assert found.drawn.picture.values[:3] == (0, 1, 2)
    assert found.drawn.part_shown == "Only 0 to 24 is shown; holes has more values."


def test_an_irrational_end_is_told_in_words() -> None:
    found = probed("side * side <= 2 mm^2", "side length in mm")
    assert found.drawn.picture is None
    assert met(found) == {"as written": "0 <= side < 1.414213... mm"}


# ---- choices, sets, several quantities


def test_a_set_is_shown_by_the_members_spoken_of() -> None:
    found = probed("at least one of copper and zinc", "metal any of copper, zinc, steel")
    table = found.drawn.picture
    assert isinstance(table, ValueTable)
    assert table.values == ("none", "copper", "zinc", "copper + zinc")
    assert dict(table.rows)["one of each"] == (False, False, False, True)
    assert "steel" in found.drawn.part_shown


def test_several_quantities_without_a_case_give_things_only() -> None:
    found = probed("copper, zinc : ratio of copper to zinc 9:1", "copper, zinc share in wt%")
    assert found.drawn.picture is None
    assert "zinc" in found.drawn.no_picture
    assert things(found, "first over second, rounded", True)


def test_several_quantities_are_fixed_at_the_values_of_a_case() -> None:
    limitation = "copper, zinc : ratio of copper to zinc 9:1"
    case = ("copper = 90 wt%, zinc = 10 wt%",)
    found = probed(limitation, "copper, zinc share in wt%", inside=case)
    assert (found.shown, found.fixed_by) == ("copper", "inside 1")
    assert met(found)["first over second"] == "copper = 90 wt%"
    other = probe(sheet_of(limitation, "copper, zinc share in wt%", inside=case), show="zinc")
    assert (other.shown, met(other)["first over second"]) == ("zinc", "zinc = 10 wt%")
    text = run(limitation, "-d", "copper, zinc share in wt%", "--inside", case[0]).stdout
    assert "Shown is copper, with zinc 10 wt% as in inside 1." in " ".join(text.split())


# ---- what is shown is so


PROBES = [
    ("divisible by 6", (COUNTS,)),
    ("a multiple of 4", ("holes count",)),
    ("between 2 and 4 mm", ("gap length in mm",)),
    ("from 2 to 4 mm", ("gap length in mm",)),
    ("more than 3", ("holes count",)),
    ("at least 2.0 mm", ("gap length in mm",)),
    ("not more than 0.5 mm", ("gap length in mm",)),
    ("about 20 mm", ("gap length in mm",)),
    ("within 2 mm of 20 mm", ("gap length in mm",)),
    ("a plurality", ("holes count",)),
    ("at least one of copper and zinc", ("metal any of copper, zinc, steel",)),
]


@pytest.mark.parametrize(("limitation", "declare"), PROBES)
def test_every_parting_is_confirmed_by_the_evaluator(limitation: str, declare: tuple[str, ...]) -> None:
    found = probed(limitation, *declare)
    base = next(row.construction for row in found.rows if row.group is None or row is found.rows[0])
    for parting in found.partings:
        assert not parting.reason
        if parting.finding is None:
            continue
        assert parting.finding.witness is not None
        assert parting.finding.construction is not None
        article = parting.finding.witness.article
        formula = found.limitation.formula
        assert meets(formula, article, parting.finding.construction) is parting.wider
        assert meets(formula, article, base) is not parting.wider


@pytest.mark.parametrize(("limitation", "declare"), PROBES)
def test_output_speaks_plainly(limitation: str, declare: tuple[str, ...]) -> None:
    arguments = [limitation, *(a for d in declare for a in ("-d", d))]
    for format in ("text", "markdown"):
        result = run(*arguments, "--format", format)
        assert result.exit_code == 0, result.output
        assert forbidden_in(result.stdout, [limitation, *declare]) == []


# ---- with cases and a meaning


def test_cases_and_meaning_add_findings() -> None:
    result = run("divisible by 6", "-d", COUNTS, "--outside", "7", "--meant", "holes / 6 IS WHOLE")
    assert result.exit_code == 1
    assert "What is met, reading by reading" in result.stdout
    assert "outside 1" in result.stdout
    assert run("divisible by 6", "-d", COUNTS).exit_code == 0


def test_json_holds_picture_and_partings() -> None:
    data = json.loads(run("divisible by 6", "-d", COUNTS, "-f", "json").stdout)
    assert data["pictures"][0]["values"][:2] == ["1/1", "2/1"]
    one = [{"name": "holes", "exact": "1/1", "unit": "", "written": "1"}]
    assert any(finding["article"] == one for finding in data["findings"])


# ---- the sheet that is made


def test_the_text_of_the_made_claim_has_the_words_of_its_limitation() -> None:
    sheet = sheet_of("between 2 and 4 mm", "gap length in mm")
    assert sheet.claims[0].limitations[0].words == "between 2 and 4 mm"
    assert sheet.unrestated == ()


@pytest.mark.parametrize(
    ("words", "left"),
    [
        ("twice to three times the pull-out", "stroke"),
        ("at most half of the pull-out", "pull-out, stroke|stroke"),
        ("at least 3 mm", "pull-out"),
    ],
)
def test_what_the_words_do_not_name_is_what_they_limit(words: str, left: str) -> None:
    result = run(words, "-d", "pull-out length in mm", "-d", "stroke length in mm")
    assert result.exit_code == 2
    told = re.search(rf'"([^"]*) : {re.escape(words)}"', " ".join(result.output.split()))
    assert told is not None
    assert told[1] in left.split("|")
    assert (
        run(f"{told[1]} : {words}", "-d", "pull-out length in mm", "-d", "stroke length in mm").exit_code == 0
    )


def test_no_line_is_offered_that_is_refused() -> None:
    declared = ("-d", "first force  force in N", "-d", "second force  force in N")
    output = " ".join(run("at least 20% lower", *declared).output.split())
    assert "of none of them by itself a phrase reads" in output
    assert "first force : at least" not in output


def test_words_that_nothing_meets_are_told() -> None:
    declared = ("-d", "sintering step in min", "-d", "cooling step in min")
    after = "within 10 minutes after completion of the sintering"
    assert "Nothing meets these words" in run(f"sintering : {after}", *declared).output
    output = run(f"cooling : {after}", *declared).output
    assert "Nothing meets these words" not in output
    assert "the first of those presumed" in " ".join(output.split())


def test_line_ends_in_options_begin_no_statement() -> None:
    wish = Wish("divisible by 6\n2. Another claim", ("holes count,\n>= 1",), inside=("6\nclass",))
    text = sheet_source(wish).text
    assert "holes count, >= 1\n" in text
    assert not re.search(r"^(2\.|class|>=)", text, re.MULTILINE)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["divisible by 6"], "what are these words about?"),
        (["between 2 and 4 mm"], '--declare "size  length in mm"'),
        (["divisible by 6", "-d", "a count", "-d", "b count"], "which of the quantities"),
        (["", "-d", COUNTS], "no words"),
        *(([text, "-d", COUNTS], "no words stand right of the colon") for text in (":", " : ", "holes:")),
        (["frobnicated 6", "-d", COUNTS], "frobnicated"),
        (["divisible by 6", "-d", "gap length in mm"], "write 6 mm"),
        (["divisible by 6", "-d", "holes cuont"], "holes cuont"),
        (["divisible by 6", "-d", COUNTS, "--inside", "30"], "30"),
        (["divisible by 6", "-d", COUNTS, "--profile", "JP"], "no profile"),
        (["divisible by 6", "-d", COUNTS, "--show", "pins"], "'pins' is not declared"),
        (["divisible by 6", "-d", COUNTS, "--meant", "holes / 6 is whole"], "'is whole'"),
        (["holes : ", "-d", COUNTS], "error: "),
        (["(((", "-d", COUNTS], "error: "),
    ],
)
def test_bad_input_gets_a_message(arguments: list[str], message: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2, result.output
    assert message in result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.stderr


def test_what_is_missing_is_told_before_a_sheet_is_made() -> None:
    with pytest.raises(Trouble, match="what are these words about"):
        sheet_source(Wish("divisible by 6"))


def test_what_is_denied_is_told_as_denied() -> None:
    found = run("gap : not at least 3 mm", "--declare", "gap length in mm")
    assert "Meaning: not so that gap >= 3 mm." in found.output


@pytest.mark.parametrize(
    ("words", "declared", "told"),
    [
        (
            "copper, zinc or tin",
            "metal any of copper, zinc, tin, lead",
            "at least one of {copper, zinc or tin}",
        ),
        ("250 ml +10/-5 %", "vol volume in ml", "<= 250 ml + 10 % × 250 ml"),
        ("30 mm +0.2/-0.1 mm", "gap length in mm", "<= 30 mm + 0.2 mm"),
        (
            "gap, rim : at least 5 mm or 20 % of the rim, whichever is greater",
            "gap, rim length in mm",
            "gap >= the greatest of 5 mm and 20 % × rim",
        ),
    ],
)
def test_a_meaning_has_whole_lists_and_units(words: str, declared: str, told: str) -> None:
    result = run(words, "-d", declared)
    assert told in " ".join(result.output.split())


def test_json_has_the_warnings_that_text_tells_apart() -> None:
    asked = ("doses : three doses after a week", "-d", "doses count")
    as_json = run(*asked, "-f", "json")
    assert [d["message"] for d in json.loads(as_json.stdout)["diagnostics"]] == [
        "'after a week' is read past"
    ]
    assert "is read past" not in as_json.stderr
    assert "is read past" in run(*asked).stderr


@pytest.mark.parametrize(
    "declare",
    [
        ("hole  part, 1 to 6", "  diameter  length in mm"),
        ("hole part, 1 to 6\n  diameter length in mm",),
        ("rim  length in mm", "hole  part, 1 to 6", "  diameter  length in mm", "cap  length in mm"),
    ],
)
def test_what_a_part_has_may_be_declared(declare: tuple[str, ...]) -> None:
    made, _ = read_sheet(sheet_source(Wish("diameter of the holes : at least 2 mm", declare)))
    assert made is not None
    assert made.parts


TWO = ("-d", "gap length in mm", "-d", "bore length in mm")


@pytest.mark.parametrize("way", ["text", "markdown"])
def test_of_several_phrases_what_each_comes_to_as_presumed_is_told(way: str) -> None:
    words = "gap, bore : the gap is at least 2 mm and the bore is at most 5 mm"
    told = " ".join(run(words, *TWO, "-f", way).output.replace("\u00a0", " ").split())
    presumed = '"the gap is at least 2 mm": gap >= 2 mm; "the bore is at most 5 mm": bore <= 5 mm.'
    assert f"every phrase as presumed. Meaning: {presumed}" in told
    assert '"at least ..." as rounds to the limit (arguable)' in told
    assert '""' not in told
    assert '"at most ..." as "rounds to the limit" lets in' in told  # both phrases have such a reading


def test_of_one_phrase_at_two_places_what_it_comes_to_at_each_is_told() -> None:
    told = " ".join(run("gap, bore : gap 3.0 mm and bore 5 mm", *TWO).output.replace("\u00a0", " ").split())
    assert 'Meaning: "gap 3.0 mm": gap = 3.0 mm; "bore 5 mm": bore = 5 mm.' in told


def test_a_ratio_of_two_quantities_is_told_as_presumed() -> None:
    words = "length, width : the ratio of the length to the width is from 4:1 to 8:1"
    told = " ".join(run(words, "-d", "length in mm", "-d", "width in mm").output.split())
    assert '"first over second" (presumed). Meaning: 4:1 <= length / width <= 8:1.' in told


def test_a_phrase_of_slots_alone_is_called_by_its_words() -> None:
    words = "gap, lid : the gap is 3.0 mm if the lid is open"
    told = " ".join(run(words, "-d", "gap length in mm", "-d", "lid one of open, shut").output.split())
    assert '"..."' not in told
    assert '"the gap is 3.0 mm" as one digit finer' in told or '"3.0 mm" as one digit finer' in told
