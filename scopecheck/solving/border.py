"""Does a thing lie directly beside a border, on the other side of it with a whole number one more or less?"""

from __future__ import annotations

from scopecheck.core.construction import Construction, names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Sheet
from scopecheck.core.ranges import Range
from scopecheck.solving.evaluate import meets


def beside_border(sheet: Sheet, article: Article, border: Formula, k: Construction) -> bool:
    """Would the thing change sides with one whole number more or less by one, within its bounds?"""
    spoken, side = names_in(border), meets(border, article, k)
    for d in sheet.declarations:
        if not isinstance(d, NumberDecl) or not d.whole or d.name not in spoken or d.name not in article:
            continue
        value = article[d.name]
        assert not isinstance(value, str | frozenset)
        for other in (value - 1, value + 1):
            if Range(d.lower, d.upper).holds(other) and meets(border, {**article, d.name: other}, k) != side:
                return True
    return False
