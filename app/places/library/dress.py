"""What the cook's own dishes add to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized


def library_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #ownDishes {{ background: {p.ground}; border: 1px solid {p.line}; }}
    #ownDishes:focus {{ border: 2px solid {p.accent}; }}
    #ownPreview {{ background: {p.panel}; border: 1px solid {p.line}; }}
    #ownPreviewPaper {{ background: {p.panel}; }}
    #ownName {{ font-weight: bold; font-size: {sized(1.125)}; }}
    #ownHeading {{ font-weight: bold; }}
    #ownSearch {{ background: {p.lane}; color: {p.ink}; border: 1px solid {p.rail}; border-radius: 4px;
        padding: 4px 8px; font-size: {sized(1.125)}; selection-background-color: {p.accent};
        selection-color: {p.on_accent}; }}
    #ownSearch:focus {{ border: 2px solid {p.accent}; padding: 3px 7px; }}
    #ownNote, #keepNote {{ background: {p.panel}; border-bottom: 1px solid {p.line};
        border-left: 6px solid {p.accent}; }}
    #ownNote {{ border-top: 1px solid {p.line}; }}
    #ownNote[mood="refusal"], #keepNote[mood="refusal"] {{ border-left: 6px solid {p.clash}; }}
    #takeButton {{ background: {p.accent}; color: {p.on_accent}; border: 1px solid {p.accent};
        border-radius: 4px; padding: 3px 14px; font-weight: bold; }}
    #takeButton:focus {{ border: 2px solid {p.ink}; padding: 2px 13px; }}
    #takeButton:disabled {{ background: transparent; color: {p.rail}; border: 1px solid {p.line}; }}
    """
