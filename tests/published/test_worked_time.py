"""Printed examples of steps and periods, as small sheets of our own, and days against the calendar's own.

What is checked is what is met under the reading the source used, and that the other readings are tried. What
followed in law is not checked and not repeated. Tags: `read` the text was seen; `read (secondary)` seen
as quoted or reproduced elsewhere; `memory` not seen; `common practice` no source.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scopecheck.core.construction import base_construction
from scopecheck.core.formula import Article, Read
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.published.worked import sheet, worked

# ---- steps that depend on a condition


STEPS_BOTH = "heating  step in min, may be left out\ncooling  step in min, may be left out\n"
CONDITIONS = "cold  share in %\nhot   share in %\nheaters, coolers  count\n"
METHOD = f"""{STEPS_BOTH}{CONDITIONS}
1. A method of keeping a cabinet, comprising heating it if the cold is above 50 %, and cooling it
   if the hot is above 50 %.
   | heating, cold : if the cold is above 50 %
   | cooling, hot  : if the hot is above 50 %
   | not restated  : and
"""
SYSTEM = f"""{STEPS_BOTH}{CONDITIONS}
1. A system for keeping a cabinet, comprising a heater that heats if the cold is above 50 %, and a
   cooler that cools if the hot is above 50 %.
   | heating, cold, heaters : if the cold is above 50 %
   | cooling, hot, coolers  : if the hot is above 50 %
   | not restated           : and
"""


def _usual(text: str, **values: Fraction | str) -> bool:
    """Whether a thing meets claim 1 with every phrase as presumed; numbers not given are 1 in their unit."""
    made = sheet(text)
    article: Article = {d.name: values.get(d.name.replace(" ", "_"), Fraction(60)) for d in made.declarations}
    k = base_construction(made)
    return all(evaluate(x.formula, article, k) is True for x in made.claims[0].limitations)


NEITHER = {"cold": Fraction(0), "hot": Fraction(0), "heating": "not done", "cooling": "not done"}


@worked("W42", "Ex parte Schulhauser and MPEP 2111.04 II [R-10.2019]", "read")
def test_a_method_needs_no_step_whose_condition_never_comes_about_and_a_system_needs_both_means() -> None:
    assert _usual(METHOD, **NEITHER)
    assert not _usual(METHOD, **{**NEITHER, "cold": Fraction(1)})
    none = {"heaters": Fraction(0), "coolers": Fraction(0)}
    both = {"heaters": Fraction(1), "coolers": Fraction(1)}
    assert not _usual(SYSTEM, **NEITHER, **none)
    assert not _usual(SYSTEM, **NEITHER, **{**both, "coolers": Fraction(0)})
    assert _usual(SYSTEM, **NEITHER, **both)


def test_a_condition_of_a_system_is_not_read_as_one_of_a_method() -> None:
    """The readings of a method are not tried on a system: what does the step must be named."""
    text = SYSTEM.replace("heating, cold, heaters :", "heating, cold :")
    made, told = read_sheet(Source("example", text))
    assert made is None
    assert any("only when a method is claimed" in d.cause for d in told)


# ---- periods


MAILED = datetime(1999, 4, 5)
REPLY = """
mailing  event in day
reply    event in day

1. A method comprising mailing an action and giving a reply within {period} of the mailing.
   | reply : within {period} of the mailing
"""


def _readings(text: str, **hours: int) -> dict[str, bool]:
    """For each reading of the only phrase whether the events, in hours from a midnight, meet it."""
    made = sheet(text)
    (limitation,) = made.claims[0].limitations
    assert isinstance(limitation.formula, Read)
    article: Article = {f"time of {name}": Fraction(3600 * at) for name, at in hours.items()}
    k = base_construction(made)
    labels = [r.label for r in made.groups[limitation.formula.group].readings]
    answers = (evaluate(option, article, k) is True for option in limitation.formula.options)
    return dict(zip(labels, answers, strict=True))


def _hours_after_mailing(moment: datetime) -> int:
    return int((moment - MAILED).total_seconds()) // 3600


@worked("W72", "an examination paper of April 1999, afternoon, item 38 (abridged copy)", "read (secondary)")
def test_three_months_from_the_fifth_of_april_end_on_the_fifth_of_july() -> None:
    """Months are refused, with days to be written; in days the last one counts, a holiday is not known of."""
    made, told = read_sheet(Source("example", REPLY.format(period="3 months")))
    assert made is None
    assert any(d.message.startswith("'3 months' has no fixed length") for d in told)
    days = (datetime(1999, 7, 5) - MAILED).days
    text = REPLY.format(period=f"{days} days")
    first_left_out = "days, the first left out, the last in"
    mailed = 15  # in the afternoon
    on_last = _readings(text, mailing=mailed, reply=_hours_after_mailing(datetime(1999, 7, 5, 23)))
    assert on_last[first_left_out]
    assert not on_last["by the clock, from its end"]
    next_day = _readings(text, mailing=mailed, reply=_hours_after_mailing(datetime(1999, 7, 6, 0)))
    assert not next_day[first_left_out]
    assert "working days" in sheet(text).groups[0].not_computed


@given(st.integers(0, 23), st.integers(0, 24 * 12), st.integers(1, 9))
@settings(max_examples=150, deadline=None)
def test_calendar_days_are_those_of_the_standard_library(event: int, later: int, days: int) -> None:
    """EPC Rule 131(2) (read): counting begins on the day after that of the event; the last day counts.

    Fed. R. Civ. P. 6(a)(1) (read) says the same. Dates and their differences come from Python's datetime.
    """
    happened = MAILED + timedelta(hours=event)
    acted = happened + timedelta(hours=later)
    passed = (acted.date() - happened.date()).days
    answers = _readings(REPLY.format(period=f"{days} days"), mailing=event, reply=event + later)
    assert answers["days, the first left out, the last in"] is (1 <= passed <= days)
    assert answers["days, the first counted"] is (0 <= passed <= days - 1)
    assert answers["by the clock, from its end"] is (acted - happened <= timedelta(days=days))


@pytest.mark.parametrize("period", ["48 hours", "2880 minutes"])
def test_hours_are_not_counted_by_the_calendar(period: str) -> None:
    made = sheet(REPLY.format(period=period))
    assert "days, the first left out, the last in" in dict(made.groups[0].not_tried)


# ---- the order of steps


ORDER = """
profile  {profile}

rinsing, soaking, drying  step in min

1. A method comprising the steps of rinsing, soaking and drying a cloth.
   | rinsing, soaking, drying : comprising the steps of
   | not restated             : and
"""


@pytest.mark.parametrize(("profile", "base"), [("US", True), ("US court", True)])
def test_no_order_is_read_into_steps_listed_unless_something_asks_for_it(profile: str, base: bool) -> None:
    """Altiris v. Symantec, 318 F.3d 1363 (Fed. Cir. 2003), as reported in MPEP 2111.01 II (read)."""
    turned = {"start_of_soaking": 0, "start_of_rinsing": 120, "start_of_drying": 240}
    text = ORDER.format(profile=profile)
    assert _usual(text, **{name: Fraction(at) for name, at in turned.items()}) is base
    labels = {r.label: r.standing for r in sheet(text).groups[0].readings}
    assert labels == {"in any order": "presumed", "in the order listed": "arguable"}


def test_no_order_is_presumed_in_the_epo_profile() -> None:
    """Common practice, no source: logic decides."""
    labels = {r.label: r.standing for r in sheet(ORDER.format(profile="EPO")).groups[0].readings}
    assert labels == {"in any order": "presumed", "in the order listed": "presumed"}
