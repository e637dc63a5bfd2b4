"""The colour of food limits in each theme: violet, unlike the clash and the enamel; its sign is no disc either."""

from __future__ import annotations

from app.look.colours import Palette

_BY_NAME = {
    "light": ("#65318E", "#FFFFFF"),
    "dark": ("#D3ABF5", "#1A1613"),
    "light strong": ("#4A0E78", "#FFFFFF"),
    "dark strong": ("#E5C8FF", "#000000"),
}


def food_colour(palette: Palette) -> str:
    """Return the colour (#RRGGBB) of a food limit's sign."""
    return _BY_NAME.get(palette.name, _BY_NAME["light"])[0]


def on_food(palette: Palette) -> str:
    """Return the colour of what is drawn or written on it."""
    return _BY_NAME.get(palette.name, _BY_NAME["light"])[1]
