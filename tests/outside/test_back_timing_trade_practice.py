"""Back-timing and dovetailing as cooks teach it: common practice throughout, minutes from memory.

Each test is a rule of thumb worked out by hand on a small kitchen; none of the figures is a published value, and none
says that food is safe. Where two figures are given (350 and 400 °F), they are the ones cooks quote.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.arrange import Fit
from core.arrange.possible import possible
from core.plan.meaning import length_at
from core.plan.step import Attention, Heat, Keep, Loads
from tests.core.arrange.arranged import bake, meets, refused, starts
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    at_oven,
    burners,
    chained,
    hands_off,
)


def celsius(fahrenheit: int) -> int:
    return round((fahrenheit - 32) / 1.8)


def a_range(fahrenheit: int, spread: int = 15) -> Heat:
    middle = celsius(fahrenheit)
    return Heat(middle, middle - spread, middle + spread)


def an_oven_alone(racks: int = 2, cooks: int = 0):
    return a_kitchen(stations=(an_oven(racks=racks),), cooks=cooks or (a_cook(night=None),))


# ------------------------------------------------------------------ counting back from plating


def test_a_roast_counted_back_from_plating():
    """Roast 80, rest 20, carve 10: carve at T-10, out at T-30, in at T-110, and the oven on 18 min before that."""
    roast = hands_off("bird.roast", 80, uses=(at_oven(200, 0),))
    carve = a_step("bird.carve", minutes=10)
    plan = a_plan(
        a_dish("bird", roast, carve, keep=Keep(0)),
        links=(a_link("bird.roast", "bird.carve", least=20, most=20),),
        kitchen=an_oven_alone(),
    )
    timetable = meets(plan)
    assert starts(timetable) == {"bird.roast": -110, "bird.carve": -10}
    [heating] = timetable.heatings
    assert (heating.end, heating.end - heating.start) == (-110, 18)
    assert 15 <= heating.end - heating.start <= 20  # to 200 °C, as cooks say


def test_everything_planned_a_quarter_of_an_hour_early():
    """The cook's margin: the whole day moves by 15 minutes and nothing else changes."""
    steps = (hands_off("stew.cook", 90, uses=(a_use("burner"),)), a_step("stew.finish", minutes=10))
    dish = a_dish("stew", *steps, keep=Keep(0))
    links = chained(*steps, most=0)
    one = starts(meets(a_plan(dish, links=links)))
    early = starts(meets(a_plan(replace(dish, course=-15), links=links)))
    assert early == {step: start - 15 for step, start in one.items()}


