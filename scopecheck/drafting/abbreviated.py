"""Units written with a point, 'from 110° C. to 150° C.', whose point ends no sentence."""

from __future__ import annotations

from scopecheck.foundations.spans import Source, Span
from scopecheck.resolve.account import digits_width, unit_width
from scopecheck.resolve.claim_text import ClaimText


def without_points(text: ClaimText) -> ClaimText:
    """The text without the tokens of points behind units, where the sentence goes on."""
    points = _points(text)
    return (
        ClaimText(text.source, [t for i, t in enumerate(text.tokens) if i not in points]) if points else text
    )


def words_without_points(words: str) -> str:
    """Lifted words as that text has them: 'from 110° C to 150° C'."""
    if ". " not in words and ".," not in words:
        return words
    text = ClaimText.of([Span(Source("words", words), 0, len(words))])
    places = {text.tokens[i].start for i in _points(text)}
    return "".join(sign for i, sign in enumerate(words) if i not in places)


def _points(text: ClaimText) -> set[int]:
    """The tokens that are points behind units, and not at the end of the text or before a capital."""
    found = set[int]()
    if not any(_glued(text, i) for i in text.where.get(".", ())):
        return found
    for at in (at for word, places in text.where.items() if word[0].isdecimal() for at in places):
        last = at + digits_width(text.tokens, at) - 1
        width = unit_width(text, last, {})
        end = last + 1 + width
        if width and text.texts[end : end + 1] == ["."] and _glued(text, end):
            found.add(end)
    return found


def _glued(text: ClaimText, at: int) -> bool:
    """Whether a point stands right behind a letter, and the sentence goes on."""
    after = text.tokens[at + 1 : at + 2]
    behind = at > 0 and text.tokens[at - 1].end == text.tokens[at].start
    letter = behind and text.source.text[text.tokens[at - 1].end - 1].isalpha()
    return letter and bool(after) and not text.source.text[after[0].start].isupper()
