"""What surely takes a share of something: from its latest start to its earliest end, whatever is decided.

Items are gathered for stations (steps and waiting food), vessels and hands. A step that may be done in several ways
is left out, as is everything that a fact has ended: what is said without them holds with them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from core.arrange.claims import slots_for
from core.arrange.problem import Piece, Problem, Task
from core.arrange.why.labels import ORIGIN, Edge, Labels, begins, ends
from core.arrange.why.reason import Share
from core.plan import meaning
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import StationKind
from core.plan.network_labels import FAR
from core.plan.runs import Run
from core.plan.step import Attention, Holding, Use


@dataclass(frozen=True, slots=True)
class Node:
    """A moment of the network and minutes from it."""

    node: int
    plus: int = 0


@dataclass(frozen=True, slots=True)
class Item:
    """Something that takes `amount` from `start` to `end`, at least `least` minutes (None: pauses may lie between)."""

    share: Share
    start: Node
    end: Node
    least: int
    whole: bool
    amount: int
    use: Use | None = None
    stations: frozenset[StationId] = frozenset()
    vessel: VesselId | None = None
    skill: str = ""


@dataclass(frozen=True, slots=True)
class Sure:
    """An item with its times by the labels: first and last start, first and last end."""

    item: Item
    first: int
    latest: int
    earliest: int
    last: int

    @property
    def surely(self) -> bool:
        """Tell whether there are minutes at which it is surely there."""
        return self.item.whole and self.latest < self.earliest

    def share(self, start: int, end: int, amount: int) -> Share:
        """Return the item as a share of a reason."""
        kept = self.item.share
        return Share(
            kept.step, kept.load, start, end, amount, kept.waits, kept.does, kept.height, kept.raw
        )


def timed(labels: Labels, item: Item) -> Sure:
    """Return an item with its times."""
    one, other = item.start, item.end
    return Sure(
        item,
        labels.earliest[one.node] + one.plus,
        labels.latest[one.node] + one.plus,
        labels.earliest[other.node] + other.plus,
        labels.latest[other.node] + other.plus,
    )


def why_sure(labels: Labels, item: Item) -> list[Edge]:
    """Return what forces the minutes at which an item is surely there."""
    return [*labels.why_latest(item.start.node), *labels.why_earliest(item.end.node)]


def why_within(labels: Labels, item: Item) -> list[Edge]:
    """Return what forces an item to lie between its first start and its last end."""
    return [*labels.why_earliest(item.start.node), *labels.why_latest(item.end.node)]


def is_bound(sure: Sure) -> bool:
    """Tell whether an item lies between two times at all."""
    return sure.first > -FAR // 2 and sure.last < FAR // 2


# ---- stations


def at_stations(problem: Problem, kind: StationKind | None = None) -> Iterator[Item]:
    """Return what stands on stations (of one kind): steps done in one way, and food that waits."""
    for task in problem.tasks:
        if len(task.ways) == 1 and not _past(problem, task):
            start, end = Node(begins(task.index)), Node(ends(task.index))
            for use in task.ways[0].uses:
                if kind is not None and use.kind is not kind:
                    continue
                share = Share(task.step.id, task.load, 0, 0, 0, height=use.height, raw=use.raw)
                yield from _standing(problem, share, (start, end), task.shortest, use)
    for wait in problem.waits:
        if wait.use is None or (kind is not None and wait.use.kind is not kind):
            continue
        before = problem.tasks[wait.before]
        start = Node(ends(before.index))
        end = Node(begins(wait.after)) if wait.after is not None else Node(ORIGIN, wait.until)
        share = Share(
            before.step.id, before.load, 0, 0, 0, waits=True, height=wait.use.height, raw=wait.use.raw
        )
        yield from _standing(problem, share, (start, end), max(0, wait.least), wait.use)


def _past(problem: Problem, task: Task) -> bool:
    return task.begun is not None and problem.now is not None and task.begun.end <= problem.now


def _standing(
    problem: Problem, share: Share, span: tuple[Node, Node], least: int, use: Use
) -> Iterator[Item]:
    stations = frozenset(station for station, _shelf in slots_for(problem, use))
    if not stations:
        return
    kitchen = problem.plan.kitchen
    if use.kind is StationKind.ROOM and any(
        kitchen.station[each].units == 0 and not kitchen.station[each].shelves for each in stations
    ):
        return
    shelved = all(kitchen.station[each].shelves for each in stations)
    amount = use.area if shelved else use.units
    yield Item(share, *span, least, True, amount, use, stations)


# ---- vessels


def in_vessels(problem: Problem, labels: Labels) -> Iterator[Item]:
    """Return each run of each vessel, from its first start to its last end; washing is left out."""
    for run in problem.runs:
        tasks = [index for step in run.steps for index in problem.loads.get(step, ())]
        if not tasks:
            continue
        start = min((Node(begins(index)) for index in tasks), key=lambda each: labels.latest[each.node])
        last = [Node(ends(index)) for index in tasks]
        last += [Node(ORIGIN, course) for course in _kept_until(problem, run)]
        end = max(last, key=lambda each: labels.earliest[each.node] + each.plus)
        first = problem.tasks[problem.loads[next(step for step in run.steps if step in problem.loads)][0]]
        share = Share(first.step.id, first.load, 0, 0, 0)
        yield Item(share, start, end, 0, True, run.count, vessel=run.vessel)


def _kept_until(problem: Problem, run: Run) -> Iterator[int]:
    for step in run.steps:
        if step in problem.loads:
            keep = meaning.keep_of(problem.plan, problem.plan.steps[step])
            if keep is not None and keep.wait.how is Holding.VESSEL:
                yield problem.plan.dish_of[step].course


# ---- hands


def by_hand(problem: Problem) -> Iterator[Item]:
    """Return every cook's visit to a step done in one way; switching on, lighting and washing are left out."""
    for task in problem.tasks:
        if len(task.ways) == 1:
            for piece in task.pieces:
                yield _visit(task, piece)


def _visit(task: Task, piece: Piece) -> Item:
    start, end = Node(begins(task.index)), Node(ends(task.index))
    least = task.shortest if piece.whole else piece.minutes
    if not piece.whole and piece.from_end:
        start = Node(ends(task.index), -piece.offset - piece.minutes)
        end = Node(ends(task.index), -piece.offset)
    elif not piece.whole:
        start = Node(begins(task.index), piece.offset)
        end = Node(begins(task.index), piece.offset + piece.minutes)
    if task.cuts > 1:
        least = piece.minutes
    does = "" if task.step.attention is Attention.HANDS_ON else _does(task, piece)
    share = Share(task.step.id, task.load, 0, 0, 0, does=does)
    return Item(share, start, end, least, task.cuts == 1, piece.people, skill=piece.skill)


def _does(task: Task, piece: Piece) -> str:
    """Return what a cook does at a step that cooks by itself."""
    if piece.whole:
        return ""
    at = piece.offset
    for touch in task.step.touches:
        if touch.at == at and touch.from_end == piece.from_end and touch.minutes == piece.minutes:
            return touch.does or "a touch"
    return "out" if piece.from_end or at else "in"
