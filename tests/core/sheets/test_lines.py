"""What single lines say: worked by hand on small plans plated at 19:30."""

from __future__ import annotations

from dataclasses import replace

from core.plan.ids import StepId
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.plan import Plan
from core.plan.step import Attention, Doneness, Heat, Holding, Keep, Loads, Span, Touch, Use, VesselUse, Wait
from core.sheets import Act, Line, run_sheet
from core.timetable.timetable import Heating, Timetable
from tests.core.timetable.laid import at, heating, laid, spot
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
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

TENDED = Attention.TENDED


def lines_of(plan: Plan, timetable: Timetable) -> list[Line]:
    return [line for day in run_sheet(plan, timetable, ()).days for line in day.lines]


def told(plan: Plan, timetable: Timetable) -> list[tuple[str, str, str]]:
    """Return clock, act and words of all lines but serving."""
    return [
        (line.clock, line.act.value, line.does)
        for line in lines_of(plan, timetable)
        if line.act is not Act.SERVE
    ]


def the_line(plan: Plan, timetable: Timetable, act: Act) -> Line:
    found = [line for line in lines_of(plan, timetable) if line.act is act and line.step is not None]
    assert len(found) == 1, found
    return found[0]


# ---- a roast: in, touched, out


def a_roast(**fields: object) -> Plan:
    step = a_step(
        "roast.bake",
        "Roast the joint",
        (60, 75, 90),
        attention=TENDED,
        uses=(at_oven(180, units=2),),
        touches=(Touch(30, 2, "turn it over"),),
        doneness=Doneness("juices run clear", 74, 10),
        **fields,
    )
    return a_plan(a_dish("roast", step, name="Roast hen", code="R"), manner="likely")


def test_a_bake_goes_in_is_turned_and_comes_out() -> None:
    """75 min from 17:00: the last minute, 18:14, is the taking out."""
    plan = a_roast()
    timetable = laid(
        plan, {"roast.bake": at("17:00")}, heatings=[heating("oven", at("16:42"), at("17:00"), 180)]
    )
    assert told(plan, timetable) == [
        ("16:42", "ON", "Oven to 180 °C"),
        ("17:00", "IN", "Roast the joint"),
        ("17:30", "TOUCH", "Turn it over"),
        ("18:14", "OUT", "Roast hen"),
        ("18:15", "OFF", "Oven off"),
    ]
    begin = the_line(plan, timetable, Act.IN)
    assert begin.details == (
        "Oven, 180 °C, 2 racks",
        "1 h 15 min, until 18:15, look from 18:00",
        "done when: juices run clear, core 74 °C, then 10 min of rest",
    )
    assert (begin.code, begin.dish, begin.who, begin.tminus) == ("R", "Roast hen", "Ann", "T-2:30")
    out = the_line(plan, timetable, Act.OUT)
    assert out.details[0] == "Roast the joint"
    assert out.details[1] == "from Oven, 180 °C, 2 racks"
    assert "done when: juices run clear, core 74 °C, then 10 min of rest" in out.details
    assert out.details[-1] == "waits on the counter until served 19:30"


def test_a_touch_in_the_first_minute_is_part_of_putting_in() -> None:
    plan = a_roast(put_in=0)
    step = replace(plan.steps[StepId("roast.bake")], touches=(Touch(0, 2, "foil over it"),))
    plan = a_plan(a_dish("roast", step, name="Roast hen"), manner="likely")
    timetable = laid(plan, {"roast.bake": at("17:00")})
    assert told(plan, timetable)[0] == ("17:00", "IN", "Roast the joint: foil over it")
    assert [act for _clock, act, _does in told(plan, timetable)] == ["IN", "OUT", "OFF"]


def test_nobody_found_is_said() -> None:
    plan = a_roast()
    timetable = laid(plan, {"roast.bake": at("17:00")}, cooks={"roast.bake": None})
    assert {line.who for line in lines_of(plan, timetable) if line.step is not None} == {"nobody free"}


