import pytest

from tests.rigs import make_chart, make_rig, make_unit, midi_in, midi_out, socket
from thruline.path.match import Ending, Match
from thruline.path.nets import Joint, nets
from thruline.rig.cable import Jack
from thruline.rig.socket import SIGNALS, Wiring


def ending(row):
    rig = make_rig([make_unit("pre", "bramley")], charts=[make_chart(sockets=[row], output=[])])
    return Ending(Jack("pre", row["id"]), rig.units["pre"].chart.sockets[row["id"]])


def match(out, into, pairs):
    start, stop = ending(midi_out("o", out)), ending(midi_in("i", into))
    assert start.signals is not None
    assert stop.signals is not None
    return Match(
        start=start,
        stop=stop,
        given=start.signals,
        wanted=stop.signals,
        joints=(Joint(pairs, "a wire"),),
        nets=nets((pairs,)),
    )


def test_signals_of_a_socket():
    assert ending(midi_in(connector="trs-3.5")).signals == SIGNALS[Wiring.TYPE_A]
    assert ending(socket("x", "audio-in", "trs-3.5")).signals is None


@pytest.mark.parametrize(
    ("row", "usb"),
    [
        (socket("x", "usb", "usb-c"), True),
        (midi_in(connector="usb-b"), True),
        (midi_in(connector="din5"), False),
    ],
)
def test_what_counts_as_usb(row, usb):
    assert ending(row).is_usb is usb


def test_which_contacts_meet():
    found = match("din5", "trs-3.5", (("4", "tip"), ("2", "sleeve")))
    assert found.meets("4", "tip")
    assert not found.meets("4", "ring")
    assert not found.meets("5", "ring")
    assert not found.meets(None, None)


def test_a_voltage_arrives_with_data_and_ground():
    assert match("din5", "trs-3.5", (("5", "tip"), ("2", "sleeve"))).voltage_arrives
    assert not match("din5", "trs-3.5", (("5", "tip"),)).voltage_arrives
