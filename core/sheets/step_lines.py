"""The lines of one load of a step: it begins, it is touched or gone on with, it ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from core.measures.minutes import show_minutes, show_tminus
from core.plan import meaning
from core.plan.ids import CookId, StepId
from core.plan.kitchen import HEATED, StationKind
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.plan.step import Attention, Step
from core.sheets.following import (
    at_once,
    came_with,
    stays_there,
    stood_there,
    taken_from,
    waits,
    waits_there,
)
from core.sheets.lines import Act, Line
from core.sheets.places import NAME, kinds_of, place_of, vessel_words
from core.sheets.step_words import done_as, part_words, parts_of
from core.sheets.words import capital, clock_at, plain, shortened, when
from core.timetable.book import Book
from core.timetable.lengths import Length, length_of, slower_when_full
from core.timetable.timetable import Hand, Placed, Timetable

DISH = 60
"""Most characters of a dish's name on a line; at serving it is printed in full."""

NOBODY = "nobody free"

_STANDING = frozenset({StationKind.ROOM, StationKind.MACHINE})
_ON_TOP = frozenset({StationKind.BURNER, StationKind.GRILL})
_COOKING = HEATED | {StationKind.BURNER}
_WORTH_LOOKING = 5


def cook_names(plan: Plan, cooks: list[CookId | None]) -> str:
    """Return cooks by name, each once; a hand that nobody gives is said so."""
    names = []
    for cook in cooks:
        known = None if cook is None else plan.kitchen.cook.get(cook)
        names.append(NOBODY if cook is None else shortened(known.name, NAME) if known else plain(cook))
    return ", ".join(dict.fromkeys(names))


