"""What the window holds of recipes before one is asked for: the rest is loaded then, and not at the start."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QMimeData, QObject

if TYPE_CHECKING:
    from app.places.recipe.bench import Bench
    from app.places.recipe.bringing import Bringing
    from app.places.window import Window
    from core.desk.desk import Desk

_PLANS = (".cookday", ".toml")


class Door(QObject):
    """Opens the place where recipes come in."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window
        self._made: Bringing | None = None

    @property
    def inside(self) -> Bringing:
        """Return what brings recipes in; made when it is first asked for."""
        if self._made is None:
            from app.places.recipe.bringing import Bringing

            self._made = Bringing(self._window)
        return self._made

    @property
    def shown(self) -> Bringing | None:
        """Return what brings recipes in, while its place is shown."""
        here = self._made is not None and self._window.stack.currentWidget() is self._made.place
        return self._made if here else None

    @property
    def undoing(self) -> Desk | Bench | None:
        """Return what undo and redo act on now: the recipe that is shown, else the plan."""
        if self.shown is not None:
            return self.shown.place.bench
        return self._window.opened.desk if self._window.opened is not None else None

    def show(self) -> None:
        """Show the recipe that is being read, or the page to paste on."""
        self.inside.show()

    def ask_file(self) -> None:
        """Ask for a saved page."""
        self.inside.ask_file()

    def undo(self) -> None:
        """Take back the last thing done to the recipe that is shown, else to the plan."""
        self._step("undo")

    def redo(self) -> None:
        """Do again what was taken back."""
        self._step("redo")

    def finish(self) -> None:
        """Take what is being typed, before the window shows something else or closes."""
        if self._made is not None:
            self._made.place.finish()

    def dropped(self, mime: QMimeData) -> None:
        """Open a plan that was dropped, or read a recipe: a page, a text, or words."""
        for url in mime.urls()[:1]:
            path = Path(url.toLocalFile())
            is_plan = path.suffix.lower() in _PLANS or (path.suffix.lower() == ".json" and _is_plan(path))
            if url.isLocalFile() and is_plan:
                self._window.open_path(path)
                return
        self.inside.dropped(mime)

    def _step(self, name: str) -> None:
        if self.shown is not None:
            self.shown.place.finish()
            getattr(self.shown.place.bench, name)()
        elif self._window.opened is not None:
            getattr(self._window.opened, name)()


def _is_plan(path: Path) -> bool:
    """Tell whether a JSON file is a plan: a saved recipe is JSON too."""
    from core.intake.text_plan import read_file
    from core.measures.refusal import Refusal

    try:
        if b"schema.org" in path.read_bytes()[:10_000_000]:
            return False
        read_file(path)
    except (Refusal, OSError):
        return False
    return True
