import os
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.outside.files import write_atomically
from thruline.outside.half_written import STALE_SECONDS, clear_beside, clear_in, name_beside


@pytest.fixture
def rig(tmp_path):
    file = tmp_path / "board.rig.toml"
    file.write_text("name = 'old'\n")
    return file


def left_over(file, *, seconds=STALE_SECONDS + 60):
    beside = name_beside(file)
    beside.write_text("name = 'ha")
    then = time.time() - seconds
    os.utime(beside, (then, then))
    return beside


def test_what_a_kill_left_beside_a_file_is_removed(rig):
    beside = [left_over(rig), left_over(rig)]
    clear_beside(rig)
    assert not any(one.exists() for one in beside)
    assert rig.read_text() == "name = 'old'\n"


def test_what_may_still_be_written_stays(rig):
    young = left_over(rig, seconds=STALE_SECONDS - 60)
    clear_beside(rig)
    assert young.exists()


def test_what_is_not_ours_stays(rig, tmp_path):
    others = [
        left_over(rig.with_name("other.rig.toml")),
        left_over(rig.with_name("a.board.rig.toml")),
    ]
    for name in (
        ".board.rig.toml.new",
        ".board.rig.toml.abc.new",
        "board.rig.toml.012345678901.new",
    ):
        (tmp_path / name).write_text("somebody's")
        os.utime(tmp_path / name, (1, 1))
        others.append(tmp_path / name)
    folder = name_beside(rig)
    folder.mkdir()
    os.utime(folder, (1, 1))
    link = name_beside(rig)
    link.symlink_to(rig)
    os.utime(link, (1, 1), follow_symlinks=False)
    clear_beside(rig)
    assert all(one.exists() for one in (*others, folder, link, rig))


def test_a_folder_that_is_not_there_has_nothing_to_clear(tmp_path):
    clear_in(tmp_path / "nowhere", is_ours=lambda _name: True)


def test_what_cannot_be_removed_is_no_trouble(rig, monkeypatch):
    beside = left_over(rig)

    def refused(_file, **_named):
        raise PermissionError

    monkeypatch.setattr(type(rig), "unlink", refused)
    clear_beside(rig)
    assert beside.exists()


@given(name=st.text(st.characters(codec="ascii", categories=("L", "N")), min_size=1, max_size=240))
def test_every_name_is_known_again(name, tmp_path_factory):
    file = tmp_path_factory.mktemp("some") / name
    beside = left_over(file)
    assert len(beside.name) < 128
    clear_beside(file)
    assert not beside.exists()


def test_writing_uses_such_a_name(rig, monkeypatch):
    seen = []

    def killed(beside, _target):
        seen.append(beside)
        raise KeyboardInterrupt

    monkeypatch.setattr(type(rig), "replace", killed)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(rig, "name = 'new'\n")
    assert seen[0].name.startswith(".board.rig.toml.")
    assert seen[0].name.endswith(".new")
