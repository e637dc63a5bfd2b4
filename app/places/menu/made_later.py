"""A place that costs nothing until it is wanted: what is in it is made and dressed when it is first shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtWidgets import QWidget

from app.fields import Entered, dress_fields
from app.look import Palette
from app.places.dressed import Dressed


class MadeLater(Entered):
    """Its class names its parts in annotations; `_make` makes them all, when it or one of them is first wanted."""

    def __init__(self, sheets: Sequence[Callable[[Palette], str]], parent: QWidget | None = None) -> None:
        """Make nothing yet. `sheets`: what its parts add to the fields' style sheet."""
        super().__init__(parent)
        self.is_made = False
        self._sheets = sheets
        self._dressed: Dressed | None = None

    def __getattr__(self, name: str) -> Any:
        """Make the place where a part of it is asked for before it was shown."""
        if self.__dict__.get("is_made", True) or name not in type(self).__annotations__:
            raise AttributeError(f"{type(self).__name__} has no part “{name}”")
        self._make_now()
        return getattr(self, name)

    def setVisible(self, visible: bool) -> None:
        """Make and dress what is here before it is first shown."""
        if visible and self._dressed is None:
            if not self.is_made:
                self._make_now()
            self._dressed = Dressed(self, self._dress)
        super().setVisible(visible)

    def _make_now(self) -> None:
        self.is_made = True
        self._make()

    def _make(self) -> None:
        raise NotImplementedError

    def _dress(self, palette: Palette) -> None:
        dress_fields(self, palette, "".join(each(palette) for each in self._sheets))
