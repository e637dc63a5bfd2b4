"""Offers to make all dishes for as many as sit down: one press, one undo."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QWidget

from app.bridge import OpenPlan
from app.fields import a_button, tried
from app.places.menu.guests_words import said
from core.measures.words import join_words, plural
from core.plan.edits import ChangeDish, Together
from core.plan.menu import Dish
from core.plan.plan import Plan

_MOST = 3  # dishes of one number that are named; more are counted


class ServingsOffer(QFrame):
    """Stands while dishes are made for another number than sit down, until it is turned down or taken."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("servingsOffer")
        self._opened = opened
        self._left: int | None = None  # the number for which the dishes are to stay as they are
        self._made: Plan | None = None  # as it was when all dishes had just been made for as many
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.make = a_button(self.tr("Make all for {number}"))
        self.usual = a_button(self.tr("Only those"), tip=self.tr("The others are for fewer or more on purpose"))
        self.leave = a_button(self.tr("Leave them"), tip=self.tr("Leave the servings as they are"))
        self.undo = a_button(self.tr("Undo"), "undo")
        self.make.clicked.connect(lambda _checked=False: self._make(others_in(self._opened.plan)))
        self.usual.clicked.connect(lambda _checked=False: self._make(usual_in(self._opened.plan)))
        self.leave.clicked.connect(lambda _checked=False: self._leave())
        self.undo.clicked.connect(lambda _checked=False: self._opened.undo())
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 6, 10, 6)
        row.setSpacing(8)
        row.addWidget(self.words, 1)
        for button in (self.make, self.usual, self.leave, self.undo):
            row.addWidget(button)
        self.hide()

    def refresh(self) -> None:
        """Look at the plan again."""
        plan = self._opened.plan
        covers, others = plan.menu.covers, others_in(plan)
        if self._left != covers:
            self._left = None
        asks = covers is not None and bool(others) and self._left is None and self._made is not plan
        usual = usual_in(plan)
        done = self._made is plan  # after another change its undo would be that one's
        some = asks and 1 < len(usual) < len(others)
        for button, seen in ((self.make, asks), (self.usual, some), (self.leave, asks), (self.undo, done)):
            button.setVisible(seen)
        if asks:
            self.words.setText(_asked(covers or 0, others))
            self.make.setText(self.tr("Make all for {number}").format(number=covers))
            self.make.setAccessibleName(self.make.text())
            if some:
                self.usual.setText(
                    self.tr("Only the {count} for {number}").format(count=len(usual), number=usual[0].wanted)
                )
                self.usual.setAccessibleName(self.usual.text())
        elif done:
            self.words.setText(" ".join(filter(None, (_done(covers or 0, others), kept_words(plan)))))
        self.setVisible(asks or done)

    def _make(self, dishes: tuple[Dish, ...]) -> None:
        covers = self._opened.plan.menu.covers
        if covers is None:
            return
        edits = tuple(ChangeDish.of(dish.id, wanted=covers) for dish in dishes)
        label = f"Make {plural(len(dishes), 'dish')} for {plural(covers, 'guest')}"
        sentence = tried(self._opened, Together(label, edits), "menu")
        if sentence:
            self.words.setText(sentence)
            return
        self._made = self._opened.plan
        self.refresh()
        self.undo.setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        self._left = self._opened.plan.menu.covers
        self.refresh()


def others_in(plan: Plan) -> tuple[Dish, ...]:
    """Return the dishes that are made for another number than sit down."""
    return tuple(dish for dish in plan.menu.dishes if dish.wanted != plan.menu.covers)


def usual_in(plan: Plan) -> tuple[Dish, ...]:
    """Return those of them that are for the number most of them are for."""
    groups = _by_number(others_in(plan))
    return max(groups.values(), key=len, default=())


def _by_number(dishes: tuple[Dish, ...]) -> dict[int, tuple[Dish, ...]]:
    groups: dict[int, tuple[Dish, ...]] = {}
    for dish in dishes:
        groups[dish.wanted] = (*groups.get(dish.wanted, ()), dish)
    return groups


def _asked(covers: int, others: tuple[Dish, ...]) -> str:
    sits = said("1 sits down") if covers == 1 else said("{number} sit down").format(number=covers)
    return said("{sits}, but {dishes}.").format(sits=sits, dishes=_listed(others))


def _listed(dishes: tuple[Dish, ...]) -> str:
    """Return "25 dishes are for 60, Lentil bake for 20"."""
    found: list[str] = []
    for number, group in sorted(_by_number(dishes).items(), key=lambda each: -len(each[1])):
        many = len(group) > _MOST
        names = said("{count} dishes").format(count=len(group)) if many else join_words([dish.name for dish in group])
        verb = "" if found else said("are ") if len(group) > 1 else said("is ")
        found.append(said("{names} {verb}for {number}").format(names=names, verb=verb, number=number))
    return ", ".join(found)


def _done(covers: int, others: tuple[Dish, ...]) -> str:
    if not others:
        return said("All dishes are for {number} now.").format(number=covers)
    return said("Made for {number}; {dishes}.").format(number=covers, dishes=_listed(others))


def kept_words(plan: Plan) -> str:
    """Return which dishes are still made in the amount that was set by hand; "" for none."""
    kept = [dish.name for dish in plan.menu.dishes if dish.scale is not None]
    if not kept:
        return ""
    return said("How much is made was set by itself, and stays, for {dishes}.").format(dishes=", ".join(kept))
