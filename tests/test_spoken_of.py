"""What words speak of, against what stands left of the colon: another thing is told, what counts otherwise
is refused, and what is only called otherwise is read. Each reading is held against plain arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.declared import ChoiceDecl, NumberDecl
from scopecheck.core.formula import Value
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors

Met = Callable[..., bool]

TOLD: list[tuple[str, str, str, str]] = [
    (
        'inlet pressure  pressure in bar',
        "inlet pressure", "an outlet pressure of at least 2 bar",
        "'outlet pressure' is read as inlet pressure",
    ),
    (
        'valve open  one of only yes, no;inlet pressure  pressure in bar',
        "valve open, inlet pressure", "opens when the outlet pressure exceeds 2 bar",
        "'outlet pressure' is read as inlet pressure",
    ),
    (
        'current, rated  current in A;cell temp  temperature in degC',
        "current, rated, cell temp", "at least the rated current when the plug is below 45 °C",
        "'plug' is read as cell temp",
    ),
    (
        'water  share in wt%;filler kind  any of chalk, talc',
        "water, filler kind", "at most 2 % by weight of water if the binder comprises chalk",
        "'binder' is read as filler kind",
    ),
    (
        'weight  mass in g "dry weight, not wet weight"',
        "weight", "a wet weight of at most 30 g", "'wet' is read as weight",
    ),
    (
        'holes, ribs  count', "holes, ribs", "more large holes than ribs", "'large holes' is read as holes",
    ),
    ('holes, ribs  count', "holes", "at least two openings", "'openings' is read as holes"),
    (
        'Tg  temperature in degC',
        "Tg", "a glass transition temperature of at least 40 °C",
        "'a glass transition temperature' is read as Tg",
    ),
    ('d  length in mm', "d", "an outer diameter of 2 to 4 mm", "'an outer diameter' is read as d"),
]  # fmt: skip


def _found(declared: str, left: str, words: str) -> tuple[bool, list[str]]:
    head = declared.replace(";", "\n")
    made, found = read_sheet(Source("t", f"{head}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    return made is not None, [d.message for d in found]


@pytest.mark.parametrize(("declared", "left", "words", "told"), TOLD)
def test_another_thing_is_told(declared: str, left: str, words: str, told: str) -> None:
    assert _found(declared, left, words) == (True, [told])


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("inlet pressure  pressure in bar", "inlet pressure", "an inlet pressure of at least 2 bar"),
        ("inlet pressure  pressure in bar", "inlet pressure", "a pressure of at least 2 bar at the inlet"),
        ('shaft diameter  length in mm "outer diameter"', "shaft diameter", "an outer diameter of 2 mm"),
        ('Tg  temperature in degC "glass transition"', "Tg", "a glass transition of at least 40 °C"),
        ("holes, ribs  count", "holes, ribs", "more holes than ribs"),
        ("mounting holes, ribs  count", "mounting holes, ribs", "more mounting holes than ribs"),
        ('weight  mass in g "dry weight, not wet weight"', "weight", "a dry weight of at most 30 g"),
        (
            "current  current in A;rated current  current in A",
            "current, rated current", "a charging current of at most half the rated current",
        ),
    ],
)  # fmt: skip
def test_the_thing_itself_is_not_told_of(declared: str, left: str, words: str) -> None:
    made, messages = _found(declared, left, words)
    assert made
    assert not [m for m in messages if "read as" in m]


@pytest.mark.parametrize(
    "words",
    [
        "more holes than ribs and rods",
        "more holes than ribs per row",
        "more holes than pairs of ribs",
        "more holes than there are rows of ribs",
        "fewer holes than ribs in each row",
        "twice as many holes as ribs and rods",
        "at least one hole for every two ribs beyond the fourth",
    ],
)
def test_another_number_is_refused(words: str) -> None:
    assert errors(f"holes, ribs  count\n\n1. A thing, {words}.\n   | holes, ribs : {words}\n")


@pytest.mark.parametrize(
    "words", ["at least two ribs", "at least two pairs", "at least two rows of openings"]
)
def test_what_is_counted_is_no_other_thing(words: str) -> None:
    assert errors(f"holes, ribs  count\n\n1. A thing, {words}.\n   | holes : {words}\n")


MIXED = ("EC, EMC  share in vol%", "EC, EMC  share in wt%", "EC, EMC  mass in g")


@pytest.mark.parametrize(
    ("declared", "words", "read"),
    [
        (MIXED[0], "a weight ratio of EC to EMC of 3:5", False),
        (MIXED[0], "in a volume ratio of 3:5", True),
        (MIXED[1], "in a molar ratio of 3:5", False),
        (MIXED[1], "the mass ratio of EC to EMC is at least 3", True),
        (MIXED[1], "a ratio by volume of EC to EMC of 3:5", False),
        (MIXED[2], "in a molar ratio of 3:5", False),
        (MIXED[2], "in a weight ratio of 3:5", True),
    ],
)
def test_a_ratio_is_one_of_what_is_declared(declared: str, words: str, read: bool) -> None:
    made, messages = _found(declared, "EC, EMC", words)
    assert made is read
    assert read or "of what is declared as a" in messages[0]


# ---- what is read, each against arithmetic; in the units of the declarations

READ: list[tuple[str, str, str, tuple[str, ...], Met]] = [
    ("a, b  share in %", "a, b", "the two differing by not more than 3 percentage points", (),
     lambda a, b: abs(a - b) <= 3),
    ("a, b  share in wt%", "a, b", "differ by at most 3 percentage points", (), lambda a, b: abs(a - b) <= 3),
    ("a, b  share in wt%", "a, b", "differ by at most 3 %", (), lambda a, b: abs(a - b) <= 3),
    ("a, b  share in wt%", "a, b", "at least 50 % more than the b", (),
     lambda a, b: 2 * a >= 3 * b),
    ("a, b  share in %", "a, b", "at least 1 but no more than 3 percentage points lower than the b", (),
     lambda a, b: 1 <= b - a <= 3),
    ("a, b, c  share in vol%", "a, b, c", "in a volume ratio of 1:2:4", (),
     lambda a, b, c: 2 * a == b and 2 * b == c and b > 0),
    ("a, b, c  share in vol%", "a, b, c", "a ratio of a to b to c of 1:2:4", (),
     lambda a, b, c: 2 * a == b and 2 * b == c and b > 0),
    ("a, b  length in mm", "a, b", "greater than the b by a factor of from 2 to 4", (),
     lambda a, b: 2 * b <= a <= 4 * b),
    ("treatment  time in week", "treatment", "for a period of at least 3 consecutive weeks", (),
     lambda t: t >= 3),
    ('sizes  count "different sizes"', "sizes", "at least two and at most four different sizes", (),
     lambda n: 2 <= n <= 4),
    ('bend  in % "distortion, of either sign"', "bend", "within ±3 %", (), lambda x: -3 <= x <= 3),
    ("hole expansion  share in %", "hole expansion", "a hole expansion ratio λ of 3% or more",
     ("'ratio λ' is read past",), lambda x: x >= 3),
    ("first D50, second D50  length in um", "first D50", "a median particle size D50 of 2 µm or more",
     ("'median particle size' is read past",), lambda x: x >= 2),
    ("p95, p99  time in ms", "p99, p95", "less than three times the 95th percentile latency",
     ("'the 95th percentile latency' is read as p95",), lambda a, b: a < 3 * b),
    ("thigh pressure, calf pressure  pressure in mmHg", "thigh pressure, calf pressure",
     "lower than the pressure exerted at the calf",
     ("'the pressure exerted at the calf' is read as calf pressure",), lambda a, b: a < b),
    ("pigment  share in wt%", "pigment", "optionally, a pigment in an amount of not more than 3 wt%", (),
     lambda x: x <= 3),
    ("phases  count", "phases", "two to four power converters", ("'power converters' is read as phases",),
     lambda n: 2 <= n <= 4),
    ("quotient  ratio", "quotient", "at least 3:1", (), lambda x: x >= 3),
    ("noise, rejection  in dB", "noise, rejection",
     "a noise of less than 2 dB or a rejection of at least 4 dB, or both", (),
     lambda a, b: a < 2 or b >= 4),
    ("noise  in dBA", "noise", "less than 3 dB(A)", (), lambda x: x < 3),
    ("stirrer  rotational speed in 1/min", "stirrer", "2 to 4 rpm", (), lambda x: 2 <= x <= 4),
    ("stirrer  rotational speed in rpm", "stirrer", "from 2 to 4 1/min", (), lambda x: 2 <= x <= 4),
    ("upper, lower  count", "upper, lower", "2 and 4 teeth, respectively", (),
     lambda a, b: a >= 2 and b >= 4),
    ("current  current in mA", "current", "substantially not more than 3 mA", (), lambda x: x <= 3),
    ("retry  time in s", "retry", "about 3 seconds or longer", (), lambda x: x >= 3),
    ('standby  share in %  "servers in standby, over all servers"', "standby", "at least 3 % of the servers",
     (), lambda x: x >= 3),
    ('inner  number "value on the axis";outer  number "value at the edge"', "outer, inner",
     "at least 50 % of its value on the axis", (),
     lambda a, b: b != 0 and a / b >= Fraction(1, 2)),
    ("pin diameter  length in mm", "pin diameter", "a pin diameter of 2 mm +1/+0.5 mm", (),
     lambda x: Fraction(5, 2) <= x <= 3),
    ("pellet length, pellet diameter  length in mm", "pellet length, pellet diameter",
     "a length of 1 to 2 times its diameter", ("'its diameter' is read as pellet diameter",),
     lambda a, b: b <= a <= 2 * b),
    ("free height, pocket height  length in mm", "free height, pocket height",
     "2 to 4 times its height in the pocket", (),
     lambda a, b: 2 * b <= a <= 4 * b),
    ("prestress  force in kN", "prestress", "a prestressing force of between 2 and 4 kN", (),
     lambda x: 2 <= x <= 4),
    ("fat  in g/100 ml", "fat", "from 2 g to 4 g per 100 ml", (), lambda x: 2 <= x <= 4),
    ("fat  in g/l", "fat", "at most 0.3 g per 100 ml", (), lambda x: x <= 3),
    ("dial  current in mA", "dial", "between 1 mA and 4 mA in steps of 1.5 mA", (),
     lambda x: x in (1, Fraction(5, 2), 4)),
    ('force  force in N;branch  length in mm "diameter of the branch"', "force, branch",
     "3 N or less if the branch to be cut has a diameter of less than 2 mm", ("'to be cut' is read past",),
     lambda f, b: b >= 2 or f <= 3),
]  # fmt: skip
TRIED = [Fraction(n, 2) for n in range(-8, 13)]


def _values(declared: NumberDecl) -> list[tuple[Fraction, Value]]:
    unit = declared.unit
    low = declared.lower.value if declared.lower is not None else None
    tried = [(n, n * unit.factor) for n in TRIED if not declared.whole or n.denominator == 1]
    return [(n, value) for n, value in tried if low is None or value >= low]


@pytest.mark.parametrize(("declared", "left", "words", "told", "met"), READ)
def test_read_as_arithmetic_has_it(
    declared: str, left: str, words: str, told: tuple[str, ...], met: Met
) -> None:
    head = declared.replace(";", "\n")
    made, found = read_sheet(Source("t", f"{head}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is not None, [d.message for d in found]
    assert tuple(d.message for d in found) == told
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    by_name = {d.name: d for d in made.declarations if isinstance(d, NumberDecl)}
    names = left.split(", ")
    seen = set()
    every = [_values(by_name[name])[:: 2 if len(names) > 2 else 1] for name in names]
    for each in product(*every):
        article = {name: value for name, (_, value) in zip(names, each, strict=True)}
        wanted = met(*(plain for plain, _ in each))
        assert (evaluate(formula, article, k) is True) is wanted, each
        seen.add(wanted)
    assert seen == {True, False}


SWITCHED = "ratchet  one of only engaged, disengaged;opening  length in mm"


@pytest.mark.parametrize(
    "words",
    [
        "no more than 3 mm when the ratchet mechanism is engaged",
        "no more than 3 mm when the ratchet is engaged",
    ],
)
def test_what_bears_a_state_may_be_named_with_it(words: str) -> None:
    head = SWITCHED.replace(";", "\n")
    made, found = read_sheet(
        Source("t", f"{head}\n\n1. A thing, {words}.\n   | opening, ratchet : {words}\n")
    )
    assert made is not None
    assert not found
    assert isinstance(made.declarations[0], ChoiceDecl)
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for state, wide in product(("engaged", "disengaged"), (2, 3, 4)):
        article: dict[str, Value] = {"ratchet": state, "opening": Fraction(wide, 1000)}
        assert evaluate(formula, article, k) is (state == "disengaged" or wide <= 3)


RIBS = """rib       part, up to 3
  width   length in mm
