"""Matching the words of a limitation against the patterns of phrases.

Knows tokens and patterns, nothing of meanings: what fills a slot is handed back as the tokens it stands on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import zip_longest
from typing import TypeAlias

from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.patterns import Literals, Pattern, Slot

COMBINATIONS = listed("measures", "combinations")
FILLERS = listed("nouns", "fillers")
MULTIPLES = ("twice", "thrice", "times", "double", "than")
"""What stands behind these says of what they are multiples: it is no name that could be left out."""
MOST_WORDS_OF_A_VALUE = 16
ALWAYS = (("at", "all", "times"), ("at", "every", "moment"), ("throughout",))
CHANGES = frozenset(("drop", "fall", "rise"))
"""Fillers as verbs; as nouns they say what is measured."""
BY = listed("measures", "changed_by")
A_CHANGE = listed("measures", "a_change")
"""Of what is called so, `by at least 30 %` is a limit like any other."""
_AFTER_A_NOUN = frozenset(
    "of in is are being has having that which lies stays remains on over across between along through"
    " during".split()
)
FILLER_RUNS = (
    ("in", "an", "amount", "of"), ("in", "amounts", "of"), ("an", "amount", "of"), ("amount", "of"),
    ("ph", "of"), ("a", "value", "of"), ("value", "of"), ("number", "of"), ("in", "number"), ("range", "of"),
    *((many, "of") for many in ("group", "array", "set", "row", "series", "ring", "arrangement")),
    ("present",), ("present", "in"),
    ("made", "of", "a", "material"), ("made", "from", "a", "material"),
    *((said, "to") for said in "amount amounts amounting corresponds corresponding equates".split()),
    ("of", "a", "material"), ("formed", "of", "a", "material"),
    *((done, to) for done in sorted(listed("asides", "brought")) for to in ("to", "at")),
)  # fmt: skip


@record
class Fill:
    """What stands in a slot: its tokens, and for a list the tokens of each member."""

    slot: Slot
    tokens: tuple[Token, ...]
    members: tuple[tuple[Token, ...], ...] = ()


@record
class Match:
    """One way to read words as a phrase. `literals` counts the words found as such."""

    entry: Entry
    pattern: Pattern
    fills: tuple[Fill, ...]
    wording: str
    literals: int
    instead_of: Entry | None = None
    """The phrase of the catalogue whose place one of the sheet's or the practice's own takes."""


@record
class Tests:
    """What the chart may ask about tokens: is this a number or a declared one, a member, a condition,
    a limit on each thing left of the colon?

    `subjects`: how many things stand left of the colon; 0: it does not matter.
    """

    number: Callable[[tuple[Token, ...]], bool]
    item: Callable[[tuple[Token, ...]], bool]
    limit: Callable[[tuple[Token, ...]], bool]
    applies: Callable[[Entry], bool]
    own_words: frozenset[str]
    subjects: int
    of_parts: bool = False
    counted: bool = False
    """Whether the first thing left of the colon is so many of something."""
    """Whether a limit may be all the words: one on each part, or at each moment."""
    step: Callable[[tuple[Token, ...]], bool] = lambda _: False
    moment: Callable[[tuple[Token, ...]], bool] = lambda _: False
    outcome: Callable[[tuple[Token, ...]], bool] = lambda _: False
    condition: Callable[[tuple[Token, ...]], bool] = lambda _: False
    state: Callable[[tuple[Token, ...]], bool] = lambda _: False
    agree: Callable[[Entry, tuple[Fill, ...]], bool] = lambda _entry, _fills: True
    """Whether what fills the slots goes together."""


def said_instead(tokens: tuple[Token, ...], words: list[str]) -> tuple[Token, ...]:
    """Words that stand for all of the tokens: the first of them has their place, the others have none."""
    first, end = tokens[0], tokens[-1].end
    whole = replace(first, sort="word", text=words[0], number=None, end=end)
    rest = (replace(whole, sort="mark" if w == "," else "word", text=w, start=end) for w in words[1:])
    return (whole, *rest)


def word_of(token: Token) -> str:
    return token.text.lower()


def has_number(token: Token) -> bool:
    return token.number is not None or word_of(token) in NUMBER_WORDS


def matches(tokens: tuple[Token, ...], phrases: Phrasebook, tests: Tests) -> list[Match]:
    """The best readings of all the words as one phrase: fewest fillers dropped, then most literal words.

    Empty: none. More than one: the words are a phrase in two ways.
    """
    tokens = tuple(t for t in tokens if t.sort != "gap")
    words = frozenset(word_of(t) for t in tokens)
    candidates = [
        (e, p)
        for e in phrases.having(words)
        if tests.applies(e)
        for p in (w.pattern for w in e.wordings if not w.keys or not w.keys.isdisjoint(words))
        if all(need & words for need in p.required) and _takes(e, p, tests.subjects)
    ]
    for start, end in _trims(tokens, tests.own_words):
        found = [m for e, p in candidates for m in _whole(tokens[start:end], e, p, tests)]
        if found:
            most = max(m.literals for m in found)
            return _distinct([m for m in found if m.literals == most])
    return []


def _takes(entry: Entry, pattern: Pattern, subjects: int) -> bool:
    """Is the wording for so many things left of the colon? One for a sequence of steps is for any number."""
    return subjects in (0, entry.takes(pattern)) or "sequences" in entry.only_for


def _distinct(found: list[Match]) -> list[Match]:
    nearest = min(m.entry.nearness for m in found)
    built_in = next((m.entry for m in found if nearest < m.entry.nearness == 2), None)
    kept: list[Match] = []
    for match in found:
        if match.entry.nearness == nearest and not any(k.entry is match.entry for k in kept):
            kept.append(replace(match, instead_of=built_in) if built_in else match)
    if any(fill.slot.kind == "ratio" for m in kept for fill in m.fills):
        # Of 'a ratio of 2 to 1', which may be one ratio, the phrase for plain numbers says more.
        kept = [m for m in kept if any(fill.slot.kind == "plain" for fill in m.fills)] or kept
    of_counts = [m for m in kept if m.entry.only_for == ("counts",)]
    return of_counts or kept  # what is made for numbers of things says more of them


def _trims(tokens: tuple[Token, ...], own: frozenset[str]) -> Iterator[tuple[int, int]]:
    """Stretches without fillers at the start and the subject's own words at the end, the longest first."""
    starts = list(_starts(tokens, own))
    ends = list(_ends(tokens, own))
    yield from sorted(
        ((s, e) for s in starts for e in ends if s < e), key=lambda p: (p[0] + len(tokens) - p[1], p[0])
    )