def test_a_step_for_two_names_both() -> None:
    plan = a_bench(a_step("fish.turn", minutes=5, hands=2), kitchen=a_kitchen(cooks=2))
    timetable = laid(plan, {"fish.turn": at("19:00")})
    one, other = (
        replace(hand, cook=cook.id)
        for hand, cook in zip(timetable.placed[0].hands, plan.kitchen.cooks, strict=True)
    )
    both = Timetable((replace(timetable.placed[0], hands=(one, other)),))
    assert the_line(plan, both, Act.DO).who == "Ann, Ben"
    alone = Timetable((replace(timetable.placed[0], hands=(one,)),))
    assert the_line(plan, alone, Act.DO).who == "Ann, nobody free"


# ---- burners, worktop, machine, fridge


def test_a_pot_goes_on_and_off_and_what_stands_begins_and_is_ready() -> None:
    boil = a_step("rice.boil", "Boil the rice", 16, attention=TENDED, uses=(a_use(StationKind.BURNER),))
    stand = hands_off("rice.stand", 10)
    plan = a_bench(boil, stand, links=(a_link(boil.id, stand.id),))
    timetable = laid(plan, {boil.id: at("19:00"), stand.id: at("19:16")})
    assert told(plan, timetable) == [
        ("19:00", "ON", "Boil the rice"),
        ("19:15", "OFF", "Rice"),
        ("19:16", "START", "Stand"),
        ("19:26", "READY", "Rice"),
    ]


def test_a_step_that_goes_on_at_once_with_nobody_needed_ends_without_a_line() -> None:
    soak, cook = hands_off("rice.soak", 20), a_step("rice.cook", minutes=10)
    plan = a_bench(soak, cook, links=(a_link(soak.id, cook.id),))
    assert told(plan, laid(plan, {soak.id: at("19:00"), cook.id: at("19:20")})) == [
        ("19:00", "START", "Soak"),
        ("19:20", "DO", "Cook"),
    ]


def test_food_that_stays_in_the_oven_does_not_go_out_and_in_again() -> None:
    """Turned down with the meat inside: the setting changes, the meat stays; whoever carves takes it out."""
    hot = hands_off("pork.start", 25, uses=(at_oven(230, 10),))
    low = hands_off("pork.roast", 60, uses=(Use(StationKind.OVEN, heat=Heat(160, 145, 175, steady=False)),))
    carve = a_step("pork.carve", minutes=10)
    plan = a_bench(hot, low, carve, links=(a_link(hot.id, low.id), a_link(low.id, carve.id)))
    timetable = laid(
        plan,
        {hot.id: at("17:00"), low.id: at("17:25"), carve.id: at("18:25")},
        heatings=[heating("oven", at("16:39"), at("17:00"), 230)],
    )
    assert told(plan, timetable) == [
        ("16:39", "ON", "Oven to 230 °C"),
        ("17:00", "IN", "Start"),
        ("17:25", "SET", "Oven to 160 °C"),
        ("17:25", "START", "Roast"),
        ("18:25", "OUT", "Pork"),
        ("18:25", "OFF", "Oven off"),
        ("18:25", "DO", "Carve"),
    ]
    assert the_line(plan, timetable, Act.OUT).who == "Ann"


def test_what_waits_in_the_fridge_where_it_chilled_is_told_when_it_goes_in() -> None:
    fridge = a_use(StationKind.FRIDGE, area=400, height=10)
    chill = hands_off("cream.chill", 240, uses=(fridge,))
    whip = a_step("cream.whip", minutes=10)
    wait = Wait(Holding.FRIDGE, fridge)
    plan = a_bench(chill, whip, links=(a_link(chill.id, whip.id, most=600, wait=wait),))
    timetable = laid(plan, {chill.id: at("10:00"), whip.id: at("19:00")}, spots={chill.id: [spot("fridge", shelf=2)]},
                     stays={chill.id: [spot("fridge", shelf=2)]})  # fmt: skip
    assert told(plan, timetable) == [("10:00", "IN", "Chill"), ("19:00", "DO", "Whip")]
    assert the_line(plan, timetable, Act.IN).details == (
        "Fridge, shelf 3 from below",
        "4 h, until 14:00",
        "then waits in Fridge, shelf 3 from below until 19:00, can wait to Sun 00:00",
    )
    assert the_line(plan, timetable, Act.DO).details[0] == "from Fridge, shelf 3 from below"


