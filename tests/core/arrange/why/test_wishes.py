"""What gives way when a few dishes are placed: little, the lightest of each set, and nothing where all fits."""

import pytest

from core.arrange.demand import DemandKind
from core.arrange.effort import Effort
from core.arrange.found import read_found
from core.arrange.model import build
from core.arrange.outcome import Fit
from core.arrange.possible import possible
from core.arrange.reading import read
from core.arrange.watch import Watch
from core.arrange.why.assumed import Assumed
from core.arrange.why.at_once import meets_at_once
from core.arrange.why.placing import not_kept, tried
from core.arrange.why.repair import given_up
from core.arrange.why.weights import EACH, WEIGHT
from core.arrange.why.wishes import Wishes
from core.plan.step import Keep
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, burners, hands_off


def watch(work: float = 5.0) -> Watch:
    return Watch(Effort(work=work), None)


def on_burners(count: int, keep: int, there: int = 1):
    """Dishes of ten minutes each, kept so long."""
    dishes = [
        a_dish(f"d{number}", hands_off(f"d{number}.fry", 10, uses=(a_use(),)), keep=Keep(keep))
        for number in range(count)
    ]
    return a_plan(*dishes, kitchen=a_kitchen(stations=burners(there)), transfer=0)


def given(plan, *, alone: bool = False, work: float = 5.0):
    """Return the wishes that are not kept when all dishes of a plan are placed together; None: not placed."""
    problem = read(plan, asking=True)
    wishes = Wishes.of(problem, range(len(problem.tasks)))
    model = build(wishes.problem, aims=False)
    solver = wishes.kept(model, watch(work), model.board.latest, alone=alone)
    return None if solver is None else not_kept(problem, read_found(model, solver))


# the last to be done of n begins 10 n before serving and waits 10 (n - 1): three fit where each keeps 20
@pytest.mark.parametrize(("count", "keep", "many"), [(3, 20, 0), (3, 19, 1), (4, 20, 1), (6, 20, 3)])
def test_as_many_give_way_as_must(count, keep, many):
    plan = on_burners(count, keep)
    dropped = given(plan)
    assert len(dropped) == many
    assert possible(plan).fit is (Fit.IMPOSSIBLE if many else Fit.MEETS)
    assert possible(given_up(plan, dropped)).fit is Fit.MEETS


def test_the_lighter_wish_gives_way():
    # 30 min between two steps with the clock's times at most 10 apart: the wait gives, not the limit
    soup = a_dish("soup", a_step("soup.boil", minutes=5, latest=-40), a_step("soup.pour", minutes=5), keep=Keep(0))
    plan = a_plan(soup, links=(a_link("soup.boil", "soup.pour", 0, 10),), transfer=0)
    assert WEIGHT[DemandKind.MOST_WAIT] < WEIGHT[DemandKind.LATEST]
    assert [each.kind for each in given(plan)] == [DemandKind.MOST_WAIT]


def test_without_work_nothing_is_placed():
    assert given(on_burners(2, 40), work=0.0) is None


def test_a_dish_alone_gives_up_what_it_must_though_no_set_was_found(monkeypatch):
    monkeypatch.setattr("core.arrange.why.wishes.core_among", lambda *_some: ())
    plan = on_burners(4, 20)
    assert given(plan) is None
    dropped = given(plan, alone=True)
    assert possible(given_up(plan, dropped)).fit is Fit.MEETS


def test_a_pass_through_many_dishes_gives_up_one_for_each_too_many():
    found = tried(on_burners(12, 20, there=3), watch())  # nine fit
    assert len(found.dropped) == 3
    assert len(found.hard) == 3


# ---- the least repair of a whole plan


def lightest(plan):
    assumed = Assumed(read(plan, asking=True), watch())
    return assumed.lightest({each: EACH + WEIGHT[each.kind] for each in assumed.wishes}, 2.0)


def test_two_sets_with_nothing_in_common_need_two_wishes_and_no_fewer():
    one = [hands_off(f"d{n}.fry", 10, uses=(a_use(),)) for n in range(2)]
    other = [hands_off(f"e{n}.stir", 10, uses=(a_use("machine"),)) for n in range(2)]
    dishes = [a_dish(step.id.split(".")[0], step, keep=Keep(0)) for step in (*one, *other)]
    mixer = burners(1)[0]
    stations = (mixer, type(mixer)("mixer", "Mixer", a_use("machine").kind, 1))
    plan = a_plan(*dishes, kitchen=a_kitchen(stations=stations), transfer=0)
    found = lightest(plan)
    assert (len(found.demands), found.best) == (2, True)
    assert possible(given_up(plan, found.demands)).fit is Fit.MEETS
    for demand in found.demands:
        assert possible(given_up(plan, (demand,))).fit is Fit.IMPOSSIBLE


def test_sets_that_share_a_wish_are_not_called_the_least():
    found = lightest(on_burners(4, 10))  # two fit: of any three one is too many
    assert len(found.demands) == 2
    assert not found.best


# ---- one look at the whole


def test_one_look_finds_what_fits_and_proves_nothing():
    assert meets_at_once(on_burners(3, 20), watch(), 0.5) is True
    assert meets_at_once(on_burners(3, 19), watch(), 0.5) is False
    assert meets_at_once(on_burners(3, 20), watch(0.0), 0.5) is None
