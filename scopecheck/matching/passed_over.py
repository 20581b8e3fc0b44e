"""Words beside a name that say which thing it is: 'at least two metering notches', 'angular intervals of'.

They are read past only beside the name of what stands left of the colon, only where nothing else reads the
line, and only if no phrase, no limit and no other name has them; a warning tells of each that the note of the
declaration has not.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.foundations.quantity import kind_word
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.names_and_notes import (
    ARTICLES,
    ENDING,
    MOST_PASSED,
    Tokens,
    forms_of,
    of_notes,
    says_which,
)
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import describes
from scopecheck.vocabulary.names import Typed


def without_qualifiers(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """The words without those beside a name of what stands left of the colon, and the words left out."""
    names_own = {form for s in job.subjects for form in forms_of(s.text)}
    own = names_own | of_notes(job)
    names = (set(name.lower().split()) for name in job.place.names.all())
    spoken = {word_of(t) for t in tokens}
    others = {word for words in names if own.isdisjoint(words) and words <= spoken for word in words}
    named = [i for i, t in enumerate(tokens) if word_of(t) in own]
    if not named:
        return
    never = (others | names_own | job.place.phrases.words()) - {"constant"}  # that is told
    never -= listed("names", "describing") if len(job.subjects) == 1 and not job.sort else set()
    # 'Planet wheels' are planets; an oil phase is no oil.
    counted = job.sort == "parts" or all(isinstance(s.bound, Typed) and s.bound.whole for s in job.subjects)
    kind = job.first.kind if len(job.subjects) == 1 and isinstance(job.first, Typed) else None
    shared = kind is not None and bool(kind.basis) and not job.sort
    # 'Two or more selected plates', of the plates, tells which.
    telling = {"selected", "chosen"} if counted and spoken.isdisjoint(("from", "among")) else set[str]()
    # Graphite particles are graphite, in a form.
    forms = listed("mention", "forms")
    passed = {i + 1 for i in named if i + 1 < len(tokens) and word_of(tokens[i + 1]) in forms - names_own}
    for at in named:
        for step in (-1, 1) if counted else (-1,):
            run, beside = set[int](), at + step
            if counted and step < 0 and beside > 0 and kind_word(word_of(tokens[beside])) is not None:
                run, beside = {beside}, beside - 1  # 'temperature sensors'
            if (counted or shared) and step < 0 and beside > 0 and word_of(tokens[beside]) in others:
                # 'Steam nozzles', where a steam is declared; 'an acid amide', where an acid is.
                run, beside = {beside}, beside - 1
            while 0 <= beside < len(tokens) and len(run) < MOST_PASSED:
                if not says_which(tokens[beside], never) and (
                    step > 0 or word_of(tokens[beside]) not in telling
                ):
                    break
                run.add(beside)
                beside += step
            # Behind a name a noun ends the words, or a verb follows; between two names a verb may stand.
            next_to = word_of(tokens[beside]) if 0 <= beside < len(tokens) else ""
            ended = next_to in ENDING if step > 0 else next_to not in names_own
            passed |= run if ended else set()
    if passed:
        kept = tuple(t for i, t in enumerate(tokens) if i not in passed)
        yield kept, tuple(tokens[i] for i in sorted(passed))


def without_qualifiers_of_members(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, ...]]:
    """`a desired start time`, of a list with a start time: without what says which; and each such run.

    An article before them goes too: a member is known by all that stands between its first and last word.
    """
    members = [m.lower().split() for m in getattr(job.first, "members", ())]
    if job.sort not in ("", "parts") or not isinstance(job.first, SetDecl | ChoiceDecl):
        return
    said = [word_of(t) for t in tokens]
    never = {w for m in members for w in m} | job.place.phrases.words()
    passed, runs = set[int](), list[Tokens]()
    for at in range(1, len(tokens)):
        if any(said[at : at + len(m)] == m for m in members):
            start = at
            while start and at - start < MOST_PASSED and _may_say_which(tokens[start - 1], never):
                start -= 1
            runs += [tokens[start:at]] if start < at else []
            passed |= {*range(start, at), *([start - 1] if said[start - 1] in ARTICLES else [])}
    if runs:
        yield tuple(t for i, t in enumerate(tokens) if i not in passed), *runs


def without_words_round_members(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """`stabilised by lens shift or sensor shift` of a list: what names members, the words before and behind.

    These are a description alone, which counts, compares and denies nothing and is no member.
    """
    members = [m.lower().split() for m in getattr(job.first, "members", ())]
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, SetDecl | ChoiceDecl):
        return
    said = [word_of(t) for t in tokens]
    named = {i for i in range(len(said)) for m in members if said[i : i + len(m)] == m}
    if not named:
        return
    own = job.tests().own_words
    others = {w for name in job.place.names.all() for w in name.lower().split()} - own
    of_members, known = {w for m in members for w in m}, job.place.phrases.words()

    def describing(at: int) -> bool:
        word = said[at]
        if tokens[at].sort != "word" or at in named or word in NUMBER_WORDS:
            return False
        if word in own | FILLERS and word not in listed("conditional", "drops"):
            return True
        if word in _LEADING_TO_MEMBERS:
            return at > 0 and said[at - 1].endswith(("ed", "ing", "ion", "ment"))
        if word == "from":
            return at > 0 and said[at - 1] in _MADE
        never = others | of_members | known | listed("asides", "no_lead")
        return word not in never and describes(word)

    start = next(i for i in range(len(said)) if not describing(i))
    last = max(named)
    end = last + max(len(m) for m in members if said[last : last + len(m)] == m)
    behind = next((i for i in range(end, len(said)) if not describing(i)), len(said))
    verb = start > 0 and start == min(named) and said[start - 1] not in own | FILLERS | {*_LEADING_TO_MEMBERS}
    lead = said[:start]
    if not {"is", "are"}.isdisjoint(lead) and own.isdisjoint(lead):
        return  # 'the solder is made of zinc' is said of the solder
    if start > min(named) or behind < len(said) or (verb and said[start - 1] not in ("from", *_MADE)):
        return
    if not own.union(FILLERS).issuperset((*said[:start], *said[end:])) and job.readable(tokens[start:end]):
        yield tokens[start:end], tokens[:start], tokens[end:]


_LEADING_TO_MEMBERS = ("by", "to", "for", "on")
_MADE = listed("asides", "made_from")


def _may_say_which(token: Token, never: set[str]) -> bool:
    return says_which(token, never) or word_of(token) in ("desired", "preferred", "target")
