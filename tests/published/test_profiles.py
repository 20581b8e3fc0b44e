"""What changes with the profile: one sheet under each, with what is presumed there.

Each rule names its source and how it is known; the card of the phrase must print both. The numbers are those
of the source where it has numbers, else ours, as said beside them. Where an authority presumes nothing, what
is presumed is the ordinary sense of the words (common practice), as said there.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.commands.phrase_cards import cards
from scopecheck.core.construction import base_construction
from scopecheck.core.model import Group, Sheet
from scopecheck.report.page import build_report
from scopecheck.report.render import render
from scopecheck.solving.evaluate import meets
from scopecheck.vocabulary.catalogue import entries
from tests.published.worked import Tag, sheet

PROFILES = ("US", "US court", "EPO")
HEADS = {
    "US": "Read under US practice as in examination",
    "US court": "Read under US practice as in court",
    "EPO": "Read under EPO practice",
}


@dataclass(frozen=True)
class Rule:
    """What is presumed of a phrase in each profile, on what authority, and things that tell it.

    `presumed`: one label, or several where no presumption is known; `source`: a part of the citation on the
    card; `things`: a value and, for each profile, whether it is met in the base.
    """

    thing: str
    words: str
    presumed: dict[str, tuple[str, ...]]
    sources: tuple[tuple[str, Tag], ...]
    things: tuple[tuple[str, dict[str, bool]], ...]


RULES = {
    "about": Rule(
        "bath  temperature in degC",
        "about 200 degC",
        {
            "US": ("context tolerance in degrees",),
            "US court": ("context tolerance in degrees",),
            "EPO": ("rounding only",),
        },
        (
            ("MPEP 2173.05(b) III.A [R-01.2024]", "read"),
            ("MPEP 2111.01 IV.A", "read"),
            ("EPO Guidelines 2024 F-IV 4.7", "read"),
        ),
        # The Guidelines' own number; in the US the width is open, and as presumed nothing is added to 200.
        (
            ("199.5 degC", {"US": False, "US court": False, "EPO": True}),
            ("200.5 degC", {"US": False, "US court": False, "EPO": False}),
            ("205 degC", {"US": False, "US court": False, "EPO": False}),
        ),
    ),
    "preferably": Rule(
        "bath  temperature in degC",
        "45 to 78 degC, preferably 50 to 60 degC",
        {
            "US": ("outer limit", "inner limit"),
            "US court": ("outer limit", "inner limit"),
            "EPO": ("outer limit",),
        },
        (
            ("MPEP 2173.05(c) I [R-11.2013]", "read"),
            ("EPO Guidelines 2018 F-IV 4.9", "read"),
        ),
        (("47 degC", {"US": True, "US court": True, "EPO": True}),),
    ),
    "last written digit": Rule(
        "rod  length in cm",
        "3.5 cm",
        {"US": ("rounds to it",), "US court": ("rounds to it",), "EPO": ("rounds to it",)},
        (
            ("AstraZeneca AB v. Mylan Pharms. Inc., 19 F.4th 1325", "read (secondary)"),
            ("EPO Guidelines G-VI 8.1 (2015), G-VI 7.1 (2024), citing T 175/97", "read"),
        ),
        (
            ("3.44 cm", {"US": False, "US court": False, "EPO": False}),
            ("3.45 cm", {"US": True, "US court": True, "EPO": True}),
            ("3.54 cm", {"US": True, "US court": True, "EPO": True}),
            ("3.55 cm", {"US": False, "US court": False, "EPO": False}),
        ),
    ),
    "last written digit of a limit": Rule(
        "acidity  number",
        "at least 13",
        {
            "US": ("no top, end in",),
            "US court": ("no top, end in",),
            "EPO": ("no top, end in", "rounds to the limit"),
        },
        (
            ("Actelion Pharms. Ltd v. Mylan Pharms. Inc., 85 F.4th 1167", "read"),
            ("EPO Guidelines G-VI 8.1 (2015), G-VI 7.1 (2024)", "read"),
        ),
        # Actelion has no blanket rule for or against rounding: that 12.6 is out, as presumed in the US, is
        # the ordinary sense of "at least" (common practice).
        (
            ("13", {"US": True, "US court": True, "EPO": True}),
            ("12.6", {"US": False, "US court": False, "EPO": False}),
            ("12.4", {"US": False, "US court": False, "EPO": False}),
        ),
    ),
    "last written digit of an upper limit": Rule(
        "width  length in cm",
        "at most 3.5 cm",
        {
            "US": ("includes none, end in",),
            "US court": ("includes none, end in",),
            "EPO": ("includes none, end in", "rounds to the limit"),
        },
        (
            ("MPEP 2173.05(c) II [R-11.2013], citing Ex parte Khusid, 174 USPQ 59", "read"),
            ("EPO Guidelines G-VI 8.1 (2015), G-VI 7.1 (2024)", "read"),
        ),
        (
            # 3.5 cm stands for 3.45 to 3.54 cm there.
            ("3.54 cm", {"US": False, "US court": False, "EPO": False}),
            ("3.55 cm", {"US": False, "US court": False, "EPO": False}),
            ("3.5 cm", {"US": True, "US court": True, "EPO": True}),
        ),
    ),
    "at least one of A and B": Rule(
        "metal  any of copper, zinc",
        "at least one of copper and zinc",
        {
            "US": ("either will do", "one of each"),
            "US court": ("one of each",),
            "EPO": ("either will do",),
        },
        (
            ("SuperGuide Corp. v. DirecTV Enters., Inc., 358 F.3d 870", "read (secondary)"),
            ("European Patent Office: no such rule found", "common practice"),
        ),
        (
            ("copper", {"US": True, "US court": False, "EPO": True}),
            ("copper + zinc", {"US": True, "US court": True, "EPO": True}),
        ),
    ),
}


def read(rule: Rule, profile: str, cases: str = "") -> Sheet:
    name = rule.thing.partition("  ")[0]
    claim = f"1. A thing with {rule.words}.\n   | {name} : {rule.words}\n"
    return sheet(f"profile {profile}\n{rule.thing}\n\n{claim}\n{cases}")


def group(rule: Rule, profile: str) -> Group:
    """The phrase that is all of the words; their parts have groups of their own."""
    return next(
        g for g in reversed(read(rule, profile).groups) if any(p.words == rule.words for p in g.places)
    )


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("name", RULES)
def test_base_reading_and_standings(name: str, profile: str) -> None:
    rule = RULES[name]
    found = group(rule, profile)
    presumed = tuple(r.label for r in found.readings if r.standing == "presumed")
    assert presumed == rule.presumed[profile]
    assert found.readings[found.base].label == presumed[0]
    known = {label for labels in rule.presumed.values() for label in labels}
    for reading in found.readings:
        if reading.label in known - set(presumed):
            assert reading.standing == "arguable"


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("name", RULES)
def test_what_the_base_reading_takes_in(name: str, profile: str) -> None:
    """As stated by the source: what must stay out is met as presumed, or is not."""
    rule = RULES[name]
    thing = rule.thing.partition("  ")[0]
    for value, met in rule.things:
        made = read(rule, profile, f"must stay out  {thing}\n  old  {value}\n")
        found = [f for f in ask_all(made).findings if f.question == "outside met"]
        as_presumed = any(f.quantifier in ("base", "every") for f in found)
        assert as_presumed == met[profile], (value, found)


@pytest.mark.parametrize(
    ("words", "rounded", "beyond"),
    [
        ("at least 3.5 cm", "3.45 cm", "3.44 cm"),
        ("at most 3.5 cm", "3.54 cm", "3.55 cm"),
        ("not less than 3.5 cm", "3.45 cm", "3.44 cm"),
        ("not more than 3.5 cm", "3.54 cm", "3.55 cm"),
        ("between 3.5 and 4.5 cm", "4.54 cm", "4.55 cm"),
        ("from 3.5 to 4.5 cm", "3.45 cm", "3.44 cm"),
        ("up to 3.5 cm", "3.54 cm", "3.55 cm"),
    ],
)
def test_what_rounds_is_met_on_a_presumed_reading(words: str, rounded: str, beyond: str) -> None:
    """EPO Guidelines G-VI 8.1 (2015), G-VI 7.1 (2024) (read): 3.5 cm is 3.45 to 3.54 cm, ranges alike."""
    for value, met in ((rounded, True), (beyond, False)):
        text = f"profile EPO\nrod  length in cm\n1. A rod of {words}.\n   | rod : {words}\n"
        made = sheet(f"{text}must stay out\n  old : rod = {value}\n")
        found = [f for f in ask_all(made).findings if f.question == "outside met"]
        told = [made.groups[r.group].readings[r.reading] for f in found for r in (*f.rereads, *f.read_as)]
        presumed = [r.label for r in told if r.standing == "presumed" and r.label.startswith("rounds to")]
        assert bool(presumed) == met, (words, value, told)


@pytest.mark.parametrize("words", ["other than 3.5 cm", "not 3.5 cm", "not equal to 3.5 cm"])
@pytest.mark.parametrize("profile", PROFILES)
def test_a_number_that_stands_for_what_rounds_to_it_is_denied_with_that(profile: str, words: str) -> None:
    """EPO Guidelines G-VI 7.1 (2024) (read): 3.5 cm is 3.45 to 3.54 cm; of its denial common practice."""
    made = sheet(f"profile {profile}\nrod  length in cm\n1. A rod of {words}.\n   | rod : {words}\n")
    (found,) = made.groups
    (x,) = made.claims[0].limitations
    labels = [r.label for r in found.readings if r.standing == "presumed"]
    assert labels == ["exact", "after rounding"]
    k = base_construction(made).with_reading(0, [r.label for r in found.readings].index("after rounding"))
    assert [meets(x.formula, {"rod": Fraction(n, 10000)}, k) for n in (344, 345, 354, 355)] == [
        True, False, False, True,
    ]  # fmt: skip


ONE_SALT = "closed, one only of each kind"


@pytest.mark.parametrize(("profile", "presumed"), [("US", False), ("US court", True), ("EPO", False)])
def test_one_salt_only_may_be_meant_before_a_court(profile: str, presumed: bool) -> None:
    """Norian v. Stryker, 432 F.3d 1356 (Fed. Cir. 2005) (read, secondary): one only of the salt."""
    mix = "mix  composition in wt%\n  water\n  phosphate : monophosphate, diphosphate\n"
    words = "consisting of water and a phosphate"
    made = sheet(f"profile {profile}\n{mix}\n1. A liquid {words}.\n   | mix : {words}\n")
    (found,) = made.groups
    (one,) = (r for r in found.readings if r.label == ONE_SALT)
    assert (one.standing == "presumed") == presumed
    assert found.readings[found.base].label != ONE_SALT


@pytest.mark.parametrize("name", RULES)
def test_the_card_shows_authority_and_tag(name: str) -> None:
    rule = RULES[name]
    title = group(rule, "US").entry
    (entry,) = (e for e in entries() if e.title == title and _labels(rule) <= {r.label for r in e.readings})
    card = " ".join(cards((entry,), "text").split())
    for text, tag in rule.sources:
        (source,) = (s for s in entry.sources if s.text.startswith(text))
        assert source.tag == tag
        assert f"source: {' '.join(source.text.split())} [{tag}]" in card


def _labels(rule: Rule) -> set[str]:
    return {r.label for profile in PROFILES for r in group(rule, profile).readings}


@pytest.mark.parametrize("profile", PROFILES)
def test_the_report_names_profile_and_purpose(profile: str) -> None:
    made = read(RULES["about"], profile)
    shown = render(build_report(made, ask_all(made), everything=False), "text", 200, False)
    assert HEADS[profile] in shown
