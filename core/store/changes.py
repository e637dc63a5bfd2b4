"""What of the rows differs between two plans. Pure: no database here."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.plan.plan import Plan
from core.store.rows import PLAN, entries, plan_row, source
from core.store.shapes import SHAPES, Key, Row, row_of


@dataclass(slots=True)
class TableChanges:
    """What to write in one table: keys that go, columns that change by key, rows that come."""

    table: str
    removed: list[Key] = field(default_factory=list)
    changed: list[tuple[Key, Row]] = field(default_factory=list)
    added: list[Row] = field(default_factory=list)

    @property
    def count(self) -> int:
        """Return how many rows are touched."""
        return len(self.removed) + len(self.changed) + len(self.added)


def changes(before: Plan | None, after: Plan) -> tuple[TableChanges, ...]:
    """Return, table by table (each after those it refers to), what makes one plan's rows the other's.

    `before` None: nothing is there yet. What two plans share is told by identity first: an edit makes a new
    plan out of the parts of the old one, so most tables, and most rows of the others, need no second look.
    """
    found = [_of_plan(before, after)]
    for table, shape in SHAPES.items():
        if before is not None and source(table, before) is source(table, after):
            continue
        was = {} if before is None else entries(table, before)
        is_now = entries(table, after)
        change = TableChanges(table, removed=[key for key in was if key not in is_now])
        for key, entry in is_now.items():
            if key not in was:
                change.added.append(row_of(shape, entry))
            elif was[key] != entry and (cells := _differing(row_of(shape, was[key]), row_of(shape, entry))):
                change.changed.append((key, cells))
        found.append(change)
    return tuple(each for each in found if each.count)


def _of_plan(before: Plan | None, after: Plan) -> TableChanges:
    change = TableChanges(PLAN)
    if before is None:
        change.added.append(plan_row(after))
    elif cells := _differing(plan_row(before), plan_row(after)):
        change.changed.append(((1,), cells))
    return change


def _differing(was: Row, is_now: Row) -> Row:
    return {name: cell for name, cell in is_now.items() if was[name] != cell}
