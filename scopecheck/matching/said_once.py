"""What a claim says once for several lines: by what its percentages are, that impurities may be there."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import Dimension, find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import is_bare_share, is_in_points
from scopecheck.vocabulary.names import Bound, Typed

BY_WHAT = {
    "weight": "by mass", "mass": "by mass", "wt": "by mass", "volume": "by volume", "vol": "by volume",
    "mole": "by mole", "moles": "by mole", "mol": "by mole",
}  # fmt: skip
"""The basis of a share by the word for it."""
_BY = r"(?P<by>weight|mass|wt|volume|vol|moles?|mol)\b"
_BY_ANY = r"(?P<by>weights?|mass|wt|volumes?|vol|molar|moles?|mol|area|number|atoms?|atomic|length)\b"
"""Bases in which a percentage may be said, those that nothing is declared in too."""
_BASES = ("weight", "mass", "wt", "vol", "mol", "area", "number", "atom", "length")
"""With none of them in it a text names no basis: most texts are passed by without a look."""
_PERCENT = r"(?:%|per ?cents?|percentages?|parts)"
_OF_ALL = r"(?:,? (?:based (?:up)?on|of|relative to|with respect to) [^:.;\d]{0,60})?"
_ALL = r"\b(?:percentages|percents|amounts|contents|proportions|all (?:the )?(?:%|per ?cents?))"
_AS = (
    r"(?: (?:being|are|is|given|stated|expressed|indicated|meant|understood|calculated|taken|here|herein"
    r"|above|below|in|of|this|the|each|all|claims?|as|to|be|case)){0,7}"
)
_HOLDING = (
    r"(?:compris(?:ing|es?)|contain(?:ing|s)?|includ(?:ing|es?)|consist(?:ing|s)?(?: essentially)? of"
    r"|composed of|made (?:up )?of|made from|formed of|formed from|having|has)"
    r"(?: (?:the )?following(?: \w+)?)?"
)
_LISTED = (
    r"(?:components?|constituents?|ingredients?|elements?|composition|compositions|proportions|following)"
)
_LIMITING = (
    r"(?:about|around|at|up|from|not|no|between|more|less|approximately|roughly|greater|over|above|below|under"
    r"|a (?:max|min)imum|max|min|\d+)\b"
)


_ONCE = tuple(
    regex(text, re.IGNORECASE)
    for text in (
        # before the list: 'comprising, by weight:', '(in wt%):'
        rf"(?<![\d%] )(?<!per cent )(?<!percent )\bby {_BY_ANY}{_OF_ALL}\s*\)?\s*:",
        rf"\b(?:in|as) {_PERCENT} ?(?:\(? ?by )?{_BY_ANY}",
        rf"\b(?:in|as) {_BY_ANY}[ .-]*{_PERCENT}",
        # behind it: 'the percentages being by weight', 'all percentages are weight percentages'
        rf"{_ALL}(?: \w+){{0,4}}? by {_BY_ANY}",
        rf"{_ALL}{_AS},? (?:by|on an?|on the basis of|based (?:up)?on) (?:the )?(?:dry |total )?{_BY_ANY}",
        rf"{_ALL}{_AS} {_BY_ANY} ?(?:percentages|percents?|per cents?|%|fractions)",
        rf"(?<!\d)(?<!\d )(?:%|per ?cent) (?:means?|denotes?|stands? for|refers? to|signif(?:y|ies)) "
        rf"(?:the )?(?:(?:% |per ?cent )?by )?{_BY_ANY}",
        # 'comprising, by weight, at least 50 % ...', 'comprising (by weight) ...', 'by weight percent'
        rf"\b{_HOLDING},? by {_BY_ANY}(?!,? (?:and|or)\b){_OF_ALL}(?:,| (?={_LIMITING}))",
        rf"\b(?:{_HOLDING}|{_LISTED}),? [(\[] ?(?:in |all )?(?:% )?by {_BY_ANY}{_OF_ALL} ?[)\]]",
        rf"\b(?:{_HOLDING}|{_LISTED}),? [(\[] ?(?:in |all )?{_BY_ANY}[ .-]*{_PERCENT} ?[)\]]",
        rf"\b(?:{_HOLDING}|{_LISTED}),? by {_BY_ANY}[ -]*{_PERCENT}",
    )
)
"""What names a basis for all the percentages of a claim."""

_CONSISTING = [[verb, "of"] for verb in ("consisting", "consists", "consist")]
_IMPURE = regex(
    r"\b(?:unavoidable|inevitable|incidental|ordinary|usual|accidental|accompanying)"
    r"(?: \w+)? impurit(?:y|ies)\b",
    re.IGNORECASE,
)
_IN_PERCENT = _ONCE[1:3]
_OF_RATIOS = frozenset("ratio times twice half".split())
_BASED_ON = regex(rf"\bbased (?:up)?on (?:the )?(?:total |whole |entire |combined )?{_BY} of", re.IGNORECASE)
"""Said of all of them only where none says by what it is itself."""
_OF_TOTAL = regex(
    rf"\b(?:of|on|to) (?:the )?(?:(?:total|whole|entire) {_BY}|{_BY.replace('by', 'of')} of)", re.IGNORECASE
)
_OF_IT = regex(rf"(?:%|per ?cent) of [a-z -]{{1,40}} by {_BY}", re.IGNORECASE)
_BY_ITSELF = regex(rf"(?:%|per ?cent) ?(?:\(\w/\w\)|by {_BY})|\b(?:wt|vol|mol)[ .-]*%", re.IGNORECASE)


def basis_said(texts: Iterable[str]) -> str:
    """The one basis that the claims' texts name for all of their percentages; '' for none, or for several."""
    flat = [" ".join(text.split()) for text in texts]
    every = (by for text in flat for by in _named_once(text))
    found = {BY_WHAT.get(by) or BY_WHAT.get(by.removesuffix("s")) for by in every} - {None}
    if not found and not any(map(_BY_ITSELF.search, flat)):
        found = {BY_WHAT[said["by"].lower()] for text in flat for said in _BASED_ON.finditer(text)}
    return found.pop() or "" if len(found) == 1 else ""


