"""`thruline plan`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.proof.example_boards import DELAY, TO_DELAY, a_unit, board

SECOND = a_unit("second", "bramley-delay", "channel = 3      # as it came")
TEXT = with_head(board(DELAY, TO_DELAY, SECOND).rig)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    file = tmp_path / "board.rig.toml"
    file.write_text(TEXT)
    return file


def test_a_plan_is_shown_and_nothing_is_written(rig, capsys):
    said = ran(capsys, "plan", "channels", rig)
    assert said.code == 0
    assert "proved: no plan costs less" in said.out
    assert "nothing is written; `--apply` does it" in said.out
    assert rig.read_text() == TEXT


def test_it_is_applied_and_taken_back(rig, capsys):
    said = ran(capsys, "plan", "channels", rig, "--apply", "--set", "second=7")
    assert said.code == 0
    assert "channel = 7      # as it came" in rig.read_text()
    ran(capsys, "mend", rig, "--undo")
    assert rig.read_text() == TEXT


def test_json_is_one_object(rig, capsys):
    said = ran(capsys, "plan", "channels", rig, "--json")
    assert said.json["answers"] == "plan channels"
    assert said.json["written"] is False
    assert said.json["proved"] is True


def test_no_plan_is_a_fault(rig, capsys):
    said = ran(capsys, "plan", "channels", rig, "--set", "delay=3", "--set", "second=3", "--apply")
    assert said.code == 1
    assert "there is no channel plan" in said.out
    assert rig.read_text() == TEXT


def test_power_is_planned_with_its_cautions(rig, capsys):
    rig.write_text(TEXT + a_unit("supply", "elstar-supply"))
    said = ran(capsys, "plan", "power", rig, "--no-chains")
    assert said.code == 0
    assert "Local codes" in said.out
    assert ran(capsys, "plan", "power", rig, "--json").json["answers"] == "plan power"
    assert ran(capsys, "plan", "power", rig, "--apply", "--anywhere").code == 0
    assert 'to = "second.power-in"' in rig.read_text()


@pytest.mark.parametrize("words", ["second", "second=", "=3", "second=x", "second=17", "nobody=3"])
def test_what_cannot_be_set(rig, capsys, words):
    said = ran(capsys, "plan", "channels", rig, "--set", words)
    assert said.code == 2
    assert said.err
    assert "Traceback" not in said.err


def test_cables_with_labels(rig, capsys, tmp_path):
    labels = tmp_path / "labels.html"
    said = ran(capsys, "plan", "cables", rig, "--labels", labels, "--codes", "--spool", "midi=3000")
    assert said.code == 1  # nothing has a place, so no length can be told
    assert "no place on the board" in " ".join(said.out.split())
    assert "<svg" in labels.read_text()
    found = ran(capsys, "plan", "cables", rig, "--all", "--rest", "audio=400", "--json")
    assert found.json["answers"] == "plan cables"


@pytest.mark.parametrize(
    "words",
    [("--spool", "x"), ("--spool", "rope=3"), ("--rest", "300"), ("--rest", "midi=0"),
     ("--slack", "101"), ("--labels", "board.rig.toml")],
)  # fmt: skip
def test_what_cables_cannot_use(rig, capsys, words):
    said = ran(capsys, "plan", "cables", rig, *words)
    assert said.code == 2
    assert said.err
    assert rig.read_text() == TEXT
