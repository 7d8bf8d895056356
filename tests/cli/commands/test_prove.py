"""`thruline prove`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

CLEAN = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }'))
FAULTY = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "99Z" }'))


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    return tmp_path / "board.rig.toml"


def test_a_clean_board_ends_with_nought(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rig.write_text(with_head(CLEAN.rig))
    said = ran(capsys, "prove", rig)
    assert said.code == 0
    assert said.out.startswith("PROVED")
    assert said.err == ""


def test_faults_end_with_one(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rig.write_text(with_head(FAULTY.rig))
    said = ran(capsys, "prove", rig)
    assert said.code == 1
    assert "FAULT" in said.out
    assert "\x1b" not in said.out


def test_json_is_one_object_with_the_same_facts(
    rig: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rig.write_text(with_head(FAULTY.rig))
    said = ran(capsys, "prove", rig, "--json")
    assert said.code == 1
    assert said.json["answers"] == "prove"
    assert said.json["counts"]["fault"] == 1


def test_what_cannot_be_used_ends_with_two(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rig.write_text("format = 1\n[rig]\nname = 7\n")
    said = ran(capsys, "prove", rig)
    assert (said.code, said.out) == (2, "")
    assert f"{rig}:3:8" in said.err


def test_a_missing_file_ends_with_two(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = ran(capsys, "prove", rig)
    assert said.code == 2
    assert "board.rig.toml" in said.err
    assert "Traceback" not in said.err
