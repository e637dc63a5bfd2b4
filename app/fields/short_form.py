"""Reads the short lines of written plans as single fields, with the sentence that belongs to what is wrong."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from core.measures.refusal import Refusal, quoted


def read_short(entry: Any, text: str) -> Any:
    """Return the entry (a table of core.intake.text) that a short line stands for; raise Refusal if none."""
    try:
        return entry.model_validate(text)
    except Refusal:
        raise
    except ValueError as error:
        raise _refusal_in(error, entry, text) from None


def _refusal_in(error: ValueError, entry: Any, text: str) -> Refusal:
    for each in getattr(error, "errors", list)():
        raised = each.get("ctx", {}).get("error")
        if isinstance(raised, Refusal):
            return raised
    return Refusal(f"{quoted(text)} cannot be read here; write it as {entry.short}.")


def several(text: str) -> list[str]:
    """Return what stands between semicolons."""
    return [each for part in text.split(";") if (each := " ".join(part.split()))]


def shown(value: Any) -> str:
    """Return a short line, or what a table says where no line can."""
    if isinstance(value, dict):
        return ", ".join(f"{key} {each}" for key, each in value.items())
    return str(value)


def each_read(read: Callable[[str], Any]) -> Callable[[str], tuple[Any, ...]]:
    """Return a reader of several things with semicolons between them."""
    return lambda text: tuple(read(part) for part in several(text))


def each_shown(show: Callable[[Any], Any]) -> Callable[[Any], str]:
    """Return what shows several things with semicolons between them."""
    return lambda things: "; ".join(shown(show(each)) for each in things)
