"""The book of a rig."""

import pytest

from tests.opening import open_text
from thruline.app.book import book_from, book_of, document_name, made_words, paper_book
from thruline.app.book_parts import PARTS, Material, settings_paper
from thruline.app.mend import after_edits, state_of
from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.book import part_of
from thruline.papers.paper import Section, See

STATE = state_of(open_text(sample_text(ORCHARD_STREET)))
BOOK = book_of(STATE, date="1 May 2026")


def test_it_has_every_part_in_order():
    assert [part.name for part in BOOK.parts] == list(PARTS)
    assert dict(BOOK.facts)["This book"].startswith("made 1 May 2026, by thruline ")


def test_every_reference_leads_somewhere():
    there = {block.about for part in BOOK.parts for block in part.blocks if hasattr(block, "about")}
    wanted = {
        cell.about
        for part in BOOK.parts
        for block in part.blocks
        if isinstance(block, Section) and block.table
        for row in block.table.rows
        for cell in row
        if isinstance(cell, See)
    }
    assert len(wanted) > 30
    assert wanted <= there | {"settings:cox-split"}


def test_its_parts_can_be_chosen():
    book = book_of(STATE, date="", parts=("power", "board"))
    assert [part.name for part in book.parts] == ["board", "power"]
    with pytest.raises(CannotUse, match="no part"):
        book_of(STATE, date="", parts=("recipes",))


def test_the_document_and_every_chart_are_inside():
    opened = STATE.opened
    document, *charts = BOOK.enclosed
    assert document.content.decode() == opened.document.text
    assert [one.name.partition(".")[0] for one in charts] == sorted(opened.charts)


def test_plans_are_taken_over_while_the_board_is_the_same():
    first = Material(STATE, made_words(""))
    book_from(first, date="")
    renamed = after_edits(STATE, [set_to(at("preset", "1").child("name"), "Other")])
    second = Material(renamed, "", first)
    assert second.cables.cables is first.cables.cables
    assert second.power.plan is first.power.plan
    assert "Other" in str(book_from(second, date="").parts)


def test_a_book_is_called_after_its_document():
    assert document_name(STATE.opened) == "example.rig.toml"


def test_a_single_paper_is_a_book_of_one_part():
    paper = settings_paper(Material(STATE))
    book = paper_book(part_of("settings", paper), date="")
    assert (book.title, len(book.parts), book.facts) == (paper.title, 1, ())


def test_each_part_is_told_before_it_is_made():
    told = []
    wanted = ("power", "board")
    book_of(STATE, date="", parts=wanted, step=lambda count, part: told.append((count, part)))
    assert told == [(0, "board"), (1, "power")]
