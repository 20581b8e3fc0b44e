"""The shares of which nobody says of what whole they are."""

from __future__ import annotations

import re
from collections.abc import Iterable

from scopecheck.core.construction import names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Limitation, Sheet
from scopecheck.foundations.regex import regex
from scopecheck.report.wording import flat

_BASIS = (
    r"\b(?:by (?:weight|mass|volume|moles?|area|length|number|count)"
    r"|based on|relative to|compared (?:to|with)|over|per)\b"
)
_IN_A_NOTE = regex(rf"(?i)\bof\b|{_BASIS}")
_IN_A_NAME = regex(rf"(?i)\bof (?:the|a|an|its|their|all|total|each|every)\b|{_BASIS}")
"""What stands after a bare "of" in a name or a claim ("a share of water") may be the part, not the whole."""


def shares_of_nothing_said(sheet: Sheet) -> tuple[str, ...]:
    """The names of shares in a bare % that the claims limit, no note, name or word saying of what whole."""
    limitations = [x for c in sheet.claims for x in c.limitations]
    asked = names_in(*(x.formula for x in limitations))
    bare = [d for d in sheet.declarations if isinstance(d, NumberDecl) and d.name in asked]
    bare = [d for d in bare if d.unit.symbol == "%" and not d.kind.dimension and not d.kind.basis]
    return tuple(flat(d.name) for d in bare if not _whole_is_named(d, limitations))


def _whole_is_named(declared: NumberDecl, limitations: Iterable[Limitation]) -> bool:
    if _IN_A_NOTE.search(declared.note) or _IN_A_NAME.search(declared.name):
        return True
    own = regex(rf"(?i)\bof (?:the|a|an)? ?{re.escape(declared.name)}\b")
    words = (x.words for x in limitations if declared.name in names_in(x.formula))
    return any(_IN_A_NAME.search(own.sub("", text)) for text in words)
