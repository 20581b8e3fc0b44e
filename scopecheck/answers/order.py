"""Which claim's scope lies within which: asked of things first, and of the solver only where none decides.

Everything here is about one construction, the base. A pool of things is judged, claim by claim, by the exact
evaluator; a thing that meets one claim and misses another has settled that the first is not within the
second. What a claim takes over settles that it is within its parent. Only the pairs left are looked for, all
that are left for one claim in one query; each thing found joins the pool and settles other pairs as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from scopecheck.answers.minimise import keep, pick_article
from scopecheck.answers.pool import Pool, parents_first
from scopecheck.answers.questions.nearby import nearest_step
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.chains import takes_over
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Claim
from scopecheck.core.reference import Reference, references
from scopecheck.foundations.record import record
from scopecheck.resolve.dependencies import noun_of, sort_of
from scopecheck.solving.constraints import Constraint, Undecided, all_of, any_of
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Search


@record
class Step:
    """That everything that meets `narrower` meets `wider`, with a thing that meets the wider one alone.

    `own` says that some claim of the narrower one's scope takes it over, `every` that it holds of these two
    claims on every admissible construction, None where that was not decided. `departs` are the
    values in which the thing departs from one that meets both.
    """

    narrower: int
    wider: int
    own: bool
    every: bool | None
    article: Article
    departs: tuple[str, ...]


@record
class Equal:
    """Claims of one scope, ascending; `every`: on every admissible construction, None if not decided."""

    claims: tuple[int, ...]
    every: bool | None = True


@record
class Apart:
    """Two claims of which neither takes in the other, each with a thing that meets it alone."""

    first: int
    second: int
    only_first: Article
    only_second: Article


@record
class ScopeMap:
    """The order of the scopes of a claim set, with every step that others make needless left out.

    `equals` are all the claims that something meets, those of one scope together, by their first number; the
    steps name a class by that number. `sorts` says for each claim what it is for: only claims for the same
    are compared. `empty` are claims that nothing meets, `on_threshold` those that something meets only at
    other values of a threshold that nothing states. `doubts` are (claim, claim, reason) of pairs that
    were not decided.
    """

    equals: tuple[Equal, ...]
    steps: tuple[Step, ...]
    sorts: tuple[tuple[int, str], ...]
    apart: tuple[Apart, ...]
    empty: tuple[int, ...]
    on_threshold: tuple[int, ...]
    doubts: tuple[tuple[int, int, str], ...] = ()


def scope_map(prepared: Prepared) -> ScopeMap:
    """The order of the claims' scopes with every phrase as presumed."""
    pool = Pool(prepared)
    order = _Order(prepared, pool)
    return order.mapped()


# ---- the order


