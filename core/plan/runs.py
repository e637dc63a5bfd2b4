"""Vessel runs: a vessel is held from the first step that names it to the end of the last in an unbroken run."""

from __future__ import annotations

from dataclasses import dataclass

from core.plan.ids import StepId, VesselId
from core.plan.menu import LinkKind
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Run:
    """Steps that pass one vessel on to each other, and how many of its kind the fullest of them takes."""

    vessel: VesselId
    count: int
    steps: tuple[StepId, ...]


def vessel_runs(plan: Plan) -> tuple[Run, ...]:
    """Return all runs, in the menu's order: steps that name a vessel and are joined end to start by links."""
    found: list[Run] = []
    for vessel in plan.kitchen.vessels:
        counts = {
            step.id: use.count for step in plan.steps.values() for use in step.vessels if use.vessel == vessel.id
        }
        done: set[StepId] = set()
        for step in counts:
            if step in done:
                continue
            members = _joined(plan, step, counts)
            done |= members
            ordered = tuple(each for each in counts if each in members)
            found.append(Run(vessel.id, max(counts[each] for each in ordered), ordered))
    return tuple(found)


def _joined(plan: Plan, start: StepId, among: dict[StepId, int]) -> set[StepId]:
    members = {start}
    waiting = [start]
    while waiting:
        step = waiting.pop()
        links = [*plan.links_from[step], *plan.links_to[step]]
        for link in links:
            if link.kind is not LinkKind.END_TO_START:
                continue
            other = link.after if link.before == step else link.before
            if other in among and other not in members:
                members.add(other)
                waiting.append(other)
    return members
