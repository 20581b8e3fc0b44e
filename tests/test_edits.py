"""What is told of refused words can be pasted: the edit was tried in the claim before it is shown."""

from __future__ import annotations

import pytest

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.edits import with_edits_tried
from scopecheck.resolve.sheet import read_sheet

BAKING = "baking  step in min\n  moisture  share in %"
HOLES = 'hole  part, 1 to 6\n  diameter  length in mm\ncup  length in mm  "diameter of the suction cup"'
GRANULES = "granule  part, 1 to 6\n  diameter  length in mm\naverage diameter  length in mm"


def sheet(declared: str, words: str, line: str) -> str:
    return f"{declared}\n\n1. A thing, wherein {words}.\n   | {line}\n"


def told(declared: str, left: str, words: str) -> tuple[Diagnostic, ...]:
    source = Source("t", sheet(declared, words, f"{left} : {words}"))
    return with_edits_tried(source, read_sheet(source)[1])


@pytest.mark.parametrize(
    ("declared", "left", "words", "help"),
    [
        (BAKING, "baking", "until its moisture is less than 4 %", "write: baking, moisture of baking :"),
        (HOLES, "diameter of the holes, cup", "the diameters of the holes tend towards that of the cup",
         "the dots behind 'exactly' in this line:"),
        ("acid form  any of acid, salt", "acid form", "an acid in the guise of a salt",
         "such as ... IN acid form,"),
        ("acid  mass in mg", "acid", "70 mg of the acid or an equivalent amount of a salt",
         "the dots behind 'exactly' in this line:"),
        ("lift  length in mm", "lift", "a drop of 5 mm", "the dots behind 'exactly' in this line:"),
        ("wax  share in wt%", "wax", "disclaiming 6 wt%", "such as NOT (wax = ... wt%),"),
        ("rinsing  step in min, may be left out", "rinsing", "without rinsing", "exactly  NOT DONE(rinsing)"),
        ("heating, drying  step in min", "heating, drying", "heating begins immediately after drying or so",
         "such as ORDER(..., ...),"),
        ("screws  count", "screws", "two rows of screws", "the dots behind 'exactly' in this line:"),
    ],
)  # fmt: skip
def test_refused_words_get_a_line_to_paste(declared: str, left: str, words: str, help: str) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert help in wrong.help
    assert "lift only" not in wrong.help
    pasted = wrong.help.rpartition("write: " if "write: " in wrong.help else "in this line: ")[2]
    made, _ = read_sheet(Source("t", sheet(declared, words, pasted)))
    assert made is not None


@pytest.mark.parametrize(
    ("words", "form"),
    [
        ("at least 70 mg", "acid >= ... mg"),
        ("more than 70 mg", "acid > ... mg"),
        ("not exceeding 70 mg", "acid <= ... mg"),
        ("less than 70 mg", "acid < ... mg"),
        ("at least 20 mg and at most 70 mg", "... mg <= acid <= ... mg"),
    ],
)
def test_the_form_that_is_shown_has_the_side_of_the_words(words: str, form: str) -> None:
    said = f"{words} or so of the acid kinds"
    (wrong,) = (d for d in told("acid  mass in mg", "acid", said) if d.severity == "error")
    assert f"such as {form}," in wrong.help


def test_a_line_to_be_written_counts_as_not_restated() -> None:
    made, found = read_sheet(
        Source("t", sheet("wax  share in wt%", "a trace", "wax : a trace  exactly  ..."))
    )
    assert made is not None
    assert not made.claims[0].limitations
    assert ["still to be written" in d.message for d in found] == [True]


def test_what_does_not_read_is_not_advised_in_a_warning() -> None:
    words = "the average diameter of the granules is 0.4 mm or less"
    (warning,) = told(GRANULES, "average diameter", words)
    assert warning.severity == "warning"
    assert "granules : " not in warning.help


def test_near_phrases_share_the_words_that_tell() -> None:
    (wrong,) = told("acid  share in wt%", "acid", "does not quite contain 6 wt%")
    assert "nearest" not in wrong.help
    (wrong,) = told("wax  share in wt%", "wax", "at most a trace")
    assert "nearest: 'at most traces of ...'" in wrong.help


