"""What was understood of the line in a box: read as it is typed, shown as chips, corrected in place, mended."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPoint, Qt, QTimer, Signal
from PySide6.QtWidgets import QWidget

from app.bridge import OpenPlan
from app.places.menu.line_chips import ChipBar
from app.places.menu.line_edit import CookLine
from app.places.menu.line_faults import FaultNote
from app.places.menu.line_mend import ChipMender
from app.places.menu.line_offers import offers
from app.places.menu.line_reading import LineReader, TypedLine
from app.places.menu.line_words import chip_words, tr
from core.measures.refusal import Refusal
from core.plan.ids import DishId, StepId
from core.reading.line import with_chip
from core.reading.line_value import Chip, Fault, Says

_PAUSE = 700  # ms of not typing after which a word that is just being typed is judged too


class Understood(QObject):
    """Keeps chips and marks in step with the text. `walked_on`: the cook walks off the last chip."""

    walked_on = Signal()

    def __init__(self, opened: OpenPlan, line: CookLine, box: QWidget) -> None:
        super().__init__(box)
        self._opened = opened
        self._line = line
        self._box = box
        self._reader = LineReader()
        self.dish: DishId | None = None
        self.step: StepId | None = None
        self._chips: list[tuple[TypedLine, Chip]] = []
        self.typed: tuple[TypedLine, ...] = ()
        self.bar = ChipBar()
        self.note = FaultNote()
        self._mender: ChipMender | None = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self.judge_all)
        line.textChanged.connect(self.read)
        line.cursorPositionChanged.connect(self._moved)
        line.mend_wanted.connect(self.note.mend)
        self.bar.wanted.connect(self._correct)
        self.bar.removed.connect(lambda at: self._rewrite(at, ""))
        self.bar.gone.connect(self._off_the_chips)
        self.bar.lit.connect(self._light)
        self.note.mended.connect(self._mend)

    @property
    def faults(self) -> list[Fault]:
        """Return what is wrong with the words."""
        return [fault for each in self.typed for fault in each.faults]

    def aim(self, dish: DishId | None, step: StepId | None) -> None:
        """Read for a dish; with `step` the line of a step that there is."""
        if (dish, step) != (self.dish, self.step):
            self.dish, self.step = dish, step
            self.read()

    def read(self) -> None:
        """Read the text as it stands."""
        self.typed = self._reader.read(self._line.toPlainText(), self._opened.plan, self.dish, self.step)
        self.note.tell_refusal("")
        self._show_chips()
        self._pause.start()
        self._judge()

    def _here(self) -> TypedLine | None:
        """Return the line that the cursor is in, of several."""
        at = self._line.textCursor().position()
        before = [each for each in self.typed if each.start <= at]
        return before[-1] if before else next(iter(self.typed), None)

    def _show_chips(self) -> None:
        here = self._here()
        chips = here.line.chips if here is not None else ()
        self._chips = [(here, each) for each in chips if here is not None]
        plan = self._opened.plan
        self.bar.show_chips([(each, chip_words(each, plan, self.dish)) for each in chips])

    def _moved(self) -> None:
        if len(self.typed) > 1:
            self._show_chips()
        self._judge()

    def _judge(self) -> None:
        """Mark what is wrong, but for the word that is just being typed."""
        at, waiting = self._line.textCursor().position(), self._pause.isActive()
        faults = [each for each in self.faults if not (waiting and each.start <= at <= each.end)]
        self._line.mark_words([(each.start, each.end) for each in faults])
        self.note.tell(faults)

    def judge_all(self) -> None:
        """Mark all that is wrong."""
        self._pause.stop()
        self.mark(self.faults)

    def mark(self, faults: list[Fault]) -> None:
        """Underline words and say what is wrong with them."""
        self._pause.stop()
        self._line.mark_words([(each.start, each.end) for each in faults])
        self.note.tell(faults)

    def mark_follows(self) -> None:
        """Underline what a line follows, where the plan as a whole does not bear it: that is what to write anew."""
        self._pause.stop()
        self._line.mark_words(
            [
                (typed.start + each.start, typed.start + each.end)
                for typed in self.typed
                for each in typed.line.chips
                if each.kind in (Says.FOLLOWS, Says.WAIT) and not each.implied
            ]
        )

    # ------------------------------------------------------------ chips

    def _place(self, at: int) -> tuple[TypedLine, Chip] | None:
        return self._chips[at] if 0 <= at < len(self._chips) else None

    def _light(self, at: int) -> None:
        found = self._place(at)
        lit = None
        if found is not None and not found[1].implied:
            lit = (found[0].start + found[1].start, found[0].start + found[1].end)
        self._line.mark_words([(each.start, each.end) for each in self.faults], lit)

    def _off_the_chips(self, way: int) -> None:
        if way < 0:
            self._line.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.walked_on.emit()

    def _correct(self, at: int) -> None:
        """Open the sheet that corrects a phrase, below its chip."""
        found = self._place(at)
        if found is None:
            return
        typed, chip = found
        phrase = "" if chip.implied else typed.line.text[chip.start : chip.end].strip(" ,")
        names = self._reader.names(self._opened.plan, self.dish, self.step)
        if self._mender is not None:
            self._mender.deleteLater()
        self._mender = ChipMender(self._box)
        self._mender.written.connect(lambda words: self._rewrite(at, words))
        self._mender.shut.connect(lambda: self._back_to(at))
        button = self.bar.buttons[at]
        where = button.mapToGlobal(QPoint(0, button.height() + 3))
        kind = tr(chip.kind.value)
        there = not chip.implied
        self._mender.ask(kind, phrase, offers(chip, names), lambda words: self._judged(at, words), there, where)

    def _judged(self, at: int, words: str) -> tuple[str, str]:
        """Return what a phrase would be understood as in a chip's place, and what is wrong with it."""
        found = self._place(at)
        if found is None or not words.strip():
            return "", ""
        typed, chip = found
        try:
            text = with_chip(typed.line.text, chip, words)
        except Refusal as refusal:
            return "", str(refusal)
        (new,) = self._reader.read(text, self._opened.plan, self.dish, self.step)[:1] or (None,)
        if new is None:
            return "", ""
        faults = {each.sentence for each in typed.line.faults}
        wrong = next((each.sentence for each in new.line.faults if each.sentence not in faults), "")
        before = {(each.kind, each.words) for each in typed.line.chips}
        plan = self._opened.plan
        fresh = [chip_words(each, plan, self.dish) for each in new.line.chips if (each.kind, each.words) not in before]
        return ", ".join(fresh), wrong

    def _rewrite(self, at: int, words: str) -> None:
        """Write a chip's phrase anew; the rest of the line stays."""
        found = self._place(at)
        if found is None or (found[1].implied and not words):
            self._back_to(at)
            return
        typed, chip = found
        text = self._line.toPlainText()
        new = with_chip(typed.line.text, chip, words)
        cursor = typed.start + len(new)
        self._line.write(text[: typed.start] + new + text[typed.end :], cursor)
        self.judge_all()
        self._back_to(at)

    def _back_to(self, at: int) -> None:
        self._box.activateWindow()
        if self.bar.buttons:
            self.bar.enter(at)
        else:
            self._line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _mend(self, fault: Fault) -> None:
        """Write what a fault offers in place of its word."""
        text = self._line.toPlainText()
        self._line.write(text[: fault.start] + fault.instead + text[fault.end :])
        self.judge_all()
        self._line.setFocus(Qt.FocusReason.OtherFocusReason)
