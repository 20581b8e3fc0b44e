"""The shape of the code: floors, who may import what, cold starts, and no binary floating point.

Each package is a floor. A module imports modules of lower floors, or earlier ones of its own floor. A new
module is put on its floor here; the test names the ones that are missing.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path

import pytest

from scopecheck.foundations.regex import _Uncompiled

ROOT = Path(__file__).parent.parent / "scopecheck"

FLOORS: dict[str, str] = {
    "foundations": (
        "data_files word_lists regex record sent meanwhile spans diagnostics drawing kinds units quantity"
    ),
    "language": (
        "layout number_words scan syntax tables parse pieces reading_lines statements_groups"
        " statements_declare statements_columns statements_cases statements_text statements_words"
        " statements_claims statements"
    ),
    "core": (
        "formula declared chains model construction linear stated written_ends rewrite rounded_ranges ranges"
        " range_sets ties nearness plain alike shares reference regroup grounds"
    ),
    "vocabulary": (
        "patterns entry definitions catalogue constants parts classes compositions names assemblies"
        " part_kinds steps"
    ),
    "exact": "greater_figure fitting bare_shares arithmetic parts functions terms formulas",
    "occurrences": (
        "groups settling rivals occurrence plain_readings limit_texts free_numbers alike readings"
        " defined_words"
    ),
    "matching": (
        "chart states practice spelled everyday of_ratios subjects called asides together them nouns"
        " worked_out whichever shared_limits said_once line_words shares_of_others made_of_several unfit"
        " entries_for phrase_finding surroundings lifting names_and_notes told_past circumstances"
        " turning_words longer_names bearers of_units converted passed_over one_quantity beside_another"
        " phrase_numbers the_other"
        " other_things phrase_advice phrase_slots signs"
    ),
    "rewording": (
        "shared_power choice_of_counts not_both places counted_per sides forms parts_per_part compared"
        " class_but members_beside amount_behind said_for_all usual_units multiples usual sizes moments"
        " lettered item_letters common_noun scaled plainer_amounts plainer_numbers plainer_counts"
        " plainer_members plainer_parts plainer_shares plainer_steps step_objects plainer_states"
        " plainer_values plainer_written plainer_phrasing plainer_named plainer point_of_change conditional"
        " conditional_advice ingredients"
        " beside_sums by_name in_order two_limits of_each one_phrase looser shared_verbs"
        " other_cases"
    ),
    "resolve": (
        "not_so left_unsaid other_measures total_unheard whole_ranges never_heard which_of_several ready"
        " said_amounts line_reader declared_basis stated_presence"
        " each_of_several beside_one_another of_steps of_mixtures read_loosely phrases claim_text"
        " dependencies form_rules joints limiting_words account cut_short beside_lines amounts initials"
        " stated declared recited beyond_bounds given_up"
        " claims step_cells case_parts assembly_cells case_desk number_cells"
        " case_cells case_facts cases not_compared sheet offered edits successors agreement common_groups"
        " joined carried"
    ),
    "text": (
        "stream flags mentions claim_set unneeded antecedents dependents clauses degree shares shown of_sheet"
    ),
    "solving": (
        "clock evaluate border symbols cells places constraints encode translation known engine solver ends"
    ),
    "answers": (
        "witness minimise minimal refine extremes held about findings questions.instances questions.prepared"
        " definitions questions.unnamed questions.clash questions.cases questions.otherwise questions.ways"
        " questions.freed questions.varying questions.document_ranges questions.one_value"
        " questions.close_by questions.outside questions.inside questions.reached questions.claims"
        " questions.undefined"
        " questions.nearby questions.idle questions.falling questions.kept_out questions.charted"
        " questions.choices questions.described questions.combined questions.same_scope questions.readings"
        " questions.measures questions.members questions.conditions questions.alternatives"
        " questions.halves questions consistency amended_stretch amended_ends amendment amended_cases amended"
        " pool order"
    ),
    "report": (
        "roots turning lines boundary wording amounts ties plain_formula blocks step_text describe unread"
        " grouping ways nearness chart described rereadings stretching untried kept_out things conditions"
        " looked percent_of_what wholes frame mattering known_ranges consequences pictures ways_out"
        " usual_readings margins stated_ends slips conflict_numbers close_ranges items plan not_shown page"
        " once render.number_line render.columns render.text render.markdown render.values_json"
        " render.lying_json render.finding_json render.json render"
        " probe_sheet probe_picture probe probe_report occasions separating alike amended_ranges"
        " amended_things amendment render.amendment_json words_page scope_map render.map_json"
    ),
    "drafting": (
        "abbreviated pasted limits beside numbers_of leading naming two_measures lists_of choices closed"
        " kinds_of draft texts readable work by_letter in_steps no_limits unnumbered turned only_together"
        " marks conditions quantities both_sides left_out as_many joint same relations compared composed"
        " grouped stepped around formulas whole some_of conditional going_on on_condition switches contrary"
        " step_lines lines reference_values claim_limits propose asked remarks start anew"
    ),
    "drill": (
        "draws trades compose exercise bench replies sayings symbols exact plans unmeant falls_out"
        " narrows keeps_out two_phrases how_far reword kinds making from_sheet"
        " explain setting course record paper"
    ),
    "commands": (
        "output options start words showing check probe amend phrase_patterns phrase_search phrase_examples"
        " phrase_cards claim_map drill drill_paper"
    ),
}
TOP = ("cli", "__main__")

LIBRARIES: dict[str, set[str]] = {
    "z3": {
        "solving.symbols",
        "solving.cells",
        "solving.constraints",
        "solving.encode",
        "solving.translation",
        "solving.known",
        "solving.engine",
        "solving.solver",
        "solving.ends",
    },
    "lark": {"language.tables"},
    "sympy": {"report.boundary"},
    "typer": {"cli"},
}

LAZY: dict[str, str] = {
    "foundations.meanwhile": "what is sent is written and read while the other process works",
    "cli": "a command loads what it needs when it runs",
    "commands.check": "a report's modules load while questions are asked; phrase files are few",
    "commands.phrase_cards": "a card alone asks the solver; the list does not",
    "commands.phrase_search": "words are read only where no wording has them",
    "language.tables": "the tables are kept; they are made again where the grammar was changed",
    "report.boundary": "exact roots of higher degree are seldom needed, and their library is slow to load",
    "report.render": "one format is drawn",
}

NOT_EXACT: dict[str, str] = {
    "foundations.diagnostics": "likeness of words",
    "matching.phrase_advice": "likeness of words",
    "commands.output": "the clock of the progress line",
}


def module_name(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def modules() -> dict[str, ast.Module]:
    """Every module but the package itself, by name without `scopecheck.`."""
    found = {module_name(path): path for path in sorted(ROOT.rglob("*.py"))}
    return {name: ast.parse(path.read_text("utf-8")) for name, path in found.items() if name}


def imported(tree: ast.AST) -> Iterator[tuple[str, ast.stmt]]:
    """The full names a tree imports: modules, and names that may be modules."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute"
            assert node.module is not None
            yield node.module, node
            yield from ((f"{node.module}.{alias.name}", node) for alias in node.names)


