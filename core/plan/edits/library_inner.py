"""Values of one kind inside other values, however deep: found, or made new. Nothing here changes in place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

Inner = TypeVar("Inner")
Outer = TypeVar("Outer")


def inside(value: object, kind: type[Inner]) -> Iterator[Inner]:
    """Yield what of a kind stands inside a value (dataclasses and tuples), in the order of its fields."""
    if isinstance(value, kind):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from inside(each, kind)
    elif is_dataclass(value):
        for field in fields(value):
            yield from inside(getattr(value, field.name), kind)


def mapped(value: Outer, kind: type[Inner], new: Callable[[Inner], Inner]) -> Outer:
    """Return a value in which everything of a kind is made new; what holds none of it is the same object."""
    made: Any = value
    if isinstance(value, kind):
        made = new(value)
    elif isinstance(value, tuple):
        parts = tuple(mapped(each, kind, new) for each in value)
        made = parts if any(one is not other for one, other in zip(parts, value, strict=True)) else value
    elif is_dataclass(value) and not isinstance(value, type):
        changed = {
            field.name: part
            for field in fields(value)
            if (part := mapped(was := getattr(value, field.name), kind, new)) is not was
        }
        made = replace(value, **changed) if changed else value
    result: Outer = made
    return result
