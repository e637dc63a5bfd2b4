"""Acceptance scenarios of fridge and days ahead, placed by the scheduler; arithmetic beside each answer."""

from dataclasses import replace

import pytest

from core.plan.decisions import Choice, LengthOf, Pin
from core.plan.kitchen import Shelf, Station, StationKind
from core.plan.step import Alternative, ClockTime, Holding, Manner, Span, Use, Wait
from core.timetable.clash import ClashKind
from tests.scenarios.arranged import SERVED, answer, at, impossible, only_clash, times
from tests.support.builders import (
    a_bench,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    hands_off,
)

# ---- F8: thaw and dry brine


def a_bird(asked: int | None = None, **fields):
    """A bird of 5.4 kg: 24 h for each 1.8 kg in the fridge, or an hour a kg in cold water; 24 h in salt."""
    fields.setdefault("choices", (Choice("bird.thaw", 0),))  # in the fridge, unless a test says otherwise
    water = Alternative("in cold water", Span(330, 345, 360))
    return a_bench(
        hands_off("bird.thaw", 3 * 24 * 60, alternatives=(water,), earliest=asked),
        hands_off("bird.brine", 24 * 60),
        hands_off("bird.roast", 150, clock=ClockTime(0, 14 * 60 + 30)),
        links=(a_link("bird.thaw", "bird.brine", 0, 0), a_link("bird.brine", "bird.roast")),
        plating=SERVED,
        transfer=0,
        **fields,
    )


def test_f8_counted_back_from_the_oven():
    # Saturday 14:30 - 24 h = Friday 14:30; - 72 h = Tuesday 14:30
    assert times(a_bird()) == {
        "bird.thaw": "Tue 14:30",
        "bird.brine": "Fri 14:30",
        "bird.roast": "14:30",
    }


def test_f8_on_thursday_the_fridge_is_too_slow():
    # Thursday 10:00 + 96 h is Monday 10:00
    impossible(a_bird(asked=at("Thu 10:00")))


def test_f8_cold_water_on_thursday_is_in_time():
    # Thursday 10:00 + 6 h = salt 16:00, ready Friday 16:00, in time for Saturday 14:30
    water = {"choices": (Choice("bird.thaw", 1),), "lengths": (LengthOf("bird.thaw", Manner.HIGH),)}
    plan = a_bird(asked=at("Thu 10:00"), pins=(Pin("bird.thaw", start=at("Thu 10:00")),), **water)
    assert times(plan) == {"bird.thaw": "Thu 10:00", "bird.brine": "Thu 16:00", "bird.roast": "14:30"}
    # left to itself it begins as late as it may: 14:30 on Friday less 6 h
    assert times(a_bird(asked=at("Thu 10:00"), **water))["bird.thaw"] == "Fri 08:30"


# ---- F9: Friday night's fridge

FRIDAY_NIGHT = ClockTime(1, 21 * 60)
COOL_BOX = Station("cool-box", "Cool box", StationKind.COLD_COUNTER, shelves=(Shelf(1750, 30),))
THINGS = {"panna-cotta": 1200, "pork": 1200, "braise": 900, "trout": 600, "dough": 600, "vegetables": 1000}


def night(*away: str, stacked: tuple[str, ...] = ()):
    """All stand from 21:00 to 7:00; three free shelves of 1,750 cm2; `away` in the cool box."""
    dishes = []
    for name, area in THINGS.items():
        kind = StationKind.COLD_COUNTER if name in away else StationKind.FRIDGE
        use = Use(kind, area=0 if name in stacked else area, raw=name == "pork")
        dishes.append(a_dish(name, hands_off(f"{name}.chill", 600, uses=(use,), clock=FRIDAY_NIGHT)))
    kitchen = a_kitchen(stations=(a_fridge(*[Shelf(1750, 30)] * 3), COOL_BOX))
    return a_plan(*dishes, kitchen=kitchen, plating=SERVED, transfer=0)


def test_f9_over_by_250():
    # 1,200 + 1,200 + 900 + 600 + 600 + 1,000 = 5,500 > 3 x 1,750 = 5,250
    clash = max(impossible(night()).clashes, key=lambda each: "all of the fridge" in each.sentence)
    assert (clash.kind, clash.by) == (ClashKind.OVER_FULL, 250)


def test_f9_by_sum_it_fits_and_not_by_shelf():
    # 4,500 of 5,250; 1,200 | 1,200 | 900 + 600 leave 550, 550, 250: no place for the tub of 600
    outcome = impossible(night("vegetables"))
    assert all("all of the fridge" not in each.sentence for each in outcome.clashes)
    assert {each.kind for each in outcome.clashes} == {ClashKind.OVER_FULL}


