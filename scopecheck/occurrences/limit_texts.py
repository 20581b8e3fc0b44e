"""A limit within other words as a report shows it: what is limited with the words, or in symbols."""

from __future__ import annotations

from scopecheck.core.formula import Formula, Read
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.occurrences.groups import BESIDE, Groups

_BRACKETED = regex(r"\([^()]*\)|\{[^{}]*\}|\"[^\"]*\"")
_ARTICLES = frozenset(("a", "an", "the"))


def of_limit(thing: str, text: str, limit: Formula, groups: Groups, called: str = "") -> str:
    """`gap at least 3 mm`; where the words do not go on from the name, what they come to as presumed.

    Words that name what they limit stand alone: `three or four dowels`. Where neither makes sense they stand
    in quotation marks behind the name. `called` is what the symbols are of, where that is called otherwise.
    """
    symbols = _in_symbols(thing, limit, groups, called or thing)
    # The unit of 'at least 2' in `at least 2, preferably at least 3, mm` stands elsewhere.
    if _behind_numbers(text).strip()[:1] in ("", ",") and _behind_numbers(symbols).strip():
        return symbols
    named = f" {thing.lower()} " in f" {text.lower()} "
    if named or text.lower().split()[-1:] == thing.lower().split()[-1:]:
        return as_one(text)
    if not goes_on(thing, text):
        return symbols or f'{thing} ("{text}")'
    return as_one(f"{thing} {text}")


def _behind_numbers(text: str) -> str:
    """What stands behind the last number."""
    return text[max((i for i, c in enumerate(text) if c.isdigit()), default=-1) + 1 :]


def as_one(text: str) -> str:
    """The words in brackets where a comma of theirs would part two facts: `(gap is 3, 4 or 5 mm)`."""
    return f"({text})" if "," in _BRACKETED.sub("", text) else text


def goes_on(thing: str, text: str) -> bool:
    """May the words stand right behind a name? `repeating up to three times` and `air of 60 °C` may not."""
    words = text.lower().split()
    if not words or run_at(words, 0, "limits", "openings"):
        return True
    first = words[0]
    if first in _ARTICLES or first in thing.lower().split() or words[1:2] == ["of"]:
        return False
    return first == "being" or not first.endswith("ing")


def _in_symbols(thing: str, limit: Formula, groups: Groups, called: str) -> str:
    """What the words come to as presumed, of this thing; '' if it is several facts, or has a free number."""
    if not isinstance(limit, Read):
        return ""
    group = list(groups.drafts.values())[limit.group].group()
    if any((p.group, p.reading) == (group.index, group.base) for p in groups.parameters.values()):
        return ""
    told = group.places[-1].meanings[group.base].split(BESIDE)
    own = [text for text in told if called in text] if len(told) > 1 else told
    return own[0].replace(called, thing) if len(own) == 1 and called in own[0] else ""
