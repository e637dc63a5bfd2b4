"""Loads, links, orders, serving, earliest, latest, opening and the clock: at the limit, and one minute past it."""

import pytest

from core.plan.decisions import Order
from core.plan.menu import LinkKind
from core.plan.step import ClockTime, Keep, Loads, Manner
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.core.timetable.laid import at, laid, the_clash, told
from tests.support.builders import a_dish, a_link, a_plan, a_step, hands_off


def two_steps(*, least: int = 0, most: int | None = None, kind: LinkKind = LinkKind.END_TO_START, **fields):
    dish = a_dish("pork", hands_off("pork.rest", 30), hands_off("pork.carve", 10), name="Pork")
    link = a_link("pork.rest", "pork.carve", least, most, kind=kind)
    return a_plan(dish, links=(link,), **fields)


def start(plan, rest: str, carve: str) -> Timetable:
    return laid(plan, {"pork.rest": at(rest), "pork.carve": at(carve)})


def test_a_link_holds_to_the_minute_and_one_minute_sooner_is_out_of_order():
    plan = two_steps()
    assert not clashes(plan, start(plan, "18:10", "18:40"))
    clash = the_clash(plan, start(plan, "18:10", "18:39"))
    assert told(clash) == (ClashKind.OUT_OF_ORDER, at("18:39"), at("18:40"), 1)
    assert clash.steps == ("pork.rest", "pork.carve")
    assert clash.sentence == "Pork: Carve starts at 18:39, 1 min before Pork: Rest is done."


def test_a_least_wait_holds_to_the_minute():
    plan = two_steps(least=20)
    assert not clashes(plan, start(plan, "18:10", "19:00"))
    clash = the_clash(plan, start(plan, "18:10", "18:59"))
    assert told(clash) == (ClashKind.WAIT_TOO_SHORT, at("18:59"), at("19:00"), 1)
    assert clash.sentence == "Pork: Carve starts at 18:59, 19 min after Pork: Rest is done; it must wait 20."


def test_a_least_wait_counts_in_full_when_the_order_is_wrong_too():
    plan = two_steps(least=20)
    clash = the_clash(plan, start(plan, "18:10", "18:35"))
    assert told(clash) == (ClashKind.OUT_OF_ORDER, at("18:35"), at("19:00"), 25)
    assert clash.sentence == (
        "Pork: Carve starts at 18:35, 5 min before Pork: Rest is done, and must wait 20 min after that."
    )


def test_an_overlap_that_is_allowed_holds_to_the_minute():
    plan = two_steps(least=-5)
    assert not clashes(plan, start(plan, "18:10", "18:35"))
    clash = the_clash(plan, start(plan, "18:10", "18:34"))
    assert told(clash) == (ClashKind.OUT_OF_ORDER, at("18:34"), at("18:35"), 1)
    assert clash.sentence == (
        "Pork: Carve starts at 18:34, 6 min before Pork: Rest is done; 5 min is allowed."
    )


def test_a_most_wait_holds_to_the_minute():
    plan = two_steps(most=30)
    assert not clashes(plan, start(plan, "18:10", "19:10"))
    clash = the_clash(plan, start(plan, "18:10", "19:11"))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("19:10"), at("19:11"), 1)
    assert clash.sentence == (
        "Pork: Rest is done at 18:40 and waits 31 min until Pork: Carve starts; it can wait 30."
    )


def test_a_most_wait_is_judged_as_if_the_food_was_done_early():
    dish = a_dish("pork", hands_off("pork.roast", (80, 90, 105)), hands_off("pork.carve", 10), name="Pork")
    plan = a_plan(dish, links=(a_link("pork.roast", "pork.carve", 20, 60),), manner=Manner.SAFE)
    # 105 min are reserved; done after 80 it would wait 25 min more.
    kept = laid(plan, {"pork.roast": at("16:45"), "pork.carve": at("19:05")})
    assert not clashes(plan, kept)
    clash = the_clash(plan, laid(plan, {"pork.roast": at("16:45"), "pork.carve": at("19:06")}))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("19:05"), at("19:06"), 1)
    assert clash.sentence == (
        "Pork: Roast may be done at 18:05 and then waits 1 h 1 min until Pork: Carve starts; it can wait 1 h."
    )


