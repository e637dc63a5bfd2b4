"""From a schema.org Recipe (JSON-LD or microdata) to a recipe's text with its pieces.

Source of the vocabulary: schema.org, Recipe, HowTo, HowToSection, HowToStep, HowToDirection, PropertyValue,
QuantitativeValue. A list's order is that of `position` where all its members have one, else its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from core.intake.pages.html_tokens import plain_lines
from core.intake.pages.nodes import Node, as_list, get, short_name, types_of
from core.intake.pages.pieces import PieceKind, RecipeText, Writer
from core.intake.pages.plain_words import NUMBERED

UNIT_CODES = {
    "G21": "cup",
    "G24": "tbsp",
    "G25": "tsp",
    "GRM": "g",
    "KGM": "kg",
    "MGM": "mg",
    "MLT": "ml",
    "CLT": "cl",
    "DLT": "dl",
    "LTR": "l",
    "ONZ": "oz",
    "LBR": "lb",
    "OZA": "fl oz",
    "PTL": "pint",
    "QTL": "quart",
    "GLL": "gallon",
    "DZN": "dozen",
    "C62": "",
    "EA": "",
    "H87": "piece",
}
"""UN/CEFACT Recommendation 20 common codes. G21 is a cup by schema.org's own example; the others from memory."""

_DEEPEST = 12
_TIMES = (
    (PieceKind.PREPARING, "Preparing: ", ("prepTime",)),
    (PieceKind.COOKING, "Cooking: ", ("cookTime", "performTime")),
    (PieceKind.ALL_TIME, "In all: ", ("totalTime",)),
)
_TIPS = frozenset({"HowToTip"})


@dataclass(frozen=True, slots=True)
class _Direction:
    """One line of the method, the section that it stands in, and whether it is only a tip."""

    text: str
    section: str = ""
    is_tip: bool = False


def recipe_text(node: Node) -> RecipeText:
    """Return the text of a schema.org Recipe."""
    writer = Writer()
    title = _first_line(get(node, "name", "headline", "alternateName"))
    writer.line("", title, PieceKind.TITLE)
    writer.gap()
    writer.line("Serves: ", _yield(get(node, "recipeYield", "yield")), PieceKind.SERVES)
    for kind, label, names in _TIMES:
        writer.line(label, _duration(get(node, *names)), kind)
    lines = list(_ingredients(get(node, "recipeIngredient", "ingredients", "supply"), 0))
    if lines:
        writer.gap()
        writer.line("", "Ingredients")
        for line in lines:
            writer.line("", line, PieceKind.INGREDIENT)
    directions = list(_directions(get(node, "recipeInstructions", "step"), "", 0))
    if directions:
        writer.gap()
        writer.line("", "Method")
    section = ""
    for each in directions:
        if each.section != section:
            section = each.section
            writer.gap()
            writer.line("", section, PieceKind.HEADING, section)
        writer.line("", each.text, PieceKind.NOTE if each.is_tip else PieceKind.METHOD, section)
    return writer.recipe()


# ---------------------------------------------------------------- single values


def _texts(value: Any) -> Iterator[str]:
    """Yield the texts of a value that may be a string, a number, a node with a text or a list of these."""
    for each in as_list(value):
        if isinstance(each, str):
            yield from plain_lines(each)
        elif isinstance(each, (int, float)) and not isinstance(each, bool):
            yield f"{each:g}" if isinstance(each, float) else str(each)[:40]
        elif isinstance(each, dict):
            inner = get(each, "@value", "text", "name", "description")
            if isinstance(inner, (str, int, float)):
                yield from _texts(inner)


def _first(value: Any) -> Any:
    """Return a value, or the first of several, as microdata always has them."""
    return next(iter(as_list(value)), None)


def _first_line(value: Any) -> str:
    return next(_texts(value), "")


def _yield(value: Any) -> str:
    """Return what a recipe makes, in words where it says it twice ("4", "4 servings")."""
    found = [
        text
        for each in as_list(value)
        for text in ([_quantity(each)] if isinstance(each, dict) else _texts(each))
    ]
    return next((each for each in found if not each.isdigit()), found[0] if found else "")


