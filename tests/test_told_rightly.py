"""Statements that must hold of the sheet as it stands: of shares, stretches, ways of dependence, impurities.

Each sheet is small enough to be checked by hand; the numbers beside it say how.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.about import Reread
from scopecheck.answers.questions import ask_all
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.core.reference import stated_values
from scopecheck.foundations.spans import Source
from scopecheck.report.grouping import section
from scopecheck.report.render import render
from scopecheck.report.rereadings import kept_text
from scopecheck.resolve.dependencies import category, noun_of
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.ends import simplest_within
from tests.amended_sheets import amended
from tests.reported import one_line
from tests.sheets import errors, sheet


def page(text: str, everything: bool = False) -> str:
    """The page on one line, with what is told about the sheet itself."""
    made, told = read_sheet(Source("t.sheet", text))
    assert made is not None, told
    report, _ = checked(made, Options(everything=everything), tuple(told))
    assert report is not None
    return one_line(render(report, "text"))


HOLE = """\
profile  EPO
catalyst  share in mol%
1. A process with up to 15 mol% of a catalyst, excluding from 2 to 13 mol%.
   | catalyst : up to 15 mol%
   | catalyst : excluding from 2 to 13 mol%
document D1
  middle : 3 mol% <= catalyst <= 12 mol%  "claim 1"
  broad  : 0 mol% < catalyst <= 100 mol%  "claim 2"
"""


def test_what_a_document_shares_leaves_out_what_the_claim_disclaims() -> None:
    """Of 3 to 12 nothing is left; of all above 0 what lies below 2 and above 13 to 15."""
    text = page(HOLE)
    assert "lies apart from claim 1 (nothing of catalyst is shared)" in text
    left = "shared: catalyst above 0 mol% and below 2 mol% or above 13 mol% and 15 mol% or less"
    assert left in text


MELT = """\
profile  {profile}
alloy  composition in wt%
  Si, Mg, Al
1. An alloy consisting of 8.5 to 10.5 wt% of Si, 0.20 to 0.45 wt% of Mg, the balance being Al and unavoidable
   impurities.
   | alloy : consisting of
   | Si    : 8.5 to 10.5 wt%
   | Mg    : 0.20 to 0.45 wt%
   | alloy : the balance being Al and unavoidable impurities
inside for 1
  melt : Si = 9.5 wt%, Mg = 0.30 wt%, Al = 90 wt%
{role}
  tin  : Si = 9.5 wt%, Mg = 0.30 wt%, Al = 90.1 wt%, others in alloy = 0.1 wt%
"""


@pytest.mark.parametrize("profile", ["US", "EPO"])
def test_impurities_that_another_line_lets_be_there_are_not_shut_out(profile: str) -> None:
    """The melt adds up to 99.8 wt%: 0.2 wt% may be impurities; what is named an other ingredient is out."""
    answers = ask_all(sheet(MELT.format(profile=profile, role="must stay out for 1")))
    wrong = [
        f for f in answers.findings if f.question in ("inside lost", "outside met") and f.quantifier != "some"
    ]
    assert not wrong
    answers = ask_all(sheet(MELT.format(profile=profile, role="inside for 1")))
    assert "tin" in {f.case for f in answers.findings if f.question == "inside lost"}


def test_consisting_of_without_such_a_line_is_read_as_before() -> None:
    text = MELT.format(profile="EPO", role="must stay out for 1").replace(
        " and unavoidable\n   impurities", ""
    )
    answers = ask_all(sheet(text.replace(" and unavoidable impurities", "")))
    assert "melt" in {
        f.case for f in answers.findings if f.question == "inside lost" and f.quantifier != "some"
    }


CHAIN = """\
width  length in mm
grade  one of soft, hard
1. A clip with a width of 3 to 8 mm.
   | width : 3 to 8 mm
2. The clip of claim 1, wherein the width is at least 9 mm.
   | width : at least 9 mm
3. The clip of claim 1 or 2, being hard.
   | grade : hard
4. The clip of any one of claims 1 to 3, wherein the width is {words}.
   | width : {words}
