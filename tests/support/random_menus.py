"""Random dishes that a given kitchen can cook, and links between their steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any, TypeVar

from hypothesis import strategies as st

from core.measures.quantity import Quantity
from core.measures.unit_names import UNITS
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import DishId, StationId, StepId, step_id
from core.plan.kitchen import HEATED, Kitchen, Station
from core.plan.menu import Dish, Ingredient, Link, LinkKind
from core.plan.step import (
    Alternative,
    Attention,
    ClockTime,
    Doneness,
    Heat,
    Holding,
    Keep,
    Loads,
    Span,
    Step,
    Touch,
    Use,
    VesselUse,
    Wait,
    Yield,
)
from tests.support.random_words import names, notes, quantities, quantities_in, several_ids

_DAY = 24 * 60
Value = TypeVar("Value")
_WORDS = st.lists(names(), max_size=2).map(tuple)


def rarely(strategy: st.SearchStrategy[Value]) -> st.SearchStrategy[Value | None]:
    """Draw None more often than not."""
    return st.one_of(st.none(), st.none(), strategy)


_ONE_IN_THREE = st.sampled_from((False, False, True))


def seldom(draw: st.DrawFn, make: Callable[..., st.SearchStrategy[Value]], *given: Any) -> Value | None:
    """Draw None more often than not, as `rarely`; a strategy that hangs on what was drawn is made only where wanted."""
    return draw(make(*given)) if draw(_ONE_IN_THREE) else None


_MAYBE_MOST = rarely(st.integers(0, 3 * _DAY))
_MAYBE_LOADS = rarely(st.builds(Loads, st.integers(1, 6), st.integers(1, 12), st.integers(0, 5)))
_MAYBE_DONENESS = rarely(
    st.builds(Doneness, notes(), rarely(st.integers(40, 95)), rarely(st.integers(0, 90)))
)
_MAYBE_EARLIEST = rarely(st.integers(-5 * _DAY, -3 * _DAY))
_MAYBE_LATEST = rarely(st.integers(3 * _DAY, 5 * _DAY))
_MAYBE_CLOCK = rarely(st.builds(ClockTime, st.integers(-1, 9), st.integers(0, _DAY - 1)))
_MAYBE_CARE = rarely(
    st.builds(
        FoodCare, rarely(st.sampled_from(Effect)), st.sampled_from((0, 0, 50, 1000)), rarely(st.sampled_from(Container))
    )
)
_MAYBE_YIELD = rarely(st.builds(Yield, names(), quantities()))
_MAYBE_QUANTITY = rarely(quantities())
_MAYBE_SCALE = rarely(st.fractions(min_value=Fraction(1, 50), max_value=50).filter(bool))
_MAYBE_FOOD = rarely(st.sampled_from(FoodKind))
_MAYBE_ARRIVAL = rarely(st.sampled_from(Arrival))
_BOOLEANS = st.booleans()
_ATTENTIONS = st.sampled_from(Attention)
_LINK_KINDS = st.sampled_from(LinkKind)
_TO_SIXTY, _TO_TWENTY = (st.tuples(st.integers(0, most), st.integers(0, most)) for most in (60, 20))
_HOLDINGS = st.sampled_from(Holding)
_TRANSFERS = st.sampled_from(((None, None), (0, 0), (1, 0), (1, 1), (None, 1)))


@st.composite
def spans(draw: st.DrawFn, shortest: int = 1, longest: int = 3000) -> Span:
    """Draw a length, sharp or with a spread."""
    low = draw(st.integers(shortest, longest))
    more, most = draw(_TO_SIXTY)
    return Span(low, low + more, low + more + most)


@st.composite
def heats(draw: st.DrawFn, lowest: int, highest: int) -> Heat:
    """Draw a temperature whose setting lies within lowest..highest."""
    setting = draw(st.integers(lowest, highest))
    below, above = draw(_TO_TWENTY)
    return Heat(setting, max(setting - below, -60), min(setting + above, 600), draw(_BOOLEANS))


@st.composite
def uses(draw: st.DrawFn, kitchen: Kitchen) -> Use:
    """Draw a share of a station that the kitchen has."""
    station = draw(st.sampled_from(kitchen.stations))
    named = StationId(station.id) if draw(_BOOLEANS) else None
    if station.shelves:
        raw = draw(_BOOLEANS)
        shelf = station.shelves[0] if raw else draw(st.sampled_from(station.shelves))
        area = draw(st.integers(0, shelf.area))
        return Use(station.kind, 1, named, area, draw(st.integers(0, shelf.height)), raw)
    most = station.units or 3
    heat = seldom(draw, _heat_for, station) if station.kind in HEATED else None
    return Use(station.kind, draw(st.integers(1, min(most, 4))), named, heat=heat)


def _heat_for(station: Station) -> st.SearchStrategy[Heat]:
    if station.heater is None:
        return heats(60, 250)
    return heats(station.heater.lowest, station.heater.highest)


@st.composite
def waits(draw: st.DrawFn, kitchen: Kitchen) -> Wait:
    """Draw a way to wait, mostly where there is room enough."""
    return Wait(draw(_HOLDINGS), seldom(draw, uses, kitchen))


@st.composite
def keeps(draw: st.DrawFn, kitchen: Kitchen) -> Keep:
    """Draw how long a finished thing keeps."""
    return Keep(draw(_MAYBE_MOST), draw(waits(kitchen)))


@st.composite
def touches(draw: st.DrawFn, length: Span, skills: tuple[str, ...]) -> Touch:
    """Draw a touch within the shortest length."""
    minutes = draw(st.integers(1, min(length.low, 5)))
    at = draw(st.integers(0, length.low - minutes))
    skill = draw(st.sampled_from(("", *skills)))
    return Touch(at, minutes, draw(notes()), draw(_BOOLEANS), skill)


@st.composite
def steps(draw: st.DrawFn, dish: DishId, local: str, kitchen: Kitchen) -> Step:
    """Draw a step: a plain one as often as one with any of its features."""
    length = draw(spans())
    attention = draw(_ATTENTIONS)
    if draw(_BOOLEANS):
        return Step(step_id(dish, local), draw(names()), length, attention)
    skills = tuple(sorted({skill for cook in kitchen.cooks for skill in cook.skills}))
    ways = [seldom(draw, _alternatives, kitchen) for _each in range(draw(st.integers(0, 2)))]
    tended = draw(st.lists(touches(length, skills), max_size=3)) if attention is Attention.TENDED else []
    vessels = (
        draw(st.lists(st.sampled_from(kitchen.vessels), max_size=2, unique=True)) if kitchen.vessels else []
    )
    # Either both ends take as long as the plan says, or each at most a minute: they must fit any length.
    put_in, take_out = draw(_TRANSFERS)
    hands = draw(st.integers(1, len(kitchen.cooks))) if attention is Attention.HANDS_ON else 1
    return Step(
        step_id(dish, local),
        draw(names()),
        length,
        attention,
        hands,
        draw(st.sampled_from(("", *skills))) if hands == 1 else "",
        tuple(tended),
        put_in,
        take_out,
        (draw(uses(kitchen)),) if draw(_BOOLEANS) else (),
        tuple(VesselUse(each.id, draw(st.integers(1, each.count))) for each in vessels),
        draw(_MAYBE_LOADS),
        seldom(draw, st.integers, 1, length.low),
        draw(_MAYBE_DONENESS),
        draw(_MAYBE_EARLIEST),
        draw(_MAYBE_LATEST),
        draw(_MAYBE_CLOCK),
        seldom(draw, keeps, kitchen),
        tuple(way for way in ways if way is not None),
        draw(notes()),
        draw(_MAYBE_YIELD),
        draw(_MAYBE_CARE),
    )


@st.composite
def _alternatives(draw: st.DrawFn, kitchen: Kitchen) -> Alternative:
    return Alternative(draw(names()), draw(spans()), (draw(uses(kitchen)),) if draw(_BOOLEANS) else ())


@st.composite
def dishes(draw: st.DrawFn, dish: str, kitchen: Kitchen, most_steps: int = 4) -> Dish:
    """Draw a dish with any of its features; its steps are still without links."""
    dish_id = DishId(dish)
    locals_of = draw(several_ids(most_steps))
    own = tuple(draw(steps(dish_id, local, kitchen)) for local in locals_of)
    return Dish(
        dish_id,
        draw(names()),
        own,
        draw(st.sampled_from(("", "G", "Öl"))),
        draw(st.integers(1, 12)),
        draw(st.integers(1, 30)),
        draw(st.sampled_from((0, 0, 0, -30, 75))),
        draw(_BOOLEANS),
        draw(keeps(kitchen)),
        draw(ingredients(own)),
        draw(_WORDS),
        draw(notes()),
        draw(notes()),
        draw(_MAYBE_SCALE),
        draw(st.sampled_from(("", "", "round 26 cm", "GN 1/2-65"))),
        draw(st.sampled_from(("", "", "35x25x6 cm"))),
    )


@st.composite
def ingredients(draw: st.DrawFn, own: tuple[Step, ...]) -> tuple[Ingredient, ...]:
    """Draw ingredients, some to taste, some by the kilogram of another."""
    items = draw(st.lists(names(), max_size=3, unique=True))
    found = []
    for number, item in enumerate(items):
        step = draw(st.sampled_from((None, *(each.id for each in own))))
        per_kg_of = items[0] if number and draw(_BOOLEANS) else ""
        found.append(
            Ingredient(
                item,
                draw(quantities()) if per_kg_of else draw(_MAYBE_QUANTITY),
                draw(notes()),
                step,
                draw(st.sampled_from(("", "dairy", "Gemüse"))),
                draw(_BOOLEANS),
                draw(_WORDS),
                per_kg_of,
                draw(st.sampled_from((0, 0, 1, 7))),
                draw(_MAYBE_FOOD),
                draw(_MAYBE_ARRIVAL),
                draw(st.sampled_from((0, 0, 40, 1000))),
            )
        )
    return tuple(found)


def quantities_like(made: Yield | None) -> st.SearchStrategy[Quantity]:
    """Draw how much a link brings: of what a step yields in a unit that compares, else any."""
    if made is None:
        return quantities()
    kind = UNITS[made.quantity.unit].kind
    return quantities_in({"weight": ("g", "kg"), "volume": ("ml", "UK pint")}.get(kind, (made.quantity.unit,)))


@st.composite
def links_between(
    draw: st.DrawFn,
    ids: tuple[StepId, ...],
    kitchen: Kitchen,
    most: int = 6,
    yielded: Mapping[StepId, Yield | None] = MappingProxyType({}),
) -> tuple[Link, ...]:
    """Draw links from earlier to later steps of a list, so that there is no circle.

    `yielded` says what steps yield: a link brings of it in a unit that compares.
    """
    found: dict[tuple[StepId, StepId, LinkKind], Link] = {}
    if len(ids) < 2:
        return ()
    for _each in range(draw(st.integers(0, most))):
        first, then = sorted(
            draw(st.lists(st.integers(0, len(ids) - 1), min_size=2, max_size=2, unique=True))
        )
        kind = draw(_LINK_KINDS)
        least = draw(st.integers(0, 2 * _DAY))
        longest = draw(st.one_of(st.none(), st.integers(least, least + 2 * _DAY)))
        brings = seldom(draw, quantities_like, yielded.get(ids[first]))
        link = Link(ids[first], ids[then], least, longest, kind, draw(waits(kitchen)), brings)
        found[link.key] = link
    return tuple(found.values())
