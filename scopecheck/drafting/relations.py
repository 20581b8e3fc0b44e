"""Words after a number that change what it says: '10 % above the lower level', '0.6 times the width'.

They belong to the limit: it is a difference, a multiple or a share. Where the other quantity has a limit of
its own, a phrase may read the whole; else all of it is kept, not restated.
Cut short, it would say something else.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.drafting.by_letter import find_letters
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.marks import with_of
from scopecheck.drafting.naming import Called
from scopecheck.drafting.numbers_of import of_two, ratio_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit, find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.text.stream import stem

MOST_WORDS = 8
"""How many words the noun may have beside which a limit is stated, with what it is of."""
MOST_RATIO = 24
"""How many words before a number its 'ratio of', or the verb of a change, is looked for."""
_DETERMINERS = ("the", "said", "a", "an", "its", "that")
_IN_TIME = ("after", "before", "following", "prior")
_SPATIAL = ("above", "below", "over", "under", "beyond", "from", "away")


@record
class Other:
    """A quantity that has a limit of its own in some claim, as it is called, with its unit."""

    what: Called
    unit: Unit
    names: list[list[str]]
    """How it may be named, as stems: see `names_of`."""
    near: bool = False
    """Whether the claim at hand limits it."""


def beside_others(works: Sequence[Work]) -> None:
    """Takes into each limit the words that set it beside another quantity; apart, what nothing would read."""
    known = [
        Other(what, stretch.unit, names_of(what))
        for work in works
        for stretch, what in work.limits
        if stretch.unit is not None and stretch.unit.symbol and not what.unnamed
    ]
    in_parts = _in_parts(works)
    find_letters(works)
    for work in works:
        made: list[tuple[Stretch, Called]] = []
        here = _seen_from(work, known)
        for stretch, what in work.limits:
            if what.unnamed and made and made[-1][0].other[1] and stretch.start - made[-1][0].end <= 2:
                what = made[-1][1]  # 'more than 50 % of the first pressure but less than 90 % of it'
            if in_parts and (pair := _ratio(work.text, stretch, in_parts)) is not None:
                made.append(pair)
            elif (found := _set_beside(work, stretch, what, here)) is not None:
                made.append(found)
        work.limits = made


def _in_parts(works: Sequence[Work]) -> list[Other]:
    """What is limited in parts by weight, under its noun: the yeast of '3 to 6 parts by weight of yeast'."""
    unit = find_unit("wt%")
    found: list[Other] = []
    for what in (what for work in works for s, what in work.limits if s.unit is None):
        noun = what.noun.removesuffix(" parts")
        if noun != what.noun and unit is not None:
            found.append(Other(what, unit, [stems_of(p.text for p in pieces_of(noun))]))
    return found


def _seen_from(work: Work, known: Sequence[Other]) -> Sequence[Other]:
    """Those with a letter of the claim's with it as a name, and which of them it limits itself."""
    own = {(what.noun, what.owner) for _, what in work.limits}
    letters = {
        (what.noun, what.owner): [["(", letter, ")"] for letter, of in work.letters.items() if of == what]
        for what in work.letters.values()
    }
    keys = ((other.what.noun, other.what.owner) for other in known)
    return [
        replace(other, names=[*other.names, *letters.get(key, ())], near=key in own)
        if key in own or key in letters
        else other
        for other, key in zip(known, keys, strict=True)
    ]


