import hashlib
import zlib

import pytest
from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine, inspect, text

from tests.outside.databases import has_postgres, postgres_address
from thruline.base.errors import CannotUse
from thruline.outside import store, store_upgrade
from thruline.outside.store import StoredRevisions, open_store
from thruline.workshop.history import Cause, History, Revision

AS_FIRST_MADE = (
    """
CREATE TABLE format (number INTEGER NOT NULL PRIMARY KEY);
CREATE TABLE texts (digest VARCHAR(64) NOT NULL PRIMARY KEY, content {blob} NOT NULL);
CREATE TABLE rigs (
  rig VARCHAR(1000) NOT NULL PRIMARY KEY, history TEXT NOT NULL, last INTEGER NOT NULL,
  turn INTEGER NOT NULL
);
CREATE TABLE revisions (
  rig VARCHAR(1000) NOT NULL REFERENCES rigs (rig), number INTEGER NOT NULL,
  cause VARCHAR(20) NOT NULL, says TEXT NOT NULL, at VARCHAR(40) NOT NULL,
  name VARCHAR(200) NOT NULL, digest VARCHAR(64) NOT NULL REFERENCES texts (digest),
  PRIMARY KEY (rig, number)
);
INSERT INTO format VALUES (1);
""".strip()
    .rstrip(";")
    .split(";")
)
TABLES = ("searches", "revisions", "rigs", "texts", "format", "alembic_version")


@pytest.fixture(scope="module")
def postgres():
    if not has_postgres():
        pytest.skip("no PostgreSQL server is installed")
    with postgres_address() as address:
        yield address


@pytest.fixture(params=["sqlite", "postgres"])
def address(request, tmp_path):
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'workshop.sqlite'}"
        return
    where = request.getfixturevalue("postgres")
    yield where
    engine = engine_at(where)
    with engine.begin() as connection:
        for table in TABLES:
            connection.execute(text(f"DROP TABLE IF EXISTS {table}"))
    engine.dispose()


def engine_at(address):
    told = {"client_encoding": "utf8"} if address.startswith("postgresql") else {}
    return create_engine(address, connect_args=told)


def made_before_there_were_steps(address):
    engine = engine_at(address)
    blob = "BYTEA" if engine.dialect.name == "postgresql" else "BLOB"
    content = b"an old text"
    digest = hashlib.sha256(content).hexdigest()
    with engine.begin() as connection:
        for row in AS_FIRST_MADE:
            connection.execute(text(row.replace("{blob}", blob)))
        connection.execute(
            text("INSERT INTO texts VALUES (:digest, :content)"),
            {"digest": digest, "content": zlib.compress(content)},
        )
        held = '{"now": 1, "undo": [], "redo": []}'
        connection.execute(text("INSERT INTO rigs VALUES ('/old', :held, 1, 1)"), {"held": held})
        connection.execute(
            text(
                "INSERT INTO revisions VALUES ('/old', 1, 'opened', 'Opened', 'then', '', :digest)"
            ),
            {"digest": digest},
        )
    engine.dispose()


def step_of(engine):
    with engine.connect() as connection:
        return store_upgrade.step_of(connection)


def settings(connection):
    made = Config()
    made.set_main_option("script_location", str(store_upgrade._STEPS))
    made.attributes.update(connection=connection, tables=store._TABLES)
    return made


def test_a_new_store_has_the_tables_that_the_program_works_with(address):
    engine = open_store(address)
    assert step_of(engine) == store_upgrade.NEWEST
    with engine.connect() as connection:
        command.check(settings(connection))
    engine.dispose()


def test_the_newest_step_is_the_last_of_the_migrations():
    assert ScriptDirectory(str(store_upgrade._STEPS)).get_heads() == [store_upgrade.NEWEST]


def test_a_store_from_before_there_were_steps_is_taken_on_with_all_that_is_in_it(address):
    made_before_there_were_steps(address)
    engine = open_store(address)
    old = StoredRevisions(engine, "/old")
    assert old.recall() == History()
    assert old.text(1) == "an old text"
    old.keep(
        History(now=2, undo=(1,), last=2), Revision(number=2, cause=Cause.EDIT, says="Set"), "b"
    )
    assert [one.says for one in old.listed()] == ["Set", "Opened"]
    with engine.connect() as connection:
        assert connection.scalar(text("SELECT number FROM format")) > 1
        command.check(settings(connection))
    engine.dispose()


def test_a_store_at_an_earlier_step_is_brought_to_the_newest(address):
    engine = engine_at(address)
    with engine.connect() as connection:
        command.upgrade(settings(connection), "1")
        connection.commit()
    assert step_of(engine) == "1"
    engine.dispose()
    opened = open_store(address)
    assert step_of(opened) == store_upgrade.NEWEST
    opened.dispose()


def test_an_upgrade_that_was_cut_off_is_taken_up_again(address):
    engine = engine_at(address)
    with engine.begin() as connection:
        connection.execute(text(AS_FIRST_MADE[0]))
    engine.dispose()
    opened = open_store(address)
    assert set(TABLES) <= set(inspect(opened).get_table_names())
    assert step_of(opened) == store_upgrade.NEWEST
    opened.dispose()


@pytest.mark.parametrize("step", ["4", "17", "a1b2"])
def test_a_store_of_a_newer_program_is_refused_and_not_touched(address, step):
    engine = open_store(address)
    with engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = :step"), {"step": step})
    engine.dispose()
    with pytest.raises(CannotUse, match=f"newer thruline .*step {step}.*name another store"):
        open_store(address)
    engine = engine_at(address)
    assert step_of(engine) == step
    engine.dispose()
