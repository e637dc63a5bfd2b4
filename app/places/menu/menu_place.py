"""The Menu place: dishes at the left, the leaves of the one chosen at the right, the plan's facts on top."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.bridge import OpenPlan
from app.fields import Draft, Leaves, a_button, finish_typing, tab_as_read, with_key
from app.places.cure import DeskBeside, cure_sheet
from app.places.library import KeepNote, MyDishes, Shelf, library_sheet
from app.places.menu.dish_leaf import DishLeaf
from app.places.menu.dish_list import DishList
from app.places.menu.dress import menu_sheet
from app.places.menu.flow_picture import links_of
from app.places.menu.follows_leaf import FollowsLeaf
from app.places.menu.guests_beside import DishCaution, GuestsBeside
from app.places.menu.ingredients_leaf import IngredientsLeaf
from app.places.menu.left_open import Left, LeftOpen
from app.places.menu.made_later import MadeLater
from app.places.menu.plan_facts import PlanFacts
from app.places.menu.steps_leaf import StepsLeaf
from core.plan.ids import DishId, StepId
from core.plan.menu import Dish


class MenuPlace(MadeLater):
    """Where the feast is written down; made when it, or a part of it, is first wanted."""

    facts: PlanFacts
    left_open: LeftOpen
    dishes: DishList
    dish_leaf: DishLeaf
    steps: StepsLeaf
    follows: FollowsLeaf
    ingredients: IngredientsLeaf
    leaves: Leaves
    title: QLabel
    caution: DishCaution
    keep: QPushButton
    shelf: Shelf
    keep_note: KeepNote
    mine: MyDishes
    empty: _Empty
    right: QStackedWidget
    guests: GuestsBeside
    cure: DeskBeside

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__((menu_sheet, library_sheet, cure_sheet), parent)
        self._opened = opened
        self._left = Left(opened, self)
        self._stale = True  # nothing is shown before the place itself is
        self._remade: dict[QWidget, None] = {self: None}  # under these Tab is to go as one reads

    def _make(self) -> None:
        opened = self._opened
        self.facts = PlanFacts(opened)
        self.left_open = LeftOpen(self._left)
        self.dishes = DishList(opened)
        self.dishes.setObjectName("dishPanel")
        self.dish_leaf = DishLeaf(opened)
        self.steps = StepsLeaf(opened)
        self.follows = FollowsLeaf(opened)
        self.ingredients = IngredientsLeaf(opened)
        self.leaves = Leaves(
            [
                ("steps", self.tr("&Steps"), self.steps),
                ("follows", self.tr("What &follows what"), self.follows),
                ("ingredients", self.tr("&Ingredients"), self.ingredients),
                ("dish", self.tr("Serving and &notes"), self.dish_leaf),
            ]
        )
        self.title = QLabel()
        self.title.setObjectName("title")
        self.title.setWordWrap(True)
        self.caution = DishCaution()
        self.keep = a_button(self.tr("Keep in my dishes"), "save", self.tr("Keep a copy of this dish for other plans"))
        self.shelf = Shelf()
        self.destroyed.connect(self.shelf.close)
        self.keep_note = KeepNote(opened, self.shelf)
        self.mine = MyDishes(opened, self.shelf)
        self.empty = _Empty(self.dishes)
        self.right = QStackedWidget()
        self.right.addWidget(self._page())
        self.right.addWidget(self.empty)
        self.right.addWidget(self.mine)
        self.guests = GuestsBeside(self, opened)
        self.cure = DeskBeside(self, opened)
        self._head.addWidget(self.cure.button)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(self.dishes)
        split.addWidget(self.right)
        split.setChildrenCollapsible(False)
        split.setStretchFactor(0, 0)
        split.setStretchFactor(1, 1)
        split.setSizes([230, 950])
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.facts)
        column.addWidget(self.left_open)
        column.addWidget(self.keep_note)
        column.addWidget(split, 1)
        self.left_open.refresh()
        self._connect()
        self._aim_focus(opened.plan.menu.dishes)

    def _page(self) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 8, 0, 0)
        column.setSpacing(2)
        self._head = row = QHBoxLayout()
        row.setContentsMargins(18, 0, 18, 0)
        row.addWidget(self.title, 1)
        row.addWidget(self.keep)
        column.addLayout(row)
        column.addWidget(self.caution)
        column.addWidget(self.leaves, 1)
        return page

    def _connect(self) -> None:
        self._opened.changed.connect(self._changed)
        self.left_open.undone.connect(self._opened.undo)
        self.dishes.chosen.connect(self._dish_chosen)
        self.dishes.list.itemClicked.connect(lambda _item: self.leave_mine())
        with_key(self.dishes.from_mine, "Ctrl+L", self, self.open_mine)
        with_key(self.keep, "Ctrl+Shift+L", self, self._keep)
        self.empty.mine.clicked.connect(lambda _checked=False: self.open_mine())
        self.mine.left.connect(self.leave_mine)
        self.mine.took.connect(lambda dish: self.dishes.choose(DishId(dish)))
        self.mine.keep_wanted.connect(self._keep)
        self.dishes.first_step.connect(self._write_first)
        self.dishes.block.watch(self.empty.first)
        self.dishes.block.left.connect(self._write_block)
        self.steps.chosen.connect(lambda step: self.follows.mark(StepId(step)))
        self.follows.chosen.connect(self.steps.choose)
        with_key(self.steps.usual.button, "Alt+U", self, self._usual_steps)
        self.ingredients.scale.give_keys(self, self.leaves, "ingredients")
        for panel in (self.steps.flow, self.follows.flow):
            panel.opened_step.connect(self.show_step)
            panel.dish_at = self.dishes.dish_at
        self.leaves.turned.connect(lambda _name: self._show_leaf())
        for leaf in (self.steps, self.follows, self.ingredients):
            leaf.remade.connect(partial(self._remade.__setitem__, leaf, None))

    def refresh(self) -> None:
        """Show the plan as it is; what is chosen, half typed or refused stays."""
        self._stale = False
        self.facts.refresh()
        self.dishes.refresh()
        self._show_dish()

    def show_step(self, step_id: str) -> None:
        """Choose a step and its dish, and put the cursor into it."""
        dish = self._opened.plan.dish_of.get(StepId(step_id))
        if dish is None:
            return
        if self._stale:
            self.refresh()
        self.leave_mine()
        self.dishes.choose(dish.id)
        self.leaves.turn("steps")
        self.steps.go_to(StepId(step_id))

    def finish(self) -> None:
        """Take what is being typed, before the plan is closed, undone or printed."""
        if not self.is_made:
            return
        finish_typing(self)
        self.steps.lines.finish(self.steps.rows)

    def open_mine(self) -> None:
        """Show the cook's own dishes in the place of the dish chosen."""
        self.finish()
        self.right.setCurrentWidget(self.mine)
        self.mine.begin()

    def leave_mine(self) -> None:
        """Show the dish chosen again."""
        if self.right.currentWidget() is self.mine or self.guests.shown or self.cure.shown:
            self.right.setCurrentIndex(0)
            self._show_dish()
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _keep(self) -> None:
        dish = self._dish()
        if dish is not None:
            self.finish()
            self.keep_note.keep(dish.id)
            if self.mine.isVisible():
                self.mine.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what changed while another place was shown."""
        super().showEvent(event)
        if self._stale:
            self.refresh()

    def _changed(self, _change: object) -> None:
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def _dish_chosen(self, _dish: str) -> None:
        if self.dishes.list.hasFocus():  # by the keyboard; what is taken in is chosen while the panel stays
            self.leave_mine()
        self.keep_note.forget()  # it spoke of another dish
        self._show_dish()

    def _dish(self) -> Dish | None:
        chosen = self.dishes.dish
        return self._opened.plan.dishes.get(chosen) if chosen is not None else None

    def _show_dish(self) -> None:
        dish = self._dish()
        self._aim_focus(dish)
        self.caution.show_dish(self._opened, None if dish is None else dish.id)
        if self.guests.shown:
            self.guests.page.refresh()
        elif self.right.currentWidget() is not self.mine and not self.cure.shown:
            self.right.setCurrentIndex(1 if dish is None else 0)
        self.title.setText(dish.name if dish is not None else "")
        self.steps.refresh(dish)
        self._show_leaf()
        if dish is not None:
            self.leaves.count("steps", len(dish.steps))
            self.leaves.count("follows", len(links_of(self._opened.plan, dish)))
            self.leaves.count("ingredients", len(dish.ingredients))

    def _aim_focus(self, dishes: object) -> None:
        """Let the focus go to the dishes, or to the line that begins the menu while there are none."""
        self.enter_at(self.dishes.list if dishes else self.empty.first.line)

    def _show_leaf(self) -> None:
        """Bring the leaf that is turned up to date; the others follow when they are turned up."""
        dish = self._dish()
        name = self.leaves.name
        if name == "follows":
            self.follows.refresh(dish)
            self.follows.mark(self.steps.step)
        elif name == "ingredients":
            self.ingredients.refresh(dish)
        elif name == "dish" and dish is not None:
            self.dish_leaf.refresh(dish)
        for each in [self] if self in self._remade else self._remade:
            tab_as_read(each)  # no more than was made anew: of the whole place it takes a dish's time again
        self._remade.clear()

    def _usual_steps(self) -> None:
        self.leaves.turn("steps")
        self.steps.usual.open()

    def _write_first(self) -> None:
        self.leave_mine()
        self.leaves.turn("steps")
        self.steps.write_first()

    def _write_block(self, lines: str) -> None:
        """Have lines stand in the empty line of the dish's steps, to be mended and taken."""
        self._write_first()
        self.steps.draft.line.write(lines)


class _Empty(QFrame):
    """What stands at the right while there is no dish: what goes here, and the line that begins it."""

    def __init__(self, dishes: DishList) -> None:
        super().__init__()
        self.setObjectName("paper")
        title = QLabel(self.tr("What is to be eaten?"))
        title.setObjectName("title")
        words = QLabel(
            self.tr(
                "Write down the dishes here, one after the other: each with its steps, how long they take, where they "
                "happen and what may wait. When they are there, “Arrange” on the Timeline puts everything in its "
                "place, so that all is ready at plating."
            )
        )
        words.setWordWrap(True)
        button = a_button(self.tr("Write the first dish"), "plus")
        self.first = Draft(
            self.tr("Name of the first dish"), self.tr("Name of the first dish"), dishes.add, button
        )
        self.first.added.connect(dishes.draft.added)
        kept = self.tr("Put a dish on the menu that you have kept (Ctrl+L)")
        self.mine = a_button(self.tr("From my dishes…"), tip=kept)
        column = QVBoxLayout(self)
        column.setContentsMargins(40, 40, 40, 40)
        column.setSpacing(12)
        for widget in (title, words, self.first):
            widget.setMaximumWidth(620)
            column.addWidget(widget)
        column.addWidget(self.mine, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