def _starts(tokens: tuple[Token, ...], own: frozenset[str]) -> Iterator[int]:
    seen = {0}
    queue = [0]
    while queue:
        at = queue.pop(0)
        yield at
        steps = [1] if at < len(tokens) and _is_idle(tokens, at, own) else []
        steps += [len(run) for run in FILLER_RUNS if tuple(map(word_of, tokens[at : at + len(run)])) == run]
        for step in steps:
            if at + step < len(tokens) and at + step not in seen:
                seen.add(at + step)
                queue.append(at + step)


def _is_idle(tokens: tuple[Token, ...], at: int, own: frozenset[str]) -> bool:
    """Does the word say nothing of the limit? A change is another thing than what changes, unless named."""
    word = word_of(tokens[at])
    if word == "at" and any(word_of(t) == "most" for t in tokens[at + 1 : at + 2]):
        return False  # 'at most' is not 'most'
    if word in BY and own & A_CHANGE:
        return True
    if word == "where" and any(word_of(t) in own for t in tokens[at + 1 : at + 2]):
        return True  # 'where n is 3, 4 or 5'
    if word in own or word not in CHANGES:
        return word in own or word in FILLERS
    before = word_of(tokens[at - 1]) if at else ""
    after = word_of(tokens[at + 1]) if at + 1 < len(tokens) else ""
    placed = after == "at" and all(word_of(t) not in ("least", "most") for t in tokens[at + 2 : at + 3])
    return before not in _ARTICLES and after not in _AFTER_A_NOUN and not placed


