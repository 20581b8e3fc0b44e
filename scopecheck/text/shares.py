"""Shares of which nobody says of what: a bare per cent beside which neither a whole nor a basis is named."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.matching.said_once import says_a_basis
from scopecheck.text.claim_set import Set
from scopecheck.text.flags import Flag
from scopecheck.text.stream import BREAKS, Stream

_CLAUSE = BREAKS | {"wherein", "which", "and", "or"}
_AHEAD = 6
"""How many words before and after a number may name its whole."""


def shares(all_: Set, number: int) -> Iterator[Flag]:
    """The first share of a claim for which neither the claim nor one above it says of what it is a share.

    So for the first of each noun that is so much per cent itself, 'a friability of': of another whole.
    """
    stream, lines = all_.streams[number], all_.lines_above(number)
    texts, above = stream.texts, {n for line in lines for n in line}
    if any(_said_throughout(all_.streams[n]) for n in above):
        return
    told = set[str]()
    for start, end in _limits(texts):
        if not _named(texts, start, end) and (of := _measured(texts, start)) not in told:
            told.add(of)
            words, span = stream.shown(start, end), stream.span(start, end)
            yield Flag("share", "share", number, words, span, {"line": tuple(sorted(above))})


def _measured(texts: list[str], start: int) -> str:
    """The noun of 'a friability of', 'the load is' before a limit; '' for so much of something.

    Of 'a moisture content of', 'a moisture content not exceeding' both words.
    """
    at = start - (texts[start - 1 : start] == ["of"])
    if at > 2 and texts[at - 1] == "content" and texts[at - 2] in _LEFT_IN_IT:
        return " ".join(texts[at - 2 : at])
    if (
        start < 3
        or texts[start - 1] not in ("of", "is", "being")
        or texts[start - 3] not in ("a", "an", "the")
    ):
        return ""
    noun = texts[start - 2]
    return "" if noun in listed("shares", "amounts") or not noun[0].isalpha() else noun


_LEFT_IN_IT = frozenset("moisture water ash solids humidity".split())
"""What is told of a thing as it is, whatever shares of it the claim lists."""


def _said_throughout(stream: Stream) -> bool:
    """Whether a claim names one whole or basis for all its shares: 'based on the total weight'."""
    texts = stream.texts
    if says_a_basis(stream.text.text):
        return True
    for at in range(len(texts)):
        width = run_at(texts, at, "shares", "throughout")
        if width and not _of_one_alone(texts, at):
            return True
        if texts[at] == "by" and _on_a_basis(texts[at : at + 2]) and texts[at + 2 : at + 3] == [":"]:
            return True  # 'comprising, by weight: 40 to 70 % of a wax'
        if texts[at] == "in" and _in_shares_of(texts[at + 1 : at + 4]):
            return True  # 'consisting of, in mass%, C: 0.12 to 0.20 %', 'in area fraction'
        width = _percent(texts, at) or texts[at] in ("percentages", "percents")
        if width and not _number(texts, at - 1) and _on_a_basis(texts[at + width : at + width + 4]):
            return True
    return False


def _of_one_alone(texts: list[str], at: int) -> bool:
    """`20 % by weight, based on the core, of a wax, and 2 % of an oil`: a basis of the wax alone."""
    behind = [end for _, end in _limits(texts) if end <= at]
    near = texts[max(behind) : at] if behind else ["."]
    return bool(behind) and _own_basis(near) and any(start > at for start, _ in _limits(texts))


def _own_basis(texts: list[str]) -> bool:
    """Whether nothing but `by weight,` stands here."""
    return texts in ([], [","]) or (texts[:1] == ["by"] and _on_a_basis(texts) and texts[2:] in ([], [","]))


def _in_shares_of(texts: list[str]) -> bool:
    """`mass%`, `weight percent`, `area fraction`: of what all the shares are."""
    if not texts or texts[0].removesuffix("%") not in listed("shares", "bases"):
        return False
    return texts[0].endswith("%") or texts[1:2] == ["fraction"] or _percent(texts, 1) > 0


def _limits(texts: list[str]) -> Iterator[tuple[int, int]]:
    """From where to where each limit in per cent runs: '20 to 60 %'; a preferred one goes with the last."""
    inside = listed("limits", "inside") | {"-", ","}
    at, before = 0, False
    while at < len(texts):
        width = _percent(texts, at)
        if not width or not _number(texts, at - 1):
            at += 1
            continue
        start, end = _first_number(texts, at - 1), _last_number(texts, at + width, inside)
        preferred = before and any(
            run_at(texts, i, "clauses", "examples") == start - i for i in range(max(0, start - 3), start)
        )
        if texts[start:at] not in (["100"], ["0"]) and not preferred and not _of_a_number(texts, start, end):
            yield start, end
        at, before = end, True


def _of_a_number(texts: list[str], at: int, end: int) -> bool:
    """`4.7 uH ± 20 %`, `within 2 % of 3.3 V`: a share of the number beside it."""
    signs = texts[at - 1 : at] in (["±"], ["+/-"]) or texts[max(0, at - 3) : at] == ["plus", "or", "minus"]
    return (
        signs or texts[at : at + 1] == ["±"] or (texts[end : end + 1] == ["of"] and _number(texts, end + 1))
    )


def _first_number(texts: list[str], at: int) -> int:
    """Where the limit begins that has a number here: 'between 20 and 60 %'."""
    while at > 1 and texts[at - 1] in ("to", "and", "-") and _number(texts, at - 2):
        at -= 2
    first = at
    while at > 0 and texts[at - 1] in listed("limits", "inside"):
        at -= 1
        first = at if run_at(texts, at, "limits", "openings") else first
    return first


def _last_number(texts: list[str], end: int, inside: frozenset[str]) -> int:
    """Where the last limit ends that follows on one in per cent: '5 %, preferably 6 %'."""
    at = end
    while at < len(texts):
        more = _percent(texts, at + 1) if _number(texts, at) else 0
        example = run_at(texts, at, "clauses", "examples")
        if more:
            at = end = at + 1 + more
        elif example or texts[at] in inside or _number(texts, at):
            at += example or 1
        else:
            break
    return end


def _percent(texts: list[str], at: int) -> int:
    """How many words 'per cent' has here; 0 if it does not stand here."""
    if texts[at : at + 2] == ["per", "cent"]:
        return 2
    return int(texts[at : at + 1] in (["%"], ["percent"]))


def _number(texts: list[str], at: int) -> bool:
    return 0 <= at < len(texts) and texts[at][0].isdigit()


def _named(texts: list[str], start: int, end: int) -> bool:
    """Whether the words beside a limit say of what it is a share, on which basis, or that it is a change."""
    after = [w for i, w in enumerate(texts[end : end + _AHEAD]) if i or w not in ("(", ",")]
    before = _before(texts, start)
    if before[-1:] == ["by"] or _own_whole(before) or _own_whole(after[:3]):
        return True
    if not after:
        return False
    return _on_a_basis(after) or after[0] in ("/", "per") or _beside_another(after) or _of_a_whole(after)


def _before(texts: list[str], start: int) -> list[str]:
    begin = start
    while begin > 0 and start - begin < _AHEAD + 4 and texts[begin - 1] not in _CLAUSE:
        begin -= 1
    return texts[begin:start]


def _own_whole(words: list[str]) -> bool:
    """Whether a noun says itself of what it is a share: 'a humidity of', 'a mass fraction of'."""
    for at, word in enumerate(words):
        if word in _CLAUSE:
            return False
        if word in listed("shares", "own") or run_at(words, at, "shares", "own_runs"):
            return True
    return False


def _on_a_basis(after: list[str]) -> bool:
    words = [w for w in after if w not in ("being", "are", "is", "in", "each", "all", "given", "(")]
    if words[:1] == ["by"]:
        words = words[1:]
    return words[:1] != [] and words[0] in listed("shares", "bases")


def _beside_another(after: list[str]) -> bool:
    """'10 % above the level', '5 % thicker than': what it is a share of is what it stands beside."""
    compared = after[0].endswith("er") and after[1:2] == ["than"]
    return compared or (after[0] != "of" and run_at(after, 0, "limits", "relations") > 0)


def _of_a_whole(after: list[str]) -> bool:
    """'of the area', 'of a maximum brightness' name a whole; 'of a frit' and 'of water' name the part."""
    if after[0] != "of" or len(after) < 2:
        return False
    if after[1] in listed("shares", "definite"):
        return True
    wholes = listed("measures", "nouns") | listed("shares", "wholes")
    for word in after[1:]:
        if word in _CLAUSE:
            return False
        if word in wholes:
            return True
    return False
