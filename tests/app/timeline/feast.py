"""A small feast with a timetable placed by hand, so that every minute in these tests can be read off here.

Plating is Saturday 26 September 2026, 19:30 in London. Offsets: -130 is 17:20, -55 is 18:35.
"""

from __future__ import annotations

from core.plan.kitchen import Station, StationKind
from core.plan.plan import Plan
from core.plan.step import Attention, Holding, Keep, Touch, Wait
from core.timetable.clash import Clash, ClashKind
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    at_oven,
    burners,
    hands_off,
)

ANN, BEN = "ann", "ben"
COLD = Wait(Holding.FRIDGE, a_use(StationKind.FRIDGE, area=800, height=8))


def the_plan(**fields) -> Plan:
    """Return the plan: gratin, pork, beans, curd."""
    gratin = a_dish(
        "gratin",
        a_step("gratin.slice", "Peel and slice", 20),
        a_step(
            "gratin.bake",
            "Bake on the upper rack",
            75,
            attention=Attention.TENDED,
            touches=(Touch(45, 2, "foil off"),),
            uses=(at_oven(160),),
        ),
        name="Potato gratin",
        keep=Keep(40),
    )
    pork = a_dish(
        "pork",
        hands_off("pork.roast", 90, does="Roast to 60 °C", uses=(at_oven(160),)),
        a_step("pork.carve", "Carve", 10),
        name="Roast pork",
        keep=Keep(10),
    )
    beans = a_dish(
        "beans",
        hands_off("beans.boil", 15, does="Bring water to the boil", uses=(a_use("burner"),)),
        a_step("beans.cook", "Cook the beans", 5, uses=(a_use("burner"),)),
        name="Green beans",
        code="GB",
        keep=Keep(30),
    )
    curd = a_dish(
        "curd",
        a_step("curd.mix", "Mix", 10),
        hands_off("curd.set", 480, does="Set in the fridge", uses=(COLD.use,)),
        name="Lemon curd",
        keep=Keep(None, COLD),
    )
    links = (
        a_link("gratin.slice", "gratin.bake"),
        a_link("pork.roast", "pork.carve", 30, 60),
        a_link("beans.boil", "beans.cook", 0, 20),
        a_link("curd.mix", "curd.set", 0, 30),
    )
    kitchen = a_kitchen(
        stations=(
            an_oven(name="Oven"),
            Station("second-oven", "Second oven", StationKind.OVEN, 2, heater=an_oven().heater),
            *burners(3),
            a_fridge(),
        ),
        cooks=(a_cook(ANN), a_cook(BEN)),
    )
    return a_plan(gratin, pork, beans, curd, links=links, kitchen=kitchen, name="Small feast", **fields)


def the_timetable() -> Timetable:
    """Return its timetable. The gratin waits 55 minutes where 40 are allowed: its tail breaks at -15."""
    oven, fridge = Spot("oven"), Spot("fridge", 1, 1)
    placed = (
        Placed("gratin.slice", -150, 20, hands=(Hand(-150, 20, ANN),)),
        Placed(
            "gratin.bake",
            -130,
            75,
            spots=(oven,),
            setting=160,
            hands=(Hand(-130, 1, ANN), Hand(-85, 2, BEN), Hand(-56, 1, ANN)),
        ),
        Placed("pork.roast", -160, 90, spots=(oven,), setting=160),
        Placed("pork.carve", -12, 10, hands=(Hand(-12, 10, BEN),)),
        Placed("beans.boil", -40, 15, spots=(Spot("burner-1"),)),
        Placed("beans.cook", -25, 5, spots=(Spot("burner-2"),), hands=(Hand(-25, 5, ANN),)),
        Placed("curd.mix", -1000, 10, hands=(Hand(-1000, 10, ANN),)),
        Placed("curd.set", -990, 480, spots=(fridge,)),
    )
    stays = (Stay("curd.set", None, -510, 0, spots=(fridge,)),)
    return Timetable(placed, stays, (Heating("oven", -174, -160, 160, ANN),))


def waited_too_long() -> Clash:
    """Return the clash that the gratin's wait is."""
    return Clash(
        ClashKind.WAITED_TOO_LONG, "The gratin waits 55 min, 15 min too long.", -55, 0, ("gratin.bake",), by=15
    )
