"""One name for one thing: what a claim calls otherwise than the claims that it takes over.

"The bowl has a height" after "a cylindrical bowl with a height", "the D50" after "a particle size D50", "the
stirrer diameter" after "a diameter of the stirrer": one quantity, under the name that it had first. Where the
words fit, but do not tell for sure, nothing is made one: the pair is a doubt, and asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scopecheck.drafting.beside import name_of, noun_start, whole_start
from scopecheck.drafting.draft import Doubt, Quantity
from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.leading import AMOUNTS
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import ORDINALS, Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.text.stream import stems

MOST_BACK = 24
"""How many words before a limit its noun is looked for with a "the"."""
_KINDS = ("angle", "temperature", "time", "value")
"""Words that a noun may have or lack: 'the camber angle' is the camber."""
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
    texts = {work.claim.number: work.text for work in works}
    for work in works:
        here = said.setdefault(work.claim.number, [])
        made: list[tuple[Stretch, Called]] = []
        for choice in work.choices:
            if not choice.members:
                here.append(_Known(Called(choice.noun, "", True), "count", work.claim.number))
        for stretch, what in work.limits:
            kind = family(what, stretch.unit)
            known = [k for n in (*work.above, work.claim.number) for k in said.get(n, ()) if k.kind == kind]
            what = _as_before(
                work, stretch, what, known, [texts[n] for n in (*work.above, work.claim.number)]
            )
            here.append(_Known(what, kind, work.claim.number))
            made.append((stretch, what))
        work.limits = made


def _as_before(
    work: Work, stretch: Stretch, what: Called, known: Sequence[_Known], above: Sequence[ClaimText]
) -> Called:
    """The quantity as it was called before, if its words are those of one and of no other."""
    if what.unnamed or what.apart.startswith("each "):
        return what
    if what.fresh and not what.owner:
        return replace(what, apart=f"{work.claim.number} {stretch.start}")
    known = [k for k in known if not what.under or k.what.under in ("", what.under)]
    if alike := [k.what for k in known if _called_alike(what, k.what)]:
        unders = {k.under for k in alike} | {what.under}
        under = alike[-1].under if len(unders - {""}) < 2 else what.under
        return replace(what, apart=alike[-1].apart, under=what.under or under)
    found = [k.what for k in known if _is_of(work, stretch, what, k.what, above)]
    if len({(k.noun, k.owner, k.apart, k.under) for k in found}) != 1:
        return what
    return replace(
        what,
        noun=found[0].noun,
        owner=found[0].owner,
        ordinal=found[0].ordinal,
        fresh=False,
        apart=found[0].apart,
        under=what.under or found[0].under,
    )


def _called_alike(a: Called, b: Called) -> bool:
    return (stems(a.noun), stems(a.owner)) == (stems(b.noun), stems(b.owner))


def _is_of(work: Work, stretch: Stretch, new: Called, old: Called, above: Sequence[ClaimText]) -> bool:
    """Whether the words can be those of what was called before, shortened or turned round, with a "the"."""
    if old.unnamed or not _within(new, old):
        return False
    left_out = set(stems(old.noun)) - set(stems(new.noun) + stems(new.owner))
    if left_out and any(_another(text, new, old) for text in above):
        return False
    bare = not new.owner and stems(new.noun) == stems(old.noun)
    if new.fresh and (left_out or bare):
        return False
    return _with_the(work, stretch, replace(new, owner="") if left_out else new)


def _another(text: ClaimText, new: Called, old: Called) -> bool:
    """Whether a claim also names another thing that the short noun may be: a 'switch-off threshold'."""
    head, known = stems(new.noun)[-1], set(stems(old.noun) + stems(old.owner) + stems(new.noun))
    for at in text.where.get(head, ()):
        start = whole_start(text, noun_start(text.texts, at), at)
        said = stems(name_of(text, start, at)) if start < at else []
        if said and not known.issuperset(said):
            return True
    return False


def _within(new: Called, old: Called) -> bool:
    """Whether a noun and its owner say nothing that the noun and the owner before did not say."""
    before, noun, owner = stems(old.noun) + stems(old.owner), stems(new.noun), stems(new.owner)
    if len(noun) > 1 and noun[-1] in (*_KINDS, *AMOUNTS) and noun[:-1] == stems(old.noun):
        return True
    if set(noun + owner) == set(before):  # no inner tube's outer diameter for the outer tube's inner one
        return not (owner and old.owner) or set(noun) == set(stems(old.noun))
    head = noun[-1:] == stems(old.noun)[-1:] or noun[-1] in stems(old.noun)
    of_it = not owner or owner[-1:] == stems(old.owner)[-1:] or set(owner) <= set(stems(old.noun))
    return head and of_it and set(noun + owner) <= set(before)


def _with_the(work: Work, stretch: Stretch, what: Called) -> bool:
    """Whether the noun, or what has it, stands with a "the" near the limit; a number of things needs none."""
    texts = work.text.texts
    near = texts[max(stretch.after, stretch.start - MOST_BACK) : stretch.end + 6]
    for noun in (what.noun, what.owner):
        said = [piece.text for piece in pieces_of(noun)]
        for at in range(len(near) - len(said)):
            if near[at] in ("the", "said") and said and near[at + 1 : at + 1 + len(said)] == said:
                return True
    return False


# ---- doubts


def doubts(works: Sequence[Work], quantities: Sequence[Quantity]) -> list[Doubt]:
    """Pairs of quantities that may be one: the later, and what above it, or beside it, it may be."""
    met: dict[int, list[tuple[Work, Called, str]]] = {}
    for work in works:
        for (stretch, what), of in zip(work.limits, work.of, strict=True):
            met.setdefault(id(of), []).append((work, what, family(what, stretch.unit)))
        for choice in work.choices:
            if not choice.members and (counted := _counted_as(choice.noun, quantities)) is not None:
                met.setdefault(id(counted), []).append((work, Called(choice.noun, "", True), "count"))
    listed = sorted((q for q in quantities if id(q) in met), key=lambda q: met[id(q)][0][0].claim.number)
    found: list[Doubt] = []
    for place, quantity in enumerate(listed):
        work, what, kind = met[id(quantity)][0]
        others = [q for q in listed[:place] if met[id(q)][0][2] == kind]
        likely = [q for q in others if _may_be(what, met[id(q)][0][1], _above(met[id(q)], work))]
        if 0 < len(likely) <= MOST_ASKED:
            found.append(Doubt(quantity, work.claim.number, tuple((q, q.claims[0]) for q in likely)))
    return found


def _counted_as(noun: str, quantities: Sequence[Quantity]) -> Quantity | None:
    return next((q for q in quantities if q.noun == noun and q.kind.startswith(("count", "part,"))), None)


def _above(places: Sequence[tuple[Work, Called, str]], work: Work) -> bool:
    return any(w.claim.number in work.above for w, _, _ in places)


def _may_be(new: Called, old: Called, above: bool) -> bool:
    """Whether what a claim calls so may be what was called otherwise before."""
    if new.unnamed or old.unnamed:
        return above and new.unnamed
    a, b = stems(new.noun), stems(old.noun)
    apart = words("mention", "places") | words("mention", "ordinals") | frozenset(ORDINALS)
    owners = stems(new.owner), stems(old.owner)
    if all(owners) and owners[0][-1] != owners[1][-1]:
        return not above and a == b and a[-1] not in words("measures", "of_many")
    one, other = set(a) | set(owners[0]), set(b) | set(owners[1])
    if (one - other) & apart and (other - one) & apart:
        return False
    if new.counted:
        return not (new.apart or old.apart) and above and a[-1] == b[-1] and (one < other or other < one)
    if not above and a[-1] == b[-1] and (set(a) < set(b) or set(b) < set(a)):
        return a[-1] not in words("measures", "of_many")
    alike = a == b if not above else (a[-1] == b[-1] and (one <= other or other <= one))
    return alike or (above and one < other and bool(one))
