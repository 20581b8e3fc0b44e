"""Formulas of readings in words and signs that need no knowledge of the exact language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from scopecheck.foundations.regex import regex
from scopecheck.occurrences.plain_readings import with_places_allowed
from scopecheck.report.amounts import plain_degrees

_ROUNDED = regex(r"ROUND\(((?:[^()]|\((?:[^()]|\([^()]*\))*\))+?) TO ((?:[^(),]|\([^()]*\))+), (HALF \w+)\)")
_RULES = {"HALF AWAY": "half away from zero", "HALF UP": "half up", "HALF EVEN": "half to even"}
_SIGN = regex(r"\s(?:<=|>=|!=|[<>=])\s")
_FROM_BELOW = regex(r"(ROUND\([^<>=]*\)) (>=?) ([^<>=]+)")
_FROM_ABOVE = regex(r"(ROUND\([^<>=]*\)) (<=?) ([^<>=]+)")
_MEMBERS = {
    "EVERY": "every one of",
    "SOME": "at least one of",
    "ONE": "exactly one of",
    "COUNT": "the number of",
}
_CALLS = {
    "PLACE": "the last written place of ",
    "FIGURE": "the last figure but zeros of ",
    "DECADE": "the power of ten at or below ",
    "LEAST": "the least of ",
    "GREATEST": "the greatest of ",
}
_OF_STEPS = {
    "START": "the start of {}",
    "END": "the end of {}",
    "DURATION": "the duration of {}",
    "DONE": "{} done",
    "ORDER": "each of {} over before the next begins",
    "BEGUN": "each of {} begun before the next begins",
    "NEXT": "{} in turn, with no other step begun between",
    "TOGETHER": "{} going on together for some time",
    "SAME": "{} starting and ending together",
    "DAY": "the day of {}",
    "LAST": "the last of {} begun once the others are over",
    "CHAIN": "each of {} begun just when the one before is over",
}
_OF_PARTS = regex(r"\bCOUNT\(([^()]* of the [^()]*)\) (>=|<=|=|>) (\d+)")
_AT = {
    ">=": "at {} or more of them",
    "<=": "at {} or fewer of them",
    "=": "at just {} of them",
    ">": "at more than {} of them",
}
_CHOICE = regex(r"\b(?:or|if)\b")
_BRACES = regex(r"\{[^{}]*\}|\([^()]*\)")
_NONE_OF = regex(r"(?<![\w.)] )(?<![\w.])0 × [\d.]+(?: ?[^\s<>=(),]+)??(?=\s(?:<=|>=|!=|[<>=])|$|,)")
_MINUS = regex(r"(?<![\w.)] )(?<![\w.])-1 × (?=\d)")
_WORDS = regex(r"\b(?:AND|OR|NOT|IF|THEN|OTHERWISE|IN|MOD)\b")


def plain_formula(text: str) -> str:
    """A reading's formula with words in place of the exact language's capitals, its facts joined by 'and'.

    What it comes to of each of several things stands beside each other.
    """
    if ";" in text:
        return "; ".join(map(plain_formula, text.split("; ")))
    facts = [_fact(part) for part in _both_ends([part.strip() for part in _facts(text)])]
    if len(facts) == 1:
        return facts[0]
    return " and ".join(f"({fact})" if _CHOICE.search(_BRACES.sub("", fact)) else fact for fact in facts)


def _both_ends(facts: list[str]) -> list[str]:
    """The facts; two that limit one rounded value from below and from above as one."""
    found: list[str] = []
    for fact in facts:
        low, high = _FROM_BELOW.fullmatch(found[-1]) if found else None, _FROM_ABOVE.fullmatch(fact)
        if low and high and low[1] == high[1]:
            found[-1] = f"{low[3]} {low[2].replace('>', '<')} {low[1]} {high[2]} {high[3]}"
        else:
            found.append(fact)
    return found


def _facts(text: str) -> Iterator[str]:
    """The parts between commas that stand in no bracket."""
    depth = start = 0
    for at, sign in enumerate(text):
        if sign in "({":
            depth += 1
        elif sign in ")}":
            depth -= 1
        elif sign == "," and depth == 0:
            yield text[start:at]
            start = at + 1
    yield text[start:]


def _fact(text: str) -> str:
    shown = _ROUNDED.sub(_rounded, with_places_allowed(text))
    shown = re.sub(r"\b(EVERY|SOME|ONE|COUNT)\((\w+)\)", lambda m: f"{_MEMBERS[m[1]]} {m[2]}", shown)
    shown = _OF_PARTS.sub(lambda m: f"{m[1]} {_AT[m[2]].format(m[3])}", shown)
    shown = re.sub(r"\bABS\(([^()]*)\)", _magnitude, shown)
    for word, said in _OF_STEPS.items():
        shown = re.sub(rf"\b{word}\(([^()]*)\)", partial(_of_steps, said), shown)
    for word, instead in _CALLS.items():
        shown = re.sub(rf"\b{word}\(([^()]*)\)", partial(_called, instead), shown)
    shown = shown.replace("IS WHOLE", "is a whole number").replace(" * ", " × ")
    shown = _MINUS.sub("-", _NONE_OF.sub("0", shown))
    shown = re.sub(r"\bTRUE\b", "anything at all", shown)
    shown = re.sub(r"\bFALSE\b", "nothing at all", shown)
    return plain_degrees(_WORDS.sub(lambda m: m[0].lower(), shown))


def _of_steps(said: str, match: re.Match[str]) -> str:
    names = match[1].split(", ")
    return said.format(" and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names))


def _called(instead: str, match: re.Match[str]) -> str:
    return instead + match[1].replace(", ", " and ")


def _rounded(match: re.Match[str]) -> str:
    """As an insertion between commas where it is a whole side of a comparison, else in brackets."""
    inside = f"{match[1]}, rounded {_RULES[match[3]]} to {match[2]}"
    before, after = match.string[: match.start()], match.string[match.end() :]
    if (not before or _SIGN.search(before[-4:])) and _SIGN.match(after):
        return f"{inside},"
    if not after and _SIGN.search(before[-4:]):
        return inside
    return f"[{inside}]"


def _magnitude(match: re.Match[str]) -> str:
    """`|a - b|`; a written number above zero is its own magnitude."""
    inside = match[1]
    written = re.fullmatch(r"[\d.]+(?: [^\s\d+*/-][^\s+*-]*)?", inside)
    return inside if written else f"|{inside}|"
