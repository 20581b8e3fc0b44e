"""A quantity called by what it counts and per what: `the number of weft threads per centimetre`."""

from __future__ import annotations

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.everyday import per_unit
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Names, Typed

_MOST = 8
"""Words of what is counted, and of the unit."""


def with_counted_named(tokens: tuple[Token, ...], names: Names) -> tuple[Token, ...]:
    """`1.5 times the number of weft threads per centimetre` by the name of what is noted to be that.

    Only the one quantity that is noted or, as a number of them, called so, of the unit that is said;
    a number directly before it counts them.
    """
    tokens = _with_counts_named(tokens, names)
    said = ["per" if t.text == "/" else word_of(t) for t in tokens]
    for per in (i for i, w in enumerate(said) if w == "per" and i):
        unit, end = per_unit(said, per)
        if unit is None:
            continue
        for start in range(max(per - _MOST, 0), per):
            lead = 2 if said[start : start + 2] == ["number", "of"] else 0
            counted = said[start + lead : per]
            found = [
                d
                for d in names.declarations.values()
                if isinstance(d, NumberDecl) and d.unit == unit
                and (_counts(d.note) == counted or (lead and d.name.lower().split() == counted))
            ]  # fmt: skip
            behind_number = start > 0 and tokens[start - 1].number is not None
            if counted and len(found) == 1 and not behind_number:
                first, last = tokens[start], tokens[end - 1]
                name = [replace(first, sort="word", text=w, end=last.end) for w in found[0].name.split()]
                return with_counted_named((*tokens[:start], *name, *tokens[end:]), names)
    return tokens


def with_groups_counted(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`one gear for each group of eight holes`, of two counts, as for every eight holes."""
    if at := _counted_for(tokens, subjects):
        understood = replace(tokens[at], text="every", sort="word", number=None, end=tokens[at].start)
        return (*tokens[:at], understood, *tokens[at:])
    at = group_counted(tokens, subjects)
    if not at or word_of(tokens[at - 1]) not in ("each", "every", "per") or not has_number(tokens[at + 2]):
        return tokens
    end = at + 3 + (word_of(tokens[at + 3]) == "the")
    if [word_of(t) for t in tokens[end:]] != subjects[1].text.lower().split():
        return tokens
    each = tokens[at - 1]
    every = (each,) if word_of(each) == "per" else (replace(each, text="every"),)
    return (*tokens[: at - 1], *every, *tokens[at + 2 :])


def _counted_for(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> int:
    """Where the second number of `one pump for two tanks` stands, of two counts; 0 for other words."""
    names = [s.text.lower().split() for s in subjects]
    whole = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    words = [word_of(t) for t in tokens]
    at = words.index("for") if whole and "for" in words else 0
    first, second = words[:at], words[at + 1 :]
    if len(second) < 2 or not has_number(tokens[at + 1]) or not first or "if" in words:
        return 0
    one = any(has_number(t) or word_of(t) in NUMBER_WORDS for t in tokens[:at])
    called = second[1:] in (names[1], [*names[1][:-1], names[1][-1] + "s"])
    return at + 1 if one and called and first[-1] in (names[0][-1], names[0][-1].removesuffix("s")) else 0


def for_a_limit(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> bool:
    """`one valve for up to eight zones`, of two counts: how many for how many is not said."""
    words = [word_of(t) for t in tokens]
    whole = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    at = words.index("for") if whole and "for" in words else 0
    name = subjects[0].text.lower().split()[-1] if whole else ""
    limit = words[at + 1 : at + 2] in (["up"], ["at"], ["no"], ["not"], ["more"], ["fewer"], ["less"])
    return bool(at) and limit and words[at - 1] in (name, name.removesuffix("s")) and "if" not in words


def group_counted(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> int:
    """Where in words on two counts `group of eight` stands behind 'for each'; 0 for nowhere."""
    words = [word_of(t) for t in tokens]
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        return 0
    for at in range(2, len(words) - 3):
        each = words[at - 2 : at] in _FOR_EACH or words[at - 1] == "per"
        if each and words[at] in _GROUPS and words[at + 1] == "of":
            return at if any(t.number or word_of(t) in NUMBER_WORDS for t in tokens[at + 2 :]) else 0
    return 0


_FOR_EACH = [["for", each] for each in ("each", "every", "a", "an", "any", "one")]
_GROUPS = listed("parts", "rows")


def _with_counts_named(tokens: tuple[Token, ...], names: Names) -> tuple[Token, ...]:
    """`the number of courses [per centimetre]` of what is declared so, `courses  in 1/cm`, by its name."""
    said = ["per" if t.text == "/" else word_of(t) for t in tokens]
    for at in (i for i in range(1, len(said) - 2) if said[i : i + 2] == ["number", "of"]):
        if said[at - 1] != "the":
            continue
        first = at + 2 + (said[at + 2] == "the")
        for end in range(min(len(said), first + _MOST), first, -1):
            found = names.declared(" ".join(t.text for t in tokens[first:end]))
            if not isinstance(found, NumberDecl) or not _is_counted_per(found):
                continue
            if said[end : end + 1] == ["per"]:
                unit, behind = per_unit(said, end)
                if unit != found.unit:
                    return tokens
                end, last = behind, tokens[behind - 1]
                name = (replace(t, end=last.end) for t in tokens[first : first + len(found.name.split())])
                return _with_counts_named((*tokens[:at], *name, *tokens[end:]), names)
            return _with_counts_named((*tokens[:at], *tokens[first:]), names)
    return tokens


def _is_counted_per(found: NumberDecl) -> bool:
    """Is it so many per length, area or volume?"""
    (dimension, power), *more = found.kind.dimension or (("", 0),)
    return dimension == "length" and power < 0 and not more


def _counts(note: str) -> list[str]:
    """What a note says is counted: `weft threads` of "number of weft threads per centimetre"."""
    said = [
        w for w in note.lower().split(",")[0].replace("/", " per ").split() if w not in ("the", "a", "an")
    ]
    said = said[2:] if said[:2] == ["number", "of"] else said
    at = said.index("per") if "per" in said else 0
    return said[:at] if at and per_unit(said, at)[1] == len(said) else []
