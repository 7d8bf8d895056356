import pytest

from tests.bench.clocks import StepClock
from thruline.app.listen import Line, choice_of, line_of, listen, listen_json, told_of
from thruline.audit.capture import Came, Capture
from thruline.base.errors import CannotUse
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.bench.telling import Choice, Teller
from thruline.outside.midi_wires import Wires


def test_a_line_is_a_port_or_a_socket_and_its_port():
    assert line_of("USB") == Line("USB", "USB")
    assert line_of("feet.out = USB 2") == Line("USB 2", "feet.out")
    for word in ("=USB", "feet.out="):
        with pytest.raises(CannotUse, match="is no line"):
            line_of(word)


def test_a_choice_of_words_that_are_known():
    found = choice_of(None, ["left"], only=["left"], hide=["clock"])
    assert (found.only, found.hide) == ({"left"}, {"clock"})
    with pytest.raises(CannotUse, match='"dealy" is no unit, line or kind'):
        choice_of(None, ["left"], only=["dealy"], hide=[])


def test_live_is_told_as_a_capture_is():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    session = Session([HeldInput(wires, "a", clock)], clock, lines=["a"])
    out = wires.open_output("a")
    for data in (b"\xb0\x07", b"\x40", b"\xf8"):
        out.send(data)
    coming = listen(session, Teller(None, ("a",)), Choice(), until_us=lambda: 10_000)
    told = list(coming)
    entries = (Came(0, 1, b"\xb0\x07\x40"), Came(0, 1, b"\xf8"))
    assert told == list(told_of(Capture(lines=("a",), entries=entries), None, Choice()))
    assert listen_json(told, log=None)["came"][0] == {
        "at_us": 0, "line": "a", "kind": "control", "to": [], "says": "channel 1: control 7 = 64",
        "bytes": "B0 07 40",
    }  # fmt: skip


def test_a_port_that_goes_is_told():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    session = Session([HeldInput(wires, "a", clock)], clock, lines=["a"])
    coming = listen(session, Teller(None, ("a",)), Choice(), until_us=lambda: 10_000)
    wires.unplug("a")
    says = [one.says for one in coming]
    assert 'port "a" is gone; plug it in again, and listening goes on' in says
