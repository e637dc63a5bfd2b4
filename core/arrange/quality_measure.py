"""Reads off any timetable what it reached of each wish. Shares no code with the model beside what a wish means."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.goals_meaning import CHANGE, HEATING, RUSH, minds, mornings, off_recipe
from core.arrange.outcome import WishKind
from core.plan import meaning
from core.plan.ids import DishId, StationId, StepId
from core.plan.kitchen import HEATED
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention
from core.timetable.fires import hand_minutes
from core.timetable.timetable import Placed, Stay, Timetable
from core.timetable.warming import heat_up_minutes, points_of


@dataclass(frozen=True, slots=True)
class Waited:
    """Food that waits longer than it must: from when to when (offsets), `over` minutes more; how much it minds one.

    `after` None: it waits for its serving.
    """

    dish: DishId
    before: StepId
    after: StepId | None
    load: int
    start: int
    end: int
    over: int
    minds: int


@dataclass(frozen=True, slots=True)
class Rushed:
    """Hands-on minutes of a load that lie in the last three quarters of an hour, times cooks."""

    step: StepId
    load: int
    minutes: int


@dataclass(frozen=True, slots=True)
class Turned:
    """A heated station is brought to a temperature at `at`: from cold, or from another one while it is hot."""

    station: StationId
    at: int
    setting: int
    cold: bool


@dataclass(frozen=True, slots=True)
class Off:
    """A load, or the food that waits after it, stands at another temperature than it should."""

    step: StepId
    load: int
    setting: int
    wanted: int


@dataclass(frozen=True, slots=True)
class Early:
    """A day on which hands begin before one would: how many days before plating's, when, and until when one slept."""

    day: int
    first: int
    until: int

    @property
    def minutes(self) -> int:
        """Return the minutes by which it is too early."""
        return self.until - self.first


def measure(plan: Plan, timetable: Timetable, seen: Timetable | None = None) -> dict[WishKind, int]:
    """Return what a timetable reached of each wish, in the units of the goals; KEEP only where `seen` is given."""
    found = {
        WishKind.FRESH: sum(each.over * each.minds for each in waited(plan, timetable)),
        WishKind.CALM: sum(each.minutes for each in rushed(plan, timetable)),
        WishKind.OVEN: _oven(plan, timetable),
        WishKind.SLEEP: sum(each.minutes for each in too_early(plan, timetable)),
    }
    if seen is not None:
        found[WishKind.KEEP] = sum(abs(minutes) for _step, _load, minutes in moved(timetable, seen))
    return found


def waited(plan: Plan, timetable: Timetable) -> tuple[Waited, ...]:
    """Return all waits beyond what must be, those of no minute too, in the menu's order."""
    found = []
    for link in plan.menu.links:
        before, after = timetable.loads_of.get(link.before, ()), timetable.loads_of.get(link.after, ())
        if link.kind is not LinkKind.END_TO_START or not before or not after:
            continue
        paired = len(before) == len(after) > 1
        for one, then in zip(before, after, strict=True) if paired else [(before[0], after[-1])]:
            over, weight = then.start - one.end - link.least, minds(link.most, served=False)
            dish = plan.dish_of[link.before].id
            found.append(
                Waited(dish, link.before, link.after, one.load, one.end, then.start, over, weight)
            )
    for step, dish_of in plan.dish_of.items():
        keep, loads = meaning.keep_of(plan, plan.steps[step]), timetable.loads_of.get(step, ())
        if keep is not None and loads:
            end, course = loads[0].end, dish_of.course
            weight = minds(keep.most, served=True)
            late = max(end, course)
            found.append(Waited(dish_of.id, step, None, loads[0].load, end, late, late - end, weight))
    return tuple(found)


def rushed(plan: Plan, timetable: Timetable) -> tuple[Rushed, ...]:
    """Return the hands-on steps of the last three quarters of an hour, in order of time."""
    found = []
    for placed in sorted(timetable.placed, key=lambda each: each.start):
        step = plan.steps.get(placed.step)
        if step is None or step.attention is not Attention.HANDS_ON:
            continue
        spans = [(hand.start, hand.start + hand.minutes) for hand in placed.hands]
        if not spans:  # nobody is named: all of it, by as many as it takes
            spans = [(placed.start, placed.end)] * step.hands
        minutes = sum(max(0, min(end, 0) - max(start, -RUSH)) for start, end in spans)
        if minutes:
            found.append(Rushed(placed.step, placed.load, minutes))
    return tuple(found)


def _oven(plan: Plan, timetable: Timetable) -> int:
    turns = sum(HEATING if each.cold else CHANGE for each in turned(plan, timetable))
    degrees = sum(off_recipe(each.setting - each.wanted) for each in off_recipes(plan, timetable))
    return turns + degrees + sum(minutes for _station, minutes in heated_too_soon(plan, timetable))


