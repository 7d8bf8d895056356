"""What came over a wire in the rig's own words: from whom, to whom, what it does there.

feet -> delay: program 11B (bank 0, program 23), 0.6 ms after the bank select, from 7 "Balcony"
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from thruline.audit.capture import Caught, Note, NoteKind
from thruline.base.measures import shown_ms
from thruline.midi import specs
from thruline.midi.message import ControlChange, Message, ProgramChange
from thruline.midi.specs import KIND_OF_STATUS, Family
from thruline.midi.stream import Malformed
from thruline.midi.words import in_hex, in_words
from thruline.proof.case import Case
from thruline.rig.programs import BankBytes, WireProgram, bank_in, wire_to_label
from thruline.rig.readings import Part
from thruline.rig.unit import Unit
from thruline.rig.values import shown
from thruline.timing.receive import BANK_LSB, BANK_MSB, hears_channel

BURST_US = 250_000
"""A silence this long ends what one press sends."""
MOST_NAMED = 2
"""As many presets are named as what a message may come from."""


class Kind(StrEnum):
    """Kinds of what may come in, as a person picks among them."""

    PROGRAM = "program"
    CONTROL = "control"
    NOTE = "note"
    CLOCK = "clock"
    SENSING = "active-sensing"
    REAL_TIME = "real-time"
    EXCLUSIVE = "system-exclusive"
    COMMON = "common"
    MALFORMED = "malformed"
    SAYS = "note-of-the-session"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One thing that came, in words.

    `units` are those that listen to it, or, for clock and the like, nobody in particular. `says`
    is without time and bytes.
    """

    at_us: int
    line: str
    kind: Kind
    units: tuple[str, ...]
    says: str
    raw: bytes


@dataclass(slots=True)
class _Place:
    """One line: banks by unit, when by channel, presets that may be under way, last time."""

    banks: dict[str, dict[int, int]] = field(default_factory=dict)
    bank_us: dict[int, int] = field(default_factory=dict)
    presets: frozenset[int] | None = None
    last_us: int = -BURST_US


class Teller:
    """Puts what comes into words; without a rig, in the words of the standard alone."""

    def __init__(self, case: Case | None, lines: tuple[str, ...]) -> None:
        self._case = case
        self._lines = lines
        self._places: dict[int, _Place] = {}
        self._listeners = _listeners(case)
        self._senders = _senders(case)

    def tell(self, caught: Caught | Note) -> Told:
        """One event in words."""
        line = self._lines[caught.line - 1] if caught.line else ""
        if isinstance(caught, Note):
            return Told(
                at_us=caught.at_us, line=line, kind=Kind.SAYS, units=(), says=_note(caught), raw=b""
            )
        place = self._places.setdefault(caught.line, _Place())
        message = caught.message
        if message is None:
            says = f"MALFORMED: {_malformed(caught)}"
            return _told(caught, line, kind=Kind.MALFORMED, units=(), says=says)
        raw = caught.raw
        channel = raw[0] & 0x0F if raw[0] < specs.EXCLUSIVE.status else None
        units = () if channel is None else self._listeners.get(channel + 1, ())
        says = self._says(place, caught, message=message, units=units)
        names = tuple(unit.id for unit in units)
        return _told(caught, line, kind=kind_of(raw), units=names, says=says)

    def _says(
        self, place: _Place, caught: Caught, *, message: Message, units: tuple[Unit, ...]
    ) -> str:
        raw = caught.raw
        if raw[0] >= specs.EXCLUSIVE.status or self._case is None:
            return in_words(message)
        source = self._case.rig.controller
        head = source.id if source is not None else "?"
        if not units:
            return f"{head} -> nobody: {in_words(message)}"
        what = " and ".join(dict.fromkeys(_at_unit(unit, message, place) for unit in units))
        after = self._after_bank(place, caught, message)
        whence = self._whence(place, caught, raw)
        return f"{head} -> {', '.join(unit.id for unit in units)}: {what}{after}{whence}"

    def _after_bank(self, place: _Place, caught: Caught, message: Message) -> str:
        """How long after its bank select a program change came; notes a bank select."""
        if isinstance(message, ControlChange) and message.control in (BANK_MSB, BANK_LSB):
            place.bank_us[message.channel] = caught.at_us
        if isinstance(message, ProgramChange):
            since = place.bank_us.pop(message.channel, None)
            if since is not None:
                return f", {shown_ms(caught.at_us - since)} after the bank select"
        return ""

    def _whence(self, place: _Place, caught: Caught, raw: bytes) -> str:
        """The presets that what came since the last silence may come from."""
        senders = self._senders.get(raw, frozenset())
        if caught.at_us - place.last_us >= BURST_US or place.presets is None:
            place.presets = senders
        else:
            place.presets = (place.presets & senders) or senders
        place.last_us = caught.at_us
        if self._case is None or not 0 < len(place.presets) <= MOST_NAMED:
            return "" if place.presets else ", from no preset"
        titles = [one.title for one in self._case.rig.presets if one.number in place.presets]
        return f", from {' or '.join(titles)}"


