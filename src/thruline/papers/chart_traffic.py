"""Which kinds of message a model of unit sends and understands, as far as its chart tells.

Both layouts of the implementation chart ask the same questions; they are answered here once.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from thruline.rig.chart import Chart, Governs, Setting
from thruline.rig.socket import SocketKind


class Topic(StrEnum):
    """A kind of message that implementation charts ask about."""

    PROGRAM = "program"
    CONTROL = "control"
    NOTE = "note"
    CLOCK = "clock"
    START_STOP = "start-stop"
    ACTIVE_SENSING = "active-sensing"
    SYSTEM_EXCLUSIVE = "system-exclusive"
    OTHER = "other"
    """Anything that our charts have no word for: pitch bend, pressure, tune request, ..."""


@dataclass(frozen=True, slots=True)
class Told:
    """Yes, no, or None where the chart does not say; and what is to be remarked."""

    known: bool | None
    remark: str = ""


UNTOLD = Told(known=None)
NO = Told(known=False)

_CHANNEL_TOPICS = (Topic.PROGRAM, Topic.CONTROL, Topic.NOTE)
_INPUTS = (SocketKind.MIDI_IN, SocketKind.USB)
_OUTPUTS = (SocketKind.MIDI_OUT, SocketKind.USB)
_SENT_BY_CONTROLLER = {Topic.PROGRAM: "program", Topic.CONTROL: "control"}
_RECEIVE_SETTINGS = {
    Topic.PROGRAM: Governs.PROGRAM_RECEIVE,
    Topic.CONTROL: Governs.CONTROL_RECEIVE,
    Topic.CLOCK: Governs.CLOCK_RECEIVE,
    Topic.SYSTEM_EXCLUSIVE: Governs.SYSTEM_EXCLUSIVE_RECEIVE,
}


def has_sheet(chart: Chart) -> bool:
    """Whether the unit sends or obeys messages at all; splits, supplies and pedals do not."""
    return chart.listens or chart.abilities is not None or bool(chart.sends)


def recognizes(chart: Chart, topic: Topic) -> Told:
    """Whether the unit acts on messages of this kind, and which setting decides."""
    if not any(socket.kind in _INPUTS for socket in chart.sockets.values()):
        return NO
    if topic in _CHANNEL_TOPICS and not chart.listens:
        return NO
    able = _able(chart, topic)
    setting = _governing(chart, _RECEIVE_SETTINGS.get(topic))
    if setting is None or able is False:
        return Told(known=able)
    return Told(known=True, remark=f"taken {condition(setting, 'on')}")


def transmits(chart: Chart, topic: Topic) -> Told:
    """Whether the unit sends messages of this kind of its own accord, and what decides."""
    if not any(socket.kind in _OUTPUTS for socket in chart.sockets.values()):
        return NO
    own = next((send for send in chart.sends if send.what == topic.value), None)
    if own is not None:
        setting = chart.settings.get(own.setting) if own.setting else None
        return Told(known=True, remark=f"sent {condition(setting, 'on')}" if setting else "")
    if topic is Topic.SYSTEM_EXCLUSIVE and chart.identity:
        return Told(known=True, remark="its identity reply")
    if chart.abilities is not None:
        return _from_memory(chart.abilities.sends, topic)
    return UNTOLD if topic in (Topic.NOTE, Topic.SYSTEM_EXCLUSIVE, Topic.OTHER) else NO


def sent_on(chart: Chart) -> Told:
    """Whether it sends on a channel of its own; which one, charts have no word for."""
    sends = (transmits(chart, topic) for topic in (Topic.PROGRAM, Topic.CONTROL))
    return UNTOLD if any(told.known for told in sends) else NO


def condition(setting: Setting, wanted: str) -> str:
    """When a setting lets something happen: `if PC IN is "on" (GLOBAL > MIDI; factory "off")`."""
    values = [value for value in setting.values if setting.means.get(value, value) == wanted]
    chosen = " or ".join(f'"{value}"' for value in values) or "set so"
    place = f"{setting.where}; " if setting.where else ""
    return f'if {setting.name} is {chosen} ({place}factory "{setting.factory}")'


def modes(chart: Chart) -> tuple[int | None, frozenset[int]]:
    """The mode of the standard that the unit has from the factory, and those it can have.

    1 is omni on, 3 is omni off, None is not told; poly and mono mean nothing to an effect.
    """
    rule = chart.channel
    if rule is None:
        return None, frozenset()
    if rule.omni == "never":
        return 3, frozenset({3})
    if rule.omni == "always":
        return 1, frozenset({1})
    setting = _governing(chart, Governs.OMNI)
    means = setting.means.get(setting.factory, setting.factory) if setting else ""
    return {"on": 1, "off": 3}.get(means), frozenset({1, 3})


def number_ranges(numbers: Iterable[int]) -> str:
    """Whole numbers as a sheet lists them: `1-16`, or `1-4, 9`."""
    ordered = sorted(set(numbers))
    if not ordered:
        return ""
    gaps = [(low, high) for low, high in pairwise(ordered) if high > low + 1]
    starts = [ordered[0], *(high for _, high in gaps)]
    ends = [*(low for low, _ in gaps), ordered[-1]]
    spans = zip(starts, ends, strict=True)
    return ", ".join(f"{low}-{high}" if high > low else str(low) for low, high in spans)


def _able(chart: Chart, topic: Topic) -> bool | None:
    takes = chart.receives
    match topic:
        case Topic.PROGRAM:
            return takes.program
        case Topic.CONTROL:
            return takes.control
        case Topic.NOTE:
            return takes.note
        case Topic.CLOCK:
            return takes.clock
        case Topic.SYSTEM_EXCLUSIVE:
            return takes.system_exclusive
        case _:
            return None


def _governing(chart: Chart, governs: Governs | None) -> Setting | None:
    return next((one for one in chart.settings.values() if one.governs is governs), None)


def _from_memory(sends: frozenset[str], topic: Topic) -> Told:
    """What a controller can be programmed to send."""
    if _SENT_BY_CONTROLLER.get(topic) in sends:
        return Told(known=True, remark="as programmed in its presets")
    if topic in (Topic.CLOCK, Topic.START_STOP, Topic.ACTIVE_SENSING):
        return NO
    return Told(known=True, remark="as raw bytes in a preset") if "raw" in sends else NO