"""


def test_what_holds_wherever_something_meets_the_claim_is_told_once() -> None:
    """Nothing meets claim 2; by all the other ways 3 to 8 mm lies within 2 to 9 mm."""
    text = page(CHAIN.format(words="from 2 to 9 mm"))
    assert "Claim 4 adds nothing wherever something meets the claim as presumed" in text
    assert "by way of claims" not in text


def test_what_holds_by_some_ways_that_something_meets_is_told_of_those() -> None:
    """5 to 8 mm narrows claim 1, and asks for nothing beside a claim of 6 to 7 mm."""
    text = CHAIN.replace("being hard", "of 6 to 7 mm").replace("grade : hard", "width : 6 to 7 mm")
    assert "adds nothing where it depends on" in page(text.format(words="5 to 8 mm"))


def test_no_value_is_told_with_the_stretch_on_which_the_thing_is_met() -> None:
    """0 mm is about 380 mm once that stretches by all of it."""
    text = page(
        "a, b  length in mm\n1. A rod with a length of about 380 mm.\n   | a : about 380 mm\n"
        "2. The rod of claim 1, wherein b / a is at least 0.3.\n   | b / a : at least 0.3\n"
    )
    assert 'once "about 380 mm" stretches by 100 % or more' in text
    assert "stretches at all" not in text


def test_a_hedge_that_is_not_stretched_empties_no_claim() -> None:
    """A trace is both some and substantially none, as soon as anything is substantially none."""
    text = page(
        "accelerator  share in wt%\n1. A coating with not more than 2 wt% of an accelerator.\n"
        "   | accelerator : not more than 2 wt%\n2. The coating of claim 1,"
        " substantially free of the accelerator.\n"
        "   | accelerator : substantially free of the accelerator\n"
    )
    assert "nothing meets claim 2" not in text


def test_from_which_stretch_on_a_thing_is_lost_is_told_of_one_of_many_parts() -> None:
    """149 nm is met by 'less than 150 nm' but for a stretch of 1 nm or more."""
    text = page(
        "profile  EPO\nlayer  part, 1 to 8\n  thickness  length in nm\n"
        "1. A coating of four to seven layers, each of the layers having a thickness of less than 150 nm.\n"
        "   | layers : four to seven layers\n"
        "   | thickness of the layers : each of the layers having a thickness of less than 150 nm\n"
        "inside for 1  layers  thickness of layers in nm\n  lens A        4       12; 30; 150; 90\n",
        everything=True,
    )
    words = 'once "thickness of less than 150 nm" stretches by 1 nm or more'
    assert f"thickness of the layers < 150 nm - stretch; {words}" in text
    assert "not stretched at all" not in text


def test_fewer_lines_that_conflict_as_presumed_are_named_first() -> None:
    """15 to 30 and 32 to 38 conflict; the water phase is needed where a class is read as each of them."""
    text = page(
        "profile  EPO\ncream  composition in wt%\n  fat, wax, water, glycerol\n  oil phase : fat, wax\n"
        "  water phase : water, glycerol\n"
        "1. A cream comprising from 15 to 30 wt% of an oil phase and from 60 to 80 wt% of a water phase.\n"
        "   | cream : comprising\n   | oil phase : from 15 to 30 wt%\n   | water phase : from 60 to 80 wt%\n"
        "2. The cream of claim 1, wherein the oil phase amounts to 32 to 38 % by weight.\n"
        "   | oil phase : 32 to 38 % by weight\n"
    )
    lines = '1b "from 15 to 30 wt%" and 2a "32 to 38 % by weight"'
    assert f'These lines conflict: {lines}; on other readings together with 1c "from 60 to 80 wt%".' in text


def test_what_speaks_of_other_things_does_not_change_how_far_an_end_is_reached() -> None:
    """2.5 mm and what rounds to it lie below 3 mm on every reading, whatever holes and rows do."""
    text = page(
        "holes, rows  count\nmodule  length in mm\n"
        "1. A gear train with holes, the number of the holes being divisible by the number of the rows.\n"
        "   | holes, rows : divisible by the number of the rows  exactly  holes / rows IS WHOLE\n"
        "2. The gear train of claim 1, wherein the module is 1 to 2.5 mm.\n   | module : 1 to 2.5 mm\n"
        "3. The gear train of claim 2, wherein the module is 2 to 3 mm.\n   | module : 2 to 3 mm\n"
    )
    assert "it is 3 mm, and the value stays below 2.55 mm" in text


TYRE = """\
groove, sipe  length in mm
1. A tyre having grooves of 8 to 14 mm depth and sipes of 0.3 to 0.8 mm.
   | groove : 8 to 14 mm
   | sipe   : 0.3 to 0.8 mm
2. The tyre of claim 1, wherein the sipe is at least {share} of the groove.
   | sipe, groove : at least {share} of the groove
3. The tyre of claim 1, wherein the groove is 8 mm.
   | groove : 8 mm  exactly  groove = 8 mm