def _set_beside(
    work: Work, stretch: Stretch, what: Called, known: Sequence[Other]
) -> tuple[Stretch, Called] | None:
    """The limit with the other quantity in its words, if it has one; None if it is kept whole, unread."""
    texts = work.text.texts
    if (pair := _ratio(work.text, stretch, known)) is not None:
        return pair
    if what.noun in listed("limits", "changes"):  # 'shrinks by less than 5 % in one and less than 3 % in'
        work.unread.append((stretch.starts[0], stretch.end))
        return None
    whole = changed(texts, stretch) or _kept_ratio(texts, stretch, what, known) or _together(texts, stretch)
    if whole:
        work.unread.append((min(whole, stretch.condition or whole), stretch.end))
        return None
    noun = _other_noun(texts, stretch, what)
    if not noun:
        return stretch, what
    word = texts[stretch.end + _apart(texts, stretch.end)] if stretch.end < noun else ""
    in_time = word in _IN_TIME or _within(texts, stretch, word)
    if in_time:
        work.after.append(stretch)
    found = _named(texts, noun, known)
    if texts[noun - 1] in ("its", "their") and _of_another(what, texts, noun, known):
        end = noun + max(1, width_of(noun_from(work.text, noun)))
        work.unread.append((stretch.condition or stretch.starts[0], end))
        return None
    if found is not None and _fits(stretch, what, found[0]):
        other, end, _ = found
        beside = other.unit if stretch.unit is None or stretch.unit.symbol == "%" else None
        return replace(stretch, end=end, beside=beside, other=(noun, end)), what
    if word == "of" and "within" in texts[stretch.starts[0] : stretch.starts[-1]] and not in_time:
        # 'Within 2 % of the mass of the tube': a difference, and no share.
        end = with_of(work.text, noun + max(1, width_of(noun_from(work.text, noun))) - 1)
        work.unread.append((stretch.condition or stretch.starts[0], min(end, len(texts))))
        return None
    if not in_time and (word in ("of", "based") or (word == "relative" and _is_share(stretch.unit))):
        return stretch, _with_whole(work, what, noun)
    if word in _SPATIAL and _in_space(stretch.unit):
        return stretch, what
    if word in ("times", "fold") and (two := _two_lengths(work, stretch, what, noun)):
        return two
    if (end := _measured(work, stretch, noun)) and not what.unnamed:
        return replace(stretch, end=end, other=(noun, end), fresh=True), what
    end = with_of(work.text, noun + max(1, width_of(noun_from(work.text, noun))) - 1)
    work.unread.append((stretch.condition or stretch.starts[0], min(end, len(texts))))
    return None


def _of_another(what: Called, texts: list[str], noun: int, known: Sequence[Other]) -> bool:
    """Whether the width of '1.2 times its width' is called as that of another thing."""
    said = stems_of(texts[noun : noun + 1])
    return any(o.names[0] == said and o.what.owner != what.owner for o in known)


def _two_lengths(work: Work, stretch: Stretch, what: Called, noun: int) -> tuple[Stretch, Called] | None:
    """'The sleeve length is 4 times the bore diameter', 'D2 is 1.2 times D1', where no claim limits these.

    Both are declared under their words, in millimetres.
    """
    name = noun_from(work.text, noun)
    unit = find_unit("mm")
    end = noun + width_of(name)
    over = end >= len(work.text.texts) or work.text.texts[end] in (",", ";", ".", "and")
    if unit is None or not over or what.unnamed or name == what.noun:
        return None
    if not (_a_length(work, what.noun) and _a_length(work, name)):
        return None
    return replace(stretch, end=end, beside=unit, other=(noun, end), fresh=True), what


def _a_length(work: Work, noun: str) -> bool:
    """Whether a noun is that of a length, or the sign of one: 'D1' where 'a diameter D1' is brought in."""
    last, lengths = noun.lower().split()[-1:], listed("measures", "lengths")
    if lengths.issuperset(last) and last:
        return True
    texts = work.text.texts
    return any(texts[at - 1] in lengths for at in work.text.where.get("".join(last), ()) if at)


def _within(texts: list[str], stretch: Stretch, word: str) -> bool:
    """Whether a time is one from something on: 'within 40 ms of a trigger signal'."""
    opening = texts[stretch.starts[0] : stretch.starts[-1]]
    return word == "of" and "within" in opening and _a_time(stretch.unit)


def _together(texts: list[str], stretch: Stretch) -> int:
    """Where 'sum of' several things begins: a line on the last of them alone would be another limit."""
    at = stretch.starts[0]
    for i in range(at - 2, max(0, at - MOST_RATIO), -1):
        if texts[i] in (";", ":", ".") or (texts[i] == "," and "and" not in texts[i:at]):
            return 0
        if texts[i] in ("sum", "product", "combination") and texts[i + 1] == "of":
            return i if "and" in texts[i:at] else 0
    return 0


