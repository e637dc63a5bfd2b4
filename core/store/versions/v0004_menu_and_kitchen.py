"""Version 4: guests, what is in the house, scale, tins, what fits where, foods. History: unchanged once released.

What plans of older versions did not say is what was taken for granted. `offset` of a heater lies in its JSON
text, where a lacking field has its default.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add the new columns, each with what held without it, and the new tables."""
    for table, name in (("station", "wide"), ("station", "deep"), ("ingredient", "pieces")):
        op.add_column(table, sa.Column(name, sa.Integer(), nullable=False, server_default=sa.text("0")))
    op.add_column("plan", sa.Column("covers", sa.Integer(), nullable=True))
    op.add_column("vessel", sa.Column("fits", sa.Text(), nullable=False, server_default=sa.text("'[]'")))
    op.add_column("dish", sa.Column("scale", sa.Text(), nullable=True))
    for name in ("pan", "pan_wanted"):
        op.add_column("dish", sa.Column(name, sa.Text(), nullable=False, server_default=sa.text("''")))
    _foods()
    _stock()
    _guest()


def _foods() -> None:
    for table, name in (("plan", "kitchen_room"), ("station", "keeps_at")):
        op.add_column(table, sa.Column(name, sa.Integer(), nullable=True))
    for table, name in (("step", "food"), ("ingredient", "food"), ("ingredient", "arrives")):
        op.add_column(table, sa.Column(name, sa.Text(), nullable=True))
    op.add_column("ingredient", sa.Column("thick", sa.Integer(), nullable=False, server_default=sa.text("0")))
    op.add_column("plan", sa.Column("rules", sa.Text(), nullable=False, server_default=sa.text("''")))


def _stock() -> None:
    op.create_table(
        "stock",
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("in_store", sa.Text(), nullable=True),
        sa.Column("pack", sa.Text(), nullable=True),
        sa.Column("sold_as", sa.Text(), nullable=False),
        sa.Column("usable", sa.Text(), nullable=False),
        sa.Column("aisle", sa.Text(), nullable=False),
        sa.Column("keeps", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("item", name="pk_stock"),
        sa.UniqueConstraint("position", name="uq_stock_position"),
    )


def _guest() -> None:
    op.create_table(
        "guest",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("allergies", sa.Text(), nullable=False),
        sa.Column("aversions", sa.Text(), nullable=False),
        sa.Column("at_risk", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_guest"),
        sa.UniqueConstraint("position", name="uq_guest_position"),
    )