"""


@pytest.mark.parametrize(("share", "told"), [("one tenth", True), ("one twentieth", False)])
def test_a_claim_to_a_single_point_is_told(share: str, told: bool) -> None:
    """A tenth of 8 mm is 0.8 mm, the most that a sipe may be; what claim 3 states itself is not told."""
    text = page(TYRE.format(share=share))
    point = "Nothing but a thing with groove 8 mm, sipe 0.8 mm meets claim 2, as presumed"
    assert (point in text) is told
    assert "meets claim 3, as presumed" not in text


def test_warnings_stand_below_the_items_and_the_page_says_where() -> None:
    alone = page("gap  length in mm\n1. A clip with a wavy gap of at most 3 mm.\n"
                 "   | gap : wavy gap of at most 3 mm\ninside for 1\n  one : gap = 9 mm\n")  # fmt: skip
    assert "1 warning on how the sheet is read, at line 3: see 'About the sheet' below the items." in alone
    assert alone.index("1 1a") < alone.index("'wavy' is read past")
    lines = "".join(
        f"   | gap : {word} gap of at most {n} mm\n" for n, word in enumerate(("wavy", "bent", "oily"), 3)
    )
    text = page(f"gap  length in mm\n1. A clip with a wavy gap of at most 3 mm, a bent gap of at most 4 mm, "
                f"an oily gap of at most 5 mm.\n{lines}inside for 1\n  one : gap = 9 mm\n")  # fmt: skip
    below = "3 warnings on how the sheet is read, at lines 3, 4 and 5: see 'About the sheet' below the items."
    assert below in text
    assert text.index("1 1a") < text.index("'wavy' is read past")


GRAIN = """
profile  US court
grain  length in um
ash    share in %
1. A grain having an average diameter of 400 um or less and ash of 8 to 12 %.
   | grain : an average diameter of 400 um or less
   | ash   : 8 to 12 %
2. The grain of claim 1, wherein the ash is at most 7 %.
   | ash : at most 7 %
3. The grain of claim 1, wherein little ash is there.
   | ash : little ash  exactly  ash <= 50 %
must stay out for 1
  coarse : grain = 412 um, ash = 9 %
"""


def test_every_reading_listed_says_what_has_no_formula_and_what_is_in_symbols() -> None:
    text = " ".join(page(GRAIN).split())
    assert (
        'keeps coarse out of claim 1 (not tried: "an average diameter of'
        ' 400 um or less" as "mean by number", "mean by volume", "median by number" or "median by volume")'
    ) in text
    assert (
        'conflict: 1b "8 to 12 %" and 2a "at most 7 %". Read with every reading listed' in text
    )  # of claim 2, which nothing meets
    assert "3a as written in symbols" in text


def test_what_is_lost_on_every_reading_is_shown_by_a_thing_lost_on_each() -> None:
    text = """
profile  US court
inputs  any of soil input, rain input, wind input
1. A box with at least one of a soil input, a rain input, and a wind input.
   | inputs : at least one of a soil input, a rain input, and a wind input  meant  COUNT(inputs) >= 1
inside for 1
  own : inputs = {rain input}
"""
    told = " ".join(page(text).split())
    assert "inputs something else" in told
    assert "by the one shown on some of them only" not in told


def test_an_amendment_rounds_the_old_words_as_the_new_ones() -> None:
    """Rounding lets 25.9 mm in before as after: nothing is gained by leaving 35 mm out."""
    before = "profile  EPO\nd  length in mm\n1. A hinge of from 26 to 35 mm.\n   | d : from 26 to 35 mm\n"
    words = "from 26 mm to less than 35 mm"
    after = before.replace("from 26 to 35 mm", words)
    (change,) = amended(before, after).changes
    assert change.relation == "narrowed"
    assert not change.otherwise


def test_a_number_of_a_case_is_no_basis_for_an_amendment() -> None:
    before = (
        "root  length in m\ntwist  angle in deg\n1. A blade with a twist of approximately 14 degrees.\n"
        "   | twist : approximately 14 degrees\n2. The blade of claim 1, wherein the root is at most 3.5 m.\n"
        "   | root : at most 3.5 m\nmust stay out for 1\n  fat : root = 3.0 m, twist = 14 deg\n"
    )
    after = before.replace("approximately ", "").replace("3.5 m", "3.0 m")
    assert [(u.claim, u.words) for u in amended(before, after).uncarried] == [(2, "3.0 m")]


@pytest.mark.parametrize(
    ("claim", "noun"),
    [
        ("A terminal configured to be moved and having a gap", "terminal"),
        ("A grinder rotating at a speed, having a gap", "grinder"),
        ("A food packaging having a seal", "packaging"),
        ("A corrugated fluting of paper", "fluting"),
        ("A plate substantially free of iron", "plate"),
        ("A free piston of steel", "piston"),
    ],
)
def test_what_a_claim_is_for_is_its_noun(claim: str, noun: str) -> None:
    assert noun_of(category(claim)) == noun


def test_levels_above_a_reference_lie_decibels_apart_and_have_no_sum() -> None:
    """ISO 80000-8 and IEC 60027-3 write levels with their reference; a difference of two needs none (from
    memory)."""
    head = "target, source  in dBm\n1. A link.\n   | "
    assert not errors(f"{head}target - source >= 3 dB\n")
    (error,) = errors(f"{head}target + source >= 5 dBm\n")
    assert "do not add up" in error.message


CLIP = """\
width, gap  length in mm
1. A clip with a width of {width} and a gap of at most 3 mm.
   | width : {width}
   | gap   : at most 3 mm
inside for 1  width
  sample      4 mm
