"""Why the acceptance scenarios cannot be met: racks, burners, shelves, heat and fire. The arithmetic stands beside."""

from dataclasses import replace

import pytest

from core.arrange.demand import Demand, DemandKind
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.why import say_reason
from core.arrange.why.answer import why_not
from core.arrange.why.giving_up import with_only, without
from core.arrange.why.reason import ReasonKind
from core.plan.day import Day, Fact, State
from core.plan.decisions import Order, Pin
from core.plan.kitchen import Heater, Shelf, Station, StationKind
from core.plan.step import ClockTime, Heat, Holding, Keep, Loads, Use, Wait
from tests.scenarios.arranged import SERVED, at
from tests.support.builders import (
    a_dish,
    a_fridge,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    burners,
    hands_off,
)


def only_reason(plan, **asked):
    """Return the one reason; the answer must be certain and the set as small as can be."""
    answer = why_not(plan, **asked)
    assert (answer.fit, answer.proven) == (Fit.IMPOSSIBLE, True)
    (reason,) = answer.reasons
    assert reason.minimal
    return reason


def none_can_be_left_out(plan, reason):
    """Check with whole plans: the wishes alone are impossible, and without any one of them possible."""
    assert possible(with_only(plan, reason.demands)).fit is Fit.IMPOSSIBLE
    for demand in reason.demands:
        assert possible(without(with_only(plan, reason.demands), demand)).fit is Fit.MEETS


def bake(name: str, minutes: int, heat: Heat | int, keep: int | None = None, **fields):
    heat = Heat(heat, heat, heat) if isinstance(heat, int) else heat
    step = hands_off(f"{name}.bake", minutes, uses=(Use(StationKind.OVEN, heat=heat),))
    return a_dish(name, step, keep=Keep(keep), **fields)


# ---- F4: three dishes, two racks


def three_bakes(pie: int = 20):
    dishes = (bake("gratin", 60, 180, pie), bake("potatoes", 45, 180, 20), bake("crumble", 30, 180, 20))
    oven = an_oven(racks=2, heater=Heater(from_cold=()))
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED, transfer=0)


def test_f4_ten_minutes_are_missing():
    # each is out from 18:40 to 19:00; in by 18:00, 18:15 and 18:30 at the latest
    plan = three_bakes()
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.CROWD, 3, 2, 10)
    assert (reason.start, reason.end) == (at("18:30"), at("18:40"))
    assert [(share.step, share.start, share.end) for share in reason.shares] == [
        ("gratin.bake", at("18:00"), at("18:40")),
        ("potatoes.bake", at("18:15"), at("18:40")),
        ("crumble.bake", at("18:30"), at("18:40")),
    ]
    assert say_reason(plan, reason) == (
        "Gratin, Potatoes and Crumble are all in the oven from 18:30 to 18:40, and it has two racks: 10 min too many."
    )
    none_can_be_left_out(plan, reason)


@pytest.mark.parametrize(("keeps", "over"), [(21, 9), (29, 1), (30, None)])
def test_f4_each_minute_that_one_may_wait_longer_is_one_less(keeps, over):
    answer = why_not(three_bakes(keeps))
    assert answer.fit is (Fit.MEETS if over is None else Fit.IMPOSSIBLE)
    assert [reason.over for reason in answer.reasons] == ([] if over is None else [over])


# ---- F2: 200 and 160 °C in the same hour


def roots_and_tart(roots_keep: int = 15, **fields):
    oven = an_oven(heater=Heater(from_cold=((160, 15), (200, 20)), up=5.0, down=5.0))
    dishes = (
        bake("roots", 45, Heat(200, 190, 210), roots_keep),
        bake("tart", 40, Heat(160, 155, 165), fields.pop("tart_keep", 360)),
    )
    return a_plan(*dishes, kitchen=a_kitchen(oven=oven), plating=SERVED, transfer=0, **fields)


