"""Lines of fires, of steps in parts, of other ways, of washing up and of full ovens: by hand, plated at 19:30."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.plan.ids import StepId
from core.plan.kitchen import Heater, StationKind
from core.plan.plan import Plan
from core.plan.step import Alternative, Attention, Doneness, Loads, Manner, Span, VesselUse
from core.sheets import Act, Line, as_pdf, run_sheet
from core.sheets.step_words import done_as, parts_of
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Placed, Timetable
from tests.core.sheets.reading import pages, squeezed
from tests.core.sheets.test_every_load import require_every_load_once
from tests.core.sheets.test_lines import lines_of, the_line, told
from tests.core.timetable.laid import at, heating, laid, washing
from tests.support.builders import (
    a_bench,
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
    burners,
    hands_off,
)

ANN, BEN = "ann", "ben"


# ---- fires


def over_coals(*more: object, **fire: object) -> Plan:
    step = a_step("leeks.grill", minutes=20, attention=Attention.TENDED, uses=(a_use(StationKind.GRILL),))
    grate = a_fire(**{"name": "Charcoal grill", **fire})
    return a_bench(step, *more, kitchen=a_kitchen(stations=(grate, *burners(2)), cooks=2))


def lit(start: str, end: str, cook: str | None = ANN):
    return heating("grill", at(start), at(end), 0, cook)


def test_a_fire_is_lit_not_switched_on() -> None:
    """25 min until ready, 5 of them a cook's; from 19:00 it is good for 60."""
    plan = over_coals()
    timetable = laid(plan, {"leeks.grill": at("19:05")}, heatings=[lit("18:35", "19:00", BEN)])
    assert told(plan, timetable) == [
        ("18:35", "LIGHT", "Light the charcoal grill"),
        ("19:05", "ON", "Grill"),
        ("19:24", "OFF", "Leeks"),
    ]
    line = next(each for each in lines_of(plan, timetable) if each.act is Act.LIGHT)
    assert line.details == ("5 min to lay and light", "ready at 19:00", "good until 20:00", "for Leeks")
    assert (line.who, line.minutes, line.station, line.begins) == ("Ben", 5, "grill", False)
    assert "°C" not in " ".join([line.does, *line.details])


@pytest.mark.parametrize(
    ("fire", "details", "minutes"),
    [
        ({"burns": None}, ("5 min to lay and light", "ready at 19:00", "for Leeks"), 5),
        ({"laying": 40}, ("25 min to lay and light", "ready at 19:00", "good until 20:00", "for Leeks"), 25),
        ({"laying": 0}, ("ready at 19:00", "good until 20:00", "for Leeks"), 0),
    ],
)
def test_what_is_said_of_other_fires(fire: dict, details: tuple[str, ...], minutes: int) -> None:
    plan = over_coals(**fire)
    timetable = laid(plan, {"leeks.grill": at("19:05")}, heatings=[lit("18:35", "19:00")])
    line = next(each for each in lines_of(plan, timetable) if each.act is Act.LIGHT)
    assert (line.details, line.minutes) == (details, minutes)


def test_a_fire_that_needs_no_lighting_takes_nobody() -> None:
    plan = over_coals(name="Gas ring", lighting=0)
    timetable = laid(plan, {"leeks.grill": at("19:05")}, heatings=[lit("19:00", "19:00", None)])
    line = next(each for each in lines_of(plan, timetable) if each.act is Act.LIGHT)
    assert (line.does, line.who, line.minutes) == ("Light the gas ring", "", 0)
    assert line.details[:2] == ("ready at once", "good until 20:00")


def test_nobody_for_a_fire_is_said() -> None:
    plan = over_coals()
    timetable = laid(plan, {"leeks.grill": at("19:05")}, heatings=[lit("18:35", "19:00", None)])
    assert next(each.who for each in lines_of(plan, timetable) if each.act is Act.LIGHT) == "nobody free"


def test_two_fires_are_numbered_each_with_what_it_is_for() -> None:
    ribs = hands_off("ribs.grill", 50, uses=(a_use(StationKind.GRILL),))
    plan = over_coals(ribs, fires=2)
    fires = [lit("16:35", "17:00"), lit("18:35", "19:00")]
    timetable = laid(plan, {"ribs.grill": at("17:00"), "leeks.grill": at("19:05")}, heatings=fires)
    assert not [each for each in clashes(plan, timetable) if each.stations]
    found = [each for each in lines_of(plan, timetable) if each.act is Act.LIGHT]
    assert [(line.clock, line.does, line.details[-1]) for line in found] == [
        ("16:35", "Light the charcoal grill, fire 1 of 2", "for Ribs"),
        ("18:35", "Light the charcoal grill, fire 2 of 2", "for Leeks"),
    ]