"""


def test_what_a_case_leaves_open_hides_no_loss_of_what_it_states() -> None:
    """4 mm is not between 2 and 4 mm with both ends out, whatever the gap, of which nothing is said.

    It lies within 2 to 5 mm on every reading.
    """
    text = page(CLIP.format(width="between 2 and 4 mm"))
    lost = (
        'Not met by sample as listed (width 4 mm). It is listed among what must be inside. Read with "between'
    )
    assert lost in text
    assert "with gap 4 mm where it says nothing" in text
    assert lost not in page(CLIP.format(width="between 2 and 5 mm"))


FLASHES = """\
pulse  part, 1 to 6
  duration  duration in µs
rate   frequency in kHz
1. A lamp with pulses, each pulse having a duration of at most 5 µs, and a rate of not more than 20 kHz.
   | duration of the pulses : each pulse having a duration of at most 5 µs
   | rate : not more than 20 kHz
document D1
  figure 2 : {facts}, rate = 20.3 kHz
"""


@pytest.mark.parametrize(
    ("facts", "example"),
    [
        ("pulses = 1, duration of pulse 1 = 1 µs", True),
        ("pulses = 1, EVERY pulse (duration = 1 µs)", True),
        ("EVERY pulse (duration = 1 µs), pulses = 1", True),
        ("pulses = 1, EVERY pulse (duration <= 1 µs)", False),
        ("EVERY pulse (duration = 1 µs)", False),
    ],
)
def test_what_is_stated_of_each_of_so_many_parts_is_an_example(facts: str, example: bool) -> None:
    """20.3 kHz rounds to 20 kHz, and 1 µs is at most 5 µs: all that is stated is met on that reading."""
    made = sheet(FLASHES.format(facts=facts))
    assert made.cases[0].form == ("example" if example else "range")
    met = {f.quantifier for f in ask_all(made).findings if f.question == "document met"}
    assert met == ({"some"} if example else set())


def test_a_value_of_each_that_cannot_be_is_refused() -> None:
    (error,) = errors(FLASHES.format(facts="pulses = 1, EVERY pulse (duration = -1 µs)"))
    assert "outside the domain" in error.message


def test_a_reading_on_which_a_document_lies_within_a_claim_is_not_called_harmless() -> None:
    """20.3 kHz rounds to 20 kHz: so read, the whole of 15 to 20.3 kHz is within the claim."""
    text = page(
        "rate  frequency in kHz\n1. A lamp with a rate of not more than 20 kHz.\n"
        "   | rate : not more than 20 kHz\n"
        "document D1\n  figure 2 : 15 kHz <= rate <= 20.3 kHz\n"
    )
    assert "read otherwise: lies within claim 1" in text
    assert "moves a listed thing to the wrong side" not in text


SOLDER = """\
solder  composition in wt%
  silver, copper, tin
1. A solder containing 3 to 4 wt% of silver, the balance being tin and unavoidable impurities.
   | silver : 3 to 4 wt%
   | solder : the balance being tin and unavoidable impurities
2. The solder of claim 1, further containing {share} wt% of copper.
   | copper : {share} wt%
"""


@pytest.mark.parametrize(("share", "empty"), [("0.5 to 2", True), ("0 to 2", False)])
def test_a_threshold_that_nobody_states_does_not_hide_what_no_value_of_it_meets(
    share: str, empty: bool
) -> None:
    """Nothing beside silver, tin and impurities: copper is 0, however much the impurities may come to."""
    text = page(SOLDER.format(share=share))
    lines = '1b "the balance being tin and unavoidable impurities" and 2a "0.5 to 2 wt%"'
    assert ("Nothing meets claim 2 as restated" in text) is empty
    assert (f"These lines conflict: {lines}." in text) is empty
    assert ("Shown to narrow what they depend on: claim 2" in text) is not empty


BLEND = """\
active, agent, binder  number, >= 0
given  active + agent + binder = 100
1. A mix, wherein the active is {active}, the agent is 1 to 5 and the binder is 1 to 5.
   | active : {active}
   | agent  : 1 to 5
   | binder : 1 to 5
   | not restated : and
2. The mix of claim 1, wherein the active is at least 88.
   | active : at least 88
