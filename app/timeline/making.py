"""Makes the bars of a timetable: texts, tones, notches, tails, pins. The readings put them into lanes."""

from __future__ import annotations

from functools import cached_property
from typing import TypeVar

from PySide6.QtCore import QCoreApplication

from app.timeline.bars import Bar, BarKind, Notch
from app.timeline.codes import dish_codes
from app.timeline.tails import tail_of
from core.plan.ids import StationId
from core.plan.meaning import hands_of, load_count
from core.plan.plan import Plan
from core.plan.step import Attention, Wait
from core.sheets.step_words import done_as, parts_of
from core.timetable.book import Book
from core.timetable.book_kept import book_of
from core.timetable.timetable import Hand, Placed, Stay, Timetable


class Maker:
    """Makes bars from a plan and its timetable."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        self.plan = plan
        self.timetable = timetable
        self.codes = dish_codes(plan)
        self.tones = {dish.id: at for at, dish in enumerate(plan.menu.dishes)}
        self.placed = [each for each in timetable.placed if each.step in plan.steps]
        self.stays = [each for each in timetable.stays if each.before in plan.steps]

    @cached_property
    def book(self) -> Book:
        """The timetable read against its plan."""
        return book_of(self.plan, self.timetable)

    @cached_property
    def placed_on(self) -> dict[StationId, list[Placed]]:
        """Placed loads by the stations they stand on, in the timetable's order."""
        return _by_station(self.placed)

    @cached_property
    def stays_on(self) -> dict[StationId, list[Stay]]:
        """Stays by the stations they wait on, in the timetable's order."""
        return _by_station(self.stays)

    @cached_property
    def used(self) -> frozenset[StationId]:
        """Stations on which anything stands."""
        return frozenset({*self.placed_on, *self.stays_on})

    def step_bar(self, placed: Placed, station: StationId | None = None, *, stays: bool = True) -> Bar:
        """Return the bar of one load of a step, without its row; `stays` says that waits in places have bars."""
        step = self.plan.steps[placed.step]
        dish = self.plan.dish_of[placed.step]
        parts = parts_of(step, placed)
        return Bar(
            BarKind.STEP,
            placed.start,
            placed.end,
            placed.step,
            placed.load,
            full=step.attention is Attention.HANDS_ON and not parts,
            tone=self.tones[dish.id],
            code=self.codes[dish.id],
            says=self._says(placed),
            notches=() if step.attention is Attention.HANDS_ON else self._notches(placed),
            pieces=tuple(Notch(part.start, part.minutes, step.does) for part in parts),
            tail=tail_of(self.plan, self.timetable, placed, stays=stays),
            pinned=placed.key in self.plan.pins,
            station=station,
            setting=placed.setting,
        )

    def hand_bar(self, placed: Placed, at: int) -> Bar:
        """Return the bar of one entry of the hands a step takes."""
        hand = placed.hands[at]
        dish = self.plan.dish_of[placed.step]
        whole = hand.minutes == placed.length
        return Bar(
            BarKind.HAND,
            hand.start,
            hand.start + hand.minutes,
            placed.step,
            placed.load,
            full=True,
            tone=self.tones[dish.id],
            code=self.codes[dish.id],
            says=self._hand_says(placed, hand, whole=whole),
            pinned=whole and placed.key in self.plan.pins,
            cook=hand.cook,
        )

    def stay_bar(self, stay: Stay, station: StationId) -> Bar:
        """Return the bar of food that waits in a scarce place."""
        dish = self.plan.dish_of[stay.before]
        waits = self._wait_of(stay)
        return Bar(
            BarKind.STAY,
            stay.start,
            stay.end,
            stay.before,
            stay.load,
            tone=self.tones[dish.id],
            code=self.codes[dish.id],
            says=(f"{dish.name}, {waits.how.value}" if waits else dish.name, dish.name),
            station=station,
            setting=stay.setting,
        )

    def _says(self, placed: Placed) -> tuple[str, ...]:
        step = self.plan.steps[placed.step]
        dish = self.plan.dish_of[placed.step]
        count = load_count(dish, step)
        does = done_as(step, placed.way)
        does = does if count == 1 else f"{does} {placed.load + 1}/{count}"
        if dish.name.casefold() in does.casefold():
            return (does,)
        return (f"{dish.name}: {does}", does)

    def _hand_says(self, placed: Placed, hand: Hand, *, whole: bool) -> tuple[str, ...]:
        """Return what is done by one hand: the step, one of its parts, or one of its touches."""
        step = self.plan.steps[placed.step]
        does, parts = done_as(step, placed.way), parts_of(step, placed)
        if hand in parts:
            part = part_text(parts.index(hand), len(parts))
            return (f"{does}, {part}", does)
        touch = "" if whole else self._touch_word(placed, hand.start - placed.start)
        return (f"{does}: {touch}", touch) if touch and touch != step.does else (does,)

    def _notches(self, placed: Placed) -> tuple[Notch, ...]:
        step = self.plan.steps[placed.step]
        wanted = hands_of(self.plan, step, placed.length, placed.way)
        found = (Notch(placed.start + each.start, each.minutes, each.does) for each in wanted)
        return tuple(sorted(found, key=lambda notch: notch.start))

    def _touch_word(self, placed: Placed, offset: int) -> str:
        step = self.plan.steps[placed.step]
        wanted = hands_of(self.plan, step, placed.length, placed.way)
        near = [each for each in wanted if each.start == offset]
        return near[0].does if near else ""

    def _wait_of(self, stay: Stay) -> Wait | None:
        if stay.after is None:
            step = self.plan.steps[stay.before]
            keep = step.keeps or self.plan.dish_of[stay.before].keep
            return keep.wait
        for link in self.plan.links_from[stay.before]:
            if link.after == stay.after and link.kind is stay.kind:
                return link.wait
        return None


def part_text(number: int, count: int) -> str:
    """Return "part 1 of 2" of the first (0) of two, in the cook's language."""
    said = QCoreApplication.translate("timeline", "part {number} of {count}")
    return said.format(number=number + 1, count=count)


_Standing = TypeVar("_Standing", Placed, Stay)


def _by_station(things: list[_Standing]) -> dict[StationId, list[_Standing]]:
    found: dict[StationId, list[_Standing]] = {}
    for thing in things:
        for station in dict.fromkeys(spot.station for spot in thing.spots):
            found.setdefault(station, []).append(thing)
    return found
