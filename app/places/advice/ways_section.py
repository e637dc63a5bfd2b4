"""Ways out: each was solved before it is offered; the cheapest stands first, and they come as they are found."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.places.advice.look import Look, Offer
from app.places.advice.offering import Offering
from core.arrange.speak.ways import say_effect, say_way
from core.arrange.ways.way import WayOut
from core.measures.refusal import Refusal
from core.plan.plan import Plan


class WaysSection(Offering):
    """Each way with what comes of it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("Ways out"), parent)
        self.ways: list[tuple[WayOut, Offer]] = []

    def wait(self) -> None:
        """Say that they are sought."""
        self.clear()
        self.ways = []
        self.say(self.tr("Seeking ways out; each is tried before it is shown…"))

    def add_way(self, plan: Plan, way: WayOut) -> None:
        """Put one more among those there, by what it costs the cook."""
        if any(each == way for each, _offer in self.ways):
            return
        try:
            after = way.edit(plan)
        except Refusal:  # the plan has changed under it
            return
        at = sum(_rank(each) <= _rank(way) for each, _offer in self.ways)
        look = Look(say_way(plan, way), after, way.timetable, way.edit)
        self.ways.insert(at, (way, self.offer(look, say_effect(plan, way), at=at)))

    def show_all(self, plan: Plan, ways: tuple[WayOut, ...]) -> None:
        """Show those that are left when all is tried; what stands already stays where it is."""
        for way, offer in list(self.ways):
            if way not in ways:
                self.ways.remove((way, offer))
                self.body.removeWidget(offer)
                offer.hide()
                offer.deleteLater()
        for way in ways:
            self.add_way(plan, way)
        if ways:
            self.say("")
        else:
            self.say(
                self.tr(
                    "No single change was found after which all meets. Give up one thing of the reason above, "
                    "then look again."
                )
            )

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the one that is shown."""
        for _way, offer in self.ways:
            offer.show_looked_at(offer.look is look)


def _rank(way: WayOut) -> tuple[int, str]:
    return way.price, way.kind.value
