"""Which claims a claim depends on, read from its text."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.layout import plain as plain_text

_NUMBERED = regex(
    r"\bclaims?\s+(\d+(?:\s*(?:,\s*(?:and|or)?|and\s*/\s*or|and"
    r"|or(?:\s+(?:of|in|to|by|according\s+to|as\s+(?:claimed|defined|recited|set\s+forth)\s+in)(?=\s+claims?\b))?"
    r"|to|through|-)\s*(?:claims?\s+)?\d+(?!\.?\d)"
    r"(?!\s*(?:[°º%µ]|per\s?cent|(?:degrees?|[mcnu]m|[km]?g|m?s|min(?:utes?)?|h(?:ours?)?|sec(?:onds?)?|days?|weeks?"
    r"|m?bar|[kmg]?pa|m?v|k?w|[km]?hz|rpm|k|m?l|wt|vol|mol|ppm)\b)))*)",
    re.IGNORECASE,
)
_PRECEDING = regex(
    r"\b(?:any|one|either|each)?\s*(?:one\s+)?(?:of\s+)?(?:the\s+)?"
    r"(?:preceding|previous|foregoing|above)\s+claims?\b",
    re.IGNORECASE,
)
_EARLIER = ("preceding", "previous", "foregoing", "above")
_OR_TO = regex(r"\bor\s+(?:according\s+)?to\b", re.IGNORECASE)
"""'Claim 1 or according to claim 4' is no range."""
_LINK = regex(r"(\d+)|(to|through|-)", re.IGNORECASE)
_CATEGORY = regex(
    r"\s*(?:(?:an?|the|said)\s+)?(.+?)\s*(?:,|:|;|$"
    r"|\b(?:comprising|comprises|consisting|including|containing|characteri[sz]ed|wherein|having|which)\b"
    r"|\b(?:according|as claimed|as defined|as recited|as set forth)\b"
    r"|\b(?:of|in|to|by|under|per) (?:any|either|one|claims?|the preceding)\b)",
    re.IGNORECASE | re.DOTALL,
)


@record
class Reference:
    """Claim numbers named in a claim, and the place of the words that name them."""

    numbers: tuple[int, ...]
    start: int
    end: int


def references(text: str, number: int, known: Sequence[int]) -> tuple[Reference, ...]:
    """Every reference to claims in a claim's text, in order; offsets count from the start of the text."""
    plain = plain_text(text)
    found = [Reference(_numbers(m.group(1)), m.start(), m.end()) for m in _NUMBERED.finditer(plain)]
    lower = plain.lower()
    for match in _PRECEDING.finditer(plain) if any(word in lower for word in _EARLIER) else ():
        earlier = tuple(n for n in known if n < number)
        found.append(
            Reference(earlier, match.start() + len(match.group()) - len(match.group().lstrip()), match.end())
        )
    return tuple(sorted(found, key=lambda r: r.start))


def _numbers(text: str) -> tuple[int, ...]:
    numbers: list[int] = []
    through = False
    for match in _LINK.finditer(_OR_TO.sub("or", text)):
        if match.group(2):
            through = True
            continue
        number = int(match.group(1))
        if through and numbers and number - numbers[-1] < 1000:
            numbers += range(numbers[-1] + 1, number)
        numbers.append(number)
        through = False
    return tuple(numbers)


@lru_cache(maxsize=2048)
def category(text: str) -> str:
    """What a claim is for: its first noun phrase, up to a comma or the word that opens its body."""
    match = _CATEGORY.match(re.sub(r"\s*\([^)]*\)", "", text))
    return " ".join(match.group(1).split()) if match else ""


_THINGS = listed("clauses", "things")


def is_thing(claimed: str) -> bool:
    """Is the claim, by its category, for a system or an apparatus, rather than for what is done?"""
    words = {word.lower() for word in _WORD.findall(_HEAD.split(claimed)[0])}
    return bool(words & _THINGS) and not words & {"method", "process", "use"}


_DONE = ("method", "process", "procedure", "step")
"""What a method is called by, and what it is made of."""

_HEAD = regex(
    r"\b(?:of|for|to|in|with|by|on|from|as|at|according|comprising|containing|consisting|having|including"
    r"|obtain\w*|produced|made|which|wherein|configured|adapted|arranged|designed|intended|operable|capable"
    r"|suitable|being|that|where|whose|(?:substantially |essentially )?free(?= (?:of|from)\b))\b|[,:;]",
    re.IGNORECASE,
)

_WORD = regex(r"[^\W\d_][\w'-]*")


_DETERMINERS = ("a", "an", "the", "said", "one")


def _does(word: str) -> bool:
    return word.endswith("ing") and word.lower() not in listed("mention", "ing_nouns")