def test_a_noun_is_not_blamed() -> None:
    (wrong,) = told("heat  temperature in degC", "heat", "the heat of the dough never ever is 30 °C")
    assert "dough" not in wrong.cause


def test_peak_is_the_highest() -> None:
    left, words = "highest heat of baking", "the peak heat does not exceed 260 °C"
    assert not told("baking  step in min\n  heat  temperature in degC", left, words)


def test_an_ordinary_distance_is_not_said_to_lie_below_zero() -> None:
    assert not told("edge distance  length in mm", "edge distance", "within 5 mm of the edge")


@pytest.mark.parametrize("words", ["0.1 % of the solids", "1 to 3 parts of wax per 100 parts of the solids"])
def test_a_share_of_something_is_not_said_to_be_of_nothing(words: str) -> None:
    (warning,) = told('wax  share in wt%  "of the solids"', "wax", words)
    assert "by mass, by volume or by mole" in warning.message
    assert "percent of what" not in warning.message


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("lift  length in mm", "lift", "a fall of 5 mm"),
        ("acid  mass in mg", "acid", "without 70 mg of the acid"),
        ("acid  mass in mg", "acid", "70 mg of the acid or its salt"),
        ("acid  mass in mg", "acid", "70 mg unless heated"),
        ("acid  mass in mg", "acid", "lacking 70 mg of the acid"),
        ("acid  mass in mg", "acid", "excepting 70 mg"),
        ("gap  length in mm", "gap", "a decrease of 5 mm"),
        ("gap  length in mm", "gap", "a loss of 5 mm"),
    ],
)
def test_nothing_that_turns_a_limit_round_is_left_out(declared: str, left: str, words: str) -> None:
    assert all("lift only" not in d.help for d in told(declared, left, words))


VENTING = "venting  step in s, may be left out\npressure  pressure in bar(g)"
VALVE = 'valve open  one of only yes, no\np  pressure in bar  "pressure"'


@pytest.mark.parametrize(
    ("declared", "left", "words", "form"),
    [
        ("heater on  one of only yes, no\nair, set value  temperature in degC", "heater on, air, set value",
         "switches off only if the air exceeds the predetermined temperature by 1 °C", "IF ... THEN ..."),
        (VALVE, "valve open, p", "prevents opening when the pressure exceeds 3 bar", "IF ... THEN ..."),
        (VALVE, "valve open, p", "can be opened when the pressure exceeds 3 bar", "IF ... THEN ..."),
        (VALVE, "valve open, p", "partly closes when the pressure exceeds 3 bar", "IF ... THEN ..."),
        (VALVE, "valve open, p", "opens when the pressure exceeds a predetermined value",
         "IF p > ... bar THEN valve open = ..."),
        (VALVE, "valve open", "is never open at night", "valve open = ..."),
        (VENTING, "venting, pressure", "opening the boiler if the pressure exceeds 8 bar gauge",
         "IF pressure > ... bar(g) THEN ..."),
        (VENTING, "venting, pressure",
         "no venting takes place unless the pressure has been at least 6 bar gauge", "IF ... THEN ..."),
        ("glazing, baking  step in min", "baking", "immediately after the applying of the glaze",
         "0 min <= START(baking) - END(...) <= ... min"),
        ("soaking, rinsing  step in min", "soaking, rinsing",
         "the rinsing does not always follow the soaking", "ORDER(..., ...)"),
        ("rim, slot  length in mm", "rim, slot", "the slot exceeds the rim by about or so 2 to 3 mm",
         "... mm <= slot - rim <= ... mm"),
        ("metal  one of zinc, tin", "metal", "zinc hardly ever", "metal = ..."),
    ],
)  # fmt: skip
def test_the_form_says_no_more_than_the_words(declared: str, left: str, words: str, form: str) -> None:
    """Neither which way round a condition is nor that something is so, where the words may deny it."""
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert f"such as {form}, in this line" in wrong.help
    assert "NOT DONE" not in wrong.help


