"""Joins the food's watch to the timeline's place: lines, marks, details, ways out looked at and taken, the plot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from app.fields import tab_as_read
from app.places.advice.look import Look
from app.places.dressed import Dressed
from app.places.food.details import FoodDetails
from app.places.food.door import FoodDoor
from app.places.food.dress import food_sheet
from app.places.food.watching import Told, Tried, watch_of
from app.places.food.words import food_words, marks_of, same, sentence_of
from app.timeline.food_marks import NONE
from core.desk import Aim
from core.timetable.clash import Clash, ClashKind

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace
    from core.safety import Finding

_WIDE, _LEAST = 400, 130
"""Points of the side, and of the list in it, while a limit is shown in full."""
_SETTLED = 60
"""Milliseconds after which everything has its new place."""


class FoodBeside(QObject):
    """Shows in a timeline's place what the rules find, and takes what is chosen there."""

    def __init__(self, place: TimelinePlace, opened: OpenPlan) -> None:
        super().__init__(place)
        self._place, self._opened = place, opened
        self.watch = watch_of(opened)
        self.details: FoodDetails = place.food_details
        self.line: QPushButton = place.food_line
        self.door = FoodDoor(place, opened)
        self.details.hide()
        self.details.clashes = lambda: len(opened.clashes)
        Dressed(self.line, lambda palette: self.line.setStyleSheet(food_sheet(palette)))
        scene = lambda: place.timeline.scene  # noqa: E731  it is another one after every change
        self.watch.held = lambda: scene().held is not None or scene().gesture is not None
        self.watch.told.connect(self._told)
        self.watch.tried.connect(self._tried)
        place.clash_list.food_chosen.connect(self.choose)
        place.clash_list.chosen.connect(lambda _clash: self.put_away())
        self.line.clicked.connect(lambda _checked=False: self.turn_all())
        self.details.closed.connect(self._closed)
        self.details.looked.connect(place.beside.show_look)
        self.details.glanced.connect(place.beside.glancing.over)
        self.details.taken.connect(self._take)
        self.details.story_wanted.connect(self._story)
        place.beside.shown_otherwise.connect(self._shown_otherwise)
        self._put()

    def refresh(self) -> None:
        """Show the last report again, after the place showed something else."""
        self._put()

    def leave_out(self) -> None:
        """Show no limits: what is seen is a day that is still being arranged."""
        self._place.clash_list.show_food(self._opened.plan, ())
        self._place.timeline.set_food(NONE)

    @Slot(object)
    def choose(self, finding: Finding) -> None:
        """Go to a limit on the timeline and show it in full."""
        place = self._place
        place.beside.leave()
        place.beside.mark(None)
        there = tuple(step for step in reversed(finding.steps) if step in self._opened.plan.steps)
        place.timeline.show_clash(
            Clash(ClashKind.LATE, sentence_of(finding), finding.start, finding.end, there)
        )
        self.details.show_finding(finding)
        self._open()
        self.watch.attempt(finding)

    def turn_all(self) -> None:
        """Show what holds for the whole day, or put it away."""
        if self.details.isVisible() and self.details.finding is None:
            self.put_away()
            return
        self._place.beside.leave()
        self.details.show_all(self.watch.last, self._at_risk())
        self._open()

    def _at_risk(self) -> tuple[str, ...]:
        return tuple(guest.name for guest in self._opened.plan.menu.guests if guest.at_risk)

    def put_away(self) -> None:
        """Show the list alone."""
        if not self.details.isHidden():
            self._place.beside.leave()
            self._hide()

    def _hide(self) -> None:
        self.details.hide()
        self._place.clash_list.list.setMinimumHeight(0)
        self._place.clash_list.show_few(self._place.advice.isVisibleTo(self._place))

    def _closed(self) -> None:
        self.put_away()
        self._place.clash_list.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _open(self) -> None:
        if self.details.isHidden():
            self.details.show()
            if self._place.split.sizes()[1] < _WIDE:
                self._place.show_side(_WIDE)
            self._place.clash_list.show_few(True)
            self._place.clash_list.list.setMinimumHeight(_LEAST)
        chosen = self._place.clash_list
        chosen.choose_food(self.details.finding)
        QTimer.singleShot(_SETTLED, chosen, lambda: chosen.list.scrollToItem(chosen.list.currentItem()))
        tab_as_read(self._place)

    @Slot(object)
    def _tried(self, tried: Tried) -> None:
        self.details.show_tried(tried)
        QTimer.singleShot(0, self._place, lambda: tab_as_read(self._place))  # once it has its place

    @Slot(object)
    def _told(self, told: Told) -> None:
        if self._place.previewed is None:
            self._put()
        finding = self.details.finding
        if self.details.isHidden():
            return
        if finding is None:
            self.details.show_all(told, self._at_risk())
            return
        found = () if told.report is None else told.report.findings
        now = next((each for each in found if same(each, finding)), None)
        if now is None:
            there: QWidget | None = self._place.window().focusWidget()
            inside = there is not None and self.details.isAncestorOf(there)
            self._hide()
            if inside:
                self._place.clash_list.list.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.details.show_finding(now)
            self.watch.attempt(now)

    def _put(self) -> None:
        report = self.watch.report
        findings = () if report is None else report.findings
        there = tuple(each for each in findings if each.dish in self._opened.plan.dishes)
        self._place.clash_list.show_food(self._opened.plan, there)
        self._place.timeline.set_food(marks_of(report))
        self._say()

    def _say(self) -> None:
        """Say on the line below the list by which rules, and what is left open."""
        last, report = self.watch.last, self.watch.report
        if last is not None and last.fault:
            words = self.tr("Food limits: not judged")
        elif report is None:
            words = self.tr("Food limits: not worked out yet")
        else:
            found = food_words(report.findings) or self.tr("none missed of what is told")
            words = self.tr("Food: {found}").format(found=found)
            if report.untold:
                words += ", " + self.tr("{count} not judged").format(count=len(report.untold))
        self.line.setText(words)
        rules = report.rules.name if report is not None else ""
        self.line.setToolTip(self.tr("By the rules of {rules}; click for all of it").format(rules=rules))

    @Slot()
    def _shown_otherwise(self) -> None:
        look, timeline = self._place.beside.look, self._place.timeline
        self.details.show_looked_at(look)
        tried = self.details.tried_of(look)
        if look is None:
            timeline.set_food(marks_of(self.watch.report))
        else:
            timeline.set_food(marks_of(tried.report) if tried is not None else NONE)

    @Slot(object)
    def _take(self, look: Look) -> None:
        """Take a way out as one undo step; what clashes then and did not before is mended nearby."""
        before = len(self._opened.clashes)
        label = self._opened.desk.undo_label
        plan = self._opened.plan
        self._place.beside.take(look)
        if self._opened.plan is plan and self._opened.desk.undo_label == label:
            return
        self._place.told.setText(self.tr("Taken: {words} Ctrl+Z takes it back.").format(words=look.words))
        if len(self._opened.clashes) > before:
            self._place.ask(Aim.FOLLOW)

    @Slot(object)
    def _story(self, finding: Finding | None) -> None:
        dish = None if finding is None else finding.dish
        item = "" if finding is None else finding.foods[0]
        self.door.open(dish, item)

