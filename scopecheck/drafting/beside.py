"""Nouns and verbs beside a number, found by walking over the words: what is limited, and what has it."""

from __future__ import annotations

from scopecheck.foundations.word_lists import run_at, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.account import ORDER_WORDS
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.resolve.declared import NEVER_IN_NAMES

MOST_WORDS = 3
MOST_BACK = 9
"""How many words before a limit the noun of its measure is looked for."""
MOST_COUNTED = 12
"""How many words before an even number what it counts is looked for."""
_NO_OWNER = ("mean", "average", "median", "maximum", "minimum", "nominal", "least", "total")
_ON_THE_WAY = ("the", "said", "each", "a", "an", "one", "of", "any", "all", "its")
_SET_TO = ("configured", "adapted", "arranged", "designed", "set", "and", "operable")
_JOINTS = ("of", "between", "across", "for", "in", "at")


def noun_from(text: ClaimText, at: int, most: int = MOST_WORDS) -> str:
    """The words of a noun that begins here: up to three, before a word that is no part of one; '' if none."""
    texts, stops = texts_of(text), words("nouns", "stops")
    end, count = at, 0
    while end < len(texts) and count < most + 1:
        whole = end
        while hyphen(text, whole + 1):
            whole += 2
        if whole == end and not nounish(texts[end], stops):
            break
        end, count = whole + 1, count + 1
    while count > 1 and _no_noun(texts[end - 1]) and not hyphen(text, end - 2):
        end, count = end - 1, count - 1
    return name_of(text, at, end) if 0 < count <= most else ""


def _no_noun(word: str) -> bool:
    """Whether a word behind a noun looks like a verb or an adverb, not like the end of the noun."""
    known = words("mention", "ed_nouns") | words("mention", "ing_nouns") | words("measures", "nouns")
    return word.endswith(("ed", "ing", "ly")) and word not in known


def hyphen(text: ClaimText, at: int) -> bool:
    """Whether a hyphen stands here that makes one word of two: 'switch-on', not a dash."""
    tokens = text.tokens
    if not 0 < at < len(tokens) - 1 or tokens[at].text != "-":
        return False
    before, after = tokens[at - 1], tokens[at + 1]
    glued = before.end == tokens[at].start and tokens[at].end == after.start
    return glued and before.text[0].isalpha() and after.text[0].isalpha()


def whole_start(text: ClaimText, start: int, at: int) -> int:
    """Where a noun that ends at `at` begins with the words that hyphens join to it."""
    while start < at or (start == at and hyphen(text, at - 2)):
        if hyphen(text, start - 1):
            start -= 2
        elif hyphen(text, start - 2):
            start -= 3
        else:
            break
    texts = texts_of(text)
    if start > 1 and run_at(texts[:at], start - 2, "measures", "with_of") == at - start + 2:
        return start - 2  # 'a maximum field of view'
    return start


def width_of(name: str) -> int:
    """How many tokens of a text a noun takes."""
    return len(pieces_of(name))


def nounish(word: str, stops: frozenset[str]) -> bool:
    return word[0].isalpha() and word not in stops and word not in NEVER_IN_NAMES


def noun_start(texts: list[str], at: int) -> int:
    """Where the noun that ends here begins: up to three words, behind a verb ('the source emits pulses')."""
    start = at
    while start > 0 and at - start < MOST_WORDS and nounish(texts[start - 1], words("nouns", "stops")):
        if start < at and texts[start - 1] in listed_verbs():
            break
        start -= 1
    if 1 < start < at - 1 and texts[start - 1] == "to" and texts[start - 2] in _SET_TO:
        start += 1  # 'configured to amplify frequency components'
    if 0 < start < at and texts[start - 1] == "relative" and texts[start] in words("measures", "nouns"):
        start -= 1
        start -= texts[start - 1] in words("mention", "ordinals")
    return start


def uncounted(texts: list[str], start: int, at: int) -> int:
    """Where a noun begins behind a number in words: 'drive wheels' of 'two drive wheels'."""
    while at - start > 1 and NUMBER_WORDS.get(texts[start], 0) > 1:
        start += 1
    return start