@pytest.mark.parametrize("where", ["at some point", "at any point", "at every point", "at one point"])
def test_where_a_limit_holds_is_not_marked_away(where: str) -> None:
    (wrong,) = told("gap  length in mm", "gap", f"at least 3 mm {where}")
    assert "lift only" not in wrong.help
    assert "not restated" not in wrong.help


FILM = "film  composition in wt%\n  polymer : pullulan, starch\n  softener : glycerol, sorbitol\n  water"
LEAK = "collector current, leakage current  current in A"


@pytest.mark.parametrize(
    ("declared", "left", "words", "help"),
    [
        (FILM, "polymer, softener", "more preferably from 5:1 to 6:1",
         "polymer / softener : more preferably from 5:1 to 6:1"),
        (FILM, "film", "at least one polymer selected from pullulan and starch",
         "write: polymer : at least one polymer selected from pullulan and starch"),
        (FILM, "film", "the softener is glycerol or sorbitol", "write: softener : the softener is"),
        (LEAK, "leakage current, collector current", "hardly more than a tenth of that",
         "that  exactly  ..."),
        ("rim, gap  length in mm", "rim, gap", "at most something like 3 times the gap",
         "such as rim / gap <= ...,"),
        ("rim, gap  length in mm", "rim, gap", "the gap exceeds the rim by about or so 2 to 3 mm",
         "such as ... mm <= gap - rim <= ... mm,"),
        ("core, film  length in mm", "core, film", "makes some 10 to 25 % of the total thickness of the film",
         "such as ... <= core / film <= ...,"),
        ("slack  share in %\nlength  length in mm", "slack, length",
         "a slack of some 0.5 % to 2 % of the length",
         "such as ... % <= slack <= ... %,"),
        ("drying, rinsing  step in min", "drying, rinsing",
         "some sort of ratio of the rinse to the drying being at least 12:1",
         "such as DURATION(rinsing) / DURATION(drying) >= ...,"),
    ],
)  # fmt: skip
def test_of_two_things_the_symbols_are_those_that_the_words_call_for(
    declared: str, left: str, words: str, help: str
) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert help in wrong.help
    if "..." not in help:
        pasted = wrong.help.rpartition("write: " if "write: " in wrong.help else "of the colon: ")[2]
        assert read_sheet(Source("t", sheet(declared, words, pasted)))[0] is not None


@pytest.mark.parametrize(
    "words",
    ["at least one polymer, not glycerol, selected from pullulan and starch", "polymers and pullulanase"],
)
def test_a_class_is_put_left_of_the_colon_where_its_own_members_alone_are_spoken_of(words: str) -> None:
    (wrong,) = (d for d in told(FILM, "film", words) if d.severity == "error")
    assert "write: polymer" not in wrong.help


def test_a_class_beside_something_else_is_no_value_of_each() -> None:
    wrong = next(
        d for d in told(FILM, "polymer, water", "thrice as viscous as pumice") if d.severity == "error"
    )
    assert "a value of each" not in wrong.cause


@pytest.mark.parametrize(
    ("declared", "left", "words", "help"),
    [
        ("pressure  pressure in bar", "pressure", "outside the limits of 3 and 5 bar",
         "such as (pressure < ... bar OR pressure > ... bar),"),
        ("pressure  pressure in bar", "pressure", "does not lie outside the range from 3 to 5 bar",
         "such as ... bar <= pressure <= ... bar,"),
        ("rising, chilling  step in h", "rising, chilling",
         "not earlier than 10 minutes before the end of the chilling",
         "the dots behind 'exactly' in this line:"),
        ("rising, chilling  step in h", "rising, chilling",
         "ends between 6 and 8 hours after the addition of the yeast",
         "such as ... h <= END(rising) - END(chilling) <= ... h,"),
    ],
)  # fmt: skip
def test_the_symbols_lie_on_the_side_of_the_words(declared: str, left: str, words: str, help: str) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert help in wrong.help


PARTS = "parts  any of epoxy C, filler D, resin E"
SHARES = "cotton, polyester  share in wt%"
WEIGHTS = "polymer, drug  mass in mg"
RADIO = "received power  in dBm\nrepetitions  count"
PROBES = "responding, retransmitting  step in ms"
AWAKE = "awake  one of only yes, no\nlevel  in dBm"
SOAKS = "soaking, rinsing  step in s"
TWO_DEGREES = "curing, Tg  temperature in degC"


