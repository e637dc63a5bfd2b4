"""Shows the desk in the Menu place, where else the dish chosen stands; made when it is first asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.bridge import OpenPlan
from app.fields import a_button, dress_inside
from app.look.colours import palette_under
from app.places.cure.outcome import tr
from app.places.dressed import Dressed

if TYPE_CHECKING:
    from app.places.cure.desk import CureDesk
    from app.places.menu.menu_place import MenuPlace

KEYS = "Ctrl+B"


class DeskBeside:
    """Joins the desk with the place: the button, the way in and back. Its key is a command of the window."""

    def __init__(self, place: MenuPlace, opened: OpenPlan) -> None:
        self._place, self._opened = place, opened
        self._desk: CureDesk | None = None
        tip = tr("Reckon a cure, a brine or a fermentation, with limits and sources ({keys})").format(keys=KEYS)
        self.button = a_button(tr("Curing desk"), tip=tip)
        self.button.clicked.connect(lambda _checked=False: self.turn())

    @property
    def desk(self) -> CureDesk:
        """Return the desk."""
        if self._desk is None:
            from app.places.cure.desk import CureDesk

            self._desk = desk = CureDesk(self._opened)
            desk.left.connect(self._place.leave_mine)
            self._place.right.addWidget(desk)
            dress_inside(desk, palette_under(self._place.palette()))
            Dressed(desk, lambda _palette: desk.dress())
            self._opened.changed.connect(self._changed)
        return self._desk

    @property
    def shown(self) -> bool:
        """Tell whether the desk stands in the place of the dish."""
        return self._desk is not None and self._place.right.currentWidget() is self._desk

    def turn(self) -> None:
        """Show the desk, or the dish again."""
        if self.shown:
            self._place.leave_mine()
            return
        self._place.finish()
        desk = self.desk
        self._place.right.setCurrentWidget(desk)
        desk.begin(self._place.dishes.dish)

    def enter(self) -> None:
        """Show the desk, or go into it where it is shown."""
        if not self.shown:
            self.turn()
            return
        if not self.desk.isAncestorOf(self._place.window().focusWidget()):
            self.desk.leaf.enter()

    def _changed(self, _change: object) -> None:
        if self.shown:
            self.desk.refresh()
