"""What stands right beside lifted words, in no line, and shows that they are a part of a limit.

`from 110 °C to | 150 °C`, `if the speed exceeds | 12 rpm`, `at least two of the pins have a width of | 3 mm`.
"""

from __future__ import annotations

from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.account import unit_width
from scopecheck.resolve.claim_text import ClaimText

Place = tuple[int, int]


def cut_before(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """What stands before lifted words that begin here, by its tokens, if they are cut short."""
    looks = (
        _range_begun,
        _over_a_period,
        _repeated,
        _compared_with,
        _some_of_them,
        _of_a_condition,
        once_it_changes,
    )
    return next((span for look in looks if (span := look(text, start, known))), None)


def cut_behind(text: ClaimText, end: int) -> Place | None:
    """`110 °C | to 150 °C`: a range that goes on behind lifted words that end with its first number."""
    texts = text.texts
    over = end + 1 + (texts[end + 1 : end + 2] in (["about"], ["approximately"], ["around"]))
    if texts[end : end + 1] != ["to"] or not _is_number(texts[over : over + 1]):
        return None
    if _amount_before(text, end, taken=True) is None or not text.taken.isdisjoint(range(end, over + 1)):
        return None
    return end, over + 1 + unit_width(text, over, {})


def _range_begun(text: ClaimText, start: int, _: frozenset[str]) -> Place | None:
    """`from 110 °C to | 150 °C`, `between 2 and | 4 mm`: the first number of it is in no line."""
    joiner = text.texts[start - 1] if start else ""
    if joiner not in ("to", "and") or start - 1 in text.taken or not _is_number(text.texts[start:][:2]):
        return None
    first = _amount_before(text, start - 1)
    if first is None:
        return None
    begun = [i for i in range(max(0, first - 2), first) if text.texts[i] in ("from", "between")]
    if joiner == "and" and not (begun and text.texts[begun[-1]] == "between"):
        return None
    return (begun[-1] if begun and begun[-1] not in text.taken else first), start


def _amount_before(text: ClaimText, end: int, taken: bool = False) -> int | None:
    """Where the amount begins that ends right before this token, perhaps with a unit; None if none does."""
    for at in range(end - 1, max(-1, end - 2 - _MOST_OF_UNIT), -1):
        word = text.texts[at]
        if (at in text.taken) != taken or word in _NO_UNIT:
            return None
        if _is_number([word]):
            return at
    return None


def _compared_with(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """`more than 10 % above a rated speed of | 12 rpm`, `exceeds a speed of | 12 rpm`: an end beside that."""
    own = [text.texts[i] for i in range(start, min(start + _MOST, len(text.texts))) if i in text.by]
    number = next((i for i, w in enumerate(own) if w[0].isdigit()), None)
    if number is None or not _COMPARING.union(_BESIDE, ("between", "least", "most")).isdisjoint(own[:number]):
        return None
    for at in _words_before(text, start, _VERBS | {"and", "or"}):
        word, behind = text.texts[at], text.texts[at + 1 : at + 2]
        beside = word in _BESIDE and _amount_before(text, at) is not None
        part = word in _PARTS and behind == ["of"] and at + 2 < start
        share = word in ("%", "percent", "cent") and behind == ["of"] and at + 2 < start
        if word not in known and (beside or part or share or word in _COMPARING):
            return _with_what_leads(text, at), start
    return None


def _with_what_leads(text: ClaimText, at: int) -> int:
    """Where the comparison begins: `more than 10 %` before `above`."""
    while (
        at
        and at - 1 not in text.taken
        and (text.texts[at - 1] in _LEADING or _is_number([text.texts[at - 1]]))
    ):
        at -= 1
    return at


def so_long_before(text: ClaimText, start: int) -> Place | None:
    """`at the latest 24 hours | after the end of it`: the words of the line leave out how long after."""
    if text.texts[start] not in ("after", "before", "following") or not start or start - 1 in text.taken:
        return None
    first = _amount_before(text, start)
    timed = first is not None and text.texts[start - 1].rstrip("s") in _TIMES
    return (_with_what_leads(text, first), start) if timed and first is not None else None


def _some_of_them(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """`at least two of the pins have a width of | 3 mm`, `each pin has`; like parts are all meant."""
    like_parts = " of " in text.left.get(text.by[start], "") if start in text.by else False
    verb = False
    for at in _words_before(text, start, frozenset(("and", "or"))):
        word, behind = text.texts[at], text.texts[at + 1]
        verb = verb or word in _VERBS
        each = word in ("each", "every", "all", "both")
        of = behind == "of" and (each or word in _SOME or _is_number([word]))
        if not verb or word in known or word in _VERBS or not (of or word in ("each", "every")):
            continue
        return None if each and like_parts else (_with_what_leads(text, at), start)
    return None


def _of_a_condition(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """`if the speed is | more than 12 rpm`: what is limited is the case in which something is so."""
    for at in _words_before(text, start, frozenset()):
        if text.texts[at] in _CONDITIONS - known:
            return None if text.texts[at + 1] in _MEASURED else (at, start)
    return None


def once_it_changes(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """`before its moisture falls | below 10 %`: what is limited is when something is so, or how long."""
    changes = listed("limits", "changes") | _COMING_TO
    changing = text.texts[start] in changes
    for at in _words_before(text, start, frozenset()):
        word, then = text.texts[at], text.texts[at + 1]
        changing |= word in changes - known or (word in ("is", "are") and text.texts[at - 1] not in _WHENS)
        if word in _WHENS - known and changing and then not in ("which", "that"):
            until = word in ("until", "till")
            verb = any(text.texts[i] in changes for i in range(at, start + 1))
            return (at - (word == "soon"), start) if until or verb else None
    return None


def _repeated(text: ClaimText, start: int, known: frozenset[str]) -> Place | None:
    """`repeated | at least three times`: so often again, or so often in all."""
    again = (
        start
        and text.texts[start - 1] in ("repeated", "repeating", "repeats")
        and start - 1 not in text.taken
    )
    return (start - 1, start) if again and text.texts[start - 1] not in known else None


def _over_a_period(text: ClaimText, start: int, _: frozenset[str]) -> Place | None:
    """`over a period of | between 2 and 4 minutes after the measuring`: so long, and no time after it."""
    own = {text.texts[i] for i in range(start, len(text.texts)) if text.by.get(i) is text.by[start]}
    if own.isdisjoint(("after", "before", "following")):
        return None
    for lead in _SO_LONG:
        begin = start - len(lead)
        if begin >= 0 and text.texts[begin:start] == lead and text.taken.isdisjoint(range(begin, start)):
            return begin, start
    return None


def _words_before(text: ClaimText, start: int, ends: frozenset[str]) -> list[int]:
    """The places of the words before this one, the nearest first, up to a stop or what a line has."""
    found = []
    for at in range(start - 1, max(-1, start - 1 - _MOST), -1):
        if at in text.taken or text.texts[at] in _STOPS | ends:
            break
        found.append(at)
    return found


def _is_number(texts: list[str]) -> bool:
    return any(w[0].isdigit() or (w in NUMBER_WORDS and w not in ("once", "twice")) for w in texts)


_MOST = 10
_MOST_OF_UNIT = 4
_STOPS = frozenset(",;:()[]")
_NO_UNIT = _STOPS | {"to", "and", "or", "of", "the", "a", "an", "in", "with", "is", "are", "."}
_VERBS = frozenset(
    "is are being has have having with exhibits exhibit comprises comprise contains contain".split()
)
_COMPARING = frozenset("than exceeds exceed exceeding times".split())
_BESIDE = frozenset("above below over under beyond".split())
_PARTS = frozenset("quarter third fifth tenth half".split())
_SOME = frozenset("some most many several either any few majority".split())
_LEADING = frozenset(
    "at the least most no not more less than higher lower greater within latest earliest exactly only about"
    " % percent per cent later earlier up to".split()
)
_WHENS = frozenset("before until till after soon".split())
_COMING_TO = frozenset("exceeds exceed reaches reach reached sinks becomes become returns".split())
_SO_LONG = runs_in_order("beside", "so_long")
_CONDITIONS = frozenset("if when unless whenever once while".split())
_MEASURED = frozenset(
    "measured determined tested viewed seen calculated used desired required necessary needed in".split()
)
_TIMES = frozenset("second minute hour day week min h s".split())
