"""Findings: what a question found, as data. Reports know these and nothing of how they were found."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.answers.about import (
    About,
    Amended,
    Because,
    ByLines,
    Cases,
    CloseBy,
    ForAllClaims,
    KeptOut,
    LeftOpen,
    Lost,
    Met,
    Moves,
    OneReading,
    Otherwise,
    Plain,
    Relation,
    Reread,
    Unmeant,
    Unmeasured,
    WayOut,
)
from scopecheck.answers.minimise import Grade
from scopecheck.answers.witness import Witness
from scopecheck.core.construction import Construction
from scopecheck.core.grounds import Ground
from scopecheck.core.model import Group, Settled
from scopecheck.core.ranges import Lying
from scopecheck.core.ties import TiedLying
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span

Outcome: TypeAlias = Literal["shown", "excluded", "vacuous", "undecided"]
"""Shown with a verified witness (or as a fact of the whole scope); excluded by exhaustive search as restated;
vacuous: nothing at all can meet it, so the question is empty; undecided, with the reason."""
Quantifier: TypeAlias = Literal["every", "base", "some", "none"]
"""On every admissible construction; on the base one and not on every; on some and not the base; on none."""
Status: TypeAlias = Literal["none", "some", "every"]
"""How much of a case's region is met: no article, some articles, every article."""
Bearer: TypeAlias = Literal["challenger", "competitor", ""]
"""Who would bring it: a wider reading the examiner or a challenger, a narrower one a competitor."""

EMPTY_CLAIM = ("nothing meets", "dependent cannot be met")
"""The questions whose finding is that nothing meets a claim."""

QUESTIONS: tuple[str, ...] = (
    "outside met",
    "inside lost",
    "nothing meets",
    "dependent cannot be met",
    "no reading fits all cases",
    "document met",
    "silence alone keeps out",
    "document close by",
    "unmeant met",
    "meant lost",
    "adds nothing",
    "idle",
    "idle end",
    "end not reached",
    "one value left",
    "member not reached",
    "condition not met",
    "alternative not met",
    "member freed",
    "member needed",
    "moves with something else",
    "same scope",
    "number not described",
    "no reading suits all claims",
    "undefined",
    "case empty on a reading",
    "contested",
    "pair",
    "narrows",
    "one reading fits all cases",
    "without measure",
    "class",
    "inside left open",
    "no case inside",
    "document range",
    "kept out",
    "corner not reached",
    "end repeated",
    "parted on a reading",
    "beside the description",
    "choices left",
    "harmless",
)


@record
class Shown:
    """The thing that shows a finding, if one does, and how it is told.

    `names` are what it is told by, in the order of the sheet, `departs` those in which it departs from the
    case `reference`, '' for none. `grade` says how far from a border it lies, `simplest` if no simpler thing
    does. Of what some thing of a region does on every construction, `on_each` says if this one does on each.
    """

    witness: Witness | None = None
    names: tuple[str, ...] = ()
    departs: tuple[str, ...] = ()
    reference: str = ""
    grade: Grade = "edge"
    simplest: bool = True
    on_each: bool = True


@record
class Statuses:
    """How much of a case is met on the admissible constructions: at the least, as presumed, at the most; None
    where it is not asked."""

    lowest: Status | None = None
    at_base: Status | None = None
    highest: Status | None = None


@record
class Finding:
    """One answer to one question about one place of the sheet.

    `label` is a limitation ("1b") or a claim ("claim 3"); `stakes` run from 1, wrong on every admissible
    construction, to 5, contested with no listed case; 6 is a statement and no defect. `rereads` are the
    departures of `construction` from the base, `read_as` further readings it leans on where no presumption is
    known; `best` says whether no smaller departure does. `others` are further readings with the same effect;
    `more` says that further sets of phrases, each only together, have it too. `otherwise` are the re-readings
    on which what is so as presumed is not. `failing` are the limitations that fail. `ways` are the chains of
    parents by way of which it holds; none: by all. `wherever_met`: these are all by way of which anything
    meets the claim as presumed. `rests_on` are the bounds, givens and policies the answer leans on. `about`
    has what only the family of the question tells.
    """

    question: str
    stakes: int
    claim: int
    label: str
    words: str
    span: Span
    outcome: Outcome
    quantifier: Quantifier
    bearer: Bearer = ""
    case: str = ""
    construction: Construction | None = None
    rereads: tuple[Reread, ...] = ()
    read_as: tuple[Reread, ...] = ()
    best: bool = True
    thing: Shown = Shown()
    status: Statuses = Statuses()
    failing: tuple[str, ...] = ()
    otherwise: Otherwise = Otherwise()
    ways: tuple[tuple[int, ...], ...] = ()
    wherever_met: bool = False
    others: tuple[tuple[int, int], ...] = ()
    more: bool = False
    rests_on: tuple[Ground, ...] = ()
    reason: str = ""
    about: About = Plain()

    @property
    def witness(self) -> Witness | None:
        """The thing that shows it, if one does."""
        return self.thing.witness


