"""Where one job that runs over makes another begin late that cannot wait: room between them that is missing."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from core.plan import meaning
from core.plan.ids import CookId, StepId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Attention
from core.timetable.timetable import Placed, Timetable


@dataclass(frozen=True, slots=True)
class Tight:
    """A cook goes at `at` (offset) from a job that may take `over` minutes longer to one that can wait only `room`.

    `room` is the pause between the two and what the later one can slip, together; it is less than `over`.
    """

    cook: CookId
    before: StepId
    after: StepId
    load: int
    at: int
    over: int
    room: int


def tight(plan: Plan, timetable: Timetable) -> tuple[Tight, ...]:
    """Return where hands-on work that takes its longest would delay what cannot wait, in order of time.

    Only the next job of the same cook is looked at, and only what it is itself bound by: its food's wait and its
    serving. The chances (core.arrange.chances) follow the whole day.
    """
    found = []
    for cook, jobs in _jobs(timetable).items():
        for (_start, ends, one), (begins, _end, then) in pairwise(jobs):
            step = plan.steps.get(one.step)
            if one.step == then.step or step is None or then.step not in plan.steps:
                continue
            if any(link.after == then.step for link in plan.links_from[one.step]):
                continue  # the one makes the other: nothing could lie between them
            if step.attention is not Attention.HANDS_ON or ends < one.end or begins != then.start:
                continue
            span, _uses = meaning.way_of(plan, step, one.way)
            over = span.high - one.length
            slips = _can_slip(plan, timetable, then)
            room = begins - ends + slips if slips is not None else over
            if room < over:
                found.append(Tight(cook, one.step, then.step, then.load, begins, over, room))
    return tuple(sorted(found, key=lambda each: (each.at, each.after, each.cook)))


def _jobs(timetable: Timetable) -> dict[CookId, list[tuple[int, int, Placed]]]:
    """Return each cook's hands at steps, in order of time: start, end, at which load."""
    found: dict[CookId, list[tuple[int, int, Placed]]] = {}
    for placed in timetable.placed:
        for hand in placed.hands:
            if hand.cook is not None:
                found.setdefault(hand.cook, []).append((hand.start, hand.start + hand.minutes, placed))
    return {cook: sorted(jobs, key=lambda job: (job[0], job[1], job[2].key)) for cook, jobs in found.items()}


def _can_slip(plan: Plan, timetable: Timetable, placed: Placed) -> int | None:
    """Return by how many minutes a load can begin later for its own food and serving; None: nothing binds it."""
    rooms = []
    for link in plan.links_to[placed.step]:
        before = timetable.loads_of.get(link.before, ())
        if link.kind is LinkKind.END_TO_START and link.most is not None and before:
            rooms.append(link.most - (placed.start - before[0].end))
    if placed.step in plan.last_steps:
        rooms.append(plan.dish_of[placed.step].course - placed.end)
    latest = plan.steps[placed.step].latest
    if latest is not None:
        rooms.append(latest - placed.end)
    return max(0, min(rooms)) if rooms else None
