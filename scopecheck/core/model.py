"""The typed core: what a sheet means, with every name, unit and phrase resolved.

Nothing here knows how a sheet is spelled or how a question is decided. All numbers are exact rationals in
the coherent base unit of their kind; `NumberDecl.unit` says in which unit a person reads and writes them.
Sum types are unions of frozen dataclasses, consumed by `match` that ends in `assert_never`. `evaluate.py`
and `encode.py` treat the same cases in the same order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cached_property
from typing import Any as Whatever
from typing import Literal, TypeAlias

from scopecheck.foundations.quantity import Kind, Unit
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Source, Span

OTHERS = "something else"
"""The member of every open choice or set that stands for whatever is not listed."""

Value: TypeAlias = Fraction | str | frozenset[str]
Article: TypeAlias = Mapping[str, Value]
"""One thing: a value for everything in the vocabulary (a number, a choice's member, a set's members)."""

Op: TypeAlias = Literal["<", "<=", "=", "!=", ">=", ">"]
Rank: TypeAlias = Literal["least", "middle", "greatest"]
Rule: TypeAlias = Literal["away", "up", "even"]
"""Half away from zero; half up (toward plus infinity); half to even."""
Standing: TypeAlias = Literal["presumed", "arguable", "strained"]
STANDINGS: tuple[Standing, ...] = ("presumed", "arguable", "strained")


# ---- numbers and ends


@record
class Written:
    """A number as written: its digits, its value in `unit`, and the places its digits reach (20.0 -> 1)."""

    text: str
    value: Fraction
    decimals: int
    unit: Unit

    @property
    def base(self) -> Fraction:
        """The value in the base unit of the kind."""
        return self.unit.to_base(self.value)

    @property
    def step(self) -> Fraction:
        """One unit of the last written place, as a difference in base units."""
        return self.unit.factor * Fraction(10) ** -self.decimals


@record
class Bound:
    """An end of a domain or of a parameter's interval; `closed` says whether the end belongs to it."""

    value: Fraction
    closed: bool


# ---- terms: rational-valued, or without value


@record
class Const:
    value: Fraction
    written: Written | None = field(default=None, compare=False)


@record
class Measured:
    """The value of a declared number."""

    name: str


@record
class Parameter:
    """The value of a reading's free parameter (a key of `Sheet.parameters`)."""

    key: str


@record
class Add:
    items: tuple[Term, ...]


@record
class Negate:
    item: Term


@record
class Multiply:
    left: Term
    right: Term


@record
class Divide:
    """Has no value where the divisor is 0."""

    left: Term
    right: Term
    text: str = field(default="", compare=False)


@record
class Remainder:
    """`item - divisor * floor(item / divisor)`; the divisor is a positive written number."""

    item: Term
    divisor: Fraction


@record
class Magnitude:
    item: Term


@record
class Least:
    items: tuple[Term, ...]


@record
class Greatest:
    items: tuple[Term, ...]


@record
class Rounded:
    """`item` rounded to the grid `origin + k * step`; signs are taken relative to `origin`."""

    item: Term
    step: Fraction
    rule: Rule
    origin: Fraction = Fraction(0)


@record
class CountOf:
    """How many members a declared set has; `something else` counts as one."""

    name: str


@record
class Ranked:
    """The least, the middle one or the greatest of the items that are `there`, in the order of size.

    The middle one of an even number is the mean of the two middle ones. Has no value where none is there, one
    that is there has none, or whether one is there is undefined.
    """

    rank: Rank
    items: tuple[Term, ...]
    there: tuple[Formula, ...]


@record
class Branch:
    """`then` if the condition is true, `otherwise` if false, no value if the condition is undefined."""

    condition: Formula
    then: Term
    otherwise: Term


@record
class ReadTerm:
    """A noun with several referents: one term for each reading of its group, in the group's order."""

    group: int
    options: tuple[Term, ...]