@pytest.mark.parametrize("plan", [night("vegetables", "dough"), night("vegetables", stacked=("trout",))])
def test_f9_the_dough_moved_or_the_trout_on_a_board_mends_it(plan):
    times(plan)
    found = answer(plan).timetable.at
    assert [spot.shelf for spot in found["pork.chill", 0].spots] == [0]  # raw, the lowest


# ---- F10: the dessert must set


def mousse(lamb_out: str = "15:30", course: str = "21:00"):
    """The lamb stands where the mousse is to set for 6 h, until it leaves."""
    use = a_use("fridge", area=1000, height=5)
    minute = at(lamb_out) + 19 * 60 - 60
    lamb = a_dish("lamb", hands_off("lamb.keep", 60, uses=(use,), clock=ClockTime(0, minute)),
                  hands_off("lamb.roast", 180))  # fmt: skip
    sweet = a_dish("mousse", hands_off("mousse.set", 360, uses=(use,)), course=at(course))
    links = (a_link("lamb.keep", "lamb.roast", wait=Wait(Holding.COUNTER)),)
    kitchen = a_kitchen(stations=(a_fridge(Shelf(1000, 10)),))
    opens = at("09:30")  # nobody makes it the night before
    return a_plan(lamb, sweet, links=links, kitchen=kitchen, plating=SERVED, transfer=0, opens=opens)


def mousse_in_the_morning(**fields):
    plan = mousse(**fields)
    sweet = plan.menu.dishes[1]
    later = replace(sweet.steps[0], earliest=at("14:45"))  # the mousse is not made sooner
    dishes = (plan.menu.dishes[0], replace(sweet, steps=(later,)))
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


def test_f10_half_an_hour_late():
    # 15:30 + 6 h = 21:30, against 21:00
    outcome = impossible(mousse_in_the_morning())
    clash = only_clash(outcome)
    assert (clash.kind, clash.start, clash.end, clash.by) == (ClashKind.LATE, at("21:00"), at("21:30"), 30)
    assert outcome.timetable.at["mousse.set", 0].start == at("15:30")


def test_f10_2130_is_the_earliest_serving():
    assert times(mousse_in_the_morning(course="21:30"))["mousse.set"] == "15:30"
    impossible(mousse_in_the_morning(course="21:29"))


def test_f10_the_shelf_is_needed_by_1500():
    assert times(mousse_in_the_morning(lamb_out="15:00"))["mousse.set"] == "15:00"
    impossible(mousse_in_the_morning(lamb_out="15:01"))


# ---- F20: a by-product feeds another dish


@pytest.mark.parametrize(
    ("manner", "culture", "warm"),
    [(Manner.LIKELY, "Fri 14:10", "Fri 14:02"), (Manner.SAFE, "Fri 10:10", "Fri 10:02")],
)
def test_f20_buttermilk_from_the_butter_feeds_the_panna_cotta(manner, culture, warm):
    butter = a_dish(
        "butter",
        a_step("butter.warm", minutes=8),
        hands_off("butter.culture", (16 * 60, 20 * 60, 24 * 60)),
        a_step("butter.churn", minutes=25),
        served=False,
    )
    cream = a_dish(
        "panna-cotta",
        a_step("panna-cotta.warm", minutes=10),
        hands_off("panna-cotta.cool", 30),
        a_step("panna-cotta.pour", minutes=10),
        hands_off("panna-cotta.set", 6 * 60),
        course=105,
    )
    links = (
        a_link("butter.warm", "butter.culture", 0, 0),
        a_link("butter.culture", "butter.churn", 4 * 60, 48 * 60),
        a_link("butter.churn", "panna-cotta.pour"),
        a_link("panna-cotta.warm", "panna-cotta.cool"),
        a_link("panna-cotta.cool", "panna-cotta.pour"),
        a_link("panna-cotta.pour", "panna-cotta.set"),
    )
    plan = a_plan(butter, cream, links=links, plating=SERVED, transfer=0, manner=manner)
    # 20:45 - 6 h = in the fridge 14:45; - 10 = buttermilk 14:35; - 25 = churn 14:10; - 4 h = chill 10:10;
    # - 20 h = culture Friday 14:10 (- 24 h: 10:10); - 8 = warm 14:02 (10:02). Cream: 14:35 - 30 - 10 = 13:55
    assert times(plan) == {
        "butter.warm": warm,
        "butter.culture": culture,
        "butter.churn": "14:10",
        "panna-cotta.warm": "13:55",
        "panna-cotta.cool": "14:05",
        "panna-cotta.pour": "14:35",
        "panna-cotta.set": "14:45",
    }
    assert answer(plan).timetable.at["butter.culture", 0].end == at("10:10")
