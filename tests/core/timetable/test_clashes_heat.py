"""One temperature at a time, changes, heating up from cold. Change rates 5 °C a minute, from cold 180 °C in 10."""

from dataclasses import replace

import pytest

from core.plan.ids import StationId
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Heat, Holding, Loads, Use, Wait
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.warming import change_minutes, heat_up_minutes
from tests.core.timetable.laid import at, heating, laid, spot, the_clash, told
from tests.support.builders import (
    a_dish,
    a_heat,
    a_kitchen,
    a_link,
    a_plan,
    an_oven,
    hands_off,
)

NO_HEATING_UP = Heater(from_cold=(), up=5.0, down=4.0)
FROM_COLD = Heater(from_cold=((100, 5), (180, 10)), keep_on=30)


def bakes(*heats: Heat | int, heater: Heater | None = NO_HEATING_UP, minutes: int = 30, racks: int = 9):
    """Return a plan of bakes "a", "b" ... with these temperatures, half an hour each."""
    dishes = [
        a_dish(name, hands_off(f"{name}.bake", minutes, uses=(
            Use(StationKind.OVEN, heat=each if isinstance(each, Heat) else Heat(each, each, each)),
        )))
        for name, each in zip("abcdef", heats, strict=False)
    ]  # fmt: skip
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(racks=racks, heater=heater)))


def test_two_temperatures_at_once_clash_while_they_overlap():
    plan = bakes(210, 210)
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:12")}))
    plan = bakes(210, 160)
    clash = next(iter(clashes(plan, laid(plan, {"a.bake": at("18:10"), "b.bake": at("17:58")}))))
    assert told(clash) == (ClashKind.OVEN_TEMPERATURE, at("18:10"), at("18:28"), 50)
    assert clash.steps == ("b.bake", "a.bake")
    assert clash.stations == ("oven",)
    assert clash.sentence == "B: Bake and A: Bake want 160 °C and 210 °C in the oven at once, 18:10 to 18:28."


