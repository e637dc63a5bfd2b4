"""Days kept by name: each thing done is one undo step, names are told apart, and what no longer fits is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from core.desk import Desk, DropDay, KeepAgain, KeepDay, KeptDays, RenameDay, SwitchTo, as_kept, fits
from core.desk.kept import LONGEST_NAME, MOST_KEPT, plan_mark
from core.measures.refusal import Refusal
from core.plan import edits
from core.plan.decisions import Wishes
from core.plan.ids import DishId, StepId
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from core.plan.step import Keep
from core.timetable.clash import ClashKind
from core.timetable.timetable import Hand, Placed, Timetable
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step

AT = datetime(2026, 9, 20, 8, 15, tzinfo=UTC)
LATER = AT.replace(hour=9)
STIR, FRY = StepId("soup.stir"), StepId("roots.fry")


def the_plan() -> Plan:
    soup = a_dish("soup", a_step(STIR, minutes=20), keep=Keep(60))
    roots = a_dish("roots", a_step(FRY, minutes=15), keep=Keep(60))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0)


def placed(stir: int, fry: int) -> Timetable:
    return Timetable(
        (Placed(STIR, stir, 20, hands=(Hand(stir, 20, "ann"),)), Placed(FRY, fry, 15, hands=(Hand(fry, 15, "ann"),)))
    )


CALM, LATE = placed(-60, -30), placed(-36, -15)


class Notebook:
    """Keeps in memory what a desk saves."""

    def __init__(self) -> None:
        self.kept = KeptDays()
        self.refuses = ""

    def save(self, before: Plan, after: Plan) -> None:
        pass

    def keep(self, before: KeptDays, after: KeptDays) -> None:
        if self.refuses:
            raise Refusal(self.refuses)
        assert before == self.kept
        self.kept = after


@pytest.fixture
def notebook() -> Notebook:
    return Notebook()


@pytest.fixture
def desk(notebook: Notebook) -> Desk:
    """Give a desk with two days kept, the second one seen."""
    made = Desk(the_plan(), notebook, CALM)
    made.keep(KeepDay("calm", AT))
    made.show(LATE)
    made.keep(KeepDay("sleep late", LATER))
    return made


def names(desk: Desk) -> list[str]:
    return [each.name for each in desk.kept.days]


def test_days_are_kept_with_when_and_of_which_plan(desk: Desk, notebook: Notebook) -> None:
    calm, late = desk.kept.days
    assert (calm.name, calm.timetable, calm.at, calm.mark) == ("calm", CALM, AT, plan_mark(desk.plan))
    assert (late.name, late.timetable, late.at) == ("sleep late", LATE, LATER)
    assert desk.kept.current == "sleep late"
    assert notebook.kept == desk.kept


@pytest.mark.parametrize(
    ("edit", "label"),
    [
        (KeepDay("third", AT), "Keep the day “third”"),
        (KeepAgain("calm", LATER), "Keep “calm” as it is now"),
        (RenameDay("calm", "  slow  and calm "), "Rename “calm” to “slow and calm”"),
        (DropDay("sleep late"), "Drop the kept day “sleep late”"),
        (SwitchTo("calm"), "Go to the day “calm”"),
    ],
)
def test_each_is_one_undo_step_and_done_again(desk: Desk, notebook: Notebook, edit: Any, label: str) -> None:
    before = (desk.plan, desk.timetable, desk.kept)
    heard = []
    desk.listen(heard.append)
    change = desk.keep(edit)
    after = (desk.plan, desk.timetable, desk.kept)
    assert after != before
    assert change.kept_changed
    assert desk.undo_label == label
    desk.undo()
    assert (desk.plan, desk.timetable, desk.kept) == before
    assert notebook.kept == before[2]
    desk.redo()
    assert (desk.plan, desk.timetable, desk.kept) == after
    assert notebook.kept == after[2]
    assert [each.kept_changed for each in heard] == [True, True, True]


def test_going_back_to_a_day_shows_it_and_leaves_the_plan(desk: Desk) -> None:
    change = desk.keep(SwitchTo("calm"))
    assert desk.timetable == CALM
    assert (change.plan_changed, change.timetable_changed) == (False, True)
    assert desk.kept.current == "calm"
    assert desk.seen_before is not None
    assert (desk.seen_before.state.timetable, desk.seen_before.label) == (LATE, "Go to the day “calm”")


def test_a_day_only_offered_is_kept_and_what_is_seen_stays(desk: Desk) -> None:
    other = placed(-80, -30)
    desk.keep(KeepDay("fresh", AT, other))
    assert desk.kept.day("fresh").timetable == other
    assert (desk.timetable, desk.kept.current) == (LATE, "sleep late")


def test_renaming_and_dropping_the_current_day(desk: Desk) -> None:
    desk.keep(RenameDay("sleep late", "Sleep Late"))
    assert desk.kept.current == "Sleep Late"
    assert names(desk) == ["calm", "Sleep Late"]
    desk.keep(DropDay("Sleep Late"))
    assert (names(desk), desk.kept.current, desk.timetable) == (["calm"], "", LATE)


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (KeepDay("  ", AT), "needs a name"),
        (KeepDay("CALM", AT), "A day is kept as “calm” already"),
        (KeepDay("x" * (LONGEST_NAME + 1), AT), f"has {LONGEST_NAME + 1} characters"),
        (KeepDay("bell\x07", AT), "signs that cannot be shown"),
        (RenameDay("calm", "sleep LATE"), "A day is kept as “sleep late” already"),
        (RenameDay("none", "other"), "No day is kept as “none”"),
        (KeepAgain("none", AT), "No day is kept as “none”"),
        (DropDay("none"), "No day is kept as “none”"),
        (SwitchTo("none"), "No day is kept as “none”"),
    ],
)
def test_what_may_not_be_is_refused_and_nothing_changes(desk: Desk, edit: Any, words: str) -> None:
    before = (desk.kept, desk.timetable, desk.undo_label)
    with pytest.raises(Refusal, match=words):
        desk.keep(edit)
    assert (desk.kept, desk.timetable, desk.undo_label) == before


def test_no_more_days_than_can_be_chosen_between(desk: Desk) -> None:
    for number in range(len(desk.kept.days), MOST_KEPT):
        desk.keep(KeepDay(f"day {number}", AT))
    with pytest.raises(Refusal, match=f"{MOST_KEPT} days are kept already"):
        desk.keep(KeepDay("one more", AT))


def test_nothing_arranged_is_nothing_to_keep() -> None:
    with pytest.raises(Refusal, match="no day to keep yet"):
        Desk(the_plan()).keep(KeepDay("calm", AT))


def test_where_it_cannot_be_saved_nothing_changes(desk: Desk, notebook: Notebook) -> None:
    before = desk.kept
    notebook.refuses = "The disk is full."
    with pytest.raises(Refusal, match="disk is full"):
        desk.keep(DropDay("calm"))
    with pytest.raises(Refusal, match="disk is full"):
        desk.undo()
    assert desk.kept == before


def test_days_stay_through_edits_arranging_and_their_undo(desk: Desk) -> None:
    kept = desk.kept
    desk.apply(edits.RenamePlan("Other"))
    desk.show(CALM)
    desk.follow(LATE)
    desk.undo()
    desk.undo()
    assert desk.kept == kept


def test_a_day_fits_the_plan_it_was_kept_of(desk: Desk) -> None:
    found = fits(desk.kept.day("calm"), desk.plan)
    assert found.whole
    assert found.same_plan


def test_what_is_new_gone_and_clashing_is_told(desk: Desk) -> None:
    calm = desk.kept.day("calm")
    desk.apply(edits.AddStep(DishId("soup"), a_step("soup.taste", minutes=5)))
    found = fits(calm, desk.plan)
    assert (found.gone, found.new, found.clashes, found.same_plan) == ((), ("soup.taste",), (), False)
    desk.undo()
    desk.apply(edits.RemoveStep(FRY))
    found = fits(calm, desk.plan)
    assert (found.gone, found.new, found.clashes) == ((FRY,), (), ())
    desk.keep(SwitchTo("calm"))
    assert [each.step for each in desk.timetable.placed] == [STIR]
    assert as_kept(calm, desk.plan, desk.timetable), "of what is there, all stands as it was kept"
    desk.undo()
    desk.undo()
    longer = replace(desk.plan.steps[STIR], length=a_step(minutes=50).length)
    desk.apply(edits.ChangeStep(STIR, longer))
    found = fits(calm, desk.plan)
    assert not found.whole
    assert ClashKind.LENGTH in {each.kind for each in found.clashes}


def test_a_day_is_as_kept_until_something_is_moved(desk: Desk) -> None:
    late = desk.kept.day("sleep late")
    assert as_kept(late, desk.plan, desk.timetable)
    desk.apply(edits.PinStep(STIR, start=-40), seen=placed(-40, -15))
    assert not as_kept(late, desk.plan, desk.timetable)
    assert not as_kept(late, desk.plan, None)
    desk.undo()
    assert as_kept(late, desk.plan, desk.timetable)


def test_the_mark_of_a_plan_tells_what_a_timetable_rests_on() -> None:
    plan = the_plan()
    mark = plan_mark(plan)
    soup = plan.menu.dishes[0]
    noted = replace(soup, note="with bread", name="Broth", ingredients=(Ingredient("salt"),))
    alike = (
        replace(plan, name="Other"),
        replace(plan, decisions=replace(plan.decisions, wishes=Wishes(fresh=9))),
        replace(plan, menu=replace(plan.menu, dishes=(noted, *plan.menu.dishes[1:]))),
    )
    assert {plan_mark(each) for each in alike} == {mark}
    others = (
        edits.PinStep(STIR, start=-60)(plan),
        edits.RemoveStep(FRY)(plan),
        edits.SetTransfer(2)(plan),
        replace(plan, kitchen=replace(plan.kitchen, walk=plan.kitchen.walk + 1)),
    )
    assert len({mark, *(plan_mark(each) for each in others)}) == 5


def test_what_was_seen_before_is_the_last_other_timetable() -> None:
    desk = Desk(the_plan(), None, CALM)
    assert desk.seen_before is None
    desk.show(LATE)
    desk.apply(edits.RenamePlan("Other"))
    assert desk.seen_before is not None
    assert desk.seen_before.state.timetable == CALM
    desk.apply(edits.PinStep(STIR, start=-40), seen=placed(-40, -15))
    desk.follow(placed(-41, -15))
    assert desk.seen_before.state.timetable == LATE, "what follows a drop belongs to it"
