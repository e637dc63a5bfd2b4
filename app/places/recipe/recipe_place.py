"""The place where recipes come in: the page to paste on, and the worktop of the recipe that is read."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QStackedWidget, QVBoxLayout, QWidget

from app.fields import a_button, dress_fields, with_key
from app.look import Palette
from app.places.dressed import Dressed
from app.places.library.note import Note
from app.places.recipe.bench import Bench
from app.places.recipe.dress import recipe_sheet
from app.places.recipe.start_page import StartPage
from app.places.recipe.worktop import Worktop


class RecipePlace(QWidget):
    """`left`: back to where the cook came from. `file_wanted`, `pasted`: a recipe is to come in.

    `take_wanted` carries whether steps without a length are taken with a guess.
    """

    left = Signal()
    file_wanted = Signal()
    pasted = Signal(str, str)
    take_wanted = Signal(bool)
    changed = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self._at_start = bench.worked is None
        self.start = StartPage()
        self.note = Note("keepNote")
        self.guess = a_button(self.tr("Take with a guess"), tip=self.tr("Take it; each guess is marked in the dish"))
        self.note.row.insertWidget(1, self.guess)
        self.guess.clicked.connect(lambda _checked=False: self.take_wanted.emit(True))
        self.worktop = Worktop(bench, self.refuse)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.next = a_button(self.tr("Next recipe"), tip=self.tr("Show the next of the recipes being read"))
        self.another = a_button(self.tr("Another recipe…"), "plus", self.tr("Bring in another recipe beside this one"))
        self.back = a_button(self.tr("Back"), tip=self.tr("Back to the plan; the recipe stays here (Esc)"))
        self.away = a_button(self.tr("Put away"), "bin", self.tr("Put this recipe away; the plan stays as it is"))
        self.take = a_button(self.tr("Take into the menu"), tip=self.tr("Put the dish on the menu"))
        self.take.setObjectName("takeButton")
        self.pages = QStackedWidget()
        self.pages.addWidget(self.start)
        self.pages.addWidget(self.worktop)
        self._lay_out()
        self._connect()
        Dressed(self, self._dress)
        self.refresh()

    def _lay_out(self) -> None:
        bar = QFrame()
        bar.setObjectName("recipeBar")
        row = QHBoxLayout(bar)
        row.setContentsMargins(12, 6, 12, 6)
        row.setSpacing(8)
        row.addWidget(self.take)
        row.addWidget(self.away)
        row.addStretch(1)
        for widget in (self.count, self.next, self.another, self.back):
            row.addWidget(widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.note)
        column.addWidget(self.pages, 1)
        column.addWidget(bar)

    def _connect(self) -> None:
        self.bench.changed.connect(self._changed)
        self.bench.refused.connect(self.refuse)
        self.start.file_wanted.connect(self.file_wanted)
        self.start.read.connect(self.pasted)
        self.start.refused.connect(self.refuse)
        self.start.back_wanted.connect(self._bring_back)
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        with_key(self.take, "Ctrl+T", self, self._take)
        with_key(self.away, "Alt+Del", self, self.put_away)
        with_key(self.next, "Ctrl+PgDown", self, self._next)
        with_key(self.another, "Ctrl+Shift+N", self, self.ask_another)
        for keys, by in (("F4", 1), ("Shift+F4", -1)):
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(lambda by=by: self._question(by))

    def _dress(self, palette: Palette) -> None:
        from app.places.library import library_sheet

        dress_fields(self, palette, library_sheet(palette) + recipe_sheet(palette))
        self.worktop.dress(palette)

    @property
    def working(self) -> bool:
        """Tell whether a recipe is shown, not the page to paste on."""
        return self.pages.currentWidget() is self.worktop

    def refresh(self) -> None:
        """Show what there is now."""
        worked, tray = self.bench.worked, self.bench.tray
        working = worked is not None and not self._at_start
        self.start.show_aside(tray.aside.name if tray.aside is not None else "")
        if working:
            self.worktop.refresh()  # first: the cursor comes back with the page, and looks at what is shown
        self.pages.setCurrentWidget(self.worktop if working else self.start)
        for widget in (self.take, self.away, self.another):
            widget.setVisible(working)
        several = len(tray.sheets) > 1
        self.count.setVisible(working and several)
        self.next.setVisible(several or (worked is not None and not working))
        self.next.setText(self.tr("Next recipe") if working else self.tr("The recipe being read"))
        self.count.setText(self.tr("Recipe {at} of {count}").format(at=tray.at + 1, count=len(tray.sheets)))

    def begin(self) -> None:
        """Put the focus where the work goes on."""
        if self.bench.complaint:
            self.note.refuse(self.bench.complaint)
            self.bench.complaint = ""
            self.guess.hide()
        self.refresh()
        if self.working:
            self.worktop.begin()
        else:
            self.start.begin()

    def show_read(self) -> None:
        """Show the recipe that has just come in."""
        self._at_start = False
        self.note.forget()
        self.start.box.clear()
        self.begin()

    def ask_another(self) -> None:
        """Show the page to paste on; what is being read stays."""
        self.finish()
        self._at_start = True
        self.begin()

    def put_away(self) -> None:
        """Put the recipe that is shown away; the plan stays as it was."""
        worked = self.bench.worked
        if worked is None or not self.working:
            return
        self.bench.put_away()
        self._at_start = self.bench.worked is None
        self.begin()
        said = self.tr("“{name}” is put away; nothing of it is in the plan.").format(name=worked.name)
        self.say(said, self._bring_back)

    def finish(self) -> bool:
        """Take what is being typed; tell whether nothing is left that is wrong."""
        return not self.working or self.worktop.dish.finish()

    def refuse(self, sentence: str) -> None:
        """Say why something was not done."""
        self.guess.hide()
        self.note.refuse(sentence)

    def refuse_take(self, sentence: str, may_guess: bool) -> None:
        """Say why the dish is not taken; offer to guess where only lengths are missing."""
        self.note.refuse(sentence)
        self.guess.setVisible(may_guess)

    def say(self, sentence: str, undo: object = None) -> None:
        """Say what was done."""
        self.guess.hide()
        self.note.say(sentence, undo if callable(undo) else None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave by Escape; the recipe stays here, the plan as it was."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _changed(self) -> None:
        if self.note.property("mood") == "refusal":
            self.note.forget()  # it was said of the recipe as it was
            self.guess.hide()
        self.refresh()
        self.changed.emit()

    def _take(self) -> None:
        if self.working:
            if self.finish():
                self.take_wanted.emit(False)
            else:
                self.refuse(self.tr("Something is not taken yet; mend it first, it is marked."))

    def _next(self) -> None:
        if self.working:
            self.finish()
            self.bench.show_next()
        self._at_start = self.bench.worked is None
        self.note.forget()
        self.begin()

    def _bring_back(self) -> None:
        self._at_start = False
        self.note.forget()
        self.bench.bring_back()
        self.begin()

    def _question(self, by: int) -> None:
        if self.working:
            self.worktop.next_question(by)
