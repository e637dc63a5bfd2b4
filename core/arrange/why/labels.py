"""Earliest and latest starts and ends by the waits alone, with the wishes that force each of them.

Nodes are the start and the end of every task and plating as origin (simple temporal network; Dechter, Meiri and Pearl
1991). Lengths are least and greatest over ways and settings, so that what follows from the labels holds in any case.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from core.arrange.demand import Demand, DemandKind
from core.arrange.problem import Arc, Bound, Problem
from core.plan.network_labels import FAR

ORIGIN = 0


def begins(task: int) -> int:
    """Return the node of a task's start."""
    return 1 + 2 * task


def ends(task: int) -> int:
    """Return the node of a task's end."""
    return 2 + 2 * task


@dataclass(frozen=True, slots=True)
class Edge:
    """`head` comes at least `minutes` after `tail`. `demand`: the wish that asks it (None: it holds anyway).

    `arc`, `bound`: what it was made from; neither: the length of a task, or the plan's opening.
    """

    tail: int
    head: int
    minutes: int
    demand: Demand | None = None
    arc: Arc | None = None
    bound: Bound | None = None


def edges_of(problem: Problem) -> list[Edge]:
    """Return all edges of a problem."""
    found: list[Edge] = []
    opens = problem.plan.opens
    for task in problem.tasks:
        found.append(Edge(begins(task.index), ends(task.index), task.shortest))
        found.append(Edge(ends(task.index), begins(task.index), -task.longest))
        if opens is not None and task.begun is None:
            found.append(Edge(ORIGIN, begins(task.index), opens, Demand(DemandKind.OPENS)))
    for arc in problem.arcs:
        early = problem.tasks[arc.early].early if arc.early is not None else 0
        tail = ends(arc.before) if arc.before_end else begins(arc.before)
        head = ends(arc.after) if arc.after_end else begins(arc.after)
        found.append(Edge(tail, head, arc.lag + early, arc.demand, arc=arc))
    for bound in problem.bounds:
        node = ends(bound.task) if bound.end else begins(bound.task)
        if bound.low is not None:
            early = problem.tasks[bound.task].early if bound.early else 0
            found.append(Edge(ORIGIN, node, bound.low + early, bound.demand, bound=bound))
        if bound.high is not None:
            found.append(Edge(node, ORIGIN, -bound.high, bound.demand, bound=bound))
    found.sort(key=_tail)  # along the menu, so that labels come to rest soon
    return found


def _tail(edge: Edge) -> int:
    return edge.tail


