"""Words beside a limit that say what a share is a share of, or under what condition a value is measured.

The declaration says both: words that agree with it are left aside, others are told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from scopecheck.core.declared import NumberDecl
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.kinds import LENGTH, TIME, WHOLE_OF, Kind
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit, kind_word
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.subjects import is_bare_share
from scopecheck.vocabulary.names import Typed


@record
class Aside:
    """Words beside a limit: the limit without them, the words, and what is said where they do not agree.

    `wrong` is '' where they agree with the declaration; `help` then says nothing.
    """

    rest: tuple[Token, ...]
    words: tuple[Token, ...]
    wrong: str = ""
    help: str = ""
    unstated: bool = False
    """Whether it is a condition of measuring, and the declaration states no other one of its kind."""


def asides(
    tokens: tuple[Token, ...], first: Typed, declared: NumberDecl | None, name: str, own: frozenset[str]
) -> Iterator[Aside]:
    """The ways to leave aside a basis or a condition of measuring, for what is called `name`."""
    if first.kind is None:
        return
    if declared and declared.note:
        noted = _noted(tokens, declared.note.lower(), own)
        yield from (a for a in noted if word_of(a.words[0]) != "per" or _is_of_kind(a.rest, first.kind))
    if not first.kind.dimension:
        yield from _bases(tokens, first, name, declared.note if declared else "")
    if first.kind.dimension or first.kind == PLAIN_KIND:
        yield from _conditions(tokens, first, declared, name, own)


def _noted(tokens: tuple[Token, ...], note: str, own: frozenset[str]) -> Iterator[Aside]:
    """Words that the note of the declaration has as they stand: how, where, in which state, or of what.

    They stand behind the limit, or before it behind words of its name: 'the diameter of the rim is 7 mm'.
    """
    numbers = [i for i, t in enumerate(tokens) if t.number]
    for at in range(numbers[0] + 1 if numbers else len(tokens), len(tokens) - 1):
        start = at + (tokens[at].text == ",")
        if _has(note, tokens[start:]):
            yield Aside(tokens[:at], tokens[at:])
    named = next((i for i, t in enumerate(tokens) if word_of(t) not in own | {"the", "a", "an"}), 0)
    if numbers:
        for end in range(numbers[0], named + 1, -1):
            if _has(note, tokens[named:end]):
                yield Aside(tokens[end:], tokens[:end])


def _is_of_kind(tokens: tuple[Token, ...], kind: Kind) -> bool:
    """Whether no number is in other units: of what is in mg/g, 'per gram' behind mg is no aside."""
    return all(t.number is None or t.number.unit is None or t.number.unit.kind == kind for t in tokens)


def _has(note: str, tokens: tuple[Token, ...]) -> bool:
    said = " ".join(t.text.lower() for t in tokens)
    return re.search(rf"(?<!\w){re.escape(said)}(?!\w)", note) is not None


def _bases(tokens: tuple[Token, ...], first: Typed, name: str, note: str) -> Iterator[Aside]:
    """'..., based on the total weight of the glaze', '% by weight of the glaze', at the end of the words.

    Words that the note of the declaration has need no further sorting.
    """
    numbers = [i for i, t in enumerate(tokens) if t.number]
    numbers = numbers[: len(numbers) - (numbers != [] and _all_of(tokens[numbers[-1] : numbers[-1] + 2]))]
    said = [word_of(t) for t in tokens]
    for at in range(numbers[-1] + 1 if numbers else len(tokens), len(tokens)):
        start = at + (tokens[at].text == ",")
        length = run_at(said, start, "asides", "before_wholes")
        length += 2 * (length > 0 and _all_of(tokens[start + length : start + length + 2]))
        if length and tokens[start + length :] and " ".join(said[start:]) in note.lower():
            yield Aside(tokens[:at], tokens[at:])
        elif length and tokens[start + length :]:
            of = said[start : start + length] == ["of"]
            found = _basis(tokens[:at], tokens[at:], tokens[start + length :], first, name, of)
            yield from () if found is None else (found,)


def _all_of(tokens: tuple[Token, ...]) -> bool:
    """`100 wt% of` the whole that shares are based on."""
    number = tokens[0].number if len(tokens) == 2 else None
    return number is not None and number.value == 100 and _is_share(tokens[0]) and word_of(tokens[1]) == "of"


def _basis(
    rest: tuple[Token, ...], words: tuple[Token, ...], whole: tuple[Token, ...], first: Typed, name: str,
    of: bool,
) -> Aside | None:  # fmt: skip
    """The words as a basis; None where they are none: 'of cane sugar' may name what is measured."""
    if first.kind is None or any(t.sort != "word" for t in whole):
        return None
    if not (_LIMITING | _VERBS).isdisjoint(map(word_of, whole)):
        return (
            None  # '60 % of the volume or more' is no share of 'the volume or more', nor 'is lost per year'
        )
    every = listed("asides", "every")
    said = [w for w in map(word_of, whole) if w not in every]
    total = any(word_of(t) in ("total", "whole") for t in whole)
    by = _counted_by(said[0]) if said else None
    measure = said[0] if by is not None else ""
    noun = " ".join(w for w in (said[1:] if measure else said) if w not in ("of", *every))
    basis, declared = first.kind.split
    if of and not measure and not (total and not noun) and not _same(noun, declared):
        generic = noun in listed("asides", "made") and any(t.number and not is_bare_share(t) for t in rest)
        if not generic:
            return None
    if not any(_is_share(t) for t in rest):
        return None
    if basis and measure and by != basis:
        wrong = f"the words count by {measure}, and {name} is declared as a {first.kind.name}"
        return Aside(rest, words, wrong, f"declare {name} as a share by {measure}, or as a share in %")
    if declared and noun and not _same(noun, declared):
        noun = noun.removeprefix("sum ")
        wrong = f"the words count on '{noun}', and {name} is declared as a share of {declared}"
        help = f"declare it of {noun}; or, if {noun} and {declared} are one thing, lift only the words before"
        return Aside(rest, words, wrong, f"{help} and mark the others: not restated : ...")
    unit = find_unit(PERCENT[basis]) if measure and basis in WHOLE_OF else None
    if unit:
        rest = tuple(
            replace(t, number=replace(t.number, unit=unit)) if t.number and is_bare_share(t) else t
            for t in rest
        )
    return Aside(rest, words)


_LIMITING = frozenset(
    "or and more less most least unless except average mean each every if when between without only not"
    " either".split()
)


_VERBS = frozenset(
    "is are be being was were has have remains remain lost retained removed left kept gets per".split()
)


def _counted_by(word: str) -> str | None:
    """The kind of share that is counted by this, '' for a share of another kind; None for other words."""
    for kind, name in (("by mass", "by_mass"), ("by volume", "by_volume"), ("by mole", "by_mole")):
        if word in listed("asides", name):
            return kind
    return "" if word in listed("asides", "by_another") else None


def _is_share(token: Token) -> bool:
    unit = token.number.unit if token.number else None
    return unit is not None and not unit.kind.dimension and (is_bare_share(token) or unit.kind != PLAIN_KIND)


def _same(noun: str, declared: str) -> bool:
    """Is it the declared whole, perhaps called a composition or the like: 'glaze', 'glaze composition'?"""
    words, known = noun.lower().split(), declared.lower().split()
    words = words[words[:1] == ["dry"] and known == ["solids"] :]  # that solids are dry is their name
    begins = bool(known) and words[: len(known)] == known
    return begins and set(words[len(known) :]) <= listed("asides", "made")


# ---- what is measured, before the limit


def measures(
    tokens: tuple[Token, ...], first: Typed, declared: NumberDecl | None, name: str
) -> Iterator[Aside]:
    """'at a temperature of at least ...', 'for a period of ...', 'an oil content of ...', longest first."""
    numbers = [i for i, t in enumerate(tokens) if t.number or word_of(t) in NUMBER_WORDS]
    own = set(f"{name} {declared.note if declared else ''}".lower().split())
    words = [word_of(t) for t in tokens[: numbers[0] if numbers else 0]]
    kind = first.kind or PLAIN_KIND
    timed = kind.dimension == TIME and words[:1] in (["for"], ["during"], ["after"])
    said = int(timed and words[0] == "after")
    bare = first.unit is not None and first.unit.symbol == "%"
    moved = not own.isdisjoint(listed("measures", "dimensions"))  # a blade that is spaced is not so wide
    while said < len(words) and (_leads(words[said], own, kind) or _is_measure(words[said], kind, bare)):
        if moved and words[said] in _MOVED:
            break
        if words[said] == "set" and words[said + 1 : said + 2] not in (["to"], ["at"]):
            break  # 'a set temperature' is that of the control
        said += 1
    width = run_at([word_of(t) for t in tokens], 0, "asides", "before_limits")
    if width and not (moved and word_of(tokens[0]) in _MOVED):
        yield Aside(tokens[width:], tokens[:width])
    for end in range(said, 0, -1):
        if words[end - 1] in ("over", "under"):
            continue  # beside the number it is 'more than', or along what
        if timed or any(_is_measure(w, kind, bare) for w in words[:end]):
            yield Aside(tokens[end:], tokens[:end])
    last = word_of(tokens[-1])
    apart = (last, kind.dimension) in (("apart", LENGTH), ("later", TIME))
    if numbers and (apart or word_lists()["adjectives"].get(last) in own):
        yield Aside(tokens[:-1], tokens[-1:])


_MOVED = ("offset", "shifted", "spaced", "separated", "apart")


def _leads(word: str, own: set[str], kind: Kind) -> bool:
    return word in listed("asides", "leading") or word in own or _is_measure(word, kind)


_VOLUME = (("length", 3),)
"""What a vessel holds."""


def _is_measure(word: str, kind: Kind, in_per_cent: bool = False) -> bool:
    """Whether the word is what a quantity of the kind is called, besides its own name."""
    if in_per_cent and word in listed("asides", "of_shares"):
        return True
    if word in listed("asides", "of_shares") | listed("asides", "holding"):
        per = any(power < 0 for _, power in kind.dimension)  # so much in so much of another
        return (not kind.dimension and kind != PLAIN_KIND) or (kind.adds_up and bool(kind.dimension)) or per
    if word in listed("parts", "holding"):
        return kind.dimension == _VOLUME
    if word in listed("asides", "of_times"):
        return kind.dimension == TIME
    if word in listed("asides", "of_lengths"):
        return kind.dimension == LENGTH
    if word in listed("asides", "of_rates"):
        return any(name == "time" and power < 0 for name, power in kind.dimension)
    known = kind_word(word)
    return known is not None and bool(kind.dimension) and known.accepts(kind)


# ---- conditions of measuring

_NOTED = regex(r"(-?\d+(?:\.\d+)?)\s*(\S+)")


def _conditions(
    tokens: tuple[Token, ...], first: Typed, declared: NumberDecl | None, name: str, own: frozenset[str]
) -> Iterator[Aside]:
    """'viscosity at 25 degC of at most ...', '..., measured at 23 degC': before the limit or behind it."""
    measured = listed("asides", "measured")
    for index, token in enumerate(tokens):
        unit = token.number.unit if token.number else None
        if unit is None or first.kind is None or not unit.kind.dimension:
            continue
        if unit.kind.dimension == first.kind.dimension:
            continue
        start = index
        while start and (word_of(tokens[start - 1]) in measured or _says_which(tokens, start - 1)):
            start -= 1
        if "at" not in map(word_of, tokens[start:index]):
            continue
        start -= start > 0 and tokens[start - 1].text == ","
        end = index + 1 + (index + 1 < len(tokens) and tokens[index + 1].text == ",")
        before, after = tokens[:start], tokens[end:]
        said = map(word_of, before)
        if after and all(w in FILLERS or w in own or _is_measure(w, first.kind) for w in said):
            yield _condition(after, tokens[start:end], token, declared, name)
        elif before and not after:
            yield _condition(before, tokens[start:end], token, declared, name)


def _says_which(tokens: tuple[Token, ...], at: int) -> bool:
    """`at an inlet pressure of`: an article or a word before what a condition of measuring is measured by."""
    measured = listed("asides", "measured")
    if word_of(tokens[at]) in ("a", "an", "the"):
        return at > 0 and word_of(tokens[at - 1]) in ("at", "under")
    plain = tokens[at].sort == "word" and word_of(tokens[at]) in _WHICH
    return plain and word_of(tokens[at + 1]) in measured - {"as", "at", "of", "when", "a"}


_WHICH = listed("asides", "which_of_such")


def _condition(
    rest: tuple[Token, ...], words: tuple[Token, ...], at: Token, declared: NumberDecl | None, name: str
) -> Aside:
    assert at.number is not None
    assert at.number.unit is not None
    said = [
        (digits, find_unit(unit.strip(".,;)\"'")))
        for digits, unit in (m.groups() for m in _NOTED.finditer(declared.note if declared else ""))
    ]
    if any(unit == at.number.unit and _value(digits) == _value(at.number.text) for digits, unit in said):
        return Aside(rest, words)
    wrong = f"{name} is declared without the condition of measuring that the words state"
    help = f'write it into the note of its declaration: {name}  ...  "at {at.text}"'
    unstated = all(unit is None or unit.kind.dimension != at.number.unit.kind.dimension for _, unit in said)
    return Aside(rest, words, wrong, help, unstated)


def _value(text: str) -> str:
    """The digits of a number without the zeros that add nothing."""
    found = re.fullmatch(r"(-?\d+)(?:\.(\d*?)0*)?", text)
    return text if found is None else f"{found[1]}.{found[2]}" if found[2] else found[1]
