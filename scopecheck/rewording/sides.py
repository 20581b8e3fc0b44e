"""The words on one side of a condition, laid over the things left of the colon that they are about.

`20 to 40 minutes | the temperature is above 100 degC and the pressure is below 5 bar`: each side is read of
its own things as a line of its own would be. What is not told from the words is not read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain, pairwise
from typing import TypeAlias

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl, Step
from scopecheck.core.formula import All, Any, Chosen, ExactlyOne, Formula, Not
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.record import field, record, replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import COMBINATIONS, FILLERS, word_of
from scopecheck.matching.other_things import told_of_other_thing
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.states import (
    is_done,
    noun_of,
    speaks_of_another,
    state_among,
    state_by_note,
    state_of,
    switched,
)
from scopecheck.matching.subjects import Subject
from scopecheck.occurrences.groups import Groups
from scopecheck.occurrences.limit_texts import as_one, of_limit
from scopecheck.occurrences.readings import is_switch
from scopecheck.vocabulary.names import Typed

Tokens: TypeAlias = tuple[Token, ...]
Things: TypeAlias = tuple[Subject, ...]

_ARTICLES = frozenset(("the", "a", "an", "said"))
"""Words with which no side ends: they belong to what follows."""
_PRONOUNS = frozenset(("it", "they", "these", "this"))
_ITS = _PRONOUNS | {"its", "their"}
_NO_NOUN = (
    ("conditional", "no_noun"), ("names", "never"), ("names", "of_several"), ("limits", "changes")
)  # fmt: skip
_LONGEST_NAME = 6
"""Words of a noun before a limit, at the most."""


@record
class Piece:
    """A stretch of words that is read of one thing, or of several together, and what is shown of it."""

    tokens: Tokens
    things: Things
    passed: Tokens = ()
    """What stands before it and calls the thing neither by its name nor by its note."""


@record
class Side:
    """What one side says: its pieces, joined by 'and', 'or', 'nor' ('' where there is one)."""

    pieces: tuple[Piece, ...]
    joiner: str = ""
    apart: bool = False
    """Of two of which only one may be so."""


@record
class Sides:
    """How the words of a line are read that stand on either side of a condition.

    `reads` and `formula` take words and what they are about as if these stood in a line by themselves.
    """

    job: Job
    reads: Callable[[Tokens, Things], bool]
    formula: Callable[[Tokens, Things], Formula]
    groups: Groups
    """Those that the formulas have their readings in."""
    known: dict[tuple[int, int, int, tuple[str, ...]], Side | None] = field(default_factory=dict)

    def side(self, tokens: Tokens, things: Things) -> Side | None:
        """The words as limits on these things, each of which they are about; None if they are not read so."""
        if not tokens or not things or word_of(tokens[-1]) in _ARTICLES or _of_each(tokens):
            return None
        key = (tokens[0].start, tokens[-1].end, len(tokens), tuple(s.text for s in things))
        if key not in self.known:
            one = len(things) == 1
            self.known[key] = self._alone(tokens, things[0]) if one else self._several(tokens, things)
        return self.known[key]

    def read(self, side: Side) -> tuple[Formula, str]:
        """What a side says as a formula, and in words that name its things."""
        said = [self._piece(p) for p in side.pieces]
        formulas, shown = tuple(f for f, _ in said), f" {side.joiner} ".join(text for _, text in said)
        if len(formulas) == 1:
            return formulas[0], shown
        if side.joiner == "nor":
            return Not(Any(formulas)), f"neither {shown}"
        if side.apart:
            return ExactlyOne(formulas), f"either {shown}, but not both"
        return Any(formulas) if side.joiner == "or" else All(formulas), shown

    def state(self, tokens: Tokens, switch: Subject) -> bool | None:
        """Whether the words say that the switch is so, or not so; None where they say neither of it."""
        if not is_switch(switch.bound):
            return None
        told = state_of(tokens, switch.text, self._nouns_of_others(switch))
        note = self.job.place.names.note_of(switch.text)
        if told is None or speaks_of_another(tokens, note, switch.text):
            return state_by_note(tokens, note, switch.text)
        return told

    def chosen(self, tokens: Tokens, thing: Subject) -> tuple[str, bool] | None:
        """Which of two opposite states of a choice the words speak of, and whether it is so."""
        if not isinstance(thing.bound, ChoiceDecl) or is_switch(thing.bound):
            return None
        return state_among(tokens, thing.bound, self._nouns_of_others(thing))

    def says_done(self, tokens: Tokens, thing: Subject) -> bool | None:
        """Whether the words say that a step that may be left out is done, or not; None where neither."""
        step = thing.bound
        return is_done(tokens, step.name) if isinstance(step, Step) and step.done else None

    def done(self, tokens: Tokens, thing: Subject) -> bool | None:
        """As `says_done`, in a condition; `once the rinsing is done` tells of a time, and none of whether."""
        so = self.says_done(tokens, thing)
        if so is None:
            return None
        before = [word_of(t) for t in self.job.words.tokens if t.end <= tokens[0].start and t.sort != "gap"]
        led = next((w for w in reversed(before) if w in _WHETHER | _WHEN | _IN_TIME), "")
        return so if led in (_WHETHER if so else _WHETHER | _WHEN) else None

    def _nouns_of_others(self, switch: Subject) -> frozenset[str]:
        own = noun_of(switch.text)
        every = (d for d in self.job.place.names.declarations.values() if isinstance(d, ChoiceDecl))
        return frozenset(w for d in every if is_switch(d) for w in noun_of(d.name) - own)

    def _piece(self, piece: Piece) -> tuple[Formula, str]:
        thing = piece.things[0]
        if isinstance(thing.bound, ChoiceDecl) and is_switch(thing.bound):
            return switched(thing.bound, bool(self.state(piece.tokens, thing)))
        if (done := self.done(piece.tokens, thing)) is not None and isinstance(thing.bound, Step):
            carried_out = Chosen(thing.bound.done, "done")
            so_far = "is done" if done else "is not done"
            return carried_out if done else Not(carried_out), f"{thing.text} {so_far}"
        if (chosen := self.chosen(piece.tokens, thing)) and not self.reads(piece.tokens, piece.things):
            member, so = chosen
            its = Chosen(thing.text, member)
            return (its, f"{thing.text} = {member}") if so else (Not(its), f"{thing.text} is not {member}")
        limit, shown = self.formula(piece.tokens, piece.things), self._shown(piece)
        if piece.passed:
            told = told_of_other_thing(self.job, piece.passed, thing)
            self.groups.passed += [told] if told not in self.groups.passed else []
        if len(piece.things) == 1 and shown.startswith(f"{thing.text} "):
            shown = of_limit(thing.text, shown.removeprefix(f"{thing.text} "), limit, self.groups)
        return limit, as_one(shown)

    def head(self, tokens: Tokens) -> str:
        """The name of something measured with which the words begin, articles apart; '' if there is none."""
        said = [word_of(t) for t in tokens]
        for start, word in enumerate(said):
            longest = min(start + _LONGEST_NAME, len(said))
            for end in range(longest, start, -1):
                if name := self._name(" ".join(said[start:end])):
                    return self._measured(tokens, name) or name
            if word not in FILLERS and word not in listed("conditional", "articles"):
                return self._noted(said)
        return ""

    def _measured(self, tokens: Tokens, name: str) -> str:
        """What is measured of what a list is called by: `the substrate is below 40 °C`; '' for nothing."""
        listed_so = isinstance(self.job.place.names.declared(name), ChoiceDecl | SetDecl)
        if not listed_so or not any(t.number and t.number.unit for t in tokens):
            return ""
        return next((s.text for s in self.job.subjects if s.text.lower().startswith(f"{name.lower()} ")), "")

    def _noted(self, said: list[str]) -> str:
        """What the whole note says of which the words begin with: `the temperature of the payload`."""
        words = [w for w in said if w not in FILLERS]
        for subject in self.job.subjects:
            note = self.job.place.names.note_of(subject.text)
            noted = [w for w in note.lower().split() if w not in FILLERS]
            if len(noted) > 1 and words[: len(noted)] == noted:
                return subject.text
        return ""

    def word_before(self, tokens: Tokens) -> str:
        """The word of the line before these; '' at its beginning."""
        before = [t for t in self.job.words.tokens if t.end <= tokens[0].start and t.sort != "gap"]
        return word_of(before[-1]) if before else ""

    def mentions(self, tokens: Tokens, name: str) -> bool:
        """Whether the words hold the name, wherever it stands in them."""
        said = f" {' '.join(word_of(t) for t in tokens)} "
        return f" {name.lower()} " in said

    def _name(self, words: str) -> str:
        own = {s.text.lower(): s.text for s in self.job.subjects}
        for text in (words, words.removesuffix("s"), words.removesuffix("es")):
            if text in own:
                return own[text]
            if declared := self.job.place.names.declared(text):
                return declared.name
        return ""

    def _alone(self, tokens: Tokens, thing: Subject) -> Side | None:
        head = self.head(tokens)
        called = f"{thing.text} {self.job.place.names.note_of(thing.text)}".lower().split()
        called += _kind_of_difference(thing)
        if not (head in ("", thing.text) or _is_list_of(thing, head)) or _of_a_change(tokens, called):
            return None
        if not head and self._of_another_share(tokens, thing):
            return None
        if isinstance(thing.bound, ChoiceDecl) and is_switch(thing.bound):
            return None if self.state(tokens, thing) is None else Side((Piece(tokens, (thing,)),))
        if self.done(tokens, thing) is not None or self.reads(tokens, (thing,)) or self.chosen(tokens, thing):
            return Side((Piece(tokens, (thing,)),))
        tokens = _without_behind(tokens[len(tokens) > 1 and word_of(tokens[0]) == "there" :], thing.text)
        if not tokens:
            return None
        if self.reads(tokens, (thing,)):
            return Side((Piece(tokens, (thing,)),))
        behind = _behind_nouns(tokens, thing.text, self._also_called(thing))
        behind = chain(behind, self._behind_difference(tokens, thing), _counted_in(tokens, thing, called))
        rest = next((r for r in behind if r and self.reads(r, (thing,))), None)
        if rest is None:
            return None
        called_so = tokens[: len(tokens) - len(rest)] if tokens[len(tokens) - len(rest) :] == rest else ()
        passed = self._calls_another(called_so, rest, thing, {*called})
        if passed and self._names_another(called_so, thing):
            return None
        return Side((Piece(rest, (thing,), passed),))

    def _calls_another(self, tokens: Tokens, rest: Tokens, thing: Subject, called: set[str]) -> Tokens:
        """`the content of the wax is`, of a share of oil; () where the words call the thing as declared.

        What is measured there, and 'it', may be any of what is.
        """
        kind = thing.bound.kind if isinstance(thing.bound, Typed) else None
        own = {form for w in called for form in (w, f"{w}s", f"{w}es", w.removesuffix("s"))}
        said = [word_of(t) for t in tokens]
        behind = next((w for w in map(word_of, rest) if w not in FILLERS), "")
        if kind is None or not own.isdisjoint((*said, behind)) or not _ITS.isdisjoint(said):
            return ()
        idle = FILLERS | _NEVER_LAST | listed("measures", "nouns") | listed("conditional", "leading")
        if idle.issuperset(said):
            return ()
        return tokens[said[0] in FILLERS :]

    def _names_another(self, tokens: Tokens, thing: Subject) -> bool:
        """Do the words have the name of another quantity of its kind?"""
        kind = thing.bound.kind if isinstance(thing.bound, Typed) else None
        declared = self.job.place.names.declarations.items()
        others = (n for n, d in declared if isinstance(d, NumberDecl) and d.kind == kind and n != thing.text)
        return any(self.mentions(tokens, name) for name in others)

    def _behind_difference(self, tokens: Tokens, thing: Subject) -> Iterator[Tokens]:
        """What stands behind `a difference in temperature between the hottest and the coldest cell`.

        It is declared as a temperature difference, and noted so or not at all.
        """
        kind = _kind_of_difference(thing)
        note = self.job.place.names.note_of(thing.text).lower().split()
        known = {*kind, *_TELLING_BETWEEN, *(w + end for w in note for end in ("", "s", "es"))}
        said = [word_of(t) for t in tokens]
        at = next((i for i, w in enumerate(said) if w not in known - {"is", "are"}), len(said))
        if kind and "difference" in said[:at] and at < len(said):
            yield tokens[at:]

    def _of_another_share(self, tokens: Tokens, thing: Subject) -> bool:
        """`at most 2 wt% of wax`, of the oil: with both left of the colon it is how much wax there is."""
        kind = thing.bound.kind if isinstance(thing.bound, Typed) else None
        if kind is None or kind.dimension:
            return False
        others = [s for s in self.job.subjects if s.text != thing.text and isinstance(s.bound, Typed)]
        said = [word_of(t) for t in tokens]
        of = max((i for i, t in enumerate(tokens[:-1]) if t.number), default=-1) + 1
        behind = [w for w in said[of + 1 :] if w not in _ARTICLES]
        alike = (o for o in others if isinstance(o.bound, Typed) and o.bound.kind == kind)
        return of > 0 and said[of] == "of" and any(behind == o.text.lower().split() for o in alike)

    def _also_called(self, thing: Subject) -> frozenset[str]:
        """What may stand behind its name: what its note says, `the ratchet mechanism` of a ratchet."""
        note = self.job.place.names.note_of(thing.text)
        parts = listed("conditional", "bearers") if isinstance(thing.bound, ChoiceDecl) else frozenset()
        return parts | frozenset(note.lower().split())

    def _several(self, tokens: Tokens, things: Things) -> Side | None:
        """Pieces joined by 'and' or by 'or', one for each thing in their order; or one phrase on all of them.

        Of several ways to part the words that is taken in which most pieces begin with the name of what they
        are about; where two do alike, none is.
        """
        tokens, both = _without_both_behind(tokens)
        parted = [s for s in self._parted(tokens, things) if not both or s.joiner == "or"]
        parted = (
            [replace(s, apart=True) for s in parted if len(s.pieces) == 2] if both == "but not" else parted
        )
        named = [sum(bool(self.head(p.tokens)) for p in side.pieces) for side in parted]
        sides = [side for side, n in zip(parted, named, strict=True) if n == max(named)]
        if sides:
            return sides[0] if len(sides) == 1 else None
        return Side((Piece(tokens, things),)) if not both and self.reads(tokens, things) else None

    def _parted(self, tokens: Tokens, things: Things) -> Iterator[Side]:
        said = [word_of(t) for t in tokens]
        lead = next((run for run in _LEADS if said[: len(run)] == list(run)), ())
        start, joiners = len(lead), _LEADS.get(lead, {"and": "and", "or": "or", "for": "and"})
        for at in (i for i in range(start + 1, len(tokens) - 1) if said[i] in joiners):
            so_long = said[at] == "for"
            if so_long and not (len(things) == 2 and _is_time(things[1])):
                continue
            first = self.side(tokens[start : at - (said[at - 1] in (",", ";"))], things[:1])
            behind = _at_least_so_long(tokens[at + 1 :]) if so_long else tokens[at + 1 :]
            rest = self.side(behind, things[1:]) if first else None
            taken = first and rest and self._is_taken(tokens[start:at], tokens[at + 1 :], things[1])
            if first and rest and not taken and rest.joiner in ("", joiners[said[at]]):
                yield Side((*first.pieces, *rest.pieces), joiners[said[at]])

    def _is_taken(self, tokens: Tokens, behind: Tokens, thing: Subject) -> bool:
        """`at most half the rim and at most 3 A`: the rim is compared with there, and not limited then."""
        return self.mentions(tokens, thing.text) and not self.mentions(behind, thing.text)

    def _shown(self, piece: Piece) -> str:
        tokens = piece.tokens
        if len(piece.things) > 1:
            first = piece.things[0].text
            if word_of(tokens[0]) in listed("conditional", "articles"):
                return self.job.text(tokens)  # the words name what they speak of, if not as declared
            return f"{'' if self.mentions(tokens, first) else first} {self.job.text(tokens)}".lstrip()
        thing = piece.things[0]
        if (rest := self._behind_its_names(tokens, piece.things)) is not None:
            said = self._text(rest)
            return said if self.mentions(rest, thing.text) else f"{thing.text} {said}"
        names = thing.text.lower().split()
        own = {w + end for w in names for end in ("", "s", "es")} | listed("conditional", "articles")
        leading = next((i for i, t in enumerate(tokens) if word_of(t) not in own | FILLERS), 0)
        start = next((i for i in range(leading, 0, -1) if self.reads(tokens[i:], piece.things)), 0)
        behind = _behind_nouns(tokens, thing.text, self._also_called(thing))
        rest = next((r for r in behind if self.reads(r, piece.things)), tokens)
        rest = min(rest, tokens[start:], key=len)
        said = self._text(rest)
        if self.mentions(rest, thing.text):
            return said
        last = thing.text.split()[-1]  # 'level of the tank is low', of a tank level
        if " " in thing.text and said.lower().startswith(f"{last.lower()} "):
            said = said[len(last) + 1 :]
        return said if said.lower().startswith(f"{thing.text.lower()} ") else f"{thing.text} {said}"

    def _text(self, tokens: Tokens) -> str:
        """The words as the line has them; with those that say on which side, where they are only understood:
        'of less than 5 mm', of a rim in 'below a rim of 5 mm'."""
        understood = any(t.end == t.start and word_of(t) in _SENSES for t in tokens)
        return " ".join(t.text for t in tokens) if understood else self.job.text(tokens)

    def _behind_its_names(self, tokens: Tokens, things: Things) -> Tokens | None:
        """The words behind all that name or describe the thing: 'falls below 2 V' of `the voltage of the
        battery falls below 2 V`; None where they begin with nothing of the kind."""
        thing = things[0]
        named = {w + end for w in thing.text.lower().split() for end in ("", "s", "es")}
        named |= set(self.job.place.names.note_of(thing.text).lower().split())
        if isinstance(thing.bound, Typed) and thing.bound.kind:
            named |= set(thing.bound.kind.name.lower().split())
        named -= _NEVER_LAST
        found = None
        for at, token in enumerate(tokens[:-1]):
            word = word_of(token)
            if token.sort != "word" or word in _LIMITING or word not in named | _BETWEEN_NAMES:
                break
            rest = tokens[at + 1 :]
            noun_first = len(rest) > 1 and word_of(rest[1]) in listed("conditional", "verbs")
            if (word in named or word == "for") and not noun_first and self.reads(rest, things):
                found = rest
        return found


_SENSES = frozenset("below above under over least most more less".split())
_WHETHER = frozenset("if unless provided providing case event condition proviso where wherever".split())
_WHEN = frozenset(("when", "whenever"))
_IN_TIME = frozenset("while whilst once as until till after before during upon since".split())
"""What leads to a condition on whether something is done, or on when; `when it is not done` is on whether."""

_LEADS: dict[tuple[str, ...], dict[str, str]] = {
    ("both",): {"and": "and"},
    ("either",): {"or": "or"},
    ("neither",): {"nor": "nor"},
    **{
        tuple(f"at least one of{following}{colon}".split()): {"and": "or", "or": "or"}
        for following in (" the following conditions is met", " the following is met", " the following", "")
        for colon in (" :", "")
    },
}
"""How words in front of several pieces say that these are joined."""


def _without_both_behind(tokens: Tokens) -> tuple[Tokens, str]:
    """The words without a 'but not both' or an 'or both' at their end, and which of the two it is."""
    said = [word_of(t) for t in tokens]
    end = len(said) - 1 if said[-1:] == ["both"] else len(said) - 3 if said[-3:] == _BOTH_OF_THEM else 0
    which = (
        "but not" if said[max(end - 2, 0) : end] == ["but", "not"] else "or" if said[end - 1] == "or" else ""
    )
    if not end or not which:
        return tokens, ""
    end -= len(which.split())
    return tokens[: end - (said[end - 1] == ",")], which


_BOTH_OF_THEM = ["both", "of", "them"]


def _is_time(thing: Subject) -> bool:
    kind = thing.bound.kind if isinstance(thing.bound, Typed) else None
    return kind is not None and kind.dimension == TIME


def _at_least_so_long(tokens: Tokens) -> Tokens:
    """`5 s`, for which something is so, as reaching 5 s."""
    if len(tokens) != 1 or not tokens[0].number:
        return tokens
    return (replace(tokens[0], sort="word", text="reaches", number=None, end=tokens[0].start), *tokens)


def _is_list_of(thing: Subject, head: str) -> bool:
    """`the filler is chalk` of a filler kind: is it what of the named thing there is a list of?"""
    note = [w for w in getattr(thing.bound, "note", "").lower().split() if w not in FILLERS]
    words = head.lower().split()
    named = set(words) <= set(thing.text.lower().split()) or note[: len(words)] == words
    return isinstance(thing.bound, ChoiceDecl | SetDecl) and bool(words) and named


def _of_each(tokens: Tokens) -> bool:
    """'Two holes for every 10 mm' says how many there are to so much, and is no condition."""
    return len(tokens) > 1 and word_of(tokens[0]) in ("each", "every") and tokens[1].number is not None


_TELLING_BETWEEN = frozenset("in between of the a an said this and any".split())


def _kind_of_difference(thing: Subject) -> list[str]:
    """The words of `temperature difference`, if what is declared is one; else none."""
    kind = thing.bound.kind.name.split() if isinstance(thing.bound, Typed) and thing.bound.kind else []
    return kind if kind[-1:] == ["difference"] else []


def _counted_in(tokens: Tokens, thing: Subject, called: list[str]) -> Iterator[Tokens]:
    """`windows of at most 4096 samples`, of samples that are noted as those in one window."""
    said = [word_of(t) for t in tokens]
    own = thing.text.lower().split()
    counted = isinstance(thing.bound, Typed) and thing.bound.whole and said[-len(own) :] == own
    start = int(said[:1] in (["a"], ["an"], ["the"], ["each"]))
    if (
        counted
        and said[start + 1 : start + 2] == ["of"]
        and {said[start], said[start].removesuffix("s")} & {*called}
    ):
        yield tokens[start + 2 :]


def _without_behind(tokens: Tokens, name: str) -> Tokens:
    """Without an 'is applied' and the like at the end; `are clipped`, of the share that is called clipped."""
    said = [word_of(t) for t in tokens]
    if said[-2:-1] in (["is"], ["are"]) and said[-1] == name.lower() and said[-1].endswith("ed"):
        return tokens[:-2]
    runs = (i for i in range(1, len(said)) if run_at(said, i, "conditional", "behind") == len(said) - i)
    return tokens[: next(runs, len(tokens))]


def _of_a_change(tokens: Tokens, called: list[str]) -> bool:
    """'The temperature drop is above 5 K' speaks of a drop; 'the temperatures drop below 5 degC' do not.

    What is itself called a drop may be spoken of so.
    """
    drops, behind = listed("conditional", "drops").difference(called), listed("conditional", "is")
    return any(word_of(one) in drops and word_of(then) in behind for one, then in pairwise(tokens))


_LIMITING = frozenset("not no never nor more less fewer greater than least most up".split())
"""What is never among the words that name a thing, whatever its note says."""
_NEVER_LAST = frozenset(
    "a an the of in on at to for from by over above below under within about around near beyond between is"
    " are be being and or if when".split()
)
_BEFORE_ARTICLES = _NEVER_LAST | {"that", "with", "into", "onto", "through", "between", "across"}
_BETWEEN_NAMES = _NEVER_LAST - {"or", "if", "when", "within", "beyond"}
"""Words that may stand between those that name a thing; a limit may begin with some of them."""
_SAYS_SO = ("is", "are", "being", "be", "lies", "lie", "stays", "remains")
_NONE_MORE = FILLERS | {"now", "then", "still", "already", "currently"}


def _behind_nouns(tokens: Tokens, own: str, also: frozenset[str]) -> Iterator[Tokens]:
    """The words behind a noun that is what they are about: 'the layer is thicker ...' of a layer thickness.

    No noun that says more than the own name, and what it is `also` called, does: 'temperature drop',
    'difference in pressure'.
    """
    said = [word_of(t) for t in tokens]
    if said[0] in _PRONOUNS and len(said) > 1:
        yield tokens[1:]
    start = next((i for i, w in enumerate(said) if w not in listed("conditional", "leading")), 0)
    led = start
    while start < len(said) - 1 and said[start] in listed("conditional", "articles"):
        start += 1
    names = {w + end for w in own.lower().split() for end in ("", "s", "es")}
    for end in range(start + 1, min(start + _LONGEST_NAME, len(tokens) - 1) + 1):
        word = said[end - 1]
        if tokens[end - 1].sort != "word" or word in COMBINATIONS:
            return
        if any(word in listed(table, name) for table, name in _NO_NOUN):
            return
        if word in _ARTICLES and end - 1 > start and said[end - 2] not in _BEFORE_ARTICLES:
            return  # 'keeping the temperature below 40 °C': no noun goes on so
        noun = said[start:end]
        last = max((i for i, w in enumerate(noun) if w in names), default=None)
        behind = noun[last + 1 : last + 2] if last is not None else []
        told = last is not None or start > led
        if not {"±", "+/-"}.isdisjoint(noun) or (
            behind and behind[0] in _SAYS_SO and not _NONE_MORE.issuperset(noun[(last or 0) + 2 :])
        ):
            return  # 'is outside 10 mm': how it lies is no noun
        if (
            told
            and word not in listed("names", "never_last")
            and (
                not behind
                or behind[0] in ("of", "in", "at", *FILLERS)
                or also.issuperset(noun[(last or 0) + 1 :])
            )
        ):
            yield tokens[end:]
