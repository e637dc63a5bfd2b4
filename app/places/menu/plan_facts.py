"""The facts of the plan on top of the menu: name, plating, zone, manner of lengths; the wishes, folded away."""

from __future__ import annotations

import zoneinfo
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.bridge import OpenPlan
from app.fields import Form, Picked, Spec, Typed, Weighed, a_button, tried
from app.fields.typed_text import NAME
from app.fields.typed_times import TIME_OF_DAY
from app.fields.weight import Weight
from app.places.food.rules_choice import RulesChoice
from app.places.menu.guests_marks import marks_of
from app.places.menu.guests_words import button_words, care_words
from core.measures.clock import Moment, parse_moment, zone_named
from core.plan.edits import Edit, RenamePlan, SetManner, SetPlating, SetWishes
from core.plan.step import Manner

_STRONGEST = 10


class PlanFacts(QFrame):
    """Edits what concerns the plan as a whole."""

    def __init__(self, opened: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bar")
        self._opened = opened
        self.rules = RulesChoice(opened, self)
        self.form = Form(self._specs(), self._take, least=160)
        self.wishes = Form(self._wish_specs(), self._wish, least=250)
        self.guests = a_button(self.tr("Guests"), tip=self.tr("How many sit down, and who must not have what"))
        self.guests.setCheckable(True)
        self.guests.setProperty("care", False)
        self.fold = a_button(self.tr("Wishes"), tip=self.tr("What makes a good day: show or hide the sliders"))
        self.fold.setCheckable(True)
        self.fold.toggled.connect(self.wishes.setVisible)
        self.wishes.hide()
        for cell in self.wishes.cells.values():
            if isinstance(cell.field, Weight):
                cell.field.let_go.connect(opened.desk.settle)
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 8, 18, 8)
        column.setSpacing(8)
        row = QHBoxLayout()
        row.setSpacing(18)
        self.form.setMaximumWidth(1420)
        row.addWidget(self.form, 1000)
        row.addStretch(1)
        row.addWidget(self.guests)
        row.addWidget(self.fold)
        column.addLayout(row)
        column.addWidget(self.wishes)

    def refresh(self) -> None:
        """Show the plan as it is."""
        plan = self._opened.plan
        wishes = plan.decisions.wishes
        against = sum(bool(mark.words) for mark in marks_of(plan).values())
        self.guests.setText(button_words(plan.menu))
        self._care(care_words(against))
        self.form.show_values(
            {
                "plan_name": plan.name,
                "plating": plan.plating,
                "zone": plan.plating.zone,
                "manner": plan.decisions.manner,
                "rules": plan.decisions.rules,
            }
        )
        self.wishes.show_values({each: getattr(wishes, each) for each in self.wishes.cells})

    def _care(self, words: str) -> None:
        """Mark the button of the guests where a dish is not for everybody."""
        self.guests.setAccessibleName(", ".join(filter(None, (self.guests.text(), words))))
        if self.guests.property("care") != bool(words):
            self.guests.setProperty("care", bool(words))
            self.guests.style().unpolish(self.guests)
            self.guests.style().polish(self.guests)

    def _specs(self) -> list[Spec]:
        plating = Typed(self._read_plating, lambda moment: f"{moment.local:%Y-%m-%d %H:%M}")
        manners = [
            (Manner.SAFE, self.tr("with time to spare where it can wait")),
            (Manner.LIKELY, self.tr("the likely length")),
            (Manner.HIGH, self.tr("the longest length")),
        ]
        return [
            Spec("plan_name", self.tr("The feast"), NAME, grows=3),
            Spec(
                "plating",
                self.tr("On the plates at"),
                plating,
                self.tr("Day and time when the main plates are served; everything keeps its distance from it"),
                "2026-09-26 19:30",
            ),
            Spec(
                "zone",
                self.tr("Time zone"),
                Typed(_read_zone, str, _zones),
                self.tr("The time zone, as a region and its city"),
            ),
            Spec(
                "manner",
                self.tr("Plan with"),
                Picked(lambda: manners),
                self.tr("Which of quick, likely and slow the day reserves"),
            ),
            self.rules.spec,
        ]

    def _read_plating(self, text: str) -> Moment:
        return parse_moment(text, self._opened.plan.plating.zone)

    def _wish_specs(self) -> list[Spec]:
        how = Weighed(_STRONGEST, self._how_much)
        return [
            Spec("fresh", self.tr("Fresh: food waits as little as it can"), how),
            Spec("calm", self.tr("Calm: room around the work of the last hour"), how),
            Spec("oven", self.tr("Steady oven: few changes of its heat"), how),
            Spec("keep", self.tr("As I saw it: few moves when arranged anew"), how),
            Spec("sleep", self.tr("Sleep: no early rising"), how),
            Spec(
                "sleep_until",
                self.tr("Sleep until"),
                TIME_OF_DAY,
                self.tr("Work before this hour is avoided; the nights, when nobody works, stand with the cooks"),
                "08:00",
            ),
        ]

    def _how_much(self, weight: int) -> str:
        if weight == 0:
            return self.tr("not at all")
        for most, words in ((3, self.tr("a little")), (6, self.tr("fairly")), (9, self.tr("much"))):
            if weight <= most:
                return words
        return self.tr("above all")

    def _take(self, key: str, value: Any) -> str:
        plan = self._opened.plan
        edits: dict[str, Edit] = {}
        if key == "plan_name":
            edits[key] = RenamePlan(value)
        elif key == "plating":
            edits[key] = SetPlating(value)
        elif key == "zone":
            edits[key] = SetPlating(Moment(plan.plating.local, value))
        elif key == "rules":
            return self.rules.take(value)
        else:
            edits[key] = SetManner(value)
        return tried(self._opened, edits[key], "menu")

    def _wish(self, key: str, value: int) -> str:
        wishes = replace(self._opened.plan.decisions.wishes, **{key: value})
        return tried(self._opened, SetWishes(wishes), "menu")


def _read_zone(text: str) -> str:
    name = text.strip().replace(" ", "_")
    zone_named(name)
    return name


def _zones() -> list[str]:
    """Return one zone for each of the usual offsets, to begin from; any other may be typed."""
    usual = (
        *("Europe/London", "Europe/Lisbon", "Europe/Berlin", "Europe/Athens", "Africa/Johannesburg"),
        *("America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Sao_Paulo"),
        *("Asia/Dubai", "Asia/Kolkata", "Asia/Singapore", "Asia/Tokyo", "Australia/Sydney", "Pacific/Auckland"),
    )
    there = zoneinfo.available_timezones()
    return [each for each in usual if each in there]
