"""What the bar of kept days adds to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette


def days_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #dayChip {{ border: 1px solid {p.line}; border-radius: 13px; padding: 2px 30px 2px 12px; color: {p.ink};
        background: {p.lane}; }}
    #dayChip:hover {{ border-color: {p.ink}; }}
    #dayChip:checked {{ border: 2px solid {p.accent}; padding: 1px 29px 1px 11px; font-weight: bold; }}
    #dayChip:focus {{ border: 2px solid {p.ink}; padding: 1px 29px 1px 11px; }}
    #dayChip::menu-button {{ width: 24px; border: 0; }}
    #quietFigure {{ border: 0; color: {p.faint}; padding: 2px 8px; text-align: right; background: transparent; }}
    #quietFigure:hover {{ color: {p.ink}; text-decoration: underline; }}
    #quietFigure:focus {{ border: 2px solid {p.accent}; padding: 0 6px; color: {p.ink}; }}
    #fitNote {{ background: {p.panel}; border-top: 1px solid {p.line}; border-left: 6px solid {p.clash}; }}
    #takeButton {{ background: {p.accent}; color: {p.on_accent}; border: 1px solid {p.accent};
        border-radius: 4px; padding: 3px 12px; }}
    #takeButton:focus {{ border: 2px solid {p.ink}; padding: 2px 11px; }}
    #moreButton {{ border: 0; color: {p.accent}; padding: 1px 6px; }}
    #moreButton:hover, #moreButton:focus {{ text-decoration: underline; }}
    """
