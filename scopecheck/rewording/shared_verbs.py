"""Two limits that share a verb, which the claim says once.

`A load of 500 kg or a speed of 2 m/s is exceeded`, `the load exceeds 500 kg or the speed 2 m/s`, `above 2 A
or 90 °C`.

Without it the other value would be read by itself, as one that must be met exactly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, pairwise, starmap

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
Places = list[tuple[int, int]]
"""Where words begin and end."""

_LEADS = (["at", "least", "one", "of"], ["either"], ["both"], ["neither"])
_BE = {"are": "is", "were": "was", "have": "has"}
_ALSO_BE = ("is", "was", "has", "been", "not", "never")
_TAILS = (["or", "less"], ["or", "more"], ["or", "below"], ["or", "above"], ["or", "lower"], ["or", "higher"])


def with_shared_verb(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """The words with the verb of one limit at the others too, which have none of their own."""
    for places in _values(tokens, subjects):
        limits = [tokens[start:end] for start, end in places]
        if _denies_any(tokens, places):
            continue
        if found := _from_behind(limits) or _from_before(limits):
            ends = [start for start, _ in places[1:]] + [places[-1][1]]
            between = (tokens[end:then] for (_, end), then in zip(places, ends, strict=True))
            said = chain.from_iterable(chain(*zip(found, between, strict=True)))
            return (*tokens[: places[0][0]], *said, *tokens[places[-1][1] :])
    return tokens


def may_share_an_end(tokens: Tokens, subjects: tuple[Subject, ...]) -> bool:
    """Whether the words leave it open what belongs to all values, or how: `500 kg and 2 m/s or less`,
    `a load of 500 kg or a speed of 2 m/s is not exceeded`."""
    for places in _values(tokens, subjects):
        *limits, last = (tokens[start:end] for start, end in places)
        end = _number(last) + 1
        behind = [word_of(t) for t in last[end:]]
        shared = behind in _TAILS or (_ends_in_verb(behind) and _denies_any(tokens, places))
        if shared and all(map(_is_bare, (*limits, last[:end]))):
            return True
    return False


def _denies_any(tokens: Tokens, places: Places) -> bool:
    """`A or B is not exceeded`: neither, or not both."""
    last = places[-1]
    return word_of(tokens[last[0] - 1]) == "or" and not _DENYING.isdisjoint(
        map(word_of, tokens[slice(*last)])
    )


_DENYING = frozenset(("not", "never"))


def _values(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[Places]:
    """Where the words on values of different things stand that are joined by an 'and' or 'or', or by commas
    and that."""
    if sum(isinstance(s.bound, Typed) and s.parts is None for s in subjects) < 2:
        return
    said = [word_of(t) for t in tokens]
    parting = listed("limits", "governing") | {",", "soon", "upon", "then", "until", "provided"}
    for at in (i for i, w in enumerate(said) if w in ("and", "or", "nor") and i):
        end = next((i for i in range(at + 1, len(said)) if said[i] in parting), len(said))
        places = [(at + 1, end)]
        before = at - (said[at - 1] == ",")
        while before > 0 and (said[before] == "," or before >= at - 1):
            start = next((i for i in range(before, 0, -1) if said[i - 1] in parting), 0)
            start += said[start - 1 : start + 1] == ["soon", "as"]
            if sum(t.number is not None for t in tokens[start:before]) != 1:
                break
            places.insert(0, (start, before))
            before = start - 1
        numbers = [t for start, end in places for t in tokens[start:end] if t.number]
        joined = len(places) > 1 and len(numbers) == len(places) and all(starmap(_unlike, pairwise(numbers)))
        if joined and _OF_SEVERAL.isdisjoint(said[places[0][0] : end]):
            yield places


_OF_SEVERAL = frozenset(("between", "times", "each", "from", "by"))


def _unlike(first: Token, second: Token) -> bool:
    """Are the two values of different kinds, as no two limits of one thing are?"""
    kinds = [t.number.unit.kind if t.number and t.number.unit else None for t in (first, second)]
    return kinds[0] != kinds[1]


def _number(tokens: Tokens) -> int:
    return next(i for i, t in enumerate(tokens) if t.number)


def _is_bare(tokens: Tokens) -> bool:
    """`a load of 500 kg`, `500 kg`: a value that nothing limits, with the name of its thing at most."""
    said = [word_of(t) for t in tokens]
    lead = next((len(run) for run in _LEADS if said[: len(run)] == run), 0)
    return bool(tokens[-1].number) and _LIMITING.isdisjoint(said[lead:])


def _ends_in_verb(said: list[str]) -> bool:
    """`is exceeded`, `have been reached`."""
    return bool(said) and said[-1] in listed("limits", "met") and _VERBS.issuperset(said[:-1])


def _from_behind(limits: Sequence[Tokens]) -> list[Tokens]:
    """`a load of 500 kg | a speed of 2 m/s is exceeded`: the verb at each; nothing where it is not shared."""
    *before, last = limits
    end = _number(last) + 1
    verb, said = last[end:], [word_of(t) for t in last[end:]]
    if not (_ends_in_verb(said) and all(map(_is_bare, (*before, last[:end])))):
        return []
    one = tuple(replace(t, text=_BE.get(w, w)) for t, w in zip(verb, said, strict=True))
    return [*((*tokens, *_at(tokens[-1].end, one)) for tokens in before), (*last[:end], *one)]


def _from_before(limits: Sequence[Tokens]) -> list[Tokens]:
    """`the load exceeds 500 kg | the speed 2 m/s`, `exceeding a load of 500 kg | a speed of 2 m/s`."""
    first, *behind = limits
    if not all(tokens[-1].number for tokens in limits):
        return []
    verb, article = _limiting_run(first[:-1]), 0
    if not verb:
        article = max((i for i, t in enumerate(first) if word_of(t) in _ARTICLES), default=0)
        verb = _limiting_run(first[:article])
    found = [_with_verb(tokens, verb, first[-2:-1] if article else ()) for tokens in behind] if verb else [()]
    return [first, *found] if all(found) else []


def _with_verb(tokens: Tokens, verb: Tokens, of: Tokens) -> Tokens:
    """Words on a value that have no verb, with this one: before its name, where what stands before the value
    is an `of`; none where they have one, or are put in another way."""
    named, said = tokens[:-1], [word_of(t) for t in tokens[:-1]]
    if of:
        alike = [word_of(of[0])] == ["of"] == said[-1:] and _LIMITING.isdisjoint(said)
        return (*_at(tokens[0].start, verb), *tokens) if alike else ()
    plain = named[: len(named) - (said[-1:] == [word_of(verb[-1])])]
    if not {*_LIMITING, "of"}.isdisjoint(map(word_of, plain)):
        return ()
    return (*plain, *_at(tokens[len(plain)].start, verb), tokens[-1])


def _limiting_run(tokens: Tokens) -> Tokens:
    """The words at the end that say a limit, `does not exceed`, `is at most`; none for a bare `is`."""
    start = len(tokens)
    while start and word_of(tokens[start - 1]) in _LIMITING:
        start -= 1
    run = tokens[start:]
    return () if (_LIMITS - {"at"}).isdisjoint(map(word_of, run)) else run


_ARTICLES = ("a", "an", "the")


def _at(place: int, tokens: Tokens) -> Tokens:
    """The words as understood at a place where they do not stand."""
    return tuple(replace(t, start=place, end=place) for t in tokens)


_VERBS = frozenset((*_BE, *_BE.values(), *_ALSO_BE))
_EXCEEDING = listed("limits", "reaching")
_LIMITS = _EXCEEDING | OF_LIMITS - {"and", "or", "to", "from", "between"}
_LIMITING = _LIMITS | _VERBS | {"being", "does", "do", "to", "between", "from", "at", "within"}
