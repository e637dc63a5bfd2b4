"""Small random plans, and every way to place them: a check that shares nothing with the network but the plan.

A grid has one axis for each load and one place for each start between the plan's opening and a few minutes
after plating; it is True where the starts keep all that the plan asks, judged from the written meaning.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from hypothesis import strategies as st

from core.plan.decisions import Order, Pin
from core.plan.meaning import keep_of, load_count, reserved
from core.plan.menu import Link, LinkKind
from core.plan.network_limits import Key
from core.plan.plan import Plan
from core.plan.step import Keep, Loads, Manner
from tests.support.builders import a_dish, a_link, a_plan, a_step

OPENS, CLOSES = -13, 2
SIZE = CLOSES - OPENS + 1
MOST_LOADS = 4


@dataclass
class Grid:
    """All starts of a small plan at once; `without` leaves out the pins of some loads."""

    plan: Plan
    pinned: dict[Key, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        plan = self.plan
        self.loads = {step.id: load_count(plan.dish_of[step.id], step) for step in plan.steps.values()}
        self.keys = [(step, load) for step, count in self.loads.items() for load in range(count)]
        self.length = {step: reserved(plan, step).length for step in self.loads}
        self.early = {step: reserved(plan, step).early for step in self.loads}
        self.good = np.ones((SIZE,) * len(self.keys), dtype=bool)
        for step in self.loads:
            self._judge_step(step)
        for link in plan.menu.links:
            self._judge_link(link)
        for order in plan.decisions.orders:
            self.good &= self.start(order.then, 0) >= self.end(order.first, -1)
        for key, start in self.pinned.items():
            self.good &= self.start(*key) == start

    def start(self, step: str, load: int) -> np.ndarray:
        load = load % self.loads[step]
        shape = [1] * len(self.keys)
        shape[self.keys.index((step, load))] = SIZE
        return np.arange(OPENS, CLOSES + 1).reshape(shape)

    def end(self, step: str, load: int) -> np.ndarray:
        return self.start(step, load) + self.length[step]

    def _judge_step(self, step: str) -> None:
        one, dish = self.plan.steps[step], self.plan.dish_of[step]
        for load in range(self.loads[step]):
            if load:
                self.good &= self.start(step, load) >= self.end(step, load - 1) + one.loads.change_over
            if one.earliest is not None:
                self.good &= self.start(step, load) >= one.earliest
            if one.latest is not None:
                self.good &= self.end(step, load) <= one.latest
            if step in self.plan.last_steps:
                self.good &= self.end(step, load) <= dish.course
        keep = keep_of(self.plan, one)
        if keep is not None and keep.most is not None:
            self.good &= dish.course - (self.end(step, 0) - self.early[step]) <= keep.most

    def _judge_link(self, link: Link) -> None:
        before, after, most = link.before, link.after, np.inf if link.most is None else link.most
        if link.kind is LinkKind.START_TO_START:
            waits = self.start(after, 0) - self.start(before, 0)
            self.good &= (waits >= link.least) & (waits <= most)
        elif link.kind is LinkKind.END_TO_END:
            waits = self.end(after, -1) - self.end(before, -1)
            self.good &= (waits >= link.least) & (waits <= most)
        elif self.loads[before] == self.loads[after]:
            for load in range(self.loads[before]):
                waits = self.start(after, load) - self.end(before, load)
                self.good &= (waits >= link.least) & (waits + self.early[before] <= most)
        else:
            for load in range(self.loads[after]):
                self.good &= self.start(after, load) >= self.end(before, -1) + link.least
            self.good &= self.start(after, -1) - (self.end(before, 0) - self.early[before]) <= most

    def span(self, key: Key) -> tuple[int, int] | None:
        """Return first and last start of a load among all good placings; None where there is none."""
        axis = self.keys.index(key)
        there = np.flatnonzero(self.good.any(axis=tuple(n for n in range(len(self.keys)) if n != axis)))
        return (int(there[0]) + OPENS, int(there[-1]) + OPENS) if there.size else None

    def holds(self, starts: dict[Key, int]) -> bool:
        return bool(self.good[tuple(starts[key] - OPENS for key in self.keys)])

    def placings(self, key: Key | None = None, start: int = 0) -> np.ndarray:
        """Return all good placings, one a row, with `key` at a start where given."""
        rows = np.argwhere(self.good) + OPENS
        return rows if key is None else rows[rows[:, self.keys.index(key)] == start]


@st.composite
def small_plans(draw: st.DrawFn, pins: bool = True) -> Plan:
    """Draw a plan of two to four loads of 1 to 4 minutes, with every sort of limit but the clock's."""
    count = draw(st.integers(2, 4))
    dishes_of = draw(st.permutations("ppqq"))
    names = [f"{dish}.{step}" for step, dish in zip("abcd", dishes_of, strict=True)][:count]
    spare = MOST_LOADS - count
    steps = {"p": [], "q": []}
    for name in names:
        pieces = draw(st.integers(1, 1 + min(1, spare)))
        spare -= pieces - 1
        low, likely, high = sorted(draw(st.tuples(*[st.integers(1, 4)] * 3)))
        some = draw(st.sampled_from(("",) * 6 + ("earliest", "latest", "keeps")))
        value = draw(st.integers(OPENS, -1))
        extra = {"": {}, "keeps": {"keeps": Keep(-value)}}.get(some, {some: value})
        loads = Loads(pieces, 1, draw(st.integers(0, 1))) if pieces > 1 else None
        step = a_step(name, minutes=(low, likely, high), loads=loads, **extra)
        steps[name[0]].append(step)
    dishes = [
        a_dish(name, *own, course=draw(st.integers(-2, 2)), served=draw(st.booleans()), keep=Keep(most))
        for name, own in steps.items()
        for most in [draw(st.none() | st.integers(3, 10))]
    ]
    pairs = [(one, other) for n, one in enumerate(names) for other in names[n + 1 :]]
    links = [draw(_links(one, other)) for one, other in pairs]
    orders = draw(st.lists(st.sampled_from(pairs), max_size=1))
    pinned = draw(st.lists(st.sampled_from(names), max_size=1)) if pins else []
    return a_plan(
        *dishes,
        links=tuple(link for link in links if link is not None),
        opens=OPENS,
        manner=draw(st.sampled_from(Manner)),
        orders=tuple(Order(one, other) for one, other in orders),
        pins=tuple(Pin(name, 0, draw(st.integers(OPENS, -1))) for name in pinned),
    )


@st.composite
def _links(draw: st.DrawFn, one: str, other: str) -> Link | None:
    if draw(st.integers(0, 2)) == 0:
        return None
    least = draw(st.integers(0, 3))
    most = draw(st.none() | st.integers(least, least + 6))
    return a_link(one, other, least, most, kind=draw(st.sampled_from(LinkKind)))
