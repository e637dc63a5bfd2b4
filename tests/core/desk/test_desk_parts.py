"""The desk's parts: what was touched, who is told, how many steps are kept, what is left of a timetable."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.desk.change import touched
from core.desk.history import MOST_STEPS, History, State
from core.desk.listeners import Listeners
from core.desk.seen import still_there
from core.plan import edits
from core.plan.decisions import Wishes
from core.plan.ids import CookId, DishId, StationId, StepId
from core.plan.step import Loads, Manner
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing
from tests.support.builders import (
    ANN,
    OVEN,
    a_bench,
    a_cook,
    a_dish,
    a_kitchen,
    a_link,
    a_plan,
    a_step,
    a_vessel,
    an_oven,
)

CHOP, BOIL, BAKE = StepId("soup.chop"), StepId("soup.boil"), StepId("pie.bake")
PLAN = a_bench(
    a_step(CHOP),
    a_step(BOIL),
    a_step(BAKE, loads=Loads(8, 4)),
    links=(a_link(CHOP, BOIL),),
    kitchen=a_kitchen(vessels=(a_vessel("pot"),)),
)


@pytest.mark.parametrize(
    ("edit", "ids"),
    [
        (edits.RenameDish(DishId("soup"), "Broth"), {"soup"}),
        (edits.ChangeStep(CHOP, a_step(CHOP, minutes=3)), {CHOP}),
        (edits.AddStep(DishId("soup"), a_step("soup.stir")), {"soup", "soup.stir"}),
        (edits.RemoveStep(CHOP), {"soup", CHOP, BOIL}),
        (edits.MoveStepInDish(CHOP, 1), {"soup"}),
        (edits.AddDish(a_dish("tart", a_step("tart.cut"))), {"tart", "tart.cut"}),
        (edits.MoveDish(DishId("pie"), 0), {"soup", "pie"}),
        (edits.AddLink(a_link(BOIL, BAKE)), {BOIL, BAKE}),
        (edits.RemoveLink(PLAN.menu.links[0].key), {CHOP, BOIL}),
        (edits.AddStation(an_oven("oven-2")), {"oven-2"}),
        (edits.ChangeVessel(PLAN.kitchen.vessels[0].id, a_vessel(count=2)), {"pot"}),
        (edits.ChangeCook(ANN, a_cook(night=None)), {"ann"}),
        (edits.PinStep(BOIL, start=-20), {BOIL}),
        (edits.Choose(BOIL, 0), {BOIL}),
        (edits.SetLength(BOIL, Manner.HIGH), {BOIL}),
        (edits.AddOrder(CHOP, BAKE), {CHOP, BAKE}),
        (edits.SetWishes(Wishes(9)), set()),
        (edits.SetManner(Manner.HIGH), set()),
        (edits.RenameKitchen("Hall"), set()),
        (edits.RenamePlan("Supper"), set()),
    ],
)
def test_touched_are_the_ids_of_what_differs(edit: edits.Edit, ids: set[str]) -> None:
    after = edit(PLAN)
    assert touched(PLAN, after) == ids
    assert touched(after, PLAN) == ids


def test_nothing_is_touched_when_nothing_changed() -> None:
    assert touched(PLAN, PLAN) == frozenset()
    assert touched(PLAN, replace(PLAN)) == frozenset()


def test_the_oldest_steps_are_forgotten() -> None:
    history = History(State(PLAN))
    for number in range(MOST_STEPS + 5):
        history.record(State(replace(PLAN, name=f"{number}")), f"step {number}")
    undone = 0
    while history.undo_label is not None:
        history.undo()
        undone += 1
    assert undone == MOST_STEPS
    assert history.now.plan.name == "4"


def test_all_listeners_hear_all_news_in_order() -> None:
    listeners: Listeners[int] = Listeners()
    heard: list[tuple[str, int]] = []

    def first(news: int) -> None:
        heard.append(("first", news))
        if news < 3:
            listeners.tell(news + 1)

    listeners.listen(first)
    listeners.listen(lambda news: heard.append(("second", news)))
    listeners.tell(1)
    assert heard == [(who, news) for news in (1, 2, 3) for who in ("first", "second")]


def test_a_listener_that_fails_keeps_nobody_from_hearing() -> None:
    listeners: Listeners[int] = Listeners()
    heard: list[int] = []

    def fail(news: int) -> None:
        raise KeyError(news)

    stop = listeners.listen(fail)
    listeners.listen(heard.append)
    with pytest.raises(KeyError):
        listeners.tell(1)
    stop()
    stop()
    listeners.tell(2)
    assert heard == [1, 2]


def test_who_stops_listening_meanwhile_hears_no_more() -> None:
    listeners: Listeners[int] = Listeners()
    heard: list[str] = []
    listeners.listen(lambda _news: stop())
    stop = listeners.listen(lambda _news: heard.append("late"))
    listeners.tell(1)
    assert heard == []


def test_one_callback_may_listen_twice() -> None:
    listeners: Listeners[int] = Listeners()
    heard: list[int] = []
    stop = listeners.listen(heard.append)
    listeners.listen(heard.append)
    listeners.tell(1)
    stop()
    listeners.tell(2)
    assert heard == [1, 1, 2]


BEN, OLD = CookId("ben"), StationId("old")
WHOLE = Timetable(
    (
        Placed(CHOP, -90, 10, hands=(Hand(-90, 10, ANN), Hand(-85, 2, None))),
        Placed(BAKE, -60, 10, 0, (Spot(OVEN, 1), Spot(OVEN, 1)), 180),
        Placed(BAKE, -50, 10, 1, (Spot(OVEN, 1),), 180),
    ),
    (Stay(CHOP, BOIL, -80, -70, spots=(Spot(StationId("fridge"), 1, 0),)), Stay(BAKE, None, -40, 0)),
    (Heating(OVEN, -80, -60, 180, ANN), Heating(OVEN, -20, -10, 180)),
)


def test_a_timetable_that_fits_stays_the_very_same() -> None:
    assert still_there(WHOLE, PLAN) is WHOLE
    assert still_there(None, PLAN) is None


def test_steps_loads_stations_and_cooks_that_are_gone_leave_the_timetable() -> None:
    gone = Timetable(
        (
            *WHOLE.placed,
            Placed(StepId("tart.cut"), -9, 9),
            Placed(BAKE, -40, 10, 2),
            Placed(BOIL, -70, 10, spots=(Spot(OLD), Spot(StationId("burner-1"))), hands=(Hand(-70, 1, BEN),)),
        ),
        (
            *WHOLE.stays,
            Stay(StepId("tart.cut"), None, -9, 0),
            Stay(CHOP, StepId("tart.cut"), -9, 0),
            Stay(BOIL, None, -60, 0, spots=(Spot(OLD),)),
        ),
        (*WHOLE.heatings, Heating(OLD, -30, -20, 180), Heating(OVEN, -200, -190, 180, BEN)),
    )
    left = still_there(gone, PLAN)
    assert left == Timetable(
        (
            *WHOLE.placed,
            Placed(BOIL, -70, 10, spots=(Spot(StationId("burner-1")),), hands=(Hand(-70, 1, None),)),
        ),
        (*WHOLE.stays, Stay(BOIL, None, -60, 0)),
        (*WHOLE.heatings, Heating(OVEN, -200, -190, 180, None)),
    )


def test_loads_that_cannot_be_counted_stay() -> None:
    plan = a_plan(a_dish("pie", a_step(BAKE, loads=Loads(8, 0))))
    assert still_there(Timetable((Placed(BAKE, -40, 10, 7),)), plan) == Timetable((Placed(BAKE, -40, 10, 7),))


def test_washings_stay_while_their_vessel_and_their_run_are_there() -> None:
    pot, pan = a_vessel("pot"), a_vessel("pan")
    plan = a_plan(a_dish("soup", a_step(BOIL)), kitchen=a_kitchen(vessels=(pot,)))
    kept, by_nobody = Washing(pot.id, -40, 5, BOIL, ANN), Washing(pot.id, -20, 5, BOIL, None)
    gone = (Washing(pan.id, -40, 5, BOIL, ANN), Washing(pot.id, -40, 5, StepId("tart.cut"), ANN))
    seen = Timetable(washings=(kept, *gone, Washing(pot.id, -20, 5, BOIL, BEN)))
    assert still_there(seen, plan) == Timetable(washings=(kept, by_nobody))
    assert still_there(Timetable(washings=(kept,)), plan) == Timetable(washings=(kept,))
