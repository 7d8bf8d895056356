from hypothesis import given

from tests.path.boards import Board, boards
from tests.rigs import (
    make_adapter,
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_in,
    socket,
)
from thruline.path.contacts import LinkState
from thruline.path.links import read_links, shared
from thruline.rig.cable import Jack

TYPE_A = {"4": "ring", "5": "tip", "2": "sleeve"}
DUO = [make_unit("feet", "braeburn"), make_unit("pre", "bramley")]


def links_of(units, cables, charts=None):
    return read_links(make_rig(units, cables, charts))


def test_a_line_has_a_link_for_each_cable():
    links = read_links(make_line(3))
    assert [link.name for link in links] == [
        "feet.midi-out>unit-1.midi-in",
        "unit-1.midi-out>unit-2.midi-in",
        "unit-2.midi-out>unit-3.midi-in",
    ]
    assert {link.state for link in links} == {LinkState.WORKS}


def test_a_cable_written_from_the_input_leads_from_the_output():
    (link,) = links_of(DUO, [make_cable("pre.midi-in", "feet.midi-out")])
    assert (link.start, link.stop) == (Jack("feet", "midi-out"), Jack("pre", "midi-in"))


def test_a_link_over_an_adapter():
    charts = [make_controller(), make_chart("mini", [midi_in(connector="trs-3.5")])]
    charts.append(make_adapter("plug", TYPE_A))
    units = [make_unit("feet", "braeburn"), make_unit("pre", "mini"), make_unit("x", "plug")]
    cables = [
        make_cable("pre.midi-in", "x.b", "trs-3.5/trs-3.5", length=200),
        make_cable("feet.midi-out", "x.a", length=1500),
    ]
    (link,) = links_of(units, cables, charts)
    assert link.state is LinkState.WORKS
    assert link.adapters == ("x",)
    assert [cable.length for cable in link.cables] == [1500, 200]
    assert link.length_mm == 1700
    unmeasured = [cables[0], make_cable("feet.midi-out", "x.a", length=None)]
    assert links_of(units, unmeasured, charts)[0].length_mm is None


def test_an_adapter_with_nothing_behind_it():
    charts = [make_controller(), make_chart(), make_adapter("plug", TYPE_A)]
    units = [*DUO, make_unit("x", "plug")]
    (out,) = links_of(units, [make_cable("feet.midi-out", "x.a")], charts)
    assert (out.state, out.start, out.stop) == (
        LinkState.LOOSE_END, Jack("feet", "midi-out"), Jack("x", "a"),
    )  # fmt: skip
    (into,) = links_of(units, [make_cable("x.a", "pre.midi-in")], charts)
    assert (into.state, into.start, into.stop) == (
        LinkState.LOOSE_END, Jack("x", "a"), Jack("pre", "midi-in"),
    )  # fmt: skip


def test_adapters_plugged_into_each_other_lead_nowhere():
    charts = [make_controller(), make_chart(), make_adapter("plug", TYPE_A)]
    units = [*DUO, make_unit("x", "plug"), make_unit("y", "plug")]
    assert links_of(units, [make_cable("x.a", "y.a")], charts) == ()
    ring = [make_cable("x.a", "y.a"), make_cable("x.b", "y.b", "trs-3.5/trs-3.5")]
    (loose,) = links_of(units, [*ring, make_cable("feet.midi-out", "x.a")], charts)[:1]
    assert (loose.state, loose.stop) == (LinkState.LOOSE_END, Jack("y", "b"))


def test_a_wrong_link_begins_with_what_gives():
    pedal = make_chart("pedal", [socket("out", "expression-out", "trs-6.35")])
    taker = make_chart("taker", [midi_in(connector="trs-6.35")])
    units = [make_unit("feet", "taker"), make_unit("rocker", "pedal")]
    cable = make_cable("feet.midi-in", "rocker.out", "trs-6.35/trs-6.35")
    (link,) = links_of(units, [cable], [pedal, taker])
    assert (link.state, link.start) == (LinkState.WRONG_KIND, Jack("rocker", "out"))


def test_cables_that_are_not_for_midi_are_no_links():
    sockets = [socket(way, f"audio-{way}", "ts-6.35") for way in ("in", "out")]
    audio = make_chart("amp", sockets)
    units = [make_unit("feet", "amp"), make_unit("pre", "amp")]
    cable = make_cable("feet.out", "pre.in", "ts-6.35/ts-6.35")
    assert links_of(units, [cable], [audio]) == ()


def test_usb_is_a_link_each_way():
    usb = make_chart("computer", [socket("usb", "usb", "usb-b")])
    units = [make_unit("feet", "computer"), make_unit("pre", "computer")]
    there, back = links_of(units, [make_cable("feet.usb", "pre.usb", "usb-b/usb-b")], [usb])
    assert (there.start, there.stop) == (back.stop, back.start)
    assert there.carries is back.carries is True


