"""What stands beside lifted words in the claim, or before a member of a list, and what is told of it."""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import sheet

CREAM = "cream  composition in wt%\n  water, glycerol, oil\n  water phase : water, glycerol\n"
SHARE = "catalyst  share in mol%\n"
ZINC = "alloy  composition in wt%\n  copper, zinc, tin\n"
CURED = "curing, drying  step in min\n"
BINDER = "binder  share in vol%  "
METAL = "metal  one of steel, brass\n"


def told(text: str) -> list[str]:
    """The warnings of a sheet, which has no errors."""
    read, found = read_sheet(Source("t.sheet", text))
    assert read is not None, found
    assert not [d for d in found if d.severity == "error"]
    return [d.message for d in found]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (f"{SHARE}1. Up to 15 mol%, excluding from 2 to 13 mol%.\n   | catalyst : up to 15 mol%\n"
         "   | catalyst : from 2 to 13 mol%\n",
         "'excluding' stands right before these words in the claim, and in no line"),
        (f"{SHARE}1. Not from 2 to 13 mol% and never exceeding 20 mol%.\n   | catalyst : exceeding 20 mol%\n",
         "'never' stands right before these words in the claim, and in no line"),
        ("gap  length in mm\n1. A frame free from a gap of at least 5 mm.\n   | gap : at least 5 mm\n",
         "'free from a gap of' stands right before these words in the claim, and in no line"),
        ("gap  length in mm\n1. A frame incapable of a gap of at least 5 mm.\n   | gap : at least 5 mm\n",
         "'incapable of a gap of' stands right before these words in the claim, and in no line"),
        ("gap  length in mm\n1. A frame, a gap of at least 5 mm being impossible.\n"
         "   | gap : a gap of at least 5 mm\n",
         "'being impossible' stands right behind these words in the claim, and in no line"),
        ("gap  length in mm\n1. A frame, none of the gaps exceeding 6 mm.\n   | gap : exceeding 6 mm\n",
         "'none of the gaps' stands right before these words in the claim, and in no line"),
        ("gap  length in mm\n1. A frame, no gap exceeding 6 mm.\n   | gap : exceeding 6 mm\n",
         "'no gap' stands right before these words in the claim, and in no line"),
        ("open  one of only yes, no\nheat  temperature in degC\n"
         "1. A pump with a controller configured to open the bypass when the heat exceeds 90 °C.\n"
         "   | open, heat : open the bypass when the heat exceeds 90 °C\n",
         "'configured to' stands right before these words in the claim, and in no line"),
        (f"{CURED}1. The curing begins within 30 minutes after the drying.\n"
         "   | curing : within 30 minutes after the drying\n",
         "'begins' stands right before these words in the claim, and in no line"),
        (f"{CURED}1. The curing is completed no later than 30 minutes after the drying.\n"
         "   | curing : no later than 30 minutes after the drying\n",
         "'is completed' stands right before these words in the claim, and in no line"),
        (f"{CREAM}1. A cream, wherein the water phase contains up to 10 % by weight of glycerol.\n"
         "   | glycerol : up to 10 % by weight of glycerol\n",
         "'water phase contains' stands right before these words, and they are read of cream"),
        (f"{METAL}1. A clip made of stainless steel or brass.\n   | metal : stainless steel or brass\n",
         "'stainless' is read past"),
        ("q  pressure in bar gauge\nvalve  one of open, shut\n"
         "1. A pump, wherein, if the pressure exceeds 5 bar gauge, the bypass is open.\n"
         "   | q, valve : if the pressure exceeds 5 bar gauge, the bypass is open\n",
         "'bypass' is read as valve"),
        ("flow  in L/min\nvalve  one of open, shut\n"
         "1. A pump, wherein the valve is open when the bypass flow exceeds 5 L/min.\n"
         "   | valve, flow : the valve is open when the bypass flow exceeds 5 L/min\n",
         "'bypass' is read past"),
        (f"{ZINC}1. An alloy consisting of 60 wt% copper and zinc.\n   | alloy : consisting of\n"
         "   | copper : 60 wt%\n", "zinc stands in the claim and in no line, and is shut out here"),
    ],
)  # fmt: skip
def test_what_changes_the_words_is_told(text: str, message: str) -> None:
    assert message in told(text)


