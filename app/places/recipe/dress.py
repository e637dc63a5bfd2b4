"""What the recipe page adds to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized


def recipe_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #recipeText, #recipePaste {{ background: {p.lane}; color: {p.ink}; border: 0; font-size: {sized(1.05)};
        selection-background-color: {p.accent}; selection-color: {p.on_accent}; }}
    #recipeText:focus {{ border: 2px solid {p.accent}; }}
    #recipePaste {{ border: 1px solid {p.rail}; border-radius: 4px; }}
    #recipePaste:focus {{ border: 2px solid {p.accent}; }}
    #recipeLegend {{ background: {p.panel}; color: {p.ink}; border: 0; }}
    #recipeName {{ font-weight: bold; font-size: {sized(1.2)}; }}
    #recipeHeading {{ font-weight: bold; padding-top: 6px; }}
    #askedPart {{ background: {p.panel}; border-bottom: 1px solid {p.line}; }}
    #askedList {{ background: transparent; border: 1px solid transparent; color: {p.ink}; outline: 0; }}
    #askedList::item {{ padding: 2px 6px; border-left: 4px solid transparent; }}
    #askedList::item:selected {{ background: {p.lane}; color: {p.ink}; border-left: 4px solid {p.accent}; }}
    #askedList:focus {{ border: 1px solid {p.accent}; }}
    #chip {{ background: {p.panel}; color: {p.ink}; border: 1px solid {p.line}; border-radius: 8px; padding: 0 7px;
        font-size: {sized(0.92)}; }}
    #chip:hover {{ border: 1px solid {p.accent}; }}
    #plainChip {{ color: {p.faint}; padding: 1px 4px; font-size: {sized(0.92)}; }}
    QLineEdit[missing="true"] {{ border-bottom: 2px solid {p.clash}; }}
    #recipeBar {{ background: {p.panel}; border-top: 1px solid {p.line}; }}
    QSplitter::handle {{ background: {p.line}; }}
    """
