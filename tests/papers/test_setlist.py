"""The set on paper."""

from thruline.papers.paper import See
from thruline.papers.setlist import Piece, Step, setlist, stage_sheets

PIECES = (
    Piece(name="Overture", tempo=120, steps=(Step(number=3, name="Wide", about="pedal down"),)),
    Piece(name="Coda", tempo=None, steps=(Step(number=1, name="Dry", about=""),)),
)


def test_the_list_refers_to_the_sheet_of_each_song():
    paper = setlist("Pit", PIECES)
    rows = paper.sections[0].table.rows
    assert rows[0][:4] == ("1", "Overture", "120", "3 Wide")
    assert rows[1][2] == ""
    sheets = stage_sheets(PIECES)
    for row, sheet in zip(rows, sheets, strict=True):
        assert isinstance(row[4], See)
        assert row[4].about == sheet.about


def test_a_sheet_says_song_tempo_and_presets():
    first, second = stage_sheets(PIECES)
    assert (first.title, first.beside) == ("Overture", "120 a minute")
    assert first.rows == (("3", "Wide (pedal down)"),)
    assert second.beside == ""
