"""Opens a page: a saved web page, JSON of schema.org, or plain text. Nothing is fetched, no script is run."""

from __future__ import annotations

import re
from pathlib import Path

from core.intake.pages.decode import decoded
from core.intake.pages.nodes import parsed, recipes_in
from core.intake.pages.pieces import RecipeText, require_recipe
from core.intake.pages.plain_text import plain_recipe
from core.intake.pages.schema_recipe import recipe_text
from core.intake.pages.web_page import page_inside, web_recipes
from core.measures.refusal import Refusal

MOST_BYTES = 10_000_000
"""The largest page that is opened."""

_IS_WEB = re.compile(
    r"<(?:!doctype html|html|head|body|div|script|article|section|meta|ul|ol|li|p|h1)\b", re.IGNORECASE
)
_IS_WHOLE = re.compile(r"\A\s*(?:[\[{])")
_IS_SAVED_AS_ONE = re.compile(
    rb"\A(?:[A-Za-z-]+:[^\n]*\n(?:[ \t][^\n]*\n)*){1,40}?MIME-Version:|\AMIME-Version:", re.IGNORECASE
)


def read_page(path: Path) -> tuple[RecipeText, ...]:
    """Return the recipes in a file, in its order; raise Refusal with its name where there are none."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refusal(
                f"{path.name} is larger than {MOST_BYTES // 1_000_000} MB, which no recipe is; save only its page."
            )
        data = path.read_bytes()
    except OSError as error:
        raise Refusal(
            f"{path.name} cannot be read ({error.strerror or error}); choose another file."
        ) from None
    return recipes_of(data, path.name)


def recipes_of(data: bytes, name: str = "the page") -> tuple[RecipeText, ...]:
    """Return the recipes in the bytes of a page; raise Refusal, naming it, where there are none."""
    if len(data) > MOST_BYTES:
        raise Refusal(
            f"{name} is larger than {MOST_BYTES // 1_000_000} MB, which no recipe is; save only its page."
        )
    if not data.strip():
        raise Refusal(f"{name} is empty; there is no recipe in it.")
    if _IS_SAVED_AS_ONE.match(data[:4000]):
        data = page_inside(data) or data
    text, remarks = decoded(data, name)
    found = _recipes_in(text, name)
    return tuple(RecipeText(each.text, each.pieces, (*each.remarks, *remarks)) for each in found)


def pasted(text: str) -> tuple[RecipeText, ...]:
    """Return the recipes in a text that was pasted: words, HTML or JSON; raise Refusal where there are none."""
    if len(text) > MOST_BYTES:
        raise Refusal("What was pasted is longer than any recipe; paste only the recipe's words.")
    if not text.strip():
        raise Refusal("Nothing was pasted; copy the recipe's words first.")
    return _recipes_in(text, "what was pasted")


def _recipes_in(text: str, name: str) -> tuple[RecipeText, ...]:
    is_json = _IS_WHOLE.match(text) is not None
    data = parsed(text) if is_json else None
    if is_json and data is None and '"@type"' in text:
        raise Refusal(
            f"{name} is JSON, but not well-formed, so that no recipe can be read from it; save it again."
        )
    if data is not None:
        nodes = recipes_in(data)
        if not nodes:
            raise Refusal(
                f"There is no recipe in {name}: its JSON has no schema.org Recipe. Choose another file."
            )
        return tuple(require_recipe(recipe_text(each), name) for each in nodes)
    found = web_recipes(text) if _IS_WEB.search(text, 0, 200_000) else (plain_recipe(text),)
    return tuple(require_recipe(each, name) for each in found)
