"""Each step of the ladder after a drop, on both sides of where it is enough: seen, pushed, a part, none."""

from dataclasses import replace

import pytest

from bench.feasts import feast
from core.arrange import Fit
from core.arrange.facts import without_dropped
from core.arrange.reading import read
from core.arrange.reflow_part import alone, cut
from core.arrange.reflow_rings import Rings
from core.arrange.reflow_seen import Seen
from core.arrange.reflowing import reflow
from core.plan.edits import PinStep, PinSteps
from core.plan.kitchen import Station, StationKind
from core.plan.step import Keep, Use
from core.timetable.clashes import clashes
from core.timetable.facts import Facts
from tests.core.arrange.arranged import ALWAYS_HOT, bake, meets, starts
from tests.core.arrange.ruled import between, kitchen
from tests.support.builders import a_cook, a_dish, a_plan, a_step, an_oven, burners, chained, hands_off

BURNER = (Use(StationKind.BURNER),)


def dropped(plan, seen, step, by):
    """Return the plan with a step pinned so many minutes from where it was seen, and the answer."""
    pinned = PinStep(step, 0, seen.at[step, 0].start + by)(plan)
    return pinned, reflow(pinned, seen)


def moved(found, seen):
    """Return by how much each load moved that did."""
    was = starts(seen)
    return {step: at - was[step] for step, at in starts(found.timetable).items() if at != was[step]}


def soup_and_rice():
    """Soup of two steps that may wait ten minutes between; rice on the other burner; no cooks are wanted."""
    soup = (hands_off("soup.boil", 20, uses=BURNER), hands_off("soup.rest", 10))
    dishes = (
        a_dish("soup", *soup, keep=Keep(30)),
        a_dish("rice", hands_off("rice.boil", 15, uses=BURNER), keep=Keep(60)),
    )
    return a_plan(*dishes, links=chained(*soup, least=0, most=10), kitchen=kitchen(*burners(2)), transfer=0)


def in_turn(count=3, stations=1, keep=60):
    """So many dishes of ten minutes on so many burners, served together."""
    dishes = [
        a_dish(name, hands_off(f"{name}.boil", 10, uses=BURNER), keep=Keep(keep)) for name in "abcdefgh"[:count]
    ]
    return a_plan(*dishes, kitchen=kitchen(*burners(stations)), transfer=0)


def test_what_was_seen_is_the_answer_where_nothing_changed():
    plan = in_turn()
    seen = meets(plan)
    found = reflow(plan, seen)
    assert found.timetable.placed == seen.placed
    assert found.rounds == 0


@pytest.mark.parametrize("by", [-1, -10])
def test_what_waits_alone_push_is_found_without_a_search(by):
    plan = soup_and_rice()
    seen = meets(plan)
    pinned, found = dropped(plan, seen, "soup.rest", by)
    assert found.fit is Fit.MEETS
    assert found.rounds == 0
    assert moved(found, seen) == {"soup.rest": by, "soup.boil": by}  # they stood close together
    assert clashes(pinned, found.timetable) == ()


def test_a_drop_past_what_the_food_keeps_is_refused_without_a_search_and_one_minute_less_is_not():
    plan = soup_and_rice()
    seen = meets(plan)
    rest = seen.at["soup.rest", 0]
    furthest = -30 - rest.end
    _pinned, found = dropped(plan, seen, "soup.rest", furthest)
    assert found.fit is Fit.MEETS
    _pinned, none = dropped(plan, seen, "soup.rest", furthest - 1)
    assert none is None


def test_where_a_burner_is_taken_another_makes_way_and_nothing_else_moves():
    plan = in_turn(4)
    seen = meets(plan)
    order = sorted(starts(seen), key=lambda step: seen.at[step, 0].start)
    pinned, found = dropped(plan, seen, order[0], 10)  # onto the second
    assert found.fit is Fit.MEETS
    assert found.rounds > 0
    assert clashes(pinned, found.timetable) == ()
    assert moved(found, seen) == {order[0]: 10, order[1]: -10}


def test_where_another_burner_is_free_nobody_makes_way():
    plan = in_turn(3, stations=4)
    seen = meets(plan)
    _pinned, found = dropped(plan, seen, "a.boil", -5)
    assert moved(found, seen) == {"a.boil": -5}


