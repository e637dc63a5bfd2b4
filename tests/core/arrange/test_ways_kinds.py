"""Each kind of way out on a kitchen in which it is the mend: its size to the minute or piece, and its words."""

from dataclasses import replace
from fractions import Fraction
from threading import Event

from core.arrange.speak.ways import say_effect, say_way
from core.arrange.ways import WayKind, ways_out
from core.measures.quantity import Quantity
from core.plan.decisions import Choice, Pin, Wishes
from core.plan.kitchen import Station, StationKind
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Keep,
    Loads,
    Manner,
    Span,
    Touch,
    Use,
    VesselUse,
    Yield,
)
from tests.core.arrange.arranged import ALWAYS_HOT, bake
from tests.scenarios.offered import offers, only
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    burners,
    hands_off,
)


def alone(**fields):
    """Return a kitchen of one cook who never sleeps, without stations unless given."""
    return a_kitchen(**{"stations": (), "cooks": (a_cook("ann", night=None),), **fields})


def at_once(*steps, keep: int = 0, **fields):
    """Return a plan of dishes of one step each that must all be done at plating."""
    dishes = [a_dish(step.id.partition(".")[0], step, keep=Keep(keep)) for step in steps]
    return a_plan(*dishes, transfer=0, **{"kitchen": alone(), **fields})


# ---- vessels


def test_a_second_pot_is_borrowed():
    pot = (VesselUse("pot", 1),)
    plan = at_once(
        hands_off("soup.boil", 10, vessels=pot),
        hands_off("rice.boil", 10, vessels=pot),
        hands_off("peas.boil", 10, vessels=pot),
        kitchen=alone(vessels=(a_vessel("pot", 1),)),
    )
    (way,) = only(plan, WayKind.BORROW_VESSEL)
    assert (way.changes[0].was, way.changes[0].now, way.smallest) == (1, 3, True)
    assert say_way(plan, way) == "Borrow two more of Pot: 3 instead of 1."


# ---- pins and limits


def test_a_pin_is_lifted_and_told_where_the_step_goes():
    plan = at_once(a_step("soup.stir", minutes=10), a_step("rice.stir", minutes=10), keep=10,
                   pins=(Pin("soup.stir", start=-10), Pin("rice.stir", start=-15)))  # fmt: skip
    found = only(plan, WayKind.LIFT_PIN)
    assert {(way.changes[0].step, way.changes[0].was, way.changes[0].now) for way in found} == {
        ("rice.stir", -15, -20)
    }
    assert say_way(plan, found[0]) == "Lift the pin of Rice: Stir: it begins at 19:10 instead of 19:15."


def test_a_step_may_be_done_seven_minutes_later():
    plan = a_bench(
        hands_off("soup.boil", 30, earliest=-60),
        hands_off("soup.blend", 5, latest=-32),
        links=(a_link("soup.boil", "soup.blend"),),
        kitchen=alone(),
    )
    (way,) = only(plan, WayKind.DONE_LATER)
    assert (way.changes[0].was, way.changes[0].now, way.smallest) == (-32, -25, True)
    assert say_way(plan, way) == "Let Soup: Blend be done by 19:05 instead of 18:58."
    (ahead,) = only(plan, WayKind.MAKE_AHEAD)
    assert [(each.step, each.was, each.now) for each in ahead.changes] == [("soup.boil", -60, -67)]


def test_work_begins_a_quarter_of_an_hour_before_the_plan_opens():
    plan = a_bench(hands_off("soup.boil", 75), kitchen=alone(), opens=-60)
    (way,) = only(plan, WayKind.MAKE_AHEAD)
    assert [(each.step, each.was, each.now) for each in way.changes] == [(None, -60, -75)]
    assert say_way(plan, way) == "Let work begin at 18:15 instead of 18:30."


def test_serving_later_leaves_the_clock_alone():
    # something comes at 19:00 and takes 45 min: 19:45 instead of 19:30
    plan = a_bench(hands_off("cake.thaw", 45, clock=ClockTime(0, 19 * 60)), kitchen=alone())
    (way,) = only(plan, WayKind.SERVE_LATER)
    assert (way.size, way.smallest) == (15, True)
    assert way.effect.served == 15
    assert way.timetable.placed[0].start == -45
    assert say_effect(plan, way) == "All meets by 19:45."


# ---- loads


def test_what_takes_two_racks_is_baked_in_two_rounds():
    oven = an_oven(racks=2, heater=ALWAYS_HOT)
    both = Use(StationKind.OVEN, 2, heat=bake("x", 1, 180).steps[0].uses[0].heat)
    plan = at_once(
        hands_off("squash.roast", 20, uses=(both,), keeps=Keep(20)),
        hands_off("pie.bake", 50, uses=(replace(both, units=1),)),
        kitchen=alone(stations=(oven,)),
    )
    (way,) = only(plan, WayKind.SMALLER_LOADS)
    loads, racks = way.changes
    assert (loads.was, loads.now, racks.was, racks.now) == (1, 2, 2, 1)
    said = "Do Squash: Roast in two rounds instead of one, on 1 rack at a time."
    assert say_way(plan, way) == said


