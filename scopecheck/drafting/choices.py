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

    made: bool = False
    """Whether it is what the noun is made of."""
    strange: bool = False
    """Whether it says of a list what may be no member of it: 'the metal is flat'."""

    @property
    def kind(self) -> str:
        return f"any of {', '.join(self.members)}" if self.members else "count"


def choices(text: ClaimText) -> list[Choice]:
    """The pluralities and the lists of a claim's text in order."""
    texts = text.texts
    found: list[Choice] = []
    first = {
        "a",
        "several",
        "multiple",
        "an",
        "is",
        "are",
        "at",
        *_PARITY,
        *runs("choices", "openings"),
        *_MADE,
    }
    places = sorted(at for word in first for at in text.where.get(word, ()))
    for at in places:
        if at in text.referring or (found and at < found[-1].end):
            continue
        asked = (
            kind(text, texts, at) for kind in (_several, _list, _made_of, _is_one_of, _parity, _some_done)
        )
        if made := next(filter(None, asked), None):
            found.append(made)
    return found


_FIRST = ("a", "several", "multiple", "an", "is", "are", "at")
_PARITY = ("even", "odd")


def _parity(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`an even number of nozzles`, `the number of the nozzles is odd`, `nozzles in an even number`."""
    word = at + (texts[at] == "an")
    if word == len(texts) or texts[word] not in _PARITY:
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
    if texts[at - 1] == "or":
        return None  # 'one dressing or a pair of dressings'
    behind = texts[start + width_of(noun) : start + width_of(noun) + 2]
    per = behind[:1] == ["per"] or behind in (["for", "each"], ["for", "every"])
    return Choice(at, end, noun) if noun and plural(noun.split()[-1]) and not per else None


def _list(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`selected from the group consisting of chalk, talc and gypsum`, `at least one of copper and zinc`."""
    width = run_at(texts, at, "choices", "openings")
    if not width or texts[at + width : at + width + 1] in (["the"], ["said"], ["claims"], ["claim"]):
        return None
    members, end = listed_from(text, at + width)
    noun = _alone_before(text, at)
    cut = texts[end : end + 1] == ["/"]  # 'PA6, PA66 and PA6/66': no name of a member
    if cut or len(members) < 2 or not noun or not all(map(_is_plain, members)):
        return None
    made = at > 1 and texts[at - 1] in _MADE.get(texts[at - 2], ())
    return Choice(at, end, noun, members, _ahead(text, at, noun), made)


def _alone_before(text: ClaimText, at: int) -> str:
    """The noun of which something is said here, if it is said of that alone: not of 'the lid and the rim'."""
    noun, texts = noun_before(text, at), text.texts
    first = pieces_of(noun)[0].text if noun else ""
    start = next((i for i in range(at - 1, -1, -1) if texts[i] == first), 0)
    start -= start > 0 and texts[start - 1] in words("nouns", "determiners")
    said = texts[at] in _IS or texts[at - 1] in _IS or texts[at - 2] in _IS
    if not said or start < 2 or texts[start - 1] not in ("and", "or") or texts[start - 2] == ";":
        return noun
    clause = next((i for i in range(start - 2, -1, -1) if texts[i] in _BEGINS), -1)
    return noun if _SAYS.intersection(texts[clause + 1 : start - 1]) else ""


_IS = ("is", "are", "being")
_BEGINS = frozenset((",", ";", ":", ".", "wherein", "whereby"))
_SAYS = frozenset("is are being has have having comprises comprising with lies includes including by".split())
"""A clause with one of these before an 'and' has said something of its own noun."""

_MADE = {"made": ("of", "from"), "formed": ("of", "from"), "manufactured": ("of", "from")}
"""Verbs that say of what something is, with the words behind them."""


def _made_of(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`the lance being made of aluminium or a fibre-reinforced plastic`."""
    if at + 1 >= len(texts) or texts[at + 1] not in _MADE.get(texts[at], ()):
        return None
    members, end = listed_from(text, at + 2)
    noun = _alone_before(text, at)
    listed = len(members) > 1 and "or" in texts[at + 2 : end] and _over(text, end)
    whole = listed and noun and all(_is_plain(m) for m in members)
    return Choice(at, end, noun, members, made=True) if whole else None


def _is_one_of(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`the substrate is glass, sapphire or a polyimide`."""
    if texts[at] not in ("is", "are"):
        return None
    members, end = listed_from(text, at + 1)
    noun = _alone_before(text, at) if len(members) > 1 and "or" in texts[at + 1 : end] else ""
    start = at - width_of(noun)
    said = noun and start > 0 and texts[start - 1] in ("the", "said")
    over = said and (_over(text, end) or texts[end : end + 1] == ["and"])
    return Choice(at, end, noun, members) if over and all(map(_is_a_thing, members)) else None


def _some_done(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`at least one of the first pane and the second pane is hardened`: a list of what is hardened."""
    if texts[at : at + 4] != ["at", "least", "one", "of"]:
        return None
    members, end = list[str](), at + 4
    while not members or texts[end : end + 1] in ([","], ["and"]):
        end += len(members) > 0
        end += texts[end : end + 1] == ["and"] and texts[end - 1] == ","
        if texts[end : end + 1] not in (["the"], ["said"]) or not (member := noun_from(text, end + 1)):
            return None
        members.append(member)
        end += 1 + width_of(member)
    verb = end + 1 + (texts[end + 1 : end + 2] != [] and texts[end + 1].endswith("ly"))
    done = texts[verb] if verb < len(texts) and texts[end] in ("is", "are") else ""
    plain = done.endswith("ed") and done not in words("nouns", "stops") and done not in _PLACED
    if len(members) < 2 or not plain or not (_over(text, verb + 1) or verb == end + 2):
        return None
    return Choice(at, end, name_of(text, end + 1, verb + 1), tuple(dict.fromkeys(members)))


_PLACED = frozenset("provided disposed located positioned mounted equipped fitted coupled connected".split())


def _is_a_thing(member: str) -> bool:
    """Whether it looks like the name of something, and not like what is done to it or how it is."""
    last = member.split()[-1]
    return _is_plain(member) and not last.endswith(("ed", "ing", "ly", "able", "ible", "ous", "ent", "ular"))


def _is_plain(member: str) -> bool:
    said = member.split()
    return not any(w in words("nouns", "stops") for w in said)


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
                made = texts[verb + 2 : verb + 3] and texts[verb + 2] in _MADE.get(texts[verb + 1], ())
                of, end = _members(text, verb + 1 + (2 if made else turned))
                if of:
                    strange = not turned and set(of).isdisjoint(members) and not all(map(_is_substance, of))
                    start = verb + bool(turned or made)
                    found.append(Choice(start, end, noun, of, made=bool(made), strange=strange))
    return found


def _is_substance(member: str) -> bool:
    """Whether it is the name of a substance by its ending or by itself: 'nickel', not 'flat'."""
    last = member.split()[-1]
    return last in words("choices", "substances") or last.endswith(_OF_SUBSTANCES)


_OF_SUBSTANCES = (
    "ide",
    "ite",
    "ium",
    "ose",
    "ene",
    "ane",
    "ylate",
    "phate",
    "fate",
    "nate",
    "steel",
    "glass",
)


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
