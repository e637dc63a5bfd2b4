"""What the Menu place adds to the fields' style sheet."""

from __future__ import annotations

from app.look import Palette


def menu_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    #dishPanel {{ background: {p.panel}; border: 0; border-right: 1px solid {p.line}; }}
    #dishes {{ background: {p.panel}; border: 0; }}
    #dishes:focus {{ border: 0; }}
    #number {{ color: {p.faint}; font-weight: bold; border: 1px solid {p.line}; border-radius: 13px; }}
    #number[chosen="true"] {{ background: {p.accent}; color: {p.on_accent}; border: 1px solid {p.accent}; }}
    QLineEdit#does, #stepDoes {{ font-weight: bold; }}
    #stepTold {{ color: {p.faint}; }}
    #stepWords {{ border: 2px solid transparent; border-radius: 4px; }}
    #stepWords:hover {{ border: 2px solid {p.line}; }}
    #stepWords:focus {{ border: 2px solid {p.accent}; }}
    QPlainTextEdit#cookLine[wrong="true"] {{ color: {p.ink}; }}
    #lineHelp {{ background: transparent; color: {p.accent}; border: 1px solid transparent; border-radius: 4px;
        padding: 2px 6px; text-decoration: underline; }}
    #lineHelp:hover {{ background: {p.panel}; }}
    #lineHelp:focus {{ border: 2px solid {p.accent}; padding: 1px 5px; }}
    #mender {{ background: {p.panel}; border: 2px solid {p.accent}; }}
    #menderTitle {{ font-weight: bold; }}
    #menderLine {{ background: {p.lane}; color: {p.ink}; border: 1px solid {p.rail}; padding: 3px; }}
    #menderLine:focus {{ border: 2px solid {p.accent}; padding: 2px; }}
    #detailsTitle {{ font-weight: bold; }}
    #detailsPaper {{ background: {p.panel}; }}
    #leftOpen {{ background: {p.panel}; border-bottom: 1px solid {p.line}; border-left: 6px solid {p.accent}; }}
    #flow {{ background: {p.ground}; }}
    #flowPanel {{ background: {p.ground}; border: 0; border-left: 1px solid {p.line}; }}
    #flowFoot {{ background: {p.panel}; border: 0; border-top: 1px solid {p.line}; }}
    #flowFinder {{ background: {p.lane}; border: 0; border-top: 2px solid {p.accent}; }}
    #flowFinder QLineEdit {{ background: {p.ground}; color: {p.ink}; border: 1px solid {p.rail}; padding: 3px; }}
    #flowFinder QLineEdit:focus {{ border: 2px solid {p.accent}; padding: 2px; }}
    #flowFound, #usualList {{ background: {p.ground}; color: {p.ink}; border: 1px solid {p.line}; }}
    #flowFound::item, #usualList::item {{ padding: 5px 6px; }}
    #flowFound::item:selected, #usualList::item:selected {{ background: {p.accent}; color: {p.on_accent}; }}
    QLineEdit#flowWait {{ background: {p.lane}; border: 2px solid {p.accent}; }}
    QLineEdit#flowWait[wrong="true"] {{ background: {p.lane}; border: 2px solid {p.clash}; color: {p.clash}; }}
    #usualTold {{ padding: 6px 12px; background: {p.ground}; }}
    #usual {{ background: {p.panel}; border: 2px solid {p.accent}; }}
    #scalePanel {{ background: {p.panel}; border: 0; border-left: 5px solid {p.line}; }}
    #scaleSays, #scaleTake {{ font-weight: bold; }}
    #scaleExact {{ color: {p.faint}; }}
    #scaleNote {{ border: 0; border-top: 1px solid {p.line}; }}
    #allergenButton {{ background: transparent; color: {p.faint}; border: 1px dashed {p.rail}; border-radius: 4px;
        padding: 2px 5px; }}
    #allergenButton[noted="true"] {{ color: {p.ink}; border: 1px solid {p.rail}; }}
    #allergenButton:hover, #allergenButton:checked {{ background: {p.lane}; border: 1px solid {p.accent}; }}
    #allergenButton:focus {{ border: 2px solid {p.accent}; padding: 1px 4px; }}
    #allergenAsks {{ color: {p.faint}; font-style: italic; }}
    #allergenOffer, #servingsOffer {{ background: {p.panel}; border: 0; border-left: 6px solid {p.accent}; }}
    #guestCaution {{ border: 0; border-bottom: 1px solid {p.line}; border-left: 5px solid {p.rail}; }}
    #guestCaution[grave="true"] {{ border-left: 5px solid {p.clash}; }}
    #wordButton[care="true"] {{ border-bottom: 3px solid {p.clash}; padding-bottom: 1px; }}
    #dishCaution {{ color: {p.clash}; }}
    #teaching {{ color: {p.faint}; padding: 8px 12px; }}
    QSplitter::handle {{ background: {p.line}; }}
    QSplitter::handle:horizontal {{ width: 3px; }}
    QSplitter::handle:vertical {{ height: 3px; }}
    """
