"""What is told of foods in the Menu place: kinds at the ingredients, limits and lengths at a step, food care."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.places.menu.food_limits import asked_of, foods_in
from app.places.menu.food_proposal import proposal_for
from app.places.menu.food_words import arrival_said, effect_said, kind_said, kind_short, read_mm, show_mm
from core.measures.quantity import parse_quantity
from core.measures.refusal import Refusal
from core.plan.food import Arrival, Container, Effect, FoodCare, FoodKind
from core.plan.ids import DishId, StepId
from core.plan.menu import Ingredient
from core.plan.step import Doneness, Span
from tests.support.builders import a_dish, a_kitchen, a_plan, a_step, an_oven, at_oven, chained, hands_off
from tests.support.windows import a_menu_place

ENTER, ESC, TAB, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Tab, Qt.Key.Key_Down
LAMB = DishId("lamb")
ROAST = StepId("lamb.roast")


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def click(widget) -> None:
    assert widget.isVisible()
    assert widget.isEnabled()
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=widget.rect().center())


def set_field(field, text: str) -> None:
    assert field.isVisible()
    field.setFocus()
    field.selectAll()
    press(Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    press(TAB)


def choose(field, value) -> None:
    """Choose in a list by the arrow keys."""
    field.setFocus()
    at = [each for each, _words in field._how.options()].index(value)
    for _ in range(field.count()):
        if field.currentIndex() == at:
            return
        assert field.hasFocus()
        press(DOWN if field.currentIndex() < at else Qt.Key.Key_Up)
    assert field.currentIndex() == at


def a_roast(core: int | None = 57, rest: int | None = 20, **leg):
    salt = a_step("lamb.salt")
    roast = hands_off(
        "lamb.roast", 90, uses=(at_oven(163),), doneness=None if core is None else Doneness(core=core, rest=rest)
    )
    carve = a_step("lamb.carve")
    lines = (
        Ingredient("leg of lamb", parse_quantity("2.7 kg"), step=salt.id, pieces=1, **leg),
        Ingredient("double cream", parse_quantity("200 ml"), step=carve.id),
        Ingredient("fine salt", parse_quantity("20 g")),
        Ingredient("saffron"),
    )
    dish = a_dish("lamb", salt, roast, carve, name="Leg of lamb", ingredients=lines)
    return a_plan(dish, kitchen=a_kitchen(an_oven()), links=chained(salt, roast, carve))


@pytest.fixture
def shown(qtbot):
    """Show the Menu place of a plan."""

    return partial(a_menu_place, qtbot, size=(1500, 900))


def ingredients_of(place):
    place.leaves.turn("ingredients")
    return place.ingredients.food


def details_of(place):
    place.show_step(ROAST)
    place.steps.room.fold(False)
    return place.steps.details


def told(opened):
    return [(each.food, each.arrives, each.thick) for each in opened.plan.dishes[LAMB].ingredients]


# ---------------------------------------------------------------- at the ingredients


def test_kinds_are_only_proposed_until_they_are_taken(shown):
    place, opened = shown(a_roast())
    food = ingredients_of(place)
    assert [food.at(at).button.text() for at in range(4)] == ["meat?", "dairy?", "keeps?", "food?"]
    assert not any(food.at(at).isVisible() for at in range(4)), "folded away"
    assert told(opened) == [(None, None, 0)] * 4
    click(food.at(0).button)
    part = food.at(0)
    assert part.isVisible()
    assert "whole cut of meat" in part.asks.text()
    assert "not known" in part.asks.text()
    assert part.yes.hasFocus()
    press(ENTER)
    assert told(opened)[0] == (FoodKind.WHOLE_CUT, None, 0)
    assert part.button.text() == "meat"
    assert not part.yes.isVisible()
    opened.undo()
    assert told(opened)[0] == (None, None, 0)
    assert part.button.text() == "meat?"


def test_kind_arrival_and_thickness_are_told_by_keys_each_one_undo(shown):
    place, opened = shown(a_roast())
    food = ingredients_of(place)
    food.at(0).button.setFocus()
    press(Qt.Key.Key_Space)
    form = food.at(0).form
    choose(form.field("food"), FoodKind.POULTRY)
    assert told(opened)[0][0] is FoodKind.POULTRY
    opened.undo()
    choose(form.field("arrives"), Arrival.FROZEN)
    set_field(form.field("thick"), "3 1/2 in")
    assert told(opened)[0] == (None, Arrival.FROZEN, 89)
    assert form.field("thick").text() == "89 mm"
    opened.undo()
    assert told(opened)[0] == (None, Arrival.FROZEN, 0)
    set_field(form.field("thick"), "9")
    assert "mm, cm or in" in form.cells["thick"].wrong.text()
    assert told(opened)[0] == (None, Arrival.FROZEN, 0)
    form.field("food").setFocus()
    press(ESC)
    assert not food.at(0).isVisible()
    assert food.at(0).button.hasFocus()


def test_one_click_takes_all_proposals_and_one_undo_takes_them_back(shown):
    place, opened = shown(a_roast())
    food = ingredients_of(place)
    assert food.offer.isVisible()
    assert "2 names" in food.offer.words.text()
    click(food.offer.all)
    assert [each[0] for each in told(opened)] == [FoodKind.WHOLE_CUT, FoodKind.DAIRY, FoodKind.KEEPS, None]
    assert not food.offer.isVisible()
    opened.undo()
    assert told(opened) == [(None, None, 0)] * 4
    assert food.offer.isVisible()


def test_words_propose_frozen_and_thick_and_nothing_else():
    each = Ingredient("frozen cod", preparation="3 cm thick")
    found = proposal_for(each)
    assert (found.kind, found.arrives, found.thick) == (FoodKind.FISH, Arrival.FROZEN, 30)
    assert found.said() == "fish, raw; comes frozen; 30 mm thick"
    assert not proposal_for(Ingredient("saffron", preparation="soaked in 2 cm water"))
    known = replace(each, food=FoodKind.READY, arrives=Arrival.FRIDGE, thick=10)
    assert not proposal_for(known)


@pytest.mark.parametrize(
    ("typed", "millimetres"), [("", 0), ("35 mm", 35), ("3,5 cm", 35), ("1 1/2 in", 38), ('2"', 51)]
)
def test_thickness_is_read_in_its_unit(typed, millimetres):
    assert read_mm(typed) == millimetres
    assert read_mm(show_mm(millimetres)) == millimetres


@pytest.mark.parametrize("typed", ["35", "thick", "0.2 mm"])
def test_thickness_without_unit_or_sense_is_refused(typed):
    with pytest.raises(Refusal):
        read_mm(typed)


def test_each_kind_arrival_and_effect_has_its_words():
    assert len({kind_said(kind) for kind in FoodKind}) == len(FoodKind)
    assert all(kind_short(kind) for kind in FoodKind)
    assert len({arrival_said(each) for each in Arrival}) == len(Arrival)
    assert len({effect_said(each) for each in Effect}) == len(Effect)


# ---------------------------------------------------------------- limits beside the target


def test_the_sets_minimum_stands_beside_the_target_with_the_published_caution(shown):
    place, _opened = shown(a_roast(57))
    details = details_of(place)
    hint = details.form.cells["core"].hint
    assert hint.isVisible()
    assert hint.text() == "62.8 °C (145 °F) and 3 min of rest for leg of lamb"
    short = details.food.short
    assert short.isVisible()
    # USDA FSIS: steaks, chops, roasts 145 F and 3 minutes of rest; 62.8 - 57 = 5.8
    asked = "asked for leg of lamb: 62.8 °C (145 °F) and 3 min of rest"
    assert short.text().startswith(f"Your 57 °C is 5.8 °C below what is {asked}. A target of your own")
    assert "not for the pregnant" in short.text()
    assert "USDA FSIS" in short.text()
    assert "by name" in short.text()


@pytest.mark.parametrize(("core", "rest", "short"), [(62, 20, True), (63, 20, False), (63, 2, True), (63, 3, False)])
def test_a_degree_or_a_minute_decides(core, rest, short):
    plan = a_roast(core, rest)
    (asked,) = asked_of(plan, plan.steps[ROAST])
    assert asked.short is short


def test_what_meets_the_row_is_said_without_a_word_of_praise(shown):
    place, _opened = shown(a_roast(65, 20, food=FoodKind.WHOLE_CUT))
    food = details_of(place).food
    assert not food.short.isVisible()
    assert food.asks.isVisible()
    assert food.asks.text().startswith("Asked for leg of lamb: 62.8 °C (145 °F) and 3 min of rest (USDA FSIS")
    assert "safe" not in food.asks.text().replace("FoodSafety", "").replace("Safe Minimum", "").casefold()
    assert "by name" not in food.asks.text(), "its kind is told"


def test_a_row_that_leaves_no_choice_says_so(shown):
    place, opened = shown(a_roast(70, 20, food=FoodKind.GROUND_MEAT))
    food = details_of(place).food
    assert "Your 70 °C is 1.1 °C below" in food.short.text()
    assert "leaves no choice" in food.short.text()
    field = place.steps.details.form.field("core")
    set_field(field, "72 C")
    assert opened.plan.steps[ROAST].doneness.core == 72
    assert not food.short.isVisible()


def test_only_what_goes_into_the_step_or_before_it_is_asked_about():
    plan = a_roast()
    assert [each.item for each in foods_in(plan, ROAST)] == ["leg of lamb", "fine salt", "saffron"]
    assert asked_of(plan, plan.steps[StepId("lamb.salt")]) == ()


def test_the_chosen_set_counts():
    plan = a_roast(63, 0)
    uk = replace(plan, decisions=replace(plan.decisions, rules="uk"))
    (home,) = asked_of(plan, plan.steps[ROAST])
    (other,) = asked_of(uk, uk.steps[ROAST])
    assert home.rule.source.publisher != other.rule.source.publisher


# ---------------------------------------------------------------- a length proposed


def test_a_length_is_proposed_by_the_chart_and_taken_by_one_click(shown):
    place, opened = shown(a_roast(63))
    food = details_of(place).food
    before = opened.plan
    assert not food.length.isVisible()
    click(food.length_button)
    length = food.length
    texts = {key: length.live.form.field(key).text() for key in ("cut", "weight", "setting", "target")}
    assert texts == {"cut": "leg of lamb", "weight": "2.7 kg", "setting": "163 °C", "target": "63 °C"}
    # USDA and FoodSafety.gov: leg of lamb, bone in, 5-7 lb, 20 to 25 min a pound at 325 F; 2.7 kg are 5.952 lb
    assert length.found.estimate.span == Span(119, 134, 149)
    assert "a probe in the middle of the thickest part decides" in length.said.text()
    assert opened.plan is before, "never by itself"
    assert length.take.text() == "Let it take 2 h 14 min"
    click(length.take)
    step = opened.plan.steps[ROAST]
    assert step.length == Span(119, 134, 149)
    assert step.note == "Length proposed for leg of lamb, 2.7 kg, at 163 °C, to 63 °C (chart); it was 1 h 30 min."
    assert not length.take.isVisible()
    opened.undo()
    assert opened.plan == before
    assert length.take.isVisible()


def test_another_weight_or_target_is_reckoned_when_typing_pauses_and_nothing_stale_can_be_taken(shown, qtbot):
    place, opened = shown(a_roast(63))
    food = details_of(place).food
    click(food.length_button)
    field = food.length.live.form.field("target")
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "57 C")
    assert not food.length.take.isVisible()
    qtbot.waitUntil(lambda: food.length.found is not None)
    assert food.length.found.estimate.likely < 134
    assert "below the published" in food.length.said.text()
    set_field(food.length.live.form.field("weight"), "3 cloves")
    qtbot.waitUntil(lambda: "Weight of one piece" in food.length.said.text())
    assert not food.length.take.isVisible()
    assert opened.plan.steps[ROAST].length == Span.of(90)


def test_a_second_proposal_keeps_the_first_length_in_the_note(shown, qtbot):
    place, opened = shown(a_roast(63))
    food = details_of(place).food
    click(food.length_button)
    click(food.length.take)
    first = opened.plan.steps[ROAST].note.rpartition("; it was ")[2]
    set_field(food.length.live.form.field("weight"), "3 kg")
    qtbot.waitUntil(food.length.take.isVisible)
    click(food.length.take)
    note = opened.plan.steps[ROAST].note
    assert note.count("Length proposed for") == 1
    assert "3 kg" in note
    assert note.rpartition("; it was ")[2] == first


def test_where_nothing_roasts_no_length_is_proposed(shown):
    place, _opened = shown(a_roast())
    place.show_step("lamb.carve")
    place.steps.room.fold(False)
    food = place.steps.details.food
    assert not food.length_button.isVisible()
    assert food.care_button.isVisible()


# ---------------------------------------------------------------- food care


def test_what_a_step_does_to_its_food_is_told_where_words_do_not(shown):
    place, opened = shown(a_roast())
    place.show_step("lamb.carve")
    place.steps.room.fold(False)
    food = place.steps.details.food
    click(food.care_button)
    effect = food.care.field("effect")
    assert effect.currentText() == "as its words and place tell: prepares it"
    choose(effect, Effect.COOL)
    set_field(food.care.field("depth"), "5 cm")
    choose(food.care.field("container"), Container.TRAY)
    carve = StepId("lamb.carve")
    assert opened.plan.steps[carve].food == FoodCare(Effect.COOL, 50, Container.TRAY)
    assert "cools it, 50 mm deep" in food.told.text()
    for expected in (FoodCare(Effect.COOL, 50), FoodCare(Effect.COOL)):
        opened.undo()
        assert opened.plan.steps[carve].food == expected
    choose(effect, None)
    assert opened.plan.steps[carve].food is None
    assert not food.told.isVisible()


def test_another_step_shows_its_own_care_folded(shown):
    plan = a_roast()
    place, _opened = shown(plan)
    food = details_of(place).food
    click(food.care_button)
    assert food.care.isVisible()
    place.show_step("lamb.carve")
    assert not food.care.isVisible()
