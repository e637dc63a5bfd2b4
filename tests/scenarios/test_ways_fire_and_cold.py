"""Acceptance scenarios of grill, hob, fridge and days ahead: what is offered where they cannot be met."""

from dataclasses import replace

import pytest

from core.arrange.speak.ways import say_effect, say_way
from core.arrange.ways import Unit, WayKind
from core.plan.decisions import Choice
from core.plan.kitchen import Station, StationKind
from core.plan.step import ClockTime, Holding, Keep, Loads, Wait
from tests.scenarios.arranged import SERVED, at, clock
from tests.scenarios.offered import offers, only
from tests.scenarios.test_placing_cold_and_days import a_bird, mousse_in_the_morning, night
from tests.scenarios.test_placing_hands_and_fire import last_half_hour, pans, skewers
from tests.support.builders import a_bench, a_dish, a_kitchen, a_link, a_plan, a_use, burners, hands_off

# ---- F5: the grill too small


def test_f5_twelve_at_a_time():
    # 24 by 12: 2 loads, 8 + 2 + 8 = 18 min, the first one 10 min old at 19:00
    plan = skewers()
    (way,) = only(plan, WayKind.BIGGER_LOADS)
    per_load, loads = way.changes
    assert (per_load.unit, per_load.was, per_load.now) == (Unit.PER_LOAD, 9, 12)
    assert (loads.unit, loads.now) == (Unit.LOADS, 2)
    assert 10 <= -way.timetable.at["skewers.grill", 0].end <= 12
    assert say_way(plan, way) == "Do Skewers: Grill 12 at a time instead of 9: 2 loads."


def test_f5_eighteen_skewers():
    # three servings of the four, 18 of 24 pieces: 2 loads of 9
    plan = skewers()
    (way,) = only(plan, WayKind.FEWER_SERVINGS)
    servings, pieces = way.changes
    assert (servings.was, servings.now, pieces.was, pieces.now) == (4, 3, 24, 18)
    assert way.smallest
    assert say_way(plan, way) == "Cook Skewers for 3 instead of 4: 18 pieces instead of 24 at Skewers: Grill."


def test_f5_a_covered_side_zone_of_twenty_minutes():
    # 28 min from 18:32, the first load out 18:40: 20 min old
    plan = skewers()
    (way,) = only(plan, WayKind.WAIT_LONGER)
    assert (way.changes[0].was, way.changes[0].now, way.smallest) == (12, 20, True)


def test_f5_in_waves():
    # the first load out 18:48, the second 18:58, the third 19:08: 18 skewers at 19:00, 6 at 19:08
    plan = skewers()
    (way,) = only(plan, WayKind.WAVES)
    assert (way.size, way.smallest) == (8, True)
    said = "Serve Skewers in two waves: 2 loads at 19:00, 1 load at 19:08."
    assert say_way(plan, way) == said
    ends = sorted(
        each.end for step, loads in way.timetable.loads_of.items() if "grill" in step for each in loads
    )
    assert [clock(end) for end in ends] == ["18:48", "18:58", "19:08"]


# ---- F6: one pair of hands in the wrong order


def test_f6_the_order_is_lifted_or_the_salad_stands_a_minute_longer():
    plan = last_half_hour(("gravy", "carve", "salad", "greens"))
    found = offers(plan)
    (order,) = [way for way in found if way.kind is WayKind.LIFT_ORDER]
    assert (order.changes[0].step, order.changes[0].after) == ("salad.do", "greens.do")
    said = "Lift the order: Greens: Do need not come after Salad: Do."
    assert say_way(plan, order) == said
    (wait,) = [way for way in found if way.kind is WayKind.WAIT_LONGER]
    assert (wait.changes[0].dish, wait.changes[0].was, wait.changes[0].now) == ("salad", 5, 6)


# ---- F8: thaw and dry brine


