"""What several items have in common is told in full in the first of them, and shortly in the others."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopecheck.answers.findings import ways_out_of
from scopecheck.report.blocks import Item, Report
from scopecheck.report.once import LONG, told_once
from scopecheck.report.render import render
from tests.quality.pages import report_of

SHEETS = sorted(
    [
        *(Path(__file__).parent.parent / "specs" / "sheets").glob("*.sheet"),
        *(Path(__file__).parent / "quality").glob("*.sheet"),
    ]
)
WIDER = ", who reads more widely"


def of_stem(stem: str, everything: bool = False) -> Report:
    return report_of(next(path for path in SHEETS if path.stem == stem).read_text("utf-8"), everything)


def shortened(made: Report) -> list[Item]:
    return [block for block in told_once(made.blocks) if isinstance(block, Item)]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@pytest.mark.parametrize("everything", [False, True])
def test_a_pointer_names_an_item_above_that_has_the_text_in_full(path: Path, everything: bool) -> None:
    made = report_of(path.read_text("utf-8"), everything)
    full = {item.number: item for item in made.items}
    for item in shortened(made):
        for (word, texts), (_, whole) in zip(item.margin, full[item.number].margin, strict=True):
            for text in texts:
                if "as at item " not in text:
                    continue
                above = int(text.rstrip(").").rpartition(" ")[2])
                assert above < item.number
                told = dict(shortened(made)[above - 1].margin)[word]
                assert set(told) & set(whole), (item.number, word, text)


def test_readings_questions_and_who_would_raise_it_are_told_in_full_once() -> None:
    text = " ".join(render(of_stem("strainer"), "text").split())
    assert text.count(WIDER) == 1
    assert text.count("Raised by the examiner or a challenger") > 4
    assert text.count("Does what rounds to the end count? The claims leave this open at 7 places") == 1
    assert "Decision Does what rounds to the end count? (as at item 4)" in text


def test_claims_and_values_alike_are_told_once() -> None:
    text = " ".join(render(of_stem("sower"), "text").split())
    assert text.count("nozzles 1 to 3: reach 40 mm each") == 1
    assert "As well The same as at item 1." in " ".join(render(of_stem("proofing"), "text").split())


def test_what_is_short_or_told_otherwise_is_told_again() -> None:
    for item in shortened(of_stem("strainer")):
        for word, texts in item.margin:
            assert texts != ("The same as at item 1.",) or word != "Read with"
    read = [dict(item.margin).get("Read with", ()) for item in shortened(of_stem("strainer"))]
    assert sum(texts[:1] == ("every reading listed",) for texts in read) > 1
    assert any("anything meets it" in text for texts in read for text in texts)
    assert len("every reading listed") < LONG


def test_json_and_the_report_itself_hold_every_text_in_full() -> None:
    made = of_stem("sower")
    assert not any("as at item" in text for item in made.items for _, texts in item.margin for text in texts)
    assert "as at item" not in render(made, "json")


def test_that_one_choice_of_readings_suits_all_cases_is_told_before_other_statements() -> None:
    text = " ".join(render(of_stem("mousse"), "text").split())
    also = text.split("Also shown, on the usual readings unless said otherwise")[1]
    assert also.lstrip("─ ").startswith("- On one choice of readings everything listed as inside is met")


def test_what_keeps_a_thing_out_is_no_second_list_of_the_readings_that_let_it_in() -> None:
    item = next(item for item in of_stem("strainer").items if "two phrases together" in item.title)
    rows = dict(item.margin)
    assert "Kept out by" not in rows
    told = " ".join((*rows["Read with"], *rows["Same with"]))
    assert all(f'"{label}"' in told for label in ("can be divided", "context tolerance", "fixed share"))
    (way,) = (way for way in ways_out_of(item.findings[0]) if way.label == "1d")
    assert way.readings


ENDS = """
gap   length in mm
rope  length in mm
1. A loom with a gap of at least 4 mm.
   | gap : at least 4 mm
2. A warp with a rope of at least 6 mm.
   | rope : at least 6 mm
document D1
  range : 2 mm <= gap <= 4 mm     "page 2"
document D2
  range : 3 mm <= rope <= 6 mm    "page 5"
