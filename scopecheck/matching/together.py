"""Words that say of several amounts that they are meant together: 'a combined content of A and B of at most'.

The sum left of the colon says as much, so such words are left aside where they name all of what is summed, or
none of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import accumulate, combinations, pairwise

from scopecheck.core.declared import ChoiceDecl, Composition, SetDecl, Step
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.asides import Aside
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject, is_bare_share

_NAME = regex(r"(?:[\d',]+-|\(\w+\)-|\d{3,} )?[^\W\d_][\w', .-]*(?:\([\w ]+\)[\w' -]*)?")


def says_together(text: str) -> bool:
    return not listed("asides", "together").isdisjoint(text.lower().split())


def accounts_for(tokens: tuple[Token, ...]) -> bool:
    """`oil and gum account for`, `make up`: is it told what part of a whole something makes up?"""
    words = [word_of(t) for t in tokens]
    pairs = (("account", "for"), ("accounting", "for"), ("make", "up"), ("making", "up"))
    return any(p in pairs for p in pairwise(words)) or not _MAKING_UP.isdisjoint(words)


_MAKING_UP = frozenset("constitute constituting represent representing".split())


def with_and(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`a current of at most 3 A combined with a warmth of at most 40 degC` as the one and the other.

    Of several things that have no lists, where a limit or a state stands on either side and none is denied.
    """
    at, end = combined_with(tokens, subjects)
    if not end or not _DENYING.isdisjoint(map(word_of, tokens)):
        return tokens
    start = at - (word_of(tokens[at - 1]) == ",")
    return (*tokens[:start], replace(tokens[at], text="and", end=tokens[end - 1].end), *tokens[end:])


_DENYING = listed("asides", "denying_together")


