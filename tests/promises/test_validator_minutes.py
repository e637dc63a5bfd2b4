"""The validator against counting minute by minute, pair by pair, straight from what the values mean."""

from dataclasses import replace
from math import ceil

from hypothesis import assume, given
from hypothesis import strategies as st

from core.plan import meaning
from core.plan.ids import StationId
from core.plan.kitchen import HEATED, Kitchen, Shelf, Station, StationKind
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.plan.step import Attention, Span, Step, Use, VesselUse
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Heating, Placed, Spot, Timetable, Washing
from tests.core.timetable.laid import placed, spot, stays_of
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_vessel,
    hands_off,
)
from tests.support.strategies import small_feasts

FIRST, LAST = -40, 20
MINUTES = range(FIRST - 30, LAST + 60)


def _alike(plan: Plan, spot: Spot) -> st.SearchStrategy[StationId]:
    kind = plan.kitchen.station[spot.station].kind
    return st.sampled_from([each.id for each in plan.kitchen.of_kind(kind)])


@st.composite
def feasts_at_a_time(draw: st.DrawFn) -> tuple[Plan, Timetable]:
    """Draw a small feast with every load placed somewhere: lengths, units and hands are right, the rest is not."""
    plan = draw(small_feasts())
    loads = []
    for step in plan.steps.values():
        heat = meaning.heat_of(plan, step)
        setting = None if heat is None else draw(st.sampled_from((heat.low, heat.setting, heat.high)))
        load = placed(plan, step.id, draw(st.integers(FIRST, LAST)), setting=setting)
        hands = tuple(replace(hand, cook=draw(st.sampled_from(plan.kitchen.cooks)).id) for hand in load.hands)
        spots = tuple(replace(each, station=draw(_alike(plan, each))) for each in load.spots)
        loads.append(replace(load, hands=hands, spots=spots))
    heatings = [
        Heating(plan.kitchen.stations[0].id, load.start - draw(st.integers(0, 9)), load.start, load.setting,
                draw(st.sampled_from(plan.kitchen.cooks)).id)
        for load in loads
        if load.setting is not None and draw(st.booleans())
    ]  # fmt: skip
    return plan, Timetable(tuple(loads), tuple(stays_of(plan, loads, {})), tuple(heatings))


def standing(timetable: Timetable) -> list[tuple[int, int, str, int]]:
    """Return (start, end, station, units) of all that stands somewhere."""
    found = []
    for each in (*timetable.placed, *timetable.stays):
        found += [(each.start, each.end, spot.station, spot.units) for spot in each.spots]
    return found


def during(found: tuple[Clash, ...], kind: ClashKind, **about: str) -> dict[int, int]:
    """Return the minutes that clashes of a kind cover, with by how much; no minute may be told twice."""
    minutes: dict[int, int] = {}
    for clash in found:
        if clash.kind is kind and all(value in getattr(clash, name) for name, value in about.items()):
            for minute in range(clash.start, clash.end):
                assert minute not in minutes
                minutes[minute] = clash.by
    return minutes


@given(feasts_at_a_time())
def test_units_over_at_every_minute(drawn):
    plan, timetable = drawn
    found = clashes(plan, timetable)
    for station in plan.kitchen.stations:
        if station.kind is StationKind.ROOM:
            continue
        over = {}
        for minute in MINUTES:
            units = sum(
                units
                for start, end, where, units in standing(timetable)
                if where == station.id and start <= minute < end
            )
            if units > station.units:
                over[minute] = units - station.units
        assert during(found, ClashKind.OVER_FULL, stations=station.id) == over


@given(feasts_at_a_time())
def test_hands_doubled_at_every_minute(drawn):
    plan, timetable = drawn
    found = clashes(plan, timetable)
    for cook in plan.kitchen.cooks:
        work = [
            (hand.start, hand.start + hand.minutes)
            for load in timetable.placed
            for hand in load.hands
            if hand.cook == cook.id
        ]
        work += [
            (heating.start, heating.start + 1) for heating in timetable.heatings if heating.cook == cook.id
        ]
        doubled = {}
        for minute in MINUTES:
            things = sum(start <= minute < end for start, end in work)
            if things > 1:
                doubled[minute] = things - 1
        assert during(found, ClashKind.HANDS_SHORT, cooks=cook.id) == doubled


