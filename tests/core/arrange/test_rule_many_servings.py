"""Several servings, clock times, clock changes, links of all kinds, cold places: each alone decides."""

import pytest

from core.plan.decisions import LengthOf
from core.plan.kitchen import Shelf, Station, StationKind, Window
from core.plan.menu import LinkKind
from core.plan.step import ClockTime, Holding, Keep, Loads, Manner, Use, Wait
from tests.core.arrange.arranged import meets, starts
from tests.core.arrange.ruled import fits, kitchen
from tests.support.builders import (
    a_bench,
    a_dish,
    a_link,
    a_plan,
    a_step,
    burners,
    chained,
    hands_off,
)

BURNER = (Use(StationKind.BURNER),)


# ---- several servings


def served(name: str, minutes: int, course: int, keep: int | None = 0, uses=BURNER, **fields):
    return a_dish(
        name, hands_off(f"{name}.cook", minutes, uses=uses), course=course, keep=Keep(keep), **fields
    )


def test_each_dish_is_done_for_its_own_serving():
    dishes = (served("punch", 10, -30), served("soup", 10, 0), served("tart", 10, 75))
    found = starts(meets(a_plan(*dishes, kitchen=kitchen(*burners(1)), transfer=0)))
    assert found == {"punch.cook": -40, "soup.cook": -10, "tart.cook": 65}


@pytest.mark.parametrize(("minutes", "fit"), [(75, True), (76, False)])
def test_what_is_served_later_may_begin_when_the_burner_is_free(minutes, fit):
    dishes = (served("soup", 10, 0), served("tart", minutes, 75))
    assert fits(a_plan(*dishes, kitchen=kitchen(*burners(1)), transfer=0)) is fit


@pytest.mark.parametrize(("keep", "fit"), [(75, True), (74, False)])
def test_it_keeps_until_its_own_serving(keep, fit):
    # the tart is baked on the one burner before the soup, so it is done by 0: or after it
    dishes = (served("soup", 10, 10), served("tart", 70, 75, keep))
    plan = a_plan(*dishes, kitchen=kitchen(*burners(1)), transfer=0)
    # after the soup there are 65 minutes, five too few
    assert fits(plan) is fit


@pytest.mark.parametrize(("course", "fit"), [(-10, True), (-11, True), (-90, True), (-91, False)])
def test_a_component_is_not_served_but_done_by_its_course(course, fit):
    # a stock for nobody's table, ten minutes of a day that begins at -100; then it waits as long as one likes
    stock = served("stock", 10, course, 0)
    assert fits(a_plan(stock, kitchen=kitchen(*burners(1)), transfer=0, opens=-100)) is fit
    plain = a_dish("stock", stock.steps[0], served=False, course=course)
    # the burner is free from the start until -50 only
    soup = a_dish("soup", hands_off("soup.cook", 50, uses=BURNER), keep=Keep(0))
    both = a_plan(plain, soup, kitchen=kitchen(*burners(1)), transfer=0, opens=-100)
    assert fits(both) is fit


# ---- by the clock


@pytest.mark.parametrize(("minutes", "fit"), [(30, True), (31, False)])
def test_the_clock_sets_the_start(minutes, fit):
    # the fish comes at 19:00, plating is at 19:30
    step = hands_off("fish.cook", minutes, clock=ClockTime(0, 19 * 60))
    plan = a_plan(a_dish("fish", step), kitchen=kitchen())
    assert fits(plan) is fit
    if fit:
        assert starts(meets(plan)) == {"fish.cook": -30}


@pytest.mark.parametrize(("minute", "fit"), [(19 * 60, True), (19 * 60 + 1, False), (18 * 60 + 59, False)])
def test_the_clock_and_a_limit_must_agree(minute, fit):
    step = hands_off("fish.cook", 30, clock=ClockTime(0, minute))
    assert fits(a_plan(a_dish("fish", step, keep=Keep(0)), kitchen=kitchen())) is fit


