"""'The' and 'said' something: whether one such thing was brought in before, in each line of claims."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.word_lists import runs
from scopecheck.foundations.word_lists import words as listed
from scopecheck.text.claim_set import ORDERED, Set, earlier_of, subjects
from scopecheck.text.flags import Flag
from scopecheck.text.mentions import Mention
from scopecheck.text.stream import Stream
from scopecheck.text.unneeded import (
    as_act,
    before_participle,
    glued,
    in_a_subject,
    needs_none,
    several_before,
    without_verb,
)


def antecedents(all_: Set, number: int) -> Iterator[Flag]:
    """Flags for the definite nouns of a claim, each noun once, and for things brought in twice."""
    lines = all_.lines_above(number)
    told = {key for line in lines for above in line[1:] for key in all_.told.get(above, ())}
    own = all_.told.setdefault(number, set())
    doubled: set[str] = set()
    broken = any(_astray(all_.streams[above]) for line in lines for above in line)
    together = all_.streams[number].together(0)
    again: list[tuple[int, ...]] = lines if _goes_on(all_, number) else [(number,)]
    for mention in all_.mentions[number]:
        key = (mention.head, mention.modifiers | mention.ordinals, mention.plural)
        if mention.how == "new" and mention.head not in doubled and _again(all_, again, mention):
            doubled.add(mention.head)
            yield _flag(all_, mention, "two things", "two_things", lines[0])
        elif (
            mention.how == "definite" and not broken and key not in told | own and mention.head not in doubled
        ):
            found = (_looked_up(all_, line, mention) for line in lines)
            flag = _of_all(list(found)) if together else next((f for f in found if f), None)
            if flag is not None:
                own.add(key)
                yield flag


def _of_all(flags: list[Flag | None]) -> Flag | None:
    """The first, if there is one for every line: what two claims named together bring in is all there."""
    return flags[0] if all(flags) else None


def _astray(stream: Stream) -> bool:
    """Whether a claim refers to claims of which none is there: what it goes back on is not known."""
    return bool(stream.references) and not stream.parents


def _goes_on(all_: Set, number: int) -> bool:
    """Whether a claim is to what its parent is to: then a thing brought in there is not brought in again."""
    heads = [m.head for m in all_.mentions[number][:1]]
    return any(m.head in heads for p in all_.streams[number].parents for m in all_.mentions[p][:1])


def _flag(all_: Set, mention: Mention, sort: str, form: str, line: tuple[int, ...], **more: object) -> Flag:
    stream = all_.streams[mention.claim]
    values = {"noun": stream.shown(mention.first, mention.end), "line": line, **more}
    shown = stream.shown(mention.start, mention.end)
    return Flag(sort, form, mention.claim, shown, stream.span(mention.start, mention.end), values)  # type: ignore[arg-type]


# ---- what was brought in before


def _looked_up(all_: Set, line: tuple[int, ...], mention: Mention) -> Flag | None:
    if needs_none(all_, line, mention):
        return None
    earlier = earlier_of(all_, line, mention)
    if not earlier and (reduced := _reduced(all_, line, mention)):
        return _looked_up(all_, line, reduced)
    if not earlier:
        named = in_a_subject(all_, line, mention) or as_act(all_, line, mention)
        return None if named else _missing(all_, line, mention)
    fitting = [m for m in earlier if mention.modifiers <= m.modifiers | m.of | m.ordinals]
    if not fitting:
        if mention.head in subjects(all_, line) or glued(mention, earlier):
            return None
        if any(mention.modifiers >= m.modifiers > frozenset() or not mention.modifiers for m in earlier):
            return None if mention.plural else _other(all_, line, mention, earlier)
        return _other(all_, line, mention, earlier)
    if _done_to_another(all_, line, mention, fitting):
        return _other(all_, line, mention, fitting)
    if mention.ordinals & ORDERED:
        counted = any(m.plural for m in fitting)
        same = [m for m in fitting if m.ordinals & mention.ordinals & ORDERED]
        return None if same or counted else _other(all_, line, mention, earlier)
    return _which(all_, line, mention, fitting)


def _done_to_another(all_: Set, line: tuple[int, ...], mention: Mention, fitting: list[Mention]) -> bool:
    """`the received power` where only a transmit power was brought in, and nothing is said to receive it."""
    words = all_.streams[mention.claim].words[mention.first : mention.end - 1]
    done = [w for w in words if w.text.endswith("ed") and w.text not in listed("mention", "states")]
    if len(done) != 1 or mention.head not in listed("measures", "nouns"):
        return False
    if not all(m.modifiers - mention.modifiers for m in fitting) or done[0].text in listed(
        "mention", "told_before"
    ):
        return False
    verb = done[0].text[:-2].removesuffix("i")[:6]
    for number in line:
        stream = all_.streams[number]
        end = mention.start if number == mention.claim else len(stream.words)
        said = [i for i in range(end) if stream.texts[i].startswith(verb)]
        if any(mention.head in [w.stem for w in stream.words[max(0, i - 8) : i + 8]] for i in said):
            return False
    return True


def _reduced(all_: Set, line: tuple[int, ...], mention: Mention) -> Mention | None:
    """The mention without words at its end that may be no part of the noun."""
    found = without_verb(all_, mention) or several_before(all_, line, mention)
    return found or before_participle(all_, line, mention)


def _which(all_: Set, line: tuple[int, ...], mention: Mention, fitting: list[Mention]) -> Flag | None:
    """Whether what fits is one thing, and in the number in which it is spoken of."""
    if mention.head in subjects(all_, line) or mention.ordinals:
        return None
    if mention.of and len({m.modifiers for m in fitting if mention.of <= m.of}) == 1:
        fitting = [m for m in fitting if mention.of <= m.of]
    exact = [m for m in fitting if m.modifiers == mention.modifiers and not m.ordinals & ORDERED]
    kinds = {(m.modifiers, m.ordinals & ORDERED) for m in fitting if m.how == "new"}
    things = [m for m in fitting if m.how == "new"] or fitting
    called = _called(all_, mention)
    things = [m for m in things if called and _called(all_, m) == called] or things
    if mention.plural:
        among = things if called and all(_called(all_, m) == called for m in things) else fitting
        several = any(m.plural or m.shared or m.how == "bare" for m in among) or _more_than_one(all_, things)
        several = several or _of_several(all_, line, mention)
        return None if several else _flag(all_, mention, "number", "plural_of_one", line)
    if len(kinds) > 1 and not (exact and len({m.modifiers for m in exact}) == 1 and _one(exact)):
        named = [all_.streams[m.claim].shown(m.first, m.end) for m in things]
        return _flag(all_, mention, "several earlier", "several", line, named=tuple(dict.fromkeys(named)))
    each = any(m.shared and m.claim == mention.claim for m in fitting)
    things = [m for m in things if not _further(all_, m)] or things
    if all(m.counted or (m.plural and m.how == "bare") for m in things) and _lone(all_, mention) and not each:
        stream = all_.streams[things[0].claim]
        first = stream.shown(things[0].start, things[0].end)
        if not first.lower().startswith(("at least one", "one or more")):
            return _flag(all_, mention, "several earlier", "one_of_several", line, named=(first,))
    return None


def _more_than_one(all_: Set, things: list[Mention]) -> bool:
    """Whether these are several things; one that two claims bring in in the same words is one."""
    apart = {(m.modifiers, m.ordinals) for m in things}
    claims = {m.claim for m in things}
    return len(apart) > 1 or len(claims) < len(things) or any(_further(all_, m) for m in things)


def _further(all_: Set, mention: Mention) -> bool:
    """`a further post` is none of those that were brought in before."""
    first = all_.streams[mention.claim].texts[mention.start]
    return bool(mention.ordinals) or first in ("further", "another", "additional")


def _of_several(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """Whether the claim has several of what a claim above is to: 'two frames of claim 1', each with parts."""
    above = subjects(all_, line[1:])
    own = all_.mentions[mention.claim]
    return any(m.plural and m.head in above and m.how != "definite" and m.end <= mention.start for m in own)


def _called(all_: Set, mention: Mention) -> tuple[str, ...]:
    """The words before a noun's head: `rectified` of 'the rectified images'."""
    words = all_.streams[mention.claim].words[mention.first : mention.end - 1]
    return tuple(w.stem for w in words)


