"""Each sum alone, a minute (a unit, a cm2) to either side of where it begins to be too much."""

import pytest

from core.arrange.demand import Demand, DemandKind
from core.arrange.reading import read
from core.arrange.speak.why import say_reason
from core.arrange.why.labels import labels_of
from core.arrange.why.reason import ReasonKind
from core.arrange.why.sums import by_sums
from core.plan.day import Day, Fact, State
from core.plan.decisions import Pin
from core.plan.kitchen import Heater, Shelf, Station, StationKind, Window
from core.plan.step import Attention, ClockTime, Heat, Holding, Keep, Touch, Use, VesselUse, Wait
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    burners,
    hands_off,
)


def reasons(plan, **asked):
    problem = read(plan, asking=True, **asked)
    return by_sums(problem, labels_of(problem))


def only(plan, **asked):
    (reason,) = reasons(plan, **asked)
    return reason


def pinned(*starts: tuple[str, int]):
    return tuple(Pin(step, start=start) for step, start in starts)


# ---- crowds


def test_vessels_held_from_the_first_step_of_a_run_to_its_last():
    pot = (VesselUse("pot"),)

    def plan(start):
        return a_bench(
            hands_off("ale.heat", 10, vessels=pot), hands_off("ale.rest", 5, vessels=pot),
            hands_off("bun.dip", 10, vessels=pot),
            links=(a_link("ale.heat", "ale.rest", 5),),
            kitchen=a_kitchen(vessels=(a_vessel("pot", washing=0),)),
            pins=pinned(("ale.heat", -60), ("ale.rest", -40), ("bun.dip", start)), transfer=0,
        )  # fmt: skip

    # held from -60 to -35, the ten minutes between the two included
    assert reasons(plan(-35)) == reasons(plan(-70)) == []
    reason = only(plan(-36))
    assert (reason.kind, reason.start, reason.end, reason.over) == (ReasonKind.CROWD, -36, -35, 1)
    assert (reason.need, reason.have, reason.about) == (2, 1, Demand(DemandKind.VESSEL, vessel="pot"))
    assert only(plan(-48)).over == 10


def test_food_that_waits_on_a_burner_takes_it():
    def plan(start):
        return a_bench(
            hands_off("ale.heat", 10, uses=(a_use(),)), hands_off("ale.eat", 5),
            hands_off("bun.fry", 10, uses=(a_use(),)),
            links=(a_link("ale.heat", "ale.eat", wait=Wait(Holding.HOT, a_use())),),
            kitchen=a_kitchen(stations=burners(1)), transfer=0,
            pins=pinned(("ale.heat", -60), ("ale.eat", -30), ("bun.fry", start)),
        )  # fmt: skip

    assert reasons(plan(-30)) == []
    reason = only(plan(-31))
    assert (reason.start, reason.end) == (-31, -30)
    assert [(share.step, share.waits) for share in reason.shares] == [("ale.heat", True), ("bun.fry", False)]


def test_two_touches_at_once_with_one_cook_and_a_skill_that_one_of_two_has():
    touch = (Touch(5, 2),)

    def plan(other, cooks):
        tended = {"attention": Attention.TENDED, "touches": touch, "put_in": 0, "take_out": 0}
        steps = [a_step(f"{name}.stew", minutes=20, **tended) for name in ("ale", "bun")]
        return a_bench(
            *steps, kitchen=a_kitchen(cooks=cooks), pins=pinned(("ale.stew", -60), ("bun.stew", other)), transfer=0
        )

    one, two = (a_cook("ann"),), (a_cook("ann", "stew"), a_cook("ben"))
    assert reasons(plan(-62, one)) == reasons(plan(-60, two)) == []
    reason = only(plan(-61, one))
    assert (reason.kind, reason.start, reason.end) == (ReasonKind.CROWD, -55, -54)
    assert (reason.need, reason.have, reason.about) == (2, 1, Demand(DemandKind.HANDS))
    carving = [a_step(f"{name}.carve", minutes=10, skill="carve") for name in ("ale", "bun")]
    able = a_kitchen(cooks=(a_cook("ann", "carve"), a_cook("ben")))
    reason = only(a_bench(*carving, kitchen=able, pins=pinned(("ale.carve", -60), ("bun.carve", -51)), transfer=0))
    assert (reason.about, reason.start, reason.end) == (Demand(DemandKind.HANDS, skill="carve"), -51, -50)


