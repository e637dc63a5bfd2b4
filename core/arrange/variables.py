"""The model's variables: a start for each task, its way, its length where something decides it, its pieces."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.arrange.demand import Demand
from core.arrange.problem import Piece, Problem, Stretch, Task, Waiting, Way
from core.arrange.solver import cp_model
from core.arrange.tighten import tighten
from core.plan.ids import CookId, StationId
from core.plan.meaning import LONGEST_PAUSE, longer_by

Expr = cp_model.LinearExpr | int
Literal = cp_model.IntVar

_LATE_AT_MOST = 12 * 60  # minutes past the last serving to look at when nothing fits
_OTHER_WAY = 30  # price of doing a step another way than it is written first
_CUT = 60  # price of one more piece


@dataclass(slots=True)
class Bake:
    """Something that wants a temperature: a task, or food held hot (`task` None).

    `wanted`: the setting it asks for. `fact`: the day has settled it; `held`: it is not moved in this model, for
    whatever reason.
    """

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
    picks: dict[int, Literal]
    present: dict[StationId, Literal | None]
    wanted: int
    fact: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True)
class Cold:
    """A heating that may be: for which bake, where, whether (`cold`), from when, minutes more than it needs."""

    bake: Bake
    station: StationId
    cold: Literal
    start: cp_model.IntVar
    spare: Expr


@dataclass(frozen=True, slots=True)
class Chore:
    """Hands beside the steps' own: switching on, lighting, washing up. `place` None: anywhere.

    `start` and `minutes` where `present` (None: surely); `of` says what it is for, `cook` who is at it already.
    """

    start: Expr
    minutes: int
    present: Literal | None
    place: str | None
    of: str
    cook: CookId | None = None


@dataclass(slots=True)
class Cut:
    """A task that may be done in pieces: start, size and presence of each; the first is surely there."""

    starts: list[cp_model.IntVar]
    sizes: list[cp_model.IntVar]
    there: list[Literal]


@dataclass(slots=True)
class Board:
    """Everything the rules and goals speak about.

    `cold`: heatings that may be; `warm`: bakes not moved here that surely find their station warm.

    `giving`: limits may be stretched, at a price. `asking`: every wish holds only where its literal in `asked` is
    true, so that the solver can say which wishes contradict each other.
    """

    problem: Problem
    model: cp_model.CpModel
    giving: bool
    asking: bool
    high: int
    earliest: list[int]
    latest: list[int]
    start: list[cp_model.IntVar] = field(default_factory=list)
    end: list[Expr] = field(default_factory=list)
    length: list[Expr] = field(default_factory=list)
    early: list[Expr] = field(default_factory=list)
    interval: list[cp_model.IntervalVar] = field(default_factory=list)
    way: list[dict[int, Literal | None]] = field(default_factory=list)
    picks: list[dict[tuple[int, int], Literal]] = field(default_factory=list)
    cuts: dict[int, Cut] = field(default_factory=dict)
    full: dict[int, dict[int, Literal]] = field(default_factory=dict)
    bakes: list[Bake] = field(default_factory=list)
    priced: list[tuple[Expr, int]] = field(default_factory=list)
    stretched: list[tuple[Expr, int]] = field(default_factory=list)
    nowhere: bool = False
    cold: list[Cold] = field(default_factory=list)
    warm: list[tuple[Bake, StationId]] = field(default_factory=list)
    chores: list[Chore] = field(default_factory=list)
    wait_settings: dict[int, dict[int, Literal]] = field(default_factory=dict)
    asked: dict[Demand, Literal] = field(default_factory=dict)

    @property
    def possible(self) -> bool:
        """Tell whether every task still has a start to choose."""
        return not self.nowhere and all(
            low <= high for low, high in zip(self.earliest, self.latest, strict=True)
        )

    def ask(self, demand: Demand | None) -> Literal | None:
        """Return the literal by which a wish holds; None: it holds anyway."""
        if demand is None or not self.asking:
            return None
        if demand not in self.asked:
            self.asked[demand] = self.model.new_bool_var(f"asked {demand.kind} {len(self.asked)}")
        return self.asked[demand]

    def add_if(self, demand: Demand | None, constraint: cp_model.Constraint) -> None:
        """Let a constraint hold only where its wish does."""
        literal = self.ask(demand)
        if literal is not None:
            constraint.only_enforce_if(literal)


def lay_out(problem: Problem, *, giving: bool = False, asking: bool = False) -> Board:
    """Return a board with the tasks' variables; rules come after. Check `possible` before using it."""
    high = problem.high + (_LATE_AT_MOST if giving or asking else 0)
    earliest, latest = tighten(problem, high, giving=giving, asking=asking)
    board = Board(problem, cp_model.CpModel(), giving, asking, high, earliest, latest)
    if board.possible:
        for task in problem.tasks:
            _task(board, task)
    return board


