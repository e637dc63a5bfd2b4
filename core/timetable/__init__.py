"""Placed steps, the validator that judges them, and what every station, vessel and cook does when."""

from core.timetable.as_text import read_timetable, write_timetable
from core.timetable.changes import Moved, changes
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import Checker, clashes
from core.timetable.heat_curve import CurvePoint, Plateau, curve, plateaus
from core.timetable.load import (
    Level,
    area_curve,
    hands_curve,
    load_curve,
    peak,
    shelf_curves,
    vessel_curve,
)
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing

__all__ = [
    "Checker",
    "Clash",
    "ClashKind",
    "CurvePoint",
    "Hand",
    "Heating",
    "Level",
    "Moved",
    "Placed",
    "Plateau",
    "Spot",
    "Stay",
    "Timetable",
    "Washing",
    "area_curve",
    "changes",
    "clashes",
    "curve",
    "hands_curve",
    "load_curve",
    "peak",
    "plateaus",
    "read_timetable",
    "shelf_curves",
    "vessel_curve",
    "write_timetable",
]
