"""A section that offers days: to be glanced at, looked at, kept and taken."""

from __future__ import annotations

from PySide6.QtCore import Signal

from app.places.advice.look import Look, Offer
from app.places.advice.section import Section
from app.places.gist import Gist


class Offering(Section):
    """`glanced` and `looked` carry a Look or None, `taken` and `keep_wanted` a Look."""

    glanced = Signal(object)
    looked = Signal(object)
    taken = Signal(object)
    keep_wanted = Signal(object)

    def offer(
        self, look: Look, effect: str = "", take: str = "", *, at: int = -1, gist: Gist | None = None, keep: str = ""
    ) -> Offer:
        """Offer a day, at the end or at a place; `take` and `keep` are the words of its buttons."""
        made = Offer(look, effect, take, gist=gist, keep=keep)
        made.glanced.connect(self.glanced)
        made.looked.connect(self.looked)
        made.taken.connect(self.taken)
        made.keep_wanted.connect(self.keep_wanted)
        self.add(made, at)
        return made
