"""Words of a claim or document to formulas: finding the phrase, binding its slots, telling what is none."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import SequenceMatcher, get_close_matches
from fractions import Fraction
from functools import cache
from itertools import pairwise
from os.path import basename

from scopecheck.core.model import (
    All,
    Assembly,
    ChoiceDecl,
    Composition,
    Divide,
    Formula,
    Not,
    NumberDecl,
    OwnPhrase,
    SetDecl,
    Step,
    Truth,
)
from scopecheck.foundations.diagnostics import Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import PLAIN_KIND, Kind, Unit, as_difference, as_level
from scopecheck.foundations.record import field, record, replace
from scopecheck.foundations.spans import Span
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import CALENDAR, Number, Token, no_fixed_length
from scopecheck.language.syntax import Words
from scopecheck.resolve.assemblies import no_assembly
from scopecheck.resolve.catalogue import Phrasebook
from scopecheck.resolve.chart import FILLERS, Fill, Match, Tests, joined_parts, matches, word_of
from scopecheck.resolve.classes import has, not_within_another
from scopecheck.resolve.defined_words import apply, note_settled_twice
from scopecheck.resolve.entry import OF_PAUSES, Entry
from scopecheck.resolve.everyday import placed_at, with_degrees
from scopecheck.resolve.exact_terms import bare_number, literal
from scopecheck.resolve.groups import CLAIMS, Groups
from scopecheck.resolve.names import (
    ONLY_WITH_PAUSES,
    Bound,
    Listed,
    Names,
    Steps,
    Typed,
    member_of,
    no_member,
    number_of,
)
from scopecheck.resolve.part_kinds import kinds_of
from scopecheck.resolve.patterns import Pattern, Slot
from scopecheck.resolve.readings import Occurrence, condition_holds, is_kind, read
from scopecheck.resolve.spelled import spelled, spelled_amounts
from scopecheck.resolve.steps import active, without_gap

_TEMPERATURE = (("temperature", 1),)
MOST_WORDS = 60
LISTS = (SetDecl, ChoiceDecl, Composition, Assembly)
CALLED = {
    "total": "total", "mean": "mean", "middle": "median", "heavy": "weight-average", "coarse": "volume-mean",
    "least": "least", "greatest": "greatest",
}  # fmt: skip
"""What one value for all parts is called before what it is of."""

_OTHER_MEASURES = frozenset("total combined overall mean average median".split())
"""Words that say which of several values is limited: without them it is another limit."""


@record
class Subject:
    """What stands left of the colon."""

    bound: Bound
    text: str
    span: Span
    parts: OfParts | None = None
    asked: Mapping[str, Bound] = field(default_factory=dict)
    """What a reading may ask of the number of like parts besides the number, and how that is shown."""
    asked_shown: Mapping[str, str] = field(default_factory=dict)
    mixture: Composition | Assembly | None = None
    """A composition, an assembly, or a class of ingredients as a list; the amount of the class is `bound`."""
    moments: Mapping[str, tuple[str, Typed]] = field(default_factory=dict)
    """Of a quantity of a step, by moment: its name there and its value."""


@record
class OfParts:
    """A field of like parts, or the members of a class: of each, with what says it is there, and together.

    `sort` is "parts" or "classes", as phrases call what they are for.
    """

    count: Typed
    called: str
    there: tuple[Formula, ...]
    each: tuple[Bound, ...]
    together: Mapping[str, Typed]
    facts: Mapping[str, Formula]
    gaps: Mapping[str, Typed]
    """The shortest and the longest step from one part to the next; no value where there is one part only."""
    sort: str = "parts"


@record
class Reader:
    """Reads words at one place of one document."""

    names: Names
    phrases: Phrasebook
    groups: Groups
    document: str
    where: str
    method: bool = True
    """Whether the words stand in a claim to a method or a use, or in no claim."""

    def condition(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """The words as a formula. Raises Trouble if no phrase, or more than one, reads them."""
        tokens = tuple(t for t in words.tokens if t.sort != "gap")
        if not tokens:
            raise trouble(words.span, "no words stand here")
        if len(tokens) > MOST_WORDS:
            raise trouble(
                words.span,
                f"{len(tokens)} words for one phrase",
                f"A phrase has at most {MOST_WORDS} words and numbers.",
                "lift the words of one limitation",
            )
        if tokens[0].sort == "sign":
            thing = subjects[0].text if subjects else "..."
            raise trouble(
                words.span, "symbols right of a colon",
                "Right of a colon stand words; symbols stand without a colon.",
                f"take out the colon: {thing} {words.text}",
            )  # fmt: skip
        job, tokens = self._job(tokens, words, subjects)
        return job.whole(tokens)

    def _job(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[_Job, tuple[Token, ...]]:
        """The words as they are read of what stands left of the colon, numbers with their units."""
        tokens = self._amounts(tokens, words, subjects)
        job = _Job(self, subjects, words, _borrowed(tokens))
        tokens = _with_units(tokens)
        mixture = subjects[0].mixture if len(subjects) == 1 else None
        if mixture is not None and isinstance(subjects[0].bound, Typed):
            job = self.of_a_class(job, subjects[0], mixture, tokens)
        return job, tokens

    def of_a_class(
        self, job: _Job, subject: Subject, mixture: Composition | Assembly, tokens: tuple[Token, ...]
    ) -> _Job:
        """How words about a class of ingredients are read: of its list, of its members, of its amount."""
        listing = job.of(replace(subject, bound=mixture, parts=None))
        if not any(t.number for t in tokens) and listing.readable(tokens):
            return listing
        return job if job.readable(tokens) else job.of(replace(subject, parts=None))

    def reads(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words. Quick where it has none: no advice is sought."""
        tokens = tuple(t for t in words.tokens if t.sort != "gap")
        if not tokens or len(tokens) > MOST_WORDS or tokens[0].sort == "sign":
            return False
        try:
            job, tokens = self._job(tokens, words, subjects)
            if job.readable(tokens):
                job.whole(tokens)
                return True
        except Trouble:
            pass
        return False

    def _amounts(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Token, ...]:
        """The tokens with numbers in words and degrees as amounts of the first thing left of the colon."""
        if not subjects:
            return tokens
        tokens = with_degrees(tokens, subjects[0].bound, words.span, subjects[0].text)
        return spelled_amounts(tokens, self.spelled_beside(subjects[0].bound), self.names.own)

    def spelled_beside(self, bound: Bound) -> Bound:
        """What numbers in words are read beside: of a step its time."""
        return self.names.terms[bound.start.lower()] if isinstance(bound, Step) else bound


