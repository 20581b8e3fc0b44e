"""Steps in a sheet: what is read, what is told of mistakes, and how a thing with steps is shown."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.core.construction import base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Read
from scopecheck.core.reference import stated_values
from scopecheck.foundations.spans import Source
from scopecheck.report.things import thing_text
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate, meets
from tests.reported import one_line, text_of
from tests.sheets import all_readings, errors, presumed_in_symbols, presumed_labels, sheet

REED = """
soaking        step in min
  temperature  temperature in degC
rinsing        step in min, may be left out
delivery       event in h
{declared}

1. A method comprising soaking reed for at least 10 min and rinsing it.
   | {line}

{cases}
"""


def reed(line: str = "DURATION(soaking) >= 10 min", cases: str = "", declared: str = "") -> str:
    return REED.format(line=line, cases=cases, declared=declared)


def inside(facts: str) -> str:
    return f"inside\n  sample : {facts}"


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        (reed("START(soakin) >= 1 min"), "no step is declared as 'soakin'", "did you mean 'soaking'?"),
        (reed("START(warping) >= 1 min"), "no step is declared as 'warping'", "warping  step in min"),
        (reed("temperature of soaking >= 30 degC"), "at which moment of soaking?", "lowest temperature of"),
        (reed("temperature >= 30 degC"), "'temperature': at which moment of soaking?", "at the start of"),
        (reed("soaking >= 30 min"), "'soaking' is a step; alone it has no value", "DURATION(soaking)"),
        (reed("rinsing = 5 min"), "'rinsing' is a step; alone it has no time", "duration of rinsing = 5 min"),
        (reed("DONE(soaking) >= 1"), "DONE(...) is a condition, not a value", ""),
        (reed("ORDER(soaking) OR DONE(rinsing)"), "ORDER of 1 steps", "ORDER(soaking, rinsing)"),
        (reed("START(soaking) >= 10"), "10 stands beside a quantity in min and has no unit", "write 10 min"),
        (reed("START(soaking) >= 10 mm"), "time", ""),
        (reed(cases=inside("soaking from 25 to 10 min")), "soaking ends before it starts", "check their"),
        (reed(cases="inside  soaking\n  sample  25 min to 10 min"), "soaking ends before it starts", "event"),
        (reed(cases=inside("START(soaking) = 25 min, END(soaking) = 10 min")), "ends before it starts", ""),
        (reed(cases=inside("soaking not done")), "not declared as a step that may be left out", "step in"),
        (reed(cases=inside("NOT DONE(soaking)")), "declared as a step that may be left out", "step in"),
        (reed(cases="inside  soaking\n  sample  10 min"), "how long, or when?", "for 10 min"),
        (reed(cases="inside  soaking\n  sample  10 to 12 mm"), "12 mm is no time", "in min"),
        (reed(cases="inside  soaking\n  sample  10 to 12"), "has no unit", "write 12 min"),
        (reed(cases="inside  delivery\n  sample  10 to 12 h"), "delivery is an event", "one time"),
        (reed(cases="inside  temperature of soaking\n  sample  10 degC"), "at which moment of soaking?", ""),
        (reed(declared="call  event in min, may pause"), "an event takes no time", "step in min, may pause"),
        (reed("total pause of rinsing > 1 min"), "'total pause of rinsing' is not declared", ""),
        (
            reed("rinsing : intermittently").replace("rinsing it", "rinsing it intermittently"),
            "no reading of 'intermittently' can be tried here",
            "",
        ),
        (reed(declared="wet  step in mm"), "mm is no unit of time", "step in s, in min"),
        (reed(declared="wet  step in min, <= 60 min"), "'<= 60 min' is not understood of a step", "given"),
        (reed(declared="wet  step in min\n  layers  count"), "is no measured quantity", "left margin"),
        (reed(declared="wet  step in min\n  dry  step in min"), "a step below a step", "left margin"),
        (reed(declared="soaking  step in min"), "'soaking' is declared twice", ""),
        (reed(declared="soaking  length in mm"), "'soaking' is declared twice", ""),
        (
            reed("rinsing : after rinsing").replace("and rinsing it", "after rinsing"),
            "rinsing beside itself",
            "put the other step left of the colon",
        ),
        (
            reed("soaking : after rinsin").replace("and rinsing it", "after rinsin"),
            "no step is declared as 'rinsin'",
            "did you mean 'rinsing'?",
        ),
        (reed("START(soaking) <= 1 month"), "'1 month' has no fixed length", "30 day"),
        (reed(cases=inside("START(soaking) = 30 day + 1 month")), "'1 month' has no fixed length", "30 day"),
    ],
)
def test_mistakes_are_told(text: str, message: str, help: str) -> None:
    made, found = read_sheet(Source("test", text))
    assert made is None
    assert any(message in d.message and help in d.help for d in found), [(d.message, d.help) for d in found]


def met(line: str, facts: str) -> bool | None:
    """Whether a thing meets a line, all that is not stated being 0; None: it has no value there."""
    made = sheet(reed(line, inside(facts)))
    zero = {d.name: Fraction(0) for d in made.declarations}
    article = {**zero, **stated_values(made, made.cases[0], exact=True)}
    return evaluate(made.claims[0].limitations[0].formula, article, base_construction(made))


@pytest.mark.parametrize(
    ("line", "facts", "answer"),
    [
        ("DURATION(soaking) >= 10 min", "soaking from 0 to 10 min", True),
        ("END(soaking) <= START(rinsing)", "soaking from 0 to 10 min, rinsing from 10 to 12 min", True),
        ("END(soaking) < START(rinsing)", "soaking from 0 to 10 min, rinsing from 10 to 12 min", False),
        ("END(soaking) < START(rinsing)", "soaking from 0 to 10 min, rinsing not done", None),
        ("NOT END(soaking) < START(rinsing)", "soaking from 0 to 10 min, rinsing not done", None),
        ("DONE(rinsing)", "rinsing not done", False),
        ("DONE(rinsing)", "rinsing from 1 to 2 min", True),
        ("IF DONE(rinsing) THEN DURATION(rinsing) >= 5 min", "rinsing not done", True),
        ("ORDER(soaking, rinsing)", "soaking from 0 to 10 min, rinsing not done", True),
        ("ORDER(soaking, rinsing)", "soaking from 0 to 10 min, rinsing from 9 to 12 min", False),
        ("BEGUN(soaking, rinsing)", "soaking from 0 to 10 min, rinsing from 9 to 12 min", True),
        ("BEGUN(soaking, rinsing)", "soaking from 0 to 10 min, rinsing not done", True),
        ("BEGUN(soaking, rinsing)", "soaking from 0 to 10 min, rinsing from 0 to 12 min", False),
        ("DURATION(delivery) = 0 min", "delivery at 1 h", True),
        ("END(soaking) <= START(delivery)", "soaking from 0 to 60 min, delivery at 1 h", True),
    ],
)
def test_what_symbols_say_of_steps(line: str, facts: str, answer: bool | None) -> None:
    assert met(line, facts) is answer


@pytest.mark.parametrize(
    ("delivery", "answer"),
    [("at 10 min", False), ("at 15 min", False), ("at 20 min", True), ("at 9 min", True)],
)
def test_nothing_begins_between_a_step_and_the_next(delivery: str, answer: bool) -> None:
    facts = f"soaking from 0 to 10 min, rinsing from 20 to 30 min, delivery {delivery}"
    assert met("NEXT(soaking, rinsing)", facts) is answer


def test_cells_and_facts_of_a_row_say_the_same() -> None:
    table = "inside  soaking  rinsing  delivery\n  sample  10 to 25 min  not done  2 h"
    cells = sheet(reed(cases=table)).cases[0]
    facts = sheet(reed(cases=inside("soaking from 10 to 25 min, rinsing not done, delivery at 2 h"))).cases[0]
    assert cells.facts == facts.facts
    assert cells.stated == facts.stated == (
        "start of soaking", "duration of soaking", "rinsing", "time of delivery",
    )  # fmt: skip
    assert cells.form == "thing"


def test_a_start_and_an_end_in_symbols_are_one_thing() -> None:
    (document,) = sheet(reed(cases="document D1 : START(soaking) = 5 min, END(soaking) = 20 min")).cases
    assert document.form == "example"
    assert "duration of soaking" in document.stated
    assert "rinsing" in document.silent


def test_a_document_that_says_how_long_says_nothing_of_when() -> None:
    made = sheet(reed("ORDER(soaking, rinsing)", "document D1 : soaking for 20 min, rinsing for 5 min"))
    assert "start of soaking" in made.cases[0].silent
    assert not [f for f in ask_all(made).findings if f.question == "outside met"]
    said = sheet(reed("ORDER(soaking, rinsing)", "document D1 : soaking 0 to 20 min, rinsing 20 to 25 min"))
    assert [f for f in ask_all(said).findings if f.case == "D1"]


def test_a_thing_is_shown_by_when_its_steps_are_done() -> None:
    stated = inside("soaking from 10 to 25 min, rinsing from 20 to 30 min")
    made = sheet(reed("END(soaking) <= START(rinsing)", stated))
    (found,) = [f for f in ask_all(made).findings if f.question == "inside lost"]
    text = thing_text(made, found).replace("\u00a0", " ")
    assert "soaking from 10 min to 25 min" in text
    assert "rinsing from 20 min to 30 min" in text


def test_what_is_measured_of_a_step_that_is_not_done_is_not_shown() -> None:
    made = sheet(reed("DURATION(rinsing) >= 5 min", inside("rinsing not done")))
    (found,) = [f for f in ask_all(made).findings if f.question == "inside lost"]
    assert "rinsing not done" in thing_text(made, found)
    assert not [n for n in found.thing.names if n in made.steps[1].numbers]
    assert found.witness is not None
    assert found.witness.article["rinsing"] == "not done"


@pytest.mark.parametrize(
    "words",
    [
        "before rinsing or after the drying",
        "either before rinsing or after the drying",
        "until drying is complete",
        "once the rinsing is over",
        "not later than 24 hours after the end of drying",
        "from 2 to 5 days after the delivery",
        "at least one hour after drying",
        "carried out simultaneously with said drying step",
        "lasting for at least ten minutes",
        "after rinsing but before drying",
        "started as soon as the drying is complete",
        "begins 1 to 3 days after delivery",
        "in response to delivery",
    ],
)
def test_ordinary_words_of_processes_are_read(words: str) -> None:
    text = reed(f"soaking : {words}", declared="drying  step in min")
    made = sheet(text.replace("and rinsing it", f"and rinsing it, {words}"))
    assert made.groups


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("20 to 30 degC", True),
        ("within 5 degC of 30 degC", True),
        ("20 to 30 degC or 50 to 60 degC", False),
        ("other than 30 degC", False),
    ],
)
def test_a_limit_at_all_times_is_told_from_the_lowest_and_the_highest_if_it_leaves_no_gap(
    words: str, told: bool
) -> None:
    """Between 25 and 55 degC the temperature passes 40 degC, so the ends alone do not tell."""
    made = sheet(reed(f"temperature of soaking : {words}").replace("rinsing it", f"rinsing it at {words}"))
    (group,) = [g for g in made.groups if "at its end" in {r.label for r in g.readings}]
    assert ("at all times" in {r.label for r in group.readings}) is told
    assert ("at all times" in dict(group.not_tried)) is not told


@pytest.mark.parametrize(
    "words",
    [
        "within ±2 % of a rated force",
        "kept within ±2 % of a rated force",
        "at most 102 % of a rated force",
        "between 0.98 and 1.02 times a rated force",
        "not more than 2 % above a rated force",
        "98 to 102 % of a rated force",
        "about 20 kN",
        "kept at about 20 kN",
        "20 kN ± 2 %",
    ],
)
def test_what_stands_still_leaves_no_gap_in_what_moves(words: str) -> None:
    """A width in per cent, of a number or of a quantity that is no step's, does not change in its course."""
    declared = "holding  step in s\n  force  force in kN\nrated force  force in kN\n"
    line = f"   | force of holding : {words}\n"
    made = sheet(f"{declared}\n1. A method comprising holding, the force being {words}.\n{line}")
    (group,) = [g for g in made.groups if "at all times" in {r.label for r in g.readings}]
    label = next(i for i, r in enumerate(group.readings) if r.label == "at all times")
    (x,) = made.claims[0].limitations
    k = base_construction(made).with_reading(group.index, label)
    own = {m: f"{m} force of holding" for m in ("lowest", "highest", "average")}
    met = []
    for lowest, highest in ((20, 20), (10, 20), (20, 30)):
        thing = {d.name: Fraction(20000) for d in made.declarations if isinstance(d, NumberDecl)}
        thing |= {own["lowest"]: Fraction(1000 * lowest), own["highest"]: Fraction(1000 * highest)}
        met.append(meets(x.formula, thing, k))
    assert met == [True, words.startswith("at most"), False]


