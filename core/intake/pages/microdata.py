"""HTML microdata (HTML Standard, section 5): items and properties of a page as nodes like those of JSON-LD.

Only what a recipe needs: itemscope, itemtype, itemprop and the values of properties; itemref is not followed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from core.intake.pages.html_tokens import BLOCKS, VOID, Token
from core.intake.pages.nodes import Node, short_name

_MOST_OPEN_VALUES = 40
_MOST_ITEMS = 20_000
_LOOK_BACK = 60
_ADDRESS = {
    **dict.fromkeys(("a", "area", "link"), "href"),
    **dict.fromkeys(("audio", "embed", "iframe", "img", "source", "track", "video"), "src"),
    "object": "data",
}
_CLOSED_BY_ITS_LIKE = {
    "li": (frozenset({"li"}), frozenset({"ul", "ol", "menu"})),
    "dt": (frozenset({"dt", "dd"}), frozenset({"dl"})),
    "dd": (frozenset({"dt", "dd"}), frozenset({"dl"})),
    "tr": (frozenset({"tr"}), frozenset({"table", "tbody", "thead"})),
    "td": (frozenset({"td", "th"}), frozenset({"tr"})),
    "p": (frozenset({"p"}), frozenset({"div", "li", "section", "article", "td", "body"})),
}
"""Elements whose end may be left out: what a new one of them ends, and what it does not reach beyond."""


@dataclass(slots=True)
class _Element:
    """An open element: the item it began, and the property whose text it gathers for an item around it."""

    name: str
    item: Node | None = None
    owner: Node | None = None
    properties: tuple[str, ...] = ()
    text: list[str] | None = field(default=None)


class Microdata:
    """Gathers the items of a page token by token."""

    def __init__(self) -> None:
        self.items: list[Node] = []
        self._open: list[_Element] = []
        self._names: Counter[str] = Counter()
        self._items: list[Node] = []
        self._gathering: list[list[str]] = []
        self._made = 0

    def take(self, token: Token) -> None:
        """Take the next token of the page."""
        if token.kind in ("text", "raw"):
            if token.kind == "text":
                self._say(token.text)
        elif token.kind == "open":
            self._break(token.name)
            self._opened(token)
        else:
            self._break(token.name)
            self._closed(token.name)

    def end(self) -> None:
        """Close all that is still open at the end of the page."""
        while self._open:
            self._pop()

    def _say(self, text: str) -> None:
        for each in self._gathering:
            each.append(text)

    def _break(self, name: str) -> None:
        if name in BLOCKS:
            self._say("\n")

    def _opened(self, token: Token) -> None:
        if token.name in _CLOSED_BY_ITS_LIKE:
            self._end_like(*_CLOSED_BY_ITS_LIKE[token.name])
        element = _Element(token.name)
        attributes = token.attributes
        properties = tuple(short_name(each) for each in attributes.get("itemprop", "").split()[:8])
        around = self._items[-1] if self._items else None
        if "itemscope" in attributes and self._made < _MOST_ITEMS:
            self._made += 1
            element.item = {
                "@type": [short_name(each) for each in attributes.get("itemtype", "").split()[:8]]
            }
            if around is not None and properties:
                _put(around, properties, element.item)
            else:
                self.items.append(element.item)
        elif properties and around is not None:
            self._value(element, token, around, properties)
        if token.name in VOID:
            return
        if element.item is not None:
            self._items.append(element.item)
        self._open.append(element)
        self._names[token.name] += 1

    def _value(self, element: _Element, token: Token, owner: Node, properties: tuple[str, ...]) -> None:
        attributes = token.attributes
        given = attributes.get("content")
        if given is None and token.name in ("data", "meter"):
            given = attributes.get("value", "")
        if given is None and token.name == "time":
            given = attributes.get("datetime")
        if given is None and token.name in _ADDRESS:
            given = attributes.get(_ADDRESS[token.name], "")
        if given is not None or token.name in VOID:
            _put(owner, properties, given or "")
        elif len(self._gathering) < _MOST_OPEN_VALUES:
            element.owner, element.properties, element.text = owner, properties, []
            self._gathering.append(element.text)

    def _closed(self, name: str) -> None:
        if not self._names[name]:
            return
        while self._open[-1].name != name:
            self._pop()
        self._pop()

    def _end_like(self, likes: frozenset[str], bounds: frozenset[str]) -> None:
        for element in reversed(self._open[-_LOOK_BACK:]):
            if element.name in bounds:
                return
            if element.name in likes:
                self._closed(element.name)
                return

    def _pop(self) -> None:
        element = self._open.pop()
        self._names[element.name] -= 1
        if element.item is not None:
            self._items.pop()
        if element.text is not None and element.owner is not None:
            # what gathers ends in the order opposite to its beginning, as elements do
            self._gathering.pop()
            _put(element.owner, element.properties, "".join(element.text))


def _put(item: Node, properties: tuple[str, ...], value: Any) -> None:
    for each in properties:
        item.setdefault(each, []).append(value)
