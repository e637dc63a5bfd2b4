"""What ends what on the phone page: which line, once ticked off, ends the timers that earlier lines began.

A load that is taken out, off or is ready has a line that says so. One without such a line is over when what follows it
begins, and heating up or a fire that catches is over when the first food comes to its station.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from uuid import UUID

from core.hatch.marks import Marked
from core.plan.ids import StepId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.sheets.lines import Act
from core.timetable.timetable import Heating, Timetable

FINISHES = {Act.OUT: "out", Act.OFF: "off", Act.READY: "ready"}
"""Acts that end a load, and the word for it: "out at 19:15"."""


def ends_of(plan: Plan, timetable: Timetable, lines: Iterable[Marked]) -> dict[UUID, list[UUID]]:
    """Return for lines by mark the marks of those, before them, whose timers they end."""
    known = list(lines)
    begun = {(each.line.step, each.line.load): each for each in known if each.line.begins}
    found: dict[UUID, list[UUID]] = defaultdict(list)
    told = set()
    for each in known:
        load = (each.line.step, each.line.load)
        if each.line.act in FINISHES and load in begun:
            found[each.mark].append(begun[load].mark)
            told.add(load)
    for each in known:
        if each.line.begins:
            for load in _before(plan, timetable, each):
                if load in begun and load not in told:
                    found[each.mark].append(begun[load].mark)
    for lit in known:
        first = _first_food(timetable, known, lit)
        if first is not None:
            found[first.mark].append(lit.mark)
    return found


def heating_of(timetable: Timetable, each: Marked) -> Heating | None:
    """Return the heating that a line begins, if it begins one that takes time."""
    line = each.line
    if line.step is not None or line.station is None or line.act not in (Act.ON, Act.LIGHT):
        return None
    begins = (one for one in timetable.heatings if (one.station, one.start) == (line.station, line.at))
    return next((one for one in begins if one.end > one.start), None)


def _before(plan: Plan, timetable: Timetable, each: Marked) -> Iterator[tuple[StepId | None, int]]:
    """Yield the loads that are over when the load of a line begins, since it follows them."""
    step = each.line.step
    for link in () if step is None else plan.links_to.get(step, ()):
        if link.kind is LinkKind.END_TO_START:
            for placed in timetable.loads_of.get(link.before, ()):
                if placed.end <= each.line.at:
                    yield placed.step, placed.load


def _first_food(timetable: Timetable, lines: Iterable[Marked], lit: Marked) -> Marked | None:
    heating = heating_of(timetable, lit)
    if heating is None:
        return None
    for each in lines:
        step = each.line.step
        if each.line.begins and step is not None and each.line.at >= heating.end:
            placed = timetable.at.get((step, each.line.load))
            if placed is not None and any(spot.station == heating.station for spot in placed.spots):
                return each
    return None
