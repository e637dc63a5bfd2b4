"""Fires: what must stand on the coals of one lighting lasts longer than these burn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.arrange.claims import slots_for
from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Problem
from core.arrange.why.labels import Edge, Labels, asked, begins, ends
from core.arrange.why.reason import Reason, ReasonKind, Share
from core.plan.ids import StationId
from core.plan.kitchen import Station


def fires(problem: Problem, labels: Labels) -> list[Reason]:
    """Return for each fire that may be lit once the two uses that are too far apart; for all, too much work."""
    found = []
    for station in problem.plan.kitchen.stations:
        if not station.is_fire or station.burns is None:
            continue
        tasks = list(_on(problem, station.id))
        reason = _too_far_apart(problem, labels, station, tasks) if station.fires == 1 else None
        reason = reason or _too_much(problem, station, tasks)
        if reason is not None:
            found.append(reason)
    return found


def _on(problem: Problem, station: StationId) -> Iterator[tuple[int, int]]:
    """Return tasks that can stand nowhere else, with the units they take."""
    for task in problem.tasks:
        if len(task.ways) == 1 and task.begun is None:
            for use in task.ways[0].uses:
                if {each for each, _shelf in slots_for(problem, use)} == {station}:
                    yield task.index, use.units
                    break


def _too_far_apart(
    problem: Problem, labels: Labels, station: Station, tasks: Sequence[tuple[int, int]]
) -> Reason | None:
    """Judge the least minutes from the start of one use to the end of another: all lie in one burning."""
    burns = station.burns or 0
    worst: tuple[int, int, int, list[int]] | None = None
    for first, _units in tasks:
        far, because = labels.longest_from(begins(first))
        for last, _more in tasks:
            if far[ends(last)] > max(burns, worst[0] if worst is not None else 0):
                worst = far[ends(last)], first, last, because
    if worst is None:
        return None
    lasts, first, last, because = worst
    edges = list(_path(labels, because, begins(first), ends(last)))
    start = labels.latest[begins(first)]
    on_the_way = {node for edge in edges for node in (edge.tail, edge.head)}
    shares = tuple(
        Share(task.step.id, task.load, 0, 0, task.shortest)
        for task in problem.tasks
        if begins(task.index) in on_the_way and ends(task.index) in on_the_way and (task.index in dict(tasks))
    )
    return Reason(
        ReasonKind.FIRE,
        (Demand(DemandKind.FIRE, station=station.id), *asked(edges)),
        start,
        start + lasts,
        need=lasts,
        have=burns,
        over=lasts - burns,
        about=Demand(DemandKind.FIRE, station=station.id),
        stations=(station.id,),
        shares=shares,
    )


def _path(labels: Labels, because: Sequence[int], first: int, last: int) -> Iterator[Edge]:
    node = last
    while node != first:
        edge = labels.edges[because[node]]
        yield edge
        node = edge.tail


def _too_much(problem: Problem, station: Station, tasks: Sequence[tuple[int, int]]) -> Reason | None:
    """Judge that all burning of all fires has minutes enough for all units that are wanted."""
    burning = (station.burns or 0) * station.fires
    have = burning * station.units
    need = sum(problem.tasks[index].shortest * units for index, units in tasks)
    if need <= have:
        return None
    shares = tuple(
        Share(problem.tasks[index].step.id, problem.tasks[index].load, 0, 0, problem.tasks[index].shortest * units)
        for index, units in tasks
    )
    fire = Demand(DemandKind.FIRE, station=station.id)
    return Reason(
        ReasonKind.FIRE,
        (fire, Demand(DemandKind.STATION, kind_of=station.kind)),
        need=need,
        have=have,
        over=-(-need // station.units) - burning,
        about=fire,
        stations=(station.id,),
        shares=shares,
    )
