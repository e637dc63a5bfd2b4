"""The places of an open plan, by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from app.bridge import Arranger, OpenPlan
from app.places.kitchen import KitchenPlace
from app.places.menu import MenuPlace
from app.places.sheets_place import SheetsPlace
from app.places.timeline_place import TimelinePlace

if TYPE_CHECKING:
    from app.places.window import Window


@dataclass(frozen=True, slots=True)
class Places:
    """The widgets of one open plan."""

    menu: MenuPlace
    kitchen: KitchenPlace
    timeline: TimelinePlace
    sheets: SheetsPlace

    @property
    def widgets(self) -> dict[str, QWidget]:
        """Return them by the names of the rail."""
        return {"menu": self.menu, "kitchen": self.kitchen, "timeline": self.timeline, "sheets": self.sheets}

    def finish(self) -> None:
        """Take what is being typed, wherever it is."""
        self.menu.finish()
        self.kitchen.finish()
        self.sheets.finish()


def places_of(opened: OpenPlan, arranger: Arranger, window: Window) -> Places:
    """Make the places of an open plan and let them call the window."""
    timeline, sheets = TimelinePlace(opened, arranger), SheetsPlace(opened, window.settings)
    made = Places(MenuPlace(opened), KitchenPlace(opened), timeline, sheets)
    made.sheets.told.connect(window.banner.say)
    made.sheets.refused.connect(window.banner.refuse)

    def open_step(step: str) -> None:
        window.go("menu")
        made.menu.show_step(step)

    made.timeline.step_opened.connect(open_step)
    made.timeline.timeline.keys_wanted.connect(window.acts.show_keys)
    return made
