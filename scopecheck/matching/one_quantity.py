"""Words round the limit of one quantity that say whose it is, how it comes about or what it is counted in.

They are read past only where nothing else reads the words; a warning tells of what neither name nor note has.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, product

from scopecheck.core.declared import NumberDecl, Step
from scopecheck.foundations.diagnostics import Diagnostic, read_past_warning
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, has_number, word_of
from scopecheck.matching.circumstances import IN_EACH, SO_OFTEN
from scopecheck.matching.everyday import placed_at
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import describes
from scopecheck.vocabulary.names import Bound, Typed

Tokens = tuple[Token, ...]
_PER = regex(r"\s*(?:\bper\b|/)\s*")
Found = Iterator[tuple[Tokens, tuple[Diagnostic, ...]]]


def with_period_apart(tokens: Tokens, bound: Bound) -> Tokens:
    """`8 hours per day`, of a time, as 8 hours, and per day: together they are a share of the day."""
    if not isinstance(bound, Typed) or bound.kind is None or bound.kind.dimension != TIME:
        return tokens
    found = list[Token]()
    for token in tokens:
        number, apart = token.number, _PER.search(token.text)
        unit = find_unit(number.unit.symbol.split("/")[0]) if number and number.unit else None
        period = find_unit(token.text[apart.end() :]) if apart else None
        timed = unit and period and unit.kind.dimension == period.kind.dimension == TIME
        if not (number and apart and timed):
            found.append(token)
            continue
        start, end = token.start + apart.start(), token.start + apart.end()
        found += (
            replace(token, text=token.text[: apart.start()], end=start, number=replace(number, unit=unit)),
            Token("word", "per", start, end),
            Token("word", token.text[apart.end() :], end, token.end),
        )
    return tuple(found)


def without_what_is_round_it(job: Job, tokens: Tokens) -> Found:
    """The limit of one quantity without what is said round it, and the warnings that tell of that."""
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, Typed) or len(tokens) < 2:
        return
    finds = (_of_none, _of_each_container, _of_what_is_full, _from_there, _of_a_loss, _in_each_period)
    for find in (*finds, _done_so_often, _of_each_that_has_them):
        yield from find(job, tokens)


def _own(job: Job, which: int = 0) -> set[str]:
    """The words of the name and the note, each in the singular and as it stands."""
    name = job.subjects[which].text
    said = f"{name} {job.place.names.note_of(name)}".lower().split()
    words = {w.strip(",;()") for w in said}
    return words | {w.removesuffix("s") for w in words} | {w.removesuffix("es") for w in words}


def _told(job: Job, words: Tokens, cause: str, own: set[str]) -> tuple[Diagnostic, ...]:
    """That the words are read past; nothing where the name and the note have them."""
    said = {word_of(t) for t in words} - FILLERS - _SMALL
    if not words or all(own.intersection((w, w.removesuffix("s"), w.removesuffix("es"))) for w in said):
        return ()
    name, text = job.subjects[0].text, job.text(words)
    return (
        read_past_warning(
            job.span(words), [text], cause,
            f'if that is what {name} is, say it where it is declared: {name}  ...  "{text}"',
        ),
    )  # fmt: skip


_SMALL = frozenset("no none of which them its the their in from away per each every".split())


def _of_none(job: Job, tokens: Tokens) -> Found:
    """`no cell has a voltage above 4.15 V`, `none of which exceeds 4.2 V`, of each voltage, as not above.

    Not of what is noted to be another value than theirs: of the lowest, what none exceeds says nothing.
    """
    said = [word_of(t) for t in tokens]
    if said[:3] in (["none", "of", "which"], ["none", "of", "them"]):
        start = 3
    elif said[0] == "no" or said[:3] in (["none", "of", "the"], ["none", "of", "said"]):
        first = 1 if said[0] == "no" else 3
        start = next((i for i in range(first + 1, min(len(said), first + _MOST + 1)) if said[i] in _HAVE), 0)
        if not start or not all(describes(w) or w in _SINGLE for w in said[first:start]):
            return
    else:
        return
    if len(said) <= start or said[start] not in _HAVE:
        return
    own, at = _own(job), start + 1
    if said[start] in ("exceed", "exceeds"):
        run, above = ["exceeding"], True
    else:
        while at < len(said) and (said[at] in FILLERS or said[at] in own or said[at] == "of"):
            at += 1
        run = next((r for r in _COMPARED if said[at : at + len(r)] == r), [])
        above = run[:1] != [] and run[0] in _ABOVE
        at += len(run)
    if not run or not {"or", "and", "but", ",", "not", "nor"}.isdisjoint(said):
        return
    if own & (_OTHER_VALUES | (_LEAST if above else _GREATEST)):
        return
    words = tuple(replace(tokens[start], sort="word", text=w) for w in ("not", *run))
    cause = f"What none of several has, {job.subjects[0].text} has not, if it stands for each of them."
    told = _told(job, tokens[:start], cause, own | ({"none"} if own & _EACH else set()))
    if start == 3 and said[0] == "none" and not own & _EACH:
        told = (
            read_past_warning(
                job.span(tokens[:start]), [job.text(tokens[:start])], cause,
                f'say which it is where it is declared: {job.subjects[0].text}  ...  "of each"',
            ),
        )  # fmt: skip
    yield (*words, *tokens[at:]), told


_MOST = 3
_SINGLE = frozenset(("single", "individual"))
_HAVE = frozenset("has have having is are exceed exceeds".split())
_COMPARED = [
    *([w, "than"] for w in "more greater higher larger longer less fewer lower smaller shorter".split()),
    *([w] for w in "above over exceeding below under".split()),
]
_ABOVE = frozenset("more greater higher larger longer above over exceeding".split())
_LEAST = frozenset("lowest least minimum min smallest shortest weakest".split())
_GREATEST = frozenset("highest greatest maximum max largest longest strongest".split())
_OTHER_VALUES = listed("measures", "of_several")
_EACH = frozenset("each every any one all single individual".split()) | _LEAST | _GREATEST


def _of_each_container(job: Job, tokens: Tokens) -> Found:
    """`windows of 2048 to 8192 samples each`, of how many samples a window has, without the windows."""
    said = [word_of(t) for t in tokens]
    of = said.index("of") if "of" in said[:5] else 0
    each = len(said) - 1 if said[-1] == "each" else of - 1 if of and said[of - 1] == "each" else 0
    end = of - (each == of - 1)
    start = 1 if said[0] in ("the", "said") else 0
    run = said[start:end]
    if not each or not of or not 0 < len(run) <= _MOST or not run[-1].endswith("s"):
        return
    own = _own(job)
    if not all(describes(w) for w in run) or own & _OTHER_VALUES:
        return
    kept = tuple(t for i, t in enumerate(tokens) if i > of and i != each)
    if any(map(has_number, kept)):
        cause = f"The words are read of {job.subjects[0].text}, as of what each of these has."
        yield kept, _told(job, tokens[start:end], cause, own)


def _of_each_that_has_them(job: Job, tokens: Tokens) -> Found:
    """`each ring has eight struts`, of a number of struts, as how many each has."""
    said, own = [word_of(t) for t in tokens], _own(job)
    run = next((r for r in _EACH_OF if said[: len(r)] == r), None)
    if run is None or not isinstance(job.first, Typed) or not job.first.whole or own & _OTHER_VALUES:
        return
    end = next((i for i in range(len(run) + 1, min(len(said), len(run) + _MOST + 2)) if said[i] in _BEARS), 0)
    names = {f for n in job.place.names.all() for w in n.lower().split() for f in (w, w.removesuffix("s"))}
    bearer = said[len(run) : end]
    if not end or not names.isdisjoint(bearer) or not all(map(describes, bearer)):
        return
    of = said[end : end + 2] in (["consists", "of"], ["consisting", "of"])
    cause = f"The words are read of {job.subjects[0].text}, as of how many each of these has."
    only = (replace(tokens[end], text="exactly"),) if of else ()
    yield (*only, *tokens[end + 1 + of :]), _told(job, tokens[: end + 1 + of], cause, own)


_EACH_OF = (["each", "of", "the"], ["every", "one", "of", "the"], ["each"], ["every"])
_BEARS = frozenset("has have having with comprises comprising consists consisting includes including".split())


def _of_what_is_full(job: Job, tokens: Tokens) -> Found:
    """`a quarter full`, `at most 80 % full`, of a share, without the last word."""
    kind, own = job.first.kind if isinstance(job.first, Typed) else None, _own(job)
    share = kind is not None and not kind.dimension and isinstance(job.first, Typed) and job.first.unit
    said = [word_of(t) for t in tokens]
    at = len(said) - (3 if said[-2:-1] == ["or"] else 1)
    if not share or at < 1 or said[at] not in ("full", "filled") or not own.isdisjoint(_EMPTY):
        return
    own |= {"full", "filled"} if own & {"full", "filled", "fill", "filling", "filled-up"} else set()
    cause = f"{job.subjects[0].text} is read as the share that is full."
    yield (*tokens[:at], *tokens[at + 1 :]), _told(job, tokens[at : at + 1], cause, own)


def of_each_owner(job: Job, tokens: Tokens) -> Found:
    """`each rib has a width of at most 3 mm`, `the leakage of each valve is below 15 mL/min`, of one value,
    as what each of them has, without these.

    Of a number of things, of a mean or of a sum nothing is read so.
    """
    said, own = [word_of(t) for t in tokens], _own(job)
    alone = len(job.subjects) == 1 and not job.sort and isinstance(job.first, Typed) and not job.first.whole
    start = next((i for i in range(min(len(said) - 2, MOST_BEFORE_EACH)) if said[i] == "each"), None)
    if not alone or start is None or own & _OTHER_VALUES:
        return
    first = start + (3 if said[start + 1 : start + 3] in (["of", "the"], ["of", "said"]) else 1)
    end = first
    while end < len(said) - 1 and end - first < _MOST and said[end] not in FILLERS and describes(said[end]):
        end += 1
    known = {n.lower() for n in job.place.names.all()}
    owner = " ".join(said[first:end])
    several = not _GROUPS.isdisjoint(said[first:end]) or said[end - 1] in ("time", "other", "one")
    if first == end or several or owner in known or owner.removesuffix("s") in known:
        return
    if start == 0 and said[end] in ("having", "has", "have", "with"):
        kept = tokens[end + 1 :]
    elif start == 0 and said[end] in _IS:
        kept = tokens[end:]
    elif said[start - 1] == "of" and own.union(FILLERS).issuperset(said[: start - 1]) and start > 1:
        kept = (*tokens[: start - 1], *tokens[end:])
    else:
        return
    cause = f"{job.subjects[0].text} is read as the value that each of these has, and is one value."
    name, text = job.subjects[0].text, job.text(tokens[start:end])
    noted = all(w in own or w.removesuffix("s") in own for w in said[first:end]) and own & _EACH
    warning = read_past_warning(
        job.span(tokens[start:end]), [text], cause,
        f'say so where it is declared: {name}  ...  "of {text}"; or declare like parts with a field for it',
    )  # fmt: skip
    yield kept, () if noted else (warning,)


MOST_BEFORE_EACH = 5
_GROUPS = listed("parts", "groups")
_EMPTY = frozenset("empty free unfilled void headspace".split())


def _from_there(job: Job, tokens: Tokens) -> Found:
    """`not further than 20 mm from it`, `within 5 min of each other`, `within 3 mm of a sill`, of a distance
    between them or from the sill, without the last words."""
    said, own = [word_of(t) for t in tokens], _own(job)
    run = next((r for r in _FROM if said[-len(r) :] == r), None)
    run = run or next((r for r in _APART if said[-len(r) :] == r and "between" in own), None)
    behind = tokens[len(tokens) - len(run) :] if run else _from_what_is_noted(job, tokens)
    if not behind or own.isdisjoint((*_DISTANCES, "between")) or not any(map(has_number, tokens)):
        return
    cause = f"What it is measured from is said where {job.subjects[0].text} is declared."
    noted = run is None or run in _APART
    told = () if noted else _told(job, behind, cause, set()) or _told_of(job, behind, cause)
    yield tokens[: -len(behind)], told


def _from_what_is_noted(job: Job, tokens: Tokens) -> Tokens:
    """The `of a sill` that ends the words behind the only number, where noted: 'from the sill'; else ()."""
    note = job.place.names.note_of(job.subjects[0].text).lower().split()
    ends = {w.strip(",;()") for i, w in enumerate(note) if not set(note[:i]).isdisjoint(("from", "between"))}
    at = placed_at(tokens)
    noted = at and all(w in ends or w in FILLERS for w in map(word_of, tokens[at:]))
    return tokens[at:] if noted and word_of(tokens[-1]) in ends else ()


def _told_of(job: Job, words: Tokens, cause: str) -> tuple[Diagnostic, ...]:
    name = job.subjects[0].text
    return (
        read_past_warning(
            job.span(words), [job.text(words)], cause,
            f'say what is meant where it is declared: {name}  ...  "from ..."',
        ),
    )  # fmt: skip


def without_what_it_lies_between(job: Job, tokens: Tokens) -> Found:
    """`a gap of 1 to 2 mm between adjacent plates`, `the distance from the mast is at least 1 km`, without
    what it is measured between or from: behind the limit, or between the name and the limit.

    The words must name what is limited, or it must be a distance or the like by its name or its note.
    """
    if not job.subjects or job.sort or not all(_is_measured(s.bound) for s in job.subjects):
        return
    said, spans = [word_of(t) for t in tokens], listed("asides", "spans")
    number = next((i for i, t in enumerate(tokens) if has_number(t)), len(tokens))
    for which, at in product(range(len(job.subjects)), range(1, len(tokens) - 1)):
        width, by, before = run_at(said, at, "asides", "measured_between"), said[at], said[:at]
        own = _own(job, which)
        name = {f for w in job.subjects[which].text.lower().split() for f in (w, f"{w}s")}
        called, tall = not name.isdisjoint(said[:number]), not own.isdisjoint(_HEIGHTS)
        if not width or not ((own & spans and (called or not tall)) or (by == "between" and called)):
            continue
        if by == "to" and not {"from", "between", "up"}.isdisjoint(before):
            continue  # the end of a range
        if by in _UPRIGHT and not (tall or own & {"distance", "clearance"}):
            continue
        behind = at > number and len(job.subjects) == 1
        if not behind and (at > number or said[at - 1] not in (name if called else spans)):
            continue
        ends = (i for i in range(len(said) - 1, at + width, -1) if i <= number and said[i] in _BEFORE_LIMIT)
        for end in (len(said),) if behind else ends:
            if _are_bodies(job, by, tokens[at + width : end]):
                yield (*tokens[:at], *tokens[end:]), _told_between(job, tokens[at:end], which)


def _is_measured(bound: Bound) -> bool:
    """Has it a unit?"""
    return isinstance(bound, Typed) and bound.kind is not None and bool(bound.kind.dimension)


_UPRIGHT = frozenset("above below beneath over under".split())
_HEIGHTS = frozenset("height depth altitude elevation headroom".split())
_BEFORE_LIMIT = frozenset(
    "is are being of has having amounts lies falls ranges remains exceeds exceed does equals"
    " corresponds".split()
)


def _are_bodies(job: Job, by: str, tokens: Tokens) -> bool:
    """Are the words what something is measured `by`, 'between' or 'from': `the first plate and the rail`?

    What has a value of its own, or is done, is none: beside it a limit is another one.
    """
    said = [word_of(t) for t in tokens]
    join = {"between": "and", "from": "to"}.get(by, "and")
    sides = [list(side) for joined, side in groupby(said, lambda w: w == join) if not joined]
    several = sides and sides[0][-1].endswith(("s", "teeth"))
    if not all(t.sort == "word" for t in tokens) or len(sides) > 1 + (join != "and" or by == "between"):
        return False
    if by == "between" and len(sides) == 1:
        sides[0] = sides[0][sides[0][0] == "two" :]
    measured = {
        n.lower() for n, d in job.place.names.declarations.items() if isinstance(d, NumberDecl | Step)
    }
    measured |= {s.name.lower() for s in job.place.names.steps.values()}
    never = (
        listed("nouns", "stops")
        | listed("limits", "inside")
        | listed("mention", "universal")
        | NUMBER_WORDS.keys()
    )

    def is_body(words: list[str]) -> bool:
        run = [w for w in words if w not in _OF_A_BODY]
        called = f" {' '.join(words)} "
        plain = all((describes(w) and w not in never) or w in _WHICH_BODY for w in run)
        return bool(run) and plain and not any(f" {n} " in called for n in measured)

    return (len(sides) > 1 or by != "between" or bool(several)) and all(map(is_body, sides))


_OF_A_BODY = frozenset("the a an said its their of".split())
_WHICH_BODY = listed("names", "which_body")


def _told_between(job: Job, words: Tokens, which: int) -> tuple[Diagnostic, ...]:
    """That the words are read past; nothing where the note has them."""
    name, text = job.subjects[which].text, job.text(words)
    note = job.place.names.note_of(name)
    if text.lower() in note.lower():
        return ()
    other = word_of(words[0]) in note.lower().split()
    cause = f"What {name} is measured {word_of(words[0])} is no part of the limit that is read."
    if other:
        cause = f"The note of {name} says '{note}', and the words are read as meaning the same."
    return (
        read_past_warning(
            job.span(words), [text], cause,
            f'say it where it is declared: {name}  ...  "{text}"',
        ),
    )  # fmt: skip


_FROM = [["away", "from", "it"], ["from", "it"], ["from", "there"], ["from", "them"], ["therefrom"]]
_APART = [[w, *other] for w in ("of", "from") for other in (["each", "other"], ["one", "another"])]
_DISTANCES = frozenset("distance offset spacing gap clearance separation".split())


def _of_a_loss(job: Job, tokens: Tokens) -> Found:
    """`losing at most 5 % of its activity each time`, `less than 15 % of the pressure is lost`, of a loss."""
    own, said = _own(job), [word_of(t) for t in tokens]
    if own.isdisjoint(("loss", "lost")):
        return
    passed: Tokens = ()
    denied = int(said[0] in ("not", "never") and said[2:3] in (["more"], ["less"]))
    before, tokens, said = tokens[:denied], tokens[denied:], said[denied:]
    lost = next((i for i in range(2, len(said)) if said[i] == "lost" and said[i - 1] in _IS), 0)
    if lost:
        kept, passed = tokens[: lost - 1], tokens[lost + 1 :]
        if not all(describes(w) or w in _TAIL for w in map(word_of, passed)):
            return
    elif said[0] in ("losing", "loses", "lose"):
        kept = tokens[1:]
        if run := next((r for r in _EACH_TIME if said[-len(r) :] == r), None):
            kept, passed = kept[: -len(run)], tokens[-len(run) :]
    else:
        return
    number = max((i for i, t in enumerate(kept) if has_number(t)), default=-1)
    of = next((i for i in range(number + 1, len(kept)) if word_of(kept[i]) == "of"), len(kept))
    whole = kept[of:]
    if number < 0 or not all(describes(w) or w in own | _SMALL for w in map(word_of, whole)):
        return
    cause = f"The words are read of {job.subjects[0].text} as it is declared."
    each = "each" in own or "per" in own or "every" in own
    again = each and word_of(passed[-1] if passed else tokens[0]) in ("time", "cycle", "use")
    told = (*_told(job, whole, cause, own), *(() if again else _told(job, passed, cause, own)))
    yield (*before, *kept[:of]), told


_IS = ("is", "are", "being", "gets", "get")
_TAIL = frozenset("on in at during after per each every time year day cycle use".split())
_EACH_TIME = [["each", "time"], ["every", "time"], ["per", "cycle"], ["in", "each", "cycle"], ["per", "use"]]


def _in_each_period(job: Job, tokens: Tokens) -> Found:
    """`up to 8 hours per day`, of a time, without the day."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    unit = find_unit(word_of(tokens[-1])) if word_of(tokens[-2]) in IN_EACH else None
    period = unit is not None and unit.kind.dimension == TIME
    if kind is None or kind.dimension != TIME or not (period or word_of(tokens[-1]) in _PERIODS):
        return
    if word_of(tokens[-2]) in IN_EACH and any(map(has_number, tokens[:-2])):
        cause = f"{job.subjects[0].text} is read as the time in each of these."
        yield tokens[:-2], _told(job, tokens[-2:], cause, _own(job))