@pytest.mark.parametrize(("by", "holds"), [(0, True), (1, False)])
def test_nobody_there_is_told_at_once(by, holds):
    # chopping takes ten minutes; the only cook has a break from -60 to -40
    step = a_step("a.chop", minutes=10)
    cooks = (a_cook("ann", breaks=(between(-60, -40),)),)
    plan = a_plan(a_dish("a", step, keep=Keep(120)), kitchen=kitchen(cooks=cooks))
    seen = meets(plan)
    pinned = PinStep("a.chop", 0, -70 + by)(plan)
    found = reflow(pinned, seen)
    assert (found is not None) == holds


@pytest.mark.parametrize(("gap", "holds"), [(20, True), (19, False)])
def test_two_pins_on_one_burner(gap, holds):
    """Twenty minutes each on one burner: pinned closer than that nothing fits, however much else moves."""
    dishes = [a_dish(name, hands_off(f"{name}.boil", 20, uses=BURNER), keep=Keep(240)) for name in "ab"]
    plan = a_plan(*dishes, kitchen=kitchen(*burners(1)), transfer=0)
    seen = meets(plan)
    pinned = PinStep("b.boil", 0, -100 + gap)(PinStep("a.boil", 0, -100)(plan))
    found = reflow(pinned, seen)
    assert (found is not None and found.fit is Fit.MEETS) == holds


def test_the_same_drop_gives_the_same_answer():
    plan = in_turn(6, stations=2, keep=90)
    seen = meets(plan)
    answers = [dropped(plan, seen, "c.boil", -15)[1] for _each in range(2)]
    assert answers[0] == answers[1]


def test_the_first_that_holds_is_heard_and_the_last_moves_no_more():
    plan = in_turn(6, keep=90)
    seen = meets(plan)
    order = sorted(starts(seen), key=lambda step: seen.at[step, 0].start)
    pinned = PinStep(order[-1], 0, seen.at[order[0], 0].start)(plan)
    heard = []
    found = reflow(pinned, seen, better=heard.append)
    assert heard
    amounts = [sum(map(abs, moved(each, seen).values())) for each in heard]
    assert amounts == sorted(set(amounts), reverse=True)
    assert all(clashes(pinned, each.timetable) == () for each in heard)
    assert found.timetable == heard[-1].timetable


def test_what_does_not_move_keeps_its_cook():
    steps = [a_step(f"{name}.chop", minutes=10) for name in "abcd"]
    dishes = [a_dish(step.id[0], step, keep=Keep(120)) for step in steps]
    plan = a_plan(*dishes, kitchen=kitchen(cooks=(a_cook("ann"), a_cook("ben"))))
    seen = meets(plan)
    first = min(seen.placed, key=lambda each: each.start)
    _pinned, found = dropped(plan, seen, first.step, 10)
    still = [each for each in found.timetable.placed if each.start == seen.at[each.key].start]
    assert still
    assert all(each == seen.at[each.key] for each in still)


def test_an_oven_is_switched_on_with_what_comes_first_into_it():
    dishes = (bake("a", 20, 180, keep=200), bake("b", 30, 180, keep=0))
    plan = a_plan(*dishes, kitchen=kitchen(an_oven()), transfer=1)
    seen = meets(plan)
    pinned, found = dropped(plan, seen, "a.bake", -150 - seen.at["a.bake", 0].start)
    assert found.fit is Fit.MEETS
    assert clashes(pinned, found.timetable) == ()
    assert -150 in {each.end for each in found.timetable.heatings}
    assert seen.at["b.bake", 0].start == found.timetable.at["b.bake", 0].start


def of(plan, seen):
    return Seen(read(without_dropped(plan, None)), Facts(plan), seen)


