"""A saved web page: its schema.org data and the words that a reader of it would see. Nothing is run or fetched."""

from __future__ import annotations

from email import message_from_bytes, policy
from itertools import islice
from typing import Any

from core.intake.pages.html_tokens import BLOCKS, Token, tokens
from core.intake.pages.microdata import Microdata
from core.intake.pages.nodes import Node, parsed, recipes_in
from core.intake.pages.pieces import MOST_CHARACTERS, PieceKind, RecipeText
from core.intake.pages.plain_text import plain_recipe
from core.intake.pages.schema_recipe import recipe_text

_LINKED_DATA = "application/ld+json"
_MOST_TOKENS = 400_000
"""Tags and bits of text of the longest page that is read to its end; a page of 2 MB has some 50,000."""
_UNSEEN = frozenset({"head", "nav", "footer", "button", "select", "option", "form", "aside"})
_HEADINGS = ("h2", "h3", "h4", "h5", "h6")
_SPOILT = "A block of recipe data on the page could not be read."


def web_recipes(page: str) -> tuple[RecipeText, ...]:
    """Return the recipes of a page: from JSON-LD, else from microdata, else from its words."""
    blocks, items, words = _walked(page)
    data = [parsed(each) for each in blocks]
    remarks = (_SPOILT,) if any(each is None for each in data) else ()
    nodes = _with_method(recipes_in(data)) or _with_method(recipes_in(items))
    if nodes:
        return tuple(_remarked(recipe_text(each), remarks) for each in nodes)
    found = plain_recipe(words)
    remarks = (
        *remarks,
        "The page has no recipe data of its own; its words were read instead, which may go wrong.",
    )
    return (_remarked(found, remarks),)


def page_inside(data: bytes) -> bytes | None:
    """Return the HTML inside of a page saved as one file (MHTML, RFC 2557), None where there is none."""
    message = message_from_bytes(data, policy=policy.default)
    for part in message.walk():
        if part.get_content_type() == "text/html":
            payload = part.get_payload(decode=True)
            return payload if isinstance(payload, bytes) else None
    return None


def _with_method(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the recipes that say anything; all of a page's other mentions of recipes are only titles."""
    return tuple(
        each
        for each in nodes
        if any(recipe_text(each).of(kind) for kind in (PieceKind.INGREDIENT, PieceKind.METHOD))
    )


def _remarked(recipe: RecipeText, remarks: tuple[str, ...]) -> RecipeText:
    return RecipeText(recipe.text, recipe.pieces, (*recipe.remarks, *remarks))


def _walked(page: str) -> tuple[list[str], list[Any], str]:
    """Return the page's JSON-LD blocks, its microdata items, and its words line by line."""
    blocks: list[str] = []
    microdata, words = Microdata(), _Words()
    for token in islice(tokens(page), _MOST_TOKENS):
        if token.kind == "raw" and token.name == "script":
            if _LINKED_DATA in token.attributes.get("type", "").lower():
                blocks.append(token.text)
            continue
        microdata.take(token)
        words.take(token)
    microdata.end()
    return blocks, list(microdata.items), words.text()


class _Words:
    """Gathers what a reader would see; list items and headings begin lines."""

    def __init__(self) -> None:
        self._found: list[str] = []
        self._length = 0
        self._title: list[str] = []
        self._unseen: dict[str, int] = dict.fromkeys(_UNSEEN, 0)
        self._has_heading = False

    def take(self, token: Token) -> None:
        """Take the next token of the page."""
        if token.kind == "raw":
            if token.name == "title" and not self._title:
                self._title.append(token.text)
            return
        if token.name in _UNSEEN:
            self._unseen[token.name] = max(0, self._unseen[token.name] + (1 if token.kind == "open" else -1))
        if token.name == "body":
            self._unseen["head"] = 0
        if token.kind == "text":
            if not any(self._unseen.values()) and self._length < MOST_CHARACTERS:
                text = token.text.replace("\n", " ")
                self._found.append(text)
                self._length += len(text)
        elif token.name in BLOCKS:
            blank = token.name in (*_HEADINGS, "h1", "p", "ul", "ol")
            if token.kind == "close" and token.name in _HEADINGS and self._found and self._found[-1].strip():
                self._found.append(":")
            self._found.append("\n\n" if blank else "\n")
            self._has_heading = self._has_heading or token.name == "h1"

    def text(self) -> str:
        """Return the words of the page; its title first where it has no heading of its own."""
        title = [] if self._has_heading else [*self._title[:1], "\n\n"]
        lines = (" ".join(each.split()) for each in "".join([*title, *self._found]).splitlines())
        return "\n".join(lines)
