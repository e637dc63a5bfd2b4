"""Names and clock times for labels, from a plan or, without one, from the ids themselves."""

from __future__ import annotations

from core.measures.clock import Moment, show_clock
from core.measures.minutes import show_tminus
from core.measures.refusal import Refusal
from core.plan.check_words import Words, short
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId, dish_part, local_part
from core.plan.plan import Plan

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


class Said:
    """Words for the things that an edit is about."""

    def __init__(self, plan: Plan | None = None) -> None:
        """Take the names from a plan, or guess them from ids."""
        self._plan = plan
        self._words = None if plan is None else Words(plan)

    def dish(self, dish: DishId) -> str:
        """Return a dish's name."""
        return spelt(dish) if self._words is None else self._words.dish(dish)

    def step(self, step: StepId) -> str:
        """Return a step's dish and what is done."""
        if self._words is None:
            return f"{spelt(dish_part(step))}: {spelt(local_part(step))}"
        return self._words.step(step)

    def station(self, station: StationId) -> str:
        """Return a station's name."""
        return spelt(station) if self._words is None else self._words.station(station)

    def vessel(self, vessel: VesselId) -> str:
        """Return a vessel's name."""
        return spelt(vessel) if self._words is None else self._words.vessel(vessel)

    def cook(self, cook: CookId) -> str:
        """Return a cook's name."""
        return spelt(cook) if self._words is None else self._words.cook(cook)

    def name(self, text: str) -> str:
        """Return a name on one line, cut short when long."""
        return short(text)

    def clock(self, offset: int) -> str:
        """Return an offset as a clock time, with its day where that is not plating's."""
        if self._plan is None:
            return show_tminus(offset)
        try:
            at, plating = self._plan.wall(offset), self._plan.wall(0)
        except (Refusal, OverflowError):  # plating in a zone that is not known, or an offset beyond all dates
            return show_tminus(offset)
        day = "" if at.date() == plating.date() else f"{_DAYS[at.weekday()]} "
        return f"{day}{show_clock(at)}"

    def moment(self, moment: Moment) -> str:
        """Return a moment as day, date and clock time, with its zone where that is not the plan's."""
        at = moment.local
        zone = (
            f" ({moment.zone})" if self._plan is not None and self._plan.plating.zone != moment.zone else ""
        )
        return f"{_DAYS[at.weekday()]} {at.day} {_MONTHS[at.month - 1]} {at.year}, {show_clock(at)}{zone}"


def spelt(slug: str) -> str:
    """Return an id as words ('roast-squash' -> 'Roast squash')."""
    return slug.replace("-", " ").replace("_", " ").strip().capitalize()