def _ends(tokens: tuple[Token, ...], own: frozenset[str]) -> Iterator[int]:
    end = len(tokens)
    yield end
    words = [word_of(t) for t in tokens]
    for run in ALWAYS:
        if end > len(run) + 1 and tuple(words[end - len(run) : end]) == run:
            end -= len(run)
            yield end
    while end > 1 and (words[end - 1] in own or words[end - 1] in ("of", "the", "a", "an", "in")):
        end -= 1
        if words[end - 1] in MULTIPLES:
            return
        yield end


_ARTICLES = frozenset(("a", "an", "the"))
"""A pattern of these and nouns alone reads the subject's own name only: `a (noun a)` is not any two words."""


def _whole(tokens: tuple[Token, ...], entry: Entry, pattern: Pattern, tests: Tests) -> Iterator[Match]:
    articles = all(need <= _ARTICLES for need in pattern.required)
    denied = not articles and all(need <= _ARTICLES | {"no"} for need in pattern.required)
    for fills, wording, literals in _from(tokens, 0, pattern, 0, tests):
        nouns = [t for f in fills if f.slot.kind == "noun" for t in f.tokens]
        if articles and any(word_of(t) not in tests.own_words for t in nouns):
            continue
        if denied and nouns and not tests.counted and tests.own_words.isdisjoint(map(word_of, nouns)):
            continue  # 'no two alike' says nothing of none
        if not tests.agree(entry, fills):
            continue
        yield Match(entry, pattern, fills, " ".join(wording), literals)


_Part: TypeAlias = tuple[tuple[Fill, ...], tuple[str, ...], int]


def _from(tokens: tuple[Token, ...], at: int, pattern: Pattern, index: int, tests: Tests) -> Iterator[_Part]:
    """Every way to lay the rest of a pattern over the rest of the words."""
    if index == len(pattern.elements):
        if at == len(tokens):
            yield (), (), 0
        return
    element = pattern.elements[index]
    if isinstance(element, Literals):
        for option in element.options:
            if tuple(map(word_of, tokens[at : at + len(option)])) == tuple(o.lower() for o in option):
                for fills, wording, n in _from(tokens, at + len(option), pattern, index + 1, tests):
                    kept = wording if element.optional else (*(w for w in option if w != ","), *wording)
                    yield fills, kept, n + len(option)
        if element.optional:
            yield from _from(tokens, at, pattern, index + 1, tests)
        return
    follows = _follows(pattern, index + 1)
    for end, fill in _fills(tokens, at, element, tests, follows):
        for fills, wording, n in _from(tokens, end, pattern, index + 1, tests):
            yield (fill, *fills), ("...", *wording), n


def _follows(pattern: Pattern, index: int) -> frozenset[str]:
    """The words with which the rest of a pattern can begin; none: any, or the end."""
    found: set[str] = set()
    for element in pattern.elements[index:]:
        if not isinstance(element, Literals):
            return frozenset()
        found |= {option[0].lower() for option in element.options}
        if not element.optional:
            return frozenset(found)
    return frozenset()


