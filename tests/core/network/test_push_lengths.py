"""Lengths given to a pusher at once or later: the same limits."""

from dataclasses import replace

from core.plan.network_push import Pusher
from core.plan.step import Alternative, Span
from tests.support.builders import a_dish, a_link, a_plan, hands_off


def test_other_lengths_count_the_same_given_at_once_or_later():
    """A step that may take longer another way: its waits are judged by the longest until its length is known."""
    simmer = replace(hands_off("stock.simmer", 10), alternatives=(Alternative("by hand", Span(40, 40, 40)),))
    dish = a_dish("stock", simmer, hands_off("stock.strain", 5))
    plan = a_plan(dish, links=(a_link("stock.simmer", "stock.strain", most=10),), transfer=0)
    starts = {("stock.simmer", 0): -60, ("stock.strain", 0): -45}
    known = {("stock.simmer", 0): 12}
    at_once, later = Pusher(plan, starts, lengths=known), Pusher(plan, starts).with_lengths(known)
    assert sorted(each.minutes for each in later.network.limits) == sorted(
        each.minutes for each in at_once.network.limits
    )
    assert later.network.lengths.longest == at_once.network.lengths.longest
