"""What is in use when: units, shelves, hands, vessels, and the peak."""

from dataclasses import replace

from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Shelf, Station, StationKind
from core.plan.step import Attention, Holding, Touch, VesselUse, Wait
from core.timetable.load import (
    Level,
    area_curve,
    hands_curve,
    load_curve,
    peak,
    shelf_curves,
    vessel_curve,
)
from core.timetable.timetable import Timetable
from tests.core.timetable.laid import heating, laid, spot, washing
from tests.support.builders import (
    a_dish,
    a_fire,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    hands_off,
)

HOB, FRIDGE = StationId("hob"), StationId("fridge")


def plan():
    pot = (VesselUse(VesselId("pot")),)
    stew = a_dish(
        "stew",
        a_step("stew.brown", minutes=10, uses=(a_use("burner", 2),), vessels=pot),
        hands_off("stew.simmer", 30, uses=(a_use("burner"),), vessels=pot),
    )
    jelly = a_dish("jelly", a_step("jelly.pour", minutes=5), a_step("jelly.turn", minutes=5))
    use = a_use("fridge", area=500)
    milk = a_dish("milk", hands_off("milk.chill", 30, uses=(a_use("fridge", area=300),)))
    tea_touch = (Touch(5, 2),)
    tea = a_dish(
        "tea",
        a_step("tea.boil", minutes=10, attention=Attention.TENDED, touches=tea_touch, put_in=0, take_out=0,
               uses=(a_use("burner"),)),
    )  # fmt: skip
    kitchen = a_kitchen(
        stations=(Station(HOB, "Hob", StationKind.BURNER, 4), a_fridge(Shelf(800, 10), Shelf(800, 10))),
        cooks=2,
        vessels=(a_vessel("pot"),),
    )
    links = (
        a_link("stew.brown", "stew.simmer"),
        a_link("jelly.pour", "jelly.turn", wait=Wait(Holding.FRIDGE, use)),
    )
    return a_plan(stew, jelly, milk, tea, links=links, kitchen=kitchen)


STARTS = {
    "stew.brown": -60, "stew.simmer": -45, "jelly.pour": -60, "jelly.turn": -15, "milk.chill": -40, "tea.boil": -30,
}  # fmt: skip


def timetable(**fields) -> Timetable:
    return laid(plan(), STARTS, cooks={"jelly.pour": "ben", "jelly.turn": "ben"}, **fields)


def test_units_in_use_are_a_step_function():
    found = load_curve(plan(), timetable(), HOB)
    assert found == ((-60, -50, 2), (-45, -30, 1), (-30, -20, 2), (-20, -15, 1))
    assert peak(found) == Level(-60, -50, 2)
    assert load_curve(plan(), timetable(), StationId("kiln")) == ()


def test_area_is_counted_for_each_shelf_and_for_all():
    upper = timetable(spots={"milk.chill": [spot("fridge", shelf=1)]})
    assert shelf_curves(plan(), upper, FRIDGE) == (((-55, -15, 500),), ((-40, -10, 300),))
    assert area_curve(plan(), upper, FRIDGE) == ((-55, -40, 500), (-40, -15, 800), (-15, -10, 300))
    assert shelf_curves(plan(), upper, HOB) == ()
    assert shelf_curves(plan(), upper, StationId("kiln")) == ()
    both = timetable()
    assert shelf_curves(plan(), both, FRIDGE)[0] == ((-55, -40, 500), (-40, -15, 800), (-15, -10, 300))


def test_hands_are_counted_for_all_and_for_each_cook():
    found = hands_curve(plan(), timetable())
    assert found == ((-60, -55, 2), (-55, -50, 1), (-25, -23, 1), (-15, -10, 1))
    assert peak(found) == (-60, -55, 2)
    assert hands_curve(plan(), timetable(), CookId("ann")) == ((-60, -50, 1), (-25, -23, 1))
    assert hands_curve(plan(), timetable(), CookId("ben")) == ((-60, -55, 1), (-15, -10, 1))
    on = timetable(heatings=[heating("hob", -25, -20, 100)])
    assert hands_curve(plan(), on, CookId("ann")) == ((-60, -50, 1), (-25, -24, 2), (-24, -23, 1))


def test_hands_that_light_fires_and_wash_up_are_counted():
    washed = timetable(washings=[washing("pot", -12, "stew.brown")])
    assert hands_curve(plan(), washed, CookId("ann")) == ((-60, -50, 1), (-25, -23, 1), (-12, -7, 1))
    alone = replace(plan(), kitchen=replace(plan().kitchen, vessels=(a_vessel("pot", by_hand=False),)))
    assert hands_curve(alone, washed, CookId("ann")) == ((-60, -50, 1), (-25, -23, 1))
    fires = replace(plan(), kitchen=replace(plan().kitchen, stations=(*plan().kitchen.stations, a_fire())))
    lit = timetable(heatings=[heating("grill", -45, -20, 0)])
    assert hands_curve(fires, lit, CookId("ann")) == ((-60, -50, 1), (-45, -40, 1), (-25, -23, 1))


def test_a_vessel_is_in_use_through_its_run_and_its_washing():
    assert vessel_curve(plan(), timetable(), VesselId("pot")) == ((-60, -15, 1),)
    washed = timetable(washings=[washing("pot", -12, "stew.brown")])
    assert vessel_curve(plan(), washed, VesselId("pot")) == ((-60, -7, 1),)
    assert vessel_curve(plan(), timetable(), VesselId("wok")) == ()


def test_nothing_has_no_peak_and_of_equals_the_first_counts():
    assert peak(()) is None
    assert peak((Level(0, 5, 2), Level(5, 6, 1), Level(7, 9, 2))) == (0, 5, 2)