"""


def test_what_a_claim_adds_nothing_to_is_told_by_lines_before_given_facts() -> None:
    """90 to 97 is at least 88. At most 97 is not, but 100 less two of at most 5.5 each is 89 at the least."""
    text = page(BLEND.format(active="90 to 97"))
    assert 'adds nothing to what it depends on: whatever meets 1a "90 to 97" meets it' in text
    assert "Rests on" not in text
    text = page(BLEND.format(active="at most 97"))
    assert 'whatever meets 1b "1 to 5" and 1c "1 to 5" meets it' in text
    assert "Rests on given active + agent + binder = 100" in text


@pytest.mark.parametrize(
    ("profile", "usual", "words"),
    [
        ("EPO", False, 'the first of the two readings presumed, "no top, end in": '),
        ("US", True, 'its usual reading, "no top, end in" (presumed)'),
    ],
)
def test_of_two_readings_presumed_none_is_called_the_usual_one(profile: str, usual: bool, words: str) -> None:
    """2.96 g/cm3 rounds to 3.0 g/cm3, and is less: before the EPO both readings are presumed."""
    text = page(
        f"profile {profile}\ndensity  density in g/cm3\n1. A slab having a density of 3.0 g/cm3 or more.\n"
        "   | density : a density of 3.0 g/cm3 or more\ninside\n  block : density = 2.96 g/cm3\n"
    )
    assert ("Wrong on the usual reading of every phrase" in text) is usual
    assert ("Lost in part or on some reading" in text) is not usual
    assert f"in {words}" in text
    assert "no presumption known)" not in text


def test_what_a_reading_presumed_as_another_keeps_out_is_met_on_some_reading() -> None:
    """4 mm is an end of 'between 2 and 4 mm', in or out, and both are presumed."""
    text = page(
        "width  length in mm\n1. A strip with a width of between 2 and 4 mm.\n"
        "   | width : between 2 and 4 mm\nmust stay out\n  broad : width = 4 mm\n"
    )
    assert "Wrong on the usual reading" not in text
    assert "Met on some reading: what must stay out" in text


PAINT = """\
paint  composition in wt%
  resin, water
  pigment : chalk, rutile
  solids  : all but water
1. A paint comprising 30 to 50 wt% of a resin.
   | paint : comprising
   | resin : 30 to 50 wt%
2. The paint of claim 1, wherein the pigment is {share} wt% of the solids.
   | pigment of the solids : {share} wt%
must stay out for 1  resin    chalk    rutile   water
  thick              40 wt%   20 wt%   0 wt%    {water}
"""


def test_shares_that_add_up_leave_no_class_open() -> None:
    """40 + 20 + 0 + 40 is 100: nothing else is in it, the pigment is 20 and the solids 60 wt%, a third.

    With the water not said, 40 wt% are open, and of them what is pigment or solids.
    """
    text = page(PAINT.format(share="20 to 40", water="40 wt%"))
    assert "As well The same goes for claim 2." in text
    assert "open" not in text.split("How to go on")[0].split("Other words")[0]
    text = page(PAINT.format(share="34 to 40", water="40 wt%"))
    assert "As well" not in text
    text = page(PAINT.format(share="20 to 40", water="any"))
    assert "claim 2 too, as far as the case says anything: it leaves pigment and solids open" in text


TABLET = """\
drug, filler  mass in mg
1. A tablet, wherein the weight ratio of the drug to the filler is about 1:5, with 35 to 45 mg of the drug.
   | drug, filler : weight ratio of the drug to the filler is about 1:5
   | drug : 35 to 45 mg
