"""What to lift of words that no phrase reads whole, where the rest does not change what is limited."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl, Step
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.nouns import OWN_MEASURES
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import Tokens, describes, of_note
from scopecheck.vocabulary.names import Typed

_IDLE = FILLERS | frozenset("for by on to from and it its their said such comprising having with".split())
_TURNING = ("denying", "leaving_open", "moving", "usually")
_TURNING_ROUND = (("lifting", "turning"), ("beside", "other_values"))
_MOST_SHOWN = 8


def in_symbols(job: Job) -> str:
    """What to write where no words are read: facts, with an example of the thing at hand."""
    help = "write the meaning in symbols after the words: two blanks, exactly, facts"
    first, name = job.first if job.subjects else None, job.subjects[0].text if job.subjects else ""
    if isinstance(first, Step):
        return f"{help} such as DONE({name})" if first.done else help
    if isinstance(first, SetDecl):
        return f"{help} such as {first.members[0]} IN {name}"
    if isinstance(first, ChoiceDecl):
        return f"{help} such as {name} = {first.members[0]}"
    if not isinstance(first, Typed) or first.kind is None or job.sort or len(job.subjects) > 1:
        return help
    declared = job.place.names.declared(name)
    unit = declared.unit.symbol if isinstance(declared, NumberDecl) and not declared.whole else ""
    ends = {end for end, _ in ends_said([word_of(t) for t in job.words.tokens if t.sort != "gap"])}
    sign = ">=" if ends - {""} == {"least"} else "<="
    return f"{help} such as {name} {sign} ... {unit}" if unit else help


def ends_said(texts: list[str]) -> Iterator[tuple[str, list[str]]]:
    """The words one by one, runs that say an end of a limit in one: 'least', 'most' or '', and the run."""
    at = 0
    while at < len(texts):
        most = run_at(texts, at, "limits", "saying_at_most")
        least = run_at(texts, at, "limits", "saying_at_least")
        length = max(most, least)
        yield ("most" if most > least else "least" if length else ""), texts[at : at + (length or 1)]
        at += length or 1


def advised(job: Job, tokens: Tokens, start: int, end: int, unit: str) -> tuple[str, str]:
    """Cause and help where a phrase reads the stretch alone: what is lost without the others is said."""
    name = job.subjects[0].text if job.subjects else "it"
    symbols = in_symbols(job)
    if (unknown := _unit_of_its_own(tokens, end)) and job.subjects:
        cause = f"'{unknown}' is no known unit, and a limit without it is another one."
        word = unknown.lstrip("°")
        declared = f"write in the head: unit {word}, and declare: {name}  in {word}"
        return cause, f"{declared}; then {symbols}"
    lifted = job.text(tokens[start:end])
    for part in (tokens[:start], tokens[end:]):
        if changing := _changing(job, part):
            cause = f"'{changing}' may change what is limited, or how: without it the limit is another one."
            if _only_usually(changing.split()):
                mark = f"lift: {lifted}, and mark the rest: not restated : {changing}"
                return cause, f"{symbols}; or, if the limit holds without it, {mark}"
            return cause, f"declare what is limited by a name of its own, not as {name}; or {symbols}"
    cause = "The words right of a colon are read as one phrase, whole."
    if unit or not (lost := _lost(job, tokens[:start]) or _lost(job, tokens[end:])):
        return cause, f"lift only: {lifted}{unit}"
    if based := _on_another(job, tokens, start, end):
        return based
    first = job.first if job.subjects else None
    if isinstance(first, Typed) and first.whole and _counts_others(tokens[end:]):
        return cause, symbols  # 'two rows of screws' are no two screws
    only = f"if '{lost}' does not change what is limited, lift only: {lifted}"
    return cause, f"{only}; else declare it by a name of its own, or {symbols}"


_BASED = ("based", "relative")


def _on_another(job: Job, tokens: Tokens, start: int, end: int) -> tuple[str, str] | None:
    """`at most 5 % of wax, based on the oil`, of wax beside a declared oil: as at most 5 % of the oil."""
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if w in _BASED), 0)
    other = next(
        (
            i
            for i in range(at + 2, len(tokens))
            for name in job.place.names.all()
            if name.lower().split() == said[i:] and name != job.subjects[0].text
        ),
        0,
    )
    number = next((i for i in range(start, end) if tokens[i].number), -1)
    if not at or not other or not start <= number < at:
        return None
    whole = job.text(tokens[other:])
    limit = tokens[start : number + 1]
    while said[number + 1 : number + 2] in (["by"], ["weight"], ["volume"], ["mass"], ["mole"]):
        number += 1
        limit = tokens[start : number + 1]
    if not job.readable((*limit, replace(tokens[at], text="of"), *tokens[other:])):
        return None
    cause = f"The share is one of {whole}, which is no word for the whole."
    return cause, f"write: {job.subjects[0].text} : {job.text(limit)} ... of the {whole}"


def _unit_of_its_own(tokens: Tokens, end: int) -> str:
    """`°Bx` behind a number: a unit's sign with letters right behind it is another unit; else ''."""
    last = tokens[end - 1]
    unit = last.number.unit if last.number else None
    glued = end < len(tokens) and tokens[end].sort == "word" and tokens[end].start == last.end
    return f"{last.text[-1]}{tokens[end].text}" if unit and glued else ""


