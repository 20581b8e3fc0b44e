"""What the letters of a claim's items stand for in its own words: `the weight ratio of (a) to (b)`.

The text tells it once, `(a) 25 to 45 wt% of a cement` or `a resin (A)`; a phrase then reads the name.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Restatement, Words
from scopecheck.matching.chart import FILLERS
from scopecheck.vocabulary.names import Names

MOST_WORDS = 16
"""So far behind an item's letter stands what the item is; half as far before a letter that follows a noun."""
_PIECE = regex(r"[^\W_]+(?:['-][^\W_]+)*|[^\w\s]")
_LETTER = regex(r"[A-Za-z]\d?|[ivx]{2,4}")
_BARE = regex(r"[A-Z]\d?")
_OPENING, _CLOSING = ("(", "["), (")", "]")
_BESIDE = ("/", ":")


@record
class _Mark:
    """A letter among tokens: where it begins, with the word 'component' before it or without, and ends."""

    letter: str
    start: int
    own: int
    end: int

    @property
    def bracketed(self) -> bool:
        return self.end - self.own > 1


def with_items_named(names: Names, text: str, line: Restatement) -> tuple[Restatement, Diagnostic | None]:
    """The line with names for the letters of items in its words, and a warning where a name is told in part.

    `text`: what the claims say up to there. As it is where a letter is declared itself, or where nothing in
    the text tells for which of the things it stands.
    """
    words = line.words
    if words is None or line.exact is not None or any(t.sort == "sign" for t in words.tokens):
        return line, None
    left = [" ".join(node.span.text.split()) for node in line.subject]
    own = [t.text for t in words.tokens]
    marks = [m for m in _marks(own) if not _is_declared(names, m.letter)]
    if not marks or not left:
        return line, None
    said = _PIECE.findall(text)
    meant: dict[str, tuple[str, bool]] = {}
    for letter in dict.fromkeys(m.letter for m in marks):
        found = _meant(names, said, letter, left)
        if found is None:
            return line, None
        meant[letter] = found
    if len({name for name, _ in meant.values()}) < len(meant):
        return line, None
    spelled = {letter: name for letter, (name, _) in meant.items()}
    if _begins_item(own, marks[0], spelled[marks[0].letter]):
        spelled[marks[0].letter] = ""
    tokens = _named(words.tokens, marks, spelled)
    told = _told(words, meant) if not all(whole for _, whole in meant.values()) else None
    return replace(line, words=replace(words, tokens=tokens)), told


def _is_declared(names: Names, letter: str) -> bool:
    """Is the letter a name, a word of one, `resin B`, or what a note calls a thing by?"""
    of_a_name = any(letter in name.split() for name in names.declarations)
    of_a_name = of_a_name or names.step(f"step ({letter})") is not None
    return of_a_name or names.declared(letter) is not None or names.noted_letter(letter)


def _begins_item(said: Sequence[str], mark: _Mark, name: str) -> bool:
    """`(c) 40 to 65 wt% of a sand`: the letter says nothing of which the words do not speak themselves."""
    rest, named = said[mark.end :], name.lower().split()
    return mark.start == 0 and any(
        _alike([w.lower() for w in rest[i : i + len(named)]], named)
        for i in range(len(rest) - len(named) + 1)
    )


def _marks(said: Sequence[str]) -> list[_Mark]:
    """The letters of items among words: in brackets, or a capital behind 'component', or one by itself."""
    found: list[_Mark] = []
    at = 0
    while at < len(said):
        bracketed = (
            said[at] in _OPENING and at + 2 < len(said) and said[at + 2] in _CLOSING
        ) and _LETTER.fullmatch(said[at + 1])
        bare = _BARE.fullmatch(said[at]) and not (at and said[at - 1][:1].isdigit())
        start = at - (at > 0 and said[at - 1].lower() in listed("items", "nouns"))
        if bracketed:
            found.append(_Mark(said[at + 1], start, at, at + 3))
        elif bare:
            found.append(_Mark(said[at], start, at, at + 1))
        at = found[-1].end if bracketed or bare else at + 1
    return found


def _meant(names: Names, said: Sequence[str], letter: str, left: Sequence[str]) -> tuple[str, bool] | None:
    """The name of what the letter stands for, and whether the text has all of it; None if it is not told."""
    places = [m for m in _marks(said) if m.letter == letter]
    for candidates in (left, [d for d in names.declarations if d not in left]):
        for mark in places:
            for window, last in _around(said, mark):
                found = _first_named(names, window, candidates, last)
                if found is not None:
                    return found
    return None


