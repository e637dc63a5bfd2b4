"""The order in which Tab goes: as one reads, whatever the order in which widgets were made."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QScrollArea, QSplitter, QStackedWidget, QWidget


def tab_as_read(top: QWidget) -> None:
    """Let Tab go through everything under a widget from left to right and from top to bottom."""
    for one, other in pairwise(in_reading_order(top)):
        QWidget.setTabOrder(one, other)


def in_reading_order(widget: QWidget | None) -> Iterator[QWidget]:
    """Yield what Tab may stop at under a widget, by its layouts."""
    if widget is None:
        return
    if widget.focusProxy() is None and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
        yield widget
    if isinstance(widget, (QSplitter, QStackedWidget)):
        for at in range(widget.count()):
            yield from in_reading_order(widget.widget(at))
    elif isinstance(widget, QScrollArea):
        yield from in_reading_order(widget.widget())
    elif (layout := widget.layout()) is not None:
        yield from _in_layout(layout)


def _in_layout(layout: QLayout) -> Iterator[QWidget]:
    for at in range(layout.count()):
        item = layout.itemAt(at)
        if item is None:
            continue
        if (inside := item.layout()) is not None:
            yield from _in_layout(inside)
        else:
            yield from in_reading_order(item.widget())
