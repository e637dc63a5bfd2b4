"""The run sheet as data: one line for each thing to do, in the order of the clock, day by day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from core.measures.words import counted, join_words
from core.plan.plan import Plan
from core.safety import RuleSet
from core.sheets.beside import with_beside
from core.sheets.cautions import cautions
from core.sheets.fire_lines import fire_lines
from core.sheets.food_said import food_said
from core.sheets.heat_lines import heat_lines
from core.sheets.lines import Act, Line, RunSheet, SheetDay
from core.sheets.serving_lines import serving_lines
from core.sheets.step_lines import StepLines
from core.sheets.strip import strip_of
from core.sheets.washing_lines import washing_lines
from core.sheets.whose import EVERYBODY, Whose, copy_for, one_cook
from core.sheets.words import clock_change, day_about, day_name, full_date, plain, when
from core.timetable.book import Book
from core.timetable.clash import Clash
from core.timetable.clashes import clashes as clashes_of
from core.timetable.facts import Facts
from core.timetable.timetable import Placed, Timetable

NO_NAME = "Plan without a name"


def run_sheet(
    plan: Plan,
    timetable: Timetable,
    clashes: tuple[Clash, ...] | None = None,
    *,
    of: Whose = EVERYBODY,
    found: tuple[str, ...] | None = None,
    rules: RuleSet | None = None,
) -> RunSheet:
    """Return the run sheet of a timetable; it names the clashes that remain (found here unless given).

    `of`: whose copy. `found`: cautions about this very plan, by default what it breaks of food limits; they
    stand before the usual ones. `rules`: the set of food rules, by default the shipped one that the plan chose.
    """
    if clashes is None:
        clashes = clashes_of(plan, timetable)
    days: dict[date, list[Line]] = {}
    if timetable.placed:
        for line in copy_for(plan, day_lines(plan, timetable), timetable, of):
            days.setdefault(plan.wall(line.at).date(), []).append(line)
    return RunSheet(
        plain(plan.name) or NO_NAME,
        full_date(plan.wall(0)),
        tuple(_day(plan, timetable, day, tuple(lines), of) for day, lines in sorted(days.items())),
        _courses(plan),
        tuple(plain(clash.sentence) for clash in clashes) if timetable.placed else (),
        (*(food_said(plan, timetable, rules) if found is None else found), *cautions(plan, rules=rules)),
        of.name,
        one_cook(plan, {line.who for lines in days.values() for line in lines}),
    )


def day_lines(plan: Plan, timetable: Timetable) -> list[Line]:
    """Return all lines of all days in the order of the clock, with what cooks beside them."""
    return with_beside(plan, timetable, sorted(_lines(plan, timetable), key=_order))


def _lines(plan: Plan, timetable: Timetable) -> Iterator[Line]:
    book = Book(Facts(plan), timetable)
    writer = StepLines(plan, timetable, book)
    for step in plan.steps:  # in the menu's order, which the sorting by time keeps
        for placed in timetable.loads_of.get(step, ()):
            yield from _probed(plan, placed, list(writer.of(placed)))
    yield from fire_lines(book)
    yield from heat_lines(plan, timetable)
    yield from washing_lines(plan, timetable)
    yield from serving_lines(plan)


def _probed(plan: Plan, placed: Placed, lines: list[Line]) -> list[Line]:
    """Write the core temperature on the last line of a load, where the probe goes in."""
    done = plan.steps[placed.step].doneness
    if done is None or done.core is None:
        return lines
    last = max(range(len(lines)), key=lambda at: (lines[at].act is not Act.TOUCH, lines[at].at))
    return [replace(line, core=done.core) if at == last else line for at, line in enumerate(lines)]


def _order(line: Line) -> tuple[int, int]:
    """Within a minute: what ends, then serving, then what is heated, then what is touched and what begins.

    Lines of one rank stay in the menu's order.
    """
    if line.act is Act.SERVE:
        return line.at, 1
    if line.station is not None and line.act is not Act.OFF:
        return line.at, 2
    return line.at, _RANK[line.act]


_RANK = {
    Act.OUT: 0,
    Act.OFF: 0,
    Act.READY: 0,
    Act.TOUCH: 3,
    Act.IN: 4,
    Act.ON: 4,
    Act.START: 5,
    Act.WASH: 6,
    Act.MORE: 7,
    Act.DO: 7,
}


def _day(plan: Plan, timetable: Timetable, day: date, lines: tuple[Line, ...], of: Whose) -> SheetDay:
    strip = strip_of(plan, timetable, lines, of.cook)
    return SheetDay(day, day_name(day), day_about(plan, day), lines, clock_change(plan, day), strip)


def _courses(plan: Plan) -> str:
    """Return the serving times other than plating: "Other courses at 19:00 and 20:45"."""
    times = sorted({dish.course for dish in plan.menu.dishes if dish.served} - {0})
    if not times:
        return ""
    said = join_words([when(plan, each, 0) for each in times])
    return f"Other {counted(len(times), 'course')} at {said}"
