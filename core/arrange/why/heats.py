"""Two bakes that want one oven: too far apart to share a setting, and in neither order is there time for both.

Also two that could share a setting but not the racks. Pairs that may stand in different ovens are left to the solver.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import ceil

from core.arrange.claims import slots_for
from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Problem, Task
from core.arrange.why.labels import Edge, Labels, asked, begins, ends
from core.arrange.why.reason import Reason, ReasonKind, Turn
from core.plan.kitchen import HEATED, Heater, Station
from core.plan.network_labels import FAR
from core.plan.step import Use


@dataclass(frozen=True)
class _Bake:
    """A step that can stand in one heated station only."""

    task: Task
    use: Use
    station: Station
    heater: Heater


class _Near:
    """Bakes that waits tie to each other: how much later than one ends the other may begin."""

    def __init__(self, problem: Problem, labels: Labels) -> None:
        self.labels = labels
        self.tied: dict[int, set[int]] = {}
        self._far: dict[int, tuple[list[int], list[int]]] = {}
        for arc in problem.arcs:
            if arc.demand is not None:
                group = self.tied.get(arc.before, {arc.before}) | self.tied.get(arc.after, {arc.after})
                self.tied.update(dict.fromkeys(group, group))

    def most(self, first: _Bake, then: _Bake) -> tuple[int, list[Edge]]:
        """Return the most minutes from the end of `first` to the start of `then`, and what asks it; FAR: no limit."""
        if then.task.index not in self.tied.get(first.task.index, ()):
            return FAR, []
        node, end = begins(then.task.index), ends(first.task.index)
        if node not in self._far:
            self._far[node] = self.labels.longest_from(node)
        far, because = self._far[node]
        if far[end] <= -FAR // 2:
            return FAR, []
        edges: list[Edge] = []
        at = end
        while at != node:
            edge = self.labels.edges[because[at]]
            edges.append(edge)
            at = edge.tail
        return -far[end], edges


def heats(problem: Problem, labels: Labels) -> list[Reason]:
    """Return each pair of bakes that an oven cannot hold, neither at once nor one after the other."""
    found = []
    bakes, near = list(_bakes(problem)), _Near(problem, labels)
    for one, other in combinations(bakes, 2):
        if one.station is other.station and one.task.step is not other.task.step:
            reason = _of(problem, labels, near, (one, other))
            if reason is not None:
                found.append(reason)
    return _loads_once(found)


def _loads_once(reasons: list[Reason]) -> list[Reason]:
    """Return for each two steps the reason about those of their loads that are the furthest from fitting."""
    worst: dict[frozenset[str], Reason] = {}
    for reason in reasons:
        pair = frozenset(turn.first[0] for turn in reason.turns)
        if pair not in worst or reason.over > worst[pair].over:
            worst[pair] = reason
    return list(worst.values())


def _bakes(problem: Problem) -> Iterator[_Bake]:
    for task in problem.tasks:
        if len(task.ways) > 1 or not task.ways[0].settings:
            continue
        for use in task.ways[0].uses:
            stations = {station for station, _shelf in slots_for(problem, use)}
            if use.heat is None or use.kind not in HEATED or len(stations) != 1:
                continue
            station = problem.plan.kitchen.station[stations.pop()]
            if station.heater is not None:
                yield _Bake(task, use, station, station.heater)


def _of(problem: Problem, labels: Labels, near: _Near, pair: tuple[_Bake, _Bake]) -> Reason | None:
    one, other = pair
    apart = not _settings(one) & _settings(other)
    room = one.use.units + other.use.units > one.station.units
    if not (apart or room) or (one.task.begun is not None and other.task.begun is not None):
        return None
    if problem.now is not None and min(labels.latest[ends(each.task.index)] for each in (one, other)) <= problem.now:
        return None
    turns, edges = [], list[Edge]()
    for first, then in ((one, other), (other, one)):
        turn, forced = _turn(labels, first, then, near)
        if not 0 < turn.late < FAR // 2:
            return None
        turns.append(turn)
        edges += forced
    demand = Demand(DemandKind.HEAT, station=one.station.id)
    about = demand if apart else Demand(DemandKind.STATION, kind_of=one.station.kind)
    nearest = min(turns, key=lambda turn: turn.late)
    return Reason(
        ReasonKind.HEATS,
        (about, *asked(edges)),
        min(turn.out for turn in turns),
        nearest.done,
        need=nearest.done,
        have=nearest.by,
        over=nearest.late,
        about=about,
        stations=(one.station.id,),
        turns=tuple(sorted(turns, key=lambda turn: turn.late)),
    )


def _settings(bake: _Bake) -> set[int]:
    return {celsius for celsius, _length in bake.task.ways[0].settings}


def _turn(labels: Labels, first: _Bake, then: _Bake, near: _Near) -> tuple[Turn, list[Edge]]:
    """Return one order, at the settings that make it the quickest, and what forces it to be as late as it is."""
    change, settings = min(
        (_change(first.heater, one, other) if _minds(then) else 0, (one, other))
        for one in _settings(first)
        for other in _settings(then)
    )
    end, begin = ends(first.task.index), begins(then.task.index)
    out, latest, length = labels.earliest[end], labels.latest[begin], then.task.shortest
    edges = [*labels.why_earliest(end), *labels.why_latest(begin)]
    most, tied = near.most(first, then)
    if change - most > out + change - latest or out <= -FAR // 2:
        # however late the first is out, the other must follow too soon; told as if it were out as late as it can be
        out = max(out, labels.latest[end] if labels.latest[end] < FAR // 2 else 0)
        latest, edges = out + most, tied
    done, within = out + change + length, most if edges is tied else None
    turn = Turn(first.task.key, then.task.key, settings, out, change, length, done, latest + length, within)
    return turn, edges


def _minds(bake: _Bake) -> bool:
    return bake.use.heat is None or bake.use.heat.steady


def _change(heater: Heater, one: int, other: int) -> int:
    rate = heater.up if other > one else heater.down
    return ceil(abs(other - one) / Fraction(str(rate)))
