"""Version 1: the first tables of a plan file. History: never changed once plans are written with it."""

from __future__ import annotations

from collections.abc import Iterable

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make all tables, each after those it refers to."""
    _plan()
    _kitchen()
    _dishes()
    _steps()
    _between_steps()
    _decisions()


def _plan() -> None:
    op.create_table(
        "plan",
        *_whole("id", "revision"),
        *_text("name", "plating_local", "plating_zone", "kitchen_name"),
        *_whole("transfer"),
        *_whole("opens", null=True),
        *_text("manner"),
        *_whole("wish_fresh", "wish_calm", "wish_oven", "wish_sleep", "wish_keep"),
        sa.PrimaryKeyConstraint("id", name="pk_plan"),
        sa.CheckConstraint("id = 1", name="ck_plan_one_row"),
    )


def _kitchen() -> None:
    op.create_table(
        "station",
        *_text("id"),
        *_whole("position"),
        *_text("name", "kind"),
        *_whole("units"),
        *_text("heater", null=True),
        *_yes_no("fan"),
        *_text("place", "hours"),
        *_whole("lighting"),
        *_whole("burns", null=True),
        *_listed("station", "id"),
    )
    op.create_table(
        "shelf",
        *_text("station"),
        *_whole("position", "area", "height"),
        *_text("name"),
        sa.PrimaryKeyConstraint("station", "position", name="pk_shelf"),
        _refers("shelf", "station", "station"),
    )
    op.create_table(
        "vessel",
        *_text("id"),
        *_whole("position"),
        *_text("name"),
        *_whole("count"),
        *_text("size"),
        *_whole("washing"),
        *_listed("vessel", "id"),
    )
    op.create_table(
        "cook",
        *_text("id"),
        *_whole("position"),
        *_text("name", "skills", "present", "breaks"),
        *_text("night", null=True),
        *_listed("cook", "id"),
    )


def _dishes() -> None:
    op.create_table(
        "dish",
        *_text("id"),
        *_whole("position"),
        *_text("name", "code"),
        *_whole("written_for", "wanted", "course"),
        *_yes_no("served"),
        *_text("keep", "allergens", "plating", "note"),
        *_listed("dish", "id"),
    )


def _steps() -> None:
    op.create_table(
        "step",
        *_text("id", "dish"),
        *_whole("position"),
        *_text("does"),
        *_whole("length_low", "length_likely", "length_high"),
        *_text("attention"),
        *_whole("hands"),
        *_text("skill", "touches"),
        *_whole("put_in", "take_out", null=True),
        *_text("uses", "vessels"),
        *_text("loads", null=True),
        *_whole("least_piece", null=True),
        *_text("doneness", null=True),
        *_whole("earliest", "latest", null=True),
        *_text("clock", "keeps", null=True),
        *_text("alternatives", "note"),
        sa.PrimaryKeyConstraint("id", name="pk_step"),
        sa.UniqueConstraint("dish", "position", name="uq_step_dish_position"),
        _refers("step", "dish", "dish"),
    )


def _between_steps() -> None:
    op.create_table(
        "ingredient",
        *_text("dish"),
        *_whole("position"),
        *_text("item"),
        *_text("quantity", null=True),
        *_text("preparation"),
        *_text("step", null=True),
        *_text("aisle"),
        *_yes_no("on_hand"),
        *_text("allergens", "per_kg_of"),
        sa.PrimaryKeyConstraint("dish", "position", name="pk_ingredient"),
        _refers("ingredient", "dish", "dish"),
        _refers("ingredient", "step", "step", "SET NULL"),
    )
    op.create_index("ix_ingredient_step", "ingredient", ["step"])
    op.create_table(
        "link",
        *_text("before", "after", "kind"),
        *_whole("position", "least"),
        *_whole("most", null=True),
        *_text("wait"),
        *_text("brings", null=True),
        *_listed("link", "before", "after", "kind"),
        _refers("link", "before", "step"),
        _refers("link", "after", "step"),
    )
    op.create_index("ix_link_after", "link", ["after"])


def _decisions() -> None:
    op.create_table(
        "pin",
        *_text("step"),
        *_whole("load", "position"),
        *_whole("start", null=True),
        *_text("station", "cook", null=True),
        *_listed("pin", "step", "load"),
        _refers("pin", "step", "step"),
        _refers("pin", "station", "station", "SET NULL"),
        _refers("pin", "cook", "cook", "SET NULL"),
    )
    op.create_table(
        "choice",
        *_text("step"),
        *_whole("position", "way"),
        *_listed("choice", "step"),
        _refers("choice", "step", "step"),
    )
    op.create_table(
        "length_choice",
        *_text("step"),
        *_whole("position"),
        *_text("manner"),
        *_listed("length_choice", "step"),
        _refers("length_choice", "step", "step"),
    )
    op.create_table(
        "precedence",
        *_text("first", "then"),
        *_whole("position"),
        *_listed("precedence", "first", "then"),
        _refers("precedence", "first", "step"),
        _refers("precedence", "then", "step"),
    )
    op.create_index("ix_precedence_then", "precedence", ["then"])
    op.create_table(
        "seen",
        *_whole("id"),
        *_text("timetable"),
        sa.PrimaryKeyConstraint("id", name="pk_seen"),
        sa.CheckConstraint("id = 1", name="ck_seen_one_row"),
    )


def _text(*names: str, null: bool = False) -> Iterable[sa.Column[str]]:
    return (sa.Column(name, sa.Text(), nullable=null) for name in names)


def _whole(*names: str, null: bool = False) -> Iterable[sa.Column[int]]:
    return (sa.Column(name, sa.Integer(), nullable=null) for name in names)


def _yes_no(*names: str) -> Iterable[sa.Column[bool]]:
    return (sa.Column(name, sa.Boolean(), nullable=False) for name in names)


def _listed(table: str, *key: str) -> Iterable[sa.Constraint]:
    return (
        sa.PrimaryKeyConstraint(*key, name=f"pk_{table}"),
        sa.UniqueConstraint("position", name=f"uq_{table}_position"),
    )


def _refers(table: str, column: str, other: str, when_gone: str = "CASCADE") -> sa.Constraint:
    return sa.ForeignKeyConstraint([column], [f"{other}.id"], name=f"fk_{table}_{column}", ondelete=when_gone)
