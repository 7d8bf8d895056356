from thruline.find.kind_rows import ROWS
from thruline.find.kinds import Kind


def test_every_kind_has_a_row_and_words_with_the_thing_in_them():
    assert set(ROWS) == set(Kind)
    for row in ROWS.values():
        assert row.odds > 0
        assert row.says.format(what="X")
        assert row.mend.format(what="X")


def test_there_are_more_than_fifty_kinds():
    assert len(Kind) >= 85
