"""How many like parts the lines of a claim ask for: 'a plurality of screens', 'at least three ribs'."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.syntax import ClaimStatement, NameNode, Restatement
from scopecheck.resolve.names import Names


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
    """The least whole number that the words let by, if it is told by their first number; else 0."""
    for at, word in enumerate(words):
        bare = word.strip(",;")
        if bare in listed("parts", "two_or_more"):
            return 2
        number = int(bare) if bare.isdecimal() else NUMBER_WORDS.get(bare)
        if number is None:
            continue
        before = set(words[max(0, at - 3) : at])
        negated = not before.isdisjoint(("not", "no"))
        if "than" in before and (negated or "more" in before or "greater" in before):
            # 'More than two' asks for three, 'not less than two' for two, 'not more than two' for none.
            if negated:
                return 0 if before & {"more", "greater"} else number
            return number + 1
        return 0 if before & listed("parts", "at_most") else number
    return 0
