"""Which washings of a solution are needed: those whose vessels somebody takes up again."""

from __future__ import annotations

from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.rules_vessel import Wash


def washings_needed(model: Model, found: Found) -> list[Wash]:
    """Return them in order of time."""
    needed: list[Wash] = []
    for vessel in model.board.problem.plan.kitchen.vessels:
        washes = [each for each in model.washes if each.vessel.id == vessel.id]
        if washes:
            needed += _of_vessel(model, found, washes)
    return sorted(needed, key=lambda wash: found.values[wash.free.index])


def _of_vessel(model: Model, found: Found, washes: list[Wash]) -> list[Wash]:
    problem = model.board.problem
    clean = washes[0].vessel.count
    ready = sorted(
        (each for each in washes if found.values[each.done.index]), key=lambda each: found.values[each.free.index]
    )
    needed = [each for each in washes if each.known is not None]
    starts = []
    for wash in washes:
        tasks = [index for step in wash.run.steps for index in problem.loads.get(step, ())]
        tasks = [index for index in tasks if index not in problem.absent]
        starts.append((min(found.starts[index] for index in tasks), wash.run.count))
    for start, count in sorted(starts):
        while clean < count and ready and found.values[ready[0].free.index] <= start:
            wash = ready.pop(0)
            if wash.known is None:
                needed.append(wash)
            clean += wash.run.count
        clean -= count
    return needed
