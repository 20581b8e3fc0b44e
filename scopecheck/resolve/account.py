"""The text against the sheet: numbers, units, connectives and end words that no line restates."""

from __future__ import annotations

import re
from collections.abc import Iterator

from scopecheck.core.model import Unrestated, UnrestatedSort
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import find_unit, unit_words
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Own, before_signs
from scopecheck.resolve.claim_text import ClaimText, Piece
from scopecheck.resolve.joints import structural
from scopecheck.resolve.limiting_words import Place, led_to_a_line
from scopecheck.resolve.limiting_words import places as limiting_places

_CONNECTIVES = frozenset("and or not no never nowhere nor neither either unless except".split())
_END_WORDS: tuple[tuple[str, ...], ...] = tuple(map(tuple, runs_in_order("account", "ends")))
_CLOSING: tuple[tuple[str, ...], ...] = tuple(
    (verb, *how, "of") for verb in ("consisting", "consists", "consist") for how in ((), ("essentially",))
)
_END_WORDS_BY_FIRST = {
    first: tuple(words for words in (*_END_WORDS, *_CLOSING) if words[0] == first)
    for first in {w[0] for w in (*_END_WORDS, *_CLOSING)}
}
_BEFORE_NUMBERS = frozenset("from to above below over under".split())
_LIMITING = listed("account", "which_or_how_many")
"""Words that say which, how many, or what of several values: neither ends nor hedges."""
_HEDGES = _LIMITING | listed("account", "hedges")
_SIGNS = ("negative", "positive")
_BEFORE_LIMITS = frozenset("not no of at less more greater between from up above below exceeding".split())
ORDER_WORDS = listed("account", "order")
"""Words of time, which are asked for where a sheet declares steps."""
_GREAT = ("hundred", "thousand", "million", "billion", "trillion")
"""Without one of these behind it a number is another one."""
_WATCHED = frozenset(
    (
        *_CONNECTIVES,
        *_END_WORDS_BY_FIRST,
        *_BEFORE_NUMBERS,
        *_HEDGES,
        *_SIGNS,
        *_GREAT,
        *(word for word, number in NUMBER_WORDS.items() if number > 1),
    )
)
FRACTIONS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
"""A number in one sign: the account tells of it, and no line in words reads it."""


def unrestated(
    claim: int,
    text: ClaimText,
    exact_numbers: list[Number],
    references: tuple[tuple[int, int], ...],
    own: Own,
    timed: bool = False,
) -> tuple[Unrestated, ...]:
    """What the claim's text says in numbers, units, connectives, end and closing words, hedges, and no line.

    `exact_numbers` are the numbers of lines in symbols; each accounts for one equal number of the text.
    Numbers of claims, reference signs in brackets, and an 'and' between elements of the claim do not count.
    `timed`: words of time are asked for too.
    """
    places = open_places(text, exact_numbers, references, own, timed)
    return tuple(_item(claim, text, start, end, sort) for start, end, sort in places)


def open_places(
    text: ClaimText,
    exact_numbers: list[Number],
    references: tuple[tuple[int, int], ...],
    own: Own,
    timed: bool = False,
) -> list[tuple[int, int, UnrestatedSort]]:
    """The tokens of what `unrestated` tells, in the order of the text, and what each is."""
    found: list[tuple[int, int, UnrestatedSort]] = []
    tokens = text.tokens
    skipped = text.within(references) | text.sequences
    left = [n.text for n in exact_numbers]
    for start, end, sort in _with_words(text, list(_sayings(text, own))):
        at = [i for i in range(start, end) if i not in text.taken]
        if not at or any(i in skipped for i in range(start, end)):
            continue
        if at == [start] and tokens[start].text in ("is", "are"):
            continue  # 'even' is restated, of 'is even'
        if sort == "connective" and _joins_lines(text, start):
            continue
        if sort == "limiting word" and tokens[end - 1].text in _FROM and led_to_a_line(text, end):
            continue
        if sort == "number" and left:
            digits = digits_at(tokens, start)
            if digits in left:
                left.remove(digits)
                continue
        if sort == "number" and start in text.taken:
            start, sort = at[0], "unit"
        found.append((start, end, sort))
    if timed:
        of_time = (i for word in ORDER_WORDS.intersection(text.where) for i in text.where[word])
        told = {i for start, end, _ in found for i in range(start, end)} | text.taken | skipped
        found += [(i, i + 1, "order word") for i in of_time if i not in told]
    return sorted(found, key=lambda place: place[0])


_FROM = ("from", "of", "among")


def _with_words(text: ClaimText, found: list[Place]) -> list[Place]:
    """With words that limit without a number; of what overlaps the wider, as `two thirds` for `two`."""
    more = limiting_places(text)
    wide = [p for p in more if not any(s <= p[0] and p[1] <= e and (s, e) != p[:2] for s, e, _ in found)]
    wide = [p for p in wide if not any((s, e) == p[:2] for s, e, _ in found)]
    covered = {i for s, e, _ in wide for i in range(s, e)}
    return sorted([p for p in found if not set(range(p[0], p[1])) <= covered] + wide)


