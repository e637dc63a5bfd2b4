"""Why not: the public question. Sums first, the solver's word where no sum shows it, each asked again before told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from threading import Event

from core.arrange.demand import Demand, DemandKind, demands_of
from core.arrange.effort import Effort
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.problem import Problem
from core.arrange.reading import read
from core.arrange.search_parts import LARGE
from core.arrange.watch import Watch
from core.arrange.why.assumed import Assumed
from core.arrange.why.at_once import meets_at_once
from core.arrange.why.giving_up import with_only
from core.arrange.why.labels import Labels, labels_of
from core.arrange.why.narrowing import narrowed
from core.arrange.why.parts import last_hours, without_a_start
from core.arrange.why.placing import Tried, tried
from core.arrange.why.reason import Reason, ReasonKind, Repair, WhyNot
from core.arrange.why.repair import repair
from core.arrange.why.sums import by_sums, shown
from core.plan.day import Day
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

LONG = 7
"""Wishes in a set beyond which it helps nobody: in a feast that is not large a repair is told beside it."""
MOST_LOOKED_AT = 12
"""Wishes of a sum up to which each is left out once to see whether the sum needs it; longer sets are as they are."""
MOST_NARROWED = 24
"""Wishes of a sum beyond which it is told as it is, with a repair: to look for fewer takes seconds."""
_MOST_TOLD = 12
_LAST_HOURS = 0.12  # work for a look at the last hours, at least: what a feast of ninety steps takes
_AT_ONCE = 0.15  # work for a look at the whole
_QUICK = 0.1  # work for one look at a few wishes
_TINY = 40  # tasks below which every look may take its time
_MOST_DISHES = 4  # dishes without a start that are looked at
_PASS = 0.01  # work that a pass through a feast may take for each task
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
    Effort; a pass through the feast may take some more, by its size. Repeatable; any thread.
    """
    watch = Watch(Effort(work=work, limit=4 * work + 2), stop)
    problem = read(plan, day, timetable, asking=True)
    labels = labels_of(problem)
    told = by_sums(problem, labels)[:_MOST_TOLD]
    if told and all(reason.minimal for reason in told):  # no solver was needed
        return WhyNot(Fit.IMPOSSIBLE, tuple(told), proven=True)
    asking = _Asking(plan, timetable, day, Assumed(problem, watch), work)
    if told := _smallest(problem, labels, told, asking.assumed):
        mend = asking.mend(told)
        return WhyNot(Fit.IMPOSSIBLE, tuple(told), proven=True, repair=mend)
    reason = asking.reason_of(asking.core(labels))
    if reason is not None:
        return WhyNot(Fit.IMPOSSIBLE, (reason,), proven=True, repair=asking.mend((reason,)))
    return asking.in_pass() if len(problem.tasks) >= LARGE else asking.as_a_whole()


