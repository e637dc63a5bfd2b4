"""Rule of crews: cooks with the same skills are counted together, and every hand belongs to one such crew.

Counting everybody and each skill alone would let a novice's long job end up with a cook whose skill is wanted
meanwhile. Inside a crew whose cooks are there at the same times, counting is exact: intervals that never exceed a
number can always be given to so many cooks.
"""

from __future__ import annotations

from core.arrange.labour import Labour
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Expr, Literal
from core.plan.ids import CookId
from core.plan.kitchen import Cook

_Demand = tuple[cp_model.IntervalVar, Expr]
Crews = dict[str, dict[int, Literal] | int]
"""Which crew does a labour, by its key: a literal for each that could, or the one it is held to."""


def crews(
    board: Board,
    labours: list[Labour],
    named: dict[int, dict[CookId, Literal]],
    blocks: dict[CookId, list[cp_model.IntervalVar]],
) -> tuple[Crews, list[tuple[CookId, ...]]]:
    """Let every labour be done by one crew (or shared out among crews), none of them ever too small.

    Return which crew does each labour that takes one cook, by its key, and the cooks of the crews; nothing where all
    cooks are of one crew.
    """
    groups = _groups(board, {labour.skill for labour in labours})
    facts = board.giving and any(task.fact for task in board.problem.tasks)  # more may be at it than there are
    found: Crews = {}
    if len(groups) < 2 or board.asking or facts:
        return found, []
    names = [tuple(cook.id for cook in group) for group in groups]
    wanted: list[list[_Demand]] = [[] for _group in groups]
    for number, labour in enumerate(labours):
        able = [n for n, group in enumerate(groups) if not labour.skill or labour.skill in group[0].skills]
        chosen = named.get(number, {})
        cooks = board.problem.kept_crews.get(labour.key)
        kept = names.index(cooks) if cooks in names else None  # with other skills asked for there are other crews
        if kept in able and labour.people == 1 and not chosen:
            wanted[kept].append((labour_interval(board, labour, labour.present), 1))
            found[labour.key] = kept
            continue
        shares = _shares(board, labour, able, wanted)
        if labour.people == 1 and able:
            found[labour.key] = shares or able[0]
        for crew, share in shares.items() if chosen else ():
            literals = [chosen[cook] for cook in names[crew] if cook in chosen]
            board.model.add(sum(literals) == share)
    for group, demands in zip(groups, wanted, strict=True):
        away = [(block, 1) for cook in group for block in blocks[cook.id]]
        intervals = [each for each, _count in demands] + [each for each, _count in away]
        counts = [count for _each, count in demands] + [count for _each, count in away]
        if demands:
            board.model.add_cumulative(intervals, counts, len(group))
    return found, names


def _groups(board: Board, asked: set[str]) -> list[list[Cook]]:
    """Return cooks by those of their skills that anything asks for, in the kitchen's order."""
    groups: dict[frozenset[str], list[Cook]] = {}
    for cook in board.problem.plan.kitchen.cooks:
        groups.setdefault(frozenset(cook.skills) & asked, []).append(cook)
    return list(groups.values())


def _shares(board: Board, labour: Labour, able: list[int], wanted: list[list[_Demand]]) -> dict[int, Literal]:
    """Return how many of each crew do a labour, and note it with the crews."""
    model = board.model
    if len(able) == 1:
        wanted[able[0]].append((labour_interval(board, labour, labour.present), labour.people))
        return {}
    shares: dict[int, Literal] = {}
    for crew in able:
        if labour.people == 1:
            share = model.new_bool_var(f"crew{crew}_{labour.key}")
            wanted[crew].append((labour_interval(board, labour, share), 1))
        else:
            share = model.new_int_var(0, labour.people, f"crew{crew}_{labour.key}")
            wanted[crew].append((labour_interval(board, labour, labour.present), share))
        shares[crew] = share
    needed: Expr = labour.people if labour.present is None else labour.people * labour.present
    if shares:
        model.add(sum(shares.values()) == needed)
    return shares


def labour_interval(board: Board, labour: Labour, present: Literal | None) -> cp_model.IntervalVar:
    """Return the interval of a labour; one that lasts as long as its task changes with the task's length."""
    end = labour.end
    if labour.task in board.cuts:
        end = board.model.new_int_var(board.problem.low, board.high + 24 * 60, "")
        board.model.add(end == labour.end)
    if isinstance(labour.size, int):
        if present is None:
            return board.model.new_fixed_size_interval_var(labour.start, labour.size, "")
        return board.model.new_optional_fixed_size_interval_var(labour.start, labour.size, present, "")
    if present is None:
        return board.model.new_interval_var(labour.start, labour.size, end, "")
    return board.model.new_optional_interval_var(labour.start, labour.size, end, present, "")
