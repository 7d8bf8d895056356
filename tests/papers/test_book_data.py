"""A book as data for the typesetter."""

import json

import pytest

from thruline.papers.book import Book, Drawing, Enclosed, Large, Part
from thruline.papers.book_columns import BREAK
from thruline.papers.book_data import MARGIN, PAPERS, book_data
from thruline.papers.labels import Label, Labels
from thruline.papers.paper import Section, See, table_of

TABLE = table_of(("", "what", "where"), [("[ ]", "W" * 90, See("settings", "settings:delay"))])


def data_of(*blocks, paper="a4"):
    book = Book(
        title="Pit\n2",
        about="",
        date="1 May 2026",
        version="1",
        parts=(Part(name="one", title="One", blocks=blocks),),
        enclosed=(Enclosed(name="a.rig.toml", kind="x/y", says="it", content=b"secret"),),
    )
    return json.loads(book_data(book, paper))


def test_a_table_has_ticks_references_and_places_to_break():
    (block,) = data_of(Section(title="T", table=TABLE, about="t"))["parts"][0]["blocks"]
    tick, what, where = block["table"]["rows"][0]
    assert tick == {"says": "", "tick": True}
    assert what["says"].replace(BREAK, "") == "W" * 90
    assert where["see"] == "settings:delay"
    assert block["table"]["whole"]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_drawing_fits_its_page_and_keeps_its_shape(paper):
    width, height = PAPERS[paper]
    for wide, across, down in ((True, 5000, 300), (False, 100, 9000), (True, 10, 10)):
        drawn = Drawing(title="D", svg="<svg/>", width=across, height=down, alt="a", wide=wide)
        (block,) = data_of(drawn, paper=paper)["parts"][0]["blocks"]
        x, y = block["size"]
        assert x / y == pytest.approx(across / down)
        assert x <= (height if wide else width) - 2 * MARGIN + 0.01
        assert y < (width if wide else height) - 2 * MARGIN


def test_a_drawing_to_scale_is_not_made_larger():
    drawn = Drawing(title="D", svg="<svg/>", width=100, height=50, alt="a", scale=1.0)
    assert data_of(drawn)["parts"][0]["blocks"][0]["size"] == [100, 50]


def test_many_words_above_a_drawing_leave_it_room():
    drawn = Drawing(title="D", svg="<svg/>", width=1000, height=1000, alt="a", says="words " * 250)
    _, tall = data_of(drawn)["parts"][0]["blocks"][0]["size"]
    assert tall > 250


def test_large_sheets_and_labels():
    label = Label(number="M1", kind="MIDI", here="a", there="b", plug="din5", length=30, code="M1")
    large = Large(title="Song", beside="120", rows=(("1", "Verse"),))
    sheet, labels = data_of(large, Labels(rig="r", labels=(label,), codes=True))["parts"][0][
        "blocks"
    ]
    assert sheet["rows"] == [["1", "Verse"]]
    assert labels["labels"][0]["svg"].startswith("<svg xmlns=")
    assert labels["labels"][0]["length"] == "30 mm"


def test_what_is_enclosed_is_named_and_control_letters_are_blanks():
    told = data_of()
    assert told["enclosed"] == [{"name": "a.rig.toml", "kind": "x/y", "says": "it", "place": 0}]
    assert told["title"] == "Pit 2"
