"""What the food's parts add to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized
from app.places.advice.dress import advice_sheet
from app.timeline.food_colours import food_colour, on_food


def food_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p, food = palette, food_colour(palette)
    return advice_sheet(palette) + f"""
    #foodPanel {{ background: {p.lane}; border: 0; border-top: 3px solid {food}; }}
    #foodPage {{ background: {p.ground}; }}
    #foodSide {{ background: {p.lane}; border-left: 1px solid {p.line}; }}
    #foodLine {{ text-align: left; border: 0; border-top: 1px solid {p.line}; padding: 5px 12px;
        background: {p.lane}; color: {p.ink}; }}
    #foodLine:hover {{ background: {p.panel}; }}
    #foodLine:focus {{ border: 2px solid {p.accent}; padding: 3px 10px; }}
    #foodHead {{ font-weight: bold; font-size: {sized(1.125)}; }}
    #foodLimit {{ color: {food}; font-weight: bold; }}
    QTableWidget {{ background: {p.lane}; color: {p.ink}; gridline-color: {p.line}; border: 1px solid {p.line};
        selection-background-color: {p.accent}; selection-color: {p.on_accent}; }}
    QTableWidget:focus {{ border: 2px solid {p.accent}; }}
    QHeaderView::section {{ background: {p.panel}; color: {p.ink}; border: 0; border-bottom: 1px solid {p.line};
        padding: 3px 6px; font-weight: bold; }}
    """


def strip_sheet(palette: Palette) -> str:
    """Return what the strip's state looks like where only food limits are missed."""
    return f"""#stripState[mood="food"] {{ background: {food_colour(palette)}; color: {on_food(palette)}; }}"""
