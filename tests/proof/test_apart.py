"""Units with channels of their own, and when that makes no difference."""

from dataclasses import replace

import pytest

from tests.proof.boards import case_of
from thruline.proof.apart import CHANNELS, hear_alike, nature_of, units_apart
from thruline.proof.example_boards import DELAY, DELAY_TO_REVERB, REVERB, TO_DELAY, board
from thruline.rig.unit import Unit
from thruline.timing.network import Feed, Network, Output, network
from thruline.timing.receive import listener_of

UNITS = case_of(board(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB)).rig.units
LINES = network([Output(sender=0)])


def stopping(*statuses: int) -> Network:
    """A line with an output behind it that does not pass these on."""
    return network([Output(sender=0), Output(feeds=(Feed(source=0, blocks=frozenset(statuses)),))])


def moved(**channels: int | None) -> dict[str, Unit]:
    """The units, some set and sent to on other channels."""
    changed = {n: replace(UNITS[n], channel=c, sent_on=c) for n, c in channels.items()}
    return {**UNITS, **changed}


def test_each_gets_a_channel_of_its_own_in_board_order() -> None:
    apart = units_apart(moved(delay=7, reverb=7), LINES)
    assert apart is not None
    assert [(apart[n].channel, apart[n].sent_on) for n in ("delay", "reverb")] == [(1, 1), (2, 2)]
    assert apart["feet"] is UNITS["feet"]  # it is sent nothing


def test_what_is_unknown_stays_unknown() -> None:
    silent = {**UNITS, "delay": replace(UNITS["delay"], channel=None, sent_on=5)}
    apart = units_apart(silent, LINES)
    assert apart is not None
    assert (apart["delay"].channel, apart["delay"].sent_on) == (None, 1)


def test_more_units_than_channels_cannot_be_kept_apart() -> None:
    many = {f"delay-{n}": replace(UNITS["delay"], id=f"delay-{n}") for n in range(CHANNELS)}
    assert units_apart(many, LINES) is not None
    assert units_apart({**many, "reverb": UNITS["reverb"]}, LINES) is None


@pytest.mark.parametrize(
    ("stopped", "can_be"),
    [([], True), ([0xF8], True), (range(0xC0, 0xD0), True), ([0xC3], False)],
)
def test_an_output_that_stops_single_channels_makes_them_matter(stopped, can_be) -> None:
    assert (units_apart(UNITS, stopping(*stopped)) is not None) is can_be


def test_boards_hear_alike_when_no_unit_hears_what_another_is_sent() -> None:
    apart = units_apart(UNITS, LINES)
    assert apart is not None
    assert hear_alike(UNITS, apart)
    assert hear_alike(moved(delay=11, reverb=4), apart)
    assert not hear_alike(moved(delay=4, reverb=4), apart)
    deaf = {**UNITS, "delay": replace(UNITS["delay"], channel=9)}  # and still sent to on its own
    assert not hear_alike(deaf, apart)


def test_a_unit_keeps_its_nature_on_another_channel() -> None:
    here, there = (listener_of(moved(delay=channel)["delay"]) for channel in (3, 12))
    assert nature_of(here) == nature_of(there)
    assert nature_of(here) != nature_of(listener_of(moved(delay=None)["delay"]))
    assert nature_of(here) != nature_of(listener_of(UNITS["reverb"]))