def test_the_clock_sets_the_first_load():
    step = hands_off("fish.cook", 5, clock=ClockTime(0, 19 * 60), loads=Loads(3, 1))
    found = starts(meets(a_plan(a_dish("fish", step), kitchen=kitchen())))
    assert found["fish.cook"] == -30
    assert found["fish.cook/2"] >= -25


# ---- changes of the clock

AUTUMN, SPRING = "2026-10-25 12:30", "2026-03-29 12:30"  # London: 02:00 to 01:00, and 01:00 to 02:00


@pytest.mark.parametrize(
    ("plating", "minutes"),
    [(AUTUMN, 17 * 60 + 30), (SPRING, 15 * 60 + 30), ("2026-09-27 12:30", 16 * 60 + 30)],
)
def test_between_two_clock_times_lie_the_minutes_that_pass(plating, minutes):
    # from 20:00 the evening before to 12:30
    def plan(length: int):
        step = hands_off("stock.simmer", length, clock=ClockTime(1, 20 * 60))
        return a_plan(a_dish("stock", step), kitchen=kitchen(), plating=plating)

    assert fits(plan(minutes))
    assert not fits(plan(minutes + 1))
    assert starts(meets(plan(minutes))) == {"stock.simmer": -minutes}


@pytest.mark.parametrize(
    ("plating", "night"), [(AUTUMN, 9 * 60), (SPRING, 7 * 60), ("2026-09-27 12:30", 8 * 60)]
)
def test_the_night_is_longer_or_shorter(plating, night):
    # mixed before 23:00, shaped from 07:00 on, and no wait in between; it must not begin before 22:00
    def plan(prove: int):
        steps = (
            a_step("bread.mix", minutes=10, clock=ClockTime(1, 22 * 60 + 50)),
            hands_off("bread.prove", prove),
            a_step("bread.shape", minutes=10),
        )
        return a_bench(*steps, links=chained(*steps, most=0), kitchen=kitchen(), plating=plating)

    assert fits(plan(night))
    assert not fits(plan(night - 1))


@pytest.mark.parametrize(("plating", "hours"), [(AUTUMN, 11), (SPRING, 9), ("2026-09-27 12:30", 10)])
def test_a_cool_box_is_cold_by_the_clock(plating, hours):
    # from 22:00 the evening before to 08:00
    box = Station(
        "box", "Cool box", StationKind.FRIDGE, 0, (Shelf(500, 20),), hours=(Window(1, 22 * 60, 32 * 60),)
    )

    def plan(minutes: int):
        step = hands_off("trout.cure", minutes, uses=(Use(StationKind.FRIDGE, area=400),))
        return a_plan(a_dish("trout", step), kitchen=kitchen(box), plating=plating, transfer=0)

    assert fits(plan(hours * 60))
    assert not fits(plan(hours * 60 + 1))


# ---- cold places


def box(*hours: Window) -> Station:
    return Station("box", "Cool box", StationKind.FRIDGE, 0, (Shelf(500, 20),), hours=hours)


@pytest.mark.parametrize(("keep", "fit"), [(90, True), (89, False)])
def test_what_is_kept_in_a_cool_box_until_it_is_served_needs_its_ice_until_then(keep, fit):
    # cold from 18:00 to 19:30; the mousse is done by 18:00 where its maker leaves at 18:00, so it waits 90
    cold = Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, area=400))
    step = a_step("mousse.fold", minutes=10, latest=-90)
    ice = box(Window(0, 18 * 60, 19 * 60 + 30))
    assert (
        fits(a_plan(a_dish("mousse", step, keep=Keep(keep, cold)), kitchen=kitchen(ice), transfer=0)) is fit
    )
    soon_warm = box(Window(0, 18 * 60, 19 * 60 + 29))
    assert not fits(
        a_plan(a_dish("mousse", step, keep=Keep(keep, cold)), kitchen=kitchen(soon_warm), transfer=0)
    )


