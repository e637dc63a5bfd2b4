"""The day: facts stand, nothing else begins before now, what lies before now clashes with nothing."""

from dataclasses import replace

import pytest

from core.plan.day import Day, Fact, Lit, State, Washed
from core.plan.decisions import Order, Pin
from core.plan.ids import CookId, StepId
from core.plan.kitchen import Heater, Window
from core.plan.step import Attention, ClockTime, Holding, Keep, Loads, Manner, Touch, VesselUse, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import Checker, clashes
from core.timetable.timetable import Hand, Timetable
from tests.core.timetable.laid import at, heating, laid, placed, the_clash, told, washing
from tests.support.builders import (
    OVEN,
    a_cook,
    a_dish,
    a_fire,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    hands_off,
)

DONE, GOING, DROPPED = State.DONE, State.UNDER_WAY, State.DROPPED


def day(now: str, *facts: tuple) -> Day:
    """Return a day from (step, state, start, end, load), times as clock times."""
    return Day(at(now), tuple(
        Fact(StepId(step), state, *(at(each) if isinstance(each, str) else each for each in times))
        for step, state, *times in facts
    ))  # fmt: skip


def lengths(timetable: Timetable, **minutes: int) -> Timetable:
    """Return a timetable with other lengths, hands left as they are."""
    return replace(timetable, placed=tuple(
        replace(each, length=minutes.get(each.step.replace(".", "_"), each.length)) for each in timetable.placed
    ))  # fmt: skip


SOUP = a_plan(a_dish("soup", hands_off("soup.sweat", 10), hands_off("soup.boil", 20)),
              links=(a_link("soup.sweat", "soup.boil", 5, 30),))  # fmt: skip
EVENING = {"soup.sweat": at("18:00"), "soup.boil": at("18:20")}

# ---- what has begun


def test_nothing_begins_before_now_that_is_no_fact():
    good = laid(SOUP, EVENING)
    assert not clashes(SOUP, good, day=day("18:00"))
    clash = the_clash(SOUP, good, day("18:01"))
    assert told(clash) == (ClashKind.BEFORE_NOW, at("18:00"), at("18:01"), 1)
    assert clash.steps == ("soup.sweat",)
    assert clash.sentence == (
        "Soup: Sweat is to start at 18:00, 1 min before now, and has not begun; begin it at 18:01 or later, or say when"
        " it began."
    )
    assert not clashes(SOUP, good, day=day("18:01", ("soup.sweat", GOING, "18:00")))


def test_a_done_load_keeps_its_start_and_end_whatever_its_length():
    known = day("18:30", ("soup.sweat", DONE, "18:00", "18:13"), ("soup.boil", GOING, "18:20"))
    good = lengths(laid(SOUP, EVENING), soup_sweat=13)
    assert not clashes(SOUP, good, day=known)
    clash = the_clash(SOUP, laid(SOUP, EVENING), known)
    assert told(clash) == (ClashKind.NOT_AS_IT_WAS, at("18:10"), at("18:13"), 3)
    assert clash.sentence == "Soup: Sweat was done at 18:13; the timetable has it end at 18:10."
    clash = the_clash(SOUP, lengths(laid(SOUP, {**EVENING, "soup.sweat": at("17:59")}), soup_sweat=14), known)
    assert told(clash) == (ClashKind.NOT_AS_IT_WAS, at("17:59"), at("18:00"), 1)
    assert clash.sentence == "Soup: Sweat began at 18:00; the timetable has it start at 17:59."
    missing = the_clash(SOUP, laid(SOUP, {"soup.boil": at("18:20")}), known)
    assert missing.kind is ClashKind.MISSING


def test_one_under_way_ends_by_its_length_or_by_now_or_as_the_fact_says():
    going = ("soup.sweat", DONE, "18:00", "18:10"), ("soup.boil", GOING, "18:20")
    good = laid(SOUP, EVENING)
    for now in ("18:21", "18:40"):
        assert not clashes(SOUP, good, day=day(now, *going))
    late = day("18:41", *going)
    clash = the_clash(SOUP, good, late)
    assert told(clash) == (ClashKind.NOT_AS_IT_WAS, at("18:40"), at("18:41"), 1)
    assert clash.sentence == (
        "Soup: Boil is under way and will be done at 18:41; the timetable has it end at 18:40."
    )
    assert not clashes(SOUP, lengths(good, soup_boil=21), day=late)
    said = day("18:41", going[0], (*going[1], "18:50"))
    assert not clashes(SOUP, lengths(good, soup_boil=30), day=said)
    for other in (29, 31):
        assert told(the_clash(SOUP, lengths(good, soup_boil=other), said))[3] == 1


