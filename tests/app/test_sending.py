import pytest

from tests.audit.boards import board
from tests.bench.clocks import StepClock
from tests.bench.ports import Kept
from thruline.app.send import preset_step, unit_steps
from thruline.app.sending import Progress, Sending
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.face import PortGone
from thruline.bench.several import Way
from thruline.proof.case import Case

CASE = Case(board())


class Port(Kept):
    def __init__(self, gone=False, then=None):
        super().__init__("USB")
        self.gone, self.then = gone, then

    def look(self):
        if self.gone:
            raise PortGone("USB is gone")

    land = look

    def send(self, data):
        self.look()
        super().send(data)
        if self.then:
            self.then()


@pytest.fixture
def sending():
    found = Sending(StepClock())
    found.outputs = [Way(Port())]
    found.is_sound_down = True
    return found


def test_nothing_is_sent_without_a_port_or_with_the_sound_up(sending):
    step = preset_step(CASE, 1)
    sending.is_sound_down = False
    with pytest.raises(CannotUse, match="sound is turned down"):
        sending.begin("preset 1", [step])
    sending.outputs = []
    with pytest.raises(CannotUse, match="choose a port"):
        sending.begin("preset 1", [step])
    assert sending.progress is Progress.IDLE
    assert sending.as_json()["steps"] == []


def test_one_step_is_sent_and_done(sending):
    step = preset_step(CASE, 1)
    play = sending.begin("preset 1", [step])
    with pytest.raises(CannotUse, match="being sent just now"):
        sending.begin("preset 2", [step])
    play()
    assert sending.outputs[0].port.sent == [one.data for one in step.messages]
    assert sending.progress is Progress.DONE


def test_unit_by_unit_each_step_waits_for_its_answer(sending):
    steps = list(unit_steps(CASE, 1))
    sending.begin("preset 1", steps)()
    for place in range(len(steps)):
        assert (sending.progress, sending.place) == (Progress.ASKS, place)
        play = sending.answer(is_so=True)
        if play is not None:
            play()
    assert sending.progress is Progress.DONE
    with pytest.raises(CannotUse, match="nothing is asked"):
        sending.answer(is_so=True)


def test_a_no_stops_it_and_says_what_was_not_so(sending):
    sending.begin("preset 1", list(unit_steps(CASE, 1)))()
    assert sending.answer(is_so=False) is None
    assert sending.progress is Progress.STOPPED
    assert "now shows" in sending.says


def test_stopping_ends_a_wait_and_sends_nothing_more(sending):
    port = Port(then=sending.stop)
    sending.outputs = [Way(port)]
    sending.begin("preset 1", [preset_step(CASE, 1)])()
    assert len(port.sent) == 1
    assert sending.progress is Progress.STOPPED
    assert sending._clock.now_us() < 1_000_000, "what comes later was not waited for"


def test_a_port_that_goes_is_told(sending):
    sending.outputs = [Way(Port(gone=True))]
    sending.begin("preset 1", [preset_step(CASE, 1)])()
    assert sending.progress is Progress.FAILED
    assert sending.says.startswith("USB is gone. Over USB went nothing for ")


def test_ports_are_watched_while_nothing_is_sent(sending):
    (way,) = sending.outputs
    assert not sending.watch()
    way.port.gone = True
    assert sending.watch()
    assert sending.gone == {"USB": "USB is gone"}
    assert not sending.watch(), "that is no news any more"
    way.port.gone = False
    assert sending.watch()
    assert sending.gone == {}
    sending.begin("preset 1", [preset_step(CASE, 1)])
    way.port.gone = True
    assert not sending.watch(), "whoever sends looks as well"


def test_silence_goes_to_every_port_that_takes_it(sending):
    good = Port()
    sending.outputs = [Way(Port(gone=True)), Way(good)]
    assert "sent to USB (USB is gone)" in sending.silence([1])
    assert good.sent == [b"\xb0\x78\x00", b"\xb0\x7b\x00"]
    sending.outputs = [Way(Port(gone=True))]
    with pytest.raises(WorldFailed, match=r"NOT sent: USB is gone\. Turn the sound down by hand"):
        sending.silence([1])


@pytest.mark.parametrize(
    ("sent", "progress", "says"),
    [(3, Progress.DONE, "3 messages sent"), (1, Progress.STOPPED, "a mixture")],
)
def test_something_else_that_sends(sending, sent, progress, says):
    sending.is_sound_down = False  # a backup makes no sound
    sending.begin_other("a backup", lambda _goes_on: sent, count=3)()
    assert sending.progress is progress
    assert says in sending.says


def test_whatever_goes_wrong_nothing_is_being_sent_any_more(sending):
    def stumble():
        raise OSError("the driver stumbled")

    sending.outputs = [Way(Port(then=stumble))]
    sending.begin("preset 1", [preset_step(CASE, 1)])()
    assert sending.progress is Progress.FAILED
    assert "sending went wrong (OSError: the driver stumbled)" in sending.says

    def broken(_goes_on):
        raise ZeroDivisionError

    sending.begin_other("a backup", broken, count=1)()
    assert sending.progress is Progress.FAILED
    assert "the unit may hold a mixture" in sending.says
    sending.refuse_if_busy()
