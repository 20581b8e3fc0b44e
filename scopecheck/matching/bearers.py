"""Who has or does what is limited: each of its parts, their owner, what is heated, what is made for it."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import Part, Step
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.names_and_notes import ARTICLES, MOST_PASSED, NO_LIMITS, Tokens, is_description
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject
from scopecheck.matching.surroundings import describes, names_another_dimension
from scopecheck.vocabulary.names import Typed


def without_object(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[Tokens, Tokens]]:
    """`heating the powder to 350 °C`, of the heating or of a temperature, without the powder, and that.

    Without a 'comprising' before one step; of what `it` is nothing is said.
    """
    heat = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.kind
    done = listed("steps", "treating") if heat and heat.dimension == _HEAT else frozenset[str]()
    done |= {s.text.lower().rpartition(" of ")[2] for s in subjects if isinstance(s.bound, Step) or s.moments}
    said = [word_of(t) for t in tokens]
    start = int(said[:1] == ["comprising"] and said[1:2] != [] and said[1] in done and len(subjects) == 1)
    kept, passed, at = list[Token](), tokens[:0], start
    while at < len(tokens):
        kept.append(tokens[at])
        at += 1
        end = _end_of_object(tokens, at) if said[at - 1] in done else at
        if end > at and done.isdisjoint(said[at:end]):
            passed += tokens[at:end] if said[at] not in _PRONOUNS else ()
            at = end
    if len(kept) < len(tokens):
        yield tuple(kept), passed


def _end_of_object(tokens: Tokens, at: int) -> int:
    """Where the words go on behind `it`, behind `the glass powder`, at this place; the place for neither."""
    said = [word_of(t) for t in tokens]
    end = at + 1
    if said[at : at + 1] and said[at] in ARTICLES:
        while end < len(said) and said[end] not in _BEHIND_OBJECT and end - at <= MOST_PASSED:
            end += 1
        if end == at + 1 or not all(t.sort == "word" and is_description(t) for t in tokens[at + 1 : end]):
            return at
    elif not said[at : at + 1] or said[at] not in _PRONOUNS:
        return at
    return end if end == len(said) or said[end] in _BEHIND_OBJECT else at


_HEAT = (("temperature", 1),)
_PRONOUNS = ("it", "them")
_BEHIND_OBJECT = frozenset("to at for within over until from under in during carried omitted , and".split())


def without_purpose(tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`the valve is configured to open when ...` without what it is made for, and these words.

    `the controller is configured to open the valve when ...` without the controller too.
    """
    said = [word_of(t) for t in tokens]
    to = next((i for i in range(1, min(len(said) - 1, 9)) if said[i] == "to" and said[i - 1] in _PURPOSE), 0)
    if not to:
        return
    start = to - 1 - (said[to - 2 : to - 1] in (["is"], ["are"], ["being"]))
    if said[to + 1] == ",":
        yield (*tokens[:start], *tokens[to + 2 :]), tokens[to - 1 : to + 1]
        return
    yield (*tokens[:start], *tokens[to + 1 :]), tokens[to - 1 : to + 1]
    behind = said[to + 2 : to + 4]
    end = next((i for i, w in enumerate(behind) if w in listed("limits", "governing")), len(behind))
    if start and any(w in ARTICLES for w in behind[:end]) and said[0] in ARTICLES:
        yield tokens[to + 1 :], tokens[to - 1 : to + 1]


_PURPOSE = listed("conditional", "made_to")


def of_each_bearer(tokens: Tokens) -> tuple[Tokens, Tokens]:
    """`each flange having from 14 to 18 holes`, of the holes of two flanges, as each, and what has them."""
    said = [word_of(t) for t in tokens]
    if said[:1] not in (["each"], ["both"]):
        return (), ()
    at = next((i for i in range(1, min(len(said), 6)) if said[i] in _HAVING), 0)
    each = replace(tokens[0], text="each")
    return ((each, *tokens[at + 1 :]), tokens[1:at]) if at > 1 else ((), ())


def without_bearer_of_all(
    tokens: Tokens, subjects: tuple[Subject, ...], known: frozenset[str]
) -> Iterator[tuple[Tokens, Tokens]]:
    """`the fibres have a length of 3 to 12 mm and a diameter of ...`, of a length and a diameter, without
    what has them, and that.

    Behind the verb stands what ends the name of one of them; `known` are the words of all names.
    """
    if len(subjects) < 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return
    said = [word_of(t) for t in tokens]
    verb = next((i for i in range(1, min(len(said) - 2, MOST_PASSED + 2)) if said[i] in _HAVING), 0)
    bearer = said[1:verb] if said[0] in ARTICLES else said[:verb]
    bearer = bearer[:-1] if bearer[-1:] == ["each"] else bearer
    start = verb + 1 + (said[verb + 1 : verb + 2] in (["a"], ["an"], ["the"], ["its"]))
    named = any(said[start : start + 1] == s.text.lower().split()[-1:] for s in subjects)
    own = frozenset(w for s in subjects for w in s.text.lower().split()[:-1])
    called = (w for w in bearer if w.removesuffix("s") not in own)
    plain = bearer and all(describes(w) and w not in known for w in called)
    if verb and named and plain and listed("measures", "of_two_or_more").isdisjoint(bearer):
        yield tokens[verb + 1 :], tokens[:verb]


