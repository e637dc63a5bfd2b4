"""Version 3: days kept by name, beside the plan and the timetable last seen. History: never changed once released."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the table; no plan of an older version has a day kept."""
    op.create_table(
        "kept",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("timetable", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("current", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_kept"),
    )
