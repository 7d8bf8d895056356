import pytest

from tests.app.test_learn import LEARNED, bare_board
from thruline.app.learn_begin import begun_for
from thruline.app.learn_said import Said, SaidUnit
from thruline.base.errors import CannotUse
from thruline.learn.channels import channels_of

HEARD = channels_of(LEARNED)


def test_a_board_gets_only_what_it_lacks():
    board = bare_board()
    begun = begun_for(LEARNED, Said(), heard=HEARD, board=board, charts=())
    assert (begun.text, begun.charts, begun.unknown) == (board.document.text, {}, ())


def test_every_channel_gets_a_unit():
    said = Said(units={3: SaidUnit("delay", "bramley-delay")})
    begun = begun_for(LEARNED, said, heard=HEARD, board=None, charts=())
    assert 'id = "delay"' in begun.text
    assert 'id = "unit-5"' in begun.text
    assert "learned-delay" not in begun.charts
    assert {str(one.where) for one in begun.unknown} >= {"unit[delay]", "unit[unit-5]"}


def test_an_id_that_is_taken():
    with pytest.raises(CannotUse, match="another id: --unit 3=NAME:CHART"):
        begun_for(
            LEARNED, Said(units={3: SaidUnit("feet", None)}), heard=HEARD, board=None, charts=()
        )


def test_what_is_begun_has_the_id_of_no_other_chart():
    taken = {"learned-controller", "learned-unit-5", "learned-unit-5-2"}
    begun = begun_for(LEARNED, Said(), heard=HEARD, board=None, charts=taken)
    assert {"learned-controller-2", "learned-unit-5-3", "learned-unit-3"} <= set(begun.charts)
    assert 'chart = "learned-unit-5-3"' in begun.text
