"""How claims put the limits of a ratio, in the words that the phrases have."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, product

from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Number, Token
from scopecheck.vocabulary.names import Bound, Typed

_INSTEAD: dict[tuple[str, ...], tuple[str, ...]] = {
    **{
        (no, more, "than"): ("not", "more", "than")
        for no in ("no", "not")
        for more in ("greater", "larger", "higher")
    },
    **{(no, less, "than"): ("not", "less", "than") for no in ("no", "not") for less in ("smaller", "lower")},
    **dict.fromkeys((("does", "not", "exceed"), ("not", "to", "exceed")), ("not", "exceeding")),
    ("exceeds",): ("exceeding",),
    ("lies", "in"): ("in",),
    ("lies", "between"): ("between",),
    ("in", "a", "range"): ("in", "the", "range"),
    ("in", "the", "range", "of", "from"): ("in", "the", "range", "from"),
    ("in", "the", "range", "of", "between"): ("between",),
    ("in", "the", "range", "between"): ("between",),
    ("ranges", "from"): ("ranging", "from"),
}
_LEAST, _MOST = (
    tuple(tuple(run.split()) for run in runs)
    for runs in (
        ("at least", "not less than", "no less than", "greater than or equal to", "more than or equal to"),
        ("at most", "not more than", "no more than", "not exceeding", "less than or equal to"),
    )
)
_MORE = (*_LEAST, ("more", "than"), ("greater", "than"), ("above",), ("over",), ("exceeding",))
_LESS = (*_MOST, ("less", "than"), ("below",), ("under",))


def with_plain_limits(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Limits of a ratio in the words of the phrases: `is no greater than`, `at least 2 and at most 3`."""
    if all(t.text.lower() != "ratio" for t in tokens):
        return tokens
    for run, instead in _INSTEAD.items():
        texts = tuple(t.text.lower() for t in tokens)
        at = next((i for i in range(len(texts)) if texts[i : i + len(run)] == run), -1)
        if at >= 0:
            end = tokens[at + len(run) - 1].end
            said = (replace(tokens[at], sort="word", text=w, end=end) for w in instead)
            tokens = (*tokens[:at], *said, *tokens[at + len(run) :])
    return _as_a_range(_lower_first(tokens))


