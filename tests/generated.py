"""The data files that are made from others, because JSON is read ten times faster than what people edit.

`python -m tests.generated units.json` writes one anew after a change, without a name it writes all of them;
`test_generated.py` holds each to its source.
"""

from __future__ import annotations

import json
import sys
import tomllib
from collections.abc import Callable
from functools import partial
from pathlib import Path

import scopecheck
from scopecheck.language import tables
from scopecheck.vocabulary import catalogue

DATA = Path(scopecheck.__file__).parent / "data"


def from_toml(name: str) -> str:
    """A TOML file of the data as JSON text, tables in the order written."""
    tables = tomllib.loads((DATA / name).read_text("utf-8"))
    return json.dumps(tables, ensure_ascii=False, indent=1) + "\n"


GENERATED: dict[str, Callable[[], str]] = {
    catalogue.INDEX: catalogue.index_text,
    tables.TABLES: tables.tables_text,
    "trade_words.json": partial(from_toml, "trade_words.toml"),
    "units.json": partial(from_toml, "units.toml"),
    "wording.json": partial(from_toml, "wording.toml"),
    "drill.json": partial(from_toml, "drill.toml"),
    "words.json": partial(from_toml, "words.toml"),
}


def main(names: list[str]) -> None:
    for name in names or GENERATED:
        (DATA / name).write_text(GENERATED[name](), "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
