"""Printed pairs of ranges: how the one lies against the other, by our regions and by an interval library.

The numbers and the relation are what the source prints; what followed in law is not checked and not repeated.
Tags: `read` the text itself was seen; `read (secondary)` seen as quoted elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F

import portion
import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Bound, Compare, Const, Formula, Measured, Op
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.boundary import region, region_text, stretches
from scopecheck.report.lines import Stretch

D = NumberDecl("x", PLAIN_KIND, PLAIN, False, Bound(F(0), True), None, False, "", Span(Source("t", ""), 0, 0))
DOMAIN = portion.closedopen(F(0), portion.inf)
K0 = Construction(())


@dataclass(frozen=True)
class Printed:
    """Two ranges as (sign, number) pairs, the part they share, the source and how it is known."""

    claim: tuple[tuple[Op, str], ...]
    prior: tuple[tuple[Op, str], ...]
    shared: str
    source: str
    tag: str


PRINTED = [
    Printed(
        ((">=", "330"), ("<=", "450")),
        ((">=", "100"), ("<=", "500")),
        "330 <= x <= 450",
        "Atofina v. Great Lakes, MPEP 2131.03 II (the wider range contains the claimed one)",
        "read",
    ),
    Printed(
        ((">=", "330"), ("<=", "450")),
        ((">=", "150"), ("<=", "350")),
        "330 <= x <= 350",
        "Atofina v. Great Lakes, MPEP 2131.03 II (the preferred range overlaps at 330 to 350)",
        "read",
    ),
    Printed(
        ((">", "5"),),
        ((">=", "1"), ("<=", "5")),
        "no value",
        "own numbers (touching from both sides, the one end open)",
        "common practice",
    ),
    Printed(
        ((">=", "50"), ("<=", "100")),
        ((">=", "100"),),
        "x = 100",
        "In re Geisler, 116 F.3d 1465 (Fed. Cir. 1997), MPEP 2144.05 I (they touch at 100)",
        "read",
    ),
    Printed(
        (("<", "6"),),
        ((">=", "6"), ("<=", "25")),
        "no value",
        "In re Brandt, 886 F.3d 1171 (Fed. Cir. 2018), MPEP 2144.05 I (apart by an open end only)",
        "read",
    ),
    Printed(
        ((">=", "120"),),
        (("<=", "90"),),
        "no value",
        "In re Scherl, 156 F.2d 72 (CCPA 1946), MPEP 2144.05 I (apart, with a gap of 30)",
        "read",
    ),
    Printed(
        ((">=", "8"), ("<=", "25")),
        ((">=", "5"), ("<=", "25")),
        "8 <= x <= 25",
        "T 666/89, EPO Case Law 2022 I.C.6.3.2 (first range)",
        "read",
    ),
    Printed(
        ((">=", "0.001"), ("<=", "0.1")),
        ((">=", "0.1"), ("<=", "5.0")),
        "x = 0.1",
        "T 666/89, EPO Case Law 2022 I.C.6.3.2 (second ranges touch at 0.1)",
        "read",
    ),
    Printed(
        ((">=", "56"), ("<=", "59")),
        ((">=", "50"), ("<=", "60")),
        "56 <= x <= 59",
        "T 1688/20 (a narrower range inside a wider one)",
        "read (secondary)",
    ),
]


def formula(ends: tuple[tuple[Op, str], ...]) -> Formula:
    return All(tuple(Compare(op, Measured("x"), Const(F(number))) for op, number in ends))


def interval(ends: tuple[tuple[Op, str], ...]) -> portion.Interval:
    result = DOMAIN
    for op, number in ends:
        value = F(number)
        result &= {
            ">=": portion.closedopen(value, portion.inf),
            ">": portion.open(value, portion.inf),
            "<=": portion.openclosed(-portion.inf, value),
            "<": portion.open(-portion.inf, value),
        }[op]
    return result


def as_stretches(found: portion.Interval) -> tuple[Stretch, ...]:
    return tuple(
        Stretch(
            part.lower,
            part.left is portion.CLOSED,
            None if part.upper == portion.inf else part.upper,
            part.right is portion.CLOSED,
        )
        for part in found
        if not part.empty
    )


@pytest.mark.parametrize("printed", PRINTED, ids=lambda p: p.source)
def test_shared_part_of_two_printed_ranges(printed: Printed) -> None:
    both = region(All((formula(printed.claim), formula(printed.prior))), D, K0)
    assert region_text(both, D) == printed.shared
    assert stretches(both, PLAIN) == as_stretches(interval(printed.claim) & interval(printed.prior))


@pytest.mark.parametrize("printed", PRINTED, ids=lambda p: p.source)
def test_each_range_and_what_lies_outside_it(printed: Printed) -> None:
    for ends in (printed.claim, printed.prior):
        assert stretches(region(formula(ends), D, K0), PLAIN) == as_stretches(interval(ends))
        parts = [region(Compare(_DENIED[op], Measured("x"), Const(F(number))), D, K0) for op, number in ends]
        outside = portion.empty()
        for part in parts:
            for s in stretches(part, PLAIN):
                outside |= portion.Interval.from_atomic(
                    portion.Bound(s.low_closed),
                    s.low if s.low is not None else -portion.inf,
                    s.high if s.high is not None else portion.inf,
                    portion.Bound(s.high_closed),
                )
        assert outside == DOMAIN - interval(ends)


_DENIED: dict[Op, Op] = {">=": "<", ">": "<=", "<=": ">", "<": ">="}
