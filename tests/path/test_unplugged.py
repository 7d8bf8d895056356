from tests.opening import open_text
from tests.rigs import (
    make_adapter,
    make_box,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
    socket,
)
from thruline.path.network import read_network
from thruline.path.outcome import Outcome
from thruline.path.unplugged import unplugged
from thruline.proof.example_boards import DELAY, board
from thruline.rig.cable import Jack

FEET, PRE, POST = (
    make_unit("feet", "braeburn"),
    make_unit("pre", "bramley"),
    make_unit("post", "bramley"),
)
SENT = {Jack("feet", "midi-out"): ()}


def missing(rig, target="post", source="feet", sent=SENT):
    return unplugged(read_network(rig), source, target, sent=sent)


def test_nothing_is_plugged_into_the_unit():
    (found,) = missing(make_rig([FEET, PRE, POST], make_chain("feet", "pre")))
    assert (found.outcome, found.jack) == (Outcome.NOT_PLUGGED_IN, Jack("post", "midi-in"))
    assert found.why == "nothing is plugged into post.midi-in"
    assert found.hops == ()


def test_an_output_that_is_free_is_named():
    (found,) = missing(make_rig([FEET, PRE, POST], make_chain("pre", "post")))
    assert found.jack == Jack("pre", "midi-in")
    assert found.why == "nothing is plugged into pre.midi-in; feet.midi-out is free"


def test_free_outputs_are_counted_and_usb_is_no_way_into_a_din_socket():
    rig = open_text(board(DELAY).rig).rig
    network = read_network(rig)
    sent = {one.jack: () for one in network.outputs_of("feet")}
    (found,) = unplugged(network, "feet", "delay", sent=sent)
    assert found.why == (
        "nothing is plugged into delay.midi-in; feet.midi-out-1, feet.midi-out-2 are free"
    )
    assert any(jack.socket == "usb" for jack in sent)
    assert [jack.socket for jack in found.free] == ["midi-out-1", "midi-out-2"]


def test_an_adapter_with_a_free_end_comes_first():
    charts = [make_controller(), make_chart(), make_adapter("plug", {"4": "ring", "5": "tip"})]
    rig = make_rig(
        [FEET, PRE, make_unit("x", "plug")], [make_cable("feet.midi-out", "x.a")], charts
    )
    loose, free = missing(rig, "pre")
    assert (loose.jack, loose.unit) == (Jack("x", "a"), "x")
    assert loose.link is not None
    assert free.jack == Jack("pre", "midi-in")


def test_a_unit_without_the_socket():
    charts = [make_controller(), make_chart("pedal", [socket("in", "audio-in", "ts-6.35")])]
    rig = make_rig([FEET, make_unit("post", "pedal")], charts=charts)
    (found,) = missing(rig)
    assert (found.outcome, found.jack, found.unit) == (Outcome.NO_SOCKET, None, "post")
    (found,) = missing(rig, "feet", source="post", sent={})
    assert found.why == "post has no MIDI output"


def test_usb_is_asked_for_only_where_there_is_nothing_else():
    both = make_chart("both", [midi_in(), socket("usb", "usb", "usb-b")])
    usb = make_chart("usb-only", [socket("usb", "usb", "usb-b")])
    units = [FEET, make_unit("pre", "both"), make_unit("post", "usb-only")]
    rig = make_rig(units, charts=[make_controller(), both, usb])
    assert [str(one.jack) for one in missing(rig, "pre")] == ["pre.midi-in"]
    assert [str(one.jack) for one in missing(rig, "post")] == ["post.usb"]


def test_a_free_input_of_a_merge_on_the_way():
    charts = [make_controller(), make_chart(), make_box("merger", 2, 1, way="merge")]
    units = [FEET, PRE, POST, make_unit("mix", "merger")]
    cables = [make_cable("pre.midi-out", "mix.in-1"), make_cable("mix.out-1", "post.midi-in")]
    found = missing(make_rig(units, cables, charts))
    assert [str(one.jack) for one in found] == ["mix.in-2", "pre.midi-in"]


def test_every_input_is_taken_by_others():
    charts = [make_controller(), make_chart(), make_chart("looper", [midi_out()], ways=["own"])]
    units = [FEET, POST, make_unit("loop", "looper")]
    (found,) = missing(make_rig(units, make_chain("loop", "post"), charts))
    assert found.jack == Jack("post", "midi-in")
    assert found.why == (
        "no cable leads from feet to post; "
        "what is plugged into post.midi-in comes from loop.midi-out"
    )


def test_a_ring_of_others_has_an_end():
    rig = make_rig([FEET, PRE, POST], make_chain("pre", "post", "pre"))
    (found,) = missing(rig)
    assert found.why.startswith("no cable leads from feet to post")
