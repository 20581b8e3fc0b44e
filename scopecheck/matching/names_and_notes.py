"""The words of names and of notes, and which words beside them only describe or say which thing it is."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.word_lists import unusual_forms, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.phrase_finding import Job
from scopecheck.vocabulary.parts import plural_of

ENDING = frozenset(("", *"having has have with of carrying carries lasting being is are each".split()))
MOST_PASSED = 3
"""More words in a row than these are no adjectives."""
Tokens = tuple[Token, ...]
ARTICLES = ("the", "a", "an")
MOST_OF_A_STEM = 5


def word_of_name(job: Job) -> str:
    return job.subjects[0].text.lower()


def is_short(name: str) -> bool:
    return (
        len(name) <= MOST_OF_A_SHORT_NAME
        and " " not in name
        and any(c.isupper() or c.isdigit() for c in name)
    )


def is_description(token: Token) -> bool:
    """May the word stand in what a short name is short for? No limit, no number, nothing denied."""
    word = word_of(token)
    ends = word.endswith("est") or word in listed("limits", "inside") | listed("short", "ends")
    return (
        token.sort == "word"
        and not ends
        and word not in NUMBER_WORDS
        and word not in listed("names", "never")
        and word not in listed("nouns", "determiners")
        and word not in FILLERS
        and word not in ENDING
    )


MOST_OF_A_SHORT_NAME = 5


def of_notes(job: Job, alone: bool = False) -> set[str]:
    """The words of the notes of what stands left of the colon; `alone`: of a name it begins with."""
    found = set[str]()
    for subject in job.subjects:
        note = job.place.names.note_of(subject.text).lower()
        words = [word.strip(",;()") for word in note.split()]
        ends = (i for i, word in enumerate(words) if word in listed("nouns", "stops"))
        found |= set(forms_of(" ".join(words[: next(ends, None)] if alone else words)))
    return found


NO_LIMITS = frozenset("of the a an in and but or from within on to".split())


def says_which(token: Token, never: set[str]) -> bool:
    word = word_of(token)
    if token.sort != "word" or len(word) < 4 or word in never or word in FILLERS | ENDING:
        return False
    if (
        word in NUMBER_WORDS
        or word.endswith(("est", "fold"))
        or word in listed("asides", "never_past")
        or (word.startswith(("non-", "un")) and word not in listed("names", "describing"))
        or word in word_lists()["fractions"]
    ):
        return False
    ordinal = word in listed("mention", "ordinals") | listed("mention", "new")
    return not (ordinal or word in listed("nouns", "stops"))


def forms_of(name: str) -> Iterator[str]:
    """The words of a name, each in the singular and the plural."""
    for word in name.lower().split():
        if len(word) > 2 and word not in FILLERS | listed("nouns", "stops"):
            yield from (word, plural_of(word), word.removesuffix("s"), word.removesuffix("es"))
            yield from unusual_forms(word)
