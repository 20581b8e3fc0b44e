"""Definitions found in the description: alone in the US profiles, beside others in the EPO profile."""

from __future__ import annotations

import json

import pytest

from scopecheck.answers.consistency import contradictions
from scopecheck.answers.definitions import weighed
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.commands.showing import shown
from scopecheck.core.grounds import SettledWords, ground_text
from scopecheck.core.model import Group, Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors

BODY = """\
open        share in %
width, gap  length in mm
water, air  temperature in degC
metal       any of copper, zinc, steel

1. A strainer wherein the open area is about 35 %, the gap is between 2 and 4 mm and the temperature is below
   40 degC.
   | open        : about 35 %
   | gap         : between 2 and 4 mm
   | temperature : below 40 degC

2. The strainer of claim 1, wherein the gap is about 3.0 mm.
   | gap : about 3.0 mm

inside           open   gap    water    air
  sample         35 %   3 mm   20 degC  50 degC
must stay out
  sieve          38 %   3 mm   20 degC  30 degC

term "temperature"
  reading "of the air" presumed : air
  reading "of the water" : water
"""
BROAD = 'define "about (N)" : 0.9 * N <= x <= 1.1 * N  "paragraph 12"\n'
ALIKE = 'define "about (N)" : ABS(x - N) <= N / 10  "paragraph 14"\n'
NARROW = 'define "about (N)" : x = N  "paragraph 12"\n'
SHIFTED = 'define "about (N)" : N <= x <= 1.1 * N  "paragraph 12"\n'
WATER = 'define "temperature" : water  "paragraph 13"\n'


def read(text: str, profile: str = "US") -> Sheet:
    sheet, told = read_sheet(Source("leaf.sheet", f"profile {profile}\n{text}"))
    assert sheet is not None, [d.message for d in told]
    return weighed(sheet)


def told_of(text: str, profile: str = "US") -> tuple[Diagnostic, ...]:
    """What is wrong with a sheet, what it says of itself twice among it."""
    sheet, told = read_sheet(Source("leaf.sheet", f"profile {profile}\n{text}"))
    return told if sheet is None else (*told, *contradictions(prepare(sheet)))


def group(sheet: Sheet, wording: str, document: str = "claims") -> Group:
    found = [g for g in sheet.groups if g.wording == wording and g.document == document]
    assert len(found) == 1
    return found[0]


def labels(g: Group) -> dict[str, str]:
    return {r.label: r.standing for r in g.readings}


# ---- the US profiles


@pytest.mark.parametrize("profile", ["US", "US court"])
def test_stands_alone_throughout_the_claims(profile: str) -> None:
    about = group(read(BODY + BROAD, profile), "about ...")
    assert labels(about) == {"as defined": "presumed"}
    assert [p.where for p in about.places] == ["1a", "2a"]
    (settled,) = about.settled
    assert settled.reason == "paragraph 12"
    assert "context tolerance" in settled.removed
    assert about.places[1].meanings == ("0.9 * 3.0 mm <= gap <= 1.1 * 3.0 mm",)


def test_other_words_keep_their_readings() -> None:
    plain, defined = read(BODY), read(BODY + BROAD)
    for wording in ("between ... and ...", "below ...", "temperature"):
        assert labels(group(plain, wording)) == labels(group(defined, wording))


def test_does_not_reach_the_documents_of_others() -> None:
    cases = 'document D1\n  example : open about 35 %  "page 3"\n'
    sheet = read(BODY + cases + BROAD)
    assert "as defined" not in labels(group(sheet, "about ...", "D1"))
    assert labels(group(sheet, "about ...")) == {"as defined": "presumed"}


def test_is_the_reason_wherever_a_finding_rests_on_it() -> None:
    by_about = SettledWords("definition of 'about (N)'", "paragraph 12")
    by_water = SettledWords("definition of 'temperature'", "paragraph 13")
    text = BODY.replace("sample         35 %", "sample         39 %")
    lost = [f for f in ask_all(read(text + BROAD)).findings if f.question == "inside lost"]
    assert lost
    assert all((by_about in f.rests_on) == ("1a" in f.failing) for f in lost)
    assert [f.quantifier for f in lost if "1a" in f.failing] == ["every"]
    met = [f for f in ask_all(read(BODY + BROAD + WATER)).findings if f.question == "outside met"]
    assert met
    assert all({by_about, by_water} <= set(f.rests_on) for f in met)


def test_a_finding_about_other_words_does_not_name_it() -> None:
    answers = ask_all(read(BODY + BROAD), details=True)
    between = [f for f in answers.findings if f.question == "contested" and f.label == "1b"]
    assert between
    assert not any("about" in ground_text(x) for f in between for x in f.rests_on)


# ---- the EPO profile


