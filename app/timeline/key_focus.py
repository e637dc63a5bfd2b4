"""Coming to the timeline with the Tab key: the focus goes to the first bar in sight, in time and then by lane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QFocusEvent

from app.timeline import spoken, walk

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

_TABS = frozenset({Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason})


class Entry(QObject):
    """Gives the focus to a bar when one timeline is come to, so that a reader has something to say."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline)
        self._timeline = timeline
        timeline.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Say the focused bar again, or go to the first one in sight."""
        if watched is self._timeline and isinstance(event, QFocusEvent) and event.gotFocus():
            here = self._timeline.focused
            if here is not None:
                spoken.tell(self._timeline, here[1])
            elif event.reason() in _TABS:
                place = walk.first_in_sight(self._timeline.scene)
                if place is not None:
                    self._timeline.focus_on(*place, reveal=False)
        return super().eventFilter(watched, event)
