"""Random small feasts with ways, pieces, walks, fires, vessels, full ovens and stations that exclude each other."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import strategies as st

from core.plan.ids import StepId
from core.plan.kitchen import Heater, Kitchen, Station
from core.plan.plan import Plan
from core.plan.step import Alternative, Attention, Keep, Span, Step, Touch, VesselUse, Wait
from tests.support.builders import (
    a_cook,
    a_dish,
    a_fire,
    a_link,
    a_plan,
    a_step,
    a_use,
    a_vessel,
    an_oven,
    at_oven,
    burners,
)

POT = a_vessel("pot").id


@st.composite
def busy_kitchens(draw: st.DrawFn) -> Kitchen:
    """Draw an oven that is slower when full, a fire outside, two burners, one or two pots, one or two cooks."""
    heater = Heater(
        100, 250, draw(st.sampled_from(((), ((200, 4),)))), 10, 10, 5, full=draw(st.sampled_from((0, 50)))
    )
    oven = an_oven(racks=draw(st.integers(1, 3)), heater=heater)
    fire = a_fire(
        places=draw(st.integers(1, 3)),
        lighting=draw(st.integers(0, 5)),
        laying=draw(st.integers(0, 5)),
        burns=draw(st.sampled_from((None, 3, 10))),
        fires=draw(st.integers(1, 2)),
        not_with=draw(st.sampled_from(((), (), (oven.id,)))),
    )
    stations: tuple[Station, ...] = (oven, fire, *burners(2))
    pot = a_vessel(
        "pot", draw(st.integers(1, 2)), washing=draw(st.integers(0, 3)), by_hand=draw(st.booleans())
    )
    cooks = tuple(a_cook(each, night=None) for each in ("ann", "ben")[: draw(st.integers(1, 2))])
    return Kitchen("Busy kitchen", stations, (pot,), cooks, draw(st.integers(0, 3)))


@st.composite
def busy_steps(draw: st.DrawFn, id: str) -> Step:  # noqa: A002  the word the field bears
    """Draw work, whole or in pieces, a pan, a grilled thing or a bake, perhaps in a pot or in another way."""
    length = Span.of(draw(st.integers(1, 8)))
    pot = (VesselUse(POT, draw(st.integers(1, 2))),) if draw(st.booleans()) else ()
    grill, oven, burner = a_use("grill"), at_oven(draw(st.sampled_from((170, 180))), 10), a_use("burner")
    ways = draw(st.lists(st.builds(Alternative, st.just("other"), st.builds(Span.of, st.integers(1, 8)),
                                   st.sampled_from(((), (grill,), (oven,), (burner,)))), max_size=1))  # fmt: skip
    kind = draw(st.sampled_from(("work", "pieces", "pan", "pot", "grilled", "bake")))
    uses = {"pan": (burner,), "pot": (burner,), "grilled": (grill,), "bake": (oven,)}.get(kind, ())
    step = a_step(id, minutes=length, uses=uses, vessels=pot, alternatives=tuple(ways))
    if kind == "pieces":
        return replace(step, least_piece=draw(st.integers(1, 3)))
    if kind == "pot":
        touches = (Touch(draw(st.integers(0, 4))),)
        return replace(step, attention=Attention.TENDED, touches=touches, put_in=0, take_out=0)
    return replace(step, attention=Attention.HANDS_OFF) if kind in {"bake", "grilled"} else step


@st.composite
def busy_feasts(draw: st.DrawFn) -> Plan:
    """Draw a feast of two to four dishes of one or two such steps."""
    kitchen = draw(busy_kitchens())
    dishes, links = [], []
    for name in ("ale", "bun", "cod", "dip")[: draw(st.integers(2, 4))]:
        steps = tuple(
            draw(busy_steps(f"{name}.{number}")) for number in range(1, draw(st.integers(1, 2)) + 1)
        )
        use = draw(st.sampled_from((None, None, a_use("grill"), a_use("burner"))))
        dishes.append(a_dish(name, *steps, keep=Keep(None, Wait(use=use))))
        links += [a_link(StepId(one.id), other.id, 0, 30) for one, other in pairwise(steps)]
    return a_plan(
        *dishes, links=tuple(links), kitchen=kitchen, name="Busy feast", transfer=draw(st.integers(0, 1))
    )
