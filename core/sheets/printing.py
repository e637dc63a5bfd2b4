"""Every kind of sheet as PDF: the lines first, then the template that they go into."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from core.food.pull_list import pull_list
from core.plan.plan import Plan
from core.sheets.cautions import cautions
from core.sheets.food_said import food_said
from core.sheets.fridge_plan import fridge_group, fridge_plans
from core.sheets.kinds import TITLES, SheetKind
from core.sheets.labels import SOURCE, Label, labels
from core.sheets.list_text import first_starts
from core.sheets.menu_card import REMARK, menu_card
from core.sheets.order_sheet import order_sheet, order_table
from core.sheets.page import PAGE, Page
from core.sheets.plating_sheet import plating_sheet, plating_table
from core.sheets.prep_list import prep_list, prep_table
from core.sheets.pull_sheet import pull_table
from core.sheets.run_sheet import NO_NAME, run_sheet
from core.sheets.station_sheet import station_sheets
from core.sheets.station_table import station_group
from core.sheets.table import Column, Group, TableSheet
from core.sheets.temperature_log import log_table, temperature_log
from core.sheets.typeset import LONG, as_pdf, framed, typeset
from core.sheets.whose import EVERYBODY, Whose
from core.sheets.words import full_date, plain, shortened
from core.timetable.clash import Clash
from core.timetable.clashes import clashes as clashes_of
from core.timetable.timetable import Timetable

_ON_LABEL = 45
_EMPTY = {
    SheetKind.STATION: "Nothing passes through an oven, a grill or a burner on this timetable.",
    SheetKind.FRIDGE: "Nothing stands in a cold place on this timetable.",
}


def sheet_pdf(
    kind: SheetKind,
    plan: Plan,
    timetable: Timetable | None,
    clashes: tuple[Clash, ...] | None = None,
    *,
    page: Page = PAGE,
    of: Whose = EVERYBODY,
    found: tuple[str, ...] | None = None,
) -> bytes:
    """Return a sheet of a plan as a tagged PDF; the same plan and page give the same bytes.

    `timetable` may be None for the kinds of `TIMELESS`, else nothing is placed yet. `clashes` that remain are found
    here unless given; `found` are cautions about this very plan, by default of food limits. Raise Refusal for amounts
    that cannot be added.
    """
    there = timetable or Timetable()
    if kind is SheetKind.MENU:
        return _menu(plan, page)
    if clashes is None:
        clashes = clashes_of(plan, there) if there.placed else ()
    timed = kind not in {SheetKind.ORDER, SheetKind.PULL, SheetKind.LABELS}
    if found is None:
        found = food_said(plan, there) if timed else ()
    if kind is SheetKind.RUN:
        sheet = run_sheet(plan, there, clashes, of=of, found=found)
        return as_pdf(sheet, paper=page.paper, printed=page.printed, landscape=page.landscape, dense=page.dense)
    said = tuple(plain(clash.sentence) for clash in clashes)
    title = f"{TITLES[kind]} for {of.name}" if of.name else TITLES[kind]
    data = framed(
        plain(plan.name) or NO_NAME,
        full_date(plan.wall(0)),
        title,
        page,
        cautions=(*found, *cautions(plan, brief=kind is not SheetKind.PLATING)) if timed else found,
        clashes=said if kind is not SheetKind.ORDER else (),
    )
    if data["clashes"]:
        data["clashes"] = ["The run sheet names them."]
    if kind is SheetKind.LABELS:
        boxes = [_label(each) for each in labels(plan, there)]
        return typeset("labels.typ", data | {"labels": boxes, "source": SOURCE})
    if kind in _EMPTY:
        return typeset("charts.typ", data | {"places": _charts(kind, plan, there, of), "empty": _EMPTY[kind]})
    return typeset("tables.typ", data | _table(_table_of(kind, plan, timetable, of)))


def _table_of(kind: SheetKind, plan: Plan, timetable: Timetable | None, of: Whose) -> TableSheet:
    there = timetable or Timetable()
    match kind:
        case SheetKind.PREP:
            return prep_table(prep_list(plan, there, of))
        case SheetKind.ORDER:
            return order_table(order_sheet(plan, first_starts(timetable)))
        case SheetKind.PULL:
            return pull_table(plan, pull_list(plan, there))
        case SheetKind.TEMPERATURES:
            return log_table(temperature_log(plan, there))
        case SheetKind.PLATING:
            return plating_table(plating_sheet(plan, there) if there.placed else ())
        case _:
            raise ValueError(f"{kind} is no table")


def _label(label: Label) -> dict[str, Any]:
    return {
        "code": label.code,
        "short": shortened(label.dish, _ON_LABEL),
        "what": shortened(label.what, _ON_LABEL),
        "made": label.made,
        "wanted": label.wanted,
        "use_by": label.use_by,
        "keep": f"{label.kept}, below what is ready to eat" if label.raw else label.kept,
        "has": shortened(", ".join(label.allergens), _ON_LABEL),
        "raw": label.raw,
    }


def _menu(plan: Plan, page: Page) -> bytes:
    card = menu_card(plan)
    data = framed(card.name or NO_NAME, full_date(plan.wall(0)), TITLES[SheetKind.MENU], page)
    return typeset("menu_card.typ", data | {"card": asdict(card), "remark": REMARK})


def _charts(kind: SheetKind, plan: Plan, timetable: Timetable, of: Whose) -> list[dict[str, Any]]:
    if kind is SheetKind.STATION:
        return [
            {"name": sheet.name, "days": [_charted(day, station_group(day)) for day in sheet.days]}
            for sheet in station_sheets(plan, timetable, of)
        ]
    return [
        {"name": place.name, "days": [_charted(day, fridge_group(day), day.fullest) for day in place.days]}
        for place in fridge_plans(plan, timetable)
    ]


def _charted(day: Any, group: Group, note: str = "") -> dict[str, Any]:
    return {"chart": asdict(day.chart), "group": _group(group, ()), "note": note}


def _table(sheet: TableSheet) -> dict[str, Any]:
    return {
        "intro": sheet.intro,
        "notes": list(sheet.notes),
        "empty": sheet.empty,
        "groups": [_group(each, sheet.columns) for each in sheet.groups],
    }


def _group(group: Group, columns: tuple[Column, ...]) -> dict[str, Any]:
    return {
        "title": group.title,
        "about": group.about,
        "alone": group.alone,
        "columns": [_column(each) for each in group.columns or columns],
        "rows": [
            {"cells": list(row.cells), "band": row.band, "long": sum(map(len, row.cells)) > LONG} for row in group.rows
        ],
    }


def _column(column: Column) -> dict[str, Any]:
    return {"head": column.head, "look": column.look.value, "wide": column.wide, "share": column.share}
