"""What a controller's memory holds for a preset, as a sending like any other."""

from collections.abc import Iterable, Mapping

from thruline.compose.goals import CONTROL_CHANGE, PROGRAM_CHANGE
from thruline.rig.preset import Stored, StoredControl, StoredPause, StoredProgram, StoredRaw
from thruline.rig.programs import BankBytes
from thruline.rig.unit import Unit
from thruline.timing.receive import BANK_LSB, BANK_MSB
from thruline.timing.sending import Item, Purpose, Sending


def stored_sending(stored: Iterable[Stored], units: Mapping[str, Unit]) -> Sending:
    """The messages as they stand in memory; a pause goes before the message after it.

    Each message is taken to be meant for the first unit that the controller addresses on its
    channel.
    """
    meant: dict[int, Unit] = {}
    for unit in units.values():
        if unit.sent_on is not None and unit.chart.listens:
            meant.setdefault(unit.sent_on, unit)
    items: list[Item] = []
    pause_us = 0
    for message in stored:
        if isinstance(message, StoredPause):
            pause_us += message.ms * 1000
            continue
        items.append(_item(message, meant, pause_us))
        pause_us = 0
    return Sending(tuple(items))


def _item(
    message: StoredProgram | StoredControl | StoredRaw, meant: Mapping[int, Unit], pause_us: int
) -> Item:
    part: str | None
    match message:
        case StoredProgram(channel=channel, wire=wire):
            unit = meant.get(channel)
            data, purpose = bytes((PROGRAM_CHANGE | (channel - 1), wire)), Purpose.PROGRAM
            part = "program"
        case StoredControl(channel=channel, number=number, value=value):
            unit = meant.get(channel)
            data = bytes((CONTROL_CHANGE | (channel - 1), number, value))
            purpose = Purpose.BANK if _is_bank(unit, number) else Purpose.CONTROL
            part = "program" if purpose is Purpose.BANK else _control_id(unit, number)
        case StoredRaw(data=raw):
            return Item(data=bytes(raw), purpose=Purpose.OTHER, pause_us=pause_us)
    return Item(
        data=data, purpose=purpose, unit=unit.id if unit else None, part=part, pause_us=pause_us
    )


def _is_bank(unit: Unit | None, number: int) -> bool:
    numbering = unit.chart.programs if unit else None
    reads = numbering is not None and numbering.bank_bytes is not BankBytes.NONE
    return reads and number in (BANK_MSB, BANK_LSB)


def _control_id(unit: Unit | None, number: int) -> str | None:
    readings = unit.chart.readings.plain.get(number, ()) if unit else ()
    return readings[0].control.id if readings else None
