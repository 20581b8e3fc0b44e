"""Findings: what a question found, as data. Reports know these and nothing of how they were found."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.answers.held import Combined, Held
from scopecheck.answers.minimise import BreakPoint, Grade
from scopecheck.answers.witness import Witness
from scopecheck.core.construction import Construction
from scopecheck.core.grounds import Ground
from scopecheck.core.model import Group, Settled
from scopecheck.core.ranges import Lying
from scopecheck.core.stated import Side
from scopecheck.core.ties import TiedLying
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span
from scopecheck.solving.ends import Extremum

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
class Reread:
    """A group taken otherwise than in the base, or a stretch of its parameter."""

    group: int
    reading: int
    breaks: tuple[BreakPoint, ...] = ()


@record
class WayOut:
    """A limitation that keeps the thing out in the base, and the single re-readings that let it by."""

    label: str
    words: str
    readings: tuple[tuple[int, int], ...]


@record
class Fall:
    """A set of limitations that keeps a case out in the base, and what lets something of the case by.

    `single` are readings and stretches of one phrase, each by itself with all else as in the base; `together`
    the least departures where no phrase does it alone. Neither: the set keeps the case out on every
    construction, unless not `decided`.
    """

    labels: tuple[str, ...]
    single: tuple[Reread, ...] = ()
    together: tuple[Reread, ...] = ()
    decided: bool = True

    @property
    def always(self) -> bool:
        """Does the set keep the case out on every construction?"""
        return self.decided and not self.single and not self.together


@record
class Otherwise:
    """Where it is not so, though it is as presumed: on each of the re-readings, the first the least, or on
    all of them `together`."""

    rereads: tuple[Reread, ...] = ()
    together: bool = False

    @property
    def least(self) -> tuple[Reread, ...]:
        """The least of what is enough: all of them together, else the first one."""
        return self.rereads if self.together else self.rereads[:1]

    @property
    def ways(self) -> tuple[tuple[Reread, ...], ...]:
        """All that is enough, the least first."""
        one = (self.rereads,) if self.rereads else ()
        return one if self.together else tuple((r,) for r in self.rereads)


# ---- what a finding is about: one record for each family of questions


@record
class Plain:
    """Nothing more than every finding says: a pair of phrases, two phrases that part nothing."""


@record
class Met:
    """What of a case meets a claim; `at_end`: a document's range where it states an end, and not as a whole.

    Of what is met as presumed some is met still on those re-readings of `otherwise` that are `in_part`.
    `ways_out` say what keeps the thing shown out in the base. `also_claims` are dependents of which the same
    holds, `also_open` those of which it holds as far as the case states something, with the names that it
    leaves open; of what holds on every reading `also_on_some` are those of them of which it does not.
    """

    at_end: bool = False
    in_part: tuple[Reread, ...] = ()
    ways_out: tuple[WayOut, ...] = ()
    also_claims: tuple[int, ...] = ()
    also_on_some: tuple[int, ...] = ()
    also_open: tuple[tuple[int, tuple[str, ...]], ...] = ()


@record
class Lost:
    """What a claim loses of a case; only a part, by what it has of the names `partly`, if there are any.

    Of what is lost some is inside on the readings `in_part`, each presumed as well. `line_alone`: it is what
    one line loses of a case that others keep out on every construction. `also_claims` take over the claim.
    """

    partly: tuple[str, ...] = ()
    in_part: tuple[Reread, ...] = ()
    line_alone: bool = False
    also_claims: tuple[int, ...] = ()


@record
class LeftOpen:
    """A case that a claim neither takes in nor keeps out: it says nothing of these names."""

    names: tuple[str, ...]


@record
class Because:
    """The limitations that together bring something about: a least set of them, and, where there are several
    minimal sets, all of these, unless not `every`."""

    lines: tuple[str, ...] = ()
    sets: tuple[tuple[str, ...], ...] = ()
    every: bool = True


@record
class Empty:
    """A claim that nothing meets, by lines that cannot hold together; on every reading, only with the
    `further` ones."""

    by: Because
    further: tuple[str, ...] = ()


@record
class AddsNothing:
    """A claim that follows from the lines which it takes over.

    Where it is otherwise, `against` is a thing that it leaves out. `never_both`: on no construction does it
    narrow and is met by something.
    """

    by: Because
    against: Witness | None = None
    never_both: bool = False


@record
class Narrows:
    """A claim that narrows; with `one_value`, as presumed, by one value of one number and nothing else."""

    one_value: bool = False


@record
class Idle:
    """A limitation that these make idle; its `twins` are idle too, but not together with it."""

    by: Because
    twins: tuple[str, ...] = ()


@record
class IdleEnd:
    """One end of a range that is idle beside these lines; its number with the unit, as written."""

    by: Because
    side: Side
    written: str


@record
class EndNotReached:
    """An end that a limitation states, with its unit, and how far the claim goes, in that unit.

    It goes so `far` as presumed; or on any reading at all, and only to `usual` as presumed, if that is less.
    `farthest` are the departures on which it then goes so far.
    """

    by: Because
    stated: str
    unit: str
    upper: bool
    far: Extremum
    usual: Extremum | None = None
    farthest: tuple[Reread, ...] = ()


@record
class NotThere:
    """The members that nothing in a claim has, or what the condition is about that nothing fulfils."""

    by: Because
    names: tuple[str, ...]


@record
class OneValue:
    """What the lines of a claim leave but one value of."""

    by: Because


@record
class Needed:
    """A class of which a claim needs a further member that no words name."""

    by: Because
    member: str


@record
class Freed:
    """The lines above that a thing misses which the narrower name lets in."""

    by: Because


Relation: TypeAlias = Literal["unchanged", "narrowed", "widened", "both"]
"""Of a claim on one construction: nothing given up or gained, only given up, only gained, both."""


@record
class Amended:
    """How an amended claim lies to the one before on the construction of the finding."""

    relation: Relation


Lies: TypeAlias = Literal["apart", "touches", "overlaps", "within shared", "within", "contains", "the same"]
"""How a document's stated range lies against a claim."""


