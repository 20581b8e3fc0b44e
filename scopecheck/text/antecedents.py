"""'The' and 'said' something: whether one such thing was brought in before, in each line of claims."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from scopecheck.foundations.record import field, holder, replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.text.flags import Flag
from scopecheck.text.mentions import Mention
from scopecheck.text.stream import Stream, plural, stem

MOST_LINES = 8
"""How many lines of claims above a claim are followed."""


@holder
class Known:
    """What the user says of nouns: which are one, and what a thing has without its being said."""

    alike: Mapping[str, frozenset[str]] = field(default_factory=dict)
    inherent: frozenset[str] = frozenset()


@holder
class Set:
    """All claims of a text: their words and their nouns."""

    streams: Mapping[int, Stream]
    mentions: Mapping[int, Sequence[Mention]]
    known: Known
    told: dict[int, set[tuple[str, frozenset[str]]]] = field(default_factory=dict)
    """The nouns already told of, by claim: the claims that go back on it do not repeat it."""

    def lines_above(self, number: int) -> list[tuple[int, ...]]:
        """The claims that a claim goes back on, the nearest first; one line for each way up."""
        lines: list[tuple[int, ...]] = []
        queue: list[tuple[int, ...]] = [(number,)]
        while queue and len(lines) < MOST_LINES:
            line = queue.pop(0)
            above = [p for p in self.streams[line[-1]].parents if p not in line]
            if above:
                queue += [(*line, p) for p in above[:MOST_LINES]]
            else:
                lines.append(line)
        return lines or [(number,)]


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
        key = (mention.head, mention.modifiers | mention.ordinals)
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


def _earlier(all_: Set, line: tuple[int, ...], mention: Mention) -> list[Mention]:
    """The nouns brought in above or before a mention with its head, or one that is called alike."""
    heads = {mention.head} | all_.known.alike.get(mention.head, frozenset())
    found = [
        m for number in reversed(line[1:]) for m in all_.mentions[number]
        if m.head in heads and m.how != "definite"
    ]  # fmt: skip
    own = (m for m in all_.mentions[mention.claim] if m.end <= mention.start)
    return found + [m for m in own if m.head in heads and m.how != "definite"]


def _looked_up(all_: Set, line: tuple[int, ...], mention: Mention) -> Flag | None:
    if _needs_none(all_, line, mention):
        return None
    earlier = _earlier(all_, line, mention)
    if not earlier and (reduced := _without_verb(all_, mention) or _several_before(all_, line, mention)):
        return _looked_up(all_, line, reduced)
    if not earlier:
        named = _in_a_subject(all_, line, mention) or _as_act(all_, line, mention)
        return None if named else _missing(all_, line, mention)
    fitting = [m for m in earlier if mention.modifiers <= m.modifiers | m.of | m.ordinals]
    if not fitting:
        if mention.head in _subjects(all_, line) or _glued(mention, earlier):
            return None
        if any(mention.modifiers >= m.modifiers > frozenset() or not mention.modifiers for m in earlier):
            return None if mention.plural else _other(all_, line, mention, earlier)
        return _other(all_, line, mention, earlier)
    if mention.ordinals & _ORDERED:
        counted = any(m.plural for m in fitting)
        same = [m for m in fitting if m.ordinals & mention.ordinals & _ORDERED]
        return None if same or counted else _other(all_, line, mention, earlier)
    return _which(all_, line, mention, fitting)


_ORDERED = frozenset("first second third fourth fifth sixth".split())


def _which(all_: Set, line: tuple[int, ...], mention: Mention, fitting: list[Mention]) -> Flag | None:
    """Whether what fits is one thing, and in the number in which it is spoken of."""
    if mention.head in _subjects(all_, line) or mention.ordinals:
        return None
    exact = [m for m in fitting if m.modifiers == mention.modifiers and not m.ordinals & _ORDERED]
    kinds = {(m.modifiers, m.ordinals & _ORDERED) for m in fitting if m.how == "new"}
    things = [m for m in fitting if m.how == "new"] or fitting
    called = _called(all_, mention)
    things = [m for m in things if called and _called(all_, m) == called] or things
    if mention.plural:
        among = things if called and all(_called(all_, m) == called for m in things) else fitting
        several = any(m.plural or m.shared or m.how == "bare" for m in among) or len(things) > 1
        return None if several else _flag(all_, mention, "number", "plural_of_one", line)
    if len(kinds) > 1 and not (exact and len({m.modifiers for m in exact}) == 1 and _one(exact)):
        named = [all_.streams[m.claim].shown(m.first, m.end) for m in things]
        return _flag(all_, mention, "several earlier", "several", line, named=tuple(dict.fromkeys(named)))
    each = any(m.shared and m.claim == mention.claim for m in fitting)
    if all(m.counted for m in things) and _lone(all_, mention) and not each:
        stream = all_.streams[things[0].claim]
        first = stream.shown(things[0].start, things[0].end)
        if not first.lower().startswith(("at least one", "one or more")):
            return _flag(all_, mention, "several earlier", "one_of_several", line, named=(first,))
    return None


def _called(all_: Set, mention: Mention) -> tuple[str, ...]:
    """The words before a noun's head: `rectified` of 'the rectified images'."""
    words = all_.streams[mention.claim].words[mention.first : mention.end - 1]
    return tuple(w.stem for w in words)


