"""Random edits of a given plan; some are refused, as a cook's are."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from hypothesis import strategies as st

from core.plan.check_kitchen import kitchen_problems
from core.plan.edits import (
    AddCook,
    AddDish,
    AddLink,
    AddOrder,
    AddStation,
    AddStep,
    AddVessel,
    AllowFires,
    ChangeCook,
    ChangeDish,
    ChangeKitchen,
    ChangeLink,
    ChangeStation,
    ChangeStep,
    ChangeVessel,
    Choose,
    CopyDish,
    CopyStep,
    Edit,
    LiftAllPins,
    LiftPin,
    MoveDish,
    MoveStepInDish,
    PinStep,
    PinSteps,
    RemoveCook,
    RemoveDish,
    RemoveGuest,
    RemoveLink,
    RemoveOrder,
    RemoveStation,
    RemoveStep,
    RemoveStock,
    RemoveVessel,
    RenameDish,
    RenameKitchen,
    RenamePlan,
    ServeDishLater,
    ServeLater,
    SetCovers,
    SetDishPans,
    SetDishScale,
    SetGuest,
    SetLength,
    SetManner,
    SetOpens,
    SetPlating,
    SetStock,
    SetTransfer,
    SetWalk,
    SetWishes,
    StretchStep,
    Together,
    UseKitchen,
)
from core.plan.ids import CookId, StepId, fresh
from core.plan.kitchen import Cook, StationKind
from core.plan.menu import Dish, Guest, Link, LinkKind, Stock
from core.plan.plan import Plan
from core.plan.step import Manner, Span
from tests.support.builders import a_step
from tests.support.random_menus import dishes
from tests.support.random_plans import kitchens, moments, stations, vessels, wishes
from tests.support.random_words import names, notes

Edits = st.SearchStrategy[Edit]
_NUMBERS = st.integers(0, 5)
_OFFSETS = st.integers(-3000, 1500)


@st.composite
def edits_for(draw: st.DrawFn, plan: Plan) -> Edit:
    """Draw an edit about things that the plan has, or, now and then, two as one."""
    rooms = [_whole(), _kitchen(plan), _house(plan)]
    if plan.menu.dishes:
        rooms += [_dishes(plan)] * 2
    if plan.steps:
        rooms += [_steps(plan), _steps(plan), _decisions(plan), _decisions(plan), _links(plan)]
    rooms.append(_new_dish(plan))
    edit: Edit = draw(draw(st.sampled_from(rooms)))
    if draw(st.integers(0, 9)) == 5:
        return Together("Two at once", (edit, draw(draw(st.sampled_from(rooms)))))
    return edit


def _whole() -> Edits:
    return st.one_of(
        st.builds(RenamePlan, names()),
        st.builds(SetPlating, moments()),
        st.builds(SetTransfer, st.integers(-1, 4)),
        st.builds(ServeLater, st.integers(-90, 1500)),
        st.builds(SetOpens, st.one_of(st.none(), st.integers(-20_000, -5000))),
        st.builds(SetManner, st.sampled_from(Manner)),
        st.builds(SetWishes, wishes()),
        st.just(LiftAllPins()),
    )


def _house(plan: Plan) -> Edits:
    guest = st.sampled_from((*(each.name for each in plan.menu.guests), "Orla"))
    item = st.sampled_from((*(each.item for each in plan.menu.stocks), "rye flour"))
    return st.one_of(
        st.builds(SetCovers, st.one_of(st.none(), st.integers(0, 9))),
        st.builds(lambda name, count: SetGuest(Guest(name, count)), guest, _NUMBERS),
        st.builds(RemoveGuest, guest),
        st.builds(lambda one, days: SetStock(Stock(one, keeps=days)), item, st.integers(-1, 9)),
        st.builds(RemoveStock, item),
    )


def _kitchen(plan: Plan) -> Edits:
    kitchen = plan.kitchen
    station_id = fresh("station", kitchen.station)
    new_cook = Cook(CookId(fresh("cook", kitchen.cook)), "Somebody")
    found: list[Edits] = [
        st.builds(RenameKitchen, names()),
        st.builds(ChangeKitchen, kitchens()),
        st.builds(UseKitchen, kitchens()),
        st.sampled_from(StationKind).flatmap(partial(stations, station_id)).map(AddStation),
        vessels(fresh("vessel", kitchen.vessel)).map(AddVessel),
        st.just(AddCook(new_cook)),
        st.builds(SetWalk, st.integers(-1, 9)),
    ]
    for station in kitchen.stations:
        changed = replace(station, units=station.units + 1)
        fires = AllowFires(station.id, station.fires + 1)
        found.append(st.sampled_from((ChangeStation(station.id, changed), fires, RemoveStation(station.id))))
    for vessel in kitchen.vessels:
        fewer = replace(vessel, count=vessel.count - 1)
        picky = replace(vessel, fits=tuple(kitchen.station)[:1])
        changes = (ChangeVessel(vessel.id, fewer), ChangeVessel(vessel.id, picky), RemoveVessel(vessel.id))
        found.append(st.sampled_from(changes))
    for cook in kitchen.cooks:
        unskilled = replace(cook, skills=())
        found.append(st.sampled_from((ChangeCook(cook.id, unskilled), RemoveCook(cook.id))))
    return st.one_of(found)


@st.composite
def _new_dish(draw: st.DrawFn, plan: Plan) -> Edit:
    kitchen = plan.kitchen
    if not kitchen.stations or not kitchen.cooks or any(kitchen_problems(kitchen)):
        return AddDish(Dish(_free(plan), "Bread"))
    dish = draw(dishes(_free(plan), kitchen, 2))
    return AddDish(dish, after=draw(st.sampled_from((None, *plan.dishes))))


def _free(plan: Plan) -> str:
    return fresh("new", plan.dishes)


def _dishes(plan: Plan) -> Edits:
    dish = st.sampled_from(list(plan.dishes))
    return st.one_of(
        st.builds(RenameDish, dish, names()),
        st.builds(lambda one, wanted: ChangeDish.of(one, wanted=wanted), dish, st.integers(0, 40)),
        st.builds(lambda one, note: ChangeDish.of(one, note=note, served=True), dish, notes()),
        st.builds(MoveDish, dish, _NUMBERS),
        st.builds(SetDishScale, dish, st.one_of(st.none(), st.fractions(0, 3, max_denominator=4))),
        st.builds(SetDishPans, dish, st.sampled_from(("", "round 26 cm")), names()),
        st.builds(ServeDishLater, dish, st.integers(-90, 90)),
        st.builds(CopyDish, dish, st.sampled_from(("", "Another"))),
        st.builds(RemoveDish, dish),
        _new_step(plan),
    )


@st.composite
def _new_step(draw: st.DrawFn, plan: Plan) -> Edit:
    dish = draw(st.sampled_from(plan.menu.dishes))
    step = a_step(
        fresh("stir", {each.id.partition(".")[2] for each in dish.steps}), minutes=draw(st.integers(1, 9))
    )
    after = draw(st.sampled_from((None, *(each.id for each in dish.steps))))
    return AddStep(dish.id, replace(step, id=StepId(f"{dish.id}.{step.id}")), after, draw(st.booleans()))


def _steps(plan: Plan) -> Edits:
    step = st.sampled_from(list(plan.steps))
    lengths = st.integers(0, 500).map(Span.of)
    return st.one_of(
        st.builds(
            lambda one, length: ChangeStep(one, replace(plan.steps[one], length=length)), step, lengths
        ),
        st.builds(lambda one: ChangeStep(one, replace(plan.steps[one], alternatives=(), loads=None)), step),
        st.builds(MoveStepInDish, step, _NUMBERS),
        st.builds(CopyStep, step),
        st.builds(RemoveStep, step, st.booleans()),
    )


def _decisions(plan: Plan) -> Edits:
    step = st.sampled_from(list(plan.steps))
    stations_there = st.sampled_from((None, *plan.kitchen.station))
    cooks_there = st.sampled_from((None, *plan.kitchen.cook))
    starts = st.one_of(st.none(), _OFFSETS)
    return st.one_of(
        st.builds(PinStep, step, st.integers(0, 2), starts, stations_there, cooks_there),
        st.builds(LiftPin, step, st.sampled_from((None, 0))),
        st.builds(Choose, step, st.sampled_from((None, 0, 1, 2))),
        st.builds(SetLength, step, st.sampled_from((None, *Manner))),
        st.builds(StretchStep, step, st.integers(0, 300), st.sampled_from((0, 0, 1))),
        st.builds(PinSteps, st.lists(st.builds(PinStep, step, start=st.integers(-600, 0)), max_size=3).map(tuple)),
        st.builds(AddOrder, step, step),
        st.builds(RemoveOrder, step, step),
    )


def _links(plan: Plan) -> Edits:
    step = st.sampled_from(list(plan.steps))
    link = st.builds(
        Link, step, step, st.integers(0, 30), st.sampled_from((None, 60)), st.sampled_from(LinkKind)
    )
    found: list[Edits] = [st.builds(AddLink, link)]
    if plan.menu.links:
        key = st.sampled_from([each.key for each in plan.menu.links])
        found += [st.builds(ChangeLink, key, link), st.builds(RemoveLink, key)]
    return st.one_of(found)
