from tests.find.boards import make_board, meant
from thruline.find.meant import MOST_PRESSES, meant_by
from thruline.proof.case import Case


def test_the_fullest_preset_is_pressed_first_and_no_more_than_show_something_new():
    assert [one.number for one in meant().presses] == [1]
    assert meant().looked_at == ("box-1", "box-2", "box-3")


def test_what_is_sent_is_what_is_composed():
    case = Case(make_board())
    preset = case.rig.presets[0]
    sent = {item.data for item in meant().sendings[1]}
    assert sent == {item.data for item in case.run(preset).sending.items}


def test_never_more_presses_than_anybody_wants():
    assert len(meant_by(Case(make_board(8))).presses) <= MOST_PRESSES
