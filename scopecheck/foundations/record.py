"""Frozen, slotted records, as from `dataclasses.dataclass`, but defined fifteen times faster.

A start of the program defines some 150 record classes. The standard decorator compiles five or more methods
for each, 0.45 ms a class, more than all else that a start does; here equality, hash and repr are shared,
and `__init__` is made when a class is first used, from code that classes of the same shape share. Type
checkers see dataclasses. A class with cached properties keeps room for their values.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, cached_property
from operator import attrgetter
from types import CodeType, FunctionType
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")
_MISSING = object()


class _Field:
    __slots__ = ("compare", "default", "factory")

    def __init__(self, default: Any, factory: Callable[[], Any] | None, compare: bool) -> None:
        self.default = default
        self.factory = factory
        self.compare = compare


def field(
    *,
    default: Any = _MISSING,
    default_factory: Callable[[], Any] | None = None,
    compare: bool = True,
) -> Any:
    """A field with a default, one made anew each time, or no part in equality and hash (`compare=False`)."""
    return _Field(default, default_factory, compare)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """The class as a frozen record of its annotated names, in order; `__post_init__` runs if there is one."""
    return _made(cls, {**_FROZEN, "__eq__": _equal, "__hash__": _hash})


@dataclass_transform(frozen_default=True, eq_default=False, field_specifiers=(field,))
def node(cls: type[T]) -> type[T]:
    """As `record`, but each is equal to itself alone."""
    return _made(cls, _FROZEN)


@dataclass_transform(eq_default=False, field_specifiers=(field,))
def holder(cls: type[T]) -> type[T]:
    """As `node`, but what it holds may change."""
    return _made(cls, {})


def _frozen(self: Any, name: str, *_: Any) -> None:
    raise AttributeError(f"a {type(self).__name__} does not change: '{name}'")


_FROZEN: dict[str, Any] = {"__setattr__": _frozen, "__delattr__": _frozen}


def _made(cls: type[T], shared: dict[str, Any]) -> type[T]:
    """The class with slots. What else its fields ask for waits until the class is first used."""
    body = dict(cls.__dict__)
    names = tuple(body.get("__annotations__", {}))
    for name in ("__dict__", "__weakref__"):
        body.pop(name, None)
    given = {name: body.pop(name) for name in names if name in body}
    room = ("__dict__",) if any(isinstance(value, cached_property) for value in body.values()) else ()
    body.update(
        shared,
        __slots__=(*names, *room),
        __match_args__=names,
        __init__=_first_init,
        __repr__=_repr,
        __reduce__=_reduce,
        _record_given=given,
    )
    made: type[T] = type(cls)(cls.__name__, cls.__bases__, body)  # type: ignore[misc]
    return made


def replace(item: T, /, **changes: Any) -> T:
    """A copy of a record with some fields changed."""
    kept = {name: getattr(item, name) for name in type(item).__match_args__}  # type: ignore[attr-defined]
    return type(item)(**{**kept, **changes})


def _first_init(self: Any, *args: Any, **kwargs: Any) -> None:
    cls = type(self)
    cls._record_key = staticmethod(_key(cls))
    cls.__init__ = _init(cls)
    cls.__init__(self, *args, **kwargs)


def _key(cls: Any) -> Callable[[Any], Any]:
    """What two records are compared by."""
    given = {name: value for name, value in cls._record_given.items() if isinstance(value, _Field)}
    names = [name for name in cls.__match_args__ if name not in given or given[name].compare]
    return attrgetter(*names) if names else lambda _: ()


def _init(cls: Any) -> Callable[..., None]:
    """The `__init__` of a class: the code for its shape, given its names, its slots and its defaults."""
    names: tuple[str, ...] = cls.__match_args__
    given = {name: value for name, value in cls._record_given.items() if isinstance(value, _Field)}
    defaults = {**cls._record_given, **{name: f.default for name, f in given.items()}}
    factories = {name: f.factory for name, f in given.items() if f.factory}
    anew = tuple(i for i, name in enumerate(names) if name in factories)
    code = _code(len(names), anew, hasattr(cls, "__post_init__")).replace(co_varnames=("self", *names))
    scope = {f"set_{i}": getattr(cls, name).__set__ for i, name in enumerate(names)}
    scope.update({f"new_{i}": factories[names[i]] for i in anew}, missing=_MISSING)
    optional = [n for n in names if n in factories or defaults.get(n, _MISSING) is not _MISSING]
    return FunctionType(code, scope, "__init__", tuple(defaults[name] for name in optional))


@cache
def _code(count: int, anew: tuple[int, ...], checked: bool) -> CodeType:
    """The code of an `__init__` with so many fields, named by place; `anew` are those with a factory."""
    lines = [f"    if _{i} is missing: _{i} = new_{i}()" for i in anew]
    lines += [f"    set_{i}(self, _{i})" for i in range(count)]
    lines += ["    self.__post_init__()"] if checked else []
    scope: dict[str, Any] = {}
    heads = ", ".join(["self", *(f"_{i}" for i in range(count))])
    exec(f"def __init__({heads}):\n" + "\n".join(lines or ["    pass"]), scope)
    code: CodeType = scope["__init__"].__code__
    return code


def _equal(self: Any, other: Any) -> Any:
    if other.__class__ is not self.__class__:
        return NotImplemented
    return self is other or self._record_key(self) == self._record_key(other)


def _hash(self: Any) -> int:
    return hash((self.__class__, self._record_key(self)))


def _repr(self: Any) -> str:
    inside = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__match_args__)
    return f"{type(self).__qualname__}({inside})"


def _reduce(self: Any) -> tuple[Any, tuple[Any, ...]]:
    """How a copy is made elsewhere: by the class, from the values of the fields."""
    return type(self), tuple([getattr(self, name) for name in self.__match_args__])
