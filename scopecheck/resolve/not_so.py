"""Words that no phrase may be laid over for what stands left of the colon: they say another thing of it.

`the pressure drops at least 4 bar` is no limit of a pressure, and what is heavier is so by no width.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl, Step
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.kinds import (
    ABOVE_A_REFERENCE,
    DECIBELS,
    LENGTH,
    TEMPERATURE,
    TIME,
    Dimension,
    Kind,
)
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.phrase_advice import OF_WHAT_IS_LEFT, WHAT_IS_LEFT
from scopecheck.matching.said_once import RATIO_BY, ratio_on_another_basis
from scopecheck.matching.states import side_words
from scopecheck.matching.subjects import Subject, is_bare_share, is_in_points
from scopecheck.rewording.class_but import rest_of_a_class
from scopecheck.rewording.plainer_counts import DISTANCES
from scopecheck.rewording.plainer_steps import AND_THEN
from scopecheck.rewording.plainer_values import is_off
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
IN_SYMBOLS = "write the meaning in symbols after the words: two blanks, exactly, facts"
A_READING_FOR_EACH = (
    'put a reading below for each way: reading "none of them" : NOT ..., and reading "..." : ...'
)
AREA, VOLUME = (("length", 2),), (("length", 3),)
_SAID_OF: dict[str, tuple[tuple[Dimension, ...], str]] = {
    **dict.fromkeys(("wider", "narrower", "thicker", "thinner", "taller", "deeper", "shallower"),
                    ((LENGTH,), "a length")),
    **dict.fromkeys(("longer", "shorter"), ((LENGTH, TIME), "a length or a time")),
    **dict.fromkeys(("hotter", "colder", "warmer", "cooler"), ((TEMPERATURE,), "a temperature")),
}  # fmt: skip
_NOT_SAID_OF: dict[str, tuple[Dimension, ...]] = dict.fromkeys(
    ("heavier", "lighter"), (LENGTH, TIME, TEMPERATURE, AREA, VOLUME)
)
"""Comparatives with what they may be said of, or may not."""
_CHANGES = listed("limits", "moving")
_GOES_FROM = _CHANGES | listed("steps", "changing")
_BY_SO_MUCH = frozenset("least most more less exceeding".split())


def _after_no_step(words: Words, said: list[str], subjects: Things, names: Names) -> Trouble | None:
    """`coating : thereafter`, with no other step left of the colon: after which of them?"""
    steps = [s.bound for s in subjects if isinstance(s.bound, Step)]
    if len(steps) != 1 or len(subjects) != 1 or said[said[:1] == ["and"] :] not in AND_THEN:
        return None
    earlier = [step.name for step in names.steps.values() if step.name != steps[0].name]
    what = f"'{words.text}' says that {subjects[0].text} comes after others, and not after which"
    before = " and ".join(filter(None, (", ".join(earlier[:-1]), *earlier[-1:])))
    declared = [*names.steps.values()]
    last = declared[declared.index(steps[0]) - 1].name if steps[0] in declared[1:] else ""
    help = f"of all others, write: {subjects[0].text} : after {before}" if earlier else IN_SYMBOLS
    help = f"write: {last}, {subjects[0].text} : {words.text}; or {help}" if last else help
    return trouble(words.span, what, "Left of the colon stands no other step.", help)


def not_so(tokens: Tokens, words: Words, subjects: Things, names: Names) -> Trouble | None:
    """Why the words are not to be read of these things; None where nothing speaks against it."""
    said = [word_of(t) for t in tokens]
    told = (
        _a_change(tokens, said, subjects, names)
        or _a_rise_as_a_noun(said, subjects, names)
        or _by_so_much(tokens, said, subjects, names)
        or _it_changed_by(tokens, said, subjects)
        or _beside_itself(tokens, said, subjects)
        or _near_what_it_is_off(tokens, said, subjects, names)
        or _of_a_range(tokens, said, subjects, names)
        or _how_often(said, subjects, names)
        or _from_one_to_the_other(tokens, said)
        or _limits_of_a_chain(tokens, said, subjects)
        or _a_ratio_of_one(said, subjects)
        or _a_ratio_for_a_share(tokens, subjects)
        or _points_of_nothing(tokens, said, subjects, names)
        or _a_part_of_a_step(tokens, said, subjects)
        or _sets_of_parts(said, subjects)
        or _sums_of_levels(said, subjects)
        or _a_spread(tokens, said, subjects, names)
        or _a_letter_of_another(tokens, subjects, names)
        or _a_difference_within(tokens, said, subjects)
        or _a_number_in_percent(tokens, subjects, names)
        or _a_part_of_several(said, subjects)
        or _and_the_like(said, subjects)
        or _and_beside_or(tokens, said, subjects)
        or _or_behind_condition(tokens, said, subjects)
        or _at_neither(said, subjects)
        or _not_and_not(said, subjects)
        or _some_of_a_class(tokens, subjects)
        or _without_behind_a_denial(said, subjects)
        or _not_there_or(said)
        or _off_behind_a_range(tokens, said, subjects)
        or _not_or(said, subjects)
        or _half_open(said)
    )
    if told:
        return trouble(words.span, told[0], told[1], IN_SYMBOLS)
    if alone := _after_no_step(words, said, subjects, names):
        return alone
    if left_over := _what_is_left(said, subjects):
        return trouble(words.span, left_over, WHAT_IS_LEFT, OF_WHAT_IS_LEFT)
    if going_on := _without_and_more(said, subjects):
        return trouble(words.span, *going_on, A_READING_FOR_EACH)
    return ratio_on_another_basis(words, (s.bound for s in subjects))


Why = tuple[str, str] | None


def _what_is_left(said: list[str], subjects: Things) -> str:
    """`5 to 10 wt% of oil and the remainder wax`, of two shares: no amount of the other one is said."""
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and not s.bound.whole and s.bound.kind]
    shares = len(bounds) == len(subjects) > 1 and not any(b.kind.dimension for b in bounds if b.kind)
    own = {w for s in subjects for w in s.text.lower().split()}
    word = next((w for w in said if w in listed("mention", "remainders")), "")
    return f"'{word}' is what the others leave" if shares and word and word not in own else ""


def hardly_so(tokens: Tokens, words: Words, subjects: Things) -> Diagnostic | None:
    """A warning of what is said of another measure: `heavier than the rim`, `a weight ratio`, of widths."""
    said = [word_of(t) for t in tokens]
    told = _another_comparative(said, subjects) or _ratio_of_no_amounts(words, subjects)
    return Diagnostic("warning", words.span, *told, IN_SYMBOLS) if told else None


def _ratio_of_no_amounts(words: Words, subjects: Things) -> Why:
    match = RATIO_BY.search(words.text)
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    amounts = ("mass", "amount")
    others = [
        k
        for k in kinds
        if k.dimension and not any(n in amounts for n, _ in k.dimension) and k.dimension != VOLUME
    ]
    if match is None or not others:
        return None
    return f"'{match.group()}' of what is declared as a {others[0].name}", "It is read as the ratio of these."


def _a_change(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`the temperature drops at least 40 K`, of what is no drop."""
    for at in range(len(said) - 1):
        if said[at] not in _CHANGES or not {"until", "till"}.isdisjoint(said):
            continue
        behind = said[at + 1 : at + 4]
        by = next((i for i, w in enumerate(behind) if w in _BY_SO_MUCH), None)
        so_much = tokens[at + 1].number or (
            by is not None and all(w in ("at", "no", "not") for w in behind[:by])
        )
        before = " ".join(w for w in said[:at] if w not in _BEFORE_DONE)
        of_a_change = any(
            _is_of_a_change(s, names, said[at]) and not before.endswith(s.text.lower()) for s in subjects
        )
        if of_a_change and behind[:1] == ["to"] and len(subjects) == 1 and any(t.number for t in tokens[at:]):
            return (
                f"'{said[at]} to' tells where a change ends",
                "What is declared is the change itself.",
            )
        if so_much and not of_a_change and behind[:1] != ["to"]:
            return (
                f"'{said[at]}' tells by how much something changes",
                "What is declared is a value, and no change.",
            )
    return None


