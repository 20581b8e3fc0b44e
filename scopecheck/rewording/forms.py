"""Words put as a table of `words.toml` has them: runs of words, and whole wordings with slots."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import accumulate
from re import Pattern

from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import word_lists
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.matching.subjects import is_bare_share, is_fraction


def words_at(at: Token, text: str, understood: bool = False) -> Iterator[Token]:
    """Words that stand for a token, all at its place; `understood` ones stand before it, where nothing is."""
    end = at.start if understood else at.end
    return (replace(at, sort="word", text=w, number=None, end=end) for w in text.split())


def with_runs(tokens: tuple[Token, ...], table: str = "usual_runs") -> tuple[Token, ...]:
    """The words with what a table lists for runs of them; their places are those of the first of them.

    Words at the front that stay as they are keep their own.
    """
    texts = [t.text.lower() for t in tokens]
    said = _runs_of(table)
    if said.keys().isdisjoint(texts):
        return tokens
    found, at = list[Token](), 0
    while at < len(tokens):
        run = next((r for r in said.get(texts[at], ()) if tuple(texts[at : at + len(r[0])]) == r[0]), None)
        if run is None:
            found.append(tokens[at])
            at += 1
            continue
        words, instead = run
        last, kept = tokens[at + len(words) - 1], 0
        while kept < min(len(words), len(instead)) - 1 and words[kept] == instead[kept]:
            kept += 1
        found += tokens[at : at + kept]
        first, instead = tokens[at + kept], instead[kept:]
        ends = [*(first.start for _ in instead[1:]), last.end][-len(instead) :] if instead else []
        for word, end in zip(instead, ends, strict=True):
            found.append(replace(first, sort="mark" if word == "," else "word", text=word, end=end))
        at += len(words)
    return tuple(found)


_NUMBERS = tuple(word for word, number in NUMBER_WORDS.items() if number > 1)


@cache
def _runs_of(table: str) -> dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]]:
    """What is read in place of runs of words, by their first word, the longest first."""
    found: dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]] = {}
    for row in word_lists()[table].items():
        for many in _NUMBERS if "%many" in row[0] else ("",):
            said, instead = (tuple(side.replace("%many", many).split()) for side in row)
            found.setdefault(said[0], []).append((said, instead))
    return {first: sorted(of, key=lambda r: -len(r[0])) for first, of in found.items()}


def with_forms(tokens: tuple[Token, ...], table: str) -> tuple[Token, ...]:
    """The words put as the first form of a table that they have, `reduced by {limit} relative to {thing}`.

    A `{limit}` has a number, a `{part}` is a fraction, a `{thing}` has none, `{words}` are any;
    `<this/that>` is either, and `[this/that]` may be left out.
    """
    said = with_fractions(tokens)
    words = [_word_in_form(t) for t in said]
    text = " ".join(words) + " "
    starts = {at: i for i, at in enumerate(accumulate((len(w) + 1 for w in words), initial=0))}
    there = frozenset(text.split())
    for needed, form, instead in _forms_of(table):
        if all(any(there >= option for option in options) for options in needed) and (
            found := form.fullmatch(text)
        ):
            ends = {name: found.span(name) for name in found.groupdict()}
            if not starts.keys() >= {at for span in ends.values() for at in span}:
                continue  # within a name of several words
            slots = {name: said[starts[first] : starts[last]] for name, (first, last) in ends.items()}
            return _in_that_form(said, slots, instead)
    return tokens


def _word_in_form(token: Token) -> str:
    """How a form has a token: numbers all alike, but for fractions and the whole of something."""
    if is_bare_share(token) and token.text.removesuffix("%").strip() == "100":
        return "100%"
    return "~" if is_fraction(token) else "#" if token.number else word_of(token)


_COUNTED = rf"(?:#|100%|~|{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})"
_OF_A_LIMIT = rf"(?:{'|'.join(OF_LIMITS)}|{_COUNTED})"
_SLOTS = {
    "lead": r"(?:[^ #~]+ )*?",
    "words": r"(?:[^ ]+ )+?",
    "part": "(?:~|(?:one |a )?half) ",
    "limit": rf"(?:{_OF_A_LIMIT} )*?{_COUNTED} (?:{_OF_A_LIMIT} )*?",
    "thing": rf"(?:(?!(?:is|are|being|than|as|by|and|or|but|not|,|at|from|to|{_COUNTED}) )[^ ]+ ){{1,7}}?",
}
"""What stands in a slot of a form: words without a number, any words, a fraction, a limit, a name."""


def _in_that_form(
    tokens: tuple[Token, ...], slots: dict[str, tuple[Token, ...]], instead: tuple[str, ...]
) -> tuple[Token, ...]:
    """The words of a form, with what stands in its slots; those before all slots from where they are said."""
    found = list[Token]()
    in_slots = {t.start for slot in slots.values() for t in slot}
    said = {word_of(t): t for t in tokens if t.start not in in_slots}
    for word in instead:
        if word.startswith("{"):
            found += slots[word[1:-1]]
        elif not found and word in said:
            found.append(said[word])
        else:
            found += words_at(found[-1] if found else tokens[0], word, understood=not found)
    return tuple(found)


_Needed = tuple[tuple[frozenset[str], ...], ...]


@cache
def _forms_of(table: str) -> list[tuple[_Needed, Pattern[str], tuple[str, ...]]]:
    """The forms of a table, each behind the words without which it is not there: most are never compiled."""
    rows = word_lists()[table].items()
    return [(_needed_in(form), regex(_pattern_of(form)), tuple(said.split())) for form, said in rows]


def _needed_in(form: str) -> _Needed:
    """Of each element of a form that is not left open, the words of each way to say it."""
    fixed = (element.strip("<>") for element in _ELEMENTS.findall(form) if element[0] not in "[{")
    return tuple(tuple(frozenset(option.split()) for option in element.split("/")) for element in fixed)


def _pattern_of(form: str) -> str:
    """A form as a pattern of words with a blank behind each; a slot named again has the same words."""
    found, named = "", set[str]()
    for element in _ELEMENTS.findall(form):
        name = element[1:-1]
        options = "|".join(f"{re.escape(option)} " for option in name.split("/"))
        if element[0] == "{":
            found += f"(?P={name})" if name in named else rf"(?P<{name}>{_SLOTS[name.rstrip('23')]})"
            named.add(name)
        else:
            said = options if element[0] in "<[" else re.escape(element) + " "
            found += f"(?:{said})?" if element[0] == "[" else f"(?:{said})"
    return found


_ELEMENTS = regex(r"<[^>]+>|\[[^\]]+\]|\{\w+\}|[^\s<\[{]+")