def _joins_lines(text: ClaimText, at: int) -> bool:
    """An 'and' between words that two lines restate: that both hold is what two lines say."""
    if text.texts[at] != "and":
        return False
    before = next((i for i in range(at - 1, max(-1, at - _APART), -1) if i in text.taken), None)
    behind = next((i for i in range(at + 1, min(len(text.tokens), at + _APART)) if i in text.taken), None)
    if before is None or behind is None or text.by.get(before) == text.by.get(behind):
        return False
    start = before
    while start and text.by.get(start - 1) == text.by.get(before):
        start -= 1
    around = (i for i in range(max(0, start - _LEADING), behind) if i not in text.taken)
    said = {text.texts[i] for i in around}
    return said.isdisjoint(_TOGETHER) and not any(
        text.texts[i][0].isdigit() for i in range(before + 1, behind)
    )


_APART, _LEADING = 12, 5
"""How far from an 'and' the words of lines stand, and how far before these what joins both may."""
_TOGETHER = frozenset(
    "or either neither nor not unless both between sum total ratio combination combined together difference"
    " product mixture average mean if when each one any ;".split()
)


def turned_round(text: ClaimText) -> Iterator[Diagnostic]:
    """A warning for each line that begins right behind what turns its words round: `excluding | 2 to 13`."""
    for word in sorted(TURNING.intersection(text.where)):
        for at in text.where[word]:
            behind = at + 1
            while (
                behind < len(text.tokens) and behind not in text.taken and text.texts[behind] in _TURNING_ON
            ):
                behind += 1
            lifted = text.by.get(behind)
            of_another = word == "other" and text.texts[at + 1 : at + 2] != [
                "than"
            ]  # 'the other at most 5 mm'
            if of_another or at in text.taken or lifted is None or text.by.get(behind - 1) == lifted:
                continue
            start, end = text.tokens[at].start, text.tokens[behind - 1].end
            said = " ".join(text.source.text[start:end].split())
            yield Diagnostic(
                "warning", lifted, f"'{said}' stands right before these words in the claim, and in no line",
                "Without it the words may say the opposite.",
                f"let the line begin with it, or mark it: not restated : {said}",
            )  # fmt: skip


TURNING = frozenset("excluding except excepting not never without unless other".split())
_TURNING_ON = frozenset("than for from of the a an to be is are being".split())


def _item(claim: int, text: ClaimText, start: int, end: int, sort: UnrestatedSort) -> Unrestated:
    tokens, source = text.tokens, text.source
    span = Span(source, tokens[start].start, tokens[end - 1].end)
    a, b = max(0, start - 4), min(len(tokens), end + 4)
    around = source.text[tokens[a].start : tokens[a].end]
    for before, token in zip(tokens[a : b - 1], tokens[a + 1 : b], strict=True):
        around += " " * (before.end < token.start) + source.text[token.start : token.end]
    around = re.sub(r" ([,.;:)])", r"\1", around.replace("( ", "("))
    return Unrestated(claim, sort, " ".join(span.text.split()), around, span, text.beside(start, end))


def _sayings(text: ClaimText, own: Own) -> Iterator[tuple[int, int, UnrestatedSort]]:
    """Stretches of tokens that say something the sheet should take up, in order, without overlap."""
    said = (
        places
        for word, places in text.where.items()
        if word in _WATCHED or word[0].isdigit() or word[0] in FRACTIONS
    )
    over = 0
    for at in sorted(at for places in said for at in places):
        if at < over:
            continue
        width, sort = _saying(text, at, own)
        if sort:
            yield at, at + width, sort
        over = at + width


def _saying(text: ClaimText, at: int, own: Own) -> tuple[int, UnrestatedSort | None]:
    tokens = text.tokens
    word = tokens[at].text
    if word[0].isdigit() or word[0] in FRACTIONS:
        if reference_sign(tokens, at):
            return 1, None
        width = digits_width(tokens, at)
        return width + unit_width(text, at + width - 1, own), "number"
    if word in _GREAT or (word in NUMBER_WORDS and NUMBER_WORDS[word] > 1):
        return 1, "number"
    for words in _END_WORDS_BY_FIRST.get(word, ()):
        if tuple(text.texts[at : at + len(words)]) == words:
            end: UnrestatedSort = "limiting word" if words[0] in (*_LIMITING, "ratio") else "end word"
            return len(words), "closing word" if words in _CLOSING else end
    if word in _BEFORE_NUMBERS and at + 1 < len(tokens) and tokens[at + 1].text[0].isdigit():
        return 1, "end word" if word != "to" or _after_number(tokens, at) else None
    if word in _HEDGES and not _each_other(tokens, at):
        return 1, "limiting word" if word in _LIMITING else "hedge"
    if word in _SIGNS and at + 2 < len(tokens) and _before_a_limit(tokens, at + 2):
        return 1, "sign"  # 'a negative offset of at most': a limit lifted behind it is one on either side
    if word in _CONNECTIVES and not structural(tokens, at):
        return 1, "connective"
    return 1, None


