"""Frozen records that load quickly.

A listing loads some thirty records before it prints a line. `dataclass(frozen=True, slots=True)`
compiles six functions for each, half a millisecond; here one is compiled and the rest are shared.
"""

from __future__ import annotations

from dataclasses import MISSING, FrozenInstanceError, dataclass, fields
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True)
def record(cls: type[T]) -> type[T]:
    """A frozen dataclass with slots: `fields`, `replace` and `asdict` work on its records.

    Fields have no default or a constant one; a record is equal to another of its own class.
    """
    made = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    defaults = {each.name: each.default for each in fields(made)}  # type: ignore[arg-type]
    for name, method in {"__init__": _init(cls, defaults), **_SHARED}.items():
        setattr(made, name, method)
    return made


def _init(cls: type, defaults: dict[str, Any]) -> Any:
    """`__init__` with the fields as its parameters, compiled once so that a call is quick."""
    parameters = [
        name if default is MISSING else f"{name}=defaults[{name!r}]"
        for name, default in defaults.items()
    ]
    lines = [f"  put(self, {name!r}, {name})" for name in defaults]
    source = "\n".join([f"def __init__(self, {', '.join(parameters)}):", *lines])
    scope: dict[str, Any] = {"put": object.__setattr__, "defaults": defaults}
    exec(source, scope)
    scope["__init__"].__qualname__ = f"{cls.__qualname__}.__init__"
    return scope["__init__"]


def _values(record: Any) -> tuple[Any, ...]:
    return tuple([getattr(record, name) for name in record.__match_args__])


def _equal(record: Any, other: object) -> object:
    if other.__class__ is not record.__class__:
        return NotImplemented
    return _values(record) == _values(other)


def _hash(record: Any) -> int:
    return hash(_values(record))


def _repr(record: Any) -> str:
    told = zip(record.__match_args__, _values(record), strict=True)
    return f"{type(record).__qualname__}({', '.join(f'{name}={value!r}' for name, value in told)})"


def _refuse(record: Any, name: str, value: object = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot change {name!r} of a {type(record).__name__}")


def _reduce(record: Any) -> tuple[type, tuple[Any, ...]]:
    """For `copy` and `pickle`, which would set the attributes of a record one by one."""
    return type(record), _values(record)


_SHARED = {
    "__eq__": _equal,
    "__hash__": _hash,
    "__repr__": _repr,
    "__setattr__": _refuse,
    "__delattr__": _refuse,
    "__reduce__": _reduce,
}
