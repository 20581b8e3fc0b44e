"""Solver symbols: conditions and numbers folded where they are settled, and the vocabulary's variables.

A `Vocabulary` gives what each declared name stands for in a query: variables, or the fixed values of one
article (then a formula becomes a condition on the readings alone).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from ctypes import CFUNCTYPE, c_bool, c_uint, c_void_p, cast
from fractions import Fraction
from functools import cache
from typing import Any, TypeAlias, assert_never

import z3

from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Bound, Op
from scopecheck.core.model import Sheet

Condition: TypeAlias = bool | z3.BoolRef
"""A condition that is settled before solving, or a solver formula."""
Number: TypeAlias = Fraction | z3.ArithRef

MIRROR: Mapping[Op, Op] = {"<": ">", "<=": ">=", "=": "=", "!=": "!=", ">=": "<=", ">": "<"}


# The library's own operators coerce and compare sorts on every call, and look for errors after each of
# several foreign calls, which took longer than solving. Here all conditions are Boolean and all numbers real
# (counts enter by `whole_to_real`), so terms are made by the foreign functions themselves; a term that could
# not be made comes back as a null pointer and is refused. What asserts and what checks goes through the
# library's wrappers, errors and all.

_CONTEXT = z3.main_ctx()
_REF = _CONTEXT.ref()
_POINTER, _COUNT = c_void_p, c_uint

z3.set_param("model.compact", False)  # compacting a model took longer than finding it
z3.set_param("smt.propagate_values", False)  # nor does looking for values before solving pay for itself


def _foreign(name: str, result: Any, *arguments: Any) -> Any:
    """A foreign function whose arguments are passed on as plain pointers; else the wrapper around it.

    The library keeps the function as a default of its wrapper.
    """
    wrapper = getattr(z3, name)
    kept = getattr((wrapper.__defaults__ or (None,))[-1], "f", None)
    address = cast(kept, c_void_p).value if kept is not None else None
    return CFUNCTYPE(result, *arguments)(address) if address is not None else wrapper


def _makers(names: str, *arguments: Any) -> list[Any]:
    """The functions that make terms, by name, each taking a context first."""
    return [_foreign(f"Z3_mk_{name}", z3.Ast, _POINTER, *arguments) for name in names.split()]


_AND, _OR, _ADD, _MUL = _makers("and or add mul", _COUNT, _POINTER)
_EQ, _LT, _LE, _GT, _GE = _makers("eq lt le gt ge", _POINTER, _POINTER)
_NOT, _TO_REAL = _makers("not int2real", _POINTER)
(_AT_MOST,) = _makers("atmost", _COUNT, _POINTER, _COUNT)
(_ITE,) = _makers("ite", _POINTER, _POINTER, _POINTER)
_KEEP = _foreign("Z3_inc_ref", None, _POINTER, _POINTER)
_DROP = _foreign("Z3_dec_ref", None, _POINTER, _POINTER)
_EVALUATE = _foreign("Z3_model_eval", c_bool, _POINTER, _POINTER, _POINTER, c_bool, _POINTER)
_SETTLED = {value: z3.BoolVal(value) for value in (True, False)}
_TRUE, _FALSE = _SETTLED[True].ast.value, _SETTLED[False].ast.value
"""Equal terms are the same: there is one that says true."""


class _Term(z3.ExprRef):  # type: ignore[misc]
    """A term of the one context that counts its references by the foreign functions."""

    def __init__(self, ast: Any) -> None:
        if not ast:
            raise z3.Z3Exception("a term could not be made")
        self.ast = ast
        self.ctx = _CONTEXT
        _KEEP(_REF, ast)

    def __del__(self) -> None:
        # At exit the context may be gone before its terms.
        if self.ctx.ctx is not None:
            _DROP(_REF, self.ast)


class _Bool(_Term, z3.BoolRef):  # type: ignore[misc]
    pass


class _Arith(_Term, z3.ArithRef):  # type: ignore[misc]
    pass


def _many(items: Sequence[z3.ExprRef]) -> tuple[int, Any]:
    return len(items), _list_type(len(items))(*[item.ast for item in items])


@cache
def _list_type(length: int) -> Any:
    return z3.Ast * length


def conjunction(items: Sequence[z3.BoolRef]) -> z3.BoolRef:
    return _Bool(_AND(_REF, *_many(items)))


def disjunction(items: Sequence[z3.BoolRef]) -> z3.BoolRef:
    return _Bool(_OR(_REF, *_many(items)))


def negation(item: z3.BoolRef) -> z3.BoolRef:
    return _Bool(_NOT(_REF, item.ast))


def assert_all(solver: z3.Solver, items: Iterable[z3.BoolRef]) -> None:
    for item in items:
        z3.Z3_solver_assert(_REF, solver.solver, item.ast)


def checked(solver: z3.Solver, assumed: Sequence[z3.BoolRef]) -> z3.CheckSatResult:
    return z3.CheckSatResult(z3.Z3_solver_check_assumptions(_REF, solver.solver, *_many(assumed)))


def surely_true_in(model: z3.ModelRef, item: z3.BoolRef) -> bool:
    """Is the condition true in the model, whatever becomes of what the model leaves open?

    Completing a model, even where nothing is open, takes three times as long.
    """
    return bool(_value_in(model, item, False).value == _TRUE)


def is_true_in(model: z3.ModelRef, item: z3.BoolRef) -> bool:
    """Is the condition true in the model, whatever the model leaves open being completed?"""
    value = _value_in(model, item, False).value
    if value not in (_TRUE, _FALSE):
        value = _value_in(model, item, True).value
    return bool(value == _TRUE)


def rational_in(model: z3.ModelRef, number: z3.ArithRef) -> Fraction | None:
    """The exact rational that the model gives a number; None for an irrational one."""
    for completed in (False, True):
        value = _value_in(model, number, completed)
        if value:
            kept = _Arith(value)
            if z3.Z3_get_ast_kind(_REF, kept.ast) == z3.Z3_NUMERAL_AST:
                above, _, below = z3.Z3_get_numeral_string(_REF, kept.ast).partition("/")
                return Fraction(int(above), int(below or 1))
    return None


def completed_in(model: z3.ModelRef, number: z3.ArithRef) -> z3.ArithRef:
    """What the number comes to in the model, whatever that leaves open being completed."""
    value = _value_in(model, number, False)
    if not value or z3.Z3_get_ast_kind(_REF, value) != z3.Z3_NUMERAL_AST:
        value = _value_in(model, number, True)
    return _Arith(value)


def _value_in(model: z3.ModelRef, item: z3.ExprRef, completed: bool) -> Any:
    """The term that the item comes to in the model, a null pointer where it comes to nothing."""
    value = _list_type(1)()
    _EVALUATE(_REF, model.model, item.ast, completed, value)
    return value[0]


def both(*items: Condition) -> Condition:
    kept = [item for item in items if item is not True]
    if any(item is False for item in kept):
        return False
    if not kept:
        return True
    return kept[0] if len(kept) == 1 else conjunction(kept)


def either(*items: Condition) -> Condition:
    kept = [item for item in items if item is not False]
    if any(item is True for item in kept):
        return True
    if not kept:
        return False
    return kept[0] if len(kept) == 1 else disjunction(kept)


def deny(item: Condition) -> Condition:
    return not item if isinstance(item, bool) else negation(item)


def at_least(items: Sequence[Condition], count: int) -> Condition:
    """That so many of the conditions hold."""
    open_items = [item for item in items if not isinstance(item, bool)]
    wanted = count - sum(1 for item in items if item is True)
    if wanted <= 0 or wanted > len(open_items):
        return wanted <= 0
    holds: z3.BoolRef = z3.AtLeast(*open_items, wanted)
    return holds


def at_most(items: Sequence[z3.BoolRef], count: int) -> z3.BoolRef:
    """That no more than so many of the conditions hold."""
    if count == len(items) - 1:
        return disjunction([negation(item) for item in items])
    return _Bool(_AT_MOST(_REF, *_many(items), count))


def as_bool(item: Condition) -> z3.BoolRef:
    return _SETTLED[item] if isinstance(item, bool) else item


def numeral(value: Fraction) -> z3.ArithRef:
    """The solver's numeral for an exact rational, by text: never by way of a binary float."""
    return _numeral(*value.as_integer_ratio())


