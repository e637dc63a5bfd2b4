"""The places, vessels and cooks of a timetable as sources of arcs between its loads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from core.arrange.chances_arcs import Apart, Bakes, Because, Hours, Occupant, Pool, Ref, Source, Work
from core.plan.ids import CookId, StationId
from core.plan.kitchen import HEATED
from core.plan.meaning import keep_of, way_of
from core.plan.menu import LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.plan.runs import Run, vessel_runs
from core.plan.step import Attention, Holding, Use
from core.timetable.timetable import Placed, Spot, Stay, Timetable

Nodes = Mapping[Key, int]


@dataclass(slots=True)
class Standing:
    """What stands on each station, and on each of its shelves."""

    units: dict[StationId, list[Occupant]] = field(default_factory=dict)
    shelves: dict[tuple[StationId, int], list[Occupant]] = field(default_factory=dict)
    bakes: dict[StationId, list[Occupant]] = field(default_factory=dict)


def sources_of(
    plan: Plan, timetable: Timetable, nodes: Nodes, washings: Mapping[int, int]
) -> list[Source]:
    """Return all sources. `nodes` numbers the loads, `washings` the timetable's washings."""
    standing = Standing()
    for placed in timetable.placed:
        if placed.key in nodes:
            _stand(plan, placed, nodes[placed.key], standing)
    for stay in timetable.stays:
        _wait(plan, stay, nodes, standing)
    found: list[Source] = []
    for station in plan.kitchen.stations:
        there = standing.units.get(station.id, ())
        if there and station.units > 0 and not station.shelves:
            found.append(Pool(Because.PLACE, station.units, tuple(there)))
        for index, shelf in enumerate(station.shelves):
            on_shelf = standing.shelves.get((station.id, index), ())
            if on_shelf:
                found.append(Pool(Because.PLACE, shelf.area, tuple(on_shelf)))
        if station.heater is not None and station.id in standing.bakes:
            found.append(Bakes(station.heater, tuple(standing.bakes[station.id])))
    found += _apart(plan, standing)
    found += _vessels(plan, timetable, nodes, washings)
    found += _hours(plan, timetable, nodes)
    return found


def spots_with_uses(plan: Plan, uses: Sequence[Use], spots: Sequence[Spot]) -> Iterator[tuple[Use, Spot]]:
    """Give each spot with the use it answers: the first of its kind whose units are not all found yet."""
    left = [use.units for use in uses]
    for spot in spots:
        station = plan.kitchen.station.get(spot.station)
        for number, use in enumerate(uses):
            if station is not None and use.kind is station.kind and left[number] > 0:
                left[number] -= max(1, spot.units)
                yield use, spot
                break


def _stand(plan: Plan, placed: Placed, node: int, standing: Standing) -> None:
    _span, uses = way_of(plan, plan.steps[placed.step], placed.way)
    begins, leaves = (Ref(node, end=False),), (Ref(node, end=True),)
    for use, spot in spots_with_uses(plan, uses, placed.spots):
        _put(plan, standing, use, spot, Occupant(1, (node,), begins, leaves, setting=placed.setting))


def _wait(plan: Plan, stay: Stay, nodes: Nodes, standing: Standing) -> None:
    """Put food that waits on its place: from the end of its step until what comes after begins."""
    before = nodes.get((stay.before, stay.load), nodes.get((stay.before, 0)))
    use = _use_of(plan, stay)
    if before is None or use is None:
        return
    leaves: tuple[Ref, ...] = ()
    if stay.after is not None:
        after = {load: node for (step, load), node in nodes.items() if step == stay.after}
        if len(after) == sum(step == stay.before for step, _load in nodes) > 1:  # load by load
            after = {load: node for load, node in after.items() if load == stay.load}
        leaves = tuple(Ref(node, end=False) for node in after.values())
        if not leaves:
            return
    until = None if leaves else stay.end
    occupant = Occupant(1, (), (Ref(before, end=True),), leaves, until, stay.setting)
    for its_use, spot in spots_with_uses(plan, (use,), stay.spots):
        _put(plan, standing, its_use, spot, occupant)


def _use_of(plan: Plan, stay: Stay) -> Use | None:
    if stay.before not in plan.steps:
        return None
    if stay.after is None:
        keep = keep_of(plan, plan.steps[stay.before])
        return None if keep is None else keep.wait.use
    links = plan.links_from[stay.before]
    return next((each.wait.use for each in links if each.after == stay.after and each.kind is stay.kind), None)


