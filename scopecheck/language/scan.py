"""Tokens of one statement. Numbers keep their digits; every doubtful spelling has a sentence of its own.

The exact language and the words of a claim share this scanner; words allow a dash and a plus-or-minus sign
between numbers, because claims have them and phrases read them.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Literal, TypeAlias

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import Unit, explain_unit, find_unit, nearest_units
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import words as word_list
from scopecheck.language.layout import Page

Own: TypeAlias = Mapping[str, Unit]
Sort: TypeAlias = Literal["number", "word", "capital", "sign", "mark", "quoted", "gap"]

CAPITALS = frozenset(
    "AND OR NOT IF THEN OTHERWISE MOD IS WHOLE IN LEAST GREATEST ABS SUM ROUND TO HALF AWAY UP EVEN COUNT ONE"
    " EVERY SOME NO MEAN MEDIAN EQUAL DIFFERENT RISING FALLING PLACE FIGURE DECADE TRUE FALSE"
    " START END DURATION DONE ORDER NEXT BEGUN TOGETHER SAME CHAIN LAST DAY RECITED WITHOUT".split()
)
LATER_CAPITALS = frozenset("DIGITS VALUE".split())

MOST_DIGITS = 60
MOST_EXPONENT = 60
DEEPEST = 40
MOST_TOKENS = 4000

_NO_UNIT = frozenset(
    "a an and any are as at be but by each for from has in into is of on one or per that the to up which with"
    " x times".split()
)

OVER_PARTS = "EVERY|SOME|NO|ONE|EQUAL|DIFFERENT|RISING|FALLING"
"""Words in capitals that make a condition of what follows in brackets, for a regular expression."""
SIGN_WITH_POINT = r"R[a-z]\d\.\d\b"
"""A sign of what is measured with a point in it, 'Rp0.2', for a regular expression: one word."""
_WORD = regex(rf"{SIGN_WITH_POINT}|[^\W\d_][\w']*(?:-[\w']+)*")
_SIGN = regex(r"<=|>=|!=|≤|≥|≠|=<|=>|==|<>|<|>|=")
_SIGNS = {"≤": "<=", "≥": ">=", "≠": "!="}
_WRONG_SIGNS = {"=<": "<=", "=>": ">=", "==": "=", "<>": "!="}
_TILDES = "~∼～〜"
"""Before a number 'about'; between two of them 'to'."""
_MARKS = {"×": "*", "·": "*", "÷": "/"}
_SUPER = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")

_POINT_FIRST = regex(r"\.\d+")
_MANTISSA = regex(r"\d+(?:\.\d+)?")
_POWER_OF_TEN = regex(
    r"[eE]([+-]?\d+)(?![\w.])|([⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺]+)|\s*[×x*]\s*10(?:\^([+-]?\d+)|([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))"
)
_TEN_TO = regex(r"10\^(-?\d+)(?![\w.])")
_SIGN_APART = regex(r"(?:-|minus\b) *(?=\d)|\+(?=\d)", re.IGNORECASE)
_RATIO = regex(r"(\d+(?:\.\d+)?):(\d+(?:\.\d+)?)(?![\d:])")
_FRACTION = regex(r"(\d+)/(\d+)(?![\d./^])")

_MIXED = regex(r"(\d+)([½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])(?![\d/])")
"""A whole number and a fraction in one sign, `2½`."""

_DOUBTFUL: tuple[tuple[re.Pattern[str], str, str, str], ...] = (
    (
        regex(r"\d{1,3}(?:,\d{3}){2,}(?![\d])"),
        "a comma inside a number",
        "'{0}' has commas, and a line none.",
        "write {1}, which the claim may have with its commas",
    ),
    (
        regex(r"\d{1,3}(?:,\d{3})+(?![\d])"),
        "a comma inside a number",
        "'{0}' is one thousand and more in one country and a decimal in another.",
        "write {1}, which the claim may have with its comma; or, where it is a decimal, two blanks, exactly,"
        " and the facts in symbols with {2}",
    ),
    (
        regex(r"\d+,\d+"),
        "a comma inside a number",
        "'{0}' may be a decimal comma or two numbers.",
        "write {2} for the decimal, or a blank after the comma for two numbers",
    ),
    (
        regex(r"\d+ \d+/\d+"),
        "a whole number and a fraction side by side",
        "'{0}' is not read as one number.",
        "write it as a decimal or as one fraction, such as 2.5 or 5/2",
    ),
    (
        regex(r"\d{1,3}(?: \d{3})+(?![\d.])"),
        "a blank inside a number",
        "'{0}' may be one number or several.",
        "write {3}",
    ),
)
_IN_GROUPS = regex(r"[1-9]\d{0,2}(?: \d{3})+(?![\d.,]| \d)")
_ZERO_FIRST = regex(r"(?<![\d.,])[1-9]\d{0,2}(?: 0\d\d)+(?![\d.,]| \d)")
"""Digits in groups of three that can only be one number: none begins with a zero."""
_DASH = regex(r"\d+(?:\.\d+)?-\d+(?:\.\d+)?")
_PLUS_MINUS = regex(r"\d+(?:\.\d+)?(?: ?[^\s\d±+<>=()]{1,12})? ?(?:±|\+/-|\+-) ?\d+(?:\.\d+)?")


def before_signs() -> frozenset[str]:
    """Words after which a dash or 'minus' that stands apart is the sign of a number: 'at least – 10'."""
    return word_list("limits", "inside") | word_list("limits", "before_signs")


@record
class Number:
    """A number as written: exact value, places its digits reach, and the unit glued to it, if any."""

    text: str
    value: Fraction
    decimals: int
    unit: Unit | None

    @property
    def has_places(self) -> bool:
        """False for a fraction or a ratio, which has no last written place."""
        return "/" not in self.text and ":" not in self.text

    @property
    def zeros(self) -> int:
        """How many zeros it ends with, if written without decimals: 2 of 400, none of 4.00 and of 0."""
        whole = self.has_places and not self.decimals and self.value
        return next(n for n in range(MOST_DIGITS + 1) if self.value % 10 ** (n + 1)) if whole else 0


@record
class Token:
    sort: Sort
    text: str
    start: int
    end: int
    number: Number | None = None


class _Scanner:
    def __init__(self, page: Page, start: int, end: int, own: Own, words: bool) -> None:
        self.page, self.text, self.end = page, page.plain, end
        self.own, self.words = own, words
        self.at = start
        self.start = start
        self.tokens: list[Token] = []
        self.open: list[Token] = []

    def run(self) -> tuple[Token, ...]:
        while True:
            self.skip_blanks()
            if self.at >= self.end:
                break
            self.one()
            if len(self.tokens) > MOST_TOKENS:
                raise trouble(
                    self.page.span(self.at, self.at + 1), "a statement that is too long",
                    f"A statement holds at most {MOST_TOKENS} words, numbers and signs.",
                    "split it into several statements",
                )  # fmt: skip
        if self.open:
            left = self.open[-1]
            raise trouble(
                self.page.span(left.start, left.end), f"'{left.text}' is never closed",
                "Every bracket that is opened is closed in the same statement.",
                f"add '{_CLOSING.get(left.text, left.text)}' where it ends",
            )  # fmt: skip
        return tuple(self.tokens)

    def skip_blanks(self) -> None:
        """Goes over blanks, and over a comment or the margin bar of a line that goes on."""
        text, begin = self.text, self.at
        while self.at < self.end:
            c = text[self.at]
            before = text[max(begin, self.at - 2) : self.at]
            _, new_line, on_it = text[begin : self.at].rpartition("\n")
            if c == "#" and (new_line or before[-1:] == "\t" or before == "  "):
                line_end = text.find("\n", self.at, self.end)
                self.at = self.end if line_end < 0 else line_end
            elif c.isspace() or (c == "|" and new_line and not on_it.strip()):
                self.at += 1
            else:
                return

    def add(self, sort: Sort, text: str, end: int, number: Number | None = None) -> None:
        self.tokens.append(Token(sort, text, self.at, end, number))
        self.at = end

    def one(self) -> None:
        text, at = self.text, self.at
        c = text[at]
        if self.page.spelled and (pieces := self.spelled_name()):
            for start, end in pieces:
                self.at = start
                self.add("word", text[start:end], end)
        elif c.isdecimal() and self.words and (name := self.numbered_name()):
            self.add("word", name, at + len(name))
        elif c.isdecimal() or (c in ".-" and self.number_begins(c)):
            self.number(int(c == "-"))
        elif self.words and (width := self.sign_in_words()):
            self.number(width)
        elif match := _WORD.match(text, at, self.end):
            self.word(match.group())
        elif c == '"':
            self.quoted()
        elif match := _SIGN.match(text, at, self.end):
            self.sign(match.group())
        elif text.startswith("...", at) or c == "…":
            self.add("gap", "...", at + (1 if c == "…" else 3))
        elif c == "±" or text.startswith("+/-", at) or (self.words and text.startswith("+-", at)):
            self.plus_minus(c)
        elif c in _TILDES and self.words:
            ranged = bool(self.tokens) and self.tokens[-1].number is not None
            self.add("word", "to" if ranged else "about", at + 1)
        elif c in _MARKS:
            self.add("mark", _MARKS[c], at + 1)
        elif c == ")" and self.words and not self.open and self._labelled():
            self.at += 1
        elif c in "+-*/^(){}[],:;%.'&°∶":
            self.bracket(c)
            self.add("mark", c, at + 1)
        elif c == "|":
            self.magnitude()
        else:
            raise trouble(self.page.span(at, at + 1), f"{_named(c)} has no meaning here", "", "take it out")

    def spelled_name(self) -> list[tuple[int, int]]:
        """Where the words of a declared name lie that begins here and is no plain words; [] if none does."""
        found = _spelled(self.page.spelled).match(self.text, self.at, self.end)
        before = self.text[self.at - 1] if self.at > self.start else " "
        if found is None or before.isalnum() or before in "_-'":
            return []
        if (glued := _GLUED.match(found.group())) and find_unit(glued[1], self.own):
            return []  # '4g' where 4G is a name
        if found.group()[-1].isdigit():
            # 'PEG 1000 g/mol' holds a quantity.
            chunk = _CHUNK.match(self.text, found.end() + 1, self.end)
            unit = chunk.group() if chunk and self.text[found.end()].isspace() else ""
            if unit and unit not in _NO_UNIT | CAPITALS and find_unit(unit, self.own):
                return []
        return [m.span() for m in _WITHOUT_BLANKS.finditer(self.text, self.at, found.end())]

    def numbered_name(self) -> str:
        """`134a` behind a name in capitals, `HFA 134a`, unless the letters are a unit, and `95th`: no number.

        '' for what is a number.
        """
        if ordinal := _ORDINAL.match(self.text, self.at, self.end):
            return ordinal.group()
        found = _DIGITS_AND_LETTERS.match(self.text, self.at, self.end)
        before = self.tokens[-1] if self.tokens else None
        if found is None or before is None or before.end != self.at - 1 or before.sort != "word":
            return ""
        return found.group() if before.text.isupper() and not find_unit(found.group(1), self.own) else ""

    def number_begins(self, c: str) -> bool:
        after = self.text[self.at + 1 : self.at + 2]
        if c == ".":
            return after.isdecimal()
        before = self.text[self.at - 1] if self.at > self.start else " "
        return (after.isdecimal() or after == ".") and (before.isspace() or before in "([{<>=,*/+:")

    def sign_in_words(self) -> int:
        """How wide a sign before a number is that claims write apart, 'minus 10' and '- 10', or as '+10'."""
        match = _SIGN_APART.match(self.text, self.at, self.end)
        before = self.tokens[-1] if self.tokens else None
        if not match or (before and before.end == self.at and before.text not in ("(", "[")):
            return 0
        if [t.text.lower() for t in self.tokens[-2:]] == ["plus", "or"]:
            return 0
        follows = before is None or before.text in ("(", "[") or before.text.lower() in before_signs()
        return len(match.group()) if follows else 0

    def plus_minus(self, c: str) -> None:
        width = 1 if c == "±" else 3 if self.page.plain.startswith("+/-", self.at) else 2
        if not self.words:
            raise trouble(
                self.page.span(self.at, self.at + width), "a plus-or-minus sign among symbols",
                "In symbols a tolerance has two ends.", "write both ends, such as 19 <= x <= 21",
            )  # fmt: skip
        self.add("word", "±", self.at + width)

    def _labelled(self) -> bool:
        """Does it close the letter of a step, as in `after step d)`?"""
        said = [t.text.lower() for t in self.tokens[-6:]]
        return bool(said) and len(said[-1]) == 1 and not {"step", "steps"}.isdisjoint(said[:-1])

    def magnitude(self) -> None:
        """`|a - b|` as `ABS(a - b)`: a bar behind a value closes one, any other opens one."""
        last = self.tokens[-1] if self.tokens else None
        behind_value = last is not None and (last.sort in ("word", "number") or last.text in _OPENING)
        if behind_value and self.open and self.open[-1].text == "|":
            self.open.pop()
            self.add("mark", ")", self.at + 1)
            return
        self.bracket("(")
        self.open[-1] = Token("mark", "|", self.at, self.at + 1)
        self.add("capital", "ABS", self.at)
        self.add("mark", "(", self.at + 1)

    def bracket(self, c: str) -> None:
        if c in _CLOSING:
            self.open.append(Token("mark", c, self.at, self.at + 1))
            if len(self.open) > DEEPEST:
                raise trouble(
                    self.page.span(self.at, self.at + 1), "brackets too deep inside each other",
                    f"At most {DEEPEST} brackets may be open at once.", "split the statement",
                )  # fmt: skip
        elif c in _OPENING:
            if not self.open or self.open[-1].text != _OPENING[c]:
                raise trouble(
                    self.page.span(self.at, self.at + 1), f"'{c}' closes nothing",
                    "" if not self.open else f"The bracket open here is '{self.open[-1].text}'.",
                    f"take it out, or open it with '{_OPENING[c]}'",
                )  # fmt: skip
            self.open.pop()

    def quoted(self) -> None:
        close = self.text.find('"', self.at + 1, self.end)
        if close < 0:
            raise trouble(
                self.page.span(self.at, self.at + 1), "a quote that is never closed",
                "Quoted text ends with a second quote on the same line.", 'add a " where the text ends',
            )  # fmt: skip
        self.add("quoted", self.text[self.at + 1 : close], close + 1)

    def sign(self, sign: str) -> None:
        if sign in _WRONG_SIGNS:
            raise trouble(
                self.page.span(self.at, self.at + 2), f"'{sign}' is not a sign here", "",
                f"write {_WRONG_SIGNS[sign]}",
            )  # fmt: skip
        self.add("sign", _SIGNS.get(sign, sign), self.at + len(sign))

    def word(self, word: str) -> None:
        if word in CAPITALS:
            self.add("sign" if word == "IN" else "capital", word, self.at + len(word))
            return
        if word in LATER_CAPITALS and not self.words:
            raise trouble(
                self.page.span(self.at, self.at + len(word)), f"{word} is not understood yet",
                "The word is set aside for a later version of the language.", "",
            )  # fmt: skip
        if not self.words and self.is_difference(word):
            for piece in re.split("(-)", word):
                self.add("mark" if piece == "-" else "word", piece, self.at + len(piece))
            return
        self.add("word", word, self.at + len(word))

    def is_difference(self, word: str) -> bool:
        """Whether `R1-R2` among symbols has names on either side of its sign and is part of no name."""
        names, small = self.page.names, word.lower()
        parts = small.split("-")
        return len(parts) > 1 and names.issuperset(parts) and not any(small in name for name in names)

    # ---- numbers

    def number(self, sign_width: int) -> None:
        """A number with its unit, behind a sign so many characters wide."""
        text, at = self.text, self.at
        digits_at = at + sign_width
        self.refuse_doubtful(digits_at)
        sign = -1 if sign_width and text[at] != "+" else 1
        if ratio := _RATIO.match(text, digits_at, self.end):
            self.finish(at, ratio.end(), sign * self.quotient(at, ratio), 0)
        elif self.words and (mixed := _MIXED.match(text, digits_at, self.end)):
            self.mixed(at, sign, mixed)
        elif fraction := _FRACTION.match(text, digits_at, self.end):
            self.finish(at, fraction.end(), sign * self.quotient(at, fraction), 0)
        elif ten := _TEN_TO.match(text, digits_at, self.end):
            power = self.exponent(at, ten.group(1), ten.end())
            self.finish(at, ten.end(), sign * Fraction(10) ** power, -power)
        else:
            self.decimal(at, digits_at, sign)

    def quotient(self, at: int, match: re.Match[str]) -> Fraction:
        self.cap(at, match.end())
        below = Fraction(match.group(2))
        if below == 0:
            raise trouble(self.page.span(at, match.end()), "a number over zero has no value")
        return Fraction(match.group(1)) / below

    def mixed(self, at: int, sign: int, match: re.Match[str]) -> None:
        """`2½` as the fraction 5/2, which has no last written place."""
        self.cap(at, match.end())
        part = Fraction(unicodedata.normalize("NFKD", match.group(2)).replace("\N{FRACTION SLASH}", "/"))
        value = sign * (int(match.group(1)) + part)
        unit, end = self.unit(match.end())
        number = Number(f"{value.numerator}/{value.denominator}", value, 0, unit)
        self.add("number", self.text[at:end], end, number)

    def in_groups(self, at: int) -> re.Match[str] | None:
        """`30 000 g/mol`, `10 000 to 12 500`, among words: a number with a blank between its thousands.

        Only where one of the words' numbers can be nothing else: `2 500 mm boards` are two of 500 mm.
        """
        found = _IN_GROUPS.match(self.text, at, self.end) if self.words else None
        return found if found and _ZERO_FIRST.search(self.text, self.start, self.end) else None

    def decimal(self, at: int, digits_at: int, sign: int) -> None:
        if grouped := self.in_groups(digits_at):
            self.cap(at, grouped.end())
            value = sign * Fraction(grouped.group().replace(" ", ""))
            self.finish(at, grouped.end(), value, 0)
            return
        match = _MANTISSA.match(self.text, digits_at, self.end)
        assert match
        end = match.end()
        self.cap(at, end)
        value, decimals = sign * Fraction(match.group()), len(match.group().partition(".")[2])
        if power := _POWER_OF_TEN.match(self.text, end, self.end):
            raw = next(g for g in power.groups() if g).translate(_SUPER)
            if power.group(2):
                if match.group() != "10":
                    raise trouble(
                        self.page.span(at, power.end()), "a raised number after a number that is not 10", "",
                        "write the power with ^, or the number with e, such as 2e-3",
                    )  # fmt: skip
                exponent = self.exponent(at, raw, power.end())
                self.finish(at, power.end(), sign * Fraction(10) ** exponent, -exponent)
                return
            exponent = self.exponent(at, raw, power.end())
            value, decimals, end = value * Fraction(10) ** exponent, decimals - exponent, power.end()
        self.finish(at, end, value, decimals)

    def exponent(self, at: int, raw: str, end: int) -> int:
        digits = raw.lstrip("+-")
        if not digits.isdecimal() or len(digits) > 3 or int(digits) > MOST_EXPONENT:
            raise trouble(
                self.page.span(at, end), "a power of ten out of reach",
                f"Powers of ten go from -{MOST_EXPONENT} to {MOST_EXPONENT}.", "",
            )  # fmt: skip
        return int(raw)

    def cap(self, at: int, end: int) -> None:
        if end - at > MOST_DIGITS:
            raise trouble(
                self.page.span(at, end), f"a number of {end - at} digits",
                f"A number has at most {MOST_DIGITS} digits.", "",
            )  # fmt: skip

    def refuse_doubtful(self, at: int) -> None:
        text = self.text
        if text[at] == ".":
            match = _POINT_FIRST.match(text, at, self.end)
            assert match
            raise trouble(
                self.page.span(at, match.end()), "a number that begins with its point",
                f"'{match.group()[:20]}' is easily misread.", f"write 0{match.group()[:20]}",
            )  # fmt: skip
        grouped = self.in_groups(at)
        for pattern, message, cause, help in _DOUBTFUL:
            if (match := pattern.match(text, at, self.end)) and not grouped:
                shown = match.group()[:30]
                plain, point = shown.replace(",", ""), shown.replace(",", ".", 1)
                words = (shown, plain, point, shown.replace(" ", ""))
                raise trouble(
                    self.page.span(at, match.end()), message, cause.format(*words), help.format(*words)
                )
        self.refuse_between(text, at)

    def refuse_between(self, text: str, at: int) -> None:
        digits = _MANTISSA.match(text, at, self.end)
        assert digits
        end = digits.end()
        if text[end : end + 1] == "." and not text[end : end + 2].endswith("..") and not self.words:
            raise trouble(
                self.page.span(at, end + 1), "a number that ends with its point",
                f"'{digits.group()[:20]}.' does not say how many places are meant.",
                f"write {digits.group()[:20]} or {digits.group()[:20]}.0",
            )  # fmt: skip
        if self.words:
            return
        if match := _DASH.match(text, at, self.end):
            low, high = match.group().split("-")
            raise trouble(
                self.page.span(at, match.end()), "a dash between two numbers",
                f"'{match.group()[:40]}' may be a range, a difference, or a power that was copied flat.",
                f"write {low} <= x <= {high} for the range, {low} - {high} for the difference",
            )  # fmt: skip
        if match := _PLUS_MINUS.match(text, at, self.end):
            raise trouble(
                self.page.span(at, match.end()), "a plus-or-minus sign among symbols",
                f"'{match.group()[:40]}' has two ends.", "write both ends, such as 19 <= x <= 21",
            )  # fmt: skip

    def finish(self, at: int, end: int, value: Fraction, decimals: int) -> None:
        unit, unit_end = self.unit(end)
        digits = self.text[at:end].strip()
        if sign := _SIGN_APART.match(digits):
            digits = ("" if digits[0] == "+" else "-") + digits[sign.end() :]
        digits = digits.replace(" ", "") if _IN_GROUPS.fullmatch(digits.removeprefix("-")) else digits
        self.add("number", self.text[at:unit_end], unit_end, Number(digits, value, decimals, unit))

    def unit(self, at: int) -> tuple[Unit | None, int]:
        """The longest unit that follows a number, and where it ends."""
        begin = at + (self.text[at : at + 1] in (" ", "\t"))
        glued = begin == at
        for end in self.unit_ends(begin):
            piece = " ".join(self.text[begin:end].split())
            if piece.endswith((" wt.", " vol.", " sq.")):
                piece = piece[:-1]
            if find := find_unit(piece, self.own):
                return self.of_whole(find, end)
        self.refuse_unknown_unit(begin, glued)
        return None, at

    def unit_ends(self, begin: int) -> Iterator[int]:
        """Where a unit that begins here might end, longest first."""
        chunk = _CHUNK.match(self.text, begin, self.end)
        if not chunk or chunk.group().split("(")[0] in _NO_UNIT | CAPITALS:
            return
        if more := _MORE_WORDS.match(self.text, chunk.end(), self.end):
            words = [m.end() for m in _MORE_WORD.finditer(self.text[chunk.end() : more.end()])]
            yield from (chunk.end() + end for end in reversed(words))
        for end in range(chunk.end(), begin, -1):
            piece, after = self.text[begin:end], self.text[end : end + 1]
            if piece.count("(") == piece.count(")") and not (piece[-1].isalnum() and after.isalnum()):
                yield end

    def of_whole(self, unit: Unit, end: int) -> tuple[Unit, int]:
        """`5 wt% of wax` among symbols is a share of wax."""
        if self.words or unit.kind.dimension:
            return unit, end
        match = _OF_WHOLE.match(self.text, end, self.end)
        if not match:
            return unit, end
        whole = re.split(r"\s+(?:[A-Z]{2,}\b|-)", match.group(1))[0]
        return Unit(unit.symbol, unit.kind.of(whole), unit.factor, unit.offset), match.start(1) + len(whole)

    def refuse_unknown_unit(self, begin: int, glued: bool) -> None:
        match = _WORD.match(self.text, begin, self.end)
        if not match or (self.words and not glued):
            return
        word = match.group()
        if word in CAPITALS or (word in _NO_UNIT and not glued):
            return
        if self.words and (word.lower() in self.page.names or word == "C"):
            return  # '2D', of a diameter D; '40C', of a temperature
        if self.words and word == "x" and not self.text[match.end() : match.end() + 2].strip()[:1].isdigit():
            return  # 'a zoom ratio of 3x'
        if word.lower() in CALENDAR:
            raise no_fixed_length(self.page.span(self.at, match.end()))
        why = self.series(word, match.end()) or explain_unit(word, self.own) or ""
        near = () if why else nearest_units(word, self.own)
        raise trouble(
            self.page.span(begin, match.end()), f"'{word}' is no known unit",
            "A word directly after a number is its unit.",
            f"did you mean {' or '.join(near)}?" if near else why or self.times(word),
        )  # fmt: skip

    def series(self, letter: str, end: int) -> str:
        """What to write for `4n + 2, where n is an integer`; '' for a letter that nothing calls a number."""
        behind = self.text[end : self.end]
        if len(letter) != 1 or not re.search(rf"\b{letter} (?:is|being|denotes|represents)\b", behind):
            return ""
        step = self.text[self.at : end].strip().removesuffix(letter).strip()
        more = re.match(r"\s*([-+])\s*(\d+)\b", behind)
        away = f"(x {'-' if more[1] == '+' else '+'} {more[2]})" if more else "x"
        return (
            f"where x is the name of what is counted, write behind the words: two blanks, exactly"
            f" {away} / {step} IS WHOLE, and what {letter} may be as a limit of x"
        )

    def times(self, word: str) -> str:
        number = self.text[self.at : self.text.find(word, self.at)].strip()
        return "" if self.words else f"if it is a declared name, write {number} * {word}"


_WITHOUT_BLANKS = regex(r"[^\s|]+")
_ORDINAL = regex(r"\d+(?:st|nd|rd|th)\b")
_DIGITS_AND_LETTERS = regex(r"\d+([a-z]+)\b")
_GLUED = regex(r"\d+(?:\.\d+)?([^\W\d_]+)")
_CHUNK = regex(r"[^\s,;:{}\[\]<>=\"|≤≥≠±+]+")
_OF_WHOLE = regex(r" +of +([^\W\d_][\w' -]*[\w'])")
_MORE_WORD = regex(
    r" (?:\([a-z/. ]+\)|(?:wt|vol|sq|cu)\.(?= )|\d+\.\d+|[a-zA-Z]+\)|[%\w]+(?:/\w+)*(?:[.-]{1,2}%)?)"
)
_MORE_WORDS = regex(rf"(?:{_MORE_WORD.pattern}){{1,5}}")
_CLOSING = {"(": ")", "{": "}", "[": "]"}
_OPENING = {")": "(", "}": "{", "]": "["}


CALENDAR = frozenset("month months year years".split())


def no_fixed_length(span: Span, in_words: bool = False) -> Trouble:
    """The error for a period of the calendar beside quantities that have one length."""
    what, read = "so it is no quantity here", ""
    if in_words:
        what = "and no phrase reads it in these words"
        read = "of a measured time, read are 'about 6 months', 'at least 6 months', '6 to 9 months'; or "
    return trouble(
        span, f"'{span.text}' has no fixed length, {what}",
        "A month has 28 to 31 days and a year 365 or 366; none can be added to days or compared with days.",
        f"{read}write it in days, such as 30 day; beside words of a claim: two blanks, exactly, facts in"
        " days; or declare a number of them: age  number \"in years\"",
    )  # fmt: skip


def is_plain_name(name: str) -> bool:
    """Whether a name is words that the scanner knows as such, unlike `PEG 1000` or `1,3-butadiene`."""
    return all(_WORD.fullmatch(piece) for piece in name.split())


def spelled_places(page: Page, start: int, end: int) -> tuple[tuple[int, int], ...]:
    """Where a stretch of text has declared names that are no plain words; their digits count nothing."""
    if not page.spelled:
        return ()
    return tuple(m.span() for m in _spelled(page.spelled).finditer(page.plain, start, end))


@lru_cache(maxsize=8)
def _spelled(names: tuple[str, ...]) -> re.Pattern[str]:
    apart = r"(?:\s+|\s*\n\s*\|\s*)"
    each = (apart.join(map(re.escape, name.split())) for name in names)
    return re.compile(rf"(?:{'|'.join(each)})(?!\w|-\w|[.,]\d)", re.IGNORECASE)


def _named(c: str) -> str:
    return f"'{c}'" if c.isprintable() else f"the invisible character U+{ord(c):04X}"


def scan(page: Page, start: int, end: int, own: Own, words: bool = False) -> tuple[Token, ...]:
    """The tokens between two offsets. Raises Trouble at the first spelling that cannot be read."""
    return _Scanner(page, start, end, own, words).run()
