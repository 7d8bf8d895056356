"""Removing a file that this program has made."""

from pathlib import Path

import pytest

from thruline.base.errors import WorldFailed
from thruline.outside.files import take_away


def test_a_file_is_gone(tmp_path: Path) -> None:
    file = tmp_path / "kept"
    file.write_text("x")
    take_away(file)
    assert not file.exists()


def test_nothing_to_remove_is_no_trouble(tmp_path: Path) -> None:
    take_away(tmp_path / "never-there")


def test_a_folder_cannot_be_removed(tmp_path: Path) -> None:
    with pytest.raises(WorldFailed, match="cannot be removed"):
        take_away(tmp_path)
