"""`thruline compare`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

OLD = with_head(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "11B"')).rig)


@pytest.fixture
def rigs(tmp_path: Path) -> tuple[Path, Path]:
    old, new = tmp_path / "old.rig.toml", tmp_path / "new.rig.toml"
    old.write_text(OLD)
    new.write_text(OLD.replace("channel = 3", "channel = 6"))
    return old, new


def test_a_work_order_as_text(rigs, capsys):
    said = ran(capsys, "compare", *rigs)
    assert said.code == 0
    assert "set Bramley Delay" in said.out
    assert "- 3: program " in said.out
    assert "+ 6: program " in said.out
    assert "Test again, and nothing else" in said.out
    assert "local" in said.out


def test_as_a_page_and_for_other_programs(rigs, capsys, tmp_path):
    page = tmp_path / "work.html"
    said = ran(capsys, "compare", *rigs, "--html", page, "--json")
    assert said.json["answers"] == "compare"
    assert said.json["written"] == str(page)
    assert "<h1>Work order" in page.read_text()


def test_a_fault_in_the_new_one_is_told_by_the_exit_code(rigs, capsys):
    rigs[1].write_text(OLD.replace('"11B"', '"999Z"'))
    assert ran(capsys, "compare", *rigs).code == 1


def test_what_cannot_be_read(rigs, capsys, tmp_path):
    said = ran(capsys, "compare", rigs[0], tmp_path / "none.rig.toml")
    assert said.code == 2
    assert said.err
