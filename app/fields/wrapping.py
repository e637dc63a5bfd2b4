"""Breaks a text into the lines that it takes at a width."""

from __future__ import annotations

from PySide6.QtGui import QFont, QTextLayout, QTextOption


def wrapped(text: str, font: QFont, width: float) -> list[str]:
    """Return a text in lines no wider than so many pixels, broken between words where that is possible."""
    layout = QTextLayout(text, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    found = []
    layout.beginLayout()
    while (line := layout.createLine()).isValid():
        line.setLineWidth(max(20, width))
        found.append(text[line.textStart() : line.textStart() + line.textLength()].strip())
    layout.endLayout()
    return found