def _put(plan: Plan, standing: Standing, use: Use, spot: Spot, occupant: Occupant) -> None:
    station = plan.kitchen.station[spot.station]
    steady = use.heat is None or use.heat.steady or not occupant.enters
    setting = occupant.setting if use.heat is not None and station.kind in HEATED else None
    amount = use.area if station.shelves else max(1, spot.units)
    one = Occupant(
        amount, occupant.enters, occupant.begins, occupant.leaves, occupant.until, setting, steady
    )
    if station.shelves:
        if spot.shelf is not None and 0 <= spot.shelf < len(station.shelves) and amount > 0:
            standing.shelves.setdefault((station.id, spot.shelf), []).append(one)
    else:
        standing.units.setdefault(station.id, []).append(one)
    if setting is not None:
        standing.bakes.setdefault(station.id, []).append(one)


def _apart(plan: Plan, standing: Standing) -> Iterator[Source]:
    for pair in sorted(sorted((one.id, other.id)) for one, other in plan.kitchen.apart):
        first, then = (_on(each, standing) for each in pair)
        if first and then:
            yield Apart(first, then)


def _on(station: StationId, standing: Standing) -> tuple[Occupant, ...]:
    shelves = [one for key, some in standing.shelves.items() if key[0] == station for one in some]
    return (*standing.units.get(station, ()), *shelves)


def _vessels(
    plan: Plan, timetable: Timetable, nodes: Nodes, washings: Mapping[int, int]
) -> Iterator[Source]:
    washed = {
        (washing.vessel, washing.after): washings[number]
        for number, washing in enumerate(timetable.washings)
        if number in washings
    }
    held: dict[str, list[Occupant]] = {}
    for run in vessel_runs(plan):
        inside = [node for (step, _load), node in nodes.items() if step in run.steps]
        if inside:
            node = washed.get((run.vessel, run.steps[0]))
            held.setdefault(run.vessel, []).append(_held(plan, run, nodes, inside, node))
    for vessel in plan.kitchen.vessels:
        if vessel.id in held:
            yield Pool(Because.VESSEL, vessel.count, tuple(held[vessel.id]))


def _held(plan: Plan, run: Run, nodes: Nodes, inside: list[int], washing: int | None) -> Occupant:
    """Return a run as what holds its vessels, until they are washed."""
    among, minutes = set(run.steps), plan.kitchen.vessel[run.vessel].washing
    fed = {
        link.after
        for step in run.steps
        for link in plan.links_from[step]
        if link.after in among and link.kind is LinkKind.END_TO_START
    }
    enters = tuple(node for (step, load), node in nodes.items() if step in among - fed and load == 0)
    begins = tuple(Ref(node, end=False) for node in inside)
    if washing is not None:
        leaves: tuple[Ref, ...] = (Ref(washing, end=True),)
    else:
        leaves = tuple(Ref(node, end=True, gap=minutes) for node in inside)
    served = []
    for step in run.steps:
        keep = keep_of(plan, plan.steps[step])
        if keep is not None and keep.wait.how is Holding.VESSEL:
            served.append(plan.dish_of[step].course + minutes)
    return Occupant(run.count, enters, begins, leaves, max(served, default=None))


def _hours(plan: Plan, timetable: Timetable, nodes: Nodes) -> Iterator[Source]:
    works: dict[CookId, list[Work]] = {}
    for placed in timetable.placed:
        node = nodes.get(placed.key)
        if node is None:
            continue
        place = _place(plan, placed)
        for cook, whole in cooks_at(plan, placed).items():
            works.setdefault(cook, []).append(Work(node, whole, place))
    for cook, some in sorted(works.items()):
        if cook in plan.kitchen.cook:
            yield Hours(tuple(some), plan.kitchen.walk)


def cooks_at(plan: Plan, placed: Placed) -> dict[CookId, bool]:
    """Return the cooks whom a load needs when it begins, and whether throughout."""
    found: dict[CookId, bool] = {}
    hands_on = plan.steps[placed.step].attention is Attention.HANDS_ON
    for hand in placed.hands:
        if hand.cook is not None and hand.start == placed.start and hand.minutes > 0:
            found[hand.cook] = hands_on or hand.minutes >= placed.length
    return found


def _place(plan: Plan, placed: Placed) -> str:
    station = plan.kitchen.station.get(placed.spots[0].station) if placed.spots else None
    return "" if station is None else station.place
