"""Vessels: how many there are, how large, how long washing takes between two uses."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from app.fields import Picked, Spec, attribute, by_key
from app.fields.typed_text import COUNT, NAME, WORDS
from app.fields.typed_times import MINUTES
from app.places.kitchen.things_leaf import Things
from app.places.kitchen.vessel_goes import VesselGoes
from core.plan.edits import AddVessel, ChangeVessel, RemoveVessel
from core.plan.ids import VesselId, fresh
from core.plan.kitchen import Kitchen, Vessel


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("Vessels", words)


def vessels() -> Things:
    """Return what the list of vessels is made of."""
    size = tr("By this it is known where it goes in: 40x30 cm, round 28 cm; or how much it holds: 8 l")
    washers = [(True, tr("by hand")), (False, tr("by machine"))]
    parts = by_key(
        [
            attribute(Spec("name", tr("Name"), NAME, width=160, grows=4)),
            attribute(Spec("count", tr("How many"), COUNT, width=70, grows=1)),
            attribute(Spec("size", tr("Size"), WORDS, size, tr("any size"), 110, 2)),
            attribute(Spec("washing", tr("Washing up takes"), MINUTES, tr("0 for none"), "", 80, 1)),
            attribute(
                Spec(
                    "by_hand",
                    tr("Washed up by"),
                    Picked(lambda: washers),
                    tr("By hand takes a cook; a machine only its minutes"),
                    width=96,
                    grows=0,
                )
            ),
        ]
    )
    return Things(
        of=lambda kitchen: kitchen.vessels,
        parts=parts,
        lines=[["name", tr("there are"), "count", tr("of"), "size", tr("washing up takes"), "washing", "by_hand"]],
        large=[
            ["name", tr("there are"), "count", tr("of"), "size"],
            [tr("washing up takes"), "washing", "by_hand"],
        ],
        added=_added,
        changed=lambda vessel: ChangeVessel(vessel.id, vessel),
        copied=_copied,
        removed=lambda vessel: RemoveVessel(vessel.id),
        new=tr("A new vessel"),
        empty=tr("New vessel, such as: roasting tin"),
        teaching=tr(
            "What runs short on the day: tins, pots, pans, bowls. A vessel is held from the first step that names it "
            "to the last, waits included, and then washed up."
        ),
        beside=VesselGoes,
    )


def _added(kitchen: Kitchen, name: str) -> AddVessel:
    return AddVessel(Vessel(VesselId(fresh(name, kitchen.vessel)), name))


def _copied(kitchen: Kitchen, vessel: Vessel) -> AddVessel:
    name = tr("{name}, another").format(name=vessel.name)
    return AddVessel(replace(vessel, id=VesselId(fresh(name, kitchen.vessel)), name=name))
