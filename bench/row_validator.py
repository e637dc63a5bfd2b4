"""The validator: a whole timetable, and what one pointer move of a drag costs with the network's push."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from bench.drags import drags, lengths_of, moved, orders_of, starts_of
from bench.feasts import SIZES, feast
from bench.row import MOVE_TARGET, Row, repeated, share, show, timed_twice
from core.plan.network_limits import Key
from core.plan.network_push import Pusher
from core.timetable.clashes import Checker, clashes
from core.timetable.timetable import Timetable

LOADS, MOVES = 60, 10


def rows(_seconds: float) -> Iterator[Row]:
    """Measure at each size of feast."""
    for dishes in SIZES:
        one = feast(dishes)
        plan, planted, size = one.plan, one.planted, one.size
        yield Row("clashes of the planted timetable", size, f"{len(clashes(plan, planted))}", "0")
        yield Row("whole timetable judged", size, show(repeated(partial(clashes, plan, planted), 9)[4]))
        checker = Checker(plan)
        again = repeated(partial(checker.clashes, planted), 9)[4]
        yield Row("whole timetable judged again", size, show(again))
        pusher = Pusher(plan, starts_of(planted), orders_of(planted), lengths_of(planted))
        moves = []
        for key, path in drags(planted, LOADS, MOVES):
            pusher.legal_stretch(key)
            moves += [timed_twice(partial(_move, pusher, checker, planted, key, start)) for start in path]
        times, worked = sorted(at for at, _work in moves), sorted(work for _at, work in moves)
        yield Row("pointer move, network and clashes: median", size, show(share(times, 50)))
        p95, by_work = show(share(times, 95)), show(share(worked, 95))
        words, target = "pointer move, network and clashes: p95", MOVE_TARGET.get(dishes, "")
        yield Row(words, size, p95, target, "move", remark=f"{by_work} by processor time")
        yield Row("   by processor time: p95", size, by_work)


def _move(pusher: Pusher, checker: Checker, seen: Timetable, key: Key, start: int) -> int:
    """Push, redraw the timetable and judge what moved; return the number of clashes."""
    push = pusher.pushed(key, start)
    return len(checker.clashes(moved(seen, push.moved), {step for step, _load in push.moved}))