def _from_one_to_the_other(tokens: Tokens, said: list[str]) -> Why:
    """`rises from 20 °C to 60 °C`: what it is at first and at last, and no range."""
    for at in range(len(said) - 4):
        verb = said[at] in _GOES_FROM and said[at + 1] == "from" and said[at + 3] == "to"
        if verb and tokens[at + 2].number and tokens[at + 4].number:
            return (
                f"'{said[at]} from ... to ...' tells how something changes",
                "What it is at first and what at last are two values.",
            )
    return None


def _a_rise_as_a_noun(said: list[str], subjects: Things, names: Names) -> Why:
    """`upon a temperature rise above 20 K`, of a temperature: how far it rises, or where it is then."""
    for s in subjects if len(subjects) > 1 else ():
        own = s.text.lower().split()
        called = [own, names.note_of(s.text).lower().split()]
        for run in (r for r in called if r and isinstance(s.bound, Typed) and not _is_of_a_change(s, names)):
            for at in (i for i in range(1, len(said)) if said[i : i + len(run)] == run):
                change = next(iter(said[at + len(run) :]), "")
                before = said[at - 1 - (said[at - 1] == "the") :][:1] if at > 1 else said[:1]
                lets = not {"lets", "let", "makes", "should", "may", "can"}.isdisjoint(said[:at])
                if change in _RISE and before and before[0] in _BEFORE_A_NOUN and not lets:
                    return (
                        f"'{run[-1]} {change}' tells a change, or where it ends",
                        "What is declared is a value, and no change.",
                    )
    return None