def test_a_fire_with_settings_is_neither_switched_on_nor_off() -> None:
    """One that was lit anew does not change from the setting of the one before; within one fire it does."""
    grate = a_fire(name="Charcoal grill", fires=2, heater=Heater(highest=300, from_cold=(), up=5, down=5))
    bakes = [
        hands_off(f"{dish}.grill", 20, uses=(a_use(StationKind.GRILL, heat=heat),))
        for dish, heat in (("ribs", 200), ("leeks", 260), ("corn", 240))
    ]
    plan = a_bench(*bakes, kitchen=a_kitchen(stations=(grate,)))
    starts = {"ribs.grill": at("17:00"), "leeks.grill": at("18:40"), "corn.grill": at("19:10")}
    timetable = laid(plan, starts, heatings=[lit("16:35", "17:00"), lit("18:10", "18:35")])
    heats = [each for each in lines_of(plan, timetable) if each.station == "grill"]
    assert [(each.clock, each.act.value, each.does, each.details[:1]) for each in heats] == [
        ("16:35", "LIGHT", "Light the charcoal grill, fire 1 of 2", ("5 min to lay and light",)),
        ("18:10", "LIGHT", "Light the charcoal grill, fire 2 of 2", ("5 min to lay and light",)),
        ("19:00", "SET", "Charcoal grill to 240 °C", ("from 260 °C, there by 19:04",)),
    ]


def test_coals_have_their_caution_where_there_is_something_to_light() -> None:
    said = run_sheet(over_coals(), Timetable()).cautions
    assert any("carbon monoxide" in each and "common practice" in each for each in said)
    indoors = a_bench(a_step("soup.boil"), kitchen=a_kitchen(stations=(an_oven(), *burners(2))))
    assert not any("carbon monoxide" in each for each in run_sheet(indoors, Timetable()).cautions)


# ---- parts


def in_parts(*hands: Hand, **fields: object) -> tuple[Plan, Timetable]:
    """Potatoes peeled in pieces between 17:00 and 18:00, then boiled."""
    peel = a_step("mash.peel", "Peel potatoes", 30, least_piece=10, vessels=(VesselUse("bowl"),), note="thin", **fields)
    boil = hands_off("mash.boil", 20, uses=(a_use(StationKind.BURNER),))
    plan = a_bench(
        peel,
        boil,
        links=(a_link(peel.id, boil.id, most=60),),
        kitchen=a_kitchen(cooks=2, vessels=(a_vessel("bowl"),)),
    )
    timetable = laid(plan, {peel.id: at("17:00"), boil.id: at("18:10")})
    first, *others = timetable.placed
    return plan, replace(timetable, placed=(replace(first, length=60, hands=hands), *others))


def test_a_step_in_parts_has_a_line_for_each() -> None:
    hands = (Hand(at("17:45"), 15, BEN), Hand(at("17:00"), 15, ANN))  # in no order
    plan, timetable = in_parts(*hands, doneness=Doneness("all white"))
    peels = [each for each in lines_of(plan, timetable) if each.step == "mash.peel"]
    assert [(each.clock, each.act, each.does, each.who, each.minutes, each.begins) for each in peels] == [
        ("17:00", Act.DO, "Peel potatoes, part 1 of 2", "Ann", 15, True),
        ("17:45", Act.MORE, "Peel potatoes, part 2 of 2", "Ben", 15, False),
    ]
    assert peels[0].details == ("with Bowl", "15 min, until 17:15", "go on at 17:45, 15 min left", "note: thin")
    assert peels[1].details == (
        "15 min, until 18:00",
        "done when: all white",
        "then waits on the counter until 18:10, can wait to 19:00",
    )
    require_every_load_once(plan, timetable)


def test_one_piece_is_no_part() -> None:
    plan, timetable = in_parts(Hand(at("17:00"), 60, ANN))
    assert the_line(plan, timetable, Act.DO).does == "Peel potatoes"
    assert not [each for each in lines_of(plan, timetable) if each.act is Act.MORE]


def test_parts_of_a_load_say_which_load() -> None:
    hands = (Hand(at("17:00"), 15, ANN), Hand(at("17:45"), 15, None))
    plan, timetable = in_parts(*hands, loads=Loads(12, 6))
    peels = [each for each in lines_of(plan, timetable) if each.step == "mash.peel"]
    assert [each.does for each in peels] == [
        "Peel potatoes (load 1 of 2), part 1 of 2",
        "Peel potatoes (load 1 of 2), part 2 of 2",
    ]
    assert peels[1].who == "nobody free"


