"""What a controller's memory holds for a preset, as a sending like any other."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from thruline.compose.goals import CONTROL_CHANGE, PROGRAM_CHANGE
from thruline.rig.preset import Stored, StoredControl, StoredPause, StoredProgram, StoredRaw
from thruline.rig.programs import BankBytes
from thruline.rig.unit import Unit
from thruline.timing.receive import BANK_LSB, BANK_MSB
from thruline.timing.sending import Item, Purpose, Sending

NOWHERE: Mapping[str, str] = MappingProxyType({})


def stored_sending(
    stored: Iterable[Stored], units: Mapping[str, Unit], over: Mapping[str, str] = NOWHERE
) -> Sending:
    """The messages as they stand in memory; a pause goes before the message after it.

    Each message is taken to be meant for the first unit that the controller addresses on its
    channel; `over` gives the output of each, where there is a choice. What is stored for an output
    is meant for a unit of that one: if none has the channel, for none of its controls.
    """
    meant: dict[tuple[int, str], Unit] = {}
    at_all: dict[str, Unit] = {}
    for unit in units.values():
        if unit.sent_on is not None and unit.chart.listens:
            meant.setdefault((unit.sent_on, ""), unit)
            meant.setdefault((unit.sent_on, over.get(unit.id, "")), unit)
            at_all.setdefault(over.get(unit.id, ""), unit)
    items: list[Item] = []
    pause_us = 0
    for message in stored:
        if isinstance(message, StoredPause):
            pause_us += message.ms * 1000
            continue
        item = _item(message, meant, pause_us)
        if message.over and item.unit is None and message.over in at_all:
            item = item._replace(unit=at_all[message.over].id, purpose=Purpose.OTHER, part=None)
        items.append(item)
        pause_us = 0
    return Sending(tuple(items))


def _item(
    message: StoredProgram | StoredControl | StoredRaw,
    meant: Mapping[tuple[int, str], Unit],
    pause_us: int,
) -> Item:
    part: str | None
    match message:
        case StoredProgram(channel=channel, wire=wire):
            unit = meant.get((channel, message.over))
            data, purpose = bytes((PROGRAM_CHANGE | (channel - 1), wire)), Purpose.PROGRAM
            part = "program"
        case StoredControl(channel=channel, number=number, value=value):
            unit = meant.get((channel, message.over))
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
