"""Keeps a widget in the colours of the moment, light or dark, whoever changes them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget

from app.look import Palette
from app.look.colours import palette_under

_CHANGED = (QEvent.Type.PaletteChange, QEvent.Type.ApplicationPaletteChange)


class Dressed(QObject):
    """Puts a palette on a widget now and whenever the one it stands on becomes another."""

    def __init__(self, widget: QWidget, put_on: Callable[[Palette], object]) -> None:
        super().__init__(widget)
        self._widget, self._put_on = widget, put_on
        self._worn: Palette | None = None
        self._dressing = False
        widget.installEventFilter(self)
        self._dress()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Follow the change between light and dark."""
        if event.type() in _CHANGED:
            self._dress()
        return False

    def _dress(self) -> None:
        palette = palette_under(self._widget.palette())
        if palette is self._worn or self._dressing:
            return
        self._worn, self._dressing = palette, True  # first: dressing makes such events itself
        try:
            self._put_on(palette)
        finally:
            self._dressing = False