def _one(exact: list[Mention]) -> bool:
    """Whether the one that is called exactly so was brought in alone, and another only beside it."""
    return any(m.how == "new" for m in exact)


def _lone(all_: Set, mention: Mention) -> bool:
    """Whether nothing before a mention says which of several: no 'each of', 'one of', 'respective'."""
    texts = all_.streams[mention.claim].texts
    before = texts[max(0, mention.start - 12) : mention.start]
    return not {"each", "every", "respective", "any", "when", "if"}.intersection(before)


# ---- what needs no earlier mention


def _needs_none(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    texts = all_.streams[mention.claim].texts
    inherent = listed("mention", "inherent") | all_.known.inherent | listed("persons", "nouns")
    earlier = bool(_earlier(all_, line, mention))
    other_words = mention.modifiers - listed("mention", "places")
    of_another = mention.head in listed("mention", "parts") and bool(other_words)
    if mention.head in inherent and not earlier and not of_another:
        return True
    if texts[mention.first] in listed("mention", "remainders") and not earlier:
        return True
    if mention.of & listed("persons", "nouns") and not earlier:  # 'the foot of the wearer'
        return True
    if mention.end - mention.first == 1 and texts[mention.first] in _ORDERED:  # 'the first and second layers'
        return True
    if mention.head in listed("measures", "nouns") and _of_next(texts, mention) and not earlier:
        return True
    if mention.head in listed("measures", "nouns") and not earlier and _sensed(all_, line, mention):
        return True
    if mention.head in inherent and (mention.of or mention.ordinals or _of_next(texts, mention)):
        return True
    if mention.head in {stem(w) for w in listed("mention", "inherent") & listed("measures", "nouns")} and (
        mention.modifiers or mention.plural
    ):
        return True
    next_ = texts[mention.end : mention.end + 1]
    numbered = bool(next_) and next_[0][0].isdigit() and bool(mention.ordinals)
    return (numbered and not mention.plural) or (
        mention.head in _subjects(all_, line) and not mention.modifiers
    )


def _sensed(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the humidity` where a humidity sensor was brought in."""
    return any(mention.head in m.modifiers for number in line for m in all_.mentions[number])


def _of_next(texts: list[str], mention: Mention) -> bool:
    return texts[mention.end : mention.end + 1] == ["of"] or texts[mention.start - 1 : mention.start] == [
        "at"
    ]


def _subjects(all_: Set, line: tuple[int, ...]) -> frozenset[str]:
    """What the claims of a line are claims to."""
    return frozenset(m.head for number in line for m in all_.mentions[number][:1])


_AFTER_VERBS = frozenset("at from to when if until by into upon while during between".split())


def _without_verb(all_: Set, mention: Mention) -> Mention | None:
    """`the unit operates at`: the noun without a last word that may be its verb, if no noun was called so."""
    stream = all_.streams[mention.claim]
    after = stream.texts[mention.end : mention.end + 1]
    if not (mention.plural and mention.end - mention.first > 1 and _AFTER_VERBS.intersection(after)):
        return None
    words = stream.words[mention.first : mention.end - 1]
    modifiers = frozenset(w.stem for w in words[:-1]) & mention.modifiers
    return replace(mention, end=mention.end - 1, head=words[-1].stem, modifiers=modifiers, plural=False)


def _several_before(all_: Set, line: tuple[int, ...], mention: Mention) -> Mention | None:
    """`said legs cross`: the known things before words that can only be their verb, for none is called so."""
    words = all_.streams[mention.claim].words
    for end in range(mention.end - 1, mention.first, -1):
        if plural(words[end - 1].text):
            modifiers = frozenset(w.stem for w in words[mention.first : end - 1]) & mention.modifiers
            found = replace(
                mention, end=end, head=words[end - 1].stem, modifiers=modifiers, plural=True, of=frozenset()
            )
            if _earlier(all_, line, found):
                return found
    return None


def _in_a_subject(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the program` of a claim to a computer program product."""
    first = (m for number in line for m in all_.mentions[number][:1])
    return any(mention.head in m.modifiers for m in first)


def _as_act(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the mixing` after 'mixed', `the melt` after 'are melted': an act that was said, or what it gives."""
    head = mention.head
    base = next(
        (head.removesuffix(e) for e in ("ing", "ation", "tion", "ment", "ion") if head.endswith(e)), ""
    )
    result = head in listed("mention", "results")
    before = [
        w for number in line for i, w in enumerate(all_.streams[number].words)
        if number != mention.claim or i < mention.start
    ]  # fmt: skip
    for word in before:
        text = word.text
        if base and len(base) > 2 and not mention.modifiers and text.startswith(base) and (
            text != base or head not in listed("mention", "ing_nouns")  # 'is open' makes no opening
        ):
            return True
        if text in (head + "ed", head + "ing", head + "ling", head + "ped", head + "ting") or (
            result and text.endswith(("ing", "ed")) and text[:3] == head[:3]
        ):
            return True
    return result and any(w.text in listed("mention", "makes") for w in before)


def _glued(mention: Mention, earlier: Sequence[Mention]) -> bool:
    """`the cork layer` of 'a layer of cork', `the backrest` of 'a back rest'."""
    return any(mention.modifiers and mention.modifiers <= (m.of | m.modifiers | m.ordinals) for m in earlier)


# ---- what is told


def _missing(all_: Set, line: tuple[int, ...], mention: Mention) -> Flag:
    elsewhere = [
        number for number, found in all_.mentions.items()
        if number not in line and any(m.head == mention.head and m.how == "new" for m in found)
    ]  # fmt: skip
    if elsewhere:
        return _flag(all_, mention, "no earlier", "elsewhere", line, elsewhere=tuple(elsewhere[:3]))
    near = _near(all_, line, mention)
    if near:
        return _flag(all_, mention, "no earlier", "none_but_near", line, named=(near,))
    return _flag(all_, mention, "no earlier", "none", line)


def _near(all_: Set, line: tuple[int, ...], mention: Mention) -> str:
    """A noun before with other words of the same beginnings: 'cross-linker' for 'crosslinking agent'."""
    begins = {w[:6] for w in (*mention.modifiers, mention.head) if len(w) > 5}
    for number in line:
        for m in all_.mentions[number]:
            if m.how == "new" and begins & {w[:6] for w in (*m.modifiers, m.head) if len(w) > 5}:
                return all_.streams[number].shown(m.first, m.end)
    return ""


def _other(all_: Set, line: tuple[int, ...], mention: Mention, earlier: list[Mention]) -> Flag:
    """The head was there, but under other words."""
    named = [all_.streams[m.claim].shown(m.first, m.end) for m in earlier if m.how == "new"]
    named = named or [all_.streams[m.claim].shown(m.first, m.end) for m in earlier]
    return _flag(all_, mention, "two names", "other_words", line, named=tuple(dict.fromkeys(named))[:3])


def _of_purpose(stream: Stream, earlier: Mention, mention: Mention) -> bool:
    """Whether the earlier one stands in what the claim is for: 'a method for correcting an image, comprising'."""
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
    if stream.texts[mention.start] not in ("a", "an") or mention.head in _subjects(all_, lines[0]):
        return False
    before = stream.texts[max(0, mention.start - 2) : mention.start]
    further = before[:1] == ["further"] and before[-1].startswith(("compris", "includ", "hav"))
    for line in lines:
        same = [
            m for m in _earlier(all_, line, mention)
            if m.how == "new" and not _of_purpose(stream, m, mention) and not m.plural and not m.shared and not m.ordinals
            and m.modifiers == mention.modifiers and (m.of == mention.of or (further and not m.of))
        ]  # fmt: skip
        if not same:
            return False
    return True
