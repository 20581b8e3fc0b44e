"""Claims pasted as plain text: where each begins, whatever the line breaks, and what is no claim.

Nothing is lost: each word of the text is in a claim, or in the text before, between or after the claims.
"""

from __future__ import annotations

import re

from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex

_HEAD = regex(
    r"(?P<title>title(?:  +|\t|\s*:)\s*\S.*)"
    r"|profile(?:\s+|\s*:\s*)(?P<profile>US(?: examination| court)?|EPO)"
    r"|filed(?:\s+|\s*:\s*)(?P<filed>yes|no)",
    re.IGNORECASE,
)
"""A line at the head of a sheet that may stand above pasted claims."""
_AS_AT_THE_EPO = regex(r"\b(?:characteri[sz]ed in that|characterised by)\b", re.IGNORECASE)
_NUMBER = regex(
    r"(?=[\dcCN\[(])(?P<word>(?:claim|CLAIM|Claim|No\.?)\s+)?(?P<open>[\[(])?(?P<number>\d{1,3})(?P<close>[\])])?"
    r"\s*(?P<mark>[.):])?(?=\s|$|(?<=[.)\]:])[A-Z])"
)
_OPENS_CLAIM = regex(
    r"\s*(?:\((?!\d)[A-Za-z ,-]{3,40}\)\s*)?[\"']?(?:[A-Z]|an?\b|the\b|in an?\b|use\b|method\b)"
)
"""What follows a claim's number: a capital, also after a status such as `(Currently amended)`."""
_STRAY_LINE = regex(
    r"\s*(?:-+\s*\d{1,3}\s*-+|[Pp]age\s+\d{1,3}(?:\s*(?:of|/)\s*\d{1,3})?|\d{1,3}\s*/\s*\d{1,3})\s*"
)
"""The number of a page, alone on its line."""
_GOES_ON = regex(r"(?:[,;]|(?<!is):|\b(?:and|or|of|claims?))\s*$")
_AFTERWARDS = regex(r"(?:[A-Z][A-Z ]{5,}|(?:Abstract|Summary|Drawings|Description)\b.{0,40})$")
_LONE_OPENING = regex(r"\s*(?:an?|the)\s|\s*(?:method|process|use|apparatus|composition)\b", re.IGNORECASE)
NEAR = 200
"""How many characters around a number tell whether a claim begins there."""
MOST_OPEN = 12
"""In how many of them stands a word that leaves a sentence open."""
_CLAIM_LIKE = regex(
    r"\b(?:compris|consist|wherein|characteri[sz]ed|which\b|having\b|including\b|according to)", re.IGNORECASE
)


@record
class PastedClaim:
    """A claim's number and its text, lines as pasted."""

    number: int
    text: str


@record
class Pasted:
    """The claims of a text in its order. `aside`: what is no claim, with where it stood.

    `again` holds claims whose number an earlier one has. `unnumbered`: the one claim had no number.
    """

    claims: tuple[PastedClaim, ...]
    aside: tuple[tuple[str, str], ...] = ()
    again: tuple[PastedClaim, ...] = ()
    unnumbered: bool = False
    profile: str = ""
    """As a line above the claims says; '' where none does."""
    title: str = ""
    filed: str = ""

    @property
    def practice(self) -> str:
        """The profile that the text says, or else that its claims look like."""
        seen = any(_AS_AT_THE_EPO.search(claim.text) for claim in self.claims)
        return self.profile or ("EPO" if seen else "US")


@record
class _Start:
    number: int
    at: int
    body: int
    line: bool


def pasted(text: str) -> Pasted:
    """The claims of a text. No claims where nothing is numbered and nothing reads like one."""
    head, text = without_head(_readable(text))
    found = _claims(text)
    return replace(found, **head) if head else found


def without_head(text: str) -> tuple[dict[str, str], str]:
    """The profile, the title, and whether it is filed, as lines above say; the text without them."""
    said, lines = dict[str, str](), text.split("\n")
    for at, line in enumerate(lines):
        match = _HEAD.fullmatch(line.strip())
        if line.strip() and match is None:
            return said, "\n".join(lines[at:]) if said else text
        if match is not None:
            title = (match["title"] or "")[len("title") :].lstrip(": \t").strip('"')
            known = {"title": title, "profile": match["profile"], "filed": match["filed"]}
            said |= {key: value for key, value in known.items() if value}
    return said, "" if said else text


def is_text(text: str) -> bool:
    """Whether only lines of the head of a sheet stand before the first claim, and some do."""
    said, rest = without_head(_readable(text))
    first = rest.lstrip()
    match = _NUMBER.match(first)
    return bool(said) and match is not None and bool(_OPENS_CLAIM.match(first[match.end() :]))


