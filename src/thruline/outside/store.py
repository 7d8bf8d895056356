"""The workshop store: revisions of rigs in a database, SQLite or PostgreSQL by its address.

A text is kept once, packed, under its checksum, however often it comes back by undoing.
"""

import hashlib
import json
import zlib
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    Column,
    Connection,
    Engine,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    Row,
    String,
    Table,
    Text,
    create_engine,
    event,
    insert,
    select,
    update,
)
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, IntegrityError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import ConnectionPoolEntry

from thruline.base.errors import CannotUse, WorldFailed
from thruline.find.search import Verdict, search_from_data, search_to_data
from thruline.outside.store_upgrade import upgrade
from thruline.workshop.history import Cause, History, KeptElsewhere, Revision
from thruline.workshop.searches import KeptSearch

_PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=5000")
_TABLES = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "ix": "ix_%(table_name)s_%(column_0_name)s",
    }
)
_FORMAT = Table("format", _TABLES, Column("number", Integer, primary_key=True))
_TEXTS = Table(
    "texts",
    _TABLES,
    Column("digest", String(64), primary_key=True),
    Column("content", LargeBinary, nullable=False),
)
_RIGS = Table(
    "rigs",
    _TABLES,
    Column("rig", String(1000), primary_key=True),
    Column("history", Text, nullable=False),
    Column("last", Integer, nullable=False),
    Column("turn", Integer, nullable=False),
)
_REVISIONS = Table(
    "revisions",
    _TABLES,
    Column("rig", String(1000), ForeignKey("rigs.rig"), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("cause", String(20), nullable=False),
    Column("says", Text, nullable=False),
    Column("at", String(40), nullable=False),
    Column("name", String(200), nullable=False, default=""),
    Column("digest", String(64), ForeignKey("texts.digest"), nullable=False),
)
_SEARCHES = Table(
    "searches",
    _TABLES,
    Column("number", Integer, primary_key=True),
    Column("rig", String(1000), nullable=False, index=True),
    Column("at", String(40), nullable=False),
    Column("verdict", String(20), nullable=False),
    Column("seconds", Integer, nullable=False),
    Column("held", Text, nullable=False),
)


def open_store(address: str) -> Engine:
    """The store at an address such as `sqlite:///file` or `postgresql+psycopg://host/name`.

    Raises CannotUse when the address makes no sense or the store is of a newer program,
    WorldFailed when it cannot be reached.
    """
    try:
        where = make_url(address)
        told = {"client_encoding": "utf8"} if where.get_backend_name() == "postgresql" else {}
        engine = create_engine(where, connect_args=told)
    except (ArgumentError, NoSuchModuleError):
        raise CannotUse(
            f'"{address}" is not the address of a store; one reads sqlite:///workshop.sqlite or '
            "postgresql+psycopg://user@host/database"
        ) from None
    except ModuleNotFoundError:
        raise CannotUse(
            "this store needs a library that is not installed; run: pip install thruline[postgres]"
        ) from None
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _settle)
    with _saying(engine), ExitStack() as otherwise:
        otherwise.callback(engine.dispose)
        upgrade(engine, _TABLES)
        otherwise.pop_all()
    return engine


def _settle(connection: Any, _record: ConnectionPoolEntry) -> None:  # noqa: ANN401 - any driver's
    for pragma in _PRAGMAS:
        connection.execute(f"PRAGMA {pragma}")


