import pytest

from tests.path.boards import link_between
from tests.rigs import midi_in, midi_out
from thruline.path.contacts import LinkState
from thruline.path.match_words import called

JACKS = "trs-3.5/trs-3.5"


def jack_out(wiring):
    return midi_out("out", "trs-3.5", wiring=wiring)


def jack_in(wiring, **more):
    return midi_in("in", "trs-3.5", wiring=wiring, **more)


@pytest.mark.parametrize(("contact", "says"), [("5", "contact 5"), ("ring", "ring")])
def test_contacts_as_people_say_them(contact, says):
    assert called(contact) == says


def test_a_link_that_works_tells_both_signals():
    assert link_between(midi_out("out"), midi_in("in"), "din5/din5").why == (
        "contact 4 at feet carries the source and meets contact 4, where pre expects the source; "
        "contact 5 at feet carries the sink and meets contact 5, where pre expects the sink"
    )


def test_two_signals_on_one_contact_of_the_receiver():
    # Written from the input, both wires of the receiver lie on one of the sender.
    link = link_between(midi_in("in"), midi_out("out"), "din5/din5", wiring={"4": "4", "5": "4"})
    assert link.state is LinkState.SHORTED
    assert link.why == (
        "contact 4 and contact 5 at feet are joined by the cable feet.in>pre.out, "
        "where feet expects the two signals apart"
    )


def test_the_shield_where_a_signal_is_expected():
    link = link_between(jack_out("type-b"), jack_in("ts"), JACKS)
    assert link.why == "sleeve at feet is the shield and meets sleeve, where pre expects the sink"


def test_a_signal_on_the_ground_of_a_receiver():
    into = midi_in("in", "trs-3.5", wiring="type-b", isolated=False)
    link = link_between(midi_out("out", "ts-3.5"), into, "ts-3.5/ts-3.5")
    assert link.why == (
        "sleeve at feet carries the sink and meets sleeve, the shield of pre; "
        "that is harmless only if pre.in is isolated"
    )


def test_a_voltage_that_may_be_read():
    link = link_between(jack_out("type-a"), jack_in("tip-active", isolated=False), JACKS)
    assert link.why == (
        "tip at feet carries the sink and meets tip, where pre expects the data; pre.in can at "
        "best read it as a voltage against the joined grounds, and whether it does depends on the "
        "unit"
    )


def test_a_mono_sender_has_no_shield_to_read_against():
    out = midi_out("out", "trs-3.5", wiring="ts")
    link = link_between(out, jack_in("ring-active"), JACKS, wiring={"sleeve": "ring"})
    assert "feet.out has no shield for pre to read against" in link.why


def test_a_source_and_a_sink_on_one_wire_into_a_receiver_of_voltages():
    wires = {"tip": "tip", "ring": "tip", "sleeve": "sleeve"}
    link = link_between(jack_out("type-a"), jack_in("tip-active"), JACKS, wiring=wires)
    assert link.state is LinkState.SHORTED
    assert link.why.endswith("the sink, by the cable feet.out>pre.in")


def test_a_source_on_the_shield_does_not_silence_a_receiver_of_voltages():
    link = link_between(jack_out("type-a"), jack_in("tip-active"), "ts-3.5/ts-3.5")
    assert link.state is LinkState.CANNOT_TELL
