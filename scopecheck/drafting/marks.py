"""Marks for the words of a claim that no line takes up: nothing of the text is dropped without a word."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.core.model import UnrestatedSort
from scopecheck.drafting.abbreviated import words_without_points
from scopecheck.drafting.beside import label_end, noun_from, noun_start, nounish, per_width, width_of
from scopecheck.drafting.draft import Proposed
from scopecheck.drafting.lists_of import listed_from
from scopecheck.drafting.only_together import definitions
from scopecheck.drafting.unnumbered import said_without_numbers
from scopecheck.drafting.work import Work
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at, runs, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Own
from scopecheck.resolve.account import ORDER_WORDS, digits_width, open_places, unit_width
from scopecheck.resolve.claim_text import IN_THOUSANDS, ClaimText

_EXAMPLES = ("clauses", "examples")
_JOINING = frozenset(("and", "or", "ratio"))
_BARE = frozenset(
    "each every several a an the mean average maximum minimum between together substantially nearly".split()
)
_BEFORE_NOUNS = frozenset(("of", "with", "a", "an", "the", "said"))
_PARTING = frozenset(",;:.()[]")
MOST_OF_AMOUNT = 5
"""How many words before the end of an amount its number may stand."""
MOST_NOUNS = 3
"""How many words of a noun are marked with a bare 'or' beside it."""
MOST_TOLD = 5
"""How many words of time and of what they speak are marked together."""
MOST_LISTED = 12
"""How many words of a list of choices are marked with its opening."""
_OPENERS = frozenset("wherein whereby where which and or".split())
_BESIDE = frozenset(("above", "below", "beneath", "over", "under"))


def words_at(text: ClaimText, start: int, end: int) -> str:
    """The claim's own words from one token up to another, on one line."""
    first, last = text.tokens[start], text.tokens[end - 1]
    return without_commas_in_numbers(" ".join(text.source.text[first.start : last.end].split()))


def without_commas_in_numbers(words: str) -> str:
    """`about 1,150 °C` as a line has it, where a number has no commas: 'about 1150 °C'."""
    return THOUSANDS.sub(lambda number: number[0].replace(",", ""), words)


THOUSANDS = regex(rf"(?<![\d.,]){IN_THOUSANDS.pattern}(?!\d)")


def marks(work: Work, own: Own, timed: bool = True) -> None:
    """Marks for everything the account would list: nothing of the text is dropped without a word.

    `timed`: for words of time too, with what they speak of ('after the pouring').
    """
    for start, end in _of_time(work) if timed else ():
        _mark(work, start, end)
    for start, end in fractions(work.text):
        _mark(work, start, end)
    for start, end in _excluded(work.text):
        _mark(work, start, end)
    for start, end in _placed(work):
        _mark(work, start, end)
    for start, end in (*_otherwise(work.text), *definitions(work.text), *said_without_numbers(work.text)):
        _mark(work, start, end)
    for start, end in (*_lists(work.text), *_rests(work)):
        _mark(work, start, end)
    for start, end in _left_over(work, own):
        _mark(work, start, end)


def mark_all(work: Work, start: int, end: int) -> None:
    """A mark for words that are kept whole: without what of them is taken already at either end."""
    while start < end and (start in work.text.taken or work.text.texts[start] == ","):
        start += 1
    start = _whole_noun(work.text, start)
    while end > start and end - 1 in work.text.taken:
        end -= 1
    if work.text.texts[end - 1 : end + 1] in (
        ["of", "the"],
        ["of", "said"],
    ):  # 'lower than that of the first'
        noun = width_of(noun_from(work.text, end + 1))
        end += (1 + noun) if noun and work.text.taken.isdisjoint(range(end, end + 1 + noun)) else 0
    if start < end:
        _mark(work, start, end)


def _whole_noun(text: ClaimText, start: int) -> int:
    """Where the noun begins in whose midst a mark would: 'sleep state when', no 'state when'."""
    stops, begin = listed("nouns", "stops"), start
    verb = text.texts[start].endswith(("s", "ed", "ing"))  # 'exceeds 40 W for'
    if verb or text.texts[start + 1 : start + 2] not in _BEHIND_NOUNS:
        return start
    while begin > 1 and start - begin < MOST_NOUNS and begin - 1 not in text.taken | text.referring:
        if not (nounish(text.texts[begin], stops) and nounish(text.texts[begin - 1], stops)):
            break
        begin -= 1
    return begin if text.texts[begin - 1] in listed("nouns", "determiners") else start


