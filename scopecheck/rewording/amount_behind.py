"""An amount of one thing behind what is said of the others: `contains salt but less than 2 wt% of sugar`,
`more salt than sugar and at least 50 wt% of water`, `salt together with at most 5 wt% of sugar`.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, word_of
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.not_both import DENYING

Tokens = tuple[Token, ...]


@record
class Behind:
    """What is said of the others, the amount behind it, the name of what there is so much of."""

    before: Tokens
    amount: Tokens
    name: str
    together: bool
    """Whether 'together with' joins the two, which may not be read as a sum of them."""


def amounts_behind(tokens: Tokens, names: tuple[str, ...]) -> Iterator[Behind]:
    """The ways to take an amount of the last thing named from the words before it.

    None where it is one of two choices or hangs on a condition; with no words before it where these may deny
    it, too.
    """
    words = [word_of(t) for t in tokens]
    if not CONDITION_WORDS.isdisjoint(words):
        return
    for name in names:
        own = name.lower().split()
        of = len(words) - len(own) - 1
        if of > 0 and tokens[of].number:
            of += 1  # 'at most 5 wt% sugar'
        elif of > 0:
            of -= words[of] in _ARTICLES
        if of < 1 or not (words[of] == "of" or tokens[of - 1].number) or words[-len(own) :] != own:
            continue
        start = _start(tokens, of)
        lead = start
        end, together = _joint(words, start)
        while not end and lead and words[lead - 1] in _HOLDING:
            lead -= 1
            end, together = _joint(words, lead)
        if not end or not any(t.number for t in tokens[start:of]) or "or" in words[:end]:
            continue
        before = tokens[:end]
        named = [n for n in names if f" {n.lower()} " in f" {' '.join(words[:end])} "]
        if not _SHARED.isdisjoint(words[:end]) and len(named) < _TWO:
            continue
        denied = any(words[: len(run)] == run for run in _DENYING)
        with_them = lead == start and words[lead - 1] != "but"
        if (denied and with_them) or (together and (denied or words[0] in _LACKING)):
            yield Behind((), tokens[start:], name, together)
        else:
            yield Behind(_as_there(before, named), tokens[start:], name, together)


def _start(tokens: Tokens, of: int) -> int:
    """Where the limit that ends before this 'of' begins."""
    words, start = [word_of(t) for t in tokens[:of]], of
    while start and (tokens[start - 1].number or words[start - 1] in OF_LIMITS - {"and", "or", "of"}):
        start -= 1
    if words[start - 1] == "and" and "between" in words[max(0, start - 3) : start]:
        start = max(i for i in range(start) if words[i] == "between")
    return start


def _joint(words: list[str], end: int) -> tuple[int, bool]:
    """Where what stands before the joint ends, and whether that is 'together with'; 0 where there is none."""
    for at in range(max(1, end - 3), end):
        if 0 < run_at(words, at, "asides", "combined_with") == end - at:
            return at - (words[at - 1] == ","), True
    at = end
    while at and words[at - 1] in ("and", "but", ","):
        at -= 1
    return (at if at < end else 0), False


def _as_there(tokens: Tokens, named: list[str]) -> Tokens:
    """`a salt` as what is contained, `salt, oil` as `salt and oil`; other words as they are."""
    words = [word_of(t) for t in tokens]
    bare = tokens[words[0] in _ARTICLES :]
    if " ".join(map(word_of, bare)) in {n.lower() for n in named}:
        return (*words_at(tokens[0], "contains", understood=True), *bare)
    row = {w for n in named for w in n.lower().split()} | {",", "a", "an", "some"} | _HOLDING
    last = max((i for i, w in enumerate(words) if w == ","), default=0)
    if len(named) > 1 and last and row.issuperset(words):
        return tuple(replace(t, sort="word", text="and") if i == last else t for i, t in enumerate(tokens))
    return tokens


_TWO = 2
_ARTICLES = frozenset("a an any some the said".split())
_HOLDING = listed("asides", "holding") | frozenset(
    "has have having with also further additionally moreover it".split()
)
_SHARED = frozenset("respectively each both ratio sum difference total combined".split())
_DENYING = (*DENYING, ["not"], ["neither"], ["never"])
_LACKING = ("free", "without", "devoid", "no")