def test_a_done_load_whose_end_nobody_wrote_down_may_end_anywhere():
    plan = a_plan(a_dish("soup", hands_off("soup.boil", 20)))
    known = day("19:00", ("soup.boil", DONE, "18:20"))
    for minutes in (1, 20, 39):
        assert not clashes(
            plan, lengths(laid(plan, {"soup.boil": at("18:20")}), soup_boil=minutes), day=known
        )


def test_one_under_way_in_a_full_oven_takes_longer():
    oven = an_oven(racks=1, heater=Heater(from_cold=(), full=10))
    tart = hands_off("tart.bake", 40, uses=(at_oven(180),))
    pie = hands_off("pie.bake", 40, uses=(at_oven(180),))
    plan = a_plan(a_dish("tart", tart), a_dish("pie", pie), kitchen=a_kitchen(oven=replace(oven, units=2)))
    known = day("18:20", ("tart.bake", GOING, "18:00"))
    starts = {"tart.bake": at("18:00"), "pie.bake": at("18:39")}
    assert not clashes(plan, lengths(laid(plan, starts), tart_bake=44, pie_bake=44), day=known)
    clash = the_clash(plan, lengths(laid(plan, starts), pie_bake=44), known)
    assert told(clash) == (ClashKind.NOT_AS_IT_WAS, at("18:40"), at("18:44"), 4)


def test_facts_of_steps_that_are_not_in_the_menu_say_nothing():
    assert not clashes(SOUP, laid(SOUP, EVENING), day=day("17:00", ("tart.bake", DONE, "16:00", "16:30")))


# ---- dropped


def test_a_dropped_step_is_gone_with_its_links():
    known = day("17:00", ("soup.boil", DROPPED))
    assert not clashes(SOUP, laid(SOUP, {"soup.sweat": at("18:00")}), day=known)
    clash = the_clash(SOUP, laid(SOUP, {**EVENING, "soup.boil": at("18:10")}), known)
    assert (clash.kind, clash.start, clash.steps) == (ClashKind.WRONG_PLACE, at("18:10"), ("soup.boil",))
    assert clash.sentence == "Soup: Boil was dropped and is still on the timetable; take it off."


def test_what_nothing_follows_any_more_is_served():
    plan = a_plan(a_dish("soup", *SOUP.menu.dishes[0].steps, keep=Keep(20)), links=SOUP.menu.links)
    known = day("17:00", ("soup.boil", DROPPED))
    assert not clashes(plan, laid(plan, {"soup.sweat": at("19:00")}), day=known)  # done at 19:10
    clash = the_clash(plan, laid(plan, {"soup.sweat": at("18:59")}), known)
    assert (clash.kind, clash.by) == (ClashKind.WAITED_TOO_LONG, 1)


def test_dropped_loads_are_not_missed_and_the_rest_keeps_its_order():
    step = hands_off("leeks.grill", 10, loads=Loads(18, 6, change_over=2))
    plan = a_plan(a_dish("leeks", step))
    good = laid(plan, {"leeks.grill": [at("18:00"), at("18:12"), at("18:24")]})
    first, _second, third = good.placed
    known = day("17:00", ("leeks.grill", DROPPED, 0, None, 1))
    assert not clashes(plan, replace(good, placed=(first, third)), day=known)
    assert the_clash(plan, good, known).sentence == (
        "Load 2 of Leeks: Grill was dropped and is still on the timetable; take it off."
    )
    assert told(the_clash(plan, replace(good, placed=(first,)), known)) == (ClashKind.MISSING, 0, 0, 1)
    close = replace(good, placed=(first, replace(third, start=at("18:12"))))
    assert not clashes(plan, close, day=known)
    closer = replace(good, placed=(first, replace(third, start=at("18:11"))))
    assert told(the_clash(plan, closer, known)) == (ClashKind.WAIT_TOO_SHORT, at("18:11"), at("18:12"), 1)
    all_of_them = day("17:00", *(("leeks.grill", DROPPED, 0, None, load) for load in range(3)))
    assert not clashes(plan, Timetable(), day=all_of_them)


