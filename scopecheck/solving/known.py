"""What was found and answered before in a session: it spares the solver many a question.

A thing found for one question often answers another one as well: each expression is looked at once in each of
the last things found. The same question is not asked twice. Expressions are known by their identity, so they
are held here, where it is not reused.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence

import z3

from scopecheck.foundations.record import holder
from scopecheck.solving.symbols import surely_true_in

MOST_LOOKED_AT = 24
"""So many things are looked at, the last ones: with more, looking takes longer than asking."""
MOST_THINGS = 400
MOST_EXPRESSIONS = 2000
"""Beyond these the next search begins with nothing known."""


@holder
class Seen:
    """An expression: in which of the things it was looked at, and in which of these it is true, as bits."""

    expression: z3.BoolRef
    looked: int = 0
    true: int = 0


class Known:
    """The things found and the answers given in searches that have in common what always holds."""

    def __init__(self) -> None:
        self._things: deque[z3.ModelRef] = deque(maxlen=MOST_LOOKED_AT)
        self._found = 0
        self._seen: dict[int, Seen] = {}
        self._answers: dict[frozenset[int], bool] = {}

    @property
    def is_full(self) -> bool:
        return len(self._seen) > MOST_EXPRESSIONS or self._found > MOST_THINGS

    def seen(self, expression: z3.BoolRef) -> Seen:
        """The expression with what is known of it, always the same object."""
        key: int = expression.ast.value
        found = self._seen.get(key)
        if found is None:
            found = self._seen[key] = Seen(expression)
        return found

    def answer(self, asked: Iterable[Seen]) -> bool | None:
        """Whether something meets all of these, if it was asked before."""
        return self._answers.get(frozenset(map(id, asked)))

    def note(self, asked: Iterable[Seen], answer: bool, thing: z3.ModelRef | None = None) -> None:
        """Keeps an answer in mind, and the thing that was found."""
        self._answers[frozenset(map(id, asked))] = answer
        if thing is not None:
            self._things.append(thing)
            self._found += 1

    def meeting(self, asked: Sequence[Seen]) -> z3.ModelRef | None:
        """The last of the things that meets all of these; None says nothing."""
        first = self._found - len(self._things)
        left = (1 << self._found) - (1 << first)
        for one in asked:
            left &= ~one.looked | one.true
        while left:
            index = left.bit_length() - 1
            thing = self._things[index - first]
            if _meets(thing, 1 << index, asked):
                return thing
            left ^= 1 << index
        return None


def _meets(thing: z3.ModelRef, bit: int, asked: Sequence[Seen]) -> bool:
    """Is each of these true in the thing? What was looked at before is."""
    for one in asked:
        if not one.looked & bit:
            one.looked |= bit
            if not surely_true_in(thing, one.expression):
                return False
            one.true |= bit
    return True