def oven_bakes(plan: Plan, timetable: Timetable) -> list[Placed]:
    oven = plan.kitchen.stations[0]
    assert oven.kind in HEATED
    bakes = [load for load in timetable.placed if any(spot.station == oven.id for spot in load.spots)]
    return sorted(bakes, key=lambda load: load.start)


@given(feasts_at_a_time())
def test_temperatures_at_every_minute(drawn):
    plan, timetable = drawn
    apart = {}
    bakes = oven_bakes(plan, timetable)
    for minute in MINUTES:
        settings = [load.setting for load in bakes if load.start <= minute < load.end]
        if len(set(settings)) > 1:
            apart[minute] = max(settings) - min(settings)
    assert during(clashes(plan, timetable), ClashKind.OVEN_TEMPERATURE) == apart


@given(feasts_at_a_time())
def test_time_for_changes_between_every_pair(drawn):
    plan, timetable = drawn
    oven = plan.kitchen.stations[0]
    cold = replace(oven, heater=replace(oven.heater, from_cold=()))
    plan = replace(plan, kitchen=replace(plan.kitchen, stations=(cold, *plan.kitchen.stations[1:])))
    missing = set()
    worst = 0
    for one in oven_bakes(plan, timetable):
        for other in oven_bakes(plan, timetable):
            if one.end <= other.start and one.setting != other.setting:
                rate = cold.heater.up if other.setting > one.setting else cold.heater.down
                ready = one.end + ceil(abs(other.setting - one.setting) / rate)
                missing |= set(range(other.start, ready))
                worst = max(worst, ready - other.start)
    told = [clash for clash in clashes(plan, timetable) if clash.kind is ClashKind.HEATING_MISSING]
    assert {minute for clash in told for minute in range(clash.start, clash.end)} == missing
    assert max((clash.by for clash in told), default=0) == worst


@given(feasts_at_a_time())
def test_every_session_has_its_heating(drawn):
    plan, timetable = drawn
    heater = plan.kitchen.stations[0].heater
    same = tuple(  # one setting for all, so that no change is missing
        replace(load, setting=180) if load.setting is not None else load for load in timetable.placed
    )
    heatings = tuple(replace(each, setting=180) for each in timetable.heatings)
    timetable = replace(timetable, placed=same, heatings=heatings)
    # 180 °C from 20: along (200, 4) in 160 / 45 min, or half way from (160, 2) to (200, 3)
    needed = {(): 0, ((200, 4),): 4, ((160, 2), (200, 3)): 3}[heater.from_cold]
    bakes = oven_bakes(plan, timetable)
    lacking = set()
    out = None
    for load in bakes:
        if out is None or load.start > out + heater.keep_on:
            good = [
                each
                for each in heatings
                if each.end == load.start
                and each.end - each.start >= needed
                and (out is None or each.start >= out)
            ]
            if needed and not good:
                lacking.add(load.start)
        out = load.end if out is None else max(out, load.end)
    told = {
        step
        for clash in clashes(plan, timetable)
        if clash.kind is ClashKind.HEATING_MISSING
        for step in clash.steps
    }
    starts = {load.start for load in bakes if load.step in told}
    assert lacking <= starts
    if not lacking:
        assert not told


@given(feasts_at_a_time())
def test_links_serving_and_keeping_by_their_formulas(drawn):
    plan, timetable = drawn
    at = {load.step: load for load in timetable.placed}
    expected = []
    for link in plan.menu.links:
        one, other = at[link.before], at[link.after]
        early = meaning.reserved(plan, link.before).early
        assert link.kind is LinkKind.END_TO_START
        if other.start < one.end + link.least:
            expected.append((link.before, link.after, one.end + link.least - other.start))
        if link.most is not None and other.start - (one.end - early) > link.most:
            expected.append((link.before, link.after, other.start - one.end + early - link.most))
    for step in plan.last_steps:
        load, dish = at[step], plan.dish_of[step]
        early, keep = meaning.reserved(plan, step).early, meaning.keep_of(plan, plan.steps[step])
        if load.end > dish.course:
            expected.append((step, load.end - dish.course))
        if keep is not None and keep.most is not None and dish.course - load.end + early > keep.most:
            expected.append((step, dish.course - load.end + early - keep.most))
    kinds = {
        ClashKind.OUT_OF_ORDER, ClashKind.WAIT_TOO_SHORT, ClashKind.WAITED_TOO_LONG, ClashKind.LATE}  # fmt: skip
    told = [(*clash.steps, clash.by) for clash in clashes(plan, timetable) if clash.kind in kinds]
    assert sorted(told, key=str) == sorted(expected, key=str)