def kind_of(raw: bytes) -> Kind:
    """The kind of a whole message."""
    kind = KIND_OF_STATUS[raw[0]]
    match kind.family:
        case Family.CHANNEL:
            if kind is specs.PROGRAM_CHANGE:
                return Kind.PROGRAM
            return Kind.CONTROL if kind is specs.CONTROL_CHANGE else Kind.NOTE
        case Family.REAL_TIME:
            if kind is specs.ACTIVE_SENSING:
                return Kind.SENSING
            return Kind.CLOCK if kind is specs.CLOCK else Kind.REAL_TIME
        case _:
            return Kind.EXCLUSIVE if kind is specs.EXCLUSIVE else Kind.COMMON


def _told(caught: Caught, line: str, *, kind: Kind, units: tuple[str, ...], says: str) -> Told:
    return Told(at_us=caught.at_us, line=line, kind=kind, units=units, says=says, raw=caught.raw)


def _malformed(caught: Caught) -> str:
    event = caught.event
    return f"{event.flaw}. {event.flaw.says}" if isinstance(event, Malformed) else ""


def _note(note: Note) -> str:
    match note.kind:
        case NoteKind.GONE:
            return f'port "{note.text}" is gone; plug it in again, and listening goes on'
        case NoteKind.BACK:
            return f'port "{note.text}" is back'
        case NoteKind.PRESS:
            return f"preset {note.text} is pressed"
        case NoteKind.SWEEP:
            return f'sweep "{note.text}" is moved'
        case NoteKind.SKIP:
            return f"nothing came of {note.text}, so it counts as not done"
        case NoteKind.SAYS:
            return note.text


def _at_unit(unit: Unit, message: Message, place: _Place) -> str:
    """What a message does at a unit, in the unit's words, with the numbers of the wire."""
    if isinstance(message, ProgramChange):
        return _program(unit, message, place)
    if isinstance(message, ControlChange):
        return _control(unit, message, place)
    return in_words(message).partition(": ")[2]


def _program(unit: Unit, message: ProgramChange, place: _Place) -> str:
    numbering = unit.chart.programs
    if numbering is None:
        return f"program change {message.program}"
    rest = numbering.bank_at_rest
    banks = place.banks.get(unit.id, {})
    bank = bank_in(numbering, banks.get(BANK_MSB, rest), banks.get(BANK_LSB, rest))
    if numbering.bank_cleared:
        place.banks.pop(unit.id, None)
    if bank is None:
        return f"program change {message.program}, of a bank that was selected before"
    label = wire_to_label(numbering, WireProgram(bank, message.program))
    numbers = f"program {message.program}"
    if numbering.bank_bytes is not BankBytes.NONE:
        numbers = f"bank {bank}, {numbers}"
    return f"program {label} ({numbers})" if label else f"no such program ({numbers})"


def _control(unit: Unit, message: ControlChange, place: _Place) -> str:
    numbers = f"control {message.control} = {message.value}"
    numbering = unit.chart.programs
    banks = numbering is not None and numbering.bank_bytes is not BankBytes.NONE
    if banks and message.control in (BANK_MSB, BANK_LSB):
        place.banks.setdefault(unit.id, {})[message.control] = message.value
        which = "coarse" if message.control == BANK_MSB else "fine"
        return f"bank select, {which} {message.value}"
    readings = unit.chart.readings.plain.get(message.control, ())
    if not readings:
        return in_words(message).partition(": ")[2]
    names = []
    for reading in readings:
        whole = reading.part is Part.WHOLE
        value = shown(reading.control, message.value) if whole else reading.part.value
        names.append(f"{reading.control.name} {value}")
    return f"{' and '.join(names)} ({numbers})"


def _listeners(case: Case | None) -> Mapping[int, tuple[Unit, ...]]:
    """By channel the units that a message on it may be for."""
    if case is None:
        return {}
    units = [unit for unit in case.rig.units.values() if unit is not case.rig.controller]
    return {
        channel: tuple(unit for unit in units if hears_channel(unit, channel))
        for channel in range(1, specs.CHANNELS + 1)
    }


def _senders(case: Case | None) -> Mapping[bytes, frozenset[int]]:
    """By the bytes of a message the presets that send it."""
    found: dict[bytes, set[int]] = {}
    if case is None or case.rig.controller is None:
        return {}
    for preset in case.rig.presets:
        for item in case.run(preset).sending.items:
            found.setdefault(item.data, set()).add(preset.number)
    return {data: frozenset(numbers) for data, numbers in found.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a person wants to see: words that are a unit, a line, or a kind. Empty means all."""

    only: frozenset[str] = frozenset()
    hide: frozenset[str] = frozenset()

    def shows(self, told: Told) -> bool:
        """Whether something is wanted; what malforms a line and notes are unless hidden."""
        names = frozenset((told.kind.value, told.line, *told.units))
        if names & self.hide:
            return False
        always = told.kind in (Kind.SAYS, Kind.MALFORMED)
        return not self.only or always or bool(names & self.only)


def told_row(told: Told, *, with_bytes: bool = True) -> str:
    """One row for a person: time, line, words, bytes."""
    stamp = f"{told.at_us / 1_000_000:11.4f}"
    raw = f"   [{in_hex(told.raw, most=24)}]" if with_bytes and told.raw else ""
    line = f"{told.line}: " if told.line else ""
    return f"{stamp}  {line}{told.says}{raw}"


def tell_all(teller: Teller, events: Iterator[Caught | Note], choice: Choice) -> Iterator[Told]:
    """What is wanted of some events, in words."""
    for event in events:
        told = teller.tell(event)
        if choice.shows(told):
            yield told
