"""Words right beside a limit that make another limit of it: 'rarely exceeds', '4 mm max', 'plus the rim'.

Each belongs to its limit, which is read with it or kept as a mark.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_start, nounish
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.turned import part_end
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at, runs, word_lists, words
from scopecheck.resolve.claim_text import ClaimText

MOST_LEADING = 4
"""How many words a run before a limit may have."""
_BETWEEN = frozenset(
    "of at to by in a an the be with from for set falls fall drops drop rises rise goes go sinks sink".split()
)
_REACHED = frozenset("is are be being been equals equal exceeds exceed of lies lie".split())
_OPERATORS = frozenset("+-×x*·/")


def with_words_around(text: ClaimText, found: Sequence[Stretch]) -> list[Stretch]:
    """Each limit with the words right beside it that make another of it."""
    texts, kept, over = text.texts, list[Stretch](), 0
    for stretch in found:
        if stretch.starts[0] < over:
            continue
        start = _leading(texts, stretch.starts[0], stretch.after)
        start = _if_at_all(texts, start)
        end = _trailing(text, stretch)
        over = max(end, over)
        if start < stretch.starts[0]:
            stretch = replace(stretch, start=start, starts=(start, *stretch.starts), whole=True)
        if end > max(stretch.end, stretch.farther):
            stretch = replace(stretch, end=end, farther=0, whole=True)
        kept.append(stretch)
    return kept


def _leading(texts: list[str], first: int, floor: int) -> int:
    """Where 'in the neighborhood of', 'typically', 'anything but' begins before a limit; else the limit."""
    at = first
    for _ in range(3):
        width = next(
            (n for n in range(MOST_LEADING, 0, -1) if at - n >= floor and _leads(texts, at - n, n)), 0
        )
        if width:
            return _leading(texts, at - width, floor)
        if at <= floor or texts[at - 1] not in _BETWEEN:
            break
        at -= 1
    return first


def _if_at_all(texts: list[str], first: int) -> int:
    """Where 'if present, in an amount of' begins before a limit: of what is not there it asks nothing."""
    at = first
    while at > 1 and texts[at - 1] in ("of", "amount", "an", "in"):
        at -= 1
    begin = at - 1
    while begin > max(0, at - MOST_LEADING - 1) and texts[begin] != "if":
        begin -= 1
    amount = "amount" in texts[at:first] and texts[at - 1] == ","
    return begin if amount and tuple(texts[begin : at - 1]) in _IF_AT_ALL else first


_IF_AT_ALL = (("if", "present"), ("if", "any"), ("if", "at", "all"), ("if", "present", "at", "all"))


def _leads(texts: list[str], at: int, width: int) -> bool:
    if tuple(texts[at : at + width]) in runs("limits", "leading").get(texts[at], ()):
        return True
    word = texts[at]
    known = words("limits", "no_adverbs") | words("mention", "ly_nouns") | words("limits", "inside")
    adverb = width == 1 and word.endswith("ly") and word not in known
    return adverb and run_at(texts, at, "clauses", "examples") == 0


def _trailing(text: ClaimText, stretch: Stretch) -> int:
    """Where the words end that follow a limit and belong to it: 'max', 'plus the rim'; else its own end."""
    texts, end = text.texts, max(stretch.end, stretch.farther)
    if end >= len(texts):
        return end
    width = run_at(texts, end, "limits", "trailing")
    if width and texts[end + width : end + width + 1] != ["than"]:
        end += width
        return end + (texts[end : end + 1] == ["."] and end + 1 < len(texts) and texts[end - 1] in _SHORT)
    if run_at(texts, end, "limits", "worked_on") or (texts[end] in _OPERATORS and _apart(text, end)):
        return part_end(texts, end)
    unit = stretch.unit is not None and stretch.unit.kind.dimension
    said = stretch.starts[0] > 0 and texts[stretch.starts[0] - 1] in _REACHED
    word = texts[end]
    known = word in word_lists()["adjectives"] or word.endswith(("ed", "ing", "s")) or "-" in word
    known = known or word in words("measures", "nouns") | words("limits", "sideways")
    ends = texts[end + 1 : end + 2] in ([","], [";"], ["."], ["and"], [])
    if unit and said and ends and not known and nounish(word, words("nouns", "stops")):
        return end + 1
    return end


_SHORT = frozenset(("max", "min", "nom", "typ", "approx"))


def _apart(text: ClaimText, at: int) -> bool:
    """Whether a sign stands here with a blank on both sides, or glued to numbers: no hyphen of a word."""
    before, sign = text.tokens[at - 1], text.tokens[at]
    after = text.tokens[at + 1] if at + 1 < len(text.tokens) else sign
    return before.end < sign.start and sign.end < after.start


def worked_out_of(text: ClaimText, found: Sequence[Stretch]) -> list[tuple[int, int]]:
    """Numbers in a formula of words and letters, 'at most N + 2 clients', with what stands beside them."""
    texts, spans = text.texts, list[tuple[int, int]]()
    for stretch in found:
        at = stretch.figures[0].start
        operator = texts[at - 1] in _OPERATORS | {"plus", "minus"} if at > 1 else False
        if operator and texts[at - 2][0].isalpha() and at - 1 not in text.inside:
            start = noun_start(texts, at - 1)
            begin = min(stretch.starts[0], start if start < at - 1 else at - 2)
            while begin > 0 and texts[begin - 1] in words("limits", "inside"):
                begin -= 1
            spans.append((begin, stretch.end))
    return spans