def chilled(name: str, minutes: int, keep: int, *, raw: bool = False, area: int = 600):
    use = Use(StationKind.FRIDGE, area=area, height=5, raw=raw)
    return a_dish(name, hands_off(f"{name}.chill", minutes, uses=(use,)), keep=Keep(keep))


@pytest.mark.parametrize(("raw", "keep", "fit"), [(True, 60, True), (True, 59, False), (False, 0, True)])
def test_raw_things_follow_each_other_on_the_lowest_shelf(raw, keep, fit):
    fridge = Station("fridge", "Fridge", StationKind.FRIDGE, 0, (Shelf(1000, 10), Shelf(1000, 10)))
    dishes = (chilled("pork", 60, 0, raw=True), chilled("hen", 60, keep, raw=raw))
    assert fits(a_plan(*dishes, kitchen=kitchen(fridge), transfer=0)) is fit


@pytest.mark.parametrize(("area", "fit"), [(400, True), (401, False)])
def test_beside_the_raw_there_may_be_others_on_the_lowest_shelf(area, fit):
    fridge = Station("fridge", "Fridge", StationKind.FRIDGE, 0, (Shelf(1000, 10), Shelf(600, 10)))
    dishes = (
        chilled("pork", 60, 0, raw=True),
        chilled("jelly", 60, 0),
        chilled("dough", 60, 0, area=area),
    )
    assert fits(a_plan(*dishes, kitchen=kitchen(fridge), transfer=0)) is fit


# ---- links from start to start and from end to end


def bound(kind: LinkKind, least: int, most: int | None, one=None, other=None, keep: int = 100):
    """Return rice, then a plate bound to it, on the table at once; rice takes 20 min, the plate 8."""
    rice = one or hands_off("rice.boil", 20)
    plate = other or hands_off("plate.heat", 8)
    dishes = (a_dish("rice", rice, keep=Keep(keep)), a_dish("plate", plate, keep=Keep(0)))
    return a_plan(
        *dishes, links=(a_link("rice.boil", "plate.heat", least, most, kind=kind),), kitchen=kitchen()
    )


@pytest.mark.parametrize(("most", "keep", "fit"), [(0, 0, True), (5, 5, True), (None, 0, True)])
def test_end_to_end_they_are_done_together(most, keep, fit):
    plan = bound(LinkKind.END_TO_END, 0, most, keep=keep)
    assert fits(plan) is fit
    assert starts(meets(plan)) == {"rice.boil": -20, "plate.heat": -8}


@pytest.mark.parametrize(
    ("least", "most", "keep", "fit"), [(3, 3, 3, True), (3, 3, 2, False), (3, None, 2, False)]
)
def test_end_to_end_with_a_lag(least, most, keep, fit):
    # the plate is hot three minutes after the rice is done, which keeps so long
    plan = bound(LinkKind.END_TO_END, least, most, keep=keep)
    assert fits(plan) is fit
    if fit:
        assert starts(meets(plan)) == {"rice.boil": -23, "plate.heat": -8}


@pytest.mark.parametrize(
    ("most", "keep", "fit"), [(4, 0, False), (12, 0, True), (11, 0, False), (11, 1, False)]
)
def test_start_to_start_at_most(most, keep, fit):
    # rice from -20 or sooner, the plate from -8: twelve minutes at least
    assert fits(bound(LinkKind.START_TO_START, 0, most, keep=keep)) is fit


@pytest.mark.parametrize(
    ("least", "keep", "fit"), [(12, 0, True), (13, 0, False), (13, 1, True), (14, 1, False)]
)
def test_start_to_start_at_least(least, keep, fit):
    assert fits(bound(LinkKind.START_TO_START, least, None, keep=keep)) is fit


@pytest.mark.parametrize(("most", "fit"), [(17, True), (16, False)])
def test_start_to_start_binds_the_first_loads(most, fit):
    # rice from -20 at the latest; three loads of 1 for the plate, the first of which may be 3 old: from -3 to -1
    plate = hands_off("plate.heat", 1, loads=Loads(3, 1))
    plan = a_plan(
        a_dish("rice", hands_off("rice.boil", 20), keep=Keep(0)),
        a_dish("plate", plate, keep=Keep(2)),
        links=(a_link("rice.boil", "plate.heat", 0, most, kind=LinkKind.START_TO_START),),
        kitchen=kitchen(),
    )
    assert fits(plan) is fit


