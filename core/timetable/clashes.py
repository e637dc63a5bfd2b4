"""The validator: what is wrong with a timetable of a plan. It knows nothing of how the timetable came about.

Decided here, where the meaning leaves it open:

- A heating or lighting is a clash while its station is not there, as a use is.
- Switching on takes a cook: a plan without cooks in which something must be heated has no clean timetable.
- A heating, a fire or a washing that nobody needs is work for a cook and no clash.
- With a day given, a load, heating or washing that lies before now is history. One that began before now, goes on
  and is no fact is a clash: it must begin again.
- Food that is done is as old as its fact says; of food under way, done at the low length or now, whichever is later.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from core.plan.day import Day
from core.plan.ids import StationId, StepId, VesselId
from core.plan.plan import Plan
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes_both import both_clashes
from core.timetable.clashes_day import day_clashes
from core.timetable.clashes_fire import fire_clashes
from core.timetable.clashes_fit import fit_clashes
from core.timetable.clashes_hands import hands_clashes
from core.timetable.clashes_heat import heat_clashes, heatings_nowhere
from core.timetable.clashes_length import full_clashes
from core.timetable.clashes_placed import placed_clashes
from core.timetable.clashes_station import place_clashes, station_clashes
from core.timetable.clashes_time import time_clashes
from core.timetable.clashes_vessel import vessel_clashes
from core.timetable.clashes_washing import washing_clashes
from core.timetable.facts import Facts
from core.timetable.timetable import Timetable


def clashes(
    plan: Plan, timetable: Timetable, only: Collection[StepId] | None = None, day: Day | None = None
) -> tuple[Clash, ...]:
    """Return every clash, sorted by start; with `only`, those in which one of these steps is involved.

    `plan` must be one that passes core.plan.check; the timetable may be anything. `only` is quicker: it looks
    at these steps, their links, and the stations, vessels and cooks they touch, and finds what the whole finds.
    With `day`, facts stand as they are and only what is still to come is judged.
    """
    return Checker(plan, day).clashes(timetable, only)


_STANDING = frozenset({ClashKind.MISSING, ClashKind.NOT_AS_IT_WAS, ClashKind.BEFORE_NOW})
"""Kinds that are told although their minutes lie before now."""


class Checker:
    """Judges many timetables of one plan, as while a step is dragged; keeps what plan and day alone say."""

    def __init__(self, plan: Plan, day: Day | None = None) -> None:
        self._facts = Facts(plan, day)

    @property
    def facts(self) -> Facts:
        """Return what plan and day alone say."""
        return self._facts

    def clashes(self, timetable: Timetable, only: Collection[StepId] | None = None) -> tuple[Clash, ...]:
        """Return every clash, sorted by start; with `only`, those in which one of these steps is involved."""
        book = Book(self._facts, timetable)
        found = self._all(book) if only is None else self._some(book, frozenset(only))
        if self._facts.has_day:
            found = (clash for clash in found if clash.kind in _STANDING or self._to_come(clash))
        return tuple(sorted(found, key=_order))

    def _to_come(self, clash: Clash) -> bool:
        return clash.end > self._facts.now or clash.start >= self._facts.now

    def _all(self, book: Book) -> Iterator[Clash]:
        kitchen = self._facts.plan.kitchen
        steps = {*self._facts.plan.steps, *(placed.step for placed, _oddity in book.odd)}
        steps |= {stay.before for stay, _oddity in book.odd_stays}
        yield from self._of_steps(book, frozenset(steps), everything=True)
        yield from self._of_places(book, kitchen.station, kitchen.vessel)
        yield from heatings_nowhere(book)

    def _some(self, book: Book, steps: frozenset[StepId]) -> Iterator[Clash]:
        stations, vessels = self._stations(book, steps), self._vessels(steps)
        found = self._of_steps(book, steps, everything=False)
        yield from (clash for clash in found if not steps.isdisjoint(clash.steps))
        found = self._of_places(book, stations, vessels, steps)
        yield from (clash for clash in found if not steps.isdisjoint(clash.steps))

    def _of_steps(self, book: Book, steps: frozenset[StepId], everything: bool) -> Iterator[Clash]:
        yield from placed_clashes(book, steps)
        yield from time_clashes(book, steps, everything)
        yield from place_clashes(book, steps)
        yield from fit_clashes(book, steps)
        yield from hands_clashes(book, steps, everything)
        yield from washing_clashes(book, steps, everything)
        if self._facts.has_day:
            yield from day_clashes(book, steps, everything)

    def _of_places(
        self,
        book: Book,
        stations: Collection[StationId],
        vessels: Collection[VesselId],
        among: frozenset[StepId] | None = None,
    ) -> Iterator[Clash]:
        yield from station_clashes(book, stations, among)
        yield from full_clashes(book, stations)
        yield from heat_clashes(book, stations)
        yield from fire_clashes(book, stations)
        yield from both_clashes(book, stations)
        yield from vessel_clashes(book, vessels, among)

    def _stations(self, book: Book, steps: frozenset[StepId]) -> set[StationId]:
        found = {
            spot.station for step in steps for placed in book.loads.get(step, ()) for spot in placed.spots
        }
        for waiting in book.waits:
            if waiting.stay is not None and not steps.isdisjoint(waiting.steps):
                found |= {spot.station for spot in waiting.stay.spots}
        return found

    def _vessels(self, steps: frozenset[StepId]) -> set[VesselId]:
        return {vessel for step in steps for vessel in self._facts.vessels_of.get(step, ())}


def _order(clash: Clash) -> tuple[int, int, str, str, tuple[StepId, ...]]:
    return clash.start, clash.end, clash.kind.value, clash.sentence, clash.steps