@dataclass(frozen=True, slots=True)
class _Asking:
    """One question that no sum answers."""

    plan: Plan
    timetable: Timetable | None
    day: Day | None
    assumed: Assumed
    work: float

    def core(self, labels: Labels) -> tuple[Demand, ...] | None:
        """Return wishes that a quick look finds impossible: of one dish, of the last hours, of a small feast whole."""
        problem, core = self.assumed.problem, None
        parts = without_a_start(problem)[:_MOST_DISHES]
        for steps in (*parts, *last_hours(problem, labels)):
            if core is None and len(steps) < len(problem.loads):
                share = (0.05 if steps in parts else 0.02) * self.work
                core = self.assumed.core_of(steps, max(share, _LAST_HOURS))
        if core is None and len(problem.tasks) < LARGE:
            core = self.assumed.core(0.05 * self.work)
        return core

    def reason_of(self, core: tuple[Demand, ...] | None) -> Reason | None:
        """Return a core as a reason that is as small as can be and was asked twice; None where it does not hold."""
        if core is None:
            return None
        few, smallest = narrowed(core, self.assumed.impossible)
        if self.assumed.surely(few):
            return Reason(ReasonKind.WISHES, few, minimal=smallest)
        return Reason(ReasonKind.WISHES, core) if self.assumed.surely(core) else None

    def as_a_whole(self) -> WhyNot:
        """Return the answer for a feast that is small enough to be looked at whole."""
        if len(self.assumed.problem.tasks) >= _TINY:
            meets = meets_at_once(self.plan, self.assumed.watch, _AT_ONCE, near=self.timetable, day=self.day)
            if meets:
                return WhyNot(Fit.MEETS, proven=True)
            passed = self.in_pass() if meets is None else None
            if passed is not None and (passed.fit is not Fit.NOT_FOUND or passed.repair is not None):
                return passed
        return self.by_proof()

    def by_proof(self) -> WhyNot:
        """Return the answer where it is worth to look for a proof that there is no timetable at all."""
        stop, tiny = self.assumed.watch.stop, len(self.assumed.problem.tasks) < _TINY
        share = 0.4 if tiny else 0.15
        fit = possible(self.plan, share * self.work, near=self.timetable, day=self.day, stop=stop).fit
        if fit is Fit.MEETS:
            return WhyNot(Fit.MEETS, proven=True)
        reason = self.reason_of(self.assumed.core(0.25 * self.work))
        if reason is not None:
            return WhyNot(Fit.IMPOSSIBLE, (reason,), proven=True, repair=self.mend((reason,)))
        if fit is Fit.NOT_FOUND:
            return WhyNot(fit, repair=self.mend(()))
        reasons = _by_plans(self.plan, self.day, self.work, stop)
        mend = self.mend(reasons) if all(len(each.demands) > LONG for each in reasons) else None
        return WhyNot(fit, reasons, proven=True, repair=mend)

    def in_pass(self) -> WhyNot:
        """Return the answer of one pass: that all meets, a dish that cannot be, or what was given up."""
        watch = self.assumed.watch
        if self.timetable is not None and len(self.assumed.problem.tasks) >= LARGE:
            near = possible(self.plan, 0.1 * self.work, near=self.timetable, day=self.day, stop=watch.stop)
            if near.fit is Fit.MEETS:
                return WhyNot(Fit.MEETS, proven=True)
        passed = self._passed()
        if passed.dropped == ():
            return WhyNot(Fit.MEETS, proven=True)
        for steps in passed.hard:
            reason = self.reason_of(self.assumed.core_of(steps, 0.02 * self.work))
            if reason is not None:
                return WhyNot(Fit.IMPOSSIBLE, (reason,), proven=True)
        return WhyNot(Fit.NOT_FOUND, repair=_as_repair(passed))

    def mend(self, told: Sequence[Reason]) -> Repair | None:
        """Return what to give up instead: the least for a small feast, what a pass gave up for another.

        None where what is told is short enough; a large feast, where that takes seconds, bears longer sets.
        """
        size = len(self.assumed.problem.tasks)
        bearable = LONG if size < LARGE else MOST_NARROWED
        if told and all(len(each.demands) <= bearable for each in told):
            return None
        found = _as_repair(self._passed()) if size >= _TINY else None
        if found is None and size < LARGE:
            stop = self.assumed.watch.stop
            found = repair(self.plan, self.assumed, 0.12 * self.work, day=self.day, stop=stop)
        return found

    def _passed(self) -> Tried:
        watch = self.assumed.watch
        watch.more(_PASS * len(self.assumed.problem.tasks))
        return tried(self.plan, watch, near=self.timetable, day=self.day)


def _as_repair(passed: Tried) -> Repair | None:
    return Repair(passed.dropped, best=False) if passed.dropped else None


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
    if len(reason.demands) > MOST_NARROWED:
        return reason.demands, False
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
    """Return the reason found by trying whole plans: slower, for what the solver's literals leave open.

    Many wishes are taken kind by kind. The whole plan is known to be impossible, so that there is always one.
    """
    wishes = demands_of(plan)
    watch = Watch(Effort(work=work, limit=4 * work + 2), stop)
    some = wishes if len(wishes) <= _FEW else _by_kinds(plan, day, watch, wishes)
    few, smallest = narrowed(some, partial(_impossible, plan, day, watch)) if len(some) <= _FEW else (some, False)
    sure = _impossible(plan, day, watch, few) is True
    return (Reason(ReasonKind.WISHES, few if sure else wishes, minimal=smallest and sure),)


def _by_kinds(plan: Plan, day: Day | None, watch: Watch, wishes: Sequence[Demand]) -> tuple[Demand, ...]:
    """Return the wishes of the fewest kinds that cannot be kept."""

    def impossible(kinds: Sequence[DemandKind]) -> bool | None:
        return _impossible(plan, day, watch, [each for each in wishes if each.kind in kinds])

    kinds, _sure = narrowed(tuple(dict.fromkeys(each.kind for each in wishes)), impossible)
    return tuple(each for each in wishes if each.kind in kinds)


def _impossible(plan: Plan, day: Day | None, watch: Watch, kept: Sequence[Demand]) -> bool | None:
    if watch.over:
        return None
    fit = possible(with_only(plan, kept), 0.5, day=day, stop=watch.stop).fit
    return None if fit is Fit.NOT_FOUND else fit is Fit.IMPOSSIBLE
