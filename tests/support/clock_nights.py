"""A night of cooking over the hour in which the clocks change: something of every sheet falls into that hour.

`change` is the minute of the change, in minutes from plating at 13:00 of the new time. Half an hour before it the clock
shows the same as half an hour after it where they go back; where they go forward, an hour less two minutes lie between.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from core.measures.quantity import Quantity
from core.plan.food import Effect, FoodCare
from core.plan.kitchen import Shelf, StationKind
from core.plan.menu import Dish, Guest, Ingredient
from core.plan.plan import Plan
from core.plan.step import (
    Attention,
    Doneness,
    Holding,
    Keep,
    Loads,
    Manner,
    Span,
    Touch,
    Use,
    VesselUse,
    Wait,
)
from core.timetable.timetable import Spot, Timetable
from tests.core.timetable.laid import heating, laid, spot, washing
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fire,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    burners,
    hands_off,
)


@dataclass(frozen=True, slots=True)
class Night:
    """When it is plated, where, and how many minutes from plating the clocks change."""

    plating: str
    zone: str
    change: int
    back: bool


NIGHTS = {
    # 25 October 2026: at 01:00 UTC 03:00 CEST is 02:00 CET; 13:00 CET is 12:00 UTC
    "Berlin, autumn": Night("2026-10-25 13:00", "Europe/Berlin", -660, back=True),
    # 28 March 2027: at 01:00 UTC 02:00 CET is 03:00 CEST; 13:00 CEST is 11:00 UTC
    "Berlin, spring": Night("2027-03-28 13:00", "Europe/Berlin", -600, back=False),
    # 1 November 2026: at 06:00 UTC 02:00 EDT is 01:00 EST; 13:00 EST is 18:00 UTC
    "New York, autumn": Night("2026-11-01 13:00", "America/New_York", -720, back=True),
    # 14 March 2027: at 07:00 UTC 02:00 EST is 03:00 EDT; 13:00 EDT is 17:00 UTC
    "New York, spring": Night("2027-03-14 13:00", "America/New_York", -600, back=False),
}
"""Two zones, by their rules: EU directive 2000/84/EC (last Sundays at 01:00 UTC); US Energy Policy Act of 2005."""


def _of(item: str, amount: int, unit: str, step: str, **fields: object) -> Ingredient:
    return Ingredient(item, Quantity(Fraction(amount), unit), "", step, **fields)  # type: ignore[arg-type]


def _shelf(area: int = 600, *, raw: bool = False) -> Use:
    return Use(StationKind.FRIDGE, area=area, height=10, raw=raw)


def _bread() -> Dish:
    """Return a loaf that is shaped before the change and slashed after it, baked in two loads."""
    mix = a_step("bread.mix", "Mix the dough", 20, vessels=(VesselUse("bowl"),))
    prove = hands_off("bread.prove", 100, does="Prove in the cold", uses=(_shelf(),))
    shape = a_step("bread.shape", "Shape two loaves", 20)
    slash = a_step("bread.slash", "Slash the tops", 8)
    bake = a_step(
        "bread.bake", "Bake dark", 35, attention=Attention.HANDS_OFF, uses=(at_oven(220),), loads=Loads(2, 2),
        doneness=Doneness("hollow when knocked", 96),
    )  # fmt: skip
    return a_dish(
        "bread", mix, prove, shape, slash, bake, name="Night loaf, with rye", code="B", written_for=4, wanted=8,
        ingredients=(_of("rye flour", 400, "g", mix.id, aisle="dry goods"), _of("butter", 30, "g", mix.id)),
        keep=Keep(None, Wait(Holding.COUNTER)), allergens=("gluten",), plating="In the basket.",
    )  # fmt: skip


def _pork() -> Dish:
    """Return a roast that waits raw, comes to its core temperature after the change, and waits cold."""
    salt = a_step("pork.salt", "Salt the shoulder", 15)
    roast = a_step(
        "pork.roast", "Roast slowly", 90, attention=Attention.TENDED, uses=(at_oven(120),),
        doneness=Doneness("juices clear", 66), touches=(Touch(52, 2, "Baste"),),
    )  # fmt: skip
    rest = hands_off("pork.rest", 30, does="Rest under foil")
    carve = a_step("pork.carve", "Carve thinly", 10)
    return a_dish(
        "pork", salt, roast, rest, carve, name="Shoulder of pork, cold", code="P", plating="On the long board.",
        ingredients=(_of("shoulder of pork", 2, "kg", salt.id, aisle="meat"),),
    )  # fmt: skip


def _broth() -> Dish:
    """Return a broth that begins to cool before the change; it is reheated and held hot."""
    boil = a_step(
        "broth.boil", "Boil the onions", 60, attention=Attention.HANDS_OFF, uses=(a_use(StationKind.BURNER),),
        vessels=(VesselUse("pot"),),
    )  # fmt: skip
    cool = hands_off(
        "broth.cool", Span(20, 40, 60), does="Cool the broth in ice", food=FoodCare(Effect.COOL),
        vessels=(VesselUse("pot"),),
    )  # fmt: skip
    again = a_step(
        "broth.reheat", "Reheat the broth", 20, attention=Attention.HANDS_OFF, uses=(a_use(StationKind.BURNER),),
        doneness=Doneness("steaming", 75), food=FoodCare(Effect.REHEAT),
    )  # fmt: skip
    return a_dish(
        "broth", boil, cool, again, name="Onion broth", code="O", keep=Keep(90, Wait(Holding.HOT)),
        ingredients=(_of("onions", 1500, "g", boil.id, aisle="vegetables"),), allergens=("celery",),
    )  # fmt: skip


def _toast(change: int) -> Dish:
    """Return what is served half an hour after the change."""
    fry = a_step("toast.fry", "Fry the toasts", 10, uses=(a_use(StationKind.BURNER),), vessels=(VesselUse("pan"),))
    return a_dish(
        "toast", fry, name="Watch toasts", code="W", course=change + 30, keep=Keep(30, Wait(Holding.COUNTER)),
        ingredients=(_of("butter", 40, "g", fry.id, aisle="dairy"), _of("stale bread", 8, "", fry.id)),
    )  # fmt: skip


def _salad() -> tuple[Dish, Dish]:
    """Return a salad whose leaves are boxed before the change, and peppers for it, grilled over coals after it."""
    wash = a_step("salad.wash", "Wash the leaves", 15, vessels=(VesselUse("bowl"),))
    dress = a_step("salad.dress", "Dress the leaves", 10, vessels=(VesselUse("bowl"),))
    grill = a_step(
        "pepper.grill", "Char the peppers", 15, attention=Attention.TENDED, uses=(a_use(StationKind.GRILL, 2),),
        touches=(Touch(7, 1, "Turn them"),),
    )  # fmt: skip
    salad = a_dish(
        "salad", wash, dress, name="Leaves and peppers", code="L", keep=Keep(20, Wait(Holding.COUNTER)),
        ingredients=(_of("mixed leaves", 300, "g", wash.id, aisle="vegetables"),), allergens=("mustard",),
    )  # fmt: skip
    return salad, a_dish(
        "pepper", grill, name="Charred peppers", code="C", served=False,
        ingredients=(_of("peppers", 6, "", grill.id, aisle="vegetables"),),
    )  # fmt: skip


@cache
def a_night(name: str) -> tuple[Plan, Timetable]:
    """Return a plan and its timetable, laid by hand around the minute of the change."""
    night = NIGHTS[name]
    cold, change = Wait(Holding.FRIDGE, _shelf()), night.change
    links = (
        a_link("bread.mix", "bread.prove", most=60),
        a_link("bread.prove", "bread.shape", most=60),
        a_link("bread.shape", "bread.slash", most=120),
        a_link("bread.slash", "bread.bake", most=120),
        a_link("pork.salt", "pork.roast", most=1440, wait=Wait(Holding.FRIDGE, _shelf(raw=True))),
        a_link("pork.roast", "pork.rest", most=0),
        a_link("pork.rest", "pork.carve", most=1440, wait=cold),
        a_link("broth.boil", "broth.cool", most=30),
        a_link("broth.cool", "broth.reheat", most=2880, wait=cold),
        a_link("salad.wash", "salad.dress", most=900, wait=cold),
        a_link("pepper.grill", "salad.dress", most=900),
    )
    kitchen = a_kitchen(
        stations=(
            an_oven(name="Big oven"), *burners(2), a_fridge(Shelf(2000, 26), Shelf(2000, 18), Shelf(2000, 18)),
            a_fire(name="Coal grill"), a_room(),
        ),
        cooks=(a_cook("ann", night=None), a_cook("ben", night=None)),
        vessels=(
            a_vessel("bowl", 2, name="Mixing bowl"), a_vessel("pot", name="Tall pot", size="6 l"),
            a_vessel("pan", name="Flat pan"),
        ),
    )  # fmt: skip
    dishes = (_toast(change), _bread(), _broth(), _pork(), *_salad())
    plan = a_plan(
        *dishes, links=links, kitchen=kitchen, plating=night.plating, zone=night.zone, name="Night of the clocks",
        manner=Manner.SAFE,
    )  # fmt: skip
    plan = replace(plan, menu=replace(plan.menu, guests=(Guest("Ida", allergies=("mustard",)),)))
    return plan, _laid(plan, change)


def _laid(plan: Plan, change: int) -> Timetable:
    starts: dict[str, int | tuple[int, ...]] = {
        "pork.salt": change - 240,
        "bread.mix": change - 150,
        "broth.boil": change - 150,
        "bread.prove": change - 130,
        "broth.cool": change - 90,
        "pork.roast": change - 60,
        "bread.shape": change - 30,
        "salad.wash": change - 30,
        "toast.fry": change + 15,
        "bread.slash": change + 30,
        "pork.rest": change + 30,
        "pepper.grill": change + 30,
        "bread.bake": (change + 50, change + 90),
        "broth.reheat": -60,
        "salad.dress": -20,
        "pork.carve": -15,
    }
    ben = ("broth.boil", "salad.wash", "toast.fry", "pepper.grill", "salad.dress")
    shelves = {"pork.salt": 0, "pork.rest": 1, "broth.cool": 2, "salad.wash": 2}
    return laid(
        plan,
        starts,
        cooks=dict.fromkeys(ben, "ben"),
        stays={step: _on_shelf(index) for step, index in shelves.items()},
        spots={"bread.prove": _on_shelf(1), "toast.fry": (spot("burner-2"),)},
        heatings=(
            heating("oven", change - 71, change - 60, 120),
            heating("grill", change + 5, change + 30, 0, "ben"),
        ),
        washings=(washing("bowl", change + 25, "bread.mix", cook="ben"),),
    )


def _on_shelf(index: int) -> tuple[Spot, ...]:
    return (spot("fridge", 1, index),)
