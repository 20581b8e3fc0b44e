"""Assemblies and transitions over them: what is read, mistakes, what a further part changes."""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import lines_of
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.published.worked import found, met
from tests.sheets import errors, on_the_wrong_side, sheet

KIT = """
profile  {profile}
plate     part, 0 to 4
  hole    part, 0 to 2
    depth length in mm
springs   count
lids      count
gap       length in mm
housing   assembly of plates, springs
kit       assembly of housing, lids
{declared}

1. A kit comprising, consisting of, consisting essentially of, having, made of, a housing, a pair of plates,
   a lid and two plates, or consisting of two plates and a spring, consisting of two plates and two gears, or
   consisting of a housing.
{lines}

2. The kit of claim 1, with at least one lid.
   | lids : at least one

{cases}
"""


def kit(*lines: str, cases: str = "", declared: str = "", profile: str = "US") -> str:
    own = "\n".join(f"   | {line}" for line in lines)
    return KIT.format(lines=own, cases=cases, declared=declared, profile=profile)


# ---- mistakes


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        (kit("lids = 1", declared="box  assembly of lids, plats"), "'plats' is no kind", "mean 'plates'?"),
        (kit("lids = 1", declared="box  assembly of lids, gap"), "'gap' is no kind", "the part that has it"),
        (kit("lids = 1", declared="box  assembly of holes"), "'holes' is no kind", "write plates"),
        (
            kit("lids = 1", declared="box  assembly of kit, lids"),
            "'lids' is in 'box' twice",
            "one of the two",
        ),
        (kit("lids = 1", declared="a  assembly of b\nb  assembly of a"), "'a' is a part of itself", "out"),
        (kit("lids = 1", declared="box  assembly of only others"), "'box' has no parts", ""),
        (kit("lids = 1", declared="box, bag  assembly of lids"), "several assemblies in one line", ""),
        (kit("lids = 1", declared="lids  assembly of springs"), "'lids' is declared twice", ""),
        (kit("lids = 1", declared="kit  assembly of springs"), "'kit' is declared twice", ""),
        (
            kit("lids = 1", declared="pin  part, up to 2\n  b  assembly of lids"),
            "below a part",
            "left margin",
        ),
        (kit("lids : consisting of two plates and a spring"), "'lids' is no assembly", "assembly of plates"),
        (kit("housing : consisting of two plates and two gears"), "'two gears' is no member", ""),
        (kit("2 * kit > 4"), "'kit' is an assembly", "kit WITHOUT plates = 0"),
        (kit("NOT gear IN kit"), "'gear' is no member of kit", ""),
    ],
)
def test_mistakes_are_told_where_they_stand(text: str, message: str, help: str) -> None:
    made, told = read_sheet(Source("test", text))
    assert made is None
    assert any(message in d.message and help in d.help for d in told), [(d.message, d.help) for d in told]
    assert len([d for d in told if d.severity == "error"]) == 1, [d.message for d in told]


def test_the_parts_of_an_assembly_and_of_those_in_it() -> None:
    made = {
        a.name: a for a in sheet(kit("lids = 1", declared="lot  assembly of only lids, plates")).assemblies
    }
    inner = ("plates", "springs", "others in housing", "unrelated things in housing")
    assert made["housing"].members == inner
    assert made["kit"].members == (*inner, "lids", "others in kit", "unrelated things in kit")
    assert made["kit"].classes == (("housing", inner),)
    assert made["lot"].members == ("lids", "plates")


# ---- what a further part changes

SMALL = """
profile  {profile}
plates, springs, lids  count
housing  assembly of plates, springs
kit      assembly of housing, lids

1. A kit comprising, consisting of, consisting essentially of, having two plates and a spring, or
   consisting of two plates and a spring, or consisting of a housing.
{lines}

must stay out for 1
  one : {row}
"""
NONE = (
    "others in housing = 0, unrelated things in housing = 0, others in kit = 0, unrelated things in kit = 0"
)


def with_more(lines: tuple[str, ...], further: str, profile: str = "US") -> str:
    """How claim 1 lets in a kit of two plates, one spring, and what is said, all else being absent."""
    said = dict(fact.split(" = ") for fact in f"plates = 2, springs = 1, lids = 0, {NONE}".split(", "))
    said |= dict(fact.split(" = ") for fact in further.split(", ") if fact)
    row = ", ".join(f"{name} = {value}" for name, value in said.items())
    return met(SMALL.format(lines="\n".join(f"   | {x}" for x in lines), row=row, profile=profile), "one")


PARTS = ("springs : a spring", "plates : two plates")
CLOSED = "housing : consisting of two plates and a spring"