def _before_a_limit(tokens: list[Piece], at: int) -> bool:
    """Does a limit begin here: `of at most 5 mm`? What `the negative electrode of claim 1` has is none."""
    word, then = tokens[at].text, tokens[at + 1].text if at + 1 < len(tokens) else ""
    return word in _BEFORE_LIMITS and (word != "of" or then in _BEFORE_LIMITS or then[:1].isdigit())


def _each_other(tokens: list[Piece], at: int) -> bool:
    """`parallel to each other`: how two things lie, not of each of several."""
    return tokens[at].text == "each" and at + 1 < len(tokens) and tokens[at + 1].text == "other"


def _after_number(tokens: list[Piece], at: int) -> bool:
    """A 'to' that ends a range: a number stands shortly before it, unlike in 'connected to 2 sensors'."""
    for token in reversed(tokens[max(0, at - 5) : at]):
        if token.text[0].isdigit() or token.text in NUMBER_WORDS:
            return True
        if token.text in (",", ";", ":"):
            return False
    return False


def reference_sign(tokens: list[Piece], at: int) -> bool:
    """`(12)`, `(12a)` or `(12, 14)`: a sign of the drawings."""
    before = tokens[at - 1].text if at else ""
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    opened = before == "(" or (before == "," and at > 1 and reference_sign(tokens, at - 2))
    glued = len(after) == 1 and after.isalpha() and at + 2 < len(tokens) and tokens[at + 2].text == ")"
    return opened and (after in (")", ",") or glued) and "." not in tokens[at].text


def digits_width(tokens: list[Piece], at: int) -> int:
    """How many tokens spell a number: three for a fraction or a ratio written without blanks, else one."""
    parts = tokens[at : at + 3]
    whole = len(parts) == 3 and parts[1].text in ("/", ":") and parts[2].text[0].isdecimal()
    return 3 if whole and parts[0].end == parts[1].start and parts[1].end == parts[2].start else 1


def digits_at(tokens: list[Piece], at: int) -> str:
    """A number of the text as symbols have it: '-10' of 'minus 10 °C'."""
    negative = sign_width(tokens, at) == 1 and tokens[at - 1].text in ("-", "minus")
    return "-" * negative + "".join(t.text for t in tokens[at : at + digits_width(tokens, at)])


def sign_width(tokens: list[Piece], at: int, over: int = 0) -> int:
    """How many tokens before a number are its sign: of '-10', 'minus 10', 'at least – 10', '±10' and '+/-10'.

    `over`: where the amount before it ends; a sign that stands there joins the two.
    """
    sign = tokens[at - 1] if at else None
    if sign is None or sign.text not in ("-", "+", "minus", "±") or over == at - 1 > 0:
        return 0
    if sign.text == "±":
        return 1
    if [t.text for t in tokens[max(0, at - 3) : at]] == ["+", "/", "-"]:
        return 3 if over < at - 3 or at == 3 else 0
    before = tokens[at - 2] if at > 1 else None
    if before is None or before.text in ("(", "["):
        return 1
    if [t.text for t in tokens[max(0, at - 3) : at - 1]] == ["plus", "or"]:
        return 0
    if before.end == sign.start or before.text[0].isdecimal():
        return 0
    return int(before.text in before_signs() or (sign.end == tokens[at].start and sign.text != "minus"))


MOST_OF_UNIT = 9
"""Of how many tokens a unit is spelled at most."""
_NO_UNIT = frozenset("a an at in as is of to and or".split())
_AFTER_UNIT = frozenset((",", ";", "and", "or", "to"))


def _ampere(text: ClaimText, at: int) -> bool:
    """Whether an 'A' behind a number is its unit: a capital letter, and no beginning of a sentence."""
    token = text.tokens[at]
    return text.source.text[token.start : token.end] == "A"


def _no_unit(word: str, own: Own) -> bool:
    """Whether a word stands in no unit's spelling."""
    return len(word) > 3 and word.isalpha() and not own and word not in unit_words()


def unit_width(text: ClaimText, at: int, own: Own) -> int:
    """How many tokens after a number spell its unit."""
    if own:
        return _unit_width(text, at, own)
    if at not in text.widths:
        text.widths[at] = _unit_width(text, at, own)
    return text.widths[at]


def _unit_width(text: ClaimText, at: int, own: Own) -> int:
    after = text.texts[at + 1 : at + 1 + MOST_OF_UNIT]
    if not after or (after[0] in _NO_UNIT and not _ampere(text, at + 1)):
        return 0
    far = next((i for i, word in enumerate(after) if word in _AFTER_UNIT or _no_unit(word, own)), len(after))
    start = text.tokens[at + 1].start
    for width in range(far, 0, -1):
        written = " ".join(text.source.text[start : text.tokens[at + width].end].split())
        if after[width - 1] != ":" and find_unit(written, own):
            return width
    return 0
