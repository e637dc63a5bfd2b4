"""A small feast with all that a whole day has: a fire lit twice, a step in parts, another way, washing up.

Plating is 19:30 in London. Offsets: -120 is 17:30. The grill takes 30 minutes to light and burns for 50.
"""

from __future__ import annotations

from core.plan.kitchen import Heater, StationKind
from core.plan.plan import Plan
from core.plan.step import Alternative, Attention, Keep, Span, Touch, VesselUse
from core.timetable.timetable import Hand, Heating, Placed, Spot, Timetable, Washing
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
    hands_off,
)

ANN, BEN = "ann", "ben"


def the_plan(**fire) -> Plan:
    """Return the plan: a bird thawed and grilled, peppers grilled, potatoes peeled and dressed."""
    water = Alternative("Thaw in cold water", Span(40, 50, 60), (a_use(StationKind.ROOM, station="room"),))
    bird = a_dish(
        "bird",
        hands_off("bird.thaw", (300, 360, 400), does="Thaw the bird", uses=(at_oven(60),), alternatives=(water,)),
        a_step(
            "bird.grill",
            "Grill over coals",
            25,
            attention=Attention.TENDED,
            touches=(Touch(10, 2, "turn"),),
            uses=(a_use(StationKind.GRILL, 2, heat=240),),
        ),
        name="Grilled bird",
        code="B",
    )
    peppers = a_dish("peppers", hands_off("peppers.grill", 15, uses=(a_use(StationKind.GRILL, 4, heat=260),)), code="E")
    mash = a_dish(
        "mash",
        a_step("mash.peel", "Peel potatoes", 30, least_piece=10, vessels=(VesselUse("bowl"),), keeps=Keep(240)),
        a_step("mash.dress", "Dress", 10, vessels=(VesselUse("bowl"),)),
        name="Potato salad",
        code="P",
        keep=Keep(60),
    )
    kitchen = a_kitchen(
        stations=(
            an_oven(),
            a_fire(
                **{
                    "name": "Charcoal grill",
                    "places": 4,
                    "lighting": 30,
                    "burns": 50,
                    "fires": 2,
                    "heater": Heater(100, 300, from_cold=()),
                    **fire,
                }
            ),
            a_room(),
            a_fridge(),
        ),
        cooks=(a_cook(ANN), a_cook(BEN)),
        vessels=(a_vessel("bowl", name="Big bowl"), a_vessel("blender", by_hand=False)),
    )
    links = (a_link("bird.thaw", "bird.grill", 0, 90),)
    return a_plan(bird, peppers, mash, links=links, kitchen=kitchen, name="Terrace lunch", manner="likely")


THAW = Placed("bird.thaw", -150, 50, spots=(Spot("room"),), way=1)
GRILL = Placed(
    "bird.grill",
    -30,
    25,
    spots=(Spot("grill", 2),),
    setting=240,
    hands=(Hand(-30, 1, ANN), Hand(-20, 2, BEN), Hand(-6, 1, ANN)),
)
PEPPERS = Placed("peppers.grill", -100, 15, spots=(Spot("grill", 4),), setting=260)
PEEL = Placed("mash.peel", -180, 60, hands=(Hand(-180, 20, ANN), Hand(-130, 10, BEN)))
DRESS = Placed("mash.dress", -60, 10, hands=(Hand(-60, 10, BEN),))
FIRES = (Heating("grill", -130, -100, 0, ANN), Heating("grill", -70, -40, 0, BEN))
WASHED = Washing("bowl", -110, 5, "mash.peel", BEN)


def the_timetable() -> Timetable:
    """Return its timetable: fires burn from -100 to -50 and from -40 to 10."""
    return Timetable((THAW, GRILL, PEPPERS, PEEL, DRESS), (), FIRES, (WASHED,))