def test_a_dropped_run_needs_no_washing_and_no_pot():
    pot = (VesselUse(a_vessel("pot").id),)
    soup, stew = hands_off("soup.boil", 20, vessels=pot), hands_off("stew.boil", 20, vessels=pot)
    plan = a_plan(a_dish("soup", soup), a_dish("stew", stew), kitchen=a_kitchen(vessels=(a_vessel("pot"),)))
    assert clashes(plan, laid(plan, {"soup.boil": at("18:00"), "stew.boil": at("18:30")}))
    known = day("17:00", ("soup.boil", DROPPED))
    assert not clashes(plan, laid(plan, {"stew.boil": at("18:30")}), day=known)


# ---- before now


def test_waits_that_began_before_now_are_judged():
    known = day("18:35", ("soup.sweat", DONE, "18:00", "18:10"))
    assert not clashes(SOUP, laid(SOUP, {**EVENING, "soup.boil": at("18:40")}), day=known)
    clash = the_clash(SOUP, laid(SOUP, {**EVENING, "soup.boil": at("18:41")}), known)
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("18:40"), at("18:41"), 1)
    slow = day("18:13", ("soup.sweat", DONE, "18:00", "18:10"))
    clash = the_clash(SOUP, laid(SOUP, {**EVENING, "soup.boil": at("18:14")}), slow)
    assert told(clash) == (ClashKind.WAIT_TOO_SHORT, at("18:14"), at("18:15"), 1)


@pytest.mark.parametrize("boil", ["18:14", "18:41", "18:05"])
def test_waits_that_are_over_are_not(boil):
    known = day("18:50", ("soup.sweat", DONE, "18:00", "18:10"), ("soup.boil", GOING, boil, "19:00"))
    minutes = at("19:00") - at(boil)
    assert not clashes(
        SOUP, lengths(laid(SOUP, {**EVENING, "soup.boil": at(boil)}), soup_boil=minutes), day=known
    )


def test_food_that_is_done_is_as_old_as_it_is_and_food_under_way_not_done_yet():
    step = hands_off("soup.boil", (10, 20, 30))
    plan = a_plan(a_dish("soup", step, keep=Keep(30)), manner=Manner.SAFE)
    good = laid(plan, {"soup.boil": at("18:50")})  # until 19:20, may be done at 19:00
    assert not clashes(plan, good)
    early = laid(plan, {"soup.boil": at("18:49")})
    assert the_clash(plan, early).kind is ClashKind.WAITED_TOO_LONG
    assert the_clash(plan, early, day("18:50", ("soup.boil", GOING, "18:49"))).by == 1
    assert not clashes(plan, early, day=day("19:00", ("soup.boil", GOING, "18:49")))
    known = day("19:10", ("soup.boil", DONE, "18:49", "19:01"))
    assert not clashes(plan, lengths(early, soup_boil=12), day=known)
    old = day("19:10", ("soup.boil", DONE, "18:49", "18:59"))
    clash = the_clash(plan, lengths(early, soup_boil=10), old)
    assert told(clash) == (ClashKind.WAITED_TOO_LONG, at("19:29"), at("19:30"), 1)
    assert (
        clash.sentence == "Soup: Boil is done at 18:59 and waits 31 min until it is served; it can wait 30."
    )


