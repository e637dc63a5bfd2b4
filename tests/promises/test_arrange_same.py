"""The same again: by seed, by name, by order, with more to work with, and with what is pinned."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.plan.decisions import Pin
from core.plan.ids import DishId, StepId, dish_part, local_part
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from tests.support.builders import a_cook, burners
from tests.support.strategies import small_feasts
from tests.support.tries import tries

LITTLE = Effort(work=0.5)
SOME = settings(max_examples=tries(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SOME
@given(small_feasts(), st.integers(0, 3))
def test_the_same_plan_seed_and_work_give_the_same_timetable(plan, seed):
    effort = Effort(work=0.5, seed=seed)
    one, other = arrange(plan, effort), arrange(plan, effort)
    assert one.timetable == other.timetable
    assert (one.fit, one.score, one.bound, one.rounds) == (other.fit, other.score, other.bound, other.rounds)


def renamed(plan: Plan, names: dict[DishId, DishId]) -> Plan:
    """Return the plan with its dishes called otherwise, and their steps with them."""

    def step(id_: StepId) -> StepId:
        return StepId(f"{names[dish_part(id_)]}.{local_part(id_)}")

    dishes = tuple(
        replace(dish, id=names[dish.id], steps=tuple(replace(each, id=step(each.id)) for each in dish.steps))
        for dish in plan.menu.dishes
    )
    links = tuple(replace(link, before=step(link.before), after=step(link.after)) for link in plan.menu.links)
    return replace(plan, menu=replace(plan.menu, dishes=dishes, links=links))


@SOME
@given(small_feasts(), st.data())
def test_names_and_order_do_not_change_whether_it_meets(plan, data):
    ids = [dish.id for dish in plan.menu.dishes]
    others = data.draw(st.permutations(["ant", "bee", "cow", "doe", *ids]))
    changed = renamed(plan, dict(zip(ids, map(DishId, others[: len(ids)]), strict=True)))
    menu = changed.menu
    changed = replace(
        changed,
        menu=replace(
            menu,
            dishes=tuple(data.draw(st.permutations(menu.dishes))),
            links=tuple(data.draw(st.permutations(menu.links))),
        ),
    )
    one, other = arrange(plan, LITTLE), arrange(changed, LITTLE)
    assert one.fit is other.fit


@SOME
@given(small_feasts(), st.data())
def test_what_is_pinned_stays(plan, data):
    step = data.draw(st.sampled_from(list(plan.steps)))
    start = data.draw(st.integers(-40, 0))
    pinned = replace(plan, decisions=replace(plan.decisions, pins=(Pin(step, start=start),)))
    outcome = arrange(pinned, LITTLE)
    if outcome.fit is Fit.MEETS:
        assert outcome.timetable.at[step, 0].start == start


@SOME
@given(small_feasts(), st.data())
def test_pinning_where_it_stands_still_meets(plan, data):
    before = arrange(plan, LITTLE)
    assume(before.fit is Fit.MEETS)
    placed = data.draw(st.sampled_from(before.timetable.placed))
    station = placed.spots[0].station if placed.spots else None
    cook = placed.hands[0].cook if placed.hands else None
    pin = Pin(placed.step, placed.load, placed.start, station, cook)
    if any(hand.cook != cook for hand in placed.hands):
        pin = replace(pin, cook=None)
    after = arrange(replace(plan, decisions=replace(plan.decisions, pins=(pin,))), LITTLE)
    assert after.fit is Fit.MEETS
    now = after.timetable.at[placed.key]
    assert now.start == placed.start
    assert station is None or station in {spot.station for spot in now.spots}


def with_more(plan: Plan, what: str) -> Plan:
    """Return the plan with a rack, a burner or a cook more."""
    kitchen = plan.kitchen
    if what == "cook":
        kitchen = replace(kitchen, cooks=(*kitchen.cooks, a_cook("zoe", night=None)))
    elif what == "burner":
        kitchen = replace(kitchen, stations=(*kitchen.stations, burners(9)[-1]))
    else:
        stations = tuple(
            replace(each, units=each.units + 1) if each.kind is StationKind.OVEN else each
            for each in kitchen.stations
        )
        kitchen = replace(kitchen, stations=stations)
    return replace(plan, kitchen=kitchen)


@SOME
@given(small_feasts(), st.sampled_from(("cook", "burner", "rack")))
def test_more_to_work_with_never_makes_it_impossible(plan, what):
    assume(arrange(plan, LITTLE).fit is Fit.MEETS)
    assert arrange(with_more(plan, what), LITTLE).fit is not Fit.IMPOSSIBLE
