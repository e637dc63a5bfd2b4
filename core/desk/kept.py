"""Days kept by name: a timetable put by under the cook's own word, to go back to or to compare with. Values."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import datetime
from enum import Enum
from functools import cached_property
from hashlib import sha256

from core.measures.refusal import Refusal
from core.plan.decisions import Wishes
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

MOST_KEPT = 5
"""Days kept at once: more than anybody chooses between."""
LONGEST_NAME = 40
"""Characters of a day's name."""


@dataclass(frozen=True, slots=True)
class KeptDay:
    """A timetable under a name; `at`: when it was kept (UTC); `mark`: the plan it was kept of (`plan_mark`)."""

    name: str
    timetable: Timetable
    at: datetime
    mark: str


@dataclass(frozen=True)
class KeptDays:
    """All days kept, in the order in which they came. `current`: the one last kept or gone back to, "" for none."""

    days: tuple[KeptDay, ...] = ()
    current: str = ""

    @cached_property
    def by_name(self) -> dict[str, KeptDay]:
        """Days by their names."""
        return {each.name: each for each in self.days}

    @property
    def now(self) -> KeptDay | None:
        """Return the day last kept or gone back to."""
        return self.by_name.get(self.current)

    def day(self, name: str) -> KeptDay:
        """Return a day; raise Refusal where none bears the name."""
        if name not in self.by_name:
            raise Refusal(f"No day is kept as “{name}”. Choose one of those above the timeline.")
        return self.by_name[name]


def day_name(name: str, days: KeptDays, own: str = "") -> str:
    """Return a name as it is kept: on one line, without spaces around it.

    Raise Refusal where it is empty, too long, or borne by another day than `own` (capitals make no difference).
    """
    name = " ".join(name.split())
    if not name:
        raise Refusal("The day needs a name to be kept under. Write one, such as “calm”.")
    if not name.isprintable():
        raise Refusal("The day's name holds signs that cannot be shown. Write it with letters and figures.")
    if len(name) > LONGEST_NAME:
        raise Refusal(f"The day's name has {len(name)} characters. Shorten it to {LONGEST_NAME} or fewer.")
    for other in days.by_name:
        if other != own and other.casefold() == name.casefold():
            raise Refusal(f"A day is kept as “{other}” already. Choose another name, or drop that day first.")
    return name


def plan_mark(plan: Plan) -> str:
    """Return what tells the state of a plan from others for which a timetable may not hold.

    Name and mark of the plan, wishes, ingredients and notes of dishes do not count. What stands as it is taken for
    granted is left out, so that a field that comes with a later program makes no other mark.
    """
    dishes = tuple(replace(each, ingredients=(), note="", plating="", name="") for each in plan.menu.dishes)
    bare = replace(
        plan,
        name="",
        mark="",
        menu=replace(plan.menu, dishes=dishes),
        decisions=replace(plan.decisions, wishes=Wishes()),
    )
    return sha256(_spelt(bare).encode()).hexdigest()[:24]


def _spelt(value: object) -> str:
    if isinstance(value, Enum):
        return repr(value.value)
    if isinstance(value, tuple):
        return f"({','.join(_spelt(each) for each in value)})"
    if is_dataclass(value) and not isinstance(value, type):
        said = ((each, getattr(value, each.name)) for each in fields(value))
        told = (f"{each.name}={_spelt(part)}" for each, part in said if part != each.default)
        return f"{type(value).__name__}({','.join(told)})"
    return repr(value)
