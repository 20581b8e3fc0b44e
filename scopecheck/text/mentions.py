"""The nouns of a claim: what is brought in, what is spoken of as known, and what merely stands there.

There is no grammar here: a noun is a run of words that no determiner, preposition, verb or sign breaks.
"""

from __future__ import annotations

from typing import Literal

from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.text.stream import BREAKS, Stream, plural

MOST = 6
_PARTICLES = frozenset("off up down out away back".split())
"""After a verb: 'the user tears off the'."""
_BEFORE_LIMITS = frozenset("less more about approximately no not fewer".split())
"""After a noun's verb: 'the vehicle weighs less than'."""


@record
class Mention:
    """A noun with its words: where it stands, the words before its head, and how it is spoken of.

    `of`: nouns that follow with 'of'. `shared`: each of several things has one.
    """

    how: Literal["new", "definite", "bare"]
    claim: int
    start: int
    first: int
    end: int
    head: str
    modifiers: frozenset[str]
    ordinals: frozenset[str]
    plural: bool
    counted: bool
    of: frozenset[str] = frozenset()
    shared: bool = False


def mentions(stream: Stream) -> list[Mention]:
    """Every noun of a claim in order."""
    found: list[Mention] = []
    at, each = 0, False
    texts = stream.texts
    while at < len(texts):
        if texts[at] in (";", ":", "."):
            each = False
        each = each or texts[at] in listed("mention", "universal")
        made = None if at in stream.barred else _mention(stream, at, each)
        if made is None:
            at += 1
        else:
            found.append(made)
            at = max(made.end, at + 1)
            # 'The tablet releases at least': the verb of a noun is none itself.
            at += (
                made.first < at < len(texts) and texts[at] in listed("mention", "verbs") and _verb(texts, at)
            )
    return found


def _mention(stream: Stream, at: int, each: bool) -> Mention | None:
    texts = stream.texts
    first, how, many, universal = _determined(texts, at)
    end = noun_end(stream, first)
    ordinals = frozenset(w for w in texts[first:end] if w in listed("mention", "ordinals"))
    begin = first
    while begin < end - 1 and (texts[begin] in listed("mention", "ordinals") or _adverb(texts[begin])):
        begin += 1
    if end == first or not texts[end - 1][0].isalpha() or _reckoned(texts, end):
        return None
    words = stream.words
    head = words[end - 1].stem
    modifiers = frozenset(w.stem for w in words[begin : end - 1] if not _state(w.text)) - ordinals
    each = each or (how == "new" and _had_by_several(texts, at))
    each = each or {"each", "respective"}.intersection(texts[end : end + 3]) != set()
    return Mention(
        how, stream.number, at, first, end, head, modifiers, ordinals, plural(texts[end - 1]) or many,
        many, _complement(stream, end), each or universal,
    )  # fmt: skip


def _reckoned(texts: list[str], end: int) -> bool:
    """`a power of two`: what numbers are like; `a power of 2 kW` is a power."""
    if texts[end - 1] not in listed("mention", "reckoned") or texts[end : end + 1] != ["of"]:
        return False
    number, then = (*texts[end + 1 : end + 3], "", "")[:2]
    counted = number in NUMBER_WORDS or number[:1].isdigit()
    return counted and (not then or then in BREAKS or then in listed("nouns", "stops"))


def _had_by_several(texts: list[str], at: int) -> bool:
    """`the nozzles have a bore`, `nozzles having a bore`: each of them has one."""
    before = texts[at - 1] if at else ""
    if before in ("have", "comprise", "include", "contain"):
        return at > 1 and texts[at - 2] not in ("to", "may", "can")
    return before in ("having", "with", "comprising") and at > 1 and plural(texts[at - 2])


def _determined(texts: list[str], at: int) -> tuple[int, Literal["new", "definite", "bare"], bool, bool]:
    """Where the noun's own words begin, how it is spoken of, whether it is several, whether each of them."""
    word = texts[at]
    after = texts[at + 1 : at + 4]
    if word == "the" and after[:1] and after[0] in listed("mention", "resulting"):
        return at + 2, "new", False, False
    if word == "the" and after[:1] and after[0] in listed("mention", "remainders") and _names_rest(after):
        return at + 2, "new", False, False
    if word in listed("mention", "definite") and after[:2] in (["plurality", "of"], ["multiplicity", "of"]):
        return at + 3, "definite", True, False
    if word in listed("mention", "definite"):
        number = bool(after) and (after[0] in NUMBER_WORDS or after[0].isdigit())
        return at + 1 + (number and len(after) > 1), "definite", number, False
    if word in listed("mention", "universal"):
        return at + 1 + (after[:1] == ["of"]), "bare", False, True
    if word in ("a", "an") and after[1:2] == ["of"] and after[0] in listed("mention", "several"):
        return at + 3, "new", True, False
    if word in ("its", "their"):
        return at + 1, "new", False, True
    if word == "at" and after[:2] in (["least", "one"], ["least", "two"], ["least", "three"]):
        return at + 3, "new", True, False
    if word == "one" and after[:2] == ["or", "more"]:
        return at + 3, "new", True, False
    if word in listed("mention", "new"):
        return at + 1, "new", word in ("several", "multiple", "many", "few"), False
    if NUMBER_WORDS.get(word, 0) > 1:
        return at + 1, "new", True, False
    return at, "bare", False, False


