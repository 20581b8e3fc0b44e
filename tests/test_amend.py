"""The command `amend`: which claim goes on from which, what is told of it, and what is said of bad input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from scopecheck.answers.findings import relation_of
from scopecheck.cli import app
from scopecheck.resolve.successors import successors
from tests.amended_sheets import amended, both, change
from tests.forbidden_words import forbidden_in
from tests.sheets import sheet

HEAD = """\
title    Leaf strainer
profile  US

holes       count
diameter    length in mm
metal       any of copper, zinc, steel

"""
BEFORE = (
    HEAD
    + """\
1. A leaf strainer comprising a basket with at least 6 holes, the holes having a diameter of
   between 2 and 4 mm.
   | holes     : at least 6
   | diameter  : between 2 and 4 mm

2. The leaf strainer of claim 1, wherein the basket is made of at least one of copper and zinc.
   | metal     : at least one of copper and zinc

3. The leaf strainer of claim 1, wherein the number of the holes is at least 12.
   | holes     : at least 12

inside            holes   diameter   metal
  bench sample    24      3.0 mm     copper
  plain sample    24      3.0 mm     steel
must stay out
  garden sieve    25      3.5 mm     steel
document D1       24      4.2 mm     silent      "page 4, example 2"
"""
)
MERGED = (
    HEAD
    + """\
1. A leaf strainer comprising a basket with at least 6 holes, the holes having a diameter of
   between 2 and 3 mm, wherein the basket is made of at least one of copper and zinc.
   | holes     : at least 6
   | diameter  : between 2 and 3 mm
   | metal     : at least one of copper and zinc

2. The leaf strainer of claim 1, wherein the number of the holes is at least 12.
   | holes     : at least 12

3. The leaf strainer of claim 1, wherein the holes are burnished.
   | not restated : burnished
"""
)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, ["amend", *arguments])


def written(folder: Path, before: str, after: str) -> tuple[str, str]:
    paths = folder / "old.sheet", folder / "amended.sheet"
    for path, text in zip(paths, (before, after), strict=True):
        path.write_text(text, "utf-8")
    return str(paths[0]), str(paths[1])


# ---- which claim goes on from which


def test_claims_are_matched_by_text_where_the_numbers_moved() -> None:
    found = successors(sheet(BEFORE).claims, sheet(MERGED).claims)
    assert found.pairs == ((1, 1), (3, 2))
    assert found.deleted == (2,)


def test_a_claim_reworded_under_its_number_goes_on() -> None:
    after = BEFORE.replace("the number of the holes is at least 12", "there are at least 20 holes").replace(
        "holes     : at least 12", "holes     : at least 20"
    )
    assert successors(sheet(BEFORE).claims, sheet(after).claims).pairs == ((1, 1), (2, 2), (3, 3))


# ---- what is told


def test_a_limitation_that_moved_up_is_recognised() -> None:
    found = change(BEFORE, MERGED)
    assert found.relation == "narrowed"
    assert found.everywhere
    assert [(m.label, m.before, m.claim) for m in found.moved] == [("1c", "2a before", 2)]


def test_a_dependent_whose_limitation_moved_up_adds_nothing() -> None:
    first = "   between 2 and 4 mm.\n   | holes     : at least 6\n"
    taken_up = (
        "   between 2 and 4 mm, and the basket being made of at least one of copper and zinc.\n"
        "   | metal     : at least one of copper and zinc\n   | holes     : at least 6\n"
    )
    told = amended(BEFORE, BEFORE.replace(first, taken_up))
    assert [f.claim for f in told.idle] == [2]
    assert told.changes[1].relation == "unchanged" or told.changes[1].same
    assert [c.relation for c in told.changes] == ["narrowed", "unchanged", "narrowed"]


def test_what_is_shut_out_and_what_is_lost() -> None:
    told = {(c.case.name, c.after.claim): c for c in amended(BEFORE, MERGED).cases}
    sieve, document = told["garden sieve", 1], told["D1", 1]
    assert (sieve.before.how, sieve.after.how) == ("every", "none")
    assert (document.before.how, document.after.how) == ("some", "none")
    plain = told["plain sample", 1]
    assert (plain.before.how, plain.after.how) == ("none", "every")


def test_the_same_sheet_with_other_cases_is_as_before() -> None:
    told = amended(BEFORE, BEFORE.replace("24      3.0 mm     copper", "24      2.5 mm     copper"))
    assert all(c.same for c in told.changes)
    assert not told.found
    assert not told.undecided


def test_numbers_are_held_against_each_other_by_value_and_unit() -> None:
    after = BEFORE.replace("between 2 and 4 mm", "between 0.2 and 0.4 cm")
    assert not [u for u in amended(BEFORE, after).uncarried if u.sort == "number"]
    after = MERGED.replace("between 2 and 3 mm", "between 2 and 3.2 mm")
    assert [u.words for u in amended(BEFORE, after).uncarried] == ["3.2 mm", "burnished"]


def test_what_the_amended_sheet_states_of_the_description_counts() -> None:
    after = MERGED.replace("between 2 and 3 mm", "between 2 and 3.2 mm")
    stated = after + '\ndescription\n  preferred range  : 2 mm <= diameter <= 3.2 mm  "paragraph 8"\n'
    assert [u.words for u in amended(BEFORE, stated).uncarried] == ["burnished"]


def test_what_only_a_document_or_a_thing_to_stay_out_states_bears_nothing_out() -> None:
    after = MERGED.replace("between 2 and 3 mm", "between 2 and 4.2 mm")
    assert [u.words for u in amended(BEFORE, after).uncarried] == ["4.2 mm", "burnished"]


SOLE = """\
rubber   share in wt%
bore     length in mm
holes    count

