from tests.rigs import (
    make_adapter,
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.path.words import hops_in_words, jack_in_words, link_in_words
from thruline.rig.cable import Jack

UNITS = [make_unit("feet", "braeburn"), make_unit("pre", "bramley"), make_unit("delay", "bramley")]


def test_a_way_through_a_unit():
    rig = make_rig(UNITS, make_chain("feet", "pre", "delay"))
    (route,) = read_hearing(read_network(rig)).routes_to("delay")
    assert hops_in_words(rig.units, route.hops) == (
        "feet MIDI OUT -> cable 300 mm -> pre MIDI IN, passed on by pre (soft thru) at "
        "pre MIDI OUT -> cable 300 mm -> delay MIDI IN"
    )
    assert hops_in_words(rig.units, ()) == ""


def test_an_output_that_cannot_be_told():
    charts = [make_controller(), make_chart(ways=["own", "thru-soft"], setting=[])]
    rig = make_rig(UNITS, make_chain("feet", "pre", "delay"), charts)
    route = read_hearing(read_network(rig)).routes_between("feet", "delay")[0]
    assert "passed on by pre (cannot be told) at" in hops_in_words(rig.units, route.hops)


def test_a_link_over_an_adapter_and_a_cable_of_unknown_length():
    charts = [make_controller(), make_chart("mini", [midi_in(connector="trs-3.5")])]
    charts.append(make_adapter("plug", {"4": "ring", "5": "tip"}))
    cables = [
        make_cable("feet.midi-out", "x.a"),
        make_cable("x.b", "pre.midi-in", "trs-3.5/trs-3.5"),
    ]
    cables[1].pop("length")
    units = [UNITS[0], make_unit("pre", "mini"), make_unit("x", "plug")]
    rig = make_rig(units, cables, charts)
    assert link_in_words(rig.units, read_network(rig).links[0]) == (
        "feet MIDI OUT -> cable 300 mm -> adapter x -> cable -> pre MIDI IN"
    )


def test_a_socket_is_called_by_what_is_printed_beside_it():
    chart = make_controller(sockets=[midi_out("midi-out", marked="MIDI OUT/THRU")])
    rig = make_rig(UNITS[:1], charts=[chart])
    assert jack_in_words(rig.units, Jack("feet", "midi-out")) == "feet MIDI OUT/THRU"
    assert jack_in_words(rig.units, Jack("gone", "midi-in")) == "gone MIDI IN"
