import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.path.boards import Board, Flood, boards
from tests.rigs import make_box, make_cable, make_chart, make_rig, make_unit
from thruline.path.network import read_network
from thruline.rig.chart import Traffic

EVERYTHING = set(Traffic) - {Traffic.OWN_CHANNEL}


def ring_of_two(first, second, **units):
    names = [make_unit("feet", "first", **units), make_unit("pre", "second", channel=2)]
    cables = [
        make_cable("feet.midi-out", "pre.midi-in"),
        make_cable("pre.midi-out", "feet.midi-in"),
    ]
    return read_network(make_rig(names, cables, [first, second])).rings


def chart(name, way="thru-soft", **output):
    return make_chart(name, output=[{"socket": "midi-out", "ways": [way], **output}])


def test_two_units_that_pass_on_to_each_other():
    (ring,) = ring_of_two(chart("first"), chart("second", "merge"))
    assert [str(hop.link.start) for hop in ring.hops] == ["feet.midi-out", "pre.midi-out"]
    assert ring.certain
    assert ring.circulates == EVERYTHING


@pytest.mark.parametrize("way", ["own", "off"])
def test_one_output_that_passes_nothing_on_opens_the_ring(way):
    assert ring_of_two(chart("first"), chart("second", way)) == ()


def test_a_unit_that_hears_itself():
    unit = [make_unit("feet", "bramley")]
    rig = make_rig(unit, [make_cable("feet.midi-out", "feet.midi-in")], [make_chart()])
    (ring,) = read_network(rig).rings
    assert len(ring.hops) == 1


def test_what_filters_leave_to_go_round():
    (ring,) = ring_of_two(chart("first", blocks=["real-time"]), chart("second", blocks=["note"]))
    assert ring.circulates == EVERYTHING - {Traffic.REAL_TIME, Traffic.CLOCK, Traffic.NOTE}


def test_a_held_back_channel_leaves_the_other_channels_to_go_round():
    (ring,) = ring_of_two(chart("first", blocks=["own-channel"]), chart("second"), channel=5)
    assert ring.blocks.channels == {5}
    assert Traffic.PROGRAM in ring.circulates


def test_a_doubtful_ring_is_not_certain():
    unknown = make_chart("second", ways=["thru-soft", "own"], setting=[])
    (ring,) = ring_of_two(chart("first"), unknown)
    assert not ring.certain


def two_ways_back(short, long):
    """From `feet` through `pre` back to it, or round by `post`; told what is special about each."""
    units = [make_unit("feet", "three"), make_unit("pre", "split")]
    units += [make_unit("s", "short"), make_unit("l", "long"), make_unit("m", "long")]
    cables = [
        make_cable("feet.out-1", "pre.in-1"),
        make_cable("pre.out-1", "s.midi-in"),
        make_cable("s.midi-out", "feet.in-1"),
        make_cable("pre.out-2", "l.midi-in"),
        make_cable("l.midi-out", "m.midi-in"),
        make_cable("m.midi-out", "feet.in-2"),
    ]
    charts = [make_box("three", 2, 1, way="merge"), make_box("split", 1, 2, way="thru-soft")]
    return read_network(make_rig(units, cables, [*charts, short, long])).rings


def test_each_leg_of_two_rings_is_on_one():
    rings = two_ways_back(chart("short"), chart("long"))
    assert [len(ring.hops) for ring in rings] == [3, 4]


def test_a_ring_that_a_filter_opens_does_not_hide_one_that_it_does_not():
    rings = two_ways_back(chart("short", blocks=["clock"]), chart("long"))
    assert any(Traffic.CLOCK in ring.circulates for ring in rings)


def ladder(back):
    """A ring of eight, each two neighbours of which make a short ring over a `back` unit."""
    size = 8
    units = [make_unit(f"p-{n}", "both") for n in range(size)]
    units += [make_unit(f"b-{n}", "back") for n in range(size)]
    cables = []
    for here in range(size):
        after = (here + 1) % size
        cables += [
            make_cable(f"p-{here}.out-1", f"p-{after}.in-1"),
            make_cable(f"p-{after}.out-2", f"b-{here}.midi-in"),
            make_cable(f"b-{here}.midi-out", f"p-{here}.in-2"),
        ]
    return read_network(make_rig(units, cables, [make_box("both", 2, 2, way="thru-soft"), back]))


def test_a_long_ring_is_found_behind_short_ones_that_hold_back_a_kind():
    network = ladder(chart("back", blocks=["clock"]))
    round_for_clock = [ring for ring in network.rings if Traffic.CLOCK in ring.circulates]
    assert [len(ring.hops) for ring in round_for_clock] == [8]


def test_a_long_ring_is_found_behind_short_ones_in_doubt():
    network = ladder(make_chart("back", ways=["thru-soft", "off"], setting=[]))
    assert [len(ring.hops) for ring in network.rings if ring.certain] == [8]


def rows(board):
    return read_network(board.rig())


@settings(max_examples=300)
@given(boards())
def test_there_is_a_ring_if_a_search_finds_one(board: Board):
    rings = rows(board).rings
    assert bool(rings) == Flood(board, None, sure=False).goes_round()
    assert any(ring.certain for ring in rings) == Flood(board, None, sure=True).goes_round()


@given(boards(), st.sampled_from([0xC0, 0xB2, 0x91, 0xF0, 0xF8, 0xFA]))
def test_a_kind_of_message_goes_round_if_a_search_finds_it(board: Board, status):
    found = any(not ring.blocks.stops(status) for ring in rows(board).rings)
    assert found == Flood(board, status, sure=False).goes_round()


@given(boards())
def test_every_ring_is_closed_and_passes_no_output_twice(board: Board):
    network = rows(board)
    for ring in network.rings:
        starts = [hop.link.start for hop in ring.hops]
        assert len(set(starts)) == len(starts)
        for hop, later in zip(ring.hops, [*ring.hops[1:], ring.hops[0]], strict=True):
            assert network.outputs[later.link.start] in network.onward[hop.link.stop]


def test_a_mesh_of_routers_is_soon_told():
    router = make_box("router", 8, 8, way="merge")
    units = [make_unit("a", "router"), make_unit("b", "router")]
    cables = [make_cable(f"a.out-{n}", f"b.in-{n}") for n in range(1, 9)]
    cables += [make_cable(f"b.out-{n}", f"a.in-{n}") for n in range(1, 9)]
    rings = read_network(make_rig(units, cables, [router])).rings
    assert rings
    assert all(len(ring.hops) == 2 for ring in rings)
