"""What a unit makes of the messages that reach it, one after the other.

The unit is a small state machine: bank and parameter registers, the time until which it is busy
loading, and the values that its controls have been given. Prediction, proof, audit and fault
finding all use this one.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from thruline.rig.chart import Meanwhile, Settle
from thruline.rig.programs import BankBytes, Numbering, WireProgram, bank_in, has_program
from thruline.rig.readings import Part, Readings
from thruline.rig.unit import Unit, is_omni, takes_control, takes_program
from thruline.rig.values import Control, ControlKind, ControlMessage, zone_of
from thruline.timing.fate import Fate

BANK_MSB, BANK_LSB = 0, 32
DATA_MSB, DATA_LSB = 6, 38
NRPN_LSB, NRPN_MSB, RPN_LSB, RPN_MSB = 98, 99, 100, 101
_PAIRS = {
    ControlMessage.NRPN: frozenset({NRPN_MSB, NRPN_LSB}),
    ControlMessage.RPN: frozenset({RPN_MSB, RPN_LSB}),
}
NULL = 127
"""Both selectors at this value select no parameter (MIDI 1.0)."""
FIRST_MODE = 120
"""Control numbers from here on are channel mode messages (MIDI 1.0)."""


class Arrival(NamedTuple):
    """One message on a unit's input: when its first byte began and its last byte ended, in us."""

    start_us: int
    end_us: int
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Reception:
    """What a unit made of its arrivals.

    `fates` stand in the order of the arrivals. `values` are the controls set after the last
    program change (or at all, when there was none), by wire value; `before_program` those that were
    set earlier and that the program change may have overwritten. `old_bank` says that the program
    depended on a bank that was left from before. `loading` are the spans of busy time. A parameter
    that is closed by the null selection is right when it is closed.
    """

    fates: tuple[Fate, ...]
    program: WireProgram | None
    old_bank: bool
    values: Mapping[str, int]
    before_program: Mapping[str, int]
    flips: Mapping[str, int]
    loading: tuple[tuple[int, int], ...]
    right_us: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Listener:
    """A unit with the answers that every message asks for, worked out once.

    `hears` says for each of the 16 channels whether the unit listens to it.
    """

    unit: Unit
    hears: tuple[bool | None, ...]
    takes_program: bool | None
    takes_control: bool | None
    numbering: Numbering | None
    settle: Settle | None
    readings: Readings


def listener_of(unit: Unit) -> Listener:
    """The unit as a listener."""
    return Listener(
        unit=unit,
        hears=tuple(hears_channel(unit, channel) for channel in range(1, 17)),
        takes_program=takes_program(unit),
        takes_control=takes_control(unit),
        numbering=unit.chart.programs,
        settle=unit.chart.settle,
        readings=unit.chart.readings,
    )


@dataclass(slots=True)
class _State:
    """Registers of the unit while it works through its arrivals.

    `msb` and `lsb` are the bank, None as it was left by earlier presets. `coarse` holds for each
    control its first half, in steps of the whole, as it came since the last program change. `open`
    says that the selected parameter was given a value and is not closed yet. `sure_halves` are the
    selectors that have certainly been taken since one may have been missed; None while none may.
    """

    ear: Listener
    program: WireProgram | None = None
    old_bank: bool = False
    msb: int | None = None
    lsb: int | None = None
    coarse: dict[str, int] = field(default_factory=dict)
    selected: tuple[ControlMessage, int | None, int | None] | None = None
    sure_halves: frozenset[int] | None = None
    open: bool = False
    busy_until: int = -1
    right_us: int | None = None
    values: dict[str, int] = field(default_factory=dict)
    before: dict[str, int] = field(default_factory=dict)
    flips: dict[str, int] = field(default_factory=dict)
    loading: list[tuple[int, int]] = field(default_factory=list)


def hears_channel(unit: Unit, channel: int) -> bool | None:
    """Whether a unit listens to a channel (1 to 16); None when that cannot be told."""
    if not unit.chart.listens:
        return False
    if channel in unit.channels:
        return True
    omni = is_omni(unit)
    if omni is None or omni:
        return omni
    return None if unit.channel is None else False


