"""The recipes that are being worked on, and the one put away last. Values only; `kept_tray` writes them down."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.places.recipe.worked import Worked


@dataclass(frozen=True, slots=True)
class Tray:
    """Recipes side by side, `at` is the one shown; `aside` the one put away or taken last."""

    sheets: tuple[Worked, ...] = ()
    at: int = 0
    aside: Worked | None = None

    @property
    def shown(self) -> Worked | None:
        """Return the recipe that is shown, None while there is none."""
        return self.sheets[self.at] if 0 <= self.at < len(self.sheets) else None

    def with_more(self, sheets: tuple[Worked, ...]) -> Tray:
        """Return the tray with further recipes, the first of them shown."""
        return Tray((*self.sheets, *sheets), len(self.sheets), self.aside)

    def with_shown(self, worked: Worked) -> Tray:
        """Return the tray with the recipe that is shown as it is now."""
        sheets = (*self.sheets[: self.at], worked, *self.sheets[self.at + 1 :])
        return replace(self, sheets=sheets)

    def without_shown(self) -> Tray:
        """Return the tray without the recipe that is shown; it is put aside."""
        sheets = (*self.sheets[: self.at], *self.sheets[self.at + 1 :])
        return Tray(sheets, max(0, min(self.at, len(sheets) - 1)), self.shown)

    def with_aside_back(self) -> Tray:
        """Return the tray with the recipe that was put aside, shown."""
        if self.aside is None:
            return self
        return Tray((*self.sheets, self.aside), len(self.sheets), None)
