"""What holds for the validator whatever the plan and whatever the timetable."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from core.plan.day import Day
from core.plan.ids import StepId
from core.timetable.as_text import read_timetable, write_timetable
from core.timetable.changes import changes
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import Checker, clashes
from core.timetable.heat_curve import curve, plateaus
from core.timetable.load import area_curve, hands_curve, load_curve, shelf_curves, vessel_curve
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.core.timetable.busy_feasts import busy_feasts
from tests.core.timetable.timetables import days, timetables
from tests.support.strategies import plans, small_feasts

PLANS = st.one_of(plans(), small_feasts(), busy_feasts())


def sane(clash: Clash, plain: bool) -> bool:
    """Return whether a clash has a sentence fit to show, and minutes in their order."""
    sentence = clash.sentence
    if plain and (
        (not sentence[0].isupper() and sentence[0] != '"') or "None" in sentence or "  " in sentence
    ):
        return False  # names drawn at random may be anything
    return clash.start <= clash.end and clash.by >= 0 and sentence.endswith(".") and "\n" not in sentence


def some_day(data, plan, timetable):
    """Draw a day, or none."""
    return data.draw(days(plan, timetable)) if data.draw(st.booleans()) else None


@given(st.data())
def test_any_timetable_has_clashes_and_no_errors(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan))
    found = clashes(plan, timetable, day=some_day(data, plan, timetable))
    plain = plan.name in {"Small feast", "Busy feast"}
    assert [clash for clash in found if not sane(clash, plain)] == []
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
    day = some_day(data, plan, timetable)
    whole = clashes(plan, timetable, day=day)
    assert clashes(plan, timetable, only, day) == tuple(clash for clash in whole if only & set(clash.steps))


@given(st.data())
def test_a_checker_says_the_same_again_and_again(data):
    plan = data.draw(PLANS)
    day = some_day(data, plan, data.draw(timetables(plan, -60, 10)))
    checker = Checker(plan, day)
    for _turn in range(3):
        timetable = data.draw(timetables(plan, -60, 10))
        assert checker.clashes(timetable) == clashes(plan, timetable, day=day)
        only = data.draw(st.sets(st.sampled_from(list(plan.steps)), max_size=2)) if plan.steps else set()
        assert checker.clashes(timetable, only) == clashes(plan, timetable, only, day)


@given(st.data())
def test_the_order_in_which_things_are_listed_says_nothing(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    keys = [placed.key for placed in timetable.placed]
    stays = [(stay.before, stay.after, stay.load) for stay in timetable.stays]
    if len(set(keys)) < len(keys) or len(set(stays)) < len(stays):
        return  # of two placings of one load the first listed counts
    day = some_day(data, plan, timetable)
    shuffled = Timetable(
        tuple(data.draw(st.permutations(timetable.placed))),
        tuple(data.draw(st.permutations(timetable.stays))),
        tuple(data.draw(st.permutations(timetable.heatings))),
        tuple(data.draw(st.permutations(timetable.washings))),
    )
    assert clashes(plan, shuffled, day=day) == clashes(plan, timetable, day=day)


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
    named |= {washing.cook for washing in timetable.washings}
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
        washings=tuple(each for each in timetable.washings if abs(each.start) < 10**9),
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


@given(st.data())
def test_on_paper_every_step_is_done_in_an_open_way_and_as_long_as_it_must(data):
    plan = data.draw(PLANS)
    found = clashes(plan, on_paper(plan))
    loads = [clash for clash in found if clash.kind in {ClashKind.MISSING, ClashKind.NOT_AS_IT_WAS}]
    assert not [clash for clash in loads if "is not on the timetable" in clash.sentence]
    ways = [clash.sentence for clash in found if "you chose" in clash.sentence or "in way" in clash.sentence]
    assert not ways


@given(st.data())
def test_what_lies_before_now_clashes_with_nothing(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    day = data.draw(days(plan, timetable))
    for clash in clashes(plan, timetable, day=day):
        standing = {ClashKind.MISSING, ClashKind.NOT_AS_IT_WAS, ClashKind.BEFORE_NOW}
        assert clash.end > day.now or clash.start >= day.now or clash.kind in standing


@given(st.data())
def test_a_day_that_has_not_begun_says_nothing(data):
    plan = data.draw(PLANS)
    timetable = data.draw(timetables(plan, -60, 10))
    assert clashes(plan, timetable, day=Day(-(10**14))) == clashes(plan, timetable)
