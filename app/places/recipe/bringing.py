"""Ties the recipe place to the window: files and words come in, a dish goes into the plan."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QMimeData, QObject, Qt
from PySide6.QtWidgets import QApplication, QFileDialog

from app.bridge import PlanPlace
from app.places.empty_plan import empty_plan
from app.places.recipe.bench import Bench
from app.places.recipe.recipe_place import RecipePlace
from app.places.recipe.worked import Worked
from app.places.recipe.worked_ask import untimed
from app.places.recipe.worked_dish import dish_from, left_open
from core.intake.draft import fitted
from core.measures.refusal import Refusal
from core.measures.words import plural
from core.plan.edits import AddDish
from core.plan.ids import DishId, fresh
from core.plan.menu import Dish, Link
from core.plan.plan import Plan

if TYPE_CHECKING:
    from app.places.window import Window
    from core.intake.pages.pieces import RecipeText

_MOST_SAID = 3


class Bringing(QObject):
    """One for a window, made when a recipe is first asked for."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window
        self._from = "menu"
        self.place = RecipePlace(Bench(self))
        window.stack.addWidget(self.place)
        self.place.left.connect(self.leave)
        self.place.file_wanted.connect(self.ask_file)
        self.place.pasted.connect(self.read_words)
        self.place.take_wanted.connect(self.take)
        self.place.changed.connect(window.acts.refresh)

    def show(self) -> None:
        """Show the recipe that is being read; the page to paste on where there is none, or it is shown already."""
        again = self._window.recipes.shown is not None
        self._look()
        if again and self.place.working:
            self.place.ask_another()
        else:
            self.place.begin()

    def leave(self) -> None:
        """Go back to the plan, or to the ways in; what is being read stays."""
        self.place.finish()
        if self._window.opened is None:
            self._window.show_welcome()
        else:
            self._window.go(self._from)

    def ask_file(self) -> None:
        """Ask for a saved page."""
        window = self._window
        dialog = QFileDialog(window, self.tr("Open a saved recipe"), str(Path.home()))
        dialog.setNameFilters(
            [
                self.tr("Saved pages (*.html *.htm *.mhtml *.mht *.xhtml *.json *.txt *.md)"),
                self.tr("All files (*)"),
            ]
        )
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda chosen: self.read_file(Path(chosen)))
        dialog.open()

    def read_file(self, path: Path) -> bool:
        """Read the recipes in a file; say why not where there are none."""
        from core.intake.pages.read import read_page

        return self._read(lambda: read_page(path), self.place.start.chosen_system)

    def read_words(self, text: str, system: str = "") -> bool:
        """Read the recipes in words; say why not where there are none."""
        from core.intake.pages.read import pasted

        return self._read(lambda: pasted(text), system or self.place.start.chosen_system)

    def dropped(self, mime: QMimeData) -> bool:
        """Take what was dropped on the window, where it is a recipe; tell whether it was taken in hand."""
        for url in mime.urls()[:1]:
            path = Path(url.toLocalFile())
            if not url.isLocalFile():
                self._look()
                said = self.tr("Nothing is fetched from the network: save the page first, then drop the file.")
                self.place.refuse(said)
                return True
            return self.read_file(path)
        return mime.hasText() and self.read_words(mime.text())

    def _read(self, read: Callable[[], tuple[RecipeText, ...]], system: str) -> bool:
        """Read, show, or say why not."""
        self._look()
        self.place.finish()
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            self.place.bench.begin(read(), system)
        except Refusal as refusal:
            self.place.refuse(str(refusal))
            return False
        finally:
            QApplication.restoreOverrideCursor()
        self.place.show_read()
        return True

    def _look(self) -> None:
        window = self._window
        shown = window.stack.currentWidget()
        if window.places is not None:
            names = [name for name, widget in window.places.widgets.items() if widget is shown]
            self._from = names[0] if names else self._from
            window.places.menu.finish()
            window.places.kitchen.finish()
        self.place.bench.follow(window.opened.plan.kitchen if window.opened is not None else None)
        window.stack.setCurrentWidget(self.place)
        window.rail.show_place("recipe")
        window.acts.refresh()

    # ------------------------------------------------------------ into the plan

    def take(self, guess: bool) -> None:
        """Put the dish on the menu, in one edit; begin a plan for it where none is open. Say what stays open."""
        window, bench = self._window, self.place.bench
        worked = bench.worked
        if worked is None:
            return
        plan = window.opened.plan if window.opened is not None else empty_plan(_feast_with(worked.name))
        bench.follow(plan.kitchen)
        if guess:
            keys = set(untimed(worked, bench.reader))
            rows = tuple(replace(each, guess=each.guess or each.key in keys) for each in worked.rows)
            worked = replace(worked, rows=rows)
        try:
            dish, links, homeless = self._dish(worked, plan)
            AddDish(dish, links)(plan)
        except Refusal as refusal:
            missing = untimed(worked, bench.reader)
            self.place.refuse_take(str(refusal), bool(missing))
            if missing:
                self.place.worktop.dish.go_to(("step", missing[0]), "length")
            return
        said = self._said(dish, (*left_open(worked, bench.reader), *homeless))
        bench.change(worked, self.tr("guess"))
        if window.opened is None:
            window.open_place(PlanPlace.fresh(plan), show="menu")
        opened = window.opened
        if opened is None or not opened.apply(AddDish(dish, links), "recipe"):
            return
        self._taken(dish, said)

    def _dish(self, worked: Worked, plan: Plan) -> tuple[Dish, tuple[Link, ...], tuple[str, ...]]:
        from app.places.library.my_dishes import servings_of

        names = {each.name.casefold() for each in plan.menu.dishes}
        name, number = worked.name, 2
        while name.casefold() in names:
            name, number = f"{worked.name} {number}", number + 1
        dish_id = DishId(fresh(name, plan.dishes))
        dish, links = dish_from(replace(worked, name=name), dish_id, self.place.bench.reader, servings_of(plan))
        return fitted(plan, dish, links)

    def _said(self, dish: Dish, still_open: tuple[str, ...]) -> str:
        said = self.tr("“{name}” is on the menu: {steps}, {things}.").format(
            name=dish.name,
            steps=plural(len(dish.steps), self.tr("step")),
            things=plural(len(dish.ingredients), self.tr("ingredient")),
        )
        if dish.wanted != dish.written_for:
            others = self.tr("It is made for {wanted} like the rest; the recipe is for {written}.")
            said = f"{said} {others.format(wanted=dish.wanted, written=dish.written_for)}"
        if not still_open:
            return said
        more = len(still_open) - _MOST_SAID
        left = self.tr(" And {number} more, in the dish's notes.").format(number=more) if more > 0 else ""
        return self.tr("{said} Still open: {sentences}{more}").format(
            said=said, sentences=" ".join(still_open[:_MOST_SAID]), more=left
        )

    def _taken(self, dish: Dish, said: str) -> None:
        window, place = self._window, self.place
        place.put_away()
        place.note.forget()
        if place.bench.worked is not None:
            self._look()
            place.say(said, window.opened.undo if window.opened is not None else None)
            return
        window.go("menu")
        if window.places is not None:
            window.places.menu.dishes.choose(dish.id)
        window.banner.say(said)


def _feast_with(dish: str) -> str:
    """Return the name of a plan that begins with a dish: on sheets a feast is not to look like one of its dishes."""
    return QCoreApplication.translate("recipe", "Feast with {dish}").format(dish=dish)[:80]
