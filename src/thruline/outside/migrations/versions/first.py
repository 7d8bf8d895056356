"""The store as it was first made. A step may have been cut off, so what is there is left alone."""

import sqlalchemy as sa
from alembic import op

revision = "1"
down_revision = None


def upgrade() -> None:
    """Make the tables; a store that was made before there were migrations has them already."""
    op.create_table(
        "format",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        if_not_exists=True,
    )
    op.create_table(
        "texts",
        sa.Column("digest", sa.String(64), primary_key=True),
        sa.Column("content", sa.LargeBinary, nullable=False),
        if_not_exists=True,
    )
    op.create_table(
        "rigs",
        sa.Column("rig", sa.String(1000), primary_key=True),
        sa.Column("history", sa.Text, nullable=False),
        sa.Column("last", sa.Integer, nullable=False),
        sa.Column("turn", sa.Integer, nullable=False),
        if_not_exists=True,
    )
    op.create_table(
        "revisions",
        sa.Column("rig", sa.String(1000), sa.ForeignKey("rigs.rig"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("cause", sa.String(20), nullable=False),
        sa.Column("says", sa.Text, nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("digest", sa.String(64), sa.ForeignKey("texts.digest"), nullable=False),
        if_not_exists=True,
    )