def test_a_part_holds_only_what_shares_a_station_with_what_moves():
    dishes = [
        a_dish("a", hands_off("a.boil", 10, uses=BURNER), keep=Keep(60)),
        a_dish("b", hands_off("b.boil", 10, uses=BURNER), keep=Keep(60)),
        bake("c", 20, 180),
        a_dish("d", hands_off("d.soak", 20), keep=Keep(60)),
    ]
    plan = a_plan(*dishes, kitchen=kitchen(*burners(1), an_oven(heater=ALWAYS_HOT)), transfer=0)
    seen = of(plan, meets(plan))
    index = seen.problem.index["a.boil", 0]
    part = cut(seen, {index}, 120)
    assert [task.step.id for task in part.problem.tasks] == ["a.boil", "b.boil"]
    assert part.moving == {index}
    assert part.problem.tasks[1].begun is not None
    assert [task.step.id for task in alone(seen, {index}).problem.tasks] == ["a.boil"]


def test_a_part_whose_waits_contradict_what_stays_is_none():
    plan = soup_and_rice()
    seen = meets(plan)
    pinned = PinStep("soup.rest", 0, seen.at["soup.rest", 0].start - 11)(plan)
    there = of(pinned, seen)
    rest, boil = (there.problem.index[step, 0] for step in ("soup.rest", "soup.boil"))
    assert cut(there, {rest}, 120) is None
    assert cut(there, {rest, boil}, 120) is not None


@pytest.mark.parametrize(("rings", "told"), [(3, True), (2, False)])
def test_rings_are_given_as_long_as_there_are_enough(rings, told):
    names = "abc"
    dishes = [a_dish(name, hands_off(f"{name}.boil", 10, uses=BURNER), keep=Keep(60)) for name in names]
    stove = Station("stove", "Stove", StationKind.BURNER, 3)
    plan = a_plan(*dishes, kitchen=kitchen(stove), transfer=0)
    timetable = meets(plan)
    at_once = replace(timetable, placed=tuple(replace(each, start=-20) for each in timetable.placed), stays=())
    seen = of(plan, at_once)
    there = seen.things["stove"]
    given = [Rings(seen.problem).of(replace(stove, units=rings), there, thing) for thing in there]
    if told:
        assert sorted(slot for slots in given for slot in slots) == [("stove", -3), ("stove", -2), ("stove", -1)]
    else:
        assert given == [None, None, None]


# ---- many dishes beside


def fillers(count):
    return [a_dish(f"rest{n}", hands_off(f"rest{n}.stand", 30), keep=Keep(600)) for n in range(count)]


@pytest.mark.parametrize("count", [5, 170])
def test_others_make_way_for_a_step_that_has_no_place_yet(count):
    """Three boils of ten minutes stand on the one burner one after the other; a fourth one comes."""
    boils = [a_dish(f"b{n}", a_step(f"b{n}.boil", minutes=10, uses=BURNER), keep=Keep(60)) for n in range(3)]
    there = kitchen(*burners(1), cooks=1)
    seen = meets(a_plan(*boils, *fillers(count), kitchen=there, transfer=0))
    last = a_dish("b3", a_step("b3.boil", minutes=10, uses=BURNER), keep=Keep(0))
    more = a_plan(*boils, last, *fillers(count), kitchen=there, transfer=0)
    outcome = reflow(more, seen)
    assert outcome is not None
    assert outcome.fit is Fit.MEETS
    assert clashes(more, outcome.timetable) == ()


def test_a_large_feast_is_looked_at_as_a_whole_where_parts_lead_nowhere():
    drawn = feast(29)
    key = ("squash-3.season", 0)
    pinned = PinStep(*key, drawn.planted.at[key].start + 30)(drawn.plan)
    outcome = reflow(pinned, drawn.planted, limit=8.0)
    assert outcome is not None
    assert outcome.fit is Fit.MEETS
    assert clashes(pinned, outcome.timetable) == ()


def test_two_pins_at_once_are_pushed_without_the_solver():
    dishes = [a_dish(name, hands_off(f"{name}.stand", 20), keep=Keep(90)) for name in ("a", "b")]
    plan = a_plan(*dishes, kitchen=kitchen(), transfer=0)
    seen = meets(plan)
    pins = PinSteps(tuple(PinStep(f"{name}.stand", 0, seen.at[f"{name}.stand", 0].start - 10) for name in ("a", "b")))
    outcome = reflow(pins.change(plan), seen)
    assert outcome is not None
    assert outcome.rounds == 0
    assert starts(outcome.timetable) == {"a.stand": -30, "b.stand": -30}
