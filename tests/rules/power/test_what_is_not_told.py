"""Facts about power that a chart lacks: told as what cannot be told, and only where it matters."""

import pytest

from tests.rules.looking import state
from thruline.proof.example_boards import a_power_lead, a_unit, board

BARE = """format = 1
[chart]
id = "costard-fuzz"
maker = "Costard"
model = "Fuzz"
kind = "drive"

[[socket]]
id = "power-in"
kind = "power-in"
connector = "barrel-2.1"
"""
NEED = """
[power]
millivolts = 9000
polarity = "centre-negative"
"""
SUPPLY = """format = 1
[chart]
id = "costard-supply"
maker = "Costard"
model = "Supply"
kind = "power supply"
"""
OUTLET = """
[[socket]]
id = "outlet-{number}"
kind = "power-out"
connector = "barrel-2.1"
[[outlet]]
socket = "outlet-{number}"
millivolts = 9000
polarity = "centre-negative"
milliamps = {milliamps}
isolated = false
"""
OPEN = OUTLET.partition("[[outlet]]")[0]


def _told(
    *need: str, leads: int = 1, milliamps: int = 500, outlet: str = OUTLET
) -> tuple[set[str], set[str]]:
    """Rules that find something, and the facts that are missing."""
    outlets = (outlet.format(number=number, milliamps=milliamps) for number in (1, 2))
    units = [a_unit(f"fuzz-{number}", "costard-fuzz") for number in range(1, 3)]
    wired = [
        a_power_lead(f"supply.outlet-{number}", f"fuzz-{number}.power-in")
        for number in range(1, leads + 1)
    ]
    charts = ("\n".join((BARE, *need)), SUPPLY + "".join(outlets))
    rig = board(a_unit("supply", "costard-supply"), *units[: leads or 1], *wired, charts=charts)
    proof = state(rig).proof
    about = {one.rule for one in proof.findings if "fuzz" in one.id}
    return about, {one.lacks for one in proof.untold if one.rule.startswith("power.")}


def test_each_fact_that_a_chart_without_power_lacks() -> None:
    found, lacks = _told()
    assert found == set()
    where = "of [power] in chart costard-fuzz"
    assert lacks == {f"{fact} {where}" for fact in ("millivolts", "polarity", "milliamps")}


def test_a_unit_that_nothing_feeds_is_found_whatever_its_chart_says() -> None:
    assert _told(leads=0) == ({"power.unit-without-power"}, set())


def test_an_outlet_that_its_chart_does_not_describe() -> None:
    _, lacks = _told(NEED, "milliamps = 50", "digital = false", outlet=OPEN)
    assert lacks == {"[[outlet]] outlet-1 in chart costard-supply"}


@pytest.mark.parametrize(
    ("draws", "lacks"), [(79, set()), (81, {"start-percent in chart costard-fuzz"})]
)
def test_the_current_at_start_up_is_asked_for_where_it_could_matter(
    draws: int, lacks: set[str]
) -> None:
    assert _told(NEED, f"milliamps = {draws}", "digital = true") == (set(), lacks)


def test_what_is_not_digital_starts_as_it_runs() -> None:
    assert _told(NEED, "milliamps = 300", "digital = false") == (set(), set())


def test_whether_it_is_digital_matters_on_a_shared_return() -> None:
    need = (NEED, "milliamps = 50", "start-percent = 100")
    assert _told(*need) == (set(), set())
    assert _told(*need, leads=2)[1] == {
        "digital in chart costard-fuzz",
        "milliwatts of [supply] in chart costard-supply",
    }
