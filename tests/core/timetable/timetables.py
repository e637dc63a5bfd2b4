"""Random timetables of a plan, and days: nearly right ones, some things wrong in each, some that make no sense."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from core.plan import meaning
from core.plan.day import Day, Fact, State
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing
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
    the_step = plan.steps[step]
    way = draw(st.sampled_from((*meaning.ways_open(plan, the_step), *range(len(the_step.alternatives) + 1))))
    setting = draw(st.sampled_from(settings))
    found = placed(plan, step, draw(st.integers(first, last)), load, setting=setting, way=way)
    if _seldom(draw):
        found = replace(found, way=draw(st.integers(-1, 3)))
    if len(found.hands) == 1 and draw(st.booleans()):
        found = draw(_cut(found))
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
def _cut(draw: st.DrawFn, whole: Placed) -> Placed:
    """Draw a load whose one hand is cut into two, with a pause between them."""
    (hand,) = whole.hands
    first, pause = draw(st.integers(0, hand.minutes)), draw(st.integers(-1, 9))
    rest = Hand(hand.start + first + pause, hand.minutes - first, hand.cook)
    length = whole.length if _seldom(draw) else whole.length + max(0, pause)
    return replace(whole, length=length, hands=(replace(hand, minutes=first), rest))


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
    warm = [each for each in plan.kitchen.stations if each.heater or each.is_fire]
    stations = [*(each.id for each in warm), StationId("kiln")]
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
    for fire in (each for each in warm if each.is_fire):
        for _each in range(draw(st.integers(0, 2))):
            ready = draw(st.sampled_from([each.start for each in loads] or [0]))
            lighting = fire.lighting + (draw(st.integers(-2, 2)) if _seldom(draw) else 0)
            found.append(Heating(fire.id, ready - lighting, ready, 0, draw(_cooks(plan))))
    return tuple(found)


@st.composite
def _washings(draw: st.DrawFn, plan: Plan, loads: list[Placed]) -> tuple[Washing, ...]:
    found = []
    for run in vessel_runs(plan):
        ends = [each.end for each in loads if each.step in run.steps] or [0]
        minutes = plan.kitchen.vessel[run.vessel].washing
        if draw(st.booleans()):
            start = max(ends) + draw(st.integers(-1, 20))
            minutes = draw(st.integers(-1, 9)) if _seldom(draw) else minutes
            after = draw(st.sampled_from((run.steps[0], run.steps[0], run.steps[-1])))
            found.append(Washing(run.vessel, start, minutes, after, draw(_cooks(plan))))
    if _seldom(draw):
        start = draw(st.sampled_from((0, 10**12)))
        found.append(Washing(VesselId("wok"), start, 5, StepId("no.step"), draw(_cooks(plan))))
    return tuple(found)


@st.composite
def days(draw: st.DrawFn, plan: Plan, timetable: Timetable, first: int = -60, last: int = 20) -> Day:
    """Draw a day on which much of a timetable has happened, not always as planned."""
    now = draw(st.integers(first, last))
    facts: dict[tuple[StepId, int], Fact] = {}
    for each in timetable.placed:
        if abs(each.start) > 10**6 or (each.start >= now and not _seldom(draw)):
            continue
        state = draw(st.sampled_from((State.DONE, State.UNDER_WAY, State.DONE, State.DROPPED)))
        start = each.start + (draw(st.integers(-2, 2)) if _seldom(draw) else 0)
        end = draw(st.sampled_from((None, each.end, each.end, now)))
        facts[each.key] = Fact(each.step, state, start, end, each.load)
    for step in plan.steps:
        if _seldom(draw):
            facts.setdefault((step, 0), Fact(step, State.DROPPED))
    return Day(now, tuple(facts.values()))


@st.composite
def timetables(draw: st.DrawFn, plan: Plan, first: int = -300, last: int = 60) -> Timetable:
    """Draw a timetable of a plan whose steps start between two offsets."""
    loads: list[Placed] = []
    for step in plan.steps.values():
        count = meaning.load_count(plan.dish_of[step.id], step)
        there = [load for load in range(min(count, MOST_LOADS)) if not _seldom(draw)]
        loads += [draw(_loads(plan, step.id, load, first, last)) for load in there]
    stays, heatings = draw(_stays(plan, loads)), draw(_heatings(plan, loads))
    washings = draw(_washings(plan, loads))
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
    return Timetable(tuple(loads), stays, heatings, washings)