def test_hands_before_now_are_history():
    cream, roast = a_step("cream.whip", minutes=10), a_step("pork.carve", minutes=10)
    tea = a_step("tea.draw", minutes=20, attention=Attention.TENDED, touches=(Touch(2, 2), Touch(12, 2)),
                 put_in=0, take_out=0)  # fmt: skip
    plan = a_plan(*(a_dish(step.id.split(".")[0], step) for step in (cream, roast, tea)))
    together = laid(plan, {"cream.whip": at("18:00"), "pork.carve": at("18:00"), "tea.draw": at("18:00")})
    facts = (("cream.whip", GOING, "18:00"), ("pork.carve", GOING, "18:00"), ("tea.draw", GOING, "18:00"))
    found = clashes(plan, together, day=day("18:09", *facts))
    assert [told(each) for each in found] == [(ClashKind.HANDS_SHORT, at("18:09"), at("18:10"), 1)]
    assert not clashes(plan, together, day=day("18:10", *facts))
    # nobody need be written down for what is over, and from now on is enough
    nobody = replace(together, placed=tuple(replace(each, hands=()) for each in together.placed))
    assert [told(each)[:3] for each in clashes(plan, nobody, day=day("18:10", *facts))] == [
        (ClashKind.HANDS_SHORT, at("18:12"), at("18:14"))
    ]
    rest = replace(together.placed[0], hands=(Hand(at("18:04"), 6, CookId("ann")),))
    one = replace(together, placed=(rest, *nobody.placed[1:]))
    found = clashes(plan, one, day=day("18:04", *facts))
    assert [each.steps for each in found] == [("pork.carve",), ("tea.draw",)]


def test_a_step_that_could_be_cut_is_counted_from_now_on_too():
    steps = [a_step(f"{name}.peel", minutes=10, least_piece=5) for name in ("roots", "apples")]
    plan = a_plan(*(a_dish(step.id.split(".")[0], step) for step in steps))
    good = laid(plan, {step.id: at("18:00") for step in steps})
    going = [(step.id, GOING, "18:00") for step in steps]
    assert told(the_clash(plan, good, day("18:09", *going)))[1:] == (at("18:09"), at("18:10"), 1)
    assert not clashes(plan, good, day=day("18:10", *going))


def test_a_break_that_is_over_and_a_walk_that_was_missed_are_history():
    leeks = a_step("leeks.grill", minutes=10, uses=(a_use("grill"),))
    soup = a_step("soup.stir", minutes=10, uses=(a_use("burner"),))
    ann = a_cook("ann", breaks=(Window(0, 18 * 60, 18 * 60 + 5),))
    plan = a_plan(a_dish("leeks", leeks), a_dish("soup", soup), kitchen=a_kitchen(cooks=(ann,)))
    good = laid(plan, {"leeks.grill": at("18:00"), "soup.stir": at("18:10")})
    kinds = [each.kind for each in clashes(plan, good)]
    assert kinds == [ClashKind.COOK_ABSENT, ClashKind.NO_WALK]
    going = ("leeks.grill", GOING, "18:00")
    assert [told(each)[1:] for each in clashes(plan, good, day=day("18:04", going))] == [
        (at("18:04"), at("18:05"), 1), (at("18:10"), at("18:11"), 1)]  # fmt: skip
    assert the_clash(plan, good, day("18:09", going)).kind is ClashKind.NO_WALK
    assert not clashes(plan, good, day=day("18:10", ("leeks.grill", DONE, "18:00", "18:10")))


def test_places_settings_and_pots_clash_from_now_on_only():
    pot = (VesselUse(a_vessel("pot").id),)
    tart = hands_off("tart.bake", 30, uses=(at_oven(160, 0),), vessels=pot)
    pie = hands_off("pie.bake", 30, uses=(at_oven(200, 0),), vessels=pot)
    kitchen = a_kitchen(
        oven=an_oven(racks=1, heater=Heater(from_cold=())), vessels=(a_vessel("pot", washing=0),)
    )
    plan = a_plan(a_dish("tart", tart), a_dish("pie", pie), kitchen=kitchen)
    both = laid(plan, {"tart.bake": at("18:00"), "pie.bake": at("18:10")})
    going = (("tart.bake", GOING, "18:00"), ("pie.bake", GOING, "18:10"))
    found = clashes(plan, both, day=day("18:29", *going))
    assert sorted((each.kind, each.start, each.end) for each in found) == sorted(
        (kind, at("18:29"), at("18:30"))
        for kind in (ClashKind.OVER_FULL, ClashKind.OVEN_TEMPERATURE, ClashKind.VESSEL_SHORT)
    )
    assert not clashes(plan, both, day=day("18:30", ("tart.bake", DONE, "18:00", "18:30"), going[1]))


