"""Places as a cook says them on paper."""

from __future__ import annotations

from core.plan.plan import Plan
from core.plan.step import Holding, Wait
from core.timetable.timetable import Placed


def place_of(plan: Plan, placed: Placed) -> str:
    """Return where something stands: 'Oven 160 °C, 2 racks', 'Fridge, lowest shelf', 'Burner 1 + Burner 2'."""
    parts: dict[str, list[str]] = {}
    for spot in placed.spots:
        station = plan.kitchen.station.get(spot.station)
        if station is None:
            continue
        about = parts.setdefault(station.name, [])
        if spot.shelf is not None:
            shelf = station.shelves[spot.shelf].name if spot.shelf < len(station.shelves) else ""
            about.append(
                shelf or ("lowest shelf" if spot.shelf == 0 else f"shelf {spot.shelf + 1} from below")
            )
        elif placed.setting is not None and station.heater is not None:
            about.append(f"{placed.setting} °C")
        if spot.units > 1 and spot.shelf is None:
            about.append(f"{spot.units} places")
    return " + ".join(f"{name}, {', '.join(about)}" if about else name for name, about in parts.items())


def waits_how(plan: Plan, wait: Wait) -> str:
    """Return how food waits, with the kind of place where that is scarce."""
    if wait.use is not None and wait.use.station in plan.kitchen.station and wait.use.station is not None:
        return f"waits in {plan.kitchen.station[wait.use.station].name}"
    if wait.how is Holding.HOT and wait.use is not None:
        return f"held hot ({wait.use.kind.value})"
    return {Holding.HOT: "held hot", Holding.VESSEL: "stays in its vessel"}.get(
        wait.how, f"waits {wait.how.value}"
    )
