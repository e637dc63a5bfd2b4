"""The pages with what is done with them: seen alone or together, zoomed, printed, kept, opened outside."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QMargins, Signal
from PySide6.QtGui import QKeySequence
from PySide6.QtPrintSupport import QPrinterInfo
from PySide6.QtWidgets import (
    QButtonGroup,
    QLabel,
    QPushButton,
    QSizePolicy,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from app.fields import a_button, with_key
from app.fields.row_wrap import RowWrap
from app.places.lists.missing import Missing
from app.places.paper.preview import Preview
from app.places.paper.words import title_of
from core.measures.words import plural
from core.plan.plan import Plan
from core.sheets.kinds import SheetKind

NATIVE = QKeySequence.SequenceFormat.NativeText
PRINT_KEY, KEEP_KEY = "Ctrl+P", "Ctrl+E"  # the first is the window's, from wherever one is


class Pages(QWidget):
    """Wishes come as signals; what is done is not done here."""

    alone_wanted = Signal()
    together_wanted = Signal()
    print_wanted = Signal()
    keep_wanted = Signal()
    viewer_wanted = Signal()

    def __init__(self, where: QWidget, parent: QWidget | None = None) -> None:
        """Take where the keys work."""
        super().__init__(parent)
        self._where = where
        self.preview = Preview(self)
        self.empty = Missing()
        self.state = QLabel()
        self.state.setObjectName("soft")
        self.alone, self.together = self._switch(self.alone_wanted.emit), self._switch(self.together_wanted.emit)
        self._group = QButtonGroup(self)
        self._group.addButton(self.alone)
        self._group.addButton(self.together)
        self.print = a_button(self.tr("Print…"), "print")
        self.keep = a_button(self.tr("Keep as PDF…"), "save")
        self.viewer = a_button(self.tr("Open outside"), tip=self.tr("Show these pages in the system's own viewer"))
        self._printing = self._busy = False
        self._waiting = ""  # of what is ticked, what has no pages yet
        self._stack = QStackedLayout()
        self._stack.addWidget(self.preview)
        self._stack.addWidget(self.empty)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._top_bar())
        column.addLayout(self._stack, 1)
        column.addWidget(self._bottom_bar())
        self.preview.turned.connect(self._say_state)
        self._tell_printers()

    def _switch(self, want: Callable[[], object]) -> QPushButton:
        button = a_button("")
        button.setCheckable(True)
        button.clicked.connect(lambda _checked=False: want())
        return button

    def _top_bar(self) -> QWidget:
        self.print.clicked.connect(lambda _checked=False: self.print_wanted.emit())
        self.print.setToolTip(f"{self.print.text()} ({QKeySequence(PRINT_KEY).toString(NATIVE)})")
        with_key(self.keep, KEEP_KEY, self._where, self.keep_wanted.emit)
        self.viewer.clicked.connect(lambda _checked=False: self.viewer_wanted.emit())
        return _wrapped(8, self.alone, self.together, _Room(), self.print, self.keep, self.viewer)

    def _bottom_bar(self) -> QWidget:
        self.whole = a_button(self.tr("Whole page"))
        self.wide = a_button(self.tr("Full width"))
        self.smaller = a_button("\u2212", tip=self.tr("Smaller (Ctrl and wheel, or minus in the pages)"))
        self.larger = a_button("+", tip=self.tr("Larger (Ctrl and wheel, or plus in the pages)"))
        self.smaller.setAccessibleName(self.tr("Smaller"))
        self.larger.setAccessibleName(self.tr("Larger"))
        self.whole.clicked.connect(lambda _checked=False: self.preview.fit(whole=True))
        self.wide.clicked.connect(lambda _checked=False: self.preview.fit(whole=False))
        self.smaller.clicked.connect(lambda _checked=False: self.preview.zoom(closer=False))
        self.larger.clicked.connect(lambda _checked=False: self.preview.zoom(closer=True))
        return _wrapped(6, self.state, _Room(), self.smaller, self.larger, self.whole, self.wide)

    def _tell_printers(self) -> None:
        if not QPrinterInfo.availablePrinterNames():
            self.print.setToolTip(self.tr("No printer is set up on this machine; keep a PDF and print that."))

    # ---- what is shown

    def show_choice(self, shown: SheetKind, ticked: int, together: bool, seen: int) -> None:
        """Name what is looked at and what is ticked, and say on the buttons what they print; `seen` have pages."""
        self.alone.setText(title_of(shown))
        words = self.tr("{count} ticked, together") if ticked else self.tr("Nothing ticked")
        self.together.setText(words.format(count=ticked))
        self.together.setEnabled(ticked > 0)
        (self.together if together else self.alone).setChecked(True)
        for button in (self.alone, self.together):
            button.setAccessibleName(button.text())
            button.setToolTip(self.tr("See, print and keep: {what}").format(what=button.text()))
        waiting = self.tr("{count} of those ticked come with the timetable").format(count=ticked - seen)
        self._waiting = waiting if together and 0 < seen < ticked else ""
        if not self._printing:
            words = self.tr("Print {sheets}…").format(sheets=plural(seen, "sheet")) if together else self.tr("Print…")
            self.print.setText(words)
            self.print.setAccessibleName(words)

    def show_pdf(self, pdf: bytes) -> None:
        """Show pages."""
        self._stack.setCurrentWidget(self.preview)
        self.preview.show_pdf(pdf)
        self._allow(there=True)

    def show_untimed(self, plan: Plan) -> None:
        """Say that a timetable is missing for there to be pages."""
        self.empty.show_untimed(plan)
        self._show_none()

    def show_wrong(self, sentence: str) -> None:
        """Say why there are no pages."""
        self.empty.show_wrong(sentence)
        self._show_none()

    def _show_none(self) -> None:
        self._stack.setCurrentWidget(self.empty)
        self.preview.show_pdf(b"")
        self._allow(there=False)

    def show_busy(self, busy: bool) -> None:
        """Say that the pages that are seen, if any, are not yet those of now."""
        self._busy = busy
        if busy:
            self._stack.setCurrentWidget(self.preview)
            self._allow(there=True)
        self._say_state()

    def show_printing(self, at: int, of: int) -> None:
        """Say how far the printing is; 0 of 0: it is over."""
        self._printing = of > 0
        words = self.tr("Stop printing") if self._printing else self.tr("Print…")
        self.print.setText(words)
        self.print.setAccessibleName(words)
        self._allow(there=True)
        self._say_state()
        if self._printing:
            self.state.setText(self.tr("Printing page {at} of {of}…").format(at=at, of=of))

    def why_not_printed(self) -> str:
        """Return why nothing can be printed now; "" where it can."""
        if self.print.isEnabled():
            return ""
        if not QPrinterInfo.availablePrinterNames():
            return self.tr("No printer is set up on this machine; keep a PDF and print that.")
        return self.empty.text() or self.tr("There are no pages to print yet.")

    def _allow(self, there: bool) -> None:
        self.print.setEnabled((there and bool(QPrinterInfo.availablePrinterNames())) or self._printing)
        for each in (self.keep, self.viewer, self.smaller, self.larger, self.whole, self.wide):
            each.setEnabled(there)

    def _say_state(self) -> None:
        if self._busy:
            self.state.setText(self.tr("The pages are being set…"))
            return
        preview = self.preview
        said = self.tr("page {page} of {count}").format(page=preview.page, count=preview.count) if preview.count else ""
        self.state.setText("; ".join(each for each in (said, preview.sheet, self._waiting) if each))


class _Room(QWidget):
    """Takes the room that a row has left."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)


def _wrapped(above: int, *widgets: QWidget) -> QWidget:
    """Return a bar that goes on in a second row where the text has grown or the window is narrow."""
    bar = QWidget()
    row = RowWrap(bar, QMargins(14, above, 14, above))
    for each in widgets:
        row.addWidget(each)
    return bar