def test_a_closed_station_is_told_from_now_on():
    oven = an_oven(heater=None, hours=(Window(0, 18 * 60 + 10, 20 * 60),))
    step = hands_off("tart.bake", 30, uses=(a_use("oven"),))
    plan = a_plan(a_dish("tart", step), kitchen=a_kitchen(oven=oven))
    good, going = laid(plan, {"tart.bake": at("18:00")}), ("tart.bake", GOING, "18:00")
    assert told(the_clash(plan, good, day("18:09", going)))[1:] == (at("18:09"), at("18:10"), 1)
    assert not clashes(plan, good, day=day("18:10", going))


def test_wrong_places_that_are_over_are_history():
    plan = a_plan(a_dish("tart", hands_off("tart.bake", 30, uses=(a_use("oven", units=1),))),
                  kitchen=a_kitchen(oven=an_oven(heater=None)))  # fmt: skip
    nowhere = laid(plan, {"tart.bake": at("18:00")}, spots={"tart.bake": []})
    assert the_clash(plan, nowhere, day("18:29", ("tart.bake", GOING, "18:00"))).kind is ClashKind.WRONG_PLACE
    assert not clashes(plan, nowhere, day=day("18:30", ("tart.bake", DONE, "18:00", "18:30")))


def test_food_that_waits_needs_its_place_from_now_on():
    fridge = Wait(Holding.FRIDGE, a_use("fridge", area=500))
    plan = a_plan(
        a_dish("soup", hands_off("soup.sweat", 10), hands_off("soup.boil", 20)),
        links=(a_link("soup.sweat", "soup.boil", wait=fridge),),
    )
    good = laid(plan, EVENING)
    known = day("18:15", ("soup.sweat", DONE, "18:00", "18:10"))
    assert not clashes(plan, good, day=known)
    (stay,) = good.stays
    assert not clashes(plan, replace(good, stays=(replace(stay, start=at("18:15")),)), day=known)
    clash = the_clash(plan, replace(good, stays=()), known)
    assert (clash.kind, clash.start, clash.end) == (ClashKind.MISSING, at("18:15"), at("18:20"))
    over = day("18:21", ("soup.sweat", DONE, "18:00", "18:10"), ("soup.boil", GOING, "18:20"))
    assert not clashes(plan, replace(good, stays=()), day=over)


# ---- heating, fires, washing


def baking():
    heater = Heater(from_cold=((200, 20),), up=5.0, down=5.0, keep_on=30)
    tart, pie = (hands_off(f"{name}.bake", 30, uses=(at_oven(200, 0),)) for name in ("tart", "pie"))
    dishes = (a_dish("tart", tart, course=300), a_dish("pie", pie, course=300))
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(heater=heater)))


def test_no_heating_begins_before_now():
    plan = baking()
    both = {"tart.bake": at("18:30"), "pie.bake": at("18:30")}
    good = laid(plan, both, heatings=[heating("oven", at("18:10"), at("18:30"), 200)])
    assert not clashes(plan, good, day=day("18:10"))
    clash = the_clash(plan, good, day("18:11"))
    assert told(clash) == (ClashKind.BEFORE_NOW, at("18:10"), at("18:11"), 1)
    assert (clash.steps, clash.stations) == (("pie.bake", "tart.bake"), ("oven",))
    assert clash.sentence == (
        "The oven was to be switched on at 18:10, 1 min before now; have it switched on at 18:11 or later."
    )


def test_an_oven_that_was_heated_up_is_hot():
    plan = baking()
    known = day("18:40", ("tart.bake", GOING, "18:30"))  # how it got hot is history; out at 19:00
    for good in ("19:00", "19:30"):
        assert not clashes(plan, laid(plan, {"tart.bake": at("18:30"), "pie.bake": at(good)}), day=known)
    clash = the_clash(plan, laid(plan, {"tart.bake": at("18:30"), "pie.bake": at("19:31")}), known)
    assert (clash.kind, clash.by, clash.steps) == (ClashKind.HEATING_MISSING, 20, ("pie.bake",))


