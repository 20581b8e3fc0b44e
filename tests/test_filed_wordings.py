"""Wordings of filed claims, each with a thing that they, as presumed, take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from tests.sheets import errors, on_the_wrong_side, sheet

METAL = "metal  any of iron, zinc, tin, lead"
PARTS = "PE, PP  share in wt%"
SHARE = "gum  share in wt%"
MASSES = "yeast, flour  mass in kg"
MOLES = "acid, base  amount in mol"
SIDES = "width, depth  length in mm"
SIGNS = "D1, D2  length in mm"
TEETH = "teeth  count"
DOUGH = "volume after, volume before  volume in mL"
ROUNDS = "thickness after, thickness before  length in mm"
SENSORS = "sensors, cells  count"
VANES = 'vane  part, 0 to 2\n  pitch  angle in deg  "to the axis"'
FILLS = 'chamber  part, 0 to 2\n  fill  mass in mg  "powder in the chamber"'
READ = [
    (METAL, "metal", "iron, zinc, or tin, or combinations thereof", "metal = {iron, zinc}", "metal = {lead}"),
    (METAL, "metal", "iron, zinc or tin, or a combination of at least two of these", "metal = {iron, tin}",
     "metal = {}"),
    (METAL, "metal", "one or a combination of two or more of iron, zinc and tin", "metal = {iron, tin}",
     "metal = {iron, lead}"),
    (METAL, "metal", "any one of iron, zinc and tin, or any combination thereof", "metal = {tin}",
     "metal = {lead}"),
    (METAL, "metal", "selected from iron; zinc; and tin", "metal = {tin}", "metal = {lead}"),
    (METAL, "metal", "iron, zinc, or tin, or combinations thereof, but not lead", "metal = {iron, zinc}",
     "metal = {iron, lead}"),
    ("pulse  duration in ms", "pulse", "within 25 ms", "pulse = 25 ms", "pulse = 26 ms"),
    ("pulse  duration in ms", "pulse", "within a period of 25 ms", "pulse = 25 ms", "pulse = 26 ms"),
    (SHARE, "gum", "does not contain more than 2 wt%", "gum = 2 wt%", "gum = 2.1 wt%"),
    (SHARE, "gum", "reduced to less than 5 wt%", "gum = 4.9 wt%", "gum = 5 wt%"),
    (SHARE, "gum", "free of gum or contains at most 0.1 wt% thereof", "gum = 0.1 wt%", "gum = 0.2 wt%"),
    ('fat content  share in wt%\nfat  any of butter, margarine', "fat content",
     "a fat content which is not less than 18 % by weight and less than 30 % by weight",
     "fat content = 18 wt%", "fat content = 30 wt%"),
    (SIDES, "width, depth", "the difference between the width and the depth is positive",
     "width = 2 mm, depth = 1 mm", "width = 1 mm, depth = 2 mm"),
    (SIDES, "width, depth", "the difference of the depth and the width is positive",
     "width = 1 mm, depth = 2 mm", "width = 2 mm, depth = 1 mm"),
    (SIDES, "width, depth", "the width is smaller than or equal to half the depth",
     "width = 2 mm, depth = 4 mm", "width = 3 mm, depth = 4 mm"),
    (SIDES, "width, depth", "the width is 5 to 10 times smaller than the depth",
     "width = 1 mm, depth = 5 mm", "width = 1 mm, depth = 11 mm"),
    (SIDES, "width, depth", "up to three times longer than the depth", "width = 3 mm, depth = 1 mm",
     "width = 5 mm, depth = 1 mm"),
    (SIDES, "width, depth", "the difference of the width and the depth is 1 to 3 mm",
     "width = 1 mm, depth = 4 mm", "width = 1 mm, depth = 5 mm"),
    ("gap  length in mm", "gap", "from 5 mm down to 3 mm", "gap = 3 mm", "gap = 5.1 mm"),
    ("wall  length in mm", "wall", "a minimum wall thickness of 2 mm", "wall = 3 mm", "wall = 1.9 mm"),
    ("voltage  voltage in V", "voltage", "at a constant voltage of 4.1 V to 4.2 V", "voltage = 4.1 V",
     "voltage = 4 V"),
    ("period  time in s", "period", "at intervals of 5 to 10 s", "period = 5 s", "period = 11 s"),
    ("dose  mass in ug", "dose", "within 75% to 125% of 200 µg", "dose = 150 ug", "dose = 149 ug"),
    ("dose  mass in ug", "dose", "at most 90 % of a nominal dose of 200 µg", "dose = 180 ug",
     "dose = 181 ug"),
    ("speed  rotational speed in rpm", "speed", "80 to 100 % of a rated speed of 3000 rpm",
     "speed = 2400 rpm", "speed = 3001 rpm"),
    ('pressure drop  pressure in kPa\nflow  in L/min  "inspiratory flow"', "pressure drop, flow",
     "a pressure drop of from 2 to 6 kPa at an inspiratory flow of 60 L/min",
     "pressure drop = 2 kPa, flow = 60 L/min", "pressure drop = 7 kPa, flow = 60 L/min"),
    (MASSES, "yeast, flour", "per 100 parts by weight of flour, 3 to 6 parts by weight of yeast",
     "yeast = 3 kg, flour = 100 kg", "yeast = 7 kg, flour = 100 kg"),
    (MASSES, "yeast, flour", "per 100 parts by weight of wheat flour 3 to 6 parts by weight of yeast",
     "yeast = 3 kg, flour = 100 kg", "yeast = 7 kg, flour = 100 kg"),
    (MASSES, "yeast, flour", "a total amount of 0.2 to 1 part by weight per 100 parts by weight of flour",
     "yeast = 1 kg, flour = 100 kg", "yeast = 2 kg, flour = 100 kg"),
    (MOLES, "acid, base", "a molar ratio of acid to base of 1:1 to 3:1, preferably 1.5:1 to 2:1",
     "acid = 3 mol, base = 1 mol", "acid = 4 mol, base = 1 mol"),
    (MOLES, "acid, base", "a molar excess of 10 to 50 % of acid over base", "acid = 1.1 mol, base = 1 mol",
     "acid = 1 mol, base = 1 mol"),
    (DOUGH, "volume after, volume before", "the volume of the dough increasing by 50 to 100 %",
     "volume after = 3 mL, volume before = 2 mL", "volume after = 5 mL, volume before = 2 mL"),
    (DOUGH, "volume before, volume after", "the volume decreases by at least 10 %",
     "volume after = 9 mL, volume before = 10 mL", "volume after = 10 mL, volume before = 10 mL"),
    (ROUNDS, "thickness after, thickness before", "at least twice that thickness",
     "thickness after = 4 mm, thickness before = 2 mm", "thickness after = 3 mm, thickness before = 2 mm"),
    (SIGNS, "D1, D2", "a diameter D1 of 5 to 8 mm and a diameter D2 of 10 to 12 mm", "D1 = 5 mm, D2 = 10 mm",
     "D1 = 5 mm, D2 = 9 mm"),
    (SIGNS, "D1, D2", "a diameter D1 of 5 to 8 mm and a diameter D2 larger than D1", "D1 = 5 mm, D2 = 6 mm",
     "D1 = 6 mm, D2 = 5 mm"),
    ("h1, h2  length in mm", "h1, h2", "the height h1 is 5 to 8 mm and the height h2 is 10 to 12 mm",
     "h1 = 5 mm, h2 = 12 mm", "h1 = 10 mm, h2 = 7 mm"),
    (SENSORS, "sensors, cells", "the number of sensors being at least one per four cells",
     "sensors = 2, cells = 8", "sensors = 1, cells = 8"),
    (TEETH, "teeth", "no more than one tooth", "teeth = 1", "teeth = 2"),
    (TEETH, "teeth", "only one tooth", "teeth = 1", "teeth = 2"),
    (TEETH, "teeth", "at least one tooth, but fewer than four", "teeth = 3", "teeth = 4"),
    (TEETH, "teeth", "from one to three teeth inclusive", "teeth = 3", "teeth = 4"),
    (TEETH, "teeth", "two teeth at most", "teeth = 2", "teeth = 3"),
    (TEETH, "teeth", "a number of teeth not divisible by 3", "teeth = 4", "teeth = 6"),
    (TEETH, "teeth", "divisible by both 2 and 3", "teeth = 6", "teeth = 4"),
    (TEETH, "teeth", "an uneven number of teeth", "teeth = 3", "teeth = 4"),
    ("batteries  count", "batteries", "at most one battery", "batteries = 1", "batteries = 2"),
    (VANES, "pitch of the vanes", "each inclined at an angle of between 20 and 45 degrees to the axis",
     "vanes = 1, pitch of vane 1 = 20 deg", "vanes = 1, pitch of vane 1 = 50 deg"),
    (VANES, "pitch of the vanes", "at least one vane inclined by more than 50 degrees",
     "vanes = 1, pitch of vane 1 = 60 deg", "vanes = 1, pitch of vane 1 = 50 deg"),
    (FILLS, "fill of the chambers", "no more than 25 mg of a powder",
     "chambers = 1, fill of chamber 1 = 25 mg", "chambers = 1, fill of chamber 1 = 26 mg"),
    ("emulsifiers  any of lecithin, mono-and-diglycerides, DATEM", "emulsifiers",
     "selected from the group consisting of lecithin, mono- and diglycerides, DATEM and mixtures thereof",
     "emulsifiers = {mono-and-diglycerides}", "emulsifiers = {}"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), READ)
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (PARTS, "PE, PP", "60 to 90 wt% of PE and the remainder PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of PE and the rest PP"),
        (PARTS, "PE, PP", "60 to 90 wt% PE and the balance PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of PE and traces of PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of PE and minor amounts of PP"),
        (PARTS, "PE, PP", "at least 60 wt% of PE and additionally PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of PE and if desired PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of PE based on PE and PP"),
        (PARTS, "PE, PP", "60 to 90 wt% of a copolymer of PE and PP"),
        (PARTS, "PE, PP", "the remainder of PE and PP is 10 to 20 wt%"),
        (MASSES, "yeast, flour", "3 to 6 parts by weight of yeast"),
        ("acid, base  share in wt%", "acid, base", "a molar excess of 10 to 50 % of acid over base"),
        ("gap  length in mm", "gap", "a gap of down to 3 mm"),
        (f"{TEETH}\ngap  length in mm", "teeth", "divisible by 2 or 3"),
    ],
)
def test_what_has_another_limit_or_none_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


def _readings(declared: str, left: str, words: str) -> list[tuple[str, ...]]:
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    return [tuple(r.label for r in group.readings) for group in made.groups]


@pytest.mark.parametrize(
    "words",
    [
        "iron, zinc, tin or a mixture of two or more thereof",
        "selected from the group consisting of iron, zinc, tin and any combination thereof",
        "selected from iron, zinc, tin, and any combination thereof",
        "comprises iron, zinc, tin, or any mixture thereof",
    ],
)
def test_any_mixture_is_never_one_of_all_alone(words: str) -> None:
    (labels,) = _readings(METAL, "metal", words)
    assert "one, or all together" not in labels
    (labels,) = _readings(METAL, "metal", "iron, zinc, tin or mixtures thereof")
    assert "one, or all together" in labels


@pytest.mark.parametrize("limit", ["at least 1 mm", "1 to 3 mm", "3 mm or more", "not exceeding 3 mm"])
@pytest.mark.parametrize("joined", ["of", "between"])
def test_a_difference_may_be_the_first_less_the_second(limit: str, joined: str) -> None:
    (labels,) = _readings(
        SIDES, "width, depth", f"the difference {joined} the width and the depth is {limit}"
    )
    assert labels[:2] == ("either way", "first minus second")


def test_the_difference_of_a_class_is_one_of_its_sum() -> None:
    glass = "glass  composition in mol%\n  SiO2, Al2O3\n  alkali : Li2O, Na2O"
    words = "the difference of the alkali and Al2O3 is at least 1 mol %"
    assert len(_readings(glass, "alkali, Al2O3", words)) == 1


def test_a_part_beside_its_class_has_no_total_with_it() -> None:
    glass = "glass  composition in mol%\n  SiO2\n  RO : MgO, CaO"
    (labels,) = _readings(glass, "MgO, RO", "the ratio of MgO to the RO is greater than 0.5")
    assert "first over the total" not in labels
    (labels,) = _readings(glass, "MgO, CaO", "the ratio of MgO to CaO is greater than 0.5")
    assert "first over the total" in labels
