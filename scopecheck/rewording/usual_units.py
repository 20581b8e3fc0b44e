"""Units where people usually write them: at one number of two, behind an `or`, in parts, or not at all."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, Unit, as_turns, find_unit, number_text
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import CALENDAR, Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.subjects import is_bare_share
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Bound, Names, Typed


def basis_behind(tokens: tuple[Token, ...]) -> Unit | None:
    """The unit of `5 % or more by weight`, where what the share is by stands behind its limit."""
    texts = [t.text.lower() for t in tokens[:5]]
    if len(texts) < 5 or not is_bare_share(tokens[0]) or texts[1] != "or" or texts[3] != "by":
        return None
    compared = texts[2] in ("more", "less", "greater", "higher", "lower", "above", "below")
    of = BY_WHAT.get(texts[4])
    return find_unit(PERCENT[of]) if compared and of else None


def with_shares(tokens: tuple[Token, ...], subject: Bound, names: Names) -> tuple[Token, ...]:
    """`at least half`, of what is declared as a share in per cent, with 50 of its hundredths.

    Half of something else that is declared is a multiple of that.
    """
    unit = subject.unit if isinstance(subject, Typed) else None
    if unit is None or unit.kind.dimension or not unit.symbol or unit.factor != Fraction(1, 100):
        return tokens
    said = [t.text.lower() for t in tokens]
    if any(names.declared(" ".join(said[i:])) for i in range(1, len(said)) if said[i - 1] in ("of", "the")):
        return tokens
    return tuple(
        replace(t, number=replace(t.number, value=t.number.value * 100, unit=unit))
        if t.number and t.number.unit is None and "/" in t.number.text
        else t
        for t in with_fractions(tokens)
    )


def with_basis_called(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`a volume fraction of at least 45 percent`, of a share on some basis, with the basis at the number."""
    texts = [word_of(t) for t in tokens]
    kind = subject.kind if isinstance(subject, Typed) else None
    at = next((i for i, w in enumerate(texts[:-2]) if w in BY_WHAT and texts[i + 1] in _SHARES), -1)
    if at < 0 or kind is None or kind.dimension or kind.split[0] not in PERCENT:
        return tokens
    unit = find_unit(PERCENT[BY_WHAT[texts[at]]])
    numbers = [i for i, t in enumerate(tokens) if t.number]
    units = [t.number.unit for t in tokens if t.number]
    shares = {find_unit(percent) for percent in PERCENT.values()}
    of_shares = all(is_bare_share(t) or t.number.unit in (None, *shares) for t in tokens if t.number)
    # Without a sign it is a fraction; 'by volume' behind it is another basis.
    if not of_shares or not units or not units[-1] or texts[numbers[-1] + 1 : numbers[-1] + 2] == ["by"]:
        return tokens
    on_it = (
        replace(t, number=replace(t.number, unit=unit)) if t.number and t.number.unit else t
        for t in tokens[at + 1 :]
    )
    return (*tokens[:at], *on_it) if at < numbers[0] else tokens


_SHARES = frozenset("fraction fractions share proportion percentage".split())


