"""Which 'and' of a claim only joins its elements, ingredients or clauses, so that no line need take it up."""

from __future__ import annotations

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import Piece

_VERBS = frozenset(
    "is are has have having being comprises comprising includes including contains containing consists"
    " wherein whereby where which receives forms extends lies".split()
)
_CLAUSE_OPENERS = frozenset("wherein whereby where which the a an said each".split())
_ELEMENT_OPENERS = listed("transitions", "open") | {"having", "has", "have"}
_NEW_CLAUSE = frozenset("wherein whereby where which characterized characterised ; .".split())
_ARTICLES = frozenset("a an the said".split())
_PAIRING = frozenset("between both either ratio one any".split())
_JOINING = listed("clauses", "joining")
"""Words after which 'and' joins what belongs together, not elements of the claim."""
_NOUN_PAIRS = listed("clauses", "noun_pairs")
_SIGNS = frozenset(",;:.")
_RELATIVES = frozenset("which that who whose where wherein whereby being having comprising".split())
_FINITE = frozenset("is are has have comprises includes contains consists lies does can may".split())
_FEW = 3
"""A counted noun stands among so many words after its number."""
_NO_NOUN = frozenset("of and or in by at times degrees degree parts part weight is are has have".split())
_NEAR = 9
"""How many words after an 'and' its clause has its verb."""


def structural(tokens: list[Piece], at: int) -> bool:
    """An 'and' between elements or clauses: after ';', after 'comprising', or after ',' before a verb."""
    if tokens[at].text != "and":
        return False
    before = tokens[at - 1].text if at else ""
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    if before == ";" or after in ("wherein", "whereby", "where") or _between_elements(tokens, at):
        return True
    if before not in ("", ",") and _between_clauses([t.text for t in tokens], at):
        return True
    if before != "," or after not in _CLAUSE_OPENERS:
        return False
    for token in tokens[at + 1 :]:
        if token.text in (",", ";", "."):
            return False
        if token.text in _VERBS:
            return True
    return False


def _between_clauses(texts: list[str], at: int) -> bool:
    """Whether an 'and' without a comma joins two verbs: 'is warm and the pipes abut', 'is round and has'."""
    start = at
    while start > 0 and texts[start - 1] not in _SIGNS and texts[start - 1] not in ("and", "or"):
        start -= 1
    before = texts[start:at]
    if _NOUN_PAIRS.intersection(before) or not any(_finite(texts, i) for i in range(start, at)):
        return False
    if at + 1 < len(texts) and texts[at + 1] in _FINITE:
        return True
    if at + 1 >= len(texts) or texts[at + 1] not in _ARTICLES | {"each"}:
        return False
    for i in range(at + 2, min(at + _NEAR, len(texts))):
        if texts[i] in _SIGNS or texts[i] in _RELATIVES or texts[i] in ("and", "or"):
            return False
        if i > at + 2 and _finite(texts, i):
            return True
    return False


def _finite(texts: list[str], at: int) -> bool:
    """Whether a word is a verb that says something: of the lists, in -s, or plain after a plural."""
    word, verbs = texts[at], listed("mention", "verbs")
    if word in _FINITE:
        return True
    said = word in verbs or (at > 0 and texts[at - 1].endswith("s") and f"{word}s" in verbs)
    return said and at > 0 and texts[at - 1] not in _ARTICLES


