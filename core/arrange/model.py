"""Joins variables, rules and goals into one model that can be cloned, narrowed and solved."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.arrange.goals import Goals, goals
from core.arrange.problem import Problem
from core.arrange.rules_appliance import not_both
from core.arrange.rules_fire import Fire, fires
from core.arrange.rules_full import fullness
from core.arrange.rules_hands import Hands, hands
from core.arrange.rules_heat import heat
from core.arrange.rules_station import Standing, stations
from core.arrange.rules_time import times
from core.arrange.rules_vessel import Wash, vessels
from core.arrange.variables import Board, lay_out
from core.plan.kitchen import StationKind


@dataclass(slots=True)
class Model:
    """A board with all rules on it."""

    board: Board
    standing: Standing
    hands: Hands
    goals: Goals
    fires: list[Fire]
    washes: list[Wash]
    explicit: frozenset[StationKind] = frozenset()

    def about(self, problem: Problem) -> Model:
        """Return this model as one of another problem with the same tasks, of which it was a part."""
        return replace(self, board=replace(self.board, problem=problem))


def build(  # noqa: PLR0913  each says one thing about the model, all by name
    problem: Problem,
    *,
    giving: bool = False,
    seen: dict[int, int] | None = None,
    named: frozenset[str] = frozenset(),
    explicit: frozenset[StationKind] = frozenset(),
    moves: bool = False,
    asking: bool = False,
    walking: bool = False,
    aims: bool = True,
) -> Model | None:
    """Return the model of a problem, or None where the waits alone already contradict each other.

    `asking`: without goals, and every wish holds only where its literal in `board.asked` does. `walking`: walks
    count as work (see rules_walk), which asks for a little more than is needed. `aims` False: any timetable will
    do, so that there are no goals to build.
    """
    ruled = laid_out(problem, explicit, giving=giving, asking=asking)
    if ruled is None:
        return None
    model = ruled.with_hands(named, walking=walking)
    if asking or not aims:
        return model
    wanted = goals(model.board, seen, moves=moves)
    wanted.given = wanted.given + sum(literal * price for literal, price in model.board.priced)
    model.board.model.minimize(wanted.total)
    return replace(model, goals=wanted)


@dataclass(frozen=True, slots=True)
class Ruled:
    """A board with every rule but that of hands, which need to know what chores there are."""

    board: Board
    standing: Standing
    fires: list[Fire]
    washes: list[Wash]
    explicit: frozenset[StationKind]

    def with_hands(self, named: frozenset[str], *, walking: bool = False) -> Model:
        """Return the model without goals; `named` are keys of labours that get a cook in it."""
        found = hands(self.board, self.standing, named, walking=walking)
        return Model(self.board, self.standing, found, Goals(), self.fires, self.washes, self.explicit)


def laid_out(
    problem: Problem, explicit: frozenset[StationKind], *, giving: bool = False, asking: bool = False
) -> Ruled | None:
    """Return a problem's board with the rules on it, or None where the waits alone already contradict each other."""
    board = lay_out(problem, giving=giving, asking=asking)
    if not board.possible:
        return None
    times(board)
    standing = stations(board, explicit)
    heat(board, standing)
    fullness(board, standing)
    lit = fires(board, standing)
    not_both(board, standing, lit)
    return Ruled(board, standing, lit, vessels(board), explicit)
