"""Two limits in one line of which only one stands beside another quantity, or neither plainly does.

Whether the other limit is one of the difference as well, or of the thing itself, the words may leave open.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from scopecheck.foundations.record import replace
from scopecheck.foundations.units import Unit
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import PREFERENCES, has_number, word_of

Tokens = tuple[Token, ...]
OF_LIMITS = frozenset(
    "at least most not no more less fewer greater larger higher smaller lower than exceeding up to from"
    " between and or about approximately above below over under minimum maximum min max".split()
)
_GREATER = listed("asides", "greater") | {"over"}
_LESSER = listed("asides", "lesser") | {"under"}
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
_COMPARED = _GREATER | _LESSER | {"fall"}
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
    again = more[0] in ("between", "from") and more[0] in said  # 'not between 2 and 4 or between 6 and 8'
    again |= more[0] in _COMPARED
    if again and not _DENYING.isdisjoint(said) and _DENYING.isdisjoint(more):
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
    compared = _GREATER | _LESSER
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


def keep_apart(one: Tokens, other: Tokens) -> bool:
    """Do two limits keep each other out: `below 2 bar` and `above 5 bar`, but not two from one side?"""
    first, second = _unit_of(one), _unit_of(other)
    (low, high), (least, most) = _ends(one), _ends(other)
    if first is not None and second is not None and first != second:
        if first.kind != second.kind:
            return False
        least, most = (None if end is None else first.from_base(second.to_base(end)) for end in (least, most))
    below = high is not None and least is not None and high < least
    return below or (most is not None and low is not None and most < low)


def _ends(limit: Tokens) -> tuple[Fraction | None, Fraction | None]:
    """From where to where a limit of one number goes, or one of two in one unit; None where it has no end."""
    numbers = [_value_of(t) for t in limit if has_number(t)]
    units = {t.number.unit for t in limit if t.number and t.number.unit}
    said = {word_of(t) for t in limit}
    if len(units) > 1 or not 0 < len(numbers) < 3 or not said.isdisjoint(_OF_SPREAD):
        return None, None
    first, last = numbers[0], numbers[-1]
    if len(numbers) == 2:
        ordered = first < last and not said.isdisjoint(("to", "and", "-", "–"))
        return (first, last) if ordered and said.isdisjoint(_LESSER) else (None, None)
    if is_upper(limit):
        return None, first
    from_it = said & (_GREATER | _LESSER | {"least", "minimum", "min", "exceeds"})
    return (first, None) if from_it else (first, first)


def goes_on_surely(preferred: Tokens) -> bool:
    """`3 to 5 mm but at most 8 mm` behind `preferably`: is the last limit one in any case, not preferred?

    So it is behind a comma.
    """
    words = [word_of(t) for t in preferred]
    if any(w == "," and then in ("and", "but") for w, then in pairwise(words)):
        return True
    joints = (i for i in range(1, len(words) - 1) if words[i] in ("and", "but"))
    return any(asked_in_any_case(preferred[:i], preferred[i + 1 :], words[i] == "but") for i in joints)


def asked_in_any_case(preferred: Tokens, later: Tokens, but: bool = True) -> bool:
    """Can a limit behind what is preferred only be asked in any case?

    So it is where it says nothing within what is preferred, or is of another sort. Of `at least 3 mm but at
    most 5 mm` both may be preferred.
    """
    words = [word_of(t) for t in preferred]
    preferred = preferred[max((i + 1 for i, w in enumerate(words) if w in PREFERENCES), default=0) :]
    if (None, None) not in (_ends(preferred), _ends(later)):
        return not keep_apart(preferred, later) and _says_nothing_within(later, preferred)
    opposite = {_side_of(preferred), _side_of(later)} == {"upper", "lower"}
    value = word_of(later[0]) == "not" and not _side_of(later)  # 'but not zero' may be preferred too
    return but and not opposite and not value


def _side_of(limit: Tokens) -> str:
    said = {word_of(t) for t in limit}
    if is_upper(limit):
        return "upper"
    return "" if said.isdisjoint(_GREATER | _LESSER | {"least", "minimum", "min", "exceeds"}) else "lower"


def _says_nothing_within(second: Tokens, first: Tokens) -> bool:
    """Does a second limit let in all that the first one does?"""
    (low, high), (least, most) = _ends(second), _ends(first)
    below = low is None or (least is not None and low <= least)
    return below and (high is None or (most is not None and high >= most))


def _unit_of(limit: Tokens) -> Unit | None:
    return next((t.number.unit for t in limit if t.number and t.number.unit), None)


def _value_of(token: Token) -> Fraction:
    return token.number.value if token.number else Fraction(NUMBER_WORDS[word_of(token)])


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


def with_between_again(tokens: Tokens) -> Tokens:
    """`between 2 and 4 mm or 6 and 8 mm` as between 2 and 4 mm or between 6 and 8 mm.

    So `between 2 and 4 mm, preferably 2.5 and 3 mm`.
    """
    words = [word_of(t) for t in tokens]
    found, at, behind = list[Token](), 0, 0
    for start in (i for i, w in enumerate(words) if w == "between"):
        of, end = _pair_at(tokens, words, start + 1) if start >= behind else ("", 0)
        while end:
            behind = end
            next_one = end + (words[end : end + 1] == [","])
            joined = words[next_one : next_one + 1] in (["and"], ["or"])
            next_one += 3 if words[next_one + 1 : next_one + 3] == ["/", "or"] else joined
            while words[next_one : next_one + 1] and words[next_one] in PREFERRING:
                joined, next_one = True, next_one + 1
            other, last = _pair_at(tokens, words, next_one)
            goes_on = joined or (next_one > end and not {"and", "or"}.isdisjoint(words[last : last + 2]))
            if not last or not goes_on or (of and other and of != other):
                break
            place = tokens[next_one].start
            found += (*tokens[at:next_one], replace(tokens[start], start=place, end=place))
            at, of, end = next_one, of or other, last
    return (*found, *tokens[at:]) if found else tokens


def _pair_at(tokens: Tokens, words: list[str], at: int) -> tuple[str, int]:
    """What kind of unit, or what is counted, `6 and 8 mm` has at this place, and where the words go on.

    That is 0 where no such pair stands.
    """
    first, last = tokens[at : at + 1], tokens[at + 2 : at + 3]
    if not (last and words[at + 1] == "and" and has_number(first[0]) and has_number(last[0])):
        return "", 0
    unit = last[0].number.unit if last[0].number else None
    if unit is not None:
        return unit.kind.name, at + 3
    end = at + 3 + _counts(tokens, at + 2)
    return " ".join(words[at + 3 : end]), end


def _counts(tokens: Tokens, at: int) -> bool:
    """Does a word stand behind a number without a unit that may be one, or what is counted?"""
    behind = tokens[at + 1 : at + 2]
    bare = tokens[at].number is None or tokens[at].number.unit is None  # type: ignore[union-attr]
    return bool(behind) and bare and behind[0].sort == "word" and word_of(behind[0]) not in _NO_UNIT


def with_places_joined(tokens: Tokens, of_a_state: bool) -> Tokens:
    """`open below 2 bar and above 5 bar` as below 2 and/or above 5 bar, in a condition: both are never so.

    `of_a_state`: whether what a switch does may stand before its condition.
    A second limit that has a condition of its own is none of the condition of the first.
    """
    words = [word_of(t) for t in tokens]
    if "and" not in words or "respectively" in words:
        return tokens
    spans = list(_limits(tokens, words))
    for first, (start, _) in enumerate(spans):
        last = first
        while last + 1 < len(spans) and _may_be_places(tokens, words, spans[last], spans[last + 1], start):
            last += 1
        joints = [end + (words[end : end + 2] == [",", "and"]) for _, end in spans[first:last]]
        if not joints or words[joints[-1]] != "and" or _begins_a_condition(words[spans[last][1] :]):
            continue
        of_state = of_a_state and not any(map(has_number, tokens[:start])) and "," not in words[:start]
        if not of_state and not _is_in_a_condition(words[:start]):
            continue
        led = next((n for n in (1, 2) if words[start - n : start - n + 1] == ["both"]), 0)
        said: dict[int, Tokens] = {i: (t,) for i, t in enumerate(tokens)}
        said |= {i: (replace(tokens[i], sort="mark", text=","),) for i in joints[:-1]}
        both = tokens[joints[-1]]
        said[joints[-1]] = (both, replace(both, sort="mark", text="/"), replace(both, text="or"))
        return tuple(t for i, those in said.items() if not led or i != start - led for t in those)
    return tokens


def _may_be_places(
    tokens: Tokens, words: list[str], one: tuple[int, int], then: tuple[int, int], at: int
) -> bool:
    """Do two limits keep each other out that an 'and' or a comma joins, the second with nothing of its own?

    `at`: where the first limit of all begins.
    """
    (start, end), (begin, stop) = one, then
    behind = end + (words[end : end + 1] == [","])
    behind += words[behind : behind + 1] == ["and"]
    lead = words[behind:begin]
    again = lead == words[at - len(lead) : at] and lead[:1] in (["at"], ["of"], ["for"], ["under"])
    alike = again or _LEADS_TO_A_PLACE.issuperset(lead)
    if _unit_of(tokens[start:end]) is not None and _unit_of(tokens[begin:stop]) is None:
        return False  # 'the greater of 25 mm and 1.5 times the rim'
    return behind > end and alike and keep_apart(tokens[start:end], tokens[begin:stop])


def _limits(tokens: Tokens, words: list[str]) -> Iterator[tuple[int, int]]:
    """Where limits of one number, or ranges, stand in the words."""
    at = 0
    while at < len(tokens):
        if not has_number(tokens[at]):
            at += 1
            continue
        start = at
        while start:
            least = words[start - 1] in ("least", "most") and words[start - 2 : start - 1] == ["at"]
            if not least and words[start - 1] not in _OF_ONE_LIMIT:
                break
            start -= 1 + least
        joined = words[at + 1 : at + 2] in (["to"], ["-"], ["–"])
        joined = joined or (words[at + 1 : at + 2] == ["and"] and "between" in words[start:at])
        last = at + 2 if joined and at + 2 < len(tokens) and has_number(tokens[at + 2]) else at
        end = last + 1 + _counts(tokens, last)
        if words[end : end + 1] in (["or"], ["and"]) and words[end + 1 : end + 2] != []:
            number = end + 2 < len(tokens) and has_number(tokens[end + 2])
            open_end = words[end + 1] in _GREATER | _LESSER and not number
            end += 2 * (open_end and words[end + 2 : end + 3] != ["than"])
        yield start, end
        at = end


def _begins_a_condition(words: list[str]) -> bool:
    """Does a condition begin in the words?"""
    at = any(w == "at" and then not in ("least", "most") for w, then in pairwise((*words, "")))
    return at or not _BEFORE_CONDITIONS.isdisjoint(words)


def _is_in_a_condition(words: list[str]) -> bool:
    """Do the words end in a condition that has begun, with no comma since?"""
    pairs = enumerate(pairwise((*words, "")))
    last = max(
        (i for i, pair in pairs if _begins_a_condition([*pair][: 1 + (pair[0] == "at")])), default=None
    )
    return last is not None and "," not in words[last:]


_BEFORE_CONDITIONS = frozenset(
    "if when whenever where wherever while unless once until for with under during only otherwise".split()
)
_LEADS_TO_A_PLACE = frozenset("at of in a the range both".split())
_OF_ONE_LIMIT = OF_LIMITS - {"and", "or", "at", "least", "most"}
_PAIR = 3
_NO_UNIT = (
    OF_LIMITS | _BEFORE_CONDITIONS | frozenset("is are be of in a the but nor than times per each".split())
)
PREFERRING = PREFERENCES | {"more", "even", "still", "most"}


def with_interval_ends(tokens: Tokens) -> Tokens:
    """`in the open interval from 2 to 4 mm` as from 2 to 4 mm, exclusive; `left-open` of the lower end."""
    words = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(words) if w in ("interval", "range")):
        told = next((n for n in (2, 1) if " ".join(words[max(at - n, 0) : at]) in _OPEN_SIDES), 0)
        start = at - told
        start -= words[start - 1 : start] in (["a"], ["an"], ["the"])
        start -= words[start - 1 : start] in (["in"], ["within"])
        low = at + 1 + (words[at + 1 : at + 2] in (["of"], ["from"], ["between"]))
        ends = tokens[low : low + 3]
        pair = len(ends) == _PAIR and has_number(ends[0]) and has_number(ends[2])
        if not told or not pair or words[low + 1] not in ("to", "and", "-", "–"):
            continue
        before, behind = _OPEN_SIDES[" ".join(words[at - told : at])]
        first, to, last = (tokens[i] for i in (at, low + 1, low + 2))

        def word(text: str, place: Token) -> Token:
            sort = "mark" if text == "," else "word"
            return replace(place, sort=sort, text=text, number=None, start=place.end)

        led = replace(first, text="from")
        if before == behind:
            said = (
                led,
                ends[0],
                replace(to, sort="word", text="to"),
                last,
                word(",", last),
                word(before, last),
            )
        else:
            said = (
                led,
                ends[0],
                word(before, ends[0]),
                replace(to, sort="word", text="to"),
                last,
                word(behind, last),
            )
        return (*tokens[:start], *said, *tokens[low + 3 :])
    return tokens


_OPEN_SIDES = {
    "open": ("exclusive", "exclusive"),
    "closed": ("inclusive", "inclusive"),
    **dict.fromkeys(("left-open", "left open", "right-closed", "right closed"), ("exclusive", "inclusive")),
    **dict.fromkeys(("right-open", "right open", "left-closed", "left closed"), ("inclusive", "exclusive")),
}
"""Whether the ends of a range that is called so are in it."""


def limits_in_a_row(tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least 2 mm, at most 8 mm`, `at least 2 mm, at most half of the rim`: two limits from both sides.

    A comma alone parts them.
    """
    for at in (i for i, t in enumerate(tokens) if t.text == ","):
        first, second = tokens[:at], tokens[at + 1 :]
        bare = bool(first and second) and is_bare_limit(first) and _is_limit_of_its_own(second)
        words = {word_of(t) for t in tokens}
        if bare and is_upper(first) != is_upper(second) and words.isdisjoint(("or", "and", "to", "between")):
            yield first, second


