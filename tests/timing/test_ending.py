import pytest

from tests.rigs import make_box, make_cable, make_controller, make_line, make_rig, make_unit
from tests.timing.played import ground_of
from thruline.path.silence import why_silent
from thruline.timing.ending import Mark, ending_at, silence_in_words
from thruline.timing.fate import Fate


@pytest.mark.parametrize("fate", Fate)
def test_every_fate_has_a_mark_and_words(fate):
    end = ending_at(make_line(1).units["unit-1"], fate)
    assert end.says
    if fate.is_good:
        assert end.mark is Mark.DOT
    else:
        assert end.mark is not Mark.DOT


def test_another_channel_is_named():
    end = ending_at(make_line(2).units["unit-2"], Fate.OTHER_CHANNEL)
    assert end.says == "left alone: it listens to channel 2"


def silence(rig, unit):
    ground = ground_of(rig)
    wires = ground.wires
    found = why_silent(wires, ground.hearing, source="feet", target=unit)
    return silence_in_words(wires.units, found[0])


def test_a_setting_is_named_with_its_value():
    rig = make_line(2, ways=("own", "thru-soft"))
    assert silence(rig, "unit-2") == 'Orchard Bramley MIDI OUT is set to "own"'


def test_an_output_without_a_setting():
    assert (
        silence(make_line(2, ways=("own",)), "unit-2")
        == "Orchard Bramley MIDI OUT passes nothing on"
    )


def test_a_cable_is_named_by_its_units():
    units = [make_unit("feet", "braeburn"), make_unit("pre", "bramley", name="Egremont Preamp")]
    cables = [make_cable("feet.midi-out", "pre.midi-in", wiring="crossed")]
    assert (
        silence(make_rig(units, cables), "pre")
        == "cable from Orchard Braeburn to Egremont Preamp: the two wires of the pair are swapped"
    )


def test_a_free_input_is_named():
    units = [make_unit("feet", "braeburn"), make_unit("pre", "bramley")]
    assert silence(make_rig(units), "pre") == "nothing is plugged into Orchard Bramley MIDI IN"


def test_a_unit_without_an_input():
    units = [make_unit("feet", "braeburn"), make_unit("pre", "box")]
    rig = make_rig(units, charts=[make_box("box", 0, 1), make_controller()])
    assert "no MIDI input" in silence(rig, "pre")
