"""Words that give each of several things a limit of its own: '2 to 3 mm and 4 to 5 mm, respectively'."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.resolve.by_name import stand_alike
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.parts import plural_of

Tokens = tuple[Token, ...]


def in_order(tokens: Tokens, names: tuple[str, ...]) -> list[list[Tokens]]:
    """The ways to part the words at commas and 'and' into one piece for each thing, in their order.

    Either the words say 'respectively', or each piece names its own thing and no other.
    """
    words = [word_of(t) for t in tokens]
    said = not listed("asides", "in_order").isdisjoint(words)
    if said and (behind := _behind_shared_noun(words, names)):
        tokens, words = tokens[behind:], words[behind:]
    if said and _names_in_words(words, names) not in ((), names):
        return []  # 'the rim and the gap are 2 and 4 mm, respectively', of a gap and a rim
    if said:
        tokens = _trimmed(tuple(t for t in tokens if word_of(t) not in listed("asides", "in_order")))
        tokens = _without_names(tokens, names)
    ways = [way for way in _parted(tokens, len(names)) if all(way)]
    if said:
        return [_with_limit_of_first(way) for way in ways if not any(map(_several, way))]
    return [
        way
        for way in ways
        if all(_names(piece, names) == [name] for piece, name in zip(way, names, strict=True))
        and stand_alike(way, list(names))
        and not _chooses(way)
    ]


def _chooses(way: list[Tokens]) -> bool:
    """`at least one of a bore | and a pin`: what the first piece counts is all that follows."""
    counted = [any(w in _CHOICES and then == "of" for w, then in pairwise(map(word_of, p))) for p in way]
    return counted[0] and not all(counted)


_CHOICES = NUMBER_WORDS.keys() | {"more", "both", "each", "all", "any", "none", "some"}


def _behind_shared_noun(words: list[str], names: tuple[str, ...]) -> int:
    """Where the words go on behind names that share a noun, `the first and second rib widths are`; else 0.

    Or their first word: `the rib width and depth`. In the order of the things, as all that is named.
    """
    own = [name.split() for name in names]
    fewest = min(map(len, own)) - 1
    behind = next((n for n in range(fewest, 0, -1) if len({tuple(o[-n:]) for o in own}) == 1), 0)
    before = next((n for n in range(fewest, 0, -1) if len({tuple(o[:n]) for o in own}) == 1), 0)
    ways = []
    if behind:
        (*noun, last) = own[0][-behind:]
        ways = [[w for o in own for w in o[:-behind]] + [*noun, form] for form in (last, plural_of(last))]
    if before:
        ways.append(own[0][:before] + [w for o in own for w in o[before:]])
    aside = listed("asides", "beside_each") | {"and", ",", "a", "an", "the", "said", "respective"}
    end, found = 0, list[str]()
    while end < len(words) and (words[end] in aside or any(words[end] in way for way in ways)):
        found += [words[end]] if words[end] not in aside else []
        end += 1
    return end if found in ways else 0


def _names_in_words(words: list[str], names: tuple[str, ...]) -> tuple[str, ...]:
    """The names of the things in the order in which the words have them."""
    text = f" {' '.join(words)} "
    places = {name: at for name in names if (at := text.find(f" {name} ")) >= 0}
    return tuple(sorted(places, key=lambda name: places[name]))


_OF_A_CONDITION = ("at", "when", "where", "if", "unless", "while", "under", "during", "for", "in", "provided")


def says_how_much(tokens: Tokens, name: str) -> bool:
    """Does a number stand in the words, or "a" before the name, and no choice such as "one of"?"""
    words = [word_of(t) for t in tokens]
    condition = words[0] in _OF_A_CONDITION and words[1:2] not in (["most"], ["least"], ["an"], ["amounts"])
    if condition or {"ratio", "sum", "product", "difference"} & set(words):
        return False
    if any(w in NUMBER_WORDS and then in ("of", "or") and "of" in words for w, then in pairwise(words)):
        return False
    one = any(w in ("a", "an") and then in (name, name.removesuffix("s")) for w, then in pairwise(words))
    return one or any(t.number or word_of(t) in NUMBER_WORDS for t in tokens)


def _with_limit_of_first(way: list[Tokens]) -> list[Tokens]:
    """`at most 5 mm` and `3 mm` as at most each: what stands before the first number holds for bare ones."""
    first = next((i for i, t in enumerate(way[0]) if t.number), 0)
    bare = [piece[0].number is not None and sum(t.number is not None for t in piece) == 1 for piece in way]
    rest = zip(way[1:], bare[1:], strict=True)
    return [way[0], *(way[0][:first] + piece if alone else piece for piece, alone in rest)]


def at_and_for(tokens: Tokens) -> list[list[Tokens]]:
    """The ways to part the words before an 'at', 'for' or 'during': '100 to 120 degC for 20 min'."""
    found = (i for i, t in enumerate(tokens) if i and word_of(t) in listed("asides", "held"))
    return [[tokens[:i], tokens[i:]] for i in found]


def _several(tokens: Tokens) -> bool:
    """Do the words hold two bare amounts side by side, which would be two limits?"""
    joined = (i for i, t in enumerate(tokens) if word_of(t) in ("and", ",") and 0 < i < len(tokens) - 1)
    between = any(word_of(t) == "between" for t in tokens)
    return not between and any(tokens[i - 1].number and tokens[i + 1].number for i in joined)


def _names(tokens: Tokens, names: tuple[str, ...]) -> list[str]:
    text = f" {' '.join(word_of(t) for t in tokens)} "
    return [name for name in names if f" {name} " in text or f" {name.removesuffix('s')} " in text]


def _without_names(tokens: Tokens, names: tuple[str, ...]) -> Tokens:
    """The words behind 'the gap and the rim are', where all the things are named before their limits."""
    beside = listed("asides", "beside_each") | {"and", ",", "a", "an", "the"}
    own = {word for name in names for word in name.split()}
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in beside | own), 0)
    named = {word_of(t) for t in tokens[:start]} & own
    return tokens[start:] if named in (set(), own) else tokens


def _trimmed(tokens: Tokens) -> Tokens:
    while tokens and tokens[-1].text == ",":
        tokens = tokens[:-1]
    while tokens and tokens[0].text == ",":
        tokens = tokens[1:]
    return tokens


def _parted(tokens: Tokens, count: int) -> list[list[Tokens]]:
    """Every way to part the words so; at ', and' they are parted once."""
    if count == 1:
        return [[_trimmed(tokens)]]
    words = [word_of(t) for t in tokens]
    found = []
    for at in (i for i, w in enumerate(words) if i and w in ("and", ",")):
        if words[at : at + 2] != [",", "and"]:
            found += [[_trimmed(tokens[:at]), *more] for more in _parted(tokens[at + 1 :], count - 1)]
    return found