def _is_limit_of_its_own(tokens: Tokens) -> bool:
    """Is it a bare limit, or one of a share of what is named behind an 'of'?"""
    numbers = (i for i, t in enumerate(tokens[:-1], 1) if has_number(t) and word_of(tokens[i]) == "of")
    of = next(numbers, len(tokens))
    return is_bare_limit(tokens) or (is_bare_limit(tokens[:of]) and not any(map(has_number, tokens[of:])))


def leaves_open_of_what(left: Tokens, right: Tokens) -> bool:
    """May both limits be of the difference that one of them names, or is the second only part of a number?

    `exceeds the rim by at least 2 mm but not more than 5 mm`, `less than 9 mm and at least 2 mm above the
    rim`, `at least one minute and thirty seconds`.
    """
    if is_bare_limit(right):
        between = any(word_of(t) == "between" for t in left)
        amount = all(word_of(t) not in OF_LIMITS for t in right)
        compares = _begins_with_a_difference(behind_what_is_named(left))
        return (amount and not between) or ends_in_a_difference(left) or compares
    return is_first_limit(left) and _begins_with_a_difference(right)


def either_leaves_open_of_what(limits: Sequence[Tokens]) -> bool:
    """`not greater than the rim by less than 2 mm | more than 5 mm`: is the latter of the difference, too?"""
    return any(is_bare_limit(then) and ends_in_a_difference(one) for one, then in pairwise(limits))


