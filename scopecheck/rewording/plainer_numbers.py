"""Tolerances, multiples and how often, said more plainly; used by `plainer.py` alone."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.core.declared import Composition, SetDecl
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import PREFERENCES, has_number, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.subjects import Subject, is_bare_share, is_fraction
from scopecheck.matching.unfit import low_end_at, takes_over_for_across
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Bound, Typed

Tokens = tuple[Token, ...]
_ABOUT = frozenset("about approximately substantially roughly around".split())
_LARGE = listed("measures", "of_size")


def _tolerance_at(words: list[str]) -> int:
    """Where what a tolerance is begins, behind 'with a tolerance of'; 0 if no tolerance is told."""
    at = next((i for i, w in enumerate(words) if w in ("tolerance", "tolerances")), 0)
    return at + 2 if at > 1 and words[at + 1 : at + 2] == ["of"] else 0


def with_ends_limited(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`more than 5 % to about 25 %`, `from 2 bar to not more than 5 bar`, of one thing, as two limits.

    Words that deny, change or set a condition are of the range as a whole: with them it stays as it is.
    """
    words = [word_of(t) for t in tokens]
    if len(subjects) != 1 or not _OF_THE_WHOLE.isdisjoint(words) or listed("limits", "changing") & {*words}:
        return tokens
    for at in (i for i, word in enumerate(words) if i and word in ("to", "and")):
        up = at - (words[at - 1] == "up")
        first = next((i for i in range(up - 1, max(up - 4, -1), -1) if has_number(tokens[i])), -1)
        second = next((i for i in range(at + 1, min(at + 6, len(tokens))) if has_number(tokens[i])), 0)
        if first < 0 or not second or (up - first > 1 and words[first + 1] != "by"):
            continue
        hedged = words[first - 1] in _HEDGES and first > 0
        low, start = _limit_before(words, first - hedged)
        lead = words[start - 1] if start else ""
        behind = [*words[at + 1 : second], ""]
        about = behind[-2] if behind[-2:-1] and behind[-2] in _HEDGES else ""
        said = " ".join(behind[:-1]).removesuffix(about).strip()
        high = next((limit for limit, runs in _HIGHEST.items() if said in runs), "")
        between = words[at] == "and"
        if (said and not high) or not (low or high) or (lead != "between") == between:
            continue
        if low == "at least" and not high and lead != "from" and up == at:
            continue  # of 'at least 2 to 3 mm' the least may lie anywhere from 2 to 3 mm
        if low == "more than" and not (high or hedged or about or between):
            continue  # a phrase reads 'more than 2 to 3 mm'
        led = lead not in listed("limits", "inside") - _LEADS_TO_A_RANGE and "not" not in words[:start]
        if not led or not _below(tokens[first], tokens[second]):
            continue
        number, unit = tokens[first].number, (other := tokens[second].number) and other.unit
        if number and (number.unit is None or _shared(tokens[first], tokens[second])):
            number = replace(number, unit=unit)
        hedge = words[first - 1] if hedged else ""
        return (
            *tokens[: start - (lead in ("from", "between"))],
            *words_at(tokens[start], f"{low or 'at least'} {hedge}", understood=True),
            replace(tokens[first], number=number),
            *tokens[first + 1 : up],
            *words_at(tokens[at], f"and {high or 'at most'} {about}"),
            *tokens[second:],
        )
    return tokens


@record
class Preference:
    """Of `up to 5 mm, preferably 2 to 3 mm but ...`: where the preference and the 'but' begin, and which
    sides the one and the other limit alone; a range limits none."""

    lead: int
    but: int
    preferred: str
    behind: str

    @property
    def sides(self) -> set[str]:
        """What the two limit, '' for a range."""
        return {self.preferred, self.behind}


def preference_with_but(tokens: Tokens) -> Preference | None:
    """A preference beside another limit, with one number behind a 'but'; None for other words."""
    words = [word_of(t) for t in tokens]
    lead = next((i for i, w in enumerate(words) if w in PREFERENCES), 0)
    but = next((i for i in range(lead + 1, len(words) - 1) if words[i] == "but"), 0)
    outer = any(map(has_number, tokens[:lead]))
    if not lead or not but or not outer or words[but - 1] == "," or sum(map(has_number, tokens[but:])) != 1:
        return None
    single = sum(map(has_number, tokens[lead:but])) == 1
    preferred = _limit_begun(words[lead + 1 :]) if single else ""
    return Preference(lead, but, preferred, _limit_begun(words[but + 1 :]))


