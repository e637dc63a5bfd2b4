"""Each sort of limit by itself, with its minutes worked out by hand. Plating is at 19:30."""

from dataclasses import replace

import pytest

from core.plan.decisions import Choice, LengthOf, Order, Pin
from core.plan.menu import LinkKind
from core.plan.network import Network, back_timed
from core.plan.network_limits import Follows, LimitKind
from core.plan.step import Alternative, ClockTime, Keep, Loads, Manner, Span
from tests.support.builders import a_bench, a_dish, a_link, a_plan, a_step, hands_off


def bounds(network, step, load=0):
    return network.earliest((step, load)), network.latest((step, load))


def test_a_last_step_ends_by_its_course_and_not_sooner_than_it_keeps():
    pie = a_dish("pie", a_step("pie.bake", minutes=30), course=75, keep=Keep(20))
    assert bounds(Network.of(a_plan(pie)), "pie.bake") == (75 - 20 - 30, 75 - 30)


def test_a_component_ends_by_its_course_but_does_not_keep_until_it():
    stock = a_dish("stock", a_step("stock.boil", minutes=30), served=False, keep=Keep(20))
    assert bounds(Network.of(a_plan(stock, opens=-500)), "stock.boil") == (-500, -30)


def test_a_steps_own_keeping_replaces_the_dishs():
    pie = a_dish("pie", a_step("pie.bake", minutes=30, keeps=Keep(5)), keep=Keep(20))
    assert bounds(Network.of(a_plan(pie)), "pie.bake") == (-35, -30)


def test_food_done_sooner_than_reserved_must_keep_as_long():
    pie = a_dish("pie", a_step("pie.bake", minutes=(30, 40, 50)), keep=Keep(60))
    safe = Network.of(a_plan(pie, manner=Manner.SAFE))
    assert bounds(safe, "pie.bake") == (-60 - 30, -50)
    likely = Network.of(a_plan(pie, manner=Manner.LIKELY))
    assert bounds(likely, "pie.bake") == (-60 - 40, -40)
    high = Network.of(a_plan(pie, manner=Manner.LIKELY, lengths=(LengthOf("pie.bake", Manner.HIGH),)))
    assert bounds(high, "pie.bake") == (-60 - 50, -50)


@pytest.mark.parametrize(
    ("kind", "earliest", "latest"),
    [
        (LinkKind.END_TO_START, 10 + 5, 10 + 9),
        (LinkKind.START_TO_START, 5, 9),
        (LinkKind.END_TO_END, 5 + 10 - 25, 9 + 10 - 25),
    ],
)
def test_a_link_binds_the_later_step_to_the_earlier(kind, earliest, latest):
    """`soup.a` takes 10, `soup.b` 25; the figures are counted from the pinned start of `soup.a`."""
    soup = [hands_off("soup.a", 10), hands_off("soup.b", 25)]
    links = (a_link("soup.a", "soup.b", 5, 9, kind=kind),)
    plan = a_bench(*soup, links=links, pins=(Pin("soup.a", start=-200),))
    assert bounds(Network.of(plan), "soup.b") == (-200 + earliest, -200 + latest)


def test_a_most_wait_counts_from_when_the_food_may_be_done():
    roast, carve = hands_off("lamb.roast", (80, 90, 105)), a_step("lamb.carve", minutes=10)
    plan = a_bench(
        roast,
        carve,
        links=(a_link("lamb.roast", "lamb.carve", 20, 60),),
        pins=(Pin("lamb.roast", start=-300),),
        manner=Manner.SAFE,
    )
    assert bounds(Network.of(plan), "lamb.carve") == (-300 + 105 + 20, -300 + 80 + 60)


def a_grill_load(pieces, links=(), **fields):
    grill = hands_off("leeks.grill", 8, loads=Loads(pieces, 9, 2))
    return a_plan(a_dish("leeks", grill, a_step("leeks.dress", minutes=3)), links=links, opens=-300, **fields)


def test_loads_follow_each_other_with_their_change_over_and_all_are_done_before_what_follows():
    links = (a_link("leeks.grill", "leeks.dress", 1, 25),)
    network = Network.of(a_grill_load(24, links))
    assert [bounds(network, "leeks.grill", load) for load in range(3)] == [
        (-300, -3 - 1 - 8 - 10 - 10),
        (-290, -3 - 1 - 8 - 10),
        (-280, -3 - 1 - 8),
    ]
    pinned = Network.of(a_grill_load(24, links, pins=(Pin("leeks.grill", 0, -60),)))
    # The dressing waits for the third load, and the first one waits at most 25 minutes for the dressing.
    assert bounds(pinned, "leeks.dress") == (-60 + 20 + 8 + 1, -60 + 8 + 25)


