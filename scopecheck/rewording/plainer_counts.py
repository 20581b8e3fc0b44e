"""Ways of writing how many there are, and of naming several things by their notes, said more plainly.

Used by `plainer.py`; what sums, pairs or names several things also before the words are first read.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, WORDS_OF_NUMBERS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.matching.spelled import GREAT
from scopecheck.matching.subjects import Subject
from scopecheck.matching.together import says_together
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_DETERMINERS = frozenset("a an the said".split())
_OTHER_WAYS = ("no less than", "not less than", "no more than", "not more than", "no fewer than")
_BESIDE = frozenset("above below higher lower greater smaller larger longer shorter later earlier".split())
_TOTALS = frozenset("totalling totaling totals total totalled totaled".split())


def with_names_noted(tokens: Tokens, subjects: Things, notes: tuple[str, ...]) -> Tokens:
    """`the total number of blades and vanes`, of n and m, noted so, with these names.

    So `the number of outlets`, of a count that is noted "outlets of the aerator".
    """
    if len(notes) != len(subjects):
        return tokens
    heads = [_counted_note(s, note) for s, note in zip(subjects, notes, strict=True)]
    if len(subjects) < 2 and " of " not in notes[0]:
        return tokens
    by_length = sorted(zip(subjects, heads, strict=True), key=lambda n: -len(n[1]))
    for subject, note in by_length:
        name, words = subject.text.lower().split(), [word_of(t) for t in tokens]
        named = any(words[i : i + len(name)] == name for i in range(len(words)))
        same = sum(note == other for _, other in by_length) > 1
        if not note or named or same or subject.parts is not None or not _DETERMINERS.isdisjoint(name):
            continue
        at = [i for i in range(len(words) - len(note) + 1) if _is_called(words[i : i + len(note)], note)]
        at = [i for i in at if not _goes_on(tokens[i + len(note) :]) and words[i - 1 : i] != ["no"]]
        at = [i for i in at if len(subjects) > 1 or words[max(0, i - 2) : i] == ["number", "of"]]
        for i in reversed(at):
            tokens = (
                *tokens[:i],
                *words_at(tokens[i], subject.text, understood=True),
                *tokens[i + len(note) :],
            )
    return tokens


def _goes_on(behind: Tokens) -> bool:
    """Does more than a limit follow: `the number of blades of the rotor`?"""
    if not behind or word_of(behind[0]) != "of":
        return False
    limits = listed("limits", "inside") - _DETERMINERS
    return not behind[1:] or not (behind[1].number or word_of(behind[1]) in limits)


def with_state_before_noun(tokens: Tokens, subject: Subject) -> Tokens:
    """`two of the valves are open at the same time`, of how many open valves there are, as two of these."""
    own, words = subject.text.lower().split(), [word_of(t) for t in tokens]
    state, noun = own[:-1], own[-1]
    if not state or not isinstance(subject.bound, Typed) or not subject.bound.whole:
        return tokens
    for at in range(1, len(words) - len(state) - 1):
        end = at + 2 + len(state)
        if words[at] != noun or words[at + 1] not in ("is", "are", "being") or words[at + 2 : end] != state:
            continue
        start = at - (words[at - 1] in _DETERMINERS)
        start -= words[start - 1] == "of"
        start -= words[start - 1] == ","
        end += run_at(words, end, "asides", "at_once") or run_at(words, end, "steps", "at_once")
        return (*tokens[:start], *words_at(tokens[at], subject.text), *tokens[end:])
    return tokens


def with_note_behind_name(tokens: Tokens, subjects: Things, notes: tuple[str, ...]) -> Tokens:
    """`the density after 2 hours is 80 % of the initial density`, of a stored density that is noted "after 2
    hours", by its name."""
    noted = zip(subjects, notes, strict=False) if len(subjects) > 1 else ()
    parts = ((s, part) for s, note in noted for part in (note, note.split(" (")[0], note.split(",")[0]))
    for subject, note in parts:
        name, words = subject.text.lower().split(), [_in_letters(word_of(t)) for t in tokens]
        said = _in_letters(note.lower())
        named = name[-1] in said.split()
        for at in range(len(words)) if " " in said else ():
            end = next((e for e in range(at + 1, len(words) + 1) if " ".join(words[at:e]) == said), 0)
            width = next((n for n in range(min(at, len(name)), 0, -1) if words[at - n : at] == name[-n:]), 0)
            if end and (width or named):
                called = words_at(tokens[at - width], subject.text, understood=width < len(name))
                return (*tokens[: at - width], *called, *tokens[end:])
    return tokens


def _in_letters(text: str) -> str:
    """`20 °C` as a note has it where it is written `20 degC`."""
    return text.replace("° c", "°c").replace("°", "deg")


def number_per_each(tokens: Tokens, subjects: Things) -> Tokens:
    """`the number of outlets per module is from 6 to 10`, of two counts, as 6 to 10 outlets per module."""
    words = [word_of(t) for t in tokens]
    whole = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    start = int(words[:1] != [] and words[0] in ("a", "the"))
    if not whole or "per" not in words or words[start : start + 2] != ["number", "of"]:
        return tokens
    per = words.index("per")
    first, second = (s.text.lower().split() for s in subjects)
    verb = per + 1 + len(second)
    called = words[start + 2 : per] == first and _is_called(words[per + 1 : verb], tuple(second))
    if not called or words[verb : verb + 1] not in (["is"], ["being"], ["of"]) or verb + 1 == len(words):
        return tokens
    return (*tokens[verb + 1 :], *tokens[start + 2 : verb])


def _counted_note(subject: Subject, note: str) -> tuple[str, ...]:
    """The words of a note; of a count those for what is counted: `outlets` of "outlets of the aerator"."""
    words = _plain_note(note)
    counted = isinstance(subject.bound, Typed) and subject.bound.whole and "of" in words[1:]
    return words[: words.index("of")] if counted and words[0] not in ("number", "pairs", "sets") else words


