"""Vessels: held from the first start of a run to its last end, then washed."""

from core.plan.step import Holding, Keep, VesselUse, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from tests.core.timetable.laid import at, laid, the_clash, told, washing
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_vessel, hands_off

POT = (VesselUse(a_vessel("pot").id),)


def soup_and_stew(washing: int = 5, count: int = 1, **keep):
    soup = a_dish(
        "soup", hands_off("soup.sweat", 10, vessels=POT), hands_off("soup.boil", 20, vessels=POT), **keep
    )
    stew = a_dish("stew", hands_off("stew.braise", 30, vessels=POT), course=60)
    kitchen = a_kitchen(vessels=(a_vessel("pot", count, name="28 cm pot", washing=washing),))
    return a_plan(soup, stew, links=(a_link("soup.sweat", "soup.boil"),), kitchen=kitchen)


SOUP = {"soup.sweat": at("17:30"), "soup.boil": at("18:00")}


def test_a_pot_is_washed_before_it_is_used_again():
    plan = soup_and_stew()
    washed = [washing("pot", at("18:20"), "soup.sweat")]
    good = laid(plan, {**SOUP, "stew.braise": at("18:25")}, washings=washed)
    assert not clashes(plan, good)
    clash = the_clash(plan, laid(plan, {**SOUP, "stew.braise": at("18:24")}, washings=washed))
    assert told(clash) == (ClashKind.VESSEL_SHORT, at("18:24"), at("18:25"), 1)
    assert clash.steps == ("soup.sweat", "soup.boil", "stew.braise")
    assert clash.vessels == ("pot",)
    assert clash.sentence == (
        "From 18:24 to 18:25 Soup: Boil (being washed) and Stew: Braise want 28 cm pot at once, and there is one."
    )


def test_a_pot_that_is_not_washed_is_not_free():
    plan = soup_and_stew()
    starts = {**SOUP, "stew.braise": at("18:55")}
    clash = the_clash(plan, laid(plan, starts))
    assert told(clash) == (ClashKind.VESSEL_SHORT, at("18:55"), at("19:25"), 1)
    assert clash.sentence == (
        "From 18:55 to 19:25 Soup: Boil (not washed) and Stew: Braise want 28 cm pot at once, and there is one;"
        " it can be washed from 18:20, which takes 5 min."
    )
    # washed when there is time for it, before the stew or, a minute later, not
    assert not clashes(plan, laid(plan, starts, washings=[washing("pot", at("18:50"), "soup.sweat")]))
    clash = the_clash(plan, laid(plan, starts, washings=[washing("pot", at("18:51"), "soup.sweat")]))
    assert told(clash) == (ClashKind.VESSEL_SHORT, at("18:55"), at("18:56"), 1)
    # what comes first and is never needed again needs no washing; nor does the last
    assert not clashes(plan, laid(plan, {**SOUP, "stew.braise": at("18:25")}, washings=[
        washing("pot", at("18:20"), "soup.sweat"), washing("pot", at("18:55"), "stew.braise")]))  # fmt: skip
    two = soup_and_stew(count=2)
    assert not clashes(two, laid(two, starts))


def test_a_dirty_pot_is_short_until_nobody_uses_one():
    soup, stew, broth = (
        a_dish(name, hands_off(f"{name}.boil", 10, vessels=POT), course=60)
        for name in ("soup", "stew", "broth")
    )
    plan = a_plan(soup, stew, broth, kitchen=a_kitchen(vessels=(a_vessel("pot", 2, name="Pot"),)))
    starts = {"soup.boil": at("18:00"), "stew.boil": at("18:20"), "broth.boil": at("18:40")}
    clash = the_clash(plan, laid(plan, starts))
    assert told(clash) == (ClashKind.VESSEL_SHORT, at("18:40"), at("18:50"), 1)
    one = [washing("pot", at("18:30"), "soup.boil")]
    assert not clashes(plan, laid(plan, starts, washings=one))


def test_a_run_holds_its_pot_through_its_waits():
    plan = soup_and_stew(washing=0)
    assert not clashes(plan, laid(plan, {**SOUP, "stew.braise": at("17:00")}))
    clash = the_clash(plan, laid(plan, {**SOUP, "stew.braise": at("17:01")}))
    assert (clash.start, clash.end) == (at("17:30"), at("17:31"))
    # between sweating (out 17:40) and boiling (from 18:00) the pot is not free
    clash = the_clash(plan, laid(plan, {**SOUP, "stew.braise": at("17:45")}))
    assert (clash.start, clash.end) == (at("17:45"), at("18:15"))
    assert clash.sentence == (
        "From 17:45 to 18:15 Soup: Sweat and Stew: Braise want 28 cm pot at once, and there is one."
    )


def test_more_pots_than_one():
    plan = soup_and_stew(count=2)
    assert not clashes(plan, laid(plan, {**SOUP, "stew.braise": at("18:00")}))


def test_a_dish_that_waits_in_its_pot_keeps_it_until_served():
    plan = soup_and_stew(keep=Keep(None, Wait(Holding.VESSEL)))
    served = [washing("pot", at("19:30"), "soup.sweat")]
    assert not clashes(plan, laid(plan, {**SOUP, "stew.braise": at("19:35")}, washings=served))
    clash = the_clash(plan, laid(plan, {**SOUP, "stew.braise": at("19:34")}, washings=served))
    assert (clash.start, clash.end, clash.by) == (at("19:34"), at("19:35"), 1)
    other = soup_and_stew(keep=Keep(None, Wait(Holding.HOT)))
    done = [washing("pot", at("18:20"), "soup.sweat")]
    assert not clashes(other, laid(other, {**SOUP, "stew.braise": at("18:25")}, washings=done))


def test_a_run_takes_as_many_as_its_fullest_step():
    tin = a_vessel("tin").id
    tart = a_dish(
        "tart",
        hands_off("tart.blind", 10, vessels=(VesselUse(tin, 1),)),
        hands_off("tart.bake", 20, vessels=(VesselUse(tin, 2),)),
    )
    cake = a_dish("cake", hands_off("cake.bake", 30, vessels=(VesselUse(tin, 2),)))
    kitchen = a_kitchen(vessels=(a_vessel("tin", 3, name="Tin", washing=0),))
    plan = a_plan(tart, cake, links=(a_link("tart.blind", "tart.bake"),), kitchen=kitchen)
    tarts = {"tart.blind": at("18:00"), "tart.bake": at("18:10")}
    assert not clashes(plan, laid(plan, {**tarts, "cake.bake": at("18:30")}))
    clash = the_clash(plan, laid(plan, {**tarts, "cake.bake": at("18:05")}))
    assert (clash.start, clash.end, clash.by) == (at("18:05"), at("18:30"), 1)
    assert clash.sentence == (
        "From 18:05 to 18:30 Tart: Blind and Cake: Bake want 4 × Tin at once, and there are three."
    )


def test_a_vessel_of_a_step_that_is_not_placed_is_free():
    plan = soup_and_stew()
    found = clashes(plan, laid(plan, {"stew.braise": at("18:00")}))
    assert {clash.kind for clash in found} == {ClashKind.MISSING}


def test_a_run_half_placed_holds_what_is_placed():
    plan = soup_and_stew()
    found = clashes(plan, laid(plan, {"soup.boil": at("18:00"), "stew.braise": at("18:00")}))
    assert {clash.kind for clash in found} == {ClashKind.MISSING, ClashKind.VESSEL_SHORT}
