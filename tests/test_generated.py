"""Files made from others are as their sources are now."""

from __future__ import annotations

import pytest

from tests.generated import DATA, GENERATED


@pytest.mark.parametrize("name", sorted(GENERATED))
def test_generated_file_is_up_to_date(name: str) -> None:
    saved = (DATA / name).read_text("utf-8")
    assert saved == GENERATED[name](), f"run python -m tests.generated {name}"
