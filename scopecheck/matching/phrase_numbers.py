"""Numbers in the slots of a phrase: in which unit and kind they are read, and how they are shown."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

from scopecheck.exact.fitting import bare_number, literal
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.kinds import KindError, comparable, quotient_kind
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    Kind,
    Unit,
    as_difference,
    as_level,
    counted_from,
)
from scopecheck.foundations.quantity import number_text as plain_number
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import Page
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token, scan
from scopecheck.matching.chart import Fill, word_of
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.spelled import spelled
from scopecheck.matching.subjects import is_bare_share
from scopecheck.vocabulary.names import Typed
from scopecheck.vocabulary.patterns import Slot

_TEMPERATURE = (("temperature", 1),)


def number_text(job: Job, fill: Fill, value: Typed) -> str:
    """What fills a number slot as it is shown: in the words' own spelling where that says what was read.

    Else the number that was read, with its unit; of what a name stands for, the name.
    """
    if named := job.declared(fill.tokens):
        return named.name
    if made := job.worked_out(fill.tokens):
        return made.symbols
    text = _spelling(job, fill)
    return text if value.number is None or _says(text, value) else _as_read(value)


def _says(text: str, value: Typed) -> bool:
    """Does this spelling, by itself, say the number in the unit it was read in?"""
    number, unit = value.number, value.unit or PLAIN
    assert number is not None
    if text.lower() in NUMBER_WORDS:
        return number.value == NUMBER_WORDS[text.lower()] and not unit.symbol
    tokens: tuple[Token, ...] = ()
    with suppress(Trouble):  # spellings of units that no scanner knows
        tokens = scan(Page(Source("", text)), 0, len(text), {})
    own = tokens[0].number if len(tokens) == 1 else None
    if own is None:
        return False
    if own.unit is None:
        return own.value == number.value and (not unit.symbol or own.value == 0)
    alike = own.unit.kind.dimension == unit.kind.dimension
    return alike and own.unit.factor * own.value == unit.factor * number.value


def _as_read(value: Typed) -> str:
    number, unit = value.number, value.unit or PLAIN
    assert number is not None
    try:
        as_written = Fraction(number.text.replace(",", "")) == number.value
    except ValueError:
        as_written = ":" in number.text
    text = number.text if as_written else plain_number(number.value)
    return f"{text} {unit.symbol}".strip()


def _spelling(job: Job, fill: Fill) -> str:
    """The number as the words spell it, with the unit it takes from another one where the slot asks."""
    if any(t.start == t.end for t in fill.tokens):
        return " ".join(t.text for t in fill.tokens)  # said in other words: the greater of A and B
    first, number = fill.tokens[0], fill.tokens[0].number
    alone = number is not None and first.text.lstrip("+-−") == number.text
    if number is None and len(fill.tokens) == 1 and first.text in NUMBER_WORDS:
        written = job.text(fill.tokens)
        return written if written.lower() in NUMBER_WORDS else first.text  # the 'a' of 'a pair' is two
    if number is None or number.unit is None or not (first.start in job.bare or alone):
        return job.text(fill.tokens)
    if _stands_alone(job, fill.slot, first):
        return number.text
    return f"{number.text} {number.unit.symbol}"


def _stands_alone(job: Job, slot: Slot, token: Token) -> bool:
    """Has a number no unit, whatever the next one has? A ratio of 2 to 5 % is one of 2 % to 5 %.

    So is one of 2 to 5 g/mL one of 2 g/mL to 5 g/mL, of a mass to a volume.
    """
    if slot.kind not in ("whole", "plain", "ratio") or token.start not in job.bare:
        return False
    shared = slot.kind != "whole" and _of_the_quotient(job, token)
    return not (shared or (slot.kind == "ratio" and is_bare_share(token)))


_JOINERS = frozenset("to and but - –".split())
_BETWEEN_ENDS = frozenset(
    "to and but - – about approximately around roughly at least most no not more less greater than up below"
    " above under over".split()
)


def _of_the_quotient(job: Job, token: Token) -> bool:
    """`0.05` of `a ratio of 0.05 to 0.2 g/mL`: has it the unit of the next, as the quotient has?"""
    unit = token.number.unit if token.number else None
    kinds = [s.bound.kind or PLAIN_KIND for s in job.subjects if isinstance(s.bound, Typed)]
    behind = [t for t in job.words.tokens if t.start > token.start]
    nearest = next((t for t in behind if word_of(t) not in _BETWEEN_ENDS), None)
    if unit is None or unit.kind == PLAIN_KIND or not len(kinds) == len(job.subjects) <= 2:
        return False
    if nearest is None or nearest is behind[0] or not nearest.number or nearest.start in job.bare:
        return False
    if _JOINERS.isdisjoint(word_of(t) for t in behind if t.start < nearest.start):
        return False  # 'by a factor of 10 less than 10 mm' are no two ends
    ways = ((0, 1), (1, 0)) if len(kinds) == 2 else ((0, 0),)
    for a, b in ways:
        with suppress(KindError):
            comparable(unit.kind, kinds[a] if a == b else quotient_kind(kinds[a], kinds[b]))
            return True
    return False


def number(job: Job, slot: Slot, tokens: tuple[Token, ...], of_subject: bool) -> Typed:
    """What fills a number slot, in the kind of the subject where its spelling leaves that open."""
    if named := job.declared(tokens):
        job.place.names.speak(named.name)
        return job.place.names.value(named)
    if made := job.worked_out(tokens):
        for part in made.made_of:
            job.place.names.speak(part.name)
        return made.value
    token = tokens[0]
    number = token.number or spelled(token)
    if _stands_alone(job, slot, token):
        number = replace(number, unit=None)
    spans = slot.kind == "difference"
    subject = job.first if isinstance(job.first, Typed) and (of_subject or spans) else None
    unit = _subject_unit(slot, number, subject)
    if slot.kind == "whole" and (number.value.denominator != 1 or unit):
        raise trouble(
            job.span(tokens), f"'{job.text(tokens)}' is no whole number",
            "How many of them there are is one.",
            "write a share of them, such as: at least 40 % of them; or the meaning in symbols",
        )  # fmt: skip
    limits = slot.kind in ("number", "difference") and ":" not in number.text
    if unit is None and subject and of_subject and limits:
        own = subject.unit
        if own and own.symbol and not (number.value == 0 and own.offset == 0):
            raise bare_number(job.span(tokens), number, own)
        unit = own
    return replace(literal(number, unit), lifted=not job.loose)


def _subject_unit(slot: Slot, number: Number, subject: Typed | None) -> Unit | None:
    """The unit of a number in words: K or degC as level or span, as the subject and the slot ask.

    So with what else is counted from somewhere: `± 1 dBm` about so many dBm are 1 dB.
    """
    unit = number.unit
    if unit is None or subject is None or subject.kind is None:
        return unit
    if slot.kind == "difference" and unit.kind == subject.kind and counted_from(unit.kind):
        return as_difference(unit)
    if unit.kind.dimension != _TEMPERATURE:
        return unit
    if slot.kind == "difference":
        return as_difference(unit)
    if subject.kind == Kind(_TEMPERATURE):
        return as_difference(unit)
    return as_level(unit) if unit.symbol == "K" and subject.kind.point else unit
