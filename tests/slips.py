"""Sixty slips between a claim's text and the lines beside it, each with the words at which it must be told.

A slip is made in the text, as after an edit, or in a line of a sheet whose account is even. What is told must
stand at its words in the text, in the line, or, where both have something to show, in both.
"""

from __future__ import annotations

from scopecheck.foundations.record import record

SHEET = """\
title  Filter

pore      length in mm
flow      in L/min
ribs      count
heat      temperature in degC
silver    share in wt%
coat      length in um
fibre     any of cotton, linen, wool
wall      length in mm
span      length in mm
soak      time in min

1. A filter comprising a mesh with pores of between 2 and 4 mm, at least six ribs, a wall of about 3 mm,
   a flow of from 10 to 20 L/min, and a span of not more than 75 mm.
   | pore  : between 2 and 4 mm
   | ribs  : at least six ribs
   | wall  : about 3 mm
   | flow  : from 10 to 20 L/min
   | span  : not more than 75 mm
   | not restated : , and

2. The filter of claim 1, wherein the mesh is of at least one of cotton and linen, contains up to 5 % by
   weight of silver, has a coat of less than 12 um, and is soaked for more than 15 minutes at 40 °C to 60 °C.
   | fibre  : at least one of cotton and linen
   | silver : up to 5 % by weight
   | coat   : less than 12 um
   | soak   : more than 15 minutes
   | heat   : 40 °C to 60 °C
   | not restated : , and

3. The filter of claim 2, wherein the span is 60 to 70 mm, and the wall is at most 2.5 mm.
   | 60 mm <= span <= 70 mm
   | wall <= 2.5 mm
   | not restated : to
   | not restated : , and
   | not restated : at most
"""


@record
class Slip:
    """What is written instead of what, and the words at which it must be told: in the text, in the line."""

    old: str
    now: str
    in_text: str = ""
    in_line: str = ""


def _line(old: str, now: str, said: str) -> Slip:
    """A slip in the line that restates `old`: told at the line's words and at those of the text."""
    return Slip(f": {old}", f": {now}", said, now)


