"""Heatings from cold and fires of a solution."""

from __future__ import annotations

from dataclasses import dataclass

from core.arrange.claims import Key
from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.rules_heat import heat_up
from core.arrange.settle_places import span_of
from core.plan.ids import CookId, StationId
from core.plan.kitchen import HEATED
from core.timetable.timetable import Spot


@dataclass(frozen=True, slots=True)
class Heated:
    """A heating (or a fire, setting 0): station, start, end, °C, the chore that it takes, who has done it already."""

    station: StationId
    start: int
    end: int
    setting: int
    chore: str
    cook: CookId | None = None


def heatings_of(model: Model, found: Found, spots: dict[Key, tuple[Spot, ...]]) -> list[Heated]:
    """Return all heatings, by station and time, then the fires."""
    heated = []
    for station, bakes in sorted(_bakes(model, found, spots).items()):
        heater = model.board.problem.plan.kitchen.station[station].heater
        if heater is None or not heater.from_cold:
            continue
        out: int | None = None
        for start, end, setting in bakes:
            if out is None or start > out + heater.keep_on:
                heated += _on(model, found, station, (start, setting, heat_up(heater, setting)))
            out = end if out is None else max(out, end)
    return heated + _fires(model, found)


def _bakes(
    model: Model, found: Found, spots: dict[Key, tuple[Spot, ...]]
) -> dict[StationId, list[tuple[int, int, int]]]:
    """Return start, end and setting of what was in each heated station, in order of time."""
    bakes: dict[StationId, list[tuple[int, int, int]]] = {}
    for claim in model.standing.claims:
        if claim.use.heat is None or claim.use.kind not in HEATED:
            continue
        if claim.task is not None and found.ways[claim.task] != claim.way:
            continue
        start, end = span_of(model, found, claim)
        setting = (
            found.settings[claim.task]
            if claim.task is not None
            else found.wait_settings.get(claim.waiting, claim.use.heat.setting)
        )
        for spot in spots.get(claim.key, ()):
            if setting is not None and end > start:
                bakes.setdefault(spot.station, []).append((start, end, setting))
    return {station: sorted(each) for station, each in bakes.items()}


def _on(model: Model, found: Found, station: StationId, first: tuple[int, int, int]) -> list[Heated]:
    """Return the heating before a first bake (start, setting, minutes it must have lasted)."""
    start, setting, least = first
    now = model.board.problem.now
    known = [each for each in model.board.problem.lit if each.station == station]
    chosen = [
        (found.values[each.start.index], f"cold {station} {each.bake.owner}")
        for each in model.board.cold
        if each.station == station
        and found.values[each.cold.index]
        and _begins(model, found, each.bake.task, each.bake.wait) == start
        and found.values[each.start.index] <= start - least
    ]
    if chosen:
        since, chore = max(chosen)
        cook = next((each.cook for each in known if each.start == since), None)
        return [Heated(station, since, start, setting, chore, cook)]
    if now is not None and start < now:  # it was heated before the day's first word: as it was
        on = [each for each in known if each.start <= start]
        return [Heated(station, each.start, each.end, each.setting, "", each.cook) for each in on[-1:]]
    return [Heated(station, start - least, start, setting, "")]


def _begins(model: Model, found: Found, task: int | None, wait: int | None) -> int:
    if task is not None:
        return found.starts[task]
    assert wait is not None
    return found.ends[model.board.problem.waits[wait].before]


def _fires(model: Model, found: Found) -> list[Heated]:
    """Return the fires that are lit: those the day lit, and those that are needed."""
    lit: list[tuple[Heated, bool]] = []
    for number, fire in enumerate(model.fires):
        if found.values[fire.lit.index]:
            start = found.values[fire.start.index]
            minutes = model.board.problem.plan.kitchen.station[fire.station].lighting
            before = sum(1 for each in model.fires[:number] if each.station == fire.station)
            chore = f"fire {fire.station} {before if fire.known is None else f'lit {start}'}"
            cook = fire.known.cook if fire.known is not None else None
            lit.append((Heated(fire.station, start, start + minutes, 0, chore, cook), fire.known is not None))
    return _needed(model, found, lit)


def _needed(model: Model, found: Found, lit: list[tuple[Heated, bool]]) -> list[Heated]:
    """Return the fires without those that nothing would miss."""
    kept = list(lit)
    for each in lit:
        others = [fire for fire, _known in kept if fire.station == each[0].station and fire is not each[0]]
        if not each[1] and all(_burning(model, others, span) for span in _uses(model, found, each[0].station)):
            kept.remove(each)
    return [fire for fire, _known in kept]


def _uses(model: Model, found: Found, station: StationId) -> list[tuple[int, int]]:
    """Return when something stands on a station."""
    spans = []
    for claim, slots in zip(model.standing.claims, found.slots, strict=True):
        if any(place == station for place, _shelf in slots):
            start, end = span_of(model, found, claim)
            spans += [(start, end)] if end > start else []
    return spans


def _burning(model: Model, fires: list[Heated], span: tuple[int, int]) -> bool:
    """Tell whether fires burn, one joining on to the other, all through a span."""
    start, end = span
    for fire in sorted(fires, key=lambda each: each.end):
        burns = model.board.problem.plan.kitchen.station[fire.station].burns
        if fire.end <= start and (burns is None or fire.end + burns > start):
            start = end if burns is None else max(start, fire.end + burns)
    return start >= end
