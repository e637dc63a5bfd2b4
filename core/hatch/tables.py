"""All tables of a plan with its timetable."""

from __future__ import annotations

from core.hatch.table import Table
from core.hatch.table_lists import order_table, pull_table
from core.hatch.table_steps import ingredients_table, menu_table, steps_table
from core.hatch.table_times import places_table, times_table
from core.plan.plan import Plan
from core.sheets.lines import RunSheet
from core.timetable.timetable import Timetable

NAMES = ("times", "menu", "steps", "places", "ingredients", "order", "pull")
"""The names of the tables, in the order in which they are given."""


def tables_of(plan: Plan, timetable: Timetable, sheet: RunSheet) -> tuple[Table, ...]:
    """Return every table; times in them are wall-clock times of the plan's zone."""
    return (
        times_table(plan, sheet),
        menu_table(plan),
        steps_table(plan),
        places_table(plan, timetable),
        ingredients_table(plan),
        order_table(plan, timetable),
        pull_table(plan, timetable),
    )
