"""What a limit is of: the quantity and the thing that has it, from the words beside its number."""

from __future__ import annotations

from scopecheck.drafting.beside import (
    before_agent,
    listed_verbs,
    measure_of,
    measured_before,
    name_of,
    noun_from,
    noun_start,
    nounish,
    owner_before,
    placed_before,
    process_before,
    sharing,
    tells_when,
    texts_of,
    uncounted,
    verb_of_clause,
    whole_start,
    width_of,
)
from scopecheck.drafting.leading import (
    AMOUNTS,
    PRESENT,
    added_before,
    done_to,
    in_a_list,
    in_an_amount,
    process_at,
    process_to,
)
from scopecheck.drafting.limits import Stretch, by_parts
from scopecheck.drafting.numbers_of import (
    each_before,
    each_holding,
    number_before,
    number_of,
    of_two,
    of_which,
    ratio_before,
    so_many_in,
)
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import word_lists, words
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import plural

_TIMES = frozenset(
    "point life age interval delay window horizon phase stage half-life threshold setpoint limit".split()
)
"""Nouns that are a time or a temperature by themselves, beside those of what is measured."""
_OF_THINGS = frozenset("number quantity amount capacity load".split())
"""Nouns of what is measured that may be so many of something: 'a capacity of 40 trays'."""
_OF_MEASURES = frozenset("level rate degree peak".split())
"""Nouns that are measured themselves, whatever they are of: 'a lower level of moisture'."""
ORDINALS = ("first", "second", "third", "fourth")
_OF_WHAT = ((("mass", 1),), (("length", 3),), (("amount", 1),))
"""What `2 g of grease` measures: mass, volume, amount of substance."""


_DISSOLVED = ({"mass": 1, "length": -3}, {"amount": 1, "length": -3})
"""What `5 g/L of a salt`, `10 mM of a buffer` measures."""
MOST_ASIDE = 20
"""How many words between two commas may say what a quantity is."""
MOST_BACK = 12
"""How many words before an even number what it counts is looked for."""


@record
class Called:
    """The noun for what is limited, and the noun of what has it; '' where the words do not tell."""

    noun: str
    owner: str
    counted: bool
    unnamed: bool = False
    fresh: bool = False
    """The noun stands with 'a' or 'an': where nothing has it, it is another than the one before."""
    """The words give no noun, and the noun is only that of the kind: no two limits share it."""
    ordinal: str = ""
    """`second` of 'the second pressure'; the noun is without it."""
    apart: str = ""
    """Where it was brought in with an 'a' and without what has it: another than all others of its noun."""
    under: str = ""
    """Under which condition it is measured, in the claim's words."""
    whole: str = ""
    """What it is a share of: 'water capacity' of 'at least 60 % of a water capacity'."""


def called(text: ClaimText, stretch: Stretch) -> Called:
    """The nouns for a limit, from the words after it where these tell, else from those before it."""
    return _after(text, stretch) or _before(text, stretch)


# ---- the words after a limit


def _after(text: ClaimText, stretch: Stretch) -> Called | None:
    texts = texts_of(text)
    at, unit = stretch.end, stretch.unit
    word = texts[at] if at < len(texts) else ""
    if unit is not None and word in (table := word_lists()["adjectives"]):
        return Called(table[word], owner_before(text, stretch.start), False)
    if word == "in" and at + 1 < len(texts) and texts[at + 1] in words("measures", "nouns"):
        return Called(texts[at + 1], owner_before(text, stretch.start), False)
    if unit is not None and word in words("measures", "nouns") - {"content", "ratio", "amount"}:
        return Called(word, noun_from(text, at + 1) or owner_before(text, stretch.start), False)
    if unit is None:
        if by_parts(texts, stretch.figures[-1].end):
            return _parts_by(text, at)
        return _counted(text, stretch)
    if unit.kind.dimension in _OF_WHAT and word != "of":
        return None
    if dict(unit.kind.dimension) in _DISSOLVED and word == "of" and not _amount_before(texts, stretch):
        noun = noun_from(text, at + 1 + (texts[at + 1 : at + 2] in (["a"], ["an"], ["the"])))
        return Called(noun, "", False) if noun else None
    if unit.kind.dimension in _OF_WHAT or (not unit.kind.dimension and not _amount_before(texts, stretch)):
        if word == "of" and (taker := sharing(text, stretch.starts[0])):
            return Called(taker, "", False)
        start = at + 1 if word == "of" else at
        start += 3 * (texts[start : start + 3] in ONE_OR_MORE)
        while start < len(texts) and texts[start] in ("a", "an", "the", "said"):
            start += 1
        noun = noun_from(text, start)
        if noun and noun.split()[-1] not in words("measures", "nouns") and noun.split()[0] not in ("total",):
            holder = each_holding(text, stretch.starts[0]) if unit.kind.dimension in _OF_WHAT else ""
            return Called(noun, holder, False)
    return None


