"""The style sheet of the window's own parts, made from the palette: our paper, ink and enamel."""

from __future__ import annotations

from app.look import Palette
from app.look.type import sized
from app.places.food.dress import strip_sheet


def style_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return strip_sheet(p) + f"""
    #rail {{ background: {p.panel}; border-right: 1px solid {p.line}; }}
    #railButton {{ border: 0; border-left: 4px solid transparent; border-radius: 0; padding: 6px; color: {p.ink}; }}
    #railButton:hover {{ background: {p.lane}; }}
    #railButton:checked {{ background: {p.ground}; border-left: 4px solid {p.accent}; font-weight: bold; }}
    #railButton:focus {{ border: 2px solid {p.accent}; }}
    #strip {{ background: {p.lane}; border-bottom: 1px solid {p.line}; }}
    #stripName {{ font-weight: bold; font-size: {sized(1.125)}; }}
    #stripState {{ padding: 3px 12px; border-radius: 4px; font-weight: bold; }}
    #stripState[mood="meets"] {{ background: {p.legal}; color: {p.ink}; }}
    #stripState[mood="clash"] {{ background: {p.clash}; color: {p.on_clash}; }}
    #stripState[mood="waiting"] {{ background: {p.panel}; color: {p.ink}; }}
    #banner {{ border-bottom: 1px solid {p.line}; background: {p.panel}; }}
    #banner[mood="refusal"] {{ border-left: 6px solid {p.clash}; }}
    #banner[mood="news"] {{ border-left: 6px solid {p.accent}; }}
    #side {{ background: {p.lane}; border-left: 1px solid {p.line}; }}
    #heading {{ font-weight: bold; font-size: {sized(1.275)}; }}
    #soft {{ color: {p.faint}; }}
    #wrong {{ color: {p.clash}; }}
    #card {{ background: {p.lane}; border: 1px solid {p.line}; border-radius: 6px; }}
    #welcomeButton {{ outline: 0; text-align: left; padding: 14px 18px; border: 1px solid {p.line}; border-radius: 6px;
        background: {p.lane}; font-size: {sized(1.125)}; }}
    #welcomeButton:hover, #welcomeButton:focus {{ border: 2px solid {p.accent}; padding: 13px 17px; }}
    QMenu {{ background: {p.lane}; border: 1px solid {p.rail}; padding: 4px 0; }}
    QMenu::item {{ padding: 4px 2em 4px 2em; color: {p.ink}; }}
    QMenu::item:selected {{ background: {p.accent}; color: {p.on_accent}; }}
    QMenu::item:disabled {{ background: {p.lane}; color: {p.faint}; }}
    QMenu::separator {{ height: 1px; background: {p.line}; margin: 4px 8px; }}
    ReadingChoice QPushButton {{ background: {p.panel}; color: {p.ink}; border: 1px solid {p.rail};
        padding: 4px 14px; }}
    ReadingChoice QPushButton:checked {{ background: {p.accent}; color: {p.on_accent}; border-color: {p.accent}; }}
    ReadingChoice QPushButton:focus {{ border: 2px solid {p.ink}; padding: 3px 13px; }}
    QToolTip {{ border: 1px solid {p.rail}; padding: 6px; background: {p.lane}; color: {p.ink}; }}
    """