def _done(word: str) -> bool:
    """Whether a word before 'with', 'on', 'by' says what was done to a thing: 'fitted with', 'driven by'."""
    said = word.lower()
    irregular = listed("mention", "after") | listed("mention", "states") | {"built", "fit", "set"}
    return said in irregular or (said.endswith("ed") and said not in listed("mention", "ed_nouns"))


def noun_of(category_: str) -> str:
    """The noun that a category is about, as it stands: `strainers` of `leaf strainers for pipes`.

    So the `seat` of `a vehicle seat fitted with`, `a seat carrying the`.
    """
    nouns = _WORD.findall(_HEAD.split(category_)[0])
    ended = _HEAD.search(category_)
    if nouns and nouns[0].lower() in _DETERMINERS:
        nouns = nouns[1:]
    # 'a seat carrying the retractor': what stands behind is what it does that to.
    does_to = (
        i for i in range(1, len(nouns) - 1) if _does(nouns[i]) and nouns[i + 1].lower() in _DETERMINERS
    )
    nouns = nouns[: next(does_to, len(nouns))]
    while len(nouns) > 1 and ended is not None and (_done(nouns[-1]) or nouns[-1].endswith("ly")):
        nouns = nouns[:-1]  # 'a door pivotably mounted on'
    does = ended is not None and ended.group().lower() == "at" and len(nouns) > 1
    if does and nouns[-1].endswith("ing"):  # 'a grinder rotating at a speed'
        nouns = nouns[:-1]
    return nouns[-1] if nouns else ""


@lru_cache(maxsize=2048)
def _head(words: str) -> str:
    """The noun that a phrase is about: of `leaf strainers for pipes` what `strainer` gives too."""
    return _stem(noun_of(words))


def _stem(noun: str) -> str:
    """The noun without an ending that a plural may change; only to be compared with others."""
    return re.sub(r"(?<=\w[^\Waeiou])(?:ies|y)$|(?<=\w\w)[es]+$", "", noun.lower())


def sort_of(category_: str) -> str:
    """What claims for the same thing share of their category: its noun without an ending, `strainer`."""
    return _head(category_)


def names_another(before: str, categories: Sequence[str]) -> bool:
    """Does a claim name what other claims are for, and is itself for something else?

    `before` is its text up to the reference: "A method of making the sieve of" does so where a parent claims
    a sieve. "The sieve of" does not, nor does "The device of", which calls the sieve by another noun.
    """
    own = _head(before)
    heads = {_head(c) for c in categories} - {""}
    if own in heads or not heads:
        return False
    rest = {_stem(w) for part in _HEAD.split(before)[1:] for w in _WORD.findall(part)}
    done = {_stem(w) for w in _DONE}
    if own not in done and not heads.isdisjoint(done):  # 'a dryer for the process of' a method's claim
        heads |= done
    return not heads.isdisjoint(rest)


def parents(
    references_: Mapping[int, tuple[Reference, ...]],
    places: Mapping[int, Span],
    spans: Mapping[int, list[Span]],
) -> tuple[dict[int, tuple[int, ...]], list[Diagnostic]]:
    """The parents of each claim from its first reference, and what is wrong with references.

    `spans` has the place of each reference. A claim that depends on itself, on a missing claim, or in a
    circle is an error; its broken references are dropped.
    """
    found: dict[int, tuple[int, ...]] = {}
    wrong: list[Diagnostic] = []
    for number, named in references_.items():
        kept: list[int] = []
        for index, reference in enumerate(named):
            span = spans[number][index]
            for parent in reference.numbers:
                if parent == number:
                    wrong.append(Diagnostic("error", span, f"claim {number} depends on itself"))
                elif parent not in places:
                    known = ", ".join(map(str, places))
                    wrong.append(
                        Diagnostic(
                            "error", span, f"there is no claim {parent}", f"The claims here are: {known}."
                        )
                    )
                elif index == 0 and parent in kept:
                    wrong.append(
                        Diagnostic("error", span, f"claim {parent} is named twice in this reference")
                    )
                elif index == 0:
                    kept.append(parent)
            if index > 0:
                wrong.append(
                    Diagnostic(
                        "warning",
                        span,
                        f"claim {number} refers to claims a second time; only the first is followed",
                    )
                )
        found[number] = tuple(kept)
    return _without_circles(found, places, wrong), wrong


def _without_circles(
    found: dict[int, tuple[int, ...]], places: Mapping[int, Span], wrong: list[Diagnostic]
) -> dict[int, tuple[int, ...]]:
    for number in found:
        above, queue = set(), list(found[number])
        while queue:
            parent = queue.pop()
            if parent not in above:
                above.add(parent)
                queue += found.get(parent, ())
        if number in above:
            wrong.append(
                Diagnostic("error", places[number], f"claim {number} depends on itself through other claims")
            )
            found = {**found, number: ()}
    return found
