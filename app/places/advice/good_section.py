"""How good the day is: each wish with what it reached, what no day can beat, and what more of it costs."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.places.advice.look import Look, Offer
from app.places.advice.offering import Offering
from app.places.gist import gist_of, titled
from core.arrange.apart import WishTold
from core.arrange.outcome import WishKind
from core.plan.plan import Plan


class GoodSection(Offering):
    """Each wish with what it reached, and a day that has more of it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(self.tr("How good it is"), parent)
        self.offers: list[Offer] = []

    def show_wishes(self, plan: Plan, wishes: tuple[WishTold, ...], whole: bool) -> None:
        """Show each wish; not `whole`: what better would cost is still sought."""
        self.clear()
        self.offers = []
        self.say("" if whole else self.tr("Seeking what could be better, and what that would cost…"))
        for wish in wishes:
            self.line(self._name(wish.wish), "wishName").setContentsMargins(0, 6, 0, 0)
            self.folding(gist_of(wish.reached))
            if wish.better is not None:
                self._offer(plan, wish)

    def show_looked_at(self, look: Look | None) -> None:
        """Mark the one that is shown."""
        for offer in self.offers:
            offer.show_looked_at(offer.look is look)

    def _offer(self, plan: Plan, wish: WishTold) -> None:
        assert wish.better is not None
        label = self.tr("A day with more of it: {wish}").format(wish=self._name(wish.wish).lower())
        look = Look(wish.price, plan, wish.better, None, label)
        self.offers.append(self.offer(look, "", self.tr("Take this day"), gist=titled(wish.price)))

    def _name(self, wish: WishKind) -> str:
        return {
            WishKind.FRESH: self.tr("Fresh"),
            WishKind.CALM: self.tr("Calm"),
            WishKind.OVEN: self.tr("Steady oven"),
            WishKind.SLEEP: self.tr("Sleep"),
            WishKind.KEEP: self.tr("As I saw it"),
        }[wish]
