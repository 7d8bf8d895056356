"""What an outlet gives at the positions of its switch."""

import pytest

from thruline.rig.power import Choice, Outlet

OUTLET = Outlet(
    socket="dc-1",
    millivolts=9000,
    ac=False,
    polarity="centre-negative",
    milliamps=500,
    isolated=True,
    choices=(Choice(value="18 V", millivolts=18_000, milliamps=250),),
)


@pytest.mark.parametrize(
    ("value", "millivolts", "milliamps"), [("9 V", 9000, 500), ("18 V", 18_000, 250)]
)
def test_a_position_chooses_voltage_and_current_and_nothing_else(value, millivolts, milliamps):
    gives = OUTLET.at(value)
    assert (gives.millivolts, gives.milliamps) == (millivolts, milliamps)
    assert (gives.socket, gives.polarity, gives.isolated) == ("dc-1", "centre-negative", True)
