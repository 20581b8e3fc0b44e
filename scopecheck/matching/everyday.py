"""Everyday spellings beside a quantity: "90 degrees" of an angle, "3 mm from the rim" of a distance."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Composition, SetDecl
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.kinds import LENGTH, TIME, Dimension, Kind
from scopecheck.foundations.quantity import Unit, find_unit, kind_word, number_text
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import SIGN_WITH_POINT, Number, Token
from scopecheck.vocabulary.names import Bound, Names, Typed, counted_unit

_COUNTED_BY = ("by_mass", "by_volume", "by_mole")
_SAYS_OF_ENDS = ("including", "excluding", "inclusive", "exclusive", "not", "except", "excepting")
_LETTERS = regex(r"[^\W\d_]+")
_ANGLE = (("angle", 1),)
_TEMPERATURE = (("temperature", 1),)
_DEGREES = ("degree", "degrees")
_SIGN = regex(rf"[A-Z][A-Za-z]?\d?|[a-z]\d?|{SIGN_WITH_POINT}")
_BEHIND_SIGN = ("of", "is", "being", "which")
_PLACED = ("of", "from")
_BEFORE_CLASS = ("of", "the", "from", "more", "one", "two", "three")
_SELECTED = ("selected", "chosen")


def with_degrees(tokens: tuple[Token, ...], subject: Bound, words: Span, name: str) -> tuple[Token, ...]:
    """`90 degrees` as one number where the subject, called `name`, is an angle, or so much per something.

    Beside a temperature the word leaves open which degrees: Trouble, at the number; beside anything else it
    stays a word.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    found: list[Token] = []
    passed = 0
    for i, token in enumerate(tokens):
        if passed:
            passed -= 1
            continue
        before = found[-1].number if found else None
        if token.text.lower() not in _DEGREES or before is None or before.unit is not None or kind is None:
            found.append(token)
        elif _ANGLE[0] in kind.dimension and (per := _degrees_per(tokens[i + 1 :], kind.dimension)):
            found.append(_with_unit(found.pop(), before, tokens[i + per[1]], per[0]))
            passed = per[1]
        elif kind.dimension == _TEMPERATURE:
            raise trouble(
                Span(words.source, found[-1].start, token.end),
                f"'{before.text} {token.text}' may be in degC or in degF",
                "The words stay as they are in the claim; their meaning is said beside them.",
                f"write after the words: two blanks, exactly, facts such as {name} = {before.text} degC",
            )
        else:
            found.append(token)
    return tuple(found)


def _degrees_per(tokens: tuple[Token, ...], dimension: Dimension) -> tuple[Unit, int] | None:
    """The unit of an angle, or with `per second`, `/s` of one per that, and how many words that takes."""
    if dimension == _ANGLE:
        degree = find_unit("deg")
        return (degree, 0) if degree else None
    words = [t.text for t in tokens[:2]]
    unit = find_unit(f"deg/{words[1]}") if words[:1] in (["per"], ["/"]) and len(words) > 1 else None
    unit = unit or (find_unit(f"deg per {words[1]}") if words[:1] == ["per"] and len(words) > 1 else None)
    return (unit, 2) if unit and unit.kind.dimension == dimension else None


def with_parts_per(tokens: tuple[Token, ...], subject: Bound, basis: str = "") -> tuple[Token, ...]:
    """`20 ppm` as one number where the subject is declared in parts per million on a basis; else as it is.

    With a basis those of any share are read on it.
    """
    declared = subject.unit if isinstance(subject, Typed) else None
    found: list[Token] = []
    for token in tokens:
        before, per = found[-1].number if found else None, token.text.lower()
        if before is None or before.unit is not None or per not in PARTS_PER:
            found.append(token)
            continue
        unit = find_unit(f"{per}({_SIGNS_OF_BASES[basis]})") if basis in _SIGNS_OF_BASES else None
        if declared is not None and declared.symbol.startswith(f"{per}("):
            unit = declared
        found.append(_with_unit(found.pop(), before, token, unit) if unit else token)
    return tuple(found)


def with_parts_of_measured(tokens: tuple[Token, ...], kinds: tuple[Kind | None, ...]) -> tuple[Token, ...]:
    """`0.05 ppm of` another quantity, `10 MHz ± 20 ppm`, as so many per cent, where nothing is a share.

    `kinds` are those of what stands left of the colon. Of a concentration parts per million may be so much in
    so much, and of one thing alone they are a part of a number beside them.
    """
    measured = [kind.dimension for kind in kinds if kind is not None and kind.dimension]
    dense = [d for d in measured if ("length", -3) in d]
    said = {t.text.lower() for t in tokens}
    beside = len(kinds) > 1 or not _TOLERANCES.isdisjoint(said)
    if len(measured) < len(kinds) or dense or not beside or said.isdisjoint(PARTS_PER):
        return tokens
    percent, found = find_unit("%"), list[Token]()
    for token in tokens:
        before, zeros = found[-1].number if found else None, _ZEROS.get(token.text.lower(), 0)
        if before is None or before.unit is not None or not zeros:
            found.append(token)
            continue
        value, decimals = before.value / 10**zeros, before.decimals + zeros
        number = Number(number_text(value), value, decimals, None)
        found.append(_with_unit(found.pop(), number, token, percent))
    return tuple(found)