def _plain_note(note: str) -> tuple[str, ...]:
    words = tuple(note.lower().split())
    return words[1:] if words and words[0] in _DETERMINERS else words


def _is_called(words: list[str], note: tuple[str, ...]) -> bool:
    """Are these the words of the note, in the singular or the plural?"""
    return tuple(words[:-1]) == note[:-1] and words[-1].removesuffix("s") == note[-1].removesuffix("s")


def without_commas_round_equal(tokens: Tokens) -> Tokens:
    """`less than, or equal to, 8 mm` without the commas."""
    words = [word_of(t) for t in tokens]
    found = list(tokens)
    for run in (["or", "equal", "to"], ["or", "greater", "than"], ["or", "less", "than"]):
        width = len(run)
        for at in range(1, len(words) - width - 1):
            behind = at + 1 + width
            in_commas = words[at] == "," == words[behind] and words[at + 1 : behind] == run
            if in_commas and words[at - 1] in ("than", "to"):
                found[at] = found[behind] = replace(tokens[at], text="")
    return tuple(t for t in found if t.text)


def with_least_beside(tokens: Tokens) -> Tokens:
    """`no less than 10 °C above the inlet temperature` as at least 10 °C above it."""
    words = [word_of(t) for t in tokens]
    if _BESIDE.isdisjoint(words):
        return tokens
    for at in range(len(words) - 3):
        run = " ".join(words[at : at + 3])
        limits = run in _OTHER_WAYS and tokens[at + 3].number and words[at + 4 : at + 5]
        if limits and words[at + 4] in _BESIDE:
            side = "most" if words[at + 1] == "more" else "least"
            said = (replace(tokens[at], text="at"), replace(tokens[at + 1], text=side))
            return (*tokens[:at], *said, *tokens[at + 3 :])
    return tokens


def without_plurality(tokens: Tokens) -> Tokens:
    """`a plurality of at least three ribs` as at least three ribs."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] == ["a"])
    run = words[start : start + 4]
    return tokens[start + 2 :] if run in _PLURALITIES else tokens


_PLURALITIES = (
    ["plurality", "of", "at", "least"],
    ["plurality", "of", "from", "two"],
    ["plurality", "of", "more", "than"],
)


def with_pairs_counted(tokens: Tokens, subjects: Things) -> Tokens:
    """`at least two pairs of blades`, of how many blades there are, as at least four blades."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 2) if words[i : i + 2] == ["pairs", "of"]), 0)
    bound = subjects[0].bound
    counted = isinstance(bound, Typed) and bound.whole and "pair" not in subjects[0].text.lower()
    noun = " ".join(words[at + 2 :]).removesuffix("s")
    named = len(subjects) == 1 and subjects[0].text.lower().removesuffix("s") == noun
    number = _number_of(tokens[at - 1]) if at and counted and named else None
    if number is None or set(words[: at - 1]) - {"at", "least", "most", "exactly"}:
        return tokens
    doubled = replace(tokens[at - 1], sort="word", text=WORDS_OF_NUMBERS.get(2 * number, ""), number=None)
    return (*tokens[: at - 1], doubled, *tokens[at + 2 :]) if doubled.text else tokens


def _number_of(token: Token) -> int | None:
    return NUMBER_WORDS.get(word_of(token))


def with_total_of(tokens: Tokens, subjects: Things) -> Tokens:
    """`width and depth totalling at most 12 mm` as the two together being so."""
    words = [word_of(t) for t in tokens]
    if words[:3] == ["the", "numbers", "of"] and not {"together", "total"}.isdisjoint(words):
        return tokens[3:]
    at = next((i for i in range(3, len(words) - 1) if words[i] in _TOTALS), 0)
    before = [
        w for w in words[:at] if w not in _DETERMINERS and w not in ("number", "numbers", "of", "and", ",")
    ]
    names = [w for s in subjects for w in s.text.lower().split()]
    if len(subjects) < 2 or not at or sorted(before) != sorted(names):
        return tokens
    return (*tokens[:at], *words_at(tokens[at], "together are", understood=True), *tokens[at + 1 :])


def with_numbers_of_each(tokens: Tokens, subjects: Things) -> Tokens:
    """`the numbers of teeth of the sun gear and of the ring gear`, of sun teeth and ring teeth, by these."""
    names = [s.text.lower().split() for s in subjects if isinstance(s.bound, Typed) and s.bound.whole]
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 4) if words[i] in ("number", "numbers")):
        noun, end, found = words[at + 2], at + 3, list[list[str]]()
        while words[at + 1] == "of":
            joined = end + (bool(found) and words[end : end + 1] == ["and"])
            joined += words[joined : joined + 1] == ["of"]
            joined += words[joined : joined + 1] == ["the"]
            named = (n for n in names if len(n) > 1 and n[-1] == noun)
            name = next((n for n in named if words[joined : joined + len(n) - 1] == n[:-1]), None)
            if name is None or joined == end or name in found:
                break
            end = joined + len(name) - 1
            end += words[end : end + 1] in _OF_A_PART
            found.append(name)
        if found and words[at - 1] == "the" and (words[at] == "numbers") == (len(found) > 1):
            said = " and the ".join(" ".join(n) for n in found)
            called = words_at(tokens[at], said, understood=True)
            return with_numbers_of_each((*tokens[:at], *called, *tokens[end:]), subjects)
    return tokens


_OF_A_PART = [[part] for part in "gear wheel ring plate disc disk member row pinion sprocket".split()]


