"""Rule of vessels: a run holds its vessel from first start to last end, and until somebody has washed it."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.demand import Demand, DemandKind
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Chore, Expr, Literal
from core.plan import meaning
from core.plan.day import Washed
from core.plan.ids import StepId
from core.plan.kitchen import Vessel
from core.plan.runs import Run
from core.plan.step import Holding

_FAR = 24 * 60  # a vessel that nobody washes is held past the end of all things


@dataclass(frozen=True, slots=True)
class Wash:
    """A washing that may be: of which vessel, after which run, whether, and when the vessels are free again.

    `known`: the day saw it begin.
    """

    vessel: Vessel
    run: Run
    done: Literal
    free: cp_model.IntVar
    known: Washed | None = None


def vessels(board: Board) -> list[Wash]:
    """Let no more vessels of a kind be in use or unwashed at any minute than there are."""
    found = []
    for vessel in board.problem.plan.kitchen.vessels:
        runs = [run for run in board.problem.runs if run.vessel == vessel.id]
        runs = _still_there(board, vessel, [run for run in runs if _tasks(board, run)])
        total = sum(run.count for run in runs)
        if total <= vessel.count:
            continue
        intervals = []
        for run in runs:
            start, end = _held(board, run)
            if vessel.washing:
                end, wash = _washed(board, vessel, run, end)
                found.append(wash)
            size = board.model.new_int_var(0, board.high - board.problem.low + 2 * _FAR, "")
            intervals.append(board.model.new_interval_var(start, size, end, ""))
        asked = board.ask(Demand(DemandKind.VESSEL, vessel=vessel.id))
        most: Expr = vessel.count if asked is None else vessel.count * asked + total * (1 - asked)
        board.model.add_cumulative(intervals, [run.count for run in runs], most)
    return found


def _still_there(board: Board, vessel: Vessel, runs: list[Run]) -> list[Run]:
    """Return the runs without those emptied before now that must have given up their vessels to later ones."""
    problem, now = board.problem, board.problem.now
    if now is None:
        return runs
    empty: list[tuple[int, int, Run]] = []
    room = vessel.count
    for number, run in enumerate(runs):
        begun = [problem.tasks[index].begun for index in _tasks(board, run) if problem.tasks[index].fact]
        facts = [each for each in begun if each is not None]
        if len(facts) == len(_tasks(board, run)) and max(each.end for each in facts) <= now:
            empty.append((min(each.start for each in facts), -number, run))
        elif facts:
            room -= run.count
    for _when, _number, run in sorted(empty, reverse=True, key=lambda each: each[:2]):
        if run.count > room:
            runs = [each for each in runs if each is not run]
        else:
            room -= run.count
    return [run for run in runs if not _clean_again(board, vessel, run)]


def _clean_again(board: Board, vessel: Vessel, run: Run) -> bool:
    """Tell whether the day has seen a run's vessels washed already."""
    now = board.problem.now
    return now is not None and any(
        each.vessel == vessel.id and each.after == run.steps[0] and each.start + each.minutes <= now
        for each in board.problem.washed
    )


def _tasks(board: Board, run: Run) -> list[int]:
    """Return the tasks of a run that are there."""
    problem = board.problem
    return [
        index for step in run.steps for index in problem.loads.get(step, ()) if index not in problem.absent
    ]


def _held(board: Board, run: Run) -> tuple[Expr, Expr]:
    """Return when a run takes its vessels and when they are empty."""
    model, problem = board.model, board.problem
    tasks = _tasks(board, run)
    ends: list[Expr] = [board.end[index] for index in tasks]
    for step in run.steps:
        keep = meaning.keep_of(problem.plan, problem.plan.steps[step])
        here = any(index in tasks for index in problem.loads.get(step, ()))
        if here and keep is not None and keep.wait.how is Holding.VESSEL:
            ends.append(problem.plan.dish_of[step].course)
    starts: list[Expr] = [
        max(begun.start, problem.now or begun.start) if begun is not None and begun.fact else board.start[index]
        for index in tasks
        for begun in [problem.tasks[index].begun]
    ]
    start, end = starts[0], ends[0]
    if len(starts) > 1:
        start = model.new_int_var(problem.low, board.high, "")
        model.add_min_equality(start, starts)
    if len(ends) > 1:
        end = model.new_int_var(problem.low, board.high, "")
        model.add_max_equality(end, ends)
    return start, end


def _washed(board: Board, vessel: Vessel, run: Run, empty: Expr) -> tuple[Expr, Wash]:
    """Return when a run's vessels are free again, and the washing by which they are."""
    model, problem = board.model, board.problem
    done = model.new_bool_var(f"washed_{run.steps[0]}_{vessel.id}")
    free = model.new_int_var(problem.low, board.high + _FAR, "")
    model.add(free == board.high + _FAR).only_enforce_if(done.negated())
    known = next(
        (each for each in problem.washed if each.vessel == vessel.id and each.after == run.steps[0]), None
    )
    start: Expr
    if known is not None:
        model.add(done == 1)
        model.add(free == known.start + known.minutes)
        left = known.start + known.minutes - (problem.now or 0)
        if vessel.by_hand and left > 0:  # whoever is washing goes on with it
            board.chores.append(Chore(problem.now or 0, left, None, None, _name(run.steps[0], vessel), known.cook))
    elif not vessel.by_hand:
        start = empty
        if problem.now is not None:
            start = model.new_int_var(problem.now, board.high + _FAR, "")
            model.add(start >= empty)
        model.add(free == start + vessel.washing).only_enforce_if(done)
    else:
        low = problem.low if problem.now is None else problem.now
        start = model.new_int_var(low, board.high + _FAR, f"wash_{run.steps[0]}_{vessel.id}")
        model.add(start >= empty).only_enforce_if(done)
        model.add(free == start + vessel.washing).only_enforce_if(done)
        board.chores.append(Chore(start, vessel.washing, done, None, _name(run.steps[0], vessel)))
    return free, Wash(vessel, run, done, free, known)


def _name(step: StepId, vessel: Vessel) -> str:
    return f"wash {step} {vessel.id}"


def washing_of(wash: Wash) -> str:
    """Return the name of the chore that a washing by hand is."""
    return _name(wash.run.steps[0], wash.vessel)
