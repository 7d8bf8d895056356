import pytest

from tests.bench.clocks import StepClock
from thruline.base.errors import CannotUse
from thruline.bench.face import PortGone
from thruline.bench.plugged import AGAIN_US, HeldInput, HeldOutput, pick_port
from thruline.bench.port_names import told_apart
from thruline.outside.midi_wires import Wires

NAMES = ("Orchard Two:Port A 20:0", "Orchard Two:Port B 20:1", "Treadle 24:0")


@pytest.fixture
def clock():
    return StepClock()


@pytest.mark.parametrize(
    ("word", "name"),
    [("port b", NAMES[1]), ("Treadle", NAMES[2]), (NAMES[0], NAMES[0]),
     ("Orchard Two:Port A 31:0", NAMES[0])],
)  # fmt: skip
def test_a_port_is_picked_by_a_part_of_its_name(word, name):
    assert pick_port(NAMES, word, what="input") == name


@pytest.mark.parametrize(
    ("names", "word", "says"),
    [
        (NAMES, "orchard", "may mean"),
        (NAMES, "Tredle 24:0", 'did you mean "Treadle 24:0"'),
        ((), "x", "no input is there at all"),
    ],
)
def test_what_cannot_be_picked(names, word, says):
    with pytest.raises(CannotUse, match=says):
        pick_port(names, word, what="input")


def test_equal_ports_are_asked_about_and_each_can_be_named():
    names = told_apart(["Treadle", "Treadle", "Orchard"])
    with pytest.raises(CannotUse, match=r'may mean "Treadle \(1\)", "Treadle \(2\)"'):
        pick_port(names, "Treadle", what="input")
    assert pick_port(names, "treadle (2)", what="input") == "Treadle (2)"


def test_an_input_goes_and_comes_back(clock):
    wires = Wires("a", clock=clock)
    held = HeldInput(wires, "a", clock)
    wires.unplug("a")
    assert held.take() == ([], "gone")
    assert not held.is_there
    wires.plug_in("a")
    assert held.take() == ([], ""), "it does not look at every turn"
    clock.now += AGAIN_US
    assert held.take() == ([], "back")
    wires.open_output("a").send(b"\xc0\x01")
    assert [one.data for one in held.take()[0]] == [b"\xc0\x01"]
    held.close()
    assert not held.is_there


def test_an_output_works_again_once_it_is_back(clock):
    wires = Wires("a", clock=clock)
    held, far = HeldOutput(wires, "a"), wires.open_input("a")
    wires.unplug("a")
    for _ in range(2):
        with pytest.raises(PortGone, match="gone"):
            held.send(b"\xc0\x01")
    wires.plug_in("a")
    held.send(b"\xc0\x02")
    assert [one.data for one in far.take()] == [b"\xc0\x02"]
    assert held.name == "a"
    held.close()
