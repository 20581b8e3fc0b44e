"""Words that give each of several things a limit of its own: '2 to 3 mm and 4 to 5 mm, respectively'.

Or each of several steps what is said of it: 'heating for 10 min, followed by cooling for 5 min'.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.core.declared import Step
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.circumstances import SO_OFTEN
from scopecheck.matching.subjects import Subject, at_its_end
from scopecheck.rewording.by_name import stand_alike, stands_beside, trimmed
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.parts import plural_of

Tokens = tuple[Token, ...]
Pieces = list[tuple[Tokens, tuple[Subject, ...]]]
"""What is said, and of which things left of the colon."""


def in_order(tokens: Tokens, names: tuple[str, ...]) -> list[list[Tokens]]:
    """The ways to part the words at commas and 'and' into one piece for each thing, in their order.

    Either the words say 'respectively', or each piece names its own thing and no other.
    """
    words = [word_of(t) for t in tokens]
    said = not listed("asides", "in_order").isdisjoint(words)
    if said and (behind := _behind_shared_noun(words, names)):
        tokens, words = tokens[behind:], words[behind:]
    if said and _names_in_words(words, names) not in ((), names):
        return []  # 'the rim and the gap are 2 and 4 mm, respectively', of a gap and a rim
    if said:
        tokens = trimmed(tuple(t for t in tokens if word_of(t) not in listed("asides", "in_order")))
        tokens = _without_names(tokens, names)
    ways = [way for way in _parted(tokens, len(names)) if all(way)]
    if said:
        return [_with_limit_of_first(way) for way in ways if not any(map(_several, way))]
    return [
        way
        for way in ways
        if all(_names(piece, names) == [name] for piece, name in zip(way, names, strict=True))
        and stand_alike(way, list(names))
        and not any(_begins_a_total(piece, name) for piece, name in zip(way, names, strict=True))
        and not any(stands_beside(piece, set(name.split())) for piece, name in zip(way, names, strict=True))
        and not _chooses(way)
        and not any(_may_part_the_line(piece, name) for piece, name in zip(way, names, strict=True))
    ]


def _begins_a_total(piece: Tokens, name: str) -> bool:
    """`and the total of oil`, of which `and wax` is another piece: no limit of one of them."""
    words = [word_of(t) for t in piece]
    totals = (
        i for i, w in enumerate(words) if w in ("total", "combined", "sum") and "of" in words[i + 1 : i + 3]
    )
    return any(name.split()[0] in words[i + 2 : i + 5] for i in totals)


def _may_part_the_line(piece: Tokens, name: str) -> bool:
    """`two bores, or one bore`, of `and one pin` behind it: is the 'or' one of all that the line says?"""
    words, stem = [word_of(t) for t in piece], name.removesuffix("s")
    sides = ((words[:i], words[i:]) for i, w in enumerate(words) if w == "or")
    named = (stem, f"{stem}s", f"{stem}es")
    return any(all(any(f" {n} " in f" {' '.join(s)} " for n in named) for s in both) for both in sides)


def _chooses(way: list[Tokens]) -> bool:
    """`at least one of a bore | and a pin`: what the first piece counts is all that follows."""
    counted = [any(w in _CHOICES and then == "of" for w, then in pairwise(map(word_of, p))) for p in way]
    return counted[0] and not all(counted)


_CHOICES = NUMBER_WORDS.keys() | {"more", "both", "each", "all", "any", "none", "some"}


def _behind_shared_noun(words: list[str], names: tuple[str, ...]) -> int:
    """Where the words go on behind names that share a noun, `the first and second rib widths are`; else 0.

    Or their first word: `the rib width and depth`. In the order of the things, as all that is named.
    """
    own = [name.split() for name in names]
    fewest = min(map(len, own)) - 1
    behind = next((n for n in range(fewest, 0, -1) if len({tuple(o[-n:]) for o in own}) == 1), 0)
    before = next((n for n in range(fewest, 0, -1) if len({tuple(o[:n]) for o in own}) == 1), 0)
    ways = []
    if behind:
        (*noun, last) = own[0][-behind:]
        ways = [[w for o in own for w in o[:-behind]] + [*noun, form] for form in (last, plural_of(last))]
    if before:
        ways.append(own[0][:before] + [w for o in own for w in o[before:]])
    aside = listed("asides", "beside_each") | {"and", ",", "a", "an", "the", "said", "respective"}
    end, found = 0, list[str]()
    while end < len(words) and (words[end] in aside or any(words[end] in way for way in ways)):
        found += [words[end]] if words[end] not in aside else []
        end += 1
    return end if found in ways else 0


def _names_in_words(words: list[str], names: tuple[str, ...]) -> tuple[str, ...]:
    """The names of the things in the order in which the words have them."""
    text = f" {' '.join(words)} "
    places = {name: at for name in names if (at := text.find(f" {name} ")) >= 0}
    return tuple(sorted(places, key=lambda name: places[name]))


_OF_A_CONDITION = ("at", "when", "where", "if", "unless", "while", "under", "during", "for", "in", "provided")


def says_how_much(tokens: Tokens, name: str) -> bool:
    """Does a number stand in the words, or "a" before the name, and no choice such as "one of"?"""
    words = [word_of(t) for t in tokens]
    condition = words[0] in _OF_A_CONDITION and words[1:2] not in (["most"], ["least"], ["an"], ["amounts"])
    if condition or {"ratio", "sum", "product", "difference"} & set(words):
        return False
    if any(w in NUMBER_WORDS and then in ("of", "or") and "of" in words for w, then in pairwise(words)):
        return False
    one = any(w in ("a", "an") and then in (name, name.removesuffix("s")) for w, then in pairwise(words))
    return one or any(t.number or word_of(t) in NUMBER_WORDS for t in tokens)


def _with_limit_of_first(way: list[Tokens]) -> list[Tokens]:
    """`at most 5 mm` and `3 mm` as at most each: what stands before the first number holds for bare ones."""
    first = next((i for i, t in enumerate(way[0]) if t.number), 0)
    bare = [piece[0].number is not None and sum(t.number is not None for t in piece) == 1 for piece in way]
    rest = zip(way[1:], bare[1:], strict=True)
    return [way[0], *(way[0][:first] + piece if alone else piece for piece, alone in rest)]


def at_and_for(tokens: Tokens) -> list[list[Tokens]]:
    """The ways to part the words before an 'at', 'for' or 'during': '100 to 120 degC for 20 min'."""
    found = (i for i, t in enumerate(tokens) if i and word_of(t) in listed("asides", "held"))
    return [[tokens[:i], tokens[i:]] for i in found]


def how_often(tokens: Tokens) -> list[list[Tokens]]:
    """The ways to part the words so: `5 mg | twice a day`, `three times daily | at a dose of 5 mg`."""
    words = [word_of(t) for t in tokens]
    often = [i for i, w in enumerate(words) if w in SO_OFTEN or words[i + 1 : i + 2] == ["times"]]
    found = (i for i in range(1, len(words)) if i in often or (often and words[i] == "at"))
    return [[tokens[:i], tokens[i:]] for i in found]


def _several(tokens: Tokens) -> bool:
    """Do the words hold two bare amounts side by side, which would be two limits?"""
    joined = (i for i, t in enumerate(tokens) if word_of(t) in ("and", ",") and 0 < i < len(tokens) - 1)
    between = any(word_of(t) == "between" for t in tokens)
    return not between and any(tokens[i - 1].number and tokens[i + 1].number for i in joined)


def _names(tokens: Tokens, names: tuple[str, ...]) -> list[str]:
    text = f" {' '.join(word_of(t) for t in tokens)} "
    return [name for name in names if f" {name} " in text or f" {name.removesuffix('s')} " in text]


def _without_names(tokens: Tokens, names: tuple[str, ...]) -> Tokens:
    """The words behind 'the gap and the rim are', where all the things are named before their limits."""
    beside = listed("asides", "beside_each") | {"and", ",", "a", "an", "the"}
    own = {word for name in names for word in name.split()}
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in beside | own), 0)
    named = {word_of(t) for t in tokens[:start]} & own
    return tokens[start:] if named in (set(), own) else tokens


def _parted(tokens: Tokens, count: int) -> list[list[Tokens]]:
    """Every way to part the words so; at ', and' they are parted once."""
    if count == 1:
        return [[trimmed(tokens)]]
    words = [word_of(t) for t in tokens]
    found = []
    for at in (i for i, w in enumerate(words) if i and w in ("and", ",")):
        if words[at : at + 2] != [",", "and"]:
            found += [[trimmed(tokens[:at]), *more] for more in _parted(tokens[at + 1 :], count - 1)]
    return found


# ---- steps, each with what is said of it


def steps_apart(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """The ways to take words on steps apart: whether one piece is enough, and what each is said of."""
    words = {word_of(t) for t in tokens}
    if not words.isdisjoint(("if", "when", "unless", "not", "no", "never", "without", "neither")):
        return  # denied, or under a condition: said of each it may say something else
    yield from _either_time(tokens, subjects)
    if "or" not in words:
        yield from _behind_a_clause(tokens, subjects)
    yield from _beside_several(tokens, subjects)
    if "or" in words:
        return
    yield from _at_what(tokens, subjects)
    yield from _one_behind_the_other(tokens, subjects)
    yield from _in_turn(tokens, subjects)
    yield from _of_several_steps(tokens, subjects)
    yield from _first_or_last(tokens, subjects)


def _either_time(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`before, during or after the heating` as before it, during it, or after it."""
    words = [word_of(t) for t in tokens]
    last = next((i for i in range(len(words) - 1, 0, -1) if words[i] == "or"), 0)
    behind = _preposition(words, last + 1) if last else 0
    if not behind or last + 1 + behind >= len(words) or words.count("or") > 1:
        return
    runs, end = list[Tokens](), last
    while True:
        end -= words[end - 1] == ","
        start = next((i for i in range(end - 1, -1, -1) if i + _preposition(words, i) == end), -1)
        if start < 0 or not _preposition(words, start):
            break
        runs.append(tokens[start:end])
        end = start
        if not end or words[end - 1] != ",":
            break
    if not runs or (end and words[end - 1] == ","):
        return
    lead = tokens[1:end] if words[0] == "either" else tokens[: end - (words[end - 1 : end] == ["either"])]
    what = tokens[last + 1 + behind :]
    each = (*reversed(runs), tokens[last + 1 : last + 1 + behind])
    yield True, [((*lead, *run, *what), subjects) for run in each]


