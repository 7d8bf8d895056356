"""Moving a power lead to an outlet that suits."""

from tests.proof.boards import case_of
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.power_leads import power_leads
from thruline.proof.power_mends import exchange_leads, move_to_free_outlet

UNITS = (
    a_unit("supply", "elstar-supply"),
    a_unit("delay", "bramley-delay", "channel = 3"),
    a_unit("drive", "russet-drive"),
)


def test_the_first_free_outlet_that_is_strong_enough() -> None:
    rig = case_of(board(*UNITS, a_power_lead("supply.outlet-9", "delay.power-in"))).rig
    (lead,) = power_leads(rig)
    (mend,) = move_to_free_outlet(rig, lead)
    assert mend.says == "Move Bramley Delay to Elstar Twelve outlet-1"
    assert mend.edits[0].value == "supply.outlet-1"


def test_a_reversing_lead_becomes_straight() -> None:
    lead_text = a_power_lead("supply.outlet-9", "delay.power-in", 'wiring = "crossed"')
    rig = case_of(board(*UNITS, lead_text)).rig
    (lead,) = power_leads(rig)
    (mend,) = move_to_free_outlet(rig, lead)
    assert [edit.value for edit in mend.edits] == ["supply.outlet-1", "straight"]
    assert str(mend.edits[1].address) == "cable[supply.outlet-1>delay.power-in].wiring"


def test_nothing_free_nothing_offered() -> None:
    only = (
        a_unit("supply", "tydeman-adapter"),
        a_unit("lights", "discovery-lights", "channel = 16"),
        a_cable("supply.outlet", "lights.power-in", ends="barrel-2.1/barrel-2.1"),
    )
    rig = case_of(board(*only)).rig
    (lead,) = power_leads(rig)
    assert list(move_to_free_outlet(rig, lead)) == []


def test_two_units_exchange_their_outlets() -> None:
    leads = (
        a_power_lead("supply.outlet-9", "delay.power-in"),
        a_power_lead("supply.outlet-1", "drive.power-in"),
    )
    rig = case_of(board(*UNITS, *leads)).rig
    delay = next(lead for lead in power_leads(rig) if lead.unit.id == "delay")
    (mend,) = exchange_leads(rig, delay)
    assert [edit.value for edit in mend.edits] == ["supply.outlet-1", "supply.outlet-9"]


def test_no_exchange_that_overloads_the_other() -> None:
    other = a_unit("echo", "laxton-echo", "channel = 5")
    leads = (
        a_power_lead("supply.outlet-9", "delay.power-in"),
        a_power_lead("supply.outlet-1", "echo.power-in"),
    )
    rig = case_of(board(*UNITS, other, *leads)).rig
    delay = next(lead for lead in power_leads(rig) if lead.unit.id == "delay")
    assert list(exchange_leads(rig, delay)) == []
