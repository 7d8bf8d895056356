from dataclasses import replace

import pytest
from sqlalchemy import text

from tests.outside.databases import has_postgres, postgres_address
from thruline.base.errors import CannotUse, WorldFailed
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.trials import Place
from thruline.outside import store
from thruline.outside.store import StoredRevisions, StoredSearches, open_store
from thruline.workshop.history import (
    Cause,
    History,
    KeptElsewhere,
    Revision,
    gone_back,
    stepped,
)
from thruline.workshop.searches import KeptSearch


@pytest.fixture(scope="module")
def postgres():
    if not has_postgres():
        pytest.skip("no PostgreSQL server is installed")
    with postgres_address() as address:
        yield address


@pytest.fixture(params=["sqlite", "postgres"])
def engine(request, tmp_path):
    if request.param == "sqlite":
        made = open_store(f"sqlite:///{tmp_path / 'workshop.sqlite'}")
    else:
        made = open_store(request.getfixturevalue("postgres"))
    yield made
    with made.begin() as connection:
        for table in (*reversed(store._TABLES.sorted_tables), "alembic_version"):
            connection.execute(text(f"DROP TABLE {table}"))
    made.dispose()


def revision(number, says="Opened", cause=Cause.OPENED):
    return Revision(number=number, cause=cause, says=says)


def test_what_is_kept_is_recalled(engine):
    mine = StoredRevisions(engine, "/rigs/one")
    assert mine.recall() is None
    mine.keep(History(), revision(1), "first — text\r\n")
    history = stepped(History())
    mine.keep(history, revision(2, "Changed", Cause.EDIT), "second")
    mine.keep(gone_back(history))
    again = StoredRevisions(engine, "/rigs/one")
    assert again.recall() == gone_back(history)
    assert again.text(1) == "first — text\r\n"
    assert again.text(2) == "second"
    listed = again.listed()
    assert [(one.number, one.says, one.cause) for one in listed] == [
        (2, "Changed", Cause.EDIT),
        (1, "Opened", Cause.OPENED),
    ]
    assert all(one.at.endswith("+00:00") for one in listed)


def test_rigs_do_not_see_each_other(engine):
    one, other = StoredRevisions(engine, "/rigs/one"), StoredRevisions(engine, "/rigs/other")
    one.keep(History(), revision(1), "mine")
    assert other.recall() is None
    other.keep(History(), revision(1), "theirs")
    assert (one.text(1), other.text(1)) == ("mine", "theirs")


def test_a_revision_gets_a_name_and_loses_it(engine):
    mine = StoredRevisions(engine, "/rigs/one")
    mine.keep(History(), revision(1), "text")
    mine.give_name(1, "as delivered")
    assert mine.listed()[0].name == "as delivered"
    mine.give_name(1, "")
    assert mine.listed()[0].name == ""
    with pytest.raises(CannotUse, match="no revision 7"):
        mine.give_name(7, "x")
    with pytest.raises(CannotUse, match="no revision 7"):
        mine.text(7)


def test_two_workbenches_do_not_write_over_each_other(engine):
    one, other = StoredRevisions(engine, "/rigs/one"), StoredRevisions(engine, "/rigs/one")
    one.keep(History(), revision(1), "text")
    other.recall()
    one.keep(stepped(History()), revision(2), "mine")
    with pytest.raises(KeptElsewhere, match="another workbench"):
        other.keep(stepped(History()), revision(2), "theirs")
    fresh = StoredRevisions(engine, "/rigs/one")
    with pytest.raises(KeptElsewhere):
        fresh.keep(History(), revision(1), "again")
    assert one.text(2) == "mine"


def test_a_text_is_kept_once(engine):
    mine = StoredRevisions(engine, "/rigs/one")
    mine.keep(History(), revision(1), "same")
    mine.keep(stepped(History()), revision(2), "same")
    with engine.begin() as connection:
        assert connection.scalar(text("SELECT count(*) FROM texts")) == 1


@pytest.mark.parametrize("address", ["", "cellar", "nonsense://x"])
def test_an_address_that_makes_no_sense(address):
    with pytest.raises(CannotUse, match="not the address of a store"):
        open_store(address)


def test_a_store_that_cannot_be_reached(tmp_path):
    with pytest.raises(WorldFailed, match="failed: unable to open"):
        open_store(f"sqlite:///{tmp_path / 'nowhere' / 'workshop.sqlite'}")


def a_search(rig="/rigs/one", **more):
    steps = (Step(Did.ANSWERED, "look echo 1", "nothing"),)
    return KeptSearch(
        rig=rig,
        verdict=Verdict.CHECK,
        search=Search(place=Place.STAGE, steps=steps),
        seconds=12,
        told=("1. Echo – nothing happens",),
        culprits={},
        expected={"frozen": 0.25},
        **more,
    )


def test_searches_are_kept_in_their_order(engine):
    mine = StoredSearches(engine)
    assert mine.listed() == ()
    first, second = mine.keep(a_search()), mine.keep(a_search("/rigs/two"))
    assert first != second
    listed = mine.listed()
    assert [one.number for one in listed] == [second, first]
    assert all(one.at.endswith("+00:00") for one in listed)
    assert replace(listed[1], number=0, at="") == a_search()


def test_a_search_that_goes_on_is_kept_once(engine):
    mine = StoredSearches(engine)
    number = mine.keep(a_search())
    done = replace(a_search(), verdict=Verdict.WORKS, culprits={"frozen@echo": 0.95})
    assert mine.keep(done, instead_of=number) == number
    assert mine.keep(done, instead_of=number + 50) != number
    assert [one.verdict for one in mine.listed()] == [Verdict.WORKS, Verdict.WORKS]
