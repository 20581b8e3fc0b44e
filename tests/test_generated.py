"""Files made from others are as their sources are now."""

from __future__ import annotations

import re
import tomllib

import pytest

from tests.generated import DATA, GENERATED


@pytest.mark.parametrize("name", sorted(GENERATED))
def test_generated_file_is_up_to_date(name: str) -> None:
    saved = (DATA / name).read_text("utf-8")
    assert saved == GENERATED[name](), f"run python -m tests.generated {name}"


def test_lists_that_are_read_as_single_words_have_no_comma() -> None:
    lists = tomllib.loads((DATA / "words.toml").read_text("utf-8"))
    sources = "\n".join(path.read_text("utf-8") for path in DATA.parent.rglob("*.py"))
    asked = set(re.findall(r'\b(?:listed|words|word_list)\("(\w+)", "(\w+)"\)', sources))
    assert len(asked) > 100
    assert not [key for key in sorted(asked) if "," in lists[key[0]][key[1]]]