def receive(listener: Listener, arrivals: Iterable[Arrival]) -> Reception:
    """What the unit makes of messages in the order of their arrival.

    A unit that clears its bank after every program change is taken to have cleared it.
    """
    at_first = listener.numbering.bank_at_rest if listener.numbering else None
    state = _State(listener, msb=at_first, lsb=at_first)
    fates = tuple(_one(state, arrival) for arrival in arrivals)
    return Reception(
        fates=fates,
        program=state.program,
        old_bank=state.old_bank,
        values=state.values,
        before_program=state.before,
        flips=state.flips,
        loading=tuple(state.loading),
        right_us=state.right_us,
    )


def _one(state: _State, arrival: Arrival) -> Fate:
    """What becomes of one message."""
    status = arrival.data[0]
    if status >= 0xF0:
        return Fate.NOT_CONCERNED
    heard = state.ear.hears[status & 0x0F]
    if heard is False:
        return Fate.OTHER_CHANNEL
    if heard is None:
        return Fate.CANNOT_TELL
    match status & 0xF0:
        case 0xC0:
            return _program(state, arrival)
        case 0xB0:
            return _control(state, arrival)
        case _:
            return Fate.NOT_CONCERNED


def _program(state: _State, arrival: Arrival) -> Fate:
    """A program change: load what the bank registers and the number point at."""
    taken = state.ear.takes_program
    if not taken:
        return Fate.CANNOT_TELL if taken is None else Fate.NOT_TAKEN
    numbering = state.ear.numbering
    if numbering is None:
        return Fate.CANNOT_TELL
    bank = bank_in(numbering, state.msb, state.lsb)
    known = bank is not None
    wire = WireProgram(
        bank if bank is not None else bank_in(numbering, state.msb or 0, state.lsb or 0) or 0,
        arrival.data[1],
    )
    if numbering.bank_cleared:
        state.msb = state.lsb = numbering.bank_at_rest
    if not has_program(numbering, wire):
        return Fate.NO_PROGRAM
    state.program, state.old_bank = wire, not known
    state.before |= state.values
    state.values.clear()
    state.coarse.clear()
    settle = state.ear.settle
    load = settle.load_us if settle else 0
    state.busy_until = arrival.end_us + load
    state.loading.append((arrival.end_us, state.busy_until))
    _right_at(state, state.busy_until)
    return Fate.OBEYED


def _right_at(state: _State, moment: int) -> None:
    state.right_us = moment if state.right_us is None else max(state.right_us, moment)


def _control(state: _State, arrival: Arrival) -> Fate:
    """A control change: a register, or a control of the chart."""
    number, value = arrival.data[1], arrival.data[2]
    numbering = state.ear.numbering
    if number in (BANK_MSB, BANK_LSB) and numbering and numbering.bank_bytes is not BankBytes.NONE:
        return _bank_select(state, arrival)
    taken = state.ear.takes_control
    if not taken:
        return Fate.CANNOT_TELL if taken is None else Fate.NOT_TAKEN
    readings = state.ear.readings
    if number >= FIRST_MODE:
        return Fate.NOT_CONCERNED
    plain = readings.plain.get(number)
    if plain:
        fates = [_set(state, one.control, arrival, part=one.part, byte=value) for one in plain]
        return fates[0] if len(fates) == 1 else min(fates, key=lambda fate: not fate.is_good)
    if readings.parameters:
        return _parameter(state, arrival)
    return Fate.NO_CONTROL


def _bank_select(state: _State, arrival: Arrival) -> Fate:
    """One byte of the bank, kept for the next program change."""
    deaf = _deaf(state, arrival)
    if deaf is Fate.LOST:
        return deaf
    value = None if deaf is Fate.CANNOT_TELL else arrival.data[2]
    if arrival.data[1] == BANK_MSB:
        state.msb = value
    else:
        state.lsb = value
    return deaf or Fate.PREPARES


def _deaf(state: _State, arrival: Arrival) -> Fate | None:
    """The fate of a control change that the unit does not hear, or may not, while it loads."""
    if arrival.start_us >= state.busy_until:
        return None
    settle = state.ear.settle
    meanwhile = settle.controls if settle else None
    if meanwhile is None:
        return Fate.CANNOT_TELL
    return Fate.LOST if meanwhile is Meanwhile.LOST else None


