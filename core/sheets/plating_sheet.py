"""The plating sheet: of each course the last half hour line by line, then every dish with where it waits and goes."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan import meaning
from core.plan.ids import StepId
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.sheets.following import waits
from core.sheets.lines import Act, Line, Served
from core.sheets.names import who_width
from core.sheets.run_sheet import day_lines
from core.sheets.serving_lines import LAST_MINUTES, courses, together
from core.sheets.table import WHO, Column, Group, Look, Row, TableSheet
from core.sheets.words import capital, clock_at, day_name
from core.timetable.timetable import Timetable

_WAITS = re.compile(r"(then )?waits ")


@dataclass(frozen=True, slots=True)
class LastMinute:
    """A line of the last half hour: minutes to go until its course, clock, what, of which dish, who."""

    to_go: int
    at: int
    clock: str
    act: str
    does: str
    code: str
    dish: str
    details: tuple[str, ...]
    who: str
    begins: bool
    step: StepId | None
    load: int


@dataclass(frozen=True, slots=True)
class Plated:
    """A dish at the pass: when, for how many, where it waits, how it goes on the table, for whom it is not.

    `portions` 0: work such as laying the table.
    """

    clock: str
    code: str
    dish: str
    portions: int
    from_where: tuple[str, ...]
    how: str
    allergens: tuple[str, ...]
    not_for: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlatingCourse:
    """Dishes that go out within a quarter of an hour of each other, the last half hour before the last of them."""

    title: str
    clock: str
    lines: tuple[LastMinute, ...]
    dishes: tuple[Plated, ...]


def plating_sheet(plan: Plan, timetable: Timetable) -> tuple[PlatingCourse, ...]:
    """Return the courses in order of time."""
    lines = day_lines(plan, timetable)
    served = {line.at: line for line in lines if line.act is Act.SERVE}
    return tuple(_course(plan, timetable, lines, [served[at] for at in times]) for times in together(plan))


def _course(plan: Plan, timetable: Timetable, lines: list[Line], served: list[Line]) -> PlatingCourse:
    first, last = served[0].at, served[-1].at
    found = []
    for line in lines:
        if first - LAST_MINUTES <= line.at <= last and line.act is not Act.SERVE:
            to_go = next(each.at for each in served if each.at >= line.at) - line.at
            act = "" if line.act in (Act.DO, Act.TOUCH, Act.LIGHT, Act.WASH) else line.act.value
            found.append(
                LastMinute(
                    to_go, line.at, line.clock, act, line.does, line.code, line.dish, line.details, line.who,
                    line.begins, line.step, line.load,
                )
            )  # fmt: skip
    there = courses(plan)  # dishes may bear one name: they are told apart by their order
    out = [(each, *one) for each in served for one in zip(each.served, there[each.at], strict=True)]
    dishes = [_plated(plan, timetable, each.clock, one, dish) for each, one, dish in out]
    times = join_words([clock_at(plan, each.at) for each in served])
    return PlatingCourse(day_name(plan.wall(last)), times, tuple(found), tuple(dishes))


def _plated(plan: Plan, timetable: Timetable, clock: str, served: Served, dish: Dish) -> Plated:
    from_where = []
    for step in dish.steps:
        if meaning.keep_of(plan, step) is not None:
            for placed in timetable.loads_of.get(step.id, ()):
                said = waits(plan, timetable, placed)
                from_where += [each.split(" until ")[0].removeprefix("waits ") for each in said]
    portions = dish.wanted if dish.ingredients or dish.plating.strip() or dish.allergens else 0
    return Plated(
        clock, served.code, served.dish, portions, tuple(dict.fromkeys(from_where)), served.plating,
        served.allergens, served.not_for,
    )  # fmt: skip


_LINES = (
    Column("", Look.TICK),
    Column("to go", Look.STRONG),
    Column("time", Look.TIME),
    Column("what to do", Look.THING, share=1.5),
    Column("mind", Look.SMALL, share=1.3),
)
_DISHES = (
    Column("", Look.TICK),
    Column("out", Look.TIME),
    Column("dish", Look.THING, share=1.4),
    Column("from", Look.SMALL, share=0.9),
    Column("how it goes out", Look.TEXT, share=1.05),
    Column("allergens, not for", Look.STRONG, share=0.9),
)


def plating_table(courses: tuple[PlatingCourse, ...]) -> TableSheet:
    """Return two groups for each course: the last minutes, and what goes out."""
    groups = []
    names = [line.who for course in courses for line in course.lines]
    columns = (*_LINES, Column(WHO, Look.SMALL, wide=who_width(names)))
    for course in courses:
        if course.lines:
            rows = tuple(_last(line) for line in course.lines)
            title = f"{course.title}, the last {show_minutes(LAST_MINUTES)} before {course.clock}"
            groups.append(Group(title, rows, columns=columns, alone=True, goes_on=False))
        if course.dishes:
            rows = tuple(_dish(each) for each in course.dishes)
            title = f"{course.title}, out at {course.clock}"
            about = "close it only when every line is ticked"
            group = Group(title, rows, about, together=True, serving=True, goes_on=False, columns=_DISHES)
            groups.append(replace(group, alone=not course.lines))
    return TableSheet(_LINES, tuple(groups), empty="No dish is served, so nothing is plated.")


def _last(line: LastMinute) -> Row:
    ends = line.act in ("OUT", "OFF", "READY") and line.dish  # what is to be done names the dish itself
    what = " ".join(filter(None, (line.act, line.code if ends else "", line.does)))
    dish = "" if ends else f"{line.code} {line.dish}".strip()
    said = "\n".join(filter(None, (what, dish)))
    to_go = show_minutes(line.to_go) if line.to_go else "now"
    mind = " · ".join(each for each in line.details if not _WAITS.match(each))
    return Row(("", to_go, line.clock, said, mind, line.who))


def _dish(each: Plated) -> Row:
    not_for = f"\nNOT FOR {', '.join(each.not_for)}" if each.not_for else ""
    dish = f"{each.code} {each.dish}".strip()
    allergens = f"{', '.join(each.allergens)}{not_for}" if each.allergens else f"none noted{not_for}"
    where = capital("; ".join(each.from_where))
    many = f"\n{plural(each.portions, 'portion')}" if each.portions else ""
    return Row(("", each.clock, f"{dish}{many}", where, each.how, allergens if each.portions else not_for.strip()))
