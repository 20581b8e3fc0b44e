"""That each mutation of `tests.mutations` can still be made: one that cannot proves nothing."""

from __future__ import annotations

import pytest

from tests.mutations import MUTATIONS, ROOT, Mutation, inside


@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda m: m.name)
def test_the_text_it_replaces_stands_in_the_source_once(mutation: Mutation) -> None:
    source = (ROOT / inside(mutation.module)).read_text()
    assert source.count(mutation.old) == 1
    assert mutation.new != mutation.old
