"""Scenarios of the small sums: water to the boil, a cooling log, and what a novice can take."""

from fractions import Fraction

import pytest

from core.food.boiling import boil, with_kettle
from core.food.cooling import Action, Reading, State, cooling_log, judged, next_limit
from core.food.hands import Person, Reach, Task, hands, shared
from core.food.hands_of_plan import hands_budget
from core.food.speak import said_boil, said_budget, said_reach, said_shares
from core.food.speak_cooling import log_lines, said_next
from core.measures import offset_of, parse_moment, parse_quantity, show_clock, wall
from core.measures.number import round_half_up
from core.plan.step import Keep
from tests.support.builders import a_cook, a_dish, a_kitchen, a_plan, a_step

SERVED = parse_moment("2026-10-03 19:00", "Europe/London")


def clock(at):
    return show_clock(wall(SERVED, at))


def offset(text):
    return offset_of(SERVED, parse_moment(f"2026-10-03 {text}", SERVED.zone).local)


def test_f14_the_water_is_a_stage():
    pot = boil(parse_quantity("6 l"), 15, Fraction("1.2"))
    assert pot.seconds == Fraction("1780.75")
    assert round_half_up(pot.seconds) == 1781
    assert pot.minutes == 30
    assert clock(pot.on_by(offset("18:50"))) == "18:20"
    assert "30 min to 100 °C; pot on at 18:20" in said_boil(pot, offset("18:50"), clock)


def test_f14_with_half_of_it_from_a_kettle():
    pot = with_kettle(boil(parse_quantity("6 l"), 15, Fraction("1.2")))
    assert pot.start == 55
    assert pot.seconds == Fraction("942.75")
    assert round_half_up(pot.seconds) == 943
    assert pot.minutes == 16
    assert clock(pot.on_by(offset("18:50"))) == "18:34"


def church_hall(second):
    readings = [
        Reading(offset("22:25"), Fraction(35), initials="MK"),
        Reading(offset("23:25"), Fraction(second), initials="MK"),
    ]
    return cooling_log("Stock", SERVED, readings, began=offset("21:25"))


def test_f18_a_checkpoint_missed_asks_for_the_corrective_action():
    log, now = church_hall(24), offset("23:25")
    first, second = judged(log, now)
    assert (first.state, second.state) == (State.MISSED, State.OPEN)
    assert (clock(first.due), clock(second.due)) == ("23:25", "03:25")
    assert next_limit(log, now) is None
    assert said_next(log, now) == (
        "Stock: 21 °C (70 °F) within 2 h, by 23:25: missed, 24 °C at 23:25. Corrective action: reheat it to"
        " 74 °C (165 °F) all through and cool it again in shallow pans over ice, in small portions or in an ice"
        " bath, stirring, once only; or discard it (common practice). Write down what was done, with initials."
        " Your local food code decides which; ask somebody licensed where you cook for others."
        " Limits: US FDA Food Code 2022, 3-501.14(A)."
    )


def test_f18_the_log_keeps_the_miss_and_the_action_with_initials():
    log = church_hall(24).with_action(Action(offset("23:30"), "Reheated to 74 °C, shallow pans", "MK"))
    assert log_lines(log, offset("23:30")) == (
        "21:25 Stock passed 57 °C (135 °F).",
        "22:25 35 °C MK",
        "23:25 24 °C MK",
        "21 °C (70 °F) within 2 h, by 23:25: missed, 24 °C at 23:25.",
        "5 °C (41 °F) within 6 h, by 03:25: still to be read.",
        "23:30 Reheated to 74 °C, shallow pans MK",
    )


def test_f18_had_it_been_20_the_next_limit_is_at_03_25():
    log, now = church_hall(20), offset("23:25")
    assert judged(log, now)[0].state is State.MET
    coming = next_limit(log, now)
    assert (clock(coming.due), coming.checkpoint.limit.celsius) == ("03:25", 5)
    assert said_next(log, now) == (
        "Stock: next limit 5 °C (41 °F) by 03:25 (US FDA Food Code 2022, 3-501.14(A)); read the probe before."
    )


ROPE_WALK = (
    # task, minutes, skill asked, a novice only with a cook beside
    ("gravy", 15, "", True), ("carve", 10, "knife", False), ("sauce", 15, "stove", False),
    ("greens", 8, "stove", False), ("salad", 5, "", True), ("roast checks", 8, "", True),
    ("plating the starter", 20, "", True), ("lay the table", 15, "", False), ("pick herbs", 10, "", False),
    ("slice bread", 5, "", False), ("grate cheese", 8, "", False), ("whip cream", 6, "", False),
    ("wash up", 15, "", False),
)  # fmt: skip
COOK = Person("Ann", 90, ("knife", "stove"))
NOVICE = Person("Ben", 90, novice=True)
BUDGET = [Task(*row) for row in ROPE_WALK]


def names(tasks):
    return [task.name for task in tasks]


def test_f19_one_cook_is_fifty_minutes_over():
    alone = hands(BUDGET, [COOK])
    assert (alone.total, alone.there, alone.over) == (140, 90, 50)
    assert said_budget(alone, clock, offset("17:30"), offset("19:00")) == (
        "From 17:30 to 19:00: 140 min of hands-on work, Ann there for 90 min: 50 min over. Find another hand,"
        " begin earlier or leave something out."
    )


def test_f19_what_the_novice_can_take_and_what_not():
    both = hands(BUDGET, [COOK, NOVICE])
    taken = both.within_reach(NOVICE)
    assert names(taken) == [
        "lay the table",
        "pick herbs",
        "slice bread",
        "grate cheese",
        "whip cream",
        "wash up",
    ]
    assert sum(task.minutes for task in taken) == 59
    assert names(both.within_reach(NOVICE, Reach.NOT)) == ["carve", "sauce", "greens"]
    assert said_reach(both, NOVICE) == (
        "Ben can take lay the table, pick herbs, slice bread, grate cheese, whip cream and wash up: 59 min."
        " With a cook beside: gravy, salad, roast checks and plating the starter. Not: carve, sauce and greens."
    )


def test_f19_then_it_is_feasible_on_hours():
    both = hands(BUDGET, [COOK, NOVICE])
    assert both.overload is None
    cook, novice = shared(both).shares
    assert (cook.minutes, novice.minutes) == (81, 59)
    assert said_shares(both) == (
        "Ann 81 min, Ben 59 min: feasible on hours; the order is still to be checked."
    )
    assert said_budget(both, clock, offset("17:30"), offset("19:00")).endswith(
        "140 min of hands-on work, Ann and Ben there for 180 min: feasible on hours; the order is still to be"
        " checked."
    )


@pytest.mark.parametrize(("helpers", "over"), [((), 50), ((a_cook("ben"),), 0)])
def test_f19_out_of_a_plan(helpers, over):
    dishes = [
        a_dish(f"d{number}", a_step(f"d{number}.do", task, minutes, skill=skill), keep=Keep(90 - minutes))
        for number, (task, minutes, skill, _guided) in enumerate(ROPE_WALK)
    ]
    kitchen = a_kitchen(cooks=(a_cook("ann", "knife", "stove"), *helpers))
    plan = a_plan(*dishes, kitchen=kitchen, plating="2026-10-03 19:00")
    budget = hands_budget(plan, offset("17:30"), offset("19:00"))
    assert (budget.total, budget.earlier, budget.over) == (140, 0, over)