LINES = (
    # a wrong digit
    _line("between 2 and 4 mm", "between 2 and 5 mm", "between 2 and 4 mm"),
    _line("between 2 and 4 mm", "between 3 and 4 mm", "between 2 and 4 mm"),
    _line("at least six ribs", "at least seven ribs", "at least six ribs"),
    _line("about 3 mm", "about 8 mm", "about 3 mm"),
    _line("from 10 to 20 L/min", "from 10 to 25 L/min", "from 10 to 20 L/min"),
    _line("from 10 to 20 L/min", "from 16 to 20 L/min", "from 10 to 20 L/min"),
    _line("not more than 75 mm", "not more than 57 mm", "not more than 75 mm"),
    _line("up to 5 % by weight", "up to 6 % by weight", "up to 5 % by weight"),
    _line("less than 12 um", "less than 21 um", "less than 12 um"),
    _line("more than 15 minutes", "more than 50 minutes", "more than 15 minutes"),
    _line("40 °C to 60 °C", "40 °C to 80 °C", "40 °C to 60 °C"),
    # another unit
    _line("between 2 and 4 mm", "between 2 and 4 cm", "between 2 and 4 mm"),
    _line("about 3 mm", "about 3 um", "about 3 mm"),
    _line("from 10 to 20 L/min", "from 10 to 20 L/h", "from 10 to 20 L/min"),
    _line("up to 5 % by weight", "up to 5 % by volume", "up to 5 % by weight"),
    _line("less than 12 um", "less than 12 mm", "less than 12 um"),
    _line("more than 15 minutes", "more than 15 hours", "more than 15 minutes"),
    _line("not more than 75 mm", "not more than 75 cm", "not more than 75 mm"),
    _line("40 °C to 60 °C", "40 °F to 60 °F", "40 °C to 60 °C"),
    # another word of ends, of joining, of hedging
    _line("between 2 and 4 mm", "from 2 to 4 mm", "2"),
    _line("from 10 to 20 L/min", "between 10 and 20 L/min", "10"),
    _line("at least six ribs", "at most six ribs", "six ribs"),
    _line("at least six ribs", "more than six ribs", "six ribs"),
    _line("not more than 75 mm", "not less than 75 mm", "than 75 mm"),
    _line("up to 5 % by weight", "at least 5 % by weight", "5 % by weight"),
    _line("less than 12 um", "at most 12 um", "12 um"),
    _line("more than 15 minutes", "at least 15 minutes", "15 minutes"),
    _line("at least one of cotton and linen", "at least one of cotton or linen", "cotton and linen"),
    _line("at least one of cotton and linen", "at least one of cotton, wool and linen", "cotton"),
    _line("about 3 mm", "approximately 3 mm", "3 mm"),
    # a word lost: the line is read, and the text's word is left over
    Slip(": about 3 mm", ": 3 mm", "about"),
    Slip(": not more than 75 mm", ": more than 75 mm", "not"),
    Slip(": up to 5 % by weight", ": 5 % by weight", "up to"),
    Slip(": less than 12 um", ": 12 um", "less than"),
    Slip(": more than 15 minutes", ": 15 minutes", "more than"),
    Slip(": at least six ribs", ": six ribs", "at least"),
    # an end moved in symbols
    Slip("60 mm <= span", "66 mm <= span", "60", "66 mm"),
    Slip("span <= 70 mm", "span <= 77 mm", "70 mm", "77 mm"),
    Slip("span <= 70 mm", "span <= 70 cm", "", "70 cm"),
    Slip("wall <= 2.5 mm", "wall <= 2.6 mm", "2.5 mm", "2.6 mm"),
    Slip("wall <= 2.5 mm", "wall <= 25 mm", "2.5 mm", "25 mm"),
)
EDITS = (
    # the text was edited and the line stands
    Slip(
        "pores of between 2 and 4 mm",
        "pores of between 2 and 3 mm",
        "between 2 and 3 mm",
        "between 2 and 4 mm",
    ),
    Slip("pores of between 2 and 4 mm", "pores of from 2 to 4 mm", "2", "between 2 and 4 mm"),
    Slip("at least six ribs, a", "at least five ribs, a", "at least five ribs", "at least six ribs"),
    Slip("wall of about 3 mm", "wall of 3 mm", "3 mm", "about 3 mm"),
    Slip(
        "from 10 to 20 L/min, and", "from 10 to 20 mL/min, and", "from 10 to 20 mL/min", "from 10 to 20 L/min"
    ),
    Slip(
        "span of not more than 75 mm",
        "span of not more than 76 mm",
        "not more than 76 mm",
        "not more than 75 mm",
    ),
    Slip(
        "of cotton and linen, contains",
        "of cotton or linen, contains",
        "cotton or linen",
        "at least one of cotton and linen",
    ),
    Slip("contains up to 5 %", "contains up to 15 %", "up to 15 % by weight", "up to 5 % by weight"),
    Slip("coat of less than 12 um", "coat of less than 12 nm", "less than 12 nm", "less than 12 um"),
    Slip(
        "more than 15 minutes at", "more than 20 minutes at", "more than 20 minutes", "more than 15 minutes"
    ),
    Slip("at 40 °C to 60 °C", "at 45 °C to 60 °C", "45 °C to 60 °C", "40 °C to 60 °C"),
    Slip("span is 60 to 70 mm", "span is 60 to 72 mm", "72 mm", "70 mm"),
    Slip("wall is at most 2.5 mm", "wall is at most 2 mm", "2 mm", "2.5 mm"),
    Slip("wall is at most 2.5 mm", "wall is at least 2.5 mm", "at least"),
    Slip("comprising a mesh", "comprising a mesh with or without a rim and", "or"),
    Slip("a span of not more", "a lip of 4 mm, a span of not more", "4 mm"),
    Slip("is of at least one", "is not of at least one", "not"),
    # another claim
    Slip("2. The filter of claim 1", "2. The filter of claim 3", "claim 3"),
    Slip("3. The filter of claim 2", "3. The filter of claim 5", "claim 5"),
)
SLIPS = (*LINES, *EDITS)
