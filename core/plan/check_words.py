"""How sentences and labels name the things of a plan. Works on plans that have problems, too."""

from __future__ import annotations

from core.measures.refusal import quoted
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.kitchen import Station, StationKind
from core.plan.menu import Dish, LinkKind
from core.plan.plan import Plan
from core.plan.step import Step

_LONGEST_NAME = 60
_UNITS = {StationKind.OVEN: "rack", StationKind.BURNER: "ring", StationKind.GRILL: "grate place"}
JOINS = {
    LinkKind.END_TO_START: "after",
    LinkKind.START_TO_START: "beginning with",
    LinkKind.END_TO_END: "ending with",
}
"""How the later step of a link stands to the earlier one."""


def short(name: str) -> str:
    """Return a name on one line, cut short when long."""
    line = " ".join(name.split())
    return line if len(line) <= _LONGEST_NAME else line[: _LONGEST_NAME - 1].rstrip() + "…"


def spoken(dish: Dish, step: Step) -> str:
    """Return a step's words: the dish's name and what is done."""
    return f"{short(dish.name) or dish.id}: {short(step.does) or step.id}"


def unit_word(kind: StationKind) -> str:
    """Return what a station's units are called: rack, ring, grate place or place."""
    return _UNITS.get(kind, "place")


def a_kind(kind: StationKind) -> str:
    """Return a kind with its article: "an oven", "a grill"."""
    return f"{'an' if kind is StationKind.OVEN else 'a'} {kind}"


def station_name(station: Station) -> str:
    """Return a station's name, or its id where it has none."""
    return short(station.name) or station.id


class Words:
    """Names of a plan's things by id; an id that names nothing is given in quotes."""

    def __init__(self, plan: Plan) -> None:
        """Gather the names."""
        self._dishes = {dish.id: short(dish.name) or dish.id for dish in plan.menu.dishes}
        self._steps = {step.id: spoken(dish, step) for dish in plan.menu.dishes for step in dish.steps}
        self._stations = {each.id: station_name(each) for each in plan.kitchen.stations}
        self._vessels = {each.id: short(each.name) or each.id for each in plan.kitchen.vessels}
        self._cooks = {each.id: short(each.name) or each.id for each in plan.kitchen.cooks}

    def dish(self, dish: DishId) -> str:
        """Return a dish's name."""
        return self._dishes.get(dish) or quoted(dish)

    def step(self, step: StepId) -> str:
        """Return a step's dish and what is done."""
        return self._steps.get(step) or quoted(step)

    def station(self, station: StationId) -> str:
        """Return a station's name."""
        return self._stations.get(station) or quoted(station)

    def vessel(self, vessel: VesselId) -> str:
        """Return a vessel's name."""
        return self._vessels.get(vessel) or quoted(vessel)

    def cook(self, cook: CookId) -> str:
        """Return a cook's name."""
        return self._cooks.get(cook) or quoted(cook)