def test_broad_definition_governs_and_the_ordinary_readings_stay() -> None:
    ordinary = labels(group(read(BODY, "EPO"), "about ..."))
    about = group(read(BODY + BROAD, "EPO"), "about ...")
    assert labels(about) == {
        **{label: "arguable" if s == "presumed" else s for label, s in ordinary.items()},
        "as defined": "presumed",
    }
    assert about.readings[about.base].label == "as defined"
    assert about.definition is not None
    assert about.definition.breadth == (("1a", "broader"), ("2a", "broader"))


@pytest.mark.parametrize(("line", "breadth"), [(NARROW, "narrower"), (SHIFTED, "crossing")])
def test_narrowing_definition_stands_beside_the_ordinary_readings(line: str, breadth: str) -> None:
    plain = group(read(BODY, "EPO"), "about ...")
    about = group(read(BODY + line, "EPO"), "about ...")
    assert labels(about) == {**labels(plain), "as defined": "arguable"}
    assert about.base == plain.base
    assert about.definition is not None
    assert {width for _, width in about.definition.breadth} == {breadth}


def test_definition_broader_in_one_place_only_does_not_govern() -> None:
    """A tenth is more than rounding allows of 35 %, and less than it allows of 3 mm: half a millimetre."""
    text = BODY.replace("about 3.0 mm", "about 3 mm")
    about = group(read(text + BROAD, "EPO"), "about ...")
    assert about.definition is not None
    assert about.definition.breadth == (("1a", "broader"), ("2a", "narrower"))
    assert labels(about)["as defined"] == "arguable"
    assert "broader than the ordinary reading in one place, and narrower in another" in printed(
        text + BROAD, "EPO"
    )


def test_definition_that_says_what_is_presumed_is_as_broad() -> None:
    line = 'define "about (N)" : ROUND(x TO PLACE(N), HALF AWAY) = N  "paragraph 4"\n'
    about = group(read(BODY + line, "EPO"), "about ...")
    assert about.definition is not None
    assert set(about.definition.breadth) == {("1a", "same"), ("2a", "same")}
    assert about.readings[about.base].label == "as defined"


def test_noun_of_another_thing_crosses() -> None:
    noun = group(read(BODY + WATER, "EPO"), "temperature")
    assert labels(noun) == {"of the air": "presumed", "of the water": "arguable", "as defined": "arguable"}
    assert noun.definition is not None
    assert noun.definition.breadth == (("1c", "crossing"),)


def test_noun_of_the_greater_of_two_narrows_an_upper_limit() -> None:
    """Below 40 degC by the greater is narrower than by the air alone; by the lesser it is broader."""
    for function, breadth, base in (
        ("GREATEST", "narrower", "of the air"),
        ("LEAST", "broader", "as defined"),
    ):
        line = f'define "temperature" : {function}(water, air)  "paragraph 13"\n'
        noun = group(read(BODY + line, "EPO"), "temperature")
        assert noun.definition is not None
        assert noun.definition.breadth == (("1c", breadth),)
        assert noun.readings[noun.base].label == base


# ---- words and nouns that nothing else reads


@pytest.mark.parametrize("profile", ["US", "EPO"])
def test_words_that_no_phrase_reads_are_read_as_defined(profile: str) -> None:
    text = BODY.replace("about 3.0 mm", "snugly 3 mm")
    line = 'define "snugly (N)" : ABS(x - N) <= 0.2 mm  "paragraph 12"\n'
    snugly = group(read(text + line, profile), "snugly ...")
    assert labels(snugly) == {"as defined": "presumed"}
    assert read_sheet(Source("leaf.sheet", text))[0] is None


def test_words_among_others_are_read_as_defined() -> None:
    text = BODY.replace("about 3.0 mm", "snugly 3 mm but not more than 3 mm")
    line = 'define "snugly (N)" : ABS(x - N) <= 0.2 mm  "paragraph 12"\n'
    assert labels(group(read(text + line), "snugly ...")) == {"as defined": "presumed"}


def test_noun_that_no_term_declares() -> None:
    text = BODY[: BODY.index("term ")]
    assert labels(group(read(text + WATER), "temperature")) == {"as defined": "presumed"}
    assert read_sheet(Source("leaf.sheet", text))[0] is None


def test_definition_of_a_list() -> None:
    claim = "\n3. The strainer of claim 1, made of at least one of copper and zinc.\n"
    text = f"{BODY}{claim}   | metal : at least one of copper and zinc\n\n"
    line = 'define "at least one of (list M and)" : EVERY(M)  "paragraph 20"\n'
    (found,) = [g for g in read(text + line).groups if g.definition]
    assert labels(found) == {"as defined": "presumed"}


# ---- what settles the same words


