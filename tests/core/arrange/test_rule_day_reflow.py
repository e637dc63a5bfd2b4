"""The nearest timetable that holds: where nothing changed nothing moves, fires, pieces and washing up included."""

from dataclasses import replace

import pytest

from core.arrange import Fit
from core.arrange.reflowing import reflow
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Alternative, Heat, Keep, Loads, Span, Use, VesselUse
from core.timetable.clashes import clashes
from tests.core.arrange.arranged import meets, starts
from tests.core.arrange.daily import begun, done, facts_stand, nothing_sooner, on
from tests.core.arrange.ruled import between, kitchen
from tests.support.builders import a_cook, a_dish, a_plan, a_step, a_vessel, an_oven, burners, hands_off

BURNER, ON_GRILL = (Use(StationKind.BURNER),), (Use(StationKind.GRILL),)
COALS = Station("grill", "Grill", StationKind.GRILL, 2, place="terrace", lighting=20, burns=30, fires=3)
LASTING = replace(COALS, burns=None)
POT = (VesselUse("pot"),)


def meat(name: str, minutes: int, keep: int | None = 0):
    return a_dish(name, hands_off(f"{name}.grill", minutes, uses=ON_GRILL), keep=Keep(keep))


def on_coals(grill: Station = COALS, **fields):
    return a_plan(meat("a", 10), meat("b", 15, 20), kitchen=kitchen(grill), transfer=1, **fields)


def in_pieces(**fields):
    peel = a_step("a.peel", minutes=40, least_piece=5, earliest=-80)
    cooks = (a_cook("ann", breaks=(between(-25, -15),)),)
    return a_plan(a_dish("a", peel, keep=Keep(0)), kitchen=kitchen(cooks=cooks), **fields)


def in_one_pot(**fields):
    dishes = [
        a_dish(name, hands_off(f"{name}.boil", 10, vessels=POT), keep=Keep(keep))
        for name, keep in (("a", 60), ("b", 0))
    ]
    return a_plan(*dishes, kitchen=kitchen(vessels=(a_vessel("pot"),)), **fields)


def in_ways(**fields):
    step = hands_off("a.cook", 20, uses=BURNER, alternatives=(Alternative("quick", Span.of(15), BURNER),))
    other = hands_off("b.cook", 10, uses=BURNER)
    dishes = (a_dish("a", step, keep=Keep(10)), a_dish("b", other, keep=Keep(0)))
    return a_plan(*dishes, kitchen=kitchen(*burners(1)), transfer=0, opens=-28, **fields)


def in_full_oven(**fields):
    heater = Heater(from_cold=((200, 10),), full=10)
    use = (Use(StationKind.OVEN, heat=Heat(200, 200, 200)),)
    dishes = [
        a_dish(name, hands_off(f"{name}.bake", minutes, uses=use), keep=Keep(0))
        for name, minutes in (("a", 20), ("b", 33))
    ]
    return a_plan(*dishes, kitchen=kitchen(an_oven(heater=heater)), transfer=0, **fields)


def in_loads(**fields):
    step = hands_off("a.fry", 5, uses=BURNER, loads=Loads(3, 1, 2))
    return a_plan(a_dish("a", step), kitchen=kitchen(*burners(2)), transfer=1, **fields)


PLANS = {
    "coals": on_coals,
    "lasting coals": lambda **fields: on_coals(LASTING, **fields),
    "pieces": in_pieces,
    "pot": in_one_pot,
    "ways": in_ways,
    "full oven": in_full_oven,
    "loads": in_loads,
}


@pytest.mark.parametrize("name", PLANS)
def test_where_nothing_changed_nothing_moves(name):
    plan = PLANS[name]()
    seen = meets(plan)
    found = reflow(plan, seen)
    assert found is not None
    assert found.fit is Fit.MEETS
    assert starts(found.timetable) == starts(seen)
    for each in found.timetable.placed:
        was = seen.at[each.key]
        assert (each.length, each.way, each.setting, each.spots) == (
            was.length,
            was.way,
            was.setting,
            was.spots,
        )
        assert {(hand.start, hand.minutes) for hand in each.hands} == {
            (hand.start, hand.minutes) for hand in was.hands
        }


@pytest.mark.parametrize("name", ["coals", "lasting coals", "full oven"])
def test_where_nothing_changed_fires_and_ovens_are_lit_as_they_were(name):
    plan = PLANS[name]()
    seen = meets(plan)
    found = reflow(plan, seen)
    assert found is not None
    assert [(each.station, each.start, each.end) for each in found.timetable.heatings] == [
        (each.station, each.start, each.end) for each in seen.heatings
    ]


def test_where_nothing_changed_the_pot_is_washed_when_it_was():
    plan = in_one_pot()
    seen = meets(plan)
    found = reflow(plan, seen)
    assert found is not None
    assert found.timetable.washings == seen.washings


@pytest.mark.parametrize("name", PLANS)
def test_where_the_day_goes_as_it_was_planned_nothing_moves(name):
    """Every minute at which something begins or ends, and the one after, with the facts as planned."""
    plan = PLANS[name]()
    seen = meets(plan)
    moments = {at for each in seen.placed for at in (each.start, each.start + 1, each.end, each.end + 1)}
    for now in sorted(moments):
        facts = [
            done(each.step, each.start, each.end, each.load)
            if each.end <= now
            else begun(each.step, each.start, each.end, each.load)
            for each in seen.placed
            if each.start < now
        ]
        day = on(now, *facts)
        if clashes(plan, seen, day=day):
            continue  # a washing or a fire that is going on has no fact to say so
        found = reflow(plan, seen, day=day)
        assert found is not None, now
        assert found.fit is Fit.MEETS, (now, [each.sentence for each in found.clashes])
        assert starts(found.timetable) == starts(seen), now
        facts_stand(found.timetable, day)
        nothing_sooner(found.timetable, day, seen)


@pytest.mark.parametrize(("late", "moves"), [(0, 0), (5, 5), (10, 10)])
def test_what_is_late_moves_what_hangs_on_it_and_nothing_else(late, moves):
    # a on the one burner, then b at once; c on its own has nothing to do with it
    steps = [hands_off(f"{name}.cook", 10, uses=BURNER) for name in "ab"]
    dishes = [a_dish(step.id[0], step, keep=Keep(None), course=30) for step in steps]
    other = a_dish("c", hands_off("c.soak", 10), keep=Keep(None), course=30)
    plan = a_plan(*dishes, other, kitchen=kitchen(*burners(1)), transfer=0)
    seen = meets(plan)
    first, then = sorted(("a.cook", "b.cook"), key=lambda step: seen.at[step, 0].start)
    start = seen.at[first, 0].start
    day = on(start + 5, begun(first, start, start + 10 + late))
    found = reflow(plan, seen, day=day)
    if moves and seen.at[then, 0].end + moves > 30:
        assert found is None or found.fit is not Fit.MEETS
        return
    assert found is not None
    assert found.fit is Fit.MEETS
    was = starts(seen)
    assert starts(found.timetable) == {**was, then: was[then] + moves}
