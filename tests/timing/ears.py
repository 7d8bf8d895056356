"""Units that listen, and messages for them."""

from typing import Any

from tests.rigs import make_chart, make_rig, make_unit
from thruline.rig.unit import Unit
from thruline.timing.receive import Arrival, Reception, listener_of, receive

BYTE = 320
PROGRAMS = {"slots": {"count": 100, "first": 0}}
MIX = {"id": "mix", "name": "Mix", "number": 14}
TIME = {"id": "time", "name": "Time", "number": 16, "message": "cc14", "high": 16383}
GLIDE = {"id": "glide", "name": "Glide", "number": 1030, "message": "nrpn", "high": 16383}
RANGE = {"id": "range", "name": "Bend range", "number": 0, "message": "rpn", "high": 24}
CHOICE = {
    "id": "choice",
    "name": "Choice",
    "number": 18,
    "kind": "steps",
    "zones": [{"label": "low", "low": 0, "high": 40}, {"label": "high", "low": 80, "high": 127}],
}
RECORD = {"id": "record", "name": "Record", "number": 102, "kind": "toggle-any"}
HOLD = {"id": "hold", "name": "Hold", "number": 80, "kind": "momentary"}
CONTROLS = [MIX, TIME, GLIDE, RANGE, CHOICE, RECORD, HOLD]


def unit(*, on: int | None = 3, settings: dict[str, str] | None = None, **chart: Any) -> Unit:
    """A unit with programs and one control of every kind, or what is asked for instead."""
    made = make_chart("bramley", **{"programs": PROGRAMS, "control": CONTROLS, **chart})
    named = make_unit("delay", "bramley", settings=settings or {}, channel=on)
    return make_rig([named], charts=[made]).units["delay"]


def heard(one: Unit, *messages: tuple[int, ...], gap_us: int = 0, start_us: int = 0) -> Reception:
    """What it makes of messages that come one behind the other, `gap_us` apart."""
    arrivals, now = [], start_us
    for message in messages:
        end = now + BYTE * len(message)
        arrivals.append(Arrival(now, end, bytes(message)))
        now = end + gap_us
    return receive(listener_of(one), arrivals)


def fates(one: Unit, *messages: tuple[int, ...], gap_us: int = 0) -> list[str]:
    return [fate.value for fate in heard(one, *messages, gap_us=gap_us).fates]


def program(number: int, channel: int = 3) -> tuple[int, ...]:
    return (0xC0 + channel - 1, number)


def control(number: int, value: int, channel: int = 3) -> tuple[int, ...]:
    return (0xB0 + channel - 1, number, value)
