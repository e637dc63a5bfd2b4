"""Values of a plan as plain data and back: dataclasses, tuples, enums and fractions to what JSON can carry.

One converter serves every leaf that a plan file keeps as JSON text. All fields are written, defaults too,
so that a default that changes later does not change the plans already written.
"""

from __future__ import annotations

import dataclasses
import json
import types
import typing
from datetime import datetime
from enum import Enum
from fractions import Fraction
from functools import cache

# Anything more exact would have to refer to itself, which Python 3.11 can write only as a quoted alias.
Plain = None | bool | int | float | str | list[typing.Any] | dict[str, typing.Any]


class Unreadable(ValueError):
    """Say what of stored data does not fit the type wanted; `core.store.file` turns it into a refusal."""


def to_plain(value: object) -> Plain:
    """Return a value as plain data; raise TypeError for a kind of value that no plan holds."""
    if isinstance(value, Enum):
        return to_plain(value.value)
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, tuple):
        return [to_plain(each) for each in value]
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, datetime):
        return value.isoformat()
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {name: to_plain(getattr(value, name)) for name in field_types(type(value))}
    raise TypeError(f"a plan holds no {type(value).__name__}")


def from_plain(wanted: typing.Any, plain: object) -> typing.Any:
    """Return plain data as a value of the type wanted; raise Unreadable where it does not fit."""
    wanted = getattr(wanted, "__supertype__", wanted)
    form = typing.get_origin(wanted)
    if form in (typing.Union, types.UnionType):
        return _one_of(typing.get_args(wanted), plain)
    if form is tuple:
        return _tuple(typing.get_args(wanted), plain)
    if dataclasses.is_dataclass(wanted):
        return _dataclass(typing.cast("type", wanted), plain)
    if wanted is float and type(plain) is int:
        return plain
    if wanted in (bool, int, float, str, types.NoneType):
        if type(plain) is not wanted:
            raise Unreadable(f"{plain!r} is not of type {wanted.__name__}")
        return plain
    return _spelt(wanted, plain)


def encode(value: object) -> str:
    """Return a value as JSON text; raise Unreadable for numbers that JSON has no word for."""
    try:
        return json.dumps(to_plain(value), separators=(",", ":"), allow_nan=False)
    except ValueError as error:
        raise Unreadable(str(error)) from error


def decode(wanted: typing.Any, text: object) -> typing.Any:
    """Return what JSON text says as a value of the type wanted; raise Unreadable where it does not fit."""
    if not isinstance(text, str):
        raise Unreadable(f"{text!r} is not text")
    try:
        plain = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise Unreadable(f"not JSON: {error}") from error
    return from_plain(wanted, plain)


@cache
def field_types(kind: type) -> dict[str, typing.Any]:
    """Return the types of a dataclass's fields, by name, in order."""
    hints = typing.get_type_hints(kind)
    return {each.name: hints[each.name] for each in dataclasses.fields(kind)}


@cache
def required(kind: type) -> frozenset[str]:
    """Return the names of a dataclass's fields that have no default."""
    none = dataclasses.MISSING
    fields = dataclasses.fields(kind)
    return frozenset(each.name for each in fields if each.default is none and each.default_factory is none)


def _one_of(kinds: tuple[typing.Any, ...], plain: object) -> typing.Any:
    if plain is None and types.NoneType in kinds:
        return None
    others = [each for each in kinds if each is not types.NoneType]
    for kind in others[:-1]:
        try:
            return from_plain(kind, plain)
        except Unreadable:
            continue
    return from_plain(others[-1], plain)


def _tuple(kinds: tuple[typing.Any, ...], plain: object) -> tuple[typing.Any, ...]:
    if not isinstance(plain, list):
        raise Unreadable(f"{plain!r} is not a list")
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(from_plain(kinds[0], each) for each in plain)
    if len(kinds) != len(plain):
        raise Unreadable(f"{len(plain)} things where {len(kinds)} belong")
    return tuple(from_plain(kind, each) for kind, each in zip(kinds, plain, strict=True))


def _dataclass(kind: type, plain: object) -> typing.Any:
    hints = field_types(kind)
    if not isinstance(plain, dict):
        raise Unreadable(f"{plain!r} is not a {kind.__name__}")
    if unknown := sorted(plain.keys() - hints.keys()):
        raise Unreadable(f"a {kind.__name__} has no {unknown[0]!r}")
    if lacking := sorted(required(kind) - plain.keys()):
        raise Unreadable(f"a {kind.__name__} without its {lacking[0]!r}")
    return made(kind, {name: from_plain(hints[name], each) for name, each in plain.items()})


def made(kind: type, values: dict[str, typing.Any]) -> typing.Any:
    """Return a dataclass made of these fields; what its own checks refuse is Unreadable."""
    try:
        return kind(**values)
    except (ValueError, ArithmeticError) as error:
        raise Unreadable(f"not a {kind.__name__}: {error}") from error


def _spelt(wanted: typing.Any, plain: object) -> typing.Any:
    try:
        if wanted is Fraction and type(plain) in (str, int, float):
            return Fraction(typing.cast("str | int | float", plain))
        if wanted is datetime and isinstance(plain, str):
            return datetime.fromisoformat(plain)
        if isinstance(wanted, type) and issubclass(wanted, Enum):
            return wanted(plain)
    except (ValueError, ArithmeticError) as error:
        raise Unreadable(f"{plain!r} is no {wanted.__name__}") from error
    if isinstance(wanted, type):
        raise Unreadable(f"{plain!r} is no {wanted.__name__}")
    raise TypeError(f"a plan holds no {wanted!r}")
