"""The harvest supper with too few cooks (demo, expected answers 1 and 2): who must be asked, and for how long."""

from dataclasses import replace

import pytest

import demo_data
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.ways import say_way
from core.arrange.ways import WayKind
from core.intake.text_plan import read_text
from tests.scenarios.offered import only

SOME = 2.0


@pytest.fixture(scope="module")
def supper():
    return read_text(demo_data.text_of("harvest_supper.toml"))


def with_cooks(plan, *ids):
    cooks = tuple(cook for cook in plan.kitchen.cooks if cook.id in ids)
    return replace(plan, kitchen=replace(plan.kitchen, cooks=cooks))


def test_two_people_need_a_third_pair_of_hands_for_the_plating(supper):
    two = with_cooks(supper, "head", "helper")
    assert possible(two, SOME).fit is Fit.IMPOSSIBLE
    (way,) = only(two, WayKind.HELPER)
    (change,) = way.changes
    assert change.skill == ""
    assert change.begins is not None
    assert change.ends is not None
    # plating is 19:27 to 19:30 and takes three
    assert change.begins <= -3
    assert change.ends >= 0
    assert say_way(two, way).startswith("Ask somebody who needs no skill to help, from ")
    plates = [hand.cook for hand in way.timetable.loads_of["table.plate"][0].hands]
    assert change.cook in plates


def test_or_they_plate_with_two(supper):
    (way,) = only(with_cooks(supper, "head", "helper"), WayKind.FEWER_HANDS)
    assert [(each.step, each.was, each.now) for each in way.changes] == [("table.plate", 3, 2)]


def test_the_head_cook_alone_needs_two_more(supper):
    alone = with_cooks(supper, "head")
    assert possible(alone, SOME).fit is Fit.IMPOSSIBLE
    (way,) = only(alone, WayKind.HELPER)
    assert len(way.changes) == 2
    assert {change.skill for change in way.changes} == {"able"}
