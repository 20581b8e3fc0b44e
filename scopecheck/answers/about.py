"""What findings are about, by family of question: one closed union."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.answers.held import Combined, Held
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.witness import Witness
from scopecheck.core.stated import Side
from scopecheck.foundations.record import record
from scopecheck.solving.ends import Extremum


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
