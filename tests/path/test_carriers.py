import pytest

from tests.rigs import (
    make_box,
    make_cable,
    make_chart,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
    socket,
)
from thruline.path.carriers import midi_inputs
from thruline.path.network import read_network
from thruline.rig.cable import Jack
from thruline.rig.chart import Way


def carrier_of(chart, jack="midi-out", **unit):
    rig = make_rig([make_unit("delay", chart["chart"]["id"], **unit)], charts=[chart])
    return read_network(rig).outputs[Jack("delay", jack)]


@pytest.mark.parametrize(
    ("ways", "way", "forwards", "own"),
    [
        (["thru-wire"], Way.THRU_WIRE, True, False),
        (["thru-soft"], Way.THRU_SOFT, True, False),
        (["merge"], Way.MERGE, True, True),
        (["own"], Way.OWN, False, True),
        (["off"], Way.OFF, False, False),
        (["own", "off"], None, False, None),
        (["merge", "own"], None, None, True),
        (["thru-soft", "thru-wire"], None, True, False),
        (["thru-soft", "merge"], None, True, None),
        (["thru-soft", "off"], None, None, False),
    ],
)
def test_what_an_output_does(ways, way, forwards, own):
    carrier = carrier_of(make_chart(ways=ways, setting=[]))
    assert (carrier.way, carrier.forwards, carrier.sends_own) == (way, forwards, own)


def test_an_output_that_its_chart_does_not_describe_may_do_anything():
    carrier = carrier_of(make_chart(output=[], setting=[]))
    assert (carrier.way, carrier.forwards, carrier.sends_own) == (None, None, None)
    assert carrier.output.sources == ("midi-in",)
    assert carrier.passes(0xC0) is None


def output(**more):
    return [{"socket": "midi-out", "ways": ["thru-soft"], **more}]


def test_what_an_output_holds_back():
    carrier = carrier_of(make_chart(output=output(blocks=["clock", "own-channel"])), channel=3)
    assert carrier.passes(0xC2) is carrier.passes(0xF8) is False
    assert carrier.passes(0xC3) is carrier.passes(0xFA) is True


def test_an_own_channel_that_is_not_known():
    carrier = carrier_of(make_chart(output=output(blocks=["own-channel"]), channel={}))
    assert carrier.passes(0xC0) is None
    assert carrier.passes(0xF8) is True


def test_an_electrical_copy_holds_nothing_back():
    copy = carrier_of(make_chart(output=output(ways=["thru-wire"], blocks=["clock"])))
    assert copy.passes(0xF8) is True
    either = output(ways=["thru-wire", "thru-soft"], blocks=["clock"])
    unknown = carrier_of(make_chart(output=either, setting=[]))
    assert unknown.passes(0xF8) is None
    assert unknown.passes(0xC0) is True


def test_feeds_come_in_the_order_of_the_sockets():
    units = [make_unit(name, "bramley") for name in ("feet", "pre", "post")]
    units.append(make_unit("mix", "merger"))
    cables = [
        make_cable("pre.midi-out", "mix.in-3"),
        make_cable("feet.midi-out", "mix.in-1"),
        make_cable("post.midi-out", "mix.in-2", wiring="crossed"),
    ]
    rig = make_rig(units, cables, [make_chart(), make_box("merger", 3, 1, way="merge")])
    network = read_network(rig)
    feeds = network.outputs[Jack("mix", "out-1")].feeds
    assert [(str(feed.source), feed.input.socket) for feed in feeds] == [
        ("feet.midi-out", "in-1"), ("pre.midi-out", "in-3"),
    ]  # fmt: skip
    assert [link.carries for link in network.inputs[Jack("mix", "in-2")]] == [False]


def test_an_output_that_passes_nothing_on_has_no_feeds():
    units = [make_unit("feet", "bramley"), make_unit("pre", "own")]
    charts = [make_chart(), make_chart("own", ways=["own"])]
    rig = make_rig(units, [make_cable("feet.midi-out", "pre.midi-in")], charts)
    assert read_network(rig).outputs[Jack("pre", "midi-out")].feeds == ()


def test_usb_is_an_output_only_if_the_chart_says_so():
    sockets = [midi_in(), midi_out(), socket("usb", "usb", "usb-b")]
    silent = make_chart("silent", sockets)
    talking = make_chart("talking", sockets, output=[{"socket": "usb", "ways": ["merge"]}])
    units = [make_unit("feet", "silent"), make_unit("pre", "talking")]
    network = read_network(make_rig(units, charts=[silent, talking]))
    assert Jack("feet", "usb") not in network.outputs
    assert network.outputs[Jack("pre", "usb")].output.sources == ("midi-in",)
    assert Jack("feet", "usb") in network.inputs


def test_inputs_in_the_order_of_the_document():
    units = [make_unit("z", "bramley"), make_unit("a", "split")]
    rig = make_rig(units, charts=[make_chart(), make_box("split", 2, 1)])
    assert [str(jack) for jack in midi_inputs(rig.units)] == ["z.midi-in", "a.in-1", "a.in-2"]
