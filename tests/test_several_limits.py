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
from tests.sheets import errors, on_the_wrong_side, sheet

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
    ("at most three pins and two lids", lambda pins, lids: pins <= 3 and lids >= 2),
    ("more than two pins and one lid", lambda pins, lids: pins > 2 and lids >= 1),
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