def _clause(texts: list[str], at: int) -> int:
    """Where the clause begins in which a limit stands, as far back as its words are looked at."""
    far = max(0, at - MOST_RATIO)
    return next((i + 1 for i in range(at - 1, far - 1, -1) if texts[i] in (",", ";", ":", ".")), far)


def changed(texts: list[str], stretch: Stretch) -> int:
    """Where the verb stands of a change by so much: 'lowering a power by 30 %'; else 0."""
    at = stretch.starts[0]
    if at < 2 or texts[at - 1] != "by":
        return 0
    said = (i for i in range(at - 2, _clause(texts, at) - 1, -1) if texts[i] in listed("limits", "changes"))
    return next(said, 0)


def _one_known(what: Called, known: Sequence[Other]) -> bool:
    """Whether one of the two things by which a ratio is called has a limit of its own: it is tied to that."""
    said = stems_of(what.noun.split())
    return len(said) > 2 and any(set(o.names[0]) <= set(said) for o in known)


def _kept_ratio(texts: list[str], stretch: Stretch, what: Called, known: Sequence[Other]) -> int:
    """Where 'ratio of' begins of a ratio that nothing here is called by; else 0.

    A line on the last thing that it names would be another limit.
    """
    named = bool({"ratio", "quotient"}.intersection(what.noun.split()))
    if named and not _one_known(what, known):
        return 0
    first, at = _clause(texts, stretch.starts[0]), stretch.starts[0]
    first = max(first, stretch.after if stretch.unit is not None and stretch.unit.symbol else 0)
    return next((i for i in range(at - 2, first - 1, -1) if ratio_of(texts, i)), 0)


def _measured(work: Work, stretch: Stretch, noun: int) -> int:
    """Where the words end that name a quantity of the limit's unit that no claim limits; 0 if none is named.

    'At least 50 mm less than the width of the chamber': the width is declared under these words.
    """
    texts = work.text.texts
    if stretch.unit is None or not stretch.unit.kind.dimension:
        return 0
    end = noun + width_of(noun_from(work.text, noun))
    if end == noun or texts[end - 1] not in listed("measures", "nouns") | {"threshold", "setpoint", "point"}:
        return 0
    if texts[end : end + 2] in (["of", "the"], ["of", "said"]) and (of := noun_from(work.text, end + 2)):
        end += 2 + width_of(of)
    return end


def _other_noun(texts: list[str], stretch: Stretch, what: Called) -> int:
    """Where the noun begins that a limit is set beside; 0 if there is none."""
    at = stretch.end + _apart(texts, stretch.end)
    width = run_at(texts, at, "limits", "relations")
    twice = texts[stretch.figures[-1].start] == "twice"
    if not width and not twice:
        return 0
    if width and texts[at] in ("under", "over") and texts[at + width : at + width + 1] in (["a"], ["an"]):
        return 0  # 'at 240 degC under a pressure of 2 bar'
    word = texts[at] if width else "twice"
    shares = _is_share(stretch.unit)
    if word in ("times", "fold") and stretch.unit is not None and stretch.unit.symbol:
        return 0
    if word not in ("times", "twice", "fold") and (what.counted or stretch.unit is None):
        return 0
    if word in ("of", "based") and not shares and not _within(texts, stretch, word):
        return 0
    lasting = texts[stretch.starts[0] - 1 : stretch.starts[0]] in (["for"], ["lasts"], ["lasting"], ["takes"])
    if word in _IN_TIME and (lasting or not _a_time(stretch.unit)):
        return 0
    noun = at + width
    said = noun < len(texts) and texts[noun] in _DETERMINERS
    noun += said
    if noun >= len(texts) or not texts[noun][0].isalpha() or (twice and not said):
        return 0
    return noun


def _apart(texts: list[str], at: int) -> int:
    """1 where a comma stands before what a share is based on: '1.5 % by weight, based on the flour'."""
    return int(texts[at : at + 1] == [","] and texts[at + 1 : at + 2] in (["based"], ["relative"]))