_BEHIND_NOUNS = (["when"], ["if"], ["while"], ["unless"], ["until"], ["between"])


def _mark(work: Work, start: int, end: int) -> None:
    """A mark for these words, with as many beside them as tell where they stand."""
    text = work.text
    start, end = _uncut(text, start, end)
    for more, before in sorted({(n, m) for n in range(8) for m in (0, n)}):
        first, last = _uncut(text, max(0, start - before), min(len(text.tokens), end + more))
        if before < more and text.texts[last - 1] in _PARTING:
            continue
        if marked(text, words := words_at(text, first, last), range(start, end)):
            work.claim.lines.append(Proposed(words))
            break


def _uncut(text: ClaimText, start: int, end: int) -> tuple[int, int]:
    """A stretch that begins and ends with whole words and whole amounts: no 'C and to' of '35 °C and to'."""
    tokens, texts = text.tokens, text.texts
    for at in range(max(0, start - MOST_OF_AMOUNT), start):
        if texts[at][0].isdecimal() and at + (d := digits_width(tokens, at)) <= start:
            start = at if at + d + unit_width(text, at + d - 1, {}) > start else start
    while end < len(tokens) - 1 and (texts[end - 1] in (",", "(") or _glued(text, end)):
        end += 1
    if texts[end - 1][0].isdecimal() and texts[start] not in ("(", "["):
        end += unit_width(text, end - 1, {})
    while start > 0 and _glued(text, start):
        start -= 1
    start -= texts[start - 1 : start + 2] == ["one", "or", "more"] and start - 1 not in text.taken
    return start, end


def _glued(text: ClaimText, at: int) -> bool:
    """Whether a token goes on where the one before it ends, with no sign between that parts them."""
    before, after = text.tokens[at - 1], text.tokens[at]
    return before.end == after.start and before.text not in _PARTING and after.text not in _PARTING


def _of_time(work: Work) -> list[tuple[int, int]]:
    """Where a claim says before or after what something is done, and no line takes it up."""
    text = work.text
    texts = text.texts
    found: list[tuple[int, int]] = []
    for at in sorted(at for word in ORDER_WORDS.intersection(text.where) for at in text.where[word]):
        if at in text.taken or at in text.referring or (found and at < found[-1][1]):
            continue
        end = at + 1
        while end < len(texts) and end - at < MOST_TOLD and _goes_on(texts[end]) and end not in text.taken:
            end += 1
        found.append((at, max(end, label_end(texts, end - 1))))
    return found


def _excluded(text: ClaimText) -> list[tuple[int, int]]:
    """Where a claim says what is not there, 'other than steel wire', and no line takes it up."""
    found: list[tuple[int, int]] = []
    for at in sorted(at for word in runs("limits", "excluding") for at in text.where.get(word, ())):
        end = at + run_at(text.texts, at, "limits", "excluding")
        if end == at or not text.taken.isdisjoint(range(at, end)):
            continue
        end += text.texts[end : end + 1] in (["a"], ["an"], ["the"], ["any"], ["said"])
        found.append((at, end + width_of(noun_from(text, end))))
    for at in sorted(at for word in runs("limits", "equalling") for at in text.where.get(word, ())):
        width = run_at(text.texts, at, "limits", "equalling")
        if width and text.taken.isdisjoint(range(at, at + width)):
            start = at - (at > 0 and text.texts[at - 1] == "half" and at - 1 not in text.taken)
            found.append((start, with_of(text, at + width - 1, (text.texts[at + width - 1], "of"))))
    for at in text.where.get("no", ()):
        noun = "" if at in text.taken or at in text.referring else noun_from(text, at + 1)
        if noun and noun.split()[0] not in listed("limits", "inside"):
            found.append((at, at + 1 + width_of(noun)))
    return found


