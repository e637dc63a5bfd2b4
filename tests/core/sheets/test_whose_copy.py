"""A copy for one cook or one station holds its own lines, what names nobody, and every serving."""

from __future__ import annotations

import pytest

from core.measures.refusal import Refusal
from core.plan.kitchen import StationKind
from core.sheets import Act, Line, run_sheet
from core.sheets.prep_list import prep_list
from core.sheets.run_sheet import day_lines
from core.sheets.station_sheet import station_sheets
from core.sheets.whose import EVERYBODY, Whose, whose
from tests.core.sheets.feasts import harvest

COMES = {"Able helper": -270, "Novice": -120}
"""Minutes before 19:30 at which those come who are not there all along: 15:00 and 17:30."""


def lines_for(of: Whose) -> list[Line]:
    plan, timetable = harvest()
    return [line for day in run_sheet(plan, timetable, (), of=of).days for line in day.lines]


@pytest.mark.parametrize("name", ["Novice", "  novice ", "novice"])
def test_a_cook_is_found_by_name_or_id(name: str) -> None:
    plan, _timetable = harvest()
    assert whose(plan, name) == Whose("Novice", cook=plan.kitchen.cooks[2].id)


def test_a_station_is_found_by_name_id_or_kind() -> None:
    plan, _timetable = harvest()
    assert whose(plan, "oven").stations == {"oven"}
    assert whose(plan, "burner b1, 3.0 KW").stations == {"b1"}
    burners = whose(plan, "burners")
    assert (burners.name, burners.stations) == ("Burners", {"b1", "b2", "b3", "b4"})
    assert whose(plan, " ") == EVERYBODY


def test_a_name_that_is_nobodys_is_refused_with_those_that_are_there() -> None:
    plan, _timetable = harvest()
    with pytest.raises(Refusal, match=r'called "Bob"\. There are "Head cook", "Able helper", "Novice", "Oven"'):
        whose(plan, "Bob")


def test_the_copies_of_all_cooks_leave_nothing_out() -> None:
    plan, timetable = harvest()
    everything = day_lines(plan, timetable)
    own = {cook.name: lines_for(whose(plan, cook.name)) for cook in plan.kitchen.cooks}
    for line in everything:
        having = {name for name, lines in own.items() if line in lines}
        named = {name for name in own if name in line.who.split(", ")}
        there = {"Head cook"} | {name for name, comes in COMES.items() if line.at >= comes}
        assert having == (set(own) if line.act is Act.SERVE else named or there), line
    assert len(own["Novice"]) < len(everything) / 2
    begins = {name: min(line.at for line in lines) for name, lines in own.items()}
    assert begins["Able helper"] >= COMES["Able helper"], "nobody is handed what is done before they come"


def test_a_stations_copy_is_what_stands_there() -> None:
    plan, timetable = harvest()
    for line in lines_for(whose(plan, "oven")):
        if line.act is Act.SERVE or line.station == "oven":
            continue
        assert line.step is not None
        assert any(spot.station == "oven" for spot in timetable.at[line.step, line.load].spots)
    assert sum(line.begins for line in lines_for(whose(plan, "oven"))) == 7


def test_a_prep_list_for_one_cook() -> None:
    plan, timetable = harvest()
    for name, named in (("Able helper", {"Able helper"}), ("Head cook", {"Head cook", ""})):
        days = prep_list(plan, timetable, whose(plan, name))
        assert {line.who for day in days for dish in day.dishes for line in dish.lines} == named


def test_one_stations_sheet_alone() -> None:
    plan, timetable = harvest()
    assert [each.name for each in station_sheets(plan, timetable)] == ["Oven", "Charcoal grill, 57 cm", "Burners"]
    assert [each.name for each in station_sheets(plan, timetable, whose(plan, "burner"))] == ["Burners"]
    (grill,) = station_sheets(plan, timetable, whose(plan, "grill"))
    own = {each.id for each in plan.kitchen.of_kind(StationKind.GRILL)}
    count = sum(any(spot.station in own for spot in each.spots) for each in timetable.placed)
    assert sum(line.act == "IN" for day in grill.days for line in day.lines) == count == 6
