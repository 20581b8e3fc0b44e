"""The sheet: readings of its phrases, its claims and limitations, its cases.

Nothing here knows how a sheet is spelled or how a question is decided.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property
from typing import Any as Whatever
from typing import Literal, TypeAlias

from scopecheck.core.chains import Chain, chains_of
from scopecheck.core.declared import NOT_DONE, Assembly, Composition, Declaration, Part, Step
from scopecheck.core.formula import Article, Bound, Formula
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Source, Span

Standing: TypeAlias = Literal["presumed", "arguable", "strained"]
STANDINGS: tuple[Standing, ...] = ("presumed", "arguable", "strained")


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


WRITTEN_THERE = "readings of '"
"""How the entry of a group begins whose readings stand in the sheet, at the line itself."""


def called(wording: str, words: str) -> str:
    """What to call a phrase: its wording, or, where that is dots and signs alone, its words."""
    return wording if any(c.isalnum() for c in wording) else words


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
    presumed: tuple[str, ...] = ()
    """The labels that are presumed where it stands; none where no presumption is known."""
    untried: tuple[tuple[str, Standing], ...] = ()
    """Of the readings without a formula that nothing settles, those not strained, with their standing."""

    @property
    def called(self) -> str:
        """What it is called where all its places are spoken of."""
        return called(self.wording, self.places[0].words if self.places else self.wording)

    @property
    def of_ones_own(self) -> bool:
        """Are its readings written in the sheet, or in a phrase file of the practice?"""
        return self.own is not None or self.entry.startswith(WRITTEN_THERE)


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
    pair: tuple[str, str] = ("", "")
    """The kind of ambiguity that a policy settles, and how: `("ends", "included")`."""


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


def set_apart(letter: str) -> str:
    """The letter of a free number where something left of the colon has that letter: `d'` beside `d`."""
    return f"{letter}'"


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
    unread: tuple[str, ...] = field(default=(), compare=False)
    """Words of the line that were read past, of which a warning tells."""


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


UnrestatedSort = Literal[
    "number",
    "unit",
    "connective",
    "end word",
    "hedge",
    "limiting word",
    "sign",
    "order word",
    "closing word",
    "condition word",
]


@record
class Unrestated:
    """A number, unit, connective or end-point word of a claim's text that no line restates, with context.

    `beside`: the words of the line that takes up what stands nearest, if one does.
    """

    claim: int
    sort: UnrestatedSort
    words: str
    context: str
    span: Span = field(compare=False)
    beside: Span | None = field(default=None, compare=False)


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
    def chains(self) -> dict[int, tuple[Chain, ...]]:
        """For each claim the chains of its parents that are looked at; () for an independent claim."""
        return chains_of({c.number: c.parents for c in self.claims})

    @cached_property
    def by_label(self) -> dict[str, Limitation]:
        """Every limitation by its label."""
        return {x.label: x for c in self.claims for x in c.limitations}

    @cached_property
    def restated(self) -> frozenset[int]:
        """The claims of which something is restated, in their own lines or in those they take over."""
        own = {c.number for c in self.claims if c.limitations}
        taken = {n for n, chains in self.chains.items() if any(own.intersection(chain) for chain in chains)}
        return frozenset(own | taken)
