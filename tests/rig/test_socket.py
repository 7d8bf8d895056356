import pytest

from thruline.rig.socket import (
    CONTACTS,
    GIVES,
    MIDI_KINDS,
    PLUG_FITS,
    SIGNALS,
    TAKES,
    Socket,
    SocketKind,
    Wiring,
    is_jack,
    plug_fits,
    usual_wiring,
)


def test_every_kind_gives_or_takes_or_goes_both_ways():
    both = {SocketKind.MIDI, SocketKind.USB}
    assert GIVES | TAKES | both == set(SocketKind)
    assert not GIVES & TAKES
    assert both <= MIDI_KINDS


def test_every_wiring_has_its_signals_on_two_or_three_contacts():
    assert set(SIGNALS) == set(Wiring)
    for signals in SIGNALS.values():
        lines = [signals.source, signals.sink, signals.shield]
        used = [line for line in lines if line is not None]
        assert len(used) == len(set(used)) >= 2
        assert signals.voltage == (signals.source is None)


def test_types_a_and_b_are_each_other_crossed():
    a, b = SIGNALS[Wiring.TYPE_A], SIGNALS[Wiring.TYPE_B]
    assert (a.source, a.sink, a.shield) == (b.sink, b.source, b.shield)


@pytest.mark.parametrize(
    ("plug", "socket", "fits"),
    [
        ("din5", "din5", True),
        ("din5", "din7", True),
        ("din7", "din5", False),
        ("ts-6.35", "trs-6.35", True),
        ("trs-3.5", "trs-6.35", False),
        ("barrel-2.1", "barrel-2.5", False),
        ("usb-c", "usb-c", True),
        ("banana", "din5", False),
    ],
)
def test_plugs_and_sockets(plug, socket, fits):
    assert plug_fits(plug, socket) is fits


def test_every_plug_fits_its_own_kind():
    assert all(plug_fits(plug, plug) for plug in CONTACTS)
    assert set(PLUG_FITS) <= set(CONTACTS)


@pytest.mark.parametrize(
    ("connector", "wiring"),
    [("din5", Wiring.DIN), ("din7", Wiring.DIN), ("trs-3.5", None), ("ts-3.5", None),
     ("usb-b", None)],
)  # fmt: skip
def test_only_a_din_socket_has_one_wiring_alone(connector, wiring):
    assert usual_wiring(connector) is wiring


def test_a_socket_has_the_contacts_of_its_connector():
    one = Socket(id="x", kind=SocketKind.MIDI_IN, connector="trs-3.5", wiring=Wiring.TYPE_A)
    assert one.contacts == ("tip", "ring", "sleeve")


def test_a_jack_is_told_from_other_connectors():
    assert [one for one in CONTACTS if is_jack(one)] == [
        "trs-2.5", "trs-3.5", "trs-6.35", "ts-3.5", "ts-6.35",
    ]  # fmt: skip
