"""The names a formula may use and what they stand for: declared things, nouns, and the slots of a reading."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Literal, TypeAlias

from scopecheck.core.declared import Assembly, Composition, Declaration, NumberDecl, Part, SetDecl, Step
from scopecheck.core.formula import OTHERS, Formula, Measured, Term
from scopecheck.foundations.diagnostics import Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import Kind, Unit, kind_word
from scopecheck.foundations.record import field, holder, record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Number, Own
from scopecheck.vocabulary.classes import ListBound, stands_for
from scopecheck.vocabulary.compositions import on_basis, seen_as_list
from scopecheck.vocabulary.parts import value_of_one

ONLY_OF_CLASSES = "only where the words name one of a class, with 'a'"
ONLY_WITH_PAUSES = "only for a step that is declared with: may pause"
ONLY_OF_RECITED = (
    "only where a line of the claim says how many of them there are, and no claim below says more"
)
ONLY_OF_PARTS = "only for some like parts, up to 20, with values of their own"


@record
class Typed:
    """A term with its kind. `kind` None: a bare 0 that takes any kind.

    `number` is set for a number as written, `unit` for what is written or declared in one unit, `bare` for a
    number without a unit, `whole` for what can only be whole; `kinds` where the referents of a noun differ.
    `lifted`: written in the claim, not in the formula.
    """

    term: Term
    kind: Kind | None
    number: Number | None = None
    unit: Unit | None = None
    bare: bool = False
    whole: bool = False
    kinds: tuple[Kind, ...] = ()
    lifted: bool = False
    closed: bool = False
    """A count of parts of which the claim says that its thing consists of them."""


@record
class Listed:
    """A list slot: a condition for each member, and the members' names where they are names.

    Of like parts, `there` are the conditions that each of them is there; else empty. `once` are the
    conditions without those of members that a class listed beside them holds. `of_none` is what is said
    of a class of ingredients of which none is there: its limit on the amount 0.
    """

    conditions: tuple[Formula, ...]
    members: tuple[str, ...]
    text: str
    there: tuple[Formula, ...] = ()
    once: tuple[Formula, ...] = ()
    of_none: Formula | None = None


@record
class Steps:
    """Several steps, in the order named."""

    items: tuple[Step, ...]


Bound: TypeAlias = Typed | ListBound | Listed | Step | Steps
Mode: TypeAlias = Literal["sheet", "reading", "condition"]


class NotHere(Exception):
    """A reading that makes no sense at an occurrence; the message says why."""


class NotYetRecited(Exception):
    """What a claim recites is asked for before all its lines are read."""


def nothing_recited(listed: ListBound, span: Span) -> tuple[str, ...]:
    """Outside claims nothing is recited: raises Trouble."""
    raise trouble(
        span, "RECITED outside a claim",
        f"It stands for what a claim's lines and those above it name of {listed.name}.", "name the members",
    )  # fmt: skip


_STEP_LETTER = regex(r"\bstep \(?([a-z]|[ivx]{1,4}|\d{1,2})\)?(?!\w)", re.IGNORECASE)
_SIDES = {
    **dict.fromkeys(("start", "beginning", "onset", "commencement", "begins", "starts", "has begun"), False),
    **dict.fromkeys(
        (
            "end", "completion", "conclusion", "termination", "ends", "is over", "is complete",
            "is completed", "is finished", "has ended", "is done", "stops",
        ),
        True,
    ),
}  # fmt: skip
"""Words for the start (False) and the end (True) of a step: `the end of soaking`, `soaking is over`."""


_COUNTED_IN = regex(r"in (?:units of )?([^\W\d_]+s)\b(?! (?:of|with|that|which))", re.IGNORECASE)


def counted_unit(note: str) -> str:
    """What a number is counted in, by its note, in small letters: the slots of "in slots"; '' for others."""
    found = _COUNTED_IN.match(note)
    return found[1].lower() if found else ""


def counts_time(declaration: NumberDecl) -> bool:
    """Is it how long something takes, counted in slots or the like? Four of these are not five."""
    last = declaration.name.lower().split()[-1]
    return last in listed("asides", "lasting") and counted_unit(declaration.note) != ""


@holder
class Names:
    """What the sheet declares. `nouns` are terms with several referents, opened by a function when used."""

    declarations: dict[str, Declaration] = field(default_factory=dict)
    folded: dict[str, list[Declaration]] = field(default_factory=dict)
    """The declarations by name in small letters, as of when they were `folded_of` in number."""
    folded_of: int = 0
    nouns: dict[str, Callable[[Span], Typed]] = field(default_factory=dict)
    kinds: dict[str, tuple[Part, ...]] = field(default_factory=dict)
    """Like parts by the name of one; of parts of parts those of each outer one."""
    of_one: dict[str, tuple[Part, int]] = field(default_factory=dict)
    """The fields of each of the like parts, by their declared names."""
    compositions: dict[str, Composition] = field(default_factory=dict)
    assemblies: dict[str, Assembly] = field(default_factory=dict)
    closed: frozenset[str] = frozenset()
    """The counts of parts of which the claim being resolved says that its thing consists of them."""
    per: str = ""
    """In what the amounts of the claim at hand are, where it says so once: 'comprising, per litre, ...'."""
    basis: str = ""
    """By what the claim being resolved, or one above it, says once that all of its percentages are."""
    in_percent: bool = False
    """Whether it says so of numbers that have no sign of per cent: 'in percent by weight: Si: 6.5 to 7.5'."""
    impure: bool = False
    """Whether a line of the claim being resolved says that impurities may be there."""
    under_condition: bool = False
    """Whether the words being read are those of a condition, and limit nothing by themselves."""
    of_several: bool = False
    """Whether two things are looked at of which a ratio is one of three or more: `in a ratio of 3:5:2`."""
    spoken: dict[str, list[str]] = field(default_factory=dict)
    """By place, the ingredients, members and classes that are named there."""
    recital: Callable[[ListBound, Span], tuple[str, ...]] = nothing_recited
    """What is recited of a list where something is being resolved."""
    recited: Mapping[str, int] = field(default_factory=dict)
    """Of like parts, by what several are called, how many the claim being resolved asks for at least."""
    steps: dict[str, Step] = field(default_factory=dict)
    terms: dict[str, Typed] = field(default_factory=dict)
    """What is measured of steps, by name in small letters: it has a value where the step was done."""
    own: Own = field(default_factory=dict)
    failed: frozenset[str] = frozenset()
    """Names whose declaration has a mistake of its own."""
    here: tuple[str, str] = ("", "")
    """The document and the place that are being resolved: where a noun that is opened stands."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """All like parts, in the order declared."""
        return tuple(part for kind in self.kinds.values() for part in kind)

    def kind(self, name: str) -> tuple[Part, ...]:
        """The parts of this name or of this plural; of parts of parts those of each outer one."""
        wanted = name.lower()
        called = ((kind, (kind[0].name.lower(), kind[0].plural.lower())) for kind in self.kinds.values())
        return next((kind for kind, names in called if wanted in names), ())

    def one_of(self, name: str) -> tuple[Part, int] | None:
        """The part, and which of them, that a declared name is a field of."""
        return self.of_one.get(name)

    def all(self) -> tuple[str, ...]:
        return (*self.declarations, *self.nouns, *(s.name for s in self.steps.values()))

    def step(self, words: str) -> Step | None:
        """The step that words name: `soaking`, `the soaking`, `the step of soaking`, `said soaking step`."""
        plain = " ".join(words.lower().split()).replace("( ", "(").replace(" )", ")")
        for _ in range(2):
            for before in ("the ", "said ", "step of ", "a ", "an "):
                plain = plain.removeprefix(before)
        found = self.steps.get(plain) or self.steps.get(plain.removesuffix(" step"))
        return found or self._lettered(plain) or self._noted_step(plain)

    def _noted_step(self, plain: str) -> Step | None:
        """The one step whose note begins with the word: `heating`, of one noted "heating of the beads"."""
        if not plain.endswith("ing") or " " in plain or self.declared(plain) is not None:
            return None
        found = [
            s for s in self.steps.values() if f"{self.note_of(s.start).lower()} ".startswith(f"{plain} of ")
        ]
        return found[0] if len(found) == 1 else None

    def _lettered(self, plain: str) -> Step | None:
        """The step whose note has this letter or number of the claim's: `step d)`."""
        if not _STEP_LETTER.fullmatch(plain):
            return None
        noted = ((_STEP_LETTER.search(self.note_of(s.start)), s) for s in self.steps.values())
        letter = plain.split()[-1].strip("()")
        return next((s for found, s in noted if found and found[1].lower() == letter), None)

    def time_of(self, words: str) -> Typed | None:
        """The moment that words name: `the end of the soaking`, `completion of soaking`, an event's name."""
        plain = " ".join(words.lower().split()).removeprefix("the ").removeprefix("said ")
        side, of, named = plain.partition(" of ")
        sides = [(side, named)] if of else []
        sides += [(said, plain.removesuffix(f" {said}")) for said in _SIDES if plain.endswith(f" {said}")]
        for said, named in sides:
            step, at_end = self.step(named), _SIDES.get(said)
            if step is not None and at_end is not None:
                ends = at_end and step.duration
                return self.terms[f"end of {step.name}".lower() if ends else step.start.lower()]
        return None

    def moment_of(self, name: str) -> tuple[Step, str] | None:
        """The step and field of `temperature of the soaking`, which does not say at which moment."""
        asked = " ".join(name.lower().split())
        for step in (s for s in self.steps.values() if s.duration):
            for own in step.fields:
                of = f"{own.lower()} of "
                if asked == f"{step.name} {own}".lower() or (
                    asked.startswith(of) and self.step(asked.removeprefix(of)) is step
                ):
                    return step, own
        return None

    def throughout(self, name: str) -> tuple[str, ...]:
        """The numbers of `temperature throughout soaking`, which is one value at every moment; () if none."""
        own, word, named = " ".join(name.split()).partition(" throughout ")
        step = self.step(named) if word else None
        if step is None or own.lower() not in (known.lower() for known in step.fields):
            return ()
        return tuple(step.moments(own).values())

    def _bare_moment(self, name: str) -> tuple[Step, str] | None:
        lasting = (step for step in self.steps.values() if step.duration)
        fields = ((step, own) for step in lasting for own in step.fields)
        return next(((step, own) for step, own in fields if own.lower() == name.lower()), None)

    def value(self, declaration: NumberDecl) -> Typed:
        """A declared number as a term: what is measured of one of the parts has a value only where that is
        there, of a step only where it was done.
        """
        if (one := self.one_of(declaration.name)) is None:
            made = self.terms.get(declaration.name.lower()) or number_of(declaration)
            exact = declaration.name in self.closed or (declaration.whole and counts_time(declaration))
            return replace(made, closed=True) if exact else made
        part, index = one
        made = number_of(declaration)
        return replace(made, term=value_of_one(part.present(index), made.term))

    def declared(self, name: str) -> Declaration | None:
        """The declaration of a name; a different case is accepted where it is the only one.

        An 'a' is an article: what is called A is never meant by it.
        """
        found = self.declarations.get(name)
        if found is None and name != "a":
            if self.folded_of != len(self.declarations):
                self.folded, self.folded_of = {}, len(self.declarations)
                for written, declaration in self.declarations.items():
                    self.folded.setdefault(written.lower(), []).append(declaration)
            same = self.folded.get(name.lower(), ())
            found = same[0] if len(same) == 1 else None
        return found

    def note_of(self, name: str) -> str:
        """The note behind the declaration, of a field of like parts or of a step too; '' without one."""
        return getattr(self.declared_for(name), "note", "") or ""

    def declared_for(self, name: str) -> Declaration | None:
        """The declaration of a name; of a field of like parts or of a step that of its first value."""
        declared = self.declared(name)
        if declared is None and (field := self.field_of(name)):
            return self.declared(f"{field[1]} of {field[0][0].name} 1")
        if declared is None and (moment := self.moment_of(name)):
            return self.declared(moment[0].moments(moment[1])["start"])
        return declared

    def noted_letter(self, letter: str, own: str = "") -> bool:
        """Is it a letter by which the note of another thing calls that, `D` of a diameter?"""
        others = (d for n, d in self.declarations.items() if n not in (letter, own))
        return len(letter) < 3 and any(letter in (getattr(d, "note", "") or "").split() for d in others)

    def noun(self, name: str) -> Callable[[Span], Typed] | None:
        return self.nouns.get(name) or self.nouns.get(name.lower())

    def parts_called(self, plural: str) -> Part:
        """The like parts that people call so."""
        return next(kind[0] for kind in self.kinds.values() if kind[0].plural == plural)

    def field_of(self, name: str) -> tuple[tuple[Part, ...], str] | None:
        """The parts and the field of `hole diameter` or `diameter of the holes`, which do not say which."""
        asked = name.lower()
        for kind in self.kinds.values():
            for of in (kind[0].name.lower(), kind[0].plural.lower()):
                for own in kind[0].fields:
                    if asked in (f"{of} {own}", f"{own} of {of}", f"{own} of the {of}"):
                        return kind, own
                    for part in kind:
                        outer = part.within.name.lower() if part.within else ""
                        if outer and asked in (f"{own} of {of} of {outer}", f"{own} of the {of} of {outer}"):
                            return (part,), own
        return None

    def speak(self, name: str) -> None:
        """Keeps in mind that a member, ingredient or part is named at the place being resolved."""
        if one := self.one_of(name):
            name = one[0].within.count if one[0].within else one[0].count
        self.spoken.setdefault(self.here[1], []).append(name)

    def speak_of(self, parts: Sequence[Part]) -> None:
        """Keeps in mind that like parts are named at the place being resolved."""
        self.speak(parts[0].within.count if parts[0].within else parts[0].count)

    def mixture(self, name: str) -> Composition | Assembly | None:
        """The composition or assembly of a name, or a class of a composition as a list of its members."""
        if found := self.assemblies.get(name.lower()):
            return found
        for made in self.compositions.values():
            if made.name.lower() == name.lower():
                return made
            if seen := seen_as_list(made, name):
                return seen
        return None

    def content(self, name: str) -> Typed | None:
        """`filler of solids`, `filler of the paint`: the content of one amount in another, or None."""
        whole, of, basis = name.partition(" of ")
        basis = basis.removeprefix("the ")
        share = self.declared(whole) if of else None
        for made in self.compositions.values():
            shares = (*made.members, *(above for above, _ in made.classes))
            if not isinstance(share, NumberDecl) or share.name not in shares:
                continue
            self.speak(share.name)
            if basis.lower() == made.name.lower():
                return number_of(share)
            below = self.declared(basis)
            if below is not None and below.name in shares:
                term, unit = on_basis(share.name, below.name, made.unit)
                return Typed(term, unit.kind, unit=unit)
        return None

    def unknown(self, name: str, span: Span, more: Iterable[str] = ()) -> Trouble:
        """The error for a name that nothing declares, with the nearest known one or a proposal."""
        bare = [kind for kind in self.kinds.values() if name.lower() in kind[0].fields]
        if (found := self.field_of(name)) or bare:
            parts, own = found or (bare[0], name.lower())
            part = parts[0]
            return trouble(
                span, f"'{name}': of which {part.name}?",
                f"Each {part.name} has a {own} of its own.",
                f"write EVERY {part.name} ({own} ...), SOME {part.name} (...), SUM or MEAN"
                f" {part.name} ({own}), or {part.slot(1, own)} for the first",
            )  # fmt: skip
        if moment := self.moment_of(name) or self._bare_moment(name):
            return no_moment(*moment, name, span)
        if step := self.step(name):
            return trouble(
                span, f"'{step.name}' is a step; alone it has no value",
                "A step has a start, an end and a duration.",
                f"write START({step.name}), END({step.name}), DURATION({step.name}) or DONE({step.name})",
            )  # fmt: skip
        if made := self.assemblies.get(name.lower()):
            return trouble(
                span, f"'{made.name}' is an assembly; alone it has no value",
                f"It is made up of {', '.join(made.members)}.",
                f"write {made.members[0]} IN {made.name}, or {made.name} WITHOUT {made.members[0]} = 0",
            )  # fmt: skip
        if kind := self.kinds.get(name.lower()):
            part, fields = kind[0], kind[0].fields
            of_each = f"; what one has: {fields[0]} of the {part.plural}" if fields else ""
            return trouble(
                span, f"'{part.name}' is a part; alone it has no value", "",
                f"how many there are: {part.plural}{of_each}",
            )  # fmt: skip
        if told := self._no_such_one(name, span):
            return told
        if told := self._garbled(name, span):
            return told
        if name.lower() in self.failed:
            return trouble(span, f"'{name}' is not declared")
        first, dash, second = name.partition("-")
        if dash and self.declared(first) and self.declared(second):
            help = f"with a blank on either side of the sign it is a difference: {first} - {second}"
            return trouble(span, f"'{name}' is not declared", "A name may hold a hyphen.", help)
        if told := self._with_its_measure(name, span):
            return told
        near = did_you_mean(name, (*self.all(), *more))
        for d in self.declarations.values():
            if not isinstance(d, NumberDecl) and (member := member_of(d, name)) is not None:
                listed = next((m for m in d.members if m not in (member, OTHERS)), "...")
                one, other = f"{d.name} = {member}", f"{d.name} IN {{{listed}, {member}}}"
                if isinstance(d, SetDecl):
                    one, other = f"{member} IN {d.name} (it is among them)", f"{one} (it alone)"
                return trouble(
                    span, f"'{name}' is not declared",
                    f"It is a member of {d.name}, and alone it is no fact.",
                    f"write {one}, or {other}",
                )  # fmt: skip
        help = (
            near
            or f"declare it, for example: {name}  length in mm   (or count, number, share in %, any of a, b)"
        )
        return trouble(span, f"'{name}' is not declared", "", help)

    def _with_its_measure(self, name: str, span: Span) -> Trouble | None:
        """The error for `rotor length` where `rotor length in mm`, with one blank, declared a rotor."""
        short, _, last = name.rpartition(" ")
        made, word = self.declared(short), kind_word(last.lower())
        if not isinstance(made, NumberDecl) or word is None or not word.accepts(made.kind):
            return None
        return trouble(
            span, f"'{name}' is not declared", f"What is declared is '{made.name}', as a {word.name}.",
            f"write {made.name}; or leave two blanks behind the name where it is declared:"
            f" {name}  in {made.unit.symbol}",
        )  # fmt: skip

    def _garbled(self, name: str, span: Span) -> Trouble | None:
        """The error for many words in which a part and one of its fields stand: 'rod having a length'."""
        said = name.lower().split()
        for kind in self.kinds.values():
            part = kind[0]
            field = next((f for f in part.fields if f.lower() in said), None)
            if len(said) > 1 and field and {part.name.lower(), part.plural.lower()} & set(said):
                return trouble(
                    span, f"'{name}' is not declared", f"Each {part.name} has a {field} of its own.",
                    f"write {field} of the {part.plural} before a colon and words, or in symbols"
                    f" EVERY {part.name} ({field} ...), or for all together SUM {part.name} ({field})",
                )  # fmt: skip
        return None

    def _no_such_one(self, name: str, span: Span) -> Trouble | None:
        """The error for `diameter of hole 9` where there may be fewer, and for a field that no part has."""
        own, *places = name.split(" of ")
        last: Part | None = None
        for place in reversed(places):
            words = place.removeprefix("the ").split()
            index = int(words.pop()) if len(words) > 1 and words[-1].isdecimal() else 0
            if not (kind := self.kind(" ".join(words))):
                return None
            last = kind[0]
            if index > last.most:
                return trouble(
                    span, f"{last.name} {index} of up to {last.most}",
                    "No more may be there than the declaration says.",
                    f"write {last.name}  part, up to {index} where it is declared, or take it out",
                    also=((last.span, "declared here"),),
                )  # fmt: skip
        if last is None or own.lower() in (field.lower() for field in last.fields):
            return None
        help = of_all(last, own) or did_you_mean(own, last.fields)
        known = f"write one of these: {', '.join(last.fields)}" if last.fields else ""
        help = help or known or f"declare it below the part, indented: {own}  length in mm (or its own kind)"
        return trouble(span, f"no {last.name} has a '{own}'", "It is not declared below the part.", help)


