import pytest

from tests.path.boards import link_between
from tests.rigs import midi_in, midi_out, socket
from thruline.path.spare import SpareKind

ALL_FIVE = {c: c for c in "12345"}


def kinds(link):
    return {(hazard.contact, hazard.met): hazard.kind for hazard in link.hazards}


@pytest.fixture
def feeding():
    return midi_out("out", spare_power=True)


def test_a_lead_with_three_wires_carries_no_power(feeding):
    three = {"2": "2", "4": "4", "5": "5"}
    assert link_between(feeding, midi_in("in"), "din5/din5", wiring=three).hazards == ()


def test_a_lead_with_five_wires_brings_power_to_the_other_end(feeding):
    link = link_between(feeding, midi_in("in"), "din5/din5")
    assert kinds(link) == {("1", "1"): SpareKind.REACHES, ("3", "3"): SpareKind.REACHES}
    assert link.hazards[0].says == (
        "contact 1 of feet.out carries power and reaches contact 1 of pre.in, which expects none"
    )


def test_power_meant_for_the_other_end_is_told_once_a_contact(feeding):
    link = link_between(feeding, midi_in("in", spare_power=True), "din5/din5")
    assert [hazard.kind for hazard in link.hazards] == [SpareKind.SHARED, SpareKind.SHARED]


def test_a_contact_bonded_to_the_shield_shorts_the_supply(feeding):
    link = link_between(feeding, midi_in("in"), "din5/din5", wiring={**ALL_FIVE, "3": "2"})
    shorted = [hazard for hazard in link.hazards if hazard.kind is SpareKind.SHORTED]
    assert {(str(one.taker), one.contact, one.met) for one in shorted} == {
        ("pre.in", "3", "2"), ("feet.out", "3", "2"),
    }  # fmt: skip


def test_power_goes_back_to_the_output_too():
    link = link_between(midi_out("out"), midi_in("in", spare_power=True), "din5/din5")
    assert {str(hazard.giver) for hazard in link.hazards} == {"pre.in"}


def test_a_free_ring_with_power_and_a_mono_plug():
    out = midi_out("out", "trs-6.35", wiring="tip-active", spare_power=True)
    into = midi_in("in", "trs-6.35", wiring="tip-active")
    assert ("ring", "sleeve") in kinds(link_between(out, into, "ts-6.35/ts-6.35"))


def test_a_plug_that_does_not_go_in_brings_nothing(feeding):
    assert link_between(feeding, midi_in("in", "din5"), "din5/din7").hazards == ()


def test_usb_has_no_spare_contacts():
    usb = socket("usb", "usb", "usb-b", spare_power=True)
    assert link_between(usb, usb, "usb-b/usb-b").hazards == ()
