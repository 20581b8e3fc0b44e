"""Words of which nothing tells what they are said of: of all of several things, or of which of them."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, joined_parts, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.shared_limits import behind_what_is_named, is_bare_limit, keep_apart
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.said_for_all import limit_for_some
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
Why = tuple[str, str] | None


def which_of_several(tokens: Tokens, subjects: Things, names: Names) -> Why:
    """Why no phrase may be laid over the words; None where they tell what they are said of."""
    said = [word_of(t) for t in tokens]
    return (
        limit_for_some(tokens, subjects)
        or _one_of_each_sort(tokens, said, subjects, names)
        or _of_one_in_a_hundred(tokens, subjects)
        or _twice_more(said)
        or _or_more_of_both(tokens, said)
    )


def _one_of_each_sort(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`a rib with a height of 3 mm and a rib with a height of 5 mm`: some are the one, some the other."""
    if len(subjects) != 1 or subjects[0].parts is None or subjects[0].parts.sort != "parts":
        return None
    field = names.field_of(subjects[0].text)
    runs = [name.lower().split() for part in (field[0] if field else ()) for name in (part.name, part.plural)]
    named = {i: run for i in range(len(said)) for run in runs if said[i : i + len(run)] == run}
    again = [at for at, run in named.items() if _is_any(tokens, said, at, run[-1])]
    several = len(again) > 1 and sum(t.number is not None for t in tokens) > 1
    one = len(named) < _TWO and _NO_TWO.isdisjoint(said)
    if not several and one and CONDITION_WORDS.isdisjoint(said):
        limits = (tuple(map(behind_what_is_named, sides)) for sides in joined_parts(tokens))
        several = any(all(map(is_bare_limit, two)) and keep_apart(*two) for two in limits)
    if not several:
        return None
    what = "nothing tells whether these limits are of the same one, or of one each"
    return what, f"Left of the colon stands {subjects[0].text}, which every one of them has."


_TWO = 2
_NO_TWO = frozenset(
    "not no never neither nor other except excluding between respectively than per them some none any".split()
)
_BEFORE_ANY = frozenset(", and or having with comprising has have including".split())


def _is_any(tokens: Tokens, said: list[str], at: int, last: str) -> bool:
    """`a rib`, `a 2 mm rib`, `ribs` without an article: some one, and not so many, or all?"""
    before = at - 1
    while before >= 0 and (number := tokens[before].number) is not None and number.unit is not None:
        before -= 1
    if before >= 0 and said[before] in ("a", "an"):
        return True
    return last.endswith("s") and (before < 0 or said[before] in _BEFORE_ANY)


def _of_one_in_a_hundred(tokens: Tokens, subjects: Things) -> Why:
    """`1/3 to 50 % of the rim`, `at least half or at most 20 % of it`: a third of it, or of one per cent?"""
    kinds = (s.bound.kind for s in subjects if isinstance(s.bound, Typed))
    if not all(kind is not None and kind.dimension for kind in kinds):
        return None  # of a share a half is one of the whole
    numbers = [t for t in with_fractions(tokens) if t.number]
    for first, last in pairwise(numbers):
        assert first.number is not None
        assert last.number is not None
        part = first.number.unit is None and "/" in first.number.text
        if not part or not is_bare_share(last) or first.number.value >= 1:
            continue
        if any(t.text == "±" and first.start < t.start < last.start for t in tokens):
            continue
        more = first.number.value * 100 < last.number.value
        if more if first.text[:1].isdigit() else not more and last.number.value > 1:
            what = f"'{first.text}' may be so much of one per cent, or of the whole"
            return what, f"Behind it stands {last.text}."
    return None


def _twice_more(said: list[str]) -> Why:
    """`twice more ribs than holes`: so many times as many, and no two of them more."""
    compared = listed("asides", "greater") | listed("asides", "lesser")
    for at, (times, more) in enumerate(pairwise(said)):
        if times in ("once", "twice", "thrice") and more in compared and "than" in said[at + 2 :]:
            what = f"'{times} {more}' may be {times} as many, or {times} as many on top of these"
            return what, "It is no number of things either."
    return None


def _or_more_of_both(tokens: Tokens, said: list[str]) -> Why:
    """`2 mm or 3 mm or more`: 2 mm alone, or what lies above it as well?"""
    for at in range(len(tokens) - 4):
        both = all(t.number and t.number.unit for t in (tokens[at], tokens[at + 2]))
        ored = said[at + 1] == said[at + 3] == "or"
        if both and ored and said[at + 4] in listed("asides", "greater") | listed("asides", "lesser"):
            what = f"nothing tells how far 'or {said[at + 4]}' reaches back"
            return what, f"It stands behind {tokens[at].text} or {tokens[at + 2].text}."
    return None
