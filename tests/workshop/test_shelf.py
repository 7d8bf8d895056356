import pytest

from tests.opening import TextShelf
from thruline.base.errors import CannotUse
from thruline.workshop.shelf import find_chart, known_ids, sheet_called

TEXT = '# {}\n[chart]\nid = "{}"\n'
FIRST = TextShelf((TEXT.format("first", "bramley"), TEXT.format("first", "russet")))
SECOND = TextShelf((TEXT.format("second", "bramley"), TEXT.format("second", "pippin")))


def test_the_first_shelf_that_has_it():
    assert find_chart((FIRST, SECOND), "bramley").content.startswith(b"# first")
    assert find_chart((SECOND, FIRST), "bramley").content.startswith(b"# second")
    assert find_chart((FIRST, SECOND), "gala") is None


def test_ids_once_each_and_in_order():
    assert known_ids((FIRST, SECOND)) == ("bramley", "pippin", "russet")


def test_a_chart_by_its_id():
    assert sheet_called((FIRST, SECOND), "pippin").content.startswith(b"# second")
    with pytest.raises(CannotUse, match='did you mean "pippin"'):
        sheet_called((FIRST, SECOND), "pipin")
    with pytest.raises(CannotUse, match="`thruline chart list` shows them all"):
        sheet_called((FIRST, SECOND), "x" * 5000)
