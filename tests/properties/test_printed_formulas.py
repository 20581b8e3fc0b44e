"""What a report prints for a reading is what is evaluated: parsed again as symbols, both say the same."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from scopecheck.core.construction import Construction, base_construction, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Formula, Read
from scopecheck.core.model import Group, Place, Sheet
from scopecheck.foundations.quantity import decimal_text
from scopecheck.foundations.spans import Source
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate

LENGTHS = "gap, rim, lid  length in mm"
MASSES = "yeast, flour  mass in kg"
COUNTS = "screws, ribs  count"
HEATS = "inlet, outlet  temperature in degC"
SHARES = "wax, oil  share in wt%"
VOLTAGE = "charge  voltage in mV"
SHEETS = [
    (LENGTHS, "gap", words)
    for words in (
        "3 mm to 6 mm", "3 to 6 mm", "between 3 and 6 mm", "at least 3 mm", "about 3 to about 6 mm",
        "3 mm ± 0.5 mm", "3 mm ± 10 %", "not more than 6 mm", "less than 0.6 cm", "0.3 cm to 6 mm",
        "approximately 5 mm", "from 1/2 mm to 3 mm", "1.5 thousand mm or more", "at least half the rim",
        "between the rim and 2 times the rim", "between half of the rim and twice the rim",
        "from the rim to 20 mm", "one third of the rim or more", "at most the sum of rim and lid",
        "at most the smaller of rim and lid", "2 to 3 times the rim", "at least 2 mm longer than the rim",
        "20 to 30 % of the rim", "the greater of 2 mm and 5 % of rim", "from 5 to 10, preferably 6 to 8, mm",

        "5 to 10 mm, preferably 12 mm", "from 5, preferably 4, to 10 mm", "substantially 10 mm",
        "outside 3 to 6 mm", "exceeds the rim by 2 to 5 mm", "less than one quarter of the rim",
    )
] + [
    (LENGTHS, "gap, rim", words)
    for words in (
        "gap is between rim and 2 rim", "between rim and twice the rim",
        "gap and rim are both between 2 and 3 mm",
        "gap and rim are each about 20 mm", "the ratio of the gap to the rim is from 1:8 to 1:5",
        "gap not more than 5 % of the rim",
    )
] + [
    (MASSES, "yeast, flour", words)
    for words in (
        "3 to 6 parts by weight of yeast per 100 parts by weight of flour",
        "at least 3 parts by weight of yeast per 100 parts by weight of flour",
        "between 3 and 6 parts by weight of yeast per 100 parts by weight of flour",
        "about 3 to about 6 parts by weight of yeast per 100 parts by weight of flour",
        "3 to 6 kg of yeast per 100 kg of flour", "3 to 6 g of yeast per kg of flour",
    )
] + [
    (COUNTS, "screws", words)
    for words in (
        "two pairs of screws", "at least two pairs of screws", "a pair of screws", "at least a dozen screws",
        "three to six screws", "2 to 4 screws", "a plurality of screws", "at most three screws",
    )
] + [
    (HEATS, "inlet", words)
    for words in ("20 to 30 °C", "between 20 and 30 °C", "at least 300 K", "20 °C ± 2 K", "below 10 °C")
] + [
    (HEATS, "inlet, outlet", words)
    for words in (
        "inlet and outlet are both between 20 and 30 °C", "inlet at least 10 K above the outlet",
        "at least 100 K below the outlet",
    )
] + [
    (SHARES, "wax", words)
    for words in ("3 to 6 wt%", "3 to 6 % by weight", "0 to 2 wt%", "at most 3000 ppm by weight")
] + [
    (VOLTAGE, "charge", words)
    for words in ("-4 to -8 mV", "2 x 10^3 mV or more")
]  # fmt: skip
_NUMBER_WORD = re.compile(rf"\b(?:{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})\b")
THINGS = 40


@pytest.mark.parametrize(("declared", "left", "words"), SHEETS, ids=[words for _, _, words in SHEETS])
def test_what_is_printed_says_what_is_evaluated(declared: str, left: str, words: str) -> None:
    made = _with_words(declared, left, words)
    assert made is not None
    compared = 0
    for group, place, read in _phrases(made):
        for reading, printed in enumerate(place.meanings):
            again = _as_symbols(declared, left, words, _in_symbols(made, group, reading, printed))
            if again is None:
                continue  # told in words, or with units that symbols do not mix
            compared += 1
            k = base_construction(made)
            for thing in _things(made):
                meant = [evaluate(node.options[reading], thing, k) is True for node in read]
                said = evaluate(again, thing, Construction(())) is True
                assert said == all(meant), (printed, thing)
    assert compared


def _with_words(declared: str, left: str, words: str) -> Sheet | None:
    text = f"profile US\n{declared}\n\n1. A device, wherein {words}.\n   | {left} : {words}\n"
    return read_sheet(Source("words", text))[0]


def _phrases(made: Sheet) -> Iterator[tuple[Group, Place, list[Read]]]:
    """Each phrase at its one place, with all that is read there."""
    formula = made.claims[0].limitations[0].formula
    for group in made.groups:
        read = [n for n in nodes(formula) if isinstance(n, Read) and n.group == group.index]
        if len(group.places) == 1:
            yield group, group.places[0], read


def _in_symbols(made: Sheet, group: Group, reading: int, printed: str) -> str:
    """The formula with numbers for number words and for what is left open, what is said of several joined."""
    text = _NUMBER_WORD.sub(lambda m: str(NUMBER_WORDS[m[0]]), printed).replace("; ", ", ")
    unit = next(d.unit.symbol for d in made.declarations if isinstance(d, NumberDecl))
    text = re.sub(r"(?<![\w.])0 <", f"0 {unit} <", text)  # in symbols a 0 beside a length has its unit
    for p in made.parameters:
        if (p.group, p.reading) == (group.index, reading):
            value = decimal_text(p.presumed / p.unit.factor) or "0"
            text = re.sub(rf"(?<![\w.]){p.name}(?!\w)", f"{value} {p.unit.symbol}".strip(), text)
    return text


def _as_symbols(declared: str, left: str, words: str, formula: str) -> Formula | None:
    text = (
        f"profile US\n{declared}\n\n1. A device, wherein {words}.\n   | {left} : {words}  exactly {formula}\n"
    )
    made = read_sheet(Source("symbols", text))[0]
    return made.claims[0].limitations[0].formula if made is not None else None


def _things(made: Sheet) -> Iterator[Article]:
    """Things made by chance, with many values near those that the tests write."""
    chance = random.Random(7)
    likely = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 20, 25, 30, 60, 100, 200, 400, 2000)
    for _ in range(THINGS):
        thing: dict[str, Fraction] = {}
        for d in made.declarations:
            assert isinstance(d, NumberDecl)
            value = Fraction(chance.choice(likely)) + Fraction(chance.choice((-4, 0, 0, 0, 4)), 10)
            thing[d.name] = Fraction(round(abs(value))) if d.whole else d.unit.to_base(value)
        yield thing


def test_a_printed_formula_with_another_number_is_told_apart() -> None:
    """What the test above rests on: 3 and 3/100 are not the same on the things it tries."""
    words = "3 to 6 kg of yeast per 100 kg of flour"
    made = _with_words(MASSES, "yeast, flour", words)
    assert made is not None
    (read,) = [n for n in nodes(made.claims[0].limitations[0].formula) if isinstance(n, Read)]
    wrong = _as_symbols(MASSES, "yeast, flour", words, "3 * flour <= yeast <= 6 * flour")
    assert wrong is not None
    k = base_construction(made)
    meant = [evaluate(read.options[0], thing, k) for thing in _things(made)]
    assert meant != [evaluate(wrong, thing, Construction(())) for thing in _things(made)]
