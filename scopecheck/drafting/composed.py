"""A composition, declared where the words list shares of one whole: weight, volume, mole, or per cent alone.

`a glaze comprising 20 wt% of a frit, 5 wt% of a salt and water`; `comprising, each by weight: 30 to 60 % of a
binder; at least 15 % of water`. Loose shares may add up to anything; these make 100 %.
"""

from __future__ import annotations

from collections.abc import Container, Sequence

from scopecheck.drafting.beside import noun_before, noun_from, texts_of, width_of
from scopecheck.drafting.closed import closing_list
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.relations import whole_from
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.resolve.claim_text import ClaimText, pieces_of

MOST_BETWEEN = 20
"""How many words may stand between a transition and the first amount: 'based on the total weight of'."""
MOST_BEFORE = 80
"""Of an amount in a later item of a list whose first items have none."""
SHARES = ("share in wt%", "share in vol%", "share in mol%", "share in %")
_BASES = ("weight", "mass", "volume", "mole", "moles")


_SAID_OF_IT = frozenset("contains contain comprises comprise includes include has have".split())
"""Verbs by which a dependent claim says what is in a composition, and opens none."""


@record
class _Series:
    """A transition and what it opens: its tokens, the noun before, the amounts, ingredients without one."""

    start: int
    end: int
    noun: str
    limits: tuple[int, ...]
    bare: tuple[str, ...]
    balance: tuple[int, int]


def composition(works: Sequence[Work], quantities: list[Quantity]) -> list[Quantity]:
    """With the one composition of the text, if some claim lists shares of it and none those of another."""
    found = _of_one_whole([(work, s) for work in works if (s := _series(work)) is not None and s.noun])
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
        inside |= {id(q) for i, q in enumerate(work.of) if q.kind == kind and _in_parent(work, i)}
    if kind == "share in %":
        whole.note = next((words for work, _ in found if (words := _basis(work))), "")
    for q in quantities:
        if id(q) in inside:
            q.within = whole
    taken = {q.name.lower() for q in quantities if not q.members}
    bare: dict[str, Quantity] = {q.name: q for q in quantities if q.within is whole}
    for work, series in found:
        whole.claims.append(work.claim.number)
        start, end, far, members = closing_list(work.text, series.noun)
        for noun in (*series.bare, *members):
            if noun not in bare and noun.lower() not in taken:
                bare[noun] = Quantity(noun, kind, noun, "", [], within=whole)
        work.balance = series.balance
        if members:
            work.opened, work.closed = (start, end, whole), far
        elif not (work.text.referring and texts_of(work.text)[series.start] in _SAID_OF_IT):
            work.opened = (series.start, series.end, whole)
        work.bare = [bare[noun] for noun in (*series.bare, *members) if noun in bare]
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


_ANY_WHOLE = frozenset(
    "total whole entire dry final finished resulting overall complete weight mass volume of".split()
)
"""Words that make no other whole of one: an 'uncoated tablet' is another than the tablet."""


def _drop_other_bases(work: Work, whole: Quantity) -> None:
    """Leaves out shares of something else than the whole, '40 wt% of the solids': they are kept, unread."""
    bases = {"composition", "mixture", "total", "whole", whole.noun.split()[-1]}
    texts = texts_of(work.text)
    kept: list[int] = []
    for i, (stretch, what) in enumerate(work.limits):
        share = _is_share(work.of[i]) and (work.of[i].kind != "share in %" or _of_what(work, i))
        said = set(what.whole.split())
        of_it = bases & said and said <= bases | _ANY_WHOLE | set(whole.noun.split())
        if not share or not what.whole or of_it:
            kept.append(i)
            continue
        last = what.whole.split()[-1]
        end = texts.index(last, stretch.end) + 1 if last in texts[stretch.end :] else stretch.end
        work.unread.append((stretch.starts[0], end))
    work.limits, work.of = [work.limits[i] for i in kept], [work.of[i] for i in kept]


def _series(work: Work) -> _Series | None:
    """The first transition of a claim that shares by weight, volume or mole follow, each 'of' something."""
    amounts = [i for i, q in enumerate(work.of) if _is_share(q) and _of_what(work, i)]
    texts = texts_of(work.text)
    for first in amounts:
        start = work.limits[first][0].start
        for at in range(start - 1, max(-1, start - MOST_BEFORE), -1):
            width = _transition(texts, at)
            if not width or at in work.text.referring or not _opens(texts, at + width, start):
                continue
            noun = _noun_of(work.text, at)
            if _on_another(work, start, noun):
                return None
            later, bare, balance = _listed(work, amounts, first)
            return _Series(at, at + width, noun, later, bare, balance)
    return None


def _opens(texts: list[str], at: int, start: int) -> bool:
    """Whether an amount is of what a transition opens: near behind it, or in a later item of its list."""
    parts = [i for i in range(at, start) if texts[i] in (";", ".")]
    if not parts:
        return start - at < MOST_BETWEEN
    return texts[at : at + 1] == [":"] and all(texts[i] == ";" and _is_letter(texts, i + 1) for i in parts)


def _on_another(work: Work, start: int, noun: str) -> bool:
    """Whether the shares of a list are of something else: '..., based on the weight of the cement'."""
    texts = texts_of(work.text)
    for at in range(start, len(texts) - 2):
        if texts[at : at + 2] == ["based", "on"]:
            of = whole_from(work, at + 2 + (texts[at + 2] in ("the", "a", "said"))).split()[-1:]
            return bool(of) and of[0] not in ("composition", "mixture", "total", "whole", *noun.split())
    return False


