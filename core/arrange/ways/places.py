"""Another place for a step or for food that waits: freed from a named station, another kind, on a board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import ChangeStep, Edit, Together
from core.plan.ids import StepId
from core.plan.kitchen import HEATED, StationKind
from core.plan.step import Use
from core.timetable.timetable import Timetable

ALIKE: dict[StationKind, tuple[StationKind, ...]] = {
    StationKind.OVEN: (StationKind.GRILL, StationKind.SMOKER),
    StationKind.GRILL: (StationKind.OVEN,),
    StationKind.SMOKER: (StationKind.OVEN, StationKind.GRILL),
    StationKind.FRIDGE: (StationKind.COLD_COUNTER,),
    StationKind.COLD_COUNTER: (StationKind.FRIDGE,),
    StationKind.WARM_DRAWER: (StationKind.HOT_BOX,),
    StationKind.HOT_BOX: (StationKind.WARM_DRAWER,),
}
"""Kinds of places that can stand in for one another (common practice); the cook judges the dish."""

_PAIRS_OF = 8
_ALL_PLACES = frozenset({StationKind.GRILL, StationKind.SMOKER})


@dataclass(frozen=True, slots=True)
class Move:
    """One use of a step made another: `edit`, what it changes, what it weighs; `area` it takes (cm2)."""

    step: StepId
    edit: Edit
    change: Change
    weight: float
    area: int = 0
    on: StepId | None = None

    @property
    def name(self) -> str:
        """Return what tells it from other moves."""
        return f"{self.step} {'on a board' if self.on else self.change.name}"


def elsewhere(case: Case) -> Family:
    """Propose another place for one step near the trouble; then for two together, where a shelf is short."""
    singles = [move for step in case.steps for move in _moves(case, step)]
    shelved = _by_area(singles)
    easings = [_easing(WayKind.ELSEWHERE, (move,)) for move in singles]
    easings += [
        _easing(WayKind.ELSEWHERE, pair)
        for pair in combinations(shelved, 2)
        if pair[0].step != pair[1].step and pair[0].change.name == pair[1].change.name
    ]
    return Family(WayKind.ELSEWHERE, tuple(easings))


def stacked(case: Case) -> Family:
    """Propose to stand something on a board on another's tray; then that and something else in another place."""
    boards = sorted((move for step in case.steps for move in _boards(case, step)), key=lambda each: each.area)
    moves = _by_area([move for step in case.steps for move in _moves(case, step)])
    easings = [_easing(WayKind.STACK, (board,)) for board in boards]
    easings += [
        _easing(WayKind.STACK, (board, move))
        for move in moves
        for board in boards
        if move.step not in (board.step, board.on)
    ]
    return Family(WayKind.STACK, tuple(easings))


def _by_area(moves: list[Move]) -> list[Move]:
    """Return moves of what stands on shelves, the lightest first, then the largest."""
    shelved = [move for move in moves if move.area]
    return sorted(shelved, key=lambda each: (each.weight, -each.area))[:_PAIRS_OF]


def _easing(kind: WayKind, moves: tuple[Move, ...]) -> Easing:
    edits = tuple(move.edit for move in moves)
    edit = edits[0] if len(edits) == 1 else Together(kind.value.capitalize(), edits)
    weight = sum(move.weight for move in moves) + 2.0 * (len(moves) - 1)

    def told(_size: int, timetable: Timetable) -> tuple[Change, ...]:
        return tuple(_where(move, timetable) for move in moves)

    parts = frozenset(move.name for move in moves)
    return Easing(kind, lambda _size: edit, told, weight=lambda _size: weight, parts=parts)


def _where(move: Move, timetable: Timetable) -> Change:
    loads = timetable.loads_of.get(move.step, ())
    spots = [spot.station for each in loads for spot in each.spots]
    if not loads:
        return move.change
    station = spots[0] if spots else None
    return replace(move.change, station=station, begins=loads[0].start, ends=loads[-1].end)


def _moves(case: Case, step: StepId) -> Iterator[Move]:
    the_step = case.step(step)
    for number, use in enumerate(the_step.uses):
        for other in _others(case, use):
            uses = (*the_step.uses[:number], other, *the_step.uses[number + 1 :])
            change = Change(Unit.NOTHING, step=step, stood_in=use.station, name=other.kind.value)
            edit = ChangeStep(step, replace(the_step, uses=uses))
            yield Move(step, edit, change, _weight(use, other), use.area)


def _weight(use: Use, other: Use) -> float:
    """Return what a move weighs: nothing inside a kind; another fire makes another dish; raw things are delicate."""
    if use.kind is other.kind:
        return 0.0
    return 12.0 if use.kind in HEATED else 6.0 if use.raw else 2.0


def _others(case: Case, use: Use) -> Iterator[Use]:
    kitchen = case.plan.kitchen
    if use.station is not None and len(kitchen.of_kind(use.kind)) > 1:
        yield replace(use, station=None)
    for kind in ALIKE.get(use.kind, ()):
        stations = kitchen.of_kind(kind)
        if not stations:
            continue
        shelves = any(station.shelves for station in stations)
        units = max(station.units for station in stations) if kind in _ALL_PLACES else use.units
        heat = use.heat if kind in HEATED and any(each.heater is not None for each in stations) else None
        yield Use(
            kind, units, None, use.area if shelves else 0, use.height if shelves else 0, use.raw, heat
        )


def _boards(case: Case, step: StepId) -> Iterator[Move]:
    """Stand it on what is as large and stays as long, neither of them raw."""
    the_step = case.step(step)
    for number, use in enumerate(the_step.uses):
        if not use.area or use.raw:
            continue
        under = _under(case, step, use)
        if under is None:
            continue
        flat = replace(use, area=0)
        uses = (*the_step.uses[:number], flat, *the_step.uses[number + 1 :])
        change = Change(Unit.AREA, use.area, 0, step=step, after=under, name=use.kind.value)
        yield Move(step, ChangeStep(step, replace(the_step, uses=uses)), change, use.area / 1000, use.area, under)


def _under(case: Case, step: StepId, use: Use) -> StepId | None:
    """Return the largest thing that it can stand on: it has room for it, and both fit under one shelf."""
    clear = max(
        (shelf.height for each in case.plan.kitchen.of_kind(use.kind) for shelf in each.shelves), default=0
    )
    at = case.nearest.loads_of.get(step, ())
    found: list[tuple[int, StepId]] = []
    for other in case.steps:
        there = case.nearest.loads_of.get(other, ())
        for place in case.uses(other):
            alike = place.kind is use.kind and not place.raw and place.area > use.area
            together = bool(at and there) and there[0].start <= at[0].start and there[-1].end >= at[-1].end
            if other != step and alike and together and place.height + use.height <= clear:
                found.append((place.area, other))
    return max(found)[1] if found else None
