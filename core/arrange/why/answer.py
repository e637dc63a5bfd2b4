"""Why not: the public question. Sums first, the solver's word where no sum shows it, each asked again before told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from threading import Event

from core.arrange.demand import Demand, demands_of
from core.arrange.effort import Effort
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.problem import Problem
from core.arrange.reading import read
from core.arrange.watch import Watch
from core.arrange.why.assumed import Assumed
from core.arrange.why.giving_up import with_only
from core.arrange.why.labels import Labels, labels_of
from core.arrange.why.narrowing import narrowed
from core.arrange.why.parts import last_hours
from core.arrange.why.reason import Reason, ReasonKind, WhyNot
from core.arrange.why.repair import repair
from core.arrange.why.sums import by_sums, shown
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

LONG = 7
"""Wishes in a set beyond which it helps nobody: the least repair is told beside it."""
MOST_LOOKED_AT = 12
"""Wishes of a sum up to which each is left out once to see whether the sum needs it; longer sets are as they are."""
_MOST_TOLD = 12
_QUICK = 0.1  # work for one look at a few wishes
_FEW = 40  # wishes up to which whole plans are tried one by one where the solver's literals show nothing


def why_not(
    plan: Plan,
    timetable: Timetable | None = None,
    *,
    day: Day | None = None,
    work: float = 2.0,
    stop: Event | None = None,
) -> WhyNot:
    """Return why a plan cannot be met, as sets of wishes none of which can be left out; MEETS where it can be.

    `timetable`: the one seen, perhaps with clashes; what has begun of it counts on the day itself. `work` as in
    Effort. Repeatable; any thread.
    """
    watch = Watch(Effort(work=work, limit=4 * work + 2), stop)
    problem = read(plan, day, timetable, asking=True)
    labels = labels_of(problem)
    told = by_sums(problem, labels)[:_MOST_TOLD]
    if told and all(reason.minimal for reason in told):  # no solver was needed
        return WhyNot(Fit.IMPOSSIBLE, tuple(told), proven=True)
    assumed = Assumed(problem, watch)
    if told := _smallest(problem, labels, told, assumed):
        mend = None
        if any(len(reason.demands) > LONG for reason in told):
            mend = repair(plan, assumed, 0.12 * work, day=day, stop=stop)
        return WhyNot(Fit.IMPOSSIBLE, tuple(told), proven=True, repair=mend)
    core = _core(labels, assumed, work)
    return _by_solver(plan, timetable, day, assumed, core, work)


def _core(labels: Labels, assumed: Assumed, work: float) -> tuple[Demand, ...] | None:
    """Return wishes that a quick look finds impossible: at all steps, then at those of the last hours alone."""
    core = assumed.core(0.05 * work)
    for steps in last_hours(assumed.problem, labels):
        core = core if core is not None else assumed.core_of(steps, 0.05 * work)
    return core


def _by_solver(
    plan: Plan,
    timetable: Timetable | None,
    day: Day | None,
    assumed: Assumed,
    core: tuple[Demand, ...] | None,
    work: float,
) -> WhyNot:
    """Return what the solver finds where no sum shows anything; without a `core`, first whether it can be met."""
    stop = assumed.watch.stop
    fit = Fit.NOT_FOUND
    if core is None:
        fit = possible(plan, 0.4 * work, near=timetable, day=day, stop=stop).fit
        if fit is Fit.MEETS:
            return WhyNot(Fit.MEETS, proven=True)
        core = assumed.core(0.25 * work)
    if core is not None:
        few, smallest = narrowed(core, assumed.impossible)
        if not assumed.surely(few):
            few, smallest = core, False
        if few is not core or assumed.surely(core):
            reason = Reason(ReasonKind.WISHES, few, minimal=smallest)
            mend = repair(plan, assumed, 0.12 * work, day=day, stop=stop) if len(few) > LONG else None
            return WhyNot(Fit.IMPOSSIBLE, (reason,), proven=True, repair=mend)
    if fit is Fit.IMPOSSIBLE:
        reasons = _by_plans(plan, day, work, stop)
        mend = None if reasons else repair(plan, assumed, 0.12 * work, day=day, stop=stop)
        return WhyNot(Fit.IMPOSSIBLE, reasons, proven=True, repair=mend)
    return WhyNot(Fit.NOT_FOUND, repair=repair(plan, assumed, 0.12 * work, day=day, stop=stop))


def _smallest(
    problem: Problem, labels: Labels, reasons: Sequence[Reason], assumed: Assumed
) -> list[Reason]:
    """Return reasons with no wish too many, by their sums and by the solver; one it contradicts is not told."""
    found: list[Reason] = []
    for reason in reasons:
        if reason.minimal:
            found.append(reason)
        elif assumed.impossible(reason.demands, _QUICK) is not False:
            few, smallest = _few(problem, labels, reason, assumed)
            found.append(replace(reason, demands=few, minimal=smallest))
    return found


def _few(
    problem: Problem, labels: Labels, reason: Reason, assumed: Assumed
) -> tuple[tuple[Demand, ...], bool]:
    """Return the wishes of a reason that its sum needs, and whether the solver finds that it needs them all.

    Where it does not, the solver looks for fewer; in long sets it does not look.
    """
    by_sum = partial(shown, problem, labels, like=reason)
    few, _sure = narrowed(reason.demands, by_sum) if by_sum(reason.demands) else (reason.demands, False)
    if len(few) > MOST_LOOKED_AT:
        return few, False
    answers = [
        assumed.impossible([each for each in few if each is not demand], _QUICK) for demand in few
    ]
    if True in answers:
        return narrowed(few, partial(_cannot, by_sum, assumed))
    return few, None not in answers


def _cannot(
    by_sum: Callable[[Sequence[Demand]], bool], assumed: Assumed, kept: Sequence[Demand]
) -> bool | None:
    return True if by_sum(kept) else assumed.impossible(kept, _QUICK)


def _by_plans(plan: Plan, day: Day | None, work: float, stop: Event | None) -> tuple[Reason, ...]:
    """Return the reason found by trying whole plans: slower, for what the solver's literals leave open."""
    wishes = demands_of(plan)
    if len(wishes) > _FEW:
        return ()
    watch = Watch(Effort(work=work, limit=4 * work + 2), stop)
    few, smallest = narrowed(wishes, partial(_impossible, plan, day, watch))
    if _impossible(plan, day, watch, few) is not True:
        return ()
    return (Reason(ReasonKind.WISHES, few, minimal=smallest),)


def _impossible(plan: Plan, day: Day | None, watch: Watch, kept: Sequence[Demand]) -> bool | None:
    if watch.over:
        return None
    fit = possible(with_only(plan, kept), 0.5, day=day, stop=watch.stop).fit
    return None if fit is Fit.NOT_FOUND else fit is Fit.IMPOSSIBLE
