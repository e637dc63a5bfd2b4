"""What a drag asks for, as values: loads at new starts, on another station, for another cook, of other lengths."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from app.timeline.bars import Key
from core.plan.edits import Edit
from core.plan.ids import CookId, StationId
from core.timetable.timetable import Timetable


@dataclass(frozen=True)
class Wish:
    """`key` is the load under the pointer; station and cook are its, `starts` and `lengths` of all that are held."""

    key: Key
    starts: Mapping[Key, int]
    station: StationId | None = None
    cook: CookId | None = None
    lengths: Mapping[Key, int] = field(default_factory=dict)

    @property
    def start(self) -> int:
        """Return where the load under the pointer would start."""
        return self.starts[self.key]

    @property
    def plain(self) -> bool:
        """Tell whether it is one load that moves, on its own station or another."""
        return len(self.starts) == 1 and self.cook is None and not self.lengths


class Done(NamedTuple):
    """What a gesture comes to: an edit, and the timetable that is seen from then on (None: as it is)."""

    edit: Edit
    seen: Timetable | None = None
