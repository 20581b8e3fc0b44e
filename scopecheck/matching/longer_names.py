"""More words for a thing than its name has: what a short name stands for, what its note says, its verb."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.quantity import PLAIN_KIND, Kind, kind_word
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.names_and_notes import (
    ARTICLES,
    MOST_OF_A_STEM,
    NO_LIMITS,
    Tokens,
    forms_of,
    is_description,
    is_short,
    of_notes,
    word_of_name,
)
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import describes, names_another_dimension, noted_so
from scopecheck.vocabulary.names import Typed


def without_description(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a median particle size (D50) of 5 um` of D50 without the words that the short name stands for; and
    these words."""
    if len(job.subjects) != 1 or not is_short(job.subjects[0].text):
        return
    name = word_of_name(job)
    at = next((i for i, t in enumerate(tokens) if word_of(t) == name), 0)
    bracketed = 0 < at < len(tokens) - 1 and (tokens[at - 1].text, tokens[at + 1].text) == ("(", ")")
    first = at - bracketed
    start = first
    while start and is_description(tokens[start - 1]):
        start -= 1
    if start < first:
        yield (*tokens[:start], tokens[at], *tokens[at + 1 + bracketed :]), tokens[start:first]


def without_noted(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a median particle size (D50) of 5 um` without what the note of the declaration says as well."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort not in _OF_ONE_VALUE:
        return
    ends = (
        i for i, t in enumerate(tokens) if i and (t.number or word_of(t) in ("of", "is", "being", "having"))
    )
    for end in ends:
        said = [word_of(t) for t in tokens[:end]]
        if any(t.number for t in tokens[:end]):
            return
        if not FILLERS.issuperset(said) and noted_so(job, said):
            yield tokens[end:], ()
        of = next((i for i in range(1, end) if said[i : i + 2] in (["of", "the"], ["of", "a"])), 0)
        bearer = tokens[of + 2 : end] if of else ()
        another = job.place.names.declared(" ".join(said[of + 2 :])) is not None
        if bearer and not another and noted_so(job, said[:of]) and all(map(is_description, bearer)):
            yield tokens[end:], tokens[of:end]


_OF_ONE_VALUE = ("", "parts", "moments")


def without_name_and_more(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a hole expansion ratio λ of 60 % or more`, of the hole expansion, without what stands before the
    limit; and what of that says more than the name and the note."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    name = word_of_name(job).split()
    own = {*name, *of_notes(job)}
    others = [n.lower() for n in job.place.names.all() if n.lower() != " ".join(name)]
    limits = listed("limits", "inside") - {*NO_LIMITS, *_CALLED_SO}
    end = next((i for i, t in enumerate(tokens) if t.number or word_of(t) in limits), 0)
    at = next((i for i in range(end - 1, 0, -1) if word_of(tokens[i]) in ("of", "is", "being")), 0)
    stems = {
        w: own
        for w in map(word_of, tokens[:at])
        for own in name
        if len(own) >= MOST_OF_A_STEM and w.startswith(own)
    }
    said = [stems.get(word_of(t), word_of(t)) for t in tokens[:at]]
    spoken = {w for w in name if w not in said} <= listed("mention", "ordinals") and name[-1] in said
    more = tuple(
        t for t in tokens[:at] if word_of(t) not in {*own, *FILLERS, *stems} and not _is_kind_of(t, job)
    )
    another = any(f" {n} " in f" {' '.join(said)} " for n in others)
    drops = not listed("conditional", "drops").isdisjoint(said)  # an oven drop is no oven
    if at and spoken and not (another or drops) and all(_may_stand_beside(t, said, name) for t in more):
        yield tokens[at + 1 :], more


def without_verb_and_object(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`overlaps a side panel by 10 to 15 cm`, of an overlap, without the verb; and what is overlapped.

    `the damper is opened by 20 %` too, of a share noted "by which the damper is opened".
    """
    said = [word_of(t) for t in tokens]
    by = next((i for i in range(1, min(7, len(said) - 1)) if said[i] == "by"), 0)
    if len(job.subjects) != 1 or not by or job.sort:
        return
    note = job.place.names.note_of(job.subjects[0].text).lower().split()
    if note[:2] == ["by", "which"] and {*said[:by]} <= FILLERS | {w.strip(",;") for w in note}:
        yield tokens[by + 1 :], ()
    itself = FILLERS | job.tests().own_words | {w.strip(",;") for w in note}
    verbs = (i for i in range(by) if len(said[i]) >= MOST_OF_A_STEM)
    stems = {w[:MOST_OF_A_STEM] for w in word_of_name(job).split()}
    start = next((i for i in verbs if said[i][:MOST_OF_A_STEM] in stems), by)
    if (
        start < by
        and itself.issuperset(said[:start])
        and all(is_description(t) or word_of(t) in ARTICLES for t in tokens[start + 1 : by])
    ):
        yield tokens[by + 1 :], tokens[start + 1 : by]


def without_what_a_sign_stands_for(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`an outer diameter of at least 4 mm`, of `d  length in mm`: a sign does not say what it stands for."""
    name, said = word_of_name(job) if len(job.subjects) == 1 else "", [word_of(t) for t in tokens]
    sign = job.subjects[0].text if name else ""
    if not sign or not isinstance(job.first, Typed) or job.sort or not (len(sign) <= 2 or is_short(sign)):
        return
    limits = listed("limits", "inside") - NO_LIMITS
    end = next((i for i, t in enumerate(tokens) if t.number or said[i] in limits), 0)
    at = next((i for i in range(end - 1, 1, -1) if said[i] in ("of", "is", "being")), 0)
    kind = kind_word(said[at - 1]) if at else None
    point = at and said[at - 2 : at] in (["melting", "point"], ["boiling", "point"], ["softening", "point"])
    own = job.first.kind
    length = at and said[at - 1] in listed("measures", "lengths") and own == Kind((("length", 1),))
    measured = bool(point or length) or (kind is not None and own is not None and kind.accepts(own))
    sized = bool(at) and said[at - 1] in ("diameter", "size")
    middle = _is_median(name) and sized
    measured |= middle and own == Kind((("length", 1),))
    if (_is_median(name) and {"radius", "thickness"} & {*said[:at]}) or names_another_dimension(
        job, said[:at]
    ):
        return
    others = [n.lower() for n in job.place.names.all() if n.lower() != name]
    another = any(f" {n} " in f" {' '.join(said[:at])} " for n in others)
    noted, called = of_notes(job), {w for w in said[: at - 1] if w not in FILLERS} if at else set[str]()
    another |= bool(at) and said[at - 1] in noted and not called <= noted  # noted is another diameter
    if (
        measured
        and not another
        and all(
            describes(w) or w in FILLERS or w in _WHICH_SIDE or (middle and (w == "median" or w in noted))
            for w in said[: at - 1 - bool(point)]
        )
    ):
        yield tokens[at + 1 :], tokens[:at]


def _is_median(name: str) -> bool:
    """`d50`, `dv50`, `d(0.5)`: the size below which half of the particles lie."""
    return name[:1] in ("d", "x") and name.strip("()").endswith(("50", "0.5", ".5"))


def _is_kind_of(token: Token, job: Job) -> bool:
    """`a prestressing force`, of a prestress that is a force."""
    kind, own = kind_word(word_of(token)), job.first.kind if isinstance(job.first, Typed) else None
    return kind is not None and own is not None and own != PLAIN_KIND and kind.accepts(own)


def _may_stand_beside(token: Token, said: list[str], name: list[str]) -> bool:
    """Beside its name a thing may be described, be called a ratio or a rate, and have a sign of its own."""
    word = word_of(token)
    behind = name[-1] in said[: said.index(word)]
    at = said.index(word)
    if said[at : at + 2] == ["to", "be"] or said[max(0, at - 2) : at] == ["to", "be"]:
        return True  # the branch to be cut
    sign = (len(token.text) <= MOST_OF_A_SIGN and not token.text.islower()) or not token.text.isascii()
    middle = word == "median" and any(w.endswith("50") for w in said)  # D50 is the median size
    of_a_sign = any(c.isdigit() for c in name[-1]) and is_description(token)  # 'a particle size D50', of D50
    # Behind its name another noun makes another thing of it: the oil phase.
    before = not behind and (describes(word) or middle or of_a_sign)
    return before or sign or (behind and word in _CALLED_SO)


MOST_OF_A_SIGN = 3
_WHICH_SIDE = ("inner", "outer", "overall", "upper", "lower")
_CALLED_SO = listed("measures", "called_so")


def without_number_behind_name(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a version number larger than 7`, of a count called version, without the number; and that."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or not job.first.whole or job.sort:
        return
    said, own = [word_of(t) for t in tokens], set(forms_of(job.subjects[0].text))
    at = next((i for i in range(1, len(said)) if said[i] in ("number", "count") and said[i - 1] in own), 0)
    if at and said[at] not in own and said[at + 1 : at + 2] not in ([], ["of"]):
        yield (*tokens[:at], *tokens[at + 1 :]), tokens[at : at + 1]