def noun_before(text: ClaimText, at: int) -> str:
    """The noun of which something is said from here on: 'basket' of 'the basket is made of'; or ''."""
    texts = texts_of(text)
    passed = words("measures", "between") | {"made", "formed", "from", "is", "are", "comprises", "contains"}
    while at > 0 and texts[at - 1] in passed:
        at -= 1
    start = whole_start(text, noun_start(texts, at), at)
    noun = name_of(text, start, at)
    verb = start < at and (texts[at - 1] in listed_verbs() or (start > 0 and texts[start - 1][0].isdigit()))
    if texts[at : at + 1] in (["is"], ["are"], ["being"]) and (head := _head_of(text, start)):
        return head
    known = words("mention", "ing_nouns") | words("mention", "ed_nouns")
    said = start > 0 and texts[start - 1] in ("the", "said", "a", "an", "each")
    act = noun.endswith("ed") and not (said and noun.split()[-1] in known)
    act = act or (noun.endswith("ing") and not said)
    return "" if verb or len(noun) < 2 or noun in _NO_OWNER or act else noun


def _head_of(text: ClaimText, start: int) -> str:
    """What is of the noun that begins here: 'wire' of 'the wire of each panel is'; or ''."""
    texts = texts_of(text)
    at = start - (start > 0 and texts[start - 1] in words("nouns", "determiners"))
    if at == start or at < 3 or texts[at - 1] != "of":
        return ""
    first = whole_start(text, noun_start(texts, at - 1), at - 1)
    said = 0 < first < at - 1 and texts[first - 1] in ("the", "a", "an", "said")
    return name_of(text, first, at - 1) if said and texts[at - 2] not in words("measures", "no_parts") else ""


def owner_before(text: ClaimText, at: int) -> str:
    """The noun that has what stands here: `the rim` of `the rim having a`, `a rim with a`, `the rim is`."""
    texts = texts_of(text)
    set_at = False
    while at > 0 and texts[at - 1] in words("measures", "between") | {"with", "and", *_NO_OWNER}:
        at -= 1
        set_at = set_at or texts[at] == "at" or (texts[at] == "with" and texts[at - 3 : at - 2] in _WAYS)
        if texts[at] in ("with", "having", "has", "have", "is", "are", "being"):
            break
    at -= at > 1 and texts[at - 1] in ("each", "both", "all")
    if at > 3 and texts[at - 1] == ")" and texts[at - 3] == "(" and len(texts[at - 2]) < 4:
        at -= 3  # 'the resin component (A) has'
    start = uncounted(texts, whole_start(text, noun_start(texts, at), at), at)
    if start > 2 and texts[start - 1] in ("each", "every") and texts[start - 2] == "of":
        at = start - 2  # 'the discs of each unit have a'
        start = uncounted(texts, whole_start(text, noun_start(texts, at), at), at)
    if (start and texts[start - 1][0].isdigit()) or (0 < at <= len(texts) and at - 1 in text.inside):
        return _before_limit(text, start)
    between = start - (texts[start - 1] in ("the", "said")) - 1
    if between > 1 and texts[between] == "between" and at > start:
        first = whole_start(text, noun_start(texts, between), between)
        head = name_of(text, first, between) if first < between else ""
        return "" if head.endswith(("ed", "ing")) else head  # 'the gaps between the panes being'
    if set_at and _an_object(texts, start):
        return ""  # 'lifts off the seat at a', 'the cell having the highest voltage at a'
    if {"during", "before", "after"}.intersection(_part_before(texts, start)):
        return ""  # 'during the rinsing of the tank and at a speed of'
    start, at = _of_material(text, start, at)
    noun = name_of(text, start, at)
    verb = start < at and texts[at - 1] in listed_verbs()
    done = noun.endswith(("ing", "ed")) and noun.split()[-1] not in words("mention", "ing_nouns")
    done = done or noun in words("mention", "states") or noun.endswith(("able", "ible", " apart"))
    done = done or any(c.isdigit() for c in noun[-1:])
    return "" if verb or done or len(noun) < 2 or noun in _NO_OWNER else noun