def _one(exact: list[Mention]) -> bool:
    """Whether the one that is called exactly so was brought in alone, and another only beside it."""
    return any(m.how == "new" for m in exact)


def _lone(all_: Set, mention: Mention) -> bool:
    """Whether nothing says which of several: no 'each of' before, no 'to which the car is' after."""
    texts = all_.streams[mention.claim].texts
    if {"which", "that"}.intersection(texts[mention.end : mention.end + 2]) and texts[mention.end] != ",":
        return False
    barred = all_.streams[mention.claim].barred
    before = [texts[i] for i in range(max(0, mention.start - 12), mention.start) if i not in barred]
    return not {"each", "every", "respective", "any", "when", "if"}.intersection(before)


# ---- what is told


def _missing(all_: Set, line: tuple[int, ...], mention: Mention) -> Flag:
    elsewhere = [
        number for number, found in all_.mentions.items()
        if number not in line and any(m.how == "new" and _may_be(m, mention) for m in found)
    ]  # fmt: skip
    if elsewhere:
        return _flag(all_, mention, "no earlier", "elsewhere", line, elsewhere=tuple(elsewhere))
    near = _near(all_, line, mention)
    if near and _comes_later(all_, mention, near):
        return _flag(all_, mention, "no earlier", "none_but_later", line, named=(near,))
    if near:
        return _flag(all_, mention, "no earlier", "none_but_near", line, named=(near,))
    return _flag(all_, mention, "no earlier", "none", line)


