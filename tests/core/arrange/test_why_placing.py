"""One pass through a feast: what keeps all meets, what cannot gives up wishes of its own, judged by the validator."""

from dataclasses import replace

import pytest

from core.arrange.demand import Demand, DemandKind
from core.arrange.effort import Effort
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.reading import read
from core.arrange.watch import Watch
from core.arrange.why import answer
from core.arrange.why.answer import why_not
from core.arrange.why.parts import without_a_start
from core.arrange.why.placing import tried
from core.arrange.why.repair import given_up
from core.plan.kitchen import Window
from core.plan.step import Keep
from tests.support.builders import (
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_use,
    burners,
    hands_off,
)


def watch(work: float = 5.0) -> Watch:
    return Watch(Effort(work=work), None)


def on_one_burner(count: int, keep: int):
    """Dishes of ten minutes on one burner: the last to be done begins 10 * count before serving."""
    dishes = [
        a_dish(f"d{number}", hands_off(f"d{number}.fry", 10, uses=(a_use(),), put_in=0, take_out=0), keep=Keep(keep))
        for number in range(count)
    ]
    return a_plan(*dishes, kitchen=a_kitchen(stations=burners(1)), transfer=0)


def test_a_feast_in_which_all_keep_their_wishes_meets():
    found = tried(on_one_burner(5, 40), watch())
    assert (found.dropped, found.hard) == ((), ())


def test_who_finds_no_place_gives_up_a_wish_of_its_own():
    plan = on_one_burner(5, 20)  # three fit into 20 minutes and the ten of the last
    found = tried(plan, watch())
    assert found.dropped is not None
    assert {demand.kind for demand in found.dropped} <= {DemandKind.KEEPS, DemandKind.SERVED}
    assert len(found.dropped) == 2 == len(found.hard)
    assert possible(plan).fit is Fit.IMPOSSIBLE
    assert possible(given_up(plan, found.dropped)).fit is Fit.MEETS


def test_the_opening_is_given_up_like_any_other_wish():
    plan = replace(on_one_burner(3, 40), opens=-25)
    found = tried(plan, watch())
    assert found.dropped == (Demand(DemandKind.OPENS),)
    assert possible(given_up(plan, found.dropped)).fit is Fit.MEETS


def test_without_work_nothing_is_said():
    spent = watch(0.0)
    assert tried(on_one_burner(2, 40), spent).dropped is None


def test_a_feast_that_counts_as_large_is_answered_by_a_pass(monkeypatch):
    monkeypatch.setattr(answer, "LARGE", 1)
    assert why_not(on_one_burner(5, 40)).fit is Fit.MEETS
    plan = three_and_a_touch()
    found = why_not(plan)
    assert found.fit is not Fit.MEETS
    assert found.reasons or found.repair is not None
    for reason in found.reasons:
        assert reason.demands
    if found.repair is not None:
        assert possible(given_up(plan, found.repair.demands)).fit is Fit.MEETS


def three_and_a_touch():
    """Three things on two burners that must all stand there in the same minutes, held there by waits alone."""
    steps = [hands_off(f"d{number}.fry", 10, uses=(a_use(),), put_in=0, take_out=0) for number in range(3)]
    ends = [a_step(f"d{number}.plate", minutes=1) for number in range(3)]
    dishes = [a_dish(f"d{number}", steps[number], ends[number], keep=Keep(4)) for number in range(3)]
    links = tuple(a_link(f"d{number}.fry", f"d{number}.plate", 0, 2) for number in range(3))
    return a_plan(*dishes, links=links, kitchen=a_kitchen(stations=burners(2)), transfer=0)


# ---- dishes in which a step could never begin


@pytest.mark.parametrize("most", [59, 60])
def test_hours_of_cooks_and_waits_together_leave_no_start(most):
    """Served from -5 to 0, after a wait of 20 min at least; the cook is away from -65 to -10, so it is cut by -65."""
    away = Window(0, 18 * 60 + 25, 19 * 60 + 20)
    steps = (a_step("ale.cut", minutes=10), a_step("ale.serve", minutes=5, keeps=Keep(0)))
    kitchen = a_kitchen(cooks=(a_cook("ann", breaks=(away,)),))
    plan = replace(a_bench(*steps, links=(a_link("ale.cut", "ale.serve", 20, most),), kitchen=kitchen), transfer=0)
    dishes = without_a_start(read(plan, asking=True))
    if most < 60:
        assert dishes == (frozenset({"ale.cut", "ale.serve"}),)
        assert possible(plan).fit is Fit.IMPOSSIBLE
        (reason,) = why_not(plan).reasons
        assert Demand(DemandKind.ABSENT, cook="ann") in reason.demands
        assert reason.minimal
    else:
        assert dishes == ()
        assert possible(plan).fit is Fit.MEETS