rim       length in mm  "of the outer rim"

"""


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("width of the ribs, rim", "each of the ribs is narrower than the rim"),
        ("width of the ribs, rim", "each narrower than the outer rim"),
        ("width of the ribs", "each rib has a width of less than the rim"),
    ],
)
def test_like_parts_beside_one_thing(left: str, words: str) -> None:
    made, found = read_sheet(Source("t", f"{RIBS}1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for count, widths, rim in product(range(1, 4), product((1, 2, 3), repeat=3), (2, 3)):
        article: dict[str, Value] = {f"width of rib {i}": Fraction(w, 1000) for i, w in enumerate(widths, 1)}
        article |= {"ribs": Fraction(count), "rim": Fraction(rim, 1000)}
        assert evaluate(formula, article, k) is all(w < rim for w in widths[:count])


@pytest.mark.parametrize(
    "words", ["each of the bars carrying at least 2 mm", "each rib has a cover with at least 2 mm"]
)
def test_what_each_of_like_parts_has(words: str) -> None:
    made, found = read_sheet(Source("t", f"{RIBS}1. A thing, {words}.\n   | width of the ribs : {words}\n"))
    assert made is not None, [d.message for d in found]
    assert ["read past" in d.message for d in found] == [True]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for count, widths in product(range(1, 4), product((1, 2, 3), repeat=3)):
        article: dict[str, Value] = {f"width of rib {i}": Fraction(w, 1000) for i, w in enumerate(widths, 1)}
        article |= {"ribs": Fraction(count), "rim": Fraction(1, 1000)}
        assert evaluate(formula, article, k) is all(w >= 2 for w in widths[:count])


@pytest.mark.parametrize("words", ["3 minutes or longer", "at least 3 minutes", "3 to 20 minutes"])
def test_a_step_lasts_so_long(words: str) -> None:
    text = f"steeping  step in min\n\n1. A method comprising steeping {words}.\n   | steeping : {words}\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for minutes in (1, 2, 3, 4):
        article: dict[str, Value] = {
            "start of steeping": Fraction(0),
            "duration of steeping": Fraction(60 * minutes),
        }
        assert evaluate(formula, article, k) is (minutes >= 3)


# ---- bare per cents, scales that are known


def test_the_basis_of_a_composition_is_told_of_once() -> None:
    text = (
        "mix  composition in wt%\n  lime\n  sand\nash  share in wt%\n\n1. A mix of at least 3 % lime, up"
        " to 5 % sand and an ash content of 1 %.\n   | lime : at least 3 %\n   | sand : up to 5 %\n"
        "   | ash : 1 %\n"
    )
    _, found = read_sheet(Source("t", text))
    (bare,) = (d for d in found if "percent of what" in d.message)
    assert [(span.text, said) for span, said in bare.also] == [("1 %", "ash, too")]


def test_a_bare_per_cent_is_on_the_declared_basis_and_told_once() -> None:
    text = (
        "lime, sand  share in wt%\n\n1. A mix with at least 3 % lime and up to 5 % sand.\n"
        "   | lime : at least 3 %\n   | sand : up to 5 %\n"
    )
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert [d.message for d in found] == ["these words do not say percent of what: read as wt%, as declared"]
    assert [(span.text, said) for span, said in found[0].also] == [("up to 5 %", "sand, too")]
    k = base_construction(made)
    for lime, sand in product((2, 3, 4), (4, 5, 6)):
        article: dict[str, Value] = {"lime": Fraction(lime, 100), "sand": Fraction(sand, 100)}
        met = [evaluate(x.formula, article, k) for x in made.claims[0].limitations]
        assert met == [lime >= 3, sand <= 5]


def test_a_scale_that_is_known_is_not_declared_again() -> None:
    text = 'unit  HRC  "Rockwell hardness"\nhardness  in HRC\n\n1. A blade of at least 55 HRC.\n'
    made, found = read_sheet(Source("t", f"{text}   | hardness : at least 55 HRC\n"))
    assert made is not None
    assert [(d.severity, d.message) for d in found] == [("warning", "'HRC' is a unit already")]
    assert errors(f'unit  bar  "a count of bars"\n\n{text}')


def test_text_that_goes_on_behind_a_comma_is_no_line_without_a_bar() -> None:
    head = "C, N  share in wt%\n\n1. A steel having, in wt%, C: 0.1 to 0.2%,\n   N: 0.001% or less"
    lines = ".\n   | C : 0.1 to 0.2%\n   | N : 0.001% or less\n"
    assert not errors(head + lines)
    assert errors(head.replace("0.2%,", "0.2%.") + lines)


STEEL = "steel  composition in wt%\n  reactive : {0}\n  iron\n\n1. A steel with {1}.\n   | reactive : {1}\n"


@pytest.mark.parametrize(
    "words",
    [
        "1 to 3 wt% of at least one of yttrium and zirconium",
        "1 to 3 % by weight of one or more of yttrium and zirconium",
        "at least one of yttrium and zirconium in an amount of 1 to 3 wt%",
    ],
)
def test_a_class_and_its_amount(words: str) -> None:
    made, found = read_sheet(Source("t", STEEL.format("only yttrium, zirconium", words)))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for first, second in product(range(5), range(5)):
        amounts = {"reactive": first + second, "yttrium": first, "zirconium": second, "iron": 90, "others": 0}
        article: dict[str, Value] = {name: Fraction(value, 100) for name, value in amounts.items()}
        assert evaluate(formula, article, k) is (1 <= first + second <= 3)
    more, _ = read_sheet(Source("t", STEEL.format("yttrium, zirconium, cerium", words)))
    assert more is not None  # of the two that the words name, whatever else there is of the class
    formula, k = more.claims[0].limitations[0].formula, base_construction(more)
    article = {
        n: Fraction(v, 100) for n, v in {"yttrium": 1, "zirconium": 1, "cerium": 4, "reactive": 6}.items()
    }
    assert evaluate(formula, {**article, "iron": Fraction(94, 100), "others": Fraction(0)}, k) is True


@pytest.mark.parametrize(
    "words", ["consists of {0} or a mixture thereof", "consisting of {0} or mixtures thereof"]
)
def test_what_consists_of_some_holds_nothing_else(words: str) -> None:
    said = words.format("nylon, rayon")
    text = f"fibre  any of nylon, rayon, wool\n\n1. A web, {said}.\n   | fibre : {said}\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for kept in product((0, 1), repeat=3):
        there = frozenset(n for n, is_there in zip(("nylon", "rayon", "wool"), kept, strict=True) if is_there)
        wanted = bool(kept[0] or kept[1]) and not kept[2]
        assert evaluate(formula, {"fibre": there}, k) is wanted


def test_a_quotient_of_masses_beside_so_much_per_mass() -> None:
    head = "dose  mass in mg\nbody weight  mass in kg\nvolume, room  volume in ml\n\n1. A dose.\n"
    made, found = read_sheet(Source("t", f"{head}   | dose / body weight <= 3 mg/kg\n"))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for dose, weight in product((1, 5, 6, 7, 12), (1, 2, 3)):
        article: dict[str, Value] = {"dose": Fraction(dose, 10**6), "body weight": Fraction(weight)}
        assert evaluate(formula, article, k) is (dose <= 3 * weight)
    assert errors(f"{head}   | volume / room <= 3 mg/kg\n")


PELLETS = """sample pellet  part, 1 to 4
  strength     force in N

