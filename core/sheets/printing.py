"""Every kind of sheet as PDF: the lines first, then the template that they go into."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from core.food.pull_list import pull_list
from core.plan.plan import Plan
from core.safety import RuleSet
from core.sheets.cautions import cautions
from core.sheets.food_said import food_said
from core.sheets.fridge_plan import fridge_group, fridge_plans
from core.sheets.kinds import TITLES, SheetKind
from core.sheets.labels import SOURCE, Label, labels
from core.sheets.limits import limits_of
from core.sheets.list_text import first_starts
from core.sheets.menu_card import REMARK, menu_card
from core.sheets.order_sheet import order_sheet, order_table
from core.sheets.page import PAGE, Page
from core.sheets.plating_sheet import plating_sheet, plating_table
from core.sheets.prep_list import prep_list, prep_table
from core.sheets.pull_sheet import pull_table
from core.sheets.run_sheet import NO_NAME, run_sheet
from core.sheets.station_sheet import StationDay, station_sheets
from core.sheets.station_table import station_group
from core.sheets.table import WHO, Column, Group, TableSheet, cells_of, without
from core.sheets.temperature_log import log_table, temperature_log
from core.sheets.typeset import LONG, framed, run_data, typeset
from core.sheets.whose import EVERYBODY, Whose, one_cook
from core.sheets.words import full_date, plain, shortened
from core.timetable.clash import Clash
from core.timetable.clashes import clashes as clashes_of
from core.timetable.timetable import Timetable

_ON_LABEL, _ALLERGENS = 60, 160
_TOGETHER = 40
"""Most rows that may be kept on one page, if they fit there."""
_LONG_CELL = 240
"""Most characters of a cell whose row is kept whole: in a narrow column more may be higher than a page."""
_UNTIMED = frozenset({SheetKind.ORDER, SheetKind.PULL, SheetKind.LABELS, SheetKind.MENU})
"""Kinds that say nothing about food limits."""
_LOOKED_AT = frozenset({SheetKind.FRIDGE, SheetKind.TEMPERATURES})
"""Kinds beside which nobody cooks."""
_EMPTY = {
    SheetKind.STATION: "Nothing passes through an oven, a grill or a burner on this timetable.",
    SheetKind.FRIDGE: "Nothing stands in a cold place on this timetable.",
}


@dataclass(frozen=True, slots=True)
class Laid:
    """A plan on a timetable (None: nothing is placed yet), the clashes that remain, cautions about this very plan.

    `rules`: whose food limits, None for the shipped set that the plan chose.
    """

    plan: Plan
    timetable: Timetable | None
    clashes: tuple[Clash, ...]
    found: tuple[str, ...]
    rules: RuleSet | None = None

    @property
    def there(self) -> Timetable:
        """Return the timetable, an empty one for none."""
        return self.timetable or Timetable()


def sheet_pdf(
    kind: SheetKind,
    plan: Plan,
    timetable: Timetable | None,
    clashes: tuple[Clash, ...] | None = None,
    *,
    page: Page = PAGE,
    of: Whose = EVERYBODY,
    found: tuple[str, ...] | None = None,
    rules: RuleSet | None = None,
) -> bytes:
    """Return a sheet of a plan as a tagged PDF; the same plan and page give the same bytes.

    `timetable` may be None for the kinds of `TIMELESS`, else nothing is placed yet. `clashes` that remain are found
    here unless given; `found` are cautions about this very plan, by default of food limits; `rules` a set of them that
    is not shipped. Raise Refusal for amounts that cannot be added.
    """
    return typeset([sheet_data(kind, laid([kind], plan, timetable, clashes, found, rules), page, of)])


def laid(
    kinds: Iterable[SheetKind],
    plan: Plan,
    timetable: Timetable | None,
    clashes: tuple[Clash, ...] | None,
    found: tuple[str, ...] | None,
    rules: RuleSet | None = None,
) -> Laid:
    """Return what sheets of these kinds are made from; what is not given and none of them says is not looked for."""
    placed = timetable is not None and bool(timetable.placed)
    if clashes is None:
        told = placed and any(kind is not SheetKind.MENU for kind in kinds)
        clashes = clashes_of(plan, timetable) if told and timetable is not None else ()
    if found is None:
        told = any(kind not in _UNTIMED for kind in kinds)
        found = food_said(plan, timetable or Timetable(), rules) if told else ()
    return Laid(plan, timetable, clashes, found, rules)


def sheet_data(kind: SheetKind, of_plan: Laid, page: Page, of: Whose) -> dict[str, Any]:
    """Return the data of a sheet, and which template it goes into."""
    plan, there = of_plan.plan, of_plan.there
    if kind is SheetKind.MENU:
        return _menu(plan, page)
    if kind is SheetKind.RUN:
        return run_data(run_sheet(plan, there, of_plan.clashes, of=of, found=of_plan.found, rules=of_plan.rules), page)
    timed = kind not in _UNTIMED
    said = tuple(plain(clash.sentence) for clash in of_plan.clashes)
    usual = cautions(
        plan,
        brief=kind is not SheetKind.PLATING,
        at_work=kind not in _LOOKED_AT,
        limits=kind is not SheetKind.TEMPERATURES,
        rules=of_plan.rules,
    )
    title = f"{TITLES[kind]} for {of.name}" if of.name else TITLES[kind]
    data = framed(
        plain(plan.name) or NO_NAME,
        full_date(plan.wall(0)),
        title,
        page,
        cautions=(*of_plan.found, *usual) if timed else (),
        clashes=said if kind is not SheetKind.ORDER else (),
    )
    if data["clashes"]:
        data["clashes"] = ["The run sheet names them."]
    if kind is SheetKind.LABELS:
        boxes = [_label(each) for each in labels(plan, there)]
        source = " ".join(filter(None, (SOURCE, limits_of(plan, of_plan.rules).kept)))
        return data | {"template": "labels", "labels": boxes, "source": source}
    if kind in _EMPTY:
        return data | {"template": "charts", "places": _charts(kind, plan, there, of), "empty": _EMPTY[kind]}
    return data | {"template": "tables"} | _table(_table_of(kind, of_plan, of), plan)


def _table_of(kind: SheetKind, of_plan: Laid, of: Whose) -> TableSheet:
    plan, there = of_plan.plan, of_plan.there
    match kind:
        case SheetKind.PREP:
            return prep_table(prep_list(plan, there, of))
        case SheetKind.ORDER:
            return order_table(order_sheet(plan, first_starts(of_plan.timetable)))
        case SheetKind.PULL:
            return pull_table(plan, pull_list(plan, there))
        case SheetKind.TEMPERATURES:
            limits = limits_of(plan, of_plan.rules)
            return log_table(temperature_log(plan, there, limits), limits)
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
        "has": shortened(", ".join(label.allergens), _ALLERGENS),
        "raw": label.raw,
    }


def _menu(plan: Plan, page: Page) -> dict[str, Any]:
    card = menu_card(plan)
    data = framed(card.name or NO_NAME, full_date(plan.wall(0)), TITLES[SheetKind.MENU], page)
    return data | {"template": "menu", "card": asdict(card), "remark": REMARK}


def _charts(kind: SheetKind, plan: Plan, timetable: Timetable, of: Whose) -> list[dict[str, Any]]:
    if kind is SheetKind.STATION:
        sheets = station_sheets(plan, timetable, of)
        alone = one_cook(plan, {line.who for sheet in sheets for day in sheet.days for line in day.lines})
        grouped = _alone if alone else station_group
        return [
            {"name": sheet.name, "days": [_charted(day, grouped(day)) for day in sheet.days]} for sheet in sheets
        ]
    return [
        {"name": place.name, "days": [_charted(day, fridge_group(day), day.fullest) for day in place.days]}
        for place in fridge_plans(plan, timetable)
    ]


def _charted(day: Any, group: Group, note: str = "") -> dict[str, Any]:
    return {"chart": asdict(day.chart), "group": _group(group, ()), "note": note}


def _alone(day: StationDay) -> Group:
    return without(station_group(day), WHO)


def _table(sheet: TableSheet, plan: Plan) -> dict[str, Any]:
    groups = sheet.groups
    if one_cook(plan, {name for group in groups for name in cells_of(group, WHO, sheet.columns)}):
        groups = tuple(without(group, WHO, sheet.columns) for group in groups)
    return {
        "intro": sheet.intro,
        "notes": list(sheet.notes),
        "empty": sheet.empty,
        "groups": [_group(each, sheet.columns) for each in groups],
    }


def _group(group: Group, columns: tuple[Column, ...]) -> dict[str, Any]:
    return {
        "title": group.title,
        "about": group.about,
        "alone": group.alone,
        "serving": group.serving,
        "goes_on": group.goes_on,
        "together": group.together and len(group.rows) <= _TOGETHER,
        "columns": [_column(each) for each in group.columns or columns],
        "rows": [
            {
                "cells": list(row.cells),
                "band": row.band,
                "over": list(row.over),
                "long": sum(map(len, row.cells)) > LONG or max(map(len, row.cells), default=0) > _LONG_CELL,
            }
            for row in group.rows
        ],
    }


def _column(column: Column) -> dict[str, Any]:
    return {"head": column.head, "look": column.look.value, "wide": column.wide, "share": column.share}