def only_names(said: list[str], own: frozenset[str], others: frozenset[str]) -> bool:
    """May these words be left out beside a limit of a thing, as saying no more than which thing it is?

    None of them limits, denies, joins, moves or measures otherwise, and none is of another name.
    """
    tables = (*_TURNING, *(f"{t}_behind" for t in _TURNING), "swinging", "of_others")
    never = listed("asides", "never_past") | listed("limits", "changes") | listed("limits", "inside") - _IDLE
    never |= (
        listed("lifting", "which_value") | listed("conditional", "drops") | OWN_MEASURES | NUMBER_WORDS.keys()
    )
    never |= {w for table in _TURNING_ROUND for w in listed(*table)} | _JOINING | others
    for at, word in enumerate(said):
        if any(run_at(said, at, "beside", table) for table in tables):
            return False
        if word not in own and (word in never or (not word.isalpha() and word not in _IDLE)):
            return False
    return True


_JOINING = frozenset(
    "and or if when unless until than as per each every any all some one several certain no not nor by"
    " weight mass volume mole molar".split()
)


def _own(job: Job) -> frozenset[str]:
    return job.tests().own_words | of_note(job) if job.subjects else job.tests().own_words


def _changing(job: Job, part: Tokens) -> str:
    """The words of this part that say more than which thing it is; '' if none do."""
    said, own = [word_of(t) for t in part], _own(job)
    called = {w for s in job.subjects for w in s.text.lower().split()}
    called |= of_note(job) if job.subjects else set()
    for at, word in enumerate(said):
        for table in _TURNING:
            width = max(run_at(said, at, "beside", t) for t in (table, f"{table}_behind"))
            if width > 1 or (width and word not in own | _IDLE):
                return job.text(part[at : at + width])
        if word not in called and any(word in listed(*table) for table in _TURNING_ROUND):
            return job.text(part[at : at + 1])
        if word in own | _IDLE:
            continue
        measure = word in OWN_MEASURES or word in listed("lifting", "which_value")
        if measure or word in listed("limits", "changes") or _of_another_value(word):
            return job.text(part[at : at + 1])
    steps = {w for step in job.place.names.steps for w in step.lower().split()}
    if named := next((i for i, w in enumerate(said) if w in steps - own), None):
        return job.text(part[: named + 1]) if not _IDLE.issuperset(said[:named]) else ""
    return ""


def _of_another_value(word: str) -> bool:
    """`ripple`, `mean`, `doubled`: what is said of another value than that of the thing."""
    return word in listed("asides", "never_past") and not describes(word)


def _only_usually(said: list[str]) -> bool:
    return any(run_at(said, 0, "beside", t) == len(said) for t in ("usually", "usually_behind"))


def _counts_others(part: Tokens) -> bool:
    """`rows of screws` behind a number: what is counted are rows."""
    return "of" in map(word_of, part[1:3])


def _lost(job: Job, part: Tokens) -> str:
    """The words of this part that are no part of a name and not plainly idle."""
    idle = _own(job) | _IDLE | listed("measures", "between") | listed("asides", "leading")
    at = [i for i, t in enumerate(part) if word_of(t) not in idle]
    return job.text(part[at[0] : at[-1] + 1][:_MOST_SHOWN]) if at else ""
