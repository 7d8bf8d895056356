from hypothesis import given, settings
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
    midi_out,
    socket,
)
from thruline.path.hearing import Heard, read_hearing
from thruline.path.network import read_network
from thruline.path.outcome import Outcome, Quality
from thruline.path.silence import why_silent

TRIO = [
    make_unit("feet", "braeburn"),
    make_unit("pre", "bramley", channel=2),
    make_unit("post", "bramley", channel=3),
]


def breaks(rig, target="post", source="feet", **more):
    network = read_network(rig)
    return why_silent(network, read_hearing(network), source=source, target=target, **more)


def told(rig, target="post", **more):
    return [(one.outcome, str(one.jack)) for one in breaks(rig, target, **more)]


def test_nothing_stops_what_is_heard():
    assert breaks(make_line(2), "unit-2") == ()


def test_a_broken_link():
    cables = make_chain("feet", "pre", "post")
    cables[0]["wiring"] = "crossed"
    (found,) = breaks(make_rig(TRIO, cables))
    assert (found.outcome, str(found.jack)) == (Outcome.LOST, "pre.midi-in")
    assert found.link is not None
    assert found.why == found.link.why
    assert [str(hop.link.stop) for hop in found.hops] == ["pre.midi-in"]


def test_of_two_troubles_on_a_way_the_first_is_told():
    cables = make_chain("feet", "pre", "post")
    cables[1]["wiring"] = "crossed"
    charts = [make_controller(), make_chart(ways=["own"])]
    assert told(make_rig(TRIO, cables)) == [(Outcome.LOST, "post.midi-in")]
    assert told(make_rig(TRIO, cables, charts)) == [(Outcome.NOT_PASSED_ON, "pre.midi-out")]


def test_an_output_that_cannot_be_told():
    rig = make_line(3, ways=["own", "thru-soft"], setting=[])
    assert told(rig, "unit-3") == [(Outcome.WAY_UNTOLD, "unit-1.midi-out")]


def test_a_source_that_sends_nothing_of_its_own():
    assert told(make_line(2), "unit-2", source="unit-1") == [(Outcome.NOT_SENT, "unit-1.midi-out")]


def test_a_filter_stops_one_kind_of_message():
    rig = make_line(2, output=[{"socket": "midi-out", "ways": ["thru-soft"], "blocks": ["clock"]}])
    assert breaks(rig, "unit-2") == breaks(rig, "unit-2", status=0xC0) == ()
    (found,) = breaks(rig, "unit-2", status=0xF8)
    assert found.outcome is Outcome.HELD_BACK
    assert found.why == "unit-1.midi-out holds back clock"


def test_wrong_sockets_at_both_ends():
    swapped = [
        make_cable("feet.midi-out", "pre.midi-out"),
        make_cable("pre.midi-in", "post.midi-in"),
    ]
    assert told(make_rig(TRIO, swapped)) == [(Outcome.LOST, "pre.midi-out")]


def test_a_cable_in_an_expression_socket():
    sockets = [midi_in(), socket("exp", "expression-in", "trs-6.35")]
    charts = [
        make_controller(sockets=[midi_out(connector="trs-6.35")]),
        make_chart(sockets=sockets),
    ]
    rig = make_rig(TRIO[:2], [make_cable("feet.midi-out", "pre.exp", "trs-6.35/trs-6.35")], charts)
    assert told(rig, "pre") == [(Outcome.LOST, "pre.exp")]


def star(second="thru-wire", **third):
    """`feet` to a box, one of its outputs to `pre` and one to `post`."""
    charts = [make_controller(), make_chart(), make_box("split", 1, 2, way=second)]
    cables = [
        make_cable("feet.midi-out", "box.in-1"),
        make_cable("box.out-1", "pre.midi-in"),
        make_cable("box.out-2", "post.midi-in", **third),
    ]
    return make_rig([*TRIO, make_unit("box", "split")], cables, charts)


