"""Writes a plan's tables as TOML that reads as if typed: short values in line, a header for each step."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

_WIDTH = 100
_BARE = re.compile(r"[A-Za-z0-9_-]+\Z")
_GROUPS = frozenset({"station", "cook", "dish", "step"})
"""Keys whose tables have names of their own."""
_TABLES = frozenset({"heater", "decisions"})
"""Keys that are a table with a header."""


def toml_page(tables: Mapping[str, Any]) -> str:
    """Return the TOML text of a plan's tables."""
    return "\n".join(_lines((), tables)).strip("\n") + "\n"


def _lines(place: tuple[str, ...], table: Mapping[str, Any]) -> Iterator[str]:
    later: list[tuple[str, Any]] = []
    for key, value in table.items():
        if key in _GROUPS | _TABLES | {"vessel", "link"} and value and isinstance(value, (dict, list)):
            later.append((key, value))
        else:
            yield from _assignment(key, value)
    for key, value in later:
        here = (*place, key)
        if key == "link":
            for each in value:
                yield from ("", f"[[{_dotted(here)}]]", *_lines(here, each))
        elif key == "vessel" and not place:
            yield from (
                "",
                f"[{_dotted(here)}]",
                *(f"{_key(name)} = {_inline(each)}" for name, each in value.items()),
            )
        elif key in _GROUPS:
            for name, each in value.items():
                yield from ("", f"[{_dotted((*here, name))}]", *_lines((*here, name), each))
        else:
            yield from ("", f"[{_dotted(here)}]", *_lines(here, value))


def _assignment(key: str, value: Any) -> Iterator[str]:
    line = f"{_key(key)} = {_inline(value)}"
    if not isinstance(value, list) or not value or len(line) <= _WIDTH:
        yield line
        return
    yield f"{_key(key)} = ["
    yield from (f"  {_inline(each)}," for each in value)
    yield "]"


def _inline(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        inner = ", ".join(f"{_key(key)} = {_inline(each)}" for key, each in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list):
        return f"[{', '.join(_inline(each) for each in value)}]"
    if isinstance(value, str):
        return _string(value)
    return repr(value)


def _string(text: str) -> str:
    # JSON's escapes are TOML's too, but TOML wants DEL escaped as well
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _key(key: str) -> str:
    return key if _BARE.match(key) else _string(key)


def _dotted(keys: tuple[str, ...]) -> str:
    return ".".join(_key(key) for key in keys)
