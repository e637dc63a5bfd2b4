"""The pull list: the most in use at once is what the timetable's own curve of vessels says, in time and number."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

import demo_data
from core.food.pull_list import pull_list
from core.food.speak_lists import pull_lines
from core.intake.text_plan import read_text
from core.plan.ids import StepId, VesselId
from core.plan.kitchen import Vessel
from core.plan.menu import Ingredient
from core.plan.runs import vessel_runs
from core.plan.step import Holding, Keep, VesselUse, Wait
from core.timetable.load import vessel_curve
from core.timetable.on_paper import on_paper
from core.timetable.sweep import peak
from core.timetable.timetable import Placed, Timetable, Washing
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step
from tests.support.hand_made import hand_made
from tests.support.random_feasts import small_feasts

POT, PAN = VesselId("pot"), VesselId("pan")


def clock(at):
    return f"{'Sat' if at > -600 else 'Fri'} {(at + 1170) % 1440 // 60:02}:{(at + 1170) % 60:02}"


def agrees(plan, timetable):
    """Tell whether each line has the number and the first time of the curve's peak, and none is missing."""
    found = {each.vessel.id: each for each in pull_list(plan, timetable).vessels}
    for vessel in plan.kitchen.vessels:
        top = peak(vessel_curve(plan, timetable, vessel.id))
        line = found.get(vessel.id)
        if top is None:
            assert line is None
        else:
            assert (line.most, line.start, line.end) == (top.amount, top.start, top.end)
    return True


@pytest.mark.parametrize("name", demo_data.files())
def test_on_the_demo_plans_as_counted_on_paper(name):
    plan = read_text(demo_data.text_of(name))
    assert agrees(plan, on_paper(plan))
    named = {use.vessel for step in plan.steps.values() for use in step.vessels}
    assert {each.vessel.id for each in pull_list(plan, on_paper(plan)).vessels} == named


def test_on_the_supper_made_by_hand_with_its_washing_up():
    plan = read_text(demo_data.text_of("harvest_supper.toml"))
    timetable = hand_made(plan)
    assert timetable.washings
    assert agrees(plan, timetable)
    assert all(not each.short_by for each in pull_list(plan, timetable).vessels)


@st.composite
def evenings(draw):
    """Draw a feast whose steps use pots and pans, on paper, with some of its runs washed some time after."""
    plan = draw(small_feasts())
    vessels = tuple(
        Vessel(vessel, vessel, draw(st.integers(1, 3)), washing=draw(st.sampled_from((0, 3)))) for vessel in (POT, PAN)
    )
    uses = st.lists(st.builds(VesselUse, st.sampled_from((POT, PAN)), st.integers(1, 2)), max_size=2, unique_by=name_of)
    in_vessel = Keep(None, Wait(Holding.VESSEL))
    dishes = tuple(
        replace(
            dish,
            keep=draw(st.sampled_from((dish.keep, in_vessel))),
            steps=tuple(replace(step, vessels=tuple(draw(uses))) for step in dish.steps),
        )
        for dish in plan.menu.dishes
    )
    plan = replace(plan, menu=replace(plan.menu, dishes=dishes), kitchen=replace(plan.kitchen, vessels=vessels))
    timetable = on_paper(plan)
    washings = tuple(
        Washing(run.vessel, draw(st.integers(-40, 20)), 3, run.steps[0])
        for run in vessel_runs(plan)
        if draw(st.booleans()) and plan.kitchen.vessel[run.vessel].washing
    )
    return plan, replace(timetable, washings=washings)


def name_of(use):
    return use.vessel


@given(evenings())
def test_as_many_as_the_curve_has_and_at_its_first_peak(drawn):
    assert agrees(*drawn)


def supper(count=1):
    steps = (
        a_step("soup.boil", minutes=20, vessels=(VesselUse(POT),)),
        a_step("pasta.boil", minutes=10, vessels=(VesselUse(POT),)),
    )
    leek = (Ingredient("leek"),)
    soup = a_dish("soup", steps[0], name="Soup, with croutons", plating="In the tureen.", ingredients=leek)
    pasta = a_dish("pasta", steps[1], pan="round 26 cm", course=5, ingredients=(Ingredient("flour"),))
    kitchen = a_kitchen(vessels=(Vessel(POT, "Pot", count, "4 l"), Vessel(PAN, "Pan")))
    plan = a_plan(soup, pasta, kitchen=kitchen)
    return plan, Timetable((Placed(StepId("soup.boil"), -30, 20), Placed(StepId("pasta.boil"), -20, 10)))


def test_all_that_is_said():
    plan, timetable = supper()
    assert pull_lines(pull_list(plan, timetable), clock) == (
        "[ ] 2 of 1 Pot, 4 l, from Sat 19:00; 2 at once Sat 19:10 to 19:20: Soup; Pasta",
        "",
        "Tins and pans of the recipes:",
        "[ ] round 26 cm: Pasta",
        "",
        "For the table (a dish to serve from and what to serve with):",
        "[ ] Soup, Sat 19:30: In the tureen.",
        "[ ] Pasta, Sat 19:35",
        "",
        "Pot: 2 are wanted at once at Sat 19:10, there is 1; borrow 1 or wash in between.",
    )


def test_enough_of_them_is_no_complaint_and_one_after_another_is_one():
    plan, timetable = supper(2)
    assert "borrow" not in " ".join(pull_lines(pull_list(plan, timetable), clock))
    later = Timetable((timetable.placed[0], Placed(StepId("pasta.boil"), -5, 10)))
    washed = replace(later, washings=(Washing(POT, -10, 5, StepId("soup.boil")),))
    assert [each.most for each in pull_list(plan, washed).vessels] == [1]
    # never washed, the first pot is not there for the second dish
    assert [each.most for each in pull_list(plan, later).vessels] == [2]


def test_a_vessel_passed_on_is_one():
    steps = (a_step("soup.boil", vessels=(VesselUse(POT),)), a_step("soup.blend", vessels=(VesselUse(POT),)))
    plan = a_plan(
        a_dish("soup", *steps),
        links=(a_link("soup.boil", "soup.blend"),),
        kitchen=a_kitchen(vessels=(Vessel(POT, "Pot"),)),
    )
    (line,) = pull_list(plan, on_paper(plan)).vessels
    assert (line.most, line.short_by) == (1, 0)