def _borrowed(tokens: tuple[Token, ...]) -> frozenset[int]:
    return frozenset(t.start for t in tokens if t.number and t.number.unit is None)


def _is_bare_share(token: Token) -> bool:
    """Is it a number in percent, on no basis?"""
    unit = token.number.unit if token.number else None
    return unit is not None and unit.kind == PLAIN_KIND and unit.factor == Fraction(1, 100)


def _with_units(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """A number without a unit takes the unit of the next number that has one, and '%' takes its basis."""
    unit: Unit | None = None
    found: list[Token] = []
    for token in reversed(tokens):
        if token.number and ":" not in token.number.text:
            based = unit is not None and not unit.kind.dimension and bool(unit.kind.basis)
            if token.number.unit and not (based and _is_bare_share(token)):
                unit = token.number.unit
            elif unit:
                token = replace(token, number=replace(token.number, unit=unit))
        found.append(token)
    return tuple(reversed(found))


@record
class _Job:
    reader: Reader
    subjects: tuple[Subject, ...]
    words: Words
    bare: frozenset[int]
    loose: bool = False
    """Whether a share written without its basis is one on whatever basis the thing has."""
    known: dict[tuple[int, int], list[Match]] = field(default_factory=dict)
    """Stretches of words already tried, by where they begin and end."""
    apart: list[_Job] = field(default_factory=list)
    """The same words for each thing left of the colon alone, once that is asked for."""

    @property
    def first(self) -> Bound:
        return self.subjects[0].bound

    def span(self, tokens: tuple[Token, ...]) -> Span:
        return Span(self.words.span.source, tokens[0].start, tokens[-1].end)

    def text(self, tokens: tuple[Token, ...]) -> str:
        return " ".join(
            self.words.span.source.text[tokens[0].start : tokens[-1].end].replace("|", " ").split()
        )

    # ---- finding the phrase

    def whole(self, tokens: tuple[Token, ...]) -> Formula:
        found = self.found(tokens)
        if len(found) > 1:
            ways = " and ".join(f"'{m.pattern.plain}'" for m in found[:3])
            raise trouble(
                self.span(tokens), f"these words are a phrase in {len(found)} ways", f"They match {ways}.",
                "write fewer of the words, or the meaning in symbols: words, two blanks, exactly, facts",
            )  # fmt: skip
        if found:
            return self.read(found[0], tokens)
        if other := self.share_of_another(tokens):
            job, before = other
            return job.whole(before)
        parts = self.parts(tokens)
        if parts is None:
            for number, word in pairwise(tokens):
                if number.number and word_of(word) in CALENDAR:
                    raise no_fixed_length(self.span((number, word)))
            if len(self.subjects) == 1 and (advice := self.bare_parts_per(tokens)):
                raise advice
            any_number = replace(self.tests(), subjects=0)
            for match in matches(tokens, self.reader.phrases, any_number):
                if len(self.subjects) > 1 or not any(f.slot.kind == "limit" for f in match.fills):
                    self.named_subjects(match, tokens)
            raise self.no_phrase(tokens)
        return parts

    def found(self, tokens: tuple[Token, ...]) -> list[Match]:
        key = (tokens[0].start, tokens[-1].end)
        if key not in self.known:
            self.known[key] = []
            self.known[key] = matches(tokens, self.reader.phrases, self.tests()) or self.defined(tokens)
        return self.known[key]

    def defined(self, tokens: tuple[Token, ...]) -> list[Match]:
        """The words as words that the description defines; definitions are for the claims alone."""
        definitions = tuple(d.entry for d in self.reader.groups.definitions if not d.noun)
        if self.reader.document != CLAIMS or not definitions:
            return []
        return matches(tokens, Phrasebook(definitions, alone=True), self.tests())

    def readable(self, tokens: tuple[Token, ...]) -> bool:
        if not tokens:
            return False
        found = self.found(tokens) or self.share_of_another(tokens) or self.split(tokens)
        return bool(found)

    def share_of_another(self, tokens: tuple[Token, ...]) -> tuple[_Job, tuple[Token, ...]] | None:
        """`at most 80 % of the width`: the words before 'of', to be read of the quotient of the two.

        None unless the words end in a declared quantity of the kind of what stands left of the colon.
        """
        if len(self.subjects) != 1 or self.sort or not isinstance(self.first, Typed):
            return None
        for index in range(len(tokens) - 2, 0, -1):
            other = self.declared(tokens[index + 1 :]) if word_of(tokens[index]) == "of" else None
            if other is None or not any(_is_bare_share(t) for t in tokens[:index]):
                continue
            whole = self.reader.names.value(other)
            if whole.term == self.first.term or self.first.kind != whole.kind or not whole.kind:
                continue
            if whole.kind.basis == "level":
                continue
            subject = self.subjects[0]
            quotient = Typed(Divide(self.first.term, whole.term, other.name), PLAIN_KIND)
            job = self.of(Subject(quotient, f"{subject.text} / {other.name}", subject.span))
            if job.readable(tokens[:index]):
                self.reader.names.speak(other.name)
                return job, tokens[:index]
        return None

    def split(self, tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]] | None:
        return next(((a, b) for a, b in joined_parts(tokens) if self.readable(a) and self.readable(b)), None)

    def parts(self, tokens: tuple[Token, ...]) -> Formula | None:
        """'A and B' or 'A but B' of two phrases, or 'not A' of one."""
        if sides := self.split(tokens):
            return All((self.whole(sides[0]), self.whole(sides[1])))
        index = 1 if len(tokens) > 1 and word_of(tokens[0]) in ("is", "are", "being") else 0
        if word_of(tokens[index]) == "not" and len(tokens) > index + 1 and self.readable(tokens[index + 1 :]):
            return Not(self.whole(tokens[index + 1 :]))
        return None

    def tests(self, any_item: bool = False) -> Tests:
        own: set[str] = set()
        for subject in self.subjects:
            for word in subject.text.lower().split():
                own |= {word, word + "s", word.removesuffix("s")}
            field = self.reader.names.field_of(subject.text)
            if parts := field[0] if field else self.reader.names.kind(subject.text):
                own |= set(parts[0].name.lower().split())
        item = (lambda tokens: all(t.sort == "word" for t in tokens)) if any_item else self.is_item
        own -= {"", "not", "no"}
        return Tests(
            self.is_number, item, self.is_limit, self.applies, frozenset(own), len(self.subjects),
            self.sort in ("parts", "classes", "moments"), self.is_step, self.is_moment,
        )  # fmt: skip

    @property
    def of_parts(self) -> OfParts | None:
        return self.subjects[0].parts if len(self.subjects) == 1 else None

    @property
    def of_one_kind(self) -> tuple[OfParts, ...]:
        """What stands left of the colon, where all of it is of the same like parts; else ()."""
        found = tuple(s.parts for s in self.subjects if s.parts is not None)
        alike = len(found) == len(self.subjects) and all(of.there == found[0].there for of in found)
        return found if alike else ()

    @property
    def sort(self) -> str:
        """What stands left of the colon, where only phrases made for it read its words; else ''."""
        if self.of_one_kind:
            return self.of_one_kind[0].sort
        if len(self.subjects) > 1 and all(isinstance(s.bound, Step) for s in self.subjects):
            return "sequences"
        if isinstance(self.first, Step):
            return "steps"
        return "moments" if self.subjects[0].moments and len(self.subjects) == 1 else ""

    def is_step(self, tokens: tuple[Token, ...]) -> bool:
        return self.reader.names.step(" ".join(t.text for t in tokens)) is not None

    def is_moment(self, tokens: tuple[Token, ...]) -> bool:
        return self.reader.names.time_of(" ".join(t.text for t in tokens)) is not None

    def applies(self, entry: Entry) -> bool:
        if self.sort in ("steps", "sequences") and not entry.only_for:
            return _joins(entry)
        if self.sort or _SORTS & set(entry.only_for):
            return self.sort in entry.only_for
        return not entry.only_for or any(is_kind(self.first, kind) for kind in entry.only_for)

    def is_number(self, tokens: tuple[Token, ...]) -> bool:
        if len(tokens) == 1 and (tokens[0].number or word_of(tokens[0]) in NUMBER_WORDS):
            return True
        return self.declared(tokens) is not None

    def declared(self, tokens: tuple[Token, ...]) -> NumberDecl | None:
        words = tokens[1:] if len(tokens) > 1 and word_of(tokens[0]) in ("the", "said") else tokens
        if any(t.sort != "word" for t in words):
            return None
        found = self.reader.names.declared(" ".join(t.text for t in words))
        return found if isinstance(found, NumberDecl) else None

    def is_item(self, tokens: tuple[Token, ...]) -> bool:
        if isinstance(self.first, Assembly):
            return self.counted(self.first, tokens) is not None
        if isinstance(self.first, LISTS):
            return member_of(self.first, self.text(tokens)) is not None
        if len(tokens) >= len(self.words.tokens):
            return False
        return len(self.found(tokens)) == 1 or self.split(tokens) is not None

    def is_limit(self, tokens: tuple[Token, ...]) -> bool:
        if self.of_parts is not None:
            return self.each()[0].readable(tokens)
        if self.sort == "steps" and len(tokens) == 1 and tokens[0].number:
            return False
        if self.sort in ("steps", "moments"):
            return bool(self.each()) and all(job.readable(tokens) for job in self.each())
        if len(tokens) >= len(self.words.tokens):
            return False
        if self.of_one_kind:
            firsts = ((s.parts.each[0], s) for s in self.subjects if s.parts is not None)
            return any(self.on(bound, s.text).readable(tokens) for bound, s in firsts)
        return all(job.readable(tokens) for job in self.each())

    def each(self) -> list[_Job]:
        if self.of_parts is not None and not self.apart:
            self.apart.extend(self.on(bound) for bound in self.of_parts.each)
        if self.sort == "moments" and not self.apart:
            self.apart.extend(self.on(value) for _, value in self.subjects[0].moments.values())
        if self.sort == "steps" and not self.apart:
            self.apart.extend(self.beside_steps())
        if len(self.subjects) == 1:
            return self.apart or [self]
        if not self.apart:
            self.apart.extend(
                _Job(self.reader, (subject,), self.words, self.bare, loose=True) for subject in self.subjects
            )
        return self.apart

    def of(self, subject: Subject) -> _Job:
        """The same words for the one thing left of the colon taken otherwise."""
        return _Job(self.reader, (subject,), self.words, self.bare)

    def beside_steps(self) -> list[_Job]:
        """The same words for the thing beside a step; where there is none, for how long the step takes."""
        if len(self.subjects) > 1:
            return [_Job(self.reader, (self.subjects[1],), self.words, self.bare)]
        step = self.first
        assert isinstance(step, Step)
        lasts = self.reader.names.terms.get(step.duration.lower())
        return [self.on(lasts, step.duration)] if lasts else []

    def on(self, bound: Bound, text: str = "") -> _Job:
        """The same words for one value of several parts, at one moment, or for how long a step takes."""
        subject = Subject(bound, text or self.subjects[0].text, self.subjects[0].span)
        return _Job(self.reader, (subject,), self.words, self.bare)

    # ---- binding

    def read(self, match: Match, tokens: tuple[Token, ...]) -> Formula:
        at, entry = self.occurrence(match, tokens), match.entry
        names, groups = self.reader.names, self.reader.groups
        by_entry = {m.entry: m for m in self.defined(tokens)}
        laid = ((d, by_entry.get(d.entry)) for d in groups.definitions)
        tried = (apply(d, self.occurrence(m, tokens), names, groups) for d, m in laid if m)
        defined = tuple(applied for applied in tried if applied)
        if defined:
            note_settled_twice(entry, at, names, groups, defined)
        return read(entry, at, names, groups, entry.title, defined)

    def occurrence(self, match: Match, tokens: tuple[Token, ...]) -> Occurrence:
        """What fills the slots of the phrase that the words are."""
        entry = match.entry
        slots, shown = self.named_subjects(match, tokens)
        limits = 0
        for fill in match.fills:
            if fill.slot.kind == "list":
                slots[fill.slot.name] = self.listed(fill)
                shown[fill.slot.name] = self.text(fill.tokens)
            elif fill.slot.kind == "limit" and self.of_parts is not None:
                self.limited_parts(entry, fill, self.of_parts, slots, shown)
            elif fill.slot.kind == "limit" and self.of_one_kind:
                subject = self.subjects[limits]
                self.limited_one_by_one(fill, subject, slots, shown)
                limits += 1
            elif fill.slot.kind == "limit":
                self.limited(fill, _called(match), slots, shown)
            elif fill.slot.kind in ("step", "moment"):
                slots[fill.slot.name], shown[fill.slot.name] = self.in_time(fill)
            elif fill.slot.kind != "noun":
                slots[fill.slot.name] = self.number(fill.slot, fill.tokens, bool(shown.get("x")))
                shown[fill.slot.name] = self.number_text(fill)
        if self.of_one_kind:
            slots["parts"] = self.of_one_kind[0].count
            shown["parts"] = self.of_one_kind[0].called
        if self.of_parts is not None:
            slots |= {self.of_parts.sort: self.of_parts.count, **self.of_parts.gaps}
            shown |= {name: f"{name} gap" for name in self.of_parts.gaps}
            for name, fact in self.of_parts.facts.items():
                slots[name] = Listed((fact,), (), f"{self.subjects[0].text} {name}")
        if len(self.subjects) == 1:
            shown.setdefault("x", self.subjects[0].text)
        if isinstance(self.first, Composition | Assembly) and "RECITED" in _said(entry):
            recited = self.reader.names.recital(self.first, self.span(tokens))
            shown["RECITED"] = ", ".join(recited) or "what is recited"
            slots["RECITED"] = Listed((), recited, shown["RECITED"])
        if isinstance(self.first, Assembly):
            shown["unrelated"] = "things unrelated to the invention"
        steps = tuple(s.bound for s in self.subjects if isinstance(s.bound, Step))
        if self.sort == "steps":
            slots["method"] = Listed((Truth(self.reader.method),), (), "a method is claimed")
            shown["method"] = "a method is claimed"
            for name, pause in zip(OF_PAUSES, steps[0].pauses, strict=False):
                slots[name], shown[name] = self.reader.names.terms[pause.lower()], pause
        if self.sort == "sequences" and "sequences" in entry.only_for:
            slots["steps"], shown["steps"] = Steps(steps), ", ".join(step.name for step in steps)
        if entry.where and condition_holds(entry.where, slots, self.reader.names) is False:
            raise self.where_fails(entry, shown, tokens)
        return Occurrence(
            self.reader.document, self.reader.where, self.text(tokens), match.wording.lower(), slots, shown,
            self.span(tokens), _own(match),
        )  # fmt: skip

    def named_subjects(
        self, match: Match, tokens: tuple[Token, ...]
    ) -> tuple[dict[str, Bound], dict[str, str]]:
        if "sequences" in match.entry.only_for:
            return {"x": self.first}, {}
        names = _called(match)
        if len(names) != len(self.subjects):
            raise trouble(
                self.span(tokens),
                f"'{match.wording}' takes {_things(len(names))}, not {len(self.subjects)}",
                "Left of the colon stands one thing for each noun, in the order of the words.",
                self.other_subjects(match, names, tokens),
            )
        slots: dict[str, Bound] = {"x": self.first}
        shown = {"x": self.subjects[0].text} if names == ("x",) else {}
        for name, subject in zip(names, self.subjects, strict=True):
            slots[name], shown[name] = subject.bound, subject.text
        if len(self.subjects) == 1:
            slots |= self.subjects[0].asked
            shown |= self.subjects[0].asked_shown
        return slots, shown

    def other_subjects(self, match: Match, names: tuple[str, ...], tokens: tuple[Token, ...]) -> str:
        """What to write where another number of things stands left of the colon than the phrase takes."""
        if len(names) > 1:
            return "write them with commas, such as: wax, oil : ratio of wax to oil of 9:1"
        named = [d.name.lower() for f in match.fills if (d := self.declared(f.tokens))]
        left = [s for s in self.subjects if s.text.lower() not in named]
        for subject in self.subjects:
            if subject.text.lower() in named and left:
                instead = f"{left[0].text} : {self.text(tokens)}"
                return f"{subject.text} stands in the words already: write {instead}"
        return "write a line for each, or their sum"

    def where_fails(self, entry: Entry, shown: Mapping[str, str], tokens: tuple[Token, ...]) -> Trouble:
        assert entry.where
        text = " ".join(entry.where.text.split())
        filled = ", ".join(f"{name} is {value}" for name, value in shown.items() if name != "x")
        return trouble(
            self.span(tokens),
            "the numbers of this phrase do not go together",
            f"It needs {text}; here {filled}.",
            "check their order and units",
        )

    def number_text(self, fill: Fill) -> str:
        number = fill.tokens[0].number
        if number is None or number.unit is None or fill.tokens[0].start not in self.bare:
            return self.text(fill.tokens)
        if fill.slot.kind in ("whole", "plain", "ratio"):
            return number.text
        return f"{number.text} {number.unit.symbol}"

    def number(self, slot: Slot, tokens: tuple[Token, ...], of_subject: bool) -> Typed:
        """What fills a number slot, in the kind of the subject where its spelling leaves that open."""
        if named := self.declared(tokens):
            self.reader.names.speak(named.name)
            return self.reader.names.value(named)
        token = tokens[0]
        number = token.number or spelled(token)
        if slot.kind in ("whole", "plain", "ratio") and token.start in self.bare:
            number = replace(number, unit=None)
        spans = slot.kind == "difference"
        subject = self.first if isinstance(self.first, Typed) and (of_subject or spans) else None
        unit = self.subject_unit(slot, number, subject)
        if slot.kind == "whole" and (number.value.denominator != 1 or unit):
            raise trouble(self.span(tokens), f"'{self.text(tokens)}' is no whole number")
        limits = slot.kind in ("number", "difference") and ":" not in number.text
        if unit is None and subject and of_subject and limits:
            own = subject.unit
            if own and own.symbol and not (number.value == 0 and own.offset == 0):
                raise bare_number(self.span(tokens), number, own)
            unit = own
        return replace(literal(number, unit), lifted=not self.loose)

    def subject_unit(self, slot: Slot, number: Number, subject: Typed | None) -> Unit | None:
        """The unit of a number in words: K or degC as level or span, as the subject and the slot ask."""
        unit = number.unit
        if unit is None or unit.kind.dimension != _TEMPERATURE or subject is None or subject.kind is None:
            return unit
        if slot.kind == "difference":
            return as_difference(unit)
        if subject.kind == Kind(_TEMPERATURE):
            return as_difference(unit)
        return as_level(unit) if unit.symbol == "K" and subject.kind.point else unit

    def limited(
        self, fill: Fill, names: tuple[str, ...], slots: dict[str, Bound], shown: dict[str, str]
    ) -> None:
        """Binds a limit c: `c` is that on everything left of the colon, `a_c` that on `a` alone."""
        name, text = fill.slot.name, self.text(fill.tokens)
        limits = tuple(job.whole(fill.tokens) for job in self.each())
        if self.sort == "moments":
            names = tuple(self.subjects[0].moments)
            told = tuple(thing for thing, _ in self.subjects[0].moments.values())
        elif self.sort == "steps":
            names = names[1:2] or names
            beside = self.subjects[1].text if len(self.subjects) > 1 else ""
            told = (beside or f"duration of {self.subjects[0].text}",)
            slots[f"net_{name}"] = self.without_pauses(fill.tokens)
            shown[f"net_{name}"] = f"duration of {self.subjects[0].text} without its pauses {text}"
        else:
            told = tuple(subject.text for subject in self.subjects)
        if self.sort == "moments":
            at = dict(zip(names, limits, strict=True))
            slots[f"all_{name}"] = self.at_all_times((at["lowest"], at["highest"]), text)
            shown[f"all_{name}"] = f"{self.subjects[0].text} {text} throughout"
        for one, thing, limit in zip(names, told, limits, strict=True):
            slots[f"{one}_{name}"] = Listed((limit,), (), f"{thing} {text}")
            shown[f"{one}_{name}"] = f"{thing} {text}"
        shown[name] = f"{', '.join(told)} {text}"
        slots[name] = Listed(limits, (), shown[name])

    def without_pauses(self, tokens: tuple[Token, ...]) -> Listed:
        """A limit on how long a step takes, its pauses left out."""
        step = self.first
        assert isinstance(step, Step)
        if not step.pausing or len(self.subjects) > 1:
            return Listed((), (), ONLY_WITH_PAUSES)
        net = replace(self.reader.names.terms[step.duration.lower()], term=active(step))
        return Listed((self.on(net).whole(tokens),), (), self.text(tokens))

    def at_all_times(self, limits: tuple[Formula, ...], text: str) -> Listed:
        """The limit at every moment: on the lowest and the highest value, if what lies between is within."""
        if not all(map(without_gap, limits)):
            return Listed((), (), f"'{text}' leaves a gap, so it cannot be told from the ends")
        return Listed((All(limits),), (), text)

    def in_time(self, fill: Fill) -> tuple[Bound, str]:
        """The step, or the start or end of one, that stands in a slot."""
        words = self.text(fill.tokens)
        names = self.reader.names
        if fill.slot.kind == "step":
            step = names.step(words)
            assert step is not None
            if step is self.first:
                raise trouble(
                    self.span(fill.tokens), f"{step.name} beside itself",
                    f"The words say how what stands left of the colon lies to {step.name}.",
                    f"put the other step left of the colon: ... : {self.words.text}",
                )  # fmt: skip
            return step, step.name
        moment = names.time_of(words)
        assert moment is not None
        return moment, words

    def limited_parts(
        self, entry: Entry, fill: Fill, of_parts: OfParts, slots: dict[str, Bound], shown: dict[str, str]
    ) -> None:
        """Binds a limit c on like parts: `c` of each that is there, `mean_c` on their mean."""
        name, text = fill.slot.name, self.text(self.without_own(fill.tokens))
        thing = self.subjects[0].text
        limits = tuple(job.whole(fill.tokens) for job in self.each())
        shown[name] = f"{thing} {text}"
        slots[name] = Listed(limits, (), shown[name], of_parts.there)
        asked = _said(entry)
        for together, value in of_parts.together.items():
            key = f"{together}_{name}"
            if key in asked:
                shown[key] = f"{CALLED[together]} {thing} {text}"
                slots[key] = Listed((self.on(value).whole(fill.tokens),), (), shown[key])

    def without_own(self, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
        """The limit without the words before it that name what is limited: 'rod having a length of'."""
        own = self.tests().own_words | FILLERS
        after = next((i for i, t in enumerate(tokens) if word_of(t) not in own), 0)
        starts = (i for i in range(after, 0, -1) if self.each()[0].readable(tokens[i:]))
        return tokens[next(starts, 0) :]

    def limited_one_by_one(
        self, fill: Fill, subject: Subject, slots: dict[str, Bound], shown: dict[str, str]
    ) -> None:
        """Binds a limit on one of several things of the same parts: the first limit is on the first thing."""
        assert subject.parts is not None
        jobs = [self.on(bound, subject.text) for bound in subject.parts.each]
        if not jobs[0].readable(fill.tokens):
            raise self.no_phrase(fill.tokens)
        limits = tuple(job.whole(fill.tokens) for job in jobs)
        shown[fill.slot.name] = f"{subject.text} {self.text(fill.tokens)}"
        slots[fill.slot.name] = Listed(limits, (), shown[fill.slot.name], subject.parts.there)

    def listed(self, fill: Fill) -> Listed:
        subject = self.first
        text = self.text(fill.tokens)
        if isinstance(subject, Assembly):
            return self.listed_parts(subject, fill, text)
        if isinstance(subject, LISTS):
            members = [member_of(subject, self.text(m)) or "" for m in fill.members]
            for member in members:
                self.reader.names.speak(member)
            once = tuple(has(subject, m) for m in not_within_another(subject, members))
            return Listed(tuple(has(subject, m) for m in members), tuple(members), text, once=once)
        return Listed(tuple(self.whole(m) for m in fill.members), (), text)

    def listed_parts(self, made: Assembly, fill: Fill, text: str) -> Listed:
        """Kinds of part, each with how many of it the words ask for: `two plates and a spring`."""
        named: list[str] = []
        said: list[Formula] = []
        for words in fill.members:
            found = self.counted(made, words)
            assert found
            self.reader.names.speak(found[0])
            named.append(found[0])
            said.append(found[1].whole(words) if found[1] else has(made, found[0]))
        return Listed(tuple(said), tuple(named), text, once=tuple(said))

    def counted(self, made: Assembly, tokens: tuple[Token, ...]) -> tuple[str, _Job | None] | None:
        """The kind of part that words like `two plates` name, and what reads how many; None for no kind."""
        text = [self.text(tokens[at:]) for at in range(len(tokens))]
        at = next((i for i, words in enumerate(text) if member_of(made, words)), None)
        if at is None or any(t.sort == "sign" for t in tokens):
            return None
        member = member_of(made, text[at])
        assert member
        counted = self.reader.names.declared(member)
        if isinstance(counted, NumberDecl) and (at or word_of(tokens[0]) in ("a", "an")):
            parts = self.reader.names.kind(member)
            asked, shown = kinds_of(self.reader.names, parts, member) if parts else ({}, {})
            subject = Subject(self.reader.names.value(counted), member, self.span(tokens), None, asked, shown)
            job = self.of(subject)
            return (member, job) if job.readable(tokens) else None
        return (member, None) if at == 0 else None

    # ---- when nothing reads the words

    def no_phrase(self, tokens: tuple[Token, ...]) -> Trouble:
        words, span = self.text(tokens), self.span(tokens)
        literals = frozenset(
            o for e in self.reader.phrases.all() for p in self.here(e) for need in p.required for o in need
        )
        if help := self.without_place(tokens):
            place = self.text(tokens[placed_at(tokens) :]).removeprefix("away ").partition(" ")[2]
            cause = f"'{place}' is no declared name, so it is no value here."
            return trouble(span, f"no phrase reads '{words[:60]}'", cause, help)
        cause = "The words right of a colon are read as one phrase, whole."
        if shorter := self.shorter(tokens, literals):
            return trouble(span, f"no phrase reads '{words[:60]}'", cause, f"lift only: {shorter}")
        if isinstance(self.first, LISTS):
            loose = matches(tokens, self.reader.phrases, self.tests(any_item=True))
            for fill in (f for m in loose for f in m.fills if f.slot.kind == "list"):
                for member in fill.members:
                    said = set(map(word_of, member)) - FILLERS
                    if isinstance(self.first, Assembly):
                        said -= NUMBER_WORDS.keys()
                    ends = (member, member[1:]) if len(member) > 1 else (member,)
                    known = any(member_of(self.first, self.text(end)) for end in ends)
                    if literals.isdisjoint(said) and not known:
                        return no_member(self.first, self.text(member), self.span(member))
        if self.sort in ("steps", "sequences") and (wrong := self.no_step(tokens)):
            return wrong
        if isinstance(self.first, Typed) and (advice := no_assembly(span, self.subjects[0].text)):
            return advice
        if how_long := self.how_long(tokens):
            return trouble(span, f"no phrase reads '{words[:60]}'", cause, how_long)
        near = self.nearest(tokens)
        more = "; or write the meaning in symbols after the words: two blanks, exactly, facts"
        if field := self.reader.names.field_of(self.subjects[0].text) if self.subjects else None:
            more += f", such as SUM {field[0][0].name} ({field[1]}) >= ... for all together"
        if unknown := self.undeclared(tokens, literals):
            cause = f"'{unknown}' is no declared name, so it is no value here."
            help = f"declare it under this name: {_bare(unknown)}  length in mm (or its own kind)"
            return trouble(span, f"no phrase reads '{words[:60]}'", cause, help + more)
        listed = list(dict.fromkeys(p.plain for p in near))
        help = "nearest: " + "; ".join(f"'{text}'" for text in listed) if near else ""
        cause = self.operands(tokens, near) or cause
        return trouble(span, f"no phrase reads '{words[:60]}'", cause, (help + more).removeprefix("; or "))

    def here(self, entry: Entry) -> list[Pattern]:
        """The wordings for as many things as stand here whose words tell of limits, not of measures."""
        fits = (p for p in entry.patterns if entry.takes(p) == len(self.subjects))
        return [p for p in fits if not any(s.kind == "limit" for s in p.slots)]

    def shorter(self, tokens: tuple[Token, ...], literals: frozenset[str]) -> str:
        """The longest stretch that is a phrase, if the words around it say nothing of limits; else ''."""
        own = {w for name in self.reader.names.all() for w in name.lower().split()} | self.tests().own_words
        members = {w for m in getattr(self.first, "members", ()) for w in m.lower().split()}

        def says_nothing(token: Token) -> bool:
            word = word_of(token)
            if token.sort != "word" or word in NUMBER_WORDS or word in (members - FILLERS) | _OTHER_MEASURES:
                return False
            known = word in FILLERS or word in own
            return known or (word not in literals and not get_close_matches(word, literals, 1, 0.8))

        said = [i for i, token in enumerate(tokens) if not says_nothing(token)]
        if not said or (said[0] == 0 and said[-1] == len(tokens) - 1):
            return ""
        for end in range(said[-1] + 1, min(said[-1] + 4, len(tokens)) + 1):
            for start in range(said[0], max(said[0] - 4, -1), -1):
                if self.readable(tokens[start:end]):
                    return self.text(tokens[start:end])
        return ""

    def bare_parts_per(self, tokens: tuple[Token, ...]) -> Trouble | None:
        """The error for `less than 50 ppm`, which leaves open of what; the claim's words stay as they are."""
        for number, word in pairwise(tokens):
            if number.number and word_of(word) in ("ppm", "ppb"):
                thing = self.subjects[0].text if self.subjects else "iron"
                said = f"{number.number.text} {word.text}"
                return trouble(
                    self.span((number, word)),
                    f"'{said}' leaves open whether the parts are by mass, by volume or by mole",
                    "The words stay as the claim has them; what they mean is written beside them in symbols.",
                    f"write behind the words two blanks, exactly, and for example {thing} < {said}(m)",
                )  # fmt: skip
        return None

    def without_place(self, tokens: tuple[Token, ...]) -> str:
        """What to write for `within 3 mm of the rim` where the distance itself is measured; else ''."""
        at, first = placed_at(tokens), self.first
        if not at or not isinstance(first, Typed) or first.kind is None or self.is_number(tokens[at + 1 :]):
            return ""
        limit = next(t.number for t in tokens if t.number)
        if limit.unit is None or not limit.unit.kind.dimension or limit.unit.kind != first.kind:
            return ""
        if not self.readable(tokens[:at]):
            return ""
        return f"if {self.subjects[0].text} is measured from there, lift only: {self.text(tokens[:at])}"

    def how_long(self, tokens: tuple[Token, ...]) -> str:
        """What to write for `duration of heating : for 5 min`, or `heating : at least 5 min`; else ''."""
        names, text = self.reader.names, self.subjects[0].text if self.subjects else ""
        step = names.step(text.removeprefix("duration of "))
        if step is None or not step.duration or not tokens:
            return ""
        if word_of(tokens[0]) == "for" and self.readable(tokens[1:]):
            return f"write {step.name} : {self.text(tokens)}, or leave out the 'for': {self.text(tokens[1:])}"
        long = names.declarations[step.duration]
        assert isinstance(long, NumberDecl)
        if isinstance(self.first, Step) and self.on(number_of(long), text).readable(tokens):
            return f"for how long it takes, write duration of {step.name} : {self.text(tokens)}"
        return ""

    def no_step(self, tokens: tuple[Token, ...]) -> Trouble | None:
        """The error for words that are a phrase but for a step that is not declared."""

        def words(part: tuple[Token, ...]) -> bool:
            return len(part) <= 3 and all(t.sort == "word" for t in part)

        names = self.reader.names
        for match in matches(tokens, self.reader.phrases, replace(self.tests(), step=words)):
            for fill in (f for f in match.fills if f.slot.kind == "step" and not self.is_step(f.tokens)):
                said = _bare(self.text(fill.tokens))
                known = tuple(step.name for step in names.steps.values())
                return trouble(
                    self.span(fill.tokens), f"no step is declared as '{said}'", "",
                    did_you_mean(said, known) or f"declare it, for example: {said}  step in min",
                )  # fmt: skip
        return None

    def undeclared(self, tokens: tuple[Token, ...], literals: frozenset[str]) -> str:
        """The words that would have to be a declared name for a phrase to read all; '' if there are none."""
        known = {w for name in self.reader.names.all() for w in name.lower().split()}

        def number(part: tuple[Token, ...]) -> bool:
            words = list(map(word_of, part))
            said = literals.isdisjoint(set(words) - FILLERS) and words[-1] not in FILLERS
            named = not known.isdisjoint(words) and all(t.sort == "word" for t in part)
            return self.is_number(part) or (said and named and words[0] not in FILLERS - _ARTICLES)

        loose = replace(self.tests(), number=number, subjects=0)
        for match in matches(tokens, self.reader.phrases, loose):
            for fill in match.fills:
                if fill.slot.kind not in ("noun", "list", "limit") and not self.is_number(fill.tokens):
                    return self.text(fill.tokens)
        return ""

    def operands(self, tokens: tuple[Token, ...], near: list[Pattern]) -> str:
        """A sentence on the number of values, if a near phrase has all these words and takes others."""
        words = [word_of(t) for t in tokens if not t.number and word_of(t) not in FILLERS]
        numbers = sum(1 for t in tokens if t.number)
        for pattern in near:
            known = {o for need in pattern.required for o in need}
            slots = [s for s in pattern.slots if s.kind not in ("noun", "list", "limit")]
            if words and slots and known.issuperset(words) and len(slots) != numbers:
                values = f"{len(slots)} value{'s' * (len(slots) > 1)}"
                return f"'{pattern.plain}' takes {values}; here {_stand(numbers)}."
        return ""

    def nearest(self, tokens: tuple[Token, ...]) -> list[Pattern]:
        """The patterns most like the words, numbers standing as slots."""
        skeleton = ["(" if self.is_number((t,)) else word_of(t) for t in tokens]
        scored: list[tuple[float, int, Pattern]] = []
        order = 0
        for entry in self.reader.phrases.all():
            fits = self.applies(entry)
            for pattern in entry.patterns:
                order += 1
                literals = [o for need in pattern.required for o in need]
                if not set(literals) & set(skeleton) and len(skeleton) > 1:
                    near = [
                        w
                        for w in skeleton
                        if any(_alike(w, o) for o in literals)
                    ]
                    if not near:
                        continue
                other = ["(" if isinstance(e, Slot) else e.options[0][0].lower() for e in pattern.elements]
                ratio = SequenceMatcher(None, " ".join(skeleton), " ".join(other)).ratio()
                scored.append((-(ratio + (0.2 if fits else 0)), order, pattern))
        return [pattern for _, _, pattern in sorted(scored, key=lambda s: s[:2])[:3]]


def _said(entry: Entry) -> str:
    """The formulas of all readings of an entry."""
    return " ".join(reading.formula_text for reading in entry.readings)


_SORTS = frozenset(("parts", "classes", "sequences", "steps", "moments"))
"""What phrases are made for, and read no words of anything else."""


@cache
def _alike(word: str, other: str) -> bool:
    """Is one word much like the other? The cheap bounds come first."""
    pair = SequenceMatcher(None, word, other)
    return pair.real_quick_ratio() > 0.75 and pair.quick_ratio() > 0.75 and pair.ratio() > 0.75


def _own(match: Match) -> OwnPhrase | None:
    """Where a phrase of the sheet or the practice stands, and whose place it takes; None for the others."""
    if not match.entry.own:
        return None
    built_in = match.instead_of
    instead_of = f"{built_in.id} {built_in.title}" if built_in else ""
    return OwnPhrase(match.entry.title, basename(match.entry.file), match.entry.span.line, instead_of)


def _joins(entry: Entry) -> bool:
    """Is the phrase for whole conditions that a word joins, whatever they are about?"""
    kinds = {slot.kind for pattern in entry.patterns for slot in pattern.slots}
    return kinds == {"list"} and not entry.subjects


def _called(match: Match) -> tuple[str, ...]:
    """What the things left of the colon are called in a phrase's formulas, in their order."""
    nouns = tuple(f.slot.name for f in match.fills if f.slot.kind == "noun")
    return match.entry.subjects or nouns or ("x",)


_ARTICLES = frozenset(("a", "an", "the", "said"))


def _bare(words: str) -> str:
    first, _, rest = words.partition(" ")
    return rest if first.lower() in _ARTICLES and rest else words


def _things(count: int) -> str:
    return "1 thing" if count == 1 else f"{count} things"


def _stand(count: int) -> str:
    return "stands one" if count == 1 else f"stand {count or 'none'}"