_PERIODS = frozenset("cycle shift night session".split())


def without_what_has_so_many(job: Job, tokens: Tokens) -> Iterator[Tokens]:
    """`at most 44 candidates per slot`, `one tablet per day`, of a count noted "per slot", "in one day",
    without what has so many.

    Where the note says nothing of it, it may be one number of all of them: at least two in each are not two.
    """
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or not job.first.whole or job.sort:
        return
    said, own = [word_of(t) for t in tokens], _own(job)
    number = next((i for i, t in enumerate(tokens) if has_number(t)), len(tokens))
    if not _OTHER_VALUES.isdisjoint((*own, *said)) or own.isdisjoint(_PER_ONE):
        return
    for at in range(1, len(tokens) - 1):
        start = at + _leading_to_what_has_them(said, at)
        verbs = (i for i in range(start + 1, min(number, len(said))) if said[i] in _BEFORE_LIMIT)
        end = len(said) if at > number else next(verbs, 0)
        run = said[start:end] if start > at else []
        noted = own | {_EACH_SO_LONG.get(w, "") for w in own}
        if 0 < len(run) <= _MOST and noted.issuperset(run):
            yield (*tokens[:at], *tokens[end:])


def what_has_so_many(job: Job, tokens: Tokens) -> Tokens:
    """The `per slot` that ends the words on a count, where nothing declared is called so; else ()."""
    counted = len(job.subjects) == 1 and isinstance(job.first, Typed) and job.first.whole and not job.sort
    said, names = [word_of(t) for t in tokens], {n.lower() for n in job.place.names.all()}
    for at in range(max(1, len(said) - _MOST - 1), len(said) - 1) if counted else ():
        lead = _leading_to_what_has_them(said, at)
        run = said[at + lead :]
        plain = lead and run and all(describes(w) and w not in FILLERS for w in run)
        if plain and " ".join(run) not in names:
            return tokens[at:]
    return ()