1. A sole of 12 to {0}, having a bore of {1}.
   | rubber : 12 to {0}
   | bore   : {1}

2. The sole of claim 1, having at least six holes.
   | holes : at least six

description
  range   : 12 wt% <= rubber <= 18 wt%  "paragraph 2"
"""


def test_the_basis_of_a_share_belongs_to_its_unit() -> None:
    before, after = (SOLE.format(share, "more than 6 mm") for share in ("20 % by weight", "18 % by weight"))
    assert not amended(before.replace("12 to 20 % by weight", "12 to 20 wt%"), after).uncarried


def test_words_of_a_count_are_not_those_of_a_length() -> None:
    """'At least' of the bore is new, and 'at least' of the holes stays what it was."""
    before, after = (SOLE.format("18 wt%", bore) for bore in ("more than 6 mm", "at least 6 mm"))
    made, wrong = both(before, after)
    assert made is not None
    assert not wrong
    told = {c.after.number: c for c in amended(before, after).changes if c.after}
    assert told[1].relation == "widened"
    assert told[2].taken_over


HEDGED = """\
seat   length in mm

1. A bench with a seat of about 80 mm.
   | seat : about 80 mm
"""
BARE = """\
seat   length in mm

1. A bench with a seat of 80 mm.
   | seat : of 80 mm   exactly  seat = 80 mm
"""


def test_a_hedge_left_out_is_told_by_what_the_hedge_lets_in() -> None:
    """Nothing states how far "about" stretches: without any width nothing changes, with any it narrows."""
    found = change(HEDGED, BARE)
    ((first, then),) = [s.stages for s in found.stretched]
    assert (first.relation, first.start.value) == ("unchanged", 0)
    assert (then.relation, then.start.value, then.start.closed) == ("narrowed", 0, False)
    ((first, then),) = [s.stages for s in change(BARE, HEDGED).stretched]
    assert (first.relation, then.relation) == ("unchanged", "widened")


def test_a_relation_that_hangs_on_a_stretch_says_so_first(tmp_path: Path) -> None:
    text = " ".join(run(*written(tmp_path, HEDGED, BARE)).output.split())
    assert 'Claim 1: only narrowed once "about 80 mm" stretches at all; unchanged as' in text
    assert "how far it stretches is stated nowhere" in text
    wide = BARE.replace("of 80 mm", "of from 70 to 90 mm").replace("seat = 80 mm", "70 mm <= seat <= 90 mm")
    text = " ".join(run(*written(tmp_path, HEDGED, wide)).output.split())
    assert 'unchanged as restated with "about 80 mm" stretched by 12.5 %; only narrowed once' in text
    assert 'only widened as long as "about 80 mm" stretches by less than 12.5 %' in text


RANGE = """\
profile EPO
seat   length in mm

1. A bench with a seat of from 70 to 90 mm.
   | seat : from 70 to 90 mm
"""
LIMITS = """\
profile EPO
seat   length in mm

1. A bench with a seat of at least 70 mm and at most 90 mm.
   | seat : at least 70 mm
   | not restated : and
   | seat : at most 90 mm
