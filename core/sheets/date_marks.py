"""The day by which food from the fridge is eaten: seven days, and none of them begins anew until it is cooked again.

US FDA Food Code 2022, 3-501.17: ready-to-eat food at 5 °C or less for at most seven days, that of making as the first;
what is put together has the mark of its oldest part, and days frozen do not count (these two from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.safety.limits import date_mark
from core.sheets.places import kinds_of
from core.timetable.timetable import Timetable

DAYS = 7
_COOKS = frozenset({StationKind.OVEN, StationKind.GRILL, StationKind.BURNER})
"""Where food is made anew, so that its days begin with it."""
Days = tuple[date, date]


@dataclass(frozen=True, slots=True)
class InCold:
    """Food in the cold from one day to another, during a step or from it to the next; raw food has no date mark."""

    days: Days
    before: StepId
    after: StepId | None
    frozen: bool
    raw: bool


@dataclass
class DateMarks:
    """Finds the last day of food among all that stands in the cold on a timetable."""

    plan: Plan
    timetable: Timetable
    colds: Iterable[InCold]
    _between: Mapping[tuple[StepId, StepId | None], list[InCold]] = field(init=False)

    def __post_init__(self) -> None:
        """Sort what stands in the cold by where it comes from and where it goes."""
        found: dict[tuple[StepId, StepId | None], list[InCold]] = {}
        for each in self.colds:
            found.setdefault((each.before, each.after), []).append(each)
        self._between = found

    def last_day(self, made: date, step: StepId) -> date:
        """Return the last day of what is made on a day by a step, or of the oldest that is in it."""
        return min((date_mark(made, DAYS), *self._earlier(step, (), set())))

    def _earlier(self, step: StepId, frozen: tuple[Days, ...], seen: set[object]) -> Iterator[date]:
        """Yield the last days of what went into a step; `frozen` are stretches in the freezer since."""
        if (step, frozen) in seen or self._cooks(step):
            return
        seen.add((step, frozen))
        for each in self._between.get((step, step), ()):
            if each.frozen:
                frozen = (*frozen, each.days)
        for link in self.plan.links_to.get(step, ()):
            before = link.before
            if link.kind is not LinkKind.END_TO_START or before not in self.timetable.loads_of:
                continue
            since = frozen
            colds = [*self._between.get((before, step), ()), *self._between.get((before, before), ())]
            for each in colds:
                if each.frozen:
                    since = (*since, each.days)
            if any(each.raw for each in colds):
                continue
            yield from (date_mark(each.days[0], DAYS, since) for each in colds if not each.frozen)
            yield from self._earlier(before, since, seen)

    def _cooks(self, step: StepId) -> bool:
        return any(kinds_of(self.plan, each) & _COOKS for each in self.timetable.loads_of.get(step, ()))
