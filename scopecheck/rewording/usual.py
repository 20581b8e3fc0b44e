"""What others usually say instead: `chosen from`, `A as well as B`, `that of the lid`, `or colder`."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import Declaration, NumberDecl, Step
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.spelled import shared_scale
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import with_runs, words_at
from scopecheck.rewording.multiples import dozens_at
from scopecheck.rewording.usual_units import basis_behind
from scopecheck.vocabulary.names import Bound, Names, Typed

_COMPARED = "less more greater fewer lower higher thinner thicker longer shorter larger smaller wider".split()
_THAN = tuple([word, "than"] for word in _COMPARED)
_ENDS = (["inclusive", ")"], ["exclusive", ")"], ["inclusive"], ["exclusive"])
_BEFORE_THAT = frozenset("than half twice exceeding exceeds exceed below above as from to".split())
"""What stands before 'that of the rim' where the rim itself is meant."""


def _between_numbers(tokens: tuple[Token, ...], at: int) -> bool:
    return 0 < at < len(tokens) - 1 and bool(tokens[at - 1].number and tokens[at + 1].number)


def end_of_sequences(words: list[str], at: int) -> int:
    """Where `SEQ ID NO: 1, 2 or 3` ends that begins here; the place itself for other words."""
    end = last = at + 3
    if words[at : at + 2] != ["seq", "id"] or words[at + 2 : end] not in _NUMBERED:
        return at
    while words[end : end + 1] and (words[end].isdigit() or words[end] in _IN_NUMBERS):
        end += 1
        last = end if words[end - 1].isdigit() else last
    return last


_NUMBERED = (["no"], ["nos"], ["number"], ["numbers"])
_IN_NUMBERS = (":", ".", ",", "and", "or", "to", "-")


def without_sequence_numbers(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`95 % identity to SEQ ID NO: 1 or 2` without the numbers of the sequence listing (37 CFR 1.821(d))."""
    words = [word_of(t) for t in tokens]
    at = words.index("seq") if "seq" in words[1:] else 0
    end = end_of_sequences(words, at)
    lead = next((len(run) for run in _TO_SEQUENCES if words[at - len(run) : at] == run), 0)
    return (*tokens[: at - lead], *tokens[end:]) if end > at else tokens


_TO_SEQUENCES = (
    ["sequence", "identity", "to"], ["sequence", "identity", "with"],
    ["identity", "to"], ["identity", "with"],
    ["identical", "to"], ["identical", "with"], ["to"], ["with"], ["of"],
)  # fmt: skip