def test_a_cook_on_a_break_is_one_fewer():
    rest = (Window(0, 18 * 60 + 30, 19 * 60),)  # plating 19:30: from -60 to -30

    def plan(start):
        cooks = (a_cook("ann", breaks=rest),)
        return a_bench(a_step("ale.stir", minutes=5), kitchen=a_kitchen(cooks=cooks), pins=pinned(("ale.stir", start)))

    assert reasons(plan(-65)) == reasons(plan(-30)) == []
    reason = only(plan(-64))
    assert (reason.need, reason.have, reason.start, reason.end) == (1, 0, -60, -59)
    assert Demand(DemandKind.ABSENT, cook="ann") in reason.demands


def test_a_cool_box_that_is_there_for_some_hours():
    box = Station("box", "Cool box", StationKind.COLD_COUNTER, hours=(Window(0, 18 * 60, 19 * 60),))  # -90 to -30

    def plan(start):
        step = hands_off("ale.cool", 20, uses=(Use(StationKind.COLD_COUNTER),))
        return a_bench(step, kitchen=a_kitchen(box), pins=pinned(("ale.cool", start)), transfer=0)

    assert reasons(plan(-50)) == []
    reason = only(plan(-49))
    assert (reason.kind, reason.start, reason.end, reason.over) == (ReasonKind.CLOSED, -30, -29, 1)
    assert {demand.kind for demand in reason.demands} == {DemandKind.CLOSED, DemandKind.PIN}


def test_only_the_station_named_counts_for_what_names_it():
    def plan(station):
        fry = [hands_off(f"{name}.fry", 10, uses=(a_use(station=station),)) for name in ("ale", "bun")]
        pins = pinned(("ale.fry", -30), ("bun.fry", -25))
        return a_bench(*fry, kitchen=a_kitchen(stations=burners(2)), pins=pins, transfer=0)

    assert reasons(plan(None)) == []
    reason = only(plan("burner-2"))
    assert (reason.stations, reason.start, reason.end) == (("burner-2",), -25, -20)


# ---- work


def roasts(minutes: int, keep: int, cooks: int = 1):
    dishes = [a_dish(name, a_step(f"{name}.fry", minutes=minutes), keep=Keep(keep)) for name in ("ale", "bun", "cod")]
    return a_plan(*dishes, kitchen=a_kitchen(cooks=cooks), transfer=0)


def test_three_pieces_of_work_in_a_window_for_two_and_a_bit():
    # each ends in the last `keep` minutes: 30 minutes fit into 10 + keep exactly
    assert reasons(roasts(10, 20)) == []
    reason = only(roasts(10, 19))
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.WORK, 30, 29, 1)
    assert (reason.start, reason.end) == (-29, 0)
    assert len(reason.shares) == 3
    # two cooks have 2 x (10 + keep) minutes, but the third piece does not fit beside the others below 10
    assert reasons(roasts(10, 10, cooks=2)) == []


def test_work_in_pieces_may_lie_on_both_sides_of_other_work():
    def plan(opens):
        peel = a_step("ale.peel", minutes=20, least_piece=2)
        steps = (peel, hands_off("ale.boil", 10), a_step("bun.stir", minutes=30))
        pins = pinned(("ale.boil", -10), ("bun.stir", -42))
        return a_bench(*steps, links=(a_link("ale.peel", "ale.boil"),), pins=pins, opens=opens, transfer=0)

    # from -60 to -42 and from -12 to -10 there are 20 minutes; with 19 one of them lies in the stirring's 30
    assert reasons(plan(-60)) == []
    reason = only(plan(-59))
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.WORK, 31, 30, 1)
    assert (reason.start, reason.end) == (-42, -12)
    assert {share.step: share.amount for share in reason.shares} == {"ale.peel": 1, "bun.stir": 30}


# ---- shelves


def larder(*areas: int, shelves: tuple[int, ...], raw: int | None = None, height: int = 5):
    dishes = [
        a_dish(f"d{number}", hands_off(f"d{number}.keep", 60, clock=ClockTime(0, 600),
               uses=(Use(StationKind.FRIDGE, area=area, height=height, raw=number == raw),)))
        for number, area in enumerate(areas)
    ]  # fmt: skip
    return a_plan(*dishes, kitchen=a_kitchen(stations=(a_fridge(*(Shelf(each, 10) for each in shelves)),)), transfer=0)


