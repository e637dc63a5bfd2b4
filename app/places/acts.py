"""What the commands do."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFileDialog, QLabel, QVBoxLayout

from app.bridge import PlanPlace
from app.timeline.glide_motion import motion_runs
from core.desk import Aim
from core.measures.refusal import Refusal
from core.plan.edits import LiftAllPins
from core.plan.ids import DishId

if TYPE_CHECKING:
    from app.bridge import OpenPlan
    from app.places.timeline_place import TimelinePlace
    from app.places.window import Window

_NEEDS_PLAN = frozenset(
    {
        "keep_copy", "write_text", "print_sheets", "close_plan", "undo", "redo",
        "go_menu", "go_kitchen", "go_timeline", "go_sheets", "go_cure_desk",
        "arrange", "arrange_around", "stop", "how_it_stands", "go_clashes", "food_days", "lift_pins",
        "what_moved", "keep_day", "kept_day_1", "kept_day_2", "kept_day_3",
    }
)  # fmt: skip


class Acts(QObject):
    """One method for each command of the table, and when each is allowed."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window

    def refresh(self) -> None:
        """Allow what makes sense now; undo and redo say what they take back."""
        window = self._window
        opened = window.opened
        for name in _NEEDS_PLAN:
            window.actions_by_name[name].setEnabled(opened is not None)
        done = window.recipes.undoing
        if done is None:
            return
        for name, words, label in (
            ("undo", self.tr("&Undo"), done.undo_label),
            ("redo", self.tr("&Redo"), done.redo_label),
        ):
            action = window.actions_by_name[name]
            action.setEnabled(label is not None)
            action.setText(f"{words}: {label}" if label else words)
        if opened is not None:
            _tell_folder(window, opened)
            window.actions_by_name["lift_pins"].setEnabled(bool(opened.plan.decisions.pins))

    def begin_empty(self) -> None:
        """Begin a plan with a usual home kitchen and no dishes."""
        from app.places.empty_plan import empty_plan

        self._window.open_place(PlanPlace.fresh(empty_plan(self.tr("New feast"))), show="menu")

    def open_demo(self) -> None:
        """Open the demo feast as a plan of the cook's own."""
        from importlib.resources import as_file, files

        with as_file(files("demo_data") / "harvest_supper.toml") as path:
            self._window.open_path(path)

    def open_plan(self) -> None:
        """Ask for a plan to open."""
        dialog = QFileDialog(self._window, self.tr("Open a plan"), str(self._window.settings.plans_folder))
        dialog.setNameFilter(self.tr("Plans (*.cookday *.toml *.json)"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        self._ask(dialog, self._window.open_path)

    def keep_copy(self) -> None:
        """Write a copy of the plan file elsewhere."""
        dialog = self._save_dialog(self.tr("Keep a copy"), ".cookday", self.tr("Plan files (*.cookday)"))
        self._ask(dialog, self.copy_to)

    def write_text(self) -> None:
        """Write the plan as text, to be read and edited anywhere."""
        dialog = self._save_dialog(self.tr("Write as text"), ".toml", self.tr("Text plans (*.toml *.json)"))
        self._ask(dialog, self.text_to)

    def copy_to(self, path: Path) -> None:
        """Copy the plan file; say where it is."""
        place = self._window.place
        if place is None or place.file is None:
            return
        self._try(lambda: place.copy_to(_ending(path, ".cookday")), path)

    def text_to(self, path: Path) -> None:
        """Write the text; say where it is."""
        opened = self._window.opened
        if opened is None:
            return
        from core.intake.text_plan import write_file

        self._try(lambda: write_file(opened.plan, path if path.suffix == ".json" else _ending(path, ".toml")), path)

    def show_keys(self) -> None:
        """Show all keys, those of the place that is shown first."""
        from app.places.key_page import KeyPage

        window = self._window
        shown = window.stack.currentWidget()
        places = window.places.widgets if window.places is not None else {}
        here = "recipe" if window.recipes.shown is not None else "timeline"
        KeyPage(window, next((name for name, widget in places.items() if widget is shown), here)).show()

    def about(self) -> None:
        """Say what this is and under which licences."""
        from importlib.metadata import version

        words = self.tr(
            "<p><b>Cook-Day Planner {version}</b></p><p>Everything meets at plating.</p>"
            "<p>It places work; it never says that food is safe. Follow your country's food-safety rules.</p>"
            "<p>MIT licence. Uses Qt through PySide6 (LGPL-3), OR-Tools and typst (Apache-2.0), SQLAlchemy, Alembic "
            "and pydantic (MIT), pint and networkx (BSD), and the typeface Noto Sans (OFL 1.1); "
            "on paper, for other scripts, Nanum Square (OFL 1.1) and Droid Sans Fallback (Apache-2.0) too.</p>"
        ).format(version=version("cookday"))
        self._page(self.tr("About"), words, self._window)

    def _page(self, title: str, words: str, window: Window) -> None:
        dialog = QDialog(window)
        dialog.setWindowTitle(title)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        column = QVBoxLayout(dialog)
        label = QLabel(words)
        label.setWordWrap(True)
        label.setMinimumWidth(460)
        column.addWidget(label)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(dialog.close)
        column.addWidget(buttons)
        dialog.open()

    def _save_dialog(self, title: str, ending: str, filters: str) -> QFileDialog:
        opened = self._window.opened
        name = (opened.plan.name if opened is not None else "plan") + ending
        dialog = QFileDialog(self._window, title, str(self._window.settings.plans_folder / name), filters)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.selectFile(name)
        return dialog

    def _ask(self, dialog: QFileDialog, then: Callable[[Path], object]) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda chosen: then(Path(chosen)))
        dialog.open()

    def _try(self, write: Callable[[], object], path: Path) -> None:
        try:
            write()
        except Refusal as refusal:
            self._window.banner.refuse(str(refusal))
        except OSError as wrong:
            self._window.banner.refuse(
                self.tr("{name} could not be written: {why}.").format(name=path.name, why=wrong.strerror)
            )
        else:
            self._window.banner.say(self.tr("Written: {path}").format(path=path))


def runs_of(acts: Acts, window: Window) -> dict[str, Callable[[], object]]:
    """Return what each command of the table runs."""

    def arrange(aim: Aim) -> Callable[[], object]:
        def run() -> None:
            if window.places is not None:
                window.go("timeline")
                window.places.timeline.ask(aim)

        return run

    def go_cure_desk() -> None:
        if window.places is not None:
            window.go("menu")
            window.places.menu.cure.enter()

    return {
        "begin_empty": acts.begin_empty,
        "open_plan": acts.open_plan,
        "bring_recipe": window.recipes.show,
        "open_recipe": window.recipes.ask_file,
        "open_demo": acts.open_demo,
        "keep_copy": acts.keep_copy,
        "write_text": acts.write_text,
        "print_sheets": lambda: _print_sheets(window),
        "close_plan": window.show_welcome,
        "leave": window.close,
        "undo": window.recipes.undo,
        "redo": window.recipes.redo,
        "look_system": lambda: window.set_look("system"),
        "look_light": lambda: window.set_look("light"),
        "look_dark": lambda: window.set_look("dark"),
        "look_light_strong": lambda: window.set_look("light strong"),
        "look_dark_strong": lambda: window.set_look("dark strong"),
        **motion_runs(),
        "go_menu": lambda: window.go("menu"),
        "go_kitchen": lambda: window.go("kitchen"),
        "go_timeline": lambda: window.go("timeline"),
        "go_sheets": lambda: window.go("sheets"),
        "go_cure_desk": go_cure_desk,
        "arrange": arrange(Aim.ARRANGE),
        "arrange_around": arrange(Aim.AROUND),
        "stop": lambda: window.arranger.stop() if window.arranger is not None else None,
        **_beside_runs(window),
        **_day_runs(window),
        "lift_pins": lambda: window.opened.apply(LiftAllPins()) if window.opened is not None else None,
        "show_keys": acts.show_keys,
        "about": acts.about,
    }


def _beside_runs(window: Window) -> dict[str, Callable[[], object]]:
    """Return what the commands run that go to the side of the timeline, or to one food's page."""

    def how_it_stands() -> None:
        if window.places is None:
            return
        place = window.places.timeline
        if window.stack.currentWidget() is place:
            place.beside.toggle()
        else:
            window.go("timeline")
            place.beside.go_in()

    def go_clashes() -> None:
        if window.places is not None:
            window.go("timeline")
            window.places.timeline.clash_list.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    return {
        "how_it_stands": how_it_stands,
        "go_clashes": go_clashes,
        "food_days": lambda: _food_days(window),
    }


def _day_runs(window: Window) -> dict[str, Callable[[], object]]:
    """Return what the commands about kept days and about what moved run: each in the place of the timeline."""

    def there(run: Callable[[TimelinePlace], object]) -> Callable[[], object]:
        def go_and_run() -> None:
            if window.places is not None:
                window.go("timeline")
                run(window.places.timeline)

        return go_and_run

    return {
        "what_moved": there(lambda place: place.moved.set_on(not place.moved.on)),
        "keep_day": there(lambda place: place.days_bar.ask_name()),
        "kept_day_1": there(lambda place: place.days.go_to_number(1)),
        "kept_day_2": there(lambda place: place.days.go_to_number(2)),
        "kept_day_3": there(lambda place: place.days.go_to_number(3)),
    }


def _food_days(window: Window) -> None:
    """Show one food over the days: of the dish chosen in the Menu, or of the step chosen on the timeline."""
    places = window.places
    if places is None or window.opened is None:
        return
    dish = None
    if window.stack.currentWidget() is places.menu:
        places.menu.finish()
        dish = places.menu.dishes.dish
    elif window.stack.currentWidget() is places.timeline:
        step = places.timeline.timeline.scene.selected
        there = window.opened.plan.dish_of.get(step) if step is not None else None
        dish = there.id if there is not None else None
    places.timeline.food.door.open(DishId(dish) if dish else None)


def _print_sheets(window: Window) -> None:
    """Print the sheets that are seen; from anywhere else, show them first."""
    if window.places is None:
        return
    sheets = window.places.sheets
    if window.stack.currentWidget() is sheets and sheets.leaves.name == "print":
        sheets.print.print_pages()
        return
    window.go("sheets")
    sheets.leaves.turn("print")


def _tell_folder(window: Window, opened: OpenPlan) -> None:
    """Say where the cook's own food rules lie: in the folder "rules" beside the plan's file."""
    from app.places.food import watch_of

    file = window.place.file if window.place is not None else None
    watch_of(opened).set_folder(None if file is None else file.path.parent / "rules")


def _ending(path: Path, ending: str) -> Path:
    return path if path.suffix == ending else path.with_name(path.name + ending)
