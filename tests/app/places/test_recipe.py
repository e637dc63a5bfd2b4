"""A recipe brought in through the window: pasted, opened, dropped; corrected, taken, put away; by mouse and by keys."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QTextCharFormat
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from app.places.recipe.kept_tray import kept_tray, tray_path
from core.plan.kitchen import StationKind
from core.plan.step import Attention, Span
from tests.support.windows import a_window

CTRL, ALT, SHIFT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ShiftModifier,
)
ENTER, ESC = Qt.Key.Key_Return, Qt.Key.Key_Escape

PIE = """Leek and barley pie
Serves 6

Ingredients
3 leeks, sliced
200 g pearl barley
1 sheet of pastry

Method
Simmer the barley in a pan for 25 minutes. Sweat the leeks in a frying pan for 10 minutes until soft.
Fill the tin with both. Bake at 190C for 35 to 45 minutes until golden. Rest for 10 minutes on the counter.
"""
SOUP = """Quick pea soup

500 g peas
1 onion

Boil the peas for 6 minutes. Blend for 2 minutes.
"""


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch):
    with a_window(qtbot, tmp_path, monkeypatch) as made:
        yield made


@pytest.fixture
def planned(window):
    """Give a window with an empty plan open."""
    window.acts.begin_empty()
    return window


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def write(text):
    QTest.keyClicks(QApplication.focusWidget(), text)


def click(button):
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def paste(window, text):
    """Paste by keys on the page for it, and read."""
    QTest.keyClick(window, Qt.Key.Key_I, CTRL)
    place = window.recipes.inside.place
    if place.working:
        QTest.keyClick(place, Qt.Key.Key_N, CTRL | SHIFT)
    QApplication.clipboard().setText(text)
    press(Qt.Key.Key_V, CTRL)
    press(ENTER, CTRL)
    return place


def lines(place):
    return [each.line for each in place.bench.worked.rows]


def row(place, number):
    """Return the widget of a step by its number."""
    return place.worktop.dish.rows["step", place.bench.worked.rows[number - 1].key]


def questions(place):
    return [each.sentence for each in place.worktop.asked.asked]


def answer_all(place, words="5"):
    """Give every missing length by keys: F4, the length, Enter."""
    press(Qt.Key.Key_F4)
    for _ in [each for each in place.worktop.asked.asked if each.must]:
        write(words)
        press(ENTER)
    assert not any(each.must for each in place.worktop.asked.asked)


def at_phrase(place, phrase):
    """Click on a phrase of the text."""
    text = place.worktop.text
    cursor = text.document().find(phrase)
    cursor.setPosition(cursor.selectionStart() + 1)
    text.setTextCursor(cursor)
    spot = text.cursorRect().center()
    QTest.mouseClick(text.viewport(), Qt.MouseButton.LeftButton, pos=spot)


def marked(place):
    """Return the phrase that is marked in the text."""
    start, end = place.worktop.text.marked[1]
    return place.bench.worked.draft.text[start:end]


# ---------------------------------------------------------------- coming in


def test_from_the_welcome_a_pasted_recipe_becomes_a_plan_of_its_own_by_keys_alone(window):
    click(window.welcome.recipe_button)
    place = window.recipes.inside.place
    QApplication.clipboard().setText(PIE)
    press(Qt.Key.Key_V, CTRL)
    press(ENTER, CTRL)
    assert place.working
    assert window.opened is None
    assert place.worktop.dish.name.text() == "Leek and barley pie"
    assert place.worktop.dish.servings.text() == "6"
    answer_all(place, "4-6 min")
    press(Qt.Key.Key_T, CTRL)
    dish = window.opened.plan.menu.dishes[0]
    assert (dish.name, dish.written_for, len(dish.ingredients)) == ("Leek and barley pie", 6, 3)
    bake = next(step for step in dish.steps if step.uses and step.uses[0].kind is StationKind.OVEN)
    assert (bake.length, bake.uses[0].heat.setting) == (Span(35, 40, 45), 190)
    fill = next(step for step in dish.steps if "Fill" in step.does)
    assert fill.length == Span(4, 5, 6)
    assert window.stack.currentWidget() is window.places.menu
    assert "Leek and barley pie" in window.banner.words.text()


def test_nothing_is_in_the_plan_before_it_is_taken_and_one_undo_takes_it_back(planned):
    before = planned.opened.plan
    place = paste(planned, PIE)
    answer_all(place)
    assert planned.opened.plan == before
    press(Qt.Key.Key_T, CTRL)
    assert [each.name for each in planned.opened.plan.menu.dishes] == ["Leek and barley pie"]
    QTest.keyClick(planned, Qt.Key.Key_Z, CTRL)
    assert planned.opened.plan == before


def test_a_saved_page_is_chosen_with_a_dialog(planned, tmp_path, qtbot):
    page = tmp_path / "pie.html"
    data = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": "Page pie",
        "recipeYield": "4",
        "recipeIngredient": ["2 eggs"],
        "recipeInstructions": [{"@type": "HowToStep", "text": "Bake for 20 minutes."}],
    }
    page.write_text(
        f"<html><body><script>document.title='run'</script>"
        f'<script type="application/ld+json">{json.dumps(data)}</script></body></html>',
        encoding="utf-8",
    )
    QTest.keyClick(planned, Qt.Key.Key_I, CTRL | SHIFT)
    dialog = planned.findChild(QFileDialog)
    dialog.fileSelected.emit(str(page))
    dialog.close()
    place = planned.recipes.inside.place
    assert place.working
    assert place.bench.worked.name == "Page pie"
    assert "script" not in place.worktop.text.toPlainText()


def dropped(window, mime):
    event = QDropEvent(
        QPointF(200, 200), Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )
    window.dropEvent(event)


@pytest.mark.parametrize("name", ["pea soup.txt", "soup.md"])
def test_a_dropped_text_file_is_read(window, tmp_path, name):
    file = tmp_path / name
    file.write_text(SOUP, encoding="utf-8")
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    dropped(window, mime)
    assert window.recipes.shown.place.bench.worked.name == "Quick pea soup"


def test_dropped_words_are_read_and_a_dropped_plan_is_opened(window, tmp_path):
    mime = QMimeData()
    mime.setText(SOUP)
    dropped(window, mime)
    assert window.recipes.shown.place.bench.worked.name == "Quick pea soup"
    window.acts.begin_empty()
    saved = tmp_path / "plan.json"
    window.acts.text_to(saved)
    window.show_welcome()
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(saved))])
    dropped(window, mime)
    assert window.opened is not None
    assert window.recipes.shown is None


def test_a_page_on_the_network_is_not_fetched(window):
    mime = QMimeData()
    mime.setUrls([QUrl("https://example.org/soup")])
    dropped(window, mime)
    assert "Nothing is fetched" in window.recipes.shown.place.note.words.text()


# ---------------------------------------------------------------- what cannot be read


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "is empty"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 90, "no page of text"),
        (b"x" * 10_000_001, "larger than 10 MB"),
        (b'{"@type": "Recipe", ', "not well-formed"),
    ],
)
def test_a_file_that_is_no_recipe_is_refused_in_a_sentence_and_nothing_changes(planned, tmp_path, data, sentence):
    before = planned.opened.plan
    file = tmp_path / "odd.txt"
    file.write_bytes(data)
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    dropped(planned, mime)
    place = planned.recipes.inside.place
    assert sentence in place.note.words.text()
    assert not place.working
    assert planned.opened.plan == before


@pytest.mark.parametrize("encoding", ["cp1252", "utf-16", "utf-8-sig"])
def test_odd_encodings_are_read(window, tmp_path, encoding):
    file = tmp_path / "soup.txt"
    file.write_bytes(SOUP.replace("pea soup", "pea purée").encode(encoding))
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    dropped(window, mime)
    assert window.recipes.shown.place.bench.worked.name == "Quick pea purée"


def test_more_than_any_recipe_is_refused(planned):
    place = paste(planned, "Endless\n\nMethod\n" + "\n".join(f"Stir pot {n} for 2 minutes." for n in range(260)))
    assert "more than 200" in place.note.words.text()
    assert not place.working
    QApplication.clipboard().setText("x" * 2_000_001)
    QTest.keyClick(place.start.box, Qt.Key.Key_A, CTRL)
    QTest.keyClick(place.start.box, Qt.Key.Key_V, CTRL)
    assert "longer than any recipe" in place.note.words.text()


def test_signs_beyond_the_first_plane_keep_phrases_in_their_places(planned):
    carrot = "\U0001f955"
    place = paste(planned, f"Stew {carrot}{carrot}\n\n2 onions\n\nFry {carrot} the onions for 12 minutes in a pan.\n")
    row(place, 1).length.setFocus()
    assert marked(place) == "12 minutes"
    text = place.worktop.text
    selections = [each.cursor.selectedText() for each in text.extraSelections()]
    assert "12 minutes" in selections
    at_phrase(place, "12 minutes")
    assert row(place, 1).length.hasFocus()


# ---------------------------------------------------------------- text and values


def test_a_value_shows_its_phrase_and_a_phrase_its_value(planned):
    place = paste(planned, PIE)
    bake = next(number for number, line in enumerate(lines(place), 1) if "Bake" in line)
    row(place, bake).length.setFocus()
    assert marked(place) == "35 to 45 minutes"
    at_phrase(place, "190C")
    assert row(place, bake).line.hasFocus()
    assert row(place, bake).line.textCursor().selectedText() == "190C"
    assert marked(place) == "190C"
    at_phrase(place, "pearl barley")
    assert place.worktop.dish.rows["thing", 1].line.textCursor().selectedText() == "pearl barley"
    at_phrase(place, "Serves 6")
    assert place.worktop.dish.servings.hasFocus()


def test_kinds_of_phrases_differ_by_more_than_colour(planned):
    place = paste(planned, PIE)
    looks = {}
    document = place.worktop.text.document()
    phrases = {"length": "25 minutes", "heat": "190C", "quantity": "200 g", "doneness": "until golden"}
    for what, phrase in phrases.items():
        at = document.toPlainText().index(phrase)
        block = document.findBlock(at)
        inside = at - block.position()
        ranges = list(block.layout().formats())
        found = next(each for each in ranges if each.start <= inside < each.start + each.length)
        looks[what] = (found.format.underlineStyle(), found.format.fontWeight())
    assert len(set(looks.values())) == 4
    assert all(style is not QTextCharFormat.UnderlineStyle.NoUnderline for style, _weight in looks.values())


def test_a_question_shows_its_place_and_enter_goes_to_what_answers_it(planned):
    place = paste(planned, PIE)
    asked = place.worktop.asked
    assert asked.hasFocus()
    chosen = asked.chosen
    assert chosen.must
    start, end = place.worktop.text.marked[0]
    assert place.bench.worked.draft.text[start:end].startswith("Fill")
    press(ENTER)
    assert row(place, 3).length.hasFocus()


def test_f4_goes_from_question_to_question_and_passes_none(planned):
    place = paste(planned, "Bread\n\n500 g flour\n\nMix the flour. Knead 10 min. Shape. Bake for 30 minutes.\n")
    number = {each.key: at for at, each in enumerate(place.bench.worked.rows, 1)}
    must = [number[each.row] for each in place.worktop.asked.asked if each.must]
    assert len(must) == 2
    press(Qt.Key.Key_F4)
    assert row(place, must[0]).length.hasFocus()
    press(Qt.Key.Key_F4)
    assert row(place, must[1]).length.hasFocus()
    press(Qt.Key.Key_F4, SHIFT)
    assert row(place, must[0]).length.hasFocus()
    write("2")
    press(Qt.Key.Key_F4)
    assert row(place, must[1]).length.hasFocus()


def test_a_question_of_the_page_is_put_aside(planned):
    place = paste(planned, SOUP)
    before = questions(place)
    number = next(number for number, each in enumerate(place.worktop.asked.asked) if not each.must)
    place.worktop.asked.setCurrentRow(number)
    place.worktop.asked.setFocus()
    press(Qt.Key.Key_Delete)
    assert len(questions(place)) == len(before) - 1
    QTest.keyClick(planned, Qt.Key.Key_Z, CTRL)
    assert questions(place) == before


# ---------------------------------------------------------------- correcting


def test_lines_lengths_and_order_are_corrected(planned):
    place = paste(planned, PIE)
    bake = next(number for number, line in enumerate(lines(place), 1) if "Bake" in line)
    row(place, bake).line.setFocus()
    QTest.keyClick(row(place, bake).line, Qt.Key.Key_A, CTRL)
    write("Bake, 50 min, 180C, 1 rack")
    press(ENTER)
    assert row(place, bake).length.text() == "50 min"
    row(place, bake).length.setFocus()
    row(place, bake).length.selectAll()
    write("40/45/60")
    press(ENTER)
    assert lines(place)[bake - 1] == "Bake, 40/45/60 min, 180C, 1 rack"
    row(place, 2).after.setFocus()
    row(place, 2).after.selectAll()
    press(Qt.Key.Key_Delete)
    press(ENTER)
    assert place.bench.worked.rows[1].after == ()
    row(place, 2).after.setFocus()
    write("9")
    press(ENTER)
    assert "steps 1 to" in row(place, 2).complaint.text()
    press(ESC)
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    step = planned.opened.plan.menu.dishes[0].steps[bake - 1]
    assert (step.length, step.uses[0].heat.setting) == (Span(40, 45, 60), 180)
    follows = {link.after for link in planned.opened.plan.menu.links}
    assert planned.opened.plan.menu.dishes[0].steps[1].id not in follows


def test_steps_are_split_joined_moved_and_left_out_and_undone_one_by_one(planned):
    method = "Mix the potatoes with the flour for 8 minutes. Fry for 15 minutes. Season."
    place = paste(planned, f"Hash\n\n3 potatoes\n\n{method}\n")
    first = lines(place)
    assert len(first) == 3
    line = row(place, 1).line
    line.setFocus()
    cursor = line.textCursor()
    cursor.setPosition(line.toPlainText().index("with the"))
    line.setTextCursor(cursor)
    press(Qt.Key.Key_S, ALT)
    assert lines(place)[:2] == ["Mix the potatoes", "With the flour, 8 min"]
    second = place.bench.worked.rows[1]
    assert second.after == (place.bench.worked.rows[0].key,)
    assert place.bench.worked.rows[2].after == (second.key,)
    press(Qt.Key.Key_Up, ALT)
    assert lines(place)[:2] == ["With the flour, 8 min", "Mix the potatoes"]
    above, below = place.bench.worked.rows[:2]
    assert (above.after, below.after) == ((), (above.key,))
    press(Qt.Key.Key_J, ALT)
    assert lines(place)[0] == "With the flour, then mix the potatoes, 8 min"
    press(Qt.Key.Key_X, ALT)
    assert place.bench.worked.rows[0].out
    for _ in range(4):
        QTest.keyClick(planned, Qt.Key.Key_Z, CTRL)
    assert lines(place) == first
    assert planned.opened.plan.menu.dishes == ()


def test_what_follows_a_step_that_is_left_out_follows_what_it_followed(planned):
    place = paste(planned, PIE)
    kept = [number for number, line in enumerate(lines(place), 1) if "Fill" not in line]
    fill = row(place, 3)
    assert "Fill" in lines(place)[2]
    click_into(fill.line)
    press(Qt.Key.Key_X, ALT)
    click_into(fill.line)  # it can be chosen again, and brought back
    click(place.worktop.acts.out)
    assert not place.bench.worked.rows[2].out
    click(place.worktop.acts.out)
    assert not any(each.must for each in place.worktop.asked.asked)
    press(Qt.Key.Key_T, CTRL)
    dish = planned.opened.plan.menu.dishes[0]
    assert len(dish.steps) == len(kept)
    pairs = {(link.before, link.after) for link in planned.opened.plan.menu.links}
    assert {(one.id, other.id) for one, other in pairwise(dish.steps)} <= pairs


def click_into(line):
    QTest.mouseClick(line.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(30, 10))


def test_what_the_text_forgets_is_added_by_keys_and_kept(planned, qtbot):
    place = paste(planned, PIE)
    dish = place.worktop.dish
    dish.new_thing.line.setFocus()
    write("2 tbsp capers")
    press(ENTER)
    assert dish.new_thing.line.hasFocus(), "the next one may follow at once"
    row(place, len(lines(place))).line.setFocus()
    press(ENTER)
    assert dish.new_step.line.hasFocus(), "after the last line the next is written"
    write("Chill 30 min in the fridge")
    press(ENTER)
    assert lines(place)[-1] == "Chill 30 min in the fridge"
    last, new = place.bench.worked.rows[-2:]
    assert new.after == (last.key,)
    assert kept_tray(tray_path())[0].shown == place.bench.worked, "it lies on the disk too"
    row(place, len(lines(place))).line.setFocus()
    assert place.worktop.text.extraSelections() == [], "no word of the text says it"
    QTest.keyClick(planned, Qt.Key.Key_Z, CTRL)
    assert "Chill" not in lines(place)[-1]
    QTest.keyClick(planned, Qt.Key.Key_Y, CTRL)
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    made = planned.opened.plan.menu.dishes[0]
    assert made.steps[-1].uses[0].kind is StationKind.FRIDGE
    assert [each.item for each in made.ingredients][-1] == "capers"


def test_halves_of_a_step_that_is_split_have_places_of_their_own(planned):
    place = paste(planned, "Hash\n\n3 potatoes\n\nMix the potatoes with the flour for 8 minutes. Fry 5 min.\n")
    whole = place.bench.worked.rows[0]
    line = row(place, 1).line
    line.setFocus()
    cursor = line.textCursor()
    cursor.setPosition(line.toPlainText().index("with the"))
    line.setTextCursor(cursor)
    press(Qt.Key.Key_S, ALT)
    text = place.bench.worked.draft.text
    one, other = place.bench.worked.rows[:2]
    assert text[one.start : one.end].strip() == "Mix the potatoes"
    assert text[other.start : other.end].startswith("with the flour for 8 minutes")
    row(place, 1).line.setFocus()
    press(Qt.Key.Key_J, ALT)
    joined = place.bench.worked.rows[0]
    assert (joined.start, joined.end) == (whole.start, whole.end)


def test_a_refusal_goes_once_the_recipe_has_changed(planned):
    place = paste(planned, PIE)
    press(Qt.Key.Key_T, CTRL)
    assert place.note.isVisible()
    assert place.guess.isVisible()
    write("5")
    press(ENTER)
    assert not place.note.isVisible()


def test_a_question_that_needs_no_answer_can_be_settled_as_soon_as_it_is_the_one_chosen(planned):
    place = paste(planned, SOUP + "\nChop the herbs.\n")
    assert not place.worktop.settle.isEnabled(), "a length must be given"
    answer_all(place)
    assert place.worktop.asked.chosen is not None
    assert place.worktop.settle.isEnabled()
    before = len(questions(place))
    click(place.worktop.settle)
    assert len(questions(place)) == before - 1


def test_a_second_recipe_is_shown_without_a_look_into_the_text_of_the_first(planned, qtlog):
    place = paste(planned, "Tea\n\n1 pot of water\n\nBoil for 4 minutes.\n")
    press(Qt.Key.Key_T, CTRL)
    place = paste(planned, PIE)
    assert place.working
    assert not [each.message for each in qtlog.records if "out of range" in each.message]


def test_a_dish_that_is_made_for_as_many_as_the_rest_says_so(planned):
    place = paste(planned, PIE)
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    assert "like the rest" not in planned.banner.words.text()
    place = paste(planned, SOUP.replace("500 g", "Serves 2\n\n500 g"))
    press(Qt.Key.Key_T, CTRL)
    assert planned.opened.plan.menu.dishes[1].wanted == 6
    assert "It is made for 6 like the rest; the recipe is for 2." in planned.banner.words.text()


def test_a_plan_that_begins_with_a_recipe_is_not_called_as_its_dish(window):
    place = paste(window, SOUP)
    answer_all(place) if any(each.must for each in place.worktop.asked.asked) else None
    press(Qt.Key.Key_T, CTRL)
    assert window.opened.plan.name == "Feast with Quick pea soup"


def test_a_tick_says_that_a_line_is_understood(planned):
    place = paste(planned, PIE)
    click_into(row(place, 1).line)
    press(ENTER, CTRL)
    assert place.bench.worked.rows[0].understood
    assert row(place, 2).line.hasFocus()
    click(row(place, 1).tick)
    assert not place.bench.worked.rows[0].understood


def test_an_ingredient_is_corrected_and_left_out(planned):
    place = paste(planned, PIE)
    leeks = place.worktop.dish.rows["thing", 0]
    leeks.line.setFocus()
    QTest.keyClick(leeks.line, Qt.Key.Key_A, CTRL)
    write("4 leeks, halved")
    press(ENTER)
    click_into(place.worktop.dish.rows["thing", 2].line)
    press(Qt.Key.Key_X, ALT)
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    dish = planned.opened.plan.menu.dishes[0]
    assert [(each.item, each.preparation) for each in dish.ingredients] == [("leeks", "halved"), ("pearl barley", "")]
    assert dish.ingredients[0].quantity.amount == 4
    assert dish.ingredients[0].step in {step.id for step in dish.steps}


# ---------------------------------------------------------------- taking and putting away


def test_without_a_length_it_is_taken_only_when_the_cook_says_so_and_the_guess_is_noted(planned):
    place = paste(planned, PIE)
    press(Qt.Key.Key_T, CTRL)
    assert planned.opened.plan.menu.dishes == ()
    assert "No length yet" in place.note.words.text()
    assert row(place, 3).length.hasFocus()
    click(place.guess)
    dish = planned.opened.plan.menu.dishes[0]
    guessed = [step for step in dish.steps if "guess" in step.note]
    assert [step.does for step in guessed] == ["Fill the tin with both"]
    assert "guess" in dish.note
    assert "Still open" in planned.banner.words.text()


def test_a_question_mark_is_a_length_that_is_guessed(planned):
    place = paste(planned, PIE)
    press(Qt.Key.Key_F4)
    write("?")
    press(ENTER)
    assert row(place, 3).length.text() == "?"
    assert not any(each.must for each in place.worktop.asked.asked)
    press(Qt.Key.Key_T, CTRL)
    assert "guess" in planned.opened.plan.menu.dishes[0].note


def test_escape_and_put_away_leave_the_plan_and_what_was_put_away_comes_back(planned):
    before = planned.opened.plan
    place = paste(planned, PIE)
    answer_all(place)
    worked = place.bench.worked
    press(ESC)
    assert planned.stack.currentWidget() is planned.places.menu
    QTest.keyClick(planned, Qt.Key.Key_I, CTRL)
    assert place.bench.worked == worked
    click(place.away)
    assert not place.working
    assert planned.opened.plan == before
    click(place.start.back_button)
    assert place.bench.worked == worked


def test_a_half_worked_recipe_survives_places_and_a_kill(planned, qtbot, tmp_path, monkeypatch):
    place = paste(planned, PIE)
    press(Qt.Key.Key_F4)
    write("7")
    press(ENTER)
    click_into(row(place, 1).line)
    press(ENTER, CTRL)
    for keys in (Qt.Key.Key_3, Qt.Key.Key_2, Qt.Key.Key_1):
        QTest.keyClick(planned, keys, CTRL)
    before = place.bench.worked
    # nothing is told that the first window ends: the file is as a power cut would leave it
    with a_window(qtbot, tmp_path, monkeypatch) as other:
        QTest.keyClick(other, Qt.Key.Key_I, CTRL)
        again = other.recipes.inside.place
        assert again.working
        assert again.bench.worked == before
        assert again.bench.worked.draft == before.draft


OTHER_VERSION = '{"version": 9, "sheets": [], "at": 0, "aside": null}'


@pytest.mark.parametrize("text", ["", "[]", "{", '{"version": 1}', OTHER_VERSION])
def test_a_spoilt_file_of_recipes_is_set_aside_in_a_sentence(window, text):
    path = tray_path()
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    QTest.keyClick(window, Qt.Key.Key_I, CTRL)
    place = window.recipes.inside.place
    assert "cannot be read any more" in place.note.words.text()
    assert not path.exists()
    assert list(path.parent.glob("*unreadable*"))


def test_recipes_lie_side_by_side_and_are_taken_one_after_the_other(planned):
    paste(planned, PIE)
    place = paste(planned, SOUP)
    assert place.count.text() == "Recipe 2 of 2"
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    assert place.bench.worked.name == "Leek and barley pie"
    assert planned.recipes.shown is not None
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    assert [each.name for each in planned.opened.plan.menu.dishes] == ["Quick pea soup", "Leek and barley pie"]
    assert planned.stack.currentWidget() is planned.places.menu
    assert place.bench.worked is None


def test_the_same_recipe_twice_gets_a_name_of_its_own(planned):
    for _ in range(2):
        place = paste(planned, SOUP)
        answer_all(place)
        press(Qt.Key.Key_T, CTRL)
    assert [each.name for each in planned.opened.plan.menu.dishes] == ["Quick pea soup", "Quick pea soup 2"]


def test_hands_off_cooking_stays_hands_off(planned):
    place = paste(planned, PIE)
    answer_all(place)
    press(Qt.Key.Key_T, CTRL)
    bake = next(step for step in planned.opened.plan.menu.dishes[0].steps if step.does.startswith("Bake"))
    assert bake.attention is Attention.HANDS_OFF
    assert bake.doneness.cue == "golden"