2. The tablet of claim 1, wherein the weight ratio of the drug to the filler is between about 1:4 and
   about 1:6.
   | drug, filler : weight ratio of the drug to the filler is between about 1:4 and about 1:6
{cases}"""


@pytest.mark.parametrize("cases", ["", "inside\n  end : drug = 45.4 mg, filler = 225 mg\n"])
def test_the_stretch_on_which_a_claim_narrows_is_told_as_a_stretch(cases: str) -> None:
    """1:6 is 1:5 less a sixth of it, and 1:4 a quarter more: beyond a sixth claim 2 shuts something out."""
    text = page(TABLET.format(cases=cases))
    words = '"weight ratio of the drug to the filler is about 1:5"'
    assert f"Narrows once {words} stretches by more than about 16.7 %" in text
    assert f"if {words} is read as" not in text


def test_a_stretch_of_which_no_end_was_found_is_no_other_reading() -> None:
    made = sheet(TABLET.format(cases=""))
    told = kept_text(made, Reread(0, made.groups[0].base))
    assert told.startswith("once ")
    assert told.endswith("stretches far enough; how far was not found")


def test_the_plainest_fraction_of_an_interval() -> None:
    for low, high, plainest in (
        (1, 2, 1),
        ("3/20", "9/50", "1/6"),
        ("0.3333", "0.3334", "1/3"),
        (-2, "-1.5", -2),
    ):
        assert simplest_within(Fraction(low), Fraction(high)) == Fraction(plainest)


def test_how_far_a_quotient_goes_is_told_as_far_as_it_goes() -> None:
    """With a share s of coating a pellet has 1 / (1 - s) times its bare mass: 4/3 for 25 wt%.

    25.5 wt% is the first that does not round to 25 wt%, and comes to 1 / 0.745 = 200/149.
    """
    text = page(
        "coating  share in wt%\nmass, bare  mass in g\ngiven  bare = mass - coating * mass\n"
        "1. A pellet having a coating of 5 to 25 wt%.\n   | coating : 5 to 25 wt%\n"
        "2. The pellet of claim 1, having a mass of 1.1 to 1.5 times the bare mass.\n"
        "   | mass, bare : 1.1 to 1.5 times the bare mass\n"
    )
    assert "it is 1.5, and the value stays below about 1.34, by 1a" in text
    assert "as presumed it is at most about 1.33" in text


def test_stretches_that_sort_all_cases_are_told_with_both_ends_where_parts_are_counted() -> None:
    """Of 1.5 mm 1.46 mm is short by 8/3 %, and 1.4 mm by 20/3 %: in between all is sorted as listed."""
    text = page(
        "thread  part, 0 to 4\n  pitch  length in mm\n1. A rod comprising threads, the threads having"
        " a pitch of substantially 1.5 mm.\n   | pitch of the threads : a pitch of substantially 1.5 mm\n"
        "inside      threads  pitch of threads in mm\n  worn die  2        1.46; 1.52\n"
        "must stay out\n  fine      2        1.4; 1.4\n"
    )
    assert "Not decided" not in text
    assert "everything listed as inside is met, and nothing listed as must stay out" in text
    assert "by about 2.67 % or more; as long as" in text
    assert "stretches by less than about 6.67 %" in text


@pytest.mark.parametrize(
    "claim", ["A syringe containing the paste of claim 1", "The paste of claim 1, in a syringe"]
)
@pytest.mark.parametrize(("times", "idle"), [("ten", True), ("twenty", False)])
def test_a_line_that_other_lines_imply_is_told_of_a_claim_of_another_category(
    claim: str, times: str, idle: bool
) -> None:
    """12 µm ten times over is 0.12 mm, which is less than 0.2 mm; twenty times it is 0.24 mm."""
    text = page(
        "bore  length in mm\ngrain  length in µm\n1. A paste with grains of not more than 12 µm.\n"
        f"   | grain : not more than 12 µm\n2. {claim}, having a bore of at least 0.2 mm, wherein the bore"
        f" is at least {times} times the grain.\n   | bore : at least 0.2 mm\n"
        f"   | bore, grain : at least {times} times the grain\n"
    )
    told = 'whatever meets 1a "not more than 12 µm" and 2a "at least 0.2 mm" meets it'
    assert (told in text) is idle


def test_a_claim_that_leaves_a_condition_of_its_parent_unfulfilled() -> None:
    """No force of at most 120 N (120.5 N, rounded) exceeds 150 N. Claims 3 and 4 are told of claim 2's doing.

    Claim 5 rules it out for itself, by way of claim 1; 200 N is among what claim 6 takes in.
    """
    text = page(
        'reopened  one of only yes, no  "the door is reopened"\nforce  force in N\ngap  length in mm\n'
        "1. A door control configured to reopen the door if the force exceeds 150 N.\n"
        "   | reopened, force : reopen the door if the force exceeds 150 N\n"
        "2. The control of claim 1, wherein the force is at most 120 N.\n   | force : at most 120 N\n"
        "3. The control of claim 2, with a gap of 2 mm or more.\n   | gap : 2 mm or more\n"
        "4. The control of claim 3, wherein the force is at most 110 N.\n   | force : at most 110 N\n"
        "5. The control of claim 1, wherein the force is at most 100 N.\n   | force : at most 100 N\n"
        "6. The control of claim 1, wherein the force is at most 300 N.\n   | force : at most 300 N\n",
        everything=True,
    )
    told = "that something in claim 1 fulfils and nothing in claim {} does: {} rules it out"
    assert told.format(2, '2a "at most 120 N"') in text
    assert told.format(5, '5a "at most 100 N"') in text
    for number in (1, 3, 4, 6):
        assert f"nothing in claim {number} does" not in text
        assert f"nothing in claim {number} fulfils" not in text


def test_all_claims_that_cannot_be_met_either_are_told() -> None:
    """A number that can be divided is any number: read so, claim 1 is empty, and with it claims 2 and 3.

    That claim 3 is empty on a reading of its own as well says nothing of that one.
    """
    text = page(
        "teeth  count\nspeed  rotational speed in rpm\noil  temperature in degC\n"
        "1. A gearbox with a number of teeth not divisible by 3 and a speed of at most 600 rpm.\n"
        "   | teeth : not divisible by 3\n   | speed : at most 600 rpm\n"
        "2. The gearbox of claim 1, with an oil below 90 °C.\n   | oil : below 90 °C\n"
        "3. The gearbox of claim 2, wherein the speed is 900 to 1200 rpm when the oil is above 50 °C.\n"
        "   | speed, oil : 900 to 1200 rpm when the oil is above 50 °C\n"
    )
    assert "Follows Claims 2 and 3 cannot be met either." in text


def test_one_of_two_readings_presumed_is_not_told_as_what_is_presumed() -> None:
    """20.4 µm rounds to 20 µm: before the EPO that is presumed as much as that it lies above."""
    text = page(
        "profile  EPO\nthickness  length in µm\nporosity  share in %\n"
        "1. A membrane having a thickness of 12 to 20 µm and a porosity of 40 to 50 %.\n"
        "   | thickness : 12 to 20 µm\n   | porosity : 40 to 50 %\n"
        "must stay out\n  thick : thickness = 20.4 µm\n"
    )
    told = "none of it on the first of the readings presumed and on the narrowest reading, some of it on"
    assert f"How much is met: {told} the widest reading" in text
    assert "(one of two presumed)" in text


SIEVE = """\
profile  US
holes     count
diameter  length in mm
open      share in %
1. A sieve with a number of holes divisible by 6, a diameter of 2 to 4 mm and an open share of 35 %.
   | holes    : divisible by 6   meant  holes / 6 IS WHOLE, holes > 0
   | diameter : 2 to 4 mm
   | open     : 35 %
