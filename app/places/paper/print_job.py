"""Prints pages one at a time, so that the window answers and the printing can be stopped."""

from __future__ import annotations

from PySide6.QtCore import (
    QBuffer,
    QByteArray,
    QCoreApplication,
    QIODevice,
    QObject,
    QRect,
    QSize,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import QImage, QPageLayout, QPainter
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPrintSupport import QPrinter

_DPI = 300


_going: set[PrintJob] = set()
"""Jobs that print: a plan may be closed meanwhile, the pages come all the same."""


class PrintJob(QObject):
    """Prints a PDF as pictures of its pages. `at` carries the page and how many there are, `ended` "" or why not.

    It belongs to no window: it keeps itself until it has ended, and where the program is left it ends before.
    """

    at = Signal(int, int)
    ended = Signal(str)

    def __init__(self, pdf: bytes, printer: QPrinter) -> None:
        """Take the pages and a printer that the cook chose; its range of pages and copies are kept."""
        super().__init__()
        self._printer = printer
        self._document = QPdfDocument(self)
        self._buffer = QBuffer(self)  # after what reads from it, so that it goes after it
        self._buffer.setData(QByteArray(pdf))
        self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
        self._document.load(self._buffer)
        self._painter: QPainter | None = None
        self._pages = self._wanted()
        self._next = 0
        self._stopped = False

    def start(self) -> None:
        """Begin, at the next turn of the window's own work."""
        _going.add(self)
        if (application := QCoreApplication.instance()) is not None:
            application.aboutToQuit.connect(self.finish)
        QTimer.singleShot(0, self, self._step)

    def finish(self) -> None:
        """Print all that is left, now."""
        while self in _going:
            self._step()

    def stop(self) -> None:
        """Print no more pages; those that went out stay printed."""
        self._stopped = True

    def _wanted(self) -> list[int]:
        """Return the pages to print, from 0, in their order, as often as the printer cannot copy them itself."""
        count = self._document.pageCount()
        first, last = self._printer.fromPage() or 1, self._printer.toPage() or count
        pages = list(range(max(1, first) - 1, min(count, last)))
        if self._printer.pageOrder() is QPrinter.PageOrder.LastPageFirst:
            pages.reverse()
        copies = 1 if self._printer.supportsMultipleCopies() else max(1, self._printer.copyCount())
        if self._printer.collateCopies():
            return pages * copies
        return [page for page in pages for _copy in range(copies)]

    def _step(self) -> None:
        if self not in _going:
            return
        if self._stopped or self._next >= len(self._pages):
            self._end(self.tr("The printing was stopped.") if self._stopped else "")
            return
        page = self._pages[self._next]
        self._turn(page)
        if self._painter is None:
            self._printer.setFullPage(True)
            self._printer.setResolution(_DPI)
            painter = QPainter()
            if not painter.begin(self._printer):
                self._end(self.tr("The printer did not take the pages: see that it is on, or keep a PDF."))
                return
            painter.setRenderHint(QPainter.RenderHint.LosslessImageRendering)  # letters, not a photograph
            self._painter = painter
        elif not self._printer.newPage():
            self._end(self.tr("The printer took no further page: see that it is on and has paper."))
            return
        self.at.emit(self._next + 1, len(self._pages))
        self._draw(page, self._painter)
        self._next += 1
        QTimer.singleShot(0, self, self._step)

    def _turn(self, page: int) -> None:
        """Turn the paper as the page lies."""
        points = self._document.pagePointSize(page)
        across = points.width() > points.height()
        way = QPageLayout.Orientation.Landscape if across else QPageLayout.Orientation.Portrait
        if self._printer.pageLayout().orientation() is not way:
            self._printer.setPageOrientation(way)

    def _draw(self, page: int, painter: QPainter) -> None:
        """Draw a page as large as the paper bears, in its middle."""
        full: QRect = self._printer.pageLayout().fullRectPixels(self._printer.resolution())
        points = self._document.pagePointSize(page)
        share = min(full.width() / points.width(), full.height() / points.height())
        size = QSize(round(points.width() * share), round(points.height() * share))
        corner = full.center() - QRect(full.topLeft(), size).center() + full.topLeft()
        painter.drawImage(QRect(corner, size), _grey(self._document.render(page, size)))

    def _end(self, wrong: str) -> None:
        if self._painter is not None:
            self._painter.end()
            self._painter = None
        self._document.close()
        _going.discard(self)
        self.ended.emit(wrong)


def _grey(page: QImage) -> QImage:
    """Return a page on white paper in greys: sheets have no colours, and it is a third of the bytes."""
    paper = QImage(page.size(), QImage.Format.Format_Grayscale8)
    paper.fill(Qt.GlobalColor.white)
    painter = QPainter(paper)
    painter.drawImage(0, 0, page)
    painter.end()
    return paper