def _amount_before(texts: list[str], stretch: Stretch) -> bool:
    """`wax in an amount of 5 %`, `a content of 5 %`: what is meant stands before the number."""
    at = stretch.start
    before = texts[max(0, at - 4, min(at, stretch.after)) : at]
    before = before[:-2] if before[-2:-1] == ["by"] and before[-1] in BY_WHAT else before
    start = max((i + 1 for i, word in enumerate(before) if word in (",", ";", ":")), default=0)
    before = before[start:]
    said = words("measures", "nouns") | {"present", "amounts"}
    return not said.isdisjoint(before) or not {"is", "are", "being"}.isdisjoint(before[-2:])


def _parts_by(text: ClaimText, at: int) -> Called | None:
    """`60 parts by weight of a wax`, up to the 'of': a plain number of the wax."""
    texts = texts_of(text)
    if texts[at : at + 1] != ["of"]:
        return None
    start = at + 1
    while start < len(texts) and texts[start] in words("nouns", "determiners"):
        start += 1
    noun = noun_from(text, start)
    if noun and "per" in texts[start : start + 6] and "parts" in texts[start : start + 9]:
        return Called("", "", False)  # '1 part by weight of wax per 100 parts of the resin' limits both
    return Called(f"{noun} parts", "", False) if noun else None


def _counted(text: ClaimText, stretch: Stretch) -> Called | None:
    """`at least six holes`: so many of what stands next."""
    listed = {"or", "and"}.intersection(text.texts[stretch.figures[-2].end : stretch.figures[-1].start] if
                                        len(stretch.figures) > 2 else ())  # fmt: skip
    if (len(stretch.figures) > 2 and not listed) or any(
        "." in text.tokens[f.digits].text for f in stretch.figures
    ):
        return None
    last = stretch.figures[-1]
    noun = noun_from(text, max(stretch.end, last.end))
    one = noun.split()[-1:] if noun else []
    at, _ = _passed_over(text, stretch)
    if at and text.texts[at - 1] in words("measures", "nouns") - _OF_THINGS:
        return None  # 'a brightness of 40 lumens': a unit that is not known
    if not one or not one[0].endswith(("s", "eeth", "eet", "en", "ices")) or one[0] in ("degrees", "times"):
        return None
    if of := of_which(text, max(stretch.end, last.end) + width_of(noun), noun):
        return Called(noun, of, True)
    if holder := so_many_in(text, stretch.starts[0], noun):
        return Called(noun, holder[0], True, apart=f"of {holder[0]}" if holder[1] else "")
    owner = each_before(text, stretch.starts[0])
    apart = f"each {owner}" if owner and owner not in noun else ""
    before = texts_of(text)[max(at - 1, 0) : stretch.start]
    if not owner and not {"having", "has", "have", "with"}.isdisjoint(before):
        owner = owner_before(text, stretch.start)
    return Called(noun, owner, True, apart=apart)


# ---- the words before a limit


