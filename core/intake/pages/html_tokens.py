"""Cuts HTML into text, tags and raw blocks in one pass from left to right, whatever state it is in.

Each sign is looked at a few times at most, so that no page, however broken, takes long; the standard library's
parser may look at the rest of a broken page again and again. Nothing is run and nothing is fetched.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

_TAG_NAME = re.compile(r"[a-zA-Z][^\s/>]{0,60}")
_ATTRIBUTE = re.compile(
    r"""[\s/]*(?P<name>[^\s/>=]+)(?:\s*=\s*(?:"(?P<double>[^"]*)(?:"|\Z)|'(?P<single>[^']*)(?:'|\Z)|(?P<bare>[^\s>]*)))?"""
)
_TAG_END = re.compile(r"[\s/]*>")
_RAW = frozenset({"script", "style", "noscript", "template", "iframe", "object", "svg", "math"})
_TEXT_ONLY = frozenset({"title", "textarea"})
_CLOSING = {name: re.compile(rf"</{name}(?=[\s/>])", re.IGNORECASE) for name in _RAW | _TEXT_ONLY}
_MOST_ATTRIBUTES = 60

_BLOCK_NAMES = (
    "address article aside blockquote body br center dd details dialog div dl dt fieldset figcaption figure footer form"
    " h1 h2 h3 h4 h5 h6 head header hr html li main nav ol option p pre section summary table tbody td th thead"
    " tr ul"
)
BLOCKS = frozenset(_BLOCK_NAMES.split())
"""Elements before and after which a line breaks."""
_VOID_NAMES = "area base br col embed hr img input link meta param source track wbr"
VOID = frozenset(_VOID_NAMES.split())
"""Elements that have no end."""


@dataclass(frozen=True, slots=True)
class Token:
    """One bit of a page: `kind` is text, open, close or raw (a script's own text), `name` the element's."""

    kind: str
    name: str = ""
    text: str = ""
    attributes: dict[str, str] = field(default_factory=dict)


def tokens(page: str) -> Iterator[Token]:
    """Yield the tokens of a page. Comments and declarations are left out, entities are resolved."""
    at, end = 0, len(page)
    while at < end:
        less = page.find("<", at)
        if less < 0:
            less = end
        if less > at:
            yield Token("text", text=html.unescape(page[at:less]))
        if less == end:
            return
        at = less
        if page.startswith("<!--", at):
            at = _past(page, "-->", at + 4)
        elif page.startswith("<![CDATA[", at):
            close = page.find("]]>", at)
            yield Token("text", text=page[at + 9 : close if close >= 0 else end])
            at = close + 3 if close >= 0 else end
        elif page[at + 1 : at + 2] in ("!", "?"):
            at = _past(page, ">", at)
        elif page.startswith("</", at):
            met = _TAG_NAME.match(page, at + 2)
            if met:
                yield Token("close", met[0].lower())
            at = _past(page, ">", at)
        else:
            token, at = _opened(page, at)
            yield token
            if token.kind == "open" and token.name in _CLOSING:
                text, at = _raw(page, at, token.name)
                yield Token("raw", token.name, text, token.attributes)


def _past(page: str, mark: str, at: int) -> int:
    found = page.find(mark, at)
    return found + len(mark) if found >= 0 else len(page)


def _opened(page: str, at: int) -> tuple[Token, int]:
    met = _TAG_NAME.match(page, at + 1)
    if met is None:
        return Token("text", text="<"), at + 1
    name, at = met[0].lower(), met.end()
    attributes: dict[str, str] = {}
    while not (closed := _TAG_END.match(page, at)):
        found = _ATTRIBUTE.match(page, at)
        if found is None or found.end() == at:
            return Token("open", name, attributes=attributes), _past(page, ">", at)
        value = found["double"] or found["single"] or found["bare"] or ""
        if len(attributes) < _MOST_ATTRIBUTES:
            attributes.setdefault(found["name"].lower(), html.unescape(value))
        at = found.end()
    return Token("open", name, attributes=attributes), closed.end()


def _raw(page: str, at: int, name: str) -> tuple[str, int]:
    """Return the text of an element whose tags are not read, and where it ends; unclosed, it takes the rest."""
    met = _CLOSING[name].search(page, at)
    if met is None:
        return page[at:], len(page)
    text = page[at : met.start()]
    return (html.unescape(text) if name in _TEXT_ONLY else text), _past(page, ">", met.end())


def plain_lines(fragment: str) -> tuple[str, ...]:
    """Return the lines of a bit of text that may hold HTML, tags and entities resolved, empty lines left out."""
    text = fragment
    for _ in range(2):  # escaped HTML inside of escaped HTML is met in the wild
        if "<" not in text and "&" not in text:
            break
        text = "".join(_shown(each) for each in tokens(text))
    return tuple(line for each in text.splitlines() if (line := " ".join(each.split())))


def _shown(token: Token) -> str:
    if token.kind == "text":
        return token.text
    return "\n" if token.name in BLOCKS else ""
