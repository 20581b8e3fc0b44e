"""Ways of writing that say nothing of their own: `0.5 W1`, `5 MPa (absolute)`, `50 nm or less in thickness`.

Used by `plainer.py` alone.
"""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.kinds import ABSOLUTE, GAUGE, TIME
from scopecheck.foundations.quantity import find_unit, kind_word, kind_words
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
_LITTLE = frozenset("a an the is are was were be being has have had having with of which that".split())
_MEASURED_FROM = {ABSOLUTE: "(a)", GAUGE: "(g)"}
_JOINERS = ("to", "and", "-", "–")
_BEHIND_COLON = ("of", "from", "following", "by")


def with_times_before_name(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`W2 is at least 0.5 W1`, `2D to 5D`, as 0.5 times W1, 2 to 5 times D; a count before a name counts."""
    if len(subjects) < 2:
        return tokens
    for subject in subjects:
        own, bound = subject.text.lower().split(), subject.bound
        if not isinstance(bound, Typed) or bound.whole or subject.parts is not None:
            continue
        words, found = [word_of(t) for t in tokens], list[Token]()
        at = 0
        while at < len(tokens):
            token, behind = tokens[at], at + 1 + len(own)
            found.append(token)
            at += 1
            if not _is_plain(token) or words[at:behind] != own:
                continue
            other = behind + 1
            joined = (
                behind < len(words) and words[behind] in _JOINERS and _is_plain(*tokens[other : other + 1])
            )
            if joined and words[other + 1 : other + 1 + len(own)] == own:
                at = behind  # the last one says of what they are
                continue
            found.append(replace(token, sort="word", text="times", number=None, start=token.end))
        tokens = tuple(found)
    return tokens


def with_carbon_atoms(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`a C1-C6 alkyl group`, of a number of carbon atoms, as an alkyl group having 1 to 6 of them."""
    called = f"{subject.text} {' '.join(notes)}".lower()
    whole = isinstance(subject.bound, Typed) and subject.bound.whole
    if not whole or "carbon" not in called:
        return tokens
    found, at = list[tuple[int, int, tuple[str, str], str]](), 0
    while at < len(tokens):
        for width in (3, 1):
            run = tokens[at : at + width]
            m = _CARBONS.fullmatch(" ".join(t.text for t in run))
            if m and all(t.sort == "word" for t in run):
                found.append((at, at + width, (m["least"], m["most"]), m["of"] or ""))
                at += width - 1
                break
        at += 1
    if len(found) != 1:
        return tokens
    start, end, ends, of = found[0]
    around = (*tokens[max(start - 1, 0) : start], *tokens[end : end + 1])
    bracketed = [t.text for t in around] == ["(", ")"]
    first, last = tokens[start], tokens[end - 1]
    named = (replace(first, text=of, end=first.start),) if of else ()
    bearer = (*tokens[: start - bracketed], *named, *tokens[end + bracketed :])
    if any(t.number or t.sort != "word" or word_of(t) in _NO_BEARER for t in bearer):
        return tokens
    least, most = (Token("number", n, first.start, last.end, Number(n, Fraction(n), 0, None)) for n in ends)
    if bearer and word_of(bearer[0]) in ("a", "an", "the", "said"):
        bearer = bearer[1:]
    name = words_at(last, subject.text, understood=True)
    numbers = (least, *words_at(first, "to", understood=True), most, *name)
    if not bearer:
        return numbers
    having = (replace(t, start=bearer[-1].end) for t in words_at(bearer[-1], "having", understood=True))
    return (*words_at(bearer[0], "a", understood=True), *bearer, *having, *numbers)


_CARBONS = regex(r"\(?C_?(?P<least>\d{1,2})(?:-| to |–)C?_?(?P<most>\d{1,2})(?:\)?-(?P<of>[a-z]+))?\)?")
_NO_BEARER = frozenset(
    "or and not no without except but other than of to if when at least most each atom atoms carbon carbons"
    " position positions".split()
)


def _is_plain(*tokens: Token) -> bool:
    return bool(tokens) and all(t.number is not None and t.number.unit is None for t in tokens)


def with_pressure_in_brackets(tokens: Tokens) -> Tokens:
    """`0.1 to 5 MPa (absolute)`, `an absolute pressure of 0.1 to 5 MPa`, with the unit that says so."""
    words = [word_of(t) for t in tokens]
    for from_, mark in _MEASURED_FROM.items():
        at = next((i for i in range(1, len(words) - 2) if words[i : i + 3] == ["(", from_, ")"]), 0)
        before = next((i for i in range(len(words) - 1) if words[i : i + 2] == [from_, "pressure"]), None)
        if not at and before is None:
            continue
        marked = [_marked(t, mark) for t in tokens]
        if all(a is b for a, b in zip(marked, tokens, strict=True)):
            continue
        return (*marked[:at], *marked[at + 3 :]) if at else (*marked[:before], *marked[(before or 0) + 1 :])
    return tokens


def _marked(token: Token, mark: str) -> Token:
    unit = token.number.unit if token.number else None
    known = find_unit(f"{unit.symbol}{mark}") if unit is not None else None
    return (
        token
        if known is None or token.number is None
        else replace(token, number=replace(token.number, unit=known))
    )


def without_own_measure_behind(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`50 nm or less in thickness`, `5 to 10 cm long`, without what it is, where its note says so.

    So 'long' where neither name nor note says which of its lengths a thing has.
    """
    words = [word_of(t) for t in tokens]
    apart = len(words) > 3 and words[-2] == "in"
    measure = words[-1] if apart else SAYS_WHICH.get(words[-1], "") if len(words) > 1 else ""
    return tokens[: -2 if apart else -1] if _is_its_measure(measure, subject, notes) else tokens


def _is_its_measure(measure: str, subject: Subject, notes: tuple[str, ...]) -> bool:
    """Do its name or its notes say that it is measured by that? Else a length has its length alone."""
    noted = {w.strip(",;()") for text in (subject.text, *notes) for w in text.lower().split()}
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    unsaid = kind is not None and kind.dimension == (("length", 1),)
    if measure in noted and measure in listed("measures", "nouns"):
        return True
    return measure == "length" and unsaid and listed("measures", "dimensions").isdisjoint(noted)


def without_measures_behind(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`the rail is at most 340 mm long when the arm is 300 mm long`, of both, without what each is."""
    words = [word_of(t) for t in tokens]
    kept, last = list[Token](), -1
    for at, word in enumerate(words):
        named = (i for i, s in enumerate(subjects) if words[at : at + len(n := s.text.lower().split())] == n)
        last = next(named, last)
        measure = SAYS_WHICH.get(word, "") if at and tokens[at - 1].number and last >= 0 else ""
        if not measure or not _is_its_measure(measure, subjects[last], notes[last : last + 1]):
            kept.append(tokens[at])
    return tuple(kept)


SAYS_WHICH = {
    "long": "length", "wide": "width", "thick": "thickness",
    "high": "height", "tall": "height", "deep": "depth",
}  # fmt: skip


def without_what_is_noted(tokens: Tokens, notes: tuple[str, ...]) -> Tokens:
    """`at least 90 % of the particles have a diameter below 100 um` without what the note says as well."""
    of = next((i for i, t in enumerate(tokens[1:], 1) if word_of(t) == "of" and tokens[i - 1].number), 0)
    behind = _said(" ".join(t.text for t in tokens[of + 1 :]))
    return tokens[:of] if of and len(behind) > 1 and behind in map(_said, notes) else tokens


def _said(text: str) -> list[str]:
    plain = text.lower().replace("µ", "u").replace("μ", "u").replace(",", " ")
    return [w for w in plain.split() if w not in _LITTLE]


def without_basis_of_share(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`by weight, 20 to 40 % A`, `more than half of the paste by weight`, of such a share, without it."""
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed)]
    words = [word_of(t) for t in tokens]
    kind = kinds[0] if len(kinds) == len(subjects) == 1 else None
    if kind is None or kind.dimension or len(words) < 4:
        return tokens
    basis = kind.split[0]
    if words[0] == "by" and BY_WHAT.get(words[1]) == basis:
        left = tokens[2 + (words[2] == ",") :]
    elif words[-2] == "by" and BY_WHAT.get(words[-1]) == basis and not tokens[-3].number:
        left = tokens[:-2]
    else:
        return tokens
    return tuple(
        replace(t, number=replace(t.number, unit=find_unit(PERCENT[basis])))
        if t.number and is_bare_share(t)
        else t
        for t in left
    )


def without_colon(tokens: Tokens) -> Tokens:
    """`two or more of: silver; gold; and copper` without the colon, and with commas."""
    return tuple(
        replace(t, text=",") if t.text == ";" else t
        for i, t in enumerate(tokens)
        if t.text != ":" or not i or word_of(tokens[i - 1]) not in _BEHIND_COLON
    )


def without_intervals(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at intervals of about 5 s`, or shorter than that, `after at least 10 s have elapsed` as so long.

    So is `for at least 2 hours`, of how long a step takes.
    """
    words = [word_of(t) for t in tokens]
    if len(words) < 4:
        return tokens
    if words[0] in _AT and words[1] in _EVENLY and words[2] == "intervals":
        return without_intervals((tokens[0], *tokens[2:]), subjects)  # one number is the same each time
    spaced = words[0] in _AT and words[1] == "intervals"
    if spaced and words[2] != "of":
        return tokens[2:] if words[2] in _LIMITING | listed("limits", "inside") else tokens
    if spaced:
        ranging = tokens[3].number is None or not {"to", "-", "or", "±", "+/-", "plus"}.isdisjoint(words[4:])
        return tokens[3:] if ranging else tokens
    leads = ["after"]
    if subjects[0].text.lower().startswith("duration of "):
        leads.append("for")
    timed = any(t.number and t.number.unit and t.number.unit.kind.dimension == TIME for t in tokens)
    if timed and words[0] in leads and (words[0] == "for" or words[1] in _LIMITING):
        over = words[-1] in ("elapsed", "passed") and words[-2] in ("has", "have")
        return tokens[1 : len(tokens) - 2 * over]
    return tokens


_AT = ("at", "in", "with")
_EVENLY = frozenset("regular equal fixed constant uniform even time".split())
_LIMITING = frozenset("at no not less more up between from".split())


def without_relative(tokens: Tokens, subject: Subject) -> Tokens:
    """`a fat content which is not less than 18 %`, of such a content, as not less than 18 %."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] in (["a"], ["an"], ["the"]))
    end = start + len(subject.text.split())
    named = words[start:end] == subject.text.lower().split()
    clause = words[end : end + 1] in (["which"], ["that"]) and words[end + 1 : end + 2] in (["is"], ["are"])
    return tokens[end + 2 :] if named and clause else tokens


def without_thereof(tokens: Tokens, subject: Subject) -> Tokens:
    """`free of gum or contains at most 0.1 wt% thereof`, of the gum, as free of gum or at most 0.1 wt%."""
    words = [word_of(t) for t in tokens]
    if not isinstance(subject.bound, Typed) or not any(t.number for t in tokens):
        return tokens
    end = next((len(run) for run in _THEREOF if words[-len(run) :] == run), 0)
    kept = tokens[: len(tokens) - end]
    free = any(words[i : i + 2] in (["free", "of"], ["free", "from"]) for i in range(2))
    holding = listed("asides", "holding")
    return tuple(
        t for i, t in enumerate(kept) if not (free and i and words[i - 1] == "or" and words[i] in holding)
    )


_THEREOF = (["thereof"], ["of", "it"], ["of", "the", "same"])


def without_inclined(tokens: Tokens, subject: Subject) -> Tokens:
    """`each inclined at an angle of 20 degrees`, `one vane inclined by more than 50 degrees`, of an angle,
    as each at an angle of so much, and one having more than so much."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    angle = kind is not None and kind.dimension == _ANGLE
    found: list[Token] = []
    words = [word_of(t) for t in tokens]
    at = 0
    while at < len(tokens):
        by = angle and words[at] in _INCLINED and words[at + 1 : at + 2] in (["at"], ["by"], ["with"])
        found.append(replace(tokens[at], text="having") if by else tokens[at])
        at += 1 + by
    return tuple(found)


_INCLINED = ("inclined", "tilted", "angled", "slanted", "rotated")
_ANGLE = (("angle", 1),)


def with_noted_plural(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`only one layer`, of a number of what the note calls layers, by that word."""
    if not isinstance(subject.bound, Typed) or not subject.bound.whole:
        return tokens
    plurals = {w.removesuffix("s"): w for note in notes for w in note.lower().split() if w.endswith("s")}
    return tuple(replace(t, text=plurals.get(word_of(t), t.text)) if t.sort == "word" else t for t in tokens)


def with_each_first(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`every rib has a height of at least 2 mm`, of like parts, as each rib."""
    every = subjects[0].parts is not None and len(tokens) > 2 and word_of(tokens[0]) == "every"
    return (replace(tokens[0], text="each"), *tokens[1:]) if every else tokens


def with_per_unit(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`0.4 to 0.8 mg of the drug per kg of body weight`, of the drug, as 0.4 to 0.8 mg/kg of body weight."""
    words = [word_of(t) for t in tokens]
    number = max((i for i, t in enumerate(tokens) if t.number and t.number.unit), default=-1)
    per = words.index("per") if number >= 0 and "per" in words[number:] else 0
    named = [w for w in words[number + 1 : per] if w not in _DETERMINERS]
    last = tokens[number].number if per else None
    if last is None or last.unit is None or named != ["of", *subjects[0].text.lower().split()]:
        return tokens
    unit = find_unit(f"{last.unit.symbol}/{tokens[per + 1].text}") if per + 1 < len(tokens) else None
    if unit is None:
        return tokens
    made = tuple(
        replace(t, number=replace(t.number, unit=unit)) if t.number and t.number.unit == last.unit else t
        for t in tokens[: number + 1]
    )
    behind = tokens[per + 2 :]
    said = behind and word_of(behind[0]) != "of"
    return (*made, *((replace(behind[0], text="of", end=behind[0].start),) if said else ()), *behind)


def with_number_said(tokens: Tokens) -> Tokens:
    """`no more than a single layer`, `at least a pair of layers`, with the number that these are."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 2):
        for run, number in _NUMBERS_SAID.items():
            if words[at - 1] in _LIMITED and tuple(words[at : at + len(run)]) == run:
                return (*tokens[:at], replace(tokens[at], text=number), *tokens[at + len(run) :])
    return tokens


_LIMITED = frozenset("least most than to".split())
_NUMBERS_SAID = {("a", "single"): "one", ("a", "pair", "of"): "two", ("a", "dozen"): "twelve"}


def without_short_name(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`a water activity (aw) of`, `a water activity aw < 0.6`, without the sign that stands for the name."""
    said = [word_of(t) for t in tokens]
    names = {tuple(text.lower().split()) for text in (*(s.text for s in subjects), *notes)}
    for name in (n for n in names if n and len(n[-1]) > _LONGEST_SIGN):
        for at in (i for i in range(len(said)) if tuple(said[i : i + len(name)]) == name):
            end = at + len(name)
            sign = said[end : end + 3]
            if len(sign) == 3 and (sign[0], sign[2]) == ("(", ")") and _is_sign(sign[1], said):
                return (*tokens[:end], *tokens[end + 3 :])
            compared = sign[1:2] and (tokens[end + 1].sort == "sign" or sign[1] in ("less", "more", "at"))
            if (
                compared
                and _is_sign(sign[0], said)
                and tokens[end].sort == "word"
                and not _is_verb(tokens[end])
            ):
                return (*tokens[:end], *tokens[end + 1 :])
    return tokens


def _is_sign(word: str, said: list[str]) -> bool:
    """May it be a sign for a name, which the words have once?"""
    known = word in listed("limits", "inside") or word in NUMBER_WORDS or find_unit(word) is not None
    return word.isalpha() and len(word) <= _LONGEST_SIGN and not known and said.count(word) == 1


_LONGEST_SIGN = 4


def _is_verb(token: Token) -> bool:
    """May this be a word of its own, as in `the soaking ends at least`, and no sign for a name?"""
    plain = token.text.islower() and len(token.text) > 2
    return plain and not _VOWELS.isdisjoint(token.text)


_VOWELS = frozenset("aeiouy")


_AREA_PER_MASS = (("length", 2), ("mass", -1))


def without_own_kind(tokens: Tokens, subject: Subject) -> Tokens:
    """`a temperature difference of at least 5 K`, of such a difference, without what it is."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in _DETERMINERS), 0)
    words = [word_of(t) for t in tokens[start:]]
    if words[:3] == ["specific", "surface", "area"] and kind is not None and kind.dimension == _AREA_PER_MASS:
        return tokens[start + 3 + (words[3:4] in (["of"], ["is"], ["being"])) :]
    for name in kind_words() if kind is not None else ():
        run = name.split()
        run = run[-1:] if run[-1] == "difference" and words[:1] == run[-1:] else run
        said = " " in name and words[: len(run)] == run and len(words) > len(run) + 1
        known = kind_word(name) if said else None
        if known is not None and kind is not None and known.accepts(kind):
            return tokens[start + len(run) + (words[len(run)] in ("of", "is", "being")) :]
    return tokens


_DETERMINERS = frozenset(("a", "an", "the", "its", "said"))


def without_of_again(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`made of polyester or of triacetate`, of a list, without the second 'of'."""
    words = [word_of(t) for t in tokens]
    members = isinstance(subjects[0].bound, SetDecl | ChoiceDecl)
    again = {i for i in range(1, len(words)) if words[i] == "of" and words[i - 1] in ("or", "and")}
    return tuple(t for i, t in enumerate(tokens) if not (members and i in again))


def without_leading_by(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`by 60° to 90°`, of an angle, of what something is changed by by its note, or of so much per something:
    without the first word.
    """
    bound = subjects[0].bound
    if len(subjects) != 1 or not isinstance(bound, Typed) or bound.kind is None or word_of(tokens[0]) != "by":
        return tokens
    changed = bound.kind.dimension == (("angle", 1),) or any(
        note.lower().startswith("by which ") for note in notes
    )
    changed = changed or (bound.unit is not None and "/" in bound.unit.symbol)
    limited = len(tokens) > 1 and (tokens[1].number or word_of(tokens[1]) in _LIMITING)
    return tokens[1:] if changed and limited else tokens