def _between_elements(tokens: list[Piece], at: int) -> bool:
    """Whether an 'and' joins elements, as in 'comprising a pipe and a lid' or 'lime, sand, and water'.

    Where a word of joining, or without articles an 'of', stands before it, it may say more, and is told.
    """
    words = [t.text for t in tokens[:at]]
    texts = [t.text for t in tokens]
    start = max((i + 1 for i, word in enumerate(words) if word in _NEW_CLAUSE), default=0)
    opener = max((i for i, word in enumerate(words) if i >= start and word in _ELEMENT_OPENERS), default=-1)
    if opener < 0 or at + 1 >= len(tokens):
        return False
    whole, after = words[opener + 1 :], tokens[at + 1].text
    commas = [i for i, word in enumerate(whole) if word == ","]
    element = whole[commas[-1] + 1 if commas and len(whole) - 1 > commas[-1] else 0 :]
    alone = not _JOINING.intersection(element) or _joined(element)
    if after in _ARTICLES or _counted(texts, at + 1, element):
        return alone
    if _has_amount(element) and (_amount_of(texts, at + 1) or _bare(texts, at + 1)):
        return alone
    listing = whole[3:] if whole[:3] == ["the", "steps", "of"] else whole
    if after.endswith("ing") and len(after) > 4 and listing and listing[0].endswith("ing"):
        return True
    if not commas or _JOINING.intersection(whole) or any(_of_noun(whole, i) for i in range(len(whole))):
        return False
    return (whole[-1:] == [","] and len(commas) > 1) or _last_of_series(texts, at, element)


def _amount_of(texts: list[str], at: int) -> bool:
    """`5 wt% of salt`, `up to 2 % by weight of salt` begins here."""
    while at < len(texts) and texts[at] in listed("limits", "inside"):
        at += 1
    if at >= len(texts) or not (texts[at][0].isdigit() or texts[at] in NUMBER_WORDS):
        return False
    after = texts[at + 1 : at + _NEAR]
    end = next((i for i, word in enumerate(after) if word in _SIGNS), len(after))
    return any(_of_noun(after, i, amounts=True) for i in range(end))


def _counted(texts: list[str], at: int, element: list[str]) -> bool:
    """`up to four springs`, `at least two steel pins`, `3 to 5 bolts` begins here.

    Not where a number without a noun stands before it, or the same noun: then it says more of the same thing.
    """
    while at < len(texts) and texts[at] in listed("limits", "inside"):
        at += 1
    first = at
    while at < len(texts) and (_is_number(texts[at]) or texts[at] in ("to", "or", "more", "fewer")):
        at += 1
    before = [word for word in element if word not in _SIGNS]
    if at == first or not _is_number(texts[first]) or not before or _is_number(before[-1]):
        return False
    for noun in texts[at : at + _FEW]:
        if not noun[0].isalpha() or noun in _NO_NOUN or find_unit(noun) is not None:
            return False
        if noun.endswith("s") or noun in listed("mention", "plurals") or texts[first] == "one":
            return noun not in element
    return False


def _is_number(word: str) -> bool:
    return word[0].isdigit() or word in NUMBER_WORDS


def _bare(texts: list[str], at: int) -> bool:
    """Whether a noun of one or two words ends the list here: 'and water', at a sign."""
    end = next((i for i in range(at, min(at + 3, len(texts))) if texts[i] in _SIGNS), at)
    return end > at and _plain(texts[at:end])


def _plain(texts: list[str]) -> bool:
    return all(word[0].isalpha() and word not in NUMBER_WORDS for word in texts)


def _has_amount(element: list[str]) -> bool:
    return any(_of_noun(element, i, amounts=True) for i in range(len(element)))


def _of_noun(words: list[str], at: int, amounts: bool = False) -> bool:
    """Whether an 'of' stands here that follows no amount; with `amounts`, one that does."""
    before = words[at - 1] if at else ""
    measured = before in ("weight", "volume", "mass", "parts", "part") or find_unit(before) is not None
    return words[at] == "of" and measured == amounts


def _last_of_series(texts: list[str], at: int, element: list[str]) -> bool:
    """Whether 'sugar and salt' ends a series of plain nouns: 'comprising water, sugar and salt'."""
    return 0 < len(element) <= 2 and _plain(element) and _bare(texts, at + 1)


def _joined(element: list[str]) -> bool:
    """Whether what a word of joining joins ends here: 'between 2 and 4', 'from 2 to 4', 'made of tin,'."""
    last = max(i for i, word in enumerate(element) if word in _JOINING)
    if element[-1] == "," and element[last:].count(",") == 1 and element[last] not in _PAIRING:
        return True
    return {"between": "and", "from": "to"}.get(element[last], "no end") in element[last:]