def test_as_many_loads_of_two_steps_feed_each_other_one_by_one():
    grill = hands_off("leeks.grill", 8, loads=Loads(24, 9, 2))
    glaze = a_step("leeks.glaze", minutes=10, loads=Loads(24, 9))
    plan = a_plan(
        a_dish("leeks", grill, glaze),
        links=(a_link("leeks.grill", "leeks.glaze", 1, 4),),
        pins=tuple(Pin("leeks.grill", load, start) for load, start in enumerate((-100, -80, -70))),
    )
    network = Network.of(plan)
    assert bounds(network, "leeks.glaze", 0) == (-100 + 8 + 1, -100 + 8 + 4)
    assert bounds(network, "leeks.glaze", 1) == (-80 + 8 + 1, -70 + 8 + 4 - 10)
    assert bounds(network, "leeks.glaze", 2) == (-80 + 9 + 10, -70 + 8 + 4)


def test_the_last_load_of_what_follows_may_not_keep_the_food_waiting():
    plan = a_plan(
        a_dish("fish", hands_off("fish.thaw", 30), hands_off("fish.fry", 6, loads=Loads(3, 1, 1))),
        links=(a_link("fish.thaw", "fish.fry", 0, 20),),
        pins=(Pin("fish.thaw", start=-130),),
    )
    network = Network.of(plan)
    assert bounds(network, "fish.fry", 2) == (-100 + 14, -100 + 20)
    assert bounds(network, "fish.fry", 0) == (-100, -100 + 20 - 14)


def test_loads_may_be_given_lengths_of_their_own():
    plan = a_grill_load(18, (a_link("leeks.grill", "leeks.dress", 1),), pins=(Pin("leeks.dress", start=-3),))
    network = Network.of(plan, {("leeks.grill", 1): 12})
    assert network.latest(("leeks.grill", 1)) == -3 - 1 - 12
    assert network.latest(("leeks.grill", 0)) == -3 - 1 - 12 - 10
    alone = a_plan(a_dish("leeks", hands_off("leeks.grill", 8, loads=Loads(18, 9))), opens=-300)
    assert Network.of(alone, {("leeks.grill", 1): 12}).latest(("leeks.grill", 1)) == -12


def test_more_servings_make_more_loads():
    few = a_grill_load(9)
    assert len(Network.of(few).keys) == 2
    many = a_dish("leeks", hands_off("leeks.grill", 8, loads=Loads(9, 9)), written_for=4, wanted=9)
    assert len(Network.of(a_plan(many)).keys) == 3


def test_earliest_latest_and_clock_bind_as_written():
    plan = a_bench(
        a_step("soup.buy", minutes=15, earliest=-400, latest=-300),
        a_step("soup.fetch", minutes=15, clock=ClockTime(1, 16 * 60)),
        opens=-5000,
    )
    network = Network.of(plan)
    assert bounds(network, "soup.buy") == (-400, -315)
    assert bounds(network, "soup.fetch") == (-27 * 60 - 30, -27 * 60 - 30)


def test_orders_decided_and_orders_seen_bind_the_later_step():
    steps = [hands_off("soup.a", 10), hands_off("soup.b", 25)]
    decided = Network.of(a_bench(*steps, orders=(Order("soup.a", "soup.b"),)))
    assert decided.latest(("soup.a", 0)) == -35
    assert decided.forced_by(("soup.a", 0), "latest").limit.kind is LimitKind.ORDER
    seen = Network.of(a_bench(*steps), orders=[Follows(("soup.a", 0), ("soup.b", 0), gap=4)])
    assert seen.latest(("soup.a", 0)) == -39
    assert seen.forced_by(("soup.a", 0), "latest").by == ("soup.b", 0)


def test_a_chosen_alternative_and_given_lengths_count():
    slow = a_step("pie.bake", minutes=45, alternatives=(Alternative("cooler", Span.of(65)),))
    assert Network.of(a_bench(slow)).latest(("pie.bake", 0)) == -45
    assert Network.of(a_bench(slow, choices=(Choice("pie.bake", 1),))).latest(("pie.bake", 0)) == -65
    assert Network.of(a_bench(slow), {("pie.bake", 0): 50}).latest(("pie.bake", 0)) == -50


def test_a_pin_of_a_load_that_is_no_more_binds_nothing():
    network = Network.of(a_grill_load(9, pins=(Pin("leeks.grill", 2, -100),)))
    assert bounds(network, "leeks.grill") == (-300, -8)


def test_a_pin_of_a_place_alone_leaves_the_start_free():
    network = Network.of(a_grill_load(9, pins=(Pin("leeks.grill", 0, station="grill"),)))
    assert bounds(network, "leeks.grill") == (-300, -8)


def test_an_open_choice_contradicts_only_where_every_way_does() -> None:
    quick = a_step("pie.bake", minutes=60, alternatives=(Alternative("hotter", Span.of(40)),), earliest=-45)
    plan = a_plan(a_dish("pie", quick))
    assert Network.of(plan).contradiction() is None
    assert Network.of(plan).latest((quick.id, 0)) == -40
    as_written = replace(plan, decisions=replace(plan.decisions, choices=(Choice(quick.id, 0),)))
    assert Network.of(as_written).contradiction() is not None
    assert back_timed(plan) == {(quick.id, 0): -60}  # on paper it is done as it is written
