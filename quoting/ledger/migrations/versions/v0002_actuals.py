"""What the floor writes down; the table of minutes before it was never written to."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_FLOATS, _WHOLE = ("setup", "run", "both"), ("good", "scrap", "passes")


def upgrade() -> None:
    """Make the table of actuals in place of the empty one of minutes."""
    op.drop_table("minutes")
    op.create_table(
        "actuals",
        sa.Column("id", sa.Integer(), nullable=False),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("task", "kind", "line", "machine", "day")),
        *(sa.Column(name, sa.Float(), nullable=True) for name in _FLOATS),
        *(sa.Column(name, sa.Integer(), nullable=True) for name in _WHOLE),
        *(sa.Column(name, sa.Float(), nullable=True) for name in ("readout", "girth", "diameter")),
        *(
            sa.Column(name, sa.Text(), nullable=False)
            for name in ("heat", "by", "remark", "cells", "planned", "plan")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_actuals")),
        sa.UniqueConstraint("task", name=op.f("uq_actuals_task")),
    )
