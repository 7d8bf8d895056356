import sys
from contextlib import suppress

import pytest

from tests.bench.clocks import StepClock
from tests.outside.library import ALSA, CORE, JACK, MM, Box, Library, system_of
from thruline.base.errors import WorldFailed
from thruline.bench.face import PortGone
from thruline.bench.plugged import AGAIN_US, HeldInput, HeldOutput, pick_port
from thruline.outside import midi_ports
from thruline.outside.midi_ports import SystemPorts
from thruline.outside.open_ports import LOOK_EVERY_US
from thruline.outside.wall_clock import SystemClock


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "rtmidi", None)
    with pytest.raises(WorldFailed, match=r"pip install 'thruline\[ports\]'"):
        SystemPorts(SystemClock())


def test_without_a_system_it_is_said_what_to_start(monkeypatch, tmp_path, capfd):
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    monkeypatch.setattr(midi_ports, "SEQUENCER", tmp_path / "none")
    monkeypatch.setenv("JACK_DEFAULT_SERVER", "no-such-server")
    if sys.platform != "linux":
        pytest.skip("there is always a system here")
    with pytest.raises(WorldFailed, match=r"modprobe snd-seq.*JACK"):
        SystemPorts(SystemClock())
    assert capfd.readouterr().err == "", "what the system's libraries print is for nobody"


@pytest.fixture
def system(monkeypatch):
    """Ports of a made-up list of boxes, on a clock that stands still until it is moved."""

    def made(api, *names):
        library, clock = Library(api, *names), StepClock()
        return library, system_of(monkeypatch, clock, library), clock

    return made


EVERY_SYSTEM = pytest.mark.parametrize("api", [ALSA, JACK, CORE, MM])


def look(held, clock):
    """Look whether a port is there: what has just happened to it."""
    clock.now += max(LOOK_EVERY_US, AGAIN_US)
    return held.take()[1]


@EVERY_SYSTEM
def test_each_of_two_equal_ports_can_be_named(system, api):
    library, ports, _clock = system(api, "Treadle", "Orchard", "Treadle")
    names = ports.outputs()
    assert len(set(names)) == 3
    for name in names:
        HeldOutput(ports, pick_port(names, name, what="output")).send(name.encode())
    assert [box.got for box in library.boxes] == [[name.encode()] for name in names]


@EVERY_SYSTEM
def test_a_port_that_comes_back_under_another_number_goes_on(system, api):
    library, ports, clock = system(api, "Orchard", "Treadle")
    _, treadle = library.boxes
    held = HeldInput(ports, ports.inputs()[1], clock)
    library.unplug(treadle)
    assert look(held, clock) == "gone"
    library.plug_in(treadle, place=0)
    assert look(held, clock) == "back"
    treadle.says.append([0xC0, 5])
    assert [one.data for one in held.take()[0]] == [b"\xc0\x05"]


@EVERY_SYSTEM
def test_another_box_that_is_plugged_in_or_out_takes_nothing_away(system, api):
    library, ports, clock = system(api, "Orchard", "Treadle")
    orchard, treadle = library.boxes
    held = HeldInput(ports, ports.inputs()[1], clock)
    library.unplug(orchard)
    assert look(held, clock) == ""
    library.plug_in(orchard, place=0)
    assert look(held, clock) == ""
    treadle.says.append([0xC0, 5])
    assert held.take()[0]


@EVERY_SYSTEM
@pytest.mark.parametrize("which", [0, 1])
def test_with_one_of_two_equal_boxes_pulled_nothing_goes_to_the_other(system, api, which):
    library, ports, clock = system(api, "Treadle", "Treadle")
    held = [HeldOutput(ports, name) for name in ports.outputs()]
    pulled = library.boxes[which]
    library.unplug(pulled)
    for _ in range(3):
        clock.now += LOOK_EVERY_US
        with suppress(PortGone):
            held[which].send(b"\xf6")
        assert library.boxes[1 - which].got == []
    library.plug_in(pulled, place=which)
    for number, one in enumerate(held):
        one.send(bytes([0xC0, number]))
    assert [box.got[-1] for box in library.boxes] == [b"\xc0\x00", b"\xc0\x01"]


def test_a_second_box_of_the_kind_does_not_disturb_the_first(system):
    library, ports, clock = system(CORE, "Treadle")
    held = HeldOutput(ports, "Treadle")
    library.plug_in(Box("Treadle"))
    clock.now += LOOK_EVERY_US
    held.send(b"\xf6")
    assert ports.outputs() == ("Treadle (1)", "Treadle (2)")
    library.unplug(library.boxes[0])
    clock.now += LOOK_EVERY_US
    with pytest.raises(PortGone):
        held.send(b"\xf6")
    with pytest.raises(PortGone, match="only while all 2 are plugged in"):
        held.send(b"\xf6")


@EVERY_SYSTEM
def test_a_list_that_the_library_does_not_give_is_a_failure_of_the_world(system, api, monkeypatch):
    library, ports, _clock = system(api, "Treadle")

    def fails():
        raise library.RtMidiError("no answer")

    monkeypatch.setattr(library, "names", fails)
    for deed in (ports.outputs, lambda: ports.open_output("Treadle")):
        with pytest.raises(WorldFailed, match="does not list its ports: no answer"):
            deed()
