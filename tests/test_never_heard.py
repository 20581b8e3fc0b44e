"""Words that lift, turn or loosen what is said: heard, or refused. Common practice in wording, no source."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors, on_the_wrong_side

SWITCH = "locked  one of only yes, no"
GAPS = "gap, rim  length in mm"


@pytest.mark.parametrize(
    ("declared", "left", "words", "message"),
    [
        (SWITCH, "locked", "the lid can be locked", "'can be'"),
        (SWITCH, "locked", "the lid may be locked", "'may' leaves it open"),
        (SWITCH, "locked", "the lid need not be locked", "'need not'"),
        (f"{SWITCH}\ngap  length in mm", "locked, gap", "locked before the gap exceeds 3 mm", "'before'"),
        (f"{SWITCH}\ngap  length in mm", "locked, gap", "is locked lest the gap exceeds 3 mm", "'lest'"),
        (f"{SWITCH}\ngap  length in mm", "locked, gap", "locked not only when the gap exceeds 3 mm",
         "not only when"),
        (f"{SWITCH}\nfill  share in %", "locked, fill", "locked when the fill is as low as 10 %",
         "as low as"),
        (SWITCH, "locked", "the lid fails to lock", "'fails to'"),
        (SWITCH, "locked", "the lid never locks", "'never' says how"),
        (SWITCH, "locked", "the lid is almost locked", "'almost' says how"),
        (SWITCH, "locked", "the lid hasn't locked", "'hasn't"),
        ("door locked  one of only yes, no", "door locked", "the lid of the door is locked",
         "no phrase reads"),
        ("door locked  one of only yes, no", "door locked", "the door frame is locked", "no phrase reads"),
        ("gap  length in mm", "gap", "exceeds 2 mm but not 5 mm", "'but not' may deny"),
        (GAPS, "gap, rim", "the gap lies more than 20 % above half of the rim",
         "of the multiple, or of the thing"),
        ("metal  any of steel, brass", "metal", "steel or preferably brass", "'or preferably'"),
        ("rib  part, 0 to 5\n  height  length in mm", "height of the ribs", "the remaining ribs exceed 3 mm",
         "the remaining ones"),
        (GAPS, "gap, rim", "the gap and the rim are hardly equal", "'hardly'"),
        (GAPS, "gap, rim", "the gap and the rim may be equal", "'may' leaves it open"),
        (GAPS, "gap, rim", "the gap and the rim are slightly different", "slightly different"),
        ("gap  length in mm", "gap", "cannot exceed 5 mm or be less than 3 mm", "go on behind 'or'"),
        ("gap  length in mm", "gap", "never exceeds 5 mm or falls below 3 mm", "go on behind 'or'"),
        ("gap  length in mm", "gap", "different from 3 mm or 5 mm", "go on behind 'or'"),
        ("gap  length in mm", "gap", "not more than 3 to 5 mm", "a range is no limit"),
        ("fill  share in %", "fill", "rises above a threshold of 18 to 20 %", "no phrase reads"),
        ("fill  share in %", "fill", "is not limited to 18 %", "'limited to'"),
        ("wheels  count", "wheels", "at least 80 % of the wheels", "one of wheels itself"),
        ("film  length in um", "film", "20 to 30 µm exclusive of the primer", "measured with it"),
        ('flow  in L/min "maximum flow"', "flow", "a minimum flow of 12 L/min", "declared as a maximum"),
        ("rib  part, 0 to 5\n  height, width  length in mm", "height of the ribs",
         "the ribs have different widths",
         "speak of the width"),
        ("old flow, flow  in L/min", "old flow, flow", "the flow is doubled", "no phrase reads"),
        (GAPS, "gap, rim", "the gap is 3 mm more than half of the rim", "no phrase reads"),
    ],
)  # fmt: skip
def test_what_lifts_a_limit_is_refused(declared: str, left: str, words: str, message: str) -> None:
    (error, *_) = errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert message in error.message


def test_a_share_of_another_ingredient_is_told() -> None:
    declared = "alloy  composition in wt%\n  Si, Mg, Al\n"
    text = f"{declared}\n1. An alloy with at most 5 wt% of the Mg.\n   | Si : at most 5 wt% of the Mg\n"
    _, told = read_sheet(Source("t.sheet", text))
    assert "read as a share of Mg" in [d.message for d in told]
    _, told = read_sheet(Source("t.sheet", text.replace("the Mg", "Mg")))
    assert "these words say how much Mg there is, and not how much Si" in [d.message for d in told]


@pytest.mark.parametrize(
    "words", ["comprising, by mass, 28.5 to 31.0 % of cobalt", "comprising by weight 5 to 9 % of cobalt"]
)
def test_a_basis_before_a_number_of_any_length_is_heard(words: str) -> None:
    limit = words.split(" of ")[0].split("mass, ")[-1].split("weight ")[-1]
    text = f"magnet  composition in wt%\n  cobalt, iron\n\n1. A magnet {words}.\n   | cobalt : {limit}\n"
    made, told = read_sheet(Source("t.sheet", text))
    assert made is not None
    assert not [d for d in told if "percent of what" in d.message]


DENYING = (
    "incapable of, free from, devoid of, void of, abstaining from, dispensing with, prohibiting, "
    "eliminating, suppressing, suppresses, inhibiting, resisting, opposing, save for, bar, "
    "nonexistent, missing, omitting, obviating, negating, counteracting, forgoing, renouncing, "
    "rejecting, refusing, repelling, averting, thwarting, impeding, removing, deleting, ruling out, "
    "keeping out, protected against, shielding from, safe from, insensitive to, inadmissible for, "
    "impossible for, rid of, possibly, allegedly, presumably, theoretically, purportedly, "
    "hypothetically, apparently, conceivably, potentially, variance of, drift of, contrary to, "
    "opposed to, except for, apart from, far from, threatening, risking, permitting, allowing, "
    "disregarding, skipping, discarding, abandoning, waiving, unlike"
).split(", ")
BEHIND = (
    "inadmissible impossible prohibited suppressed eliminated avoided excluded missing intolerable "
    "unacceptable barred ruled-out improbable possible optional hypothetical nonexistent harmful "
    "insufficient excessive wrong"
).split()


@pytest.mark.parametrize(
    "words",
    [
        *(f"{what}{head} a gap of at least 5 mm" for head in DENYING for what in ("", "a frame ")),
        *(f"{head} exceeding 5 mm" for head in DENYING),
        *(f"a gap of at least 5 mm {state} {word}" for word in BEHIND for state in ("is", "being")),
    ],
)
def test_what_denies_or_loosens_a_limit_is_never_read_past(words: str) -> None:
    refused = errors(f"gap  length in mm\n\n1. A thing, wherein {words}.\n   | gap : {words}\n")
    as_if_not_there = ("gap  length in mm", "gap", words, "gap = 7 mm", "gap = 3 mm")
    assert refused or on_the_wrong_side(*as_if_not_there)


ADDITIVES = "additive  any of halogen, salt, dye\n  halogen : chlorine, bromine"
METALS = "metal  any of copper, zinc, tin"


@pytest.mark.parametrize(
    ("declared", "left", "words", "message"),
    [
        *((ADDITIVES, "additive", words, "some of 'halogen' is left out")
          for words in ("no halogen but chlorine", "contains no halogen other than chlorine",
                        "does not contain any halogens except chlorine and bromine",
                        "a halogen other than bromine")),
        *((METALS, "metal", words, "'without' behind what is denied")
          for words in ("comprises no copper without zinc", "does not contain copper without zinc",
                        "free of copper without zinc", "no copper or zinc without tin")),
        *((METALS, "metal", words, "may lift 'free'")
          for words in ("free of copper but not of zinc", "free of copper and not of zinc",
                        "free of copper, not of zinc")),
        (METALS, "metal", "excludes copper but not zinc", "may lift 'excludes'"),
        (METALS, "metal", "is not free of tin but of zinc", "may lift 'free'"),
        ("salt  share in wt%", "salt", "is not present, or in an amount of at most 2 wt%", "behind 'or'"),
        ("salt  share in wt%", "salt", "is not present, or is present in an amount of at most 2 wt%",
         "behind 'or'"),
        ("lamp on  one of only yes, no\ntemp  temperature in degC", "lamp on, temp",
         "switches on at 40 to 45 °C and off at 30 °C", "without its verb"),
    ],
)  # fmt: skip
def test_what_may_be_there_in_spite_of_a_denial(declared: str, left: str, words: str, message: str) -> None:
    text = f"{declared}\n\n1. A thing, wherein it {words}.\n   | {left} : {words}\n"
    assert any(message in d.message for d in errors(text))


@pytest.mark.parametrize(
    ("words", "within", "outside"),
    [
        ("contains copper without zinc", "metal = {copper}", "metal = {copper, zinc}"),
        ("without copper but with zinc", "metal = {zinc}", "metal = {copper, zinc}"),
        ("free of copper, but not free of zinc", "metal = {zinc}", "metal = {tin}"),
        ("without copper and without zinc", "metal = {tin}", "metal = {zinc}"),
        ("is free of copper", "metal = {zinc}", "metal = {copper}"),
        ("contains no metal other than copper", "metal = {copper}", "metal = {copper, zinc}"),
    ],
)
def test_what_is_plainly_denied_stays_so(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(METALS, "metal", words, within, outside)


def test_the_whole_of_more_than_half_is_what_the_words_name() -> None:
    for left in ("ribs, slots", "slots, ribs"):
        words, inside, outside = (
            "more than half of the ribs are slots",
            "ribs = 4, slots = 3",
            "ribs = 4, slots = 2",
        )
        assert not on_the_wrong_side("ribs, slots  count", left, words, inside, outside)


@pytest.mark.parametrize(
    "thing",
    ["a barrier with", "a shield of", "shields with", "a ridge with", "a paste having",
     "a freezing ruler with", "a guard with", "an optional coating having", "a resistor with",
     "an inhibitor film with", "a counterweight with", "a false ceiling with", "a void with",
     "a steel bar with"],
)  # fmt: skip
def test_things_that_are_called_by_such_words_are_read_past(thing: str) -> None:
    words, within, outside = f"{thing} a thickness of at least 2 mm", "thickness = 3 mm", "thickness = 1 mm"
    assert not on_the_wrong_side("thickness  length in mm", "thickness", words, within, outside)
