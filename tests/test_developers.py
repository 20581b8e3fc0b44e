"""What DEVELOPERS.md names is there: files, and functions and fields by the module or class they are in."""

from __future__ import annotations

import ast
import re
import sys
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
DATA = {"toml", "json", "jsonl", "phrases", "lark", "sheet", "md", "txt"}
BASES: dict[str, set[str]] = defaultdict(set)
NAMED = re.compile(r"(?<!`)`([A-Za-z_][\w/]*(?:\.[A-Za-z_]\w*)*)(?:\(.*?\))?`(?!`)")


def told() -> list[str]:
    """What stands in single backticks and is a name with dots or slashes, or one that begins with `_`."""
    text = re.sub(r"^(```|~~~).*?^\1", "", (ROOT / "DEVELOPERS.md").read_text("utf-8"), flags=re.M | re.S)
    return sorted({name for name in NAMED.findall(text) if "." in name or name.startswith("_")})


@cache
def files() -> tuple[str, ...]:
    folders = (ROOT / name for name in ("scopecheck", "tests", "specs"))
    found = (*ROOT.glob("*.*"), *(path for folder in folders for path in folder.rglob("*.*")))
    return tuple(f"/{path.relative_to(ROOT)}" for path in found)


@cache
def defined() -> dict[str, set[str]]:
    """What is defined in each module, class and package, by the last part of its name."""
    found: dict[str, set[str]] = defaultdict(set)
    for path in (p for folder in ("scopecheck", "tests") for p in (ROOT / folder).rglob("*.py")):
        stem = path.parent.name if path.stem == "__init__" else path.stem
        found[path.parent.name].add(path.stem)
        for name in _names(ast.parse(path.read_text("utf-8")).body, found):
            found[stem].add(name)
            found[path.parent.name].add(name)
    for name, bases in BASES.items():
        found[name].update(x for base in bases for x in found.get(base, ()))
    return found


def _names(body: list[ast.stmt], found: dict[str, set[str]]) -> list[str]:
    names: list[str] = []
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.append(node.name)
        if isinstance(node, ast.ClassDef):
            own = _names(node.body, found)
            found[node.name].update(own)
            BASES[node.name].update(ast.unparse(base) for base in node.bases)
            names += own
        if isinstance(node, ast.AnnAssign):
            names.append(ast.unparse(node.target))
        if isinstance(node, ast.Assign):
            names += [ast.unparse(target) for target in node.targets]
        if isinstance(node, ast.ImportFrom):
            names += [alias.asname or alias.name for alias in node.names]
    return names


@pytest.mark.parametrize("name", told())
def test_what_the_text_names_is_there(name: str) -> None:
    *within, last = name.replace("/", ".").split(".")
    if last in DATA or last == "py":
        assert any(file.endswith(f"/{name}") for file in files())
    elif not within:
        assert any(last in names for names in defined().values())
    elif within[0] not in sys.stdlib_module_names:
        assert last in defined()[within[-1]]


def test_names_are_found_in_the_text() -> None:
    assert len(told()) > 40
