"""What holds up what: links, places, ovens, vessels, shelves, cooks and their nights, one thing late at a time."""

from dataclasses import replace

import pytest

from core.arrange.chances_arcs import Because
from core.arrange.chances_order import order_of
from core.arrange.late_played import played
from core.plan.day import Day, Fact, State
from core.plan.decisions import Order
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.step import Holding, Loads, VesselUse, Wait
from core.timetable.timetable import Washing
from tests.core.timetable.laid import laid, spot
from tests.support.builders import (
    a_bench,
    a_kitchen,
    a_link,
    a_step,
    a_use,
    a_vessel,
    at_oven,
    hands_off,
)


def arcs_of(plan, timetable):
    """Give who waits for whom and why, links and loads left out."""
    order = order_of(plan, timetable)
    names = [node.key[0] for node in order.nodes]
    return {
        (names[arc.before], names[arc.after], arc.why, arc.minutes)
        for arcs in order.incoming
        for arc in arcs
        if arc.why not in {Because.LINK, Because.LOADS}
    }


def later(plan, timetable, lengths, step, load=0, day=None):
    """Give by how many minutes a load begins later when others take other lengths."""
    given = {(StepId(each), 0): minutes for each, minutes in lengths.items()}
    return played(plan, timetable, given, day=day).at(StepId(step), load).later


def test_what_follows_waits_for_the_least_wait():
    plan = a_bench(hands_off("a.one", 20), hands_off("a.two", 10), links=(a_link("a.one", "a.two", 5),))
    timetable = laid(plan, {"a.one": -60, "a.two": -30})
    assert later(plan, timetable, {"a.one": 20}, "a.two") == 0
    assert later(plan, timetable, {"a.one": 25}, "a.two") == 0
    assert later(plan, timetable, {"a.one": 26}, "a.two") == 1


def test_nothing_begins_sooner_than_planned_but_what_follows_at_once():
    chain = (hands_off("a.one", 20), hands_off("a.two", 10), hands_off("a.three", 10))
    plan = a_bench(*chain, links=(a_link("a.one", "a.two", 0, 0), a_link("a.two", "a.three", 0, 20)))
    timetable = laid(plan, {"a.one": -60, "a.two": -40, "a.three": -30})
    assert later(plan, timetable, {"a.one": 12}, "a.two") == -8
    assert later(plan, timetable, {"a.one": 12}, "a.three") == 0


def test_links_of_starts_and_of_ends():
    plan = a_bench(
        hands_off("a.one", 20),
        hands_off("a.two", 10),
        hands_off("a.three", 10),
        links=(
            a_link("a.one", "a.two", 5, kind=LinkKind.START_TO_START),
            a_link("a.one", "a.three", 0, kind=LinkKind.END_TO_END),
        ),
    )
    timetable = laid(plan, {"a.one": -60, "a.two": -50, "a.three": -45})
    day = played(plan, timetable, {(StepId("a.one"), 0): 40})
    assert day.at(StepId("a.two")).later == 0
    assert (day.at(StepId("a.three")).later, day.at(StepId("a.three")).end) == (0, -20)


def test_a_burner_is_free_when_the_pan_before_is_off():
    uses = (a_use(StationKind.BURNER),)
    plan = a_bench(hands_off("a.one", 20, uses=uses), hands_off("b.two", 10, uses=uses))
    starts, first, second = {"a.one": -60, "b.two": -35}, (spot("burner-1"),), (spot("burner-2"),)
    same = laid(plan, starts, spots={"a.one": first, "b.two": first})
    other = laid(plan, starts, spots={"a.one": first, "b.two": second})
    assert arcs_of(plan, same) == {("a.one", "b.two", Because.PLACE, 0)}
    assert arcs_of(plan, other) == set()
    assert later(plan, same, {"a.one": 30}, "b.two") == 5


def test_the_rack_free_for_longest_goes_first():
    steps = [hands_off(f"{name}.bake", 20, uses=(at_oven(180),)) for name in "abc"]
    plan = a_bench(*steps)
    timetable = laid(plan, {"a.bake": -100, "b.bake": -90, "c.bake": -60}, cooks=dict.fromkeys(plan.steps))
    assert arcs_of(plan, timetable) == {("a.bake", "c.bake", Because.PLACE, 0)}