def test_a_change_of_setting_is_judged_before_what_is_still_to_come():
    plan = baking()
    (tart, pie), heater = plan.menu.dishes, Heater(from_cold=(), up=5.0, down=5.0)
    cooler = replace(pie, steps=(hands_off("pie.bake", 30, uses=(at_oven(150, 0),)),))
    plan = replace(plan, menu=replace(plan.menu, dishes=(tart, cooler)),
                   kitchen=a_kitchen(oven=an_oven(heater=heater)))  # fmt: skip
    close = laid(plan, {"tart.bake": at("18:00"), "pie.bake": at("18:39")})
    known = day("18:35", ("tart.bake", DONE, "18:00", "18:30"))
    assert told(the_clash(plan, close, known)) == (ClashKind.HEATING_MISSING, at("18:39"), at("18:40"), 1)
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "pie.bake": at("18:40")}), day=known)
    begun = day("18:41", ("tart.bake", DONE, "18:00", "18:30"), ("pie.bake", GOING, "18:39"))
    assert not clashes(plan, close, day=begun)


def test_a_fire_that_was_lit_burns():
    chops = hands_off("chops.grill", 30, uses=(a_use("grill"),))
    plan = a_plan(a_dish("chops", chops), kitchen=a_kitchen(stations=(a_fire(),)))
    alight = [heating("grill", at("17:30"), at("17:55"), 0)]
    good = laid(plan, {"chops.grill": at("18:25")}, heatings=alight)  # burns until 18:55
    for now in ("17:30", "17:55", "18:20"):
        assert not clashes(plan, good, day=day(now))
    for now in ("17:31", "17:54"):
        clash = the_clash(plan, good, day(now))
        assert clash.kind is ClashKind.BEFORE_NOW
        assert clash.sentence.startswith("The grill was to be lit at 17:30, ")
    late = laid(plan, {"chops.grill": at("18:26")}, heatings=alight)
    clash = the_clash(plan, late, day("18:20"))
    assert told(clash) == (ClashKind.NO_FIRE, at("18:55"), at("18:56"), 1)
    # who lit it, and for how long, is history
    odd = laid(
        plan, {"chops.grill": at("18:25")}, heatings=[heating("grill", at("17:45"), at("17:55"), 0, None)]
    )
    assert not clashes(plan, odd, day=day("18:20"))
    none = the_clash(plan, laid(plan, {"chops.grill": at("18:40")}), day("18:20"))
    assert none.sentence.endswith("no fire burns there then. Begin when one is ready.")


def test_what_is_being_heated_lit_or_washed_as_a_fact_goes_on():
    plan = baking()
    both = {"tart.bake": at("18:30"), "pie.bake": at("18:30")}
    good = laid(plan, both, heatings=[heating("oven", at("18:10"), at("18:30"), 200)])
    hot = Lit(OVEN, at("18:10"), at("18:30"), 200, CookId("ann"))
    assert not clashes(plan, good, day=Day(at("18:20"), lit=(hot,)))
    other = Day(at("18:20"), lit=(replace(hot, start=at("18:09")),))
    assert the_clash(plan, good, other).kind is ClashKind.BEFORE_NOW
    pot = (VesselUse(a_vessel("pot").id),)
    soup, stew = hands_off("soup.boil", 20, vessels=pot), hands_off("stew.boil", 20, vessels=pot)
    plan = a_plan(a_dish("soup", soup), a_dish("stew", stew), kitchen=a_kitchen(vessels=(a_vessel("pot"),)))
    wash = washing("pot", at("18:20"), "soup.boil", 5, "ann")
    good = laid(plan, {"soup.boil": at("18:00"), "stew.boil": at("18:30")}, washings=[wash])
    facts = day("18:22", ("soup.boil", DONE, "18:00", "18:20"))
    assert the_clash(plan, good, facts).kind is ClashKind.BEFORE_NOW
    known = Washed(wash.vessel, wash.after, wash.start, wash.minutes, wash.cook)
    assert not clashes(plan, good, day=replace(facts, washed=(known,)))


