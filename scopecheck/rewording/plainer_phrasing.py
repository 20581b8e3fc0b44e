"""What is said more plainly in other words, by looking at nothing but the words."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import COMBINATIONS, word_of
from scopecheck.matching.circumstances import SO_OFTEN
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.plainer_amounts import NO_NAME
from scopecheck.rewording.plainer_written import SAYS_WHICH

Tokens = tuple[Token, ...]
_DETERMINERS = frozenset(("the", "a", "an"))
_TOLERANCES = ("±", "+/-")


def without_dots_of_units(tokens: Tokens) -> Tokens:
    """`from 40° C. to 90° C.` without the points that only close an abbreviation."""
    return tuple(
        t
        for at, t in enumerate(tokens)
        if not (t.text == "." and at and (n := tokens[at - 1].number) and n.unit and at + 1 < len(tokens))
    )


def without_leading_to(tokens: Tokens) -> Tokens:
    """`to a value of 4.2 or lower`, `to between 80 and 90 %`, of what is brought there, without the `to`.

    `To 90 %` alone may be the end of a range.
    """
    words = [word_of(t) for t in tokens[:3]]
    to = len(words) > 2 and words[0] == "to" and len(tokens) > 3 - (words[1] in _BROUGHT_TO)
    return tokens[1:] if to and words[1] in _DETERMINERS | _BROUGHT_TO else tokens


_BROUGHT_TO = frozenset("at between from about approximately less more not no above below under over".split())


def with_measure_last(tokens: Tokens) -> Tokens:
    """`4 mm thick or thicker` as 4 mm or thicker thick: what is said behind limits is looked at there."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 2) if words[i] in SAYS_WHICH and words[i + 1] == "or"), 0)
    number = tokens[at - 1].number if at else None
    if number is None or number.unit is None or at + 3 != len(words) or words[-1] not in _OR_MORE:
        return tokens
    return (*tokens[:at], *tokens[at + 1 :], tokens[at])


_OR_MORE = listed("limits", "or_more")


def with_both_ends_within(tokens: Tokens) -> Tokens:
    """`within 0.8 and 1.25` as between both; `within 3.4-3.8 GHz` as 3.4-3.8 GHz."""
    words = [word_of(t) for t in tokens]
    joined = words[:1] == ["within"] and words[2:3] in (["-"], ["–"], ["to"])
    joined = joined and (len(words) == 4 or words[4:5] == ["of"])
    if joined and tokens[1].number and tokens[3].number:
        return tokens[1:]
    for at in range(len(words) - 3):
        if (
            words[at] == "within"
            and words[at + 2] == "and"
            and tokens[at + 1].number
            and tokens[at + 3].number
        ):
            return (*tokens[:at], replace(tokens[at], text="between"), *tokens[at + 1 :])
    return tokens


def without_measure_before(tokens: Tokens) -> Tokens:
    """`an HLB value less than 10` as an HLB value of less than 10."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in _LIMITS_BEGIN), 0)
    noun = words[at - 1] if 1 < at < 6 and words[0] in _DETERMINERS else ""
    measured = noun == "value" or noun in listed("measures", "nouns")
    if noun in COMBINATIONS and words[at] == "between":
        return tokens  # 'the difference between A and B' has its two things there, and no limit
    if not measured or not all(t.sort == "word" for t in tokens[:at]) or "of" in words[:at]:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="of", end=tokens[at].start), *tokens[at:])


def without_per_unit(tokens: Tokens) -> Tokens:
    """`a mass per unit area of 2 to 6 g/m2` without what the unit says."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 3) if words[i : i + 2] == ["per", "unit"]), 0)
    divided = any(t.number and t.number.unit and "/" in t.number.unit.symbol for t in tokens[at:])
    return (*tokens[:at], *tokens[at + 3 :]) if at and divided and words[at + 2] in _PER_UNIT else tokens


_PER_UNIT = frozenset("area length volume mass weight width time".split())
_LIMITS_BEGIN = frozenset("greater less more at between within from exceeding above below not no up".split())


def with_parted_fractions(tokens: Tokens) -> Tokens:
    """`one-half`, `three-quarters` as two words each."""
    found = list[Token]()
    for token in tokens:
        above, _, part = word_of(token).partition("-")
        if token.sort == "word" and above in NUMBER_WORDS and part in word_lists()["fractions"]:
            found += (replace(token, text=above, end=token.start), replace(token, text=part))
        else:
            found.append(token)
    return tuple(found)


def with_half_before_unit(tokens: Tokens) -> Tokens:
    """`one half millimetre`, `a half millimetre` as half a millimetre."""
    words = [word_of(t) for t in tokens]
    found, at = list[Token](), 0
    while at < len(tokens):
        if words[at] in ("one", "a") and words[at + 1 : at + 2] == ["half"] and _is_unit(tokens[at + 2 :]):
            found += (replace(tokens[at], text="half"), replace(tokens[at + 1], text="a"))
            at += 2
        else:
            found.append(tokens[at])
            at += 1
    return tuple(found)


def _is_unit(tokens: Tokens) -> bool:
    return bool(tokens) and tokens[0].sort == "word" and find_unit(tokens[0].text) is not None


def without_nominal(tokens: Tokens) -> Tokens:
    """`a nominal voltage of 3.3 V ± 10 %` without the word: how far it may lie off is said behind it."""
    words = [word_of(t) for t in tokens]
    if "nominal" not in words or not set(words) & set(_TOLERANCES):
        return tokens
    return tuple(t for t in tokens if word_of(t) != "nominal")


