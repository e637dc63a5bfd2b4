"""What follows steps as they are moved about: waits, heating up, fires, washing up. To be shown, not to be kept."""

from __future__ import annotations

from dataclasses import replace

from core.plan.kitchen import HEATED, Station
from core.plan.plan import Plan
from core.timetable.book import Book
from core.timetable.clashes_vessel import run_stretch
from core.timetable.facts import Facts
from core.timetable.fires import lights
from core.timetable.timetable import Heating, Placed, Stay, Timetable, Washing
from core.timetable.warming import heat_up_minutes


def drawn_along(plan: Plan, before: Timetable, placed: tuple[Placed, ...]) -> Timetable:
    """Return a timetable of these loads with everything else of `before` brought to where they now stand."""
    bare = Timetable(placed)
    stays = tuple(stay for each in before.stays if (stay := _stay(bare, each)) is not None)
    washings = _washings(plan, before, bare) if before.washings else ()
    return Timetable(placed, stays, _heatings(plan, before, placed), washings)


def _stay(after: Timetable, stay: Stay) -> Stay | None:
    before = after.at.get((stay.before, stay.load))
    start = stay.start if before is None else before.end
    end = stay.end
    loads = after.loads_of.get(stay.after, ()) if stay.after is not None else ()
    if loads:
        pairs = len(loads) > 1 and len(loads) == len(after.loads_of.get(stay.before, ()))
        end = loads[min(stay.load, len(loads) - 1)].start if pairs else loads[-1].start
    return replace(stay, start=start, end=end) if end > start else None


def _washings(plan: Plan, before: Timetable, after: Timetable) -> tuple[Washing, ...]:
    """Return the washings, each as it is unless its vessels are in use till later: then right after that."""
    book = Book(Facts(plan), after)
    found = []
    for each in before.washings:
        run = book.facts.run_of.get((each.vessel, each.after))
        used = None if run is None else run_stretch(book, run)
        found.append(each if used is None or used[1] <= each.start else replace(each, start=used[1]))
    return tuple(found)


def _heatings(plan: Plan, before: Timetable, placed: tuple[Placed, ...]) -> tuple[Heating, ...]:
    """Return the heatings, each before the first bake of its session as it now stands; fires so as to burn."""
    found: list[Heating] = []
    for station in plan.kitchen.stations:
        own = [each for each in before.heatings if each.station == station.id]
        fires = [each for each in own if lights(station, each)]
        found += [_fire(station, each, before.placed, placed) for each in fires]
        others = [each for each in own if each not in fires]
        if station.heater is None or station.kind not in HEATED or not station.heater.from_cold:
            found += others
        else:
            found += _from_cold(station, others, placed)
    return tuple(found)


def _from_cold(station: Station, own: list[Heating], placed: tuple[Placed, ...]) -> list[Heating]:
    found: list[Heating] = []
    heater = station.heater
    bakes = sorted((each.start, each.end, each.setting) for each in _on(station, placed) if each.setting is not None)
    out: int | None = None
    for start, end, setting in bakes:
        if heater is not None and (out is None or start > out + heater.keep_on):
            begins = start - heat_up_minutes(heater, setting)
            nearest = min(own, key=lambda each: abs(each.end - start), default=None)
            found.append(Heating(station.id, begins, start, setting, None if nearest is None else nearest.cook))
        out = end if out is None else max(out, end)
    return found


def _fire(station: Station, fire: Heating, before: tuple[Placed, ...], after: tuple[Placed, ...]) -> Heating:
    """Return a fire moved no more than it takes to burn for what it burnt for, from the first of it on."""
    out = None if station.burns is None else fire.end + station.burns
    served = {
        each.key
        for each in _on(station, before)
        if fire.end < each.end and (out is None or each.start < out)
    }
    now = [each for each in _on(station, after) if each.key in served]
    if not now:
        return fire
    first, last = min(each.start for each in now), max(each.end for each in now)
    by = 0
    if out is not None and last > out:
        by = last - out
    by = min(by, first - fire.end)
    return replace(fire, start=fire.start + by, end=fire.end + by)


def _on(station: Station, placed: tuple[Placed, ...]) -> list[Placed]:
    return [each for each in placed if any(spot.station == station.id for spot in each.spots)]
