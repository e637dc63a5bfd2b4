"""Random tiny feasts with ways, pieces, fires, walks, washing up, a full oven: every minute of them can be tried."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import strategies as st

from core.plan.ids import StationId, VesselId
from core.plan.kitchen import Heater, Kitchen, Station, StationKind, Window
from core.plan.menu import Dish, Link, LinkKind
from core.plan.plan import Plan
from core.plan.step import Alternative, Attention, Keep, Loads, Manner, Span, Step, Use, VesselUse
from tests.support.builders import PLATING, a_cook, a_dish, a_plan, a_step, a_vessel

_CLOCK = int(PLATING[11:13]) * 60 + int(PLATING[14:16])
_PLACES = (StationKind.BURNER, StationKind.GRILL, StationKind.OVEN)


@st.composite
def tiny_kitchens(draw: st.DrawFn) -> Kitchen:
    """Draw a burner, coals on the terrace, an oven of two racks, a pot or two, a cook or two, one with a break."""
    pair = (StationId("grill"),) if draw(st.integers(0, 3)) == 0 else ()
    lighting = draw(st.integers(0, 2))
    stations = (
        Station(StationId("burner"), "Burner", StationKind.BURNER, draw(st.integers(1, 2)), not_with=pair),
        Station(
            StationId("grill"),
            "Grill",
            StationKind.GRILL,
            draw(st.integers(1, 2)),
            place="terrace",
            lighting=lighting,
            burns=draw(st.sampled_from((None, 2, 3, 4, 6))),
            laying=draw(st.integers(0, max(lighting, 1))),
            fires=draw(st.integers(1, 2)),
        ),
        Station(
            StationId("oven"),
            "Oven",
            StationKind.OVEN,
            2,
            heater=Heater(from_cold=(), full=draw(st.sampled_from((0, 50, 100)))),
        ),
    )
    breaks = ()
    if draw(st.booleans()):
        begins = draw(st.integers(-7, -2))
        breaks = (Window(0, _CLOCK + begins, _CLOCK + begins + draw(st.integers(1, 3))),)
    cooks = (a_cook("ann", night=None, breaks=breaks), a_cook("ben", night=None))[: draw(st.integers(1, 2))]
    pot = a_vessel(
        "pot", draw(st.integers(1, 2)), washing=draw(st.integers(0, 2)), by_hand=draw(st.booleans())
    )
    return Kitchen("Tiny kitchen", stations, (pot,), cooks, draw(st.integers(0, 3)))


@st.composite
def tiny_days(draw: st.DrawFn, most_steps: int = 3, opens: int = -9) -> Plan:
    """Draw a plan of two or three loads or steps, of up to four minutes each."""
    dishes: list[Dish] = []
    links: list[Link] = []
    left = draw(st.integers(2, most_steps))
    for name in ("ale", "bun", "cod"):
        count = min(left, draw(st.integers(1, 2)))
        if count == 0:
            break
        left -= count
        steps = tuple(draw(tiny_steps(f"{name}.{number}")) for number in range(1, count + 1))
        links += [draw(_links(one, other)) for one, other in pairwise(steps)]
        keep = Keep(draw(st.sampled_from((None, 0, 0, 1, 3, 5))))
        dishes.append(a_dish(name, *steps, keep=keep, course=draw(st.sampled_from((0, 0, -2)))))
    return a_plan(
        *dishes,
        links=tuple(links),
        kitchen=draw(tiny_kitchens()),
        name="Tiny day",
        transfer=draw(st.sampled_from((0, 0, 1))),
        opens=opens,
        manner=draw(st.sampled_from((Manner.LIKELY, Manner.SAFE))),
    )


@st.composite
def tiny_steps(draw: st.DrawFn, id: str) -> Step:  # noqa: A002  the word the field bears
    """Draw a step: hands-on, perhaps in pieces, or hands-off; perhaps with another way, a pot or two loads."""
    length = draw(_spans())
    fields: dict[str, object] = {"uses": draw(_uses())}
    if draw(st.booleans()):
        fields["attention"] = Attention.HANDS_OFF
        if draw(st.booleans()):
            fields |= {"put_in": 0, "take_out": 0}
        if draw(st.integers(0, 4)) == 0:
            fields["loads"] = Loads(2, 1, draw(st.integers(0, 1)))
    elif draw(st.booleans()):
        fields["least_piece"] = draw(st.integers(1, length.low))
    if draw(st.integers(0, 2)) == 0:
        fields["alternatives"] = (Alternative("other", draw(_spans()), draw(_uses())),)
    if draw(st.integers(0, 2)) == 0:
        fields["vessels"] = (VesselUse(VesselId("pot")),)
    return replace(a_step(id, minutes=length), **fields)  # type: ignore[arg-type]  # fields of a step


def _spans() -> st.SearchStrategy[Span]:
    low = st.integers(1, 4)
    return st.tuples(low, st.sampled_from((0, 0, 1))).map(lambda each: Span(each[0], each[0], sum(each)))


def _uses() -> st.SearchStrategy[tuple[Use, ...]]:
    return st.one_of(st.just(()), st.sampled_from(_PLACES).map(lambda kind: (Use(kind),)))


@st.composite
def _links(draw: st.DrawFn, before: Step, after: Step) -> Link:
    least = draw(st.sampled_from((0, 0, 1)))
    most = draw(st.sampled_from((None, least, least + 1, least + 3)))
    kind = draw(st.sampled_from((*[LinkKind.END_TO_START] * 3, *LinkKind)))
    return Link(before.id, after.id, least, most, kind)
