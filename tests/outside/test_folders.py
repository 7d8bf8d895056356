import errno
import os
from pathlib import Path

import pytest

from thruline.base.errors import CannotUse, WorldFailed
from thruline.outside.folders import make_folder, names_in


def test_a_folder_is_made_once(tmp_path):
    folder = tmp_path / "charts"
    make_folder(folder)
    (folder / "a").touch()
    make_folder(folder)
    assert names_in(folder) == ("a",)


def test_no_folder_to_make_it_in(tmp_path):
    with pytest.raises(CannotUse, match="there is no folder"):
        make_folder(tmp_path / "nowhere" / "charts")


def test_a_file_of_that_name(tmp_path):
    file = tmp_path / "charts"
    file.touch()
    for act in (make_folder, names_in):
        with pytest.raises(CannotUse, match="is a file, not a folder"):
            act(file)


def test_a_folder_that_is_not_there_holds_nothing(tmp_path):
    assert names_in(tmp_path / "nowhere") == ()


@pytest.mark.parametrize("call", ["mkdir", "iterdir"])
def test_whatever_the_system_says_is_told(tmp_path, monkeypatch, call):
    def fail(*_args, **_kwargs):
        raise OSError(errno.EROFS, os.strerror(errno.EROFS))

    monkeypatch.setattr(Path, call, fail)
    act = make_folder if call == "mkdir" else names_in
    with pytest.raises(WorldFailed, match="read-only file system"):
        act(tmp_path / "charts")


def test_a_name_that_no_folder_can_have(tmp_path):
    with pytest.raises(WorldFailed):
        make_folder(tmp_path / ("x" * 300))