@cache
def _numeral(above: int, below: int) -> z3.ArithRef:
    return z3.RealVal(f"{above}/{below}")


def as_number(value: Number) -> z3.ArithRef:
    return numeral(value) if isinstance(value, Fraction) else value


def whole_to_real(value: z3.ArithRef) -> z3.ArithRef:
    return _Arith(_TO_REAL(_REF, value.ast))


def plus(left: Number, right: Number) -> Number:
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        return left + right
    if isinstance(left, Fraction) and left == 0:
        return right
    if isinstance(right, Fraction) and right == 0:
        return left
    return _Arith(_ADD(_REF, *_many((as_number(left), as_number(right)))))


def times(left: Number, right: Number) -> Number:
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        return left * right
    for one, other in ((left, right), (right, left)):
        if isinstance(one, Fraction) and one in (0, 1):
            return other if one == 1 else Fraction(0)
    return _Arith(_MUL(_REF, *_many((as_number(left), as_number(right)))))


def choose(condition: Condition, then: Number, otherwise: Number) -> Number:
    if isinstance(condition, bool):
        return then if condition else otherwise
    picked = _ITE(_REF, condition.ast, as_number(then).ast, as_number(otherwise).ast)
    return _Arith(picked)


def relate(op: Op, left: Number, right: Number) -> Condition:
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        return _settled(op, left, right)
    a, b = as_number(left).ast, as_number(right).ast
    match op:
        case "<":
            return _Bool(_LT(_REF, a, b))
        case "<=":
            return _Bool(_LE(_REF, a, b))
        case "=":
            return _Bool(_EQ(_REF, a, b))
        case "!=":
            return negation(_Bool(_EQ(_REF, a, b)))
        case ">=":
            return _Bool(_GE(_REF, a, b))
        case ">":
            return _Bool(_GT(_REF, a, b))
        case _:
            assert_never(op)