@pytest.mark.parametrize(
    ("declared", "left", "words", "form"),
    [
        (PARTS, "parts", "with the exception of a composition comprising both epoxy C and filler D",
         "NOT (... IN parts AND ... IN parts)"),
        (PARTS, "parts", "comprising epoxy C besides no filler D kinds",
         "... IN parts AND NOT (... IN parts)"),
        (PARTS, "parts", "devoid of kinds of epoxy C or filler D", "NOT (... IN parts OR ... IN parts)"),
        (PARTS, "parts", "save for sorts of epoxy C and filler D", "NOT (...)"),
        ("metal  one of zinc, tin", "metal", "other than zinc-like kinds", "NOT (metal = ...)"),
        (RADIO, "received power, repetitions",
         "when the received power is lower than -110 dBm, the feedback is sent again, in repetitions"
         " that come to at least 3 or so", "IF received power < ... dBm THEN repetitions >= ..."),
        (RADIO, "received power, repetitions",
         "when the received power is lower than -110 dBm, the feedback is sent with repetitions like a"
         " power of some number", "IF received power < ... dBm THEN ..."),
        (PROBES, "retransmitting, responding", "if the response is not received, retransmitting the probe",
         "IF ... THEN ..."),
        (PROBES, "responding", "within 10 ms of the end of a probe kind",
         "0 ms <= START(responding) - END(...) <= ... ms"),
        (SOAKS, "soaking, rinsing", "within 10 s before or after the rinsing kind",
         "-... s <= START(soaking) - START(rinsing) <= ... s"),
        (SOAKS, "soaking, rinsing", "at least 10 s after the rinsing kind",
         "START(soaking) - END(rinsing) >= ... s"),
        (SOAKS, "soaking, rinsing", "the soaking starts when the rinsing kind comes to its end",
         "ORDER(..., ...)"),
        (SHARES, "cotton, polyester", "at least 60% cotton, the remainder being polyester",
         "cotton >= ... wt%, cotton + polyester = 100 wt%"),
        (SHARES, "cotton, polyester", "the combined kinds of cotton and polyester are 5 to 8% of the coat",
         "... wt% <= cotton + polyester <= ... wt%"),
        (WEIGHTS, "polymer, drug", "combined weight of polymer and drug is 60% or more of the tablet mass",
         "polymer + drug >= ... * ..."),
        (WEIGHTS, "polymer, drug", "the polymer kinds and drug kinds are 5 to 8 mg in total so to say",
         "... mg <= polymer + drug <= ... mg"),
        ("gap  length in mm", "gap", "between kinds of plates at most 3 mm", "gap <= ... mm"),
        ("gap  length in mm", "gap", "does not quite lie between some 3 and some 5 mm",
         "NOT (... mm <= gap <= ... mm)"),
        ("acid  mass in mg", "acid", "from 3 to 9 mg of acid kinds except 5 mg",
         "... mg <= acid <= ... mg AND NOT (acid = ... mg)"),
        ("acid  mass in mg", "acid", "if heated at all, at least 5 mg", "IF ... THEN ..."),
        (AWAKE, "awake, level", "is awake kind unless the level is at least -90 dBm", "IF ... THEN ..."),
        (AWAKE, "awake, level", "is awake kind where the level is at least -90 dBm and asleep otherwise",
         "IF level >= ... dBm THEN awake = ... OTHERWISE awake = ..."),
        (TWO_DEGREES, "curing, Tg", "a curing value below Tg by 10 to 30 °C or so",
         "... K <= Tg - curing <= ... K"),
        (TWO_DEGREES, "curing, Tg", "from some Tg + 10 °C to Tg + 50 °C", "... K <= curing - Tg <= ... K"),
        ("strip, edge  length in mm", "strip, edge", "extending the majority of the length of a longer edge",
         "strip / edge > ..."),
        (TWO_DEGREES, "curing, Tg", "differs in some way from the Tg by no more than 15 K",
         "ABS(curing - Tg) <= ... K"),
    ],
)  # fmt: skip
def test_what_fills_the_dots_as_the_words_say_means_what_they_mean(
    declared: str, left: str, words: str, form: str
) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert f"such as {form}," in wrong.help


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("metal  one of zinc, tin", "metal", "not of a kind free of zinc"),
        ("gap  length in mm", "gap", "neither some 3 nor some 5 mm"),
        ("gap  length in mm", "gap", "not of the 3 mm kind"),
        ("soaking  step in s", "soaking", "immediately after the applying of glaze"),
        ("gap  length in mm", "gap", "in particular some 3 mm"),
        ("gap, rim, bore  length in mm", "gap, rim, bore", "less than some sum of these"),
        ("wet, dry  number", "wet, dry", "at most one grade lower"),
        ("gap  length in mm", "gap", "kept more or less constant at 5 mm"),
        ("gap  length in mm", "gap", "at least 95 % of the slots have a gap of less than 0.1 mm"),
        ("holes  count", "holes", "some multiple or so of 4"),
        ("drying, rinsing  step in min", "drying, rinsing", "some sort of a ratio of at least 12:1"),
        ("soot  share in wt%", "soot", "the soot kind, if present, making up at least 5 wt%"),
    ],
)
def test_where_nothing_tells_the_form_none_is_offered(declared: str, left: str, words: str) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert "put the meaning in symbols for the dots behind 'exactly' in this line:" in wrong.help