@pytest.mark.parametrize(
    "cases",
    [
        "inside  temperature throughout soaking\n  sample  35 degC",
        "inside\n  sample : temperature throughout soaking = 35 degC",
    ],
)
def test_a_column_or_a_fact_gives_one_value_for_the_whole_of_a_step(cases: str) -> None:
    made = sheet(reed(cases=cases))
    point = stated_values(made, made.cases[0], exact=True)
    moments = made.steps[0].moments("temperature").values()
    assert {point[name] for name in moments} == {Fraction(30815, 100)}


def test_words_of_time_that_no_line_takes_up_are_told() -> None:
    made = sheet(reed().replace("and rinsing it", "and then rinsing it before delivery"))
    assert [u.words for u in made.unrestated if u.sort == "order word"] == ["then", "before"]
    untimed = sheet("gap  length in mm\n\n1. A thing made before delivery with a gap.\n   | gap >= 1 mm\n")
    assert not [u for u in untimed.unrestated if u.sort == "order word"]


@pytest.mark.parametrize(
    ("claimed", "method"),
    [("method", True), ("process for tanning", True), ("use of a vat", True), ("system", False),
     ("tanning apparatus", False), ("method of running a machine", True)],
)  # fmt: skip
def test_a_condition_is_read_by_what_is_claimed(claimed: str, method: bool) -> None:
    words = "if the level is at most 5 mm"
    text = reed(f"rinsing, level : {words}", declared="level  length in mm")
    text = text.replace("A method comprising", f"A {claimed}, comprising")
    text = text.replace("rinsing it", f"it {words}")
    made, told = read_sheet(Source("test", text))
    assert (made is not None) is method, [d.message for d in told]