class _Order:
    """What is known of the order so far: for each claim the claims that it lies within."""

    def __init__(self, prepared: Prepared, pool: Pool) -> None:
        self.prepared, self.pool = prepared, pool
        self.session = prepared.session
        self.claims = parents_first(prepared)
        self.parents = {c.number: c.parents for c in self.claims}
        self.sorts = {c.number: "" for c in self.claims}
        self.nouns: dict[str, str] = {}
        self.within: dict[int, set[int]] = {}
        self.shown: dict[int, Article] = {}
        self.doubts: list[tuple[int, int, str]] = []
        self.empty: list[int] = []
        self.on_threshold: list[int] = []
        for claim in self.claims:
            first = claim.parents[0] if claim.parents and not claim.other_category else None
            self.sorts[claim.number] = sort_of(claim.category) if first is None else self.sorts[first]
            self.nouns.setdefault(self.sorts[claim.number], noun_of(claim.category))

    def mapped(self) -> ScopeMap:
        self._fill_pool()
        self._incorporate()
        for claim in self.claims:
            if claim.number not in self.empty:
                self._settle(claim)
        classes = self._classes()
        edges = self._edges(classes)
        members = {c[0]: c for c in classes}
        return ScopeMap(
            tuple(self._equal(c) for c in classes),
            tuple(self._step(i, j, members) for i, j in edges),
            tuple((c.number, self.nouns[self.sorts[c.number]]) for c in self.prepared.sheet.claims),
            tuple(self._apart(classes, edges)),
            tuple(sorted(n for n in self.empty if n not in self.on_threshold)),
            tuple(sorted(self.on_threshold)),
            tuple(self.doubts),
        )

    # ---- things to begin with

    def _fill_pool(self) -> None:
        """Listed things, one thing for each claim near one for its parent, and one just outside of it."""
        for reference in references(self.prepared.sheet, self._formulas(self.claims)):
            self.pool.add(reference.article)
        for claim in self.claims:
            try:
                article = self._example(claim)
            except Undecided as reason:
                self.empty.append(claim.number)
                told = f"it was not decided whether anything meets it ({reason})"
                self.doubts.append((claim.number, claim.number, told))
                continue
            if article is None:
                self.empty.append(claim.number)
                if self._met_at_a_threshold(claim.number):
                    self.on_threshold.append(claim.number)
                continue
            self.shown[claim.number] = article
            self._just_outside(claim)

    def _met_at_a_threshold(self, number: int) -> bool:
        """Does something meet the claim, read as presumed, at some value of a threshold that nothing states?

        True also where that stays undecided: then nothing is said of it for certain.
        """
        session, base = self.session, self.session.base
        scope = self.prepared.scope(number)
        groups = session.groups_in(scope)
        own = [
            p for p in session.sheet.parameters if p.group in groups and p.reading == base.readings[p.group]
        ]
        if not any(p.unknown for p in own):
            return False
        search = session.search(groups)
        search.require(*(session.reads(g, base.readings[g]) for g in groups))
        search.require(*(session.stretches(p.key, p.presumed) for p in own if not p.unknown))
        try:
            return search.holds(session.met(scope))
        except Undecided:
            return True

    def _formulas(self, claims: Iterable[Claim]) -> tuple[Formula, ...]:
        return tuple(x.formula for c in claims for x in c.limitations)

    def _example(self, claim: Claim) -> Article | None:
        """A thing that meets the claim, as near to its parent's as is easily found; None if nothing does."""
        if claim.parents and all(p in self.empty for p in claim.parents):
            open_ones = [p for p in claim.parents if any(a == b == p for a, b, _ in self.doubts)]
            if open_ones:
                raise Undecided(f"nor was it of claim {open_ones[0]}")
            return None
        parents = [self.shown[p] for p in claim.parents if p in self.shown]
        own = self.pool.bits[claim.number]
        if own:
            mine = [a for a in parents if a in list(self.pool.all(own))]
            return mine[0] if mine else self.pool.first(own)
        for parent in parents:
            found = nearest_step(self.prepared.sheet, parent, self._formulas([claim]))
            for article in found:
                if self.pool.add(article) and self.pool.bits[claim.number]:
                    return article
        search = self.session.search(())
        search.require(self.session.met(self.prepared.scope(claim.number), self.session.base))
        if not search.find():
            return None
        article = self._short(search, [claim], parents[0] if parents else None)
        self.pool.add(article)
        return article

    def _short(self, search: Search, claims: Sequence[Claim], near: Article | None) -> Article:
        """The simplest thing for what the search requires, told from a near one, or from what is listed."""
        formulas = self._formulas(claims)
        known = [Reference("", near)] if near is not None else references(self.prepared.sheet, formulas)
        return pick_article(self.session, search, self.session.names_in(*formulas), known).article

    def _just_outside(self, claim: Claim) -> None:
        """Adds a thing that meets a parent and misses the claim, if one is easily found."""
        for parent in claim.parents:
            if parent not in self.shown or self._beyond(parent, claim.number):
                continue
            for article in nearest_step(
                self.prepared.sheet, self.shown[claim.number], self._formulas([claim])
            ):
                if not self.pool.add(article):
                    continue
                if self._beyond(parent, claim.number):
                    break

    # ---- what is within what

    def _incorporate(self) -> None:
        """What follows from the parents alone."""
        for claim in self.claims:
            above = [self.within[p] | {p} for p in claim.parents if p not in self.empty]
            common = set.intersection(*above) if above else set()
            self.within[claim.number] = {n for n in common if self.sorts[n] == self.sorts[claim.number]}

    def _settle(self, claim: Claim) -> None:
        """Settles what else the claim lies within."""
        number = claim.number
        while left := self._open(number):
            try:
                if not self._separate(number, left):
                    self._take(number, left)
                    return
            except Undecided as reason:
                self.doubts += [(number, other, str(reason)) for other in left]
                return
            assert self._open(number) != left, "a thing that was to separate two claims does not"

    def _open(self, number: int) -> list[int]:
        """The claims of which is not known yet whether this one lies within them, parents first."""
        mine = self.pool.bits[number]
        return [
            c.number
            for c in self.claims
            if c.number != number
            and c.number not in self.empty
            and self.sorts[c.number] == self.sorts[number]
            and c.number not in self.within[number]
            and not mine & ~self.pool.bits[c.number]
        ]

    def _separate(self, number: int, left: Sequence[int]) -> bool:
        """Adds a thing that meets the claim and misses some of the others, all of them if there is one."""
        search = self.session.search(())
        search.require(self.session.met(self.prepared.scope(number), self.session.base))
        missed = [self._missed(number, other) for other in left]
        if not search.find(any_of(missed)):
            return False
        if not keep(search, all_of(missed)):
            search.require(any_of(missed))
        claims = [self.prepared.sheet.claim(n) for n in (number, *left)]
        return self.pool.add(self._short(search, claims, self.shown.get(number)))

    def _missed(self, number: int, other: int) -> Constraint:
        """That what meets the claim misses the other, or its own lines where its parent is met anyway."""
        instances = self.prepared.instances[other]
        parents = self.prepared.sheet.claim(other).parents
        if len(instances) == 1 and parents and parents[0] in self.within[number] | {number}:
            return ~self.session.met(instances[0].own_scope, self.session.base)
        return ~self.session.met(self.prepared.scope(other), self.session.base)

    def _take(self, number: int, left: Sequence[int]) -> None:
        for other in left:
            self.within[number] |= {other} | {n for n in self.within[other] if n != number}

    # ---- classes and steps

    def _classes(self) -> list[tuple[int, ...]]:
        self._close()
        found: list[tuple[int, ...]] = []
        taken: set[int] = set()
        for claim in self.prepared.sheet.claims:
            n = claim.number
            if n in taken or n in self.empty:
                continue
            same = tuple(m for m in sorted(self.within[n]) if n in self.within[m])
            found.append((n, *(m for m in same if m != n)))
            taken.update(found[-1])
        return found

    def _close(self) -> None:
        """What lies within a claim lies within all that this one lies within."""
        changed = True
        while changed:
            changed = False
            for n, above in self.within.items():
                wider = above.union(*(self.within[m] for m in above)) - {n}
                if wider != above:
                    self.within[n] = wider
                    changed = True

    def _edges(self, classes: Sequence[tuple[int, ...]]) -> list[tuple[int, int]]:
        """(narrower, wider) by the first claim of each class, without steps that others make needless.

        Without those, too, of which no thing is known that meets the wider one alone: whether both are of one
        scope was not decided then.
        """
        first = {n: c[0] for c in classes for n in c}
        above = {
            c[0]: {m for m in {first[m] for m in self.within[c[0]] if m in first} if self._beyond(m, c[0])}
            for c in classes
        }
        found = []
        for n, wider in above.items():
            needless = set().union(*(above[m] for m in wider))
            found += [(n, m) for m in sorted(wider - needless)]
        return found

    def _beyond(self, wider: int, narrower: int) -> int:
        """The things known that meet the one claim and miss the other."""
        return self.pool.bits[wider] & ~self.pool.bits[narrower]

    def _equal(self, claims: tuple[int, ...]) -> Equal:
        pairs = [(a, b) for a in claims[1:] for b in (claims[0],)]
        answers = [self._everywhere(x, y) for a, b in pairs for x, y in ((a, b), (b, a))]
        every = None if None in answers and False not in answers else all(a is True for a in answers)
        return Equal(claims, every)

    def _step(self, narrower: int, wider: int, members: Mapping[int, tuple[int, ...]]) -> Step:
        separating = self._beyond(wider, narrower)
        near = self.shown[narrower]

        def departing(article: Article) -> tuple[str, ...]:
            absent = self.prepared.sheet.absent(article)
            return tuple(n for n in near if article[n] != near[n] and n not in absent)

        def valueless(article: Article) -> bool:
            claims = map(self.prepared.sheet.claim, self.prepared.lineage(narrower))
            base = self.session.base
            return any(evaluate(f, article, base) is None for f in self._formulas(claims))

        article = min(self.pool.all(separating), key=lambda a: (valueless(a), len(departing(a))))
        if valueless(article) or len(departing(article)) > 1:
            article = self._simplest_step(narrower, wider) or article
        own = any(takes_over(self.parents, n, members[wider]) for n in members[narrower])
        every = self._everywhere(narrower, wider)
        return Step(narrower, wider, own, every, article, departing(article))

    def _simplest_step(self, narrower: int, wider: int) -> Article | None:
        """A thing that meets the wider claim alone and departs least from one that meets both."""
        search, base = self.session.search(()), self.session.base
        search.require(self.session.met(self.prepared.scope(wider), base))
        search.require(~self.session.met(self.prepared.scope(narrower), base))
        lines = [self.prepared.sheet.claim(n) for n in self.prepared.lineage(narrower)]
        try:
            # A thing that a line has no value for shows less than one for which it is false.
            keep(search, *(~self.session.undefined(f, base) for f in self._formulas(lines)))
            return self._short(search, lines, self.shown[narrower]) if search.find() else None
        except Undecided:
            return None

    def _everywhere(self, narrower: int, wider: int) -> bool | None:
        """Does everything that meets the one meet the other on every admissible construction?"""
        if takes_over(self.parents, narrower, (wider,)):
            return True
        inner, outer = self.prepared.scope(narrower), self.prepared.scope(wider)
        try:
            search = self.session.search(self.session.groups_in(inner, outer))
            return not search.holds(self.session.met(inner), ~self.session.met(outer))
        except Undecided as reason:
            if not any({a, b} == {narrower, wider} for a, b, _ in self.doubts):
                told = f"it was not decided whether the same holds on every reading ({reason})"
                self.doubts.append((narrower, wider, told))
            return None

    def _apart(self, classes: Sequence[tuple[int, ...]], edges: Sequence[tuple[int, int]]) -> Iterator[Apart]:
        """The widest claims for the same thing, two by two."""
        inner = {n for n, _ in edges}
        widest = [c[0] for c in classes if c[0] not in inner]
        doubted = {frozenset((a, b)) for a, b, _ in self.doubts}
        for index, a in enumerate(widest):
            for b in widest[index + 1 :]:
                if self.sorts[a] == self.sorts[b] and frozenset((a, b)) not in doubted:
                    only_a, only_b = self._beyond(a, b), self._beyond(b, a)
                    assert only_a, "what lies within another claim is not apart from it"
                    assert only_b, "what lies within another claim is not apart from it"
                    yield Apart(a, b, self.pool.first(only_a), self.pool.first(only_b))
