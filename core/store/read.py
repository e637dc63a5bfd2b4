"""Rows out of a plan file."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection, RowMapping, select

from core.plan.plan import Plan
from core.store.plain import Unreadable
from core.store.rows import PLAN, to_plan
from core.store.shapes import SHAPES
from core.store.tables import TABLES


def read_plan(connection: Connection) -> tuple[Plan, int]:
    """Return the plan that a file holds and its revision; raise Unreadable."""
    rows: dict[str, Sequence[RowMapping]] = {PLAN: connection.execute(select(TABLES[PLAN])).mappings().all()}
    for name, shape in SHAPES.items():
        table = TABLES[name]
        order = [table.c[shape.owner]] if shape.owner else []
        rows[name] = connection.execute(select(table).order_by(*order, table.c.position)).mappings().all()
    plan = to_plan(rows)
    return plan, revision_of(rows[PLAN][0]["revision"])


def revision_of(cell: object) -> int:
    """Return the revision that a plan row holds."""
    if type(cell) is not int:
        raise Unreadable("the plan's revision is not a number")
    return cell
