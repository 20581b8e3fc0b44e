"""What stands right beside lifted words in the claim and in no line: what denies, loosens or moves a limit.

`in no event | exceeds 3 bar`, `typically | 4 mm`, `4 mm | tops`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at, runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.matching.chart import FILLERS, GOVERNING
from scopecheck.matching.surroundings import describes
from scopecheck.matching.turning_words import turns
from scopecheck.resolve.account import TURNING
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.cut_short import cut_before, cut_behind, so_long_before
from scopecheck.vocabulary.names import Names

_STOPS = frozenset(",;:.()[]")
_IDLE = frozenset("the a an to be is are being been of from for that which at than and".split())
"""Between words that deny and what they deny: `at no time is greater than`."""
_FEW_IDLE = 3
_MOST_ASIDE = 4
"""How many words an aside between commas has at most: `never, in any case, exceeds`."""
_MOST_BETWEEN = 4
_MOST_BETWEEN_LINES = 8
"""How many words from one lifted limit to the next are looked at for an 'or': `, or the gap is`."""
_STATES = frozenset("is are being be".split())
_LISTS: Mapping[str, str] = {
    "denying": "Without it the words may say the opposite.",
    "leaving_open": "With it the claim may leave open whether it is so.",
    "moving": "With it the limit may be another one.",
    "usually": "With it the limit may hold for the most part only.",
}
_OTHERWISE = "With it the words may limit something else, or otherwise."
_CUT = "Without it the words may be a part of a limit, or a limit of something else."
_ABLE = "With it the claim may ask for something that can do so; without it these words ask what is done."
_A_MOMENT = "With it the words limit when a step begins or ends, without it the step as a whole."


def beside_lines(text: ClaimText, names: Names) -> Iterator[Diagnostic]:
    """A warning for each line beside whose words something stands that may change them, and in no line."""
    known = _known(names)
    yield from _either_line(text)
    yield from _left_out(text)
    for start, end, lifted in _stretches(text):
        if names.steps and (turned := _in_another_order(text, start, end, lifted)):
            yield turned
        if not any(_limits(w) for w in text.texts[start:end]):
            if so_long := so_long_before(text, start):
                yield _warning(text, lifted, *so_long, _CUT, "before")
            continue
        before = _before(text, start, known) or _able_to(text, start)
        before = before or (_of_a_moment(text, start) if names.steps else None)
        if before := before or _named_with_more(text, start, known):
            yield _warning(text, lifted, *before, "before")
        if behind := _behind(text, end, names, known) or _so_much_of(text, end, known):
            yield _warning(text, lifted, *behind, "behind")


def _either_line(text: ClaimText) -> Iterator[Diagnostic]:
    """`a rate of at least 120 K/h, or the gap is at least 3 mm`, in two lines: both are asked for."""
    for (start, first, one), (then, end, lifted) in pairwise(_stretches(text)):
        limits = (any(map(_limits, text.texts[a:b])) for a, b in ((start, first), (then, end)))
        said = text.texts[first:then]
        said = said[said[:1] == [","] :]
        apart = len(said) < _MOST_BETWEEN_LINES and _STOPS.isdisjoint(said)
        if one is lifted or not apart or not text.taken.isdisjoint(range(first, then)) or not all(limits):
            continue
        if said[:1] == ["or"]:
            yield Diagnostic(
                "warning", lifted, f"'or' stands between '{one.text}' and '{lifted.text}', and in no line",
                "Each line is asked for: with the 'or' the claim asks for the one or the other.",
                "restate both in one line with the 'or', both things left of the colon, or behind 'exactly'",
            )  # fmt: skip


def _left_out(text: ClaimText) -> Iterator[Diagnostic]:
    """`at least ... 8 mm` lifted from 'at least 3 mm and at most 8 mm': a number or a limit at the dots."""
    for (_, first, one), (then, _, lifted) in pairwise(_stretches(text)):
        between = range(first, then)
        left_out = (i for i in between if i not in text.taken and i not in text.referring)
        if one is lifted and any(_limits(text.texts[i]) for i in left_out):
            said = " ".join(text.source.text[text.tokens[first].start : text.tokens[then - 1].end].split())
            yield Diagnostic(
                "warning", lifted, f"'...' leaves out '{said}', of which something is in no line",
                "A number or a limit left out may belong to what stands round it.",
                "lift all of the words; or restate what is left out in a line of its own",
            )  # fmt: skip


def _in_another_order(text: ClaimText, start: int, end: int, lifted: Span) -> Diagnostic | None:
    """`soaking; subsequently drying`, of `drying, soaking : subsequently`: the words name the later step."""
    if not listed("beside", "then").issuperset(text.texts[start:end]):
        return None
    things = [" ".join(part.split()) for part in text.left.get(lifted, "").split(",")]
    behind = f"{' '.join(w for w in text.texts[end : end + _MOST_BEFORE] if w != 'the')} "
    if len(things) != 2:
        return None
    if not behind.startswith(f"{things[0].lower()} "):
        return _of_another_name(text, end, lifted, things)
    return Diagnostic(
        "error", lifted, f"'{things[0]}' stands right behind '{lifted.text}' in the claim: it comes later",
        "The step that comes first stands first left of the colon.",
        f"write: {things[1]}, {things[0]} : {lifted.text}",
    )  # fmt: skip


def _of_another_name(text: ClaimText, end: int, lifted: Span, things: list[str]) -> Diagnostic | None:
    """`thereafter removing half of it`, of `spinning, taking off`: is the later step called otherwise?"""
    behind = text.texts[end : end + 2 * _MOST_BEFORE]
    stop = next((i for i, w in enumerate(behind) if w in _STOPS), len(behind))
    said = [_stem(w) for w in behind[:stop]]
    if not said or all(_stem(w) in said for w in things[1].lower().split()):
        return None
    return Diagnostic(
        "warning", lifted, f"what stands behind '{lifted.text}' in the claim is not called '{things[1]}'",
        f"'{things[1]}' is read as coming later, and '{things[0]}' as coming first.",
        f"if it is '{things[0]}' that comes later, write: {things[1]}, {things[0]} : {lifted.text}",
    )  # fmt: skip


def _stem(word: str) -> str:
    return word[:3].replace("y", "i")


def _known(names: Names) -> frozenset[str]:
    """The words of every name and note."""
    written = (f"{name} {names.note_of(name)}" for name in names.all())
    return frozenset(w.strip("\",.;()'") for text in written for w in text.lower().split())


def _stretches(text: ClaimText) -> Iterator[tuple[int, int, Span]]:
    """Where the words of a line stand without a gap, in the order of the text."""
    start, places = -1, sorted(text.by)
    for i in places:
        start = i if start < 0 or text.by.get(i - 1) is not text.by[i] else start
        if text.by.get(i + 1) is not text.by[i]:
            yield start, i + 1, text.by[i]
            start = -1


def _limits(word: str) -> bool:
    return word[0].isdigit() or word in _LIMITING


_LIMITING = frozenset(
    "exceed exceeds exceeding above below over under than least most within between equal equals".split()
) | frozenset(NUMBER_WORDS)


def _before(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """From which token to which something stands before, and what of it is told."""
    at, idle, aside = start, 0, False
    while True:
        for table, cause in _LISTS.items():
            width = _run_before(text, at, table)
            told = (aside or text.texts[at - 1] not in TURNING) and text.texts[at - 1] not in known
            if width > 1 or (width and told):
                first = at - width
                denied = text.texts[max(0, first - 1)] in ("not", "never") and first - 1 not in text.taken
                return first - denied, start, _LISTS["denying"] if denied else cause
        word = text.texts[at - 1] if at else ","
        if word == "," and (opened := _aside(text, at - 1)):
            at, aside = opened, True
        elif word not in _IDLE or idle == _FEW_IDLE or at - 1 in text.taken:
            break
        else:
            at, idle = at - 1, idle + 1
    if limited := _limited_before(text, start, known):
        return limited
    looks = (
        _goes_on_over,
        _unknown,
        _another_value,
        _denied_with_its_name,
        _of_several,
        _so_much_by,
        _of_others,
        _at_times,
    )
    if found := next((span for look in looks if (span := look(text, start, known))), None):
        return found
    cut = cut_before(text, start, known)
    return (*cut, _CUT) if cut else None


def _goes_on_over(text: ClaimText, start: int, _: frozenset[str]) -> tuple[int, int, str] | None:
    """`extending from the face` before `over 50 % of the length`: 'over' says along what."""
    if text.texts[start] != "over" or not _has_number(text.texts[start + 1 :][:3]):
        return None
    for at in range(start - 1, max(-1, start - 2 - _MOST_BETWEEN), -1):
        if at in text.taken or text.texts[at] in _STOPS:
            return None
        if text.texts[at] in listed("beside", "going_on"):
            return at, start, _LISTS["moving"]
    return None


def _has_number(texts: list[str]) -> bool:
    return any(word[:1].isdigit() for word in texts)


def _limited_before(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`up to a maximum total dose` before `of 5 mg`: what makes an end of the number that is lifted alone."""
    number = next(
        (i for i in range(start, min(start + 3, len(text.texts))) if text.texts[i][0].isdigit()), -1
    )
    if number < 0 or any(map(_limits, text.texts[start:number])) or text.texts[start] != "of":
        return None
    for at in range(start - 1, max(-1, start - 2 - _MOST_BETWEEN), -1):
        word = text.texts[at]
        if at in text.taken or word in _STOPS or not word.isalpha():
            return None
        width = next((len(run) for run in _ENDS if text.texts[at : at + len(run)] == run), 0)
        if width and not known.issuperset(text.texts[at : at + width]):
            return at, start, _LISTS["moving"]
    return None