def test_a_pot_that_was_passed_on_before_now_is_held_by_the_last_to_have_it():
    pot = (VesselUse(a_vessel("pot").id),)
    dishes = [a_dish(name, hands_off(f"{name}.boil", 10, vessels=pot)) for name in ("soup", "stew", "broth")]
    plan = a_plan(*dishes, kitchen=a_kitchen(vessels=(a_vessel("pot", name="Pot"),)))
    starts = {"soup.boil": at("17:00"), "stew.boil": at("17:10"), "broth.boil": at("18:00")}
    facts = day("17:30", ("soup.boil", DONE, "17:00", "17:10"), ("stew.boil", DONE, "17:10", "17:20"))
    dirty = the_clash(plan, laid(plan, starts), facts)
    assert (told(dirty), dirty.steps) == (
        (ClashKind.VESSEL_SHORT, at("18:00"), at("18:10"), 1),
        ("stew.boil", "broth.boil"),
    )
    washed = laid(plan, starts, washings=[washing("pot", at("17:55"), "stew.boil")])
    assert not clashes(plan, washed, day=facts)
    late = laid(plan, starts, washings=[washing("pot", at("17:56"), "stew.boil")])
    assert told(the_clash(plan, late, facts)) == (ClashKind.VESSEL_SHORT, at("18:00"), at("18:01"), 1)


def test_a_run_that_had_more_vessels_than_there_are_holds_all_there_are():
    two, one = ((VesselUse(a_vessel("pot").id, count),) for count in (2, 1))
    soup, stew = hands_off("soup.boil", 10, vessels=two), hands_off("stew.boil", 10, vessels=one)
    plan = a_plan(a_dish("soup", soup), a_dish("stew", stew), kitchen=a_kitchen(vessels=(a_vessel("pot"),)))
    facts = day("17:30", ("soup.boil", DONE, "17:00", "17:10"))
    clash = the_clash(plan, laid(plan, {"soup.boil": at("17:00"), "stew.boil": at("18:00")}), facts)
    assert told(clash) == (ClashKind.VESSEL_SHORT, at("18:00"), at("18:10"), 1)


def test_a_pin_before_now_is_void():
    plan = a_plan(SOUP.menu.dishes[0], pins=(Pin(StepId("soup.boil"), start=at("18:00")),))
    late = laid(plan, {"soup.sweat": at("18:20"), "soup.boil": at("18:30")})
    assert the_clash(plan, late, day("18:00")).kind is ClashKind.PIN_MOVED
    assert not clashes(plan, late, day=day("18:01"))


def test_what_was_on_the_fire_before_now_is_history():
    chops = hands_off("chops.grill", 30, uses=(a_use("grill"),))
    plan = a_plan(a_dish("chops", chops), kitchen=a_kitchen(stations=(a_fire(),)))
    going = laid(plan, {"chops.grill": at("18:00")})
    clash = the_clash(plan, going, day("18:29", ("chops.grill", GOING, "18:00")))
    assert told(clash) == (ClashKind.NO_FIRE, at("18:29"), at("18:30"), 1)
    assert not clashes(plan, going, day=day("18:30", ("chops.grill", DONE, "18:00", "18:30")))


def test_no_washing_begins_before_now_and_what_was_washed_is_clean():
    pot = (VesselUse(a_vessel("pot").id),)
    soup, stew = hands_off("soup.boil", 20, vessels=pot), hands_off("stew.boil", 20, vessels=pot)
    kitchen = a_kitchen(vessels=(a_vessel("pot", name="Pot"),))
    plan = a_plan(a_dish("soup", soup), a_dish("stew", stew), kitchen=kitchen)
    starts = {"soup.boil": at("18:00"), "stew.boil": at("18:40")}
    good = laid(plan, starts, washings=[washing("pot", at("18:25"), "soup.boil", cook="ann")])
    done = ("soup.boil", DONE, "18:00", "18:20")
    for now in ("18:25", "18:30"):
        assert not clashes(plan, good, day=day(now, done))
    clash = the_clash(plan, good, day("18:26", done))
    assert told(clash) == (ClashKind.BEFORE_NOW, at("18:25"), at("18:26"), 1)
    assert clash.sentence == "Pot was to be washed at 18:25, 1 min before now; wash it at 18:26 or later."
    dirty = the_clash(plan, laid(plan, starts), day("18:30", done))
    assert dirty.sentence.endswith("and there is one; it can be washed from 18:30, which takes 5 min.")
    nobody = laid(plan, starts, washings=[washing("pot", at("18:19"), "soup.boil", 2, None)])
    assert not clashes(plan, nobody, day=day("18:30", done))  # too soon, too short, by nobody, and over