def without_setting(tokens: Tokens) -> Tokens:
    """`reduce the charging current to 2 A or less` without the verb and what it sets."""
    words = [word_of(t) for t in tokens]
    if not words or words[0] not in _SETTING or words[1:2] not in (["the"], ["a"], ["an"], ["said"], ["its"]):
        return tokens
    to = next((i for i in range(3, min(8, len(words) - 1)) if words[i] == "to"), 0)
    named = bool(to) and all(t.sort == "word" and word_of(t) not in NO_NAME for t in tokens[1:to])
    named &= words[-1] not in (*SO_OFTEN, "times")  # 'raising the power up to three times'
    return tokens[to + 1 :] if named else tokens


_SETTING = listed("limits", "setting")


def without_use_behind(tokens: Tokens) -> Tokens:
    """`five phases are carried out` without what is done with them."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 1):
        if words[at] in ("is", "are", "being", "be") and " ".join(words[at + 1 :]) in _DONE_WITH:
            return tokens[:at]
    return tokens


_DONE_WITH = (
    "carried out",
    "performed",
    "provided",
    "used",
    "employed",
    "formed",
    "arranged",
    "provided for",
)


def with_tolerance_behind(tokens: Tokens) -> Tokens:
    """`4 mm to within ± 1 mm` as 4 mm ± 1 mm."""
    words = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(words[:-1]) if w == "within" and words[i + 1] in _TOLERANCES):
        start = at - (words[at - 1] == "to")
        if start > 0 and tokens[start - 1].number:
            return (*tokens[:start], *tokens[at + 1 :])
    return tokens


def with_open_ends(tokens: Tokens) -> Tokens:
    """`from more than 0.5 mm to less than 2 mm` as more than 0.5 mm and less than 2 mm."""
    words = [word_of(t) for t in tokens]
    first = next((i for i in range(len(words)) if words[i] == "from" and words[i + 1 : i + 3] in _OPEN), -1)
    last = next(
        (i for i in range(len(words)) if words[i] in ("to", "and") and words[i + 1 : i + 3] in _OPEN_ABOVE),
        -1,
    )
    if not 0 <= first < last or sum(1 for t in tokens[first:last] if t.number) != 1:
        return tokens
    joined = replace(tokens[last], text="and")
    return (*tokens[:first], *tokens[first + 1 : last], joined, *tokens[last + 1 :])


def with_condition_first(tokens: Tokens) -> Tokens:
    """`the leakage at an inlet pressure of 210 bar is below 15 mL/min`, with the condition before what is
    limited."""
    words = [word_of(t) for t in tokens]
    numbers = [i for i, t in enumerate(tokens) if t.number]
    first = numbers[0] if len(numbers) > 1 else 0
    at = next((i for i in range(1, first) if words[i] in _BEFORE_CONDITION), 0)
    if not at or (words[at] == "at" and words[at + 1] in ("least", "most")) or words[at - 1] in _SAID_SO:
        return tokens
    for verb in range(first + 1, numbers[-1]):
        behind = words[verb + 1]
        limited = tokens[verb + 1].number or behind in listed("limits", "inside")
        exceeds = words[verb : verb + 3] in (["does", "not", "exceed"], ["do", "not", "exceed"])
        so = words[verb] in _EXCEEDS or exceeds or (words[verb] in (*_SAID_SO, "of") and limited)
        ended = tokens[verb - 1].number or words[verb - 1] in _ENDS_A_LIMIT
        if so and ended:
            condition = tokens[at : verb - (words[verb - 1] == ",")]
            lead = tokens[: at - (words[at - 1] == ",")]
            said = replace(tokens[verb], sort="word", text="is") if words[verb] == "of" else tokens[verb]
            return (*condition, *words_at(condition[-1], ","), *lead, said, *tokens[verb + 1 :])
    return tokens


_BEFORE_CONDITION = ("at", "under", "when", "if", "where", "while")
_SAID_SO = ("is", "are", "being")
_EXCEEDS = ("exceeds", "exceed", "exceeding")
_ENDS_A_LIMIT = frozenset(", more less higher lower greater above below over".split())


def with_condition_behind(tokens: Tokens) -> Tokens:
    """`a thickness, as measured at the rim, of at most 2 mm` with how it is measured behind the limit."""
    words = [word_of(t) for t in tokens]
    commas = [i for i, t in enumerate(tokens) if t.text == ","]
    for start, end in pairwise(commas):
        inside = words[start + 1 : end]
        measured = bool(inside) and (
            inside[0] in _MEASURED or (inside[0] in ("as", "when") and inside[1:2] != ["a"])
        )
        based = (
            inside[:2] in _BASED
            and end + 1 < len(tokens)
            and word_of(tokens[end + 1]) in ("of", "from", "at", "between", "not", "up")
        )
        if based and start and not any(t.number for t in tokens[start:end]):
            return (*tokens[:start], *tokens[end + 1 :], *tokens[start:end])
        if measured and start and end + 1 < len(tokens) and not any(t.number for t in tokens[:end]):
            return (*tokens[:start], *tokens[end + 1 :], *tokens[start:end])
    return tokens


def with_presence_behind(tokens: Tokens) -> Tokens:
    """`the alcohol, if any, is less than 0.5 %` with 'if present' behind the limit."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(tokens) - 4):
        if words[at : at + 4] in ([",", "if", "any", ","], [",", "if", "present", ","]):
            present = replace(tokens[at + 2], text="present")
            return (*tokens[:at], *tokens[at + 4 :], tokens[at], tokens[at + 1], present)
    return tokens


_BASED = (["based", "on"], ["relative", "to"], ["with", "respect"], ["calculated", "on"], ["in", "relation"])
_MEASURED = ("measured", "determined", "tested", "taken")
_OPEN = (["more", "than"], ["greater", "than"])
_OPEN_ABOVE = (["less", "than"], ["at", "most"])
