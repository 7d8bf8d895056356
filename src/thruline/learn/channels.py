"""What was heard on each channel, to ask a person about, and which charts would fit it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain

from thruline.audit.travels import CONTROL_STATUS, SELECTORS, message_of
from thruline.learn.learned import Learned
from thruline.learn.meaning import PROGRAM_STATUS, SYSTEM
from thruline.learn.travels import Moved
from thruline.rig.chart import Chart
from thruline.rig.programs import BankBytes
from thruline.rig.spans import spans
from thruline.rig.values import ControlMessage
from thruline.timing.receive import BANK_LSB, BANK_MSB

ENTRY_CONTROLS = frozenset((6, 38))
"""Data entry; with selectors before it, a parameter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnChannel:
    """What comes on a channel (1 to 16): program numbers, bank controls used, control numbers.

    `moved` are controls that a pedal moves there; `parameters` says that some are selected.
    """

    channel: int
    programs: tuple[int, ...]
    banks: frozenset[int]
    controls: tuple[int, ...]
    moved: tuple[Moved, ...]
    parameters: bool

    @property
    def says(self) -> str:
        """In words, for whoever has to know which unit that is."""
        parts = []
        if self.programs:
            many = f"{len(self.programs)} programs" if len(self.programs) > 1 else "program"
            which = f" with bank select ({spans(sorted(self.banks))})" if self.banks else ""
            parts.append(f"{many} ({spans(self.programs)}){which}")
        if self.controls:
            parts.append(f"controls {spans(self.controls)}")
        if self.moved:
            parts.append(f"moved by a pedal: {', '.join(map(moved_says, self.moved))}")
        return f"channel {self.channel}: {'; '.join(parts) or 'nothing that is understood'}"


def moved_says(moved: Moved) -> str:
    """A moved control by its numbers."""
    message, number = message_of(moved.code)
    if message is ControlMessage.CC:
        return f"control {number} with {number + 32}" if moved.is_pair else f"control {number}"
    return f"{message.value.upper()} {number}"


def channels_of(learned: Learned) -> tuple[OnChannel, ...]:
    """Every channel that was used, in order."""
    messages = [one.data for preset in learned.presets for one in preset.agreed]
    moved = list(chain.from_iterable(one.moves for one in learned.sweeps))
    used = {(data[0] & 0x0F) + 1 for data in messages if data[0] < SYSTEM}
    used |= {one.moved.channel + 1 for one in moved}
    return tuple(
        _on(
            channel,
            [data for data in messages if data[0] < SYSTEM and data[0] & 0x0F == channel - 1],
            [one.moved for one in moved if one.moved.channel == channel - 1],
        )
        for channel in sorted(used)
    )


def _on(channel: int, messages: Sequence[bytes], moved: Sequence[Moved]) -> OnChannel:
    programs = {data[1] for data in messages if data[0] & 0xF0 == PROGRAM_STATUS}
    controls = {data[1] for data in messages if data[0] & 0xF0 == CONTROL_STATUS}
    selects = bool(controls & SELECTORS)
    banks = controls & {BANK_MSB, BANK_LSB} if programs else set()
    return OnChannel(
        channel=channel,
        programs=tuple(sorted(programs)),
        banks=frozenset(banks),
        controls=tuple(
            sorted(controls - banks - (SELECTORS | ENTRY_CONTROLS if selects else set()))
        ),
        moved=tuple(dict.fromkeys(moved)),
        parameters=selects,
    )


def fitting(heard: OnChannel, charts: Iterable[Chart]) -> list[Chart]:
    """The charts that know all that comes on a channel, those that know least besides first."""
    found = [chart for chart in charts if chart.listens and _fits(heard, chart)]
    return sorted(found, key=lambda chart: (len(chart.controls), chart.id))


def _fits(heard: OnChannel, chart: Chart) -> bool:
    numbering = chart.programs
    if heard.programs and numbering is None:
        return False
    reads = numbering.bank_bytes if numbering is not None else BankBytes.NONE
    wanted = {
        BankBytes.NONE: frozenset[int](),
        BankBytes.MSB: frozenset((BANK_MSB,)),
        BankBytes.LSB: frozenset((BANK_LSB,)),
        BankBytes.BOTH: frozenset((BANK_MSB, BANK_LSB)),
    }[reads]
    if heard.programs and heard.banks != wanted:
        return False
    known = set(chart.readings.plain)
    numbers = {
        number for message, number in map(_reached, heard.moved) if message is ControlMessage.CC
    }
    parameters = {one for one in map(_reached, heard.moved) if one[0] is not ControlMessage.CC}
    return (
        set(heard.controls) | numbers <= known
        and parameters <= set(chart.readings.parameters)
        and (not heard.parameters or bool(chart.readings.parameters))
    )


def _reached(moved: Moved) -> tuple[ControlMessage, int]:
    return message_of(moved.code)
