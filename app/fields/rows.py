"""Rows in order: those that stay keep their widgets, so that focus, scroll and half-typed text stay too."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import Any, Generic, TypeVar

from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

Made = TypeVar("Made", bound=QWidget)


class Rows(QWidget, Generic[Made]):
    """Keeps a widget for each key."""

    def __init__(self, make: Callable[[Any], Made], spacing: int = 0, parent: QWidget | None = None) -> None:
        """Make widgets with `make` as keys come up."""
        super().__init__(parent)
        self._make = make
        self._kept: dict[Hashable, Made] = {}
        self._order: list[Hashable] = []
        self._guest: QWidget | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(spacing)

    def __iter__(self) -> Iterator[Made]:
        """Go through the widgets in order."""
        return (self._kept[key] for key in self._order)

    def __len__(self) -> int:
        """Count the widgets."""
        return len(self._order)

    @property
    def keys(self) -> tuple[Any, ...]:
        """Return the keys in order."""
        return tuple(self._order)

    def at(self, key: Hashable) -> Made | None:
        """Return the widget of a key, None when there is none."""
        return self._kept.get(key)

    def show_keys(self, keys: Sequence[Hashable]) -> bool:
        """Have a widget for each key, in this order; tell whether anything had to change."""
        if list(keys) == self._order:
            return False
        for key in set(self._order) - set(keys):
            gone = self._kept.pop(key)
            self._column.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        guest, self._guest = self._guest, None
        if guest is not None:
            self._column.removeWidget(guest)
        new = [key for key in keys if key not in self._kept]
        # each row shown lays out the whole page; where the focus is elsewhere, all are shown at once instead
        focused = QApplication.focusWidget()
        inside = focused is not None and self.isAncestorOf(focused)
        unseen = len(new) > 1 and self.isVisible() and not inside
        if unseen:
            self.hide()
        for at, key in enumerate(keys):
            if key not in self._kept:
                self._kept[key] = self._make(key)
            widget = self._kept[key]
            if self._column.indexOf(widget) != at:
                self._column.removeWidget(widget)
                self._column.insertWidget(at, widget)
                widget.show()  # not only when events come round, so that the cursor may go there
        if unseen:
            self.show()
        self._order = list(keys)
        if guest is not None:
            self.put_guest(guest)
        return True

    def put_guest(self, guest: QWidget, after: Hashable | None = None) -> None:
        """Show a widget that is no row after one of the rows, or last."""
        if self._guest is not None:
            self._column.removeWidget(self._guest)
        self._guest = guest
        at = self._order.index(after) + 1 if after in self._order else len(self._order)
        self._column.insertWidget(at, guest)