def _task(board: Board, task: Task) -> None:
    model, low = board.model, board.earliest[task.index]
    domain = cp_model.Domain(low, board.latest[task.index])
    if not board.asking:
        domain = start_domain(board.problem, task, low, board.latest[task.index])
    if domain.is_empty():  # nobody is ever there when it could begin
        board.nowhere = True
        domain = cp_model.Domain(low, board.latest[task.index])
    start = model.new_int_var_from_domain(domain, f"s{task.index}")
    board.start.append(start)
    options = [(way, celsius, minutes) for way in task.ways for celsius, minutes in _lengths(way)]
    picks = _picks(board, task, options)
    board.way.append(_ways(board, task, picks))
    board.picks.append(
        {(way.number, celsius): pick for (way, celsius, _m), pick in picks if celsius is not None}
    )
    board.early.append(_early(board, task))
    if task.begun is not None and task.fuller:
        board.full[task.index] = {
            percent: model.new_constant(int(task.begun.full == percent)) for percent in task.fuller
        }
    if task.cuts > 1 and task.begun is None:
        _cut(board, task, start, picks)
    elif len(picks) > 1 or (task.fuller and task.begun is None):
        _varying(board, task, start, picks)
    else:
        minutes = task.shortest if task.begun is not None else options[0][2]
        board.interval.append(model.new_fixed_size_interval_var(start, minutes, f"i{task.index}"))
        board.end.append(start + minutes)
        board.length.append(minutes)


def _lengths(way: Way) -> tuple[tuple[int | None, int], ...]:
    return way.settings or ((None, way.length),)


def _picks(
    board: Board, task: Task, options: list[tuple[Way, int | None, int]]
) -> list[tuple[tuple[Way, int | None, int], Literal]]:
    """Return a literal for each way and setting, exactly one of them true; none where there is no choice."""
    if len(options) == 1:
        return []
    found = [
        (option, board.model.new_bool_var(f"t{task.index}_{option[0].number}_{option[1]}")) for option in options
    ]
    board.model.add_exactly_one(literal for _option, literal in found)
    return found


def _ways(
    board: Board, task: Task, picks: list[tuple[tuple[Way, int | None, int], Literal]]
) -> dict[int, Literal | None]:
    """Return the literal of each way (None: there is no other)."""
    if len(task.ways) == 1:
        if task.ways[0].instead:
            board.priced.append((1, _OTHER_WAY))
        return {task.ways[0].number: None}
    found: dict[int, Literal | None] = {}
    for way in task.ways:
        mine = [literal for option, literal in picks if option[0] is way]
        literal = mine[0] if len(mine) == 1 else board.model.new_bool_var(f"way{task.index}_{way.number}")
        if len(mine) > 1:
            board.model.add(sum(mine) == literal)
        if way is not task.ways[0]:
            board.priced.append((literal, _OTHER_WAY))
        first = board.problem.loads[task.step.id][0]
        if first != task.index:  # all loads of a step are done the same way
            others = board.way[first]
            same = others.get(way.number) if way.number in others else 0
            board.model.add(literal == (1 if same is None else same))
        found[way.number] = literal
    return found


def _early(board: Board, task: Task) -> Expr:
    ways = board.way[task.index]
    if len({way.early for way in task.ways}) == 1:
        return task.ways[0].early
    return sum(way.early * literal for way in task.ways if (literal := ways[way.number]) is not None)


