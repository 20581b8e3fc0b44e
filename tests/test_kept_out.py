"""What keeps a case out and on which readings it no longer does, from the sheet to the sentence."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.answers.about import KeptOut, Met
from scopecheck.answers.findings import Finding, also_claims_of, also_open_of, silent_lines, ways_out_of
from scopecheck.answers.questions import ask_all
from scopecheck.report.kept_out import kept_text, silence_text
from scopecheck.report.margins import readings_told
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
    assert 'Only 1a "between 2 and 4 mm" keeps wide out of claim 1; 1a does so no longer if' in wide
    assert 'is read as "rounds to the ends" (arguable); so read by the examiner' in wide
    far, text = told["far"]
    assert isinstance(far.about, KeptOut)
    (fall,) = far.about.falls
    (stretched,) = [r for r in fall.single if r.breaks]
    assert stretched.breaks[0].end.value == Fraction(1, 5)
    assert 'once "about 5 mm" stretches by 20 % or more' in text
    flat, text = told["flat"]
    assert isinstance(flat.about, KeptOut)
    assert flat.about.falls[0].always
    assert text.startswith('On every reading listed 1c "9 mm or more" alone keeps')


def test_a_range_of_a_document_that_is_apart_is_kept_out_too() -> None:
    found, text = kept()["D1, range"]
    assert isinstance(found.about, KeptOut)
    assert (found.about.sets, found.about.silent) == ((("1a",),), ())
    assert "does so no longer if" in text


def test_a_dependent_that_asks_for_more_than_a_case_says_is_left_open() -> None:
    text = """
gap     length in mm
rim     length in mm, >= 3 mm
lid     one of only yes, no
1. A strainer with a gap of at least 2 mm.
   | gap : at least 2 mm
2. The strainer of claim 1, with a rim of at most 5 mm.
   | rim : at most 5 mm
3. The strainer of claim 1, with a gap of at least 3 mm.
   | gap : at least 3 mm
must stay out
  old  : gap = 4 mm
"""
    found = [f for f in ask_all(sheet(text)).findings if f.question == "outside met" and f.claim == 1]
    assert [(also_claims_of(f), also_open_of(f)) for f in found] == [((3,), ((2, ("rim",)),))]


def test_what_is_left_open_is_told_by_the_parents_that_leave_least() -> None:
    """Claim 3 by way of claim 1 asks only of the gap; claim 4 by way of claim 1 only of the lid."""
    text = """
gap     length in mm
rim     length in mm
lid     one of only yes, no
1. A strainer with a gap of at least 2 mm.
   | gap : at least 2 mm
2. The strainer of claim 1, with a rim of at most 5 mm.
   | rim : at most 5 mm
3. The strainer of claim 1 or 2, with a gap of at least 3 mm.
   | gap : at least 3 mm
4. The strainer of claim 2 or 3, having a lid.
   | lid = yes
must stay out
  old  : gap = 4 mm
"""
    found = [f for f in ask_all(sheet(text)).findings if f.question == "outside met" and f.claim == 1]
    assert [(also_claims_of(f), also_open_of(f)) for f in found] == [((3,), ((2, ("rim",)), (4, ("lid",))))]


def test_a_thing_shown_for_every_reading_is_met_on_every_one_or_said_not_to_be() -> None:
    """Of 2 to 2.4 mm some meets the words on each reading; a thing at the end itself does not."""
    text = """
gap  length in mm
1. A strainer with a gap of between 2 and 4 mm.
   | gap : between 2 and 4 mm
must stay out
  low  : 2 mm <= gap <= 2.4 mm
"""
    (found,) = [f for f in ask_all(sheet(text)).findings if f.question == "outside met"]
    assert (found.quantifier, found.thing.on_each) == ("every", True)
    assert found.witness is not None
    assert found.witness.article["gap"] != 2
    stepped = """
gap  length in mm
1. A strainer with a gap of wide.
   | gap : wide
   |   reading "one" : x <= 2 mm
   |   reading "other" : x >= 3 mm
