"""Cards of phrases: the things on which the readings disagree are looked for anew, and each is true."""

from __future__ import annotations

import json
import re
import tomllib
from fractions import Fraction
from itertools import combinations
from pathlib import Path

import pytest
from typer.testing import CliRunner

import scopecheck
from scopecheck.cli import app
from scopecheck.commands.phrase_examples import told_apart
from scopecheck.commands.phrase_search import (
    entries_for,
    is_of_a_sort,
    mentioning,
    topics,
    words_of_all,
)
from scopecheck.core.construction import Construction, base_construction, names_in
from scopecheck.core.formula import Read
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import blocks
from scopecheck.language.pieces import Desk, Page
from scopecheck.language.statements_words import phrase
from scopecheck.report import occasions, separating
from scopecheck.report.separating import Example, Shown, shown_apart
from scopecheck.solving.constraints import Budget
from scopecheck.solving.evaluate import evaluate
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry, entry

ENTRIES = entries()
BY_PLACE = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in ENTRIES]


def own(text: str) -> Entry:
    desk = Desk(Page(Source("house", text)))
    (block,), _ = blocks(desk.page)
    return entry(phrase(desk, block))


def named(title: str) -> Entry:
    return next(e for e in ENTRIES if e.title == title)


def constructions(example: Example) -> tuple[Construction, Construction]:
    """The readings as presumed, and those with the stretch at which the thing changes sides."""
    base = base_construction(example.sheet)
    values = dict(base.parameters)
    for point in example.breaks:
        beyond = Fraction(0) if point.end.closed else Fraction(1, 10**9) * (1 if point.upward else -1)
        values[point.parameter] = point.end.value + beyond
    return base, Construction(base.readings, tuple(values.items()))


def holds(example: Example) -> bool:
    """By the exact meaning: is the thing met on the one reading and not on the other?"""
    formula = example.sheet.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    labels = [r.label for r in example.group.readings]
    article = dict(example.thing)
    # What no reading speaks of, or means nothing in this thing, is not told.
    assert names_in(formula) - example.sheet.absent(article) <= article.keys()
    article = {d.name: article.get(d.name, Fraction(0)) for d in example.sheet.declarations}
    base, stretched = constructions(example)
    own = evaluate(formula.options[labels.index(example.reading)], article, stretched) is True
    other = evaluate(formula.options[labels.index(example.against)], article, base) is True
    return own == example.wider and other != example.wider


@pytest.mark.parametrize("asked", BY_PLACE)
def test_every_two_readings_are_told_apart_by_a_thing_that_is_true(asked: Entry) -> None:
    """Every two that can be held against each other: those that stand together on some sheet."""
    shown = shown_apart(asked)
    wanted = {r.label for r in asked.readings if r.formula is not None}
    assert shown.alone == (len(wanted) < 2)
    assert not shown.untried
    assert {(e.outcome, e.reading, e.against) for e in shown.examples if e.outcome != "parts"} == set()
    assert all(holds(e) for e in shown.examples)
    told = {frozenset((e.reading, e.against)) for e in shown.examples}
    assert told >= together(asked)
    assert shown.alone or {x for pair in told for x in pair} | set(shown.apart) == wanted


def together(asked: Entry) -> set[frozenset[str]]:
    """The pairs of readings that some sheet has both of."""
    found: set[frozenset[str]] = set()
    for occasion in occasions.occasions(asked):
        sheet = occasions.read(occasion.text)
        at = occasions.phrase_in(sheet, asked) if sheet else None
        labels = [r.label for r in at[0].readings] if at else []
        found |= {frozenset(pair) for pair in combinations(labels, 2)}
    return found


# ---- what a card says


def lines(title: str) -> list[str]:
    return [line for _, found in told_apart(named(title)).parts for line in found]


def test_an_end_tells_whether_ends_are_in() -> None:
    assert (
        'x = 20 mm: met when read as "both ends in" or as "rounds to the ends" or as "as many figures as '
        'the ends"; not met when read as "top end out"'
    ) in lines("between (L) and (U)")


def test_a_free_number_is_told_by_its_break_point() -> None:
    assert (
        'x = 9 mm: met when read as "context tolerance" (once "about 10 mm" stretches by 10 % or more) or as '
        '"fixed share"; not met when read as "rounding only" or as "context tolerance" (not stretched at '
        'all) or as "exactly"'
    ) in lines("about (N)")


def test_a_term_of_degree_shows_the_most_different_things_that_meet_it() -> None:
    assert (
        'x = 0 mm and x = 1000000 mm both meet "standard of the field", each for some value of the number it '
        "leaves open, and there is no end" in lines("thin")
    )


def test_a_list_is_told_by_a_set() -> None:
    line, *_ = lines("either (list M or)")
    assert line.startswith('x = copper and zinc: met when read as "inclusive"')
    assert 'not met when read as "exclusive"' in line


TWINS = """\
phrase "twinned at (L)"
  reading "one way" : x >= L
  reading "the same in other signs" : NOT x < L
  reading "another way" : x > L
"""


def test_readings_that_nothing_parts_are_said_to_be_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    twins = own(TWINS)
    monkeypatch.setattr(separating, "read", lambda text, _: occasions.read(f"{text}\n{TWINS}"))
    one, other, third = shown_apart(twins).examples
    assert {one.reading, one.against} == {"the same in other signs", "one way"}
    assert (one.outcome, one.thing) == ("alike", ())
    assert (other.reading, other.outcome, other.wider) == ("another way", "parts", False)
    assert third.outcome == "parts"


def test_a_phrase_that_no_sheet_reads_says_so() -> None:
    shown = shown_apart(own(TWINS))
    assert shown.examples == ()
    assert shown.untried == ("one way", "the same in other signs", "another way")


