"""What is measured from nothing said: shares of which nobody says of what whole, pressures over what."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from scopecheck.core.construction import names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Limitation, Sheet
from scopecheck.foundations.quantity import PLAIN, find_unit
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
    of_parts = {name: (own, part) for part in sheet.parts for _, own, name in part.slots()}
    found: dict[str, None] = {}
    for d in bare:
        own, part = of_parts.get(d.name, (d.name, None))
        has = (part.name, part.plural) if part else (d.name,)
        if not _whole_is_named(d, limitations, has):
            found[flat(f"{own} of each {part.name}" if part else own)] = None
    return tuple(found)


_PRESSURE = (find_unit("bar") or PLAIN).kind
_IN_PRESSURES_ALONE = regex(r"(?:m|k|h)?bar|m?torr|atm|mmHg|inHg")
_A_PRESSURE = regex(r"(?i)\bpressures?\b")
_FROM_WHERE = regex(
    r"(?i)\b(?:absolute|gau?ge|atmospher(?:e|ic)|ambient|vacuum|over|across|drop|loss|fall|rise|change"
    r"|differen(?:ce|tial)|partial|vapou?r|osmotic|capillary|contact|surface|sound|bearing|hydrostatic)\b"
)
"""What says from where a pressure counts, or that it is one of those for which that is no question."""


def pressures_over_nothing_said(sheet: Sheet) -> tuple[str, ...]:
    """The names of pressures that the claims limit, nothing saying whether absolute or over the air's."""
    limitations = [x for c in sheet.claims for x in c.limitations]
    asked = names_in(*(x.formula for x in limitations))
    found = []
    for d in sheet.declarations:
        if not isinstance(d, NumberDecl) or d.name not in asked or d.kind != _PRESSURE:
            continue
        called = f"{d.name} {d.note}"
        said = [x.words for x in limitations if d.name in names_in(x.formula)]
        named = _IN_PRESSURES_ALONE.fullmatch(d.unit.symbol) or _A_PRESSURE.search(called)
        if named and not any(map(_FROM_WHERE.search, (called, *said))):
            found.append(flat(d.name))
    return tuple(found)


def _whole_is_named(declared: NumberDecl, limitations: Iterable[Limitation], has: Sequence[str]) -> bool:
    """Whether its note, its name or words of its limits name a whole; what has the share (`has`) is none."""
    if _IN_A_NOTE.search(declared.note) or _IN_A_NAME.search(declared.name):
        return True
    names = "|".join(map(re.escape, has))
    own = regex(rf"(?i)\bof (?:the|a|an|each|each of the|all|all the)? ?(?:{names})\b")
    words = (x.words for x in limitations if declared.name in names_in(x.formula))
    return any(_IN_A_NAME.search(own.sub("", text)) for text in words)
