"""Words beside a name that say which thing it is: 'at least two metering notches', 'angular intervals of'.

They are read past only beside the name of what stands left of the colon, only where nothing else reads the
line, and only if no phrase, no limit and no other name has them; a warning tells of each that the note of the
declaration has not.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import FILLERS, word_of
from scopecheck.resolve.names import Typed
from scopecheck.resolve.parts import plural_of
from scopecheck.resolve.phrase_finding import Job

_ENDING = frozenset(("", *"having has have with of carrying carries lasting being is are each".split()))
MOST_PASSED = 2
"""More words in a row than these are no adjectives."""
Tokens = tuple[Token, ...]


def without_qualifiers(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """The words without those beside a name of what stands left of the colon, and the words left out."""
    names_own = {form for s in job.subjects for form in _forms(s.text)}
    own = names_own | _of_notes(job)
    names = (set(name.lower().split()) for name in job.place.names.all())
    others = {word for words in names if own.isdisjoint(words) for word in words}
    named = [i for i, t in enumerate(tokens) if word_of(t) in own]
    if not named:
        return
    never = others | names_own | job.place.phrases.words()
    # 'Planet wheels' are planets; an oil phase is no oil.
    counted = job.sort == "parts" or all(isinstance(s.bound, Typed) and s.bound.whole for s in job.subjects)
    passed: set[int] = set()
    for at in named:
        for step in (-1, 1) if counted else (-1,):
            run, beside = set[int](), at + step
            while 0 <= beside < len(tokens) and len(run) < MOST_PASSED:
                if not _says_which(tokens[beside], never):
                    break
                run.add(beside)
                beside += step
            # Behind a name a noun ends the words, or a verb follows; between two names a verb may stand.
            next_to = word_of(tokens[beside]) if 0 <= beside < len(tokens) else ""
            ended = next_to in _ENDING if step > 0 else next_to not in names_own
            passed |= run if ended else set()
    if passed:
        kept = tuple(t for i, t in enumerate(tokens) if i not in passed)
        yield kept, tuple(tokens[i] for i in sorted(passed))


def of_each_bearer(tokens: Tokens) -> tuple[Tokens, Tokens]:
    """`each flange having from 14 to 18 holes`, of the holes of two flanges, as each, and what has them."""
    said = [word_of(t) for t in tokens]
    if said[:1] not in (["each"], ["both"]):
        return (), ()
    at = next((i for i in range(1, min(len(said), 6)) if said[i] in ("having", "has", "have", "with")), 0)
    each = replace(tokens[0], text="each")
    return ((each, *tokens[at + 1 :]), tokens[1:at]) if at > 1 else ((), ())


def _of_notes(job: Job, alone: bool = False) -> set[str]:
    """The words of the notes of what stands left of the colon; `alone`: of a name it begins with."""
    found = set[str]()
    for subject in job.subjects:
        words = getattr(job.place.names.declared(subject.text), "note", "").lower().split()
        ends = (i for i, word in enumerate(words) if word in listed("nouns", "stops"))
        found |= set(_forms(" ".join(words[: next(ends, None)] if alone else words)))
    return found


def told(job: Job, words: Tokens) -> Diagnostic | None:
    """That the words were read past, and what to do if they matter; None if the notes have them."""
    called, name = _of_notes(job, True), job.subjects[0].text
    words = tuple(t for t in words if word_of(t) not in called)
    if not words:
        return None
    said = " ".join(t.text for t in words)
    return Diagnostic(
        "warning", job.span(words[:1]), f"'{said}' is read past",
        f"It stands beside the name '{name}', and no phrase has it.",
        "if it says which of several are limited, declare these by a name of their own",
    )  # fmt: skip


def _says_which(token: Token, never: set[str]) -> bool:
    word = word_of(token)
    if token.sort != "word" or len(word) < 4 or word in never or word in FILLERS | _ENDING:
        return False
    if (
        word in NUMBER_WORDS
        or word.endswith("est")
        or word.startswith(("non-", "un"))
        or word in word_lists()["fractions"]
    ):
        return False
    ordinal = word in listed("mention", "ordinals") | listed("mention", "new")
    return not (ordinal or word in listed("nouns", "stops"))


def _forms(name: str) -> Iterator[str]:
    """The words of a name, each in the singular and the plural."""
    for word in name.lower().split():
        if len(word) > 2 and word not in FILLERS | listed("nouns", "stops"):
            yield from (word, plural_of(word), word.removesuffix("s"), word.removesuffix("es"))
