"""Back-timing of acceptance scenarios by the network alone, as a cook works them out on paper."""

from itertools import pairwise

import pytest

from core.plan.decisions import Choice, LengthOf, Order
from core.plan.network import Network
from core.plan.network_limits import LimitKind
from core.plan.step import Alternative, ClockTime, Keep, Loads, Manner, Span
from tests.support.builders import a_bench, a_dish, a_link, a_plan, a_step, hands_off

SEVEN = "2026-09-26 19:00"  # a Saturday


def latest(plan, *steps):
    network = Network.of(plan)
    assert network.contradiction() is None
    return [f"{plan.wall(network.latest((step, 0))):%a %H:%M}" for step in steps]


def ends(plan, step):
    network = Network.of(plan)
    return f"{plan.wall(network.latest((step, 0)) + network.lengths.minutes[step, 0]):%a %H:%M}"


@pytest.mark.parametrize(
    ("manner", "into_the_oven"), [(Manner.LIKELY, "Sat 17:00"), (Manner.SAFE, "Sat 16:45")]
)
def test_f1_a_shoulder_of_lamb_with_its_rest(manner, into_the_oven):
    plan = a_bench(
        hands_off("lamb.roast", (80, 90, 105)),
        a_step("lamb.carve", minutes=10),
        links=(a_link("lamb.roast", "lamb.carve", 20, 60),),
        plating=SEVEN,
        manner=manner,
    )
    assert latest(plan, "lamb.roast", "lamb.carve") == [into_the_oven, "Sat 18:50"]
    assert ends(plan, "lamb.roast") == "Sat 18:30"


def test_f5_the_first_of_three_loads_is_too_old_and_two_larger_ones_are_not():
    def skewers(per_load):
        grill = hands_off("skewers.grill", 8, loads=Loads(24, per_load, 2))
        return a_plan(a_dish("skewers", grill, keep=Keep(12)), plating=SEVEN)

    network = Network.of(skewers(9))
    first = network.plan.wall(network.latest(("skewers.grill", 0)))
    assert f"{first:%H:%M}" == "18:32"
    found = network.contradiction()
    assert found.over == 20 - 12
    assert {limit.kind for limit in found.chain} == {LimitKind.KEEPS, LimitKind.LOADS, LimitKind.SERVED}
    assert Network.of(skewers(12)).contradiction() is None


def test_f6_one_pair_of_hands_in_the_only_order_that_fits():
    def end_of_the_day(*order):
        wanted = (("gravy", 8, 30), ("carve", 10, 10), ("salad", 3, 5), ("greens", 6, 5))
        dishes = [
            a_dish(dish, a_step(f"{dish}.do", minutes=minutes), keep=Keep(keeps))
            for dish, minutes, keeps in wanted
        ]
        steps = [f"{dish}.do" for dish in order]
        orders = tuple(Order(one, other) for one, other in pairwise(steps))
        return a_plan(*dishes, plating=SEVEN, orders=orders)

    right = end_of_the_day("gravy", "carve", "greens", "salad")
    assert latest(right, "gravy.do", "carve.do", "greens.do", "salad.do") == [
        "Sat 18:33",
        "Sat 18:41",
        "Sat 18:51",
        "Sat 18:57",
    ]
    wrong = Network.of(end_of_the_day("gravy", "carve", "salad", "greens")).contradiction()
    assert wrong.over == 1  # the salad would wait 6 of its 5 minutes
    assert "Salad" in wrong.sentence


def test_f7_a_spread_that_waiting_can_absorb_and_one_that_it_cannot():
    plan = a_plan(
        a_dish("braise", hands_off("braise.cook", (150, 180, 240)), keep=Keep(120)),
        a_dish("souffle", hands_off("souffle.bake", (22, 25, 28)), keep=Keep(2)),
        plating=SEVEN,
    )
    assert latest(plan, "braise.cook", "souffle.bake") == ["Sat 15:00", "Sat 18:35"]
    reserved = Network.of(plan).lengths.reserved
    assert (reserved["braise.cook"].early, reserved["souffle.bake"].early) == (90, 0)


def a_bird(**fields):
    """A bird of 5.4 kg: 24 h for each 1.8 kg in the fridge, or an hour a kg in cold water; 24 h in salt."""
    fields.setdefault("choices", (Choice("bird.thaw", 0),))  # in the fridge, unless a test says otherwise
    water = Alternative("in cold water", Span(330, 345, 360))
    thaw = hands_off("bird.thaw", 3 * 24 * 60, alternatives=(water,), earliest=fields.pop("asked", None))
    return a_bench(
        thaw,
        hands_off("bird.brine", 24 * 60),
        hands_off("bird.roast", 150, clock=ClockTime(0, 14 * 60 + 30)),
        links=(a_link("bird.thaw", "bird.brine"), a_link("bird.brine", "bird.roast")),
        plating=SEVEN,
        **fields,
    )


def test_f8_thawing_and_salting_a_bird_counted_back_from_the_oven():
    assert latest(a_bird(), "bird.brine", "bird.thaw") == ["Fri 14:30", "Tue 14:30"]


def test_f8_asked_on_thursday_only_cold_water_is_quick_enough():
    thursday_ten = -(2 * 24 + 9) * 60
    late = Network.of(a_bird(asked=thursday_ten)).contradiction()
    assert late.over == (72 + 24 - 52) * 60 - 30  # 96 h from Thursday 10:00, against 52 h 30 min until 14:30
    high = (LengthOf("bird.thaw", Manner.HIGH),)
    plan = a_bird(asked=thursday_ten, choices=(Choice("bird.thaw", 1),), lengths=high)
    network = Network.of(plan)
    assert network.contradiction() is None
    assert f"{plan.wall(network.earliest(('bird.brine', 0))):%a %H:%M}" == "Thu 16:00"


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
        a_link("butter.warm", "butter.culture"),
        a_link("butter.culture", "butter.churn", 4 * 60, 48 * 60),
        a_link("butter.churn", "panna-cotta.pour"),
        a_link("panna-cotta.warm", "panna-cotta.cool"),
        a_link("panna-cotta.cool", "panna-cotta.pour"),
        a_link("panna-cotta.pour", "panna-cotta.set"),
    )
    plan = a_plan(butter, cream, links=links, plating=SEVEN, manner=manner)
    assert latest(plan, "panna-cotta.set", "panna-cotta.pour", "butter.churn", "panna-cotta.warm") == [
        "Sat 14:45",
        "Sat 14:35",
        "Sat 14:10",
        "Sat 13:55",
    ]
    assert ends(plan, "butter.culture") == "Sat 10:10"  # into the fridge for at least 4 h
    assert latest(plan, "butter.culture", "butter.warm") == [culture, warm]
