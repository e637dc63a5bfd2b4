"""What the lists add to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized


def lists_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #listDay {{ font-weight: bold; font-size: {sized(1.275)}; padding-top: 10px; }}
    #listAisle {{ font-weight: bold; color: {p.faint}; padding: 8px 0 2px 0; border-bottom: 2px solid {p.line}; }}
    #listWhat {{ font-weight: bold; }}
    #listFor {{ color: {p.faint}; }}
    #listTold {{ color: {p.faint}; }}
    #listRow {{ border: 0; border-bottom: 1px solid {p.line}; border-left: 5px solid transparent; }}
    #listRow[short="true"] {{ border-left: 5px solid {p.clash}; background: {p.lane}; }}
    #listShort {{ color: {p.clash}; font-weight: bold; }}
    #sheetList {{ background: transparent; border: 0; border-top: 1px solid {p.line};
        border-bottom: 1px solid {p.line}; outline: 0; }}
    #listPage {{ border: 2px solid transparent; }}
    #listPage:focus {{ border: 2px solid {p.accent}; }}
    #listEmpty {{ color: {p.faint}; padding: 20px; }}
    """