def _claims(text: str) -> Pasted:
    text, furniture = _without_pages(text)
    starts = _chosen(text, list(_starts(text)))
    if not starts:
        return _unnumbered(text, furniture)
    aside = [("before", text[: starts[0].at])]
    claims: list[PastedClaim] = []
    again: list[PastedClaim] = []
    for start, end in zip(starts, [*(s.at for s in starts[1:]), len(text)], strict=True):
        body = text[start.body : end]
        if end == len(text):
            body, rest = _without_rest(body)
            aside.append(("after", rest))
        twice = start.number in {c.number for c in claims}
        (again if twice else claims).append(PastedClaim(start.number, body.strip()))
    aside += [("page", page) for page in furniture]
    kept = tuple((where, " ".join(words.split())) for where, words in aside if words.strip())
    return Pasted(tuple(c for c in claims if c.text), kept, tuple(again))


_INVISIBLE = {ord(c): None for c in "\u00ad\u200b\u200c\u200d\u2060\ufeff"}


def _readable(text: str) -> str:
    """The text without signs that cannot be seen; breaks of every kind as line breaks."""
    text = text.translate(_INVISIBLE)
    text = re.sub(r"\r\n?|[\u2028\u2029\x0b\x85]", "\n", text).replace("\f", "\n\n")
    blanks = {ord(c): " " for c in set(text) if not (c.isprintable() or c in "\n\t" or c.isspace())}
    return text.translate(blanks) if blanks else text


def _without_pages(text: str) -> tuple[str, list[str]]:
    """The text without lines that are only the number of a page, and these."""
    lines = text.split("\n")
    pages = [line for line in lines if line.strip() and _STRAY_LINE.fullmatch(line)]
    return "\n".join(line for line in lines if line not in pages), pages


def _starts(text: str) -> list[_Start]:
    """Every place where a claim may begin: a number with its mark, then a capital."""
    found = []
    for match in _NUMBER.finditer(text):
        at = match.start()
        before = text[max(0, at - NEAR) : at].rstrip(" \t")
        line = not before or before.endswith("\n")
        glued = at > 0 and not text[at - 1].isspace()
        marked = match["mark"] or match["close"] or match["word"]
        if glued or (match["open"] and not match["close"]) or not (marked or line):
            continue
        after = text[match.end() : match.end() + NEAR]
        if not _OPENS_CLAIM.match(after) or (not marked and not _alone(text, match)):
            continue
        first = match["number"] == "1" and before.endswith(":")
        if not line and not _ended(before) and not first:
            continue
        found.append(_Start(int(match["number"]), at, match.end(), line))
    return found


def _alone(text: str, match: re.Match[str]) -> bool:
    """A number without a mark: alone on its line, or followed by a tab or two blanks."""
    return bool(re.match(r"[ \t]*(?:\n|\t|  )", text[match.end() : match.end() + NEAR]))


def _ended(before: str) -> bool:
    before = before.rstrip()
    return not before or before[-1] in ".!?" or before[-2:] in ('."', ".'", ".)")


def _chosen(text: str, starts: list[_Start]) -> list[_Start]:
    """The starts that are claims: no items of a list inside a claim, no number broken off its words."""
    chosen: list[_Start] = []
    for start in starts:
        before = text[max(0, start.at - NEAR) : start.at]
        said = before.rstrip()
        blank = bool(re.search(r"\n[ \t]*\n[ \t]*$", before[len(said) :]))
        last = chosen[-1].number if chosen else 0
        open_end = bool(_GOES_ON.search(said[-MOST_OPEN:]))
        follows = start.number == last + 1 and start.line and not open_end
        rises = start.number > last and (_ended(before) or blank)
        after = text[start.body : start.body + 2 * NEAR]
        again = start.number <= last and start.line and _ended(before) and _whole(after)
        if not chosen or follows or (rises and not open_end) or again:
            chosen.append(start)
    return chosen


def _whole(text: str) -> bool:
    """Whether what follows a number that was there before reads like a claim of its own, not like a step."""
    first = text.split("\n\n")[0]
    return bool(_LONE_OPENING.match(first) and _CLAIM_LIKE.search(first))


def _without_rest(body: str) -> tuple[str, str]:
    """The last claim without what follows it: a heading of its own after a full stop and a blank line."""
    for match in re.finditer(r"\.[ \t]*\n[ \t]*\n", body):
        first = body[match.end() :].strip().split("\n")[0].strip()
        if first and _AFTERWARDS.match(first):
            return body[: match.start() + 1], body[match.end() :]
    return body, ""


def _unnumbered(text: str, furniture: list[str]) -> Pasted:
    words = text.strip()
    if _LONE_OPENING.match(words) and _CLAIM_LIKE.search(words[:600]):
        aside = tuple(("page", page.strip()) for page in furniture)
        return Pasted((PastedClaim(1, words),), aside, unnumbered=True)
    return Pasted(())
