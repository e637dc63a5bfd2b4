"""The plan to begin with: no dishes, a usual home kitchen to adapt, plating on Saturday evening."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from PySide6.QtCore import QTimeZone

from core.measures.clock import Moment
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Cook, Heater, Kitchen, Shelf, Station, StationKind, Vessel
from core.plan.plan import Plan

_SATURDAY = 5


def empty_plan(name: str, today: date | None = None) -> Plan:
    """Return it, with plating at 19:00 on the Saturday after next week's beginning."""
    today = today or date.today()  # noqa: DTZ011  # the cook's own calendar
    ahead = (_SATURDAY - today.weekday()) % 7 or 7
    serving = datetime.combine(today + timedelta(days=ahead), time(19, 0))
    zone = bytes(QTimeZone.systemTimeZoneId().data()).decode() or "UTC"
    return Plan(name, Moment(serving, zone), kitchen=home_kitchen())


def home_kitchen() -> Kitchen:
    """Return a usual home kitchen: one oven of two racks, four burners, a fridge. Sizes are common practice."""
    burners = tuple(Station(StationId(f"burner-{n}"), f"Burner {n}", StationKind.BURNER) for n in range(1, 5))
    return Kitchen(
        "Home kitchen",
        (
            Station(StationId("oven"), "Oven", StationKind.OVEN, 2, heater=Heater(from_cold=((180, 14), (230, 24)))),
            *burners,
            Station(
                StationId("fridge"),
                "Fridge",
                StationKind.FRIDGE,
                shelves=(Shelf(1750, 20, "lowest shelf"), Shelf(1750, 18), Shelf(1750, 18)),
            ),
        ),
        (
            Vessel(VesselId("roasting-tin"), "Roasting tin", 1, "40x30 cm"),
            Vessel(VesselId("large-pot"), "Large pot", 1, "8 l"),
            Vessel(VesselId("frying-pan"), "Frying pan", 2, "28 cm"),
        ),
        (Cook(CookId("cook"), "Cook", ("able",)),),
    )
