"""The timeline widget: one painted view of a plan's timetable."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QAbstractScrollArea, QWidget

from app.look.colours import palette_under
from app.look.words import word
from app.timeline import assistive, spoken, walk
from app.timeline.backing import Backing
from app.timeline.bar_buttons import BarButtons
from app.timeline.bars import Bar
from app.timeline.food_marks import FoodMarks
from app.timeline.geometry import Box
from app.timeline.glide_run import Gliding
from app.timeline.keys import Keys
from app.timeline.kit import Kit
from app.timeline.lane_lines import Lines
from app.timeline.lanes import Reading
from app.timeline.now import NowLine
from app.timeline.overview import Overview
from app.timeline.paint import paint, paint_over
from app.timeline.pointer import Pointer
from app.timeline.scene import Scene
from app.timeline.sight import Sight
from app.timeline.sight_pinch import Pinch
from app.timeline.sight_wheel import Wheel
from app.timeline.staging import stage
from app.timeline.thinking import Thinker, Thinking
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable


class Timeline(QAbstractScrollArea):
    """Shows a timetable and tells what the cook does with it; it changes nothing itself.

    `step_dropped` carries step, load, start of the step in minutes from plating, and a station's id or None.
    """

    step_dropped = Signal(str, int, int, object)
    step_opened = Signal(str)
    step_selected = Signal(str)
    pin_lifted = Signal(str, int)
    clash_chosen = Signal(object)
    reading_changed = Signal(str)
    held_moved = Signal(str)
    edit_wanted = Signal(object)
    keys_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.reading: Reading = "station"
        self.folded = True
        self.kit = Kit(palette_under(self.palette()))
        self.scene: Scene = _empty_scene()
        self.thinker_for: Callable[[Plan, Timetable], Thinker] = Thinking
        self._thinker: Thinker | None = None
        self.reader: assistive.TimelineList | None = None
        assistive.install()
        self._backing = Backing()
        self.lines = Lines(self)
        self.sight, self.wheel, self.pinch = Sight(self), Wheel(self), Pinch(self)
        self.overview, self.now = Overview(self), NowLine(self)
        self.pointer = Pointer(self)
        self.keys = Keys(self)
        self.buttons = BarButtons(self)
        self.glide = Gliding(self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFrameShape(QAbstractScrollArea.Shape.NoFrame)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.viewport().setMouseTracking(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)  # the overview is one
        self.pinch.begin()
        self.pointer.touch.begin()
        self.setMinimumSize(QSize(420, 200))
        self.setAccessibleName(word("timeline"))

    # ------------------------------------------------------------ what is shown

    def set_plan(self, plan: Plan, timetable: Timetable | None, clashes: Sequence[Clash] = ()) -> None:
        """Show a timetable of a plan, keeping what is in sight and what is chosen."""
        self.pointer.let_go()
        self.glide.leave()
        old = self.scene
        x = old.gutter + self.sight.field / 2
        minute = old.time(x)
        scene = stage(
            plan,
            timetable or Timetable(),
            clashes,
            self.reading,
            ppm=old.axis.ppm,
            row=self.kit.row,
            folded=self.folded,
            lines=self.lines.chosen,
        )
        scene.selected = old.selected if old.selected in plan.steps else None
        scene.also = frozenset(key for key in old.also if key in scene.timetable.at)
        scene.compared, scene.food = old.compared, old.food
        scene.marked = old.marked if old.marked in plan.steps else None
        self.scene, self._thinker = scene, None
        self.overview.appear()
        self.now.look()
        self.sight.measure()
        if scene.selected is not None:
            scene.focus_lane, scene.focus = walk.again(scene, scene.selected, old.focus) or (-1, None)
            spoken.describe(self)
        self.sight.resized()
        if not self.sight.fitted:
            self.sight.keep(minute, x)
        self.glide.arrive()
        self.viewport().update()

    def set_food(self, food: FoodMarks) -> None:
        """Mark the food limits that the timetable misses."""
        self.scene.food = food
        spoken.describe(self)
        self.viewport().update()

    def set_reading(self, reading: Reading) -> None:
        """Read the plan by station, by dish or by cook."""
        if reading != self.reading:
            self.reading = reading
            _again(self)
            self.reading_changed.emit(reading)

    def set_folded(self, folded: bool) -> None:
        """Fold long stretches without events, or show them at their true length."""
        if folded != self.folded:
            self.folded = folded
            _again(self)

    def fit_all(self) -> None:
        """Show everything from the first thing to the last."""
        self.sight.fit_all()

    def fit_last_hours(self, hours: float = 2) -> None:
        """Show the last hours before plating."""
        self.sight.fit_last_hours(hours)

    def show_clash(self, clash: Clash) -> None:
        """Zoom to a clash and choose the first step it names."""
        self.sight.clash = clash
        room = max(20, clash.end - clash.start)
        self.sight.fit(clash.start - room, max(clash.end, clash.start + 1) + room)
        for step in clash.steps:
            place = walk.find(self.scene, step)
            if place is not None:
                self.focus_on(*place)
                break

    def show_step(self, step: StepId) -> None:
        """Scroll to a step and choose it."""
        place = walk.find(self.scene, step)
        if place is not None:
            self.focus_on(*place)

    def select(self, step: StepId | None) -> None:
        """Choose a step without scrolling; None chooses nothing."""
        place = walk.find(self.scene, step) if step is not None else None
        if place is None:
            self.scene.selected, self.scene.focus, self.scene.focus_lane = None, None, -1
            self.viewport().update()
        else:
            self.focus_on(*place, reveal=False)

    def focus_on(
        self, lane: int, bar: Bar, *, chosen: bool = False, reveal: bool = True, more: bool = False
    ) -> None:
        """Put the focus on a bar; `chosen` says that the cook did it, `more` keeps what was chosen along with it."""
        scene = self.scene
        was = frozenset() if scene.focus is None or scene.focus.key is None else frozenset({scene.focus.key})
        scene.also = (scene.also | was) - {bar.key} if more else frozenset()
        scene.focus, scene.focus_lane, scene.selected = bar, lane, bar.step
        if reveal:
            self.sight.reveal(lane, bar)
        spoken.tell(self, bar)
        self.viewport().update()
        if chosen and bar.step is not None:
            self.step_selected.emit(bar.step)

    @property
    def focused(self) -> tuple[int, Bar] | None:
        """Return the lane's number and the bar that has the focus."""
        return None if self.scene.focus is None else (self.scene.focus_lane, self.scene.focus)

    @property
    def thinker(self) -> Thinker:
        """Return who answers while a step is dragged; made when first asked."""
        if self._thinker is None:
            self._thinker = self.thinker_for(self.scene.plan, self.scene.timetable)
        return self._thinker

    # ------------------------------------------------------------ for tests

    def bar_rects(self) -> list[tuple[str, Bar, Box]]:
        """Return every bar with its lane's id and its box in the viewport."""
        return [(self.scene.lanes[at].id, bar, self.scene.box(at, bar)) for at, bar in walk.all_bars(self.scene)]

    def drawn_texts(self) -> list[str]:
        """Return every text that painting the view writes, in order."""
        image = QImage(self.viewport().size(), QImage.Format.Format_RGB32)
        self.kit.drawn = []
        painter = QPainter(image)
        paint(painter, self.scene, self.kit, QRectF(image.rect()))
        paint_over(painter, self.scene, self.kit, QRectF(image.rect()))
        painter.end()
        texts, self.kit.drawn = self.kit.drawn, None
        return texts

    # ------------------------------------------------------------ Qt

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint what was uncovered."""
        painter = QPainter(self.viewport())
        rects = region_rects(event.region())
        if not self.glide.paint(painter, rects):
            self._backing.paint(painter, self.scene, self.kit, rects)
        painter.end()

    def scrollContentsBy(self, _dx: int, dy: int) -> None:
        """Follow the scroll bars."""
        self.sight.scroll(dy)

    def viewportEvent(self, event: QEvent) -> bool:
        """Give mouse, wheel, menu and tooltip events to the pointer; follow a new size."""
        done = self.pinch.handle(event) or self.pointer.handle(event) or super().viewportEvent(event)
        if event.type() == QEvent.Type.Resize:
            self.sight.measure()
            self.sight.resized()
            self.overview.place()
        return done

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Give keys to the table of keys."""
        if not self.keys.handle(event):
            super().keyPressEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        """Follow a new palette or type size."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange, QEvent.Type.ApplicationFontChange):
            self.kit = Kit(palette_under(self.palette()))
            _again(self)


def _again(timeline: Timeline) -> None:
    """Set the scene anew from what is shown."""
    scene = timeline.scene
    timeline.set_plan(scene.plan, scene.timetable, scene.clashes)


def region_rects(region: QRegion) -> list[QRect]:
    """Return the rectangles of a region."""
    return [QRect(rect) for rect in region]  # type: ignore[attr-defined]  # the stubs lack its iterator


def _empty_scene() -> Scene:
    from datetime import datetime

    from core.measures.clock import Moment

    plan = Plan("", Moment(datetime(2000, 1, 1, 12), "UTC"))
    return stage(plan, Timetable(), (), "station")