@pytest.mark.parametrize(
    ("plan", "fits"),
    [
        (larder(600, 600, 600, shelves=(1000, 1000)), False),
        (larder(600, 600, 400, shelves=(1000, 1000)), True),
        (larder(600, 600, 401, shelves=(1000, 1000)), False),
        (larder(500, 500, 500, 500, shelves=(1000, 1000)), True),
        (larder(600, 600, raw=0, shelves=(600, 1000)), True),
        (larder(600, 1000, 100, raw=0, shelves=(600, 1000)), False),
    ],
)
def test_shelf_by_shelf(plan, fits):
    found = [reason for reason in reasons(plan) if reason.kind in {ReasonKind.SHELVES, ReasonKind.CROWD}]
    assert (found == []) is fits


def test_more_things_than_can_be_tried_are_left_alone():
    areas = [101 + number for number in range(40)]
    assert reasons(larder(*areas, shelves=(1000,) * 6)) == []


# ---- heats


def two_bakes(racks: int, units: int, keep: int, other: int = 180):
    oven = an_oven(racks=racks, heater=Heater(from_cold=()))
    dishes = [
        a_dish(name, hands_off(f"{name}.bake", 40, uses=(Use(StationKind.OVEN, units, heat=Heat(c, c, c)),)),
               keep=Keep(keep))
        for name, c in (("ale", 180), ("bun", other))
    ]  # fmt: skip
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), transfer=0)


def test_two_that_share_a_setting_but_not_the_racks():
    assert reasons(two_bakes(2, 1, 5)) == []
    assert reasons(two_bakes(2, 2, 40)) == []
    found = reasons(two_bakes(2, 2, 39))
    heats = [reason for reason in found if reason.kind is ReasonKind.HEATS]
    assert [(reason.over, reason.about.kind) for reason in heats] == [(1, DemandKind.STATION)]


def test_the_change_between_two_settings_counts():
    # 20 °C at 5 a minute: 4
    assert reasons(two_bakes(2, 1, 44, other=200)) == []
    reason = only(two_bakes(2, 1, 43, other=200))
    assert (reason.kind, reason.over, reason.about.kind) == (ReasonKind.HEATS, 1, DemandKind.HEAT)
    assert [turn.change for turn in reason.turns] == [4, 4]


def test_a_wait_that_is_shorter_than_the_change():
    """Out of one heat and into the next within so many minutes, and the oven takes 4 for 20 degrees."""

    def plan(most, steady=True):
        bakes = [
            hands_off(f"ale.{name}", 30, uses=(Use(StationKind.OVEN, heat=Heat(c, c, c, steady)),))
            for name, c in (("first", 180), ("then", 200))
        ]
        oven = an_oven(heater=Heater(from_cold=()))
        links = (a_link("ale.first", "ale.then", 0, most),)
        return a_bench(*bakes, links=links, kitchen=a_kitchen(oven=oven), transfer=0)

    assert reasons(plan(4)) == reasons(plan(0, steady=False)) == []
    reason = only(plan(3))
    assert (reason.kind, reason.over) == (ReasonKind.HEATS, 1)
    assert {demand.kind for demand in reason.demands} >= {DemandKind.HEAT, DemandKind.MOST_WAIT}
    assert say_reason(plan(3), reason) == (
        "The oven cannot hold Ale: First at 180 °C and Ale: Then at 200 °C at once, and in neither order is there time"
        " for both: Ale: Then must begin at most 3 min after Ale: First is out, and changing the heat takes 4 min,"
        " 1 min too long; Ale: First cannot come after Ale: Then."
    )


# ---- the day


def test_what_lies_before_now_is_told_no_more():
    steps = [hands_off(f"{name}.fry", 30, uses=(a_use(),)) for name in ("ale", "bun")]
    plan = a_bench(*steps, kitchen=a_kitchen(stations=burners(1)), transfer=0)
    facts = (Fact("ale.fry", State.DONE, -60, -30), Fact("bun.fry", State.UNDER_WAY, -50))
    assert reasons(plan, day=Day(-25, facts)) == []
    both = (Fact("ale.fry", State.UNDER_WAY, -60, -20), Fact("bun.fry", State.UNDER_WAY, -50))
    reason = only(plan, day=Day(-25, both))
    assert (reason.start, reason.end, reason.need, reason.have) == (-25, -20, 2, 1)
