"""Definite nouns that need no earlier mention: what a thing has without its being said, acts, other forms."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.text.claim_set import ORDERED, Set, earlier_of, subjects
from scopecheck.text.mentions import Mention
from scopecheck.text.stream import plural, stem


def needs_none(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    texts = all_.streams[mention.claim].texts
    inherent = listed("mention", "inherent") | all_.known.inherent | listed("persons", "nouns")
    earlier = bool(earlier_of(all_, line, mention))
    other_words = mention.modifiers - listed("mention", "places")
    of_another = mention.head in listed("mention", "parts") and bool(other_words)
    if mention.head in inherent and not earlier and not of_another:
        return True
    if texts[mention.first] in listed("mention", "remainders") and not earlier:
        return True
    if mention.of & listed("persons", "nouns") and not earlier:  # 'the foot of the wearer'
        return True
    if _told_here(texts[mention.first : mention.end], earlier):
        return True
    if mention.head == "formula" and any("formula" in all_.streams[n].texts for n in line[1:]):
        return True
    if mention.head == "formula" and "formula" in texts[: mention.start]:
        return True
    if mention.end - mention.first == 1 and texts[mention.first] in ORDERED:  # 'the first and second layers'
        return True
    counted = texts[mention.end : mention.end + 1]
    if texts[mention.end - 1] in listed("mention", "ordinals") and counted and counted[0] in NUMBER_WORDS:
        return True  # 'the last five measurements'
    if mention.head in listed("measures", "nouns") and _of_next(texts, mention) and not earlier:
        return True
    if mention.head in listed("measures", "nouns") and not earlier and _sensed(all_, line, mention):
        return True
    if not earlier and (_had(all_, line, mention) or _of_a_known_thing(all_, line, mention)):
        return True
    of_some = mention.of or mention.ordinals or _of_next(texts, mention)
    told_apart = mention.modifiers or mention.ordinals or not _numbered(all_, line, mention)
    if mention.head in inherent and of_some and told_apart:
        return True
    if mention.head in {stem(w) for w in listed("mention", "inherent") & listed("measures", "nouns")} and (
        mention.modifiers or mention.plural
    ):
        return True
    next_ = texts[mention.end : mention.end + 1]
    numbered = bool(next_) and next_[0][0].isdigit() and bool(mention.ordinals)
    return (numbered and not mention.plural) or (
        mention.head in subjects(all_, line) and not mention.modifiers
    )


def _told_here(noun: Sequence[str], earlier: bool) -> bool:
    """`the general formula LiCoO2`, `the following steps`, `the highest`: told by its own words."""
    if not {"formula", "formulae", "formulas"}.isdisjoint(noun[:-1]):
        return True
    return not earlier and (noun[0] == "following" or (len(noun) == 1 and _superlative(noun[0])))


def _superlative(word: str) -> bool:
    stems_ = (word[:-3], word[:-3] + "e", word[:-4], word[:-4] + "y") if word.endswith("est") else ()
    sizes = listed("degree", "size") | listed("degree", "manner") | {"early", "late", "old", "new", "near"}
    return not sizes.isdisjoint(stems_)


def _numbered(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """Whether a first one and a second one were brought in."""
    return len({o for m in earlier_of(all_, line, mention) for o in m.ordinals & ORDERED}) > 1


def _sensed(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the humidity` where a humidity sensor was brought in."""
    return any(mention.head in m.modifiers for number in line for m in all_.mentions[number])