def _names_rest(after: list[str]) -> bool:
    """`the balance water`: what makes up the rest is brought in by it."""
    return after[1:2] != [] and after[1].isalpha() and after[1] not in listed("nouns", "stops") | {"to"}


def noun_end(stream: Stream, at: int) -> int:
    """Where the noun that begins here ends; `at` itself if none does."""
    texts = stream.texts
    end = at
    while end < len(texts) and end - at < MOST and end not in stream.barred and is_noun_word(texts[end]):
        if end > at and _verb(texts, end):
            break
        end += 1
    while end - at > 1 and (_adverb(texts[end - 1]) or _trailing(texts, end) or _function_sign(stream, end)):
        end -= 1
    return end


def _function_sign(stream: Stream, end: int) -> bool:
    """`Re` of `a retardation Re(550)`: a sign of the noun before it, at something."""
    if stream.texts[end : end + 1] != ["("] or len(stream.texts[end - 1]) > _LONGEST_SIGN:
        return False
    return stream.words[end - 1].end == stream.words[end].start


_LONGEST_SIGN = 3


def is_noun_word(word: str) -> bool:
    """Whether a word may be part of a noun: no determiner, preposition, verb of the lists, number or sign."""
    return word[0].isalpha() and word not in listed("nouns", "stops") and word not in NUMBER_WORDS


def _verb(texts: list[str], at: int) -> bool:
    """Whether a word after a noun is its verb: 'the lid closes the', 'a wall defining an'."""
    word = texts[at]
    after = texts[at + 1] if at + 1 < len(texts) else "."
    begins = (
        after in listed("nouns", "determiners")
        or after in NUMBER_WORDS
        or after.endswith("ly")
        or after[0].isdigit()
    )
    begins = begins or (after in _BEFORE_LIMITS | _PARTICLES and word.endswith("s"))
    limit = (texts[at + 2 : at + 3] or ["."])[0] if after in ("at", "between", "from", "up") else "."
    begins = begins or (
        word in listed("mention", "verbs") and (limit[0].isdigit() or limit in ("least", "most", "to"))
    )
    stops = after in listed("nouns", "stops") or after in BREAKS
    if after in listed("mention", "universal") | {"all", "both"}:
        return False
    if word.endswith("s") and not word.endswith("ss") and (begins or word in listed("mention", "verbs")):
        return begins or not (plural_noun(texts, at) or _of_what_sort(texts, at))
    if word.endswith("s") and len(word) > 3 and texts[at - 1] in listed("persons", "nouns"):
        return True
    if word in listed("mention", "never_nouns") and stops:
        return True
    verbs = listed("mention", "verbs")
    both = at > 2 and texts[at - 3] == "and" and texts[at - 2] in listed("nouns", "determiners")
    if both and f"{word}s" in verbs and (after == "that" or after in listed("nouns", "determiners")):
        return True
    if plural(texts[at - 1]) and (f"{word}s" in verbs or f"{word}es" in verbs):
        return True
    if word in listed("mention", "ing_nouns"):
        return begins
    if word.endswith("ing") and len(word) > 4:
        return begins or (stops and after not in ("of", *BREAKS) and not plural_noun(texts, at))
    return _participle(word) and (begins or stops or after == "apart")


def _of_what_sort(texts: list[str], at: int) -> bool:
    """`the charging points when`: a word in -ing that begins a noun tells of what sort it is."""
    before = texts[at - 1]
    if texts[at] not in listed("mention", "also_nouns"):
        return False
    begins = at > 1 and (texts[at - 2] in listed("nouns", "stops") or texts[at - 2] in NUMBER_WORDS)
    return begins and before.endswith("ing") and before not in listed("mention", "ing_nouns")


def _participle(word: str) -> bool:
    return word.endswith("ed") and len(word) > 4 and word not in listed("mention", "ed_nouns")


def plural_noun(texts: list[str], at: int) -> bool:
    """Whether a determiner stands directly before: then the word is the noun itself."""
    return at > 0 and texts[at - 1] in listed("nouns", "determiners")


def _trailing(texts: list[str], end: int) -> bool:
    """A participle at the end of a noun's words belongs to what follows: 'holes formed'."""
    word = texts[end - 1]
    able = word.endswith(("able", "ible")) and word not in listed("mention", "able_nouns")
    return able or _participle(word) or word in listed("mention", "after") | listed("mention", "postposed")


def _adverb(word: str) -> bool:
    return word.endswith("ly") and word not in listed("mention", "ly_nouns")


def _state(word: str) -> bool:
    """`molten`, `captured`: what was done to a thing does not tell it from others."""
    return word in listed("mention", "states") or _participle(word)


def _complement(stream: Stream, end: int) -> frozenset[str]:
    """The nouns after 'of': of `layer of cork`, cork."""
    texts = stream.texts
    if end >= len(texts) or texts[end] != "of":
        return frozenset()
    start = end + 1
    while start < len(texts) and texts[start] in listed("nouns", "determiners"):
        start += 1
    return frozenset(w.stem for w in stream.words[start : noun_end(stream, start)])