def because(finding: Finding) -> Because:
    """The limitations that bring it about, of what limitations do."""
    return finding.about.by if isinstance(finding.about, ByLines) else Because()


def lines_of(finding: Finding) -> tuple[str, ...]:
    """The labels of the limitations that together bring it about."""
    match finding.about:
        case CloseBy(_, lines) | Cases(_, lines):
            return lines
        case KeptOut(line=line):
            return (line,) if line else ()
        case _:
            return because(finding).lines


def sets_of(finding: Finding) -> tuple[tuple[str, ...], ...]:
    """All minimal sets of limitations that bring it about, where they are told."""
    return finding.about.sets if isinstance(finding.about, KeptOut) else because(finding).sets


def cases_of(finding: Finding) -> tuple[str, ...]:
    """The cases that it is about together."""
    return finding.about.names if isinstance(finding.about, Cases) else ()


def silent_lines(finding: Finding) -> tuple[str, ...]:
    """The labels of the limitations that a document leaves open."""
    return finding.about.silent if isinstance(finding.about, CloseBy | KeptOut) else ()


def relation_of(finding: Finding) -> Relation | None:
    """How an amended claim lies to the one before, if it is about that."""
    return finding.about.relation if isinstance(finding.about, Amended) else None


def step_of(finding: Finding) -> tuple[int, int] | None:
    """The group and the reading that is asked about by itself, if it is about one."""
    return finding.about.step if isinstance(finding.about, OneReading) else None


def twin_of(finding: Finding) -> Witness | None:
    """The thing told beside the one that is shown."""
    match finding.about:
        case Moves() | Unmeasured():
            return finding.about.other
        case Unmeant(meant):
            return meant
        case _:
            return None


def also_claims_of(finding: Finding) -> tuple[int, ...]:
    """The further claims that it is told of."""
    match finding.about:
        case ForAllClaims(others):
            return others
        case Met() | Lost():
            return finding.about.also_claims
        case _:
            return ()


def also_open_of(finding: Finding) -> tuple[tuple[int, tuple[str, ...]], ...]:
    """The dependents of which it holds as far as the case states something, with what that leaves open."""
    return finding.about.also_open if isinstance(finding.about, Met) else ()


def partly_of(finding: Finding) -> tuple[str, ...]:
    """The names by which only a part of a case is concerned."""
    match finding.about:
        case Lost(partly) | LeftOpen(partly):
            return partly
        case _:
            return ()


def in_part_of(finding: Finding) -> tuple[Reread, ...]:
    """The re-readings on which some of a case is met and some is not."""
    return finding.about.in_part if isinstance(finding.about, Met | Lost) else ()


def unmet_by(finding: Finding) -> tuple[Reread, ...]:
    """The re-readings on which what is met as presumed is not, or not all of it."""
    return finding.otherwise.rereads if isinstance(finding.about, Met) else ()


def ways_out_of(finding: Finding) -> tuple[WayOut, ...]:
    """What keeps a case out in the base, with what lets it by."""
    return finding.about.ways_out if isinstance(finding.about, Met | KeptOut) else ()


@record
class Looked:
    """What a question looked for and did not find: the statement that takes a finding's place."""

    question: str
    claim: int
    label: str
    case: str = ""


Verdict: TypeAlias = Literal["met", "not met", "in part", "silent", "depends", "empty", "undecided"]
"""Of a limitation and what a case states, on every reading: all of it meets the limitation; none of it does;
some of it; the case says nothing of it; it depends on the reading; nothing can be as stated; not decided."""


@record
class ChartCell:
    """One limitation against one case: what the case states of it, whether that is met, and how it lies.

    `names` are the declared things the limitation speaks of and the case states, `reason` says why nothing
    was decided.
    """

    label: str
    case: str
    names: tuple[str, ...]
    verdict: Verdict
    at_base: Status | None = None
    lying: tuple[Lying, ...] = ()
    tied: tuple[TiedLying, ...] = ()
    reason: str = ""


@record
class Answers:
    """All that a check has to say about one sheet, in the order of stakes.

    `chart` has a cell for every limitation and every document and thing that must stay out, in the order of
    the sheet; nothing where no chart was asked for.
    """

    findings: tuple[Finding, ...]
    looked: tuple[Looked, ...]
    groups: tuple[Group, ...]
    silenced: tuple[Settled, ...] = field(default=())
    chart: tuple[ChartCell, ...] = ()