def with_both_preferred(tokens: Tokens) -> Tokens:
    """`up to 5 mm, preferably at least 2 mm but less than 4 mm` with 'and' between both ends preferred.

    What lies beyond a preferred range limits all: `preferably 2 to 3 mm but never less than 1 mm`.
    """
    found = preference_with_but(tokens)
    if found is None:
        return tokens
    words, but = [word_of(t) for t in tokens], found.but
    if found.sides == {"at least", "at most"} and _limit_begun(words) == found.behind:
        return (*tokens[:but], replace(tokens[but], text="and"), *tokens[but + 1 :])
    denied = words[but + 1] in ("not", "never") and words[but + 3 : but + 4] == ["than"]
    if not denied or not found.behind or not lies_beyond(tokens, found):
        return tokens
    return (*tokens[: but + 1], *words_at(tokens[but + 1], found.behind), *tokens[but + 4 :])


def lies_beyond(tokens: Tokens, found: Preference) -> bool:
    """Is what is preferred a range, and the number behind the 'but' none of it?"""
    numbers = [t.number for t in tokens[found.lead :] if t.number]
    if len(numbers) != 3 or found.preferred or any(n.unit not in (None, numbers[-1].unit) for n in numbers):
        return False
    low, high, other = (n.value for n in numbers)
    return not low <= other <= high


def _limit_begun(words: list[str]) -> str:
    """The side that the words begin to limit, 'at least' or 'at most'; '' for neither."""
    for side, tables in (("at least", _LOWEST), ("at most", _HIGHEST)):
        runs = (run.split() for table in tables.values() for run in table)
        if any(words[: len(run)] == run for run in runs):
            return side
    return "at most" if words[:2] == ["up", "to"] else ""


def with_least_of_each(tokens: Tokens, bound: Bound) -> Tokens:
    """`at least 90 %, 95 % or 99 %` as at least each of them; of two, or of no share, it may be otherwise."""
    words = [word_of(t) for t in tokens]
    share = isinstance(bound, Typed) and not bound.whole and bound.kind and not bound.kind.dimension
    start = 2 if share and words[:2] == ["at", "least"] else 0
    places = [i for i, t in enumerate(tokens) if t.number]
    joined = all(words[a + 1 : b] in ([","], ["or"], [",", "or"]) for a, b in pairwise(places))
    if not start or len(places) < _SEVERAL or places[0] != start or not joined or "or" not in words:
        return tokens
    unit = next((t.number.unit for t in reversed(tokens) if t.number), None)
    made = list[Token]()
    for i, t in enumerate(tokens):
        if i in places[1:]:
            made += words_at(t, "at least", understood=True)
        bare = t.number is not None and t.number.unit is None
        made.append(replace(t, number=replace(t.number, unit=unit)) if bare and t.number else t)
    return tuple(made)


_SEVERAL = 3


def with_low_end_out(tokens: Tokens, bound: Bound) -> Tokens:
    """`over 0.05 to 0.10 wt%` as `more than 0.05 ...`, of a share of a whole."""
    if not takes_over_for_across(bound, tokens):
        return tokens
    at = low_end_at(tokens)
    return (*tokens[:at], *words_at(tokens[at], "more than"), *tokens[at + 1 :])


def _limit_before(words: list[str], at: int) -> tuple[str, int]:
    """The lower limit that ends at a place, and where it begins; '' for none."""
    for limit, runs in _LOWEST.items():
        for run in (r.split() for r in runs):
            if words[max(at - len(run), 0) : at] == run:
                return limit, at - len(run)
    return "", at


def _shared(one: Token, other: Token) -> bool:
    """Is the one a bare share, and does the other say of what both are?"""
    unit = other.number.unit if other.number else None
    return (
        is_bare_share(one) and unit is not None and bool(unit.kind.basis) and unit.factor == Fraction(1, 100)
    )


def _below(one: Token, other: Token) -> bool:
    """Is the one number less than the other, in the same unit or in that of the other?"""
    if not (one.number and other.number):
        return NUMBER_WORDS.get(word_of(one), 0) < NUMBER_WORDS.get(word_of(other), 0)
    alike = one.number.unit is None or one.number.unit == other.number.unit or _shared(one, other)
    return alike and one.number.value < other.number.value


