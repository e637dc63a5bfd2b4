"""A day played through: limits broken, how late, and the chain that decides."""

import pytest

from core.arrange.chances_arcs import Because
from core.arrange.chances_limits import LimitKind
from core.arrange.late_played import ChainLink, played
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.step import Keep
from core.timetable.timetable import Heating
from tests.core.timetable.laid import laid
from tests.support.builders import (
    GRILL,
    a_bench,
    a_dish,
    a_fire,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    at_oven,
    hands_off,
)


def by(plan, timetable, lengths, **more):
    day = played(plan, timetable, {(StepId(step), 0): minutes for step, minutes in lengths.items()}, **more)
    return {(each.kind, each.step, each.by) for each in day.broken}


def test_a_wait_is_broken_by_the_minute():
    plan = a_bench(hands_off("a.boil", 30), hands_off("a.mash", 5), links=(a_link("a.boil", "a.mash", 0, 10),))
    timetable = laid(plan, {"a.boil": -40, "a.mash": -5})
    assert by(plan, timetable, {"a.boil": 25}) == set()
    assert by(plan, timetable, {"a.boil": 24}) == {(LimitKind.WAIT, "a.boil", 1)}


@pytest.mark.parametrize(("kind", "quick"), [(LinkKind.START_TO_START, 0), (LinkKind.END_TO_END, 6)])
def test_waits_of_starts_and_ends(kind, quick):
    """Both start together, or end together; the second's end then comes 6 min sooner, 6 of its 5 lost."""
    plan = a_bench(
        hands_off("a.one", 30), hands_off("a.two", 30), links=(a_link("a.one", "a.two", -5, 5, kind=kind),)
    )
    timetable = laid(plan, {"a.one": -30, "a.two": -30})
    expected = {(LimitKind.WAIT, "a.one", 1)} if quick else set()
    assert by(plan, timetable, {"a.one": 24}) == expected


def test_food_that_is_quick_keeps_longer_and_waits_for_what_is_late():
    plan = a_plan(
        a_dish("egg", hands_off("egg.fry", 10), keep=Keep(8)),
        a_dish("ham", hands_off("ham.fry", 10)),
    )
    timetable = laid(plan, {"egg.fry": -15, "ham.fry": -10})
    assert by(plan, timetable, {"egg.fry": 6}) == {(LimitKind.KEEP, "egg.fry", 1)}
    assert by(plan, timetable, {"ham.fry": 14}) == {(LimitKind.KEEP, "egg.fry", 1)}
    assert by(plan, timetable, {"ham.fry": 13}) == set()


def test_done_by_and_a_fire_that_is_spent():
    use = (a_use(StationKind.GRILL),)
    plan = a_plan(
        a_dish("leek", hands_off("leek.grill", 20, uses=use), hands_off("leek.trim", 5, latest=-100)),
        kitchen=a_kitchen(stations=(a_fire(),)),
    )
    fire = Heating(GRILL, -105, -80, 0, None)
    timetable = laid(plan, {"leek.grill": -45, "leek.trim": -110}, heatings=(fire,), cooks={"leek.grill": None})
    assert by(plan, timetable, {"leek.grill": 25, "leek.trim": 10}) == set()
    assert by(plan, timetable, {"leek.grill": 27, "leek.trim": 13}) == {
        (LimitKind.FIRE, "leek.grill", 2),
        (LimitKind.LATEST, "leek.trim", 3),
    }


def test_the_chain_that_decides_goes_back_to_what_began_as_planned():
    bake = hands_off("pie.bake", 20, uses=(at_oven(210),))
    plan = a_plan(
        a_dish("bun", hands_off("bun.bake", 30, uses=(at_oven(160, units=2),))),
        a_dish("pie", a_step("pie.mix", minutes=20), bake, a_step("pie.cut", minutes=5)),
        links=(a_link("pie.mix", "pie.bake"), a_link("pie.bake", "pie.cut")),
    )
    timetable = laid(
        plan,
        {"bun.bake": -80, "pie.mix": -70, "pie.bake": -40, "pie.cut": -10},
        cooks={"bun.bake": None, "pie.bake": None},
    )
    day = played(plan, timetable, {(StepId("bun.bake"), 0): 60})
    assert (day.late, day.dish) == (15, "pie")
    assert day.chain == (
        ChainLink(StepId("bun.bake"), 0, None),
        ChainLink(StepId("pie.bake"), 0, Because.HEAT),
        ChainLink(StepId("pie.cut"), 0, Because.LINK),
    )
    mixed = played(plan, timetable, {(StepId("pie.mix"), 0): 60})
    assert (mixed.late, [each.step for each in mixed.chain]) == (15, ["pie.mix", "pie.bake", "pie.cut"])


def test_lengths_of_stations_of_a_kind_only():
    plan = a_bench(
        hands_off("a.bake", (20, 30, 50), uses=(at_oven(180),)),
        hands_off("b.boil", (5, 10, 15), uses=(a_use(StationKind.BURNER),)),
        manner="likely",
    )
    timetable = laid(plan, {"a.bake": -60, "b.boil": -60}, cooks={"a.bake": None})
    for lengths, ends in (("low", (-40, -50)), ("high", (-10, -50)), ("likely", (-30, -50))):
        day = played(plan, timetable, lengths, {StationKind.OVEN})
        assert tuple(day.at(StepId(step)).end for step in ("a.bake", "b.boil")) == ends
    assert played(plan, timetable, "high").at(StepId("b.boil")).end == -45