Term: TypeAlias = (
    Const
    | Measured
    | Parameter
    | Add
    | Negate
    | Multiply
    | Divide
    | Remainder
    | Magnitude
    | Least
    | Greatest
    | Rounded
    | CountOf
    | Ranked
    | Branch
    | ReadTerm
)


# ---- formulas: true, false or undefined (strong three-valued logic)


@record
class Truth:
    value: bool


@record
class Compare:
    op: Op
    left: Term
    right: Term


@record
class IsWhole:
    item: Term


@record
class Chosen:
    """A declared choice has this member."""

    name: str
    member: str


@record
class Includes:
    """A declared set has this member (and perhaps others)."""

    name: str
    member: str


@record
class Not:
    item: Formula


@record
class All:
    """Every item; of none: true."""

    items: tuple[Formula, ...]


@record
class Any:
    """At least one item; of none: false."""

    items: tuple[Formula, ...]


@record
class Implies:
    left: Formula
    right: Formula


@record
class ExactlyOne:
    items: tuple[Formula, ...]


@record
class Read:
    """A phrase: one formula for each reading of its group, in the group's order."""

    group: int
    options: tuple[Formula, ...]


Formula: TypeAlias = (
    Truth | Compare | IsWhole | Chosen | Includes | Not | All | Any | Implies | ExactlyOne | Read
)


# ---- vocabulary


@record
class NumberDecl:
    """A quantity, share or count. `stated_bounds` tells bounds the sheet wrote from those of the kind.

    `varies` names what it belongs to where that is not the thing claimed: the user, the occasion; else ''.
    """

    name: str
    kind: Kind
    unit: Unit
    whole: bool
    lower: Bound | None
    upper: Bound | None
    stated_bounds: bool
    note: str
    span: Span = field(compare=False)
    varies: str = ""


Classes: TypeAlias = tuple[tuple[str, tuple[str, ...]], ...]
"""Classes of members: the name of each and the members, themselves no classes, that it stands for."""


@record
class ChoiceDecl:
    """Exactly one of `members`; the last is OTHERS unless the list was closed with `only`."""

    name: str
    members: tuple[str, ...]
    note: str
    span: Span = field(compare=False)
    classes: Classes = ()


@record
class SetDecl:
    """Any of `members`, or none; the last is OTHERS unless the list was closed with `only`."""

    name: str
    members: tuple[str, ...]
    note: str
    span: Span = field(compare=False)
    classes: Classes = ()


Declaration: TypeAlias = NumberDecl | ChoiceDecl | SetDecl


@record
class Within:
    """The one of the outer parts that inner parts belong to, and the count that says that it is there."""

    name: str
    count: str
    index: int

    def there(self) -> Formula:
        """That the outer part is there."""
        return Compare(">=", Measured(self.count), Const(Fraction(self.index)))


@record
class Part:
    """Like parts of one thing: up to `most` of them, each with its own value of every field.

    `count` is the declared whole number of how many there are, `plural` what people call them. The fields of
    part i, counted from 1, are declared things of their own (`slot`); those of parts beyond the count are
    there in every article and mean nothing. Of parts of parts there is one `Part` for each outer one, and
    their count is a field of it.
    """

    name: str
    count: str
    most: int
    fields: tuple[str, ...]
    span: Span = field(compare=False)
    plural: str = ""
    within: Within | None = None

    def called(self, index: int) -> str:
        """What one of them is called: `hole 2`, `slot 1 of tray 2`."""
        return f"{self.name} {index}" + (f" of {self.within.name}" if self.within else "")

    def slot(self, index: int, field_name: str) -> str:
        """The declared name of a field of one part: `diameter of hole 2`."""
        return f"{field_name} of {self.called(index)}"

    def slots(self) -> tuple[tuple[int, str, str], ...]:
        """Each part, each of its fields, and the declared name of that."""
        indices = range(1, self.most + 1)
        return tuple((i, own, self.slot(i, own)) for i in indices for own in self.fields)

    def present(self, index: int) -> Formula:
        """That there are at least so many parts."""
        so_many = Compare(">=", Measured(self.count), Const(Fraction(index)))
        if self.within is None:
            return so_many
        return All((self.within.there(), so_many))

    def there(self, formula: object) -> int:
        """The index of the part that a formula says is there; 0 if it says something else."""
        match formula:
            case Compare(">=", Measured(self.count), Const(value, None)) if 1 <= value <= self.most:
                return int(value)
            case _:
                return 0

    def is_there(self, article: Article, index: int) -> bool:
        """Has the article so many of these parts? It may, where it does not say how many."""
        outer = self.within is None or _so_many(article.get(self.within.count), self.within.index)
        return outer and _so_many(article.get(self.count), index)


