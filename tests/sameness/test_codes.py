import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.programs import WireProgram
from thruline.rig.values import Control, ControlKind, Zone
from thruline.sameness.codes import AS_POWERED, KEEPS, OWN, is_wire, own_code, program_of, seen


@given(st.integers(0, 16383), st.integers(0, 127))
def test_a_program_and_its_code(bank: int, program: int) -> None:
    code = own_code(WireProgram(bank, program))
    assert program_of(code) == WireProgram(bank, program)
    assert OWN <= code < AS_POWERED
    assert not is_wire(code)


@pytest.mark.parametrize("code", [KEEPS, 0, 16383, AS_POWERED])
def test_other_codes_are_no_program(code: int) -> None:
    assert program_of(code) is None


@given(st.integers(0, 127))
def test_what_a_unit_cannot_tell_apart_is_one_value(wire: int) -> None:
    switch = Control(id="trails", name="Trails", number=19, kind=ControlKind.SWITCH)
    assert seen(switch, wire) == (127 if wire >= 64 else 0)
    zones = (Zone(label="a", low=0, high=63), Zone(label="b", low=64, high=127))
    steps = Control(id="mode", name="Mode", number=20, kind=ControlKind.STEPS, zones=zones)
    assert seen(steps, seen(steps, wire)) == seen(steps, wire)
    assert (seen(steps, wire) >= 64) == (wire >= 64)
    assert seen(Control(id="mix", name="Mix", number=14), wire) == wire
