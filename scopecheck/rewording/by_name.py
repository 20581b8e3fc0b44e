"""Several limits in one line, each of which names what it limits: `an outer diameter of at most 30 mm and an
inner diameter of at least 20 mm`, whatever the order left of the colon.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise, takewhile

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, has_number, word_of
from scopecheck.matching.nouns import is_measure
from scopecheck.matching.subjects import Subject, is_bare_share, is_fraction
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_COMPARING = frozenset("ratio sum difference total together combined each both product".split())
MOST_THINGS = 4


def parted_by_name(tokens: Tokens, subjects: Things) -> Iterator[tuple[Tokens, ...]]:
    """The ways to part the words so that each piece has a number and names one of the things alone, or first.

    The pieces are in the order of the things.
    """
    said = [word_of(t) for t in tokens]
    joints = [i for i in range(1, len(said) - 1) if said[i] in ("and", ",", "but") and said[i + 1] != "and"]
    telling = _telling(subjects)
    nouns = [s.text.lower().split()[-1] for s in subjects]
    plain = all(isinstance(s.bound, Typed) and s.parts is None and s.mixture is None for s in subjects)
    if not 2 <= len(subjects) <= MOST_THINGS or not plain or not all(telling) or "or" in said:
        return
    plainly = {"least", "most"} | listed("measures", "ends_of_tests")
    conditional = any(w == "at" and then not in plainly for w, then in pairwise(said))
    if "," in said and said[0] == "with":  # 'with a load of 50 kg, the speed is ...' tells under which load
        behind = said[said.index(",") + 1 :]
        conditional = conditional or not listed("conditional", "verbs").isdisjoint(behind)
    if conditional or not (_COMPARING | CONDITION_WORDS).isdisjoint(said) or len(joints) > 2 * MOST_THINGS:
        return
    for cut in combinations(joints, len(subjects) - 1):
        ends = (*cut, len(tokens))
        starts = (0, *(at + 1 for at in cut))
        pieces = [trimmed(tokens[a:b]) for a, b in zip(starts, ends, strict=True)]
        order = [_named(piece, telling, nouns) for piece in pieces]
        every = sorted(i for i in order if i is not None) == list(range(len(subjects)))
        if None not in order and every and stand_alike(pieces, [" ".join(words) for words in telling]):
            in_order = [
                piece for _, piece in sorted(zip(order, pieces, strict=True), key=lambda p: p[0] or 0)
            ]
            if not any(map(is_share_of, in_order, subjects)):
                yield tuple(in_order)


def stand_alike(pieces: list[Tokens], names: list[str]) -> bool:
    """Do all pieces name their thing before their number, or all behind it?

    `the gap is at least 1 mm | and at most 5 mm, and the rim is at most 3 mm` does not: the second limit is
    the gap's. Pieces of one limit each may be as they are, but `the oil is at least 2 wt% | at most 50 % of
    the gum` may be of the oil twice.
    """
    words = {w for name in names for w in name.split()}
    if _shares_of_a_later(pieces, words):
        return False
    before, single = set[bool](), True
    for piece in pieces:
        said = [word_of(t) for t in piece]
        named = next((i for i, w in enumerate(said) if w in words), len(said))
        number = next((i for i, t in enumerate(piece) if t.number or said[i] in NUMBER_WORDS), len(said))
        before.add(named < number)
        single = single and not {"and", "but", ","} & set(said)
    in_per_cent = any(t.text.endswith(" %") and word_of(of) == "of" for p in pieces for t, of in pairwise(p))
    return len(before) == 1 or (single and not in_per_cent)


def _shares_of_a_later(pieces: list[Tokens], names: set[str]) -> bool:
    """`the salt is at least 1 wt% | at most 20 wt% of the sugar`: is the second one a share of the sugar?"""
    first, *later = ([word_of(t) for t in piece] for piece in pieces)
    lead = next((i for i, w in enumerate(first) if w in ("is", "are", "being")), 0)
    about = lead and names.union(("the",)).issuperset(first[:lead])
    return bool(about) and any(
        of == "of" and the == "the" and not names.isdisjoint(said[i + 2 :]) and i > 0
        for said in later
        for i, (of, the) in enumerate(pairwise(said))
        if {"is", "are", "being", "has"}.isdisjoint(said[:i])
    )


def _telling(subjects: Things) -> list[set[str]]:
    """For each thing the words of its name that no other of them has."""
    names = [set(s.text.lower().split()) for s in subjects]
    return [own - set[str]().union(*(n for n in names if n is not own)) for own in names]


def trimmed(piece: Tokens) -> Tokens:
    """A piece without the commas at its ends."""
    while piece and piece[-1].text == ",":
        piece = piece[:-1]
    while piece and piece[0].text == ",":
        piece = piece[1:]
    return piece


def _named(piece: Tokens, telling: list[set[str]], nouns: list[str]) -> int | None:
    """The place of the one thing that a piece with a number names; else None.

    Of what is measured its noun is enough: `a length of` names a fibre length.
    """
    said = {word_of(t) for t in piece}
    named = [i for i, words in enumerate(telling) if not words.isdisjoint(said)]
    if len(named) > 1:
        return _named_first(piece, telling)
    if named and stands_beside(piece, telling[named[0]]):
        return None
    if not named or not any(t.number for t in piece):
        return None
    own, noun = telling[named[0]], nouns[named[0]]
    by_noun = noun in own and is_measure(noun) and [word_of(t) for t in piece[1:2]] == [noun]
    return named[0] if own <= said or by_noun else None


def stands_beside(piece: Tokens, telling: set[str]) -> bool:
    """`differs from the rim by 2 mm`, `2 mm larger than the rim`: of what is not named, beside the rim."""
    said = ["" if has_number(t) else word_of(t) for t in piece if word_of(t) not in ("the", "a", "an")]
    ahead = (said[i + 1 : i + 4] for i, w in enumerate(said) if w in _BEFORE_THE_OTHER)
    # 'Than the duration of soaking' is, 'more than 2 wt% of wax' is not.
    return any(not telling.isdisjoint(takewhile(bool, words)) for words in ahead)


def is_share_of(piece: Tokens, thing: Subject) -> bool:
    """`at most half of the ribs`: a limit of something else, in shares of this one?

    So many per cent `of the oil` are a limit of the oil where it is a share itself.
    """
    kind = thing.bound.kind if isinstance(thing.bound, Typed) else None
    itself = kind is not None and bool(kind.basis) and not kind.dimension
    return any(
        word_of(then) == "of"
        and (word_of(t) == "half" or is_fraction(t) or (not itself and is_bare_share(t)))
        for t, then in pairwise(piece)
    )


_BEFORE_THE_OTHER = frozenset("than from exceeds exceed exceeding".split())


def _named_first(piece: Tokens, telling: list[set[str]]) -> int | None:
    """The place of the thing that `the depth is at most half the width` begins with; None for other words."""
    said = [word_of(t) for t in piece]
    start = int(said[0] in ("the", "a", "an"))
    for i, words in enumerate(telling):
        end = start + len(words)
        limited = set(said[start:end]) == words and said[end : end + 1] and said[end] in _LIMITED
        beside = not _BESIDE.isdisjoint(said[end:]) or any(t.number for t in piece)
        if limited and beside and words.isdisjoint(said[end:]):
            return i
    return None


_LIMITED = frozenset("is are being of exceeds".split())
_BESIDE = frozenset("half twice times than third quarter".split())
