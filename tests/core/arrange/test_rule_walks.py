"""Walks: minutes between a cook's hands in different places of the house; plans in which they alone decide."""

import pytest

from core.plan.decisions import Pin
from core.plan.kitchen import Heater, Station, StationKind
from core.plan.step import Alternative, Attention, ClockTime, Heat, Keep, Span, Use, VesselUse
from tests.core.arrange.arranged import meets, where
from tests.core.arrange.ruled import fits, kitchen, there, worked
from tests.support.builders import a_cook, a_dish, a_plan, a_step, a_vessel, an_oven, burners, hands_off

GRILL = Station("grill", "Grill", StationKind.GRILL, 2, place="terrace")
ON_GRILL, ON_BURNER = (Use(StationKind.GRILL),), (Use(StationKind.BURNER),)


def two(walk: int, keep: int, cooks=1, *more, between=(), burner=None, stations=None):
    """Return five minutes at the grill until plating, five at a burner before, which keep so long."""
    dishes = (
        a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL), keep=Keep(0)),
        a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(keep)),
        *more,
    )
    stations = stations or (GRILL, *(burner or burners(1)))
    return a_plan(*dishes, kitchen=kitchen(*stations, walk=walk, cooks=cooks))


@pytest.mark.parametrize("walk", [0, 1, 2, 7, 60])
def test_the_walk_lies_between(walk):
    # done at the burner by -5 less the walk
    assert fits(two(walk, 5 + walk))
    assert not fits(two(walk, 4 + walk))


@pytest.mark.parametrize("walk", [0, 3])
def test_from_the_grill_in_as_from_the_hob_out(walk):
    def plan(keep: int):
        dishes = (
            a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL), keep=Keep(keep)),
            a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(0)),
        )
        return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=walk))

    assert fits(plan(5 + walk))
    assert not fits(plan(4 + walk))


def test_in_one_place_nobody_walks():
    side = Station("burner-1", "Side burner", StationKind.BURNER, place="terrace")
    assert fits(two(30, 5, burner=(side,)))
    assert not fits(two(30, 4, burner=(side,)))


def test_two_cooks_each_stay_in_their_place():
    timetable = meets(two(30, 0, 2))
    hands = [timetable.at[each, 0].hands[0] for each in ("a.turn", "b.stir")]
    assert [each.start for each in hands] == [-5, -5]
    assert len({each.cook for each in hands}) == 2


@pytest.mark.parametrize("walk", [0, 1, 3, 4, 10])
def test_work_in_no_place_goes_into_the_walk_and_does_not_shorten_it(walk):
    # three minutes of salad between hob and grill: 5 + max(3, walk)
    def plan(keep: int):
        salad = a_dish("c", a_step("c.dress", minutes=3, clock=ClockTime(0, 19 * 60 + 22)), keep=Keep(8))
        return two(walk, keep, 1, salad)  # from -8 to -5

    wait = 5 + max(3, walk)
    assert fits(plan(wait))
    assert not fits(plan(wait - 1))


@pytest.mark.parametrize("walk", [0, 2, 3, 6])
def test_washing_up_has_no_place(walk):
    # the pan is washed between stirring and turning; who washes may be on the way
    def plan(keep: int):
        pan = (VesselUse("pan"),)
        dishes = (
            a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL, vessels=pan), keep=Keep(0)),
            a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER, vessels=pan), keep=Keep(keep)),
        )
        vessels = (a_vessel("pan", washing=3),)
        return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=walk, vessels=vessels))

    wait = 5 + max(3, walk)
    assert fits(plan(wait))
    assert not fits(plan(wait - 1))


@pytest.mark.parametrize("walk", [0, 1, 4])
def test_putting_in_and_taking_out_are_at_the_station(walk):
    # out of the grill -1 to 0, so the hob's work ends a walk before -1; in at -10, so it begins a walk after -9
    def plan(minutes: int):
        meat = a_step("a.grill", minutes=10, attention=Attention.HANDS_OFF, uses=ON_GRILL)
        sauce = a_step("b.stir", minutes=minutes, uses=ON_BURNER)
        dishes = (a_dish("a", meat, keep=Keep(0)), a_dish("b", sauce, keep=Keep(8)))
        return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=walk), transfer=1)

    room = 8 - 2 * walk
    if room > 0:
        assert fits(plan(room))
    assert not fits(plan(room + 1))


@pytest.mark.parametrize(("walk", "fit"), [(0, True), (1, True), (2, False)])
def test_switching_on_is_at_the_oven(walk, fit):
    # 4 min from cold for the bake from -10: on by -14. The cook comes at -20, stirs indoors until -15
    oven = an_oven(heater=Heater(from_cold=((200, 4),)), place="shed")
    dishes = (
        a_dish(
            "a",
            hands_off("a.bake", 10, uses=(Use(StationKind.OVEN, heat=Heat(200, 200, 200)),)),
            keep=Keep(0),
        ),
        a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(15)),
    )
    cooks = (there(-20, 0),)
    plan = a_plan(
        *dishes,
        kitchen=kitchen(oven, *burners(1), walk=walk, cooks=cooks),
        transfer=0,
        pins=(Pin("b.stir", start=-20),),
    )
    assert fits(plan) is fit


