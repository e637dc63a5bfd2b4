"""Chances of timetables: certain days, the same days again, more room, the figure while a bar is dragged."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest

import demo_data
from bench.feasts import feast
from core.arrange.chances import LimitKind, Odds, chances
from core.arrange.chances_arcs import Pool
from core.arrange.chances_lengths import draw, spread_of
from core.arrange.chances_order import order_of
from core.arrange.chances_run import simulate
from core.arrange.chances_spare import shifted
from core.arrange.late_played import played, replay
from core.intake.text_plan import read_text
from core.measures.refusal import Refusal
from core.plan.day import Day, Fact, State
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.meaning import reserved
from core.plan.step import Attention, Keep, Loads, Manner, Span, Wait
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Placed, Stay, Timetable
from tests.core.timetable.laid import laid
from tests.support.builders import a_bench, a_dish, a_link, a_plan, a_step, a_use, at_oven, hands_off
from tests.support.hand_made import hand_made


@pytest.fixture(scope="module")
def supper():
    plan = read_text(demo_data.text_of("harvest_supper.toml"))
    return plan, hand_made(plan)


def unsure(plan):
    """Give lengths that over-run what is reserved as often as not."""
    found = {}
    for step in plan.steps:
        length = reserved(plan, step).length
        found[step] = Span(max(1, length - length // 4), length, length + length // 3 + 1)
    return found


def a_chain(course=0, first=-60, manner=Manner.LIKELY):
    """Give a plan of two steps with the timetable in which they follow each other without a pause."""
    steps = (hands_off("pie.bake", (20, 30, 50)), hands_off("pie.rest", (20, 30, 50)))
    plan = a_plan(a_dish("pie", *steps, course=course), links=(a_link(*("pie.bake", "pie.rest")),), manner=manner)
    return plan, laid(plan, {"pie.bake": first, "pie.rest": first + 30})


# ---------------------------------------------------------------- certain days


def test_without_spread_a_timetable_is_in_time_on_all_days():
    one = feast(12)
    sure = {step: Span.of(reserved(one.plan, step).length) for step in one.plan.steps}
    value = chances(one.plan, one.planted, runs=50, tighter=sure)
    assert (value.on_time, value.nearly) == (1, 1)
    assert (value.limits, value.threats, value.spare) == ((), (), ())
    assert all(each.p10 == each.p50 == each.p90 <= each.course for each in value.servings)


@pytest.mark.parametrize("dishes", [12, 29])
def test_with_the_lengths_it_reserves_a_timetable_is_played_as_it_stands(dishes):
    one = feast(dishes)
    day = played(one.plan, one.planted, {})
    assert {each.later for each in day.loads} == {0}
    assert (day.late, day.broken, day.chain) == (0, (), ())


def test_the_supper_made_by_hand_is_played_as_it_stands(supper):
    day = played(*supper, {})
    assert [each for each in day.loads if each.later or each.ends_later] == []
    assert (day.late, day.broken) == (0, ())


def test_a_timetable_that_is_late_as_planned_is_in_time_on_no_day():
    plan, timetable = a_chain(first=-40)
    value = chances(plan, timetable, runs=200, tighter={step: Span.of(30) for step in plan.steps})
    assert (value.on_time, value.nearly) == (0, 0)
    assert value.threats[0].over_runs == 0


def test_nothing_served_is_never_late():
    plan = a_plan(a_dish("stock", hands_off("stock.boil", (10, 20, 90)), served=False))
    value = chances(plan, laid(plan, {"stock.boil": -10}), runs=100)
    assert (value.on_time, value.servings, value.threats) == (1, (), ())


# ---------------------------------------------------------------- the same days


def test_the_same_seed_gives_the_same_days(supper):
    assert chances(*supper, runs=500, seed=7) == chances(*supper, runs=500, seed=7)
    assert chances(*supper, runs=500, seed=7) != chances(*supper, runs=500, seed=8)


def test_another_dish_on_the_menu_leaves_a_steps_days_alone():
    plan, timetable = a_chain(course=5)
    more = a_plan(*plan.menu.dishes, a_dish("tea", hands_off("tea.draw", 5)), links=plan.menu.links, manner="likely")
    with_tea = laid(more, {"pie.bake": -60, "pie.rest": -30, "tea.draw": -5})
    assert Odds(more, with_tea).now == Odds(plan, timetable).now


def test_all_runs_at_once_agree_with_each_day_played_by_itself(supper):
    for plan, timetable in (supper, (feast(12).plan, feast(12).planted), (feast(29).plan, feast(29).planted)):
        order = order_of(plan, timetable)
        spreads = [spread_of(order, node, unsure(plan)) for node in order.nodes]
        elastic = [each.elastic for each in spreads]
        drawn = draw(order, spreads, runs=6, seed=2, shape="pert", correlated=0.0)
        whole = [np.broadcast_to(np.round(each), 6).astype(np.float32) for each in drawn]
        days = simulate(order, whole, elastic)
        for run in range(6):
            times = replay(order, [int(each[run]) for each in whole], elastic)
            for node in range(len(order.nodes)):
                assert np.broadcast_to(days.starts[node], 6)[run] == times.starts[node]
                assert np.broadcast_to(days.ends[node], 6)[run] == times.ends[node]


# ---------------------------------------------------------------- more room


@pytest.mark.parametrize("shape", ["pert", "triangular"])
def test_more_room_never_lowers_the_chance(supper, shape):
    plan, timetable = supper
    found = []
    for minutes in (0, 1, 3, 6, 12):
        dishes = tuple(replace(dish, course=dish.course + minutes) for dish in plan.menu.dishes)
        later = replace(plan, menu=replace(plan.menu, dishes=dishes))
        found.append(Odds(later, timetable, runs=2000, shape=shape).now)
    assert found == sorted(found)
    assert found[0] < found[-1]
    odds = Odds(plan, timetable, runs=2000, shape=shape)
    assert found == [odds.within(minutes) for minutes in (0, 1, 3, 6, 12)]


def test_a_pause_before_what_follows_never_lowers_the_chance():
    found = []
    for pause in (0, 2, 5, 10, 20, 40):
        plan, timetable = a_chain()
        odds = Odds(plan, timetable, runs=4000)
        found.append(odds.after({(StepId("pie.bake"), 0): -60 - pause}))
    assert found == sorted(found)
    assert found[0] + 0.02 < found[-1]


def test_what_stations_have_in_common_makes_a_chain_less_sure():
    uses = (at_oven(180),)
    steps = [hands_off(f"pie.{name}", (20, 30, 50), uses=uses) for name in ("base", "top")]
    plan = a_plan(a_dish("pie", *steps, course=20), links=(a_link("pie.base", "pie.top"),), manner="likely")
    timetable = laid(plan, {"pie.base": -60, "pie.top": -30}, cooks=dict.fromkeys(plan.steps))
    alone, together = (Odds(plan, timetable, runs=20_000, correlated=share).now for share in (0.0, 1.0))
    assert 0.03 < alone - together < 0.2


# ---------------------------------------------------------------- while a bar is dragged


@pytest.mark.parametrize("which", ["supper", "feast"])
def test_the_figure_while_dragging_is_that_of_the_timetable_so_moved(supper, which):
    plan, timetable = supper if which == "supper" else (feast(12).plan, feast(12).planted)
    odds = Odds(plan, timetable, runs=300, tighter=unsure(plan))
    chance = Random(4)  # noqa: S311  repeatable, not secret
    keys = sorted(odds.order.index)
    for _turn in range(25):
        moved = {key: timetable.at[key].start + chance.randint(-45, 45) for key in chance.sample(keys, 2)}
        there = shifted(timetable, moved)
        there = replace(there, heatings=timetable.heatings, washings=timetable.washings)
        anew = Odds(plan, there, runs=300, tighter=unsure(plan))
        assert odds.after(moved) == anew.now
    assert odds.after({}) == odds.now


# ---------------------------------------------------------------- servings, limits, threats, spare minutes


def test_a_serving_is_ready_when_the_last_of_its_dishes_is():
    plan = a_plan(
        a_dish("pie", hands_off("pie.bake", (20, 30, 40))),
        a_dish("tart", hands_off("tart.bake", 10)),
        a_dish("ice", hands_off("ice.churn", 15), course=45),
        manner="likely",
    )
    value = chances(plan, laid(plan, {"pie.bake": -30, "tart.bake": -12, "ice.churn": 30}))
    main, sweet = value.servings
    assert (main.course, main.dishes) == (0, ("pie", "tart"))
    assert main.p10 == -2  # the tart is never done sooner
    assert main.p50 == 0
    assert 3 <= main.p90 <= 8
    assert (sweet.course, sweet.p10, sweet.p90) == (45, 45, 45)


def test_food_waits_for_what_is_late_beside_it():
    """The pie is 10 min late on all days, so the eggs, good for 5 min and done in time, wait too long."""
    plan = a_plan(
        a_dish("pie", hands_off("pie.bake", 40)),
        a_dish("egg", hands_off("egg.fry", 5), keep=Keep(5)),
        a_dish("ham", hands_off("ham.fry", 5), keep=Keep(10)),
    )
    value = chances(plan, laid(plan, {"pie.bake": -30, "egg.fry": -5, "ham.fry": -5}), runs=20)
    assert [(each.kind, each.step, each.share) for each in value.limits] == [(LimitKind.KEEP, "egg.fry", 1)]


def test_a_wait_is_broken_as_often_as_the_length_before_it_is_short():
    """Triangular with its mode in the middle: shorter than the lower quarter point in 1/8 of days."""
    steps = (hands_off("a.boil", (0, 40, 80)), hands_off("a.mash", 5))
    plan = a_bench(*steps, links=(a_link("a.boil", "a.mash", 0, 60),), manner="likely")
    value = chances(plan, laid(plan, {"a.boil": -160, "a.mash": -80}), shape="triangular", runs=20_000)
    (risk,) = value.limits
    assert (risk.kind, risk.step, risk.then, risk.most) == (LimitKind.WAIT, "a.boil", "a.mash", 60)
    assert risk.share == pytest.approx((19.5 / 80) ** 2 * 2, abs=0.01)


def test_the_step_that_decides_is_named():
    """The roast over-runs by up to an hour, the greens beside it by a minute; both chains end at the table."""
    plan = a_plan(
        a_dish("roast", hands_off("roast.bake", (60, 60, 120)), hands_off("roast.rest", 10)),
        a_dish("greens", hands_off("greens.fry", (5, 5, 6))),
        links=(a_link("roast.bake", "roast.rest"),),
        manner="likely",
    )
    value = chances(plan, laid(plan, {"roast.bake": -70, "roast.rest": -10, "greens.fry": -5}))
    first = value.threats[0]
    assert first.step == "roast.bake"
    assert first.over_runs > 0.95
    assert first.minutes > 9
    ends = {each.step: each for each in value.threats}
    assert ends["roast.rest"].decides > 0.95
    assert ends["roast.rest"].over_runs == 0


def test_spare_minutes_are_where_the_step_that_decides_begins_earlier():
    plan, timetable = a_chain(course=0)
    value = chances(plan, timetable)
    best = value.spare[0]
    assert (best.step, best.minutes) == ("pie.rest", 15)  # with what it follows
    assert dict(best.moved) == {(StepId("pie.bake"), 0): -75, (StepId("pie.rest"), 0): -45}
    assert [each.chance for each in value.spare] == sorted((each.chance for each in value.spare), reverse=True)
    assert best.gain == pytest.approx(best.chance - value.on_time)
    assert best.chance == Odds(plan, shifted(timetable, dict(best.moved))).now


def test_food_that_goes_on_load_by_load_waits_for_its_own_load():
    fry, glaze = StepId("buns.fry"), StepId("buns.glaze")
    placed = (Placed(fry, -60, 10), Placed(fry, -50, 10, 1), Placed(glaze, -30, 10), Placed(glaze, -20, 10, 1))
    stays = (Stay(fry, glaze, -50, -30), Stay(fry, glaze, -40, -20, 1))
    after = shifted(Timetable(placed, stays), {(fry, 0): -62})
    assert [(each.start, each.end) for each in after.stays] == [(-52, -30), (-40, -20)]


def test_a_shelf_is_free_when_the_load_that_waits_there_is_taken_up():
    by_two = Loads(4, 2)
    fry, glaze = hands_off("buns.fry", 10, loads=by_two), hands_off("buns.glaze", 10, loads=by_two)
    wait = Wait(use=a_use("fridge", area=500, height=5))
    dish = a_dish("buns", fry, glaze, written_for=4)
    plan = a_plan(dish, links=(a_link("buns.fry", "buns.glaze", wait=wait),))
    timetable = laid(plan, {"buns.fry": (-60, -50), "buns.glaze": (-30, -20)})
    order = order_of(plan, timetable)
    left = [each.leaves for source in order.sources if isinstance(source, Pool) for each in source.occupants]
    glazed = [order.index[glaze.id, load] for load in (0, 1)]
    assert [[ref.node for ref in leaves] for leaves in left] == [[glazed[0]], [glazed[1]]]


def test_spare_minutes_that_would_clash_are_not_told():
    """The pie may rest for no longer than planned, and the cook who puts it in is not there before."""
    steps = (
        replace(a_step("pie.mix", minutes=(20, 30, 50)), attention=Attention.HANDS_ON),
        hands_off("pie.bake", 30, uses=(a_use(StationKind.BURNER),)),
    )
    plan = a_plan(a_dish("pie", *steps), links=(a_link("pie.mix", "pie.bake", 0, 5),), manner="likely", opens=-62)
    timetable = laid(plan, {"pie.mix": -60, "pie.bake": -30})
    assert clashes(plan, timetable) == ()
    value = chances(plan, timetable, runs=500)
    assert value.threats[0].step == "pie.mix"
    assert value.spare == ()


# ---------------------------------------------------------------- lengths, the day, refusals


def test_a_setting_off_the_recipes_changes_the_lengths_with_it():
    step = hands_off("pie.bake", (40, 50, 80), uses=(at_oven(180),))
    plan = a_bench(step, manner="likely")
    timetable = laid(plan, {"pie.bake": -60}, settings={"pie.bake": 190}, cooks={"pie.bake": None})
    order = order_of(plan, timetable)
    spread = spread_of(order, order.nodes[0])
    assert (spread.low, spread.likely, spread.high) == (36, 45, 72)


def test_work_in_pieces_keeps_its_pauses():
    plan = a_bench(a_step("pie.peel", minutes=(10, 20, 40), least_piece=5), manner="likely")
    timetable = laid(plan, {"pie.peel": -60})
    (peel,) = timetable.placed
    hands = (Hand(-60, 10, "ann"), Hand(-40, 10, "ann"))
    order = order_of(plan, replace(timetable, placed=(replace(peel, length=30, hands=hands),)))
    spread = spread_of(order, order.nodes[0])
    assert (spread.low, spread.likely, spread.high) == (20, 30, 50)


def test_what_is_under_way_takes_at_least_as_long_as_it_has():
    plan = a_bench(hands_off("pie.bake", (20, 30, 60)), manner="likely")
    timetable = laid(plan, {"pie.bake": -55})
    key = StepId("pie.bake")
    begun = Day(-5, (Fact(key, State.UNDER_WAY, -55),))
    fresh, late = Odds(plan, timetable), Odds(plan, timetable, day=begun)
    assert fresh.now > 0.99
    assert late.within(5) == 1  # it takes 60 at the most
    (serving,) = late.chances().servings
    assert serving.p10 >= -5
    over = Day(10, (Fact(key, State.UNDER_WAY, -55),))
    assert Odds(plan, timetable, day=over).within(9) == 0
    done = Day(-5, (Fact(key, State.DONE, -55, -20),))
    assert Odds(plan, timetable, day=done).now == 1


def test_nonsense_is_refused(supper):
    for wrong in ({"runs": 0}, {"runs": 10**7}, {"correlated": 1.5}, {"correlated": -0.1}):
        with pytest.raises(Refusal):
            Odds(*supper, **wrong)
