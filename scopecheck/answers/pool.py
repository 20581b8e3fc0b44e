"""A pool of things that the exact evaluator has judged: for every claim the set of those that meet it."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.witness import can_exist
from scopecheck.core.formula import Article, Value
from scopecheck.core.model import Claim, Limitation
from scopecheck.solving.evaluate import meets


class Pool:
    """Things that exist, and for every claim the set of those that meet it, as the bits of a number."""

    def __init__(self, prepared: Prepared) -> None:
        self.prepared = prepared
        self.articles: list[Article] = []
        self.known: set[tuple[Value, ...]] = set()
        self.bits: dict[int, int] = {}
        self._names = [d.name for d in prepared.sheet.declarations]
        self._judged: dict[tuple[str, tuple[Value, ...]], bool] = {}
        self._order = parents_first(prepared)
        self._own = {c.number: c.limitations for c in prepared.sheet.claims}
        for claim in prepared.sheet.claims:
            self.bits[claim.number] = 0

    def add(self, article: Article) -> bool:
        """Judges a thing and keeps it, unless it is known or cannot exist; says whether it exists."""
        key = tuple(article[n] for n in self._names)
        if key in self.known:
            return True
        if not can_exist(self.prepared.sheet, article):
            return False
        self.known.add(key)
        bit = 1 << len(self.articles)
        self.articles.append(article)
        for claim in self._order:
            above = not claim.parents or any(self.bits[p] & bit for p in claim.parents)
            if above and all(self.meets(x, article) for x in self._own[claim.number]):
                self.bits[claim.number] |= bit
        return True

    def meets(self, limitation: Limitation, article: Article) -> bool:
        """The exact evaluator's answer, looked up where the values that matter have been judged before."""
        names = sorted(self.prepared.session.names_in(limitation.formula))
        key = limitation.label, tuple(article[n] for n in names)
        if key not in self._judged:
            self._judged[key] = meets(limitation.formula, article, self.prepared.session.base)
        return self._judged[key]

    def first(self, bits: int) -> Article:
        """The first thing of a set that is not empty."""
        return self.articles[(bits & -bits).bit_length() - 1]

    def all(self, bits: int) -> Iterator[Article]:
        """The things of a set in the order in which they came."""
        while bits:
            yield self.first(bits)
            bits &= bits - 1


def parents_first(prepared: Prepared) -> list[Claim]:
    """The claims, each after those that it depends on."""
    found: dict[int, Claim] = {}

    def take(claim: Claim) -> None:
        if claim.number not in found:
            for parent in claim.parents:
                take(prepared.sheet.claim(parent))
            found[claim.number] = claim

    for claim in prepared.sheet.claims:
        take(claim)
    return list(found.values())
