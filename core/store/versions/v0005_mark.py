"""Version 5: what a plan is known by outside, whatever it is called. History: unchanged once released.

An older plan gets a mark of its name, its plating and its dishes, not a random one: a file that may only be read is
brought up to date anew at each opening, and must come to the same. Copies of it that were changed come to another.
"""

from __future__ import annotations

from uuid import UUID, uuid5

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

_OLDER = UUID("5b0d6a52-7c1e-5f0b-9d55-0c6f9a1f3e84")
"""The name space of these marks: any fixed number does (RFC 9562, 5.5)."""


def upgrade() -> None:
    """Add the column and give the plan its mark."""
    op.add_column("plan", sa.Column("mark", sa.Text(), nullable=False, server_default=sa.text("''")))
    told = sa.text(
        "SELECT name || char(10) || plating_local || char(10) || plating_zone || char(10) || coalesce("
        "(SELECT group_concat(id || ' ' || name, char(10)) FROM (SELECT id, name FROM dish ORDER BY position)), '') "
        "FROM plan WHERE id = 1"
    )
    connection = op.get_bind()
    said = connection.execute(told).scalar()
    mark = str(uuid5(_OLDER, str(said)))
    connection.execute(sa.text("UPDATE plan SET mark = :mark"), {"mark": mark})
