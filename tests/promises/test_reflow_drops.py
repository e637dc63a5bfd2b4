"""After a drop, on any small feast: pins hold, nothing clashes, what stays stays whole, what is heard is better."""

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.possible import possible
from core.arrange.reflowing import reflow
from core.plan.edits import PinStep
from core.timetable.clashes import clashes
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.5)
SOME = settings(max_examples=tries(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])


def drawn(plan, data):
    """Return the plan arranged, and with a load of it pinned somewhere near where it was."""
    outcome = arrange(plan, LITTLE)
    assume(outcome.fit is Fit.MEETS)
    placed = data.draw(st.sampled_from(outcome.timetable.placed))
    start = placed.start + data.draw(st.integers(-15, 5))
    return outcome.timetable, placed.key, PinStep(*placed.key, start)(plan), start


def amount(timetable, seen):
    return sum(abs(each.start - seen.at[each.key].start) for each in timetable.placed)


@SOME
@given(small_feasts(), st.data())
def test_all_that_is_heard_holds_the_pin_and_moves_less_each_time(plan, data):
    seen, key, pinned, start = drawn(plan, data)
    heard = []
    found = reflow(pinned, seen, better=heard.append)
    event("none" if found is None else f"heard {min(len(heard), 2)}")
    if found is None or found.fit is not Fit.MEETS:  # another search, from nothing, finds none either
        assert possible(pinned, 2.0, near=seen).fit is not Fit.MEETS
    for each in heard:
        assert each.fit is Fit.MEETS
        assert clashes(pinned, each.timetable) == ()
        assert each.timetable.at[key].start == start
    amounts = [amount(each.timetable, seen) for each in heard]
    assert amounts == sorted(set(amounts), reverse=True)
    if found is not None and found.fit is Fit.MEETS:
        assert clashes(pinned, found.timetable) == ()
        assert found.timetable.at[key].start == start


@SOME
@given(small_feasts(), st.data())
def test_the_answer_is_where_nothing_moves_any_more(plan, data):
    seen, _key, pinned, _start = drawn(plan, data)
    found = reflow(pinned, seen)
    if found is None or found.fit is not Fit.MEETS:
        event("none")
        return
    event("found")
    again = reflow(pinned, found.timetable)
    assert again is not None
    assert again.timetable.placed == found.timetable.placed
    assert again.rounds == 0