def test_a_y_lead_leaves_both_ways_in_doubt():
    legs = {f"out-{n}": socket(f"out-{n}", "midi", "din5") for n in (1, 2)}
    straight = {"2": "2", "4": "4", "5": "5"}
    y_lead = make_chart(
        "y-lead",
        [socket("in", "midi", "din5"), *legs.values()],
        bond=[{"from": "in", "to": leg, "contacts": straight} for leg in legs],
    )
    units = [*DUO, make_unit("post", "bramley"), make_unit("y", "y-lead")]
    cables = [
        make_cable("feet.midi-out", "y.in"),
        make_cable("y.out-1", "pre.midi-in"),
        make_cable("y.out-2", "post.midi-in"),
    ]
    links = links_of(units, cables, [make_controller(), make_chart(), y_lead])
    # The legs also join the two inputs, which is no way for messages.
    doubted = [link for link in links if link.start == Jack("feet", "midi-out")]
    assert [link.state for link in doubted] == [LinkState.CANNOT_TELL] * 2
    assert Jack("feet", "midi-out") in shared(links)
    one_leg = links_of(units, cables[:2], [make_controller(), make_chart(), y_lead])
    assert one_leg[0].state is LinkState.WORKS


def test_two_outputs_into_one_input_are_in_doubt():
    units = [*DUO, make_unit("post", "bramley")]
    cables = [make_cable(f"{unit}.midi-out", "post.midi-in") for unit in ("feet", "pre")]
    links = links_of(units, cables)
    assert [link.carries for link in links] == [None, None]
    assert links[0].why == "2 sockets are joined with post.midi-in without a merge between them"
    assert list(shared(links)) == [Jack("post", "midi-in")]


def test_a_lead_without_its_wires_leaves_the_other_in_no_doubt():
    units = [*DUO, make_unit("post", "bramley")]
    cables = [make_cable(f"{unit}.midi-out", "post.midi-in") for unit in ("feet", "pre")]
    cables[1]["wiring"] = {"2": "2"}
    assert [link.state for link in links_of(units, cables)] == [LinkState.WORKS, LinkState.OPEN]


def test_usb_in_several_places_is_in_no_doubt():
    usb = make_chart("computer", [socket("usb", "usb", "usb-b")])
    units = [make_unit(name, "computer") for name in ("feet", "pre", "post")]
    cables = [make_cable("feet.usb", f"{unit}.usb", "usb-b/usb-b") for unit in ("pre", "post")]
    assert {link.state for link in links_of(units, cables, [usb])} == {LinkState.WORKS}


def test_an_active_split_leaves_no_doubt():
    units = [*DUO, make_unit("post", "bramley"), make_unit("box", "split")]
    cables = [
        make_cable("feet.midi-out", "box.in-1"),
        make_cable("box.out-1", "pre.midi-in"),
        make_cable("box.out-2", "post.midi-in"),
    ]
    links = links_of(units, cables, [make_controller(), make_chart(), make_box("split", 1, 2)])
    assert [link.state for link in links] == [LinkState.WORKS] * 3


def test_a_cable_from_a_socket_to_itself_is_no_link():
    assert links_of(DUO, [make_cable("feet.midi-out", "feet.midi-out")]) == ()


def test_a_unit_plugged_into_itself():
    (link,) = links_of(DUO, [make_cable("pre.midi-out", "pre.midi-in")])
    assert link.state is LinkState.WORKS


@given(boards())
def test_every_cable_of_a_board_is_one_link(board: Board):
    links = read_links(board.rig())
    assert [link.name for link in links] == [link.cables[0].name for link in links]
    assert sorted(link.name for link in links) == sorted(c.name for c in board.rig().cables)


def test_adapters_in_a_mesh_do_not_hang():
    sockets = [socket(f"s-{n}", "midi", "din5") for n in range(4)]
    bonds = [
        {"from": f"s-{a}", "to": f"s-{b}", "contacts": {"4": "4", "5": "5"}}
        for a in range(4) for b in range(a)
    ]  # fmt: skip
    hub = make_chart("hub", sockets, bond=bonds)
    units = [*DUO, make_unit("x", "hub"), make_unit("y", "hub")]
    cables = [make_cable(f"x.s-{n}", f"y.s-{n}") for n in range(3)]
    cables += [make_cable("feet.midi-out", "x.s-3"), make_cable("y.s-3", "pre.midi-in")]
    links = links_of(units, cables, [make_controller(), make_chart(), hub])
    assert all(link.stop == Jack("pre", "midi-in") for link in links if link.carries is not False)
