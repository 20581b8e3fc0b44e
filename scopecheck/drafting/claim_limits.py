"""The limits that a claim states, and what each is of: the unit said once, the noun said elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.around import with_words_around
from scopecheck.drafting.beside import noun_from, noun_start, per_width, width_of
from scopecheck.drafting.choices import Choice
from scopecheck.drafting.conditions import before_limits
from scopecheck.drafting.joint import joint
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.limits import Stretch, by_parts, stretches, with_qualifiers
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.matching.said_once import basis_said, numbers_in_percent
from scopecheck.resolve.claim_text import ClaimText


def limits_stated(text: ClaimText) -> list[Stretch]:
    """The limits that a claim states, each with the words around it that belong to it."""
    said = text.source.text
    stated = with_qualifiers(text, _in_percent(text, said, stretches(text, {})))
    return before_limits(text, with_words_around(text, stated))


def of_the_list(text: ClaimText, stretch: Stretch, what: Called, lists: Sequence[Choice]) -> Called:
    """The salt of `a salt selected from halite and sylvite in an amount of`: none of the last named."""
    for one in lists:
        between = text.texts[one.end : stretch.starts[0]] if one.members else []
        if what.noun in one.members and between[:1] in (["in"], ["at"]) and len(between) < MOST_OF_AMOUNT:
            return replace(what, noun=one.noun)
    return what


MOST_OF_AMOUNT = 6
"""How many words 'in a total amount of' may have."""


def _in_percent(text: ClaimText, said: str, stated: list[Stretch]) -> list[Stretch]:
    """With the unit of `in % by mass: C: 0.60 to 0.75; Si: at most 0.3` for each number behind a colon.

    So for each of `in mole percent: 60 to 72 SiO2; 8 to 14 Al2O3`, and for a sum of several of them; and for
    plain per cent of an item of that list, `in percent by mass: 28.5 to 32.0% of R`.
    """
    basis = basis_said([said]) if numbers_in_percent([said]) else ""
    if not basis:
        return stated
    unit = find_unit(PERCENT[basis])
    begins = next((i for i in text.where.get("in", ()) if _says_percent(text.texts, i + 1)), 0)
    listed_to = next((i for i in text.where.get("wherein", ()) if i > begins), len(text.texts))
    return [
        replace(
            s, figures=tuple(replace(f, unit=unit if s.unit is None or f.unit else None) for f in s.figures)
        )
        if (
            s.unit is None
            and (
                text.texts[s.start - 1 : s.start] == [":"] or _item_beside_its_noun(text, s) or joint(text, s)
            )
        )
        or (plain(s) and s.end < listed_to and _of_item(text, s))
        else s
        for s in stated
    ]


def _says_percent(texts: list[str], at: int) -> bool:
    """Whether 'percent by mass', 'wt%', '% by weight' stands here."""
    return not {"%", "percent", "mass", "weight", "wt", "vol", "mol"}.isdisjoint(texts[at : at + 2])


def plain(stretch: Stretch) -> bool:
    return stretch.unit is not None and stretch.unit.symbol == "%"


def _of_item(text: ClaimText, stretch: Stretch) -> bool:
    """Whether a share is of an item of a list: `28 % of R`, `: 3 %`, `5 % copper`, not `80 % of a height`."""
    texts, end = text.texts, stretch.end
    if texts[stretch.starts[0] - 1] == ":" or _item_beside_its_noun(text, stretch):
        return True
    noun = noun_from(text, end + 1) if texts[end : end + 1] == ["of"] else ""
    return bool(noun) and noun.split()[-1] not in listed("measures", "nouns")


def _item_beside_its_noun(text: ClaimText, stretch: Stretch) -> bool:
    """Whether a number is an item of a list, of the noun beside it: `; 8 to 14 Al2O3;`, `, Si 0.4,`.

    Or so much of one thing: `impurity being present in an amount of at most 0.05`.
    """
    texts, at, end = text.texts, stretch.starts[0], stretch.end
    begin = at - (texts[at - 1] in ("and", "optionally"))
    if (behind := end + width_of(noun_from(text, end))) > end:
        return texts[behind : behind + 1] in _ENDS_OF_ITEMS and texts[begin - 1] in _PARTING
    if texts[end : end + 1] not in _ENDS_OF_ITEMS:
        return False
    start = noun_start(texts, at)
    return (start < at and texts[start - 1] in _PARTING) or texts[at - 2 : at] in _AMOUNTS


_PARTING = (":", ";", ",", "and")
_ENDS_OF_ITEMS = ([";"], [","], ["."], ["and"])
_AMOUNTS = (["amount", "of"], ["content", "of"], ["proportion", "of"])


def said_of_one(text: ClaimText, limits: Sequence[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """`a temperature that is lower than 72 °C and is at least 60 °C`: the second is of the same."""
    found: list[tuple[Stretch, Called]] = []
    for stretch, what in limits:
        before = found[-1] if found else None
        between = text.texts[before[0].end : stretch.starts[0]] if before else []
        alike = before and before[0].unit and stretch.unit and before[0].unit.kind == stretch.unit.kind
        counts = before and before[1].counted and before[0].unit is None and stretch.unit is None
        if (
            before
            and (alike or counts)
            and not what.noun
            and between in (["and", "is"], ["but", "is"], ["and", "being"])
        ):
            what = before[1]
        if not what.noun and (noun := _of_the_subject(text, stretch)):
            what = replace(what, noun=noun)
        found.append((stretch, what))
    return found


def _of_the_subject(text: ClaimText, stretch: Stretch) -> str:
    """The wall thickness of `the wall thickness (t) decreases towards a tip and is at least 60 mm`; or ''."""
    texts, at = text.texts, stretch.starts[0]
    if texts[max(0, at - 2) : at] not in (["and", "is"], ["but", "is"]):
        return ""
    begin = next((i for i in range(at - 3, max(-1, at - MOST_OF_SENTENCE), -1) if texts[i] in _OPENS), at)
    first = begin + 1 + (texts[begin + 1] in ("the", "a", "an", "said"))
    said = next((i for i in range(first, min(first + 3, at)) if texts[i] in listed("measures", "nouns")), at)
    another = any(texts[i] in ("and", ",") and texts[i + 1] in ("the", "a", "an") for i in range(said, at))
    if first == begin + 1 or said == at or another or texts[said + 1] == "of":
        return ""
    kind = kind_of(stretch.unit)
    fits = texts[said] == kind if kind in _OWN_NAMES else texts[said] not in _OWN_NAMES
    noun = noun_from(text, first)
    return " ".join(noun.split()[: said + 1 - first]) if fits and stretch.unit else ""


MOST_OF_SENTENCE = 30
"""How many words before a second 'is' the noun is looked for that it speaks of."""
_OPENS = frozenset((";", ":", ".", "wherein", "whereby", "that", "which", "where"))
_OWN_NAMES = frozenset(("temperature", "time", "pressure", "speed", "angle"))


def also_of_each(text: ClaimText, limits: Sequence[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """`each rib having a height of 3 mm, a width of 2 mm and a mass of 4 g`: all three are of each rib."""
    texts, found, of = text.texts, list[tuple[Stretch, Called]](), ""
    for stretch, what in limits:
        before = found[-1][0] if found else None
        at = stretch.starts[0]
        on = before is not None and _also_had(texts[max(before.end, before.farther) : at], what)
        if on and of and not what.owner:
            what = replace(what, owner=of)
        else:
            begin = next((i for i in range(at - 1, max(-1, at - MOST_OF_EACH), -1) if texts[i] in _CLAUSE), 0)
            each = not {"each", "every"}.isdisjoint(texts[begin:at])
            of = what.owner if each and not what.counted else ""
        found.append((stretch, what))
    return found


def _also_had(between: Sequence[str], what: Called) -> bool:
    """Whether only ', and a contact resistance of' stands here, and names what is limited."""
    noun = what.noun.lower().split()
    head = next((i for i, word in enumerate(between[:3]) if word in ("a", "an")), 0)
    rest = list(between[head + 1 :]) if head and {",", "and"}.issuperset(between[:head]) else []
    plain = bool(noun) and not (what.counted or what.unnamed)
    return plain and rest[: len(noun)] == noun and rest[len(noun) :] in (["of"], ["in"], [])


_CLAUSE = frozenset((";", ":", ".", "wherein", "whereby", "characterised", "characterized", "which"))
MOST_OF_EACH = 16
"""How many words before a limit an 'each' is looked for."""


def so_many_of_a_size(text: ClaimText, stretches: Sequence[Stretch]) -> dict[int, tuple[int, int]]:
    """Both limits of `fewer than three bubbles larger than 0.2 mm`: neither is one of all the bubbles.

    So of `at least two of ten slots`.
    """
    found: dict[int, tuple[int, int]] = {}
    sized = listed("asides", "greater") | listed("asides", "lesser")
    for many, size in pairwise(stretches):
        start = size.starts[0]
        between = text.texts[many.end : start]
        beside = 0 < len(between) <= 3 and between[0] != "and" and all(word.isalpha() for word in between)
        of = between in (["of"], ["of", "the"], ["of", "said"], ["out", "of"]) and size.start == start
        if of and many.unit is None and size.unit is None and many.end == many.figures[-1].end:
            end = size.end + width_of(noun_from(text, size.end))
            found |= dict.fromkeys((many.start, size.start), (many.starts[0], end))
        if many.unit is None and size.unit is not None and beside and text.texts[start] in sized:
            found |= dict.fromkeys((many.start, size.start), (many.starts[0], size.end))
    return found


def strange_unit(text: ClaimText, stretch: Stretch) -> int:
    """Where a word ends that may be a unit, behind a number of what is measured; 0 if none stands there."""
    texts, end = text.texts, stretch.end
    named = texts[stretch.starts[0] - 1 : stretch.starts[0]] in (["a"], ["an"])  # 'a 6061 alloy'
    width = width_of(noun_from(text, end)) if end < len(texts) else 0
    if named or stretch.unit is not None or not width:
        return 0
    return min(end + width + per_width(texts, end + width), len(texts))


def without_doubtful(text: ClaimText, limits: list[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """Without numbers that a word follows which may be a unit; a second sign is of what the first is of."""
    found: list[tuple[Stretch, Called]] = []
    for stretch, what in limits:
        after = text.tokens[stretch.end].text if stretch.end < len(text.tokens) else "."
        unit = stretch.unit is not None or what.counted or what.noun.endswith(" parts")
        beside = run_at(text.texts, stretch.end, "limits", "relations")
        if not unit and after[0].isalpha() and after not in listed("nouns", "stops") and not beside:
            continue
        if found and stretch.sign and found[-1][0].sign and stretch.start - found[-1][0].end <= 2:
            what = found[-1][1]
        found.append((stretch, what))
    return found


def in_parts(text: ClaimText, stretch: Stretch, what: Called) -> Called:
    """What is told in parts by weight is another quantity than without: these are its note."""
    end = stretch.figures[-1].end
    width = by_parts(text.texts, end) if stretch.unit is None else 0
    said = " ".join(text.texts[end : end + width])
    return replace(what, under=said.replace("part ", "parts ", 1)) if said and not what.under else what


def by_its_basis(text: ClaimText, stretch: Stretch, what: Called) -> tuple[Stretch, Called]:
    """`A gauge pressure of 1.5 to 3 bar` in bar(g), with the words that say so."""
    said = _PRESSURES.intersection(what.noun.split())
    unit, texts = stretch.unit, text.texts
    told = find_unit(f"{unit.symbol}{_BASES[min(said)]}") if said and unit and not unit.kind.basis else None
    if told is None or unit is None or told.kind.dimension != unit.kind.dimension:
        return stretch, what
    near = range(stretch.starts[0] - 1, max(0, stretch.starts[0] - MOST_OF_PRESSURE), -1)
    at = next((i for i in near if texts[i] in _PRESSURES), 0)
    if not at:
        return stretch, what
    at -= texts[at - 1] in ("a", "an", "the")
    figures = tuple(replace(f, unit=told if f.unit else None) for f in stretch.figures)
    noun = " ".join(word for word in what.noun.split() if word not in _PRESSURES)
    return replace(stretch, start=at, starts=(at,), figures=figures, whole=True), replace(what, noun=noun)


_BASES = {"gauge": "(g)", "absolute": "(a)"}
_PRESSURES = frozenset(_BASES)
MOST_OF_PRESSURE = 6
"""How many words before a limit 'gauge' or 'absolute' is looked for."""


def by_its_letter(text: ClaimText, stretch: Stretch, what: Called) -> Called:
    """`n` of `wherein n is an integer from 2 to 16`."""
    texts = text.texts
    at = stretch.starts[0] - 1
    while at > 0 and texts[at] in ("integer", "number", "whole", "natural", "positive", "an", "a", "of"):
        at -= 1
    said = texts[at + 1 : stretch.starts[0]]
    letter = text.source.text[text.tokens[at - 1].start : text.tokens[at - 1].end] if at > 0 else ""
    whole = "integer" in said or "whole" in said or "natural" in said
    if stretch.unit is None and whole and texts[at] in _STANDS and len(letter) < 3 and letter.isalpha():
        return Called(letter, "", True)
    return what


_STANDS = ("is", "being", "represents", "denotes")


def named_by_kind(what: Called, stretch: Stretch) -> Called:
    """With the word for what the unit measures, where the words beside a limit give no noun."""
    if what.noun:
        return what
    kind = kind_text(Called("", "", False), stretch.unit)
    return Called(kind.partition(" in ")[0] if " in " in kind else "", what.owner, False, True)
