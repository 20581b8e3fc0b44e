"""What is so where a condition holds, and what of another thing is so elsewhere, or in any case.

`When the gap exceeds 2 mm, the rim is at least 3 mm and in all other cases the lip is at least 4 mm`: each
half is a line of its own. Where both halves are of one thing a phrase has them whole.
"""

from __future__ import annotations

from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import GOVERNING, word_of
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]


@record
class Cases:
    """What two halves say, and of which things; no halves where the words do not tell."""

    halves: tuple[tuple[Tokens, Things], ...]


def other_cases(tokens: Tokens, subjects: Things) -> Cases | None:
    """The halves of words that say of another thing what is so elsewhere; None for other words."""
    words = [word_of(t) for t in tokens]
    if len(subjects) < _THREE or _OPENERS.isdisjoint(words):
        return None
    found = (
        (i, sort, run_at(words, i, "conditional", sort)) for i in range(1, len(words)) for sort in _SORTS
    )
    start, sort, width = next(((i, sort, width) for i, sort, width in found if width), (0, "", 0))
    end = start - len(_joints(words[:start][::-1]))
    head, tail = tokens[:end], tokens[start + width + (words[start + width : start + width + 1] == [","]) :]
    if not start or not head or not tail:
        return None
    opened = next((i for i, w in enumerate(words[:end]) if w in _OPENERS), end)
    comma = next((i for i in range(opened, end) if words[i] == ","), end)
    leading = opened <= 1
    condition = head[opened + 1 : comma] if leading else head[opened + 1 :]
    outcome = head[comma + 1 :] if leading else head[:opened]
    if _named(tail, subjects) <= _named(outcome, subjects):
        return None
    limited, asked, other = (_named(part, subjects) for part in (outcome, condition, tail))
    plain = limited and asked and not limited & asked and not other & (limited | asked)
    plain = plain and (sort == "in_any_case" or "unless" not in words[:end])
    told = _OPENERS.isdisjoint(word_of(t) for t in (*condition, *outcome, *tail))
    if not plain or not told or limited | asked | other != {s.text for s in subjects}:
        return Cases(())
    if sort == "in_any_case":
        elsewhere = tail
    else:
        wherever, so = words_at(condition[0], "wherever not"), words_at(tail[-1], _NO_LIMIT)
        elsewhere = (*tail, *wherever, *_without_article(condition), *so)
        other |= asked
    return Cases(((head, _of(limited | asked, subjects)), (elsewhere, _of(other, subjects))))


def which_in_which_case(span: Span) -> Trouble:
    """The error for words that say what is so elsewhere, or in any case, and are not read."""
    return trouble(
        span, "these words do not tell what is so in which case",
        "One thing is limited where the condition holds, another one elsewhere or in any case.",
        "write two lines: what is so 'if' the condition holds, and what 'unless' it holds, or in any case",
    )  # fmt: skip


def of_both_limits(job: Job, tokens: Tokens) -> Diagnostic | None:
    """The warning that in `the gap exceeds 2 mm and the rim is 3 mm if ...` both are under the condition."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in _OPENERS), 0)
    joined = [i for i in range(1, at) if words[i] == "and"]
    if len(job.subjects) < _THREE or at < _THREE or words[at - 1] == "," or len(joined) != 1:
        return None
    first, second = tokens[: joined[0]], tokens[joined[0] + 1 : at]
    limits = all(any(t.number for t in half) for half in (first, second))
    apart = [_named(half, job.subjects) for half in (first, second)]
    if not limits or not all(apart) or apart[0] & apart[1] or word_of(first[-1]) == ",":
        return None
    return Diagnostic(
        "warning", job.span(first), f"'{job.text(first)}' is read under the condition, too",
        "It may be meant in any case, and the limit behind 'and' alone under the condition.",
        "if it is, put the first limit on a line of its own",
    )  # fmt: skip


def _joints(words: list[str]) -> list[str]:
    """The first words of a list that only join."""
    end = next((i for i, w in enumerate(words) if w not in (",", "and", "but", ";", "while")), len(words))
    return words[:end]


def _without_article(tokens: Tokens) -> Tokens:
    return tokens[1:] if word_of(tokens[0]) in listed("conditional", "articles") else tokens


def _named(tokens: Tokens, subjects: Things) -> set[str]:
    """Which of the things the words name."""
    said = f" {' '.join(word_of(t) for t in tokens)} "
    return {s.text for s in subjects if f" {s.text.lower()} " in said}


def _of(named: set[str], subjects: Things) -> Things:
    return tuple(s for s in subjects if s.text in named)


_THREE = 3
_SORTS = ("in_other_cases", "in_any_case")
_OPENERS = GOVERNING - {"once"}
_NO_LIMIT = ", with no such limit elsewhere"