def test_how_far_a_thing_varies_is_declared_as_its_variation() -> None:
    (wrong,) = told("wedge  angle in deg", "wedge", "the wedge angle is constant to within ±0.05 deg")
    assert wrong.help.endswith("and write: wedge variation : within ±0.05 deg")


def test_symbols_that_would_drop_a_condition_are_not_offered() -> None:
    (wrong,) = told(
        "fill  share in vol%\nspeed  number", "fill, speed", "at least 30 mm where the speed is less than 100"
    )
    assert wrong.help.startswith(
        "put the meaning in symbols for the dots, such as IF speed < ... THEN fill >= "
    )


def test_ends_of_a_between_may_be_left_out() -> None:
    (wrong,) = told("gap  length in mm", "gap", "kinds between 2 to 4 mm")
    assert "such as ... mm <= gap <= ... mm, with < for an end that is left out, in this line:" in wrong.help


@pytest.mark.parametrize(
    ("declared", "left", "words", "told_in", "help"),
    [
        ("noise  in dB", "noise", "a signal-to-noise ratio below 3 dB", "'signal-to-noise ratio' is one name",
         'in the note behind it: "signal-to-noise ratio"'),
        (AWAKE, "awake, level", "is awake kind where the level is at least -90 dBm and asleep otherwise",
         "", "IF level"),
        ("fed, fasted  in mg.h/L", "fed, fasted", "fed is within 5% to 10% of fasted", "", "fed / fasted"),
    ],
)  # fmt: skip
def test_no_more_things_and_members_are_asked_for_than_the_words_need(
    declared: str, left: str, words: str, told_in: str, help: str
) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert told_in in wrong.cause
    assert help in wrong.help
    assert "with commas" not in wrong.help
    assert "to the list" not in wrong.help
    assert "a line for each" not in wrong.help


def test_values_of_a_number_are_no_list() -> None:
    line = "ports : 8 or more of a kind  exactly  ports IN {8, 16, 32}"
    _, found = read_sheet(Source("t", sheet("ports  count", "8 or more of a kind", line)))
    assert [d.help for d in found] == ["write each value by itself: ports = 8 OR ports = 16 OR ports = 32"]


