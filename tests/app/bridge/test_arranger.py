from __future__ import annotations

import signal
from collections.abc import Iterator

import pytest

from app.bridge import Arranger, OpenPlan
from core.arrange.apart import Answer
from core.arrange.outcome import Fit
from core.desk import Aim, Desk
from core.plan.edits import PinStep, RenamePlan
from core.plan.step import Keep
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step

LONG = 30_000


def two_at_once():
    """Return a plan whose two dishes, counted back on paper, want the one cook at the same time."""
    soup = a_dish("soup", a_step("soup.stir", minutes=20), keep=Keep(60))
    roots = a_dish("roots", a_step("roots.fry", minutes=20), keep=Keep(5))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1))


@pytest.fixture
def opened(qapp) -> OpenPlan:
    plan = two_at_once()
    return OpenPlan(Desk(plan, timetable=on_paper(plan)))


@pytest.fixture
def arranger(opened: OpenPlan) -> Iterator[Arranger]:
    made = Arranger(opened)
    yield made
    made.close()


def test_an_arrangement_is_taken_as_one_undo(opened: OpenPlan, arranger: Arranger, qtbot) -> None:
    assert opened.clashes
    before = opened.timetable
    begun, heard = [], []
    arranger.began.connect(begun.append)
    arranger.better.connect(heard.append)
    with qtbot.waitSignal(arranger.ended, timeout=LONG) as told:
        arranger.ask(Aim.ARRANGE, seconds=2)
    outcome = told.args[0]
    assert begun == [Aim.ARRANGE.value]
    assert heard[-1].timetable == outcome.timetable
    assert outcome.fit is Fit.MEETS
    assert opened.timetable == outcome.timetable
    assert opened.clashes == ()
    assert not arranger.busy
    opened.undo()
    assert opened.timetable == before


def test_what_follows_a_drop_is_undone_with_it(opened: OpenPlan, arranger: Arranger, qtbot) -> None:
    before = opened.timetable
    opened.apply(PinStep("soup.stir", start=-50))
    with qtbot.waitSignal(arranger.ended, timeout=LONG) as told:
        arranger.ask(Aim.FOLLOW)
    assert told.args[0].fit is Fit.MEETS
    assert opened.timetable.at["soup.stir", 0].start == -50
    opened.undo()
    assert (opened.timetable, opened.plan) == (before, two_at_once())


def test_an_answer_about_a_plan_that_has_changed_is_dropped(opened: OpenPlan, arranger: Arranger, qtbot) -> None:
    before = opened.timetable
    arranger.ask(Aim.ARRANGE, seconds=2)
    opened.apply(RenamePlan("Another"))
    with qtbot.waitSignal(arranger.ended, timeout=LONG) as told:
        pass
    assert told.args[0] is None
    assert opened.timetable == before


def test_a_process_that_dies_is_told_and_the_next_request_has_a_new_one(
    opened: OpenPlan, arranger: Arranger, qtbot, caplog
) -> None:
    arranger.warm()
    arranger._apart._process.send_signal(signal.SIGSTOP)  # so that no answer comes before it dies
    with qtbot.waitSignal(arranger.failed, timeout=LONG) as told:
        arranger.ask(Aim.ARRANGE, seconds=60)
        arranger._apart._process.kill()
    assert "ended by itself" in told.args[0]
    assert not arranger.busy
    with qtbot.waitSignal(arranger.ended, timeout=LONG) as ended:
        arranger.ask(Aim.ARRANGE, seconds=2)
    assert ended.args[0].fit is Fit.MEETS


def test_a_process_that_said_its_last_is_not_asked_again_though_it_has_not_ended_yet(
    arranger: Arranger, qtbot, monkeypatch, caplog
) -> None:
    arranger.warm()
    dying = arranger._apart._process
    dying.send_signal(signal.SIGSTOP)
    with qtbot.waitSignal(arranger.failed, timeout=LONG):
        arranger.ask(Aim.ARRANGE, seconds=60)
        dying.kill()
    monkeypatch.setattr(dying, "poll", lambda: None)  # as the system may answer for some milliseconds
    with qtbot.waitSignal(arranger.ended, timeout=LONG) as ended:
        arranger.ask(Aim.ARRANGE, seconds=2)
    assert ended.args[0].fit is Fit.MEETS
    assert arranger._apart._process is not dying


def test_a_fault_of_ours_is_told_and_nothing_changes(opened: OpenPlan, arranger: Arranger, qtbot, caplog) -> None:
    before = opened.timetable
    fault = "Trace\nZeroDivisionError"
    arranger._apart.ask = lambda work: arranger._arrived.emit(Answer(work.number, None, True, fault))
    with qtbot.waitSignal(arranger.failed, timeout=LONG) as told:
        arranger.ask(Aim.ARRANGE)
    assert told.args == ["ZeroDivisionError"]
    assert opened.timetable == before


def test_an_answer_read_after_the_arranger_is_gone_is_dropped(qtbot) -> None:
    import shiboken6

    from core.arrange.apart import Answer

    arranger = Arranger(OpenPlan(Desk(a_plan())))
    hear = arranger._hear
    shiboken6.delete(arranger)
    hear(Answer(1, None, True))