def of_each_part(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`each of the converters delivering at least 15 A`, `each handle has a grip with 8 to 16 ribs`, of what
    each of like parts has, as each; and what is said of that."""
    said = [word_of(t) for t in tokens]
    limits = listed("limits", "inside") - NO_LIMITS
    limits |= {*NUMBER_WORDS, *_MULTIPLES}
    end = next((i for i, t in enumerate(tokens) if t.number or said[i] in limits), 0)
    end -= said[end] in _MULTIPLES and said[end - 1] in ARTICLES
    if job.sort != "parts" or said[:1] not in (["each"], ["every"]) or not 2 <= end <= MOST_OF_A_BEARER:
        return
    verbs = {*_HAVING, *_HOLDING}
    verb = next((i for i in range(1, end) if said[i] in verbs or said[i].endswith("ing")), 0)
    others = [n.lower() for n in job.place.names.all() if n.lower() not in job.subjects[0].text.lower()]
    between = f" {' '.join(said[1:end])} "
    several = listed("measures", "not_called") | {"together", "jointly", "average", "mean", "total", "group"}
    if names_another_dimension(job, said[1:end]) or (said[verb] == "with" and said[verb - 1].endswith("ed")):
        return  # hardened to a depth of 3 mm, coated with 3 mm, of a width
    plain = several.isdisjoint(said[:end]) and all(
        describes(w) or w in listed("measures", "nouns") or w in (*verbs, "of", "the", "a", "an")
        for w in said[1:end]
    )
    if verb and plain and not any(f" {n} " in between for n in others):
        each = replace(tokens[0], text="each")
        having = replace(tokens[verb], text="having")
        yield (each, having, *tokens[end:]), tokens[1:end]


def without_owner_of_part(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`each request of a user has two zones`, of what each request has, without whose it is; and that."""
    said = [word_of(t) for t in tokens]
    names = [n.lower().split() for part in _parts_of(job) for n in (part.name, part.plural)]
    others = {n.lower() for n in job.place.names.all()}
    for at in range(1, min(len(said), MOST_OF_A_BEARER)):
        start = at + max((len(n) for n in names if said[at : at + len(n)] == n), default=0)
        verb = next((i for i in range(start, min(len(said), start + 5)) if said[i] in _VERBS), 0)
        owner = said[start + 2 : verb]
        owned = (
            said[start : start + 1] == ["of"] and said[start + 1 : start + 2] and said[start + 1] in _OWNED
        )
        if start > at and owned and owner and all(map(describes, owner)) and " ".join(owner) not in others:
            yield (*tokens[:start], *tokens[verb:]), tokens[start:verb]
            return


def without_what_it_is_of(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`two to four layers of ink`, of how many layers there are, without what they are of; and that.

    `layers of the stack` may be some of more, and `rows of holes` are no number of holes.
    """
    bound = job.subjects[0].bound
    if len(job.subjects) != 1 or not isinstance(bound, Typed) or not bound.whole:
        return
    said = [word_of(t) for t in tokens]
    own = job.subjects[0].text.lower().split()
    others = {n.lower() for n in job.place.names.all()}
    of = len(said) - next((n for n in (2, 3) if said[-n : -n + 1] == ["of"]), 0)
    run = said[of + 1 :]
    never = {*ARTICLES, *_PRONOUNS, "said", "these", "those", "which"}
    plain = never.isdisjoint(run) and all(
        t.sort == "word" and describes(word_of(t)) for t in tokens[of + 1 :]
    )
    if run and plain and said[of - len(own) : of] == own and " ".join(run) not in others:
        yield tokens[:of], tokens[of:]


def _parts_of(job: Job) -> tuple[Part, ...]:
    field = job.place.names.field_of(job.subjects[0].text)
    return field[0] if field else ()


_HOLDING = listed("asides", "carrying")
_MULTIPLES = ("even", "odd", "multiple")
_OWNED = ("a", "an", "the", "said", "its", "each")
_VERBS = frozenset(
    "is are being has have having corresponds correspond comprises comprise contains contain lies lie".split()
)
MOST_OF_A_BEARER = 10
_HAVING = ("having", "has", "have", "with")
