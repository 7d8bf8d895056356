import pytest

from tests.app.keeping import keeping
from thruline.app import desk as desks
from thruline.app.revision_view import compared, revisions_json
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse


@pytest.fixture
def kept():
    return keeping()


def test_an_earlier_state_is_held_against_the_desk(kept):
    edit = set_to(read_address("unit[delay].channel"), 4)
    desk = desks.edited(desks.open_desk(kept), [edit], kept, says="Changed the channel")
    told = revisions_json(desk, kept, old=1)
    assert [(one["number"], one["is_now"]) for one in told["revisions"]] == [(2, True), (1, False)]
    assert "-channel = 3" in told["compared"]["rows"]
    assert "+channel = 4" in told["compared"]["rows"]
    assert revisions_json(desk, kept)["compared"] is None
    with pytest.raises(CannotUse, match="no revision 9"):
        revisions_json(desk, kept, old=9)


def test_a_state_that_cannot_be_used_is_still_shown(kept):
    desk = desks.open_desk(kept)
    kept.file.content = b"[[preset"
    desk = desks.caught_up(desk, kept)
    told = compared(desk, kept, desk.history.last)
    assert told["unusable"]
    assert "-[[preset" in told["rows"]
