"""The window: the rail of places, the strip above them, the menus; it opens and closes plans."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from app.bridge import Arranger, OpenPlan, PlanPlace
from app.look import Mode, apply, icons
from app.look.colours import palette_under
from app.places.acts import Acts, runs_of
from app.places.banner import Banner
from app.places.commands import COMMANDS
from app.places.dress import style_sheet
from app.places.menus import make_menus
from app.places.opened_places import Places, places_of
from app.places.rail import Rail
from app.places.recipe.door import Door
from app.places.settings import Settings
from app.places.strip import Strip
from app.places.welcome import Welcome
from core.desk import Change
from core.measures.refusal import Refusal
from core.plan.plan import Plan


def _fewer(change: Change) -> bool:
    """Tell whether something was taken away that the cook may want back."""

    def counted(plan: Plan) -> tuple[int, ...]:
        kitchen = plan.kitchen
        return len(plan.dishes), len(plan.steps), len(kitchen.stations), len(kitchen.vessels), len(kitchen.cooks)

    pairs = zip(counted(change.before), counted(change.after), strict=True)
    return change.by != "undo" and any(after < before for before, after in pairs)

_FRAME = 40
"""Points that the bar with the title may take of the screen."""


class Window(QMainWindow):
    """One plan at a time; everything is saved as it is done."""

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self.settings = settings
        self.place: PlanPlace | None = None
        self.opened: OpenPlan | None = None
        self.places: Places | None = None
        self.arranger: Arranger | None = None
        self.recipes = Door(self)
        self.acts = Acts(self)
        self.actions_by_name: dict[str, QAction] = {}
        self.strip = Strip()
        self.banner = Banner()
        self.welcome = Welcome()
        self.stack = QStackedWidget()
        self.stack.addWidget(self.welcome)
        self.rail = Rail(
            [
                ("menu", self.tr("Menu"), "pot", "Ctrl+1"),
                ("kitchen", self.tr("Kitchen"), "oven", "Ctrl+2"),
                ("timeline", self.tr("Timeline"), "plate", "Ctrl+3"),
                ("sheets", self.tr("Sheets"), "print", "Ctrl+4"),
                ("recipe", self.tr("Recipe in"), "plus", "Ctrl+I"),
            ]
        )
        self._lay_out()
        self.actions_by_name = make_menus(self, runs_of(self.acts, self))
        self._connect()
        self.setWindowTitle(self.tr("Cook-Day Planner"))
        self.setAcceptDrops(True)
        room = self.screen().availableSize() - QSize(0, _FRAME)
        self.resize(QSize(1280, 800).boundedTo(room))
        if settings.geometry is not None:
            self.restoreGeometry(settings.geometry)
        self.dress()
        self.show_welcome()

    def _lay_out(self) -> None:
        body = QWidget()
        row = QHBoxLayout(body)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.rail)
        column = QVBoxLayout()
        column.setSpacing(0)
        column.addWidget(self.strip)
        column.addWidget(self.banner)
        column.addWidget(self.stack, 1)
        row.addLayout(column, 1)
        self.setCentralWidget(body)

    def _connect(self) -> None:
        self.rail.chosen.connect(self.go)
        self.strip.state_chosen.connect(lambda: self.go("timeline"))
        self.welcome.begin.connect(self.acts.begin_empty)
        self.welcome.demo.connect(self.acts.open_demo)
        self.welcome.open_other.connect(self.acts.open_plan)
        self.welcome.recipe.connect(self.recipes.show)
        self.welcome.recent_chosen.connect(self.open_path)

    def warm(self) -> None:
        """Start what is slow to start, while nobody waits for it."""
        if self.arranger is not None:
            self.arranger.warm()

    def open_path(self, path: Path) -> bool:
        """Open a plan; say why not and keep what is open where it cannot be."""
        if self.places is not None:
            self.places.finish()  # the same file, opened again, is to hold what is being typed
        try:
            self.open_place(PlanPlace.opened(path))
        except Refusal as refusal:
            self.banner.refuse(str(refusal))
            return False
        except OSError as wrong:
            self.banner.refuse(self.tr("{name}: {why}.").format(name=path.name, why=wrong.strerror or str(wrong)))
            return False
        return True

    def open_place(self, place: PlanPlace, show: str = "timeline") -> None:
        """Show another plan; the one before is closed (it is saved already)."""
        place = self._kept(place)
        self._close_places()
        self.place = place
        self.opened = OpenPlan(place.desk, self)
        self.opened.changed.connect(self._changed)
        self.opened.refused.connect(self.banner.refuse)
        if self.arranger is None:
            self.arranger = Arranger(self.opened, self)
            self.arranger.began.connect(lambda _aim: self.strip.show_under_way(None))
            self.arranger.better.connect(self.strip.show_under_way)
            self.arranger.ended.connect(lambda _outcome: self.refresh())
            self.arranger.failed.connect(lambda _words: self.refresh())
        else:
            self.arranger.follow_plan(self.opened)
        self.places = places_of(self.opened, self.arranger, self)
        for widget in self.places.widgets.values():
            self.stack.addWidget(widget)
        self.banner.hide()
        self.refresh()
        self.go(show)

    def _kept(self, place: PlanPlace) -> PlanPlace:
        """Give a plan that has no file one in the plans folder, so that nothing is lost when the power goes."""
        if place.file is None:
            try:
                place = place.keep_as(self.settings.free_place(place.desk.plan.name))
            except (Refusal, OSError) as wrong:
                self.banner.refuse(self.tr("This plan is not being saved: {why}").format(why=wrong))
        if place.file is not None:
            from core.store.recent import remember

            remember(place.file.path)
        return place

    def _close_places(self) -> None:
        if self.places is not None:
            self.places.finish()  # what is being typed still counts
            self.stack.setCurrentWidget(self.welcome)  # else the next place is shown, and made, as one is taken away
            for widget in self.places.widgets.values():
                self.stack.removeWidget(widget)
                widget.deleteLater()
            self.places = None
        if self.opened is not None:
            self.opened.close()
            self.opened.deleteLater()
            self.opened = None
        if self.place is not None:
            self.place.close()
            self.place = None

    def show_welcome(self) -> None:
        """Close the plan and show the ways in."""
        if self.arranger is not None:
            self.arranger.stop()
        self._close_places()
        from core.store.recent import recent_plans

        self.welcome.show_recent(list(recent_plans()))
        self.stack.setCurrentWidget(self.welcome)
        self.refresh()

    def go(self, name: str) -> None:
        """Show a place."""
        if name == "recipe":
            self.recipes.show()
            return
        if self.places is None or name not in self.places.widgets:
            return
        self.recipes.finish()
        self.stack.setCurrentWidget(self.places.widgets[name])
        self.rail.show_place(name)
        self.places.widgets[name].setFocus(Qt.FocusReason.OtherFocusReason)
        self.acts.refresh()

    def refresh(self) -> None:
        """Bring strip, title and menus up to date."""
        there = self.opened is not None
        self.rail.setVisible(there)
        self.strip.show_plan(self.opened)
        name = self.opened.plan.name if self.opened is not None else ""
        self.setWindowTitle(f"{name} - {self.tr('Cook-Day Planner')}" if name else self.tr("Cook-Day Planner"))
        self.acts.refresh()

    def _changed(self, change: Change) -> None:
        self.refresh()
        if _fewer(change):
            self.banner.say(self.tr("{what}. Undo brings it back (Ctrl+Z).").format(what=change.label))
        if change.timetable_changed and self.place is not None:
            try:
                self.place.keep_seen()
            except Refusal as refusal:
                self.banner.refuse(str(refusal))

    def set_look(self, mode: Mode) -> None:
        """Use light or dark colours, or as the system."""
        self.settings.look = mode
        app = QApplication.instance()
        if isinstance(app, QApplication):
            apply(app, mode)
        self.dress()

    def dress(self) -> None:
        """Give the window's own parts the colours of the moment."""
        palette = palette_under(QApplication.palette())
        self.setStyleSheet(style_sheet(palette))
        self.rail.dress()
        for command in COMMANDS:
            if command.icon:
                self.actions_by_name[command.name].setIcon(icons.icon(command.icon, palette.ink))

    def changeEvent(self, event: QEvent) -> None:
        """Follow the system's change between light and dark, and of the text's size."""
        super().changeEvent(event)
        changed = (QEvent.Type.ApplicationPaletteChange, QEvent.Type.ApplicationFontChange)
        if event.type() in changed and self.actions_by_name:
            self.dress()

    def tell_fault(self, error: BaseException) -> None:
        """Say that something of ours went wrong; the plan is saved already."""
        self.banner.refuse(
            self.tr("Something went wrong inside the planner ({what}). Your plan is saved as it was.").format(
                what=type(error).__name__
            )
        )

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Let files, and the words of a recipe, be dropped on the window."""
        if event.mimeData().hasUrls() or event.mimeData().hasText():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the first file that was dropped, a plan or a recipe, or read the words."""
        self.recipes.dropped(event.mimeData())

    def closeEvent(self, event: QCloseEvent) -> None:
        """Put everything away; nothing needs asking, all is saved."""
        self.settings.geometry = self.saveGeometry()
        self.recipes.finish()
        if self.arranger is not None:
            self.arranger.close()
        self._close_places()
        super().closeEvent(event)
