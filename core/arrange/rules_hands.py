"""Rules of hands: a cook does one thing at a time, with the skill it asks, and not when absent.

Cooks are not named here: counts for everybody and for each skill decide, which is much quicker and exact where
skills are nested and nobody walks; names are given afterwards. Jobs in `named` get a cook inside the model, and
these have the time to walk from place to place.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import combinations

from core.arrange.demand import Demand, DemandKind
from core.arrange.labour import Labour
from core.arrange.problem import Piece, Task
from core.arrange.rules_crews import Crews, crews, labour_interval
from core.arrange.rules_station import Standing, blocked
from core.arrange.rules_walk import ways_elsewhere
from core.arrange.solver import cp_model
from core.arrange.variables import Board, Chore, Expr, Literal
from core.plan.ids import CookId


@dataclass(slots=True)
class Hands:
    """All hands wanted, in a fixed order, for the named ones who may do them, and whether walks count as work.

    `crews`: which crew does a labour; `cooks` are those of each crew.
    """

    labours: list[Labour] = field(default_factory=list)
    named: dict[int, dict[CookId, Literal]] = field(default_factory=dict)
    walking: bool = False
    crews: Crews = field(default_factory=dict)
    cooks: list[tuple[CookId, ...]] = field(default_factory=list)


def hands(board: Board, standing: Standing, named: frozenset[str], *, walking: bool = False) -> Hands:
    """Add the rules of hands; `named` are keys of labours that get a cook in the model.

    `walking`: a minute's walk to and from another place is counted as work, so that names are found more often;
    it asks for a little more than is needed, so nothing is impossible by it.
    """
    found = Hands(_labours(board, standing))
    intervals = [labour_interval(board, labour, labour.present) for labour in found.labours]
    per_cook: dict[CookId, list[cp_model.IntervalVar]] = {
        cook.id: [] for cook in board.problem.plan.kitchen.cooks
    }
    for number, labour in enumerate(found.labours):
        fixed = board.problem.fixed.get(labour.task) if labour.task is not None else None
        pinned = labour.cook or (fixed.cook if fixed is not None else None)
        if labour.key in named or pinned is not None:
            found.named[number] = _choose_cooks(board, labour, per_cook, pinned)
    walks = list(ways_elsewhere(board, found.labours)) if walking and board.problem.plan.kitchen.walk else []
    found.walking = bool(walks)
    for skill in sorted({labour.skill for labour in found.labours} | {""}):
        some = [
            (interval, labour.people)
            for interval, labour in zip(intervals, found.labours, strict=True)
            if not skill or labour.skill == skill
        ]
        some += [(walk, 1) for labour, walk in walks if skill in ("", labour.skill)]
        _enough(board, some, skill)
    for cook, own in per_cook.items():
        if own:
            board.model.add_no_overlap(own + _blocks(board, cook))
    blocks = {cook: _blocks(board, cook) for cook in per_cook}
    found.crews, found.cooks = crews(board, found.labours, found.named, blocks)
    if board.problem.plan.kitchen.walk:
        _time_to_walk(board, found)
    return found


def _labours(board: Board, standing: Standing) -> list[Labour]:
    """Return all hands wanted, in the menu's order, chores last."""
    where = _places(board, standing)
    found = []
    for task in board.problem.tasks:
        if task.index in board.cuts:
            found += _of_cuts(board, task, _any_way(board, task, where))
            continue
        for number, piece in enumerate(task.pieces):
            key = f"{task.index}/{piece.way}/{number}"
            found += _of_piece(board, task, piece, key, where.get((task.index, piece.way), {}))
    return found + [_of_chore(chore) for chore in board.chores]


def _of_piece(
    board: Board, task: Task, piece: Piece, key: str, places: dict[str, Literal | None]
) -> list[Labour]:
    present = board.way[task.index][piece.way]
    if piece.from_end:
        start: Expr = board.end[task.index] - (piece.offset + piece.minutes)
    else:
        start = board.start[task.index] + piece.offset
    size = board.length[task.index] if piece.whole else piece.minutes
    end = board.end[task.index] if piece.whole else start + piece.minutes
    return [Labour(key, start, size, end, piece.people, piece.skill, present, task.index, None, piece.cook, places)]


def _of_cuts(board: Board, task: Task, places: dict[str, Literal | None]) -> list[Labour]:
    """Return the pieces in which a task is done, whichever way it is."""
    cut, skill = board.cuts[task.index], task.step.skill
    return [
        Labour(
            f"{task.index}/cut/{number}",
            start,
            size,
            start + size,
            1,
            skill,
            there if number else None,
            task.index,
            None,
            None,
            places,
        )
        for number, (start, size, there) in enumerate(zip(cut.starts, cut.sizes, cut.there, strict=True))
    ]


def _any_way(
    board: Board, task: Task, where: dict[tuple[int, int], dict[str, Literal | None]]
) -> dict[str, Literal | None]:
    """Return the places of all ways of a task; one that the way decides has its literal."""
    by_place: dict[str, list[Literal | None]] = {}
    for way in task.ways:
        for place, literal in where.get((task.index, way.number), {}).items():
            by_place.setdefault(place, []).append(board.way[task.index][way.number] if literal is None else literal)
    everywhere = all((task.index, way.number) in where for way in task.ways)
    if not by_place or (len(by_place) == 1 and everywhere):
        return dict.fromkeys(by_place)
    return _either(board, by_place)


def _of_chore(chore: Chore) -> Labour:
    places: dict[str, Literal | None] = {} if chore.place is None else {chore.place: None}
    end = chore.start + chore.minutes
    return Labour(chore.of, chore.start, chore.minutes, end, 1, "", chore.present, None, chore.of, chore.cook, places)


