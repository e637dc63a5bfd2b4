"""Copies for one cook or one station, read back by poppler: all of theirs, nothing of another's alone; together all."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache

import pytest

from core.plan.kitchen import HEATED, StationKind
from core.sheets.kinds import SheetKind
from core.sheets.printing import sheet_pdf
from core.sheets.whose import whose
from tests.core.sheets.feasts import FEASTS, printed
from tests.core.sheets.paper_rows import Row, prep_rows, run_rows, station_rows
from tests.core.sheets.reading import squeezed
from tests.core.sheets.told import Told, all_told, clock_said, day_said, tminus_said

CASES = ["harvest", "Berlin, autumn"]
Key = tuple[str, str, str]


@cache
def copy(kind: SheetKind, feast: str, of: str) -> bytes:
    plan, timetable = FEASTS[feast]()
    return sheet_pdf(kind, plan, timetable, (), of=whose(plan, of), found=())


def timed(rows: list[Row]) -> list[Row]:
    return [row for row in rows if row.second != "SERVE"]


def key_of(feast: str, each: Told) -> Key:
    plan, _timetable = FEASTS[feast]()
    return day_said(plan, each.at), clock_said(plan, each.at), tminus_said(each.at)


def told_by(feast: str, rows: list[Row]) -> list[Told]:
    """Return what rows tell: each row is one thing that must or may be told, and none twice."""
    left = sorted(all_told(feast), key=lambda one: (not one.must, -len(one.opens)))
    found = []
    for row in rows:
        own = [
            each
            for each in left
            if key_of(feast, each) == (row.day, row.clock, row.second)
            and re.match(each.opens, row.text)
            and all(squeezed(text).casefold() in row.text.casefold() for text in each.holds)
        ]
        assert own, row
        found.append(own[0])
        left.remove(own[0])
    return found


@pytest.mark.parametrize("feast", CASES)
def test_cooks_copies_of_the_run_sheet(feast: str) -> None:
    """Each has all that the cook's hands do and what takes nobody's, nothing that only others do; every serving."""
    plan, _timetable = FEASTS[feast]()
    whole = run_rows(printed(SheetKind.RUN, feast))
    everything = told_by(feast, timed(whole))
    union: list[Told] = []
    cooks = plan.kitchen.cooks[-1:] if feast == "harvest" else plan.kitchen.cooks  # all of its cooks: test_whose_copy
    for cook in cooks:
        rows = run_rows(copy(SheetKind.RUN, feast, cook.name))
        own = told_by(feast, timed(rows))
        union += own
        assert all(not each.cooks or cook.id in each.cooks for each in own)
        assert all(each in own for each in everything if cook.id in each.cooks)
        assert 3 < len(own) < len(everything)
        served = [(row.clock, row.text) for row in rows if row.second == "SERVE"]
        assert [clock for clock, _text in served] == [row.clock for row in whole if row.second == "SERVE"]
        for dish in plan.menu.dishes:
            count = sum(text.count(squeezed(dish.code + dish.name)) for _clock, text in served)
            assert count == dish.served, dish.name
    assert cooks != plan.kitchen.cooks or {id(each) for each in union} == {id(each) for each in everything}


@pytest.mark.parametrize("feast", CASES[1:])
def test_cooks_copies_of_the_prep_list(feast: str) -> None:
    plan, _timetable = FEASTS[feast]()
    whole = prep_rows(printed(SheetKind.PREP, feast))
    begun = [each for each in all_told(feast) if each.begins is not None]
    union: Counter[tuple[str, ...]] = Counter()
    for cook in plan.kitchen.cooks:
        rows = prep_rows(copy(SheetKind.PREP, feast, cook.name))
        for row in rows:
            own = [each for each in begun if key_of(feast, each) == (row.day, row.clock, row.second)]
            assert any(not each.cooks or cook.id in each.cooks for each in own), row
        union |= Counter((row.day, row.clock, row.second, row.text[:12]) for row in rows)
    assert union == Counter((row.day, row.clock, row.second, row.text[:12]) for row in whole)


@pytest.mark.parametrize("feast", CASES[1:])
def test_stations_copies_of_the_run_sheet(feast: str) -> None:
    """Each has all that stands there or is set there, nothing that does not; together all that stands anywhere."""
    plan, _timetable = FEASTS[feast]()
    everything = told_by(feast, timed(run_rows(printed(SheetKind.RUN, feast))))
    union: list[Told] = []
    used = {station for each in everything for station in each.stations}
    for station in plan.kitchen.stations:
        if station.id not in used:
            continue
        own = told_by(feast, timed(run_rows(copy(SheetKind.RUN, feast, station.id))))
        assert all(station.id in each.stations for each in own), station.name
        assert all(each in own for each in everything if station.id in each.stations)
        union += own
    assert {id(each) for each in union} == {id(each) for each in everything if each.stations}


@pytest.mark.parametrize("feast", CASES[1:])
def test_stations_copies_of_the_station_sheet(feast: str) -> None:
    """One station's copy is its own part of the sheet; the burners have theirs together."""
    plan, _timetable = FEASTS[feast]()
    hot = [each.name for each in plan.kitchen.stations if each.kind in HEATED]
    places = [*hot, "Burners"]
    whole = station_rows(printed(SheetKind.STATION, feast), places)
    assert any(each.kind is StationKind.BURNER for each in plan.kitchen.stations)
    union: list[Row] = []
    for name in places:
        rows = station_rows(copy(SheetKind.STATION, feast, name.lower()), places)
        wanted = [row for row in whole if row.place == name]
        assert [(row.day, row.clock, row.second, row.length) for row in rows] == [
            (row.day, row.clock, row.second, row.length) for row in wanted
        ]
        assert {row.place for row in rows} == ({name} if wanted else set())
        union += rows
    assert len(union) == len(whole) > 4
