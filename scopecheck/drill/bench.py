"""A sheet on which exercises are set: ready to be asked, every stretch fixed, with a thing to start from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.answers.minimise import Grade, pick_article, settle_construction
from scopecheck.answers.questions import prepare
from scopecheck.answers.questions.prepared import Graded, Sought, at_claim
from scopecheck.answers.witness import Expected, WitnessError, verify
from scopecheck.core.construction import Construction, admissible_readings
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import OTHERS, All, Article, Bound, Formula, Value
from scopecheck.core.model import FreeParameter, Limitation, Sheet
from scopecheck.core.plain import scales, tightened
from scopecheck.core.reference import Reference
from scopecheck.core.rewrite import read_as
from scopecheck.foundations.quantity import decimal_text
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Budget, Constraint, all_of, any_of
from scopecheck.solving.evaluate import evaluate, meets
from scopecheck.solving.solver import Search

STRETCH = Fraction(1, 20)
"""How far a reading that stretches without a presumed width is taken to stretch, as a share."""
BUDGET = Budget(work=1_500_000, wall=10**9)
"""Work is counted alike everywhere. There is no wall limit: a learner may think for an hour."""


class Bench:
    """A sheet made ready. `sheet` has every stretch fixed; `written` is as it was read.

    `usual` has a plausible value for each name, where one is known; `exact` tells for a limitation and the
    label of a reading which proposal of more exact wording means it, -1 for none, where that is known.
    `unread` are proposals that no phrase reads.
    """

    def __init__(self, written: Sheet, text: str) -> None:
        self.written = written
        self.text = text
        self.sheet = fixed(written)
        self.prepared = prepare(self.sheet, BUDGET)
        self.session = self.prepared.session
        self._wholes: dict[tuple[str, ...], All] = {}
        self.base: Construction = self.session.base
        self.usual: dict[str, Value] = {}
        self.exact: dict[tuple[str, str], int] = {}
        self.unread: set[str] = set()

    # ---- what is asked

    def limitation(self, label: str) -> Limitation:
        return self.prepared.limitation(label)

    def limitations(self, claim: int) -> tuple[Limitation, ...]:
        """All that the claim asks, with what it takes over."""
        return self.prepared.limitations(claim)

    def group(self, limitation: Limitation) -> int | None:
        """The limitation's only phrase that can be read in several ways, or None."""
        found = [g for g in limitation.groups if len(self.readings(g)) > 1]
        return found[0] if len(found) == 1 else None

    def labelled(self, limitation: Limitation, label: str) -> int | None:
        """The reading of this label, where the limitation's phrase has it and it takes part."""
        group = self.group(limitation)
        found = self.readings(group) if group is not None else ()
        return next((r for r in found if self.sheet.groups[group or 0].readings[r].label == label), None)

    def readings(self, group: int) -> tuple[int, ...]:
        """The readings of a phrase that take part, in the order of the catalogue."""
        return admissible_readings(self.sheet.groups[group])

    def taken(self, limitation: Limitation, reading: int) -> Formula:
        """What the limitation says when its phrase is read so."""
        group = self.group(limitation)
        assert group is not None
        presumed = {p.key: p.presumed for p in self.sheet.parameters if p.group == group}
        return read_as(limitation.formula, group, reading, presumed)

    def every_taken(self, limitation: Limitation) -> tuple[Formula, ...]:
        """What the limitation says on each of the readings that take part."""
        group = self.group(limitation)
        if group is None:
            return (limitation.formula,)
        return tuple(self.taken(limitation, r) for r in self.readings(group))

    def surely(self, limitations: Iterable[Limitation], met: bool) -> Constraint:
        """That all the limitations are met on every reading, or each on none."""
        return all_of(self.session.surely(x.formula, met) for x in limitations)

    def on_readings(self, limitation: Limitation, article: Article) -> tuple[int, ...]:
        """The readings of the limitation's phrase on which the article meets it."""
        group = self.group(limitation)
        assert group is not None
        ways = ((r, self.base.with_reading(group, r)) for r in self.readings(group))
        return tuple(r for r, k in ways if meets(limitation.formula, article, k))

    def met_somehow(self, limitation: Limitation, article: Article) -> bool:
        """Does the article meet the limitation on some reading that takes part?"""
        return self.ever((limitation,), article, True)

    def met_always(self, limitation: Limitation, article: Article) -> bool:
        return not self.ever((limitation,), article, False)

    def ever(self, limitations: Sequence[Limitation], article: Article, met: bool) -> bool:
        """Is there one way to read on which the article meets (misses, unless `met`) the limitations?"""
        scope = self.whole(limitations)
        search = self.session.search(self.session.groups_in(scope), things=False)
        by = self.session.met_by(scope, article)
        return search.holds(by if met else ~by)

    def best_reading(
        self, limitations: Sequence[Limitation], article: Article, met: bool
    ) -> Construction | None:
        """The best way to read on which the article meets (misses, unless `met`) the limitations, if any."""
        scope = self.whole(limitations)
        groups = self.session.groups_in(scope)
        search = self.session.search(groups, things=False)
        by = self.session.met_by(scope, article)
        search.require(by if met else ~by)
        return settle_construction(self.session, search, groups).construction if search.holds() else None

    def between(
        self, parent: Sequence[Limitation], own: Sequence[Limitation], article: Article
    ) -> Construction | None:
        """The best way to read on which the article meets `parent` and misses `own`, if there is one."""
        above, below = self.whole(parent), self.whole(own)
        groups = self.session.groups_in(above, below)
        search = self.session.search(groups, things=False)
        search.require(self.session.met_by(above, article), ~self.session.met_by(below, article))
        return settle_construction(self.session, search, groups).construction if search.holds() else None

    def whole(self, limitations: Sequence[Limitation]) -> All:
        """That all of the limitations hold; always the same object for the same ones."""
        key = tuple(x.label for x in limitations)
        return self._wholes.setdefault(key, All(tuple(x.formula for x in limitations)))

    # ---- things

    def sample(self, limitations: Sequence[Limitation], *meant: Formula) -> Article | None:
        """A thing that meets the limitations, if possible on every reading, and all that is meant."""
        scope = self.whole(limitations)
        wanted = [self.session.met(m) for m in meant]
        for met in (self.surely(limitations, True), self.session.met(scope, self.base)):
            search = self.session.search(())
            search.require(met, *wanted)
            if search.find():
                known = self.prepared.known((scope, *meant))
                known = [Reference(r.name, {**r.article, **self.usual}) for r in known]
                names = self.prepared.relevant(scope, *meant)
                return pick_article(self.session, search, names, known, self._well_inside(meant)).article
        return None

    def _well_inside(self, meant: Sequence[Formula]) -> list[tuple[Grade, Constraint | None]]:
        if not meant:
            return [("edge", None)]
        return self.prepared.grades_for(meant[0])

    def found(
        self,
        claim: int,
        search: Search,
        formulas: Sequence[Formula],
        expected: Sequence[tuple[Formula, Expected]],
        sample: Article,
        plain: Sequence[tuple[Grade, Constraint | None]] = (("edge", None),),
    ) -> Finding | None:
        """The simplest thing of the search beside the sample, re-checked; None where nothing meets it."""
        if not search.find():
            return None
        finding = at_claim("drill", 5, self.sheet.claim(claim))
        known = [Reference("", sample)]
        return self.prepared.exhibit(finding, search, Sought(formulas, expected), known, Graded(plain))

    def impossible(self, article: Article) -> str:
        """Why no such thing can exist; '' where it can."""
        try:
            verify(self.sheet, article, ())
        except WitnessError as why:
            return str(why)
        return ""

    def names(self, *formulas: Formula) -> list[str]:
        """The declared names that the formulas speak of, in the order of the sheet."""
        spoken = self.session.names_in(*formulas)
        return [d.name for d in self.sheet.declarations if d.name in spoken]

    # ---- plainness

    def plainly(self, formula: Formula, wanted: bool) -> Formula:
        """Where the formula is true (false, unless `wanted`) with room on every side."""
        return tightened(formula, scales(self.sheet, formula), wanted)

    def is_plain(self, formula: Formula, article: Article, wanted: bool) -> bool:
        return evaluate(self.plainly(formula, wanted), article, self.base) is True

    def same_but(self, article: Article, names: Iterable[str]) -> Constraint:
        """That everything but these names is as in the article."""
        left = set(names)
        return all_of(self.session.equals(n, v) for n, v in article.items() if n not in left)

    def on_one_of(self, formulas: Iterable[Formula]) -> Constraint:
        return any_of(self.session.met(f) for f in formulas)