def test_only_what_may_be_cut_has_parts() -> None:
    hands = (Hand(0, 5, ANN), Hand(10, 5, ANN))
    placed = Placed(StepId("mash.peel"), 0, 15, hands=hands)
    assert parts_of(a_step("mash.peel", least_piece=5), placed) == hands
    assert parts_of(a_step("mash.peel"), placed) == ()
    assert parts_of(a_step("mash.peel", least_piece=5, hands=2), placed) == ()
    assert parts_of(a_step("mash.peel", least_piece=5), replace(placed, hands=hands[:1])) == ()


# ---- ways


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Thaw in cold water", "Thaw in cold water"),
        ("in cold water", "Thaw the bird: in cold water"),
        ("thaw", "Thaw the bird: thaw"),
        ("  ", "Thaw the bird: other way, number 1"),
    ],
)
def test_a_way_is_named(name: str, said: str) -> None:
    step = a_step("bird.thaw", "Thaw the bird", alternatives=(Alternative(name, Span.of(5)),))
    assert [done_as(step, way) for way in (0, 1, 2)] == ["Thaw the bird", said, "Thaw the bird"]


def a_bake_or_a_grilling() -> Plan:
    """Baked 45 min at 180 °C, or 10 to 20 over the grill, which takes hands to put on and off."""
    grilled = Alternative("over the grill", Span(10, 18, 20), (a_use(StationKind.GRILL, 2),))
    bake = a_step("leeks.bake", "Bake", 45, attention=Attention.TENDED, uses=(at_oven(180),), alternatives=(grilled,))
    serve = a_step("leeks.serve", minutes=5)
    dish = a_dish("leeks", bake, serve)
    return a_plan(dish, links=(a_link(bake.id, serve.id, most=30),), manner="likely")


def test_the_way_placed_gives_words_places_hands_and_looking() -> None:
    plan = a_bake_or_a_grilling()
    other = laid(plan, {"leeks.bake": at("19:00"), "leeks.serve": at("19:18")}, ways={"leeks.bake": 1})
    assert [each for each in told(plan, other) if each[1] != "DO"] == [
        ("19:00", "ON", "Bake: over the grill"),
        ("19:17", "OFF", "Leeks"),
    ]
    assert the_line(plan, other, Act.ON).details == ("Grill, 2 grate places", "18 min, until 19:18, look from 19:10")
    assert the_line(plan, other, Act.OFF).details[0] == "Bake: over the grill"
    written = laid(plan, {"leeks.bake": at("18:00"), "leeks.serve": at("18:45")})
    assert the_line(plan, written, Act.IN).does == "Bake"


def test_waits_count_from_the_spread_of_the_way_placed() -> None:
    """Reserved 20 for 10 to 20: done by 18:10 at the soonest, and to be used by 18:40."""
    plan = a_bake_or_a_grilling()
    plan = replace(plan, decisions=replace(plan.decisions, manner=Manner.SAFE))
    timetable = laid(plan, {"leeks.bake": at("18:00"), "leeks.serve": at("18:30")}, ways={"leeks.bake": 1})
    assert timetable.placed[0].length == 20
    assert the_line(plan, timetable, Act.OFF).details[-1] == "waits on the counter until 18:30, can wait to 18:40"


# ---- full ovens


def test_a_full_oven_is_why_it_takes_longer_and_is_looked_at_later() -> None:
    """40 min, 25 % more when full: 50; the quick length of 30 becomes 38 (37.5 rounded up)."""
    oven = an_oven(heater=Heater(full=25))
    one = a_step("pie.bake", minutes=(30, 40, 50), attention=Attention.TENDED, uses=(at_oven(180),))
    other = hands_off("tart.bake", 40, uses=(at_oven(180),))
    plan = a_bench(one, other, kitchen=a_kitchen(oven=oven), manner="likely")
    timetable = laid(plan, {one.id: at("17:00"), other.id: at("17:00")})
    longer = replace(timetable, placed=tuple(replace(each, length=50) for each in timetable.placed))
    said = next(each for each in lines_of(plan, longer) if each.step == one.id and each.begins)
    assert said.details[1] == "50 min, until 17:50, 10 min more as it is full, look from 17:38"
    short = next(each for each in lines_of(plan, timetable) if each.step == one.id and each.begins)
    assert short.details[1] == "40 min, until 17:40, look from 17:30", "a length that is wrong is not explained"


# ---- washing up


def two_in_one_pan(count: int = 1, **vessel: object) -> Plan:
    steps = [a_step(f"{dish}.fry", minutes=10, vessels=(VesselUse("pan", count),)) for dish in ("fish", "egg", "ham")]
    pan = a_vessel("pan", count, name="Frying pan", size="30 cm", **vessel)
    return a_bench(*steps, kitchen=a_kitchen(cooks=2, vessels=(pan,)))


