"""What is told of all readings, of one stretch, or of a distance must hold as it is told."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from scopecheck.answers.order import scope_map
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.foundations.spans import Source
from scopecheck.report.amendment import amendment_report
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.render import render
from scopecheck.resolve.sheet import read_sheet
from tests.amended_sheets import amended
from tests.reported import one_line
from tests.sheets import errors, sheet
from tests.test_told_rightly import page


def both(before: str, after: str) -> str:
    return one_line(render(amendment_report(amended(before, after)), "text"))


FEED = """\
profile  EPO
phosphite  share in wt%
1. A feed comprising {range} by weight of phosphite.
   | phosphite : {range} by weight
2. The feed of claim 1, comprising 45 to 50 % by weight of phosphite.
   | phosphite : 45 to 50 % by weight
"""


def test_what_only_a_stretch_gives_up_is_no_unchanged_claim() -> None:
    """40 % stretched by an eighth is 45 %, which claim 2 asks for; after, nothing of 40 % or less does."""
    told = both(FEED.format(range="about 30 to about 40 %"), FEED.format(range="30 to 40 %"))
    line = told.partition("Claim 2: ")[2].partition(" What changes")[0]
    assert line.startswith("unchanged as restated, with every phrase as presumed; otherwise: only narrowed")
    assert 'once "about 30 to about 40 % by weight" stretches by 12.5 % or more' in line
    assert "Nothing meets it after the amendment, nor as presumed before" in line


def test_a_unit_shared_by_hedged_numbers_is_that_of_each() -> None:
    told = both(FEED.format(range="about 30 to about 40 %"), FEED.format(range="30 to 40 %"))
    assert "Every number and every word of the amended claims stands somewhere there." in told


GAP = """\
profile  EPO
gap  length in µm
1. A cell with a gap of {limit}.
   | gap : {limit}
2. The cell of claim 1, with a gap of at least 9 µm.
   | gap : at least 9 µm
must stay out for 1
  coarse : gap = 3.4 µm
"""


def test_a_thing_gained_on_some_readings_only_is_told_so() -> None:
    """3.4 rounds to 3: on that reading it met the claim before; 4 µm is gained on every reading."""
    told = both(GAP.format(limit="at most 3 µm"), GAP.format(limit="at most 4 µm"))
    gained = told.partition("Gained")[2]
    assert "(gap 3.4 µm) did not meet it before" in gained
    assert "On every reading listed some thing does so; this one not on every reading" in gained


def test_a_claim_that_nothing_meets_before_or_after_is_told_so() -> None:
    told = both(GAP.format(limit="at most 3 µm"), GAP.format(limit="at most 4 µm"))
    line = told.partition("Claim 2: ")[2].partition(" What changes")[0]
    assert "Nothing meets it before or after the amendment" in line


PATCH = """\
profile  EPO
dose         mass in mg
body weight  mass in kg, > 0 kg, <= 80 kg, varies with the dog
1. A patch carrying a dose of 0.5 to 4 mg per kg of body weight.
   | dose, body weight : a dose of 0.5 to 4 mg per kg of body weight
"""


def test_a_thing_that_changes_sides_on_every_reading_is_told_so() -> None:
    """1 mg on 1 kg is well within 0.5 to 4 mg/kg, on 41 kg it is 0.02 mg/kg, however the ends round."""
    told = page(PATCH)
    item = told.partition("changes sides with the dog")[2].partition("Raised by")[0]
    assert "every reading listed" in item
    assert "not on every" not in item


ESTER = """\
profile  EPO
ester  share in wt%
1. A patch with about 10 % by weight of an ester.
   | ester : about 10 % by weight
"""


def test_what_different_stretches_do_is_not_told_as_one() -> None:
    """Presumed are 9.5 up to 10.5; by 5 % or more it is 9.5 to 10.5 or wider, by less it is narrower."""
    told = page(ESTER, everything=True)
    assert "such as a thing with ester 10.5 wt%, and less at others" in told
    assert "some are not met that were" not in told


SHIFT = """\
profile  EPO
T1, T2  length in µm
active  share in wt%
1. A cell, wherein a total of T1 and T2 is 120 µm or less.
   | T1, T2 : a total of T1 and T2 is 120 µm or less    meant  T1 + T2 <= 120 µm
2. A patch with 10 % by weight of an active.
   | active : 10 % by weight    meant  9.5 wt% <= active < 10.5 wt%
inside for 1
  cell : T1 = 50 µm, T2 = 30 µm
must stay out for 2
  rival : active = 9.6 wt%
