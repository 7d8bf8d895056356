"""The tables of the workshop store brought from whatever they are to what this program knows."""

from pathlib import Path
from typing import cast

from sqlalchemy import Connection, Engine, MetaData, inspect, text

from thruline.base.errors import CannotUse

NEWEST = "3"
"""The last step of the migrations; held here too, so that they are only loaded when needed."""
_STEPS = Path(__file__).parent / "migrations"
_LOCK = 0x7412
"""Any number: whoever upgrades a PostgreSQL store waits for whoever else does."""


def upgrade(engine: Engine, tables: MetaData) -> None:
    """Make the tables, or change those of an older store so that nothing in them is lost.

    Raises CannotUse when the store was made by a newer program.
    """
    with engine.connect() as connection:
        step = step_of(connection)
        connection.rollback()
        if step == NEWEST:
            return
        if step is not None and not (step.isdecimal() and int(step) < int(NEWEST)):
            raise CannotUse(
                f"the workshop store was made by a newer thruline (its tables are at step {step}, "
                f"this one knows {NEWEST}); use the newer thruline, or name another store"
            )
        _lock(connection)
        _run(connection, tables)
        connection.commit()


def step_of(connection: Connection) -> str | None:
    """How far the tables have come; None for new stores and those from before there were steps."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return cast("str | None", connection.scalar(text("SELECT version_num FROM alembic_version")))


def _lock(connection: Connection) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"SELECT pg_advisory_xact_lock({_LOCK})"))
    else:
        connection.exec_driver_sql("BEGIN IMMEDIATE")


def _run(connection: Connection, tables: MetaData) -> None:
    from alembic import command  # noqa: PLC0415 - only for a store that is new or older
    from alembic.config import Config  # noqa: PLC0415 - as above

    settings = Config()
    settings.set_main_option("script_location", str(_STEPS))
    settings.attributes.update(connection=connection, tables=tables)
    command.upgrade(settings, "head")
