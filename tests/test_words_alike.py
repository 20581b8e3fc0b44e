"""Words alike whose numbers are written more or less finely are one phrase."""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.core.model import Sheet
from scopecheck.resolve.joined import joined
from tests.sheets import errors, sheet

DECLARED = "first, second, third  temperature in °C\npins  count\n"


def lines(*limits: tuple[str, str], more: str = "", declared: str = DECLARED) -> Sheet:
    said = ", ".join(f"{name} {words}" for name, words in limits)
    restated = "".join(f"   | {name} : {words}\n" for name, words in limits)
    return sheet(f"{declared}\n1. A process having {said}.\n{restated}\n{more}")


@pytest.mark.parametrize("number", ["43", "40", "10", "100"])
def test_zeros_at_the_end_and_powers_of_ten_part_no_words(number: str) -> None:
    """With 40 there is a reading by its zeros, with 10 one by its figures as well."""
    near = f"must stay out  first  second\n  near  {number}.4 °C  58.4 °C\n"
    about = lines(("first", f"at most {number} °C"), ("second", "at most 58 °C"), more=near)
    assert len(about.groups) == 1
    assert [place.where for place in about.groups[0].places] == ["1a", "1b"]
    met = [f for f in ask_all(about).findings if f.question == "outside met"]
    ((found, others),) = ((f.rereads, f.others) for f in met)
    assert [about.groups[r.group].readings[r.reading].label for r in found] == ["rounds to the limit"]
    assert not others
    assert not [f for f in ask_all(about).findings if f.question == "pair"]


def test_who_reads_one_by_its_figures_rounds_the_other() -> None:
    about = lines(("first", "at least 10 °C"), ("second", "at least 20 °C"), ("third", "at least 10 °C"))
    (group,) = about.groups
    figures = next(i for i, r in enumerate(group.readings) if ("rounding", "figures") in r.axes)
    rounded = next(i for i, r in enumerate(group.readings) if ("rounding", "half away") in r.axes)
    options = [x.formula.options for x in about.claims[0].limitations]  # type: ignore[union-attr]
    assert [own[figures] is own[rounded] for own in options] == [False, True, False]
    assert all(
        len(own) == len(group.readings) == len(p.meanings)
        for own, p in zip(options, group.places, strict=True)
    )
    assert len({place.meanings[figures] for place in group.places}) == 3


def test_counts_and_measured_numbers_are_apart() -> None:
    about = lines(("first", "at least 10 °C"), ("pins", "at least 10"))
    assert [[place.where for place in group.places] for group in about.groups] == [["1a"], ["1b"]]


def test_apart_keeps_them_apart() -> None:
    limits = ("first", "at most 40 °C"), ("second", "at most 58 °C")
    assert len(lines(*limits, declared=f'apart "at most"\n{DECLARED}').groups) == 2


def test_stretches_of_words_put_together_are_their_own() -> None:
    """The free numbers of both places are found by new keys, each with its own number."""
    limits = ("first", "less than 10 °C"), ("second", "less than 20 °C"), ("third", "about 7 °C")
    about = lines(*limits)
    grouped = {p.group for p in about.parameters}
    assert grouped <= {g.index for g in about.groups}
    assert all(about.groups[p.group].readings[p.reading] for p in about.parameters)
    assert len({p.key for p in about.parameters}) == len(about.parameters)
    assert ask_all(about).findings


def test_a_pin_settles_them_together() -> None:
    text = DECLARED + 'read "at most" as "includes none, end in"\n'
    about = lines(("first", "at most 40 °C"), ("second", "at most 58 °C"), declared=text)
    assert [len(g.readings) for g in about.groups] == [1]
    assert not errors(f"{text}\n1. A process having at most 40 °C.\n   | first : at most 40 °C\n")


def test_an_amendment_reads_them_as_one() -> None:
    before = lines(("first", "at most 40 °C"), ("second", "at most 58 °C"))
    after = lines(("first", "at most 43 °C"), ("second", "at most 58 °C"))
    both, wrong = joined(before, after)
    assert both is not None
    assert not [d for d in wrong if d.severity == "error"]
    groups = {x.groups for side in (both.before, both.after) for x in side.claims[0].limitations}
    assert groups == {(0,)}
