"""One name for one thing: what a claim calls otherwise than the claims that it takes over.

"The bowl has a height" after "a cylindrical bowl with a height", "the D50" after "a particle size D50", "the
stirrer diameter" after "a diameter of the stirrer": one quantity, under the name that it had first. Where the
words fit, but do not tell for sure, nothing is made one: the pair is a doubt, and asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scopecheck.drafting.draft import Doubt, Quantity
from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import ORDINALS, Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words
from scopecheck.text.stream import stem

MOST_BACK = 24
"""How many words before a limit its noun is looked for with a "the"."""
MOST_ASKED = 3
"""How many quantities a doubt may name: of more, the words say too little to ask."""


@record
class _Known:
    """A quantity of a claim above or of this one, as it was called there."""

    what: Called
    kind: str
    claim: int


def with_ordinals(works: Sequence[Work]) -> None:
    """Gives quantities of one noun and kind their ordinals where there are a first one and a second one."""
    found: dict[tuple[str, str], set[str]] = {}
    for stretch, what in _limits(works):
        found.setdefault((what.noun, family(what, stretch.unit)), set()).add(what.ordinal)
    for work in works:
        work.limits = [
            (stretch, replace(what, noun=f"{what.ordinal} {what.noun}", fresh=False, ordinal=""))
            if what.ordinal and len(found[what.noun, family(what, stretch.unit)].intersection(ORDINALS)) > 1
            else (stretch, what)
            for stretch, what in work.limits
        ]


def _limits(works: Sequence[Work]) -> Iterable[tuple[Stretch, Called]]:
    return (limit for work in works for limit in work.limits)


def unified(works: Sequence[Work]) -> None:
    """Calls what a claim limits as the claims above call it, where its words are those of one thing there."""
    said: dict[int, list[_Known]] = {}
    for work in works:
        here = said.setdefault(work.claim.number, [])
        made: list[tuple[Stretch, Called]] = []
        for choice in work.choices:
            if not choice.members:
                here.append(_Known(Called(choice.noun, "", True), "count", work.claim.number))
        for stretch, what in work.limits:
            kind = family(what, stretch.unit)
            known = [k for n in (*work.above, work.claim.number) for k in said.get(n, ()) if k.kind == kind]
            what = _as_before(work, stretch, what, known)
            here.append(_Known(what, kind, work.claim.number))
            made.append((stretch, what))
        work.limits = made


def _as_before(work: Work, stretch: Stretch, what: Called, known: Sequence[_Known]) -> Called:
    """The quantity as it was called before, if its words are those of one and of no other."""
    if what.unnamed or any(_called_alike(what, k.what) for k in known):
        return what
    found = [k.what for k in known if _is_of(work, stretch, what, k.what)]
    if len({(k.noun, k.owner) for k in found}) != 1:
        return what
    return replace(what, noun=found[0].noun, owner=found[0].owner, ordinal=found[0].ordinal, fresh=False)


def _called_alike(a: Called, b: Called) -> bool:
    return (_stems(a.noun), _stems(a.owner)) == (_stems(b.noun), _stems(b.owner))


def _is_of(work: Work, stretch: Stretch, new: Called, old: Called) -> bool:
    """Whether the words can be those of what was called before, shortened or turned round, with a "the"."""
    if old.unnamed or not _within(new, old):
        return False
    bare = not new.owner and _stems(new.noun) == _stems(old.noun)
    return (not bare or not new.fresh) and _with_the(work, stretch, new)


def _within(new: Called, old: Called) -> bool:
    """Whether a noun and its owner say nothing that the noun and the owner before did not say."""
    before, noun, owner = _stems(old.noun) + _stems(old.owner), _stems(new.noun), _stems(new.owner)
    head = noun[-1:] == _stems(old.noun)[-1:] or noun[-1] in _stems(old.noun)
    of_it = not owner or owner[-1:] == _stems(old.owner)[-1:] or set(owner) <= set(_stems(old.noun))
    return head and of_it and set(noun + owner) <= set(before)


def _with_the(work: Work, stretch: Stretch, what: Called) -> bool:
    """Whether the noun, or what has it, stands with a "the" near the limit; a number of things needs none."""
    texts = work.text.texts
    near = texts[max(stretch.after, stretch.start - MOST_BACK) : stretch.end + 6]
    for noun in (what.noun, what.owner):
        said = noun.lower().split()
        for at in range(len(near) - len(said)):
            if near[at] in ("the", "said") and said and near[at + 1 : at + 1 + len(said)] == said:
                return True
    return False


def _stems(noun: str) -> list[str]:
    return [stem(word) for word in noun.lower().split()]


# ---- doubts


def doubts(works: Sequence[Work], quantities: Sequence[Quantity]) -> list[Doubt]:
    """Pairs of quantities that may be one: the later, and what above it, or beside it, it may be."""
    met: dict[int, list[tuple[Work, Called, str]]] = {}
    for work in works:
        for (stretch, what), of in zip(work.limits, work.of, strict=True):
            met.setdefault(id(of), []).append((work, what, family(what, stretch.unit)))
    listed = sorted((q for q in quantities if id(q) in met), key=lambda q: met[id(q)][0][0].claim.number)
    found: list[Doubt] = []
    for place, quantity in enumerate(listed):
        work, what, kind = met[id(quantity)][0]
        others = [q for q in listed[:place] if met[id(q)][0][2] == kind and q.kind != "count"]
        likely = [q for q in others if _may_be(what, met[id(q)][0][1], _above(met[id(q)], work))]
        if 0 < len(likely) <= MOST_ASKED and quantity.kind != "count":
            found.append(Doubt(quantity, work.claim.number, tuple((q, q.claims[0]) for q in likely)))
    return found


def _above(places: Sequence[tuple[Work, Called, str]], work: Work) -> bool:
    return any(w.claim.number in work.above for w, _, _ in places)


def _may_be(new: Called, old: Called, above: bool) -> bool:
    """Whether what a claim calls so may be what was called otherwise before."""
    if new.unnamed or old.unnamed:
        return above and new.unnamed
    a, b = _stems(new.noun), _stems(old.noun)
    apart = words("mention", "places") | words("mention", "ordinals") | frozenset(ORDINALS)
    owners = _stems(new.owner), _stems(old.owner)
    if all(owners) and owners[0][-1] != owners[1][-1]:
        return not above and a == b and a[-1] not in words("measures", "of_many")
    one, other = set(a) | set(owners[0]), set(b) | set(owners[1])
    if (one ^ other) & apart:
        return False
    alike = a == b if not above else (a[-1] == b[-1] and (one <= other or other <= one))
    return alike or (above and one < other and bool(one))