def test_loads_that_wait_where_they_chilled_stay_there_one_and_all() -> None:
    """The second load ends while the first one waits on the shelf for both: neither is taken out before its use."""
    fridge = a_use(StationKind.FRIDGE, area=400, height=10)
    chill = hands_off("cream.chill", 60, uses=(fridge,), loads=Loads(12, 6))
    whip = a_step("cream.whip", minutes=10)
    plan = a_bench(chill, whip, links=(a_link(chill.id, whip.id, wait=Wait(Holding.FRIDGE, fridge)),))
    timetable = laid(plan, {chill.id: [at("15:00"), at("16:00")], whip.id: at("19:00")})
    assert told(plan, timetable) == [
        ("15:00", "IN", "Chill (load 1 of 2)"),
        ("16:00", "IN", "Chill (load 2 of 2)"),
        ("19:00", "DO", "Whip"),
    ]


def test_food_that_waits_elsewhere_comes_out_when_its_time_is_over() -> None:
    """Chilled on one place and kept on another: the stay begins when the chilling ends, in the cool box."""
    fridge = a_use(StationKind.FRIDGE, area=400, height=10)
    chill, whip = hands_off("cream.chill", 60, uses=(fridge,)), a_step("cream.whip", minutes=10)
    box = Station("box", "Cool box", StationKind.FRIDGE, 2)
    links = (a_link(chill.id, whip.id, wait=Wait(Holding.FRIDGE, fridge)),)
    plan = a_bench(chill, whip, links=links, kitchen=a_kitchen(box))
    timetable = laid(plan, {chill.id: at("15:00"), whip.id: at("19:00")}, stays={chill.id: [spot("box")]})
    out = the_line(plan, timetable, Act.OUT)
    assert (out.clock, out.details[-1]) == ("16:00", "waits in Cool box until 19:00")


def test_whoever_ends_the_step_before_puts_the_food_in() -> None:
    fill = a_step("tart.fill", minutes=10)
    bake = hands_off("tart.bake", 30, uses=(at_oven(),))
    plan = a_bench(fill, bake, links=(a_link(fill.id, bake.id),))
    at_once = laid(plan, {fill.id: at("18:00"), bake.id: at("18:10")})
    assert the_line(plan, at_once, Act.IN).who == "Ann"
    later = laid(plan, {fill.id: at("18:00"), bake.id: at("18:20")})
    assert the_line(plan, later, Act.IN).who == ""


# ---- the oven


def two_bakes(first: int, second: int, **heater: int) -> Plan:
    oven = an_oven(heater=Heater(**heater))
    one, other = (
        hands_off("bread.bake", 30, uses=(at_oven(first),)),
        hands_off("tart.bake", 30, uses=(at_oven(second),)),
    )
    return a_bench(one, other, kitchen=a_kitchen(oven=oven))


def test_the_setting_changes_when_the_last_bake_comes_out() -> None:
    """210 down to 165 at 5 °C a minute takes 9 min; the tart goes in ten minutes later."""
    plan = two_bakes(210, 165)
    starts = {"bread.bake": at("17:00"), "tart.bake": at("17:40")}
    timetable = laid(plan, starts, heatings=[heating("oven", at("16:41"), at("17:00"), 210)])
    heats = [line for line in lines_of(plan, timetable) if line.station is not None]
    assert [(line.clock, line.act.value, line.does, line.details) for line in heats] == [
        ("16:41", "ON", "Oven to 210 °C", ("from cold, 19 min, hot by 17:00",)),
        ("17:30", "SET", "Oven to 165 °C", ("from 210 °C, there by 17:39",)),
        ("18:10", "OFF", "Oven off", ()),
    ]
    assert heats[0].who == "Ann"


def test_the_same_setting_is_not_set_again() -> None:
    plan = two_bakes(180, 180)
    timetable = laid(plan, {"bread.bake": at("17:00"), "tart.bake": at("17:40")})
    assert [line.act for line in lines_of(plan, timetable) if line.station is not None] == [Act.OFF]


