"""Ways to read words that limit one of several things beside another, or a value made of both."""

from __future__ import annotations

from contextlib import suppress
from itertools import pairwise

from scopecheck.core.construction import names_in
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import All, Divide, Formula
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import PREFERENCES, word_of
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.resolve.line_reader import LineReader
from scopecheck.resolve.not_so import IN_SYMBOLS
from scopecheck.rewording.beside_sums import share_of_sum
from scopecheck.rewording.in_order import Pieces
from scopecheck.rewording.of_each import beside_an_extreme
from scopecheck.rewording.scaled import with_scaled
from scopecheck.vocabulary.names import Typed

_OF_ONE = word_lists()["fractions"].keys() | {"half", "twice", "times"}


def beside_a_sum(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """A limit of a share of a sum, or of a ratio to one, read of that; None for other words."""
    beside = share_of_sum(tokens, subjects, reader.names)
    if beside is None:
        return None
    limit, things, measured = beside
    if measured:
        raise trouble(
            words.span, f"'{measured}' is another measure than that of {subjects[0].text}",
            "A share of a sum is one by what its parts are measured by.", IN_SYMBOLS,
        )  # fmt: skip
    return reader.as_it_stands(Words(words.text, limit, words.span), things)


def state_or_limit(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`valve, pressure : the valve is open or the pressure is at most 5 bar`, the limited one first."""
    stated = len(subjects) == 2 and isinstance(subjects[0].bound, ChoiceDecl | SetDecl)
    limited = stated and isinstance(subjects[1].bound, Typed) and "or" in map(word_of, tokens)
    return reader.if_read(tokens, words, subjects[::-1]) if limited else None


def with_multiples_named(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`width, rim, gap : the sum of the rim and twice the gap`, with twice the gap as one thing."""
    said, things = with_scaled(tokens, subjects)
    if said is not tokens:
        other = Words(words.text, said, words.span)
        with suppress(Trouble):
            reader.trying().condition(other, things)
            return reader.condition(other, things)
    return None


def without_the_named(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`rim, height : the height exceeds the rim`: of the height alone, as the words name the other one.

    None where the words could be read of either thing alone, or name the other one first, or where the
    other one has no part in what is read: 'a plurality of holes and ribs'.
    """
    said, words = f" {' '.join(map(word_of, tokens))} ", Words(words.text, tokens, words.span)
    places = [said.find(f" {s.text.lower()} ") for s in subjects]
    ways = [
        one
        for one, at, other in zip(subjects, places, places[::-1], strict=True)
        if len(subjects) == 2 and other > at >= 0 and reader.trying().reads(words, (one,))
    ]
    if len(ways) != 1:
        return None
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed)]
    taking_part = names_in(reader.trying().condition(words, tuple(ways)))
    both = len(bounds) == 2 and all(names_in(b.term) <= taking_part for b in bounds)
    return reader.condition(words, tuple(ways)) if both else None


def of_a_stated_value(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`gap, width : at most 10 % of a width of 50 mm`: a share of the other, and what the other is."""
    said = [word_of(t) for t in tokens]
    name = subjects[1].text.lower().split() if len(subjects) == 2 else []
    for at in range(2, len(said) - len(name) - 1) if name else ():
        end = at + len(name)
        if said[at - 2 : at] not in (["of", "a"], ["of", "an"]) or said[at:end] != name:
            continue
        stated = said[end] == "of" and any(t.number for t in tokens[end:])
        of_it = any(is_bare_share(t) for t in tokens[:at]) or not _OF_ONE.isdisjoint(said[:at])
        pieces: Pieces = [(tokens[:end], subjects), (tokens[at:], subjects[1:])]
        if stated and of_it and (found := reader.piece_by_piece(pieces, words)):
            return All(found)
    return None


def one_and_one_beside(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`D1, D2 : D1 is 5 to 8 mm and D2 is larger than D1`: of the one alone, and of both beside it."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return None
    said = [word_of(t) for t in tokens]
    for at in (i for i in range(2, len(said) - 2) if said[i] == "and"):
        sides = tokens[: at - (said[at - 1] == ",")], tokens[at + 1 :]
        alone, both = (
            [s for s in subjects if f" {s.text.lower()} " in f" {' '.join(map(word_of, side))} "]
            for side in sides
        )
        if len(alone) != 1 or len(both) != 2 or not {"than", "times", "twice", "half"} & set(said[at:]):
            continue
        left, right = (Words(words.text, side, words.span) for side in sides)
        trying = reader.trying()
        if trying.holds(left, tuple(alone)) and trying.holds(right, subjects):
            return All((reader.as_it_stands(left, tuple(alone)), reader.as_it_stands(right, subjects)))
    return None


def ratio_and_preference(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`a ratio of A to B of 1:1 to 3:1, preferably 1.5:1 to 2:1`: the ratio as without the preference,
    and that of the quotient."""
    said = [word_of(t) for t in tokens]
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and not s.of_parts]
    at = next((i for i, w in enumerate(said) if i > 2 and w in PREFERENCES), 0)
    if len(subjects) != 2 or len(bounds) != 2 or "ratio" not in said[:at]:
        return None
    end = at - sum(w in ("more", "even", "still", "most") for w in said[at - 2 : at])
    while said[end - 1] in (",", "and", "or"):
        end -= 1
    start = end + sum(w in (",", "and", "or") for w in said[end:at])
    limit, behind = Words(words.text, tokens[:end], words.span), tokens[start:]
    first = " ".join(said[:end]).find(subjects[0].text.lower())
    second = " ".join(said[:end]).find(subjects[1].text.lower())
    turned = -1 < second < first or (first < 0 <= second)
    over, under = bounds[::-1] if turned else bounds
    text = " / ".join(s.text for s in (subjects[::-1] if turned else subjects))
    ratio = (Subject(Typed(Divide(over.term, under.term), PLAIN_KIND), text, subjects[0].span),)
    said_again = tuple(t for t in behind if word_of(t) != "of")
    preference = Words(words.text, said_again, words.span)
    if not (reader.trying().holds(limit, subjects) and reader.trying().holds(preference, ratio)):
        return None
    return All((reader.as_it_stands(limit, subjects), reader.as_it_stands(preference, ratio)))


def of_parts_beside(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`width of the ribs, rim : each rib is narrower than the rim`: of the ribs alone, beside the rim."""
    if len(subjects) != 2 or subjects[0].parts is None or subjects[1].parts is not None:
        return None
    found = reader.trying().if_read(tokens, words, subjects[:1])
    other = subjects[1].bound
    if found is None or not isinstance(other, Typed) or not names_in(other.term) <= names_in(found):
        return None
    return reader.if_read(tokens, words, subjects[:1])


def beside_an_extreme_of_parts(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`rim, length of the ribs : at least twice as long as the longest rib`: of the rim, beside that one.

    The symbols for the greatest of the lengths stand in the words as the name of a quantity.
    """
    found = beside_an_extreme(tokens, subjects, reader.names)
    field = reader.names.field_of(subjects[1].text) if found else None
    if found is None or field is None:
        return None
    said, symbols, value = found
    of_one = reader.names.declared(f"{field[1]} of {field[0][0].name} 1")
    if not isinstance(of_one, NumberDecl):
        return None
    reader.names.declarations[symbols] = replace(of_one, name=symbols)
    reader.names.terms[symbols.lower()] = value
    try:
        return reader.if_read(said, words, subjects[:1])
    finally:
        del reader.names.declarations[symbols], reader.names.terms[symbols.lower()]


def in_the_order_named(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`rebar, cover : a cover of at least the greater of 25 mm and twice the rebar`, which begins with
    the second; `30 parts of filler relative to 100 parts of resin`, of a resin and a filler. Three things or
    more are taken in the order in which the words name each of them once."""
    said = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    start = int(said[0] in ("a", "an", "the", "said"))
    measured = all(isinstance(s.bound, Typed) and s.parts is None for s in subjects)
    extremes = listed("asides", "least") | listed("asides", "greatest")
    extreme = any(w in extremes and then == "of" for w, then in pairwise(said))
    in_parts = said.count("parts") > 1 and "between" not in said
    if len(subjects) < 2 or not measured:
        return None
    if len(subjects) > 2:
        return _each_named_once(reader, tokens, words, subjects)
    first, second = (f" {' '.join(name)} " for name in names)
    text = f" {' '.join(said)} "
    begins = extreme and said[start : start + len(names[1])] == names[1]
    if not (begins or in_parts) or not -1 < text.find(second) < text.find(first) or second in first:
        return None
    other = Words(words.text, tokens, words.span)
    return reader.condition(other, subjects[::-1]) if reader.trying().holds(other, subjects[::-1]) else None


def _each_named_once(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`bore, rim, gap : the gap is at most the mean of the bore and the rim`, as of `gap, bore, rim`."""
    text = f" {' '.join(word_of(t) for t in tokens)} "
    denied = not {"not", "no", "neither", "nor", "never"}.isdisjoint(text.split())
    if denied or any(text.count(f" {s.text.lower()} ") != 1 for s in subjects):
        return None
    named = tuple(sorted(subjects, key=lambda s: text.find(f" {s.text.lower()} ")))
    other = Words(words.text, tokens, words.span)
    if named == subjects or not reader.trying().holds(other, named):
        return None
    return reader.condition(other, named)
