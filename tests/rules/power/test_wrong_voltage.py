import pytest

from tests.rules.looking import found
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.rules.power.wrong_voltage import RULE

CHART = """
format = 1

[chart]
id = "eater"
maker = "Example"
model = "Eater"
kind = "drive"
about = "An invented drive that bears a range of voltages."

[[socket]]
id = "power-in"
kind = "power-in"
connector = "barrel-2.1"

[power]
millivolts = {least}
most-millivolts = {most}
milliamps = 10
polarity = "centre-negative"
"""


@pytest.mark.parametrize(
    ("least", "most", "says"),
    [
        (12_000, 12_000, "wants 12 V and gets 9 V from Elstar Twelve outlet-1, less than"),
        (12_000, 18_000, "wants 12 V to 18 V and gets 9 V from Elstar Twelve outlet-1, less than"),
        (3_000, 6_000, "wants 3 V to 6 V and gets 9 V from Elstar Twelve outlet-1, more than"),
    ],
)
def test_it_says_what_is_wanted_and_what_comes(least: int, most: int, says: str) -> None:
    lead = a_power_lead("supply.outlet-1", "drive.power-in")
    units = (a_unit("supply", "elstar-supply"), a_unit("drive", "eater"))
    example = board(*units, lead, charts=(CHART.format(least=least, most=most),))
    (finding,) = found(RULE, example)
    assert says in finding.says


@pytest.mark.parametrize(("least", "most"), [(9_000, 9_000), (5_000, 9_000), (9_000, 18_000)])
def test_both_ends_of_what_a_unit_bears_are_right(least: int, most: int) -> None:
    lead = a_power_lead("supply.outlet-1", "drive.power-in")
    units = (a_unit("supply", "elstar-supply"), a_unit("drive", "eater"))
    assert found(RULE, board(*units, lead, charts=(CHART.format(least=least, most=most),))) == []


SWITCHED = a_power_lead("supply.outlet-2", "delay.power-in")
DELAY = a_unit("delay", "bramley-delay", "channel = 3")


def test_the_switch_of_an_outlet_counts_and_can_be_turned_back():
    supply = a_unit("supply", "blenheim-supply", 'settings = { volts-2 = "18 V" }')
    (finding,) = found(RULE, board(supply, DELAY, SWITCHED))
    assert "wants 9 V and gets 18 V from Blenheim Switch Four outlet-2, more than" in finding.says
    assert finding.harms
    assert finding.mends[0].says == "Turn Volts 2 on Blenheim Switch Four to 9 V, and measure"


@pytest.mark.parametrize("settings", ["", 'settings = { volts-2 = "9 V", volts-1 = "18 V" }'])
def test_the_switch_of_another_outlet_does_not(settings):
    supply = a_unit("supply", "blenheim-supply", settings)
    assert found(RULE, board(supply, DELAY, SWITCHED)) == []


def test_too_little_harms_nothing():
    supply = a_unit("supply", "blenheim-supply")
    lead = a_power_lead("supply.outlet-2", "feet.power-in")
    (finding,) = found(RULE, board(supply, lead))
    assert not finding.harms
    assert finding.severity == "fault"