class StoredRevisions:
    """The revisions of one rig in a store."""

    def __init__(self, engine: Engine, rig: str) -> None:
        self._engine = engine
        self._rig = rig
        self._turn = 0

    def recall(self) -> History | None:
        """Where the rig stood when it was last kept."""
        with _saying(self._engine), self._engine.begin() as connection:
            row = connection.execute(select(_RIGS).where(_RIGS.c.rig == self._rig)).first()
        if row is None:
            return None
        self._turn = row.turn
        held = json.loads(row.history)
        return History(
            now=held["now"], undo=tuple(held["undo"]), redo=tuple(held["redo"]), last=row.last
        )

    def keep(self, history: History, revision: Revision | None = None, text: str = "") -> None:
        """Note where the rig stands, and a new revision, in one transaction."""
        with _saying(self._engine), self._engine.begin() as connection:
            self._note(connection, history)
            if revision is not None:
                self._add(connection, revision, text)
        self._turn += 1

    def _note(self, connection: Connection, history: History) -> None:
        held = json.dumps({"now": history.now, "undo": history.undo, "redo": history.redo})
        values = {"history": held, "last": history.last, "turn": self._turn + 1}
        if self._turn == 0:
            try:
                connection.execute(insert(_RIGS).values(rig=self._rig, **values))
            except IntegrityError:
                raise _kept_elsewhere() from None
            return
        mine = (_RIGS.c.rig == self._rig) & (_RIGS.c.turn == self._turn)
        if connection.execute(update(_RIGS).where(mine).values(**values)).rowcount != 1:
            raise _kept_elsewhere()

    def _add(self, connection: Connection, revision: Revision, text: str) -> None:
        content = text.encode()
        digest = hashlib.sha256(content).hexdigest()
        known = connection.scalar(select(_TEXTS.c.digest).where(_TEXTS.c.digest == digest))
        if known is None:
            connection.execute(insert(_TEXTS).values(digest=digest, content=zlib.compress(content)))
        connection.execute(
            insert(_REVISIONS).values(
                rig=self._rig,
                number=revision.number,
                cause=revision.cause.value,
                says=revision.says,
                at=datetime.now(UTC).isoformat(timespec="seconds"),
                name=revision.name,
                digest=digest,
            )
        )

    def text(self, number: int) -> str:
        """What a revision holds."""
        wanted = (_REVISIONS.c.rig == self._rig) & (_REVISIONS.c.number == number)
        asked = select(_TEXTS.c.content).join(_REVISIONS).where(wanted)
        with _saying(self._engine), self._engine.begin() as connection:
            content = connection.scalar(asked)
        if content is None:
            raise CannotUse(f"there is no revision {number} of this rig")
        return zlib.decompress(content).decode()

    def listed(self) -> tuple[Revision, ...]:
        """All revisions, the last first."""
        asked = select(_REVISIONS).where(_REVISIONS.c.rig == self._rig)
        with _saying(self._engine), self._engine.begin() as connection:
            rows = connection.execute(asked.order_by(_REVISIONS.c.number.desc())).all()
        return tuple(
            Revision(
                number=row.number, cause=Cause(row.cause), says=row.says, at=row.at, name=row.name
            )
            for row in rows
        )

    def give_name(self, number: int, name: str) -> None:
        """Call a revision something."""
        wanted = (_REVISIONS.c.rig == self._rig) & (_REVISIONS.c.number == number)
        with _saying(self._engine), self._engine.begin() as connection:
            found = connection.execute(update(_REVISIONS).where(wanted).values(name=name))
        if found.rowcount != 1:
            raise CannotUse(f"there is no revision {number} of this rig")


class StoredSearches:
    """Searches for faults, on all rigs, in a store."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def keep(self, kept: KeptSearch, *, instead_of: int = 0) -> int:
        """Keep a search, in place of one of this number if it goes on from there; its number."""
        held = {
            "search": search_to_data(kept.search),
            "told": kept.told,
            "culprits": dict(kept.culprits),
            "expected": dict(kept.expected),
        }
        values = {
            "rig": kept.rig,
            "at": datetime.now(UTC).isoformat(timespec="seconds"),
            "verdict": kept.verdict.value,
            "seconds": round(kept.seconds),
            "held": json.dumps(held),
        }
        mine = _SEARCHES.c.number == instead_of
        with _saying(self._engine), self._engine.begin() as connection:
            if connection.execute(update(_SEARCHES).where(mine).values(**values)).rowcount:
                return instead_of
            made = connection.execute(insert(_SEARCHES).values(**values)).inserted_primary_key
        return 0 if made is None else int(made[0])

    def listed(self) -> tuple[KeptSearch, ...]:
        """All searches, the last first."""
        asked = select(_SEARCHES).order_by(_SEARCHES.c.number.desc())
        with _saying(self._engine), self._engine.begin() as connection:
            rows = connection.execute(asked).all()
        return tuple(_search_in(row) for row in rows)


def _search_in(row: Row[Any]) -> KeptSearch:
    held = json.loads(row.held)
    return KeptSearch(
        rig=row.rig,
        verdict=Verdict(row.verdict),
        search=search_from_data(held["search"]),
        seconds=float(row.seconds),
        told=tuple(held["told"]),
        culprits=held["culprits"],
        expected=held["expected"],
        number=row.number,
        at=row.at,
    )


def _kept_elsewhere() -> KeptElsewhere:
    return KeptElsewhere(
        "another workbench has this rig open and changed it; open it again here, or close it there"
    )


@contextmanager
def _saying(engine: Engine) -> Iterator[None]:
    """What a database says, in words."""
    try:
        yield
    except SQLAlchemyError as trouble:
        where = engine.url.render_as_string(hide_password=True)
        said = str(getattr(trouble, "orig", trouble)).strip().partition("\n")[0]
        raise WorldFailed(f"the workshop store at {where} failed: {said}") from trouble