def _before(text: ClaimText, stretch: Stretch) -> Called:
    if listed := in_a_list(text, stretch):
        return Called(listed, "", False)
    at, verb = _passed_over(text, stretch)
    quantity = _quantity(stretch.unit)
    texts, stops = texts_of(text), words("nouns", "stops")
    if quantity == "time" and (sign := _sign_at(text, at)):
        return Called(sign, "", False)
    if (when := _when_measured(text, at))[0]:
        noun = _noun_at(text, when[0], quantity)
        return replace(noun, under=when[1]) if noun.noun else noun
    if quantity in ("time", "temperature") and (done := _carried_out(text, stretch)):
        return Called(f"{done} {quantity}", "", False)
    if quantity and (
        verb or (at > 0 and not tells_when(texts, at - 1) and (verb := process_before(texts, at)))
    ):
        return Called(f"{verb} {quantity}", "", False)
    if quantity == "time" and not measured_before(texts, at) and not _a_time(texts, at):
        verb = verb_of_clause(texts, stretch.start)
        return Called(verb if verb in ("", "interval") else f"{verb} {quantity}", "", False)
    if quantity == "distance" and (spaced := _spaced(texts, at)):
        return Called("spacing", owner_before(text, spaced), False)
    by = texts[stretch.start - 1 : stretch.start] == ["by"] and kind_of(stretch.unit) in ("distance", "angle")
    if by and at > 1 and not texts[at - 1].endswith("ed"):
        return Called("", "", False)
    placed = stretch.start > 1 and texts[stretch.start - 1] == "at" and quantity == "distance"
    placed = placed and texts[stretch.start - 2] not in words("measures", "between")
    if placed or at <= stretch.after or not nounish(texts[at - 1], stops):
        return Called("", "", False)
    share = stretch.unit is not None and not stretch.unit.kind.dimension
    share = share or by_parts(texts, stretch.figures[-1].end) > 0
    amount = not {"amount", "quantity", "proportion"}.isdisjoint(texts[at : stretch.start])
    if amount and (of := added_before(text, at)):
        return Called(of, "", False)
    if share and texts[at - 1] in PRESENT and (of := in_an_amount(text, at)):
        return Called(of, "", False)
    if share and not amount and texts[at : at + 1] == ["to"] and (act := process_to(text, at)):
        return Called(f"{act} level", "", False)
    found = _noun_at(text, before_agent(texts, at), quantity, share)
    return _inside_a_thing(text, at, found) or found


def _inside_a_thing(text: ClaimText, at: int, found: Called) -> Called | None:
    """The force of 'the force in the webbing is', the noise level of 'a noise level during retraction is'."""
    texts, known = texts_of(text), words("measures", "nouns") | _OF_MEASURES
    start = whole_start(text, noun_start(texts, at), at)
    begin = start - (texts[start - 1] in words("nouns", "determiners"))
    thing = name_of(text, start, at) if start < at else ""
    if texts[begin - 1] == "to" and (way := _from_before(texts, begin - 1, _DELAYS)):
        first = whole_start(text, noun_start(texts, way), way)
        return Called(name_of(text, first, way), "", False, fresh=texts[first - 1] in ("a", "an"))
    if not thing or begin < 2 or texts[begin - 1] not in _INSIDE or texts[begin - 2] not in known:
        return None
    measure = thing.split()[-1] in known and texts[begin - 1] not in ("across", "through", "along")
    if measure or not (found.noun in ("", thing) or found.noun.startswith(f"{thing} ")):
        return None
    first = whole_start(text, noun_start(texts, begin - 1), begin - 1)
    first += texts[first] in ORDINALS and first < begin - 2
    noun = name_of(text, first, begin - 1)
    fresh = texts[first - 1] in ("a", "an")
    if texts[begin - 1] == "during":
        return Called(noun, "", False, fresh=fresh, under=name_of(text, begin - 1, at))
    return Called(noun, thing, False, fresh=fresh)


def _from_before(texts: list[str], to: int, known: frozenset[str]) -> int:
    """Where the delay ends of 'a delay from the microphone to the receiver is', which goes on here; or 0."""
    for at in range(to - 2, max(1, to - 6), -1):
        if texts[at] == "from":
            return at if texts[at - 1] in known else 0
        if not texts[at][0].isalpha():
            return 0
    return 0


_DELAYS = frozenset("delay latency lag time duration interval".split())
_INSIDE = ("in", "within", "inside", "across", "through", "on", "along", "during")


def _carried_out(text: ClaimText, stretch: Stretch) -> str:
    """The sintering of 'the sintering is carried out at', 'the curing step is performed for'; or ''."""
    texts, at = texts_of(text), stretch.starts[0]
    at -= texts[at - 1 : at] in (["at"], ["for"], ["over"])
    if texts[at - 3 : at] in (["a", "temperature", "of"], ["a", "time", "of"], ["a", "period", "of"]):
        at -= 3
        at -= texts[at - 1] in ("at", "for", "over")
    out = at - (texts[at - 1] == "out")
    if texts[out - 1 : out] not in _CARRIED or texts[out - 2 : out - 1] not in (["is"], ["being"], ["are"]):
        return ""
    end = out - 2
    end -= texts[end - 1] in ("step", "operation")
    noun = name_of(text, noun_start(texts, end), end)
    acts = noun.endswith(("ing", "ment", "tion", "sion", "sis"))
    return noun if acts and noun else ""


_CARRIED = (["carried"], ["performed"], ["conducted"], ["done"], ["effected"], ["executed"], ["run"])