@record
class RangeLies:
    """How a document's range lies; `firm` are the numbers in which it lies apart on every construction."""

    relation: Lies
    firm: tuple[str, ...] = ()


@record
class Alike:
    """Of two claims of one scope, as presumed, the other one."""

    other: int


@record
class Unmeant:
    """What a line lets in or leaves out beside what was meant by it; with a thing that was `meant` and is met
    on the same reading, as like the one shown as can be."""

    meant: Witness | None = None


Change: TypeAlias = Literal["wider", "narrower", "both", "either", "with others", "nothing"]


@record
class OneReading:
    """What a claim takes in once one phrase is taken by the reading of `step`.

    Both: more and less at once; either: the one or the other at different stretches; with others: nothing
    alone, something beside other phrases re-read; nothing: not even then.
    """

    step: tuple[int, int]
    change: Change


@record
class NoValue:
    """What has no value for the thing shown: the text of the only expression that may lack one, else ''."""

    expression: str


NoEnd: TypeAlias = Literal["below", "above", "both", "neither"]


@record
class Unmeasured:
    """A word of degree: with the witness the most different things that meet it on some threshold.

    `no_end` says on which side of them what is met has no end.
    """

    other: Witness
    no_end: NoEnd


@record
class Choices:
    """So many of `every` combinations of the choices and lists of these names meet a limitation."""

    met: int
    every: int
    names: tuple[str, ...]


@record
class Moves:
    """A limit tied to what varies, such as the user: the same thing beside another one is not met."""

    of: str
    other: Witness


@record
class CloseBy:
    """A document's range close by a claim: directly beside `lines`, or sharing a part, or an end that it
    states, with what these ask. `silent` are the lines that it leaves open."""

    how: Literal["beside", "shares", "shares an end"]
    lines: tuple[str, ...]
    silent: tuple[str, ...] = ()


@record
class KeptOut:
    """What keeps a case out of a claim, as presumed.

    `sets` are all minimal sets of limitations that do it, unless not `every_set`; `falls` what becomes of
    each on other readings, `besides` further limitations that by themselves do it on other readings. `silent`
    are those that a document leaves open. `line` is the one that all hangs on, '' if there is none. With
    `at_end` a document's range is looked at where it states an end. `ways_out` are the single re-readings on
    which a limitation lets it by.
    """

    sets: tuple[tuple[str, ...], ...]
    every_set: bool
    falls: tuple[Fall, ...]
    besides: tuple[WayOut, ...]
    silent: tuple[str, ...]
    line: str
    ways_out: tuple[WayOut, ...] = ()
    at_end: bool = False


@record
class Cases:
    """Cases that clash; or, where one reading fits all, those that this leaves open; or those of which a
    dependent claim takes in none. `lines` are the limitations that sort them wrongly."""

    names: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()


@record
class ForAllClaims:
    """Claims that cannot all be met and narrow on one construction: those beside the finding's own."""

    others: tuple[int, ...]


ByLines: TypeAlias = (
    Empty | AddsNothing | Idle | IdleEnd | EndNotReached | NotThere | OneValue | Needed | Freed
)
"""What lines of a claim bring about."""
About: TypeAlias = (
    Plain
    | ByLines
    | Narrows
    | Amended
    | Unmeant
    | Met
    | Lost
    | LeftOpen
    | RangeLies
    | Alike
    | OneReading
    | NoValue
    | Unmeasured
    | Choices
    | Moves
    | CloseBy
    | KeptOut
    | Cases
    | ForAllClaims
    | Held
    | Combined
)
"""Every family. A claimed range beside the description, and several things claimed together, are told by the
records that say how they lie."""


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
