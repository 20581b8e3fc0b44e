"""Every property test fails where more than a small share of what it asks is left undecided."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.undecided import tally


@pytest.fixture(autouse=True)
def _hardly_any_undecided() -> Iterator[None]:
    tally.asked = tally.undecided = 0
    yield
    tally.hold()
