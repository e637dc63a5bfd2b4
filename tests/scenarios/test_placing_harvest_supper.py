"""The harvest supper (demo, G): three cooks can, as was worked out by hand; the head cook alone cannot."""

from dataclasses import replace

import pytest

import demo_data
from core.arrange import Effort, Fit
from core.intake.text_plan import read_text
from core.timetable.clashes import clashes
from core.timetable.load import hands_curve
from core.timetable.timetable import Timetable
from tests.scenarios.arranged import first_answer
from tests.support.hand_made import hand_made

SOME = Effort(work=6.0)
HALF_HOUR = (-30, 0)


@pytest.fixture(scope="module")
def supper():
    return read_text(demo_data.text_of("harvest_supper.toml"))


def hands_in(plan, timetable: Timetable, low: int, high: int) -> int:
    """Return the cooks' minutes between two offsets."""
    return sum(
        level.amount * max(0, min(level.end, high) - max(level.start, low))
        for level in hands_curve(plan, timetable)
    )


def test_the_timetable_made_by_hand_has_no_clash(supper):
    assert clashes(supper, hand_made(supper)) == ()


def test_three_cooks_can(supper):
    outcome = first_answer(supper, SOME)
    assert outcome.fit is Fit.MEETS
    assert clashes(supper, outcome.timetable) == ()


def test_by_hand_the_last_half_hour_is_twice_what_one_cook_can_do(supper):
    # 22 + 21 + 19 = 62 by the hand-made table; the steps as they are written add up to one less
    work = hands_in(supper, hand_made(supper), *HALF_HOUR)
    assert work == 61
    assert work > 2 * 30  # two cooks have not enough minutes either, one has half of them


def test_one_cook_alone_cannot(supper):
    """Plating takes three people for three minutes, and one is there; and the sum says no as well."""
    alone = replace(supper.kitchen, cooks=tuple(cook for cook in supper.kitchen.cooks if cook.id == "head"))
    outcome = first_answer(replace(supper, kitchen=alone), SOME)
    assert outcome.fit is not Fit.MEETS
    assert outcome.clashes != ()


def test_one_cook_alone_cannot_even_where_one_could_plate(supper):
    """With the plating done by one the counts per minute are possible, and the work is still too much."""
    dishes = tuple(
        replace(dish, steps=tuple(replace(step, hands=1) for step in dish.steps))
        for dish in supper.menu.dishes
    )
    alone = replace(supper.kitchen, cooks=tuple(cook for cook in supper.kitchen.cooks if cook.id == "head"))
    plan = replace(supper, kitchen=alone, menu=replace(supper.menu, dishes=dishes))
    outcome = first_answer(plan, SOME)
    assert outcome.fit is not Fit.MEETS
    assert outcome.clashes == clashes(plan, outcome.timetable) != ()