def _placed(work: Work) -> list[tuple[int, int]]:
    """Where a claim says at what place or under what a limit holds, 'is 4 m at its widest point'."""
    text, texts, found = work.text, work.text.texts, list[tuple[int, int]]()
    for stretch, _ in work.limits:
        if (said_aside := _aside_of(texts, stretch.starts[0]))[1] and text.taken.isdisjoint(
            range(*said_aside)
        ):
            found.append(said_aside)
        at = stretch.end
        before = texts[max(0, stretch.starts[0] - 3) : stretch.starts[0] + 1]
        said = not _SAID_SO.isdisjoint(before) or texts[at : at + 1] == ["while"]
        if (bracket := _in_brackets(text, at)) and text.taken.isdisjoint(range(at, bracket)):
            found.append((at, bracket))
        aside = at + (texts[at : at + 1] == [","])
        measured = not _MEASURED.isdisjoint(texts[aside : aside + 2])
        taken = stretch.starts[-1] in text.taken and at not in text.taken
        said = said or not listed("limits", "states_of").isdisjoint(texts[at + 1 : at + 6])
        if not taken or not (measured or (said and texts[at : at + 1] and texts[at] in _PLACES)):
            continue
        at = aside
        end = at + 1
        while end < len(texts) and texts[end] not in _PARTING | _OPENERS and end not in text.taken:
            end += 1
        inside = texts[at + 1 : end]
        dimension = texts[at] == "in" and inside[:1] and inside[0] in listed("measures", "nouns")
        if inside and not dimension and not any(t[0].isdecimal() for t in inside):
            found.append((at, end))
    return found


def _in_brackets(text: ClaimText, at: int) -> int:
    """Where '(based on dry weight)' ends behind a limit; 0 for signs of the drawings and numbers."""
    texts = text.texts
    close = next((i for i in range(at, min(at + 12, len(texts))) if texts[i] == ")"), 0)
    inside = texts[at + 1 : close] if texts[at : at + 1] == ["("] else []
    said = len(inside) > 1 and all(word[0].isalpha() for word in inside) and any(len(w) > 3 for w in inside)
    return close + 1 if said else 0


def _aside_of(texts: list[str], at: int) -> tuple[int, int]:
    """The tokens of 'in the open state' of 'a stroke, in the open state, is', but for a number in it."""
    while at > 1 and texts[at - 1] in ("is", "are", "being", "of"):
        at -= 1
    begin = next((i for i in range(at - 2, max(0, at - 16), -1) if texts[i] in _PARTING), 0)
    aside = texts[at - 1] == "," and texts[begin] == "," and texts[begin + 1] in _PLACES | _MEASURED
    if not aside or any(t[0].isdecimal() for t in texts[begin:at]):
        return 0, 0
    return begin + 1, at - 1


_SAID_SO = frozenset("is are being be was exceeds exceed remains stays lies".split())
_MEASURED = frozenset("measured determined tested calculated".split())
_PLACES = frozenset(
    "while at in on along across throughout over under during without inside outside near beneath".split()
)


def _rests(work: Work) -> list[tuple[int, int]]:
    """Where a claim with shares says what the rest is, 'and the balance being MgO', and no line does."""
    text, texts, found = work.text, work.text.texts, list[tuple[int, int]]()
    shares = any(s.unit is not None and not s.unit.kind.dimension for s, _ in work.limits)
    places = (at for word in listed("mention", "remainders") for at in text.where.get(word, ()))
    for at in sorted(places) if shares else ():
        if at in text.taken or texts[at + 1 : at + 2] == ["of"]:
            continue
        end = at + 1 + (texts[at + 1 : at + 2] in (["being"], ["is"]))
        noun = end + (texts[end : end + 1] in (["a"], ["an"], ["the"]))
        width = width_of(noun_from(text, noun))
        start = at - (texts[at - 1] == "the")
        start -= texts[start - 1] in ("with", "and")
        if texts[start - 2 : start] in (["making", "up"], ["makes", "up"], ["make", "up"]):
            start = noun_start(texts, start - 2)
        elif texts[start - 1] in ("forming", "as", "forms"):
            start = noun_start(texts, start - 1)
        found.append((start, noun + width if width else at + 1))
    return found


