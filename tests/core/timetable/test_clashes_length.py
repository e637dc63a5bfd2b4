"""Lengths of steps done in pieces, and in places that are full."""

from dataclasses import replace

import pytest

from core.plan.ids import CookId, StationId
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Attention, Loads, VesselUse, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Timetable
from tests.core.timetable.laid import at, laid, spot, the_clash, told
from tests.support.builders import (
    a_dish,
    a_heat,
    a_kitchen,
    a_link,
    a_plan,
    a_room,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    hands_off,
)

# ---- pieces


def peeling(minutes: int = 30, least: int | None = 10, cooks: int = 2, **fields):
    peel = a_step("roots.peel", minutes=minutes, least_piece=least, **fields)
    whip = a_step("cream.whip", minutes=10)
    return a_plan(a_dish("roots", peel), a_dish("cream", whip), kitchen=a_kitchen(cooks=cooks))


def in_pieces(
    plan, *pieces: tuple[str, int], span: tuple[str, str] | None = None, cooks: str = ""
) -> Timetable:
    """Return the peeling done in pieces (start, minutes); the cream is whipped by Ann at 18:20."""
    good = laid(plan, {"roots.peel": at("18:00"), "cream.whip": at("18:20")})
    hands = tuple(
        Hand(at(start), minutes, CookId({"a": "ann", "b": "ben"}[who]))
        for (start, minutes), who in zip(pieces, cooks or "a" * len(pieces), strict=True)
    )
    start, end = (at(each) for each in span) if span else (
        min(hand.start for hand in hands), max(hand.start + hand.minutes for hand in hands))  # fmt: skip
    peel = replace(good.placed[0], start=start, length=end - start, hands=hands)
    return replace(good, placed=(peel, good.placed[1]))


def test_a_step_in_pieces_makes_room_for_something_else():
    plan = peeling()
    assert not clashes(plan, in_pieces(plan, ("18:00", 20), ("18:30", 10)))
    assert not clashes(plan, in_pieces(plan, ("18:00", 20), ("18:30", 10), cooks="ab"))
    assert not clashes(plan, in_pieces(plan, ("17:50", 30)))  # and may be done whole
    assert not clashes(plan, in_pieces(plan, ("18:00", 20), ("18:20", 10), cooks="ab"))  # or change hands
    # in the order of the list or not
    assert not clashes(plan, in_pieces(plan, ("18:30", 10), ("18:00", 20)))


def test_pieces_do_not_let_a_cook_do_two_things():
    plan = peeling()
    clash = the_clash(plan, in_pieces(plan, ("18:01", 20), ("18:30", 10)))
    assert told(clash) == (ClashKind.HANDS_SHORT, at("18:20"), at("18:21"), 1)
    nobody = in_pieces(plan, ("18:00", 20), ("18:30", 10))
    first, second = nobody.placed[0].hands
    peel = replace(nobody.placed[0], hands=(first, replace(second, cook=None)))
    clash = the_clash(plan, replace(nobody, placed=(peel, nobody.placed[1])))
    assert clash.sentence == "Nobody is found for Roots: Peel from 18:30 to 18:40."


def test_the_pieces_ask_for_the_steps_skill():
    plan = peeling(skill="knife")
    found = clashes(plan, in_pieces(plan, ("18:00", 20), ("18:30", 10)))
    assert [each.sentence for each in found] == [
        "Roots: Peel asks for the skill “knife”, which Ann does not have."
    ] * 2


@pytest.mark.parametrize(
    ("minutes", "by", "words"),
    [
        (9, 1, "Roots: Peel is done in two pieces of 29 min together and needs 30; give it 1 min more."),
        (11, 1, "Roots: Peel is done in two pieces of 31 min together and needs 30; take 1 min off."),
    ],
)
def test_pieces_are_together_as_long_as_the_step(minutes, by, words):
    plan = peeling(least=9)
    clash = the_clash(plan, in_pieces(plan, ("18:00", 20), ("18:30", minutes)))
    assert told(clash) == (ClashKind.LENGTH, at("18:39") + (by if minutes > 10 else 0), at("18:40") + (
        by if minutes > 10 else 0), by)  # fmt: skip
    assert clash.sentence == words


