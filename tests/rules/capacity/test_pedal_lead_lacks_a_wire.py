"""Leads of expression pedals, contact by contact."""

from tests.rules.looking import found, state
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.rule import Example
from thruline.proof.rules.capacity import pedal_wired_otherwise
from thruline.proof.rules.capacity.pedal_lead_lacks_a_wire import RULE


def _rig(*rows: str, pedal: str = "ribston-treadle", ends: str = "trs-6.35/trs-6.35") -> Example:
    return board(
        a_unit("treadle", pedal), a_cable("treadle.output", "feet.exp-1", *rows, ends=ends)
    )


def test_a_mono_lead_lays_the_supply_on_the_ground() -> None:
    (one,) = found(RULE, _rig(ends="ts-6.35/ts-6.35"))
    assert "joins the supply (ring) with the ground (sleeve)" in one.says


def test_a_wire_that_is_missing() -> None:
    (one,) = found(RULE, _rig('wiring = { tip = "tip", sleeve = "sleeve" }'))
    assert "leaves the supply (ring) open" in one.says


def test_a_pedal_with_two_wires_is_told_by_another_rule() -> None:
    rig = _rig(pedal="rajka-knee", ends="ts-6.35/ts-6.35")
    assert found(RULE, rig) == []
    assert found(pedal_wired_otherwise.RULE, rig)


def test_a_crossed_lead_brings_the_wiper_to_the_other_contact() -> None:
    crossed = 'wiring = "crossed"'
    assert found(RULE, _rig(crossed)) == []
    assert found(pedal_wired_otherwise.RULE, _rig(crossed))
    assert found(pedal_wired_otherwise.RULE, _rig(crossed, pedal="costard-treadle")) == []


def test_a_plug_that_does_not_fit_is_told_once() -> None:
    rules = [one.rule for one in state(_rig(ends="ts-3.5/ts-3.5")).proof.findings]
    assert rules == ["document.plug-does-not-fit"] * len(rules)
