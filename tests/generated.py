"""The data files that are made from others, because JSON is read ten times faster than what people edit.

`python -m tests.generated units.json` writes one anew after a change, without a name it writes all of them;
`test_generated.py` holds each to its source.
"""

from __future__ import annotations

import json
import re
import sys
import tomllib
from collections.abc import Callable, Iterable
from functools import partial
from itertools import product
from pathlib import Path

import scopecheck
from scopecheck.language import tables
from scopecheck.vocabulary import catalogue

DATA = Path(scopecheck.__file__).parent / "data"


def from_toml(name: str) -> str:
    """A TOML file of the data as JSON text, tables in the order written."""
    tables = tomllib.loads((DATA / name).read_text("utf-8"))
    return json.dumps(tables, ensure_ascii=False, indent=1) + "\n"


def words_text() -> str:
    """The word lists as JSON text, each run of words that a row says written out.

    In a row `<this/that>` is either, `[this/that]` may be left out, `@name` is a list of `[alternatives]`.
    """
    tables = tomllib.loads((DATA / "words.toml").read_text("utf-8"))
    lists = {name: "/".join(re.split(r",\s+", text)) for name, text in tables.pop("alternatives").items()}
    for name, rows in tables.items():
        if name.endswith("_runs") or name == "contractions" or "forms" in name:
            sides = (
                [re.sub(r"@(\w+)", lambda at: lists[at[1]], side) for side in row] for row in rows.items()
            )
            named = dict(sides)
            tables[name] = named if "forms" in name else _written_out(named)
    return json.dumps(tables, ensure_ascii=False, indent=1) + "\n"


_CHOICE = re.compile(r"<([^>]+)>|\[([^\]]+)\]")


def _written_out(rows: dict[str, str]) -> dict[str, str]:
    """The runs of words that rows say, and what is read in their place; none stands in two rows."""
    found = dict[str, str]()
    for said, put in rows.items():
        choices = [(either or f"{may_be}/").split("/") for either, may_be in _CHOICE.findall(said)]
        others = [either.split("/") for either, _ in _CHOICE.findall(put)]
        led_by = [_leading(other, choices, others) for other in others]
        for taken in product(*choices):
            at = [choice.index(word) for choice, word in zip(choices, taken, strict=True)]
            run = _filled(said, taken)
            assert run not in found, f"'{run}' stands in two rows"
            found[run] = _filled(put, (other[at[by]] for other, by in zip(others, led_by, strict=True)))
    return found


def _leading(other: list[str], choices: list[list[str]], others: list[list[str]]) -> int:
    """Which choice goes with one in what is read: the same, or the only one of as many that has no such."""
    same = [i for i, choice in enumerate(choices) if choice == other]
    as_many = [i for i, choice in enumerate(choices) if len(choice) == len(other) and choice not in others]
    assert len(same or as_many) == 1, f"no one choice goes with {other}"
    return (same or as_many)[0]


def _filled(text: str, words: Iterable[str]) -> str:
    rest = iter(words)
    return " ".join(_CHOICE.sub(lambda _: next(rest), text).split())


GENERATED: dict[str, Callable[[], str]] = {
    catalogue.INDEX: catalogue.index_text,
    tables.TABLES: tables.tables_text,
    "trade_words.json": partial(from_toml, "trade_words.toml"),
    "units.json": partial(from_toml, "units.toml"),
    "wording.json": partial(from_toml, "wording.toml"),
    "drill.json": partial(from_toml, "drill.toml"),
    "words.json": words_text,
}


def main(names: list[str]) -> None:
    for name in names or GENERATED:
        (DATA / name).write_text(GENERATED[name](), "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
