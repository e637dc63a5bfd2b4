"""More at once than there is: what is surely there together at some minute asks for more than there is then.

Station units, shelf area by sum, vessels, cooks. What counts is each thing's minutes from its latest start to its
earliest end (compulsory part; Lahrichi 1982).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Problem, Stretch
from core.arrange.why.labels import Labels, asked
from core.arrange.why.reason import Reason, ReasonKind
from core.arrange.why.sure import Sure, at_stations, by_hand, in_vessels, timed, why_sure
from core.plan import calendar
from core.plan.ids import StationId
from core.plan.kitchen import Station


@dataclass(frozen=True)
class Resource:
    """Something there is only so much of: what it is, how much at each minute, at which minutes that changes."""

    about: Demand
    stations: tuple[StationId, ...]
    shelved: bool
    there: Callable[[int], int]
    changes: tuple[int, ...]
    lacking: Callable[[int, int], tuple[Demand, ...]]
    sures: tuple[Sure, ...]


def crowds(problem: Problem, labels: Labels, about: Demand | None = None) -> list[Reason]:
    """Return each stretch in which something is surely asked for more than there is; of `about` alone if given."""
    found: list[Reason] = []
    for resource in resources(problem, labels, about):
        for reason in _over_full(problem, labels, resource):
            if not any(_says_the_same(reason, other) for other in found):
                found.append(reason)
    return found


def _says_the_same(one: Reason, other: Reason) -> bool:
    """Tell whether a reason about a part of the stations says all that one about more of them says."""
    return (one.about, one.start, one.end, set(one.shares)) == (
        other.about, other.start, other.end, set(other.shares),
    )  # fmt: skip


def _over_full(problem: Problem, labels: Labels, resource: Resource) -> Iterator[Reason]:
    sures = [each for each in resource.sures if each.surely and each.item.amount > 0]
    now = problem.now
    times = {each.latest for each in sures} | {each.earliest for each in sures} | set(resource.changes)
    if now is not None:
        times.add(now)
    ordered = sorted(times)
    region: list[tuple[int, int, list[Sure], int]] = []
    for start, end in [*pairwise(ordered), (0, 0)]:
        here = [each for each in sures if each.latest <= start and each.earliest >= end]
        over = sum(each.item.amount for each in here) - (resource.there(start) if here else 0)
        if end > start and over > 0 and (now is None or start >= now):
            region.append((start, end, here, over))
            continue
        if region:
            yield _reason(labels, resource, region)
        region = []


def _reason(
    labels: Labels, resource: Resource, region: list[tuple[int, int, list[Sure], int]]
) -> Reason:
    """Return the reason of an over-full region: its worst stretch, as far as the same things are there."""
    worst = max(range(len(region)), key=lambda at: (region[at][3], region[at][1] - region[at][0]))
    first = last = worst
    crowd = sorted(region[worst][2], key=lambda each: (each.latest, -each.earliest))
    have = resource.there(region[worst][0])
    while first > 0 and _goes_on(resource, region[first - 1], crowd, have):
        first -= 1
    while last + 1 < len(region) and _goes_on(resource, region[last + 1], crowd, have):
        last += 1
    start, end = region[first][0], region[last][1]
    need = sum(each.item.amount for each in crowd)
    lacking = resource.lacking(start, end)
    closed = have == 0 and bool(lacking) and lacking[0].kind is DemandKind.CLOSED
    demands = (() if closed else (resource.about,)) + lacking
    enough = _enough(labels, crowd, have)
    demands += asked(edge for each in enough for edge in why_sure(labels, each.item))
    return Reason(
        ReasonKind.CLOSED if closed else ReasonKind.CROWD,
        tuple(dict.fromkeys(demands)),
        start,
        end,
        need=need,
        have=have,
        over=need - have if resource.shelved and not closed else end - start,
        about=resource.about,
        stations=resource.stations,
        shares=tuple(each.share(each.latest, each.earliest, each.item.amount) for each in crowd),
        shelved=resource.shelved,
    )


def _goes_on(
    resource: Resource, stretch: tuple[int, int, list[Sure], int], crowd: list[Sure], have: int
) -> bool:
    here = {id(each) for each in stretch[2]}
    return resource.there(stretch[0]) == have and all(id(each) in here for each in crowd)


def _enough(labels: Labels, crowd: Sequence[Sure], have: int) -> list[Sure]:
    """Return some of a crowd that are too many already: those that the fewest wishes hold there."""
    wishes = {id(each): len(asked(why_sure(labels, each.item))) for each in crowd}
    chosen: list[Sure] = []
    for each in sorted(crowd, key=lambda one: (wishes[id(one)], -one.item.amount)):
        if sum(one.item.amount for one in chosen) <= have:
            chosen.append(each)
    for each in tuple(chosen):
        if sum(one.item.amount for one in chosen) - each.item.amount > have:
            chosen.remove(each)
    return chosen


# ---- what there is


def resources(problem: Problem, labels: Labels, about: Demand | None = None) -> Iterator[Resource]:
    """Return all that there is only so much of (or `about` alone), with what asks for it; parts of a kind first."""
    if about is None or about.kind is DemandKind.STATION:
        yield from _stations(problem, labels, about)
    if about is None or about.kind is DemandKind.VESSEL:
        yield from _vessels(problem, labels)
    if about is None or about.kind is DemandKind.HANDS:
        yield from _hands(problem, labels, about)


def _stations(problem: Problem, labels: Labels, about: Demand | None) -> Iterator[Resource]:
    kitchen = problem.plan.kitchen
    wanted = None if about is None else about.kind_of
    items = [timed(labels, item) for item in at_stations(problem, wanted)]
    for kind in dict.fromkeys(item.item.use.kind for item in items if item.item.use is not None):
        own = [each for each in items if each.item.use is not None and each.item.use.kind is kind]
        groups = {each.item.stations for each in own} | {frozenset(each.id for each in kitchen.of_kind(kind))}
        for group in sorted(groups, key=lambda each: (len(each), sorted(each))):
            stations = [each for each in kitchen.of_kind(kind) if each.id in group]
            shelved = [bool(each.shelves) for each in stations]
            inside = tuple(each for each in own if each.item.stations <= group)
            if not inside or len(set(shelved)) > 1:
                continue
            closed = {
                each.id: calendar.closed(problem.plan, each, problem.low, problem.high) for each in stations
            }
            yield Resource(
                Demand(DemandKind.STATION, kind_of=kind),
                tuple(each.id for each in stations),
                shelved[0],
                partial(_open_room, stations, closed),
                tuple(at for stretches in closed.values() for stretch in stretches for at in stretch),
                partial(_shut, closed),
                inside,
            )


def room_of(station: Station) -> int:
    """Return the units of a station, or the cm2 of its shelves."""
    return sum(shelf.area for shelf in station.shelves) if station.shelves else station.units


def _open_room(
    stations: Sequence[Station], closed: dict[StationId, tuple[Stretch, ...]], at: int
) -> int:
    return sum(
        room_of(each) for each in stations if not any(start <= at < end for start, end in closed[each.id])
    )


def _shut(closed: dict[StationId, tuple[Stretch, ...]], start: int, end: int) -> tuple[Demand, ...]:
    return tuple(
        Demand(DemandKind.CLOSED, station=station)
        for station, stretches in closed.items()
        if any(first < end and last > start for first, last in stretches)
    )


def _vessels(problem: Problem, labels: Labels) -> Iterator[Resource]:
    items = [timed(labels, item) for item in in_vessels(problem, labels)]
    for vessel in problem.plan.kitchen.vessels:
        inside = tuple(each for each in items if each.item.vessel == vessel.id)
        about = Demand(DemandKind.VESSEL, vessel=vessel.id)
        yield Resource(about, (), False, partial(_always, vessel.count), (), _nobody, inside)


def _always(count: int, _at: int) -> int:
    return count


def _nobody(_start: int, _end: int) -> tuple[Demand, ...]:
    return ()


def _hands(problem: Problem, labels: Labels, about: Demand | None) -> Iterator[Resource]:
    items = [timed(labels, item) for item in by_hand(problem)]
    cooks = problem.plan.kitchen.cooks
    for skill in sorted({each.item.skill for each in items} | {""}):
        if about is not None and about.skill != skill:
            continue
        if skill and all(skill in cook.skills for cook in cooks):
            continue  # what is too much for these is too much for all
        inside = tuple(each for each in items if not skill or each.item.skill == skill)
        away = {
            cook.id: problem.away[cook.id] for cook in cooks if not skill or skill in cook.skills
        }
        yield Resource(
            Demand(DemandKind.HANDS, skill=skill),
            (),
            False,
            partial(_present, tuple(away.values())),
            tuple(at for stretches in away.values() for stretch in stretches for at in stretch),
            partial(_away, problem, skill),
            inside,
        )


def _present(away: Sequence[tuple[Stretch, ...]], at: int) -> int:
    return sum(not any(start <= at < end for start, end in stretches) for stretches in away)


def _away(problem: Problem, skill: str, start: int, end: int) -> tuple[Demand, ...]:
    return tuple(
        Demand(DemandKind.ABSENT, cook=cook.id)
        for cook in problem.plan.kitchen.cooks
        if (not skill or skill in cook.skills)
        and any(first < end and last > start for first, last in problem.away[cook.id])
    )
