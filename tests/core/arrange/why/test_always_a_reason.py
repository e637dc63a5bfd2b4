"""'Impossible' always brings a reason, also where the wishes' literals show none and the wishes are many."""

import pytest

from core.arrange.demand import DemandKind
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.speak.why import say_why_not
from core.arrange.why.answer import why_not
from core.arrange.why.giving_up import with_only, without
from core.arrange.why.narrowing import narrowed
from core.plan.kitchen import Heater
from core.plan.step import ClockTime, Heat, Keep
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, a_use, an_oven, hands_off

SEVEN_PM = "2026-09-26 19:00"


def bake(name: str, hour: int, minute: int, minutes: int):
    use = a_use("oven", heat=Heat(180, 180, 180))
    return a_dish(name, hands_off(f"{name}.bake", minutes, uses=(use,), clock=ClockTime(0, hour * 60 + minute)))


def out_and_in_again(pause: int, others: int = 0):
    """The roast is out at 18:00, the tart goes in so many minutes later, and beside them dishes that are easy.

    The oven is kept on for 10 min and takes 18 from cold, with nothing inside: a pause of 11 to 17 is none of both.
    """
    heater = Heater(from_cold=((180, 18),), keep_on=10)
    more = [a_dish(f"d{n}", a_step(f"d{n}.stir", minutes=1), keep=Keep(600)) for n in range(others)]
    dishes = (bake("roast", 17, 0, 60), bake("tart", 18, pause, 30), *more)
    return a_plan(*dishes, kitchen=a_kitchen(oven=an_oven(heater=heater)), plating=SEVEN_PM, transfer=0)


@pytest.mark.parametrize(("pause", "fits"), [(10, True), (11, False), (17, False), (18, True)])
def test_an_oven_that_would_heat_up_with_food_inside(pause, fits):
    answer = why_not(out_and_in_again(pause))
    assert answer.fit is (Fit.MEETS if fits else Fit.IMPOSSIBLE)
    assert bool(answer.reasons) is not fits


@pytest.mark.parametrize("others", [0, 60])
def test_its_reason_is_as_small_as_can_be_among_few_wishes_and_among_many(others):
    plan = out_and_in_again(15, others)
    answer = why_not(plan)
    assert (answer.fit, answer.proven) == (Fit.IMPOSSIBLE, True)
    (reason,) = answer.reasons
    assert {each.kind for each in reason.demands} == {DemandKind.CLOCK, DemandKind.HEAT}
    assert {each.step for each in reason.demands if each.step} == {"roast.bake", "tart.bake"}
    assert reason.minimal
    only = with_only(plan, reason.demands)
    assert possible(only).fit is Fit.IMPOSSIBLE
    for demand in reason.demands:
        assert possible(without(only, demand)).fit is Fit.MEETS
    assert say_why_not(plan, answer).startswith("These three cannot all be kept")


def test_kinds_are_narrowed_like_wishes():
    kinds = (DemandKind.CLOCK, DemandKind.HANDS, DemandKind.HEAT, DemandKind.OPENS)
    wanted = {DemandKind.CLOCK, DemandKind.HEAT}
    assert narrowed(kinds, wanted.issubset) == ((DemandKind.CLOCK, DemandKind.HEAT), True)
