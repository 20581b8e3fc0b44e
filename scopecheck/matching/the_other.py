"""What words call the second of two things left of the colon, where they do not call it by its name.

`rear power, front power : at least 20 less than that of the front lens`: two things are compared
there, so what the limit stands beside is the second. A warning tells what was taken for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, leaves, word_of
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.subjects import Subject
from scopecheck.matching.surroundings import describes, noted_so, only_calls
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
_BEFORE_IT = frozenset(
    "than of to between times half twice thrice exceeds exceed exceeding below above as from".split()
)
_WITHIN_IT = frozenset("the a an said its that of in its this those".split())
_ENDS_IT = frozenset("by and or but if when while where at with for per to , than as within".split())
_WHICH = listed("names", "which_of_such")
"""Words that say which of several it is; elsewhere they may limit."""
MOST_WORDS = 9


def with_the_other_named(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """The words with the second thing's name in the place of what they call it; what they call the first
    thing, where that is left out before the limit; and what they call the second."""
    beside_parts = job.sort == "parts" and len(job.subjects) == 2 and job.subjects[1].parts is None
    apart = job.sort and not beside_parts
    if len(job.subjects) != 2 or apart or not all(isinstance(s.bound, Typed) for s in job.subjects):
        return
    first, second = (s.text.lower() for s in job.subjects)
    said = [word_of(t) for t in tokens]
    if _is_of_the_second(job, said):
        return
    kinds = {(s.bound.kind, s.bound.whole) for s in job.subjects if isinstance(s.bound, Typed)}
    declared = job.place.names.declarations.items()
    alike = {n.lower() for n, d in declared if isinstance(d, NumberDecl) and (d.kind, d.whole) in kinds}
    third = {form for n in alike - {first, second} for form in (n, n.removesuffix("s"))} - {first, second}
    lead = _led(tokens)
    if any(_times(n, said[:lead]) for n in (second, *third)) or not _measures_alike(job, 0, said[:lead]):
        lead = 0
    if lead:
        yield tokens[lead:], tokens[:lead], ()
    spoken = _times(second, said)
    for start in range(1, len(tokens)):
        if said[start - 1] not in _BEFORE_IT or start < lead:
            continue
        end = start
        noted = _words_of(job, job.subjects[1].text)
        own = noted - _words_of(job, job.subjects[0].text)
        while end < len(tokens) and end - start < MOST_WORDS:
            if _ends(tokens[end], noted) and not _is_where(said[end:], own):
                break
            end += 1
        run = said[start:end]
        beside = f" {' '.join(run)} ".replace(f" {second} ", " ").split()
        # 'A base current' of a current beside a rated current is no other than that one.
        itself = second.endswith(f" {first}") and [w for w in run if w not in _WITHIN_IT] != first.split()
        named = (*third,) if itself else (first, *third)
        its_note = noted_so(job, run, 1)
        apart = its_note or (_that_measure(run) and not any(run[1] in n.split() for n in third))
        another = not apart and (any(_times(n, beside) for n in named) or _noted_of_another(job, run))
        if not _calls(run, job) or another or run == second.split() or _times(second, run) < spoken:
            continue
        if not _measures_alike(job, 1, run):
            continue
        name = _named(job, 1, tokens[start:end])
        for at in sorted({0, lead, *_up_to_limit(said, lead)}):
            yield (*tokens[at:start], *name, *tokens[end:]), tokens[:at], tokens[start:end]


def with_both_called(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """`a difference between the power of the front lens and that of the rear one is ...` with the names of
    both things; and what is said for the first and for the second."""
    if len(job.subjects) != 2 or job.sort or not all(isinstance(s.bound, Typed) for s in job.subjects):
        return
    said = [word_of(t) for t in tokens]
    for at in range(1, len(said)):
        joined = _JOINED.get((said[at - 1], said[at]))
        middle = next((i for i in range(at + 2, len(said)) if said[i] == joined), 0)
        end = middle + 1
        while middle and end < len(said) and end - middle < MOST_WORDS and not _ends(tokens[end]):
            if said[end] in ("is", "being") or (
                said[end] == "of" and _ends(tokens[min(end + 1, len(said) - 1)])
            ):
                break
            end += 1
        runs = (tokens[at + 1 : middle], tokens[middle + 1 : end]) if middle else ()
        # One of the two at least is called what it is declared as.
        known = any(_is_named_so(job, which, run) for which, run in enumerate(runs))
        if known and all(_may_be(job, which, run) for which, run in enumerate(runs)):
            first, second = _named(job, 0, tokens[at + 1 : middle]), _named(job, 1, tokens[middle + 1 : end])
            named = (*tokens[: at + 1], *first, tokens[middle], *second, *tokens[end:])
            yield named, tokens[at + 1 : middle], tokens[middle + 1 : end]


def with_names_alone(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, dict[int, Tokens]]]:
    """`the row spacing is at least the plant spacing`, of a row and a plant, without the measure that stands
    behind either name; and what each of them is called, by its place."""
    bounds = [s.bound for s in job.subjects]
    if len(bounds) != 2 or job.sort or not all(isinstance(b, Typed) for b in bounds):
        return
    said, names = [word_of(t) for t in tokens], [s.text.lower().split() for s in job.subjects]
    others = {n.lower() for n in job.place.names.all()}
    left, called, measures = set[int](), dict[int, Tokens](), set[str]()
    for which, (name, bound) in enumerate(zip(names, bounds, strict=True)):
        own = _words_of(job, job.subjects[which].text)
        for at in (i for i in range(len(said) - len(name)) if said[i : i + len(name)] == name):
            word, kind = said[at + len(name)], kind_word(said[at + len(name)])
            mine = bound.kind if isinstance(bound, Typed) else None
            if word not in listed("measures", "nouns") or not own.isdisjoint(listed("measures", "nouns")):
                return
            if (kind is not None and mine is not None and not kind.accepts(mine)) or (
                f"{' '.join(name)} {word}" in others
            ):
                return
            left.add(at + len(name))
            measures.add(word)
            called[which] = tokens[at : at + len(name) + 1]
    if len(called) == len(names) and len(measures) == 1:
        yield tuple(t for i, t in enumerate(tokens) if i not in left), called


def with_names_apart(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, dict[int, Tokens]]]:
    """`the AUC in the fed state`, `the fed AUC`, of an `AUC fed`, with the name in the place of that; and
    what each is called so, by its place. `That in the fasted state` is an `AUC fasted` behind such a one.

    The name has two words or more, and all of them stand there: only what joins them stands between.
    """
    if job.sort or not job.subjects or not all(isinstance(s.bound, Typed) for s in job.subjects):
        return
    said, names = [word_of(t) for t in tokens], [s.text.lower().split() for s in job.subjects]
    declared = [n.lower().split() for n in job.place.names.declarations]
    calls = dict[int, tuple[int, int]]()
    for which, name in enumerate(names):
        windows = [w for at in range(len(said)) if (w := _spread(said, at, name, len(names) > 1))]
        windows = windows if _times(" ".join(name), said) == 0 else []
        spoken = {w for window in windows for w in said[slice(*window)]}
        if len(windows) > 1 or any(n != name and len(n) > 1 and spoken.issuperset(n) for n in declared):
            return
        calls |= {which: windows[0]} if windows else {}
    places = sorted(calls.values())
    if not calls or any(end > start for (_, end), (start, _) in pairwise(places)):
        return
    found, at = list[Token](), 0
    for which, (start, end) in sorted(calls.items(), key=lambda call: call[1]):
        found += (*tokens[at:start], *_named(job, which, tokens[start:end]))
        at = end
    yield (*found, *tokens[at:]), {which: tokens[slice(*place)] for which, place in calls.items()}


def _spread(said: list[str], at: int, name: list[str], of_several: bool) -> tuple[int, int] | None:
    """From where to where all words of the name stand, not next to each other or in another order."""
    that = (
        of_several
        and said[at] in ("that", "those")
        and said[at + 1 : at + 2] != []
        and said[at + 1] in _JOINS
    )
    if len(name) < 2 or not (said[at] in name or that):
        return None
    left, end = [w for w in name if w != said[at]], at + 1
    left = name[1:] if that else left
    while left and end < len(said) and (said[end] in left or said[end] in _JOINS | _ARTICLES):
        left = [w for w in left if w != said[end]]
        end += 1
    if left or said[at:end] == name:
        return None
    end += said[end : end + 1] != [] and said[end] in _STATES and said[end] not in name
    return at, end


_JOINS = frozenset("in at of on under during for".split())
_ARTICLES = frozenset("the a an its said".split())
_STATES = listed("names", "of_states")


def _is_named_so(job: Job, which: int, run: Tokens) -> bool:
    words = _words_of(job, job.subjects[which].text) - _WITHIN_IT
    return not words.isdisjoint(map(word_of, run))


def _may_be(job: Job, which: int, run: Tokens) -> bool:
    """May the words be what the one or the other thing is called, and call no other measure?"""
    said = [word_of(t) for t in run]
    return _calls(said, job, which) and _measures_alike(job, which, said)


_JOINED = {("difference", "between"): "and", ("ratio", "of"): "to", ("ratio", "between"): "and"}


def _named(job: Job, which: int, run: Tokens) -> Tokens:
    """The name of one of the two things, in the place of what it is called."""
    words = job.subjects[which].text.split()
    return tuple(replace(run[0], sort="word", text=w, end=run[-1].end) for w in words)


def _is_of_the_second(job: Job, said: list[str]) -> bool:
    """`the hole is wider than the bolt`, of a bolt and a hole: do the words say it of the second thing?"""
    limits = listed("limits", "inside") - _NO_LIMITS
    end = next((i for i, w in enumerate(said) if w in limits), len(said))
    head = frozenset(said[:end]) - _WITHIN_IT - FILLERS
    first, second = (_words_of(job, s.text) for s in job.subjects)
    return not head.isdisjoint(second - first) and head.isdisjoint(first - second)


def _is_where(said: list[str], own: frozenset[str]) -> bool:
    """`exerted at the calf`, of a calf pressure."""
    behind = [w for w in said[1:4] if w not in ("the", "a", "an", "its")]
    return said[0] in ("at", "for", "with") and bool(behind) and behind[0] in own


def _its_measure(job: Job, which: int, nouns: frozenset[str]) -> bool:
    """`said width`, of a hub width: is it the measure that ends its name, and that of nothing else?"""
    name = job.subjects[which].text.lower().split()
    others = (n.lower().split() for n in job.place.names.all() if n.lower().split() != name)
    alone = all(nouns.isdisjoint(n) for n in others)
    return nouns == {name[-1]} and name[-1] in listed("measures", "nouns") and alone


def _times(name: str, said: list[str]) -> int:
    return f" {' '.join(said)} ".count(f" {name} ")


_ACROSS = frozenset(("wide", "broad", "thick"))


def _measures_alike(job: Job, which: int, said: list[str]) -> bool:
    """Do the words call no other measure than the declaration, a radius what is declared as a diameter?"""
    declared = listed("measures", "dimensions") & _words_of(job, job.subjects[which].text)
    adjectives = word_lists()["adjectives"]
    spoken = listed("measures", "dimensions").intersection((*said, *(adjectives.get(w, "") for w in said)))
    if spoken and not _ACROSS.isdisjoint(said):
        spoken |= {"diameter"}  # what is round is as wide as that
    return not spoken or not declared or not spoken.isdisjoint(declared)


def _ends(token: Token, noted: frozenset[str] = frozenset()) -> bool:
    numbers = NUMBER_WORDS.keys() - noted
    return bool(token.number) or token.sort != "word" or word_of(token) in _ENDS_IT | numbers


def _calls(said: list[str], job: Job, which: int = 1) -> bool:
    """May the words be what the one or the other thing is called? They limit, order, count and deny nothing,
    but for what its own name or note says, and speak of no other measure of what it is."""
    own = _words_of(job, job.subjects[which].text)
    as_it_is = said[:2] == ["it", "is"]  # 'as high as it is long'
    if _that_measure(said) and which == 1:
        left = [s.text for s in job.subjects]
        known = job.place.names.declarations.items()
        more = (n.lower().split() for n, d in known if isinstance(d, NumberDecl) and n not in left)
        third = said[0] == "this" and any(said[1] in words for words in more)
        return not third and all(said[1] in name.lower().split() for name in left)
    if not (_OF_A_CHOICE - own).isdisjoint(said):
        return False  # 'a wax selected from tallow' tells what waxes there are
    if "them" in said and "them" not in own:
        return False  # 'ribs, at most half of them slots' points back to the ribs
    if leaves(said, own) or any(w in _SAYS_OF_IT and w not in own for w in said[2 * as_it_is :]):
        return False  # 'the width is outside', 'the width after stretching'
    if said == ["the", "other"] or noted_so(job, said, which):
        return not _WITHIN_IT.issuperset(said)
    if said[:1] == ["its"] and len(said) > 1 and said[1] != "value":
        of_it = frozenset(said[1:]) - _WITHIN_IT
        mine, theirs = (_words_of(job, job.subjects[i].text) for i in (which, 1 - which))
        return of_it <= mine and not of_it <= theirs and of_it.isdisjoint(theirs - mine)
    own = frozenset(job.subjects[which].text.lower().split()) - _WITHIN_IT
    nouns = frozenset(said) - _WITHIN_IT
    theirs_alone = {*job.subjects[1 - which].text.lower().split()} - _words_of(job, job.subjects[which].text)
    if own & {*job.subjects[1 - which].text.lower().split()} and theirs_alone & nouns and not own <= nouns:
        return False  # 'the AUC in the fed state' is no fasted one
    singular = {w.removesuffix("s") for w in nouns}
    named = own <= nouns | singular
    if named and not (listed("measures", "other_measures") - own).isdisjoint(said):
        return False  # the circumference of the bore
    if (
        nouns < own
        and not own - nouns <= listed("measures", "calling")
        and not _its_measure(job, which, nouns)
    ):
        return False  # the pin, of a pin clearance
    others = _words_of(job, job.subjects[1 - which].text) - own
    if said[:2] == ["its", "value"] and len(said) > 3:
        where = frozenset(said[2:]) - _WITHIN_IT - {"at", "on"}
        mine, theirs = (_words_of(job, job.subjects[i].text) for i in (which, 1 - which))
        return bool(where) and where <= mine and not where <= theirs
    if said[:1] == ["its"] or (nouns <= others and not nouns <= _words_of(job, job.subjects[which].text)):
        return False
    several = (singular - nouns) & listed("measures", "nouns")
    if several or not nouns.isdisjoint(listed("measures", "not_called")):
        return False
    return bool(nouns) and all(
        w in own
        or w in _WITHIN_IT
        or w in ("at", "for", "with")
        or _is_called(w)
        or _is_in_a_term(said, i, own)
        for i, w in enumerate(said)
    )


def _that_measure(said: list[str]) -> bool:
    """`this current`, `that width`: the measure of the second of two that are called so."""
    return len(said) == 2 and said[0] in ("this", "that") and said[1] in listed("measures", "nouns")


def _is_in_a_term(said: list[str], at: int, own: frozenset[str]) -> bool:
    """`the spacing between adjacent ribs`, `the melting point` are one measure; a leg portion is the leg."""
    before = said[at - 1] if at else ""
    if said[at] in _PORTIONS and before in own:
        return said[at + 1 : at + 2] != ["of"]
    return (said[at] == "between" and before in _BETWEEN) or (said[at] == "point" and before in _POINTS)


_SAYS_OF_IT = listed("nouns", "said_of_it")
_PORTIONS = ("portion", "part")
_BETWEEN = ("distance", "spacing", "gap", "clearance", "angle", "pitch")
_POINTS = ("melting", "boiling", "freezing", "softening", "flash", "dew", "pour")


def _words_of(job: Job, name: str) -> frozenset[str]:
    note = job.place.names.note_of(name)
    return frozenset(f"{name} {note}".lower().split())


def _noted_of_another(job: Job, said: list[str]) -> bool:
    """Are the words what the note of another quantity says, and not what the second's own says?"""
    nouns = frozenset(said) - _WITHIN_IT
    if nouns <= _words_of(job, job.subjects[1].text):
        return False
    others = (n for n in job.place.names.declarations if n != job.subjects[1].text)
    return any(nouns <= _words_of(job, name) for name in others)