def test_what_was_not_decided_is_said() -> None:
    shown = shown_apart(named("between (L) and (U)"), Budget(work=1, wall=0))
    assert {e.outcome for e in shown.examples} == {"undecided"}
    assert len(shown.examples) == 18
    assert all(e.reason for e in shown.examples)


def test_nothing_is_stored_between_two_cards() -> None:
    def told(shown: Shown) -> list[object]:
        return [(e.reading, e.against, e.thing, e.wider) for e in shown.examples]

    one, other = shown_apart(named("about (N)")), shown_apart(named("about (N)"))
    assert told(one) == told(other)
    assert one.examples[0].sheet is not other.examples[0].sheet


def run(*arguments: str) -> str:
    result = CliRunner().invoke(app, ["phrases", *arguments])
    assert result.exit_code == 0, result.output
    return result.stdout


def test_a_card_as_text_has_the_part_on_examples_before_the_sources() -> None:
    card = run("between (L) and (U)")
    assert card.count("both ends out") == 4
    assert card.index("Readings") < card.index("Where they part") < card.index("  source: ")
    assert '  "between 10 mm and 20 mm", said of x (length in mm)\n    - x = 10 mm: met' in card


def test_a_card_as_markdown_has_nested_points() -> None:
    card = run("thin", "-f", "markdown")
    assert '### Where they part\n\n- "thin", said of x (length in mm)\n  - x = 1 mm: met' in card
    assert re.search(r"\n- \*asked of the drafter:\* ", card)


def test_a_card_as_json_holds_things_and_break_points() -> None:
    data = json.loads(run("about N", "-f", "json"))
    told = next(p for p in data["phrases"] if p["wordings"][0] == "about (N)")["told_apart"]
    first = told["examples"][0]
    assert first["thing"] == {"x": "9 mm"}
    assert first["met_on"] == "context tolerance"
    assert first["break_points"] == ['once "about 10 mm" stretches by 10 % or more']
    second = told["examples"][1]
    assert (second["met_on"], second["not_met_on"]) == ("context tolerance", "rounding only")
    thin = json.loads(run("thin", "-f", "json"))["phrases"][0]["told_apart"]["most_different"]
    assert thin[0]["things"] == [{"x": "0 mm"}, {"x": "1000000 mm"}]


def test_the_list_holds_no_examples() -> None:
    assert "told_apart" not in run("-f", "json")


# ---- words of the trade


def ids(*asked: str) -> set[str]:
    return {e.id for e in entries_for(asked)}


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("percent", {"D1", "D2", "D6", "D8"}),
        ("Markush", {"G2"}),
        ("Markush groups", {"G2"}),
        ("threshold", {"A3", "A4", "A5", "A6", "B6"}),
        ("rounding", {"C1", "C2", "C3", "C4"}),
        ("dosage", {"B7", "J1"}),
        ("open-ended", {"A3", "A4", "A5", "A6"}),
        ("indefinite article", {"F1"}),
    ],
)
def test_a_word_of_the_trade_finds_what_it_is_about(asked: str, found: set[str]) -> None:
    assert ids(*asked.split()) == found


def test_every_topic_names_phrases_that_exist_and_those_with_the_word_itself() -> None:
    """But for those that settle something, which nobody looks for by such a word."""
    known = {e.id for e in ENTRIES}
    for topic, named in topics().items():
        if is_of_a_sort([topic]):
            continue
        assert set(named) <= known, topic
        assert ids(*topic.split()) == set(named), topic
        assert topic == topic.lower()
        having = {e.id for e in ENTRIES if e.group != "L" and topic in words_of_all([e])}
        assert having <= set(named), topic


@pytest.mark.parametrize(
    ("asked", "kinds"),
    [
        ("parts", {"parts"}),
        ("steps", {"steps", "sequences", "moments"}),
        ("kit", {"assemblies", "closed counts"}),
        ("compositions", {"compositions", "classes"}),
    ],
)
def test_a_sort_of_thing_finds_the_phrases_on_it(asked: str, kinds: set[str]) -> None:
    assert is_of_a_sort([asked])
    assert set(entries_for([asked])) == {e for e in ENTRIES if kinds & set(e.only_for)}
    assert not is_of_a_sort(["percent"])


def test_a_word_of_a_title_a_label_or_a_topic_finds_the_phrases_that_say_it() -> None:
    assert {e.id for e in mentioning(["converted"])} == {"C4"}
    assert {e.id for e in mentioning(["beyond", "tolerance"])} == {"A6", "B1", "F7", "H9"}
    assert not mentioning(["zzz"])
    assert "C4  at least (N) <(> (M) <)>" in run("converted")


def test_of_two_readings_presumed_alike_the_card_knows_no_presumption() -> None:
    said = " ".join(run("between").split())
    alike = '"both ends out": L < x < U standing: one of two presumed in US examination and US court;'
    assert alike in said
    assert '"top end out": L <= x < U standing: arguable in every profile' in said
    assert "standing: presumed in US examination and US court" in " ".join(run("about").split())


def test_no_topic_stands_twice() -> None:
    rows = tomllib.loads((Path(scopecheck.__file__).parent / "data" / "trade_words.toml").read_text("utf-8"))
    every = [word for words in rows for word in words.split(", ")]
    assert sorted(every) == sorted(set(every))


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("less than", "less than (U)"),
        ("less than 60 um", "less than (U)"),
        ("between", "between (L) and (U)"),
        ("consisting of", "consisting of"),
    ],
)
def test_the_phrase_whose_wording_is_closest_to_the_words_comes_first(asked: str, first: str) -> None:
    assert entries_for([asked])[0].title == first