def test_f2_the_other_order_lets_the_roots_wait_forty_minutes_and_more():
    # roots, then 40 min of tart: 40 of their 15, the change of 8 not even counted
    plan = roots_and_tart(orders=(Order("roots.bake", "tart.bake"),))
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.CHAIN, 40, 15, 25)
    assert {demand.kind for demand in reason.demands} == {DemandKind.ORDER, DemandKind.KEEPS, DemandKind.SERVED}


def test_f2_a_tart_that_does_not_keep_finds_no_order():
    # tart first: out from 18:13 if it keeps 47, + 8 to change + 45 = 19:06 (in by 18:15 it must be: 6 late);
    # roots first: out from 18:45, + 8 + 40 = 19:33, 33 late
    plan = roots_and_tart(tart_keep=47)
    reason = only_reason(plan)
    assert (reason.kind, reason.over) == (ReasonKind.HEATS, 6)
    assert [(turn.first[0], turn.change, turn.done, turn.late) for turn in reason.turns] == [
        ("tart.bake", 8, at("19:06"), 6),
        ("roots.bake", 8, at("19:33"), 33),
    ]
    assert [sorted(turn.settings) for turn in reason.turns] == [[160, 200]] * 2
    none_can_be_left_out(plan, reason)
    assert why_not(roots_and_tart(tart_keep=52)).reasons[0].over == 1
    assert why_not(roots_and_tart(tart_keep=53)).fit is Fit.MEETS


# ---- F9: Friday night's fridge

THINGS = {"panna-cotta": 1200, "pork": 1200, "braise": 900, "trout": 600, "dough": 600, "vegetables": 1000}
FRIDAY_NIGHT = ClockTime(1, 21 * 60)
COOL_BOX = Station("cool-box", "Cool box", StationKind.COLD_COUNTER, shelves=(Shelf(1750, 30),))


def night(*away: str, area: int = 1000):
    dishes = []
    for name, usual in THINGS.items():
        kind = StationKind.COLD_COUNTER if name in away else StationKind.FRIDGE
        use = Use(kind, area=area if name == "vegetables" else usual, raw=name == "pork")
        dishes.append(a_dish(name, hands_off(f"{name}.chill", 600, uses=(use,), clock=FRIDAY_NIGHT)))
    kitchen = a_kitchen(stations=(a_fridge(*[Shelf(1750, 30)] * 3), COOL_BOX))
    return a_plan(*dishes, kitchen=kitchen, plating=SERVED, transfer=0)


def test_f9_over_by_250():
    plan = night()
    reason = only_reason(plan)
    assert (reason.kind, reason.shelved) == (ReasonKind.CROWD, True)
    assert (reason.need, reason.have, reason.over) == (5500, 5250, 250)
    assert {share.step: share.amount for share in reason.shares} == {
        f"{name}.chill": area for name, area in THINGS.items()
    }
    assert (reason.start, reason.end) == (at("Fri 21:00"), at("07:00"))
    assert "5,500 cm²; the fridge has 5,250: 250 cm² too many" in say_reason(plan, reason)
    none_can_be_left_out(plan, reason)


def test_f9_by_sum_it_fits_and_not_by_shelf():
    # 4,500 of 5,250; 1,200 | 1,200 | 900 + 600 leave 550, 550, 250: no place for the tub of 600
    plan = night("vegetables")
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have) == (ReasonKind.SHELVES, 4500, 5250)
    assert {share.step for share in reason.shares} == {f"{name}.chill" for name in THINGS if name != "vegetables"}
    assert [share.step for share in reason.shares if share.raw] == ["pork.chill"]
    none_can_be_left_out(plan, reason)


def test_f9_without_the_dough_it_fits():
    assert why_not(night("vegetables", "dough")).fit is Fit.MEETS


# ---- F10: the dessert must set


