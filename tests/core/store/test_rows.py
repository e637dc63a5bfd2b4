from __future__ import annotations

import dataclasses
from dataclasses import replace
from typing import Any

import pytest

from core.measures.refusal import Refusal
from core.plan.decisions import Decisions
from core.plan.kitchen import Kitchen
from core.plan.menu import Menu
from core.plan.plan import Plan
from core.store.plain import Unreadable
from core.store.rows import PLAN, Rows, entries, plan_row, to_plan, to_rows
from core.store.shapes import SHAPES, write_cell
from core.store.tables import TABLES
from tests.core.store.sample import full_plan


def read(rows: Rows) -> dict[str, list[Any]]:
    return {table: list(found.values()) for table, found in rows.items()}


def test_a_plan_comes_back_from_its_rows() -> None:
    assert to_plan(read(to_rows(full_plan()))) == full_plan()


def test_the_sample_has_a_row_in_every_table_and_a_value_in_every_column() -> None:
    rows = to_rows(full_plan())
    assert set(rows) == set(TABLES) - {"seen", "kept"}
    for table, found in rows.items():
        filled = {name for row in found.values() for name, cell in row.items() if cell is not None}
        assert filled == set(next(iter(found.values()))), table


@pytest.mark.parametrize("table", sorted(SHAPES))
def test_the_tables_have_the_columns_that_the_plan_has_fields(table: str) -> None:
    assert set(SHAPES[table].names) == set(TABLES[table].columns.keys())
    assert set(SHAPES[table].key) == {column.name for column in TABLES[table].primary_key}


def test_the_plan_table_has_the_plan_row_and_its_revision() -> None:
    assert {*plan_row(full_plan()), "revision"} == set(TABLES[PLAN].columns.keys())


def test_no_field_of_a_plan_is_forgotten() -> None:
    # What is said once is written by hand in `rows`; a new field there must find its place in it too.
    assert [each.name for each in dataclasses.fields(Plan)] == [
        "name",
        "plating",
        "menu",
        "kitchen",
        "decisions",
        "transfer",
        "opens",
        "mark",
    ]
    assert [each.name for each in dataclasses.fields(Menu)] == [
        "dishes",
        "links",
        "stocks",
        "guests",
        "covers",
    ]
    assert [each.name for each in dataclasses.fields(Kitchen)] == [
        "name",
        "stations",
        "vessels",
        "cooks",
        "walk",
        "room",
    ]
    assert [each.name for each in dataclasses.fields(Decisions)] == [
        "manner",
        "pins",
        "choices",
        "lengths",
        "orders",
        "wishes",
        "rules",
    ]


def test_columns_may_be_empty_where_fields_may_be_none() -> None:
    from core.store.shapes import is_optional

    for table, shape in SHAPES.items():
        for column in shape.columns:
            assert TABLES[table].c[column.name].nullable == is_optional(column.kind), (table, column.name)


def test_twins_are_refused_before_one_of_them_is_lost() -> None:
    plan = full_plan()
    twice = replace(plan, menu=replace(plan.menu, links=(*plan.menu.links, plan.menu.links[0])))
    with pytest.raises(Refusal, match=r'"beans.soak beans.simmer end to start" twice'):
        entries("link", twice)


def test_rows_that_come_to_no_plan_are_unreadable() -> None:
    rows = read(to_rows(full_plan()))
    with pytest.raises(Unreadable, match="0 plans"):
        to_plan({**rows, PLAN: []})
    broken = [{**rows["step"][0], "attention": "asleep"}, *rows["step"][1:]]
    with pytest.raises(Unreadable, match="'asleep' is no Attention"):
        to_plan({**rows, "step": broken})
    empty = [{**rows["step"][0], "uses": None}, *rows["step"][1:]]
    with pytest.raises(Unreadable, match="nothing where something belongs"):
        to_plan({**rows, "step": empty})


def test_a_cell_that_would_not_come_back_is_not_written() -> None:
    with pytest.raises(Unreadable, match="nan reads as nan"):
        write_cell(float, float("nan"))