def _lists(text: ClaimText) -> list[tuple[int, int]]:
    """Where a list stands that no line takes up: 'one or more of zinc, lead and tin'."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in sorted(at for word in runs("choices", "openings") for at in text.where.get(word, ())):
        width = run_at(texts, at, "choices", "openings")
        members, end = listed_from(text, at + width) if width else ((), at)
        over = found and at < found[-1][1]
        if len(members) > 1 and not over and text.taken.isdisjoint(range(at, end)):
            found.append((at, end))
    for at in text.where.get("of", ()):
        so_many = NUMBER_WORDS.get(texts[at - 1], 0) > 1 and texts[at - 3 : at - 1] in (
            ["at", "least"],
            ["at", "most"],
        )
        members, end = listed_from(text, at + 1) if so_many else ((), at)
        if len(members) > 1 and text.taken.isdisjoint(range(at - 3, end)):
            found.append((at - 3, end))
    return found


def _otherwise(text: ClaimText) -> list[tuple[int, int]]:
    """Where a claim says what holds 'otherwise', and no line takes it up."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in text.where.get("otherwise", ()):
        if at in text.taken or texts[at - 1 : at] in (["or"], ["unless"], ["than"]):
            continue
        near = range(at - 1, max(0, at - MOST_TOLD), -1)
        far = next((i for i in range(at + 1, len(texts)) if _over(text, i)), len(texts))
        numbers = any(texts[i][0].isdecimal() for i in range(at + 1, far))
        begin = next((i for i in near if texts[i] in ("and", ",", ";", "but")), at)
        found.append((begin, far if numbers or far - at < MOST_TOLD else at + 1))
    return found


def _over(text: ClaimText, at: int) -> bool:
    return at in text.taken or text.texts[at] in (",", ";", ".")


def fractions(text: ClaimText) -> list[tuple[int, int]]:
    """Where a claim says 'a third of the height', and no line takes it up."""
    texts, found = text.texts, list[tuple[int, int]]()
    parts = word_lists()["fractions"]
    for at in sorted(at for word in parts for at in text.where.get(word, ())):
        counted = at > 0 and (texts[at - 1] in ("a", "one") or texts[at - 1] in NUMBER_WORDS)
        of = texts[at + 1 : at + 2] == ["of"]
        alone = counted and texts[at - 1] != "a" and texts[at + 1 : at + 2] in _BEHIND_FRACTIONS
        if at in text.taken or not (of or alone) or not (counted or texts[at] == "half"):
            continue
        start = at - counted
        if start > 2 and texts[start - 1] in ("and", "to", "or") and texts[start - 2] in parts:
            start -= 2 + (texts[start - 3] in ("a", "one") or texts[start - 3] in NUMBER_WORDS)
        while start > 0 and (texts[start - 1] in listed("limits", "inside")) and start - 1 not in text.taken:
            start -= 1
        start += texts[start] == "to"
        found.append((start, with_of(text, at)))
    return found


_BEHIND_FRACTIONS = ([","], [";"], ["."], ["full"], ["in"], ["by"])


def with_of(text: ClaimText, at: int, joints: Sequence[str] = ("of",)) -> int:
    """Where nouns end that follow with an 'of': 'of the height of the cup'."""
    texts, end = text.texts, at + (joints == ("of",))
    while end < len(texts) and texts[end] in joints:
        noun = end + 1 + (texts[end + 1 : end + 2] in (["the"], ["said"], ["a"], ["an"], ["each"], ["its"]))
        if not (width := width_of(noun_from(text, noun))):
            break
        end = noun + width
    return end


def _goes_on(word: str) -> bool:
    """Whether a word may belong to what a word of time speaks of."""
    stops = listed("nouns", "stops") - listed("nouns", "determiners") - {"of", "by", "to"}
    return word[0].isalpha() and (word not in stops or word in ORDER_WORDS)


def marked(text: ClaimText, words: str, tokens: range) -> bool:
    """Takes the words as a mark does, if that takes up these tokens."""
    before = set(text.taken)
    try:
        text.take(words_without_points(words), Span(text.source, 0, 0), 0, mark=True)
    except Trouble:
        text.taken = before
        return False
    if text.taken.issuperset(tokens):
        return True
    text.taken = before
    return False


def _left_over(work: Work, own: Own) -> list[tuple[int, int]]:
    """Stretches of tokens that no line takes up; what stands close together is one stretch."""
    found: list[tuple[int, int]] = []
    for start, end, sort in open_places(work.text, work.numbers, work.places, own):
        end = _with_what_follows(work.text, start, end, sort)
        if found and start < found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        elif found and _close(work.text, found[-1][1], start):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return [_with_preference(work, *_with_nouns(work.text, start, end)) for start, end in found]


