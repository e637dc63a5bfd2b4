"""The timetable counted back on paper: chosen ways, fires as needed, nothing washed, nothing in pieces."""

from dataclasses import replace

from core.plan.decisions import Choice
from core.plan.step import Alternative, Loads, Span, VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from tests.core.timetable.laid import at, heating
from tests.support.builders import (
    a_dish,
    a_fire,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    hands_off,
)


def test_it_is_done_in_the_way_chosen_or_as_written():
    slow = Alternative("slow", Span.of(65), (at_oven(160),))
    step = hands_off("leg.roast", 45, uses=(at_oven(190),), alternatives=(slow,))
    kitchen = a_kitchen(oven=an_oven(heater=None))
    (written,) = on_paper(a_plan(a_dish("leg", step), kitchen=kitchen)).placed
    assert (written.way, written.length, written.setting) == (0, 45, 190)
    chosen = a_plan(a_dish("leg", step), kitchen=kitchen, choices=(Choice(step.id, 1),))
    (other,) = on_paper(chosen).placed
    assert (other.way, other.length, other.setting) == (1, 65, 160)
    assert not clashes(chosen, on_paper(chosen))


def test_a_fire_is_lit_for_what_comes_first():
    plan = a_plan(a_dish("chops", hands_off("chops.grill", 30, uses=(a_use("grill"),))),
                  kitchen=a_kitchen(stations=(a_fire(),)))  # fmt: skip
    timetable = on_paper(plan)
    assert timetable.heatings == (heating("grill", at("18:35"), at("19:00"), 0, "ann"),)
    assert not clashes(plan, timetable)


def test_another_is_lit_where_the_first_has_burnt_out_if_it_may_be():
    step = hands_off("chops.grill", 50, uses=(a_use("grill"),), loads=Loads(3, 1))
    for fires in (1, 2, 3):
        plan = a_plan(a_dish("chops", step), kitchen=a_kitchen(stations=(a_fire(fires=fires),)))
        timetable = on_paper(plan)  # from 17:00 to 19:30
        ends = [each.end for each in timetable.heatings]
        assert ends == [at("17:00"), at("18:00"), at("19:00")][:fires]
        kinds = {each.kind for each in clashes(plan, timetable)}
        assert kinds == ({ClashKind.NO_FIRE} if fires < 3 else set())


def test_one_fire_does_where_it_burns_as_long_as_one_likes_and_gas_takes_nobody():
    step = hands_off("chops.grill", 50, uses=(a_use("grill"),), loads=Loads(3, 1))
    plan = a_plan(a_dish("chops", step), kitchen=a_kitchen(stations=(a_fire(burns=None, fires=3),)))
    assert [each.end for each in on_paper(plan).heatings] == [at("17:00")]
    gas = a_fire(lighting=0, burns=180)
    plan = replace(plan, kitchen=a_kitchen(stations=(gas,)))
    assert on_paper(plan).heatings == (heating("grill", at("17:00"), at("17:00"), 0, None),)
    assert not clashes(plan, on_paper(plan))


def test_nothing_is_washed_and_nothing_done_in_pieces():
    pot = (VesselUse(a_vessel("pot").id),)
    peel, boil = a_step("roots.peel", minutes=30, least_piece=10), hands_off("roots.boil", 20, vessels=pot)
    plan = a_plan(a_dish("roots", peel, boil), links=(a_link("roots.peel", "roots.boil"),),
                  kitchen=a_kitchen(vessels=(a_vessel("pot"),)))  # fmt: skip
    timetable = on_paper(plan)
    assert timetable.washings == ()
    assert [len(each.hands) for each in timetable.placed] == [1, 0]
    assert not clashes(plan, timetable)
