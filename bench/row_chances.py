"""Chances: 10,000 days of a feast, all figures about them, and the figure while a bar is dragged."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from bench.drags import drags
from bench.feasts import SIZES, feast
from bench.row import Row, repeated, share, show, timed
from core.plan.ids import StepId
from core.plan.meaning import reserved
from core.plan.plan import Plan
from core.plan.step import Span

RUNS, LOADS, MOVES = 10_000, 20, 5
_TARGET = {12: "50 ms", 29: "100 ms", 57: "200 ms"}


def rows(_seconds: float) -> Iterator[Row]:
    """Measure at each size of feast."""
    from core.arrange.chances import Odds  # numpy is loaded only when this row is measured

    for dishes in SIZES:
        one = feast(dishes)
        plan, planted, size = one.plan, one.planted, one.size
        ask = partial(Odds, plan, planted, runs=RUNS, tighter=_uncertain(plan))
        odds = ask()
        again = repeated(ask, 7)[3]
        yield Row("10,000 chances: drawn and played", size, show(again), _TARGET.get(dishes, ""))
        drawn = repeated(partial(ask, correlated=0.5), 5)[2]
        yield Row("the same, stations' days in common", size, show(drawn))
        told = odds.chances()
        yield Row("all figures told of them", size, show(repeated(odds.chances, 5)[2]))
        candidates = [each for each in told.threats if each.over_runs > 0][:4]
        yield Row("places for spare minutes", size, show(timed(partial(odds.spare, candidates))))
        moves = sorted(
            timed(partial(odds.after, {key: start}))
            for key, path in drags(planted, LOADS, MOVES)
            for start in path
        )
        yield Row("chance while a bar is dragged: median", size, show(share(moves, 50)))
        yield Row("chance while a bar is dragged: p95", size, show(share(moves, 95)))
        yield Row("in time, of 100 days", size, f"{100 * odds.now:.1f}")


def _uncertain(plan: Plan) -> dict[StepId, Span]:
    """Return lengths that over-run what is reserved as often as not: the planted feasts reserve the slow ones."""
    found = {}
    for step in plan.steps:
        length = reserved(plan, step).length
        found[step] = Span(max(1, 80 * length // 100), length, -(-130 * length // 100))
    return found
