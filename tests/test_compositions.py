"""Classes, compositions and transitions in a sheet: what is read, what is told of mistakes, what is found."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from scopecheck.answers.about import Moves
from scopecheck.answers.consistency import contradictions
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.core.construction import base_construction
from scopecheck.core.declared import SetDecl
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.report.items import statement
from scopecheck.report.things import thing_text
from scopecheck.report.wholes import case_notes, short_of_whole
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import sheet

GLAZE = """
profile  {profile}
glaze       composition in wt%
  frit, water
  opacifier : tin oxide, zircon
  solids    : all but water
dip         any of halogen, salt
  halogen   : only chlorine, bromine
{declared}

1. A glaze comprising, consisting of, consisting essentially of, having, composed of, with the
   balance being frit; zircon; up to 5 wt%; selected from the group consisting of a halogen and salt.
{lines}

2. The glaze of claim 1, wherein the opacifier is zircon, in an amount of 1 to 2 wt%.
{below}

{cases}
"""


def glaze(
    *lines: str, below: tuple[str, ...] = (), cases: str = "", declared: str = "", profile: str = "US"
) -> str:
    own, child = ("\n".join(f"   | {line}" for line in group) for group in (lines, below))
    return GLAZE.format(lines=own, below=child, cases=cases, declared=declared, profile=profile)


def found(text: str, question: str) -> list[Finding]:
    return [f for f in ask_all(sheet(text)).findings if f.question == question]


# ---- mistakes


def declared(*lines: str) -> str:
    return glaze("frit > 0 wt%", declared="\n".join(lines))


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        (
            declared("tint  any of a, b", "  a : c, e", "  e : a"),
            "the class 'a' stands below itself",
            "take one",
        ),
        (
            declared("tint  any of red, blue", "  red :"),
            "the class 'red' has no members",
            "write red : and its",
        ),
        (declared("tint  any of red, blue", "  red"), "the class 'red' has no members", ""),
        (
            declared("tint  any of red, blue", "  warm : red, yelow"),
            "'yelow' is not listed above",
            "put warm into",
        ),
        (
            declared("tint  any of red, blue", "  warm : red, blu"),
            "'blu' is not listed above",
            "did you mean 'blue'?",
        ),
        (
            declared("tint  any of red, blue", "  red : a", "  red : b"),
            "the class 'red' is declared twice",
            "",
        ),
        (
            declared("tint  any of red, blue", "  red : a and b"),
            "holds the word 'and'",
            "a comma between members",
        ),
        (declared("mix  composition"), "a composition without its unit", "write composition in wt%"),
        (declared("mix  composition in mm", "  sand"), "mm is no unit of a share", ""),
        (
            declared("mix  composition in wt%"),
            "the composition 'mix' has no ingredients",
            "indented: water, sand",
        ),
        (
            declared("mix  composition in wt%, > 2 wt%", "  sand"),
            "after a composition",
            "given talc <= 5 wt%",
        ),
        (
            declared("mix  composition in wt% of sand, water", "  sand"),
            "'water' after a composition",
            "write the ingredients below it",
        ),
        (declared("mix  composition in wt%", "  sand, water"), "'water' is declared twice", "water in mix"),
        (declared("mix, mud  composition in wt%", "  sand"), "several compositions in one line", ""),
        (
            declared("pin  part, up to 3", "  mix  composition in wt%"),
            "a composition below a part",
            "left margin",
        ),
        (glaze("dip : selected from the group consisting of a halogen and sugar"), "does not say", ""),
        (glaze("NOT sugar IN dip"), "'sugar' is no member of dip", "add it to the list of dip"),
        (glaze("dip IN {halogen, fluorine}"), "'fluorine' is no member of dip", "did you mean 'chlorine'?"),
        (glaze("frit of solids >= frit"), "share by mass of solids and share by mass of glaze", ""),
        (
            glaze("frit of the solids + frit >= 40 wt%"),
            "share by mass of solids and share by mass of glaze",
            "",
        ),
        (glaze("frit >= 40 vol%"), "the bases differ", ""),
        (glaze("frit of dip >= 40 wt%"), "'frit of dip' is not declared", ""),
        (
            glaze("frit > 0 wt%", cases="inside\n  one : frit WITHOUT water = 2 wt%"),
            "'frit' is no composition",
            "",
        ),
        (glaze("frit > 0 wt%", cases="inside\n  one : glaze IN RECITED"), "RECITED outside a claim", ""),
        (glaze("frit > 0 wt%", cases="inside\n  one : frit = 80 wt%, water = 30 wt%"), "one", ""),
    ],
)
def test_mistakes_are_told_where_they_stand(text: str, message: str, help: str) -> None:
    made, told = read_sheet(Source("test", text))
    if made is None:
        assert any(message in d.message and help in d.help for d in told), [(d.message, d.help) for d in told]
        return
    assert any(message in d.message for d in contradictions(prepare(made)))


# ---- what is read


def test_a_class_has_one_more_member_unless_it_is_closed() -> None:
    made = sheet(declared("tint  any of red, blue", "  red : scarlet, crimson"))
    tint = made.declaration("tint")
    assert isinstance(tint, SetDecl)
    assert tint.members == ("scarlet", "crimson", "other red", "blue", "something else")
    dip = made.declaration("dip")
    assert isinstance(dip, SetDecl)
    assert dip.members == ("chlorine", "bromine", "salt", "something else")
    assert dip.classes == (("halogen", ("chlorine", "bromine")),)


def test_the_ingredients_of_a_composition_and_its_classes() -> None:
    (made,) = sheet(declared()).compositions
    assert made.members == (
        "frit", "water", "tin oxide", "zircon", "other opacifier", "others in glaze", "impurities in glaze",
    )  # fmt: skip
    below = dict(made.classes)
    assert below["opacifier"] == ("tin oxide", "zircon", "other opacifier")
    assert below["solids"] == tuple(m for m in made.members if m != "water")


def test_a_member_that_is_named_beside_its_class_is_not_a_second_one() -> None:
    """Overlap between the members of a group is harmless: chlorine is one member, not two."""
    line = "dip : selected from the group consisting of a halogen, chlorine and salt"
    text = glaze(line, cases="inside\n  one : dip = {chlorine}\n  two : dip = {bromine}").replace(
        "a halogen and salt", "a halogen, chlorine and salt"
    )
    assert not [f for f in found(text, "inside lost") if f.quantifier in ("every", "base")]


# ---- what the transitions do


def lost(text: str, case: str = "one") -> set[str]:
    return {f.quantifier for f in found(text, "inside lost") if f.case == case}


EXTRA = "inside for 1\n  one : frit = 60 wt%, zircon = 5 wt%, water = 34 wt%, {} = 1 wt%"
NAMED = ("frit > 0 wt%", "zircon > 0 wt%", "water > 0 wt%")


@pytest.mark.parametrize(
    ("words", "profile", "extra", "quantifiers"),
    [
        ("comprising", "US", "others in glaze", set()),
        ("comprising", "EPO", "impurities in glaze", set()),
        ("consisting of", "US", "others in glaze", {"every"}),
        ("consisting of", "US", "tin oxide", {"every"}),
        ("consisting of", "US", "impurities in glaze", {"base"}),
        ("consisting of", "EPO", "impurities in glaze", {"base"}),
        ("consisting of", "EPO", "others in glaze", {"every"}),
        ("consisting essentially of", "US", "others in glaze", {"some"}),
        ("having", "EPO", "others in glaze", {"some"}),
        ("composed of", "US", "others in glaze", {"some"}),
        ("balance being frit", "US", "others in glaze", {"base"}),
    ],
)
def test_what_a_transition_frees_or_forbids(
    words: str, profile: str, extra: str, quantifiers: set[str]
) -> None:
    text = glaze(f"glaze : {words}", *NAMED, cases=EXTRA.format(extra), profile=profile)
    assert lost(text) == quantifiers


def test_a_dependent_claim_cannot_add_to_a_closed_one() -> None:
    closed = glaze("glaze : consisting of", *NAMED, below=("tin oxide >= 1 wt%",))
    (finding,) = found(closed, "dependent cannot be met")
    assert lines_of(finding) == ("1a", "2a")
    opened = glaze("glaze : comprising", *NAMED, below=("tin oxide >= 1 wt%",))
    assert not found(opened, "dependent cannot be met")


def test_a_basis_is_not_recited() -> None:
    """Solids hold all but water; a content in them names no ingredient but its own."""
    text = glaze(
        "frit of solids >= 40 wt%", "water > 0 wt%", "glaze : consisting of", cases=EXTRA.format("tin oxide")
    )
    assert lost(text) == {"every"}


def test_the_number_of_the_description_settles_how_much_more_may_be_there() -> None:
    words = glaze("glaze : consisting essentially of", *NAMED, cases=EXTRA.format("others in glaze"))
    pin = 'read "consisting essentially of" as "others up to a number of the description" with c = {}'
    assert lost(f'{words}\n{pin.format("1 wt%")}  "paragraph 30"\n') == set()
    assert lost(f'{words}\n{pin.format("0.5 wt%")}  "paragraph 30"\n') == {"every"}


# ---- a limit on a class, narrowed to a member


def test_a_member_freed_by_its_name_is_shown() -> None:
    text = glaze("opacifier : up to 5 wt%", below=("opacifier : is zircon",))
    (finding,) = found(text, "member freed")
    assert finding.witness is not None
    article = finding.witness.article
    limit = Fraction(5, 100)
    zircon, together = article["zircon"], article["opacifier"]
    assert isinstance(zircon, Fraction)
    assert isinstance(together, Fraction)
    assert 0 < zircon <= limit < together
    told = statement(sheet(text), finding)
    assert "tin oxide is no longer limited" in told
    assert "1a" in told


ALKALI = """
glass  composition in wt%
  silica, soda, potash, lime
  {alkali}

