"""What units make of the messages that are meant for them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from thruline.base.edit import remove
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence, sent
from thruline.proof.finding import Mend
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit
from thruline.timing.fate import Fate
from thruline.timing.run import Heard
from thruline.timing.sending import Item


@dataclass(frozen=True, slots=True)
class Met:
    """A message that reached the unit it is meant for, and its fate there."""

    unit: Unit
    item: Item
    heard: Heard
    fate: Fate


def met(case: Case, preset: Preset) -> Iterator[Met]:
    """Every message of a preset at the unit that it is meant for, unit by unit."""
    for unit_id in case.run(preset).heard:
        yield from met_at(case, preset, unit_id)


def met_at(case: Case, preset: Preset, unit_id: str) -> Iterator[Met]:
    """Every message of a preset that is meant for one unit, at that unit."""
    run = case.run(preset)
    items, fates = run.sending.items, run.receptions[unit_id].fates
    for one, fate in zip(run.heard[unit_id], fates, strict=True):
        item = items[one.place]
        if item.unit == unit_id:
            yield Met(case.rig.units[unit_id], item, one, fate)


def message_words(data: bytes) -> str:
    """A message in words and bytes: `channel 3: control 52 = 64 (B2 34 40)`."""
    raw = " ".join(f"{byte:02X}" for byte in data)
    channel = (data[0] & 0x0F) + 1
    match data[0] & 0xF0:
        case 0xC0:
            return f"channel {channel}: program change {data[1]} ({raw})"
        case 0xB0:
            return f"channel {channel}: control {data[1]} = {data[2]} ({raw})"
        case _:
            return f"bytes {raw}"


def sent_rows(ones: Sequence[Met]) -> Evidence:
    """Messages and what became of them."""
    return sent(*((message_words(one.item.data), one.fate.value.replace("-", " ")) for one in ones))


def program_again(preset: Preset) -> tuple[Mend, ...]:
    """Replace what the controller's memory holds by what the goals ask for."""
    if preset.stored is None:
        return ()
    says = (
        f"Program preset {preset.title} again from its goals; "
        "the programming sheet lists what to enter"
    )
    return (Mend(says, (remove(preset.address.child("messages")),), is_safe=True),)


def counted(count: int, thing: str) -> str:
    """How many of a thing: `1 preset`, `3 presets`."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def some_presets(presets: Sequence[Preset]) -> str:
    """A few presets by name, and how many there are."""
    first = ", ".join(preset.title for preset in presets[:3])
    more = len(presets) - 3
    return f"{first} and {more} more" if more > 0 else first
