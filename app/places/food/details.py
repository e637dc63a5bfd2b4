"""One food limit in full beside the timeline: its sentence, its source, ways out, and the remark that defers."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.fields import a_button, dress_fields, dress_inside
from app.look.colours import palette_under
from app.places.advice.look import Look, Offer
from app.places.advice.section import words_of
from app.places.dressed import Dressed
from app.places.food.dress import food_sheet
from app.places.food.watching import Told, Tried
from app.places.food.words import food_words, is_over, same, sentence_of, source_lines
from app.timeline.paint_food import food_icon

if TYPE_CHECKING:
    from core.safety import Finding, FoodWay

_SIGN = 22


class FoodDetails(QFrame):
    """`looked` and `glanced` carry a Look or None, `taken` a Look; `story_wanted` the finding or None; `closed`."""

    looked = Signal(object)
    glanced = Signal(object)
    taken = Signal(object)
    story_wanted = Signal(object)
    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("foodPanel")
        self.setAccessibleName(self.tr("A food limit in full"))
        self.finding: Finding | None = None
        self.clashes: Callable[[], int] = lambda: 0
        self.offers: list[Offer] = []
        self.tries: list[Tried] = []
        self._waiting: dict[int, QLabel] = {}
        self.sign = QLabel()
        self.sign.setFixedSize(QSize(_SIGN, _SIGN))
        self.title = words_of("foodHead")
        self.close_button = a_button(self.tr("Put away"))
        self.story = a_button(self.tr("Its days as a plot"), tip=self.tr("Temperatures of this food over the days"))
        self.story.setParent(self)  # it goes with this, though it never was shown
        self.story.hide()
        self.body = QVBoxLayout()
        self.body.setContentsMargins(14, 0, 12, 10)
        self.body.setSpacing(5)
        paper = QWidget()
        paper.setObjectName("advicePage")
        paper.setLayout(self.body)
        self.page = QScrollArea()
        self.page.setWidget(paper)
        self.page.setWidgetResizable(True)
        self.page.setFrameShape(QFrame.Shape.NoFrame)
        self.page.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.page.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        head = QHBoxLayout()
        head.setContentsMargins(14, 8, 10, 4)
        head.setSpacing(8)
        head.addWidget(self.sign)
        head.addWidget(self.title, 1)
        head.addWidget(self.close_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.page, 1)
        self.close_button.clicked.connect(lambda _checked=False: self.closed.emit())
        self.story.clicked.connect(lambda _checked=False: self.story_wanted.emit(self.finding))
        Dressed(self, lambda palette: dress_fields(self, palette, food_sheet(palette)))

    def show_finding(self, finding: Finding) -> None:
        """Show one limit; its ways out with an edit come as they are tried."""
        self._clear()
        self.finding = finding
        over = is_over(finding)
        self.sign.setPixmap(food_icon(palette_under(self.palette()), over, _SIGN).pixmap(_SIGN, _SIGN))
        self.sign.show()
        self.title.setText(self.tr("Food limit missed") if over else self.tr("Food caution"))
        self._add(words_of("plain", sentence_of(finding)))
        if len(finding.foods) > 1:
            self._add(words_of("soft", self.tr("Foods: {names}").format(names=", ".join(finding.foods))))
        if finding.ways:
            self._add(words_of("adviceHeading", self.tr("Ways out")))
        for number, way in enumerate(finding.ways):
            words = way.sentence
            if way.edit is not None:
                words = self.tr("{way} Working out what comes of it…").format(way=way.sentence)
            label = words_of("plain", words)
            if way.edit is not None:
                self._waiting[number] = label
            self._add(label)
        self._add(self.story)
        self.story.show()
        self._add(words_of("adviceHeading", self.tr("Source")))
        rows = "\n".join(f"{label}: {text}" for label, text in source_lines(finding))
        self._add(words_of("plain", rows))
        self._defer()

    def show_all(self, told: Told | None, at_risk: tuple[str, ...] = ()) -> None:
        """Show by which rules the day is judged, the cautions, and what could not be judged."""
        self._clear()
        self.sign.hide()
        self.title.setText(self.tr("Food limits of this day"))
        report = told.report if told is not None else None
        if told is not None and told.fault:
            self._add(words_of("wrong", told.fault))
        if report is None:
            self._add(words_of("plain", self.tr("Nothing is worked out yet: arrange the day first.")))
            self._defer()
            return
        rules = self.tr("Rules: {name}. {note}").format(name=report.rules.name, note=report.rules.note)
        self._add(words_of("soft", rules))
        found = food_words(report.findings)
        nothing = self.tr("Of what is told of the food, nothing misses these limits.")
        self._add(words_of("plain", f"{found}." if found else nothing))
        if at_risk:
            words = self.tr("For {names}, at higher risk, cautions count as limits and more is shown.")
            self._add(words_of("plain", words.format(names=", ".join(at_risk))))
        where = self.tr("Not judged, for it is not told (tell it at the ingredient, at the step or in the Kitchen)")
        for heading, lines in ((self.tr("Cautions"), report.cautions), (where, report.untold)):
            if lines:
                self._add(words_of("adviceHeading", heading))
                for line in lines:
                    self._add(words_of("plain", f"–  {line}"))
        self._add(self.story)
        self.story.show()
        self._defer()

    def show_tried(self, tried: Tried) -> None:
        """Offer a way that was tried, with what comes of it."""
        finding = self.finding
        if finding is None:
            return
        for number, way in enumerate(finding.ways):
            label = self._waiting.get(number)
            if label is not None and way.edit is not None and way.edit == tried.edit:
                self._waiting.pop(number)
                if tried.fault:
                    label.setText(f"{way.sentence} {tried.fault}")
                else:
                    self._offer(label, way, tried, finding)

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the way that is shown."""
        for offer in self.offers:
            offer.show_looked_at(look is not None and offer.look is look)

    def tried_of(self, look: Look | None) -> Tried | None:
        """Return what a look of these ways came to."""
        return next((t for o, t in zip(self.offers, self.tries, strict=True) if o.look is look), None)

    def go_in(self) -> None:
        """Put the focus on the first thing that can be done."""
        first = self.offers[0].said if self.offers else self.story
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def _offer(self, label: QLabel, way: FoodWay, tried: Tried, finding: Finding) -> None:
        look = Look(way.sentence, tried.plan, tried.timetable, tried.edit, clashes=tried.clashes)
        offer = Offer(look, self._effect(tried, finding))
        offer.looked.connect(self.looked)
        offer.glanced.connect(self.glanced)
        offer.taken.connect(self.taken)
        self.body.insertWidget(self.body.indexOf(label), offer)
        label.hide()
        label.deleteLater()
        dress_inside(offer, palette_under(self.palette()))
        self.offers.append(offer)
        self.tries.append(tried)

    def _effect(self, tried: Tried, finding: Finding) -> str:
        found = () if tried.report is None else tried.report.findings
        still = any(same(each, finding) for each in found)
        words = self.tr("This limit is still missed.") if still else self.tr("This limit is then no longer missed.")
        left = food_words(found)
        if left:
            words += " " + self.tr("Left: {limits}.").format(limits=left)
        more = len(tried.clashes) - self.clashes()
        if more > 0:
            words += " " + self.tr("Clashes beside: {count} more.").format(count=more)
        return words

    def _defer(self) -> None:
        from core.safety import DEFER

        self._add(words_of("soft", DEFER))
        self.body.addStretch(1)

    def _add(self, widget: QWidget) -> None:
        self.body.addWidget(widget)
        dress_inside(widget, palette_under(self.palette()))

    def _clear(self) -> None:
        self.finding = None
        self.offers, self.tries, self._waiting = [], [], {}
        while (item := self.body.takeAt(0)) is not None:
            widget = item.widget()
            if widget is self.story:
                self.story.hide()
            elif widget is not None:
                widget.hide()
                widget.deleteLater()
