"""Cooks: what they can do, when they are there, when they sleep."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.fields import Spec, attribute, by_key
from app.fields.typed_text import LIST, NAME
from app.fields.typed_times import NIGHT, WINDOWS
from app.places.kitchen.cook_hours import CookBeside
from app.places.kitchen.things_leaf import Things
from core.plan.edits import AddCook, ChangeCook, RemoveCook
from core.plan.ids import CookId, fresh
from core.plan.kitchen import Cook, Kitchen


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("Cooks", words)


def cooks() -> Things:
    """Return what the list of cooks is made of."""
    spans = tr("Spans of the clock, with semicolons; day 0 is the day of plating: day 0 15:00-24:00; day -1 9:00-12:00")
    parts = by_key(
        [
            attribute(Spec("name", tr("Name"), NAME, width=160, grows=2)),
            attribute(
                Spec(
                    "skills",
                    tr("What they can do"),
                    LIST,
                    tr("Words that steps ask for, with commas"),
                    tr("what anybody can"),
                    width=160,
                    grows=3,
                )
            ),
            attribute(Spec("present", tr("When they are there"), WINDOWS, spans, tr("every day"), 150, 3)),
            attribute(Spec("breaks", tr("When they are away"), WINDOWS, spans, tr("never"), 120, 2)),
            attribute(Spec("night", tr("When they sleep"), NIGHT, tr("23:00-07:00, or none"), "", 110, 0)),
        ]
    )
    lines = [
        ["name", tr("can"), "skills"],
        [tr("there"), "present", tr("away"), "breaks", tr("sleeps"), "night"],
    ]
    return Things(
        of=lambda kitchen: kitchen.cooks,
        parts=parts,
        lines=lines,
        large=lines,
        added=_added,
        changed=lambda cook: ChangeCook(cook.id, cook),
        copied=_copied,
        removed=lambda cook: RemoveCook(cook.id),
        new=tr("A new cook"),
        empty=tr("New cook, by name"),
        teaching=tr(
            "Everybody who works, with the hours they are there. Day 0 is the day of plating, day -1 the day before: "
            "“day 0 15:00-24:00”. Nights are kept free unless you say “none”."
        ),
        beside=CookBeside,
    )


def _added(kitchen: Kitchen, name: str) -> AddCook:
    return AddCook(Cook(CookId(fresh(name, kitchen.cook)), name))


def _copied(kitchen: Kitchen, cook: Cook) -> AddCook:
    name = tr("{name}, another").format(name=cook.name)
    return AddCook(replace(cook, id=CookId(fresh(name, kitchen.cook)), name=name))
