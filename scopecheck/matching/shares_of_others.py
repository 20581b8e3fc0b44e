"""Words before `of` another quantity, `at most 80 % of the width`: read of the quotient with it."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Divide
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import has_number, joined_parts, word_of
from scopecheck.matching.line_words import DETERMINERS, OFF, L, LineWords
from scopecheck.matching.shared_limits import beside_a_multiple, is_first_limit
from scopecheck.matching.subjects import (
    Subject,
    is_bare_share,
    is_fraction,
    without_basis,
)
from scopecheck.matching.worked_out import bracketed, is_open_sum
from scopecheck.vocabulary.names import Typed


def share_of_another(job: L, tokens: tuple[Token, ...]) -> tuple[L, tuple[Token, ...]] | None:
    """`at most 80 % of the width`: the words before 'of', to be read of the quotient of the two.

    None unless the words end in a declared quantity of the kind of what stands left of the colon.
    """
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, Typed):
        return None
    own, written = job.place.names.declared(job.subjects[0].text), tokens
    if amount_of_another(job, tokens):
        return None
    if job.first.kind is not None and job.first.kind.basis and not job.first.kind.dimension:
        tokens = without_basis(tokens, job.first.kind.split[0])
    if found := _share_of_sum(job, tokens):
        return found
    shared = any(map(is_bare_share, tokens))
    ends = shared and [word_of(t) for t in tokens[-2:]] in (["or", "more"], ["or", "less"])
    behind = tokens[-2:] if ends else ()  # '20 % of the rim or more'
    tokens = tokens[:-2] if ends else tokens
    for index in range(len(tokens) - 2, 0, -1):
        other, limit = of_what(job, tokens, index), tokens[:index]
        limit = (*(limit[:-1] if limit[-1].text == "," else limit), *behind)
        if other is None or not any(map(_is_share, limit)):
            continue
        if is_part_of_it(job, other.name):
            continue  # of a class nothing is a share of one of its members
        if names_own_amount(job, limit) or _has_amounts(job, limit) or beside_a_multiple(limit):
            continue
        if begins_with_an_amount(job, written[:index]):
            continue  # 'at least two, at most half of the ribs': so many, and a share of them
        if not OFF.isdisjoint(map(word_of, limit)):
            continue  # 'within 10 % of the width' is so far off the width, and no share of it
        if other.whole and isinstance(own, NumberDecl) and not own.whole:
            continue  # a share of a number of things is that share, no quotient with the number
        if (read := quotient(job, other)) and read.readable(limit):
            job.place.names.speak(other.name)
            return read, limit
    return None


def amount_of_another(job: LineWords, tokens: tuple[Token, ...]) -> str:
    """`at most 2 wt% of sugar`, `2 % of a sugar`: how much of another share of the whole there is.

    Its name, else ''. `2 wt% of the sugar`, `2 % based on sugar`, `half of sugar` and `80 % of rated
    efficiency` are shares of it.
    """
    words = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(words[:-1]) if w == "of" and i):
        start = at + 1 + (words[at + 1] in ("a", "an", "any", "some"))
        other = job.declared(tokens[start:]) if words[start:] and words[start] not in DETERMINERS else None
        if other is None or other.kind.dimension:
            continue
        units = [t.number.unit for t in tokens[:at] if t.number and t.number.unit]
        if any(unit.kind.basis and not unit.kind.dimension for unit in units):
            return other.name if other.kind.basis else ""
        if any(map(is_bare_share, tokens[:at])) and _is_ingredient(other):
            return other.name
    return ""


def _is_ingredient(other: NumberDecl) -> bool:
    """Is it a share of a whole, and what there is of something and not what something has?"""
    last = other.name.lower().split()[-1]
    shared = bool(other.kind.basis) or other.unit.symbol == "%"
    return shared and last not in listed("measures", "nouns") | listed("asides", "had_by_things")


def is_part_of_it(job: LineWords, other: str) -> bool:
    """Is it a member of the class of ingredients that stands left of the colon?"""
    classes = (of for made in job.place.names.compositions.values() for of in made.classes)
    return any(name == job.subjects[0].text and other in members for name, members in classes)


def _has_amounts(job: LineWords, tokens: tuple[Token, ...]) -> bool:
    """`at least 5 mm or 80 %`, `at least the rim or 80 %`: do amounts stand beside the shares?"""
    units = (t.number.unit for t in tokens if t.number and not is_bare_share(t))
    ends = range(1, len(tokens) + 1)
    names = (job.declared(tokens[i:end]) for end in ends for i in range(max(end - 3, 0), end))
    own = f" {job.subjects[0].text.lower()} "  # 'the height of the ribs' is no amount of ribs
    others = (name for name in names if name and f" {name.name.lower()} " not in own)
    return any(u and u.kind.dimension for u in units) or any(others)


def begins_with_an_amount(job: LineWords, tokens: tuple[Token, ...]) -> bool:
    """Is the first of two limits one of what is no share, as `at least two holes, at most half`?"""
    own = {"the", *job.subjects[0].text.lower().split()}
    tokens = tuple(t for t in tokens if word_of(t) not in own)
    commas = ((tokens[:i], tokens[i + 1 :]) for i, t in enumerate(tokens) if t.text == ",")
    return any(
        is_first_limit(first)
        and "between" not in map(word_of, first)
        and any(map(_is_written_share, then))
        and not any(map(_is_written_share, first))
        for first, then in (*commas, *joined_parts(tokens))
    )


def _is_share(token: Token) -> bool:
    return is_bare_share(token) or is_fraction(token)


def _is_written_share(token: Token) -> bool:
    """So many per cent, on whichever basis they have been taken since, or a fraction, also as a multiple."""
    return _is_share(token) or token.text.endswith(" %") or word_of(token) in ("half", "twice", "thrice")


def names_own_amount(job: LineWords, tokens: tuple[Token, ...]) -> bool:
    """`no oil and at most 6 %`, `only oil and 6 %`, `3 % of oil or 6 %`, `contains oil and 6 %`, `more oil
    than wax`: is an amount of it told?"""
    own, words = job.subjects[0].text.lower().split(), [word_of(t) for t in tokens]
    places = (i for i in range(len(words)) if words[i : i + len(own)] == own)
    return any(
        words[i - 1 : i] in (["no"], ["only"], ["more"], ["less"], ["much"])
        or any(map(has_number, tokens[:i]))
        or (_holds(words[:i]) and words[i + len(own) : i + len(own) + 1] in ([], *_JOINTS))
        for i in places
    )


_JOINTS = (["and"], ["but"], ["or"], [","])


def _holds(before: list[str]) -> bool:
    """Do words that something contains, or is free of, what follows stand right before it?"""
    before = before[: len(before) - (before[-1:] in (["a"], ["an"], ["the"]))]
    free = any(run_at(before, i, "asides", "free_of") == len(before) - i for i in range(len(before)))
    return free or (bool(before) and before[-1] in listed("asides", "holding") | {"with", "having", "has"})


def quotient(job: L, other: NumberDecl) -> L | None:
    """The words as read of what stands left of the colon in shares of another quantity."""
    return _quotient_by(job, job.place.names.value(other), other.name)


def _quotient_by(job: L, other: Typed, called: str) -> L | None:
    """The words as read of what stands left of the colon in shares of another value, called so.

    None where it is another kind of quantity, the same quantity, or a level, which has no shares.
    """
    if not isinstance(job.first, Typed) or job.first.kind is None or job.first.kind.basis == "level":
        return None
    if other.kind != job.first.kind or other.term == job.first.term:
        return None
    own = job.subjects[0]
    share = Typed(Divide(job.first.term, other.term, called), PLAIN_KIND)
    return job.of(Subject(share, f"{own.text} / {called}", own.span))


def says_how_near(tokens: tuple[Token, ...]) -> bool:
    """`within 10 %`, of a sum: no further than that from it, and no share of it."""
    return any(word_of(at) == "within" and then.number for at, then in pairwise(tokens))


def _share_of_sum(job: L, tokens: tuple[Token, ...]) -> tuple[L, tuple[Token, ...]] | None:
    """`20 to 50 % of the sum of the oil and the gum`, of what stands left of the colon in that sum."""
    for at in (i for i, t in enumerate(tokens) if i and word_of(t) == "of"):
        summed = job.worked_out_of_several(tokens[at + 1 :])
        if summed is None or is_open_sum(tokens[at + 1 :]) or not any(map(is_bare_share, tokens[:at])):
            continue
        if says_how_near(tokens[:at]):
            continue
        if (read := _quotient_by(job, summed.value, bracketed(summed))) and read.readable(tokens[:at]):
            for name in summed.made_of:
                job.place.names.speak(name.name)
            return read, tokens[:at]
    return None


def of_what(job: LineWords, tokens: tuple[Token, ...], index: int) -> NumberDecl | None:
    """The quantity named behind 'of', 'based on' or 'based on the weight of' at this place, if one is."""
    words = [word_of(t) for t in tokens]
    width = run_at(words, index, "asides", "before_wholes")
    if not width:
        return None
    beside = listed("asides", "every") | {"of"}
    if isinstance(job.first, Typed) and job.first.kind and job.first.kind.split[0] == "by mass":
        beside |= listed("asides", "by_mass")
    for start in range(index + width, len(tokens)):
        if found := job.declared(tokens[start:]):
            return found
        if words[start] not in beside:
            return None
    return None


def names_a_share(job: LineWords, tokens: tuple[Token, ...]) -> bool:
    """Do words beside a limit name, as the basis, another share of the same whole?"""
    others = (of_what(job, tokens, i) for i in range(len(tokens) - 1))
    return isinstance(job.first, Typed) and any(
        o is not None and o.kind == job.first.kind and bool(o.kind.basis) and not o.kind.dimension
        for o in others
    )