def _an_object(texts: list[str], start: int) -> bool:
    """Whether a noun that begins here is none that has what stands behind 'at': 'off the seat at a'."""
    at = start - (texts[start - 1] in ("the", "a", "an", "said", "its"))
    while at > 0 and texts[at - 1].endswith("est"):
        at -= 1 + (texts[at - 2] == "the")
    return at > 0 and texts[at - 1] in _BEFORE_OBJECTS


_WAYS = (["toward"], ["towards"], ["against"])
_BEFORE_OBJECTS = frozenset(
    "off from having has have against through into onto toward towards out by via across until".split()
)


def _part_before(texts: list[str], at: int) -> list[str]:
    """A few words before a noun, of its own part of the sentence."""
    first = max(0, at - 5)
    parted = (i + 1 for i in range(at - 1, first - 1, -1) if texts[i] in (",", ";", ":", "."))
    return texts[next(parted, first) : at]


def _of_material(text: ClaimText, start: int, at: int) -> tuple[int, int]:
    """The fabric of 'a fabric of linen or cotton having': what has it, not what it is of."""
    texts = text.texts
    begin = start
    if begin > 2 and texts[begin - 1] in ("or", "and") and texts[begin - 3] == "of":
        begin -= 2
    if begin > 3 and texts[begin - 1] == "of" == texts[begin - 4] and texts[begin - 2] in ("or", "and"):
        begin -= 3
    if begin < 2 or texts[begin - 1] != "of":
        return start, at
    first = whole_start(text, noun_start(texts, begin - 1), begin - 1)
    said = 0 < first < begin - 1 and texts[first - 1] in ("a", "an", "the", "said")
    measure = texts[begin - 2] in words("measures", "nouns") | words("measures", "no_parts")
    return (first, begin - 1) if said and not measure else (start, at)


def _before_limit(text: ClaimText, at: int) -> str:
    """What has the measure whose limit ends here: 'box' of 'a box with a width of 20 mm and a depth of'."""
    texts = texts_of(text)
    for i in range(at - 1, max(0, at - MOST_BACK), -1):
        if texts[i] in (";", ":", "."):
            return ""
        if texts[i] in words("measures", "nouns"):
            return owner_before(text, noun_start(texts, i))
    return ""


def before_agent(texts: list[str], at: int) -> int:
    """Goes back over 'formed by the disc': what is limited is the furrow, not the disc."""
    stops = words("nouns", "stops")
    start = noun_start(texts, at)
    by = start > 3 and texts[start - 1] in ("the", "a", "an", "said") and texts[start - 2] == "by"
    done = by and texts[start - 3].endswith("ed") and nounish(texts[start - 4], stops)
    return start - 3 if done else at


def measured_before(texts: list[str], at: int) -> bool:
    """Whether a noun of what is measured stands just before: 'a retention period of'."""
    return at > 0 and texts[at - 1] in words("measures", "nouns")


def measure_of(text: ClaimText, at: int) -> str:
    """`the width of the` before the noun that begins at `at`: the measure; else ''."""
    texts = texts_of(text)
    back = texts[max(0, at - MOST_COUNTED) : at][::-1]
    if "between" in back and not {",", ";", ":"}.intersection(back[: back.index("between")]):
        at = at - back.index("between")
    while at > 1 and texts[at - 1] in _ON_THE_WAY and texts[at - 2] not in words("measures", "nouns"):
        at -= 1
    if at > 2 and texts[at - 1] == "between" and texts[at - 2] not in words("measures", "nouns"):
        first = noun_start(texts, at - 1)
        said = 0 < first < at - 1 and texts[first - 1] in ("a", "an", "the", "said")
        return name_of(text, first, at - 1) if said and not texts[at - 2].endswith(("ed", "ing")) else ""
    if at > 4 and texts[at - 3 : at : 2] == ["(", ")"] and texts[at] == "of":
        at -= 2  # 'the speed (n) of the motor'
    elif at < 2 or texts[at - 1] not in _JOINTS:
        return ""
    elif at > 5 and texts[at - 4 : at - 1 : 2] == ["(", ")"] and len(texts[at - 3]) < 3:
        at -= 3  # 'the wall thickness (t) at the root'
    if at < 2 or texts[at - 2] not in words("measures", "nouns"):
        return ""
    start = at - 2
    while start > 0 and at - 2 - start < 2 and nounish(texts[start - 1], words("nouns", "stops")):
        start -= 1
    return name_of(text, whole_start(text, start, at - 1), at - 1)


