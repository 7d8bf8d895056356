"""A rig inside a book."""

import pytest

from thruline.base.errors import CannotUse
from thruline.workshop.inside import rig_inside

ENCLOSED = {
    "pit.rig.toml": b"x",
    "delay.chart.toml": b"y",
    "../bad.chart.toml": b"z",
    "notes.txt": b"",
}


def test_a_document_and_a_shelf_of_charts():
    found = rig_inside("a.pdf", ENCLOSED)
    assert (found.name, found.document) == ("pit.rig.toml", b"x")
    assert found.shelf.ids() == ("delay",)
    assert found.shelf.find("delay").content == b"y"
    assert found.shelf.find("../bad") is None
    assert "book" in found.shelf.says


@pytest.mark.parametrize("enclosed", [{}, {"a.rig.toml": b"", "b.rig.toml": b""}])
def test_none_or_two_documents_are_no_rig(enclosed):
    with pytest.raises(CannotUse, match="no rig inside"):
        rig_inside("a.pdf", enclosed)
