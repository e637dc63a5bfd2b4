"""What forces a bound, the horizon, counting back, and contradictions in a cook's words."""

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Order, Pin
from core.plan.menu import LinkKind
from core.plan.network import Network, back_timed, horizon
from core.plan.network_limits import Follows, LimitKind
from core.plan.network_why import chain
from core.plan.step import ClockTime, Keep, Loads, Manner
from tests.support.builders import a_bench, a_dish, a_link, a_plan, a_step, hands_off

DAY = 24 * 60
ROAST, CARVE = ("lamb.roast", 0), ("lamb.carve", 0)


def a_lamb(**fields):
    return a_bench(
        hands_off("lamb.roast", (80, 90, 105)),
        a_step("lamb.carve", minutes=10),
        links=(a_link("lamb.roast", "lamb.carve", 20, 60),),
        **fields,
    )


def test_what_forces_a_bound_names_the_neighbour_and_the_link():
    network = Network.of(a_lamb())
    held = network.holds(ROAST)
    assert (held.latest.by, held.latest.link) == (CARVE, network.plan.menu.links[0])
    assert (held.earliest.by, held.earliest.limit.kind) == (None, LimitKind.OPENS)
    assert network.forced_by(CARVE, "latest").limit.kind is LimitKind.SERVED
    assert network.forced_by(CARVE, "earliest").by == ROAST
    assert [limit.kind for limit in chain(network, ROAST, "latest")] == [LimitKind.LEAST, LimitKind.SERVED]


def test_steps_without_an_end_to_meet_are_held_by_nothing():
    """Two steps of no minutes that wait for each other: neither is a last step, so nothing is served from them."""
    steps = [hands_off("soup.a", 0), hands_off("soup.b", 0)]
    network = Network.of(a_bench(*steps, links=(a_link("soup.a", "soup.b"), a_link("soup.b", "soup.a"))))
    assert network.holds(("soup.a", 0)).latest is None
    assert chain(network, ("soup.a", 0), "latest") == ()


def test_a_pin_forces_both_sides():
    held = Network.of(a_lamb(pins=(Pin("lamb.roast", start=-150),))).holds(ROAST)
    assert {held.earliest.limit.kind, held.latest.limit.kind} == {LimitKind.PIN}


def test_the_horizon_opens_whole_days_before_the_longest_chain_and_closes_after_the_last_course():
    low, high = horizon(a_lamb())
    assert low == -3 * DAY  # 135 minutes and two days, rounded down
    assert high == 60
    ham = [hands_off("ham.cure", 5 * DAY - 10), a_step("ham.slice", minutes=10)]
    assert horizon(a_bench(*ham, links=(a_link("ham.cure", "ham.slice"),)))[0] == -7 * DAY
    assert horizon(a_bench(*ham, links=(a_link("ham.cure", "ham.slice", 1),)))[0] == -8 * DAY


def test_the_horizon_takes_the_plans_own_opening_and_reaches_over_courses_clocks_and_pins():
    assert horizon(a_lamb(opens=-700))[0] == -700
    late = a_plan(a_dish("cake", a_step("cake.cut", minutes=10), course=75))
    assert horizon(late)[1] == 135
    fixed = a_bench(a_step("walk.out", minutes=30, clock=ClockTime(0, 21 * 60)))
    assert horizon(fixed)[1] == 90 + 30 + 60
    pinned = a_bench(a_step("walk.out", minutes=30), pins=(Pin("walk.out", start=-6000),))
    assert horizon(pinned)[0] == -9 * DAY + 2 * DAY
    assert horizon(a_bench(a_step("walk.out", minutes=30, latest=200)))[1] == 260


def test_an_empty_plan_has_a_horizon_and_no_contradiction():
    assert horizon(a_plan()) == (-2 * DAY, 60)
    assert Network.of(a_plan()).contradiction() is None
    assert back_timed(a_plan()) == {}


def test_counting_back_puts_every_load_at_its_latest():
    grill = hands_off("leeks.grill", 8, loads=Loads(24, 9, 2))
    plan = a_plan(a_dish("leeks", grill, course=75))
    assert back_timed(plan) == {("leeks.grill", 0): 47, ("leeks.grill", 1): 57, ("leeks.grill", 2): 67}


def test_counting_back_answers_where_waits_contradict_each_other():
    steps = [hands_off("soup.a", 10), hands_off("soup.b", 10)]
    links = (a_link("soup.a", "soup.b", 5), a_link("soup.a", "soup.b", 0, 14, kind=LinkKind.START_TO_START))
    assert back_timed(a_bench(*steps, links=links)) == {("soup.a", 0): -25, ("soup.b", 0): -10}
    circle = a_bench(*steps, links=(a_link("soup.a", "soup.b"), a_link("soup.b", "soup.a")))
    assert set(back_timed(circle)) == {("soup.a", 0), ("soup.b", 0)}
    assert horizon(circle)[0] <= -2 * DAY


