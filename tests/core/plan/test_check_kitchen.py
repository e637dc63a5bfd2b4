"""Checks of the kitchen by itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.check import problems
from core.plan.ids import StationId
from core.plan.kitchen import Heater, Shelf, Window
from core.plan.plan import Plan
from tests.support.builders import (
    GRILL,
    OVEN,
    a_cook,
    a_fire,
    a_fridge,
    a_kitchen,
    a_plan,
    a_vessel,
    an_oven,
)

CASES = [
    pytest.param(
        a_plan(kitchen=a_kitchen(name="")),
        "The kitchen's name is empty; write one.",
        id="kitchen without a name",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(an_oven("My oven"),))),
        'The station My oven has the id "My oven"; write it with small letters, digits, - and _, up to'
        " 64 of them.",
        id="station id",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(vessels=(a_vessel(name=""),))),
        "The name of the vessel pot is empty; write one.",
        id="vessel without a name",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook("ann"), a_cook("ann", name="Anna")))),
        "The cooks Ann and Anna bear the same id ann; give one of them another.",
        id="cook twice",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(an_oven(place="\x00"),))),
        "A text of Oven has a character that cannot be shown; type it again.",
        id="place of a station",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(racks=0)),
        "Oven has 0 places; give it 1 to 100000, or take it out.",
        id="station without units",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(a_fridge(Shelf(900, 20), Shelf(0, 20)),))),
        "Shelf 2 of Fridge, counted from below, has 0 cm² and 20 cm of height; give it 1 to 100000 of"
        " both, or take the shelf out.",
        id="shelf without area",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), lighting=-1),))),
        "Grill takes −1 min to light and burns for 1 h; lighting takes 0 or more, burning 1 or more.",
        id="lighting below 0",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), burns=0),))),
        "Grill takes 25 min to light and burns for 0 min; lighting takes 0 or more, burning 1 or more.",
        id="burns for nothing",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(250, 50)))),
        "Oven heats from 250 to 50 °C; give the lower setting first, both between -60 and 600.",
        id="heater upside down",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(up=0.0)))),
        "Oven warms by 0.0 and cools by 5.0 °C a minute; both must be more than 0.",
        id="heater that never warms",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(down=float("nan"))))),
        "Oven warms by 5.0 and cools by nan °C a minute; both must be more than 0.",
        id="heater that is no number",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(keep_on=-1)))),
        "Oven is kept on through pauses of −1 min; give 0 or more.",
        id="heater kept on below 0",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(cold=-100)))),
        "Oven is -100 °C when cold; give the temperature of its room.",
        id="cold beyond reason",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(from_cold=((200, 18), (180, 20)))))),
        "Oven reaches 180 °C in 20 min from cold, and 200 °C in 18 min; let temperature and minutes"
        " rise from point to point.",
        id="points not rising",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(from_cold=((180, 20), (200, 18)))))),
        "Oven reaches 200 °C in 18 min from cold, and 180 °C in 20 min; let temperature and minutes"
        " rise from point to point.",
        id="minutes not rising",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(full=101)))),
        "Oven takes 101 % longer when it is full; give 0 to 100.",
        id="more than twice as long when full",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(heater=Heater(full=-1)))),
        "Oven takes -1 % longer when it is full; give 0 to 100.",
        id="shorter when full",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), laying=26),))),
        "A cook lays and lights the fire of Grill for 26 min, and it is ready after 25 min; give the cook"
        " 0 to 25 min.",
        id="laying longer than lighting",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), laying=-1),))),
        "A cook lays and lights the fire of Grill for −1 min, and it is ready after 25 min; give the cook"
        " 0 to 25 min.",
        id="laying below 0",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), fires=0),))),
        "Grill may be lit 0 times; give 1 to 9, or take it out.",
        id="never lit",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(replace(a_fire(), fires=10),))),
        "Grill may be lit 10 times; give 1 to 9, or take it out.",
        id="lit all day",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(not_with=(OVEN,)))),
        "Oven is never to be used at the same time as itself; name another station.",
        id="not with itself",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(not_with=(StationId("stove"),)))),
        'Oven is never to be used at the same time as "stove", which the kitchen has not; name one of its'
        " stations.",
        id="not with a station that is not there",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(oven=an_oven(not_with=(GRILL, GRILL)))),
        "Oven names Grill twice, as never used at the same time; once is enough.",
        id="not with one twice",
    ),
    pytest.param(
        a_plan(kitchen=replace(a_kitchen(), walk=61)),
        "The way from one place of the kitchen to another takes 1 h 1 min; give 0 to 60 min.",
        id="a long walk",
    ),
    pytest.param(
        a_plan(kitchen=replace(a_kitchen(), walk=-1)),
        "The way from one place of the kitchen to another takes −1 min; give 0 to 60 min.",
        id="a walk below 0",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(stations=(an_oven(hours=(Window(0, 600, 600),)),))),
        "Oven is there from 10:00 to an end that is not later; let it end after it begins.",
        id="hours of a station",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(vessels=(a_vessel(size="\x00"),))),
        "The size of Pot has a character that cannot be shown; type it again.",
        id="size of a vessel",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(vessels=(a_vessel(count=0),))),
        "There are 0 of Pot; give 1 to 100000, or take it out.",
        id="no vessels of a kind",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(vessels=(a_vessel(washing=-1),))),
        "Washing Pot takes −1 min; give 0 (none) or more.",
        id="washing below 0",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook("ann", " "),))),
        "A skill of Ann is empty or cannot be shown; write it again, or take it out.",
        id="empty skill",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook(night=(60, 60)),))),
        "The night of Ann goes from minute 60 to minute 60 of the day; give two different times of day,"
        " or no night.",
        id="night without length",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook(night=(1440, 60)),))),
        "The night of Ann goes from minute 1440 to minute 60 of the day; give two different times of"
        " day, or no night.",
        id="night beyond the day",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook(present=(Window(0, -5, 60),)),))),
        "Ann is there from minute -5 of a day; give a time of day, 00:00 to 23:59.",
        id="presence from no time of day",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook(breaks=(Window(20, 600, 30_000),)),))),
        "Ann has a break from 10:00 for more than 14 days; write several spans instead.",
        id="break of weeks",
    ),
    pytest.param(
        a_plan(kitchen=a_kitchen(cooks=(a_cook(breaks=(Window(500, 600, 660),)),))),
        "Ann has a break more than a year from plating; give a nearer day.",
        id="break beyond a year",
    ),
]


@pytest.mark.parametrize(("plan", "sentence"), CASES)
def test_one_thing_wrong_gives_one_sentence_with_the_mend(plan: Plan, sentence: str) -> None:
    assert problems(plan) == (sentence,)


def test_what_is_at_the_limit_is_allowed() -> None:
    grill = replace(a_fire(), laying=25, fires=9, not_with=(OVEN,))
    oven = an_oven(heater=Heater(full=100), not_with=(GRILL,))
    kitchen = a_kitchen(stations=(grill, oven))
    assert problems(a_plan(kitchen=replace(kitchen, walk=60))) == ()
    assert problems(a_plan(kitchen=replace(kitchen, walk=0))) == ()


def test_a_quick_fire_of_which_nothing_is_said_is_laid_all_the_while() -> None:
    quick = replace(a_fire(), lighting=3)
    assert quick.laying == 5
    assert problems(a_plan(kitchen=a_kitchen(stations=(quick,)))) == ()