def _sign_at(text: ClaimText, at: int) -> str:
    """The sign of a time that ends here, 'Tmax' of 'Tmax is', 't90' of 'a t90 of'; or ''."""
    if at < 1 or texts_of(text)[at : at + 1] not in (["is"], ["of"], ["being"], ["="]):
        return ""
    written = text.source.text[text.tokens[at - 1].start : text.tokens[at - 1].end]
    return written if _A_TIME.fullmatch(written) else ""


_A_TIME = regex(r"[Tt](?:\d{1,3}|max|min|lag)")


def _spaced(texts: list[str], at: int) -> int:
    """Where 'spaced', 'arranged apart' begins, if that ends here: how far things stand from each other."""
    apart = at > 2 and texts[at - 1] == "apart"
    begin = at - 1 - apart
    return begin if begin > 0 and (texts[begin] == "spaced" or (apart and texts[begin].endswith("ed"))) else 0


def _when_measured(text: ClaimText, at: int) -> tuple[int, str]:
    """Where the noun ends of 'the dough temperature after kneading is', and when it is so; (0, '') elsewhere.

    So of 'the time between kneading and dividing is', which is none that either of the two takes.
    """
    texts, known = texts_of(text), words("measures", "nouns")
    for begin in range(at - 1, max(0, at - MOST_OF_OCCASION), -1):
        if not texts[begin].isalpha():
            break
        used = texts[begin] in ("during", "in") and texts[begin + 1 : at] in ([w] for w in _GOING_ON)
        if texts[begin] in _OCCASIONS and (texts[begin - 1] in known or used):
            two = _BOUNDS.get(texts[begin], texts[begin]) in texts[begin:at]
            done = any(word.endswith("ing") or word in _GOING_ON for word in texts[begin + 1 : at])
            said = text.source.text[text.tokens[begin].start : text.tokens[at - 1].end]
            return (begin, " ".join(said.split())) if two and done else (0, "")
    return 0, ""


_GOING_ON = ("operation", "use", "service", "storage", "transport")
_OCCASIONS = ("after", "before", "during", "between", "upon", "from")
_BOUNDS = {"between": "and", "from": "to"}
MOST_OF_OCCASION = 8
"""How many words 'between the kneading and the dividing' may have."""


def _a_time(texts: list[str], at: int) -> bool:
    """Whether the noun that ends here is how long something takes: 'a rest of', 'the rest is'."""
    start = noun_start(texts, at)
    noun = texts[at - 1] if start < at else ""
    said = start > 0 and texts[start - 1] in ("a", "an", "the", "said")
    act = noun.endswith(("ing", "ed")) and noun not in words("mention", "ing_nouns")
    return bool(noun) and said and not act and texts[at : at + 1] in (["of"], ["is"], ["being"])


def _passed_over(text: ClaimText, stretch: Stretch) -> tuple[int, str]:
    """Where the words between a noun and its limit begin, and the process met on the way, if one is."""
    texts, between = texts_of(text), words("measures", "between")
    at = stretch.start - bool(stretch.sign)
    verb = ""
    while at > 0 and at > stretch.start - 12:
        word = texts[at - 1]
        if word == ")" and "(" in texts[max(0, at - 6) : at - 1]:
            at = max(i for i in range(max(0, at - 6), at - 1) if texts[i] == "(")
        elif word == "," and texts[at : at + 1] == ["if"]:
            at -= 1  # 'Fe2O3, if present, in an amount of'
        elif word == "," and at < stretch.start and (begin := _aside_before(texts, at - 1)):
            at = begin
        elif word in _MOVED or (
            word in _CAPPED
            and texts[at : at + 1] in (["to"], ["at"])
            and texts[at - 2] in ("is", "are", "being")
        ):
            at -= 1
        elif word in between or word in ("for", "from", "and", "or", "="):
            verb = verb or ("" if tells_when(texts, at - 2) else process_before(texts, at - 1))
            if word in ("for", "and", "or") and not verb:
                break
            at -= 1
        else:
            break
    return at, verb


_MOVED = frozenset(("fallen", "risen"))
_CAPPED = frozenset("limited restricted capped confined".split())
_ASIDES = (
    ["being"],
    ["in"],
    ["at"],
    ["under"],
    ["during"],
    ["measured"],
    ["determined"],
    ["seen"],
    ["on"],
    ["as"],
)