def test_no_piece_is_too_short():
    plan = peeling()
    clash = the_clash(plan, in_pieces(plan, ("17:59", 21), ("18:30", 9)))
    assert told(clash) == (ClashKind.LENGTH, at("18:30"), at("18:39"), 1)
    assert (
        clash.sentence == "A piece of Roots: Peel, 18:30 to 18:39, is 9 min long; a piece takes at least 10."
    )


def test_pieces_do_not_overlap():
    plan = peeling()
    assert not clashes(plan, in_pieces(plan, ("18:30", 10), ("18:40", 20), cooks="ab"))
    clash = the_clash(plan, in_pieces(plan, ("18:30", 10), ("18:39", 20), cooks="ab"))
    assert told(clash) == (ClashKind.LENGTH, at("18:39"), at("18:40"), 1)
    assert clash.sentence == (
        "Two pieces of Roots: Peel are done at once, 18:39 to 18:40; do one after the other."
    )


@pytest.mark.parametrize(
    "span", [("17:59", "18:40"), ("18:01", "18:40"), ("18:00", "18:39"), ("18:00", "18:41")]
)
def test_it_lasts_from_its_first_piece_to_its_last(span):
    plan = peeling()
    pieces = (("18:00", 20), ("18:30", 10))
    assert not clashes(plan, in_pieces(plan, *pieces, span=("18:00", "18:40")))
    clash = the_clash(plan, in_pieces(plan, *pieces, span=span))
    assert (clash.kind, clash.by) == (ClashKind.LENGTH, 1)
    assert clash.sentence == (
        f"Roots: Peel stands on the timetable from {span[0]} to {span[1]} and is done in pieces from 18:00 to 18:40."
    )


@pytest.mark.parametrize(
    "fields", [{"least": None}, {"minutes": 19}, {"hands": 2}, {"attention": Attention.TENDED}]
)
def test_what_may_not_be_cut_is_done_whole(fields):
    plan = peeling(**fields)
    minutes = fields.get("minutes", 30)
    found = clashes(plan, in_pieces(plan, ("18:00", 10), ("18:30", minutes - 10)))
    assert ClashKind.LENGTH in {each.kind for each in found}


def test_twice_the_least_piece_may_be_cut_in_two():
    plan = peeling(minutes=20)
    assert not clashes(plan, in_pieces(plan, ("18:00", 10), ("18:30", 10)))


def test_without_hands_it_is_a_step_that_nobody_does():
    plan = peeling()
    good = in_pieces(plan, ("18:00", 30), cooks="b")
    assert not clashes(plan, good)
    clash = the_clash(plan, replace(good, placed=(replace(good.placed[0], hands=()), good.placed[1])))
    assert clash.sentence == "Nobody is found for Roots: Peel from 18:00 to 18:30."
    short = replace(good.placed[0], hands=(Hand(at("18:00"), 29, CookId("ben")),))
    found = clashes(plan, replace(good, placed=(short, good.placed[1])))
    assert [each.sentence for each in found] == [
        "Roots: Peel stands on the timetable from 18:00 to 18:30 and is done in pieces from 18:00 to 18:29.",
        "Roots: Peel is given 29 min and needs 30 min.",
    ]


def test_between_its_pieces_it_keeps_its_place_and_its_bowl():
    bowl = (VesselUse(a_vessel("bowl").id),)
    peel = a_step("roots.peel", minutes=20, least_piece=10, uses=(a_use("room"),), vessels=bowl)
    whip = a_step("cream.whip", minutes=10, uses=(a_use("room"),), vessels=bowl)
    kitchen = a_kitchen(stations=(replace(a_room(), units=1),), vessels=(a_vessel("bowl", washing=0),))
    plan = a_plan(a_dish("roots", peel), a_dish("cream", whip), kitchen=kitchen)
    found = clashes(plan, in_pieces(plan, ("18:00", 10), ("18:40", 10)))
    assert [told(each)[:3] for each in found] == [
        (ClashKind.OVER_FULL, at("18:20"), at("18:30")),
        (ClashKind.VESSEL_SHORT, at("18:20"), at("18:30")),
    ]