def mousse(out: str = "15:30"):
    use = a_use("fridge", area=1000, height=5)
    lamb = a_dish("lamb", hands_off("lamb.keep", 60, uses=(use,), clock=ClockTime(0, at(out) + 19 * 60 - 60)),
                  hands_off("lamb.roast", 180))  # fmt: skip
    sweet = a_dish("mousse", hands_off("mousse.set", 360, uses=(use,), earliest=at("14:45")), course=at("21:00"))
    links = (a_link("lamb.keep", "lamb.roast", wait=Wait(Holding.COUNTER)),)
    kitchen = a_kitchen(stations=(a_fridge(Shelf(1000, 10)),))
    return a_plan(lamb, sweet, links=links, kitchen=kitchen, plating=SERVED, transfer=0)


@pytest.mark.parametrize(("out", "minutes"), [("15:30", 30), ("15:01", 1), ("15:00", None)])
def test_f10_the_shelf_is_needed_by_1500(out, minutes):
    # 21:00 - 6 h = 15:00
    plan = mousse(out)
    if minutes is None:
        assert why_not(plan).fit is Fit.MEETS
        return
    reason = only_reason(plan)
    assert (reason.kind, reason.start, reason.end) == (ReasonKind.CROWD, at("15:00"), at(out))
    assert reason.end - reason.start == minutes
    assert {share.step for share in reason.shares} == {"lamb.keep", "mousse.set"}
    none_can_be_left_out(plan, reason)


# ---- F13: five pans, four burners

PANS = {
    "potatoes": ("18:20", "18:55"),
    "beans": ("18:50", "18:58"),
    "gravy": ("18:40", "18:55"),
    "braise": ("18:15", "19:00"),
    "fritters": ("18:42", "19:00"),
}


def pans(*free: str, hob: bool = False, pinned: bool = False):
    dishes, pins = [], []
    for name, (start, end) in PANS.items():
        clock = None if name in free or pinned else ClockTime(0, at(start) + 19 * 60)
        step = hands_off(f"{name}.cook", at(end) - at(start), uses=(a_use("burner"),), clock=clock)
        dishes.append(a_dish(name, step, keep=Keep(60 if name in free else None)))
        if pinned and name not in free:
            pins.append(Pin(f"{name}.cook", start=at(start)))
    stations = (Station("hob", "Hob", StationKind.BURNER, 4),) if hob else burners(4)
    kitchen = a_kitchen(stations=stations)
    return a_plan(*dishes, kitchen=kitchen, plating=SERVED, transfer=0, pins=tuple(pins))


@pytest.mark.parametrize("plan", [pans(), pans(hob=True), pans(pinned=True)])
def test_f13_five_on_four_for_five_minutes(plan):
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.CROWD, 5, 4, 5)
    assert (reason.start, reason.end) == (at("18:50"), at("18:55"))
    assert len(reason.demands) == 6
    assert Demand(DemandKind.STATION, kind_of=StationKind.BURNER) in reason.demands
    assert say_reason(plan, reason) in {
        f"Braise, Potatoes, Gravy, Fritters and Beans are all on {hob} from 18:50 to 18:55, and {four}: 5 min too many."
        for hob, four in (("the burners", "there are four"), ("the burner", "it has four burners"))
    }


def test_f13_the_gravy_in_a_flask_mends_it():
    assert why_not(pans("gravy")).fit is Fit.MEETS


# ---- F16: the roast is behind


def behind(served: str = "19:30"):
    """At 18:35 the pork needs 24 minutes more: 12 °C at half a degree a minute."""
    heater = Heater(from_cold=(), up=6.25, down=6.25)  # 50 °C in 8 min
    rack = (Use(StationKind.OVEN, heat=Heat(160, 145, 175)),)
    pork = a_dish("pork", hands_off("pork.roast", 90, uses=rack), a_step("pork.carve", minutes=10), keep=Keep(30))
    squash = bake("squash", 35, Heat(210, 210, 210), 20)
    plan = a_plan(
        pork, squash,
        links=(a_link("pork.roast", "pork.carve", 20, 60),), kitchen=a_kitchen(oven=an_oven(heater=heater)),
        plating=SERVED.replace("19:00", served), transfer=0,
    )  # fmt: skip
    shift = 0 if served == "19:00" else at("19:00") - at(served)
    roast = Fact("pork.roast", State.UNDER_WAY, at("17:10") + shift, at("18:59") + shift)
    return plan, Day(at("18:35") + shift, (roast,)), shift


