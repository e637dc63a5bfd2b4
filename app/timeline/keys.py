"""The timeline's keys: one table from keys to what they do."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.timeline import walk
from app.timeline.sight import STEP

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline

Key = Qt.Key
_PLAIN = Qt.KeyboardModifier.NoModifier
_SHIFT = Qt.KeyboardModifier.ShiftModifier
_ALT = Qt.KeyboardModifier.AltModifier
_CTRL = Qt.KeyboardModifier.ControlModifier
_KNOWN = _SHIFT | _ALT | _CTRL


class Keys:
    """Does what a key asks of one timeline."""

    def __init__(self, timeline: Timeline) -> None:
        self._timeline = timeline
        sight = timeline.sight
        self._free: dict[Key, Callable[[], None]] = {
            Key.Key_Plus: lambda: sight.zoom(STEP),
            Key.Key_Equal: lambda: sight.zoom(STEP),
            Key.Key_Minus: lambda: sight.zoom(1 / STEP),
            Key.Key_0: timeline.fit_all,
            Key.Key_2: lambda: timeline.fit_last_hours(2),
            Key.Key_R: lambda: timeline.set_reading("dish" if timeline.reading == "station" else "station"),
            Key.Key_F: lambda: timeline.set_folded(not timeline.folded),
            Key.Key_Return: self._open,
            Key.Key_Enter: self._open,
            Key.Key_Delete: self._lift,
            Key.Key_Home: lambda: self._go(walk.first(timeline.scene)),
            Key.Key_End: lambda: self._go(walk.last(timeline.scene)),
            Key.Key_Menu: timeline.pointer.menu_at_focus,
        }

    def handle(self, event: QKeyEvent) -> bool:
        """Do what a key asks; tell whether it asked for anything."""
        key, held = Key(event.key()), event.modifiers() & _KNOWN
        if key is Key.Key_Escape:
            return self._timeline.pointer.let_go()
        if key in _ARROWS:
            return self._arrow(key, held)
        act = self._free.get(key)
        if act is None or held & (_ALT | _CTRL):
            return False
        act()
        return True

    def _arrow(self, key: Key, held: Qt.KeyboardModifier) -> bool:
        across, down = _ARROWS[key]
        scene, here = self._timeline.scene, self._timeline.focused
        if held & _ALT:
            if across:
                self._timeline.pointer.nudge(across * (1 if held & _SHIFT else 5))
            return bool(across)
        if here is None:
            self._go(walk.first(scene))
        elif held & _CTRL:
            self._go(walk.linked(scene, here, across or down))
        elif across:
            self._go(walk.along(scene, here, across))
        else:
            self._go(walk.across(scene, here, down))
        return True

    def _go(self, place: walk.Place | None) -> None:
        if place is not None:
            self._timeline.focus_on(*place, chosen=True)

    def _open(self) -> None:
        here = self._timeline.focused
        if here is not None and here[1].step is not None:
            self._timeline.step_opened.emit(here[1].step)

    def _lift(self) -> None:
        here = self._timeline.focused
        if here is not None and here[1].step is not None:
            self._timeline.pin_lifted.emit(here[1].step, here[1].load)


_ARROWS = {
    Key.Key_Left: (-1, 0),
    Key.Key_Right: (1, 0),
    Key.Key_Up: (0, -1),
    Key.Key_Down: (0, 1),
}
