"""Random kitchens, decisions and whole plans, all of them valid."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from functools import cache

from hypothesis import strategies as st

from core.measures.clock import Moment
from core.plan import meaning
from core.plan.check_decisions import station_fits
from core.plan.check_places import place_problems
from core.plan.check_problem import Family
from core.plan.decisions import Choice, Decisions, LengthOf, Order, Pin, Wishes
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.kitchen import COLD, HEATED, Cook, Heater, Kitchen, Shelf, Station, StationKind, Vessel, Window
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.plan.step import Manner
from tests.support.random_house import guests, stocks_of
from tests.support.random_menus import dishes, links_between, rarely, seldom
from tests.support.random_words import local_ids, names, several_ids

_DAY = 24 * 60
_ZONES = ("Europe/London", "America/New_York", "Asia/Kathmandu", "Australia/Lord_Howe", "UTC")


_RATES = st.sampled_from((0.5, 4.0, 5.0, 12.25))
_TEMPERATURES = st.sets(st.integers(60, 300), max_size=3)
_MAYBE_BURNS = rarely(st.integers(1, 120))
_MAYBE_COVERS = rarely(st.integers(1, 300))
_MAYBE_OPENS = rarely(st.integers(-9 * _DAY, -4 * _DAY))
_SHELVES = st.lists(st.builds(Shelf, st.integers(1, 3000), st.integers(1, 60), names()), max_size=3)
_STARTS = st.one_of(st.none(), st.integers(-3 * _DAY, _DAY))
_MANNERS = st.sampled_from(Manner)


@st.composite
def windows(draw: st.DrawFn) -> Window:
    """Draw a span of clock time, some past midnight."""
    begins = draw(st.integers(0, _DAY - 1))
    return Window(draw(st.integers(-1, 4)), begins, begins + draw(st.integers(1, _DAY)))


_FEW_WINDOWS = st.lists(windows(), max_size=2)
_SKILLS = st.lists(names(), max_size=2, unique=True)


@st.composite
def heaters(draw: st.DrawFn) -> Heater:
    """Draw how a station heats."""
    lowest = draw(st.integers(40, 120))
    temperatures = sorted(draw(_TEMPERATURES))
    minutes = sorted(
        draw(st.lists(st.integers(1, 60), min_size=len(temperatures), max_size=len(temperatures)))
    )
    return Heater(
        lowest,
        draw(st.integers(lowest, 320)),
        tuple(zip(temperatures, minutes, strict=True)),
        draw(_RATES),
        draw(_RATES),
        draw(st.integers(0, 60)),
        draw(st.integers(5, 30)),
        draw(st.sampled_from((0, 0, 10, 100))),
        draw(st.sampled_from((0, 0, 10, -60))),
    )


_MAYBE_HEATER = rarely(heaters())


@st.composite
def stations(draw: st.DrawFn, id: str, kind: StationKind) -> Station:  # noqa: A002  the word the field bears
    """Draw a station of a kind: a plain one as often as one with any of its features."""
    if draw(st.booleans()):
        return Station(StationId(id), draw(names()), kind, draw(st.integers(1, 4)))
    lighting = draw(st.integers(0, 40))
    shelves = draw(_SHELVES)
    return Station(
        StationId(id),
        draw(names()),
        kind,
        draw(st.integers(0 if kind is StationKind.ROOM else 1, 6)),
        tuple(shelves) if kind in COLD else (),
        draw(_MAYBE_HEATER) if kind in HEATED else None,
        draw(st.booleans()),
        draw(st.sampled_from(("kitchen", "terrace", "Garage №2"))),
        tuple(draw(_FEW_WINDOWS)),
        lighting,
        draw(_MAYBE_BURNS),
        draw(st.integers(0, lighting or 9)),
        draw(st.integers(1, 9)),
        wide=draw(st.sampled_from((0, 0, 46, 1000))),
        deep=draw(st.sampled_from((0, 0, 38, 60))),
        keeps_at=draw(st.sampled_from((None, None, 4, -20))),
    )


@st.composite
def cooks(draw: st.DrawFn, id: str) -> Cook:  # noqa: A002
    """Draw a cook."""
    return Cook(
        CookId(id),
        draw(names()),
        tuple(draw(_SKILLS)),
        tuple(draw(_FEW_WINDOWS)),
        tuple(draw(_FEW_WINDOWS)),
        draw(st.sampled_from((None, (1380, 420), (60, 540)))),
    )


@st.composite
def vessels(draw: st.DrawFn, id: str) -> Vessel:  # noqa: A002
    """Draw a kind of vessel."""
    size = draw(st.sampled_from(("", "28 cm", "6 l", "30×40")))
    washing, by_hand = draw(st.tuples(st.integers(0, 15), st.booleans()))
    return Vessel(VesselId(id), draw(names()), draw(st.integers(1, 4)), size, washing, by_hand)


@st.composite
def kitchens(draw: st.DrawFn) -> Kitchen:
    """Draw a kitchen with at least one station and one cook."""
    kinds = draw(st.lists(st.sampled_from(StationKind), min_size=1, max_size=5))
    station_ids = draw(st.lists(local_ids(), min_size=len(kinds), max_size=len(kinds), unique=True))
    vessel_ids = draw(st.lists(local_ids(), max_size=2, unique=True))
    cook_ids = draw(st.lists(local_ids(), min_size=1, max_size=3, unique=True))
    made = [draw(stations(each, kind)) for each, kind in zip(station_ids, kinds, strict=True)]
    return Kitchen(
        draw(names()),
        tuple(replace(each, not_with=seldom(draw, _others, station_ids, each.id) or ()) for each in made),
        tuple(replace(draw(vessels(each)), fits=seldom(draw, _some, station_ids) or ()) for each in vessel_ids),
        tuple(draw(cooks(each)) for each in cook_ids),
        draw(st.sampled_from((1, 1, 0, 60))),
        draw(st.sampled_from((None, None, 21, 34))),
    )


def _some(ids: list[str]) -> st.SearchStrategy[tuple[StationId, ...]]:
    """Draw the ids of stations that a vessel fits."""
    return st.lists(st.sampled_from([StationId(each) for each in ids]), unique=True).map(tuple)


def _others(ids: list[str], own: str) -> st.SearchStrategy[tuple[StationId, ...]]:
    """Draw the ids of stations that are never used at the same time as one's own."""
    others = [StationId(each) for each in ids if each != own]
    if not others:
        return st.just(())
    return st.lists(st.sampled_from(others), unique=True).map(tuple)