@pytest.mark.parametrize(("walk", "fit"), [(0, True), (4, True), (5, False)])
def test_lighting_is_at_the_fire(walk, fit):
    # ready by -10, lit by -30, laid until -25; the cook comes at -30 and stirs indoors from -21
    grill = Station("grill", "Grill", StationKind.GRILL, place="terrace", lighting=20, burns=30, laying=5)
    dishes = (
        a_dish("a", hands_off("a.grill", 10, uses=ON_GRILL), keep=Keep(0)),
        a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(16)),
    )
    cooks = (there(-30, 0),)
    plan = a_plan(
        *dishes,
        kitchen=kitchen(grill, *burners(1), walk=walk, cooks=cooks),
        transfer=0,
        pins=(Pin("b.stir", start=-21),),
    )
    assert fits(plan) is fit


def test_of_two_burners_the_one_where_the_cook_is():
    side = Station("burner-9", "Side burner", StationKind.BURNER, place="terrace")
    timetable = meets(two(5, 5, burner=(*burners(1), side)))
    assert where(timetable, "b.stir") == ["burner-9"]


@pytest.mark.parametrize(("walk", "way"), [(0, 0), (3, 1)])
def test_the_place_is_that_of_the_way(walk, way):
    # stirred on the hob, or in six minutes at the grill's side
    other = (Alternative("outdoors", Span.of(6), ON_GRILL),)
    dishes = (
        a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL), keep=Keep(0)),
        a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER, alternatives=other), keep=Keep(5)),
    )
    plan = a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=walk))
    assert meets(plan).at["b.stir", 0].way == way


def test_it_is_the_first_of_a_steps_places_that_counts():
    # a pan on the hob of what also takes a place on the grill: worked at the hob
    def plan(uses, keep: int):
        dishes = (
            a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL), keep=Keep(0)),
            a_dish("b", a_step("b.stir", minutes=5, uses=uses), keep=Keep(keep)),
        )
        return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=3))

    assert not fits(plan((*ON_BURNER, *ON_GRILL), 7))
    assert fits(plan((*ON_BURNER, *ON_GRILL), 8))
    assert fits(plan((*ON_GRILL, *ON_BURNER), 5))


def back_and_forth(walk: int, cooks: int):
    """Return four minutes in turn at hob and grill, each pinned, without a minute between."""
    kinds = (ON_BURNER, ON_GRILL, ON_BURNER, ON_GRILL, ON_BURNER, ON_GRILL)
    dishes = [
        a_dish(name, a_step(f"{name}.do", minutes=4, uses=uses))
        for name, uses in zip("abcdef", kinds, strict=True)
    ]
    pins = tuple(Pin(f"{name}.do", start=-24 + 4 * number) for number, name in enumerate("abcdef"))
    return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=walk, cooks=cooks), pins=pins)


@pytest.mark.parametrize(("walk", "cooks", "fit"), [(0, 1, True), (1, 1, False), (1, 2, True), (60, 2, True)])
def test_back_and_forth_each_cook_stays_where_the_others_would_have_to_run(walk, cooks, fit):
    plan = back_and_forth(walk, cooks)
    assert fits(plan) is fit
    if fit and walk:
        timetable = meets(plan)
        indoors = {timetable.at[f"{name}.do", 0].hands[0].cook for name in "ace"}
        outdoors = {timetable.at[f"{name}.do", 0].hands[0].cook for name in "bdf"}
        assert len(indoors) == len(outdoors) == 1
        assert indoors != outdoors


def test_who_can_do_it_may_be_too_far_away():
    # only ann grills; the pan before it, hers by pin, is three minutes off
    def plan(keep: int, who: str):
        cooks = (a_cook("ann", "fire"), a_cook("ben"))
        dishes = (
            a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL, skill="fire"), keep=Keep(0)),
            a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(keep)),
        )
        pins = (Pin("b.stir", cook=who),)
        return a_plan(*dishes, kitchen=kitchen(GRILL, *burners(1), walk=3, cooks=cooks), pins=pins)

    assert fits(plan(8, "ann"))
    assert not fits(plan(7, "ann"))
    assert fits(plan(0, "ben"))


@pytest.mark.parametrize("walk", [0, 1, 2])
def test_between_two_visits_to_a_pan_lies_the_way_out_and_back(walk):
    # turning from -10 to -5; six minutes of stirring around it, three at least at a time
    def plan(earliest: int):
        stir = a_step("b.stir", minutes=6, least_piece=3, uses=ON_BURNER, earliest=earliest)
        dishes = (
            a_dish("a", a_step("a.turn", minutes=5, uses=ON_GRILL), keep=Keep(5)),
            a_dish("b", stir, keep=Keep(0)),
        )
        kept = kitchen(GRILL, *burners(1), walk=walk)
        return a_plan(*dishes, kitchen=kept, pins=(Pin("a.turn", start=-10),))

    assert worked(meets(plan(-13 - walk)), "b.stir") == [(-13 - walk, -10 - walk), (-3, 0)]
    assert not fits(plan(-12 - walk))


@pytest.mark.parametrize("walk", [0, 2, 5])
def test_work_in_pieces_in_a_place_apart_has_its_walks_too(walk):
    """The end of such work is the sum of two numbers that the solver chooses."""
    dishes = (
        a_dish("a", a_step("a.shell", minutes=20, uses=ON_GRILL, least_piece=10), keep=Keep(60)),
        a_dish("b", a_step("b.stir", minutes=5, uses=ON_BURNER), keep=Keep(0)),
        *(a_dish(name, a_step(f"{name}.fry", minutes=5, uses=ON_BURNER), keep=Keep(30)) for name in "cde"),
    )
    timetable = meets(a_plan(*dishes, kitchen=kitchen(GRILL, *burners(2), walk=walk, cooks=2)))
    assert sum(hand.minutes for hand in timetable.at["a.shell", 0].hands) == 20
