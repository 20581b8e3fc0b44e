"""Where a text says 'a plurality of' something, or lists what something may be: without a number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scopecheck.drafting.beside import name_of, noun_before, noun_from, width_of
from scopecheck.drafting.lists_of import listed_from
from scopecheck.drafting.numbers_of import number_before
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import run_at, runs, words
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.text.stream import plural


@record
class Choice:
    """Words that a phrase may read, and what they are of: so many of a noun, or members of a list."""

    start: int
    end: int
    noun: str
    members: tuple[str, ...] = ()
    ahead: tuple[int, int] = (0, 0)
    """The tokens 'at least one' before the noun: 'at least one salt selected from'."""

    strange: bool = False
    """Whether it says of a list what may be no member of it: 'the metal is flat'."""

    @property
    def kind(self) -> str:
        return f"any of {', '.join(self.members)}" if self.members else "count"


def choices(text: ClaimText) -> list[Choice]:
    """The pluralities and the lists of a claim's text in order."""
    texts = text.texts
    found: list[Choice] = []
    first = {"a", "several", "multiple", "an", *_PARITY, *runs("choices", "openings")}
    places = sorted(at for word in first for at in text.where.get(word, ()))
    for at in places:
        if at in text.referring or (found and at < found[-1].end):
            continue
        if made := _several(text, texts, at) or _list(text, texts, at) or _parity(text, texts, at):
            found.append(made)
    return found


_PARITY = ("even", "odd")


def _parity(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`an even number of nozzles`, `the number of the nozzles is odd`, `nozzles in an even number`."""
    word = at + (texts[at] == "an")
    if texts[word] not in _PARITY:
        return None
    if texts[word + 1 : word + 2] == ["number"]:
        of = word + 2 if texts[word + 2 : word + 3] == ["of"] else 0
        of += texts[of + 1 : of + 2] in (["the"], ["said"]) if of else 0
        noun = noun_from(text, of + 1) if of else number_before(text, at) or noun_before(text, at)
        end = word + 2
    else:
        over = texts[word + 1 : word + 2] in ([], ["."], [","], [";"], ["and"])
        said = word == at and texts[at - 1] in ("is", "are", "being") and over
        noun, at, end = number_before(text, at) if said else "", at - 1, word + 1
    return Choice(at, end, noun) if noun and plural(noun.split()[-1]) else None


def _several(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`a plurality of cells`, `several ribs`."""
    if texts[at : at + 3] in (["a", "plurality", "of"], ["a", "pair", "of"]):
        end, start = at + 2, at + 3
    elif texts[at] in ("several", "multiple"):
        end = start = at + 1
    else:
        return None
    noun = noun_from(text, start)
    return Choice(at, end, noun) if noun and plural(noun.split()[-1]) else None


def _list(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`selected from the group consisting of chalk, talc and gypsum`, `at least one of copper and zinc`."""
    width = run_at(texts, at, "choices", "openings")
    if not width or texts[at + width : at + width + 1] in (["the"], ["said"], ["claims"], ["claim"]):
        return None
    members, end = listed_from(text, at + width)
    noun = noun_before(text, at)
    cut = texts[end : end + 1] == ["/"]  # 'PA6, PA66 and PA6/66': no name of a member
    if (
        cut
        or len(members) < 2
        or not noun
        or any(w in words("nouns", "stops") for m in members for w in m.split())
    ):
        return None
    return Choice(at, end, noun, members, _ahead(text, at, noun))


def _ahead(text: ClaimText, at: int, noun: str) -> tuple[int, int]:
    """Where 'at least one' or 'one or more' stands before the noun of a list; (0, 0) if neither does."""
    start = at - width_of(noun)
    return (start - 3, start) if text.texts[max(0, start - 3) : start] in ONE_OR_MORE else (0, 0)


def chosen_again(text: ClaimText, known: Mapping[str, Sequence[str]]) -> list[Choice]:
    """What a claim says of a list that is known: 'the sweetener is sucrose or honey powder'."""
    texts = text.texts
    found: list[Choice] = []
    for noun, members in known.items():
        width, first = width_of(noun), pieces_of(noun)[0].text
        for at in text.where.get(first, ()):
            verb = at + width
            if not 0 < at < len(texts) - width - 1:
                continue
            said = name_of(text, at, verb).lower() == noun.lower() and texts[at - 1] in ("the", "said")
            if said and texts[verb] in ("is", "are", "being"):
                turned = run_at(texts, verb + 1, "choices", "turned")
                of, end = _members(text, verb + 1 + turned)
                if of:
                    strange = not turned and set(of).isdisjoint(members)
                    found.append(Choice(verb + bool(turned), end, noun, of, strange=strange))
    return found


def _members(text: ClaimText, at: int) -> tuple[tuple[str, ...], int]:
    """The members from here on: a list, or one alone with nothing more of a noun behind it."""
    of, end = listed_from(text, at)
    if of and _over(text, end):
        return of, end
    start = at + (text.texts[at : at + 1] in (["a"], ["an"]))
    one = noun_from(text, start)
    end = start + width_of(one)
    return ((one,), end) if one and _over(text, end) else ((), at)


def _over(text: ClaimText, at: int) -> bool:
    """Whether what is said of a list is over here."""
    return text.texts[at : at + 1] in ([], ["."], [","], [";"], ["and"])
