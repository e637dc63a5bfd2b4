"""The lanes of the vessels: who has which from when to when, how long they stand unwashed, and when they are washed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.look.words import word
from app.timeline.bars import Bar, BarKind, Lane, LaneKind
from app.timeline.making import Maker
from app.timeline.rows import Claim, in_order, racked
from core.plan.ids import VesselId
from core.plan.kitchen import Vessel
from core.timetable.clashes_vessel import Use, vessel_holds
from core.timetable.sweep import Held

MANY = 3
"""Lanes of vessels beyond which they begin folded to lines."""
_MANY_ROWS = 3


def vessel_lanes(maker: Maker) -> list[Lane]:
    """Return a lane for each kind of vessel that something placed uses, in the kitchen's order; rows are its pieces."""
    if not any(maker.plan.steps[placed.step].vessels for placed in maker.placed):
        return []
    lanes = []
    for vessel in maker.plan.kitchen.vessels:
        held = vessel_holds(maker.book, vessel.id)
        if held:
            lanes.append(_lane(maker, vessel, held))
    return lanes


def _lane(maker: Maker, vessel: Vessel, held: list[Held[Use]]) -> Lane:
    held = sorted(held, key=lambda each: (each.start, each.end, each.what.run.steps))
    parts = [list(_bars(maker, vessel.id, each)) for each in held]
    claims = [
        Claim(each.start, max(bar.end for bar in bars), each.amount) for each, bars in zip(held, parts, strict=True)
    ]
    given, count = racked(claims, vessel.count)
    bars = [
        replace(bar, row=row, rows=span)
        for own, runs in zip(parts, given, strict=True)
        for row, span in runs
        for bar in own
    ]
    name = f"{vessel.name or vessel.id} ×{vessel.count}" if vessel.count > 1 else vessel.name or vessel.id
    return Lane(
        f"vessel:{vessel.id}",
        LaneKind.VESSEL,
        name,
        in_order(bars),
        count,
        vessel.count,
        row_share=max(0.35, _MANY_ROWS / count) if count > _MANY_ROWS else 1.0,
        icon="pot",
    )


def _bars(maker: Maker, vessel: VesselId, held: Held[Use]) -> Iterator[Bar]:
    """Yield a run's bars: in use, unwashed, being washed."""
    use = held.what
    dish = maker.plan.dish_of[use.run.steps[0]]
    says = _says(maker, use)
    own = Bar(
        BarKind.VESSEL,
        held.start,
        max(use.emptied, held.start),
        tone=maker.tones[dish.id],
        code=maker.codes[dish.id],
        says=says,
        vessel=vessel,
    )
    yield own
    washed = use.washing
    dirty = held.end if washed is None else washed.start
    if dirty > use.emptied:
        says = (_translated("stands unwashed"), _translated("unwashed"))
        yield Bar(BarKind.UNWASHED, use.emptied, dirty, says=says, vessel=vessel)
    if washed is not None and washed.minutes > 0:
        name = maker.plan.kitchen.vessel[vessel].name or vessel
        whole = _translated("{vessel} is being washed").format(vessel=name)
        says = (whole, _translated("being washed"), _translated("washing"))
        yield Bar(BarKind.CHORE, washed.start, washed.end, says=says, vessel=vessel, cook=washed.cook)


def _says(maker: Maker, use: Use) -> tuple[str, ...]:
    """Return the dish and where the vessel is one after the other: the stations of the steps that have it."""
    stations = maker.plan.kitchen.station
    loads = sorted(
        (placed for step in use.run.steps for placed in maker.book.loads.get(step, ())),
        key=lambda placed: (placed.start, placed.end),
    )
    where: list[str] = []
    for placed in loads:
        spot = placed.spots[0].station if placed.spots else None
        name = stations[spot].name if spot in stations else word("no station")
        if not where or where[-1] != name:
            where.append(name)
    dish = maker.plan.dish_of[use.run.steps[0]].name
    whole = ", ".join(where)
    return tuple(dict.fromkeys((f"{dish}: {whole}", dish)))


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