def _duration(value: Any) -> str:
    """Return a duration as the page has it; of a range both ends."""
    one = _first(value)
    ends = [get(one, "minValue"), get(one, "maxValue")] if isinstance(one, dict) else []
    return " - ".join(_first_line(each) for each in ends if each is not None) or _first_line(value)


def _quantity(node: Node) -> str:
    """Return the words of a QuantitativeValue or PropertyValue: "3/4 cup"."""
    low, high = get(node, "minValue"), get(node, "maxValue")
    value = _first_line(get(node, "value"))
    if not value and low is not None and high is not None:
        value = f"{_first_line(low)}-{_first_line(high)}"
    value = value or _first_line(high if high is not None else low)
    code = short_name(_first_line(get(node, "unitCode")))
    unit = _first_line(get(node, "unitText")) or UNIT_CODES.get(code.upper(), code)
    return f"{value} {unit}".strip() or _first_line(get(node, "text", "name"))


# ---------------------------------------------------------------- ingredients


def _ingredients(value: Any, depth: int) -> Iterator[str]:
    """Yield the lines of ingredients in any of the forms: text, list, ItemList, PropertyValue, HowToSupply."""
    if depth > _DEEPEST:
        return
    for each in _in_order(as_list(value)):
        if isinstance(each, str):
            yield from plain_lines(each)
        elif isinstance(each, dict):
            inner = get(each, "itemListElement", "item")
            if inner is not None:
                yield from _ingredients(inner, depth + 1)
            elif line := _ingredient(each):
                yield line


def _ingredient(node: Node) -> str:
    needed = _first(get(node, "requiredQuantity"))
    name = _first_line(get(node, "name", "text"))
    if isinstance(needed, dict):
        return f"{_quantity(needed)} {name}".strip()
    if needed is not None:
        return f"{_first_line(needed)} {name}".strip()
    if get(node, "value", "minValue", "maxValue") is None:
        return name
    return f"{_quantity(node)} {name}".strip()


# ---------------------------------------------------------------- method


def _directions(value: Any, section: str, depth: int) -> Iterator[_Direction]:
    """Yield the lines of a method in any of the forms: text, list, ItemList, section, step, direction."""
    if depth > _DEEPEST:
        return
    for each in _in_order(as_list(value)):
        if isinstance(each, str):
            yield from (_Direction(_unnumbered(line), section) for line in plain_lines(each))
        elif isinstance(each, dict):
            yield from _of_node(each, section, depth)


def _of_node(node: Node, section: str, depth: int) -> Iterator[_Direction]:
    kinds = types_of(node)
    inner = get(node, "itemListElement", "step", "steps")
    if "HowToSection" in kinds:
        name = _first_line(get(node, "name", "headline"))
        yield from _directions(inner if inner is not None else get(node, "text"), name or section, depth + 1)
        return
    item = _first(get(node, "item"))
    if inner is None and isinstance(item, dict):
        yield from _of_node(item, section, depth + 1) if depth < _DEEPEST else ()
        return
    texts = list(_texts(get(node, "text")))
    if inner is not None and not texts:
        yield from _directions(inner, section, depth + 1)
        return
    for line in texts or list(_texts(get(node, "name", "description"))):
        yield _Direction(_unnumbered(line), section, bool(kinds & _TIPS))


def _unnumbered(line: str) -> str:
    """Return a line of a method without the number it begins with."""
    return line[met.end() :] if (met := NUMBERED.match(line)) else line


def _in_order(members: list[Any]) -> list[Any]:
    """Return members by their position where each has one, else as they stand."""
    places = [_position(each) for each in members]
    if len(members) < 2 or any(place is None for place in places):
        return members
    key: Callable[[int], float] = lambda number: places[number] or 0.0  # noqa: E731
    return [members[number] for number in sorted(range(len(members)), key=key)]


def _position(member: Any) -> float | None:
    place = _first(get(member, "position")) if isinstance(member, dict) else None
    try:
        return float(place) if isinstance(place, (int, float, str)) else None
    except (ValueError, OverflowError):
        return None
