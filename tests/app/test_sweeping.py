import pytest

from tests.app.test_sending import Port
from tests.audit.boards import board
from tests.bench.clocks import StepClock
from tests.bench.test_pedal import values
from thruline.app.sending import Sending
from thruline.app.sweeping import Sweeping
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.several import Way
from thruline.proof.case import Case
from thruline.rig.sweep import values_of

CASE = Case(board())
SWEEP = CASE.rig.sweeps[0]


@pytest.fixture
def moving():
    sending = Sending(StepClock())
    sending.outputs, sending.is_sound_down = [Way(Port())], True
    return Sweeping(sending), sending.outputs[0].port, sending


def learned(sweeping):
    sweeping.learn()
    sweeping.hear(values(20, 60, 100))
    assert "100" in sweeping.as_json()["moved"]
    sweeping.at_toe()
    assert sweeping.as_json()["learning"] == "at-heel"
    sweeping.hear(values(60, 20))
    sweeping.at_heel()


def test_a_place_sends_the_values_of_its_curves(moving):
    sweeping, port, _ = moving
    sweeping.move(CASE, SWEEP.name, place=127)
    assert [one[2] for one in port.sent] == [values_of(move)[127] for move in SWEEP.moves]
    count = len(port.sent)
    sweeping.move(CASE, SWEEP.name, place=127)
    assert len(port.sent) == count, "nothing changes, so nothing is sent"
    assert "100 %" in sweeping.as_json()["says"]


def test_a_real_pedal_moves_it_after_it_was_learned(moving):
    sweeping, port, _ = moving
    with pytest.raises(CannotUse, match="learn the pedal first"):
        sweeping.follow(CASE, SWEEP.name)
    with pytest.raises(CannotUse, match="no pedal is being learned"):
        sweeping.at_toe()
    learned(sweeping)
    assert sweeping.as_json()["written"] == "1/11:20-100"
    sweeping.follow(CASE, SWEEP.name)
    sweeping.hear(values(100))
    assert [one[2] for one in port.sent] == [values_of(move)[127] for move in SWEEP.moves]
    sweeping.let_go()
    sweeping.hear(values(20))
    assert len(port.sent) == len(SWEEP.moves)


def test_a_pedal_is_let_go_when_nothing_may_be_sent_any_more(moving):
    sweeping, port, sending = moving
    learned(sweeping)
    sweeping.follow(CASE, SWEEP.name)
    sending.is_sound_down = False
    sweeping.hear(values(100))
    assert not port.sent
    assert not sweeping.as_json()["follows"]
    assert "moves nothing any more" in sweeping.says


def test_a_port_that_comes_back_is_sent_every_value_anew(moving):
    sweeping, port, _ = moving
    sweeping.move(CASE, SWEEP.name, place=127)
    port.gone = True
    with pytest.raises(WorldFailed):
        sweeping.move(CASE, SWEEP.name, place=0)
    assert sweeping.as_json()["place"] == 0
    port.gone = False
    port.sent.clear()
    sweeping.move(CASE, SWEEP.name, place=0)
    assert [one[2] for one in port.sent] == [values_of(move)[0] for move in SWEEP.moves]
    sweeping.forget()
    port.sent.clear()
    sweeping.move(CASE, SWEEP.name, place=0)
    assert len(port.sent) == len(SWEEP.moves), "other ports may be open now"


def test_ports_that_were_seen_to_go_are_sent_every_value_anew(moving):
    sweeping, port, _ = moving
    learned(sweeping)
    sweeping.see_gone(["USB is gone"])
    assert sweeping.says == "", "nothing was moved yet"
    sweeping.move(CASE, SWEEP.name, place=0)
    sweeping.see_gone(["USB is gone"])
    assert sweeping.says == "USB is gone"
    port.sent.clear()
    sweeping.move(CASE, SWEEP.name, place=0)
    assert len(port.sent) == len(SWEEP.moves)
    sweeping.follow(CASE, SWEEP.name)
    sweeping.see_gone(["USB is gone"])
    assert "moves nothing any more: USB is gone" in sweeping.says
    assert not sweeping.as_json()["follows"]
