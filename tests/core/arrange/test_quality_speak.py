"""The sentences of quality: the thing, the minutes, the clock time, and nothing that is not in the fields."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.arrange.bounds import Bound, Proof
from core.arrange.outcome import WishKind
from core.arrange.quality import Difference, DishWaits, Price, Quality, WishQuality
from core.arrange.quality_parts import Part, PartKind
from core.arrange.several import Several
from core.arrange.speak.quality import say_price, say_several, say_wish
from core.plan.decisions import Wishes
from core.plan.ids import CookId, DishId, StationId, StepId
from core.timetable.timetable import Timetable
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, an_oven

FRESH, CALM, OVEN, SLEEP, KEEP = WishKind
PLAN = a_plan(
    a_dish("gratin", a_step("gratin.bake", "Bake")),
    a_dish("beans", a_step("beans.boil", "Boil")),
    a_dish("tart", a_step("tart.cut", "Cut")),
    a_dish("soup", a_step("soup.warm", "Warm")),
    kitchen=a_kitchen(stations=(an_oven(),)),
)


def a_wish(wish: WishKind, reached: int, *parts: Part, bound: int | None = None) -> WishQuality:
    proven = None if bound is None else Bound(bound, Proof.SOLVED)
    return WishQuality(wish, reached, reached, proven, parts)


def waits(dish: str, minutes: int) -> Part:
    return Part(PartKind.WAIT, minutes, DishId(dish))


def rush(step: str, minutes: int) -> Part:
    return Part(PartKind.RUSH, minutes, step=StepId(step))


def oven(kind: PartKind, at: int, setting: int) -> Part:
    return Part(kind, 1, station=StationId("oven"), at=at, setting=setting)


def test_waiting_is_named_dish_by_dish():
    wish = a_wish(FRESH, 97, waits("gratin", 60), waits("beans", 25), waits("tart", 10), waits("soup", 2), bound=40)
    assert say_wish(PLAN, wish) == (
        "Food that minds waits 1 h 37 min longer than it must: Gratin 1 h; Beans 25 min; Tart 10 min; other dishes"
        " 2 min. No plan has less than 40 min."
    )


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (a_wish(FRESH, 0, bound=0), "No food that minds waits longer than it must."),
        (a_wish(CALM, 0, bound=0), "Nobody has hands-on work between 18:45 and 19:30."),
        (a_wish(OVEN, 0, bound=0), "Nothing has to be heated up."),
        (a_wish(SLEEP, 0, bound=0), "Nobody begins before 08:00 on any day."),
        (a_wish(KEEP, 0, bound=0), "Every step begins when it did."),
    ],
)
def test_nothing_to_be_wished_for_is_said_plainly(wish, said):
    assert say_wish(PLAN, wish) == said


def test_work_at_the_end_and_the_room_that_is_missing():
    tight = Part(PartKind.TIGHT, 4, step=StepId("beans.boil"), after=StepId("tart.cut"), cook=CookId("ann"), at=-12)
    wish = a_wish(CALM, 15, rush("gratin.bake", 10), rush("beans.boil", 5), tight, bound=15)
    assert say_wish(PLAN, wish) == (
        "15 min of hands-on work between 18:45 and 19:30: Gratin: Bake 10 min; Beans: Boil 5 min. No room at 19:18: if"
        " Beans: Boil takes its longest, Tart: Cut begins 4 min too late. No plan can do better."
    )


def test_many_places_without_room_are_counted():
    tight = [
        Part(PartKind.TIGHT, 4, step=StepId("beans.boil"), after=StepId("tart.cut"), at=-12 - number)
        for number in range(5)
    ]
    said = say_wish(PLAN, a_wish(CALM, 0, *tight))
    assert said.count("No room at") == 3
    assert said.endswith("Two more such places.")


def test_the_oven_is_told_turn_by_turn():
    parts = (
        oven(PartKind.HEATING, -240, 230),
        oven(PartKind.CHANGE, -150, 160),
        Part(PartKind.OFF, -5, step=StepId("gratin.bake"), setting=175),
        Part(PartKind.SOON, 12, station=StationId("oven")),
    )
    assert say_wish(PLAN, a_wish(OVEN, 2, *parts, bound=1)) == (
        "Heated from cold once: the oven to 230 °C for 15:30. Changed while hot once: the oven to 160 °C for 17:00."
        " Gratin: Bake at 175 °C, 5 °C cooler than written. The oven is on 12 min sooner than it must be."
        " No plan has less than 1 heating or change."
    )


def test_mornings_have_their_day():
    morning = Part(PartKind.MORNING, 50, at=-36 * 60 - 20)
    assert say_wish(PLAN, a_wish(SLEEP, 50, morning)) == (
        "The first hands begin at Fri 07:10, 50 min before 08:00."
    )


def test_moves_are_told_with_their_direction():
    parts = [Part(PartKind.MOVE, minutes, step=StepId("beans.boil")) for minutes in (-30, 20)]
    assert say_wish(PLAN, a_wish(KEEP, 50, *parts)) == (
        "2 steps begin at another minute, 50 min in all: Beans: Boil 30 min sooner; Beans: Boil 20 min later."
    )


def test_below_a_bound_only_a_clash_can_be():
    said = say_wish(PLAN, a_wish(FRESH, 5, waits("gratin", 5), bound=20))
    assert said.endswith("No plan without a clash has less than 20 min.")


def test_the_price_of_sleep_names_who_waits():
    differences = (Difference(SLEEP, 60, 0), Difference(FRESH, 10, 35), Difference(OVEN, 3, 3))
    price = Price(SLEEP, True, differences, (DishWaits(DishId("gratin"), 0, 25),), 4, Timetable())
    assert say_price(PLAN, price) == (
        "Nobody begins before 08:00, which nothing can beat: 25 min more waiting (Gratin 25 min);"
        " 4 steps begin at another minute."
    )


@pytest.mark.parametrize(
    ("differences", "said"),
    [
        (
            (Difference(FRESH, 90, 60), Difference(CALM, 10, 22), Difference(OVEN, 3, 5)),
            ("30 min less waiting (1 h in place of 1 h 30 min): 12 min more hands-on work between 18:45 and 19:30 and"
            " two more heatings or changes of the oven; 1 step begins at another minute."),
        ),
        (
            (Difference(CALM, 40, 30), Difference(SLEEP, 0, 45)),
            ("10 min less hands-on work between 18:45 and 19:30 (30 min are left): work begins 45 min sooner in the"
            " mornings; 1 step begins at another minute."),
        ),
        (
            (Difference(OVEN, 3, 2), Difference(KEEP, 0, 30)),
            ("The oven is brought to a temperature twice in place of three: steps move 30 min more; 1 step begins at"
            " another minute."),
        ),
        (
            (Difference(SLEEP, 90, 30), Difference(OVEN, 2, 3)),
            "Work begins 1 h later in the mornings: one heating or change more; 1 step begins at another minute.",
        ),
        (
            (Difference(KEEP, 90, 30), Difference(FRESH, 2, 2)),
            ("Steps move 30 min in all in place of 1 h 30 min: at no cost to the other wishes; 1 step begins at another"
            " minute."),
        ),
    ],
)
def test_every_wish_has_its_price(differences, said):
    assert say_price(PLAN, Price(differences[0].wish, False, differences, (), 1, Timetable())) == said


def test_plans_stand_side_by_side():
    quality = Quality((a_wish(FRESH, 35), a_wish(CALM, 20), a_wish(OVEN, 3), a_wish(SLEEP, 0)))
    offered = Several(SLEEP, Wishes(), Timetable(), quality)
    assert say_several(PLAN, offered) == (
        "Later start: 35 min of waiting, 20 min hands-on between 18:45 and 19:30, 3 heatings and changes of the oven,"
        " nobody before 08:00."
    )
    assert say_several(PLAN, replace(offered, favours=None)).startswith("As you weighed it: ")


def test_another_hour_to_sleep_until_is_said():
    plan = replace(PLAN, decisions=replace(PLAN.decisions, wishes=Wishes(sleep_until=9 * 60 + 30)))
    assert say_wish(plan, a_wish(SLEEP, 0)) == "Nobody begins before 09:30 on any day."