def own_imports(name: str) -> set[str]:
    full = {full.removeprefix("scopecheck.") for full, _ in imported(modules()[name]) if "." in full}
    # A package's own face is imported by importing any part of it; only what is named counts.
    return (full & modules().keys()) - {name}


ORDER = [f"{package}.{name}" for package, line in FLOORS.items() for name in line.split()] + list(TOP)


def place(name: str) -> int:
    """How high a module stands; a package's own file is its docstring and stands below its modules."""
    if name in FLOORS:
        return -1
    assert name in ORDER, f"'{name}' stands on no floor: put it on one in this file"
    return ORDER.index(name)


def test_every_module_stands_on_one_floor() -> None:
    assert sorted(ORDER) == sorted(set(ORDER))
    assert set(ORDER) == set(modules()) - FLOORS.keys()


def test_a_package_is_its_modules() -> None:
    for package in FLOORS:
        assert [type(node) for node in modules()[package].body] == [ast.Expr], package


@pytest.mark.parametrize("name", sorted(modules()))
def test_imports_go_down(name: str) -> None:
    above = {other for other in own_imports(name) if place(other) >= place(name)}
    assert not above, f"{name} imports what does not stand below it: {sorted(above)}"


@pytest.mark.parametrize("library", sorted(LIBRARIES))
def test_a_library_is_imported_in_its_place_only(library: str) -> None:
    users = {
        name
        for name, tree in modules().items()
        if any(full.split(".")[0] == library for full, _ in imported(tree))
    }
    assert users == LIBRARIES[library]


def test_no_other_library_is_imported() -> None:
    allowed = set(sys.stdlib_module_names) | LIBRARIES.keys() | {"scopecheck"}
    found = {full.split(".")[0] for tree in modules().values() for full, _ in imported(tree)}
    assert found <= allowed


