"""The supper without its flask: gravy, cheeks, beans and fritters want five of four burners. That is named."""

from dataclasses import replace

import pytest

import demo_data
from core.arrange.demand import Demand, DemandKind
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.why.answer import why_not
from core.arrange.why.giving_up import with_only, without
from core.arrange.why.repair import given_up
from core.intake.text_plan import read_text
from core.plan.edits import ChangeStep
from core.plan.ids import StepId
from core.plan.kitchen import StationKind


@pytest.fixture(scope="module")
def without_flask():
    """The gravy waits on a burner, and the cheeks never leave theirs."""
    supper = read_text(demo_data.text_of("harvest_supper.toml"))
    gravy = supper.steps["pork.gravy"]
    on_a_burner = replace(gravy.keeps, wait=supper.dishes["cheeks"].keep.wait)
    plan = ChangeStep(StepId("pork.gravy"), replace(gravy, keeps=on_a_burner)).change(supper)
    links = tuple(
        replace(link, most=0) if link.key[:2] == ("cheeks.reheat", "cheeks.finish") else link
        for link in plan.menu.links
    )
    return replace(plan, menu=replace(plan.menu, links=links))


def test_the_burners_are_named_with_those_who_want_them(without_flask):
    # gravy and cheeks until 19:27; beans on two at once for 5 min and the fritters' oil: five, and there are four
    answer = why_not(without_flask, work=8.0)  # a guard of the clock that a busy machine does not meet
    assert (answer.fit, answer.proven) == (Fit.IMPOSSIBLE, True)
    (reason,) = answer.reasons
    assert reason.minimal
    assert Demand(DemandKind.STATION, kind_of=StationKind.BURNER) in reason.demands
    dishes = {each.step.split(".")[0] for each in reason.demands if each.step}
    assert dishes == {"cheeks", "pork", "beans", "fritters"}
    only = with_only(without_flask, reason.demands)
    assert possible(only).fit is not Fit.MEETS
    for demand in reason.demands:
        assert possible(without(only, demand)).fit is not Fit.IMPOSSIBLE


def test_one_wish_given_up_mends_it(without_flask):
    answer = why_not(without_flask, work=8.0)  # a guard of the clock that a busy machine does not meet
    assert answer.repair is not None
    assert (len(answer.repair.demands), answer.repair.best) == (1, True)
    assert possible(given_up(without_flask, answer.repair.demands)).fit is Fit.MEETS
