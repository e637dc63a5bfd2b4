"""What is done to the line that is looked at: split, join, move, leave out, tick; each with a button and a key."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QApplication, QFrame, QWidget

from app.fields import a_button, with_key
from app.fields.row_wrap import RowWrap
from app.places.recipe.bench import Bench
from app.places.recipe.dish_pane import DishPane
from app.places.recipe.worked import Worked
from app.places.recipe.worked_change import changed, join, moved, split, thing_changed
from core.measures.refusal import Refusal


def _tr(words: str) -> str:
    return QCoreApplication.translate("recipe", words)


class RowActs(QFrame):
    """The buttons below the lines. `refuse` is called with why something was not done."""

    def __init__(self, bench: Bench, dish: DishPane, refuse: Callable[[str], object], where: QWidget) -> None:
        super().__init__()
        self.setObjectName("recipeBar")
        self._bench, self._dish, self._refuse = bench, dish, refuse
        self.tick = a_button(_tr("Tick as understood"), tip=_tr("Nothing more to ask about it; go on to the next"))
        self.split = a_button(_tr("Split"), tip=_tr("Split the step at the cursor"))
        self.join = a_button(_tr("Join with next"), tip=_tr("Join the step with the one below"))
        self.up = a_button(_tr("Up"), "up", _tr("Move the step up"), only_icon=True)
        self.down = a_button(_tr("Down"), "down", _tr("Move the step down"), only_icon=True)
        self.out = a_button(_tr("Leave out"), tip=_tr("Leave it out, or bring it back"))
        wrap = RowWrap(self, gap=6)
        wrap.setContentsMargins(10, 5, 10, 5)
        for button, keys, run in (
            (self.tick, "Ctrl+Return", self._tick_on),
            (self.split, "Alt+S", self._split),
            (self.join, "Alt+J", self._join),
            (self.up, "Alt+Up", lambda: self._move(-1)),
            (self.down, "Alt+Down", lambda: self._move(1)),
            (self.out, "Alt+X", self._leave_out),
        ):
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the cursor stays in the line that they act on
            wrap.addWidget(button)
            with_key(button, keys, where, run)

    def refresh(self) -> None:
        """Say whether the line looked at would be left out or brought back."""
        self.out.setText(_tr("Bring back") if self._is_out() else _tr("Leave out"))

    def _is_out(self) -> bool:
        worked, spot = self._bench.worked, self._dish.current
        if worked is None or spot is None:
            return False
        return worked.row(spot[1]).out if spot[0] == "step" else worked.things[spot[1]].out

    def _step_key(self) -> int | None:
        spot = self._dish.current
        if spot is None or spot[0] != "step":
            self._refuse(_tr("Put the cursor into a step first."))
            return None
        return spot[1]

    def _do(self, change: Callable[[Worked], tuple[Worked, int]], said: str, what: str = "") -> None:
        """Change the steps; the cursor goes to the step that the change returns."""
        worked = self._bench.worked
        if worked is None:
            return
        try:
            made, key = change(worked)
        except Refusal as refusal:
            self._refuse(str(refusal))
            return
        self._bench.change(made, said)
        self._dish.go_to(("step", key), what)

    def _split(self) -> None:
        at = self._dish.place_in_line()
        if (key := self._step_key()) is not None and self._dish.finish():
            self._do(lambda worked: split(worked, key, at, self._bench.reader), _tr("split"))

    def _join(self) -> None:
        if (key := self._step_key()) is not None and self._dish.finish():
            self._do(lambda worked: (join(worked, key, self._bench.reader), key), _tr("join"))

    def _move(self, by: int) -> None:
        if (key := self._step_key()) is not None and self._dish.finish():
            self._do(lambda worked: (moved(worked, key, by), key), _tr("order"))

    def _leave_out(self) -> None:
        worked, spot = self._bench.worked, self._dish.current
        if worked is None or spot is None:
            self._refuse(_tr("Put the cursor into a step or an ingredient first."))
            return
        out = not self._is_out()
        change = changed if spot[0] == "step" else thing_changed
        self._bench.change(change(worked, spot[1], out=out), _tr("leave out") if out else _tr("bring back"))
        if out and self._dish.rows[spot].isAncestorOf(QApplication.focusWidget() or self):
            self._dish.go_on(spot)

    def _tick_on(self) -> None:
        worked, spot = self._bench.worked, self._dish.current
        if worked is None or spot is None or not self._dish.finish():
            return
        worked = self._bench.worked or worked
        change = changed if spot[0] == "step" else thing_changed
        self._bench.change(change(worked, spot[1], understood=True), _tr("tick"))
        self._dish.go_on(spot)
