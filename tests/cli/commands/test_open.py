"""`thruline open`."""

from pathlib import Path

import pytest

from tests.cli.running import ran
from thruline.outside.samples import AS_FOUND, ORCHARD_STREET, sample_text
from thruline.wiring import open_file


@pytest.fixture
def book(tmp_path: Path, capsys) -> Path:
    rig = tmp_path / "pit.rig.toml"
    rig.write_text(sample_text(ORCHARD_STREET), encoding="utf-8")
    ran(capsys, "book", rig, "--part", "reading")
    return rig.with_name("pit.book.pdf")


def test_a_book_opened_again_equals_the_rig(book, capsys, tmp_path):
    told = ran(capsys, "open", book, "--to", tmp_path / "again", "--json").json
    again = tmp_path / "again" / "pit.rig.toml"
    assert told["written"][0] == str(again)
    assert again.read_text(encoding="utf-8") == sample_text(ORCHARD_STREET)
    assert open_file(book).rig == open_file(again).rig == open_file(tmp_path / "pit.rig.toml").rig
    charts = {one.name.partition(".")[0] for one in (again.parent / "charts").iterdir()}
    assert charts == set(open_file(book).charts)


def test_nothing_is_written_over(book, capsys, tmp_path):
    said = ran(capsys, "open", book, "--to", tmp_path)
    assert said.code == 2
    assert "is there already" in said.err
    assert not (tmp_path / "charts").exists()


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7 nothing", b"format = 1"])
def test_what_is_no_book(tmp_path, capsys, content):
    file = tmp_path / "odd.pdf"
    file.write_bytes(content)
    said = ran(capsys, "open", file)
    assert said.code == 2
    assert "odd.pdf" in said.err


@pytest.mark.parametrize(
    "words",
    [
        ("mend", "BOOK", "--safe"),
        ("mend", "BOOK", "--undo"),
        ("plan", "channels", "BOOK", "--apply"),
        ("plan", "cables", "BOOK", "--apply"),
        ("chart", "embed", "BOOK"),
        ("workbench", "BOOK", "--no-browser", "--stop-after", "0"),
    ],
)
def test_a_book_is_not_written_into(book, capsys, words):
    before = {one: one.read_bytes() for one in book.parent.iterdir()}
    said = ran(capsys, *(book if word == "BOOK" else word for word in words))
    assert (said.code, said.out) == (2, "")
    assert f"`thruline open {book}`" in said.err
    assert {one: one.read_bytes() for one in book.parent.iterdir()} == before


def test_what_changes_nothing_takes_a_book(book, capsys):
    for words in (("mend", book, "--safe", "--try"), ("plan", "channels", book), ("mend", book)):
        said = ran(capsys, *words)
        assert said.code in (0, 1)
        assert "--apply" not in said.out


def test_a_mend_of_a_book_begins_with_opening_it(capsys, tmp_path):
    rig = tmp_path / "pit.rig.toml"
    rig.write_text(sample_text(AS_FOUND), encoding="utf-8")
    ran(capsys, "book", rig, "--part", "reading")
    said = ran(capsys, "mend", tmp_path / "pit.book.pdf")
    assert said.out.endswith("pit.book.pdf first; a book is not written into\n")
    assert "thruline mend" not in said.out
