"""The command `map`: an outline of the claim set that a reader can follow, however long it is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from scopecheck.answers.order import _Order, scope_map
from scopecheck.answers.questions import prepare
from scopecheck.cli import app
from scopecheck.commands.claim_map import map_status
from scopecheck.report.blocks import Outline
from scopecheck.report.render import render
from scopecheck.report.scope_map import map_report
from scopecheck.resolve.dependencies import noun_of
from scopecheck.solving.constraints import Undecided
from tests.benchmarks.claim_sets import claim_set
from tests.forbidden_words import forbidden_in
from tests.sheets import sheet

FITTED = """\
width  length in mm

1. A retractor with a width of at least 3 mm.
   | width : at least 3 mm

2. A vehicle seat fitted with the retractor of claim 1, wherein the width is at most 9 mm.
   | width : at most 9 mm

3. A seat carrying the retractor of claim 1, wherein the width is at most 8 mm.
   | width : at most 8 mm

4. A door pivotably mounted on the retractor of claim 1, wherein the width is at most 7 mm.
   | width : at most 7 mm
"""
TWO = """\
gap  length in mm

1. A thing with a gap of at least 1 mm.
   | gap : at least 1 mm

2. The thing of claim 1, the gap being above 0.5 mm.
   | gap > 0.5 mm
"""
SIEVE = """\
title    Sieve
profile  US

holes       count
diameter    length in mm
metal       any of copper, zinc, steel

1. A sieve with at least 6 holes.
   | holes : at least 6

2. The sieve of claim 1, wherein the holes have a diameter of at most 4 mm.
   | diameter : at most 4 mm

3. The sieve of claim 2, wherein there are at least 12 holes.
   | holes : at least 12

4. A sieve having at least 8 holes with a diameter of at most 4 mm.
   | holes    : at least 8
   | diameter : at most 4 mm

5. The sieve of claim 1, made of at least one of copper and zinc.
   | metal : at least one of copper and zinc

6. The sieve of claim 5, wherein there are 4 holes.
   | holes = 4

7. A sieve with at least six holes.
   | holes : at least six holes

8. A sieve having a diameter of the holes of at most 3 mm.
   | diameter : at most 3 mm

9. A method of making the sieve of claim 1, wherein the holes have a diameter of at most 2 mm.
   | diameter : at most 2 mm
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["map", *arguments])


def written(folder: Path, text: str) -> str:
    path = folder / "sieve.sheet"
    path.write_text(text, "utf-8")
    return str(path)


def test_the_outline(tmp_path: Path) -> None:
    result = run(written(tmp_path, SIEVE))
    assert result.exit_code == 1
    outline = result.output.split("The claims\n──────────\n\n")[1].split("\n\n")[0]
    assert outline.split("\n") == [
        "- claims 1 and 7, of one scope (sieve)",
        "   - claim 2: shuts out diameter 14 mm",
        "      - claim 4: shuts out holes 7 (not by dependence; on every reading listed)",
        "         - claim 3: shuts out holes 8 (not by dependence; on every reading listed)",
        "   - claim 5: shuts out metal none",
        "- claim 8 (sieve)",
        "- claim 9 (method)",
    ]
    text = " ".join(result.output.split())
    assert "Nothing meets claim 6 with every phrase as presumed, as restated" in text
    assert "Claims for different things (sieve and method) are not held against each other." in text
    assert "claim 1 and claim 8: a thing with diameter" in text


def test_a_set_in_order_ends_with_status_0(tmp_path: Path) -> None:
    plain = SIEVE.split("\n4. ")[0] + "\n"
    assert run(written(tmp_path, plain)).exit_code == 0


def of_any_preceding(count: int) -> str:
    lines = [
        f"{n}. The thing of any preceding claim, having a gap of at least {n} mm." for n in range(2, count)
    ]
    return "\n".join(["1. A thing.", *lines]) + "\n"


def test_claims_of_any_preceding_claim_take_no_time_that_doubles_with_each(tmp_path: Path) -> None:
    assert run(written(tmp_path, of_any_preceding(36))).exit_code == 1


def test_a_pair_left_undecided_is_a_doubt_and_no_step(monkeypatch: pytest.MonkeyPatch) -> None:
    """Claim 2 lies within claim 1, and whether claim 1 lies within claim 2 is asked for in vain."""

    def in_vain(*_: object) -> bool:
        raise Undecided("the time ran out")

    made = prepare(sheet(TWO))
    monkeypatch.setattr(_Order, "_separate", in_vain)
    monkeypatch.setattr(_Order, "_just_outside", lambda *_: None)
    found = scope_map(made)
    assert (1, 2) in {(a, b) for a, b, _ in found.doubts}
    assert (found.steps, found.apart) == ((), ())
    assert map_status(found) == 3


