"""What the tests of amendments share: two texts, joined and asked."""

from __future__ import annotations

from scopecheck.answers.amended import Amended, ask_amendment
from scopecheck.answers.amendment import Change
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.joined import Joined, joined
from scopecheck.resolve.sheet import read_sheet


def both(before: str, after: str) -> tuple[Joined | None, tuple[Diagnostic, ...]]:
    """The two texts, each without an error of its own, joined; and what is wrong between them."""
    read = [read_sheet(Source(name, text)) for name, text in (("old", before), ("new", after))]
    sheets = [sheet for sheet, _ in read]
    assert sheets[0] is not None, [d.message for d in read[0][1]]
    assert sheets[1] is not None, [d.message for d in read[1][1]]
    return joined(sheets[0], sheets[1])


def amended(before: str, after: str) -> Amended:
    """All that is told of the amendment; the two texts must go together."""
    made, wrong = both(before, after)
    assert made is not None, [d.message for d in wrong]
    return ask_amendment(made)


def change(before: str, after: str, number: int = 1) -> Change:
    """What changes of one claim of the amended set."""
    (found,) = [c for c in amended(before, after).changes if c.after and c.after.number == number]
    return found
