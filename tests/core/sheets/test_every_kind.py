"""Every kind of sheet read back with another program (pypdf): what it must hold stands there once, at its true time."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from functools import cache

import pytest

from core.food.shopping import shopping
from core.food.speak_lists import to_buy
from core.measures.minutes import show_minutes
from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import COLD, HEATED, StationKind
from core.plan.plan import Plan
from core.plan.step import Attention, Step
from core.sheets.kinds import TITLES, SheetKind
from core.sheets.list_text import first_starts
from core.sheets.page import Page
from core.sheets.printing import sheet_pdf
from core.sheets.words import plain
from core.timetable.timetable import Placed, Timetable
from tests.core.sheets.feasts import HALL, WEEKNIGHT, counted_back, harvest
from tests.core.sheets.reading import on_the_wall, pages, squeezed
from tests.core.sheets.test_every_load import a_night_of_clock_change

FEASTS: dict[str, Callable[[], tuple[Plan, Timetable]]] = {
    "harvest": harvest,
    "weeknight": lambda: counted_back(WEEKNIGHT),
    "hall": lambda: counted_back(HALL),
    "clock change": a_night_of_clock_change,
}
PAGES = {
    "A4": Page(),
    "Letter across": Page("us-letter", landscape=True),
    "A4 dense": Page(dense=True),
}
CASES = [
    *((name, "A4") for name in FEASTS),
    ("harvest", "Letter across"),
    ("clock change", "A4 dense"),
    ("weeknight", "A4 dense"),
]
HOT = HEATED | {StationKind.BURNER}


@cache
def text(kind: SheetKind, name: str, page: str) -> str:
    """Return the text of a sheet without white space."""
    plan, timetable = FEASTS[name]()
    return squeezed(" ".join(pages(sheet_pdf(kind, plan, timetable, (), page=PAGES[page]))))


def clock(plan: Plan, offset: int) -> str:
    """Return the clock time as a pattern: the hour that comes twice may bear its zone."""
    at = on_the_wall(plan, offset)
    return rf"{at.hour:02}:{at.minute:02}(?:[A-Z]{{3}})?"


def kinds_of(plan: Plan, placed: Placed) -> set[StationKind]:
    return {plan.kitchen.station[spot.station].kind for spot in placed.spots}


def said(plan: Plan, step: Step, placed: Placed) -> str:
    count = meaning.load_count(plan.dish_of[step.id], step)
    load = f"(load {placed.load + 1} of {count})" if count > 1 else ""
    return re.escape(squeezed(plain(step.does) + load))


def require_once(whole: str, patterns: list[str]) -> None:
    """Find each pattern as often as it is asked for, and no more."""
    for pattern, times in Counter(patterns).items():
        assert len(re.findall(pattern, whole)) == times, pattern


@pytest.mark.parametrize(("name", "page"), CASES)
def test_run(name: str, page: str) -> None:
    plan, timetable = FEASTS[name]()
    rows = [
        rf"{clock(plan, each.start)}T[^A-Z]*?(?:IN|ON|START)?{said(plan, plan.steps[each.step], each)}"
        rf"(?!,part[2-9]).{{0,40}}?{re.escape(squeezed(plan.dish_of[each.step].name)[:6])}"
        for each in timetable.placed
    ]
    require_once(text(SheetKind.RUN, name, page), rows)
    assert len(rows) == len(timetable.placed) > 3


@pytest.mark.parametrize(("name", "page"), CASES)
def test_prep(name: str, page: str) -> None:
    """All of the days before; of the day itself what hands do off the heat, half an hour before its course."""
    plan, timetable = FEASTS[name]()
    wanted = []
    for each in timetable.placed:
        step, course = plan.steps[each.step], plan.dish_of[each.step].course
        throughout = [(hand.start, hand.minutes) for hand in meaning.hands_of(plan, step, each.length, each.way)]
        by_hand = step.attention is Attention.HANDS_ON or throughout == [(0, each.length)]
        early = on_the_wall(plan, each.start).date() < plan.plating.local.date()
        if early or (by_hand and not kinds_of(plan, each) & HOT and each.start < min(0, course) - 30):
            wanted.append(rf"{clock(plan, each.start)}T[^A-Z]*?{said(plan, step, each)}")
    assert len(wanted) > 1
    require_once(text(SheetKind.PREP, name, page), wanted)
    assert len(re.findall(r"\d\d:\d\d(?:[A-Z]{3})?T[-+]", text(SheetKind.PREP, name, page))) == len(wanted)


@pytest.mark.parametrize(("name", "page"), CASES)
def test_station(name: str, page: str) -> None:
    """In, out, how long, dish, what: of all that stands in heat or on a burner."""
    plan, timetable = FEASTS[name]()
    wanted = []
    for each in timetable.placed:
        if kinds_of(plan, each) & HOT:
            dish, length = plan.dish_of[each.step], squeezed(show_minutes(each.length))
            head = re.escape(squeezed(dish.code + dish.name)[:12])
            row = rf"{clock(plan, each.start)}(?:[A-Z][a-z]{{2}})?{clock(plan, each.end)}{length}{head}.{{0,60}}?"
            wanted.append(row + said(plan, plan.steps[each.step], each))
    require_once(text(SheetKind.STATION, name, page), wanted)
    assert wanted


@pytest.mark.parametrize(("name", "page"), CASES)
def test_plating(name: str, page: str) -> None:
    """Of each course's last half hour every load that begins in it, and every dish that goes out."""
    plan, timetable = FEASTS[name]()
    whole = text(SheetKind.PLATING, name, page)
    times = sorted({0, *(dish.course for dish in plan.menu.dishes if dish.served)})
    for each in timetable.placed:
        if any(course - 30 <= each.start <= course for course in times):
            row = rf"{clock(plan, each.start)}(?:IN|ON|START)?{said(plan, plan.steps[each.step], each)}"
            assert re.search(row, whole), row
    for dish in plan.menu.dishes:
        if dish.served:
            assert re.search(clock(plan, dish.course) + re.escape(squeezed(dish.code + dish.name)), whole)


