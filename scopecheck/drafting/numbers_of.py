"""Words beside a limit that say what is counted, and what a ratio is of."""

from __future__ import annotations

from scopecheck.drafting.beside import (
    MOST_COUNTED,
    name_of,
    noun_from,
    noun_start,
    nounish,
    texts_of,
    uncounted,
    whole_start,
    width_of,
)
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.text.stream import plural, stem


def ratio_of(texts: list[str], at: int) -> int:
    """Where what a ratio is of begins, behind 'ratio of', 'ratio by weight of'; 0 if no ratio stands here."""
    if texts[at] not in ("ratio", "quotient"):
        return 0
    if texts[at + 1 : at + 2] == ["by"]:
        at += 2
    return at + 2 if texts[at + 1 : at + 2] in (["of"], ["between"]) else 0


def of_two(text: ClaimText, at: int) -> tuple[int, int]:
    """Where the two nouns of 'a water to cement ratio is' begin, that ends here; (0, 0) where none does."""
    texts = text.texts
    while at > 0 and texts[at - 1] in words("measures", "between"):
        at -= 1
    if at < 4 or texts[at - 1] != "ratio":
        return 0, 0
    second = whole_start(text, noun_start(texts, at - 1), at - 1)
    joint = second - (texts[second - 1] in ("the", "said"))
    if joint < 2 or texts[joint - 1] != "to":
        return 0, 0
    first = whole_start(text, noun_start(texts, joint - 1), joint - 1)
    return (first, second) if first < joint - 1 else (0, 0)


def ratio_before(text: ClaimText, start: int, end: int) -> str:
    """`ratio of water to cement` before a limit, as `water cement ratio`."""
    texts = texts_of(text)
    before = texts[max(0, start - 8) : start]
    if (
        "ratio" not in before
        or texts[end - 1] == "ratio"
        or (texts[start - 1] != "to" and "to" not in before[-2:])
    ):
        return ""
    at = start - len(before) + len(before) - 1 - before[::-1].index("ratio")
    between = [w for w in texts[at + 1 : end] if w not in words("nouns", "stops") and w[0].isalpha()]
    return " ".join([*between[:4], "ratio"]) if 2 <= len(between) <= 4 else ""


def each_before(text: ClaimText, at: int) -> str:
    """What has so many of something: 'row' of 'each row comprises at least four lamps'; or ''."""
    texts = texts_of(text)
    verb = texts[at - 1] if at else ""
    if not (verb.startswith(("compris", "includ", "contain")) or verb in ("has", "having", "with", "have")):
        return ""
    if at > 2 and texts[at - 2] == "each":  # 'planet gears each having'
        return name_of(text, uncounted(texts, noun_start(texts, at - 2), at - 2), at - 2)
    start = noun_start(texts, at - 1)
    each = 0 < start < at - 1 and texts[start - 1] in ("each", "every")
    return name_of(text, start, at - 1) if each else ""


def so_many_in(text: ClaimText, at: int, noun: str) -> tuple[str, bool] | None:
    """What has the 14 symbols of 'a slot of 14 symbols', and whether some of them are told of."""
    texts, stops = texts_of(text), words("nouns", "stops")
    if at < 3 or texts[at - 1] != "of" or not nounish(texts[at - 2], stops):
        return None
    start = uncounted(texts, whole_start(text, noun_start(texts, at - 1), at - 1), at - 1)
    holder = name_of(text, start, at - 1)
    said = texts[start - 1] if start else ""
    last = holder.split()[-1] if holder else "number"
    some = last in words("measures", "nouns") | words("mention", "several") | _SO_MANY or plural(last)
    if said not in ("a", "an", "one", "each", "the") or some:
        return None
    begin = start - 2 - len(pieces_of(noun))
    inside = texts[start - 2] in ("of", "in", "from") and begin > 0
    return holder, inside and texts[begin : start - 2] == [p.text for p in pieces_of(noun)]


_SO_MANY = frozenset(
    "number total maximum minimum sum group set series plurality pair row multiple majority half".split()
)


def each_holding(text: ClaimText, at: int) -> str:
    """The chambers of 'each of the chambers having a volume of 15 mm3 and containing no more than'; or ''."""
    texts = text.texts
    if not at or not texts[at - 1].startswith(("contain", "hold", "compris", "includ", "receiv", "stor")):
        return ""
    for each in range(at - 2, max(-1, at - MOST_OF_EACH), -1):
        if texts[each] in (";", ":", ".", "wherein", "whereby"):
            return ""
        if texts[each] in ("each", "every"):
            start = each + 1 + (texts[each + 1 : each + 2] == ["of"])
            start += start > each + 1 and texts[start] in ("the", "said", "these", "those")
            return noun_from(text, start)
    return ""


MOST_OF_EACH = 30
"""How many words before what each of several things holds their 'each' is looked for."""


def number_before(text: ClaimText, at: int) -> str:
    """`the number of the nozzles is an even number`: what is counted, or ''."""
    texts = texts_of(text)
    for start in range(at - 1, max(-1, at - MOST_COUNTED), -1):
        if texts[start : start + 2] == ["number", "of"]:
            return noun_from(text, start + 2 + (texts[start + 2 : start + 3] in (["the"], ["said"])))
    return ""


def number_of(text: ClaimText, at: int) -> tuple[str, str]:
    """What is counted by the noun that ends here, and of what it is made up: pairs, rollers.

    `the number of pairs of rollers`, `a number of plates of the stack`: the plates; ('', '') if nothing is.
    """
    texts, stops = texts_of(text), words("nouns", "stops")
    for start in range(at - 2, max(-1, at - MOST_COUNTED), -1):
        if texts[start : start + 2] == ["number", "of"]:
            begin = start + 2 + (texts[start + 2] in ("the", "said"))
            noun = noun_from(text, begin)
            return noun, of_which(text, begin + width_of(noun), noun)
        if not (
            nounish(texts[start], stops) or texts[start] in _WHERE or texts[start] in ("of", "the", "said")
        ):
            break
    return "", ""


_WHERE = frozenset("around along in on within across through over a an each".split())
"""Where what is counted stands: `the number of holes along the rim`."""


def of_which(text: ClaimText, at: int, noun: str) -> str:
    """The rollers of 'pairs of rollers': what pairs, sets or rows are of, from the words behind; or ''."""
    texts = texts_of(text)
    some = noun and stem(noun.split()[-1]) in words("mention", "several") and texts[at : at + 1] == ["of"]
    return noun_from(text, at + 1 + (texts[at + 1 : at + 2] in (["the"], ["said"]))) if some else ""
