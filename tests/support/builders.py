"""Small builders of plans: every argument has a sensible default, so a test says only what matters to it."""

from __future__ import annotations

from dataclasses import fields as fields_of
from datetime import datetime
from itertools import pairwise
from typing import Any

from core.measures.clock import Moment
from core.plan.decisions import Decisions
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId, dish_part, local_part
from core.plan.kitchen import Cook, Heater, Kitchen, Shelf, Station, StationKind, Vessel
from core.plan.menu import Dish, Link, Menu
from core.plan.plan import Plan
from core.plan.step import Attention, Heat, Span, Step, Use

PLATING = "2026-09-26 19:30"
ZONE = "Europe/London"

OVEN, FRIDGE, GRILL, ROOM = StationId("oven"), StationId("fridge"), StationId("grill"), StationId("room")
ANN = CookId("ann")


def a_moment(text: str = PLATING, zone: str = ZONE) -> Moment:
    """Return a moment from "2026-09-26 19:30" and a zone's name."""
    return Moment(datetime.fromisoformat(text), zone)


def a_span(minutes: int | tuple[int, int, int] | Span) -> Span:
    """Return a span from one length, from (low, likely, high) or as it is."""
    if isinstance(minutes, Span):
        return minutes
    return Span.of(minutes) if isinstance(minutes, int) else Span(*minutes)


def a_step(
    id: str = "soup.boil",  # noqa: A002  the word the field bears
    does: str = "",
    minutes: int | tuple[int, int, int] | Span = 10,
    **fields: Any,
) -> Step:
    """Return a step, hands-on unless `attention` says otherwise; `does` is made from the id when left out."""
    return Step(StepId(id), does or _spoken(local_part(StepId(id))), a_span(minutes), **fields)


def hands_off(id: str = "soup.boil", minutes: int | tuple[int, int, int] | Span = 10, **fields: Any) -> Step:  # noqa: A002
    """Return a step that takes nobody, not even for putting in and taking out."""
    fields = {"put_in": 0, "take_out": 0, **fields}
    return a_step(id, minutes=minutes, attention=Attention.HANDS_OFF, **fields)


def a_heat(setting: int = 180, spread: int = 15, **fields: Any) -> Heat:
    """Return a temperature with as many degrees to either side."""
    return Heat(setting, setting - spread, setting + spread, **fields)


def a_use(kind: StationKind | str = StationKind.BURNER, units: int = 1, **fields: Any) -> Use:
    """Return a share of a station; `heat` may be a number: that setting, 15 degrees to either side."""
    if isinstance(fields.get("heat"), int):
        fields["heat"] = a_heat(fields["heat"])
    return Use(StationKind(kind), units, **fields)


def at_oven(setting: int = 180, spread: int = 15, units: int = 1, **fields: Any) -> Use:
    """Return a share of an oven at a setting."""
    return Use(StationKind.OVEN, units, heat=a_heat(setting, spread), **fields)


def a_dish(id: str = "soup", *steps: Step, name: str = "", **fields: Any) -> Dish:  # noqa: A002
    """Return a dish with these steps; its name is made from the id when left out."""
    return Dish(DishId(id), name or _spoken(id), steps, **fields)


def a_link(before: str, after: str, least: int = 0, most: int | None = None, **fields: Any) -> Link:
    """Return a link, end to start unless `kind` says otherwise."""
    return Link(StepId(before), StepId(after), least, most, **fields)


def chained(*steps: Step, least: int = 0, most: int | None = None) -> tuple[Link, ...]:
    """Return links from each step to the next."""
    return tuple(a_link(one.id, other.id, least, most) for one, other in pairwise(steps))


def a_cook(id: str = "ann", *skills: str, **fields: Any) -> Cook:  # noqa: A002
    """Return a cook who sleeps from 23:00 to 07:00 unless `night` says otherwise."""
    return Cook(CookId(id), fields.pop("name", _spoken(id)), skills, **fields)


def a_vessel(id: str = "pot", count: int = 1, **fields: Any) -> Vessel:  # noqa: A002
    """Return a kind of vessel."""
    return Vessel(VesselId(id), fields.pop("name", _spoken(id)), count, **fields)