@pytest.mark.parametrize(
    ("declared", "left", "words", "help"),
    [
        ('early  share in wt%  "after 45 minutes"', "early",
         "less than about 70% by weight of the acid at about 45 minutes",
         "lift only: less than about 70% by weight; and mark the rest: not restated : of the acid at"),
        ("late  share in wt%", "late", "not less than 100% by weight of the acid by about 120 minutes",
         "lift only: not less than 100% by weight; and mark the rest: not restated : of the acid by"),
        ("gap  length in mm", "gap", "an undulation of about 5 mm over the wall",
         "if 'an undulation of' does not change what is limited, lift only: about 5 mm over the wall"),
    ],
)  # fmt: skip
def test_a_shorter_stretch_that_keeps_the_hedge_comes_before_symbols(
    declared: str, left: str, words: str, help: str
) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert help in wrong.help
    assert wrong.help.index("lift only") < wrong.help.index("in symbols")


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("gap  length in mm", "gap", "a gap ripple of about 5 mm"),
        ("gap  length in mm", "gap", "about 5 mm in one of the samples"),
        ("gap  length in mm", "gap", "about 5 mm unless heated"),
        ("gap, rim  length in mm", "gap", "a rim of about 5 mm of some sort"),
        ("oil  share in wt%", "oil", "disclaiming about 6 wt%"),
        ("oil  share in wt%", "oil", "a weight share of about 45 % of the resin"),
    ],
)
def test_no_shorter_stretch_says_something_else(declared: str, left: str, words: str) -> None:
    assert all("lift only" not in d.help for d in told(declared, left, words) if d.severity == "error")


def test_an_exclusion_in_symbols_has_the_side_of_its_words() -> None:
    (wrong,) = told("oil  share in wt%", "oil", "excluding a cleaner with at least 8 wt% of the oil")
    assert "such as NOT (oil >= ... wt%)," in wrong.help


@pytest.mark.parametrize(
    ("words", "facts", "given_up"),
    [
        ("a volume fraction of not less than about 45 percent", "pores >= 45 vol%", True),
        ("approximately forty-five or 45 percent, roughly 45 vol%", "pores = 45 vol%", True),
        ("substantially 45 percent", "NOT (pores < 45 vol%)", True),
        ("about 45 percent", "44 vol% <= pores <= 46 vol%", False),
        ("about 45 percent", "ABS(pores - 45 vol%) <= 1 vol%", False),
        ("at least 45 percent", "pores >= 45 vol%", False),
        ("close to 45 percent", "pores >= 44 vol%", False),
    ],
)
def test_symbols_beside_a_hedge_are_told_to_give_its_readings_up(
    words: str, facts: str, given_up: bool
) -> None:
    line = f"pores : {words}  exactly  {facts}"
    made, found = read_sheet(Source("t", sheet("pores  share in vol%", words, line)))
    assert made is not None
    assert any("are given up here" in d.message for d in found) == given_up


def test_hedges_given_up_are_told_once() -> None:
    text = "gap, rim  length in mm\n\n1. A thing of about 5 mm and about 6 mm.\n"
    text += "   | gap : about 5 mm  exactly  gap = 5 mm\n   | rim : about 6 mm  exactly  rim = 6 mm\n"
    _, found = read_sheet(Source("t", text))
    (one,) = (d for d in found if "are given up here" in d.message)
    assert len(one.also) == 1


RADII = "wheel  part, 2\n  radius  length in inch\ndisc  part, 2\n  size  length in inch"
SHARED = "cone  part, 1 to 4\n  load  share in %"
LEGS = "leg  part, 1 to 8\n  offsets  count\nrim offsets  count"
DOSES = "dose  part, 1 to 7\n  moment  time in h"
TREAD = "black, rubber, oil  mass in kg"
LOADED = "leaves  mass in g\nwater  volume in mL"
LENGTHS = "gap, rim  length in mm"
STRONG = "strength  pressure in psi"
BOUND = "binder  share in wt%"
NO_FORM = "none"