def test_an_oven_changes_its_setting_when_all_of_the_other_one_is_out():
    plan = a_bench(
        hands_off("a.bake", 30, uses=(at_oven(160),)),
        hands_off("b.bake", 30, uses=(at_oven(160),)),
        hands_off("c.bake", 20, uses=(at_oven(210),)),
    )
    timetable = laid(plan, {"a.bake": -100, "b.bake": -90, "c.bake": -50}, cooks=dict.fromkeys(plan.steps))
    found = {each for each in arcs_of(plan, timetable) if each[2] is Because.HEAT}
    assert found == {("a.bake", "c.bake", Because.HEAT, 10), ("b.bake", "c.bake", Because.HEAT, 10)}
    assert later(plan, timetable, {"b.bake": 35}, "c.bake") == 5


def test_waiting_food_keeps_its_burner_until_it_goes_on():
    held = Wait(Holding.HOT, a_use(StationKind.BURNER))
    plan = a_bench(
        hands_off("a.heat", 20, uses=(a_use(StationKind.BURNER),)),
        hands_off("a.mix", 10),
        hands_off("a.sauce", 10),
        hands_off("b.fry", 10, uses=(a_use(StationKind.BURNER),)),
        links=(a_link("a.heat", "a.mix", wait=held), a_link("a.sauce", "a.mix")),
    )
    first = (spot("burner-1"),)
    timetable = laid(
        plan,
        {"a.heat": -60, "a.sauce": -40, "a.mix": -30, "b.fry": -20},
        spots={"a.heat": first, "b.fry": first},
        stays={"a.heat": first},
    )
    assert later(plan, timetable, {"a.heat": 25}, "b.fry") == 0
    assert later(plan, timetable, {"a.sauce": 25}, "b.fry") == 5


def test_a_vessel_comes_back_washed():
    kitchen = a_kitchen(vessels=(a_vessel("pot", washing=5),))
    pot = (VesselUse("pot"),)
    plan = a_bench(hands_off("a.boil", 20, vessels=pot), hands_off("b.boil", 10, vessels=pot), kitchen=kitchen)
    timetable = laid(plan, {"a.boil": -60, "b.boil": -30})
    assert later(plan, timetable, {"a.boil": 26}, "b.boil") == 1
    washed = replace(timetable, washings=(Washing("pot", -38, 5, StepId("a.boil")),))
    assert later(plan, washed, {"a.boil": 20}, "b.boil") == 0
    assert later(plan, washed, {"a.boil": 30}, "b.boil") == 5


def test_a_shelf_is_free_when_what_stood_there_is_taken_out():
    big = (a_use(StationKind.FRIDGE, area=1500, height=5),)
    plan = a_bench(
        hands_off("a.mix", 20),
        hands_off("a.chill", 60, uses=big),
        hands_off("b.set", 30, uses=big),
        links=(a_link("a.mix", "a.chill"),),
    )
    timetable = laid(plan, {"a.mix": -200, "a.chill": -170, "b.set": -100})
    assert arcs_of(plan, timetable) == {("a.chill", "b.set", Because.PLACE, 0)}
    assert later(plan, timetable, {"a.mix": 45}, "b.set") == 5


def test_what_stands_in_the_cold_ends_as_planned_while_it_has_its_low_length():
    cold = (a_use(StationKind.FRIDGE, area=100, height=5),)
    plan = a_bench(
        hands_off("a.mix", 20),
        hands_off("a.set", (60, 90, 200), uses=cold),
        hands_off("a.top", 5),
        links=(a_link("a.mix", "a.set"), a_link("a.set", "a.top")),
        manner="likely",
    )
    timetable = laid(plan, {"a.mix": -140, "a.set": -120, "a.top": -30})
    assert later(plan, timetable, {"a.mix": 50}, "a.top") == 0
    assert later(plan, timetable, {"a.mix": 51}, "a.top") == 1


def test_loads_follow_each_other():
    step = a_step("a.fry", minutes=5, loads=Loads(12, 4, 2), uses=(a_use(StationKind.BURNER),))
    plan = a_bench(step)
    timetable = laid(plan, {"a.fry": (-40, -33, -20)})
    assert later(plan, timetable, {"a.fry": 9}, "a.fry", 1) == 4
    assert later(plan, timetable, {"a.fry": 9}, "a.fry", 2) == 0


def test_an_order_decided_holds():
    orders = (Order(StepId("a.one"), StepId("b.two")),)
    plan = a_bench(hands_off("a.one", 20), hands_off("b.two", 10), orders=orders)
    assert later(plan, laid(plan, {"a.one": -60, "b.two": -40}), {"a.one": 27}, "b.two") == 7


