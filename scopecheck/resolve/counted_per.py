"""A quantity called by what it counts and per what: `the number of weft threads per centimetre`."""

from __future__ import annotations

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.everyday import per_unit
from scopecheck.resolve.names import Names

_MOST = 8
"""Words of what is counted, and of the unit."""


def with_counted_named(tokens: tuple[Token, ...], names: Names) -> tuple[Token, ...]:
    """`1.5 times the number of weft threads per centimetre` by the name of what is noted to be that.

    Only the one quantity that is noted or, as a number of them, called so, of the unit that is said;
    a number directly before it counts them.
    """
    said = ["per" if t.text == "/" else word_of(t) for t in tokens]
    for per in (i for i, w in enumerate(said) if w == "per" and i):
        unit, end = per_unit(said, per)
        if unit is None:
            continue
        for start in range(max(per - _MOST, 0), per):
            lead = 2 if said[start : start + 2] == ["number", "of"] else 0
            counted = said[start + lead : per]
            found = [
                d
                for d in names.declarations.values()
                if isinstance(d, NumberDecl) and d.unit == unit
                and (_counts(d.note) == counted or (lead and d.name.lower().split() == counted))
            ]  # fmt: skip
            behind_number = start > 0 and tokens[start - 1].number is not None
            if counted and len(found) == 1 and not behind_number:
                first, last = tokens[start], tokens[end - 1]
                name = [replace(first, sort="word", text=w, end=last.end) for w in found[0].name.split()]
                return with_counted_named((*tokens[:start], *name, *tokens[end:]), names)
    return tokens


def _counts(note: str) -> list[str]:
    """What a note says is counted: `weft threads` of "number of weft threads per centimetre"."""
    said = [
        w for w in note.lower().split(",")[0].replace("/", " per ").split() if w not in ("the", "a", "an")
    ]
    said = said[2:] if said[:2] == ["number", "of"] else said
    at = said.index("per") if "per" in said else 0
    return said[:at] if at and per_unit(said, at)[1] == len(said) else []
