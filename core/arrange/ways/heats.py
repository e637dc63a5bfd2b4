"""Sharing an oven at another setting: a wider range for one dish, or half the gap from each of two.

Within 25 °C of the recipe's setting; a range of less than 10 °C to either side is that of a cake, pastry or custard,
which does not bend (both common practice). Its length changes by 1 % a degree, as everywhere.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from core.arrange.ways.case import Case
from core.arrange.ways.easing import Easing, Family
from core.arrange.ways.way import Change, Unit, WayKind
from core.plan.edits import ChangeStep, Edit, Together
from core.plan.ids import StepId
from core.plan.kitchen import HEATED, StationKind
from core.plan.step import Heat, Step
from core.timetable.timetable import Timetable

BENDS_BY = 25  # °C from the recipe's setting that a dish may be asked to bear
_BENDS_FROM = 10  # °C to either side: a narrower range belongs to what does not bend


def wider_heats(case: Case) -> Family:
    """Propose wider ranges for bakes near the trouble whose ranges do not meet another's."""
    found: list[Easing] = []
    bakes = [(step, kind, heat) for step in case.steps if (at := _heat(case, step)) for kind, heat in (at,)]
    gaps: dict[tuple[StepId, int], int] = {}
    pairs: list[Easing] = []
    for (one, kind, heat), (other, other_kind, other_heat) in combinations(bakes, 2):
        if kind is not other_kind or case.plan.dish_of[one] is case.plan.dish_of[other] is None:
            continue
        low, high = (one, other) if heat.high < other_heat.low else (other, one)
        gap = max(heat.low - other_heat.high, other_heat.low - heat.high)
        if gap <= 0:
            continue
        for key in ((low, 1), (high, -1)):
            gaps[key] = min(gap, gaps.get(key, gap))
        both = _both(case, low, high, gap)
        if both is not None:
            pairs.append(both)
    for (step, way), gap in sorted(gaps.items(), key=lambda each: each[1]):
        one_wider = _one(case, step, way, gap)
        if one_wider is not None:
            found.append(one_wider)
    return Family(WayKind.WIDER_HEAT, (*found, *pairs))


def _heat(case: Case, step: StepId) -> tuple[StationKind, Heat] | None:
    return next(
        ((use.kind, use.heat) for use in case.uses(step) if use.heat is not None and use.kind in HEATED), None
    )


def room_to_bend(heat: Heat, way: int) -> int:
    """Return by how many °C a range may grow upward (way 1) or downward (way -1)."""
    if min(heat.high - heat.setting, heat.setting - heat.low) < _BENDS_FROM:
        return 0
    borne = heat.high - heat.setting if way > 0 else heat.setting - heat.low
    return max(0, BENDS_BY - borne)


def _one(case: Case, step: StepId, way: int, gap: int) -> Easing | None:
    at = _heat(case, step)
    most = 0 if at is None else room_to_bend(at[1], way)
    if at is None or most < gap:
        return None
    return Easing(
        WayKind.WIDER_HEAT,
        lambda size: _wider(case.step(step), at[1], way * size),
        lambda size, _timetable: (_told(step, at[1], way * size),),
        most,
        gap,
    )


def _both(case: Case, low: StepId, high: StepId, gap: int) -> Easing | None:
    """Let the cooler dish bear more and the hotter one less, each about half of the gap."""
    one, other = _heat(case, low), _heat(case, high)
    if one is None or other is None:
        return None
    up = min((gap + 1) // 2, room_to_bend(one[1], 1))
    down = gap - up
    if down > room_to_bend(other[1], -1):
        down = room_to_bend(other[1], -1)
        up = gap - down
    if up > room_to_bend(one[1], 1) or not up or not down:
        return None

    def make(_size: int) -> Edit:
        edits = (_wider(case.step(low), one[1], up), _wider(case.step(high), other[1], -down))
        return Together("Share a setting", edits)

    def told(_size: int, _timetable: Timetable) -> tuple[Change, ...]:
        return _told(low, one[1], up), _told(high, other[1], -down)

    return Easing(WayKind.WIDER_HEAT, make, told, sizes=(gap,))


def _wider(step: Step, heat: Heat, by: int) -> Edit:
    wider = replace(heat, high=heat.high + by) if by > 0 else replace(heat, low=heat.low + by)
    uses = tuple(replace(use, heat=wider) if use.heat == heat else use for use in step.uses)
    others = tuple(
        replace(
            way, uses=tuple(replace(use, heat=wider) if use.heat == heat else use for use in way.uses)
        )
        for way in step.alternatives
    )
    return ChangeStep(step.id, replace(step, uses=uses, alternatives=others))


def _told(step: StepId, heat: Heat, by: int) -> Change:
    edge = heat.high if by > 0 else heat.low
    return Change(Unit.DEGREES, edge, edge + by, step=step)