def _is_called(word: str) -> bool:
    return word in _WHICH or word in listed("measures", "nouns") or describes(word)


def _led(tokens: Tokens) -> int:
    """How many words before the limit call the first thing: `a wall thickness that is`, `the wall is`."""
    limits = listed("limits", "inside") - _NO_LIMITS
    at = 0
    while at < len(tokens) and tokens[at].sort == "word" and word_of(tokens[at]) not in limits:
        portion = at > 1 and word_of(tokens[at]) in _PORTIONS and word_of(tokens[at - 1]) not in _WITHIN_IT
        if not (portion or word_of(tokens[at]) in FILLERS or _is_called(word_of(tokens[at]))):
            break
        at += 1
    while at and word_of(tokens[at - 1]) not in _LEADING:
        at -= 1
    return at


def _up_to_limit(said: list[str], lead: int) -> tuple[int, ...]:
    """`has a thickness exceeding`: where the limit begins, behind what the first thing is called as well."""
    limits = listed("limits", "inside") - _NO_LIMITS
    end = next((i for i in range(lead, len(said)) if said[i] in limits), lead)
    return (end,) if end > lead and all(w in FILLERS or _is_called(w) for w in said[lead:end]) else ()


_NO_LIMITS = frozenset("a an the of in".split())
_LEADING = frozenset("is are being of having has that".split())


