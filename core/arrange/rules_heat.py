"""Rules of heat: one temperature at a time, time to change it, time to heat up from cold.

Two bakes either follow each other with the change in between, or share a setting. Ranges are intervals on a
line, so that three which meet pairwise have a common setting too (Helly); pairs are enough.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from math import ceil

from core.arrange.claims import Claim
from core.arrange.demand import Demand, DemandKind
from core.arrange.held_heat import standing as standing_of
from core.arrange.held_heat import surely_warm
from core.arrange.rules_station import Standing
from core.arrange.settings import settings_for_wait
from core.arrange.solver import cp_model
from core.arrange.variables import Bake, Board, Chore, Cold, Expr, Literal, wait_ends
from core.plan.ids import StationId
from core.plan.kitchen import HEATED, Heater

SWITCH_ON = 1  # minutes of a cook to switch an oven on
_SOONER = 60  # minutes that a heating may begin before it must, so that a hand is free to switch on


def heat(board: Board, standing: Standing) -> None:
    """Add the rules of heat."""
    _bakes(board, standing)
    heaters = {
        station.id: station.heater
        for station in board.problem.plan.kitchen.stations
        if station.heater is not None and station.kind in HEATED
    }
    pairs = Pairs(board, heaters)
    for one, other in combinations(board.bakes, 2):
        if not (one.held and other.held):
            pairs.one_temperature(one, other)
    for station, heater in heaters.items():
        if heater.from_cold:
            _from_cold(board, station, heater)


def _bakes(board: Board, standing: Standing) -> None:
    """Gather what wants a temperature in a place that has one at a time."""
    baked_at = {
        celsius for task in board.problem.tasks for way in task.ways for celsius, _length in way.settings
    }
    for claim, slots in zip(standing.claims, standing.slots, strict=True):
        if claim.use.heat is None or claim.use.kind not in HEATED:
            continue
        present = {station: literal for (station, _shelf), literal in slots.items()}
        of_task = claim.task is not None
        bake = _of_task(board, claim, present) if of_task else _of_wait(board, claim, present, baked_at)
        board.bakes.append(bake)
        _within_reach(board, bake)


def _of_task(board: Board, claim: Claim, present: dict[StationId, cp_model.IntVar | None]) -> Bake:
    task = board.problem.tasks[claim.of_task]
    way = next(each for each in task.ways if each.number == claim.way)
    degrees = tuple(celsius for celsius, _length in way.settings)
    picks = {c: literal for (number, c), literal in board.picks[task.index].items() if number == way.number}
    setting: Expr = degrees[0] if len(degrees) == 1 else sum(picks[c] * c for c in degrees)
    return Bake(
        claim.name,
        task.index,
        None,
        board.start[task.index],
        board.end[task.index],
        board.earliest[task.index],
        board.latest[task.index] + task.longest,
        claim.use.heat is None or claim.use.heat.steady,
        setting,
        degrees,
        picks if len(degrees) > 1 else {},
        present,
        claim.use.heat.setting if claim.use.heat is not None else degrees[0],
        fact=task.fact,
        held=task.begun is not None,
    )


def _of_wait(
    board: Board, claim: Claim, present: dict[StationId, cp_model.IntVar | None], baked_at: set[int]
) -> Bake:
    """Return food held hot: its place is steady whatever its heat says, and it shares what bakes there."""
    wait = board.problem.waits[claim.waiting]
    start, end = wait_ends(board, wait)
    degrees = settings_for_wait(claim.use.heat, baked_at) if claim.use.heat is not None else ()
    kept = board.problem.kept_settings.get(claim.waiting)
    if kept is not None:
        degrees = (kept,)
    picks = {c: board.model.new_bool_var(f"{claim.name}t{c}") for c in degrees} if len(degrees) > 1 else {}
    setting: Expr = sum(picks[c] * c for c in degrees) if picks else degrees[0]
    if picks:
        board.model.add_exactly_one(picks.values())
        board.wait_settings[claim.waiting] = picks
    before = board.problem.tasks[wait.before]
    low = board.earliest[before.index] + before.shortest
    high = board.latest[wait.after] if wait.after is not None else max(wait.until, board.high)
    held = before.begun is not None and (
        wait.after is None or board.problem.tasks[wait.after].begun is not None
    )
    return Bake(
        claim.name,
        None,
        claim.waiting,
        start,
        end,
        low,
        high,
        True,
        setting,
        degrees,
        picks,
        present,
        degrees[0] if claim.use.heat is None else claim.use.heat.setting,
        held=held,
    )


def _within_reach(board: Board, bake: Bake) -> None:
    """Keep a setting from stations that cannot reach it."""
    for station, there in bake.present.items():
        heater = board.problem.plan.kitchen.station[station].heater
        if heater is None:
            continue
        for celsius in bake.settings:
            if heater.lowest <= celsius <= heater.highest:
                continue
            not_both = [each.negated() for each in (bake.picks.get(celsius), there) if each is not None]
            board.model.add_bool_or(not_both)


class Pairs:
    """What two bakes in one oven owe each other."""

    def __init__(self, board: Board, heaters: dict[StationId, Heater]) -> None:
        self.board = board
        self.heaters = heaters

    def one_temperature(self, one: Bake, other: Bake) -> None:
        """Let two bakes in one oven follow each other with time to change, or have the same setting."""
        together = [each for each in one.present if each in other.present and each in self.heaters]
        if not together or (len(one.settings) == len(other.settings) == 1 and one.settings == other.settings):
            return
        shared = self._shared(one, other) if set(one.settings) & set(other.settings) else None
        done: dict[tuple[float, float], list[cp_model.IntVar]] = {}
        for station in together:
            heater = self.heaters[station]
            rates = (heater.up, heater.down)
            if rates not in done:
                done[rates] = self._ways(one, other, heater)
            away = [bake.present[station] for bake in (one, other)]
            absent = [literal.negated() for literal in away if literal is not None]
            ways = done[rates] + ([shared] if shared is not None else [])
            demand = Demand(DemandKind.HEAT, station=station)
            self.board.add_if(demand, self.board.model.add_bool_or([*ways, *absent]))

    def _ways(self, one: Bake, other: Bake, heater: Heater) -> list[cp_model.IntVar]:
        """Return literals of the orders that the domains leave open."""
        found = []
        if one.low < other.high:
            found.append(self._first(one, other, heater))
        if other.low < one.high:
            found.append(self._first(other, one, heater))
        return found

    def _first(self, first: Bake, then: Bake, heater: Heater) -> cp_model.IntVar:
        """Return a literal: `first` is out and the oven has changed before `then` goes in."""
        model = self.board.model
        literal = model.new_bool_var("")
        between: Expr = then.start - first.end
        model.add(then.start >= first.end).only_enforce_if(literal)
        if not then.steady:
            return literal
        for rate, sign in ((heater.up, 1), (heater.down, -1)):
            exact = Fraction(str(rate))
            if len(first.settings) == len(then.settings) == 1:
                apart = sign * (then.settings[0] - first.settings[0])
                if apart > 0:
                    model.add(between >= ceil(apart / exact)).only_enforce_if(literal)
                continue
            change = sign * exact.denominator * (then.setting - first.setting)
            model.add(exact.numerator * between >= change).only_enforce_if(literal)
        return literal

    def _shared(self, one: Bake, other: Bake) -> cp_model.IntVar:
        """Return a literal: both have the same setting."""
        model = self.board.model
        literal = model.new_bool_var("")
        for celsius in sorted({*one.settings, *other.settings}):
            mine, theirs = _picked(one, celsius), _picked(other, celsius)
            if mine is True and isinstance(theirs, cp_model.IntVar):
                model.add_implication(literal, theirs)
            elif theirs is True and isinstance(mine, cp_model.IntVar):
                model.add_implication(literal, mine)
            elif isinstance(mine, cp_model.IntVar) and isinstance(theirs, cp_model.IntVar):
                model.add(mine == theirs).only_enforce_if(literal)
            else:
                for each in (mine, theirs):
                    if isinstance(each, cp_model.IntVar):
                        model.add_implication(literal, each.negated())
        return literal


def _picked(bake: Bake, celsius: int) -> cp_model.IntVar | bool:
    if bake.picks:
        return bake.picks.get(celsius, False)
    return bake.settings[0] == celsius


def _from_cold(board: Board, station: StationId, heater: Heater) -> None:
    """Heat up before the first bake, and before each after a pause too long to keep the oven on."""
    here = [bake for bake in board.bakes if station in bake.present]
    units = board.problem.plan.kitchen.station[station].units
    heatings, claims = [], []
    demand = Demand(DemandKind.HEAT, station=station)
    spans = [standing_of(board, bake, station) for bake in here]
    for number, bake in enumerate(here):
        if bake.fact:
            continue
        if surely_warm(number, spans, heater.keep_on):
            board.warm.append((bake, station))
            continue
        cold = board.model.new_bool_var(f"cold_{station}_{bake.owner}")
        warm = [
            _kept_warm(board, bake, other, station, heater.keep_on, strictly=index > number)
            for index, other in enumerate(here)
            if index != number
            and other.high + heater.keep_on >= bake.low
            and other.low <= bake.high
            and (spans[number] is None or spans[index] is None)
        ]
        there = bake.present[station]
        heated = board.model.add_bool_or([cold, *warm, *([there.negated()] if there is not None else [])])
        board.add_if(demand, heated)
        if there is not None:
            board.model.add_implication(cold, there)
        minutes = {celsius: heat_up(heater, celsius) for celsius in bake.settings}
        size: Expr = (
            sum(bake.picks[c] * minutes[c] for c in bake.settings)
            if bake.picks
            else minutes[bake.settings[0]]
        )
        longest = max(minutes.values())
        start = board.model.new_int_var_from_domain(_switching(board, station, longest), f"on_{station}_{bake.owner}")
        most = heat_up(heater, max(heater.highest, *bake.settings))  # the same, whatever is held just now
        length = board.model.new_int_var(min(minutes.values()), most + _SOONER, "")
        board.model.add(length >= size)
        heatings.append(board.model.new_optional_interval_var(start, length, bake.start, cold, ""))
        claims.append((heatings[-1], units))
        board.cold.append(Cold(bake, station, cold, start, length - size))
        board.chores.append(_switch_on(board, station, cold, start, bake.owner))
    if units and here:
        _nothing_inside_while_heating(board, station, here, claims)


def _switching(board: Board, station: StationId, longest: int) -> cp_model.Domain:
    """Return when a station may be switched on: from now on, or when it was."""
    first = board.problem.low - longest - _SOONER
    if board.problem.now is None:
        return cp_model.Domain(first, board.high)
    lit = [each.start for each in board.problem.lit if each.station == station]
    return cp_model.Domain.from_values(lit).union_with(cp_model.Domain(board.problem.now, board.high))


def _switch_on(board: Board, station: StationId, cold: Literal, start: cp_model.IntVar, owner: str) -> Chore:
    """Return the minute of a cook that switching on takes, unless it has been done."""
    there: Literal = cold
    if board.problem.now is not None and any(each.station == station for each in board.problem.lit):
        there = board.model.new_bool_var("")
        board.model.add_implication(there, cold)
        board.model.add(start >= board.problem.now).only_enforce_if(there)
        board.model.add(start < board.problem.now).only_enforce_if([there.negated(), cold])
    place = board.problem.plan.kitchen.station[station].place
    return Chore(start, SWITCH_ON, there, place, f"cold {station} {owner}")


def _kept_warm(
    board: Board, bake: Bake, other: Bake, station: StationId, keep_on: int, *, strictly: bool
) -> cp_model.IntVar:
    """Return a literal: the oven is still on for `bake` because `other` was in it shortly before or is in it."""
    literal = board.model.new_bool_var("")
    board.model.add(other.start <= bake.start - (1 if strictly else 0)).only_enforce_if(literal)
    board.model.add(bake.start <= other.end + keep_on).only_enforce_if(literal)
    there = other.present[station]
    if there is not None:
        board.model.add_implication(literal, there)
    return literal


def _nothing_inside_while_heating(
    board: Board, station: StationId, here: list[Bake], claims: list[tuple[cp_model.IntervalVar, int]]
) -> None:
    intervals = [interval for interval, _units in claims]
    for bake in here:
        size = board.model.new_int_var(0, board.high - board.problem.low, "")
        there = bake.present[station]
        if there is None:
            intervals.append(board.model.new_interval_var(bake.start, size, bake.end, ""))
        else:
            intervals.append(board.model.new_optional_interval_var(bake.start, size, bake.end, there, ""))
    demands = [len(here)] * len(claims) + [1] * len(here)
    asked = board.ask(Demand(DemandKind.HEAT, station=station))
    most: Expr = len(here) if asked is None else len(here) * asked + sum(demands) * (1 - asked)
    board.model.add_cumulative(intervals, demands, most)


def heat_up(heater: Heater, celsius: int) -> int:
    """Return the minutes from cold to a setting, along the measured points, past them with the last slope."""
    points = [(heater.cold, 0), *sorted(heater.from_cold)]
    if len(points) == 1 or celsius <= heater.cold:
        return 0
    for (low, first), (high, last) in pairwise(points):
        if celsius <= high or (high, last) == points[-1]:
            return max(0, first + -(-(last - first) * (celsius - low) // (high - low)))
    raise AssertionError("points are never empty here")