# ---- full


def bakes(*dishes, racks: int = 2, full: int = 10, **fields):
    heater = Heater(from_cold=(), full=full)
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(racks=racks, heater=heater)), **fields)


def bake(name: str, minutes: int = 40, step: str = "bake", **fields):
    return hands_off(f"{name}.{step}", minutes, uses=(at_oven(180, **fields),))


def given(plan, starts, **minutes: int) -> Timetable:
    """Return a timetable with these lengths, by dish."""
    good = laid(plan, starts)
    return replace(good, placed=tuple(
        replace(each, length=minutes.get(each.step.split(".")[0], each.length)) for each in good.placed
    ))  # fmt: skip


def test_a_minute_in_a_full_oven_makes_it_longer():
    plan = bakes(a_dish("tart", bake("tart")), a_dish("pie", bake("pie", 30)))
    starts = {"tart.bake": at("18:00"), "pie.bake": at("18:40")}
    assert not clashes(plan, laid(plan, starts))
    meets = {**starts, "pie.bake": at("18:39")}
    assert not clashes(plan, given(plan, meets, tart=44, pie=33))
    found = clashes(plan, laid(plan, meets))
    assert [told(each) for each in found] == [
        (ClashKind.LENGTH, at("18:40"), at("18:44"), 4),
        (ClashKind.LENGTH, at("19:09"), at("19:12"), 3),
    ]
    assert found[0].steps == ("tart.bake", "pie.bake")
    assert found[0].sentence == (
        "Tart: Bake is given 40 min and needs 44 min: the oven is full from 18:39 to 18:40, with Pie: Bake in it too."
        " Give it 4 min more."
    )
    assert clashes(plan, laid(plan, meets), ["pie.bake"]) == found  # whoever moves the pie hears of the tart
    clash = the_clash(plan, given(plan, meets, tart=43, pie=33))
    assert told(clash) == (ClashKind.LENGTH, at("18:43"), at("18:44"), 1)
    clash = the_clash(plan, given(plan, meets, tart=45, pie=33))
    assert clash.sentence.endswith("Take 1 min off.")


def test_the_longer_length_in_an_oven_that_is_not_full_is_wrong():
    plan = bakes(a_dish("tart", bake("tart")), a_dish("pie", bake("pie", 30)))
    clash = the_clash(plan, given(plan, {"tart.bake": at("18:00"), "pie.bake": at("18:50")}, tart=44))
    assert told(clash) == (ClashKind.LENGTH, at("18:40"), at("18:44"), 4)
    assert clash.sentence == (
        "Tart: Bake is given 44 min, as in a full place, and needs 40 min: the place is not full meanwhile."
    )


def test_a_third_rack_or_no_per_cent_makes_no_difference():
    starts = {"tart.bake": at("18:00"), "pie.bake": at("18:20")}
    for fields in ({"racks": 3}, {"full": 0}):
        plan = bakes(a_dish("tart", bake("tart")), a_dish("pie", bake("pie")), **fields)
        assert not clashes(plan, laid(plan, starts))


def test_a_dish_does_not_slow_itself():
    plan = bakes(a_dish("tart", bake("tart"), bake("tart", step="lid")))
    assert not clashes(plan, laid(plan, {"tart.bake": at("18:00"), "tart.lid": at("18:00")}))
    wide = bakes(a_dish("tart", bake("tart", units=2)), a_dish("pie", bake("pie")))
    assert not clashes(wide, laid(wide, {"tart.bake": at("18:00"), "pie.bake": at("18:40")}))


