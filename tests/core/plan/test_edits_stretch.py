from __future__ import annotations

import pytest

from core.desk import Desk
from core.measures.refusal import Refusal
from core.plan.decisions import LengthOf, Pin
from core.plan.edits import PinStep, PinSteps, StretchStep
from core.plan.meaning import reserved
from core.plan.plan import Plan
from core.plan.step import Alternative, Manner, Span
from tests.support.builders import a_dish, a_plan, a_step


def the_plan(minutes, manner: Manner = Manner.LIKELY, **fields) -> Plan:
    step = a_step("soup.boil", "Boil", minutes, alternatives=(Alternative("in the oven", Span(40, 50, 60)),))
    return a_plan(a_dish("soup", step), manner=manner, **fields)


@pytest.mark.parametrize(
    ("before", "manner", "minutes", "after"),
    [
        (20, Manner.LIKELY, 25, Span(25, 25, 25)),
        ((15, 20, 30), Manner.LIKELY, 25, Span(15, 25, 30)),
        ((15, 20, 30), Manner.LIKELY, 35, Span(15, 35, 35)),
        ((15, 20, 30), Manner.LIKELY, 10, Span(10, 10, 30)),
        ((15, 20, 30), Manner.HIGH, 40, Span(15, 20, 40)),
        ((15, 20, 30), Manner.HIGH, 18, Span(15, 18, 18)),
        ((15, 20, 30), Manner.HIGH, 12, Span(12, 12, 12)),
        ((15, 20, 30), Manner.SAFE, 40, Span(15, 20, 40)),
    ],
)
def test_the_length_that_is_reserved_is_the_one_that_is_set(before, manner, minutes: int, after: Span) -> None:
    plan = StretchStep("soup.boil", minutes)(the_plan(before, manner))
    assert plan.steps["soup.boil"].length == after
    assert reserved(plan, "soup.boil").length == minutes


def test_a_manner_of_its_own_says_which_length_that_is() -> None:
    plan = the_plan((15, 20, 30), Manner.LIKELY, lengths=(LengthOf("soup.boil", Manner.HIGH),))
    assert StretchStep("soup.boil", 45)(plan).steps["soup.boil"].length == Span(15, 20, 45)


def test_another_way_is_stretched_by_itself() -> None:
    plan = StretchStep("soup.boil", 55, 1)(the_plan(20))
    assert plan.steps["soup.boil"].length == Span.of(20)
    assert plan.steps["soup.boil"].alternatives[0].length == Span(40, 55, 60)


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (StretchStep("soup.boil", 0), "would take no time"),
        (StretchStep("soup.boil", 10, 2), "no way number 3"),
        (StretchStep("soup.nothing", 10), "nothing"),
    ],
)
def test_what_cannot_be_stretched_is_refused(edit: StretchStep, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        edit(the_plan(20))


def test_drawing_a_bars_end_along_is_one_undo() -> None:
    desk = Desk(the_plan(20))
    for minutes in (25, 30, 35):
        desk.apply(StretchStep("soup.boil", minutes))
    assert desk.undo_label == "Let Soup: Boil take 35 min"
    desk.undo()
    assert desk.plan.steps["soup.boil"].length == Span.of(20)
    assert not desk.can_undo


def test_several_loads_are_pinned_as_one_undo_and_nudges_join() -> None:
    plan = a_plan(a_dish("soup", a_step("soup.boil", "Boil"), a_step("soup.peel", "Peel")))
    desk = Desk(plan)
    for start in (-60, -65):
        pins = (PinStep("soup.boil", 0, start), PinStep("soup.peel", 0, start - 20))
        desk.apply(PinSteps(pins))
    assert desk.plan.decisions.pins == (Pin("soup.boil", 0, -65), Pin("soup.peel", 0, -85))
    assert desk.undo_label == "Move 2 steps"
    desk.apply(PinSteps((PinStep("soup.boil", 0, -30),)))
    assert desk.undo_label.startswith("Move Soup: Boil to ")
    desk.undo()
    desk.undo()
    assert not desk.plan.decisions.pins
    assert not desk.can_undo


def test_one_pin_that_may_not_be_leaves_all_as_it_was() -> None:
    plan = a_plan(a_dish("soup", a_step("soup.boil", "Boil")))
    with pytest.raises(Refusal):
        PinSteps((PinStep("soup.boil", 0, -60), PinStep("soup.gone", 0, -60)))(plan)
