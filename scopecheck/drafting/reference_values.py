"""Values beside which something is set or over which it holds, and words on several things at once.

'More than 10 % above a rated speed of 12 rpm' limits no rated speed, 'a quarter of a wavelength of 550 nm' no
wavelength, 'below 0.5 % in a wavelength range of 450 to 650 nm' holds only there, and 'the layers together
having a thickness of' tells none of a layer. Each is one mark.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_start
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import kind_of
from scopecheck.drafting.turned import CLAUSES, ENDS
from scopecheck.foundations.word_lists import word_lists, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText

_DETERMINERS = frozenset(("a", "an", "the", "said", "its", "any"))
_BESIDE = frozenset("above below beyond than exceeds exceed exceeding".split())
_ALONG = frozenset("over across throughout in within along for at".split())
_RANGES = frozenset("range band interval window region".split())
_SPECTRAL = frozenset("wavelength frequency spectral wavenumber spectrum".split())
_LATER = frozenset("thereafter afterwards afterward beforehand".split())
_HAVING = frozenset("have having has make making amount amounting account weigh weighing with".split())
MOST_OF_ALL = 8
"""How many words 'together having a total mean thickness of' may have."""


def reference_values(text: ClaimText, found: Sequence[Stretch]) -> dict[int, tuple[int, int]]:
    """By the start of each limit that holds only with what stands around it, the tokens of both."""
    made: dict[int, tuple[int, int]] = {}
    for i, stretch in enumerate(found):
        before = found[i - 1] if i else None
        begin = _beside(text, stretch, before) or _over(text, stretch, before)
        first = i
        while begin and first and _reaches(text, found[first - 1], begin):
            first -= 1
            begin = min(begin, found[first].starts[0])
        if begin:
            begin = _reached(text, begin)
            made |= {s.start: (begin, stretch.end) for s in found[first : i + 1]}
        elif span := (_thereafter(text, stretch) or _of_all(text, stretch)):
            made[stretch.start] = span
    return made


def _bare(stretch: Stretch) -> bool:
    return stretch.starts[0] == stretch.figures[0].start and len(stretch.figures) == 1


def _beside(text: ClaimText, stretch: Stretch, limit: Stretch | None) -> int:
    """Where 'above' stands before 'a rated speed of 12 rpm', or the first 'of' of 'half of a width of'."""
    texts, first = text.texts, stretch.starts[0]
    if not _bare(stretch) or first < 4 or texts[first - 1] != "of" or stretch.unit is None:
        return 0
    at = noun_start(texts, first - 1)
    if at == first - 1 or texts[at - 1] not in _DETERMINERS or at < 2:
        return 0
    before = texts[at - 2]
    so_much = limit is not None and limit.end in (at - 2, at - 1) and _difference(limit, stretch)
    beside = before in _BESIDE or (before in ("over", "under") and so_much)
    part = before == "of" and _a_part(texts, at - 2)
    return at - 2 if beside or part else 0


def _difference(limit: Stretch, stretch: Stretch) -> bool:
    """Whether '10 %' or '5 V' may be so much more than a value, and no limit beside it."""
    share = limit.unit is not None and not limit.unit.kind.dimension
    return share or _alike(limit, stretch)


def _a_part(texts: list[str], at: int) -> bool:
    """Whether 'a quarter', '80 %', 'half', 'a multiple' ends here."""
    word = texts[at - 1]
    return word in word_lists()["fractions"] or word in (
        "half",
        "%",
        "percent",
        "multiple",
        "times",
        "fraction",
    )


def _over(text: ClaimText, stretch: Stretch, before: Stretch | None) -> int:
    """Where 'in a wavelength range of 450 to 650 nm' begins, over which something else holds; or 0."""
    texts, first = text.texts, stretch.starts[0]
    end = first - (texts[first - 1] == "of")
    if len(stretch.figures) < 2 or stretch.unit is None or end < 4 or texts[end - 1] not in _RANGES:
        return 0
    start = noun_start(texts, end)
    at = start - (texts[start - 1] in _DETERMINERS)
    spectral = not _SPECTRAL.isdisjoint(texts[start : end - 1])
    if at == start or start == end - 1:
        return 0
    part = texts[at - 1] == "of" and _a_part(texts, at - 1)
    limits = before is not None and before.end == at - 1 and not _alike(before, stretch)
    held = limits and before is not None and kind_of(before.unit) != "time"
    return at - 1 if part or (texts[at - 1] in _ALONG and (spectral or held)) else 0


def _alike(one: Stretch, two: Stretch) -> bool:
    return one.unit is not None and two.unit is not None and one.unit.kind == two.unit.kind


def _reaches(text: ClaimText, before: Stretch, begin: int) -> bool:
    """Whether a limit goes on up to these words: 'within 5 % of a quarter', '1 % over 80 %'."""
    between = text.texts[before.end : begin]
    parts, known = word_lists()["fractions"], words("limits", "inside") | _ALONG | {"half", "%", "percent"}
    return before.end <= begin and all(
        w in known or w in parts or w in NUMBER_WORDS or w[0].isdecimal() for w in between
    )


def _reached(text: ClaimText, begin: int) -> int:
    """Where the fraction begins whose 'of' stands here."""
    texts, parts = text.texts, word_lists()["fractions"]
    while begin > 1 and texts[begin] == "of" and (texts[begin - 1] in parts or texts[begin - 1] == "half"):
        begin -= 1
    if texts[begin] in parts or texts[begin] == "half":
        begin -= texts[begin - 1] in ("a", "an", "one") or texts[begin - 1] in NUMBER_WORDS
    return begin


def _thereafter(text: ClaimText, stretch: Stretch) -> tuple[int, int] | None:
    """'Within 24 hours thereafter': of what it is counted the words before it tell."""
    timed = kind_of(stretch.unit) == "time" and text.texts[stretch.end : stretch.end + 1] != []
    return (stretch.starts[0], stretch.end + 1) if timed and text.texts[stretch.end] in _LATER else None


def _of_all(text: ClaimText, stretch: Stretch) -> tuple[int, int] | None:
    """'The layers together having a thickness of no more than 5 um': of all of them, of none by itself."""
    texts, first = text.texts, stretch.starts[0]
    for at in range(first - 1, max(1, first - MOST_OF_ALL), -1):
        if texts[at] in ENDS | CLAUSES | {",", "and", "or"} or texts[at][0].isdecimal():
            return None
        if texts[at] == "together" and texts[at + 1] in _HAVING:
            start = noun_start(texts, at)
            of = words("nouns", "determiners")
            return start - (texts[start - 1] in of), stretch.end
    return None
