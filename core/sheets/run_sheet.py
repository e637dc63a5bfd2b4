"""The run sheet as data: one line for each thing to do, in the order of the clock."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from core.measures.clock import show_clock
from core.measures.minutes import show_minutes, show_tminus
from core.plan import meaning
from core.plan.ids import StepId
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.plan.step import Attention, Step
from core.sheets.places import place_of, waits_how
from core.timetable.timetable import Heating, Placed, Timetable


class Act(StrEnum):
    """What a line asks of the cook; printed first."""

    DO = "DO"
    IN = "IN"
    OUT = "OUT"
    TOUCH = "AT"
    START = "START"
    END = "READY"
    HEAT = "ON"
    SERVE = "SERVE"


@dataclass(frozen=True, slots=True)
class Line:
    """One line: when (offset and clock), what, which dish, where, how long (minutes), until what, who."""

    at: int
    clock: str
    tminus: str
    act: Act
    does: str
    code: str
    dish: str
    where: str
    minutes: int
    lasts: str
    until: str
    who: str
    step: StepId | None = None
    load: int = 0


@dataclass(frozen=True, slots=True)
class SheetDay:
    """The lines of one calendar day."""

    day: date
    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class RunSheet:
    """All days of a plan, with its name and serving time."""

    name: str
    serving: str
    days: tuple[SheetDay, ...]
    cautions: tuple[str, ...] = ()


def run_sheet(plan: Plan, timetable: Timetable) -> RunSheet:
    """Return the run sheet of a timetable."""
    writer = _Writer(plan, timetable)
    lines = sorted(writer.lines(), key=lambda line: (line.at, _RANK[line.act], line.dish, line.load))
    days: dict[date, list[Line]] = {}
    for line in lines:
        days.setdefault(plan.wall(line.at).date(), []).append(line)
    sheets = tuple(SheetDay(day, _title(plan, day), tuple(found)) for day, found in sorted(days.items()))
    served = plan.wall(0)
    return RunSheet(
        plan.name, f"{served:%A} {served.day} {served:%B %Y}, {show_clock(served)}", sheets, cautions(plan)
    )


_RANK = {Act.OUT: 0, Act.END: 1, Act.HEAT: 2, Act.TOUCH: 3, Act.IN: 4, Act.START: 5, Act.DO: 6, Act.SERVE: 7}


def cautions(plan: Plan) -> tuple[str, ...]:
    """Return the usual cautions of a sheet: it places work, it does not certify food."""
    found = [
        "Times say when to look; a probe and your own judgement say when it is done. "
        "Follow the food-safety rules of your country and, for guests at risk, ask somebody licensed.",
    ]
    allergens = sorted({each for dish in plan.menu.dishes for each in dish.allergens})
    allergens += sorted(
        {each for dish in plan.menu.dishes for item in dish.ingredients for each in item.allergens}
        - set(allergens)
    )
    if allergens:
        found.append("Noted allergens: " + ", ".join(allergens) + ". The list is yours; check every label.")
    return tuple(found)


class _Writer:
    """Writes the lines of one timetable."""

    def __init__(self, plan: Plan, timetable: Timetable) -> None:
        self.plan = plan
        self.timetable = timetable

    def lines(self) -> list[Line]:
        found = [self._heating(each) for each in self.timetable.heatings]
        for placed in self.timetable.placed:
            step = self.plan.steps.get(placed.step)
            if step is not None:
                found += self._step(step, placed)
        found += self._servings()
        return found

    def _step(self, step: Step, placed: Placed) -> list[Line]:
        if step.attention is Attention.HANDS_ON:
            return [self._line(placed.start, Act.DO, step, placed, placed.length, cue=True)]
        moved = bool(placed.spots) and not self._resting(placed)
        begin, finish = (Act.IN, Act.OUT) if moved else (Act.START, Act.END)
        found = [self._line(placed.start, begin, step, placed, placed.length, cue=True)]
        for hand in meaning.hands_of(self.plan, step, placed.length):
            if hand.does in ("in", "out"):
                continue
            at = placed.start + hand.start
            found.append(
                self._line(at, Act.TOUCH, step, placed, hand.minutes, does=hand.does or "look after it")
            )
        found.append(self._line(placed.end, finish, step, placed, 0, does=self._next(step, placed)))
        return found

    def _resting(self, placed: Placed) -> bool:
        kinds = {
            self.plan.kitchen.station[spot.station].kind
            for spot in placed.spots
            if spot.station in self.plan.kitchen.station
        }
        return kinds <= {StationKind.ROOM}

    def _line(
        self,
        at: int,
        act: Act,
        step: Step,
        placed: Placed,
        minutes: int,
        *,
        does: str | None = None,
        cue: bool = False,
    ) -> Line:
        dish = self.plan.dish_of[step.id]
        count = meaning.load_count(dish, step)
        words = step.does if does is None else (f"{step.does}: {does}" if does else step.does)
        if count > 1:
            words += f" (load {placed.load + 1} of {count})"
        until = ""
        if cue and step.doneness is not None:
            until = step.doneness.cue
            if step.doneness.core is not None:
                until = ", ".join(part for part in (until, f"core {step.doneness.core} °C") if part)
        return Line(
            at,
            show_clock(self.plan.wall(at)),
            show_tminus(at),
            act,
            words,
            dish.code,
            dish.name,
            place_of(self.plan, placed),
            minutes,
            show_minutes(minutes) if minutes else "",
            until,
            self._who(placed, at, act),
            step.id,
            placed.load,
        )

    def _who(self, placed: Placed, at: int, act: Act) -> str:
        if act in (Act.OUT, Act.END):
            hands = [hand for hand in placed.hands if hand.start < at <= hand.start + hand.minutes]
        else:
            hands = [hand for hand in placed.hands if hand.start <= at < hand.start + hand.minutes]
        names = [
            self.plan.kitchen.cook[hand.cook].name for hand in hands if hand.cook in self.plan.kitchen.cook
        ]
        return ", ".join(dict.fromkeys(names))

    def _next(self, step: Step, placed: Placed) -> str:
        """Say where the food goes when it is out."""
        following = [
            (self.timetable.loads_of[link.after][0].start, link)
            for link in self.plan.links_from[step.id]
            if link.after in self.timetable.loads_of
        ]
        if not following:
            return ""
        start, link = min(following, key=lambda each: each[0])
        if start <= placed.end:
            return f"then {self.plan.steps[link.after].does}"
        return f"{waits_how(self.plan, link.wait)} until {self._when(start, placed.end)}"

    def _when(self, offset: int, now: int) -> str:
        at, today = self.plan.wall(offset), self.plan.wall(now)
        return show_clock(at) if at.date() == today.date() else f"{at:%a} {show_clock(at)}"

    def _heating(self, heating: Heating) -> Line:
        station = self.plan.kitchen.station[heating.station]
        who = self.plan.kitchen.cook[heating.cook].name if heating.cook in self.plan.kitchen.cook else ""
        ready = show_clock(self.plan.wall(heating.end))
        return Line(
            heating.start,
            show_clock(self.plan.wall(heating.start)),
            show_tminus(heating.start),
            Act.HEAT,
            f"{station.name} on, to {heating.setting} °C",
            "",
            station.name,
            station.name,
            heating.end - heating.start,
            show_minutes(heating.end - heating.start),
            f"hot by {ready}",
            who,
        )

    def _servings(self) -> list[Line]:
        courses: dict[int, list[str]] = {}
        for dish in self.plan.menu.dishes:
            if dish.served:
                courses.setdefault(dish.course, []).append(dish.name)
        return [
            Line(
                course,
                show_clock(self.plan.wall(course)),
                show_tminus(course),
                Act.SERVE,
                ", ".join(names),
                "",
                "",
                "table",
                0,
                "",
                "",
                "",
            )
            for course, names in sorted(courses.items())
        ]


def _title(plan: Plan, day: date) -> str:
    before = (plan.plating.local.date() - day).days
    names = {0: "the day", 1: "the day before", -1: "the day after"}
    about = names.get(before, f"{abs(before)} days {'before' if before > 0 else 'after'}")
    return f"{datetime(day.year, day.month, day.day):%A} {day.day} {day:%B} - {about}"
