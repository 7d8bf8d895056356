from hypothesis import given

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
)
from thruline.path.network import read_network
from thruline.rig.cable import Jack


def order(network):
    return [carrier.unit.id for carrier in network.carriers]


def cuts(network):
    return [
        (str(feed.source), str(carrier.jack))
        for carrier in network.carriers
        for feed in carrier.feeds
        if feed.cut
    ]


def test_a_line_in_its_order_whatever_the_document_says():
    units = [make_unit(name, "bramley") for name in ("post", "pre")]
    units.append(make_unit("feet", "braeburn"))
    cables = make_chain("feet", "pre", "post")[::-1]
    assert order(read_network(make_rig(units, cables))) == ["feet", "pre", "post"]


def test_outputs_that_may_stand_in_any_order_stand_as_in_the_document():
    units = [make_unit(name, "bramley") for name in ("c", "a", "b")]
    assert order(read_network(make_rig(units))) == ["c", "a", "b"]


def ring_of(*names, controller):
    units = [make_unit(name, "bramley") for name in names]
    cables = [
        make_cable(f"{name}.midi-out", f"{names[(place + 1) % len(names)]}.midi-in")
        for place, name in enumerate(names)
    ]
    head = {"name": "A ring", "controller": controller}
    return read_network(make_rig(units, cables, [make_chart(ways=["merge"])], rig=head))


def test_a_ring_is_cut_where_it_comes_back_to_the_controller():
    network = ring_of("pre", "post", "feet", controller="feet")
    assert order(network) == ["feet", "pre", "post"]
    assert cuts(network) == [("post.midi-out", "feet.midi-out")]


def test_a_ring_away_from_the_controller_is_cut_where_messages_enter_it():
    units = [make_unit("b", "both"), make_unit("a", "both"), make_unit("feet", "braeburn")]
    cables = [
        make_cable("feet.midi-out", "a.in-1"),
        make_cable("a.out-1", "b.in-1"),
        make_cable("b.out-1", "a.in-2"),
    ]
    charts = [make_controller(), make_box("both", 2, 1, way="thru-soft")]
    head = {"name": "A ring", "controller": "feet"}
    network = read_network(make_rig(units, cables, charts, rig=head))
    assert order(network) == ["feet", "a", "b"]
    assert cuts(network) == [("b.out-1", "a.out-1")]


def test_look_ups():
    network = read_network(make_line(2))
    assert [str(c.jack) for c in network.outputs_of("unit-1")] == ["unit-1.midi-out"]
    assert network.inputs_of("unit-1") == (Jack("unit-1", "midi-in"),)
    assert network.outputs_of("nobody") == network.inputs_of("nobody") == ()
    onward = network.onward[Jack("unit-1", "midi-in")]
    assert onward == network.outputs_of("unit-1")
    assert [link.name for link in network.leaving[Jack("feet", "midi-out")]] == [
        "feet.midi-out>unit-1.midi-in"
    ]


def test_a_very_long_line_is_no_trouble():
    network = read_network(make_line(1500))
    assert len(network.carriers) == 1501
    assert network.rings == ()


@given(boards())
def test_every_output_comes_after_those_that_feed_it(board: Board):
    network = read_network(board.rig())
    seen = set()
    for carrier in network.carriers:
        assert all(feed.cut or feed.source in seen for feed in carrier.feeds)
        seen.add(carrier.jack)
    assert seen == set(network.outputs)


@given(boards())
def test_something_is_cut_only_where_there_is_a_ring(board: Board):
    network = read_network(board.rig())
    assert bool(cuts(network)) == bool(network.rings)


@given(boards())
def test_other_names_change_nothing(board: Board):
    def told(name):
        network = read_network(board.rig(name))
        number = {name(n): n for n in board.units}
        return (
            [(number[link.start.unit], link.start.socket, link.state) for link in network.links],
            [(number[one.unit.id], one.jack.socket, one.way) for one in network.carriers],
            [[(number[h.link.start.unit], h.way) for h in ring.hops] for ring in network.rings],
        )

    assert told("unit-{}".format) == told(lambda n: f"{'zyxwv'[n]}-{n * 7 % 5}")