def _may_be(new: Mention, mention: Mention) -> bool:
    """Whether a thing brought in has the noun and all the words of the one spoken of."""
    if new.head != mention.head or not mention.modifiers <= new.modifiers | new.of | new.ordinals:
        return False
    ordered = mention.ordinals & ORDERED
    return not ordered or new.plural or not ordered.isdisjoint(new.ordinals)


def _opposed(mention: Mention, other: Mention) -> bool:
    """`the negative electrode` and `a positive electrode`: two things, whatever words they share."""
    return any(
        not one.isdisjoint(mention.modifiers) and not two.isdisjoint(other.modifiers)
        for pair in runs("mention", "opposites").values()
        for first, second in pair
        for one, two in (({first}, {second}), ({second}, {first}))
    )


def _near(all_: Set, line: tuple[int, ...], mention: Mention) -> str:
    """A noun before with other words of the same beginnings: 'cross-linker' for 'crosslinking agent'."""
    begins = {w[:6] for w in (*mention.modifiers, mention.head) if len(w) > 5}
    for number in line:
        for m in all_.mentions[number]:
            if m.how != "new" or _opposed(mention, m):
                continue
            if begins & {w[:6] for w in (*m.modifiers, m.head) if len(w) > 5}:
                return all_.streams[number].shown(m.first, m.end)
    return ""


def _comes_later(all_: Set, mention: Mention, near: str) -> bool:
    """Whether the claim itself brings the noun in, in these words, behind the place where it is spoken of."""
    stream = all_.streams[mention.claim]
    own = [m for m in all_.mentions[mention.claim] if m.how == "new"]
    places = [m.start for m in own if stream.shown(m.first, m.end) == near]
    return bool(places) and min(places) > mention.start


def _other(all_: Set, line: tuple[int, ...], mention: Mention, earlier: list[Mention]) -> Flag:
    """The head was there, but under other words."""
    named = [all_.streams[m.claim].shown(m.first, m.end) for m in earlier if m.how == "new"]
    named = named or [all_.streams[m.claim].shown(m.first, m.end) for m in earlier]
    return _flag(all_, mention, "two names", "other_words", line, named=tuple(dict.fromkeys(named))[:3])


def _of_purpose(stream: Stream, earlier: Mention, mention: Mention) -> bool:
    """Whether the earlier one stands in what the claim is for: 'a method for correcting an image'."""
    if earlier.claim != mention.claim or "for" not in stream.texts[: earlier.start]:
        return False
    between = stream.texts[earlier.end : mention.start]
    return any(word.startswith(("compris", "characteri", "wherein")) for word in between)


def _again(all_: Set, lines: list[tuple[int, ...]], mention: Mention) -> bool:
    """Whether 'a thing' was brought in before, in each line above, with the same words."""
    inherent = listed("mention", "inherent") | listed("measures", "nouns") | listed("persons", "nouns")
    if mention.head in inherent | all_.known.inherent or mention.plural or mention.shared or mention.ordinals:
        return False
    stream = all_.streams[mention.claim]
    if any(i in stream.barred for i in range(mention.end, min(mention.end + 5, len(stream.words)))):
        return False
    if stream.texts[mention.start] not in ("a", "an") or mention.head in subjects(all_, lines[0]):
        return False
    before = stream.texts[max(0, mention.start - 2) : mention.start]
    further = before[:1] == ["further"] and before[-1].startswith(("compris", "includ", "hav"))
    for line in lines:
        same = [
            m for m in earlier_of(all_, line, mention)
            if m.how == "new" and not m.plural and not m.shared and not m.ordinals
            and not _of_purpose(stream, m, mention)
            and m.modifiers == mention.modifiers and (m.of == mention.of or (further and not m.of))
        ]  # fmt: skip
        if not same:
            return False
    return True
