"""The demo plans are complete, sound, and agree with the feast they were written down from (design, G)."""

from dataclasses import replace
from pathlib import Path

import pytest

import demo_data
from core.intake.text_plan import FORMS, read_text, write_text
from core.measures.clock import at_clock
from core.measures.quantity import parse_quantity
from core.measures.refusal import Refusal
from core.plan import meaning
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.network import Network
from core.timetable.clashes import clashes
from tests.support.hand_made import hand_made

FOLDER = Path(demo_data.__file__).parent
HARVEST, HALL, WEEKNIGHT = "harvest_supper.toml", "hall_celebration.toml", "weeknight_supper.toml"


def plan_of(name):
    return read_text(demo_data.text_of(name))


@pytest.fixture(scope="module")
def harvest():
    return plan_of(HARVEST)


@pytest.fixture(scope="module")
def by_hand(harvest):
    return hand_made(harvest)


def loads(plan):
    return {
        (step.id, load)
        for dish in plan.menu.dishes
        for step in dish.steps
        for load in range(meaning.load_count(dish, step))
    }


# ---------------------------------------------------------------- all of them


def test_every_file_is_named():
    assert (
        set(demo_data.files()) == {path.name for path in FOLDER.glob("*.toml")} == {HARVEST, HALL, WEEKNIGHT}
    )


@pytest.mark.parametrize("name", demo_data.files())
@pytest.mark.parametrize("form", FORMS)
def test_each_reads_and_comes_back(name, form):
    plan = plan_of(name)
    assert read_text(write_text(plan, form), form) == plan


@pytest.mark.parametrize("name", demo_data.files())
def test_no_waits_contradict_each_other(name):
    contradiction = Network.of(plan_of(name)).contradiction()
    assert contradiction is None, contradiction


@pytest.mark.parametrize("name", demo_data.files())
def test_each_opens_with_words_for_cooks_and_stays_within_the_page(name):
    rows = demo_data.text_of(name).splitlines()
    assert rows[0].startswith("# ")
    assert all(row.startswith("#") for row in rows[:4])
    longest = max((row for row in rows if "item = " not in row), key=len)
    assert len(longest) <= 130, longest


@pytest.mark.parametrize("name", demo_data.files())
def test_every_ingredient_is_used_by_a_step_or_only_named(name):
    plan = plan_of(name)
    for dish in plan.menu.dishes:
        used = [each for each in dish.ingredients if each.step is not None]
        assert not dish.ingredients or len(used) >= len(dish.ingredients) - 2, dish.name


def test_put_writes_them_where_nothing_else_is(tmp_path):
    folder = tmp_path / "new" / "plans"
    paths = demo_data.put(folder)
    assert [path.name for path in paths] == list(demo_data.files())
    assert all(path.read_text(encoding="utf-8") == demo_data.text_of(path.name) for path in paths)
    assert demo_data.put(folder) == paths


