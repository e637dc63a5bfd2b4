"""Ways, pieces, walks, fires, washing up, fullness: held against a search that tries everything, and other promises."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from core.arrange import Effort, Fit, arrange
from core.arrange.possible import possible
from core.arrange.reflowing import reflow
from core.plan.ids import DishId, StepId, dish_part, local_part
from core.plan.kitchen import Station, StationKind
from core.plan.plan import Plan
from core.timetable.clashes import clashes
from core.timetable.timetable import Timetable
from tests.support.brute_feasts import tiny_days
from tests.support.brute_rules import TooMany, any_day
from tests.support.builders import a_cook
from tests.support.tries import tries

LITTLE = Effort(work=1.0)
ENOUGH = Effort(work=4.0)
SOME = settings(max_examples=tries(14), deadline=None, suppress_health_check=[HealthCheck.too_slow])
FEW = settings(
    max_examples=tries(8), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


@SOME
@given(tiny_days())
def test_it_meets_exactly_where_a_search_of_everything_finds_a_day(plan):
    try:
        found = any_day(plan)
    except TooMany:
        event("too many to try")
        assume(False)
    if found is not None:
        assert clashes(plan, found) == ()
    outcome = arrange(plan, LITTLE)
    event(f"{outcome.fit.name}, {'one' if found is not None else 'none'} found")
    assert outcome.clashes == clashes(plan, outcome.timetable)
    assert outcome.fit is (Fit.IMPOSSIBLE if found is None else Fit.MEETS)
    assert (possible(plan).fit is Fit.MEETS) == (found is not None)


@SOME
@given(tiny_days())
def test_what_meets_has_no_clash(plan):
    outcome = arrange(plan, LITTLE)
    assert outcome.clashes == clashes(plan, outcome.timetable)
    assert (outcome.fit is Fit.MEETS) == (outcome.clashes == ())


@FEW
@given(tiny_days(), st.integers(0, 3))
def test_the_same_seed_gives_the_same_timetable(plan, seed):
    effort = Effort(work=0.5, seed=seed)
    one, other = arrange(plan, effort), arrange(plan, effort)
    assert (one.timetable, one.fit, one.score) == (other.timetable, other.fit, other.score)


def with_more(plan: Plan, what: str) -> Plan:
    """Return the plan with one more of something, which nobody has to use."""
    kitchen = plan.kitchen

    def changed(kind: StationKind, **fields) -> tuple[Station, ...]:
        return tuple(replace(each, **fields) if each.kind is kind else each for each in kitchen.stations)

    grill, burner = (kitchen.of_kind(kind)[0] for kind in (StationKind.GRILL, StationKind.BURNER))
    (pot,) = kitchen.vessels
    return replace(
        plan,
        kitchen=replace(
            kitchen,
            **{
                "cook": {"cooks": (*kitchen.cooks, a_cook("zoe", night=None))},
                "pot": {"vessels": (replace(pot, count=pot.count + 1),)},
                "burner": {"stations": (*kitchen.stations, replace(burner, id="burner-z", not_with=()))},
                "grill": {"stations": (*kitchen.stations, replace(grill, id="grill-z"))},
                "fire": {"stations": changed(StationKind.GRILL, fires=grill.fires + 1)},
                "coals": {"stations": changed(StationKind.GRILL, burns=None)},
                "no walk": {"walk": 0},
                "no washing": {"vessels": (replace(pot, washing=0),)},
                "no appliance": {"stations": changed(StationKind.BURNER, not_with=())},
            }[what],
        ),
    )


MORE = ("cook", "pot", "burner", "grill", "fire", "coals", "no walk", "no washing", "no appliance")


@SOME
@given(tiny_days(), st.sampled_from(MORE))
def test_more_to_work_with_never_makes_it_impossible_nor_the_best_worse(plan, what):
    before = arrange(plan, ENOUGH)
    assume(before.fit is Fit.MEETS)
    after = arrange(with_more(plan, what), ENOUGH)
    assert after.fit is Fit.MEETS
    if before.bound is not None and after.bound is not None:
        event("both proven best")
        assert after.score <= before.score


def twice(plan: Plan) -> Plan:
    """Return the plan with all its minutes doubled."""

    def span(length):
        return type(length)(*(2 * getattr(length, name) for name in ("low", "likely", "high")))

    def maybe(minutes: int | None) -> int | None:
        return None if minutes is None else 2 * minutes

    kitchen = plan.kitchen
    stations = tuple(
        replace(each, lighting=2 * each.lighting, burns=maybe(each.burns), laying=2 * each.laying)
        for each in kitchen.stations
    )
    plating = plan.plating.local.hour * 60 + plan.plating.local.minute
    cooks = tuple(
        replace(
            cook,
            breaks=tuple(
                replace(
                    each,
                    from_minute=2 * each.from_minute - plating,
                    to_minute=2 * each.to_minute - plating,
                )
                for each in cook.breaks
            ),
        )
        for cook in kitchen.cooks
    )
    dishes = tuple(
        replace(
            dish,
            course=2 * dish.course,
            keep=replace(dish.keep, most=maybe(dish.keep.most)),
            steps=tuple(
                replace(
                    step,
                    length=span(step.length),
                    least_piece=maybe(step.least_piece),
                    put_in=maybe(step.put_in),
                    take_out=maybe(step.take_out),
                    loads=None
                    if step.loads is None
                    else replace(step.loads, change_over=2 * step.loads.change_over),
                    alternatives=tuple(replace(each, length=span(each.length)) for each in step.alternatives),
                )
                for step in dish.steps
            ),
        )
        for dish in plan.menu.dishes
    )
    links = tuple(replace(link, least=2 * link.least, most=maybe(link.most)) for link in plan.menu.links)
    return replace(
        plan,
        menu=replace(plan.menu, dishes=dishes, links=links),
        kitchen=replace(
            kitchen,
            stations=stations,
            cooks=cooks,
            vessels=tuple(replace(each, washing=2 * each.washing) for each in kitchen.vessels),
            walk=2 * kitchen.walk,
        ),
        transfer=2 * plan.transfer,
        opens=2 * (plan.opens or 0),
    )


@SOME
@given(tiny_days())
def test_with_all_minutes_doubled_it_meets_as_before(plan):
    # where an oven that is full makes things longer, half a minute is rounded up, so that doubling is not the same
    stations = tuple(
        replace(each, heater=None if each.heater is None else replace(each.heater, full=0))
        for each in plan.kitchen.stations
    )
    plan = replace(plan, kitchen=replace(plan.kitchen, stations=stations))
    assert arrange(twice(plan), LITTLE).fit is arrange(plan, LITTLE).fit


def renamed(plan: Plan, names: dict[DishId, DishId]) -> Plan:
    """Return the plan with its dishes called otherwise."""

    def step(id_: StepId) -> StepId:
        return StepId(f"{names[dish_part(id_)]}.{local_part(id_)}")

    dishes = tuple(
        replace(dish, id=names[dish.id], steps=tuple(replace(each, id=step(each.id)) for each in dish.steps))
        for dish in plan.menu.dishes
    )
    links = tuple(replace(link, before=step(link.before), after=step(link.after)) for link in plan.menu.links)
    return replace(plan, menu=replace(plan.menu, dishes=dishes, links=links))


@SOME
@given(tiny_days(), st.data())
def test_names_and_order_change_neither_whether_it_meets_nor_how_well(plan, data):
    ids = [dish.id for dish in plan.menu.dishes]
    others = data.draw(st.permutations(["ant", "bee", "cow", "doe", *ids]))
    changed = renamed(plan, dict(zip(ids, map(DishId, others[: len(ids)]), strict=True)))
    dishes = tuple(data.draw(st.permutations(changed.menu.dishes)))
    links = tuple(data.draw(st.permutations(changed.menu.links)))
    stations = tuple(data.draw(st.permutations(plan.kitchen.stations)))
    changed = replace(
        changed,
        menu=replace(changed.menu, dishes=dishes, links=links),
        kitchen=replace(plan.kitchen, stations=stations),
    )
    one, other = arrange(plan, ENOUGH), arrange(changed, ENOUGH)
    assert one.fit is other.fit
    if one.bound is not None and other.bound is not None and one.fit is Fit.MEETS:
        assert one.score == other.score


def what_stands(timetable: Timetable) -> set:
    """Return all that a cook would see move, whoever does it."""
    return {
        *((each.key, each.start, each.length, each.way) for each in timetable.placed),
        *((each.key, hand.start, hand.minutes) for each in timetable.placed for hand in each.hands),
        *((each.station, each.start, each.end) for each in timetable.heatings),
        *((each.vessel, each.after, each.start) for each in timetable.washings),
    }


@SOME
@given(tiny_days())
def test_where_nothing_changed_nothing_moves(plan):
    before = arrange(plan, LITTLE)
    assume(before.fit is Fit.MEETS)
    found = reflow(plan, before.timetable)
    assert found is not None
    assert found.fit is Fit.MEETS
    assert what_stands(found.timetable) == what_stands(before.timetable)