def ends_in_a_difference(tokens: Tokens) -> bool:
    """`exceeds the rim by at least 2 mm`, `differs from the rim by 1 mm`."""
    words = [word_of(t) for t in tokens]
    by = max((i for i, w in enumerate(words) if w == "by"), default=0)
    compared = any(w.startswith("exceed") or w in (*APART, "than") for w in words[:by])
    return compared and is_bare_limit(tokens[by + 1 :])


def _begins_with_a_difference(tokens: Tokens) -> bool:
    """`at least 2 mm greater than the rim`, `at most 5 mm above the rim`, `two more holes than ribs`."""
    compared = _GREATER | _LESSER
    for at, (before, token) in enumerate(pairwise(tokens), 1):
        word = word_of(token)
        behind = [word_of(t) for t in tokens[at + 1 :]]
        named = word in BESIDE and bool(behind) and not any(map(has_number, tokens[at + 1 :]))
        if has_number(before) and (named or (word in compared and "than" in behind)):
            return True
    return False


def with_difference_again(tokens: Tokens) -> Tokens:
    """`exceeds the rim by less than 2 mm or more than 5 mm` as the one or exceeds the rim by more than 5 mm.

    A bare value leaves one choice of how much, and what is denied is so of both.
    """
    words = [word_of(t) for t in tokens]
    either = max((i for i, w in enumerate(words) if w == "or"), default=0)
    by = max((i for i in range(either) if words[i] == "by"), default=0)
    start = next((i for i in range(by - 1, -1, -1) if words[i] in _LIES_OFF), -1)
    if start < 0 or not _DENYING.isdisjoint(words[:by]):
        return tokens
    ends = (i for i in range(either, len(words)) if words[i] == "," or words[i] in _BEFORE_CONDITIONS)
    end = next(ends, len(words))
    left = tokens[by + 1 + (words[by + 1] == "either") : either - (words[either - 1] == ",")]
    right = tokens[either + 1 + (words[either + 1 : either + 2] == ["by"]) : end]
    both = (left, right)
    if not all(is_bare_limit(one) and not _OF_ITS_OWN.isdisjoint(map(word_of, one)) for one in both):
        return tokens
    start -= words[start - 1 : start] in (["is"], ["are"], ["being"], ["lies"], ["falls"], ["fall"])
    place = right[0].start
    again = tuple(replace(t, start=place, end=place) for t in tokens[start : by + 1])
    return (*tokens[: by + 1], *left, tokens[either], *again, *right, *tokens[end:])


_LIES_OFF = (
    _COMPARED | {*APART, "exceeding", "short"} | listed("asides", "greater") | listed("asides", "lesser")
)
