"""How, where, when and on which occasion something is measured, which is no part of its limit."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.names_and_notes import ARTICLES, Tokens
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import is_bare_share
from scopecheck.vocabulary.names import Typed, counted_unit


def without_reference(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at 30 to 60 degrees relative to the axis` of an angle, without what it is measured from; and that."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    if len(job.subjects) != 1 or kind is None or kind.dimension != _ANGLE:
        return
    said = [word_of(t) for t in tokens]
    limits = [i for i, t in enumerate(tokens) if t.number or said[i] in _DIRECTIONS]
    start = limits[-1] + 1 if limits else len(tokens)
    names = {word for name in job.place.names.all() for word in name.lower().split()} - _DETERMINERS
    for at in range(start, len(tokens) - 1) if names.isdisjoint(said[start:]) else ():
        width = run_at(said, at, "asides", "measured_from")
        behind = tokens[at + width :]
        if width and behind and word_of(behind[0]) in _DETERMINERS and all(map(_is_plain, behind)):
            yield tokens[:at], tokens[at:]


def _is_plain(token: Token) -> bool:
    word = word_of(token)
    never = listed("nouns", "stops") | listed("limits", "inside")
    return token.sort == "word" and word not in NUMBER_WORDS and (word in _DETERMINERS or word not in never)


_DIRECTIONS = ("perpendicular", "parallel", "orthogonal", "angle", "angles")
_DETERMINERS = frozenset("the a an said its of".split())
_ANGLE = (("angle", 1),)


def without_circumstance(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at most 2 mm, as measured according to ISO 4287`, `at most 2 mm at the rim` without how or where it is
    measured; and these words. They hold no limit, no number but that of a standard and no other name.

    `Measured at 190 °C under a load of 2.16 kg` holds numbers of what nothing declared is measured in.
    """
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    said = [word_of(t) for t in tokens]
    counted_in = counted_unit(job.place.names.note_of(job.subjects[0].text))
    if job.first.whole and not counted_in:
        return
    timed = job.first.kind is not None and job.first.kind.dimension == TIME
    own_words = job.tests().own_words
    own = _CONDITIONS_OF.get(job.first.kind.dimension) if job.first.kind is not None else None
    names = {word for name in job.place.names.all() for word in name.lower().split()} - FILLERS
    names -= set(job.subjects[0].text.lower().split())
    for at in range(len(tokens) - 1):
        usual = 0 if not at else run_at(said, at, "asides", "usual_conditions")
        if usual and (own is None or said[at + usual - 1] not in (own, "conditions")):
            yield (*tokens[:at], *tokens[at + usual :]), tokens[at : at + usual]
        width = run_at(said, at, "asides", "measured_how") or (
            at > 0
            and said[at] == "at"
            and tokens[number := at + 1 + (said[at + 1] in _ABOUT and at + 2 < len(tokens))].number
            is not None
            and _is_of_a_condition(job, tokens, number)
        )
        placed = 0 if timed or not at else run_at(said, at, "asides", "measured_where")
        placed = int(at > 0 and said[at] == "after") if counted_in else placed
        end = _end_of_aside(said, at, behind_name=placed > 0 and said[at - 1] in own_words)
        behind = range(at + (width or placed), end)
        if (
            not (width or placed)
            or not behind
            or (not at and end == len(said))
            or not names.isdisjoint(said[i] for i in behind)
        ):
            continue
        along = said[at] in ("along", "over", "across", "throughout")
        if behind.stop < len(said) and said[behind.stop] == "of" and said[at - 1] in own_words:
            if said[at] in _IN_TIME:
                continue  # 'the width before the reduction of 3 mm'
            along = False
        if all(
            _is_no_limit(tokens, i, along)
            or (width and (_is_of_a_condition(job, tokens, i) or said[i] in _ABOUT))
            for i in behind
        ):
            start = max(at - (said[at - 1] in (",", "(")), 0)
            yield (*tokens[:start], *tokens[end + (said[end : end + 1] in ([","], [")"])) :]), tokens[at:end]
    at = next((i for i, w in enumerate(said) if w == "("), 0)
    inside = range(at + 1, _end_of_aside(said, at + 1) if at else 0)
    if inside and all(_is_of_a_condition(job, tokens, i) or said[i] in (",", ";", "/") for i in inside):
        yield (*tokens[:at], *tokens[inside.stop + 1 :]), tokens[at : inside.stop + 1]


_IN_TIME = ("before", "after", "during", "prior", "following")
_ABOUT = ("about", "approximately", "around", "roughly")
_CONDITIONS_OF = {
    (("temperature", 1),): "temperature",
    (("length", -1), ("mass", 1), ("time", -2)): "pressure",
}
"""Of a temperature no other is a condition of measuring, nor of a pressure."""


def _end_of_aside(said: list[str], at: int, behind_name: bool = False) -> int:
    """Where what is said from here on ends: at the bracket it stands in, at the comma before the limit; right
    behind the name of what is limited, before the limit."""
    if at and said[at - 1] == "(":
        return said.index(")", at) if ")" in said[at:] else len(said)
    limits = ("of", "is", "being", "in")
    if behind_name:
        return next((i for i in range(len(said) - 2, at, -1) if said[i] in limits[:3]), len(said))
    if at and said[at - 1] != ",":
        return len(said)
    return next((i for i in range(at, len(said) - 1) if said[i] == "," and said[i + 1] in limits), len(said))


