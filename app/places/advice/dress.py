"""What the advice adds to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized


def advice_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #advice {{ background: {p.lane}; border: 0; border-top: 3px solid {p.line}; }}
    #advicePage {{ background: {p.lane}; }}
    #adviceTitle {{ font-weight: bold; font-size: {sized(1.125)}; }}
    #adviceHeading {{ font-weight: bold; color: {p.ink}; }}
    #wishName {{ color: {p.faint}; font-weight: bold; }}
    #figure {{ font-weight: bold; font-size: {sized(1.425)}; }}
    #news {{ background: {p.panel}; border-left: 5px solid {p.accent}; padding: 6px 8px; }}
    #moreButton {{ border: 0; color: {p.accent}; padding: 1px 6px; background: transparent; }}
    #moreButton:hover, #moreButton:focus {{ text-decoration: underline; }}
    #takeButton {{ background: {p.accent}; color: {p.on_accent}; border: 1px solid {p.accent};
        border-radius: 4px; padding: 3px 12px; }}
    #takeButton:hover {{ border: 1px solid {p.ink}; }}
    #takeButton:focus {{ border: 2px solid {p.ink}; padding: 2px 11px; }}
    #takeButton:disabled {{ background: {p.panel}; color: {p.rail}; border: 1px solid {p.line}; }}
    """


def look_sheet(palette: Palette) -> str:
    """Return the style sheet of the line above the timeline that says that only a look is taken."""
    p = palette
    return f"""
    #lookLine {{ background: {p.panel}; border-top: 1px solid {p.line}; border-bottom: 2px solid {p.accent}; }}
    """