def test_put_overwrites_nothing_else(tmp_path):
    (tmp_path / HARVEST).write_text("mine", encoding="utf-8")
    with pytest.raises(Refusal, match=r"harvest_supper\.toml in .* would be overwritten"):
        demo_data.put(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [HARVEST]
    (tmp_path / HARVEST).write_bytes(b"\xff")
    with pytest.raises(Refusal):
        demo_data.put(tmp_path)
    with pytest.raises(Refusal, match="is a file, not a folder"):
        demo_data.put(tmp_path / HARVEST)


# ---------------------------------------------------------------- the weeknight supper


def test_the_weeknight_supper_is_small():
    plan = plan_of(WEEKNIGHT)
    assert len(plan.menu.dishes) == 3
    assert len(plan.kitchen.cooks) == 1
    assert plan.opens == -75


# ---------------------------------------------------------------- the harvest supper

STEPS = {
    "butter": "warm culture chill churn soften",
    "flatbread": "mix fold cold-proof stretch proof dimple bake cool slice",
    "trout": "thaw pack cure rinse dry slice platter",
    "stock": "roast load heat simmer strain cool chill lift",
    "cheeks": "salt brown sweat liquids braise reduce cool chill reheat finish",
    "pork": "salt dry temper blast roast rest carve gravy",
    "gratin": "slice simmer assemble bake stand",
    "squash": "cut roast honey",
    "leeks": "sauce trim light coals leeks peppers dress",
    "beans": "trim boil blanch ice finish",
    "fritters": "mayonnaise blanch batter oil fry",
    "panna-cotta": "bloom warm cool pour set compote top",
    "table": "lay plates cold plate",
}

# Design, G1 to G12; ice and charcoal from the lists of equipment.
INGREDIENTS = {
    "butter": "1.0 l, 60 g, 7 g",
    "flatbread": "1000 g, 780 g, 20 g, 4 g, 60 g, 60 g, 10 g, 8 g",
    "trout": "1.2 kg, 60 g, 48 g, 250 g, 40 g, 6 g, 2, 250 g, 30 g, 15 ml",
    "stock": "2.0 kg, 350 g, 200 g, 150 g, 35 g, 2, 5 g, 3 g, 3.6 l, 3 kg",
    "cheeks": "1.2 kg, 15 g, 600 ml, 900 ml, 300 g, 150 g, 120 g, 20 g, 25 g, 160 g, -, -, 30 ml, 15 ml",
    "pork": "2.4 kg, 29 g, 8 g, 4 g, 400 g, 600 ml, 150 ml, 20 g, 10 ml",
    "gratin": "1.6 kg, 850 g, 700 ml, 350 ml, 10 g, 22 g, -, 120 g, 20 g",
    "squash": "3.0 kg, 70 ml, 20 g, 20 g, 2 g, 40 g, 60 g, 15 ml",
    "leeks": "24, 8, 60 ml, 12 g, 150 g, 50 g, 8 g, 40 ml, 150 ml, 4 g, 6 g, -, 2.5 kg",
    "beans": "1.5 kg, 120 g, 60 g, 2, 60 g, 5 g, 2 kg",
    "fritters": "2, 200 g, 50 g, 6 g, 8 g, 150 ml, 150 ml, 3 l, 40 g, 250 ml, 50 g, 20 ml",
    "panna-cotta": "700 ml, 250 ml, 300 ml, 110 g, 10 g, 1, 1 g, 500 g, 60 g, 15 ml",
    "table": "",
}


def test_all_steps_of_the_harvest_supper(harvest):
    found = {dish.id: [step.id.partition(".")[2] for step in dish.steps] for dish in harvest.menu.dishes}
    assert found == {dish: steps.split() for dish, steps in STEPS.items()}
    assert list(found) == list(STEPS)
    assert (len(harvest.steps), len(loads(harvest))) == (83, 88)


def test_all_ingredients_of_the_harvest_supper(harvest):
    for dish in harvest.menu.dishes:
        amounts = [
            None if each == "-" else parse_quantity(each) for each in INGREDIENTS[dish.id].split(", ") if each
        ]
        assert [each.quantity for each in dish.ingredients] == amounts, dish.name
        assert all(each.item for each in dish.ingredients)


def test_what_feeds_what_in_the_harvest_supper(harvest):
    by_products = {(link.before, link.after): link.brings for link in harvest.menu.links if link.brings}
    assert by_products == {
        ("butter.churn", "panna-cotta.pour"): parse_quantity("300 ml"),
        ("butter.churn", "fritters.batter"): parse_quantity("150 ml"),
        ("stock.lift", "cheeks.liquids"): parse_quantity("900 ml"),
        ("stock.lift", "pork.gravy"): parse_quantity("600 ml"),
    }
    # the florets go into the beans' water before the beans
    joined = {(link.before, link.after) for link in harvest.menu.links if link.kind is LinkKind.END_TO_START}
    assert {("beans.boil", "fritters.blanch"), ("fritters.blanch", "beans.blanch")} <= joined


def test_more_guests_make_more_loads(harvest):
    """Design, G14, answer 9: for sixteen, three loads of fritters and four of leeks."""
    for dish, step, twelve, sixteen in (("fritters", "fry", 2, 3), ("leeks", "leeks", 3, 4)):
        written = harvest.dishes[DishId(dish)]
        the_step = harvest.steps[StepId(f"{dish}.{step}")]
        assert meaning.load_count(written, the_step) == twelve
        assert meaning.load_count(replace(written, wanted=16), the_step) == sixteen


# ---------------------------------------------------------------- its hand-made timetable


def test_the_hand_made_timetable_places_everything(harvest, by_hand):
    assert set(by_hand.at) == loads(harvest)
    assert len(by_hand.placed) == len(loads(harvest))


def test_the_hand_made_timetable_has_no_clash(harvest, by_hand):
    assert [clash.sentence for clash in clashes(harvest, by_hand)] == []


def there(plan, timetable, kind, offset):
    """Give the shares of stations of a kind that are taken at an offset."""
    found = []
    for placed in timetable.placed:
        if placed.start <= offset < placed.end:
            found += [use for use in plan.steps[placed.step].uses if use.kind == kind]
    for stay in timetable.stays:
        if stay.start <= offset < stay.end:
            keep = meaning.keep_of(plan, plan.steps[stay.before])
            links = [link for link in plan.links_from[stay.before] if link.after == stay.after]
            wait = links[0].wait if links else keep.wait
            found += [wait.use] if wait.use.kind == kind else []
    return found


def test_the_fridge_on_friday_evening(harvest, by_hand):
    """Design, G13: 7,212 cm2 at 21:00, of which 2,000 are the household's shelf."""
    at = at_clock(harvest.plating, 1, 21 * 60)
    assert sum(use.area for use in there(harvest, by_hand, "fridge", at)) == 7212 - 2000


def test_all_burners_are_in_use_before_plating(harvest, by_hand):
    """Design, G14, answer 3."""
    for offset in range(-8, -3):
        assert sum(use.units for use in there(harvest, by_hand, "burner", offset)) == 4


def waits(by_hand, before, until):
    return until - by_hand.loads_of[StepId(before)][0].end


def test_waits_until_plating_are_those_of_the_hand_made_plan(by_hand):
    """Design, G14: gratin 59 from the oven, leeks 111 from the first load, bread 3 h 55."""
    plating = -3
    assert waits(by_hand, "gratin.bake", plating) == 59
    assert waits(by_hand, "leeks.leeks", plating) == 111
    assert waits(by_hand, "flatbread.bake", plating) == 235
    assert waits(by_hand, "pork.roast", by_hand.at[StepId("pork.carve"), 0].start) == 56


def test_the_last_half_hour_is_as_busy_as_planned_by_hand(by_hand):
    """Design, G14: A 22, B 21, C 19 of 30 minutes, plating included."""
    busy = dict.fromkeys(("head", "helper", "novice"), 0)
    for placed in by_hand.placed:
        for hand in placed.hands:
            busy[hand.cook] += len(range(max(hand.start, -30), min(hand.start + hand.minutes, 0)))
    # one minute of honey goes from B to C; the oil's 2 min between the loads are nobody's, the first takes 1 more
    assert busy == {"head": 22, "helper": 21 - 1 - 2 + 1, "novice": 19 + 1}


# ---------------------------------------------------------------- the hall


def test_the_hall_is_large():
    plan = plan_of(HALL)
    assert len(loads(plan)) >= 250
    assert len(plan.kitchen.cooks) == 6
    assert [oven.units for oven in plan.kitchen.of_kind(StationKind.OVEN)] == [4, 4]
    assert len(plan.kitchen.of_kind(StationKind.BURNER)) == 6


def test_the_hall_asks_for_less_than_it_has():
    """Sums over the day; that all of it can be placed is for the scheduler to show."""
    plan = plan_of(HALL)
    hands = dict.fromkeys(("", "able", "pastry"), 0)
    racks = 0
    for dish in plan.menu.dishes:
        for step in dish.steps:
            length, times = meaning.reserved(plan, step.id).length, meaning.load_count(dish, step)
            for need in meaning.hands_of(plan, step, length):
                hands[need.skill] += need.minutes * need.people * times
            racks += sum(use.units * length * times for use in step.uses if use.kind == "oven")
    there = {}
    for cook in plan.kitchen.cooks:
        spans = [(window.to_minute - window.from_minute) for window in cook.present]
        there[cook.id] = sum(spans) - sum(window.to_minute - window.from_minute for window in cook.breaks)
    assert sum(hands.values()) < 0.6 * sum(there.values())
    able = [there[cook.id] for cook in plan.kitchen.cooks if "able" in cook.skills]
    assert hands["able"] + hands["pastry"] < 0.4 * sum(able)
    assert racks < 0.4 * 8 * 21 * 60  # eight racks, Friday from ten, Saturday from half past seven


def test_helpers_come_one_after_the_other():
    plan = plan_of(HALL)
    arrivals = [
        min(window.from_minute for window in cook.present if window.days_before == 0)
        for cook in plan.kitchen.cooks
    ]
    assert len(set(arrivals)) == len(arrivals) == 6
