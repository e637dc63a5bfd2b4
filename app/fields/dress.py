"""The style sheet of the fields, made from the palette: lines of paper to write on, not boxes."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QWidget

from app.fields.buttons import dress_buttons
from app.fields.line import Line
from app.fields.paragraph import Paragraph
from app.look import Palette
from app.look.type import sized


def fields_sheet(palette: Palette) -> str:
    """Return the style sheet for a theme."""
    p = palette
    return f"""
    QLineEdit[field="line"], QPlainTextEdit[field] {{ background: transparent; color: {p.ink};
        border: 2px solid transparent; border-bottom: 1px solid {p.line}; border-radius: 0; padding: 2px;
        selection-background-color: {p.accent}; selection-color: {p.on_accent}; }}
    QLineEdit[field="line"]:hover, QPlainTextEdit[field]:hover {{ border-bottom: 1px solid {p.rail}; }}
    QLineEdit[field="line"]:focus, QPlainTextEdit[field]:focus {{ background: {p.lane};
        border: 2px solid {p.accent}; }}
    QLineEdit[wrong="true"], QPlainTextEdit[wrong="true"] {{ border-bottom: 2px solid {p.clash}; color: {p.clash}; }}
    QLineEdit[wrong="true"]:focus, QPlainTextEdit[wrong="true"]:focus {{ border: 2px solid {p.clash}; }}
    QToolButton[field="chevron"] {{ background: transparent; border: 0; }}
    QToolButton[field="chevron"]:hover {{ background: {p.panel}; }}
    #fieldLabel, #rowWords, #soft {{ color: {p.faint}; }}
    #wrong {{ color: {p.clash}; }}
    #title {{ font-weight: bold; font-size: {sized(1.275)}; }}
    #row {{ border: 0; border-bottom: 1px solid {p.line}; border-left: 5px solid transparent; }}
    #row[chosen="true"] {{ background: {p.lane}; border-left: 5px solid {p.accent}; }}
    #draft {{ border: 0; border-left: 5px solid transparent; }}
    #leaf {{ background: transparent; border: 0; border-bottom: 3px solid transparent; color: {p.faint};
        padding: 4px 12px; }}
    #leaf:hover {{ color: {p.ink}; border-bottom: 3px solid {p.line}; }}
    #leaf:checked {{ color: {p.ink}; font-weight: bold; border-bottom: 3px solid {p.accent}; }}
    #leaf:focus {{ background: {p.lane}; color: {p.accent}; }}
    #iconButton, #wordButton {{ outline: 0; background: {p.panel}; color: {p.ink}; border: 1px solid {p.line};
        border-radius: 4px; padding: 3px 6px; }}
    #wordButton {{ padding: 3px 12px; }}
    #iconButton:hover, #wordButton:hover {{ background: {p.lane}; border: 1px solid {p.rail}; }}
    #wordButton:checked {{ background: {p.lane}; border: 1px solid {p.accent}; color: {p.accent}; }}
    #iconButton:focus, #wordButton:focus {{ border: 2px solid {p.accent}; padding: 2px 5px; }}
    #wordButton:focus {{ padding: 2px 11px; }}
    #iconButton:disabled, #wordButton:disabled {{ color: {p.rail}; background: transparent; }}
    #paper {{ background: {p.ground}; border: 0; }}
    #bar {{ border-bottom: 1px solid {p.line}; }}
    #aside {{ background: {p.panel}; border: 0; border-top: 1px solid {p.line}; }}
    #card {{ background: {p.lane}; border: 1px solid {p.line}; border-radius: 6px; }}
    QScrollArea {{ border: 0; background: transparent; }}
    QScrollBar:vertical {{ background: transparent; border: 0; width: 13px; margin: 0; }}
    QScrollBar:horizontal {{ background: transparent; border: 0; height: 13px; margin: 0; }}
    QScrollBar::handle:vertical {{ background: {p.rail};
        min-height: 32px; margin: 2px 3px; border: 0; border-radius: 3px; }}
    QScrollBar::handle:horizontal {{ background: {p.rail};
        min-width: 32px; margin: 3px 2px; border: 0; border-radius: 3px; }}
    QScrollBar::handle:hover {{ background: {p.accent}; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; border: 0; background: transparent; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    """


@lru_cache(maxsize=16)
def chevron(colour: str) -> QIcon:
    """Return the mark that opens a list."""
    picture = QPixmap(32, 32)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 3.2))
    painter.drawPolyline([QPointF(8, 13), QPointF(16, 21), QPointF(24, 13)])
    painter.end()
    picture.setDevicePixelRatio(2)
    return QIcon(picture)


def dress_fields(top: QWidget, palette: Palette, more: str = "") -> None:
    """Give a place and all fields and buttons under it the colours of a theme; `more`: its own style sheet."""
    top.setStyleSheet(fields_sheet(palette) + more)
    dress_inside(top, palette)


def dress_inside(top: QWidget, palette: Palette) -> None:
    """Draw the icons of fields and buttons under a widget, such as one just made."""
    mark = chevron(palette.faint)
    for line in top.findChildren(Line):
        line.dress(mark)
    for paragraph in top.findChildren(Paragraph):
        paragraph.dress(mark)
    dress_buttons(top, palette.ink)
