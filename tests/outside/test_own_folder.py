import hashlib

import pytest

from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside.own_folder import MADE, fill_own_folder, open_own_folder

TEXTS = {"a.txt": "one\n", "b.txt": "zwölf\n"}


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "demo"
    open_own_folder(made)
    fill_own_folder(made, TEXTS)
    return made


def test_what_was_made_here_is_made_again(folder):
    open_own_folder(folder)
    fill_own_folder(folder, TEXTS | {"a.txt": "two\n"})
    assert (folder / "a.txt").read_text() == "two\n"
    open_own_folder(folder)


def test_a_file_that_was_changed_stops_it(folder):
    (folder / "a.txt").write_text("mine")
    with pytest.raises(CannotUse, match=r"a\.txt was changed since it was made here"):
        open_own_folder(folder)


def test_a_file_that_was_taken_away_is_made_again(folder):
    (folder / "a.txt").unlink()
    open_own_folder(folder)
    fill_own_folder(folder, TEXTS)
    assert (folder / "a.txt").read_text() == TEXTS["a.txt"]


def test_what_a_person_added_stays(folder):
    (folder / "notes.txt").write_text("mine")
    open_own_folder(folder)
    fill_own_folder(folder, TEXTS)
    assert (folder / "notes.txt").read_text() == "mine"


def test_a_folder_with_other_things_is_somebodys(tmp_path):
    (tmp_path / "notes.txt").touch()
    with pytest.raises(CannotUse, match="is not empty"):
        open_own_folder(tmp_path)


def test_an_empty_folder_may_be_filled(tmp_path):
    open_own_folder(tmp_path)
    fill_own_folder(tmp_path, TEXTS)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["a.txt", "b.txt", MADE]


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"nonsense\n", b"0  ../a.txt\n"])
def test_a_list_that_is_no_list_harms_nothing(folder, content):
    (folder / MADE).write_bytes(content)
    open_own_folder(folder)


def test_the_list_is_one_that_others_can_read(folder):
    rows = (folder / MADE).read_text().splitlines()
    assert rows[0] == f"{hashlib.sha256(TEXTS['a.txt'].encode()).hexdigest()}  a.txt"


def test_a_folder_that_cannot_be_read(folder, monkeypatch):
    def fail(*_):
        raise WorldFailed("cannot be read")

    monkeypatch.setattr("thruline.outside.own_folder.read_bytes", fail)
    with pytest.raises(WorldFailed):
        open_own_folder(folder)
