"""What the units of an amount are of, what is counted, and the whole that a share is of."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.names_and_notes import ARTICLES, MOST_PASSED, Tokens
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import describes
from scopecheck.vocabulary.names import Typed


def without_what_is_counted(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`two to eight power converters` of a number of phases: the number, and what is counted there."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or not job.first.whole or job.sort:
        return
    start = len(tokens)
    names = {w for n in job.place.names.all() for w in n.lower().split()}
    never = names | {f"{w}s" for w in names} | job.place.phrases.words() | listed("measures", "not_called")
    noted = {w.strip(",;()") for w in job.place.names.note_of(job.subjects[0].text).lower().split()}
    while start > 1 and tokens[start - 1].sort == "word" and len(tokens) - start < MOST_PASSED:
        word = word_of(tokens[start - 1])
        measured = word in listed("measures", "nouns") and start < len(tokens)  # 'power converters'
        which = describes(word) or measured or (word == "individual" and start < len(tokens))
        if (
            word in NUMBER_WORDS
            or find_unit(word)
            or (word not in noted and (word in never or not which))
            or word in FILLERS
        ):
            break
        start -= 1
    counted = tokens[start - 1].number or word_of(tokens[start - 1]) in NUMBER_WORDS
    counted = counted or [word_of(t) for t in tokens[max(0, start - 3) : start]] in ONE_OR_MORE
    if counted and start < len(tokens) and word_of(tokens[-1]).endswith("s"):
        yield tokens[:start], tokens[start:]


def without_what_units_are_of(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, ...]]:
    """`2 to 5 mg of the nutrient per gram of tablet`, of what is declared in mg/g: the words with that unit,
    and what each of its units is of."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    number = max((i for i, t in enumerate(tokens) if t.number and t.number.unit), default=len(tokens))
    if len(job.subjects) != 1 or kind is None or number + 1 >= len(tokens):
        return
    first = tokens[number].number
    unit = first.unit if first else None
    at, end, passed = number + 1, tokens[number].end, [list[Token]()]
    while unit is not None and at < len(tokens):
        piece, behind = _unit_in_words(tokens, at)
        if piece:
            unit, end, at = find_unit(f"{unit.symbol}/{piece}"), tokens[behind - 1].end, behind
            passed.append([])
            continue
        width = 2 if _of_a_body(list(tokens[at : at + 2])) else 1
        word = word_of(tokens[at])
        if width == 1 and word not in ("of", "product", *ARTICLES) and not describes(word):
            return
        passed[-1] += tokens[at : at + width]
        at += width
    own = first.unit if first else None
    divided = len(passed) > 1 or (own is not None and "/" in own.symbol)
    if unit is None or unit.kind != kind or not divided:
        return
    said = (
        replace(t, number=replace(t.number, unit=unit), end=end if i == number else t.end)
        if t.number and t.number.unit == own
        else t
        for i, t in enumerate(tokens[: number + 1])
    )
    name = {form for w in job.subjects[0].text.lower().split() for form in (w, f"{w}s", w.removesuffix("s"))}
    noted = f" {job.place.names.note_of(job.subjects[0].text).lower()} "
    untold = (run for run in passed if run and not _of_a_body(run) and f" {_text(run)} " not in noted)
    yield tuple(said), *(tuple(t for t in run if word_of(t) not in name) for run in untold)


def _text(tokens: list[Token]) -> str:
    return " ".join(word_of(t) for t in tokens)


def _of_a_body(run: list[Token]) -> bool:
    """Doses per kilogram are always of body weight."""
    return [word_of(t) for t in run if word_of(t) != "of"] == ["body", "weight"]


def _unit_in_words(tokens: Tokens, at: int) -> tuple[str, int]:
    """The unit that `per square metre`, `and hour`, `daily` divide by, and where it ends; '' for none."""
    word = word_of(tokens[at])
    if word in _ADVERBS:
        return _ADVERBS[word], at + 1
    for end in (at + 3, at + 2) if word in ("per", "and", "a", "each", "every") else ():
        unit = find_unit(" ".join(word_of(t) for t in tokens[at + 1 : end])) if end <= len(tokens) else None
        if unit is not None:
            return unit.symbol, end
    return "", at


_ADVERBS = {"daily": "d", "hourly": "h"}


def without_whole(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`the salt and the soda together are at most 30 % of the liquor`, of shares of no named whole, without
    the whole that is named behind the limit; and that. What is measured is named before the limit."""
    kinds = [s.bound.kind for s in job.subjects if isinstance(s.bound, Typed)]
    said = [word_of(t) for t in tokens]
    number = max((i for i, t in enumerate(tokens) if t.number), default=0)
    named = all(f" {s.text.lower()} " in f" {' '.join(said[:number])} " for s in job.subjects)
    shares = len(kinds) == len(job.subjects) and all(k and not k.dimension and not k.split[1] for k in kinds)
    whole = said[number + 1 :]
    plain = whole[:2] in (["of", "the"], ["of", "said"]) and 2 < len(whole) <= 2 + MOST_PASSED
    if named and shares and number and plain and all(map(describes, whole[2:])):
        yield tokens[: number + 1], tokens[number + 1 :]
