"""Which outlet feeds which unit."""

from hypothesis import given
from hypothesis import strategies as st

from tests.proof.boards import case_of
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.power_leads import (
    MOST_SHARE,
    free_outlets,
    leads_by_outlet,
    power_leads,
    start_milliamps,
    suits,
    volts,
)
from thruline.rig.power import Need, Outlet

RIG = board(
    a_unit("supply", "elstar-supply"),
    a_unit("delay", "bramley-delay", "channel = 3"),
    a_unit("bass", "worcester-bass", "channel = 5"),
    a_power_lead("supply.outlet-1", "delay.power-in"),
    a_cable(
        "supply.outlet-11", "bass.power-in", 'wiring = "crossed"', ends="barrel-2.1/barrel-2.5"
    ),
)


def need(**changed: object) -> Need:
    usual = {
        "millivolts": 9000,
        "most_millivolts": 9000,
        "ac": False,
        "polarity": "centre-negative",
        "milliamps": 100,
        "start_percent": 150,
        "digital": True,
    }
    return Need(**{**usual, **changed})  # type: ignore[arg-type]


def outlet(**changed: object) -> Outlet:
    usual = {
        "socket": "one",
        "millivolts": 9000,
        "ac": False,
        "polarity": "centre-negative",
        "milliamps": 500,
        "isolated": True,
    }
    return Outlet(**{**usual, **changed})  # type: ignore[arg-type]


def test_leads_know_both_ends_and_a_swap() -> None:
    first, second = power_leads(case_of(RIG).rig)
    assert (first.unit.id, first.outlet.socket, first.reversed_) == ("delay", "outlet-1", False)
    assert (second.unit.id, second.reversed_) == ("bass", True)
    assert first.outlet_words == "Elstar Twelve outlet-1"


def test_outlets_in_use_are_not_free() -> None:
    rig = case_of(RIG).rig
    free = {outlet.socket for _, outlet in free_outlets(rig)}
    assert free == {f"outlet-{n}" for n in (2, 3, 4, 5, 6, 7, 8, 9, 10, 12)}
    assert {jack.socket for jack in leads_by_outlet(rig)} == {"outlet-1", "outlet-11"}


def test_start_up_current() -> None:
    assert start_milliamps(need()) == 150
    assert start_milliamps(need(start_percent=None)) == 100
    assert start_milliamps(need(milliamps=None)) is None


def test_what_suits() -> None:
    assert suits(outlet(), need())
    assert not suits(outlet(ac=True), need())
    assert not suits(outlet(polarity="centre-positive"), need())
    assert not suits(outlet(millivolts=18000), need())
    assert suits(outlet(millivolts=18000), need(most_millivolts=18000))


def test_nothing_suits_a_need_that_is_not_told() -> None:
    assert not suits(outlet(), need(polarity=None))
    assert not suits(outlet(polarity=None), need(polarity=None))
    assert not suits(outlet(), need(milliamps=None))
    assert suits(outlet(ac=True, polarity=None), need(ac=True, polarity=None))


@given(rating=st.integers(1, 3000), wanted=st.integers(1, 3000))
def test_a_fifth_is_kept_in_hand(rating: int, wanted: int) -> None:
    fits = suits(outlet(milliamps=rating), need(milliamps=wanted, start_percent=None))
    assert fits == (wanted <= rating * MOST_SHARE / 100)


def test_volts_as_people_read_them() -> None:
    assert (volts(9000), volts(1500)) == ("9 V", "1.5 V")