def test_the_ends_lie_between_the_lowest_and_the_highest() -> None:
    line = "lowest temperature of soaking >= 30 degC, temperature at the end of soaking < 30 degC"
    assert [f for f in ask_all(sheet(reed(line))).findings if f.question == "nothing meets"]
    made = sheet(reed("temperature at the start of soaking >= 30 degC"))
    assert made.steps[0].moments("temperature")["lowest"] == "lowest temperature of soaking"
    assert made.declaration("start of soaking").lower.value == Fraction(0)  # type: ignore[union-attr]


def met_by_something(line: str) -> bool:
    """Whether a claim with one line of symbols is met by anything that can exist."""
    text = reed(line).replace("soaking        step in min", "soaking        step in min, may pause")
    return not [f for f in ask_all(sheet(text)).findings if f.question == "nothing meets"]


LOW, HIGH, AVERAGE = (f"{word} temperature of soaking" for word in ("lowest", "highest", "average"))


@pytest.mark.parametrize(
    ("line", "possible"),
    [
        (f"{LOW} = 20 degC, {HIGH} = 60 degC, {AVERAGE} = 59 degC", True),
        (f"{LOW} = 20 degC, {HIGH} = 60 degC, {AVERAGE} = 60 degC", False),
        (f"{LOW} = 20 degC, {HIGH} = 20 degC, {AVERAGE} = 20 degC", True),
        (f"{LOW} = 20 degC, {AVERAGE} = 19 degC", False),
        ("longest pause of soaking = 2 min, total pause of soaking = 5 min", True),
        ("longest pause of soaking = 5 min, total pause of soaking = 2 min", False),
        ("longest pause of soaking = 0 min, total pause of soaking = 2 min", False),
        ("total pause of soaking = 10 min, DURATION(soaking) = 10 min", False),
    ],
)
def test_what_ties_an_average_and_pauses(line: str, possible: bool) -> None:
    assert met_by_something(line) is possible