@record
class Composition:
    """Ingredients that make up a whole: each a declared share, all of them together 100 %.

    `members` are the ingredients in the order of the sheet. The last two are `others` and `impurities`, which
    are '' where the composition was closed with `only`. Each class is a declared share of its own, the sum of
    its members. `name` is that of the composition, or that of a class of it seen as a list of its members.
    """

    name: str
    members: tuple[str, ...]
    classes: Classes
    others: str
    impurities: str
    unit: Unit
    span: Span = field(compare=False)


@record
class Assembly:
    """Kinds of part that make up one thing: each a declared count of its own.

    `members` are the counts in the order of the sheet. The last two are `others`, the parts of kinds that
    nobody listed, and `unrelated`, things that have nothing to do with the invention; both are '' where the
    assembly was closed with `only`. `classes` are the assemblies among its members. `called` gives a member
    for what one of it is called, as plates for plate.
    """

    name: str
    members: tuple[str, ...]
    classes: Classes
    others: str
    unrelated: str
    called: tuple[tuple[str, str], ...]
    span: Span = field(compare=False)


DONE, NOT_DONE = "done", "not done"
"""The members of the choice that says of a step that may be left out whether it was done."""


@record
class Step:
    """A step in time, by the declared numbers that say when it starts and how long it takes.

    An event takes no time: its `duration` is ''. `done` is the declared choice that says whether the step was
    done; '': it always is. Of each of `fields` there are five declared numbers: at the start, at the end, the
    lowest and the highest in between, and the average over the whole time. Of a step that may pause
    (`pausing`) there are two more: its longest pause and all its pauses together. All numbers of a step that
    was not done are there and mean nothing.
    """

    name: str
    start: str
    duration: str
    done: str
    fields: tuple[str, ...]
    span: Span = field(compare=False)
    pausing: bool = False

    @property
    def pauses(self) -> tuple[str, ...]:
        """The declared numbers of the longest pause and of all pauses together; () where there are none."""
        return (f"longest pause of {self.name}", f"total pause of {self.name}") if self.pausing else ()

    def moments(self, own: str) -> dict[str, str]:
        """The declared numbers of a field: start, end, lowest, highest, average; of an event only start."""
        if not self.duration:
            return {"start": f"{own} at {self.name}"}
        return {
            "start": f"{own} at the start of {self.name}",
            "end": f"{own} at the end of {self.name}",
            "lowest": f"lowest {own} of {self.name}",
            "highest": f"highest {own} of {self.name}",
            "average": f"average {own} of {self.name}",
        }

    @property
    def numbers(self) -> tuple[str, ...]:
        """Every declared number that means something only where the step was done."""
        timed = (self.start, self.duration) if self.duration else (self.start,)
        return (*timed, *self.pauses, *(name for own in self.fields for name in self.moments(own).values()))


# ---- readings


@record
class Reading:
    """One way to take a phrase or noun. `plain` is its meaning in words and plain maths, for people.

    `axes` are the kinds of ambiguity it settles, such as (("ends", "included"),).
    """

    label: str
    standing: Standing
    plain: str
    taken_by: str = ""
    axes: tuple[tuple[str, str], ...] = ()


