"""Quantities that belong together where the words say so plainly: fields of like parts, shares of one whole.

`each cavity having a depth of 5 mm` beside `a plurality of cavities` makes cavities like parts, each with its
depth; `a glaze comprising 20 wt% of a frit, 5 wt% of a salt and water` makes the glaze a composition.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from scopecheck.drafting.beside import noun_from, texts_of
from scopecheck.drafting.composed import composition
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.limits import Stretch, figures
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.statements_declare import MOST_PARTS
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import stem
from scopecheck.vocabulary.parts import plural_of

FEWEST_AT_MOST = 6
"""How many like parts there may be, where the text gives no greater number."""
MOST_BACK = 16
"""How many words before a limit what has it is looked for."""
MOST_OF_LIST = 30
"""How many words before a limit a list of what each of them has may begin."""
_HAVING = frozenset("each every have has having with whose respective respectively".split())
MORE = 2
"""How many more like parts there may be than the greatest number that the text gives."""


def in_groups(works: Sequence[Work], quantities: list[Quantity]) -> list[Quantity]:
    """The quantities, some below the like parts or the composition that they are of."""
    _like_parts(works, quantities)
    return composition(works, quantities)


def ungrouped(quantities: Sequence[Quantity], used: frozenset[str]) -> None:
    """Takes apart the groups of which no line speaks."""
    for whole in quantities:
        below = [q for q in quantities if q.within is whole and q.name in used]
        if whole.kind.startswith("part,") and not below:
            whole.kind, whole.declared = "count", ""


# ---- like parts


def _like_parts(works: Sequence[Work], quantities: list[Quantity]) -> None:
    limited = {id(q) for work in works for q in work.of}
    sides = {id(q) for work in works for _, *both in work.compared for q in both} - limited
    for counted in [q for q in quantities if q.kind == "count" and q.name == q.noun]:
        one = _one_of(works, counted.noun)
        fields = [q for q in quantities if q.owner and q.kind != "count" and _called_alike(q.owner, counted)]
        fields = [q for q in fields if not q.members and id(q) not in sides and not _of_all(works, q)]
        nouns = [q.noun for q in quantities]
        fields = [q for q in fields if not q.note or nouns.count(q.noun) == 1]
        fields = [q for q in fields if q.noun.split()[0] not in words("limits", "summed_amounts")]
        fields = _means_of(works, quantities, fields)
        most = _most(works, counted)
        if not one or not fields or most > MOST_PARTS or len({q.noun for q in fields}) < len(fields):
            continue
        unusual = "" if plural_of(one) == counted.noun else f", plural {counted.noun}"
        counted.kind, counted.declared = f"part, 1 to {most}{unusual}", one
        for q in fields:
            field = _without_sign(q.noun, [other.noun for other in fields])
            q.within, q.declared, q.name = counted, field, f"{field} of the {counted.noun}"
        for q in quantities:
            q.name = f"{one} material" if q.name == one else q.name


def _without_sign(noun: str, others: Sequence[str]) -> str:
    """'Diameter' for 'diameter D1': no field is called by a sign, unless two are told apart by it."""
    *rest, last = noun.split()
    plain = " ".join(rest)
    sign = len(last) < 4 and last != last.lower()
    alike = [other for other in others if other == plain or other.rpartition(" ")[0] == plain]
    return plain if plain and sign and len(alike) < 2 else noun


def _means_of(works: Sequence[Work], quantities: list[Quantity], fields: list[Quantity]) -> list[Quantity]:
    """The fields; the length, and no field of its own, for 'the average length of the teeth'."""
    kept: list[Quantity] = []
    for of in sorted(fields, key=lambda q: q.noun.split()[0] in MEANS):
        first, _, base = of.noun.partition(" ")
        if first not in MEANS or not base:
            kept.append(of)
            continue
        known = next((q for q in kept if q.noun == base), None)
        for work in works:
            for i, (stretch, what) in enumerate(work.limits):
                if work.of[i] is of:
                    work.limits[i] = _with_mean(work.text.texts, stretch, first), what
                    work.of[i] = known or of
        if known is not None:
            quantities.remove(of)
            known.claims = sorted({*known.claims, *of.claims})
        else:
            of.noun = base
            kept.append(of)
    return [q for q in fields if q in kept]


def _with_mean(texts: Sequence[str], stretch: Stretch, word: str) -> Stretch:
    """A limit from its 'average' on, without which it would be one of each of them."""
    at = next(
        (i for i in range(stretch.starts[0], max(-1, stretch.starts[0] - MOST_BACK), -1) if texts[i] == word),
        -1,
    )
    if at < 0:
        return stretch
    return replace(stretch, start=at, starts=(at,), whole=True)


MEANS = ("average", "mean", "median")


def _of_all(works: Sequence[Work], quantity: Quantity) -> bool:
    """Whether the words bring in one for all of the like things: 'heating the panels to a temperature of'.

    Not where some claim says 'each', or that the things have it.
    """
    once = False
    first = quantity.noun.split()[:1]
    for work in works:
        texts = work.text.texts
        for (stretch, _), of in zip(work.limits, work.of, strict=True):
            if of is not quantity:
                continue
            at = begin = stretch.starts[0]
            while begin > max(0, at - MOST_OF_LIST) and not _parts(texts, begin - 1):
                begin -= 1
            clause = texts[begin : stretch.end + 3]
            if not _HAVING.isdisjoint(clause):
                return False
            once = once or (len(first) > 0 and first[0].endswith("ing") and of.noun != first[0])
            once = once or any([b] == first and a in ("a", "an") for a, b in pairwise(clause))
    return once


def _parts(texts: Sequence[str], at: int) -> bool:
    """Whether a clause ends here, and no list goes on: 'a height of 3 mm, a width of 2 mm and a mass of'."""
    return texts[at] in (";", ":", ".") or (texts[at] == "," and texts[at + 1] not in ("a", "an"))


def _called_alike(owner: str, counted: Quantity) -> bool:
    a, b = [stem(word) for word in owner.split()], [stem(word) for word in counted.noun.split()]
    return a == b[len(b) - len(a) :]


def _one_of(works: Sequence[Work], noun: str) -> str:
    """The noun for one of them, if some claim says 'each' of it: 'cavity' for 'cavities'."""
    wanted = [stem(word) for word in noun.split()]
    for work in works:
        texts = texts_of(work.text)
        for at in sorted((*work.text.where.get("each", ()), *work.text.where.get("every", ()))):
            first = at + 3 if texts[at + 1 : at + 3] in (["of", "the"], ["of", "said"]) else at + 1
            if [stem(w) for w in texts[max(0, at - len(wanted)) : at]] == wanted:
                one = stem(noun.split()[-1])
                if plural_of(one) == noun.split()[-1]:
                    return " ".join((*noun.split()[:-1], one))
            for width in range(len(wanted), 0, -1):
                found = texts[first : first + width]
                if [stem(w) for w in found] == wanted[len(wanted) - width :]:
                    one = found[-1] if first == at + 1 else stem(found[-1])
                    last = one if plural_of(one) == noun.split()[-1] or first == at + 1 else found[-1]
                    return " ".join((*noun.split()[:-1], last))
    return ""


def _most(works: Sequence[Work], counted: Quantity) -> int:
    """How many of them there may be: some more than the claims say."""
    numbers: dict[int, int] = {}
    for work in works:
        for (stretch, _), of in zip(work.limits, work.of, strict=True):
            if of.kind.startswith(("count", "part,")) and _called_alike(counted.noun, of):
                numbers[id(of)] = max([numbers.get(id(of), 0), *_whole_numbers(work.text, stretch)])
    most = max(FEWEST_AT_MOST, sum(numbers.values()) + MORE if numbers else 0)
    said = max((n for work in works for n in _said_of_them(work, counted)), default=0)
    return max(most, said + MORE if said + MORE <= MOST_PARTS else said)


def _said_of_them(work: Work, counted: Quantity) -> Iterator[int]:
    """The numbers before their noun, in a preference too: 'preferably 7 to 60 chambers'."""
    for figure in figures(work.text, {}):
        noun = noun_from(work.text, figure.end) if figure.unit is None else ""
        word = work.text.tokens[figure.digits].text
        if noun and _called_alike(counted.noun, Quantity(noun, "count", noun, noun)):
            yield int(word) if word.isdecimal() else NUMBER_WORDS.get(word, 0)


def _whole_numbers(text: ClaimText, stretch: Stretch) -> Iterator[int]:
    for figure in stretch.figures:
        word = text.tokens[figure.digits].text
        if word.isdecimal() or NUMBER_WORDS.get(word, 0) > 1:
            yield int(word) if word.isdecimal() else NUMBER_WORDS[word]
