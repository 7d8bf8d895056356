"""Databases for tests: SQLite in a folder, and a PostgreSQL server of the tests' own."""

import fcntl
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

NEEDED = "pg_virtualenv"


def has_postgres() -> bool:
    return shutil.which(NEEDED) is not None


@contextmanager
def postgres_address() -> Iterator[str]:
    """The address of a server that lives as long as the block.

    Two at a time would be in each other's way: the tool calls all of them by one name.
    """
    with _alone(), subprocess.Popen(
        [NEEDED, "sh", "-c", "env; echo ready; exec cat"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        env={**os.environ, "LC_ALL": "C"},
    ) as server:  # fmt: skip
        told = {}
        for row in server.stdout:
            if row == "ready\n":
                break
            key, _, value = row.rstrip("\n").partition("=")
            told[key] = value
        try:
            where = f"{told['PGHOST']}:{told['PGPORT']}/{told['PGDATABASE']}"
            yield f"postgresql+psycopg://{told['PGUSER']}:{told['PGPASSWORD']}@{where}"
        finally:
            server.communicate("")


@contextmanager
def _alone() -> Iterator[None]:
    """Wait until no other process of the tests has such a server."""
    with Path(tempfile.gettempdir(), "thruline-tests-database.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield
