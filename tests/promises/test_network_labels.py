"""Earliest and latest starts, what forces them, and contradictions, against every placing of small plans."""

from hypothesis import given

from core.plan.network import Network, back_timed
from core.plan.network_limits import pinned_starts
from core.plan.network_why import chain
from tests.core.network.grid import Grid, small_plans


@given(small_plans())
def test_bounds_are_the_first_and_last_start_of_all_placings(plan):
    grid, network = Grid(plan, pinned_starts(plan)), Network.of(plan)
    if network.contradiction() is None:
        assert {key: (network.earliest(key), network.latest(key)) for key in network.keys} == {
            key: grid.span(key) for key in grid.keys
        }
    else:
        assert not grid.good.any()


@given(small_plans())
def test_what_forces_a_bound_leads_to_something_fixed_and_adds_up(plan):
    network = Network.of(plan)
    if network.contradiction() is not None:
        return
    for key in network.keys:
        earliest, latest = chain(network, key, "earliest"), chain(network, key, "latest")
        assert earliest[-1].before is None
        assert latest[-1].after is None
        assert sum(limit.minutes for limit in earliest) == network.earliest(key)
        assert -sum(limit.minutes for limit in latest) == network.latest(key)


@given(small_plans())
def test_a_contradiction_is_a_closed_circle_of_the_plans_own_limits_that_asks_too_much(plan):
    network = Network.of(plan)
    found = network.contradiction()
    if found is None:
        return
    assert found.over > 0
    assert sum(limit.minutes for limit in found.chain) == found.over
    assert set(found.chain) <= set(network.limits)
    afters = [limit.after for limit in found.chain]
    assert [limit.before for limit in found.chain] == [afters[-1], *afters[:-1]]
    assert len(set(afters)) == len(afters)


@given(small_plans())
def test_counting_back_keeps_every_wait_where_the_plan_can(plan):
    starts = back_timed(plan)
    assert set(starts) == set(Network.of(plan).keys)
    if Network.of(plan).contradiction() is None:
        assert Grid(plan, pinned_starts(plan)).holds(starts)
