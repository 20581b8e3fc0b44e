"""Thirty further claim sentences, of ten other trades: what a user of the trade would write is read as meant.

The sentences are our own, and were written down with the phrase meant before any of them was run. A phrase is
named by its id, so that any wording of it will do.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.vocabulary.catalogue import entries


@dataclass(frozen=True)
class Sentence:
    trade: str
    declared: str
    left: str
    text: str
    words: str
    found: str
    """The ids of the phrases meant, none other being used; after '!' what the message must say instead."""


SENTENCES = [
    Sentence("ceramics", "glaze  length in mm", "glaze",
             "A tile whose glaze is no thicker than 0.3 mm.", "no thicker than 0.3 mm", "C3"),
    Sentence("ceramics", "kiln  temperature in degC", "kiln",
             "A method of firing at 1200 °C and above.", "1200 °C and above", "A4"),
    Sentence("ceramics", "pores  share in vol%", "pores",
             "A body with pores of roughly 12 to 15 vol%.", "roughly 12 to 15 vol%", "B2"),
    Sentence("cycling", "teeth  count", "teeth",
             "A sprocket having anywhere from 9 to 52 teeth.", "anywhere from 9 to 52 teeth", "A2"),
    Sentence("cycling", "frame  mass in kg", "frame",
             "A bicycle with a frame weighing less than 1.2 kg.", "weighing less than 1.2 kg", "A6"),
    Sentence("cycling", "spokes  count", "spokes",
             "A wheel with an even number of spokes.", "an even number of spokes", "H11"),
    Sentence("cosmetics", "water  share in wt%", "water",
             "A balm that is essentially free of water.", "essentially free of water", "B4"),
    Sentence("cosmetics", "oils  any of jojoba, almond, argan", "oils",
             "A cream containing at least two of jojoba, almond and argan.",
             "at least two of jojoba, almond and argan", "F4"),
    Sentence("cosmetics", "acidity  number", "acidity",
             "A lotion having a pH of from 5 to 6.", "a pH of from 5 to 6", "A2"),
    Sentence("batteries", "charge  share in %", "charge",
             "A cell keeping 80 % or more of its charge.", "80 % or more", "A4"),
    Sentence("batteries", "level  voltage in V", "level",
             "A cell with a level of 3.7 V ± 0.1 V.", "3.7 V ± 0.1 V", "A9"),
    Sentence("batteries", "layers  count", "layers",
             "A stack of at least three but no more than seven layers.",
             "at least three but no more than seven layers", "A4 C3"),
    Sentence("printing", "dots  length in um", "dots",
             "A plate with dots smaller than 20 um.", "smaller than 20 um", "A6"),
    Sentence("printing", "ink  one of cyan, magenta, black", "ink",
             "A print made with either cyan or black.", "either cyan or black", "G1"),
    Sentence("printing", "passes  count", "passes",
             "A method in which the sheet passes the roller no more than twice.", "no more than twice", "C3"),
    Sentence("packaging", "film  length in um", "film",
             "A wrapping of a film in the range of 20-40 um.", "in the range of 20-40 um", "A2"),
    Sentence("packaging", "seal  force in N", "seal",
             "A pouch with a seal of 5 N minimum and 9 N maximum.", "5 N minimum and 9 N maximum", "A4 A5"),
    Sentence("packaging", "label  any of paper, foil", "label",
             "A bottle bearing neither paper nor foil.", "neither paper nor foil", "G9"),
    Sentence("optics", "tilt  angle in deg", "tilt",
             "A prism tilted by 45 degrees plus or minus 1 degree.",
             "45 degrees plus or minus 1 degree", "A9"),
    Sentence("optics", "lens, mirror  length in mm", "lens",
             "A telescope whose lens is twice as wide as the mirror.", "twice as wide as the mirror", "D7"),
    Sentence("optics", "light  share in %", "light",
             "A filter that passes close to 90 % of the light.", "close to 90 %", "B1"),
    Sentence("boats", "draught, beam  length in m", "draught",
             "A hull whose draught does not exceed one third of the beam.",
             "does not exceed one third of the beam", "C3"),
    Sentence("boats", "cleats  count", "cleats",
             "A deck with a dozen or more cleats.", "a dozen or more", "A4"),
    Sentence("boats", "keel, hull  mass in kg", "keel",
             "A yacht whose keel is heavier than the hull.", "heavier than the hull", "A6"),
    Sentence("tyres", "tread  length in mm", "tread",
             "A tyre with a tread of up to and including 8 mm.", "up to and including 8 mm", "A3"),
    Sentence("tyres", "rubber, carbon  mass in kg", "rubber, carbon",
             "A blend with a rubber to carbon ratio of 2:1.", "a rubber to carbon ratio of 2:1", "H3"),
    Sentence("tyres", "cracks  count", "cracks",
             "A casing without cracks.", "without cracks", "G8"),
    Sentence("glazing", "panes  count", "panes",
             "A window of two or three panes.", "two or three panes", "F13"),
    Sentence("glazing", "gap, frame  length in mm", "gap",
             "A window with a gap equal to the frame.", "equal to the frame", "H7"),
    Sentence("glazing", "coat  any of silver, tin, zinc", "coat",
             "A pane coated with silver, tin, zinc or any combination thereof.",
             "silver, tin, zinc or any combination thereof", "G2"),
]  # fmt: skip


@pytest.mark.parametrize("sentence", [pytest.param(s, id=f"{s.trade}: {s.words}"[:60]) for s in SENTENCES])
def test_words_of_a_trade_are_read_as_the_phrase_meant(sentence: Sentence) -> None:
    text = f"{sentence.declared}\n\n1. {sentence.text}\n   | {sentence.left} : {sentence.words}\n"
    sheet, wrong = read_sheet(Source("trade", text))
    if sentence.found.startswith("!"):
        assert sheet is None
        assert sentence.found[1:] in " ".join(d.help for d in wrong)
        return
    assert sheet is not None, [(d.message, d.help) for d in wrong]
    ids = {title: {e.id for e in entries() if e.title == title} for title in (g.entry for g in sheet.groups)}
    assert len(ids) == len(sentence.found.split())
    assert set().union(*ids.values()) >= set(sentence.found.split()), ids


def test_there_are_thirty_sentences_of_ten_trades() -> None:
    assert len({s.text for s in SENTENCES}) >= 30
    assert len({s.trade for s in SENTENCES}) == 10
