"""Searching one's own dishes by name, ingredient, equipment and time; why each was found; how long dishes take."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from core.plan.edits.library import OwnCopy
from core.plan.ids import StationId, StepId, VesselId
from core.plan.kitchen import StationKind, Vessel
from core.plan.menu import Dish, Ingredient, LinkKind
from core.plan.step import Attention, Loads, Touch, Use
from core.store.library_search import Asked, TimeLimit, asked, found_in, in_none
from core.store.library_times import DishTimes, times_of
from core.store.library_values import OwnDish
from tests.support.builders import a_dish, a_link, a_step

DAY = datetime(2026, 9, 20, tzinfo=UTC)


def own(dish: Dish, *, links=(), vessels=(), stations=(), origin="") -> OwnDish:
    return OwnDish(dish.id, OwnCopy(dish, tuple(links), tuple(vessels), tuple(stations)), origin, DAY, DAY)


def some_dishes() -> tuple[OwnDish, ...]:
    soup = a_dish(
        "soup",
        a_step("soup.cut", "Cut the leeks", 10),
        a_step("soup.boil", "Simmer", 25, attention=Attention.HANDS_OFF, uses=(Use(StationKind.BURNER),)),
        name="Potato soup",
        ingredients=(Ingredient("leeks"), Ingredient("potatoes")),
    )
    tart = a_dish(
        "tart",
        a_step("tart.roll", "Roll it out", 15),
        a_step("tart.bake", "Bake", 40, attention=Attention.HANDS_OFF, uses=(Use(StationKind.OVEN),)),
        name="Leek tart",
        ingredients=(Ingredient("crème fraîche"),),
        note="good with soup",
    )
    steak = a_dish(
        "steak", a_step("steak.fry", "Fry", 8, uses=(Use(StationKind.BURNER, station=StationId("w")),)), name="Steak"
    )
    pot = Vessel(VesselId("pot"), "Large pot", size="8 l")
    return (
        own(soup, links=(a_link("soup.cut", "soup.boil"),), vessels=(pot,)),
        own(tart, links=(a_link("tart.roll", "tart.bake"),), origin="Autumn supper"),
        own(steak, stations=((StationId("w"), "Wok ring"),)),
    )


def names(text: str) -> list[str]:
    return [each.own.name for each in found_in(some_dishes(), text)]


def why(text: str) -> dict[str, tuple[str, ...]]:
    return {each.own.name: each.why for each in found_in(some_dishes(), text)}


def test_nothing_asked_gives_all_by_name():
    assert names("") == names("  ") == ["Leek tart", "Potato soup", "Steak"]
    assert set(why("").values()) == {()}


def test_a_word_in_the_name_counts_more_than_among_the_ingredients_or_in_notes():
    assert names("leek") == ["Leek tart", "Potato soup"]
    assert names("soup") == ["Potato soup", "Leek tart"]
    assert why("leek") == {"Leek tart": ("its name",), "Potato soup": ("leeks among the ingredients",)}
    assert why("soup") == {"Potato soup": ("its name",), "Leek tart": ("its notes",)}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("POTATO", ["Potato soup"]),
        ("potatoes", ["Potato soup"]),
        ("pot", ["Potato soup"]),
        ("creme fraiche", ["Leek tart"]),
        ("crème", ["Leek tart"]),
        ("soup leeks", ["Leek tart", "Potato soup"]),
        ("potatoes leeks", ["Potato soup"]),
        ("leeks in the oven", ["Leek tart"]),
        ("oven", ["Leek tart"]),
        ("burner", ["Steak", "Potato soup"]),
        ("wok", ["Steak"]),
        ("large 8", ["Potato soup"]),
        ("roll", ["Leek tart"]),
        ("autumn", ["Leek tart"]),
        ("leek oven burner", []),
        ("otato", []),
        ("lobster", []),
    ],
)
def test_words(text: str, found: list[str]):
    assert sorted(names(text)) == sorted(found)


def test_why_says_where_each_word_was_found():
    assert why("leeks oven")["Leek tart"] == ("its name", "needs an oven")
    assert why("large burner")["Potato soup"] == ("needs: Large pot", "needs a burner")
    assert why("roll")["Leek tart"] == ("step “Roll it out”",)
    assert why("wok")["Steak"] == ("needs: Wok ring",)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("under 40 min", ["Potato soup", "Steak"]),
        ("under 35 min", ["Potato soup", "Steak"]),
        ("under 34 min", ["Steak"]),
        ("at most half an hour", ["Steak"]),
        ("\u2264 35 min", ["Potato soup", "Steak"]),
        ("<1h", ["Leek tart", "Potato soup", "Steak"]),
        ("over 50 min", ["Leek tart"]),
        ("leek under 40 min", ["Potato soup"]),
        ("under 40 min leek", ["Potato soup"]),
        ("over 30 min under 40 min", ["Potato soup"]),
        ("hands-on under 10 min", ["Steak"]),
        ("hands on at most 12 min", ["Potato soup", "Steak"]),
        ("under 40 min burner leek", ["Potato soup"]),
    ],
)
def test_times(text: str, found: list[str]):
    assert sorted(names(text)) == found


def test_why_says_the_time():
    assert why("under 40 min") == {"Potato soup": ("35 min in all",), "Steak": ("8 min in all",)}
    assert why("hands-on under 10 min") == {"Steak": ("8 min hands on",)}


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("leeks under 1 h 20", Asked(("leeks",), (TimeLimit(80),))),
        ("under 1 hour and 20 minutes tart", Asked(("tart",), (TimeLimit(80),))),
        ("Hands-on UNDER 20 min, soup", Asked(("soup",), (TimeLimit(20, hands=True),))),
        ("at least 2 h lamb", Asked(("lamb",), (TimeLimit(120, most=False),))),
        ("under the grill", Asked(("under", "grill"))),
        ("under 0 min", Asked(("under", "0", "min"))),
        ("over easy", Asked(("over", "easy"))),
        ("under 3 frogs", Asked(("frogs",), (TimeLimit(3),))),
        ("under", Asked(("under",))),
        ("", Asked(())),
    ],
)
def test_what_is_asked(text: str, wish: Asked):
    assert asked(text) == wish


def test_a_time_too_long_to_be_one_is_no_failure():
    assert asked("under " + "9" * 400).limits == ()


def test_what_no_dish_has_is_named():
    assert in_none(some_dishes(), "leek lobster under 5 min") == ("lobster", "at most 5 min")
    assert in_none(some_dishes(), "leek burner oven") == ()


# ---------------------------------------------------------------- how long a dish takes


def by_itself(name: str, minutes: int):
    return a_step(name, minutes=minutes, attention=Attention.HANDS_OFF)


def test_a_chain_takes_its_lengths_and_least_waits():
    steps = (a_step("d.a", minutes=10), a_step("d.b", minutes=(50, 60, 90), attention=Attention.HANDS_OFF))
    assert times_of(a_dish("d", *steps), (a_link("d.a", "d.b", 30, 600),)) == DishTimes(100, 10)


def test_what_nothing_keeps_apart_goes_on_at_once():
    steps = (a_step("d.a", minutes=10), by_itself("d.b", 25), a_step("d.c", minutes=5))
    links = (a_link("d.a", "d.c"), a_link("d.b", "d.c"))
    assert times_of(a_dish("d", *steps), links) == DishTimes(30, 15)


def test_one_cook_does_one_thing_at_a_time():
    steps = (a_step("d.a", minutes=10), a_step("d.b", minutes=25), a_step("d.c", minutes=5))
    assert times_of(a_dish("d", *steps), ()) == DishTimes(40, 40)


def test_links_of_other_kinds():
    steps = (by_itself("d.a", 10), by_itself("d.b", 25))
    start = a_link("d.a", "d.b", 5, kind=LinkKind.START_TO_START)
    end = a_link("d.b", "d.a", 5, kind=LinkKind.END_TO_END)
    assert times_of(a_dish("d", *steps), (start,)).whole == 30
    assert times_of(a_dish("d", *steps), (end,)).whole == 30


def test_a_first_step_that_must_wait_for_nothing_does_not_count():
    steps = (by_itself("d.a", 10), by_itself("d.b", 40))
    end = a_link("d.a", "d.b", 0, kind=LinkKind.END_TO_END)
    assert times_of(a_dish("d", *steps), (end,)).whole == 40


def test_loads_touches_and_transfers_count():
    grill = a_step(
        "d.grill",
        minutes=8,
        attention=Attention.TENDED,
        touches=(Touch(4, 2),),
        uses=(Use(StationKind.GRILL),),
        loads=Loads(18, 6, 2),
    )
    assert times_of(a_dish("d", grill), ()) == DishTimes(3 * 8 + 2 * 2, 3 * (1 + 2 + 1))


def test_two_pairs_of_hands_count_twice_and_twice_the_servings_take_twice_the_loads():
    step = a_step("d.roll", minutes=10, hands=2)
    assert times_of(a_dish("d", step), ()) == DishTimes(10, 20)
    loads = replace(a_step("d.fry", minutes=5), loads=Loads(4, 4))
    assert times_of(replace(a_dish("d", loads), written_for=4, wanted=8), ()) == DishTimes(10, 10)


def test_no_steps_take_no_time_and_a_circle_ends():
    assert times_of(a_dish("d"), ()) == DishTimes(0, 0)
    steps = (a_step("d.a", minutes=10), a_step("d.b", minutes=10))
    assert times_of(a_dish("d", *steps), (a_link("d.a", "d.b"), a_link("d.b", "d.a"))).whole > 0


def test_steps_of_other_dishes_do_not_count():
    copy = OwnCopy(a_dish("d", a_step("d.a", minutes=10)), (a_link("other.x", "d.a", 500),))
    assert times_of(copy.dish, copy.links) == DishTimes(10, 10)
    assert StepId("other.x") not in {step.id for step in copy.dish.steps}