_ENDS = runs_in_order("beside", "ends")


def _run_before(text: ClaimText, end: int, table: str) -> int:
    """How many words of the longest listed run end here, none of them in a line; 0 if none does."""
    for start in range(max(0, end - _LONGEST), end):
        if run_at(text.texts, start, "beside", table) == end - start:
            return end - start if text.taken.isdisjoint(range(start, end)) else 0
    return 0


_LONGEST = 5
"""Of how many words a listed run has at most."""


def _aside(text: ClaimText, comma: int) -> int | None:
    """Where the comma stands that opens what this one closes, if only few words stand between."""
    for at in range(comma - 1, max(-1, comma - 2 - _MOST_ASIDE), -1):
        if text.texts[at] == "," and at < comma - 1:
            return at
        if text.texts[at] in _STOPS or at in text.taken:
            return None
    return None


def _unknown(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """Words between 'is' and a limit that belong to no name, and an adverb right before it."""
    at = start
    while at and start - at < _FEW_IDLE and text.texts[at - 1] in _LEADING and at - 1 not in text.taken:
        at -= 1
    for first in range(at - 1, max(-1, at - 2 - _MOST_BETWEEN), -1):
        word = text.texts[first]
        if first in text.taken:
            return None
        if word in _STATES and first + 1 < at:
            said = text.texts[first + 1 : at]
            return (
                None
                if said[0] in _ARTICLES or any(map(_tells_little, said))
                else (first + 1, start, _OTHERWISE)
            )
        adverb = first == at - 1 and word.endswith("ly") and text.texts[max(0, first - 1)] in _BEFORE_ADVERBS
        if adverb and not _tells_little(word) and word not in known:
            return first, start, _OTHERWISE
        if word in _STOPS or word in known or not word.isalpha():
            return None
    return None


def _another_value(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`a voltage ripple of | at most 1 V`, `a nominal gap of | 4 mm`: of a name's words all are known."""
    at = start
    while at and start - at < _MOST_BETWEEN and text.texts[at - 1] in _TO_A_NAME and at - 1 not in text.taken:
        at -= 1
    named = text.texts[start] in known | listed("measures", "nouns")  # the line begins with the name
    if (at == start and not named) or not at or at - 1 in text.taken:
        return None
    # 'a food product having' is a thing, 'a moisture product having', of a moisture, is none.
    a_thing = text.texts[at - 1] == "product" and text.texts[at] in _THAT_HAS
    a_thing = a_thing and text.texts[max(0, at - 2)] not in known - _TO_A_NAME
    if text.texts[at - 1] in listed("beside", "other_values") - known and not a_thing:
        return at - 1, start, _OTHERWISE
    name = at
    while name and text.texts[name - 1] in known - _TO_A_NAME and name - 1 not in text.taken:
        name -= 1
    which = text.texts[name - 1] if name else ""
    if (
        (name < at or named)
        and name - 1 not in text.taken
        and which in (listed("lifting", "which_value") | listed("beside", "which")) - known
    ):
        return name - 1, start, _OTHERWISE
    of = name - (which in _ARTICLES | {"said"})
    joined = name < at and of > 1 and text.texts[of - 1] in ("of", "in") and of - 2 not in text.taken
    if joined and text.texts[of - 2] in listed("beside", "other_values") - known:
        return of - 2, start, _OTHERWISE  # 'an increase of the gap of | at least 3 mm'
    return None


def _denied_with_its_name(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`free from a gap of | at least 5 mm`, `incapable of a gap of | at least 5 mm`."""
    at = start
    while at and start - at < _MOST_BEFORE and _leads_to_a_name(text.texts[at - 1], known):
        if at - 1 in text.taken:
            return None
        at -= 1
    at -= at > 0 and text.texts[at - 1] in ("from", "with", "for", "against") and at - 1 not in text.taken
    if at == start or not at or at - 1 in text.taken:
        return None
    width = _run_before(text, at, "denying")
    turned = text.texts[at - 1] == "no" or turns(text.texts, at - 1, known)
    return (at - max(width, 1), start, _LISTS["denying"]) if width or turned else None


def _leads_to_a_name(word: str, known: frozenset[str]) -> bool:
    return word in _TO_A_NAME or not known.isdisjoint((word, word.removesuffix("s"), word.removesuffix("es")))


def _so_much_by(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`raised by | 5 K`, `increases the power by | at least 20 W`, `raised | in steps of 5 kN`."""
    if start and text.texts[start : start + 3] in _IN_STEPS and start - 1 not in text.taken:
        changes = text.texts[start - 1] in listed("limits", "changes") | listed("limits", "changing") - known
        return (start - 1, start, _OTHERWISE) if changes else None
    if not start or text.texts[start - 1] != "by" or start - 1 in text.taken:
        return None
    if " per " in text.by[start].text or not _has_unit(text, start):
        return None  # 'raised by 2 K per hour' is what is limited, and 'held by two clips' is no change
    changed = listed("limits", "changes") | listed("limits", "differing") | listed("beside", "swinging")
    behind = start - 2 if text.texts[start - 2] in listed("measures", "nouns") else None
    for at in range(start - 2, max(-1, start - 2 - _MOST_BETWEEN - 1), -1):
        if at in text.taken or text.texts[at] in _STOPS:
            break
        if text.texts[at] in changed - known:
            return at, start, _OTHERWISE
    return (behind, start, _OTHERWISE) if behind is not None and behind not in text.taken else None


def _named_with_more(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`magnesium chloride | in an amount of`, of magnesium: is another noun part of what is named there?"""
    own = frozenset(text.left.get(text.by[start], "").lower().replace(",", " ").split())
    at = start
    while (
        at and start - at < _MOST_BETWEEN and text.texts[at - 1] in _TO_AN_AMOUNT and at - 1 not in text.taken
    ):
        at -= 1
    for first in range(at - 1, max(-1, at - 1 - _MOST_BETWEEN), -1):
        word = text.texts[first]
        if word in own and first not in text.taken:
            said = [w for w in text.texts[first + 1 : at] if w != "-"]
            return (first, at, _OTHERWISE) if said and said[-1] not in _NO_PART_OF_A_NAME else None
        noun = word.isalpha() and word not in known | FILLERS | _IDLE | _NO_NOUNS and describes(word)
        plain = word == "-" or noun
        if first in text.taken or not plain or word.endswith(("ed", "ing", "ly")):
            return None
    return None


_NO_NOUNS = frozenset(
    "has have having with by on via from into onto comprises contains present each both".split()
)
_TO_AN_AMOUNT = frozenset("in at an a the of amount amounts content proportion level concentration".split())
_NO_PART_OF_A_NAME = frozenset(
    "content contents amount component components material compound compounds composition phase".split()
)


def _of_others(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`the sum of flow and leakage is | below 90 mL/min`, `the power per stage being | at least 20 W`."""
    for at in range(start - 1, max(-1, start - 1 - _MOST_BEFORE), -1):
        if at in text.taken or text.texts[at] in _STOPS:
            return None
        width = run_at(text.texts, at, "beside", "of_others")
        if width and at + width < start and text.texts[at] not in known:
            return at, start, _OTHERWISE
    return None


def _has_unit(text: ClaimText, start: int) -> bool:
    """Has the number in the words of the line a unit right behind it?"""
    own = pairwise(_of_the_line(text, start))
    return any(n[0].isdigit() and (unit == "%" or unit[0].isalpha()) for n, unit in own)


def _at_times(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`a power which at its peak is | at least 20 W`, `that before the treatment was | 5 mm`."""
    if not start or text.texts[start - 1] not in _STATES | {"was", "were"} or start - 1 in text.taken:
        return None
    for at in range(start - 2, max(-1, start - 2 - _MOST_BETWEEN), -1):
        word = text.texts[at]
        if at in text.taken or word in _STOPS or word in known:
            return None
        if word in ("which", "that"):
            return (at, start, _OTHERWISE) if at < start - 2 else None
    return None


def _of_several(text: ClaimText, start: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`a pair of | at least two holes`, `rows of | five holes`, `each row of | five holes`."""
    if start < 2 or text.texts[start - 1] != "of" or start - 2 in text.taken:
        return None
    word, before = text.texts[start - 2], text.texts[start - 3 : start - 2]
    each = before in (["each"], ["every"], ["per"]) and f"{word}s" in listed("beside", "several")
    if word in known or not (each or word in listed("beside", "several")):
        return None
    return start - 2 - each, start, _OTHERWISE


def _able_to(text: ClaimText, start: int) -> tuple[int, int, str] | None:
    """`a controller configured to | open the bypass when the temperature exceeds 105 °C`."""
    width = _run_before(text, start, "able_to")
    conditional = width and not GOVERNING.isdisjoint(_of_the_line(text, start))
    return (start - width, start, _ABLE) if conditional else None


def _of_a_moment(text: ClaimText, start: int) -> tuple[int, int, str] | None:
    """`begins | no later than 10 minutes after`, `is completed | within 30 minutes after`."""
    width = _run_before(text, start, "telling_a_moment")
    timed = width and not listed("beside", "setting_a_time").isdisjoint(_of_the_line(text, start))
    return (start - width, start, _A_MOMENT) if timed else None


def _of_the_line(text: ClaimText, start: int) -> list[str]:
    """The words of the line that begins here."""
    return [text.texts[i] for i in range(start, len(text.texts)) if text.by.get(i) is text.by[start]]


_IN_STEPS = [["in", w, "of"] for w in ("steps", "increments", "decrements")]
_MOST_BEFORE = 8
_THAT_HAS = ("having", "has", "have", "that", "which")
_TO_A_NAME = _STATES | frozenset("of a an the that which has have having".split())


def _tells_little(word: str) -> bool:
    """A word that is asked for elsewhere, or that tells in which way something is so: `present in`."""
    participle = word.endswith(("ed", "ing", "en", "wn")) or word in listed("beside", "done")
    number = word in NUMBER_WORDS or word in listed("account", "comparatives")
    asked_for = any(word in listed(*table) for table in (("limits", "inside"), ("measures", "nouns")))
    return participle or number or asked_for or word in TURNING | listed("beside", "idle")


_LEADING = frozenset("the a an of to in at by from for with that".split())
_ARTICLES = frozenset("the a an one each".split())
_BEFORE_ADVERBS = _STATES | frozenset("of has have having with at to from between and or".split())


def _denies_behind(text: ClaimText, at: int, known: frozenset[str]) -> bool:
    return at < len(text.texts) and turns(text.texts, at, known)


def _behind(text: ClaimText, end: int, names: Names, known: frozenset[str]) -> tuple[int, int, str] | None:
    if text.texts[end : end + 1] and text.texts[end] in _STATES and _denies_behind(text, end + 1, known):
        return (end, end + 2, _LISTS["denying"]) if text.taken.isdisjoint((end, end + 1)) else None
    apart = end + (text.texts[end : end + 1] in ([","], ["("]))
    if found := _or_behind(text, apart) or _unless_behind(text, apart):
        return found
    for table, cause in _LISTS.items():
        if width := run_at(text.texts, apart, "beside", f"{table}_behind"):
            over = apart + width
            alone = apart == end or text.texts[over : over + 1] == [] or text.texts[over] in _STOPS
            return (apart, over, cause) if alone and text.taken.isdisjoint(range(apart, over)) else None
    if text.texts[end : end + 1] == ["from"] and end not in text.taken:
        at = end + 1 + (text.texts[end + 1 : end + 2] in (["the"], ["said"]))
        for width in (3, 2, 1):
            said = " ".join(text.texts[at : at + width])
            if isinstance(names.declared(said), NumberDecl) and text.taken.isdisjoint(range(end, at + width)):
                return end, at + width, _OTHERWISE
    return None


def _or_behind(text: ClaimText, at: int) -> tuple[int, int, str] | None:
    """`100 to 110 nm | or the layer is at least 5 mm thick`: another limit is enough, and is in no line."""
    if text.texts[at : at + 1] != ["or"] or text.texts[at + 1 : at + 2] in _OR_SO:
        return None
    over = at + 1
    while over < min(len(text.texts), at + _MOST_BEHIND) and text.texts[over] not in _CLAUSE_ENDS:
        over += 1
    limited = any(_limits(word) for word in text.texts[at + 1 : over])
    return (at, over, _EITHER) if limited and text.taken.isdisjoint(range(at, over)) else None


def _unless_behind(text: ClaimText, at: int) -> tuple[int, int, str] | None:
    """`more than 5 s | , unless muted`: what the limit does not hold for."""
    told = text.texts[at : at + 1] in (["unless"], ["except"]) and at not in text.taken
    return (at, min(at + 2, len(text.texts)), _OTHERWISE) if told else None


_EITHER = "With it the claim asks for the one or the other; these words alone ask for the first."
_OR_SO = [
    [w] for w in "less more both lower higher greater smaller longer shorter above below better".split()
]
_MOST_BEHIND = 24
_CLAUSE_ENDS = frozenset(",;.:")


def _so_much_of(text: ClaimText, end: int, known: frozenset[str]) -> tuple[int, int, str] | None:
    """`3 mm | per hole`, `at most 2 % | clay by number`: so much for each, or by what the share is."""
    texts = text.texts
    if cut := cut_behind(text, end):
        return *cut, _CUT
    if over := _at_a_rate(texts, end):
        return (end, over, _OTHERWISE) if text.taken.isdisjoint(range(end, over)) else None
    at = end + (texts[end : end + 2] == [".", "per"])  # '10 lbs. per square foot'
    if texts[at : at + 1] == ["per"] and "per" not in known:
        if at in text.taken or texts[at + 1 : at + 2] in ([], ["cent"], ["se"]):
            return None
        return at, at + 2, _OTHERWISE
    if not {"%", "percent", "cent"}.intersection(texts[max(0, end - 2) : end]):
        return None
    at = end
    while at < min(end + _MOST_BETWEEN, len(texts)) and texts[at] not in _STOPS | {"by"}:
        at += 1
    said = texts[at : at + 2]
    if said[:1] != ["by"] or said[1:] not in _BASES or known.issuperset(said):
        return None
    return (end, at + 2, _OTHERWISE) if text.taken.isdisjoint(range(end, at + 2)) else None


def _at_a_rate(texts: list[str], end: int) -> int:
    """Where `a minute`, `for each minute` ends that begins here and makes a rate of an amount; else 0."""
    unit = texts[end - 1]
    if not (unit[0].isalpha() or unit in "%°\"'") or unit in _LIMITING:
        return 0
    at = end + (texts[end : end + 1] == ["."])
    leads = next((run for run in _RATES if texts[at : at + len(run)] == run), None)
    over = at + len(leads) + 1 if leads else 0
    return over if texts[over - 1 : over] and texts[over - 1] in _OF_A_RATE else 0


_RATES = [
    [*lead.split(), which]
    for lead in ("", "for", "in", "within")
    for which in ("each", "every", "a", "an", "one", "any")
    if lead or which not in ("one", "any")
]
_OF_A_RATE = frozenset(
    "second minute hour day week metre meter millimetre millimeter centimetre centimeter".split()
)
_BASES = [[w] for w in "weight mass volume mole moles number count area length atoms".split()]


def _warning(text: ClaimText, lifted: Span, start: int, end: int, cause: str, side: str) -> Diagnostic:
    said = " ".join(text.source.text[text.tokens[start].start : text.tokens[end - 1].end].split())
    where = "begin" if side == "before" else "end"
    write = f"let the line {where} with it"
    if cause == _ABLE:
        write = (
            "begin the words with what can do so, and name that third left of the colon, declared as a count"
        )
    return Diagnostic(
        "warning", lifted, f"'{said}' stands right {side} these words in the claim, and in no line", cause,
        f"{write}; or mark it: not restated : {said}",
    )  # fmt: skip
