"""Guests as typed, and back."""

from __future__ import annotations

from typing import Any, ClassVar

from pydantic import Field

from core.intake.text.dishes import Words
from core.intake.text.entry import Entry
from core.intake.text.places import Typed
from core.plan.menu import Guest


class GuestText(Entry):
    """A guest, or several alike."""

    short: ClassVar[str] = "the name of one guest of whom nothing else is to be said"

    name: str
    """Who it is."""
    count: int = 1
    """How many they are."""
    allergies: Words = Field(default_factory=list)
    """Allergens they must not have: gluten, crustaceans, egg, fish, peanuts, soya, milk, nuts, celery, mustard,
    sesame, sulphites, lupin, molluscs (or another word)."""
    aversions: Words = Field(default_factory=list)
    """What they do not like or do not eat."""
    at_risk: str = ""
    """Why illness from food would be worse for them: "pregnant"."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        return {"name": text}

    def guest(self) -> Guest:
        """Return the guest."""
        return Guest(self.name, self.count, tuple(self.allergies), tuple(self.aversions), self.at_risk)


def guest_out(guest: Guest) -> Any:
    """Return a guest as typed: the name alone where nothing else is known."""
    if guest == Guest(guest.name):
        return guest.name
    found: Typed = {"name": guest.name}
    if guest.count != 1:
        found["count"] = guest.count
    if guest.allergies:
        found["allergies"] = list(guest.allergies)
    if guest.aversions:
        found["aversions"] = list(guest.aversions)
    if guest.at_risk:
        found["at_risk"] = guest.at_risk
    return found