@dataclass
class StepLines:
    """Writes the lines of the loads of one timetable."""

    plan: Plan
    timetable: Timetable
    book: Book
    fetched: dict[StepId, list[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Find the steps at which vessels are fetched: the first of each run."""
        for run in vessel_runs(self.plan):
            placed = [step for step in run.steps if step in self.timetable.loads_of]
            if placed:
                first = min(placed, key=lambda step: self.timetable.loads_of[step][0].start)
                vessel = self.plan.kitchen.vessel[run.vessel]
                self.fetched.setdefault(first, []).append(vessel_words(vessel, run.count))

    def of(self, placed: Placed) -> Iterator[Line]:
        """Yield the lines of a load."""
        step = self.plan.steps[placed.step]
        parts = parts_of(step, placed)
        if parts:
            yield from self._in_parts(step, placed, parts)
            return
        hands = meaning.hands_of(self.plan, step, placed.length, placed.way)
        throughout = len(hands) == 1 and (hands[0].start, hands[0].minutes) == (0, placed.length)
        if step.attention is Attention.HANDS_ON or throughout:
            yield self._begin(step, placed, Act.DO, list(hands), placed.length, tells_waits=True)
            return
        first = [hand for hand in hands if hand.start == 0]
        last = [hand for hand in hands if hand not in first and _is_taking_out(hand, placed)]
        begin, finish = self._acts(placed)
        ends_quietly = not last and self._ends_quietly(placed, finish)
        held = max((hand.minutes for hand in first), default=0)
        yield self._begin(step, placed, begin, first, held, tells_waits=ends_quietly)
        for hand in hands:
            if hand not in first and hand not in last:
                yield self._touch(step, placed, hand)
        if not ends_quietly:
            yield self._finish(step, placed, finish, last)

    def _acts(self, placed: Placed) -> tuple[Act, Act]:
        kinds = kinds_of(self.plan, placed)
        begin, finish = Act.IN, Act.OUT
        if kinds <= _STANDING:
            begin, finish = Act.START, Act.READY
        elif kinds & _ON_TOP:
            begin, finish = Act.ON, Act.OFF
        if stood_there(self.plan, self.timetable, placed):
            begin = Act.START
        if self._stays(placed):
            finish = Act.READY
        return begin, finish

    def _stays(self, placed: Placed) -> bool:
        return stays_there(self.plan, self.timetable, placed) or waits_there(
            self.plan, self.timetable, placed
        )

    def _ends_quietly(self, placed: Placed, finish: Act) -> bool:
        """Return whether nobody need do anything when a load's time is over: it goes on, or waits where it is.

        Where the probe is to be read, somebody comes for that.
        """
        done = self.plan.steps[placed.step].doneness
        if finish is not Act.READY or (done is not None and done.core is not None):
            return False
        return waits_there(self.plan, self.timetable, placed) or not waits(self.plan, self.timetable, placed)

    def _begin(
        self,
        step: Step,
        placed: Placed,
        act: Act,
        hands: list[meaning.HandsAt],
        minutes: int,
        *,
        tells_waits: bool,
    ) -> Line:
        also = [plain(hand.does) for hand in hands if act is not Act.DO and hand.does != "in"]
        does = done_as(step, placed.way) + self._load(step, placed)
        if any(also):
            does += ": " + ", ".join(dict.fromkeys(filter(None, also)))
        details = [
            *self._fetches(step, placed),
            self._lasts(step, placed),
            _done_when(step) if placed.load == 0 or act is not Act.DO else "",
        ]
        if tells_waits:
            details += [f"then {each}" for each in waits(self.plan, self.timetable, placed)]
        details.append(f"note: {plain(step.note)}" if step.note.strip() else "")
        who = self._who(placed, hands)
        if not who and act in (Act.IN, Act.ON):
            who = self._who_brings(placed)
        return self._line(placed.start, act, step, placed, does, details=details, who=who, minutes=minutes)

    def _fetches(self, step: Step, placed: Placed) -> list[str]:
        """Return from where the food comes, where the load stands, and the vessels that it begins with."""
        source = taken_from(self.plan, self.timetable, placed)
        vessels = self.fetched.get(step.id, []) if placed.load == 0 else []
        return [
            f"from {source}" if source else "",
            place_of(self.plan, placed),
            f"with {', '.join(vessels)}" if vessels else "",
        ]

    def _in_parts(self, step: Step, placed: Placed, parts: tuple[Hand, ...]) -> Iterator[Line]:
        """Yield a line for each piece; the first tells what is fetched, the last what becomes of the food."""
        left = sum(part.minutes for part in parts)
        for number, part in enumerate(parts):
            first, last = number == 0, number == len(parts) - 1
            left -= part.minutes
            does = f"{done_as(step, placed.way)}{self._load(step, placed)}, {part_words(number, len(parts))}"
            details = self._fetches(step, placed) if first else [place_of(self.plan, placed)]
            details.append(
                f"{show_minutes(part.minutes)}, until {when(self.plan, part.start + part.minutes, part.start)}"
            )
            if last:
                details.append(_done_when(step) if placed.load == 0 else "")
                details += [f"then {each}" for each in waits(self.plan, self.timetable, placed)]
            else:
                goes_on = when(self.plan, parts[number + 1].start, part.start)
                details.append(f"go on at {goes_on}, {show_minutes(left)} left")
            details.append(f"note: {plain(step.note)}" if first and step.note.strip() else "")
            who, act = cook_names(self.plan, [part.cook]), Act.DO if first else Act.MORE
            yield self._line(
                part.start, act, step, placed, does, details=details, who=who, minutes=part.minutes
            )

    def _touch(self, step: Step, placed: Placed, hand: meaning.HandsAt) -> Line:
        at = placed.start + hand.start
        does = (capital(plain(hand.does)) or "Look after it") + self._load(step, placed)
        what = shortened(done_as(step, placed.way), DISH)
        details = [what, place_of(self.plan, placed), show_minutes(hand.minutes)]
        who = self._who(placed, [hand])
        return self._line(at, Act.TOUCH, step, placed, does, details=details, who=who, minutes=hand.minutes)

    def _finish(self, step: Step, placed: Placed, act: Act, hands: list[meaning.HandsAt]) -> Line:
        at = min((placed.start + hand.start for hand in hands), default=placed.end)
        details = [
            shortened(done_as(step, placed.way), DISH),
            f"from {place_of(self.plan, placed)}" if act is not Act.READY and placed.spots else "",
            _done_when(step),
            *waits(self.plan, self.timetable, placed),
        ]
        minutes = placed.end - at
        does = self._dish_name(self.plan.dish_of[step.id]) + self._load(step, placed)
        who = self._who(placed, hands) or self._who_goes_on(placed)
        return self._line(at, act, step, placed, does, details=details, who=who, minutes=minutes)

    def _who_brings(self, placed: Placed) -> str:
        """Return who ends the step before in the minute in which this one begins: they put the food in."""
        hands = [
            hand
            for before in came_with(self.plan, self.timetable, placed)
            for hand in before.hands
            if hand.start + hand.minutes == before.end and hand.cook is not None
        ]
        return cook_names(self.plan, [hand.cook for hand in hands[:1]])

    def _who_goes_on(self, placed: Placed) -> str:
        """Return who begins the next step in the minute in which this one ends: they take the food over."""
        hands = [
            hand
            for after in at_once(self.plan, self.timetable, placed)
            for hand in after.hands
            if hand.start == after.start and hand.cook is not None
        ]
        return cook_names(self.plan, [hand.cook for hand in hands[:1]])

    def _line(
        self,
        at: int,
        act: Act,
        step: Step,
        placed: Placed,
        does: str,
        *,
        details: list[str],
        who: str,
        minutes: int,
    ) -> Line:
        dish = self.plan.dish_of[step.id]
        clock, tminus = clock_at(self.plan, at), show_tminus(at)
        code, name = shortened(dish.code, 8), self._dish_name(dish)
        said = tuple(filter(None, details))
        return Line(at, clock, tminus, act, does, code, name, said, who, minutes, step.id, placed.load)

    def _load(self, step: Step, placed: Placed) -> str:
        loads = meaning.load_count(self.plan.dish_of[step.id], step)
        return f" (load {placed.load + 1} of {loads})" if loads > 1 else ""

    def _who(self, placed: Placed, wanted: list[meaning.HandsAt]) -> str:
        cooks: list[CookId | None] = []
        for want in wanted:
            given = [
                hand.cook
                for hand in placed.hands
                if hand.start == placed.start + want.start and hand.minutes == want.minutes
            ]
            cooks += given + [None] * (want.people - len(given))
        return cook_names(self.plan, cooks)

    def _lasts(self, step: Step, placed: Placed) -> str:
        """Say how long and until when; where it cooks, from when on to look whether it is done."""
        text = f"{show_minutes(placed.length)}, until {when(self.plan, placed.end, placed.start)}"
        need = self._full(placed)
        if need is not None:
            text += f", {show_minutes(need.minutes - need.alone)} more as it is full"
        span, _uses = meaning.way_of(self.plan, step, placed.way)
        low, heat = span.low, meaning.heat_of(self.plan, step, placed.way)
        if heat is not None and placed.setting is not None:
            low = meaning.length_at(low, heat, placed.setting)
        if need is not None:
            low = -(-low * need.minutes // need.alone)
        cooks = step.attention is not Attention.HANDS_ON and kinds_of(self.plan, placed) & _COOKING
        if cooks and low <= placed.length - _WORTH_LOOKING:
            text += f", look from {when(self.plan, placed.start + low, placed.start)}"
        return text

    def _full(self, placed: Placed) -> Length | None:
        """Return what a load needs where it takes longer because its place is full; None where it does not."""
        if self.book.loads.get(placed.step) is None or not slower_when_full(self.book, placed):
            return None
        need = length_of(self.book, placed)
        return need if need.minutes == placed.length and 0 < need.alone < need.minutes else None

    def _dish_name(self, dish: Dish) -> str:
        return shortened(dish.name, DISH) or dish.id


def _is_taking_out(hand: meaning.HandsAt, placed: Placed) -> bool:
    return hand.does == "out" and hand.start + hand.minutes == placed.length


def _done_when(step: Step) -> str:
    if step.doneness is None:
        return ""
    said = [plain(step.doneness.cue)]
    if step.doneness.core is not None:
        said.append(f"core {step.doneness.core} °C")
    if step.doneness.rest is not None:
        said.append(f"then {show_minutes(step.doneness.rest)} of rest")
    text = ", ".join(filter(None, said))
    return f"done when: {text}" if text else ""
