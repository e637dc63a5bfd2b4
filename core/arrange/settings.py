"""Which oven settings a step may be given: its recipe's, or one that lets it share with another dish."""

from __future__ import annotations

from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import HEATED
from core.plan.plan import Plan
from core.plan.step import Heat

_DIAL = 5  # °C: the marks of a dial, so that a compromise can be set


def settings_of(plan: Plan) -> dict[tuple[StepId, int], tuple[int, ...]]:
    """Return the °C each way of each heated step may be given, the recipe's own first."""
    heats: dict[tuple[StepId, int], Heat] = {}
    for step in plan.steps.values():
        for way in meaning.ways_open(plan, step):
            heat = meaning.heat_of(plan, step, way)
            _span, uses = meaning.way_of(plan, step, way)
            if heat is not None and any(use.kind in HEATED for use in uses):
                heats[step.id, way] = heat
    every = list(dict.fromkeys([*heats.values(), *_waiting_heats(plan)]))
    return {key: _for_one(heat, every) for key, heat in heats.items()}


def _waiting_heats(plan: Plan) -> list[Heat]:
    waits = [link.wait for link in plan.menu.links]
    waits += [keep.wait for step in plan.steps.values() if (keep := meaning.keep_of(plan, step)) is not None]
    return [wait.use.heat for wait in waits if wait.use is not None and wait.use.heat is not None]


def _for_one(heat: Heat, every: list[Heat]) -> tuple[int, ...]:
    found = {heat.setting}
    for other in every:
        low, high = max(heat.low, other.low), min(heat.high, other.high)
        if other.setting == heat.setting or low > high:
            continue
        found.update(range(-(-low // _DIAL) * _DIAL, high + 1, _DIAL))
        found.add(low)  # three that meet pairwise all bear the highest of their lower ends
        if low <= other.setting <= high:
            found.add(other.setting)
    return (heat.setting, *sorted(found - {heat.setting}))


def settings_for_wait(heat: Heat, baked_at: set[int]) -> tuple[int, ...]:
    """Return the °C at which food may be held, the wanted one first; `baked_at`: settings it might share."""
    low = -(-heat.low // _DIAL) * _DIAL
    shared = {celsius for celsius in baked_at if heat.low <= celsius <= heat.high}
    rest = (set(range(low, heat.high + 1, _DIAL)) | shared | {heat.low}) - {heat.setting}
    return (heat.setting, *sorted(rest))