_GREATER = "more greater higher larger longer wider thicker".split()
_LESSER = "less fewer lower smaller shorter narrower thinner".split()
_NOT = ("no", "not", "never")
_LOWEST = {
    "more than": [*(f"{w} than" for w in _GREATER), "over", "above", "exceeding", "in excess of"],
    "at least": [
        "at least",
        *(f"{no} {w} than" for no in _NOT for w in _LESSER),
        "not below",
    ],
}
_HIGHEST = {
    "less than": [*(f"{w} than" for w in _LESSER), "below", "under"],
    "at most": [
        "at most",
        *(f"{no} {w} than" for no in _NOT for w in _GREATER),
        "not above",
    ],
}
_HEDGES = frozenset("about approximately around roughly circa approx".split())
_LEADS_TO_A_RANGE = frozenset("from between of a in the is are range".split())
_OF_THE_WHOLE = frozenset(
    "never without except excluding outside other neither nor unless if when where while or".split()
)


def without_either_direction(tokens: Tokens) -> Tokens:
    """`4.2 V with a tolerance of 50 mV in either direction` without what a tolerance is anyway."""
    words = [word_of(t) for t in tokens]
    behind = next((w for w in _EITHER if words[-len(w) :] == w), None)
    return tokens[: -len(behind)] if behind and _tolerance_at(words) else tokens


_EITHER = (
    ["in", "either", "direction"],
    ["in", "both", "directions"],
    ["either", "way"],
    ["on", "either", "side"],
)


def with_within_behind(tokens: Tokens) -> Tokens:
    """`0.8 N/mm, within 10 %` as 0.8 N/mm to within 10 %."""
    words = [word_of(t) for t in tokens]
    at = 1 + (words[1:2] == [","])
    if (
        not tokens[0].number
        or words[at : at + 1] != ["within"]
        or len(tokens) != at + 2
        or not tokens[-1].number
    ):
        return tokens
    return (tokens[0], replace(tokens[at], sort="word", text="to", end=tokens[at].start), *tokens[at:])


def with_average_before(tokens: Tokens) -> Tokens:
    """`at least 60 per minute on average` as an average of that."""
    words = [word_of(t) for t in tokens]
    behind = next((len(w) for w in _ON_AVERAGE if len(words) > len(w) and words[-len(w) :] == w), 0)
    before = 0 if behind else next((len(w) for w in _ON_AVERAGE if words[: len(w)] == w != words), 0)
    if not (behind or before) or not {"average", "of"}.isdisjoint(words[before : len(words) - behind]):
        return tokens
    said = tokens[before : len(tokens) - behind]
    first, end = said[0], tokens[-1].end
    own = replace(said[-1], end=end) if behind else said[-1]
    return (
        *(replace(first, sort="word", text=w, number=None) for w in ("average", "of")),
        *said[:-1],
        own,
    )


_ON_AVERAGE = (["on", "average"], ["on", "the", "average"], ["as", "an", "average"])


def with_tolerance_of_a_value(tokens: Tokens) -> Tokens:
    """`is twice the width, within 5 %`, or with a tolerance of it, as twice the width ± 5 %."""
    words = [word_of(t) for t in tokens]
    for behind in _TOLERATED:
        at = len(words) - 1 - len(behind)
        last = tokens[-1].number
        if at > 1 and last and words[at:-1] == behind and words[0] in _OF_A_VALUE:
            end = at - (words[at - 1] == ",")
            if any(t.number and t.number.unit for t in tokens[:end]):
                return tokens
            sign = replace(tokens[at], sort="word", text="±", end=tokens[at].start)
            return (*tokens[:end], sign, tokens[-1])
    return tokens


_TOLERATED = (
    ["to", "within"],
    ["to", "within", "±"],
    ["within"],
    ["within", "±"],
    ["with", "a", "tolerance", "of"],
    ["with", "a", "tolerance", "of", "±"],
)
_OF_A_VALUE = frozenset("is being twice half double thrice three".split())


