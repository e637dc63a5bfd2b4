"""Where something that moves in a re-flow may stand: where it was, and at the emptiest other stations.

In a kitchen with many stations of a kind each of them would bring along all that stands there.
"""

from __future__ import annotations

from core.arrange.claims import Key
from core.arrange.problem import BarredUse, Slot, Stretch
from core.arrange.reflow_seen import Seen, Thing
from core.plan.step import Use

_STATIONS = 3  # of a kind, beside those that one use takes several of


def few_slots(seen: Seen, key: Key, use: Use, slots: tuple[Slot, ...], span: Stretch) -> tuple[Slot, ...] | None:
    """Return the slots of few stations for a claim that will stand there about `span`; None: all are few enough."""
    task = None if key[0] is None else seen.problem.tasks[key[0]]
    stations = list(dict.fromkeys(station for station, _shelf in slots))
    few = _STATIONS + use.units - 1
    if len(stations) <= few or (task is not None and (task.fact or task.loads > 1)):
        return None
    asked = use.plain if isinstance(use, BarredUse) else use
    was = {spot.station for thing in _own(seen, key) if thing.use == asked for spot in thing.spots}
    fixed = None if task is None else seen.problem.fixed.get(task.index)
    if fixed is not None and fixed.station is not None:
        was.add(fixed.station)
    taken = {
        station: sum(
            max(0, min(each.end, span[1]) - max(each.start, span[0])) for each in seen.things.get(station, ())
        )
        for station in stations
    }
    stations.sort(key=lambda station: (station not in was, taken[station]))
    kept = set(stations[: max(few, len(was) + 1)])
    return tuple(slot for slot in slots if slot[0] in kept)


def _own(seen: Seen, key: Key) -> list[Thing]:
    """Return where something that moves stood."""
    task, wait = key[:2]
    if task is not None:
        return seen.of_task.get(task, [])
    return [] if wait is None else seen.of_wait.get(wait, [])
