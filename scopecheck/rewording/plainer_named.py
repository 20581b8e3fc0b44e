"""What is said more plainly in other words, by looking at what stands left of the colon as well."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Step
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit, kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.circumstances import IN_EACH, SO_MANY_PER, SO_OFTEN
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.plainer_amounts import OPEN_WORDS
from scopecheck.rewording.plainer_states import STATES
from scopecheck.vocabulary.names import Bound, Typed

Tokens = tuple[Token, ...]
_DETERMINERS = frozenset(("the", "a", "an"))


def in_a_state(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least 16 degC in a cooling mode` as when it is in that mode."""
    members = {m.lower() for s in subjects if isinstance(s.bound, ChoiceDecl) for m in s.bound.members}
    words = [word_of(t) for t in tokens]
    found = list[Token]()
    for at, token in enumerate(tokens):
        state = words[at] == "in" and words[at + 1 : at + 2] and words[at + 1] in _DETERMINERS
        named = state and words[at + 3 : at + 4] and words[at + 3] in STATES and words[at + 2] in members
        if named and (not found or word_of(found[-1]) != "when"):
            found.append(replace(token, text="when", end=token.start))
        found.append(token)
    return tuple(found)


def without_needless(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`12 consecutive weeks` as 12 weeks, `eight different sizes` of a number of sizes as eight sizes."""
    own = f"{subject.text} {' '.join(notes)}".lower().split()
    found = list[Token]()
    for at, token in enumerate(tokens):
        before, behind = found[-1] if found else None, tokens[at + 1] if at + 1 < len(tokens) else None
        counted = before is not None and (before.number or word_of(before) in NUMBER_WORDS)
        if not counted or before is None or behind is None or behind.sort != "word":
            found.append(token)
            continue
        unit = find_unit(behind.text) if word_of(token) in _IN_A_ROW else None
        if unit is not None and unit.kind.dimension == TIME:
            continue
        if word_of(token) in _NOT_THE_SAME and word_of(behind) in own and _is_whole(subject.bound):
            continue
        found.append(token)
    return _with_units_joined(tuple(found))


def without_noted_whole(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`at least 10 % of the servers` without what the note says that it is a share of."""
    words, noted = [word_of(t) for t in tokens], {w.strip(",;") for w in " ".join(notes).lower().split()}
    of = max((i for i, w in enumerate(words) if w == "of"), default=0)
    behind = [w for w in words[of + 1 :] if w not in _DETERMINERS and w not in ("its", "their", "said")]
    share = of > 0 and is_bare_share(tokens[of - 1]) and isinstance(subject.bound, Typed)
    own = share and isinstance(subject.bound, Typed) and subject.bound.kind == PLAIN_KIND
    return tokens[:of] if own and behind and noted.issuperset(behind) else tokens


def _with_units_joined(tokens: Tokens) -> Tokens:
    """A number with the unit of time that stands behind it now."""
    found = list[Token]()
    for token in tokens:
        number = found[-1].number if found else None
        unit = find_unit(token.text) if number and number.unit is None and token.sort == "word" else None
        if number and unit is not None and unit.kind.dimension == TIME:
            found[-1] = replace(found[-1], number=replace(number, unit=unit), end=token.end)
        else:
            found.append(token)
    return tuple(found)


_IN_A_ROW = ("consecutive", "successive", "continuous", "uninterrupted")
_NOT_THE_SAME = ("different", "distinct")


def in_the_first(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`within the first 10 minutes`, of when something starts, as within 10 minutes."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    words = [word_of(t) for t in tokens]
    own = {w.strip(",;()") for text in (subject.text, *notes) for w in text.lower().split()}
    first = len(words) == 4 and words[1:3] == ["the", "first"] and words[0] in ("within", "in", "during")
    if not first or kind is None or kind.dimension != TIME or not tokens[3].number or not own & _STARTING:
        return tokens
    return (replace(tokens[0], sort="word", text="within"), tokens[3])


_STARTING = listed("steps", "since")


def for_so_long(tokens: Tokens, subject: Bound) -> Tokens:
    """`20 minutes or longer` of a step as for so long; of a duration, `for one hour` without the 'for'."""
    first, *rest = tokens if len(tokens) > 1 else (*tokens, *tokens)
    timed = isinstance(subject, Typed) and subject.kind is not None and subject.kind.dimension == TIME
    if timed and word_of(first) == "for" and (has_number(rest[0]) or word_of(rest[0]) in _BESIDE_TIMES):
        return tuple(rest)
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    lasts = bool(units) and all(u.kind.dimension == TIME for u in units)
    words = [word_of(t) for t in tokens]
    at = any(w == "at" and then not in ("least", "most") for w, then in pairwise([*words, ""]))
    others = (w for w, t in zip(words, tokens, strict=True) if not t.number)
    if not isinstance(subject, Step) or not lasts or at or not _BESIDE_TIMES.issuperset(others):
        return tokens
    return (replace(tokens[0], sort="word", text="for", number=None, end=tokens[0].start), *tokens)


_BESIDE_TIMES = frozenset(
    "at least most or more less longer shorter not than no from to between and up about approximately".split()
)


def with_times_per(tokens: Tokens, subject: Bound) -> Tokens:
    """`at least twice a day` of how often as at least two times per day; else as it is."""
    kind = subject.kind if isinstance(subject, Typed) else None
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if _is_so_often(tokens[i:])), None)
    if kind is None or kind.dimension != SO_MANY_PER or at is None:
        return tokens
    first, often, per = (
        tokens[at],
        SO_OFTEN.get(words[at]),
        words.index("times") if "times" in words else at,
    )
    said = (
        (replace(first, text=w, end=first.end) for w in (often, "times")) if often else tokens[at : per + 1]
    )
    behind = tokens[(at if often else per) + 1 :]
    return (*tokens[:at], *said, replace(behind[0], text="per"), *behind[1:])


