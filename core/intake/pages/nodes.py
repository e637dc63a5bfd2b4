"""schema.org data as it comes in JSON-LD: finds the recipes in it, however they are wrapped."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import islice
from typing import Any

Node = dict[str, Any]

_MOST_NODES = 200_000
_DEEPEST = 60
_MOST_RECIPES = 20
_WRAPPING = re.compile(r"\A\s*(?:<!--|//\s*<!\[CDATA\[|<!\[CDATA\[)|(?:-->|//\s*\]\]>|\]\]>)\s*;?\s*\Z")
_PREFIX = re.compile(r"(?:https?://(?:www\.)?schema\.org/|schema:)", re.IGNORECASE)


def parsed(text: str) -> Any | None:
    """Return JSON's value, None where it cannot be read. Line breaks inside of strings are borne."""
    text = _WRAPPING.sub("", text).strip().removeprefix("\ufeff")
    if not text:
        return None
    try:
        return json.loads(text, strict=False)
    except (ValueError, RecursionError):
        return None


def short_name(name: object) -> str:
    """Return a type or property without schema.org's address: "Recipe"."""
    return _PREFIX.sub("", name) if isinstance(name, str) else ""


def types_of(node: Node) -> frozenset[str]:
    """Return the types of a node."""
    return frozenset(short_name(each) for each in as_list(node.get("@type")))


def as_list(value: Any) -> list[Any]:
    """Return a value as a list: None is an empty one, anything single one of one."""
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def get(node: Node, *names: str) -> Any:
    """Return the first property of these names that is there and not empty."""
    for name in names:
        for spelt in (name, f"schema:{name}", f"https://schema.org/{name}", f"http://schema.org/{name}"):
            if node.get(spelt) not in (None, "", [], {}):
                return node[spelt]
    return None


def recipes_in(data: Any) -> tuple[Node, ...]:
    """Return the recipes anywhere in JSON-LD data, in its order, references to other nodes followed."""
    nodes = list(_nodes(data))
    by_id: dict[str, Node] = {}
    for node in nodes:
        name = node.get("@id")
        if isinstance(name, str) and len(node) > 1:
            by_id.setdefault(name, node)
    found = (node for node in nodes if "Recipe" in types_of(node))
    return tuple(_resolved(each, by_id) for each in islice(found, _MOST_RECIPES))


def _nodes(data: Any) -> Iterator[Node]:
    """Yield every table of JSON data, from the outside in, in its order; of a huge one the first part."""
    waiting, seen = [data], 0
    while waiting and seen < _MOST_NODES:
        here = waiting.pop()
        seen += 1
        if isinstance(here, dict):
            yield here
            waiting.extend(reversed(list(here.values())))
        elif isinstance(here, list):
            waiting.extend(reversed(here))


def _resolved(node: Node, by_id: dict[str, Node]) -> Node:
    """Return a recipe whose instructions and ingredients stand in it, not under a reference elsewhere."""
    budget = [_MOST_NODES]
    return {key: _followed(value, by_id, 0, budget) for key, value in node.items()}


def _followed(value: Any, by_id: dict[str, Node], depth: int, budget: list[int]) -> Any:
    budget[0] -= 1
    if depth > _DEEPEST or budget[0] < 0:
        return None
    if isinstance(value, list):
        return [_followed(each, by_id, depth + 1, budget) for each in value]
    if not isinstance(value, dict):
        return value
    if set(value) == {"@id"}:
        value = by_id.get(str(value["@id"]), value)
    return {key: _followed(each, by_id, depth + 1, budget) for key, each in value.items()}