1. A glass comprising 10 to 18 wt% of soda and 0 to 3 wt% of potash.
   | soda   : 10 to 18 wt%
   | potash : 0 to 3 wt%

2. The glass of claim 1, wherein the alkali is present in a total amount of at least {least}.
   | {of} : a total amount of at least {least}

3. The glass of claim 2, comprising at most 10 wt% of lime.
   | lime   : at most 10 wt%
"""


def alkaline(alkali: str, least: str = "22 wt%", of: str = "alkali") -> str:
    return ALKALI.format(alkali=alkali, least=least, of=of)


def test_a_claim_that_takes_a_member_that_no_words_name_says_so() -> None:
    text = alkaline("alkali : soda, potash")
    (finding,) = found(text, "member needed")
    assert (finding.claim, lines_of(finding)) == (2, ("1a", "1b", "2a"))
    told = statement(sheet(text), finding)
    assert "Nothing whose alkali is soda and potash alone meets claim 2" in told
    assert "It takes other alkali" in told
    assert told.endswith("alkali : only soda, potash.")
    shown = re.search(r"other\salkali\s[\d.]+\swt%,\salkali\s([\d.]+)\swt%", told)
    assert shown
    assert Fraction(shown[1]) >= 22


@pytest.mark.parametrize(
    "text",
    [
        alkaline("alkali : soda, potash", "20 wt%"),
        alkaline("alkali : only soda, potash"),
        alkaline("alkali : soda, potash", of="soda, potash"),
        alkaline("alkali : soda, potash", "2 wt%", "other alkali"),
    ],
)
def test_no_member_is_needed_where_the_named_ones_will_do_or_a_line_names_it(text: str) -> None:
    assert not found(text, "member needed")


def test_a_thing_told_by_a_class_tells_its_member_that_no_words_name() -> None:
    text = alkaline("alkali : soda, potash") + "inside for 2\n  one : alkali = 23 wt%, lime = 7 wt%\n"
    (finding,) = found(text, "member needed")
    assert "other alkali" in thing_text(sheet(text), finding)


@pytest.mark.parametrize(
    ("line", "members"),
    [
        ("alkali : soda, potash, only", ("soda", "potash")),
        ("alkali : only soda, potash", ("soda", "potash")),
        ("alkali : soda, potash", ("soda", "potash", "other alkali")),
    ],
)
def test_only_closes_a_class_before_its_members_or_behind_them(line: str, members: tuple[str, ...]) -> None:
    assert sheet(alkaline(line)).compositions[0].classes == (("alkali", members),)


@pytest.mark.parametrize(
    "line",
    ["alkali : soda, potash only", "alkali : soda, only potash", "only", "chalk, only",
     "alkali : all but lime, only"],
)  # fmt: skip
def test_only_is_no_member(line: str) -> None:
    _, diagnostics = read_sheet(Source("test", alkaline(line)))
    assert "'only' is no name of a member, nor part of one" in [d.message for d in diagnostics]


def test_no_member_is_freed_where_the_class_has_no_limit_or_the_claim_names_all_of_it() -> None:
    assert not found(glaze("frit > 0 wt%", below=("opacifier : is zircon",)), "member freed")
    pinned = 'read "is" as "these and no other of the class"  "paragraph 4"'
    closed = glaze("opacifier : up to 5 wt%", below=("opacifier : is zircon",), cases=pinned)
    assert not found(closed, "member freed")
    without = glaze("opacifier : up to 5 wt%", below=("opacifier : free of zircon",))
    assert not found(without.replace("wherein the opacifier is zircon", "free of zircon"), "member freed")


# ---- what varies


SEAT = """
seat  length in mm, <= 900 mm
user  length in mm, >= 1400 mm, <= 2000 mm, {varies}

