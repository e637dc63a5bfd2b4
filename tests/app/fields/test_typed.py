"""Texts of single fields: what is shown reads back as the same value; what cannot be read names the mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.fields.typed_kitchen import (
    PER_CENT,
    POINTS,
    RATE,
    SETTINGS,
    SHELVES,
    read_stations,
    show_stations,
    stations_of,
)
from app.fields.typed_places import (
    how_of_link,
    place_offers,
    read_how,
    read_keep,
    read_places,
    read_vessels,
    show_how,
    show_keep,
    show_places,
    show_vessels,
)
from app.fields.typed_step import CORE_IF_ANY, LOADS_IF_ANY, TOUCHES, YIELD_IF_ANY
from app.fields.typed_text import AMOUNT, COUNT, LIST, NAME
from app.fields.typed_times import (
    CLOCK_IF_ANY,
    LENGTH,
    MINUTES,
    MINUTES_IF_ANY,
    NIGHT,
    TIME_OF_DAY,
    WINDOWS,
    from_plating,
    limit_of,
    read_offset,
    show_offset,
)
from core.intake.text_plan import read_text
from core.measures.refusal import Refusal
from core.plan.ids import StationId
from core.plan.kitchen import Station, StationKind
from core.plan.step import Holding
from tests.support.builders import a_kitchen, a_plan, a_vessel

DEMO = Path(__file__).parents[3] / "demo_data"


@pytest.mark.parametrize("name", ["weeknight_supper", "harvest_supper", "hall_celebration"])
def test_everything_in_the_demo_plans_reads_back(name):
    plan = read_text((DEMO / f"{name}.toml").read_text(encoding="utf-8"))
    kitchen, limit = plan.kitchen, limit_of(lambda: plan)
    pairs = []
    for step in plan.steps.values():
        pairs += [
            (step.uses, read_places(show_places(step.uses, kitchen), kitchen)),
            (step.vessels, read_vessels(show_vessels(step.vessels, kitchen), kitchen)),
        ]
        for how, value in (
            (LENGTH, step.length),
            (TOUCHES, step.touches),
            (LOADS_IF_ANY, step.loads),
            (YIELD_IF_ANY, step.yields),
            (CLOCK_IF_ANY, step.clock),
            (MINUTES_IF_ANY, step.put_in),
            (CORE_IF_ANY, step.doneness.core if step.doneness else None),
            (limit, step.earliest),
            (limit, step.latest),
        ):
            pairs.append((value, how.read(how.show(value))))
    for dish in plan.menu.dishes:
        pairs.append((dish.keep, read_keep(show_keep(dish.keep, kitchen), kitchen)))
        pairs.append((dish.course, read_offset(show_offset(dish.course, plan), plan)))
        for each in dish.ingredients:
            amount = (each.quantity, each.per_kg_of)
            pairs.append((amount, AMOUNT.read(AMOUNT.show(amount))))
    for link in plan.menu.links:
        pairs.append((how_of_link(link), read_how(show_how(how_of_link(link), kitchen), kitchen)))
    for station in kitchen.stations:
        pairs.append((station.shelves, SHELVES.read(SHELVES.show(station.shelves))))
        pairs.append((station.hours, WINDOWS.read(WINDOWS.show(station.hours))))
        if station.heater is not None:
            pairs.append((station.heater.from_cold, POINTS.read(POINTS.show(station.heater.from_cold))))
    for cook in kitchen.cooks:
        pairs.append((cook.night, NIGHT.read(NIGHT.show(cook.night))))
    assert len(pairs) > 100
    assert [(value, back) for value, back in pairs if value != back] == []


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("oven 160 C", "oven, 160 ±15 °C"),
        ("Oven 200 C +-10, 2 racks; fridge 1200 cm2, raw", "oven, 200 ±10 °C, 2 racks; fridge, 1200 cm2, raw"),
        ("burner at Burner 2", "burner, at Burner 2"),
        ("burner, at the burner 3", "burner, at Burner 3"),
        ("2 burners", "2 burners"),
        ("", ""),
    ],
)  # fmt: skip
def test_places_as_cooks_type_them(typed, shown):
    kitchen = a_kitchen()
    assert show_places(read_places(typed, kitchen), kitchen) == shown


def test_stations_are_named_and_kept_by_their_ids():
    kitchen = a_kitchen()
    (use,) = read_places("burner, at Burner 2", kitchen)
    assert use.station == "burner-2"
    odd = a_kitchen(stations=(Station(StationId("b1"), "Burner B1, 3.0 kW", StationKind.BURNER),))
    (use,) = read_places("burner, at b1", odd)
    assert (use.station, show_places((use,), odd)) == ("b1", "burner, at b1")


def test_other_stations_are_typed_by_name_even_with_commas():
    kitchen = a_kitchen(
        Station(StationId("charcoal"), "Charcoal grill, 57 cm", StationKind.GRILL),
        Station(StationId("twin-1"), "Twin", StationKind.OVEN),
        Station(StationId("twin-2"), "Twin", StationKind.OVEN),
    )
    assert read_stations("charcoal grill, 57 cm; Oven", kitchen) == ("charcoal", "oven")
    assert read_stations("Oven, grill, oven", kitchen) == ("oven", "grill")
    assert read_stations("", kitchen) == ()
    all_of_them = tuple(each.id for each in kitchen.stations)
    assert read_stations(show_stations(all_of_them, kitchen), kitchen) == all_of_them
    assert show_stations(("charcoal", "twin-2"), kitchen) == "Charcoal grill, 57 cm; twin-2"
    offers = stations_of(lambda: kitchen, StationId("oven")).offers()
    assert "Oven" not in offers
    assert "Charcoal grill, 57 cm" in offers
    with pytest.raises(Refusal, match='did you mean "oven"'):
        read_stations("ofen", kitchen)


def test_each_offer_of_a_place_can_be_read():
    kitchen = a_kitchen()
    offers = place_offers(kitchen)
    assert "burner" in offers
    assert "burner, at Burner 3" in offers
    for text in offers:
        (use,) = read_places(text, kitchen)
        assert show_places((use,), kitchen).startswith(str(use.kind))


def test_vessels_by_name_id_and_count():
    kitchen = a_kitchen(vessels=(a_vessel("tin", name="Roasting tin"), a_vessel("jug", name="2 l jug")))
    assert [(use.vessel, use.count) for use in read_vessels("2 x roasting tin, 2 l jug", kitchen)] == [
        ("tin", 2),
        ("jug", 1),
    ]
    assert show_vessels(read_vessels("3 tin", kitchen), kitchen) == "3 x Roasting tin"
    with pytest.raises(Refusal, match='did you mean "roasting tin"'):
        read_vessels("roastin tin", kitchen)
    with pytest.raises(Refusal, match="add it under Kitchen"):
        read_vessels("cauldron", kitchen)


def test_how_food_waits():
    kitchen = a_kitchen()
    wait, brings = read_how("", kitchen)
    assert (wait.how, wait.use, brings) == (Holding.COUNTER, None, None)
    wait, brings = read_how("in the fridge, 600 cm2, 12 cm, brings 300 ml", kitchen)
    assert wait.use is not None
    assert (wait.how, wait.use.area, brings.as_text()) == (Holding.FRIDGE, 600, "300 ml")
    with pytest.raises(Refusal, match="two fields before"):
        read_how("up to 20 min, in the fridge", kitchen)
    assert show_keep(read_keep("", kitchen), kitchen) == "any time, on the counter"


def test_the_fridge_that_food_waits_in_is_not_taken_for_a_stations_name():
    fridge = Station(StationId("larder-fridge"), "Fridge", StationKind.FRIDGE, units=4)
    wait, _brings = read_how("in the fridge", a_kitchen(stations=(fridge,)))
    assert (wait.how, wait.use) == (Holding.FRIDGE, None)


@pytest.mark.parametrize(
    ("text", "offset"),
    [("19:30", 0), ("7 pm", -30), ("-1 h 20", -80), ("+75", 75), ("48 h before", -2880), ("T-2:17", -137),
     ("23:30", 240), ("6:00", 630), ("at plating", 0)],
)  # fmt: skip
def test_offsets_from_plating(text, offset):
    assert read_offset(text, a_plan()) == offset


def test_a_clock_time_is_the_nearest_one_across_a_clock_change():
    # on 25 October 2026 Europe/London goes back an hour at 02:00 (IANA tz database)
    plan = a_plan(plating="2026-10-25 05:00")
    assert read_offset("0:30", plan) == -330
    assert show_offset(-330, plan) == "00:30"


@pytest.mark.parametrize("text", ["", "75", "soon", "25:00"])
def test_what_is_no_time_is_refused_with_examples(text):
    with pytest.raises(Refusal, match=r"19:27|\+ or -"):
        read_offset(text, a_plan())


@pytest.mark.parametrize(
    ("how", "text", "told"),
    [
        (COUNT, "two", "whole number"),
        (NAME, "  ", "empty"),
        (MINUTES, "-5", "less than 0"),
        (LENGTH, "30/20/10", "least first"),
        (RATE, "fast", "degrees a minute"),
        (SETTINGS, "hot", "temperature"),
        (SHELVES, "large", "write a shelf"),
        (POINTS, "200", "200 C in 18 min"),
        (TOUCHES, "stir", "begin with its time"),
        (LOADS_IF_ANY, "many", "24 pieces"),
        (LOADS_IF_ANY, "24 pieces", "24 pieces, 8 a load"),
        (WINDOWS, "evenings", "day 0 15:00-24:00"),
        (NIGHT, "late", "23:00-07:00"),
        (AMOUNT, "some", "some"),
        (PER_CENT, "-5", "per cent"),
        (YIELD_IF_ANY, "buttermilk", "buttermilk: 450 ml"),
        (TIME_OF_DAY, "early", "16:00"),
        (TIME_OF_DAY, "24:00", "00:00 to 23:59"),
    ],
)
def test_what_cannot_be_read_is_refused_with_the_mend(how, text, told):
    with pytest.raises(Refusal, match="(?s)" + told.replace("+", r"\+")):
        how.read(text)


def test_lists_and_distances():
    assert LIST.read(" milk ,gluten,, celery ") == ("milk", "gluten", "celery")
    assert [from_plating(each) for each in (-30, 0, 75)] == [
        "30 min before plating",
        "at plating",
        "1 h 15 min after plating",
    ]
