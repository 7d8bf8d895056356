"""Searches for faults are kept. A step may have been cut off, so what is there is left alone."""

import sqlalchemy as sa
from alembic import op

revision = "3"
down_revision = "2"


def upgrade() -> None:
    """Make their table."""
    op.create_table(
        "searches",
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("rig", sa.String(1000), nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("verdict", sa.String(20), nullable=False),
        sa.Column("seconds", sa.Integer, nullable=False),
        sa.Column("held", sa.Text, nullable=False),
        if_not_exists=True,
    )
    op.create_index("ix_searches_rig", "searches", ["rig"], if_not_exists=True)