def _beside_several(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`during the heating and/or the cooling`, `after both the heating and the cooling`, beside each."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words)) if _preposition(words, i)), -1)
    if at < 0 or any(t.number for t in tokens):
        return
    end = at + _preposition(words, at)
    one_is_enough = words[end : end + 4] == ["at", "least", "one", "of"]
    start = end + 4 * one_is_enough + (words[end : end + 1] in (["both"], ["either"]))
    last = len(words)
    for behind in (["or", "both"], ["or", "in", "both"]):
        last -= len(behind) * (words[-len(behind) :] == behind)
    pieces = [p for p in _split(tokens[start:last], ("and", ",", "or", "/", "and/or")) if p]
    one_is_enough = one_is_enough or not {"or", "and/or"}.isdisjoint(words[start:])
    texts = [[w for w in map(word_of, p) if w not in ("the", "said", "a")] for p in pieces]
    steps = [s.text.lower().split() for s in subjects if isinstance(s.bound, Step)]
    if _LISTED.isdisjoint(words[start:]) or all(step in texts for step in steps):
        return  # 'after the heating, cooling': of what is named last, when
    if len(pieces) > 1 and not any(_preposition([word_of(t) for t in p], 0) for p in pieces):
        yield one_is_enough, [((*tokens[:end], *piece), subjects) for piece in pieces]


_LISTED = frozenset(("and", "or", "/", "and/or"))


def _split(tokens: Tokens, joints: tuple[str, ...]) -> list[Tokens]:
    """The words apart at the joints."""
    found = list[Tokens]([()])
    for token in tokens:
        if word_of(token) in joints:
            found.append(())
        else:
            found[-1] = (*found[-1], token)
    return found


def _of_several_steps(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`heating and cooling are carried out before the mixing`: of each of the two."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in ("are", "being")), 0)
    named = _named_in(words, subjects)
    first = [f for f in named if f[1] <= at]
    joints = {"and", ",", "both", "the"}
    called = {w for _, _, s in first for w in s.text.lower().split()}
    if not at or len(first) < 2 or len(first) == len(named) or not (joints | called).issuperset(words[:at]):
        return
    (said, _), *_ = _said_of(tokens[at:], first[0][2], ()) or [((), ())]
    if said and _preposition([word_of(t) for t in said], 0):
        yield False, [(said, (step,)) for _, _, step in first]


def _preposition(words: list[str], at: int) -> int:
    """How many words of what says when, "prior to", stand here; 0 for none."""
    return run_at(words, at, "steps", "when")


def _quantities_of(step: Subject, subjects: tuple[Subject, ...]) -> tuple[Subject, ...]:
    """What stands left of the colon beside a step and is measured of it."""
    own = f" of {step.text.lower()}"
    return tuple(s for s in subjects if s is not step and s.text.lower().endswith(own))


def _at_what(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`at 60 to 80 degC for 10 min`, `heated to 80 degC within 10 min`: what it is at, and how long."""
    steps = [s for s in subjects if isinstance(s.bound, Step)]
    if len(subjects) != 2 or len(steps) != 1 or _quantities_of(steps[0], subjects) == ():
        return
    measured = _quantities_of(steps[0], subjects)
    tokens = _without_own_lead(tokens, steps[0])
    for at in (i for i, t in enumerate(tokens) if i and word_of(t) in _HOW_LONG | {"at", "to"}):
        first, second = tokens[: at - (word_of(tokens[at - 1]) == "and")], tokens[at:]
        yield False, [(_so_long(first), tuple(steps)), (second, measured)]
        yield False, [(first, measured), (_so_long(second), tuple(steps))]


def at_first_and_at_last(tokens: Tokens, subjects: tuple[Subject, ...]) -> Pieces:
    """`heated from 20 to 80 degC over 10 min`: what it is at the start, at the end, and how long it takes.

    Nothing where the words say more, or how long beside a quantity alone.
    """
    words = [word_of(t) for t in tokens]
    measured = [s for s in subjects if s.moments]
    steps: tuple[Subject, ...] = tuple(s for s in subjects if isinstance(s.bound, Step))
    at = next(
        (
            i
            for i, w in enumerate(words)
            if w in listed("steps", "changing") and words[i + 1 : i + 2] == ["from"]
        ),
        -1,
    )
    if at < 0 or len(measured) != 1 or len(measured) + len(steps) != len(subjects) or len(tokens) < at + 5:
        return []
    own = {w for s in subjects for w in s.text.lower().split()} | {"the", "a", "is", "being", "of"}
    first = tokens[at + 2]
    if not own.issuperset(words[:at]) or first.number is None or words[at + 3] != "to":
        return []
    end = next((i for i in range(at + 4, len(words)) if words[i] in _HOW_LONG), len(words))
    last = next((t.number for t in tokens[at + 4 : end] if t.number), None)
    if last is None or bool(steps) != (end < len(words)):
        return []
    if first.number.unit is None:
        first = replace(first, number=replace(first.number, unit=last.unit))
    pieces: Pieces = [
        ((first,), (at_its_end(measured[0], "start"),)),
        (tokens[at + 4 : end], (at_its_end(measured[0]),)),
    ]
    if steps:
        pieces.append((_so_long(tokens[end:]), steps))
    return pieces


def _without_own_lead(tokens: Tokens, step: Subject) -> Tokens:
    """`the heating is carried out at 80 degC for 10 min` without the step's name and what is done."""
    words = [word_of(t) for t in tokens]
    own = step.text.lower().split()
    start = int(words[:1] == ["the"])
    named = start + len(own) if words[start : start + len(own)] == own else 0
    said = _said_of(tokens[named:], step, ())
    return said[0][0] if said else tokens


_HOW_LONG = frozenset("for within over in during".split())


def _so_long(tokens: Tokens) -> Tokens:
    """`within 10 min`, `over 10 min` of a step that leads to something as lasting so long."""
    words = [word_of(t) for t in tokens]
    lasting = {"within": "lasting at most", "over": "lasting", "in": "lasting", "during": "lasting"}
    told = lasting.get(words[0], "")
    if words[0] == "in" and words[1:3] == ["less", "than"]:
        told = "lasting"
    return (*words_at(tokens[0], told), *tokens[1:]) if told else tokens


def _one_behind_the_other(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`for 5 min immediately after the heating`, `after the heating for 5 min`: how long, and when."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, Step):
        return
    words = [word_of(t) for t in tokens]
    starts = [i for i in range(len(words)) if words[i] == "for" or _preposition(words, i)]
    starts = [i for i in starts if not any(j < i < j + _preposition(words, j) for j in starts)]
    if len(starts) == 2 and sum(words[i] == "for" for i in starts) == 1 and words[starts[1] - 1] != "and":
        lead, first, second = tokens[: starts[0]], tokens[starts[0] : starts[1]], tokens[starts[1] :]
        behind = first if words[starts[0]] != "for" else second
        if behind is first and word_of(first[_preposition(words, starts[0])]) not in ("the", "said"):
            return  # 'after heating for 5 min': so long was heated
        if not any(t.number for t in behind):
            yield False, [((*lead, *first), subjects), (second, subjects)]


def _named_in(words: list[str], subjects: tuple[Subject, ...]) -> list[tuple[int, int, Subject]]:
    """Where the words name steps, each once: the place before the article, the end, and the step; else []."""
    found = list[tuple[int, int, Subject]]()
    for s in (s for s in subjects if isinstance(s.bound, Step)):
        own = s.text.lower().split()
        places = [i for i in range(len(words)) if words[i : i + len(own)] == own]
        if len(places) != 1:
            return []
        start = places[0] - (words[max(0, places[0] - 1)] in ("the", "a", "said") and places[0] > 0)
        found.append((start, places[0] + len(own), s))
    return sorted(found, key=lambda f: f[0])


def _said_of(tokens: Tokens, step: Subject, subjects: tuple[Subject, ...]) -> Pieces:
    """What is said of a step behind its name, without 'is carried out'; nothing where nothing is."""
    tokens = trimmed(tokens)
    words = [word_of(t) for t in tokens]
    skip = int(words[:1] in (["is"], ["being"], ["are"]))
    for done in (["carried", "out"], ["performed"], ["done"], ["effected"], ["conducted"]):
        if words[skip : skip + len(done)] == done:
            skip += len(done)
    rest, measured = tokens[skip:], _quantities_of(step, subjects)
    units = [t.number.unit for t in rest if t.number and t.number.unit]
    at_what = measured and units and all(unit.kind.dimension != TIME for unit in units)
    return [(rest, measured if at_what else (step, *measured))] if rest else []


def _behind_a_clause(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`after the heating, cooling for 5 to 10 min`: when, and how long; `after heating for 5 min, cooling`.

    The clause stands before a comma, or before what is carried out: `after the heating the cooling begins`.
    """
    words = [word_of(t) for t in tokens]
    named = _named_in(words, subjects)
    at = _named_in_a_clause(tokens, named)
    if at is None:
        return
    before, behind = named[:at], named[at:]
    start, end = behind[0][0], behind[-1][1]
    comma = words.index(",") if "," in words[:start] else start
    so_long = next((i for i in range(comma) if words[i] == "for" and (not at or i >= named[0][1])), comma)
    if so_long < comma and at != 1:
        return  # of which of them, or of a step that does not stand left of the colon
    clause, pieces = tokens[:so_long], list[tuple[Tokens, tuple[Subject, ...]]]()
    if so_long < comma:
        pieces.append((tokens[so_long:comma], (before[0][2],)))
    begun = words[end:] != [] and _BEGINS.issuperset(words[end:])
    lead = words_at(tokens[0], "started", True) if begun else ()
    joints = [words[one[1] : then[0]] for one, then in pairwise(behind)]
    later = not _LATER.isdisjoint(words[:start])
    pieces += [
        ((*lead, *clause), (step,))
        for (_, _, step), joint in zip(behind, [[], *joints], strict=True)
        if not (later and "then" in joint)
    ]
    rest = [] if begun else _said_of(tokens[end:], behind[-1][2], subjects)
    if not _LEFT_OPEN.isdisjoint(words):
        return
    if len(behind) == 1:
        yield False, [*pieces, *rest]
        return
    if rest or not all(joint in _JOINED_STEPS for joint in joints):
        return
    turns = [
        (one, then)
        for ((*_, one), (*_, then)), joint in zip(pairwise(behind), joints, strict=True)
        if "then" in joint
    ]
    if not (turns and later) and words[0] in ("immediately", "directly", "shortly"):
        return  # of which of them nothing may lie between
    if turns:
        pieces += [(tuple(words_at(tokens[0], f"followed by {then.text}")), (one,)) for one, then in turns]
    else:
        steps = tuple(step for _, _, step in behind)
        pieces.append((tuple(words_at(tokens[0], "comprising the steps of")), steps))
    yield False, pieces


def _named_in_a_clause(tokens: Tokens, named: list[tuple[int, int, Subject]]) -> int | None:
    """How many of the steps named stand in a clause on when the others are done; None for no such clause."""
    words = [word_of(t) for t in tokens]
    first = next((i for i in range(len(words)) if _preposition(words, i)), len(words))
    delayed = all(t.number or word_of(t) in listed("limits", "inside") for t in tokens[:first])
    if not named or not (words[0] in ("upon", "once", "on") or (first < len(words) and delayed)):
        return None
    if "," not in words:
        (_, end, _), (start, behind, _) = named[0], named[-1]
        follows = len(named) == 2 and end == start and words[start] in ("the", "said")
        return 1 if follows and words[behind:] and (_DONE | _BEGINS).issuperset(words[behind:]) else None
    comma = words.index(",")
    at = next((i for i, (start, _, _) in enumerate(named) if start > comma), None)
    return (
        at if at is not None and words[comma + 1 : named[at][0]] in ([], ["then"], ["and", "then"]) else None
    )


_LATER = frozenset("after following subsequent".split())
_DONE = frozenset("is being carried out performed done effected conducted takes place occurs".split())
_JOINED_STEPS = [
    [*joint, *then] for joint in (["and"], [","], [",", "and"]) for then in ([], ["then"], ["finally"])
]


_BEGINS = frozenset("is being started begun begins starts initiated commences commenced".split())


def _in_turn(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`heating for 10 min, followed by cooling for 5 min`: each for so long, and one behind the other."""
    words = [word_of(t) for t in tokens]
    named = _named_in(words, subjects)
    if len(named) < 2 or words[: named[0][0]] not in ([], ["first"], ["comprising"], ["firstly"]):
        return
    onward = not _ONWARD.isdisjoint(words[named[-2][1] : named[-1][0]])
    pieces, related, joined = list[tuple[Tokens, tuple[Subject, ...]]](), 0, True
    for at, (_, end, step) in enumerate(named):
        then = named[at + 1] if at + 1 < len(named) else None
        joint = _joint(words, end, then[0]) if then else len(words)
        joined &= then is None or joint < then[0]  # 'stirring for 2 hours of the mixing' is no list
        own = tokens[end:joint]
        soon = at and words[end : end + 1] == ["within"]
        if limit := _delay(own):
            if not at:
                return
            first = named[at - 1][2]
            said = words_at(limit[-1], f"before {step.text}")
            pieces.append(((*words_at(limit[0], "ends", understood=True), *limit, *said), (first,)))
        elif not soon:
            pieces += _said_of(own, step, subjects)
        listed_on = then is not None and words[joint : then[0]] == [","] and onward
        if then and (listed_on or not _ONWARD.isdisjoint(words[joint : then[0]])):
            related += 1
            last = then[1] + (len(words) - then[1] if words[then[1] : then[1] + 1] == ["within"] else 0)
            nearer = {"immediately", "directly"} & set(words[joint : then[0]])
            how = "immediately followed by" if nearer else "followed by"
            pieces.append(((*words_at(tokens[joint], how), *tokens[then[0] : last]), (step,)))
    steps = tuple(step for _, _, step in named)
    listed_alone = not related and bool(pieces) and (words[0] == "comprising" or len(pieces) < len(named))
    listed_alone = listed_alone and joined and _LEFT_OPEN.isdisjoint(words) and not _may_share(words, named)
    if listed_alone and len(named) == sum(isinstance(s.bound, Step) for s in subjects):
        yield False, [(tuple(words_at(tokens[0], "comprising the steps of")), steps), *pieces]
    each = not related and len(pieces) == len(named)
    if each or (related == len(named) - 1 and (len(pieces) > related or "within" in words)):
        yield False, pieces


def _delay(tokens: Tokens) -> Tokens:
    """`after a pause of at least 2 s`, `after at least 2 s`, behind a step: how long it waits for another."""
    words = [word_of(t) for t in tokens]
    start = run_at(words, 0, "steps", "waiting") or int(words[:1] == ["after"])
    named = any(t.sort == "word" and t.text.lower() not in listed("limits", "inside") for t in tokens[start:])
    return tokens[start:] if start and not named and any(t.number for t in tokens) else ()


def _may_share(words: list[str], named: list[tuple[int, int, Subject]]) -> bool:
    """`heating and cooling for 2 hours`: may what is said of the second be said of the first, too?"""
    return any(
        words[end:start] in (["and"], ["and", "the"]) and words[then : then + 1] not in ([], [","], ["and"])
        for (_, end, _), (start, then, _) in pairwise(named)
    )


_LEFT_OPEN = frozenset("optionally optional preferably may can alternatively either".split())


def _joint(words: list[str], start: int, end: int) -> int:
    """Where between two steps the words begin that lead from the one to the next."""
    at = end
    while at > start and words[at - 1] in _LEADING_ON:
        at -= 1
    return at


_ONWARD = frozenset("then followed thereafter subsequently afterwards finally next".split())
_LEADING_ON = _ONWARD | frozenset("and , by immediately directly".split())


def _first_or_last(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[bool, Pieces]]:
    """`the mixing is carried out last`, `heating is the first step`: after, or before, each other one."""
    words = [word_of(t) for t in tokens if word_of(t) not in ("the", "step", "is", "being", "carried", "out")]
    words = [w for w in words if w not in ("performed", "done")]
    place = words[-1] if words else ""
    one = next((s for s in subjects if words[:-1] == s.text.lower().split()), None)
    if len(subjects) < 2 or one is None or place not in ("first", "last"):
        return
    when = "before" if place == "first" else "after"
    others = (s for s in subjects if s is not one)
    yield False, [(tuple(words_at(tokens[0], f"{when} {s.text}")), (one,)) for s in others]