def _fits(stretch: Stretch, what: Called, other: Other) -> bool:
    """Whether the two can be compared: quantities of one kind, and not one and the same."""
    itself = (what.ordinal, what.noun, what.owner) == (other.what.ordinal, other.what.noun, other.what.owner)
    unit = stretch.unit
    if itself or (
        unit is not None and unit.kind.dimension and unit.kind.dimension != other.unit.kind.dimension
    ):
        return False
    return bool(unit is not None and unit.kind.dimension) or _of_one_kind(what, other)


def _of_one_kind(what: Called, other: Other) -> bool:
    last, lengths = what.noun.split()[-1:], listed("measures", "lengths")
    a_length = lengths.issuperset(last) and dict(other.unit.kind.dimension) == {"length": 1}
    theirs = other.what.noun.split()[-1:]
    signs = [word[:1].lower() for word in (*last, *theirs) if word[-1:].isdecimal()]
    lengths_too = dict(other.unit.kind.dimension) == {"length": 1} and set(signs) <= _OF_LENGTHS
    return a_length or last == theirs or (len(signs) == 2 and (signs[0] == signs[1] or lengths_too))


_OF_LENGTHS = frozenset("dlwhrabest")
"""Letters by which lengths are called."""


def _named(texts: list[str], start: int, known: Sequence[Other]) -> tuple[Other, int, int] | None:
    """The quantity named from here on, where its name ends, and where what says more of which one it is ends.

    None where the words name none, or may name several.
    """
    whole = 0
    for end in range(min(start + MOST_WORDS, len(texts)), start, -1):
        said = stems_of(texts[start:end])
        found = [o for o in known if said in o.names]
        owners = {o.what.owner for o in found if o.what.owner}
        if len(owners) > 1 and any(o.near for o in found):
            found = [o for o in found if o.near]
            owners = {o.what.owner for o in found if o.what.owner}
        if not found or texts[end - 1] in ("the", "said"):
            continue
        whole = whole or end
        lettered = said[:1] == ["("] or (said in found[0].names and said[-1][-1:].isdecimal())
        if len(owners) < 2 and (lettered or said == found[0].names[0] or not _alone(found[0], known)):
            return found[0], end, whole
    return None


def _alone(other: Other, known: Sequence[Other]) -> bool:
    """Whether a noun alone tells the quantity: nothing else that has an owner has it."""
    noun = other.names[0]
    return len({o.what.owner for o in known if o.names[0] == noun and o.what.owner}) < 2


def stems_of(texts: Iterable[str]) -> list[str]:
    return [stem(word) for word in texts if word not in ("the", "said", "-")]


def names_of(what: Called) -> list[list[str]]:
    """How a quantity may be named: 'height', 'bowl height', 'height of the bowl' (the article left out)."""
    noun = stems_of(p.text for p in pieces_of(f"{what.ordinal} {what.noun}"))
    owner = stems_of(p.text for p in pieces_of(what.owner))
    tails = [owner[i:] for i in range(len(owner))]
    signed = [[noun[-1]]] if len(noun) > 1 and noun[-1][-1:].isdecimal() and len(noun[-1]) < 4 else []
    alone = [noun[:-1]] if len(noun) > 1 and what.noun.endswith(" parts") else []
    return [noun, *([*of, *noun] for of in tails), *([*noun, "of", *of] for of in tails), *alone, *signed]


def _with_whole(work: Work, what: Called, noun: int) -> Called:
    """With what it is a share of: 'at least 60 % of a water capacity', '5 % of sugar, based on the milk'.

    But not '60 % of wax' itself.
    """
    texts = work.text.texts
    whole = whole_from(work, noun)
    end = noun + width_of(whole)
    if whole == what.noun and _apart(texts, end):
        start = end + 3
        whole = whole_from(work, start + (texts[start : start + 1] in (["the"], ["said"])))
    return replace(what, whole=whole) if whole and whole != what.noun and not what.counted else what


def whole_from(work: Work, at: int) -> str:
    """The noun of a whole that begins here, behind its weight: 'mix' of 'total weight of the mix'."""
    texts = work.text.texts
    for i in range(at, min(at + 6, len(texts) - 1)):
        if texts[i] in ("weight", "mass", "volume", "amount") and texts[i + 1] == "of":
            return noun_from(work.text, i + 2 + (texts[i + 2 : i + 3] in (["the"], ["said"], ["a"], ["an"])))
        if texts[i] in (",", ";", "and"):
            break
    return noun_from(work.text, at)


