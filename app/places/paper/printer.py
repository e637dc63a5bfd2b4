"""The way from pages to a printer: the system's dialog, then one page after the other."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QAbstractPrintDialog, QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import QWidget

from app.places.paper.print_job import PrintJob
from core.measures.refusal import Refusal
from core.sheets.page import Paper

_SIZES = {"a4": QPageSize.PageSizeId.A4, "us-letter": QPageSize.PageSizeId.Letter}


class Printing(QObject):
    """At most one print at a time. `state` carries page and count while it goes on, then 0 and 0.

    `chosen` carries the name of the printer that the cook chose.
    """

    told = Signal(str)
    refused = Signal(str)
    state = Signal(int, int)
    chosen = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._parent = parent
        self._job: PrintJob | None = None

    @property
    def busy(self) -> bool:
        """Tell whether pages are going to the printer."""
        return self._job is not None

    def ask(self, name: str, paper: Paper, make: Callable[[], bytes], count: int, last: str = "") -> None:
        """Show the system's dialog for a print called `name` of `count` pages; then print what `make` gives.

        `last`: the printer that was chosen last, proposed again if it is still there.
        """
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        if last in QPrinterInfo.availablePrinterNames():
            printer.setPrinterName(last)
        printer.setDocName(name)
        printer.setPageSize(QPageSize(_SIZES[paper]))
        dialog = QPrintDialog(printer, self._parent)
        dialog.setOption(QAbstractPrintDialog.PrintDialogOption.PrintPageRange, count > 1)
        if count:
            dialog.setMinMax(1, count)
        dialog.accepted.connect(lambda: self.print(make, printer))
        dialog.finished.connect(dialog.deleteLater)
        dialog.setWindowModality(Qt.WindowModality.WindowModal)
        dialog.show()

    def print(self, make: Callable[[], bytes], printer: QPrinter) -> None:
        """Print pages on a printer that is set up."""
        try:
            pdf = make()
        except Refusal as refusal:
            self.refused.emit(str(refusal))
            return
        self.chosen.emit(printer.printerName())
        self._job = PrintJob(pdf, printer)
        self._job.at.connect(self.state)
        self._job.ended.connect(self._ended)
        self._job.start()

    def stop(self) -> None:
        """Print no more pages."""
        if self._job is not None:
            self._job.stop()

    def _ended(self, wrong: str) -> None:
        self._job = None
        self.state.emit(0, 0)
        if wrong:
            self.refused.emit(wrong)
        else:
            self.told.emit(self.tr("The pages went to the printer."))
