"""Job shops of the literature that are too long for the tests: the optimum reached, and a minute less impossible.

la01 to la18 are tests (tests/outside/test_job_shop.py); here la19 and la20 of Lawrence 1984 and ft10 of Fisher and
Thompson 1963, whose optimality was open for 26 years. Each question may take three times the seconds asked for.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from threading import Event, Timer

from bench.row import Row, show
from core.arrange.outcome import Fit
from core.arrange.possible import possible

HARD = ("la19", "la20", "ft10")


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
