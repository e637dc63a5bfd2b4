"""The random feasts that measurements use: repeatable, of the size asked for, sensible, and solvable as planted."""

from dataclasses import replace

import pytest

from bench.__main__ import main, names
from bench.drags import drags, lengths_of, moved, orders_of, starts_of
from bench.feasts import feast
from bench.row import share, show
from core.plan.check import problems
from core.plan.network import Network
from core.plan.network_push import Pusher
from core.timetable.clashes import clashes


@pytest.mark.parametrize(("dishes", "steps"), [(12, 84), (29, 203)])
@pytest.mark.parametrize("seed", [1, 2])
def test_a_feast_is_sound_and_its_planted_timetable_has_no_clash(dishes, steps, seed):
    one = feast(dishes, seed)
    assert len(one.plan.steps) == steps
    assert problems(one.plan) == ()
    assert clashes(one.plan, one.planted) == ()
    network = Network.of(one.plan, lengths_of(one.planted), orders_of(one.planted))
    assert network.contradiction() is None


def test_the_validator_would_see_a_planted_timetable_that_is_wrong():
    one = feast(12)
    bakes = [each for each in one.planted.placed if each.setting is not None]
    other = replace(bakes[0], setting=bakes[0].setting + 40)
    spoilt = tuple(other if each is bakes[0] else each for each in one.planted.placed)
    assert clashes(one.plan, replace(one.planted, placed=spoilt))


def test_the_same_numbers_give_the_same_feast_and_others_another():
    first = feast.__wrapped__(12, 1)
    assert first == feast(12, 1)
    assert first != feast(12, 2)


def test_a_feast_has_what_makes_a_day_hard():
    plan = feast(12).plan
    settings = {use.heat.setting for step in plan.steps.values() for use in step.uses if use.heat is not None}
    assert len(settings) >= 5
    assert any(step.loads for step in plan.steps.values())
    assert any(step.length.likely > 10 * 60 for step in plan.steps.values())
    assert min(dish.keep.most for dish in plan.menu.dishes) <= 12
    assert len(plan.kitchen.cooks) == 2


def test_a_move_of_the_bench_takes_hands_and_waits_along():
    one = feast(12)
    pusher = Pusher(one.plan, starts_of(one.planted), orders_of(one.planted), lengths_of(one.planted))
    for key, path in drags(one.planted, 10, 3):
        push = pusher.pushed(key, path[-1])
        after = moved(one.planted, push.moved)
        assert {each.key: each.start for each in after.placed} == starts_of(one.planted) | push.moved
        for seen, now in zip(one.planted.placed, after.placed, strict=True):
            by = now.start - seen.start
            assert [hand.start - by for hand in now.hands] == [hand.start for hand in seen.hands]


def test_figures_are_shown_with_their_unit():
    assert [show(each) for each in (2.5e-6, 0.0015, 0.25, 2.0)] == ["2.5 µs", "1.50 ms", "250 ms", "2.0 s"]
    assert [share([1.0, 2.0, 3.0, 4.0], each) for each in (50, 95, 1)] == [2.0, 4.0, 1.0]


def test_rows_are_found_by_their_files_and_a_wrong_name_is_refused(capsys):
    assert {"network", "validator"} <= set(names())
    with pytest.raises(SystemExit):
        main(["--only", "nothing"])
    assert "network" in capsys.readouterr().err