def _is_so_often(tokens: Tokens) -> bool:
    """Do the words begin with `twice a day`, `three times per hour`?"""
    words = [word_of(t) for t in tokens[:4]]
    behind = 1 if words[:1] and words[0] in SO_OFTEN else 2 if words[1:2] == ["times"] else 0
    if not behind or len(words) < behind + 2 or words[behind] not in IN_EACH:
        return False
    unit = find_unit(words[behind + 1])
    return unit is not None and unit.kind.dimension == TIME


def with_both_alike(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`the same number of spoke holes`, `have the same length`, of two things, as that they are the same."""
    words = [word_of(t) for t in tokens]
    start = next((i for i, w in enumerate(words) if w in ("same", "equal")), None)
    if len(subjects) != 2 or start is None or any(w not in _BEFORE_SAME for w in words[:start]):
        return tokens
    behind = words[start + 1 :]
    if any(t.number or t.sort != "word" for t in tokens) or not {"and", "or", "as", "to"}.isdisjoint(behind):
        return tokens
    if all(_is_whole(s.bound) for s in subjects):
        # Both are numbers of what is said last: left holes and right holes.
        both = [s.text.lower().split() for s in subjects]
        named = set(both[0]) & set(both[1]) | set(notes[0].lower().split()) & set(notes[1].lower().split())
        alike = behind[:2] == ["number", "of"] and len(behind) > 2 and named.issuperset(behind[2:])
    else:
        kind = kind_word(behind[0]) if len(behind) == 1 else None
        kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
        alike = kind is not None and len(kinds) == 2 and all(map(kind.accepts, kinds))
        dimensions = listed("measures", "dimensions").intersection(
            w for s in subjects for w in s.text.split()
        )
        alike = alike and (not dimensions or behind[0] in dimensions)
    if alike:
        return (replace(tokens[start], text="equal", end=tokens[-1].end),)
    return tokens


def without_their(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`their masses differ by at most 20 g`, of two things, without what both are."""
    words = [word_of(t) for t in tokens[:3]]
    measures = listed("measures", "nouns")
    both = len(subjects) == 2 and words[:1] == ["their"] and len(words) == 3
    singular = {words[1].removesuffix("s"), words[1].removesuffix("es")} if both else set()
    return tokens if singular.isdisjoint(measures) else tokens[2:]


def without_what_is_counted(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`12 and 14 teeth, respectively`, of two numbers of teeth, without what is counted."""
    words = [word_of(t) for t in tokens]
    end = len(words) - 1 - (words[-2:-1] == [","])
    counts = len(subjects) > 1 and all(_is_whole(s.bound) for s in subjects)
    if not counts or words[-1] != "respectively" or end < 2 or not tokens[end - 2].number:
        return tokens
    noun = words[end - 1]
    counted = tokens[end - 1].sort == "word" and noun not in listed("measures", "not_called")
    return (*tokens[: end - 1], *tokens[end:]) if counted and find_unit(noun) is None else tokens


def with_same_or_more(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the same or higher`, of two things, as at least the other."""
    words = [word_of(t) for t in tokens if word_of(t) not in _BEFORE_SAME]
    if len(subjects) != 2 or words[:2] != ["same", "or"] or len(words) != 3:
        return tokens
    side = "least" if words[2] in _MORE else "most" if words[2] in _LESS else ""
    said = ("at", side, *subjects[1].text.split()) if side else ()
    return tuple(replace(tokens[0], text=w, end=tokens[-1].end) for w in said) or tokens


_MORE = "higher greater larger more longer wider thicker heavier".split()
_LESS = "lower less smaller fewer shorter narrower thinner lighter".split()
_BEFORE_SAME = frozenset("the an a have has having of are is being".split())


def without_verb_of_name(tokens: Tokens, subject: Subject) -> Tokens:
    """`shrinks by less than 2 %` of a shrinkage, `retried at most twice` of a number of retries, without the
    verb."""
    words = [word_of(t) for t in tokens]
    start = len(words[:1]) and words[0] in ("which", "that", "is", "are", "being")
    whole = isinstance(subject.bound, Typed) and subject.bound.whole
    times = whole and words[-1] in (*SO_OFTEN, "times") and words[start : start + 1] != []
    times = times and words[start].endswith("ed")
    pair = 2 * (words[start + 1 : start + 3] in (["one", "another"], ["each", "other"]))
    by = words[start + 1 + pair : start + 2 + pair] == ["by"]
    if not (by or times) or len(words[start]) < MOST_OF_A_STEM:
        return tokens
    stem = words[start][:MOST_OF_A_STEM]
    named = any(w.startswith(stem) for w in subject.text.lower().split())
    return tokens[start + 1 + (by and pair) + by :] if named else tokens


def without_verb_of_first(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`overlapping by at least half of the width`, of an overlap and a width, without the verb."""
    return without_verb_of_name(tokens, subjects[0]) if "by" in map(word_of, tokens[1:4]) else tokens


MOST_OF_A_STEM = 5


def without_name_behind(tokens: Tokens, name: str) -> Tokens:
    """`at least 85 % of the drug is released` of what is called released without the verb behind."""
    words, own = [word_of(t) for t in tokens], name.lower().split()
    at = len(words) - len(own) - 1
    return tokens[:at] if at > 0 and words[at] in ("is", "are") and words[at + 1 :] == own else tokens


def with_temperature_behind(tokens: Tokens, subject: Bound) -> Tokens:
    """`a viscosity at 20 degC of less than 5 Pa.s` with the condition of measuring behind the limit."""
    kind = subject.kind if isinstance(subject, Typed) else None
    words = [word_of(t) for t in tokens]
    for at in range(1, len(tokens) - 3):
        number = tokens[at + 1].number
        other = number is not None and number.unit is not None and number.unit.kind != kind
        if words[at] == "at" and other and words[at + 2] in ("of", "is", "being"):
            return (*tokens[:at], *tokens[at + 2 :], *tokens[at : at + 2])
    return tokens


def with_value_named(tokens: Tokens, name: str) -> Tokens:
    """`an absolute value of at most 50 MPa`, `a stress having an absolute value of`, with the name behind."""
    words, own = [word_of(t) for t in tokens], name.lower().split()
    for at in range(len(words) - 3):
        width = next((len(run) for run in _VALUES if words[at : at + len(run)] == run), 0)
        leading = all(w in _LEADING or w in own for w in words[:at])
        if width and leading and words[at + width] not in ("the", "a", "an", *own[:1]):
            first = tokens[at]
            said = ("absolute", "value", "of", "the", *own, "of")
            named = (replace(first, sort="word", text=w, end=first.start) for w in said)
            return (*named, *tokens[at + width :])
    return tokens


_VALUES = (["absolute", "value", "of"], ["magnitude", "of"], ["absolute", "magnitude", "of"])
_LEADING = frozenset("a an the having has with of whose".split())


def with_so_many_had(tokens: Tokens, subject: Bound) -> Tokens:
    """`comprises no more than four layers`, of a number of layers, as having so many."""
    if not _is_whole(subject) or not tokens or word_of(tokens[0]) not in OPEN_WORDS:
        return tokens
    return (replace(tokens[0], text="having"), *tokens[1:])


def without_comma_before_inclusive(tokens: Tokens, subject: Subject) -> Tokens:
    """`from four to eight holes, inclusive` of holes without their name behind the numbers."""
    if len(tokens) < 4 or word_of(tokens[-1]) not in ("inclusive", "exclusive") or tokens[-2].text != ",":
        return tokens
    named = word_of(tokens[-3]) == subject.text.lower() and _is_whole(subject.bound)
    return (*tokens[:-3], *tokens[-2:]) if named else tokens


def _is_whole(bound: Bound) -> bool:
    return isinstance(bound, Typed) and bound.whole
