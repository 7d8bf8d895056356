"""Numbers wider than a data byte: 14 bits as a pair, and pairs of controls.

Source: MIDI 1.0 Detailed Specification 4.2.1, page 12. The coarse half (MSB) is sent before the
fine half (LSB). A receiver sets the fine half to 0 when a coarse half arrives, and a fine half
alone changes only itself; so a pair sent the wrong way round loses its fine half.
"""

from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange, check_number
from thruline.midi.specs import DATA_MAX, PAIR_MAX

COARSE_CONTROLS: Final = range(32)
"""Controls that may have a fine half."""

FINE_OFFSET: Final = 32
"""The fine half of control n is control n + 32."""


def value_to_pair(value: int) -> tuple[int, int]:
    """A 14-bit value as (coarse, fine); raises CannotUse outside 0 to 16383."""
    check_number("value", value, high=PAIR_MAX)
    return value >> 7, value & DATA_MAX


def pair_to_value(coarse: int, fine: int) -> int:
    """The 14-bit value of two data bytes; raises CannotUse when one is not a data byte."""
    check_number("coarse half", coarse)
    check_number("fine half", fine)
    return coarse << 7 | fine


def value_to_controls(
    channel: int, control: int, *, value: int
) -> tuple[ControlChange, ControlChange]:
    """A 14-bit value for control 0 to 31, as the two messages to send in this order.

    Control 0 with a bank of 0 to 16383 is bank select. Raises CannotUse for a control that has no
    fine half, or a number that no message can carry.
    """
    _check_coarse(control)
    coarse, fine = value_to_pair(value)
    return (
        ControlChange(channel, control, coarse),
        ControlChange(channel, control + FINE_OFFSET, fine),
    )


def controls_to_value(coarse: ControlChange, fine: ControlChange) -> tuple[int, int, int]:
    """Two messages as (channel, control, value); the inverse of `value_to_controls`.

    Raises CannotUse when they are not the two halves of one control.
    """
    _check_coarse(coarse.control)
    if (fine.channel, fine.control) != (coarse.channel, coarse.control + FINE_OFFSET):
        raise CannotUse(
            f"control {fine.control} on channel {fine.channel} is not the fine half of "
            f"control {coarse.control} on channel {coarse.channel}"
        )
    return coarse.channel, coarse.control, pair_to_value(coarse.value, fine.value)


def after_coarse(coarse: int) -> int:
    """What a receiver holds, 14 bits, once a coarse half arrived: its fine half becomes 0."""
    return pair_to_value(coarse, 0)


def after_fine(held: int, fine: int) -> int:
    """What a receiver holds, 14 bits, once a fine half arrived on top of `held`."""
    return pair_to_value(value_to_pair(held)[0], fine)


def _check_coarse(control: int) -> None:
    if control not in COARSE_CONTROLS:
        raise CannotUse(
            f"control {control} has no fine half: only controls 0 to 31 do, each 32 higher"
        )
