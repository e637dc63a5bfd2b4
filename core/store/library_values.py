"""What the library of the cook's own holds: dishes and kitchens, each a value with when it was kept and from where."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from core.plan.edits.library import OwnCopy
from core.plan.kitchen import Kitchen, StationKind
from core.store.library_times import DishTimes, times_of


@dataclass(frozen=True)
class OwnDish:
    """A dish kept. `key` is its own while it is kept; `revision` counts its changes; `origin` is the plan it came from.

    `kept` and `changed` are moments in UTC.
    """

    key: str
    copy: OwnCopy
    origin: str
    kept: datetime
    changed: datetime
    revision: int = 1

    @property
    def name(self) -> str:
        """Return the dish's name."""
        return self.copy.dish.name

    @cached_property
    def kinds(self) -> tuple[StationKind, ...]:
        """The kinds of stations it asks for."""
        return self.copy.kinds

    @cached_property
    def times(self) -> DishTimes:
        """How long it takes."""
        return times_of(self.copy.dish, self.copy.links)


@dataclass(frozen=True)
class OwnKitchen:
    """A kitchen kept, known by its name. `kept` and `changed` are moments in UTC."""

    kitchen: Kitchen
    kept: datetime
    changed: datetime
    revision: int = 1

    @property
    def name(self) -> str:
        """Return the kitchen's name."""
        return self.kitchen.name
