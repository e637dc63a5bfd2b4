"""Wherever vessels fit some stations only: the scheduler never makes what the validator then finds, pins or no pins."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.reflowing import reflow
from core.plan.ids import StationId, VesselId
from core.plan.kitchen import Station, StationKind, Vessel
from core.plan.plan import Plan
from core.plan.step import Step, VesselUse
from core.timetable.clash import ClashKind
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from tests.support.builders import an_oven, burners
from tests.support.random_feasts import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=1.0)
PAN, PADDLE, SHEET = VesselId("pan"), VesselId("paddle"), VesselId("sheet")
FEW = settings(max_examples=tries(14), deadline=None, suppress_health_check=[HealthCheck.too_slow])


@st.composite
def picky_feasts(draw: st.DrawFn) -> Plan:
    """Draw a small feast with three burners and two ovens; what is cooked stands in a vessel that fits some."""
    plan = draw(small_feasts(most_dishes=4))
    heater = plan.kitchen.station[StationId("oven")].heater
    ovens = (an_oven("oven", 2, heater, wide=40, deep=30), an_oven("wide", 1, heater, wide=60, deep=40))
    rings = burners(3)
    others = tuple(
        each for each in plan.kitchen.stations if each.kind not in (StationKind.OVEN, StationKind.BURNER)
    )
    ids = [each.id for each in rings]
    vessels = (
        _vessel(PAN, fits=tuple(draw(st.lists(st.sampled_from(ids), min_size=1, max_size=2, unique=True)))),
        _vessel(PADDLE, fits=tuple(draw(st.lists(st.sampled_from(ids), max_size=2, unique=True)))),
        _vessel(SHEET, size=draw(st.sampled_from(("30x40 cm", "59 x 31 cm", "40 cm")))),
    )
    kitchen = replace(plan.kitchen, stations=(*ovens, *rings, *others), vessels=vessels)
    dishes = tuple(
        replace(dish, steps=tuple(draw(_in_vessels(step)) for step in dish.steps)) for dish in plan.menu.dishes
    )
    return replace(plan, kitchen=kitchen, menu=replace(plan.menu, dishes=dishes))


def _vessel(vessel: VesselId, **fields: object) -> Vessel:
    return replace(Vessel(vessel, vessel.title(), 40, washing=0), **fields)  # type: ignore[arg-type]


@st.composite
def _in_vessels(draw: st.DrawFn, step: Step) -> Step:
    kinds = {use.kind for use in step.uses}
    if StationKind.OVEN in kinds:
        return replace(step, vessels=(VesselUse(SHEET),))
    if StationKind.BURNER in kinds:
        some = draw(st.sampled_from(((PAN,), (PADDLE,), ())))
        return replace(step, vessels=tuple(VesselUse(each) for each in some))
    return step


def stands_well(plan: Plan, step: Step, station: Station) -> bool:
    """Tell by a third reading, for just these vessels, whether a step may stand there."""
    for use in step.vessels:
        vessel = plan.kitchen.vessel[use.vessel]
        if vessel.fits and station.kind is StationKind.BURNER and station.id not in vessel.fits:
            return False
        if vessel.id == SHEET and vessel.size != "30x40 cm" and station.id == "oven":
            return False
    return True


@FEW
@given(picky_feasts())
def test_nothing_is_put_where_its_vessel_does_not_fit(plan: Plan) -> None:
    outcome = arrange(plan, LITTLE)
    assert outcome.clashes == clashes(plan, outcome.timetable)
    assert (outcome.fit is Fit.MEETS) == (outcome.clashes == ())
    event(outcome.fit.name)
    for made in (outcome.timetable, on_paper(plan)):
        for placed in made.placed:
            for spot in placed.spots:
                assert stands_well(plan, plan.steps[placed.step], plan.kitchen.station[spot.station])
        assert not any(each.vessels for each in clashes(plan, made) if each.kind is ClashKind.WRONG_PLACE)


@FEW
@given(st.data(), picky_feasts())
def test_the_validator_finds_exactly_what_stands_where_it_does_not_fit(data: st.DataObject, plan: Plan) -> None:
    made = on_paper(plan)
    moved = []
    for placed in made.placed:
        spots = tuple(
            replace(spot, station=data.draw(st.sampled_from([each.id for each in plan.kitchen.of_kind(kind)])))
            for spot in placed.spots
            for kind in (plan.kitchen.station[spot.station].kind,)
        )
        moved.append(replace(placed, spots=spots))
    wrong = {
        (each.step, spot.station)
        for each in moved
        for spot in each.spots
        if not stands_well(plan, plan.steps[each.step], plan.kitchen.station[spot.station])
    }
    found = clashes(plan, replace(made, placed=tuple(moved)))
    told = {
        (each.steps[0], each.stations[0]) for each in found if each.vessels and each.kind is ClashKind.WRONG_PLACE
    }
    assert told == wrong
    event(f"{len(wrong)} wrong")


@FEW
@given(picky_feasts(), st.sampled_from([each.id for each in burners(3)]))
def test_a_reflow_keeps_to_what_fits(plan: Plan, ring: StationId) -> None:
    outcome = arrange(plan, LITTLE)
    if outcome.fit is not Fit.MEETS:
        return
    picky = tuple(replace(each, fits=(ring,)) if each.id == PAN else each for each in plan.kitchen.vessels)
    changed = replace(plan, kitchen=replace(plan.kitchen, vessels=picky))
    again = reflow(changed, outcome.timetable)
    event("none" if again is None else again.fit.name)
    if again is not None:
        assert clashes(changed, again.timetable) == ()
