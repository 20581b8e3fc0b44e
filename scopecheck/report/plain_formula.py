"""Formulas of readings in words and signs that need no knowledge of the exact language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from scopecheck.foundations.regex import regex
from scopecheck.occurrences.plain_readings import with_places_allowed
from scopecheck.report.amounts import plain_degrees

_ROUNDED = regex(r"ROUND\(((?:[^()]|\((?:[^()]|\([^()]*\))*\))+?) TO ((?:[^(),]|\([^()]*\))+), (HALF \w+)\)")
_RULES = {"HALF AWAY": "", "HALF UP": ", halves up", "HALF EVEN": ", halves to even"}
"""How halves are rounded where it is not away from zero, as usual."""
_WHOLE = regex(r"1(?: ([^\d\s]\S*))?")
_FIGURES = regex(
    r"(?<=[<>=] )(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b(?! (?:of|or)\b)"
)
_NUMBERS = "one two three four five six seven eight nine ten eleven twelve".split()
_WHOLE_FACTS = {"different": "no two of them alike"}
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
_OF_PARTS = regex(r"\bCOUNT\(\(?([^()]* of the (?:[^()]|\([^()]*\))*?)\)?\) (>=|<=|=|>) (\d+)")
_SOME_PART = regex(r"\bSOME\(((?:[^()]|\([^()]*\))* of the (?:[^()]|\([^()]*\))*)\)")
_OF_A_PART = regex(r"(.+?) of the (\w+) (.+)")
_IN_BRACKETS = regex(r"\{\(([^{}]*)\)\}")
_AND_NOTHING_ELSE = regex(r"((?:exactly|at least) one of) (\{[^{}]*\}) and [\w ]+? in \2")
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
    told = " and ".join(f"({fact})" if _CHOICE.search(_BRACES.sub("", fact)) else fact for fact in facts)
    return _AND_NOTHING_ELSE.sub(lambda m: f"{m[1]} {m[2].strip('{}')}, and nothing else", told)


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
    if text in _WHOLE_FACTS:
        return _WHOLE_FACTS[text]
    shown = _ROUNDED.sub(_rounded, with_places_allowed(text))
    shown = _SOME_PART.sub(_some_part, shown)
    shown = re.sub(r"\b(EVERY|SOME|ONE|COUNT)\((\w+)\)", lambda m: f"{_MEMBERS[m[1]]} {m[2]}", shown)
    shown = _OF_PARTS.sub(lambda m: f"{m[1]} {_AT[m[2]].format(m[3])}", shown)
    shown = _IN_BRACKETS.sub(r"(\1)", shown)
    shown = re.sub(r"\bABS\(([^()]*)\)", _magnitude, shown)
    for word, said in _OF_STEPS.items():
        shown = re.sub(rf"\b{word}\(([^()]*)\)", partial(_of_steps, said), shown)
    for word, instead in _CALLS.items():
        shown = re.sub(rf"\b{word}\(([^()]*)\)", partial(_called, instead), shown)
    shown = shown.replace("IS WHOLE", "is a whole number").replace(" * ", " × ")
    shown = _MINUS.sub("-", _NONE_OF.sub("0", shown))
    shown = re.sub(r"\bTRUE\b", "anything at all", shown)
    shown = re.sub(r"\bFALSE\b", "nothing at all", shown)
    shown = _FIGURES.sub(lambda m: str(_NUMBERS.index(m[0]) + 1), shown)
    return plain_degrees(_WORDS.sub(lambda m: m[0].lower(), shown))


def _some_part(match: re.Match[str]) -> str:
    """`at least one of the nozzles with bore at least 2 mm and reach at most 30 mm`, of facts of one part."""
    facts = [_OF_A_PART.fullmatch(fact) for fact in _facts(match[1].replace(", ", ","))]
    parts = {fact[2] for fact in facts if fact}
    if None in facts or len(parts) != 1:
        return match[0]
    told = " and ".join(f"{fact[1]} {fact[3]}" for fact in facts if fact)
    return f"at least one of the {parts.pop()} with {told}"


def _of_steps(said: str, match: re.Match[str]) -> str:
    names = match[1].split(", ")
    return said.format(" and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names))


def _called(instead: str, match: re.Match[str]) -> str:
    return instead + match[1].replace(", ", " and ")


def _rounded(match: re.Match[str]) -> str:
    """As an insertion between commas where it is a whole side of a comparison, else in brackets."""
    whole = _WHOLE.fullmatch(match[2])
    to = match[2] if whole is None else f"whole {whole[1]}" if whole[1] else "a whole number"
    inside = f"{match[1]}, rounded to {to}{_RULES[match[3]]}"
    before, after = match.string[: match.start()], match.string[match.end() :]
    if (not before or _SIGN.search(before[-4:])) and _SIGN.match(after):
        return f"{inside},"
    if not after and _SIGN.search(before[-4:]):
        return inside
    return f"[{inside}]"


def _magnitude(match: re.Match[str]) -> str:
    """`|a - b|`; a written number above zero is its own magnitude."""
    inside = match[1]
    written = re.fullmatch(r"[\d.]+ ?(?:[^\s\d+*/-][^\s+*-]*)?(?: by \w+)?", inside)
    return inside if written else f"|{inside}|"
