"""Two limits in one line of which only one stands beside another quantity, or neither plainly does.

Whether the other limit is one of the difference as well, or of the thing itself, the words may leave open.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import has_number, word_of

Tokens = tuple[Token, ...]
OF_LIMITS = frozenset(
    "at least most not no more less fewer greater larger higher smaller lower than exceeding up to from"
    " between and or about approximately above below over under minimum maximum min max".split()
)
_GREATER = frozenset("more greater larger higher exceeding above over".split())
_LESSER = frozenset("less fewer smaller lower below under".split())
APART = ("differs", "differ", "differing", "deviates", "deviate", "deviating")
BESIDE = ("above", "below")
"""What stands between an amount and the quantity that it is counted from."""


def is_bare_limit(tokens: Tokens) -> bool:
    """`at most 5 mm`, `not more than five`, `thirty seconds`: nothing tells what it is a limit of."""
    words = [word_of(t) for t in tokens]
    units = {then for t, then in zip(tokens, words[1:], strict=False) if word_of(t) in NUMBER_WORDS}
    return any(map(has_number, tokens)) and all(
        has_number(t) or w in OF_LIMITS or w in units for t, w in zip(tokens, words, strict=True)
    )


def is_first_limit(tokens: Tokens) -> bool:
    """As `is_bare_limit`, of what stands first, behind an 'is': a second 'is' begins a limit of its own."""
    return is_bare_limit(tokens[len(tokens) > 1 and word_of(tokens[0]) in ("is", "are", "being") :])


def behind_its_name(tokens: Tokens) -> Tokens:
    """`the gap lies at least 2 mm` without the words before the limit, which only say what it is of."""
    limit = behind_what_is_named(tokens)
    plain = _CARRIED.isdisjoint(map(word_of, tokens[: len(tokens) - len(limit)]))
    return limit if plain and is_bare_limit(limit) else tokens


def behind_what_is_named(tokens: Tokens) -> Tokens:
    """The words from the first one of a limit on."""
    return tokens[next((i for i, t in enumerate(tokens) if has_number(t) or word_of(t) in OF_LIMITS), 0) :]


def says_limit(tokens: Tokens) -> bool:
    """Is it a limit by itself? `six ribs` behind `at least four holes or` may share its words."""
    of_limits = OF_LIMITS - {"and", "or"} | {"is", "are", "being", "has", "exceeds", "exceed"}
    return not of_limits.isdisjoint(map(word_of, tokens))


_CARRIED = frozenset(
    "at least most not no never neither more less fewer greater larger higher smaller lower than exceeding"
    " exceeds exceed above below over under up divisible multiple power other except excluding".split()
)
_OF_ITS_OWN = _CARRIED | frozenset(
    "to between from - ± about approximately is are being has exactly only even odd within equal limit limits"
    " maximum minimum max min".split()
)
_DENYING = frozenset("not no never neither other except excluding".split())
_COMPARED = frozenset(
    "more less fewer greater larger higher smaller lower exceed exceeds fall above below".split()
)
_OF_AMOUNTS = frozenset("half third quarter double some".split())
_GOING_ON = frozenset("more less fewer than per times dozen dozens hundred thousand".split())


def shares_the_words(first: Tokens, later: Tokens, named: bool = False) -> bool:
    """May a limit that is joined to another one share the words of that, and so mean another thing?

    `at least 5 mm or twice the rim`, `not less than 2 mm or more than 8 mm`, `one or two more pins`. `named`:
    whether the later one is the name of a quantity alone.
    """
    said, more = [word_of(t) for t in first], [word_of(t) for t in later]
    amount = named or any(has_number(t) or w in _OF_AMOUNTS for t, w in zip(later, more, strict=True))
    if amount and not _CARRIED.isdisjoint(said) and _OF_ITS_OWN.isdisjoint(more):
        return True
    if not _DENYING.isdisjoint(said) and more[0] in _COMPARED and _DENYING.isdisjoint(more):
        return True
    if is_first_limit(first) and _begins_with_a_difference(later):
        return True
    if _denies_another(first, later):
        return True
    bare = all(map(has_number, first)) and not any(t.number and t.number.unit for t in first)
    if bare and more[0] in _COMPARED and "than" in more:  # 'one or more holes than ribs'
        return True
    return bare and has_number(later[0]) and not _GOING_ON.isdisjoint(more[1:])


def _denies_another(first: Tokens, later: Tokens) -> bool:
    """`larger than the bore but not the collar`: not larger than that, or of another size than that?"""
    said, more = [word_of(t) for t in first], [word_of(t) for t in later]
    compares = not {"than", "as", "exceeds", "exceeding", "above", "below"}.isdisjoint(said)
    plain = more[0] == "not" and _OF_ITS_OWN.isdisjoint(more[1:])
    return compares and plain and not any(map(has_number, (*first, *later)))


def denies_the_first_alone(first: Tokens, later: Tokens) -> bool:
    """`Not less than 4 mm and less than 6 mm`: of two limits from both sides the 'not' denies the first."""
    bare = is_bare_limit(first) and is_bare_limit(later)
    return bare and word_of(first[0]) in ("not", "no") and is_upper(first) != is_upper(later)


def excludes_a_value(tokens: Tokens) -> bool:
    """`8 but not 5`: does a limit end in a value that is left out?"""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 2) if words[i : i + 2] == ["but", "not"]), 0)
    return bool(at) and has_number(tokens[at + 2]) and _OF_ITS_OWN.isdisjoint(words[at + 2 :])


def beside_a_multiple(tokens: Tokens) -> bool:
    """`at least two more than twice`, `10 % greater than half`: an amount beside what is multiplied."""
    compared = listed("asides", "greater") | listed("asides", "lesser")
    words = [word_of(t) for t in tokens]
    return any(
        has_number(t) and words[i + 1] in compared and words[i + 2] == "than"
        for i, t in enumerate(tokens[:-2])
    )


def is_upper(tokens: Tokens) -> bool:
    """Is a bare limit one from above?"""
    words = {word_of(t) for t in tokens}
    negated = not words.isdisjoint(("not", "no"))
    return not words.isdisjoint(("most", "up", "maximum", "max")) or not words.isdisjoint(
        _GREATER if negated else _LESSER
    )


def reaches_beyond(preferred: Tokens, main: Tokens) -> bool:
    """Does a preferred limit let in more, on one side, than the limit that stands before it?"""
    (low, high), (least, most) = _ends(preferred), _ends(main)
    if least is not None and least == most:
        # a value leaves no room for a preference, but another value is none of it
        return low is not None and low == high != most
    below = low is not None and least is not None and low < least
    return below or (high is not None and most is not None and high > most)


def lets_in_more(second: Tokens, first: Tokens) -> bool:
    """Does a second limit let in what the first one keeps out, on one side or altogether?"""
    (low, high), (least, most) = _ends(second), _ends(first)
    beyond = low is not None and most is not None and low > most
    below = high is not None and least is not None and high < least
    return beyond or below or reaches_beyond(second, first)


def is_on_the_sides_of(second: Tokens, first: Tokens) -> bool:
    """`Below 2 A` beside `between 1 and 3 A`: has the first limit an end wherever the second one has?"""
    (low, high), (least, most) = _ends(second), _ends(first)
    known = low is not None or high is not None
    return known and (low is None or least is not None) and (high is None or most is not None)


def _ends(limit: Tokens) -> tuple[Fraction | None, Fraction | None]:
    """From where to where a limit of one number goes, or one of two in one unit; None where it has no end."""
    numbers = [t.number for t in limit if t.number]
    units = {n.unit for n in numbers if n.unit}
    said = {word_of(t) for t in limit}
    if len(units) > 1 or not 0 < len(numbers) < 3 or not said.isdisjoint(_OF_SPREAD):
        return None, None
    first, last = numbers[0].value, numbers[-1].value
    if len(numbers) == 2:
        ordered = first < last and not said.isdisjoint(("to", "and", "-", "–"))
        return (first, last) if ordered and said.isdisjoint(_LESSER) else (None, None)
    if is_upper(limit):
        return None, first
    from_it = said & (_GREATER | _LESSER | {"least", "minimum", "min", "exceeds"})
    return (first, None) if from_it else (first, first)


_OF_SPREAD = frozenset("about approximately times within ± differs differ by".split())


def begins_anew(tokens: Tokens, names: Iterable[str]) -> bool:
    """`is at least 1 mm and the gap is at most 6 mm`: does a limit behind another name what it is of?"""
    words = [word_of(t) for t in tokens]
    runs = [name.lower().split() for name in names]
    for at in (i for i in range(1, len(words) - 2) if words[i] in ("and", "but", ",", "or")):
        start = at + 1 + (words[at + 1] in ("the", "a", "an"))
        ends = [start + len(run) for run in runs if words[start : start + len(run)] == run]
        if any(map(has_number, tokens[:at])) and any(words[e : e + 1] and words[e] in _VERBS for e in ends):
            return True
    return False


_VERBS = frozenset("is are being has having exceeds exceed lies amounts".split())


def with_windows(tokens: Tokens) -> Tokens:
    """`3 to 5 and 7 to 9 mm` as 3 to 5 mm and/or 7 to 9 mm: no value lies in both.

    Ranges that overlap, or of which something is denied, stay as they are.
    """
    words = [word_of(t) for t in tokens]
    windows = list(_windows(tokens, words)) if _NO_WINDOWS.isdisjoint(words) else []
    joints = dict[int, int]()
    for (_, end, *first), (start, _, *second) in pairwise(windows):
        between = [w for w in words[end:start] if w not in _LEADS_TO_A_WINDOW]
        (low, high), (least, most) = ([n.value for n in ends] for ends in (first, second))
        alike = {n.unit for n in (*first, *second)} <= {second[-1].unit, None}
        if between in (["and"], [",", "and"]) and alike and (high < least or most < low):
            joints[end] = words.index("and", end)
        elif between in (["and"], [",", "and"], [","]):
            return tokens
    found, at = list[Token](), 0
    for end, joint in joints.items():
        both = tokens[joint]
        found += (*tokens[at:end], both, replace(both, sort="mark", text="/"), replace(both, text="or"))
        at = joint + 1
    return (*found, *tokens[at:])


def _windows(tokens: Tokens, words: list[str]) -> Iterator[tuple[int, int, Number, Number]]:
    """Where ranges stand in the words, and from where to where each of them goes."""
    for at in range(len(tokens) - 2):
        first, last = tokens[at].number, tokens[at + 2].number
        joined = words[at + 1] in ("to", "-", "–")
        joined = joined or (words[at + 1] == "and" and words[at - 1 : at] == ["between"])
        if first and last and joined and first.value < last.value:
            yield at, at + 3, first, last


_LEADS_TO_A_WINDOW = frozenset("from between in the a range of about approximately".split())
_NO_WINDOWS = frozenset(
    "outside not no never neither nor except excluding other than without more less above below least most"
    " over under respectively either ratio times".split()
)


def limits_in_a_row(tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least 2 mm, at most 8 mm`: two limits from both sides that a comma alone parts."""
    for at in (i for i, t in enumerate(tokens) if t.text == ","):
        first, second = tokens[:at], tokens[at + 1 :]
        bare = bool(first and second) and is_bare_limit(first) and is_bare_limit(second)
        words = {word_of(t) for t in tokens}
        if bare and is_upper(first) != is_upper(second) and words.isdisjoint(("or", "and", "to", "between")):
            yield first, second


