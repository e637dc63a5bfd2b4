"""Where nothing fits, pinned steps stay where the cook put them: the clashes then say what the pins cost."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.problem import Problem
from core.plan import meaning
from core.plan.fits import barred
from core.plan.ids import StationId, StepId
from core.timetable.timetable import Placed, Spot, Stay, Timetable


def put_back(problem: Problem, timetable: Timetable) -> Timetable:
    """Return the timetable with pinned loads at their pins, on the least busy station of their kind."""
    placed = {each.key: each for each in timetable.placed}
    for index, fixed in problem.fixed.items():
        key = problem.tasks[index].key
        if fixed.start is not None and key in placed and placed[key].start != fixed.start:
            placed[key] = _at(problem, placed, placed[key], fixed.start, fixed.station)
    if all(placed[each.key] is each for each in timetable.placed):
        return timetable
    after = Timetable(tuple(placed[each.key] for each in timetable.placed))
    stays = tuple(found for stay in timetable.stays if (found := _stay(after, stay)) is not None)
    return Timetable(after.placed, stays, timetable.heatings, timetable.washings)


def _at(
    problem: Problem,
    all_placed: dict[tuple[StepId, int], Placed],
    one: Placed,
    start: int,
    pinned: StationId | None,
) -> Placed:
    by = start - one.start
    hands = tuple(replace(hand, start=hand.start + by) for hand in one.hands)
    moved = replace(one, start=start, hands=hands)
    others = [each for each in all_placed.values() if each.key != one.key]
    spots: list[Spot] = []
    for spot in one.spots:
        spots.append(spot if pinned is not None else _least_busy(problem, others, moved, spot, spots))
    return replace(moved, spots=tuple(spots))


def _least_busy(problem: Problem, others: list[Placed], one: Placed, spot: Spot, taken: list[Spot]) -> Spot:
    """Return the spot, or one like it on another station that is shared with others for fewer minutes."""
    kitchen = problem.plan.kitchen
    own = kitchen.station[spot.station]
    alike = [each for each in kitchen.of_kind(own.kind) if each.units == 1 and not each.shelves]
    named = {use.station for use in problem.plan.steps[one.step].uses if use.station is not None}
    if own not in alike or spot.station in named:
        return spot
    step = problem.plan.steps[one.step]
    _span, uses = meaning.way_of(problem.plan, step, one.way)
    out = {station for each in barred(problem.plan.kitchen, step, uses) for station in each.stations}
    free = [each.id for each in alike if each.id not in {each.station for each in taken} | out]
    return Spot(
        min(free, key=lambda station: _shared(others, one, station), default=spot.station), spot.units
    )


def _shared(others: list[Placed], one: Placed, station: StationId) -> int:
    return sum(
        max(0, min(one.end, each.end) - max(one.start, each.start))
        for each in others
        if any(spot.station == station for spot in each.spots)
    )


def _stay(after: Timetable, stay: Stay) -> Stay | None:
    before = after.at.get((stay.before, stay.load))
    start = stay.start if before is None else before.end
    loads = after.loads_of.get(stay.after, ()) if stay.after is not None else ()
    pairs = len(loads) > 1 and len(loads) == len(after.loads_of.get(stay.before, ()))
    end = stay.end if not loads else loads[stay.load if pairs else -1].start
    return replace(stay, start=start, end=end) if end > start else None
