"""Mistakes in words: what is wrong, and what to look at."""

from collections.abc import Callable, Mapping, Sequence

from thruline.audit.build import parts_in
from thruline.audit.fault import ALL, WHAT, Family, Fault
from thruline.audit.meant import CONTROL, PROGRAM, Meant
from thruline.audit.travels import FINE, message_of, whole
from thruline.midi.specs import FIRST_SYSTEM_STATUS, KIND_OF_STATUS
from thruline.rig.chart import Governs
from thruline.rig.unit import Unit, setting_for
from thruline.rig.values import ControlMessage
from thruline.rig.whole import Rig
from thruline.timing.receive import BANK_LSB, BANK_MSB


def fault_says(fault: Fault, meant: Meant, rig: Rig) -> str:
    """One mistake in a sentence."""
    match fault.family:
        case Family.STALE:
            return f"the changes of {meant.steps[fault.first].title} are not written"
        case Family.STALE_ALL:
            return "none of the changes since the earlier version are written"
        case Family.SLOTS:
            way = "later" if fault.second > 0 else "earlier"
            title = meant.steps[fault.first].title
            return f"from {title} on, everything stands one place {way}"
        case Family.FILTER:
            return f"{_controller(rig)} sends no {WHAT[fault.first]} at all"
        case Family.SHUT | Family.SWALLOWED:
            return _on_the_way(fault, meant, rig)
        case _:
            return _about_a_unit(fault, meant, rig)


def _about_a_unit(fault: Fault, meant: Meant, rig: Rig) -> str:
    unit = rig.units[meant.units[fault.first]]
    match fault.family:
        case Family.NUMBERING:
            way = "high" if fault.second > 0 else "low"
            return f"program numbers for {unit.name} are one too {way}"
        case Family.NUMBER:
            name = control_name(unit, fault.second)
            return f"{name} of {unit.name} is sent as control {fault.third}, not {fault.second}"
        case Family.REVERSED:
            name = control_name(unit, fault.second)
            return f"heel and toe are exchanged for {name} of {unit.name}"
        case Family.CHANNEL:
            own = int(meant.channels[fault.first]) + 1
            return f"{unit.name} is addressed on channel {fault.second + 1}, not {own}"
        case Family.SWAPPED:
            other = rig.units[meant.units[fault.second]]
            return f"the channels of {unit.name} and {other.name} are exchanged"
        case _:
            return f"{_controller(rig)} sends {unit.name} no {WHAT[fault.second]}"


def _on_the_way(fault: Fault, meant: Meant, rig: Rig) -> str:
    jack = meant.lines[fault.first]
    name = rig.units[jack.unit].name
    if fault.family is Family.SWALLOWED:
        return f"{name} does not pass on what is on its own channel ({jack})"
    what = "nothing" if fault.second == ALL else f"no {WHAT[fault.second]}"
    return f"{name} passes {what} on at {jack}"


def units_of(fault: Fault, meant: Meant) -> tuple[str, ...]:
    """The units that a mistake is about; none where it is about all that the controller sends."""
    match fault.family:
        case Family.STALE | Family.STALE_ALL | Family.SLOTS | Family.FILTER:
            return ()
        case Family.SHUT | Family.SWALLOWED:
            return (meant.lines[fault.first].unit,)
        case Family.SWAPPED:
            return meant.units[fault.first], meant.units[fault.second]
        case _:
            return (meant.units[fault.first],)


def look_at(fault: Fault, meant: Meant, rig: Rig) -> str:
    """Where to look to see whether it is this."""
    match fault.family:
        case Family.STALE | Family.STALE_ALL:
            return f"write the presets to {_controller(rig)} again, and read one back"
        case Family.SLOTS:
            title = meant.steps[fault.first].title
            return f"see on {_controller(rig)} what stands at {title} and beside it"
        case Family.FILTER:
            return f"the global MIDI settings of {_controller(rig)}"
        case Family.SHUT | Family.SWALLOWED:
            jack = meant.lines[fault.first]
            return _output_setting(rig.units[jack.unit], jack.socket)
        case Family.CHANNEL:
            unit = rig.units[meant.units[fault.first]]
            return f"the channel of {unit.name} in {_controller(rig)}, in every preset"
        case Family.SWAPPED:
            one, other = (rig.units[meant.units[at]].name for at in (fault.first, fault.second))
            return f"the channels of {one} and {other} in {_controller(rig)}"
        case Family.REVERSED:
            return f"the pedal assignment in {_controller(rig)}: which end has which value"
        case Family.NUMBERING:
            unit = rig.units[meant.units[fault.first]]
            return f"whether {_controller(rig)} counts programs of {unit.name} from 0 or from 1"
        case _:
            unit = rig.units[meant.units[fault.first]]
            return f"what {_controller(rig)} holds for {unit.name}"


def _controller(rig: Rig) -> str:
    return rig.controller.name if rig.controller else "the controller"


def _output_setting(unit: Unit, socket: str) -> str:
    """The menu item of an output where there is one, and the cable behind it."""
    setting = setting_for(unit, Governs.OUTPUT, socket)
    cable = f"the cables at {unit.name}, and whether it has power"
    return f"{setting.name} of {unit.name} ({setting.where}); {cable}" if setting else cable


def control_name(unit: Unit, number: int) -> str:
    """What a unit calls the control of a number, or of a code of `travels`."""
    message, plain = message_of(number)
    if message is not ControlMessage.CC:
        control = unit.chart.readings.parameters.get((message, plain))
        return control.name if control else f"{message.value.upper()} {plain}"
    readings = unit.chart.readings.plain.get(plain, ())
    return readings[0].control.name if readings else f"control {plain}"


def words_for_keys(meant: Meant, rig: Rig) -> Callable[[int], str]:
    """How to say a message that is missing or came besides: for which unit, and what it says."""
    units: dict[int, list[Unit]] = {}
    for name, channel in zip(meant.units, meant.channels.tolist(), strict=True):
        units.setdefault(channel + 1, []).append(rig.units[name])
    return lambda key: _key_says(key, meant.taps, units)


def _key_says(key: int, taps: Sequence[str], units_on: Mapping[int, Sequence[Unit]]) -> str:
    _, tap, travel, status, first, second = parts_in(key)
    channel = (status & 0x0F) + 1
    units = units_on.get(channel, ())
    whom = " and ".join(unit.name for unit in units) or f"channel {channel}"
    at = f" at {taps[tap]}" if len(taps) > 1 else ""
    if status >= FIRST_SYSTEM_STATUS:
        return f"{KIND_OF_STATUS[status].name}{at}"
    if travel:
        name = control_name(units[0], first) if units else f"control {whole(first)}"
        half = ", fine half," if first & FINE else ""
        return f"{whom}: {name}{half} from {second >> 7} to {second & 0x7F}{at}"
    if status >> 4 == PROGRAM:
        return f"{whom}: program change {first}{at}"
    if status >> 4 == CONTROL and first in (BANK_MSB, BANK_LSB):
        return f"{whom}: bank select {second} (control {first}){at}"
    if status >> 4 == CONTROL:
        name = control_name(units[0], first) if units else f"control {first}"
        number = "" if name == f"control {first}" else f" (control {first})"
        return f"{whom}: {name} = {second}{number}{at}"
    return f"{whom}: {KIND_OF_STATUS[status].name}{at}"
