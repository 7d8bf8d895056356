"""A rig's outputs as lines to be played."""

from tests.timing.boards import rig_of
from thruline.path.network import read_network
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_cable,
    a_unit,
)
from thruline.rig.cable import Jack
from thruline.timing.network import Copy, Output, Way
from thruline.timing.roads import WIRE_DELAY_US, Roads, roads_of

PRE = a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "thru" }')


def roads(*pieces: str) -> Roads:
    rig = rig_of(*pieces)
    return roads_of(read_network(rig), rig.controller)


def test_a_thru_socket_is_a_copy() -> None:
    found = roads(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB)
    line = found.network.lines[found.line_of[Jack("delay", "midi-thru")]]
    assert line == Copy(source=found.line_of[Jack("feet", "midi-out-1")], delay_us=WIRE_DELAY_US)


def test_a_soft_thru_takes_whole_messages() -> None:
    found = roads(
        PRE,
        DELAY,
        a_cable("feet.midi-out-1", "pre.midi-in"),
        a_cable("pre.midi-out", "delay.midi-in"),
    )
    line = found.network.lines[found.line_of[Jack("pre", "midi-out")]]
    assert isinstance(line, Output)
    assert [feed.way for feed in line.feeds] == [Way.WHOLE]
    assert line.sender is None


def test_the_controller_is_the_sender_of_all_its_outputs() -> None:
    found = roads(DELAY, TO_DELAY)
    starts = {jack.socket for jack, line in found.line_of.items() if line in found.starts}
    assert starts == {"midi-out-1", "midi-out-2", "usb"}


def test_how_far_down_the_line_each_unit_is() -> None:
    found = roads(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB)
    assert found.travels["delay"].of(3) == 0
    assert found.travels["reverb"].of(3) == WIRE_DELAY_US


def test_a_unit_that_is_not_reached_has_no_travel() -> None:
    assert "delay" not in roads(DELAY).travels


def test_a_link_that_does_not_work_carries_nothing() -> None:
    crossed = a_cable("feet.midi-out-1", "delay.midi-in", 'wiring = "crossed"')
    assert roads(DELAY, crossed).inputs["delay"] == ()


def test_a_ring_is_cut() -> None:
    found = roads(
        PRE,
        a_unit("merge", "kidd-merge"),
        a_cable("feet.midi-out-1", "merge.in-1"),
        a_cable("merge.output", "pre.midi-in"),
        a_cable("pre.midi-out", "merge.in-2"),
    )
    line = found.network.lines[found.line_of[Jack("merge", "output")]]
    assert isinstance(line, Output)
    assert [feed.source for feed in line.feeds] == [found.line_of[Jack("feet", "midi-out-1")]]
