from thruline.papers.paper import table_of


def test_a_table_has_as_many_cells_in_every_row():
    table = table_of(("Loop", "Send"), [("loop-1", "send-1")])
    assert table is not None
    assert (table.head, table.rows) == (("Loop", "Send"), (("loop-1", "send-1"),))


def test_nothing_empty_is_printed():
    assert table_of(("Loop", "Send"), []) is None
