"""The words alone: how much is found on the twelve sets, each rule by itself, and what is answered once."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.texts import texts_of
from scopecheck.foundations.spans import Source
from scopecheck.report.words_page import words_text
from scopecheck.text.of_sheet import Shown, shown_of_sheet
from scopecheck.text.shown import flags
from tests.forbidden_words import forbidden_in
from tests.test_cli import run
from tests.words import SAME_HAND, SECOND_READER, SETS, Outcome, names, outcome


def told(text: str, profile: str = "US") -> list[tuple[str, int, str]]:
    return [(f.sort, f.claim, f.words) for f in flags(texts_of(pasted(text)), profile)]


def test_most_listed_defects_are_found_and_few_others() -> None:
    outcomes = [outcome(name) for name in names()]
    assert len(outcomes) == 12
    held(outcomes)
    held([outcome(name, SAME_HAND) for name in names(SAME_HAND)])
    held([outcome(name, SECOND_READER) for name in names(SECOND_READER)])


def held(outcomes: list[Outcome]) -> None:
    found, missed = (sum(len(getattr(o, key)) for o in outcomes) for key in ("found", "missed"))
    assert found >= 85 * (found + missed) // 100
    assert sum(len(o.false) for o in outcomes) <= 2 * len(outcomes)


LID = "1. A jar comprising a lid, a spring and two hooks on the lid.\n"


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("2. The jar of claim 1, wherein the clip is round.", ("no earlier", 2, "the clip")),
        ("2. The jar of claim 1, wherein the lids are round.", ("number", 2, "the lids")),
        ("2. The jar of claim 1, wherein the hook is round.", ("several earlier", 2, "the hook")),
        ("2. The jar of claim 1, further comprising a spring.", ("two things", 2, "a spring")),
        ("2. A method according to claim 1, in which the lid is round.",
         ("category", 2, "A method according to claim 1")),
        ("2. The jar of claim 1 or 3.\n3. The jar of claim 2.", ("reference form", 2, "claim 1 or 3")),
        ("2. The jar of claim 1, wherein the lid is relatively thin.", ("degree", 2, "relatively thin")),
        ("2. The jar of claim 1, wherein the user lifts the lid.", ("user act", 2, "the user lifts the lid")),
        ("2. The jar of claim 1, wherein the lid is, for example, round.", ("example", 2, "for example")),
        ("2. The jar of claim 1, the lid being 2 to 9 mm, preferably 3 to 4 mm thick.",
         ("inner range", 2, "2 to 9 mm, preferably 3 to 4 mm")),
        ("2. The jar of claim 1, the lid being 5 mm or greater, preferably 6 mm or greater.",
         ("inner range", 2, "5 mm or greater, preferably 6 mm or greater")),
        ("2. The jar of claim 1, the lid being of tin and zinc or lead.",
         ("grouping", 2, "tin and zinc or lead")),
        ("2. The jar of claim 1, as shown in Figure 3.", ("drawings", 2, "as shown in Figure 3")),
        ("2. The jar of claim 1, as illustrated in the accompanying drawings.",
         ("drawings", 2, "as illustrated in the accompanying drawings")),
        ("2. The jar of claim 1, with an arm of 4 to 6 mm and a height of preferably 8 mm.",
         ("example", 2, "preferably")),
        ("2. The jar of claim 1, wherein a kitchen porter cook lifts up the lid of the jar.",
         ("user act", 2, "a kitchen porter cook lifts up the lid")),
        ("2. The jar of claim 1, wherein the lid is shut in the usual manner.",
         ("degree", 2, "usual manner")),
        ("2. The jar of claim 1, the lid consisting of tin, including a bolt.",
         ("transition", 2, "consisting of tin, including")),
        ("2. A jar handle comprising tin.\n3. The jar of claim 2.", ("category", 3, "The jar of claim 2")),
        ("2. A jar, red.", ("transition", 2, "A jar, red.")),
        ("2. A jar rack, a hook and a controller for the hook.",
         ("transition", 2, "A jar rack, a hook and a controller for the hook")),
        ("2. The jar of claim 1, wherein the lid is warm.", ("degree", 2, "warm")),
        ("2. The jar of claim 1, wherein the hooks lie close to the lid.", ("degree", 2, "close")),
        ("2. The jar of claim 1, with slots, wherein the slot is round.", ("several earlier", 2, "the slot")),
        ("2. The jar of claim 1, the lid being less than 9 mm, preferably less than 5 mm thick.",
         ("inner range", 2, "less than 9 mm, preferably less than 5 mm")),
        ("2. The jar of claim 1, the lid comprising 20 to 60 % of a wax, and 5 % by weight of tin.",
         ("share", 2, "20 to 60 %")),
        ("2. The jar of claim 1, open to at least 40 per cent.", ("share", 2, "at least 40 per cent")),
    ],
)  # fmt: skip
def test_each_rule(more: str, expected: tuple[str, int, str]) -> None:
    assert told(LID + more) == [expected]


def test_known_things_before_their_verb_and_what_is_left_of_a_whole_are_no_news() -> None:
    more = "2. The jar of claim 1, wherein said hooks cross, and the lid is half tin and the balance zinc."
    assert told(LID + more) == []
    crossing = "2. The jar of claim 1, wherein said clips cross."
    assert told(LID + crossing) == [("no earlier", 2, "said clips cross")]


def test_lines_in_the_margin_are_no_words_of_the_claim() -> None:
    sheet = LID + "\n2. The jar of claim 1, with the clip.\n   | not restated : the clip, in the margin\n"
    page = words_text("jar.sheet", 2, shown_of_sheet(Source("jar.sheet", sheet))[0], markdown=False)
    assert "the clip" in page
    assert "|" not in page


@pytest.mark.parametrize(
    "more",
    [
        "2. The jar of claim 1, wherein the top of the lid is round.",
        "2. The jar of claim 1, wherein the hooks are round and each hook carries a ring.",
        "2. The jar of claim 1, wherein the lid can be lifted by the user.",
        "2. The jar of claim 1, wherein the lid is 3 mm thick.",
        "2. The jar of claim 1, a first pane and a second pane spaced apart from the first pane, "
        "wherein the panes are round.",
        "2. The jar of claim 1, wherein the lid has a thickness of about 3 mm.",
        "2. A method of filling the jar of claim 1, comprising opening the lid.",
        "2. A method for filling a jar with a paste, comprising heating a paste.",
        "2. The jar of claim 1, wherein the lid fits the thumb of the user.",
        "2. The jar of claim 1, wherein the lid is tin, zinc or a mixture of tin and zinc.",
        "2. A method of filling the jar of claim 1, comprising slicing a loaf and removing the slices.",
        "2. A set of two jars according to claim 1, wherein the lids differ.",
        "2. The jar of claim 1, further comprising an encapsulated oil, the capsules being round.",
        "2. The jar of claim 1, wherein the hooks have a bore and the bores differ.",
        "2. The jar of claim 1, with charging points, wherein the charging points when wet are red.",
        "2. A method of filling the jar of claim 1, comprising drying it, wherein the drying begins at noon.",
        "2. The jar of claim 1, further comprising a humidity sensor, wherein the humidity is 5 %.",
        "2. The jar of claim 1, wherein the lid turns at a speed and the speed is measured.",
        "2. The jar of claim 1, wherein the lid is of tin, zinc or lead and the spring is of steel.",
        "2. The jar of claim 1, the lid holding 5 wt% of tin, 6 % (w/w) of zinc, 7 percent by mass of it.",
        "2. The jar of claim 1, the lid holding 5 % of tin, based on the total weight of the jar.",
        "2. The jar of claim 1, the lid taking up 30 % of the area and 25 % of a height.",
        "2. The jar of claim 1, the lid being 10 % thicker than the spring, at a relative humidity of 40 %.",
        "2. The jar of claim 1, wherein the height is lowered by at least 10 %.",
        "2. The jar of claim 1, with a fast mode and a quiet setting, wherein the number of hooks is even.",
        "2. The jar of claim 1, wherein the number of hooks is evenly divisible by three, or divides"
        " evenly by it.",
        "2. The jar of claim 1, wherein the lid has the shape of a regular hexagon.",
        "2. The jar of claim 1, wherein the lid opens no earlier than the spring responds.",
    ],
)
def test_what_only_looks_like_a_defect(more: str) -> None:
    assert told(LID + more) == []


def test_what_is_told_fits() -> None:
    def forms(text: str) -> list[str]:
        return [f.form for f in flags(texts_of(pasted(text)))]

    value = "2. The jar of claim 1, the lid being 2 to 9 mm, for instance 4 mm wide."
    assert forms(LID + value) == ["inner_value"]
    nearly = "1. A paste consisting essentially of wax.\n2. The paste of claim 1, further comprising oil."
    assert forms(nearly) == ["below_essentially"]


def test_forms_of_reference_by_profile() -> None:
    text = LID + "2. The jar of claim 1.\n3. The jar of claim 1 or 2.\n4. The jar of any of claims 1 to 3."
    assert told(text) == [("reference form", 4, "claims 1 to 3")]
    assert told(text, "EPO") == []
    several = LID + "2. The jar of claim 1.\n3. The jar of claims 1-2.\n4. The jar of one of claims 1 and 2."
    assert told(several) == [("reference form", 3, "claims 1-2")]


SHEET = """\
title  Jar
profile  US

