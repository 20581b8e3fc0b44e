"""Words of degree that no number measures, and acts of a person in a claim to a thing."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.word_lists import run_at, runs
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.text.claim_set import Set
from scopecheck.text.flags import Flag
from scopecheck.text.mentions import is_noun_word, noun_end
from scopecheck.text.stream import BREAKS, Stream, plural, stem

_NO_DEGREES = (("degree", "excepted"), ("clauses", "examples"), ("clauses", "essentially"))
"""Runs that only look like degrees: 'high frequency', and the 'desired' of 'if desired'."""
GROUPS = ("size", "nearness", "manner", "taste", "fitness", "custom")


def degrees(stream: Stream) -> Iterator[Flag]:
    """Each word of degree without a number beside it, with what a measure would need."""
    texts, at = stream.texts, 0
    skip = {
        i for start in range(len(texts))
        for i in range(start, start + max(run_at(texts, start, *of) for of in _NO_DEGREES))
    }  # fmt: skip
    skip |= {i for start in range(len(texts)) for i in range(start, start + _term(stream, start))}
    while at < len(texts):
        group = next((g for g in GROUPS if texts[at] in listed("degree", g)), "")
        if not group and at and texts[at - 1] in ("relatively", "comparatively") and texts[at][0].isalpha():
            group = "size"
        group = "nearness" if (by_how_much := _by_how_much(texts, at)) else group
        hedged = by_how_much or not _measured(stream, at, group)
        if not group or at in skip or at in stream.barred or not hedged:
            at += 1
            continue
        start = at - 1 if at and texts[at - 1] in listed("degree", "adverbs") else at
        end = at + 1
        if by_how_much or (end < len(texts) and texts[end] == "enough"):
            end += 1
        elif group != "manner" and end < len(texts) and texts[end] not in BREAKS:
            end = max(end, noun_end(stream, end)) if end - at < 3 else end
        words, span = stream.shown(start, end), stream.span(start, end)
        yield Flag("degree", f"degree_{group}", stream.number, words, span)
        at = end


def _term(stream: Stream, at: int) -> int:
    """How many words a fixed term of a trade has that begins here; 0 for none, and behind a 'very'."""
    texts, stems = stream.texts, [w.stem for w in stream.words[at : at + _MOST_OF_TERM]]
    if at and texts[at - 1] in listed("degree", "adverbs"):
        return 0
    if width := _longest(stems, "terms"):
        return width
    end = at + _longest(stems, "terms_alone")
    if end == at:
        return 0
    alone = end == len(texts) or not is_noun_word(texts[end]) or plural(texts[end - 1])
    return end - at if alone or texts[end] in listed("degree", "term_tails") else 0


_MOST_OF_TERM = 5
"""How many words a fixed term has at most."""


def _longest(stems: list[str], name: str) -> int:
    found = _terms(name).get(stems[0], ()) if stems else ()
    return max((len(term) for term in found if tuple(stems[: len(term)]) == term), default=0)


@cache
def _terms(name: str) -> dict[str, list[tuple[str, ...]]]:
    """The fixed terms by their first word, spelled as a stream's stems are."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for run in (run for first in runs("degree", name).values() for run in first):
        spelled = tuple(map(stem, run))
        found.setdefault(spelled[0], []).append(spelled)
    return found


def _by_how_much(texts: list[str], at: int) -> bool:
    """`substantially less than 1 %`, `well below 6 °C`: the number is told, and not how far from it."""
    if texts[at] not in listed("degree", "margins"):
        return False
    compared = texts[at + 1 : at + 2] and texts[at + 1] in listed("account", "comparatives")
    placed = texts[at + 1 : at + 2] in (["below"], ["above"], ["under"], ["over"])
    number = any(map(_number, texts[at + 2 : at + 5]))
    return bool((compared and texts[at + 2 : at + 3] == ["than"]) or placed) and number


def _measured(stream: Stream, at: int, group: str) -> bool:
    """Whether a number, or what it is compared with, stands beside a word of degree."""
    texts = stream.texts
    before, after = texts[max(0, at - 3) : at], texts[at + 1 : at + 4]
    if texts[at] == "well" and at and texts[at - 1] in listed("nouns", "determiners"):
        return True  # 'each well of the plate'
    if texts[at] == "even" and {"number", "numbers", "count", "integer"}.intersection(
        texts[max(0, at - 6) : at]
    ):
        return True
    if after[:1] and (after[0] in listed("degree", "not_before") or after[0] in ("-", "/")):
        return True
    if group == "size" and _compared(texts, at):
        return True
    if group == "nearness":
        near = next((w for w in after if w not in listed("limits", "inside") - {"about"}), "")
        described = run_at(texts, at, "clauses", "drawings") > 0 or after[:1] == ["as"]
        return (
            described or _number(near) or (texts[at] in ("about", "close", "near") and not _hedges(texts, at))
        )
    if (
        group == "size"
        and before
        and (_number(before[-1]) or (find_unit(before[-1]) and _has_number(before)))
    ):
        return True
    return group == "size" and bool(after) and after[0] in ("than", "of") and any(map(_number, after))