def test_stations_of_one_appliance_wait_for_each_other():
    grill = replace(a_kitchen().station["grill"], lighting=0, burns=None, not_with=("oven",))
    kitchen = a_kitchen(stations=(a_kitchen().station["oven"], grill))
    plan = a_bench(
        hands_off("a.bake", 20, uses=(at_oven(180),)),
        hands_off("b.grill", 10, uses=(a_use(StationKind.GRILL),)),
        kitchen=kitchen,
    )
    timetable = laid(plan, {"a.bake": -60, "b.grill": -30}, cooks=dict.fromkeys(plan.steps))
    assert arcs_of(plan, timetable) == {("a.bake", "b.grill", Because.NOT_WITH, 0)}


def test_a_cooks_work_pushes_the_next_by_what_it_runs_over():
    plan = a_bench(a_step("a.slice", minutes=20), a_step("b.chop", minutes=10))
    timetable = laid(plan, {"a.slice": -60, "b.chop": -35})
    assert later(plan, timetable, {"a.slice": 25}, "b.chop") == 0
    assert later(plan, timetable, {"a.slice": 28}, "b.chop") == 3


def test_a_cook_who_must_wait_does_the_next_thing_meanwhile():
    plan = a_bench(
        hands_off("a.bake", 20),
        a_step("a.honey", minutes=2),
        a_step("b.plates", minutes=10),
        links=(a_link("a.bake", "a.honey"),),
    )
    timetable = laid(plan, {"a.bake": -60, "a.honey": -40, "b.plates": -38})
    assert later(plan, timetable, {"a.bake": 50}, "a.honey") == 30
    assert later(plan, timetable, {"a.bake": 50}, "b.plates") == 0


def test_a_cook_who_has_gone_to_bed_goes_on_in_the_morning():
    """The cook sleeps from 23:00 to 07:00; what has begun is finished."""
    links = (a_link("a.slice", "a.chop"),)
    plan = a_bench(a_step("a.slice", minutes=20), a_step("a.chop", minutes=10), links=links)
    evening = -21 * 60  # 22:30 the day before
    timetable = laid(plan, {"a.slice": evening, "a.chop": evening + 20})
    assert later(plan, timetable, {"a.slice": 29}, "a.chop") == 9
    assert later(plan, timetable, {"a.slice": 30}, "a.chop") == 8 * 60 + 10


def test_facts_of_the_day_stand_and_nothing_else_begins_before_now():
    links = (a_link("a.one", "a.two"),)
    plan = a_bench(hands_off("a.one", 20), hands_off("a.two", 10), hands_off("b.three", 5), links=links)
    timetable = laid(plan, {"a.one": -60, "a.two": -40, "b.three": -45})
    day = Day(-35, (Fact(StepId("a.one"), State.UNDER_WAY, -58, -30), Fact(StepId("b.three"), State.DROPPED)))
    result = played(plan, timetable, "likely", day=day)
    assert (result.at(StepId("a.one")).start, result.at(StepId("a.two")).start) == (-58, -30)
    with pytest.raises(KeyError):
        result.at(StepId("b.three"))
    done = Day(-35, (Fact(StepId("a.one"), State.DONE, -58, -44),))
    assert played(plan, timetable, "likely", day=done).at(StepId("a.two")).start == -35


def test_a_timetable_out_of_order_is_played_all_the_same():
    """What runs in a circle (by the link it follows, on the burner it comes first) goes on with the first planned."""
    uses = (a_use(StationKind.BURNER),)
    links = (a_link("a.one", "a.two"),)
    plan = a_bench(hands_off("a.one", 20, uses=uses), hands_off("a.two", 10, uses=uses), links=links)
    timetable = laid(plan, {"a.two": -60, "a.one": -40})
    result = played(plan, timetable, "likely")
    assert {each.step: each.start for each in result.loads} == {"a.two": -60, "a.one": -40}


def test_moving_a_load_reads_the_order_anew():
    uses = (a_use(StationKind.BURNER),)
    plan = a_bench(hands_off("a.one", 20, uses=uses), hands_off("b.two", 10, uses=uses))
    timetable = laid(plan, {"a.one": -60, "b.two": -35})
    order = order_of(plan, timetable)
    moved = order.moved({(StepId("b.two"), 0): -75})
    found = {(arc.before, arc.after) for arcs in moved.incoming for arc in arcs}
    assert found == {(order.index[StepId("b.two"), 0], order.index[StepId("a.one"), 0])}
    assert order.moved({}) == order