def test_after_a_long_pause_the_oven_is_off_and_on_again() -> None:
    plan = two_bakes(180, 180, keep_on=30)
    starts = {"bread.bake": at("15:00"), "tart.bake": at("17:40")}
    hot = [heating("oven", at("14:43"), at("15:00"), 180), heating("oven", at("17:23"), at("17:40"), 180)]
    timetable = laid(plan, starts, heatings=hot)
    heats = [(line.clock, line.act.value) for line in lines_of(plan, timetable) if line.station is not None]
    assert heats == [("14:43", "ON"), ("15:30", "OFF"), ("17:23", "ON"), ("18:10", "OFF")]


def test_a_place_that_is_hot_at_once_is_switched_on_when_it_is_first_used() -> None:
    plan = two_bakes(180, 180, from_cold=())
    timetable = laid(plan, {"bread.bake": at("17:00"), "tart.bake": at("17:40")})
    heats = [
        (line.clock, line.act.value, line.does)
        for line in lines_of(plan, timetable)
        if line.station is not None
    ]
    assert heats == [("17:00", "ON", "Oven to 180 °C"), ("18:10", "OFF", "Oven off")]


def test_a_fire_is_not_switched_off() -> None:
    fire = Station("grill", "Charcoal grill", StationKind.GRILL, 4, heater=Heater(), burns=60)
    step = a_step("leeks.grill", minutes=20, attention=TENDED, uses=(a_use(StationKind.GRILL, heat=220),))
    plan = a_bench(step, kitchen=a_kitchen(stations=(fire,)))
    lit = Heating("grill", at("18:30"), at("19:00"), 220, plan.kitchen.cooks[0].id)
    timetable = laid(plan, {step.id: at("19:00")}, heatings=[lit])
    assert told(plan, timetable) == [
        ("18:30", "ON", "Charcoal grill to 220 °C"),
        ("19:00", "ON", "Grill"),
        ("19:19", "OFF", "Leeks"),
    ]


def test_what_heats_follows_what_comes_out_in_the_same_minute() -> None:
    plan = two_bakes(210, 165)
    timetable = laid(plan, {"bread.bake": at("17:00"), "tart.bake": at("17:30")})
    assert [(act, does) for _clock, act, does in told(plan, timetable)] == [
        ("IN", "Bake"), ("OUT", "Bread"), ("SET", "Oven to 165 °C"), ("IN", "Bake"), ("OUT", "Tart"),
        ("OFF", "Oven off"),
    ]  # fmt: skip


# ---- waiting, loads, vessels


def test_waiting_is_told_with_its_limit() -> None:
    """Sauce made by 18:30 and used at 19:00 may wait 45 min: to 19:15; a dish that keeps 10 min is told to 19:38."""
    make, warm = a_step("sauce.make", minutes=10), a_step("sauce.warm", minutes=8)
    dish = a_dish("sauce", make, warm, keep=Keep(30, Wait(Holding.HOT)))
    plan = a_plan(dish, links=(a_link(make.id, warm.id, most=45, wait=Wait(Holding.COUNTER)),))
    timetable = laid(plan, {make.id: at("18:20"), warm.id: at("19:00")})
    made, warmed = (line for line in lines_of(plan, timetable) if line.act is Act.DO)
    assert made.details == ("10 min, until 18:30", "then waits on the counter until 19:00, can wait to 19:15")
    assert warmed.details == (
        "8 min, until 19:08",
        "then waits held hot until served 19:30, can wait to 19:38",
    )


def test_what_may_be_done_early_is_counted_from_then() -> None:
    """20 min are kept for 10 to 20, so that it may be done by 18:30: a wait of 30 min then ends at 19:00."""
    make, warm = a_step("sauce.make", minutes=(10, 15, 20)), a_step("sauce.warm", minutes=8)
    plan = a_bench(make, warm, links=(a_link(make.id, warm.id, most=30),))
    timetable = laid(plan, {make.id: at("18:20"), warm.id: at("18:50")})
    line = next(line for line in lines_of(plan, timetable) if line.step == make.id)
    assert line.details == ("20 min, until 18:40", "then waits on the counter until 18:50, can wait to 19:00")


