"""Bars in words: tooltips, and names and states for assistive technology."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from app.look.words import clock_text, day_text, word
from app.timeline import assistive
from app.timeline.bars import Bar, BarKind, Lane
from app.timeline.making import part_text
from app.timeline.scene import Scene, concerns
from core.measures.heat import show_heat
from core.measures.minutes import show_minutes
from core.plan.ids import StepId
from core.plan.step import Attention
from core.sheets.step_words import done_as, parts_of
from core.timetable.clash import Clash

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


def name_of(scene: Scene, bar: Bar) -> str:
    """Return what a bar is: dish, what is done in which way and in how many parts; or a fire, a chore, heating up."""
    if bar.step is None or bar.step not in scene.plan.steps:
        return bar.says[0] if bar.says else ""
    step, dish = scene.plan.steps[bar.step], scene.plan.dish_of[bar.step]
    if bar.kind is BarKind.STAY:
        return bar.says[0]
    loads = len(scene.timetable.loads_of.get(bar.step, ()))
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    does = step.does if placed is None else done_as(step, placed.way)
    does = does if loads < 2 else f"{does} {bar.load + 1}/{loads}"
    parts = parts_of(step, placed) if placed is not None else ()
    if parts and bar.kind is BarKind.HAND:
        own = [number for number, part in enumerate(parts) if part.start == bar.start]
        does += "".join(f", {part_text(number, len(parts))}" for number in own[:1])
    elif parts:
        does += ", " + _translated("in {count} parts").format(count=len(parts))
    return does if dish.name.casefold() in does.casefold() else f"{dish.name}: {does}"


def when_of(scene: Scene, bar: Bar) -> str:
    """Return day, start, end and length of a bar."""
    start, end = scene.plan.wall(bar.start), scene.plan.wall(bar.end)
    ends = clock_text(end) if end.date() == start.date() else f"{day_text(end)} {clock_text(end)}"
    return f"{day_text(start)} {clock_text(start)}–{ends} ({show_minutes(bar.end - bar.start)})"


def state_of(scene: Scene, bar: Bar, lane: Lane) -> str:
    """Return when, where, who and what is wrong, in one line."""
    said = (when_of(scene, bar), *_parts(scene, bar), *_details(scene, bar, lane))
    return ", ".join(part for part in said if part)


def tip_of(scene: Scene, bar: Bar, lane: Lane) -> str:
    """Return a tooltip: name, time, details, waits, clashes; one a line."""
    lines = [name_of(scene, bar), when_of(scene, bar), ", ".join(_details(scene, bar, lane))]
    lines += _parts(scene, bar)
    if bar.tail is not None:
        until = clock_text(scene.plan.wall(bar.tail.end))
        lines.append(_translated("waits until {time}").format(time=until))
        if bar.tail.limit is not None:
            limit = clock_text(scene.plan.wall(bar.tail.limit))
            lines.append(_translated("should not wait past {time}").format(time=limit))
    lines += [clash.sentence for clash in clashes_on(scene, bar, lane)]
    return "\n".join(line for line in lines if line)


def tell(timeline: Timeline, lane: int, bar: Bar) -> None:
    """Give the widget the focused bar's name and state, and a reader the bar itself."""
    scene = timeline.scene
    timeline.setAccessibleName(f"{word('timeline')}, {name_of(scene, bar)}")
    timeline.setAccessibleDescription(state_of(scene, bar, scene.lanes[lane]))
    assistive.focused(timeline, bar)


def say_moved(timeline: Timeline, step: StepId, start: int) -> None:
    """Announce where the cook moved a step to."""
    plan = timeline.scene.plan
    clock = clock_text(plan.wall(start))
    loads = timeline.scene.timetable.loads_of.get(step, ())
    does = done_as(plan.steps[step], loads[0].way if loads else 0)
    assistive.announce(timeline, _translated("{step} at {time}").format(step=does, time=clock))


def clashes_on(scene: Scene, bar: Bar, lane: Lane) -> list[Clash]:
    """Return the clashes that show on a bar."""
    return [clash for clash in scene.clashes if concerns(clash, bar, lane)]


def _parts(scene: Scene, bar: Bar) -> list[str]:
    """Return from when to when each part of a bar is done, and by whom."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or bar.kind is not BarKind.STEP:
        return []
    found = []
    for number, part in enumerate(parts := parts_of(scene.plan.steps[placed.step], placed)):
        start, end = (clock_text(scene.plan.wall(at)) for at in (part.start, part.start + part.minutes))
        cook = scene.plan.kitchen.cook.get(part.cook) if part.cook is not None else None
        who = word("nobody") if cook is None else cook.name
        found.append(f"{part_text(number, len(parts))} {start}–{end} {who}")
    return found


def _details(scene: Scene, bar: Bar, lane: Lane) -> list[str]:
    found = []
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    stations = scene.plan.kitchen.station
    if placed is not None and bar.kind is not BarKind.STAY:
        places = dict.fromkeys(stations[s.station].name for s in placed.spots if s.station in stations)
        found += list(places)
    elif lane.station is not None:
        found.append(lane.station.name)
    if bar.setting is not None:
        found.append(show_heat(bar.setting))
    if placed is not None:
        attention = scene.plan.steps[placed.step].attention
        found.append(word(_ATTENTION[attention]))
        cooks = scene.plan.kitchen.cook
        found += list(dict.fromkeys(cooks[hand.cook].name for hand in placed.hands if hand.cook in cooks))
    if bar.kind is BarKind.CHORE and lane.cook is not None:
        found.append(lane.name)
    if bar.pinned:
        found.append(word("pinned"))
    if bar.kind is not BarKind.STAY and clashes_on(scene, bar, lane):
        found.append(_translated("clashes"))
    return found


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)


_ATTENTION = {
    Attention.HANDS_ON: "hands-on",
    Attention.TENDED: "tended",
    Attention.HANDS_OFF: "hands-off",
}
