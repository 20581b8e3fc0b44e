"""Members of a list that a claim names and that nothing in the claim has."""

from __future__ import annotations

from itertools import product

import pytest

from scopecheck.answers.about import NotThere
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.members import members_not_reached, named_members
from scopecheck.core.construction import base_construction
from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.core.grounds import GivenFact
from scopecheck.core.model import Sheet
from scopecheck.report.items import statement
from scopecheck.solving.evaluate import meets
from tests.sheets import sheet

DECLARED = """
metal   any of copper, zinc, steel, tin
grade   one of soft, hard, brittle
dip     any of halogen, salt, dye
  halogen : chlorine, iodine
tint    any of warm
  warm    : only red, ochre
hole    part, 0 to 3
  edge  one of sharp, round
glue    composition in %
  water
  thickener : xanthan, bentonite, guar gum
"""
WORDS = "selected from the group consisting of"


def made(first: tuple[str, ...], second: tuple[str, ...], more: str = "", given: str = "") -> Sheet:
    """Two claims that say their lines as they stand, the second of the first."""
    claims = (("1. A wire", first), ("2. The wire of claim 1", second))
    told = "\n".join(
        f"{head}, {'; '.join(x.splitlines()[0].split(' : ')[-1] for x in lines)}.\n"
        + "".join(f"   | {x}\n" for x in lines)
        for head, lines in claims
    )
    return sheet(f"{DECLARED}{given}\n{told}\n{more}")


def told(about: Sheet) -> list[Finding]:
    prepared = prepare(about)
    return [f for i in prepared.all_instances() for f in members_not_reached(prepared, i)]


def names_of(finding: Finding) -> tuple[str, ...]:
    assert isinstance(finding.about, NotThere)
    return finding.about.names


def brief(about: Sheet) -> list[tuple[str, str, tuple[str, ...], str]]:
    return [(f.label, "|".join(names_of(f)), lines_of(f), f.quantifier) for f in told(about)]


def test_a_member_that_a_closed_group_above_leaves_out() -> None:
    """A group after "consisting of" is closed to what it does not name: MPEP 2111.03 II, 2173.05(h) I."""
    first = (f"thickener : {WORDS} xanthan and bentonite",)
    second = (f"thickener : {WORDS} xanthan and guar gum",)
    about = made(first, second)
    (finding,) = told(about)
    assert brief(about) == [("2a", "guar gum", ("1a",), "base")]
    assert statement(about, finding) == (
        "Names guar gum, which nothing in claim 2 has: "
        '1a\N{NO-BREAK SPACE}"selected from the group consisting of xanthan and bentonite" rules it out.'
    )


@pytest.mark.parametrize(
    ("first", "second"),
    [
        # an open list above leaves the member possible
        ("metal : at least one of copper and zinc", "metal : at least one of copper and tin"),
        # a class is there where one of its members is
        ("dip : free of chlorine", f"dip : {WORDS} a halogen and salt"),
        # of like parts it is there where one has it, and one is all there is
        ("holes <= 1", "EVERY hole (edge = round)"),
        # what the line leaves out itself is not named by it
        ("grade IN {soft, hard, brittle}", "grade IN {soft, hard}, NOT grade = brittle"),
        ("metal : free of tin", "metal : free of tin and zinc"),
        # a condition names no member
        ("grade IN {soft, hard}", "IF grade = brittle THEN copper IN metal"),
    ],
)
def test_nothing_is_told_of_what_something_has(first: str, second: str) -> None:
    assert told(made((first,), (second,))) == []


def test_the_lines_are_told_alike_together_and_by_what_can_be() -> None:
    about = made(
        ("grade = soft", "copper IN metal"),
        ("metal : at least one of zinc, steel and copper",),
        given="given  IF grade = soft THEN metal IN {copper, tin}\n",
    )
    (finding,) = told(about)
    assert (names_of(finding), lines_of(finding)) == (("zinc", "steel"), ("1a",))
    assert finding.rests_on == (GivenFact("IF grade = soft THEN metal IN {copper, tin}"),)


def test_members_of_a_closed_class_that_the_words_name_each() -> None:
    about = made((f"tint : {WORDS} red",), ("tint : at least one of red and ochre",))
    assert brief(about) == [("2a", "ochre", ("1a",), "base")]
    classed = made((f"tint : {WORDS} red",), (f"tint : {WORDS} a warm",))
    assert brief(classed) == []


def test_a_way_of_depending_is_told_and_what_holds_as_presumed_only() -> None:
    more = (
        "3. The wire of claim 1 or 2, being hard or brittle, made of copper or tin.\n"
        "   | grade : hard or brittle\n   | metal : copper or tin\n"
    )
    bright = (
        "metal : bright\n"
        '   |   reading "no tin" presumed : NOT tin IN metal\n'
        '   |   reading "any" : copper IN metal OR tin IN metal'
    )
    about = made((bright,), ("grade : one of soft and hard",), more)
    told_of = (f for f in ask_all(about).findings if f.question == "member not reached")
    found = {name: f for f in told_of for name in names_of(f)}
    assert (found["brittle"].ways, lines_of(found["brittle"])) == (((1, 2),), ("2a",))
    assert (found["tin"].ways, found["tin"].quantifier) == ((), "base")
    assert "where it depends on claim 2: 2a" in statement(about, found["brittle"]).replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_against_every_thing_and_every_reading() -> None:
    """Every value of the lists, and every reading, by the exact meaning alone."""
    about = made(
        (f"metal : {WORDS} copper and zinc", "grade : one of soft and hard"),
        (
            "metal : copper or tin",
            "grade : hard or brittle",
            f"dip : {WORDS} chlorine and salt",
            "NOT salt IN dip",
        ),
    )
    prepared = prepare(about)
    listed = [d for d in about.declarations if isinstance(d, SetDecl | ChoiceDecl)][:3]
    values = [
        list(d.members)
        if isinstance(d, ChoiceDecl)
        else [
            frozenset(m for m, has in zip(d.members, one, strict=True) if has)
            for one in product((True, False), repeat=len(d.members))
        ]
        for d in listed[:2]
    ]
    values += [[frozenset({m}) for m in listed[2].members]]
    things = [dict(zip((d.name for d in listed), one, strict=True)) for one in product(*values)]
    (own,) = prepared.instances[2]
    expected = set()
    for line in own.own:
        for named in named_members(prepared, line):
            having = [t for t in things if meets(named.there, t, base_construction(about))]
            if not any(meets(own.scope, t, base_construction(about)) for t in having):
                expected |= {(line.label, name) for name in named.names}
    assert expected == {("2a", "tin"), ("2b", "brittle"), ("2c", "salt")}
    assert {(f.label, name) for f in told(about) for name in names_of(f)} == expected