def test_a_wait_at_its_limit_is_no_longer() -> None:
    make, warm = a_step("sauce.make", minutes=10), a_step("sauce.warm", minutes=8)
    plan = a_bench(make, warm, links=(a_link(make.id, warm.id, most=30),))
    timetable = laid(plan, {make.id: at("18:20"), warm.id: at("19:00")})
    line = next(line for line in lines_of(plan, timetable) if line.step == make.id)
    assert line.details[-1] == "then waits on the counter until 19:00, no longer"


def test_what_goes_two_ways_says_for_what() -> None:
    stock, soup, gravy = a_step("stock.lift"), a_step("soup.boil"), a_step("gravy.boil")
    links = (a_link(stock.id, soup.id), a_link(stock.id, gravy.id))
    plan = a_bench(stock, soup, gravy, links=links)
    timetable = laid(plan, {stock.id: at("16:00"), soup.id: at("17:00"), gravy.id: at("18:00")})
    line = next(line for line in lines_of(plan, timetable) if line.step == stock.id)
    assert line.details[1:] == (
        "then waits on the counter until 17:00, for: Boil",
        "then waits on the counter until 18:00, for: Boil",
    )


def test_loads_are_numbered_and_pairs_wait_for_each_other() -> None:
    grill = a_step("skewers.grill", minutes=8, loads=Loads(12, 6), uses=(a_use(StationKind.BURNER),))
    dress = a_step("skewers.dress", minutes=2, loads=Loads(12, 6))
    plan = a_bench(grill, dress, links=(a_link(grill.id, dress.id),))
    timetable = laid(plan, {grill.id: [at("18:00"), at("18:20")], dress.id: [at("18:10"), at("18:30")]})
    said = [
        (line.clock, line.does, line.details[-1])
        for line in lines_of(plan, timetable)
        if line.step == grill.id
    ]
    assert said == [
        ("18:00", "Grill (load 1 of 2)", "then waits on the counter until 18:10"),
        ("18:20", "Grill (load 2 of 2)", "then waits on the counter until 18:30"),
    ]


def test_vessels_are_fetched_once_for_a_run() -> None:
    pot = (VesselUse("pot"),)
    steps = (
        a_step("soup.sweat", vessels=pot),
        a_step("soup.boil", vessels=pot),
        a_step("stew.boil", vessels=(VesselUse("tin", 2),)),
    )
    vessels = (a_vessel("pot", size="6 l"), a_vessel("tin", 2))
    plan = a_bench(*steps, links=(a_link(steps[0].id, steps[1].id),), kitchen=a_kitchen(vessels=vessels))
    timetable = laid(plan, {steps[0].id: at("18:00"), steps[1].id: at("18:10"), steps[2].id: at("18:20")})
    fetched = {
        line.step: [each for each in line.details if each.startswith("with ")]
        for line in lines_of(plan, timetable)
    }
    assert fetched[steps[0].id] == ["with Pot, 6 l"]
    assert fetched[steps[1].id] == []
    assert fetched[steps[2].id] == ["with 2\N{NO-BREAK SPACE}× Tin"]


def test_another_day_is_named() -> None:
    cure = hands_off("trout.cure", 1500, uses=(a_use(StationKind.FRIDGE, area=100),))
    slice_it = a_step("trout.slice", minutes=15)
    plan = a_bench(cure, slice_it, links=(a_link(cure.id, slice_it.id),))
    timetable = laid(plan, {cure.id: at("18:00") - 1440, slice_it.id: at("19:00")})
    days = run_sheet(plan, timetable).days
    assert [(day.title, day.about) for day in days] == [
        ("Friday 25 September", "D-1, the day before"),
        ("Saturday 26 September", "D, the day itself"),
    ]
    assert days[0].lines[0].details[:2] == ("Fridge, lowest shelf", "25 h, until Sat 19:00")


def test_a_note_of_the_step_is_printed() -> None:
    plan = a_bench(a_step("soup.boil", note="the big\n pot"))
    timetable = laid(plan, {"soup.boil": at("19:00")})
    assert the_line(plan, timetable, Act.DO).details[-1] == "note: the big pot"