def _settled(op: Op, left: Fraction, right: Fraction) -> bool:
    sign = (left > right) - (left < right)
    return {"<": sign < 0, "<=": sign <= 0, "=": sign == 0, "!=": sign != 0, ">=": sign >= 0, ">": sign > 0}[
        op
    ]


# ---- the vocabulary


class Vocabulary:
    """Solver variables for the declared names, the selectors and the parameters of a sheet."""

    fixed: Article | None = None

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.declarations: dict[str, Declaration] = {d.name: d for d in sheet.declarations}
        self.numbers: dict[str, z3.ArithRef] = {}
        self.wholes: dict[str, z3.ArithRef] = {}
        self.choices: dict[str, z3.ArithRef] = {}
        self.members: dict[tuple[str, str], z3.BoolRef] = {}
        # Numbered, not named by the sheet: no declared name can clash with another symbol.
        for i, d in enumerate(sheet.declarations):
            match d:
                case NumberDecl(whole=True):
                    self.wholes[d.name] = z3.Int(f"whole {i}")
                    self.numbers[d.name] = whole_to_real(self.wholes[d.name])
                case NumberDecl():
                    self.numbers[d.name] = z3.Real(f"number {i}")
                case ChoiceDecl():
                    self.choices[d.name] = z3.Int(f"choice {i}")
                case SetDecl():
                    for j, member in enumerate(d.members):
                        self.members[d.name, member] = z3.Bool(f"member {i}.{j}")
                case _:
                    assert_never(d)
        self.selectors = tuple(
            tuple(z3.Bool(f"reading {group.index}.{r}") for r in range(len(group.readings)))
            for group in sheet.groups
        )
        self.parameters = {p.key: z3.Real(f"stretch {i}") for i, p in enumerate(sheet.parameters)}
        self.second = {p.key: z3.Real(f"second stretch {i}") for i, p in enumerate(sheet.parameters)}
        self.grid = {d.name: z3.Int(f"grid {i}") for i, d in enumerate(sheet.declarations)}
        self.definitions: list[z3.BoolRef] = []
        self.wide_grid = {d.name: z3.Int(f"wide grid {i}") for i, d in enumerate(sheet.declarations)}

    def at_article(self, article: Article) -> Vocabulary:
        """The same selectors and parameters, with every declared name fixed to the article's value."""
        pinned = Vocabulary.__new__(Vocabulary)
        pinned.__dict__.update(self.__dict__)
        pinned.fixed = article
        pinned.wholes = {}
        return pinned

    def two_middle(self) -> tuple[z3.ArithRef, z3.ArithRef]:
        """Two more numbers, whose values a definition gives."""
        index = len(self.definitions)
        return z3.Real(f"lower middle {index}"), z3.Real(f"upper middle {index}")

    def define(self, definition: Condition) -> None:
        """Something that holds of every article, whatever else is asked."""
        self.definitions.append(as_bool(definition))

    def number(self, name: str) -> Number:
        if self.fixed is None:
            return self.numbers[name]
        value = self.fixed[name]
        assert isinstance(value, Fraction)
        return value

    def chosen(self, name: str, member: str) -> Condition:
        if self.fixed is not None:
            return self.fixed[name] == member
        declared = self.declarations[name]
        assert isinstance(declared, ChoiceDecl)
        return self.choices[name] == declared.members.index(member)

    def includes(self, name: str, member: str) -> Condition:
        if self.fixed is None:
            return self.members[name, member]
        value = self.fixed[name]
        assert isinstance(value, frozenset)
        return member in value

    def domain(self, name: str) -> list[z3.BoolRef]:
        """What the declaration alone demands of the name's value."""
        d = self.declarations[name]
        match d:
            case NumberDecl():
                return within(self.numbers[name], d.lower, d.upper)
            case ChoiceDecl():
                index = self.choices[name]
                return [index >= 0, index < len(d.members)]
            case SetDecl():
                return []
            case _:
                assert_never(d)

    def equals(self, name: str, value: object) -> z3.BoolRef:
        """That the name has exactly this value."""
        d = self.declarations[name]
        match d:
            case NumberDecl(whole=True):
                assert isinstance(value, Fraction)
                return self.wholes[name] == value.numerator if value.denominator == 1 else z3.BoolVal(False)
            case NumberDecl():
                assert isinstance(value, Fraction)
                return as_bool(relate("=", self.numbers[name], value))
            case ChoiceDecl():
                assert isinstance(value, str)
                return self.choices[name] == d.members.index(value)
            case SetDecl():
                assert isinstance(value, frozenset)
                has = [(self.members[name, m], m in value) for m in d.members]
                literals = [h if wanted else negation(h) for h, wanted in has]
                return as_bool(both(*literals))
            case _:
                assert_never(d)

    def article(self, model: z3.ModelRef) -> Article | None:
        """The article a model describes; None where a number is not rational."""
        values: dict[str, Fraction | str | frozenset[str]] = {}
        for name, d in self.declarations.items():
            match d:
                case NumberDecl():
                    number = rational_in(model, self.numbers[name])
                    if number is None:
                        return None
                    values[name] = number
                case ChoiceDecl():
                    index = rational_in(model, self.choices[name])
                    assert index is not None
                    values[name] = d.members[int(index)]
                case SetDecl():
                    values[name] = frozenset(m for m in d.members if is_true_in(model, self.members[name, m]))
                case _:
                    assert_never(d)
        return values


def within(value: z3.ArithRef, lower: Bound | None, upper: Bound | None) -> list[z3.BoolRef]:
    """That a value lies between two bounds, each of which may be missing."""
    limits: list[z3.BoolRef] = []
    if lower is not None:
        limits.append(as_bool(relate(">=" if lower.closed else ">", value, lower.value)))
    if upper is not None:
        limits.append(as_bool(relate("<=" if upper.closed else "<", value, upper.value)))
    return limits


def rational(value: z3.ExprRef) -> Fraction | None:
    """The exact rational a model value stands for; None for an irrational number."""
    if isinstance(value, z3.IntNumRef):
        return Fraction(value.as_long())
    if isinstance(value, z3.RatNumRef):
        return Fraction(value.numerator_as_long(), value.denominator_as_long())
    return None
