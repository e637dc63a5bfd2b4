"""The prep list: what is made ready before the last half hour, by day, in the order in which it must start.

What follows of one dish within the hour stands under its name, which comes again for what starts later.
On days before plating's everything is prep; on the day itself what hands do off the heat, up to half an hour before
its course, unless that is another course's last half hour. What comes after that is on the plating sheet.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from core.food.measured import show_measured
from core.food.scaling import scaled, written_amount
from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal
from core.plan.ids import StepId
from core.plan.kitchen import HEATED, StationKind
from core.plan.menu import Dish, Ingredient
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.sheets.following import waits
from core.sheets.lines import Act, Line
from core.sheets.names import who_width
from core.sheets.places import kinds_of, place_of, vessel_words
from core.sheets.run_sheet import day_lines
from core.sheets.serving_lines import LAST_MINUTES, last_minutes
from core.sheets.table import WHO, Column, Group, Look, Row, TableSheet
from core.sheets.whose import EVERYBODY, Whose, copy_for
from core.sheets.words import day_about, day_name, plain, shortened
from core.timetable.timetable import Placed, Timetable

_GAP = 60
"""Minutes between two starts of a dish's work from which on it is told apart, after other dishes' work before it."""
_HOT = HEATED | {StationKind.BURNER}
_ITEM = 80
_LONGER = re.compile(r", can wait to [^,]*")


@dataclass(frozen=True, slots=True)
class PrepLine:
    """A load to prepare: when it starts, what is done to how much of what, in what, how long, by whom, kept how."""

    at: int
    clock: str
    tminus: str
    does: str
    needed: tuple[str, ...]
    places: tuple[str, ...]
    minutes: int
    kept: tuple[str, ...]
    who: str
    step: StepId
    load: int


@dataclass(frozen=True, slots=True)
class PrepDish:
    """What of one dish is prepared without a long break; `also` are ingredients that no step of its names."""

    code: str
    dish: str
    lines: tuple[PrepLine, ...]
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PrepDay:
    """What is prepared on a day in the order in which it starts; a dish may come again."""

    day: date
    title: str
    about: str
    dishes: tuple[PrepDish, ...]


def prep_list(plan: Plan, timetable: Timetable, of: Whose = EVERYBODY) -> tuple[PrepDay, ...]:
    """Return the days with something to prepare, for everybody or for one copy."""
    fetched = _fetched(plan, timetable)
    days: dict[date, list[PrepLine]] = {}
    for line in copy_for(plan, day_lines(plan, timetable), timetable, of):
        if line.step is None or not line.begins:
            continue
        placed = timetable.at[line.step, line.load]
        if _is_prep(plan, line, placed):
            found = _line(plan, timetable, line, placed, fetched)
            days.setdefault(plan.wall(line.at).date(), []).append(found)
    told: set[str] = set()
    return tuple(_day(plan, day, lines, told) for day, lines in sorted(days.items()))


def _is_prep(plan: Plan, line: Line, placed: Placed) -> bool:
    if plan.wall(line.at).date() < plan.plating.local.date():
        return True
    course = plan.dish_of[placed.step].course
    by_hand = line.act is Act.DO and not kinds_of(plan, placed) & _HOT
    if not by_hand or placed.start >= course - LAST_MINUTES:
        return False
    # what comes between two courses is no last half hour of either
    return placed.start < -LAST_MINUTES or not any(first <= line.at <= last for first, last in last_minutes(plan))


def _day(plan: Plan, day: date, lines: list[PrepLine], told: set[str]) -> PrepDay:
    found = []
    for own in _blocks(plan, lines):
        dish = plan.dish_of[own[0].step]
        named = {step.id for step in dish.steps}
        loose = [each for each in dish.ingredients if each.step not in named]
        also = () if dish.id in told else tuple(needed(dish, each) for each in loose)
        told.add(dish.id)
        name = shortened(dish.name, _ITEM) or dish.id
        found.append(PrepDish(shortened(dish.code, 8), name, tuple(own), also))
    return PrepDay(day, day_name(day), day_about(plan, day), tuple(found))


def _blocks(plan: Plan, lines: list[PrepLine]) -> list[list[PrepLine]]:
    """Return the lines of a day as pieces of work of one dish, the one that starts first before the others."""
    found: list[list[PrepLine]] = []
    for line in lines:
        dish = plan.dish_of[line.step]
        open_ = (each for each in found if plan.dish_of[each[0].step] is dish and line.at - each[-1].at <= _GAP)
        block = next(open_, None)
        if block is None:
            found.append([line])
        else:
            block.append(line)
    return found


def _line(
    plan: Plan, timetable: Timetable, line: Line, placed: Placed, fetched: dict[StepId, list[str]]
) -> PrepLine:
    dish = plan.dish_of[placed.step]
    wanted = [each for each in dish.ingredients if each.step == placed.step and placed.load == 0]
    vessels = fetched.get(placed.step, []) if placed.load == 0 else []
    return PrepLine(
        line.at,
        line.clock,
        line.tminus,
        line.does,
        tuple(needed(dish, each) for each in wanted),
        tuple(filter(None, (*vessels, place_of(plan, placed)))),
        placed.length,
        waits(plan, timetable, placed),
        line.who,
        placed.step,
        placed.load,
    )


def _fetched(plan: Plan, timetable: Timetable) -> dict[StepId, list[str]]:
    """Return the vessels that each step fetches: a run's at its first step."""
    found: dict[StepId, list[str]] = {}
    for run in vessel_runs(plan):
        placed = [step for step in run.steps if step in timetable.loads_of]
        if placed:
            first = min(placed, key=lambda step: timetable.loads_of[step][0].start)
            found.setdefault(first, []).append(vessel_words(plan.kitchen.vessel[run.vessel], run.count))
    return found


