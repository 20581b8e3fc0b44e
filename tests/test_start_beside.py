"""`start` on what makes a limit another one: points of units, values of reference, steps by their letters.

Also: what stands above pasted claims, and what each of several like parts has. The claims are our own.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from scopecheck.drafting.abbreviated import words_without_points
from scopecheck.drafting.anew import is_sheet, proposed_anew
from scopecheck.drafting.asked import questions
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from scopecheck.foundations.spans import Source
from tests.test_cli import run
from tests.test_start import read, started


def found(text: str) -> set[str]:
    """The lines beside the claims, which `check` reads; each number is in one of them."""
    read(text)
    return {line.line for claim in drafted("claims", pasted(text)).claims for line in claim.lines}


KILN = """\
1. A method of firing tiles, comprising drying the tiles at from 80° C. to 95° C. for 5 min. or more, firing
them at a temperature of at most 900° C., and cooling them at a rate of no more than 4° C. per minute.
2. The method of claim 1, wherein a temperature of the kiln is from 20° C. to 30° C., preferably 25° C.
3. The method of claim 1, wherein the firing temperature is at least 850° C. The tiles are red.
"""


def test_a_point_behind_a_unit_ends_no_sentence() -> None:
    lines = found(KILN)
    assert lines >= {
        "drying temperature : from 80° C. to 95° C",
        "drying : for 5 min. or more",
        "firing temperature : at most 900° C",
        "not restated : no more than 4° C. per minute",
        "temperature : from 20° C. to 30° C., preferably 25° C",
        "firing temperature : at least 850° C",
    }
    assert not [line for line in lines if line.startswith("cooling rate")]
    assert [c.number for c in read(KILN).claims] == [1, 2, 3]


def test_which_points_are_left_out() -> None:
    assert words_without_points("from 80° C. to 95° C.") == "from 80° C to 95° C."
    assert words_without_points("for 5 min. or more") == "for 5 min or more"
    assert words_without_points("at 4.5 mm. The lid") == "at 4.5 mm. The lid"
    assert words_without_points("a lid etc. of 4 mm") == "a lid etc. of 4 mm"


def test_an_edited_sheet_with_such_points_gets_only_what_it_lacks() -> None:
    sheet = "drying temperature  temperature in degC\n\n1. A method, wherein a drying temperature is from 80°"
    sheet += " C. to 95° C. and a length is 5 in. or more.\n   | drying temperature : from 80° C. to 95° C.\n"
    told = proposed_anew(Source("kiln", sheet))
    assert "no longer says" not in told
    assert "80" not in told


@pytest.mark.parametrize(
    ("claim", "lines"),
    [
        (
            "A fan, wherein a blade is turned by at least 2° if a motor speed is more than 10 % above a rated"
            " speed of 12 rpm",
            {
                "not restated : at least 2°",
                "not restated : if a motor speed is more than 10 % above a rated speed of 12 rpm",
            },
        ),
        (
            "A fan, wherein a speed is more than 10 % above a rated speed of 12 rpm",
            {"not restated : more than 10 % above a rated speed of 12 rpm"},
        ),
        (
            "A film having an optical thickness within 5 % of a quarter of a wavelength of 550 nm",
            {"not restated : within 5 % of a quarter of a wavelength of 550 nm"},
        ),
        (
            "A film, wherein a loss is below 0.5 % over at least 80 % of a wavelength range of 450 to 650 nm",
            {"not restated : below 0.5 % over at least 80 % of a wavelength range of 450 to 650 nm"},
        ),
        (
            "A film absorbing light in the wavelength range of 200 to 300 nm",
            {"not restated : in the wavelength range of 200 to 300 nm"},
        ),
        (
            "A film, the layers together having a thickness of no more than 5 µm",
            {"not restated : the layers together having a thickness of no more than 5 µm"},
        ),
        (
            "A pump (1), wherein at least two of the probes (6a, 6b) have a range of 2 to 20 mmol/l",
            {"not restated : at least two of the probes (6a, 6b) have a range of 2 to 20 mmol/l"},
        ),
        # limits of their own all the same
        (
            "A film having a wavelength in a range of 450 to 650 nm",
            {"wavelength : in a range of 450 to 650 nm"},
        ),
        (
            "A melt, wherein the melt is cast under a vacuum of 10 Pa or less",
            {"vacuum : 10 Pa or less"},
        ),
        ("A fan having a rated speed of 12 rpm", {"rated speed : 12 rpm"}),
        ("A melt, wherein the melt is cast at a speed of 2 m/s", {"speed : 2 m/s"}),
    ],
)
def test_a_value_of_reference_is_no_limit(claim: str, lines: set[str]) -> None:
    assert found(f"1. {claim}.\n") == lines


def test_a_value_of_reference_is_asked_about() -> None:
    asked = " ".join(
        questions(drafted("claims", pasted("1. A fan, having a speed above a rated speed of 12 rpm.")))
    )
    assert "above a rated speed of 12 rpm" in asked


CASTING = """\
1. A method comprising the following steps: a) curing a resin for at least 6 hours; and b) lifting the mould
once its temperature has fallen below 40 °C, at the latest 24 hours after the end of step a).
2. The method of claim 1, wherein step a) lasts not more than 300 minutes.
3. The method of claim 1, wherein step b) takes at least 10 minutes.
4. The method of claim 1, further comprising, within 2 hours thereafter, sanding the resin.
"""


def test_steps_by_their_letters_and_the_latest_moment() -> None:
    lines = found(CASTING)
    assert lines >= {
        "curing, lifting : comprising the following steps",
        "curing : for at least 6 hours",
        "lifting, temperature : once its temperature has fallen below 40 °C",
        "lifting : at the latest 24 hours after the end of step a)",
        "duration of curing : not more than 300 minutes",
        "duration of lifting : at least 10 minutes",
        "not restated : within 2 hours thereafter",
    }
    assert not [line for line in lines if line.startswith("time")]


def test_a_step_on_a_condition_leaves_a_mark_of_the_list() -> None:
    two = "1. A method comprising the steps: a) curing wax for 6 hours; and b) sanding it if a gloss is 4.\n"
    assert "not restated : comprising the steps" in found(two)


RECEPTORS = """\
1. A mast comprising three to six lightning caps (7), wherein each of the caps (7) has a surface of at
least 20 cm2, a mass of less than 40 g and a contact resistance of less than 0.1 ohm.
2. The mast of claim 1, wherein at least two of the caps (7) have a contact resistance of 0.02 to 0.05 ohm.
3. The mast of claim 1, wherein each of the caps has a rim and the mast has a length of 4 m.
"""


def test_what_else_each_of_them_has_is_of_each() -> None:
    several = "of the lightning caps"
    assert found(RECEPTORS) >= {
        f"surface {several} : each of the caps (7) has a surface of at least 20 cm2",
        f"mass {several} : each ... less than 40 g",
        f"contact resistance {several} : each ... less than 0.1 ohm",
        f"contact resistance {several} : at least two of the caps (7) have a contact resistance of 0.02 to"
        " 0.05 ohm",
        "length : 4 m",
    }


WALL = """\
1. A chimney having a foot (2), characterised in that a wall thickness (t) of the foot (2) is 30 to 100 mm.
2. The chimney of claim 1, wherein the wall thickness (t) decreases from the foot to the rim by at most 4 mm
per metre and is at least 60 mm at the foot.
3. The chimney of claim 1, wherein the wall thickness (t) at the foot amounts to between 6 cm and 9 cm.
4. The chimney of claim 1, wherein the wall thickness is greatest at the foot and the shaft is round and is at
most 20 m long.
"""


def test_one_wall_thickness_has_one_name() -> None:
    lines = found(WALL)
    assert lines >= {
        "wall thickness : 30 to 100 mm",
        "wall thickness : at least 60 mm",
        "wall thickness : between 6 cm and 9 cm",
    }
    assert not [line for line in lines if "20 m" in line and line.startswith("wall")]
    assert not [line for line in lines if line.startswith(("foot", "root"))]


LID = "1. A jar having a rim of 4 mm width, wherein the lid is wide.\n2. The jar of claim 1, of 5 g."
LID += "\n"


def test_lines_of_the_head_above_claims_are_taken_over(tmp_path: Path) -> None:
    text = f"profile EPO\nfiled: yes\ntitle   Preserving jar\n\n{LID}"
    assert not is_sheet(text)
    sheet = started(text)
    assert sheet.startswith("\ntitle    Preserving jar\nprofile  EPO\nfiled    yes\n")
    assert started(LID).startswith("\ntitle    jar\nprofile  US\n\n")
    file, to = tmp_path / "claims.txt", tmp_path / "jar.sheet"
    file.write_text(text, "utf-8")
    assert run("start", str(file), "--to", str(to)).exit_code == 0
    written = to.read_text("utf-8")
    assert "Assumed" in written
    assert "profile US" not in written
    assert "1. the title" not in written
    assert run("check", str(to)).exit_code < 2


@pytest.mark.parametrize(
    "more",
    ["   | rim : 4 mm\n", 'answered "rim" in 1 : of glass  "why"\n', "inside\n  one : mass = 4 g\n"],
)
def test_a_sheet_stays_one(more: str) -> None:
    assert is_sheet(f"profile EPO\n\n{LID}{more}")
    assert is_sheet(f"profile EPO\nmass  mass in g\n\n{LID}")


def test_european_style_begins_with_that_profile_and_says_so(tmp_path: Path) -> None:
    text = (
        LID + "3. The jar of claim 1 or 2, characterised in that it is round.\n4. The jar of claims 1 to 3.\n"
    )
    file = tmp_path / "claims.txt"
    file.write_text(text, "utf-8")
    told = run("start", str(file)).stdout
    assert "profile EPO, because of 'characterised' in the claims" in told
    assert "\nprofile  EPO\n" in told
    assert "US practice" not in run("words", str(file)).stdout
    file.write_text(f"profile US\n\n{text}", "utf-8")
    assert "\nprofile  US\n" in run("start", str(file)).stdout
    assert "US practice" in run("words", str(file)).stdout
