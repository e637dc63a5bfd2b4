"""Chances and late guests in words: honest shares, clock times, minutes; only signs that the face has."""

from dataclasses import replace

import pytest

import demo_data
from core.arrange.chances import Chances, LimitKind, LimitRisk, Serving, Spare, Threat, chances
from core.arrange.late_guests import Held, Over, guests_late, how_late
from core.arrange.speak.chances import of_100, say_chances, say_limit, say_serving, say_spare, say_threat
from core.arrange.speak.late import say_allowance, say_held, say_late, say_over, say_patience
from core.intake.text_plan import read_text
from core.plan.ids import DishId, StepId
from tests.core.timetable.laid import at, laid
from tests.support.builders import a_dish, a_link, a_plan, a_step, hands_off
from tests.support.hand_made import hand_made

PLAN = a_plan(
    a_dish("pie", hands_off("pie.bake", (20, 30, 50)), hands_off("pie.rest", 10)),
    a_dish("tart", a_step("tart.cut", minutes=5)),
    links=(a_link("pie.bake", "pie.rest", 0, 20),),
    manner="likely",
)
TIMETABLE = laid(PLAN, {"pie.bake": -45, "pie.rest": -10, "tart.cut": -5})
PIE, BAKE, REST = DishId("pie"), StepId("pie.bake"), StepId("pie.rest")


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (1.0, "in all of the 10,000 days tried"),
        (0.9999, "in more than 99 of 100 days"),
        (0.9951, "in more than 99 of 100 days"),
        (0.994, "in 99 of 100 days"),
        (0.83, "in 83 of 100 days"),
        (0.0049, "in fewer than 1 of 100 days"),
        (0.0, "in none of the 10,000 days tried"),
    ],
)
def test_shares_are_told_as_days_of_a_hundred(share, words):
    assert of_100(share, 10_000) == words


def a_value(**fields):
    value = Chances(10_000, 0.83, 0.97, (Serving(0, (PIE,), -4, -1, 3),), (), ())
    return replace(value, **fields)


def test_how_often_all_is_in_time():
    assert say_chances(PLAN, a_value()) == (
        "In 83 of 100 days all is on the table in time. In 97 of 100 days nothing is more than 5 min late."
        " Pie is ready between 19:26 and 19:33 in 80 of 100 days; it is planned for 19:30, so guests may wait."
    )
    sure = a_value(on_time=1.0, nearly=1.0, servings=(Serving(0, (PIE,), -4, -2, 0),))
    assert say_chances(PLAN, sure) == "In all of the 10,000 days tried all is on the table in time."


def test_when_a_serving_is_ready():
    assert say_serving(PLAN, Serving(0, (PIE, DishId("tart")), -4, -2, -1)) == (
        "Pie and Tart are ready between 19:26 and 19:29 in 80 of 100 days."
    )
    assert say_serving(PLAN, Serving(0, (PIE,), -2, -2, -2)) == "Pie is ready at 19:28."


def test_what_threatens():
    threat = Threat(BAKE, 0, 0.8, 0.61, 4.0)
    assert say_threat(PLAN, threat) == (
        "Pie: Bake takes longer than planned and makes the table late in 61 of 100 late days."
    )
    wait = LimitRisk(LimitKind.WAIT, BAKE, 0, REST, 20, 0.12)
    assert say_limit(PLAN, wait, 10_000) == "In 12 of 100 days Pie: Bake is done more than 20 min before Pie: Rest."
    at_once = replace(wait, most=0)
    assert say_limit(PLAN, at_once, 10_000) == "In 12 of 100 days Pie: Rest cannot follow at once on Pie: Bake."
    keep = LimitRisk(LimitKind.KEEP, REST, 0, None, 75, 1.0)
    assert say_limit(PLAN, keep, 500) == (
        "In all of the 500 days tried Pie: Rest waits more than 1 h 15 min until it is served."
    )
    fire = LimitRisk(LimitKind.FIRE, BAKE, 0, None, 0, 0.3)
    assert say_limit(PLAN, fire, 500) == "In 30 of 100 days the fire is spent before Pie: Bake is done."