_TOGETHER = {
    "SUM": "total combined summed overall", "MEAN": "mean average", "MEDIAN": "median",
    "LEAST": "least smallest minimum shortest lowest", "GREATEST": "greatest largest maximum longest highest",
}  # fmt: skip


def of_all(part: Part, own: str) -> str:
    """What to write for the `total length` of like parts; '' where the words are not of that form."""
    first, _, field = own.lower().partition(" ")
    word = next((word for word, said in _TOGETHER.items() if first in said.split()), "")
    return f"write {word} {part.name} ({field})" if word and field in part.fields else ""


def no_moment(step: Step, own: str, name: str, span: Span) -> Trouble:
    """The error for a quantity of a step without saying at which end."""
    listed = ", ".join(step.moments(own).values())
    return trouble(
        span, f"'{name}': at which moment of {step.name}?",
        f"{own[:1].upper()}{own[1:]} may change while {step.name} goes on.", f"write one of: {listed}",
    )  # fmt: skip


def number_of(declaration: NumberDecl) -> Typed:
    """A declared number as a term."""
    return Typed(Measured(declaration.name), declaration.kind, unit=declaration.unit, whole=declaration.whole)


def member_of(declaration: ListBound, words: str) -> str | None:
    """The member or class that words name, articles dropped, or None."""
    return stands_for(declaration, words)


def no_member(declaration: ListBound, words: str, span: Span) -> Trouble:
    """The error for words that are no member of a list."""
    known = (*declaration.members, *(name for name, _ in declaration.classes))
    bare = _LEADING.sub("", words)
    switch = set(declaration.members) <= {"yes", "no", "on", "off", OTHERS}
    more = "" if switch else f"add it to the list of {declaration.name}"
    near = did_you_mean(bare, known)
    return trouble(
        span, f"'{bare}' is no member of {declaration.name}", f"Its members are: {', '.join(known)}.",
        f"{near} If not, {more}" if near and more else near or more,
    )  # fmt: skip


_LEADING = regex(r"^(?:(?:is|are|being|a|an|the)\s+)+", re.IGNORECASE)
