"""Words that turn a limit round, loosen it or make it one of something else: none of them is ever read past.

`incapable of exceeding 5 mm`, `free from a gap of at least 5 mm`, `a gap of at least 5 mm is impossible`.
What the same stem makes a thing of, `a barrier with`, `a shield of`, is none of them.
"""

from __future__ import annotations

from functools import cache

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of

_ARTICLES = frozenset("a an the any all said each its".split())
_DENIALS = frozenset("no not free other".split())
_STATES = frozenset("is are be being been was were".split())
_PAST_OR_GOING_ON = ("ed", "ing", "ied", "ying")
_OTHER_FORMS = ("", "e", "y", "s", "es", "ies")


def turns_the_limit(tokens: tuple[Token, ...], kept: tuple[Token, ...], own: frozenset[str]) -> bool:
    """Does one of the words that are left out say more than which thing is limited, or how it is measured?

    `own` are words of names and notes: an inhibitor is no word that inhibits.
    """
    left = {t.start for t in kept}
    said = [word_of(t) for t in tokens]
    return any(
        turns(said, at, own) or _says_more(said, at, own)
        for at, token in enumerate(tokens)
        if token.start not in left and token.sort == "word" and said[at] not in own
    )


def turns(said: list[str], at: int, own: frozenset[str]) -> bool:
    """Does the word at this place, by itself or before what follows, deny, loosen or lift what is said?"""
    word = said[at]
    before = said[at - 1] if at else ""
    after = said[at + 1] if at + 1 < len(said) else ""
    if _begins(word, "denying", own) or (word in listed("turning", "nouns") and after == "of"):
        return True
    if after in own and _begins(word, "lifting_a_thing", own):
        return True
    if word in listed("turning", "distances") and after in _COMPARISONS:
        return True
    led = after in listed("turning", "governed_by") or (after == "with" and word.startswith("dispens"))
    if before in _ARTICLES and led:
        return False  # a thing: 'a shielding of', 'the void with'
    limited = after in listed("turning", "limiting") or after[:1].isdigit()
    directly = after in _ARTICLES or after in listed("limits", "surpassing") or not after
    governs = before in _STATES or led or limited or directly
    if word in listed("turning", "adjectives"):
        spaced = (word, after) == ("apart", "at")  # 'spaced apart at a pitch of'
        return governs and word not in own and not spaced
    form = _form(word, own)
    if form in _PAST_OR_GOING_ON:
        return governs
    at_once = directly or after in ("against", "from") or (limited and before in own)
    return form in _OTHER_FORMS and at_once and before not in _ARTICLES


_COMPARISONS = listed("limits", "surpassing") | frozenset(
    "less more fewer below above under over beyond".split()
)


def _says_more(said: list[str], at: int, own: frozenset[str]) -> bool:
    """Is it another value of the thing, or something said of the whole limit: `is harmful`?"""
    word, before = said[at], said[at - 1] if at else ""
    if word in listed("turning", "of_another_value"):
        return before in own or said[at + 1 : at + 2] == ["of"]
    predicate = before in _STATES and not _is_done(word) and not any(w.startswith(word[:3]) for w in own)
    return predicate and word.replace("-", "").isalpha() and word not in listed("turning", "saying_little")


def _is_done(word: str) -> bool:
    """A participle, a preposition or an adverb behind 'is': `is formed`, `is in`, `is thereby`."""
    regular = word.endswith(("ed", "en", "wn", "ing", "ly", *listed("beside", "done")))
    return regular or word in _ARTICLES | _STATES or word in listed("beside", "idle") - _DENIALS


def _begins(word: str, table: str, own: frozenset[str]) -> bool:
    """Does it begin with one of the stems, and no word of a name or note with the same?"""
    return word.startswith(_stems(table)) and any(
        word.startswith(stem) and not any(w.startswith(stem) for w in own) for stem in _stems(table)
    )


def _form(word: str, own: frozenset[str]) -> str | None:
    """How a listed verb ends in this form of it; None for all other words, and for those of names."""
    for stem in _stems("verbs") if word.startswith(_stems("verbs")) else ():
        ending = word.removeprefix(stem)
        named = any(w.startswith(stem) for w in own)
        if word.startswith(stem) and ending in (*_PAST_OR_GOING_ON, *_OTHER_FORMS) and not named:
            return ending
    return None


@cache
def _stems(table: str) -> tuple[str, ...]:
    return tuple(sorted(listed("turning", table)))
