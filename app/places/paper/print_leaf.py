"""Sheets to print: chosen at the left, seen as real pages, printed or kept as PDF just as they are seen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import tab_as_read
from app.places.lists.typesetting import Typesetting
from app.places.lists.where import Keeper
from app.places.paper.choice import Choice, as_text, from_text
from app.places.paper.choosing import Choosing
from app.places.paper.pages import Pages
from app.places.paper.printer import Printing
from app.places.paper.seen import Seen
from app.places.paper.usual import usual_choice
from app.places.paper.viewer import show_outside
from core.measures.clock import Now, system_now
from core.measures.refusal import Refusal
from core.sheets.kinds import SheetKind


class PrintLeaf(QWidget):
    """Previews the sheets of the timetable that is seen. `told` carries good news for the banner, `refused` why not."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(
        self,
        opened: OpenPlan,
        recall: str = "",
        remember: Callable[[str], object] = lambda _text: None,
        now: Now = system_now,
        parent: QWidget | None = None,
    ) -> None:
        """Take the choice that was remembered as text, and what remembers the next one."""
        super().__init__(parent)
        self._opened, self._remember, self._now = opened, remember, now
        self.seen = Seen(opened, from_text(recall, usual_choice()))
        self._pdf = b""
        self._fresh = False  # the pages are of the plan and the choice as they are now
        self._stale = True
        self._going_to: SheetKind | None = None  # a sheet of several to be seen as soon as its pages are there
        self.setting = Typesetting(self)
        self.choosing = Choosing()
        self.pages = Pages(self)
        self.keeper = Keeper(self)
        self.printing = Printing(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.choosing, 2)  # the pages have more room, however large the type
        column = QVBoxLayout()
        column.addWidget(self.pages)
        row.addLayout(column, 3)
        self.setFocusProxy(self.choosing)
        tab_as_read(self)
        self._connect()
        self._show_choice()

    def _connect(self) -> None:
        self.setting.done.connect(self._show)
        self.setting.refused.connect(self._show_wrong)
        self.setting.failed.connect(lambda: self._show_wrong(self.tr("These pages could not be made.")))
        self.setting.busy_changed.connect(self.pages.show_busy)
        self._opened.changed.connect(self._changed)
        self.choosing.looked_at.connect(self.look_at)
        self.choosing.ticked.connect(self._tick)
        self.choosing.paper_chosen.connect(lambda paper: self._choose(replace(self.choice, paper=paper)))
        self.choosing.layout_changed.connect(self._lay_out)
        self.pages.alone_wanted.connect(lambda: self._see(together=False))
        self.pages.together_wanted.connect(lambda: self._see(together=True))
        self.pages.print_wanted.connect(self.print_pages)
        self.pages.keep_wanted.connect(
            lambda: self.keeper.ask(self.tr("Keep as PDF"), f"{self.seen.name}.pdf", "PDF (*.pdf)", self.keep_pdf)
        )
        self.pages.viewer_wanted.connect(
            lambda: show_outside(self.keeper, self.seen.name, ".pdf", self._pages_now)
        )
        for each in (self.keeper, self.printing):
            each.told.connect(self.told)
            each.refused.connect(self.refused)
        self.printing.state.connect(self._show_printing)
        self.printing.chosen.connect(self._keep_printer)

    # ---- what is chosen

    @property
    def choice(self) -> Choice:
        """Return what is chosen."""
        return self.seen.choice

    def look_at(self, kind: SheetKind) -> None:
        """Show one sheet."""
        self._choose(replace(self.choice, shown=kind, bundled=False))

    def _tick(self, kind: SheetKind, there: bool) -> None:
        choice = self.choice.with_ticked(kind, there)
        self._going_to = kind if there else None
        self._choose(replace(choice, shown=kind, bundled=True))

    def _see(self, together: bool) -> None:
        self._choose(replace(self.choice, bundled=together))

    def _lay_out(self, name: str, value: object) -> None:
        self._choose(self.choice.with_layout(self.choice.shown, **{name: value}))

    def _choose(self, choice: Choice) -> None:
        self.seen.choice = choice
        self._remember(as_text(choice))
        self._show_choice()
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def _show_choice(self) -> None:
        choice, seen = self.choice, self.seen
        self.choosing.show_choice(choice, seen.copies)
        self.pages.show_choice(choice.shown, len(choice.together), seen.together, len(seen.kinds))

    # ---- the pages

    def showEvent(self, event: QShowEvent) -> None:
        """Typeset only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self.pages.show_busy(bool(self.seen.kinds))
            QTimer.singleShot(0, self, self._look)  # a plan that is being shut shows its places for no time

    def _look(self) -> None:
        if self._stale and self.isVisible():
            self.refresh()

    def _changed(self, _change: object) -> None:
        self._stale = True
        self._fresh = False
        if self.isVisible():
            self._show_choice()
            self.refresh()

    def refresh(self) -> None:
        """Typeset anew beside the interface, and show the pages when they are there."""
        self._stale = self._fresh = False
        self._show_choice()
        setting = self.seen.setting(self._now().astimezone())
        if setting is None:
            self.setting.drop()
            self._pdf = b""
            self.pages.show_untimed(self._opened.plan)
        else:
            self.setting.ask(setting)

    def _show(self, pdf: bytes) -> None:
        self._pdf = pdf
        self._fresh = True
        self.pages.show_pdf(pdf)
        if self._going_to is not None and self.seen.together and self._going_to in self.seen.kinds:
            before = self.seen.kinds[: self.seen.kinds.index(self._going_to)]
            self.pages.preview.go_to_sheet(len(self.seen.wanted(before)))
        self._going_to = None

    def _show_wrong(self, sentence: str) -> None:
        self._pdf = b""
        self.pages.show_wrong(sentence)

    def _pages_now(self) -> bytes:
        """Return the pages of the plan as it is now, made at once where they are still being set. Raise Refusal."""
        setting = None if self._fresh else self.seen.setting(self._now().astimezone())
        if setting is not None:  # it is wanted now: nothing else is to be kept than what the plan says
            self.setting.drop()
            self._show(setting())
        if not self._pdf:
            raise Refusal(self.pages.empty.text())
        return self._pdf

    # ---- what is done with them

    def keep_pdf(self, path: Path) -> None:
        """Write what is seen as PDF."""
        what = self.tr("The {what}").format(what=self.seen.what)
        self.keeper.keep(what, path, [".pdf"], lambda _path: self._pages_now())

    def _keep_printer(self, name: str) -> None:
        self.seen.choice = replace(self.choice, printer=name)
        self._remember(as_text(self.choice))

    def _show_printing(self, at: int, of: int) -> None:
        self.pages.show_printing(at, of)
        if not of:
            self._show_choice()

    def print_pages(self) -> None:
        """Ask for a printer and print what is seen; while it prints, stop."""
        if not self.pages.print.isEnabled():
            self.refused.emit(self.pages.why_not_printed())
        elif self.printing.busy:
            self.printing.stop()
        else:
            choice, count = self.choice, self.pages.preview.count
            self.printing.ask(self.seen.name, choice.paper, self._pages_now, count, choice.printer)
