"""Ways out that a plan is offered, each checked: applied, it meets; its timetable has no clash."""

from __future__ import annotations

from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.ways import WayKind, WayOut, ways_out
from core.arrange.ways.asking import later_day
from core.plan.check import problems
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.clashes import clashes


def offers(plan: Plan, *kinds: WayKind, work: float = 1.0, day: Day | None = None) -> tuple[WayOut, ...]:
    """Return what a plan is offered, of some kinds or all, ranked; every offer is checked."""
    heard: list[WayOut] = []
    found = ways_out(plan, work=work, kinds=kinds or None, hear=heard.append, day=day)
    assert set(found) <= set(heard)
    assert [way.price for way in found] == sorted(way.price for way in found)
    for way in found:
        eased = way.edit(plan)
        assert len(problems(eased)) <= len(problems(plan))
        moment = later_day(day, way.size) if day and way.kind is WayKind.SERVE_LATER else day
        assert clashes(eased, way.timetable, day=moment) == ()
        assert possible(eased, work, near=way.timetable, day=moment).fit is Fit.MEETS
    return found


def only(plan: Plan, kind: WayKind) -> tuple[WayOut, ...]:
    """Return the offers of one kind."""
    return offers(plan, kind)