def _says_no_more(job: Job, run: Tokens, which: int) -> bool:
    """Are the words those of its name and its note alone, what is measured among them?"""
    subject = job.subjects[which]
    known = {w.strip(",;()") for w in _words_of(job, subject.text)}
    said = {
        w for w in map(word_of, run) if w not in FILLERS and w not in _WITHIN_IT and w not in ("number", "to")
    }
    bound = subject.bound
    counted = isinstance(bound, Typed) and (bound.whole or bool(bound.kind and not bound.kind.dimension))
    measured = not said.isdisjoint(known & listed("measures", "nouns"))
    own = bool(said) and said <= known and "its" not in map(word_of, run)
    return own and (counted or measured)


def is_by_its_basis(subject: Subject, said: list[str]) -> bool:
    """`pigment by weight`, of a share by weight."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    by = BY_WHAT.get(said[-1]) if said[-2:-1] == ["by"] else None
    return kind is not None and by == kind.split[0] and said[:-2] == subject.text.lower().split()


_OF_A_CHOICE = frozenset(("selected", "chosen", "consisting"))


def _are_its_words(name: str, said: list[str]) -> bool:
    """`the length of the fibres`, of a fibre length: the same words, whichever stands first."""
    plain = sorted(w.removesuffix("s") for w in said if w not in FILLERS)
    return plain == sorted(w.removesuffix("s") for w in name.lower().split())


def told_of_the_other(job: Job, run: Tokens, which: int = 1) -> Diagnostic | None:
    """That these words were taken for the one or the other thing; None if its name or note has them."""
    words = [word_of(t) for t in run]
    this = _that_measure(words) and words[0] == "this"
    known = noted_so(job, words, which) or only_calls(job, words, which) or _says_no_more(job, run, which)
    known = known or _are_its_words(job.subjects[which].text, words)
    if known and not this:
        return None
    name, said = job.subjects[which].text, job.text(run)
    if said.lower() == name.lower() or is_by_its_basis(job.subjects[which], words):
        return None
    return Diagnostic(
        "warning", job.span(run), f"'{said}' is read as {name}",
        f"{' and '.join(s.text for s in job.subjects)} stand left of the colon, and are compared.",
        "if something else is meant, declare it under a name of its own and write that left of the colon",
    )  # fmt: skip