def _leading_to_what_has_them(said: list[str], at: int) -> int:
    """How many words `per`, `in each`, `a` there are before what has so many."""
    one = said[at + 1] in ("each", "every", "one", "any")
    if said[at] == "per":
        return 1 + one
    if said[at : at + 3] == ["in", "a", "row"]:
        return 0  # one after the other
    if said[at] in _BEFORE_ONE and (one or said[at : at + 2] == ["in", "a"]):
        return 2
    return int(said[at] in ("each", "every", "a") and said[at - 1] not in (*_BEFORE_ONE, "per"))


_PER_ONE = listed("measures", "per_one")
_BEFORE_ONE = ("in", "within", "for", "of", "on", "to")
_EACH_SO_LONG = {"daily": "day", "hourly": "hour", "weekly": "week", "monthly": "month", "yearly": "year"}


def _done_so_often(job: Job, tokens: Tokens) -> Found:
    """`resending the packet up to three times`, of a count, without what is done so often."""
    said, end = [word_of(t) for t in tokens], len(tokens)
    end -= 2 + (said[-2] == "the") if said[-1] in ("most", "least") else 0
    if not isinstance(job.first, Typed) or not job.first.whole or said[end - 1] not in _SO_OFTEN:
        return
    start = end - (said[end - 1] != "times")
    limiting = listed("limits", "inside") - {"a", "the", "an"} | NUMBER_WORDS.keys() | _SO_OFTEN
    while start and (has_number(tokens[start - 1]) or said[start - 1] in limiting):
        start -= 1
    names = {w for n in job.place.names.all() for w in n.lower().split()} - _own(job) - FILLERS
    lead = said[:start]
    done = any(w.endswith(("ing", "ed")) or w in _IS for w in lead)
    plain = names.isdisjoint(lead) and all(describes(w) and not w.endswith(_BY_SO_MUCH) for w in lead)
    if done and plain and lead[-1] not in _LEADING_ON:
        cause = f"The words are read of how often it is done, as {job.subjects[0].text} counts it."
        at = (tokens[-2 - (said[-2] == "the")], tokens[-1]) if end < len(tokens) else ()
        yield (*at, *tokens[start:end]), _told(job, tokens[:start], cause, _own(job))


_SO_OFTEN = SO_OFTEN.keys() | {"times"}
_BY_SO_MUCH = ("larger", "longer", "wider", "enlarged", "magnified", "amplified", "multiplied", "stretched")
_LEADING_ON = ("of", "to", "for", "by", "in", "at", "per", "after", "before", "until", "with", "from")