def test_what_the_words_of_averages_and_pauses_are_about() -> None:
    """A batch that is cool at its ends and hot between, and pauses for 6 of its 15 min."""
    words = {"temperature of soaking": "on average at least 40 degC", "soaking": "for at least 10 min"}
    text = reed(cases=inside(
        "soaking from 0 to 15 min, longest pause of soaking = 6 min, total pause of soaking = 6 min,"
        " temperature at the start of soaking = 20 degC, temperature at the end of soaking = 20 degC,"
        f" {LOW} = 20 degC, {HIGH} = 60 degC, {AVERAGE} = 45 degC, DONE(rinsing)"
    )).replace("soaking        step in min", "soaking        step in min, may pause")  # fmt: skip
    lines = "\n   | ".join(f"{name} : {said}" for name, said in words.items())
    text = text.replace("DURATION(soaking) >= 10 min", lines)
    made = sheet(text.replace("soaking reed for", "soaking reed on average at least 40 degC for"))
    case = stated_values(made, made.cases[0], exact=True)
    told = {}
    for limitation in made.claims[0].limitations:
        assert isinstance(limitation.formula, Read)
        group = made.groups[limitation.formula.group]
        base = base_construction(made)
        met = (evaluate(f, case, base) for f in limitation.formula.options)
        told |= dict(zip((r.label for r in group.readings), met, strict=True))
    assert told == {
        "over its whole time": True, "of its two ends": False, "at all times": False,
        "from its start to its end": True, "if it is done at all": True, "in all, with pauses": False,
    }  # fmt: skip


def test_an_idle_condition_on_a_step_that_is_always_carried_out_says_so() -> None:
    text = """
opening  step in s
load  mass in kg

1. A method comprising opening a valve when the load exceeds 250 kg.
   | opening, load : when the load exceeds 250 kg
"""
    told = "As declared, opening is always carried out"
    assert told in one_line(text_of(ask_all(sheet(text)), sheet=sheet(text)))
    free = sheet(text.replace("step in s", "step in s, may be left out"))
    assert told not in one_line(text_of(ask_all(free), sheet=free))


