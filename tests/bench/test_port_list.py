import threading
from contextlib import suppress

import pytest

from tests.bench.clocks import StepClock
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.port_list import LOOK_US, MOST_NEWS, PortList
from thruline.bench.systems import Systems
from thruline.outside.midi_wires import Wires


@pytest.fixture
def ports():
    clock = StepClock()
    wires = Wires("A", "B", clock=clock)
    found = PortList(Systems({"": lambda: wires}, clock), clock)
    found.look()
    return found, wires, clock


def test_what_comes_and_goes_is_noticed_when_it_is_looked_at_again(ports):
    listed, wires, clock = ports
    assert listed.inputs == ("A", "B")
    assert listed.news == ()
    turn = listed.turn
    wires.unplug("A")
    listed.look()
    assert listed.inputs == ("A", "B"), "not asked again so soon"
    clock.now += LOOK_US
    listed.look()
    assert (listed.inputs, listed.outputs) == (("B",), ("B",))
    wires.plug_in("A")
    listed.look(at_once=True)
    assert [one.says for one in listed.news] == ['"A" was pulled out', '"A" was plugged in']
    assert listed.turn == turn + 2


def test_only_the_latest_news_are_kept(ports):
    listed, wires, _ = ports
    for _ in range(MOST_NEWS):
        for change in (wires.unplug, wires.plug_in):
            change("A")
            listed.look(at_once=True)
    assert len(listed.news) == MOST_NEWS
    assert listed.news[-1].number == 2 * MOST_NEWS


def test_an_output_is_for_one_rig_at_a_time(ports):
    listed, _, _ = ports
    listed.claim(["A"], rig="pit")
    listed.claim(["B"], rig="club")
    with pytest.raises(CannotUse, match='in use at the bench of the rig "pit"'):
        listed.claim(["A", "B"], rig="club")
    assert listed.holder("B") == "club", "what it had it keeps"
    listed.claim([], rig="pit")
    listed.claim(["A"], rig="club")
    assert (listed.holder("A"), listed.holder("B")) == ("club", "")


def test_what_waited_on_a_port_before_is_no_part_of_a_session(ports):
    listed, wires, _ = ports
    wires.open_output("A").send(b"\xc0\x01")
    (into,) = listed.open_inputs(["A"])
    assert into.take() == ([], "")


def test_where_one_cannot_be_opened_none_stays_open(ports):
    listed, _, _ = ports
    for opened in (listed.open_inputs, listed.open_outputs):
        with pytest.raises(WorldFailed, match="no such wire"):
            opened(["A", "nowhere"])


class Named:
    """A system of ports of which only the names matter."""

    def __init__(self, *names):
        self.names = names

    def inputs(self):
        return self.names

    outputs = inputs


def listed_as(*names):
    clock, system = StepClock(), Named(*names)
    found = PortList(Systems({"": lambda: system}, clock), clock)
    found.look()
    return found, system


def test_a_twin_that_comes_and_goes_is_told_as_one_event():
    listed, system = listed_as("A", "B")
    for names in (("A (1)", "A (2)", "B"), ("A", "B")):
        system.names = names
        listed.look(at_once=True)
    assert [one.says for one in listed.news] == [
        'another "A" was plugged in; now: "A (1)", "A (2)"', 'one "A" was pulled out; now: "A"',
    ]  # fmt: skip


def test_equal_ports_are_for_different_rigs_and_stay_so_under_new_numbers():
    listed, system = listed_as("A 20:0", "A 24:0")
    listed.claim(["A 20:0"], rig="pit")
    assert listed.holder("A 24:0") == ""
    listed.claim(["A 24:0"], rig="club")
    system.names = ("A 24:0", "A 28:0")
    listed.look(at_once=True)
    assert (listed.holder("A 24:0"), listed.holder("A 28:0")) == ("club", "pit")


def test_of_two_rigs_that_claim_at_the_same_time_one_gets_it(ports):
    both, got = threading.Barrier(2), []

    class Slow(PortList):
        def holder(self, name):
            found = super().holder(name)
            with suppress(threading.BrokenBarrierError):
                both.wait(0.2)
            return found

    listed = Slow(Systems({"": lambda: ports[1]}, ports[2]), ports[2], lock=threading.RLock())

    def claim(rig):
        with suppress(CannotUse):
            listed.claim(["A"], rig=rig)
            got.append(rig)

    threads = [threading.Thread(target=claim, args=(rig,)) for rig in ("pit", "club")]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert len(got) == 1