def _aside_before(texts: list[str], at: int) -> int:
    """Where ', being a number of lost messages, is' begins, which ends with this comma; 0 if none does."""
    if texts[at + 1 : at + 2] not in (["is"], ["are"], ["being"], ["of"]):
        return 0
    begin = next(
        (i for i in range(at - 1, max(0, at - MOST_ASIDE), -1) if texts[i] in (",", ";", ":", ".")), 0
    )
    said = texts[begin + 1 : begin + 3]
    aside = said[:1] in _ASIDES or said in (["which", "is"], ["that", "is"])
    return begin if begin and texts[begin] == "," and aside else 0


def _noun_at(text: ClaimText, at: int, quantity: str, share: bool = False) -> Called:
    """The noun that ends here, with what it is of, where that is what is measured."""
    texts, stops = texts_of(text), words("nouns", "stops")
    if texts[at - 1] in listed_verbs() and at > 1 and nounish(texts[at - 2], stops):
        at -= 1
    start = uncounted(texts, whole_start(text, noun_start(texts, at), at), at)
    if start > 1 and texts[start - 1] == "per" and texts[start - 2] in words("measures", "nouns"):
        start -= 2  # 'a mass per unit area of'
    if texts[start:at] == ["step"] and start > 1 and texts[start - 1] in ("in", "of", "during"):
        return _noun_at(text, start - 1, quantity)
    if (told := _of_several(text, start, at, bool(quantity or share))) is not None:
        return told
    if texts[at - 1] in words("persons", "nouns") and "by" in texts[max(0, start - 2) : start]:
        return Called("", "", False)  # 'tilted by the user up to 60 deg'
    begins, ordinal = start, ""
    while at - start > 1 and _before_noun(texts, start):
        ordinal = texts[start] if texts[start] in ORDINALS else ordinal
        start += 1
    noun = name_of(text, start, at + (texts[start:at] == ["total"] and texts[at] in AMOUNTS))
    if _no_noun(texts, start, at, noun):
        return Called("", "", False)
    if " " not in noun and noun.endswith("ed") and noun not in words("mention", "ed_nouns"):
        return Called("", owner_before(text, start), False)
    known = words("mention", "ing_nouns") | words("measures", "nouns")
    if quantity and noun.endswith("ing") and noun not in known:
        return Called(f"{noun} {quantity}", "", False)
    acts = noun.endswith("ing") and noun not in known
    if acts and start and texts[start - 1] in ("the", "said") and not _runs_on(texts, at):
        return Called("", "", False)  # 'between the pressing and the drying in an amount of'
    if noun in ("even number", "odd number") and (counted := number_before(text, start)):
        return Called(counted, "", True)
    if noun.endswith("s number") and texts[at : at + 1] not in (["of"], ["is"]):
        return Called(noun.removesuffix(" number"), "", True)  # 'the ejectors number from 8 to 16'
    measure = measure_of(text, start) or measure_of(text, begins)
    if measure == "number":
        return Called(noun, "", True)
    if measure in AMOUNTS and share:
        return Called(noun, "", False)
    of_any = measure.split()[-1:] and measure.split()[-1] in _OF_MEASURES
    if measure and (of_any or noun.split()[-1] not in words("measures", "nouns")):
        return Called(measure, f"{ordinal} {noun}".strip(), False)
    behind, owner = ("", "") if _has_a_measure(texts, begins, at) else _behind(text, begins)
    if behind:
        return Called(behind, owner or noun, False)
    thing = noun.split()[-1] not in words("measures", "nouns") | _TIMES | words("limits", "set_by_acts")
    if thing and texts[at : at + 1] == ["of"] and (placed := placed_before(text, begins)):
        return Called(placed, "", False, False, True)
    fresh = begins > 0 and texts[begins - 1] in ("a", "an")
    last = noun.split()[-1]
    said = quantity in noun.split()  # 'a coiling temperature CT'
    if quantity in ("temperature", "time") and not said and last not in words("measures", "nouns") | _TIMES:
        return Called(f"{noun} {quantity}", "", False)
    owner = owner_before(text, begins)
    if not owner and (owner := done_to(text, begins)) and fresh and noun in words("measures", "nouns"):
        process = process_at(texts, begins)
        return Called(f"{process} {noun}".strip(), "" if process else owner, False, False, not process)
    return Called(noun, owner, False, False, fresh, ordinal)


def _no_noun(texts: list[str], start: int, at: int, noun: str) -> bool:
    """Whether words before a limit are none: a verb, a number's unit, 'a lamp consuming less than 5 W'."""
    verb = start and texts[start - 1] == ")" and at - start == 1 and noun.endswith("s")
    does = noun.split()[-1] in words("measures", "done_so_much") and not _runs_on(texts, at)
    return bool(verb) or does or noun in listed_verbs() or (start > 0 and texts[start - 1][0].isdigit())


