"""How sure it is: in how many days of a hundred all is in time, what threatens it, where spare minutes help."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.places.advice.look import Look, Offer
from app.places.advice.offering import Offering
from app.places.advice.said import Said
from app.places.advice.section import words_of
from app.places.advice.spread import Spread
from core.plan.plan import Plan
from core.timetable.naming import capital
from core.timetable.timetable import Timetable

if TYPE_CHECKING:  # numpy comes in only with an answer
    from core.arrange.chances import Chances, Threat

_MOST = 3
_HARDLY = 0.005


class SureSection(Offering):
    """`chosen`: a step's id and a sentence; `figured`: how often all is in time, "" while it is not known.

    `head` bears the figure; it stands above the page, so that it is seen whatever is scrolled to.
    """

    chosen = Signal(str, str)
    figured = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("How sure it is"), parent)
        self.figure = words_of("figure")
        self.meaning = words_of("plain", self.tr("nothing is more than 5 min late."))
        self.is_held = False
        self.head = QWidget()
        self.head.setObjectName("sureHead")
        column = QVBoxLayout(self.head)
        column.setContentsMargins(14, 0, 12, 6)
        column.setSpacing(0)
        for label in (self.figure, self.meaning):
            column.addWidget(label)
        self.threats: list[Said] = []
        self.offers: list[Offer] = []
        self._chances: Chances | None = None
        self._hide_figure()

    def wait(self) -> None:
        """Say that it is being worked out."""
        self.clear()
        self.say(self.tr("Trying 10,000 such days…"))

    def show_chances(self, plan: Plan, timetable: Timetable, value: Chances) -> None:
        """Show the figures of a timetable."""
        from core.arrange.speak.chances import of_100, say_limit

        self.clear()
        self.say("")
        self._chances = value
        self._show_figure(value.nearly)
        if value.on_time < 1:
            often = capital(of_100(value.on_time, value.runs))
            self.line(self.tr("{often} all is on the table to the minute.").format(often=often))
        if any(each.p10 != each.p90 for each in value.servings):
            self.add(Spread(plan, value.servings))
        deciding = [each for each in value.threats if each.over_runs > 0][:_MOST]
        if deciding:
            self.line(self.tr("What decides it:"), "soft")
        for each in deciding:
            self._add_threat(plan, each)
        if value.limits:
            self.line(say_limit(plan, value.limits[0], value.runs))
        self._add_spare(plan, timetable, value)

    def hold(self, chance: float | None) -> None:
        """Show the chance as a held bar would make it; None: as it stands."""
        from core.arrange.speak.chances import of_100

        value = self._chances
        if value is None:
            return
        self._show_figure(value.nearly if chance is None else chance)
        self.is_held = chance is not None
        stands = of_100(value.nearly, value.runs)
        held = self.tr("with the bar where you hold it; {often} as it stands.").format(often=stands)
        self.meaning.setText(held if self.is_held else self.tr("nothing is more than 5 min late."))

    @property
    def is_told(self) -> bool:
        """Tell whether there are figures of the day as it stands."""
        return self._chances is not None

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the one that is shown."""
        for offer in self.offers:
            offer.show_looked_at(offer.look is look)

    def let_go(self) -> None:
        """Choose no step."""
        for each in self.threats:
            each.setChecked(False)

    def clear(self) -> None:
        """Take away what was found, the figure too."""
        super().clear()
        self.threats, self.offers, self._chances = [], [], None
        self._hide_figure()

    def _hide_figure(self) -> None:
        self.head.hide()
        self.figured.emit("")
        self.is_held = False
        self.meaning.setText(self.tr("nothing is more than 5 min late."))

    def _show_figure(self, chance: float) -> None:
        from core.arrange.speak.chances import of_100

        assert self._chances is not None
        often = of_100(chance, self._chances.runs)
        self.figure.setText(capital(often))
        self.figured.emit(often)
        self.head.show()

    def _add_threat(self, plan: Plan, threat: Threat) -> None:
        from core.arrange.speak.chances import say_threat

        said = Said(say_threat(plan, threat))
        self.threats.append(said)
        self.add(said)

        def clicked(checked: bool) -> None:
            for each in self.threats:
                each.setChecked(each is said and checked)
            self.chosen.emit(threat.step if checked else "", said.words)

        said.clicked.connect(clicked)

    def _add_spare(self, plan: Plan, timetable: Timetable, value: Chances) -> None:
        from core.arrange.chances_spare import shifted
        from core.arrange.speak.chances import say_one_spare, say_spare

        best = value.spare[0] if value.spare else None
        if best is None or best.gain < _HARDLY:
            self.line(say_spare(plan, value))
            return
        words = say_one_spare(plan, best, value.runs)
        label = self.tr("Begin earlier")
        look = Look(words, plan, shifted(timetable, dict(best.moved)), None, label)
        self.offers.append(self.offer(look, "", label))