def test_an_alternative_and_a_shared_setting_count_for_looking() -> None:
    """Baked 10 degrees hotter than asked: 10 % shorter, so that the low length of 60 is looked at after 54 min."""
    step = a_step("gratin.bake", minutes=Span(60, 75, 90), attention=TENDED, uses=(at_oven(160),))
    plan = a_plan(a_dish("gratin", step), manner="likely")
    timetable = laid(plan, {step.id: at("17:00")}, settings={step.id: 170})
    assert timetable.placed[0].length == 68
    assert the_line(plan, timetable, Act.IN).details[1] == "1 h 8 min, until 18:08, look from 17:54"


# ---- serving, cautions, what is not right


def test_courses_are_served_with_their_dishes() -> None:
    dishes = (
        a_dish("soup", a_step("soup.boil"), code="1", plating="Deep plates.", allergens=("milk",)),
        a_dish("stock", a_step("stock.boil"), served=False),
        a_dish("cake", a_step("cake.cut"), course=75),
    )
    plan = a_plan(*dishes)
    timetable = laid(plan, {"soup.boil": at("19:00"), "stock.boil": at("18:00"), "cake.cut": at("20:30")})
    sheet = run_sheet(plan, timetable)
    assert sheet.serving == "Saturday 26 September 2026, 19:30"
    assert sheet.courses == "Other course at 20:45"
    served = [line for day in sheet.days for line in day.lines if line.act is Act.SERVE]
    assert [(line.clock, line.tminus, line.does) for line in served] == [
        ("19:30", "T", "serving time, 1 dish"),
        ("20:45", "T+1:15", "1 dish"),
    ]
    (soup,) = served[0].served
    assert (soup.code, soup.dish, soup.plating, soup.allergens) == ("1", "Soup", "Deep plates.", ("milk",))


def test_cautions_name_the_noted_allergens_and_defer_to_local_rules() -> None:
    dish = a_dish("soup", a_step("soup.boil"), allergens=("milk", "celery"))
    plan = a_plan(dish, a_dish("rice", a_step("rice.boil"), allergens=("Milk",)))
    said = run_sheet(plan, Timetable()).cautions
    assert any("celery: Soup; milk: Soup, Rice." in each for each in said)
    assert any("Food Code" in each for each in said)
    assert "food-safety code of your country comes before this sheet" in said[-1]
    none = run_sheet(a_bench(a_step("soup.boil")), Timetable()).cautions
    assert any(each.startswith("No allergens are noted") for each in none)


def test_clashes_that_remain_are_named() -> None:
    plan = a_bench(a_step("soup.boil", minutes=10), a_step("rice.boil", minutes=10))
    right = laid(plan, {"soup.boil": at("19:00"), "rice.boil": at("19:10")})
    assert run_sheet(plan, right).clashes == ()
    wrong = laid(plan, {"soup.boil": at("19:00"), "rice.boil": at("19:05")})
    (sentence,) = run_sheet(plan, wrong).clashes
    assert "Ann has two things to do" in sentence


def test_an_empty_timetable_gives_no_days() -> None:
    sheet = run_sheet(a_bench(a_step("soup.boil")), Timetable())
    assert (sheet.days, sheet.clashes) == ((), ())


def test_a_timetable_of_elsewhere_is_read_as_far_as_it_can() -> None:
    """A step, a station, a cook and a shelf that the plan does not have."""
    plan = a_bench(a_step("soup.boil", minutes=10), kitchen=a_kitchen(cooks=(a_cook("ann"),)))
    known = laid(plan, {"soup.boil": at("19:00")}, cooks={"soup.boil": "zoe"}).placed[0]
    known = replace(known, spots=(spot("cellar"), spot("fridge", shelf=9)))
    strange = replace(known, step=StepId("cake.bake"))
    lines = lines_of(plan, Timetable((known, strange)))
    assert [(line.act, line.who) for line in lines] == [(Act.DO, "zoe"), (Act.SERVE, "")]
    assert lines[0].details[0] == "Fridge, shelf 10 from below"
