"""Quantities that belong together where the words say so plainly: fields of like parts, shares of one whole.

`each cavity having a depth of 5 mm` beside `a plurality of cavities` makes cavities like parts, each with its
depth; `a glaze comprising 20 wt% of a frit, 5 wt% of a salt and water` makes the glaze a composition.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.drafting.beside import noun_before, noun_from, texts_of
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import run_at
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.statements_declare import MOST_PARTS
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.parts import plural_of
from scopecheck.text.stream import stem

FEWEST_AT_MOST = 6
"""How many like parts there may be, where the text gives no greater number."""
MORE = 2
"""How many more like parts there may be than the greatest number that the text gives."""
MOST_BETWEEN = 14
"""How many words may stand between a transition and the first amount: 'based on the total weight of'."""


def in_groups(works: Sequence[Work], quantities: list[Quantity]) -> list[Quantity]:
    """The quantities, some below the like parts or the composition that they are of."""
    _like_parts(works, quantities)
    return _composition(works, quantities)


def ungrouped(quantities: Sequence[Quantity], used: frozenset[str]) -> None:
    """Takes apart the groups of which no line speaks."""
    for whole in quantities:
        below = [q for q in quantities if q.within is whole and q.name in used]
        if whole.kind.startswith("part,") and not below:
            whole.kind, whole.declared = "count", ""


# ---- like parts


def _like_parts(works: Sequence[Work], quantities: list[Quantity]) -> None:
    for counted in [q for q in quantities if q.kind == "count" and q.name == q.noun]:
        one = _one_of(works, counted.noun)
        fields = [q for q in quantities if q.owner and q.kind != "count" and _called_alike(q.owner, counted)]
        fields = [q for q in fields if not q.members]
        most = _most(works, counted)
        if not one or not fields or most > MOST_PARTS or len({q.noun for q in fields}) < len(fields):
            continue
        unusual = "" if plural_of(one) == counted.noun else f", plural {counted.noun}"
        counted.kind, counted.declared = f"part, 1 to {most}{unusual}", one
        for q in fields:
            q.within, q.declared, q.name = counted, q.noun, f"{q.noun} of the {counted.noun}"
        for q in quantities:
            q.name = f"{one} material" if q.name == one else q.name


def _called_alike(owner: str, counted: Quantity) -> bool:
    a, b = owner.split(), counted.noun.split()
    return a[:-1] == b[:-1] and stem(a[-1]) == stem(b[-1])


def _one_of(works: Sequence[Work], noun: str) -> str:
    """The noun for one of them, if some claim says 'each' of it: 'cavity' for 'cavities'."""
    wanted = [stem(word) for word in noun.split()]
    for work in works:
        texts = texts_of(work.text)
        for at, word in enumerate(texts):
            if word not in ("each", "every"):
                continue
            first = at + 3 if texts[at + 1 : at + 3] in (["of", "the"], ["of", "said"]) else at + 1
            found = texts[first : first + len(wanted)]
            if [stem(w) for w in found] == wanted:
                if first == at + 1:
                    return " ".join(found)
                last = stem(found[-1])
                return " ".join((*found[:-1], last if plural_of(last) == found[-1] else found[-1]))
    return ""


def _most(works: Sequence[Work], counted: Quantity) -> int:
    """How many of them there may be: some more than the claims say."""
    numbers = [
        number
        for work in works
        for (stretch, _), of in zip(work.limits, work.of, strict=True)
        if of is counted
        for number in _whole_numbers(work.text, stretch)
    ]
    return max([FEWEST_AT_MOST, *(n + MORE for n in numbers)])


def _whole_numbers(text: ClaimText, stretch: Stretch) -> Iterator[int]:
    for figure in stretch.figures:
        word = text.tokens[figure.start].text
        if word.isdecimal() or NUMBER_WORDS.get(word, 0) > 1:
            yield int(word) if word.isdecimal() else NUMBER_WORDS[word]


# ---- compositions


@record
class _Series:
    """A transition and what it opens: its tokens, the noun before, the amounts, ingredients without one."""

    start: int
    end: int
    noun: str
    limits: tuple[int, ...]
    bare: tuple[str, ...]
    balance: tuple[int, int]


def _composition(works: Sequence[Work], quantities: list[Quantity]) -> list[Quantity]:
    """With the one composition of the text, if some claim lists shares of it and none those of another."""
    found = [(work, s) for work in works if (s := _series(work)) is not None and s.noun]
    plain = [s for _, s in found if len(s.limits) > 1]
    if not plain or len({s.noun for _, s in found}) > 1:
        return quantities
    kinds = {work.of[i].kind for work, s in found for i in s.limits}
    if len(kinds) > 1:
        return quantities
    kind = kinds.pop()
    whole = Quantity(plain[0].noun, f"composition in {kind.rpartition(' ')[2]}", plain[0].noun, "")
    inside = {id(work.of[i]) for work, s in found for i in s.limits}
    for work in works:
        _drop_other_bases(work, whole)
        inside |= {id(q) for q in work.of if q.kind == kind and not q.owner and work.text.referring}
    for q in quantities:
        if id(q) in inside:
            q.within = whole
    taken = {q.name.lower() for q in quantities}
    bare: dict[str, Quantity] = {q.name: q for q in quantities if q.within is whole}
    for work, series in found:
        whole.claims.append(work.claim.number)
        for noun in series.bare:
            if noun not in bare and noun.lower() not in taken:
                bare[noun] = Quantity(noun, kind, noun, "", [], within=whole)
        work.opened, work.balance = (series.start, series.end, whole), series.balance
        work.bare = [bare[noun] for noun in series.bare if noun in bare]
    made = [*quantities, whole, *(q for q in bare.values() if q not in quantities)]
    lists = _classes(made, whole)
    return [q for q in made if not any(q is listed for listed in lists)]


def _classes(quantities: Sequence[Quantity], whole: Quantity) -> list[Quantity]:
    """The lists of what an ingredient may be: it is a class then, and they are not declared by themselves."""
    names = {q.name.lower() for q in quantities}
    found: list[Quantity] = []
    for listed in quantities:
        members = listed.kind.removeprefix("any of ").split(", ")
        of = next((q for q in quantities if q.within is whole and q.noun == listed.noun), None)
        if listed.members and of is not None and names.isdisjoint(m.lower() for m in members):
            of.stands_for = ", ".join(members)
            names.update(m.lower() for m in members)
            found.append(listed)
    return found


def _drop_other_bases(work: Work, whole: Quantity) -> None:
    """Leaves out shares of something else than the whole, '40 wt% of the solids': they are marked then."""
    texts = texts_of(work.text)
    bases = {"composition", "mixture", "total", "whole", whole.noun.split()[-1]}
    kept: list[int] = []
    for i, (stretch, what) in enumerate(work.limits):
        basis = noun_from(work.text, stretch.end + 2)
        other = texts[stretch.end : stretch.end + 2] in (["of", "the"], ["of", "said"]) and basis != what.noun
        if not (_is_share(work.of[i]) and other and not bases.intersection(basis.split())):
            kept.append(i)
    work.limits, work.of = [work.limits[i] for i in kept], [work.of[i] for i in kept]


def _series(work: Work) -> _Series | None:
    """The first transition of a claim that shares by weight, volume or mole follow, each 'of' something."""
    amounts = [i for i, q in enumerate(work.of) if _is_share(q) and _of_what(work, i)]
    texts = texts_of(work.text)
    for first in amounts:
        start = work.limits[first][0].start
        for at in range(start - 1, max(-1, start - MOST_BETWEEN), -1):
            width = _transition(texts, at)
            if not width or at in work.text.referring or {";", "."}.intersection(texts[at:start]):
                continue
            later, bare, balance = _listed(work, amounts, first, at + width)
            return _Series(at, at + width, _noun_of(work.text, at), later, bare, balance)
    return None


def _is_share(of: Quantity) -> bool:
    return of.kind in ("share in wt%", "share in vol%", "share in mol%")


def _of_what(work: Work, index: int) -> bool:
    """Whether what it is an amount of follows: `20 wt% of a frit`, `20 wt% frit`."""
    stretch, what = work.limits[index]
    after = texts_of(work.text)[stretch.end :]
    named = what.noun.lower().split()
    return after[:1] == ["of"] or (bool(named) and after[: len(named)] == named)


def _transition(texts: list[str], at: int) -> int:
    run = run_at(texts, at, "clauses", "closed") or run_at(texts, at, "clauses", "essentially")
    one = texts[at].startswith(("compris", "contain", "includ")) or texts[at] in ("having", "has")
    return run or int(one)


def _noun_of(text: ClaimText, at: int) -> str:
    """What is composed: what the claim is to, if nothing of it was opened before; else the noun before."""
    texts = texts_of(text)
    opened = any(_transition(texts, i) or texts[i] in ("having", "with", "wherein") for i in range(at))
    if text.referring or opened:
        return noun_from(text, 1) if text.referring and not opened else noun_before(text, at)
    return noun_from(text, int(texts[0] in ("a", "an", "the")))


def _next_item(texts: list[str], at: int) -> int:
    """Where the next item of a list with semicolons begins; the end of the claim if there is none."""
    return next((i for i in range(at, len(texts)) if texts[i] == ";"), len(texts))


def _listed(
    work: Work, amounts: Sequence[int], first: int, opened: int
) -> tuple[tuple[int, ...], tuple[str, ...], tuple[int, int]]:
    """The amounts of the series that begins with one of them, its ingredients that have none, its balance."""
    texts = texts_of(work.text)
    starts = {work.limits[i][0].start: i for i in amounts}
    found: list[int] = []
    bare: list[str] = []
    balance = (0, 0)
    at = work.limits[first][0].start
    while at < len(texts):
        while at < len(texts) and texts[at] in (",", ";", "and", "optionally"):
            at += 1
        start = next((s for s in starts if at <= s <= at + 2), None)
        rest = 0 if start is not None else _rest_at(texts, at)
        if start is not None:
            found.append(starts[start])
            at = work.limits[starts[start]][0].end
            at += texts[at : at + 1] == ["of"]
            skipped = at + (texts[at : at + 1] in (["a"], ["an"], ["the"], ["said"]))
            at = skipped + len(noun_from(work.text, skipped).split())
        else:
            skipped = at + rest + (texts[at + rest : at + rest + 1] in (["a"], ["an"]))
            noun = noun_from(work.text, skipped)
            end = skipped + len(noun.split())
            if not noun or texts[end : end + 1] not in ([","], [";"], ["and"], ["as"], ["."], []):
                break
            if not noun.endswith(("impurities", "impurity")):
                bare.append(noun)
            balance = (at, end) if rest else balance
            at = end
        if at < len(texts) and texts[at] not in (",", ";", "and"):
            at = _next_item(texts, at)
    return tuple(found), tuple(bare), balance


def _rest_at(texts: list[str], at: int) -> int:
    """How many words 'the balance being' has here; what makes up the rest stands behind them."""
    width = int(texts[at : at + 1] == ["the"])
    if texts[at + width : at + width + 1] not in (["balance"], ["remainder"], ["rest"]):
        return 0
    return width + 1 + (texts[at + width + 1 : at + width + 2] in (["being"], ["is"], ["of"]))
