"""Which sentences the code asks for, read off its calls: literal places whole, others by what they may be.

A key that a call does not tell at all is any text that stands in the code by itself.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import product
from pathlib import Path
from typing import TypeAlias

ANY = "([^.]+)"
"""A key, or a part of one, of which a call does not tell what it may be."""
OF_DATA = ("axis", "asked_of", "of_formulas", "shown")
"""Tables with keys of the catalogue and of word lists."""
UNKNOWN = ast.Name("?")
REST = ".*"
WORDING = "scopecheck.report.wording"
CALLS = ("sentence", "has_sentence", "counted", "agreed")

Function: TypeAlias = ast.FunctionDef | ast.Lambda | ast.Module
Value: TypeAlias = tuple[ast.expr, Function]
"""An expression and the function it stands in."""


class Module:
    """A file and what its calls for sentences may ask for, as regular expressions for whole places."""

    def __init__(self, text: str) -> None:
        self.tree = ast.parse(text)
        self.nodes: list[tuple[ast.AST, Function]] = list(_within(self.tree, self.tree))
        self.functions = {f.name: f for f, _ in self.nodes if isinstance(f, ast.FunctionDef)}

    @cached_property
    def calls(self) -> frozenset[str]:
        """The functions that ask for sentences, as far as the file has them."""
        imports = (n for n in self.tree.body if isinstance(n, ast.ImportFrom) and n.module == WORDING)
        return frozenset(alias.name for n in imports for alias in n.names if alias.name in CALLS)

    @cached_property
    def constants(self) -> frozenset[str]:
        values = (n.value for n, _ in self.nodes if isinstance(n, ast.Constant))
        return frozenset(value for value in values if isinstance(value, str))

    def places(self) -> Iterator[str]:
        for node, here in self.nodes:
            match node:
                case ast.Call(func=ast.Name(name), args=args) if name in self.calls:
                    path = [ast.Constant("noun"), *args[1:2]] if name in ("counted", "agreed") else args
                    yield from map(r"\.".join, product(*(self.keys(key, here) for key in path)))

    def keys(
        self, node: ast.expr, here: Function, above: frozenset[ast.expr] = frozenset()
    ) -> tuple[str, ...]:
        """What a key may be; `above`: what is asked for already."""
        if node in above:
            return ()
        above |= {node} - {UNKNOWN}
        match node:
            case ast.Constant(str(text)):
                return (re.escape(text),)
            case ast.Starred():
                return (REST,)
            case ast.JoinedStr(values=parts):
                return _joined([self.keys(part, here, above) for part in parts])
            case ast.BinOp(left=left, op=ast.Add(), right=right):
                return _joined([self.keys(left, here, above), self.keys(right, here, above)])
            case ast.BinOp(left=text, op=ast.Mult()):
                return ("", *self.keys(text, here, above))
        values = self.values(node, here)
        found = (key for value, there in values for key in self.keys(value, there, above))
        return tuple(dict.fromkeys(found)) if values else (ANY,)

    def values(self, node: ast.expr, here: Function) -> list[Value]:
        """What an expression may be, one step on; nothing where that is not told."""
        match node:
            case ast.FormattedValue(value=value):
                return [(value, here)]
            case ast.IfExp(body=body, orelse=other):
                return [(body, here), (other, here)]
            case ast.BoolOp(values=values):
                return [(value, here) for value in values]
            case ast.Subscript(value=table) | ast.Call(func=ast.Attribute(value=table, attr="get"), args=[_]):
                return self.items(table, here)
            case ast.Call(func=ast.Attribute(value=table, attr="get"), args=[_, other]):
                return [*self.items(table, here), (other, here)]
            case ast.Call(func=ast.Name(name)) if name in self.functions:
                f = self.functions[name]
                return [
                    (n.value, f) for n, at in self.nodes if isinstance(n, ast.Return) and at is f and n.value
                ]
            case ast.Name(name):
                return self.named(name, here)
        return []

    def items(self, node: ast.expr, here: Function) -> list[Value]:
        """What the items of a table or a list may be."""
        match node:
            case (
                ast.Dict(values=values)
                | ast.Tuple(elts=values)
                | ast.List(elts=values)
                | ast.Set(elts=values)
            ):
                return [(value, here) for value in values]
            case ast.Name(name):
                return [item for value, at in self.named(name, here) for item in self.items(value, at)]
            case ast.Call(func=ast.Name(), args=[inner], keywords=[]):
                return self.items(inner, here)
            case ast.ListComp(elt=item) | ast.GeneratorExp(elt=item):
                return [(item, here)]
        return [(UNKNOWN, here)]

    def named(self, name: str, here: Function) -> list[Value]:
        """What a name may stand for: what is handed over for a parameter, or what it is set to."""
        arguments = (
            [] if isinstance(here, ast.Module) else [a.arg for a in here.args.args + here.args.kwonlyargs]
        )
        if name in arguments:
            return self.handed(name, arguments, here)
        found: list[Value] = []
        for node, at in self.nodes:
            if at is not here:
                continue
            match node:
                case ast.Assign(targets=[target], value=value) | ast.NamedExpr(target=target, value=value):
                    found += self.set_to(name, target, value, here)
                case ast.AnnAssign(target=target, value=ast.expr() as value):
                    found += self.set_to(name, target, value, here)
                case ast.For(target=target, iter=listed) | ast.comprehension(target=target, iter=listed):
                    if name in _names(target):
                        items = self.items(listed, here)
                        found += [v for item, at in items for v in self.set_to(name, target, item, at)]
        return found or ([] if here is self.tree else self.named(name, self.tree))

    def set_to(self, name: str, target: ast.expr, value: ast.expr, here: Function) -> list[Value]:
        match target, value:
            case ast.Name(own), _:
                return [(value, here)] if own == name else []
            case ast.Tuple(elts=targets), ast.Tuple(elts=values) if len(targets) == len(values):
                pairs = zip(targets, values, strict=True)
                return [found for t, v in pairs for found in self.set_to(name, t, v, here)]
        return [(UNKNOWN, here)] if name in _names(target) else []

    def handed(self, name: str, arguments: Sequence[str], function: Function) -> list[Value]:
        """What calls in the same file hand over for a parameter of a function."""
        if not isinstance(function, ast.FunctionDef):
            return []
        place, found = arguments.index(name), []
        for node, at in self.nodes:
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id == function.name
            ):
                found += [(k.value, at) for k in node.keywords if k.arg == name]
                found += [(value, at) for value in node.args[place : place + 1]]
        return [*found, *((d, self.tree) for d in function.args.defaults)]


def _within(node: ast.AST, function: Function) -> Iterator[tuple[ast.AST, Function]]:
    """Everything below a node, each with the function it stands in."""
    for child in ast.iter_child_nodes(node):
        yield child, function
        yield from _within(child, child if isinstance(child, ast.FunctionDef) else function)


def _names(target: ast.expr) -> set[str]:
    return {n.id for n in ast.walk(target) if isinstance(n, ast.Name)}


def _joined(parts: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(map("".join, product(*parts)))


class Asked:
    """What the code below a folder asks for; `words`: where keys that come from data stand."""

    def __init__(self, folder: Path) -> None:
        files = [Module(path.read_text("utf-8")) for path in sorted(folder.rglob("*.py"))]
        self.places = [re.compile(place) for place in sorted({p for file in files for p in file.places()})]
        self.constants = frozenset[str]().union(*(file.constants for file in files))
        data = [folder / "data" / "words.toml", *sorted((folder / "catalogue").glob("*.phrases"))]
        self.words = "\n".join(path.read_text("utf-8") for path in data)

    def has(self, place: str) -> bool:
        """Whether a call asks for a sentence: at its place, or in a list there."""
        listed = re.sub(r"\.\d$", "", place)
        matches = (m for p in dict.fromkeys((place, listed)) for r in self.places if (m := r.fullmatch(p)))
        return any(all(self.is_said(key, place) for key in m.groups()) for m in matches)

    def is_said(self, key: str, place: str) -> bool:
        """Whether a key that a call does not tell stands anywhere: in the code, or in its data."""
        of_data = place.partition(".")[0] in OF_DATA
        in_data = of_data and re.search(rf"(?<!\w){re.escape(key.removeprefix('degree_'))}(?!\w)", self.words)
        return key in self.constants or key.isdecimal() or bool(in_data)
