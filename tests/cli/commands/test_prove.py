"""`thruline prove`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from tests.samples.reading import AS_FOUND
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_power_lead,
    a_preset,
    a_unit,
    board,
)
from thruline.proof.rules.understanding import channel_unknown

CLEAN = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }'))
FAULTY = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "99Z" }'))
FUZZ = """format = 1
[chart]
id = "costard-fuzz"
maker = "Costard"
model = "Fuzz"
kind = "drive"

[[socket]]
id = "power-in"
kind = "power-in"
connector = "barrel-2.1"
"""


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    return tmp_path / "board.rig.toml"


def test_a_clean_board_ends_with_nought(rig: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rig.write_text(with_head(CLEAN.rig))
    said = ran(capsys, "prove", rig)
    assert said.code == 0
    silent, verdict = said.out.splitlines()
    assert silent == "power and sound are not described, so nothing is said about them"
    assert verdict.startswith("PROVED")
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
    assert said.json["undescribed"] == ["power", "sound"]


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


def test_a_page_to_hand_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "page.html"
    done = ran(capsys, "prove", AS_FOUND, "--report", page, "--preset", 5)
    assert f"written to {page}" in done.out
    text = page.read_text(encoding="utf-8")
    assert text.startswith("<!doctype html>")
    assert text.count("<figure") == 1
    assert str(AS_FOUND.parent) not in text


def test_the_page_is_named_in_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "page.html"
    assert ran(capsys, "prove", AS_FOUND, "--report", page, "--json").json["report"] == str(page)
    assert ran(capsys, "prove", AS_FOUND, "--json").json["report"] is None


def test_a_page_that_cannot_be_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "page.html"
    assert ran(capsys, "prove", AS_FOUND, "--report", tmp_path / "no" / "page.html").code == 2
    nothing = ran(capsys, "prove", AS_FOUND, "--report", page, "--preset", 99)
    assert (nothing.code, page.exists()) == (2, False)
    assert "there is no preset 99" in nothing.err
    assert "add --report" in ran(capsys, "prove", AS_FOUND, "--preset", 5).err


def test_a_channel_that_is_not_known_is_a_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    example = channel_unknown.RULE.failing
    file = tmp_path / "own.rig.toml"
    file.write_text(with_head(example.rig))
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "costard-tone.chart.toml").write_text(example.charts[0])
    done = ran(capsys, "prove", file)
    assert done.code == 1
    assert "has no channel" in done.out
    assert ran(capsys, "trace", file, 1).code == 1


def test_what_cannot_be_told_is_never_proved(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "costard-fuzz.chart.toml").write_text(FUZZ)
    supply, fuzz = a_unit("supply", "elstar-supply"), a_unit("fuzz", "costard-fuzz")
    feet = a_power_lead("supply.outlet-11", "feet.power-in")
    lead = a_power_lead("supply.outlet-12", "fuzz.power-in")
    file = tmp_path / "own.rig.toml"
    file.write_text(with_head(board(supply, fuzz, feet, lead).rig))
    done = ran(capsys, "prove", file)
    assert done.code == 0
    assert "\nPROVED SO FAR  Example: no faults, no risks, 3 cannot be told; " in done.out
    assert "looked at in" in done.out
    assert ran(capsys, "prove", file, "--json").json["verdict"] == "proved so far"
    page = tmp_path / "page.html"
    ran(capsys, "prove", file, "--report", page)
    assert 'class="verdict open"' in page.read_text()
    file.write_text(with_head(board(supply, fuzz, feet).rig))
    done = ran(capsys, "prove", file)
    assert done.code == 1
    assert "no power lead goes to Costard Fuzz" in done.out


def test_a_page_is_written_as_html_only(tmp_path, capsys):
    picture = tmp_path / "x.svg"
    said = ran(capsys, "prove", AS_FOUND, "--report", picture)
    assert said.code == 2
    assert "the page is HTML" in said.err
    assert not picture.exists()


def test_where_a_page_cannot_be_written_is_told_before_the_proof(tmp_path, capsys, monkeypatch):
    failed = "thruline.cli.commands.prove.prove_rig"
    monkeypatch.setattr(failed, lambda *_, **__: pytest.fail("proved"))
    said = ran(capsys, "prove", AS_FOUND, "--report", tmp_path / "none" / "a.html")
    assert (said.code, said.out) == (2, "")
    assert "there is no folder" in said.err
