from tests.rigs import (
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from thruline.path.makers import leaves_status_out, maker_of
from thruline.path.network import read_network
from thruline.rig.cable import Jack


def _network(way, *, controller=None, output=None):
    box = make_chart(
        "bramley",
        [midi_in(), midi_out()],
        output=[
            {"socket": "midi-out", "ways": [way], **({"latency-us": 200} if "soft" in way else {})}
        ],
    )
    feet = make_controller(
        "braeburn",
        [midi_out()],
        output=[{"socket": "midi-out", "ways": ["own"], **(output or {})}],
        controller={"presets": 8, "sends": ["program"], **(controller or {})},
    )
    units = [make_unit("feet", "braeburn"), *(make_unit(one, "bramley") for one in ("a", "b"))]
    cables = [make_cable("feet.midi-out", "a.midi-in"), make_cable("a.midi-out", "b.midi-in")]
    return read_network(make_rig(units, cables, [feet, box]))


def _maker(network):
    return maker_of(network, network.inputs[Jack("b", "midi-in")][0])


def test_behind_an_electrical_copy_it_is_the_output_before():
    assert _maker(_network("thru-wire")).jack == Jack("feet", "midi-out")
    assert _maker(_network("thru-soft")).jack == Jack("a", "midi-out")


def test_the_controller_says_it_of_all_its_outputs_unless_one_says_otherwise():
    says = {"running-status": True}
    assert leaves_status_out(_maker(_network("thru-wire", controller=says))) is True
    own = _network("thru-wire", controller=says, output={"running-status": False})
    assert leaves_status_out(_maker(own)) is False
    assert leaves_status_out(_maker(_network("thru-soft", controller=says))) is None
