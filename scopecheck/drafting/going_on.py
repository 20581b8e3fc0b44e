"""How far the words of a condition go on behind its limit: 'exceeds 5 bar and its speed is below 2 m/s'."""

from __future__ import annotations

from scopecheck.drafting.conditional import close_of
from scopecheck.drafting.limits import Stretch
from scopecheck.foundations.word_lists import run_at, word_lists, words
from scopecheck.resolve.claim_text import ClaimText

_OTHERWISE = frozenset(("otherwise", "else"))
_REACHED = frozenset(
    "is are has have been being reached obtained attained achieved detected measured found".split()
)


def condition_end(text: ClaimText, stretch: Stretch) -> int:
    """Where a condition ends with the words that go on with its limit: behind 'and its speed is below 2 m/s'.

    Not behind what else is done: 'and closes when', 'and is closed otherwise'.
    """
    texts = text.texts
    end = max(stretch.end, stretch.under[1], stretch.farther)
    close = max(end, min(close_of(texts, stretch.condition + 1), len(texts)))
    if _REACHED.issuperset(texts[end:close]):
        return end
    conditions = words("limits", "conditions") | _OTHERWISE
    for i in range(end, close):
        ahead = texts[i + 1 : close]
        if texts[i] in ("and", "but", ",") and ahead:
            done = ahead[0] in ("to", "then", "thereby", "otherwise") or state_of(ahead[0])
            if done or not conditions.isdisjoint(ahead) or _turns_to(texts, i + 1, close):
                return i
    return close


def _turns_to(texts: list[str], at: int, close: int) -> bool:
    """Whether a state is said to be entered here: 'is switched off', 'the lamp lights'."""
    be = texts[at] in ("is", "are")
    return be and any(state_of(word) for word in texts[at + 1 : min(at + 4, close)])


def goes_beside(texts: list[str], at: int) -> bool:
    """Whether words follow here that set a limit beside something, or say for how long it is to hold."""
    sign = texts[at] in words("limits", "going_on") if at < len(texts) else False
    return sign or run_at(texts, at, "limits", "relations") > 0


def state_of(word: str) -> str:
    """The state by which a switch is called of which a word says that it is so, or not so."""
    for text in word_lists()["switching_pairs"].values():
        first, second = (side.split() for side in text.split("/"))
        if word in (*first, *second):
            return str(first[0])
    return ""
