"""Holds the recipes being worked on: takes what the cook does, undoes it, writes it down. Knows no widget of theirs."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal

from app.places.empty_plan import home_kitchen
from app.places.recipe.kept_tray import keep_tray, kept_tray, tray_path
from app.places.recipe.tray import Tray
from app.places.recipe.worked import Reader, Worked, begun
from core.intake.pages.pieces import RecipeText
from core.measures.refusal import Refusal
from core.plan.kitchen import Kitchen

MOST_SHEETS = 20
"""Recipes that lie side by side; a page with more of them is a book."""


class Bench(QObject):
    """`changed`: look again. `refused` carries why something was not kept."""

    changed = Signal()
    refused = Signal(str)

    def __init__(self, parent: QObject | None = None, path: Path | None = None) -> None:
        super().__init__(parent)
        self._path = path or tray_path()
        self.tray, self.complaint = kept_tray(self._path)
        self.reader = Reader(home_kitchen())
        self._kitchen: Kitchen | None = None
        self._past: list[tuple[Tray, str]] = []
        self._future: list[tuple[Tray, str]] = []

    @property
    def worked(self) -> Worked | None:
        """Return the recipe that is shown, None while there is none."""
        return self.tray.shown

    @property
    def undo_label(self) -> str | None:
        """Return what undo would take back."""
        return self._past[-1][1] if self._past else None

    @property
    def redo_label(self) -> str | None:
        """Return what redo would do again."""
        return self._future[-1][1] if self._future else None

    def follow(self, kitchen: Kitchen | None) -> None:
        """Read lines with the names of a kitchen; None: a usual one."""
        if kitchen is not self._kitchen or kitchen is None:
            self._kitchen = kitchen
            self.reader = Reader(kitchen or home_kitchen())

    def begin(self, recipes: tuple[RecipeText, ...], system: str) -> None:
        """Lay recipes beside those that are there, the first of them shown; raise Refusal where one is too long."""
        if len(recipes) + len(self.tray.sheets) > MOST_SHEETS:
            raise Refusal(
                f"There are {len(recipes)} recipes on this page; no more than {MOST_SHEETS} are worked on at once. "
                "Copy the words of those you want and paste them, or put away some that are here."
            )
        self._set(self.tray.with_more(tuple(begun(each, self.reader, system) for each in recipes)))

    def change(self, worked: Worked, said: str) -> None:
        """Take what the cook did to the recipe that is shown; `said` names it for undo."""
        if worked != self.worked:
            self._past.append((self.tray, said))
            self._future.clear()
            self._set(self.tray.with_shown(worked), fresh=False)

    def put_away(self) -> None:
        """Put the recipe that is shown aside."""
        self._set(self.tray.without_shown())

    def bring_back(self) -> None:
        """Show the recipe that was put aside last."""
        self._set(self.tray.with_aside_back())

    def show_next(self) -> None:
        """Show the next of several recipes."""
        if self.tray.sheets:
            self._set(Tray(self.tray.sheets, (self.tray.at + 1) % len(self.tray.sheets), self.tray.aside))

    def undo(self) -> None:
        """Take back what was done last to the recipe that is shown."""
        self._step(self._past, self._future)

    def redo(self) -> None:
        """Do again what was taken back."""
        self._step(self._future, self._past)

    def _step(self, away: list[tuple[Tray, str]], onto: list[tuple[Tray, str]]) -> None:
        if away:
            tray, said = away.pop()
            onto.append((self.tray, said))
            self._set(tray, fresh=False)

    def _set(self, tray: Tray, *, fresh: bool = True) -> None:
        if fresh:  # another recipe is shown: what was done to the one before is not undone out of sight
            self._past.clear()
            self._future.clear()
        self.tray = tray
        try:
            keep_tray(tray, self._path)
        except Refusal as refusal:
            self.refused.emit(str(refusal))
        self.changed.emit()