def placed_before(text: ClaimText, at: int) -> str:
    """The lip of 'a lip above the floor of 2 mm': what the words before say where it is; or ''."""
    texts = texts_of(text)
    the = at - (at > 0 and texts[at - 1] in ("the", "said", "a", "an", "each"))
    if the == at or the < 3 or texts[the - 1] not in words("nouns", "placing"):
        return ""
    start = whole_start(text, noun_start(texts, the - 1), the - 1)
    said = 0 < start < the - 1 and texts[start - 1] in ("a", "an")
    noun = name_of(text, start, the - 1)
    return noun if said and not noun.endswith(("ing", "ed")) else ""


def listed_verbs() -> frozenset[str]:
    """Verbs that may stand between a noun and its limit."""
    return words("mention", "verbs")


def gerund(word: str) -> bool:
    """Whether a word is what is done, by its end: 'aging', but no 'string', 'ring' or 'using'."""
    return word.endswith("ing") and not _VOWELS.isdisjoint(word[:-3]) and word not in ("using", "being")


_VOWELS = frozenset("aeiouy")


def process_before(texts: list[str], at: int) -> str:
    """The process whose time or heat is limited: 'stirring' of 'stirred for'; '' if none is there."""
    word = texts[at - 1] if at else ""
    if texts[at : at + 1] and texts[at] not in ("for", "at", "to", "from"):
        return ""
    if word in words("nouns", "stops") or word in words("measures", "nouns"):
        return ""
    if gerund(word):
        return word
    if word.endswith("ied"):
        return word[:-3] + "ying"
    return word[:-2] + "ing" if word.endswith("ed") and (len(word) > 4 or word == "aged") else ""


def tells_when(texts: list[str], at: int) -> bool:
    """Whether a word only tells when something is done: 'after the drying', 'within 2 h of the drying'."""
    before = at - (at > 0 and texts[at - 1] in ("the", "said"))
    return before > 0 and texts[before - 1] in ORDER_WORDS


_UNITS_OF_TIME = frozenset(
    "ms s min h d minute minutes second seconds hour hours day days week weeks".split()
)


def _timed(texts: list[str], at: int) -> bool:
    """Whether how long something takes stands here already: 'held for 10 minutes and at 27 degC for'."""
    said = at + 1 < len(texts) and texts[at][0].isdecimal() and texts[at + 1] in _UNITS_OF_TIME
    return said and texts[at + 2 : at + 3] not in (["after"], ["before"], ["of"], ["following"])


MOST_OF_CLAUSE = 18
"""How many words before a time what is done is looked for."""
_BEGUN = frozenset(("", "starting", "beginning", "performing", "carrying"))
"""What is said of something done, and is not done itself."""
_PARTICIPLES = {"held": "holding", "kept": "keeping", "left": "leaving", "spun": "spinning"}