KILN = """
moulding, drying, heating, holding, cooling   step in min
redrying   step in min, may be left out
baking     step in min  "browning of the crust"
  warmth   temperature in degC
moisture   share in wt%
"""


def in_the_kiln(left: str, words: str) -> tuple[str, list[str]]:
    """What is read, without the words by which a free number is called; what is refused."""
    made, told = read_sheet(
        Source("test", f"{KILN}\n\n1. A method of firing, {words}.\n   | {left} : {words}\n")
    )
    formula = repr(made.claims[0].limitations[0].formula) if made else ""
    return re.sub(r"Parameter\(key='[^']*'\)", "Parameter", formula), [
        d.message for d in told if d.severity == "error"
    ]


@pytest.mark.parametrize(
    ("left", "words", "plainly"),
    [
        ("moulding, drying, heating", "said process comprising", "comprising the steps of"),
        ("moulding, drying, heating", "the method comprising the steps of", "comprising the steps of"),
        ("heating, cooling", "then", "then cooling"),
        ("heating, cooling", "and then", "then cooling"),
        ("moulding, drying, heating", "then", "the last one thereafter"),
        ("heating", "not started until drying has been finished", "not before the end of drying"),
        ("cooling", "only after heating has been completed", "after the end of heating"),
        ("cooling", "only once the heating is complete", "after the end of heating"),
        ("cooling", "not started until browning has been finished", "not before the end of baking"),
        ("holding", "follows immediately upon heating", "immediately after heating"),
        ("holding, heating", "holding immediately follows heating", "holding immediately after heating"),
        ("heating", "in under 45 s", "lasting less than 45 s"),
        ("cooling", "in the course of no more than 30 minutes", "lasting no more than 30 minutes"),
        ("cooling", "in at most 30 minutes", "lasting at most 30 minutes"),
        ("redrying, moisture", "if the moisture still exceeds 15 wt%", "if the moisture exceeds 15 wt%"),
        ("redrying, moisture", "is only carried out if the moisture exceeds 15 wt%",
         "is carried out only if the moisture exceeds 15 wt%"),
    ],
)  # fmt: skip
def test_words_of_steps_that_say_the_same(left: str, words: str, plainly: str) -> None:
    found, told = in_the_kiln(left, words)
    assert not told
    assert found == in_the_kiln(left, plainly)[0]


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("moulding, drying, heating", "the mould comprising"),
        ("heating, cooling", "then not"),
        ("cooling", "then"),
        ("cooling", "not only after heating is complete"),
        ("cooling", "not started until heating or drying has been finished"),
        ("cooling", "not until heating has been completed"),
    ],
)
def test_words_of_steps_that_say_more_are_refused(left: str, words: str) -> None:
    assert in_the_kiln(left, words)[1]


def test_a_time_before_another_step_is_not_how_long_it_lasts() -> None:
    apart = in_the_kiln("cooling", "in no more than 30 minutes after heating")
    assert apart[0]
    assert apart[0] != in_the_kiln("cooling", "lasting no more than 30 minutes")[0]


@pytest.mark.parametrize(
    ("words", "plainly"),
    [
        ("is at no time more than 30 °C", "is never more than 30 °C"),
        ("at no stage exceeds 30 °C", "never exceeds 30 °C"),
        ("without ever falling below 30 °C", "never falls below 30 °C"),
        ("does not at any moment exceed 30 °C", "never exceeds 30 °C"),
    ],
)
def test_what_is_never_so_is_so_at_no_time(words: str, plainly: str) -> None:
    found, told = in_the_kiln("warmth of baking", words)
    assert not told
    assert found == in_the_kiln("warmth of baking", plainly)[0]


@pytest.mark.parametrize(
    ("name", "words", "plain"),
    [
        ("storing", "is stored for fewer than 7 h", "storing for fewer than 7 h"),
        ("drying", "dried for 2 h or more", "drying for 2 h or more"),
        ("grinding", "is then ground for 2 to 3 h", "grinding for 2 to 3 h"),
        ("stirring", "being stirred for about 2 h", "stirring for about 2 h"),
    ],
)
def test_a_step_is_named_by_what_is_done(name: str, words: str, plain: str) -> None:
    text = "{0}  step in h\n\n1. A way, {1}.\n   | {0} : {1}\n"
    first, second = (sheet(text.format(name, w)) for w in (words, plain))
    assert [r.label for r in first.groups[0].readings] == [r.label for r in second.groups[0].readings]
    assert first.claims[0].limitations[0].formula == second.claims[0].limitations[0].formula


@pytest.mark.parametrize(
    "words",
    [
        "is not dried for 2 h",
        "is only dried for 2 h",
        "half dried for 2 h",
        "the reed and the cane are dried for 2 h",
    ],
)
def test_what_is_not_done_or_not_to_it_alone_names_no_step(words: str) -> None:
    assert errors(f"drying  step in h\n\n1. A way, {words}.\n   | drying : {words}\n")


