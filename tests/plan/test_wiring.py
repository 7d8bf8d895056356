"""How a cable has to be wired."""

from tests.rigs import make_cable, make_chart, make_controller, make_rig, make_unit, midi_in, socket
from thruline.plan.wiring import as_it_should_be, carries, contact_rows

CHARTS = [
    make_controller(sockets=[
        {"id": "midi-out", "kind": "midi-out", "connector": "din5"},
        socket("exp", "expression-in", "trs-6.35"), socket("send", "audio-out", "ts-6.35"),
    ]),
    make_chart("a", [midi_in(connector="trs-3.5", wiring="type-a"),
                     socket("in", "audio-in", "trs-6.35"),
                     socket("power-in", "power-in", "barrel-2.5")]),
    make_chart("b", [midi_in(connector="trs-6.35", wiring="type-b")]),
    make_chart("pedal", [socket("out", "expression-out", "trs-6.35")], channel=None,
               expression={"wiring": "wiper-on-ring"}),
    make_chart("supply", [socket("outlet", "power-out", "barrel-2.1")], channel=None,
               outlet=[{"socket": "outlet", "millivolts": 9000, "milliamps": 100,
                        "polarity": "centre-negative", "isolated": True}]),
]  # fmt: skip
UNITS = [make_unit("feet", "braeburn"), *(make_unit(one, one) for one in ("a", "b", "pedal"))]


def one_cable(*words, **more):
    rig = make_rig([*UNITS, make_unit("supply", "supply")], [make_cable(*words, **more)], CHARTS)
    return rig, rig.cables[0]


def test_a_cable_that_carries_stays():
    rig, cable = one_cable("feet.midi-out", "a.midi-in", "din5/trs-3.5", wiring="type-a")
    assert carries(rig, cable) is True
    assert as_it_should_be(rig, cable) == cable


def test_the_wiring_is_changed_to_one_that_carries():
    rig, cable = one_cable("feet.midi-out", "b.midi-in", "din5/trs-6.35", wiring="type-a")
    assert carries(rig, cable) is False
    better = as_it_should_be(rig, cable)
    assert better.wiring == "type-b"
    assert carries(rig, better) is True


def test_plugs_that_do_not_fit_are_changed():
    rig, cable = one_cable("feet.midi-out", "a.midi-in", "din5/din5")
    better = as_it_should_be(rig, cable)
    assert better.plugs == ("din5", "trs-3.5")
    assert carries(rig, better) is True


def test_a_mono_plug_in_a_stereo_socket_is_left():
    rig, cable = one_cable("feet.send", "a.in", "ts-6.35/ts-6.35")
    assert as_it_should_be(rig, cable) == cable
    assert carries(rig, cable) is None


def test_contacts_of_an_adapter_lead():
    rig, cable = one_cable("feet.midi-out", "b.midi-in", "din5/trs-6.35", wiring="type-b")
    assert list(contact_rows(rig, cable)) == [
        ("1", "-", "leave it open"),
        ("2", "sleeve", "shield"),
        ("3", "-", "leave it open"),
        ("4", "tip", "current source"),
        ("5", "ring", "current sink (data)"),
    ]


def test_contacts_of_other_kinds():
    rig, cable = one_cable("pedal.out", "feet.exp", "trs-6.35/trs-6.35")
    assert ("ring", "ring", "wiper") in list(contact_rows(rig, cable))
    rig, cable = one_cable("supply.outlet", "a.power-in", "barrel-2.1/barrel-2.5", wiring="crossed")
    assert list(contact_rows(rig, cable)) == [
        ("centre", "outer", "minus"),
        ("outer", "centre", "plus"),
    ]
    rig, cable = one_cable("feet.send", "a.in", "ts-6.35/trs-6.35")
    assert ("-", "ring", "leave it open") in list(contact_rows(rig, cable))