@pytest.mark.parametrize("name", FEASTS)
def test_temperatures(name: str) -> None:
    """A reading for each core temperature of the plan, in the minute of its taking out or its end."""
    plan, timetable = FEASTS[name]()
    whole = text(SheetKind.TEMPERATURES, name, "A4")
    wanted = [each for each in timetable.placed if (plan.steps[each.step].doneness or _NONE).core is not None]
    for each in wanted:
        step, core = plan.steps[each.step], plan.steps[each.step].doneness.core  # type: ignore[union-attr]
        ends = {hand.start for hand in each.hands if hand.start + hand.minutes == each.end} | {each.end}
        found = [rf"{clock(plan, at)}[^:]*?{said(plan, step, each)[:40]}[^:]*?core{core}°C" for at in ends]
        assert sum(len(re.findall(row, whole)) for row in found) == 1, found
    assert name == "clock change" or wanted


class _None:
    core = None


_NONE = _None()


@pytest.mark.parametrize("name", ["harvest", "hall"])
def test_fridge(name: str) -> None:
    """All that comes to stand in a cold place is listed at its hour; what stood there already goes on standing."""
    plan, timetable = FEASTS[name]()
    whole = text(SheetKind.FRIDGE, name, "A4")
    cold = {each.id for each in plan.kitchen.stations if each.kind in COLD}
    spans: list[tuple[int, int, StepId]] = [
        (each.start, each.end, each.step) for each in timetable.placed if any(s.station in cold for s in each.spots)
    ]
    spans += [
        (each.start, each.end, each.before) for each in timetable.stays if any(s.station in cold for s in each.spots)
    ]
    begun = 0
    for start, end, step in spans:
        dish = plan.dish_of[step]
        goes_on = any(other[1] == start and plan.dish_of[other[2]] is dish for other in spans)
        if end > start and not goes_on:
            row = rf"{clock(plan, start)}(?:[A-Z][a-z]{{2}}(?:\d+[A-Z][a-z]{{2}})?)?\d\d:\d\d"
            assert re.search(row + re.escape(squeezed(dish.code + dish.name)), whole), (row, dish.name)
            begun += 1
    assert begun > 3


