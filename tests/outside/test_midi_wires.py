import pytest

from thruline.bench.face import PortGone
from thruline.outside.midi_wires import Wires
from thruline.outside.wall_clock import SystemClock


def test_what_was_under_way_is_lost_with_the_plug():
    wires = Wires("a", "b", clock=SystemClock())
    out, into = wires.open_output("a"), wires.open_input("a")
    out.send(b"\xc0\x01")
    wires.unplug("a")
    assert wires.inputs() == wires.outputs() == ("b",)
    with pytest.raises(PortGone):
        into.take()
    with pytest.raises(PortGone):
        wires.open_input("a")
    wires.plug_in("a")
    assert into.take() == []
    out.send(b"\xc0\x02")
    assert [one.data for one in into.take()] == [b"\xc0\x02"]
    out.close()


def test_there_is_no_other_wire():
    with pytest.raises(PortGone, match='no such wire: "c"'):
        Wires("a", clock=SystemClock()).open_output("c")
