"""Kitchens kept apart from plans: this one is kept, and the menu is cooked in another one.

What is kept is a value: changing the plan's kitchen never changes it until it is kept again.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from app.places.library.shelf import Shelf
from core.measures.refusal import Refusal
from core.plan.kitchen import Kitchen


class KeptKitchen(Protocol):
    """One kitchen as it is kept."""

    @property
    def kitchen(self) -> Kitchen:
        """Return the kitchen."""
        ...


class Keeper(Protocol):
    """Where kitchens are kept by name. Every call may raise Refusal."""

    def kitchens(self) -> Sequence[KeptKitchen]:
        """Return all kitchens by name."""
        ...

    def keep_kitchen(self, kitchen: Kitchen) -> object:
        """Keep a kitchen under its name, in the place of one that bears it."""
        ...

    def remove_kitchen(self, name: str) -> None:
        """Take a kitchen out."""
        ...

    def close(self) -> None:
        """Close it."""
        ...


@dataclass(frozen=True, slots=True)
class KeptList:
    """The kitchens kept, by name, or the sentence why they cannot be read."""

    kitchens: tuple[Kitchen, ...] = ()
    wrong: str = ""

    def named(self, name: str) -> Kitchen | None:
        """Return the kitchen kept under a name, in whatever letters."""
        return next((each for each in self.kitchens if _called(each.name) == _called(name)), None)


class Keeping:
    """Opens the library for each act and closes it again, so that nothing stays locked."""

    def __init__(self, opener: Callable[[], Keeper], begun: Callable[[], bool] = lambda: True) -> None:
        """Take what opens the library, and what tells whether anything was ever kept there."""
        self._open = opener
        self._begun = begun

    def list(self) -> KeptList:
        """Return what is kept; looking makes nothing."""
        if not self._begun():
            return KeptList()
        try:
            keeper = self._open()
            try:
                return KeptList(tuple(each.kitchen for each in keeper.kitchens()))
            finally:
                keeper.close()
        except Refusal as refusal:
            return KeptList(wrong=str(refusal))

    def keep(self, kitchen: Kitchen) -> str:
        """Keep a kitchen; return "" or why not."""
        return self._done(lambda keeper: keeper.keep_kitchen(kitchen))

    def forget(self, name: str) -> str:
        """Take a kitchen out; return "" or why not."""
        return self._done(lambda keeper: keeper.remove_kitchen(name))

    def _done(self, act: Callable[[Keeper], object]) -> str:
        try:
            keeper = self._open()
            try:
                act(keeper)
            finally:
                keeper.close()
        except Refusal as refusal:
            return str(refusal)
        return ""


def own_keeping() -> Keeping:
    """Return the cook's own library, where it lies for all plans of this account."""

    def opener() -> Keeper:
        from core.store.library import Library

        return Library.open(Shelf().path)

    return Keeping(opener, Shelf().path.exists)


def _called(name: str) -> str:
    return " ".join(name.split()).casefold()
