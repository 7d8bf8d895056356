from hypothesis import given, settings
from hypothesis import strategies as st

from tests.path.boards import Board, Flood, boards
from tests.rigs import (
    make_box,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
)
from thruline.path.copies import Copies
from thruline.path.hearing import MOST_ROUTES, Heard, gets_through, passes, read_hearing
from thruline.path.network import read_network
from thruline.rig.chart import Traffic


def hearing_of(rig):
    return read_hearing(read_network(rig))


def test_a_line_is_heard_to_its_end():
    hearing = hearing_of(make_line(3))
    (route,) = hearing.routes_to("unit-3")
    assert [str(hop.link.stop) for hop in route.hops] == [
        "unit-1.midi-in", "unit-2.midi-in", "unit-3.midi-in",
    ]  # fmt: skip
    assert route.certain
    assert hearing.hears("feet", "unit-3") is Heard.YES
    assert hearing.hears("unit-1", "unit-3") is Heard.NO
    assert hearing.routes_from("feet") == hearing.routes


def test_an_output_set_to_its_own_messages_ends_the_line():
    hearing = hearing_of(make_line(2, ways=["own"]))
    assert hearing.hears("feet", "unit-1") is Heard.YES
    assert hearing.hears("feet", "unit-2") is Heard.NO
    assert hearing.hears("unit-1", "unit-2") is Heard.YES


def test_an_output_that_cannot_be_told_leaves_doubt():
    hearing = hearing_of(make_line(2, ways=["own", "thru-soft"], setting=[]))
    assert hearing.hears("feet", "unit-2") is Heard.CANNOT_TELL
    assert hearing.hears("unit-1", "unit-2") is Heard.CANNOT_TELL


def test_filters_take_away_some_messages():
    output = [{"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["clock", "own-channel"]}]
    hearing = hearing_of(make_line(2, output=output))
    (route,) = hearing.routes_between("feet", "unit-2")
    assert route.blocks.kinds == {Traffic.CLOCK}
    assert route.blocks.channels == {1}
    assert [passes(route, status) for status in (0xC0, 0xC1, 0xF8, 0xFA)] == [
        False, True, False, True,
    ]  # fmt: skip
    assert hearing.hears("feet", "unit-2") is Heard.YES
    assert hearing.hears("feet", "unit-2", status=0xF8) is Heard.NO


def test_an_own_channel_that_is_not_known_leaves_doubt_for_channel_messages_only():
    output = [{"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["own-channel"]}]
    charts = [make_controller(), make_chart(output=output, channel=None)]
    units = [make_unit(name, "bramley") for name in ("pre", "post")]
    cables = make_chain("feet", "pre", "post")
    hearing = hearing_of(make_rig([make_unit("feet", "braeburn"), *units], cables, charts))
    (route,) = hearing.routes_to("post")
    assert route.certain
    assert (gets_through(route, 0xC0), gets_through(route, 0xF8)) == (None, True)
    assert hearing.hears("feet", "post", status=0xC0) is Heard.CANNOT_TELL


def test_electrical_copies_are_counted_to_the_input():
    output = [{"socket": "midi-out", "ways": ["thru-wire"], "skew-ns": 500}]
    routes = hearing_of(make_line(4, output=output)).routes
    assert [route.copies for route in routes] == [Copies(n, 500 * n) for n in range(4)]


def test_a_unit_that_is_reached_twice_has_two_routes():
    units = [make_unit("feet", "braeburn"), make_unit("box", "split"), make_unit("mix", "merger")]
    cables = [
        make_cable("feet.midi-out", "box.in-1"),
        make_cable("box.out-1", "mix.in-1"),
        make_cable("box.out-2", "mix.in-2"),
    ]
    charts = [make_controller(), make_box("split", 1, 2), make_box("merger", 2, 1, way="merge")]
    routes = hearing_of(make_rig(units, cables, charts)).routes_between("feet", "mix")
    assert [route.target.socket for route in routes] == ["in-1", "in-2"]


def test_a_source_in_a_ring_hears_itself_once():
    cables = make_chain("feet", "pre", "feet")
    units = [make_unit("feet", "bramley"), make_unit("pre", "bramley")]
    hearing = hearing_of(make_rig(units, cables, [make_chart(ways=["merge"])]))
    assert [len(route.hops) for route in hearing.routes_between("feet", "feet")] == [2]


def test_a_mesh_has_an_end_and_says_so():
    router = make_box("router", 8, 8, way="merge")
    units = [make_unit(name, "router") for name in ("a", "b", "c")]
    cables = [make_cable(f"a.out-{n}", f"b.in-{n}") for n in range(1, 9)]
    cables += [make_cable(f"b.out-{n}", f"a.in-{n}") for n in range(1, 8)]
    hearing = hearing_of(make_rig(units, cables, [router]))
    assert not hearing.complete
    assert len(hearing.routes_from("a")) == 8 * MOST_ROUTES
    assert hearing.hears("a", "b") is Heard.YES
    assert hearing.hears("a", "c") is Heard.CANNOT_TELL


statuses = st.sampled_from([None, 0xC0, 0xB2, 0x91, 0xE0, 0xF0, 0xF8, 0xFA])


@settings(max_examples=300)
@given(boards(), statuses)
def test_hearing_is_what_a_flood_reaches(board: Board, status):
    hearing = hearing_of(board.rig())
    for source in board.units:
        surely = Flood(board, status, sure=True).reached(source)
        perhaps = Flood(board, status, sure=False).reached(source)
        for target in board.units:
            heard = hearing.hears(f"unit-{source}", f"unit-{target}", status=status)
            expected = Heard.NO if target not in perhaps else Heard.CANNOT_TELL
            assert heard is (Heard.YES if target in surely else expected)


@given(boards())
def test_routes_are_different_and_hang_together(board: Board):
    network = read_network(board.rig())
    hearing = read_hearing(network)
    assert len({route.hops for route in hearing.routes}) == len(hearing.routes)
    for route in hearing.routes:
        assert (route.hops[0].link.start, route.hops[-1].link.stop) == (route.source, route.target)
        assert network.outputs[route.source].sends_own is not False
        for hop, later in zip(route.hops, route.hops[1:], strict=False):
            assert network.outputs[later.link.start] in network.onward[hop.link.stop]


@given(boards())
def test_other_names_change_no_route(board: Board):
    def told(name):
        number = {name(n): n for n in board.units}
        return [
            (number[route.source.unit], number[route.target.unit], len(route.hops), route.certain)
            for route in hearing_of(board.rig(name)).routes
        ]

    assert told("unit-{}".format) == told(lambda n: f"{'zyxwv'[n]}-{n * 7 % 5}")