TWO_STEPS = "soaking, rinsing  step in min"


def in_moments(left: str, words: str, declared: str = TWO_STEPS) -> str:
    """What is presumed of steps, in starts and ends; '' where the words are refused."""
    said = presumed_in_symbols(declared, left, words).replace("TRUE and ", "")
    said = re.sub(r"start of (\w+) \+ duration of \1", r"END \1", said)
    return said.replace("start of", "START").replace("(", "").replace(")", "")


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("soaking", "ends before rinsing ends", "END soaking < END rinsing"),
        ("soaking", "is finished before the end of the rinsing", "END soaking < END rinsing"),
        ("soaking", "ends no later than rinsing ends", "END soaking <= END rinsing"),
        ("soaking", "ends by the end of the rinsing", "END soaking <= END rinsing"),
        ("soaking", "ends after rinsing ends", "END soaking > END rinsing"),
        ("soaking", "ends at least 2 min after the end of the rinsing", "END soaking - END rinsing >= 2 min"),
        ("soaking", "ends at the same time as the rinsing", "END soaking = END rinsing"),
        ("soaking, rinsing", "the soaking ends together with the rinsing", "END soaking = END rinsing"),
        ("soaking, rinsing", "the soaking and the rinsing end at the same time", "END soaking = END rinsing"),
        ("soaking, rinsing", "both steps start simultaneously", "START soaking = START rinsing"),
        ("soaking", "ends before the start of the rinsing", "END soaking <= START rinsing"),
        ("soaking", "starts before the rinsing", "START soaking < START rinsing"),
        ("soaking", "starts before the end of the rinsing", "START soaking < END rinsing"),
        ("soaking", "starts after rinsing starts", "START soaking > START rinsing"),
        ("soaking", "starts no earlier than rinsing starts", "START soaking >= START rinsing"),
        ("soaking", "starts after the end of the rinsing", "START soaking >= END rinsing"),
        ("soaking", "starts after the rinsing starts but before the rinsing ends",
         "START soaking > START rinsing and START soaking < END rinsing"),
        ("soaking", "ends after the rinsing starts and before the rinsing ends",
         "END soaking > START rinsing and END soaking < END rinsing"),
        ("soaking", "begins at least 5 min after the rinsing begins but before the rinsing ends",
         "START soaking - START rinsing >= 5 min and START soaking < END rinsing"),
        ("soaking", "starts at least 10 min but less than 60 min after the rinsing",
         "10 min <= START soaking - END rinsing and START soaking - END rinsing < 60 min"),
        ("soaking", "starts at least 2 min before the rinsing", "START rinsing - START soaking >= 2 min"),
        ("soaking", "is over at least 2 min before the rinsing", "START rinsing - END soaking >= 2 min"),
    ],
)  # fmt: skip
def test_when_a_step_begins_or_is_over(left: str, words: str, said: str) -> None:
    """What begins or ends is said; nothing of its other end is."""
    assert in_moments(left, words) == said
    each = presumed_labels(TWO_STEPS, left, words)
    assert [len(of) for of in each] == [1 + ("from its end" in str(of)) for of in each]


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("the soaking ends before the rinsing", ["over before it begins", "over before it ends"]),
        ("the soaking is completed before the rinsing", ["over before it begins", "over before it ends"]),
        ("the soaking finishes before the rinsing", ["over before it begins", "over before it ends"]),
        ("the soaking ends at least 2 min before the rinsing", ["by the clock", "from end to end"]),
        ("the soaking ends at least 2 min after the rinsing",
         ["by the clock, from end to end", "by the clock, from its beginning"]),
        ("the soaking ends at most 2 min after the rinsing",
         ["by the clock, from end to end", "begun once it is over", "by the clock, from its beginning"]),
    ],
)  # fmt: skip
def test_which_end_of_the_other_is_meant_is_open(words: str, labels: list[str]) -> None:
    for left in ("soaking", "soaking, rinsing"):
        assert presumed_labels(TWO_STEPS, left, words) == [labels]


def test_steps_may_all_end_at_one_moment() -> None:
    three = "soaking, rinsing, drying"
    said = in_moments(
        three, "the soaking, the rinsing and the drying end at the same time", f"{three}  step in min"
    )
    assert said == "END soaking = END rinsing and END rinsing = END drying"