def test_f16_the_squash_is_twelve_minutes_late():
    # out 18:59, 8 to change from 160 to 210, 35 of squash: 19:42
    plan, day, shift = behind()
    reason = only_reason(plan, day=day)
    assert (reason.kind, reason.over) == (ReasonKind.HEATS, 12)
    turn = reason.turns[0]
    assert (turn.first[0], turn.then[0]) == ("pork.roast", "squash.bake")
    assert (turn.out - shift, turn.done - shift) == (at("18:59"), at("19:42"))
    assert (turn.length, turn.late) == (35, 12)
    assert {demand.kind for demand in reason.demands} == {DemandKind.HEAT, DemandKind.SERVED}
    assert "12 min too late" in say_reason(plan, reason)


def test_f16_the_heat_of_the_pork_gives_way_as_far_as_its_range():
    # at 175 °C the change to 210 would take 35 / 6.25 = 6 min: the range is the recipe's, the setting is a fact
    plan, day, _shift = behind()
    assert only_reason(plan, day=day).turns[0].change == 8


def test_f16_at_1942_the_squash_is_in_time():
    plan, day, _shift = behind("19:42")
    assert why_not(plan, day=day).fit is not Fit.IMPOSSIBLE
    late, day, _shift = behind("19:41")
    assert only_reason(late, day=day).over == 1


# ---- F17: the coals run out


def coals(burns: int = 60, fires: int = 1):
    grill = Station("grill", "Grill", StationKind.GRILL, 12, place="terrace", lighting=25, burns=burns, fires=fires)
    place = (a_use("grill", 12),)
    leeks = a_dish("leeks", hands_off("leeks.grill", 12, uses=place, loads=Loads(24, 8, change_over=2)))
    chops = a_dish("chops", hands_off("chops.grill", 30, uses=place))
    return a_plan(
        leeks, chops,
        links=(a_link("leeks.grill", "chops.grill", 2),), kitchen=a_kitchen(stations=(grill,)), plating=SERVED,
        transfer=0, pins=(Pin("leeks.grill", start=at("17:20")),),
    )  # fmt: skip


def test_f17_twelve_minutes_past_the_coals():
    # 17:20 + 3 x 12 + 2 x 2 = 18:00; 18:02 + 30 = 18:32, and the coals burn until 18:20
    plan = coals()
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.FIRE, 72, 60, 12)
    assert (reason.start, reason.end) == (at("17:20"), at("18:32"))
    assert [demand.kind for demand in reason.demands] == [DemandKind.FIRE]
    assert "72 min" not in say_reason(plan, reason)  # an hour and more is told in hours
    assert "1 h 12 min from first to last, and the fire of the grill burns for 1 h: 12 min too long" in say_reason(
        plan, reason
    )


def test_f17_a_fire_of_72_minutes_or_a_second_one_mends_it():
    assert only_reason(coals(burns=71)).over == 1
    assert why_not(coals(burns=72)).fit is not Fit.IMPOSSIBLE
    assert why_not(coals(fires=2)).fit is not Fit.IMPOSSIBLE


def test_without_a_link_the_grill_is_taken_longer_than_it_burns():
    # all of the grate for 36 + 30 minutes
    plan = coals()
    plan = replace(plan, menu=replace(plan.menu, links=()), decisions=replace(plan.decisions, pins=()))
    reason = only_reason(plan)
    assert (reason.kind, reason.need, reason.have) == (ReasonKind.FIRE, 66 * 12, 60 * 12)
    assert reason.over == 6
    assert {demand.kind for demand in reason.demands} == {DemandKind.FIRE, DemandKind.STATION}
