"""Dresses the whole program: style, face, and the light or dark palette, which may follow the system."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QStyleFactory

from app.look import type as faces
from app.look.colours import DARK, LIGHT, Palette, qpalette

Mode = Literal["system", "light", "dark"]


class _Follower(QObject):
    """Keeps the palette in step with the system while the mode is 'system'. Lives as a child of the application."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self.setObjectName("look")
        self.mode: Mode = "system"
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._scheme_changed)

    def _scheme_changed(self) -> None:
        if self.mode == "system":
            self.dress()

    def dress(self) -> None:
        """Give the application the palette of its mode."""
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.setPalette(qpalette(palette_for(self.mode)))


def palette_for(mode: Mode) -> Palette:
    """Return the palette of a mode; 'system' asks the desktop and takes light where it does not say."""
    if mode == "system":
        dark = QGuiApplication.styleHints().colorScheme() is Qt.ColorScheme.Dark
        return DARK if dark else LIGHT
    return DARK if mode == "dark" else LIGHT


def apply(app: QApplication, mode: Mode = "system") -> None:
    """Dress the application; call again to change the mode."""
    follower = app.findChild(_Follower, "look")
    if follower is None:
        app.setStyle(QStyleFactory.create("Fusion"))
        app.setFont(faces.face())
        follower = _Follower(app)
    follower.mode = mode
    follower.dress()
