"""Like parts by their name in words on all of them: 'at least one of the ribs' as 'at least one of them'."""

from __future__ import annotations

from scopecheck.core.declared import Part
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of


def with_them(tokens: tuple[Token, ...], part: Part) -> tuple[Token, ...]:
    """The words with 'of them' for `of the ribs`, and for `ribs` of 'at least two ribs having'.

    After a share it is 'by number of them'.
    """
    names = [part.name.lower().split(), part.plural.lower().split()]
    if not {*names[0], *names[1]} - {names[0][-1], names[1][-1]} & {word_of(t) for t in tokens}:
        names += [names[0][-1:], names[1][-1:]]  # 'the pellets', of sample pellets
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words)):
        width = max((len(n) for n in names if n and words[at : at + len(n)] == n), default=0)
        if not width:
            continue
        start = at - 1 if words[at - 1] in ("the", "said", "these", "those") else at
        if words[start - 1 : start] == ["of"] and start > 1:
            start -= 1
        before, after = words[:start], words[at + width : at + width + 1]
        of_them = words[start] == "of" or words[start - 1] == "all"
        behind = listed("parts", "having") | listed("asides", "holding") | listed("transitions", "open")
        behind |= {"each", "made"}
        named = start == at or words[start] == "said"
        says_which = of_them or (named and after and after[0] in behind)
        if says_which and after == ["each"] and _is_number(tokens, start - 1) and _is_plain(words[:start]):
            return (*tokens[:start], *tokens[at + width :])
        first = _quantified(tokens, words, start, of=words[start] == "of") if says_which and before else -1
        if first < 0:
            continue
        shares = _is_share(tokens[start - 1]) or (words[start - 1] == "more" and _is_share(tokens[first]))
        told = ("by", "number", "of", "them") if shares else ("of", "them")
        tokens = _with_per_cent_shared(tokens, start - 1) if shares else tokens
        them = tuple(replace(tokens[at], text=w, start=tokens[at].start) for w in told)
        if words[:3] in (["the", "at", "least"], ["said", "at", "least"]) and first == 3:
            # 'The at least one rib' are those that there are, or so many of them.
            each = (replace(tokens[at], sort="mark", text=","), replace(tokens[at], text="each"))
            rest = tokens[at + width + (after == ["each"]) :]
            return (*tokens[1:start], *them, *each, *rest)
        if words[start - 1] == "plurality" and words[at - 1] in ("the", "said", "these", "those"):
            # 'A plurality of the ribs' are some of them, 'a plurality of ribs' may be all that there are.
            article = first > 0 and words[first - 1] == "a"
            several = replace(tokens[start - 1], text="several")
            return (*tokens[: first - article], several, *them, *tokens[at + width :])
        if words[first:start] == ["no"]:
            tokens = (*tokens[:first], replace(tokens[first], text="none"), *tokens[start:])
        elif words[first + 1 : start] == ["or", "more"]:
            said = [replace(tokens[first], sort="word", text=w, number=None) for w in ("at", "least")]
            return (*tokens[:first], *said, tokens[first], *them, *tokens[at + width :])
        return (*tokens[:start], *them, *tokens[at + width :])
    return tokens


def with_one_of_a_kind(tokens: tuple[Token, ...], part: Part) -> tuple[Token, ...]:
    """`a rib with a height of 3 mm` as one of the kind with it: one of them may do, or each is meant."""
    own = part.name.lower().split()
    words = [word_of(t) for t in tokens]
    behind = 1 + len(own)
    if words[:1] not in (["a"], ["an"]) or words[1:behind] != own or (len(own) > 1 and part.within):
        return tokens
    having = words[behind : behind + 1] in (["with"], ["having"], ["has"])
    if not having or any(words[i : i + len(own)] == own for i in range(behind, len(words))):
        return tokens
    kind = (replace(tokens[0], sort="word", text=w, end=tokens[behind - 1].end) for w in _ONE.split())
    return (*kind, *tokens[behind:])


_ONE = "one of the kind"


