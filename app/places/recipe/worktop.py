"""One recipe being worked on: its text at the left; what is open, and the dish in lines, at the right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSplitter, QVBoxLayout, QWidget

from app.fields import a_button, tab_as_read
from app.look import Palette
from app.places.recipe.asked_list import AskedList
from app.places.recipe.bench import Bench
from app.places.recipe.dish_pane import DishPane
from app.places.recipe.row_acts import RowActs
from app.places.recipe.takes import Spot
from app.places.recipe.text_pane import Legend, TextPane
from app.places.recipe.tracing import Tracing
from app.places.recipe.worked_ask import Asked, asked
from app.places.recipe.worked_change import changed
from core.measures.words import plural


class Worktop(QWidget):
    """Ties text, questions and lines together. `refuse` is called with why something was not done."""

    def __init__(self, bench: Bench, refuse: Callable[[str], object], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench, self._refuse = bench, refuse
        self._recipe: object = None
        self.text = TextPane()
        self.legend = Legend()
        self.asked = AskedList()
        self.dish = DishPane(bench)
        self.open_words = QLabel()
        self.open_words.setObjectName("recipeHeading")
        self.settle = a_button(self.tr("No answer needed"), tip=self.tr("It needs no answer (Del)"))
        self.acts = RowActs(bench, self.dish, refuse, self)
        self.tracing = Tracing(bench, self.text, self.dish)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.text, 1)
        column.addWidget(self.legend)
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._asked_part())
        column.addWidget(self.dish, 1)
        column.addWidget(self.acts)
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self.splitter.addWidget(left)
        self.splitter.addWidget(right)
        self.splitter.setChildrenCollapsible(False)
        self.splitter.setSizes([430, 720])
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self.splitter)

    def _asked_part(self) -> QWidget:
        part = QFrame()
        part.setObjectName("askedPart")
        row = QHBoxLayout()
        row.addWidget(self.open_words, 1)
        row.addWidget(self.settle)
        column = QVBoxLayout(part)
        column.setContentsMargins(12, 4, 10, 4)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.asked)
        return part

    def _connect(self) -> None:
        self.asked.looked.connect(self._question_looked)
        self.asked.answered.connect(self._answer)
        self.asked.settled.connect(self._settle)
        self.dish.looked.connect(lambda *_place: self.acts.refresh())
        self.settle.clicked.connect(lambda _checked=False: self._settle())

    def dress(self, palette: Palette) -> None:
        """Give the marks in the text the colours of a theme."""
        self.text.dress(palette)
        self.legend.dress(palette)

    def refresh(self) -> None:
        """Show the recipe as it is now."""
        worked = self._bench.worked
        if worked is None:
            return
        if worked.recipe is not self._recipe:
            self._recipe = worked.recipe
            origins = [(each.start, each.end, each.what) for each in worked.draft.origins]
            self.text.show_text(worked.draft.text, origins)
            self.legend.show_kinds([each.what for each in worked.draft.origins])
        remade = self.dish.refresh()
        found = asked(worked, self._bench.reader)
        self.asked.show_asked(found)
        must = sum(each.must for each in found)
        self.open_words.setText(self._open_words(len(found), must))
        self.settle.setVisible(bool(found))
        self.settle.setEnabled(self.asked.chosen is not None and not self.asked.chosen.must)
        self.asked.setVisible(bool(found))
        self.acts.refresh()
        if remade:
            tab_as_read(self)

    def _open_words(self, found: int, must: int) -> str:
        if not found:
            return self.tr("Nothing is open.")
        words = self.tr("Open: {count}").format(count=plural(found, self.tr("question")))
        more = self.tr(", {must} to be answered").format(must=must) if must else ""
        return f"{words}{more} (F4)"

    def begin(self) -> None:
        """Put the focus where the work begins: on the first question, else into the name."""
        if self.asked.asked:
            self.asked.setCurrentRow(0)
            self.asked.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.dish.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def next_question(self, by: int) -> None:
        """Go to what answers the next open question, or the one before."""
        self.dish.finish()
        if self.asked.step(by) is not None:
            self._answer()

    def _question_looked(self) -> None:
        question = self.asked.chosen
        if question is None:
            return
        spot = _spot(question)
        if spot is not None:
            self.dish.show_spot(spot)
        self.text.mark((question.start, question.end) if question.end > question.start else None)
        self.settle.setEnabled(not question.must)

    def _answer(self) -> None:
        question = self.asked.chosen
        self.asked.been()
        if question is None:
            return
        spot = _spot(question)
        if spot is not None:
            self.dish.go_to(spot, "length" if question.lacks == "length" else "")
        elif question.lacks in ("name", "servings"):
            self.dish.go_to_field(question.lacks)
        else:
            self._question_looked()

    def _settle(self) -> None:
        question, worked = self.asked.chosen, self._bench.worked
        if question is None or worked is None:
            return
        if question.must:
            self._refuse(self.tr("This must be answered before the dish is taken; leave the step out if it is none."))
        elif question.number is not None:
            done = replace(worked, settled=worked.settled | {question.number})
            self._bench.change(done, self.tr("question put aside"))
        elif question.row is not None:
            self._bench.change(changed(worked, question.row, understood=True), self.tr("question put aside"))


def _spot(question: Asked) -> Spot | None:
    """Return the line that a question is about."""
    if question.row is not None:
        return ("step", question.row)
    return ("thing", question.thing) if question.thing is not None else None