# ---- what has begun is not told off


def test_serving_bounds_orders_pins_and_clocks_of_what_has_begun():
    soup = hands_off("soup.boil", 20, earliest=at("18:30"), clock=ClockTime(0, 18 * 60 + 40))
    tart = hands_off("tart.bake", 20)
    pins = (Pin(soup.id, start=at("18:30")),)
    plan = a_plan(a_dish("soup", soup, course=-60), a_dish("tart", tart), pins=pins, opens=at("18:25"),
                  orders=(Order(tart.id, soup.id),))  # fmt: skip
    starts = {"soup.boil": at("18:20"), "tart.bake": at("18:50")}
    kinds = {each.kind for each in clashes(plan, laid(plan, starts))}
    assert kinds == {ClashKind.TOO_EARLY, ClashKind.OUT_OF_ORDER, ClashKind.LATE, ClashKind.PIN_MOVED}
    going = clashes(plan, laid(plan, starts), day=day("18:39", ("soup.boil", GOING, "18:20")))
    assert [told(each) for each in going] == [(ClashKind.LATE, at("18:30"), at("18:40"), 10)]
    assert not clashes(plan, laid(plan, starts), day=day("18:40", ("soup.boil", DONE, "18:20", "18:40")))


def test_a_latest_end_is_told_until_it_has_come():
    plan = a_plan(a_dish("soup", hands_off("soup.boil", 20, latest=at("18:39"))))
    good = laid(plan, {"soup.boil": at("18:20")})
    assert the_clash(plan, good, day("18:39", ("soup.boil", GOING, "18:20"))).by == 1
    assert not clashes(plan, good, day=day("18:40", ("soup.boil", DONE, "18:20", "18:40")))


def test_a_step_in_pieces_that_has_begun_goes_on_in_pieces_if_it_is_said_when_it_ends():
    peel, whip = a_step("roots.peel", minutes=30, least_piece=10), a_step("cream.whip", minutes=10)
    plan = a_plan(a_dish("roots", peel), a_dish("cream", whip))
    whole = laid(plan, {"roots.peel": at("18:00"), "cream.whip": at("18:30")})
    known = day("18:22", ("roots.peel", GOING, "18:00"))
    assert not clashes(plan, whole, day=known)
    hands = (Hand(at("18:00"), 20, CookId("ann")), Hand(at("18:40"), 10, CookId("ann")))
    cut = replace(whole, placed=(replace(whole.placed[0], length=50, hands=hands), whole.placed[1]))
    assert ClashKind.NOT_AS_IT_WAS in {each.kind for each in clashes(plan, cut, day=known)}
    said = day("18:22", ("roots.peel", GOING, "18:00", "18:50"))
    assert not clashes(plan, cut, day=said)
    # pieces that are not as long as it must be are none: it is done without a pause
    short = replace(cut.placed[0], hands=(hands[0], replace(hands[1], start=at("18:41"), minutes=9)))
    sentences = [
        each.sentence for each in clashes(plan, replace(cut, placed=(short, cut.placed[1])), day=said)
    ]
    assert "Nobody is found for Roots: Peel from 18:22 to 18:50." in sentences


def test_a_checker_keeps_its_day():
    known = day("18:01", ("soup.sweat", GOING, "18:00"))
    checker, good = Checker(SOUP, known), laid(SOUP, EVENING)
    assert checker.clashes(good) == ()
    bad = replace(good, placed=(placed(SOUP, "soup.sweat", at("18:02")), good.placed[1]))
    assert [each.kind for each in checker.clashes(bad)] == [ClashKind.NOT_AS_IT_WAS]
    assert checker.clashes(bad, ["soup.sweat"]) == checker.clashes(bad)
    assert checker.clashes(bad, ["soup.boil"]) == ()