def with_light_as_a_noun(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`light having a wavelength of`: what is emitted, and not what weighs little, as `light in weight`."""
    words = [word_of(t) for t in tokens]
    at = {i for i, (w, then) in enumerate(pairwise(words)) if w == "light" and then in _OF_LIGHT}
    return tuple(replace(t, text="radiation") if i in at else t for i, t in enumerate(tokens))


_OF_LIGHT = ("having", "with", "ranging", "whose")


def of_what_it_has(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`less than 0.25 wt% of its left-handed form`, of one share, as of the left-handed form."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or bound.kind is None or bound.kind.dimension or not bound.kind.basis:
        return tokens
    its = [i for i in range(2, len(tokens)) if word_of(tokens[i]) == "its" and word_of(tokens[i - 1]) == "of"]
    return tuple(replace(t, text="the") if i in its else t for i, t in enumerate(tokens))


def without_factor_of(tokens: tuple[Token, ...], subject: Subject, note: str) -> tuple[Token, ...]:
    """`by a factor of 4 to 8`, of a number that is called or noted as a ratio or a factor, as that number."""
    said = [word_of(t) for t in tokens]
    width = next((len(run) for run in _FACTOR_OF if said[: len(run)] == run), 0)
    called = {w.strip(",;()") for w in f"{subject.text} {note}".lower().split()}
    bound = subject.bound
    plain = isinstance(bound, Typed) and bound.kind == PLAIN_KIND and not bound.whole
    return tokens[width:] if width and plain and not called.isdisjoint(("ratio", "factor")) else tokens


_FACTOR_OF = [run.split() for run in ("by a factor of", "with a factor of", "at a factor of", "a factor of")]


def without_proviso(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`provided that, when the metal is zinc, the rim is at least 3 mm` without its first two words.

    So are they left out of a limit on one thing alone, or on quantities in a clause without a comma. Else a
    proviso on several things is a condition itself: 'provided that the metal is zinc, the rim is 3 mm'.
    """
    said = [word_of(t) for t in tokens]
    width = run_at(said, 0, "conditional", "opening_provisos") if subjects else 0
    start = width + (said[width : width + 1] == [","])
    conditional = not listed("limits", "governing").isdisjoint(said[start:])
    numbers = all(isinstance(s.bound, Typed) for s in subjects) and {",", "then"}.isdisjoint(said[start:])
    single = numbers or (len(subjects) == 1 and not isinstance(subjects[0].bound, Step))
    return tokens[start:] if width and start < len(tokens) and (conditional or single) else tokens


def _steps_named(texts: list[str]) -> int:
    """How many words name steps by their letters, before how often they are repeated: `steps (c) and (d)`."""
    count = 0
    while count < len(texts) and (texts[count] in _OF_STEPS or len(texts[count]) == 1):
        count += 1
    return count if "step" in texts[:count] or "steps" in texts[:count] else 0


_OF_STEPS = ("the", "step", "steps", "and", "to", "all", "said", "ii", "iii", "iv", "vi", "vii")


def with_usual_words(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`chosen from` as selected from, `A as well as B` as A and B, `ratio between A and B` as of A to B."""
    tokens = with_runs(tokens)
    texts = [t.text.lower() for t in tokens]
    if texts[-2:] == ["in", "number"] and len(texts) > 2:
        tokens = tokens[:-2]
    found, at = list[Token](), 0
    while at < len(tokens):
        token = tokens[at]
        ratio = texts[max(at - 1, 0) : at + 1] == ["ratio", "between"] and "and" in texts[at:]
        preferred = token.text == "(" and texts[at + 1 : at + 2] in (["preferably"], ["ideally"])
        if ratio and not any(t.number for t in tokens[at : at + 3]):
            found.append(replace(token, text="of"))
            last = texts.index("and", at)
            tokens = (*tokens[:last], replace(tokens[last], text="to"), *tokens[last + 1 :])
            at += 1
        elif preferred and texts[-1] == ")":
            found.append(replace(token, sort="mark", text=","))
            tokens, texts = tokens[:-1], texts[:-1]
            at += 1
        elif (dozens := dozens_at(tokens[at:])) is not None:
            found = shared_scale(found, 12)
            found.append(dozens[0])
            at += dozens[1]
        else:
            said, width = _usually_said(tokens, texts, at)
            found += said
            at += width
    return tuple(found)


def _usually_said(tokens: tuple[Token, ...], texts: list[str], at: int) -> tuple[tuple[Token, ...], int]:
    """What is read at this place, and how many words it stands for: mostly the one that is there."""
    token, word, pair, three = tokens[at], texts[at], texts[at : at + 2], texts[at : at + 3]
    compared = texts[at + 1 : at + 3] in _THAN
    if pair == ["chosen", "from"]:
        return (replace(token, text="selected"),), 1
    if word == "lasting" and texts[:1] == ["each"]:
        return (replace(token, text="having"),), 1
    if word == "through" and "exclusive" in texts[at:] and _between_numbers(tokens, at):
        return (replace(token, text="to"),), 1
    if pair == ["without", "exceeding"] and any(t.number for t in tokens[:at]):
        return (replace(token, text="and", end=token.start), replace(token, text="not")), 1
    if three == ["period", "of", "time"]:
        return (token,), 3
    if word == "ranging" and at and texts[at - 1] in listed("measures", "nouns"):
        return (replace(token, text="of"),), 1
    if word == "repeating":
        return (replace(token, text="repeated"),), 1 + _steps_named(texts[at + 1 :])
    if three == ["as", "well", "as"]:
        return (replace(token, text="and", end=tokens[at + 2].end),), 3
    if word == "neither" and compared:
        return (replace(token, text="not"),), 1
    if word == "nor" and compared:
        return (replace(token, text="and"), replace(token, text="not")), 1
    if token.text == "(" and texts[at + 1 : at + 3] in _ENDS:
        return (tokens[at + 1],), 3
    if three in (["only", "a", "single"], ["only", "one", "single"]):
        one = replace(tokens[at + 1], text="one", end=tokens[at + 2].end)
        return (replace(token, text="exactly"), one), 3
    if (unit := basis_behind(tokens[at:])) is not None and token.number is not None:
        based = replace(token, number=replace(token.number, unit=unit))
        return (based, *tokens[at + 1 : at + 3]), 5
    return (token,), 1


def with_that_of(tokens: tuple[Token, ...], subject: Bound, name: str, names: Names) -> tuple[Token, ...]:
    """`less than that of the lid`, of a wall height, with the lid height; of a rod, with the bore itself.

    Left as it is, and so refused, where what is called so may be another measure of it, or a number.
    """
    texts = [t.text.lower() for t in tokens]
    for at in range(1, len(tokens) - 2):
        if texts[at : at + 2] != ["that", "of"] or texts[at - 1] not in _BEFORE_THAT:
            continue
        start = at + 2 + (texts[at + 2] in ("the", "a", "an"))
        for end in range(min(start + 4, len(tokens)), start, -1):
            meant = _meant_by_that(" ".join(texts[start:end]), subject, name, names)
            if meant:
                first = tokens[start]
                said = (replace(first, text=word, end=tokens[end - 1].end) for word in meant.split())
                return (*tokens[:at], *tokens[at + 2 : start], *said, *tokens[end:])
    return tokens


def _meant_by_that(of: str, subject: Bound, name: str, names: Names) -> str:
    """The name of what is meant by `that of` this, of a thing of such a name; '' where that is not told."""
    own, measures = name.lower().split(), listed("measures", "nouns")
    measure = next((w for w in reversed(own) if w in measures), "")
    for called in (f"{of} {measure}", f"{measure} of {of}", f"{measure} of the {of}") if measure else ():
        if _is_like(names.declared(called), subject):
            return called
    itself = names.declared(of)
    if not isinstance(itself, NumberDecl) or not _is_like(itself, subject):
        return ""
    told = measures.intersection(f"{itself.name} {itself.note}".lower().split())
    other = (bool(measure) and bool(told) and measure not in told) or (measure and len(own) > 1 and not told)
    return "" if other else of


def _is_like(declared: object, subject: Bound) -> bool:
    if not isinstance(declared, NumberDecl) or not isinstance(subject, Typed):
        return False
    return declared.kind == subject.kind and declared.whole == subject.whole


def without_every(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`once every two to four weeks`, of the time in between, as two to four weeks.

    Whether one number is a fixed spacing a phrase asks.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    texts = [t.text.lower() for t in tokens]
    start = 2 if texts[:2] == ["once", "every"] else texts[:1] == ["every"]
    several = start and any(w in ("to", "-", "and", "or") for w in texts[start:])
    return tokens[start:] if several and kind is not None and kind.dimension == TIME else tokens


def with_ends_upward(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`from 5 mm down to 3 mm` as from 3 mm to 5 mm."""
    for at in range(1, len(tokens) - 2):
        down = [t.text.lower() for t in tokens[at : at + 2]] == ["down", "to"]
        upper, lower = tokens[at - 1].number, tokens[at + 2].number
        if not down or upper is None or lower is None:
            continue
        upper = replace(upper, unit=upper.unit or lower.unit)
        units = (upper.unit, lower.unit)
        high, low = (n.unit.to_base(n.value) if n.unit else n.value for n in (upper, lower))
        if high > low and len({u.kind if u else None for u in units}) == 1:
            first, last = tokens[at + 2], replace(tokens[at - 1], number=upper)
            return (*tokens[: at - 1], first, tokens[at + 1], last, *tokens[at + 3 :])
    return tokens


def with_time_within(tokens: tuple[Token, ...], declared: Declaration | None) -> tuple[Token, ...]:
    """`within 25 ms`, of how long something takes, as at most 25 ms: no time is less than nothing."""
    timed = isinstance(declared, NumberDecl) and declared.kind.dimension == TIME
    if not timed or not isinstance(declared, NumberDecl) or declared.lower is None or declared.lower.value:
        return tokens
    texts = [t.text.lower() for t in tokens]
    for at in (i for i, word in enumerate(texts) if word == "within" and texts[i - 1 : i] != ["to"]):
        end = at + 1 + (texts[at + 1 : at + 2] in _HEDGES)
        number = tokens[end].number if end < len(tokens) else None
        own = number is not None and number.unit is not None and number.unit.kind.dimension == TIME
        if own and (end + 1 == len(tokens) or texts[end + 1] in (",", "and", "but", "or")):
            return (*tokens[:at], *words_at(tokens[at], "at most"), *tokens[at + 1 :])
    return tokens


_HEDGES = (["about"], ["approximately"], ["around"], ["roughly"])


def with_finer(tokens: tuple[Token, ...], name: str, note: str) -> tuple[Token, ...]:
    """`better than 0.5 mm` of a resolution as less than that, `±0.5 mm or better` as 0.5 mm or less.

    Of one in bits, per inch or in per cent more may be better: `or finer`.
    """
    own = f"{name} {note}".lower().split()
    at = next((i for i, t in enumerate(tokens) if t.text.lower() == "better"), -1)
    said = at >= 0 and (
        [t.text.lower() for t in tokens[at + 1 : at + 2]] == ["than"]
        or [t.text.lower() for t in tokens[max(at - 1, 0) : at]] == ["or"]
    )
    if not said or listed("measures", "finer").isdisjoint(own):
        return tokens
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    sized = units and all(any(n > 0 and of != "data" for of, n in u.kind.dimension) for u in units)
    finer = (*tokens[:at], replace(tokens[at], text="less" if sized else "finer"), *tokens[at + 1 :])
    return tuple(t for t in finer if t.text not in ("±", "+/-"))


def with_less_or_more(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names
) -> tuple[Token, ...]:
    """`at -18 degC or colder`, of a temperature, as or lower; `faster than 3 s`, of a time, as shorter than.

    What is done faster takes less time, and has the higher rate.
    """
    words = [word_of(t) for t in tokens]
    if _AS_SAID.isdisjoint(words) or not subjects:
        return tokens
    said, *others = (_said_for_less_or_more(s, names.note_of(s.text)) for s in subjects)
    if any(other != said for other in others):
        return tokens
    return tuple(
        replace(t, text=said[word])
        if word in said
        and ((i > 1 and words[i - 1] == "or" and words[i + 1 : i + 2] in ([], [","]))
             or (said == _TAKING and words[i + 1 : i + 2] in (["than"], ["by"])))
        else t
        for i, (t, word) in enumerate(zip(tokens, words, strict=True))
    )  # fmt: skip


def _said_for_less_or_more(subject: Subject, note: str) -> dict[str, str]:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    if kind is None:
        return {}
    if kind.point:
        return _AS_HIGH
    if kind.dimension == TIME:
        return _TAKING
    if ("time", -1) in kind.dimension:
        return _RUNNING
    called = f"{subject.text} {note}".lower().split()
    return {} if kind.dimension or _SLOPES.isdisjoint(called) else _FALLING


_AS_HIGH = {"colder": "lower", "cooler": "lower", "warmer": "higher", "hotter": "higher"}
_TAKING = {"faster": "shorter", "quicker": "shorter", "slower": "longer"}
_RUNNING = {"faster": "higher", "quicker": "higher", "slower": "lower"}
_FALLING = {"steeper": "higher", "shallower": "lower", "flatter": "lower"}
_AS_SAID = frozenset((*_AS_HIGH, *_TAKING, *_FALLING))
_SLOPES = frozenset("gradient slope incline inclination grade".split())
