"""What the acceptance scenarios share: served at 19:00 on a Saturday, clock times in and out, answers that hold."""

from __future__ import annotations

from threading import Event

from core.arrange import Effort, Fit, Outcome, arrange
from core.plan.check import problems
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.clashes import clashes

SERVED = "2026-09-26 19:00"
DAYS = {"Tue": 4, "Wed": 3, "Thu": 2, "Fri": 1, "Sat": 0}
ENOUGH = Effort(work=4.0)


def at(when: str) -> int:
    """Return the offset of "18:30" or "Fri 14:30" from 19:00 on Saturday."""
    day, _space, clock = when.rpartition(" ")
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes) - 19 * 60 - DAYS[day or "Sat"] * 24 * 60


def clock(offset: int) -> str:
    """Return an offset as "18:30", with its day where that is not Saturday."""
    days, minute = divmod(offset + 19 * 60, 24 * 60)
    names = {-number: day for day, number in DAYS.items()}
    return f"{'' if days == 0 else names[days] + ' '}{minute // 60:02}:{minute % 60:02}"


def answer(plan: Plan, effort: Effort = ENOUGH) -> Outcome:
    """Return the outcome of a plan that is one, with what it says of clashes checked."""
    assert problems(plan) == ()
    outcome = arrange(plan, effort)
    assert outcome.clashes == clashes(plan, outcome.timetable)
    return outcome


def times(plan: Plan, effort: Effort = ENOUGH) -> dict[str, str]:
    """Return when each load begins in a timetable that meets; a later load is "step/2"."""
    outcome = answer(plan, effort)
    assert outcome.fit is Fit.MEETS, [each.sentence for each in outcome.clashes]
    assert outcome.clashes == ()
    return {
        each.step + (f"/{each.load + 1}" if each.load else ""): clock(each.start)
        for each in outcome.timetable.placed
    }


def impossible(plan: Plan, effort: Effort = ENOUGH) -> Outcome:
    """Return the outcome of a plan that cannot meet: its nearest timetable must not meet either."""
    outcome = answer(plan, effort)
    assert outcome.fit is Fit.IMPOSSIBLE
    assert outcome.clashes != ()
    return outcome


def only_clash(outcome: Outcome) -> Clash:
    """Return the one clash that the nearest timetable has."""
    assert len(outcome.clashes) == 1, [each.sentence for each in outcome.clashes]
    return outcome.clashes[0]


def first_answer(plan: Plan, effort: Effort = ENOUGH) -> Outcome:
    """Return the outcome of a search that is stopped at its first timetable, however much it might improve."""
    stop = Event()
    return arrange(plan, effort, better=lambda _outcome: stop.set(), stop=stop)