def with_ends_of_each(tokens: tuple[Token, ...], part: Part) -> tuple[Token, ...]:
    """`the ribs have a maximum height of 8 mm` as each having it: no mean and no one of them is meant."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] in (["the"], ["said"], ["all"]))
    end = start + len(part.plural.split())
    if words[start:end] != part.plural.lower().split() or words[end : end + 1] not in _HAVING:
        return tokens
    behind = end + 1 + (words[end + 1 : end + 2] in (["a"], ["an"], ["the"]))
    if words[behind : behind + 1] not in (["maximum"], ["minimum"], ["maximal"], ["minimal"]):
        return tokens
    return (replace(tokens[start], text="each", end=tokens[end - 1].end), *tokens[end:])


_HAVING = (["have"], ["having"], ["with"])


def _quantified(tokens: tuple[Token, ...], words: list[str], end: int, of: bool) -> int:
    """Where what says how many of the parts begins, which ends here; -1 where it says nothing of that."""
    word, before = words[end - 1], words[: end - 1]
    number = _is_number(tokens, end - 1)
    if words[end - 2 : end] == ["or", "more"] and end > 2 and _is_number(tokens, end - 3):
        return end - 3
    if of and words[end - 2 : end] == ["by", "number"] and _is_share(tokens[end - 3]):
        return end - 3
    if of:
        return end - 1 if number or word in listed("parts", "how_many") else -1
    if word in ("no", "all", "each"):
        return end - 1
    bound = before[-2:] in (["at", "least"], ["at", "most"]) or before[-1:] in (["exactly"], ["only"])
    return end - 1 if number and bound else -1


def _with_per_cent_shared(tokens: tuple[Token, ...], last: int) -> tuple[Token, ...]:
    """`80 to 90 % of the pellets` with both numbers in per cent."""
    first, number = tokens[last - 2], tokens[last].number
    joined = last > 1 and word_of(tokens[last - 1]) in ("to", "and", "-", "–", "or")
    if not joined or number is None or first.number is None or first.number.unit is not None:
        return tokens
    shared = replace(first, number=replace(first.number, unit=number.unit))
    return (*tokens[: last - 2], shared, *tokens[last - 1 :])


def _is_number(tokens: tuple[Token, ...], at: int) -> bool:
    return tokens[at].number is not None or word_of(tokens[at]) in NUMBER_WORDS


def _is_plain(words: list[str]) -> bool:
    """Does nothing but an article stand before the last of them?"""
    return all(w in ("the", "said", "having", "with") for w in words[:-1])


def _is_share(token: Token) -> bool:
    """Whether a number is in per cent: so many of like parts in a hundred, by number."""
    return token.number is not None and token.number.unit is not None and token.number.unit.symbol == "%"


def without_own_interval(tokens: tuple[Token, ...], name: str, note: str) -> tuple[Token, ...]:
    """`at intervals of 8 hours`, of what is itself an interval, as 8 hours: each part has one of its own."""
    words = [word_of(t) for t in tokens]
    if _called(name, note).isdisjoint(SPACINGS):
        return tokens
    lead = next((run for run in _EVERY if words[: len(run)] == run), [])
    end = len(words) - (words[-1:] == ["apart"])
    return tokens[len(lead) : end] or tokens


def tell_how_far_apart(tokens: tuple[Token, ...], name: str, note: str, timed: bool) -> bool:
    """`more than 8 hours apart`: from one part to the next, and no limit of each by itself."""
    said = {word_of(t) for t in tokens} & (_FROM_ONE_TO_THE_NEXT if timed else {"apart"})
    own = _called(name, note)
    return bool(said) and own.isdisjoint(SPACINGS) and own.isdisjoint(w.removesuffix("s") for w in said)


def has_a_place(name: str, note: str) -> bool:
    """May parts be so far apart by what this field of theirs says: a place, and no height?"""
    return not _called(name, note).isdisjoint(_PLACES)


def is_a_moment(name: str, note: str) -> bool:
    """Does the field of the parts say when each of them is, and not how long it takes?"""
    return not _called(name, note).isdisjoint(_MOMENTS) or name.lower().partition(" of ")[0] == "time"


def says_over_how_long(tokens: tuple[Token, ...], before: list[str]) -> bool:
    """`over a period of seven days`, `within 48 hours`: no more than a time in which something happens?

    `before` are the words of the line that something else was made of.
    """
    first = next((i for i, t in enumerate(tokens) if _is_number(tokens, i)), len(tokens))
    words = before + [word_of(t) for t in tokens[:first]]
    begins = next((w for w in words if w not in _BEFORE_A_PERIOD), "")
    behind = {word_of(t) for i, t in enumerate(tokens) if i > first and not _is_number(tokens, i)}
    return begins in _DURING and _OF_PERIODS.issuperset(words) and behind <= _OF_PERIODS - {"of"}


def _called(name: str, note: str) -> set[str]:
    return {w.strip(",;().").removesuffix("s") for w in f"{name} {note}".lower().split()}


SPACINGS = listed("parts", "spacings")
_PLACES = listed("parts", "places")
_EVERY = [["at", "intervals", "of"], ["at", "an", "interval", "of"], ["once", "every"], ["every"]]
_FROM_ONE_TO_THE_NEXT = frozenset("apart interval intervals every often frequently".split())

_MOMENTS = ("moment", "instant", "date", "day", "hour")

_DURING = ("over", "within", "in", "during", "for", "throughout", "inside")

_BEFORE_A_PERIOD = frozenset("all of them they are is being lie lies".split())

_OF_PERIODS = _BEFORE_A_PERIOD | frozenset(
    "over within in during for throughout inside a an the total single time period span course window space"
    " of at least most no not more less than up to longer shorter about approximately and or - – between from"
    " below above under".split()
)
