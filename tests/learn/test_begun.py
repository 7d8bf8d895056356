from tests.audit.wide_boards import wide_board
from tests.learn.boards import heard
from thruline.app.load import open_chart
from thruline.audit.meant import meant_by
from thruline.bench.pretend import pretend_capture
from thruline.document.write import document_text
from thruline.learn.begun import begun_controller, begun_unit
from thruline.learn.channels import channels_of
from thruline.learn.learned import learn
from thruline.proof.case import Case
from thruline.rig.programs import WireProgram, wire_to_label
from thruline.rig.values import ControlMessage
from thruline.workshop.face import Sheet

LEARNED = learn([heard(2)])


def opened(data):
    return open_chart(Sheet("begun.chart.toml", document_text(data).encode()))


def test_a_begun_chart_reads_all_that_was_heard_and_claims_no_more():
    for one in channels_of(LEARNED):
        chart = opened(begun_unit("begun", one))
        assert chart.settle is None
        assert chart.sockets == {}
        assert set(one.controls) <= set(chart.readings.plain)
        for program in one.programs:
            assert wire_to_label(chart.programs, WireProgram(0, program)) is not None


def test_moved_controls_of_every_kind():
    learned = learn([pretend_capture(meant_by(Case(wide_board()), ["feet.midi-out"]))])
    (one,) = channels_of(learned)
    controls = opened(begun_unit("begun", one)).controls.values()
    kinds = {(control.message, control.number) for control in controls}
    assert {
        (ControlMessage.CC, 7), (ControlMessage.CC14, 29), (ControlMessage.NRPN, 300),
        (ControlMessage.RPN, 2),
    } <= kinds  # fmt: skip


def test_a_begun_controller_holds_what_it_was_heard_to_send():
    chart = opened(begun_controller("begun", LEARNED, pedals=2))
    assert chart.abilities.presets == 24
    assert chart.abilities.gap_us == LEARNED.own_us
    assert [*chart.pedals] == ["exp-1", "exp-2"]
    assert chart.pedals["exp-1"].on_recall