def fixed(sheet: Sheet) -> Sheet:
    """The sheet with each free number at one value: as presumed, else a twentieth, or a tenth of its unit."""
    return replace(sheet, parameters=tuple(map(_fixed, sheet.parameters)))


def _fixed(p: FreeParameter) -> FreeParameter:
    value = p.presumed
    if value == 0:
        value = STRETCH if p.shared else p.unit.factor / 10
        value = min(value, p.upper.value) if p.upper is not None else value
    bound = Bound(value, True)
    return replace(p, lower=bound, upper=bound, presumed=value)


# ---- things in the language of sheets


def fact_text(sheet: Sheet, name: str, value: Value) -> str:
    """One value as a fact of the language: `diameter = 4.04 mm`, `metal = {copper, zinc}`."""
    d = sheet.declaration(name)
    if isinstance(value, Fraction):
        assert isinstance(d, NumberDecl)
        number = d.unit.from_base(value)
        digits = decimal_text(number) or f"{number.numerator}/{number.denominator}"
        return f"{name} = {digits} {d.unit.symbol}".rstrip()
    if isinstance(value, str):
        return f"{name} = {member_text(value)}"
    members = [member_text(m) for m in getattr(d, "members", ()) if m in value]
    return f"{name} = {{{', '.join(members)}}}" if members else f"{name} = none"


def facts_text(sheet: Sheet, article: Article, names: Iterable[str]) -> str:
    """The values of these names, in the order of the sheet."""
    whole = all(d.name in article for d in sheet.declarations)
    wanted = set(names) - (sheet.absent(article) if whole else frozenset())
    return ", ".join(
        fact_text(sheet, d.name, article[d.name]) for d in sheet.declarations if d.name in wanted
    )


def member_text(member: str) -> str:
    """A member as the language writes it."""
    return "others" if member == OTHERS else member