def _around(said: Sequence[str], mark: _Mark) -> Iterator[tuple[list[str], bool]]:
    """The words that may tell what a letter stands for; whether the last of them count: before a letter."""
    before: list[str] = []
    for word in reversed(said[max(0, mark.own - MOST_WORDS // 2) : mark.own]):
        if not word[0].isalnum() or word.lower() in _GLUE or _BARE.fullmatch(word):
            break
        before.insert(0, word.lower())
    after: list[str] = []
    for word in said[mark.end : mark.end + MOST_WORDS]:
        if word == ";" or word in _OPENING:
            break
        after.append(word.lower())
    if before:
        yield before, True
    if mark.bracketed or mark.start < mark.own:
        yield after, False


_GLUE = frozenset(
    ("and", "or", "to", "than", "between", "per", "by", "from", "plus", "minus", "versus", "for")
)


def _first_named(
    names: Names, window: Sequence[str], candidates: Sequence[str], last: bool
) -> tuple[str, bool] | None:
    """Of the candidates that which the words name first, or last; of two at one place the longer name."""
    found: list[tuple[int, int, str, bool]] = []
    for name in candidates:
        for said, whole in _called(names, name):
            width = len(said)
            at = [i for i in range(len(window) - width + 1) if _alike(window[i : i + width], said)]
            if at:
                found.append((at[0] if not last else -at[-1] - width, -width, name, whole))
    if not found:
        return None
    best = min(found)
    rivals = {name for place, width, name, _ in found if (place, width) == best[:2]}
    return (best[2], best[3]) if len(rivals) == 1 else None


def _called(names: Names, name: str) -> Iterator[tuple[list[str], bool]]:
    """What a thing may be called in the text: its name, its note, the last word of its name."""
    own = [w for w in name.lower().split() if w not in FILLERS]
    noted = [w.lower() for w in _PIECE.findall(names.note_of(name)) if w.lower() not in FILLERS]
    yield own, True
    if noted:
        yield noted, True
    if len(own) > 1 and own[-1] not in listed("measures", "nouns"):
        yield own[-1:], False
    if len(own) > 1 and own[-1] in listed("measures", "nouns"):
        yield own[:-1], True


def _alike(said: Sequence[str], name: Sequence[str]) -> bool:
    return all(a.removesuffix("s") == b.removesuffix("s") for a, b in zip(said, name, strict=True))


def _named(tokens: Sequence[Token], marks: Sequence[_Mark], meant: dict[str, str]) -> tuple[Token, ...]:
    """The tokens with names instead of letters; a stroke or a colon between two of them as a ratio."""
    found: list[Token] = []
    at = 0
    for i, mark in enumerate(marks):
        found += tokens[at : mark.start]
        after = marks[i + 1] if i + 1 < len(marks) else None
        beside = tokens[mark.end].text if mark.end < len(tokens) else ""
        of_ratio = after is not None and after.start == mark.end + 1 and beside in _BESIDE
        if of_ratio:
            behind = [t.text.lower() for t in tokens[after.end if after else 0 :]][:2]
            if "ratio" not in behind:
                lead = [] if found and found[-1].text.lower() == "ratio" else ["ratio"]
                found += [_word(tokens[mark.start], w, tokens[mark.start].start) for w in (*lead, "of")]
        said = meant[mark.letter].split()
        first, end = tokens[mark.start], tokens[mark.end - 1].end
        before = tokens[mark.start - 1].text.lower() if mark.start > at else ""
        if said and before != said[-1].lower():  # 'the epoxy resin (A)' names it already
            found += [_word(first, w, first.start) for w in said[:-1]] + [_word(first, said[-1], end)]
        at = mark.end
        if of_ratio:
            found.append(_word(tokens[at], "to", tokens[at].end))
            at += 1
    return (*found, *tokens[at:])


def _word(like: Token, text: str, end: int) -> Token:
    return replace(like, sort="word", text=text, end=end)


def _told(words: Words, meant: dict[str, tuple[str, bool]]) -> Diagnostic:
    read = ", ".join(f"{letter} as {name}" for letter, (name, _) in meant.items())
    return Diagnostic(
        "warning", words.span, f"'{words.text}' is read with {read}",
        "The letters are the claim's; the text has part of a name beside them.",
        "if that is not so, write the meaning behind the words: two blanks, exactly ...",
    )  # fmt: skip