REFUSED = [
    # No number of their own: nothing for dots to stand for.
    (RADII, "radius of the wheels, size of the discs", "each sort of smaller than its own disc", NO_FORM),
    (SHARED, "load of the cones", "each cone sort of substantially equal", NO_FORM),
    (LEGS, "offsets of the legs, rim offsets", "a plurality of sorts located in A or in B", NO_FORM),
    (LEGS, "offsets of the legs, rim offsets", "sorts of them in each leg or in the rim", NO_FORM),
    (LENGTHS, "gap, rim", "a gap sort of beyond that of the rim", NO_FORM),
    (LENGTHS, "gap", "either wide or narrow kinds", NO_FORM),
    (LENGTHS, "gap", "wide enough for sorts of coins", NO_FORM),
    (STRONG, "strength", "of sorts that hold the load", NO_FORM),
    # A number less, or one of something else.
    (DOSES, "moment of the doses", "at least one day sort of between every dose", NO_FORM),
    (DOSES, "moment of the doses", "spread in sorts over seven days", NO_FORM),
    (DOSES, "moment of the doses", "a dose in each of seven days or sorts", NO_FORM),
    (TREAD, "black, rubber, oil", "25 to 100 sorts of parts per 100 parts of the rubber and oil", NO_FORM),
    (TREAD, "black, rubber", "sorts of 25 kg of black for each 100 kg of rubber", NO_FORM),
    (LOADED, "leaves, water", "leaves divided in sorts by water is 50 to 80 g/L", NO_FORM),
    (LOADED, "leaves, water", "5 g of sorts of leaves in 100 mL", NO_FORM),
    (STRONG, "strength", "sorts of strength in at least one direction above 7300 psi", NO_FORM),
    (STRONG, "strength", "above 7300 psi in two sorts of directions", NO_FORM),
    (STRONG, "strength", "above 7300 psi in sorts of tests at 23 °C", NO_FORM),
    (STRONG, "strength", "a drop of 7300 psi", NO_FORM),
    (LENGTHS, "gap", "sorts of about 5 mm or thereabouts like", NO_FORM),
    (LENGTHS, "gap", "neither sort of 3 mm nor 5 mm", NO_FORM),
    (LENGTHS, "gap", "topping out sort of at 5 mm", NO_FORM),
    (LENGTHS, "gap", "hardly any sort above 5 mm", NO_FORM),
    (LENGTHS, "gap", "at least 3 mm, 4 mm in sorts", NO_FORM),
    # A choice, which no single form keeps.
    (LENGTHS, "gap", "less than 3 mm of sorts or more than 5 mm", NO_FORM),
    (LENGTHS, "gap", "at least 3 mm of sorts or shut", NO_FORM),
    (BOUND, "binder", "from 1 wt% to 5 wt% of at least one sort selected from gums", NO_FORM),
    (BOUND, "binder", "at most 5 wt% of one or more sorts of gums", NO_FORM),
    (BOUND, "binder", "at least two of the sorts of gums", NO_FORM),
    (BOUND, "binder", "5 wt% sort of gum or resin", NO_FORM),
    # As many as the words have, on their sides.
    (LENGTHS, "gap", "between kinds of plates at least 3 mm", "gap >= ... mm"),
    (LENGTHS, "gap", "between kinds of plates more than 3 mm", "gap > ... mm"),
    (LENGTHS, "gap", "between kinds of plates at most 3 mm", "gap <= ... mm"),
    (LENGTHS, "gap", "between kinds of plates less than 3 mm", "gap < ... mm"),
    (LENGTHS, "gap", "between 3 and 5 mm of sorts", "... mm <= gap <= ... mm"),
    (LENGTHS, "gap", "from 3 to 5 mm of sorts", "... mm <= gap <= ... mm"),
    (LENGTHS, "gap", "at least 3 mm and at most 5 mm of sorts", "... mm <= gap <= ... mm"),
    (LENGTHS, "gap, rim", "at most something like 3 times the rim", "gap / rim <= ..."),
    (STRONG, "strength", "strength of sorts above 7300 psi", "strength > ... psi"),
    (BOUND, "binder", "from 1 wt% to 5 wt% of sorts", "... wt% <= binder <= ... wt%"),
    (SHARED, "load of the cones", "each of sorts between 31 % and 35 %",
     "EVERY cone (... % <= load <= ... %)"),
    (SHARED, "load of the cones", "each of sorts at least 31 %", "EVERY cone (load >= ... %)"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "form"), REFUSED)
def test_what_is_offered_has_as_many_limits_as_the_words(
    declared: str, left: str, words: str, form: str
) -> None:
    wrong = [d for d in told(declared, left, words) if d.severity == "error"]
    assert wrong
    offered = [d.help.partition("such as ")[2] for d in wrong if "such as" in d.help]
    assert not offered if form == NO_FORM else offered[0].startswith(f"{form},")
