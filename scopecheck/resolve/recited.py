"""How many like parts the lines of a claim ask for: 'a plurality of screens', 'at least three ribs'."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.syntax import ClaimStatement, NameNode, Restatement
from scopecheck.vocabulary.names import Names


def recited_counts(names: Names, statement: ClaimStatement) -> Mapping[str, int]:
    """The least numbers that the words of a claim ask for of like parts, by what several are called."""
    called = {part.count: part.plural.lower() for part in names.parts if part.within is None}
    found: dict[str, int] = {}
    for line in statement.lines:
        if not isinstance(line, Restatement) or line.words is None or line.exact is not None:
            continue
        of = line.subject[0] if len(line.subject) == 1 else None
        declared = names.declared(of.name) if isinstance(of, NameNode) else None
        plural = called.get(declared.name) if declared is not None else None
        if plural and (least := _least(line.words.text.lower().split())):
            found[plural] = max(least, found.get(plural, 0))
    return found


def most_recited(each: Iterable[Mapping[str, int]]) -> Mapping[str, int]:
    """Of several claims, whose lines all hold, the greatest of the least numbers."""
    found: dict[str, int] = {}
    for counts in each:
        for plural, least in counts.items():
            found[plural] = max(least, found.get(plural, 0))
    return found


def _least(words: list[str]) -> int:
    """The least whole number that the words let by, if they tell it plainly by their first number; else 0.

    "Not more than four", "four or fewer", "divisible by four" tell none.
    """
    bare = [word.strip(",;") for word in words]
    told, several = (listed("parts", name) for name in ("reciting", "two_or_more"))
    at = next((i for i, word in enumerate(bare) if word.isdecimal() or word in NUMBER_WORDS), len(bare))
    before, after = set(bare[:at]), bare[at + 1 : at + 3]
    if at == len(bare):
        first = next((i for i, word in enumerate(bare) if word in several), at)
        return 2 if first < at and told.issuperset(bare[:first]) else 0
    if before - told - several or after in (["or", "fewer"], ["or", "less"]) or _grouped(after):
        return 0
    number = int(bare[at]) if bare[at].isdecimal() else NUMBER_WORDS[bare[at]]
    if "than" not in before:
        return number
    if before & {"not", "no"}:
        return 0 if "more" in before else number
    return number + 1 if "more" in before else 0


def _grouped(after: list[str]) -> bool:
    return not listed("parts", "in_groups").isdisjoint(after[:1])
