"""The worked examples together: many of them, each told once, each with its source and how it is known."""

from __future__ import annotations

from typing import get_args

from tests.published import (
    test_worked_claims,
    test_worked_dependencies,
    test_worked_described,
    test_worked_known,
    test_worked_limits,
    test_worked_parts,
    test_worked_products,
    test_worked_ranges,
    test_worked_time,
)
from tests.published.worked import EXAMPLES, Tag

MODULES = (
    test_worked_claims,
    test_worked_dependencies,
    test_worked_described,
    test_worked_known,
    test_worked_limits,
    test_worked_parts,
    test_worked_products,
    test_worked_ranges,
    test_worked_time,
)

OF_NUMBERS_ALONE = {"W9", "W14", "W15"}
"""Examples without words in dispute: what is held against their sources is a comparison of numbers."""


def test_the_examples_are_many_and_each_is_told_once() -> None:
    # An example may be looked at again by its like parts or its composition, in a module of its own.
    told = [(e.number, e.module) for e in EXAMPLES]
    assert len(told) == len(set(told))
    assert len({number for number, _ in told} - OF_NUMBERS_ALONE) >= 40
    assert {e.tag for e in EXAMPLES} <= set(get_args(Tag))
    assert all(e.source for e in EXAMPLES)
    assert {e.module for e in EXAMPLES} == {m.__name__ for m in MODULES}