@pytest.mark.parametrize(
    "text",
    [
        f"{SHARE}1. Up to 15 mol%, excluding from 2 to 13 mol%.\n   | catalyst : up to 15 mol%\n"
        "   | catalyst : excluding from 2 to 13 mol%\n",
        f"{SHARE}1. Excluding from 2 to 13 mol%.\n   | catalyst : from 2 to 13 mol%\n"
        "   | not restated : excluding\n",
        f"{CREAM}1. A cream, wherein the cream contains up to 10 % by weight of glycerol.\n"
        "   | glycerol : up to 10 % by weight of glycerol\n",
        f"{CREAM}1. A cream, wherein the water phase contains up to 10 % by weight of glycerol.\n"
        "   | glycerol of the water phase : up to 10 % by weight of glycerol\n",
        "gap, rim  length in mm\n1. A gap of 3 mm, the other at most 5 mm.\n   | gap : 3 mm\n"
        "   | rim : at most 5 mm\n",
        # an open claim shuts nothing out as it is usually read
        f"{ZINC}1. An alloy comprising 60 wt% copper and zinc.\n   | alloy : comprising\n"
        "   | copper : 60 wt%\n",
        # the words, or the note, say by what the per cent is
        f'{BINDER} "of the total volume"\n1. A binder, 1 % to 25 %.\n   | binder : 1 % to 25 %\n',
        # the moment is in the line, or no time is limited
        f"{CURED}1. The curing begins within 30 minutes after the drying.\n"
        "   | curing : begins within 30 minutes after the drying\n",
        f"{CURED}gap  length in mm\n1. The slot begins at a gap of at most 3 mm.\n   | gap : at most 3 mm\n",
    ],
)  # fmt: skip
def test_what_the_lines_take_up_is_not_told(text: str) -> None:
    assert not told(text)


@pytest.mark.parametrize(
    ("declared", "left", "words", "past"),
    [
        ('trough  in ng/mL  "plasma concentration"', "trough",
         "the trough plasma concentration of the active agent is at least 15 ng/mL",
         ["'of the active agent' is read past"]),
        ("fineness  in dtex", "fineness", "a yarn fineness of warp of 30 to 50 dtex",
         ["'yarn' and 'of warp' are read past"]),
        ('clearance  in mL/min  "creatinine clearance"\ndose  mass in mg', "clearance, dose",
         "if the creatinine clearance of the patient is below 30 mL/min, the dose is at most 100 mg", []),
        ('temperature  temperature in degC  "of the cell"\ndose  mass in mg', "temperature, dose",
         "if the temperature of the plug is below 30 °C, the dose is at most 100 mg",
         ["'plug' is read as temperature"]),
    ],
)  # fmt: skip
def test_what_is_read_past_is_told_without_the_name(
    declared: str, left: str, words: str, past: list[str]
) -> None:
    assert told(f"{declared}\n1. A thing, wherein {words}.\n   | {left} : {words}\n") == past


def test_a_bare_per_cent_is_told_of_the_share_beside_a_switch() -> None:
    (message,) = told(
        "valve open  one of only yes, no\nmoisture  share in vol%\n"
        "1. A valve that opens when the moisture falls below 30 %.\n"
        "   | valve open, moisture : opens when the moisture falls below 30 %\n"
    )
    assert message.endswith("read as vol%, as declared")


def test_a_bare_per_cent_of_another_whole_is_told_still() -> None:
    (message,) = told(
        f'{BINDER} "of the total weight"\n1. A binder, 1 % to 25 %.\n   | binder : 1 % to 25 %\n'
    )
    assert "do not say percent of what" in message


