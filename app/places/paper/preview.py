"""Pages as they will lie on the table: scrolled, made larger and smaller, with which one is seen."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QEvent, QIODevice, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPalette, QResizeEvent, QWheelEvent
from PySide6.QtPdf import QPdfBookmarkModel, QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QWidget

from app.look import Palette
from app.places.dressed import Dressed

_SMALLEST, _LARGEST, _STEP = 0.2, 4.0, 1.25
_EASY = 1.3  # pages grow no larger by themselves: of a wider window the rest stays empty
_DPI = 72.0


class Preview(QPdfView):
    """Shows a PDF. `turned` tells that another page is seen, or another document."""

    turned = Signal()

    def __init__(self, owner: QWidget) -> None:
        """Take the widget that it stands in: the document is that one's, for a view outlives none of its own.

        A document that is a view's child tells the view that it closes when the view is half gone, and Qt crashes.
        """
        super().__init__(owner)
        self.setAccessibleName(self.tr("Pages as they will be printed"))
        self.pages = QPdfDocument(owner)
        self._buffer = QBuffer(owner)  # after what reads from it, so that it goes after it
        self.setDocument(self.pages)
        self.setPageMode(QPdfView.PageMode.MultiPage)
        self.setZoomMode(QPdfView.ZoomMode.FitToWidth)
        self._easy = True
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().installEventFilter(self)
        self._marks = QPdfBookmarkModel(owner)
        self._marks.setDocument(self.pages)
        Dressed(self, self._dress)
        self.pageNavigator().currentPageChanged.connect(lambda _page: self.turned.emit())

    @property
    def count(self) -> int:
        """Return how many pages there are."""
        return self.pages.pageCount()

    @property
    def page(self) -> int:
        """Return the number of the page that is seen, from 1; 0: there is none."""
        return min(self.count, self.pageNavigator().currentPage() + 1)

    @property
    def sheet(self) -> str:
        """Return of several sheets the name of the one whose page is seen, without the plan's; "" of one alone."""
        if self._marks.rowCount() < 2:
            return ""
        title, page = int(QPdfBookmarkModel.Role.Title), int(QPdfBookmarkModel.Role.Page)
        marks = [self._marks.index(row, 0) for row in range(self._marks.rowCount())]
        passed = [mark for mark in marks if mark.data(page) < self.page]
        return str(passed[-1].data(title)).partition(": ")[0] if passed else ""

    def show_pdf(self, pdf: bytes) -> None:
        """Show a document, at the place where the one before was; b"" shows none."""
        across = self.verticalScrollBar()
        share = across.value() / across.maximum() if across.maximum() else 0.0
        before = self.count
        self.pages.close()
        self._buffer.close()
        if pdf:
            self._buffer.setData(QByteArray(pdf))
            self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
            self.pages.load(self._buffer)
        self._take_ease()
        same = before == self.count
        across.setValue(round(share * across.maximum()) if same else 0)
        self.turned.emit()

    def go_to_sheet(self, number: int) -> None:
        """Go to the first page of a sheet of several, counted from 0: each has a bookmark."""
        mark = self._marks.index(number, 0)
        if mark.isValid():
            page = mark.data(int(QPdfBookmarkModel.Role.Page))
            self.pageNavigator().jump(page, QPointF(), 0)

    def fit(self, whole: bool) -> None:
        """Show pages whole, or as wide as there is room."""
        self._easy = False
        self.setZoomMode(QPdfView.ZoomMode.FitInView if whole else QPdfView.ZoomMode.FitToWidth)

    def zoom(self, closer: bool) -> None:
        """Show pages a step larger or smaller."""
        self._easy = False
        whole = self.zoomMode() is QPdfView.ZoomMode.FitInView
        now = self.zoomFactor() if self.zoomMode() is QPdfView.ZoomMode.Custom else self._fitted(whole)
        factor = now * (_STEP if closer else 1 / _STEP)
        self.setZoomMode(QPdfView.ZoomMode.Custom)
        self.setZoomFactor(max(_SMALLEST, min(_LARGEST, factor)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep pages at their ease until the cook chooses otherwise."""
        self._take_ease()
        super().resizeEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let plus and minus zoom, Home and End go to the first and last page."""
        bar = self.verticalScrollBar()
        match event.key():
            case Qt.Key.Key_Plus | Qt.Key.Key_Equal:
                self.zoom(closer=True)
            case Qt.Key.Key_Minus:
                self.zoom(closer=False)
            case Qt.Key.Key_Home:
                bar.setValue(bar.minimum())
            case Qt.Key.Key_End:
                bar.setValue(bar.maximum())
            case Qt.Key.Key_Space:
                bar.setValue(bar.value() + bar.pageStep())
            case _:
                super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let the wheel with Ctrl zoom."""
        if isinstance(event, QWheelEvent) and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            if event.angleDelta().y():
                self.zoom(closer=event.angleDelta().y() > 0)
            return True
        return super().eventFilter(watched, event)

    def _dress(self, colours: Palette) -> None:
        """Lay the pages on the window's own table, not on a darker one."""
        palette = self.palette()
        palette.setColor(QPalette.ColorRole.Dark, QColor(colours.line))
        self.setPalette(palette)

    def _take_ease(self) -> None:
        """Show pages as wide as there is room, but not so large that little of one is seen."""
        if not (self._easy and self.count):
            return
        if self._fitted(whole=False) <= _EASY:
            self.setZoomMode(QPdfView.ZoomMode.FitToWidth)
        else:
            self.setZoomMode(QPdfView.ZoomMode.Custom)
            self.setZoomFactor(_EASY)

    def _fitted(self, whole: bool) -> float:
        """Return the zoom at which the page that is seen fits."""
        if not self.count:
            return 1.0
        points = self.pages.pagePointSize(max(0, self.page - 1))
        margins = self.documentMargins()
        inch = self.screen().logicalDotsPerInch() / _DPI
        across = (self.viewport().width() - margins.left() - margins.right()) / (points.width() * inch)
        down = (self.viewport().height() - self.pageSpacing()) / (points.height() * inch)
        return min(across, down) if whole else across