def verb_of_clause(texts: list[str], at: int) -> str:
    """The process that a time is of: 'resting' of 'resting the dough for'; '' where none is told."""
    if at and (texts[at - 1] == "every" or texts[max(0, at - 2) : at] == ["intervals", "of"]):
        return "interval"
    for i in range(at, max(0, at - MOST_OF_CLAUSE), -1):
        if texts[i - 1] in (",", ";", ":", ".") or _timed(texts, i - 1):
            return ""
        if texts[i - 1] in _PARTICIPLES and texts[i - 2 : i - 1] in (
            ["is"],
            ["are"],
            ["being"],
            ["and"],
            ["then"],
        ):
            return _PARTICIPLES[texts[i - 1]]
        determined = texts[i - 2 : i - 1] in (["the"], ["a"], ["said"], ["an"])
        attributive = determined and texts[i - 1].endswith("ed")
        if attributive or tells_when(texts, i - 1) or texts[i - 1] in words("mention", "ing_nouns"):
            continue
        if texts[i - 1] in words("limits", "acts") and texts[i : i + 1] in (["of"], ["for"], ["at"]):
            return texts[i - 1]
        verb = process_before(["for", *texts[:i]], i + 1)
        if verb not in _BEGUN:
            return verb
    return ""


def a_parameter(text: ClaimText, at: int) -> bool:
    """Whether what a limit that begins here is of is brought in to compare with: 'exceeds a threshold of'."""
    texts, end = texts_of(text), at
    while end > 0 and texts[end - 1] in ("of", "that", "which", "is", "lies", "being"):
        end -= 1
    start = whole_start(text, noun_start(texts, end), end)
    brought_in = 1 < start < end and texts[start - 1] in ("a", "an")
    return brought_in and texts[start - 2] in words("limits", "comparing")


def sharing(text: ClaimText, at: int) -> str:
    """What takes up so much of something: 'slots' of 'the slots make up 40 % of a wall'; or ''."""
    texts = texts_of(text)
    width = next((w for w in (2, 1) if at > w and run_at(texts, at - w, "measures", "sharing") == w), 0)
    end = at - width - (texts[at - width - 1] in ("together", "jointly"))
    # 'particles having a size of 0.5 to 2 µm make up': what is so much stands before what it has.
    behind = range(end - 1, max(end - 14, 0), -1)
    has = next((i for i in behind if texts[i] in ("having", "with", "whose")), 0)
    if width and has and any(text.tokens[i].text[0].isdigit() for i in range(has, end)):
        end = has
    return (noun_before(text, end) or owner_before(text, end)) if width else ""


def texts_of(text: ClaimText) -> list[str]:
    return text.texts


def name_of(text: ClaimText, start: int, end: int) -> str:
    """Tokens as a name: small letters, but `pH`, `D50`, `thickness T`, signs of elements as they stand.

    What a hyphen joins is one word.
    """
    found = ""
    for at in range(start, end):
        token = text.tokens[at]
        written = text.source.text[token.start : token.end]
        if found and not hyphen(text, at) and not hyphen(text, at - 1):
            found += " "
        # 'a thickness T', 'a temperature Tg': a sign behind a noun.
        letter = at == end - 1 and (len(written) == 1 or (at > start and _a_sign(written)))
        kept = letter or any(c.isupper() or c.isdecimal() for c in written[1:])
        kept = kept or written in words("elements", "signs")
        found += written if kept else token.text
    return found


def _a_sign(written: str) -> bool:
    return len(written) < 4 and written[0].isupper() and written[1:].islower()


LABELS = frozenset("abcdefghij") | {"i", "ii", "iii", "iv", "v", "vi", "vii", "viii"}
"""The letters of items."""


def label_end(texts: list[str], at: int) -> int:
    """Where 'step (iv)', 'step b)' ends that begins here; 0 if no step is named by its letter here."""
    if texts[at : at + 1] != ["step"]:
        return 0
    begin = at + 1 + (texts[at + 1 : at + 2] == ["("])
    named = texts[begin : begin + 1] and texts[begin] in LABELS and texts[begin + 1 : begin + 2] == [")"]
    return begin + 2 if named else 0


def per_width(texts: list[str], at: int) -> int:
    """How many words 'per minute', 'per square metre' has that begins here; 0 if none does."""
    if texts[at : at + 1] != ["per"]:
        return 0
    return 3 if texts[at + 1 : at + 2] in (["square"], ["cubic"]) else 2
