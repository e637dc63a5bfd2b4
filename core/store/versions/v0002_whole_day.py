"""Version 2: fires, washing up, walks, full ovens, by-products, sleep. History: never changed once released.

What plans of version 1 did not say is what was taken for granted. `full` of a heater lies in its JSON text,
where a lacking field has its default.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Add the new columns, each with what held without it."""
    for table, name, usual in (
        ("plan", "kitchen_walk", "1"),
        ("plan", "wish_sleep_until", "480"),
        ("station", "laying", "5"),
        ("station", "fires", "1"),
    ):
        op.add_column(table, sa.Column(name, sa.Integer(), nullable=False, server_default=sa.text(usual)))
    op.add_column("station", sa.Column("not_with", sa.Text(), nullable=False, server_default=sa.text("'[]'")))
    op.add_column("vessel", sa.Column("by_hand", sa.Boolean(), nullable=False, server_default=sa.text("1")))
    op.add_column("step", sa.Column("yields", sa.Text(), nullable=True))
