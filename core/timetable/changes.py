"""What is different between two timetables, load by load."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.ids import StepId
from core.timetable.timetable import Placed, Timetable


@dataclass(frozen=True, slots=True)
class Moved:
    """A load as it was and as it is now; `before` None: it is new, `after` None: it is gone."""

    step: StepId
    load: int
    before: Placed | None
    after: Placed | None

    @property
    def new(self) -> bool:
        """Return whether it was not there before."""
        return self.before is None

    @property
    def gone(self) -> bool:
        """Return whether it is not there any more."""
        return self.after is None

    @property
    def minutes(self) -> int:
        """Return by how many minutes its start moved, negative to earlier; 0 for what is new or gone."""
        return 0 if self.before is None or self.after is None else self.after.start - self.before.start

    @property
    def other_length(self) -> bool:
        """Return whether it takes other minutes than before."""
        return self._differs("length")

    @property
    def other_place(self) -> bool:
        """Return whether it stands on other stations, units or shelves than before."""
        return self._differs("spots")

    @property
    def other_setting(self) -> bool:
        """Return whether its place has another temperature than before."""
        return self._differs("setting")

    @property
    def other_way(self) -> bool:
        """Return whether it is done in another way than before."""
        return self._differs("way")

    @property
    def other_hands(self) -> bool:
        """Return whether other cooks do it, or do it at other minutes after its start."""
        if self.before is None or self.after is None:
            return False
        return _visits(self.before) != _visits(self.after)

    def _differs(self, field: str) -> bool:
        if self.before is None or self.after is None:
            return False
        return bool(getattr(self.before, field) != getattr(self.after, field))


def changes(before: Timetable, after: Timetable) -> tuple[Moved, ...]:
    """Return every load that differs, in order of time (of the new place; of the old one where it is gone)."""
    found = [
        Moved(key[0], key[1], before.at.get(key), after.at.get(key))
        for key in dict.fromkeys([*before.at, *after.at])
        if before.at.get(key) != after.at.get(key)
    ]
    return tuple(sorted(found, key=_order))


def _order(moved: Moved) -> tuple[int, StepId, int]:
    placed = moved.after or moved.before
    return (placed.start if placed is not None else 0, moved.step, moved.load)


def _visits(placed: Placed) -> list[tuple[int, int, str | None]]:
    return [(hand.start - placed.start, hand.minutes, hand.cook) for hand in placed.hands]