@st.composite
def pots_at_a_time(draw: st.DrawFn) -> tuple[Plan, Timetable]:
    """Draw dishes of one or two steps in one or two of three pots."""
    steps: list[Step] = []
    links = []
    dishes = []
    for name in "abcd":
        own = [
            a_step(f"{name}.{number}", minutes=Span.of(draw(st.integers(1, 9))), attention=Attention.HANDS_OFF,
                   vessels=(VesselUse(a_vessel("pot").id, draw(st.integers(1, 2))),))
            for number in range(draw(st.integers(1, 2)))
        ]  # fmt: skip
        dishes.append(a_dish(name, *own, course=90))
        steps += own
        if len(own) == 2 and draw(st.booleans()):
            links.append((own[0].id, own[1].id))
    pot = a_vessel("pot", draw(st.integers(2, 3)), washing=draw(st.integers(0, 5)), by_hand=False)
    kitchen = Kitchen("Pots", (), (pot,), (a_cook(),))
    plan = a_plan(*dishes, links=tuple(a_link(*each) for each in links), kitchen=kitchen)
    loads = tuple(placed(plan, step.id, draw(st.integers(FIRST, LAST))) for step in steps)
    washings = []
    for run in vessel_runs(plan):
        if draw(st.booleans()) and pot.washing:
            emptied = max(load.end for load in loads if load.step in run.steps)
            start = emptied + draw(st.integers(0, 9))
            washings.append(Washing(pot.id, start, pot.washing, run.steps[0]))
    return plan, Timetable(loads, washings=tuple(washings))


@given(pots_at_a_time())
def test_vessels_short_at_every_minute(drawn):
    plan, timetable = drawn
    at = {load.step: load for load in timetable.placed}
    pot = plan.kitchen.vessels[0]
    clean = {washing.after: washing.start + washing.minutes for washing in timetable.washings}
    last_use = max(load.end for load in timetable.placed)
    short = {}
    for minute in MINUTES:
        used = 0
        for run in vessel_runs(plan):
            emptied = max(at[step].end for step in run.steps)
            free = emptied if pot.washing == 0 else clean.get(run.steps[0], last_use)
            used += run.count * (min(at[step].start for step in run.steps) <= minute < free)
        if used > pot.count:
            short[minute] = used - pot.count
    assert during(clashes(plan, timetable), ClashKind.VESSEL_SHORT) == short


@given(st.data())
def test_shelves_over_at_every_minute(data):
    shelves = [Shelf(data.draw(st.integers(1, 9)), 10) for _each in range(data.draw(st.integers(1, 3)))]
    dishes = [
        a_dish(name, hands_off(f"{name}.chill", data.draw(st.integers(1, 20)), uses=(
            Use(StationKind.FRIDGE, area=data.draw(st.integers(0, 6))),)), course=90)
        for name in "abcdef"
    ]  # fmt: skip
    fridge: Station = a_fridge(*shelves)
    plan = a_plan(*dishes, kitchen=a_kitchen(stations=(fridge,)))
    loads = [
        placed(
            plan, step, data.draw(st.integers(FIRST, LAST)),
            spots=[spot("fridge", shelf=data.draw(st.integers(0, len(shelves) - 1)))],
        )
        for step in plan.steps
    ]  # fmt: skip
    found = clashes(plan, Timetable(tuple(loads)))
    assume(all(clash.kind is ClashKind.OVER_FULL for clash in found))
    expected: dict[tuple[str, int], int] = {}
    for minute in MINUTES:
        on = [0] * len(shelves)
        for load in loads:
            if load.start <= minute < load.end:
                on[load.spots[0].shelf] += plan.steps[load.step].uses[0].area
        for index, shelf in enumerate(shelves):
            if on[index] > shelf.area:
                expected["the lowest shelf" if index == 0 else f"shelf {index + 1}", minute] = (
                    on[index] - shelf.area
                )
        together = sum(on) - sum(shelf.area for shelf in shelves)
        if together > 0 and len(shelves) > 1:
            expected["all", minute] = together
    told = {}
    for clash in found:
        which = clash.sentence.split(" of the fridge")[0].split(" ", 4)[-1]
        for minute in range(clash.start, clash.end):
            assert (which, minute) not in told
            told[which, minute] = clash.by
    assert told == expected