def _parameter(state: _State, arrival: Arrival) -> Fate:
    """Registered and non-registered parameters: select, then data entry."""
    number, value = arrival.data[1], arrival.data[2]
    if number in (NRPN_MSB, NRPN_LSB, RPN_MSB, RPN_LSB):
        deaf = _deaf(state, arrival)
        if deaf is Fate.CANNOT_TELL:
            state.sure_halves = frozenset()
        return deaf or _select(state, arrival)
    if number in (DATA_MSB, DATA_LSB) and state.sure_halves is not None:
        return Fate.CANNOT_TELL
    if number not in (DATA_MSB, DATA_LSB) or state.selected is None:
        return Fate.NO_CONTROL
    kind, msb, lsb = state.selected
    if msb is None or lsb is None:
        return Fate.HALF
    if msb == lsb == NULL:
        return Fate.NOT_CONCERNED
    control = state.ear.readings.parameters.get((kind, msb * 128 + lsb))
    if control is None:
        return Fate.NO_CONTROL
    if control.high > 127:
        part = Part.COARSE if number == DATA_MSB else Part.FINE
    elif number == DATA_MSB:
        part = Part.WHOLE
    else:
        return Fate.NOT_CONCERNED
    fate = _set(state, control, arrival, part=part, byte=value)
    state.open = state.open or fate in (Fate.OBEYED, Fate.HELD)
    return fate


def _select(state: _State, arrival: Arrival) -> Fate:
    """Half of the number of a parameter."""
    number, value = arrival.data[1], arrival.data[2]
    kind = ControlMessage.RPN if number >= RPN_LSB else ControlMessage.NRPN
    _, msb, lsb = (
        state.selected if state.selected and state.selected[0] is kind else (kind, None, None)
    )
    coarse = number in (NRPN_MSB, RPN_MSB)
    if state.sure_halves is not None:
        pair = _PAIRS[kind]
        sure = (state.sure_halves & pair) | {number}
        state.sure_halves = None if sure == pair else sure
    state.selected = (kind, value, lsb) if coarse else (kind, msb, value)
    if state.open and state.selected[1:] == (NULL, NULL):
        state.open = False
        _right_at(state, _works_from(state, arrival))
    return Fate.PREPARES


def _set(state: _State, control: Control, arrival: Arrival, *, part: Part, byte: int) -> Fate:
    """Give a control its value, unless the unit is deaf or the value makes no sense."""
    deaf = _deaf(state, arrival)
    if deaf is not None:
        return deaf
    value = _amount(state, control, part, byte)
    if value is None:
        return Fate.HALF
    refused = _refused(control, value, part)
    if refused is not None:
        return refused
    if control.kind is ControlKind.TOGGLE_ANY:
        state.flips[control.id] = state.flips.get(control.id, 0) + 1
    elif control.kind is not ControlKind.MOMENTARY:
        state.values[control.id] = value
    _right_at(state, _works_from(state, arrival))
    return Fate.HELD if _is_held(state, arrival) else Fate.OBEYED


def _is_held(state: _State, arrival: Arrival) -> bool:
    """Whether the unit keeps a control change until it has loaded."""
    settle = state.ear.settle
    holds = settle is not None and settle.controls is Meanwhile.HELD
    return holds and arrival.start_us < state.busy_until


def _works_from(state: _State, arrival: Arrival) -> int:
    """When a control change that was taken shows."""
    settle = state.ear.settle
    moment = arrival.end_us
    if _is_held(state, arrival):
        moment = max(moment, state.busy_until)
    return moment + (settle.apply_us if settle else 0)


def _amount(state: _State, control: Control, part: Part, byte: int) -> int | None:
    """The whole value of a control after this part of it; the coarse part clears the fine.

    None for a fine part whose coarse one is still that of earlier presets.
    """
    match part:
        case Part.WHOLE:
            return byte
        case Part.COARSE:
            state.coarse[control.id] = byte * 128
            return byte * 128
        case Part.FINE:
            coarse = state.coarse.get(control.id)
            return None if coarse is None else coarse + byte


def _refused(control: Control, value: int, part: Part) -> Fate | None:
    """Why a control does not take a value. A coarse part may still get a fine one that fits."""
    fate = _fit(control, value)
    if fate is None or part is not Part.COARSE:
        return fate
    fits = any(_fit(control, value + fine) is None for fine in range(1, 128))
    return Fate.PREPARES if fits else fate


def _fit(control: Control, value: int) -> Fate | None:
    if not control.low <= value <= control.high:
        return Fate.OUT_OF_RANGE
    if control.zones and zone_of(control, value) is None:
        return Fate.DEAD_ZONE
    return None