inside for 1    holes   diameter   open
  bench sample  24      3 mm       36 %
  drilled       36      4 mm       35 %
must stay out for 1
  garden sieve  25      3 mm       36 %
"""


def test_a_thing_is_told_by_all_in_which_it_departs_from_a_listed_one() -> None:
    """Garden sieve with 25 holes is kept out by its 36 % too: nothing exactly as it meets claim 1."""
    made = sheet(SIEVE)
    found = [f for f in ask_all(made).findings if f.question in ("unmeant met", "meant lost")]
    assert found
    for f in found:
        assert f.witness is not None
        usual = stated_values(made, next(c for c in made.cases if c.name == f.thing.reference))
        assert {n for n in usual if f.witness.article[n] != usual[n]} <= set(f.thing.departs)
    assert {f.thing.reference for f in found} == {"drilled"}
    assert "a thing with holes 0 instead of 36 (otherwise as drilled)" in page(SIEVE)


STRIP = """\
profile  US court
coating  composition in wt%
  aluminum, silicon, iron
1. A strip having a coating consisting essentially of aluminum.
   | coating : consisting essentially of aluminum
2. The strip of claim 1, wherein the coating contains up to about 10% by weight silicon.
   | silicon : up to about 10% by weight silicon
"""


def test_a_claim_adds_nothing_as_long_as_a_number_of_the_description_is_small() -> None:
    """With others up to 10 wt% silicon is 10 wt% at most; with more it may be 11."""
    text = page(STRIP)
    assert "claim 2 adds nothing to what it depends on" in text
    assert (
        'as long as "consisting essentially of aluminum" allows 10 wt% at most beside what it lists' in text
    )


def test_a_document_that_touches_in_two_ends_touches_at_ends() -> None:
    text = page(
        "profile  EPO\na  length in mm\nb  length in mm\nc  length in mm\n"
        "1. A rod with a of 2 to 3 mm, b of 2 to 3 mm and c of 1 to 9 mm.\n"
        "   | a : 2 to 3 mm\n   | b : 2 to 3 mm\n   | c : 1 to 9 mm\n"
        'document D1\n  range : 3 mm <= a <= 5 mm, 1 mm <= b <= 2 mm, 4 mm <= c <= 12 mm  "page 2"\n'
    )
    assert "touches claim 1 at shared ends (a 3 mm, b 2 mm; beside this in common: c 4 mm to 9 mm)" in text


def order_of(text: str, *told: str) -> list[int]:
    """Where each of these stands on the page."""
    return [text.index(one) for one in told]


def test_what_is_dead_on_every_reading_stands_first_and_probes_at_a_border_last() -> None:
    text = page(
        "holes  count\ndiameter  length in mm\nopen  share in %\n"
        "1. A sieve with holes divisible by 6, a diameter between 2 and 4 mm and about 35 % open.\n"
        "   | holes : divisible by 6   meant  holes / 6 IS WHOLE, holes > 0\n"
        "   | diameter : between 2 and 4 mm\n   | open : about 35 %\n"
        "2. The sieve of claim 1, wherein the diameter is at most 5 mm.\n   | diameter : at most 5 mm\n"
        "3. The sieve of claim 1, wherein the diameter is at least 6 mm.\n   | diameter : at least 6 mm\n"
        "inside for 1   holes   diameter   open\n  bench  24  3 mm  36 %\n"
        "must stay out for 1\n  coarse  24  4 mm  35 %\n"
    )
    places = order_of(
        text,
        "Wrong on every reading listed",
        "Nothing meets claim 3 as restated",
        "Claim 2 adds nothing to what it depends on",
        "Not met by bench as listed",
        "Not as meant, near the border only",
    )
    assert places == sorted(places)


def test_shares_of_an_independent_claim_that_cannot_add_up_are_an_item() -> None:
    """With at least 30 of sand and 20 of lime no more than 50 of clay is left, 51 if both round."""
    text = page(
        "profile  EPO\npaste  composition in wt%, only\n  clay, sand, lime\n"
        "1. A paste consisting of 40 to 60 wt% of clay, 30 to 50 wt% of sand and 20 to 30 wt% of lime.\n"
        "   | paste : consisting of\n   | clay : 40 to 60 wt%\n"
        "   | sand : 30 to 50 wt%\n   | lime : 20 to 30 wt%\n"
    )
    assert (
        "States an end that nothing in claim 1 reaches: it is 60 wt%, and the value is at most 51 wt%" in text
    )
    assert 'Also 1c "30 to 50 wt%": states an end that nothing reaches: it is 50 wt%' in text


@pytest.mark.parametrize(
    ("words", "told"), [("an even number of columns", False), ("at most 6 columns", True)]
)
def test_an_end_that_is_left_out_and_that_multiples_pass_over_is_no_defect(words: str, told: bool) -> None:
    """Of an even number 'less than 10' leaves 8; that it is 6 at most is another thing."""
    text = page(
        "columns  count\n1. A press with a plurality of columns.\n   | columns : a plurality of columns\n"
        f"2. The press of claim 1, with {words}, at least 4 but less than 10.\n"
        f"   | columns : {words}\n   | columns : at least 4 but less than 10\n"
    )
    assert ("States an end that nothing in claim 2 reaches" in text) == told


def test_an_end_is_looked_for_among_what_is_tied_to_it() -> None:
    """Teeth and pawls have nothing to do with how long something grows."""
    text = page(
        "teeth count\npawls count\nelongation  share in %\n"
        "1. A retractor with a number of teeth evenly divisible by the number of pawls.\n"
        "   | teeth, pawls : evenly divisible by the number of pawls\n"
        "2. The retractor of claim 1, wherein an elongation is from 6% up to, but not including, 12%.\n"
        "   | elongation : from 6% up to, but not including, 12%\n"
    )
    assert "Not decided" not in text


def test_a_range_of_a_document_that_any_stretch_brings_in_is_an_item() -> None:
    sheet_text = (
        "profile  US\nCO  share in vol%\n1. A store with more than 5% by volume of CO.\n"
        "   | CO : more than 5% by volume\n"
        'document D1\n  range : {words}  "column 2"\n'
    )
    near = page(sheet_text.format(words="CO about 1 to 5 vol%"))
    assert '1 1a "more than 5% by volume" Document D1, range at "column 2", read otherwise: overlaps' in near
    far = page(sheet_text.format(words="1 vol% <= CO <= 5 vol%"))
    assert "Met on some reading" not in far


MEDIUM = """\
profile  US court
medium   composition in wt%
  water, alcohol, wax, ketone
