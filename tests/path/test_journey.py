import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.path.boards import Board, boards
from tests.rigs import (
    make_box,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_in,
)
from thruline.base.errors import CannotUse
from thruline.path.hearing import gets_through, read_hearing
from thruline.path.journey import follow
from thruline.path.network import read_network
from thruline.path.outcome import Outcome, Quality
from thruline.rig.cable import Jack

OUT = Jack("feet", "midi-out")
DUO = [make_unit("feet", "braeburn"), make_unit("pre", "bramley", channel=2)]
ARRIVED = {
    Outcome.TAKEN,
    Outcome.NOT_FOR_IT,
    Outcome.NO_LISTENER,
    Outcome.REFUSED,
    Outcome.CHANNEL_UNTOLD,
    Outcome.TAKING_UNTOLD,
}


def told(rig, status=0xC1):
    journey = follow(read_network(rig), OUT, [status, 0])
    return [(str(stop.jack), stop.outcome, stop.certain) for stop in journey.stops]


def test_a_program_change_down_a_line():
    assert told(make_line(3)) == [
        ("unit-1.midi-in", Outcome.NOT_FOR_IT, True),
        ("unit-2.midi-in", Outcome.TAKEN, True),
        ("unit-3.midi-in", Outcome.NOT_FOR_IT, True),
    ]


def test_an_output_in_the_middle_that_passes_nothing_on():
    stops = told(make_line(3, ways=["own"]))
    assert stops[1:] == [("unit-1.midi-out", Outcome.NOT_PASSED_ON, True)]


def test_an_output_that_cannot_be_told_is_passed_in_doubt():
    stops = told(make_line(2, ways=["own", "thru-soft"], setting=[]))
    assert stops[1:] == [
        ("unit-1.midi-out", Outcome.WAY_UNTOLD, True),
        ("unit-2.midi-in", Outcome.TAKEN, False),
    ]


def test_a_filter_holds_back_some_messages():
    output = [{"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["program"]}]
    rig = make_line(2, output=output)
    assert told(rig)[1:] == [("unit-1.midi-out", Outcome.HELD_BACK, True)]
    assert told(rig, 0xB1)[1:] == [("unit-2.midi-in", Outcome.TAKEN, True)]


def test_a_filter_of_an_unknown_channel_is_passed_in_doubt():
    output = [{"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["own-channel"]}]
    units = [make_unit(name, "bramley") for name in ("pre", "post")]
    charts = [make_controller(), make_chart(output=output, channel={})]
    rig = make_rig([DUO[0], *units], make_chain("feet", "pre", "post"), charts)
    assert ("pre.midi-out", Outcome.FILTER_UNTOLD, True) in told(rig)
    assert ("post.midi-in", Outcome.CHANNEL_UNTOLD, False) in told(rig)


def test_a_link_that_does_not_carry():
    cable = make_cable("feet.midi-out", "pre.midi-in", wiring="crossed")
    assert told(make_rig(DUO, [cable])) == [("pre.midi-in", Outcome.LOST, True)]


def test_a_link_that_may_not_carry():
    charts = [make_controller(), make_chart(sockets=[midi_in(isolated=None)])]
    cable = make_cable("feet.midi-out", "pre.midi-in", wiring={"5": "5", "2": "2"})
    assert told(make_rig(DUO, [cable], charts)) == [
        ("pre.midi-in", Outcome.LINK_UNTOLD, True),
        ("pre.midi-in", Outcome.TAKEN, False),
    ]


def test_a_source_that_does_not_send():
    units = [make_unit(name, "bramley") for name in ("feet", "pre")]
    rig = make_rig(units, make_chain("feet", "pre"), [make_chart()])
    assert told(rig) == [("feet.midi-out", Outcome.NOT_SENT, True)]


def test_a_ring_ends_where_it_begins_again():
    units = [make_unit(name, "bramley") for name in ("feet", "pre")]
    rig = make_rig(units, make_chain("feet", "pre", "feet"), [make_chart(ways=["merge"])])
    assert told(rig)[-1] == ("feet.midi-out", Outcome.GOES_ROUND, True)


def test_a_ring_that_holds_back_is_no_ring_for_this_message():
    output = [{"socket": "midi-out", "ways": ["merge"], "blocks": ["program"]}]
    units = [make_unit(name, "bramley") for name in ("feet", "pre")]
    charts = [make_chart(output=output), make_chart("soft")]
    units[1]["chart"] = "soft"
    rig = make_rig(units, make_chain("feet", "pre", "feet"), charts)
    assert told(rig)[-1] == ("feet.midi-out", Outcome.HELD_BACK, True)


def test_a_unit_that_is_reached_twice_has_two_stops():
    charts = [make_controller(), make_box("split", 1, 2), make_box("merger", 2, 1, way="merge")]
    units = [DUO[0], make_unit("box", "split"), make_unit("mix", "merger")]
    cables = [
        make_cable("feet.midi-out", "box.in-1"),
        make_cable("box.out-1", "mix.in-1"),
        make_cable("box.out-2", "mix.in-2"),
    ]
    journey = follow(read_network(make_rig(units, cables, charts)), OUT, b"\xf8")
    assert [stop.jack.socket for stop in journey.at("mix")] == ["in-1", "in-2"]
    assert [stop.unit for stop in journey.ending(Quality.GOOD)] == ["box", "mix", "mix"]


@pytest.mark.parametrize("message", [[], [0x40, 0x00], [256]])
def test_what_is_no_message_cannot_be_followed(message):
    with pytest.raises(CannotUse, match="status byte"):
        follow(read_network(make_line(1)), OUT, message)


def test_what_is_no_output_cannot_be_followed():
    with pytest.raises(CannotUse, match="no MIDI output"):
        follow(read_network(make_line(1)), Jack("unit-1", "midi-in"), [0xC0])


@given(boards(), st.sampled_from([0xC0, 0xB2, 0x90, 0xF8, 0xF0]))
def test_a_message_arrives_by_the_routes_that_let_it_through(board: Board, status):
    network = read_network(board.rig())
    hearing = read_hearing(network)
    for source in network.outputs:
        arrived = {
            (stop.hops, stop.certain)
            for stop in follow(network, source, [status]).stops
            if stop.outcome in ARRIVED
        }
        assert arrived == {
            (route.hops, gets_through(route, status) is True)
            for route in hearing.routes
            if route.source == source and gets_through(route, status) is not False
        }
