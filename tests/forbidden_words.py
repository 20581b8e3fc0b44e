"""What no output may say in the tool's own voice: conclusions of law, and how an answer was computed.

`forbidden_in` is for every test that makes output. Words of the sheet may say anything, and citations speak
the law's own words; both are taken out first.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

LAW = re.compile(
    r"""\b(
      new | novel(ty)? | anticipat\w* | (non)?obvious(ness|ly)? | (in)?valid(ity|ly)? | infring\w* |
      (un)?patentab\w* | (in)?definite(ness)? | (un)?supported | added\s+matter | (im)?proper(ly)? |
      (un)?allowab\w* | (un)?safe[rt]?\w* | clear(s|ed|er|ly|est)? | cure[sd]? | curing | admit(s|ted)? |
      admission | the\s+claim\s+covers | no\s+problems?\s+found | prior\s+art |
      probab\w* | likel(y|ihood|ier) | chances?\s+(of|are|that)
    )\b""",
    re.IGNORECASE | re.VERBOSE,
)
SOLVER = re.compile(
    r"\b(z3|smt|sat|unsat\w*|solver\w*|satisfiab\w*|rlimit|selectors?|unknown result|timed? ?out|lambda)\b",
    re.IGNORECASE,
)
PROVED = re.compile(r"\bprove[dns]?\b|\bproof\b", re.IGNORECASE)
CITATION = re.compile(
    r"""(
      (In\ re|Ex\ parte)\s[^,;]+,\s[^;()]*(\([^)]*\))?   # In re Woodruff, 919 F.2d 1575 (Fed. Cir. 1990)
      | [A-Z][\w.,&'\ -]*\ v\.\ [^;]*?\((?:[^()]*\d{4})\)   # Party v. Party, 1 F.3d 2 (Fed. Cir. 1993)
      | \b(MPEP|Guidelines|G\ \d/\d\d|T\ \d+/\d\d)\b[^;\n]*
    )""",
    re.VERBOSE,
)


def forbidden_in(text: str, sheet_texts: Iterable[str] = ()) -> list[str]:
    """The forbidden words of an output, each with its surroundings; empty for good output.

    `sheet_texts` are texts the user wrote: the whole sheet, or its parts. Quoted passages that occur in one
    of them are stripped, and so is each text itself where it stands unquoted, unless it is a forbidden word.
    """
    sheet = [_flat(part) for part in sheet_texts if part.strip()]
    own = _without_citations(_without_sheet(_flat(text), sheet))
    found = [_around(own, m) for pattern in (LAW, SOLVER) for m in pattern.finditer(own)]
    return found + list(_proved_in(own))


def _flat(text: str) -> str:
    return " ".join(text.replace("\\", "").split())


def _without_sheet(text: str, sheet: list[str]) -> str:
    joined = "\n".join(sheet)

    def stripped(match: re.Match[str]) -> str:
        return '""' if match[1] in joined else match[0]

    text = re.sub(r'"([^"]*)"', stripped, text)
    for part in sorted(sheet, key=len, reverse=True):
        if not LAW.fullmatch(part):
            text = re.sub(rf"(?<!\w){re.escape(part)}(?!\w)", " ", text)
    return text


def _without_citations(text: str) -> str:
    return CITATION.sub(" ", text)


def _proved_in(text: str) -> Iterator[str]:
    """`proved` is said of the restatement only, in the same sentence."""
    for sentence in re.split(r"(?<=[.;])\s", text):
        match = PROVED.search(sentence)
        if match and "as restated" not in sentence:
            yield _around(sentence, match)


def _around(text: str, match: re.Match[str]) -> str:
    return f"{match[0]!r} in '{text[max(0, match.start() - 30) : match.end() + 30]}'"