def _fills(
    tokens: tuple[Token, ...], at: int, slot: Slot, tests: Tests, follows: frozenset[str]
) -> Iterator[tuple[int, Fill]]:
    if slot.kind == "list":
        needed = "/" if slot.joiner == "and/or" else slot.joiner
        if needed not in ("", "and", "comma") and all(word_of(t) != needed for t in tokens[at:]):
            return
        for end in range(len(tokens), at, -1):
            members = split_list(tokens[at:end], slot.joiner)
            if members and all(map(tests.item, members)):
                yield end, Fill(slot, tokens[at:end], members)
    elif slot.kind == "limit":
        # Never all the words again, but that of each part for a limit on the parts.
        shorter = len(tokens) - (at == 0 and not tests.of_parts)
        for end in range(shorter, at, -1):
            if not _breaks_off(tokens[at:end]) and tests.limit(tokens[at:end]):
                yield end, Fill(slot, tokens[at:end])
    elif slot.kind in ("outcome", "condition", "state"):
        test = {"outcome": tests.outcome, "condition": tests.condition, "state": tests.state}[slot.kind]
        for end in range(len(tokens), at, -1):
            next_to_it = end < len(tokens) and word_of(tokens[end]) in follows
            if (next_to_it or not follows) and not _breaks_off(tokens[at:end]) and test(tokens[at:end]):
                yield end, Fill(slot, tokens[at:end])
    elif slot.kind == "noun":
        for end in range(at + 1, len(tokens) + 1):
            if tokens[end - 1].sort != "word" or _combines(tokens, end - 1):
                return
            word = word_of(tokens[end - 1])
            one = tests.counted and at and end == at + 1 and word in _ONE
            if one and not any(_of_one_each(tokens, i) for i in range(at)) and word_of(tokens[0]) not in _ONE:
                return  # 'two pins and a lid': one of them
            joined = at > 1 and end == at + 1 and word_of(tokens[at - 1]) in ("and", ",")
            if joined and word in _BEFORE_ONE and _begins_with_several(tokens):
                return  # 'a plurality of pins and a lid', 'and the lid'
            if word not in tests.own_words and _never_in_nouns(word):
                return
            if _names(tokens[at:end], tokens[end:], tests.own_words):
                yield end, Fill(slot, tokens[at:end])
    else:
        test = {"step": tests.step, "moment": tests.moment}.get(slot.kind, tests.number)
        for end in range(at + 1, min(at + MOST_WORDS_OF_A_VALUE, len(tokens)) + 1):
            if test(tokens[at:end]) and not _reaches_too_far(tokens, at, end):
                yield end, Fill(slot, tokens[at:end])


def _of_one_each(tokens: tuple[Token, ...], at: int) -> bool:
    """`at least one of a pin and a lid`: does a list begin here of which each member is one?"""
    return word_of(tokens[at]) == "of" and word_of(tokens[at + 1]) in _ONE


def _begins_with_several(tokens: tuple[Token, ...]) -> bool:
    return not _SEVERAL.isdisjoint(map(word_of, tokens[:2]))


_ONE = ("a", "an")
_BEFORE_ONE = frozenset("a an the said its their this that each".split())
_SEVERAL = frozenset(("plurality", "multiplicity"))


_NEVER_IN_NOUNS = ("to", "or", "some", "plurality", "multiplicity")
_JOINING = frozenset((",", "and", "or", "but", "nor"))
_LEADING_ON = _JOINING | frozenset(
    "the a an of than is are by to at in with for from which if when unless where between".split()
)


def _never_in_nouns(word: str) -> bool:
    """Is it no word of a name? 'A number of between four and eight' is no number of things so called."""
    counted = NUMBER_WORDS.get(word, 1) != 1
    return counted or word in _NEVER_IN_NOUNS or word in listed("names", "never")


def _breaks_off(tokens: tuple[Token, ...]) -> bool:
    """Cheap to ask: do the words begin or end where no limit or statement does?"""
    last = [word_of(t) for t in tokens[-2:]]
    led_on = last in (["at", "least"], ["at", "most"]) and not any(t.number for t in tokens[-3:])
    return led_on or word_of(tokens[0]) in _JOINING or last[-1] in _LEADING_ON


_BEFORE_A_MULTIPLE = ("twice", "thrice", "times", "double", "half", "of")


def _reaches_too_far(tokens: tuple[Token, ...], at: int, end: int) -> bool:
    """`half the bore plus 2 mm`: is a sum taken whole behind words for a multiple of its first part?"""
    of_a_multiple = at > 0 and word_of(tokens[at - 1]) in _BEFORE_A_MULTIPLE
    return of_a_multiple and any(word_of(t) in ("plus", "minus") for t in tokens[at:end])


def _names(tokens: tuple[Token, ...], after: tuple[Token, ...], own: frozenset[str]) -> bool:
    """Can the words be what a thing is called? 'The smaller of the rims' says more than that."""
    words = [word_of(t) for t in tokens]
    following = [*words[1:], *(word_of(t) for t in after[:1])]
    if words[0] == "each" and following[:1] == ["of"]:
        return False
    if words[-1] in listed("names", "never_last") or (words[0] in NUMBER_WORDS and words[0] not in own):
        return False
    if leaves([words[0], *following], own):
        return False
    several = (
        w for w, then in zip(words, following, strict=False) if then in ("of", "than") and w not in own
    )
    return listed("names", "of_several").isdisjoint(several)