def _had(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the dry matter` where a dry matter content was brought in."""
    wanted, measures = mention.modifiers | {mention.head}, listed("measures", "nouns")
    before = (m for number in line for m in all_.mentions[number] if m.head in measures)
    return any(wanted <= m.modifiers for m in before)


def _of_a_known_thing(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the lid thickness` where a lid was brought in, as `the thickness of the lid`."""
    if mention.head not in listed("measures", "nouns") or not mention.modifiers:
        return False
    things = (m for number in line for m in all_.mentions[number] if m.how == "new")
    return any(
        m.head in mention.modifiers and mention.modifiers <= m.modifiers | {m.head}
        for m in things
        if m.claim != mention.claim or m.end <= mention.start
    )


def _of_next(texts: list[str], mention: Mention) -> bool:
    return texts[mention.end : mention.end + 1] == ["of"] or texts[mention.start - 1 : mention.start] == [
        "at"
    ]


_AFTER_VERBS = frozenset("at from to when if until by into upon while during between".split())


def without_verb(all_: Set, mention: Mention) -> Mention | None:
    """`the unit operates at`: the noun without a last word that may be its verb, if no noun was called so."""
    stream = all_.streams[mention.claim]
    after = stream.texts[mention.end : mention.end + 1]
    if not (mention.plural and mention.end - mention.first > 1 and _AFTER_VERBS.intersection(after)):
        return None
    words = stream.words[mention.first : mention.end - 1]
    modifiers = frozenset(w.stem for w in words[:-1]) & mention.modifiers
    return replace(mention, end=mention.end - 1, head=words[-1].stem, modifiers=modifiers, plural=False)


def several_before(all_: Set, line: tuple[int, ...], mention: Mention) -> Mention | None:
    """`said legs cross`: the known things before words that can only be their verb, for none is called so."""
    words = all_.streams[mention.claim].words
    for end in range(mention.end - 1, mention.first, -1):
        if plural(words[end - 1].text):
            modifiers = frozenset(w.stem for w in words[mention.first : end - 1]) & mention.modifiers
            found = replace(
                mention, end=end, head=words[end - 1].stem, modifiers=modifiers, plural=True, of=frozenset()
            )
            if earlier_of(all_, line, found):
                return found
    return None


def before_participle(all_: Set, line: tuple[int, ...], mention: Mention) -> Mention | None:
    """`the memory storing instructions`: the known thing before a word in -ing, for none is called so."""
    words = all_.streams[mention.claim].words
    for end in range(mention.end - 1, mention.first, -1):
        if words[end].text.endswith("ing"):
            modifiers = frozenset(w.stem for w in words[mention.first : end - 1]) & mention.modifiers
            one = plural(words[end - 1].text)
            found = replace(mention, end=end, head=words[end - 1].stem, modifiers=modifiers, plural=one)
            if earlier_of(all_, line, found):
                return found
    return None


def in_a_subject(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the program` of a claim to a computer program product."""
    first = (m for number in line for m in all_.mentions[number][:1])
    return any(mention.head in m.modifiers for m in first)


def as_act(all_: Set, line: tuple[int, ...], mention: Mention) -> bool:
    """`the mixing` after 'mixed', `the melt` after 'are melted': an act that was said, or what it gives."""
    head = mention.head
    base = next(
        (head.removesuffix(e) for e in ("ing", "ation", "tion", "ment", "ion") if head.endswith(e)), ""
    )
    result, verbs = head in listed("mention", "results"), listed("mention", "verbs")
    before = [
        w for number in line for i, w in enumerate(all_.streams[number].words)
        if number != mention.claim or i < mention.start
    ]  # fmt: skip
    for word in before:
        text = word.text
        if (
            base
            and len(base) > 2
            and not mention.modifiers
            and text.startswith(base)
            and (
                text != base or head not in listed("mention", "ing_nouns")  # 'is open' makes no opening
            )
        ):
            return True
        done = {head + e for e in ("ed", "ing", "ling", "ped", "ting")}
        dropped = set() if mention.modifiers else {head.removesuffix("e") + e for e in ("ed", "ing")}
        made = _given(head, text)
        spoken = text in (head + "s", head + "es") and not mention.modifiers and head + "s" in verbs
        if (
            made
            or spoken
            or text in done | dropped
            or (result and text.endswith(("ing", "ed")) and text[:3] == head[:3])
        ):
            return True
    known = {w.text[:4] for w in before}
    said = all(modifier[:4] in known for modifier in mention.modifiers)
    return result and said and any(w.text in listed("mention", "makes") for w in before)


def _given(head: str, text: str) -> bool:
    """`the capsules` after 'encapsulated', but not `the stirrer` after 'stirred'."""
    agent = head.endswith(("er", "or"))
    return len(head) > 5 and not agent and head[:6] in text and text.endswith(("ed", "ing"))


def glued(mention: Mention, earlier: Sequence[Mention]) -> bool:
    """`the cork layer` of 'a layer of cork', `the backrest` of 'a back rest'."""
    return any(mention.modifiers and mention.modifiers <= (m.of | m.modifiers | m.ordinals) for m in earlier)