def test_a_contradiction_names_dishes_steps_and_minutes_and_says_the_mend():
    plan = a_lamb(pins=(Pin("lamb.roast", start=-130),), manner=Manner.LIKELY)
    found = Network.of(plan, {ROAST: 105}).contradiction()
    assert found.over == 5
    assert [limit.kind for limit in found.chain] == [LimitKind.PIN, LimitKind.LEAST, LimitKind.SERVED]
    assert found.sentence == (
        "These cannot all hold: Lamb: Roast is pinned at 17:20; Lamb: Carve begins at least 20 min after"
        " Lamb: Roast, which takes 1 h 45 min; Lamb: Carve takes 10 min and is served at 19:30."
        " That is 5 min too much; give one of them 5 min more room."
    )


def test_waits_that_contradict_each_other_are_told_without_plating():
    steps = [hands_off("soup.a", 10), hands_off("soup.b", 10)]
    links = (a_link("soup.a", "soup.b", 5), a_link("soup.a", "soup.b", 0, 14, kind=LinkKind.START_TO_START))
    network = Network.of(a_bench(*steps, links=links))
    found = network.contradiction()
    assert found.over == 1
    assert {limit.link for limit in found.chain} == set(links)
    assert "Soup: B begins at most 14 min after Soup: A begins" in found.sentence
    with pytest.raises(Refusal, match="at most 14 min"):
        network.earliest(("soup.a", 0))
    with pytest.raises(Refusal, match="1 min too much"):
        network.holds(("soup.b", 0))


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        (
            a_plan(
                a_dish("pie", a_step("pie.bake", minutes=30, latest=-120), keep=Keep(60)),
            ),
            ["Pie: Bake takes 30 min, and keeps at most 1 h until it is served at 19:30", "done by 17:30"],
        ),
        (
            a_plan(a_dish("pie", a_step("pie.bake", minutes=(30, 30, 40), latest=-120), keep=Keep(60))),
            ["Pie: Bake takes 40 min and may be done 10 min sooner, and keeps at most 1 h"],
        ),
        (
            a_bench(a_step("fish.fetch", minutes=30, clock=ClockTime(1, 960), earliest=-600)),
            ["Fish: Fetch is fixed at Friday 16:00", "Fish: Fetch may not begin before 09:30"],
        ),
        (
            a_bench(hands_off("ham.cure", 9 * DAY), opens=-8 * DAY),
            ["nothing may begin before Friday 2026-09-18 19:30, not even Ham: Cure"],
        ),
        (
            a_plan(a_dish("stock", a_step("stock.boil", minutes=30), served=False), opens=-20),
            ["Stock: Boil takes 30 min and must be done by 19:30"],
        ),
        (
            a_bench(
                a_step("soup.a", minutes=30),
                a_step("soup.b", minutes=30),
                orders=(Order("soup.a", "soup.b"),),
                opens=-50,
            ),
            ["Soup: B comes after Soup: A, which takes 30 min, as decided"],
        ),
        (
            a_bench(hands_off("leeks.grill", 8, loads=Loads(18, 9, 2)), opens=-17),
            ["Leeks: Grill (load 2) begins 10 min after Leeks: Grill (load 1), change-over included"],
        ),
        (
            a_bench(
                hands_off("soup.a", (5, 10, 12)),
                a_step("soup.b"),
                links=(a_link("soup.a", "soup.b", 0, 20),),
                pins=(Pin("soup.a", start=-100), Pin("soup.b", start=-50)),
            ),
            ["Soup: B begins at most 20 min after Soup: A ends (which may be done 7 min sooner)"],
        ),
        (
            a_bench(
                hands_off("soup.a", 10),
                a_step("soup.b"),
                links=(a_link("soup.a", "soup.b", 3, 8, kind=LinkKind.END_TO_END),),
                pins=(Pin("soup.a", start=-100), Pin("soup.b", start=-99)),
            ),
            ["Soup: B ends at least 3 min after Soup: A ends"],
        ),
        (
            a_bench(
                hands_off("soup.a", 10),
                a_step("soup.b"),
                links=(a_link("soup.a", "soup.b"),),
                pins=(Pin("soup.b", start=-5),),
            ),
            ["Soup: B is pinned at 19:25; Soup: B takes 10 min and is served at 19:30"],
        ),
    ],
)
def test_each_limit_is_told_in_words(plan, words):
    found = Network.of(plan).contradiction()
    assert [each for each in words if each not in found.sentence] == []


def test_an_order_seen_on_a_station_is_told_as_such():
    steps = [hands_off("soup.a", 10), hands_off("soup.b", 10)]
    network = Network.of(a_bench(*steps, opens=-15), orders=[Follows(("soup.a", 0), ("soup.b", 0))])
    assert "as they stand on the timetable" in network.contradiction().sentence