1. A suspension comprising a medium consisting of water, alcohol and wax.
   | medium : consisting of water, alcohol and wax
must stay out  water    alcohol  wax     ketone
  accused      60 wt%   34 wt%   5 wt%   1 wt%
"""


def test_a_named_ingredient_that_may_be_an_ordinary_impurity_is_told() -> None:
    text = page(MEDIUM)
    told = "write it as impurities in medium: accused is then kept out only where 1 wt% of impurities is more"
    assert "If ketone of accused comes with what" in text
    assert told in text
    assert "If alcohol of" not in text
    assert "write it as" not in page(MEDIUM.replace("34 wt%   5 wt%   1 wt%", "40 wt%   0 wt%   0 wt%"))


def test_rounding_by_a_large_part_of_the_number_is_told_behind_listed_things() -> None:
    """Half a unit is half of 1 %, and a twentieth of 10 %."""
    text = (
        "loss  share in %\n1. A tablet with a loss of less than {limit} %.\n   | loss : less than {limit} %\n"
        "inside  loss\n  batch  {lost} %\n"
    )
    sections = []
    for limit, lost in (("1", "0.6"), ("10", "9.6")):
        made = sheet(text.format(limit=limit, lost=lost))
        lost_there = (f for f in ask_all(made).findings if f.question == "inside lost")
        sections += [section(made, f) for f in lost_there]
    assert sections == ["far", "3"]


def test_what_is_met_by_the_first_of_readings_none_of_which_is_presumed_is_met_on_some() -> None:
    text = page(
        "profile  US court\nadded  share in wt%\nfound  share in wt%\n"
        'term "amount"\n  reading "as added" : added\n  reading "as found" : found\n'
        "1. An oil with an amount of at least 1 wt%.\n   | amount : at least 1 wt%\n"
        "must stay out  added    found\n  accused  1.4 wt%  0.6 wt%\n"
    )
    assert "Met on some reading: what must stay out, and documents" in text


def test_what_stands_for_a_presumed_reading_that_is_not_computed_is_not_called_usual() -> None:
    """No material effect is presumed of 'consisting essentially of', and is not computed."""
    text = page(
        "profile US court\ncoat  composition in wt%\n  tin, lead\n"
        "1. A strip with a coat consisting essentially of tin.\n"
        "   | coat : consisting essentially of tin\n"
        "must stay out\n  mixed : tin = 90 wt%, lead = 10 wt%\n"
    )
    assert "(the one presumed is not)" in text
    assert "Wrong on the usual reading" not in text
    assert "Met on some reading: what must stay out" in text