def _in_space(unit: Unit | None) -> bool:
    """Whether 'above' after a number may say where something is, not how much more: 20 mm above the floor."""
    return unit is not None and dict(unit.kind.dimension) in ({"length": 1}, {"angle": 1})


def _is_share(unit: Unit | None) -> bool:
    return unit is not None and not unit.kind.dimension


def _a_time(unit: Unit | None) -> bool:
    return unit is not None and dict(unit.kind.dimension) == {"time": 1}


# ---- ratios of two quantities


def _turned_ratio(text: ClaimText, stretch: Stretch, known: Sequence[Other]) -> tuple[Stretch, Called] | None:
    """`a water to cement ratio is from 0.4 to 0.5`, if both have limits of their own."""
    first, second = of_two(text, stretch.starts[0])
    one, two = (_named(text.texts, at, known) if second else None for at in (first, second))
    if one is None or two is None or one[0].what == two[0].what:
        return None
    begin = first - (text.texts[first - 1] in _DETERMINERS)
    made = replace(stretch, other=(first, one[1]), second=(second, two[1]), begins=begin)
    return made, Called("ratio", "", False, True)


def _ratio_of_lengths(
    text: ClaimText, stretch: Stretch, begin: int, at: int, known: Sequence[Other]
) -> tuple[Stretch, Called] | None:
    """'The ratio of the wall thickness of the sleeve to the bore diameter is', where one has no limit."""
    texts, lengths = text.texts, listed("measures", "lengths")
    first = begin + (texts[begin] in _DETERMINERS)
    to = next((i for i in range(first, stretch.starts[0]) if texts[i] == "to"), 0)
    start = to + 1 + (texts[to + 1] in _DETERMINERS) if to else 0
    far = stretch.starts[0] - (texts[stretch.starts[0] - 1] in ("is", "of", "being"))
    if not to or start >= far or first >= to:
        return None
    named = [noun_from(text, i) for i in (first, start)]
    ends = [with_of(text, i + width_of(noun) - 1) for i, noun in zip((first, start), named, strict=True)]
    told = all(noun and noun.split()[-1] in lengths for noun in named) and ends == [to, far]
    if not told or all(_named(texts, i, known) is not None for i in (first, start)):
        return None
    made = replace(stretch, other=(first, to), second=(start, far), begins=at, fresh=True)
    return made, Called("ratio", "", False, True)


def _ratio(text: ClaimText, stretch: Stretch, known: Sequence[Other]) -> tuple[Stretch, Called] | None:
    """`ratio of the inner diameter to the diameter is at least 5:3`, if both have limits of their own."""
    texts = text.texts
    if "ratio" not in texts or (stretch.unit is not None and stretch.unit.symbol):
        return None
    if (turned := _turned_ratio(text, stretch, known)) is not None:
        return turned
    for at in range(stretch.starts[0] - 2, max(0, stretch.starts[0] - MOST_RATIO), -1):
        if begin := ratio_of(texts, at):
            break
    else:
        return None
    if (lengths := _ratio_of_lengths(text, stretch, begin, at, known)) is not None:
        return lengths
    one = _named(texts, begin + (texts[begin] in _DETERMINERS), known)
    if one is None or texts[one[2] : one[2] + 1] != ["to"]:
        return None
    start = one[2] + 1
    two = _named(texts, start + (texts[start] in _DETERMINERS), known)
    rest = texts[two[2] : stretch.starts[0]] if two else []
    if two is None or not {"is", "of", "being", "are"}.issuperset(rest) or two[0].what == one[0].what:
        return None
    places = (
        (begin + (texts[begin] in _DETERMINERS), one[1]),
        (start + (texts[start] in _DETERMINERS), two[1]),
    )
    at -= texts[at - 1] in ("weight", "mass", "molar", "mole", "volume")
    return replace(stretch, other=places[0], second=places[1], begins=at), Called("ratio", "", False, True)
