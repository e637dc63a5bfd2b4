"""The lists without a window: what to buy and when, and what to pull out of the cupboards."""

from __future__ import annotations

import argparse

from app.scripted import CLASHES, MEETS, plan_and_timetable, read_plan, timetable_given

KINDS = ("order", "pull")


def lists(options: argparse.Namespace) -> int:
    """Print the list that is asked for."""
    return _order(options) if options.kind == "order" else _pull(options)


def _order(options: argparse.Namespace) -> int:
    """Print what to buy; its times are those of the timetable given or last seen, else counted back from serving."""
    from core.food.shopping import shopping
    from core.sheets.list_text import first_starts, order_text

    plan, timetable = read_plan(options.plan)
    if options.timetable is not None:
        timetable = timetable_given(plan, options.timetable)
    starts = first_starts(timetable)
    print(order_text(plan, shopping(plan, starts), starts), end="")
    return MEETS


def _pull(options: argparse.Namespace) -> int:
    """Print what has to stand ready, by the timetable given or last seen, else by one arranged now."""
    from core.food.pull_list import pull_list
    from core.measures.words import plural
    from core.sheets.list_text import pull_text

    plan, timetable, clashes, fit = plan_and_timetable(options)
    print(pull_text(plan, pull_list(plan, timetable)), end="")
    if not clashes:
        return MEETS
    how = f" ({fit})" if fit else ""
    print(f"\n{plural(len(clashes), 'clash')} in this timetable{how}; cookday check tells them.")
    return CLASHES
