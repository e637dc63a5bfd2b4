"""Job shops of the literature that are harder than those in the tests: the optimum reached, a minute less impossible.

ft06, ft10 and la01 to la20 are tests (tests/outside/test_job_shop.py). Here la21, la24 and la25 of Lawrence 1984,
abz5 of Adams, Balas and Zawack 1988 and orb01 of Applegate and Cook 1991, and ft10 again, to tell how long it takes.
Each question may take three times the seconds asked for.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from threading import Event, Timer

from bench.row import Row, show
from core.arrange.outcome import Fit
from core.arrange.possible import possible

HARD = ("ft10", "abz5", "la24", "la25", "orb01", "la21")


def rows(seconds: float) -> Iterator[Row]:
    """Measure each; where the package with the instances is missing, say so."""
    from tests.outside.jobshop import as_plan, instances

    try:
        instances()
    except (OSError, LookupError, ImportError) as fault:
        yield Row("job shops", "", "no instances", str(fault))
        return
    for name in HARD:
        plan, optimum = as_plan(name)
        size = f"{len(plan.steps)} steps"
        for minutes, wanted, words in (
            (optimum, Fit.MEETS, "reached"),
            (optimum - 1, Fit.IMPOSSIBLE, "proven impossible"),
        ):
            stop = Event()
            clock = Timer(3 * seconds, stop.set)
            clock.start()
            began = time.perf_counter()
            fit = possible(replace(plan, opens=-minutes), work=1000.0, stop=stop).fit
            spent = show(time.perf_counter() - began)
            clock.cancel()
            told = spent if fit is wanted else f"not in {spent}"
            yield Row(f"{name}: {minutes} min {words}", size, told)