def an_oven(id: str = "oven", racks: int = 2, heater: Heater | None = Heater(), **fields: Any) -> Station:  # noqa: A002, B008
    """Return an oven: two racks, 50 to 250 °C, 18 minutes from cold to 200, 5 degrees a minute."""
    return Station(
        StationId(id), fields.pop("name", _spoken(id)), StationKind.OVEN, racks, heater=heater, **fields
    )


def burners(count: int = 4) -> tuple[Station, ...]:
    """Return burners of one unit each: burner-1, burner-2 and so on."""
    return tuple(
        Station(StationId(f"burner-{number}"), f"Burner {number}", StationKind.BURNER)
        for number in range(1, count + 1)
    )


def a_fridge(*shelves: Shelf) -> Station:
    """Return a fridge; unless shelves are given, four of 2,000 cm2, the lowest 26 cm high, the others 18."""
    shelves = shelves or tuple(Shelf(2000, height) for height in (26, 18, 18, 18))
    return Station(FRIDGE, "Fridge", StationKind.FRIDGE, shelves=shelves)


def a_grill(places: int = 8) -> Station:
    """Return a grill on the terrace without a heater, by gas: nothing to light, and it burns as long as one likes."""
    return Station(GRILL, "Grill", StationKind.GRILL, places, place="terrace")


def a_fire(id: str = "grill", places: int = 8, **fields: Any) -> Station:  # noqa: A002
    """Return a charcoal grill on the terrace: 5 minutes to lay, ready 25 after that began, good for 60, lit once."""
    fields = {"place": "terrace", "lighting": 25, "laying": 5, "burns": 60, **fields}
    return Station(StationId(id), fields.pop("name", _spoken(id)), StationKind.GRILL, places, **fields)


def a_room() -> Station:
    """Return the worktop at room temperature; 0 units: as much as one likes."""
    return Station(ROOM, "Worktop", StationKind.ROOM, 0)


def a_kitchen(
    *more: Station,
    oven: Station | None = None,
    racks: int = 2,
    burning: int = 4,
    stations: tuple[Station, ...] | None = None,
    cooks: int | tuple[Cook, ...] = 1,
    vessels: tuple[Vessel, ...] = (),
    name: str = "Home kitchen",
) -> Kitchen:
    """Return a kitchen: an oven, four burners, a fridge, a grill, a worktop, one cook; and `more` stations.

    `stations` replaces all of them; `cooks` as a number gives Ann, Ben, Cat, Dan.
    """
    if stations is None:
        stations = (oven or an_oven(racks=racks), *burners(burning), a_fridge(), a_grill(), a_room())
    if isinstance(cooks, int):
        cooks = tuple(a_cook(each) for each in ("ann", "ben", "cat", "dan")[:cooks])
    return Kitchen(name, (*stations, *more), vessels, cooks)


def a_plan(
    *dishes: Dish,
    links: tuple[Link, ...] = (),
    kitchen: Kitchen | None = None,
    plating: str = PLATING,
    zone: str = ZONE,
    name: str = "Feast",
    **fields: Any,
) -> Plan:
    """Return a plan; other fields are its own (transfer, opens) or its decisions' (pins, manner)."""
    decided = {each.name: fields.pop(each.name) for each in fields_of(Decisions) if each.name in fields}
    if decided:
        fields["decisions"] = Decisions(**decided)
    return Plan(name, a_moment(plating, zone), Menu(dishes, links), kitchen or a_kitchen(), **fields)


def a_bench(*steps: Step, links: tuple[Link, ...] = (), **fields: Any) -> Plan:
    """Return a plan made from steps alone: each goes to the dish its id names, in order of appearance."""
    dishes: dict[DishId, list[Step]] = {}
    for step in steps:
        dishes.setdefault(dish_part(step.id), []).append(step)
    return a_plan(*(a_dish(dish, *own) for dish, own in dishes.items()), links=links, **fields)


def _spoken(slug: str) -> str:
    return slug.replace("-", " ").capitalize()
