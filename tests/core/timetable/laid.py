"""Timetables laid by hand: a plan and clock times in, placed loads with their true lengths, spots and hands out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from core.plan import meaning
from core.plan.day import Day
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.kitchen import HEATED, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Use
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing

PLATED = 19 * 60 + 30
"""The clock minute at which the builders' plans are plated."""


def at(clock: str, plated: int = PLATED) -> int:
    """Return the offset of a clock time on the plating day."""
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes) - plated


def spot(station: str, units: int = 1, shelf: int | None = None) -> Spot:
    """Return a spot."""
    return Spot(StationId(station), units, shelf)


def heating(station: str, start: int, end: int, setting: int, cook: str | None = "ann") -> Heating:
    """Return a heating."""
    return Heating(StationId(station), start, end, setting, None if cook is None else CookId(cook))


def washing(vessel: str, start: int, after: str, minutes: int = 5, cook: str | None = "ann") -> Washing:
    """Return a washing."""
    return Washing(VesselId(vessel), start, minutes, StepId(after), None if cook is None else CookId(cook))


def some_spots(plan: Plan, uses: Sequence[Use]) -> tuple[Spot, ...]:
    """Return the first spots that come to mind: the first station of the kind, its lowest shelf, burners in turn."""
    found: list[Spot] = []
    for use in uses:
        stations = [each for each in plan.kitchen.of_kind(use.kind) if use.station in {None, each.id}]
        if use.kind is StationKind.BURNER and stations[0].units == 1:
            found += [Spot(each.id) for each in stations[: use.units]]
        elif stations:
            found.append(Spot(stations[0].id, use.units, 0 if stations[0].shelves else None))
    return tuple(found)


def placed(
    plan: Plan,
    step: str,
    start: int,
    load: int = 0,
    spots: Sequence[Spot] | None = None,
    setting: int | None = None,
    cook: str | None = "ann",
    way: int | None = None,
) -> Placed:
    """Return a load with its true length, the setting its heat asks for unless given, and one cook for all.

    It is done in the way chosen, or as written, unless `way` says otherwise; its place is not full.
    """
    the_step = plan.steps[StepId(step)]
    way = meaning.ways_open(plan, the_step)[0] if way is None else way
    _span, uses = meaning.way_of(plan, the_step, way)
    heat = meaning.heat_of(plan, the_step, way)
    length = meaning.reserved(plan, the_step.id, way).length
    heated = any(use.heat is not None and use.kind in HEATED for use in uses)
    if heat is not None and setting is None:
        setting = heat.setting
    if heat is not None and setting is not None and heated:
        length = meaning.length_at(length, heat, setting)
    who = None if cook is None else CookId(cook)
    hands = tuple(
        Hand(start + each.start, each.minutes, who)
        for each in meaning.hands_of(plan, the_step, length, way)
        for _person in range(each.people)
    )
    where = some_spots(plan, uses) if spots is None else tuple(spots)
    return Placed(the_step.id, start, length, load, where, setting, hands, way)


def laid(
    plan: Plan,
    starts: Mapping[str, int | Sequence[int]],
    *,
    spots: Mapping[str, Sequence[Spot]] | None = None,
    settings: Mapping[str, int] | None = None,
    cooks: Mapping[str, str | None] | None = None,
    stays: Mapping[str, Sequence[Spot]] | None = None,
    heatings: Sequence[Heating] = (),
    washings: Sequence[Washing] = (),
    ways: Mapping[str, int] | None = None,
) -> Timetable:
    """Return a timetable of steps (loads: several starts) by their ids; stays go where `stays` says, by step."""
    spots, settings, cooks, stays = spots or {}, settings or {}, cooks or {}, stays or {}
    ways = ways or {}
    loads = [
        placed(
            plan,
            step,
            start,
            number,
            spots.get(step),
            settings.get(step),
            cooks.get(step, "ann"),
            ways.get(step),
        )
        for step, each in starts.items()
        for number, start in enumerate((each,) if isinstance(each, int) else each)
    ]
    return Timetable(tuple(loads), tuple(stays_of(plan, loads, stays)), tuple(heatings), tuple(washings))


def stays_of(plan: Plan, loads: Sequence[Placed], where: Mapping[str, Sequence[Spot]]) -> list[Stay]:
    """Return the stays of loads that wait in scarce places, where `where` says, by step."""
    of: dict[StepId, list[Placed]] = {}
    for each in loads:
        of.setdefault(each.step, []).append(each)
    found = []
    for link in plan.menu.links:
        use, before, after = link.wait.use, of.get(link.before), of.get(link.after)
        if use is None or link.kind is not LinkKind.END_TO_START or not before or not after:
            continue
        paired = len(before) == len(after) > 1
        pairs = list(zip(before, after, strict=True)) if paired else [(before[0], after[-1])]
        for one, other in pairs:
            if other.start > one.end:
                spots = tuple(where.get(link.before, some_spots(plan, [use])))
                setting = use.heat.setting if use.heat else None
                found.append(
                    Stay(
                        link.before,
                        link.after,
                        one.end,
                        other.start,
                        one.load,
                        spots=spots,
                        setting=setting,
                    )
                )
    for step, some in of.items():
        keep, course = meaning.keep_of(plan, plan.steps[step]), plan.dish_of[step].course
        if keep is not None and keep.wait.use is not None and course > some[0].end:
            use = keep.wait.use
            spots = tuple(where.get(step, some_spots(plan, [use])))
            setting = use.heat.setting if use.heat else None
            found.append(Stay(step, None, some[0].end, course, spots=spots, setting=setting))
    return found


def the_clash(plan: Plan, timetable: Timetable, day: Day | None = None) -> Clash:
    """Return the only clash there is; each of its steps finds it alone, and no other step does."""
    found = clashes(plan, timetable, day=day)
    assert len(found) == 1, [each.sentence for each in found]
    for step in plan.steps:
        assert clashes(plan, timetable, [step], day) == (found if step in found[0].steps else ())
    return found[0]


def told(clash: Clash) -> tuple[ClashKind, int, int, int]:
    """Return what a clash is, from when to when, and by how much."""
    return clash.kind, clash.start, clash.end, clash.by
