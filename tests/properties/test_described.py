"""What is claimed together beside what is described together, against going through all things."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from random import Random

from scopecheck.answers.held import Combined
from scopecheck.answers.questions import prepare
from scopecheck.answers.questions.combined import together_beside_description
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.formula import Add, All, Compare, Const, Divide, Formula, Measured, Multiply, Op, Term
from scopecheck.core.ties import Sum, Tie, ranges_of_ties, upside_down
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import meets
from tests.build import case, claim, count, limitation, sheet
from tests.oracle import Walk

NAMES = ("width", "depth", "rows")
OPS: tuple[Op, ...] = ("<=", "<=", ">=", ">=", "<", ">", "=")
DECLARED = [count(name, "1", "5") for name in NAMES]


def compared(chance: Random) -> Compare:
    """A number, a weighted sum or a ratio beside a number, on either side."""
    one, two = (Measured(name) for name in chance.sample(NAMES, 2))
    term: Term = chance.choice((one, one, Divide(one, two), Add((Multiply(Const(Fraction(2)), one), two))))
    limit = Const(Fraction(chance.randint(1, 6), chance.choice((1, 1, 2))))
    left, right = (term, limit) if chance.random() < 0.5 else (limit, term)
    return Compare(chance.choice(OPS), left, right)


def by_walk(walk: Walk, scope: Formula, facts: Formula) -> str | None:
    claimed, stated = (
        {i for i, a in enumerate(walk.articles) if meets(f, a, walk.base)} for f in (scope, facts)
    )
    if not claimed or not stated:
        return None
    if not claimed & stated:
        return "apart"
    if claimed - stated and stated - claimed:
        return "overlaps"
    return "contains" if claimed - stated else "within" if stated - claimed else "the same"


def test_how_lines_lie_against_a_statement() -> None:
    seen: Counter[str] = Counter()
    for seed in range(160):
        chance = Random(seed)
        lines = [limitation(f"1{letter}", compared(chance)) for letter in "abc"]
        facts = All((compared(chance), compared(chance)))
        if chance.random() < 0.3:
            more = (compared(chance),) if chance.random() < 0.6 else ()
            facts = All((*(x.formula for x in lines), *more))
        told = replace(case("told", "description", facts), form="range", place="page 1")
        made = replace(sheet(DECLARED, [claim(1, *lines)]), described=(told,))
        prepared = prepare(made)
        found = list(together_beside_description(prepared, prepared.all_instances()[0]))
        asked = [x for x in lines if names_in(x.formula) & names_in(facts)]
        names = {n for x in asked for n in names_in(x.formula)} & names_in(facts)
        kept = All(tuple(f for f in facts.items if names_in(f) & names))
        expected = by_walk(Walk(made), All(tuple(x.formula for x in asked)), kept)
        if len(names) < 2 or expected is None:
            assert not found
            continue
        assert isinstance(found[0].about, Combined)
        (own,) = found[0].about.statements
        assert (own.relation, set(own.further)) == (expected, names_in(facts) - names)
        seen[own.relation] += 1
    assert min(seen[r] for r in ("the same", "within", "contains", "overlaps", "apart")) > 2, seen


def value(part: Sum, article: Mapping[str, Fraction]) -> Fraction:
    return sum((c * article[n] for n, c in part), Fraction(0))


def test_ranges_of_ties_say_what_the_formula_says() -> None:
    for seed in range(300):
        chance = Random(seed)
        formula = All(tuple(compared(chance) for _ in range(chance.randint(1, 4))))
        tied = ranges_of_ties(formula, base_construction(sheet(DECLARED, [claim(1)])))
        assert tied.whole
        for _ in range(8):
            article = {name: Fraction(chance.randint(1, 10), 2) for name in NAMES}
            k = base_construction(sheet(DECLARED, [claim(1)]))

            def worth(tie: Tie, article: Mapping[str, Fraction] = article) -> Fraction:
                return value(tie.above, article) / (value(tie.below, article) if tie.below else 1)

            assert meets(formula, article, k) == all(r.holds(worth(t)) for t, r in tied.ranges.items())
            for tie, own in tied.ranges.items():
                turned = upside_down(own) if tie.below else None
                assert turned is None or turned.holds(worth(tie.upside_down)) == own.holds(worth(tie))