def _of_one_whole(found: list[tuple[Work, _Series]]) -> list[tuple[Work, _Series]]:
    """With one noun where a claim shortens it: 'the composition' of 'a sealing composition'."""
    longest = max((s.noun for _, s in found), key=len, default="")
    return [(w, replace(s, noun=longest) if longest.endswith(f" {s.noun}") else s) for w, s in found]


def _in_parent(work: Work, index: int) -> bool:
    """Whether a share that a dependent claim limits is one of the whole that its parent composes."""
    of = work.of[index]
    named = of.kind != "share in %" or _of_what(work, index)
    return bool(work.text.referring) and not of.owner and named


def _basis(work: Work) -> str:
    """'each by weight of the composition': by what the per cent of a list are told, in the claim's words.

    The words are kept with their place, so that the claim's 'each' is marked with them.
    """
    texts = texts_of(work.text)
    for at in range(len(texts) - 1):
        if texts[at] not in ("by", "total") or texts[at + 1] not in _BASES:
            continue
        start, end = at, at + 2
        while start > 0 and texts[start - 1] in ("each", "in", "percent", "%", "on", "based", "the", "all"):
            start -= 1
        if texts[end : end + 1] == ["of"]:
            skipped = end + 1 + (texts[end + 1 : end + 2] in (["the"], ["said"]))
            end = skipped + width_of(noun_from(work.text, skipped))
        work.basis = (start, end)
        first, last = work.text.tokens[start], work.text.tokens[end - 1]
        return " ".join(work.text.source.text[first.start : last.end].split())
    return ""


def _is_share(of: Quantity) -> bool:
    return of.kind in SHARES


def _of_what(work: Work, index: int) -> bool:
    """Whether what it is an amount of follows: `20 wt% of a frit`, `20 wt% frit`."""
    stretch, what = work.limits[index]
    texts = texts_of(work.text)
    after = texts[stretch.end :]
    if texts[stretch.starts[0] - 1] == ":" and what.noun.lower() == texts[stretch.starts[0] - 2]:
        return True
    named = [piece.text for piece in pieces_of(what.noun)]
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


def _next_item(texts: list[str], at: int, starts: Container[int]) -> int:
    """Where the next item of a list begins, or the claim ends.

    At a semicolon; if there is none, at a comma before an 'and' or before an amount.
    """
    if ";" in texts[at:]:
        return texts.index(";", at)
    for i in range(at, len(texts) - 1):
        behind = i + 1 + _is_letter(texts, i + 1)
        if texts[i] == "," and (texts[i + 1] == "and" or any(n in starts for n in range(behind, behind + 3))):
            return i
    return len(texts)


def _listed(
    work: Work, amounts: Sequence[int], first: int
) -> tuple[tuple[int, ...], tuple[str, ...], tuple[int, int]]:
    """The amounts of the series that begins with one of them, its ingredients that have none, its balance."""
    texts = texts_of(work.text)
    starts = {work.limits[i][0].start: i for i in amounts}
    found: list[int] = []
    bare: list[str] = []
    balance = (0, 0)
    at = work.limits[first][0].start
    while at < len(texts):
        while at < len(texts) and (texts[at] in (",", ";", "and", "optionally") or _is_letter(texts, at)):
            at += _is_letter(texts, at) or 1
        at += 3 * (texts[at : at + 3] in ONE_OR_MORE)
        at += texts[at : at + 1] == ["with"] and _rest_at(texts, at + 1) > 0
        start = next((s for s in starts if at <= s <= at + 2), None)
        rest = 0 if start is not None else _rest_at(texts, at)
        if start is not None:
            found.append(starts[start])
            at = work.limits[starts[start]][0].end
            at += texts[at : at + 1] == ["of"]
            skipped = at + (texts[at : at + 1] in (["a"], ["an"], ["the"], ["said"]))
            at = skipped + width_of(noun_from(work.text, skipped))
        else:
            skipped = at + rest + (texts[at + rest : at + rest + 1] in (["a"], ["an"]))
            noun = noun_from(work.text, skipped).removesuffix(" q")  # 'water q.s. to 100 %'
            end = skipped + width_of(noun)
            if not noun or texts[end : end + 1] not in _AFTER_ONE:
                break
            if not noun.endswith(("impurities", "impurity")):
                bare.append(noun)
            balance = (at, end) if rest else balance
            at = end
        if at < len(texts) and texts[at] not in (",", ";", "and"):
            at = _next_item(texts, at, starts)
    return tuple(found), tuple(bare), balance


def _is_letter(texts: list[str], at: int) -> int:
    """How many tokens an item's letter has that stands here, `(c)` or `c)`; 0 if none does."""
    width = 3 if texts[at : at + 1] == ["("] else 2
    letter = "".join(texts[at + width - 2 : at + width - 1])
    stands = texts[at + width - 1 : at + width] == [")"] and letter.isalpha() and len(letter) < 4
    return width if stands else 0


_AFTER_ONE: tuple[list[str], ...] = ([","], [";"], ["and"], ["as"], ["."], ["selected"], ["chosen"], [])
"""What may follow an ingredient without an amount."""


def _rest_at(texts: list[str], at: int) -> int:
    """How many words 'the balance being' has here; what makes up the rest stands behind them."""
    width = int(texts[at : at + 1] == ["the"])
    if texts[at + width : at + width + 1] not in (["balance"], ["remainder"], ["rest"]):
        return 0
    end = at + width + 1
    to = end + (texts[end : end + 1] == ["up"])
    if texts[to : to + 2] == ["to", "100"]:
        end = to + 2 + (texts[to + 2 : to + 3] in (["%"], ["percent"], ["wt%"]))
    return end - at + (texts[end : end + 1] in (["being"], ["is"], ["of"]))
