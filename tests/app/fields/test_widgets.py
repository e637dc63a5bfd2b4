"""The fields themselves: what they keep, when they speak, how they are laid out."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QVBoxLayout, QWidget

from app.fields import (
    Columns,
    Draft,
    Form,
    Line,
    Page,
    Paragraph,
    Pick,
    Picked,
    Row,
    Rows,
    Spec,
    Typed,
    a_button,
    dress_fields,
    tab_as_read,
)
from app.fields.reading_order import in_reading_order
from app.fields.typed_text import COUNT, NAME
from app.look import LIGHT

ENTER = Qt.Key.Key_Return


@pytest.fixture
def shown(qtbot):
    """Show a widget with another one that may take the focus."""
    kept = []

    def show(widget, width=400):
        window = QWidget()
        kept.append(window)
        column = QVBoxLayout(window)
        column.addWidget(widget)
        window.other = a_button("Elsewhere")
        column.addWidget(window.other)
        qtbot.addWidget(window)
        window.resize(width, 300)
        window.show()
        qtbot.waitExposed(window)
        window.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is window)
        return window

    return show


class Taker:
    """Keeps what is taken; refuses what it is told to."""

    def __init__(self, refuses=()):
        self.taken = []
        self.refuses = refuses

    def __call__(self, value):
        if value in self.refuses:
            return f"{value} will not do; choose another."
        self.taken.append(value)
        return ""


@pytest.mark.parametrize("kind", [Line, Paragraph])
def test_a_text_is_handed_over_once_when_it_is_left(shown, kind):
    take = Taker()
    field = kind(COUNT, take)
    window = shown(field)
    field.show_value(4)
    assert field.shown_text() == "4"
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "7")
    assert take.taken == []
    QTest.keyClick(field, ENTER)
    window.other.setFocus()
    assert take.taken == [7]
    assert field.value == 7


@pytest.mark.parametrize("kind", [Line, Paragraph])
def test_a_refused_text_is_kept_until_it_is_mended_or_given_up(shown, kind):
    take = Taker(refuses=(13,))
    field = kind(COUNT, take)
    said = []
    field.complained.connect(said.append)
    window = shown(field)
    field.show_value(4)
    for text, sentence in (("thirteen", "whole number"), ("13", "will not do")):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        window.other.setFocus()
        assert sentence in field.wrong
        assert field.shown_text() == text
        assert field.property("wrong") is True
    field.show_value(5)
    assert field.shown_text() == "13"
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Escape)
    assert (field.shown_text(), field.wrong) == ("5", "")
    assert said[-1] == ""
    assert take.taken == []


@pytest.mark.parametrize("kind", [Line, Paragraph])
def test_what_is_being_typed_is_not_overwritten(shown, kind):
    field = kind(NAME, Taker())
    shown(field)
    field.show_value("Leeks")
    field.setFocus()
    QTest.keyClicks(field, "young ")
    field.show_value("Peas")
    assert "young" in field.shown_text()
    field.show_value("Peas", afresh=True)
    assert field.shown_text() == "Peas"


@pytest.mark.parametrize("kind", [Line, Paragraph])
def test_offers_are_chosen_and_joined(shown, kind):
    take = Taker()
    how = Typed(lambda text: text, str, lambda: ["oven", "burner"], "; ")
    field = kind(how, take)
    shown(field)
    field.show_value("")
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down)
    popup = QApplication.activePopupWidget()
    assert [action.text() for action in popup.actions()] == ["oven", "burner"]
    popup.actions()[1].trigger()
    popup.close()
    assert take.taken == ["burner"]
    field._chosen("oven")
    assert take.taken[-1] == "burner; oven"


@pytest.mark.parametrize("width", [170, 195, 220, 260])
@pytest.mark.parametrize("offers", [None, list])
def test_a_paragraph_grows_with_its_text_and_shows_all_of_it(shown, width, offers):
    field = Paragraph(Typed(str, str, offers), Taker())
    page = Page(field)
    window = shown(page, width=width)
    dress_fields(window, LIGHT)
    field.show_value("Cut")
    QApplication.processEvents()
    low = field.height()
    field.show_value("Cut the fennel into wedges, halve the tomatoes, oil and salt them in the roasting tin")
    QApplication.processEvents()
    lines = field.document().firstBlock().layout().lineCount()
    assert lines > 2
    assert field.height() >= low + (lines - 1) * field.fontMetrics().lineSpacing() - 4
    assert field.viewport().height() >= lines * field.fontMetrics().lineSpacing() - 2
    assert field.heightForWidth(field.width()) <= (lines + 1) * field.fontMetrics().lineSpacing() + 12


def test_a_paragraph_has_one_paragraph_only(shown):
    field = Paragraph(NAME, Taker())
    shown(field)
    field.show_value("")
    field.setFocus()
    QApplication.clipboard().setText("peel\nthe potatoes\n")
    field.paste()
    assert field.shown_text() == "peel the potatoes"


def test_a_refused_choice_stays_marked(shown):
    take = Taker(refuses=("machine",))
    pick = Pick(Picked(lambda: [(each, each) for each in ("oven", "burner", "machine")]), take)
    shown(pick)
    pick.show_value("oven")
    pick.setFocus()
    QTest.keyClick(pick, Qt.Key.Key_Down)
    assert take.taken == ["burner"]
    QTest.keyClick(pick, Qt.Key.Key_Down)
    assert "will not do" in pick.wrong
    assert pick.currentText() == "machine"
    QTest.keyClick(pick, Qt.Key.Key_Escape)
    assert (pick.currentText(), pick.wrong) == ("burner", "")


def a_form(take=lambda _key, _value: ""):
    return Form([Spec(name, name.title(), COUNT) for name in ("one", "two", "three", "four")], take, least=150)


def test_a_form_reflows_to_the_room_it_has(shown):
    form = a_form()
    window = shown(form, width=720)
    QApplication.processEvents()
    assert len({cell.y() for cell in form.cells.values()}) == 1
    window.resize(360, 400)
    QApplication.processEvents()
    assert len({cell.x() for cell in form.cells.values()}) == 2
    window.resize(200, 500)
    QApplication.processEvents()
    assert len({cell.x() for cell in form.cells.values()}) == 1


def test_a_field_takes_more_columns_only_where_no_other_goes_below_for_it(shown):
    names = ("one", "two", "three")
    specs = [Spec(name, name.title(), COUNT, grows=3 if name == "one" else 1) for name in names]
    form = Form(specs, lambda _key, _value: "", least=150)
    window = shown(form, width=900)
    QApplication.processEvents()
    assert form.cells["one"].width() > 2 * form.cells["two"].width()
    window.resize(560, 400)
    QApplication.processEvents()
    assert len({cell.y() for cell in form.cells.values()}) == 1
    assert form.cells["one"].width() < 2 * form.cells["two"].width()


def test_enter_presses_a_button_as_the_space_bar_does(shown):
    button, pressed = a_button("Cook here"), []
    button.clicked.connect(lambda: pressed.append(True))
    shown(button)
    button.setFocus()
    QTest.keyClick(button, ENTER)
    QTest.keyClick(button, Qt.Key.Key_Space)
    assert len(pressed) == 2


def test_a_form_can_leave_fields_out(shown):
    form = a_form()
    shown(form)
    form.show_only(("one", "four"))
    assert [key for key, cell in form.cells.items() if cell.isVisible()] == ["one", "four"]


def test_a_field_that_is_not_shown_is_made_when_it_is_with_the_value_it_has_by_then(shown):
    taken = []
    specs = [Spec(name, name.title(), COUNT) for name in ("one", "two", "three")]
    form = Form(specs, lambda key, value: taken.append((key, value)) or "", least=150, shown=("three",))
    shown(form, width=720)
    assert list(form.cells) == ["three"]
    form.show_values({"one": 1, "two": 2, "three": 3})
    form.show_values({"one": 4})
    assert list(form.cells) == ["three"]
    form.show_only(("one", "three"))
    assert list(form.cells) == ["three", "one"]
    assert [form.field(key).text() for key in ("one", "three")] == ["4", "3"]
    assert form.cells["one"].isVisible()
    QApplication.processEvents()
    assert form.cells["one"].x() < form.cells["three"].x()
    assert form.field("two").text() == "2"
    assert not form.cells["two"].isVisible()
    field = form.field("one")
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "7")
    QTest.keyClick(field, ENTER)
    assert taken == [("one", 7)]


def test_a_forms_sentence_stands_below_its_field(shown):
    form = a_form(lambda key, value: f"{key} cannot be {value}; write less." if value > 9 else "")
    shown(form, width=720)
    form.show_values(dict.fromkeys(form.cells, 1))
    field = form.field("two")
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "10")
    QTest.keyClick(field, ENTER)
    assert form.cells["two"].wrong.text() == "two cannot be 10; write less."
    assert form.cells["two"].wrong.isVisible()
    assert not form.cells["one"].wrong.isVisible()
    assert form.cells["two"].label.buddy() is field


def a_row(take=lambda _key, _value: ""):
    return Row([[Spec("does", "Does", NAME)], ["takes", Spec("length", "Length", COUNT)]], take)


def test_enter_goes_through_a_row_and_finishes_it(shown):
    row = a_row()
    finished = []
    row.finished.connect(lambda: finished.append(True))
    shown(row)
    row.show_values({"does": "Boil", "length": 5})
    row.enter()
    QTest.keyClick(QApplication.focusWidget(), ENTER)
    assert QApplication.focusWidget() is row.fields["length"]
    QTest.keyClicks(QApplication.focusWidget(), "x")
    QTest.keyClick(QApplication.focusWidget(), ENTER)
    assert finished == []
    row.fields["length"].selectAll()
    QTest.keyClicks(QApplication.focusWidget(), "8")
    QTest.keyClick(QApplication.focusWidget(), ENTER)
    assert finished == [True]


def test_a_row_of_another_thing_forgets_what_was_to_be_mended(shown):
    row = a_row()
    shown(row)
    row.show_values({"does": "Boil", "length": 5}, "soup.boil")
    row.fields["length"].refuse("no")
    row.show_values({"does": "Boil", "length": 6}, "soup.boil")
    assert row.wrong.text() == "no"
    row.show_values({"does": "Bake", "length": 7}, "bread.bake")
    assert row.wrong.text() == ""
    assert row.fields["length"].shown_text() == "7"


def test_rows_keep_their_widgets_focus_and_order(shown):
    rows = Rows(lambda key: Line(NAME, Taker()))
    shown(rows)
    assert rows.show_keys(["a", "b", "c"])
    kept = rows.at("b")
    kept.setFocus()
    assert not rows.show_keys(["a", "b", "c"])
    rows.show_keys(["c", "b", "d"])
    QApplication.processEvents()
    assert rows.at("b") is kept
    assert QApplication.focusWidget() is kept
    assert rows.at("a") is None
    assert [row.y() for row in rows] == sorted(row.y() for row in rows)


def test_a_draft_is_empty_again_once_it_is_taken(shown):
    take, went_on = Taker(refuses=("salt",)), []
    draft = Draft("New", "new…", take, a_button("Add"))
    draft.added.connect(went_on.append)
    window = shown(draft)
    draft.enter()
    QTest.keyClicks(draft.line, "leeks")
    QTest.keyClick(draft.line, ENTER)
    assert (take.taken, draft.line.text(), went_on) == (["leeks"], "", [True])
    QTest.keyClicks(draft.line, "salt")
    window.other.setFocus()
    assert "salt will not do" in draft.wrong.text()
    assert draft.line.text() == "salt"
    draft.enter()
    draft.line.selectAll()
    QTest.keyClick(draft.line, Qt.Key.Key_Delete)
    assert draft.wrong.text() == ""
    QTest.keyClicks(draft.line, "peas")
    draft.button.click()
    assert take.taken == ["leeks", "peas"]
    assert went_on == [True, False]


def test_columns_use_the_room(shown):
    columns = Columns(least=150)
    labels = [QLabel(text) for text in "abcd"]
    window = shown(columns, width=720)
    columns.show_widgets(labels)
    QApplication.processEvents()
    assert len({label.x() for label in labels}) == 4
    window.resize(200, 300)
    QApplication.processEvents()
    assert len({label.x() for label in labels}) == 1
    assert [label.y() for label in labels] == sorted(label.y() for label in labels)


def test_tab_goes_as_one_reads(shown):
    late, early = Line(NAME, Taker()), Line(NAME, Taker())
    inside = QWidget()
    column = QVBoxLayout(inside)
    column.addWidget(early)
    column.addWidget(late)
    window = shown(inside)
    QWidget.setTabOrder(late, early)
    tab_as_read(window)
    assert list(in_reading_order(window)) == [early, late, window.other]
    early.setFocus()
    QTest.keyClick(early, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is late