@pytest.mark.parametrize(
    ("words", "over"),
    [("within 5 min after the mixing", True), ("begins within 5 min after the mixing", False)],
)
def test_what_begins_within_a_time_need_not_be_over_by_then(words: str, over: bool) -> None:
    made = sheet(
        "mixing  step in min\ncooling  step in min\n"
        f"1. A process, wherein the mixing and the cooling {words}.\n"
        f"   | cooling : {words}\n"
    )
    labels = {reading.label for group in made.groups for reading in group.readings}
    assert ("over by then" in labels) == over


def test_a_group_behind_comprising_may_be_closed_to_mixtures() -> None:
    """The reading of Multilayer v. Berry, 831 F.3d 1350 (Fed. Cir. 2016), told of in MPEP 2111.03 II."""
    made = sheet(
        "resin  any of LLDPE, LDPE, ULDPE\n"
        "1. A layer comprising a resin selected from the group consisting of"
        " LLDPE and LDPE.\n"
        "   | resin : comprising a resin selected from the group consisting of LLDPE and LDPE\n"
        "must stay out\n  blend : resin = {LLDPE, LDPE}\n"
    )
    (finding,) = [f for f in ask_all(made).findings if f.question == "outside met"]
    labels = {r.label for group in made.groups for r in group.readings}
    assert "exactly one of them and no other" in labels
    assert finding.quantifier != "every"


def test_a_title_keeps_the_quotes_of_some_of_its_words() -> None:
    quoted, whole = (
        sheet(f"title  {title}\nn  count\n1. A thing with n at least 2.\n   | n : at least 2\n").title
        for title in ('"up to" in a claim', '"a whole title"')
    )
    assert (quoted, whole) == ('"up to" in a claim', "a whole title")


def test_a_condition_that_names_its_thing_is_shown_with_the_name_once() -> None:
    made = sheet(
        'density  share in %  "relative density"\nannealing  step in min, may be left out\n'
        "1. A process, wherein the body is annealed if the relative density is below 98 %.\n"
        "   | annealing, density : if the relative density is below 98 %\n"
    )
    plain = [reading.plain for group in made.groups for reading in group.readings]
    assert any("density is below 98 %" in text for text in plain)
    assert not any("density density" in text for text in plain)


@pytest.mark.parametrize(("left", "refused"), [("drying, curing", False), ("curing, drying", True)])
def test_a_bare_word_of_order_goes_by_what_stands_behind_it(left: str, refused: bool) -> None:
    text = f"{CURED}1. A method of drying, and subsequently curing.\n   | {left} : subsequently\n"
    _, found = read_sheet(Source("t.sheet", text))
    assert [d.message for d in found if d.severity == "error"] == (
        ["'curing' stands right behind 'subsequently' in the claim: it comes later"] if refused else []
    )


@pytest.mark.parametrize(
    ("left", "behind", "told"),
    [
        ("drying, curing", "curing it", ""),
        ("drying, curing", "the coat is cured", ""),
        ("curing, drying", "setting it in an oven", "drying"),
    ],
)
def test_a_later_step_that_the_claim_calls_otherwise_is_told(left: str, behind: str, told: str) -> None:
    text = f"{CURED}1. A method of making, and thereafter {behind}.\n   | {left} : thereafter\n"
    _, found = read_sheet(Source("t.sheet", text))
    assert [d.message for d in found if "is not called" in d.message] == (
        [f"what stands behind 'thereafter' in the claim is not called '{told}'"] if told else []
    )