class Labels:
    """Labels of one set of edges; `circle` is not empty where they contradict each other: check it first."""

    def __init__(self, nodes: int, edges: Sequence[Edge]) -> None:
        self.nodes = nodes
        self.edges = list(edges)
        self.earliest, self._from = [-FAR] * nodes, [-1] * nodes
        self.latest, self._to = [FAR] * nodes, [-1] * nodes
        self.circle = self._raise_earliest()
        if not self.circle:
            self._lower_latest()

    def without(self, demands: Collection[Demand]) -> Labels:
        """Return the labels as if these wishes were not there."""
        return Labels(self.nodes, [edge for edge in self.edges if edge.demand not in demands])

    def with_only(self, demands: Collection[Demand]) -> Labels:
        """Return the labels of these wishes and of what holds anyway."""
        return Labels(
            self.nodes, [edge for edge in self.edges if edge.demand is None or edge.demand in demands]
        )

    def why_earliest(self, node: int) -> list[Edge]:
        """Return the edges that force how early a node may be, from the origin on."""
        found: list[Edge] = []
        while node != ORIGIN and self._from[node] >= 0:
            edge = self.edges[self._from[node]]
            found.append(edge)
            node = edge.tail
        return found[::-1]

    def why_latest(self, node: int) -> list[Edge]:
        """Return the edges that force how late a node may be, up to the origin."""
        found: list[Edge] = []
        while node != ORIGIN and self._to[node] >= 0:
            edge = self.edges[self._to[node]]
            found.append(edge)
            node = edge.head
        return found

    def longest_from(self, node: int) -> tuple[list[int], list[int]]:
        """Return the least minutes from a node to every other and the edge that forces each (-1: none)."""
        far, because = [-FAR] * self.nodes, [-1] * self.nodes
        far[node] = 0
        changed = True
        while changed:  # no circle: checked when the labels were made
            changed = False
            for number, edge in enumerate(self.edges):
                if ORIGIN not in {edge.head, edge.tail} and far[edge.tail] > -FAR // 2:
                    there = far[edge.tail] + edge.minutes
                    if there > far[edge.head] and edge.head != node:
                        far[edge.head], because[edge.head] = there, number
                        changed = True
        return far, because

    def _raise_earliest(self) -> list[Edge]:
        self.earliest[ORIGIN] = 0
        for _round in range(2 * self.nodes):
            changed = False
            for number, edge in enumerate(self.edges):
                if edge.head == ORIGIN or self.earliest[edge.tail] <= -FAR // 2:
                    continue
                there = self.earliest[edge.tail] + edge.minutes
                if there > self.earliest[edge.head]:
                    self.earliest[edge.head], self._from[edge.head] = there, number
                    changed = True
            if not changed:
                return self._past_its_latest() or self._loose_circle()
            circle = self._circle()
            if circle:
                return circle
        return []

    def _past_its_latest(self) -> list[Edge]:
        """Return the circle through plating that is passed the furthest."""
        late = [
            (self.earliest[edge.tail] + edge.minutes, -number)
            for number, edge in enumerate(self.edges)
            if edge.head == ORIGIN and self.earliest[edge.tail] > -FAR // 2
        ]
        over, number = max(late, default=(0, 0))
        if over <= 0:
            return []
        edge = self.edges[-number]
        return [*self.why_earliest(edge.tail), edge]

    def _circle(self) -> list[Edge]:
        """Return a circle among the edges that force: such labels never come to rest."""
        seen = [0] * self.nodes
        for first in range(1, self.nodes):
            node, mark = first, first
            while node != ORIGIN and not seen[node] and self._from[node] >= 0:
                seen[node] = mark
                node = self.edges[self._from[node]].tail
            if node != ORIGIN and seen[node] == mark and self._from[node] >= 0:
                return self._around(node)
        return []

    def _around(self, node: int) -> list[Edge]:
        found = []
        at = node
        while True:
            edge = self.edges[self._from[at]]
            found.append(edge)
            at = edge.tail
            if at == node:
                return found[::-1]

    def _loose_circle(self) -> list[Edge]:
        """Return a circle among nodes that nothing forces from plating, if there is one."""
        loose = [node for node in range(self.nodes) if self.earliest[node] <= -FAR // 2]
        if not loose:
            return []
        start = dict.fromkeys(loose, 0)
        among = [
            (number, edge) for number, edge in enumerate(self.edges) if edge.tail in start and edge.head in start
        ]
        because = list(self._from)
        for _round in range(len(loose) + 1):
            changed = False
            for number, edge in among:
                if start[edge.tail] + edge.minutes > start[edge.head]:
                    start[edge.head] = start[edge.tail] + edge.minutes
                    self._from[edge.head] = number
                    changed = True
            if not changed:
                self._from = because
                return []
            circle = self._circle()
            if circle:
                return circle
        self._from = because
        return []

    def _lower_latest(self) -> None:
        self.latest[ORIGIN] = 0
        changed = True
        while changed:
            changed = False
            for number in range(len(self.edges) - 1, -1, -1):
                edge = self.edges[number]
                if self.latest[edge.head] >= FAR // 2:
                    continue
                there = self.latest[edge.head] - edge.minutes
                if there < self.latest[edge.tail] and edge.tail != ORIGIN:
                    self.latest[edge.tail], self._to[edge.tail] = there, number
                    changed = True


def labels_of(problem: Problem) -> Labels:
    """Return the labels of a whole problem."""
    return Labels(1 + 2 * len(problem.tasks), edges_of(problem))


def asked(edges: Iterable[Edge]) -> tuple[Demand, ...]:
    """Return the wishes among edges, each once."""
    return tuple(dict.fromkeys(edge.demand for edge in edges if edge.demand is not None))