def test_forty_plates_at_half_a_minute_take_twenty_minutes_and_two_lines_do_eighty():
    """More than 30 min of plating is too long: eighty plates on one line take 40, on two lines 20."""
    kitchen = a_kitchen(stations=(), cooks=2)

    def plating(plates: int, lines: int, opens: int):
        dishes = []
        for number in range(lines):  # two plates a minute, for the four servings written two minutes
            step = a_step(f"line-{number}.plate", minutes=1, loads=Loads(4, 2))
            dishes.append(a_dish(f"line-{number}", step, wanted=plates // lines, keep=Keep(plates)))
        return possible(a_plan(*dishes, kitchen=kitchen, opens=opens)).fit

    for plates, lines, minutes in ((40, 1, 20), (80, 1, 40), (80, 2, 20)):
        assert plating(plates, lines, -minutes) is Fit.MEETS
        assert plating(plates, lines, 1 - minutes) is Fit.IMPOSSIBLE


# ------------------------------------------------------------------ dovetailing


def test_what_cooks_alone_leaves_the_hands_free():
    """A pot that simmers 60 min after 10 of hands, and 45 min of hands for two others: 70 min in all, not 115."""
    pot = (a_step("pot.start", minutes=10), hands_off("pot.simmer", 60, uses=(a_use("burner"),)))
    dishes = (
        a_dish("pot", *pot),
        a_dish("salad", a_step("salad.wash", minutes=20)),
        a_dish("cake", a_step("cake.ice", minutes=25)),
    )
    plan = a_plan(*dishes, links=chained(*pot), kitchen=a_kitchen(cooks=1), opens=-70)
    assert possible(plan).fit is Fit.MEETS
    assert possible(replace(plan, opens=-69)).fit is Fit.IMPOSSIBLE


def test_the_rest_of_the_roast_is_oven_time_for_the_sides():
    """One rack: roast 60 and potatoes 25. In the 30 min that the roast rests the potatoes brown."""
    roast = hands_off("joint.roast", 60, uses=(at_oven(200, 0),))
    carve = a_step("joint.carve", minutes=10)
    plan = a_plan(
        a_dish("joint", roast, carve, keep=Keep(5)),
        bake("potatoes", 25, 200, keep=5),
        links=(a_link("joint.roast", "joint.carve", least=20, most=45),),
        kitchen=an_oven_alone(racks=1),
    )
    found = starts(meets(plan))
    out = found["joint.roast"] + 60
    assert out <= found["potatoes.bake"]
    assert found["potatoes.bake"] + 25 <= 0
    assert 20 <= found["joint.carve"] - out <= 45


def test_what_keeps_least_is_cooked_last():
    """One pan: fried things good for 8 min come after the vegetables (20 min), these after the braise (2 h)."""
    dishes = [
        a_dish(name, hands_off(f"{name}.cook", minutes, uses=(a_use("burner"),)), keep=Keep(keeps))
        for name, minutes, keeps in (("fritters", 6, 8), ("beans", 10, 20), ("braise", 90, 120))
    ]
    kitchen = a_kitchen(stations=burners(1), cooks=1)
    found = starts(meets(a_plan(*dishes, kitchen=kitchen)))
    assert found["braise.cook"] + 90 <= found["beans.cook"]
    assert found["beans.cook"] + 10 <= found["fritters.cook"]
    assert -8 <= found["fritters.cook"] + 6 <= 0
    # two that keep 8 min each, 9 min long: one of them would be old
    twins = [
        a_dish(name, hands_off(f"{name}.cook", 9, uses=(a_use("burner"),)), keep=Keep(8)) for name in ("one", "two")
    ]
    refused(a_plan(*twins, kitchen=kitchen))


# ------------------------------------------------------------------ one oven, several dishes


@pytest.mark.parametrize(("one", "other", "meeting"), [(350, 400, 375), (325, 375, 350)])
def test_dishes_25_degrees_of_fahrenheit_to_either_side_meet_in_the_middle(one, other, meeting):
    """With 15 °C to either side, both bake at once near the middle that cooks quote, and both are done together."""
    plan = a_plan(bake("gratin", 60, a_range(one)), bake("tart", 40, a_range(other)), kitchen=an_oven_alone())
    timetable = meets(plan)
    settings = {each.setting for each in timetable.placed}
    assert len(settings) == 1
    assert abs(settings.pop() - celsius(meeting)) <= 2


def test_what_does_not_bend_does_not_share():
    """A cake bears 5 °C only: beside a roast 50 °F hotter that must come out with it, it cannot be baked."""
    cake = bake("cake", 40, a_range(350, 5))
    roast = bake("roast", 60, a_range(400, 15))
    assert refused(a_plan(cake, roast, kitchen=an_oven_alone())).clashes
    stands = replace(cake, keep=Keep(6 * 60))
    found = starts(meets(a_plan(stands, roast, kitchen=an_oven_alone())))
    assert found["cake.bake"] + 40 <= found["roast.bake"]


@pytest.mark.parametrize(
    ("setting", "low", "high"), [(145, 14, 18), (175, -16, -11)], ids=["cooler by 15", "hotter by 15"]
)
def test_one_per_cent_a_degree_lies_near_what_heating_to_a_core_gives(setting, low, high):
    """From 160 to 145 °C 14 to 18 % longer, to 175 °C 11 to 13 % shorter (computed): the rule gives 15 and 15."""
    minutes = length_at(200, Heat(160, 145, 175), setting)
    assert low <= 100 * (minutes - 200) / 200 <= high


def test_stepping_up_takes_a_minute_for_five_degrees():
    """From 160 to 210 °C 10 min between what goes out and what goes in: so much the custard must keep, and no less."""
    crust = bake("crust", 20, 210)
    found = starts(meets(a_plan(bake("custard", 50, 160, keep=30), crust, kitchen=an_oven_alone())))
    assert found == {"custard.bake": -30 - 50, "crust.bake": -20}
    refused(a_plan(bake("custard", 50, 160, keep=29), crust, kitchen=an_oven_alone()))


# ------------------------------------------------------------------ loads


def test_browning_in_loads_takes_all_its_loads():
    """Sixty pieces, twelve to a pan, 4 min each with 2 between: 5 loads, 28 minutes."""
    brown = a_step("meat.brown", minutes=4, loads=Loads(60, 12, 2), uses=(a_use("burner"),))
    plan = a_bench(brown, kitchen=a_kitchen(stations=burners(1), cooks=1), opens=-28)
    found = starts(meets(plan))
    assert (len(found), min(found.values())) == (5, -28)
    assert possible(replace(plan, opens=-27)).fit is Fit.IMPOSSIBLE


def test_where_the_first_load_cannot_wait_the_food_is_served_in_waves():
    """Fried things keep 8 min: five loads of 6 min cannot be eaten together, in five servings they can."""
    fry = a_step("chips.fry", minutes=6, loads=Loads(5, 1), uses=(a_use("burner"),), attention=Attention.HANDS_ON)
    kitchen = a_kitchen(stations=burners(1), cooks=1)
    refused(a_plan(a_dish("chips", fry, keep=Keep(8)), kitchen=kitchen))
    waves = [
        a_dish(f"wave-{n}", replace(fry, id=f"wave-{n}.fry", loads=None), course=7 * n, keep=Keep(8))
        for n in range(5)
    ]
    timetable = meets(a_plan(*waves, kitchen=kitchen))
    ends = [each.end for each in timetable.placed]
    assert all(7 * n - 8 <= end <= 7 * n for n, end in enumerate(ends))


def test_a_burner_for_each_big_pot():
    """Three pots of 60 min that cannot stand on two burners at once, when none of them may wait."""
    pots = [
        a_dish(name, hands_off(f"{name}.cook", 60, uses=(a_use("burner"),)), keep=Keep(0))
        for name in ("stock", "pasta", "beans")
    ]
    refused(a_plan(*pots, kitchen=a_kitchen(stations=burners(2), cooks=1)))
    timetable = meets(a_plan(*pots, kitchen=a_kitchen(stations=burners(3), cooks=1)))
    assert {spot.station for each in timetable.placed for spot in each.spots} == {each.id for each in burners(3)}