def with_different_number(tokens: Tokens, subjects: Things) -> Tokens:
    """`the number of blades differs from that of the vanes`, `the numbers of blades and vanes differ`."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        return tokens
    words = [w for t in tokens if (w := word_of(t)) not in _DETERMINERS]
    one, other = (s.text.lower().split() for s in subjects)
    for a, b in ((one, other), (other, one)):
        ways = (
            ["number", "of", *a, "differs", "from", "number", "of", *b],
            ["number", "of", *a, "differs", "from", "that", "of", *b],
            ["numbers", "of", *a, "and", *b, "differ"],
            ["numbers", "of", *a, "and", *b, "are", "different"],
            ["different", "number", "of", *a, "than", *b],
            ["different", "number", "of", *a, "and", *b],
        )
        if words in ways:
            said = f"number of {' '.join(a)} is different from number of {' '.join(b)}"
            return tuple(words_at(tokens[0], said, understood=True))
    return tokens


def with_outnumbering(tokens: Tokens, subjects: Things) -> Tokens:
    """`the blades outnumber the vanes by at least two` as more, or so many more, blades than vanes.

    `By a factor of 2 to 4` as 2 to 4 times the vanes.
    """
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        return tokens
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in _OUTNUMBERS), 0)
    by = words.index("by") if "by" in words[at:] else len(words)
    if words[by : by + 4] == ["by", "a", "factor", "of"] and words[at] in _OUTNUMBERS and len(words) > by + 4:
        times = words_at(tokens[-1], f"times the {subjects[1].text}")
        return (*tokens[by + 4 :], *times)
    before, behind = ([w for w in side if w not in _DETERMINERS] for side in (words[:at], words[at + 1 : by]))
    one, other = (s.text.lower().split() for s in subjects)
    if not at or before not in (one, other):
        return tokens
    if behind != (other if before == one else one):
        return tokens
    more = "exceeds" if by < len(words) else "is larger than"
    said = f"number of {' '.join(before)} {more} number of {' '.join(behind)}"
    return (*words_at(tokens[0], said, understood=True), *tokens[by:])


_OUTNUMBERS = ("outnumber", "outnumbers", "outnumbering")


def with_one_for_every(tokens: Tokens, subjects: Things) -> Tokens:
    """`a vane for each blade`, of two counts, as one vane for each blade."""
    words = [word_of(t) for t in tokens]
    counts = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    each = any(words[i : i + 2] in (["for", "each"], ["for", "every"]) for i in range(2, len(words)))
    if not counts or not each or words[0] not in ("a", "an"):
        return tokens
    return (replace(tokens[0], text="one"), *tokens[1:])


def with_number_per(tokens: Tokens, subjects: Things) -> Tokens:
    """`the number of sensors being at least one per four cells` as at least one sensors per four cells."""
    words = [word_of(t) for t in tokens]
    counts = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    own = subjects[0].text.lower().split()
    lead = next((n for n in (["the", "number", "of", *own], ["the", "number", "of", "the", *own])
                 if words[: len(n)] == n), [])  # fmt: skip
    per = next((i for i, w in enumerate(words) if w in ("per", "for") and i > len(lead) + 1), 0)
    if not counts or not lead or not per or words[len(lead)] not in ("is", "being"):
        return tokens
    return (
        *tokens[len(lead) + 1 : per],
        *words_at(tokens[per], " ".join(own), understood=True),
        *tokens[per:],
    )


def without_number_before(tokens: Tokens, subjects: Things) -> Tokens:
    """`the number of blades is not divisible by 3`, of such a number, without what it is.

    So `number at least eight`, where the word is a verb.
    """
    words = [word_of(t) for t in tokens]
    bound, own = subjects[0].bound, subjects[0].text.lower().split()
    counted = len(subjects) == 1 and isinstance(bound, Typed) and bound.whole
    if counted and words[:1] in (["number"], ["numbers"]) and words[1:2]:
        limited = words[1] in _NUMBERED or (tokens[1].number is not None and len(words) > 2)
        return tokens[1:] if limited else tokens
    article = words[:1] in (["the"], ["a"])
    end = next((i for i, w in enumerate(words) if w == "not"), 0)
    verb = end - (words[end - 1 : end] in (["is"], ["being"]))
    led = words[1:verb] in (["number", "of", *own], ["number", "of", "the", *own])
    return tokens[end:] if counted and end and article and led else tokens


_NUMBERED = frozenset(
    "at from between more less fewer not no up exactly over under about approximately".split()
).union(NUMBER_WORDS)


def without_names_before_each_other(tokens: Tokens, subjects: Things) -> Tokens:
    """`width and depth are within 1 mm of each other`, of both, without what they are."""
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    if len(names) != 2:
        return tokens
    for at in range(3, len(words) - 2):
        before = [w for w in words[:at] if w not in _DETERMINERS and w not in _BEFORE_EACH_OTHER]
        if before not in ([*names[0], "and", *names[1]], [*names[1], "and", *names[0]]):
            continue
        rest = words[at:]
        near = rest[0] == "within" and rest[-2:] in (["each", "other"], ["one", "another"])
        same = rest[:3] in (["equal", "to", "within"], ["same", "to", "within"])
        if near or same:
            return tokens[at:]
    return tokens


_BEFORE_EACH_OTHER = frozenset("is are being be lie lies both of".split())


def with_difference_between(tokens: Tokens, subjects: Things) -> Tokens:
    """`the rim and the gap differ by at most 10 % of the rim` as the difference between both being so much.

    So `the rim differs from the gap by`; other words stay as they are.
    """
    words = [word_of(t) for t in tokens]
    by = next((i + 1 for i, w in enumerate(words) if w == "by"), 0)
    names = [s.text.lower().split() for s in subjects]
    if len(names) != 2 or not 3 < by < len(words):
        return tokens
    before = [w for w in words[: by - 1] if w not in _DETERMINERS]
    for one, other in (names, names[::-1]):
        for differ in ("differ", "differs", "differing"):
            if before in ([*one, "and", *other, differ], [*one, differ, "from", *other]):
                said = f"the difference between {' '.join(one)} and {' '.join(other)} is"
                return (*words_at(tokens[0], said, understood=True), *tokens[by:])
    return tokens


def with_one_in_so_many(tokens: Tokens, subjects: Things) -> Tokens:
    """`at most one in a thousand`, `1 in 10`, of a share or a plain number, as that fraction."""
    bound = subjects[0].bound
    shares = len(subjects) == 1 and isinstance(bound, Typed) and not bound.whole
    if not shares or not isinstance(bound, Typed) or bound.kind is None or bound.kind.dimension:
        return tokens
    words, in_percent = [word_of(t) for t in tokens], bool(bound.unit and bound.unit.symbol)
    for at in range(len(words) - 2):
        behind = at + 1 + (2 if words[at + 1 : at + 3] == ["out", "of"] else 1)
        behind += words[behind : behind + 1] in (["a"], ["every"], ["each"])
        in_so_many = words[at + 1] == "in" or words[at + 1 : at + 3] == ["out", "of"]
        joined = in_so_many or (words[at + 1] == "per" and in_percent)
        of = _amount(tokens[behind : behind + 1])
        part = _amount(tokens[at : at + 1])
        if not joined or of is None or part is None or not 0 < part < of or of < _TEN:
            continue
        number = Number(f"{part}/{of}", Fraction(part, of), 0, None)
        fraction = Token("number", number.text, tokens[at].start, tokens[behind].end, number)
        return (*tokens[:at], fraction, *tokens[behind + 1 :])
    return tokens


_TEN = 10


def _amount(tokens: Tokens) -> int | None:
    """The whole number that one token is, in figures or in words; None for others."""
    if not tokens:
        return None
    number, word = tokens[0].number, word_of(tokens[0])
    if number is not None:
        return int(number.value) if number.unit is None and number.value.denominator == 1 else None
    return GREAT.get(word, NUMBER_WORDS.get(word))


def with_neither_as_not(tokens: Tokens) -> Tokens:
    """`neither above 80 % nor below 20 %`, `not above 80 % nor below 20 %` as not so and not so."""
    words = [word_of(t) for t in tokens]
    if words.count("nor") != 1:
        return tokens
    nor = words.index("nor")
    first = next((i for i, w in enumerate(words[:nor]) if w in ("neither", "not", "no")), None)
    if first is None or words[nor + 1 : nor + 2] == ["is"]:
        return tokens
    sides = words[first + 1 : first + 2], words[nor + 1 : nor + 2]
    if not all(side and (side[0] in _SIDES or side[0] in _VERBS) for side in sides):
        return tokens
    one, other = (
        [
            *words_at(tokens[i], "does not", understood=True),
            *words_at(tokens[i + 1], _VERBS[words[i + 1]], understood=True),
        ]
        if words[i + 1] in _VERBS
        else [*words_at(tokens[i], "not", understood=True), tokens[i + 1]]
        for i in (first, nor)
    )
    return (
        *tokens[:first],
        *one,
        *tokens[first + 2 : nor],
        *words_at(tokens[nor], "and", understood=True),
        *other,
        *tokens[nor + 2 :],
    )


_SIDES = frozenset("above below over under more less greater higher lower fewer larger smaller".split())
_VERBS = {"exceeds": "exceed", "falls": "fall", "drops": "drop", "rises": "rise", "goes": "go"}


def without_holding(tokens: Tokens, subjects: Things) -> Tokens:
    """`the queue holds more than 50 entries`, of how many it holds, as the queue being so."""
    for subject in subjects:
        words, own = [word_of(t) for t in tokens], subject.text.lower().split()
        counted = isinstance(subject.bound, Typed) and subject.bound.whole and subject.parts is None
        at = next((i for i in range(len(words) - len(own) - 1) if words[i : i + len(own)] == own), None)
        behind = len(own) + at if at is not None else 0
        others = {s.text.lower().removesuffix("s") for s in subjects if s is not subject}
        held = {w.removesuffix("s") for w in words[behind + 1 :]}
        if counted and behind and words[behind] in _HOLDS and held.isdisjoint(others):
            tokens = (*tokens[:behind], replace(tokens[behind], text="is"), *tokens[behind + 1 :])
    return tokens


_HOLDS = listed("parts", "holding")


def without_noted_lead(tokens: Tokens, subjects: Things, notes: tuple[str, ...]) -> Tokens:
    """`a confidence exceeding 0.95`, of what its note calls a confidence, without the noun; of a `diameter of
    the grains` without `diameters`."""
    note = _plain_note(notes[0]) if len(subjects) == len(notes) == 1 else ()
    words = [word_of(t) for t in tokens]
    start = int(words[:1] != [] and words[0] in _DETERMINERS)
    for called in (note, note[: note.index("of")] if "of" in note else ()):
        end = start + len(called)
        of = words[end : end + 1] == ["of"] and called != note
        limited = of or (words[end : end + 1] and words[end] in _EXCEEDING)
        if called and limited and _is_called(words[start:end], called):
            return tokens[end + of :]
    return tokens


_EXCEEDING = frozenset(
    "exceeding exceeds not above below over under greater less more at up between from".split()
)


def with_both_in_total(tokens: Tokens, subjects: Things) -> Tokens:
    """`oil and/or wax in a total amount of 2 wt%`, or at least one of them, as oil and wax in total.

    Of two or three with an amount behind a phrase says that one of them is there.
    """
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    places = sorted(_places(words, names))
    if len(names) < 2 or len(places) != len(names) or any(a[1] > b[0] for a, b in pairwise(places)):
        return tokens
    last = places[-1][1]
    if words[last : last + 1] and words[last] in _HAVE and not says_together(" ".join(words[: places[0][0]])):
        return tokens  # 'either the rim or the lip has a total height of': each has its own
    joined = any("or" in words[a[1] : b[0]] for a, b in pairwise(places))
    if not joined and not any(words[places[0][0] - len(run) : places[0][0]] == run for run in _OR_BOTH):
        return tokens
    shares = all(isinstance(s.bound, Typed) and s.bound.kind and not s.bound.kind.dimension for s in subjects)
    behind = not _AMOUNT_BEHIND.isdisjoint(words[last : last + 2])
    if behind and shares and len(names) < 4 and words[:4] in _OR_BOTH[1:3] and places[0][0] in (4, 5):
        return tokens
    found, at = list[Token](), 0
    for (_, end), (start, _) in pairwise(places):
        between = [w for w in words[end:start] if w not in (*_DETERMINERS, ",", "/", "and", "or")]
        if between:
            return tokens
        found += tokens[at:end]
        found += (replace(tokens[end], sort="word", text="and" if start == places[-1][0] else ","),)
        at = start
    found += tokens[at:]
    first = [word_of(t) for t in found]
    lead = next((run for run in _OR_BOTH if first[places[0][0] - len(run) : places[0][0]] == run), [])
    return (*found[: places[0][0] - len(lead)], *found[places[0][0] :])


_AMOUNT_BEHIND = frozenset(("in", "totalling", "totaling"))
_HAVE = frozenset("has have having is are being".split())
_OR_BOTH = (
    ["one", "or", "both", "of"],
    ["at", "least", "one", "of"],
    ["one", "or", "more", "of"],
    ["either", "of"],
    ["either"],
)


def _places(words: list[str], names: list[list[str]]) -> list[tuple[int, int]]:
    """Where each of the names stands first, and ends."""
    found = list[tuple[int, int]]()
    for name in names:
        at = next((i for i in range(len(words)) if words[i : i + len(name)] == name), None)
        found += [(at, at + len(name))] if at is not None else []
    return found


def with_counts_apart(tokens: Tokens, subjects: Things) -> Tokens:
    """`exceeds the number of lobes by at least one but not more than two`, `one or two more flutes than
    lobes`, as flutes minus lobes is so many."""
    counts = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    words = [word_of(t) for t in tokens]
    if not counts or sum(map(_is_plain_number, tokens)) < 2:
        return tokens
    for first, second in (subjects, subjects[::-1]):
        for apart, more, greater, less in (
            (_exceeding(words, second, first), "", first, second),
            (_more_than(words, "more", first, second), "more", first, second),
            (_more_than(words, "fewer", first, second), "fewer", second, first),
        ):
            limit = tokens[slice(*apart)] if apart else ()
            several = sum(map(_is_plain_number, limit)) > 1
            plain = all(_is_plain_number(t) or word_of(t) in _OF_SO_MANY for t in limit)
            if several and plain and (more or first is subjects[0] or first.text.lower() in words):
                put = tuple(words_at(limit[0], f"{greater.text} minus {less.text} is", understood=True))
                return (*put, *limit)
    return tokens


def _exceeding(words: list[str], second: Subject, first: Subject) -> tuple[int, int] | None:
    """Where the limit stands of `the number of flutes exceeds the number of lobes by`; None elsewhere."""
    at = next((i for i, w in enumerate(words) if w in ("exceeds", "exceed", "exceeding", "outnumber")), None)
    if at is None or _counted(words[:at]) not in ([], first.text.lower().split(), ["which"], ["that"]):
        return None
    by = words.index("by", at) if "by" in words[at:] else 0
    return (
        (by + 1, len(words)) if by and _counted(words[at + 1 : by]) == second.text.lower().split() else None
    )


def _more_than(words: list[str], more: str, first: Subject, second: Subject) -> tuple[int, int] | None:
    """Where the limit stands of `one or two more flutes than lobes`; None elsewhere."""
    at = words.index(more) if more in words else 0
    at = words.index(more, at + 2) if words[at + 1 : at + 2] == ["than"] and more in words[at + 2 :] else at
    than = words.index("than", at) if "than" in words[at:] else 0
    named = _counted(words[at + 1 : than]), _counted(words[than + 1 :])
    start = words[:1] in (["having"], ["has"], ["with"], ["comprising"], ["have"])
    return (
        (start, at)
        if at and than and named == tuple(s.text.lower().split() for s in (first, second))
        else None
    )


def _counted(words: list[str]) -> list[str]:
    """What is counted of `the number of the lobes`, without the words that say so."""
    return [w for w in words if w not in (*_DETERMINERS, "number", "of", "there", "are", "a")]


def _is_plain_number(token: Token) -> bool:
    number = token.number
    return (number is not None and number.unit is None) or word_of(token) in NUMBER_WORDS


_OF_SO_MANY = frozenset(
    "at least most not more less than no and but or to between by up , fewer either".split()
)


def with_share_of_them(tokens: Tokens, subjects: Things) -> Tokens:
    """`ribs, at most half of them perforated`, of ribs and perforated ribs, as at most half of the ribs are
    perforated ribs."""
    counts = len(subjects) == 2 and all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects)
    words = [word_of(t) for t in tokens]
    of = next((i for i in range(1, len(words) - 2) if words[i] == "of"), 0)
    if not counts or not of:
        return tokens
    for whole, some in (subjects, subjects[::-1]):
        name, part = whole.text.lower().split(), some.text.lower().split()
        own = next((n for n in _also(name) if words[of + 1 : of + 2 + len(n)] == ["the", *n]), [])
        end = of + 1 + (1 + len(own) if own else words[of + 1] in ("them", "which"))
        lead = next((len(n) for n in _also(name) if words[: len(n) + 1] == [*n, ","]), -1) + 1
        lead += lead > 0 and words[lead] == "with"
        said = words[end + (words[end : end + 1] in (["are"], ["being"])) :]
        called = [part, [w for w in part if w not in name]] if set(name) < set(part) else [part]
        if end > of + 1 and said in called and (own != [] or of - lead > 0) and said != []:
            share = any(t.number and t.number.unit for t in tokens[lead:of]) or "half" in words[lead:of]
            share = share or not word_lists()["fractions"].keys().isdisjoint(words[lead:of])
            if share and words[lead] not in name:
                put = tuple(words_at(tokens[of], f"of the {whole.text} are {some.text}"))
                return (*tokens[lead:of], *put[:-1], replace(put[-1], end=tokens[-1].end))
    return tokens


def _also(name: list[str]) -> list[list[str]]:
    return [name, ["the", *name]]


def with_units_of_the_last(tokens: Tokens) -> Tokens:
    """`3 and 5 mm, respectively` with the unit of the last number behind each."""
    numbers = [t.number for t in tokens if t.number]
    if not tokens or word_of(tokens[-1]) != "respectively" or len(numbers) < 2 or numbers[-1].unit is None:
        return tokens
    unit = numbers[-1].unit
    return tuple(
        replace(t, number=replace(t.number, unit=t.number.unit or unit)) if t.number else t for t in tokens
    )


def without_apart(tokens: Tokens, subjects: Things, notes: tuple[str, ...]) -> Tokens:
    """`not less than 8 hours apart` as so long; `hops spaced apart by 2 mm`, of a distance, as having it."""
    words = [word_of(t) for t in tokens]
    name = subjects[0].text.lower().split() if subjects else []
    noted = notes[0].lower().replace(",", " ").split() if notes else []
    distance = not DISTANCES.isdisjoint((*name, *noted))
    last = tokens[-2].number if len(tokens) > 1 and words[-1] == "apart" else None
    timed = last is not None and last.unit is not None and last.unit.kind.dimension == TIME
    if timed or (last is not None and distance and len(subjects) == 1):
        return tokens[:-1]
    for at in range(len(words) if distance and 1 <= len(subjects) <= 2 else 0):
        run = next((r for r in _SPACED if words[at : at + len(r)] == r), None)
        if run is None:
            continue
        end = at + len(run)
        begins = listed("limits", "inside") | {"half", "twice"}
        begun = end < len(tokens) and (tokens[end].number or words[end] in begins)
        if not begun or not _DENYING.isdisjoint(words[:at]) or any(t.number for t in tokens[:at]):
            return tokens
        start = at - (at > 0 and words[at - 1] in ("is", "are", "being"))
        lead = (*tokens[:start], *words_at(tokens[at], "having")) if start else ()
        return (*lead, *words_at(tokens[at], f"a {' '.join(name)} of"), *tokens[end:])
    return tokens


_SPACED = [
    [*spaced, by] for spaced in (["spaced", "apart"], ["spaced"], ["separated"]) for by in ("by", "at")
]
DISTANCES = frozenset("distance spacing gap clearance separation interval pitch".split())
_DENYING = frozenset("not no never neither nor without".split())


def with_ends_said(tokens: Tokens) -> Tokens:
    """`3 mm (excluded) to 5 mm (included)`, `3 mm inclusive to 5 mm exclusive` as between both so."""
    kept = [t for t in tokens if word_of(t) not in ("(", ")")]
    kept = kept[1:] if kept and word_of(kept[0]) in ("from", "between", "of") else kept
    words = [_ENDS.get(word_of(t), word_of(t)) for t in kept]
    at = [i for i, w in enumerate(words) if w in ("inclusive", "exclusive")]
    if at != [1, 4] or words[2] not in ("to", "and") or not (kept[0].number and kept[3].number):
        return tokens
    ends = (replace(kept[i], sort="word", text=words[i]) for i in at)
    one, other = ends
    return (
        *words_at(kept[0], "between", understood=True),
        kept[0],
        one,
        *words_at(kept[2], "and", understood=True),
        kept[3],
        other,
    )


_ENDS = {"included": "inclusive", "excluded": "exclusive", "including": "inclusive", "excluding": "exclusive"}


def with_each_multiple(tokens: Tokens) -> Tokens:
    """`a multiple of 3 or 4` as a multiple of 3 or a multiple of 4."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 3) if words[i : i + 2] == ["multiple", "of"]), None)
    if at is None or words[at + 3 : at + 4] != ["or"] or not tokens[at + 2].number:
        return tokens
    behind = at + 4 + (words[at + 4 : at + 5] == ["of"])
    if behind != len(words) - 1 or not tokens[behind].number:
        return tokens
    return (*tokens[: at + 4], *words_at(tokens[at + 3], "a multiple of", understood=True), tokens[behind])