def test_it_is_rounded_up_after_the_change_for_the_setting():
    plan = bakes(a_dish("tart", bake("tart", 33)), a_dish("pie", bake("pie", 33)), full=15)
    starts = {"tart.bake": at("18:00"), "pie.bake": at("18:00")}
    warmer = dict.fromkeys(starts, 190)
    good = laid(plan, starts, settings=warmer)  # 33 at 180 is 30 at 190 (29.7), and 34.5 when full
    assert {each.length for each in good.placed} == {30}
    full = replace(good, placed=tuple(replace(each, length=35) for each in good.placed))
    assert not clashes(plan, full)
    for other in (34, 36):
        wrong = replace(full, placed=(replace(full.placed[0], length=other), full.placed[1]))
        assert [each.by for each in clashes(plan, wrong)] == [1]


def test_food_that_waits_in_a_drawer_fills_it():
    heater = Heater(30, 90, (), full=50)
    drawer = Station(StationId("drawer"), "Drawer", StationKind.WARM_DRAWER, 2, heater=heater)
    warm = a_use("warm drawer", heat=a_heat(60))
    plates = hands_off("plates.warm", 20, uses=(warm,))
    pie, cut = hands_off("pie.bake", 10), hands_off("pie.cut", 5)
    links = (a_link("pie.bake", "pie.cut", wait=Wait(use=warm)),)
    plan = a_plan(
        a_dish("plates", plates), a_dish("pie", pie, cut), links=links, kitchen=a_kitchen(stations=(drawer,))
    )
    starts = {"plates.warm": at("19:00"), "pie.bake": at("18:00"), "pie.cut": at("19:00")}
    assert not clashes(plan, laid(plan, starts))
    clash = the_clash(plan, laid(plan, {**starts, "pie.cut": at("19:01")}))
    assert told(clash) == (ClashKind.LENGTH, at("19:20"), at("19:30"), 10)
    assert clash.steps == ("plates.warm", "pie.bake", "pie.cut")
    assert not clashes(plan, given(plan, {**starts, "pie.cut": at("19:01")}, plates=30))


def test_each_load_is_longer_for_itself():
    step = hands_off("buns.bake", 10, uses=(at_oven(180),), loads=Loads(2, 1))
    plan = bakes(a_dish("buns", step), a_dish("pie", bake("pie", 20)))
    good = laid(plan, {"buns.bake": [at("18:00"), at("18:15")], "pie.bake": at("18:20")})
    first, *others = good.placed
    full = replace(good, placed=(first, *(replace(each, length=each.length * 11 // 10) for each in others)))
    assert [each.length for each in full.placed] == [10, 11, 22]
    assert not clashes(plan, full)


def test_a_step_in_two_full_places_takes_the_slower_ones_length():
    other = an_oven("other", heater=Heater(from_cold=(), full=20), racks=1)
    pair = hands_off(
        "tart.bake", 40, uses=(at_oven(180, station=an_oven().id), at_oven(180, station=other.id))
    )
    kitchen = a_kitchen(oven=an_oven(racks=1, heater=Heater(from_cold=(), full=10)))
    kitchen = replace(kitchen, stations=(*kitchen.stations, other))
    pie = hands_off("pie.bake", 10, uses=(at_oven(180, station=other.id),))
    plan = a_plan(a_dish("tart", pair), a_dish("pie", pie), kitchen=kitchen)
    apart = {"tart.bake": at("18:00"), "pie.bake": at("18:40")}
    where = {"tart.bake": [spot("oven"), spot("other")], "pie.bake": [spot("other")]}
    assert not clashes(plan, laid(plan, apart, spots=where))
    both = laid(plan, {**apart, "pie.bake": at("18:10")}, spots=where)
    both = replace(both, placed=(replace(both.placed[0], length=48), replace(both.placed[1], length=12)))
    assert [each.kind for each in clashes(plan, both)] == [ClashKind.OVER_FULL]
