"""Random small feasts for the scheduler's promises: few steps of few minutes, every start can be tried."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import strategies as st

from core.plan.decisions import Wishes
from core.plan.kitchen import Heater, Kitchen, Station, StationKind
from core.plan.menu import Dish, Link
from core.plan.plan import Plan
from core.plan.step import Attention, Heat, Keep, Manner, Span, Step, Touch, Use, Wait
from tests.support.builders import a_cook, a_dish, a_plan, a_room, a_step, an_oven, burners

OPENS = -40
_SETTINGS = (160, 180, 200)


@st.composite
def small_feasts(
    draw: st.DrawFn,
    most_dishes: int = 4,
    most_steps: int = 3,
    longest: int = 6,
    opens: int = OPENS,
) -> Plan:
    """Draw a feast of 2 to `most_dishes` dishes, chains of 1 to `most_steps` steps of 1 to `longest` minutes.

    One oven of one or two racks at 160, 180 or 200 °C, 5 or 10 degrees a minute, up to 4 minutes from cold;
    one or two burners; one or two cooks who never sleep; waits with limits. Many of them, not all, can meet.
    """
    kitchen = draw(small_kitchens())
    dishes: list[Dish] = []
    links: list[Link] = []
    for name in ("ale", "bun", "cod", "dip", "egg", "fig")[: draw(st.integers(2, most_dishes))]:
        dish, own = draw(chains(name, most_steps, longest))
        dishes.append(dish)
        links += own
    if draw(st.integers(0, 3)) == 0:
        links.append(draw(_across(dishes)))
    return a_plan(
        *dishes,
        links=tuple(links),
        kitchen=kitchen,
        name="Small feast",
        transfer=draw(st.sampled_from((0, 0, 1))),
        opens=opens,
        manner=draw(st.sampled_from((Manner.LIKELY, Manner.LIKELY, Manner.SAFE))),
        wishes=Wishes(fresh=draw(st.integers(1, 10))),
    )


@st.composite
def small_kitchens(draw: st.DrawFn) -> Kitchen:
    """Draw the kitchen of a small feast."""
    rate = draw(st.sampled_from((5.0, 10.0)))
    heater = Heater(
        100,
        250,
        draw(st.sampled_from(((), ((200, 4),), ((160, 2), (200, 3))))),
        rate,
        rate,
        keep_on=draw(st.sampled_from((0, 5, 30))),
    )
    oven = an_oven(racks=draw(st.integers(1, 2)), heater=heater)
    stations: tuple[Station, ...] = (oven, *burners(draw(st.integers(1, 2))), a_room())
    cooks = tuple(a_cook(each, night=None) for each in ("ann", "ben")[: draw(st.integers(1, 2))])
    return Kitchen("Small kitchen", stations, (), cooks)


@st.composite
def chains(
    draw: st.DrawFn, name: str, most_steps: int = 3, longest: int = 6
) -> tuple[Dish, tuple[Link, ...]]:
    """Draw a dish whose steps follow one another, with waits."""
    steps = tuple(
        draw(small_steps(f"{name}.{number}", longest))
        for number in range(1, draw(st.integers(1, most_steps)) + 1)
    )
    links = tuple(draw(_links(one, other)) for one, other in pairwise(steps))
    keep = Keep(draw(st.sampled_from((None, 0, 2, 5, 10))), draw(_waits()))
    return a_dish(name, *steps, keep=keep, course=draw(st.sampled_from((0, 0, 0, -5)))), links


@st.composite
def small_steps(draw: st.DrawFn, id: str, longest: int = 6) -> Step:  # noqa: A002  the word the field bears
    """Draw hands-on work, work at a burner, a tended pot or a bake."""
    low = draw(st.integers(1, longest))
    length = Span(low, min(low + draw(st.sampled_from((0, 0, 1))), longest), longest)
    if draw(st.booleans()):
        length = Span.of(low)
    burner = (Use(StationKind.BURNER),)
    match draw(st.sampled_from(("work", "pan", "pot", "bake", "rest"))):
        case "work":
            return a_step(id, minutes=length)
        case "pan":
            return a_step(id, minutes=length, uses=burner)
        case "pot":
            touch = Touch(draw(st.integers(0, low - 1)), from_end=draw(st.booleans()))
            return a_step(id, minutes=length, attention=Attention.TENDED, touches=(touch,), uses=burner)
        case "bake":
            setting = draw(st.sampled_from(_SETTINGS))
            spread = draw(st.sampled_from((0, 10, 20)))
            heat = Heat(setting, setting - spread, setting + spread)
            uses = (Use(StationKind.OVEN, heat=heat),)
            return a_step(id, minutes=length, attention=Attention.HANDS_OFF, uses=uses)
        case _:
            return a_step(id, minutes=length, attention=Attention.HANDS_OFF)


@st.composite
def _links(draw: st.DrawFn, before: Step, after: Step) -> Link:
    least = draw(st.sampled_from((0, 0, 0, 1, 2)))
    most = draw(st.sampled_from((None, least, least + 1, least + 3, least + 6)))
    return Link(before.id, after.id, least, most, wait=draw(_waits()))


@st.composite
def _waits(draw: st.DrawFn) -> Wait:
    """Draw a wait; now and then the food keeps its burner."""
    return Wait(use=Use(StationKind.BURNER) if draw(st.integers(0, 7)) == 0 else None)


@st.composite
def _across(draw: st.DrawFn, dishes: list[Dish]) -> Link:
    """Draw a link from the first dish to the last: what the one makes goes into the other."""
    before = draw(st.sampled_from(dishes[0].steps))
    after = draw(st.sampled_from(dishes[-1].steps))
    return draw(_links(before, after))
