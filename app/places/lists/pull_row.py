"""One kind of vessel on the pull list: how many in use at once of how many there are, when, and for which dishes."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.look.colours import palette_under
from app.places.lists.words import tr
from core.food.pull_list import PullLine
from core.food.speak import Clock
from core.food.speak_lists import brief, said_short
from core.plan.check_words import short

_PIP, _GAP, _A_ROW = 13, 4, 8
_MOST_PIPS = 24


class Pips(QWidget):
    """A square for each one there is, filled for the most in use at once; those wanting are crossed out."""

    def __init__(self) -> None:
        super().__init__()
        self._most = self._count = 0
        self.setFixedWidth(_A_ROW * (_PIP + _GAP) + 4)

    def show_count(self, most: int, count: int) -> None:
        """Show how many are in use at once, of how many."""
        self._most, self._count = most, count
        self.setToolTip(tr("{most} in use at once, {count} there").format(most=most, count=count))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for all rows of squares."""
        pips = min(max(self._most, self._count), _MOST_PIPS)
        rows = max(1, -(-pips // _A_ROW))
        return QSize(self.width(), rows * (_PIP + _GAP) + 4)

    def minimumSizeHint(self) -> QSize:
        """Ask for all rows of squares."""
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the squares, eight in a row."""
        pips = max(self._most, self._count)
        if pips > _MOST_PIPS:
            return
        colours = palette_under(self.window().palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for at in range(pips):
            row, column = divmod(at, _A_ROW)
            box = QRectF(2 + column * (_PIP + _GAP), 4 + row * (_PIP + _GAP), _PIP, _PIP)
            missing = at >= self._count
            painter.setPen(QPen(QColor(colours.clash if missing else colours.rail), 2 if missing else 1.4))
            used = at < self._most and not missing
            painter.setBrush(QColor(colours.accent if used else colours.lane))
            painter.drawRoundedRect(box, 3, 3)
            if missing:
                painter.drawLine(box.topLeft(), box.bottomRight())


class PullRow(QFrame):
    """The squares, the name, the times, and what is short."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("listRow")
        self.pips = Pips()
        self.what = _label("listWhat")
        self.when = _label("listPlain")
        self.dishes = _label("listFor")
        self.short = _label("listShort")
        column = QVBoxLayout()
        column.setSpacing(1)
        for label in (self.what, self.when, self.dishes, self.short):
            column.addWidget(label)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 6, 8, 6)
        row.setSpacing(14)
        row.addWidget(self.pips, 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(column, 1)

    def show_line(self, each: PullLine, clock: Clock) -> None:
        """Show a kind of vessel."""
        vessel = each.vessel
        size = f", {short(vessel.size)}" if vessel.size else ""
        self.pips.show_count(each.most, vessel.count)
        name = f"{short(vessel.name)}{size}"
        if each.short_by:
            said = tr("{name}: {most} at once, {count} there")
        else:
            said = tr("{name}: {most} of {count}") if vessel.count > 1 else "{name}"
        self.what.setText(said.format(name=name, most=each.most, count=vessel.count))
        self.when.setText(_when(each, clock))
        self.dishes.setText("; ".join(brief(dish) for dish in each.dishes))
        self.short.setText(said_short(each, clock) if each.short_by else "")
        self.short.setVisible(bool(each.short_by))
        self.setProperty("short", bool(each.short_by))
        self.style().unpolish(self)
        self.style().polish(self)


class TellingRow(QFrame):
    """A tin of a recipe, or how a dish comes to the table: what, and about it."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("listRow")
        self.what = _label("listWhat")
        self.about = _label("listFor")
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 5, 8, 5)
        column.setSpacing(1)
        column.addWidget(self.what)
        column.addWidget(self.about)

    def show_words(self, what: str, about: str) -> None:
        """Show both."""
        self.what.setText(what)
        self.about.setText(about)
        self.about.setVisible(bool(about))


def _when(each: PullLine, clock: Clock) -> str:
    first = tr("ready from {time}").format(time=clock(each.first))
    if each.most == 1:
        return first
    most = tr("{most} at once from {start} to {end}").format(
        most=each.most, start=clock(each.start), end=clock(each.end)
    )
    then = "; ".join(brief(dish) for dish in each.then)
    return f"{first}; {most}" + (f" ({then})" if set(each.then) != set(each.dishes) else "")


def _label(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter)
    label.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    return label