"""


def test_what_lies_a_step_beside_a_border_is_not_told_as_far_from_it() -> None:
    """120.1 of 120 for a sum, and 9.6 in what begins at 9.5 and is one wide."""
    found = {(f.question, f.label): f for f in ask_all(sheet(SHIFT)).findings}
    assert found["unmeant met", "1a"].thing.grade != "plain"
    lost = found["meant lost", "2a"]
    assert lost.witness is not None
    assert lost.thing.grade != "plain" or lost.witness.article["active"] != Fraction(96, 1000)


def test_one_of_two_states_beside_a_number_that_exceeds_another_is_read() -> None:
    """The phrase 'exceed three' is tried of both things left of the colon, and a list exceeds nothing."""
    assert not errors(
        """\
profile  US
retries  count
state  one of idle, busy, failed
1. A node which is in the busy state or the failed state if the retries exceed three.
   | state, retries : is in the busy state or the failed state if the retries exceed three
"""
    )


ALLOY = """\
profile  US
alloy  composition in wt%
  Ni, Mo, Fe, Ti
1. An alloy consisting of 0.6 to 0.9 wt% of Ni, 0.2 to 0.4 wt% of Mo, up to 0.2 wt% of Fe,
   the balance being Ti.
   | alloy : consisting of
   | Ni    : 0.6 to 0.9 wt%
   | Mo    : 0.2 to 0.4 wt%
   | Fe    : up to 0.2 wt%
   | alloy : the balance being Ti
document D1 for 1
  ingot : Ni = {nickel} wt%, Mo = 0.25 wt%  "table 1"
"""


def test_a_document_that_nothing_stated_keeps_out_is_told_on_the_first_page() -> None:
    """It has the nickel and the molybdenum, and says nothing of iron, titanium or anything else."""
    said = 'Nothing that document D1, ingot at "table 1" states keeps it out of claim 1'
    assert said in page(ALLOY.format(nickel="0.75"))
    assert said not in page(ALLOY.format(nickel="0.95"))


def test_what_a_case_states_of_a_whole_is_added_up_where_it_leaves_something_open() -> None:
    """0.75, 0.25 and 98.7 are 99.7: of iron there may be the other 0.3, or less."""
    text = ALLOY.replace("document D1 for 1", "inside for 1").replace('  "table 1"', ", Ti = 98.7 wt%")
    told = page(text.format(nickel="0.75"))
    assert "What it states of alloy adds up to 99.7 wt%, which leaves 0.3 wt%." in told


DRIVER = """\
profile  US
dead time  time in µs
1. A driver having a dead time of at least 0.5 µs.
   | dead time : at least 0.5 µs
2. The driver of claim 1, wherein the dead time is more than 500 ns.
   | dead time : more than 500 ns
3. The driver of claim 1, wherein the dead time is more than 501 ns.
   | dead time : more than 501 ns
"""


def test_a_dependent_claim_that_takes_away_an_end_alone_is_told_on_the_first_page() -> None:
    """500 ns is 0.5 µs; of claim 3 all up to 501 ns is taken away."""
    told = page(DRIVER)
    assert '2a "more than 500 ns": claim 2 narrows its parent by one value alone, as presumed' in told
    assert "claim 3 narrows" not in told


# ---- words and meanings as they are shown


def meanings(declared: str, left: str, words: str) -> dict[str, tuple[str, ...]]:
    """What each place of a claim with just these words is shown to mean, by the words that stand there."""
    made = sheet(f"profile US\n{declared}\n1. A device having a {words}.\n   | {left} : {words}\n")
    return {p.words: p.meanings for g in made.groups for p in g.places}


def test_a_meaning_has_the_unit_at_each_number() -> None:
    declared = "dose  mass in mg\nbody weight  mass in kg, > 0 kg, varies with the dog"
    words = "dose of 0.5 to 4 mg per kg of body weight"
    (shown,) = meanings(declared, "dose, body weight", words).values()
    assert shown[0] == "0.5 mg/kg * body weight <= dose <= 4 mg per kg * body weight"


def test_a_pair_is_shown_as_two() -> None:
    (shown,) = meanings("bolts  count", "bolts", "at least a pair of bolts").values()
    assert shown[0] == "bolts >= two"


def test_words_said_in_another_order_are_quoted_whole() -> None:
    found = meanings("T1, T2  length in mm", "T1, T2", "0.2 < T2/T1 ≤ 0.8")
    assert list(found) == ["0.2 < T2/T1 ≤ 0.8"]
    found = meanings("doses per day  count", "doses per day", "once or twice daily")
    assert next(iter(found)) == "once or twice"


@pytest.mark.parametrize(
    ("formula", "shown"),
    [
        ("0 * 2° <= angle - 90° <= 2°", "0 <= angle - 90° <= 2°"),
        ("-1 * 30 seconds <= delay <= 0 * 30 seconds", "-30 seconds <= delay <= 0"),
        ("delay <= 10 * 30 seconds", "delay <= 10 × 30 seconds"),
    ],
)
def test_nothing_of_a_number_is_shown_as_nothing(formula: str, shown: str) -> None:
    assert plain_formula(formula) == shown


def test_what_a_line_denies_is_marked_so_in_json() -> None:
    text = "gap  length in mm\n1. A device with a gap of not 3 mm or 5 mm.\n   | gap : not 3 mm or 5 mm\n"
    report, _ = checked(sheet(text), Options(), ())
    assert report is not None
    phrases = json.loads(render(report, "json"))["phrases"]
    assert {p["denied"] for phrase in phrases for p in phrase["places"]} == {True}


def test_an_amendment_quotes_the_claim_and_not_the_catalogue() -> None:
    """The phrase stands in both sheets, in a line that did not change."""
    text = """\