def _compared(texts: list[str], at: int) -> bool:
    """`wider than it is high`, `a high adhesion, corresponding to a value of 4 to 8`: it has its measure."""
    if texts[max(0, at - 3) : at - 1] in (["than", "it"], ["than", "they"]) and texts[at - 1] in (
        "is",
        "are",
    ):
        return True
    end = next((i for i in range(at, min(at + 12, len(texts))) if texts[i] in (".", ";", "wherein")), at + 12)
    behind = texts[at + 1 : end]
    to = next((i for i in range(len(behind) - 1) if behind[i : i + 2] == ["corresponding", "to"]), -1)
    return to >= 0 and "and" not in behind[:to] and any(map(_number, texts[at + to + 3 : at + to + 12]))


def _hedges(texts: list[str], at: int) -> bool:
    """`about` and `near` are places unless an amount follows; 'close to the wall' is no place."""
    if texts[at : at + 2] == ["close", "to"]:
        return at > 0 and texts[at - 1] not in ("to", "and", "can", "which", "that")
    return texts[at + 1 : at + 2] in (["equal"], ["half"], ["constant"], ["the"]) and texts[
        at + 2 : at + 3
    ] == ["same"]


def _has_number(texts: list[str]) -> bool:
    return any(map(_number, texts))


def _number(word: str) -> bool:
    return bool(word) and (word[0].isdigit() or NUMBER_WORDS.get(word, 0) > 1)


def fitted(stream: Stream) -> Iterator[Flag]:
    """A limit that is tied to a person, whose size varies: 'adapted to the foot of the wearer'."""
    texts, persons = stream.texts, listed("persons", "nouns")
    for at in range(len(texts)):
        width = run_at(texts, at, "fit", "runs")
        after = texts[at + width : at + width + 6]
        person = next((i for i, w in enumerate(after) if w in persons), None)
        if width and person is not None and not BREAKS.intersection(after[:person]):
            end = at + width + person + 1
            yield Flag("degree", "degree_fit", stream.number, stream.shown(at, end), stream.span(at, end))


# ---- acts of a person


def acts(all_: Set, number: int) -> Iterator[Flag]:
    """What a person does, recited in a claim to a thing. 'Can be pressed by' says what the thing is."""
    stream = all_.streams[number]
    first = next(iter(all_.mentions[number]), None)
    if first is None or first.head in listed("mention", "process"):
        return
    texts = stream.texts
    persons, permitted = listed("persons", "nouns"), listed("persons", "permitted")
    for at, word in enumerate(texts):
        if word not in persons or at == 0 or at in stream.barred:
            continue
        start = _person_start(texts, at)
        clause = _clause_before(texts, start)
        if permitted.intersection(clause):
            continue
        if _acts(texts, at + 1):
            end = _act_end(stream, at + 1)
            yield Flag("user act", "user_act", number, stream.shown(start, end), stream.span(start, end))
        elif _done_by(texts, start):
            yield Flag(
                "user act",
                "user_act",
                number,
                stream.shown(start - 2, at + 1),
                stream.span(start - 2, at + 1),
            )


def _acts(texts: list[str], at: int) -> bool:
    """A finite verb follows the person: '-s', after an adverb too."""
    if at < len(texts) and texts[at].endswith("ly"):
        at += 1
    word = texts[at] if at < len(texts) else "."
    return word.endswith("s") and word.isalpha() and len(word) > 3 and word not in listed("nouns", "stops")


def _person_start(texts: list[str], at: int) -> int:
    """Where `a maintenance technician` begins; the person's own word if nothing brings it in."""
    start = at
    while start > 0 and at - start < 3 and is_noun_word(texts[start - 1]):
        start -= 1
    return start - 1 if start and texts[start - 1] in ("the", "a", "an", "said") else at


def _act_end(stream: Stream, at: int) -> int:
    """The act with what it is done to: 'rolls up the cover', never up to an 'of' alone."""
    texts = stream.texts
    end = last = at + 1 + texts[at].endswith("ly")
    while end < len(texts) and end - last < 3 and texts[end] in (*_PASSED, *listed("nouns", "determiners")):
        end += 1
    noun = noun_end(stream, end)
    return noun if noun > end else last


_PASSED = frozenset("up down out off away in on into onto".split())


def _done_by(texts: list[str], start: int) -> bool:
    """`is turned by the`: a finite passive."""
    if start < 3 or texts[start - 1] != "by" or not texts[start - 2].endswith(("ed", "en", "wn", "ut", "ld")):
        return False
    return bool({"is", "are", "was", "were", "gets"}.intersection(texts[max(0, start - 4) : start - 2]))


def _clause_before(texts: list[str], at: int) -> list[str]:
    start = at
    while (
        start > 0
        and texts[start - 1] not in BREAKS
        and texts[start - 1] not in ("wherein", "and", "which", "where")
    ):
        start -= 1
    return texts[start:at]