def test_order_has_every_item_once() -> None:
    plan, _timetable = harvest()
    whole = text(SheetKind.ORDER, "harvest", "A4")
    found = shopping(plan, first_starts(_timetable))
    bought = [squeezed(plain(to_buy(each.line))) for trip in found.trips for each in trip.purchases]
    assert len(bought) > 40
    for each in bought:
        assert each in whole
    items = {squeezed(each.item) for dish in plan.menu.dishes for each in dish.ingredients}
    assert all(item.casefold()[:-1] in whole.casefold() for item in items)


def test_pull_has_every_vessel_and_every_dish() -> None:
    plan, _timetable = harvest()
    whole = text(SheetKind.PULL, "harvest", "A4")
    for vessel in plan.kitchen.vessels:
        assert squeezed(f"of {vessel.count}{vessel.name}") in whole
    assert whole.count("SatSat") == 0
    assert whole.count(squeezed("Cold platter on the table")) == 1


def test_menu_has_every_dish_once_and_no_guest() -> None:
    plan, _timetable = harvest()
    (page,) = pages(sheet_pdf(SheetKind.MENU, plan, None))
    for dish in plan.menu.dishes:
        assert page.count(dish.name) == (1 if dish.served and dish.id != "table" else 0), dish.name
    for guest in plan.menu.guests:
        assert guest.name not in page
    assert "contains fish, milk" in page
    assert "please ask" in page
    (two,) = pages(sheet_pdf(SheetKind.MENU, plan, None, page=Page(landscape=True)))
    assert two.count("Potato and celeriac gratin") == 2


def test_labels_for_what_waits_in_the_cold() -> None:
    plan, timetable = harvest()
    whole = text(SheetKind.LABELS, "harvest", "A4")
    cold = {each.id for each in plan.kitchen.stations if each.kind in COLD}
    long = [
        each
        for each in (*timetable.placed, *timetable.stays)
        if any(spot.station in cold for spot in each.spots) and each.end - each.start >= 120
    ]
    assert len(long) > 12
    for each in long:
        step = each.step if isinstance(each, Placed) else each.before
        dish = plan.dish_of[step]
        assert squeezed(f"{dish.code} {dish.name}")[:20] in whole
    assert whole.count("made") >= 12
    assert whole.count("RAW") == 2
    assert "useby" in whole


@pytest.mark.parametrize("kind", SheetKind)
def test_every_page_says_what_it_is_and_of_how_many(kind: SheetKind) -> None:
    plan, timetable = harvest()
    found = pages(sheet_pdf(kind, plan, timetable, (), page=Page(printed="made 25 Sep 2026, 14:02")))
    if kind is SheetKind.MENU:
        return
    for number, page in enumerate(found, 1):
        assert page.startswith("Harvest supper")
        assert page.endswith(f"made 25 Sep 2026, 14:02 page {number} of {len(found)}")
        assert kind is SheetKind.RUN or TITLES[kind] in page


@pytest.mark.parametrize("kind", SheetKind)
def test_nothing_placed_is_said(kind: SheetKind) -> None:
    plan, _timetable = harvest()
    whole = " ".join(pages(sheet_pdf(kind, plan, Timetable(), ())))
    assert "Harvest supper" in whole
    timeless = kind in {SheetKind.ORDER, SheetKind.MENU, SheetKind.PULL}
    assert timeless or re.search(r"[Nn]othing|no step|No step|No dish", whole), whole[:300]


@pytest.mark.parametrize("kind", SheetKind)
def test_the_same_sheet_gives_the_same_bytes(kind: SheetKind) -> None:
    plan, timetable = harvest()
    assert sheet_pdf(kind, plan, timetable, ()) == sheet_pdf(kind, plan, timetable, ())


@pytest.mark.parametrize("kind", SheetKind)
def test_clashes_are_counted_on_every_kind_that_has_times(kind: SheetKind) -> None:
    plan, timetable = counted_back(WEEKNIGHT)
    first = pages(sheet_pdf(kind, plan, timetable))[0]
    timeless = kind in {SheetKind.ORDER, SheetKind.MENU}
    assert ("Not everything meets yet: 8 clashes" in first) == (not timeless)
    assert ("The run sheet names them." in first) == (not timeless and kind is not SheetKind.RUN)
