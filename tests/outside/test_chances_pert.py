"""Simulated lengths and chains against closed forms and a textbook's project.

- PERT: mean (a + 4 m + b) / 6 (Malcolm, Roseboom, Clark and Fazar 1959); variance (mean - a)(b - mean) / 7 of the
  beta with those shapes (Vose, Risk Analysis, from memory).
- Triangular: mean (a + m + b) / 3, variance (a2 + m2 + b2 - am - ab - mb) / 18 (any table of distributions).
- Chains: means and variances of independent lengths add up; the greatest of two independent paths has the product
  of their distributions; of two equal normal ones the mean is higher by sigma / sqrt(pi) (Clark 1961).
- The Reliable Construction Co. project (Hillier and Lieberman, estimates from memory as in test_critical_path).
"""

from math import erf, pi, sqrt

import numpy as np
import pytest

from core.arrange.chances import Odds
from core.arrange.chances_lengths import Spread, draw, spread_of, table_of
from core.arrange.chances_order import order_of
from core.arrange.chances_run import simulate
from core.plan.ids import StationId
from core.plan.step import Manner
from core.timetable.timetable import Placed, Spot, Timetable
from tests.outside.test_critical_path import RELIABLE
from tests.support.builders import a_bench, a_link, at_oven, hands_off

RUNS = 40_000
SPANS = [(5, 8, 10), (70, 90, 110), (22, 25, 28), (10, 10, 40), (10, 40, 40), (1, 2, 200), (600, 1050, 1440)]


def as_early(plan, opens):
    """Place every step where the project opens, so that nothing but its links holds it."""
    return Timetable(
        tuple(Placed(step.id, opens, step.length.likely) for step in plan.steps.values()), (), ()
    )


def days_of(plan, timetable, shape="pert", runs=RUNS, seed=1, correlated=0.0):
    order = order_of(plan, timetable)
    spreads = [spread_of(order, node) for node in order.nodes]
    lengths = draw(order, spreads, runs=runs, seed=seed, shape=shape, correlated=correlated)
    return order, simulate(order, lengths, [each.elastic for each in spreads])


def moments(values):
    return float(np.mean(values, dtype=np.float64)), float(np.var(values, dtype=np.float64))


def pert(low, likely, high):
    mean = (low + 4 * likely + high) / 6
    return mean, (mean - low) * (high - mean) / 7


def triangle(low, likely, high):
    squares = low**2 + likely**2 + high**2
    return (low + likely + high) / 3, (squares - low * likely - low * high - likely * high) / 18


@pytest.mark.parametrize("span", SPANS)
@pytest.mark.parametrize(("shape", "formula"), [("pert", pert), ("triangular", triangle)])
def test_the_table_of_a_length_has_the_formulas_mean_and_variance(span, shape, formula):
    mean, variance = moments(table_of(Spread(*span), shape))
    wanted_mean, wanted_variance = formula(*span)
    assert mean == pytest.approx(wanted_mean, abs=0.0005 * (span[2] - span[0]))
    assert variance == pytest.approx(wanted_variance, rel=0.01)


def chain_plan(count, span, dish="chain", course=0):
    steps = [hands_off(f"{dish}.s{number}", span) for number in range(count)]
    links = tuple(a_link(steps[each].id, steps[each + 1].id) for each in range(count - 1))
    return steps, links


def test_a_chains_mean_and_variance_are_the_sums():
    steps, links = chain_plan(6, (10, 20, 45))
    plan = a_bench(*steps, links=links)
    order, days = days_of(plan, as_early(plan, -300))
    mean, variance = moments(days.ends[order.index[(steps[-1].id, 0)]] + 300)
    one_mean, one_variance = pert(10, 20, 45)
    assert mean == pytest.approx(6 * one_mean, abs=4 * sqrt(6 * one_variance / RUNS))
    assert variance == pytest.approx(6 * one_variance, rel=0.03)


