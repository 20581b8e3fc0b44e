"""What words say of a quantity beside another: '2 to 5 mm longer than the rod', 'greater than both A and B'.

The phrases have such words with one number. What is read here is the difference, or the quotient, of the two
with any limit; each function finds the words to be read and what they are read of, or nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Literal

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Const, Divide, Magnitude, Multiply, Negate, Term
from scopecheck.foundations.kinds import difference_kind
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import PREFERENCES, has_number, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.line_words import DETERMINERS
from scopecheck.matching.phrase_finding import Job, Read
from scopecheck.matching.shared_limits import (
    APART,
    BESIDE,
    OF_LIMITS,
    beside_a_multiple,
    is_bare_limit,
    is_first_limit,
    is_upper,
    lets_in_more,
)
from scopecheck.matching.shares_of_others import begins_with_an_amount, quotient, share_of_another
from scopecheck.matching.subjects import OfParts, Subject, is_bare_share, is_fraction, is_in_points
from scopecheck.occurrences.readings import is_unitless
from scopecheck.vocabulary.names import Typed
from scopecheck.vocabulary.parts import plural_of


def surpassing(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`exceeds the rim by 2 to 5 mm`, `2 to 5 mm wider than the rim`: the words of how much.

    A limit in per cent is one of the other quantity; of two shares it could be points: nothing is read, but
    where it says that it is in points.
    """
    if len(job.subjects) != 1 or job.sort not in ("", "parts"):
        return None
    said = _of_parts(job, tokens) if job.sort else _with_and_without_name(tokens, job.subjects[0].text)
    return next(filter(None, (_surpassing(job, words) for words in said)), None)


