import pytest

from tests.app.test_learn import LEARNED, bare_board, made_of
from tests.audit.wide_boards import wide_board
from thruline.app.learn_edits import whole_remarks
from thruline.app.learn_said import Said
from thruline.audit.meant import meant_by
from thruline.base.errors import CannotUse
from thruline.bench.pretend import pretend_capture
from thruline.learn.learned import learn
from thruline.proof.case import Case
from thruline.rig.sweep import values_of


def test_a_pedal_input_that_is_not_there():
    with pytest.raises(CannotUse, match='did you mean "exp-2"'):
        made_of(Said(pedals={"Volume": "exp-22"}), bare_board())


def test_a_pedal_nobody_named_is_taken_where_one_is_free():
    rig = made_of(Said(pedals={"Volume": "feet.exp-2"}), bare_board()).opened.rig
    assert {one.name: one.pedal.socket for one in rig.sweeps} == {
        "Volume": "exp-2", "Swell": "exp-1", "Bend": "exp-1",
    }  # fmt: skip


def test_wide_sweeps_go_into_a_document_and_come_out_the_same():
    really = wide_board(on_recall=True)
    meant = meant_by(Case(really), ["feet.midi-out"])
    learned = learn([pretend_capture(meant)])
    (sweep,) = made_of(Said(), learned=learned).opened.rig.sweeps
    ends = {move.control.number: values_of(move) for move in really.sweeps[0].moves}
    for move in sweep.moves:
        assert values_of(move)[0] == ends[move.control.number][0]
        assert values_of(move)[-1] == ends[move.control.number][-1]


def test_what_nobody_can_hear():
    opened = made_of(Said()).opened
    says = [one.says for one in whole_remarks(LEARNED, opened)]
    assert len(says) == 3
    assert len([*whole_remarks(LEARNED, bare_board())]) == 2
