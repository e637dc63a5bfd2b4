"""The typeface: Noto Sans, shipped with the program so that every machine shows the same, with even figures."""

from __future__ import annotations

from PySide6.QtGui import QFont, QFontDatabase, QGuiApplication

from resources import FONT_FAMILY, font_files

SMALL = 0.86
"""Share of the user's size for rulers, codes and figures."""
LARGE = 1.35
"""Share of the user's size for headings."""


def register() -> str:
    """Make the shipped face known to Qt and return its family name.

    Needs a QGuiApplication. Calling it again does no harm.
    """
    if FONT_FAMILY not in QFontDatabase.families():
        for path in font_files():
            QFontDatabase.addApplicationFont(str(path))
    return FONT_FAMILY


def face(share: float = 1.0, bold: bool = False, points: float | None = None) -> QFont:
    """Return the face at a share of the user's size, figures all of one width."""
    base = QGuiApplication.font()
    size = points if points is not None else max(base.pointSizeF(), 9.0)
    font = QFont(register())
    font.setPointSizeF(size * share)
    font.setBold(bold)
    font.setFeature(QFont.Tag("tnum"), 1)
    return font


def sized(share: float) -> str:
    """Return a share of the user's size as a style sheet writes it, so that headings grow with the text: "11.3pt"."""
    return f"{max(QGuiApplication.font().pointSizeF(), 9.0) * share:.1f}pt"
