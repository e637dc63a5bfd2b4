"""The wait of a link, typed where it stands in the picture: "10-30 min, on the counter"."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from app.fields import Line, Typed
from app.places.menu.flow_words import link_typed, wait_text
from core.plan.edits.parts import LinkKey
from core.plan.kitchen import Kitchen
from core.plan.menu import Link

_WIDE = 250  # px that a wait needs to be read while it is typed


class WaitLine(Line):
    """Takes a link with another wait. `shut`: nothing more is to be typed."""

    shut = Signal()

    def __init__(
        self, kitchen: Callable[[], Kitchen], take: Callable[[LinkKey, Link], str], parent: QWidget
    ) -> None:
        self._link: Link | None = None
        how = Typed(
            lambda text: link_typed(text, self._asked(), kitchen()),
            lambda link: "" if link is None else wait_text(link, kitchen()),
        )
        super().__init__(how, lambda link: take(self._asked().key, link), parent)
        self.setObjectName("flowWait")
        self.setAccessibleName(self.tr("How long the food waits, and how"))
        self.setPlaceholderText(self.tr("any time, on the counter"))
        self.setToolTip(
            self.tr("Such as: 10-30 min, on the counter; up to 2 h, in the fridge, 600 cm2, 12 cm; at once; held hot")
        )
        self.returnPressed.connect(self._entered)
        self.taken.connect(self._leave)
        self.hide()

    def ask(self, link: Link, area: QRectF, typed: str = "") -> None:
        """Be there over an area of the picture for the wait of a link; `typed` replaces what stands there."""
        self._link = link
        self.show_value(link, afresh=True)
        above = self.parentWidget()
        room = self.width() if above is None else above.width()
        wide = min(room, round(_WIDE * max(1.0, self.fontMetrics().height() / 18)))
        left = max(0, min(round(area.center().x() - wide / 2), room - wide))
        high = self.fontMetrics().height() + 12
        self.setGeometry(left, max(0, round(area.center().y() - high / 2)), wide, high)
        self.show()
        self.raise_()
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.selectAll()
        if typed:
            self.insert(typed)
            self.set_touched(True)

    @property
    def asks(self) -> Link | None:
        """Return the link whose wait is being typed."""
        return self._link if self.isVisible() else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape, with the wait as it was; no key goes on to the picture below."""
        if event.key() == Qt.Key.Key_Escape:
            self.drop()
        else:
            super().keyPressEvent(event)
        event.accept()

    def drop(self) -> None:
        """Leave, with the wait as it was."""
        if self._link is not None:
            self.show_value(self._link, afresh=True)
        self._leave()

    def _entered(self) -> None:
        if self.commit() and self.isVisible():
            self._leave()

    def _leave(self) -> None:
        if self.isVisible():
            self.hide()
            self.shut.emit()

    def _asked(self) -> Link:
        assert self._link is not None
        return self._link