def washed(plan: Plan, *washings: object, **starts: str) -> list[Line]:
    where = {f"{dish}.fry": at(start) for dish, start in starts.items()}
    timetable = laid(plan, where, washings=washings)
    require_every_load_once(plan, timetable)
    return [each for each in lines_of(plan, timetable) if each.act is Act.WASH]


def test_washing_says_what_who_and_for_what() -> None:
    plan = two_in_one_pan()
    found = washed(
        plan,
        washing("pan", at("18:10"), "fish.fry", cook=BEN),
        washing("pan", at("18:40"), "egg.fry", cook=None),
        fish="18:00",
        egg="18:30",
        ham="19:00",
    )
    assert [(each.clock, each.does, each.details, each.who, each.minutes) for each in found] == [
        ("18:10", "Wash the frying pan, 30 cm", ("5 min, until 18:15", "wanted at 18:30 for: Egg, Fry"), "Ben", 5),
        ("18:40", found[0].does, ("5 min, until 18:45", "wanted at 19:00 for: Ham, Fry"), "nobody free", 5),
    ]
    assert {each.vessel for each in found} == {"pan"}


def test_each_washing_is_for_a_use_of_its_own() -> None:
    """Two washed in the same minute, one after the other; the last use of all needs none."""
    plan = two_in_one_pan()
    wanted = [washing("pan", at("18:10"), "fish.fry"), washing("pan", at("18:10"), "egg.fry", cook=BEN)]
    found = washed(plan, *wanted, fish="18:00", egg="18:00", ham="19:00")
    assert [each.details[1:] for each in found] == [("wanted at 19:00 for: Ham, Fry",), ()]


def test_several_vessels_and_machines() -> None:
    found = washed(two_in_one_pan(2), washing("pan", at("18:10"), "fish.fry"), fish="18:00", egg="18:30")
    assert found[0].does == "Wash 2\N{NO-BREAK SPACE}× Frying pan, 30 cm"
    machine = two_in_one_pan(washing=40, by_hand=False)
    (line,) = washed(machine, washing("pan", at("18:10"), "fish.fry", 40, None), fish="18:00", egg="19:00")
    assert (line.does, line.who, line.minutes) == ("Put the frying pan, 30 cm to wash", "", 0)
    assert line.details[0] == "40 min, until 18:50, takes nobody"


# ---- on paper


def test_all_of_it_is_printed_once() -> None:
    """Every line of a plan with a fire, parts, another way and washing is read back from the PDF, each once."""
    peel = a_step("mash.peel", "Peel potatoes", 30, least_piece=10, vessels=(VesselUse("bowl"),))
    water = Alternative("Thaw in cold water", Span.of(60))
    bird = hands_off("bird.thaw", 300, does="Thaw the bird", alternatives=(water,))
    grill = a_step("bird.grill", "Grill the bird", 40, attention=Attention.TENDED, uses=(a_use(StationKind.GRILL),))
    rub = a_step("bird.rub", "Rub with salt", 10, vessels=(VesselUse("bowl"),))
    vessels = (a_vessel("bowl", name="Big bowl"),)
    kitchen = a_kitchen(stations=(a_fire(name="Charcoal grill"),), cooks=2, vessels=vessels)
    plan = a_bench(peel, bird, rub, grill, kitchen=kitchen)
    timetable = laid(
        plan,
        {peel.id: at("16:00"), bird.id: at("16:30"), rub.id: at("18:00"), grill.id: at("18:40")},
        ways={bird.id: 1},
        heatings=[lit("18:15", "18:40")],
        washings=[washing("bowl", at("17:30"), "mash.peel")],
    )
    first, *others = timetable.placed
    parts = (Hand(at("16:00"), 10, ANN), Hand(at("17:00"), 20, ANN))
    timetable = replace(timetable, placed=(replace(first, length=80, hands=parts), *others))
    assert clashes(plan, timetable) == ()
    sheet = run_sheet(plan, timetable)
    text = squeezed(" ".join(pages(as_pdf(sheet))))
    for words in (
        "16:00T-3:30Peel potatoes, part 1 of 2",
        "17:00T-2:30GO ONPeel potatoes, part 2 of 2",
        "16:30T-3:00STARTThaw in cold water",
        "17:30T-2:00Wash the big bowl",
        "18:15T-1:15Light the charcoal grill",
        "18:40T-0:50ONGrill the bird",
    ):
        assert text.count(squeezed(words)) == 1, words