def leaves_open_of_what(left: Tokens, right: Tokens) -> bool:
    """May both limits be of the difference that one of them names, or is the second only part of a number?

    `exceeds the rim by at least 2 mm but not more than 5 mm`, `less than 9 mm and at least 2 mm above the
    rim`, `at least one minute and thirty seconds`.
    """
    if is_bare_limit(right):
        between = any(word_of(t) == "between" for t in left)
        amount = all(word_of(t) not in OF_LIMITS for t in right)
        compares = _begins_with_a_difference(behind_what_is_named(left))
        return (amount and not between) or _ends_in_a_difference(left) or compares
    return is_first_limit(left) and _begins_with_a_difference(right)


def _ends_in_a_difference(tokens: Tokens) -> bool:
    """`exceeds the rim by at least 2 mm`, `differs from the rim by 1 mm`."""
    words = [word_of(t) for t in tokens]
    by = max((i for i, w in enumerate(words) if w == "by"), default=0)
    compared = any(w.startswith("exceed") or w in (*APART, "than") for w in words[:by])
    return compared and is_bare_limit(tokens[by + 1 :])


def _begins_with_a_difference(tokens: Tokens) -> bool:
    """`at least 2 mm greater than the rim`, `at most 5 mm above the rim`, `two more holes than ribs`."""
    compared = listed("asides", "greater") | listed("asides", "lesser")
    for at, (before, token) in enumerate(pairwise(tokens), 1):
        word = word_of(token)
        behind = [word_of(t) for t in tokens[at + 1 :]]
        named = word in BESIDE and bool(behind) and not any(map(has_number, tokens[at + 1 :]))
        if has_number(before) and (named or (word in compared and "than" in behind)):
            return True
    return False
