"""Arranging: first clash-free timetable, quality after a while against a long run, re-flow after a drop."""

from __future__ import annotations

import time
from collections.abc import Iterator
from importlib.resources import as_file, files
from random import Random

from bench.feasts import feast
from bench.row import Row, share, show
from core.arrange.arranging import arrange
from core.arrange.effort import Effort
from core.arrange.outcome import Fit, Outcome
from core.arrange.reflowing import reflow
from core.intake.text_plan import read_file
from core.plan.edits import PinStep
from core.plan.network_push import Pusher
from core.plan.plan import Plan
from core.timetable.timetable import Timetable

LONG = 6
"""The long run is so many times as long as the one it judges: 60 s against 10 s."""
DROPS = 30
_FIRST = {"demo feast": "1 s", "84": "0.3 s", "203": "1 s", "399": "5 s"}
_DROP = {"demo feast": "300 ms", "84": "100 ms", "203": "250 ms", "399": "500 ms"}


def rows(seconds: float) -> Iterator[Row]:
    """Measure the demo plans and generated feasts."""
    for name, plan in _plans():
        yield from _quality(name, plan, seconds)


def _plans() -> Iterator[tuple[str, Plan]]:
    for name, file in (("demo feast", "harvest_supper"), ("hall of 60", "hall_celebration")):
        with as_file(files("demo_data") / f"{file}.toml") as path:
            yield name, read_file(path)
    for dishes in (12, 29, 57):
        drawn = feast(dishes)
        yield drawn.size.split()[0], drawn.plan


def _quality(name: str, plan: Plan, seconds: float) -> Iterator[Row]:
    began = time.perf_counter()
    heard: list[tuple[float, Outcome]] = []
    arrange(
        plan,
        Effort(work=1000 * seconds, limit=LONG * seconds),
        better=lambda outcome: heard.append((time.perf_counter() - began, outcome)),
    )
    meeting = [(at, outcome) for at, outcome in heard if outcome.fit is Fit.MEETS]
    if not meeting:
        yield Row("first clash-free timetable", name, f"none in {show(LONG * seconds)}", _FIRST.get(name, ""))
        return
    yield Row("first clash-free timetable", name, show(meeting[0][0]), _FIRST.get(name, ""))
    best = meeting[-1][1].score
    early = [outcome.score for at, outcome in meeting if at <= seconds]
    over = f"{100 * (early[-1] - best) / max(1, best):.1f} %" if early else "none yet"
    yield Row(f"above best of {show(LONG * seconds)} after {show(seconds)}", name, over, "5 %")
    reached = next(at for at, outcome in meeting if outcome.score <= best * 1.05)
    yield Row("within 5 % of that best after", name, show(reached))
    yield from _drops(name, plan, meeting[-1][1].timetable)


def _drops(name: str, plan: Plan, seen: Timetable) -> Iterator[Row]:
    """Drop random steps at random places of their legal stretch and let the others follow."""
    random = Random(7)  # noqa: S311  # repeatable on purpose
    pusher = Pusher(
        plan, {each.key: each.start for each in seen.placed}, lengths={each.key: each.length for each in seen.placed}
    )
    times: list[float] = []
    lost: list[float] = []
    for placed in random.sample(list(seen.placed), min(DROPS, len(seen.placed))):
        stretch = pusher.legal_stretch(placed.key)
        if stretch is None or stretch[0] == stretch[1]:
            continue
        low, high = max(stretch[0], placed.start - 60), min(stretch[1], placed.start + 60)
        start = random.randint(min(low, high), max(low, high))
        pinned = PinStep(placed.step, placed.load, start)(plan)
        began = time.perf_counter()
        outcome = reflow(pinned, seen)
        if outcome is not None and outcome.fit is Fit.MEETS:
            times.append(time.perf_counter() - began)
        else:
            lost.append(time.perf_counter() - began)
    times.sort()
    if times:
        yield Row("drop to first valid re-flow: median", name, show(share(times, 50)))
        yield Row("drop to first valid re-flow: p90", name, show(share(times, 90)), _DROP.get(name, ""))
        yield Row("drops that could be followed", name, f"{len(times)} of {len(times) + len(lost)}")
    if lost:
        yield Row("longest wait for 'none found'", name, show(max(lost)))
