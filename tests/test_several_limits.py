"""Several limits in one line, each of its own thing, and lists with more beside them."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction, nodes
from scopecheck.core.formula import Read
from scopecheck.drill.symbols import written
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, on_the_wrong_side, presumed_in_symbols, sheet

DECLARED = """
fat, oil     share in wt%
pins, lids   count
gap          length in mm
dye          any of only indigo, madder, weld
"""


def text(subjects: str, words: str) -> str:
    return f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"


def met(subjects: str, words: str, thing: dict[str, object]) -> bool | None:
    made = sheet(text(subjects, words))
    return evaluate(made.claims[0].limitations[0].formula, thing, base_construction(made))  # type: ignore[arg-type]


SHARES = [
    ("at most 5 wt% of fat and at most 3 wt% of oil", lambda fat, oil: fat <= 5 and oil <= 3),
    ("1 to 5 wt% of fat and at least 3 wt% of oil", lambda fat, oil: 1 <= fat <= 5 and oil >= 3),
    ("at most 5 wt% and 3 wt%, respectively", lambda fat, oil: fat <= 5 and oil <= 3),
    ("at most 5 wt% and at least 3 wt%, respectively", lambda fat, oil: fat <= 5 and oil >= 3),
    ("more than 1 wt% and 1 to 5 wt%, respectively", lambda fat, oil: fat > 1 and 1 <= oil <= 5),
]


@pytest.mark.parametrize(("words", "asked"), SHARES)
def test_each_share_has_the_limit_that_names_it(words: str, asked: object) -> None:
    for fat, oil in product((0, 1, 3, 5, 6), repeat=2):
        thing = {"fat": Fraction(fat, 100), "oil": Fraction(oil, 100)}
        assert met("fat, oil", words, thing) is asked(fat, oil), (words, fat, oil)  # type: ignore[operator]


COUNTS = [
    ("at least three pins and two lids", lambda pins, lids: pins >= 3 and lids >= 2),
    ("at most three pins and two lids", lambda pins, lids: pins <= 3 and lids <= 2),
    ("more than two pins and one lid", lambda pins, lids: pins > 2 and lids > 1),
    ("two pins and a lid", lambda pins, lids: pins >= 2 and lids >= 1),
    ("at least three pins and lids", lambda pins, lids: pins >= 3 and lids >= 3),
]


@pytest.mark.parametrize(("words", "asked"), COUNTS)
def test_each_count_has_its_own_number(words: str, asked: object) -> None:
    for pins, lids in product(range(5), repeat=2):
        thing = {"pins": Fraction(pins), "lids": Fraction(lids)}
        assert met("pins, lids", words, thing) is asked(pins, lids), (words, pins, lids)  # type: ignore[operator]


LISTS = [
    ("at least one of indigo and madder but not weld", {"indigo", "madder"}, {"weld"}),
    ("at least one of indigo and madder without weld", {"indigo", "madder"}, {"weld"}),
    ("at least one of indigo and madder and free of weld", {"indigo", "madder"}, {"weld"}),
]


@pytest.mark.parametrize(("words", "one_of", "none_of"), LISTS)
def test_what_is_left_out_behind_a_choice_parts_no_list(
    words: str, one_of: set[str], none_of: set[str]
) -> None:
    names = ("indigo", "madder", "weld")
    for there in product((False, True), repeat=3):
        dye = frozenset(n for n, yes in zip(names, there, strict=True) if yes)
        expected = bool(dye & one_of) and not dye & none_of
        assert met("dye", words, {"dye": dye}) is expected, (words, dye)


@pytest.mark.parametrize("beside", ["together with", "in combination with"])
def test_what_stands_beside_a_choice_is_no_further_alternative(beside: str) -> None:
    words = f"at least one of indigo and madder {beside} weld"
    assert met("dye", words, {"dye": frozenset(("indigo", "weld"))}) is True
    assert met("dye", words, {"dye": frozenset(("weld",))}) is False
    assert met("dye", words, {"dye": frozenset(("indigo",))}) is False


@pytest.mark.parametrize("words", ["no burrs", "no two gaps alike"])
def test_no_with_other_words_says_nothing_of_a_length(words: str) -> None:
    assert errors(text("gap", words))
    assert not errors(text("gap", "no gap"))


@pytest.mark.parametrize(
    ("words", "label", "inside", "outside"),
    [
        ("indigo and optionally madder", "these and nothing else", ["i", "im"], ["m", "iw", "imw"]),
        ("consisting of indigo and optionally madder", "closed", ["i", "im"], ["m", "iw", "imw"]),
        ("consisting of indigo and madder and free of weld", "closed", ["im"], ["i", "m", "imw"]),
    ],
)
def test_what_is_closed_is_not_closed_against_what_the_line_names(
    words: str, label: str, inside: list[str], outside: list[str]
) -> None:
    made = sheet(text("dye", words))
    group = next(g for g in made.groups if label in [r.label for r in g.readings])
    k = base_construction(made).with_reading(group.index, [r.label for r in group.readings].index(label))
    formula = made.claims[0].limitations[0].formula
    for letters, expected in [*((s, True) for s in inside), *((s, False) for s in outside)]:
        dye = frozenset(n for n in ("indigo", "madder", "weld") if n[0] in letters)
        assert evaluate(formula, {"dye": dye}, k) is expected, (words, letters)


RIBS = "rib  part, up to 2\n  height  length in mm"
SOAKING = "soaking  step in min\n  temperature  temperature in degC"
SOAKED = "start of soaking = 0 min, duration of soaking = 10 min"


def symbols(declared: str, left: str, words: str) -> list[str]:
    """What each phrase of the words comes to as presumed, at each of its places."""
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    (line,) = made.claims[0].limitations
    reads = [n for n in nodes(line.formula) if isinstance(n, Read)]
    told = (n.options[made.groups[n.group].base] for g in line.groups for n in reads if n.group == g)
    return [written(made, option) for option in dict.fromkeys(told)]


OIL_AND_GUM = [
    ("the total of oil and gum is at most 8 wt% and the gum is at least 2 wt%",
     ["oil + gum <= 8 wt%", "gum >= 2 wt%"]),
    ("a total of oil and gum of at most 8 wt%, the gum being at least 2 wt%",
     ["oil + gum <= 8 wt%", "gum >= 2 wt%"]),
    ("the total of oil and gum is less than 8 wt% with the gum being more than 2 wt%",
     ["oil + gum < 8 wt%", "gum > 2 wt%"]),
    ("the sum of oil and gum is 2 to 8 wt% and the oil is not more than 5 wt%",
     ["(2 wt% <= oil + gum) AND (oil + gum <= 8 wt%)", "oil <= 5 wt%"]),
    ("a total content of oil and gum of at least 3 wt% and an oil content of at least 1 wt%",
     ["oil + gum >= 3 wt%", "oil >= 1 wt%"]),
    ("the total of oil and gum is 2 to 8 wt% and the oil is at least 1 wt%, based on the total composition",
     ["(2 wt% <= oil + gum) AND (oil + gum <= 8 wt%)", "oil >= 1 wt%"]),
    ("the sum of oil and gum is at most 8 wt% and at least 2 wt% of oil",
     ["oil + gum <= 8 wt%", "oil >= 2 wt%"]),
    ("the total of oil and gum is at most 8 wt% and at least 2 wt%",
     ["oil + gum <= 8 wt%", "oil + gum >= 2 wt%"]),
]  # fmt: skip


@pytest.mark.parametrize(("words", "asked"), OIL_AND_GUM)
def test_what_one_of_them_is_limited_to_is_no_limit_of_their_sum(words: str, asked: list[str]) -> None:
    assert sorted(symbols("oil, gum  share in wt%", "oil, gum", words)) == sorted(asked)


GAP_AND_RIM = [
    ("the gap is at most 6 mm and the gap plus the rim is at least 9 mm",
     ["gap + rim >= 9 mm", "gap <= 6 mm"]),
    ("the gap is at most 6 mm, the gap and the rim together being at most 9 mm",
     ["gap + rim <= 9 mm", "gap <= 6 mm"]),
    ("the rim is at most 6 mm and the sum of the gap and the rim is at most 9 mm",
     ["gap + rim <= 9 mm", "rim <= 6 mm"]),
    ("the gap is at most 6 mm and differs from the rim by at most 2 mm",
     ["ABS(gap - rim) <= 2 mm", "gap <= 6 mm"]),
    ("the rim is at most 6 mm and differs from the gap by at most 2 mm",
     ["ABS(rim - gap) <= 2 mm", "rim <= 6 mm"]),
    ("the gap is at most 6 mm and is at least 2 mm larger than the rim",
     ["gap - rim >= 2 mm", "gap <= 6 mm"]),
    ("the difference between the gap and the rim is at most 2 mm and the rim is at least 3 mm",
     ["ABS(gap - rim) <= 2 mm", "rim >= 3 mm"]),
    ("the gap and the rim differ by at most 2 mm and the rim is at least 3 mm",
     ["ABS(gap - rim) <= 2 mm", "rim >= 3 mm"]),
    ("the difference between the gap and the rim is at least 2 mm and at most 5 mm",
     ["ABS(gap - rim) >= 2 mm", "ABS(gap - rim) <= 5 mm"]),
    ("the gap minus the rim is at least 1 mm and the gap is at most 6 mm",
     ["gap - rim >= 1 mm", "gap <= 6 mm"]),
    ("the gap plus the rim is at least 4 mm and the rim is less than 6 mm",
     ["gap + rim >= 4 mm", "rim < 6 mm"]),
    ("the gap plus the rim is at least 4 mm and the gap minus the rim is at most 1 mm",
     ["gap + rim >= 4 mm", "gap - rim <= 1 mm"]),
    ("the sum of the gap and the rim is at most 8 mm and the gap is larger than the rim",
     ["gap + rim <= 8 mm", "gap > rim"]),
    ("the sum of the gap and the rim is at most 8 mm and at least 50 % of the gap",
     ["(gap + rim) / gap >= 50 %", "gap + rim <= 8 mm"]),
]  # fmt: skip


OF_THREE = [
    ("the total of oil and gum is at most 8 wt% and the wax is at least 2 wt%",
     ["oil + gum <= 8 wt%", "wax >= 2 wt%"]),
    ("the total of oil, gum and wax is at most 8 wt%, and the sum of oil and gum is at least 3 wt%",
     ["oil + gum + wax <= 8 wt%", "oil + gum >= 3 wt%"]),
    ("the oil is at least 20 wt%, and the total of the gum and the wax is at most 60 wt%",
     ["gum + wax <= 60 wt%", "oil >= 20 wt%"]),
    ("the oil is at least 20 wt%, and the total of the oil, the gum and the wax is at most 60 wt%",
     ["oil + gum + wax <= 60 wt%", "oil >= 20 wt%"]),
]  # fmt: skip


@pytest.mark.parametrize(("words", "asked"), OF_THREE)
def test_what_is_summed_is_what_the_half_names(words: str, asked: list[str]) -> None:
    found = symbols("oil, gum, wax  share in wt%", "oil, gum, wax", words)
    assert sorted(found) == sorted(asked)


@pytest.mark.parametrize(("words", "asked"), GAP_AND_RIM)
def test_nor_of_their_difference(words: str, asked: list[str]) -> None:
    assert sorted(symbols("gap, rim  length in mm", "gap, rim", words)) == sorted(asked)


OF_EACH = [
    (
        "bore, pin, slot  count",
        "bore, pin, slot",
        "at least one of a bore, a pin and a slot is present and {} at most three",
        "bore = 0, pin = 1, slot = 2",
        "bore = 0, pin = 2, slot = 2",
    ),
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "oil and gum each in an amount of at most 5 wt% and {} at most 8 wt%",
        "oil = 4 wt%, gum = 4 wt%",
        "oil = 5 wt%, gum = 5 wt%",
    ),
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "at least one of oil and gum is at least 2 wt% and {} at most 8 wt%",
        "oil = 1 wt%, gum = 7 wt%",
        "oil = 5 wt%, gum = 5 wt%",
    ),
    (
        "gap, rim  length in mm",
        "gap, rim",
        "either the gap or the rim is at least 3 mm and {} at most 9 mm",
        "gap = 2 mm, rim = 7 mm",
        "gap = 2 mm, rim = 8 mm",
    ),
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "at least one of oil and gum is at least 2 wt%, the gum is at most 5 wt% and {} at most 20 wt%",
        "oil = 9 wt%, gum = 1 wt%",
        "oil = 9 wt%, gum = 6 wt%",
    ),
    (
        "gap, rim  length in mm",
        "gap, rim",
        "neither the gap nor the rim is more than 5 mm and {} at most 9 mm",
        "gap = 4 mm, rim = 5 mm",
        "gap = 5 mm, rim = 5 mm",
    ),
]


@pytest.mark.parametrize("together", ["in total", "together"])
@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), OF_EACH)
def test_in_total_is_heard_behind_what_is_of_each(
    declared: str, left: str, words: str, within: str, outside: str, together: str
) -> None:
    assert not on_the_wrong_side(declared, left, words.format(together), within, outside)


def test_how_long_one_step_takes_is_no_limit_of_both_together() -> None:
    words = "soaking and rinsing together take at most 15 minutes and soaking takes at least 5 minutes"
    steps = "soaking, rinsing  step in min"
    starts = "start of soaking = 0 min, start of rinsing = 20 min"
    told = "{}, duration of soaking = {} min, duration of rinsing = {} min"
    within, outside = (told.format(starts, n, m) for n, m in ((5, 10), (4, 9)))
    assert not on_the_wrong_side(steps, "soaking, rinsing", words, within, outside)


def ribs(*heights: int) -> str:
    return ", ".join(
        [f"ribs = {len(heights)}", *(f"height of rib {n} = {h} mm" for n, h in enumerate(heights, 1))]
    )


CAPPED = [
    ("on average more than 3 mm but in no case more than 5 mm", ribs(3, 5), ribs(3, 6)),
    ("a mean height of at least 3 mm and never more than 5 mm", ribs(1, 5), ribs(1, 6)),
    ("on average more than 3 mm but always less than 5 mm", ribs(3, 4), ribs(2, 5)),
    ("on average more than 3 mm but not more than 5 mm", ribs(3, 6), ribs(5, 6)),
    ("on average not more than 3 mm and nowhere less than 1 mm", ribs(1, 5), ribs(0, 5)),
    ("an average height of 3 to 5 mm and a minimum height of 2 mm", ribs(2, 5), ribs(1, 6)),
    ("an average height of 3 to 5 mm, the minimum height being 2 mm", ribs(2, 5), ribs(1, 6)),
    ("an average height of 3 to 5 mm and a maximum height of 6 mm", ribs(2, 6), ribs(2, 7)),
    ("an average height of 3 to 5 mm and a maximum height of more than 6 mm", ribs(2, 7), ribs(2, 6)),
    (
        "an average height of 3 to 5 mm, a minimum height of 2 mm and a maximum height of 6 mm",
        ribs(2, 6),
        ribs(1, 6),
    ),
    ("a minimum height of 2 mm and an average height of 3 to 5 mm", ribs(2, 5), ribs(1, 6)),
    ("a median height of 3 to 4 mm and in no case less than 2 mm", ribs(2, 4), ribs(1, 5)),
    ("a total height of at least 6 mm but nowhere more than 4 mm", ribs(3, 4), ribs(2, 5)),
    ("a total height of at most 20 mm and a minimum height of 3 mm", ribs(3, 9), ribs(2, 9)),
    (
        "each rib has a height of at least 2 mm and the average height is at least 3 mm",
        ribs(2, 5),
        ribs(2, 3),
    ),
    ("none of the ribs has a height of more than 3 mm and in no case less than 1 mm", ribs(1, 3), ribs(0, 3)),
]


@pytest.mark.parametrize(("words", "within", "outside"), CAPPED)
def test_what_is_so_in_no_case_is_said_of_each_part(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(RIBS, "height of the ribs", words, within, outside)


COUNTED = [
    (
        "at least one of the ribs has a height of more than 3 mm but in no case more than 5 mm",
        ribs(2, 4),
        ribs(4, 6),
    ),
    ("at least half of the ribs are higher than 3 mm but nowhere higher than 5 mm", ribs(2, 4), ribs(4, 6)),
    ("most of the ribs are higher than 3 mm but never more than 5 mm", ribs(4, 5), ribs(4, 6)),
]


@pytest.mark.parametrize(("words", "within", "outside"), COUNTED)
def test_beside_some_of_them_it_is_told(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(RIBS, "height of the ribs", words, within, outside)
    text = f"{RIBS}\n\n1. A thing, {words}.\n   | height of the ribs : {words}\n"
    told = [d.message for d in read_sheet(Source("test", text))[1] if d.severity == "warning"]
    assert any("is read of every one of them" in message for message in told)


def soaked(start: int, end: int, lowest: int, highest: int, average: int) -> str:
    values = {"temperature at the start": start, "temperature at the end": end, "lowest temperature": lowest}
    values |= {"highest temperature": highest, "average temperature": average}
    return ", ".join([SOAKED, *(f"{name} of soaking = {value} degC" for name, value in values.items())])


OVER_TIME = [
    (
        "an average temperature of 50 °C but never above 60 °C",
        soaked(50, 50, 40, 60, 50),
        soaked(50, 50, 40, 61, 50),
    ),
    (
        "an average temperature of 50 °C and always below 60 °C",
        soaked(50, 50, 40, 59, 50),
        soaked(50, 50, 40, 60, 50),
    ),
    (
        "an average temperature of 50 °C but not above 60 °C",
        soaked(50, 50, 40, 61, 50),
        soaked(61, 61, 61, 61, 61),
    ),
    (
        "an average temperature of 50 °C and a maximum temperature of 70 °C",
        soaked(50, 50, 40, 70, 50),
        soaked(50, 50, 40, 71, 50),
    ),
    (
        "a mean temperature of at least 50 °C and a minimum temperature of 40 °C",
        soaked(50, 50, 40, 70, 50),
        soaked(50, 50, 39, 70, 50),
    ),
    (
        "a peak temperature of at least 60 °C but never below 40 °C",
        soaked(50, 50, 40, 60, 50),
        soaked(50, 50, 39, 60, 50),
    ),
    (
        "an initial temperature of 20 °C and never above 60 °C",
        soaked(20, 50, 20, 60, 50),
        soaked(20, 50, 20, 61, 50),
    ),
]


@pytest.mark.parametrize(("words", "within", "outside"), OVER_TIME)
def test_nor_is_it_said_of_a_mean_over_time(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(SOAKING, "temperature of soaking", words, within, outside)


OPEN = [
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "the total amount of oil and gum is 5 to 8 wt%, the oil amounting to 30 to 50 % thereof",
    ),
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "the total of oil and gum is at most 8 wt% or the gum is at least 2 wt%",
    ),
    ("oil, gum  share in wt%", "oil, gum", "oil and gum are each at most 5 wt% or in total at most 8 wt%"),
    (
        "gap, rim  length in mm",
        "gap, rim",
        "the gap plus the rim is at least 4 mm or the rim is at most 6 mm",
    ),
    (
        "gap, rim  length in mm",
        "gap, rim",
        "the gap and the rim differ by at most 2 mm and their sum is at least 3 mm",
    ),
    (RIBS, "height of the ribs", "on average more than 3 mm or never more than 5 mm"),
    (RIBS, "height of the ribs", "on average between 3 and 5 mm but in no case below 2 mm or above 7 mm"),
    (RIBS, "height of the ribs", "two of the ribs have a height of at least 3 mm and a total height of 9 mm"),
    (SOAKING, "temperature of soaking", "an average temperature of 50 °C or never above 60 °C"),
    (
        "temperature  temperature in degC",
        "temperature",
        "an average temperature of 50 °C but never above 60 °C",
    ),
]


@pytest.mark.parametrize(("declared", "left", "words"), OPEN)
def test_two_limits_of_different_things_are_read_so_or_refused(declared: str, left: str, words: str) -> None:
    (wrong,) = errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert wrong.message == "these words do not tell what each of the two limits is of"


WINDOWS = [
    ("3 to 5 and 7 to 9 mm", "345789"),
    ("2 to 3 mm and 4 to 5 mm", "2345"),
    ("3-5 mm, and 7-9 mm", "345789"),
    ("from 3 to 5 mm and from 7 to 9 mm", "345789"),
    ("between 3 and 5 mm and between 7 and 9 mm", "345789"),
    ("in the range of 3 to 5 mm and in the range of 7 to 9 mm", "345789"),
    # What overlaps, and what has one end, is asked at once.
    ("2 to 6 mm and 4 to 8 mm", "456"),
    ("3 to 5 mm and at most 4 mm", "34"),
    ("at least 3 mm and 5 to 9 mm", "56789"),
]


@pytest.mark.parametrize(("words", "within"), WINDOWS)
def test_of_two_windows_either_is_enough(words: str, within: str) -> None:
    found = (n for n in range(10) if met("gap", words, {"gap": Fraction(n, 1000)}))
    assert "".join(map(str, found)) == within


@pytest.mark.parametrize("words", ["outside 3 to 5 mm and 7 to 9 mm", "outside 3 to 5 mm or 7 to 9 mm"])
def test_a_window_that_is_denied_is_no_alternative(words: str) -> None:
    assert errors(text("gap", words)) or not met("gap", words, {"gap": Fraction(4, 1000)})


def test_windows_of_two_things_are_no_alternatives_of_each() -> None:
    assert errors(text("fat, oil", "3 to 5 wt% and 7 to 9 wt%"))


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("2 mm, more preferably 3 mm", True),
        ("2 mm, preferably 2 mm", False),
        ("2 mm, preferably 1 to 3 mm", False),
        ("2 to 5 mm, preferably 3 mm", False),
    ],
)
def test_another_value_that_is_preferred_is_told(words: str, told: bool) -> None:
    diagnostics = read_sheet(Source("test", text("gap", words)))[1]
    assert any("reaches beyond" in d.message for d in diagnostics) is told


TWO = "gap, rim  length in mm\noil, gum  share in wt%\nribs, holes, pins  count"


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("ribs, holes", "no more than one rib and one hole", "(ribs <= one and holes <= one)"),
        ("ribs, holes", "up to two ribs, and three holes", "(ribs <= two and holes <= three)"),
        ("ribs, holes", "a maximum of two ribs and three holes", "(ribs <= two and holes <= three)"),
        ("ribs, holes", "more than two ribs and three holes", "(ribs > two and holes > three)"),
        ("ribs, holes", "exactly two ribs and three holes", "(ribs = two and holes = three)"),
        ("ribs, holes", "only one rib and one hole", "(ribs = one and holes = one)"),
        ("ribs, holes, pins", "at most two ribs, three holes and four pins",
         "(ribs <= two and holes <= three and pins <= four)"),
        ("oil, gum", "less than 5 wt% of oil and 3 wt% of gum", "(oil < 5 wt% and gum < 3 wt%)"),
        ("oil, gum", "at least 5 wt% oil and 3 wt% gum", "(oil >= 5 wt% and gum >= 3 wt%)"),
        ("gap, ribs, holes", "the gap is at most 2 mm if there are at most two ribs and three holes",
         "if (ribs <= two and holes <= three) then gap <= 2 mm"),
        # What has a limit of its own keeps it, and none stands for what stands before.
        ("ribs, holes", "at most two ribs and exactly three holes", "(ribs <= two and holes = three)"),
        ("ribs, holes", "at most two ribs and three or more holes", "(ribs <= two and holes >= three)"),
        ("ribs, holes", "at most two ribs and 3 to 5 holes", "(ribs <= two and (3 <= holes and holes <= 5))"),
        ("ribs, holes", "two ribs and at most three holes", "(ribs >= two and holes <= three)"),
        ("ribs, holes, pins", "two ribs, at most three holes, and four pins",
         "(ribs >= two and holes <= three and pins >= four)"),
        ("ribs, holes, pins", "at most two ribs, at least three holes and four pins",
         "(ribs <= two and holes >= three and pins >= four)"),
        ("ribs, holes", "at most two ribs and two more holes than ribs",
         "(ribs <= two and holes = ribs + two)"),
        ("ribs, holes", "at least two ribs and a hole", "(ribs >= two and holes >= 1)"),
        ("oil, gum", "at most 5 wt% of oil and 2 to 3 wt% of gum",
         "(oil <= 5 wt% and (2 wt% <= gum and gum <= 3 wt%))"),
        ("oil, gum", "at most 5 wt% oil and no gum", "(oil <= 5 wt% and gum = 0)"),
    ],
)  # fmt: skip
def test_a_limit_that_stands_once_before_amounts_is_one_of_each(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(TWO, left, words) == said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            "at most two ribs and three holes",
            "'at most' is read of each amount behind it: of three holes, too",
        ),
        ("at most two ribs and at most three holes", ""),
        ("at least two ribs and three holes", ""),
    ],
)
def test_a_limit_that_is_read_of_each_amount_is_told(words: str, told: str) -> None:
    found = [
        d.message
        for d in read_sheet(Source("test", f"{TWO}\n\n1. A thing, {words}.\n   | ribs, holes : {words}\n"))[1]
    ]
    assert [m for m in found if "each amount" in m] == [told] * bool(told)


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("ribs, holes", "not two ribs and three holes"),
        ("ribs, holes", "optionally two ribs and three holes"),
        ("ribs, holes", "optionally at most two ribs and three holes"),
        ("ribs, holes", "no more than one rib and a hole"),
        ("ribs, holes", "at most two ribs and several holes"),
        ("ribs, holes", "two ribs and three holes at most"),
        ("ribs, holes", "two ribs and three holes or fewer"),
        ("oil, gum", "not 5 wt% of oil and 3 wt% of gum"),
        ("ribs, holes", "twice more ribs than holes"),
        ("ribs, holes", "at least thrice more ribs than holes"),
        ("ribs, holes", "twice fewer ribs than holes"),
        ("gap, rim", "the gap is 1/3 to 50 % of the rim"),
    ],
)
def test_what_may_be_said_of_one_or_of_all_is_refused(left: str, words: str) -> None:
    assert not presumed_in_symbols(TWO, left, words)


@pytest.mark.parametrize(
    ("words", "within", "outside"),
    [
        ("the gap is a third to a half smaller than the rim", 6, 9),
        ("the gap is one third to one half smaller than the rim", 6, 9),
        ("the gap is 1/3 to 1/2 smaller than the rim", 6, 9),
        ("the gap is a quarter to a third larger than the rim", 13, 11),
        ("the gap is between a quarter and a half larger than the rim", 13, 11),
        ("the gap is at least a quarter and at most a half smaller than the rim", 6, 9),
        ("the gap is more than a third but less than a half smaller than the rim", 6, 9),
        ("the gap is reduced by a quarter to a half compared to the rim", 6, 9),
        ("the gap is a third or a half smaller than the rim", 5, 9),
        ("the gap is a half to 60 % smaller than the rim", 4.5, 9),
        ("the gap is between a third and 50 % of the rim", 4, 1),
        ("the gap exceeds the rim by a third to 50 %", 14, 11),
        ("the gap is 1/2 to 1 % smaller than the rim", 9.92, 9),
        ("the gap is 20 % to a half smaller than the rim", 6, 9),
    ],
)
def test_fractions_in_front_are_of_the_other_quantity(words: str, within: float, outside: float) -> None:
    inside, other = (f"gap = {gap} mm, rim = 10 mm" for gap in (within, outside))
    assert on_the_wrong_side("gap, rim  length in mm", "gap, rim", words, inside, other) == []


@pytest.mark.parametrize(
    ("declared", "words", "said"),
    [
        (TWO, "the gap exceeds the rim by less than 2 mm or more than 5 mm", "gap - rim > 5 mm"),
        (TWO, "the gap exceeds the rim by more than 5 mm or by less than 2 mm", "gap - rim > 5 mm"),
        (TWO, "the gap is longer than the rim by at most 2 mm, or at least 5 mm", "gap - rim >= 5 mm"),
        (TWO, "the gap falls short of the rim by less than 2 mm or more than 5 mm", "rim - gap > 5 mm"),
        (TWO, "the gap is less than the rim by either less than 2 mm or more than 5 mm", "rim - gap > 5 mm"),
        (TWO, "the gap differs from the rim by less than 2 mm or more than 5 mm", "ABS(gap - rim) > 5 mm"),
        ("gap, rim  temperature in degC", "the gap exceeds the rim by less than 5 °C or more than 20 °C",
         "gap - rim > 20 degC(diff)"),
        ("gap, rim  time in min", "the gap is shorter than the rim by less than 2 min or more than 5 min",
         "rim - gap > 5 min"),
    ],
)  # fmt: skip
def test_either_of_two_limits_behind_by_is_one_of_the_difference(
    declared: str, words: str, said: str
) -> None:
    found = presumed_in_symbols(declared, "gap, rim", words)
    assert said in found
    assert "or gap >" not in found


@pytest.mark.parametrize(
    "words",
    [
        "the gap is larger than the rim if it is less than 5 mm",
        "the gap is larger than the rim if less than 5 mm",
        "the gap is less than the rim unless more than 5 mm",
        "the gap is larger than the rim provided that it is less than 5 mm",
        "the gap is larger than the rim as long as it does not exceed 5 mm",
        "the gap is larger than the rim, where at most 5 mm",
        "the gap is at least twice the rim in case it exceeds 5 mm",
        "the gap is at most 5 mm if it is at least 3 mm",
        "when the gap is above 3 mm, it is below 5 mm",
        "if the rim is less than 5 mm, it is at most 3 mm",
    ],
)
def test_which_of_two_an_it_stands_for_is_not_guessed(words: str) -> None:
    (wrong,) = errors(f"{TWO}\n\n1. A thing, {words}.\n   | gap, rim : {words}\n")
    assert wrong.message.startswith("nothing tells whether")


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("gap, rim", "the gap is larger than the rim if the rim is less than 5 mm",
         "if rim < 5 mm then gap > rim"),
        ("gap, rim", "the gap is larger than the rim if the gap is less than 5 mm",
         "if gap < 5 mm then gap > rim"),
        ("gap, rim", "if the gap exceeds the rim, it is less than 5 mm", "if gap > rim then gap < 5 mm"),
        ("gap, rim", "at most 5 mm if the rim exceeds 3 mm", "if rim > 3 mm then gap <= 5 mm"),
        ("gap, oil", "the gap is at most 5 mm if it is above 3 wt%", "if oil > 3 wt% then gap <= 5 mm"),
    ],
)  # fmt: skip
def test_an_it_that_can_be_one_thing_alone_is_read_of_it(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(TWO, left, words) == said


RIB = "rib  part, 1 to 6\n  height  length in mm"


@pytest.mark.parametrize(
    ("words", "is_read"),
    [
        ("a rib with a height of at most 5 mm and a rib with a height of at least 3 mm", False),
        ("a rib with a height of 3 mm or a rib with a height of 5 mm", False),
        ("ribs with a height of less than 3 mm and ribs with a height of more than 5 mm", False),
        ("a 2 mm rib and a 4 mm rib", False),
        ("ribs with a height of 2 mm and of 4 mm", False),
        ("a height of 2 mm and a height of 4 mm", False),
        ("a rib with a height of at least 3 mm and a height of at most 5 mm", True),
        ("each rib has a height of at least 2 mm and each rib has a height of at most 5 mm", True),
        ("the ribs have a height of at least 2 mm and the ribs have a height of at most 5 mm", True),
        ("some ribs have a height of 2 mm and some ribs have a height of 4 mm", True),
        ("no rib with a height of 3 mm and no rib with a height of 5 mm", True),
        ("two ribs having a height of at most 5 mm and two ribs having a height of at least 3 mm", True),
    ],
)
def test_one_part_of_each_sort_is_no_part_of_both(words: str, is_read: bool) -> None:
    assert bool(presumed_in_symbols(RIB, "height of the ribs", words)) is is_read


STEPS = "cooling, heating  step in min"


@pytest.mark.parametrize(
    ("declared", "left", "words", "labels"),
    [
        (TWO, "ribs, holes", "an equal number of ribs and holes", ["the same number"]),
        (TWO, "ribs, holes", "the same number of ribs as holes", ["the same number"]),
        (TWO, "ribs, holes", "as many ribs as holes", ["the same number", "at least as many"]),
        (RIB, "height of the ribs", "no two ribs have the same height", ["every two"]),
        (RIB, "height of the ribs", "the ribs have different heights",
         ["every two of them", "not all the same"]),
        (STEPS, "cooling, heating", "not more than 5 minutes after the end of the heating",
         ["by the clock", "over by then", "a deadline only"]),
        (STEPS, "cooling, heating", "within 5 minutes after the end of the heating",
         ["by the clock", "over by then"]),
        (TWO, "gap, rim", "the gap is increased by a factor of at least three relative to the rim",
         ["as much", "more by"]),
    ],
)  # fmt: skip
def test_what_words_leave_open_and_what_not(declared: str, left: str, words: str, labels: list[str]) -> None:
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert labels in [[r.label for r in group.readings] for group in made.groups]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("the gap exceeds the rim by 2 mm or more than 5 mm", "gap - rim > 5 mm"),
        ("the gap is not greater than the rim by less than 2 mm or more than 5 mm",
         "not (gap - rim < 2 mm or gap - rim > 5 mm)"),
        ("the gap exceeds the rim by more than 5 mm or 2 mm", ""),
        ("the gap exceeds the rim by 2 mm or exceeds the rim by more than 5 mm", ""),
        ("the gap exceeds the rim by less than 2 mm, 3 mm or more than 5 mm", ""),
    ],
)  # fmt: skip
def test_what_stands_behind_by_is_of_the_difference_or_nothing_is(words: str, said: str) -> None:
    found = presumed_in_symbols(TWO, "gap, rim", words)
    assert said in found
    assert bool(found) is bool(said)


def test_how_far_back_an_open_end_reaches_is_not_guessed() -> None:
    assert not presumed_in_symbols(TWO, "gap", "2 mm or 3 mm or more")
    assert presumed_in_symbols(TWO, "gap", "2 mm or at least 3 mm")


@pytest.mark.parametrize(
    "words",
    [
        "5 mm ± -1 mm",
        "5 mm plus or minus -1 mm",
        "5 mm with a tolerance of -0.5 mm",
        "within ± -1 mm of 5 mm",
        "within -1 mm of 5 mm",
    ],
)
def test_a_tolerance_below_zero_is_refused(words: str) -> None:
    text = f"gap  length in mm\n\n1. A frame with {words}.\n   | gap : {words}\n"
    made, found = read_sheet(Source("test", text))
    assert made is None or any(d.severity == "error" for d in found)
    assert "the numbers of this phrase do not go together" in [d.message for d in found]


@pytest.mark.parametrize("words", ["5 mm ± 0 mm", "5 mm ± 1 mm", "-5 mm ± 1 mm", "within 1 mm of -5 mm"])
def test_a_tolerance_of_a_number_below_zero_is_read(words: str) -> None:
    assert symbols("gap  length in mm, >= -9 mm", "gap", words)


def test_a_number_in_words_is_printed_as_one_where_something_is_worked_out_with_it() -> None:
    made = sheet(
        "gap, rim  length in mm\n\n1. A frame, two times thicker than the rim.\n"
        "   | gap : two times thicker than the rim\n"
    )
    told = {r.label: r.plain for r in made.groups[0].readings}
    assert told["as much exactly"] == "gap = 2 * rim"
    assert told["more by exactly"] == "gap = (2 + 1) * rim"
