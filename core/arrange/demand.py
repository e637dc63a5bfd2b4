"""What a plan asks of its timetable, one wish at a time: what a reason names and a way out eases."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.kitchen import HEATED, StationKind
from core.plan.meaning import keep_of, load_count
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.step import Step


class DemandKind(StrEnum):
    """Kinds of wishes that may stand in each other's way."""

    MOST_WAIT = "waits at most"
    KEEPS = "keeps until served"
    SERVED = "done when it is served"
    EARLIEST = "not before"
    LATEST = "done by"
    CLOCK = "fixed by the clock"
    PIN = "pinned"
    ORDER = "in the order decided"
    STATION = "room on the stations of a kind"
    CLOSED = "a station's hours"
    HEAT = "one temperature at a time"
    FIRE = "a fire burns out"
    NOT_WITH = "one appliance at a time"
    VESSEL = "vessels"
    HANDS = "hands"
    ABSENT = "a cook is away"
    OPENS = "nothing before the plan opens"


@dataclass(frozen=True, slots=True)
class Demand:
    """One wish. Only what its kind needs is filled in.

    MOST_WAIT: step, after, link. KEEPS, SERVED, EARLIEST, LATEST, CLOCK: step. PIN: step and load. ORDER: step,
    after. STATION: kind_of (all stations of a kind together). CLOSED, HEAT, FIRE: station. NOT_WITH: station and
    other. VESSEL: vessel. HANDS: skill ("": every cook). ABSENT: cook.
    """

    kind: DemandKind
    step: StepId | None = None
    after: StepId | None = None
    link: LinkKind | None = None
    load: int = 0
    kind_of: StationKind | None = None
    station: StationId | None = None
    other: StationId | None = None
    vessel: VesselId | None = None
    cook: CookId | None = None
    skill: str = ""


def demands_of(plan: Plan) -> tuple[Demand, ...]:
    """Return every wish of a plan that may be given up: links and steps first, then the kitchen, then the opening.

    What asks nothing is left out: a kind of station that nothing stands on, a vessel that nobody takes.
    """
    steps = list(plan.steps.values())
    found = [
        Demand(DemandKind.MOST_WAIT, link.before, link.after, link.kind)
        for link in plan.menu.links
        if link.most is not None
    ]
    for step in steps:
        found += _of_step(plan, step)
    loads = {step.id: load_count(plan.dish_of[step.id], step) for step in steps}
    for pin in plan.decisions.pins:
        if pin.load < loads.get(pin.step, 0):
            found.append(Demand(DemandKind.PIN, pin.step, load=pin.load))
    found += [Demand(DemandKind.ORDER, order.first, order.then) for order in plan.decisions.orders]
    found += _of_stations(plan, steps)
    taken = {use.vessel for step in steps for use in step.vessels}
    found += [Demand(DemandKind.VESSEL, vessel=each.id) for each in plan.kitchen.vessels if each.id in taken]
    skills = {step.skill for step in steps} | {touch.skill for step in steps for touch in step.touches}
    found += [Demand(DemandKind.HANDS, skill=skill) for skill in sorted({"", *skills})]
    for cook in plan.kitchen.cooks:
        if cook.night is not None or cook.breaks or cook.present:
            found.append(Demand(DemandKind.ABSENT, cook=cook.id))
    if plan.opens is not None:
        found.append(Demand(DemandKind.OPENS))
    return tuple(dict.fromkeys(found))


def _of_step(plan: Plan, step: Step) -> Iterator[Demand]:
    if step.id in plan.last_steps:
        yield Demand(DemandKind.SERVED, step.id)
        keep = keep_of(plan, step)
        if keep is not None and keep.most is not None:
            yield Demand(DemandKind.KEEPS, step.id)
    if step.earliest is not None:
        yield Demand(DemandKind.EARLIEST, step.id)
    if step.latest is not None:
        yield Demand(DemandKind.LATEST, step.id)
    if step.clock is not None:
        yield Demand(DemandKind.CLOCK, step.id)


def _of_stations(plan: Plan, steps: list[Step]) -> Iterator[Demand]:
    uses = [use for step in steps for use in (*step.uses, *(u for way in step.alternatives for u in way.uses))]
    uses += [link.wait.use for link in plan.menu.links if link.wait.use is not None]
    for step in steps:
        keep = keep_of(plan, step)
        if keep is not None and keep.wait.use is not None:
            uses.append(keep.wait.use)
    kinds = {use.kind for use in uses}
    for kind in StationKind:
        there = plan.kitchen.of_kind(kind)
        if kind in kinds and any(each.units > 0 or each.shelves for each in there):
            yield Demand(DemandKind.STATION, kind_of=kind)
    for station in plan.kitchen.stations:
        if station.kind not in kinds:
            continue
        if station.hours:
            yield Demand(DemandKind.CLOSED, station=station.id)
        if station.heater is not None and station.kind in HEATED:
            yield Demand(DemandKind.HEAT, station=station.id)
        if station.is_fire:
            yield Demand(DemandKind.FIRE, station=station.id)
    for pair in sorted(sorted((one.id, other.id)) for one, other in plan.kitchen.apart):
        yield Demand(DemandKind.NOT_WITH, station=pair[0], other=pair[1])