def _surpassing(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    each = tokens[:1] if job.sort and word_of(tokens[0]) == "each" else ()
    laid = _before(tokens[len(each) :]) or _behind(tokens[len(each) :])
    if laid is None or not isinstance(job.first, Typed) or job.first.kind is None:
        return None
    direction, name, rest = laid
    rest = _without_by(rest)
    if any(word_of(t) == "by" for t in rest):
        return None  # 'by 2 mm or exceeds the rim by more than 5 mm' says anew what it is of
    times, name = _factor_before(name)
    other = job.declared(name)
    numbers = [t for t in rest if has_number(t)]
    shares = bool(numbers) and all(map(is_bare_share, numbers))
    parts = shares and all("/" in t.number.text for t in numbers if t.number)
    counted = job.first.whole and shares
    points = bool(numbers) and all(map(is_in_points, numbers))
    points |= bool(numbers) and all(
        t.number and t.number.unit and t.number.unit.kind == job.first.kind for t in numbers
    )
    plain = shares and is_unitless(job.first) and other is not None and not other.unit.symbol
    if other is None or other.kind != job.first.kind:
        return None
    if not (other.kind.dimension or counted or points or parts or plain):
        return None
    bare = other.kind.basis and any(_in_bare_per_cent(t) for t in numbers)
    if bare or (shares and not parts and other.kind == PLAIN_KIND and other.unit.symbol):
        return None  # of two shares in per cent: points, or a share of the other?
    whole, own, called = job.place.names.value(other), job.subjects[0], other.name
    if times != 1 and (other.kind.point or other.kind.basis):
        return None
    if times != 1:
        whole, called = replace(whole, term=Multiply(Const(times), whole.term)), f"{times} * {other.name}"
    shown = f"{called} - {own.text}" if direction == "less" else f"{own.text} - {called}"
    if shares and other.kind.basis == "level":
        return None
    shown = f"ABS({shown})" if direction == "either" else shown
    shown = (
        f"({shown}) / ({called})" if shares and times != 1 else f"({shown}) / {called}" if shares else shown
    )
    kind = PLAIN_KIND if shares else difference_kind(other.kind, other.kind)

    def apart(value: Typed) -> Typed:
        first, second = (whole.term, value.term) if direction == "less" else (value.term, whole.term)
        between: Term = Add((first, Negate(second)))
        between = Magnitude(between) if direction == "either" else between
        return Typed(Divide(between, whole.term, called) if shares else between, kind)

    made = job.of(Subject(apart(job.first), shown, own.span, _each_apart(own.parts, apart, direction)))
    rest = (*each, *_as_differences(rest))
    # 'At most 2 mm wider' may or may not let the narrower by: that is a phrase's to ask.
    single = sum(t.number is not None for t in rest) < 2 and not counted
    if single or not made.readable(rest):
        return None
    if not _all_of_difference(made, rest, tokens[0] is rest[0]):
        return None
    job.place.names.speak(other.name)
    return made, rest


def _in_bare_per_cent(token: Token) -> bool:
    """Is the number written with nothing but a per cent sign, on whichever basis it has been taken since?"""
    return token.text.endswith("%") and not token.text[:-1].rstrip()[-1:].isalpha()


def _factor_before(name: tuple[Token, ...]) -> tuple[Fraction, tuple[Token, ...]]:
    """How many times what is named, `half the rim`, `twice the rim`, is meant, and the words of its name."""
    said = with_fractions(name)
    first, number = word_of(said[0]), said[0].number
    if first in ("twice", "thrice") and len(said) > 1:
        return Fraction(NUMBER_WORDS[first]), said[1:]
    joined = word_of(said[1]) if len(said) > 2 else ""
    if number is not None and number.unit is None and joined == ("of" if _is_part(said[0]) else "times"):
        return number.value, said[2:]
    return Fraction(1), name


def _each_apart(
    parts: OfParts | None, apart: Callable[[Typed], Typed], direction: Direction
) -> OfParts | None:
    """How far each of like parts, and what is worked out of them, lies off another quantity."""
    if parts is None:
        return None
    turned = {"least": "greatest", "greatest": "least"} if direction == "less" else {}
    kept = ("least", "greatest", "mean", "middle") if direction != "either" else ()
    return replace(
        parts,
        each=tuple(apart(value) for value in parts.each if isinstance(value, Typed)),
        together={turned.get(n, n): apart(v) for n, v in parts.together.items() if n in kept},
        facts={}, gaps={},
    )  # fmt: skip


def _of_parts(job: Job, tokens: tuple[Token, ...]) -> Iterator[tuple[Token, ...]]:
    """`the diameter of each hole is 2 to 3 mm smaller than`, of what the holes have, as `each 2 to 3 mm`."""
    field = job.place.names.field_of(job.subjects[0].text)
    words = [word_of(t) for t in tokens]
    yield tokens
    for part in field[0] if field else ():
        one, all_ = (name.lower().split() for name in (part.name, part.plural))
        own = field[1].lower().split() if field else []
        each = ([*own, "of", "each", *one], ["each", *one], ["each", "of", "the", *all_])
        for run in (*each, [*own, "of", "the", *all_], [*own, "of", *all_], all_):
            start = int(words[:1] == ["the"] and run[0] != "each")
            end = start + len(run)
            if words[start:end] == run and end < len(tokens):
                end += words[end] in ("is", "are", "being")
                lead = (replace(tokens[0], text="each"),) if run in each else ()
                yield (*lead, *tokens[end:])
                return


def _without_by(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`2 mm or more but by less than 5 mm`, `more than 2 mm but not by more than 5 mm` without that 'by'."""
    words = [word_of(t) for t in tokens]
    joined = ("and", "but")
    again = {
        i
        for i in range(1, len(words))
        if words[i - 1] in joined
        or (words[i - 1] == "not" and words[i - 2 : i - 1] and words[i - 2] in joined)
    }
    return tuple(t for i, t in enumerate(tokens) if words[i] != "by" or i not in again)


Direction = Literal["more", "less", "either"]
Laid = tuple[Direction, tuple[Token, ...], tuple[Token, ...]]
"""Which way round the difference is, the words of the other quantity, and those of how much."""


def _all_of_difference(made: Job, rest: tuple[Token, ...], in_front: bool) -> bool:
    """Are two limits both of the difference? In front of it are so those of a range, the lower first."""
    either = [i for i, t in enumerate(rest) if word_of(t) == "or"]
    apart = ((rest[:i], rest[i + 1 :]) for i in either)
    if in_front and any(is_bare_limit(a) and is_bare_limit(b) and len(b) > 1 for a, b in apart):
        return False
    sides = made.split(rest)
    if sides is None:
        return True
    first, second = sides
    bare = is_first_limit(first) and is_bare_limit(second)
    if bare and (lets_in_more(second, first) or is_upper(first) == is_upper(second)):
        return False  # 'by at least 10 mm but not less than 5 mm'
    return bare and (not in_front or (is_upper(second) and not is_upper(first)))


def _before(tokens: tuple[Token, ...]) -> Laid | None:
    """`exceeds NAME by ...`, `greater than NAME by ...`, `differs from NAME by ...`."""
    words = [word_of(t) for t in tokens]
    start = 1 if words[:1] in (["is"], ["being"], ["are"]) else 0
    compared = words[start] if start < len(words) else ""
    joined = [] if compared.startswith("exceed") else ["from"] if compared in APART else ["than"]
    name = start + 1 + len(joined)
    direction = _direction(compared) if words[start + 1 : name] == joined else None
    if direction is None or "by" not in words[name:]:
        return None
    by = words.index("by", name)
    return (direction, tokens[name:by], tokens[by + 1 :]) if name < by < len(tokens) - 1 else None


def _behind(tokens: tuple[Token, ...]) -> Laid | None:
    """`... greater than NAME`, `... above NAME`."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 2, 1, -1) if words[i] in ("than", *BESIDE)), 0)
    amount = at if at and words[at] in BESIDE else at - 1
    direction = _direction(words[amount]) if amount > 0 else None
    return (direction, tokens[at + 1 :], tokens[:amount]) if direction else None


def _direction(word: str) -> Direction | None:
    """Whether the word says that the first is the greater, the lesser, or either; None if nothing of it."""
    if word in APART:
        return "either"
    if word in listed("asides", "lesser") or word == "below":
        return "less"
    return "more" if word in listed("asides", "greater") or word == "above" else None


def _as_differences(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Temperatures in degC as what they are when said of a difference."""
    kelvin = find_unit("K")
    return tuple(
        replace(t, number=replace(t.number, unit=kelvin))
        if t.number and t.number.unit and t.number.unit.symbol == "degC"
        else t
        for t in tokens
    )


def with_parts_of_the_other(tokens: tuple[Token, ...], subject: Subject) -> tuple[Token, ...]:
    """`exceeds the rim by at least a third`, `a third longer than the rim`: fractions as so many per cent.

    What differs by a fraction does so by one of the other, and never by one of a whole.
    """
    bound, said = subject.bound, with_fractions(tokens)
    if not isinstance(bound, Typed) or bound.kind is None:
        return tokens
    words = [word_of(t) for t in said]
    by = next((i for i, w in enumerate(words) if w == "by" and _is_compared(words[:i])), len(words))
    behind = words[by + 1 :]
    ends = (
        i for i, w in enumerate(behind) if w == "than" and not _is_part(said[min(by + 2 + i, len(said) - 1)])
    )
    than = next(ends, len(behind))
    if by < len(words) and not _is_amount(said[by + 1 : by + 1 + than]):
        return tokens
    more_than = by == len(words) and subject.parts is None
    in_front = set(_ends_in_front(said, words)) if more_than else set[int]()
    parts = {i for i, t in enumerate(said) if _is_part(t) and (by < i <= by + than or i in in_front)}
    if not parts or bound.kind.basis == "level":
        return tokens
    percent = find_unit("%")
    return tuple(
        replace(t, number=replace(t.number, value=t.number.value * 100, unit=percent))
        if t.number and i in parts
        else t
        for i, t in enumerate(said)
    )


def _ends_in_front(said: tuple[Token, ...], words: list[str]) -> Iterator[int]:
    """Where the numbers of `a quarter to a half smaller than the rim` stand, and that of one alone."""
    beside = OF_LIMITS | PREFERENCES | {",", "but", "-", "–"}
    for at in (i for i, t in enumerate(said) if _is_part(t) and _is_more_than(words[i + 1 :])):
        yield at
        for before in range(at - 1, -1, -1):
            if said[before].number:
                yield before
            elif words[before] not in beside:
                break


def _is_part(token: Token) -> bool:
    """`a third`, `1/3`: a fraction of one."""
    number = token.number
    return is_fraction(token) and number is not None and number.value < 1 and "/" in number.text


def _is_compared(before: list[str]) -> bool:
    """`exceeds the rim`, `is smaller than the rim`: do two things lie apart by what follows?"""
    return any(map(_direction, before))


def _is_amount(tokens: tuple[Token, ...]) -> bool:
    """`at least a third`, `a quarter or more`, `a quarter to a half`: fractions alone?"""
    beside = {*OF_LIMITS, "but", "by", "about"}
    return any(map(_is_part, tokens)) and all(_is_part(t) or word_of(t) in beside for t in tokens)


def _is_more_than(behind: list[str]) -> bool:
    """`longer than the rim`, `above the rim`, `or more above it`: what stands behind so much of the other."""
    behind = behind[2:] if behind[:1] == ["or"] else behind
    if behind[:1] and behind[0] in BESIDE:
        return len(behind) > 1
    compared = behind[:1] and _direction(behind[0]) in ("more", "less")
    return bool(compared) and "than" in behind[1:4]


def of_both(job: Job, tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]] | None:
    """`greater than both the rim and the gap`: the words with each of the two names."""
    words = [word_of(t) for t in tokens]
    for at, word in enumerate(words):
        after = at + (2 if words[at : at + 2] == ["each", "of"] else 1)
        if at == 0 or (word != "both" and after == at + 1):
            continue
        for middle in (i for i in range(after + 1, len(words) - 1) if words[i] == "and"):
            names = tokens[after:middle], tokens[middle + 1 :]
            each = tokens[:at] + names[0], tokens[:at] + names[1]
            alone = (job.of(job.subjects[0]) for _ in each)
            others = [found.name for name in names if (found := job.declared(name))]
            if (
                len(others) == 2
                and job.subjects[0].text not in others
                and all(one.readable(t) for one, t in zip(alone, each, strict=True))
            ):
                return each
    return None


def multiples(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`between half the rim and twice the rim`: the words with numbers, to be read of the quotient.

    A name alone is no written number, to which something could round: that is left to `to_a_multiple`.
    """
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, Typed):
        return None
    words = [word_of(t) for t in tokens]
    if words[:1] not in (["between"], ["from"]):
        return None
    join = "and" if words[0] == "between" else "to"
    for middle in (i for i in range(2, len(words) - 1) if words[i] == join):
        sides = [_multiple(job, side) for side in (tokens[1:middle], tokens[middle + 1 :])]
        if (low := sides[0]) is None or (high := sides[1]) is None or low[0] != high[0]:
            continue
        if 1 in (low[1], high[1]):
            continue
        other = job.declared(low[2])
        made = quotient(job, other) if other else None
        if other is None or made is None:
            continue
        rest = (tokens[0], _times(tokens[1], low[1]), tokens[middle], _times(tokens[middle + 1], high[1]))
        if made.readable(rest):
            job.place.names.speak(other.name)
            return made, rest
    return None


def to_a_multiple(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`from 5 mm to half the rim`, `half the rim ± 5 %`: a range with a multiple of another quantity.

    Or how far it lies off one: `exceeds half of the rim by at least 5 mm`.
    """
    if len(job.subjects) != 1 or job.sort or job.multiples:
        return None
    said = [word_of(t) for t in tokens]
    off = not _OFF.isdisjoint(said) and any(t.number and t.number.unit for t in tokens)
    if said[0] not in ("from", "between") and not off and not any(t.text == "±" for t in tokens):
        return None
    bare = (t.number is not None and (t.number.unit is None or is_bare_share(t)) for t in tokens)
    if any(
        alone and word_of(then) not in ("of", "times") for alone, then in zip(bare, tokens[1:], strict=False)
    ):
        return None
    made = replace(job, multiples=True, known={}, apart=[])
    return (made, tokens) if made.found(tokens) else None


_OFF = listed("limits", "off")


def times(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`1.2 to 2.5 times, preferably 1.5 to 2 times, the rim`: the numbers, to be read of the quotient."""
    words = [word_of(t) for t in tokens]
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, Typed) or "times" not in words:
        return None
    if beside_a_multiple(tokens) or begins_with_an_amount(job, tokens):
        return None
    if job.first.whole and any(
        is_first_limit(tokens[:i]) and "times" not in words[:i] for i, w in enumerate(words) if w == ","
    ):
        return None  # 'at least two, at most twice the ribs': so many, or so many times?
    for start in range(len(words) - 1, words.index("times"), -1):
        other = job.declared(tokens[start:])
        made = quotient(job, other) if other else None
        if other is None or made is None:
            continue
        last = words[start - 1] if words[start - 1] != "," else words[start - 2]
        limit = tuple(t for i, t in enumerate(tokens[:start]) if not _of_times(words, i, start))
        if last in ("times", "more", "less") and made.readable(limit):
            job.place.names.speak(other.name)
            return made, limit
    return None


def _of_times(words: list[str], at: int, end: int) -> bool:
    """Is it the word 'times', or a comma at the end of the numbers?"""
    return words[at] == "times" or (words[at] == "," and at == end - 1)


def per_one(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`two to four holes per rib`, `more than twice as many holes as ribs`: the limit, of the quotient.

    Both are numbers of things; one of them alone may stand left of the colon.
    """
    if job.sort or not all(isinstance(s.bound, Typed) and s.bound.whole for s in job.subjects):
        return None
    words = [word_of(t) for t in tokens]
    for at in range(2, len(words)):
        width = run_at(words, at, "asides", "per_one")
        if width and (found := _per_one(job, tokens[:at], tokens[at + width :])):
            return found
    as_many = next((i for i in range(1, len(words)) if words[i : i + 2] == ["as", "many"]), 0)
    for at in (i for i in range(as_many + 3, len(words) - 1) if as_many and words[i] == "as"):
        limit = _without_times(tokens[:as_many])
        if limit and (found := _per_one(job, (*limit, *tokens[as_many + 2 : at]), tokens[at + 1 :])):
            return found
    return None


def _without_times(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`more than twice`, `2 to 3 times` as numbers; nothing where they do not end in a multiple."""
    last = word_of(tokens[-1])
    if last == "times":
        return tokens[:-1]
    times = {"twice": 2, "thrice": 3, "double": 2}.get(last)
    return (*tokens[:-1], _times(tokens[-1], Fraction(times))) if times else ()


def _per_one(job: Job, before: tuple[Token, ...], behind: tuple[Token, ...]) -> Read | None:
    """The words before the name of what is counted, of its number for one of the other things."""
    ways = ((own, before[:i], before[i:]) for own in job.subjects for i in range(len(before) - 1, 0, -1))
    for own, limit, name in ways:
        other = _counted(job, behind)
        if other is None or _counted(job, name) != job.place.names.declared(own.text):
            continue
        if not all(s is own or s.text == other.name for s in job.subjects) or other.name == own.text:
            continue
        share = quotient(job.of(own), other)
        if share is None or not isinstance(share.first, Typed) or not any(map(has_number, limit)):
            continue
        if all(map(has_number, limit)):
            continue  # of a number alone a phrase asks whether it is exact
        # What numbers of things are beside each other is exact: no reading of it rounds or measures.
        made = share.of(replace(share.subjects[0], bound=replace(share.first, whole=True)))
        if made.readable(limit):
            job.place.names.speak(other.name)
            return made, limit
    return None


def _counted(job: Job, name: tuple[Token, ...]) -> NumberDecl | None:
    """The number of things that the words call so, in the singular or the plural."""
    words = [t.text for t in name if word_of(t) not in DETERMINERS]
    if not words:
        return None
    forms = (words[-1], plural_of(words[-1]))
    found = (job.place.names.declared(" ".join((*words[:-1], last))) for last in forms)
    return next((f for f in found if isinstance(f, NumberDecl) and f.whole), None)


def _multiple(job: Job, tokens: tuple[Token, ...]) -> tuple[str, Fraction, tuple[Token, ...]] | None:
    """The name of what so many times is spoken of, how many times, and its words."""
    times, name = Fraction(1), tokens
    first = word_of(tokens[0])
    if len(tokens) > 1 and first in ("twice", "thrice"):
        times, name = Fraction(NUMBER_WORDS[first]), tokens[1:]
    elif (
        len(tokens) > 2
        and tokens[0].number
        and tokens[0].number.unit is None
        and word_of(tokens[1]) == "times"
    ):
        times, name = tokens[0].number.value, tokens[2:]
    made = job.declared(name)
    return None if made is None else (made.name, times, name)


def _times(token: Token, times: Fraction) -> Token:
    text = str(times)
    return replace(token, sort="number", text=text, number=Number(text, times, 0, None))


def with_names_in_words(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    """`gap, rim : the gap is at least twice the rim`: the words as they are read of the gap alone.

    What else stands left of the colon must stand in the words as a value.
    """
    if len(job.subjects) < 2 or job.sort or not job.alone:
        return None
    first, *others = job.subjects
    for said in _with_and_without_name(tokens, first.text):
        # What was found of some words is known by where they begin and end: not if one within is left out.
        one = job.of_first if said == tokens[-len(said) :] else job.of(first)
        sides = (said,) if one.found(said) else one.split(said) or ()
        kinds = ("number", "difference", "list") if isinstance(one.first, Typed) else ("number",)
        fills = [f.tokens for side in sides for m in one.found(side) for f in m.fills if f.slot.kind in kinds]
        shares = [side for side in sides if not one.found(side) and share_of_another(one, side)]
        if _all_stand(others, fills + shares):
            return one, said
        if _all_stand(others, (said,)):
            found = (
                share_of_another(one, said)
                or surpassing(one, said)
                or multiples(one, said)
                or to_a_multiple(one, said)
                or times(one, said)
            )
            if found:
                return found
    return None


_MORE_OF = (("more", "than"), ("less", "than"), ("much", "as"))


def _with_and_without_name(tokens: tuple[Token, ...], name: str) -> Iterator[tuple[Token, ...]]:
    """The words, what is left of them behind `the gap is`, and `3 times more oil than` without the oil."""
    yield tokens
    words = [word_of(t) for t in tokens]
    start = 1 if words[:1] and words[0] in ("the", "a", "an", "said") else 0
    own = name.lower().split()
    if words[start : start + len(own)] == own:
        end = start + len(own)
        end += words[end : end + 1] in (["is"], ["are"], ["being"], ["lies"], ["lie"])
        if end < len(tokens):
            yield tokens[end:]
    for at in range(1, len(words) - len(own)):
        behind = words[at + len(own) : at + len(own) + 1]
        if words[at : at + len(own)] == own and (words[at - 1], *behind) in _MORE_OF:
            yield (*tokens[:at], *tokens[at + len(own) :])


def _all_stand(things: list[Subject], words: Iterable[tuple[Token, ...]]) -> bool:
    spoken = " ".join(word_of(t) for tokens in words for t in tokens)
    return all(f" {thing.text.lower()} " in f" {spoken} " for thing in things)