@pytest.mark.parametrize(
    ("kind", "least", "most", "good", "soon", "late", "said_soon", "said_late"),
    [
        (
            LinkKind.START_TO_START, 10, 20, ("18:00", "18:10"), "18:09", "18:21",
            "Pork: Carve starts at 18:09, 9 min after Pork: Rest starts; it must wait 10.",
            "Pork: Carve starts at 18:21, 21 min after Pork: Rest starts; at most 20 is allowed.",
        ),
        (
            # rest ends 18:30; carve takes 10 and ends 18:40 at the soonest, 18:50 at the latest
            LinkKind.END_TO_END, 10, 20, ("18:00", "18:30"), "18:29", "18:41",
            "Pork: Carve is done at 18:39, 9 min after Pork: Rest is done; it must wait 10.",
            "Pork: Carve is done at 18:51, 21 min after Pork: Rest is done; at most 20 is allowed.",
        ),
    ],
)  # fmt: skip
def test_starts_and_ends_can_be_tied(kind, least, most, good, soon, late, said_soon, said_late):
    plan = two_steps(least=least, most=most, kind=kind)
    assert not clashes(plan, start(plan, *good))
    clash = the_clash(plan, start(plan, good[0], soon))
    assert (clash.kind, clash.by, clash.end - clash.start) == (ClashKind.WAIT_TOO_SHORT, 1, 1)
    assert clash.sentence == said_soon
    clash = the_clash(plan, start(plan, good[0], late))
    assert (clash.kind, clash.by, clash.end - clash.start) == (ClashKind.WAITED_TOO_LONG, 1, 1)
    assert clash.sentence == said_late


def loads_plan(second_loads: int, **link):
    """Return grilling in 3 loads of 8 min, 2 min between, then dressing in as many loads as asked."""
    dressing = Loads(6 * second_loads, 6) if second_loads > 1 else None
    dish = a_dish(
        "leeks",
        hands_off("leeks.grill", 8, loads=Loads(18, 6, change_over=2)),
        hands_off("leeks.dress", 4, loads=dressing),
        name="Leeks",
    )
    return a_plan(dish, links=(a_link("leeks.grill", "leeks.dress", **link),))


def test_loads_follow_each_other_with_their_change_over():
    plan = loads_plan(1)
    grill = [at("18:00"), at("18:10"), at("18:20")]
    assert not clashes(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": at("18:28")}))
    clash = the_clash(
        plan, laid(plan, {"leeks.grill": [*grill[:2], at("18:19")], "leeks.dress": at("18:28")})
    )
    assert told(clash) == (ClashKind.WAIT_TOO_SHORT, at("18:19"), at("18:20"), 1)
    assert clash.sentence == (
        "Load 3 of Leeks: Grill starts at 18:19, 1 min after load 2 is done; the change-over takes 2."
    )
    clash = the_clash(
        plan, laid(plan, {"leeks.grill": [*grill[:2], at("18:17")], "leeks.dress": at("18:28")})
    )
    assert (clash.kind, clash.by) == (ClashKind.OUT_OF_ORDER, 3)
    assert clash.sentence == "Load 3 of Leeks: Grill starts at 18:17, 1 min before load 2 is done."


def test_unlike_numbers_of_loads_are_tied_from_the_last_and_wait_from_the_first():
    plan = loads_plan(1, least=5, most=30)
    grill = [at("18:00"), at("18:10"), at("18:20")]
    # last out 18:28: dress from 18:33; first out 18:08: dress until 18:38
    for good in ("18:33", "18:38"):
        assert not clashes(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": at(good)}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": at("18:32")}))
    assert told(clash) == (ClashKind.WAIT_TOO_SHORT, at("18:32"), at("18:33"), 1)
    assert clash.sentence == (
        "Leeks: Dress starts at 18:32, 4 min after the last load of Leeks: Grill is done; it must wait 5."
    )
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": at("18:39")}))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:38"), at("18:39"), 1)
    assert clash.sentence == (
        "The first load of Leeks: Grill is done at 18:08 and waits 31 min until Leeks: Dress starts;"
        " it can wait 30."
    )


def test_every_load_after_waits_for_the_last_before_and_the_longest_wait_counts():
    plan = loads_plan(2, most=40)
    grill = [at("18:00"), at("18:10"), at("18:20")]
    assert not clashes(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [at("18:28"), at("18:48")]}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [at("18:27"), at("18:48")]}))
    assert clash.sentence == (
        "The first load of Leeks: Dress starts at 18:27, 1 min before the last load of Leeks: Grill is done."
    )
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [at("18:28"), at("18:49")]}))
    assert clash.sentence == (
        "The first load of Leeks: Grill is done at 18:08 and waits 41 min until the last load of Leeks: Dress"
        " starts; it can wait 40."
    )