1. A jar comprising a lid, wherein the cover is round and the rim is thin.
   | not restated : and
"""


def of(text: str) -> Shown:
    return shown_of_sheet(Source("jar.sheet", text))[0]


def test_claims_that_name_several_are_told_in_the_plural(tmp_path: Path) -> None:
    file = tmp_path / "jar.txt"
    middle = "2. The jar of claim 1.\n3. The jar of claim 1 or 2.\n4. The jar of claim 1 or 2.\n"
    file.write_text(f"{LID}{middle}5. The jar of claim 3 or 4, wherein the lid is round.\n", "utf-8")
    page = " ".join(run("words", str(file)).stdout.split())
    assert "of which claims 3 and 4 already name several" in page


def test_what_is_answered_once_stays_answered() -> None:
    assert [f.words for f in of(SHEET).open] == ["the cover", "the rim", "thin"]
    lines = (
        SHEET + '\nalike     lid, cover\ninherent  rim\nanswered "thin" in 1 : under 1 mm   "paragraph 9"\n'
    )
    shown = of(lines)
    assert shown.open == ()
    assert [a.reason for _, a in shown.answered] == ["paragraph 9"]
    assert [a.words for a in of(lines.replace("is thin", "is flat")).idle] == ["thin"]


def test_the_command(tmp_path: Path) -> None:
    file = tmp_path / "jar.sheet"
    file.write_text(SHEET, "utf-8")
    result = run("words", str(file))
    assert result.exit_code == 1
    assert "no earlier 'cover' found in claim 1" in result.stdout
    file.write_text(SHEET + '\nanswered "the rim" : the edge\n', "utf-8")
    result = run("words", str(file))
    assert result.exit_code == 2
    assert "an answer without its reason" in result.stderr


@pytest.mark.parametrize("name", names())
def test_no_page_pronounces_on_law(name: str) -> None:
    text = (SETS / f"{name}.txt").read_text("utf-8")
    shown = Shown(flags(texts_of(pasted(text))))
    own = [" ".join(text.split()), *(f.words for f in shown.open)]
    assert forbidden_in(words_text(name, 1, shown, False), own) == []


@pytest.mark.parametrize(
    ("line", "adds"),
    [
        ("which contains 4 wt% or more of copper", False),
        ("containing 4 wt% of zinc", True),
        ("further comprising a dye", True),
    ],
)
def test_what_a_closed_claim_has_already_adds_nothing_to_it(line: str, adds: bool) -> None:
    text = f"1. A tablet consisting of 3 to 5 wt% of copper and tin.\n2. The tablet of claim 1, {line}.\n"
    assert [(sort, n) for sort, n, _ in told(text) if sort == "transition"] == [("transition", 2)] * adds


def test_a_method_of_treating_a_closed_thing_opens_nothing() -> None:
    thing = "1. A clamp consisting of two plates and a spring.\n\n"
    method = "2. A method of coating the clamp of claim 1, comprising baking the clamp for an hour.\n"
    assert "transition" not in {f.sort for f in flags(texts_of(pasted(thing + method)))}
    opened = "2. The clamp of claim 1, comprising a lid.\n"
    assert "transition" in {f.sort for f in flags(texts_of(pasted(thing + opened)))}


def test_what_makes_up_the_balance_is_brought_in_by_it() -> None:
    syrup = "1. A syrup comprising 60 wt% of sucrose, and the balance water.\n\n"
    told = flags(texts_of(pasted(syrup + "2. The syrup of claim 1, wherein the water is soft.\n")))
    assert "no earlier" not in {f.sort for f in told}
    being = "1. A syrup comprising 60 wt% of sucrose, the balance being water.\n"
    assert "no earlier" not in {f.sort for f in flags(texts_of(pasted(being)))}


def test_the_plurality_of_things_is_the_things() -> None:
    text = "1. A duct with a plurality of vanes.\n2. The duct of claim 1, the plurality of {0} being {1}.\n"
    assert not told(text.format("vanes", "fixed"))
    assert [(sort, claim) for sort, claim, _ in told(text.format("hooks", "fixed"))] == [("no earlier", 2)]


def test_a_basis_said_once_before_a_list_holds_for_each_percentage_of_it() -> None:
    said = "1. A composition comprising{}: 40 to 70 % of a wax; and at most 5 % of an oil.\n"
    assert "share" in {sort for sort, _, _ in told(said.format(""))}
    assert "share" not in {sort for sort, _, _ in told(said.format(", by weight"))}


@pytest.mark.parametrize(
    "text",
    [
        "A brass comprising, by weight, from 3 to 5 % tin",
        "A brass consisting essentially of, by weight, 3 to 5 % tin",
        "A brass comprising (by weight) 3 to 5 % tin",
        "A brass containing, by volume, tin 3 to 5 %",
        "A brass with the following components (by mass): 3 to 5 % tin",
        "A brass comprising, in percent by weight, 3 to 5 % tin",
        "A brass comprising 3 to 5 % tin, all percentages in this claim being meant on a weight basis",
        "A brass comprising 3 to 5 % tin, where % means % by weight",
        "A brass comprising 3 to 5 % tin, wherein the percentages are weight percentages",
        "A grate comprising, by area, 3 to 5 % slots",
    ],
)
def test_a_basis_said_once_is_heard_wherever_it_stands(text: str) -> None:
    assert "share" not in {sort for sort, _, _ in told(f"1. {text}.\n")}


@pytest.mark.parametrize(
    "text",
    [
        "A brass comprising tin and lead in a ratio by weight of 2:1, and 3 to 5 % zinc",
        "A brass comprising 5 % by weight of tin, and 40 % zinc",
        "A lamp dimmed to 40 %, comprising 3 g of tin by weight",
    ],
)
def test_a_basis_of_one_amount_is_none_of_the_others(text: str) -> None:
    assert "share" in {sort for sort, _, _ in told(f"1. {text}.\n")}


def told_why(text: str) -> list[tuple[str, str, object]]:
    found = flags(texts_of(pasted(text)))
    keys = ("elsewhere", "named")
    return [(f.words, f.form, next((f.values[k] for k in keys if k in f.values), None)) for f in found]


@pytest.mark.parametrize(
    ("elsewhere", "form", "claims"),
    [
        ("which holds its full bobbin", "none", None),
        ("with a bobbin of tin", "none", None),
        ("having a full bobbin, the rail being of tin", "none", None),
        ("with an idle bobbin on a bar", "elsewhere", (3,)),
        ("with two idle bobbins", "elsewhere", (3,)),
    ],
)
def test_another_claim_brings_in_what_has_all_the_words(elsewhere: str, form: str, claims: object) -> None:
    loom = "1. A loom with a rail.\n2. The loom of claim 1, in which the idle bobbin turns.\n"
    assert ("the idle bobbin", form, claims) in told_why(f"{loom}3. The loom of claim 1, {elsewhere}.")


def test_an_ordinal_is_brought_in_by_the_same_one_or_by_several() -> None:
    loom = "1. A loom with a bed.\n2. The loom of claim 1, in which the second beam turns.\n"
    loom += "3. The loom of claim 1, with {}.\n"
    assert ("the second beam", "none", None) in told_why(loom.format("a first beam"))
    assert ("the second beam", "elsewhere", (3,)) in told_why(loom.format("a second beam"))
    assert ("the second beam", "elsewhere", (3,)) in told_why(loom.format("two beams"))


@pytest.mark.parametrize("sort", ["a power of two", "an even multiple of 3", "a factor of 10"])
def test_a_sort_of_numbers_is_no_thing_that_is_brought_in(sort: str) -> None:
    head = sort.split()[-3]
    text = f"1. A loom with a bed.\n2. The loom of claim 1, its picks being {sort}.\n"
    text += f"3. The loom of claim 1, in which the peak {head} is steady.\n"
    assert (f"the peak {head}", "none", None) in told_why(text)


def test_a_power_in_watts_is_one() -> None:
    text = "1. A lamp with a power of 2 W.\n2. The lamp of claim 1, in which the power is steady.\n"
    assert told(text) == []


def test_what_is_measured_of_a_known_thing_needs_no_mention() -> None:
    text = "1. A cell with a positive electrode, in which the {} electrode capacity is 3 Ah.\n"
    assert told(text.format("positive")) == []
    assert told_why(text.format("negative")) == [("the negative electrode capacity", "none", None)]


def test_every_claim_that_names_several_is_told() -> None:
    text = LID + "2. The jar of claim 1.\n" + "".join(f"{n}. The jar of claim 1 or 2.\n" for n in range(3, 8))
    assert told_why(text + "8. The jar of any of claims 1 to 7.\n") == [
        ("claims 1 to 7", "multiples", (3, 4, 5, 6, 7))
    ]


@pytest.mark.parametrize(
    "term",
    [
        "less than 100 ppm of heavy metals",
        "a heavy metal content of 3 ppm",
        "a chain of high density polyethylene",
        "a rod of low alloy steel",
        "two heavy chains",
        "a standard gage rail",
        "a soft iron core and a normally closed valve",
        "very long chain fatty acids",
        "a plate with a well, the well being round",
    ],
)
def test_a_fixed_term_of_a_trade_is_no_degree(term: str) -> None:
    assert "degree" not in {sort for sort, _, _ in told(f"1. A kit comprising {term}.")}


@pytest.mark.parametrize(
    "words",
    ["a heavy metal lid", "relatively heavy metals", "a strong base", "a thin film of oil", "a heavy lid"],
)
def test_words_like_a_fixed_term_stay_degrees(words: str) -> None:
    assert "degree" in {sort for sort, _, _ in told(f"1. A kit comprising {words}.")}


@pytest.mark.parametrize(
    "more",
    [
        "with the proviso that the lid is round",
        "wherein three of the last five bowls have a lid",
        "wherein the lid satisfies formula (A)",
        "wherein the spring assigns priority to a hook",
    ],
)
def test_what_is_no_noun_needs_no_mention(more: str) -> None:
    assert "no earlier" not in {sort for sort, _, _ in told(f"{LID}2. The jar of claim 1, {more}.\n")}


@pytest.mark.parametrize("more", ["or of claim", "or\n   according to claim", "or as claimed in claim", "or"])
def test_claims_named_with_the_words_of_a_reference_again_are_one_reference(more: str) -> None:
    text = (
        LID + f"2. The jar of claim 1, with a rim.\n3. The jar of claim 1.\n4. The jar of claim 2 {more} 3.\n"
    )
    text += "5. The jar of claim 4 or 2.\n"
    assert [(sort, number) for sort, number, _ in told(text)] == [("reference form", 5)]


def test_according_to_is_no_range_of_claims() -> None:
    text = LID + "2. The jar of claim 1.\n3. The jar of claim 1, with a rim.\n"
    text += "4. The jar of claim 3.\n"
    text += "5. The jar according to claim 3 or according to claim 4, the rim being round.\n"
    assert told(text) == []


def test_what_is_preferred_beyond_the_range_before_it_is_told() -> None:
    forms = {
        words: [f.form for f in flags(texts_of(pasted(f"1. A jar with a lid of {words}.\n")), "US")]
        for words in ("5 to 10 mm, preferably 2 to 8 mm", "more than 20 mm, preferably more than 10 mm",
                      "5 to 10 mm, preferably 6 to 8 mm", "at least 5 mm, preferably at most 9 mm")
    }  # fmt: skip
    assert list(forms.values()) == [["inner_wider"], ["inner_wider"], ["inner_range"], ["inner_range"]]


def test_a_noun_that_comes_only_behind_is_told_so_and_a_verb_is_no_part_of_one() -> None:
    text = (
        "1. A pump having a counter, which opens when the inspiratory flow rises and closes at an"
        " inspiratory flow of 2 L/min.\n2. The pump of claim 1, wherein the counter shows yellow.\n"
    )
    found = [f for f in flags(texts_of(pasted(text)), "US") if f.sort == "no earlier"]
    assert [(f.form, f.words) for f in found] == [("none_but_later", "the inspiratory flow")]


@pytest.mark.parametrize(
    ("claim", "expected"),
    [
        (
            "A device comprising an emitter with a transmit power of 5 W, wherein the received power is 2 W.",
            [("two names", "the received power")],
        ),
        ("A device comprising an emitter emitting a beam power, wherein the emitted power is 2 W.", []),
        ("A device comprising a supply with a power, wherein the received power is 2 W.", []),
        ("A device wherein a bias voltage is applied to an anode, and the applied voltage is 5 V.", []),
        ("A device with a supply voltage, wherein the predetermined voltage is 5 V.", []),
        ("A pump with motor oil, wherein the cooled oil is brown.", []),
        ("A line with an error rate of substantially less than 1 ppm.", [("degree", "substantially less")]),
        ("A part with a gap of well below 5 mm.", [("degree", "well below")]),
        ("A part with a gap considerably greater than 5 mm.", [("degree", "considerably greater")]),
        ("A part with a gap of less than 5 mm.", []),
        ("A part with a gap of approximately 5 mm or less.", []),
        ("A part with a gap much wider than a rim.", []),
        ("A tablet, wherein the tablet releases no more than 3 mg of a dye, and the release is linear.", []),
        ("A tablet, wherein the tablet releases at least 30 mg of a drug, and the release is linear.", []),
        ("A tablet, wherein the release is linear.", [("no earlier", "the release")]),
        ("An oxide of the general formula LiCoO2, wherein the formula is neutral.", []),
        ("A method comprising the following steps: mixing; and drying.", []),
        ("A pack of cells, wherein the highest and the lowest of two voltages differ by 5 mV.", []),
        ("A pack of cells, wherein the interest is 5 mV.", [("no earlier", "the interest")]),
        (
            "A core comprising 20 % by weight, based on the weight of the core, of a wax, and 2 % of an oil.",
            [("share", "2 %")],
        ),
        ("A core comprising 20 % of a wax, and 2 % of an oil, based on the weight of the core.", []),
        ("A core comprising, based on the weight of the core, 20 % of a wax, and 2 % of an oil.", []),
        (
            "A core comprising 2 % of an oil, 3 % of a wax, and having a friability of less than 1 %.",
            [("share", "2 %"), ("share", "less than 1 %")],
        ),
    ],
)  # fmt: skip
def test_hedges_and_other_wholes_are_told_and_nouns_told_by_their_own_words_are_not(
    claim: str, expected: list[tuple[str, str]]
) -> None:
    assert [(sort, words) for sort, _, words in told(f"1. {claim}\n")] == expected


def test_so_many_parts_per_hundred_are_no_basis_of_the_shares_and_a_word_with_its_measure_is_no_degree() -> (
    None
):
    text = (
        "1. A pane comprising a film, the film comprising an acetal and a softener in an amount of 60 to 85"
        " parts by weight per 100 parts by weight of the acetal, wherein the pane is wider than it is high.\n"
        "2. The pane of claim 1, wherein the film contains 25 to 40 % of a resin and has a high adhesion to a"
        " plate, corresponding to a pull value of from 4 to 8.\n"
        "3. The pane of claim 1, wherein the film has a high adhesion.\n"
    )
    found = told(text)
    assert ("share", 2, "25 to 40 %") in found
    assert [(number, words) for sort, number, words in found if sort == "degree"] == [(3, "high adhesion")]


def test_parts_by_weight_tell_of_no_per_cent_what_it_is_of() -> None:
    paper = "1. A paper comprising a filler{parts}, wherein the filler comprises at least 70% chalk, and"
    paper += " the paper has a moisture content {limit}."
    both = [("share", 1, "at least 70%"), ("share", 1, "not exceeding 6%")]
    assert told(paper.format(parts="", limit="not exceeding 6%")) == both
    per = " and, per 100 parts by weight of it, 6 to 14 parts by weight of a binder"
    assert told(paper.format(parts=per, limit="not exceeding 6%")) == both
    assert told(paper.format(parts=per, limit="of 6%"))[-1] == ("share", 1, "6%")
    basis = ", all percentages being by weight"
    assert told(paper.format(parts=per, limit=f"of 6%{basis}")) == []
    two = "1. A paste comprising a resin, having a wax content of 5 % and a dye content of 3 %."
    assert told(two) == [("share", 1, "5 %")]
