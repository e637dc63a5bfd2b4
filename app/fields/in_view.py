"""Brings a widget of a scrolled page into view."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QScrollArea, QWidget

_AROUND = 24  # px


def bring_into_view(page: QScrollArea, widget: QWidget | None) -> None:
    """Scroll a page until a widget on it is seen, once everything has its place."""
    if widget is not None:
        QTimer.singleShot(0, widget, lambda: page.ensureWidgetVisible(widget, 0, _AROUND))