def heated_too_soon(plan: Plan, timetable: Timetable) -> tuple[tuple[StationId, int], ...]:
    """Return stations and the minutes by which they are switched on sooner than they must be."""
    found = []
    for heating in timetable.heatings:
        station = plan.kitchen.station.get(heating.station)
        if station is not None and station.heater is not None and points_of(station.heater):
            least = heat_up_minutes(station.heater, heating.setting)
            if heating.end - heating.start > least:
                found.append((heating.station, heating.end - heating.start - least))
    return tuple(found)


def off_recipes(plan: Plan, timetable: Timetable) -> tuple[Off, ...]:
    """Return what stands at another temperature than its recipe says, once for each heated place it takes."""
    found = []
    for placed in timetable.placed:
        if placed.step not in plan.steps or placed.setting is None:
            continue
        _span, uses = meaning.way_of(plan, plan.steps[placed.step], placed.way)
        heats = [use.heat for use in uses if use.heat is not None and use.kind in HEATED]
        found += [
            Off(placed.step, placed.load, placed.setting, heat.setting)
            for heat in heats
            if heat.setting != placed.setting
        ]
    for stay in timetable.stays:
        wanted = _wanted_while_waiting(plan, stay.before, stay.after)
        if wanted is not None and stay.setting is not None and stay.setting != wanted:
            found.append(Off(stay.before, stay.load, stay.setting, wanted))
    return tuple(found)


def _wanted_while_waiting(plan: Plan, before: StepId, after: StepId | None) -> int | None:
    if before not in plan.steps:
        return None
    if after is None:
        keep = meaning.keep_of(plan, plan.steps[before])
        use = keep.wait.use if keep is not None else None
    else:
        links = [each for each in plan.links_from[before] if each.after == after]
        use = next((each.wait.use for each in links if each.kind is LinkKind.END_TO_START), None)
    return use.heat.setting if use is not None and use.heat is not None and use.kind in HEATED else None


def turned(plan: Plan, timetable: Timetable) -> tuple[Turned, ...]:
    """Return when heated stations are brought to a temperature, by station and time.

    From cold: with the first bake and after each pause longer than the oven is kept on. A change: what goes in
    stands at a setting that nothing had in the time the oven is kept on. Places that heat at once are left out.
    """
    found = []
    for station in plan.kitchen.stations:
        heater = station.heater
        if heater is None or station.kind not in HEATED or not points_of(heater):
            continue
        bakes = sorted(_bakes(timetable, station.id))
        for number, (start, _end, setting) in enumerate(bakes):
            warm = [each for each in bakes[:number] if each[1] + heater.keep_on >= start]
            if all(each[2] != setting for each in warm):
                found.append(Turned(station.id, start, setting, cold=not warm))
    return tuple(found)


def _bakes(timetable: Timetable, station: StationId) -> list[tuple[int, int, int]]:
    """Return start, end and setting of what stands in a station at a setting."""
    there: list[Placed | Stay] = [*timetable.placed, *timetable.stays]
    return [
        (each.start, each.end, each.setting)
        for each in there
        if each.setting is not None and each.end > each.start and any(s.station == station for s in each.spots)
    ]


def too_early(plan: Plan, timetable: Timetable) -> tuple[Early, ...]:
    """Return the days on which hands begin before one would, the first first."""
    begins = sorted(_hands_begin(plan, timetable))
    if not begins:
        return ()
    found = []
    for morning in mornings(plan, begins[0], begins[-1]):
        first = next((at for at in begins if morning.dawn <= at < morning.until), None)
        if first is not None:
            found.append(Early(morning.day, first, morning.until))
    return tuple(found)


def _hands_begin(plan: Plan, timetable: Timetable) -> list[int]:
    """Return when somebody's hands begin: at steps, switching on, lighting, washing up."""
    found = [start for placed in timetable.placed for start in _at_load(plan, placed)]
    for heating in timetable.heatings:
        station = plan.kitchen.station.get(heating.station)
        found += [heating.start] if hand_minutes(station, heating) else []
    for washing in timetable.washings:
        vessel = plan.kitchen.vessel.get(washing.vessel)
        found += [washing.start] if vessel is None or vessel.by_hand else []
    return found


def _at_load(plan: Plan, placed: Placed) -> list[int]:
    """Return when hands begin at a load: those named, or as many as it asks for."""
    step = plan.steps.get(placed.step)
    if placed.hands:
        return [each.start for each in placed.hands]
    if step is None:
        return []
    asked = meaning.hands_of(plan, step, placed.length, placed.way)
    return [placed.start + each.start for each in asked if each.minutes]


def moved(timetable: Timetable, seen: Timetable) -> tuple[tuple[StepId, int, int], ...]:
    """Return step, load and minutes of what begins at another minute than in the timetable seen before."""
    found = []
    for placed in timetable.placed:
        was = seen.at.get(placed.key)
        if was is not None and was.start != placed.start:
            found.append((placed.step, placed.load, placed.start - was.start))
    return tuple(found)