def _with_what_follows(text: ClaimText, start: int, end: int, sort: UnrestatedSort) -> int:
    """`when the lid is shut`, `shorter than the lid`, `selected from a and b`: with what they speak of."""
    texts = text.texts
    if texts[end - 2 : end + 1] == ["at", "least", "one"] and end not in text.taken:
        behind = end + 1 + (texts[end + 1 : end + 2] == ["of"])
        behind += behind < len(texts) and texts[behind] in listed("nouns", "determiners")
        return behind + width_of(noun_from(text, behind)) if behind < len(texts) else end + 1
    if texts[end - 1] == "than" or (end == start + 1 and texts[start] in _BESIDE and sort == "end word"):
        noun = end + (texts[end : end + 1] != [] and texts[end] in listed("nouns", "determiners"))
        width = 0 if noun in text.taken or end in text.taken else width_of(noun_from(text, noun))
        return noun + width if width else end
    most = {"condition word": MOST_TOLD, "limiting word": MOST_LISTED * (texts[end - 1] == "from")}.get(
        sort, 0
    )
    parting = _PARTING - {","} if texts[end - 1] == "from" else _PARTING
    far = end
    while far < len(texts) and far - end < most and far not in text.taken | text.referring:
        if texts[far] in parting or (texts[far] in _OPENERS and sort == "condition word"):
            break
        far += 1
    while far > end and (texts[far - 1] == "," or texts[far - 1] in listed("nouns", "stops")):
        far -= 1
    return far


def _with_nouns(text: ClaimText, start: int, end: int) -> tuple[int, int]:
    """A bare 'or', 'each' or 'mean' with the nouns beside it: 'a lamp or an array', up to what is taken."""
    texts, kept = text.texts, text.taken | text.referring
    stops = listed("nouns", "stops")

    def noun(at: int) -> bool:
        return nounish(texts[at], stops) and at not in kept

    begin, far = start, end
    while texts[start] in _JOINING and begin > 0 and start - begin < MOST_NOUNS and noun(begin - 1):
        begin -= 1
    if texts[end - 1] in _JOINING | _BARE:
        while far < len(texts) and texts[far] in _BEFORE_NOUNS and far not in kept:
            far += 1
        last = far
        while far < len(texts) and far - last < MOST_NOUNS and noun(far):
            far += 1
        far = far if far > last else end
    if texts[end : end + 1] == ["per"] and end not in kept and per_width(texts, end) < 3:
        return begin, end + 1 + max(1, width_of(noun_from(text, end + 1)))  # '0.05 mL per cycle'
    if texts[end - 1][0].isdecimal() and end < len(texts) and noun(end):
        return begin, end + 1 + per_width(texts, end + 1)  # '40 strokes per minute'
    its = end + (texts[end : end + 1] == ["times"])
    if its > end or texts[end - 1] == "times":
        its += texts[its : its + 1] in (["its"], ["the"], ["their"], ["that"])
        its += texts[its : its + 1] == ["own"]
        if its < len(texts) and noun(its):
            return begin, with_of(text, its + width_of(noun_from(text, its)) - 1)
    if texts[end : end + 2] == ["times", "as"] and "as" in texts[end + 2 : end + 4]:
        return begin, with_of(text, texts.index("as", end + 2), ("as", "of"))
    whole = far > end or texts[end - 1] not in ("and", "or")
    return (begin, far) if whole else (start, end)


def _with_preference(work: Work, start: int, end: int) -> tuple[int, int]:
    """With the words beside it that make it a preference."""
    texts = work.text.texts
    near = start
    while near and texts[near - 1] in (",", ".", "a", "an", "the"):  # 'e.g., 20 to 30 mm'
        near -= 1
    before = next((w for w in (3, 2, 1) if near >= w and run_at(texts, near - w, *_EXAMPLES) >= w), 0)
    return near - before if before else start, end + run_at(texts, end, "clauses", "preferred")


def _close(text: ClaimText, end: int, start: int) -> bool:
    between = range(end, start)
    return start - end <= 3 and not any(i in text.taken or text.tokens[i].text in ";:" for i in between)


def takes(text: ClaimText, words: str, start: int, end: int) -> bool:
    """Takes the words if a line with them would take a stretch that begins and ends alike."""
    return takes_at(text, words, range(start, end))


def takes_at(text: ClaimText, words: str, at: Sequence[int]) -> bool:
    """Takes the words if a line with them would take tokens alike to these."""
    before = set(text.taken)
    try:
        found = text.take(words_without_points(words), Span(text.source, 0, 0), 0)
    except Trouble:
        return False
    alike = [text.tokens[i].text for i in found] == [text.tokens[i].text for i in at]
    if alike and text.taken - before:
        return True
    text.taken = before
    return False