def with_limit_before(tokens: Tokens) -> Tokens:
    """`deviates by 10 % at most` as by at most 10 %."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 3):
        behind = words[at + 2 : at + 4]
        if words[at] == "by" and tokens[at + 1].number and behind in (["at", "most"], ["at", "least"]):
            return (*tokens[: at + 1], *tokens[at + 2 : at + 4], tokens[at + 1], *tokens[at + 4 :])
    return tokens


def with_what_both_have(tokens: Tokens, subjects: Things) -> Tokens:
    """`both the shaft and the flight have a length of at least 9 mm`, of their lengths, as each of both."""
    words = [word_of(t) for t in tokens]
    have = next((i for i, w in enumerate(words) if w in ("have", "having")), 0)
    start = have + 1 + (words[have + 1 : have + 2] == ["a"])
    measure = words[start : start + 1]
    names = [s.text.lower().split() for s in subjects]
    if len(names) != 2 or words[:1] != ["both"] or not have or words[start + 1 : start + 2] != ["of"]:
        return tokens
    called = [w for w in words[1:have] if w not in _DETERMINERS]
    if any(name[-1:] != measure for name in names) or called != [*names[0][:-1], "and", *names[1][:-1]]:
        return tokens
    first, second = (s.text for s in subjects)
    return (*words_at(tokens[0], f"{first} and {second} are each", understood=True), *tokens[start + 2 :])


def with_limits_joined(tokens: Tokens, subjects: Things) -> Tokens:
    """`a width of 5 mm, the depth being half the width` with 'and' before what is said of the second thing.

    So `a depth which is half the width`, `a depth that is`.
    """
    words = [word_of(t) for t in tokens]
    for name in (s.text.lower().split() for s in subjects[1:]):
        for at in range(2, len(words) - len(name) - 1):
            end = at + len(name)
            if words[at:end] != name:
                continue
            if words[at - 2 : at] == [",", "the"] and words[end] == "being":
                joined = words_at(tokens[at - 2], "and")
                return (
                    *tokens[: at - 2],
                    *joined,
                    *tokens[at - 1 : end],
                    replace(tokens[end], text="is"),
                    *tokens[end + 1 :],
                )
            if words[end : end + 2] in (["which", "is"], ["that", "is"]) and words[at - 2] == "and":
                return (*tokens[:end], replace(tokens[end + 1], text="is"), *tokens[end + 2 :])
    return tokens


def with_which_named(tokens: Tokens, subjects: Things) -> Tokens:
    """`a width and a depth, each of which is less than 5 mm` as each of the width and the depth being so.

    So `neither of which`, `the larger of which`, `whose sum`; `of less than 5 mm each`.
    """
    if len(subjects) < 2:
        return tokens
    tokens = _with_least_named(tokens, subjects)
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    if len(subjects) == 2 and words[0] == "the" and words[2:5] == ["of", "the", "two"] and words[1] in _MANY:
        both = tuple(
            words_at(tokens[2], f"the {subjects[0].text} and the {subjects[1].text}", understood=True)
        )
        return _of_them(tokens[:2], both, tokens[5:])
    for lead in (["all", *_many_of(subjects), "of"], ["all", "of"]):
        if words[: len(lead)] == lead and (end := _listing(words[len(lead) :], names)):
            rest = tokens[len(lead) + end :]
            return _of_them(tokens[:1], tokens[len(lead) : len(lead) + end], rest)
    if words[:2] == ["all", *_many_of(subjects)] and words[2:3] != ["of"]:
        return _of_them(tokens[:1], tuple(words_at(tokens[1], _row(subjects), understood=True)), tokens[2:])
    if words[-1] == "respectively":
        return _with_names_before(tokens, names)
    end = _listing(words, names)
    if not end:
        return _without_each_of_some(tokens)
    ratio = next((i for i in range(end, min(end + 5, len(words))) if words[i] == "ratio"), 0)
    if (
        ratio
        and words[ratio + 1 : ratio + 2] == ["of"]
        and words[ratio + 2] in ("the", *(n[0] for n in names))
    ):
        return tokens[end + words[end:ratio].index("in") + 1 :] if "in" in words[end:ratio] else tokens
    listed, at = tokens[:end], end + (words[end : end + 1] == [","])
    listed, behind = (listed[1:] if words[0] in _LEADING else listed), words[at:]
    which = next((i for i in range(1, 5) if behind[i - 1 : i + 1] in (["of", "which"], ["of", "these"])), 0)
    if which and _MANY.issuperset(behind[: which - 1]):
        return _of_them(tokens[at : at + which - 1], listed, tokens[at + which + 1 :])
    if behind[:1] == ["whose"] and behind[1:2] and behind[1] in _OF_BOTH:
        the = words_at(tokens[at], "the", understood=True)
        return _of_them((*the, tokens[at + 1]), listed, tokens[at + 2 :])
    if behind[:2] in (["both", "being"], ["each", "being"], ["all", "being"]):
        return _of_them(tokens[at : at + 1], listed, tokens[at + 1 :])
    if behind[:1] in (["which"], ["that"]) and words[at + 1] not in ("is", "has"):
        return (*listed, *tokens[at + 1 :])
    if words[-1] == "each" and "each" not in words[:-1] and any(t.number for t in tokens[end:]):
        limit = tokens[end + (words[end] in ("of", "are", "being", "with", "having")) : -1]
        return _of_them(tokens[-1:], listed, (*words_at(tokens[end], "is", understood=True), *limit))
    return tokens


_LEADING = frozenset("having has with".split())
_OF_BOTH = {
    "sum": "of",
    "total": "of",
    "product": "of",
    "average": "of",
    "mean": "of",
    "ratio": "to",
    "difference": "between",
}
_MANY = frozenset(
    "each all both neither none either at least most one two three only exactly more than or no the smaller"
    " larger greater lesser smallest largest greatest longer shorter wider higher lower bigger any".split()
)
_MANY |= _OF_BOTH.keys()


def _listing(words: list[str], names: list[list[str]]) -> int:
    """How many words at the start name all of several things, each once, and nothing else; 0 if none do."""
    found, at = list[list[str]](), int(words[:1] != [] and words[0] in _LEADING)
    while at < len(words) and len(found) < len(names):
        at += words[at] in (",", "and")
        at += words[at : at + 1] == ["and"]
        at += words[at : at + 1] != [] and words[at] in _DETERMINERS
        name = max(
            (n for n in names if words[at : at + len(n)] == n and n not in found), key=len, default=None
        )
        if name is None:
            return 0
        found.append(name)
        at += len(name)
    return at if len(found) == len(names) and "and" in words[:at] else 0


def _of_them(which: Tokens, listed: Tokens, rest: Tokens) -> Tokens:
    """`each`, `the larger`, `the ratio` of what is listed, and what is said of it."""
    said = [word_of(t) for t in which]
    listed = tuple(replace(t, text="the") if word_of(t) in ("a", "an") else t for t in listed)
    if said in (["neither"], ["none"]) and "," not in map(word_of, listed):
        nor = tuple(replace(t, text="nor") if word_of(t) == "and" else t for t in listed)
        return (replace(which[0], text="neither"), *nor, *rest)
    which = (*words_at(which[0], "each", understood=True),) if said in (["both"], ["all"]) else which
    joined = _OF_BOTH.get(said[-1], "of")
    if joined == "to":
        listed = tuple(replace(t, text="to") if word_of(t) == "and" else t for t in listed)
        joined = "of"
    rest = tuple(
        replace(t, text="is") if i == 0 and word_of(t) in ("are", "being") else t for i, t in enumerate(rest)
    )
    return (*which, *words_at(listed[0], joined, understood=True), *listed, *rest)


def _with_least_named(tokens: Tokens, subjects: Things) -> Tokens:
    """`the largest of A, B and C is at most twice the smallest` with what it is the smallest of.

    So, of two things, `one of A and B is at least twice the other`.
    """
    words, names = [word_of(t) for t in tokens], [s.text.lower().split() for s in subjects]
    extremes = [i for i, w in enumerate(words) if w in _EXTREMES and words[max(0, i - 1)] != "at"]
    row = f"of {_row(subjects)}"
    last = len(words) - 1
    of_all = len(extremes) == 2 and extremes[1] == last and words[extremes[0] + 1] == "of"
    if of_all and _listing(words[extremes[0] + 2 :], names):
        return (*tokens, *words_at(tokens[last], row))
    if len(subjects) == 2 and words[:2] == ["one", "of"] and words[-2:] == ["the", "other"]:
        end = _listing(words[2:], names) + 2
        said = " ".join(words[end:-2])
        way = next((w for w, limits in _OF_ONE.items() if said.removeprefix("is ") in limits), "")
        many = (
            end > 2
            and not way
            and said.removeprefix("is ").startswith(("at least ", "more than "))
            and "times" in said
        )
        if way or many:
            first, second = ("larger", "smaller") if many else way.split()
            lead = words_at(tokens[0], f"the {first}")
            return (*lead, *tokens[1:-1], *words_at(tokens[last], f"{second} {row}"))
    return tokens


_OF_ONE = {
    "larger smaller": ("twice", "at least twice", "more than twice", "double", "at least double"),
    "smaller larger": (
        "half",
        "half of",
        "at most half",
        "at most half of",
        "less than half",
        "less than half of",
    ),
}
"""Which of two is limited by the other where one of them is said to be so, either one."""
_EXTREMES = listed("parts", "extremes")


def _with_names_before(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`5 to 10 wt% and 1 to 2 wt% of oil and wax, respectively` with the names before the amounts."""
    words = [word_of(t) for t in tokens]
    end = len(words) - 1 - (words[-2:-1] == [","])
    of = max((i for i in range(end) if words[i] == "of"), default=0)
    named = of and _listing(words[of + 1 : end], names) == end - of - 1
    if not named or not any(t.number for t in tokens[:of]):
        return tokens
    amounts = words_at(tokens[0], "in amounts of", understood=True)
    return (*tokens[of + 1 : end], *amounts, *tokens[:of], *tokens[end:])