def with_multiples(tokens: Tokens) -> Tokens:
    """`10 mm or a multiple thereof` as an integer multiple of 10 mm."""
    words = [word_of(t) for t in tokens]
    behind = [w for w in words[1:] if w not in ("integer", "whole", "integral", "number")]
    if not (tokens[0].number or words[0] in NUMBER_WORDS) or behind not in (
        ["or", "a", "multiple", "thereof"],
        ["or", "multiples", "thereof"],
    ):
        return tokens
    first = tokens[0]
    said = (replace(first, sort="word", text=w, number=None, end=first.start) for w in _MULTIPLE_OF)
    return (*said, first)


_MULTIPLE_OF = ("an", "integer", "multiple", "of")


def without_less_behind_within(tokens: Tokens) -> Tokens:
    """`within 10 seconds or less` without what 'within' says."""
    words = [word_of(t) for t in tokens]
    said = len(words) == 4 and words[0] == "within" and words[2:] == ["or", "less"] and tokens[1].number
    return tokens[:2] if said else tokens


def without_as_large_as(tokens: Tokens) -> Tokens:
    """`approximately twice as large as the rim` as approximately twice the rim."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 3):
        large = words[at] == "as" and words[at + 1] in _LARGE and words[at + 2] == "as"
        if large and words[at - 1] in ("twice", "half", "times") and not _ABOUT.isdisjoint(words[:at]):
            return (*tokens[:at], *tokens[at + 3 :])
    return tokens


def from_the_first(tokens: Tokens) -> Tokens:
    """`2 mm to half of the rim`, `2 mm up to a third of it`, with 'from'; not `2 to half of the ribs`."""
    words = [word_of(t) for t in tokens]
    at = int(words[:1] in (["of"], ["is"], ["being"]))
    to = at + 1 + (words[at + 1 : at + 2] == ["up"])
    number = tokens[at].number if at < len(tokens) else None
    measured = number is not None and number.unit is not None and bool(number.unit.kind.dimension)
    part = words[to + 1 : to + 2] == ["half"] or any(
        map(is_fraction, with_fractions(tokens[to + 1 : to + 3]))
    )
    if not measured or words[to : to + 1] != ["to"] or not part:
        return tokens
    return (*words_at(tokens[at], "from", understood=True), tokens[at], *tokens[to:])


def of_each_other(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`substantially equal to each other`, of two things, as substantially equal to the other one."""
    words = [word_of(t) for t in tokens]
    other = words[-2:] in (["each", "other"], ["one", "another"])
    if len(subjects) != 2 or not other or _ABOUT.isdisjoint(words) or "equal" not in words:
        return tokens
    named = subjects[1].text.split()
    first = tokens[-2]
    return (*tokens[:-2], *(replace(first, sort="word", text=w, end=first.start) for w in named))


def with_which_is(tokens: Tokens, bound: Bound) -> Tokens:
    """`an odd number of teeth which is not divisible by 3`, of a count, with an 'and'."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(2, len(words) - 2) if words[i] in ("which", "that")), 0)
    whole = isinstance(bound, Typed) and bound.whole
    if not whole or not at or words[at + 1] not in ("is", "are") or not {"odd", "even"} & set(words[:at]):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="and"), *tokens[at + 2 :])


def so_often(tokens: Tokens, bound: Bound) -> Tokens:
    """`at most four times and at least once per day`, of a count, as at most four and at least one."""
    words = [word_of(t) for t in tokens]
    whole = isinstance(bound, Typed) and bound.whole
    if not whole or {"once", "twice", "thrice"}.isdisjoint(words) or not {"least", "most"} & set(words):
        return tokens
    found = list[Token]()
    for at, token in enumerate(tokens):
        if words[at] == "times" and at and (tokens[at - 1].number or tokens[at - 1].sort == "word"):
            continue
        limit = at and words[at - 1] in ("least", "most", "than")
        text = _ONE.get(words[at]) if limit else None
        found.append(replace(token, text=text) if text else token)
    per = next((i for i, t in enumerate(found) if word_of(t) in ("per", "a", "every", "each") and i > 3), 0)
    return tuple(found[:per] if per and len(found) - per == 2 else found)


_ONE = {"once": "one", "twice": "two", "thrice": "three"}


def without_containing(tokens: Tokens, bound: Bound) -> Tokens:
    """`containing zinc or nickel, but not both`, of a set, without the verb."""
    words = [word_of(t) for t in tokens]
    verb = words[:1] != [] and words[0] in listed("asides", "holding")
    of_list = isinstance(bound, SetDecl | Composition)
    return tokens[1:] if verb and of_list and words[-2:] == ["not", "both"] else tokens


def with_noted_name(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`a down force of at most 2 N`, where the note of a field says 'down force', by its name."""
    name = subject.text.split(" of the ")[0] if subject.parts is not None else subject.text
    words = [word_of(t) for t in tokens]
    for note in notes:
        said = note.lower().split()
        at = next((i for i in range(len(words) - len(said)) if words[i : i + len(said)] == said), None)
        if len(said) < 2 or at is None or name.lower() in words[:at]:
            continue
        first = tokens[at]
        named = (replace(first, sort="word", text=w, end=first.start) for w in name.split())
        return (*tokens[:at], *named, *tokens[at + len(said) :])
    return tokens


