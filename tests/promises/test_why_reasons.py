"""Every reason holds without the rest of the plan, and no wish of it could be left out: tried with whole plans."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange.demand import demands_of
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.why import say_demand, say_reason, say_why_not
from core.arrange.why.answer import why_not
from core.arrange.why.giving_up import with_only, without
from core.plan.decisions import Order, Pin
from core.plan.kitchen import Shelf, Station, StationKind, Vessel, Window
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Keep, Step, Use, VesselUse
from tests.support.brute import TooMany, any_timetable
from tests.support.strategies import small_feasts
from tests.support.tries import tries

SOME = settings(
    max_examples=tries(12), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
FEW = settings(SOME, max_examples=tries(8))
"""Where nothing can be found a search of every start takes seconds."""
TINY = {"most_dishes": 3, "most_steps": 2, "longest": 4, "opens": -12}


def without_places_kept(plan: Plan) -> Plan:
    """Return a plan whose finished dishes wait nowhere scarce: giving up serving lets such a place go, too."""
    dishes = tuple(replace(dish, keep=Keep(dish.keep.most)) for dish in plan.menu.dishes)
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


@st.composite
def feasts_of_many_kinds(draw: st.DrawFn) -> Plan:
    """Draw a small feast with pins, orders, limits, vessels, a fire, a shelf and hours here and there."""
    plan = without_places_kept(draw(small_feasts(most_dishes=3, most_steps=2, longest=5)))
    steps = list(plan.steps.values())
    some = st.sampled_from(steps)
    pins, orders = [], []
    if draw(st.booleans()):
        pins.append(Pin(draw(some).id, start=draw(st.integers(-20, 0))))
    if draw(st.booleans()):
        one, other = draw(some), draw(some)
        if one.id != other.id:
            orders.append(Order(one.id, other.id))
    plan = replace(plan, decisions=replace(plan.decisions, pins=tuple(pins), orders=tuple(orders)))
    for step in steps:
        plan = with_step(plan, draw(changed_steps(step)))
    pan = Vessel("pan", "Pan", 1, washing=0)
    hours = draw(st.sampled_from(((), (Window(0, 19 * 60, 19 * 60 + 40),))))
    burns = draw(st.sampled_from((3, 8)))
    grill = Station("grill", "Grill", StationKind.GRILL, 1, lighting=2, burns=burns, laying=1)
    fridge = Station("fridge", "Fridge", StationKind.FRIDGE, shelves=(Shelf(10, 10), Shelf(6, 10)), hours=hours)
    kitchen = replace(plan.kitchen, stations=(*plan.kitchen.stations, grill, fridge), vessels=(pan,))
    return replace(plan, kitchen=kitchen, opens=draw(st.sampled_from((-40, -15, None))))


@st.composite
def changed_steps(draw: st.DrawFn, step: Step) -> Step:
    """Draw a step like another, now and then with a pan, a place on the grill or a shelf, or a limit of its own."""
    match draw(st.integers(0, 9)):
        case 0:
            return replace(step, vessels=(VesselUse("pan"),))
        case 1:
            return replace(step, uses=(Use(StationKind.GRILL),))
        case 2:
            return replace(step, uses=(Use(StationKind.FRIDGE, area=draw(st.integers(4, 6))),))
        case 3:
            return replace(step, earliest=draw(st.integers(-15, -3)))
        case 4:
            return replace(step, latest=draw(st.integers(-15, 0)))
        case _:
            return step


def with_step(plan: Plan, step: Step) -> Plan:
    def changed(dish: Dish) -> Dish:
        return replace(dish, steps=tuple(step if each.id == step.id else each for each in dish.steps))

    return replace(plan, menu=replace(plan.menu, dishes=tuple(changed(dish) for dish in plan.menu.dishes)))


def check_reasons(plan: Plan) -> None:
    """Check the whole promise on one plan."""
    answer = why_not(plan)
    event(answer.fit.name)
    say_why_not(plan, answer)
    if answer.fit is Fit.MEETS:
        assert possible(plan).fit is not Fit.IMPOSSIBLE
        return
    assert (answer.fit is Fit.IMPOSSIBLE) == answer.proven
    for reason in answer.reasons:
        event(reason.kind.name)
        event(f"{len(reason.demands)} wishes")
        assert set(reason.demands) <= set(demands_of(plan))
        assert say_reason(plan, reason)
        only = with_only(plan, reason.demands)
        fit = possible(only).fit
        assert fit is not Fit.MEETS
        event(f"the wishes alone: {fit.name}")  # without an opening some proofs take longer than is asked here
        if not reason.minimal:  # long, or the solver could not find out in time: it is sound, and says no more
            event("not known to be as small as can be")
            continue
        for demand in reason.demands:
            assert say_demand(plan, demand)
            assert possible(without(only, demand)).fit is Fit.MEETS, (demand, reason)


@SOME
@given(small_feasts().map(without_places_kept))
def test_reasons_of_small_feasts(plan):
    check_reasons(plan)


@SOME
@given(feasts_of_many_kinds())
def test_reasons_of_feasts_of_many_kinds(plan):
    check_reasons(plan)


@FEW
@given(small_feasts(**TINY))
def test_what_has_a_reason_is_impossible_for_a_search_of_every_start(plan):
    answer = why_not(plan)
    if answer.fit is not Fit.IMPOSSIBLE:
        assume(False)
    try:
        found = any_timetable(plan)
    except TooMany:
        assume(False)
    event(", ".join(sorted({reason.kind.name for reason in answer.reasons})))
    assert found is None


@SOME
@given(small_feasts(**TINY), st.data())
def test_giving_up_a_wish_never_makes_a_plan_impossible(plan, data):
    plan = without_places_kept(plan)
    if possible(plan).fit is not Fit.MEETS:
        assume(False)
    demand = data.draw(st.sampled_from(demands_of(plan)))
    event(demand.kind.name)
    assert possible(without(plan, demand)).fit is Fit.MEETS

