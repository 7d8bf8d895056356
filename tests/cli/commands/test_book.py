"""`thruline book`."""

import io
import sys
from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.opening import with_head
from thruline.cli import show
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

TEXT = with_head(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "11B"')).rig)


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    file = tmp_path / "board.rig.toml"
    file.write_text(TEXT)
    return file


def test_a_book_beside_its_rig(rig, capsys):
    said = ran(capsys, "book", rig)
    file = rig.with_name("board.book.pdf")
    assert said.out.startswith(f"written to {file}: ")
    assert file.read_bytes().startswith(b"%PDF-")
    assert said.code in (0, 1)


def test_chosen_parts_paper_and_date(rig, capsys, tmp_path):
    file = tmp_path / "b.pdf"
    words = ("book", rig, "--to", file, "--paper", "letter", "--part", "power", "--date", "1 May")
    told = ran(capsys, *words, "--json").json
    assert (told["answers"], told["parts"], told["paper"]) == ("book", ["power"], "letter")
    before = file.read_bytes()
    ran(capsys, *words)
    assert file.read_bytes() == before


@pytest.mark.parametrize("words", [("--part", "recipes"), ("--paper", "a5"), ("--to", "a.toml")])
def test_what_cannot_be_used(rig, capsys, words):
    assert ran(capsys, "book", rig, *words).code == 2


def test_a_book_is_a_rig_for_other_commands_and_is_not_written_to(rig, capsys):
    ran(capsys, "book", rig)
    book = rig.with_name("board.book.pdf")
    assert "One" in ran(capsys, "trace", book, 1).out
    before = book.read_bytes()
    said = ran(capsys, "plan", "channels", book, "--apply")
    assert book.read_bytes() == before
    assert said.code in (0, 1, 2)


def test_where_it_cannot_be_written_is_told_before_it_is_made(rig, capsys, monkeypatch):
    monkeypatch.setattr("thruline.cli.commands.book.book_of", lambda *_, **__: pytest.fail("made"))
    for file, says in (("no/a.pdf", "there is no folder"), ("a.txt", "should end in .pdf")):
        said = ran(capsys, "book", rig, "--to", rig.with_name("none") / file)
        assert (said.code, said.out) == (2, "")
        assert says in said.err


def test_on_a_terminal_it_is_told_what_is_being_made(rig, capsys, monkeypatch):
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    terminal = Terminal()
    monkeypatch.setattr(show, "SLOW_SECONDS", 0)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(sys, "stderr", terminal)
    ran(capsys, "book", rig, "--part", "reading")
    assert "typesetting" in terminal.getvalue()
