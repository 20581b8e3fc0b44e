"""Words that turn a limit round, loosen it or make it one of something else: none of them is ever read past.

`incapable of exceeding 5 mm`, `free from a gap of at least 5 mm`, `a gap of at least 5 mm is impossible`.
"""

from __future__ import annotations

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of

_ARTICLES = frozenset("a an the any all said each its".split())
_DENIALS = frozenset("no not free other".split())
_STATES = frozenset("is are be being been was were".split())


def turns_the_limit(tokens: tuple[Token, ...], kept: tuple[Token, ...], own: frozenset[str]) -> bool:
    """Does one of the words that are left out say more than which thing is limited, or how it is measured?

    `own` are words of names and notes: an inhibitor is no word that inhibits.
    """
    left = {t.start for t in kept}
    said = [word_of(t) for t in tokens]
    return any(
        _turns(tokens, said, at, own)
        for at, token in enumerate(tokens)
        if token.start not in left and token.sort == "word" and said[at] not in own
    )


def turning(word: str, own: frozenset[str]) -> bool:
    """Does the word, before a thing, turn round or loosen what is said of it?"""
    return _begins(word, "denying", own) or _begins(word, "governing", own)


def _begins(word: str, table: str, own: frozenset[str]) -> bool:
    """Does it begin with one of the stems, and no word of a name or note with the same?"""
    found = next((stem for stem in listed("turning", table) if word.startswith(stem)), "")
    return bool(found) and not any(w.startswith(found) for w in own)


def _turns(tokens: tuple[Token, ...], said: list[str], at: int, own: frozenset[str]) -> bool:
    word = said[at]
    before = said[at - 1] if at else ""
    after = said[at + 1] if at + 1 < len(said) else ""
    if _begins(word, "denying", own):
        return True
    if word in listed("turning", "of_another_value"):
        return before in own or after == "of"
    predicate = before in _STATES
    if predicate and not _is_done(word) and not any(w.startswith(word[:3]) for w in own):
        return word.replace("-", "").isalpha() and word not in listed("turning", "saying_little")
    governs = (
        predicate
        or (after in own and _begins(word, "lifting_a_thing", own))
        or after in _ARTICLES
        or after in listed("turning", "governed_by")
        or after in listed("limits", "surpassing")
        or at + 1 == len(tokens)
        or tokens[at + 1].number is not None
        or after in listed("turning", "limiting")
    )
    return governs and _begins(word, "governing", own)


def _is_done(word: str) -> bool:
    """A participle, a preposition or an adverb behind 'is': `is formed`, `is in`, `is thereby`."""
    regular = word.endswith(("ed", "en", "wn", "ing", "ly", *listed("beside", "done")))
    return regular or word in _ARTICLES | _STATES or word in listed("beside", "idle") - _DENIALS