profile EPO
angle  angle in deg
tine  part, 0 to 10
  length  in mm
1. A drill having an angle of at most {limit} deg.
   | angle : at most {limit} deg
2. The drill of claim 1, with at least six tines, wherein every tine is longer than 70 mm.
   | tines : at least six tines
   | length of the tines : every tine is longer than 70 mm
3. The drill of claim 2, wherein the tines have an average length of at most 65 mm.
   | length of the tines : an average length of at most 65 mm
"""
    told = both(text.format(limit=12), text.format(limit=10))
    assert '"every tine is longer than 70 mm" as "every recited one; others may differ"' in told
    assert '"each is ..."' not in told


RECEIVER = """\
profile  US court
focal length, aperture, stop  length in mm
1. A receiver having a lens with a focal length of at least 3 mm.
   | focal length : a focal length of at least 3 mm
2. The receiver of claim 1, wherein a ratio of focal length to aperture is at least 3:1, and a ratio of
   stop to aperture is at least 2:1.
   | focal length, aperture : ratio of focal length to aperture is at least 3:1
   | stop, aperture : ratio of stop to aperture is at least 2:1
"""


def test_lines_without_a_value_are_told_in_one_line_on_the_first_page() -> None:
    told = page(RECEIVER)
    assert "for some thing, and then count as not met: 2a and 2b, as aperture is 0 there." in told
    assert "has no value for a thing with" not in told
    assert "has no value for a thing with" in page(RECEIVER, everything=True)


LENS = """\
profile  US court
focal length, aperture  length in mm
echo  one of A, B
1. A receiver which displays A or B.
   | echo : A or B
2. The receiver of claim 1, having a lens, a ratio of the focal length to the aperture being from 2.8 to 4.
   | focal length, aperture : a ratio of the focal length to the aperture being from 2.8 to 4
"""


def test_the_map_shows_a_step_by_a_thing_with_a_value() -> None:
    """With no aperture the ratio has no value; a thing with an aperture shows better what is shut out."""
    (step,) = scope_map(prepare(sheet(LENS), None)).steps
    assert step.article["aperture"]


def test_words_of_several_things_show_what_each_comes_to() -> None:
    declared = "t1, t2  temperature in degC"
    (shown,) = meanings(declared, "t1, t2", "t1 and t2 both at least 20 °C").values()
    assert shown[0] == "t1 >= 20 °C; t2 >= 20 °C"


def test_a_plural_declared_as_a_part_is_its_own_plural() -> None:
    declared = "ports  part, 0 to 12\n  diameter  length in mm\nlens  part, 0 to 3\n  width  length in mm"
    made = sheet(
        f"profile US\n{declared}\n1. A valve having at least 2 ports.\n   | ports : at least 2 ports\n"
    )
    assert [made.parts[0].plural, made.parts[-1].plural] == ["ports", "lenses"]


def test_a_preference_beyond_the_limit_before_it_is_told_and_lets_nothing_more_in() -> None:
    for words, inner in (
        ("5 to 10 mV, preferably 2 to 8 mV", "charge 5 to 10 mV, charge 2 to 8 mV"),
        (
            "between 5 and 10 mV, preferably between 6 and 12 mV",
            "charge between 5 and 10 mV, charge between 6 and 12 mV",
        ),
        ("5 to 10 mV, preferably 12 mV", "charge = 12 mV, 5 mV <= charge <= 10 mV"),
    ):
        text = f"charge  voltage in mV\n1. A cell with {words}.\n   | charge : {words}\n"
        made, told = read_sheet(Source("cell", text))
        assert made is not None
        assert [d.message for d in told] == ["what is preferred reaches beyond the limit before it"]
        assert inner in made.groups[-1].places[0].meanings
    for words in ("5 to 10 mV, preferably 6 to 8 mV", "at least 5 mV, preferably at most 9 mV"):
        text = f"charge  voltage in mV\n1. A cell with {words}.\n   | charge : {words}\n"
        assert not read_sheet(Source("cell", text))[1]


def test_the_whole_that_a_share_is_declared_of_may_stand_in_its_words() -> None:
    words = "from 50 to 150 ppm by weight of flour"
    text = (
        f"flour  mass in kg\nacid  share in ppm(m) of flour\n1. A dough with {words}.\n   | acid : {words}\n"
    )
    assert not read_sheet(Source("dough", text))[1]


def test_a_quote_of_the_claim_ends_before_the_lines_that_restate_it() -> None:
    text = (
        "charge  voltage in mV\n1. A cell with more than 20 mV, ended when the charge falls below 5 mV.\n"
        "   | charge : more than 20 mV\n"
    )
    assert "| charge" not in page(text).partition("Text that no line restates")[2]


ROD = """\
rod  composition in wt%
  copper, silver, manganese