def _minutes(
    board: Board, task: Task, picks: list[tuple[tuple[Way, int | None, int], Literal]]
) -> Expr:
    """Return the minutes of work that a task comes to: by its way, its setting and whether its oven is full."""
    model = board.model
    options: list[tuple[int, Literal | None]] = [(minutes, pick) for (_w, _c, minutes), pick in picks]
    if not options:
        options = [(next(iter(_lengths(task.ways[0])))[1], None)]
    terms: list[Expr] = [minutes if pick is None else pick * minutes for minutes, pick in options]
    for percent in task.fuller:
        full = model.new_bool_var(f"full{task.index}_{percent}")
        board.full.setdefault(task.index, {})[percent] = full
        for minutes, pick in options:
            more = longer_by(minutes, percent) - minutes
            both = full
            if pick is not None:
                both = model.new_bool_var("")
                model.add_bool_and([pick, full]).only_enforce_if(both)
                model.add_bool_or([pick.negated(), full.negated(), both])
            terms.append(both * more)
    return sum(terms)


def _varying(
    board: Board, task: Task, start: cp_model.IntVar, picks: list[tuple[tuple[Way, int | None, int], Literal]]
) -> None:
    """Give a task a length that is not known beforehand."""
    model = board.model
    size = model.new_int_var(task.shortest, task.longest, f"l{task.index}")
    model.add(size == _minutes(board, task, picks))
    end = model.new_int_var(board.earliest[task.index] + task.shortest, board.high, f"e{task.index}")
    board.interval.append(model.new_interval_var(start, size, end, f"i{task.index}"))
    board.end.append(end)
    board.length.append(size)


def _cut(
    board: Board, task: Task, start: cp_model.IntVar, picks: list[tuple[tuple[Way, int | None, int], Literal]]
) -> None:
    """Let a task be done in pieces: together as long as the task, one after the other, none too short."""
    model, least, length = board.model, task.step.least_piece or 1, task.longest - LONGEST_PAUSE
    end = model.new_int_var(board.earliest[task.index] + task.shortest, board.high, f"e{task.index}")
    size = model.new_int_var(task.shortest, task.longest, f"l{task.index}")
    cut = board.cuts[task.index] = Cut([start], [], [])
    for number in range(task.cuts):
        there = model.new_bool_var(f"piece{task.index}_{number}")
        minutes = model.new_int_var(0, length, "")
        # a step shorter than the least piece is done in one
        model.add(minutes >= min(least, task.shortest)).only_enforce_if(there)
        model.add(minutes == 0).only_enforce_if(there.negated())
        if number:
            begins = model.new_int_var(board.earliest[task.index], board.high, "")
            model.add_implication(there, cut.there[-1])
            model.add(begins >= cut.starts[-1] + cut.sizes[-1]).only_enforce_if(there)
            model.add(begins == cut.starts[-1] + cut.sizes[-1]).only_enforce_if(there.negated())
            cut.starts.append(begins)
            board.priced.append((there, _CUT))
        else:
            model.add(there == 1)
        cut.sizes.append(minutes)
        cut.there.append(there)
    model.add(sum(cut.sizes) == _minutes(board, task, picks))
    model.add(end == cut.starts[-1] + cut.sizes[-1])
    board.interval.append(model.new_interval_var(start, size, end, f"i{task.index}"))
    board.end.append(end)
    board.length.append(size)


def start_domain(problem: Problem, task: Task, low: int, high: int) -> cp_model.Domain:
    """Return the starts at which no hands piece falls where too few of its cooks are there.

    Better than blocking intervals: the search never tries a night.
    """
    domain = cp_model.Domain(low, high)
    if task.begun is not None:
        return domain
    fixed = task.shortest == task.longest
    for piece in task.pieces:
        if (piece.from_end and not fixed) or len(task.ways) > 1:
            continue
        offset = task.shortest - piece.offset - piece.minutes if piece.from_end else piece.offset
        minutes = min(piece.minutes, task.shortest)
        if task.cuts > 1:
            minutes = min(minutes, task.step.least_piece or 1)
        for begins, ends in nobody(problem, piece):
            first, last = begins - offset - minutes + 1, ends - offset - 1
            if first <= last:
                domain = domain.intersection_with(cp_model.Domain(first, last).complement())
    return domain


def nobody(problem: Problem, piece: Piece) -> list[Stretch]:
    """Return when fewer cooks are there than a piece asks for."""
    key = (piece.skill, piece.people)
    if key not in problem.short:
        problem.short[key] = _nobody(problem, piece)
    return problem.short[key]


def _nobody(problem: Problem, piece: Piece) -> list[Stretch]:
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
    if not board.giving and not board.asking:
        return begins, wait.until
    served = board.model.new_int_var(wait.until, max(wait.until, board.high), "")
    board.model.add_max_equality(served, [begins, wait.until])
    return begins, served