def test_the_greatest_of_two_independent_paths():
    """Likely at the low end: Beta(1, 5), whose distribution is 1 - (1 - x)^5; of two, its square."""
    plan = a_bench(hands_off("one.a", (0, 0, 100)), hands_off("two.a", (0, 0, 100)))
    for course in (5, 10, 20, 40):
        odds = Odds(plan, as_early(plan, -course), runs=RUNS, seed=3)
        reached = 1 - (1 - (course + 0.5) / 100) ** 5  # half a minute is not late
        assert odds.now == pytest.approx(reached**2, abs=4 * 0.5 / sqrt(RUNS))


def test_the_greatest_of_two_nearly_normal_paths():
    """Clark (1961): the greater of two independent normal lengths is sigma / sqrt(pi) above their mean."""
    one, links = chain_plan(24, (5, 10, 15), "one")
    two, more = chain_plan(24, (5, 10, 15), "two")
    last = hands_off("two.end", 1)
    joined = (*links, *more, a_link(one[-1].id, last.id), a_link(two[-1].id, last.id))
    plan = a_bench(*one, *two, last, links=joined)
    order, days = days_of(plan, as_early(plan, -500))
    mean, _variance = moments(days.starts[order.index[(last.id, 0)]] + 500)
    path_mean, path_variance = (24 * each for each in pert(5, 10, 15))
    assert mean == pytest.approx(path_mean + sqrt(path_variance) / sqrt(pi), abs=0.15)


def reliable(scale=10):
    """Return the project with half weeks of `scale` minutes."""
    steps, links = [], []
    for name, (after, _weeks, _start, _slack, estimates) in RELIABLE.items():
        steps.append(hands_off(f"site.{name}", tuple(scale * each for each in estimates)))
        links += [a_link(f"site.{former}", f"site.{name}") for former in after]
    return a_bench(*steps, links=tuple(links), manner=Manner.LIKELY)


def test_the_reliable_project_has_the_textbooks_mean_and_variance_along_its_critical_path():
    """44 weeks and a variance of 9 along a b c e f j l n, each weight as the three-point formulas have it."""
    path = "abcefjln"
    means = [pert(*RELIABLE[name][4])[0] for name in path]
    variances = [((RELIABLE[name][4][2] - RELIABLE[name][4][0]) / 6) ** 2 for name in path]
    assert sum(means) == 2 * 44
    assert sum(variances) == 4 * 9


def test_the_reliable_project_is_in_time_less_often_than_its_critical_path():
    """Deadline 47 weeks: the path alone says 0.84 (normal, z = 1); other paths make it worse, as the book warns."""
    plan = reliable()
    deadline = 2 * 47 * 10
    found = Odds(plan, as_early(plan, -deadline), runs=RUNS, seed=5)
    alone = (1 + erf(1 / sqrt(2))) / 2
    assert alone == pytest.approx(0.8413, abs=1e-4)
    assert 0.6 < found.now < alone
    # The book's own simulation with triangular lengths comes to 0.587 (10,000 trials; from memory).
    book = Odds(plan, as_early(plan, -deadline), runs=RUNS, seed=5, shape="triangular")
    assert book.now == pytest.approx(0.587, abs=0.02)


def test_lengths_on_one_station_on_one_day_have_in_common_what_is_asked():
    """With a share c of the spread in common, normal scores of two lengths correlate by c."""
    steps = [hands_off(f"{name}.bake", (60, 90, 130), uses=(at_oven(units=1),)) for name in ("one", "two")]
    plan = a_bench(*steps)
    spots = (Spot(StationId("oven"), 1),)
    timetable = Timetable(tuple(Placed(step.id, -200, 90, 0, spots, 180) for step in steps))
    for share in (0.0, 0.5, 0.9, 1.0):
        order, days = days_of(plan, timetable, correlated=share)
        one, two = (days.lengths[order.index[(step.id, 0)]] for step in steps)
        assert np.corrcoef(one, two)[0, 1] == pytest.approx(share, abs=0.03)
        wanted_mean, wanted_variance = pert(60, 90, 130)
        assert float(one.mean()) == pytest.approx(wanted_mean, abs=0.4)
        assert float(one.var()) == pytest.approx(wanted_variance, rel=0.04)