_RISE = ("rise", "drop", "fall", "jump", "decline", "dip", "surge")
_BEFORE_A_NOUN = frozenset("a an any each upon on at after following of with by for during in".split())


def _by_so_much(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`a pressure raised by 4 bar`, `down by at least 4 bar`, of a pressure.

    A lid is raised by its lift, and what is a share of something is lowered by that share.
    """
    bound = subjects[0].bound if len(subjects) == 1 else None
    kind = bound.kind if isinstance(bound, Typed) else None
    if kind is None:
        return None
    own = subjects[0].text.lower().split()
    called = {w[:_STEM] for w in (*own, *names.note_of(subjects[0].text).lower().split()) if len(w) >= _STEM}
    for at in (i for i in range(1, len(said) - 1) if said[i] == "by"):
        verb = said[at - 1]
        number = next((t.number for t in tokens[at + 1 : at + 6] if t.number and t.number.unit), None)
        done = verb.endswith(("ed", "ing")) or verb in _SHIFTED
        if number is None or not done or verb in _TELLING or verb[:_STEM] in called:
            continue
        start = next((i for i in range(at - 2, -1, -1) if said[i] not in _BEFORE_DONE), -1)
        itself = said[max(start + 1 - len(own), 0) : start + 1] == own
        if not itself and _is_of_a_change(subjects[0], names, verb):
            continue
        if verb in ("spaced", "separated"):
            if (kind.dimension in (LENGTH, TIME, _ANGLE) or not kind.dimension) or set(own) & DISTANCES:
                continue
            return f"'{verb} by' tells how far values lie apart", "What is declared is one value."
        itself |= start >= 0 and said[start] in own
        moved = not kind.dimension or kind.dimension in (LENGTH, TIME, _ANGLE)
        moved = moved and not (itself and said[start] in listed("measures", "nouns"))
        contrary = _is_of_a_change(subjects[0], names)
        shifted = not moved and verb in _SHIFTED | _TURNED
        if contrary or shifted or (itself and not (moved and verb in _TURNED)):
            return (
                f"'{verb} by' tells by how much something changes",
                "What is declared is a value, and no change.",
            )
    return None


def _it_changed_by(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`reduces the loss by at least 10 %`, of a loss: how much less of it there is, and not how much."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    own = subjects[0].text.lower().split()
    if not isinstance(bound, Typed) or not any(t.number for t in tokens):
        return None
    for at, verb in enumerate(said[:-1]):
        start = next((i for i in range(at + 1, len(said)) if said[i] not in _ARTICLES), 0)
        end = start + len(own) if said[start : start + len(own)] == own and start else 0
        done = next((i for i in range(at - 1, -1, -1) if said[i] not in _BEFORE_DONE), -1) + 1
        behind = end or (at + 1 if said[max(done - len(own), 0) : done] == own and done < at else 0)
        by = behind and ("by" in said[behind : behind + 3] or said[behind : behind + 1] in _SO_MUCH)
        changing = verb.startswith((*_DOWNWARDS, *_UPWARDS)) or verb in _CUTTING
        if changing and behind and (by or (tokens[behind : behind + 1] and tokens[behind].number)):
            return (
                f"'{verb} ... by' tells by how much something changes",
                f"{subjects[0].text} is what changes, and declared is how much there is of it.",
            )
    return None


_SO_MUCH = (["at"], ["no"], ["not"], ["more"], ["less"])
_ARTICLES = frozenset("the a an any this that said its such overall total".split())
_CUTTING = listed("limits", "cutting")
_STEM = 4
_ANGLE: Dimension = (("angle", 1),)
_BEFORE_DONE = frozenset(
    "is are being be was were has have been which that further not never only thereby also can may".split()
)
_TELLING = listed("limits", "told_by")
"""With these a limit may follow behind 'by' that is none of a change, or that is read as another one."""
_TURNED = frozenset("tilted rotated turned angled offset shifted displaced moved".split())
_SHIFTED = listed("limits", "changing") | listed("limits", "shifted")


def _beside_itself(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`a pressure plus 4 bar`, of the pressure, which is no value to set it beside."""
    own = subjects[0].text.lower().split() if len(subjects) == 1 else []
    for at in (i for i in range(len(own), len(said) - 1) if own and said[i] in ("plus", "minus")):
        itself = said[at - len(own) : at] == own and tokens[at + 1].number
        if itself and at + 2 == len(said) and isinstance(subjects[0].bound, Typed):
            return (
                f"'{' '.join(said[at - len(own) : at])} {said[at]}' makes another value of it",
                f"{subjects[0].text} is what stands left of the colon, and no value to set it beside.",
            )
    return None


def _of_a_range(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`at the edge of the range of 4 to 8 bar`, `covering a range of 4 to 8 bar`, of one value: it lies at
    one place of them, or goes over all of them."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, Typed):
        return None
    called = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split()
    for at in (i for i in range(1, len(said)) if said[i] in _RANGES and said[i] not in called):
        if not any(t.number for t in tokens[at + 1 :]):
            continue
        start = next((i for i in range(at - 1, -1, -1) if said[i] not in _BEFORE_RANGE), -1)
        before = said[start] if start >= 0 else ""
        if before in _PLACES and said[start + 1] == "of":
            return f"'{before} of' tells where in a range", "Which values are meant is not said."
        if before.startswith(_GOING_OVER) and not before.startswith(tuple(called)):
            return f"'{before}' says that all of a range is gone over", "What is declared is one value."
    return None


_RANGES = frozenset("range interval band window region zone".split())
_BEFORE_RANGE = frozenset("of the a an this that said at least whole full entire over".split())
_PLACES = listed("limits", "places_in_a_range")
_GOING_OVER = ("cover", "span", "sweep", "encompass", "travers")


def _how_often(said: list[str], subjects: Things, names: Names) -> Why:
    """`duration of heating : every 2 min`: how often, and not how long."""
    text = subjects[0].text.lower() if len(subjects) == 1 else ""
    step = names.step(text.removeprefix("duration of ")) if text.startswith("duration of ") else None
    at = next((i for i, w in enumerate(said) if w == "every"), 1)
    if step is None or at > 1 or (at and said[0] != "once"):
        return None
    return f"'{' '.join(said)}' says how often, and not how long", f"Declared is how long {step.name} takes."


def _is_of_a_change(subject: Subject, names: Names, verb: str = "") -> bool:
    """Is a change declared, one that goes the way of the verb? In decibels a gain and a loss are values."""
    note = names.note_of(subject.text)
    called = {w.strip(",;()") for w in f"{subject.text} {note}".lower().split()}
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    if kind is not None and _in_decibels(kind):
        called -= {"gain", "loss"}
    against = _UPWARDS if verb.startswith(_DOWNWARDS) else _DOWNWARDS if verb.startswith(_UPWARDS) else ()
    if against:
        called = {w for w in called if not w.startswith(against)}
    changes = listed("conditional", "drops") | {"loss", "gain", "growth", "shift", "rate"}
    return not called.isdisjoint(changes) or any(
        w.startswith(("chang", "increas", "decreas")) for w in called
    )


_DOWNWARDS = ("reduc", "lower", "decreas", "drop", "fall", "fell", "diminish", "sink", "declin", "los")
_UPWARDS = ("rais", "ris", "rose", "increas", "gain", "grow", "boost", "elevat", "climb")


def _another_comparative(said: list[str], subjects: Things) -> Why:
    """`heavier than the rim` of widths."""
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    dimensions = [k.dimension for k in kinds if k.dimension]
    if not dimensions or len(dimensions) != len(subjects):
        return None
    for word in said:
        may, of = _SAID_OF.get(word, ((), ""))
        if may and not any(d in may for d in dimensions):
            return f"'{word}' is said of {of}", f"{subjects[0].text} is a {kinds[0].name}."
        if all(d in _NOT_SAID_OF.get(word, ()) for d in dimensions):
            return f"'{word}' is said of what weighs", f"{subjects[0].text} is a {kinds[0].name}."
    return None


_ONE_SIDED = frozenset("least most more less than up exceeding above below".split())


def _limits_of_a_chain(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`in a ratio of at least 3:5:2`, which does not tell which of the parts may be more."""
    numbers = [t.text for t in tokens if t.number]
    chain = len(subjects) > 2 and any(":" in n for n in numbers) and any(t.text == ":" for t in tokens)
    if chain and not _ONE_SIDED.isdisjoint(said):
        return (
            "a limit of a ratio of several parts",
            "It does not tell which of them may be more, and which less.",
        )
    return None


def _a_ratio_of_one(said: list[str], subjects: Things) -> Why:
    """`sand : in a ratio of 1:3`, `sand, lime : each in a ratio of 1:1`, of shares."""
    shares = [
        s
        for s in subjects
        if isinstance(s.bound, Typed) and s.bound.kind and s.bound.kind.split[0] in PERCENT
    ]
    one = len(subjects) == 1 or "each" in said
    if (
        not one
        or len(shares) != len(subjects)
        or "ratio" not in said
        or said[said.index("ratio") - 1] not in ("a", "the")
    ):
        return None
    if any("ratio" in s.text.lower() for s in subjects) or (said[:1] != ["in"] and "each" not in said):
        return None
    return "a ratio of one thing", f"A ratio is one of two things; {subjects[0].text} is a share."


def _a_ratio_for_a_share(tokens: Tokens, subjects: Things) -> Why:
    """`a duty cycle of 40:60`, of a share in per cent: of the other, or of both together?"""
    bound = subjects[0].bound if len(subjects) == 1 else None
    unit = bound.unit if isinstance(bound, Typed) else None
    share = unit is not None and not unit.kind.dimension and unit.factor == Fraction(1, 100)
    ratio = next((t for t in tokens if t.number and ":" in t.number.text and not t.number.unit), None)
    if ratio is None or not share:
        return None
    first, _, second = ratio.text.partition(":")
    return f"'{ratio.text}' of a share", f"It may be {first} to {second}, or {first} of {first} + {second}."


def _near_what_it_is_off(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`within 5 Hz of the target`, of an error: how far something is off, which is not near the target."""
    near = any(w == "within" and "of" in said[i + 2 : i + 7] for i, w in enumerate(said))
    if not near or len(subjects) != 2 or not is_off(subjects, tokens, names):
        return None
    first, second = (s.text for s in subjects)
    return (
        f"{first} within so much of {second}, which is no {first}",
        f"{first} tells how far something lies off: it is itself so much, or what is near {second} is another"
        " thing.",
    )


def _points_of_nothing(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`oil : at most 3 percentage points`, of what is no difference."""
    at_most = [w for i, w in enumerate(said) if w != "than" or said[i - 1 : i] not in (["more"], ["less"])]
    points = len(subjects) == 1 and any(map(is_in_points, tokens))
    if not points or not _COMPARES.isdisjoint(at_most) or ("than" in said and not is_in_points(tokens[-1])):
        return None
    declared = names.declared(subjects[0].text)
    if isinstance(declared, NumberDecl) and _is_of_a_change(subjects[0], names):
        return None
    apart = not listed("measures", "deviations").isdisjoint(subjects[0].text.lower().split())
    return None if apart else ("percentage points of nothing", "They are a difference of two shares.")


_COMPARES = frozenset("than above below by between from differ differs differing exceeds exceeding".split())


def _sets_of_parts(said: list[str], subjects: Things) -> Why:
    """`each set of the bars`, of what each bar has."""
    of_parts = any(s.parts is not None and s.parts.sort == "parts" for s in subjects)
    each = not {"each", "every"}.isdisjoint(said)
    several = any(w in ("each", "every") and then in _SEVERAL for w, then in pairwise(said))
    several |= (each and not {"together", "jointly", "combined"}.isdisjoint(said)) or (
        "together" in said and "account" in said
    )
    several |= len(subjects) > 1 and "per" in said and any(s.parts is None for s in subjects)
    return (
        (f"several of the {subjects[0].text} together", "It is a value of each.")
        if of_parts and several
        else None
    )


_SEVERAL = ("set", "group", "pair", "row", "stack", "bundle", "array")


def _in_decibels(kind: Kind) -> bool:
    """Is it counted in decibels, above whatever reference, or in so many per something?"""
    return any(name in _DECIBELS for name, _ in kind.dimension)


def _sums_of_levels(said: list[str], subjects: Things) -> Why:
    """`together at most 60 dB`, `half the hum`: levels do not add up or multiply as what they measure."""
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    levels = [k for k in kinds if _in_decibels(k)]
    own = {w for s in subjects for w in s.text.lower().split()}
    measured = [s for s in subjects if isinstance(s.bound, Typed) and not s.bound.whole]
    called = {"ratio"} if len(measured) == 1 else set[str]()
    if any(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        ends = (*said[1:], "")  # 'sent up to three times if the power is below -110 dBm' is done so often
        said = [w for w, then in zip(said, ends, strict=True) if w not in _SO_OFTEN or then not in _GOES_ON]
    if not levels or (_OF_AMOUNTS - own - called).isdisjoint(said):
        return None
    return (
        "levels in decibels are not added or multiplied so",
        "Ten more is ten times as much of what is measured.",
    )


_SO_OFTEN = ("times", "twice", "thrice")
_GOES_ON = ("", ",", "if", "when", "whenever", "where", "unless", "while", "once", "before", "in")
_DECIBELS = frozenset(name for kind in (DECIBELS, *ABOVE_A_REFERENCE) for name, _ in kind.dimension)
_OF_AMOUNTS = frozenset(
    "sum total together combined half twice thrice times ratio product mean average".split()
)


def _a_number_in_percent(tokens: Tokens, subjects: Things, names: Names) -> Why:
    """`at least 200 percent`, of a plain number that its note counts in per cent."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    plain = isinstance(bound, Typed) and bound.kind == PLAIN_KIND and not (bound.unit and bound.unit.symbol)
    note = names.note_of(subjects[0].text).lower()
    noted = any(said in note for said in ("percent", "per cent", "%"))
    percent = next((t for t in tokens if is_bare_share(t)), None)
    if not (plain and noted) or percent is None:
        return None
    name = subjects[0].text
    return (
        f"'{percent.text}' of what is declared as a plain number",
        f"It would be taken as so many hundredths of 1. In per cent it is declared so: {name}  in %",
    )


def _and_beside_or(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`the gap is at least 5 mm and the rim at most 3 mm, or the gap is 9 mm`: which of them go together?"""
    if len(subjects) < 2 or not {"and", "or"} <= set(said):
        return None
    names = [s.text.lower().split() for s in subjects]
    joints = [i for i, w in enumerate(said) if w in ("and", "or")]
    joining = set[str]()
    for at, end in pairwise([*joints, len(said)]):
        piece = said[at + 1 : end]
        named = any(piece[i : i + len(name)] == name for name in names for i in range(len(piece)))
        if named and any(map(has_number, tokens[at + 1 : end])):
            joining.add(said[at])
    if len(joining) < 2:
        return None
    return (
        "'and' beside 'or' between limits",
        "Either may bind the closer. In symbols, brackets say which does.",
    )


def _or_behind_condition(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`at a pressure of 5 bar, the gap is 2 mm or the gap is 3 mm`: does the condition go for both?"""
    led = len(subjects) > 1 and said[:1] == ["at"] and said[1:2] in (["a"], ["an"], ["the"])
    comma = said.index(",") if led and "," in said else len(said)
    names = [s.text.lower().split() for s in subjects]
    for at in (i for i in range(comma, len(said)) if said[i] == "or"):
        behind = said[at + 1 + (said[at + 1 : at + 2] in (["the"], ["a"], ["an"])) :]
        named = any(behind[: len(name)] == name for name in names)
        if named and any(map(has_number, tokens[at:])) and any(map(has_number, tokens[:comma])):
            return (
                "a limit behind 'or', and a condition before the first one",
                "The condition may go for the first of them alone, or for both.",
            )
    return None


def _at_neither(said: list[str], subjects: Things) -> Why:
    """`at least 2 bar at neither 20 °C nor 40 °C`: the limit is denied there, and none of elsewhere."""
    at = said.index("neither") if len(subjects) > 1 and "neither" in said else 0
    if not at or said[at - 1] not in ("at", "for", "during", "upon", "under") or "nor" not in said[at:]:
        return None
    if not {"if", "when", "where", "only", "unless", "nowhere"}.isdisjoint(said[:at]):
        return None
    return (
        f"'{said[at - 1]} neither ... nor ...' denies what stands before it",
        "Of what is so elsewhere nothing is said.",
    )


def _not_and_not(said: list[str], subjects: Things) -> Why:
    """`opens not below 2 bar and not above 5 bar`: not open there, or open in between?"""
    at = next((i for i in range(1, len(said) - 1) if said[i] == "not" and said[i + 1] in _BESIDE), 0)
    if len(subjects) < 2 or not at or said[at - 1] in ("is", "are", "being", "be", "pressures", "and", "or"):
        return None
    states = {w for s in subjects for w in side_words(s.bound, s.text)}
    again = any(w in ("and", "or") and then == "not" for w, then in pairwise(said[at:]))
    if said[at - 1] not in states or not again:
        return None
    return (
        f"'{said[at - 1]} not ... and not ...' may mean two things",
        "It may not be so there, or be so in between.",
    )


_BESIDE = frozenset("below above under over less more lower higher greater smaller".split())


def _not_or(said: list[str], subjects: Things) -> Why:
    """`not more than 5 wt% or less than the sugar`: neither of them, or the second as it stands?"""
    at = next((i for i in range(1, len(said) - 1) if said[i] == "than" and said[i - 2 : i - 1] == ["not"]), 0)
    behind = next((i for i in range(at + 1, len(said) - 2) if said[i] == "or"), 0) if at else 0
    if (
        len(subjects) < 2
        or not behind
        or "by" in said[:behind]
        or said[behind + 1] not in _BESIDE
        or said[behind + 2] != "than"
    ):
        return None
    return (
        f"'not {said[at - 1]} than ... or {said[behind + 1]} than ...' may mean two things",
        "It may be neither of them, or not the first, or else the second.",
    )


def _half_open(said: list[str]) -> Why:
    """`in the half-open interval from 2 to 4 mm`: which of its ends is none of it?"""
    text = f" {' '.join(said)} "
    called = next((w for w in ("half-open", "half open", "semi-open", "half-closed") if f" {w} " in text), "")
    if not called or {"interval", "range"}.isdisjoint(said):
        return None
    return (
        f"'{called}' does not tell which of the two ends is left out",
        "Say of each end whether it is included.",
    )


def _and_the_like(said: list[str], subjects: Things) -> Why:
    """`copper, zinc and the like`, of a list."""
    text, listing = f" {' '.join(said)} ", any(isinstance(s.bound, SetDecl | ChoiceDecl) for s in subjects)
    run = next(
        (r for r in ("and the like", "or the like", "and so on", "etc", "and similar") if f" {r} " in text),
        "",
    )
    return (f"'{run}' names nothing", "Which others are meant is not said.") if run and listing else None


def _a_part_of_several(said: list[str], subjects: Things) -> Why:
    """`at least 60 wt% of the oil and wax is oil`, of both: a share of their sum."""
    text = f" {' '.join(said)} "
    for name in (s.text for s in subjects if len(subjects) > 1):
        own = name.lower()
        if text.endswith((f" is {own} ", f" are {own} ")) and text.count(f" {own} ") > 1:
            whole = " + ".join(s.text for s in subjects)
            return f"a part of several is {name} here", f"In symbols it is a limit of {name} / ({whole})."
    return None


def _a_difference_within(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`the difference between the rim and the gap is within 10 % of the gap`, of both."""
    at = next((i for i in range(len(said) - 2) if said[i] == "within" and said[i + 2] == "of"), None)
    if len(subjects) < 2 or at is None or "difference" not in said[:at] or not is_bare_share(tokens[at + 1]):
        return None
    behind = " ".join(said[at + 3 :])
    return (
        f"'within {tokens[at + 1].text} of {behind}' of a difference may mean two things",
        "It tells how great the difference may be, or how near to that it is.",
    )


_WITHOUT = ("free of", "free from", "devoid of", "without", "no", "not", "excluding", "excludes", "lacking")
_TAKEN_TOGETHER = (
    "combination", "combinations", "mixture", "mixtures", "both",
    "at least one", "one or more", "each", "all",
)  # fmt: skip


def _of_members(subjects: Things) -> bool:
    return any(isinstance(s.bound, SetDecl | ChoiceDecl) or s.mixture is not None for s in subjects)


def _some_of_a_class(tokens: Tokens, subjects: Things) -> Why:
    """`no halogen other than chlorine`, of a list with dyes too: of these nothing is said."""
    found = rest_of_a_class(tokens, subjects[0]) if len(subjects) == 1 else None
    if found is None:
        return None
    left = " or ".join(found[1]) or "nothing"
    return (
        f"some of '{found[0]}' is left out",
        f"What is left of the class is {left}: name that, without the others.",
    )


def _without_behind_a_denial(said: list[str], subjects: Things) -> Why:
    """`no copper without zinc`, which may hold both; `free of copper but not of zinc`, which holds zinc."""
    if len(subjects) != 1 or not _of_members(subjects):
        return None
    denied = next((i for i, w in enumerate(said) if w in _HEADS_THAT_DENY), len(said))
    for at in range(denied + 1, len(said)):
        if said[at] == "without" and said[at - 1] not in ("and", "or", "but", ",", "not"):
            return "'without' behind what is denied asks for both or none", "One may be there with the other."
        run = said[at : at + 3]
        lifting = (["but", "not"], ["and", "not"], [",", "not"], ["but", "of"], ["but", "from"])
        lifted = run[:2] in lifting and run[2:] != ["without"]
        absent = next((w for w in said[:at] if w in _HEADS_OF_ABSENCE), "")
        if lifted and absent and run[2:3] not in (["free"], ["devoid"], ["only"]):
            return f"'{' '.join(run[:2])}' may lift '{absent}', or deny in turn", "It may be there or not."
    return None


def _not_there_or(said: list[str]) -> Why:
    """`is not present, or in an amount of at most 2 %`: is the second denied as well?"""
    at = next((i for i in range(len(said) - 1) if said[i : i + 2] == ["not", "present"]), None)
    behind = said[at:] if at is not None else []
    for i in (i for i, w in enumerate(behind) if w == "or"):
        if behind[i + 1 : i + 2] in (["in"], ["only"], ["at"]) or "present" in behind[i + 1 : i + 3]:
            return "what is denied may go on behind 'or'", "Say 'is absent', and a line for each."
    return None


def _off_behind_a_range(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`switches on at 40 to 45 °C and off at 30 °C`: the second has no verb, and the first is a range."""
    if len(subjects) != 2 or not any(isinstance(s.bound, ChoiceDecl) for s in subjects):
        return None
    for at in (
        i for i in range(len(said) - 2) if said[i : i + 3] in (["and", "off", "at"], ["and", "on", "at"])
    ):
        if sum(1 for t in tokens[:at] if t.number) > 1:
            return (
                f"'{said[at + 1]} at' stands without its verb behind a range",
                "Say the verb again: and switches.",
            )
    return None


_HEADS_OF_ABSENCE = frozenset(
    "free devoid lacks lack lacking excludes exclude excluding omits omitting".split()
)
_HEADS_THAT_DENY = _HEADS_OF_ABSENCE | frozenset("no not neither never other".split())


def _without_and_more(said: list[str], subjects: Things) -> Why:
    """`free of lead and the combination of tin and zinc`, which may be free of that as well."""
    if not any(isinstance(s.bound, SetDecl) for s in subjects) or "and" not in said:
        return None
    at = said.index("and")
    before = f" {' '.join(said[:at])} "
    behind = [w for w in said[at + 1 :] if w not in ("the", "a", "an", "any")]
    several = any(" ".join(behind).startswith(f"{words} ") for words in _TAKEN_TOGETHER)
    opened = next((w for w in _WITHOUT if f" {w} " in before), None)
    if not (opened and several):
        return None
    return (
        f"'{opened}' may go on to what stands behind 'and'",
        "It can be without each of both, or without the one and with the other.",
    )


def _a_spread(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`a temperature spread of at least 4 K`, `a mean particle size` of D90: another value than declared."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, Typed):
        return None
    text = subjects[0].text.lower()
    own = f"{text} {names.note_of(subjects[0].text)}".lower()
    numbers = sum(1 for t in tokens if t.number)
    for before, word in pairwise(said):
        spread = word in ("spread", "swing", "shift") or (word in ("range", "span") and numbers == 1)
        if spread and before in listed("measures", "nouns") and word not in own:
            return f"'{before} {word}' tells how far values lie apart", "What is declared is one value."
    of_a_share = text[:1] == "d" and text[1:].isdigit()
    if (
        of_a_share
        and text not in said
        and not {"mean", "average"}.isdisjoint(said)
        and "mean" not in own
        and "average" not in own
    ):
        return f"a mean is no {subjects[0].text}", "It is the size below which so many per cent lie."
    return None


def _a_letter_of_another(tokens: Tokens, subjects: Things, names: Names) -> Why:
    """`D ≥ 3 mm`, of a depth d beside a diameter that the note calls D."""
    letter, text = tokens[0].text, subjects[0].text
    if len(letter) != 1 or not letter.isupper() or letter in (*names.declarations, *text.split()):
        return None
    own = names.note_of(text)
    if subjects[0].parts is not None or letter in own.split() or not names.noted_letter(letter, text):
        return None
    return f"{letter} is a letter for another thing", "A note of what is declared says for which."


def _a_part_of_a_step(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`the last 20 minutes`, of a step."""
    step = len(subjects) == 1 and isinstance(subjects[0].bound, Step)
    parts = {"last", "first", "final", "initial"}
    behind = {i + 1 for i, (before, w) in enumerate(pairwise(said)) if w in parts and before == "the"}
    if step and any(i + 1 < len(tokens) and tokens[i + 1].number for i in behind):
        return "a part of a step", "How long the whole of it takes is another matter."
    return None
