"""What the keys do in the flow of a dish."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeyEvent

from app.places.menu.flow_paint import Aim
from app.places.menu.flow_walk import Way, from_link, from_step, next_step

if TYPE_CHECKING:
    from app.places.menu.flow import FlowPaper

_WAYS = {
    Qt.Key.Key_Up: Way.UP,
    Qt.Key.Key_Down: Way.DOWN,
    Qt.Key.Key_Left: Way.LEFT,
    Qt.Key.Key_Right: Way.RIGHT,
}
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_GONE = (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)
_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)
_TYPED = (*_PLAIN, Qt.KeyboardModifier.ShiftModifier)


def keys_in_words() -> str:
    """Return what the keys do, one line each."""
    return QCoreApplication.translate(
        "FlowKeys",
        "Arrows: from step to link to step. L: link on from the chosen step; Shift+L: back to what comes before it; "
        "then arrows or a number and Enter, or type a step of any dish. On a link: F2, Enter or the first figure of "
        "its wait; Delete takes it out.",
    )


class FlowKeys:
    """Turns keys into what is wanted of the flow."""

    def __init__(self, paper: FlowPaper) -> None:
        self._paper = paper

    def is_own(self, event: QKeyEvent) -> bool:
        """Tell whether a key is for the flow before any menu or button has it."""
        key, plain = Qt.Key(event.key()), event.modifiers() in _TYPED
        own = key in (*_GONE, *_ENTER, *_WAYS, Qt.Key.Key_F2, Qt.Key.Key_L) or event.text().isalnum()
        return plain and own

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key asks; tell whether it asked anything."""
        if self._paper.picture is None or event.modifiers() not in _TYPED:
            return False
        if self._paper.aim is not None:
            return self._while_drawing(event)
        key = Qt.Key(event.key())
        if key in _WAYS and event.modifiers() in _PLAIN:
            return self._walk(_WAYS[key])
        if self._paper.held is not None:
            return self._on_link(key, event)
        return self._on_step(key, event)

    def _walk(self, way: Way) -> bool:
        paper, picture = self._paper, self._paper.picture
        if picture is None:
            return False
        link = paper.link
        if link is not None:
            there = from_link(picture, link, way)
        elif paper.marked is not None and paper.marked in picture.layout.boxes:
            there = from_step(picture, paper.marked, way)
        elif picture.steps:
            there = picture.steps[0]
        else:
            return False
        if isinstance(there, tuple):
            paper.hold(there)
        else:
            paper.choose(there)
        return True

    def _on_link(self, key: Qt.Key, event: QKeyEvent) -> bool:
        if key in _GONE:
            self._paper.removal_wanted.emit()
        elif key in (*_ENTER, Qt.Key.Key_F2):
            self._paper.wait_wanted.emit("")
        elif event.text().isdigit():
            self._paper.wait_wanted.emit(event.text())
        elif key == Qt.Key.Key_Escape:
            self._paper.hold(None)
        else:
            return False
        return True

    def _on_step(self, key: Qt.Key, event: QKeyEvent) -> bool:
        step = self._paper.marked
        if step is None:
            return False
        if key == Qt.Key.Key_L:
            forward = event.modifiers() is not Qt.KeyboardModifier.ShiftModifier
            self.draw(forward)
        elif key in (*_ENTER, Qt.Key.Key_F2):
            self._paper.opened.emit(step)
        else:
            return False
        return True

    def draw(self, forward: bool) -> None:
        """Begin a link at the chosen step, on to what comes after it or back to what comes before."""
        paper, picture = self._paper, self._paper.picture
        if picture is None or paper.marked is None or paper.marked not in picture.layout.boxes:
            return
        paper.setFocus(Qt.FocusReason.OtherFocusReason)
        over = next_step(picture, paper.marked, Way.DOWN if forward else Way.UP)
        paper.aim_at(Aim(paper.marked, forward, None if over == paper.marked else over))

    def _while_drawing(self, event: QKeyEvent) -> bool:
        paper, picture, aim = self._paper, self._paper.picture, self._paper.aim
        if picture is None or aim is None:
            return False
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape:
            paper.let_go()
        elif aim.point is not None:
            return False  # the mouse has it
        elif key in _WAYS:
            there = next_step(picture, aim.over or aim.step, _WAYS[key])
            paper.aim_at(replace(aim, over=there, typed=""))
        elif key in _ENTER:
            paper.land()
        elif event.text().isdigit():
            self._number(aim, event.text())
        elif event.text().strip() and event.text().isprintable():
            paper.let_go()
            paper.sought.emit(aim.step, aim.forward, event.text())
        else:
            return False
        return True

    def _number(self, aim: Aim, figure: str) -> None:
        """Aim at the step with the number typed; a figure that leads to no step begins a number anew."""
        picture = self._paper.picture
        steps = () if picture is None else picture.dish.steps
        for typed in (aim.typed + figure, figure):
            if 1 <= int(typed) <= len(steps):
                self._paper.aim_at(replace(aim, over=steps[int(typed) - 1].id, typed=typed))
                return