def test_equal_numbers_of_loads_are_tied_pair_by_pair():
    plan = loads_plan(3, least=1, most=5)
    grill, dress = [at("18:00"), at("18:10"), at("18:20")], [at("18:09"), at("18:19"), at("18:33")]
    assert not clashes(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": dress}))
    clash = the_clash(
        plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [dress[0], at("18:18"), dress[2]]})
    )
    assert clash.sentence == (
        "Load 2 of Leeks: Dress starts at 18:18, 0 min after load 2 of Leeks: Grill is done; it must wait 1."
    )
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [*dress[:2], at("18:34")]}))
    assert clash.sentence == (
        "Load 3 of Leeks: Grill is done at 18:28 and waits 6 min until load 3 of Leeks: Dress starts;"
        " it can wait 5."
    )


def test_ends_of_loads_are_tied_by_their_last():
    plan = loads_plan(2, kind=LinkKind.END_TO_END, most=12)
    grill = [at("18:00"), at("18:10"), at("18:20")]
    assert not clashes(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [at("18:00"), at("18:36")]}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": grill, "leeks.dress": [at("18:00"), at("18:37")]}))
    assert clash.sentence == (
        "The last load of Leeks: Dress is done at 18:41, 13 min after the last load of Leeks: Grill is done;"
        " at most 12 is allowed."
    )


def test_an_order_the_cook_gave_is_kept():
    dishes = (a_dish("soup", hands_off("soup.boil", 20)), a_dish("tart", hands_off("tart.cool", 20)))
    plan = a_plan(*dishes, orders=(Order(dishes[0].steps[0].id, dishes[1].steps[0].id),))
    assert not clashes(plan, laid(plan, {"soup.boil": at("18:00"), "tart.cool": at("18:20")}))
    clash = the_clash(plan, laid(plan, {"soup.boil": at("18:00"), "tart.cool": at("18:19")}))
    assert told(clash) == (ClashKind.OUT_OF_ORDER, at("18:19"), at("18:20"), 1)
    assert clash.steps == ("soup.boil", "tart.cool")
    assert (
        clash.sentence
        == "Tart: Cool starts at 18:19, 1 min before Soup: Boil is done; you put it after that."
    )


@pytest.mark.parametrize("served", [True, False])
def test_a_last_step_is_done_by_its_course(served):
    plan = a_plan(a_dish("squash", hands_off("squash.roast", 35), name="Squash", course=75, served=served))
    assert not clashes(plan, laid(plan, {"squash.roast": at("20:10")}))
    clash = the_clash(plan, laid(plan, {"squash.roast": at("20:11")}))
    assert told(clash) == (ClashKind.LATE, at("20:45"), at("20:46"), 1)
    needed = "it is served" if served else "it must be ready"
    assert clash.sentence == f"Squash: Roast is done at 20:46, 1 min after {needed} at 20:45."


def test_the_last_load_of_all_is_what_is_late():
    plan = a_plan(a_dish("leeks", hands_off("leeks.grill", 8, loads=Loads(18, 6))))
    timetable = laid(plan, {"leeks.grill": [at("19:00"), at("19:10"), at("19:25")]})
    clash = the_clash(plan, timetable)
    assert (
        clash.sentence == "The last load of Leeks: Grill is done at 19:33, 3 min after it is served at 19:30."
    )


def test_food_keeps_so_long_until_it_is_served():
    plan = a_plan(a_dish("fritters", hands_off("fritters.fry", 5, keeps=Keep(8)), course=-3))
    assert not clashes(plan, laid(plan, {"fritters.fry": at("19:14")}))
    clash = the_clash(plan, laid(plan, {"fritters.fry": at("19:11")}))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("19:24"), at("19:27"), 3)
    assert clash.sentence == (
        "Fritters: Fry is done at 19:16 and waits 11 min until it is served; it can wait 8."
    )