@pytest.mark.parametrize(("least", "fit"), [(5, True), (6, False)])
def test_end_to_end_binds_the_last_loads(least, fit):
    # three loads of rice, done -15, -10 and -5 at the soonest where the first keeps 15; the plate is done at 0
    rice = hands_off("rice.boil", 5, loads=Loads(3, 1))
    plan = bound(LinkKind.END_TO_END, least, None, one=rice, keep=15)
    assert fits(plan) is fit


# ---- loads that grow old


@pytest.mark.parametrize(("keep", "fit"), [(20, True), (19, False)])
def test_the_first_load_is_the_oldest(keep, fit):
    # three loads of eight with two between: the first is done 20 before the last
    step = hands_off("cakes.fry", 8, loads=Loads(24, 9, 2))
    assert fits(a_plan(a_dish("cakes", step, keep=Keep(keep)), kitchen=kitchen())) is fit


@pytest.mark.parametrize(("keep", "fit"), [(24, True), (23, False)])
def test_the_first_load_may_be_done_sooner_still(keep, fit):
    # safe where it can wait: 7 to 8 to 9 min, 9 reserved, 2 sooner; 3 x 9 and 2 x 2, so that it is 22 and 2 old
    step = hands_off("cakes.fry", (7, 8, 9), loads=Loads(24, 9, 2))
    lengths = (LengthOf("cakes.fry", Manner.SAFE),)
    assert fits(a_plan(a_dish("cakes", step, keep=Keep(keep)), kitchen=kitchen(), lengths=lengths)) is fit


@pytest.mark.parametrize(("most", "fit"), [(10, True), (9, False)])
def test_what_follows_all_loads_begins_before_the_first_is_too_old(most, fit):
    # three loads of five: the first is done ten before the last, and then all are glazed at once
    steps = (hands_off("cakes.fry", 5, loads=Loads(3, 1)), hands_off("cakes.glaze", 5))
    plan = a_bench(*steps, links=(a_link("cakes.fry", "cakes.glaze", 0, most),), kitchen=kitchen())
    assert fits(plan) is fit


@pytest.mark.parametrize(("glazing", "most", "fit"), [(5, 0, True), (6, 0, True), (6, 2, True), (4, 0, True)])
def test_load_by_load_each_waits_for_its_own(glazing, most, fit):
    # three loads of five, each glazed at once; where glazing takes longer the frying has pauses
    steps = (
        hands_off("cakes.fry", 5, loads=Loads(3, 1)),
        hands_off("cakes.glaze", glazing, loads=Loads(3, 1)),
    )
    plan = a_bench(*steps, links=(a_link("cakes.fry", "cakes.glaze", 0, most),), kitchen=kitchen())
    assert fits(plan) is fit
    timetable = meets(plan)
    for load in range(3):
        fried, glazed = timetable.at["cakes.fry", load], timetable.at["cakes.glaze", load]
        assert 0 <= glazed.start - fried.end <= most


@pytest.mark.parametrize(("most", "fit"), [(2, True), (1, False)])
def test_load_by_load_the_last_waits_longest_where_there_is_no_pause(most, fit):
    # frying without a pause from -22, six minutes of glazing each: the third load waits two
    steps = (
        hands_off("cakes.fry", 5, loads=Loads(3, 1), latest=-8),
        hands_off("cakes.glaze", 6, loads=Loads(3, 1)),
    )
    plan = a_bench(*steps, links=(a_link("cakes.fry", "cakes.glaze", 0, most),), kitchen=kitchen(), opens=-23)
    # fried by -18, -13, -8; glazed from -18, -12, -6
    assert fits(plan) is fit
