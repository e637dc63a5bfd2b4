"""Keys pressed on the timeline: looked up in the table of keys and done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QKeyEvent

from app.timeline.key_acts import Deciding, Going, Seeing
from app.timeline.key_focus import Entry
from app.timeline.key_table import by_chord, chord
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class Keys:
    """Does what a key asks of one timeline. `clash` is the one that was gone to last."""

    def __init__(self, timeline: Timeline) -> None:
        self.clash: Clash | None = None
        self._entry = Entry(timeline)
        self.deciding = Deciding(timeline)
        self._acts = (Going(timeline), self.deciding, Seeing(timeline))

    def handle(self, event: QKeyEvent) -> bool:
        """Do what a key asks; tell whether it asked for anything."""
        row = by_chord().get(chord(event.key(), event.modifiers()))
        if row is None:
            return False
        done = next(getattr(acts, row.act) for acts in self._acts if hasattr(acts, row.act))(*row.given)
        return done is not False
