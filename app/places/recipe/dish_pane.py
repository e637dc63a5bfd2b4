"""The dish that was read, as lines to correct: name, servings, ingredients, steps."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.fields import Draft, Line, Typed, a_button, bring_into_view, dress_inside, finish_typing
from app.fields.typed_text import NAME, if_any, optional, read_count
from app.look.colours import palette_under
from app.places.recipe.bench import Bench
from app.places.recipe.line_row import LineRow, Shown, StepRow
from app.places.recipe.takes import Spot, Takes
from app.places.recipe.words import (
    length_of,
    read_after,
    read_length,
    read_step,
    read_thing,
    show_after,
    step_chips,
    step_wrong,
    thing_chips,
    thing_wrong,
)
from app.places.recipe.worked import Row, Thing, Worked
from app.places.recipe.worked_ask import untimed
from app.places.recipe.worked_change import before_of
from core.measures.refusal import Refusal


def _servings(text: str) -> int:
    number = read_count(text)
    if not 1 <= number <= 1000:
        raise Refusal("Write for how many it is, from 1 to 1000, or nothing where nobody knows.")
    return number


class DishPane(QScrollArea):
    """`looked`: a row, and what value of it; also "name" and "servings" with -1."""

    looked = Signal(str, int, str)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._takes = Takes(bench)
        self.rows: dict[Spot, LineRow] = {}
        self.current: Spot | None = None
        self._order: list[Spot] = []
        self._recipe: object = None
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.name = Line(NAME, self._takes.name)
        self.name.setAccessibleName(self.tr("Name of the dish"))
        self.name.setObjectName("recipeName")
        self.servings = Line(Typed(optional(_servings), if_any(str)), self._takes.servings)
        self.servings.setAccessibleName(self.tr("How many it serves"))
        self.servings.setPlaceholderText(self.tr("how many?"))
        self.servings.setFixedWidth(12 * self.fontMetrics().averageCharWidth() + 16)
        self.complaint = QLabel()
        self.complaint.setObjectName("wrong")
        self.complaint.setWordWrap(True)
        self.complaint.hide()
        self.new_thing = Draft(
            self.tr("A new ingredient"),
            self.tr("One more ingredient, such as: 2 tbsp capers"),
            self._takes.new_thing,
            a_button(self.tr("Add the ingredient"), "plus", only_icon=True),
            read_thing,
        )
        self.new_step = Draft(
            self.tr("A new step"),
            self.tr("One more step, such as: chill 30 min in the fridge"),
            self._takes.new_step,
            a_button(self.tr("Add the step"), "plus", only_icon=True),
            read_step,
        )
        for draft in (self.new_thing, self.new_step):
            draft.line.installEventFilter(self)
            draft.added.connect(partial(self._added, draft))
        for field in (self.name, self.servings):
            field.setMinimumHeight(30)
            field.installEventFilter(self)
            field.complained.connect(self._complain)
        self.things_heading, self.steps_heading = QLabel(), QLabel()
        self._lay_out()

    def _lay_out(self) -> None:
        paper = QWidget()
        paper.setObjectName("paper")
        head = QHBoxLayout()
        head.setSpacing(8)
        serves = QLabel(self.tr("Serves"))
        serves.setObjectName("soft")
        head.addWidget(self.name, 1)
        head.addWidget(serves)
        head.addWidget(self.servings)
        self.columns = QLabel(self.tr("length · after step · understood"))
        self.columns.setObjectName("soft")
        self._things, self._steps = QVBoxLayout(), QVBoxLayout()
        for box in (self._things, self._steps):
            box.setSpacing(0)
        headed = QHBoxLayout()
        headed.addWidget(self.steps_heading)
        headed.addStretch(1)
        headed.addWidget(self.columns)
        column = QVBoxLayout(paper)
        column.setContentsMargins(12, 8, 10, 12)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.complaint)
        for heading in (self.things_heading, self.steps_heading):
            heading.setObjectName("recipeHeading")
        column.addWidget(self.things_heading)
        column.addLayout(self._things)
        column.addWidget(self.new_thing)
        column.addLayout(headed)
        column.addLayout(self._steps)
        column.addWidget(self.new_step)
        column.addStretch(1)
        self.setWidget(paper)

    # ------------------------------------------------------------ showing

    def refresh(self) -> bool:
        """Show the recipe as it is now; tell whether rows came, went or moved."""
        worked = self._bench.worked
        if worked is None:
            return False
        afresh = worked.recipe is not self._recipe
        if afresh:
            self._begin(worked)
        self.name.show_value(worked.name, afresh)
        self.servings.show_value(worked.servings, afresh)
        order = [*(("thing", each.number) for each in worked.things), *(("step", each.key) for each in worked.rows)]
        remade = order != self._order
        if remade:
            self._arrange(order)
        kept = sum(not each.out for each in worked.rows)
        self.things_heading.setText(self.tr("Ingredients ({number})").format(number=len(worked.things)))
        self.steps_heading.setText(self.tr("Steps ({number})").format(number=kept))
        for thing in worked.things:
            self._show_thing(thing, worked)
        missing = set(untimed(worked, self._bench.reader))
        for number, row in enumerate(worked.rows, 1):
            self._show_step(number, row, worked, row.key in missing)
        return remade

    def _begin(self, worked: Worked) -> None:
        self._recipe = worked.recipe
        self._arrange([])
        self.current = None
        self.verticalScrollBar().setValue(0)

    def _arrange(self, order: list[Spot]) -> None:
        """Make the rows that are new, take away those that are gone, and put all in order."""
        for spot in set(self.rows) - set(order):
            gone = self.rows.pop(spot)
            gone.hide()
            gone.deleteLater()
        new = [spot for spot in order if spot not in self.rows]
        for spot in new:
            self.rows[spot] = self._made(spot)
        places = {"thing": 0, "step": 0}
        for spot in order:
            box = self._things if spot[0] == "thing" else self._steps
            box.insertWidget(places[spot[0]], self.rows[spot])
            places[spot[0]] += 1
        for spot in new:
            dress_inside(self.rows[spot], palette_under(self.window().palette()))
            self.rows[spot].show()  # at once: the cursor may have to go there
        self._order = order

    def _made(self, spot: Spot) -> LineRow:
        kind, key = spot
        takes = self._takes
        row: LineRow
        if kind == "thing":
            how = Typed(read_thing, str, wraps=True)
            row = LineRow(self.tr("Ingredient"), how, partial(takes.thing, key), partial(takes.tick, spot))
        else:
            hows = (Typed(read_step, str, wraps=True), Typed(read_length, str), Typed(read_after, show_after))
            row = StepRow(
                hows,
                (partial(takes.step, key), partial(takes.length, key), partial(takes.after, key)),
                partial(takes.tick, spot),
            )
        row.entered.connect(lambda what: self._entered(spot, what))
        row.done.connect(lambda: self.go_on(spot))
        return row

    def _show_thing(self, thing: Thing, worked: Worked) -> None:
        wrong = thing_wrong(thing, worked)
        shown = Shown("", thing.line, thing_chips(thing, worked), wrong, thing.out, thing.understood)
        self.rows["thing", thing.number].show_row(shown)

    def _show_step(self, number: int, row: Row, worked: Worked, missing: bool) -> None:
        reader = self._bench.reader
        shown = Shown(
            str(number), row.line, step_chips(row, reader), step_wrong(row, reader), row.out, row.understood
        )
        numbers = {each.key: at for at, each in enumerate(worked.rows, 1)}
        after = tuple(sorted(numbers[key] for key in before_of(worked, row.key)))
        widget = self.rows["step", row.key]
        assert isinstance(widget, StepRow)
        widget.show_step(shown, length_of(row, reader), after, missing)

    # ------------------------------------------------------------ walking

    def choose(self, spot: Spot | None) -> None:
        """Mark a row as the one that is looked at."""
        if self.current in self.rows and self.current is not None:
            self.rows[self.current].set_chosen(False)
        self.current = spot if spot in self.rows else None
        if self.current is not None:
            self.rows[self.current].set_chosen(True)

    def show_spot(self, spot: Spot) -> None:
        """Mark a row and bring it into view; the focus stays where it is."""
        self.choose(spot)
        bring_into_view(self, self.rows.get(spot))

    def go_to(self, spot: Spot, what: str = "") -> None:
        """Put the cursor into a row, on one of its values."""
        row = self.rows.get(spot)
        if row is None:
            return
        if what == "length" and isinstance(row, StepRow):
            row.length.setFocus(Qt.FocusReason.TabFocusReason)
            row.length.selectAll()
        else:
            row.go_in(what)
        bring_into_view(self, row)

    def go_to_field(self, what: str) -> None:
        """Put the cursor into the name or the servings."""
        field = self.name if what == "name" else self.servings
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        field.selectAll()
        self.verticalScrollBar().setValue(0)

    def go_on(self, spot: Spot) -> None:
        """Go from a row to the next: from a length to the next length that is missing, else line by line."""
        row = self.rows[spot]
        at = self._order.index(spot)
        if not row.commit():
            return
        if isinstance(row, StepRow) and row.length.hasFocus():
            worked = self._bench.worked
            missing = [("step", key) for key in untimed(worked, self._bench.reader)] if worked is not None else []
            later = [each for each in missing if self._order.index(each) > at] or missing
            if later:
                self.go_to(later[0], "length")
                return
        if at + 1 < len(self._order):
            self.go_to(self._order[at + 1])
        else:
            self._added(self.new_step, True)

    def place_in_line(self) -> int | None:
        """Return the place of the cursor in the line of the row looked at; None where it is not there."""
        row = self.rows.get(self.current) if self.current is not None else None
        return row.place_in_line() if row is not None else None

    def finish(self) -> bool:
        """Take what is being typed; tell whether nothing is left that is wrong."""
        finish_typing(self)
        fields: list[Line | object] = [self.name, self.servings, self.new_thing.line, self.new_step.line]
        lines = [row.line for row in self.rows.values()]
        beside = [field for row in self.rows.values() if isinstance(row, StepRow) for field in (row.length, row.after)]
        wrong = next((each for each in (*fields, *lines, *beside) if getattr(each, "wrong", "")), None)
        if isinstance(wrong, QWidget):
            wrong.setFocus(Qt.FocusReason.OtherFocusReason)
            bring_into_view(self, wrong)
        return wrong is None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell when name or servings get the focus; where something new is written no row is looked at."""
        if event.type() is QEvent.Type.FocusIn and watched in (self.name, self.servings):
            self.choose(None)
            self.looked.emit("name" if watched is self.name else "servings", -1, "")
        elif event.type() is QEvent.Type.FocusIn:
            self.choose(None)
        return False

    def _added(self, draft: Draft, goes_on: bool) -> None:
        """Go on to the next new thing, where the last was written by keys."""
        if goes_on:
            draft.enter()
            bring_into_view(self, draft)

    def _entered(self, spot: Spot, what: str) -> None:
        self.choose(spot)
        self.looked.emit(*spot, what)

    def _complain(self, words: str) -> None:
        self.complaint.setText(words)
        self.complaint.setVisible(bool(words))