"""


def test_a_range_written_as_two_limits_changes_by_the_presumptions_on_rounding_alone(tmp_path: Path) -> None:
    """EPO Guidelines G-VI 7.1 (2024): the last written digit shows the accuracy, here of single limits."""
    assert change(RANGE, LIMITS).relation == "unchanged"
    assert change(RANGE, LIMITS).alike is None
    levels = [text.replace("length in mm", "number").replace(" mm", "") for text in (RANGE, LIMITS)]
    levels = [text.replace("seat", "pH").replace("70", "4").replace("90", "9") for text in levels]
    levels[1] = levels[1].replace("at least 4", "pH of 4 or higher").replace("at most 9", "pH of 9 or lower")
    found = change(*levels)
    assert found.relation == "widened"
    assert found.alike is not None
    assert found.alike.relation == "unchanged"
    told = " ".join(run(*written(tmp_path, *levels)).output.split())
    words = '"pH of 4 or higher" and "pH of 9 or lower" are presumed to round and "from 4 to 9" is not'
    assert f"({words}; with none of them rounding: unchanged as restated)" in told
    assert change(levels[0], levels[1].replace("of 9", "of 10")).alike is None
    lower = change(levels[1], levels[0].replace("from 4", "from 3.8")).alike
    assert lower is not None
    assert lower.relation == "widened"
    american = [text.replace("EPO", "US") for text in (RANGE, LIMITS)]
    assert change(*american).alike is None


@pytest.mark.parametrize("format", ["text", "markdown", "json"])
def test_no_output_says_what_only_a_practitioner_may_say(tmp_path: Path, format: str) -> None:
    result = run(*written(tmp_path, BEFORE, MERGED), "--format", format, "--all")
    assert result.exit_code == 1
    names = ["holes", "diameter", "metal", "garden sieve", "bench sample", "plain sample", "D1"]
    assert forbidden_in(result.output, [BEFORE, MERGED, *names]) == []
    assert "added matter" not in result.output
    if format == "json":
        data = json.loads(result.output)
        assert [c["relation"] for c in data["claims"]] == ["narrowed", "narrowed", None, None]
        assert data["claims"][0]["given_up"]["article"]


def test_two_runs_say_the_same(tmp_path: Path) -> None:
    paths = written(tmp_path, BEFORE, MERGED)
    assert run(*paths).output == run(*paths).output


def test_the_page_reads_in_the_order_of_the_claims(tmp_path: Path) -> None:
    text = " ".join(run(*written(tmp_path, BEFORE, MERGED)).output.split())
    for told in (
        "Claim 1: only narrowed, on every reading listed",
        "Claim 2 (claim 3 before): only narrowed, on every reading listed; only by what is taken over",
        "Claim 3: added",
        'Claim 2: deleted; claim 1 took over 2a before "at least one of copper and zinc"',
        "diameter no longer let in: 3 < diameter <= 4 mm",
        "garden sieve (must stay out), claim 1: before, met on every reading listed; after, not met",
    ):
        assert told in text


def test_ends_of_what_other_lines_bear_on_are_told_by_its_own_lines_alone(tmp_path: Path) -> None:
    """Before, the sum of both gums held each below 15; no line was on guar alone."""
    head = "paste  composition in wt%\n  gums : guar, xanthan\n  water\n\n"
    before = (
        head
        + "1. A paste comprising 4 to 15 wt% of gums.\n   | paste : comprising\n   | gums  : 4 to 15 wt%\n"
    )
    after = (
        head
        + "1. A paste comprising 4 to 15 wt% of guar.\n   | paste : comprising\n   | guar  : 4 to 15 wt%\n"
    )
    text = " ".join(run(*written(tmp_path, before, after)).output.split())
    assert "guar before: no line is on it alone" in text
    assert "guar after, by the lines on it alone: 4 <= guar <= 15 wt%" in text
    assert "guar no longer let in" not in text


# ---- bad input


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    before, _ = written(tmp_path, BEFORE, MERGED)
    result = run(before, str(tmp_path / "none.sheet"))
    assert result.exit_code == 2
    assert "none.sheet" in result.output
    assert "Traceback" not in result.output


def test_the_same_file_twice(tmp_path: Path) -> None:
    before, _ = written(tmp_path, BEFORE, MERGED)
    result = run(before, before)
    assert result.exit_code == 2
    assert "are the same file" in result.output
    assert "line 1, column 1" in result.output


def test_a_sheet_without_a_claim(tmp_path: Path) -> None:
    result = run(*written(tmp_path, HEAD, MERGED))
    assert result.exit_code == 2
    assert "the sheet has no claim" in result.output


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("diameter    length in mm", "diameter    count", "'diameter' is a count here and a length in the"),
        ("diameter    length in mm", "diameter    length in mm, <= 9 mm", "'diameter' has other bounds"),
        ("diameter    length in mm", "Diameter    length in mm", "'Diameter' is written 'diameter'"),
        ("copper, zinc, steel", "copper, zinc, steel, tin", "'metal' has another list"),
        ("metal       any of", "metal       one of", "'metal' is another sort of thing"),
        ("profile  US", "profile  EPO", "are read under different profiles"),
    ],
)
def test_what_differs_is_told_with_both_places(old: str, new: str, message: str) -> None:
    exact = HEAD + "1. A strainer with 3 holes.\n   | holes = 3\n"
    made, wrong = both(exact, exact.replace(old, new))
    assert made is None
    (told,) = wrong
    assert message in told.message
    assert told.span.source.name == "new"
    (also,) = told.also
    assert also[0].source.name == "old"
    assert "old, line " in also[1]


def test_a_claim_restated_in_one_sheet_only_is_told() -> None:
    bare = HEAD + "1. A strainer with at least 3 holes.\n"
    made, wrong = both(bare, bare + "   | holes : at least 3\n")
    assert made is not None
    (told,) = wrong
    assert told.severity == "warning"
    assert told.message == "claim 1 of old has no line"


def test_steps_go_on_and_must_be_declared_alike() -> None:
    baking = "heat  step in min\n\n1. A method of heating for {}.\n   | duration of heat : {}\n"
    found = change(baking.format("at least 5 min", "at least 5 min"), baking.format(*["at least 9 min"] * 2))
    assert found.relation == "narrowed"
    event = "heat  event in min\nwait  duration in min\n\n1. A method of waiting for at least 5 min.\n"
    made, wrong = both(baking.format(*["at least 5 min"] * 2), event + "   | wait : at least 5 min\n")
    assert made is None
    assert any("'heat' is declared otherwise" in d.message for d in wrong)


def test_words_settled_in_one_sheet_only_are_read_so_in_both() -> None:
    policy = '\npolicy  ends are included  "paragraph 3"\n'
    made, wrong = both(BEFORE, BEFORE + policy)
    assert made is not None
    assert wrong
    assert all(d.severity == "warning" for d in wrong)
    told = amended(BEFORE, BEFORE + policy)
    assert all(c.same for c in told.changes)


RATE = "code rate  ratio\n\n1. A code rate below {0}.\n   | code rate : below {0}\n"


def test_what_a_number_has_no_reading_of_is_no_settlement(tmp_path: Path) -> None:
    """1/2 has no last written place, so that nothing rounds to it; 0.5 has one."""
    fraction, decimal = RATE.format("1/2"), RATE.format("0.5")
    assert not both(fraction, decimal)[1]
    (narrowed,) = amended(fraction, decimal).changes
    assert narrowed.relation == "unchanged"
    assert [relation_of(o) for o in narrowed.otherwise] == ["narrowed"]
    (widened,) = amended(decimal, fraction).changes
    assert [relation_of(o) for o in widened.otherwise] == ["widened"]
    assert amended(fraction, fraction.replace("below", "lower than")).changes
    told = run(*written(tmp_path, fraction, decimal)).stdout
    assert "settled" not in told
    told = run(*written(tmp_path, decimal, fraction)).stdout
    assert "a fraction or a ratio has no last" in told
    assert "worked out of several" not in told


def test_warnings_stand_below_what_changes_and_once(tmp_path: Path) -> None:
    before = "wax  share in wt%\n\n1. A cream with 2 to 5 % of wax.\n   | wax : 2 to 5 % of wax\n"
    told = run(*written(tmp_path, before, f"{before}\n2. A cream with 7 wt% of wax.\n"
                                 "   | wax : 7 wt% of wax\n")).stdout  # fmt: skip
    assert told.count("warning: these words do not say percent of what") == 1
    assert told.index("Claim by claim") < told.index("warning:")
    assert "1 warning on how the sheet is read" in told


def test_degrees_are_told_with_their_scale_and_held_against_each_other() -> None:
    before = """oven  temperature in degC

1. A method, the hub turning by 30° and the oven being at 15 to 25 °C.
   | oven : 15 to 25 °C
   | not restated : 30°
"""
    assert [u.words for u in amended(before, before.replace("25 °C", "30 °C")).uncarried] == ["30 °C"]
    assert not amended(before, before.replace("15 to 25 °C", "59 °F to 25 °C")).uncarried