CLASHES = {
    "two definitions": (BROAD + NARROW, True),
    "two definitions that say the same": (BROAD + ALIKE, False),
    "two definitions of a noun": (WATER + WATER.replace("water", "air"), True),
    "pin of another meaning": (BROAD + 'read "about" as "rounding only"\n', True),
    "pin of the same meaning": (BROAD + 'read "about" as "fixed share"\n', False),
    "pin with its number": (BROAD + 'read "about" as "context tolerance" with e = 5 %\n', True),
    "pin with the number defined": (BROAD + 'read "about" as "context tolerance" with e = 10 %\n', False),
    "pin that leaves a number open": (BROAD + 'read "about" as "context tolerance"\n', False),
    "pin of the definition": (BROAD + 'read "about" as "as defined"\n', False),
    "pin of a noun": (WATER + 'read "temperature" as "of the air"\n', True),
    "policy": (BROAD + "policy  approximation is rounding only\n", True),
    "policy that says the same": (BROAD + "policy  approximation is a tenth\n", False),
    "policy of another question": (BROAD + "policy  ends are included\n", False),
    "policy on one of several questions": (
        'define "between (L) and (U)" : L < x < U  "paragraph 4"\npolicy  ends are included\n', True
    ),
    "policy on one of several questions, said alike": (
        'define "between (L) and (U)" : L <= x <= U  "paragraph 4"\npolicy  ends are included\n', False
    ),
    "a meaning of its own beside a policy on the ends": (
        'define "between (L) and (U)" : 0.9 * L <= x <= U  "paragraph 4"\npolicy  ends are included\n', False
    ),
}  # fmt: skip


@pytest.mark.parametrize("profile", ["US", "EPO"])
@pytest.mark.parametrize("name", CLASHES)
def test_settled_in_two_ways(name: str, profile: str) -> None:
    lines, wrong = CLASHES[name]
    told = told_of(BODY + lines, profile)
    errors = [d for d in told if d.severity == "error"]
    assert bool(errors) == wrong, [d.message for d in told]
    for error in errors:
        ((also, _),) = error.also
        assert error.message.startswith("two lines settle")
        assert {error.span.text.split()[0], also.text.split()[0]} <= {
            "define", '"about"', '"temperature"', "approximation", "ends",
        }  # fmt: skip
        assert also.start < error.span.start


def test_error_shows_a_thing_and_stops_the_check() -> None:
    sheet = read(BODY + BROAD + NARROW)
    report, status = checked(sheet, Options(), ())
    assert report is None
    assert status == 2
    (error,) = contradictions(prepare(sheet))
    assert error.message == "two lines settle 'about 35 %' in 1a, and differently"
    assert error.cause.startswith("For example open ")


# ---- without it, and as printed


@pytest.mark.parametrize("profile", ["US", "US court", "EPO"])
@pytest.mark.parametrize("line", [BROAD, NARROW, WATER])
def test_taking_it_out_restores_the_findings(profile: str, line: str) -> None:
    """Also in the middle of a session: nothing of a definition stays behind."""

    def findings(text: str) -> str:
        report, _ = checked(read(text, profile), Options(format="json"), ())
        assert report is not None
        data = json.loads(shown(report, "json"))
        return json.dumps(data["findings"], sort_keys=True)

    before = findings(BODY)
    assert findings(BODY + line) != before
    assert findings(BODY) == before


def printed(text: str, profile: str) -> str:
    report, _ = checked(read(text, profile), Options(everything=True), ())
    assert report is not None
    return " ".join(shown(report, "text").split())


def test_report_tells_what_it_does_and_on_what_authority() -> None:
    us = printed(BODY + BROAD, "US")
    assert 'Read as defined in the description, in the claims: "about ..." at "paragraph 12".' in us
    assert "MPEP 2111.01 I to IV [R-01.2024]: read" in us
    assert '"definition of \'about (N)\'" ("paragraph 12"): set aside' in us
    epo = printed(BODY + BROAD, "EPO")
    assert '"about ..." at "paragraph 12", broader than the ordinary reading. So it is presumed' in epo
    assert "EPO Guidelines 2026 F-IV 4.2, citing G 1/24: read" in epo
    narrow = printed(BODY + NARROW, "EPO")
    assert "narrower than the ordinary reading. So the ordinary readings stay as they are" in narrow
    assert '"as defined" (arguable; narrower than the ordinary reading)' in narrow


def test_without_definitions_nothing_is_weighed() -> None:
    sheet, _ = read_sheet(Source("leaf.sheet", BODY))
    assert sheet is not None
    assert weighed(sheet) is sheet
    assert "defined" not in printed(BODY, "EPO")


WAX = """
wax a   share in wt%
wax b   share in vol%

term "wax"
  reading "by weight" : wax a
  reading "by volume" : wax b

1. A polish with a wax in an amount of 0.5 % to 3 %.
   | wax : 0.5 % to 3 %
"""


def test_a_bare_share_goes_with_a_noun_of_several_bases_once_its_basis_is_settled() -> None:
    settled = WAX + '\nread "wax" as "by weight"  "page 2"\n'
    assert not errors(WAX)
    assert not errors(settled)
    assert not errors(settled.replace("0.5 % to 3 %", "0.5 to 3 wt%"))
    assert errors(settled.replace("0.5 % to 3 %", "0.5 to 3 vol%"))
