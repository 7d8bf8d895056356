"""`thruline sheet`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

TEXT = with_head(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "11B"')).rig)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    file = tmp_path / "board.rig.toml"
    file.write_text(TEXT)
    return file


@pytest.mark.parametrize(
    "which",
    ["bring-up", "faults", "settings", "programming", "cables", "labels", "power"],
)
def test_a_sheet_as_text(rig, capsys, which):
    said = ran(capsys, "sheet", rig, which)
    assert said.code == 0
    assert "Bramley Delay" in said.out


def test_a_sheet_as_page_and_table(rig, capsys, tmp_path):
    page, table = tmp_path / "a.html", tmp_path / "a.csv"
    said = ran(capsys, "sheet", rig, "programming", "--html", page, "--csv", table)
    assert said.out.splitlines() == [f"written to {page}", f"written to {table}"]
    assert "<h1>Programming sheet" in page.read_text()
    assert "Bramley Delay: program 11B" in table.read_text()


def test_a_sheet_to_print_and_for_notes(rig, capsys, tmp_path):
    files = {kind: tmp_path / f"a.{ending}" for kind, ending in
             (("pdf", "pdf"), ("markdown", "md"), ("text", "txt"))}  # fmt: skip
    words = [word for kind, file in files.items() for word in (f"--{kind}", file)]
    said = ran(capsys, "sheet", rig, "programming", "--paper", "letter", *words)
    assert said.out.splitlines() == [f"written to {file}" for file in files.values()]
    assert files["pdf"].read_bytes().startswith(b"%PDF-")
    assert "# Programming sheet" in files["markdown"].read_text()
    assert files["text"].read_text() == ran(capsys, "sheet", rig, "programming").out


def test_the_stage_sheet_is_a_page_of_its_own(rig, capsys, tmp_path):
    page = tmp_path / "stage.html"
    said = ran(capsys, "sheet", rig, "stage", "--html", page)
    assert (said.code, said.out) == (0, f"written to {page}\n")
    assert '"name": "One"' in page.read_text()
    assert "default-src" in page.read_text()


@pytest.mark.parametrize("words", [(), ("--pdf", "a.pdf"), ("--csv", "a.csv", "--html", "a.html")])
def test_the_stage_sheet_is_nothing_else(rig, capsys, words):
    said = ran(capsys, "sheet", rig, "stage", *words)
    assert said.code == 2
    assert "name its file with --html FILE" in said.err


def test_the_proof_says_when_it_was_made(rig, capsys):
    assert "by thruline" in ran(capsys, "sheet", rig, "proof").out


def test_json_is_one_object(rig, capsys):
    found = ran(capsys, "sheet", rig, "settings", "--json").json
    assert (found["answers"], found["sheet"], found["written"]) == ("sheet", "settings", [])


@pytest.mark.parametrize(
    "words",
    [
        ("recipes",),
        ("settings", "--csv", "a.rig.toml"),
        ("settings", "--html", "a.csv"),
        ("settings", "--markdown", "a.html"),
        ("settings", "--pdf", "a.rig.toml"),
    ],
)
def test_what_cannot_be_used(rig, capsys, words):
    said = ran(capsys, "sheet", rig, *words)
    assert said.code == 2
    assert said.err
