"""What keeps a case out and on which readings it no longer does, from the sheet to the sentence."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all
from scopecheck.report.kept_out import kept_text
from scopecheck.report.wording import GLUE
from tests.published.worked import sheet

TEXT = """
gap     length in mm
rim     length in mm
height  length in mm

1. A strainer with a gap of between 2 and 4 mm, a rim of about 5 mm, and a height of 9 mm or more.
   | gap : between 2 and 4 mm
   | rim : about 5 mm
   | height : 9 mm or more   exactly  height >= 9 mm

must stay out
  wide   : gap = 4.3 mm, rim = 5 mm, height = 9 mm
  far    : gap = 3 mm, rim = 6 mm, height = 9 mm
  flat   : gap = 3 mm, rim = 5 mm, height = 3 mm
document D1
  range  : 4.2 mm <= gap <= 9 mm, rim = 5 mm, height = 10 mm    "page 2"
"""


def kept() -> dict[str, tuple[Finding, str]]:
    made = sheet(TEXT)
    found = [f for f in ask_all(made).findings if f.question == "kept out"]
    return {f.case: (f, kept_text(made, f).replace(GLUE, " ")) for f in found}


def test_the_words_the_reading_and_who_reads_so() -> None:
    told = kept()
    _, wide = told["wide"]
    assert 'Only 1a "between 2 and 4 mm" keeps wide out of claim 1; 1a no longer if' in wide
    assert 'is read as "rounds to the high end" (no presumption known); so read by the examiner' in wide
    far, text = told["far"]
    (fall,) = far.falls
    (stretched,) = [r for r in fall.single if r.breaks]
    assert stretched.breaks[0].end.value == Fraction(1, 5)
    assert 'once "about 5 mm" stretches by 20 % or more' in text
    flat, text = told["flat"]
    assert flat.falls[0].always
    assert text.endswith("; on every reading listed: 1c")


def test_a_range_of_a_document_that_is_apart_is_kept_out_too() -> None:
    found, text = kept()["D1, range"]
    assert (found.sets, found.silent) == ((("1a",),), ())
    assert "no longer if" in text
