"""Critical-path examples of textbooks, as plans: earliest and latest starts, total float, path, variance.

Project time runs from 0; a plan's time runs to plating at 0. So the plan opens as long before plating as the
project lasts, and every activity is a hands-off step without a place.
"""

from fractions import Fraction

import pytest

from core.plan.network import Network, back_timed
from core.plan.network_push import can_slip
from core.plan.network_why import chain
from core.plan.step import Span
from tests.support.builders import a_bench, a_link, hands_off

# The Reliable Construction Co. project: Hillier and Lieberman, Introduction to Operations Research (7th ed.),
# chapter on project management with PERT/CPM. Activities, predecessors, weeks, earliest start, slack and the
# three estimates are from memory; that each mean of three comes to the weeks printed is tested below.
RELIABLE = {
    #    after    weeks ES slack  optimistic, most likely, pessimistic (in half weeks)
    "a": ("", 2, 0, 0, (2, 4, 6)),
    "b": ("a", 4, 2, 0, (4, 7, 16)),
    "c": ("b", 10, 6, 0, (12, 18, 36)),
    "d": ("c", 6, 16, 4, (8, 11, 20)),
    "e": ("c", 4, 16, 0, (2, 9, 10)),
    "f": ("e", 5, 20, 0, (8, 8, 20)),
    "g": ("d", 7, 22, 4, (10, 13, 22)),
    "h": ("eg", 9, 29, 4, (10, 16, 34)),
    "i": ("c", 7, 16, 2, (6, 15, 18)),
    "j": ("fi", 8, 25, 0, (6, 18, 18)),
    "k": ("j", 4, 33, 1, (8, 8, 8)),
    "l": ("j", 5, 33, 0, (2, 11, 14)),
    "m": ("h", 2, 38, 4, (2, 4, 6)),
    "n": ("kl", 6, 38, 0, (10, 11, 18)),
}
RELIABLE_WEEKS = 44
RELIABLE_PATH = "abcefjln"
RELIABLE_VARIANCE = 9

# A network of events and arrows: Taylor, Introduction to Management Science, solutions to the problems of the
# chapter on project management: its table of time, ES, EF, LS, LF and slack, 38 units in all.
ARROWS = {
    # arrow: time, ES, LS, slack
    (1, 2): (8, 0, 1, 1),
    (1, 3): (10, 0, 0, 0),
    (1, 4): (9, 0, 6, 6),
    (2, 5): (6, 8, 9, 1),
    (2, 6): (4, 8, 16, 8),
    (3, 5): (5, 10, 10, 0),
    (4, 5): (0, 9, 15, 6),
    (4, 7): (7, 9, 20, 11),
    (5, 7): (12, 15, 15, 0),
    (5, 8): (15, 15, 16, 1),
    (6, 9): (18, 12, 20, 8),
    (7, 8): (4, 27, 27, 0),
    (8, 9): (7, 31, 31, 0),
}


def step_of(activity):
    return f"project.{activity}"


def a_project(activities, pairs, lasts):
    """Return a plan of activities (name to Span) and pairs of those that follow each other."""
    steps = [hands_off(step_of(name), span) for name, span in activities.items()]
    links = tuple(a_link(step_of(one), step_of(other)) for one, other in pairs)
    return a_bench(*steps, links=links, opens=-lasts)


def reliable(lasts=RELIABLE_WEEKS):
    pairs = [(before, name) for name, (befores, *_rest) in RELIABLE.items() for before in befores]
    return a_project({name: Span.of(weeks) for name, (_b, weeks, *_rest) in RELIABLE.items()}, pairs, lasts)


def arrows():
    named = {f"{tail}-{head}": arrow for (tail, head), arrow in ARROWS.items()}
    pairs = [(one, other) for one in named for other in named if one[-1] == other[0]]
    return a_project({name: Span.of(arrow[0]) for name, arrow in named.items()}, pairs, 38)


def test_reliable_construction_earliest_and_latest_starts_and_float():
    network = Network.of(reliable())
    assert network.contradiction() is None
    for name, (_befores, _weeks, earliest, slack, _three) in RELIABLE.items():
        key = (step_of(name), 0)
        assert network.earliest(key) + RELIABLE_WEEKS == earliest
        assert network.latest(key) - network.earliest(key) == slack


def test_reliable_construction_slips_by_its_float_from_its_earliest_starts():
    plan = reliable()
    starts = {(step_of(name), 0): row[2] - RELIABLE_WEEKS for name, row in RELIABLE.items()}
    assert can_slip(plan, starts) == {(step_of(name), 0): row[3] for name, row in RELIABLE.items()}


def test_reliable_construction_critical_path_is_what_forces_the_first_step():
    limits = chain(Network.of(reliable()), (step_of("a"), 0), "latest")
    assert [limit.before[0] for limit in limits] == [step_of(name) for name in RELIABLE_PATH]


@pytest.mark.parametrize("weeks", [43, 40])
def test_reliable_construction_cannot_be_done_sooner_and_the_path_says_why(weeks):
    found = Network.of(reliable(weeks)).contradiction()
    assert found.over == RELIABLE_WEEKS - weeks
    assert [limit.before[0] for limit in found.chain[1:]] == [step_of(name) for name in RELIABLE_PATH]


def test_reliable_construction_by_three_estimates():
    """Mean (a + 4 m + b) / 6 and variance ((b - a) / 6)^2 of each activity, added along the path."""
    means = {name: Fraction(a + 4 * m + b, 6) for name, (*_row, (a, m, b)) in RELIABLE.items()}
    weeks = {name: row[1] for name, row in RELIABLE.items()}
    assert {name: mean / 2 for name, mean in means.items()} == weeks
    pairs = [(before, name) for name, (befores, *_rest) in RELIABLE.items() for before in befores]
    plan = a_project({name: Span(*row[-1]) for name, row in RELIABLE.items()}, pairs, 2 * RELIABLE_WEEKS)
    network = Network.of(plan, {(step_of(name), 0): int(mean) for name, mean in means.items()})
    assert network.earliest((step_of("n"), 0)) + means["n"] == 0
    spans = [plan.steps[limit.before[0]].length for limit in chain(network, (step_of("a"), 0), "latest")]
    halves = sum(Fraction(span.high - span.low, 6) ** 2 for span in spans)
    assert halves / 4 == RELIABLE_VARIANCE


def test_taylor_network_of_arrows():
    plan = arrows()
    network, late = Network.of(plan), back_timed(plan)
    assert network.contradiction() is None
    found = {}
    for tail, head in ARROWS:
        key = (step_of(f"{tail}-{head}"), 0)
        earliest, latest = network.earliest(key) + 38, network.latest(key) + 38
        assert late[key] == network.latest(key)
        found[tail, head] = (network.lengths.minutes[key], earliest, latest, latest - earliest)
    assert found == ARROWS