def test_the_first_load_waits_longest_until_it_is_served_and_may_be_done_early():
    dish = a_dish("leeks", hands_off("leeks.grill", (5, 6, 8), loads=Loads(12, 6)), keep=Keep(20))
    plan = a_plan(dish, manner=Manner.SAFE)
    assert not clashes(plan, laid(plan, {"leeks.grill": [at("19:05"), at("19:15")]}))
    clash = the_clash(plan, laid(plan, {"leeks.grill": [at("19:04"), at("19:15")]}))
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("19:29"), at("19:30"), 1)
    assert clash.sentence == (
        "The first load of Leeks: Grill may be done at 19:09 and then waits 21 min until it is served;"
        " it can wait 20."
    )


def test_a_component_that_is_not_served_keeps_for_ever():
    dish = a_dish("stock", hands_off("stock.simmer", 60), served=False, keep=Keep(5))
    plan = a_plan(dish)
    assert not clashes(plan, laid(plan, {"stock.simmer": at("10:00")}))


def test_earliest_and_latest_hold_to_the_minute():
    step = hands_off("mousse.set", 360, earliest=at("10:00"), latest=at("16:30"))
    plan = a_plan(a_dish("mousse", step))
    for good in ("10:00", "10:30"):
        assert not clashes(plan, laid(plan, {"mousse.set": at(good)}))
    clash = the_clash(plan, laid(plan, {"mousse.set": at("9:59")}))
    assert told(clash) == (ClashKind.TOO_EARLY, at("9:59"), at("10:00"), 1)
    assert clash.sentence == "Mousse: Set starts at 09:59, 1 min before it may at 10:00."
    clash = the_clash(plan, laid(plan, {"mousse.set": at("10:31")}))
    assert told(clash) == (ClashKind.LATE, at("16:30"), at("16:31"), 1)
    assert clash.sentence == "Mousse: Set is done at 16:31, 1 min after it must be at 16:30."


def test_nothing_begins_before_the_plan_opens():
    plan = a_plan(a_dish("soup", hands_off("soup.boil", 20)), opens=at("12:00"))
    assert not clashes(plan, laid(plan, {"soup.boil": at("12:00")}))
    clash = the_clash(plan, laid(plan, {"soup.boil": at("11:58")}))
    assert told(clash) == (ClashKind.TOO_EARLY, at("11:58"), at("12:00"), 2)
    assert clash.sentence == "Soup: Boil starts at 11:58, 2 min before the plan opens at 12:00."


def test_a_clock_time_is_kept_to_the_minute_on_its_day():
    step = hands_off("fish.collect", 20, clock=ClockTime(1, 16 * 60))
    plan = a_plan(a_dish("fish", step))
    friday = at("16:00") - 24 * 60
    assert not clashes(plan, laid(plan, {"fish.collect": friday}))
    clash = the_clash(plan, laid(plan, {"fish.collect": friday - 5}))
    assert told(clash) == (ClashKind.TOO_EARLY, friday - 5, friday, 5)
    assert clash.sentence == "Fish: Collect starts at Fri 15:55, 5 min too early: it is set for Fri 16:00."
    clash = the_clash(plan, laid(plan, {"fish.collect": friday + 5}))
    assert told(clash) == (ClashKind.LATE, friday, friday + 5, 5)
    assert clash.sentence == "Fish: Collect starts at Fri 16:05, 5 min too late: it is set for Fri 16:00."


def test_clashes_come_in_order_of_time():
    steps = (a_step("a.chop", minutes=10), a_step("b.chop", minutes=10), a_step("c.chop", minutes=10))
    plan = a_plan(*(a_dish(step.id[0], step) for step in steps))
    found = clashes(plan, laid(plan, {"c.chop": 5, "a.chop": 3, "b.chop": -4}))
    assert [clash.start for clash in found] == sorted(clash.start for clash in found)
    assert len(found) == 6  # three late; hands: b and a, all three, a and c


def test_minutes_stay_true_across_a_clock_change():
    """In the night to 25 October 2026 the clocks of London go back at 02:00; midday is 13 h after midnight."""
    step = hands_off("ham.steep", 60, earliest=-720)
    plan = a_plan(a_dish("ham", step), plating="2026-10-25 12:00")
    assert not clashes(plan, laid(plan, {"ham.steep": -720}))
    clash = the_clash(plan, laid(plan, {"ham.steep": -721}))
    assert clash.sentence == "Ham: Steep starts at 00:59, 1 min before it may at 01:00."
    clash = the_clash(plan, laid(plan, {"ham.steep": -790}))
    assert clash.sentence == "Ham: Steep starts at Sat 23:50, 1 h 10 min before it may at 01:00."
