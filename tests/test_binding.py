"""Books on the disk."""

import pytest

from thruline.base.errors import CannotUse
from thruline.binding import (
    book_beside,
    check_new,
    check_report,
    leaves_of,
    open_book,
    pictures_of,
    put_down,
    typeset,
    write_book,
    write_words,
)
from thruline.papers.book import Book, Enclosed, Part

INSIDE = (
    Enclosed(name="pit.rig.toml", kind="application/toml", says="it", content=b"x = 1\n"),
    Enclosed(name="delay.chart.toml", kind="application/toml", says="it", content=b"y = 2\n"),
)
BOOK = Book(title="T", about="", date="", version="1", parts=(Part(name="a", title="A"),),
            enclosed=INSIDE)  # fmt: skip


def test_what_is_bound_comes_out_again(tmp_path):
    file = tmp_path / "a.pdf"
    assert write_book(file, BOOK, paper="a4") == 1
    put_down(open_book(file), folder=tmp_path / "again")
    assert (tmp_path / "again" / "pit.rig.toml").read_bytes() == b"x = 1\n"
    assert (tmp_path / "again" / "charts" / "delay.chart.toml").read_bytes() == b"y = 2\n"


def test_only_books_are_written(tmp_path):
    with pytest.raises(CannotUse, match=r"\.pdf"):
        write_book(tmp_path / "a.rig.toml", BOOK, paper="a4")


def test_a_book_is_called_after_its_rig():
    assert book_beside("pit.rig.toml") == "pit.book.pdf"


def test_only_text_is_written_as_words(tmp_path):
    write_words(tmp_path / "a.md", "# one\n")
    assert (tmp_path / "a.md").read_text() == "# one\n"
    with pytest.raises(CannotUse, match=r"\.md or \.txt"):
        write_words(tmp_path / "a.rig.toml", "x")
    assert not (tmp_path / "a.rig.toml").exists()


def test_pages_are_told_with_their_part():
    made = typeset(BOOK, paper="letter")
    (leaf,) = leaves_of(made)
    assert (leaf.width, leaf.height, leaf.part) == (612, 792, "A")
    assert pictures_of(made, [1], scale=1)[0].startswith(b"\x89PNG")


@pytest.mark.parametrize("name", ["a.html", "a.pdf", "a.md"])
def test_a_report_takes_the_place_of_an_earlier_one(tmp_path, name):
    (tmp_path / name).write_text("earlier")
    check_report(tmp_path / name)
    with pytest.raises(CannotUse, match="is there already"):
        check_new(tmp_path / name)


def test_a_report_in_plain_text_takes_nobodys_place(tmp_path):
    check_report(tmp_path / "a.txt")
    (tmp_path / "a.txt").write_text("mine")
    with pytest.raises(CannotUse, match="is there already"):
        check_report(tmp_path / "a.txt")


@pytest.mark.parametrize("name", ["a.zip", "report", "a.rig.toml", "a.svg"])
def test_a_report_is_called_what_it_is(tmp_path, name):
    with pytest.raises(CannotUse, match=r"its name should end in \.html, \.pdf, \.md, \.txt"):
        check_report(tmp_path / name)