def _places(board: Board, standing: Standing) -> dict[tuple[int, int], dict[str, Literal | None]]:
    """Return where the hands of each way of each task work: in the place of its first use that stands somewhere."""
    kitchen = board.problem.plan.kitchen
    found: dict[tuple[int, int], dict[str, Literal | None]] = {}
    for claim, slots in zip(standing.claims, standing.slots, strict=True):
        if claim.task is None or (claim.task, claim.way) in found:
            continue
        by_place: dict[str, list[Literal | None]] = {}
        if claim.use.kind in standing.pools:  # all in one place
            by_place[kitchen.of_kind(claim.use.kind)[0].place] = [None]
        for (station, _shelf), literal in slots.items():
            by_place.setdefault(kitchen.station[station].place, []).append(literal)
        if by_place:
            found[claim.task, claim.way] = _told(board, by_place)
    return found


def _told(board: Board, by_place: dict[str, list[Literal | None]]) -> dict[str, Literal | None]:
    return dict.fromkeys(by_place) if len(by_place) == 1 else _either(board, by_place)


def _either(board: Board, by_place: dict[str, list[Literal | None]]) -> dict[str, Literal | None]:
    """Return a literal for each place that holds where one of its own does."""
    found: dict[str, Literal | None] = {}
    for place, literals in by_place.items():
        some = [each for each in literals if each is not None]
        if len(some) == 1:
            found[place] = some[0]
        else:
            found[place] = there = board.model.new_bool_var("")
            board.model.add_bool_or(some).only_enforce_if(there)
            for each in some:
                board.model.add_implication(each, there)
    return found


def _enough(board: Board, demands: list[tuple[cp_model.IntervalVar, int]], skill: str) -> None:
    """At no minute are more cooks (with a skill) needed than are there."""
    cooks = [cook for cook in board.problem.plan.kitchen.cooks if not skill or skill in cook.skills]
    if not demands:
        return
    asked = board.ask(Demand(DemandKind.HANDS, skill=skill))
    there = len(cooks)
    if board.giving:  # more may be under way at once than there are cooks: it cannot be undone
        there = max(there, _under_way(board, skill))
    intervals = [interval for interval, _people in demands]
    counts = [people for _interval, people in demands]
    for cook in cooks:
        blocks = _blocks(board, cook.id)
        intervals += blocks
        counts += [1] * len(blocks)
    if there == len(cooks) == 1 and all(count == 1 for count in counts) and asked is None:
        board.model.add_no_overlap(intervals)
    else:
        most: Expr = there if asked is None else there * asked + sum(counts) * (1 - asked)
        board.model.add_cumulative(intervals, counts, most)


def _under_way(board: Board, skill: str) -> int:
    return sum(
        piece.people
        for task in board.problem.tasks
        if task.fact
        for piece in task.pieces
        if not skill or piece.skill == skill
    )


def _blocks(board: Board, cook: CookId) -> list[cp_model.IntervalVar]:
    low, high = board.problem.low - 24 * 60, board.high + 24 * 60
    there = board.ask(Demand(DemandKind.ABSENT, cook=cook))
    return [
        blocked(board, (a, b), there) for a, b in board.problem.away[cook] if b > low and a < high
    ]


def _choose_cooks(
    board: Board, labour: Labour, per_cook: dict[CookId, list[cp_model.IntervalVar]], pinned: CookId | None
) -> dict[CookId, Literal]:
    """Give hands as many cooks as they need, each free and there for all of it."""
    chosen = {}
    for cook in board.problem.plan.kitchen.cooks:
        if labour.skill and labour.skill not in cook.skills:
            continue
        literal = board.model.new_bool_var(f"h{labour.key}_{cook.id}")
        per_cook[cook.id].append(labour_interval(board, labour, literal))
        chosen[cook.id] = literal
    needed: Expr = labour.people if labour.present is None else labour.people * labour.present
    board.model.add(sum(chosen.values()) == needed)
    if pinned is not None:
        _held_to(board, labour, chosen, pinned)
    return chosen


def _held_to(board: Board, labour: Labour, chosen: dict[CookId, Literal], pinned: CookId) -> None:
    task = board.problem.tasks[labour.task] if labour.task is not None else None
    demand = Demand(DemandKind.PIN, task.step.id, load=task.load) if task is not None else None
    if pinned not in chosen or labour.people > 1:
        board.add_if(demand, board.model.add_bool_or([]))  # who is pinned cannot do it, or not alone
    else:
        wanted = 1 if labour.present is None else labour.present
        board.add_if(demand, board.model.add(chosen[pinned] == wanted))


def _time_to_walk(board: Board, found: Hands) -> None:
    """Let a cook named inside the model have the minutes to walk between hands in different places."""
    walk = board.problem.plan.kitchen.walk
    placed = [(number, found.labours[number]) for number in found.named if found.labours[number].places]
    for (one, mine), (other, theirs) in combinations(placed, 2):
        for cook in sorted(set(found.named[one]) & set(found.named[other])):
            both = [found.named[one][cook], found.named[other][cook]]
            for here, at_one in mine.places.items():
                for there, at_other in theirs.places.items():
                    if here != there:
                        given = [*both, *(each for each in (at_one, at_other) if each is not None)]
                        first = board.model.new_bool_var("")
                        gap, back = theirs.start - mine.end, mine.start - theirs.end
                        board.model.add(gap >= walk).only_enforce_if([*given, first])
                        board.model.add(back >= walk).only_enforce_if([*given, first.negated()])