1. A stool with a seat at 0.27 times the user.
   | seat : 0.27 times the user
"""


def test_one_thing_and_two_users() -> None:
    (finding,) = found(SEAT.format(varies="varies with the user"), "moves with something else")
    assert finding.witness is not None
    assert isinstance(finding.about, Moves)
    one, other = finding.witness.article, finding.about.other.article
    assert one["seat"] == other["seat"]
    assert one["user"] != other["user"]


def test_what_does_not_vary_is_not_asked_about() -> None:
    assert not found(SEAT.format(varies="<= 1900 mm"), "moves with something else")


def test_shares_beyond_the_whole_are_told_by_their_sum() -> None:
    made = sheet("""
glaze  composition in wt%
  frit, water, clay, sand

1. A glaze comprising a frit.
   | glaze : comprising
inside
  exact  : frit = 60 wt%, water = 50 wt%
  ranged : frit >= 60 wt%, water = 50 wt%
""")
    exact, ranged = (d.cause for d in contradictions(prepare(made)))
    assert exact.endswith("more than the whole: frit 60 wt% + water 50 wt% = 110 wt%")
    assert ranged.endswith("add up to 100 wt%; no share of glaze is below 0 wt%")


def test_what_is_left_of_a_composition_is_told_with_its_others() -> None:
    """What is told makes up the whole: the others, given as none, are not told."""
    text = glaze(
        "others in glaze = 0 wt%", "frit >= 40 wt%", cases="must stay out for 1\n  one : water = 10 wt%"
    )
    (finding,) = [f for f in found(text, "outside met") if f.case == "one"]
    assert finding.witness is not None
    told = " ".join(thing_text(sheet(text), finding).split())
    shares = [Fraction(x) for x in re.findall(r"([\d.]+) wt%", told)]
    assert "others" not in told
    assert sum(shares) == 100


# ---- what a document states in full, and what does not add up

PASTE = """
paste       composition in wt%
  water
  thickener : xanthan, guar