1. A rod comprising silver and manganese in a total amount of from 0.5 to 1.5 wt%, the balance being
   copper and unavoidable impurities.
   | silver, manganese : silver and manganese in a total amount of from 0.5 to 1.5 wt%
   | rod : the balance being copper and unavoidable impurities
2. The rod of claim 1, wherein the sum of silver and manganese does not exceed 1.5 wt%.
   | silver, manganese : the sum of silver and manganese does not exceed 1.5 wt%
"""


def test_what_adds_nothing_names_no_reading_that_it_does_not_need() -> None:
    told = page(ROD).partition("or that add nothing")[2].partition("Other words that can be")[0]
    assert '1 2a "the sum of silver and manganese does not exceed 1.5 wt%" Claim 2 adds nothing' in told
    assert 'Read with "from 0.5 to 1.5 wt%" in its usual reading' in told
    assert "balance" not in told


DRUM = """\
{declared}
1. A drum having at least one row of pins, wherein the number of rows is between 4 and 10.
   | rows : at least one row
   | rows : between 4 and 10
"""


@pytest.mark.parametrize("declared", ["rows  count", "row  part, 1 to 12\n  pins  count"])
def test_a_number_of_rows_that_another_line_gives_asks_for_nothing(declared: str) -> None:
    told = page(DRUM.format(declared=declared))
    assert '1a "at least one row" Asks for nothing that the rest of claim 1 does not ask already' in told
    assert "nothing found among what was looked for" not in told


def test_as_many_rows_as_are_looked_at_are_not_told_as_asking_for_nothing() -> None:
    told = page(DRUM.format(declared="row  part, 1 to 12\n  pins  count").replace("between 4 and", "at most"))
    assert "Asks for nothing" not in told


def test_without_a_choice_of_readings_none_are_counted() -> None:
    told = page("n  count\n1. A comb with at least 4 teeth.\n   | n : at least 4\n")
    assert "no listed case; no phrase that can be read in more than one way." in told


FERRULE = """\
material  any of brass, steel
wall  length in mm
1. A ferrule, provided that, when the material is steel, the wall is at least 0.8 mm.
   | material, wall : provided that, when the material is steel, the wall is at least 0.8 mm
inside
  brass : material = {brass}, wall = 0.5 mm
"""


def test_a_proviso_with_a_condition_is_shown_in_the_words_of_the_claim() -> None:
    told = page(FERRULE)
    assert "(arguable): material is steel and wall is at least 0.8 mm" in told
    assert "is read past" not in told
    assert "provided that and" not in told


def test_a_choice_among_numbers_is_shown_with_what_it_is_of() -> None:
    text = "bores, pins  count\n1. A plate having at least one of a bore and a pin.\n"
    text += "   | bores, pins : at least one of a bore and a pin\ninside\n  a : bores = 1, pins = 0\n"
    assert "every one of {bores, pins} at least one" in page(text)


STICK = """\
gap, rim  length in mm
1. A stick with a gap of between 2 and 4 mm and a rim of at least 3 mm.
   | gap : between 2 and 4 mm
   | rim : at least 3 mm
must stay out
  thin : gap = 2 mm, rim = 1 mm
"""


def test_what_would_keep_a_case_out_otherwise_read_is_told_as_such_beside_an_only() -> None:
    told = page(STICK, everything=True)
    assert 'Only 1b "at least 3 mm" keeps thin out of claim 1' in told
    assert "; read otherwise, 1a does it as well, " in told


def test_what_nobody_states_of_a_temperature_is_not_absolute_zero() -> None:
    text = "melt, cast  temperature in degC\n1. An alloy, cast above its melt.\n   | cast > melt\n"
    text += "document D1\n  one : melt = 0 degC\n"
    assert "-273.15 °C," not in page(text, everything=True).partition("What this rests on")[0]
