"""Facts that a chart does not give, and what cannot be told for want of each.

Manuals leave things out. That is no fault of a chart, but it limits what can be proved about every
rig that has the unit; whoever looks a fact up, or measures it, makes the proof say more.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from thruline.base.address import Address, at
from thruline.rig.chart import Chart, Governs, Output, Way
from thruline.rig.controller import Abilities
from thruline.rig.power import Need
from thruline.rig.socket import Socket, SocketKind, is_jack
from thruline.rig.values import Control, ControlKind

_SETTABLE = (ControlKind.RANGE, ControlKind.SWITCH, ControlKind.STEPS)
"""Kinds of control that keep a value."""

_WIRED = (SocketKind.MIDI_IN, SocketKind.MIDI_OUT)


@dataclass(frozen=True, slots=True)
class MissingFact:
    """A fact that is not in a chart: where it would stand, and what cannot be told without it."""

    address: Address
    fact: str
    then: str

    def __str__(self) -> str:
        return f"not given: {self.fact}; so it cannot be told {self.then}"


def missing_facts(chart: Chart) -> tuple[MissingFact, ...]:
    """What a proof would like to know of a model of unit and the chart does not give."""
    return (
        *_of_messages(chart),
        *_of_controls(chart),
        *_of_outputs(chart),
        *_of_sockets(chart),
        *_of_power(chart),
        *_of_abilities(chart),
        *_of_expression(chart),
        *_of_the_whole(chart),
    )


def _lacks(place: Address, facts: Iterable[tuple[str, object, str, str]]) -> Iterator[MissingFact]:
    """The facts, told as (key, value, what it is, what cannot be told), whose value is None."""
    for key, value, fact, then in facts:
        if value is None:
            yield MissingFact(place.child(key) if key else place, fact, then)


def _of_messages(chart: Chart) -> Iterator[MissingFact]:
    """How it hears: channel, kinds of message, the time after a program change."""
    if chart.channel is None:
        return
    if chart.channel.factory is None and chart.channel.omni != "always":
        yield MissingFact(
            at("channel").child("factory"), "the factory channel", "what a reset unit answers to"
        )
    yield from _of_kinds(chart)
    yield from _of_speed(chart)
    if chart.programs is not None:
        yield from _of_settle(chart)


def _of_kinds(chart: Chart) -> Iterator[MissingFact]:
    """Which kinds of message it takes; whoever has a setting for a kind can take it."""
    governed = {setting.governs for setting in chart.settings.values()}
    takes = chart.receives
    asks_programs = chart.programs is not None and Governs.PROGRAM_RECEIVE not in governed
    asks_controls = bool(chart.controls) and Governs.CONTROL_RECEIVE not in governed
    asks_clock = Governs.CLOCK_RECEIVE not in governed
    yield from _lacks(
        at("receive"),
        [
            ("program", takes.program if asks_programs else False,
             "whether it takes program changes", "whether its programs can be reached"),
            ("control", takes.control if asks_controls else False,
             "whether it takes control changes", "whether its controls can be reached"),
            ("clock", takes.clock if asks_clock else False, "whether it follows clock",
             "whether it needs one"),
        ],
    )  # fmt: skip


def _of_speed(chart: Chart) -> Iterator[MissingFact]:
    """How much it can take at once."""
    yield from _lacks(
        at("receive"),
        [
            ("buffer-bytes", chart.receives.buffer_bytes, "the size of its input buffer",
             "whether a dense moment overflows it"),
            ("longest-rate", chart.receives.longest_rate if _is_swept(chart) else 0,
             "how many control changes a second it can follow",
             "whether a sweep is too fast for it"),
        ],
    )  # fmt: skip


def _is_swept(chart: Chart) -> bool:
    return any(control.expression == "good" for control in chart.controls.values())


def _of_settle(chart: Chart) -> Iterator[MissingFact]:
    settle = chart.settle
    if settle is None:
        yield MissingFact(
            at("settle"),
            "how long it loads a program",
            "when it is right after a change, and whether a control change is lost meanwhile",
        )
    elif settle.controls is None and chart.controls:
        yield MissingFact(
            at("settle").child("controls"),
            "what happens to control changes while it loads",
            "whether they are lost",
        )


def _of_controls(chart: Chart) -> Iterator[MissingFact]:
    for control in chart.controls.values():
        if control.kind in _SETTABLE:
            yield from _of_control(chart, control)


def _of_control(chart: Chart, control: Control) -> Iterator[MissingFact]:
    resets = control.stored if chart.programs is not None else False
    keeps = control.power_up if resets is False else 0
    suits = control.expression if control.kind is ControlKind.RANGE else ""
    yield from _lacks(
        at("control", control.id),
        [
            ("stored", resets, f"whether a program sets {control.name}",
             "whether its value is left over from the preset before"),
            ("power-up", keeps, f"what {control.name} is after power-up",
             "its value in a preset that does not set it"),
            ("expression", suits, f"whether {control.name} suits a pedal",
             "whether a sweep of it is smooth"),
        ],
    )  # fmt: skip


def _of_outputs(chart: Chart) -> Iterator[MissingFact]:
    for socket in chart.sockets.values():
        if socket.kind is SocketKind.MIDI_OUT and socket.id not in chart.outputs:
            yield MissingFact(
                at("socket", socket.id),
                f"what {socket.id} does with what comes in",
                "whether anything behind it is reached",
            )
    for output in chart.outputs.values():
        yield from _of_output(output)


def _of_output(output: Output) -> Iterator[MissingFact]:
    again = any(way in (Way.THRU_SOFT, Way.MERGE) for way in output.ways)
    sends = again or Way.OWN in output.ways
    skew = output.skew_ns if Way.THRU_WIRE in output.ways else 0
    yield from _lacks(
        at("output", output.socket),
        [
            ("latency-us", output.latency_us if again else 0, f"the latency of {output.socket}",
             "when messages arrive behind it"),
            ("buffer-bytes", output.buffer_bytes if again else 0, f"the buffer of {output.socket}",
             "whether a dense moment overflows it"),
            ("skew-ns", skew, f"the skew of {output.socket}",
             "how many such copies in a row still work"),
            ("running-status", output.running_status if sends else False,
             f"whether {output.socket} uses running status",
             "how long its messages take, and whether every unit behind it understands them"),
        ],
    )  # fmt: skip


def _of_sockets(chart: Chart) -> Iterator[MissingFact]:
    for socket in chart.sockets.values():
        isolated = socket.isolated if socket.kind is SocketKind.MIDI_IN else True
        wired = socket.wiring if socket.kind in _WIRED and is_jack(socket.connector) else ""
        yield from _lacks(
            at("socket", socket.id),
            [
                ("wiring", wired, f"how MIDI lies on the contacts of {socket.id} (type A, B, ...)",
                 "which lead fits it, and whether anything gets through"),
                ("isolated", isolated, f"whether {socket.id} is isolated",
                 "whether its cable joins two grounds, or works with every sender"),
                ("place", socket.place, f"where {socket.id} sits", "how long its cable must be"),
            ],
        )  # fmt: skip


def _of_power(chart: Chart) -> Iterator[MissingFact]:
    plugs = [socket for socket in chart.sockets.values() if _is_fed(socket)]
    if plugs and chart.power is None:
        yield MissingFact(at("power"), "what it wants of a supply", "whether any outlet suits it")
    if chart.power is not None:
        yield from _of_need(chart.power, is_barrel=any(_is_barrel(chart, one.id) for one in plugs))
    for socket in chart.sockets.values():
        if socket.kind is SocketKind.POWER_OUT and socket.id not in chart.outlets:
            yield MissingFact(
                at("socket", socket.id), f"what {socket.id} gives", "what may be plugged into it"
            )
    if len(chart.outlets) > 1 and chart.supply_milliwatts is None:
        yield MissingFact(
            at("supply").child("milliwatts"),
            "what it gives in all",
            "whether the units on it are too many together",
        )
    for outlet in chart.outlets.values():
        if outlet.polarity is None and not outlet.ac and _is_barrel(chart, outlet.socket):
            yield MissingFact(
                at("outlet", outlet.socket).child("polarity"),
                f"the polarity of {outlet.socket}",
                "whether it harms what is plugged into it",
            )


def _is_fed(socket: Socket) -> bool:
    return socket.kind is SocketKind.POWER_IN and socket.connector != "mains"


def _is_barrel(chart: Chart, socket_id: str) -> bool:
    return socket_id in chart.sockets and chart.sockets[socket_id].connector.startswith("barrel")


def _of_need(need: Need, *, is_barrel: bool) -> Iterator[MissingFact]:
    start = need.start_percent if need.digital is not False else 100
    yield from _lacks(
        at("power"),
        [
            ("milliamps", need.milliamps, "its current", "whether an outlet is strong enough"),
            ("polarity", need.polarity if is_barrel and not need.ac else "none", "its polarity",
             "whether an outlet would harm it"),
            ("start-percent", start, "its current at start-up", "whether everything boots at once"),
            ("digital", need.digital, "whether it is digital", "whether it may share an outlet"),
        ],
    )  # fmt: skip


def _of_abilities(chart: Chart) -> Iterator[MissingFact]:
    if chart.abilities is not None:
        yield from _of_presets(chart.abilities)
    for pedal in chart.pedals.values():
        yield from _lacks(
            at("pedal", pedal.socket),
            [
                (
                    "interval-ms",
                    pedal.interval_ms,
                    f"how often {pedal.socket} sends",
                    "whether a sweep fills the line",
                )
            ],
        )  # fmt: skip


def _of_presets(can: Abilities) -> Iterator[MissingFact]:
    yield from _lacks(
        at("controller"),
        [
            ("name-length", can.name_length, "the width of its display", "whether names fit"),
            ("messages", can.messages, "how many messages a preset holds",
             "whether a preset is too large"),
            ("running-status", can.running_status, "whether it uses running status",
             "how long a preset takes on the wire"),
        ],
    )  # fmt: skip
    if can.pauses is not None and can.pauses.count is None:
        yield MissingFact(
            at("controller").child("pauses").child("count"),
            "how many pauses a preset holds",
            "whether a preset with several pauses can be entered",
        )


def _of_expression(chart: Chart) -> Iterator[MissingFact]:
    if chart.expression is not None:
        yield from _lacks(
            at("expression"),
            [
                ("ohms", chart.expression.ohms, "its resistance", "whether an input can read it"),
                ("taper", chart.expression.taper, "its taper", "how a sweep feels half way"),
            ],
        )  # fmt: skip


def _of_the_whole(chart: Chart) -> Iterator[MissingFact]:
    if chart.size is None:
        yield MissingFact(at("size"), "its size", "whether it fits on the board")
    if chart.channel is not None and not chart.identity:
        yield MissingFact(
            at("identity"), "its identity reply", "whether the unit on the bench is this one"
        )
    if not chart.origins:
        yield MissingFact(at("source"), "where all this comes from", "whom to ask again")