1. A paste comprising a thickener selected from the group consisting of xanthan and guar.
   | paste : comprising
   | thickener : selected from the group consisting of xanthan and guar
document D
  example : {facts}   "page 2"
"""


def paste(facts: str) -> Sheet:
    return sheet(PASTE.format(facts=facts))


@pytest.mark.parametrize(
    ("facts", "in_full", "total"),
    [
        # 90 + 8 + 0 = 98: the rest may be anything, but no thickener that the document would have listed
        ("water = 90 wt%, xanthan = 8 wt%, guar = 0 wt%", ("other thickener",), Fraction(98, 100)),
        ("water = 92 wt%, xanthan = 8 wt%, guar = 0 wt%", ("other thickener",), None),
        # not every thickener is stated, none is there, the further one or all together are spoken of
        ("water = 90 wt%, xanthan = 8 wt%", (), None),
        ("water = 90 wt%, xanthan = 0 wt%, guar = 0 wt%", (), Fraction(90, 100)),
        ("water = 90 wt%, xanthan = 8 wt%, guar = 0 wt%, thickener = 9 wt%", (), None),
    ],
)
def test_a_document_that_states_each_of_a_class_has_no_further_one(
    facts: str, in_full: tuple[str, ...], total: Fraction | None
) -> None:
    made = paste(facts)
    (case,) = made.cases
    assert case.in_full == in_full
    assert [of for _, of in short_of_whole(made, case)] == ([total] if total else [])


def test_a_closed_group_is_met_by_a_document_that_lists_one_of_its_members() -> None:
    text = PASTE.format(facts="water = 90 wt%, xanthan = 8 wt%, guar = 0 wt%")
    (met,) = found(text, "document met")
    assert met.quantifier == "every"
    assert not found(text, "silence alone keeps out")
    notes = list(case_notes(sheet(text), sheet(text).cases[0]))
    assert [note.replace("\N{NO-BREAK SPACE}", " ") for note in notes] == [
        "What it states of paste adds up to 98 wt%; the rest is left to what is not listed.",
        "It gives an amount of each member of thickener that is listed; other thickener is therefore taken as"
        " not there.",
    ]


OPTIONAL = """
cap  composition in wt%
  resin
  wax : paraffin, beeswax