def test_where_spare_minutes_help():
    spare = Spare(BAKE, 0, 10, (((BAKE, 0), -55),), 0.95, 0.12)
    assert say_spare(PLAN, a_value(spare=(spare,))) == (
        "Begin Pie: Bake 10 min earlier, at 18:35: in 95 of 100 days all is then in time, 12 more than now."
    )
    two = replace(spare, moved=(*spare.moved, ((REST, 0), -20)))
    assert say_spare(PLAN, a_value(spare=(two,))).endswith(" 1 other step moves along.")
    assert say_spare(PLAN, a_value(spare=(replace(spare, gain=0.001),))) == (
        "Beginning the steps that decide earlier hardly helps."
    )
    assert say_spare(PLAN, a_value()) == "None of the steps that decide can begin earlier without a new clash."
    assert say_spare(PLAN, a_value(on_time=1.0)) == "Spare minutes are not needed: nothing was late."


def test_values_of_a_plan_can_be_said():
    value = chances(PLAN, TIMETABLE, runs=2000)
    said = say_chances(PLAN, value)
    assert said.startswith("In ")
    assert "Pie: Bake takes longer than planned" in said


# ---------------------------------------------------------------- late guests


@pytest.fixture(scope="module")
def supper():
    plan = read_text(demo_data.text_of("harvest_supper.toml"))
    short = {"pork": "Pork", "gratin": "Gratin", "leeks": "Leeks", "squash": "Squash", "cheeks": "Cheeks"}
    dishes = tuple(replace(dish, name=short.get(dish.id, dish.name)) for dish in plan.menu.dishes)
    return replace(plan, menu=replace(plan.menu, dishes=dishes)), hand_made(plan)


def test_patience_names_the_dish_that_decides(supper):
    assert say_patience(supper[0], how_late(*supper, at("19:00"))) == (
        "At 19:00 the menu can stand 4 min: Pork has 4 min left: after Pork: Rest, loosely tented it waits from 19:00"
        " until Pork: Carve, 11 of at most 15 min. It bears 8 min if every wait on its way takes a part."
    )


def test_patience_without_limit_and_without_any(supper):
    assert say_patience(PLAN, how_late(PLAN, TIMETABLE, -50)) == (
        "At 18:40 nothing that has begun limits how late the guests may come."
    )
    nothing = replace(how_late(*supper, at("19:00")), minutes=0)
    assert say_patience(supper[0], nothing).startswith("At 19:00 the menu cannot stand a minute: Pork has")
    fire = replace(nothing.dishes[0], kind=LimitKind.FIRE, minutes=3)
    assert say_allowance(supper[0], fire).endswith("the fire for Pork: Rest, loosely tented is spent then.")


def test_late_guests_line_by_line(supper):
    lines = say_late(supper[0], guests_late(*supper, at("18:40"), 20)).split("\n")
    assert lines[0] == "Serving is put off by 20 min at 18:40."
    assert lines[1] == (
        "Pork: Rest, loosely tented is done at 19:00 and waits 31 min until Pork: Carve; it is good until 19:15:"
        " 16 min too long. Done another way (in the insulated box, crackling apart) it is good until 19:45,"
        " long enough. There is room in Insulated box until 19:31, if it bears that."
        " It may be warmed again in the oven or on Burner B2, 1.8 kW from 19:16, if it bears that."
    )
    assert "begin 20 min later." in "\n".join(lines)
    stays = "Cheeks: Season, put in the prunes, glaze stays at 19:08: it cannot wait so long after Cheeks:"
    assert any(line.startswith(stays) for line in lines)


def test_late_guests_with_nothing_over():
    assert say_late(PLAN, guests_late(PLAN, TIMETABLE, -50, 15)).split("\n") == [
        "Serving is put off by 15 min at 18:40.",
        "Nothing waits too long.",
        "Pie: Bake, Pie: Rest and Tart: Cut begin 15 min later.",
    ]


def test_other_limits_that_are_over():
    over = Over(PIE, BAKE, 0, None, LimitKind.FIRE, 0, -10, 0, 0, 6)
    assert say_over(PLAN, over) == "Pie: Bake ends 6 min after the fire is spent at 19:20."
    assert say_over(PLAN, replace(over, kind=LimitKind.LATEST)) == (
        "Pie: Bake cannot move: its time is set, 6 min too soon."
    )
    assert say_held(PLAN, Held(BAKE, 0, -45, None)) == "Pie: Bake stays at 18:45."
