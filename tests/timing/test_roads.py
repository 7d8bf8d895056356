from itertools import pairwise

import pytest

from tests.rigs import (
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
    socket,
)
from tests.timing.wired import HANDS, arrivals_by_hand, roads, wired
from thruline.rig.cable import Jack
from thruline.timing.network import Copy, Output, Way
from thruline.timing.roads import WIRE_DELAY_US
from thruline.timing.sending import Item, Purpose, Sending
from thruline.timing.travel import Travel


def line(found, unit, name="midi-out"):
    return found.network.lines[found.line_of[Jack(unit, name)]]


@pytest.mark.parametrize(
    ("output", "travel"),
    [
        ({"ways": ["thru-wire"], "from": ["midi-in"]}, Travel(WIRE_DELAY_US, 0)),
        ({"ways": ["thru-soft"], "latency-us": 900}, Travel(900, 1)),
        ({"ways": ["merge"]}, Travel(0, 1)),
        ({"ways": ["thru-soft"], "by": "byte", "latency-us": 900}, Travel(1220, 0)),
    ],
)
def test_how_an_output_delays(output, travel):
    found = roads(make_line(3, output=[{"socket": "midi-out", **output}]))
    assert found.travels["unit-1"] == Travel()
    assert found.travels["unit-2"] == travel
    twice = Travel(2 * travel.fixed_us, 2 * travel.whole_hops)
    assert found.travels["unit-3"] == twice


@pytest.mark.parametrize("way", ["own", "off"])
def test_what_passes_nothing_on_feeds_nothing(way):
    found = roads(make_line(2, ways=[way]))
    assert "unit-2" not in found.travels
    feeds = line(found, "unit-1").feeds
    assert feeds == ()


def test_only_the_controller_is_a_sender():
    found = roads(make_line(2, ways=["merge"]))
    assert line(found, "feet").sender == 0
    assert line(found, "unit-1").sender is None
    assert found.starts == (found.line_of[Jack("feet", "midi-out")],)


def test_without_a_controller_nothing_starts():
    rig = make_rig([make_unit("delay", "bramley")], rig={"name": "x", "controller": "feet"})
    assert roads(rig).starts == ()


def test_a_setting_that_cannot_be_told_carries_nothing():
    found = roads(make_line(2, ways=["own", "merge"], setting=[]))
    assert "unit-2" not in found.travels


def test_filters_are_status_bytes():
    output = {"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["program", "own-channel"]}
    (feed,) = line(roads(make_line(2, output=[output])), "unit-1").feeds
    assert feed.blocks == {*range(0xC0, 0xD0), *range(0x80, 0xF0, 0x10)}


def test_a_merge_has_a_feed_for_each_input():
    charts = [make_controller(sockets=[midi_out("a"), midi_out("b")]), make_chart()]
    merge = make_box("merge", 2, 1, way="merge")
    units = [
        make_unit("feet", "braeburn"),
        make_unit("box", "merge"),
        make_unit("delay", "bramley"),
    ]
    cables = [
        make_cable("feet.a", "box.in-1"),
        make_cable("feet.b", "box.in-2"),
        make_cable("box.out-1", "delay.midi-in"),
    ]
    found = roads(make_rig(units, cables, [*charts, merge]))
    assert len(found.starts) == 2
    merged = line(found, "box", "out-1")
    assert {feed.source for feed in merged.feeds} == set(found.starts)
    assert all(feed.way is Way.WHOLE for feed in merged.feeds)
    assert found.inputs["delay"] == (found.line_of[Jack("box", "out-1")],)


def test_a_split_makes_copies():
    rig = make_rig(
        [make_unit("feet", "braeburn"), make_unit("box", "split")],
        [make_cable("feet.midi-out", "box.in-1")],
        [make_controller(), make_box("split", 1, 3)],
    )
    found = roads(rig)
    start = found.line_of[Jack("feet", "midi-out")]
    for number in (1, 2, 3):
        assert line(found, "box", f"out-{number}") == Copy(source=start, delay_us=WIRE_DELAY_US)


def test_a_copy_of_nothing_is_silent():
    rig = make_rig([make_unit("box", "split")], [], [make_box("split", 1, 1)])
    assert line(roads(rig), "box", "out-1") == Output(real_time_first=True)


def test_a_ring_is_cut_and_still_reaches_everybody():
    merge = make_chart("merge", [midi_in("a"), midi_in("b"), midi_out()], ways=["merge"])
    names = ("feet", "one", "two")
    units = [make_unit("feet", "braeburn"), make_unit("one", "merge"), make_unit("two", "merge")]
    cables = [make_cable(f"{a}.midi-out", f"{b}.a") for a, b in pairwise(names)]
    cables.append(make_cable("two.midi-out", "one.b"))
    found = roads(make_rig(units, cables, [make_controller(), merge]))
    assert found.travels == {"one": Travel(), "two": Travel(0, 1)}


def test_a_cable_that_does_not_work_leads_nowhere():
    crossed = make_cable("feet.midi-out", "delay.midi-in", wiring="crossed")
    units = [make_unit("feet", "braeburn"), make_unit("delay", "bramley")]
    assert roads(make_rig(units, [crossed])).travels == {}


def test_usb_is_a_line_like_any_other():
    usb = [socket("usb", "usb", "usb-b"), midi_out()]
    feet = make_controller(sockets=usb, output=[{"socket": "usb", "ways": ["own"]}])
    host = make_chart("host", [socket("usb", "usb", "usb-a")])
    rig = make_rig(
        [make_unit("feet", "braeburn"), make_unit("host", "host")],
        [make_cable("feet.usb", "host.usb", "usb-b/usb-a")],
        [feet, host],
    )
    found = roads(rig)
    assert found.inputs["host"] == (found.line_of[Jack("feet", "usb")],)


@pytest.mark.parametrize(("said", "output", "omits"), [
    (True, None, True), (True, False, False), (False, None, False), (None, None, False),
])  # fmt: skip
def test_running_status_as_the_output_says_or_else_the_controller(said, output, omits):
    outputs = {"socket": "midi-out", "ways": ["own"]}
    abilities = {"presets": 9}
    feet = make_controller(
        output=[outputs if output is None else {**outputs, "running-status": output}],
        controller=abilities if said is None else {**abilities, "running-status": said},
    )
    rig = make_rig([make_unit("feet", "braeburn")], [], [feet])
    assert line(roads(rig), "feet").running_status is omits


@pytest.mark.parametrize("seed", range(60))
def test_travel_is_what_a_message_by_itself_takes(seed):
    rig = wired(seed)
    bend = Sending((Item(b"\xe8\x00\x40", Purpose.OTHER),))  # that nothing here holds back
    travels = roads(rig).travels
    for unit, rows in arrivals_by_hand(rig, bend, hand=HANDS[0]).items():
        assert bool(rows) is (unit in travels)
        if rows:
            assert rows[0][2] == 960 + travels[unit].of(3)
