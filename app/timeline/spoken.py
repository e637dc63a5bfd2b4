"""Bars in words: tooltips, and names and states for assistive technology."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QPoint
from PySide6.QtWidgets import QToolTip

from app.look.words import clock_text, day_text, word
from app.timeline import assistive
from app.timeline.bar_facts import decides
from app.timeline.bars import Bar, BarKind, Lane
from app.timeline.making import part_text
from app.timeline.scene import Scene, concerns
from app.timeline.tails import tail_of
from core.measures.heat import show_heat
from core.measures.minutes import show_minutes
from core.plan.ids import StepId
from core.plan.meaning import keep_of, reserved
from core.plan.menu import LinkKind
from core.plan.step import Attention
from core.sheets.step_words import done_as, parts_of
from core.timetable.clash import Clash
from core.timetable.timetable import Placed

if TYPE_CHECKING:
    from app.timeline.timeline import Timeline


def name_of(scene: Scene, bar: Bar) -> str:
    """Return what a bar is: dish, what is done in which way and in how many parts; or a fire, a chore, heating up."""
    if bar.step is None or bar.step not in scene.plan.steps:
        vessel = scene.plan.kitchen.vessel.get(bar.vessel) if bar.vessel is not None else None
        held = bar.kind in (BarKind.VESSEL, BarKind.UNWASHED) and vessel is not None and bar.says
        return f"{vessel.name}, {bar.says[0]}" if held and vessel is not None else bar.says[0] if bar.says else ""
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
    """Return when, how long, where, who, what was decided, how long it waits after and what is wrong, in one line."""
    from app.timeline.bar_card import decided

    said = [when_of(scene, bar), *parts_told(scene, bar), *details_of(scene, bar, lane)]
    said += [text for text in decided(scene, bar) if text not in said]
    said += waits_of(scene, bar)
    if bar.key is not None and bar.key in scene.also:
        said.append(_translated("chosen along"))
    if bar.step is not None and bar.step == scene.marked:
        said.append(_translated("marked"))
    wrong = list(dict.fromkeys(clash.sentence for clash in clashes_on(scene, bar, lane)))
    wrong += [mark.said for mark in scene.food.on(bar)]
    return ", ".join(said) + "".join(f"; {sentence}" for sentence in wrong)


def tip_of(scene: Scene, bar: Bar, lane: Lane) -> str:
    """Return the card of a bar as rich text, for a tooltip, in the colours of the moment."""
    from PySide6.QtGui import QFontMetrics, QGuiApplication

    from app.look.colours import palette_under
    from app.timeline.bar_card import card_of, html_of

    width = min(620, 20 * QFontMetrics(QToolTip.font()).height())
    return html_of(card_of(scene, bar, lane), palette_under(QGuiApplication.palette()), width)


def waits_of(scene: Scene, bar: Bar) -> list[str]:
    """Return until when the food of a whole load waits after it, in a place of its own or not, and how long it may."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or not decides(scene, bar):
        return []
    wait = tail_of(scene.plan, scene.timetable, placed, stays=False)
    if wait is None:
        return []
    until = _clock_after(scene, placed.end, wait.end)
    found = [_translated("waits until {time}").format(time=until)]
    limit = wait_limit(scene, placed)
    if limit is not None:
        said = _translated("should not wait past {time}" if limit < wait.end else "may wait until {time}")
        found.append(said.format(time=_clock_after(scene, placed.end, limit)))
    return found


def wait_limit(scene: Scene, placed: Placed) -> int | None:
    """Return the minute past which the food of a load should no longer wait; None: it may."""
    step = scene.plan.steps[placed.step]
    mosts = [link.most for link in scene.plan.links_from[placed.step] if link.kind is LinkKind.END_TO_START]
    keep = keep_of(scene.plan, step)
    mosts.append(None if keep is None else keep.most)
    early = reserved(scene.plan, placed.step, placed.way).early
    return min((placed.end - early + most for most in mosts if most is not None), default=None)


def _clock_after(scene: Scene, before: int, minute: int) -> str:
    """Return a clock time, with its day where that is another one."""
    at = scene.plan.wall(minute)
    return clock_text(at) if at.date() == scene.plan.wall(before).date() else f"{day_text(at)} {clock_text(at)}"


def tell(timeline: Timeline, bar: Bar) -> None:
    """Give the widget the focused bar's name and state, and a reader the bar itself."""
    describe(timeline)
    assistive.focused(timeline, bar)


def describe(timeline: Timeline) -> None:
    """Give the widget the name and state of the focused bar as they are now."""
    scene, here = timeline.scene, timeline.focused
    if here is not None:
        lane, bar = here
        timeline.setAccessibleName(f"{word('timeline')}, {name_of(scene, bar)}")
        timeline.setAccessibleDescription(state_of(scene, bar, scene.lanes[lane]))


def say_moved(timeline: Timeline, step: StepId, start: int) -> None:
    """Announce where the cook moved a step to."""
    plan = timeline.scene.plan
    clock = clock_text(plan.wall(start))
    loads = timeline.scene.timetable.loads_of.get(step, ())
    does = done_as(plan.steps[step], loads[0].way if loads else 0)
    assistive.announce(timeline, _translated("{step} at {time}").format(step=does, time=clock))


def say(timeline: Timeline, text: str) -> None:
    """Say what a key did, to a reader and beside the bar for the eye."""
    assistive.announce(timeline, text)
    here = timeline.focused
    if here is not None:
        box = timeline.scene.box(*here)
        point = QPoint(round(max(box.x, timeline.scene.gutter)), round(box.bottom))
        QToolTip.showText(timeline.viewport().mapToGlobal(point), text, timeline)


def clashes_on(scene: Scene, bar: Bar, lane: Lane) -> list[Clash]:
    """Return the clashes that show on a bar."""
    return [clash for clash in scene.clashes if concerns(clash, bar, lane)]


def parts_told(scene: Scene, bar: Bar) -> list[str]:
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


def details_of(scene: Scene, bar: Bar, lane: Lane) -> list[str]:
    """Return place, setting, how it is done, who does it, and whether it is pinned or clashes."""
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
