"""What becomes of a message at a unit."""

from thruline.timing.fate import Fate


def test_what_is_good() -> None:
    assert {fate for fate in Fate if fate.is_good} == {Fate.OBEYED, Fate.PREPARES, Fate.HELD}


def test_cannot_be_told_is_not_good() -> None:
    assert not Fate.CANNOT_TELL.is_good
