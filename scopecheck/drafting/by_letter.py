"""Letters and signs that stand for what is limited: `(a) 25 to 45 wt% of a cement`, `a size (D50) of`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import stems

_LETTER = regex(r"\(\s*([A-Za-z]\d?|[ivx]{2,4})\s*\)")
_CALLED = frozenset("of to than from between by per component components / is are".split())
"""What stands before a letter that calls something, and not before that of an item."""


def find_letters(works: Sequence[Work]) -> None:
    """Sets in each claim what is limited first behind each letter, in it or in those that it takes over."""
    own: dict[int, dict[str, Called]] = {}
    for work in works:
        known: dict[str, Called] = {}
        for number in work.above:
            known |= own[number]
        own[work.claim.number] = known | _letters(work)
        work.letters = own[work.claim.number]


def call_by_signs(works: Sequence[Work]) -> None:
    """`the D50 is less than 5 um` of what was brought in as a median particle size (D50)."""
    own: dict[int, dict[tuple[str, str], Called]] = {}
    for work in works:
        known: dict[tuple[str, str], Called] = {}
        for number in work.above:
            known |= own[number]
        for i, (stretch, what) in enumerate(work.limits):
            kind, noun = family(what, stretch.unit), what.noun.lower()
            noun = noun if noun.count(" ") != 1 else noun.removesuffix(f" {kind_of(stretch.unit)}")
            sign = _sign_before(work.text, stretch.starts[0], what) or _last_sign(what.noun)
            before = known.get((noun, kind))
            if sign and noun and noun != sign:
                known.setdefault((sign, kind), what)
            elif before and (not what.owner or stems(before.owner) in ([], stems(what.owner))):
                work.limits[i] = (stretch, replace(before, fresh=False))
        own[work.claim.number] = known


def _sign_before(text: ClaimText, at: int, what: Called) -> str:
    """The sign in brackets behind the noun of a limit that begins here, `d50`, or ''.

    Of `a D50 (median particle diameter) of` the noun in brackets.
    """
    texts = text.texts
    end = next((i for i in range(at - 1, max(2, at - _NEAR), -1) if texts[i] == ")"), 0)
    begin = next((i for i in range(end - 1, max(0, end - _NEAR), -1) if texts[i] == "("), 0)
    inside = texts[begin + 1 : end] if begin and end else []
    last = what.noun.lower().split()[-1:]
    if not inside or texts[begin - 1 : begin] != last or texts[at - 1] == ")":
        return ""
    if len(inside) > 1:
        noun = _SIGN.fullmatch(what.noun) and all(word.isalpha() for word in inside)
        return " ".join(inside) if noun else ""
    written = text.source.text[text.tokens[begin + 1].start : text.tokens[begin + 1].end]
    return inside[0] if _SIGN.fullmatch(written) else ""


def _last_sign(noun: str) -> str:
    """The sign behind a noun, `ts` of 'tensile strength TS', or ''."""
    last = noun.split()[-1:] if " " in noun else []
    return last[0].lower() if last and _WRITTEN.fullmatch(last[0]) else ""


_NEAR = 6
"""How many words before a limit the bracket ends behind its noun, and how many may stand in it."""
_WRITTEN = regex(r"[A-Z]{1,3}\d{0,3}")
_SIGN = regex(r"[A-Za-z]|(?=.*[A-Z0-9])[A-Za-z][A-Za-z0-9]{1,6}")


def _letters(work: Work) -> dict[str, Called]:
    texts = work.text.texts
    marks = [
        at
        for at in range(len(texts) - 2)
        if letter_at(texts, at) and not _CALLED.issuperset(texts[max(0, at - 1) : at] or ("",))
    ]
    found: dict[str, Called] = {}
    for at, end in pairwise([*marks, len(texts)]):
        behind = [(s, what) for s, what in work.limits if at < s.starts[0] < end and not what.unnamed]
        if behind and letter_at(texts, at) not in found:
            found[letter_at(texts, at)] = behind[0][1]
    return found


def letter_at(texts: Sequence[str], at: int) -> str:
    """The letter in brackets that stands here, or ''."""
    said = _LETTER.fullmatch(" ".join(texts[at : at + 3]))
    return said[1] if said else ""


def spelled_out(words: str, letters: Mapping[str, str]) -> str:
    """The words with names instead of the letters that have one."""
    return _LETTER.sub(lambda m: letters.get(m[1].lower(), m[0]), words)