def test_only_the_leg_that_leads_there_is_told():
    assert told(star(wiring="crossed")) == [(Outcome.LOST, "post.midi-in")]
    assert told(star(wiring="crossed"), "pre") == []
    assert told(star("off"), "pre") == [(Outcome.NOT_PASSED_ON, "box.out-1")]


def test_every_way_there_has_its_break():
    merger = make_chart("merger", [midi_in("in-1"), midi_in("in-2")])
    charts = [make_controller(), make_box("split", 1, 2), merger]
    units = [TRIO[0], make_unit("box", "split"), make_unit("mix", "merger")]
    cables = [
        make_cable("feet.midi-out", "box.in-1"),
        make_cable("box.out-1", "mix.in-1", wiring="crossed"),
        make_cable("box.out-2", "mix.in-2", wiring={"4": "4"}),
    ]
    assert told(make_rig(units, cables, charts), "mix") == [
        (Outcome.LOST, "mix.in-1"),
        (Outcome.LOST, "mix.in-2"),
    ]


def test_a_way_back_to_where_messages_are_already_is_not_told():
    feet = make_controller(sockets=[midi_in(), midi_out("one"), midi_out("two")], ways=["merge"])
    charts = [feet, make_chart(), make_chart("silent", ways=["off"])]
    units = [TRIO[0], make_unit("pre", "silent"), TRIO[2]]
    cables = [
        make_cable("feet.one", "pre.midi-in"),
        make_cable("pre.midi-out", "feet.midi-in"),
        make_cable("feet.two", "post.midi-in", wiring="crossed"),
    ]
    assert told(make_rig(units, cables, charts)) == [(Outcome.LOST, "post.midi-in")]


def router(*, fed):
    """A box whose second output passes on its second input only."""
    output = [{"socket": f"out-{n}", "ways": ["thru-soft"], "from": [f"in-{n}"]} for n in (1, 2)]
    charts = [make_controller(), make_chart(), make_box("router", 2, 2, output=output)]
    cables = [make_cable("feet.midi-out", f"box.in-{fed}"), make_cable("box.out-2", "post.midi-in")]
    return make_rig([*TRIO, make_unit("box", "router")], cables, charts)


def test_an_output_that_is_made_for_another_input():
    assert told(router(fed=2)) == []
    (found,) = breaks(router(fed=1))
    assert (found.outcome, str(found.jack)) == (Outcome.NOT_JOINED, "box.out-2")
    assert found.why == "box.out-2 passes on in-2 only"


def test_an_output_made_for_another_input_is_not_told_when_something_is_broken():
    output = [{"socket": f"out-{n}", "ways": ["thru-soft"], "from": [f"in-{n}"]} for n in (1, 2)]
    two_outs = make_controller(sockets=[midi_out("one"), midi_out("two")])
    charts = [two_outs, make_chart(), make_box("router", 2, 2, output=output)]
    cables = [
        make_cable("feet.one", "box.in-1"),
        make_cable("feet.two", "box.in-2", wiring="crossed"),
        make_cable("box.out-2", "post.midi-in"),
    ]
    rig = make_rig([*TRIO, make_unit("box", "router")], cables, charts)
    assert told(rig) == [(Outcome.LOST, "box.in-2")]


@settings(max_examples=200)
@given(boards(), st.sampled_from([None, 0xC0, 0xF8]))
def test_there_is_a_reason_for_every_silence_and_none_for_a_hearing(board: Board, status):
    network = read_network(board.rig())
    hearing = read_hearing(network)
    for source in board.units:
        for target in board.units:
            pair = {"source": f"unit-{source}", "target": f"unit-{target}"}
            found = why_silent(network, hearing, **pair, status=status)
            heard = hearing.hears(**pair, status=status)
            assert bool(found) == (heard is not Heard.YES)
            qualities = {one.outcome.quality for one in found}
            if heard is Heard.CANNOT_TELL:
                assert qualities == {Quality.CANNOT_TELL}
            if heard is Heard.NO:
                assert qualities == {Quality.BAD}
