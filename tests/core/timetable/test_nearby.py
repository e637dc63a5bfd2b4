"""The surroundings of a step stay as small however many dishes there are."""

from __future__ import annotations

from core.plan.ids import StationId, StepId
from core.plan.kitchen import Station, StationKind
from core.timetable.clashes import Checker
from core.timetable.nearby import Moved, Nearby
from core.timetable.timetable import Hand, Placed, Spot, Timetable
from tests.support.builders import a_cook, a_dish, a_kitchen, a_link, a_plan, a_step, a_use, hands_off

STILL = Moved({}, {}, {}, {})
EACH = 6
"""Dishes that share a burner and a cook."""


def banquet(groups: int):
    """Return a plan of so many groups of dishes, each with its own burner and cook, and its timetable."""
    dishes, links, placed, stations, cooks = [], [], [], [], []
    for group in range(groups):
        burner, cook = f"burner-{group}", f"cook-{group}"
        stations.append(Station(StationId(burner), burner, StationKind.BURNER, 1))
        cooks.append(a_cook(cook))
        for number in range(EACH):
            name = f"dish-{group}-{number}"
            chop = a_step(f"{name}.chop", "Chop", 5)
            boil = hands_off(f"{name}.boil", 10, does="Boil", uses=(a_use("burner"),))
            dishes.append(a_dish(name, chop, boil, name=name))
            links.append(a_link(chop.id, boil.id))
            at = -20 * (number + 1)
            placed.append(Placed(chop.id, at - 8, 5, hands=(Hand(at - 8, 5, cook),)))
            hands = (Hand(at, 1, cook), Hand(at + 9, 1, cook))
            placed.append(Placed(boil.id, at, 10, spots=(Spot(StationId(burner)),), hands=hands))
    kitchen = a_kitchen(stations=tuple(stations), cooks=tuple(cooks))
    return a_plan(*dishes, links=tuple(links), kitchen=kitchen), Timetable(tuple(placed))


def test_a_step_meets_its_own_group_only():
    step = StepId("dish-0-2.boil")
    found = {}
    for groups in (2, 12):
        plan, timetable = banquet(groups)
        part = Nearby(plan, timetable).around(STILL, {step})
        found[groups] = [each.key for each in part.placed]
        assert Checker(plan).clashes(part, {step}) == Checker(plan).clashes(timetable, {step})
    assert found[2] == found[12]
    assert all(key[0].startswith("dish-0-") for key in found[12])
    assert len(found[12]) <= 2 * EACH


def test_a_place_alone_is_what_stands_there():
    plan, timetable = banquet(3)
    place = Nearby(plan, timetable).at(StationId("burner-1"), STILL)
    assert {each.step for each in place.placed} == {f"dish-1-{number}.boil" for number in range(EACH)}


def test_who_moves_away_is_met_where_they_go():
    plan, timetable = banquet(2)
    boil = timetable.at["dish-0-0.boil", 0]
    there = Placed(boil.step, boil.start, boil.length, spots=(Spot(StationId("burner-1")),), hands=boil.hands)
    part = Nearby(plan, timetable).around(Moved({boil.key: there}, {}, {}, {}), {boil.step})
    assert "dish-1-0.boil" in {each.step for each in part.placed}
    assert [clash.kind.value for clash in Checker(plan).clashes(part, {boil.step})].count("station over-full") == 1