def test_one_degree_apart_for_one_minute_is_a_clash():
    plan = bakes(180, 181)
    clash = next(iter(clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:29")}))))
    assert told(clash) == (ClashKind.OVEN_TEMPERATURE, at("18:29"), at("18:30"), 1)


def test_three_at_once_are_told_together():
    plan = bakes(160, 210, 160)
    found = clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:10"), "c.bake": at("18:20")}))
    assert [
        (each.start, each.end, each.steps) for each in found if each.kind is ClashKind.OVEN_TEMPERATURE
    ] == [
        (at("18:10"), at("18:20"), ("a.bake", "b.bake")),
        (at("18:20"), at("18:30"), ("a.bake", "b.bake", "c.bake")),
        (at("18:30"), at("18:40"), ("b.bake", "c.bake")),
    ]
    assert (
        "A: Bake (160 °C), B: Bake (210 °C) and C: Bake (160 °C) want different temperatures in the oven at once,"
        " 18:20 to 18:30."
    ) in {each.sentence for each in found}


def test_the_range_of_the_food_is_kept_to_the_degree():
    plan = bakes(a_heat(160, 15), a_heat(170, 5))
    both = {"a.bake": at("18:00"), "b.bake": at("18:10")}
    assert not clashes(plan, laid(plan, both, settings={"a.bake": 175, "b.bake": 175}))
    found = clashes(plan, laid(plan, both, settings={"a.bake": 176, "b.bake": 176}))
    assert [(each.kind, each.by, each.sentence) for each in found] == [
        (ClashKind.OVEN_TEMPERATURE, 1, "A: Bake stands at 176 °C in the oven; it bears 145 to 175 °C."),
        (ClashKind.OVEN_TEMPERATURE, 1, "B: Bake stands at 176 °C in the oven; it bears 165 to 175 °C."),
    ]
    assert [(each.start, each.end) for each in found] == [
        (at("18:00"), at("18:25")), (at("18:10"), at("18:38"))]  # fmt: skip
    plan = bakes(200)
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00")}, settings={"a.bake": 199}))
    assert (clash.by, clash.sentence) == (1, "A: Bake stands at 199 °C in the oven; it bears 200 °C only.")


@pytest.mark.parametrize(("setting", "by"), [(250, 0), (251, 1), (50, 0), (49, 1)])
def test_the_range_of_the_oven_is_kept_to_the_degree(setting, by):
    plan = bakes(setting)
    found = clashes(plan, laid(plan, {"a.bake": at("18:00")}))
    assert [each.by for each in found] == ([by] if by else [])
    if by:
        assert found[0].kind is ClashKind.OVEN_TEMPERATURE
        assert found[0].sentence == f"A: Bake wants {setting} °C; the oven goes from 50 to 250 °C."


def test_a_bake_needs_a_setting():
    plan = bakes(180)
    good = laid(plan, {"a.bake": at("18:00")})
    clash = the_clash(plan, replace(good, placed=(replace(good.placed[0], setting=None),)))
    assert (clash.kind, clash.start, clash.end) == (ClashKind.OVEN_TEMPERATURE, at("18:00"), at("18:30"))
    assert clash.sentence == "A: Bake has no setting in the oven."


def test_a_place_without_a_heater_has_no_temperature_rule():
    plan = bakes(210, 160, heater=None)
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:00")}))


def test_an_unheated_thing_in_the_oven_has_no_temperature():
    plan = a_plan(
        a_dish("a", hands_off("a.bake", 30, uses=(Use(StationKind.OVEN, heat=a_heat(200)),))),
        a_dish("b", hands_off("b.rise", 30, uses=(Use(StationKind.OVEN),))),
        kitchen=a_kitchen(oven=an_oven(heater=NO_HEATING_UP)),
    )
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.rise": at("18:10")}))


# ---- changes


@pytest.mark.parametrize(
    ("first", "then", "minutes"),
    [(160, 210, 10), (160, 211, 11), (210, 160, 13), (160, 161, 1)],  # down by 4 °C a minute: 12.5
)
def test_a_change_takes_its_time_to_the_minute(first, then, minutes):
    plan = bakes(first, then)
    ready = at("18:30") + minutes
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": ready}))
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": ready - 1}))
    assert told(clash) == (ClashKind.HEATING_MISSING, ready - 1, ready, 1)
    assert clash.steps == ("a.bake", "b.bake")
    assert clash.stations == ("oven",)
    assert clash.sentence == (
        f"The oven takes {minutes} min from {first} to {then} °C and has {minutes - 1} between A: Bake and B: Bake."
    )


def test_what_bears_the_change_may_go_in_at_once():
    plan = bakes(230, Heat(160, 160, 160, steady=False))
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:30")}))
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:29")}))
    assert clash.kind is ClashKind.OVEN_TEMPERATURE


def test_a_change_is_needed_after_everything_that_was_inside_not_only_the_last():
    # b goes in last before c, but a came out later: a and b at the same setting
    plan = bakes(160, 160, 210)
    starts = {"a.bake": at("18:00"), "b.bake": at("17:55"), "c.bake": at("18:40")}
    assert not clashes(plan, laid(plan, starts))
    clash = the_clash(plan, laid(plan, {**starts, "c.bake": at("18:34")}))
    assert (clash.start, clash.end, clash.by) == (at("18:34"), at("18:40"), 6)
    assert set(clash.steps) == {"a.bake", "b.bake", "c.bake"}
    assert clash.sentence == "The oven takes 10 min from 160 to 210 °C and has 4 between A: Bake and C: Bake."


def test_a_change_is_needed_between_every_pair_not_only_neighbours():
    # b bears the change to 160, c wants 230 again, only 14 min after a at 90 came out
    plan = bakes(90, Heat(210, 210, 210, steady=False), 230, minutes=10)
    starts = {"a.bake": at("18:00"), "b.bake": at("18:10"), "c.bake": at("18:38")}
    assert not clashes(plan, laid(plan, starts))
    found = clashes(plan, laid(plan, {**starts, "c.bake": at("18:37")}))
    assert [(each.start, each.end, each.by, each.steps) for each in found] == [
        (at("18:37"), at("18:38"), 1, ("a.bake", "c.bake"))
    ]


def test_one_change_with_several_things_is_one_clash():
    plan = bakes(160, 160, 210, 210)
    starts = {"a.bake": at("18:00"), "b.bake": at("18:00"), "c.bake": at("18:34"), "d.bake": at("18:36")}
    clash = the_clash(plan, laid(plan, starts))
    assert (clash.start, clash.end, clash.by) == (at("18:34"), at("18:40"), 6)
    assert set(clash.steps) == {"a.bake", "b.bake", "c.bake", "d.bake"}


def test_two_changes_are_two_clashes():
    plan = bakes(160, 210, 160, 210)
    starts = {"a.bake": at("17:00"), "b.bake": at("17:35"), "c.bake": at("18:20"), "d.bake": at("18:55")}
    found = clashes(plan, laid(plan, starts))
    assert [(each.start, each.end, each.by) for each in found] == [
        (at("17:35"), at("17:40"), 5),
        (at("18:55"), at("19:00"), 5),
    ]


def test_decimal_rates_are_what_they_are_written_as():
    heater = Heater(from_cold=(), up=0.7, down=0.1)
    # 21 / 0.7: divided as binary numbers it is a little more
    assert change_minutes(heater, 160, 181) == 30
    assert change_minutes(heater, 160, 182) == 32
    assert change_minutes(heater, 160, 157) == 30
    assert change_minutes(replace(heater, down=0.0), 160, 157) == 0


# ---- from cold


def test_minutes_from_cold_go_along_the_points_and_on_past_the_last():
    heater = Heater(cold=20, from_cold=((100, 5), (180, 10)))
    assert [heat_up_minutes(heater, each) for each in (20, 36, 37, 100, 101, 180, 181, 196, 197)] == [
        0, 1, 2, 5, 6, 10, 11, 11, 12]  # fmt: skip
    assert heat_up_minutes(Heater(from_cold=((200, 18),)), 250) == 23  # 18 * 230 / 180
    assert heat_up_minutes(Heater(from_cold=()), 250) == 0
    assert heat_up_minutes(heater, 10) == 0


def test_the_first_bake_finds_the_oven_hot():
    plan = bakes(180, heater=FROM_COLD)
    start, bake = {"a.bake": at("18:00")}, at("18:00")
    for good in (at("17:50"), at("17:40")):
        assert not clashes(plan, laid(plan, start, heatings=[heating("oven", good, bake, 180)]))
    clash = the_clash(plan, laid(plan, start))
    assert told(clash) == (ClashKind.HEATING_MISSING, at("17:50"), bake, 10)
    assert clash.steps == ("a.bake",)
    assert clash.sentence == "The oven is not heated up to 180 °C for A: Bake at 18:00; that takes 10 min."
    clash = the_clash(plan, laid(plan, start, heatings=[heating("oven", at("17:51"), bake, 180)]))
    assert (clash.start, clash.end, clash.by) == (at("17:50"), at("17:51"), 1)
    assert clash.sentence == "The oven is heated up to 180 °C for 9 min before A: Bake; that takes 10."
    clash = the_clash(plan, laid(plan, start, heatings=[heating("oven", at("17:40"), bake, 179)]))
    assert (clash.start, clash.end, clash.by) == (at("17:50"), bake, 10)
    assert clash.sentence == "The oven is heated up to 179 °C for A: Bake at 18:00, which wants 180 °C."
    clash = the_clash(plan, laid(plan, start, heatings=[heating("oven", at("17:40"), at("17:59"), 180)]))
    assert clash.by == 10


def test_any_of_several_heatings_may_serve():
    plan = bakes(180, heater=FROM_COLD)
    on = [heating("oven", at("17:55"), at("18:00"), 180), heating("oven", at("17:50"), at("18:00"), 180)]
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00")}, heatings=on))


def test_after_a_pause_that_is_worth_switching_off_it_heats_up_again():
    plan = bakes(180, 180, heater=FROM_COLD)
    on = [heating("oven", at("16:50"), at("17:00"), 180)]
    assert not clashes(plan, laid(plan, {"a.bake": at("17:00"), "b.bake": at("18:00")}, heatings=on))
    late = {"a.bake": at("17:00"), "b.bake": at("18:01")}
    clash = the_clash(plan, laid(plan, late, heatings=on))
    assert (clash.kind, clash.start, clash.end, clash.steps) == (
        ClashKind.HEATING_MISSING, at("17:51"), at("18:01"), ("b.bake",))  # fmt: skip
    again = heating("oven", at("17:51"), at("18:01"), 180)
    assert not clashes(plan, laid(plan, late, heatings=[*on, again]))


def test_heating_up_begins_after_the_session_before():
    slow = replace(FROM_COLD, from_cold=((180, 40),))
    plan = bakes(180, 180, heater=slow)
    on = [heating("oven", at("16:20"), at("17:00"), 180)]
    good = {"a.bake": at("17:00"), "b.bake": at("18:10")}
    assert not clashes(plan, laid(plan, good, heatings=[*on, heating("oven", at("17:30"), at("18:10"), 180)]))
    sooner = {"a.bake": at("17:00"), "b.bake": at("18:09")}
    under = heating("oven", at("17:29"), at("18:09"), 180)
    clash = the_clash(plan, laid(plan, sooner, heatings=[*on, under]))
    assert told(clash) == (ClashKind.HEATING_MISSING, at("17:29"), at("17:30"), 1)
    assert clash.steps == ("a.bake", "b.bake")
    assert (
        clash.sentence == "The oven is to heat up for B: Bake from 17:29, while A: Bake is in it until 17:30."
    )
    both = heating("oven", at("17:31"), at("18:09"), 180)
    clash = the_clash(plan, laid(plan, sooner, heatings=[*on, both]))
    assert clash.by == 2


def test_two_that_come_first_are_heated_up_for_together():
    plan = bakes(180, 180, heater=FROM_COLD)
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00"), "b.bake": at("18:00")}))
    assert clash.steps == ("a.bake", "b.bake")
    assert clash.sentence == (
        "The oven is not heated up to 180 °C for A: Bake and B: Bake at 18:00; that takes 10 min."
    )


def test_a_setting_below_cold_needs_no_heating_up():
    heater = Heater(lowest=0, cold=60, from_cold=((100, 5),))
    plan = bakes(60, heater=heater)
    assert not clashes(plan, laid(plan, {"a.bake": at("18:00")}))


def test_a_heating_of_a_station_that_is_not_there_is_told():
    plan = bakes(180)
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00")}, heatings=[heating("kiln", -20, -10, 900)]))
    assert (clash.kind, clash.start, clash.end, clash.stations) == (
        ClashKind.WRONG_PLACE,
        -20,
        -10,
        ("kiln",),
    )
    assert clash.sentence == '"kiln" is to heat up from 19:10 to 19:20, and is not in the kitchen.'


def test_a_heating_of_other_years_is_told():
    plan = bakes(180, heater=FROM_COLD)
    day, on = 24 * 60, heating("oven", at("17:50"), at("18:00"), 180)
    far = heating("oven", -(10**9) * day, 10**9 * day, 180)
    clash = the_clash(plan, laid(plan, {"a.bake": at("18:00")}, heatings=[on, far]))
    assert (clash.kind, clash.stations) == (ClashKind.WRONG_PLACE, ("oven",))
    assert clash.sentence == (
        "Oven is to heat up from 1000000000 days before plating to 1000000000 days after plating, which is more"
        " than ten years from plating."
    )


def test_two_ovens_have_a_temperature_each():
    plan = bakes(210, 160)
    kitchen = a_kitchen(stations=(an_oven("left", 1, NO_HEATING_UP), an_oven("right", 1, NO_HEATING_UP)))
    plan = replace(plan, kitchen=kitchen)
    both = {"a.bake": at("18:00"), "b.bake": at("18:00")}
    assert not clashes(plan, laid(plan, both, spots={"b.bake": [spot("right")]}))
    found = clashes(plan, laid(plan, both))
    assert "A: Bake and B: Bake want 210 °C and 160 °C in Left at once, 18:00 to 18:30." in {
        each.sentence for each in found
    }


def test_a_hot_wait_is_a_bake_that_bears_no_change():
    cool = replace(NO_HEATING_UP, lowest=40)
    drawer = Station(StationId("drawer"), "Drawer", StationKind.WARM_DRAWER, 4, heater=cool)
    warm = Use(StationKind.WARM_DRAWER, heat=Heat(70, 65, 80, steady=False))
    dishes = (
        a_dish("pork", hands_off("pork.rest", 10), hands_off("pork.carve", 10)),
        a_dish(
            "bread", hands_off("bread.prove", 30, uses=(Use(StationKind.WARM_DRAWER, heat=Heat(40, 40, 40)),))
        ),
    )
    link = a_link("pork.rest", "pork.carve", wait=Wait(Holding.HOT, warm))
    plan = a_plan(*dishes, links=(link,), kitchen=a_kitchen(stations=(drawer,)))
    pork = {"pork.rest": at("18:00"), "pork.carve": at("18:40")}
    assert not clashes(plan, laid(plan, {**pork, "bread.prove": at("17:34")}))  # 30 °C up at 5: 6 min
    clash = the_clash(plan, laid(plan, {**pork, "bread.prove": at("17:35")}))
    assert told(clash) == (ClashKind.HEATING_MISSING, at("18:10"), at("18:11"), 1)
    assert clash.sentence == (
        "The warm drawer takes 6 min from 40 to 70 °C and has 5 between Bread: Prove and what waits after Pork: Rest."
    )
    found = clashes(plan, laid(plan, {**pork, "bread.prove": at("18:00")}))
    assert (ClashKind.OVEN_TEMPERATURE, at("18:10"), at("18:30")) in {
        (each.kind, each.start, each.end) for each in found
    }


def test_loads_that_overlap_are_two_things():
    step = hands_off(
        "buns.bake", 10, uses=(Use(StationKind.OVEN, heat=Heat(200, 190, 210)),), loads=Loads(12, 6)
    )
    plan = a_plan(a_dish("buns", step), kitchen=a_kitchen(oven=an_oven(heater=NO_HEATING_UP)))
    good = laid(plan, {"buns.bake": [at("18:00"), at("18:10")]})
    assert not clashes(plan, good)
    first, second = good.placed
    changed = replace(good, placed=(first, replace(second, setting=205, length=10)))
    found = clashes(plan, changed)
    assert (ClashKind.HEATING_MISSING, 1) in {(each.kind, each.by) for each in found}
