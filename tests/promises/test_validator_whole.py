"""What holds for the validator whatever the plan and whatever the timetable."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from core.plan.ids import StepId
from core.timetable.as_text import read_timetable, write_timetable
from core.timetable.changes import changes
from core.timetable.clash import Clash
from core.timetable.clashes import Checker, clashes
from core.timetable.heat_curve import curve, plateaus
from core.timetable.load import area_curve, hands_curve, load_curve, shelf_curves, vessel_curve
from core.timetable.timetable import Timetable
from tests.core.timetable.timetables import timetables
from tests.support.strategies import plans, small_feasts

PLANS = st.one_of(plans(), small_feasts())


def sane(clash: Clash, plain: bool) -> bool:
    """Return whether a clash has a sentence fit to show, and minutes in their order."""
    sentence = clash.sentence
    if plain and (
        (not sentence[0].isupper() and sentence[0] != '"') or "None" in sentence or "  " in sentence
    ):
        return False  # names drawn at random may be anything
    return clash.start <= clash.end and clash.by >= 0 and sentence.endswith(".") and "\n" not in sentence


@given(st.data())
def test_any_timetable_has_clashes_and_no_errors(data):
    plan = data.draw(PLANS)
    found = clashes(plan, data.draw(timetables(plan)))
    assert [clash for clash in found if not sane(clash, plan.name == "Small feast")] == []
    assert [clash.start for clash in found] == sorted(clash.start for clash in found)
    known = set(plan.steps) | {StepId("no.step")}
    for clash in found:
        assert set(clash.steps) <= known
        assert len(set(clash.steps)) == len(clash.steps)


@given(st.data())
def test_a_few_steps_find_what_the_whole_finds_for_them(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    steps = [*plan.steps, StepId("no.step")]
    only = data.draw(st.sets(st.sampled_from(steps), max_size=4))
    whole = clashes(plan, timetable)
    assert clashes(plan, timetable, only=only) == tuple(clash for clash in whole if only & set(clash.steps))


@given(st.data())
def test_a_checker_says_the_same_again_and_again(data):
    plan = data.draw(PLANS)
    checker = Checker(plan)
    for _turn in range(3):
        timetable = data.draw(timetables(plan, -60, 10))
        assert checker.clashes(timetable) == clashes(plan, timetable)
        only = data.draw(st.sets(st.sampled_from(list(plan.steps)), max_size=2)) if plan.steps else set()
        assert checker.clashes(timetable, only) == clashes(plan, timetable, only)


@given(st.data())
def test_the_order_in_which_things_are_listed_says_nothing(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    keys = [placed.key for placed in timetable.placed]
    stays = [(stay.before, stay.after, stay.load) for stay in timetable.stays]
    if len(set(keys)) < len(keys) or len(set(stays)) < len(stays):
        return  # of two placings of one load the first listed counts
    shuffled = Timetable(
        tuple(data.draw(st.permutations(timetable.placed))),
        tuple(data.draw(st.permutations(timetable.stays))),
        tuple(data.draw(st.permutations(timetable.heatings))),
    )
    assert clashes(plan, shuffled) == clashes(plan, timetable)


@given(st.data())
def test_any_timetable_has_its_curves(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -200, 10))
    for station in plan.kitchen.stations:
        for found in (
            load_curve(plan, timetable, station.id),
            area_curve(plan, timetable, station.id),
            *shelf_curves(plan, timetable, station.id),
        ):
            assert all(level.amount > 0 and level.start < level.end for level in found)
            assert all(one.end <= other.start for one, other in pairwise(found))
        points = curve(plan, timetable, station.id)
        assert [point.at for point in points] == sorted(point.at for point in points)
        for plateau in plateaus(plan, timetable, station.id):
            assert plateau.start < plateau.end
    for vessel in plan.kitchen.vessels:
        assert vessel_curve(plan, timetable, vessel.id) is not None
    together = sum(level.amount * (level.end - level.start) for level in hands_curve(plan, timetable))
    named = {hand.cook for placed in timetable.placed for hand in placed.hands}
    named |= {heating.cook for heating in timetable.heatings}
    apart = sum(
        level.amount * (level.end - level.start)
        for cook in named - {None}
        for level in hands_curve(plan, timetable, cook)
    )
    assert apart <= together


@given(st.data())
def test_a_timetable_survives_being_text(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan))
    timetable = replace(  # without what lies thousands of years away
        timetable,
        placed=tuple(each for each in timetable.placed if abs(each.start) < 10**9),
        heatings=tuple(each for each in timetable.heatings if abs(each.start) < 10**9),
    )
    assert read_timetable(write_timetable(plan, timetable)) == timetable


@given(st.data())
def test_changes_lead_from_one_timetable_to_the_other(data):
    plan = data.draw(small_feasts())
    before, after = data.draw(timetables(plan, -40, 0)), data.draw(timetables(plan, -40, 0))
    found = changes(before, after)
    at = dict(before.at)
    for moved in found:
        key = (moved.step, moved.load)
        assert moved.before == at.get(key)
        assert moved.before != moved.after
        if moved.after is None:
            del at[key]
        else:
            at[key] = moved.after
    assert at == after.at