def _lower_first(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at most 3 and at least 2` as `at least 2 and at most 3`, of numbers in that order alone."""
    texts = tuple(t.text.lower() for t in tokens)
    for less, more in product(_LESS, _MORE):
        last = len(texts) - 1
        start = last - len(more)
        first = start - 2 - len(less)
        if first < 0 or texts[first : start - 2] != less or texts[start:last] != more:
            continue
        upper, lower = tokens[start - 2].number, tokens[last].number
        apart = texts[first - 1 : first] != ("not",) and texts[start - 1] in ("and", "but")
        if apart and upper and lower and upper.value > lower.value:
            return (*tokens[:first], *tokens[start:], tokens[start - 1], *tokens[first : start - 1])
    return tokens


def _as_a_range(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least 2 and at most 3` as `from 2 to 3`."""
    texts = tuple(t.text.lower() for t in tokens)
    for least, most in product(_LEAST, _MOST):
        first = len(least)
        for at in range(len(texts) - first - len(most) - 2):
            low, joiner = tokens[at + first], texts[at + first + 1]
            last = at + first + 2 + len(most)
            said = texts[at : at + first] == least and texts[last - len(most) : last] == most
            if said and joiner in ("and", "but") and low.number and tokens[last].number:
                words = [replace(tokens[at], sort="word", text=w, number=None) for w in ("from", "to")]
                return (*tokens[:at], words[0], low, words[1], *tokens[last:])
    return tokens


def with_shared_one(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`a ratio of 0.95 to 1.05 : 1`, `of 1-2:1`, as of 0.95:1 to 1.05:1; `of 1:1-2` as of 1:1 to 1:2."""
    texts = [t.text.lower() for t in tokens]
    if "ratio" not in texts and "proportion" not in texts:
        return tokens
    for at in range(1, len(tokens) - 2):
        if texts[at + 1] not in ("to", "-", "–") or not (tokens[at].number and tokens[at + 2].number):
            continue
        apart = texts[at + 3 : at + 5] == [":", "1"]
        end = at + 3 + 2 * apart
        one, two = texts[at], f"{texts[at + 2]}:1" if apart else texts[at + 2]
        if ":" in texts[end : end + 1] or not (_is_decimal(one) or _is_decimal(two)):
            continue
        if _is_decimal(one) and two.endswith(":1") and _is_decimal(two[:-2]):
            one = f"{one}:1"
        elif one.startswith("1:") and _is_decimal(one[2:]) and _is_decimal(two) and texts[at + 1] != "to":
            two = f"1:{two}"
        else:
            continue
        made = [
            replace(tokens[at], text=one, number=_ratio(one)),
            replace(tokens[at + 1], sort="word", text="to"),
        ]
        last = replace(tokens[at + 2], text=two, number=_ratio(two), end=tokens[end - 1].end)
        return (*tokens[:at], *made, last, *tokens[end:])
    return tokens


def _ratio(text: str) -> Number:
    a, b = text.split(":")
    return Number(text, Fraction(a) / Fraction(b), 0, None)


def in_proportion(tokens: tuple[Token, ...], names: tuple[str, ...]) -> list[tuple[Token, ...]]:
    """`in a ratio of 3:5:2`, of three things, as the words for each two neighbours: `in a ratio of 3:5`,
    `in a ratio of 5:2`; nothing for other words."""
    at = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    end, numbers = at, list[str]()
    while end < len(tokens) and (tokens[end].number or tokens[end].text == ":"):
        numbers += tokens[end].text.split(":") if tokens[end].number else ()
        end += 1
    behind = any(t.number for t in tokens[end:])
    if len(numbers) < 3 or len(numbers) != len(names) or behind or not all(map(_is_decimal, numbers)):
        return []
    lead, first = _without_names(_without_list(tokens[:at], names), names), tokens[at]
    places = _places(tokens[at:end])
    if lead and lead[-1].text.lower() == "ratio":
        lead = (*lead, replace(first, sort="word", text="of", number=None, end=first.start))
    made = list[tuple[Token, ...]]()
    for (a, b), (one, other) in zip(pairwise(numbers), pairwise(places), strict=True):
        if Fraction(b):
            number = Number(f"{a}:{b}", Fraction(a) / Fraction(b), 0, None)
            pair = replace(first, text=number.text, number=number, start=one[0], end=other[1])
            made.append((*lead, pair, *tokens[end:]))
    return made if len(made) == len(names) - 1 else []


def _places(tokens: tuple[Token, ...]) -> list[tuple[int, int]]:
    """Where each number of a row begins and ends: `3`, `5` and `2` of `3:5:2`."""
    found: list[tuple[int, int]] = []
    for token in (t for t in tokens if t.number):
        at = token.start
        for part in token.text.split(":"):
            found.append((at, at + len(part)))
            at += len(part) + 1
    return found


def _is_decimal(text: str) -> bool:
    return text.replace(".", "", 1).isdecimal()


def _without_names(lead: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """`a ratio of wax to oil to gum is` without what it is of, where that are the things in their order."""
    said, texts = " to ".join(names).lower().split(), [t.text.lower() for t in lead]
    for at in range(1, len(texts)):
        if texts[at - 1] in ("of", "between") and texts[at : at + len(said)] == said:
            return (*lead[: at - 1], *lead[at + len(said) :])
    return lead


def _without_list(lead: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """`gap, rim and cap are in a ratio of` without the things in their order, and what joins them to it."""
    said = [t.text.lower() for t in lead]
    rest = [(i, w) for i, w in enumerate(said) if w not in (",", "and", "the", "a", "an")]
    own = " ".join(names).lower().split()
    if [w for _, w in rest[: len(own)]] != own or len(rest) == len(own) or "ratio" not in said:
        return lead
    at = rest[len(own)][0]
    at += said[at] in ("are", "have", "having", "being", "present", "is")
    behind = lead[at:] if said[at] in ("in", "present") else (replace(lead[at], text="in"), *lead[at:])
    return behind[said[at] == "present" :]


def without_ratio(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`in a molar ratio of 0.1 to 5 %`, of what is declared as a plain ratio, without those words."""
    if not isinstance(subject, Typed) or subject.kind != PLAIN_KIND or subject.whole:
        return tokens
    texts = [t.text.lower() for t in tokens]
    at = texts.index("ratio") if "ratio" in texts[:4] else -1
    leading = {"in", "at", "a", "the", "an", "molar", "mole", "weight", "mass", "volume", "is", "being"}
    number = at >= 0 and texts[at + 1 : at + 2] == ["of"] and any(t.number for t in tokens[at + 2 : at + 5])
    named = any(t in ("to", "and", "over") for t in texts[at + 1 : at + 2])
    return tokens[at + 2 :] if number and not named and leading.issuperset(texts[:at]) else tokens