@pytest.mark.parametrize("name", sorted(modules()))
def test_imports_stand_at_the_top(name: str) -> None:
    tree = modules()[name]
    top = {id(node) for node in tree.body}
    lazy = {full for full, node in imported(tree) if id(node) not in top}
    assert not lazy or name in LAZY, f"{name} imports inside a function: {sorted(lazy)}"


@pytest.mark.parametrize("name", sorted(set(modules()) - NOT_EXACT.keys()))
def test_no_binary_floating_point(name: str) -> None:
    for node in ast.walk(modules()[name]):
        if isinstance(node, ast.Constant):
            assert not isinstance(node.value, float), f"{name}, line {node.lineno}: {node.value}"
        if isinstance(node, ast.Name):
            assert node.id not in ("float", "complex", "get_close_matches"), f"{name}, line {node.lineno}"
        if isinstance(node, ast.Attribute):
            assert node.attr not in ("as_decimal", "evalf", "approx", "sqrt"), f"{name}, line {node.lineno}"


@pytest.mark.parametrize("name", sorted(modules()))
def test_every_regular_expression_compiles(name: str) -> None:
    for expression in vars(import_module(f"scopecheck.{name}")).values():
        if isinstance(expression, _Uncompiled):
            assert expression.pattern


NETWORK = frozenset("socket ssl http urllib ftplib smtplib asyncio webbrowser xmlrpc requests".split())


def test_nothing_opens_a_network_connection() -> None:
    found = {full.split(".")[0] for tree in modules().values() for full, _ in imported(tree)}
    assert not found & NETWORK


# ---- cold starts


def loaded_after(code: str, *watched: str) -> set[str]:
    """Which of the watched modules a fresh interpreter has loaded once the code has run."""
    program = f"{code}\nimport sys\nprint('LOADED', *[m for m in {watched!r} if m in sys.modules])"
    command = [sys.executable, "-c", program]
    run = subprocess.run(command, capture_output=True, text=True, cwd=ROOT.parent, check=True, timeout=120)
    return set(run.stdout.splitlines()[-1].split()[1:])


def command(*arguments: str) -> str:
    """A program that runs a command and goes on afterwards."""
    return (
        "import sys\nfrom scopecheck.cli import app\n"
        f"try:\n    app({list(arguments)!r}, prog_name='scopecheck')\nexcept SystemExit:\n    pass"
    )


@pytest.mark.parametrize("of", [(), ("check",), ("amend",), ("map",), ("probe",), ("phrases",), ("drill",)])
def test_help_loads_no_heavy_library(of: tuple[str, ...]) -> None:
    assert loaded_after(command(*of, "--help"), "z3", "sympy", "lark", "rich") == set()


def test_the_package_itself_loads_nothing_heavy() -> None:
    assert loaded_after("import scopecheck", "z3", "sympy", "lark", "typer") == set()


SHEET = """\
gap  length in mm

1. A frame with a gap of between 2 and 4 mm.
   | gap : between 2 and 4 mm

inside        gap
  sample      3 mm
"""


def test_check_loads_no_library_for_exact_roots_and_none_for_grammars(tmp_path: Path) -> None:
    sheet = tmp_path / "frame.txt"
    sheet.write_text(SHEET, "utf-8")
    loaded = loaded_after(command("check", str(sheet)), "z3", "lark", "sympy")
    assert loaded == {"z3"}


@pytest.mark.parametrize("asked", [(), ("--format", "json"), ("betwen",)])
def test_phrases_load_no_solver_but_for_a_card(asked: tuple[str, ...]) -> None:
    assert "z3" not in loaded_after(command("phrases", *asked), "z3", "sympy")


def test_a_card_loads_no_library_for_exact_roots() -> None:
    assert loaded_after(command("phrases", "about"), "z3", "lark", "sympy") == {"z3"}


def test_the_two_meanings_treat_the_same_cases_in_the_same_order() -> None:
    assert cases_of("solving.evaluate", "evaluate_term") == cases_of("solving.encode", "encode_term")
    assert cases_of("solving.evaluate", "evaluate") == cases_of("solving.encode", "encode")


def cases_of(module: str, function: str) -> list[str]:
    """The classes that the function's first match names, in order."""
    tree = modules()[module]
    defined = next(n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == function)
    match = next(n for n in ast.walk(defined) if isinstance(n, ast.Match))
    return [
        pattern.cls.id
        for case in match.cases
        for pattern in ast.walk(case.pattern)
        if isinstance(pattern, ast.MatchClass) and isinstance(pattern.cls, ast.Name)
    ]
