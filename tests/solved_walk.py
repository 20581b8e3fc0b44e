"""The walk over all constructions of sheets with measured quantities: one fresh solver for each step.

Each construction is put into the formulas before they reach the solver, so no selector, shared solver or
assumption takes part; what is trusted is the encoding alone, which other tests hold against the evaluator.
"""

from __future__ import annotations

from dataclasses import dataclass

import z3

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Formula
from scopecheck.solving.encode import Encoder
from scopecheck.solving.symbols import Vocabulary, as_bool
from tests.oracle import Walk


@dataclass
class SolvedWalk(Walk):
    """As `Walk`, for things that are too many to list."""

    def some(self, k: Construction, *met: Formula, without: Formula | None = None) -> bool:
        words = Vocabulary(self.sheet)
        solver = z3.Solver()
        for d in self.sheet.declarations:
            solver.add(*words.domain(d.name))
        encoder = Encoder(words, k)
        for formula in (*met, *(g.formula for g in self.sheet.givens)):
            solver.add(as_bool(encoder.encode(formula)[0]))
        if without is not None:
            solver.add(z3.Not(as_bool(encoder.encode(without)[0])))
        solver.add(*words.definitions)
        answer = solver.check()
        assert answer != z3.unknown
        return bool(answer == z3.sat)
