"""The Menu place, used as a cook uses it: by the keyboard, with slips of the hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from app.bridge import OpenPlan
from app.fields.reading_order import in_reading_order
from app.places.menu import MenuPlace
from core.desk import Desk
from core.measures.quantity import Quantity
from core.plan.decisions import Pin
from core.plan.edits import AddStep, RemoveDish, RenamePlan
from core.plan.ids import DishId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import Ingredient, Link, LinkKind
from core.plan.step import Attention, Holding, Manner, Span, Touch
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_vessel, chained

ENTER = Qt.Key.Key_Return
TAB = Qt.Key.Key_Tab


def type_in(text: str, then: Qt.Key | None = TAB) -> None:
    """Type where the cursor is, over what stands there, and go on."""
    field = QApplication.focusWidget()
    assert field is not None
    field.selectAll()
    QTest.keyClicks(field, text)
    if then is not None:
        QTest.keyClick(field, then)


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def set_field(field, text: str) -> None:
    """Put the cursor into a field, type over what stands there, and leave it by Enter."""
    field.setFocus()
    field.selectAll()
    QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, ENTER)


def wrongs(widget) -> list[str]:
    """Return the sentences that stand beside fields under a widget."""
    labels = widget.findChildren(QLabel, "wrong")
    return [each.text() for each in labels if each.isVisibleTo(widget) and each.text()]


@pytest.fixture
def shown(qtbot):
    """Show the Menu place of a plan."""

    def show(plan, size=(1180, 700)):
        opened = OpenPlan(Desk(plan))
        place = MenuPlace(opened)
        qtbot.addWidget(place)
        place.resize(*size)
        place.show()
        qtbot.waitExposed(place)
        place.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is place)
        return place, opened

    return show


def test_the_place_is_made_when_it_or_a_part_of_it_is_first_wanted(qtbot):
    opened = OpenPlan(Desk(soup_and_bread()))
    place = MenuPlace(opened)
    qtbot.addWidget(place)
    place.finish()
    assert not place.findChildren(QWidget)
    opened.apply(RenamePlan("Autumn"), "menu")
    with pytest.raises(AttributeError, match="soups"):
        _ = place.soups
    assert not place.findChildren(QWidget)
    dishes = place.dishes
    assert place.findChildren(QWidget)
    place.show()
    qtbot.waitExposed(place)
    assert place.dishes is dishes
    assert place.facts.form.field("plan_name").shown_text() == "Autumn"
    assert place.styleSheet()


def soup_and_bread():
    soup = a_dish(
        "soup",
        a_step("soup.cut", "Cut the leeks", (8, 10, 13)),
        a_step("soup.boil", "Boil the soup", 30, attention=Attention.HANDS_OFF, put_in=0, take_out=0),
        a_step("soup.blend", "Blend it", 5),
        name="Leek soup",
    )
    bread = a_dish("bread", a_step("bread.slice", "Slice the bread", 4), name="Bread")
    return a_plan(
        soup, bread, links=chained(*soup.steps), kitchen=a_kitchen(vessels=(a_vessel("pot", 2), a_vessel("tin")))
    )


# ---------------------------------------------------------------- writing a menu by the keyboard


def test_an_empty_menu_teaches_and_begins(shown):
    place, opened = shown(a_plan())
    assert place.right.currentWidget() is place.empty
    place.empty.first.enter()
    type_in("Pea soup", ENTER)
    assert [(dish.id, dish.name) for dish in opened.plan.menu.dishes] == [("pea-soup", "Pea soup")]
    assert place.right.currentIndex() == 0
    assert QApplication.focusWidget() is place.steps.draft.line


def test_a_dish_and_two_steps_are_written_by_the_keyboard_alone(shown):
    place, opened = shown(a_plan(kitchen=a_kitchen(vessels=(a_vessel("pot", name="Large pot"),))))
    place.dishes.draft.enter()
    type_in("Pea soup", ENTER)
    type_in("Shell the peas 10/12/15, hands-off, burner, in the large pot, until bright green", ENTER)
    type_in("Blend 5 min", ENTER)
    first, second = opened.plan.dishes[DishId("pea-soup")].steps
    assert (first.id, first.does, first.length) == ("pea-soup.shell-the-peas", "Shell the peas", Span(10, 12, 15))
    assert first.attention is Attention.HANDS_OFF
    assert [use.kind for use in first.uses] == [StationKind.BURNER]
    assert [use.vessel for use in first.vessels] == ["pot"]
    assert first.doneness is not None
    assert first.doneness.cue == "bright green"
    assert (second.does, second.length) == ("Blend", Span.of(5))
    assert opened.plan.menu.links == (Link(first.id, second.id),)


def test_enter_on_an_empty_line_adds_nothing(shown):
    place, opened = shown(soup_and_bread())
    before = opened.plan
    place.steps.draft.enter()
    press(ENTER)
    place.dishes.draft.enter()
    press(ENTER)
    assert opened.plan is before
    assert wrongs(place) == []


def test_a_step_written_between_two_is_chained_between_them(shown):
    place, opened = shown(soup_and_bread())
    place.steps.go_to(StepId("soup.cut"))
    press(ENTER, Qt.KeyboardModifier.AltModifier)
    type_in("Wash the leeks 5 min", ENTER)
    steps = opened.plan.dishes[DishId("soup")].steps
    assert [step.does for step in steps] == ["Cut the leeks", "Wash the leeks", "Boil the soup", "Blend it"]
    pairs = [(link.before, link.after) for link in opened.plan.menu.links]
    assert ("soup.cut", "soup.wash-the-leeks") in pairs
    assert ("soup.wash-the-leeks", "soup.boil") in pairs
    assert ("soup.cut", "soup.boil") not in pairs


def test_steps_are_copied_moved_and_removed_by_keys(shown):
    place, opened = shown(soup_and_bread())
    place.steps.go_to(StepId("soup.boil"))
    press(Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    names = [step.id for step in opened.plan.dishes[DishId("soup")].steps]
    assert names == ["soup.boil", "soup.cut", "soup.blend"]
    assert place.steps.step == "soup.boil"
    press(Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert len(opened.plan.dishes[DishId("soup")].steps) == 4
    assert place.steps.step == "soup.boil-2"
    press(Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert [step.id for step in opened.plan.dishes[DishId("soup")].steps] == names


def test_a_removed_step_leaves_its_chain_joined(shown):
    place, opened = shown(soup_and_bread())
    place.steps.go_to(StepId("soup.boil"))
    place.steps.bar.remove.click()
    assert [(link.before, link.after) for link in opened.plan.menu.links] == [("soup.cut", "soup.blend")]
    opened.undo()
    assert "soup.boil" in opened.plan.steps
    assert place.steps.rows.at(StepId("soup.boil")) is not None


# ---------------------------------------------------------------- slips


def test_a_wrong_length_is_told_beside_its_row_and_can_be_mended(shown):
    place, opened = shown(soup_and_bread())
    before = opened.plan
    row = place.steps.rows.at(StepId("soup.cut"))
    row.enter("length")
    type_in("20/10/5")
    assert opened.plan is before
    assert "least first" in row.wrong.text()
    assert row.wrong.isVisible()
    field = row.fields["length"]
    assert field.toPlainText() == "20/10/5"
    assert "least first" in field.accessibleDescription()
    set_field(field, "5/10/20")
    assert opened.plan.steps[StepId("soup.cut")].length == Span(5, 10, 20)
    assert not row.wrong.isVisible()
    assert field.toPlainText() == "5 / 10 / 20 min"


def test_a_length_is_judged_while_it_is_typed_after_a_pause(shown, qtbot):
    place, opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    row.enter("length")
    type_in("soon", None)
    assert not row.wrong.isVisible()
    qtbot.waitUntil(row.wrong.isVisible, timeout=3000)
    assert "soon" in row.wrong.text()
    type_in("7", None)
    assert not row.wrong.isVisible()
    assert opened.plan.steps[StepId("soup.cut")].length == Span(8, 10, 13)


def test_what_the_plan_does_not_bear_is_told_at_the_field_and_not_above_the_window(shown):
    place, opened = shown(soup_and_bread())
    before, said = opened.plan, []
    opened.refused.connect(said.append)
    row = place.steps.rows.at(StepId("soup.cut"))
    set_field(row.fields["uses"], "smoker")
    assert opened.plan is before
    assert "smoker" in row.wrong.text()
    assert said == []


def test_escape_brings_the_plans_value_back(shown):
    place, _opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    row.enter("length")
    set_field(row.fields["length"], "never")
    row.fields["length"].setFocus()
    press(Qt.Key.Key_Escape)
    assert row.fields["length"].toPlainText() == "8 / 10 / 13 min"
    assert not row.wrong.isVisible()


def test_what_stands_to_be_mended_survives_other_changes(shown):
    place, opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    set_field(row.fields["length"], "never")
    opened.apply(AddStep(DishId("soup"), a_step("soup.serve", "Serve", 1)))
    assert place.steps.rows.at(StepId("soup.cut")) is row
    assert row.fields["length"].toPlainText() == "never"
    assert row.wrong.isVisible()


@pytest.mark.parametrize(
    ("typed", "told"),
    [("ovn, 180 C", "oven"), ("oven, 9000 C", "kitchen temperature"), ("180 C", "kind of place")],
)
def test_wrong_places_are_told_with_the_mend(shown, typed, told):
    place, opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    set_field(row.fields["uses"], typed)
    assert told in row.wrong.text()
    assert opened.plan.steps[StepId("soup.cut")].uses == ()


def test_an_unknown_vessel_is_refused_and_the_one_meant_named(shown):
    place, opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    set_field(row.fields["vessels"], "2 x potte")
    assert "did you mean" in row.wrong.text()
    set_field(row.fields["vessels"], "2 x pot, tin")
    uses = opened.plan.steps[StepId("soup.cut")].vessels
    assert [(use.vessel, use.count) for use in uses] == [("pot", 2), ("tin", 1)]


# ---------------------------------------------------------------- undo


def test_undo_and_redo_refresh_the_fields_and_keep_the_selection(shown):
    place, opened = shown(soup_and_bread())
    place.show_step("soup.blend")
    row = place.steps.rows.at(StepId("soup.blend"))
    set_field(row.fields["length"], "9")
    assert row.fields["length"].toPlainText() == "9 min"
    opened.undo()
    assert row.fields["length"].toPlainText() == "5 min"
    assert (place.dishes.dish, place.steps.step) == ("soup", "soup.blend")
    opened.redo()
    assert row.fields["length"].toPlainText() == "9 min"


def test_a_removed_dish_comes_back_with_undo(shown):
    place, opened = shown(soup_and_bread())
    place.dishes.list.setFocus()
    press(Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert list(opened.plan.dishes) == ["bread"]
    assert place.dishes.dish == "bread"
    opened.undo()
    assert list(opened.plan.dishes) == ["soup", "bread"]
    assert place.dishes.list.count() == 2


def test_an_undo_key_in_a_field_where_nothing_was_typed_is_left_to_the_plan(shown, qtbot):
    from PySide6.QtGui import QKeySequence, QShortcut

    place, opened = shown(soup_and_bread())
    QShortcut(QKeySequence("Ctrl+Z"), place).activated.connect(opened.undo)
    row = place.steps.rows.at(StepId("soup.cut"))
    set_field(row.fields["length"], "9")
    row.fields["length"].setFocus()
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert opened.plan.steps[StepId("soup.cut")].length == Span(8, 10, 13)


# ---------------------------------------------------------------- dishes


def test_dishes_are_copied_and_moved(shown):
    place, opened = shown(soup_and_bread())
    place.dishes.list.setFocus()
    press(Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert list(opened.plan.dishes) == ["soup", "soup-2", "bread"]
    assert place.dishes.dish == "soup-2"
    press(Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert list(opened.plan.dishes) == ["soup", "bread", "soup-2"]
    assert place.dishes.dish == "soup-2"


@pytest.mark.parametrize(
    ("typed", "offset", "shown_as", "hint"),
    [
        ("19:27", -3, "19:27", "3 min before plating"),
        ("-30 min", -30, "19:00", "30 min before plating"),
        ("+75", 75, "20:45", "1 h 15 min after plating"),
        ("0:30", 300, "00:30", "5 h after plating"),
    ],
)
def test_serving_time_is_typed_as_clock_or_offset(shown, typed, offset, shown_as, hint):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("dish")
    cell = place.dish_leaf.form.cells["course"]
    set_field(cell.field, typed)
    assert opened.plan.dishes[DishId("soup")].course == offset
    assert cell.field.text() == shown_as
    assert cell.hint.text().endswith(hint)
    assert cell.hint.text().startswith("Sun 27 Sep") == (offset == 300)


def test_what_is_written_about_a_dish(shown):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("dish")
    form = place.dish_leaf.form
    set_field(form.field("name"), "Leek and potato soup")
    set_field(form.field("code"), "LP")
    set_field(form.field("wanted"), "12")
    set_field(form.field("keep"), "up to 20 min, in its vessel")
    set_field(form.field("allergens"), "milk, celery")
    form.field("served").click()
    form.field("note").setFocus()
    QTest.keyClicks(form.field("note"), "Hot plates")
    form.field("name").setFocus()
    dish = opened.plan.dishes[DishId("soup")]
    assert (dish.name, dish.code, dish.wanted, dish.served) == ("Leek and potato soup", "LP", 12, False)
    assert (dish.keep.most, dish.keep.wait.how) == (20, Holding.VESSEL)
    assert (dish.allergens, dish.note) == (("milk", "celery"), "Hot plates")
    assert form.cells["wanted"].hint.text() == "3 times the recipe"
    set_field(form.field("wanted"), "0")
    assert opened.plan.dishes[DishId("soup")].wanted == 12
    assert "0 servings" in form.cells["wanted"].wrong.text()


def test_ingredients_are_added_edited_and_removed(shown):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("ingredients")
    place.ingredients.draft.enter()
    type_in("potatoes: 1 1/2 kg, peeled", ENTER)
    type_in("salt: 8 g per kg of potatoes", ENTER)
    soup = DishId("soup")
    assert opened.plan.dishes[soup].ingredients == (
        Ingredient("potatoes", Quantity(Fraction(3, 2), "kg"), "peeled"),
        Ingredient("salt", Quantity(Fraction(8), "g"), per_kg_of="potatoes"),
    )
    row = place.ingredients.rows.at(0)
    set_field(row.fields["amount"], "a few")
    assert row.wrong.isVisible()
    set_field(row.fields["amount"], "1 1/2 cups")
    set_field(row.fields["aisle"], "vegetables")
    set_field(row.fields["item"], "small potatoes")
    first, salt = opened.plan.dishes[soup].ingredients
    assert (first.quantity.as_text(), first.aisle, first.item) == ("1.5 cups", "vegetables", "small potatoes")
    assert salt.per_kg_of == "small potatoes"
    row.fields["item"].setFocus()
    press(Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert "kilogram" in row.wrong.text()
    place.ingredients.rows.at(1).fields["item"].setFocus()
    press(Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert [each.item for each in opened.plan.dishes[soup].ingredients] == ["small potatoes"]


# ---------------------------------------------------------------- the chosen step


def test_details_of_the_chosen_step(shown):
    place, opened = shown(soup_and_bread(), (1900, 1000))
    place.show_step("soup.boil")
    form = place.steps.details.form
    set_field(form.field("touches"), "at 15, 2 min: stir; 5 min before the end, 1 min: taste")
    set_field(form.field("core"), "63 C")
    set_field(form.field("latest"), "30 min before")
    set_field(form.field("clock"), "day -1 16:00")
    form.field("manner_of_step").choose(Manner.HIGH)
    step = opened.plan.steps[StepId("soup.boil")]
    assert step.touches == (Touch(15, 2, "stir"), Touch(5, 1, "taste", from_end=True))
    assert step.attention is Attention.TENDED
    assert step.doneness is not None
    assert (step.doneness.core, step.latest) == (63, -30)
    hint = form.cells["clock"].hint.text()
    assert hint.startswith("Fri 25 Sep")
    assert hint.endswith("16:00")
    assert opened.plan.manners[step.id] is Manner.HIGH
    set_field(form.field("latest"), "")
    assert opened.plan.steps[step.id].latest is None


def test_touches_of_a_hands_on_step_are_refused_with_the_mend(shown):
    place, opened = shown(soup_and_bread(), (1900, 1000))
    place.show_step("soup.cut")
    form = place.steps.details.form
    set_field(form.field("touches"), "at 5: stir")
    assert "touches" in form.cells["touches"].wrong.text()
    assert opened.plan.steps[StepId("soup.cut")].touches == ()
    place.show_step("soup.blend")
    assert not form.cells["touches"].wrong.isVisible()


def test_a_pin_is_shown_and_lifted(shown):
    plan = a_plan(
        *soup_and_bread().menu.dishes, pins=(Pin(StepId("soup.boil"), start=-60, station=None),)
    )
    place, opened = shown(plan, (1900, 1000))
    place.show_step("soup.boil")
    assert "18:30" in place.steps.details.pinned.text()
    place.steps.details.lift.click()
    assert opened.plan.decisions.pins == ()
    assert not place.steps.details.lift.isVisible()


def test_show_step_goes_to_dish_and_step(shown):
    place, _opened = shown(soup_and_bread())
    place.leaves.turn("ingredients")
    place.show_step("bread.slice")
    assert place.dishes.dish == "bread"
    assert place.leaves.name == "steps"
    assert place.steps.step == "bread.slice"
    assert QApplication.focusWidget() is place.steps.rows.at(StepId("bread.slice")).fields["does"]
    place.show_step("nothing.there")
    assert place.dishes.dish == "bread"


# ---------------------------------------------------------------- links


def test_a_link_is_added_edited_and_removed(shown):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("follows")
    new = place.follows.new
    new.fields["before"].choose(StepId("bread.slice"))
    new.fields["after"].choose(StepId("soup.blend"))
    place.follows.link_them.click()
    assert opened.plan.menu.links[-1] == a_link("bread.slice", "soup.blend")
    row = place.follows.rows.at(2)
    set_field(row.fields["most"], "30 min")
    set_field(row.fields["how"], "in the fridge, 600 cm2, 12 cm")
    row.fields["kind"].choose(LinkKind.START_TO_START)
    link = opened.plan.menu.links[-1]
    assert (link.least, link.most, link.kind, link.wait.how) == (0, 30, LinkKind.START_TO_START, Holding.FRIDGE)
    assert link.wait.use is not None
    assert link.wait.use.area == 600
    set_field(row.fields["least"], "40")
    assert "at least 40 min and at most 30 min" in row.wrong.text()
    assert opened.plan.menu.links[-1].least == 0
    row.fields["how"].setFocus()
    press(Qt.Key.Key_Delete, Qt.KeyboardModifier.AltModifier)
    assert len(opened.plan.menu.links) == 2
    assert len(place.follows.rows) == 2


def test_a_circle_is_refused_with_the_chain_named(shown):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("follows")
    new = place.follows.new
    new.fields["before"].choose(StepId("soup.blend"))
    new.fields["after"].choose(StepId("soup.cut"))
    place.follows.link_them.click()
    told = new.wrong.text()
    assert "circle" in told
    assert all(name in told for name in ("Cut the leeks", "Boil the soup", "Blend it"))
    assert len(opened.plan.menu.links) == 2
    new.fields["after"].choose(StepId("bread.slice"))
    place.follows.link_them.click()
    assert new.wrong.text() == ""
    assert opened.plan.menu.links[-1].key == ("soup.blend", "bread.slice", LinkKind.END_TO_START)


def test_a_step_chosen_that_makes_a_circle_stays_marked_in_its_link(shown):
    place, opened = shown(soup_and_bread())
    place.leaves.turn("follows")
    row = place.follows.rows.at(0)
    row.fields["before"].choose(StepId("soup.blend"))
    assert "circle" in row.wrong.text()
    assert opened.plan.menu.links[0].before == "soup.cut"
    row.fields["before"].setFocus()
    press(Qt.Key.Key_Escape)
    assert row.wrong.text() == ""
    assert row.fields["before"].value == "soup.cut"


def test_an_arrow_is_drawn_from_step_to_step(shown, qtbot):
    place, opened = shown(soup_and_bread())
    opened.apply(AddStep(DishId("soup"), a_step("soup.serve", "Serve", 1)))
    place.leaves.turn("follows")
    paper = place.follows.flow.paper
    one, other = (paper.box(each).center().toPoint() for each in ("soup.blend", "soup.serve"))
    QTest.mousePress(paper, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, one)
    QTest.mouseMove(paper, other)
    QTest.mouseRelease(paper, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, other)
    assert opened.plan.menu.links[-1].key == ("soup.blend", "soup.serve", LinkKind.END_TO_START)
    assert place.steps.step == "soup.blend"
    assert "Blend it, then Leek soup: Serve" in paper.accessibleDescription()


# ---------------------------------------------------------------- the plan's facts


def test_facts_of_the_plan(shown):
    place, opened = shown(soup_and_bread())
    form = place.facts.form
    set_field(form.field("plan_name"), "Sunday lunch")
    set_field(form.field("plating"), "2026-09-27 13:00")
    set_field(form.field("zone"), "Europe/Berlin")
    form.field("manner").choose(Manner.LIKELY)
    plan = opened.plan
    assert plan.name == "Sunday lunch"
    assert (f"{plan.plating.local:%Y-%m-%d %H:%M}", plan.plating.zone) == ("2026-09-27 13:00", "Europe/Berlin")
    assert plan.decisions.manner is Manner.LIKELY
    set_field(form.field("plating"), "tomorrow")
    set_field(form.field("zone"), "Berlin")
    assert "2026-09-26 19:30" in form.cells["plating"].wrong.text()
    assert "Europe/Berlin" in form.cells["zone"].wrong.text()
    assert opened.plan is plan


def test_wishes_are_drawn_and_undone_as_one(shown):
    place, opened = shown(soup_and_bread())
    assert not place.facts.wishes.isVisible()
    place.facts.fold.click()
    weight = place.facts.wishes.field("calm")
    for value in (5, 7, 9):
        weight.slider.setValue(value)
    assert opened.plan.decisions.wishes.calm == 9
    assert weight.words.text() == "much"
    opened.undo()
    assert opened.plan.decisions.wishes.calm == 3
    assert weight.value == 3


# ---------------------------------------------------------------- reaching everything


def test_tab_goes_through_a_row_in_reading_order(shown):
    place, _opened = shown(soup_and_bread())
    place.steps.go_to(StepId("soup.cut"))
    met = []
    for _step in range(7):
        met.append(QApplication.focusWidget().objectName())
        press(TAB)
    assert met == ["does", "length", "attention", "uses", "vessels", "cue", "stepWords"]


def test_tab_goes_through_the_whole_place_as_one_reads_also_after_another_dish_and_leaf(shown):
    place, _opened = shown(soup_and_bread())

    def as_it_goes() -> list[QWidget]:
        wanted = {each for each in in_reading_order(place) if each.isVisible()}
        first = each = next(each for each in in_reading_order(place) if each.isVisible())
        found = [first]
        while (each := each.nextInFocusChain()) is not first:
            found += [each] if each in wanted else []
        return found

    for dish, leaf in (("bread", "steps"), ("soup", "ingredients"), ("bread", "follows"), ("soup", "steps")):
        place.dishes.choose(DishId(dish))
        place.leaves.turn(leaf)
        QApplication.processEvents()
        assert as_it_goes() == [each for each in in_reading_order(place) if each.isVisible()]


def test_everything_that_can_be_reached_has_a_name_and_is_large_enough(shown):
    place, _opened = shown(soup_and_bread(), (1900, 1000))
    small, nameless = [], []
    for leaf in place.leaves.buttons:
        place.leaves.turn(leaf)
        QApplication.processEvents()
        for widget in place.findChildren(QWidget):
            if not widget.isVisible() or not widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
                continue
            if widget.focusProxy() is not None:
                continue
            text = getattr(widget, "text", str)
            if not (widget.accessibleName() or (callable(text) and text())):
                nameless.append((type(widget).__name__, widget.objectName()))
            if min(widget.width(), widget.height()) < 24:
                small.append((type(widget).__name__, widget.objectName(), widget.size().toTuple()))
    assert nameless == []
    assert small == []


def test_the_place_is_no_wider_than_a_small_screen_gives_it(shown):
    place, _opened = shown(soup_and_bread())
    assert place.minimumSizeHint().width() <= 1160
    assert place.minimumSizeHint().height() <= 600


def test_a_menu_that_empties_teaches_again(shown):
    place, opened = shown(a_plan(a_dish("soup", name="Soup")))
    assert place.steps.teaching.isVisible()
    opened.apply(RemoveDish(DishId("soup")))
    assert place.right.currentWidget() is place.empty
    opened.undo()
    assert place.right.currentIndex() == 0


def test_what_is_being_typed_is_taken_before_the_plan_is_closed(shown):
    place, opened = shown(soup_and_bread())
    row = place.steps.rows.at(StepId("soup.cut"))
    row.enter("length")
    type_in("9", None)
    assert opened.plan.steps[StepId("soup.cut")].length == Span(8, 10, 13)
    place.finish()
    assert opened.plan.steps[StepId("soup.cut")].length == Span.of(9)


def test_an_empty_menu_has_the_cursor_on_its_first_line(shown):
    place, _opened = shown(a_plan())
    place.setFocus()
    assert QApplication.focusWidget() is place.empty.first.line
    place.dishes.add("Soup")
    place.setFocus()
    assert QApplication.focusWidget() is place.dishes.list


def test_what_changes_while_another_place_is_shown_is_caught_up(shown):
    place, opened = shown(soup_and_bread())
    place.hide()
    opened.apply(AddStep(DishId("soup"), a_step("soup.serve", "Serve", 1)))
    assert place.steps.rows.at(StepId("soup.serve")) is None
    place.show_step("soup.serve")
    assert place.steps.step == "soup.serve"
    opened.undo()
    place.show()
    assert place.steps.rows.at(StepId("soup.serve")) is None


def test_colours_follow_a_change_to_dark(shown, qapp):
    from app.look.colours import DARK, LIGHT, qpalette

    place, _opened = shown(soup_and_bread())
    before = qapp.palette()
    try:
        for palette in (DARK, LIGHT):
            qapp.setPalette(qpalette(palette))
            QApplication.processEvents()
            assert palette.accent in place.styleSheet()
            image = place.dishes.list.viewport().grab().toImage()
            assert image.pixelColor(image.width() - 20, image.height() - 4).name() == palette.panel.lower()
    finally:
        qapp.setPalette(before)
