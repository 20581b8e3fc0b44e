"""The vocabulary: what a sheet declares, and the names that parts, compositions and steps bring with them."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from scopecheck.core.formula import All, Article, Bound, Compare, Const, Formula, Measured, Value
from scopecheck.foundations.quantity import Kind, Unit
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span

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


def _so_many(count: Value | None, index: int) -> bool:
    assert count is None or isinstance(count, Fraction)
    return count is None or count >= index