def test_two_pans_on_two_rings_halve_the_loads():
    pan = (VesselUse("pan", 1),)
    step = hands_off("cakes.fry", 6, uses=(a_use("burner"),), vessels=pan, loads=Loads(8, 4), keeps=Keep(3))
    plan = at_once(step, kitchen=alone(stations=burners(2), vessels=(a_vessel("pan", 2),)))
    (way,) = only(plan, WayKind.BIGGER_LOADS)
    assert [each.now for each in way.changes] == [8, 1, 2]
    said = "Do Cakes: Fry 8 at a time instead of 4, on 2 rings instead of 1: 1 load."
    assert say_way(plan, way) == said


# ---- places


def test_a_step_bound_to_one_station_is_set_free():
    steps = (
        hands_off("soup.boil", 10, uses=(a_use("burner", station="burner-1"),)),
        hands_off("rice.boil", 10, uses=(a_use("burner", station="burner-1"),)),
    )
    plan = at_once(*steps, kitchen=alone(stations=burners(2)))
    found = only(plan, WayKind.ELSEWHERE)
    assert {(way.changes[0].step, way.changes[0].station) for way in found} == {
        ("soup.boil", "burner-2"),
        ("rice.boil", "burner-2"),
    }
    assert all(way.changes[0].stood_in == "burner-1" for way in found)


def test_raw_things_are_never_stood_on_and_never_stacked():
    use = a_use("fridge", area=1000, height=5)
    night = ClockTime(1, 21 * 60)
    plan = at_once(
        hands_off("cream.chill", 60, uses=(use,), clock=night, keeps=Keep()),
        hands_off("meat.chill", 60, uses=(replace(use, area=900, raw=True),), clock=night, keeps=Keep()),
        hands_off("fish.chill", 60, uses=(replace(use, area=800, raw=True),), clock=night, keeps=Keep()),
        kitchen=alone(stations=(a_fridge(replace(a_fridge().shelves[0], area=1900)),)),
    )
    assert only(plan, WayKind.STACK) == ()
    assert {way.kind for way in offers(plan)} >= {WayKind.BORROW_STATION, WayKind.MOVE_CLOCK}


def test_a_machine_is_borrowed_and_the_step_bound_to_its_own_is_freed():
    mixer = Station("mixer", "Mixer", StationKind.MACHINE)
    steps = [
        hands_off(f"{name}.beat", 10, uses=(a_use("machine", station="mixer"),)) for name in ("cake", "foam")
    ]
    plan = at_once(*steps, kitchen=alone(stations=(mixer,)))
    way = only(plan, WayKind.BORROW_STATION)[0]
    assert say_way(plan, way) == "Borrow one more: Borrowed machine, from 19:20 to 19:30."
    assert len(way.edit(plan).kitchen.stations) == 2


# ---- hands


def test_a_helper_comes_just_for_the_minutes_that_are_missing():
    plan = at_once(a_step("soup.stir", minutes=12), a_step("rice.stir", minutes=7))
    (way,) = only(plan, WayKind.HELPER)
    (change,) = way.changes
    assert (change.begins, change.ends, way.smallest) == (-7, 0, True)
    assert say_way(plan, way) == "Ask somebody who needs no skill to help, from 19:23 to 19:30."
    (window,) = way.edit(plan).kitchen.cooks[1].present
    assert (window.from_minute, window.to_minute) == (19 * 60 + 23, 19 * 60 + 30)


def test_where_a_skill_is_asked_the_helper_has_it():
    steps = (a_step("soup.stir", minutes=12, skill="sauces"), a_step("rice.stir", minutes=7, skill="sauces"))
    cooks = (a_cook("ann", "sauces", night=None),)
    plan = at_once(*steps, kitchen=alone(cooks=cooks))
    (way,) = only(plan, WayKind.HELPER)
    assert way.changes[0].skill == "sauces"
    assert say_way(plan, way) == "Ask somebody who can do “sauces” to help, from 19:23 to 19:30."


def test_a_step_that_asks_for_a_skill_is_left_to_anybody():
    steps = (a_step("soup.stir", minutes=10, skill="sauces"), a_step("rice.stir", minutes=9, skill="sauces"))
    cooks = (a_cook("ann", "sauces", night=None), a_cook("ben", night=None))
    plan = at_once(*steps, kitchen=alone(cooks=cooks))
    found = only(plan, WayKind.NOVICE)
    assert [way.changes[0].step for way in found] == ["rice.stir", "soup.stir"]  # the shorter one first
    assert say_way(plan, found[0]) == "Let anybody do Rice: Stir; it asks for the skill “sauces” now."


