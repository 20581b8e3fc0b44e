"""Which of like parts may change places in a formula without a difference to what it says.

Of such parts only one order need be looked at. A part changes places with all its fields and with what says
that it is there. Two formulas are the same here if they differ only in the order of what has no order.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction

from scopecheck.core.construction import Node, children, nodes
from scopecheck.core.declared import Part
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Chosen,
    Compare,
    CountOf,
    ExactlyOne,
    Formula,
    Greatest,
    Includes,
    Least,
    Measured,
    Ranked,
)

_IN_ANY_ORDER = (Add, All, Any, ExactlyOne, Least, Greatest)
_NAMING = (Measured, CountOf, Chosen, Includes)


def spoken_of(formula: Formula) -> Counter[str]:
    """How often a formula speaks of each declared name."""
    return Counter(node.name for node in nodes(formula) if isinstance(node, _NAMING))


def interchangeable(formula: Formula, part: Part, names: Counter[str]) -> frozenset[int]:
    """The indices of parts that may change places with each other; at least those it does not speak of.

    `names` is what the formula speaks of, and how often.
    """
    spoken: Counter[int] = Counter()
    for i, _, name in part.slots():
        if name in names:
            spoken[i] += names[name]
    everywhere = frozenset(range(1, part.most + 1))
    if not spoken:
        return everywhere
    usual = Counter(spoken[i] for i in everywhere).most_common(1)[0][0]
    kept = [i for i in sorted(everywhere) if spoken[i] == usual]
    first, *rest = kept
    turns = [dict(zip(kept, [*rest, first], strict=True)), dict(zip(kept[:2], kept[1::-1], strict=True))]
    known: dict[object, int] = {}
    plain = _Shapes(part, {}, known).of(formula)
    # Every change of places is made of the exchange of two and the turn of all.
    same = all(_Shapes(part, turn, known).of(formula) == plain for turn in turns)
    return frozenset(kept) if same else everywhere - set(spoken)


class _Shapes:
    """A number for each formula, the same for formulas that are the same once the parts have changed places.

    `turn` says which part comes in the place of which; `known` is shared by what is to be compared.
    """

    def __init__(self, part: Part, turn: Mapping[int, int], known: dict[object, int]) -> None:
        self.part = part
        self.turn = turn
        self.known = known
        self.names = {name: part.slot(turn.get(i, i), own) for i, own, name in part.slots()}
        self.seen: dict[int, int] = {}

    def of(self, node: Node) -> int:
        if id(node) not in self.seen:
            self.seen[id(node)] = self._number(self._shape(node))
        return self.seen[id(node)]

    def _number(self, shape: object) -> int:
        return self.known.setdefault(shape, len(self.known))

    def _shape(self, node: Node) -> object:
        if there := self.part.there(node):
            return "there", self.turn.get(there, there)
        inner = [self.of(child) for child in children(node)]
        if isinstance(node, _IN_ANY_ORDER) or (isinstance(node, Compare) and node.op in ("=", "!=")):
            inner.sort()
        elif isinstance(node, Ranked):
            half = len(node.items)
            inner = sorted(self._number(pair) for pair in zip(inner[:half], inner[half:], strict=True))
        own = tuple(
            self.names.get(str(value), value) if name == "name" else value
            for name in node.__match_args__
            if isinstance(value := getattr(node, name), str | int | Fraction | bool)
        )
        return type(node).__name__, own, tuple(inner)