def leaves(said: Sequence[str], own: frozenset[str]) -> bool:
    """`the width outside the`, `the gap out of`: do words that are no name say where a value lies?"""
    return any(
        w in _LEAVING and w not in own and (then in _LEADING_ON or then in _FROM_THERE or then == "")
        for w, then in zip_longest(said, said[1:], fillvalue="")
    )


_LEAVING = ("outside", "out", "beyond", "short")
_FROM_THERE = ("this", "that", "said", "these", "those", "its")


def _combines(tokens: tuple[Token, ...], at: int) -> bool:
    """`average of`, `difference between`: words that make one value of several are no part of a noun."""
    after = word_of(tokens[at + 1]) if at + 1 < len(tokens) else ""
    return word_of(tokens[at]) in COMBINATIONS and after in ("of", "between")


def split_list(tokens: tuple[Token, ...], joiner: str) -> tuple[tuple[Token, ...], ...]:
    """The members of a list with commas and a joiner before the last; () if it is not such a list.

    Lists joined by 'and' or by commas alone may have a single member; others have two at least. `A and B, and
    C` is no list: its comma parts one from the other; nor is `A, B and C, and D`.
    """
    allowed = ("and", "or") if joiner == "" else () if joiner == "comma" else (joiner,)
    single = joiner in ("", "and", "comma")
    members: list[list[Token]] = [[]]
    joined = at = 0
    apart: set[bool] = set()
    while at < len(tokens):
        word, width = _joiner(tokens, at)
        if word in allowed:
            joined += 1
            apart.add(bool(at) and word_of(tokens[at - 1]) == ",")
        if (word == "," and not prefers(tokens[at + 1 :])) or word in allowed:
            if members[-1]:
                members.append([])
            elif word == ",":
                return ()
        else:
            members[-1] += tokens[at : at + width]
        at += width
    if (
        not members[-1]
        or (len(apart) > 1 and joiner != "or")
        or (len(members) > 1 and not joined and joiner != "comma")
        or (len(members) == 1 and not single)
        or (joiner == "and" and 1 < joined < len(members) - 1)
    ):
        return ()
    return tuple(map(tuple, members))


def prefers(tokens: tuple[Token, ...]) -> bool:
    """`more preferably 3 mm`: do the words begin with a preference? A comma before it parts nothing."""
    words = [word_of(t) for t in tokens[:3]]
    rest = next((i for i, w in enumerate(words) if w not in _DEGREES), len(words))
    return words[rest : rest + 1] != [] and words[rest] in PREFERENCES


GOVERNING = listed("limits", "governing") | {"where"}
"""Behind these stands a condition; in a claim's own text 'where' may mean wherein."""
CONDITION_WORDS = GOVERNING | {"provided"}
PREFERENCES = frozenset("preferably ideally advantageously desirably suitably favourably".split())
_DEGREES = ("even", "still", "more", "most", "very", "particularly", "especially")


def _joiner(tokens: tuple[Token, ...], at: int) -> tuple[str, int]:
    words = tuple(word_of(t) for t in tokens[at : at + 3])
    if words == ("and", "/", "or"):
        return "and/or", 3
    open_ended = words[:1] == ("or",) and words[1:2] and words[1] in _OPEN_ENDS and words[2:] == ("or",)
    return ("", 2) if open_ended and at and tokens[at - 1].number else (words[0], 1)


_OPEN_ENDS = frozenset("less more fewer greater higher lower below above".split())
"""What ends a limit behind its number, as in '3 mm or less, or more than 10 mm': its 'or' joins nothing."""


def joined_parts(tokens: tuple[Token, ...]) -> Iterator[tuple[tuple[Token, ...], tuple[Token, ...]]]:
    """Both sides of each 'and' or 'but' that may join two complete conditions: those behind a comma, which
    part more, before the others; each from the left."""
    places = [i for i, t in enumerate(tokens[:-1]) if i and word_of(t) in ("and", "but")]
    for index in sorted(places, key=lambda i: tokens[i - 1].text != ","):
        end = index - 1 if tokens[index - 1].text == "," else index
        yield tokens[:end], tokens[index + 1 :]