@pytest.mark.parametrize(
    ("before", "words", "told"),
    [
        ("is a trace of", "up to 3.5 mm", "is a trace of"),
        ("is a portion of", "up to 3.5 mm", "is a portion of"),
        ("is twice", "up to 3.5 mm", "twice"),
        ("is", "up to 3.5 mm", ""),
        ("has a portion", "of up to 3.5 mm", ""),
        ("has up to a maximum width", "of 5 mm", "maximum width"),
        ("has at most a width", "of 5 mm", "at most a width"),
        ("has a width", "of 5 mm", ""),
        ("has at most a first rib, and a width", "of 5 mm", ""),
    ],
)
def test_what_makes_an_end_or_another_amount_of_it_is_told(before: str, words: str, told: str) -> None:
    text = f"width  length in mm\n\n1. A rib that {before} {words}.\n   | width : {words}\n"
    _, found = read_sheet(Source("t.sheet", text))
    told_of = [d.message for d in found if "stands right before" in d.message]
    assert told_of == (
        [f"'{told}' stands right before these words in the claim, and in no line"] if told else []
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("gap  length in mm\n1. A thing with a gap of at least 3 mm and at most 8 mm.\n"
         "   | gap : at least ... 8 mm\n",
         "'...' leaves out '3 mm and at most'"),
        ("salt  share in wt%\n1. A thing with salt hydrate in an amount of at most 4 wt%.\n"
         "   | salt : in an amount of at most 4 wt%\n", "'salt hydrate' stands right before these words"),
        ("moisture  share in wt%\n1. A method of joining webs before their moisture falls below 10 %.\n"
         "   | moisture : below 10 %\n", "'before their moisture falls' stands right before these words"),
        ("gap  length in mm\n1. A method comprising, as soon as the gap exceeds 3 mm, closing it.\n"
         "   | gap : exceeds 3 mm\n", "'as soon as the gap' stands right before these words"),
        ("gap  length in mm\n1. A thing, wherein the gap is from 4 to 8 mm or the rim is at least 2 mm.\n"
         "   | gap : from 4 to 8 mm\n", "'or the rim is at least 2 mm' stands right behind these words"),
        ("delay  time in s\n1. A thing with a delay of more than 5 s, unless muted.\n"
         "   | delay : more than 5 s\n", "'unless muted' stands right behind these words"),
        ("haze  share in %\n1. A film with a haze of at most 3 % on average.\n   | haze : at most 3 %\n",
         "'on average' stands right behind these words"),
        ("rounds  count\n1. A method, the rinsing being repeated at least three times.\n"
         "   | rounds : at least three times\n", "'repeated' stands right before these words"),
        ("dosing, weighing  step in min\n1. A method of dosing over a period of 2 to 4 minutes after the"
         " weighing.\n   | dosing : 2 to 4 minutes after the weighing\n",
         "'over a period of' stands right before these words"),
        ("water  share in ppm by mass\n1. A gas with at least 150 ppm of water.\n"
         "   | water : at least 150 ppm\n",
         "these words do not say by what the parts are counted"),
    ],
)  # fmt: skip
def test_what_is_left_out_or_part_of_another_name_is_told(text: str, message: str) -> None:
    assert any(message in line for line in told(text)), told(text)


@pytest.mark.parametrize(
    "text",
    [
        "gap, rim  length in mm\n1. A thing with a gap, beside a rim of 2 mm, of 3 mm.\n"
        "   | gap : a gap ... of 3 mm\n   | rim : a rim of 2 mm\n",
        "salt  share in wt%\n1. A thing with a salt content of at most 4 wt%.\n   | salt : at most 4 wt%\n",
        "salt  share in wt%\n1. A thing, wherein the salt is present at at most 4 wt%.\n"
        "   | salt : at most 4 wt%\n",
        "gap  length in mm\n1. A thing, wherein after joining the gap is 4 mm or more.\n"
        "   | gap : 4 mm or more\n",
        "gap, rim  length in mm\n1. A thing with a gap of at least 4 mm or a rim of at least 5 mm.\n"
        "   | gap, rim : a gap of at least 4 mm or a rim of at least 5 mm\n",
        "drying  step in min\n1. A method of drying for a period of 2 to 4 minutes.\n"
        "   | drying : 2 to 4 minutes\n",
    ],
)
def test_nothing_is_told_of_what_changes_nothing(text: str) -> None:
    assert not [line for line in told(text) if "leaves out" in line or "stands right before" in line]
