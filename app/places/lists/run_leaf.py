"""The run sheet as paper, to print or to keep as PDF."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QShowEvent
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import QComboBox, QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.bridge import OpenPlan
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
        row.addStretch(1)
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
        opened.changed.connect(self._changed)

    def showEvent(self, event: QShowEvent) -> None:
        """Typeset only when somebody looks."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        self._stale = True
        if self.isVisible():
            self.refresh()

    def refresh(self) -> None:
        """Typeset the sheet anew and show it."""
        self._stale = False
        timetable = self._opened.timetable
        there = timetable is not None and bool(timetable.placed)
        self.empty.setVisible(not there)
        self.view.setVisible(there)
        self.keep.setEnabled(there)
        if timetable is None or not there:
            return
        sheet = run_sheet(self._opened.plan, timetable, self._opened.clashes)
        self._pdf = as_pdf(sheet, paper=self.paper.currentData())
        self.document.close()
        self._buffer.close()
        self._buffer.setData(QByteArray(self._pdf))
        self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
        self.document.load(self._buffer)

    def keep_pdf(self, path: Path) -> None:
        """Write the sheet as PDF."""
        if self._stale or not self._pdf:
            self.refresh()
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
        dialog = QFileDialog(self, self.tr("Keep the run sheet as PDF"), name, "PDF (*.pdf)")
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.selectFile(name)
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
