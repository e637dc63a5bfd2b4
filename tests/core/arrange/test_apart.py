"""The arranging process: started once, answers, stops, survives faults, is gone when closed. A real process."""

import os
import signal
import time
from collections.abc import Iterator
from queue import Empty, Queue

import pytest

from core.arrange import Effort, Fit
from core.arrange.apart import Answer, Apart, Work
from core.timetable.clashes import clashes
from tests.outside.jobshop import as_plan
from tests.support.builders import a_bench, a_kitchen, a_step, chained

LITTLE = Effort(work=0.5)
LONG = Effort(work=100_000.0)
PATIENCE = 30.0  # seconds, for a machine that is busy: OR-Tools alone takes one to come in


class Listener:
    """An arranging process and what was heard from it."""

    def __init__(self) -> None:
        self.heard: Queue[Answer] = Queue()
        self.apart = Apart(self.heard.put)

    def last(self, number: int) -> tuple[Answer, list[Answer]]:
        """Return the last answer to a request, and those before it, of whatever request."""
        before: list[Answer] = []
        until = time.monotonic() + PATIENCE
        while True:
            answer = self.heard.get(timeout=max(0.01, until - time.monotonic()))
            if answer.last and answer.number == number:
                return answer, before
            before.append(answer)

    @property
    def process(self):
        return self.apart._process


@pytest.fixture
def listener() -> Iterator[Listener]:
    found = Listener()
    yield found
    process = found.process
    found.apart.close()
    assert process is None or process.poll() is not None


@pytest.fixture
def supper():
    steps = [a_step(f"soup.{number}", minutes=5) for number in (1, 2, 3)]
    return a_bench(*steps, links=chained(*steps, most=10), kitchen=a_kitchen(cooks=1), transfer=0)


def endless():
    """Return a plan on which the search has something to do for hours."""
    return as_plan("ft10")[0]


def test_nothing_is_started_before_it_is_asked(listener):
    assert listener.process is None


def test_it_answers_by_number_and_says_which_is_the_last(listener, supper):
    listener.apart.ask(Work(7, supper, effort=LITTLE))
    answer, before = listener.last(7)
    assert answer.fault == ""
    assert answer.outcome.fit is Fit.MEETS
    assert clashes(supper, answer.outcome.timetable) == ()
    assert all(each.number == 7 and not each.last and each.fault == "" for each in before)
    assert before[-1].outcome.timetable == answer.outcome.timetable


def test_it_is_started_once_and_kept(listener, supper):
    listener.apart.warm()
    first = listener.process.pid
    for number in (1, 2, 3):
        listener.apart.ask(Work(number, supper, effort=LITTLE))
        assert listener.last(number)[0].outcome.fit is Fit.MEETS
    assert listener.process.pid == first


def test_a_stop_ends_it_soon_with_what_it_has(listener):
    listener.apart.ask(Work(1, endless(), effort=LONG))
    first = listener.heard.get(timeout=PATIENCE)
    assert not first.last
    listener.apart.stop()
    since = time.monotonic()
    answer, _before = listener.last(1)
    assert time.monotonic() - since < 5
    assert answer.outcome.stopped
    assert answer.outcome.score <= first.outcome.score
    assert clashes(endless(), answer.outcome.timetable) == ()


def test_a_stop_when_nothing_runs_stops_nothing(listener, supper):
    listener.apart.stop()
    listener.apart.ask(Work(1, supper, effort=LITTLE))
    assert listener.last(1)[0].outcome.fit is Fit.MEETS
    listener.apart.stop()
    listener.apart.ask(Work(2, supper, effort=LITTLE))
    answer, _before = listener.last(2)
    assert not answer.outcome.stopped


def test_a_newer_request_ends_the_one_that_runs(listener, supper):
    listener.apart.ask(Work(1, endless(), effort=LONG))
    assert listener.heard.get(timeout=PATIENCE).number == 1
    listener.apart.ask(Work(2, supper, effort=LITTLE))
    answer, before = listener.last(2)
    assert answer.outcome.fit is Fit.MEETS
    assert [each.number for each in before if each.last] == [1]


def test_of_many_requests_at_once_the_last_is_answered(listener, supper):
    for number in range(1, 31):
        listener.apart.ask(Work(number, supper, effort=LITTLE))
    answer, before = listener.last(30)
    assert answer.outcome.fit is Fit.MEETS
    numbers = [each.number for each in before]
    assert numbers == sorted(numbers)


def test_after_a_drop_it_gives_the_nearest(listener, supper):
    listener.apart.ask(Work(1, supper, effort=LITTLE))
    seen = listener.last(1)[0].outcome.timetable
    listener.apart.ask(Work(2, supper, seen=seen, near=True))
    answer, before = listener.last(2)
    assert before == []
    assert {each.key: each.start for each in answer.outcome.timetable.placed} == {
        each.key: each.start for each in seen.placed
    }


def test_a_fault_is_told_and_the_process_lives_on(listener, supper):
    listener.apart.ask(Work(1, None, effort=LITTLE))
    answer, _before = listener.last(1)
    assert answer.outcome is None
    assert "Traceback" in answer.fault
    pid = listener.process.pid
    listener.apart.ask(Work(2, supper, effort=LITTLE))
    assert listener.last(2)[0].outcome.fit is Fit.MEETS
    assert listener.process.pid == pid


def test_a_process_that_dies_is_told_and_the_next_request_starts_another(listener, supper):
    listener.apart.ask(Work(1, endless(), effort=LONG))
    listener.heard.get(timeout=PATIENCE)
    os.kill(listener.process.pid, signal.SIGKILL)
    answer, _before = listener.last(1)
    assert answer.outcome is None
    assert answer.fault != ""
    listener.apart.ask(Work(2, supper, effort=LITTLE))
    assert listener.last(2)[0].outcome.fit is Fit.MEETS


def test_one_that_died_while_idle_is_replaced(listener, supper):
    listener.apart.warm()
    process = listener.process
    process.kill()
    process.wait(10)
    listener.apart.ask(Work(1, supper, effort=LITTLE))
    assert listener.last(1)[0].outcome.fit is Fit.MEETS
    assert listener.process.pid != process.pid


def test_closing_in_the_middle_leaves_no_child(listener):
    listener.apart.ask(Work(1, endless(), effort=LONG))
    listener.heard.get(timeout=PATIENCE)
    process = listener.process
    listener.apart.close()
    assert process.poll() is not None
    with pytest.raises(ProcessLookupError):
        os.kill(process.pid, 0)
    listener.apart.close()  # twice is as good as once


def test_after_closing_nothing_more_is_heard_and_it_can_begin_again(listener, supper):
    listener.apart.ask(Work(1, supper, effort=LITTLE))
    listener.last(1)
    listener.apart.close()
    with pytest.raises(Empty):
        listener.heard.get(timeout=0.2)
    listener.apart.ask(Work(2, supper, effort=LITTLE))
    assert listener.last(2)[0].outcome.fit is Fit.MEETS
