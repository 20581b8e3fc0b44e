"""What the worked examples share: source and tag of each, and what the tool answers about one case."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeVar

from scopecheck.answers.about import RangeLies
from scopecheck.answers.findings import Answers, Finding, Quantifier
from scopecheck.answers.questions import ask_all
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

Tag = Literal["read", "read (secondary)", "memory", "common practice"]
Test = TypeVar("Test", bound=Callable[..., None])

CASE_QUESTIONS = ("outside met", "document met")


@dataclass(frozen=True)
class Worked:
    """One worked example: its number in our list, the source as cited, how it is known, and who checks it."""

    number: str
    source: str
    tag: Tag
    module: str


EXAMPLES: list[Worked] = []


def worked(number: str, source: str, tag: Tag) -> Callable[[Test], Test]:
    """Says beside a check whose numbers and answer it holds, and how they are known."""

    def note(test: Test) -> Test:
        EXAMPLES.append(Worked(number, source, tag, test.__module__))
        return test

    return note


def sheet(text: str) -> Sheet:
    """The sheet that the text means; it must have no error."""
    made, diagnostics = read_sheet(Source("example", text))
    assert made is not None, [(d.message, d.span.line) for d in diagnostics]
    return made


def answers(text: str) -> Answers:
    """All that the tool has to say about the sheet; none of it may be left undecided."""
    asked = ask_all(sheet(text), details=True)
    assert all(f.outcome != "undecided" for f in asked.findings)
    return asked


def found(text: str, question: str, claim: int | None = None) -> list[Finding]:
    """The findings of one question, in the order of stakes."""
    return [f for f in answers(text).findings if f.question == question and claim in (None, f.claim)]


def met(text: str, case: str) -> Quantifier:
    """Does the case's thing meet what it is held against: on every construction, the base, some, or none?"""
    asked = answers(text)
    shown = [f for f in asked.findings if f.question in CASE_QUESTIONS and f.case == case]
    looked = [x for x in asked.looked if x.question in CASE_QUESTIONS and x.case == case]
    # A thing met on some reading is told once for each way of re-reading.
    (quantifier,) = {f.quantifier for f in shown} | ({"none"} if looked else set())
    assert all(f.outcome == "shown" and f.witness is not None for f in shown)
    return quantifier


def relation(text: str, case: str) -> str:
    """How a document's stated range lies against the claim, in the base."""
    told = [f for f in answers(text).findings if f.question == "document range" and f.case == case]
    (finding,) = [f for f in told if f.quantifier != "some"]
    assert isinstance(finding.about, RangeLies)
    return finding.about.relation


def pinned(text: str, phrase: str, reading: str) -> str:
    """The same sheet with one phrase read in one way throughout."""
    return f'{text}\nread "{phrase}" as "{reading}"  "the way the source reads it"\n'


def labels(text: str, claim_word: str) -> set[str]:
    """The readings that the tool tries for the phrase whose wording holds a word."""
    made = sheet(text)
    (group,) = [g for g in made.groups if claim_word in g.wording]
    return {r.label for r in group.readings}
