"""The whole answer: what can be met, what the solver alone finds, long sets with their repair, and the words."""

from dataclasses import replace
from threading import Event

import pytest

from core.arrange.demand import Demand, DemandKind, demands_of
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.why import say_demand, say_reason, say_repair, say_why_not
from core.arrange.why.answer import LONG, why_not
from core.arrange.why.giving_up import with_only, without
from core.arrange.why.reason import ReasonKind, Repair
from core.arrange.why.repair import given_up
from core.plan.decisions import Order, Pin
from core.plan.kitchen import Heater, StationKind, Vessel
from core.plan.step import Attention, Keep, Touch, VesselUse
from core.timetable.clashes import clashes
from tests.core.arrange.test_why_giving_up import CASES
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    an_oven,
    at_oven,
    burners,
    hands_off,
)


def holds(plan, reason):
    """Check with whole plans that a reason is one and that nothing in it could be left out."""
    only = with_only(plan, reason.demands)
    assert possible(only).fit is Fit.IMPOSSIBLE
    assert reason.minimal
    for demand in reason.demands:
        assert possible(without(only, demand)).fit is Fit.MEETS


@pytest.mark.parametrize("name", CASES)
def test_a_wish_of_each_kind_is_in_the_reason_and_the_reason_holds(name):
    plan, demand = CASES[name]
    plan = replace(plan, transfer=0)
    answer = why_not(plan)
    assert (answer.fit, answer.proven) == (Fit.IMPOSSIBLE, True)
    assert any(demand in reason.demands for reason in answer.reasons)
    for reason in answer.reasons:
        holds(plan, reason)
        assert say_reason(plan, reason).endswith(".")


def test_a_timetable_with_clashes_of_a_plan_that_can_be_met():
    plan = a_bench(a_step("ale.stir", minutes=10), a_step("bun.stir", minutes=10), transfer=0)
    found = possible(plan).timetable
    both_at_once = replace(found, placed=tuple(replace(each, start=-10) for each in found.placed))
    assert clashes(plan, both_at_once) != ()
    answer = why_not(plan, both_at_once)
    assert (answer.fit, answer.reasons, answer.proven) == (Fit.MEETS, (), True)
    assert say_why_not(plan, answer) == "Everything can meet: arrange the plan again."


def three_on_two_burners(keep: int):
    """Each begins with a touch of 4 minutes by the one cook, and two fit on the hob."""
    touch = (Touch(0, 4),)
    dishes = [
        a_dish(name, a_step(f"{name}.fry", minutes=10, attention=Attention.TENDED, touches=touch, uses=(a_use(),),
                            put_in=0, take_out=0), keep=Keep(keep))
        for name in ("ale", "bun", "cod")
    ]  # fmt: skip
    return a_plan(*dishes, kitchen=a_kitchen(stations=burners(2)), transfer=0)


def test_what_no_sum_shows_the_solver_finds():
    # two at -18 and -14 with the one cook; the third after one of them is out, from -8: no later than -10, so never
    assert why_not(three_on_two_burners(14)).fit is Fit.MEETS
    plan = three_on_two_burners(9)
    answer = why_not(plan)
    assert answer.fit is Fit.IMPOSSIBLE
    for reason in answer.reasons:
        holds(plan, reason)


def many_in_a_row(count: int, room: int):
    """Work of one minute each that must lie in a window of `room` minutes, through two skills that one cook has."""
    cooks = (a_cook("ann", "cut", "stir"),)
    dishes = [a_dish(f"d{number}", a_step(f"d{number}.do", minutes=1), keep=Keep(room - 1)) for number in range(count)]
    return a_plan(*dishes, kitchen=a_kitchen(cooks=cooks), transfer=0)


def test_a_long_set_brings_the_least_repair():
    plan = many_in_a_row(6, 5)
    assert why_not(many_in_a_row(5, 5)).fit is Fit.MEETS
    answer = why_not(plan)
    (reason,) = answer.reasons
    assert (reason.kind, reason.need, reason.have, reason.over) == (ReasonKind.WORK, 6, 5, 1)
    assert len(reason.demands) == 13 > LONG
    assert answer.repair is not None
    assert len(answer.repair.demands) == 1
    assert answer.repair.demands[0].kind in {DemandKind.KEEPS, DemandKind.SERVED}
    assert possible(given_up(plan, answer.repair.demands)).fit is Fit.MEETS
    said = say_why_not(plan, answer)
    assert "From 19:25 to 19:30 at least 6 minutes of hands-on work must be done, and the cooks have 5" in said
    assert "All the rest can be kept if you give up one wish: D" in said


def test_a_stop_ends_the_question():
    stop = Event()
    stop.set()
    plan = three_on_two_burners(9)
    answer = why_not(plan, stop=stop)
    assert answer.fit is not Fit.MEETS
    assert answer.fit is Fit.IMPOSSIBLE or not answer.proven


def test_the_same_question_has_the_same_answer():
    plan = three_on_two_burners(9)
    assert why_not(plan) == why_not(plan)


# ---- words


def test_each_wish_in_words():
    plan = a_plan(
        a_dish("soup", hands_off("soup.boil", 30, earliest=-90, latest=-5, uses=(at_oven(),),
                                 vessels=(VesselUse("pot"),)),
               a_step("soup.season", minutes=5), keep=Keep(10)),
        a_dish("bun", hands_off("bun.bake", 30, uses=(at_oven(),))),
        links=(a_link("soup.boil", "soup.season", 0, 20),),
        kitchen=a_kitchen(oven=an_oven(heater=Heater(from_cold=())), vessels=(Vessel("pot", "Large pot", 2),)),
        pins=(Pin("bun.bake", start=-60, station="oven"),), orders=(Order("bun.bake", "soup.season"),), opens=-240,
    )  # fmt: skip
    assert {say_demand(plan, demand) for demand in demands_of(plan)} == {
        "Soup: Season begins at most 20 min after Soup: Boil is done",
        "Soup: Season keeps at most 10 min until it is served",
        "Soup: Season is done by 19:30, when it is wanted",
        "Bun: Bake is done by 19:30, when it is wanted",
        "Soup: Boil may not begin before 18:00",
        "Soup: Boil must be done by 19:25",
        "Bun: Bake is pinned to 18:30 and to the oven",
        "Bun: Bake comes before Soup: Season, as decided",
        "the oven has two racks",
        "the oven has one temperature at a time and takes time to change it",
        "there are two of Large pot",
        "there is one cook",
        "Ann is away at night and outside the hours given",
        "nothing begins before the plan opens at 15:30",
    }


def test_repairs_and_reasons_of_the_kitchen_in_words():
    plan, _demand = CASES["hours"]
    said = say_why_not(plan, why_not(replace(plan, transfer=0)))
    assert said == "Ale must be at Mixer from 19:29 to 19:30, when Mixer is not there."
    plan, _demand = CASES["vessels"]
    said = say_why_not(plan, why_not(replace(plan, transfer=0)))
    assert said == "Ale and Bun hold two of Pan from 19:10 to 19:30, and there is one: 20 min too many."
    plan, _demand = CASES["skill"]
    said = say_why_not(plan, why_not(replace(plan, transfer=0)))
    assert said == (
        "Ale and Bun need two cooks with the skill “cut” from 19:10 to 19:30, and there is one: 20 min too many."
    )
    burner = Demand(DemandKind.STATION, kind_of=StationKind.BURNER)
    assert say_repair(plan, Repair((burner,), best=True)) == (
        "All the rest can be kept if you give up one wish: there are four burners."
    )
