"""What was read past, as a warning tells it: words beside a name, circumstances, other members of a list."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.foundations.diagnostics import Diagnostic, read_past_warning
from scopecheck.foundations.quantity import PLAIN_KIND, kind_word
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.lifting import in_symbols
from scopecheck.matching.names_and_notes import NO_LIMITS, Tokens, forms_of, of_notes, says_which
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.states import side_words
from scopecheck.matching.subjects import Subject
from scopecheck.matching.surroundings import only_calls
from scopecheck.vocabulary.names import Typed


def names_another(job: Job, tokens: Tokens) -> Diagnostic | None:
    """`rim : the gap is at least 5 mm`: that the words name another quantity of the kind, and not this."""
    first, said = job.subjects[0], [word_of(t) for t in tokens]
    declared = job.place.names.declarations
    if len(job.subjects) != 1 or job.sort or first.text not in declared or not isinstance(first.bound, Typed):
        return None
    if not {*first.text.lower().split(), *forms_of(first.text), *of_notes(job)}.isdisjoint(said):
        return None
    limits = listed("limits", "inside") - NO_LIMITS
    end = next(
        (i for i, t in enumerate(tokens) if t.number or said[i] in limits or said[i] in NUMBER_WORDS), 0
    )
    apart = next((i for i in range(end) if said[i] in ("from", "than")), end)
    before = f" {' '.join(said[:apart])} "  # 'differing from the rim' is said of what stands left
    for name, other in declared.items():
        if isinstance(other, NumberDecl) and other.kind == first.bound.kind and f" {name.lower()} " in before:
            return Diagnostic(
                "warning", job.span(tokens[:end]),
                f"these words name '{name}', and '{first.text}' stands left",
                "Left of the colon stands what the words limit.",
                f"if they limit {name}, write: {name} : {job.text(tokens)}",
            )  # fmt: skip
    return None


def told_of_circumstance(job: Job, words: Tokens) -> Diagnostic:
    """That how or where it is measured was read past, and where it is said."""
    said, name = job.text(words), job.subjects[0].text
    if [word_of(t) for t in words] == ["a", "day"]:
        said = said.rpartition(" ")[2]  # of 'twice daily' the number is read
    return read_past_warning(
        job.span(words), [said],
        f"How, where or in which state {name} is measured is no part of the limit that is read.",
        f'say it where it is declared: {name}  ...  "{said}"',
    )  # fmt: skip


def told(job: Job, words: Tokens) -> Diagnostic | None:
    """That the words were read past, and what to do if they matter; None if the notes have them."""
    called, name = of_notes(job, len(job.subjects) == 1) | _of_part(job), job.subjects[0].text
    words = tuple(t for t in words if word_of(t) not in called)
    if FILLERS.issuperset(map(word_of, words)) or only_calls(job, [word_of(t) for t in words]):
        return None
    if _calls_it(job.subjects[0], [word_of(t) for t in words]):
        return None
    which = FILLERS.isdisjoint(map(word_of, words))
    return _read_past(
        job, words, name, _BY_A_NAME if which else f"if it changes what is limited, {in_symbols(job)}"
    )


_OF_PLAIN_NUMBERS = {"ratio", "number", "value"}


def _calls_it(subject: Subject, said: list[str]) -> bool:
    """`the inlet pressure is`, of an inlet: its name, with what is measured of it."""
    name = set(subject.text.lower().split())
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    rest = {w for w in said if w not in FILLERS} - name
    rest -= _OF_PLAIN_NUMBERS if kind == PLAIN_KIND else set()
    kinds = [kind_word(w) for w in rest]
    measured = all(k is not None and kind is not None and k.accepts(kind) for k in kinds)
    drops = not listed("conditional", "drops").isdisjoint(said)  # an oven drop is no oven
    plain = bool(said) and kind == PLAIN_KIND and _OF_PLAIN_NUMBERS.issuperset(said)
    return plain or (name <= set(said) and measured and not drops)


def _read_past(job: Job, words: Tokens, name: str, help: str) -> Diagnostic:
    words = tuple(t for t in words if t.start < t.end or word_of(t) not in ("a", "having")) or words
    runs = list(_runs_of_line(job, words, name.lower().split()))
    stand, them = ("They stand", "them") if len(runs) > 1 else ("It stands", "it")
    cause = f"{stand} beside the name '{name}', and no phrase has {them}."
    return read_past_warning(job.span(words[:1]), runs, cause, help)


def _runs_of_line(job: Job, words: Tokens, name: list[str]) -> Iterator[str]:
    """The words as they stand in the line, in as many runs; what only leads up to others is left out.

    So is the name itself, and a verb or a preposition that leads on to the limit.
    """
    claimed, line = job.words.text.lower(), job.words.span.source.text
    if not all(word_of(t) in claimed for t in words):
        yield job.text(words)
        return
    run = list[Token]()
    for token in (*words, None):
        between = line[run[-1].end : token.start].lower().split() if run and token is not None else []
        if token is not None and FILLERS.issuperset(between):
            run.append(token)
            continue
        if len(run) == len(words) or not FILLERS.issuperset(map(word_of, run)):
            told = list(_without_name(run, name))
            alone = len(run) == len(words)
            for part in told or ([run] if alone else []):
                yield " ".join(line[part[0].start : part[-1].end].split())
        run = [token] if token is not None else []


def _without_name(run: list[Token], name: list[str]) -> Iterator[list[Token]]:
    """The words on either side of the name, without what leads up to it or on to the limit."""
    said = [word_of(t) for t in run]
    at = next((i for i in range(len(said)) if said[i : i + len(name)] == name), None)
    sides = [(0, len(run))] if at is None else [(0, at), (at + len(name), len(run))]
    idle = {"is", "are", "being", "that", "which"} if at is None else FILLERS | {"that", "which"}
    for start, end in sides:
        while at is not None and start < end and said[start] in ("a", "an", "the"):
            start += 1
        while start < end and said[end - 1] in idle:
            end -= 1
        if start < end:
            yield run[start:end]


_BY_A_NAME = "if it says which of several are limited, declare these by a name of their own"


def told_before_names(job: Job, tokens: Tokens) -> Iterator[Diagnostic]:
    """Of words on several things: what stands before the name of one and may make another of it, as in `when
    the differential voltage exceeds 4 V` of a voltage."""
    names = job.place.names
    noted = (w.strip(",;()") for s in job.subjects for w in names.note_of(s.text).lower().split())
    never = {w for name in names.all() for w in forms_of(name)}.union(noted)
    said = [word_of(t) for t in tokens]
    for subject in job.subjects if len(job.subjects) > 1 and job.sort != "steps" else ():
        name = subject.text.lower().split()
        for at in (i for i in range(1, len(said)) if said[i : i + len(name)] == name):
            start = at
            while start and says_which(tokens[start - 1], never):
                start -= 1
            # The words of all phrases are asked for only where there may be something to tell.
            known = job.place.phrases.words() if start < at else frozenset[str]()
            known |= side_words(subject.bound, subject.text)  # 'injecting steam' is what is done with it
            if isinstance(subject.bound, ChoiceDecl | SetDecl):
                known |= {w for m in subject.bound.members for w in m.lower().split()}  # 'in the idle mode'
            start = next((i for i in range(at, start, -1) if said[i - 1] in known), start)
            if words := tokens[start:at]:
                yield _read_past(job, words, subject.text, _BY_A_NAME)


def _of_part(job: Job) -> set[str]:
    """What like parts are called, by their note too, with the field of them that is limited."""
    field = job.place.names.field_of(job.subjects[0].text)
    if not field:
        return set()
    called = (n for part in field[0] for n in (part.name, part.plural, job.place.names.note_of(part.count)))
    return {form for text in (*called, field[1]) for form in forms_of(text)} | {
        "has",
        "have",
        "having",
        "from",
    }


def told_before_member(job: Job, words: Tokens) -> Diagnostic:
    """That what stands before a member of a list was read past, and what to do if it is another member."""
    said, name = " ".join(t.text for t in words), job.subjects[0].text
    return read_past_warning(
        job.span(words), [said],
        f"It stands before a member of {name}, and no phrase has it.",
        f"if that is another member, add it to the list of {name}, with all its words",
    )  # fmt: skip
