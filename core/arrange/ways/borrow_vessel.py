"""Borrowing vessels."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import ChangeVessel
from core.plan.kitchen import Vessel
from core.timetable.timetable import Timetable

_MOST = 3


def borrow_vessels(case: Case) -> Family:
    """Propose to borrow up to three of a vessel that steps near the trouble use."""
    users: dict[str, int] = {}
    for step in case.steps:
        for use in case.step(step).vessels:
            users[use.vessel] = users.get(use.vessel, 0) + 1
    vessels = [each for each in case.plan.kitchen.vessels if users.get(each.id, 0) > 1]
    return Family(WayKind.BORROW_VESSEL, tuple(_vessel(each) for each in vessels), joint=True)


def _vessel(vessel: Vessel) -> Easing:
    def told(size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return (Change(Unit.VESSELS, vessel.count, vessel.count + size, vessel=vessel.id),)

    return Easing(
        WayKind.BORROW_VESSEL,
        lambda size: ChangeVessel(vessel.id, replace(vessel, count=vessel.count + size)),
        told,
        _MOST,
        1,
    )
