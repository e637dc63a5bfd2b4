"""A plan that uses every part of the model, for the store's tests and for the approved file of each version."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from core.measures.quantity import Quantity
from core.plan.decisions import Choice, Decisions, LengthOf, Order, Pin, Wishes
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.kitchen import Cook, Heater, Kitchen, Shelf, Station, StationKind, Vessel, Window
from core.plan.menu import Dish, Guest, Ingredient, Link, LinkKind, Menu, Stock
from core.plan.plan import Plan
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Manner,
    Span,
    Step,
    Touch,
    Use,
    VesselUse,
    Wait,
    Yield,
)
from core.store.kept import KeptText
from tests.support.builders import a_moment

OLDER_MARK = "7b2a0778-815e-53a8-a3b8-43204c55189f"
"""The mark that an older file of this plan gets: the same from every version, since it is of name, time and dishes."""


def full_plan() -> Plan:
    """Return a plan with something in every table and every column."""
    return Plan(
        "Midwinter table",
        a_moment(),
        _menu(),
        _kitchen(),
        _decisions(),
        transfer=1,
        opens=-3 * 24 * 60,
        mark="0f6ae3b2-6a0e-4f0c-9a55-2f1d5c3b7e10",
    )


def fourth_plan() -> Plan:
    """Return what of it version 4 could say: all but the mark, which its file gets when it is brought up to date."""
    return replace(full_plan(), mark=OLDER_MARK)


def first_plan() -> Plan:
    """Return what of it version 1 could say, the rest as it was taken for granted: what its file holds."""
    plan = third_plan()
    kitchen = replace(
        plan.kitchen,
        stations=tuple(_first_station(each) for each in plan.kitchen.stations),
        vessels=tuple(replace(each, by_hand=True) for each in plan.kitchen.vessels),
        walk=1,
    )
    dishes = tuple(
        replace(dish, steps=tuple(replace(step, yields=None) for step in dish.steps)) for dish in plan.menu.dishes
    )
    wishes = replace(plan.decisions.wishes, sleep_until=8 * 60)
    return replace(
        plan,
        menu=replace(plan.menu, dishes=dishes),
        kitchen=kitchen,
        decisions=replace(plan.decisions, wishes=wishes),
    )


def third_plan() -> Plan:
    """Return what of it versions 2 and 3 could say, the rest as it was taken for granted: what their files hold."""
    plan = fourth_plan()
    kitchen = replace(
        plan.kitchen,
        stations=tuple(_third_station(each) for each in plan.kitchen.stations),
        vessels=tuple(replace(each, fits=()) for each in plan.kitchen.vessels),
        room=None,
    )
    dishes = tuple(
        replace(
            dish,
            ingredients=tuple(
                replace(each, pieces=0, food=None, arrives=None, thick=0) for each in dish.ingredients
            ),
            steps=tuple(replace(each, food=None) for each in dish.steps),
            scale=None,
            pan="",
            pan_wanted="",
        )
        for dish in plan.menu.dishes
    )
    decisions = replace(plan.decisions, rules="")
    return replace(plan, menu=Menu(dishes, plan.menu.links), kitchen=kitchen, decisions=decisions)


def sample_days() -> tuple[KeptText, ...]:
    """Return the days kept in the approved files from version 3 on."""
    timetable = '{"cookday_timetable": 1, "placed": [{"step": "beans.soak", "start": -900, "length": 6}]}'
    return (
        KeptText("calm", timetable, "2026-09-20T08:15:00+00:00", "0123456789abcdef01234567"),
        KeptText("später auf", timetable.replace("-900", "-870"), "2026-09-21T17:40:12+00:00", "", current=True),
    )


def _first_station(station: Station) -> Station:
    heater = station.heater and replace(station.heater, full=0)
    return replace(station, heater=heater, laying=5, fires=1, not_with=())


def _third_station(station: Station) -> Station:
    heater = station.heater and replace(station.heater, offset=0)
    return replace(station, heater=heater, wide=0, deep=0, keeps_at=None)


def _kitchen() -> Kitchen:
    heater = Heater(60, 240, ((100, 7), (200, 16)), 4.5, 3.25, 20, 18, full=15, offset=-15)
    shelves = (Shelf(1800, 24, "lowest"), Shelf(1500, 16))
    return Kitchen(
        "Mill house",
        (
            Station(StationId("oven"), "Oven", StationKind.OVEN, 2, heater=heater, fan=True, wide=46, deep=38),
            Station(StationId("fridge"), "Fridge", StationKind.FRIDGE, shelves=shelves, keeps_at=4),
            Station(StationId("ring-1"), "Front ring", StationKind.BURNER),
            Station(
                StationId("cool-box"),
                "Cool box",
                StationKind.COLD_COUNTER,
                3,
                place="porch",
                hours=(Window(0, 480, 1500),),
            ),
            Station(
                StationId("grate"),
                "Grate",
                StationKind.GRILL,
                6,
                place="yard",
                lighting=25,
                burns=70,
                laying=8,
                fires=3,
                not_with=(StationId("ring-1"), StationId("oven")),
            ),
        ),
        (
            Vessel(VesselId("casserole"), "Casserole", 2, "5 l", 4, fits=(StationId("oven"), StationId("ring-1"))),
            Vessel(VesselId("tray"), "Tray", washing=0, by_hand=False),
        ),
        (
            Cook(CookId("ilse"), "Ilse", ("knife",), breaks=(Window(0, 780, 840),)),
            Cook(CookId("tomas"), "Tomas", present=(Window(1, 600, 1200), Window(0, 540, 1440)), night=None),
        ),
        walk=2,
        room=23,
    )


def _menu() -> Menu:
    return Menu(
        (_beans(), _roots(), _cream()),
        (
            Link(
                StepId("beans.soak"), StepId("beans.simmer"), 480, 1440, wait=Wait(Holding.FRIDGE, _shelf())
            ),
            Link(StepId("beans.simmer"), StepId("beans.bake"), 0, 60, wait=Wait(Holding.VESSEL)),
            Link(StepId("roots.cut"), StepId("roots.roast"), 0, 120),
            Link(StepId("beans.bake"), StepId("roots.roast"), 0, 240, LinkKind.END_TO_END),
            Link(StepId("beans.simmer"), StepId("cream.whip"), 0, None, brings=Quantity(Fraction(1, 3), "l")),
        ),
        (
            Stock(
                "dried beans",
                Quantity(Fraction(200), "g"),
                Quantity(Fraction(500), "g"),
                "bag",
                Fraction(19, 20),
                "dry goods",
                300,
            ),
            Stock("mustard"),
        ),
        (Guest("Orla", 1, ("mustard", "celery"), ("beans",), "pregnant"), Guest("the Reeds", 4)),
        covers=9,
    )


def _beans() -> Dish:
    bake = Use(StationKind.OVEN, heat=Heat(160, 150, 175, steady=False))
    slower = Use(StationKind.OVEN, station=StationId("oven"), heat=Heat(130, 125, 140))
    casserole = (VesselUse(VesselId("casserole")),)
    return Dish(
        DishId("beans"),
        "Baked beans “à la” mill",
        (
            Step(StepId("beans.soak"), "Soak the beans", Span(5, 6, 8), hands=1, note="cold water"),
            Step(
                StepId("beans.simmer"),
                "Simmer",
                Span(50, 60, 75),
                Attention.TENDED,
                touches=(Touch(20, 2, "stir"), Touch(1, 1, "taste", from_end=True, skill="knife")),
                uses=(Use(StationKind.BURNER),),
                vessels=casserole,
                doneness=Doneness("soft, whole", 92, 5),
                clock=ClockTime(0, 900),
                yields=Yield("cooking water", Quantity(Fraction(3, 2), "l")),
            ),
            Step(
                StepId("beans.bake"),
                "Bake",
                Span(70, 80, 95),
                Attention.HANDS_OFF,
                put_in=2,
                take_out=1,
                uses=(bake,),
                vessels=casserole,
                alternatives=(Alternative("slow", Span(120, 130, 150), (slower,)),),
                keeps=Keep(30, Wait(Holding.VESSEL)),
            ),
        ),
        code="B",
        written_for=6,
        wanted=10,
        keep=Keep(45, Wait(Holding.HOT)),
        ingredients=(
            Ingredient(
                "dried beans", Quantity(Fraction(500), "g"), "picked over", StepId("beans.soak"), "dry goods", pieces=2,
                food=FoodKind.GRAIN, arrives=Arrival.ROOM, thick=9,
            ),
            Ingredient("salt", Quantity(Fraction(8), "g"), on_hand=True, per_kg_of="dried beans"),
            Ingredient("mustard", allergens=("mustard",)),
        ),
        allergens=("mustard", "celery"),
        plating="from the casserole",
        note="better\nthe next day",
        scale=Fraction(5, 3),
        pan="round 26 cm",
        pan_wanted="GN 1/2-65",
    )


def _roots() -> Dish:
    return Dish(
        DishId("roots"),
        "Roast roots",
        (
            Step(
                StepId("roots.cut"),
                "Cut the roots",
                Span(15, 20, 30),
                skill="knife",
                least_piece=5,
                earliest=-600,
            ),
            Step(
                StepId("roots.roast"),
                "Roast",
                Span(35, 40, 50),
                Attention.HANDS_OFF,
                uses=(Use(StationKind.OVEN, heat=Heat(200, 185, 215)),),
                vessels=(VesselUse(VesselId("tray")),),
                loads=Loads(24, 16, 3),
                latest=-5,
            ),
        ),
    )


def _cream() -> Dish:
    return Dish(
        DishId("cream"),
        "Horseradish cream",
        (
            Step(
                StepId("cream.whip"), "Whip", Span.of(6), food=FoodCare(Effect.PREPARE, 30, Container.TRAY)
            ),
        ),
        course=75,
        served=False,
        keep=Keep(None, Wait(Holding.FRIDGE, _shelf())),
    )


def _shelf() -> Use:
    return Use(StationKind.FRIDGE, area=600, height=12, raw=True)


def _decisions() -> Decisions:
    return Decisions(
        Manner.LIKELY,
        (
            Pin(StepId("beans.bake"), 0, -200, StationId("oven"), CookId("ilse")),
            Pin(StepId("roots.roast"), 1, station=StationId("oven")),
            Pin(StepId("roots.cut"), start=-400),
        ),
        (Choice(StepId("beans.bake"), 1),),
        (LengthOf(StepId("roots.roast"), Manner.HIGH), LengthOf(StepId("beans.simmer"), Manner.SAFE)),
        (Order(StepId("roots.cut"), StepId("cream.whip")), Order(StepId("beans.soak"), StepId("roots.cut"))),
        Wishes(7, 6, 5, 4, 3, 9 * 60 + 15),
        "uk",
    )
