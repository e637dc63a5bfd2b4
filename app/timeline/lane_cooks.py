"""The lanes of the cooks: what their hands do, their chores, and the walks between places of the house."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from app.look.words import word
from app.timeline.bars import Bar, BarKind, Lane, LaneKind, Shade
from app.timeline.chores import cook_bars
from app.timeline.making import Maker
from app.timeline.rows import Claim, in_order, packed
from core.plan.calendar import absences
from core.plan.ids import CookId
from core.timetable.duties import place_of
from core.timetable.fires import hand_minutes

WORDS = 2
"""Rows below a cook's bars for their words, where the cooks are all that is shown."""


class Visit(NamedTuple):
    """A cook's hands at work in a place of the house from start to end."""

    start: int
    end: int
    place: str


def cook_lanes(maker: Maker, low: int, high: int, *, whole: bool = False) -> list[Lane]:
    """Return a lane for each cook, then one for hands that nobody has, if there are any.

    `whole`: they are all that is shown, so the dish is told with the work, and walks are seen.
    """
    plan = maker.plan
    hands: dict[CookId | None, list[Bar]] = {cook.id: [] for cook in plan.kitchen.cooks}
    for placed in maker.placed:
        for at, hand in enumerate(placed.hands):
            who_does = hand.cook if hand.cook in hands else None
            bar = maker.hand_bar(placed, at)
            hands.setdefault(who_does, []).append(_with_dish(maker, bar) if whole else bar)
    for cook, bar in cook_bars(maker, frozenset(each.id for each in plan.kitchen.cooks)):
        hands.setdefault(cook, []).append(bar)
    walks = walk_bars(maker, hands) if whole else {}
    words = WORDS if whole else 0
    lanes = []
    for known, works in hands.items():
        work = [*works, *walks.get(known, ())]
        rows, count = packed([Claim(bar.start, bar.end) for bar in work])
        bars = [replace(bar, row=row) for bar, row in zip(work, rows, strict=True)]
        who = plan.kitchen.cook.get(known) if known is not None else None
        away = absences(plan, who, low, high) if who is not None else ()
        lanes.append(
            Lane(
                f"cook:{known or ''}",
                LaneKind.COOK,
                who.name if who is not None else word("nobody"),
                in_order(bars),
                count + words,
                1 if who is not None else 0,
                icon="hand",
                cook=known,
                shades=tuple(Shade(start, end, word("away")) for start, end in away),
                words=words,
            )
        )
    return lanes


def walk_bars(maker: Maker, hands: dict[CookId | None, list[Bar]]) -> dict[CookId | None, list[Bar]]:
    """Return each cook's walks: between work in one place and the next in another, shortly before the latter.

    Where other work fills those minutes the walk is drawn in the first free ones after the place was left; where
    the time between is too short it takes what there is, and where there is none it is left out.
    """
    takes = maker.book.facts.walk if hands and maker.plan.kitchen.walk else 0
    if not takes:
        return {}
    found: dict[CookId | None, list[Bar]] = {}
    for cook, visits in _visits(maker).items():
        busy = [(bar.start, bar.end) for bar in hands.get(cook, ())]
        there: Visit | None = None
        for visit in sorted(visits):
            if there is not None and there.place != visit.place and there.end < visit.start:
                start, end = _free(busy, there.end, visit.start, takes)
                says = (_translated("walk to the {place}").format(place=visit.place), visit.place)
                found.setdefault(cook, []).append(Bar(BarKind.WALK, start, end, says=says, cook=cook))
            if there is None or visit.end >= there.end:
                there = visit
    return found


def _visits(maker: Maker) -> dict[CookId, list[Visit]]:
    facts, stations = maker.book.facts, maker.plan.kitchen.station
    cooks = maker.plan.kitchen.cook
    found: dict[CookId, list[Visit]] = {}
    for placed in maker.placed:
        place = place_of(facts, placed)
        for hand in placed.hands:
            if place is not None and hand.cook is not None and hand.cook in cooks:
                found.setdefault(hand.cook, []).append(Visit(hand.start, hand.start + hand.minutes, place))
    for heating in maker.timetable.heatings:
        station = stations.get(heating.station)
        if station is not None and heating.cook is not None and heating.cook in cooks:
            end = heating.start + hand_minutes(station, heating)
            found.setdefault(heating.cook, []).append(Visit(heating.start, end, station.place))
    return found


def _free(busy: list[tuple[int, int]], left: int, there: int, takes: int) -> tuple[int, int]:
    """Return when a walk of so many minutes between two visits is drawn."""
    takes = min(takes, there - left)
    inside = [(start, end) for start, end in busy if start < there and end > left]
    starts = [there - takes, left, *(end for _start, end in sorted(inside))]
    for start in starts:
        if start + takes <= there and all(end <= start or start + takes <= begin for begin, end in inside):
            return start, start + takes
    return there - takes, there


def _with_dish(maker: Maker, bar: Bar) -> Bar:
    """Return the bar of a hand that tells its dish too, where there is room and the work does not name it."""
    if bar.step is None or not bar.says:
        return bar
    dish = maker.plan.dish_of[bar.step].name
    if dish.casefold() in bar.says[0].casefold():
        return bar
    return replace(bar, says=(f"{dish}: {bar.says[0]}", *bar.says))


def _translated(text: str) -> str:
    return QCoreApplication.translate("timeline", text)
