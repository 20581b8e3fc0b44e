"""What words say that a switch does, beside what it is called: 'opens', 'is off', 'closes the valve'.

A switch is named for one of two states ('valve open'); words of the same side say that it is so, those of the
other that it is not. Words that say anything besides are not taken for a state.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl
from scopecheck.core.formula import OTHERS, Chosen, Formula
from scopecheck.foundations.word_lists import runs_in_order, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.occurrences.readings import is_switch

_SAYS_HOW = ("ed", "ing", "able", "ible")
"""By its end a word like 'dimmed' tells how a thing is, and names none."""
_LONGEST_NOUN = 4
"""Words of the thing that is switched, behind its article."""


def state_of(tokens: tuple[Token, ...], name: str, others: frozenset[str]) -> bool | None:
    """Whether the words say that the switch of this name is so, or not so; None where they say neither.

    `others` are words that speak of something else: 'the door is open' says nothing of a valve.
    """
    own, mine = set(name.lower().split()), noun_of(name)
    said = _with_own_forms(_without_longer(_switched_to([word_of(t) for t in tokens])), name)
    said = _as_present(_without_object(said, name), name)
    if said[:1] == ["no"] and said[1:2] and said[1] in own | {*_BE}:
        said[0] = "not"  # 'no alarm is issued', with or without what is called so
    sides = _sides(name)
    said = _of_a_change(_in_one_word(said, sides, own), sides)
    told = [sides[w] for w in said if w in sides]
    negated = "not" in said
    prevented = any(w in listed("switching", "preventing") and sides.get(w) is False for w in said)
    if told and (_says_another(said, name, sides) or (negated and prevented)):
        return None  # what is not inhibited need not be so
    alone = set(said) - own <= {"is", "are", "be", "being", "not"}
    if said.count("not") > 1:
        return None
    if not told and own <= set(said) and (alone or name.lower().endswith(_SAYS_HOW)):
        told = [True]  # 'is dimmed', of what is called dimmed; 'is hollow', of what is called so
        mine = frozenset(w for w in mine if not w.endswith(_SAYS_HOW))
    if len(told) != 1 or any(t.sort != "word" for t in tokens) or not others.isdisjoint(said):
        return None
    kept, nouns = _parted(said, set(sides))
    if _is_done_by(said, nouns, mine, set(sides)):
        nouns = nouns[1:]
    rest = [w for w in kept if w not in sides and w not in own and w != "not"]
    if any(w not in listed("switching", "beside") for w in rest):
        return None
    if mine and any(
        noun and (mine.isdisjoint(noun) or _is_of_another(noun, own) or _is_beside(noun, mine))
        for noun in nouns
    ):
        return None
    if not mine and (len(nouns) > 1 or any(own.intersection(noun[1:]) for noun in nouns)):
        return None  # 'the controller curbs charging' says nothing of charging that is known
    if any(_does_something(noun, own) for noun in nouns):
        return None
    return told[0] is not negated


def _says_another(said: list[str], name: str, sides: dict[str, bool]) -> bool:
    """`the lamp is off`, of what is called lamp dimmed or lamp flashing: then it is so of another state."""
    own = name.lower().split()
    how = [w for w in own if w.endswith(_SAYS_HOW) and len(w) > _SHORT and not w.endswith("eed")]
    if not how or not sides.keys().isdisjoint(own):
        return False
    return any(not w.endswith("ing") for w in how) or (len(own) > 1 and not set(how) <= set(said))


def _in_one_word(said: list[str], sides: dict[str, bool], own: set[str]) -> list[str]:
    """`is at rest` as stopped, `lights up` as lights, where that word is one of the two states."""
    for at in range(len(said)):
        for run, word in _IN_ONE_WORD:
            if said[at : at + len(run)] == run and word in sides and own.isdisjoint(run[-1:]):
                return [*said[:at], word, *said[at + len(run) :]]
    return said


_IN_ONE_WORD = [
    (run.split(), word)
    for word, runs in {
        "stopped": (
            "at rest", "at a standstill", "standing still", "stationary", "shut down", "powered down",
            "at standstill",
        ),
        "stops": ("comes to rest", "comes to a standstill", "stands still", "shuts down", "powers down"),
        "stopping": ("shutting down", "powering down"),
        "starts": ("starts up", "powers up", "start up"), "started": ("started up", "powered up"),
        "lights": ("lights up", "light up"), "lit": ("lit up",),
    }.items()
    for run in runs
]  # fmt: skip


def _switched_to(said: list[str]) -> list[str]:
    """`changes over to charging` as switches to it, what is done."""
    for at in range(len(said) - 1):
        run = next((r for r in _OVER_TO if said[at : at + len(r)] == r), [])
        if run and said[at + len(run) : at + len(run) + 1] != [] and said[at + len(run)].endswith("ing"):
            return [*said[:at], "switches", "to", *said[at + len(run) :]]
    return said


_OVER_TO = [
    f"{verb}{end} {way}".split()
    for verb, ends in (("switch", ("", "es")), ("change", ("", "s")), ("go", ("", "es")))
    for end in ends for way in ("to", "over to", "back to")
]  # fmt: skip


def _without_longer(said: list[str]) -> list[str]:
    """`is no longer inhibited` as is not inhibited; `takes place` as occurs."""
    place = next((i for i in range(len(said) - 1) if said[i] in _TAKES and said[i + 1] == "place"), None)
    if place is not None:
        said = [*said[:place], "occurs", *said[place + 2 :]]
    at = next((i for i in range(len(said) - 1) if said[i : i + 2] == ["no", "longer"]), None)
    return said if at is None else [*said[:at], "not", *said[at + 2 :]]


_TAKES = ("take", "takes", "taking")


def _as_present(said: list[str], name: str) -> list[str]:
    """`the cap has a liner`, `has no liner`, of what is called liner, as that it is present or not."""
    own = name.lower().split()
    start = len(said) - len(own)
    if start < 2 or said[start:] != own or said[start - 1] not in ("a", "an", "no"):
        return said
    has = start - 2
    who, denied = said[:has], said[start - 1] == "no"
    if who[-2:] in (["does", "not"], ["do", "not"]) and not denied:
        who, denied = who[:-2], True
    plain = not who or (who[0] in _ARTICLES and 1 < len(who) <= _LONGEST_NOUN)
    if not plain or said[has] not in _HAVING or not _OF_MORE.isdisjoint(who[1:]):
        return said
    return [*own, "is", *["not"][: int(denied)], "present"]


_HAVING = frozenset("has have having comprises comprise comprising includes include including".split())
_OF_MORE = frozenset("a an the said its of with and or not no does do that which".split())


def _with_own_forms(said: list[str], name: str) -> list[str]:
    """`discards`, of what is called discarded, and `charges`, of charging, as that.

    What is charged, and not being charged, is so when it is full.
    """
    if len(name.split()) > 1 or not name.lower().endswith(("ing", "ed")) or name.lower() in said:
        return said
    own, charged = name.lower(), name.lower().endswith("ing")
    found = list[str]()
    for at, word in enumerate(said):
        other = word in (own, "") or not _is_form_of(word, own)
        full = charged and word.endswith("ed") and said[at - 1 : at] != ["being"]
        found.append(word if other or full else own)
    return found


def _without_object(said: list[str], name: str) -> list[str]:
    """`stops charging the battery`, `charging of the battery is stopped`, without the battery."""
    own = name.lower().split()
    places = [i for i, w in enumerate(said) if w in own and w.endswith("ing")]
    if len(places) != 1:
        return said
    at = behind = places[0] + 1
    behind += said[behind : behind + 1] == ["of"]
    if (
        said[behind : behind + 1] == []
        or said[behind] not in ("the", "its", "said")
        or behind + 2 > len(said)
    ):
        return said
    noun, then = said[behind + 1], said[behind + 2 : behind + 3]
    ends = listed("switching", "beside") | _sides(name).keys() | {"not"}
    plain = noun not in ends | _WHICH and (then == [] or then[0] in ends)
    thing = len(own) == 1 or noun in own
    return [*said[:at], *said[behind + 2 :]] if plain and thing else said


def _of_a_change(said: list[str], sides: dict[str, bool]) -> list[str]:
    """`opening of the valve is prevented`, `inhibits opening of the valve`, as the valve not opening.

    What is not prevented need not be so.
    """
    change = next((i for i, w in enumerate(said) if w in sides and w.endswith("ing")), None)
    if change is None:
        return said
    of = said[change + 1 : change + 3]
    noun = said[change + 3 : change + 4] if of in (["of", "the"], ["of", "its"], ["of", "an"]) else []
    behind = change + 4 if noun else change + 1
    its = ["the", *noun] if noun else []
    prevented = listed("switching", "preventing") - {w for w in sides if sides[w]}
    be = said[behind : behind + 1] in (["is"], ["are"], ["being"])
    if be and change == 0 and len(said) == behind + 2 and said[behind + 1] in prevented:
        return [*its, "not", said[change]]
    before = change - (said[change - 1 : change] == ["the"])
    if behind == len(said) and before > 0 and said[before - 1] in prevented:
        who = said[: before - 1]
        alone = who == [] or (who[0] in _ARTICLES and len(who) <= _LONGEST_NOUN)
        plain = alone and {"not", "of"}.isdisjoint(who) and _ARTICLES_IN.isdisjoint(who[1:])
        return [*its, "not", said[change]] if plain else said
    return [*its, said[change]] if noun and change == 0 and behind == len(said) else said


def _does_something(noun: list[str], own: set[str]) -> bool:
    """`system withholds alarm`: a verb within what would be taken for a noun."""
    places = [i for i, w in enumerate(noun) if w in own]
    before = noun[1 : places[-1]] if places else noun[1:]
    return any(w.endswith("s") and not w.endswith(("ss", "us")) and len(w) > _SHORT for w in before)


def state_among(
    tokens: tuple[Token, ...], choice: ChoiceDecl, others: frozenset[str]
) -> tuple[str, bool] | None:
    """Of two opposite states, `on` and `off`, the one that the words speak of, `activates the pump`, and
    whether it is so: `does not open` is not open, and perhaps something else than closed. None for neither.
    """
    members = [m for m in choice.members if m != OTHERS]
    positive = tuple(t for t in tokens if word_of(t) != "not")
    denied = len(positive) < len(tokens)
    prevented = denied and not listed("switching", "preventing").isdisjoint(map(word_of, tokens))
    if len(members) != 2 or len(positive) < len(tokens) - 1 or prevented:
        return None
    told = [state_of(positive, f"{choice.name} {m}".lower(), others) for m in members]
    if {*told} != {True, False}:
        return None
    return members[told.index(True)], not denied


def opposite_states(choice: ChoiceDecl) -> dict[str, str]:
    """Words with the one of two opposite states that they say, `closes` with `closed`; none elsewhere."""
    members = [m for m in choice.members if m != OTHERS]
    if len(members) != 2:
        return {}
    first, second = (m.lower() for m in members)
    sides = _sides(first)
    if sides.get(first) is not True or sides.get(second) is not False:
        return {}
    return {word: members[0] if so else members[1] for word, so in sides.items()}


def side_words(bound: object, name: str) -> frozenset[str]:
    """The words of both states of a switch, or of two opposite ones of a list; none for anything else."""
    if not isinstance(bound, ChoiceDecl):
        return frozenset()
    if is_switch(bound):
        return frozenset(_sides(name)) | frozenset(name.lower().split())
    return frozenset(opposite_states(bound))


def _is_done_by(said: list[str], nouns: list[list[str]], mine: frozenset[str], states: set[str]) -> bool:
    """`the controller opens the valve`: does what stands first do it, and is it done to what is switched?"""
    if len(nouns) == 1 and not mine.isdisjoint(said) and mine.isdisjoint(nouns[0]):
        at = len(nouns[0]) + 1  # 'the controller inhibits charging', without an article
        return (
            said[0] in _ARTICLES and said[at : at + 1] != [] and said[at].endswith("s") and said[at] in states
        )
    if (
        len(nouns) != 2
        or said[0] not in _ARTICLES
        or not mine.isdisjoint(nouns[0])
        or mine.isdisjoint(nouns[1])
    ):
        return False
    does = said[len(nouns[0]) + 1 :][:1]
    return does != [] and does[0].endswith("s") and does[0] in states | _SWITCHES


_ARTICLES = ("the", "a", "an", "said", "its")
_ARTICLES_IN = frozenset(_ARTICLES)
_BEFORE_A_NOUN = ("of", "in", "for", "at", "on", "between", "with", "to", "from")
_SWITCHES = frozenset(("switches", "turns", "keeps", "maintains"))


def nouns_in(bound: object, name: str) -> list[str]:
    """The words that name what is in one of two states, in their order: of `valve open` the valve."""
    words = name.lower().split()
    switch = isinstance(bound, ChoiceDecl) and is_switch(bound)
    return [w for w in words if w in noun_of(name)] if switch else words


def _is_of_another(noun: list[str], own: set[str]) -> bool:
    """`the door frame`, `the lid of the door`, `the door quits`: more than the door."""
    places = [i for i, w in enumerate(noun) if w in own]
    before, behind = noun[: places[0]], noun[places[-1] + 1 :]
    which = behind[:1] and behind[0] in ("of", "in", "for", "at", "between", "(", "signal", "operation")
    if not _WHICH.isdisjoint(w for w in before if w not in own):
        return True
    return not {"of", "with", "but", "or"}.isdisjoint(before) or (bool(behind) and not which)


def _is_beside(noun: list[str], mine: frozenset[str]) -> bool:
    """`the outlet valve`, of what is called bleed valve: one word of the name and another."""
    first = next((i for i, w in enumerate(noun) if w in mine), 0)
    return not mine <= set(noun) and first > 0 and noun[first - 1] not in _OF_MORE


_WHICH = frozenset("second third fourth other another further additional remaining".split())


def speaks_of_another(tokens: tuple[Token, ...], note: str, name: str) -> bool:
    """`the lid is open`, of what is called open and noted "the valve is open"; so of a second valve."""
    words = note.lower().split()
    be = next((i for i, w in enumerate(words) if w in _BE), 0)
    if not be or noun_of(name) - {w for w in name.lower().split() if w.endswith(_SAYS_HOW)}:
        return False
    said = [word_of(t) for t in tokens]
    _, nouns = _parted(said, set(_sides(name)) | set(name.lower().split()))
    for noun in nouns:
        bare = noun[: noun.index("of")] if "of" in noun else noun
        if bare and (set(words[:be]).isdisjoint(bare) or not _WHICH.isdisjoint(set(bare) - set(words))):
            return True
    return False


def state_by_note(tokens: tuple[Token, ...], note: str, name: str = "") -> bool | None:
    """As `state_of`, by the note that tells when the switch is so: 'is cut off' of "the output is cut off".

    The words say nothing that note and name do not, and the note's verb is among them: 'raises the force' of
    "the force is raised", 'lifts from the seat' of "the poppet lifts from the seat". A state is entered, too:
    'enters the sleep mode' of "the node is in the sleep mode", of no other mode.
    """
    said = [word_of(t) for t in tokens]
    note = _mode_called(said, name, bool(note)) or note
    words = note.lower().split()
    be = next((i for i, w in enumerate(words) if w in _BE), None)
    told = words[be + 1 :] if be is not None else words
    spoken_words = _denied(said, told)
    state = _content(told[1:]) if told[:1] == ["in"] else []
    spoken_words = _entered(spoken_words) if state else _taken_up(spoken_words, words)
    if state and be is None:
        spoken_words = _without_who(spoken_words)
    noted, said = _content(words), _content(spoken_words)
    verb = _content(told)[:1] if be is not None or state else said[:1]
    spoken = set(said) - {"not", *_content(name.lower().split())}
    some = bool(spoken) or len(set(said) - {"not"}) > 1 or set(told[:1]) <= set(spoken_words)
    own = bool(noted) and some and spoken <= set(noted)
    own = own and bool(verb) and verb[0] in said and (not state or set(state) <= set(said))
    if not own or any(t.sort != "word" for t in tokens):
        return None
    if be is None and not state and (_says_who(said, noted) or _says_less(said, words)):
        return None
    if said.count("not") > 1 or not _HOW_FAR.intersection(words) <= set(spoken_words):
        return None
    return ("not" in said) == ("not" in noted)


def _denied(said: list[str], told: list[str]) -> list[str]:
    """`uncoated` as not coated where a note says 'coated'; `shows no warning` as not a warning."""
    found = list[str]()
    for word in said:
        turned = word.startswith("un") and word.removeprefix("un") in told and word not in told
        found += ["not", word.removeprefix("un")] if turned else ["not"] if word == "no" else [word]
    return found


def _says_who(said: list[str], noted: list[str]) -> bool:
    """`the controller`, noted as "the controller charges": who does it, and not all that is noted."""
    return said[0] == noted[0] and [w for w in said if w != "not"] != noted


def _says_less(said: list[str], noted: list[str]) -> bool:
    """`charging at a voltage`, noted as "the controller charges at a constant voltage": at which one?

    So says what leaves out the note's verb.
    """
    verb = next((i for i, w in enumerate(noted) if i and w.endswith("s") and len(w) > _SHORT + 1), None)
    if verb is None:
        return False
    behind = [(one, form_of(then)) for one, then in pairwise(noted[verb + 1 :]) if one not in _BETWEEN]
    return form_of(noted[verb]) not in said or any(
        then in said and form_of(one) not in said for one, then in behind
    )


def _mode_called(said: list[str], name: str, noted: bool) -> str:
    """What is called `sleep mode` is so in the sleep mode, what is called `sleeping` in the sleep state, and
    what is called `constant flow` in the constant flow mode, whatever else is noted of it."""
    own = name.lower()
    kind = next((w for w in said if f" {w}" in _MODES), "")
    if kind and f" {own} {kind} " in f" {' '.join(said)} ":
        return f"in the {own} {kind}"
    if noted:
        return ""
    if own.endswith(_MODES):
        return f"in the {own}"
    return f"in the {own} {kind}" if kind and own.endswith("ing") and " " not in own else ""


def _taken_up(said: list[str], noted: list[str]) -> list[str]:
    """`switches to charging at a constant voltage` as charging so, `stops charging so` as not.

    Of what is noted to be done, and of nothing that the note says of beginning or ending it.
    """
    done = {form_of(w) for w in noted}
    for at in range(len(said)):
        for runs, instead in ((_TAKING_UP, []), (_GIVING_UP, ["not"])):
            run = next((r for r in runs if said[at : at + len(r)] == r), [])
            then = said[at + len(run) : at + len(run) + 1]
            if run and then and then[0].endswith("ing") and form_of(then[0]) in done - {form_of(run[0])}:
                return [*said[:at], *instead, *said[at + len(run) :]]
    return said


_TAKING_UP = [
    run
    for verb, ends, ways in (
        ("switch", ("", "es", "ing"), ("to", "over to", "back to")),
        ("change", ("", "s"), ("to", "over to", "back to")),
        ("go", ("", "es"), ("over to", "back to")), ("transition", ("", "s"), ("to", "over to")),
        ("start", ("", "s", "ing"), ("",)), ("begin", ("", "s"), ("",)), ("commence", ("", "s"), ("",)),
        ("resume", ("", "s"), ("",)), ("keep", ("", "s"), ("on", "")), ("continue", ("", "s"), ("",)),
    )
    for end in ends for way in ways for run in [f"{verb}{end} {way}".split()]
]  # fmt: skip
_GIVING_UP = [[verb + end] for verb in ("stop", "cease", "discontinue", "terminate") for end in ("", "s")]


def _entered(said: list[str]) -> list[str]:
    """`enters the sleep mode`, `to switch into the sleep mode`, as being in it; `leaves it` as not."""
    start = int(said[:1] == ["to"])
    for at in range(start, len(said)):
        for runs, instead in ((INTO, ["in"]), (OUT_OF, ["not", "in"])):
            for run in runs:
                if said[at : at + len(run)] == run:
                    return [*said[start:at], *instead, *said[at + len(run) :]]
    return said


def _without_who(said: list[str]) -> list[str]:
    """`the node is in the sleep mode` without the node, of which nothing is noted; no second node."""
    at = next((i for i, w in enumerate(said) if w in ("is", "not", "in", "does")), 0)
    plain = said[:1] in (["the"], ["a"], ["an"]) and 1 < at <= _LONGEST_NOUN and _WHICH.isdisjoint(said[:at])
    return said[at:] if plain and "of" not in said[:at] else said


_MODES = (" mode", " state", " phase")
OUT_OF = runs_in_order("switching", "out_of")


INTO = [
    (verb + end + into).split()
    for verb, ends, ways in (
        ("enter", ("", "s", "ing"), (" into", "")),
        ("go", ("", "es"), (" into", " to", " over to", " over into", " back to", " back into")),
        ("switch", ("", "es", "ing"), (" into", " to", " over to", " over into", " back to", " back into")),
        ("change", ("", "s"), (" into", " to", " over to", " over into", " back to")),
        ("transition", ("", "s"), (" into", " to", " back to")), ("return", ("", "s"), (" into", " to")),
        ("move", ("", "s"), (" into", " to")), ("operate", ("", "s"), (" in",)),
        ("work", ("", "s"), (" in",)), ("run", ("", "s"), (" in",)), ("remain", ("", "s"), (" in",)),
        ("stay", ("", "s"), (" in",)),
        ("is", ("",), (" switched to", " switched into", " switched over to", " brought into", " put into")),
        ("is", ("",), (" set to", " operated in", " kept in", " held in")),
    )
    for end in ends for into in ways
]  # fmt: skip
_HOW_FAR = frozenset("both all each every fully completely entirely only twice partly partially".split())
"""Where a note says so, words without it say less."""
_BE = ("is", "are", "being", "be")
_LITTLE = frozenset((*_BE, "the", "a", "an", "said", "its", "then", "automatically", "does", "do"))
_BETWEEN = _LITTLE | frozenset(
    (*_BEFORE_A_NOUN, "by", "into", "onto", "and", "or", "not", "off", "out", "up")
)
"""Behind these no word of a note is said more closely by the one before it."""
_ENDINGS = ("ing", "ed", "es", "s", "e")
_IRREGULAR = {
    "shown": "show", "given": "give", "driven": "drive", "held": "hold", "lit": "light",
    "drawn": "draw", "withdrawn": "withdraw", "taken": "take", "broken": "break", "kept": "keep",
    "frozen": "freeze", "ground": "grind", "wound": "wind", "spun": "spin", "blown": "blow", "sewn": "sew",
    "woven": "weave", "bent": "bend", "sent": "send", "spread": "spread", "built": "build", "fed": "feed",
}  # fmt: skip


def _content(words: list[str]) -> list[str]:
    """The words that say something, each as what its forms share."""
    return [form_of(w) for w in words if w not in _LITTLE]


def is_participle(word: str) -> bool:
    """`dried`, `held`: a form that tells what is done, and no other form of it."""
    return word.endswith("ed") or word in _IRREGULAR


def form_of(word: str) -> str:
    """What the forms of a verb share: of `dried` and `drying`, `held` and `holding`."""
    stem = _stem(_IRREGULAR.get(word, word))
    return f"{stem[:-1]}y" if word.endswith("ied") and stem.endswith("i") else stem


def _stem(word: str) -> str:
    end = next((e for e in _ENDINGS if word.endswith(e) and len(word) > len(e) + 2), "")
    stem = word.removesuffix(end)
    doubled = end in ("ing", "ed") and len(stem) > _SHORT and stem[-1] == stem[-2] and stem[-1] in "bdgmnprt"
    return stem[:-1] if doubled else stem


def _is_form_of(word: str, own: str) -> bool:
    """`charges` and `charging`; a short word only where its end is written twice: `gel`, `gelled`."""
    one, other = _stem(word), _stem(own)
    doubled = len(word) >= _SHORT and other == word + word[-1] and word[-1] not in "aeiou"
    return doubled or (one == other and len(word) > _SHORT)


_SHORT = 3


def switched(switch: ChoiceDecl, so: bool) -> tuple[Formula, str]:
    """That a switch is so, or not so, as a formula and in words."""
    member = next(m for m in switch.members if m.lower() == ("yes" if so else "no"))
    return Chosen(switch.name, member), f"{switch.name} = {member}"


def noun_of(name: str) -> frozenset[str]:
    """The words of a switch's name that say of what it is: 'valve' of 'valve open'."""
    return frozenset(name.lower().split()) - _sides(name).keys()


