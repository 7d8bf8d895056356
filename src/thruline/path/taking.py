"""Whether a message that reaches a unit is for it, and whether it takes such messages."""

from thruline.path.filters import channel_of
from thruline.path.outcome import Outcome
from thruline.rig.chart import Governs
from thruline.rig.unit import Unit, allows, is_omni, takes_clock, takes_control, takes_program


def taken(unit: Unit, status: int) -> Outcome:
    """What becomes of a message with this status byte at a unit, by its channel and kind."""
    channel = channel_of(status)
    if channel is None:
        return _by_kind(unit, status)
    if not unit.chart.listens:
        return Outcome.NO_LISTENER
    addressed = is_addressed(unit, channel)
    if addressed is False:
        return Outcome.NOT_FOR_IT
    return Outcome.CHANNEL_UNTOLD if addressed is None else _by_kind(unit, status)


def is_addressed(unit: Unit, channel: int) -> bool | None:
    """Whether a message on this channel is for the unit; None when it cannot be told."""
    omni = is_omni(unit)
    if omni is True or channel in unit.channels:
        return True
    return None if omni is None or not unit.channels else False


def takes(unit: Unit, status: int) -> bool | None:
    """Whether the unit takes messages of this kind, as it is built and set."""
    receives = unit.chart.receives
    match status & 0xF0 if status < 0xF0 else status:
        case 0xC0:
            return takes_program(unit)
        case 0xB0:
            return takes_control(unit)
        case 0x80 | 0x90:
            return receives.note
        case 0xF0 | 0xF7:
            refused = allows(unit, Governs.SYSTEM_EXCLUSIVE_RECEIVE) is False
            return False if refused else receives.system_exclusive
        case 0xF8 | 0xFA | 0xFB | 0xFC:
            return takes_clock(unit)
        case _:
            return None


def why_taken(unit: Unit, outcome: Outcome) -> str:
    """What a unit makes of a message, as a sentence about this unit."""
    if outcome is Outcome.NOT_FOR_IT:
        return f"{unit.id} hears channel {', '.join(map(str, unit.channels))} only"
    return outcome.says


def _by_kind(unit: Unit, status: int) -> Outcome:
    takes_it = takes(unit, status)
    if takes_it is None:
        return Outcome.TAKING_UNTOLD if unit.chart.listens else Outcome.NO_LISTENER
    return Outcome.TAKEN if takes_it else Outcome.REFUSED
