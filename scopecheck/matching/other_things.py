"""Words that speak of another thing than what stands left of the colon: read, and told in a warning.

`inlet pressure : an outlet pressure of at least 2 bar` is read of the inlet pressure, which stands
there; so is `valve open, inlet pressure : opens when the outlet pressure exceeds 2 bar`.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, GOVERNING, Match, word_of
from scopecheck.matching.nouns import said_besides
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject
from scopecheck.matching.surroundings import describes
from scopecheck.matching.the_other import is_by_its_basis
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
_ONLY_SAYS_WHICH = listed("names", "only_says_which")
"""Before what is measured these say nothing of whose it is."""
_JOINS = ("to", "and", "or", "than", "over", "by", "between", "from")
_NEVER_OWN = ("not", "without", "unlike", "less")
"""What stands behind these in a note is said not to be meant."""
_SHORT = 3
"""A name of so few letters is a sign, `Tg` of a glass transition temperature."""
_OPEN = frozenset("a an the of in".split())
_CONDITIONS = GOVERNING - {"unless"}


def speak_of_others(job: Job, tokens: Tokens) -> Iterator[Diagnostic]:
    """A warning for each of the things left of the colon in whose place the words speak of another one."""
    said, names = [word_of(t) for t in tokens], job.place.names
    own = {w for s in job.subjects for w in _own(s, names)} - FILLERS - listed("nouns", "determiners")
    left = {s.text.lower() for s in job.subjects}
    for subject in job.subjects:
        found = None
        if isinstance(subject.bound, Typed):
            others = left - {subject.text.lower()}
            found = (
                _another_measured(subject, others, said, own, names)
                or _denied_by_note(subject, said, names)
                or _another_conditioned(subject, tokens, own, names)
                or _another_dimension(subject, said, own)
            )
        elif isinstance(subject.bound, ChoiceDecl | SetDecl) and len(job.subjects) > 1:
            found = _another_listed(subject.bound, said, own)
        found = found if found and tokens[found[1] - 1].end > tokens[found[0]].start else None
        called = " ".join(said[slice(*found)]) if found else ""
        declared = {name.lower() for name in names.all()} - left if found else ()
        if found and not any(called in name and f" {name} " in f" {' '.join(said)} " for name in declared):
            yield told_of_other_thing(job, tokens[slice(*found)], subject)


def nouns_of_others(job: Job, match: Match) -> Iterator[Diagnostic]:
    """A warning for each noun of a phrase that says more than what it is read as: `large holes`."""
    for words, subject in said_besides(match, job.subjects, job.place.names):
        if not is_by_its_basis(subject, [word_of(t) for t in words]):
            yield told_of_other_thing(job, words, subject)


def _another_measured(
    subject: Subject, others: set[str], said: list[str], own: set[str], names: Names
) -> tuple[int, int] | None:
    """`the outlet pressure`, of an inlet pressure that the words do not speak of."""
    heads = listed("measures", "nouns")
    if heads.isdisjoint(said):
        return None
    # It may be what another thing is that is called by the measure alone.
    called = {head: words for head, words in _called_apart(subject, names).items() if head not in others}
    for at in range(1, len(said)):
        apart, word = called.get(said[at]), said[at - 1]
        if not apart or not apart.isdisjoint(said) or word in own or word in FILLERS or word in heads:
            continue
        known = any(len(w) >= _SHORT and word.startswith(w) for w in own)  # a running torque is a run torque
        says_which = word in NUMBER_WORDS or word in _ONLY_SAYS_WHICH or word in _JOINS
        if word.isalpha() and describes(word) and not (known or says_which):
            return at - 1, at + 1
    return None


def _denied_by_note(subject: Subject, said: list[str], names: Names) -> tuple[int, int] | None:
    """`a wet weight`, of what is the `dry weight, not wet weight`."""
    parts = [part.lower().split() for part in _parts_of_note(subject, names)]
    if all(set(_NEVER_OWN).isdisjoint(words) for words in parts):
        return None
    meant = {w for part in _meant_by_note(subject, names) for w in part.lower().split()}
    meant |= {*subject.text.lower().split(), *FILLERS, *listed("nouns", "stops")}
    denied = set[str]()
    for words in parts:
        start = next((i for i, w in enumerate(words) if w in _NEVER_OWN), len(words))
        denied |= {w for w in words[start + 1 :] if w not in meant and w not in NUMBER_WORDS}
    return next(((i, i + 1) for i, w in enumerate(said) if w in denied), None)


def _another_conditioned(
    subject: Subject, tokens: Tokens, own: set[str], names: Names
) -> tuple[int, int] | None:
    """`when the plug is below 45 °C`, of the temperature of a cell that the words do not speak of."""
    said = [word_of(t) for t in tokens]
    start = next((i + 1 for i, word in enumerate(said) if word in _CONDITIONS), 0)
    if not start:
        return None
    amount = next((t.number.unit for t in tokens[start:] if t.number and t.number.unit), None)
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    if amount is None or kind is None or kind.dimension != amount.kind.dimension or kind.dimension == TIME:
        return None
    end = next((i for i in range(start, len(said)) if said[i] in listed("limits", "inside") - _OPEN), 0)
    if not {"and", "or", ",", "otherwise"}.isdisjoint(said[start : end + 1]):
        return None  # what is behind them is another clause
    called = any(_called_apart(subject, names).values())
    if not called and not listed("measures", "nouns").isdisjoint(said[start:end]):
        return None  # a temperature that is called nothing else may be that of the cell
    clause = f" {' '.join(said[start:end])} "
    if any(f" {part.lower()} " in clause for part in _named_in_full(subject, names)):
        return None  # 'the creatinine clearance of the patient'
    known = own | FILLERS | listed("nouns", "stops") | listed("measures", "nouns") | _ONLY_SAYS_WHICH
    other = [i for i in range(start, end) if _is_another(said[i], known)]
    return (other[0], other[-1] + 1) if other else None


def _named_in_full(subject: Subject, names: Names) -> Iterator[str]:
    """What the note has of the name with more before it: `creatinine clearance`, of a clearance."""
    name = subject.text.lower()
    return (part for part in _meant_by_note(subject, names) if part.lower().endswith(f" {name}"))


def _another_dimension(subject: Subject, said: list[str], own: set[str]) -> tuple[int, int] | None:
    """`when the height exceeds 50 mm`, of a width that the words do not speak of."""
    dimensions = listed("measures", "dimensions")
    mine = dimensions.intersection(subject.text.lower().split())
    if not mine or _CONDITIONS.isdisjoint(said) or any(w.removesuffix("s") in mine for w in said):
        return None
    return next(((i, i + 1) for i, w in enumerate(said) if w.removesuffix("s") in dimensions - own), None)


def _is_another(word: str, known: frozenset[str] | set[str]) -> bool:
    """Is it a noun that is not known, nor a form of one that is? A running torque is a run torque."""
    form = any(len(w) >= _SHORT and w not in FILLERS and word.startswith(w) for w in known)
    return word.isalpha() and describes(word) and word not in known and not form


def _called_apart(subject: Subject, names: Names) -> dict[str, set[str]]:
    """For each measure in the name or the note, short or in full, what is said before it there."""
    found: dict[str, set[str]] = {}
    for part in (subject.text, *_meant_by_note(subject, names)):
        words = part.lower().split()
        for at, word in enumerate(words[1:], 1):
            full = [
                h
                for h in listed("measures", "nouns")
                if h == word or (len(word) > _SHORT and h.startswith(word))
            ]
            before = words[at - 1]
            if len(before) > _SHORT and before not in FILLERS and describes(before):
                for head in full:
                    found.setdefault(head, set()).add(before)
    for place in _places_noted(subject, names):
        for head in listed("measures", "nouns").intersection(subject.text.lower().split()):
            found.setdefault(head, set()).add(place)
    return found


def _places_noted(subject: Subject, names: Names) -> list[str]:
    """Where it is measured by a note that says nothing else: `at the inlet`, of a pressure."""
    words = [w.strip(",;()") for w in names.note_of(subject.text).lower().split()]
    of_a_place = words[:1] in (["at"], ["in"], ["of"]) and words[1:2] == ["the"] and len(words) in (3, 4)
    return [w for w in words[2:] if len(w) > _SHORT] if of_a_place else []


def _another_listed(declared: ChoiceDecl | SetDecl, said: list[str], own: set[str]) -> tuple[int, int] | None:
    """`if the binder comprises chalk`, of kinds of filler that the words do not speak of."""
    start = next((i + 1 for i, word in enumerate(said) if word in _CONDITIONS), 0)
    if not start:
        return None
    members = {m.lower() for m in declared.members}
    behind = said[start:]
    runs = [m.split() for m in members]
    named = [i for i in range(len(behind)) if any(behind[i : i + len(run)] == run for run in runs)]
    if not named:
        return None
    # What stands before a comma may be another clause.
    comma = max((i for i in range(named[0]) if behind[i] == ","), default=-1) + 1
    start, before = start + comma, behind[comma : named[0]]
    free = next((i for i in range(len(before)) if run_at(before, i, "asides", "free_of")), len(before))
    stops = FILLERS | listed("nouns", "stops")
    nouns = [i for i, w in enumerate(before[:free]) if w.isalpha() and w not in stops]
    if any(before[i] in own for i in nouns):
        # 'Coating of the filler', 'bypass valve': of what is called a filler, a valve.
        beside = ((i, before[i + 1 : i + 2]) for i in nouns if before[i] not in own)
        nouns = [i for i, then in beside if then == ["of"] or own.issuperset(then)]
    return (start + nouns[0], start + nouns[-1] + 1) if nouns else None


def _own(subject: Subject, names: Names) -> Iterator[str]:
    for part in (subject.text, *_meant_by_note(subject, names)):
        for word in part.lower().split():
            yield from (word, word.removesuffix("s"), f"{word}s")


def _meant_by_note(subject: Subject, names: Names) -> Iterator[str]:
    """What the note says is meant, without what it says is not."""
    for part in _parts_of_note(subject, names):
        words = part.split()
        end = next((i for i, w in enumerate(words) if w.lower() in _NEVER_OWN), len(words))
        yield " ".join(words[:end])


def _parts_of_note(subject: Subject, names: Names) -> list[str]:
    note = names.note_of(subject.text)
    return note.replace("(", ",").replace(")", ",").replace(";", ",").split(",")


def told_of_other_thing(job: Job, words: Tokens, subject: Subject) -> Diagnostic:
    """That words which neither the name nor the note has were taken for it."""
    said = job.text(words)
    return Diagnostic(
        "warning", job.span(words), f"'{said}' is read as {subject.text}",
        f"{subject.text} stands left of the colon, and neither its name nor its note says '{said}'.",
        "if something else is meant, declare it under a name of its own and write that left of the colon",
    )  # fmt: skip


def told_of_step(job: Job, words: Tokens, step: str) -> Diagnostic:
    """That a noun was taken for the step that is called by its verb."""
    said = job.text(words)
    return Diagnostic(
        "warning", job.span(words), f"'{said}' is read as the step {step}",
        f"{step} is declared as a step, and nothing is declared as '{said}'.",
        "if something else is meant, declare it under a name of its own",
    )  # fmt: skip
