"""Whatever words stand right of a colon, there is a reading, or a message that tells where it is wrong."""

from __future__ import annotations

from hypothesis import example, given
from hypothesis import strategies as st

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

DECLARED = """\
gap, rim  length in mm
blades, vanes  count
metal  any of copper, zinc, tin
heating, cooling  step in min
temp  temperature in degC
oil, wax  share in wt%
rib  part, up to 3
  height  length in mm
"""
LEFT = (
    "gap", "gap, rim", "blades", "blades, vanes", "metal", "heating", "heating, cooling", "temp", "oil",
    "oil, wax", "height of the ribs",
)  # fmt: skip
WORDS = """
at least most not no more less than to from between and or and/or either neither nor both each of the a
one two 5 5mm 10% 20degC 3:2 ( ) , % mm gap rim blades vanes metal copper zinc heating cooling temp oil
wax in total amount together respectively inclusive exclusive by differs outnumber pairs per hundred
parts 100 for every whichever is greater smaller if present when enters holds thereof mixture such as but
only mean rises apart double half with respect mass have length after before
""".split()


@given(st.sampled_from(LEFT), st.lists(st.sampled_from(WORDS), min_size=1, max_size=8))
@example("gap", ["from", "(", ")"])
@example("metal", ["zinc", "if"])
@example("oil, wax", [",", "and/or", "if", "to", "than", "differs", "exclusive"])
def test_any_words_are_read_or_told(left: str, words: list[str]) -> None:
    said = " ".join(words)
    text = f"{DECLARED}\n1. A thing, {said}.\n   | {left} : {said}\n"
    made, found = read_sheet(Source("test", text))
    errors = [d for d in found if d.severity == "error"]
    assert (made is None) == bool(errors)
    assert all(text.count("\n") >= d.span.line >= 1 and d.message for d in errors)
