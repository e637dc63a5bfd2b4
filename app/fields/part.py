"""A field of a thing: how its value is got from the thing, and what thing comes of another value."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from app.fields.spec import Spec


@dataclass(frozen=True, slots=True)
class Part:
    """A declared field with how it is got from a thing and put into it."""

    spec: Spec
    get: Callable[[Any], Any]
    put: Callable[[Any, Any], Any]


def attribute(spec: Spec) -> Part:
    """Return the field of the attribute that the spec's key names."""
    return Part(
        spec, lambda thing: getattr(thing, spec.key), lambda thing, value: replace(thing, **{spec.key: value})
    )


def by_key(parts: list[Part]) -> dict[str, Part]:
    """Return parts by the keys of their fields, in order."""
    return {each.spec.key: each for each in parts}


def values_of(parts: dict[str, Part], thing: Any) -> dict[str, Any]:
    """Return what each part shows of a thing."""
    return {key: part.get(thing) for key, part in parts.items()}
