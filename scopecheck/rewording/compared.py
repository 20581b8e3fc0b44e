"""Formulas and signs of comparison in words: `0.5 ≤ x < 2`, `height > rim`, `a thickness of ≤ 5 mm`."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.vocabulary.names import Names


def with_signs_in_words(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`a thickness of ≤ 5 mm` as at most: a sign before a number is a limit like its words."""
    found: list[Token] = []
    for at, token in enumerate(tokens):
        before_number = at + 1 < len(tokens) and tokens[at + 1].number is not None
        said = _SIGNS.get(token.text, ()) if token.sort == "sign" and before_number else ()
        if (
            token.text.lower() == "plus"
            and before_number
            and at
            and tokens[at - 1].text.lower() in _ENDS_BEFORE
            and not _adds_before(tokens[:at])
        ):
            continue  # 'from minus 5 °C to plus 20 °C'
        found += [replace(token, sort="word", text=word) for word in said] or [token]
    return tuple(found)


def _adds_before(tokens: tuple[Token, ...]) -> bool:
    """`the rim minus 1 mm to plus 2 mm`: is something taken from a thing, or added to it, before?"""
    return any(
        then.text.lower() in ("plus", "minus") and first.text.lower() not in _ENDS_BEFORE
        for first, then in pairwise(tokens)
    )


def with_compared(tokens: tuple[Token, ...], names: tuple[str, ...], others: Names) -> tuple[Token, ...]:
    """`0.5 ≤ x < 2`, `x ≥ 0.5`, `1 < a/b < 2` of what stands left of the colon, in words; else as they are.

    A single name may be one that the sheet does not have: the claim's own letter for it. What brings letters
    in, `a gap g, where 1 mm < g < 2 mm`, `the height H and the rim R satisfy H/R > 2`, is left out.
    """
    start = _formula_at(tokens)
    brought = _brought_in(tokens[:start], names, others) if start else {}
    if brought is None:
        return tokens
    formula = tuple(replace(t, text=brought.get(t.text, t.text)) for t in tokens[start:])
    signs = [i for i, t in enumerate(formula) if t.sort == "sign" and t.text in _SIGNS]
    first = signs[:1] == [1] and formula[0].number is not None
    last = bool(signs) and signs[-1] == len(formula) - 2 and formula[-1].number is not None
    if len(signs) == 1 and len(names) == 2 and (of_names := _names_compared(formula, signs[0], names)):
        return of_names
    if not signs or len(signs) != first + last or len(signs) > 2:
        return tokens
    named = formula[2 if first else 0 : signs[-1] if last else len(formula)]
    said = " ".join(t.text for t in named).lower()
    alone = len(names) == 1 and (
        (said == names[0].lower() and not others.noted_letter(" ".join(t.text for t in named), names[0]))
        or (len(named) == 1 and _is_strange(named[0], others))
    )
    parted = [i for i, t in enumerate(named) if t.text in ("/", ":")]
    sides = said.split(f" {named[parted[0]].text} ") if len(parted) == 1 else []
    both = len(names) == 2 and sorted(sides) == sorted(n.lower() for n in names)
    if not (alone or both):
        return tokens
    limits: list[Token] = list(named) if both else []
    if both and sides[0] != names[0].lower():
        limits = list(_as_ratio(named, parted[0]))
    for at in signs:
        before = first and at == signs[0]
        sign = _MIRRORED[formula[at].text] if before else formula[at].text
        if first and not before:
            limits.append(replace(formula[at], sort="word", text="and", end=formula[at].start))
        limits += [replace(formula[at], sort="word", text=word) for word in _SIGNS[sign]]
        limits.append(formula[0] if before else formula[-1])
    return tuple(limits)


def _names_compared(formula: tuple[Token, ...], at: int, names: tuple[str, ...]) -> tuple[Token, ...]:
    """`height > rim` as the height more than the rim, of these two; nothing for others."""
    sides = (" ".join(t.text for t in side).lower() for side in (formula[:at], formula[at + 1 :]))
    if sorted(sides) != sorted(n.lower() for n in names):
        return ()
    words = (replace(formula[at], sort="word", text=word) for word in _SIGNS[formula[at].text])
    return (*formula[:at], *words, *formula[at + 1 :])


def _as_ratio(named: tuple[Token, ...], at: int) -> Iterator[Token]:
    """`height / rim` as the ratio of height to rim, whichever stands first left of the colon."""
    for word in ("ratio", "of"):
        yield replace(named[0], sort="word", text=word, end=named[0].start)
    yield from named[:at]
    yield replace(named[at], sort="word", text="to")
    yield from named[at + 1 :]


def _formula_at(tokens: tuple[Token, ...]) -> int:
    """Where a formula begins behind words that bring it in; 0 where none do."""
    signs = [i for i, t in enumerate(tokens) if t.sort == "sign"]
    before = [t.text.lower() for t in tokens[: signs[0]]] if signs else []
    start = max((i + 1 for i, word in enumerate(before) if word in _BRINGING_IN), default=0)
    while 0 < start < len(before) and before[start] in _CALLED:
        start += 1
    return start


def _brought_in(lead: tuple[Token, ...], names: tuple[str, ...], others: Names) -> dict[str, str] | None:
    """The letters behind the names, or notes, in these words, with the names; None if they say more."""
    texts = [t.text.lower() for t in lead]
    letters: dict[str, str] = {}
    known = set[int]()
    for name, called in ((n, text) for n in names for text in (n, others.note_of(n))):
        own = called.lower().split()
        places = [i for i in range(len(texts)) if own and texts[i : i + len(own)] == own]
        for at in places[:1]:
            known |= set(range(at, at + len(own)))
            behind = at + len(own)
            if behind < len(lead) and _is_letter(lead[behind]):
                letters[lead[behind].text] = name
                known.add(behind)
    said = all(i in known or texts[i] in _BESIDE_NAMES for i in range(len(texts)))
    return letters if said else None


def _is_letter(token: Token) -> bool:
    short = token.sort == "word" and len(token.text) <= MOST_LETTERS
    return short and token.text.lower() not in _BESIDE_NAMES


MOST_LETTERS = 2
_BRINGING_IN = listed("clauses", "bringing_in")
_CALLED = frozenset(
    "a the following conditional relation relationship formula condition inequality expression equation"
    " :".split()
)
"""What a formula is called where it is brought in: 'satisfying the relation'."""
_BESIDE_NAMES = frozenset("a an the having has have of and is are being in which such ratio / , : (".split())
_BESIDE_NAMES |= _CALLED
_BESIDE_NAMES |= _BRINGING_IN


def _is_strange(token: Token, names: Names) -> bool:
    short = token.sort == "word" and names.declared(token.text) is None and len(token.text) < 6
    return short and not names.noted_letter(token.text)


_MIRRORED = {"<": ">", ">": "<", "<=": ">=", ">=": "<=", "≤": "≥", "≥": "≤"}
_ENDS_BEFORE = frozenset("to and from between of than least most or above below about approximately".split())
_SIGNS = {
    **dict.fromkeys(("≤", "<="), ("at", "most")), **dict.fromkeys(("≥", ">="), ("at", "least")),
    "<": ("less", "than"), ">": ("more", "than"),
}  # fmt: skip
