"""Phrases that words match and do not mean: what fills their slots, or stands unheard, is another thing."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import KindWord, kind_word
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import (
    Fill,
    Match,
    has_number,
    prefers,
    word_of,
)
from scopecheck.matching.line_words import AVERAGES, DETERMINERS, OF_EXTENTS, LineWords
from scopecheck.matching.nouns import OWN_MEASURES
from scopecheck.matching.shared_limits import (
    behind_its_name,
    excludes_a_value,
    shares_the_words,
)
from scopecheck.matching.shares_of_others import names_own_amount, share_of_another
from scopecheck.matching.subjects import is_bare_share
from scopecheck.matching.them import has_a_place, is_a_moment, says_over_how_long, tell_how_far_apart
from scopecheck.vocabulary.names import Bound, Typed

_OF_MULTIPLES = listed("measures", "multiples")

_OF_PRESSURE = ("absolute", "gauge")

_ANY_MEASURE = frozenset("level value content amount".split())

_EXTREMES = listed("measures", "of_some_moment")

_MADE_OF_TWO = listed("measures", "made_of_two")


def leaves_out_a_multiple(job: LineWords, match: Match) -> bool:
    """`a multiple of the slots other than one`: is what is left out so many times, and no value?"""
    limit = next((f.tokens for f in match.fills if f.slot.kind == "limit"), ())
    left_out = next((f.tokens for f in match.fills if f.slot.kind == "number"), ())
    return so_many_times(job, limit, left_out) and any(
        r.formula_text == "x_c, x != N" for r in match.entry.readings
    )


def so_many_times(job: LineWords, limit: tuple[Token, ...], number: tuple[Token, ...]) -> bool:
    """Is the one a multiple of a declared quantity, and the other a number without a unit?"""
    words = [word_of(t) for t in limit]
    if not number or _OF_MULTIPLES.isdisjoint(words) or any(t.number and t.number.unit for t in number):
        return False
    said = f" {' '.join(words)} "
    return any(f" {name.lower()} " in said for name in job.place.names.declarations)


def multiplies_another_limit(job: LineWords, match: Match) -> bool:
    """`between the number of ribs and twice the number of ribs`: the first end is no multiple."""
    if not any(f.slot.kind == "plain" for f in match.fills) or " times" not in f" {match.pattern.plain}":
        return False
    ends = [f.tokens for f in match.fills if f.slot.kind == "plain"]
    names = [name.lower().split() for name in job.place.names.declarations]
    return any(
        words[i : i + len(name)] == name
        for words in ([word_of(t) for t in end] for end in ends)
        for name in names
        for i in range(len(words))
    )


def tells_which_is_the_part(job: LineWords, match: Match) -> bool:
    """`more than half of the ribs are slots`, of a phrase that ends in `half`: does the line name the whole
    first, whichever stands left?"""
    said, last = [word_of(t) for t in job.words.tokens], match.pattern.plain.rpartition(" ")[2]
    of_two = len(match.entry.subjects) > 1 and last == "half"
    return of_two and (last, "of") in pairwise(said)


def of_what_they_make(job: LineWords, match: Match) -> bool:
    """`the difference in length of A and B`, `the overlap of A and B`: one value, and none of each?"""
    nouns = [f for f in match.fills if f.slot.kind == "noun"]
    if len(nouns) < 2 or "... and ..." not in match.pattern.plain:
        return False
    own = {w for s in job.subjects for w in f"{s.text} {job.place.names.note_of(s.text)}".lower().split()}
    first = {word_of(t) for t in nouns[0].tokens} - own
    return "of" in first and not first.isdisjoint(_MADE_OF_TWO)


def says_how_much(job: LineWords, match: Match) -> bool:
    """`comprising wax as the main component`, `only wax`: does the noun say how much there is of it?"""
    own = {
        *job.subjects[0].text.lower().split(),
        *job.place.names.note_of(job.subjects[0].text).split(),
    }
    said = {word_of(t) for f in match.fills if f.slot.kind == "noun" for t in f.tokens}
    return not (said - own).isdisjoint(listed("ingredients", "how_much"))


def is_of_another_moment(job: LineWords, fill: Fill) -> bool:
    """`the mean maximum temperature`, `the final temperature rise`: says a noun more than what it is?"""
    words = [word_of(t) for t in fill.tokens] if fill.slot.kind == "noun" else []
    own = job.subjects[0].text.lower().partition(" of ")[0].split()
    note = job.place.names.note_of(job.subjects[0].moments["start"][0]).lower()
    more = AVERAGES | _EXTREMES | listed("limits", "changes") | listed("conditional", "drops")
    said = set(words) - set(own) - set(note.split())
    named = (
        own[-1] in words
        or not _ANY_MEASURE.isdisjoint(words)
        or any((k := kind_word(w)) and _measures(k, job.first) for w in words)
    )
    other = said - set(DETERMINERS) - {"of"} if note.startswith("of ") else set[str]()
    return bool(words) and (bool(said & more) or not named or bool(other))


def takes_for_an_extent(job: LineWords, match: Match, tokens: tuple[Token, ...]) -> bool:
    """`a thickness of at least 4 % of the diameter`: is the diameter taken for another extent of it?

    So is the right width, where `a left width of 2 mm` names one of the two.
    """
    if match.entry.subjects[1:2] != OF_EXTENTS:
        return False
    first = next((i for i, t in enumerate(tokens) if has_number(t)), len(tokens))
    behind = f" {' '.join(map(word_of, tokens[first:]))} "
    said = f" {' '.join(map(word_of, tokens))} "
    measure = next((w for w in map(word_of, tokens) if w in OWN_MEASURES), "")
    piece = len(tokens) < len(job.words.tokens)
    if piece and any(s.text.lower() == measure for s in job.subjects):
        return True  # 'a diameter of less than 15 µm' is that of what is called the diameter
    ways = [s.text.lower() for s in job.subjects if s.text.lower() not in OWN_MEASURES]
    named = sum(f" {way} " in said for way in ways)
    other = any(f" {s.text.lower()} " in behind for s in job.subjects[1:])
    return other or 0 < named < len(ways)


def is_a_range_beside_another(job: LineWords, match: Match) -> bool:
    """`10 to 20 % smaller than the cup`: is what it is so much beside declared, so that the two differ by a
    range that is read as any other is?"""
    spans = sum(f.slot.kind == "difference" and f.slot.name in ("D", "E") for f in match.fills)
    beside = next((f for f in match.fills if f.slot.name == "T"), None)
    return spans > 1 and beside is not None and job.named(beside.tokens) is not None


def takes_over_for_across(bound: Bound, tokens: tuple[Token, ...]) -> bool:
    """`over 0.05 to 0.10 wt%`: a share of a whole extends over nothing, and 'over' is 'more than'.

    Common practice.
    """
    kind = bound.kind if isinstance(bound, Typed) else None
    share = kind is not None and not kind.dimension and bool(kind.split[0])
    return share and low_end_at(tokens) >= 0


def low_end_at(tokens: tuple[Token, ...]) -> int:
    """Where 'over' stands before the low end of a range; -1 for none."""
    words = [word_of(t) for t in tokens]
    for at in (i for i, word in enumerate(words[:-3]) if word == "over" and has_number(tokens[i + 1])):
        to = next((i for i in (at + 2, at + 3) if words[i : i + 1] in (["to"], ["-"])), 0)
        if to and any(map(has_number, tokens[to + 1 : to + 2])):
            return at
    return -1


def is_of_moments(job: LineWords) -> bool:
    """Does what stands left of the colon say when each of like parts is?"""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    name = job.subjects[0].text
    timed = kind is not None and kind.dimension == TIME
    return timed and job.sort == "parts" and is_a_moment(name, job.place.names.note_of(name))


def is_of_places(job: LineWords, match: Match) -> bool:
    """`at least 8 mm apart`, of heights, or `more than 8 hours apart` as a limit of each moment."""
    name = job.subjects[0].text
    note = job.place.names.note_of(name)
    kind = job.first.kind if isinstance(job.first, Typed) else None
    timed = kind is not None and kind.dimension == TIME
    if match.entry.each_has and not timed:
        return not has_a_place(name, note)
    limits = tuple(f.tokens for f in match.fills if f.slot.kind == "limit")
    each = any(word_of(t) in ("each", "every") for t in job.words.tokens)
    if limits and not each and is_of_moments(job):
        span = job.span(job.words.tokens)
        before = span.source.text[: span.start].rpartition("\n")[2].rpartition(":")[2].lower().split()
        if any(says_over_how_long(tokens, before) for tokens in (job.words.tokens, *limits)):
            return True
    return any(tell_how_far_apart(tokens, name, note, timed) for tokens in limits)


def mixes_amounts(job: LineWords, members: tuple[tuple[Token, ...], ...]) -> bool:
    """`no oil or at most 6 % of gum`, `at least 2 or 3`: may one be of another thing, or share words?"""
    if len(members) < 2 or not isinstance(job.first, Typed):
        return False
    if any(prefers(member) for member in members):
        return True  # what is preferred is no choice besides the others
    if any(share_their_words(job, behind_its_name(members[0]), later) for later in members[1:]):
        return True
    if excludes_a_value(members[-1]):
        return True  # '4, 6 or 8 but not 5': what is excluded is so of all of them
    own, others = (
        any(map(said, members)) for said in (partial(names_own_amount, job), partial(share_of_another, job))
    )
    return own and others


def share_their_words(job: LineWords, left: tuple[Token, ...], right: tuple[Token, ...]) -> bool:
    return shares_the_words(left, right, job.named(right) is not None)


def parts_at_most(match: Match, tokens: tuple[Token, ...]) -> bool:
    """`at most a trace`: is `most` alone taken for a word of the phrase?"""
    said = [word_of(t) for t in tokens]
    return match.wording.startswith("most") and ("at", "most") in pairwise(said)


def converts_another_kind(match: Match) -> bool:
    """`at most 5 mm (20 °C)`: what the brackets hold is no other way to write what stands before them."""
    if "( ... )" not in match.pattern.plain:
        return False
    units = [t.number.unit for f in match.fills for t in f.tokens if t.number and t.number.unit]
    return len({unit.kind.dimension for unit in units}) > 1


def asks_for_a_basis_that_is_said(match: Match) -> bool:
    """`a pressure of at least 40 bar absolute`: what is told by its unit is no gauge pressure to anyone."""
    units = [t.number.unit for f in match.fills for t in f.tokens if t.number and t.number.unit]
    return "pressure of" in match.pattern.plain and any(u.kind.basis in _OF_PRESSURE for u in units)


def begins_with_an_article(match: Match) -> bool:
    """`at least 2 wt% of oil and a gum`, `and contains gum`: is of a later noun no amount said?"""
    anew = {"a", "an"} | listed("asides", "holding")
    article = [word_of(f.tokens[0]) in anew for f in match.fills if f.slot.kind == "noun"]
    return bool(article) and not article[0] and any(article)


def leaves_whole_of_share(match: Match, tokens: tuple[Token, ...]) -> bool:
    """`the difference between the rim and the gap is at most 10 % of the rim`, with `of the rim` unheard.

    A share without it may be one of either.
    """
    nouns = [fill.tokens for fill in match.fills if fill.slot.kind == "noun"]
    last = tokens[-1]
    at = next((i for i, t in enumerate(tokens[:-2]) if is_bare_share(t) and tokens[i + 1].text == "of"), None)
    heard = any(fill.tokens[-1].end >= last.end for fill in match.fills)
    return at is not None and len(nouns) == 2 and not heard


def leaves_a_tie_unheard(match: Match, own: frozenset[str]) -> bool:
    """`the mean length of the gap and the rim`, `both have a length of`: is what ties two things unheard?

    A word that all of the things have, `the mean gap and the mean rim`, ties none.
    """
    nouns = [{word_of(t) for t in f.tokens} for f in match.fills if f.slot.kind == "noun"]
    # A sum that stands for one thing by itself ties no others.
    if len(nouns) < 2 or any(words - set(DETERMINERS) == {"sum"} for words in nouns):
        return False
    common = set[str]().union(*nouns) & (listed("names", "tying") - own)
    return any(any(word not in noun for noun in nouns) for word in common)


def _measures(kind: KindWord, bound: Bound) -> bool:
    return isinstance(bound, Typed) and bound.kind is not None and kind.accepts(bound.kind)