@record
class Place:
    """One occurrence of a group: the label of the limitation or the name of the case it stands in.

    `meanings` says what each reading comes to here, in the group's order, as `Reading.plain` does for the
    first place; empty where it is the same everywhere.
    """

    where: str
    words: str
    span: Span = field(compare=False)
    meanings: tuple[str, ...] = field(default=(), compare=False)


@record
class Group:
    """A link group: the occurrences that are always read alike (same document, wording, readings).

    `readings` holds what is left after pins and policies; `base` is the first of best standing. `settled`
    names what was pinned away, with the reason. `not_computed` are readings without a formula; `not_tried`
    are (label, why) of readings whose conditions fail here.
    """

    index: int
    document: str
    wording: str
    entry: str
    readings: tuple[Reading, ...]
    base: int
    places: tuple[Place, ...]
    settled: tuple[Settled, ...] = ()
    not_computed: tuple[str, ...] = ()
    not_tried: tuple[tuple[str, str], ...] = ()
    noun: bool = False
    definition: Definition | None = None
    own: OwnPhrase | None = None


@record
class OwnPhrase:
    """Where a phrase that is not one of the catalogue stands.

    `file` is '' for the sheet itself; `instead_of` names the phrase of the catalogue whose place it takes
    here, '' for none.
    """

    title: str
    file: str
    line: int
    instead_of: str


@record
class Settled:
    """A policy, definition or pin that took readings away, and which; `reason` is the place it rests on."""

    text: str
    reason: str
    removed: tuple[str, ...]
    span: Span = field(compare=False)


Breadth: TypeAlias = Literal["not compared", "same", "broader", "narrower", "crossing"]
"""How wide a definition is beside the ordinary reading; crossing: wider in part, narrower in part."""


@record
class Definition:
    """A definition found in the description, at `place`, that gives a group its reading `reading`.

    `breadth` compares it, at each limitation, with what the group's words ordinarily mean there; empty where
    no ordinary reading is left beside it.
    """

    text: str
    place: str
    reading: int
    span: Span = field(compare=False)
    breadth: tuple[tuple[str, Breadth], ...] = ()


@record
class Rivals:
    """A definition and something else that settles the same words, the other definition, policy or pin.

    `left` pairs what the definition means with each meaning that the other leaves; they contradict each other
    where all of these differ. A policy must moreover take away what the definition means: `taken` pairs it
    with what was taken away; None: the policy's question is the only one that the words leave open.
    """

    words: str
    where: str
    definition: Settled
    other: Settled
    left: tuple[tuple[Formula, Formula], ...]
    taken: tuple[tuple[Formula, Formula], ...] | None = None


@record
class FreeParameter:
    """A number a reading leaves open. `shared` parameters are dimensionless and stretch alike per kind."""

    key: str
    name: str
    group: int
    reading: int
    lower: Bound
    upper: Bound | None
    presumed: Fraction
    unit: Unit
    shared: bool
    unknown: bool = False
    """The threshold of a word of degree: nothing is presumed of it, and `presumed` is its least value."""


# ---- claims and cases


@record
class Limitation:
    """One restatement line. `words` are the claim's own; '' for a line in symbols alone."""

    label: str
    claim: int
    subject: str
    words: str
    text: str
    formula: Formula
    meant: Formula | None
    meant_text: str
    groups: tuple[int, ...]
    exact: bool
    span: Span = field(compare=False)
    narrows: tuple[str, tuple[str, ...]] | None = None
    """The class of ingredients that the line narrows to some of its members, and these."""


@record
class Claim:
    number: int
    text: str
    category: str
    parents: tuple[int, ...]
    limitations: tuple[Limitation, ...]
    span: Span = field(compare=False)
    other_category: bool = False
    """It names its parents within a claim to something else, as a method of making what they claim does."""

    @property
    def dependent(self) -> bool:
        """Is it for a narrower form of what its parents claim, and not only for something that names them?"""
        return bool(self.parents) and not self.other_category


Role: TypeAlias = Literal["inside", "outside", "document", "class", "description"]


