"""Other good days: two or three that truly differ, named by what they favour, to look at and take."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from app.places.advice.look import Look, Offer
from app.places.advice.offering import Offering
from app.places.advice.section import take_button
from app.places.gist import titled
from core.arrange.apart import DayTold
from core.plan.plan import Plan
from core.timetable.timetable import Timetable


class OthersSection(Offering):
    """`wanted`: they should be sought. Each can be kept under the word for what it favours."""

    wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("Other good days"), parent)
        self.offers: list[Offer] = []
        self.seek = take_button(self.tr("Look for other days"))
        self.seek.clicked.connect(lambda _checked=False: self.wanted.emit())
        column = self.layout()
        assert column is not None
        column.addWidget(self.seek)
        column.setAlignment(self.seek, Qt.AlignmentFlag.AlignLeft)

    def ask_whether(self) -> None:
        """Offer to seek them: that takes a while, so it is done only when it is wanted."""
        self.clear()
        self.offers = []
        self.say(self.tr("Fresher, calmer at the end, or with a later start: what else could the day be?"))

    def wait(self) -> None:
        """Say that they are sought."""
        self.clear()
        self.offers = []
        self.say(self.tr("Seeking other good days; this takes some seconds…"))

    def show_days(self, plan: Plan, seen: Timetable | None, days: tuple[DayTold, ...], whole: bool) -> None:
        """Show the days found; not `whole`: more may come."""
        shown = self._looked_at()
        self.clear()
        self.offers = []
        others = [each for each in days if each.timetable != seen]
        if whole and not others:
            self.say(self.tr("No other day was found that differs enough to choose between."))
        else:
            self.say("" if whole else self.tr("Seeking more…"))
        for day in others:
            name = day.words.split(":")[0]
            look = Look(day.words, plan, day.timetable, None, name)
            keep = self.tr("Keep as “{name}”").format(name=name)
            offer = self.offer(look, "", self.tr("Take this day"), gist=titled(day.words), keep=keep)
            self.offers.append(offer)
            offer.show_looked_at(shown == day.timetable)

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the one that is shown."""
        for offer in self.offers:
            offer.show_looked_at(look is not None and offer.look.timetable == look.timetable)

    def _looked_at(self) -> Timetable | None:
        return next((each.look.timetable for each in self.offers if each.said.isChecked()), None)