def test_f8_on_thursday_in_cold_water():
    # the fridge was decided on; an hour a kg of 5.4 kg is 5.5 to 6 h, salt by Thursday 16:00
    plan = a_bird(asked=at("Thu 10:00"), choices=(Choice("bird.thaw", 0),))
    found = offers(plan)
    assert found[0].kind is WayKind.OTHER_WAY
    (change,) = found[0].changes
    assert (change.step, change.was, change.now) == ("bird.thaw", 0, 1)
    assert change.begins is not None
    assert change.ends is not None
    assert 330 <= change.ends - change.begins <= 360
    assert at("Thu 10:00") <= change.begins
    assert change.ends <= at("Fri 14:30")
    assert say_way(plan, found[0]).startswith("Do Bird: Thaw the other way: in cold water, from ")


# ---- F9: Friday night's fridge


def moves(ways):
    """Return which steps each way moves into the cool box, and what it stacks on what."""
    return {
        frozenset(
            (each.step, each.after if each.unit is Unit.AREA else each.station) for each in way.changes
        )
        for way in ways
    }


def test_f9_the_vegetables_and_the_dough_to_the_cool_box():
    # 1,000 + 600 in its 1,750; 1,200 | 1,200 | 900 + 600 stay
    found = only(night(), WayKind.ELSEWHERE)
    wanted = frozenset({("vegetables.chill", "cool-box"), ("dough.chill", "cool-box")})
    assert wanted in moves(found)
    # moving the largest thing alone is offered, too, and nothing that does more than needed
    assert frozenset({("panna-cotta.chill", "cool-box")}) in moves(found)
    assert not [each for each in moves(found) if ("panna-cotta.chill", "cool-box") in each and len(each) > 1]


def test_f9_the_vegetables_to_the_cool_box_and_the_trout_on_a_board():
    plan = night()
    found = only(plan, WayKind.STACK)
    wanted = frozenset({("trout.chill", "panna-cotta.chill"), ("vegetables.chill", "cool-box")})
    assert wanted in moves(found)
    way = next(each for each in found if moves([each]) == {wanted})
    assert say_way(plan, way) == (
        "Stand Trout: Chill on a board on Panna cotta: Chill, and move Vegetables: Chill to Cool box,"
        " from Fri 21:00 to 07:00."
    )


def test_f9_by_sum_it_fits_and_one_thing_more_must_give():
    plan = night("vegetables")
    assert frozenset({("dough.chill", "cool-box")}) in moves(only(plan, WayKind.ELSEWHERE))
    assert frozenset({("trout.chill", "panna-cotta.chill")}) in moves(only(plan, WayKind.STACK))
    # the pork is raw: nothing is stood on it, and it stands on nothing
    on_boards = {pair for way in moves(only(plan, WayKind.STACK)) for pair in way}
    assert not [pair for pair in on_boards if "pork.chill" in pair]


# ---- F10: the dessert must set


def test_f10_half_an_hour_later_or_the_roast_out_sooner_or_made_ahead_or_a_cool_box():
    plan = mousse_in_the_morning()
    found = {way.kind: way for way in offers(plan)}
    # 15:30 + 6 h = 21:30
    assert (found[WayKind.DISH_LATER].changes[0].dish, found[WayKind.DISH_LATER].size) == ("mousse", 30)
    # the shelf is needed by 15:00: out at 15:00 is half an hour sooner
    moved = found[WayKind.MOVE_CLOCK]
    assert (moved.changes[0].step, moved.size, moved.smallest) == ("lamb.keep", 30, True)
    assert say_way(plan, moved) == "Begin Lamb: Keep 30 min sooner, at 14:00 instead of 14:30."
    # set by 14:30, when the lamb comes in: 14:30 - 6 h = 08:30
    ahead = found[WayKind.MAKE_AHEAD]
    assert [clock(each.now) for each in ahead.changes if each.now is not None] == ["08:30", "08:30"]
    assert ahead.smallest
    # a cool box for as long as one of them stands in it
    box = found[WayKind.BORROW_STATION].changes[0]
    assert (box.name, box.now) == ("Cool box", 1000)
    assert box.begins is not None
    assert box.ends is not None
    assert box.ends - box.begins in {60, 360}
    assert found[WayKind.SERVE_LATER].size == 30