def without_field_behind_differ(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the lumens differ in diameter by at most 0.1 mm`, of the field, without its name."""
    words, own = [word_of(t) for t in tokens], subjects[0].text.lower().split(" of the ")[0].split()
    width = 2 + len(own)
    for at in range(len(words) - width):
        if words[at] in ("differ", "differs", "differing") and words[at + 1 : at + width] == ["in", *own]:
            return (*tokens[: at + 1], *tokens[at + width :])
    return tokens


def of_the_class(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`5 to 25 wt% of at least one wax`, of a class, as so much of a wax."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 3) if words[i : i + 3] in ONE_OR_MORE), 0)
    named = words[at + 3 :]
    own = [subjects[0].text.lower(), f"{subjects[0].text.lower()}s"]
    if not at or len(subjects) != 1 or subjects[0].mixture is None or " ".join(named) not in own:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="a", end=tokens[at + 2].end), *tokens[at + 3 :])


def with_each(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`every lumen has a diameter of at most half the shaft`, of several things, with 'each' and 'having'."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(2, min(5, len(words))) if words[i] in ("has", "have")), 0)
    if len(subjects) < 2 or subjects[0].parts is None or words[0] not in ("every", "each") or not at:
        return tokens
    return (
        replace(tokens[0], text="each"),
        *tokens[1:at],
        replace(tokens[at], text="having"),
        *tokens[at + 1 :],
    )


def with_stroke(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`a polydispersity Mw/Mn of less than 3`, of both, as a ratio of the one to the other."""
    words = [word_of(t) for t in tokens]
    if len(subjects) != 2 or words.count("/") != 1:
        return tokens
    at = words.index("/")
    first, second = (s.text.lower().split() for s in subjects)
    start, end = at - len(first), at + 1 + len(second)
    named = words[max(start, 0) : at] == first and words[at + 1 : end] == second
    lead = tokens[: max(start, 0)]
    lead = lead[:-1] if words[start - 1 : start] == ["ratio"] and start > 1 else lead
    if "ratio" in words[: len(lead)] or "ratio" in words[at:]:
        return tokens
    worked = listed("asides", "worked_out") | listed("beside", "other_values") | {"root"}
    if len(lead) > _MOST_BEFORE_STROKE or not worked.isdisjoint(words[: len(lead)]):
        return tokens  # 'the reciprocal of D/H' is another value
    if not named or not all(t.sort == "word" for t in lead):
        return tokens
    ratio, of = (
        replace(tokens[start], sort="word", text=w, end=tokens[start].start) for w in ("ratio", "of")
    )
    return (ratio, of, *tokens[start:at], replace(tokens[at], sort="word", text="to"), *tokens[at + 1 :])


_MOST_BEFORE_STROKE = 4


def if_and_only_if(tokens: Tokens) -> Tokens:
    """`whenever the speed exceeds 12 km/h, and not otherwise` as if and only if it does."""
    words = [word_of(t) for t in tokens]
    said = next((run for run in _NOT_OTHERWISE if words[-len(run) :] == run), None)
    at = next((i for i, w in enumerate(words) if w in ("when", "whenever", "if")), None)
    if said is None or at is None:
        return tokens
    when = tokens[at]
    only = (replace(when, text=w, end=when.start) for w in ("if", "and", "only", "if"))
    return (*tokens[:at], *only, *tokens[at + 1 : -len(said)])


_NOT_OTHERWISE = (
    [",", "and", "not", "otherwise"],
    [",", "but", "not", "otherwise"],
    ["and", "not", "otherwise"],
)


def with_members_alone(tokens: Tokens, bound: Bound) -> Tokens:
    """`ethylene carbonate (EC), ethyl methyl carbonate (EMC)`, of a list of EC and EMC, with these alone."""
    members = getattr(bound, "members", ())
    words, short = [word_of(t) for t in tokens], {m.lower() for m in members if " " not in m}
    found, start = list[Token](), 0
    for at in range(len(words)):
        if words[at : at + 1] == ["("] and words[at + 2 : at + 3] == [")"] and words[at + 1] in short:
            back = next((i for i in range(at - 1, start - 1, -1) if words[i] in _PARTING), start - 1)
            del found[len(found) - (at - 1 - back) :]
            found.append(tokens[at + 1])
            start = at + 3
        elif at >= start:
            found.append(tokens[at])
    return tuple(found)


_PARTING = frozenset((",", "and", "or", "of", "from", "comprising", "containing", "with", "a", "an", "the"))


def without_what_is_done(tokens: Tokens, subject: Subject) -> Tokens:
    """`not more than 15 % of the nitrogen is released`, of a share called release, without what has it."""
    words = [word_of(t) for t in tokens]
    numbers = [i for i, t in enumerate(tokens) if t.number]
    be = next((i for i, w in enumerate(words) if w in ("is", "are")), 0)
    unit = tokens[numbers[-1]].number if numbers else None
    share = unit is not None and unit.unit is not None and not unit.unit.kind.dimension and unit.unit.symbol
    said = bool(share) and words[numbers[-1] + 1 : numbers[-1] + 2] == ["of"] and len(words) == be + 2
    own = subject.text.lower().split()
    verb = [w for w in own if w[:_STEM] == words[-1][:_STEM]]
    alike = said and len(verb) == 1 and all(w in words for w in own if w not in verb)
    return tokens[: numbers[-1] + 1] if alike and len(words[-1]) > _STEM else tokens


_STEM = 5


def without_bearer(tokens: Tokens, subject: Subject) -> Tokens:
    """`not more than 2 wt% of a slip agent`, of a share called slip, by its name."""
    words, own = [word_of(t) for t in tokens], subject.text.lower().split()
    behind = words[-1:] != [] and words[-1] in ("agent", "additive", "component", "compound", "ingredient")
    named = behind and words[-1 - len(own) : -1] == own and "of" in words and words[-1] not in own
    return tokens[:-1] if named else tokens


def with_smaller_in(tokens: Tokens) -> Tokens:
    """`no lumen is smaller in diameter than 0.3 mm` as no lumen has a diameter smaller than 0.3 mm."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 4):
        if words[at] in ("is", "are") and words[at + 2] == "in" and words[at + 4] == "than":
            verb, limit, noun = tokens[at], tokens[at + 1], tokens[at + 3]
            has = replace(verb, text="has" if words[at] == "is" else "have")
            article = replace(noun, text="a", end=noun.start)
            return (*tokens[:at], has, article, noun, limit, *tokens[at + 4 :])
    return tokens


def of_some_of_them(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least one has a diameter of 0.4 mm`, of a field of lumens, with what there is one of."""
    parts = subjects[0].parts if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, min(5, len(words))) if words[i] in ("has", "have", "having")), 0)
    if parts is None or not at or words[:at] not in _SOME:
        return tokens
    said = ("of", "the", *parts.called.split())
    first = tokens[at]
    return (*tokens[:at], *(replace(first, sort="word", text=w, end=first.start) for w in said), *tokens[at:])


_SOME = (["at", "least", "one"], ["at", "least", "two"], ["none"], ["one", "or", "more"], ["exactly", "one"])


def of_any_two(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the forces of any two units differ by 150 N at most` as that they differ by at most 150 N."""
    parts = subjects[0].parts if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 2) if words[i : i + 2] == ["any", "two"]), None)
    verb = next((i for i, w in enumerate(words) if w in ("differ", "differs", "differing")), 0)
    if parts is None or at is None or verb <= at:
        return tokens
    behind = tokens[verb + 1 :]
    if words[-2:] == ["at", "most"] and len(behind) > 3:
        behind = (behind[0], *behind[-2:], *behind[1:-2])
    return (replace(tokens[verb], text="differ"), *behind)
