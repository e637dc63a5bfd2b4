"""The validator: what is wrong with a timetable of a plan. It knows nothing of how the timetable came about."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from core.plan.ids import StationId, StepId, VesselId
from core.plan.plan import Plan
from core.timetable.book import Book
from core.timetable.clash import Clash
from core.timetable.clashes_hands import hands_clashes
from core.timetable.clashes_heat import heat_clashes, heatings_nowhere
from core.timetable.clashes_placed import placed_clashes
from core.timetable.clashes_station import place_clashes, station_clashes
from core.timetable.clashes_time import time_clashes
from core.timetable.clashes_vessel import vessel_clashes
from core.timetable.facts import Facts
from core.timetable.timetable import Timetable


def clashes(plan: Plan, timetable: Timetable, only: Collection[StepId] | None = None) -> tuple[Clash, ...]:
    """Return every clash, sorted by start; with `only`, those in which one of these steps is involved.

    `plan` must be one that passes core.plan.check; the timetable may be anything. `only` is quicker: it looks
    at these steps, their links, and the stations, vessels and cooks they touch, and finds what the whole finds.
    """
    return Checker(plan).clashes(timetable, only)


class Checker:
    """Judges many timetables of one plan, as while a step is dragged; keeps what the plan alone says."""

    def __init__(self, plan: Plan) -> None:
        self._facts = Facts(plan)

    def clashes(self, timetable: Timetable, only: Collection[StepId] | None = None) -> tuple[Clash, ...]:
        """Return every clash, sorted by start; with `only`, those in which one of these steps is involved."""
        book = Book(self._facts, timetable)
        if only is None:
            return tuple(sorted(self._all(book), key=_order))
        steps = frozenset(only)
        return tuple(sorted(self._some(book, steps), key=_order))

    def _all(self, book: Book) -> Iterator[Clash]:
        kitchen = self._facts.plan.kitchen
        steps = {*self._facts.plan.steps, *(placed.step for placed, _oddity in book.odd)}
        steps |= {stay.before for stay, _oddity in book.odd_stays}
        yield from placed_clashes(book, steps)
        yield from time_clashes(book, steps, everything=True)
        yield from place_clashes(book, steps)
        yield from station_clashes(book, kitchen.station)
        yield from heat_clashes(book, kitchen.station)
        yield from heatings_nowhere(book)
        yield from hands_clashes(book, steps, everything=True)
        yield from vessel_clashes(book, kitchen.vessel)

    def _some(self, book: Book, steps: frozenset[StepId]) -> Iterator[Clash]:
        stations, vessels = self._stations(book, steps), self._vessels(steps)
        for found in (
            placed_clashes(book, steps),
            time_clashes(book, steps, everything=False),
            place_clashes(book, steps),
            station_clashes(book, stations),
            heat_clashes(book, stations),
            hands_clashes(book, steps, everything=False),
            vessel_clashes(book, vessels),
        ):
            yield from (clash for clash in found if not steps.isdisjoint(clash.steps))

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