@lru_cache(maxsize=1024)
def _named_once(text: str) -> frozenset[str]:
    """The words for the bases that a claim's text, in one line, names for all of its percentages."""
    said = text.lower()
    if not any(basis in said for basis in _BASES):
        return frozenset()
    return frozenset(said["by"].lower() for once in _ONCE for said in once.finditer(text))


def says_a_basis(text: str) -> bool:
    """Does a claim's text name a basis for all of its percentages, be it one that nothing is declared in?"""
    return bool(_named_once(" ".join(text.split())))


def says_its_basis(words: str, note: str, share: Bound) -> bool:
    """Whether the words, or the note of the share, say by what it is: `1 % of the total volume`, or that of
    the words alone: `10 % of air by volume`."""
    kind = share.kind if isinstance(share, Typed) else None
    found = (by for text in (words, note) for by in _OF_TOTAL.finditer(text))
    said = {BY_WHAT[(by["by"] or by["of"]).lower()] for by in found}
    said |= {BY_WHAT[by["by"].lower()] for by in _OF_IT.finditer(words)}
    return kind is not None and said == {kind.split[0]}


def ratio_on_another_basis(words: Words, bounds: Iterable[Bound]) -> Trouble | None:
    """The trouble of `a molar ratio of 2:1` between what is declared as shares by mass, or as masses."""
    match = RATIO_BY.search(words.text)
    said = _RATIOS[match["before"] or match["behind"]].split("|") if match else ["", ""]
    kinds = [b.kind for b in bounds if isinstance(b, Typed) and b.kind]
    alike = {said[0], *(_BY_NUMBER if said[0] in _BY_NUMBER else ())}
    shares = [k for k in kinds if not k.dimension and k.split[0] in PERCENT and k.split[0] not in alike]
    amounts = [k for k in kinds if _AMOUNTS.get(k.dimension, said[0]) != said[0]]
    if match is None or not (shares or amounts):
        return None
    percent = PERCENT[said[0]]
    return trouble(
        words.span, f"'{match.group()}' of what is declared as a {(shares or amounts)[0].name}",
        "Nothing here converts one into the other.",
        f"declare what it is of in {percent if shares else said[1]}, or the ratio itself as a number",
    )  # fmt: skip


