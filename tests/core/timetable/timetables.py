"""Random timetables of a plan: nearly right ones, each with some things wrong, and things that make no sense."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from core.plan import meaning
from core.plan.ids import CookId, StationId, StepId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable
from tests.core.timetable.laid import placed, stays_of

MOST_LOADS = 4


def _seldom(draw: st.DrawFn) -> bool:
    return draw(st.integers(0, 9)) == 0


def _cooks(plan: Plan) -> st.SearchStrategy[CookId | None]:
    known = [each.id for each in plan.kitchen.cooks]
    return st.sampled_from((*known, *known, *known, None, CookId("nobody")))


@st.composite
def _spots(draw: st.DrawFn, plan: Plan) -> Spot:
    stations = [*(each.id for each in plan.kitchen.stations), StationId("kiln")]
    return Spot(
        draw(st.sampled_from(stations)),
        draw(st.integers(-1, 3)),
        draw(st.sampled_from((None, None, 0, 1, 2, -1))),
    )


@st.composite
def _loads(draw: st.DrawFn, plan: Plan, step: StepId, load: int, first: int, last: int) -> Placed:
    heat = meaning.heat_of(plan, plan.steps[step])
    settings = (None,) if heat is None else (None, heat.setting, heat.low, heat.high, heat.high + 1)
    found = placed(plan, step, draw(st.integers(first, last)), load, setting=draw(st.sampled_from(settings)))
    hands = tuple(replace(hand, cook=draw(_cooks(plan))) for hand in found.hands[:8])
    found = replace(found, hands=hands)
    if _seldom(draw):
        found = replace(found, length=draw(st.integers(-5, 60)))
    if _seldom(draw):
        found = replace(found, spots=tuple(draw(st.lists(_spots(plan), max_size=3))))
    elif found.spots and draw(st.booleans()):
        kind = plan.kitchen.station[found.spots[0].station].kind
        other = draw(st.sampled_from([each.id for each in plan.kitchen.of_kind(kind)]))
        shelf = draw(st.sampled_from((None, 0, 1)))
        found = replace(found, spots=(replace(found.spots[0], station=other, shelf=shelf), *found.spots[1:]))
    if _seldom(draw):
        more = Hand(draw(st.integers(first, last)), draw(st.integers(-1, 9)), draw(_cooks(plan)))
        found = replace(found, hands=(*found.hands[1:], more))
    return found


@st.composite
def _stays(draw: st.DrawFn, plan: Plan, loads: list[Placed]) -> tuple[Stay, ...]:
    found: list[Stay] = []
    for stay in stays_of(plan, loads, {}):
        kept = stay
        if _seldom(draw):
            continue
        if _seldom(draw):
            kept = replace(stay, end=stay.end + draw(st.integers(-9, 9)))
        if _seldom(draw):
            kept = replace(stay, spots=tuple(draw(st.lists(_spots(plan), max_size=2))))
        found.append(kept)
    if _seldom(draw):
        names = st.sampled_from([*plan.steps, StepId("no.step")])
        ends = draw(st.tuples(st.integers(-90, 90), st.integers(-90, 90)))
        kind = draw(st.sampled_from(LinkKind))
        found.append(Stay(draw(names), draw(st.none() | names), *ends, draw(st.integers(0, 1)), kind))
    return tuple(found)


@st.composite
def _heatings(draw: st.DrawFn, plan: Plan, loads: list[Placed]) -> tuple[Heating, ...]:
    stations = [*(each.id for each in plan.kitchen.stations if each.heater), StationId("kiln")]
    starts = [each.start for each in loads if each.setting is not None] or [0]
    settings = [each.setting for each in loads if each.setting is not None] or [180]
    found = []
    for _each in range(draw(st.integers(0, 3))):
        end = draw(st.sampled_from(starts))
        found.append(
            Heating(
                draw(st.sampled_from(stations)),
                -(10**12) if _seldom(draw) else end - draw(st.integers(-2, 40)),
                end,
                draw(st.sampled_from(settings)),
                draw(_cooks(plan)),
            )
        )
    return tuple(found)


@st.composite
def timetables(draw: st.DrawFn, plan: Plan, first: int = -300, last: int = 60) -> Timetable:
    """Draw a timetable of a plan whose steps start between two offsets."""
    loads: list[Placed] = []
    for step in plan.steps.values():
        count = meaning.load_count(plan.dish_of[step.id], step)
        there = [load for load in range(min(count, MOST_LOADS)) if not _seldom(draw)]
        loads += [draw(_loads(plan, step.id, load, first, last)) for load in there]
    stays, heatings = draw(_stays(plan, loads)), draw(_heatings(plan, loads))
    if loads and _seldom(draw):
        odd = draw(st.sampled_from(loads))
        wrong = draw(
            st.sampled_from(
                (
                    odd,
                    replace(odd, load=99),
                    replace(odd, load=-1),
                    replace(odd, step=StepId("no.step")),
                    replace(odd, start=10**14),
                )
            )
        )
        loads.append(wrong)
    return Timetable(tuple(loads), stays, heatings)
