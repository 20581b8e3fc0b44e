"""The sentences: complete, filled in without a gap, and free of words that only a practitioner may say."""

from __future__ import annotations

import string
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import scopecheck
from scopecheck.answers.findings import QUESTIONS
from scopecheck.report import wording
from scopecheck.report.wording import (
    GLUE,
    about_lines,
    claims_text,
    counted,
    flat,
    has_sentence,
    listed,
    quoted,
    sentence,
    sentences,
)
from tests.forbidden_words import forbidden_in
from tests.sentences_used import Asked

GIVEN_TO_QUESTIONS = frozenset(
    "thing label claim case conflict meant met_when_read statuses change relation end expression"
    " sides conflicts beside own way scope kept silence other claims count held line things ends"
    " unsaid keep narrowed members alone freed together fixed first second of usually documents listed ruled"
    " read inside unstated close".split()
)


def every_sentence() -> Iterator[tuple[str, str]]:
    """Each sentence of the data file with its dotted place, in file order."""
    return _walk("", sentences())


def _walk(place: str, entry: Any) -> Iterator[tuple[str, str]]:
    if isinstance(entry, str):
        yield place, entry
    elif isinstance(entry, dict):
        for key, value in entry.items():
            yield from _walk(f"{place}.{key}".lstrip("."), value)
    else:
        for index, value in enumerate(entry):
            yield from _walk(f"{place}.{index}", value)


def placeholders(text: str) -> frozenset[str]:
    """The names in braces that a sentence asks for."""
    return frozenset(name for _, name, _, _ in string.Formatter().parse(text) if name)


@pytest.mark.parametrize("question", QUESTIONS)
@pytest.mark.parametrize("form", ["statement", "brief", "looked"])
def test_every_question_has_its_sentences(question: str, form: str) -> None:
    assert has_sentence("question", question, form)
    asked = placeholders(sentences()["question"][question][form])
    assert asked <= (GIVEN_TO_QUESTIONS if form != "looked" else frozenset())


def test_no_sentence_for_a_question_that_does_not_exist() -> None:
    assert set(sentences()["question"]) == set(QUESTIONS)


def test_no_sentence_says_what_only_a_practitioner_may_say() -> None:
    found = {place: words for place, text in every_sentence() if (words := forbidden_in(text))}
    assert found == {}


@pytest.fixture(scope="module")
def asked() -> Asked:
    return Asked(Path(scopecheck.__file__).parent)


def test_every_sentence_is_used_somewhere(asked: Asked) -> None:
    apart = tuple(f"about.lines.{i}" for i in range(len(about_lines())))
    assert [place for place, _ in every_sentence() if place not in apart and not asked.has(place)] == []


@pytest.mark.parametrize(
    "place",
    [
        "margin.thing", "step.throughout", "item.said", "drill.grade.thing", "noun.thing.0",
        "relation.levity", "question.idle.statement_levity", "asked_of.levity", "bearer.EPO.levity_usual",
    ],
)  # fmt: skip
def test_a_sentence_that_nothing_asks_for_is_found(asked: Asked, place: str) -> None:
    assert not asked.has(place)


def test_a_sentence_asks_for_all_its_values() -> None:
    with pytest.raises(KeyError):
        sentence("item", "held_in", count=3)
    with pytest.raises(KeyError):
        sentence("item", "no such sentence")


def test_what_the_report_says_about_itself() -> None:
    told = " ".join(about_lines())
    for part in (
        "as good as its author",
        "never lists every reading",
        "registered practitioner",
        "law of the",
    ):
        assert part in told


# ---- the checker itself


@pytest.mark.parametrize(
    "text",
    [
        "The claim is new.",
        "This is obvious over D1.",
        "The claim covers the sieve.",
        "The reading is safer.",
        "No problems found.",
        "That is prior art.",
        "The limitation is indefinite.",
        "It is proved that nothing meets it.",
        "This is likely to be met.",
        "z3 returned unsat",
        'The word "wrap" is clear.',
        "A proper\nreading.",
    ],
)
def test_forbidden_words_are_found(text: str) -> None:
    assert forbidden_in(text, ["a sheet about wrap"])


@pytest.mark.parametrize(
    ("text", "sheet"),
    [
        ('1a "a new clear coat" is met', ["a new clear coat of paint"]),
        ('1a "a new\n  clear coat" is met', ["1. A can, having a new clear coat."]),
        ("clear height 5 mm instead of 4 mm", ["clear height"]),
        ("In re Obvious, 919 F.2d 1575 (Fed. Cir. 1990); read", []),
        ("source: MPEP 2131 anticipation by prior art; read", []),
        ("It is proved, as restated, that nothing meets it.", []),
        ("renewed, nuclear, clearance, properties, curvature", []),
    ],
)
def test_words_of_the_sheet_and_citations_may_say_anything(text: str, sheet: list[str]) -> None:
    assert forbidden_in(text, sheet) == []


def test_a_forbidden_word_is_not_excused_by_a_sheet_that_uses_it_elsewhere() -> None:
    assert forbidden_in("The claim is new.", ["new"])
    assert forbidden_in('"new" it is, and new it stays', ["new"])


# ---- small parts


def test_lists_counts_and_quotes() -> None:
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b"], "or") == "a or b"
    assert counted(1, "claim") == f"1{GLUE}claim"
    assert counted(0, "claim") == f"0{GLUE}claims"
    assert flat("  two \n  lines\x1b[31m\t") == "two lines[31m"
    assert quoted("a\n b") == '"a b"'


@pytest.mark.parametrize(
    ("numbers", "text"),
    [
        ([2], "claim 2"),
        ([3, 2], "claims 2 and 3"),
        ([1, 2, 3, 4, 7], "claims 1 to 4 and 7"),
        ([1, 1, 5], "claims 1 and 5"),
    ],
)
def test_claims_are_drawn_together(numbers: list[int], text: str) -> None:
    assert claims_text(numbers) == text


def test_wording_keeps_the_data_file_as_it_is() -> None:
    assert wording.sentences() is wording.sentences()
