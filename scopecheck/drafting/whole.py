"""Words of which no limit can be taken by itself: what happens, one of two cases, a mere name.

'Within 200 ms of the force exceeding 150 N' limits no force, '2 to 5 s for a child and 4 to 10 s for a rider'
no time alone, 'a 45 µm sieve' nothing. Each is one mark, from its first word to its last.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.beside import a_parameter, noun_start, nounish, width_of
from scopecheck.drafting.beside import noun_from as noun_at
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.marks import with_of
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.drafting.turned import CLAUSES, ENDS, part_end
from scopecheck.foundations.word_lists import run_at, word_lists, words
from scopecheck.resolve.claim_text import ClaimText

MOST_BACK = 14
"""How many words before what happens the word is looked for that says when."""
MOST_BETWEEN = 7
"""How many words may stand between two limits that hold in two cases."""
_DETERMINERS = frozenset(("a", "an", "the", "said", "its", "each", "every", "any", "one", "all"))
_CASES = frozenset("in for during on with at under by without while when before after above below".split())
_JOINTS = frozenset(("and", "but", "or", ","))


def kept_whole(text: ClaimText, found: Sequence[tuple[Stretch, Called]]) -> list[tuple[int, int]]:
    """The tokens of a claim that are kept together, none of them a limit by itself."""
    stretches = [s for s, _ in found]
    happening = [span for s in stretches if (span := _happening(text.texts, s, stretches))[1]]
    spans = [(_governed(text.texts, begin, stretches), end) for begin, end in happening]
    spans += [span for s, c in found if (span := _of_each_one(text, s, c))[1]]
    spans += [span for s, c in found if (span := _as_a_name(text, s, c, stretches))[1]]
    spans += [span for s in stretches if (span := _till(text.texts, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _capping(text.texts, s))]
    spans += [(at, s.end) for s in stretches if (at := _differing(text.texts, s))]
    spans += [(s.starts[0], end) for s in stretches if (end := _per_thing(text, s))]
    spans += [(_with_what(text.texts, s.starts[0]), end) for s in stretches if (end := _met(text.texts, s))]
    spans += [(s.starts[0], end) for s in stretches if (end := _around(text, s, stretches))]
    spans += [(s.condition, s.end) for s in stretches if s.condition and _a_mere_name(text, s)]
    spans += [span for s in stretches if (span := _when_tested(text.texts, s))[1]]
    spans += [span for s in stretches if (span := _as_a_solution(text.texts, s, stretches))[1]]
    spans += [span for s in stretches if (span := _instructed(text.texts, s))[1]]
    spans += [span for a, b in pairwise(stretches) if (span := _in_any_case(text.texts, a, b))[1]]
    apart = [*pairwise(found), *zip(found, found[2:], strict=False)]
    spans += [span for a, b in apart if (span := _in_two_cases(text, a, b, stretches))[1]]
    return sorted(dict.fromkeys(spans))


def _happening(texts: list[str], stretch: Stretch, found: Sequence[Stretch]) -> tuple[int, int]:
    """'Within 200 ms of the force exceeding 150 N', 'after the level falling to 3 mm': the words of both."""
    first = stretch.starts[0]
    near = range(stretch.starts[-1] - 1, max(0, first - 4), -1)
    act = next((i for i in near if texts[i] in words("limits", "occurring")), 0)
    for at in range(act - 1, max(0, act - MOST_BACK), -1):
        if texts[at] in ENDS | CLAUSES | {","}:
            break
        said = texts[at + 1] in _DETERMINERS
        if said and texts[at] in words("limits", "upon"):
            return at, stretch.end
        timed = next((s for s in found if s.end == at and kind_of(s.unit) == "time"), None)
        if texts[at] != "of" or not said:
            continue
        if timed is not None:
            return timed.starts[0], stretch.end
        if texts[at - 1] in words("limits", "upon_of"):
            return at - 1 - (texts[at - 2] in _DETERMINERS), stretch.end
    return 0, 0


def _governed(texts: list[str], begin: int, found: Sequence[Stretch]) -> int:
    """Where the words begin of what is to be so much when something happens, if a number says how much."""
    first = next((i + 1 for i in range(begin - 1, -1, -1) if texts[i] in ENDS | CLAUSES | {","}), 0)
    return min([begin, *(_with_what(texts, s.starts[0]) for s in found if first <= s.starts[0] < begin)])


def _of_each_one(text: ClaimText, stretch: Stretch, what: Called) -> tuple[int, int]:
    """'At most 0.05 % by weight of any single impurity': so much of each, and no amount of one thing."""
    texts, at = text.texts, stretch.end
    amount = stretch.unit is not None and (what.unnamed or not what.noun)
    if not amount or texts[at : at + 1] != ["of"] or texts[at + 1 : at + 2] not in _EACH:
        return 0, 0
    noun = at + 2
    while texts[noun : noun + 1] and texts[noun] in (
        "single",
        "individual",
        "one",
        "of",
        "the",
        "said",
        "other",
    ):
        noun += 1
    return stretch.starts[0], noun + width_of(noun_at(text, noun))


_EACH = (["any"], ["each"], ["every"], ["either"])


def _as_a_name(text: ClaimText, stretch: Stretch, what: Called, found: Sequence[Stretch]) -> tuple[int, int]:
    """'A 45 µm sieve', behind a word of place: the size tells which one it is, and is none of the thing."""
    texts, at = text.texts, stretch.starts[0]
    bare = len(stretch.figures) == 1 and at == stretch.figures[0].start and stretch.unit is not None
    placed = at > 1 and texts[at - 1] in _DETERMINERS and texts[at - 2] in _THROUGH
    noun = noun_at(text, stretch.end) if bare and placed and (what.unnamed or not what.noun) else ""
    passes = at > 1 and texts[at - 1] in _DETERMINERS and texts[at - 2] in _PASSING and stretch.unit
    noun = noun_at(text, stretch.end) if bare and passes else noun
    if not noun or noun.split()[0] in word_lists()["adjectives"]:
        return 0, 0
    end = stretch.end + width_of(noun)
    behind = next((s for s in found if end < s.starts[0] <= end + 2), None)
    if behind is None or texts[end] not in ("of", "is", "being"):
        return at - 2, end
    return _with_what(texts, at - 2), behind.end


def _a_mere_name(text: ClaimText, stretch: Stretch) -> bool:
    """'When the level falls below a threshold of 5 V': the value that makes the condition, and no limit."""
    bare = len(stretch.figures) == 1 and stretch.starts[0] == stretch.figures[0].start
    return bare and stretch.end == stretch.figures[0].end and a_parameter(text, stretch.starts[0])


_PASSING = frozenset(("passing", "passes", "pass", "passed"))
_THROUGH = frozenset(
    ("on", "through", "by", "via", "over", "past", "from", "into", "onto", "against", "under")
)


def _capping(texts: list[str], stretch: Stretch) -> int:
    """Where 'limits a rate to 50 Mbit/s' begins: the number is the greatest one, by its verb alone."""
    at = stretch.starts[0]
    bare = at == stretch.figures[0].start and texts[at - 1] in ("to", "at")
    bare = bare and len(stretch.figures) == 1 and stretch.end == stretch.figures[0].end
    for i in range(at - 2, max(0, at - MOST_BACK), -1) if bare else ():
        if texts[i] in ENDS | CLAUSES | {","}:
            return 0
        if texts[i] in words("limits", "caps") and texts[i + 1] in _DETERMINERS:
            return i
    return 0


def _differing(texts: list[str], stretch: Stretch) -> int:
    """Where 'differ by at least 3 %' begins, or ', within 10 ms,' between two commas; else 0."""
    at = stretch.starts[0]
    if at > 2 and texts[at - 1] == "by" and texts[at - 2] in words("limits", "differing"):
        return at - 2
    apart = at > 1 and texts[at - 1] == "," and texts[stretch.end : stretch.end + 1] == [","]
    return at if apart and texts[at] == "within" and kind_of(stretch.unit) == "time" else 0


def _met(texts: list[str], stretch: Stretch) -> int:
    """Where 'a force of 150 N being exceeded' ends: what happens, told without an 'if'; else 0."""
    end = stretch.end
    end += texts[end : end + 1] in (["is"], ["being"], ["has"], ["having"])
    end += texts[end : end + 1] == ["been"]
    over = end > stretch.end and texts[end : end + 1] and texts[end] in words("limits", "met")
    if not over or stretch.condition:
        return 0
    governs = {"being", "having"}.intersection(texts[stretch.end : end]) and texts[end + 1 : end + 2] == [","]
    return part_end(texts, end + 2) if governs else end + 1


def _around(text: ClaimText, stretch: Stretch, found: Sequence[Stretch]) -> int:
    """Where 'within 0.2 bar of a set value of 3 bar' ends: so near to something, and no limit of its own."""
    texts, end = text.texts, stretch.end
    within = "within" in texts[stretch.starts[0] : stretch.starts[-1]] and len(stretch.figures) == 1
    measured = stretch.unit is not None and stretch.unit.kind.dimension and kind_of(stretch.unit) != "time"
    if not within or not measured or texts[end : end + 1] != ["of"]:
        return 0
    noun = end + 1 + (texts[end + 1 : end + 2] != [] and texts[end + 1] in _DETERMINERS)
    far = with_of(text, noun + max(1, width_of(noun_at(text, noun))) - 1)
    behind = next((s for s in found if far < s.starts[0] <= far + 1 and texts[far] == "of"), None)
    return behind.end if behind is not None else far


def _per_thing(text: ClaimText, stretch: Stretch) -> int:
    """Where '3 kg or more per batch' ends: so much for each of something; 0 where it is told of none."""
    texts, end = text.texts, stretch.end
    if end == stretch.figures[-1].end or texts[end : end + 1] != ["per"]:
        return 0
    return end + 1 + max(1, width_of(noun_at(text, end + 1)))


def _in_any_case(texts: list[str], one: Stretch, two: Stretch) -> tuple[int, int]:
    """'Within 25 ms, and in any case in less than 40 ms, after the start': both of one time."""
    between = texts[one.end : two.starts[0]]
    alike = one.unit is not None and two.unit is not None and one.unit.kind == two.unit.kind
    if not alike or not any(
        between[i : i + 2] in (["any", "case"], ["any", "event"]) for i in range(len(between))
    ):
        return 0, 0
    end = two.end
    behind = end + (texts[end : end + 1] == [","])
    after = texts[behind : behind + 1] in (["after"], ["of"], ["from"], ["before"], ["following"])
    return one.starts[0], part_end(texts, behind) if after else end


def _as_a_solution(texts: list[str], stretch: Stretch, found: Sequence[Stretch]) -> tuple[int, int]:
    """'As a 2 % w/v aqueous solution at 20 °C': in what a thing is measured, with its heat."""
    at = stretch.starts[0]
    if texts[at - 2 : at] not in (["as", "a"], ["as", "an"]):
        return 0, 0
    near = range(stretch.end, min(len(texts), stretch.end + 6))
    end = next((i + 1 for i in near if texts[i] in words("limits", "diluted")), 0)
    behind = next((s for s in found if end and end < s.starts[0] <= end + 4), None)
    if behind is not None and texts[end] in ("at", "in") and "," not in texts[end : behind.starts[0]]:
        end = behind.end
    return (at - 2, end) if end and "," not in texts[stretch.end : end] else (0, 0)


def _instructed(texts: list[str], stretch: Stretch) -> tuple[int, int]:
    """'With instructions to take two tablets daily': what someone is told to do, and no limit of the thing.

    Not what a processor is told, which a claim to it limits.
    """
    at = stretch.starts[0]
    for i in range(at - 1, max(0, at - MOST_OF_TEST), -1):
        if texts[i] in ENDS | CLAUSES | {","}:
            break
        to = {"to", "for", "that", "on", "which"}.intersection(texts[i + 1 : i + 6])
        if (texts[i] in _TOLD and to) and _EXECUTING.isdisjoint(texts):
            return i, part_end(texts, stretch.end)
    return 0, 0


_TOLD = frozenset("instructions instruction directions instructing instructs telling tells".split())
_EXECUTING = frozenset(
    "processor processors computer program executed execute executes executable controller memory".split()
)


def _when_tested(texts: list[str], stretch: Stretch) -> tuple[int, int]:
    """', when tested in 900 mL of water at pH 6.8 and 37 °C,': how something is measured, up to a comma."""
    at = stretch.starts[0]
    begin = next(
        (i for i in range(at - 1, max(0, at - MOST_OF_TEST), -1) if texts[i] in ENDS | CLAUSES | {","}), 0
    )
    said = (
        texts[begin] in CLAUSES | {","} and texts[begin + 1] in ("when", "if") and texts[begin + 2] in _TESTED
    )
    return (begin + 1, part_end(texts, stretch.end)) if said and not stretch.under[1] else (0, 0)


MOST_OF_TEST = 40
"""How many words 'when tested in a paddle apparatus at 50 rpm in 900 mL of a buffer at pH 6.8' may have."""
_TESTED = frozenset("measured determined tested evaluated assessed analyzed analysed".split())


def _till(texts: list[str], stretch: Stretch) -> tuple[int, int]:
    """'For 5 seconds or until the alarm is reset': either is enough."""
    end = stretch.end + (texts[stretch.end : stretch.end + 1] == [","])
    falls = not words("limits", "falling").isdisjoint(texts[stretch.starts[0] : stretch.starts[-1]])
    if texts[end : end + 1] == ["until"] and falls:
        return stretch.starts[0], part_end(texts, end + 1)
    if texts[end : end + 1] != ["or"] or texts[end + 1 : end + 2] not in (
        ["until"],
        ["till"],
        ["when"],
        ["if"],
    ):
        return 0, 0
    first = stretch.starts[0]
    return first - (texts[first - 1] == "for"), part_end(texts, end + 1)


def _in_two_cases(
    text: ClaimText, one: tuple[Stretch, Called], two: tuple[Stretch, Called], found: Sequence[Stretch]
) -> tuple[int, int]:
    """'2 to 5 s in a quiet mode and 4 to 10 s in a rush mode': two limits of one thing, neither always."""
    texts, (a, _), (b, other) = text.texts, one, two
    first, last, start = a.end, b.end, b.starts[0]
    if texts[first : first + 1] == texts[last : last + 1] and texts[first] in word_lists()["adjectives"]:
        first, last = first + 1, last + 1  # '20 cm long when dry and 30 cm long when wet'
    elif other.noun and not other.unnamed:
        return 0, 0
    between = texts[first:start]
    alike = a.unit is not None and b.unit is not None and a.unit.kind == b.unit.kind
    if not alike or not 1 < len(between) <= MOST_BETWEEN or max(first, a.farther, a.under[1]) > start:
        return 0, 0
    begins = between[1] if between[0] == "," else between[0]
    joint = next((i for i in range(start - 1, first, -1) if texts[i] in _JOINTS), 0)
    to = {"to", "of", "at", "from", "is", "only"}
    if begins not in _CASES or not joint or not to.issuperset(texts[joint + 1 : start]):
        return 0, 0
    same = texts[last : last + 1] == [begins] or {begins, *texts[last : last + 1]} in _OPPOSED
    if not same or not ENDS.isdisjoint(between):
        return 0, 0
    if begins in ("when", "while"):
        return _with_what(texts, a.starts[0]), part_end(texts, last)
    amount = next((s for s in found if last < s.starts[0] <= last + 1), None)
    if amount is not None:
        return _with_what(texts, a.starts[0]), amount.end
    noun = last + 1 + (texts[last + 1 : last + 2] != [] and texts[last + 1] in _DETERMINERS)
    far = with_of(text, noun + width_of(noun_at(text, noun)) - 1) if noun < len(texts) else noun
    return _with_what(texts, a.starts[0]), min(max(far, last + 1), len(texts))


_OPPOSED = ({"before", "after"}, {"above", "below"}, {"with", "without"}, {"at", "in"}, {"before", "during"})


def _with_what(texts: list[str], at: int) -> int:
    """Where the words begin that name what a limit here is of, close before it."""
    noun = at - (texts[at - 1] in ("of", "is", "at", "to", "are"))
    start = noun_start(texts, noun)
    stops = words("nouns", "stops")
    return (
        start
        if start < noun and nounish(texts[start], stops) and run_at(texts, start, "limits", "openings") == 0
        else at
    )
