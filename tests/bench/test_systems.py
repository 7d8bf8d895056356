import pytest

from tests.bench.clocks import StepClock
from thruline.base.errors import WorldFailed
from thruline.bench.face import PortGone
from thruline.bench.systems import AGAIN_US, Systems
from thruline.outside.midi_wires import Wires

CLOCK = StepClock()


class Failing:
    def __init__(self):
        self.works, self.asked = False, 0

    def __call__(self):
        self.asked += 1
        if not self.works:
            raise WorldFailed("install the library")
        return Wires("USB", clock=CLOCK)


def test_one_that_is_missing_keeps_no_other_from_working_and_is_tried_again_later():
    maker = Failing()
    systems = Systems({"": maker, "memory: ": lambda: Wires("loop", clock=CLOCK)}, CLOCK)
    assert systems.inputs() == systems.outputs() == ("memory: loop",)
    assert systems.troubles == ("install the library",)
    assert maker.asked == 1
    with pytest.raises(PortGone, match="install the library"):
        systems.open_input("USB")
    maker.works = True
    CLOCK.now += AGAIN_US
    assert systems.inputs() == ("USB", "memory: loop")
    assert systems.troubles == ()


def test_a_port_is_opened_in_the_system_that_it_belongs_to():
    systems = Systems({"memory: ": lambda: Wires("loop", clock=CLOCK)}, CLOCK)
    into, out = systems.open_input("memory: loop"), systems.open_output("memory: loop")
    out.send(b"\xc0\x01")
    assert [one.data for one in into.take()] == [b"\xc0\x01"]
    with pytest.raises(PortGone, match="cannot be reached"):
        systems.open_output("USB")


class Dying(Wires):
    def inputs(self):
        raise WorldFailed("the server has stopped")


def test_one_that_stops_answering_is_told_and_forgotten():
    systems = Systems({"": lambda: Dying("USB", clock=CLOCK)}, CLOCK)
    assert systems.inputs() == ()
    assert systems.troubles == ("the server has stopped",)
