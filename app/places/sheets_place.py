"""The Sheets place: what goes to the kitchen and to the shop, on paper, as lists and as files."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QAction, QFocusEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Entered, Leaves, dress_fields, finish_typing, tab_as_read
from app.places.dressed import Dressed
from app.places.files import FilesLeaf
from app.places.lists import OrderLeaf, PullLeaf
from app.places.lists.dress import lists_sheet
from app.places.paper import PrintLeaf
from app.places.settings import Settings
from core.sheets.kinds import SheetKind


class _Nothing:
    """Remembers choices as long as the place is there."""

    sheets = files = ""


class SheetsPlace(Entered):
    """Shows one leaf at a time. `told` carries good news for the banner, `refused` why not."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, opened: OpenPlan, settings: Settings | None = None, parent: QWidget | None = None) -> None:
        """Take where the choice of sheets is remembered; without it nothing is."""
        super().__init__(parent)

        memory = settings if settings is not None else _Nothing()
        self.print = PrintLeaf(opened, memory.sheets, lambda text: setattr(memory, "sheets", text))
        self.files = FilesLeaf(opened, memory.files, lambda text: setattr(memory, "files", text))
        self.order = OrderLeaf(opened)
        self.pull = PullLeaf(opened)
        self.leaves = Leaves(
            [
                ("print", self.tr("To p&rint"), self.print),
                ("order", self.tr("&Order list"), self.order),
                ("pull", self.tr("P&ull list"), self.pull),
                ("files", self.tr("Phone and &files"), self.files),
            ]
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 0)
        column.addWidget(self.leaves)
        for leaf in (self.print, self.order, self.pull, self.files):
            leaf.told.connect(self.told)
            leaf.refused.connect(self.refused)
        for missing in (self.print.pages.empty, self.pull.empty, self.files.empty):
            missing.wanted.connect(self._run)
        self.order.bar.paper_wanted.connect(lambda: self.show_sheet(SheetKind.ORDER))
        self.pull.bar.paper_wanted.connect(lambda: self.show_sheet(SheetKind.PULL))
        self._by_letter = False  # the last tab was reached by its letter, not by Tab or the mouse
        for tab in self.leaves.buttons.values():
            tab.installEventFilter(self)
        self.leaves.turned.connect(self._turned)
        self._turned()
        tab_as_read(self)
        Dressed(self, lambda palette: dress_fields(self, palette, lists_sheet(palette)))

    def show_sheet(self, kind: SheetKind) -> None:
        """Show a sheet as pages."""
        self.leaves.turn("print")
        self.print.look_at(kind)
        self.print.setFocus()

    def keep_pdf(self, path: Path) -> None:
        """Write the sheets that are chosen to be seen as PDF."""
        self.print.keep_pdf(path)

    def showEvent(self, event: QShowEvent) -> None:
        """Offer what is missing for sheets, where the window does it."""
        super().showEvent(event)
        if self._commands():
            for missing in (self.print.pages.empty, self.pull.empty, self.files.empty):
                missing.offer()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Notice how a tab got the focus: a letter gives no reason, Tab, arrows and the mouse do."""
        if isinstance(event, QFocusEvent):
            self._by_letter = event.gotFocus() and event.reason() is Qt.FocusReason.OtherFocusReason
        return super().eventFilter(watched, event)

    def _commands(self) -> Mapping[str, QAction]:
        return getattr(self.window(), "actions_by_name", {})

    def _run(self, command: str) -> None:
        """Do a command of the window."""
        self._commands()[command].trigger()

    def _turned(self) -> None:
        """Let the focus go to the leaf that is seen: at once where a letter was pressed for it."""
        leaf = (self.print, self.order, self.pull, self.files)[self.leaves.stack.currentIndex()]
        self.enter_at(leaf)
        if self._by_letter:
            self._by_letter = False
            leaf.setFocus(Qt.FocusReason.OtherFocusReason)

    def finish(self) -> None:
        """Take what is being typed, before the plan is closed, undone or printed."""
        finish_typing(self)
