"""What the curing desk adds to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized


def cure_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme. There is no colour for "good" in it."""
    p = palette
    return f"""
    #cureCard {{ background: {p.lane}; border: 1px solid {p.line}; border-radius: 6px; }}
    #cureHead {{ background: {p.panel}; border: 0; border-left: 6px solid {p.rail}; }}
    #cureHead[mood="open"] {{ border-left: 6px solid {p.line}; }}
    #cureHead[mood="little"] {{ border: 2px solid {p.clash}; border-left: 6px solid {p.clash}; }}
    #cureHead[mood="over"] {{ background: {p.clash}; border: 2px solid {p.clash}; }}
    #cureHeadline {{ font-weight: bold; font-size: {sized(1.15)}; background: transparent; color: {p.ink}; }}
    #cureHead[mood="open"] #cureHeadline {{ color: {p.faint}; font-weight: normal; }}
    #cureHead[mood="over"] #cureHeadline {{ color: {p.on_clash}; }}
    #cureSign {{ background: transparent; }}
    #cureLines, #cureCautions {{ padding: 0 14px; background: transparent; }}
    #cureCautions {{ color: {p.ink}; padding-bottom: 10px; }}
    #cureTitle {{ font-weight: bold; padding: 0 14px; background: transparent; }}
    #cureNote {{ border: 0; }}
    #cureRight:focus {{ border: 2px solid {p.accent}; }}
    """