@pytest.mark.parametrize(
    ("words", "apart"),
    [
        ("the soaking is followed by the rinsing after a delay of at least 2 min", ">= 2 min"),
        ("the soaking is followed by the rinsing after at least 2 min", ">= 2 min"),
        ("the soaking is followed by the rinsing after a pause of 2 min", "= 2 min"),
        ("the soaking is followed, after a delay of at least 2 min, by the rinsing", ">= 2 min"),
        ("the rinsing follows the soaking with a delay of 2 min", "= 2 min"),
        ("the rinsing follows the soaking after at least 2 min", ">= 2 min"),
        ("soaking, then rinsing after a pause of at least 2 min", ">= 2 min"),
    ],
)
def test_a_delay_between_two_steps_is_no_duration(words: str, apart: str) -> None:
    said = in_moments("soaking, rinsing", words)
    assert said == f"END soaking <= START rinsing and START rinsing - END soaking {apart}"


def test_how_long_the_second_lasts_is_no_delay() -> None:
    said = in_moments("soaking, rinsing", "the soaking is followed by the rinsing for at least 2 min")
    assert said == "END soaking <= START rinsing and duration of rinsing >= 2 min"


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("rinsing", "after a delay of at least 2 min"),
        ("rinsing", "after a pause of 2 min"),
        ("soaking, rinsing", "the soaking is not followed by the rinsing after a delay of at least 2 min"),
        ("soaking", "ends more than 2 min after the rinsing"),
        ("soaking", "ends 2 to 5 min after the rinsing"),
        ("soaking, rinsing", "the soaking and the rinsing do not end at the same time"),
        ("soaking, rinsing", "the soaking or the rinsing end at the same time"),
        ("soaking", "ends after the rinsing starts but not before the rinsing ends"),
        ("soaking", "every 2 min"),
        ("duration of soaking", "every 2 min"),
        ("duration of soaking", "once every 2 min"),
    ],
)
def test_words_of_when_and_how_often_that_say_another_thing(left: str, words: str) -> None:
    assert in_moments(left, words) == ""
    told = errors(f"{TWO_STEPS}\n\n1. A way, {words}.\n   | {left} : {words}\n")
    assert not any("write duration of" in d.help for d in told)


@pytest.mark.parametrize("words", ["ends at least 2 min before the rinsing", "ends 2 min before the rinsing"])
def test_what_ends_so_long_before_is_not_counted_from_its_beginning(words: str) -> None:
    made = sheet(f"{TWO_STEPS}\n\n1. A way, {words}.\n   | soaking : {words}\n")
    assert not [r.label for g in made.groups for r in g.readings if "begun" in r.label or "begin" in r.label]


GLAZE = """
incubating  step in min
  temperature  temperature in degC
glazing     step in min
rinsing     step in min, may be left out
checking    step in min, may be left out
pressure    pressure in bar
flap        one of only open, closed"""


