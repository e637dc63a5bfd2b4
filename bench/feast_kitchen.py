"""The kitchen of a random feast: one of everything that a dozen dishes need, as often as there are dozens."""

from __future__ import annotations

from math import ceil

from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Cook, Heater, Kitchen, Shelf, Station, StationKind, Vessel

RACKS, BURNERS, GRILL_PLACES = 3, 4, 6
SHELVES = (Shelf(2400, 26), Shelf(2400, 18), Shelf(2400, 18), Shelf(2400, 18))
POT, TIN, TRAY = VesselId("pot"), VesselId("tin"), VesselId("tray")
ABLE = "able"


def kitchen_for(dishes: int) -> Kitchen:
    """Return one oven, four burners, grill, fridge, mixer and two cooks for each dozen dishes begun."""
    stations: list[Station] = []
    cooks: list[Cook] = []
    dozens = ceil(dishes / 12)
    for dozen in range(1, dozens + 1):
        stations.append(_station(StationKind.OVEN, dozen, RACKS, heater=Heater()))
        stations += [_station(StationKind.BURNER, (dozen - 1) * BURNERS + each + 1, 1) for each in range(BURNERS)]
        stations.append(_station(StationKind.GRILL, dozen, GRILL_PLACES))
        stations.append(_station(StationKind.FRIDGE, dozen, 1, shelves=SHELVES))
        stations.append(_station(StationKind.MACHINE, dozen, 1))
        cooks.append(Cook(CookId(f"cook-{2 * dozen - 1}"), f"Cook {2 * dozen - 1}", (ABLE,)))
        cooks.append(Cook(CookId(f"cook-{2 * dozen}"), f"Cook {2 * dozen}"))
    vessels = (
        Vessel(POT, "Pot", 5 * dozens),
        Vessel(TIN, "Roasting tin", 4 * dozens),
        Vessel(TRAY, "Tray", 4 * dozens),
    )
    return Kitchen(f"Kitchen for {dishes} dishes", tuple(stations), vessels, tuple(cooks))


def _station(
    kind: StationKind, number: int, units: int, heater: Heater | None = None, shelves: tuple[Shelf, ...] = ()
) -> Station:
    name = f"{kind.value.capitalize()} {number}"
    return Station(StationId(f"{kind.value}-{number}"), name, kind, units, shelves, heater)