@pytest.mark.parametrize("format", ["text", "markdown", "json"])
def test_no_output_says_what_only_a_practitioner_may_say(tmp_path: Path, format: str) -> None:
    result = run(written(tmp_path, SIEVE), "--format", format, "--all")
    assert forbidden_in(result.output, [SIEVE, "holes", "diameter", "metal"]) == []


def test_json_has_every_class_and_a_thing_for_every_step(tmp_path: Path) -> None:
    data = json.loads(run(written(tmp_path, SIEVE), "--format", "json").output)
    assert data["schema_version"] == 1
    assert [c["claims"] for c in data["classes"]] == [[1, 7], [2], [3], [4], [5], [8], [9]]
    steps = {(s["narrower"], s["wider"]): s for s in data["steps"]}
    assert set(steps) == {(2, 1), (3, 4), (4, 2), (5, 1)}
    assert all(len(s["meets_only_the_wider"]) == 3 for s in steps.values())
    assert steps[3, 4]["by_dependence"] is False
    assert data["nothing_meets"] == [6]


def test_markdown_sets_the_outline_in(tmp_path: Path) -> None:
    lines = run(written(tmp_path, SIEVE), "--format", "markdown").output.split("\n")
    assert "- claims 1 and 7, of one scope (sieve)" in lines
    assert "  - claim 2: shuts out diameter 14 mm" in lines


def test_two_hundred_claims_stay_readable() -> None:
    made = claim_set(200)
    report = map_report(made, scope_map(prepare(made)))
    (outline,) = [b for b in report.blocks if isinstance(b, Outline)]
    assert len(outline.lines) == 200
    text = render(report, "text", 90)
    lines = text.split("Claims apart")[0].split("\n")
    assert max(map(len, lines)) <= 90
    assert sum(line.lstrip().startswith("- claim") for line in lines) == 200


def test_a_long_chain_tells_its_deepest_levels_by_number() -> None:
    claims = ["1. A sieve with at least 1 hole.\n   | holes : at least 1\n"]
    claims += [
        f"{n}. The sieve of claim {n - 1}, wherein there are at least {n} holes.\n   | holes : at least {n}\n"
        for n in range(2, 16)
    ]
    made = sheet("holes  count\n\n" + "\n".join(claims))
    text = render(map_report(made, scope_map(prepare(made))), "text")
    assert "- (level 14) claim 15: shuts out holes" in text


def test_a_file_that_is_not_there() -> None:
    result = run("nowhere.sheet")
    assert result.exit_code == 2
    assert "Traceback" not in result.output


def test_claims_of_which_nothing_is_restated_are_not_compared() -> None:
    text = """\
seat   length in mm

1. A bench with a seat of at least 300 mm.
   | seat : at least 300 mm

2. The bench of claim 1, wherein the seat is painted.

3. A bench with a seat of 300 mm or more.
   | seat : 300 mm or more
"""
    made = sheet(text)
    report = map_report(made, scope_map(prepare(made)))
    ((_, line),) = [told for b in report.blocks if isinstance(b, Outline) for told in b.lines]
    assert "claims 1 and 3, of one scope" in line
    assert "(with claim 2, of which no line of its own is restated: nothing to compare)" in line


HANGING = """\
solder  composition in wt%
  silver, tin
1. A solder containing 3 to 4 wt% of silver, the balance being tin and unavoidable impurities.
   | silver : 3 to 4 wt%
   | solder : the balance being tin and unavoidable impurities
2. The solder of claim 1, containing at most {tin} wt% of tin.
   | tin : at most {tin} wt%
"""


@pytest.mark.parametrize(("tin", "hangs"), [("95", True), ("96", False)])
def test_what_only_an_unstated_threshold_lets_be_met_is_not_said_to_be_met_by_nothing(
    tin: str, hangs: bool
) -> None:
    """4 wt% silver and 95 wt% tin leave 1 wt% of impurities; how much of these is ordinary nobody states."""
    found = scope_map(prepare(sheet(HANGING.format(tin=tin))))
    assert (found.empty, found.on_threshold) == ((), (2,) if hangs else ())


def test_a_claim_is_for_the_thing_and_not_for_what_was_done_to_it() -> None:
    made = sheet(FITTED)
    page = render(map_report(made, scope_map(prepare(made))), "text")
    assert "claim 2 (seat)" in page
    # claim 3 is for a seat too, and lies within claim 2
    assert "(retractor, seat and door)" in " ".join(page.split())
    assert "claim 4 (door)" in page
    assert "fitted)" not in page


@pytest.mark.parametrize(
    ("claimed", "noun"),
    [
        ("vehicle equipped with the retractor", "vehicle"),
        ("pump driven by the motor", "pump"),
        ("seed bed with a cover", "bed"),
        ("water feed for a boiler", "feed"),
        ("printed circuit board", "board"),
        ("housing receiving the lamp", "housing"),
        ("method of making a bearing", "method"),
        ("bearing", "bearing"),
    ],
)
def test_the_noun_of_a_claim(claimed: str, noun: str) -> None:
    assert noun_of(claimed) == noun