def test_touches_are_left_to_anybody_too():
    touch = Touch(5, 2, "stir", skill="sauces")
    steps = (
        a_step("soup.stir", minutes=10, skill="sauces"),
        a_step("rice.boil", minutes=12, attention=Attention.TENDED, touches=(touch,), put_in=0, take_out=0),
    )
    cooks = (a_cook("ann", "sauces", night=None), a_cook("ben", night=None))
    found = only(at_once(*steps, kitchen=alone(cooks=cooks)), WayKind.NOVICE)
    assert "rice.boil" in [way.changes[0].step for way in found]


def test_plating_by_three_is_done_by_two():
    plan = at_once(a_step("table.plate", minutes=3, hands=3), kitchen=alone(cooks=2))
    (way,) = ways_out(plan, kinds={WayKind.FEWER_HANDS})
    assert (way.changes[0].was, way.changes[0].now, way.smallest) == (3, 2, True)
    assert say_way(plan, way) == "Do Table: Plate with 2 cooks instead of 3."


# ---- lengths, ways, leaving out


def test_the_likely_length_is_reserved_for_one_of_them():
    plan = at_once(
        a_step("soup.stir", minutes=(8, 10, 15)), a_step("rice.stir", minutes=10), manner=Manner.HIGH, opens=-22,
        keep=15,
    )  # fmt: skip
    (way,) = only(plan, WayKind.SHORTER)
    assert (way.changes[0].step, way.changes[0].was, way.changes[0].now) == ("soup.stir", 15, 10)
    said = "Reserve the likely length for Soup: Stir: 10 min instead of 15. Begin checking early."
    assert say_way(plan, way) == said


def test_another_way_than_the_one_chosen():
    kettle = Alternative("from the kettle", Span.of(10))
    plan = a_bench(
        hands_off("pot.boil", 30, alternatives=(kettle,)),
        kitchen=alone(),
        opens=-20,
        choices=(Choice("pot.boil", 0),),
    )
    (way,) = only(plan, WayKind.OTHER_WAY)
    assert say_way(plan, way) == "Do Pot: Boil the other way: from the kettle, from 19:20 to 19:30."


def test_a_garnish_is_left_out_and_nothing_that_cooks():
    steps = (a_step("soup.boil", minutes=20), a_step("soup.garnish", minutes=5))
    plan = a_bench(*steps, links=(a_link("soup.boil", "soup.garnish"),), kitchen=alone(), opens=-22)
    (way,) = only(plan, WayKind.LEAVE_OUT_STEP)
    assert say_way(plan, way) == "Leave out Soup: Garnish."
    assert way.effect.lost == ("soup.garnish",)
    assert say_effect(plan, way).startswith("All meets by 19:30. ")
    assert say_effect(plan, way).endswith(" 1 step is saved.")


def test_without_the_dish_its_by_product_is_wanted():
    milk = Yield("buttermilk", Quantity(Fraction(450), "ml"))
    butter = a_dish("butter", hands_off("butter.churn", 30, yields=milk), served=False)
    cream = a_dish("cream", hands_off("cream.pour", 10))
    plan = a_plan(
        butter, cream, links=(a_link("butter.churn", "cream.pour"),), kitchen=alone(), opens=-20, transfer=0
    )
    way = next(each for each in only(plan, WayKind.LEAVE_OUT_DISH) if each.changes[0].dish == "butter")
    assert way.effect.wanted == ("buttermilk",)
    assert "Then buttermilk must come from elsewhere." in say_effect(plan, way)


# ---- the asking itself


def test_it_is_repeatable_and_only_the_kinds_asked_for_are_sought():
    plan = at_once(a_step("soup.stir", minutes=12), a_step("rice.stir", minutes=7))
    kinds = {WayKind.HELPER, WayKind.DISH_LATER}
    first, second = ways_out(plan, kinds=kinds), ways_out(plan, kinds=kinds)
    assert first == second
    assert {way.kind for way in first} == kinds


def test_a_search_told_to_stop_offers_what_it_has():
    plan = at_once(a_step("soup.stir", minutes=12), a_step("rice.stir", minutes=7))
    stop = Event()
    heard = []

    def hear(way):
        heard.append(way)
        stop.set()

    found = ways_out(plan, hear=hear, stop=stop)
    assert len(heard) == 1
    assert list(found) == heard


def test_what_the_cook_cares_for_costs_more():
    plan = at_once(a_step("soup.stir", minutes=12), a_step("rice.stir", minutes=7))
    dear = replace(plan, decisions=replace(plan.decisions, wishes=Wishes(fresh=10)))
    cheap = replace(plan, decisions=replace(plan.decisions, wishes=Wishes(fresh=0)))
    prices = [only(each, WayKind.WAIT_LONGER)[0].price for each in (cheap, plan, dear)]
    assert prices == sorted(set(prices))