def _sides(name: str) -> dict[str, bool]:
    """The words of both states, and whether each says what the name says; of a name with none, on and off."""
    own = name.lower().split()
    pairs = _pairs()
    if len(own) > 1 and own[-1] in listed("switching", "acts"):
        return {w: so for w, so in _of_pair(*pairs["on"]).items() if not w.startswith(own[-1])}
    for first, second in (*pairs.values(), *(pair[::-1] for pair in pairs.values())):
        if any(w in first.split() for w in own):
            return _of_pair(first, second)
    more = _of_pair(*pairs["open"]) if own[-1] in listed("switching", "letting_through") else {}
    return _of_pair(*pairs["on"]) | more


@cache
def _pairs() -> dict[str, tuple[str, str]]:
    pairs = word_lists()["switching_pairs"].items()
    return {key: (so, other) for key, text in pairs for so, other in (text.split("/"),)}


def _of_pair(first: str, second: str) -> dict[str, bool]:
    return dict.fromkeys(first.split(), True) | dict.fromkeys(second.split(), False)


def _parted(said: list[str], states: set[str]) -> tuple[list[str], list[list[str]]]:
    """The words without what they say is switched, and that: 'closes', 'safety valve'."""
    kept: list[str] = []
    nouns: list[list[str]] = []
    at = 0
    while at < len(said):
        if said[at] not in ("the", "a", "an", "said", "its"):
            kept.append(said[at])
            at += 1
            continue
        end = at + 1
        ends = listed("switching", "beside") | states | {"not"}
        while end < len(said) and end - at <= _LONGEST_NOUN and said[end] not in ends:
            if said[end] in _ARTICLES and said[end - 1] not in _BEFORE_A_NOUN:
                break
            end += 1
        nouns.append(said[at + 1 : end])
        at = end
    return kept, nouns


def is_done(tokens: tuple[Token, ...], step: str) -> bool | None:
    """Whether the words say that a step is carried out, or that it is not; None where they say neither."""
    said = [word_of(t) for t in tokens]
    no = said[:1] == ["no"]
    said = said[said[:1] != [] and said[0] in ("the", "said", "no") :]
    said = said[2 * (said[:2] == ["step", "of"]) :]
    own = step.lower().split()
    if said[: len(own)] != own:
        return None
    said = said[len(own) :]
    said = said[said[:1] == ["step"] :]
    be = next((run for run in _BEEN if said[: len(run)] == run), [])
    said = said[len(be) :]
    denied = no or "not" in be or said[:1] == ["not"]
    done = said[said[:1] == ["not"] :]
    if not be or (no and ("not" in be or said[:1] == ["not"])):
        return None
    if done in DONE:
        return not denied
    return False if done in LEFT_OUT and not denied else None


_BEEN = [
    run.split()
    for run in ("has not been", "have not been", "has been", "have been", "is", "are", "was", "were")
]
DONE = [["carried", "out"], ["performed"], ["done"], ["conducted"], ["effected"], ["executed"]]
LEFT_OUT = [["omitted"], ["skipped"], ["left", "out"], ["dispensed", "with"]]