def _of_several(text: ClaimText, start: int, at: int, measured: bool) -> Called | None:
    """A ratio by its two nouns, a number by what it counts, where the noun ends that begins at `start`."""
    if (two := of_two(text, at))[1]:
        return Called(name_of(text, two[0], at).replace(" to ", " ").replace(" the ", " "), "", False)
    if ratio := ratio_before(text, start, at):
        return Called(ratio, "", False)
    number, of = number_of(text, at)
    counts = number and plural(number.split()[-1]) and not measured
    return Called(number, of, True) if counts else None


def _runs_on(texts: list[str], at: int) -> bool:
    """Whether what stands before a limit is said to be so much itself: 'the stirring is at 60 rpm'."""
    so_much = texts[at : at + 2] in (["at", "least"], ["at", "most"])
    return texts[at : at + 1] in (["is"], ["at"], ["being"], ["of"]) and not so_much


def _has_a_measure(texts: list[str], start: int, at: int) -> bool:
    """Whether 'with an error of', 'with a diameter D1 of' is said of a thing: what it has is so much."""
    return texts[start - 2 : start] in (["with", "a"], ["with", "an"]) and texts[at : at + 1] == ["of"]


def _before_noun(texts: list[str], at: int) -> bool:
    """Whether a word before a noun is no part of it: an adverb, an ordinal, the 'total' of an amount."""
    total = texts[at] == "total" and texts[at + 1] in (*AMOUNTS, "amounts")
    return texts[at].endswith("ly") or texts[at] in ORDINALS or total or texts[at] in words("limits", "alike")


def _behind(text: ClaimText, start: int) -> tuple[str, str]:
    """What is measured, and what has it, where another noun follows it with 'of the' or 'without the'; or ''.

    The rim of 'the rim of the basket is', the weight of 'the weight of the cart without the wheels is'.
    """
    texts = texts_of(text)
    at = start - (start > 0 and texts[start - 1] in words("nouns", "determiners"))
    if at < 2:
        return "", ""
    if (rate := texts[max(0, at - 4) : at])[:2] == ["rate", "of"] and rate[3:] == ["of"]:
        noun = noun_from(text, start)
        return f"{noun} {rate[2]} rate", noun  # 'a rate of change of the speed'
    joint, known = texts[at - 1], words("measures", "nouns")
    if joint == "of" and at == start - 1:
        first = whole_start(text, noun_start(texts, at - 1), at - 1)
        noun = name_of(text, first, at - 1)
        said = first > 0 and texts[first - 1] in ("the", "a", "an", "said")
        thing = noun and noun.split()[-1] not in known | words("measures", "no_parts")
        return (noun, "") if said and thing and nounish(texts[at - 2], words("nouns", "stops")) else ("", "")
    if joint not in ("without", "with", "including", "excluding"):
        return "", ""
    if joint == "with" and known.intersection(noun_from(text, start).split()[-1:]):
        return "", ""  # 'a low-index layer with a thickness'
    for i in range(at - 2, max(0, at - MOST_BACK), -1):
        if texts[i] in (",", ";", ":", ".") or texts[i][0].isdecimal():
            break
        if texts[i] in known:
            noun = name_of(text, whole_start(text, noun_start(texts, i + 1), i + 1), i + 1)
            of = i + 2 + (texts[i + 2] in ("the", "a", "an"))
            return noun, noun_from(text, of) if texts[i + 1] == "of" else ""
    return "", ""


def kind_of(unit: Unit | None) -> str:
    """What a unit measures among a few kinds: time, temperature, distance, angle, amount; else ''."""
    return "angle" if unit is not None and dict(unit.kind.dimension) == {"angle": 1} else _quantity(unit)


def so_much_each(unit: Unit | None) -> bool:
    """Whether a unit measures so much for each of something, `L/ha`: a length by reckoning only."""
    return unit is not None and "/" in unit.symbol.removeprefix("1/") and len(unit.kind.dimension) == 1


def _quantity(unit: Unit | None) -> str:
    if so_much_each(unit):
        return "amount"
    dimension = dict(unit.kind.dimension) if unit else {}
    known = {"time": "time", "temperature": "temperature", "length": "distance"}
    return known.get(next(iter(dimension)), "") if list(dimension.values()) == [1] else ""
