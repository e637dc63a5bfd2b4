from __future__ import annotations

from collections.abc import Iterator

import pytest

from app.bridge import Adviser, Arranger, OpenPlan, Question
from core.arrange.apart import Answer, Ask
from core.arrange.outcome import Fit
from core.desk import Aim, Desk
from core.plan.edits import RenamePlan
from core.plan.step import Keep, Manner
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step

LONG = 60_000


def fits():
    """Return a plan whose two dishes one cook can do one after the other, with a spread that may make it late."""
    soup = a_dish("soup", a_step("soup.stir", minutes=(15, 20, 30)), keep=Keep(60))
    roots = a_dish("roots", a_step("roots.fry", minutes=(15, 20, 30)), keep=Keep(5))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0, manner=Manner.LIKELY)


def too_much():
    """Return a plan that asks one cook for two things at once."""
    soup = a_dish("soup", a_step("soup.stir", minutes=20), keep=Keep(0))
    roots = a_dish("roots", a_step("roots.fry", minutes=20), keep=Keep(0))
    return a_plan(soup, roots, kitchen=a_kitchen(cooks=1), transfer=0, manner=Manner.LIKELY)


class Heard:
    """What an adviser told, in order."""

    def __init__(self, adviser: Adviser) -> None:
        self.began, self.parts, self.wholes, self.failed = [], [], [], []
        adviser.began.connect(self.began.append)
        adviser.part.connect(lambda ask, told: self.parts.append((ask, told)))
        adviser.whole.connect(lambda ask, told: self.wholes.append((ask, told)))
        adviser.failed.connect(lambda ask, why: self.failed.append((ask, why)))


@pytest.fixture
def made(qapp) -> Iterator:
    arrangers = []

    def make(plan) -> tuple[OpenPlan, Arranger, Adviser, Heard]:
        opened = OpenPlan(Desk(plan, timetable=on_paper(plan)))
        arranger = Arranger(opened)
        arrangers.append(arranger)
        adviser = Adviser(opened, arranger)
        return opened, arranger, adviser, Heard(adviser)

    yield make
    for arranger in arrangers:
        arranger.close()


def test_why_and_then_ways_each_proven(made, qtbot) -> None:
    opened, _arranger, adviser, heard = made(too_much())
    adviser.ask(Question(Ask.WHY, 2.0), Question(Ask.WAYS, 0.3))
    qtbot.waitUntil(lambda: len(heard.wholes) == 2, timeout=LONG)
    (_why, answer), (_ways, ways) = heard.wholes
    assert answer.fit is Fit.IMPOSSIBLE
    assert answer.reasons
    assert heard.began == [Ask.WHY, Ask.WAYS]
    assert ways
    assert {way.kind for ask, way in heard.parts if ask is Ask.WAYS} >= {way.kind for way in ways}
    for way in ways:
        assert clashes(way.edit(opened.plan), way.timetable) == ()
    assert not adviser.busy


def test_how_good_how_sure_how_late_and_other_days(made, qtbot) -> None:
    opened, arranger, adviser, heard = made(fits())
    with qtbot.waitSignal(arranger.ended, timeout=LONG):
        arranger.ask(Aim.ARRANGE, seconds=1)
    adviser.ask(
        Question(Ask.CHANCES),
        Question(Ask.LATE, at=-30, minutes=10),
        Question(Ask.QUALITY, 1.0),
        Question(Ask.SEVERAL, 1.0),
    )
    qtbot.waitUntil(lambda: len(heard.wholes) == 4, timeout=LONG)
    told = dict(heard.wholes)
    assert 0 < told[Ask.CHANCES].on_time < 1
    patience, late = told[Ask.LATE]
    assert (patience.now, late.minutes) == (-30, 10)
    assert [wish.reached for wish in told[Ask.QUALITY]] != []
    assert all(clashes(opened.plan, day.timetable) == () for day in told[Ask.SEVERAL])
    assert told[Ask.SEVERAL]


def test_an_arrangement_goes_first_and_what_it_cut_off_is_asked_again(made, qtbot) -> None:
    _opened, arranger, adviser, heard = made(too_much())
    adviser.ask(Question(Ask.WAYS, 5.0))
    arranger.ask(Aim.FOLLOW)
    assert adviser.busy
    with qtbot.waitSignal(arranger.ended, timeout=LONG):
        pass
    qtbot.waitUntil(lambda: heard.began == [Ask.WAYS, Ask.WAYS], timeout=LONG)
    adviser.stop()


def test_nothing_is_asked_while_an_arrangement_runs(made, qtbot) -> None:
    _opened, arranger, adviser, heard = made(fits())
    arranger.ask(Aim.ARRANGE, seconds=2)
    adviser.ask(Question(Ask.CHANCES))
    assert heard.began == []
    with qtbot.waitSignal(arranger.ended, timeout=LONG):
        pass
    qtbot.waitUntil(lambda: len(heard.wholes) == 1, timeout=LONG)


def test_an_answer_about_a_plan_that_has_changed_is_dropped(made, qtbot) -> None:
    opened, _arranger, adviser, heard = made(fits())
    adviser.ask(Question(Ask.CHANCES))
    opened.apply(RenamePlan("Another"))
    qtbot.waitUntil(lambda: not adviser.busy, timeout=LONG)
    assert heard.wholes == []
    adviser.ask(Question(Ask.LATE, at=-10))
    qtbot.waitUntil(lambda: len(heard.wholes) == 1, timeout=LONG)
    assert heard.wholes[0][0] is Ask.LATE


def test_a_newer_question_of_the_same_kind_takes_the_place_of_the_one_that_runs(made, qtbot) -> None:
    _opened, _arranger, adviser, heard = made(fits())
    adviser.ask(Question(Ask.LATE, at=-30))
    adviser.also(Question(Ask.LATE, at=-20))
    qtbot.waitUntil(lambda: not adviser.busy, timeout=LONG)
    assert [told[0].now for _ask, told in heard.wholes] == [-20]


def test_a_fault_of_ours_is_told_and_the_next_question_is_asked(made, qtbot, caplog) -> None:
    _opened, arranger, adviser, heard = made(fits())
    asked = arranger._apart.ask

    def broken(work) -> None:
        arranger._apart.ask = asked
        arranger._arrived.emit(Answer(work.number, None, True, "Trace\nZeroDivisionError"))

    arranger._apart.ask = broken
    adviser.ask(Question(Ask.CHANCES), Question(Ask.LATE, at=-30))
    qtbot.waitUntil(lambda: len(heard.wholes) == 1, timeout=LONG)
    assert heard.failed == [(Ask.CHANCES, "ZeroDivisionError")]
    assert heard.wholes[0][0] is Ask.LATE
    assert "ZeroDivisionError" in caplog.text


def test_a_process_that_cannot_be_asked_is_told(made) -> None:
    _opened, arranger, adviser, heard = made(fits())

    def refused(_work) -> None:
        raise OSError("no more processes")

    arranger._apart.ask = refused
    adviser.ask(Question(Ask.CHANCES))
    assert heard.failed == [(Ask.CHANCES, "no more processes")]
