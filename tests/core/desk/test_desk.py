"""The desk: edits, undo, redo, arrangements taken, keeping, telling."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.desk import Aim, Change, Desk
from core.measures.refusal import Refusal
from core.plan.decisions import Wishes
from core.plan.edits import PinStep, RemoveStep, RenameDish, RenamePlan, SetWishes, Together
from core.plan.ids import DishId, StepId
from core.plan.plan import Plan
from core.timetable.timetable import Placed, Timetable
from tests.support.builders import a_bench, a_step

CHOP, BOIL = StepId("soup.chop"), StepId("soup.boil")
SEEN = Timetable((Placed(CHOP, -40, 10), Placed(BOIL, -20, 10)))
BETTER = Timetable((Placed(CHOP, -30, 10), Placed(BOIL, -10, 10)))


class Shelf:
    """Keeps what it is given, or refuses."""

    def __init__(self) -> None:
        self.kept: list[tuple[Plan, Plan]] = []
        self.full = False

    def save(self, before: Plan, after: Plan) -> None:
        if self.full:
            raise Refusal("The disk is full; make room and try again.")
        self.kept.append((before, after))


@pytest.fixture
def plan() -> Plan:
    return a_bench(a_step(CHOP), a_step(BOIL))


@pytest.fixture
def shelf() -> Shelf:
    return Shelf()


@pytest.fixture
def desk(plan: Plan, shelf: Shelf) -> Desk:
    return Desk(plan, shelf, SEEN)


def test_a_new_desk_has_nothing_to_undo(desk: Desk, plan: Plan) -> None:
    assert (desk.plan, desk.timetable) == (plan, SEEN)
    assert (desk.can_undo, desk.can_redo, desk.undo_label, desk.redo_label) == (False, False, None, None)
    assert desk.undo() is None
    assert desk.redo() is None
    assert Desk(plan).timetable is None


def test_an_edit_is_kept_told_and_can_be_undone_and_redone(desk: Desk, plan: Plan, shelf: Shelf) -> None:
    heard: list[Change] = []
    desk.listen(heard.append)
    change = desk.apply(RenamePlan("Supper"), by="drag")
    renamed = desk.plan
    assert renamed.name == "Supper"
    assert change == Change(plan, renamed, frozenset(), "Rename the plan to Supper", "drag")
    assert (desk.can_undo, desk.undo_label) == (True, "Rename the plan to Supper")

    undone = desk.undo(by="key")
    assert desk.plan is plan
    assert undone == Change(renamed, plan, frozenset(), "Rename the plan to Supper", "key")
    assert (desk.can_undo, desk.can_redo, desk.redo_label) == (False, True, "Rename the plan to Supper")

    redone = desk.redo()
    assert desk.plan is renamed
    assert (desk.can_undo, desk.can_redo) == (True, False)
    assert heard == [change, undone, redone]
    assert shelf.kept == [(plan, renamed), (renamed, plan), (plan, renamed)]


def test_a_new_edit_forgets_what_was_undone(desk: Desk) -> None:
    desk.apply(RenamePlan("Supper"))
    desk.undo()
    desk.apply(RenamePlan("Lunch"))
    assert (desk.can_redo, desk.undo_label) == (False, "Rename the plan to Lunch")


def test_a_refused_edit_changes_nothing(desk: Desk, plan: Plan, shelf: Shelf) -> None:
    heard: list[Change] = []
    desk.listen(heard.append)
    with pytest.raises(Refusal, match="The plan's name is empty"):
        desk.apply(RenamePlan(""))
    assert (desk.plan, desk.can_undo, heard, shelf.kept) == (plan, False, [], [])


def test_when_the_keeper_refuses_everything_stays(desk: Desk, plan: Plan, shelf: Shelf) -> None:
    desk.apply(RenamePlan("Supper"))
    desk.apply(RenamePlan("Lunch"))
    desk.undo()
    heard: list[Change] = []
    desk.listen(heard.append)
    shelf.full = True
    for change in (lambda: desk.apply(RenamePlan("Tea")), desk.undo, desk.redo):
        with pytest.raises(Refusal, match="The disk is full"):
            change()
        assert (desk.plan.name, desk.undo_label) == ("Supper", "Rename the plan to Supper")
        assert desk.redo_label == "Rename the plan to Lunch"
    assert heard == []
    shelf.full = False
    desk.undo()
    assert desk.plan is plan


def test_an_edit_that_changes_nothing_leaves_no_trace(desk: Desk, plan: Plan, shelf: Shelf) -> None:
    desk.apply(RenamePlan("Supper"))
    desk.undo()
    shelf.kept.clear()
    heard: list[Change] = []
    desk.listen(heard.append)
    change = desk.apply(RenamePlan(plan.name))
    assert (change.touched, change.plan_changed, change.timetable_changed) == (frozenset(), False, False)
    assert (desk.can_undo, desk.can_redo, heard, shelf.kept) == (False, True, [], [])


def test_taking_an_arrangement_is_one_step_and_is_not_saved(desk: Desk, plan: Plan, shelf: Shelf) -> None:
    change = desk.show(BETTER, "Arrange", by="arranging")
    assert desk.timetable == BETTER
    assert change == Change(plan, plan, frozenset(), "Arrange", "arranging", timetable_changed=True)
    assert not change.plan_changed
    desk.undo()
    assert (desk.timetable, desk.redo_label) == (SEEN, "Arrange")
    desk.redo()
    assert desk.timetable == BETTER
    assert desk.show(None).timetable_changed
    assert desk.timetable is None
    assert shelf.kept == []


def test_an_arrangement_that_is_seen_already_is_no_step(desk: Desk) -> None:
    assert not desk.show(SEEN).timetable_changed
    assert not desk.can_undo


def test_steps_that_are_gone_leave_the_timetable_and_come_back_with_undo(desk: Desk) -> None:
    change = desk.apply(RemoveStep(CHOP))
    assert desk.timetable == Timetable((Placed(BOIL, -20, 10),))
    assert change.timetable_changed
    assert change.touched == {"soup", CHOP}
    desk.undo()
    assert desk.timetable == SEEN
    assert desk.show(Timetable((Placed(StepId("soup.gone"), -9, 9),))).timetable_changed
    assert desk.timetable == Timetable()


def test_what_follows_a_drag_is_undone_along_with_it(desk: Desk, plan: Plan) -> None:
    desk.apply(PinStep(CHOP, start=-30), by="drag")
    change = desk.follow(BETTER)
    assert (change.label, change.timetable_changed, change.plan_changed) == (
        "Move Soup: Chop to 19:00",
        True,
        False,
    )
    assert desk.timetable == BETTER
    assert not desk.follow(BETTER).timetable_changed
    desk.undo()
    assert (desk.plan, desk.timetable) == (plan, SEEN)
    desk.redo()
    assert desk.timetable == BETTER
    assert desk.plan.decisions.pins[0].start == -30


def test_following_with_nothing_before_it_is_no_step(desk: Desk) -> None:
    assert desk.follow(BETTER).label == ""
    assert (desk.timetable, desk.can_undo) == (BETTER, False)


def test_an_edit_may_bring_its_timetable_along(desk: Desk, plan: Plan) -> None:
    desk.apply(PinStep(CHOP, start=-30), seen=BETTER)
    assert desk.timetable == BETTER
    desk.undo()
    assert (desk.plan, desk.timetable) == (plan, SEEN)


def test_nudges_of_one_pin_are_one_undo_step(desk: Desk, plan: Plan) -> None:
    for start in (-39, -38, -37):
        desk.apply(PinStep(CHOP, start=start))
        desk.follow(Timetable((Placed(CHOP, start, 10),)))
    assert desk.undo_label == "Move Soup: Chop to 18:53"
    desk.undo()
    assert (desk.plan, desk.timetable, desk.can_undo) == (plan, SEEN, False)
    desk.redo()
    assert desk.plan.decisions.pins[0].start == -37


def test_nudges_there_and_back_leave_nothing_to_undo(desk: Desk) -> None:
    desk.apply(PinStep(CHOP, start=-40))
    desk.settle()
    pinned = desk.plan
    desk.apply(PinStep(CHOP, start=-39))
    desk.apply(PinStep(CHOP, start=-40))
    assert desk.plan == pinned
    desk.undo()
    assert not desk.can_undo


@pytest.mark.parametrize("between", ["another pin", "settle", "undo and redo", "arrangement"])
def test_what_comes_between_ends_the_merging(desk: Desk, between: str) -> None:
    desk.apply(PinStep(CHOP, start=-39))
    if between == "another pin":
        desk.apply(PinStep(BOIL, start=-9))
    elif between == "settle":
        desk.settle()
    elif between == "arrangement":
        desk.show(BETTER)
    else:
        desk.undo()
        desk.redo()
    before = desk.plan
    desk.apply(PinStep(CHOP, start=-38))
    desk.undo()
    assert desk.plan == before


def test_an_undone_nudge_does_not_merge_into_the_one_before(desk: Desk) -> None:
    desk.apply(PinStep(CHOP, start=-39))
    desk.apply(RenamePlan("Supper"))
    desk.undo()
    desk.apply(PinStep(CHOP, start=-35))
    desk.undo()
    assert desk.plan.decisions.pins[0].start == -39


def test_slides_of_the_wishes_merge(desk: Desk, plan: Plan) -> None:
    for calm in (4, 5, 6):
        desk.apply(SetWishes(Wishes(calm=calm)))
    desk.undo()
    assert desk.plan == plan


def test_several_edits_are_one_step(desk: Desk, plan: Plan) -> None:
    change = desk.apply(Together("Two names", (RenamePlan("Supper"), RenameDish(DishId("soup"), "Broth"))))
    assert (change.label, change.touched) == ("Two names", {"soup"})
    desk.undo()
    assert desk.plan == plan


def test_requests_are_numbered_and_late_answers_known(desk: Desk, plan: Plan) -> None:
    first = desk.request()
    assert (first.number, first.plan, first.seen, first.aim) == (1, plan, SEEN, Aim.ARRANGE)
    assert desk.awaits(1)
    second = desk.request(Aim.AROUND, effort=2.5)
    assert (second.number, second.aim, second.effort) == (2, Aim.AROUND, 2.5)
    assert (desk.awaits(1), desk.awaits(2), desk.awaits(3)) == (False, True, False)
    desk.show(BETTER)
    assert desk.awaits(2)
    desk.apply(RenamePlan("Supper"))
    assert not desk.awaits(2)
    desk.undo()
    assert desk.awaits(2)


def test_a_listener_can_stop(desk: Desk) -> None:
    heard: list[str] = []
    stop = desk.listen(lambda change: heard.append(change.label))
    desk.apply(RenamePlan("Supper"))
    stop()
    desk.apply(RenamePlan("Lunch"))
    assert heard == ["Rename the plan to Supper"]


def test_a_listener_may_change_the_plan_in_turn(desk: Desk) -> None:
    names: list[str] = []

    def chime_in(change: Change) -> None:
        if change.after.name == "Supper":
            desk.apply(RenamePlan("Late supper"))

    desk.listen(chime_in)
    desk.listen(lambda change: names.append(change.after.name))
    desk.apply(RenamePlan("Supper"))
    assert names == ["Supper", "Late supper"]
    assert desk.plan.name == "Late supper"


def test_a_plan_with_a_problem_can_be_opened_and_mended() -> None:
    desk = Desk(a_bench(a_step(CHOP, minutes=0), a_step(BOIL, minutes=0)))
    desk.apply(RenamePlan("Supper"))
    steps = desk.plan.dishes[DishId("soup")].steps
    assert [step.length.low for step in steps] == [0, 0]
    assert replace(desk.plan, name="Feast") == a_bench(*steps)