1. A feed, wherein {0}.
   | strength of the sample pellets : {0}
"""


@pytest.mark.parametrize(
    ("words", "met"),
    [
        ("none of the pellets has a strength of less than 2 N", lambda n: all(x >= 2 for x in n)),
        ("at least 50 % of the pellets have a strength of 2 N or more",
         lambda n: 2 * sum(x >= 2 for x in n) >= len(n)),
    ],
)  # fmt: skip
def test_like_parts_by_the_last_word_of_their_name(words: str, met: Callable[[list[int]], bool]) -> None:
    made, found = read_sheet(Source("t", PELLETS.format(words)))
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for count, each in product(range(1, 5), product((1, 2, 3), repeat=4)):
        article: dict[str, Value] = {
            f"strength of sample pellet {i}": Fraction(x) for i, x in enumerate(each, 1)
        }
        article["sample pellets"] = Fraction(count)
        assert evaluate(formula, article, k) is met(list(each[:count]))


def test_a_name_may_begin_as_a_line_of_a_reading_does() -> None:
    text = (
        "free height, own weight  number\n\n1. A spring of at least 2 and at most 4.\n"
        "   | free height : at least 2\n   | own weight : at most 4\n"
    )
    made, found = read_sheet(Source("t", text))
    assert made is not None, [d.message for d in found]
    assert [x.label for x in made.claims[0].limitations] == ["1a", "1b"]


def test_these_but_not_those() -> None:
    words = "copper or zinc but not tin"
    made, found = read_sheet(
        Source("t", f"metal  any of copper, zinc, tin\n\n1. A cup, {words}.\n   | metal : {words}\n")
    )
    assert made is not None, [d.message for d in found]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for kept in product((0, 1), repeat=3):
        there = frozenset(n for n, is_there in zip(("copper", "zinc", "tin"), kept, strict=True) if is_there)
        assert evaluate(formula, {"metal": there}, k) is (bool(kept[0] or kept[1]) and not kept[2])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("A mix comprising, by weight, at least 3 % lime", False),
        ("A mix comprising, by weight of the mix, at least 3 % lime", False),
        ("A mix comprising at least 3 % lime", True),
        ("A mix having 3 % by weight of sand and at least 3 % lime", True),
    ],
)
def test_a_basis_behind_a_verb_is_said_of_all(text: str, told: bool) -> None:
    made, found = read_sheet(
        Source("t", f"lime, sand  share in wt%\n\n1. {text}.\n   | lime : at least 3 %\n")
    )
    assert made is not None
    assert any("percent of what" in d.message for d in found) is told


def test_the_nearest_phrases_have_the_words_that_are_said() -> None:
    words = "reduced by at least 3 mm relative to what it was at first"
    (wrong,) = errors(f"rim  length in mm\n\n1. A cup, {words}.\n   | rim : {words}\n")
    assert "nearest: 'reduced by at least ...'" in wrong.help