@pytest.mark.parametrize(
    ("left", "words", "plainly_left", "plainly"),
    [
        # so long thereafter, of two steps in their order
        ("incubating, glazing", "at the latest 5 minutes thereafter",
         "glazing", "at the latest 5 minutes after the incubating"),
        ("incubating, glazing", "glazing within 10 min thereafter",
         "glazing", "glazing within 10 min after the incubating"),
        ("incubating, glazing", "incubating and, at most 10 min later, glazing",
         "glazing", "glazing at most 10 min after the incubating"),
        ("incubating, glazing", "5 to 10 min afterwards", "glazing", "5 to 10 min after the incubating"),
        ("incubating, glazing", "more than 10 min later", "glazing", "more than 10 min after the incubating"),
        ("incubating, glazing", "the glazing begins at the latest 10 min thereafter",
         "glazing", "begins at the latest 10 min after the incubating"),
        ("incubating, glazing", "glazing thereafter", "incubating", "thereafter glazing"),
        # a step by the noun for what is done
        ("glazing", "within 10 min of the end of the incubation",
         "glazing", "within 10 min of the end of the incubating"),
        ("glazing, incubating", "after the incubation", "glazing", "after the incubating"),
        ("glazing", "between the incubation and the rinse",
         "glazing", "between the incubating and the rinsing"),
        ("incubating", "the incubation lasts at least 10 min", "incubating", "lasts at least 10 min"),
        ("temperature of incubating", "at most 40 degC at the end of the incubation",
         "temperature of incubating", "at most 40 degC at the end of the incubating"),
        # a condition before what is carried out
        ("rinsing, pressure", "if the pressure exceeds 2 bar, rinsing the tile",
         "rinsing, pressure", "the rinsing is carried out if the pressure exceeds 2 bar"),
        ("rinsing, pressure", "if the pressure exceeds 2 bar, then the tile is rinsed",
         "rinsing, pressure", "the rinsing is carried out if the pressure exceeds 2 bar"),
        ("rinsing, pressure", "if the pressure exceeds 2 bar, the tile is not rinsed",
         "rinsing, pressure", "omitted if the pressure exceeds 2 bar"),
        ("rinsing, flap", "unless the flap is open, the rinsing is performed",
         "rinsing, flap", "carried out unless the flap is open"),
        # whether another step is done
        ("rinsing, checking", "if the checking is not carried out, rinsing the tile",
         "rinsing, checking", "carried out if the checking is omitted"),
        ("rinsing, checking", "carried out if no checking is performed",
         "rinsing, checking", "carried out if the checking has not been done"),
    ],
)  # fmt: skip
def test_steps_said_otherwise_have_the_same_readings(
    left: str, words: str, plainly_left: str, plainly: str
) -> None:
    assert all_readings(GLAZE, left, words) == all_readings(GLAZE, plainly_left, plainly)


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("incubating", "immediately thereafter glazing"),
        ("incubating, glazing", "directly thereafter"),
        ("incubating, glazing", "glazing immediately thereafter"),
    ],
)
def test_what_is_done_thereafter_comes_second(left: str, words: str) -> None:
    """Not like `after`, before the name of what comes first."""
    said = presumed_in_symbols(GLAZE, left, words)
    assert said == presumed_in_symbols(GLAZE, "incubating", "immediately followed by glazing")
    assert said != presumed_in_symbols(GLAZE, "incubating", "immediately after glazing")


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("rinsing, checking", "only if the checking has been performed",
         "if rinsing = done then checking = done"),
        ("rinsing, checking", "omitted if the checking is performed",
         "if checking = done then not rinsing = done"),
        ("pressure, checking", "at most 2 bar if the checking is not carried out",
         "if not checking = done then pressure <= 2 bar"),
        ("rinsing, checking, pressure", "if the checking is omitted and the pressure exceeds 2 bar, rinsing",
         "if (not checking = done and pressure > 2 bar) then rinsing = done"),
    ],
)  # fmt: skip
def test_a_condition_on_whether_a_step_is_done(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(GLAZE, left, words) == said


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("incubating, glazing", "incubating within 10 min thereafter"),
        ("incubating, glazing", "at the latest 5 minutes thereafter or at the same time"),
        ("incubating, glazing", "for 5 min and glazing 10 min thereafter"),
        ("glazing", "within 10 min thereafter"),
        ("incubating, glazing", "the glazing is over at the latest 10 min thereafter"),
        ("glazing", "after each incubation"),
        ("glazing", "after the second incubation"),
        ("glazing", "after the incubation of the tile"),
        ("glazing", "before the rinse tank"),
        ("glazing", "within 10 mm of the end of the rinse"),
        ("rinsing, pressure", "if the pressure exceeds 2 bar, only rinsing the tile"),
        ("rinsing, pressure", "if the pressure exceeds 2 bar, rinsing or drying the tile"),
        ("rinsing, pressure", "if the pressure exceeds 2 bar, the rinsing is not omitted"),
        ("pressure, rinsing", "if the pressure exceeds 2 bar, rinsing the tile"),
        ("rinsing, checking", "carried out if the checking is not omitted"),
        ("rinsing, checking", "carried out if no checking is not carried out"),
        # at which time, and not whether
        ("rinsing, checking", "carried out as soon as the checking is carried out"),
        ("rinsing, checking", "carried out as long as the checking is not carried out"),
        ("rinsing, incubating", "carried out when the incubating lasts more than 10 min"),
        ("pressure, checking", "at most 2 bar while the checking is carried out"),
    ],
)
def test_what_does_not_say_so_of_a_step_is_refused(left: str, words: str) -> None:
    assert presumed_in_symbols(GLAZE, left, words) == ""


@pytest.mark.parametrize("words", ["once the checking has been carried out", "when the checking is done"])
def test_when_another_step_is_done_is_a_time(words: str) -> None:
    said = presumed_in_symbols(GLAZE, "rinsing, checking", words)
    assert said
    assert "if checking" not in said


def test_a_noun_that_is_read_as_a_step_is_told() -> None:
    words = "after the incubation"
    _, told = read_sheet(Source("test", f"{GLAZE}\n\n1. A thing, wherein {words}.\n   | glazing : {words}\n"))
    assert [d.message for d in told] == ["'incubation' is read as the step incubating"]


@pytest.mark.parametrize(
    ("left", "words", "help"),
    [
        ("rinsing, checking", "if the check is not passed, rinsing the tile",
         "IF NOT DONE(checking) THEN DONE(rinsing)"),
        ("rinsing, glazing", "if the glazing is not carried out, rinsing the tile",
         "glazing  step in min, may be left out"),
    ],
)  # fmt: skip
def test_what_to_write_where_it_is_not_known_whether_a_step_is_done(left: str, words: str, help: str) -> None:
    text = f"{GLAZE}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"
    assert help in errors(text)[0].help