RATIO_BY = regex(
    r"\b(?:(?P<before>weight|mass|volume|molar|mole|mol|atomic)[ -]ratio"
    r"|ratio by (?P<behind>weight|mass|volume|moles?|mol))\b"
)
_RATIOS = {
    **dict.fromkeys(("weight", "mass"), "by mass|g"), "volume": "by volume|ml", "atomic": "by atom|mol",
    **dict.fromkeys(("molar", "mole", "moles", "mol"), "by mole|mol"),
}  # fmt: skip


_BY_NUMBER = ("by atom", "by mole")
_AMOUNTS: dict[Dimension, str] = {
    (("mass", 1),): "by mass", (("length", 3),): "by volume", (("amount", 1),): "by mole",
}  # fmt: skip


def numbers_in_percent(texts: Iterable[str]) -> bool:
    """Do the claims say once that their numbers are in per cent: 'in percent by weight, Si: 6.5 to 7.5'?"""
    return any(once.search(" ".join(text.split())) for text in texts for once in _IN_PERCENT)


_PER = regex(
    rf"\b{_HOLDING},? \(?(?:per|in each) (?P<unit>lit(?:re|er)|millilit(?:re|er)|L|l|ml|mL|dl|dL|m3)\b"
    r"(?: of (?:the |an? )?(?:solution|composition|mixture|formulation|preparation|product))?\)?\s*[,:]"
)
_VOLUMES = {"litre": "L", "liter": "L", "l": "L", "millilitre": "ml", "milliliter": "ml"}


def per_said(texts: Iterable[str]) -> str:
    """The unit of volume in which all amounts of a claim are said once to be; '' for none, or for several."""
    found = {said["unit"] for text in texts for said in _PER.finditer(" ".join(text.split()))}
    units = {_VOLUMES.get(unit, unit) for unit in found}
    return units.pop() if len(units) == 1 else ""


def with_per(tokens: tuple[Token, ...], subject: Bound, per: str) -> tuple[Token, ...]:
    """`10 mmol` of what is declared in mmol/L as 10 mmol/L, where that is said once of all amounts."""
    kind = subject.kind if isinstance(subject, Typed) else None
    if not per or kind is None:
        return tokens
    found = list[Token]()
    for token in tokens:
        number = token.number
        made = find_unit(f"{number.unit.symbol}/{per}") if number and number.unit else None
        in_it = number is not None and made is not None and made.kind == kind
        found.append(replace(token, number=replace(number, unit=made)) if in_it and number else token)
    return tuple(found)


def says_impurities(words: str) -> bool:
    """Do the words let unavoidable impurities be there: 'the balance being Al and unavoidable impurities'?"""
    return bool(_IMPURE.search(words))


def with_impurities(tokens: tuple[Token, ...], impure: bool) -> tuple[Token, ...]:
    """`consisting of` with the impurities that another line of the claim lets be there."""
    if not impure or [word_of(t) for t in tokens] not in _CONSISTING:
        return tokens
    return (*tokens, *(replace(tokens[-1], text=word) for word in ("with", "impurities")))


def with_basis(
    tokens: tuple[Token, ...], subject: Bound, basis: str, in_percent: bool = False
) -> tuple[Token, ...]:
    """Bare percentages of what is declared as a share on the basis that is said once, as shares on it;
    percentage points on the basis of what they are points of.

    With `in_percent` numbers without any unit as well, where none of the words' numbers has one.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is not None and not kind.dimension and kind.split[0] in PERCENT:
        of_these = find_unit(PERCENT[kind.split[0]])
        points = {
            i: replace(t, number=replace(t.number, unit=of_these))
            for i, t in enumerate(tokens)
            if t.number and is_in_points(t)
        }
        tokens = tuple(points.get(i, t) for i, t in enumerate(tokens))
    if not basis or kind is None or kind.dimension or kind.split[0] != basis:
        return tokens
    unit = find_unit(PERCENT[basis])
    words = {t.text.lower() for t in tokens}
    bare = in_percent and words.isdisjoint(_OF_RATIOS) and not any(t.number and t.number.unit for t in tokens)
    return tuple(
        replace(t, number=replace(t.number, unit=unit)) if t.number and (bare or is_bare_share(t)) else t
        for t in tokens
    )
