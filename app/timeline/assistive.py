"""The painted timeline for assistive technology: a list whose items are the bars, with names and states.

Qt asks Python for these objects, so they are kept as long as their timeline shows the same bars. They offer no
actions of their own (Qt's casts cannot be overridden from Python): the keys and the menu of a bar do.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any
from weakref import ref

from PySide6.QtCore import QObject, QPoint, QRect
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QAccessibleInterface,
    QColor,
    QWindow,
)
from PySide6.QtWidgets import QAccessibleWidget

from app.timeline import walk
from app.timeline.bars import Bar

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


class BarItem(QAccessibleInterface):
    """One bar as a list item."""

    def __init__(self, whole: TimelineList, lane: int, bar: Bar) -> None:
        super().__init__()
        self.whole, self.lane, self.bar = whole, lane, bar

    def isValid(self) -> bool:
        """Tell whether the bar is still shown."""
        return self.whole.alive

    def object(self) -> QObject | None:  # type: ignore[override]  # None is what Qt's own virtual children give
        """Return None: a bar is no QObject."""
        return None

    def parent(self) -> QAccessibleInterface:
        """Return the timeline's list."""
        return self.whole

    def window(self) -> QWindow | None:  # type: ignore[override]  # as above
        """Return the window the timeline stands in."""
        return self.whole.timeline.window().windowHandle()

    def child(self, _index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # as above
        """Return None: bars have no parts."""
        return None

    def childAt(self, _x: int, _y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # as above
        """Return None: bars have no parts."""
        return None

    def childCount(self) -> int:
        """Return 0."""
        return 0

    def indexOfChild(self, _child: QAccessibleInterface) -> int:
        """Return -1: nothing is inside."""
        return -1

    def relations(self, *_match: Any) -> Sequence:  # type: ignore[override]  # Qt's default argument
        """Return no relations."""
        return []

    def role(self) -> QAccessible.Role:
        """Return what it is."""
        return QAccessible.Role.ListItem

    def state(self) -> QAccessible.State:
        """Return whether it can be chosen, alone and along with others, is chosen, and has the focus."""
        state = QAccessible.State()
        state.focusable = state.selectable = 1
        scene = self.whole.timeline.scene
        focused = scene.focus is self.bar
        state.focused = int(focused)
        state.multiSelectable = state.extSelectable = 1
        state.selected = int(focused or (self.bar.key is not None and self.bar.key in scene.also))
        return state

    def text(self, which: QAccessible.Text) -> str:
        """Return the name, or when, where and who."""
        from app.timeline import spoken

        scene = self.whole.timeline.scene
        if which == QAccessible.Text.Name:
            return spoken.name_of(scene, self.bar)
        if which == QAccessible.Text.Description:
            return spoken.state_of(scene, self.bar, scene.lanes[self.lane])
        return ""

    def setText(self, _which: QAccessible.Text, _text: str) -> None:
        """Take nothing: a bar is renamed in the Menu place."""

    def rect(self) -> QRect:
        """Return the bar's rectangle on the screen."""
        box = self.whole.timeline.scene.box(self.lane, self.bar)
        corner = self.whole.timeline.viewport().mapToGlobal(QPoint(round(box.x), round(box.y)))
        return QRect(corner.x(), corner.y(), round(box.w), round(box.h))

    def foregroundColor(self) -> QColor:
        """Return the colour of its text."""
        tone = self.whole.timeline.kit.tone(self.bar.tone)
        return tone.on_full if self.bar.full else tone.on_soft

    def backgroundColor(self) -> QColor:
        """Return the colour of its strip."""
        tone = self.whole.timeline.kit.tone(self.bar.tone)
        return tone.full if self.bar.full else tone.soft


class TimelineList(QAccessibleWidget):
    """The timeline as a list of its bars, lane after lane."""

    def __init__(self, timeline: Timeline) -> None:
        super().__init__(timeline, QAccessible.Role.List)
        self._seen = ref(timeline)  # Qt keeps this list for good; it must not keep the timeline
        self._scene: object = None
        self._items: list[BarItem] = []
        self._past: list[BarItem] = []

    @property
    def alive(self) -> bool:
        """Tell whether the timeline is still there."""
        return self._seen() is not None

    @property
    def timeline(self) -> Timeline:
        """Return the timeline."""
        timeline = self._seen()
        if timeline is None:
            raise RuntimeError("The timeline is gone, and a reader still asks for it.")
        return timeline

    def items(self) -> list[BarItem]:
        """Return the bars as items, made anew when the scene changed."""
        if not self.alive:
            return []
        scene = self.timeline.scene
        if self._scene is not scene:
            # those of the scene before may still be in a reader's hands for a moment
            self._past, self._scene = self._items, scene
            self._items = [BarItem(self, lane, bar) for lane, bar in walk.all_bars(scene)]
        return self._items

    def childCount(self) -> int:
        """Return how many bars there are."""
        return len(self.items())

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # None past the end
        """Return a bar."""
        items = self.items()
        return items[index] if 0 <= index < len(items) else None

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        """Return a bar's number."""
        items = self.items()
        return next((number for number, each in enumerate(items) if each is child), -1)

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]  # None without focus
        """Return the bar that has the focus."""
        return self.item_of(self.timeline.scene.focus) if self.alive else None

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # None beside
        """Return the bar under a point of the screen."""
        return next((each for each in self.items() if each.rect().contains(x, y)), None)

    def item_of(self, bar: Bar | None) -> BarItem | None:
        """Return the item of a bar."""
        return next((each for each in self.items() if each.bar is bar), None)


def install() -> None:
    """Let Qt find the list of every timeline; calling it again does no harm."""
    if not _installed:
        QAccessible.installFactory(_made)
        _installed.append(True)


def focused(timeline: Timeline, bar: Bar) -> None:
    """Tell a reader, if one listens, that a bar has the focus."""
    if QAccessible.isActive() and timeline.reader is not None:
        item = timeline.reader.item_of(bar)
        if item is not None:
            QAccessible.updateAccessibility(QAccessibleEvent(item, QAccessible.Event.Focus))


def announce(timeline: Timeline, text: str) -> None:
    """Say a sentence, if a reader listens."""
    if QAccessible.isActive() and text:
        event = QAccessibleAnnouncementEvent(timeline, text)
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
        QAccessible.updateAccessibility(event)


_installed: list[bool] = []


def _made(_name: str, thing: QObject) -> QAccessibleInterface | None:
    from app.timeline.timeline import Timeline

    if not isinstance(thing, Timeline):
        return None
    if thing.reader is None:
        thing.reader = TimelineList(thing)
    return thing.reader
