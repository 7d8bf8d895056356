from tests.find.boards import meant
from tests.rigs import (
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from thruline.find.cable_suspects import alike_cut, cable_suspects, called
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.suspect import put_in
from thruline.path.network import read_network
from thruline.proof.case import Case
from thruline.rig.cable import Jack


def _kinds(rig):
    return {one.kind for one in cable_suspects(meant_by(Case(rig)))}


def _two(connector, **cable):
    charts = [make_controller(), make_chart("bramley", [midi_in("midi-in", connector), midi_out()])]
    lead = make_cable("feet.midi-out", "delay.midi-in", f"din5/{connector}", **cable)
    return make_rig([make_unit("feet", "braeburn"), make_unit("delay", "bramley")], [lead], charts)


def test_a_din_lead():
    kinds = _kinds(_two("din5"))
    assert {Kind.CABLE_OPEN, Kind.CABLE_CROSSED, Kind.CABLE_INTO_OUTPUT} <= kinds
    assert not kinds & {Kind.CABLE_OTHER_TYPE, Kind.CABLE_MONO_PLUG, Kind.CABLE_TOO_LONG}


def test_a_lead_with_a_jack_plug():
    kinds = _kinds(_two("trs-3.5"))
    assert {Kind.CABLE_OTHER_TYPE, Kind.CABLE_MONO_PLUG} <= kinds
    assert Kind.CABLE_CROSSED not in kinds


def test_a_long_lead():
    assert Kind.CABLE_TOO_LONG in _kinds(_two("din5", length=20_000))


def test_every_one_of_them_silences_the_line_by_the_rules_of_the_path():
    rig = _two("trs-3.5")
    for one in cable_suspects(meant_by(Case(rig))):
        links = read_network(put_in(rig, one.changes)).links
        assert not any(link.carries for link in links), one.id


def test_the_only_lead_of_a_socket_is_known():
    assert alike_cut(meant(), Jack("box-3", "midi-in")) == "cut box-2.midi-out>box-3.midi-in"
    assert alike_cut(meant(), Jack("box-3", "midi-out")) == ""


def test_a_lead_is_called_by_its_ends():
    rig = meant().rig
    assert called(rig, rig.cables[0]) == "the lead Orchard Braeburn – Orchard Bramley"
