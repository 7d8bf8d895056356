"""What a book says of itself."""

from thruline.papers.book_words import cautions, reading
from thruline.plan.cable_kinds import KINDS


def test_what_can_hurt_is_said_and_others_come_first():
    told = " ".join(says for one in cautions(("More.", "More.")).sections for says in one.says)
    for word in ("mains", "polarity", "phantom", "hearing", "Local codes", "licensed"):
        assert word in told
    assert told.count("More.") == 1


def test_every_kind_of_cable_has_its_letter_explained():
    rows = reading().sections[1].table.rows
    assert [row[0] for row in rows] == [kind.letter for kind in KINDS]
