"""What a limit is of within a step of a method: 'heating oil to 80 degC' and 'cooling oil to 20 degC'.

They are two temperatures, though both are of the oil: each is called by its step.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import label_end, noun_from
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.drafting.work import Item
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText

_OF_THE_THING = frozenset(
    "having with has have which that whose comprising containing wherein being is are".split()
)
"""Words after which a limit in a step is of a thing, and not of what is done."""
_SET_AT = frozenset("at to until below above under between from about up over within".split())


def told_apart(text: ClaimText, items: Sequence[Item], done: dict[str, str]) -> tuple[Item, ...]:
    """The items, a step that was done to another thing before called by its thing; `done` is filled in."""
    made: list[Item] = []
    for item in items:
        of = _done_to(text, item)
        if done.setdefault(item.step, of) not in (of, "") and of:
            item = replace(item, step=f"{of} {item.step}")
            done.setdefault(item.step, of)
        again = sum(item.step in (m.step, m.step.partition(" ")[2]) for m in made)
        lettered = any(label_end(text.texts, at) for at in text.where.get("step", ()))
        if again and lettered and item.label and again < len(_ORDINALS):
            item = replace(item, step=f"{_ORDINALS[again]} {item.step}")
        made.append(item)
    return tuple(made)


_ORDINALS = ("first", "second", "third", "fourth", "fifth")


def _head(text: ClaimText, item: Item) -> int:
    """Where what is done stands in an item."""
    last = item.step.split()[-1]
    return next((i for i in range(item.start, item.end) if text.texts[i] == last), item.start)


def _done_to(text: ClaimText, item: Item) -> str:
    """The noun of what a step is done to: 'oil' of 'cooling the hot oil'."""
    return _whole_done_to(text, item).rpartition(" ")[2]


def _whole_done_to(text: ClaimText, item: Item) -> str:
    """The same with what belongs to it: the sun gear is no planet gear."""
    at = _head(text, item) + 1
    while at < item.end and text.texts[at] in words("nouns", "determiners"):
        at += 1
    return noun_from(text, at)


def of_item(text: ClaimText, stretch: Stretch, what: Called, items: Sequence[Item]) -> Called:
    """What a limit within a step is of: by the step where the words give only a thing or a measure."""
    item = next((i for i in items if i.start < stretch.start < i.end), None)
    if item is None or stretch.under[1]:
        return what
    head, at = _head(text, item), stretch.starts[0]
    before, between = text.texts[at - 1] if at else "", text.texts[head + 1 : at]
    kind = kind_of(stretch.unit)
    if what.unnamed:
        set_to = kind == "temperature" and before in _SET_AT and _OF_THE_THING.isdisjoint(between)
        known = (kind, before) == ("time", "for") or set_to
        return Called(f"{item.step} {kind}", "", False) if known else what
    first, _, rest = what.noun.partition(" ")
    if first == text.texts[head] and first != item.step and rest:
        return replace(what, noun=f"{item.step} {rest}")
    invented = kind in ("temperature", "time") and what.noun.endswith(f" {kind}") and kind not in between
    of_it = _OF_THE_THING - {"with"} if invented else _OF_THE_THING
    if not of_it.isdisjoint(between) or what.counted or first == text.texts[head]:
        return what
    of, whole = _done_to(text, item), _whole_done_to(text, item)
    measures = words("measures", "nouns")
    if what.fresh and what.noun.split()[-1] in measures and (not what.owner or what.owner.endswith(of)):
        return replace(what, noun=f"{item.step} {what.noun}", owner=what.owner or whole, fresh=False)
    if invented and kind == "temperature" and first.endswith("ing"):
        return what  # of what is done last: 'moulds preheated to'
    word = kind_text(Called("", "", False), stretch.unit).partition(" in ")[0]
    thing = (
        before == "at"
        and not what.noun.endswith("ing")
        and not measures.intersection(what.noun.split())
        and word
    )
    if invented and (_set(text, stretch) or before == "for"):
        return Called(f"{item.step} {kind}", "" if kind == "time" else whole, False)
    return Called(f"{item.step} {word}", whole, False) if thing else what


def _set(text: ClaimText, stretch: Stretch) -> bool:
    """Whether a word stands before a number, or begins its limit, to which something is brought."""
    at = stretch.starts[0]
    return text.texts[at] in _SET_AT or (at > 0 and text.texts[at - 1] in _SET_AT)
