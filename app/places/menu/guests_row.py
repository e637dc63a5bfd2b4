"""A guest, or several alike, edited in place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QPushButton

from app.fields import Row, Spec, Typed, a_button, with_key
from app.fields.spec import TakeKey
from app.fields.typed_text import COUNT, LIST, NAME, WORDS
from app.places.menu.allergen_ticks import AllergenTicks
from app.places.menu.guests_words import RISKS, other_allergies, with_other_allergies
from core.plan.menu import Guest


class GuestRow(Row):
    """Hands over the fields of a guest: name, count, at_risk, allergies, others, aversions."""

    def __init__(self, take: TakeKey, remove: Callable[[], object]) -> None:
        ticks = AllergenTicks(_said("must not have"), lambda words: take("allergies", words))
        gone = a_button(_said("Take the guest off the list (undo brings it back)"), "bin", only_icon=True)
        risk = replace(WORDS, offers=lambda: RISKS)
        short_list = Typed(LIST.read, LIST.show)
        super().__init__(
            [
                [
                    Spec("name", _said("Who"), NAME, _said("A name, or “a guest”"), width=120, grows=3),
                    _said("how many"),
                    Spec("count", _said("How many guests of this kind"), COUNT, width=50, grows=0),
                    _said("at risk"),
                    Spec(
                        "at_risk",
                        _said("Why illness from food would be worse for them"),
                        risk,
                        _said("Pregnant, very young or old, a weak immune system: raw and rare food is asked about"),
                        _said("not known"),
                        110,
                        2,
                    ),
                    gone,
                ],
                [_said("must not have"), ticks],
                [
                    _said("nor"),
                    Spec(
                        "others",
                        _said("Other allergies"),
                        short_list,
                        _said("Allergies in other words than the 14 groups, with commas between them"),
                        _said("another allergy, such as: kiwi"),
                        110,
                        2,
                    ),
                    _said("does not like"),
                    Spec("aversions", _said("Does not like"), short_list, "", _said("such as: coriander"), 110, 3),
                ],
            ],
            take,
        )
        self.ticks = ticks
        self.remove: QPushButton = gone
        self.ticks.complained.connect(self.refuse)
        self.ticks.finished.connect(lambda: self.enter("others"))
        with_key(gone, "Alt+Del", self, remove)

    def show_guest(self, guest: Guest) -> None:
        """Show a guest."""
        self.show_values(
            {
                "name": guest.name,
                "count": guest.count,
                "at_risk": guest.at_risk,
                "others": other_allergies(guest),
                "aversions": guest.aversions,
            },
            guest.name,
        )
        self.ticks.show_words(guest.allergies)


def changed(guest: Guest, key: str, value: Any) -> Guest:
    """Return a guest with one field changed."""
    return with_other_allergies(guest, value) if key == "others" else replace(guest, **{key: value})


def _said(words: str) -> str:
    return QCoreApplication.translate("GuestRow", words)