def combined_with(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[int, int]:
    """Where `combined with` stands behind a limit or a state of the first of several things, and its end."""
    if len(subjects) < 2 or any(isinstance(s.bound, Step | SetDecl | Composition) for s in subjects):
        return 0, 0
    words = [word_of(t) for t in tokens]
    for at in range(2, len(words) - 2):
        width = run_at(words, at, "asides", "combined_with")
        limited = any(t.number for t in tokens[:at]) or any(isinstance(s.bound, ChoiceDecl) for s in subjects)
        stated = words[at - 1] not in listed("limits", "conditions")  # 'when combined with'
        if width and limited and stated and any(t.number for t in tokens[at:]):
            return at, at + width
    return 0, 0


def summands(text: str) -> tuple[str, ...]:
    """The names of what is summed left of a colon, one if it is no sum; none if it is another term."""
    parts = tuple(part.strip() for part in text.lower().split("+"))
    return parts if all(_NAME.fullmatch(part) for part in parts) else ()


def meant_together(tokens: tuple[Token, ...], names: tuple[str, ...]) -> Iterator[Aside]:
    """The ways to leave aside what says 'together' before a limit of the names' sum, behind it, or around."""
    numbers = [i for i, t in enumerate(tokens) if t.number or word_of(t) in NUMBER_WORDS]
    if not names or not numbers:
        return
    words = [word_of(t) for t in tokens]
    own = {word for name in names for word in name.split()}
    for end in range(numbers[0], 0, -1):
        if _says_together(words[:end], words[end:], names):
            yield Aside(tokens[end:], tokens[:end])
    for start in range(numbers[-1] + 1, len(tokens)):
        if _says_together(words[start:], words[:start], names):
            yield Aside(tokens[:start], tokens[start:])
        for end in range(numbers[0], 0, -1):
            # 'a total of five to seven lids and springs': all of the names stand behind.
            around = words[:end] + words[start:]
            # 'The oil is 60 wt% of the total of oil and gum' speaks of the oil by itself.
            again = len({f" {' '.join(words)} ".count(f" {name} ") for name in names}) > 1
            named = not again and not own.isdisjoint(words[start:])
            # 'rinsing and drying take at most 30 minutes in total': all of them stand before.
            in_all = words[start:] in _IN_TOTAL and {"both", "all"}.isdisjoint(words[:end])
            named |= in_all and not again and own.isdisjoint(words[end:start])
            if named and _says_together(around, words[end:start], names):
                yield Aside(tokens[end:start], tokens[:end])


_IN_TOTAL = [w.split() for w in ("in total", "together", "altogether", "combined", "all together", "overall")]


def _says_together(words: list[str], rest: list[str], names: tuple[str, ...]) -> bool:
    """Whether the words hold 'together' or the like, all of the names, and nothing else that counts.

    None of the names need stand there, if none stands in the rest, or if there is one name only.
    """
    together, beside = listed("asides", "together"), listed("asides", "beside_together")
    if together.isdisjoint(words) or ("up", "to") in pairwise(words):
        return False  # 'together up to 5 %' has a limit that begins with 'up to'
    own = {word for name in names for word in name.split()}
    said = [w for w in words if w in own]
    if any(w not in together | beside | own | {","} for w in words):
        return False
    if not said:
        return len(names) == 1 or own.isdisjoint(rest)
    return all(set(name.removeprefix("duration of ").split()) <= set(said) for name in names)


def of_the_whole_limit(aside: Aside, names: tuple[str, ...]) -> bool:
    """Do the words that say `together` speak of all that is left, and not of part of it?

    Not in `10 % of the sum of A and B`, a share of the sum, nor in `at least 2 % of oil and at least 5 % of
    oil and gum in total`, whose first limit is one on oil alone.
    """
    rest, beside = (f" {' '.join(map(word_of, t))} " for t in (aside.rest, aside.words))
    again = any(f" {name} " in rest and f" {name} " in beside for name in names)
    before = [t for t in aside.rest if word_of(t) not in ("of", "the")]
    of_the_sum = "sum" in map(word_of, aside.words[:3]) and any(map(is_bare_share, before[-1:]))
    return not again and not of_the_sum


def in_pairs(tokens: tuple[Token, ...], names: tuple[str, ...]) -> list[tuple[tuple[Token, ...], int, int]]:
    """`the gap, the rim and the cap are equal to one another`, `increase in this order`, `any two of them
    differ by 2 mm`, of three things or more: the words for each two of them, and which these are.
    """
    text = " ".join(map(word_of, tokens)) + " "
    any_name = "|".join(re.escape(name.lower()) for name in sorted(names, key=len, reverse=True))
    one = rf"(?:(?:the|an?) )?(?:{any_name})"
    row = rf"{one}(?: ,(?: and)? {one}| and {one})+"
    starts = list(accumulate((len(word_of(t)) + 1 for t in tokens), initial=0))
    by_name = {name.lower(): i for i, name in enumerate(names)}

    def named(said: str) -> list[int]:
        return [by_name[name] for name in regex(rf"(?<!\S)(?:{any_name})(?!\S)").findall(said)]

    def of_two(i: int, j: int, said: str, rest: int) -> tuple[tuple[Token, ...], int, int]:
        words = said.format(names[i], names[j])
        return (*_said(tokens[0], words), *tokens[rest:]), i, j

    for way, (said, neighbours) in _OF_EACH_TWO.items():
        found = regex(rf"(?:wherein )?{way.replace('ROW', f'(?P<row>{row})')} ").match(text)
        order = named(found["row"]) if found else []
        if found is None or sorted(order) != list(range(len(names))) or found.end() not in starts:
            continue
        rest = starts.index(found.end())
        if (rest < len(tokens)) != said.endswith(("by", "within")):
            continue
        if "difference" in way and not run_at([word_of(t) for t in tokens], rest, "limits", "saying_at_most"):
            continue
        pairs = pairwise(order) if neighbours else combinations(order, 2)
        return [of_two(i, j, said, rest) for i, j in pairs]
    return _in_a_chain(tokens, names)


def _in_a_chain(
    tokens: tuple[Token, ...], names: tuple[str, ...]
) -> list[tuple[tuple[Token, ...], int, int]]:
    """`the gap is smaller than the rim, which is smaller than the cap`, `and the rim is smaller`."""
    words = [word_of(t) for t in tokens]
    places = _names_in(words, names)
    found = list[tuple[tuple[Token, ...], int, int]]()
    start = 0
    for at in (i for i, w in enumerate(words) if w == "than"):
        behind = next((p for p in places if p[0] > at), None)
        before = next((p for p in reversed(places) if p[0] < at and p[0] >= start), None)
        again = before is not None and bool(found) and before[0] == start
        if behind is None or before is None or (again and "which" not in words[start:at]):
            return []
        first, second = before[1], behind[1]
        said = (*_said(tokens[start], f"the {names[first]} is"), *tokens[at - 1 : at + 1])
        found.append(((*said, *_said(tokens[at], f"the {names[second]}")), first, second))
        start = behind[0]
    joined = [w for w in words if w not in {*" ".join(names).lower().split()} | _IN_CHAINS]
    two = len(found) == len(names) - 1 and len({i for _, *pair in found for i in pair}) == len(names)
    compared = listed("asides", "greater") | listed("asides", "lesser")
    ending = bool(places) and places[-1][0] + len(names[places[-1][1]].split()) == len(words)
    return found if two and ending and all(w in compared for w in joined) else []


_IN_CHAINS = frozenset("the a an is being are than which and in turn , itself".split())


def _names_in(words: list[str], names: tuple[str, ...]) -> list[tuple[int, int]]:
    """Where which of the things is named."""
    split = [name.lower().split() for name in names]
    return [
        (i, n)
        for i in range(len(words))
        for n in sorted(range(len(names)), key=lambda n: -len(split[n]))
        if words[i : i + len(split[n])] == split[n]
    ]


_OTHER = "(?:each other|one another)"
_ORDER = (
    "(?:in (?:this|that|the) order(?: (?:named|mentioned|given|stated|listed|recited))?|in the stated order)"
)
_MOST, _LEAST = "(?:largest|greatest|longest|highest|widest)", "(?:smallest|least|shortest|lowest|narrowest)"
_SAME = "(?:equal|identical|the same)"
_OF_EACH_TWO = {
    rf"(?:any|each|every) (?:two|pair) of ROW (?:differ|differs)(?: from {_OTHER})? by": (
        "{} and {} differ by",
        False,
    ),
    rf"(?:any|each|every) (?:two|pair) of ROW are (?:different|unequal)(?: from {_OTHER})?": (
        "{} and {} are different",
        False,
    ),
    rf"ROW (?:all |each )?differ from {_OTHER} by": ("{} and {} differ by", False),
    rf"(?:the )?difference between the {_MOST} and the {_LEAST} of ROW (?:is|being|of)": (
        "{} and {} differ by",
        False,
    ),
    rf"ROW are (?:all )?{_SAME} (?:to {_OTHER} )?(?:to )?within": ("{} and {} are equal to within", False),
    rf"ROW are (?:all )?{_SAME}(?: to {_OTHER})?": ("{} and {} are equal", True),
    rf"ROW are (?:all )?(?:different|unequal)(?: (?:from|to) {_OTHER})?": ("{} and {} are different", False),
    rf"ROW (?:all )?(?:increase|increasing) {_ORDER}": ("{} is less than {}", True),
    rf"ROW (?:all )?(?:decrease|decreasing) {_ORDER}": ("{} is greater than {}", True),
    r"(?:.+ )?(?:increase|increasing|increases) in the order (?:of )?ROW": ("{} is less than {}", True),
    r"(?:.+ )?(?:decrease|decreasing|decreases) in the order (?:of )?ROW": ("{} is greater than {}", True),
}
"""What is said of several things in a row, the words for two of them, and whether those are neighbours."""


def difference_of(words: list[str], names: tuple[str, str]) -> int:
    """How many words before a limit say `the difference between A and B`, or `A and B differ by`; else 0.

    The names may stand in either order.
    """
    text = f"{' '.join(words)} "
    for first, second in (names, names[::-1]):
        both = rf"(?:the |an? )?{re.escape(first)} and (?:the |an? )?{re.escape(second)} "
        between = regex(
            rf"(?:the |an? )?differences? (?:between|in|of) {both}(?:of |is |being |lies |amounts to )?"
        )
        apart = regex(rf"{both}differ(?:s|ing)? (?:by )?")
        if found := between.match(text) or apart.match(text):
            return len(found.group().split())
    # 'The difference', of two things that the words do not name, is that between the two.
    named = any(f" {name} " in f" {text}" for name in names)
    return 2 if words[:2] == ["the", "difference"] and not named else 0


def with_both_named(tokens: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """With both names before it: `differ from each other by 3 mm`, `within 3 mm of each other`.

    'Each other' is left out. `A ratio of 2 to 5` is that of the first to the second.
    """
    words = [word_of(t) for t in tokens]
    if len(names) != 2 or not words:
        return tokens
    if words[0] == "within" and words[-3:] in (["of", "each", "other"], ["of", "one", "another"]):
        last = replace(tokens[-4], end=tokens[-1].end)  # that it is of each other is heard of the span
        return (*_said(tokens[0], f"{names[0]} and {names[1]} differ by at most"), *tokens[1:-4], last)
    to_within = (["the", "same", "to", "within"], ["the", "same", "within"], ["equal", "to", "within"])
    if any(words[: len(run)] == run for run in to_within):
        behind = words.index("within") + 1
        return (*_said(tokens[0], f"{names[0]} and {names[1]} differ by at most"), *tokens[behind:])
    if plus := _plus(words, names):
        return (*_said(tokens[0], f"sum of {names[0]} and {names[1]}"), *tokens[plus:])
    compound = f"{names[0]}-to-{names[1]}".lower()
    if compound in words and words[words.index(compound) + 1 : words.index(compound) + 2] == ["ratio"]:
        before = words.index(compound)
        return (*tokens[:before], *_said(tokens[0], f"{names[0]} to {names[1]}"), *tokens[before + 1 :])
    mixed = _mixture(words, names)
    if mixed and words[mixed : mixed + 1] == ["in"] and "ratio" in words[mixed + 1 : mixed + 4]:
        tokens, words = tokens[mixed:], words[mixed:]
    if words[0] == "in" and "ratio" in words[1:4]:
        return (*_said(tokens[0], f"{names[0]} and {names[1]} present"), *tokens)
    first = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    if "ratio" in words[:3] and "to" not in words[:first]:
        behind = words.index("ratio") + 1
        if words[:behind][-2:-1] and words[behind - 2] in _MEASURED_ALIKE:
            tokens, behind = (*tokens[: behind - 2], *tokens[behind - 1 :]), behind - 1  # 'a thickness ratio'
        return (*tokens[:behind], *_said(tokens[0], f"of {names[0]} to {names[1]}"), *tokens[behind:])
    at = next((i for i, w in enumerate(words) if w in ("differ", "differing", "differs")), None)
    if at is None:
        return tokens
    if words[at + 1 : at + 4] in (["from", "each", "other"], ["from", "one", "another"]):
        tokens = (*tokens[: at + 1], *tokens[at + 4 :])
    return tokens if at > 0 else (*_said(tokens[0], f"{names[0]} and {names[1]}"), *tokens)


_MEASURED_ALIKE = frozenset("thickness length width height depth diameter radius size area pressure".split())


def _mixture(words: list[str], names: tuple[str, ...]) -> int:
    """How many words at the start say `a mixture of A and B`, in the order of the things; 0 if none do."""
    text = " ".join(words) + " "
    one, other = (rf"(?:the |an? )?{re.escape(name.lower())}" for name in names)
    found = regex(rf"(?:the |an? )?(?:mixture|blend|combination) of {one} and {other} ").match(text)
    return len(found.group().split()) if found else 0


def _plus(words: list[str], names: tuple[str, ...]) -> int:
    """How many words at the start say `the width plus the gap`; 0 if none do."""
    text = " ".join(words) + " "
    for one, other in (names, names[::-1]):
        said = rf"(?:the |an? )?{re.escape(one.lower())} plus (?:the |an? )?{re.escape(other.lower())} "
        if found := regex(said).match(text):
            return len(found.group().split())
    return 0


def _said(before: Token, text: str) -> Iterator[Token]:
    """Words that are understood, where nothing stands in the text."""
    return (replace(before, sort="word", text=w, number=None, end=before.start) for w in text.split())


def sum_of(tokens: tuple[Token, ...], names: tuple[str, ...]) -> tuple[int, int, int, int] | None:
    """Where `the sum of B and C` or `B plus C` stands, and from which name to which it sums; or None."""
    text = " ".join(word_of(t) for t in tokens) + " "
    for first in range(len(names)):
        for last in range(len(names), first + 1, -1):
            if last - first == len(names):
                continue
            said = [rf"(?:the |an? )?{re.escape(name)}" for name in names[first:last]]
            joined = ",? ".join(said[:-1]) + ",? and " + said[-1]
            whole = rf"(?:the )?(?:sum|total|combined amount) of {joined}"
            whole = rf"{whole}|{joined} (?:combined|taken together)"
            plus = regex(rf"(?<!\S)(?:{' plus '.join(said)}|{whole}) ")
            if found := plus.search(text):
                starts = list(accumulate((len(t.text) + 1 for t in tokens), initial=0))
                return starts.index(found.start()), starts.index(found.end()), first, last
    return None