@record
class Case:
    """A case: every article on which `facts` is true.

    `form` is "thing", or for a document and for the description "example" or "range". `stated` are the
    declared names that the facts speak of; names in `silent` are not mentioned by the document, `unknown`
    have one value nobody knows, and all other names are free. `targets` are claim numbers or limitation
    labels; empty: all independent claims. `document` is the name of the document whose entry it is, or "".
    Of `in_full` there is none, as the document states every other member of their class.
    """

    name: str
    role: Role
    form: Literal["thing", "example", "range"]
    targets: tuple[str, ...]
    facts: Formula
    text: str
    stated: tuple[str, ...]
    silent: tuple[str, ...]
    unknown: tuple[str, ...]
    groups: tuple[int, ...]
    place: str
    span: Span = field(compare=False)
    document: str = ""
    in_full: tuple[str, ...] = ()


@record
class Given:
    """What holds of every thing. `declared`: a declaration says it; it is not told as a fact as well."""

    text: str
    formula: Formula
    note: str
    span: Span = field(compare=False)
    declared: bool = False


@record
class Unrestated:
    """A number, unit, connective or end-point word of a claim's text that no line restates, with context.

    `beside`: the words of the line that takes up what stands nearest, if one does.
    """

    claim: int
    sort: Literal["number", "unit", "connective", "end word", "hedge", "order word", "closing word"]
    words: str
    context: str
    span: Span = field(compare=False)
    beside: Span | None = field(default=None, compare=False)


def _so_many(count: Value | None, index: int) -> bool:
    assert count is None or isinstance(count, Fraction)
    return count is None or count >= index


@record
class Sheet:
    title: str
    profile: Literal["US", "EPO"]
    purpose: Literal["examination", "court"]
    filed: bool
    confidential: str
    declarations: tuple[Declaration, ...]
    givens: tuple[Given, ...]
    claims: tuple[Claim, ...]
    groups: tuple[Group, ...]
    parameters: tuple[FreeParameter, ...]
    cases: tuple[Case, ...]
    policies: tuple[Settled, ...]
    unrestated: tuple[Unrestated, ...]
    source_name: str
    rivals: tuple[Rivals, ...] = ()
    parts: tuple[Part, ...] = ()
    compositions: tuple[Composition, ...] = ()
    assemblies: tuple[Assembly, ...] = ()
    phrase_files: tuple[Source, ...] = ()
    steps: tuple[Step, ...] = ()
    described: tuple[Case, ...] = ()
    """What the sheet's own description states: ranges and examples. They are no cases of the claims."""

    def declaration(self, name: str) -> Declaration:
        return self._by_name[name]

    @cached_property
    def _by_name(self) -> dict[str, Declaration]:
        return {d.name: d for d in self.declarations}

    def with_whole_compositions(self, names: Iterable[str]) -> frozenset[str]:
        """The names, and with each ingredient or class all others of its composition."""
        found = set(names)
        for made in self.compositions:
            shares = {*made.members, *(name for name, _ in made.classes)}
            found |= shares if found & shares else set()
        return frozenset(found)

    def absent(self, article: Article) -> frozenset[str]:
        """The declared names that mean nothing in this article: the fields of parts that are not there, and
        the numbers of steps that were not done. What the article says nothing of counts as there.
        """
        fields = (name for part in self.parts for i, _, name in part.slots() if not part.is_there(article, i))
        left_out = (n for s in self.steps if article.get(s.done) == NOT_DONE for n in s.numbers)
        return frozenset((*fields, *left_out))

    @cached_property
    def looked_up(self) -> dict[tuple[str, int], tuple[object, Whatever]]:
        """What was worked out of cases and formulas, by their identity; they are kept beside it."""
        return {}

    def claim(self, number: int) -> Claim:
        return self._by_number[number]

    @cached_property
    def _by_number(self) -> dict[int, Claim]:
        return {c.number: c for c in self.claims}

    @cached_property
    def by_label(self) -> dict[str, Limitation]:
        """Every limitation by its label."""
        return {x.label: x for c in self.claims for x in c.limitations}