"""


def test_a_note_with_its_citation_is_told_once() -> None:
    made = report_of(ENDS, False)
    assert sum("Atofina" in text for item in made.items for _, texts in item.margin for text in texts) == 2
    text = " ".join(render(made, "text").split())
    assert text.count("Atofina") == 1
    assert "Note The same as at item 1." in text


TEA = """
profile  EPO
solids, caffeine, lactose, sugar  share in wt%

1. A tea, wherein solids are at least 35 wt%.
   | solids : at least 35 wt%
2. The tea of claim 1, wherein solids are from 35 to 60 wt%.
   | solids : from 35 to 60 wt%
3. The tea of claim 1, wherein caffeine is at most 1 wt%.
   | caffeine : at most 1 wt%
4. The tea of claim 1, which is essentially free of lactose.
   | lactose : essentially free of lactose

must stay out for 4
  milky : solids = 40 wt%, lactose = 0.3 wt%, caffeine = 2 wt%

document D1
  cup : solids = 40 wt%  "page 1"

description
  strong : solids = 40 wt%  "page 2"
"""


def test_what_a_document_leaves_open_of_several_claims_is_one_sentence() -> None:
    text = " ".join(render(report_of(TEA, False), "text").split())
    told = "but for lines of their own, which what the document states leaves open: 3a and 4a."
    assert f"It meets claims 3 and 4 {told}" in text
    assert text.count("leaves open") == 1


def test_a_number_that_no_statement_has_is_one_item() -> None:
    text = " ".join(render(report_of(TEA, False), "text").split())
    assert text.count("which no statement of the description has.") == 1
    assert 'Also 2a "from 35 to 60 wt%": states 35 wt% and 60 wt% for solids' in text


def test_what_words_without_a_number_let_in_is_on_the_first_page() -> None:
    items = [block for block in report_of(TEA, False).blocks if isinstance(block, Item)]
    assert any("essentially free of lactose" in str(item) and "milky" in str(item) for item in items)


SOLIDS = """\
profile  US
film             composition in wt%
  polymer        : pullulan, starch
  softener       : glycerol, sorbitol
  sweetener, water
  solids         : all but water

1. A film comprising 40 to 70 % by weight of polymer and less than 8 % by weight of water.
   | film     : comprising
   | polymer  : 40 to 70 % by weight
   | water    : less than 8 % by weight
2. The film of claim 1 with 5 to 15 % by weight of softener.
   | softener : 5 to 15 % by weight

inside for 1   pullulan   glycerol   sweetener   water
  first        60 wt%     10 wt%     24 wt%      6 wt%
"""


def test_a_long_given_fact_is_told_in_full_once() -> None:
    text = " ".join(render(report_of(SOLIDS, True), "text").split())
    assert text.count('by the given fact "solids is pullulan,') == 1
    assert 'by the given fact "solids is pullulan ..." as' in text


_STRAY = re.compile(r',[,;.:]|\s[,;](?=\s)|;[;,.]|(?<!\.)\.\.(?!\.)|(?<![=\w])""')


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_no_sign_is_left_over_where_texts_are_put_together(path: Path) -> None:
    assert not _STRAY.findall(render(report_of(path.read_text("utf-8"), True), "text"))


def test_a_thing_within_a_brief_sentence_leaves_no_comma() -> None:
    text = " ".join(render(report_of(FREED, True), "text").split())
    assert "in all; " in text
    assert "in all, meets claim 3 so read" in text
    assert not _STRAY.findall(text)


FREED = """\
profile  EPO
film             composition in wt%
  polymer        : pullulan, starch
  softener       : glycerol, sorbitol
  water

1. A film comprising 5 to 15 % by weight of a softener.
   | film      : comprising
   | softener  : 5 to 15 % by weight
2. The film of claim 1, in which the weight ratio of the polymer to the softener is from 4:1 to 8:1.
   | polymer, softener : the weight ratio of the polymer to the softener is from 4:1 to 8:1
3. The film of claim 1 or claim 2, in which the softener is glycerol, sorbitol or a mixture thereof.
   | softener  : glycerol, sorbitol or a mixture thereof
"""