@st.composite
def moments(draw: st.DrawFn) -> Moment:
    """Draw a plating time at an hour that no clock change skips or repeats."""
    day = draw(st.dates(datetime(2020, 1, 1).date(), datetime(2035, 12, 31).date()))
    hour, minute = draw(st.integers(6, 22)), draw(st.integers(0, 59))
    return Moment(datetime(day.year, day.month, day.day, hour, minute), draw(st.sampled_from(_ZONES)))


@cache
def wishes() -> st.SearchStrategy[Wishes]:
    """Draw what makes a good day."""
    return st.builds(Wishes, *[st.integers(0, 10)] * 5, st.integers(0, _DAY - 1))


@st.composite
def decisions_for(draw: st.DrawFn, plan: Plan, ids: tuple[StepId, ...]) -> Decisions:
    """Draw decisions about steps: pins, choices, lengths, and orders from earlier to later ones of `ids`."""
    few = st.lists(st.sampled_from(ids), max_size=3, unique=True) if ids else st.just([])
    orders = []
    if len(ids) > 1:
        for _each in range(draw(st.integers(0, 2))):
            first, then = sorted(
                draw(st.lists(st.integers(0, len(ids) - 1), min_size=2, max_size=2, unique=True))
            )
            orders.append(Order(ids[first], ids[then]))
    return Decisions(
        draw(_MANNERS),
        tuple(pin for pin in [draw(_pins(plan, step)) for step in draw(few)] if pin is not None),
        tuple(Choice(step, draw(st.integers(0, len(plan.steps[step].alternatives)))) for step in draw(few)),
        tuple(LengthOf(step, draw(_MANNERS)) for step in draw(few)),
        tuple(dict.fromkeys(orders)),
        draw(wishes()),
        draw(st.sampled_from(("", "", "uk"))),
    )


@st.composite
def _pins(draw: st.DrawFn, plan: Plan, step: StepId) -> Pin | None:
    """Draw a pin; its station is left out of those that another way may forbid."""
    the_step = plan.steps[step]
    load = draw(st.integers(0, meaning.load_count(plan.dish_of[step], the_step) - 1))
    start = draw(_STARTS)
    cook = draw(st.sampled_from((None, *(each.id for each in plan.kitchen.cooks))))
    fitting = [
        each.id
        for each in plan.kitchen.stations
        if not the_step.alternatives and station_fits(plan, the_step, Pin(step, load, station=each.id))
    ]
    station = draw(st.sampled_from((None, *fitting)))
    if start is None and cook is None and station is None:
        return None
    return Pin(step, load, start, station, cook)


def _bearing(menu: Menu, kitchen: Kitchen) -> Kitchen:
    """Return the kitchen, without a word on what fits where if that leaves a step nowhere to stand."""
    plan = Plan("", Moment(datetime(2020, 1, 1), "UTC"), menu, kitchen)
    if not any(each.family in (Family.VESSELS, Family.PLACES) for each in place_problems(plan)):
        return kitchen
    return replace(
        kitchen,
        stations=tuple(replace(each, wide=0, deep=0) for each in kitchen.stations),
        vessels=tuple(replace(each, fits=()) for each in kitchen.vessels),
    )


@st.composite
def plans(draw: st.DrawFn, most_dishes: int = 4, most_steps: int = 4) -> Plan:
    """Draw a valid plan with any of its features, odd names, several zones; its minutes may contradict."""
    kitchen = draw(kitchens())
    ids = draw(several_ids(most_dishes))
    menu = tuple(draw(dishes(each, kitchen, most_steps)) for each in ids)
    # Links and orders all lead from earlier to later steps of one list, so that there is no circle.
    steps = tuple(draw(st.permutations([step.id for dish in menu for step in dish.steps])))
    yielded = {step.id: step.yields for dish in menu for step in dish.steps}
    kitchen = _bearing(Menu(menu), kitchen)
    bare = Plan(
        draw(names()),
        draw(moments()),
        Menu(
            menu,
            draw(links_between(steps, kitchen, yielded=yielded)),
            draw(stocks_of(menu)),
            draw(guests()),
            draw(_MAYBE_COVERS),
        ),
        kitchen,
        transfer=draw(st.integers(0, 1)),
        opens=draw(_MAYBE_OPENS),
    )
    decisions = draw(decisions_for(bare, steps))
    return Plan(bare.name, bare.plating, bare.menu, kitchen, decisions, bare.transfer, bare.opens)
