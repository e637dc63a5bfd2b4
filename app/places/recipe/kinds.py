"""Kinds of values in a recipe's text, and how each is marked there: by colour, and by weight and line below it."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QColor, QFont, QTextCharFormat

from app.look import Palette
from core.reading.line_value import Says

_Under = QTextCharFormat.UnderlineStyle


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind: its words, the tone's place in the palette, the line below it, and whether it is bold."""

    words: str
    tone: int
    line: _Under
    bold: bool = False

    def format(self, palette: Palette) -> QTextCharFormat:
        """Return how its phrases look."""
        tone = palette.tone(self.tone)
        found = QTextCharFormat()
        found.setBackground(QColor(tone.soft))
        found.setForeground(QColor(tone.on_soft))
        found.setUnderlineStyle(self.line)
        found.setUnderlineColor(QColor(tone.edge))
        if self.bold:
            found.setFontWeight(QFont.Weight.Bold)
        return found


def QT_TRANSLATE_NOOP(_context: str, words: str) -> str:  # the name that the translator's tool reads
    """Mark words for translation and return them."""
    return words


_ABOUT = Kind(QT_TRANSLATE_NOOP("recipe", "the dish"), 6, _Under.SingleUnderline)
_AMOUNT = Kind(QT_TRANSLATE_NOOP("recipe", "amount"), 2, _Under.DashUnderline)
_ITEM = Kind(QT_TRANSLATE_NOOP("recipe", "ingredient"), 4, _Under.DotLine)
_LENGTH = Kind(QT_TRANSLATE_NOOP("recipe", "length"), 0, _Under.SingleUnderline, bold=True)
_HEAT = Kind(QT_TRANSLATE_NOOP("recipe", "temperature"), 5, _Under.WaveUnderline)
_PLACE = Kind(QT_TRANSLATE_NOOP("recipe", "place"), 1, _Under.DashDotLine)
_DONE = Kind(QT_TRANSLATE_NOOP("recipe", "done when"), 3, _Under.DashDotDotLine)
_WAIT = Kind(QT_TRANSLATE_NOOP("recipe", "wait"), 2, _Under.DashUnderline, bold=True)

KINDS: dict[str, Kind] = {
    **dict.fromkeys(("name", "servings", "preparing", "cooking", "in_all"), _ABOUT),
    "quantity": _AMOUNT,
    **dict.fromkeys(("item", "preparation", "comment", "optional"), _ITEM),
    "length": _LENGTH,
    **dict.fromkeys(("heat", "core"), _HEAT),
    "kind": _PLACE,
    "doneness": _DONE,
    "wait": _WAIT,
}
"""By what the draft calls a value (`Origin.what`)."""

SAID: dict[Says, str] = {
    Says.LENGTH: "length",
    Says.HEAT: "heat",
    Says.CORE: "core",
    Says.PLACE: "kind",
    Says.CUE: "doneness",
    Says.WAIT: "wait",
    Says.KEEP: "wait",
}
"""What of the draft a phrase of a line comes from."""
