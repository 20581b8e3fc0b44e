"""Claim sentences in the words of ten trades: each phrase is found by the wording that the trade uses.

The sentences are our own. Where no phrase reads the words, the message names the nearest.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet


@dataclass(frozen=True)
class Sentence:
    trade: str
    declared: str
    text: str
    left: str
    words: str
    found: str
    """The phrase expected; after '!' what the message must say instead."""


SENTENCES = [
    Sentence(
        "bakery",
        "time  time in min",
        "A method of proofing dough, the dough resting for no fewer than 40 minutes.",
        "time",
        "no fewer than 40 minutes",
        "at least (L)",
    ),
    Sentence(
        "bakery",
        "heat  temperature in degC",
        "An oven held somewhere in the region of 220 °C.",
        "heat",
        "somewhere in the region of 220 °C",
        "about (N)",
    ),
    Sentence(
        "bakery",
        "folds  count",
        "A method in which the folding is repeated up to 3 times.",
        "folds",
        "repeated up to 3 times",
        "repeated up to (whole N) times",
    ),
    Sentence(
        "brewing",
        "alcohol  share in vol%",
        "A beer, the alcohol being under 0.5 % by volume.",
        "alcohol",
        "under 0.5 % by volume",
        "less than (U)",
    ),
    Sentence(
        "brewing",
        "bitters  any of hops, gentian, wormwood",
        "A wort made with one or more of hops, gentian or wormwood.",
        "bitters",
        "one or more of hops, gentian or wormwood",
        "at least one of (list M or)",
    ),
    Sentence(
        "brewing",
        "sugar  share in wt%",
        "A must with sugar in excess of 18 wt%.",
        "sugar",
        "in excess of 18 wt%",
        "more than (L)",
    ),
    Sentence(
        "textiles",
        "twist  number",
        "A yarn with a twist ranging from 8 to 12.",
        "twist",
        "ranging from 8 to 12",
        "from (L) to (U)",
    ),
    Sentence(
        "textiles",
        "fibres  any of wool, silk, flax",
        "A cloth whose fibres are selected from the group consisting of wool, silk, and flax.",
        "fibres",
        "selected from the group consisting of wool, silk, and flax",
        "selected from group consisting of (list M and)",
    ),
    Sentence(
        "textiles",
        "stiffness  number",
        "A lining that is highly flexible.",
        "stiffness",
        "highly flexible",
        "flexible",
    ),
    Sentence(
        "joinery",
        "tenon  length in mm\nmortise  length in mm",
        "A joint, the tenon being at most 0.2 mm less than the mortise.",
        "tenon",
        "at most 0.2 mm less than the mortise",
        "at most (difference D) lower than (T)",
    ),
    Sentence(
        "joinery", "boards  count", "A table top of 4 or more boards.", "boards", "4 or more", "at least (L)"
    ),
    Sentence(
        "joinery",
        "gap  length in mm",
        "A drawer with a gap of 2 mm maximum.",
        "gap",
        "2 mm maximum",
        "at most (U)",
    ),
    Sentence(
        "surgery",
        "dose  mass in mg",
        "A tablet holding an effective amount of the drug.",
        "dose",
        "an effective amount",
        "effective amount",
    ),
    Sentence(
        "surgery",
        "gauge  length in mm",
        "A needle of a thickness not exceeding 0.4 mm.",
        "gauge",
        "not exceeding 0.4 mm",
        "not more than (U)",
    ),
    Sentence(
        "surgery",
        "rest  time in h",
        "A method in which the limb is rested and within 2 hours of the start is moved.",
        "rest",
        "within 2 hours of the start",
        "within (N) of the event",
    ),
    Sentence(
        "electronics",
        "cells  count",
        "A pack with a plurality of cells.",
        "cells",
        "a plurality of cells",
        "a plurality",
    ),
    Sentence(
        "electronics",
        "store  data in byte",
        "A controller having a memory of at least 64 kilobytes.",
        "store",
        "at least 64 kilobytes",
        "at least (plain L) kilobytes",
    ),
    Sentence(
        "electronics",
        "drift  voltage in mV",
        "A source with a drift of 5 mV ± 1 mV.",
        "drift",
        "5 mV ± 1 mV",
        "(N) ± (difference T)",
    ),
    Sentence(
        "farming",
        "seeds  count",
        "A drill that sets seeds, every 10 cm for 5 m.",
        "seeds",
        "every 10 cm for 5 m",
        "every (N) for (P)",
    ),
    Sentence(
        "farming",
        "feed  mass in kg\nhay  mass in kg",
        "A ration with a ratio of feed to hay of between 1:3 and 1:2.",
        "feed, hay",
        "a ratio of feed to hay of between 1:3 and 1:2",
        "ratio of (noun a) to (noun b) of between (ratio r) and (ratio s)",
    ),
    Sentence(
        "farming",
        "interval  time in day",
        "A method in which the herd is moved every 3 days.",
        "interval",
        "every 3 days",
        "every (N)",
    ),
    Sentence(
        "paint",
        "pigment  share in wt%",
        "A paint with some 12 wt% of pigment.",
        "pigment",
        "some 12 wt%",
        "about (N)",
    ),
    Sentence(
        "paint",
        "solvents  any of xylene, toluene, acetone",
        "A lacquer substantially without xylene, free of xylene and toluene.",
        "solvents",
        "free of xylene and toluene",
        "free of (list M or)",
    ),
    Sentence(
        "paint",
        "first grade, second grade  length in um",
        "A pigment with an average particle size of 5 to 9 um.",
        "first grade, second grade",
        "an average particle size of 5 to 9 um",
        "average particle size of (limit c)",
    ),
    Sentence(
        "plumbing",
        "feed  pressure in bar(g)",
        "A valve for a pressure of at least 3 bar.",
        "feed",
        "a pressure of at least 3 bar",
        "pressure of at least (L)",
    ),
    Sentence(
        "plumbing",
        "bend  angle in deg\nbore  length in mm\npipe  length in mm",
        "A cover over at least a third of the circumference.",
        "bend, bore, pipe",
        "at least a third of the circumference",
        "at least a third of a circle",
    ),
    Sentence(
        "plumbing",
        "slope  share in %",
        "A drain having a fall between 1 and 2 % inclusive.",
        "slope",
        "between 1 and 2 % inclusive",
        "between (L) and (U), inclusive",
    ),
    Sentence(
        "metals",
        "tin  share in wt%\nzinc  share in wt%",
        "A bronze consisting of 2 to 90 wt% of tin and 10 to 98 wt% of zinc.",
        "tin, zinc",
        "consisting of 2 to 90 wt% of tin and 10 to 98 wt% of zinc",
        "consisting of (L) to (U) of (noun a) and (P) to (Q) of (noun b)",
    ),
    Sentence(
        "metals",
        "core, melt, dial  temperature in degC",
        "A billet heated to at least 900 °C.",
        "core, melt, dial",
        "heated to at least 900 °C",
        "heated to (limit c)",
    ),
    Sentence(
        "metals",
        "grain  length in um",
        "A steel with grains of the usual fineness.",
        "grain",
        "of the usual fineness",
        "!write the meaning in symbols",
    ),
    Sentence(
        "metals",
        "chrome, tin  share in wt%",
        "A steel with chrome and tin in an amount of at least 4 wt%.",
        "chrome, tin",
        "chrome and tin in an amount of at least 4 wt%",
        "(noun a) and (noun b) of at least (L)",
    ),
]


@pytest.mark.parametrize("sentence", [pytest.param(s, id=f"{s.trade}: {s.words}"[:60]) for s in SENTENCES])
def test_words_of_a_trade_are_read_as_the_phrase_meant(sentence: Sentence) -> None:
    text = f"{sentence.declared}\n\n1. {sentence.text}\n   | {sentence.left} : {sentence.words}\n"
    sheet, wrong = read_sheet(Source("trade", text))
    if sentence.found.startswith("!"):
        assert sheet is None
        assert sentence.found[1:] in " ".join(d.help for d in wrong)
        return
    assert sheet is not None, [(d.message, d.help) for d in wrong]
    assert sentence.found in [g.entry for g in sheet.groups]


def test_there_are_thirty_sentences_of_ten_trades() -> None:
    assert len(SENTENCES) >= 30
    assert len({s.trade for s in SENTENCES}) == 10