_TOLERANCES = frozenset("± +/- plus within tolerance deviates differs".split())
_ZEROS = {"ppm": 4, "ppb": 7}
"""How many places lie between so many parts and so many per cent."""


def _with_unit(number: Token, value: Number, sign: Token, unit: Unit | None) -> Token:
    """The number and the sign behind it as one number in this unit."""
    both = f"{number.text} {sign.text}"
    return replace(number, text=both, end=sign.end, number=replace(value, unit=unit))


PARTS_PER = ("ppm", "ppb")
_SIGNS_OF_BASES = {"by mass": "m", "by volume": "v", "by mole": "mol"}


def without_dots(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`max. 3 mm`, `approx. 3 mm` without the full stop of the short word."""
    short = listed("short", "words")
    return tuple(
        t for i, t in enumerate(tokens) if t.text != "." or not i or tokens[i - 1].text.lower() not in short
    )


def with_both(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`A, B, or both`, `A, B or both` as `A or B or both`, `A or B, or both` likewise."""
    texts = [t.text.lower() for t in tokens]
    at = next((i for i in range(2, len(texts)) if texts[i - 1 : i + 1] == ["or", "both"]), 0)
    commas = [i for i in range(at) if texts[i] == ","]
    last = at - 2 if texts[at - 2 : at - 1] == [","] else at - 1
    inner = [i for i in commas if i != last]
    if len(inner) != 1 or "or" in texts[: at - 1]:
        return tokens
    joined = replace(tokens[inner[0]], sort="word", text="or")
    return (*tokens[: inner[0]], joined, *tokens[inner[0] + 1 : last], *tokens[at - 1 :])


def with_commas(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`5 % or less (excluding 0 %)` as `5 % or less, excluding 0 %`; `of an oil` behind it goes before it."""
    texts = [t.text.lower() for t in tokens]
    at = next((i for i, t in enumerate(texts[:-1]) if t == "(" and texts[i + 1] in _SAYS_OF_ENDS), 0)
    end = texts.index(")", at) if at and ")" in texts[at:] else 0
    behind = tokens[end + 1 :]
    if not end or (behind and (texts[end + 1] != "of" or any(t.number for t in behind))):
        return tokens
    return (*tokens[:at], *behind, replace(tokens[at], text=","), *tokens[at + 1 : end])


def with_ratio_named(tokens: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """`oil/gum is at least 2`, `oil:gum is`, of the two left of the colon, as the ratio of oil to gum."""
    tokens = _without_ratio_in_brackets(tokens, names)
    said = [t.text.lower() for t in tokens]
    at = next((i for i in range(1, len(said) - 1) if said[i] in ("/", ":")), 0)
    ends = [len(n.split()) for n in names]
    if not at or len(names) != 2 or "ratio" in said:
        return tokens
    if [" ".join(said[:at]), " ".join(said[at + 1 : at + 1 + ends[1]])] != [n.lower() for n in names]:
        return tokens
    first, joiner = tokens[0], replace(tokens[at], sort="word", text="to")
    before = (replace(first, sort="word", text=word, end=first.start) for word in ("ratio", "of"))
    return (*before, *tokens[:at], joiner, *tokens[at + 1 :])


def _without_ratio_in_brackets(tokens: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """`aspect ratio (length/width) above 60`, of such a length and a width, as the ratio of the two."""
    said = [t.text.lower() for t in tokens]
    at = next((i for i in range(1, len(said) - 4) if said[i - 1 : i + 1] == ["ratio", "("]), 0)
    if not at or len(names) != 2 or said[at + 2] not in ("/", ":") or said[at + 4] != ")":
        return tokens
    if not all(
        word in name.lower().split() for word, name in zip(said[at + 1 : at + 4 : 2], names, strict=True)
    ):
        return tokens
    words = ("of", *names[0].split(), "to", *names[1].split())
    first = tokens[at]
    written = (replace(first, sort="word", text=word, end=first.start) for word in words)
    return (*tokens[:at], *written, *tokens[at + 5 :])


def _with_ratio_parted(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`stroke-to-bore ratio` as stroke to bore ratio."""
    for at, token in enumerate(tokens[:-1]):
        names = token.text.split("-to-")
        if len(names) == 2 and all(names) and tokens[at + 1].text.lower() == "ratio":
            words = (replace(token, text=word, end=token.start) for word in (names[0], "to"))
            return (*tokens[:at], *words, replace(token, text=names[1]), *tokens[at + 1 :])
    return tokens


def with_ratios(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`ratio of oil/salt`, `ratio oil:salt`, `oil/salt ratio` as that of oil to salt; a ratio by weight."""
    tokens = _with_ratio_parted(tokens)
    texts = [t.text.lower() for t in tokens]
    for at in range(len(tokens) - 2, -1, -1):
        if texts[at : at + 2] == ["aspect", "ratio"]:
            tokens = (*tokens[:at], *tokens[at + 1 :])
            del texts[at]
    counted_by = {word for name in _COUNTED_BY for word in listed("asides", name)}
    for at in range(len(tokens) - 3):
        if texts[at : at + 2] == ["ratio", "by"] and texts[at + 2] in counted_by:
            tokens = (*tokens[:at], tokens[at + 2], tokens[at], *tokens[at + 3 :])
            texts = [t.text.lower() for t in tokens]
    found = list(tokens)
    for at in range(len(tokens) - 2, 0, -1):
        names = tokens[at - 1].sort == tokens[at + 1].sort == "word"
        behind = [i for i in range(at + 2, len(texts)) if texts[i] == "ratio"][:1]
        named_first = bool(behind) and not any(t.number for t in tokens[: behind[0]])
        if texts[at] not in ("/", ":") or not names or not ("ratio" in texts[:at] or named_first):
            continue
        found[at] = replace(tokens[at], sort="word", text="to")
        if "ratio" not in texts[:at]:
            continue
        first = next(i for i in range(at - 1, -1, -1) if texts[i] == "ratio") + 1
        if texts[first] != "of":
            found.insert(first, replace(tokens[first], sort="word", text="of", end=tokens[first].start))
    return tuple(found)


def without_name_before_inclusive(tokens: tuple[Token, ...], name: str) -> tuple[Token, ...]:
    """`between 6 and 96 wells inclusive`, `six wells or more` without the name of what is counted."""
    if len(tokens) > 4 and tokens[-2].text == "," and tokens[-1].text.lower() in _forms(name):
        return tokens[:-2] if _counts(tokens[-3]) else tokens  # 'at least 3, preferably 5, cycles'
    if len(tokens) > 3 and [t.text.lower() for t in tokens[-2:]] in _ENDLESS:
        named = tokens[-3].text.lower() in _forms(name) and _counts(tokens[-4])
        return (*tokens[:-3], *tokens[-2:]) if named else tokens
    ends = len(tokens) > 2 and tokens[-1].text.lower() in ("inclusive", "exclusive")
    named = ends and tokens[-2].text.lower() in _forms(name) and _counts(tokens[-3])
    return (*tokens[:-2], tokens[-1]) if named else tokens


_ENDLESS = (["or", "more"], ["or", "fewer"], ["or", "less"], ["at", "most"], ["at", "least"])


def with_plurals(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`no more than one tooth`, of a number of teeth, as no more than one teeth; so of batteries."""
    last = name.lower().rpartition(" ")[2]
    one = word_lists()["irregular"].get(last, last)
    one = f"{last[:-3]}y" if last.endswith("ies") and len(last) > 4 else one
    counted = isinstance(subject, Typed) and subject.whole and one != last
    return tuple(replace(t, text=last) if counted and t.text.lower() == one else t for t in tokens)


def _counts(token: Token) -> bool:
    return token.number is not None or token.text.lower() in NUMBER_WORDS


def without_name_behind_ordinals(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`a first blade and a second blade`, `first, second, and third blades`, by the ordinals alone."""
    if not isinstance(subject, Typed) or not subject.whole:
        return tokens
    texts = [t.text.lower() for t in tokens]
    if not {"first", "second"} <= set(texts):
        return tokens
    own, ordinals = _forms(name), ("first", "second", "third", "fourth")
    named = {i for i in range(1, len(texts)) if texts[i] in own and texts[i - 1] in ordinals}
    commas = {i for i in range(len(texts) - 1) if texts[i : i + 2] == [",", "and"]}
    return tuple(t for i, t in enumerate(tokens) if i not in named | commas)


def with_one_second(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`1 second`, `one second` of a time: beside anything else the word counts places."""
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is None or kind.dimension != TIME:
        return tokens
    found: list[Token] = []
    for token in tokens:
        before = found[-1] if found else None
        one = before is not None and (
            before.number.value == 1 and before.number.unit is None
            if before.number
            else before.text.lower() in ("one", "a")
        )
        if before is None or token.text.lower() != "second" or not one:
            found.append(token)
            continue
        number = Number("1", Fraction(1), 0, find_unit("s"))
        found[-1] = replace(before, sort="number", text=f"{before.text} second", end=token.end, number=number)
    return tuple(found)


def with_products_of_units(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`3500 ng-hr/mL`, `3 N m`, `3 N*m` of what is measured in such a unit, as one number."""
    kind = subject.kind if isinstance(subject, Typed) else None
    found, at = list[Token](), 0
    while at < len(tokens):
        token, number = tokens[at], tokens[at].number
        at += 1
        if kind is not None and number and number.unit and number.unit.kind != kind:
            for end in range(min(at + _MOST_OF_A_UNIT, len(tokens)), at, -1):
                more = "".join(t.text for t in tokens[at:end]).lstrip("-*")
                unit = find_unit(f"{number.unit.symbol}·{more}") if more[:1].isalpha() else None
                if unit is not None and unit.kind == kind:
                    token = _with_unit(token, number, tokens[end - 1], unit)
                    at = end
                    break
        found.append(token)
    return tuple(found)


def with_degrees_of_a_temperature(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`from about 750° to about 1050° C.` of a temperature with the degrees of the last number."""
    kind = subject.kind if isinstance(subject, Typed) else None
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    if (
        kind is None
        or kind.dimension != _TEMPERATURE
        or not units
        or units[-1].kind.dimension != _TEMPERATURE
    ):
        return tokens
    return tuple(
        replace(t, number=replace(t.number, unit=units[-1]))
        if t.number and t.number.unit and t.number.unit.symbol in ("deg", "°")
        else t
        for t in tokens
    )


_MOST_OF_A_UNIT = 5


def with_one_unit(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`every hour`, `once a day`, of an interval, with its one: `every second` is every other one."""
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is None or kind.dimension != TIME or len(tokens) < 2:
        return tokens
    last, before = tokens[-1], tokens[-2].text.lower()
    every = before in ("every", "each") or (
        before in ("a", "an", "per") and tokens[-3:-2] and tokens[-3].text == "once"
    )
    unit = find_unit(last.text.lower()) if last.sort == "word" and every else None
    if unit is None or unit.kind.dimension != TIME or last.text.lower() in ("second", "s"):
        return tokens
    number = Number("1", Fraction(1), 0, unit)
    head = (replace(tokens[-2], text="every"),) if before not in ("every", "each") else (tokens[-2],)
    return (*tokens[:-2], *head, replace(last, sort="number", text=f"1 {unit.symbol}", number=number))


def with_letter_c(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`40 C` of a temperature as 40 degC, `0.5 C` of so much in a time as a rate of charging: 0.5 1/h.

    So is `C/20`, and `5 C` of a charge that is declared in coulombs, A.s.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    unit = _MEANT_BY_C.get(kind.dimension) if kind is not None else None
    declared = subject.unit if isinstance(subject, Typed) else None
    if unit is None or (unit == "A.s" and (declared is None or not declared.symbol.endswith("A.s"))):
        return tokens
    found: list[Token] = []
    for token in tokens:
        before = found[-1].number if found else None
        divided = [t.text for t in found[-2:]] == ["C", "/"] and token.number and not token.number.unit
        if unit == "1/h" and divided and token.number and token.number.value:
            one = Number(f"1/{token.number.text}", 1 / token.number.value, 0, find_unit(unit))
            found[-2:] = [replace(token, text=f"C/{token.text}", start=found[-2].start, number=one)]
        elif token.text == "C" and before is not None and before.unit is None:
            found.append(_with_unit(found.pop(), before, token, find_unit(unit)))
        else:
            found.append(token)
    return tuple(found)


_MEANT_BY_C: dict[Dimension, str] = {
    _TEMPERATURE: "degC", (("time", -1),): "1/h", (("current", 1), ("time", 1)): "A.s",
}  # fmt: skip


def without_signs(tokens: tuple[Token, ...], name: str, others: tuple[str, ...] = ()) -> tuple[Token, ...]:
    """`a length L of 250 mm`, `the gap g1 being` without the sign that the claim gives what is measured.

    So in brackets: `a strength (Rp0.2) of`. What is part of the name of one of the `others` is no sign.
    """
    own = _forms(name) - _NEVER_CLASSES
    of_names = own.union(*(other.lower().split() for other in others))
    found: list[Token] = []
    closed = -1
    for i, token in enumerate(tokens):
        if i == closed:
            continue
        before = found[-1].text.lower() if found else ""
        after = tokens[i + 1].text.lower() if i + 1 < len(tokens) else ""
        behind = tokens[i + 2].text.lower() if i + 2 < len(tokens) else ""
        bracketed = before == "(" and after == ")" and len(found) > 1
        before, after = (found[-2].text.lower(), behind) if bracketed else (before, after)
        named = before in own or before in listed("measures", "nouns")
        sign = _SIGN.fullmatch(token.text) and token.text.lower() not in of_names and token.sort == "word"
        itself = before == "number" and token.text.lower() in own and len(token.text) == 1
        if not (named and (sign or itself) and after in _BEHIND_SIGN):
            found.append(token)
        elif bracketed:
            found.pop()
            closed = i + 1
    return tuple(found)


def without_times(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`more than three times` of a count without its last word, `2 times and 3 times` without the first."""
    whole = isinstance(subject, Typed) and subject.whole
    said = [i for i, t in enumerate(tokens) if t.text.lower() == "times"]
    if len(said) == 2:
        return tokens[: said[0]] + tokens[said[0] + 1 :]
    last = len(tokens) > 1 and said == [len(tokens) - 1]
    return tokens[:-1] if whole and last else tokens


_ANY_CLASS = listed("items", "any_class")
"""What members of any list may be called together."""


def without_class(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`at least one of the metals copper and zinc` without what its members are called together."""
    if not isinstance(subject, SetDecl | ChoiceDecl | Composition):
        return tokens
    own = _forms(name) - {"of", "the", "a", "an", "and", "in"}
    found: list[Token] = []
    for i, token in enumerate(tokens):
        after = tokens[i + 1].text.lower() if i + 1 < len(tokens) else ""
        generic = token.text.lower() in _ANY_CLASS and after in _SELECTED
        called = token.text.lower() in own or generic
        called = called and i > 0 and tokens[i - 1].text.lower() in _BEFORE_CLASS
        member = any(m.lower().split()[:1] == [after] for m in subject.members)
        if not (called and (member or after in _SELECTED)):
            found.append(token)
        elif member and tokens[i - 1].text.lower() == "the":
            found.pop()
    return tuple(found)


_NEVER_CLASSES = frozenset("of the a an and in".split())
"""Of `resin of the layers` no words for what its members are called together."""


def of_whole_numbers(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`an integer from 1 to 5`, `where n is an integer from 1 to 5` without what a count says by itself.

    Another letter than its name, if there is one alone, is the claim's own for it.
    """
    texts = [t.text.lower() for t in tokens]
    idle = {*name.lower().split(), *"where wherein is being the a number of ,".split()}
    own_letter = {text for text in texts if len(text) == 1 and text.isalpha()} - {"a"}
    idle |= own_letter if len(own_letter) == 1 else set()
    start = next(
        (i for i in range(len(texts)) if texts[i] not in idle or run_at(texts, i, "short", "whole")), 0
    )
    length = run_at(texts, start, "short", "whole")
    whole = isinstance(subject, Typed) and subject.whole
    length += length > 0 and texts[start + length : start + length + 1] == ["of"]
    if "positive" in texts[start : start + length] and not _AT_ONE_AT_LEAST.intersection(
        texts[start + length :]
    ):
        return tokens  # that it is at most 5 does not say that it is no zero
    return tokens[start + length :] if whole and length and len(tokens) > start + length else tokens


_AT_ONE_AT_LEAST = frozenset("from between least more greater larger".split())


def without_units_counted(
    tokens: tuple[Token, ...], subject: Bound, name: str, note: str
) -> tuple[Token, ...]:
    """`10 or 12 bits` of a number of bits: what is counted is no unit.

    Nor is what it is noted to be counted in, as in `at least 4 slots and at most 8 slots`.
    """
    if not isinstance(subject, Typed) or not subject.whole:
        return tokens
    if unit := counted_unit(note):
        said = ["", *(t.text.lower() for t in tokens), ""]
        numbers = [False, *(t.number is not None or t.text.lower() in NUMBER_WORDS for t in tokens)]
        units = (unit, unit.removesuffix("s"))
        tokens = tuple(
            t
            for i, t in enumerate(tokens, 1)
            if not (numbers[i - 1] and said[i] in units and said[i + 1] != "per")
        )
    called = (name.lower(), *note.lower().split())
    own = tuple(form for w in called if len(w) > 2 for form in (w, w.removesuffix("s")))
    return tuple(
        replace(t, number=replace(t.number, unit=None))
        if t.number and t.number.unit and t.text.lower().endswith(own)
        else t
        for t in tokens
    )


def without_remaining(tokens: tuple[Token, ...], subject: Bound, name: str, note: str) -> tuple[Token, ...]:
    """`fewer than 10 doses remain`, `10 doses are left`, of a number of what remains, without the verb."""
    own = f"{name} {note}".lower().split()
    if not isinstance(subject, Typed) or not subject.whole or not any(w.startswith("remain") for w in own):
        return tokens
    texts = [t.text.lower() for t in tokens]
    run = next((r for r in _REMAIN if len(texts) > len(r) + 1 and texts[-len(r) :] == r), [])
    kept = tokens[: len(tokens) - len(run)]
    named = bool(run) and len(kept) > 1 and texts[len(kept) - 1] in _forms(f"{name} {note}")
    return kept[:-1] if named and _counts(kept[-2]) else kept


_REMAIN = (["remain"], ["remains"], ["remaining"], ["are", "left"], ["is", "left"], ["left"])


def with_least_or_most(
    tokens: tuple[Token, ...], subject: Bound, name: str, names: Names
) -> tuple[Token, ...]:
    """`a minimum gap of 3 mm` as a minimum of 3 mm, where the gap is what it is said of; so of what it is.

    What is declared as a maximum gap keeps its name; what is called by one measure is of no other one.
    """
    own, found = _forms(name), list(tokens[:1])
    called = own | set(names.note_of(name).lower().split())
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is not None and kind.dimension == LENGTH and called.isdisjoint(listed("measures", "dimensions")):
        own |= {"length", "width", "height", "depth", "thickness", "diameter"}
    # Not of what is itself called 'minimum gap', or noted to be that.
    ends = listed("short", "ends") - own - set(names.note_of(name).lower().split())
    for token in tokens[1:]:
        said = token.text.lower() in own or _is_measure_of(token, subject)
        declared = names.declared(f"{found[-1].text} {token.text}") is not None
        if declared or not said or found[-1].text.lower() not in ends:
            found.append(token)
    return tuple(found)


def with_signs_alone(tokens: tuple[Token, ...], subject: Bound, name: str, note: str) -> tuple[Token, ...]:
    """`a diameter D1 of 5 mm`, `the first height h1 is`, of what is called by that sign, by the sign alone.

    A note that says which measure it is may say that it is another one.
    """
    measures = listed("measures", "nouns")
    sign = len(name) <= _LONGEST_SIGN and (name[-1:].isdigit() or not name.islower())
    if not sign or not isinstance(subject, Typed) or subject.kind is None or not subject.kind.dimension:
        return tokens
    if not measures.isdisjoint(note.lower().split()):
        return tokens
    found: list[Token] = []
    for token in tokens:
        if token.text.lower() == name.lower() and found and found[-1].text.lower() in measures:
            known = kind_word(found[-1].text.lower())
            if known is None or known.accepts(subject.kind):
                found.pop()
                if found and found[-1].text.lower() in ("first", "second", "third"):
                    found.pop()
        found.append(token)
    return tuple(found)


_LONGEST_SIGN = 3


def with_any(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`any temperature between`, of a temperature or of what is called so, as any value between."""
    own = _forms(name) - {"of", "the", "a", "an", "and", "in"}
    return tuple(
        replace(t, text="value")
        if i
        and tokens[i - 1].text.lower() == "any"
        and t.text.lower() != "of"
        and (t.text.lower() in own or _is_measure_of(t, subject))
        else t
        for i, t in enumerate(tokens)
    )


def _is_measure_of(token: Token, subject: Bound) -> bool:
    """Whether the word is what a quantity of this kind is called: temperature, pressure."""
    known = kind_word(token.text.lower())
    kind = subject.kind if isinstance(subject, Typed) else None
    return known is not None and kind is not None and bool(kind.dimension) and known.accepts(kind)


def with_fractions(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`one third`, `a quarter`, `three quarters` as one number, `one and a half` as 3/2; 'of' behind them.

    'Half' alone is one half, but in 'half a circle'.
    """
    found: list[Token] = []
    for at, token in enumerate(tokens):
        part = None if token.number else word_lists()["fractions"].get(token.text.lower())
        after = tokens[at + 1].text.lower() if at + 1 < len(tokens) else ""
        made = _fraction(found, part) if part else None
        if made is None and part == 2 and after == "times":
            made = _and_half(found)
        bare = token.number is None and token.text.lower() == "half"
        if made is None and bare and after not in ("a", "an", "as"):
            made = 0, Fraction(1, 2)
        if made is None:
            found.append(token)
            continue
        width, value = made
        said = (*found[len(found) - width :], token)
        del found[len(found) - width :]
        number = Number(f"{value.numerator}/{value.denominator}", value, 0, None)
        found.append(Token("number", " ".join(t.text for t in said), said[0].start, token.end, number))
        if after == "the":
            found.append(Token("word", "of", token.end, token.end))
    return tuple(found)


def is_ordinal(tokens: tuple[Token, ...], subject: Bound, name: str) -> bool:
    """`a third hole`: which hole it is, and no third of one."""
    texts, own = [t.text.lower() for t in tokens], _forms(name)
    counted = isinstance(subject, Typed) and subject.whole
    return counted and any(w in word_lists()["fractions"] and then in own for w, then in pairwise(texts))


def _fraction(before: list[Token], part: int) -> tuple[int, Fraction] | None:
    """How many of the words before belong to the fraction, and its value."""
    texts = [t.text.lower() for t in before]
    added = texts[-2:] in (["and", "a"], ["and", "one"]) and texts[-4:-3] != ["between"]
    whole = NUMBER_WORDS.get(texts[-3]) if added and len(texts) > 2 else None
    if whole is not None:
        return 3, whole + Fraction(1, part)
    above = 1 if texts[-1:] == ["a"] else NUMBER_WORDS.get(texts[-1]) if texts else None
    return (1, Fraction(above, part)) if above is not None and 0 < above < part else None


def _and_half(before: list[Token]) -> tuple[int, Fraction] | None:
    """`two and half times` as two and a half."""
    texts = [t.text.lower() for t in before[-3:]]
    whole = NUMBER_WORDS.get(texts[-2]) if texts[-1:] == ["and"] and len(texts) > 1 else None
    return (2, whole + Fraction(1, 2)) if whole is not None and texts[0] != "between" else None


def with_tolerances(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`30 mm +0.2/-0.1 mm`, `180 °C (+5/-0 °C)` as `30 mm plus 0.2 mm minus 0.1 mm`, `30 (±0.2) mm` without
    the bracket."""
    tokens = _without_tolerance_words(_with_unit_in_front(tokens))
    for at in range(1, len(tokens) - 2):
        if not tokens[at - 1].number:
            continue
        if _texts(tokens[at : at + 2]) == ["(", "±"] and _texts(tokens[at + 3 : at + 4]) == [")"]:
            return (*tokens[:at], *tokens[at + 1 : at + 3], *tokens[at + 4 :])
        if (laid := _both_above(tokens[at - 1 :])) is not None:
            low, high, width = laid
            words = [replace(tokens[at], sort="word", text=w, number=None) for w in ("from", "to")]
            return (*tokens[: at - 1], words[0], low, words[1], high, *tokens[at - 1 + width :])
        if (laid := _deviations(tokens[at:])) is not None:
            above, below, width = laid
            words = [replace(tokens[at], sort="word", text=w, number=None) for w in ("plus", "minus")]
            return (*tokens[:at], words[0], above, words[1], below, *tokens[at + width :])
    return tokens


def _both_above(tokens: tuple[Token, ...]) -> tuple[Token, Token, int] | None:
    """`16 mm +0.012/+0.001 mm`, both deviations above: the two ends, the lower first, and how many words."""
    signs, numbers = [t.text for t in tokens[1:5]], [t.number for t in tokens[:6] if t.number]
    apart = len(tokens) > 5 and tokens[2].number and tokens[5].number and signs[0] == signs[3] == "+"
    units = {n.unit for n in numbers if n.unit}
    if not apart or len(numbers) != 3 or len(units) != 1 or signs[2] not in ("/", ","):
        return None
    (unit,), (base, *above) = units, numbers
    ends = sorted(base.value + n.value for n in above)
    decimals = max(n.decimals for n in numbers)
    low, high = (
        replace(tokens[0], number=replace(base, text=number_text(e), value=e, decimals=decimals, unit=unit))
        for e in ends
    )
    return low, high, 6


def _without_tolerance_words(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`30 mm with a tolerance of +0.2/-0.1 mm`, `30 mm, the tolerance being ±0.2 mm`: the deviations alone.

    Where a phrase has the words, as `with a tolerance of ± 0.2 mm`, they stay.
    """
    texts = [t.text.lower() for t in tokens]
    for at in range(1, len(tokens) - 2):
        end = at
        while end < len(tokens) - 1 and texts[end] in _OF_TOLERANCES:
            end += 1
        said = texts[at:end]
        signed = texts[end][:1] == "+" or (texts[end] == "±" and "of" not in said)
        behind = tokens[at - 1].number or (texts[end] == "±" and texts[at] == "," and at > 1)
        if behind and signed and any(w.startswith(("toleran", "deviation")) for w in said):
            return (*tokens[:at], *tokens[end:])
    return tokens


_OF_TOLERANCES = frozenset(
    ", with the a of being is to within tolerance tolerances toleranced deviation deviations limits".split()
)


def _with_unit_in_front(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`30 (+0.2, -0.1) mm` with the unit behind each number, and not behind the bracket."""
    texts = _texts(tokens)
    first = texts.index("(") if "(" in texts else 0
    end = texts.index(")", first) if first and ")" in texts[first:] else 0
    unit = find_unit(texts[end + 1]) if 0 < end < len(tokens) - 1 else None
    inside = tokens[first - 1 : end]
    if unit is None or any(t.number is None or t.number.unit for t in inside[:1]):
        return tokens
    if not any(t.text[0] in "+-−±" for t in inside[1:]):
        return tokens
    told = (replace(t, number=replace(t.number, unit=unit)) if t.number else t for t in inside)
    return (*tokens[: first - 1], *told, tokens[end], *tokens[end + 2 :])


def with_unit_behind(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`from 5 to 10, preferably 6 to 8, mm` with its unit at the last number."""
    number = tokens[-3].number if len(tokens) > 4 and tokens[-2].text == "," else None
    unit = find_unit(tokens[-1].text) if number and number.unit is None else None
    if number is None or unit is None or tokens[-1].number:
        return tokens
    last = tokens[-3]
    return (*tokens[:-3], replace(last, end=tokens[-1].end, number=replace(number, unit=unit)))


def _texts(tokens: tuple[Token, ...]) -> list[str]:
    return [t.text for t in tokens]


def _deviations(tokens: tuple[Token, ...]) -> tuple[Token, Token, int] | None:
    """The upper and the lower deviation at the start, both without their signs, and how many words."""
    bracket = tokens[0].text == "("
    values: dict[str, Token] = {}
    sign, at = "", int(bracket)
    while at < len(tokens) and len(values) < 2:
        token = tokens[at]
        number = token.number
        if number and not sign and token.text[0] in "+-−":
            sign = "+" if token.text[0] == "+" else "-"
        if number and sign and sign not in values:
            signs = len(token.text) - len(token.text.lstrip("+-−"))
            value = replace(number, text=number.text.lstrip("+-−"), value=abs(number.value))
            plain = replace(token, text=token.text[signs:], start=token.start + signs, number=value)
            values[sign], sign = plain, ""
        elif not number and not sign and token.text in ("+", "-", "−"):
            sign = "+" if token.text == "+" else "-"
        elif number or token.text not in ("/", ",", "and"):
            return None
        at += 1
    units = {v.number.unit for v in values.values() if v.number and v.number.unit}
    for side, one in values.items():
        if len(units) == 1 and one.number and one.number.unit is None:
            values[side] = replace(one, number=replace(one.number, unit=next(iter(units))))
    closed = not bracket or (at < len(tokens) and tokens[at].text == ")")
    return (values["+"], values["-"], at + bracket) if len(values) == 2 and closed else None


def as_alternatives(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`one of 3 mm, 4 mm and 5 mm` as the list of alternatives that it is: `3 mm, 4 mm or 5 mm`."""
    texts = [t.text.lower() for t in tokens]
    leading = next((i for i in range(min(4, len(tokens))) if run_at(texts, i, "short", "choosing")), 0)
    if any(t.number or t.text == "," for t in tokens[:leading]):
        return tokens
    start = leading + run_at(texts, leading, "short", "choosing")
    rest = tokens[start:]
    said = all(t.number or t.text in (",", "and", "or") for t in rest)
    if start == leading or not said or sum(1 for t in rest if t.number) < 2:
        return tokens
    return (*tokens[:leading], *(replace(t, text="or") if t.text == "and" else t for t in rest))


def with_things_per(
    tokens: tuple[Token, ...], subject: Bound, words: Span, name: str, note: str
) -> tuple[Token, ...]:
    """`10 bristles per square centimetre` as one number where bristles are what is counted per area.

    What is counted stands in the subject's `name` or in the `note` of its declaration; Trouble if not.
    """
    texts = ["per" if t.text == "/" else t.text.lower() for t in tokens]
    places = [at for at, text in enumerate(texts) if text == "per" and at > 1]
    if any(per_unit(texts, at)[0] for at in places) and isinstance(subject, Typed) and not subject.whole:
        tokens = tuple(map(_spelled_out, tokens))
    for at in reversed(places):
        unit, end = per_unit(texts, at)
        first = next((i for i in range(at - 1, -1, -1) if tokens[i].number), at)
        number = tokens[first].number
        if unit is None or number is None or number.unit is not None:
            continue
        if not isinstance(subject, Typed):
            continue
        per_noted = texts[end - 1] in note.lower().split()
        if subject.whole and set(texts[first + 1 : at]) & _forms(name) and not per_noted:
            per = " ".join(texts[at:end])
            span = Span(words.source, tokens[at].start, tokens[end - 1].end)
            raise trouble(
                span, f"a number {per}, and {name} is declared as a count",
                f"So many {per} is a quantity with a unit.",
                f"declare what is meant as one of its own, in {unit.symbol}; or write the quotient left of"
                f" the colon: {name} / ... : {words.text}",
            )  # fmt: skip
        if unit.kind != subject.kind:
            continue
        counted, last = " ".join(texts[first + 1 : at]), tokens[end - 1]
        if not set(texts[first + 1 : at]) <= _forms(f"{name} {note}") | {"times"}:
            span = Span(words.source, tokens[first + 1].start, last.end)
            if texts[first + 1] == "times":
                thing = " ".join(texts[first + 2 : at]).removeprefix("the ").removeprefix("number of ")
                noted = f"{thing} {' '.join(texts[at:end])}"
                raise trouble(
                    span, f"no quantity is declared that is the number of {noted}", "",
                    f"write its name behind 'times', or note it so where it is declared, in {unit.symbol}:"
                    f' "{noted}"',
                )  # fmt: skip
            raise trouble(
                span, f"'{counted}' is not what {name} counts", "",
                f'name it in the note of its declaration: {name}  in {unit.symbol}  "{counted}"',
            )  # fmt: skip
        both = " ".join(t.text for t in tokens[first:end])
        one = replace(tokens[first], text=both, end=last.end, number=replace(number, unit=unit))
        tokens = (*tokens[:first], one, *tokens[end:])
        texts = [t.text.lower() for t in tokens]
    return tokens


def _spelled_out(token: Token) -> Token:
    """`two` as a number."""
    count = NUMBER_WORDS.get(token.text.lower())
    if token.number or not count:
        return token
    return replace(token, sort="number", number=Number(str(count), Fraction(count), 0, None))


def per_unit(texts: list[str], at: int) -> tuple[Unit | None, int]:
    """The unit that begins with 'per' at this place, and where it ends."""
    for end in range(min(at + 4, len(texts)), at + 1, -1):
        if unit := find_unit(" ".join(texts[at:end])):
            return unit, end
    return None, at


def _forms(text: str) -> set[str]:
    """The words of a text, each in the singular and the plural."""
    known = _LETTERS.findall(text.lower())
    return {form for w in known for form in (w, w + "s", w + "es", w.removesuffix("s"), w.removesuffix("es"))}


def placed_at(tokens: tuple[Token, ...]) -> int:
    """Where `of the rim` or `away from the edge` begins after the only number with a unit; 0 if nowhere."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    if len(numbers) != 1 or not (number := tokens[numbers[0]].number) or number.unit is None:
        return 0
    places = [i for i, t in enumerate(tokens) if i > numbers[0] and t.text.lower() in _PLACED]
    if not places or places[0] + 1 >= len(tokens) or any(t.sort != "word" for t in tokens[places[0] :]):
        return 0
    return places[0] - (tokens[places[0] - 1].text.lower() == "away")