def with_so_many(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`3 g to 4 g per 100 ml` with that unit at both numbers."""
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    whole = {u.symbol.partition("/")[0]: u for u in units if _SO_MANY.search(u.symbol)}
    return tuple(
        replace(t, number=replace(t.number, unit=whole[t.number.unit.symbol]))
        if t.number and t.number.unit and t.number.unit.symbol in whole
        else t
        for t in tokens
    )


_SO_MANY = regex(r"/10+ ")


def with_calendar_units(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least 9 and up to 18 months` with the months behind both, which are no unit of one length."""
    words = [word_of(t) for t in tokens]
    unit = words[-1] if words else ""
    numbers = [i for i, t in enumerate(tokens) if t.number or words[i] in NUMBER_WORDS]
    if unit not in ("months", "years") or len(numbers) != 2 or numbers[1] != len(tokens) - 2:
        return tokens
    first, number = numbers[0], tokens[numbers[0]].number
    joined = words[first + 1 : first + 2] in (["and"], ["but"], [","])
    bare = number is None or number.unit is None
    limited = words[first - 1 : first] in (["least"], ["than"], ["of"]) and words[:1] != ["between"]
    again = not {"most", "to", "than", "less"}.isdisjoint(words[first + 2 : -2])
    if not (joined and bare and limited and again):
        return tokens
    return (*tokens[: first + 1], *words_at(tokens[first], unit, True), *tokens[first + 1 :])


def with_unit_behind_or(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`0.4 g or more per 100 ml` as 0.4 g per 100 ml or more."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 3):
        if words[at + 1 : at + 2] != ["or"] or words[at + 2] not in _OR_SO or words[at + 3] != "per":
            continue
        number = tokens[at].number
        behind = tokens[at + 4 : at + 5]
        whole = behind[0].text if behind else ""
        unit = number and number.unit and find_unit(f"{number.unit.symbol}/{whole}")
        if number and unit:
            made = replace(tokens[at], number=replace(number, unit=unit))
            return (*tokens[:at], made, *tokens[at + 1 : at + 3], *tokens[at + 5 :])
    return tokens


_OR_SO = frozenset("more less greater higher lower above below over under".split())


def with_turns(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`300 1/min` of a rotational speed as so many turns a minute."""
    rpm = find_unit("rpm")
    if not isinstance(subject, Typed) or rpm is None or subject.kind != rpm.kind:
        return tokens
    return tuple(
        replace(t, number=replace(t.number, unit=as_turns(t.number.unit)))
        if t.number and t.number.unit
        else t
        for t in tokens
    )


def with_gauge(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`-0.4 bar relative to ambient`, `the gauge pressure exceeds 2 bar`, of such a pressure, with that."""
    texts = [t.text.lower() for t in tokens]
    own = any(run == name.lower().split() for run in _SAID_BEFORE)
    said_so = (
        i for i in range(len(texts) - 2) if texts[i : i + 2] in _SAID_BEFORE and (own or texts[i + 2] != "of")
    )
    told = next((texts[i] for i in said_so), "")
    tokens = (_on(tokens, subject, told) if told else ()) or tokens
    bases = {t.number.unit.kind.basis for t in tokens if t.number and t.number.unit} - {""}
    if len(bases) == 1 and len(tokens) > 2:  # '8 bar to 10 bar gauge'
        tokens = _on(tokens, subject, bases.pop()) or tokens
    said = next((n for n in (4, 3) if tuple(texts[-n:]) in _FROM_AMBIENT), 0)
    return _on(tokens[:-said], subject, "gauge") or tokens if said else tokens


def with_pressure_told(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`a gauge pressure of 30 psi`, of a pressure declared as that, with its unit."""
    texts = [t.text.lower() for t in tokens]
    at = next((i for i in range(min(4, len(texts) - 2)) if texts[i : i + 2] in _SAID_BEFORE), -1)
    if at < 0:
        return tokens
    rest = at + 2 + (texts[at + 2] == "of")
    return _on((*tokens[:at], *tokens[rest:]), subject, texts[at]) or tokens


def _on(tokens: tuple[Token, ...], subject: Bound, basis: str) -> tuple[Token, ...]:
    """Pressures without a basis as on that one, of what is declared on it; of other things nothing."""
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is None or kind.basis != basis:
        return ()
    found: list[Token] = []
    for token in tokens:
        unit = token.number.unit if token.number else None
        marked = find_unit(f"{unit.symbol}({basis[0]})") if unit and not unit.kind.basis else None
        number = replace(token.number, unit=marked) if token.number and marked else token.number
        found.append(replace(token, number=number))
    return tuple(found)


_SAID_BEFORE = (["gauge", "pressure"], ["absolute", "pressure"])
_FROM_AMBIENT = (
    ("relative", "to", "ambient"), ("relative", "to", "atmosphere"),
    ("relative", "to", "ambient", "pressure"),
    ("relative", "to", "atmospheric", "pressure"), ("above", "atmospheric", "pressure"),
)  # fmt: skip


def _of_a_clock(token: Token) -> Token:
    """`1:30 h`, of hours and their sixtieths."""
    number = token.number
    timed = number and number.unit and number.unit.kind.dimension == TIME
    if not number or not timed or not (said := _CLOCK.fullmatch(number.text)):
        return token
    value = int(said[1]) + Fraction(int(said[2]), 60)
    return replace(token, number=replace(number, text=number_text(value), value=value))


_CLOCK = regex(r"(\d+):([0-5]\d)")


def with_shares_of_a_value(
    tokens: tuple[Token, ...], subject: Bound, own_name: str, names: Names
) -> tuple[Token, ...]:
    """`80 to 100 % of a rated speed of 3000 rpm` as 2400 to 3000 rpm; not `within 10 % of 200 mm`."""
    kind = subject.kind if isinstance(subject, Typed) and not subject.whole else None
    texts = [t.text.lower() for t in tokens]
    for at in (i for i, t in enumerate(tokens[:-2]) if is_bare_share(t) and texts[i + 1] == "of"):
        end = next((i for i in range(at + 2, len(tokens)) if tokens[i].number), 0)
        value = tokens[end].number
        called = texts[at + 2 : end]
        plain = not called or (called[-1] == "of" and called[0] in ("a", "an", "the", "its"))
        own = value is not None and value.unit is not None and value.unit.kind == kind
        others = (name.lower() for name in names.all() if name.lower() != own_name.lower())
        declared = any(f" {name} " in f" {' '.join(called)} " for name in others)
        joined = (
            texts[at - 1 : at] in (["to"], ["-"], ["and"]) and at > 1 and tokens[at - 2].number is not None
        )
        alone = not joined and texts[at - 1 : at] in (["within"], ["±"], ["by"])
        limits = not (listed("limits", "inside") - _SAYS_WHICH).isdisjoint(called)
        if not (end and plain and own) or declared or alone or limits or value is None:
            continue
        last = replace(_share_of(tokens[at], tokens[at], tokens[end]), end=tokens[end].end)
        before = tokens[: at - 2] if joined else tokens[:at]
        first = (_share_of(tokens[at - 2], tokens[at], tokens[end]), tokens[at - 1]) if joined else ()
        return (*before, *first, last, *tokens[end + 1 :])
    return tokens


_SAYS_WHICH = frozenset("of a an the its nominal rated".split())


def _share_of(share: Token, percent: Token, whole: Token) -> Token:
    """The number that so many per cent of another number are; a share without its sign is in per cent too."""
    assert share.number is not None
    assert whole.number is not None
    assert percent.number is not None
    assert percent.number.unit is not None
    part = percent.number.unit.to_base(share.number.value) * whole.number.value
    text = number_text(part)
    decimals = len(text.partition(".")[2])
    number = replace(whole.number, text=text, value=part, decimals=decimals)
    return replace(whole, number=number, start=share.start, end=share.end)


def with_hours(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`1 h 30 min`, `1:30 h` as one number, the first in the finer of the two units."""
    found: list[Token] = []
    for token in map(_of_a_clock, tokens):
        before = found[-1].number if found else None
        coarse, fine = before.unit if before else None, token.number.unit if token.number else None
        if before is None or token.number is None or coarse is None or fine is None:
            found.append(token)
        elif coarse.kind == fine.kind and coarse.kind.dimension == TIME and coarse.factor > fine.factor:
            value = before.value * coarse.factor / fine.factor + token.number.value
            first = found.pop()
            number = replace(token.number, text=number_text(value), value=value)
            found.append(replace(token, text=f"{first.text} {token.text}", start=first.start, number=number))
        else:
            found.append(token)
    return tuple(found)


def with_years_noted(tokens: tuple[Token, ...], subject: Bound, note: str) -> tuple[Token, ...]:
    """`12 years of age or older`, of a number noted to be in years, as 12 or more."""
    plain = isinstance(subject, Typed) and (subject.kind is None or subject.kind == PLAIN_KIND)
    noted = CALENDAR.intersection(w.strip(",;()") for w in note.lower().split())
    forms = {w.removesuffix("s") for w in noted}
    if not plain or not forms:
        return tokens
    found = list[Token]()
    for at, token in enumerate(tokens):
        word = token.text.lower()
        before = [t.text.lower() for t in tokens[max(0, at - 2) : at]]
        behind = tokens[at + 1].text.lower() if at + 1 < len(tokens) else ""
        of_age = (word == "of" and behind == "age") or (word == "age" and before[-1:] == ["of"])
        so_many = bool(before) and (tokens[at - 1].number is not None or before[-1] in NUMBER_WORDS)
        counted = so_many and word.removesuffix("s") in forms
        if counted or (of_age and any(t.removesuffix("s") in forms for t in before)):
            continue
        said = _AGES.get(word) if behind == "than" or before[-1:] == ["or"] else None
        found.append(replace(token, text=said) if said else token)
    return tuple(found)


_AGES = {"older": "more", "younger": "less"}
