"""Nothing is left out: the 79 phrases that the survey of authorities found, each with all its readings.

The survey listed phrases of patent claims with the readings that courts, offices and trades have taken, 292
in all. This table names, in the survey's order, the reading of the catalogue for each; what has none stands
here with the reason.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from scopecheck.vocabulary.catalogue import entries

PHRASES, READINGS = 79, 292


@dataclass(frozen=True)
class At:
    """A reading that stands under another id."""

    id: str
    label: str


@dataclass(frozen=True)
class Left:
    """A reading that the catalogue does not have, and why."""

    why: str


ACTS = Left("it joins a condition to an act: neither is a quantity, a count or a set")
NAMED = Left("it speaks of things that are told apart one by one, each with abilities of its own")
CHOSEN = Left("which one an operator selects is nothing that a thing has")

TABLE: dict[str, tuple[str | At | Left, ...]] = {
    # ends of ranges and one-sided limits
    "A1": ("both ends in", "both ends out", "top end out"),
    "A2": ("both ends in", "starts at one and finishes at the other", "the dash is a minus sign"),
    "A3": ("zero allowed, end in", "some must be present", "end out", "from the untreated level to the top"),
    "A4": ("no top, end in", "capped by what the other parts leave", "capped by the highest value disclosed",
           "strictly more"),
    "A5": ("includes none, end in", "must be present", "held at all times", "strict"),
    "A6": ("strict, exact", "strict after rounding", "beyond tolerance", "end in"),
    "A7": ("ends in", "ends out", "after settling", "at some time", "relative"),
    "A8": ("outer range", "inner range", "unclear which"),
    "A9": ("absolute", "relative", "standard uncertainty", "absolute"),
    # degree and approximation
    "B1": ("context tolerance", "rounding only", "exactly", "fixed share"),
    "B2": ("covers both ends", "lower end only", "rounding only"),
    "B3": ("near enough for the purpose", "within making tolerance", "largely but not wholly", "exactly"),
    "B4": ("unavoidable impurity only", "no effect", "below a number", "none detectable"),
    "B5": ("same power of ten", "within half a decade", "within a decade", "about it"),
    "B6": ("no limit at all", "standard of the field", "beside the other part"),
    "B7": ("enough for the stated effect", "enough for another disclosed effect", "any amount"),
    "B8": ("some of them", "every one of them", "the one it is designed for"),
    # rounding and precision
    "C1": ("rounds to the limit", "exact", "field rule for logarithms"),
    "C2": ("rounds to it", "one digit finer", "exactly", "rounds to it"),
    "C3": ("no top, as observed", "rounds to the limit, half up", "rounds to the limit, half to even",
           "as many figures as the limit", "guard band"),
    "C4": ("first value governs", "first value, its figures kept",
           "value in brackets, to its digits", "either will do"),
    # units and basis
    "D1": ("by mass", "by volume", "by mole", "mass per volume"),
    "D2": ("of the total as used", "of the dry mass", "of another part", "of the rest"),
    "D3": ("by mass", "by mole or volume", "mass per volume", "million millions"),
    "D4": ("absolute", "gauge", "across a part"),
    "D5": (At("D6", "by that span"), At("D6", "at that level"), "ratio of absolute temperatures",
           "ratio of degrees Celsius"),
    "D6": ("by that share", "by that span"),
    "D7": ("as much", "more by", "divided", "subtracted"),
    "D8": ("closed whole", "open whole", "each on its own base"),
    # averages and distributions
    "E1": ("number average", "weight average", "peak of the chromatogram", "viscosity average"),
    "E2": ("mean by number", "mean by volume", "median by number", "median by volume"),
    "E3": ("every one of them", "their mean", "most of them", "at least one of them"),
    # counting and quantifying
    "F1": ("one or more", "exactly one"),
    "F2": (NAMED, NAMED),
    "F3": ("two or more", "three or more", "one or more", "two kinds or more"),
    "F4": ("one of each", "either will do", "exactly one kind"),
    "F5": ("any one suffices", "exactly one", "all kinds"),
    "F6": ("exactly two", "two or more", "two that match", "one object in two parts"),
    "F7": ("two things, whatever their values", "two kinds", "two values", "no shared body"),
    "F8": ("so many at least", "exactly that many", "in that order"),
    "F9": ("every one", "every one, and there is one", "every recited one; others may differ", "together"),
    "F10": ("every", "some", "every", CHOSEN),
    "F11": (ACTS, ACTS, "these and nothing else", "no more than that"),
    "F12": ("more than half", "the largest share", "a qualified share"),
    "F13": ("at least that many", "exactly that many", "that many kinds"),
    # alternatives, sets, open and closed lists
    "G1": ("inclusive", "exclusive", "two names for one thing", "all needed"),
    "G2": ("exactly one member", "one or more members", "all members", "open list"),
    "G3": ("not limiting", "limiting", "things of that type"),
    "G4": ("open", "open unless it defeats the purpose", "closed"),
    "G5": (At("D8", "closed save impurities"), "shares reach 100", "closed for related things only",
           "closed in this clause only"),
    "G6": ("no material effect", "as comprising", "each extra below a number of the description"),
    "G7": ("open", "partly closed", "closed"),
    "G8": ("zero", "below detection", "below a threshold", "none added"),
    "G9": ("none of them", "not together", "not exactly one of them"),
    "G10": ("this member only", "total of the class kept", "the class is this member"),
    # arithmetic and relations
    "H1": ("leaves an integer quotient", "can be divided", "can be cut into that many parts",
           "integer quotient of two or more", "leaves an integer quotient"),
    "H2": ("positive whole multiple", "whole multiple with zero", "more than once", "any multiple"),
    "H3": ("first over second", "on another basis", "second over first", "first over second",
           "first over the total"),
    "H4": ("through the origin", "straight line", "rises with", "linear operator"),
    "H5": ("reciprocal", "falls as the other rises", "falling straight line"),
    "H6": ("strictly at each step", "never the other way", "from first to last",
           "not increasing throughout"),
    "H7": ("exact", "as made", "as measured", "one and the same thing", "average the same"),
    "H8": ("each", "together", "together in equal parts"),
    "H9": ("either way", "first minus second", "relative"),
    # geometry
    "I1": ("exact", "within making tolerance", "never meeting, so not one and the same line", "either sense"),
    "I2": ("special shape included", "special shape excluded", "rounded corners allowed"),
    "I3": ("largest extent", "smallest extent", "along a named axis",
           "of the equivalent circle or sphere", "average over all directions"),
    # time and sequence
    "J1": ("fixed spacing", "at least that often", "no more often", "once in each calendar stretch",
           "counting the first day too"),
    "J2": ("every two weeks", "twice a week", "every other week on the same day"),
    "J3": ("days, the first left out, the last in", "hours", "the day of the event is the first",
           "before or after", "working days"),
    "J4": ("over before it begins", "begun before it begins", "right before, nothing between",
           "upstream of it"),
    "J5": ("in any order", "in the order listed", "where one uses what another gives", "in any order"),
    "J6": ("begun at the same instant", "overlapping at some moment", "over the same span",
           "within one cycle"),
    "J7": ("up to its beginning, then stopped", "at least up to its beginning",
           "up to its end, the other included", "at least up to its beginning, and it must come"),
    "J8": ("only the steps that must happen", "what does the step is there in any case",
           "the condition comes about, and the step", "then and only then"),
    "J9": ("without a break", "not in batches", "no long pauses", "without a jump"),
    # what is measured, where, when and how
    "K1": ("the thing named", "its surroundings", "the control setting", "surface and core"),
    "K2": ("any known method", "every known method", "the first, the description's own", "cannot be told"),
    "K3": ("as charged", "in the product", "at its peak", "at all times"),
}  # fmt: skip


def labels(id: str) -> set[str]:
    return {r.label for e in entries() if e.id == id for r in e.readings}


def test_the_table_is_the_whole_survey() -> None:
    assert len(TABLE) == PHRASES
    assert sum(map(len, TABLE.values())) == READINGS


@pytest.mark.parametrize("id", TABLE)
def test_every_reading_of_the_survey_is_in_the_catalogue(id: str) -> None:
    for reading in TABLE[id]:
        if isinstance(reading, At):
            assert reading.label in labels(reading.id), reading
        elif isinstance(reading, str):
            assert reading in labels(id), (reading, sorted(labels(id)))


def test_what_is_left_out_is_counted() -> None:
    """5 of 292 readings have no counterpart."""
    left = {id: [r for r in row if isinstance(r, Left)] for id, row in TABLE.items()}
    reasons = (ACTS, NAMED, CHOSEN)
    by_reason = {why: sum(r is why for row in left.values() for r in row) for why in reasons}
    assert by_reason == {ACTS: 2, NAMED: 2, CHOSEN: 1}
    whole = {id for id, row in TABLE.items() if all(isinstance(r, Left) for r in row)}
    assert whole == {"F2"}


def test_every_phrase_beyond_the_survey_is_known() -> None:
    """Phrases that claims use and the survey lacked, and the words that settle what others leave open."""
    more = {e.id for e in entries()} - set(TABLE)
    assert more >= {"D9", "H10", "H11", "H12", "I4", "J10", "J11", "J12", "L1"}