def test_f10_the_night_before_will_do_as_well():
    plan = mousse_in_the_morning()
    ahead = next(way for way in offers(plan, WayKind.MAKE_AHEAD))
    eased = ahead.edit(plan)
    step = eased.steps["mousse.set"]
    evening = replace(step, earliest=at("Fri 20:00"), latest=at("Sat 02:00"))
    dishes = (eased.menu.dishes[0], replace(eased.menu.dishes[1], steps=(evening,)))
    assert only(replace(eased, menu=replace(eased.menu, dishes=dishes), opens=None), WayKind.MAKE_AHEAD) == ()


# ---- F13: five pans, four burners


def test_f13_the_gravy_five_minutes_sooner_leaves_its_ring_to_the_beans():
    # 15 min from 18:35 are over at 18:50, when the beans begin
    plan = pans()
    found = only(plan, WayKind.MOVE_CLOCK)
    gravy = next(way for way in found if way.changes[0].step == "gravy.cook")
    assert (gravy.size, gravy.smallest) == (5, True)
    assert say_way(plan, gravy) == "Begin Gravy: Cook 5 min sooner, at 18:35 instead of 18:40."


def test_f13_a_flask_lets_the_gravy_wait():
    # it must be done by 18:50 and stands on no ring; without the flask it keeps 5 min
    dishes = []
    for dish in pans().menu.dishes:
        step = dish.steps[0]
        free = dish.id == "gravy"
        dishes.append(
            replace(dish, keep=Keep(5), steps=(replace(step, clock=None),)) if free else dish
        )
    plan = replace(pans(), menu=replace(pans().menu, dishes=tuple(dishes)))
    (way,) = only(plan, WayKind.WAIT_LONGER)
    assert (way.changes[0].dish, way.changes[0].was, way.changes[0].now) == ("gravy", 5, 10)


def test_f13_a_fifth_ring_for_as_long_as_it_is_used():
    plan = pans()
    (way,) = only(plan, WayKind.BORROW_STATION)
    (ring,) = way.changes
    assert ring.name == "Camping stove"
    used = [each for each in way.timetable.placed if each.spots[0].station == ring.station]
    assert (ring.begins, ring.ends) == (min(each.start for each in used), max(each.end for each in used))
    (window,) = way.edit(plan).kitchen.station[ring.station].hours
    assert window.days_before == 0
    assert (window.from_minute, window.to_minute) == (ring.begins + 1140, ring.ends + 1140)


# ---- F17: the coals run out


def coals(fires: int = 1):
    """Lit 16:55, ready 17:20, good 60 min: three loads of 12 with 2 between, 2 after that the chops for 30."""
    grill = Station(
        "grill", "Grill", StationKind.GRILL, 12, place="terrace", lighting=25, burns=60, laying=5, fires=fires
    )
    place = (a_use("grill", 12),)
    leeks = hands_off(
        "leeks.grill", 12, uses=place, loads=Loads(24, 8, change_over=2), clock=ClockTime(0, 17 * 60 + 20)
    )
    chops = hands_off("chops.grill", 30, uses=place)
    return a_plan(
        a_dish("leeks", leeks),
        a_dish("chops", chops),
        links=(a_link("leeks.grill", "chops.grill", 2, 30, wait=Wait(Holding.COUNTER)),),
        kitchen=a_kitchen(stations=(grill,)),
        plating=SERVED,
        transfer=0,
    )


def test_f17_a_second_chimney_by_1755():
    # loads end 18:00, chops 18:02 to 18:32; the coals are spent 18:20: ready then, lit 25 min before
    plan = coals()
    (way,) = only(plan, WayKind.SECOND_FIRE)
    (change,) = way.changes
    assert (change.station, change.was, change.now) == ("grill", 1, 2)
    assert change.begins is not None
    assert clock(change.begins) == "17:55"
    assert say_way(plan, way) == "Light another fire for Grill by 17:55."
    assert say_effect(plan, way).startswith("All meets by 19:00.")


@pytest.mark.parametrize("fires", [2, 3])
def test_f17_with_the_second_chimney_nothing_is_offered(fires):
    assert offers(coals(fires)) == ()


# ---- nothing to mend


def test_a_plan_that_meets_is_offered_nothing():
    plan = a_bench(hands_off("soup.boil", 30, uses=(a_use("burner"),)), kitchen=a_kitchen(stations=burners(1)))
    assert offers(plan) == ()
