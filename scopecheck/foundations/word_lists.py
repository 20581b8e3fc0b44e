"""The word lists of `data/words.json`, as they are looked up."""

from __future__ import annotations

from functools import cache
from typing import Any

from scopecheck.foundations.data_files import data_file

Runs = dict[str, tuple[tuple[str, ...], ...]]


@cache
def word_lists() -> dict[str, Any]:
    """The data file as read."""
    found: dict[str, Any] = data_file("words.json")
    return found


@cache
def words(table: str, name: str) -> frozenset[str]:
    """A list of single words."""
    return frozenset(word_lists()[table][name].split())


@cache
def runs(table: str, name: str) -> Runs:
    """A list of runs of words, by their first word, the longest first."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for text in word_lists()[table][name].split(","):
        run = tuple(text.split())
        found.setdefault(run[0], []).append(run)
    return {first: tuple(sorted(of, key=len, reverse=True)) for first, of in found.items()}


def runs_in_order(table: str, name: str) -> list[list[str]]:
    """A list of runs of words, as written."""
    return [run.split() for run in word_lists()[table][name].split(",")]


def run_at(texts: list[str], at: int, table: str, name: str) -> int:
    """How many words of the longest listed run stand at this place; 0 if none does."""
    for run in runs(table, name).get(texts[at], ()) if at < len(texts) else ():
        if tuple(texts[at : at + len(run)]) == run:
            return len(run)
    return 0


@cache
def unusual_forms(word: str) -> frozenset[str]:
    """The singular or the plural that a final s does not make: `teeth` of tooth, `battery` of batteries."""
    irregular: dict[str, str] = word_lists()["irregular"]
    found = {several for several, one in irregular.items() if one == word}
    found |= {irregular[word]} if word in irregular else set()
    if word.endswith("ies"):
        found.add(f"{word[:-3]}y")
    elif word.endswith("y") and word[-2:-1] not in (*"aeiou", ""):
        found.add(f"{word[:-1]}ies")
    return frozenset(found - {word})