def _is_of_a_condition(job: Job, tokens: Tokens, at: int) -> bool:
    """In `at 190 °C under a load of 2.16 kg`: a number of what nothing declared is measured in, or what leads
    to it. So is a humidity, of what is no share."""
    word, then = word_of(tokens[at]), tokens[at + 1 : at + 2]
    if word in listed("asides", "of_conditions"):
        return True
    if word in ("under", "with"):
        return bool(then) and word_of(then[0]) in ARTICLES
    number, kind = tokens[at].number, job.first.kind if isinstance(job.first, Typed) else None
    if number is None or number.unit is None or kind is None:
        return False
    if is_bare_share(tokens[at]):
        return bool(kind.dimension and then) and word_of(then[0]) in ("relative", "humidity", "rh")
    declared = {d.kind.dimension for d in job.place.names.declarations.values() if isinstance(d, NumberDecl)}
    return number.unit.kind.dimension not in declared | {kind.dimension, ()}


def without_condition(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at most 5 Pa.s at 20 degC` without the condition of measuring, where no quantity of its kind is known
    that it could be about; and the condition."""
    declared = [d.kind.dimension for d in job.place.names.declarations.values() if isinstance(d, NumberDecl)]
    for aside in job.asides_found(tokens):
        units = (t.number.unit for t in aside.words if t.number)
        if aside.unstated and all(unit and unit.kind.dimension not in declared for unit in units):
            yield aside.rest, aside.words


def without_treatment(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least 15 MPa after 28 days at 20 degC` of what is no time, without what goes before; and that."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    if len(job.subjects) != 1 or kind is None or kind.dimension == TIME or job.sort:
        return
    said = [word_of(t) for t in tokens]
    whole = isinstance(job.first, Typed) and job.first.whole
    for at in (i for i, w in enumerate(said) if i and _goes_before(w, tokens[i + 1 : i + 3], whole)):
        end = at + 3 * (said[at] == "within" and tokens[at + 1].number is None)
        while end + 1 < len(tokens) and said[end] in _DURING:
            number = tokens[end + 1].number
            if number is None or number.unit is None or number.unit.kind.dimension in ((), kind.dimension):
                break
            end += 2
        start = at - (said[at - 1] == ",")
        behind = tokens[end + (said[end : end + 1] == [","]) :]
        if end == at:
            continue
        if not behind:
            yield tokens[:start], tokens[at:end]
        elif said[len(said) - len(behind)] in ("of", "is", "being") and not any(
            t.number for t in tokens[:at]
        ):
            yield (*tokens[:start], *behind), tokens[at:end]


def _goes_before(word: str, behind: Tokens, counted: bool) -> bool:
    """`after` something, `within` so long; a number of things within so long is one per time."""
    unit = behind[0].number.unit if behind and behind[0].number else None
    spelled = (
        word_of(behind[0]) in NUMBER_WORDS and find_unit(word_of(behind[1])) if len(behind) > 1 else None
    )
    unit = unit or spelled or None
    timed = unit is not None and unit.kind.dimension == TIME
    return bool(behind) and (word == "after" or (word == "within" and timed and not counted))


_DURING = ("after", "within", "at", "and", "under")


def without_occasion(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least twice a day`, `at most three at a time` of a count without what the times are counted in, or
    when; `at most 30 degC at all times` of what is no quantity of a step; and these words."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    said = [word_of(t) for t in tokens]
    when = "at_once" if job.first.whole else "at_all_times"
    for start in range(max(len(said) - 4, 1), len(said)):
        if run_at(said, start, "asides", when) == len(said) - start:
            yield tokens[:start], tokens[start:]
    if not job.first.whole:
        return
    at = len(tokens) - 2
    unit = find_unit(word_of(tokens[-1])) if at > 0 and word_of(tokens[at]) in IN_EACH else None
    name = job.subjects[0].text
    note = job.place.names.note_of(name)
    periods = listed("measures", "periods").intersection(f"{name} {note}".lower().split())
    if unit is None or unit.kind.dimension != TIME or periods - {said[-1], f"{said[-1]}s"}:
        return
    often = SO_OFTEN.get(word_of(tokens[at - 1]))
    times = word_of(tokens[at - 1]) == "times"
    last = (replace(tokens[at - 1], text=often),) if often else ()
    if not often and not times:
        return  # so many per hour are no number of them
    yield (*tokens[: at - 1], *last), tokens[at:]


IN_EACH = ("a", "an", "per", "each", "every")
SO_MANY_PER = (("time", -1),)
"""What is declared in so many per day."""
SO_OFTEN = {"once": "one", "twice": "two", "thrice": "three"}


def _is_no_limit(tokens: Tokens, at: int, measures: bool) -> bool:
    """Does the word at this place limit nothing? With `measures` it may be a length or the like."""
    word, before = word_of(tokens[at]), tokens[at - 1].text
    if tokens[at].number or tokens[at].sort not in ("word", "number"):
        number = tokens[at].number
        standard = before[:1].isupper() or before[-1:].isdigit() or before in ("-", "/", ":")
        return standard and (tokens[at].text in "-/:" or (number is not None and number.unit is None))
    counted = word in NUMBER_WORDS and word != "one"
    measured = word in listed("measures", "nouns") and not measures and word != "gauge"
    limits = word in listed("limits", "inside") - _HARMLESS
    never = counted or measured or limits or word in listed("limits", "conditions") or word.endswith("est")
    return not never and word not in listed("mention", "universal") | _QUANTIFIED


_HARMLESS = frozenset("in the a of from within on at by as to".split())
_QUANTIFIED = frozenset(
    "case event mean average median total combined overall sum majority minority all any both either some"
    " none neither not no without except other only per respectively".split()
)
