"""What stands beside the sum of several: `the oil is 20 to 30 % of the combined weight of oil and wax`.

Such words limit the share of the one in the sum, whichever way round they are written, and never the sum.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import accumulate
from re import Match, Pattern

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Divide
from scopecheck.foundations.kinds import WHOLE_OF, Kind
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit, kind_word
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.shares_of_others import says_how_near
from scopecheck.matching.subjects import Subject, is_bare_share, without_basis
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.plainer_amounts import is_by
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_LEAST = 5
_THE = "(?:(?:the|an?|said|both) )?"
_ADDED = "(?:combined|total|summed|joint|aggregate|cumulative|cumulated|overall)"
_MIXED = frozenset("mixture blend combination".split())
_TOGETHER = "(?:taken together|combined|together|in total|in combination|altogether)"
_SHARED_IN = (
    r"(?:on the basis|as an? (?:percentage|share|fraction|proportion)) of|based (?:up)?on|relative to"
    r"|with (?:respect|regard) to|in relation to|referred to|calculated on"
)
_PARTS = r"(?:per|for|to|based on|relative to|with respect to|in relation to) 100 parts (?:by \w+ )?of"
_IS = (
    r"(?:is|are|being|of|makes up|make up|making up|accounts? for|accounting for|constitut(?:es?|ing)"
    r"|represent(?:s|ing)?|forms?|amounts? to|amounting to|corresponds? to|lies|ranges"
    r"|(?:(?:is|are|being) )?(?:(?:present|contained|used|provided|included|comprised) )?(?:in|at) "
    r"(?:an? |the )?(?:amounts?|content|proportion|quantity|concentration|share) of)"
)
_HOLDS = r"(?:contain(?:s|ing)?|compris(?:es?|ing)|includ(?:es?|ing)|has|having|consist(?:s|ing)? (?:to|of))"
_OF_SHARES = frozenset("ratio share proportion fraction percentage quotient".split())
_AMOUNTS = frozenset("amount content quantity concentration".split())
_CONDITIONS = frozenset("if when unless while provided whereby".split())


@record
class _Known:
    """What may be summed, all of one kind, by the names that the words have for them."""

    values: Mapping[str, Typed]
    kind: Kind

    @property
    def one(self) -> str:
        """A pattern for one of them, with what is measured of it."""
        measured = rf"(?:(?:{_any_of(listed('measures', 'nouns'))})s?)"
        return rf"{_THE}(?:(?:{measured} )+of {_THE})?(?:{_any_of(self.values)})(?: {measured})?"

    @property
    def several(self) -> str:
        joined = r"(?: ,)? (?:and|plus)"
        return rf"{self.one}(?:(?:{joined}| ,) {self.one})*?{joined} {self.one}(?: plus {self.one})*"

    def named(self, text: str) -> tuple[str, ...]:
        """The names in words that are matched by `one` or `several`, in their order."""
        return tuple(regex(rf"(?<!\S)(?:{_any_of(self.values)})(?!\S)").findall(text))

    def measured_otherwise(self, text: str) -> str:
        """The word for another measure than theirs that stands beside their names; '' if none does."""
        words = regex(rf"(?<!\S)(?:{_any_of(self.values)})(?!\S)").sub("", text).split()
        return next((w for w in words if not self._fits(w.removesuffix("s"))), "")

    def _fits(self, word: str) -> bool:
        if basis := BY_WHAT.get(word):
            return is_by(self.kind, basis) or self.kind == PLAIN_KIND
        called = None if word in _AMOUNTS else kind_word(word)
        return called is None or not called.kind.dimension or called.accepts(self.kind)


def _any_of(words: Mapping[str, Typed] | frozenset[str]) -> str:
    return "|".join(map(re.escape, sorted(words, key=len, reverse=True)))


def share_of_sum(tokens: Tokens, subjects: Things, names: Names) -> tuple[Tokens, Things, str] | None:
    """The limit of words about a share of a sum, what it is of, and a word for another measure than theirs.

    Of a ratio to a sum these are the words with one for the sum, and both things. None for other words.
    """
    tokens = _with_both_named(tokens, subjects)
    said = {word_of(t) for t in tokens}
    if "100" in " ".join(said) and not _TAKEN_AS.isdisjoint(said):
        tokens = _with_hundred_behind(tokens, subjects, names)
        said = {word_of(t) for t in tokens}
    if len(tokens) < _LEAST or {"and", "plus"}.isdisjoint(said) or not _CONDITIONS.isdisjoint(said):
        return None
    known = _known(subjects, names)
    for found, start, end in _sums(tokens, known) if known else ():
        assert known
        summed = known.named(found["sum"])
        limit, of = _limit(tokens, found, (start, end), subjects, known) or ((), ())
        alone = {s.text.lower() for s in subjects} <= {*summed, *of}
        mixed = not _MIXED.isdisjoint(found["added"].split()) and len(limit) == len(tokens) - (end - start)
        if not limit or not alone or len(set(summed)) < 2 or mixed or of == summed or says_how_near(limit):
            continue
        other = known.measured_otherwise(found["added"])
        other = other or next(
            (w for w in map(word_of, limit) if w in ("based", "relative", "composition")), ""
        )
        if found["join"] != "to":
            return limit, (_share(known, of, summed, subjects),), other
        if not set(of).isdisjoint(summed):
            first, last = start + 1, end - 1
            word = replace(tokens[first], sort="word", text="sum", end=tokens[last].end)
            both = (_sum(known, of, subjects), _sum(known, summed, subjects))
            behind = tokens[end:]
            if behind and word_of(behind[0]) == "of":
                behind = (replace(behind[0], text="is"), *behind[1:])
            return (*tokens[:first], word, *behind), both, other
    return None


_TAKEN_AS = frozenset("when if where assuming".split())


def _with_hundred_behind(tokens: Tokens, subjects: Things, names: Names) -> Tokens:
    """`when the total of A and B is 100 parts by mass, A is 5 parts by mass` as per 100 parts of it."""
    known = _known(subjects, names)
    if known is None:
        return tokens
    text, starts = _text_of(tokens)
    measured = rf"(?:(?:{_any_of(listed('measures', 'nouns'))})s?)"
    total = rf"{_THE}(?:{_ADDED} )*(?:sum|total|{measured}) of {known.several}"
    taken = r"(?:is|to be|being|be|as)(?: (?:taken|set|defined|regarded|assumed)(?: as| to be| to)?)?"
    when = (
        rf"(?:when|if|where|assuming) (?P<sum>{total}) {taken} (?P<much>100 ?[\w%]*(?: parts(?: by \w+)?)?)"
    )
    for way in (rf"{when} , (?P<rest>.+) ", rf"(?P<rest>.+?) (?:, )?{when} "):
        found = regex(way).fullmatch(text)
        if found and all(found.start(g) in starts and found.end(g) + 1 in starts for g in ("sum", "rest")):
            rest, whole = (tokens[starts[found.start(g)] : starts[found.end(g) + 1]] for g in ("rest", "sum"))
            join = "per 100 parts of" if "parts" in found["much"] else "based on"
            return (*rest, *words_at(rest[-1], join), *whole)
    return tokens


def _with_both_named(tokens: Tokens, subjects: Things) -> Tokens:
    """`oil and wax, the oil being 60 % of the total of both`: with the names for 'both', and once."""
    words = [word_of(t) for t in tokens]
    ends = (
        i
        for i in range(2, len(words))
        if words[i - 1] == "of" and words[i - 2] in ("total", "sum", "mixture")
    )
    for at in ends:
        width = next((len(run) for run in _BOTH if words[at : at + len(run)] == run), 0)
        if width and len(subjects) == 2:
            both = words_at(tokens[at], f"{subjects[0].text} and {subjects[1].text}")
            start = words.index(",") + 1 if "," in words[:at] else 0
            lead = " ".join(w for w in words[: start - 1] if w not in ("the", "a", "an"))
            one, other = (s.text.lower() for s in subjects)
            start = start if lead in (f"{one} and {other}", f"{other} and {one}") else 0
            return (*tokens[start:at], *both, *tokens[at + width :])
    return tokens


_BOTH = (["both"], ["the", "two"], ["the", "both"], ["these", "two"], ["them"], ["these"])


def with_mixture_as_total(tokens: Tokens, subjects: Things, names: Names) -> Tokens:
    """`20 to 30 wt% of a mixture of oil and wax`, `a mixture of oil and wax in an amount of 20 to 30 wt%`, as
    20 to 30 wt% of oil and wax in total."""
    known = _known(subjects, names) if not _MIXED.isdisjoint(map(word_of, tokens)) else None
    if known is None or len(subjects) < 2:
        return tokens
    text, starts = _text_of(tokens)
    mixed = rf"(?:an? |the )?(?:mixture|blend|combination) of (?P<of>{known.several})"
    for way in (rf"(?P<limit>.+) of {mixed} ", rf"{mixed} (?:{_IS} )+(?P<limit>.+) "):
        found = regex(way).fullmatch(text)
        if found and set(known.named(found["of"])) == {s.text.lower() for s in subjects}:
            limit, of = (tokens[starts[found.start(g)] : starts[found.end(g) + 1]] for g in ("limit", "of"))
            shares = any(t.number and t.number.unit and t.number.unit.kind == known.kind for t in limit)
            if shares or any(map(is_bare_share, limit)):
                joined = words_at(of[0], "of", understood=True)
                return (*limit, *joined, *of, *words_at(of[-1], "in total"))
    return tokens


def _known(subjects: Things, names: Names) -> _Known | None:
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.parts is None and not s.mixture]
    kinds = {b.kind for b in bounds}
    kind = kinds.pop() if len(kinds) == 1 and len(bounds) == len(subjects) else None
    if kind is None or kind.point or kind.basis == "level":
        return None
    others = {
        made.name.lower(): names.value(made)
        for made in names.declarations.values()
        if isinstance(made, NumberDecl) and made.kind == kind
    }
    own = {s.text.lower(): b for s, b in zip(subjects, bounds, strict=True)}
    return _Known({**others, **own}, kind)


def _sums(tokens: Tokens, known: _Known) -> Iterator[tuple[Match[str], int, int]]:
    """Where a sum stands with what joins it to the words before it, the words behind it begin there too."""
    text, starts = _text_of(tokens)
    measured = rf"(?:(?:{_any_of(listed('measures', 'nouns'))})s?)"
    of_all = rf"(?:{_ADDED} )*(?:sum|total|mixture|blend|combination|{measured}) of "
    head = rf"{_THE}(?P<added>{of_all}|(?:{_ADDED} )+)"
    alone = rf"(?P<sum>{known.several})"
    ways = (
        rf"(?P<join>{_SHARED_IN}|{_PARTS}|of|in|within|to) {head}{alone}(?: {_TOGETHER})?",
        rf"(?P<join>{_SHARED_IN}|of) (?P<added>){alone} {_TOGETHER}",
        rf"(?P<join>{_PARTS}) (?P<added>){alone}(?: {_TOGETHER})?",
        rf"(?P<join>^){head}{alone} {_HOLDS}",
    )
    for way in ways:
        for found in _every(regex(rf"(?<!\S){way} "), text):
            start, end = starts.get(found.start()), starts.get(found.end())
            added = not {"sum", "total", *_MIXED}.isdisjoint(found["added"].split())
            added = added or regex(rf"{_ADDED} ").match(found["added"]) is not None or not found["added"]
            if start is not None and end is not None and (added or found["join"].startswith("based")):
                yield found, start, end


def _text_of(tokens: Tokens) -> tuple[str, dict[int, int]]:
    """The words with a blank behind each, and which of them begins where."""
    words = [word_of(t) for t in tokens]
    starts = accumulate((len(w) + 1 for w in words), initial=0)
    return " ".join(words) + " ", {at: i for i, at in enumerate(starts)}


def _every(pattern: Pattern[str], text: str) -> Iterator[Match[str]]:
    at = 0
    while found := pattern.search(text, at):
        yield found
        at = found.start() + 1


def _limit(
    tokens: Tokens, found: Match[str], ends: tuple[int, int], subjects: Things, known: _Known
) -> tuple[Tokens, tuple[str, ...]] | None:
    """The limit of what is set beside the sum, and the names of that; None where it is no share."""
    start, end = ends
    join, summed = found["join"], known.named(found["sum"])
    before, behind = tokens[:start], tokens[end:]
    before = before[:-1] if before and word_of(before[-1]) == "," else before
    behind = behind[1:] if behind and not before and word_of(behind[0]) == "," else behind
    rest = (*before, *behind)
    text, starts = _text_of(rest)
    of = rf"(?P<of>{known.several}|{known.one})"
    ways = [rf"{of} (?:{_IS} )+(?P<limit>.+)", rf"(?P<limit>.+) of {of}"]
    ways += [rf"(?P<limit>.+) (?:is|are|being) {of}"] * (join == "of") + [rf"(?P<limit>.+) {of}"] * (not join)
    for way in ways:
        laid = regex(rf"(?:wherein )?{way} ").fullmatch(text)
        if laid and (first := starts.get(laid.start("limit"))) is not None:
            last = starts[laid.end("limit") + 1]
            if limit := _as_share(rest[first:last], join, laid["of"], known):
                return limit, known.named(laid["of"])
    others = [s.text.lower() for s in subjects if s.text.lower() not in summed] or [subjects[0].text.lower()]
    one = len(others) == 1 and (len(subjects) == 1 or others[0] not in summed)
    if one and join and (limit := _as_share(rest, join, "", known)):
        return limit, (others[0],)
    return None


def _as_share(limit: Tokens, join: str, of: str, known: _Known) -> Tokens:
    """The limit in per cent or as a plain number; nothing where it is none of a share."""
    words = [word_of(t) for t in limit]
    if known.named(" ".join(words)) or not {"times", "of", "than", "by"}.isdisjoint(words[-1:]):
        return ()
    ratio = not _OF_SHARES.isdisjoint(of.split())
    if (join == "to") != ("ratio" in of.split()) and join != "of":
        return ()
    for basis in WHOLE_OF:
        limit = without_basis(limit, basis) if is_by(known.kind, basis) else limit
    if "100 parts" in join:
        return _without_parts(limit, known)
    shares = any(map(is_bare_share, limit)) or not _FRACTIONS.isdisjoint(words) or _has_fraction(limit)
    plain = any(t.number or word_of(t) in NUMBER_WORDS for t in limit)
    return limit if shares or (ratio and plain) else ()


_FRACTIONS = frozenset(("half", *word_lists()["fractions"]))


def _has_fraction(limit: Tokens) -> bool:
    return any(t.number and t.number.unit is None and "/" in t.number.text for t in limit)


def _without_parts(limit: Tokens, known: _Known) -> Tokens:
    """`20 to 30 parts by weight` of a hundred as 20 to 30 %; nothing where they are by something else."""
    words, percent = [word_of(t) for t in limit], find_unit("%")
    found, at = list[Token](), 0
    while at < len(limit):
        number = limit[at].number
        if words[at] in ("part", "parts") and at:
            by = (
                BY_WHAT.get(words[at + 2], "")
                if words[at + 1 : at + 2] == ["by"] and words[at + 2 :]
                else None
            )
            if by is not None and not (by and (is_by(known.kind, by) or known.kind == PLAIN_KIND)):
                return ()
            at += 1 if by is None else 3
            continue
        if number is not None and number.unit is not None:
            return ()
        found.append(replace(limit[at], number=replace(number, unit=percent)) if number else limit[at])
        at += 1
    return tuple(found) if any(t.number for t in found) and len(found) < len(limit) else ()


def _share(known: _Known, of: tuple[str, ...], summed: tuple[str, ...], subjects: Things) -> Subject:
    above, below = (_sum(known, names, subjects) for names in (of, summed))
    assert isinstance(above.bound, Typed)
    assert isinstance(below.bound, Typed)
    shown = f"({above.text})" if len(of) > 1 else above.text
    share = Typed(Divide(above.bound.term, below.bound.term, f"({below.text})"), PLAIN_KIND)
    return Subject(share, f"{shown} / ({below.text})", subjects[0].span)


def _sum(known: _Known, called: tuple[str, ...], subjects: Things) -> Subject:
    """All of these as one thing left of the colon."""
    names = tuple(dict.fromkeys(called))
    values = [known.values[name] for name in names]
    term = Add(tuple(v.term for v in values)) if len(values) > 1 else values[0].term
    return Subject(Typed(term, known.kind), " + ".join(names), subjects[0].span)