def needed(dish: Dish, line: Ingredient) -> str:
    """Return an ingredient in its finished form for the servings wanted: "1.2 kg potatoes, peeled"."""
    try:
        amount = scaled(line.item, written_amount(dish, line), dish.factor).measured
        much = "" if amount.to_taste else show_measured(amount, line.item)
    except Refusal:  # what cannot be weighed is named without an amount
        much = ""
    item = " ".join(filter(None, (much, shortened(line.item, _ITEM))))
    return ", ".join(filter(None, (item, plain(line.preparation))))


def prep_table(days: tuple[PrepDay, ...]) -> TableSheet:
    """Return the prep list as rows in the order of the day: start, item, needed, on hand, in what, who."""
    names = [line.who for day in days for dish in day.dishes for line in dish.lines]
    columns = (
        Column("", Look.TICK),
        Column("start", Look.TIME, wide=17),
        Column("item, in the order of work", Look.THING, share=1.15),
        Column("needed", Look.TEXT, share=1.4),
        Column("on hand", Look.BLANK, wide=15),
        Column("in, at", Look.SMALL, share=0.7),
        Column(WHO, Look.SMALL, wide=who_width(names)),
    )
    return TableSheet(
        columns,
        tuple(Group(day.title, tuple(_rows(day)), day.about, alone=True) for day in days),
        empty="Nothing has to be prepared: no step is placed before the last half hour.",
    )


def _rows(day: PrepDay) -> list[Row]:
    rows = []
    before = ""
    for dish in day.dishes:
        also = f"also: {', '.join(dish.also)}" if dish.also else ""
        name = f"{dish.code} {dish.dish}".strip()
        if name != before or also:  # what goes on with the same dish stands under its name already
            rows.append(Row(tuple(filter(None, (name, also))), band=True))
        before = name
        for line in dish.lines:
            kept = "; ".join(dict.fromkeys(f"then {_LONGER.sub('', each)}" for each in line.kept))
            told = f"{line.does}\n{', '.join(filter(None, (show_minutes(line.minutes), kept)))}"
            start = f"{line.clock}\n{line.tminus}"
            # Without ingredients what is done has their room, and no box to write what is on hand.
            cells = ("", start, told, "\n".join(line.needed), "", "\n".join(line.places), line.who)
            rows.append(Row(cells, over=(0, 0) if line.needed else (2, 2)))
    return rows