@pytest.mark.parametrize(
    ("lines", "further", "profile", "answer"),
    [
        ((CLOSED,), "", "US", "every"),
        ((CLOSED,), "others in housing = 1", "US", "none"),
        ((CLOSED,), "unrelated things in housing = 1", "US", "some"),
        ((CLOSED,), "plates = 3", "US", "some"),  # where the number stays open though kinds are closed
        ((CLOSED,), "lids = 1", "US", "every"),  # the clause closes nothing outside it
        ((CLOSED,), "others in kit = 1", "EPO", "every"),
        (("housing : consisting of", *PARTS), "others in housing = 1", "US", "none"),
        (("housing : consisting of", *PARTS), "plates = 3", "US", "some"),
        (("housing : comprising", *PARTS), "others in housing = 1", "US", "every"),
        (("housing : comprising", *PARTS), "plates = 3", "US", "base"),
        (("housing : having", *PARTS), "others in housing = 1", "EPO", "base"),
        (("housing : consisting essentially of", *PARTS), "others in housing = 1", "EPO", "base"),
        (("kit : consisting of a housing",), "others in kit = 1", "US", "none"),
        (("kit : consisting of", "housing : comprising", *PARTS), "others in housing = 1", "US", "every"),
        (("kit : consisting of", *PARTS), "lids = 1", "US", "none"),
        (("kit : consisting of", *PARTS), "others in housing = 1", "US", "none"),
    ],
)
def test_what_a_transition_frees_or_forbids(
    lines: tuple[str, ...], further: str, profile: str, answer: str
) -> None:
    assert with_more(lines, further, profile) == answer


def test_what_is_named_of_a_part_recites_it() -> None:
    """A limit on the holes of the plates names the plates, and no spring."""
    lines = ("housing : consisting of", "EVERY hole (depth <= 5 mm)")
    row = f"must stay out for 1\n  one : plates = 1, springs = {{}}, holes of plate 1 = 0, {NONE}"
    assert met(kit(*lines, cases=row.format(0)), "one") == "every"
    assert met(kit(*lines, cases=row.format(1)), "one") == "none"


def test_a_dependent_claim_cannot_add_a_part_to_a_closed_kit() -> None:
    """MPEP 2111.03 II: a claim that depends from one that consists of the parts recited cannot add one."""
    closed = kit("kit : consisting of", "springs : a spring")
    (finding,) = found(closed, "dependent cannot be met")
    assert lines_of(finding) == ("1a", "2a")


# ---- cells


CELLS = """
plate     part, 0 to 4
springs   count
box       assembly of plates, springs
kit       assembly of box

1. A kit.
   | plates = 2, springs = 1, kit WITHOUT RECITED = 0

{heading}      kit
  one          {cell}
"""


@pytest.mark.parametrize(
    ("heading", "cell", "shown"),
    [
        ("must stay out", "2 plates + 1 spring", True),
        ("must stay out", "two plates, a spring", True),
        ("must stay out", "3 plates + 1 spring", False),
        ("must stay out", "2 plates", False),
        ("must stay out", "2 plates + 1 spring + 1 others", False),
        ("must stay out", "none", False),
        ("document D1", "2 plates + 1 spring", False),  # it says of nothing that it is not there
        ("document D1", "{2 plates, 1 spring}", True),
    ],
)
def test_a_cell_says_what_is_there(heading: str, cell: str, shown: bool) -> None:
    text = CELLS.format(heading=heading, cell=cell)
    case = "one" if heading == "must stay out" else "D1, one"
    assert (met(text, case) == "every") is shown


@pytest.mark.parametrize(
    ("cell", "message"),
    [
        ("2 plates + 1 gear", "'1 gear' is no member of kit"),
        ("5 plates", "5 is outside the domain of plates"),
        ("two box", "box is an assembly, which is not counted"),
        ("-", "'-' is no value"),
    ],
)
def test_a_wrong_cell(cell: str, message: str) -> None:
    made, told = read_sheet(Source("test", CELLS.format(heading="inside", cell=cell)))
    assert made is None
    assert any(message in d.message for d in told), [d.message for d in told]


SET = """\
plate  part, 0 to 4
  thickness  length in mm
springs  count
lids  count
set  assembly of plates, springs, lids"""
NOTHING_ELSE = "others in set = 0, unrelated things in set = 0"


@pytest.mark.parametrize(
    ("words", "within", "outside"),
    [
        ("comprising at least one of a spring and a lid", "springs = 0, lids = 2", "springs = 0, lids = 0"),
        ("comprising one or more of a plate, a spring and a lid", "plates = 0, springs = 0, lids = 1",
         "plates = 0, springs = 0, lids = 0"),
        ("having no more than two plates and at least one of a spring and a lid",
         "plates = 2, springs = 1, lids = 0", "plates = 3, springs = 1, lids = 0"),
        ("consisting of a plate and at least one of a spring and a lid",
         f"plates = 1, springs = 1, lids = 0, {NOTHING_ELSE}", "plates = 1, springs = 0, lids = 0"),
        ("consisting of a plate and at least one of a spring and a lid",
         f"plates = 1, springs = 1, lids = 1, {NOTHING_ELSE}", "plates = 1, springs = 1, others in set = 1"),
        ("consisting of a plate and either a spring or a lid",
         f"plates = 1, springs = 0, lids = 1, {NOTHING_ELSE}", "plates = 1, springs = 0, lids = 0"),
        ("comprising a plate and one of a spring and a lid", "plates = 2, springs = 1, lids = 0",
         "plates = 1, springs = 1, lids = 1"),
    ],
)  # fmt: skip
def test_one_of_several_kinds_is_enough(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(SET, "set", words, within, outside)


@pytest.mark.parametrize(
    "words",
    [
        "comprising a plate and at most one of a spring and a lid",
        "comprising a plate and only one of a spring and a lid",
        "comprising one of the springs and a lid",
    ],
)
def test_how_many_of_several_kinds_is_no_number_of_one(words: str) -> None:
    assert errors(f"{SET}\n\n1. A thing, {words}.\n   | set : {words}\n")
