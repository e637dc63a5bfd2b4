"""The run sheet as paper, to print or to keep as PDF."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRect, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QShowEvent
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.places.lists.typesetting import Setting, Typesetting
from app.places.lists.where import keeping_dialog
from core.sheets import as_pdf, run_sheet

_PRINT_DPI = 300


class RunLeaf(QWidget):
    """Previews the run sheet of the timetable that is seen. `told` carries good news for the banner."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._pdf = b""
        self._fresh = False  # the pages are of the plan as it is now
        self.setting = Typesetting(self)
        self.setting.done.connect(self._show)
        self._buffer = QBuffer(self)
        self.document = QPdfDocument(self)
        self.view = QPdfView()
        self.view.setDocument(self.document)
        self.view.setPageMode(QPdfView.PageMode.MultiPage)
        self.view.setZoomMode(QPdfView.ZoomMode.FitToWidth)
        self.paper = QComboBox()
        self.paper.addItem("A4", "a4")
        self.paper.addItem("Letter", "us-letter")
        self.paper.setAccessibleName(self.tr("Paper"))
        self.print = QPushButton(self.tr("Print…"))
        self.keep = QPushButton(self.tr("Keep as PDF…"))
        self.empty = QLabel(self.tr("There is no run sheet yet: write down a dish with its steps, then arrange."))
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.empty.setObjectName("soft")
        row = QHBoxLayout()
        row.setContentsMargins(14, 8, 14, 8)
        self.state = QLabel()
        self.state.setObjectName("soft")
        row.addWidget(self.state, 1)
        row.addWidget(QLabel(self.tr("Paper")))
        row.addWidget(self.paper)
        row.addWidget(self.print)
        row.addWidget(self.keep)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(row)
        column.addWidget(self.empty, 1)
        column.addWidget(self.view, 1)
        self.paper.currentIndexChanged.connect(self.refresh)
        self.keep.clicked.connect(self._ask_where)
        self.print.clicked.connect(self._print)
        if not QPrinterInfo.availablePrinterNames():
            self.print.setEnabled(False)
            self.print.setToolTip(self.tr("No printer is set up on this machine; keep a PDF and print that."))
        self._stale = True
        self.setting.busy_changed.connect(self._say_busy)
        opened.changed.connect(self._changed)

    def showEvent(self, event: QShowEvent) -> None:
        """Typeset only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self._say_busy(self._opened.timetable is not None)
            QTimer.singleShot(0, self, self._look)  # a plan that is being shut shows its places for no time

    def _look(self) -> None:
        if self._stale and self.isVisible():
            self.refresh()

    def _changed(self, _change: object) -> None:
        self._stale = True
        self._fresh = False
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Typeset the sheet anew beside the interface, and show it when it is there."""
        self._stale = self._fresh = False
        setting = self._asked()
        there = setting is not None
        self.empty.setVisible(not there)
        self.view.setVisible(there)
        self.keep.setEnabled(there)
        if setting is None:
            self._say_busy(False)
            self.setting.drop()
        else:
            self.setting.ask(setting)

    def _asked(self) -> Setting | None:
        """Return what makes the pages of the plan as it is now; None: there is nothing to put on them."""
        plan, timetable, clashes = self._opened.plan, self._opened.timetable, self._opened.clashes
        if timetable is None or not timetable.placed:
            return None
        paper = self.paper.currentData()
        return lambda: as_pdf(run_sheet(plan, timetable, clashes), paper=paper)

    def _show(self, pdf: bytes) -> None:
        """Show pages that were made."""
        self._pdf = pdf
        self._fresh = True
        self.document.close()
        self._buffer.close()
        self._buffer.setData(QByteArray(pdf))
        self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
        self.document.load(self._buffer)

    def _say_busy(self, busy: bool) -> None:
        """Say that the pages that are seen, if any, are not yet those of now."""
        self.state.setText(self.tr("The pages are being set…") if busy else "")

    def keep_pdf(self, path: Path) -> None:
        """Write the sheet as PDF."""
        setting = None if self._fresh else self._asked()
        if setting is not None:  # it is wanted now: nothing else is to be kept than what the plan says
            self.setting.drop()
            self._show(setting())
        if path.suffix.lower() != ".pdf":
            path = path.with_name(path.name + ".pdf")
        try:
            path.write_bytes(self._pdf)
        except OSError as wrong:
            self.refused.emit(self.tr("{name} could not be written: {why}.").format(name=path.name, why=wrong.strerror))
            return
        self.told.emit(self.tr("The run sheet is in {path}.").format(path=path))

    def _ask_where(self) -> None:
        name = f"{self._opened.plan.name} - run sheet.pdf"
        dialog = keeping_dialog(self, self.tr("Keep the run sheet as PDF"), name, "PDF (*.pdf)")
        dialog.fileSelected.connect(lambda chosen: self.keep_pdf(Path(chosen)))
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def _print(self) -> None:
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        dialog = QPrintDialog(printer, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self._to(printer))
        dialog.show()

    def _to(self, printer: QPrinter) -> None:
        """Print the pages as pictures at the printer's own size."""
        printer.setFullPage(True)
        printer.setResolution(_PRINT_DPI)
        painter = QPainter(printer)
        for number in range(self.document.pageCount()):
            if number:
                printer.newPage()
            full: QRect = printer.pageLayout().fullRectPixels(printer.resolution())
            painter.drawImage(full, self.document.render(number, QSize(full.width(), full.height())))
        painter.end()
