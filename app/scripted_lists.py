"""The lists without a window: what to buy and when, and what to pull out of the cupboards."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from app.scripted import CLASHES, MEETS, _plan_and_timetable, _timetable, read_plan

if TYPE_CHECKING:
    from core.plan.plan import Plan

_WIDTH = 110
KINDS = ("order", "pull")


def lists(options: argparse.Namespace) -> int:
    """Print the list that is asked for."""
    return _order(options) if options.kind == "order" else _pull(options)


def _order(options: argparse.Namespace) -> int:
    """Print what to buy; its times are those of the timetable given or last seen, else counted back from serving."""
    from core.food.shopping import shopping
    from core.food.speak_lists import shopping_lines

    plan, timetable = read_plan(options.plan)
    if options.timetable is not None:
        timetable = _timetable(plan, options.timetable)
    starts = None
    if timetable is not None:
        starts = {step: min(each.start for each in loads) for step, loads in timetable.loads_of.items()}
    _head("Order list", plan)
    if starts is None:
        print("Times are counted back from serving; those of the arranged day come with --timetable.\n")
    lines = shopping_lines(shopping(plan, starts), lambda at: _clock(plan, at), lambda days: _day(plan, days))
    for line in lines or ("No dish has ingredients yet, so there is nothing to buy.",):
        _print(line)
    return MEETS


def _pull(options: argparse.Namespace) -> int:
    """Print what has to stand ready, by the timetable given or last seen, else by one arranged now."""
    from core.food.pull_list import pull_list
    from core.food.speak_lists import pull_lines
    from core.measures.words import plural

    plan, timetable, clashes, fit = _plan_and_timetable(options)
    _head("Pull list", plan)
    for line in pull_lines(pull_list(plan, timetable), lambda at: _clock(plan, at)):
        _print(line)
    if not clashes:
        return MEETS
    how = f" ({fit})" if fit else ""
    print(f"\n{plural(len(clashes), 'clash')} in this timetable{how}; cookday check tells them.")
    return CLASHES


def _print(line: str) -> None:
    """Print a line in the width of a page; what runs over stands below its words, not below its tick."""
    from textwrap import wrap

    inside = " " * (len(line) - len(line.lstrip()))
    hang = inside + " " * 8 if line.lstrip().startswith("[ ]") else inside
    for part in wrap(line, _WIDTH, subsequent_indent=hang, break_long_words=False) or [""]:
        print(part)


def _head(what: str, plan: Plan) -> None:
    from core.sheets.words import full_date, plain

    print(f"{what}: {plain(plan.name)}, {full_date(plan.wall(0))}\n")


def _clock(plan: Plan, at: int) -> str:
    """Return "Sat 18:20": the weekday always, for a list is read on any day; a week away the date as well."""
    from core.sheets.words import clock_at, day_name

    day = day_name(plan.wall(at))
    far = abs(at) > 6 * 24 * 60
    return f"{_short(day) if far else day[:3]} {clock_at(plan, at)}"


def _day(plan: Plan, days: int) -> str:
    """Return "Thursday 24 September"."""
    from datetime import timedelta

    from core.sheets.words import day_name

    return day_name(plan.plating.local.date() - timedelta(days=days))


def _short(day: str) -> str:
    weekday, number, month = day.split(" ")
    return f"{weekday[:3]} {number} {month[:3]}"
