"""The model's variables: a start for each task, a length where the setting decides it, who stands where."""

from __future__ import annotations

from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from core.arrange.problem import Piece, Problem, Stretch, Task, Waiting
from core.arrange.tighten import tighten
from core.plan.ids import StationId

Expr = cp_model.LinearExpr | int

_LATE_AT_MOST = 12 * 60  # minutes past the last serving to look at when nothing fits


@dataclass(slots=True)
class Bake:
    """Something that wants a temperature: a task, or food held hot (`task` None)."""

    owner: str
    task: int | None
    wait: int | None
    start: Expr
    end: Expr
    low: int
    high: int
    steady: bool
    setting: Expr
    settings: tuple[int, ...]
    picks: dict[int, cp_model.IntVar]
    present: dict[StationId, cp_model.IntVar | None]


@dataclass(frozen=True, slots=True)
class Cold:
    """A heating that may be: for which bake, where, whether (`cold`), from when, minutes more than it needs."""

    bake: Bake
    station: StationId
    cold: cp_model.IntVar
    start: cp_model.IntVar
    spare: Expr


@dataclass(slots=True)
class Board:
    """Everything the rules and goals speak about. `giving`: limits may be stretched, at a price."""

    problem: Problem
    model: cp_model.CpModel
    giving: bool
    high: int
    earliest: list[int]
    latest: list[int]
    start: list[cp_model.IntVar] = field(default_factory=list)
    end: list[Expr] = field(default_factory=list)
    length: list[Expr] = field(default_factory=list)
    interval: list[cp_model.IntervalVar] = field(default_factory=list)
    picks: list[dict[int, cp_model.IntVar]] = field(default_factory=list)
    setting: list[Expr] = field(default_factory=list)
    bakes: list[Bake] = field(default_factory=list)
    stretched: list[tuple[Expr, int]] = field(default_factory=list)
    nowhere: bool = False
    cold: list[Cold] = field(default_factory=list)
    wait_settings: dict[int, dict[int, cp_model.IntVar]] = field(default_factory=dict)

    @property
    def possible(self) -> bool:
        """Tell whether every task still has a start to choose."""
        return not self.nowhere and all(
            low <= high for low, high in zip(self.earliest, self.latest, strict=True)
        )


def lay_out(problem: Problem, *, giving: bool = False) -> Board:
    """Return a board with the tasks' variables; rules come after. Check `possible` before using it."""
    high = problem.high + (_LATE_AT_MOST if giving else 0)
    earliest, latest = tighten(problem, high, giving=giving)
    board = Board(problem, cp_model.CpModel(), giving, high, earliest, latest)
    if board.possible:
        for task in problem.tasks:
            _task(board, task)
    return board


def _task(board: Board, task: Task) -> None:
    model = board.model
    domain = start_domain(board.problem, task, board.earliest[task.index], board.latest[task.index])
    if domain.is_empty():  # nobody is ever there when it could begin
        board.nowhere = True
        domain = cp_model.Domain(board.earliest[task.index], board.latest[task.index])
    start = model.new_int_var_from_domain(domain, f"s{task.index}")
    board.start.append(start)
    picks: dict[int, cp_model.IntVar] = {}
    if len(task.settings) > 1:
        picks = {
            celsius: model.new_bool_var(f"t{task.index}_{celsius}") for celsius, _length in task.settings
        }
        model.add_exactly_one(picks.values())
        length: Expr = sum(picks[celsius] * minutes for celsius, minutes in task.settings)
        setting: Expr = sum(picks[celsius] * celsius for celsius, _minutes in task.settings)
        size = model.new_int_var(task.shortest, task.longest, f"l{task.index}")
        model.add(size == length)
        end = model.new_int_var(board.earliest[task.index] + task.shortest, board.high, f"e{task.index}")
        board.interval.append(model.new_interval_var(start, size, end, f"i{task.index}"))
        board.end.append(end)
        board.length.append(size)
        board.setting.append(setting)
    else:
        minutes = task.settings[0][1] if task.settings else task.length
        board.interval.append(model.new_fixed_size_interval_var(start, minutes, f"i{task.index}"))
        board.end.append(start + minutes)
        board.length.append(minutes)
        board.setting.append(task.settings[0][0] if task.settings else 0)
    board.picks.append(picks)


def start_domain(problem: Problem, task: Task, low: int, high: int) -> cp_model.Domain:
    """Return the starts at which no hands piece falls where too few of its cooks are there.

    Better than blocking intervals: the search never tries a night.
    """
    domain = cp_model.Domain(low, high)
    fixed = task.shortest == task.longest
    for piece in task.pieces:
        if piece.from_end and not fixed:
            continue
        offset = task.shortest - piece.offset - piece.minutes if piece.from_end else piece.offset
        minutes = min(piece.minutes, task.shortest)
        for begins, ends in nobody(problem, piece):
            first, last = begins - offset - minutes + 1, ends - offset - 1
            if first <= last:
                domain = domain.intersection_with(cp_model.Domain(first, last).complement())
    return domain


def nobody(problem: Problem, piece: Piece) -> list[Stretch]:
    """Return when fewer cooks are there than a piece asks for."""
    cooks = [cook for cook in problem.plan.kitchen.cooks if not piece.skill or piece.skill in cook.skills]
    edges: dict[int, int] = {}
    for cook in cooks:
        for begins, ends in problem.away[cook.id]:
            edges[begins] = edges.get(begins, 0) - 1
            edges[ends] = edges.get(ends, 0) + 1
    there = len(cooks)
    found: list[Stretch] = []
    if there < piece.people:
        return [(problem.low - 24 * 60, problem.high + 24 * 60)]
    since: int | None = None
    for at in sorted(edges):
        there += edges[at]
        if there < piece.people and since is None:
            since = at
        elif there >= piece.people and since is not None:
            found.append((since, at))
            since = None
    return found


def wait_ends(board: Board, wait: Waiting) -> tuple[Expr, Expr]:
    """Return when waiting begins and when it ends; what is late when limits give is served as it comes."""
    begins = board.end[wait.before]
    if wait.after is not None:
        return begins, board.start[wait.after]
    if not board.giving:
        return begins, wait.until
    served = board.model.new_int_var(wait.until, max(wait.until, board.high), "")
    board.model.add_max_equality(served, [begins, wait.until])
    return begins, served