def _many_of(subjects: Things) -> list[str]:
    return [w for w, n in NUMBER_WORDS.items() if n == len(subjects)][:1]


def _row(subjects: Things) -> str:
    names = [f"the {s.text}" for s in subjects]
    return f"{' , '.join(names[:-1])} and {names[-1]}"


def _without_each_of_some(tokens: Tokens) -> Tokens:
    """`at least two of the gap, the rim and the cap are each at least 2 mm` without what they are each."""
    words = [word_of(t) for t in tokens]
    of = words.index("of") if "of" in words[:5] else 0
    several = of and words[of - 1] in NUMBER_WORDS and not any(t.number for t in tokens[:of])
    at = next(
        (i for i in range(of + 1, len(words) - 2) if words[i : i + 2] in (["are", "each"], ["are", "both"])),
        0,
    )
    return (*tokens[: at + 1], *tokens[at + 2 :]) if several and at else tokens


def without_after(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`after at least 200 brewing cycles`, of a number of cycles, as at least 200 brewing cycles.

    `After 3 retries at the latest` is after at most 3 of them.
    """
    words = [word_of(t) for t in tokens]
    late = next((i for i in range(3, len(words) - 2) if " ".join(words[i : i + 3]) in _LATEST), 0)
    start = max((i for i in range(late) if words[i] == "after"), default=-1)
    many = tokens[start + 1].number if late and start >= 0 else None
    if late and start >= 0 and (words[start + 1] in NUMBER_WORDS or (many and many.unit is None)):
        most = words_at(tokens[start + 1], _LATEST[" ".join(words[late : late + 3])])
        said = (*tokens[: start + 1], *most, *tokens[start + 1 : late], *tokens[late + 3 :])
        plain = without_after(said, subjects)
        return plain if len(plain) < len(said) else tokens
    names = [s.text.lower().split()[-1] for s in subjects if isinstance(s.bound, Typed) and s.bound.whole]
    kept = list[Token]()
    for at, word in enumerate(words):
        first = at == 0 or words[at - 1] in ("and", "or", ",", "otherwise")
        number = next((i for i in range(at + 1, len(words)) if words[i] not in _OF_COUNTS), len(words))
        value = tokens[number].number if number < len(tokens) else None
        spelled = number < len(words) and words[number] in NUMBER_WORDS
        counts = spelled or (value is not None and value.unit is None)
        end = number + 1
        while counts and end < len(words) and (tokens[end].number or words[end] in _OF_COUNTS):
            end += 1
        if not (word == "after" and first and counts and any(n in words[end : end + 2] for n in names)):
            kept.append(tokens[at])
    return tuple(kept)


_LATEST = {"at the latest": "at most", "at the earliest": "at least"}
_OF_COUNTS = OF_LIMITS | {"but"}


def without_integers(tokens: Tokens, subjects: Things) -> Tokens:
    """`m and n each independently represent an integer of 1 to 3`, of counts, as `m and n are each 1 to 3`.

    That a count is whole says nothing. `An integer multiple` and `even integers` stay.
    """
    if len(subjects) < 2 or not all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        return tokens
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if i and w in ("integer", "integers")), 0)
    behind = words[at + 1 : at + 2]
    plain = bool(behind) and (behind[0] in _BEHIND_INTEGER or has_number(tokens[at + 1]))
    start = at - (words[at - 1] in ("an", "positive"))
    before = words[start - 1] in _BEFORE_INTEGER if start else False
    if not at or not plain or not before:
        return tokens
    end = at + 1 + (behind == ["of"] and words[at + 2 : at + 3] != ["the"])
    head = tokens[:start]
    if "independently" in words[:start]:  # of each, and not of the two together
        own = "each" not in words[:start] and "and" in words[:start]
        head = tuple(
            replace(t, text="each") if word_of(t) == "independently" else t
            for t in head
            if own or word_of(t) != "independently"
        )
    if words[start - 1] in ("represent", "represents", "denote", "denotes"):
        verb = "are" if words[at] == "integers" or "and" in words[:start] else "is"
        each = [t for t in head[-2:-1] if word_of(t) == "each"]
        head = (*head[: -1 - len(each)], replace(head[-1], text=verb), *each)
    return without_integers((*head, *tokens[end:]), subjects)


_BEHIND_INTEGER = frozenset("of from between at not no less more greater in".split())
_BEFORE_INTEGER = frozenset("is are each be being represent represents denote denotes independently".split())