must stay out
  low  : 1 mm <= gap <= 4 mm
"""
    (found,) = [f for f in ask_all(sheet(stepped)).findings if f.question == "outside met"]
    assert (found.quantifier, found.thing.on_each) == ("every", False)
    told = " ".join(readings_told(sheet(stepped), found))
    assert "which need not be the one shown" in told


def test_a_stated_range_does_not_settle_what_it_says_nothing_of() -> None:
    text = """
gap     length in mm
rim     length in mm
1. A strainer with a gap of at least 2 mm and a rim of at most 5 mm.
   | gap : at least 2 mm
   | rim : at most 5 mm
2. A strainer with a gap of at least 2 mm.
   | gap : at least 2 mm
document D1
  range  : 0.5 mm <= gap <= 1 mm    "page 2"
"""
    made = sheet(text)
    found = [f for f in ask_all(made).findings if f.question == "kept out"]
    assert [(f.claim, silent_lines(f)) for f in found] == [(1, ("1b",)), (2, ())]
    one, two = (kept_text(made, f).replace(GLUE, " ") for f in found)
    assert 'is kept out of claim 1 by 1a "at least 2 mm"; it does not settle 1b "at most 5 mm"' in one
    assert two.startswith('On every reading listed 2a "at least 2 mm" keeps document D1')


GLUED = """
adhesive   composition in wt%
  copolymer : arnite, belsan
  resin

1. An adhesive comprising from 10 to 35 wt% of a copolymer.
   | copolymer : from 10 to 35 wt%

2. The adhesive of claim 1, wherein the copolymer is arnite.
   | copolymer : is arnite

must stay out for 2
  both : arnite = 30 wt%, belsan = 20 wt%, resin = 50 wt%
"""


def test_a_further_reading_that_is_not_presumed_either_lets_a_thing_by() -> None:
    """By hand: with arnite 30 and belsan 20 'is arnite' is met by 'some of these, others beside them'."""
    made = sheet(GLUED)
    (met,) = [f for f in ask_all(made).findings if f.question == "outside met" and f.claim == 2]
    by_label = {way.label: way.readings for way in ways_out_of(met)}
    (group,) = [g for g in made.groups if any(p.where == "2a" for p in g.places)]
    labels = [group.readings[r].label for g, r in by_label["2a"] if g == group.index]
    assert labels == ["some of these, others of the class beside them"]


def test_a_dependent_that_some_reading_keeps_out_is_told_apart() -> None:
    """The document's own range may be read by its rounded ends, and then claim 2 leaves part of it out."""
    text = (
        "profile  EPO\nshelf, board   length in mm\n\n1. A rack with a shelf of at least 100 mm.\n"
        "   | shelf : at least 100 mm\n\n2. The rack of claim 1 with a board of at most 450 mm.\n"
        "   | board : at most 450 mm\n\ndocument D1   board            shelf\n"
        '  wide        400 to 450 mm    200 mm   "page 2"\n'
    )
    (found,) = (f for f in ask_all(sheet(text)).findings if f.question == "document met")
    assert isinstance(found.about, Met)
    assert (found.claim, found.quantifier) == (1, "every")
    assert (found.about.also_claims, found.about.also_on_some) == ((2,), (2,))


DISC = """profile  EPO
ring     part, 1 to 4
  depth  length in mm
channel  length in mm

1. A disc with two rings, each ring having a depth of 7 to 11 mm and at most the channel.
   | rings              : two rings
   | depth of the rings : each ring having a depth of 7 to 11 mm
   | EVERY ring (depth <= channel)

document D1   rings   depth of rings in mm   channel
  example     2       8; 9                   silent
"""


def test_parts_that_are_not_there_are_nothing_left_unsaid() -> None:
    made = sheet(DISC)
    (finding,) = (f for f in ask_all(made).findings if f.question == "silence alone keeps out")
    text = silence_text(made, finding)
    assert "channel" in text
    assert "depth" not in text
