"""Dresses the whole program: style, face, and the palette, light or dark, usual or strong; it may follow the system."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QStyleFactory

from app.look import type as faces
from app.look.colours import DARK, LIGHT, STRONG_DARK, STRONG_LIGHT, Palette, qpalette

Mode = Literal["system", "light", "dark", "light strong", "dark strong"]


class _Follower(QObject):
    """Keeps the palette in step with the system while the mode is 'system'. Lives as a child of the application."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self.setObjectName("look")
        self.mode: Mode = "system"
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._scheme_changed)
        hints.accessibility().contrastPreferenceChanged.connect(self._contrast_changed)

    def _scheme_changed(self) -> None:
        if self.mode == "system":
            self.dress()

    def _contrast_changed(self) -> None:
        """Follow a wish for more contrast in every mode that does not say itself how strong it is."""
        if not self.mode.endswith("strong"):
            self.dress()

    def dress(self) -> None:
        """Give the application the palette of its mode."""
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.setPalette(qpalette(palette_for(self.mode)))


def palette_for(mode: Mode) -> Palette:
    """Return the palette of a mode; 'system' asks the desktop and takes light where it does not say.

    Where the desktop asks for more contrast, light and dark are the strong ones.
    """
    hints = QGuiApplication.styleHints()
    dark = hints.colorScheme() is Qt.ColorScheme.Dark if mode == "system" else mode.startswith("dark")
    asked = hints.accessibility().contrastPreference() is Qt.ContrastPreference.HighContrast
    if asked or mode.endswith("strong"):
        return STRONG_DARK if dark else STRONG_LIGHT
    return DARK if dark else LIGHT


def apply(app: QApplication, mode: Mode = "system") -> None:
    """Dress the application; call again to change the mode."""
    follower = app.findChild(_Follower, "look")
    if follower is None:
        app.setStyle(QStyleFactory.create("Fusion"))
        app.setFont(faces.face())
        follower = _Follower(app)
    follower.mode = mode
    follower.dress()
