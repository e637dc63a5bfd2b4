"""The network of waits: building it, all its labels, drags, and a contradiction found and told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from bench.drags import drags, lengths_of, orders_of, starts_of
from bench.feasts import PLATING, SIZES, feast
from bench.row import MOVE_TARGET, Row, repeated, share, show, timed
from core.plan.decisions import Decisions, Pin
from core.plan.ids import DishId, StepId
from core.plan.kitchen import Kitchen
from core.plan.menu import Dish, Link, Menu
from core.plan.network import Network
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.plan.step import Attention, Span, Step

LOADS, MOVES = 200, 20


def rows(_seconds: float) -> Iterator[Row]:
    """Measure at each size of feast."""
    for dishes in SIZES:
        yield from _of_feast(dishes)


def _of_feast(dishes: int) -> Iterator[Row]:
    one = feast(dishes)
    plan, size = one.plan, one.size
    starts, orders, lengths = starts_of(one.planted), orders_of(one.planted), lengths_of(one.planted)
    yield Row("network built from a plan", size, show(repeated(lambda: Network.of(plan), 15)[7]))
    network = Network.of(plan, lengths, orders)
    labels = repeated(lambda: (network.web.earliest(), network.web.latest()), 25)[12]
    yield Row("all earliest and latest starts", size, show(labels))
    pusher = Pusher(plan, starts, orders, lengths)
    taken_up, pushes, kept = [], [], 0
    for key, path in drags(one.planted, LOADS, MOVES):
        taken_up.append(timed(partial(pusher.legal_stretch, key)))
        for start in path:
            pushes.append(timed(partial(pusher.pushed, key, start)))
            kept += not pusher.pushed(key, start).broken
    pushes.sort()
    yield Row("load taken up: where it may go, p95", size, show(share(sorted(taken_up), 95)))
    yield Row("drag, one pointer move: median", size, show(share(pushes, 50)))
    yield Row("drag, one pointer move: p95", size, show(share(pushes, 95)), MOVE_TARGET.get(dishes, ""))
    yield Row("drag, one pointer move: worst", size, show(pushes[-1]))
    yield Row("moves that keep all waits in this order", size, f"{100 * kept // len(pushes)} %")
    steps = len(plan.steps)
    yield Row("drag in which every load moves", f"{steps} steps", show(_everything_moves(steps)))
    yield Row("contradiction found and told", size, show(_contradiction(plan)))


def _everything_moves(steps: int) -> float:
    """Return the median seconds of a drag that pushes a whole chain and all that hangs on it by most waits."""
    made = [Step(StepId(f"chain.{each}"), "Do", Span.of(2), Attention.HANDS_OFF) for each in range(steps)]
    links = [Link(made[each].id, made[each + 1].id, 0, 3) for each in range(steps - 1)]
    links += [Link(made[each].id, made[each + 5].id, 0, 60) for each in range(steps - 5)]
    plan = Plan("chain", PLATING, Menu((Dish(DishId("chain"), "Chain", tuple(made)),), tuple(links)), Kitchen())
    starts = {(step.id, 0): -3 * steps + 2 * number for number, step in enumerate(made)}
    pusher, first, last = Pusher(plan, starts), (made[0].id, 0), (made[-1].id, 0)
    later = starts[first] + steps // 2
    if len(pusher.pushed(first, later).moved) != steps or len(pusher.pushed(last, starts[last] - 9).moved) != steps:
        raise RuntimeError("this drag was to move every load")
    pusher.pushed(first, later)
    return repeated(lambda: pusher.pushed(first, later), 15)[7]


def _contradiction(plan: Plan) -> float:
    """Return the seconds from a plan with an impossible pin to the sentence."""
    step = plan.menu.dishes[0].steps[0].id
    pinned = replace(plan, decisions=Decisions(pins=(Pin(step, start=-5),)))
    Network.of(pinned).contradiction()  # networkx is loaded at the first one
    return repeated(lambda: Network.of(pinned).contradiction(), 5)[2]