1. A cap comprising {amount} of a wax.
   | wax : {amount}

inside
  none of it : resin = 100 wt%
"""


@pytest.mark.parametrize(("amount", "lost"), [("0 to 2 wt%", False), ("1 to 2 wt%", True)])
def test_where_none_of_a_class_is_there_every_reading_asks_the_amount_0(amount: str, lost: bool) -> None:
    found = [f for f in ask_all(sheet(OPTIONAL.format(amount=amount))).findings if isinstance(f, Finding)]
    told = next((f for f in found if f.question == "inside lost"), None)
    assert (told is not None) is lost
    assert told is None or told.quantifier == "every"


SLIP = """
slip  composition in wt%
  frit, water, clay

1. A slip, {words}.
   | slip : {words}
"""


@pytest.mark.parametrize(
    ("words", "exact"),
    [
        ("contains 3 to 5 wt% of water", "3 wt% <= water <= 5 wt%"),
        ("comprising at least 40 wt% of frit", "frit >= 40 wt%"),
        ("having a water content of at most 5 wt%", "water <= 5 wt%"),
        (
            "contains 30 to 50 wt% frit and less than 5 % by weight of water",
            "30 wt% <= frit <= 50 wt%, water < 5 wt%",
        ),
        ("free of clay", "clay = 0 wt%"),
    ],
)
def test_amounts_of_ingredients_may_be_told_of_the_whole(words: str, exact: str) -> None:
    said = sheet(SLIP.format(words=words))
    meant = sheet(f"{SLIP.format(words=words).rpartition('   |')[0]}   | {exact}\n")
    one, other = (made.claims[0].limitations[0].formula for made in (said, meant))
    assert said.claims[0].limitations[0].groups or one == other
    for frit in (30, 40, 50, 60):
        for water in (0, 3, 5, 6):
            rest = Fraction(100 - frit - water, 100)
            for clay in (Fraction(0), rest):
                thing = {n: Fraction(0) for made in said.compositions for n in made.members}
                thing |= {"frit": Fraction(frit, 100), "water": Fraction(water, 100), "clay": clay}
                values = [evaluate(f, thing, base_construction(m)) for f, m in ((one, said), (other, meant))]
                assert values[0] is values[1], thing


def test_words_that_close_a_composition_or_leave_a_choice_are_not_parted_by_ingredients() -> None:
    for words in ("consisting of 3 to 5 wt% of water",):
        made, _ = read_sheet(Source("test", SLIP.format(words=words)))
        assert made is None, words


@pytest.mark.parametrize("only", ["", "only "])
def test_an_amount_of_a_class_with_room_for_others_is_told(only: str) -> None:
    words = "from 0.2 to 1.5 % by weight of at least one of gum and pectin"
    head = f"paste  composition in wt%\n  water, salt\n  thickener : {only}gum, pectin\n"
    _, told = read_sheet(Source("t", f"{head}\n1. A paste with {words}.\n   | thickener : {words}\n"))
    whole = "the amount is read as that of the whole class 'thickener'"
    assert (whole in [d.message for d in told]) is not bool(only)


@pytest.mark.parametrize(
    "words", ["at most 1 wt% of gum", "at most 1 wt% of gum and at most 2 wt% of pectin"]
)
def test_an_amount_of_a_member_is_none_of_its_class(words: str) -> None:
    head = "paste  composition in wt%\n  water, salt\n  thickener : gum, pectin\n"
    made, told = read_sheet(Source("t", f"{head}\n1. A paste with {words}.\n   | thickener : {words}\n"))
    assert made is None
    assert any("write: gum" in d.help for d in told)
