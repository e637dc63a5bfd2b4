"""Arranging: first clash-free timetable, quality after a while against a long run, re-flow after a drop."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import as_file, files
from random import Random

from bench.feasts import SIZES, feast
from bench.row import Row, share, show
from core.arrange.arranging import arrange
from core.arrange.effort import Effort
from core.arrange.outcome import Fit, Outcome
from core.arrange.reflowing import reflow
from core.intake.text_plan import read_file
from core.plan.edits import PinStep
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.timetable import Placed, Timetable

LONG = 6
"""The long run is so many times as long as the one it judges: 60 s against 10 s."""
DROPS = 30
FURTHEST = 60
_FIRST = {"demo feast": "1 s", "84 steps": "0.3 s", "203 steps": "1 s", "399 steps": "5 s"}
_BEST = {"84 steps": "5 s", "203 steps": "10 s", "399 steps": "30 s"}
_DROP = {"demo feast": "300 ms", "84 steps": "100 ms", "203 steps": "250 ms", "399 steps": "500 ms"}


@dataclass(frozen=True, slots=True)
class Heard:
    """A better timetable: when it came by the clock and by the work of this process, in seconds."""

    at: float
    worked: float
    outcome: Outcome


def rows(seconds: float) -> Iterator[Row]:
    """Measure the demo plans and generated feasts."""
    for name, plan, planted in _plans():
        yield from _measured(name, plan, planted, seconds)


def _plans() -> Iterator[tuple[str, Plan, Timetable | None]]:
    for name, file in (("demo feast", "harvest_supper"), ("hall of 60", "hall_celebration")):
        with as_file(files("demo_data") / f"{file}.toml") as path:
            yield name, read_file(path), None
    for dishes in SIZES:
        drawn = feast(dishes)
        yield drawn.size, drawn.plan, drawn.planted


def _measured(name: str, plan: Plan, planted: Timetable | None, seconds: float) -> Iterator[Row]:
    meeting = _run(plan, LONG * seconds)
    yield from _quality(name, meeting, seconds)
    if meeting:
        yield from _drops(name, plan, meeting[-1].outcome.timetable)
    elif planted is not None:  # a drop is asked of whatever timetable the cook has before her
        yield from _drops(name, plan, planted)


def _run(plan: Plan, limit: float) -> list[Heard]:
    """Return the clash-free timetables that arranging came to, each better than the one before."""
    began, worked = time.perf_counter(), time.process_time()
    heard: list[Heard] = []

    def hear(outcome: Outcome) -> None:
        heard.append(Heard(time.perf_counter() - began, time.process_time() - worked, outcome))

    arrange(plan, Effort(work=100 * limit, limit=limit), better=hear)
    return [each for each in heard if each.outcome.fit is Fit.MEETS]


def _quality(name: str, meeting: list[Heard], seconds: float) -> Iterator[Row]:
    first, best_of = _FIRST.get(name, ""), f"within 5 % of the best of {show(LONG * seconds)}"
    if not meeting:
        none = f"none in {show(LONG * seconds)}"
        yield Row("first clash-free timetable", name, none, first, "first")
        yield Row(best_of, name, none, _BEST.get(name, ""), "best")
        return
    at, worked = meeting[0].at, meeting[0].worked
    yield Row("first clash-free timetable", name, show(at), first, "first", remark=_worked(worked))
    yield Row("   by processor time", name, show(worked))
    best = meeting[-1].outcome.score
    early = [each.outcome.score for each in meeting if each.at <= seconds]
    over = f"{100 * (early[-1] - best) / max(1, best):.1f} %" if early else "none yet"
    yield Row(f"above best of {show(LONG * seconds)} after {show(seconds)}", name, over, "5 %")
    reached = next(each for each in meeting if each.outcome.score <= best * 1.05)
    remark = _worked(reached.worked)
    yield Row(best_of, name, show(reached.at), _BEST.get(name, ""), "best", remark=remark)
    yield Row("   by processor time", name, show(reached.worked))


def _worked(seconds: float) -> str:
    return f"{show(seconds)} by processor time"


def _drops(name: str, plan: Plan, seen: Timetable) -> Iterator[Row]:
    """Drop random steps at random places of their legal stretch and let the others follow."""
    times: list[float] = []
    worked: list[float] = []
    lost: list[float] = []
    whole: list[float] = []
    for pinned in _dropped(plan, seen):
        heard: list[tuple[float, float]] = []
        began, work = time.perf_counter(), time.process_time()

        def hear(_outcome: Outcome, heard: list[tuple[float, float]] = heard) -> None:
            heard.append((time.perf_counter(), time.process_time()))

        found = reflow(pinned, seen, better=hear)
        heard.append((time.perf_counter(), time.process_time()))
        if found is not None and found.fit is Fit.MEETS:
            times.append(heard[0][0] - began)
            worked.append(heard[0][1] - work)
            whole.append(heard[-1][0] - began)
        else:
            lost.append(heard[-1][0] - began)
    times.sort()
    worked.sort()
    if times:
        yield Row("drop to first valid re-flow: median", name, show(share(times, 50)))
        p90, by_work = show(share(times, 90)), share(worked, 90)
        words = "drop to first valid re-flow: p90"
        yield Row(words, name, p90, _DROP.get(name, ""), "drop", remark=_worked(by_work))
        yield Row("   by processor time: median", name, show(share(worked, 50)))
        yield Row("   by processor time: p90", name, show(by_work))
        whole.sort()
        yield Row("drop to the last re-flow, which moves less: p90", name, show(share(whole, 90)))
        yield Row("drops that could be followed", name, f"{len(times)} of {len(times) + len(lost)}")
    if lost:
        yield Row("longest wait for 'none found'", name, show(max(lost)))


def _dropped(plan: Plan, seen: Timetable) -> Iterator[Plan]:
    """Give the plan with one step pinned where it was dropped, for steps drawn by chance."""
    random = Random(7)  # noqa: S311  # repeatable on purpose
    pusher = Pusher(
        plan, {each.key: each.start for each in seen.placed}, lengths={each.key: each.length for each in seen.placed}
    )
    every: list[Placed] = list(seen.placed)
    for placed in random.sample(every, min(DROPS, len(every))):
        stretch = pusher.legal_stretch(placed.key)
        if stretch is None or stretch[0] == stretch[1]:
            continue
        low, high = max(stretch[0], placed.start - FURTHEST), min(stretch[1], placed.start + FURTHEST)
        start = random.randint(min(low, high), max(low, high))
        yield PinStep(placed.step, placed.load, start)(plan)
